#include <string.h>

#include "layout_internal.h"

enum { ROOM_FIRST = 256 };

void *cw_layout_room(cw_arena *arena, void *old, int used, int need, int *capacity, size_t size)
{
    if (need <= *capacity)
        return old;
    int room = *capacity > 0 ? *capacity : ROOM_FIRST;
    while (room < need) // doubles, so at most 31 rounds
        room *= 2;
    *capacity = room;
    return cw_arena_grow(arena, old, (size_t)used, (size_t)room, size);
}

/** One pass over one row with one gap. */
typedef struct row_pass {
    layout_solver *solver;
    layout_graph *graph;
    const layout_piece *pieces;
    int count;
    const layout_track *track;
    const layout_gap *gap;
    layout_cost elsewhere, ceiling;
    layout_cost complete;          /**< least complete cost so far */
    double slope, slack;           /**< least cost to the end: slope * distance + slack */
    int next[CW_LAYOUT_ITEMS_MAX]; /**< node from which each piece is tried next */
    int least_step;
} row_pass;

static int step_of(const row_pass *pass, int i)
{
    return pass->pieces[i].length_16 * pass->gap->scale + pass->gap->spread;
}

// derived: every piece but the last costs at least slope per length of piece and gap; the last may
// be cheaper by the slack.  Lowered by more than the rounding, so that it stays a bound.
static void set_bound(row_pass *pass)
{
    const layout_cost joint = pass->gap->joint;
    pass->slope = -1.0;
    for (int i = 0; i < pass->count; i++) {
        const double each = (double)(pass->pieces[i].pick + joint) / step_of(pass, i);
        if ((pass->pieces[i].at & CW_AT_INNER) && (pass->slope < 0.0 || each < pass->slope))
            pass->slope = each;
    }
    if (pass->slope < 0.0)
        pass->slope = 0.0;
    bool any = false;
    for (int i = 0; i < pass->count; i++) {
        const double rest = (double)(pass->pieces[i].pick + joint) - pass->slope * step_of(pass, i);
        if ((pass->pieces[i].at & CW_AT_LAST) && (!any || rest < pass->slack)) {
            pass->slack = rest;
            any = true;
        }
    }
    pass->slack -= (double)joint;
}

static layout_cost least_rest(const row_pass *pass, int position)
{
    const int distance = pass->gap->end_lo + pass->gap->spread - position;
    const double rest = pass->slope * distance + pass->slack;
    const double lowered = rest - 1e-12 * (pass->slope * distance) - 1.0;
    return lowered > 0.0 ? (layout_cost)lowered : 0;
}

static bool within_ceiling(row_pass *pass, layout_cost cost)
{
    const layout_cost whole = cost + pass->elsewhere;
    if (whole <= pass->ceiling)
        return true;
    if (whole < pass->solver->pruned)
        pass->solver->pruned = whole;
    return false;
}

// The joint lies in [start - gap, start].
static bool joint_is_clear(const row_pass *pass, int start)
{
    const int64_t scale = pass->gap->scale;
    for (int w = 0; w < pass->track->clear_count; w++) {
        const cw_layout_keep_clear *window = &pass->track->clear[w];
        if (start - pass->gap->spread < scale * window->to_16 && start > scale * window->from_16)
            return false;
    }
    return true;
}

// True when the piece from @p from to a joint before @p start (or to the end) passes over the whole
// band of a required joint: then no joint can lie in it.  Middles are doubled to stay whole.
static bool misses_joint(const row_pass *pass, int from, int start, bool last)
{
    const int64_t twice = 2 * (int64_t)pass->gap->scale;
    const int64_t before = 2 * (int64_t)from - pass->gap->spread;
    const int64_t after = 2 * (int64_t)start - pass->gap->spread;
    for (int m = 0; m < pass->track->must_count; m++) {
        const cw_layout_must_joint *must = &pass->track->must[m];
        const bool starts_below = from == 0 || before < twice * (must->at_16 - must->within_16);
        const bool ends_above = last || after > twice * (must->at_16 + must->within_16);
        if (starts_below && ends_above)
            return true;
    }
    return false;
}

static bool weight_allows(const row_pass *pass, const layout_piece *piece, int end)
{
    return end <= (int64_t)pass->gap->scale * piece->end_max_16;
}

static void add_end_arcs(row_pass *pass, int node)
{
    layout_graph *graph = pass->graph;
    const unsigned need = node == 0 ? CW_AT_FIRST | CW_AT_LAST : CW_AT_LAST;
    for (int i = 0; i < pass->count; i++) {
        const layout_piece *piece = &pass->pieces[i];
        const int end = graph->position[node] + piece->length_16 * pass->gap->scale;
        if (end < pass->gap->end_lo || end > pass->gap->end_hi || (piece->at & need) != need ||
            !weight_allows(pass, piece, end) ||
            misses_joint(pass, graph->position[node], end, true))
            continue;
        const layout_cost cost = graph->reach[node] + piece->pick;
        if (!within_ceiling(pass, cost))
            continue;
        graph->to[(node * 2 + 1) * graph->stride + i] = DONE;
        if (cost < pass->complete)
            pass->complete = cost;
    }
}

static void add_node(row_pass *pass, int position, int laid, layout_cost reach)
{
    layout_graph *graph = pass->graph;
    cw_arena *arena = pass->solver->arena;
    const int node = graph->count, width = 2 * graph->stride;
    if (node == graph->capacity) {
        int same = graph->capacity, capacity = graph->capacity;
        graph->position = cw_layout_room(arena, graph->position, node, node + 1, &capacity,
                                         sizeof *graph->position);
        graph->reach =
            cw_layout_room(arena, graph->reach, node, node + 1, &same, sizeof *graph->reach);
        same = graph->capacity;
        graph->laid =
            cw_layout_room(arena, graph->laid, node, node + 1, &same, sizeof *graph->laid);
        same = graph->capacity;
        graph->rest =
            cw_layout_room(arena, graph->rest, node, node + 1, &same, sizeof *graph->rest);
        graph->capacity = capacity;
    }
    graph->to = cw_layout_room(arena, graph->to, node * width, (node + 1) * width,
                               &graph->to_capacity, sizeof *graph->to);
    graph->position[node] = position;
    graph->laid[node] = (short)laid;
    graph->reach[node] = reach;
    for (int k = 0; k < width; k++)
        graph->to[node * width + k] = NO_NODE;
    graph->count++;
    pass->solver->states++;
    add_end_arcs(pass, node);
}

static bool may_start(const row_pass *pass, int i, int node)
{
    const unsigned at = node == 0 ? CW_AT_FIRST : CW_AT_INNER;
    return node < pass->graph->count && (pass->pieces[i].at & at);
}

// Every piece sends the sorted nodes to sorted starts; so the next start in order is the least of
// one candidate of each piece, as in merging sorted lists, and no other store of open positions is
// needed.
static int next_start(const row_pass *pass)
{
    int least = INT32_MAX;
    for (int i = 0; i < pass->count; i++) {
        if (!may_start(pass, i, pass->next[i]))
            continue;
        const int start = pass->graph->position[pass->next[i]] + step_of(pass, i);
        if (start < least)
            least = start;
    }
    return least;
}

static void settle_start(row_pass *pass, int start)
{
    layout_graph *graph = pass->graph;
    const bool clear = joint_is_clear(pass, start);
    layout_cost best = COST_NONE;
    int from[CW_LAYOUT_ITEMS_MAX], with[CW_LAYOUT_ITEMS_MAX], arcs = 0;
    for (int i = 0; i < pass->count; i++) {
        const int node = pass->next[i];
        if (!may_start(pass, i, node) || graph->position[node] + step_of(pass, i) != start)
            continue;
        pass->next[i]++;
        if (!clear || !weight_allows(pass, &pass->pieces[i], start - pass->gap->spread) ||
            misses_joint(pass, graph->position[node], start, false))
            continue;
        const layout_cost cost = graph->reach[node] + pass->pieces[i].pick + pass->gap->joint;
        if (cost < best)
            best = cost;
        from[arcs] = node;
        with[arcs++] = i;
    }
    if (arcs == 0)
        return;
    const int laid = graph->laid[from[0]] + 1;
    const layout_cost by_count =
        cw_layout_count_bound(&pass->solver->counts, pass->gap, laid, start);
    const layout_cost by_length = least_rest(pass, start);
    if (by_count >= COST_NONE ||
        !within_ceiling(pass, best + (by_count > by_length ? by_count : by_length)))
        return;
    for (int a = 0; a < arcs; a++)
        graph->to[from[a] * 2 * graph->stride + with[a]] = graph->count;
    add_node(pass, start, laid, best);
}

// False when the row has nothing to be laid with.
static bool begin_pass(row_pass *pass, const layout_choice *choice, int track)
{
    pass->graph = &pass->solver->rows[track];
    pass->pieces = choice->pieces[track];
    pass->count = choice->count[track];
    pass->track = &choice->run->tracks[track];
    pass->least_step = INT32_MAX;
    if (pass->count == 0)
        return false;
    set_bound(pass);
    cw_layout_count(pass->solver, pass->pieces, pass->count, pass->gap);
    for (int i = 0; i < pass->count; i++)
        if (step_of(pass, i) < pass->least_step)
            pass->least_step = step_of(pass, i);
    return true;
}

layout_cost cw_layout_row_graph(layout_solver *solver, const layout_choice *choice, int track,
                                const layout_gap *gap, layout_cost elsewhere, layout_cost ceiling)
{
    row_pass pass = {.solver = solver,
                     .gap = gap,
                     .elsewhere = elsewhere,
                     .ceiling = ceiling,
                     .complete = COST_NONE};
    const bool any = begin_pass(&pass, choice, track);
    pass.graph->count = 0;
    pass.graph->stride = pass.count;
    if (!any)
        return COST_NONE;
    for (int i = 0; i < pass.count; i++)
        pass.next[i] = pass.pieces[i].at & CW_AT_FIRST ? 0 : 1;
    add_node(&pass, 0, 0, 0);
    if (gap->single)
        return pass.complete;
    const int last_start = gap->end_hi + gap->spread - pass.least_step;
    for (int start = next_start(&pass); start <= last_start; start = next_start(&pass))
        settle_start(&pass, start); // each round moves at least one piece past its node
    return pass.complete;
}

/** The pieces laid so far in a search that goes on from the last of them. */
typedef struct row_path {
    int order[CW_LAYOUT_ITEMS_MAX]; /**< pieces, the longest first */
    int laid;
    int position[CW_LAYOUT_PIECES_MAX];
    int tried[CW_LAYOUT_PIECES_MAX]; /**< how many of the order have been tried here */
    layout_cost reach[CW_LAYOUT_PIECES_MAX];
} row_path;

static void longest_first(const row_pass *pass, int *order)
{
    for (int n = 0; n < pass->count; n++) {
        int at = n;
        for (; at > 0 && pass->pieces[order[at - 1]].length_16 < pass->pieces[n].length_16; at--)
            order[at] = order[at - 1];
        order[at] = n;
    }
}

static bool completes_within(const row_pass *pass, int from, layout_cost reach)
{
    const unsigned need = from == 0 ? CW_AT_FIRST | CW_AT_LAST : CW_AT_LAST;
    for (int i = 0; i < pass->count; i++) {
        const layout_piece *piece = &pass->pieces[i];
        const int end = from + piece->length_16 * pass->gap->scale;
        if (end >= pass->gap->end_lo && end <= pass->gap->end_hi && (piece->at & need) == need &&
            weight_allows(pass, piece, end) && !misses_joint(pass, from, end, true) &&
            reach + piece->pick <= pass->ceiling)
            return true;
    }
    return false;
}

// Lay one more piece, false when it may not stand here or leads beyond the ceiling.
static bool lay(const row_pass *pass, row_path *path, int i)
{
    const layout_piece *piece = &pass->pieces[i];
    const int n = path->laid, from = path->position[n], start = from + step_of(pass, i);
    const unsigned at = n == 0 ? CW_AT_FIRST : CW_AT_INNER;
    if (!(piece->at & at) || start > pass->gap->end_hi + pass->gap->spread - pass->least_step ||
        !joint_is_clear(pass, start) || !weight_allows(pass, piece, start - pass->gap->spread) ||
        misses_joint(pass, from, start, false))
        return false;
    const layout_cost reach = path->reach[n] + piece->pick + pass->gap->joint;
    const layout_cost by_count =
        cw_layout_count_bound(&pass->solver->counts, pass->gap, n + 1, start);
    if (by_count >= COST_NONE || reach + by_count > pass->ceiling ||
        reach + least_rest(pass, start) > pass->ceiling)
        return false;
    path->laid = n + 1;
    path->position[n + 1] = start;
    path->tried[n + 1] = 0;
    path->reach[n + 1] = reach;
    return true;
}

// Depth first, longest pieces first: where nothing is in the way it walks straight to the end.
layout_cost cw_layout_probe(layout_solver *solver, const layout_choice *choice,
                            const layout_gap *gap)
{
    row_pass pass = {.solver = solver, .gap = gap, .ceiling = gap->bound};
    if (gap->single || !begin_pass(&pass, choice, 0))
        return COST_NONE;
    row_path path;
    memset(path.order, 0, sizeof path.order);
    longest_first(&pass, path.order);
    path.laid = path.position[0] = path.tried[0] = 0;
    path.reach[0] = 0;
    const int tries = 2 * pass.count * gap->fewest; // a walk that never turns back takes half
    for (int n = 0; n < tries && path.laid >= 0; n++) {
        const int here = path.laid;
        if (path.tried[here] == 0) {
            solver->states++;
            if (completes_within(&pass, path.position[here], path.reach[here]))
                return gap->bound;
        }
        if (path.tried[here] == pass.count)
            path.laid--;
        else
            lay(&pass, &path, path.order[path.tried[here]++]);
    }
    return COST_NONE;
}
