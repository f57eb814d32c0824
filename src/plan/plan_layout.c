/* The job's lengths, openings, phase lines, bends and limits as a layout problem. */
#include "plan_internal.h"

#include <math.h>
#include <string.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static int sixteenths(double length_in)
{
    return (int)lround(length_in * CW_SIXTEENTHS_PER_IN);
}

/* A limit that falls between two sixteenths is taken on the safe side. */
static int at_most(double length_in)
{
    return (int)floor(length_in * CW_SIXTEENTHS_PER_IN + CW_RATIO_SLACK);
}

static int at_least(double length_in)
{
    return (int)ceil(length_in * CW_SIXTEENTHS_PER_IN - CW_RATIO_SLACK);
}

cw_piece_shape draft_plain_shape(const cw_job *job, cw_order_row row, double length_in)
{
    const cw_job_box *box = &job->box;
    cw_piece_shape shape = {.span_in = box->span_in,
                            .wall_in = box->wall_in,
                            .length_in = length_in,
                            .unit_pcf = box->concrete_pcf,
                            .tongue_in = job->joint.tongue_in,
                            .groove_in = job->joint.groove_in,
                            .tongue_share = job->joint.tongue_share,
                            .groove_share = job->joint.groove_share};
    if (row == CW_ORDER_BASE) {
        shape.part = box->form == CW_FORM_RING ? CW_PART_RING : CW_PART_BASE;
        shape.leg_in = draft_base_leg_in(job);
        shape.slab_in = box->floor_in;
        shape.haunch_in = box->haunch_in;
        if (box->form == CW_FORM_RING) {
            shape.top_slab_in = box->top_in;
            shape.top_haunch_in = box->top_haunch_in;
        }
    } else {
        shape.part = box->form == CW_FORM_DOUBLE_U ? CW_PART_HOOD : CW_PART_LID;
        shape.leg_in = draft_top_leg_in(job);
        shape.slab_in = box->top_in;
        shape.haunch_in = box->form == CW_FORM_DOUBLE_U ? box->top_haunch_in : 0.0;
    }
    return shape;
}

/* The shape of an item's heaviest use.  At the end of the run the piece there has no groove, or no tongue. */
static cw_piece_shape heaviest_shape(const draft *d, cw_order_row row, double length_in, unsigned at)
{
    const bool base = row == CW_ORDER_BASE;
    const unsigned groove_plain = base ? CW_AT_LAST : CW_AT_FIRST, tongue_plain = base ? CW_AT_FIRST : CW_AT_LAST;
    const int groove = (at & groove_plain) != 0 ? CW_JOINT_PLAIN : CW_JOINT_GROOVE;
    const int tongue = at == tongue_plain ? CW_JOINT_PLAIN : CW_JOINT_TONGUE;
    cw_piece_shape shape = draft_plain_shape(d->job, row, length_in);
    shape.downstream.joint = base ? tongue : groove;
    shape.upstream.joint = base ? groove : tongue;
    return shape;
}

typedef struct item_wish {
    double length_in, extra_cost, extra_lb;
    const char *name;
    unsigned at;
    int end;
    int share; /* index of an earlier item of the row whose mould serves, -1: own */
} item_wish;

static void add_item(draft *d, cw_order_row row, item_wish wish)
{
    const int count = d->item_count[row];
    if (count == CW_LAYOUT_ITEMS_MAX)
        return;
    const cw_piece_shape shape = heaviest_shape(d, row, wish.length_in, wish.at);
    const char *where = cw_arena_print(d->arena, "%s %s%s%s", draft_word(d->job, row),
                                       cw_feet_inches(d->arena, wish.length_in, CW_SIXTEENTHS_PER_IN),
                                       wish.name ? ", " : "", wish.name ? wish.name : "");
    const double plain_lb = draft_shape_good(d, &shape, where) ? cw_weight_compute(&shape, NULL).weight_lb : 0.0;
    cw_layout_item *items = row == CW_ORDER_BASE ? d->base_items : d->top_items;
    items[count] = (cw_layout_item){.length_16 = sixteenths(wish.length_in),
                                    .at = wish.at,
                                    .extra_cost = wish.extra_cost,
                                    .weight_lb = (plain_lb + wish.extra_lb) * d->job->lifting.factor,
                                    .setup = wish.share >= 0 ? items[wish.share].setup : d->setup_count};
    if (wish.share < 0)
        d->setup_count++;
    d->item_names[row][count] = wish.name;
    d->item_extra_lb[row][count] = wish.extra_lb;
    d->item_end[row][count] = wish.end;
    d->item_count[row]++;
}

static bool serves(const cw_job_end_piece *piece, cw_order_row row)
{
    return piece->row == CW_ROW_BOTH || (piece->row == CW_ROW_BASE) == (row == CW_ORDER_BASE);
}

/* Standard pieces may stand at an end only when the job names no special ones for it. */
static unsigned standard_places(const cw_job *job, cw_order_row row, bool either_row)
{
    unsigned at = CW_AT_ANY;
    for (int i = 0; i < job->pieces.end_count; i++)
        if (either_row || serves(&job->pieces.ends[i], row))
            at &= job->pieces.ends[i].end == 0 ? ~(unsigned)CW_AT_FIRST : ~(unsigned)CW_AT_LAST;
    return at;
}

static int standard_of_length(const draft *d, cw_order_row row, double length_in)
{
    const cw_layout_item *items = row == CW_ORDER_BASE ? d->base_items : d->top_items;
    for (int i = 0; i < d->item_count[row]; i++)
        if (d->item_end[row][i] < 0 && items[i].length_16 == sixteenths(length_in))
            return i;
    return -1;
}

static void fill_row(draft *d, cw_order_row row, bool aligned)
{
    const cw_job *job = d->job;
    const cw_list *lengths =
        row == CW_ORDER_TOP && job->pieces.has_top_lengths ? &job->pieces.top_lengths_in : &job->pieces.lengths_in;
    const unsigned at = standard_places(job, row, aligned);
    for (int i = 0; i < lengths->count; i++)
        add_item(d, row, (item_wish){.length_in = lengths->items[i], .at = at, .end = -1, .share = -1});
    for (int i = 0; i < job->pieces.end_count; i++) {
        const cw_job_end_piece *piece = &job->pieces.ends[i];
        const bool mine = serves(piece, row);
        if (!mine && !aligned)
            continue;
        // In an aligned run the mate of an end piece is a plain piece of its length, out of the standard mould
        // when there is one.
        add_item(d, row,
                 (item_wish){.length_in = piece->length_in,
                             .at = piece->end == 0 ? CW_AT_FIRST : CW_AT_LAST,
                             .extra_cost = mine ? piece->extra_cost : 0.0,
                             .extra_lb = mine ? piece->extra_weight_lb : 0.0,
                             .name = mine ? piece->name : NULL,
                             .end = mine ? piece->end : -1,
                             .share = mine ? -1 : standard_of_length(d, row, piece->length_in)});
    }
}

/* ---- where joints may not, or must, be ---- */

static double opening_length_in(const cw_job_opening *opening)
{
    return opening->has_diameter ? opening->diameter_in : opening->width_in;
}

static double opening_tall_in(const cw_job_opening *opening)
{
    return opening->has_diameter ? opening->diameter_in : opening->tall_in;
}

bool draft_opening_binds(const cw_job *job, const cw_job_opening *opening, cw_order_row row)
{
    if (job->box.form == CW_FORM_RING)
        return row == CW_ORDER_BASE;
    if (opening->face == CW_FACE_FLOOR || opening->face == CW_FACE_TOP)
        return (opening->face == CW_FACE_FLOOR) == (row == CW_ORDER_BASE);
    if (job->box.form == CW_FORM_LID)
        return row == CW_ORDER_BASE;
    const double half_in = opening_tall_in(opening) / 2.0;
    // One that only touches the seat stays on its side of it, whatever the last bit of the numbers says.
    return row == CW_ORDER_BASE ? opening->height_in - half_in < job->box.leg_in - CW_SAME_PLACE_FT
                                : opening->height_in + half_in > job->box.leg_in + CW_SAME_PLACE_FT;
}

const char *draft_opening_name(const draft *d, int opening)
{
    const char *name = d->job->openings[opening].name;
    return name[0] ? cw_arena_print(d->arena, "%s (opening %d)", name, opening + 1)
                   : cw_arena_print(d->arena, "opening %d", opening + 1);
}

double draft_opening_clear_in(const draft *d, const cw_job_opening *opening)
{
    if (opening->has_clear)
        return opening->clear_in;
    const cw_row *least = draft_row(d, "opening.clear"), *walls = draft_row(d, "opening.clear_walls");
    return fmax(least ? least->value : 0.0, (walls ? walls->value : 1.0) * d->job->box.wall_in);
}

/* @p but_base leaves out what binds the bases too: in an aligned run each place needs to be named only once, or loosening
 * one of the two would seem to change nothing. */
static void fill_windows(draft *d, int barrel, cw_order_row row, bool but_base, cw_layout_row *out)
{
    const cw_job *job = d->job;
    cw_layout_keep_clear *windows = CW_TAKE(d->arena, cw_layout_keep_clear, job->opening_count);
    int count = 0;
    for (int i = 0; i < job->opening_count; i++) {
        const cw_job_opening *opening = &job->openings[i];
        if (opening->barrel - 1 != barrel || !draft_opening_binds(job, opening, row))
            continue;
        if (but_base && draft_opening_binds(job, opening, CW_ORDER_BASE))
            continue;
        const double middle_in = opening->at_ft * d->plan.slope_factor * CW_IN_PER_FT;
        const double half_in = opening_length_in(opening) / 2.0 + draft_opening_clear_in(d, opening);
        windows[count++] = (cw_layout_keep_clear){at_most(middle_in - half_in), at_least(middle_in + half_in), i};
    }
    out->keep_clear = windows;
    out->keep_clear_count = count;
}

/* Ids of must-joints: bends first (vertex number), then CW_BENDS_MAX + phase number. */
static int fill_must(draft *d, int barrel)
{
    const cw_job *job = d->job;
    cw_layout_must_joint *must = d->must_bend_phase[barrel];
    const cw_run_line *line = &d->plan.barrels[barrel].line;
    const double per_ft = d->plan.slope_factor * CW_SIXTEENTHS_PER_FT;
    int count = 0;
    for (int v = 1; v + 1 < line->count; v++)
        must[count++] = (cw_layout_must_joint){(int)lround(line->points[v].at_ft * per_ft),
                                               at_most(job->bends[d->bend_of[v - 1]].within_in), v - 1};
    for (int p = 0; p < job->phase_count; p++)
        must[count++] = (cw_layout_must_joint){(int)lround(job->phases[p].at_ft * per_ft),
                                               at_most(job->phases[p].within_in), CW_BENDS_MAX + p};
    return count;
}

static int fill_limits(draft *d, const cw_layout_weight_limit **limits)
{
    const cw_job_pieces *pieces = &d->job->pieces;
    cw_layout_weight_limit *list = CW_TAKE(d->arena, cw_layout_weight_limit, pieces->limit_count + 2);
    int count = 0;
    // Weights of the problem carry the pick factor; the truck carries the plain weight.
    list[count++] = (cw_layout_weight_limit){0, pieces->payload_lb * d->job->lifting.factor};
    if (pieces->has_pick_limit)
        list[count++] = (cw_layout_weight_limit){0, pieces->pick_limit_lb};
    for (int i = 0; i < pieces->limit_count; i++)
        list[count++] = (cw_layout_weight_limit){
            (int)lround(pieces->limits[i].beyond_ft * d->plan.slope_factor * CW_SIXTEENTHS_PER_FT),
            pieces->limits[i].weight_lb};
    *limits = list;
    return count;
}

static void fill_barrels(draft *d, cw_layout_barrel *out, bool one_row, bool aligned)
{
    const cw_layout_weight_limit *limits = NULL;
    const int limit_count = fill_limits(d, &limits);
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const int must_count = fill_must(d, b);
        out[b] = (cw_layout_barrel){.length_16 = sixteenths(d->plan.barrels[b].wanted_in),
                                    .over_16 = at_most(d->job->run.overrun_ft * CW_IN_PER_FT)};
        cw_layout_row row = {.must_joint = d->must_bend_phase[b],
                             .must_joint_count = must_count,
                             .limits = limits,
                             .limit_count = limit_count};
        out[b].base = row;
        out[b].base.items = d->base_items;
        out[b].base.item_count = d->item_count[CW_ORDER_BASE];
        fill_windows(d, b, CW_ORDER_BASE, false, &out[b].base);
        if (one_row)
            continue;
        out[b].top = row;
        if (aligned)
            out[b].top.must_joint_count = 0;
        out[b].top.items = d->top_items;
        out[b].top.item_count = d->item_count[CW_ORDER_TOP];
        fill_windows(d, b, CW_ORDER_TOP, aligned, &out[b].top);
    }
}

static void show_layout(draft *d)
{
    cw_working *w = draft_working(d, "Division into pieces: stated cost of the chosen layout");
    const cw_layout_solution *best = &d->plan.layout.best[0];
    const cw_layout_problem *problem = &d->plan.problem;
    const char *here = "job file or specification profile: pieces.cost";
    int pieces = 0, joints = 0;
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const cw_layout_barrel_answer *answer = &best->barrels[b];
        pieces += answer->base.count + answer->top.count;
        joints += answer->base.count - 1 + (answer->top.count > 0 ? answer->top.count - 1 : 0);
    }
    cw_step_add(w, "n", "pieces set, all barrels", pieces, CW_DIM_COUNT, "division found");
    cw_step_add(w, "j", "joints, all barrels and rows", joints, CW_DIM_COUNT, "division found");
    cw_step_add(w, "D", "distinct mould set-ups over all barrels", best->setup_count, CW_DIM_COUNT, "division found");
    cw_step_add(w, "c_p", "cost of one pick", problem->piece_cost, CW_DIM_MONEY, here);
    cw_step_add(w, "c_j", "cost of one joint", problem->joint_cost, CW_DIM_MONEY, here);
    cw_step_add(w, "c_m", "cost of one mould set-up", problem->setup_cost, CW_DIM_MONEY, here);
    cw_step_add(w, "C", "c_p n + c_j j + c_m D + length, end-piece and gap terms: the least of all divisions",
                best->cost, CW_DIM_MONEY, "exact search, docs/handbook/layout.md");
    for (int b = 0; b < d->plan.barrel_count; b++)
        cw_step_add(w, cw_arena_print(d->arena, "g_%d", b + 1), "uniform joint gap that ends the barrel in place",
                    best->barrels[b].gap_16 / CW_SIXTEENTHS_PER_IN, CW_DIM_IN, "division found");
}

double draft_ends_apart_in(const draft *d, int barrel)
{
    const cw_layout_barrel_answer *answer = &d->plan.layout.best[0].barrels[barrel];
    const cw_layout_cut *top = &answer->top;
    if (top->count == 0)
        return 0.0;
    const int last = top->count - 1;
    return fabs(top->start_16[last] + d->top_items[top->items[last]].length_16 - answer->end_16) / CW_SIXTEENTHS_PER_IN;
}

bool draft_layout(draft *d)
{
    const cw_job *job = d->job;
    cw_plan *plan = &d->plan;
    const bool one_row = job->box.form == CW_FORM_RING;
    const bool aligned = !one_row && job->pieces.rows == 0;
    fill_row(d, CW_ORDER_BASE, aligned);
    if (!one_row)
        fill_row(d, CW_ORDER_TOP, aligned);
    cw_layout_barrel *barrels = CW_TAKE(d->arena, cw_layout_barrel, plan->barrel_count);
    fill_barrels(d, barrels, one_row, aligned);
    const int most = job->pieces.max_setups * (aligned ? 2 : 1);
    const int gap_min_16 = at_least(job->joint.gap_min_in), gap_max_16 = at_most(job->joint.gap_max_in);
    const int gap_design_16 = sixteenths(job->joint.gap_in);
    plan->problem = (cw_layout_problem){
        .barrels = barrels,
        .barrel_count = plan->barrel_count,
        .setup_count = d->setup_count,
        .rows = one_row ? CW_ROWS_ONE : aligned ? CW_ROWS_ALIGNED : CW_ROWS_STAGGERED,
        .stagger_16 = at_least(job->pieces.stagger_in),
        .ends_apart_16 = at_most(job->run.end_tolerance_in),
        .gap_mode = job->joint.gap_mode ? CW_GAP_CONTINUOUS : CW_GAP_GRID,
        .gap_min_16 = gap_min_16,
        .gap_max_16 = gap_max_16,
        .gap_design_16 = gap_design_16 < gap_min_16 ? gap_min_16 : gap_design_16 > gap_max_16 ? gap_max_16 : gap_design_16,
        .tolerance_16 = at_most(job->run.end_tolerance_in),
        .max_setups = most < CW_LAYOUT_SETUPS_MAX ? most : CW_LAYOUT_SETUPS_MAX,
        .piece_cost = job->pieces.cost.piece,
        .length_cost = job->pieces.cost.per_ft,
        .joint_cost = job->pieces.cost.joint,
        .setup_cost = job->pieces.cost.setup,
        .gap_cost = job->pieces.cost.gap};
    const char *fault = cw_layout_fault(&plan->problem);
    if (fault) {
        cw_check_add(d->checks, (cw_check){.id = "layout.found",
                                           .what = "The run divides into pieces",
                                           .where = "",
                                           .clause = "limits of the layout search",
                                           .verdict = CW_FAILS,
                                           .rests_on = "",
                                           .mend = fault});
        return false;
    }
    plan->layout = cw_layout_solve(&plan->problem, d->arena);
    if (plan->layout.found)
        show_layout(d);
    return plan->layout.found;
}
