/* Cranes: how each mark hangs, the cheapest setups of the job, and every pick against its chart. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

/* A working day of the crane. */
#define DAY_H 8.0
/* Half the depth of a boom, hook to the top of its block, width of a float: common practice. */
#define BOOM_HALF_FT 2.0
#define BLOCK_FT 4.0
#define FLOAT_FT 2.5

static double gross_lb(const draft *d, int piece)
{
    return d->plan.types[d->plan.pieces[piece].type].pick_lb + d->job->cranes.tackle_lb;
}

/* ---- rigging ---- */

static cw_plan_rigging hang_type(draft *d, const cw_plan_type *type)
{
    cw_plan_rigging out = {0};
    const cw_job *job = d->job;
    const cw_pick_points *p = &type->picks;
    const double middle_x = (p->x_ft[0] + p->x_ft[1] + p->x_ft[2] + p->x_ft[3]) / 4.0;
    const double middle_y = (p->y_ft[0] + p->y_ft[1] + p->y_ft[2] + p->y_ft[3]) / 4.0;
    cw_bridle_input in = {.weight_lb = type->pick_lb,
                          .dynamic = 1.0,
                          .tackle_lb = job->cranes.tackle_lb,
                          .legs = CW_SLING_LEGS_MAX,
                          .cg_x_ft = type->weight.x_ft - middle_x,
                          .cg_y_ft = type->weight.y_ft - middle_y,
                          .pick_above_cg_ft = p->z_ft - type->weight.z_ft,
                          .has_height = true,
                          .height_ft = job->lifting.hook_ft,
                          .carry = job->cranes.carry,
                          .width_ft = type->weight.width_in / CW_IN_PER_FT,
                          .length_ft = type->shape.length_in / CW_IN_PER_FT,
                          .wall_arm_ft =
                              type->row == CW_ORDER_BASE && type->shape.part == CW_PART_BASE
                                  ? draft_base_leg_in(job) / CW_IN_PER_FT
                                  : 0.0,
                          .has_gap = true,
                          .gap_in = d->plan.barrels[type->barrel].gap_in};
    in.x_ft.count = in.y_ft.count = CW_SLING_LEGS_MAX;
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++) {
        in.x_ft.items[i] = p->x_ft[i] - middle_x;
        in.y_ft.items[i] = p->y_ft[i] - middle_y;
    }
    out.made = cw_lifting_bridle(
        &in, &cw_data, draft_working(d, cw_arena_print(d->arena, "Bridle of %s", type->mark)));
    out.can = out.made.state == CW_HANG_OK;
    if (!out.can)
        return out;
    in.has_height = false;
    in.lengths_ft.count = 1;
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
        in.lengths_ft.items[0] = fmax(in.lengths_ft.items[0], out.made.lengths_ft.items[i]);
    out.equal = cw_lifting_bridle(&in, &cw_data, NULL);
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
        out.shorten_in[i] =
            fmax(0.0, in.lengths_ft.items[0] - out.made.lengths_ft.items[i]) * CW_IN_PER_FT;
    return out;
}

/* ---- the problem ---- */

/* The boom over one mark, from a radius. */
static cw_boom boom_over(const draft *d, const cw_job_crane *crane, const cw_plan_type *type,
                         double boom_ft, double radius_ft)
{
    const cw_boom_input in = {.boom_ft = boom_ft,
                              .radius_ft = radius_ft,
                              .pivot_height_ft = crane->pivot_height_ft,
                              .pivot_back_ft = crane->pivot_back_ft,
                              .boom_half_ft = BOOM_HALF_FT,
                              .obstacle_ft = d->job->cranes.obstacle_ft,
                              .obstacle_clear_ft = cw_rows_value(&cw_data, "lift.over"),
                              .piece_height_ft = type->weight.height_in / CW_IN_PER_FT,
                              .piece_half_ft =
                                  fmax(type->weight.width_in, type->weight.overall_length_in) /
                                  CW_IN_PER_FT / 2.0,
                              .rigging_ft = d->job->lifting.hook_ft,
                              .block_ft = BLOCK_FT,
                              .two_block_ft = cw_rows_value(&cw_data, "lift.two_block"),
                              .boom_clear_ft = cw_rows_value(&cw_data, "lift.boom_clear")};
    return cw_lifting_boom(&in, NULL);
}

static bool clears_all(const draft *d, const cw_job_crane *crane, double boom_ft, double radius_ft)
{
    for (int t = 0; t < d->plan.type_count; t++) {
        const cw_boom boom = boom_over(d, crane, &d->plan.types[t], boom_ft, radius_ft);
        if (boom.verdict_height != CW_HOLDS || boom.verdict_boom != CW_HOLDS)
            return false;
    }
    return true;
}

/* Rows of the column at which the hook is high enough and the boom clear of every mark: those in
 * the middle. */
static cw_chart_column usable_rows(const draft *d, const cw_job_crane *crane,
                                   cw_chart_column column)
{
    while (column.count > 0 &&
           !clears_all(d, crane, column.boom_ft, column.radius_ft[column.count - 1]))
        column.count--;
    int skip = 0;
    while (skip < column.count && !clears_all(d, crane, column.boom_ft, column.radius_ft[skip]))
        skip++;
    column.radius_ft += skip;
    column.capacity_lb += skip;
    column.count -= skip;
    return column;
}

static void add_crane(draft *d, int index, cw_setup_crane *out)
{
    const cw_job_crane *crane = &d->job->cranes.choices[index];
    const cw_chart *chart = crane->loads;
    *out = (cw_setup_crane){.deduction_lb = crane->block_lb,
                            .chart_percent = d->job->cranes.share_percent,
                            .bring_cents = crane->bring_cents,
                            .setup_cents = crane->setup_cents,
                            .day_cents = crane->day_cents,
                            .setup_days = crane->setup_h / DAY_H,
                            .piece_days = crane->piece_h / DAY_H};
    cw_chart_column *columns = CW_TAKE(d->arena, cw_chart_column, chart->count);
    for (int c = 0; c < chart->count; c++) {
        if (!cw_text_same(chart->columns[c].configuration, crane->configuration) ||
            (crane->has_boom_most && chart->columns[c].boom_ft > crane->boom_most_ft))
            continue;
        const cw_chart_column usable = usable_rows(d, crane, chart->columns[c]);
        if (usable.count > 0)
            columns[out->column_count++] = usable;
    }
    out->columns = columns;
}

/* Slew centre from the centre line of the run, by the rule of the job. */
static cw_setback setback_of(const draft *d, const cw_job_crane *crane, double centre_ft,
                             double float_lb)
{
    const cw_job_cranes *cranes = &d->job->cranes;
    const cw_setback_input in = {.rule = cranes->rule,
                                 .depth_ft = cranes->depth_ft,
                                 .side_slope = cranes->side_slope,
                                 .k = cranes->k,
                                 .has_fixed = cranes->has_fixed,
                                 .fixed_ft = cranes->fixed_ft,
                                 .half_ft = crane->half_ft,
                                 .toe_ft = d->plan.width_ft / 2.0 + cranes->beside_ft,
                                 .centre_ft = centre_ft,
                                 .float_lb = float_lb,
                                 .mat_width_ft = crane->mat_width_ft,
                                 .mat_length_ft = crane->mat_length_ft};
    return cw_lifting_setback(&in, &cw_data, NULL);
}

static void cut_stretch(cw_setup_line *line, const cw_job_no_stand *no)
{
    cw_setup_range kept[CW_SETUP_RANGES_MAX];
    int count = 0;
    for (int r = 0; r < line->range_count && count < CW_SETUP_RANGES_MAX; r++) {
        const cw_setup_range range = line->ranges[r];
        if (range.to_ft <= no->from_ft || range.from_ft >= no->to_ft) {
            kept[count++] = range;
            continue;
        }
        if (range.from_ft < no->from_ft)
            kept[count++] = (cw_setup_range){range.from_ft, no->from_ft};
        if (range.to_ft > no->to_ft && count < CW_SETUP_RANGES_MAX)
            kept[count++] = (cw_setup_range){no->to_ft, range.to_ft};
    }
    for (int r = 0; r < count; r++)
        line->ranges[r] = kept[r];
    line->range_count = count;
}

static void add_line(const draft *d, int crane, int bank, cw_setup_line *line)
{
    const cw_job_cranes *cranes = &d->job->cranes;
    const double centre_ft = setback_of(d, &cranes->choices[crane], 0.0, 0.0).centre_needed_ft;
    *line = (cw_setup_line){
        .offset_ft = bank == CW_BANK_LEFT ? -centre_ft : centre_ft,
        .ranges = {{-cranes->before_ft, d->plan.plan_length_ft + cranes->beyond_ft}},
        .range_count = 1,
        .cranes = 1u << crane,
        .bank = bank};
    if (line->ranges[0].from_ft > line->ranges[0].to_ft)
        line->range_count = 0;
    for (int i = 0; i < cranes->no_stand_count; i++)
        if (cranes->no_stands[i].side == CW_BANK_BOTH || cranes->no_stands[i].side == bank)
            cut_stretch(line, &cranes->no_stands[i]);
}

static void pose(draft *d)
{
    const cw_job_cranes *cranes = &d->job->cranes;
    cw_setup_problem *p = &d->plan.cranes.problem;
    cw_setup_piece *pieces = CW_TAKE(d->arena, cw_setup_piece, d->plan.piece_count);
    for (int i = 0; i < d->plan.piece_count; i++) {
        const int index = d->plan.setting[i];
        const cw_plan_piece *piece = &d->plan.pieces[index];
        const cw_plan_type *type = &d->plan.types[piece->type];
        pieces[i] = (cw_setup_piece){piece->start_ft + type->weight.y_ft / d->plan.slope_factor,
                                     d->plan.barrels[piece->barrel].offset_ft + type->weight.x_ft,
                                     gross_lb(d, index)};
    }
    cw_setup_crane *choices = CW_TAKE(d->arena, cw_setup_crane, cranes->choice_count);
    cw_setup_line *lines = CW_TAKE(d->arena, cw_setup_line, CW_SETUP_LINES_MAX);
    int line_count = 0;
    for (int k = 0; k < cranes->choice_count; k++) {
        add_crane(d, k, &choices[k]);
        for (int bank = CW_BANK_LEFT; bank <= CW_BANK_RIGHT; bank++)
            if (cranes->side == CW_BANK_BOTH || cranes->side == bank)
                add_line(d, k, bank, &lines[line_count++]);
    }
    *p = (cw_setup_problem){pieces,     d->plan.piece_count, choices, cranes->choice_count, lines,
                            line_count, cranes->cross_cents};
}

/* ---- what was found ---- */

static void worst_boom(const draft *d, cw_plan_setup *setup, const cw_setup_answer *answer)
{
    for (int i = setup->at->first; i < setup->at->first + setup->at->count; i++) {
        const int index = d->plan.setting[answer->order[i]];
        const cw_boom boom = boom_over(d, setup->crane, &d->plan.types[d->plan.pieces[index].type],
                                       setup->boom_ft, d->plan.cranes.picks[index].radius_ft);
        if (i == setup->at->first) {
            setup->boom = boom;
            continue;
        }
        if (boom.gap_ft < setup->boom.gap_ft) {
            setup->boom.gap_ft = boom.gap_ft;
            setup->boom.verdict_boom = boom.verdict_boom;
        }
        if (boom.spare_ft < setup->boom.spare_ft) {
            setup->boom.tip_ft = boom.tip_ft;
            setup->boom.needed_ft = boom.needed_ft;
            setup->boom.spare_ft = boom.spare_ft;
            setup->boom.angle_deg = boom.angle_deg;
            setup->boom.verdict_height = boom.verdict_height;
        }
    }
}

static void take_picks(draft *d, cw_plan_setup *setup, int number, cw_plan_pick *picks)
{
    const cw_setup_answer *answer = &d->plan.cranes.answer;
    const cw_setup_problem *p = &d->plan.cranes.problem;
    double least_ft = HUGE_VAL, most_ft = 0.0, worst = 0.0;
    for (int i = setup->at->first; i < setup->at->first + setup->at->count; i++) {
        const cw_setup_piece *piece = &p->pieces[answer->order[i]];
        const int index = d->plan.setting[answer->order[i]];
        cw_plan_pick *pick = &picks[index];
        pick->setup = number;
        pick->gross_lb = piece->load_lb + setup->crane->block_lb;
        pick->radius_ft =
            hypot(piece->at_ft - setup->at->at_ft, piece->offset_ft - setup->offset_ft);
        pick->rated_lb = cw_chart_capacity(setup->crane->loads, setup->crane->configuration,
                                           setup->boom_ft, pick->radius_ft)
                             .capacity_lb;
        pick->percent = pick->rated_lb > 0.0 ? pick->gross_lb / pick->rated_lb * CW_PERCENT : 0.0;
        if (pick->percent > worst)
            setup->worst = index;
        if (pick->radius_ft < least_ft)
            setup->nearest = index;
        if (pick->radius_ft > most_ft)
            setup->farthest = index;
        worst = fmax(worst, pick->percent);
        least_ft = fmin(least_ft, pick->radius_ft);
        most_ft = fmax(most_ft, pick->radius_ft);
        setup->truck_gross_lb = fmax(setup->truck_gross_lb, pick->gross_lb);
    }
}

static void stand_on_ground(const draft *d, cw_plan_setup *setup)
{
    const cw_job_cranes *cranes = &d->job->cranes;
    const cw_job_crane *crane = setup->crane;
    if (crane->has_weight)
        setup->float_lb =
            (crane->weight_lb + setup->truck_gross_lb) * cranes->corner_percent / CW_PERCENT;
    setup->setback = setback_of(d, crane, fabs(setup->offset_ft), setup->float_lb);
    if (crane->has_weight && cranes->has_soil) {
        const cw_mat_input in = {.load_lb = setup->float_lb,
                                 .width_ft = crane->mat_width_ft,
                                 .length_ft = crane->mat_length_ft,
                                 .thickness_in = CW_IN_PER_FT,
                                 .unit_pcf = cw_rows_value(&cw_data, "mat.oak_weight"),
                                 .float_ft = FLOAT_FT,
                                 .soil_psf = cranes->soil_psf,
                                 .bending_psi = cw_rows_value(&cw_data, "mat.oak_bending"),
                                 .shear_psi = cw_rows_value(&cw_data, "mat.oak_shear")};
        setup->has_mat = true;
        setup->mat = cw_lifting_mat(&in, NULL);
    }
    if (cranes->has_truck) {
        const cw_chart_look look =
            cw_chart_capacity(crane->loads, crane->configuration, setup->boom_ft, cranes->truck_ft);
        setup->truck_on_chart = look.on_chart;
        setup->truck_rated_lb = look.capacity_lb;
    }
}

static void take_setups(draft *d)
{
    cw_plan_cranes *out = &d->plan.cranes;
    const cw_setup_answer *answer = &out->answer;
    cw_plan_setup *setups = CW_TAKE(d->arena, cw_plan_setup, answer->setup_count);
    cw_plan_pick *picks = CW_TAKE(d->arena, cw_plan_pick, d->plan.piece_count);
    for (int i = 0; i < d->plan.piece_count; i++)
        picks[i].setup = -1;
    out->picks = picks;
    for (int n = 0; n < answer->setup_count; n++) {
        const cw_setup *at = &answer->setups[n];
        const cw_job_crane *crane = &d->job->cranes.choices[at->crane];
        setups[n] =
            (cw_plan_setup){.name = cw_arena_print(d->arena, "setup %d", n + 1),
                            .crane = crane,
                            .at = at,
                            .boom_ft = out->problem.cranes[at->crane].columns[at->column].boom_ft,
                            .offset_ft = out->problem.lines[at->line].offset_ft};
        take_picks(d, &setups[n], n, picks);
        worst_boom(d, &setups[n], answer);
        stand_on_ground(d, &setups[n]);
        out->days[at->crane] += (crane->setup_h + at->count * crane->piece_h) / DAY_H;
    }
    out->setups = setups;
    out->setup_count = answer->setup_count;
}

void draft_cranes(draft *d)
{
    const cw_job_cranes *given = &d->job->cranes;
    cw_plan_cranes *out = &d->plan.cranes;
    out->present = given->present;
    if (!given->present)
        return;
    cw_plan_rigging *rigging = CW_TAKE(d->arena, cw_plan_rigging, d->plan.type_count);
    for (int t = 0; t < d->plan.type_count; t++)
        rigging[t] = hang_type(d, &d->plan.types[t]);
    out->rigging = rigging;
    if (!d->plan.setting) {
        out->fault = "there is no setting order to plan setups for";
        return;
    }
    pose(d);
    out->fault = cw_setup_fault(&out->problem, d->arena);
    if (out->fault)
        return;
    out->answer = cw_lifting_setups(&out->problem, d->arena);
    take_setups(d);
}
