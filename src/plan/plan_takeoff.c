/* Quantities of the plan.  Exact here; rounding only in the printed figure, with its direction. */
#include "plan_internal.h"

#include <math.h>

#include "cw/units.h"

enum { QUANTITIES_MAX = 120 };

void draft_quantity(draft *d, cw_plan_quantity quantity)
{
    cw_plan *plan = &d->plan;
    if (plan->quantity_count == QUANTITIES_MAX)
        return;
    cw_plan_quantity *list = (cw_plan_quantity *)plan->quantities;
    list[plan->quantity_count++] = quantity;
}

static void add_exact(draft *d, const char *group, const char *item, double value, cw_dim dim, const char *rule)
{
    draft_quantity(d, (cw_plan_quantity){group, item, dim, value, value, CW_ROUND_NONE, rule});
}

static void add_order(draft *d, const char *group, const char *item, cw_order amount, cw_dim dim, const char *rule)
{
    draft_quantity(d, (cw_plan_quantity){group, item, dim, amount.exact, amount.up, CW_ROUND_UP, rule});
}

static void add_pieces(draft *d)
{
    const cw_plan *plan = &d->plan;
    cw_takeoff_mark *marks = CW_TAKE(d->arena, cw_takeoff_mark, plan->type_count);
    for (int i = 0; i < plan->type_count; i++) {
        const cw_plan_type *type = &plan->types[i];
        marks[i] = (cw_takeoff_mark){type->mark, type->count, type->weight.volume_cuft, type->weight.weight_lb};
        add_exact(d, "Pieces by mark", cw_arena_print(d->arena, "%s  %s", type->mark, type->name), type->count,
                  CW_DIM_COUNT, "counted");
    }
    const cw_takeoff_concrete concrete = cw_takeoff_concrete_of(marks, plan->type_count);
    const char *net = "sum over marks of count x volume: haunches, tongue and groove, openings and cuts taken in";
    add_exact(d, "Pieces", "Pieces to set", concrete.pieces, CW_DIM_COUNT, "counted");
    add_exact(d, "Pieces", "Concrete in pieces", concrete.volume_cy, CW_DIM_CY, net);
    add_exact(d, "Pieces", "Weight of pieces", concrete.weight_lb, CW_DIM_LB, net);
    add_exact(d, "Pieces", cw_arena_print(d->arena, "Heaviest piece (%s)", concrete.heaviest ? concrete.heaviest : "-"),
              concrete.heaviest_lb, CW_DIM_LB, "greatest over marks, no pick factor");
    add_exact(d, "Pieces", "Truck loads, nothing staged", plan->trucks.loads, CW_DIM_COUNT,
              "contiguous blocks of the setting order by payload and deck places");
}

static void add_lengths(draft *d)
{
    const cw_plan *plan = &d->plan;
    double laid_ft = 0.0;
    int joints = 0;
    for (int b = 0; b < plan->barrel_count; b++) {
        const int rows[2] = {plan->barrels[b].base_count, plan->barrels[b].top_count};
        laid_ft += plan->barrels[b].laid_in / CW_IN_PER_FT;
        joints += cw_takeoff_joints(rows, 2);
    }
    add_exact(d, "Lengths", "Laid length, all barrels (slope)", laid_ft, CW_DIM_FT,
              "sum of laying lengths and gaps, along the slope");
    draft_quantity(d, (cw_plan_quantity){"Lengths", "Pay length, all barrels (plan)", CW_DIM_FT, laid_ft / plan->slope_factor,
                              plan->pay_length_ft, CW_ROUND_NEAREST,
                              "plan length on the centre of the floor, each barrel to the nearest foot, halves up; the "
                              "contract governs"});
    add_exact(d, "Lengths", "Transverse joints", joints, CW_DIM_COUNT, "pieces less one in every row");
}

static cw_sealant_input sealant_of(const draft *d)
{
    const cw_job *job = d->job;
    cw_sealant_input input = {.form = job->box.form,
                              .span_in = job->box.span_in,
                              .wall_in = job->box.wall_in,
                              .floor_in = job->box.floor_in,
                              .top_in = job->box.top_in,
                              .leg_in = draft_base_leg_in(job),
                              .top_leg_in = draft_top_leg_in(job),
                              .rows = job->sealant.rows,
                              .seat_rows = job->sealant.seat_rows,
                              .roll_ft = job->sealant.roll_ft,
                              .splice_in = job->sealant.splice_in,
                              .waste_percent = job->sealant.waste_percent};
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const cw_plan_barrel *barrel = &d->plan.barrels[b];
        input.base_joints += barrel->base_count - 1;
        input.top_joints += barrel->top_count > 0 ? barrel->top_count - 1 : 0;
        input.seat_ft += barrel->laid_in / CW_IN_PER_FT;
    }
    return input;
}

static void add_joints(draft *d)
{
    const cw_plan *plan = &d->plan;
    const cw_job *job = d->job;
    const cw_sealant_input input = sealant_of(d);
    const cw_sealant sealant = cw_takeoff_sealant(&input, draft_working(d, "Joint sealant"));
    add_exact(d, "Joints", "Sealant in base joints", sealant.base_ft, CW_DIM_FT, "centre line of the tongue, all rows");
    if (input.top_joints > 0)
        add_exact(d, "Joints", "Sealant in top joints", sealant.top_ft, CW_DIM_FT, "centre line of the tongue, all rows");
    if (sealant.seat_ft > 0.0)
        add_exact(d, "Joints", "Sealant on wall tops", sealant.seat_ft, CW_DIM_FT, "both walls, all rows");
    add_order(d, "Joints", "Sealant to order", sealant.length, CW_DIM_FT, "net length, splices and waste");
    add_exact(d, "Joints", "Sealant rolls", sealant.rolls, CW_DIM_COUNT, "rounded up to whole rolls");

    const cw_row *strip = draft_row(d, "wrap.width"), *lap = draft_row(d, "wrap.lap");
    int most_joints = 0;
    double laid_ft = 0.0;
    for (int b = 0; b < plan->barrel_count; b++) {
        most_joints = plan->barrels[b].base_count - 1 > most_joints ? plan->barrels[b].base_count - 1 : most_joints;
        laid_ft = fmax(laid_ft, plan->barrels[b].laid_in / CW_IN_PER_FT);
    }
    const cw_wrap_input wrap_input = {.width_in = plan->outside_width_in,
                                      .height_in = job->box.floor_in + job->box.rise_in + job->box.top_in,
                                      .barrels = plan->barrel_count,
                                      .joints = most_joints,
                                      .wrap_seats = job->box.form != CW_FORM_RING,
                                      .seat_ft = laid_ft,
                                      .strip_in = strip ? strip->value : 12.0,
                                      .lap_in = lap ? lap->value : 0.0,
                                      .waste_percent = job->sealant.waste_percent};
    const cw_wrap wrap = cw_takeoff_wrap(&wrap_input, draft_working(d, "External joint wrap"));
    add_order(d, "Joints", "External wrap to order", wrap.length, CW_DIM_FT,
              "outside of every joint and the seat lines of the outer walls, laps and waste");
}

static void add_bed(draft *d)
{
    const cw_job *job = d->job;
    const cw_row *unit = draft_row(d, "bedding.unit_weight");
    const cw_row *waste = draft_row(d, "bedding.waste");
    const cw_bedding_input input = {.width_in = d->plan.outside_width_in,
                                    .barrels = d->plan.barrel_count,
                                    .clear_gap_in = job->barrels.clear_gap_in,
                                    .extra_ft = job->bedding.extra_ft,
                                    .thickness_in = job->bedding.thickness_in,
                                    .leveling_in = job->bedding.leveling_in,
                                    .length_ft = d->plan.slope_length_ft,
                                    .unit_pcf = unit ? unit->value : 125.0,
                                    .waste_percent = waste ? waste->value : 0.0};
    const cw_bedding bed = cw_takeoff_bedding(&input, draft_working(d, "Bedding under the run"));
    const char *rule = "width over all barrels and both extras x thickness x slope length";
    add_exact(d, "Ground", "Bedding in place", bed.bedding_cy, CW_DIM_CY, rule);
    add_order(d, "Ground", "Bedding to order", bed.bedding_tons, CW_DIM_TON, "compacted volume x unit weight, waste");
    if (bed.leveling_cy > 0.0) {
        add_exact(d, "Ground", "Leveling course in place", bed.leveling_cy, CW_DIM_CY, rule);
        add_order(d, "Ground", "Leveling course to order", bed.leveling_tons, CW_DIM_TON,
                  "compacted volume x unit weight, waste");
    }
}

static void add_fill(draft *d)
{
    static const char *const kinds[] = {"Grout", "Flowable fill", "Granular fill"};
    const cw_job *job = d->job;
    if (job->barrels.count < 2)
        return;
    const cw_row *rate = draft_row(d, "fill.rate");
    const cw_barrel_fill_input input = {.gap_in = job->barrels.clear_gap_in,
                                        .height_ft = (job->box.floor_in + job->box.rise_in + job->box.top_in) / CW_IN_PER_FT,
                                        .length_ft = d->plan.slope_length_ft,
                                        .barrels = job->barrels.count,
                                        .loss_percent = job->fill.loss_percent,
                                        .rate_cy_per_h = rate ? rate->value : 20.0};
    if (input.gap_in <= 0.0)
        return;
    const cw_barrel_fill fill = cw_takeoff_barrel_fill(&input, draft_working(d, "Fill between barrels"));
    add_exact(d, "Ground", cw_arena_print(d->arena, "%s between barrels, neat", kinds[job->fill.kind]), fill.net_cy,
              CW_DIM_CY, "gap x outside height x slope length x gaps");
    add_order(d, "Ground", cw_arena_print(d->arena, "%s to order", kinds[job->fill.kind]), fill.volume, CW_DIM_CY,
              "neat volume and loss");
}

static void add_ends(draft *d)
{
    const cw_plan_end *ends[2] = {&d->plan.outlet, &d->plan.inlet};
    static const char *const names[2] = {"Outlet headwall concrete above the invert",
                                         "Inlet headwall concrete above the invert"};
    for (int i = 0; i < 2; i++)
        if (ends[i]->has_headwall)
            add_exact(d, "Ends", names[i], ends[i]->headwall.concrete_cy, CW_DIM_CY,
                      "face less openings x thickness; footing and wings are not in it");
}

void draft_takeoff(draft *d)
{
    d->plan.quantities = CW_TAKE(d->arena, cw_plan_quantity, QUANTITIES_MAX);
    add_lengths(d);
    add_pieces(d);
    add_joints(d);
    add_bed(d);
    add_fill(d);
    add_ends(d);
}
