/* What the box bears while it is built: earth and fill against its walls, machines over it, the hook. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* A placement lower than this is no placement. */
#define LEAST_LIFT_FT 0.25
/* More than any fill asks of a wall. */
#define RING_WALL_FT_LB 1e6

static cw_diags no_faults(const draft *d)
{
    return cw_diags_on(d->arena);
}

static void find_open(draft *d)
{
    const cw_job_strength *given = &d->job->strength;
    cw_plan_strength *s = &d->plan.strength;
    if (d->job->box.form == CW_FORM_RING || !given->has_wall_moment)
        return;
    const cw_struct_open_input in = {
        .wall_ft = draft_base_leg_in(d->job) / CW_IN_PER_FT,
        .allowed_ft_lb = given->wall_moment_ft_lb,
        .earth_pcf = given->earth_pcf,
        .k = given->side_ratio,
        .surcharge_psf = given->surcharge_psf,
        .roller_lb_per_ft = given->roller_lb_per_ft,
        .earth_factor = given->wall_factor,
        .surcharge_factor = cw_rows_value(&d->job->rows, "structure.factor.building.surcharge")};
    cw_diags faults = no_faults(d);
    s->has_open = cw_struct_open_valid(&in, (cw_pos){0}, &faults);
    if (s->has_open)
        s->open = cw_struct_unlidded_fill(&in, draft_working(d, "Earth against a base without its top"));
}

/* ---- fill between barrels ---- */

static cw_struct_fill_input fill_input(const draft *d)
{
    const cw_job *job = d->job;
    const cw_job_strength *given = &job->strength;
    const cw_rows *rows = &job->rows;
    // The wall of a ring is part of a closed frame: it never governs.
    const bool ring = job->box.form == CW_FORM_RING;
    return (cw_struct_fill_input){.top_on = ring || given->key_tight,
                                  .wall_ft = draft_base_leg_in(job) / CW_IN_PER_FT,
                                  .has_allowed = ring || given->has_wall_moment,
                                  .allowed_ft_lb = ring ? RING_WALL_FT_LB : given->wall_moment_ft_lb,
                                  .load_factor = given->present ? given->wall_factor : 1.0,
                                  .fill_pcf = job->fill.unit_weight_pcf,
                                  .floor_ft = job->box.floor_in / CW_IN_PER_FT,
                                  .weight_lb_per_ft = draft_box_lb_per_ft(job, true),
                                  .outside_ft = d->plan.outside_width_in / CW_IN_PER_FT,
                                  .friction = given->present ? given->friction : cw_rows_value(rows, "structure.friction"),
                                  .safety_slide = cw_rows_value(rows, "structure.safety.slide"),
                                  .safety_float = cw_rows_value(rows, "flotation.factor"),
                                  .beneath = job->fill.beneath};
}

static cw_struct_fill limit_at(cw_struct_fill_input in, double set_ft)
{
    in.set_ft = set_ft;
    return cw_struct_wall_fill(&in, NULL);
}

/* Each placement as high as its limit allows; 0 when the fill cannot reach the top of the wall so. */
static int as_high_as_allowed(const cw_struct_fill_input *in, cw_plan_lift *lifts)
{
    int count = 0;
    double set_ft = 0.0;
    while (count < CW_PLAN_LIFTS_MAX) {
        const cw_struct_fill limit = limit_at(*in, set_ft);
        if (limit.lift_ft < LEAST_LIFT_FT && set_ft + limit.lift_ft < in->wall_ft)
            return 0;
        lifts[count++] = (cw_plan_lift){set_ft, set_ft + limit.lift_ft, limit.governs};
        set_ft += limit.lift_ft;
        if (set_ft >= in->wall_ft - CW_SAME_PLACE_FT)
            return count;
    }
    return 0;
}

/* As even as the limits let them be; false when the last one would have to be too high. */
static bool even_lifts(const cw_struct_fill_input *in, cw_plan_lift *lifts, int count)
{
    double set_ft = 0.0;
    for (int i = 0; i < count; i++) {
        const cw_struct_fill limit = limit_at(*in, set_ft);
        const double to_ft = set_ft + fmin(limit.lift_ft, (in->wall_ft - set_ft) / (count - i));
        lifts[i] = (cw_plan_lift){set_ft, to_ft, limit.governs};
        set_ft = to_ft;
    }
    return set_ft >= in->wall_ft - CW_SAME_PLACE_FT;
}

static void find_fill(draft *d)
{
    const cw_job *job = d->job;
    cw_plan_strength *s = &d->plan.strength;
    if (job->barrels.count < 2 || job->fill.kind == 2 || !(job->barrels.clear_gap_in > 0.0))
        return;
    const cw_struct_fill_input in = fill_input(d);
    cw_diags faults = no_faults(d);
    if (!cw_struct_fill_valid(&in, (cw_pos){0}, &faults))
        return;
    s->has_fill = true;
    s->first_fill = cw_struct_wall_fill(&in, draft_working(d, "First placement of fill between barrels"));
    cw_plan_lift high[CW_PLAN_LIFTS_MAX];
    s->lifts_needed = as_high_as_allowed(&in, high);
    s->lift_count = job->fill.placements;
    if (s->lifts_needed == 0 || s->lifts_needed > s->lift_count) {
        s->lift_count = 0;
        return;
    }
    if (even_lifts(&in, s->lifts, s->lift_count))
        return;
    for (int i = 0; i < s->lifts_needed; i++)
        s->lifts[i] = high[i];
    s->lift_count = s->lifts_needed;
}

/* ---- machines ---- */

static double top_capacity_ft_lb(const draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    for (int i = 0; i < s->section_count; i++) {
        const cw_plan_section *section = &s->sections[i];
        if (section->face != CW_STEEL_TOP_INSIDE || !section->has_steel)
            continue;
        const cw_struct_flexure_input in = {.thickness_in = section->thickness_in,
                                            .depth_in = section->depth_in,
                                            .steel_in2_per_ft = section->steel_in2_per_ft,
                                            .concrete_psi = d->job->box.strength_psi,
                                            .yield_psi = d->job->strength.yield_psi,
                                            .phi = d->job->strength.resistance,
                                            .exposure = d->job->strength.exposure};
        return cw_struct_section_flexure(&in, &d->job->rows, NULL).capacity_ft_lb;
    }
    return 0.0;
}

static cw_struct_cross_input cross_input(const draft *d, const cw_plan_crossing *crossing)
{
    const cw_job *job = d->job;
    return (cw_struct_cross_input){.measure = crossing->by_steel ? CW_STRUCT_BY_MOMENT : CW_STRUCT_BY_DESIGN,
                                   .vehicle = draft_vehicle(d, crossing->given),
                                   .rule = job->strength.spread,
                                   .cover_ft = crossing->cover_ft,
                                   .span_in = job->box.span_in,
                                   .wall_in = job->box.wall_in,
                                   .top_in = job->box.top_in,
                                   .earth_pcf = job->strength.earth_pcf,
                                   .concrete_pcf = job->box.concrete_pcf,
                                   .capacity_ft_lb = crossing->by_steel ? top_capacity_ft_lb(d) : 0.0,
                                   .design_cover_ft = crossing->design_cover_ft,
                                   .least_ft = job->order.cover_before_equipment_ft};
}

/* The box carries the design traffic at every cover it is designed for: the one that asks most of it counts. */
static void by_design(const draft *d, cw_plan_crossing *crossing)
{
    const cw_plan_strength *s = &d->plan.strength;
    double most = 0.0;
    for (int cover = 0; cover < s->cover_count; cover++) {
        cw_plan_crossing trial = *crossing;
        trial.design_cover_ft = fmax(s->cover_ft[cover], LEAST_LIFT_FT);
        const cw_struct_cross_input in = cross_input(d, &trial);
        const double allowed = cw_struct_machine_cover(&in, &d->job->rows, NULL).allowed;
        if (allowed <= most)
            continue;
        most = allowed;
        crossing->design_cover_ft = trial.design_cover_ft;
    }
}

static void find_crossings(draft *d)
{
    const cw_job_strength *given = &d->job->strength;
    cw_plan_strength *s = &d->plan.strength;
    cw_plan_crossing *crossings = CW_TAKE(d->arena, cw_plan_crossing, given->vehicle_count);
    for (int v = 0; v < given->vehicle_count; v++) {
        const cw_job_vehicle *vehicle = &given->vehicles[v];
        if (vehicle->use != CW_VEHICLE_CROSSING)
            continue;
        cw_plan_crossing *crossing = &crossings[s->crossing_count];
        *crossing = (cw_plan_crossing){.given = vehicle,
                                       .cover_ft = vehicle->has_cover ? vehicle->cover_ft
                                                                      : d->job->order.cover_before_equipment_ft,
                                       .by_steel = top_capacity_ft_lb(d) > 0.0};
        if (!crossing->by_steel && (s->cover_count == 0 || !given->design_traffic))
            continue; // nothing to hold it against: the ledger says so
        if (!crossing->by_steel)
            by_design(d, crossing);
        const cw_struct_cross_input in = cross_input(d, crossing);
        crossing->cross = cw_struct_machine_cover(
            &in, &d->job->rows, draft_working(d, cw_arena_print(d->arena, "Crossing: %s", vehicle->name)));
        for (int i = 0; i <= CW_PLAN_CROSS_STEPS; i++)
            crossing->use[i] = cw_struct_cross_demand(&in, i * CW_PLAN_CROSS_STEP_FT, &d->job->rows) /
                               crossing->cross.allowed;
        s->crossing_count++;
    }
    s->crossings = crossings;
}

/* ---- on the hook ---- */

static const cw_plan_type *heaviest_of(const draft *d, cw_order_row row)
{
    const cw_plan_type *most = NULL;
    for (int i = 0; i < d->plan.type_count; i++)
        if (d->plan.types[i].row == row && (!most || d->plan.types[i].weight.weight_lb > most->weight.weight_lb))
            most = &d->plan.types[i];
    return most;
}

static void find_lift(draft *d, cw_order_row row, cw_plan_handling *out)
{
    const cw_job *job = d->job;
    const cw_plan_type *type = heaviest_of(d, row);
    const double width_in = job->box.span_in + 2.0 * job->box.wall_in;
    // A hood hangs from its crown with its legs, and a ring is one piece: the precaster's own drawings rule there.
    if (!type || job->box.form == CW_FORM_RING || (row == CW_ORDER_TOP && job->box.form != CW_FORM_LID))
        return;
    const double aside_ft = fabs(type->picks.x_ft[1]);
    out->sling_deg =
        job->lifting.spreader ? 90.0 : atan2(job->lifting.hook_ft, aside_ft) / CW_RAD_PER_DEG;
    const cw_struct_lift_input in = {.piece = row == CW_ORDER_BASE ? CW_STRUCT_BASE_PIECE : CW_STRUCT_TOP_PIECE,
                                     .span_in = job->box.span_in,
                                     .wall_in = job->box.wall_in,
                                     .slab_in = row == CW_ORDER_BASE ? job->box.floor_in : job->box.top_in,
                                     .leg_in = row == CW_ORDER_BASE ? draft_base_leg_in(job) : 0.0,
                                     .length_ft = type->shape.length_in / CW_IN_PER_FT,
                                     .weight_lb = type->weight.weight_lb,
                                     .concrete_pcf = job->box.concrete_pcf,
                                     .concrete_psi = job->strength.lift_psi,
                                     .sling_deg = out->sling_deg,
                                     .overhang_in = width_in / 2.0 - aside_ft * CW_IN_PER_FT,
                                     .dynamic = cw_rows_value(&job->rows, "structure.handling.dynamic")};
    cw_diags faults = no_faults(d);
    if (!cw_struct_lift_valid(&in, (cw_pos){0}, &faults))
        return;
    out->type = type;
    out->lift = cw_struct_handling(
        &in, &job->rows, draft_working(d, cw_arena_print(d->arena, "Bending of mark %s on the hook", type->mark)));
}

void draft_stages(draft *d)
{
    cw_plan_strength *s = &d->plan.strength;
    find_fill(d);
    if (!d->job->strength.present)
        return;
    find_open(d);
    find_crossings(d);
    find_lift(d, CW_ORDER_BASE, &s->base_lift);
    find_lift(d, CW_ORDER_TOP, &s->top_lift);
}
