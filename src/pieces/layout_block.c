#include <limits.h>
#include <stdlib.h>

#include "cw/tolerance.h"
#include "layout_internal.h"

/** The search for what stands in the way of one kind of barrel. */
typedef struct block_search {
    layout_solver *solver;
    const cw_layout_problem *problem; /**< with no costs: only whether there is a layout counts */
    layout_rules rules;
    layout_run run;
    cw_layout_answer *answer;
    int barrel;
    long end_states; /**< of the barrel in hand */
    int to_come;     /**< relaxations not begun */
} block_search;

enum {
    GAP_TRIED_MAX_16 = 64, // 4 in. beyond the band: no sealant closes more
    // States of all relaxations together: some hundredths of a second.
    STATES_ONE_ROW = 400000,
    STATES_STAGGERED = 300000
};

/** Begin with one relaxation: it has an equal share of the work that is left. */
static void begin(block_search *search)
{
    layout_solver *solver = search->solver;
    const long left = search->end_states - solver->states;
    const int shares = search->to_come > 1 ? search->to_come : 1;
    solver->states_most = solver->states + (left > 0 ? left / shares : 0);
    solver->cut_short = false;
    search->to_come--;
}

static bool choice_stands(block_search *search, const layout_choice *choice)
{
    layout_solver *solver = search->solver;
    if (solver->states > solver->states_most)
        solver->cut_short = true;
    return !solver->cut_short && cw_layout_stands(solver, choice);
}

static bool stands(block_search *search, const layout_rules *rules, const layout_run *run)
{
    search->solver->rules = *rules;
    const unsigned all = cw_layout_setups_of(run);
    layout_choice choice = cw_layout_choose(run, all);
    if (!choice_stands(search, &choice))
        return false;
    if (cw_layout_popcount(all) <= rules->max_setups)
        return true;
    for (unsigned setups = all; setups != 0; setups = (setups - 1) & all) { // each subset once
        if (cw_layout_popcount(setups) != rules->max_setups)
            continue;
        choice = cw_layout_choose(run, setups);
        if (choice_stands(search, &choice))
            return true;
    }
    return false;
}

static void report(block_search *search, cw_layout_block_kind kind, int id, double amount)
{
    cw_layout_answer *answer = search->answer;
    if (answer->block_count < CW_LAYOUT_BLOCKS_MAX)
        answer->blocks[answer->block_count++] =
            (cw_layout_block){.kind = kind,
                              .barrel = search->barrel,
                              .id = id,
                              .amount = amount,
                              .rough = search->solver->cut_short};
}

static bool stands_with_gap(block_search *search, int gap_16)
{
    if (gap_16 < 0)
        return false;
    layout_rules rules = search->rules;
    const bool above = gap_16 > rules.gap_max_16;
    const bool grid = rules.mode == CW_GAP_GRID;
    rules.gap_min_16 = grid || !above ? gap_16 : gap_16 - 1;
    rules.gap_max_16 = grid || above ? gap_16 : gap_16 + 1;
    rules.gap_design_16 = gap_16;
    return stands(search, &rules, &search->run);
}

/** End with one relaxation. */
static void end(const block_search *search)
{
    if (search->solver->cut_short)
        search->answer->blocks_cut = true;
}

static void try_gap_band(block_search *search)
{
    for (int by = 1; by <= GAP_TRIED_MAX_16; by++) {
        const bool wider = stands_with_gap(search, search->rules.gap_max_16 + by);
        if (search->solver->cut_short)
            return;
        if (wider || stands_with_gap(search, search->rules.gap_min_16 - by)) {
            report(search, CW_BLOCK_GAP_BAND, 0, wider ? by : -by);
            return;
        }
    }
}

/** One amount to search: the relaxed run for a given amount. */
typedef void relax(const block_search *search, int which, int amount, layout_run *run);

static bool stands_relaxed(block_search *search, relax *by, int which, int amount)
{
    layout_run run = search->run;
    // Windows are changed in copies, so that the next amount starts from the problem as given.
    cw_arena *arena = search->solver->arena;
    for (int t = 0; t < run.track_count; t++) {
        layout_track *track = &run.tracks[t];
        track->clear = cw_arena_grow(arena, track->clear, (size_t)track->clear_count,
                                     (size_t)track->clear_count, sizeof *track->clear);
        track->must = cw_arena_grow(arena, track->must, (size_t)track->must_count,
                                    (size_t)track->must_count, sizeof *track->must);
    }
    by(search, which, amount, &run);
    return stands(search, &search->rules, &run);
}

/** Least amount in 1 .. @p most that admits a layout, 0 when not even @p most does. */
static int least_amount(block_search *search, relax *by, int which, int most)
{
    if (most < 1 || !stands_relaxed(search, by, which, most))
        return 0;
    int fails = 0, works = most; // relaxing further never takes a layout away
    while (works - fails > 1 && !search->solver->cut_short) { // halves
        const int amount = fails + (works - fails) / 2;
        if (stands_relaxed(search, by, which, amount))
            works = amount;
        else
            fails = amount;
    }
    return works;
}

static void end_short(const block_search *search, int which, int amount, layout_run *run)
{
    (void)search;
    (void)which;
    run->place_lo_16 -= amount;
}

static void end_long(const block_search *search, int which, int amount, layout_run *run)
{
    (void)search;
    (void)which;
    run->place_hi_16 += amount;
}

/** No two joints next to each other lie farther apart. */
static int reach_of(const block_search *search)
{
    const layout_run *run = &search->run;
    int longest_16 = 0;
    for (int t = 0; t < run->track_count; t++)
        for (int i = 0; i < run->tracks[t].count; i++)
            if (run->tracks[t].pieces[i].length_16 > longest_16)
                longest_16 = run->tracks[t].pieces[i].length_16;
    return longest_16 + search->rules.gap_max_16;
}

static void try_end(block_search *search)
{
    const layout_run *run = &search->run;
    const int reach_16 = reach_of(search);
    const int room_16 = run->place_lo_16 - 1 < reach_16 ? run->place_lo_16 - 1 : reach_16;
    const int shorter = least_amount(search, end_short, 0, room_16);
    const int longer =
        least_amount(search, end_long, 0, shorter > 0 && shorter < reach_16 ? shorter : reach_16);
    if (search->solver->cut_short)
        return; // another run may end nearer
    if (longer > 0)
        report(search, CW_BLOCK_END, 0,
               run->place_hi_16 - run->place_lo_16 + run->tolerance_16 + longer);
    else if (shorter > 0)
        report(search, CW_BLOCK_END, 0, -(run->tolerance_16 + shorter));
}

/** Windows are numbered through the tracks. */
static int track_of_window(const layout_run *run, int *which, bool must)
{
    const int first = must ? run->tracks[0].must_count : run->tracks[0].clear_count;
    if (*which < first)
        return 0;
    *which -= first;
    return 1;
}

static void narrow_from_outlet(const block_search *search, int which, int amount, layout_run *run)
{
    const int t = track_of_window(&search->run, &which, false);
    run->tracks[t].clear[which].from_16 += amount;
}

static void narrow_from_inlet(const block_search *search, int which, int amount, layout_run *run)
{
    const int t = track_of_window(&search->run, &which, false);
    run->tracks[t].clear[which].to_16 -= amount;
}

static void loosen_must(const block_search *search, int which, int amount, layout_run *run)
{
    const int t = track_of_window(&search->run, &which, true);
    run->tracks[t].must[which].within_16 += amount;
}

// However narrow, a window still forbids a joint across it; so dropping it is a test of its own.
static void drop_window(const block_search *search, int which, int amount, layout_run *run)
{
    (void)amount;
    const int t = track_of_window(&search->run, &which, false);
    run->tracks[t].clear[which].to_16 = run->tracks[t].clear[which].from_16 = INT32_MAX;
}

static void try_windows(block_search *search)
{
    const layout_run *run = &search->run;
    const int windows = run->tracks[0].clear_count + run->tracks[1].clear_count;
    for (int w = 0; w < windows; w++) {
        int at = w;
        const int t = track_of_window(run, &at, false);
        const cw_layout_keep_clear *window = &run->tracks[t].clear[at];
        begin(search);
        if (!stands_relaxed(search, drop_window, w, 0)) {
            end(search);
            continue;
        }
        const int width = window->to_16 - window->from_16 - 1;
        const int lower = least_amount(search, narrow_from_outlet, w, width);
        const int upper = least_amount(search, narrow_from_inlet, w,
                                       lower > 0 && lower <= width ? lower - 1 : width);
        report(search, CW_BLOCK_KEEP_CLEAR, window->id, upper > 0 ? upper : lower);
        end(search);
    }
    const int joints = run->tracks[0].must_count + run->tracks[1].must_count;
    for (int m = 0; m < joints; m++) {
        int at = m;
        const int t = track_of_window(run, &at, true);
        begin(search);
        int amount = least_amount(search, loosen_must, m, reach_of(search));
        if (amount == 0) // it lies beyond the joints
            amount = least_amount(search, loosen_must, m, run->place_hi_16);
        if (amount > 0)
            report(search, CW_BLOCK_MUST_JOINT, run->tracks[t].must[at].id, amount);
        end(search);
    }
}

static void try_stagger(block_search *search)
{
    layout_rules rules = search->rules;
    rules.stagger_16 = 0;
    if (search->run.track_count == 1 || !stands(search, &rules, &search->run))
        return;
    int works = 0, fails = search->rules.stagger_16;
    // A stagger that stands is shown so by one gap, one that does not only by all of them: so each
    // step goes up by a part of what is left.
    enum { PART = 4 };
    while (fails - works > 1 && !search->solver->cut_short) {
        rules.stagger_16 = works + (fails - works + PART - 1) / PART;
        if (stands(search, &rules, &search->run))
            works = rules.stagger_16;
        else
            fails = rules.stagger_16;
    }
    report(search, CW_BLOCK_STAGGER, 0, works);
}

static void try_ends_apart(block_search *search)
{
    const layout_run *run = &search->run;
    layout_rules rules = search->rules;
    int fails = rules.ends_apart_16;
    int works = run->place_hi_16 - run->place_lo_16 + 2 * run->tolerance_16;
    rules.ends_apart_16 = works;
    if (run->track_count == 1 || works <= fails || !stands(search, &rules, run))
        return;
    while (works - fails > 1 && !search->solver->cut_short) { // halves
        rules.ends_apart_16 = fails + (works - fails) / 2;
        if (stands(search, &rules, run))
            works = rules.ends_apart_16;
        else
            fails = rules.ends_apart_16;
    }
    report(search, CW_BLOCK_ENDS_APART, 0, works);
}

static void try_setups(block_search *search)
{
    layout_rules rules = search->rules;
    const int needed = cw_layout_popcount(cw_layout_setups_of(&search->run));
    for (rules.max_setups++; rules.max_setups <= needed; rules.max_setups++)
        if (stands(search, &rules, &search->run)) {
            report(search, CW_BLOCK_SETUPS, 0, rules.max_setups);
            return;
        }
}

typedef struct deficits {
    double *lb;
    int count;
} deficits;

static void add_deficits(const cw_layout_row *row, deficits *list)
{
    for (int i = 0; i < row->item_count; i++)
        for (int l = 0; l < row->limit_count; l++)
            if (!cw_meets(row->items[i].weight_lb, row->limits[l].weight_lb))
                list->lb[list->count++] = row->items[i].weight_lb - row->limits[l].weight_lb;
}

static int compare_lb(const void *left, const void *right)
{
    const double a = *(const double *)left, b = *(const double *)right;
    return a < b ? -1 : a > b;
}

static void raise_limits(cw_layout_row *row, double by_lb, cw_arena *arena)
{
    cw_layout_weight_limit *raised = CW_TAKE(arena, cw_layout_weight_limit, row->limit_count);
    for (int l = 0; l < row->limit_count; l++) {
        raised[l] = row->limits[l];
        raised[l].weight_lb += by_lb;
    }
    row->limits = raised;
}

static layout_run run_without_cost(const cw_layout_problem *problem, int barrel, cw_arena *arena)
{
    layout_run run = cw_layout_run_of(problem, barrel, arena);
    for (int t = 0; t < run.track_count; t++)
        for (int i = 0; i < run.tracks[t].count; i++)
            run.tracks[t].pieces[i].pick = 0; // the extra costs of items
    return run;
}

static bool stands_with_limits_raised(block_search *search, double by_lb)
{
    cw_arena *arena = search->solver->arena;
    cw_layout_barrel barrel = search->problem->barrels[search->barrel];
    raise_limits(&barrel.base, by_lb, arena);
    if (search->problem->rows != CW_ROWS_ONE)
        raise_limits(&barrel.top, by_lb, arena);
    cw_layout_problem problem = *search->problem;
    problem.barrels = &barrel;
    problem.barrel_count = 1;
    const layout_run run = run_without_cost(&problem, 0, arena);
    return stands(search, &search->rules, &run);
}

// Only the amounts by which some piece exceeds some limit can change anything.
static void try_weight(block_search *search)
{
    const cw_layout_barrel *barrel = &search->problem->barrels[search->barrel];
    const int room = CW_LAYOUT_ITEMS_MAX * (barrel->base.limit_count + barrel->top.limit_count);
    deficits list = {.lb = CW_TAKE(search->solver->arena, double, room)};
    add_deficits(&barrel->base, &list);
    if (search->problem->rows != CW_ROWS_ONE)
        add_deficits(&barrel->top, &list);
    qsort(list.lb, (size_t)list.count, sizeof *list.lb, compare_lb);
    if (list.count == 0 || !stands_with_limits_raised(search, list.lb[list.count - 1]))
        return;
    int fails = -1, works = list.count - 1;
    while (works - fails > 1 && !search->solver->cut_short) { // halves
        const int at = fails + (works - fails) / 2;
        if (stands_with_limits_raised(search, list.lb[at]))
            works = at;
        else
            fails = at;
    }
    report(search, CW_BLOCK_WEIGHT, 0, list.lb[works]);
}

// Of equal barrels one is enough: what stands alone then stands for all.
static bool stands_alone(block_search *search, const layout_family *family)
{
    search->solver->states_most = LONG_MAX;
    search->solver->cut_short = false;
    return family->kind_count > 1 && stands(search, &search->rules, &search->run);
}

// Those that take the most work come last and have what the others left.
static void try_barrel(block_search *search, int barrel, const layout_family *family)
{
    typedef void relaxation(block_search *);
    static relaxation *const all[] = {try_stagger,    try_setups, try_windows, try_weight,
                                      try_ends_apart, try_end,    try_gap_band};
    enum { RELAXATIONS = sizeof all / sizeof *all };
    search->barrel = barrel;
    search->run = run_without_cost(search->problem, barrel, search->solver->arena);
    if (stands_alone(search, family))
        return;
    const layout_run *run = &search->run;
    search->to_come = RELAXATIONS + run->tracks[0].clear_count + run->tracks[1].clear_count +
                      run->tracks[0].must_count + run->tracks[1].must_count;
    const long states = run->track_count == 1 ? STATES_ONE_ROW : STATES_STAGGERED;
    search->end_states = search->solver->states + states / family->kind_count;
    for (int r = 0; r < RELAXATIONS; r++) {
        begin(search);
        all[r](search);
        end(search);
    }
}

// Each barrel can be laid by itself, so it is the set-ups they must share.
static void try_shared_setups(block_search *search, const layout_family *family)
{
    unsigned all = 0;
    for (int k = 0; k < family->kind_count; k++)
        all |= cw_layout_setups_of(family->kind[k]);
    search->solver->rules = search->rules;
    for (int most = search->rules.max_setups + 1; most <= cw_layout_popcount(all); most++) {
        search->solver->rules.max_setups = most;
        if (cw_layout_whole_least(search->solver, family) >= COST_NONE)
            continue;
        search->barrel = -1;
        report(search, CW_BLOCK_SETUPS, 0, most);
        return;
    }
}

void cw_layout_find_blocks(layout_solver *solver, const cw_layout_problem *problem,
                           const layout_family *family, cw_layout_answer *answer)
{
    cw_layout_problem free_of_cost = *problem;
    free_of_cost.piece_cost = free_of_cost.length_cost = free_of_cost.joint_cost = 0.0;
    free_of_cost.setup_cost = free_of_cost.gap_cost = 0.0;
    block_search search = {.solver = solver,
                           .problem = &free_of_cost,
                           .rules = cw_layout_rules_of(&free_of_cost),
                           .answer = answer};
    bool seen[CW_LAYOUT_BARRELS_MAX] = {false};
    for (int b = 0; b < family->barrel_count; b++) {
        if (!seen[family->of_barrel[b]])
            try_barrel(&search, b, family);
        seen[family->of_barrel[b]] = true;
    }
    solver->states_most = LONG_MAX;
    if (answer->block_count == 0 && !answer->blocks_cut)
        try_shared_setups(&search, family);
}
