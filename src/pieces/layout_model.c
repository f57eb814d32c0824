#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"
#include "layout_internal.h"

/** Units of layout_cost in a dollar before the division by the sixteenths of a foot. */
#define COST_PER_DOLLAR 1e5

enum { LENGTH_MAX_16 = 1000000, GAP_MAX_16 = 1600 };
#define MONEY_MAX 1e6

static layout_cost cost_of(double dollars)
{
    return (layout_cost)llround(dollars * COST_PER_DOLLAR) * CW_SIXTEENTHS_PER_FT;
}

layout_rules cw_layout_rules_of(const cw_layout_problem *problem)
{
    const int rows = problem->rows == CW_ROWS_ALIGNED ? 2 : 1;
    return (layout_rules){
        .mode = problem->gap_mode,
        .gap_min_16 = problem->gap_min_16,
        .gap_max_16 = problem->gap_max_16,
        .gap_design_16 = problem->gap_design_16,
        .stagger_16 = problem->stagger_16,
        .ends_apart_16 = problem->ends_apart_16,
        .max_setups = problem->max_setups,
        .length = (layout_cost)llround(problem->length_cost * COST_PER_DOLLAR) * rows,
        .joint = cost_of(problem->joint_cost) * rows,
        .gap = cost_of(problem->gap_cost) * rows,
        .setup = cost_of(problem->setup_cost),
    };
}

// The limits that the piece does not meet begin somewhere; up to there it may be set.
static int end_max(const cw_layout_row *row, const cw_layout_item *item)
{
    int most = INT32_MAX;
    for (int l = 0; l < row->limit_count; l++)
        if (!cw_meets(item->weight_lb, row->limits[l].weight_lb) && row->limits[l].beyond_16 < most)
            most = row->limits[l].beyond_16;
    return most;
}

static layout_cost pick_of(const cw_layout_problem *problem, const cw_layout_item *item)
{
    return cost_of(problem->piece_cost) + cost_of(item->extra_cost) +
           (layout_cost)llround(problem->length_cost * COST_PER_DOLLAR) * item->length_16;
}

static void add_row(const cw_layout_problem *problem, const cw_layout_row *row, layout_track *track)
{
    for (int i = 0; i < row->item_count; i++) {
        const cw_layout_item *item = &row->items[i];
        layout_piece *piece = &track->pieces[i];
        const int most = end_max(row, item);
        if (i >= track->count)
            *piece = (layout_piece){
                .item = i, .length_16 = item->length_16, .end_max_16 = INT32_MAX, .at = item->at};
        if (most < piece->end_max_16)
            piece->end_max_16 = most;
        piece->pick += pick_of(problem, item);
        piece->setups |= 1u << item->setup;
    }
    track->count = row->item_count;
    for (int w = 0; w < row->keep_clear_count; w++)
        track->clear[track->clear_count++] = row->keep_clear[w];
    for (int m = 0; m < row->must_joint_count; m++)
        track->must[track->must_count++] = row->must_joint[m];
}

layout_run cw_layout_run_of(const cw_layout_problem *problem, int barrel, cw_arena *arena)
{
    const cw_layout_barrel *b = &problem->barrels[barrel];
    layout_run run = {.track_count = problem->rows == CW_ROWS_STAGGERED ? 2 : 1,
                      .place_lo_16 = b->length_16,
                      .place_hi_16 = b->length_16 + b->over_16,
                      .tolerance_16 = problem->tolerance_16};
    for (int t = 0; t < run.track_count; t++) {
        run.tracks[t].clear = CW_TAKE(arena, cw_layout_keep_clear,
                                      b->base.keep_clear_count + b->top.keep_clear_count);
        run.tracks[t].must = CW_TAKE(arena, cw_layout_must_joint,
                                     b->base.must_joint_count + b->top.must_joint_count);
    }
    add_row(problem, &b->base, &run.tracks[0]);
    if (problem->rows == CW_ROWS_ALIGNED)
        add_row(problem, &b->top, &run.tracks[0]);
    if (problem->rows == CW_ROWS_STAGGERED)
        add_row(problem, &b->top, &run.tracks[1]);
    return run;
}

static bool money(double dollars)
{
    return dollars >= 0.0 && dollars <= MONEY_MAX; // false for NaN
}

static const char *fault_of_item(const cw_layout_problem *problem, const cw_layout_item *item)
{
    if (item->length_16 <= 0 || item->length_16 > LENGTH_MAX_16)
        return "an item's laying length must lie between 1 and 1000000 sixteenths";
    if (item->at == 0 || (item->at & ~(unsigned)CW_AT_ANY))
        return "an item must be allowed first, inside or last, and nowhere else";
    if (item->setup < 0 || item->setup >= problem->setup_count)
        return "an item's set-up must be one of the problem's set-ups";
    if (!money(item->extra_cost))
        return "an item's extra cost must lie between 0 and 1000000";
    if (!(item->weight_lb > 0.0) || !isfinite(item->weight_lb))
        return "an item's weight must be greater than 0";
    if (!money(problem->length_cost * item->length_16 / CW_SIXTEENTHS_PER_FT))
        return "the price of an item's length must lie between 0 and 1000000";
    return NULL;
}

static const char *fault_of_row(const cw_layout_problem *problem, const cw_layout_row *row,
                                int end_16)
{
    if (row->item_count < 1 || row->item_count > CW_LAYOUT_ITEMS_MAX)
        return "a row must have 1 to 16 items";
    if (row->keep_clear_count < 0 || row->must_joint_count < 0 || row->limit_count < 0)
        return "a count must not be negative";
    for (int i = 0; i < row->item_count; i++) {
        const char *fault = fault_of_item(problem, &row->items[i]);
        if (fault)
            return fault;
        const int step_16 = row->items[i].length_16 + problem->gap_min_16;
        if (end_16 / step_16 >= CW_LAYOUT_PIECES_MAX)
            return "the shortest item is so short that a row may need more than 512 pieces";
    }
    for (int m = 0; m < row->must_joint_count; m++)
        if (row->must_joint[m].within_16 < 0)
            return "the tolerance of a required joint must not be negative";
    for (int l = 0; l < row->limit_count; l++)
        if (!(row->limits[l].weight_lb >= 0.0))
            return "a weight limit must be 0 or more";
    return NULL;
}

static const char *fault_of_mates(const cw_layout_barrel *barrel)
{
    if (barrel->base.item_count != barrel->top.item_count)
        return "aligned rows must have as many base items as top items";
    for (int i = 0; i < barrel->base.item_count; i++)
        if (barrel->base.items[i].length_16 != barrel->top.items[i].length_16 ||
            barrel->base.items[i].at != barrel->top.items[i].at)
            return "aligned rows must pair items of the same length and the same place";
    return NULL;
}

static const char *fault_of_barrel(const cw_layout_problem *problem, const cw_layout_barrel *barrel)
{
    if (barrel->length_16 <= 0 || barrel->length_16 > LENGTH_MAX_16 || barrel->over_16 < 0 ||
        barrel->over_16 > LENGTH_MAX_16)
        return "a barrel's length must lie between 1 and 1000000 sixteenths and its overrun not be "
               "negative";
    const int end_16 = barrel->length_16 + barrel->over_16 + problem->tolerance_16;
    if (end_16 > LENGTH_MAX_16)
        return "a barrel must end within 1000000 sixteenths with its overrun and tolerance";
    const char *fault = fault_of_row(problem, &barrel->base, end_16);
    if (!fault && problem->rows != CW_ROWS_ONE)
        fault = fault_of_row(problem, &barrel->top, end_16);
    if (!fault && problem->rows == CW_ROWS_ALIGNED)
        fault = fault_of_mates(barrel);
    return fault;
}

const char *cw_layout_fault(const cw_layout_problem *problem)
{
    const cw_layout_problem *p = problem;
    if (p->barrel_count < 1 || p->barrel_count > CW_LAYOUT_BARRELS_MAX)
        return "a layout must have 1 to 12 barrels";
    if (p->setup_count < 1 || p->setup_count > CW_LAYOUT_SETUPS_MAX || p->max_setups < 1 ||
        p->max_setups > CW_LAYOUT_SETUPS_MAX)
        return "set-ups and the most that may be used must lie between 1 and 12";
    if (p->gap_min_16 < 0 || p->gap_min_16 > p->gap_design_16 || p->gap_design_16 > p->gap_max_16 ||
        p->gap_max_16 > GAP_MAX_16)
        return "the gap band must satisfy 0 <= min <= design <= max <= 1600 sixteenths";
    if (p->tolerance_16 < 0 || p->tolerance_16 > LENGTH_MAX_16 || p->stagger_16 < 0 ||
        p->ends_apart_16 < 0)
        return "the end tolerance, the stagger and the distance of the ends must not be negative";
    if (p->rows == CW_ROWS_STAGGERED && p->gap_mode == CW_GAP_CONTINUOUS)
        return "staggered rows need the grid of gaps: one fractional gap cannot close two rows "
               "exactly";
    if (!money(p->piece_cost) || !money(p->joint_cost) || !money(p->setup_cost) ||
        !money(p->length_cost) || !money(p->gap_cost * (p->gap_max_16 - p->gap_min_16)) ||
        !money(p->gap_cost))
        return "each cost must lie between 0 and 1000000";
    for (int b = 0; b < p->barrel_count; b++) {
        const char *fault = fault_of_barrel(p, &p->barrels[b]);
        if (fault)
            return fault;
    }
    return NULL;
}
