/* A box barrel with a flow in it: friction, normal and critical depth. */
#include <math.h>

#include "hydraulics_internal.h"

enum { NORMAL_STEPS_MAX = 60 };

/* A step of Halley shorter than this part of the depth is the last: the next would be its cube. */
#define NORMAL_STEP_RATIO 1e-6

/* The reported bracket of a normal depth, on either side. */
#define NORMAL_BRACKET_RATIO 1e-9

double cw_water_opening_ft(const cw_water_barrel *barrel)
{
    return barrel->rise_ft - barrel->bed_ft;
}

double cw_water_sill_ft(const cw_water_barrel *barrel)
{
    return barrel->inlet_floor_ft + barrel->bed_ft;
}

double cw_water_outlet_sill_ft(const cw_water_barrel *barrel)
{
    return barrel->outlet_floor_ft + barrel->bed_ft;
}

double cw_water_slope(const cw_water_barrel *barrel)
{
    return (barrel->inlet_floor_ft - barrel->outlet_floor_ft) / barrel->length_ft;
}

static bool between(double value, double low, double high)
{
    return value >= low && value <= high;
}

/* Limits that catch slips of the pen: common practice. */
cw_water_status cw_water_barrel_check(const cw_water_barrel *barrel)
{
    const bool size = between(barrel->span_ft, 0.1, 100.0) &&
                      between(barrel->rise_ft, 0.1, 100.0) && barrel->bed_ft >= 0.0 &&
                      cw_water_opening_ft(barrel) >= 0.05 && between(barrel->length_ft, 0.1, 1e5);
    const bool place = isfinite(barrel->inlet_floor_ft) && isfinite(barrel->outlet_floor_ft) &&
                       size && fabs(cw_water_slope(barrel)) <= 0.5;
    const bool rough = between(barrel->n, 0.005, 0.2) &&
                       (barrel->bed_ft == 0.0 || between(barrel->bed_n, 0.005, 0.2));
    const bool losses = between(barrel->entrance_loss, 0.0, 5.0) &&
                        between(barrel->other_loss, 0.0, 50.0) &&
                        between(barrel->blocked_ratio, 0.0, 0.9);
    if (!place || !rough || !losses)
        return CW_WATER_BAD_BARREL;
    const cw_water_inlet *inlet = &barrel->inlet;
    const bool law = between(inlet->k, 0.0, 10.0) && between(inlet->m, 0.1, 3.0) &&
                     between(inlet->c, 1e-4, 1.0) && between(inlet->y, 0.0, 5.0) &&
                     between(inlet->slope_factor, -1.0, 1.0) &&
                     (inlet->with_critical || inlet->k > 0.0);
    return law ? CW_WATER_OK : CW_WATER_BAD_INLET;
}

static double power_one_half(double n)
{
    return n * sqrt(n);
}

cw_water_box cw_water_box_of(const cw_water_barrel *barrel)
{
    const double rise = cw_water_opening_ft(barrel);
    const double open = 1.0 - barrel->blocked_ratio;
    const double bed_n = barrel->bed_ft > 0.0 ? barrel->bed_n : barrel->n;
    return (cw_water_box){
        .span_ft = barrel->span_ft,
        .rise_ft = rise,
        .slope = cw_water_slope(barrel),
        .length_ft = barrel->length_ft,
        .walls = power_one_half(barrel->n),
        .side = 2.0 * power_one_half(barrel->n) / barrel->span_ft,
        .bed = power_one_half(bed_n),
        .bed_n = bed_n,
        .entrance_factor = barrel->entrance_loss / (open * open) + barrel->other_loss,
    };
}

/* With the lid wet as well. */
static double full_friction(const cw_water_box *box, double rough_q)
{
    const double rough = cw_water_rough(box, box->rise_ft) + box->walls / box->rise_ft;
    return rough_q / (box->rise_ft * box->rise_ft) * cw_water_four_thirds(rough);
}

/* With y0, the depth where the walls are smooth, t = y/y0 and k = walls/bed at y0, Manning's
 * equation to the power of three is t^5 = (1 + k t)^2 (derived).  Its root lies at 1 + 0.4 k within
 * a few percent to k = 10; the curve is convex about the root and above it, so that a step from
 * below is at most one too far, and from above none is. */
static double ratio_to_smooth(double k, cw_water_root *root)
{
    double t = 1.0 + 0.4 * k;
    root->status = CW_WATER_NOT_FOUND;
    while (root->iterations < NORMAL_STEPS_MAX) {
        const double line = 1.0 + k * t, t3 = t * t * t;
        const double miss = t3 * t * t - line * line;
        const double rate = 5.0 * t3 * t - 2.0 * k * line;
        const double bend = 20.0 * t3 - 2.0 * k * k;
        const double step = -2.0 * miss * rate / (2.0 * rate * rate - miss * bend);
        t += step;
        root->iterations++;
        /* The power of three triples the relative miss of the flow. */
        root->residual = miss / (3.0 * line * line);
        if (fabs(step) <= NORMAL_STEP_RATIO * t) {
            root->status = CW_WATER_OK;
            break;
        }
    }
    return t;
}

cw_water_root cw_water_box_normal(const cw_water_box *box, double flow_cfs)
{
    cw_water_root root = {.status = CW_WATER_NO_NORMAL};
    if (!(box->slope > 0.0))
        return root;
    root.status = CW_WATER_OK;
    if (!(flow_cfs > 0.0))
        return root;
    const double q = flow_cfs / box->span_ft;
    const double smooth = pow(q * box->bed_n / (CW_WATER_MANNING * sqrt(box->slope)), 0.6);
    const double k = 2.0 * smooth * box->walls / (box->span_ft * box->bed);
    root.value = smooth * ratio_to_smooth(k, &root);
    root.low = root.value * (1.0 - NORMAL_BRACKET_RATIO);
    root.high = root.value * (1.0 + NORMAL_BRACKET_RATIO);
    return root;
}

cw_water_run cw_water_run_of(const cw_water_box *box, double flow_cfs)
{
    const double q = flow_cfs / box->span_ft;
    const double rough_q = q * q / (CW_WATER_MANNING * CW_WATER_MANNING);
    cw_water_run run = {
        .box = box,
        .flow_cfs = flow_cfs,
        .head_q = q * q / TWO_G,
        .rough_q = rough_q,
        .critical_ft = cbrt(q * q / CW_WATER_GRAVITY),
        .full_slope = full_friction(box, rough_q),
        .normal = cw_water_box_normal(box, flow_cfs),
    };
    run.has_normal = run.normal.status == CW_WATER_OK;
    run.normal_ft = run.normal.value;
    run.steep = run.has_normal && run.normal_ft < cw_water_lesser(run.critical_ft, box->rise_ft);
    return run;
}

double cw_water_outlet_head(const cw_water_run *run, double tail_ft, double tail_velocity_fps,
                            bool channel_velocity)
{
    const double least = cw_water_lesser(run->critical_ft, run->box->rise_ft);
    double head = tail_ft;
    /* Exit loss (V^2 - Vd^2)/2g, never below 0: the line at the outlet lies lower than the
     * tailwater by what is won. */
    if (channel_velocity && head > least)
        head -= cw_water_lesser(tail_velocity_fps * tail_velocity_fps / TWO_G,
                                cw_water_velocity_head(run, head));
    return cw_water_greater(head, least);
}
