/* The default order of all steps: what a superintendent would do if nothing went wrong.
 *
 * Each step gets a key.  A piece's steps carry its place in the setting sequence, so that bedding
 * and inspection come just before use and barrels alternate; every step takes the largest key among
 * what it needs, so that fill and backfill come as soon as their stretch is closed.  The order is
 * the topological one with the least keys. */
#include "order_internal.h"

#include <assert.h>

enum { PLACES = 16 }; /* places kept for the steps of one piece */

static void key_piece(const cw_order_graph *graph, cw_order_piece piece, int *place, int *key)
{
    const cw_piece_steps *own = &graph->pieces[piece.barrel][piece.row][piece.index];
    const int steps[] = {own->received,      own->bedding, own->walls_levelled, own->seat_sealant,
                         own->joint_sealant, own->set,     own->released,       own->wrapped};
    for (int i = 0; i < (int)(sizeof steps / sizeof *steps); i++)
        if (steps[i] >= 0)
            key[steps[i]] = *place * PLACES + i;
    (*place)++;
}

/* The barrels' own sequences merged phase by phase: piece by piece, or barrel by barrel. */
static void key_pieces(const cw_order_run *run, const cw_order_plan *plan,
                       const cw_order_graph *graph, int *key)
{
    int place = 0;
    for (int p = 0; p < plan->phase_count; p++) {
        int longest = 0;
        for (int r = 0; r < run->barrel_count; r++) {
            const cw_order_barrel_plan *own = &plan->barrels[plan->rank_barrel[r]];
            const int from = own->phase_from[p], to = own->phase_from[p + 1];
            if (to - from > longest)
                longest = to - from;
            for (int i = from; run->mode == CW_BARRELS_IN_TURN && i < to; i++)
                key_piece(graph, own->sequence[i], &place, key);
        }
        for (int i = 0; run->mode == CW_BARRELS_TOGETHER && i < longest; i++) {
            for (int r = 0; r < run->barrel_count; r++) {
                const cw_order_barrel_plan *own = &plan->barrels[plan->rank_barrel[r]];
                const int at = own->phase_from[p] + i;
                if (at < own->phase_from[p + 1])
                    key_piece(graph, own->sequence[at], &place, key);
            }
        }
    }
}

/* The subgrade of a barrel and phase is opened just before the first bedding on it. */
static void key_subgrades(const cw_order_graph *graph, int *key)
{
    for (int i = 0; i < graph->step_count; i++) {
        if (graph->steps[i].kind != CW_STEP_SUBGRADE)
            continue;
        for (int f = graph->follow_from[i]; f < graph->follow_from[i + 1]; f++) {
            const int later = key[graph->follows[f].step] / PLACES * PLACES;
            if (f == graph->follow_from[i] || later < key[i])
                key[i] = later;
        }
    }
}

static int *count_needs(const cw_order_graph *graph, cw_arena *arena)
{
    int *left = CW_TAKE(arena, int, graph->step_count);
    for (int i = 0; i < graph->step_count; i++)
        left[i] = graph->need_from[i + 1] - graph->need_from[i];
    return left;
}

/* In any topological order. */
static void raise_keys(const cw_order_graph *graph, int *key, cw_arena *arena)
{
    int *left = count_needs(graph, arena), *queue = CW_TAKE(arena, int, graph->step_count);
    int tail = 0;
    for (int i = 0; i < graph->step_count; i++)
        if (left[i] == 0)
            queue[tail++] = i;
    for (int head = 0; head < tail; head++) {
        const int step = queue[head];
        for (int f = graph->follow_from[step]; f < graph->follow_from[step + 1]; f++) {
            const int later = graph->follows[f].step;
            if (key[later] < key[step])
                key[later] = key[step];
            if (--left[later] == 0)
                queue[tail++] = later;
        }
    }
    assert(tail == graph->step_count); // else the rules contradict one another
}

typedef struct heap {
    int *steps, count;
    const int *key;
} heap;

static bool before(const heap *h, int a, int b)
{
    return h->key[a] != h->key[b] ? h->key[a] < h->key[b] : a < b;
}

static void heap_put(heap *h, int step)
{
    int at = h->count++;
    while (at > 0 && before(h, step, h->steps[(at - 1) / 2])) {
        h->steps[at] = h->steps[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    h->steps[at] = step;
}

static int heap_take(heap *h)
{
    const int least = h->steps[0], moved = h->steps[--h->count];
    int at = 0;
    for (int child = 1; child < h->count; child = 2 * at + 1) {
        if (child + 1 < h->count && before(h, h->steps[child + 1], h->steps[child]))
            child++;
        if (!before(h, h->steps[child], moved))
            break;
        h->steps[at] = h->steps[child];
        at = child;
    }
    h->steps[at] = moved;
    return least;
}

void cw_order_arrange(const cw_order_run *run, const cw_order_plan *plan, cw_order_graph *graph,
                      cw_arena *arena)
{
    int *key = CW_TAKE(arena, int, graph->step_count);
    key_pieces(run, plan, graph, key);
    key_subgrades(graph, key);
    raise_keys(graph, key, arena);

    int *sequence = CW_TAKE(arena, int, graph->step_count);
    int *rank = CW_TAKE(arena, int, graph->step_count);
    int *left = count_needs(graph, arena);
    heap open = {.steps = CW_TAKE(arena, int, graph->step_count), .key = key};
    for (int i = 0; i < graph->step_count; i++)
        if (left[i] == 0)
            heap_put(&open, i);
    for (int i = 0; i < graph->step_count; i++) {
        const int step = heap_take(&open);
        sequence[i] = step;
        rank[step] = i;
        for (int f = graph->follow_from[step]; f < graph->follow_from[step + 1]; f++)
            if (--left[graph->follows[f].step] == 0)
                heap_put(&open, graph->follows[f].step);
    }
    graph->sequence = sequence;
    graph->rank = rank;
}
