/* Both branches of one barrel, the jump between them, and what leaves at the outlet. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "hydraulics_internal.h"

/* Normal and critical depth closer than this: the surface is unsteady (common practice). */
#define NEAR_CRITICAL_RATIO 0.01

/* ---- depth along a branch ---- */

static double on_branch(const cw_water_branch *branch, double opening_ft, double x_ft)
{
    const cw_water_node *nodes = branch->nodes;
    int low = 0, high = branch->count - 1;
    if (x_ft <= nodes[0].x_ft)
        return nodes[0].head_ft;
    if (x_ft >= nodes[high].x_ft)
        return nodes[high].head_ft;
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (nodes[middle].x_ft <= x_ft)
            low = middle;
        else
            high = middle;
    }
    const cw_water_node *a = &nodes[low], *b = &nodes[high];
    const double length = b->x_ft - a->x_ft, at = x_ft - a->x_ft;
    if (!(length > 0.0))
        return b->head_ft;
    const bool full = fmin(a->head_ft, b->head_ft) >= opening_ft;
    if (full || a->head_ft == b->head_ft)
        return a->head_ft + (b->head_ft - a->head_ft) * at / length;
    return cw_water_between((double[2]){a->run_ft, b->run_ft}, (double[2]){a->head_ft, b->head_ft},
                            length, at);
}

double cw_water_depth_at(const cw_water_profile *profile, double x_ft)
{
    const double x = fmin(fmax(x_ft, 0.0), profile->length_ft);
    const bool fast =
        profile->regime == CW_WATER_FAST || (profile->has_jump && x < profile->jump_ft);
    const cw_water_branch *branch = fast ? &profile->fast : &profile->slow;
    if (branch->count > 0)
        return on_branch(branch, profile->opening_ft, x);
    /* Still water: a level pool over a sloping floor. */
    return fmax(profile->outlet_depth_ft - profile->slope * (profile->length_ft - x), 0.0);
}

/* ---- the jump ---- */

/* Momentum and pressure per unit of span and of specific weight; past the lid the whole opening is
 * pressed by the excess.  Source: momentum equation for a rectangular conduit. */
static double momentum(const cw_water_run *run, double head_ft)
{
    const double top = run->box->rise_ft;
    const double depth = fmin(head_ft, top);
    return 2.0 * run->head_q / depth + 0.5 * depth * depth + depth * (head_ft - depth);
}

typedef struct meeting {
    const cw_water_profile *profile;
    const cw_water_run *run;
} meeting;

/* Relative excess of the slow branch's momentum. */
static double momentum_miss(const void *about, double x_ft)
{
    const meeting *of = about;
    const double top = of->profile->opening_ft;
    const double fast = momentum(of->run, on_branch(&of->profile->fast, top, x_ft));
    const double slow = momentum(of->run, on_branch(&of->profile->slow, top, x_ft));
    return slow / fast - 1.0;
}

/* Inside when the slow branch is the stronger at the outlet; then the jump stands where both are
 * equal. */
static void find_jump(const cw_water_run *run, cw_water_profile *profile)
{
    const meeting of = {profile, run};
    const double length = profile->length_ft;
    if (profile->slow.count == 0 || momentum_miss(&of, length) <= 0.0)
        return;
    const cw_water_root root =
        cw_water_hunt(momentum_miss, &of, profile->slow.nodes[0].x_ft, length);
    profile->has_jump = true;
    profile->jump_ft = root.value;
    profile->jump_residual = root.residual;
    if (root.status != CW_WATER_OK)
        profile->status = root.status;
    const double top = profile->opening_ft;
    profile->jump_before_ft = on_branch(&profile->fast, top, root.value);
    profile->jump_after_ft = on_branch(&profile->slow, top, root.value);
    profile->jump_at_lid = profile->jump_after_ft >= top;
}

/* ---- the whole ---- */

static void leave(const cw_water_run *run, double depth_ft, cw_water_profile *profile)
{
    const double depth = fmin(depth_ft, run->box->rise_ft);
    profile->outlet_depth_ft = depth;
    profile->outlet_velocity_fps = run->flow_cfs / (run->box->span_ft * depth);
    profile->outlet_froude = profile->outlet_velocity_fps / sqrt(CW_WATER_GRAVITY * depth);
}

static cw_water_regime regime_of(const cw_water_run *run, const cw_water_traced *slow)
{
    const double length = run->box->length_ft;
    if (slow->full_ft >= length)
        return CW_WATER_FULL;
    if (slow->full_ft > 0.0)
        return CW_WATER_PART_FULL;
    return run->steep ? CW_WATER_DROWNED : CW_WATER_SLOW;
}

static void fill_depths(const cw_water_run *run, cw_water_profile *profile)
{
    profile->critical_ft = run->critical_ft;
    profile->normal = run->normal;
    profile->has_normal = run->has_normal;
    profile->full_slope = run->full_slope;
    profile->near_critical = run->has_normal && fabs(run->normal_ft - run->critical_ft) <=
                                                    NEAR_CRITICAL_RATIO * run->critical_ft;
}

void cw_water_profile_of(const cw_water_barrel *barrel, double flow_cfs, double tail_ft,
                         double tail_velocity_fps, cw_water_profile *profile)
{
    const cw_water_box box = cw_water_box_of(barrel);
    /* All but the nodes, of which only those that are counted are ever read. */
    memset(profile, 0, offsetof(cw_water_profile, slow));
    profile->slow.count = profile->fast.count = 0;
    profile->flow_cfs = flow_cfs;
    profile->slope = box.slope;
    profile->length_ft = box.length_ft;
    profile->opening_ft = box.rise_ft;
    profile->span_ft = box.span_ft;
    cw_water_solved solved;
    cw_water_solve(barrel, &box, flow_cfs, (double[2]){tail_ft, tail_velocity_fps}, &profile->slow,
                   &solved);
    profile->head = solved.head;
    profile->status = profile->head.status;
    if (profile->status != CW_WATER_OK)
        return;
    if (flow_cfs == 0.0) {
        profile->regime = CW_WATER_STILL;
        profile->outlet_depth_ft = fmin(fmax(tail_ft, 0.0), box.rise_ft);
        return;
    }
    const cw_water_run *run = &solved.run;
    profile->inlet = solved.inlet;
    fill_depths(run, profile);
    if (solved.slow.end == CW_WATER_AT_LENGTH) {
        profile->regime = regime_of(run, &solved.slow);
        leave(run, solved.start_ft, profile);
        return;
    }
    const cw_water_traced fast = cw_water_trace_fast(run, &profile->fast);
    find_jump(run, profile);
    profile->regime = profile->has_jump ? CW_WATER_JUMPS : CW_WATER_FAST;
    leave(run, profile->has_jump ? solved.start_ft : fast.head_ft, profile);
}
