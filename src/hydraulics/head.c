/* Headwater of one barrel: the larger of what the inlet and what the outlet asks for.
 *
 * Three places where the usual rules make a rating that steps or falls, and what is done there:
 *
 * Depth y behind the inlet asks for y + (1 + k) V^2/2g, which has its least value at (1 + k)^(1/3)
 * yc (derived: its derivative is 1 - (1 + k) Fr^2).  Nearer to critical depth the least value is
 * kept: a barrel that fills must not ask for less.  The rule itself would give at most 2 % more
 * there with k = 0.5, and 5 % with k = 0.9.
 *
 * A steep barrel with low tailwater has no curve that joins outlet and inlet.  As the tailwater
 * rises the curve grows until it reaches the inlet; there it asks for more than some inlet laws
 * give.  So the energy line of the curve is carried on to the inlet with the friction of critical
 * flow.  It never falls with flow (derived: for one energy, friction does not fall with flow), and
 * it exceeds the inlet law only where the curve ends close inside the barrel or the slope is close
 * to critical.
 *
 * When full, a barrel has more friction than just before, by the lid.  Where the slope lies between
 * the two it fills all at once.  The headwater is led over: in the last twentieth of the rise at
 * the outlet from free to full, and where the surface runs within 1/500 of the rise under the lid
 * by counting that length as full in part.  (Real barrels surge there.) */
#include <math.h>

#include "hydraulics_internal.h"

typedef struct outlet {
    bool has;
    bool bridged;
    double head_ft;
} outlet;

/* Depth, or pressure head, behind the inlet that asks for the least headwater. */
static double least_depth(const cw_water_run *run)
{
    return cw_water_lesser(cbrt(1.0 + run->box->entrance_factor) * run->critical_ft,
                           run->box->rise_ft);
}

/* Energy and entrance loss with this depth behind the inlet. */
static double asked_by(const cw_water_run *run, double head_ft)
{
    return head_ft + (1.0 + run->box->entrance_factor) * cw_water_velocity_head(run, head_ft);
}

static outlet outlet_free(const cw_water_run *run, const cw_water_traced *slow, double inlet_ft)
{
    const cw_water_box *box = run->box;
    const double least = least_depth(run);
    if (slow->end == CW_WATER_AT_LENGTH) {
        const double more = cw_water_greater(run->full_slope - box->slope, 0.0) * slow->near_ft;
        return (outlet){.has = true,
                        .head_ft = asked_by(run, cw_water_greater(slow->head_ft, least)) + more};
    }
    const double choke = cw_water_lesser(run->critical_ft, box->rise_ft);
    const double loss = asked_by(run, least) - choke - cw_water_velocity_head(run, choke);
    double energy;
    if (!cw_water_carry_on(run, box->length_ft - slow->at_ft, inlet_ft - loss, &energy))
        return (outlet){.has = false};
    return (outlet){.has = energy + loss > inlet_ft, .bridged = true, .head_ft = energy + loss};
}

/* The part of the rise below the lid in which filling is led over, and the excess of the full
 * friction slope over that of the barrel at which it takes all of that part. */
#define FILLS_FROM 0.95
#define FILLS_EXCESS 0.1

static outlet outlet_head(const cw_water_solved *solved)
{
    const cw_water_run *run = &solved->run;
    const double start_ft = solved->start_ft, inlet_ft = solved->inlet.headwater_ft;
    const outlet open = outlet_free(run, &solved->slow, inlet_ft);
    const double top = run->box->rise_ft, slope = run->box->slope;
    const double excess = run->full_slope - slope;
    const double left = (top - start_ft) / ((1.0 - FILLS_FROM) * top);
    if (!(excess > 0.0) || !(left > 0.0 && left < 1.0))
        return open;
    const double room = slope > 0.0 ? cw_water_lesser(excess / (FILLS_EXCESS * slope), 1.0) : 1.0;
    const double weight = cw_water_greater(1.0 - left / room, 0.0);
    const double full = asked_by(run, top + excess * run->box->length_ft);
    const double from = open.has ? cw_water_greater(open.head_ft, inlet_ft) : inlet_ft;
    if (weight == 0.0 || full <= from)
        return open;
    return (outlet){.has = true, .bridged = true, .head_ft = from + weight * (full - from)};
}

/* Still water stands at the tailwater, or at the outlet's sill where that is the higher one. */
static cw_water_head still_head(const cw_water_box *box, double tail_ft)
{
    const double still = cw_water_greater(tail_ft, 0.0) - box->slope * box->length_ft;
    const double head = cw_water_greater(still, 0.0);
    return (cw_water_head){
        .headwater_ft = head,
        .has_outlet = still > 0.0,
        .outlet_ft = head,
        .control = still > 0.0 ? CW_WATER_BY_OUTLET : CW_WATER_BY_INLET,
    };
}

void cw_water_solve(const cw_water_barrel *barrel, const cw_water_box *box, double flow_cfs,
                    const double tail[2], cw_water_branch *slow, cw_water_solved *solved)
{
    cw_water_head *head = &solved->head;
    if (slow)
        slow->count = 0;
    if (!(flow_cfs >= 0.0 && flow_cfs < CW_ANY_HIGH)) {
        *head = (cw_water_head){.status = CW_WATER_BAD_FLOW};
        return;
    }
    if (flow_cfs == 0.0) {
        *head = still_head(box, tail[0]);
        return;
    }
    const double open = box->span_ft * (1.0 - barrel->blocked_ratio);
    solved->inlet =
        cw_water_inlet_control(&barrel->inlet, open, box->rise_ft, box->slope, flow_cfs);
    solved->run = cw_water_run_of(box, flow_cfs);
    solved->start_ft =
        cw_water_outlet_head(&solved->run, tail[0], tail[1], barrel->channel_velocity);
    solved->slow = cw_water_trace_slow(&solved->run, solved->start_ft, slow);
    const outlet out = outlet_head(solved);
    *head = (cw_water_head){.status = CW_WATER_OK, .inlet_ft = solved->inlet.headwater_ft};
    head->has_outlet = out.has;
    head->bridged = out.has && out.bridged;
    head->outlet_ft = out.has ? out.head_ft : 0.0;
    head->control =
        out.has && out.head_ft > head->inlet_ft ? CW_WATER_BY_OUTLET : CW_WATER_BY_INLET;
    head->headwater_ft = head->control == CW_WATER_BY_OUTLET ? head->outlet_ft : head->inlet_ft;
}

cw_water_head cw_water_head_of(const cw_water_barrel *barrel, double flow_cfs, double tail_ft,
                               double tail_velocity_fps)
{
    const cw_water_box box = cw_water_box_of(barrel);
    cw_water_solved solved;
    cw_water_solve(barrel, &box, flow_cfs, (double[2]){tail_ft, tail_velocity_fps}, NULL, &solved);
    return solved.head;
}
