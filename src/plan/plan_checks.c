/* The rows of the ledger that this part of the program can answer. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

cw_check *draft_add(draft *d, cw_check check)
{
    if (!check.where)
        check.where = "";
    if (!check.rests_on)
        check.rests_on = "";
    if (!check.mend)
        check.mend = "";
    return cw_check_add(d->checks, check);
}

void draft_judge(draft *d, cw_check check)
{
    cw_check *row = draft_add(d, check);
    cw_check_judge(row);
    if (row->verdict == CW_HOLDS)
        row->mend = "";
}

double draft_row_value(const draft *d, const char *id, double otherwise)
{
    const cw_row *row = draft_row(d, id);
    return row ? row->value : otherwise;
}

void draft_check_acceptance(draft *d)
{
    const cw_job_acceptance *given = &d->job->acceptance;
    cw_check check = {.id = "acceptance.form",
                      .what = "The owner takes this form of box",
                      .clause = "owner's specification; the product standard for two-piece boxes is ASTM C1786 "
                                "(from memory, not verified)",
                      .verdict = CW_UNDECIDED,
                      .mend = "ask the owner in writing before layout is released, and state it under acceptance"};
    if (d->job->box.form == CW_FORM_RING)
        check.clause = "owner's specification; one-piece boxes: ASTM C1577 (from memory, not verified)";
    if (given->present && given->form == CW_ACCEPTED) {
        check.verdict = CW_HOLDS;
        check.mend = "";
    } else if (given->present && given->form == CW_REFUSED) {
        check.verdict = CW_FAILS;
        check.mend = "the owner refuses this form: bid a form that is taken";
    }
    if (given->present && given->reference && given->reference[0])
        check.clause = cw_arena_print(d->arena, "%s; %s", given->reference, check.clause);
    draft_add(d, check);
}

/* ---- ends, cover ---- */

/* A square end on a skewed road has its fill where the near corner is; at the far corner it is lower. */
static void check_far_corner(draft *d, const cw_plan_end *end, const char *where)
{
    if (d->plan.span.cut != CW_RUN_CUT_SQUARE || end->laid.setback_ft <= CW_SAME_PLACE_FT)
        return;
    cw_check *row = draft_add(d, (cw_check){.id = "run.far-corner",
                                      .what = "Fill at the far corner of a square end on a skewed road covers the box",
                                      .where = where,
                                      .demand = end->laid.far_height_ft,
                                      .capacity = end->box_top_ft,
                                      .at_least = true,
                                      .dim = CW_DIM_FT,
                                      .clause = "derived: side slope over the width of the end",
                                      .mend = "warp the side slope round the far corner, lengthen the run, or cut the ends "
                                              "along the road"});
    cw_check_judge(row);
    if (row->verdict == CW_FAILS)
        row->verdict = CW_UNDECIDED;
    else
        row->mend = "";
}

static void check_end(draft *d, const cw_plan_end *end, const char *where)
{
    if (!end->has_fill)
        return;
    draft_judge(d, (cw_check){.id = "run.end-not-bared",
                        .what = "Fill at the end, after the division, reaches the top of the box",
                        .where = where,
                        .demand = end->laid.height_ft,
                        .capacity = end->box_top_ft,
                        .at_least = true,
                        .dim = CW_DIM_FT,
                        .clause = "derived: side slope at the laid end; common practice",
                        .rests_on = "run.overrun",
                        .mend = "shorten the overrun, share the excess between the ends, or raise the fill"});
    check_far_corner(d, end, where);
    if (end->has_headwall)
        draft_judge(d, (cw_check){.id = "run.headwall",
                            .what = "Headwall stands at least as high as the fill behind it",
                            .where = where,
                            .demand = end->wall_top_ft,
                            .capacity = end->laid.height_ft,
                            .at_least = true,
                            .dim = CW_DIM_FT,
                            .clause = "common practice",
                            .rests_on = "end.parapet",
                            .mend = cw_arena_print(d->arena, "raise the parapet by %s or lengthen the run",
                                                   cw_feet_inches(d->arena,
                                                                  (end->laid.height_ft - end->wall_top_ft) * CW_IN_PER_FT,
                                                                  8))});
}

static void check_cover(draft *d, int number)
{
    const cw_plan_barrel *barrel = &d->plan.barrels[number];
    if (!barrel->has_cover && d->job->road.present)
        draft_add(d, (cw_check){.id = "cover.least",
                          .what = "Least cover under the roadway",
                          .where = cw_arena_print(d->arena, "barrel %d", number + 1),
                          .clause = draft_source(d, "cover.legal_minimum"),
                          .verdict = CW_UNDECIDED,
                          .rests_on = "cover.legal_minimum",
                          .mend = "give road.outlet_template and road.inlet_template"});
    if (!barrel->has_cover)
        return;
    const double least_ft = draft_row_value(d, "cover.legal_minimum", 2.0);
    draft_judge(d, (cw_check){.id = "cover.least",
                        .what = "Least cover under the roadway",
                        .where = cw_arena_print(d->arena, "barrel %d, %s from the outlet", number + 1,
                                                cw_quantity_format(d->arena, barrel->least_cover.at_ft, CW_DIM_FT,
                                                                   d->plan.units)),
                        .demand = barrel->least_cover.cover_ft,
                        .capacity = least_ft,
                        .at_least = true,
                        .dim = CW_DIM_FT,
                        .clause = draft_source(d, "cover.legal_minimum"),
                        .rests_on = "cover.legal_minimum",
                        .mend = "lower the invert, raise the grade, or have the box designed for less cover",
                        .working = cw_arena_print(d->arena, "Least cover under the roadway, barrel %d", number + 1)});
}

static void check_length(draft *d, int number)
{
    const cw_plan_barrel *barrel = &d->plan.barrels[number];
    const cw_job_run *run = &d->job->run;
    const double over_in = barrel->laid_in - barrel->wanted_in;
    const char *where = cw_arena_print(d->arena, "barrel %d", number + 1);
    const char *key = over_in > 0.0 ? "run.overrun" : "run.end_tolerance";
    // The layout works in sixteenths: half of one is lost or won by rounding the wanted length.
    const double grain_in = 0.5 / CW_SIXTEENTHS_PER_IN;
    draft_judge(d, (cw_check){.id = "run.laid-length",
                        .what = over_in >= 0.0 ? "Laid length past the wanted end" : "Laid length short of the wanted end",
                        .where = where,
                        .demand = fabs(over_in),
                        .capacity = run->end_tolerance_in + grain_in + (over_in > 0.0 ? run->overrun_ft * CW_IN_PER_FT : 0.0),
                        .dim = CW_DIM_IN,
                        .clause = draft_basis(d, key, key),
                        .rests_on = draft_rest(d, key, key),
                        .mend = "allow another length or move the headwall"});
}

/* The job may ask for a shift of the outlet that would carry with it what is measured from there. */
static void check_excess(draft *d)
{
    if (d->job->run.excess == CW_EXCESS_INLET || !draft_outlet_held(d->job))
        return;
    draft_add(d, (cw_check){.id = "run.excess",
                      .what = "Length over the wanted one goes to the end that the job names",
                      .where = "all of it goes to the inlet",
                      .clause = "bends, phase lines and openings are measured from the outlet face",
                      .verdict = CW_UNDECIDED,
                      .mend = "write run.excess: inlet, or set the outlet by run.length and run.outlet_distance"});
}

void draft_check_run(draft *d)
{
    check_excess(d);
    for (int b = 0; b < d->plan.barrel_count; b++)
        check_length(d, b);
    check_end(d, &d->plan.outlet, "outlet");
    check_end(d, &d->plan.inlet, "inlet");
    for (int b = 0; b < d->plan.barrel_count; b++)
        check_cover(d, b);
}

/* ---- the division ---- */

static void check_gap(draft *d, int number)
{
    const cw_plan_barrel *barrel = &d->plan.barrels[number];
    const cw_job_joint *joint = &d->job->joint;
    if (barrel->base_count < 2)
        return;
    draft_judge(d, (cw_check){.id = "layout.gap",
                        .what = "Design gap not over the joint's limit",
                        .where = cw_arena_print(d->arena, "barrel %d", number + 1),
                        .demand = barrel->gap_in,
                        .capacity = joint->gap_max_in,
                        .dim = CW_DIM_IN,
                        .clause = draft_basis(d, "joint.gap_max", "joint.gap_max"),
                        .rests_on = draft_rest(d, "joint.gap_max", "joint.gap_max"),
                        .mend = "add a special length so that the gap comes down"});
    draft_judge(d, (cw_check){.id = "layout.gap-room",
                        .what = "Design gap not under the least that sealant and spacer need",
                        .where = cw_arena_print(d->arena, "barrel %d", number + 1),
                        .demand = barrel->gap_in,
                        .capacity = joint->gap_min_in,
                        .at_least = true,
                        .dim = CW_DIM_IN,
                        .clause = draft_basis(d, "joint.gap_min", "joint.gap_min"),
                        .rests_on = draft_rest(d, "joint.gap_min", "joint.gap_min"),
                        .mend = "take a shorter special length so that the gap opens"});
}

static void check_opening(draft *d, int number)
{
    const cw_job_opening *opening = &d->job->openings[number];
    const cw_plan_barrel *barrel = &d->plan.barrels[opening->barrel - 1];
    const double at_in = opening->at_ft * d->plan.slope_factor * CW_IN_PER_FT;
    const double half_in = (opening->has_diameter ? opening->diameter_in : opening->width_in) / 2.0;
    const char *where = cw_arena_print(d->arena, "%s, barrel %d", draft_opening_name(d, number), opening->barrel);
    if (at_in < half_in || at_in + half_in > barrel->laid_in) {
        draft_add(d, (cw_check){.id = "layout.opening-inside",
                          .what = "Opening lies within the run",
                          .where = where,
                          .clause = "derived: geometry of the run",
                          .verdict = CW_FAILS,
                          .mend = cw_arena_print(d->arena, "the barrel ends at %s: move the opening to a place within it",
                                                 cw_quantity_format(d->arena,
                                                                    barrel->laid_in / CW_IN_PER_FT / d->plan.slope_factor,
                                                                    CW_DIM_FT, d->plan.units))});
        return;
    }
    double nearest_in = CW_ANY_HIGH;
    for (int row = 0; row < 2; row++) {
        const int *pieces = row == 0 ? barrel->bases : barrel->tops;
        const int count = row == 0 ? barrel->base_count : barrel->top_count;
        if (!draft_opening_binds(d->job, opening, row == 0 ? CW_ORDER_BASE : CW_ORDER_TOP))
            continue;
        for (int i = 0; i < count; i++) {
            const cw_plan_piece *piece = &d->plan.pieces[pieces[i]];
            nearest_in = fmin(nearest_in, fabs(at_in - piece->start_in) - half_in);
            nearest_in = fmin(nearest_in, fabs(at_in - piece->start_in - piece->length_in) - half_in);
        }
    }
    draft_judge(d, (cw_check){.id = "layout.opening-clear",
                        .what = "Opening keeps clear of joints and piece ends",
                        .where = where,
                        .demand = nearest_in,
                        .capacity = draft_opening_clear_in(d, opening),
                        .at_least = true,
                        .dim = CW_DIM_IN,
                        .clause = opening->has_clear ? "job file: openings.clear" : draft_source(d, "opening.clear"),
                        .rests_on = opening->has_clear ? "" : "opening.clear, opening.clear_walls",
                        .mend = "move the opening or allow another piece length"});
    if (d->job->box.form == CW_FORM_DOUBLE_U && draft_opening_binds(d->job, opening, CW_ORDER_BASE) &&
        draft_opening_binds(d->job, opening, CW_ORDER_TOP))
        draft_add(d, (cw_check){.id = "layout.opening-across-seat",
                          .what = "Opening cuts the seat between base and hood",
                          .where = where,
                          .clause = "common practice",
                          .verdict = CW_UNDECIDED,
                          .mend = "have the precaster's engineer design it, or move the opening off the seat"});
}

static void check_bends(draft *d)
{
    const double most_deg = draft_row_value(d, "bend.per_joint", 5.0);
    const cw_run_line *line = &d->plan.barrels[0].line;
    for (int v = 1; v + 1 < line->count; v++)
        draft_judge(d, (cw_check){.id = "layout.mitre",
                            .what = "Turn at one mitred joint",
                            .where = cw_arena_print(d->arena, "bend joint %d", v),
                            .demand = fabs(line->points[v].turned_deg - line->points[v - 1].turned_deg),
                            .capacity = most_deg,
                            .dim = CW_DIM_DEG,
                            .clause = draft_source(d, "bend.per_joint"),
                            .rests_on = "bend.per_joint",
                            .mend = cw_arena_print(d->arena, "make the bend flatter: a run takes at most %d mitred joints",
                                                   (int)CW_RUN_BENDS_MAX)});
    for (int b = 0; b < d->plan.barrel_count; b++)
        for (int v = 2; v + 1 < d->plan.barrels[b].line.count; v++)
            if (draft_bend_joint(d, b, CW_ORDER_BASE, v) == draft_bend_joint(d, b, CW_ORDER_BASE, v - 1))
                draft_add(d, (cw_check){.id = "layout.bend-joint",
                                  .what = "Each bend turns at a joint of its own",
                                  .where = cw_arena_print(d->arena, "bend joints %d and %d, barrel %d", v - 1, v, b + 1),
                                  .clause = "derived: nearest joint",
                                  .verdict = CW_FAILS,
                                  .mend = "move the bends apart or lessen their within"});
}

static void check_stagger(draft *d)
{
    if (d->plan.problem.rows != CW_ROWS_STAGGERED)
        return;
    for (int b = 0; b < d->plan.barrel_count; b++)
        draft_judge(d, (cw_check){.id = "layout.ends-meet",
                            .what = "Bases and tops end together",
                            .where = cw_arena_print(d->arena, "barrel %d", b + 1),
                            .demand = draft_ends_apart_in(d, b),
                            .capacity = d->job->run.end_tolerance_in,
                            .dim = CW_DIM_IN,
                            .clause = draft_basis(d, "run.end_tolerance", "run.end_tolerance"),
                            .rests_on = draft_rest(d, "run.end_tolerance", "run.end_tolerance"),
                            .mend = "allow another top length, or lessen run.overrun"});
    double nearest_in = CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const cw_plan_barrel *barrel = &d->plan.barrels[b];
        for (int i = 1; i < barrel->base_count; i++)
            for (int j = 1; j < barrel->top_count; j++)
                nearest_in = fmin(nearest_in, fabs(d->plan.pieces[barrel->bases[i]].start_in -
                                                   d->plan.pieces[barrel->tops[j]].start_in));
    }
    if (nearest_in < CW_ANY_HIGH)
        draft_judge(d, (cw_check){.id = "layout.stagger",
                            .what = "Base joints and top joints stand apart",
                            .demand = nearest_in,
                            .capacity = d->job->pieces.stagger_in,
                            .at_least = true,
                            .dim = CW_DIM_IN,
                            .clause = draft_source(d, "piece.stagger"),
                            .rests_on = "piece.stagger",
                            .mend = "allow another top length"});
}

void draft_check_layout(draft *d)
{
    draft_add(d, (cw_check){.id = "layout.found",
                      .what = cw_arena_print(d->arena, "The run divides into pieces (%s gap)",
                                             d->plan.problem.gap_mode == CW_GAP_GRID ? "gauge" : "continuous"),
                      .clause = "exact search, docs/handbook/layout.md",
                      .verdict = CW_HOLDS,
                      .working = "Division into pieces: stated cost of the chosen layout"});
    for (int b = 0; b < d->plan.barrel_count; b++)
        check_gap(d, b);
    for (int i = 0; i < d->job->opening_count; i++)
        check_opening(d, i);
    check_bends(d);
    check_stagger(d);
}

/* ---- no division: what stands in the way, and by how much ---- */

static const char *inches(const draft *d, double sixteenths)
{
    return cw_feet_inches(d->arena, sixteenths / CW_SIXTEENTHS_PER_IN, 16);
}

static const char *must_name(const draft *d, int id)
{
    if (id < CW_BENDS_MAX)
        return cw_arena_print(d->arena, "bend joint %d", id + 1);
    return cw_arena_print(d->arena, "phase line %d", id - CW_BENDS_MAX + 1);
}

/* Base and top row may both name an obstacle: the first stands for both. */
static bool named_before(const draft *d, const cw_check *check)
{
    for (int i = 0; i < d->checks->count; i++)
        if (cw_text_same(d->checks->items[i].id, check->id) && cw_text_same(d->checks->items[i].where, check->where))
            return true;
    return false;
}

static void describe_block(draft *d, const cw_layout_block *block)
{
    const cw_layout_problem *problem = &d->plan.problem;
    const char *where = block->barrel < 0 ? "all barrels" : cw_arena_print(d->arena, "barrel %d", block->barrel + 1);
    cw_check check = {.where = where, .verdict = CW_FAILS, .clause = "exact search, docs/handbook/layout.md"};
    switch (block->kind) {
    case CW_BLOCK_GAP_BAND:
        check.id = "layout.blocked-by-gap";
        check.what = "Joint gap band admits no division";
        check.mend = cw_arena_print(d->arena, "a %s gap of %s would do",
                                    block->amount < 0.0 ? "least" : "greatest",
                                    inches(d, block->amount < 0.0 ? problem->gap_min_16 + block->amount
                                                                  : problem->gap_max_16 + block->amount));
        break;
    case CW_BLOCK_END:
        check.id = "layout.blocked-by-end";
        check.what = "No division ends where it must";
        check.mend = cw_arena_print(d->arena, "the nearest division ends %s %s: move the end, widen run.overrun or allow "
                                              "another length",
                                    inches(d, fabs(block->amount)), block->amount < 0.0 ? "short" : "past it");
        break;
    case CW_BLOCK_KEEP_CLEAR:
        check.id = "layout.blocked-by-opening";
        check.what = "An opening stands where a joint must be";
        check.where = cw_arena_print(d->arena, "%s, %s", draft_opening_name(d, block->id), where);
        check.mend = block->amount > 0.0
                         ? cw_arena_print(d->arena, "narrow its keep-clear by %s, or move it", inches(d, block->amount))
                         : "move the opening";
        break;
    case CW_BLOCK_MUST_JOINT:
        check.id = "layout.blocked-by-joint";
        check.what = "No joint can stand at a bend or phase line";
        check.where = cw_arena_print(d->arena, "%s, %s", must_name(d, block->id), where);
        check.mend = cw_arena_print(d->arena, "let the joint stand %s farther from it (within), or move it",
                                    inches(d, block->amount));
        break;
    case CW_BLOCK_WEIGHT:
        check.id = "layout.blocked-by-weight";
        check.what = "Pieces are too heavy for the pick or the truck";
        check.mend = cw_arena_print(d->arena, "a limit %s higher would do, or allow a shorter length",
                                    cw_quantity_format(d->arena, block->amount, CW_DIM_LB, d->plan.units));
        break;
    case CW_BLOCK_ENDS_APART:
        check.id = "layout.blocked-by-ends";
        check.what = "Bases and tops cannot end together";
        check.mend = cw_arena_print(d->arena, "an end_tolerance of %s would do, or allow another top length",
                                    inches(d, block->amount));
        break;
    case CW_BLOCK_STAGGER:
        check.id = "layout.blocked-by-stagger";
        check.what = "The stagger of base and top joints admits no division";
        check.mend = cw_arena_print(d->arena, "a stagger of %s would do", inches(d, block->amount));
        break;
    case CW_BLOCK_SETUPS:
        check.id = "layout.blocked-by-setups";
        check.what = "Too few mould set-ups are allowed";
        check.mend = cw_arena_print(d->arena, "%d set-ups would do (bases and tops together)", (int)block->amount);
        break;
    }
    if (!named_before(d, &check))
        draft_add(d, check);
}

void draft_check_blocks(draft *d)
{
    draft_add(d, (cw_check){.id = "layout.found",
                      .what = "The run divides into pieces",
                      .clause = "exact search, docs/handbook/layout.md",
                      .verdict = CW_FAILS,
                      .mend = d->plan.layout.block_count > 0
                                  ? "each row that follows names one constraint that alone stands in the way"
                              : d->plan.layout.blocks_cut
                                  ? "the search for what stands in the way was cut short: allow another length or widen the gap band"
                                  : "no single constraint stands in the way: loosen two at once, the gap band and the lengths first"});
    for (int i = 0; i < d->plan.layout.block_count; i++)
        describe_block(d, &d->plan.layout.blocks[i]);
}

/* ---- weights, survey, fill ---- */

static const cw_plan_type *heaviest(const draft *d)
{
    const cw_plan_type *most = &d->plan.types[0];
    for (int i = 1; i < d->plan.type_count; i++)
        if (d->plan.types[i].weight.weight_lb > most->weight.weight_lb)
            most = &d->plan.types[i];
    return most;
}

static void check_weights(draft *d)
{
    const cw_plan_type *most = heaviest(d);
    const cw_job_pieces *pieces = &d->job->pieces;
    const char *working = cw_arena_print(d->arena, "Weight and centre of gravity of %s", most->mark);
    draft_judge(d, (cw_check){.id = "weight.truck",
                        .what = "Heaviest piece rides on the truck",
                        .where = cw_arena_print(d->arena, "mark %s", most->mark),
                        .demand = most->weight.weight_lb,
                        .capacity = pieces->payload_lb,
                        .dim = CW_DIM_LB,
                        .clause = draft_basis(d, "pieces.payload", "haul.payload"),
                        .rests_on = draft_rest(d, "pieces.payload", "haul.payload"),
                        .mend = "allow a shorter length or a heavier truck under permit",
                        .working = working});
    if (pieces->has_pick_limit)
        draft_judge(d, (cw_check){.id = "weight.pick",
                            .what = "Heaviest pick within the limit given",
                            .where = cw_arena_print(d->arena, "mark %s", most->mark),
                            .demand = most->pick_lb,
                            .capacity = pieces->pick_limit_lb,
                            .dim = CW_DIM_LB,
                            .clause = "job file: pieces.pick_limit; the crane maker's chart and the lift director rule",
                            .rests_on = "lifting.pick_factor",
                            .mend = "allow a shorter length or bring a larger crane",
                            .working = working});
    else
        draft_add(d, (cw_check){.id = "weight.pick",
                          .what = "Heaviest pick within the crane's chart",
                          .where = cw_arena_print(d->arena, "mark %s, %s", most->mark,
                                                  cw_quantity_format(d->arena, most->pick_lb, CW_DIM_LB, d->plan.units)),
                          .clause = "the crane maker's chart and the lift director rule",
                          .verdict = CW_UNDECIDED,
                          .rests_on = "lifting.pick_factor",
                          .mend = "state pieces.pick_limit from the chart at the farthest radius",
                          .working = working});
}

/* Limits of the crane that hold only past a place. */
static void check_limits(draft *d)
{
    const cw_job_pieces *pieces = &d->job->pieces;
    for (int i = 0; i < pieces->limit_count; i++) {
        const cw_plan_piece *most = NULL;
        double most_lb = 0.0;
        for (int p = 0; p < d->plan.piece_count; p++) {
            const cw_plan_piece *piece = &d->plan.pieces[p];
            const double pick_lb = d->plan.types[piece->type].pick_lb;
            if (piece->end_ft > pieces->limits[i].beyond_ft + CW_SAME_PLACE_FT && pick_lb > most_lb) {
                most = piece;
                most_lb = pick_lb;
            }
        }
        const char *beyond = cw_quantity_format(d->arena, pieces->limits[i].beyond_ft, CW_DIM_FT, d->plan.units);
        if (most)
            draft_judge(d, (cw_check){.id = "weight.pick-beyond",
                                .what = "Heaviest pick within the limit past this place",
                                .where = cw_arena_print(d->arena, "limit %d, past %s: %s", i + 1, beyond, most->slot),
                                .demand = most_lb,
                                .capacity = pieces->limits[i].weight_lb,
                                .dim = CW_DIM_LB,
                                .clause = "job file: pieces.limits; the crane maker's chart and the lift director rule",
                                .rests_on = "lifting.pick_factor",
                                .mend = "allow a shorter length or move the crane",
                                .working = cw_arena_print(d->arena, "Weight and centre of gravity of %s",
                                                          d->plan.types[most->type].mark)});
    }
}

static void check_survey(draft *d)
{
    const cw_job_survey *survey = &d->job->survey;
    const bool stated = survey->datum && survey->datum[0] && survey->benchmark && survey->benchmark[0];
    draft_add(d, (cw_check){.id = "survey.datum",
                      .what = "Datum and benchmark are named",
                      .clause = "common practice",
                      .verdict = stated ? CW_HOLDS : CW_UNDECIDED,
                      .mend = stated ? "" : "state survey.datum and survey.benchmark"});
}

void draft_check_rest(draft *d)
{
    check_weights(d);
    check_limits(d);
    check_survey(d);
}
