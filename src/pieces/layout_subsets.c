#include <stdlib.h>
#include <string.h>

#include "layout_internal.h"

/** A set of set-ups that may be the ones used. */
typedef struct subset {
    unsigned setups;
    layout_cost price;  /**< of its set-ups */
    layout_cost bound;  /**< no layout that uses all of them costs less */
    layout_cost *kinds; /**< the same for one barrel of each kind, without set-ups */
} subset;

typedef struct subset_search {
    layout_solver *solver;
    const layout_family *family;
    subset *subsets;
    int count;
    bool any_use;       /**< one subset stands for all: set-ups cost nothing and are not limited */
    layout_cost best;   /**< least cost of the whole problem */
    layout_cost cut;    /**< what costs more is not wanted */
    layout_list *lists; /**< of each kind, for the subset in hand */
    layout_outcome *outcome;
} subset_search;

int cw_layout_popcount(unsigned bits)
{
    int count = 0;
    for (; bits != 0; bits &= bits - 1) // clears one bit a round
        count++;
    return count;
}

unsigned cw_layout_setups_of(const layout_run *run)
{
    unsigned setups = 0;
    for (int t = 0; t < run->track_count; t++)
        for (int i = 0; i < run->tracks[t].count; i++)
            setups |= run->tracks[t].pieces[i].setups;
    return setups;
}

// A set that holds a set-up no piece can use without one outside the set is never the set of those
// used.
static bool is_union_of_needs(const layout_family *family, unsigned setups)
{
    unsigned used = 0;
    for (int k = 0; k < family->kind_count; k++) {
        const layout_choice choice = cw_layout_choose(family->kind[k], setups);
        for (int t = 0; t < choice.run->track_count; t++)
            for (int i = 0; i < choice.count[t]; i++)
                used |= choice.pieces[t][i].setups;
    }
    return used == setups;
}

static layout_cost bound_of(const subset_search *search, const subset *s)
{
    layout_cost sum = s->price;
    for (int k = 0; k < search->family->kind_count; k++) {
        if (s->kinds[k] >= COST_NONE)
            return COST_NONE;
        sum += s->kinds[k] * search->family->times[k];
    }
    return sum;
}

static int compare_subsets(const void *left, const void *right)
{
    const subset *a = left, *b = right;
    if (a->bound != b->bound)
        return a->bound < b->bound ? -1 : 1;
    return a->setups < b->setups ? -1 : a->setups > b->setups;
}

static void add_subset(subset_search *search, unsigned setups, const layout_cost *relaxed)
{
    layout_solver *solver = search->solver;
    const int kinds = search->family->kind_count;
    subset s = {.setups = setups,
                .price = solver->rules.setup * cw_layout_popcount(setups),
                .kinds = search->subsets[search->count].kinds};
    if (!s.kinds)
        s.kinds = CW_TAKE(solver->arena, layout_cost, kinds);
    for (int k = 0; k < kinds; k++) {
        const layout_choice choice = cw_layout_choose(search->family->kind[k], setups);
        const layout_cost floor = cw_layout_floor(&solver->rules, &choice);
        s.kinds[k] = floor > relaxed[k] ? floor : relaxed[k];
    }
    s.bound = bound_of(search, &s);
    search->subsets[search->count] = s;
    if (s.bound < COST_NONE)
        search->count++;
}

static void list_subsets(subset_search *search, unsigned all, const layout_cost *relaxed)
{
    const layout_rules *rules = &search->solver->rules;
    search->any_use = rules->setup == 0 && cw_layout_popcount(all) <= rules->max_setups;
    const int room = search->any_use ? 1 : 1 << cw_layout_popcount(all);
    search->subsets = CW_TAKE(search->solver->arena, subset, room);
    if (search->any_use) {
        add_subset(search, all, relaxed);
        return;
    }
    for (unsigned setups = all; setups != 0; setups = (setups - 1) & all) // each subset once
        if (cw_layout_popcount(setups) <= rules->max_setups &&
            is_union_of_needs(search->family, setups))
            add_subset(search, setups, relaxed);
    qsort(search->subsets, (size_t)search->count, sizeof *search->subsets, compare_subsets);
}

// What one barrel of a kind may cost when the other barrels, those of its own kind among them, cost
// no more than they must.
static layout_cost ceiling_of(const subset_search *search, const subset *s, int kind,
                              layout_cost cut)
{
    return cut >= COST_NONE ? COST_NONE : cut - (bound_of(search, s) - s->kinds[kind]);
}

// The same when all barrels of the kind cost alike, as they do in the best layout.
static layout_cost least_ceiling_of(const subset_search *search, const subset *s, int kind,
                                    layout_cost cut)
{
    const int times = search->family->times[kind];
    const layout_cost others = bound_of(search, s) - s->kinds[kind] * times;
    return cut >= COST_NONE ? COST_NONE : (cut - others) / times;
}

/** Raise the bounds of the subset to the least costs; COST_NONE when they exceed @p cut. */
static layout_cost least_of(subset_search *search, subset *s, layout_cost cut)
{
    for (int k = 0; k < search->family->kind_count; k++) {
        const layout_cost ceiling = least_ceiling_of(search, s, k, cut);
        if (s->kinds[k] > ceiling)
            return COST_NONE;
        if ((cw_layout_setups_of(search->family->kind[k]) & ~s->setups) == 0)
            continue; // nothing is left out: its bound is its least cost already
        const layout_choice choice = cw_layout_choose(search->family->kind[k], s->setups);
        const layout_cost least = cw_layout_least(search->solver, &choice, ceiling);
        s->kinds[k] = least < COST_NONE ? least : ceiling < COST_NONE ? ceiling + 1 : COST_NONE;
        s->bound = bound_of(search, s);
        if (least >= COST_NONE)
            return COST_NONE;
    }
    return s->bound;
}

/** Some barrels of a whole, in order of kind. */
typedef struct partial {
    layout_cost cost;
    double off_16;
    int pieces, shortest_16;
    unsigned setups;
    unsigned char rank[CW_LAYOUT_BARRELS_MAX]; /**< place of each barrel in the list of its kind */
} partial;

typedef struct partial_list {
    partial items[LIST_MAX];
    int count;
    int kind_at[CW_LAYOUT_BARRELS_MAX];
    int barrels;
} partial_list;

static int compare_keys(const partial *a, const partial *b)
{
    if (a->cost != b->cost)
        return a->cost < b->cost ? -1 : 1;
    if (a->off_16 < b->off_16 || a->off_16 > b->off_16)
        return a->off_16 < b->off_16 ? -1 : 1;
    if (a->pieces != b->pieces)
        return a->pieces - b->pieces;
    return b->shortest_16 - a->shortest_16;
}

static int compare_partials(const subset_search *search, const partial_list *list, const partial *a,
                            const partial *b)
{
    const int order = compare_keys(a, b);
    if (order != 0)
        return order;
    for (int n = 0; n < list->barrels; n++) {
        const int kind = list->kind_at[n];
        const layout_entry *entries = search->lists[kind].entries;
        if (a->rank[n] == b->rank[n])
            continue;
        const int by_size = cw_layout_compare_order(search->family->kind[kind],
                                                    &entries[a->rank[n]], &entries[b->rank[n]]);
        return by_size != 0 ? by_size : a->rank[n] - b->rank[n];
    }
    return 0;
}

static void keep_partial(const subset_search *search, partial_list *list, const partial *item)
{
    int at = list->count;
    while (at > 0 && compare_partials(search, list, item, &list->items[at - 1]) < 0)
        at--;
    const int wanted = search->solver->wanted;
    if (at == wanted)
        return;
    if (list->count < wanted)
        list->count++;
    for (int k = list->count - 1; k > at; k--)
        list->items[k] = list->items[k - 1];
    list->items[at] = *item;
}

// One more barrel of a kind.  Equal barrels take ranks that do not fall: exchanging their layouts
// gives nothing new.
static void add_barrel(const subset_search *search, partial_list *list, int kind, bool repeated)
{
    const partial_list before = *list;
    const int n = before.barrels;
    list->count = 0;
    list->kind_at[n] = kind;
    list->barrels = n + 1;
    for (int p = 0; p < before.count; p++)
        for (int r = repeated ? before.items[p].rank[n - 1] : 0; r < search->lists[kind].count;
             r++) {
            const layout_entry *entry = &search->lists[kind].entries[r];
            partial item = before.items[p];
            item.cost += entry->cost;
            item.off_16 += entry->off_16;
            item.pieces += entry->pieces;
            if (entry->shortest_16 < item.shortest_16)
                item.shortest_16 = entry->shortest_16;
            item.setups |= entry->setups;
            item.rank[n] = (unsigned char)r;
            keep_partial(search, list, &item);
        }
}

// Costs that tie with the best are one cost, so that the tie rules decide among them.
static layout_cost tied_cost(const subset_search *search, layout_cost cost)
{
    return cost <= search->best + search->best / 1000000000 ? search->best : cost;
}

static partial rank_of(const subset_search *search, const layout_whole *whole)
{
    return (partial){.cost = tied_cost(search, whole->cost),
                     .off_16 = whole->off_16,
                     .pieces = whole->pieces,
                     .shortest_16 = whole->shortest_16};
}

static int compare_wholes(const subset_search *search, const layout_whole *a, const layout_whole *b)
{
    const partial rank_a = rank_of(search, a), rank_b = rank_of(search, b);
    int order = compare_keys(&rank_a, &rank_b);
    for (int b_at = 0; order == 0 && b_at < search->family->barrel_count; b_at++)
        order = cw_layout_compare_order(search->family->kind[search->family->of_barrel[b_at]],
                                        &a->entries[b_at], &b->entries[b_at]);
    return order;
}

static void keep_whole(subset_search *search, const layout_whole *whole)
{
    layout_outcome *outcome = search->outcome;
    int at = outcome->count;
    while (at > 0 && compare_wholes(search, whole, &outcome->wholes[at - 1]) < 0)
        at--;
    const int wanted = search->solver->wanted;
    if (at == wanted)
        return;
    if (outcome->count < wanted)
        outcome->count++;
    layout_entry *room = outcome->wholes[outcome->count - 1].entries;
    for (int k = outcome->count - 1; k > at; k--)
        outcome->wholes[k] = outcome->wholes[k - 1];
    const size_t bytes = (size_t)search->family->barrel_count * sizeof *room;
    memcpy(room, whole->entries, bytes);
    outcome->wholes[at] = *whole;
    outcome->wholes[at].entries = room;

    enum { THIRD = CW_LAYOUT_KEPT - 1 };
    const layout_cost tie = search->best + search->best / 1000000000;
    if (outcome->count > THIRD && outcome->wholes[THIRD].cost < search->cut)
        search->cut = outcome->wholes[THIRD].cost > tie ? outcome->wholes[THIRD].cost : tie;
}

static void note_pruned(layout_solver *solver, layout_cost cost)
{
    if (cost < solver->pruned)
        solver->pruned = cost;
}

static void keep_partials(subset_search *search, const subset *s, const partial_list *list)
{
    const layout_family *family = search->family;
    layout_entry entries[CW_LAYOUT_BARRELS_MAX];
    for (int p = 0; p < list->count; p++) {
        const partial *item = &list->items[p];
        const layout_cost cost =
            item->cost + search->solver->rules.setup * cw_layout_popcount(item->setups);
        if (item->setups != s->setups && !search->any_use)
            continue; // it comes up again with its own subset
        if (cost > search->cut) {
            note_pruned(search->solver, cost);
            continue;
        }
        int taken[CW_LAYOUT_BARRELS_MAX] = {0}, first[CW_LAYOUT_BARRELS_MAX] = {0};
        for (int n = list->barrels - 1; n >= 0; n--)
            first[list->kind_at[n]] = n;
        for (int b = 0; b < family->barrel_count; b++) {
            const int kind = family->of_barrel[b];
            const int n = first[kind] + taken[kind]++;
            entries[b] = search->lists[kind].entries[item->rank[n]];
        }
        const layout_whole whole = {.cost = cost,
                                    .off_16 = item->off_16,
                                    .pieces = item->pieces,
                                    .shortest_16 = item->shortest_16,
                                    .setups = item->setups,
                                    .entries = entries};
        keep_whole(search, &whole);
    }
}

// What is cut off from one barrel is noted with what the others cost at least.
static void list_kind(subset_search *search, const subset *s, int kind, layout_cost ceiling)
{
    layout_solver *solver = search->solver;
    const layout_cost before = solver->pruned, others = bound_of(search, s) - s->kinds[kind];
    const layout_choice choice = cw_layout_choose(search->family->kind[kind], s->setups);
    solver->pruned = COST_NONE;
    cw_layout_kbest(solver, &choice, ceiling, &search->lists[kind]);
    const layout_cost here = solver->pruned < COST_NONE ? solver->pruned + others : COST_NONE;
    solver->pruned = here < before ? here : before;
}

// The shortest piece of a layout that uses all the set-ups is no longer than the longest that any
// of them makes.
static int shortest_at_most(const subset_search *search, const subset *s)
{
    int longest_16[CW_LAYOUT_SETUPS_MAX] = {0}, most_16 = 0;
    for (int k = 0; k < search->family->kind_count; k++) {
        const layout_choice choice = cw_layout_choose(search->family->kind[k], s->setups);
        for (int t = 0; t < choice.run->track_count; t++)
            for (int i = 0; i < choice.count[t]; i++)
                for (int u = 0; u < CW_LAYOUT_SETUPS_MAX; u++)
                    if ((choice.pieces[t][i].setups >> u & 1u) &&
                        choice.pieces[t][i].length_16 > longest_16[u])
                        longest_16[u] = choice.pieces[t][i].length_16;
    }
    for (int u = 0; u < CW_LAYOUT_SETUPS_MAX; u++)
        most_16 = longest_16[u] > most_16 ? longest_16[u] : most_16;
    int shortest_16 = most_16;
    for (int u = 0; u < CW_LAYOUT_SETUPS_MAX && !search->any_use; u++)
        if ((s->setups >> u & 1u) && longest_16[u] < shortest_16)
            shortest_16 = longest_16[u];
    return shortest_16;
}

// No barrel of the kind within the ceiling is nearer to the design gap or has fewer pieces.
static void bound_ties(subset_search *search, const subset *s, int kind, partial *least)
{
    layout_solver *solver = search->solver;
    const layout_choice choice = cw_layout_choose(search->family->kind[kind], s->setups);
    const layout_cost ceiling = ceiling_of(search, s, kind, search->cut);
    double off_16 = -1.0;
    int pieces = INT32_MAX;
    cw_layout_gaps(solver, &choice, ceiling, false);
    for (int g = 0; g < solver->gap_count; g++) {
        const layout_gap *gap = &solver->gaps[g];
        if (gap->bound > ceiling)
            continue;
        const double off = gap->fewest > choice.run->track_count ? gap->off_16 : 0.0;
        off_16 = off_16 < 0.0 || off < off_16 ? off : off_16;
        pieces = gap->fewest < pieces ? gap->fewest : pieces;
    }
    for (int n = 0; n < search->family->times[kind] && off_16 >= 0.0; n++) {
        least->off_16 += off_16; // one by one, as the layouts are summed: rounding keeps the order
        least->pieces += pieces;
    }
}

// True when the list is full and, by cost or by the tie rules, nothing that uses this set can come
// before the last of it.
static bool comes_too_late(subset_search *search, const subset *s)
{
    const layout_outcome *outcome = search->outcome;
    if (outcome->count < search->solver->wanted)
        return false;
    const partial last = rank_of(search, &outcome->wholes[outcome->count - 1]);
    partial least = {.cost = tied_cost(search, s->bound)};
    if (least.cost < last.cost)
        return false;
    for (int k = 0; k < search->family->kind_count; k++)
        bound_ties(search, s, k, &least);
    least.shortest_16 = shortest_at_most(search, s);
    return compare_keys(&least, &last) > 0;
}

static void best_of_subset(subset_search *search, subset *s)
{
    if (comes_too_late(search, s))
        return; // nothing need be noted: no further round is made once the list is full
    const layout_family *family = search->family;
    for (int k = 0; k < family->kind_count; k++) {
        const layout_cost ceiling = ceiling_of(search, s, k, search->cut);
        if (s->kinds[k] > ceiling) {
            note_pruned(search->solver, bound_of(search, s));
            return;
        }
        list_kind(search, s, k, ceiling);
        if (search->lists[k].count == 0 || search->solver->pairs_cut)
            return; // what was cut off is noted
        if (search->lists[k].entries[0].cost > s->kinds[k])
            s->kinds[k] = search->lists[k].entries[0].cost;
    }
    partial_list list = {.count = 1, .items[0].shortest_16 = INT32_MAX};
    for (int k = 0; k < family->kind_count; k++)
        for (int n = 0; n < family->times[k]; n++)
            add_barrel(search, &list, k, n > 0);
    keep_partials(search, s, &list);
}

// The reports need three different layouts and every tie of the best: look for the ties, then, when
// these are less than three, for three in all, a little further each time until they are there or
// nothing was cut off.
static void collect_within(subset_search *search, layout_cost within)
{
    search->outcome->count = 0;
    search->cut = within < COST_NONE - search->best ? search->best + within : COST_NONE;
    search->solver->pruned = COST_NONE;
    for (int n = 0; n < search->count && !search->solver->pairs_cut; n++) {
        subset *s = &search->subsets[n];
        if (s->bound <= search->cut)
            best_of_subset(search, s);
        else
            note_pruned(search->solver, s->bound);
    }
}

// As for the least cost, a step that lets two rows grow too far is halved.
static void collect(subset_search *search, layout_cost stride)
{
    enum { ROUNDS_MAX = 256, RAISE = 2 };
    layout_solver *solver = search->solver;
    layout_cost within = search->best / 1000000000, low = 0;
    solver->wanted = LIST_MAX;
    collect_within(search, within);
    solver->wanted = CW_LAYOUT_KEPT;
    long room = PAIRS_FIRST;
    for (int round = 1; round < ROUNDS_MAX; round++) {
        if (search->outcome->count >= CW_LAYOUT_KEPT || solver->pruned >= COST_NONE)
            return;
        low = solver->pruned - search->best;
        within = within < COST_NONE / RAISE ? RAISE * within : COST_NONE;
        within = within > stride ? within : stride;
        within = within > low ? within : low;
        stride *= RAISE;
        for (int halvings = 0; halvings < ROUNDS_MAX; halvings++) {
            const long made = solver->pairs;
            cw_layout_limit_pairs(solver, room);
            collect_within(search, within);
            room = cw_layout_pairs_next(room, solver->pairs - made);
            if (!cw_layout_pairs_were_cut(solver))
                break;
            within = low + (within - low) / 2;
        }
    }
}

// A small part of the least piece: the first step beyond the ties.
static layout_cost first_stride(const layout_family *family, const layout_rules *rules)
{
    enum { PART = 16 };
    layout_cost least = COST_NONE;
    for (int k = 0; k < family->kind_count; k++)
        for (int t = 0; t < family->kind[k]->track_count; t++)
            for (int i = 0; i < family->kind[k]->tracks[t].count; i++)
                if (family->kind[k]->tracks[t].pieces[i].pick < least)
                    least = family->kind[k]->tracks[t].pieces[i].pick;
    return (least + rules->joint) / PART + 1;
}

// The relaxation to all set-ups bounds every subset; then each subset that can still beat the best
// is solved.
static void find_best(subset_search *search)
{
    const layout_family *family = search->family;
    layout_cost relaxed[CW_LAYOUT_BARRELS_MAX];
    unsigned all = 0;
    for (int k = 0; k < family->kind_count; k++)
        all |= cw_layout_setups_of(family->kind[k]);
    for (int k = 0; k < family->kind_count; k++) {
        const layout_choice choice = cw_layout_choose(family->kind[k], all);
        relaxed[k] = cw_layout_least(search->solver, &choice, COST_NONE);
        if (relaxed[k] >= COST_NONE)
            return;
    }
    list_subsets(search, all, relaxed);
    for (int n = 0; n < search->count; n++) {
        if (search->subsets[n].bound >= search->best)
            continue;
        const layout_cost least = least_of(search, &search->subsets[n], search->best);
        if (least < search->best)
            search->best = least;
    }
}

layout_cost cw_layout_whole_least(layout_solver *solver, const layout_family *family)
{
    subset_search search = {.solver = solver, .family = family, .best = COST_NONE};
    find_best(&search);
    return search.best;
}

void cw_layout_wholes(layout_solver *solver, const layout_family *family, layout_outcome *outcome)
{
    subset_search search = {
        .solver = solver, .family = family, .outcome = outcome, .best = COST_NONE};
    outcome->count = 0;
    find_best(&search);
    if (search.best >= COST_NONE)
        return;
    search.lists = CW_TAKE(solver->arena, layout_list, family->kind_count);
    for (int n = 0; n < LIST_MAX; n++)
        outcome->wholes[n].entries = CW_TAKE(solver->arena, layout_entry, family->barrel_count);
    collect(&search, first_stride(family, &solver->rules));
}
