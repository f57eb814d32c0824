#include <limits.h>
#include <string.h>

#include "layout_internal.h"

layout_cost cw_layout_search(layout_solver *solver, const layout_choice *choice,
                             const layout_gap *gap, layout_cost ceiling)
{
    if (choice->run->track_count == 1)
        return cw_layout_row_graph(solver, choice, 0, gap, 0, ceiling);
    return cw_layout_pair_graph(solver, choice, gap, ceiling);
}

void cw_layout_limit_pairs(layout_solver *solver, long room)
{
    solver->pairs_most = solver->pairs + room;
    solver->pairs_cut = false;
}

long cw_layout_pairs_next(long room, long made)
{
    enum { MORE = 8 };
    return MORE * made > room ? MORE * made : room;
}

bool cw_layout_pairs_were_cut(layout_solver *solver)
{
    const bool cut = solver->pairs_cut;
    solver->pairs_most = LONG_MAX;
    solver->pairs_cut = false;
    return cut;
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

// A layout that costs what the gap must cost at least is the best with it, and is mostly met at
// once.
static layout_cost least_with_gap(layout_solver *solver, const layout_choice *choice,
                                  const layout_gap *gap, layout_cost ceiling)
{
    const layout_cost found =
        choice->run->track_count == 1 ? cw_layout_probe(solver, choice, gap) : COST_NONE;
    return found < COST_NONE ? found : cw_layout_search(solver, choice, gap, ceiling);
}

static layout_cost least_with_gaps(layout_solver *solver, const layout_choice *choice,
                                   layout_cost ceiling, bool probe)
{
    layout_cost best = COST_NONE;
    for (int g = 0; g < solver->gap_count; g++) {
        const layout_gap gap = solver->gaps[g];
        const layout_cost limit = best < ceiling ? best : ceiling;
        if (gap.bound > limit) {
            note_pruned(solver, gap.bound);
            continue;
        }
        const layout_cost found = probe ? least_with_gap(solver, choice, &gap, limit)
                                        : cw_layout_search(solver, choice, &gap, limit);
        if (found < best)
            best = found;
        if (best <= 0 || solver->pairs_cut)
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

// A low ceiling keeps the graphs small, so it is raised from the bound until a layout lies under
// it. Two rows may grow so fast with it that a step too far costs a thousand times what is needed:
// a search that makes many times the pairs of those before it is given up, and the step halved.
static layout_cost least_within(layout_solver *solver, const layout_choice *choice,
                                layout_cost ceiling, bool probe)
{
    enum { ROUNDS_MAX = 256, RAISE = 2, STATES_BEFORE_ASKING = 30000, WIDTHS = 64 };
    const long begun = solver->states;
    bool asked = choice->run->track_count == 1;
    const layout_cost floor = cw_layout_floor(&solver->rules, choice);
    if (floor > ceiling || floor >= COST_NONE)
        return COST_NONE;
    layout_cost width = least_pick(&solver->rules, choice), attempt = floor;
    layout_cost low = floor; // nothing lies below
    const layout_cost width_least = width / WIDTHS + 1;
    long room = PAIRS_FIRST;
    solver->gap_count = 0;
    for (int round = 0; round < ROUNDS_MAX; round++) {
        solver->pruned = COST_NONE;
        if (round == 0 || solver->rules.mode == CW_GAP_CONTINUOUS)
            cw_layout_gaps(solver, choice, attempt, false);
        if (!asked && solver->states - begun > STATES_BEFORE_ASKING) {
            keep_gaps_that_stand(solver, choice);
            asked = true;
        }
        const long made = solver->pairs;
        cw_layout_limit_pairs(solver, room);
        const layout_cost best = least_with_gaps(solver, choice, attempt, probe);
        if (cw_layout_pairs_were_cut(solver)) {
            attempt = low + (attempt - low) / 2;
            width = attempt - low > width_least ? attempt - low : width_least;
            room = cw_layout_pairs_next(room, room);
            continue;
        }
        if (best < COST_NONE)
            return best;
        if (solver->pruned > ceiling || attempt >= ceiling || solver->pruned >= COST_NONE)
            return COST_NONE;
        room = cw_layout_pairs_next(room, solver->pairs - made);
        low = attempt > solver->pruned ? attempt : solver->pruned;
        attempt = low + width < ceiling ? low + width : ceiling;
        width *= RAISE;
    }
    return COST_NONE;
}

layout_cost cw_layout_least(layout_solver *solver, const layout_choice *choice, layout_cost ceiling)
{
    return least_within(solver, choice, ceiling, true);
}

bool cw_layout_stands(layout_solver *solver, const layout_choice *choice)
{
    if (choice->run->track_count == 1)
        return least_within(solver, choice, COST_NONE, false) < COST_NONE; // nothing costs anything
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

enum { STEPS = 2 << TRACK_SHIFT };

/** One of the labels of the node in hand. */
typedef struct candidate {
    layout_label label;
    uint64_t key[KEY_WORDS];
} candidate;

/** Labels of one graph, made from the end to the outlet. */
typedef struct label_pass {
    layout_solver *solver;
    const layout_choice *choice;
    const layout_graph *graph;
    layout_cost joint, ceiling;
    int words;                  /**< of a multiset */
    unsigned char place[STEPS]; /**< of each step in the order of the last tie rule */
    candidate pool[LIST_MAX + 1];
    unsigned char best[LIST_MAX + 1]; /**< of the pool, in order; beyond count what is free */
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

static void rank_steps(label_pass *pass)
{
    const layout_run *run = pass->choice->run;
    unsigned steps[STEPS];
    int count = 0;
    for (int t = 0; t < run->track_count; t++)
        for (int i = 0; i < pass->choice->count[t]; i++)
            steps[count++] = (unsigned)(pass->choice->pieces[t][i].item | t << TRACK_SHIFT);
    for (int i = 0; i < count; i++) {
        int before = 0;
        for (int k = 0; k < count; k++)
            before += compare_steps(run, steps[k], steps[i]) < 0;
        pass->place[steps[i]] = (unsigned char)before;
    }
}

// Two labels with as many pieces.  Once they meet in one node, its own order of the pieces decides:
// a walk to the place where they part would be as long as the run.
static int compare_sequence(const label_pass *pass, const layout_label *a, const layout_label *b)
{
    const layout_label *labels = pass->solver->labels;
    for (int k = a->pieces; k > 0; k--) {
        if (a->step != b->step)
            return pass->place[a->step] - pass->place[b->step];
        if (a->next == b->next || a->next == NO_NODE || b->next == NO_NODE)
            return 0;
        const bool meet = a->to == b->to;
        a = &labels[a->next];
        b = &labels[b->next];
        if (meet)
            return a->turn - b->turn;
    }
    return 0;
}

static int compare_value(const layout_label *a, const layout_label *b)
{
    if (a->cost != b->cost)
        return a->cost < b->cost ? -1 : 1;
    if (a->pieces != b->pieces)
        return a->pieces - b->pieces;
    return b->shortest_16 - a->shortest_16;
}

static int compare_labels(const label_pass *pass, const layout_label *a, const layout_label *b)
{
    const int order = compare_value(a, b);
    return order != 0 ? order : compare_sequence(pass, a, b);
}

static const layout_label *label_at(const label_pass *pass, int place)
{
    return &pass->pool[pass->best[place]].label;
}

static bool same_multiset(const label_pass *pass, int place, const candidate *other)
{
    const candidate *kept = &pass->pool[pass->best[place]];
    for (int w = 0; w < pass->words; w++)
        if (kept->key[w] != other->key[w])
            return false;
    return true;
}

// Insert in order the candidate that stands in the first free place of the pool; of two with one
// multiset only the better stays.  These have one cost, as many pieces and one shortest piece, so
// they stand among the labels that equal each other in this.
static void keep_candidate(label_pass *pass)
{
    const unsigned char slot = pass->best[pass->count];
    const candidate *fresh = &pass->pool[slot];
    int at = pass->count;
    while (at > 0 && compare_labels(pass, &fresh->label, label_at(pass, at - 1)) < 0)
        at--;
    for (int k = at - 1; k >= 0 && compare_value(label_at(pass, k), &fresh->label) == 0; k--)
        if (same_multiset(pass, k, fresh))
            return;
    int end = at;
    while (end < pass->count && compare_value(label_at(pass, end), &fresh->label) == 0 &&
           !same_multiset(pass, end, fresh))
        end++;
    if (end == pass->count || compare_value(label_at(pass, end), &fresh->label) != 0)
        end = pass->count; // none like it
    if (end == pass->solver->wanted)
        end--;
    if (at > end)
        return;
    const unsigned char dropped = pass->best[end];
    for (int k = end; k > at; k--)
        pass->best[k] = pass->best[k - 1];
    pass->best[at] = slot;
    if (end == pass->count)
        pass->count++;
    else
        pass->best[pass->count] = dropped;
}

/** The piece with which a label begins, and where it leads. */
typedef struct label_arc {
    layout_cost cost; /**< of the piece and the joint after it */
    int length_16;
    unsigned char step;
    int digit; /**< of the piece in a multiset */
    int to;
} label_arc;

/** False when a full list has no place for it, judged without looking at the order of pieces. */
static bool try_label(label_pass *pass, const label_arc *arc, int next)
{
    candidate *fresh = &pass->pool[pass->best[pass->count]];
    layout_label *label = &fresh->label;
    *label = (layout_label){.cost = arc->cost,
                            .next = next,
                            .to = arc->to,
                            .shortest_16 = arc->length_16,
                            .pieces = 1,
                            .step = arc->step};
    if (next != NO_NODE) {
        const layout_label *rest = &pass->solver->labels[next];
        label->cost += rest->cost;
        label->pieces = (short)(rest->pieces + 1);
        if (rest->shortest_16 < label->shortest_16)
            label->shortest_16 = rest->shortest_16;
    }
    if (pass->count == pass->solver->wanted &&
        compare_value(label, label_at(pass, pass->count - 1)) > 0)
        return false;
    const uint64_t *rest_key =
        next != NO_NODE ? pass->solver->label_keys + (size_t)next * (size_t)pass->words : NULL;
    for (int w = 0; w < pass->words; w++)
        fresh->key[w] = rest_key ? rest_key[w] : 0;
    fresh->key[arc->digit / COUNTS_PER_WORD] += (uint64_t)1
                                                << (arc->digit % COUNTS_PER_WORD * COUNT_BITS);
    keep_candidate(pass);
    return true;
}

// The labels of a node are in order of cost, then in that of the other rules: behind one that comes
// too late all do, and behind one that costs too much.
static void try_arc(label_pass *pass, const label_arc *arc, layout_cost reach)
{
    layout_solver *solver = pass->solver;
    const layout_cost spent = reach + arc->cost;
    bool late = false;
    for (int k = solver->first_label[arc->to]; k < solver->last_label[arc->to]; k++) {
        if (spent + solver->labels[k].cost > pass->ceiling) {
            note_pruned(solver, spent + solver->labels[k].cost);
            return;
        }
        late = late || !try_label(pass, arc, k);
    }
}

static void collect_labels(label_pass *pass, int node)
{
    const layout_graph *graph = pass->graph;
    const layout_choice *choice = pass->choice;
    const int track = graph->track ? graph->track[node] : 0;
    const int *to = graph->to + node * 2 * graph->stride;
    const layout_cost reach = graph->reach[node];
    pass->count = 0;
    for (int slot = 0; slot < 2 * graph->stride; slot++) {
        if (to[slot] == NO_NODE)
            continue;
        const bool last = slot >= graph->stride;
        const int i = last ? slot - graph->stride : slot;
        const layout_piece *piece = &choice->pieces[track][i];
        const label_arc arc = {.cost = piece->pick + (last ? 0 : pass->joint),
                               .length_16 = piece->length_16,
                               .step = (unsigned char)(piece->item | track << TRACK_SHIFT),
                               .digit = track * choice->count[0] + i,
                               .to = to[slot]};
        if (arc.to != DONE)
            try_arc(pass, &arc, reach);
        else if (reach + arc.cost <= pass->ceiling)
            try_label(pass, &arc, NO_NODE);
    }
}

// Labels with as many pieces are numbered by the order of these; what else they differ in is left
// out, since a shorter piece before them may make it equal.
static void set_turns(label_pass *pass)
{
    unsigned char by_order[LIST_MAX];
    for (int n = 0; n < pass->count; n++) {
        layout_label *label = &pass->pool[pass->best[n]].label;
        int at = n;
        for (; at > 0; at--) {
            const layout_label *before = &pass->pool[by_order[at - 1]].label;
            if (before->pieces < label->pieces ||
                (before->pieces == label->pieces && compare_sequence(pass, before, label) < 0))
                break;
            by_order[at] = by_order[at - 1];
        }
        by_order[at] = pass->best[n];
    }
    for (int n = 0; n < pass->count; n++)
        pass->pool[by_order[n]].label.turn = (unsigned char)n;
}

static void store_labels(label_pass *pass, int node)
{
    layout_solver *solver = pass->solver;
    const int before = solver->label_count, words = pass->words;
    solver->labels = cw_layout_room(solver->arena, solver->labels, before, before + pass->count,
                                    &solver->label_capacity, sizeof *solver->labels);
    solver->label_keys =
        cw_layout_room(solver->arena, solver->label_keys, before * words,
                       (before + pass->count) * words, &solver->key_capacity, sizeof(uint64_t));
    for (int n = 0; n < pass->count; n++) {
        const candidate *kept = &pass->pool[pass->best[n]];
        solver->labels[before + n] = kept->label;
        for (int w = 0; w < words; w++)
            solver->label_keys[(before + n) * words + w] = kept->key[w];
    }
    solver->label_count += pass->count;
    solver->first_label[node] = before;
    solver->last_label[node] = solver->label_count;
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
    pass->words =
        (pass->choice->count[0] + pass->choice->count[1] + COUNTS_PER_WORD - 1) / COUNTS_PER_WORD;
    for (int n = 0; n <= LIST_MAX; n++)
        pass->best[n] = (unsigned char)n;
    rank_steps(pass);
    for (int node = nodes - 1; node >= 0; node--) {
        collect_labels(pass, node);
        set_turns(pass);
        store_labels(pass, node);
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

static void write_entry(const label_pass *pass, const layout_gap *gap, int number,
                        layout_entry *entry)
{
    const layout_run *run = pass->choice->run;
    const layout_label *root = &pass->solver->labels[number];
    entry->cost = root->cost;
    memset(entry->key, 0, sizeof entry->key);
    memcpy(entry->key, pass->solver->label_keys + (size_t)number * (size_t)pass->words,
           (size_t)pass->words * sizeof *entry->key);
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
        if (solver->pairs_cut)
            return;
        label_pass pass = {.solver = solver,
                           .choice = choice,
                           .graph =
                               choice->run->track_count == 1 ? &solver->rows[0] : &solver->pair,
                           .joint = gap.joint,
                           .ceiling = ceiling};
        label_graph(&pass);
        for (int k = solver->first_label[0]; k < solver->last_label[0]; k++) {
            layout_entry entry;
            write_entry(&pass, &gap, k, &entry);
            keep_entry(choice->run, &entry, solver->wanted, list);
        }
    }
}
