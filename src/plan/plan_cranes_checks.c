/* Rows of the ledger on lifting: rigging of each mark, setups, picks, ground, power lines. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

static const char chart_rule[] =
    "load chart of the crane: next larger radius and boom (NAVEDTRA 14081)";
static const char director[] =
    "the lift director decides: measure weight and radius, or take another setup or crane";

/* Rows of pieces that no crane reaches; the first row counts them all. */
enum { OFF_ROWS_MAX = 12 };

static const char *words(const draft *d, double value, cw_dim dim)
{
    return cw_quantity_format(d->arena, value, dim, d->plan.units);
}

/* ---- rigging ---- */

static const char *shorten_words(const draft *d, const cw_plan_rigging *rig)
{
    return cw_arena_print(
        d->arena,
        "adjustable slings, shortened by %s left and %s right downstream, %s left and %s right "
        "upstream",
        words(d, rig->shorten_in[0], CW_DIM_IN), words(d, rig->shorten_in[1], CW_DIM_IN),
        words(d, rig->shorten_in[2], CW_DIM_IN), words(d, rig->shorten_in[3], CW_DIM_IN));
}

static void check_angle(draft *d, const char *where, const cw_plan_type *type,
                        const cw_plan_rigging *rig)
{
    if (d->job->lifting.spreader)
        return; // what is left is the slope along the piece, which is steeper
    cw_check *row =
        draft_add(d, (cw_check){.id = "lift.angle",
                                .what = "Slope of the flattest sling",
                                .where = where,
                                .has_numbers = true,
                                .demand = rig->made.angle_deg,
                                .capacity = cw_rows_value(&cw_data, "lift.angle_plan"),
                                .at_least = true,
                                .dim = CW_DIM_DEG,
                                .clause = "common practice: 60 degrees, 45 at least",
                                .rests_on = "lift.angle_plan",
                                .working = cw_arena_print(d->arena, "Bridle of %s", type->mark)});
    cw_check_judge(row);
    row->verdict = (cw_verdict)rig->made.verdict_angle;
    if (row->verdict != CW_HOLDS)
        row->mend = "a higher hook (lifting.hook), a spreader (lifting.spreader), or a qualified person's decision";
}

static void check_hang(draft *d, const cw_plan_type *type, const cw_plan_rigging *rig)
{
    const char *where = cw_arena_print(d->arena, "mark %s", type->mark);
    if (!rig->can) {
        draft_add(d, (cw_check){
                         .id = "lift.hang",
                         .what = "The piece hangs from its pick points",
                         .where = where,
                         .clause = "statics",
                         .verdict = CW_FAILS,
                         .mend = "move the picks so that the centre of gravity lies between them"});
        return;
    }
    check_angle(d, where, type, rig);
    const double rise_in = fmax(fabs(rig->equal.rise_across_in), fabs(rig->equal.rise_along_in));
    const double half_in = d->plan.barrels[type->barrel].gap_in / 2.0;
    const bool level = rig->equal.state == CW_HANG_OK && cw_meets(rise_in, half_in);
    draft_add(d, (cw_check){.id = "lift.level",
                            .what = "It hangs level enough to enter the joint on four equal slings",
                            .where = where,
                            .has_numbers = rig->equal.state == CW_HANG_OK,
                            .demand = rise_in,
                            .capacity = half_in,
                            .dim = CW_DIM_IN,
                            .ratio = half_in > 0.0 ? rise_in / half_in : 0.0,
                            .clause = "common practice: rise within half the joint gap",
                            .verdict = level ? CW_HOLDS : CW_UNDECIDED,
                            .mend = level ? "" : shorten_words(d, rig)});
}

static void check_insert(draft *d, const cw_plan_type *type, const cw_plan_rigging *rig)
{
    const cw_job_cranes *cranes = &d->job->cranes;
    if (!rig->can || !cranes->has_insert)
        return;
    draft_judge(d, (cw_check){.id = "lift.insert",
                              .what = "Insert holds four times the sling",
                              .where = cw_arena_print(d->arena, "mark %s", type->mark),
                              .demand = rig->made.tension_lb *
                                        cw_rows_value(&cw_data, "lift.insert_factor"),
                              .capacity = cranes->insert_lb,
                              .dim = CW_DIM_LB,
                              .clause = "29 CFR 1926.704(c)",
                              .mend = "a stronger insert, bars across its cone, or steeper slings",
                              .working = cw_arena_print(d->arena, "Bridle of %s", type->mark)});
}

static void check_rigging(draft *d)
{
    for (int t = 0; t < d->plan.type_count; t++) {
        check_hang(d, &d->plan.types[t], &d->plan.cranes.rigging[t]);
        check_insert(d, &d->plan.types[t], &d->plan.cranes.rigging[t]);
    }
    if (!d->job->cranes.has_insert)
        draft_add(
            d, (cw_check){.id = "lift.insert",
                          .what = "Insert holds four times the sling",
                          .where = "all marks",
                          .clause = "29 CFR 1926.704(c)",
                          .verdict = CW_UNDECIDED,
                          .mend = "state the strength of the precaster's insert as cranes.insert"});
}

/* ---- reach ---- */

static const char *nearest_words(draft *d, int place)
{
    const cw_setup_problem *p = &d->plan.cranes.problem;
    const cw_setup_near near = cw_lifting_nearest(p, place);
    if (!near.found)
        return "no crane of the job carries it at any radius: a larger crane";
    const cw_job_crane *crane = &d->job->cranes.choices[near.crane];
    return cw_arena_print(
        d->arena,
        "nearest: %s with %.0f ft of boom, %s along the run on the %s bank, radius %s against %s: "
        "%s %s %s",
        crane->name, p->cranes[near.crane].columns[near.column].boom_ft,
        words(d, near.at_ft, CW_DIM_FT), p->lines[near.line].offset_ft < 0.0 ? "left" : "right",
        words(d, near.radius_ft, CW_DIM_FT), words(d, near.radius_most_ft, CW_DIM_FT),
        "it must stand", words(d, fabs(near.short_ft), CW_DIM_FT),
        near.short_ft < 0.0 ? "farther off" : "closer");
}

static void check_reach(draft *d)
{
    const cw_plan_cranes *c = &d->plan.cranes;
    if (c->fault) {
        draft_add(d, (cw_check){.id = "crane.setups",
                                .what = "Setups can be planned",
                                .clause = "job file: cranes",
                                .verdict = CW_UNDECIDED,
                                .mend = c->fault});
        return;
    }
    draft_judge(
        d,
        (cw_check){.id = "crane.reach",
                   .what = "Pieces that no crane sets from where it may stand",
                   .demand = c->answer.off_count,
                   .capacity = 0.0,
                   .dim = CW_DIM_COUNT,
                   .clause = chart_rule,
                   .mend = "a larger crane, the other bank, or a smaller set-back by an engineer"});
    for (int i = 0; i < c->answer.off_count && i < OFF_ROWS_MAX; i++) {
        const int place = c->answer.off_chart[i];
        draft_add(d, (cw_check){.id = "crane.off-chart",
                                .what = "The piece is within a chart",
                                .where = d->plan.pieces[d->plan.setting[place]].slot,
                                .clause = chart_rule,
                                .verdict = CW_FAILS,
                                .mend = nearest_words(d, place)});
    }
}

/* ---- setups ---- */

static void check_chart(draft *d, const cw_plan_setup *setup)
{
    const cw_plan_pick *worst = &d->plan.cranes.picks[setup->worst];
    cw_check *row =
        draft_add(d, (cw_check){.id = "crane.chart",
                                .what = "Worst pick, share of the chart",
                                .where = cw_arena_print(d->arena, "%s, piece %s", setup->name,
                                                        d->plan.pieces[setup->worst].slot),
                                .has_numbers = true,
                                .demand = worst->percent,
                                .capacity = d->job->cranes.share_percent,
                                .dim = CW_DIM_PERCENT,
                                .clause = chart_rule});
    cw_check_judge(row);
    if (row->verdict == CW_HOLDS &&
        !cw_meets(worst->percent, cw_rows_value(&cw_data, "lift.chart_plan"))) {
        row->verdict = cw_meets(worst->percent, cw_rows_value(&cw_data, "lift.chart_stop"))
                           ? CW_UNDECIDED
                           : CW_FAILS;
        row->mend = director;
    }
}

static void check_boom(draft *d, const cw_plan_setup *setup)
{
    draft_judge(
        d,
        (cw_check){.id = "crane.hook-height",
                   .what = "Boom head high enough over the lift",
                   .where = setup->name,
                   .demand = setup->boom.tip_ft,
                   .capacity = setup->boom.needed_ft,
                   .at_least = true,
                   .dim = CW_DIM_FT,
                   .clause = "common practice: 2 ft over obstacles, 4 ft to two-block",
                   .rests_on = "lift.two_block",
                   .mend = "a longer boom, shorter slings, or carry the piece round the obstacle"});
    draft_judge(d, (cw_check){.id = "crane.boom-clear",
                              .what = "Boom clear of the piece at its highest",
                              .where = setup->name,
                              .demand = setup->boom.gap_ft,
                              .capacity = cw_rows_value(&cw_data, "lift.boom_clear"),
                              .at_least = true,
                              .dim = CW_DIM_FT,
                              .clause = "common practice: 1.5 to 2 ft",
                              .rests_on = "lift.boom_clear",
                              .mend = "a longer boom, or carry the piece lower"});
}

static void check_ground(draft *d, const cw_plan_setup *setup)
{
    static const char *const rules[] = {"depths from the toe", "depths from the edge",
                                        "fixed by an engineer"};
    const cw_job_cranes *cranes = &d->job->cranes;
    draft_judge(d,
                (cw_check){.id = "crane.setback",
                           .what = "Mats from the edge of the cut",
                           .where = setup->name,
                           .demand = setup->setback.edge_ft,
                           .capacity = setup->setback.edge_needed_ft,
                           .at_least = true,
                           .dim = CW_DIM_FT,
                           .clause = cw_arena_print(d->arena, "job file: cranes.rule, %s",
                                                    rules[cranes->rule]),
                           .mend = "stand farther off, or shore the cut by an engineer's design"});
    if (setup->has_mat)
        draft_judge(
            d, (cw_check){.id = "crane.ground",
                          .what = "Mat long enough for the ground",
                          .where = setup->name,
                          .demand = setup->mat.needed_ft,
                          .capacity = setup->crane->mat_length_ft,
                          .dim = CW_DIM_FT,
                          .clause = cw_arena_print(
                              d->arena,
                              "%.0f percent of crane and load on one float (common practice); %s",
                              cranes->corner_percent, "29 CFR 1926.1402"),
                          .mend = "more or longer mats, or the maker's own reactions"});
    else
        draft_add(d, (cw_check){.id = "crane.ground",
                                .what = "Mat long enough for the ground",
                                .where = setup->name,
                                .clause = "29 CFR 1926.1402",
                                .verdict = CW_UNDECIDED,
                                .mend = "state cranes.soil and the weight of the crane"});
    if (!cranes->has_truck)
        return;
    draft_judge(d,
                (cw_check){.id = "crane.truck",
                           .what = "Heaviest pick at the truck",
                           .where = setup->name,
                           .demand = setup->truck_gross_lb,
                           .capacity = setup->truck_rated_lb * cranes->share_percent / CW_PERCENT,
                           .dim = CW_DIM_LB,
                           .clause = chart_rule,
                           .mend = "bring the truck nearer to the slew centre"});
}

static void check_line(draft *d, const cw_plan_setup *setup, const cw_job_line *line)
{
    const double line_x_ft = line->side == CW_BANK_LEFT ? -line->distance_ft : line->distance_ft;
    // The highest the head of this boom can get is the boom itself upright.
    const cw_power_line_input in = {
        .kilovolts = line->kilovolts,
        .known = line->known,
        .line_x_ft = fabs(line_x_ft - setup->offset_ft),
        .line_height_ft = line->height_ft,
        .boom_tip_radius_ft = d->plan.cranes.picks[setup->farthest].radius_ft +
                              d->plan.types[d->plan.pieces[setup->farthest].type].weight.width_in /
                                  CW_IN_PER_FT / 2.0,
        .boom_tip_height_ft = setup->boom_ft + setup->crane->pivot_height_ft};
    const cw_power_line found = cw_lifting_power_line(&in, &cw_data, NULL);
    const char *where = cw_arena_print(d->arena, "%s, %s", setup->name, line->name);
    if (found.by_utility) {
        draft_add(
            d, (cw_check){
                   .id = "crane.power-line",
                   .what = "Distance from the power line",
                   .where = where,
                   .clause = "29 CFR 1926.1408, Table A",
                   .verdict = CW_UNDECIDED,
                   .mend = "over 1,000 kV the utility or a qualified engineer sets the distance"});
        return;
    }
    draft_judge(
        d,
        (cw_check){
            .id = "crane.power-line",
            .what = "Swept space from the power line",
            .where = where,
            .demand = found.nearest_ft,
            .capacity = found.needed_ft,
            .at_least = true,
            .dim = CW_DIM_FT,
            .clause = line->known
                          ? "29 CFR 1926.1408, Table A"
                          : "29 CFR 1926.1408(a)(2), voltage not known (from memory, not verified)",
            .mend =
                "de-energise and ground the line, stop the swing short of it, or stand elsewhere"});
}

void draft_check_cranes(draft *d)
{
    const cw_plan_cranes *c = &d->plan.cranes;
    if (!c->present)
        return;
    check_rigging(d);
    check_reach(d);
    for (int n = 0; n < c->setup_count; n++) {
        check_chart(d, &c->setups[n]);
        check_boom(d, &c->setups[n]);
        check_ground(d, &c->setups[n]);
        for (int l = 0; l < d->job->cranes.line_count; l++)
            check_line(d, &c->setups[n], &d->job->cranes.lines[l]);
    }
}
