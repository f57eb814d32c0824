/* Questions about a partial state: what next, why not, is it legal, what comes out with a piece. */
#include "order_internal.h"

#include <assert.h>

bool cw_order_allows(const cw_order_graph *graph, const bool *done, int step)
{
    return cw_order_missing(graph, done, step, NULL, 0) == 0;
}

int cw_order_next(const cw_order_graph *graph, const bool *done, int *steps)
{
    int count = 0;
    for (int i = 0; i < graph->step_count; i++) {
        const int step = graph->sequence[i];
        if (!done[step] && cw_order_allows(graph, done, step))
            steps[count++] = step;
    }
    return count;
}

int cw_order_missing(const cw_order_graph *graph, const bool *done, int step, cw_need *missing,
                     int room)
{
    assert(step >= 0 && step < graph->step_count);
    int count = 0;
    for (int n = graph->need_from[step]; n < graph->need_from[step + 1]; n++) {
        if (done[graph->needs[n].step])
            continue;
        if (count < room)
            missing[count] = graph->needs[n];
        count++;
    }
    return count;
}

int cw_order_check(const cw_order_graph *graph, const bool *done, cw_order_breach *breaches,
                   int room)
{
    int count = 0;
    for (int i = 0; i < graph->step_count; i++) {
        const int step = graph->sequence[i];
        for (int n = graph->need_from[step]; done[step] && n < graph->need_from[step + 1]; n++) {
            const cw_need need = graph->needs[n];
            if (done[need.step])
                continue;
            if (count < room)
                breaches[count] = (cw_order_breach){step, need.step, need.rule};
            count++;
        }
    }
    return count;
}

/* Steps other than setting that became possible are done at once; @p left counts each step's
 * missing needs. */
static void do_step(const cw_order_graph *graph, int step, bool *done, int *left, int *stack)
{
    int depth = 0;
    stack[depth++] = step;
    while (depth > 0) { // each step is pushed once in a life: when its last need is met
        const int now = stack[--depth];
        done[now] = true;
        for (int f = graph->follow_from[now]; f < graph->follow_from[now + 1]; f++) {
            const int later = graph->follows[f].step;
            if (--left[later] == 0 && graph->steps[later].kind != CW_STEP_SET)
                stack[depth++] = later;
        }
    }
}

/* Of what a piece waits for, the pieces and phases; bedding and sealant follow from them. */
static int breaches_of(const cw_order_graph *graph, const bool *done, int step,
                       cw_order_breach *breaches, int room)
{
    int count = 0;
    for (int n = graph->need_from[step]; n < graph->need_from[step + 1] && count < room; n++) {
        const cw_need need = graph->needs[n];
        const cw_step_kind kind = graph->steps[need.step].kind;
        const bool named =
            kind == CW_STEP_SET || kind == CW_STEP_RELEASED || kind == CW_STEP_PHASE_OPEN;
        if (named && !done[need.step])
            breaches[count++] = (cw_order_breach){step, need.step, need.rule};
    }
    return count;
}

static const cw_piece_steps *piece_steps(const cw_order_graph *graph, cw_order_piece piece)
{
    assert(piece.barrel >= 0 && piece.barrel < graph->barrel_count);
    assert((int)piece.row >= 0 && (int)piece.row < graph->rows);
    assert(piece.index >= 0 && piece.index < graph->piece_count[piece.barrel][piece.row]);
    return &graph->pieces[piece.barrel][piece.row][piece.index];
}

static int all_pieces(const cw_order_graph *graph)
{
    int count = 0;
    for (int b = 0; b < graph->barrel_count; b++)
        for (int row = 0; row < graph->rows; row++)
            count += graph->piece_count[b][row];
    return count;
}

cw_order_verdict cw_order_check_setting(const cw_order_graph *graph, const cw_order_piece *pieces,
                                        int count, cw_arena *arena)
{
    bool *done = CW_TAKE(arena, bool, graph->step_count);
    int *left = CW_TAKE(arena, int, graph->step_count);
    int *stack = CW_TAKE(arena, int, graph->step_count);
    for (int i = 0; i < graph->step_count; i++)
        left[i] = graph->need_from[i + 1] - graph->need_from[i];
    for (int i = 0; i < graph->step_count; i++)
        if (graph->need_from[i + 1] == graph->need_from[i])
            do_step(graph, i, done, left, stack);

    cw_order_verdict verdict = {.legal = true, .at = -1};
    for (int i = 0; i < count; i++) {
        const int set = piece_steps(graph, pieces[i])->set;
        if (!done[set] && left[set] == 0) {
            do_step(graph, set, done, left, stack);
            continue;
        }
        verdict = (cw_order_verdict){.at = i, .repeated = done[set]};
        const int room = (int)(sizeof verdict.breaches / sizeof *verdict.breaches);
        if (!verdict.repeated)
            verdict.breach_count = breaches_of(graph, done, set, verdict.breaches, room);
        return verdict;
    }
    verdict.complete = count == all_pieces(graph);
    return verdict;
}

/* Marks what must be undone and returns how many steps that are. */
static int mark_undo(const cw_order_graph *graph, const bool *done, bool keep_limits, bool *undo,
                     int *stack, int depth)
{
    int count = depth;
    while (depth > 0) { // each step is pushed once, when it is marked
        const int now = stack[--depth];
        for (int f = graph->follow_from[now]; f < graph->follow_from[now + 1]; f++) {
            const cw_need later = graph->follows[f];
            if (undo[later.step] || !done[later.step])
                continue;
            if (!keep_limits && cw_rule_at(later.rule)->progress)
                continue;
            undo[later.step] = true;
            stack[depth++] = later.step;
            count++;
        }
    }
    return count;
}

int cw_order_lift_out(const cw_order_graph *graph, const bool *done, cw_order_piece piece,
                      unsigned how, int *undo, cw_arena *arena)
{
    const cw_piece_steps *own = piece_steps(graph, piece);
    if (!done[own->set])
        return 0;
    bool *marked = CW_TAKE(arena, bool, graph->step_count);
    int *stack = CW_TAKE(arena, int, graph->step_count);
    // A joint that came apart takes new sealant, and bedding that carried a piece is looked at
    // again.
    const int seeds[] = {own->set, own->joint_sealant, own->seat_sealant, own->bedding,
                         (how & CW_LIFT_REJECTED) ? own->received : -1};
    int depth = 0;
    for (int i = 0; i < (int)(sizeof seeds / sizeof *seeds); i++) {
        if (seeds[i] < 0 || !done[seeds[i]])
            continue;
        marked[seeds[i]] = true;
        stack[depth++] = seeds[i];
    }
    const int count =
        mark_undo(graph, done, (how & CW_LIFT_KEEP_LIMITS) != 0, marked, stack, depth);
    int place = 0;
    for (int i = graph->step_count - 1; i >= 0 && place < count; i--)
        if (marked[graph->sequence[i]])
            undo[place++] = graph->sequence[i];
    return count;
}
