/* What makes a run impossible to order, each with its remedy.  Barrels and pieces are counted from
 * 1 in messages. */
#include "order_internal.h"

#include <math.h>
#include <stddef.h>

/* Below this length a segment or reach would be shorter than any piece. */
#define PART_FT_MIN 1.0

static const char *row_word(const cw_order_run *run, cw_order_row row)
{
    return row == CW_ORDER_TOP ? "top" : run->rows == 2 ? "base" : "box";
}

static const char *number_fault(cw_arena *arena, const char *name, int value, int least, int most)
{
    if (value >= least && value <= most)
        return NULL;
    return cw_arena_print(arena, "%s is %d; give a number from %d to %d", name, value, least, most);
}

static const char *options_fault(const cw_order_run *run, cw_arena *arena)
{
    const int most = CW_ORDER_NO_LIMIT, parts = CW_ORDER_PARTS_MAX;
    const struct {
        const char *name;
        int value, least, most;
    } numbers[] = {
        {"the number of barrels", run->barrel_count, 1, CW_ORDER_BARRELS_MAX},
        {"the number of rows", run->rows, 1, 2},
        {"the lead limit of bases ahead of tops", run->lead_limit, 2, most},
        {"the lead between barrels in pieces", run->barrel_lead, 1, most},
        {"the lag between barrels in pieces", run->barrel_lag, 0, most},
        {"the number of fill segments", run->fill_segments, 1, parts},
        {"the number of fill placements", run->fill_placements, 1, parts},
        {"the number of backfill reaches", run->backfill_reaches, 1, parts},
        {"the number of backfill lifts", run->backfill_lifts, 1, parts},
        {"the allowed difference of backfill lifts", run->lift_difference_max, 1, parts},
        {"the lifts that hold the boxes down", run->hold_down_lifts, 0, parts + 1},
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++) {
        const char *fault = number_fault(arena, numbers[i].name, numbers[i].value, numbers[i].least,
                                         numbers[i].most);
        if (fault)
            return fault;
    }
    if (run->first_barrel != 0 && run->first_barrel != run->barrel_count - 1)
        return cw_arena_print(arena,
                              "setting starts with barrel %d of %d; start with an outer barrel",
                              run->first_barrel + 1, run->barrel_count);
    if (run->fill_between && run->barrel_count < 2)
        return "there is fill between barrels but only one barrel; leave the fill out";
    if (!(run->reach_ft > 0.0 && isfinite(run->reach_ft)))
        return cw_arena_print(
            arena, "a base must reach %g ft beyond the top being placed; give more than 0 ft",
            run->reach_ft);
    return NULL;
}

static const char *line_fault(const cw_order_run *run, int barrel, cw_order_row row,
                              cw_arena *arena)
{
    const cw_order_line *line = cw_order_line_of(&run->barrels[barrel], row);
    const char *word = row_word(run, row);
    if (line->count < 1 || line->count > CW_ORDER_PIECES_MAX)
        return cw_arena_print(arena, "barrel %d has %d pieces in its %s row; give 1 to %d",
                              barrel + 1, line->count, word, CW_ORDER_PIECES_MAX);
    for (int i = 0; i < line->count; i++) {
        const double start = line->start_ft[i], end = line->end_ft[i];
        if (!(isfinite(start) && isfinite(end) && start < end))
            return cw_arena_print(
                arena, "%s %d of barrel %d runs from %g to %g ft; its end must lie upstream", word,
                i + 1, barrel + 1, start, end);
        if (i > 0 && start < line->end_ft[i - 1] - CW_ORDER_TOUCH_FT)
            return cw_arena_print(
                arena,
                "%s %d of barrel %d starts at %g ft, before the end of the last one at %g ft", word,
                i + 1, barrel + 1, start, line->end_ft[i - 1]);
    }
    return NULL;
}

static const char *base_phase_fault(const cw_order_run *run, int barrel, cw_arena *arena)
{
    const cw_order_line *line = &run->barrels[barrel].base;
    int before = 0;
    for (int i = 0; line->phase && i < line->count; i++) {
        const int phase = line->phase[i];
        const bool next = i > 0 && phase == before + 1 && phase < CW_ORDER_PHASES_MAX;
        if (phase != before && !next)
            return cw_arena_print(arena,
                                  "%s %d of barrel %d is in phase %d after phase %d; phases begin "
                                  "at the outlet with 1, rise by one and number at most %d",
                                  row_word(run, CW_ORDER_BASE), i + 1, barrel + 1, phase + 1,
                                  before + 1, CW_ORDER_PHASES_MAX);
        before = phase;
    }
    return NULL;
}

static const char *top_phase_fault(const cw_order_run *run, const cw_order_plan *plan, int barrel,
                                   cw_arena *arena)
{
    const cw_order_barrel_plan *own = &plan->barrels[barrel];
    int before = 0;
    for (int t = 0; t < run->barrels[barrel].top.count; t++) {
        const int phase = own->phase[CW_ORDER_TOP][t],
                  base = cw_order_last_base_for(run, own, barrel, t);
        const int least = own->phase[CW_ORDER_BASE][base];
        if (phase < least)
            return cw_arena_print(arena,
                                  "top %d of barrel %d is in phase %d but waits for base %d of "
                                  "phase %d; move the top to phase %d or the base to phase %d",
                                  t + 1, barrel + 1, phase + 1, base + 1, least + 1, least + 1,
                                  phase + 1);
        if (phase < before || phase >= plan->phase_count)
            return cw_arena_print(arena,
                                  "top %d of barrel %d is in phase %d; phases rise along the row "
                                  "and end with phase %d of the bases",
                                  t + 1, barrel + 1, phase + 1, plan->phase_count);
        before = phase;
    }
    return NULL;
}

static const char *barrel_fault(const cw_order_run *run, const cw_order_plan *plan, int barrel,
                                cw_arena *arena)
{
    const cw_order_barrel_plan *own = &plan->barrels[barrel];
    const cw_order_row row = cw_order_closing_row(run);
    if (run->lead_limit < own->least_lead)
        return cw_arena_print(arena,
                              "a lead limit of %d bases cannot be kept in barrel %d; the lengths "
                              "of its pieces need at least %d",
                              run->lead_limit, barrel + 1, own->least_lead);
    const cw_order_line *line = cw_order_line_of(&run->barrels[barrel], row);
    bool closed[CW_ORDER_PHASES_MAX] = {false};
    for (int i = 0; i < line->count; i++)
        closed[own->phase[row][i]] = true;
    for (int p = 0; p < plan->phase_count; p++)
        if (!closed[p])
            return cw_arena_print(arena,
                                  "no %s of barrel %d can be set in phase %d; give that phase more "
                                  "pieces of barrel %d or join it with the next",
                                  row_word(run, row), barrel + 1, p + 1, barrel + 1);
    return NULL;
}

static const char *parts_fault(const cw_order_run *run, const cw_order_plan *plan, cw_arena *arena)
{
    const bool fill = run->fill_between && run->fill_segments > run->backfill_reaches;
    const int parts = fill ? run->fill_segments : run->backfill_reaches;
    for (int p = 0; p < plan->phase_count; p++) {
        const double length = plan->phase_end_ft[p] - (p > 0 ? plan->phase_end_ft[p - 1] : 0.0);
        if (length < PART_FT_MIN * parts)
            return cw_arena_print(arena,
                                  "phase %d closes %g ft in all barrels, too short for %d %s of "
                                  "at least %g ft; make fewer or change the phases",
                                  p + 1, length, parts, fill ? "fill segments" : "backfill reaches",
                                  PART_FT_MIN);
    }
    return NULL;
}

const char *cw_order_fault(const cw_order_run *run, cw_arena *arena)
{
    const char *fault = options_fault(run, arena);
    for (int b = 0; !fault && b < run->barrel_count; b++) {
        fault = line_fault(run, b, CW_ORDER_BASE, arena);
        if (!fault && run->rows == 2)
            fault = line_fault(run, b, CW_ORDER_TOP, arena);
        if (!fault)
            fault = base_phase_fault(run, b, arena);
    }
    if (fault)
        return fault;
    const cw_order_plan plan = cw_order_plan_make(run, arena);
    for (int b = 0; !fault && run->rows == 2 && b < run->barrel_count; b++)
        fault = top_phase_fault(run, &plan, b, arena);
    for (int b = 0; !fault && b < run->barrel_count; b++)
        fault = barrel_fault(run, &plan, b, arena);
    return fault ? fault : parts_fault(run, &plan, arena);
}

cw_order_run cw_order_usual(void)
{
    return (cw_order_run){
        .rows = 2,
        .lead_limit = 4,
        .beyond = CW_BEYOND_SOME,
        .reach_ft = 0.5,
        .mode = CW_BARRELS_TOGETHER,
        .barrel_lead = 2,
        .fill_segments = 1,
        .fill_placements = 2,
        .cure_before_backfill = true,
        .backfill_reaches = 1,
        .backfill_lifts = 4,
        .lift_difference_max = 1,
    };
}
