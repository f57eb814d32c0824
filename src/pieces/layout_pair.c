#include "layout_internal.h"

void cw_layout_fill_rest(layout_graph *graph, const layout_piece *pieces, layout_cost joint)
{
    for (int node = graph->count - 1; node >= 0; node--) {
        const int *to = graph->to + node * 2 * graph->stride;
        layout_cost best = COST_NONE;
        for (int i = 0; i < graph->stride; i++) {
            if (to[graph->stride + i] == DONE && pieces[i].pick < best)
                best = pieces[i].pick;
            if (to[i] == NO_NODE || graph->rest[to[i]] >= COST_NONE)
                continue;
            const layout_cost cost = pieces[i].pick + joint + graph->rest[to[i]];
            if (cost < best)
                best = cost;
        }
        graph->rest[node] = best;
    }
}

/** One pass over both rows.  A place in a row is a node of its graph, or, when the row is complete,
 * its node count and how far past gap->end_lo it ends. */
typedef struct pair_pass {
    layout_solver *solver;
    const layout_choice *choice;
    const layout_gap *gap;
    layout_cost ceiling, complete;
    int stagger;
} pair_pass;

static layout_cost rest_of(const layout_graph *row, int place)
{
    return place >= row->count ? 0 : row->rest[place];
}

// Every arc raises the sum of the two places, so the order of keys is one that no arc goes against.
static uint64_t key_of(int base, int top)
{
    return ((uint64_t)(base + top) << 32) | (uint64_t)base;
}

static void push(layout_solver *solver, layout_pending item)
{
    solver->heap =
        cw_layout_room(solver->arena, solver->heap, solver->heap_count, solver->heap_count + 1,
                       &solver->heap_capacity, sizeof *solver->heap);
    layout_pending *heap = solver->heap;
    int at = solver->heap_count++;
    while (at > 0 && heap[(at - 1) / 2].key > item.key) {
        heap[at] = heap[(at - 1) / 2];
        at = (at - 1) / 2;
    }
    heap[at] = item;
}

static layout_pending pop(layout_solver *solver)
{
    layout_pending *heap = solver->heap;
    const layout_pending least = heap[0];
    const int count = --solver->heap_count;
    const layout_pending moved = heap[count];
    int at = 0;
    for (int child = 1; child < count; child = 2 * at + 1) { // one level a round
        if (child + 1 < count && heap[child + 1].key < heap[child].key)
            child++;
        if (heap[child].key >= moved.key)
            break;
        heap[at] = heap[child];
        at = child;
    }
    heap[at] = moved;
    return least;
}

static void offer(pair_pass *pass, int base, int top, layout_pending arc)
{
    layout_solver *solver = pass->solver;
    const layout_graph *rows = solver->rows;
    const layout_cost rest_base = rest_of(&rows[0], base), rest_top = rest_of(&rows[1], top);
    if (rest_base >= COST_NONE || rest_top >= COST_NONE)
        return;
    const layout_cost bound = arc.reach + rest_base + rest_top;
    if (bound > pass->ceiling) {
        if (bound < solver->pruned)
            solver->pruned = bound;
        return;
    }
    if (base >= rows[0].count && top >= rows[1].count) {
        const int apart = base - rows[0].count - (top - rows[1].count);
        if ((apart < 0 ? -apart : apart) > solver->rules.ends_apart_16)
            return;
        solver->pair.to[arc.slot] = DONE;
        if (arc.reach < pass->complete)
            pass->complete = arc.reach;
        return;
    }
    arc.key = key_of(base, top);
    push(solver, arc);
}

// derived: the one check of the new joint against the front of the leading row is enough; the
// handbook page proves it.  The start of the run and a completed row have no joint there.
static bool clears_other(const pair_pass *pass, int lagging, int node, int other_place)
{
    const layout_graph *row = &pass->solver->rows[lagging];
    const layout_graph *other = &pass->solver->rows[1 - lagging];
    if (other_place == 0 || other_place >= other->count)
        return true;
    const int apart = row->position[node] - other->position[other_place];
    return (apart < 0 ? -apart : apart) >= pass->stagger;
}

static void expand(pair_pass *pass, int node, int base, int top)
{
    layout_solver *solver = pass->solver;
    const layout_graph *rows = solver->rows;
    const bool base_lags =
        base < rows[0].count &&
        (top >= rows[1].count || rows[0].position[base] <= rows[1].position[top]);
    const int lag = base_lags ? 0 : 1;
    const int place = base_lags ? base : top, other = base_lags ? top : base;
    const layout_graph *row = &rows[lag];
    const int *to = row->to + place * 2 * row->stride;
    const int stride = solver->pair.stride;
    const layout_cost reach = solver->pair.reach[node];
    solver->pair.track[node] = (unsigned char)lag;
    for (int i = 0; i < row->stride; i++) {
        const layout_cost pick = pass->choice->pieces[lag][i].pick;
        layout_pending arc = {.from = node, .slot = node * 2 * stride + i};
        if (to[i] != NO_NODE && clears_other(pass, lag, to[i], other)) {
            arc.reach = reach + pick + pass->gap->joint;
            offer(pass, base_lags ? to[i] : base, base_lags ? top : to[i], arc);
        }
        if (to[row->stride + i] == DONE) {
            const int end = row->position[place] + pass->choice->pieces[lag][i].length_16;
            const int done = row->count + end - pass->gap->end_lo;
            arc.reach = reach + pick;
            arc.slot += stride;
            offer(pass, base_lags ? done : base, base_lags ? top : done, arc);
        }
    }
}

static int new_pair_node(layout_solver *solver, layout_cost reach)
{
    layout_graph *graph = &solver->pair;
    const int node = graph->count++, width = 2 * graph->stride;
    if (node == graph->capacity) {
        int capacity = graph->capacity;
        graph->reach = cw_layout_room(solver->arena, graph->reach, node, node + 1, &capacity,
                                      sizeof *graph->reach);
        graph->track = cw_layout_room(solver->arena, graph->track, node, node + 1, &graph->capacity,
                                      sizeof *graph->track);
    }
    graph->to = cw_layout_room(solver->arena, graph->to, node * width, (node + 1) * width,
                               &graph->to_capacity, sizeof *graph->to);
    for (int k = 0; k < width; k++)
        graph->to[node * width + k] = NO_NODE;
    graph->reach[node] = reach;
    solver->states++;
    solver->pairs++;
    return node;
}

static void run_pairs(pair_pass *pass)
{
    layout_solver *solver = pass->solver;
    expand(pass, new_pair_node(solver, 0), 0, 0);
    while (solver->heap_count > 0) { // every arc is pushed and popped once
        if (solver->pairs > solver->pairs_most) {
            solver->pairs_cut = true;
            return;
        }
        const layout_pending first = pop(solver);
        const int node = new_pair_node(solver, first.reach);
        solver->pair.to[first.slot] = node;
        while (solver->heap_count > 0 && solver->heap[0].key == first.key) {
            const layout_pending same = pop(solver);
            solver->pair.to[same.slot] = node;
            if (same.reach < solver->pair.reach[node])
                solver->pair.reach[node] = same.reach;
        }
        const int base = (int)(first.key & UINT32_MAX);
        expand(pass, node, base, (int)(first.key >> 32) - base);
    }
}

layout_cost cw_layout_pair_graph(layout_solver *solver, const layout_choice *choice,
                                 const layout_gap *gap, layout_cost ceiling)
{
    const layout_cost floor_top = cw_layout_track_floor(&solver->rules, choice, 1);
    const layout_cost base = cw_layout_row_graph(solver, choice, 0, gap, floor_top, ceiling);
    if (base >= COST_NONE)
        return COST_NONE;
    const layout_cost top = cw_layout_row_graph(solver, choice, 1, gap, base, ceiling);
    if (top >= COST_NONE)
        return COST_NONE;
    cw_layout_fill_rest(&solver->rows[0], choice->pieces[0], gap->joint);
    cw_layout_fill_rest(&solver->rows[1], choice->pieces[1], gap->joint);
    solver->pair.count = 0;
    solver->pair.stride = choice->count[0] > choice->count[1] ? choice->count[0] : choice->count[1];
    solver->heap_count = 0;
    pair_pass pass = {.solver = solver,
                      .choice = choice,
                      .gap = gap,
                      .ceiling = ceiling,
                      .complete = COST_NONE,
                      .stagger = solver->rules.stagger_16};
    run_pairs(&pass);
    return pass.complete;
}
