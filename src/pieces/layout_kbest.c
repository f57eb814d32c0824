#include <string.h>

#include "layout_internal.h"

layout_cost cw_layout_search(layout_solver *solver, const layout_choice *choice,
                             const layout_gap *gap, layout_cost ceiling)
{
    if (choice->run->track_count == 1)
        return cw_layout_row_graph(solver, choice, 0, gap, 0, ceiling);
    return cw_layout_pair_graph(solver, choice, gap, ceiling);
}

static layout_cost least_pick(const layout_rules *rules, const layout_choice *choice)
{
    layout_cost least = COST_NONE;
    for (int t = 0; t < choice->run->track_count; t++)
        for (int i = 0; i < choice->count[t]; i++)
            if (choice->pieces[t][i].pick + rules->joint < least)
                least = choice->pieces[t][i].pick + rules->joint;
    return least;
}

static void note_pruned(layout_solver *solver, layout_cost cost)
{
    if (cost < solver->pruned)
        solver->pruned = cost;
}

static layout_cost least_with_gaps(layout_solver *solver, const layout_choice *choice,
                                   layout_cost ceiling)
{
    layout_cost best = COST_NONE;
    for (int g = 0; g < solver->gap_count; g++) {
        const layout_gap gap = solver->gaps[g];
        const layout_cost limit = best < ceiling ? best : ceiling;
        if (gap.bound > limit) {
            note_pruned(solver, gap.bound);
            continue;
        }
        const layout_cost found = cw_layout_search(solver, choice, &gap, limit);
        if (found < best)
            best = found;
        if (best <= 0)
            break;
    }
    return best;
}

// Without this a run that cannot be laid would be searched whole again under each ceiling.  Its
// places of the ends come together again: under a high ceiling each would be a search of its own.
static void keep_gaps_that_stand(layout_solver *solver, const layout_choice *choice)
{
    int kept = 0;
    cw_layout_gaps(solver, choice, COST_NONE, true);
    for (int g = 0; g < solver->gap_count; g++) {
        const layout_gap gap = solver->gaps[g];
        if (cw_layout_pair_stands(solver, choice, &gap))
            solver->gaps[kept++] = gap;
    }
    solver->gap_count = kept;
}

bool cw_layout_stands(layout_solver *solver, const layout_choice *choice)
{
    if (choice->run->track_count == 1)
        return cw_layout_least(solver, choice, COST_NONE) < COST_NONE;
    if (cw_layout_floor(&solver->rules, choice) >= COST_NONE)
        return false;
    cw_layout_gaps(solver, choice, COST_NONE, true);
    for (int g = 0; g < solver->gap_count; g++) {
        const layout_gap gap = solver->gaps[g];
        if (solver->states > solver->states_most) {
            solver->cut_short = true;
            return false;
        }
        if (cw_layout_pair_stands(solver, choice, &gap))
            return true;
    }
    return false;
}

// A low ceiling keeps the graphs small, so it is raised from the bound until a layout lies under
// it.
layout_cost cw_layout_least(layout_solver *solver, const layout_choice *choice, layout_cost ceiling)
{
    enum { ROUNDS_MAX = 64, RAISE = 2, STATES_BEFORE_ASKING = 30000 };
    const long begun = solver->states;
    bool asked = choice->run->track_count == 1;
    const layout_cost floor = cw_layout_floor(&solver->rules, choice);
    if (floor > ceiling || floor >= COST_NONE)
        return COST_NONE;
    layout_cost width = least_pick(&solver->rules, choice);
    layout_cost attempt = floor;
    solver->gap_count = 0;
    for (int round = 0; round < ROUNDS_MAX; round++) {
        solver->pruned = COST_NONE;
        if (round == 0 || solver->rules.mode == CW_GAP_CONTINUOUS)
            cw_layout_gaps(solver, choice, attempt, false);
        if (!asked && solver->states - begun > STATES_BEFORE_ASKING) {
            keep_gaps_that_stand(solver, choice);
            asked = true;
        }
        const layout_cost best = least_with_gaps(solver, choice, attempt);
        if (best < COST_NONE)
            return best;
        if (solver->pruned > ceiling || attempt >= ceiling || solver->pruned >= COST_NONE)
            return COST_NONE;
        attempt = (attempt > solver->pruned ? attempt : solver->pruned) + width;
        attempt = attempt < ceiling ? attempt : ceiling;
        width *= RAISE;
    }
    return COST_NONE;
}

/** Labels of one graph, made from the end to the outlet. */
typedef struct label_pass {
    layout_solver *solver;
    const layout_choice *choice;
    const layout_graph *graph;
    layout_cost joint, ceiling;
    layout_label best[LIST_MAX]; /**< of the node in hand */
    int count;
} label_pass;

// Larger pieces first; pieces of one length in the order of the catalogue.
static int compare_steps(const layout_run *run, unsigned a, unsigned b)
{
    if (a == b)
        return 0;
    const int length_a = run->tracks[a >> TRACK_SHIFT].pieces[a & ITEM_MASK].length_16;
    const int length_b = run->tracks[b >> TRACK_SHIFT].pieces[b & ITEM_MASK].length_16;
    if (length_a != length_b)
        return length_a > length_b ? -1 : 1;
    return a < b ? -1 : 1;
}

static int compare_labels(const label_pass *pass, const layout_label *a, const layout_label *b)
{
    if (a->cost != b->cost)
        return a->cost < b->cost ? -1 : 1;
    if (a->pieces != b->pieces)
        return a->pieces - b->pieces;
    if (a->shortest_16 != b->shortest_16)
        return b->shortest_16 - a->shortest_16;
    const layout_label *labels = pass->solver->labels;
    for (int k = a->pieces; k > 0; k--) {
        const int order = compare_steps(pass->choice->run, a->step, b->step);
        if (order != 0 || a->next == b->next || a->next == NO_NODE || b->next == NO_NODE)
            return order;
        a = &labels[a->next];
        b = &labels[b->next];
    }
    return 0;
}

// True when a full list has no place for it, judged without looking at the order of pieces.
static bool too_late(const label_pass *pass, layout_cost cost, int pieces, int shortest_16)
{
    if (pass->count < pass->solver->wanted)
        return false;
    const layout_label *worst = &pass->best[pass->count - 1];
    if (cost != worst->cost)
        return cost > worst->cost;
    if (pieces != worst->pieces)
        return pieces > worst->pieces;
    return shortest_16 < worst->shortest_16;
}

// Insert in order; of two with one multiset only the better stays.
static void keep_label(label_pass *pass, const layout_label *label)
{
    int at = pass->count;
    while (at > 0 && compare_labels(pass, label, &pass->best[at - 1]) < 0)
        at--;
    for (int k = 0; k < at; k++)
        if (memcmp(pass->best[k].key, label->key, sizeof label->key) == 0)
            return;
    int end = at;
    while (end < pass->count && memcmp(pass->best[end].key, label->key, sizeof label->key) != 0)
        end++;
    if (end == pass->solver->wanted)
        end--;
    if (at > end)
        return;
    if (end == pass->count)
        pass->count++;
    for (int k = end; k > at; k--)
        pass->best[k] = pass->best[k - 1];
    pass->best[at] = *label;
}

static void try_label(label_pass *pass, int track, int i, int next, layout_cost joint)
{
    const layout_piece *piece = &pass->choice->pieces[track][i];
    const layout_label *rest = next == NO_NODE ? NULL : &pass->solver->labels[next];
    const layout_cost cost = piece->pick + joint + (rest ? rest->cost : 0);
    const int pieces = rest ? rest->pieces + 1 : 1;
    const bool shorter = !rest || piece->length_16 < rest->shortest_16;
    const int shortest_16 = shorter ? piece->length_16 : rest->shortest_16;
    if (too_late(pass, cost, pieces, shortest_16))
        return;
    layout_label label = {.cost = cost};
    if (rest)
        memcpy(label.key, rest->key, sizeof label.key);
    label.next = next;
    label.pieces = (short)pieces;
    label.shortest_16 = shortest_16;
    label.step = (unsigned char)(piece->item | track << TRACK_SHIFT);
    const int word = track * ROW_WORDS + piece->item / COUNTS_PER_WORD;
    label.key[word] += (uint64_t)1 << (piece->item % COUNTS_PER_WORD * COUNT_BITS);
    keep_label(pass, &label);
}

static void label_node(label_pass *pass, int node)
{
    const layout_graph *graph = pass->graph;
    layout_solver *solver = pass->solver;
    const int track = graph->track ? graph->track[node] : 0;
    pass->count = 0;
    for (int slot = 0; slot < 2 * graph->stride; slot++) {
        const int to = graph->to[node * 2 * graph->stride + slot];
        if (to == NO_NODE)
            continue;
        const bool last = slot >= graph->stride;
        const int i = last ? slot - graph->stride : slot;
        const layout_cost joint = last ? 0 : pass->joint;
        const layout_cost spent = graph->reach[node] + pass->choice->pieces[track][i].pick + joint;
        if (to == DONE) {
            if (spent <= pass->ceiling)
                try_label(pass, track, i, NO_NODE, 0);
            continue;
        }
        for (int k = solver->first_label[to]; k < solver->last_label[to]; k++) {
            if (spent + solver->labels[k].cost > pass->ceiling) {
                note_pruned(solver, spent + solver->labels[k].cost);
                break; // the labels of a node are in order of cost
            }
            try_label(pass, track, i, k, joint);
        }
    }
}

static void label_graph(label_pass *pass)
{
    layout_solver *solver = pass->solver;
    const int nodes = pass->graph->count;
    int capacity = solver->node_capacity;
    solver->first_label = cw_layout_room(solver->arena, solver->first_label, 0, nodes, &capacity,
                                         sizeof *solver->first_label);
    solver->last_label = cw_layout_room(solver->arena, solver->last_label, 0, nodes,
                                        &solver->node_capacity, sizeof *solver->last_label);
    solver->label_count = 0;
    for (int node = nodes - 1; node >= 0; node--) {
        label_node(pass, node);
        const int before = solver->label_count;
        solver->labels = cw_layout_room(solver->arena, solver->labels, before, before + pass->count,
                                        &solver->label_capacity, sizeof *solver->labels);
        if (pass->count > 0)
            memcpy(solver->labels + before, pass->best, (size_t)pass->count * sizeof *pass->best);
        solver->label_count += pass->count;
        solver->first_label[node] = before;
        solver->last_label[node] = solver->label_count;
    }
}

int cw_layout_compare_order(const layout_run *run, const layout_entry *a, const layout_entry *b)
{
    const int count = a->pieces < b->pieces ? a->pieces : b->pieces;
    for (int k = 0; k < count; k++) {
        const int order = compare_steps(run, a->steps[k], b->steps[k]);
        if (order != 0)
            return order;
    }
    return a->pieces - b->pieces;
}

int cw_layout_compare(const layout_run *run, const layout_entry *a, const layout_entry *b)
{
    if (a->cost != b->cost)
        return a->cost < b->cost ? -1 : 1;
    if (a->off_16 < b->off_16 || a->off_16 > b->off_16)
        return a->off_16 < b->off_16 ? -1 : 1;
    if (a->pieces != b->pieces)
        return a->pieces - b->pieces;
    if (a->shortest_16 != b->shortest_16)
        return b->shortest_16 - a->shortest_16;
    return cw_layout_compare_order(run, a, b);
}

static void write_entry(const label_pass *pass, const layout_gap *gap, const layout_label *root,
                        layout_entry *entry)
{
    const layout_run *run = pass->choice->run;
    entry->cost = root->cost;
    memcpy(entry->key, root->key, sizeof entry->key);
    entry->off_16 = root->pieces > run->track_count ? gap->off_16 : 0.0;
    entry->scale = gap->scale;
    entry->spread = gap->spread;
    entry->pieces = root->pieces;
    entry->shortest_16 = root->shortest_16;
    entry->setups = 0;
    const layout_label *label = root;
    for (int k = 0; k < root->pieces; k++) {
        entry->steps[k] = label->step;
        entry->setups |=
            run->tracks[label->step >> TRACK_SHIFT].pieces[label->step & ITEM_MASK].setups;
        if (label->next != NO_NODE)
            label = &pass->solver->labels[label->next];
    }
}

static void keep_entry(const layout_run *run, const layout_entry *entry, int wanted,
                       layout_list *list)
{
    int at = list->count;
    while (at > 0 && cw_layout_compare(run, entry, &list->entries[at - 1]) < 0)
        at--;
    for (int k = 0; k < at; k++)
        if (memcmp(list->entries[k].key, entry->key, sizeof entry->key) == 0)
            return;
    int end = at;
    while (end < list->count && memcmp(list->entries[end].key, entry->key, sizeof entry->key) != 0)
        end++;
    if (end == wanted)
        end--;
    if (at > end)
        return;
    if (end == list->count)
        list->count++;
    for (int k = end; k > at; k--)
        list->entries[k] = list->entries[k - 1];
    list->entries[at] = *entry;
}

void cw_layout_kbest(layout_solver *solver, const layout_choice *choice, layout_cost ceiling,
                     layout_list *list)
{
    list->count = 0;
    const layout_cost floor = cw_layout_floor(&solver->rules, choice);
    if (floor > ceiling) {
        note_pruned(solver, floor);
        return;
    }
    cw_layout_gaps(solver, choice, ceiling, false);
    for (int g = 0; g < solver->gap_count; g++) {
        const layout_gap gap = solver->gaps[g];
        if (gap.bound > ceiling)
            note_pruned(solver, gap.bound);
        if (gap.bound > ceiling || cw_layout_search(solver, choice, &gap, ceiling) >= COST_NONE)
            continue;
        label_pass pass = {.solver = solver,
                           .choice = choice,
                           .graph =
                               choice->run->track_count == 1 ? &solver->rows[0] : &solver->pair,
                           .joint = gap.joint,
                           .ceiling = ceiling};
        label_graph(&pass);
        for (int k = solver->first_label[0]; k < solver->last_label[0]; k++) {
            layout_entry entry;
            write_entry(&pass, &gap, &solver->labels[k], &entry);
            keep_entry(choice->run, &entry, solver->wanted, list);
        }
    }
}
