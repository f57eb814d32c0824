/* Which base each top waits for, which top bounds the lead of each base, phases, and each barrel's
 * own sequence. */
#include "order_internal.h"

cw_order_row cw_order_closing_row(const cw_order_run *run)
{
    return run->rows == 2 ? CW_ORDER_TOP : CW_ORDER_BASE;
}

const cw_order_line *cw_order_line_of(const cw_order_barrel *barrel, cw_order_row row)
{
    return row == CW_ORDER_TOP ? &barrel->top : &barrel->base;
}

/* The last base that top @p t lies on.  Bases before it are set by then, the row being laid piece
 * by piece. */
static void find_supports(const cw_order_barrel *barrel, int *support)
{
    int base = 0;
    for (int t = 0; t < barrel->top.count; t++) {
        while (base + 1 < barrel->base.count &&
               barrel->base.start_ft[base + 1] < barrel->top.end_ft[t] - CW_ORDER_TOUCH_FT)
            base++;
        support[t] = base;
    }
}

static bool reaches_beyond(const cw_order_run *run, const cw_order_barrel *barrel, int base,
                           double end_ft)
{
    if (run->beyond == CW_BEYOND_WHOLE)
        return barrel->base.start_ft[base] > end_ft - run->reach_ft;
    return barrel->base.end_ft[base] > end_ft + run->reach_ft;
}

/* The first base that reaches beyond top @p t, or the last one when none does: then all must be
 * set. */
static void find_need_bases(const cw_order_run *run, const cw_order_barrel *barrel,
                            const int *support, int *need_base)
{
    const int last = barrel->base.count - 1;
    int base = 0;
    for (int t = 0; t < barrel->top.count; t++) {
        while (base < last && !reaches_beyond(run, barrel, base, barrel->top.end_ft[t]))
            base++;
        need_base[t] = base > support[t] ? base : support[t];
    }
}

int cw_order_last_base_for(const cw_order_run *run, const cw_order_barrel_plan *plan, int barrel,
                           int top)
{
    const int second = run->barrels[barrel].base.count > 1 ? 1 : 0;
    return plan->need_base[top] > second ? plan->need_base[top] : second;
}

static bool covers(const cw_order_run *run, const cw_order_barrel *barrel, int top, int base)
{
    return barrel->top.end_ft[top] + run->reach_ft >= barrel->base.end_ft[base];
}

static void find_cover_tops(const cw_order_run *run, const cw_order_barrel *barrel, int *cover_top)
{
    int top = 0;
    for (int k = 0; k < barrel->base.count; k++) {
        while (top + 1 < barrel->top.count && !covers(run, barrel, top, k))
            top++;
        cover_top[k] = top;
    }
}

static const int *base_phases(const cw_order_barrel *barrel, cw_arena *arena)
{
    return barrel->base.phase ? barrel->base.phase : CW_TAKE(arena, int, barrel->base.count);
}

/* The base that a top waits for never falls along the row, nor do phases; so the phase of that base
 * is the earliest possible. */
static const int *top_phases(const cw_order_run *run, int number, const cw_order_barrel_plan *plan,
                             cw_arena *arena)
{
    const cw_order_barrel *barrel = &run->barrels[number];
    if (barrel->top.phase)
        return barrel->top.phase;
    int *phase = CW_TAKE(arena, int, barrel->top.count);
    for (int t = 0; t < barrel->top.count; t++)
        phase[t] = plan->phase[CW_ORDER_BASE][cw_order_last_base_for(run, plan, number, t)];
    return phase;
}

/* A top goes on as soon as it may, which keeps the fewest bases open at every moment. */
static void make_sequence(const cw_order_run *run, int number, cw_order_barrel_plan *plan,
                          cw_arena *arena)
{
    const cw_order_barrel *barrel = &run->barrels[number];
    const int bases = barrel->base.count, tops = run->rows == 2 ? barrel->top.count : 0;
    cw_order_piece *sequence = CW_TAKE(arena, cw_order_piece, bases + tops);
    int base = 0, top = 0, covered = 0;
    for (int i = 0; i < bases + tops; i++) {
        const bool top_next =
            top < tops &&
            (base == bases || (cw_order_last_base_for(run, plan, number, top) < base &&
                               plan->phase[CW_ORDER_TOP][top] <= plan->phase[CW_ORDER_BASE][base]));
        if (top_next) {
            sequence[i] = (cw_order_piece){number, CW_ORDER_TOP, top++};
            continue;
        }
        while (tops > 0 && covered < base && plan->cover_top[covered] < top)
            covered++;
        // Base k waits for the cover of base k - H, so H must exceed what is then uncovered by one.
        if (tops > 0 && base + 1 - covered > plan->least_lead)
            plan->least_lead = base + 1 - covered;
        sequence[i] = (cw_order_piece){number, CW_ORDER_BASE, base++};
    }
    plan->sequence = sequence;
    plan->sequence_count = bases + tops;
}

static void find_phase_starts(const cw_order_plan *whole, cw_order_barrel_plan *plan)
{
    int i = 0;
    for (int p = 0; p <= whole->phase_count; p++) {
        while (i < plan->sequence_count &&
               plan->phase[plan->sequence[i].row][plan->sequence[i].index] < p)
            i++;
        plan->phase_from[p] = i;
    }
}

/* A phase is filled and backfilled only as far as all its barrels are closed; the last one to the
 * longest. */
static void find_phase_ends(const cw_order_run *run, cw_order_plan *plan)
{
    const cw_order_row row = cw_order_closing_row(run);
    for (int p = 0; p < plan->phase_count; p++) {
        for (int b = 0; b < run->barrel_count; b++) {
            const cw_order_line *line = cw_order_line_of(&run->barrels[b], row);
            double end_ft = 0.0;
            for (int i = 0; i < line->count && plan->barrels[b].phase[row][i] <= p; i++)
                end_ft = line->end_ft[i];
            const bool farther = end_ft > plan->phase_end_ft[p];
            if (b == 0 || farther == (p + 1 == plan->phase_count))
                plan->phase_end_ft[p] = end_ft;
        }
    }
}

cw_order_plan cw_order_plan_make(const cw_order_run *run, cw_arena *arena)
{
    cw_order_plan plan = {.phase_count = 1};
    for (int b = 0; b < run->barrel_count; b++) {
        const cw_order_barrel *barrel = &run->barrels[b];
        cw_order_barrel_plan *own = &plan.barrels[b];
        plan.rank_barrel[b] = run->first_barrel == 0 ? b : run->barrel_count - 1 - b;
        own->phase[CW_ORDER_BASE] = base_phases(barrel, arena);
        const int last_phase = own->phase[CW_ORDER_BASE][barrel->base.count - 1];
        if (last_phase + 1 > plan.phase_count)
            plan.phase_count = last_phase + 1;
        if (run->rows == 2) {
            int *support = CW_TAKE(arena, int, barrel->top.count);
            int *need_base = CW_TAKE(arena, int, barrel->top.count);
            int *cover_top = CW_TAKE(arena, int, barrel->base.count);
            find_supports(barrel, support);
            find_need_bases(run, barrel, support, need_base);
            find_cover_tops(run, barrel, cover_top);
            own->support = support;
            own->need_base = need_base;
            own->cover_top = cover_top;
            own->phase[CW_ORDER_TOP] = top_phases(run, b, own, arena);
        }
        make_sequence(run, b, own, arena);
    }
    for (int b = 0; b < run->barrel_count; b++)
        find_phase_starts(&plan, &plan.barrels[b]);
    find_phase_ends(run, &plan);
    return plan;
}
