/* Headwater of one barrel: the larger of what the inlet and what the outlet asks for.
 *
 * A steep barrel with low tailwater has no curve that joins outlet and inlet.  As the tailwater rises
 * the curve grows until it reaches the inlet at critical depth; there it asks for the critical energy and the
 * entrance loss, which is more than some inlet laws give.  A step in the headwater would make a rating
 * that falls, so the energy line of the outlet's curve is carried on to the inlet with the friction of
 * critical flow.  It never falls with flow (derived: for one energy, friction does not fall with
 * flow), and lies above the inlet law only when the curve ends close inside the barrel or the slope is
 * close to critical. */
#include <math.h>

#include "hydraulics_internal.h"

typedef struct outlet {
    bool has;
    bool bridged;
    double head_ft;
} outlet;

static outlet outlet_head(const cw_water_run *run, double start_ft, double inlet_ft)
{
    const cw_water_box *box = run->box;
    const double factor = box->entrance_factor;
    const cw_water_traced slow = cw_water_trace_slow(run, start_ft, NULL);
    if (slow.end == CW_WATER_AT_LENGTH) {
        const double velocity = cw_water_velocity_head(run, slow.head_ft);
        return (outlet){.has = true, .head_ft = slow.head_ft + velocity * (1.0 + factor)};
    }
    const double choke = fmin(run->critical_ft, box->rise_ft);
    const double loss = factor * cw_water_velocity_head(run, choke);
    double energy;
    if (!cw_water_carry_on(run, box->length_ft - slow.at_ft, inlet_ft - loss, &energy))
        return (outlet){.has = false};
    return (outlet){.has = energy + loss > inlet_ft, .bridged = true, .head_ft = energy + loss};
}

cw_water_head cw_water_head_in(const cw_water_barrel *barrel, const cw_water_box *box,
                               double flow_cfs, double tail_ft, double tail_velocity_fps)
{
    if (!(flow_cfs >= 0.0 && flow_cfs < CW_ANY_HIGH))
        return (cw_water_head){.status = CW_WATER_BAD_FLOW};
    const double still = tail_ft - box->slope * box->length_ft;
    cw_water_head head = {.status = CW_WATER_OK};
    if (flow_cfs == 0.0) {
        head.has_outlet = still > 0.0;
        head.outlet_ft = head.headwater_ft = fmax(still, 0.0);
        head.control = head.has_outlet ? CW_WATER_BY_OUTLET : CW_WATER_BY_INLET;
        return head;
    }
    const double open = box->span_ft * (1.0 - barrel->blocked_ratio);
    head.inlet_ft =
        cw_water_inlet_control(&barrel->inlet, open, box->rise_ft, box->slope, flow_cfs)
            .headwater_ft;
    const cw_water_run run = cw_water_run_of(box, flow_cfs);
    const double start =
        cw_water_outlet_head(&run, tail_ft, tail_velocity_fps, barrel->channel_velocity);
    const outlet out = outlet_head(&run, start, head.inlet_ft);
    head.has_outlet = out.has;
    head.bridged = out.has && out.bridged;
    head.outlet_ft = out.has ? out.head_ft : 0.0;
    head.control = out.has && out.head_ft > head.inlet_ft ? CW_WATER_BY_OUTLET : CW_WATER_BY_INLET;
    head.headwater_ft =
        head.control == CW_WATER_BY_OUTLET ? head.outlet_ft : head.inlet_ft;
    return head;
}

cw_water_head cw_water_head_of(const cw_water_barrel *barrel, double flow_cfs, double tail_ft,
                               double tail_velocity_fps)
{
    const cw_water_box box = cw_water_box_of(barrel);
    return cw_water_head_in(barrel, &box, flow_cfs, tail_ft, tail_velocity_fps);
}
