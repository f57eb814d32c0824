#include <stdlib.h>
#include <string.h>

#include "layout_internal.h"

layout_choice cw_layout_choose(const layout_run *run, unsigned setups)
{
    layout_choice choice = {.run = run};
    for (int t = 0; t < run->track_count; t++) {
        const layout_track *track = &run->tracks[t];
        for (int i = 0; i < track->count; i++)
            if ((track->pieces[i].setups & ~setups) == 0)
                choice.pieces[t][choice.count[t]++] = track->pieces[i];
    }
    return choice;
}

// derived: for the pieces of one track sum(length + gap) = end + gap, so the cost with one joint
// more than there are is at least (end + gap) times the least cost per length, and (end +
// gap)/(length + gap) falls as the gap grows while the piece is shorter than the run.
layout_cost cw_layout_track_floor(const layout_rules *rules, const layout_choice *choice, int track)
{
    const layout_run *run = choice->run;
    const double end = run->place_lo_16 - run->tolerance_16;
    const double gap = rules->gap_max_16;
    double least = -1.0;
    bool begins = false, ends = false;
    for (int i = 0; i < choice->count[track]; i++) {
        const layout_piece *piece = &choice->pieces[track][i];
        begins = begins || (piece->at & CW_AT_FIRST);
        ends = ends || (piece->at & CW_AT_LAST);
        const double times = end > piece->length_16 ? (end + gap) / (piece->length_16 + gap) : 1.0;
        const double cost = (double)(piece->pick + rules->joint) * times;
        if (least < 0.0 || cost < least)
            least = cost;
    }
    if (!begins || !ends)
        return COST_NONE;
    const layout_cost bound = (layout_cost)(least * (1.0 - 1e-12)) - 1 - rules->joint;
    return bound > 0 ? bound : 0;
}

layout_cost cw_layout_floor(const layout_rules *rules, const layout_choice *choice)
{
    layout_cost sum = 0;
    for (int t = 0; t < choice->run->track_count; t++) {
        const layout_cost bound = cw_layout_track_floor(rules, choice, t);
        if (bound >= COST_NONE)
            return COST_NONE;
        sum += bound;
    }
    return sum;
}

static void add_gap(layout_solver *solver, layout_gap gap)
{
    solver->gaps =
        cw_layout_room(solver->arena, solver->gaps, solver->gap_count, solver->gap_count + 1,
                       &solver->gap_capacity, sizeof *solver->gaps);
    solver->gaps[solver->gap_count++] = gap;
}

static void add_bounded_gap(layout_solver *solver, const layout_choice *choice, layout_gap gap)
{
    const layout_run *run = choice->run;
    for (int t = 0; t < run->track_count; t++) {
        if (choice->count[t] == 0)
            return;
        cw_layout_count(solver, choice->pieces[t], choice->count[t], &gap);
        const layout_cost bound = cw_layout_count_bound(&solver->counts, &gap, 0, 0);
        if (bound >= COST_NONE)
            return;
        gap.bound += bound;
        gap.fewest += cw_layout_count_fewest(&solver->counts, &gap, 0, 0);
    }
    add_gap(solver, gap);
}

// derived: n pieces end at a multiple of the common divisor and (n - 1) gaps.
static void mark_ends(const layout_choice *choice, int track, const layout_gap *gap, bool *marks)
{
    const layout_piece *pieces = choice->pieces[track];
    const int count = choice->count[track], lattice = cw_layout_lattice(pieces, count);
    int least = pieces[0].length_16, most = least;
    for (int i = 1; i < count; i++) {
        least = pieces[i].length_16 < least ? pieces[i].length_16 : least;
        most = pieces[i].length_16 > most ? pieces[i].length_16 : most;
    }
    const int n_most = (gap->end_hi + gap->spread) / (least + gap->spread);
    for (int n = (gap->end_lo + gap->spread) / (most + gap->spread); n <= n_most; n++) {
        if (n < 1)
            continue;
        const int gaps = (n - 1) * gap->spread;
        const int over = gap->end_lo > gaps ? (gap->end_lo - gaps) % lattice : 0;
        for (int end = gap->end_lo + (over > 0 ? lattice - over : 0); end <= gap->end_hi;
             end += lattice)
            marks[end - gap->end_lo] = true;
    }
}

// Both rows have a bound of their own to each place of the end, so that the place where they end
// together is looked for first.  What ends in [t, t + apart] for the least end t of the two is all.
static void add_gap_by_ends(layout_solver *solver, const layout_choice *choice,
                            const layout_gap *gap)
{
    const int width = gap->end_hi - gap->end_lo, apart = solver->rules.ends_apart_16;
    bool *marks[2];
    for (int t = 0; t < 2; t++) {
        solver->marks[t] = cw_layout_room(solver->arena, solver->marks[t], 0, width + 1,
                                          &solver->mark_capacity[t], sizeof(bool));
        marks[t] = solver->marks[t];
        memset(marks[t], 0, (size_t)width + 1);
        mark_ends(choice, t, gap, marks[t]);
    }
    int last[2] = {INT32_MAX, INT32_MAX}; // least end of each row from here on
    layout_gap part = *gap;
    for (int end = width; end >= 0; end--) {
        for (int t = 0; t < 2; t++)
            if (marks[t][end])
                last[t] = end;
        if ((last[0] != end && last[1] != end) || last[0] - end > apart || last[1] - end > apart)
            continue;
        part.end_lo = gap->end_lo + end;
        part.end_hi = width - end < apart ? gap->end_hi : part.end_lo + apart;
        add_bounded_gap(solver, choice, part);
    }
}

static void add_grid_gap(layout_solver *solver, const layout_choice *choice, int gap_16, bool whole)
{
    const layout_rules *rules = &solver->rules;
    const int off = abs(gap_16 - rules->gap_design_16);
    const layout_run *run = choice->run;
    const layout_gap gap = {.scale = 1,
                            .spread = gap_16,
                            .end_lo = run->place_lo_16 - run->tolerance_16,
                            .end_hi = run->place_hi_16 + run->tolerance_16,
                            .joint = rules->joint + rules->gap * off,
                            .off_16 = off};
    const bool may_overrun = run->place_hi_16 > run->place_lo_16;
    if (whole || run->track_count == 1 || !may_overrun || choice->count[0] == 0 ||
        choice->count[1] == 0 || rules->ends_apart_16 >= gap.end_hi - gap.end_lo)
        add_bounded_gap(solver, choice, gap);
    else
        add_gap_by_ends(solver, choice, &gap);
}

// Nearest to the design gap first, the tighter of two as near: the order in which equals are kept.
static void grid_gaps(layout_solver *solver, const layout_choice *choice, bool whole)
{
    const layout_rules *rules = &solver->rules;
    const int reach = rules->gap_max_16 + rules->gap_design_16 + 1;
    for (int off = 0; off <= reach; off++) {
        const int below = rules->gap_design_16 - off, above = rules->gap_design_16 + off;
        if (below >= rules->gap_min_16 && below <= rules->gap_max_16)
            add_grid_gap(solver, choice, below, whole);
        if (off > 0 && above <= rules->gap_max_16 && above >= rules->gap_min_16)
            add_grid_gap(solver, choice, above, whole);
    }
}

typedef struct lattice {
    int step_16, least_16; /**< common divisor and least of the lengths */
    layout_cost handling;  /**< least pick cost beyond the price of its length */
} lattice;

static lattice lattice_of(const layout_choice *choice, layout_cost per_16)
{
    const layout_piece *pieces = choice->pieces[0];
    lattice l = {.step_16 = cw_layout_lattice(pieces, choice->count[0]),
                 .least_16 = pieces[0].length_16,
                 .handling = COST_NONE};
    for (int i = 0; i < choice->count[0]; i++) {
        if (pieces[i].length_16 < l.least_16)
            l.least_16 = pieces[i].length_16;
        const layout_cost handling = pieces[i].pick - per_16 * pieces[i].length_16;
        if (handling < l.handling)
            l.handling = handling;
    }
    return l;
}

static int clamp(int value, int lo, int hi)
{
    return value < lo ? lo : value > hi ? hi : value;
}

// The gap that belongs to a count of pieces and their total length: the design gap when the run
// then ends in its place, else the gap that just brings it there, kept within the band.  False when
// it ends too far off.
static bool gap_of(const layout_rules *rules, const layout_run *run, int pieces, int total_16,
                   layout_gap *gap)
{
    const int joints = pieces - 1;
    int spread = clamp(joints * rules->gap_design_16, run->place_lo_16 - total_16,
                       run->place_hi_16 - total_16);
    spread = clamp(spread, joints * rules->gap_min_16, joints * rules->gap_max_16);
    const int end = total_16 + spread;
    if (end < run->place_lo_16 - run->tolerance_16 || end > run->place_hi_16 + run->tolerance_16)
        return false;
    const int off = abs(spread - joints * rules->gap_design_16);
    const int scale = joints > 0 ? joints : 1;
    *gap = (layout_gap){.scale = scale,
                        .spread = joints > 0 ? spread : rules->gap_design_16,
                        .end_lo = end * scale,
                        .end_hi = end * scale,
                        .single = joints == 0,
                        .joint = rules->joint + (rules->gap * off + scale / 2) / scale,
                        .bound = rules->length * total_16 + rules->joint * joints,
                        .fewest = pieces,
                        .off_16 = (double)off / scale};
    return true;
}

static int compare_gaps(const void *left, const void *right)
{
    const layout_gap *a = left, *b = right;
    if (a->bound != b->bound)
        return a->bound < b->bound ? -1 : 1;
    if (a->off_16 < b->off_16 || a->off_16 > b->off_16)
        return a->off_16 < b->off_16 ? -1 : 1;
    if (a->scale != b->scale)
        return a->scale < b->scale ? -1 : 1;
    return a->end_lo != b->end_lo ? (a->end_lo < b->end_lo ? -1 : 1) : a->spread - b->spread;
}

enum { WORD_BITS = 64 };

// sums[1] becomes the totals of one piece more than sums[0]: each set shifted by each length,
// joined.
static void add_piece(layout_solver *solver, const layout_choice *choice, int lattice_16, int words)
{
    uint64_t *from = solver->sums[0];
    uint64_t *to = solver->sums[1];
    for (int w = 0; w < words; w++)
        to[w] = 0;
    for (int i = 0; i < choice->count[0]; i++) {
        const int steps = choice->pieces[0][i].length_16 / lattice_16;
        const int whole = steps / WORD_BITS, part = steps % WORD_BITS;
        for (int w = words - 1; w >= whole; w--) {
            to[w] |= from[w - whole] << part;
            if (part > 0 && w > whole)
                to[w] |= from[w - whole - 1] >> (WORD_BITS - part);
        }
    }
    solver->sums[0] = to;
    solver->sums[1] = from;
}

static void start_sums(layout_solver *solver, int words)
{
    if (words > solver->sum_capacity) {
        solver->sums[0] = CW_TAKE(solver->arena, uint64_t, words);
        solver->sums[1] = CW_TAKE(solver->arena, uint64_t, words);
        solver->sum_capacity = words;
    }
    for (int w = 0; w < words; w++)
        solver->sums[0][w] = 0;
    solver->sums[0][0] = 1; // no piece, no length
}

// The pairs of a count and a total length that the pieces can have and that some gap brings to the
// end.
static void continuous_gaps(layout_solver *solver, const layout_choice *choice, layout_cost ceiling)
{
    const layout_rules *rules = &solver->rules;
    const layout_run *run = choice->run;
    const lattice l = lattice_of(choice, rules->length);
    const int end_lo = run->place_lo_16 - run->tolerance_16;
    const int end_hi = run->place_hi_16 + run->tolerance_16;
    const int words = end_hi / l.step_16 / WORD_BITS + 1;
    start_sums(solver, words);
    for (int n = 1; n <= CW_LAYOUT_PIECES_MAX; n++) {
        const int from = end_lo - (n - 1) * rules->gap_max_16;
        const int to = end_hi - (n - 1) * rules->gap_min_16;
        if (to < n * l.least_16)
            break;
        add_piece(solver, choice, l.step_16, words);
        const int first = from > 0 ? (from + l.step_16 - 1) / l.step_16 : 0;
        for (int steps = first; steps <= to / l.step_16; steps++) {
            layout_gap gap;
            if (!(solver->sums[0][steps / WORD_BITS] >> steps % WORD_BITS & 1u) ||
                !gap_of(rules, run, n, steps * l.step_16, &gap))
                continue;
            gap.bound += n * l.handling;
            if (gap.bound <= ceiling)
                add_gap(solver, gap);
            else if (gap.bound < solver->pruned)
                solver->pruned = gap.bound;
        }
    }
    if (solver->gap_count > 0)
        qsort(solver->gaps, (size_t)solver->gap_count, sizeof *solver->gaps, compare_gaps);
}

void cw_layout_gaps(layout_solver *solver, const layout_choice *choice, layout_cost ceiling,
                    bool whole)
{
    solver->gap_count = 0;
    if (choice->count[0] == 0)
        return;
    if (solver->rules.mode == CW_GAP_GRID)
        grid_gaps(solver, choice, whole);
    else
        continuous_gaps(solver, choice, ceiling);
}
