// The layout engine against a plain enumeration of every layout of small problems, written without
// any of its ideas (no states, no bounds), and against relations that any optimum must satisfy on
// longer ones.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cw/layout.h"
#include "cw/units.h"

enum { FT = CW_SIXTEENTHS_PER_FT, ITEMS = 6, SEQUENCE_MAX = 16, FOUND_MAX = 40000 };

static void assert_cost(const char *name, double got, double expected)
{
    if (got < expected - 1e-6 || got > expected + 1e-6)
        fail_msg("%s: cost %.6f, expected %.6f dollars", name, got, expected);
}

static cw_layout_answer solve(const cw_layout_problem *problem, cw_arena *arena)
{
    assert_null(cw_layout_fault(problem));
    return cw_layout_solve(problem, arena);
}

// ---- plain enumeration ------------------------------------------------------------------------

typedef struct sequence {
    int item[SEQUENCE_MAX];
    int count, total_16;
} sequence;

/** A layout of one barrel found by enumeration: its multiset and what it costs without set-ups. */
typedef struct finding {
    uint64_t key;
    unsigned setups;
    double cost, off_16;
} finding;

static finding found[2][FOUND_MAX];
static int found_count[2];

static int start_of(const cw_layout_row *row, const sequence *s, int piece, int gap_16)
{
    int start = 0;
    for (int k = 0; k < piece; k++)
        start += row->items[s->item[k]].length_16 + gap_16;
    return start;
}

static int end_of(const cw_layout_row *row, const sequence *s, int gap_16)
{
    return start_of(row, s, s->count, gap_16) - gap_16;
}

static bool row_stands(const cw_layout_row *row, const sequence *s, int gap_16)
{
    for (int k = 0; k < s->count; k++) {
        const cw_layout_item *item = &row->items[s->item[k]];
        const bool first = k == 0, last = k == s->count - 1;
        if ((first && !(item->at & CW_AT_FIRST)) || (last && !(item->at & CW_AT_LAST)) ||
            (!first && !last && !(item->at & CW_AT_INNER)))
            return false;
        const int end = start_of(row, s, k, gap_16) + item->length_16;
        for (int l = 0; l < row->limit_count; l++)
            if (end > row->limits[l].beyond_16 && item->weight_lb > row->limits[l].weight_lb)
                return false;
        for (int w = 0; !last && w < row->keep_clear_count; w++)
            if (end < row->keep_clear[w].to_16 && end + gap_16 > row->keep_clear[w].from_16)
                return false;
    }
    for (int m = 0; m < row->must_joint_count; m++) {
        bool met = false;
        for (int k = 1; k < s->count; k++) {
            const double middle = start_of(row, s, k, gap_16) - gap_16 / 2.0;
            const double off = middle - row->must_joint[m].at_16;
            met = met ||
                  (off <= row->must_joint[m].within_16 && off >= -row->must_joint[m].within_16);
        }
        if (!met)
            return false;
    }
    return true;
}

static bool rows_apart(const cw_layout_barrel *b, const sequence *base, const sequence *top,
                       int gap_16, int stagger_16)
{
    for (int k = 1; k < base->count; k++)
        for (int j = 1; j < top->count; j++)
            if (abs(start_of(&b->base, base, k, gap_16) - start_of(&b->top, top, j, gap_16)) <
                stagger_16)
                return false;
    return true;
}

/** Every sequence of the row that ends in its place and stands; counts like an odometer. */
static int enumerate_row(const cw_layout_problem *p, const cw_layout_barrel *b,
                         const cw_layout_row *row, int gap_16, sequence *out, int room)
{
    const int lo = b->length_16 - p->tolerance_16, hi = b->length_16 + b->over_16 + p->tolerance_16;
    sequence s = {.count = 0};
    int count = 0, next = 0, end = -gap_16;
    for (;;) {
        if (next < row->item_count && s.count < SEQUENCE_MAX) {
            const int length = row->items[next].length_16;
            if (end + gap_16 + length > hi) {
                next++;
                continue;
            }
            s.item[s.count++] = next;
            end += gap_16 + length;
            next = 0;
            if (end >= lo && row_stands(row, &s, gap_16)) {
                assert_true(count < room);
                out[count++] = s;
            }
            continue;
        }
        if (s.count == 0)
            return count;
        next = s.item[--s.count];
        end -= gap_16 + row->items[next].length_16;
        next++;
    }
}

static double cost_of_row(const cw_layout_problem *p, const cw_layout_row *row, const sequence *s,
                          int off_16)
{
    double cost = (p->joint_cost + p->gap_cost * off_16) * (s->count - 1);
    for (int k = 0; k < s->count; k++) {
        const cw_layout_item *item = &row->items[s->item[k]];
        cost += p->piece_cost + item->extra_cost + p->length_cost * item->length_16 / FT;
    }
    return cost;
}

static void record(int which, uint64_t key, unsigned setups, double cost, double off_16)
{
    for (int k = 0; k < found_count[which]; k++) {
        finding *f = &found[which][k];
        if (f->key != key)
            continue;
        if (cost < f->cost - 1e-7) {
            f->cost = cost;
            f->off_16 = off_16;
        }
        return;
    }
    assert_true(found_count[which] < FOUND_MAX);
    found[which][found_count[which]++] = (finding){key, setups, cost, off_16};
}

static void add_to_key(const cw_layout_row *row, const sequence *s, int shift, uint64_t *key,
                       unsigned *setups)
{
    for (int k = 0; k < s->count; k++) {
        *key += (uint64_t)1 << (shift + 5 * s->item[k]);
        *setups |= 1u << row->items[s->item[k]].setup;
    }
}

static void enumerate_barrel(const cw_layout_problem *p, const cw_layout_barrel *b, int which)
{
    enum { ROOM = 20000 };
    static sequence base[ROOM], top[ROOM];
    found_count[which] = 0;
    for (int gap = p->gap_min_16; gap <= p->gap_max_16; gap++) {
        const int off = abs(gap - p->gap_design_16);
        const int bases = enumerate_row(p, b, &b->base, gap, base, ROOM);
        const int tops =
            p->rows == CW_ROWS_STAGGERED ? enumerate_row(p, b, &b->top, gap, top, ROOM) : 1;
        for (int i = 0; i < bases; i++)
            for (int j = 0; j < tops; j++) {
                uint64_t key = 0;
                unsigned setups = 0;
                double cost = cost_of_row(p, &b->base, &base[i], off);
                add_to_key(&b->base, &base[i], 0, &key, &setups);
                if (p->rows == CW_ROWS_ALIGNED) {
                    uint64_t mates = 0;
                    if (!row_stands(&b->top, &base[i], gap))
                        continue;
                    add_to_key(&b->top, &base[i], 0, &mates, &setups);
                    cost += cost_of_row(p, &b->top, &base[i], off);
                } else if (p->rows == CW_ROWS_STAGGERED) {
                    if (!rows_apart(b, &base[i], &top[j], gap, p->stagger_16) ||
                        abs(end_of(&b->base, &base[i], gap) - end_of(&b->top, &top[j], gap)) >
                            p->ends_apart_16)
                        continue;
                    add_to_key(&b->top, &top[j], 32, &key, &setups);
                    cost += cost_of_row(p, &b->top, &top[j], off);
                }
                record(which, key, setups, cost, off);
            }
    }
}

static int bits(unsigned mask)
{
    int count = 0;
    for (int k = 0; k < 32; k++)
        count += (mask >> k & 1u) != 0;
    return count;
}

typedef struct brute {
    double best[CW_LAYOUT_KEPT]; // least costs of different multisets
    int kept, equal;             // and how many cost the same as the least
} brute;

static void brute_add(brute *b, double cost)
{
    if (b->kept > 0 && cost < b->best[0] + 1e-7 && cost > b->best[0] - 1e-7)
        b->equal++;
    else if (b->kept == 0 || cost < b->best[0])
        b->equal = 1;
    int at = b->kept;
    while (at > 0 && cost < b->best[at - 1])
        at--;
    if (at == CW_LAYOUT_KEPT)
        return;
    if (b->kept < CW_LAYOUT_KEPT)
        b->kept++;
    for (int k = b->kept - 1; k > at; k--)
        b->best[k] = b->best[k - 1];
    b->best[at] = cost;
}

static brute enumerate(const cw_layout_problem *p, bool twins)
{
    brute b = {.kept = 0};
    enumerate_barrel(p, &p->barrels[0], 0);
    if (p->barrel_count == 2)
        enumerate_barrel(p, &p->barrels[1], 1);
    for (int i = 0; i < found_count[0]; i++) {
        const finding *x = &found[0][i];
        if (p->barrel_count == 1) {
            if (bits(x->setups) <= p->max_setups)
                brute_add(&b, x->cost + p->setup_cost * bits(x->setups));
            continue;
        }
        for (int j = twins ? i : 0; j < found_count[1]; j++) {
            const unsigned setups = x->setups | found[1][j].setups;
            if (bits(setups) <= p->max_setups)
                brute_add(&b, x->cost + found[1][j].cost + p->setup_cost * bits(setups));
        }
    }
    return b;
}

// ---- random small problems --------------------------------------------------------------------

static uint64_t random_state;

static int pick(int lo, int hi)
{
    random_state =
        random_state * 6364136223846793005u + 1442695040888963407u; // Knuth's MMIX generator
    return lo + (int)((random_state >> 33) % (uint64_t)(hi - lo + 1));
}

typedef struct small_problem {
    cw_layout_problem problem;
    cw_layout_barrel barrels[2];
    cw_layout_item items[2][2][ITEMS];
    cw_layout_keep_clear clear[2][2][2];
    cw_layout_must_joint must[2][2][1];
    cw_layout_weight_limit limits[2][2][2];
    bool twins;
} small_problem;

static void make_row(small_problem *s, int b, int r, cw_layout_row *row, int count)
{
    const bool mate = s->problem.rows == CW_ROWS_ALIGNED && r == 1;
    for (int i = 0; i < count; i++) {
        cw_layout_item *item = &s->items[b][r][i];
        const bool alike = b == 1 && pick(0, 2) > 0; // the barrels share lengths, as in the field
        *item = (cw_layout_item){.length_16 = pick(3, 9) * 8 + (pick(0, 3) == 0),
                                 .at = pick(0, 6) ? CW_AT_ANY : (unsigned)pick(1, 7),
                                 .extra_cost = pick(0, 2) ? 0 : pick(1, 4) * 150,
                                 .weight_lb = pick(5, 20) * 100,
                                 .setup = pick(0, s->problem.setup_count - 1)};
        if (mate) {
            item->length_16 = s->items[b][0][i].length_16;
            item->at = s->items[b][0][i].at;
        } else if (alike && s->items[0][r][i].length_16 > 0) {
            *item = s->items[0][r][i];
        }
    }
    const int length = s->barrels[b].length_16;
    for (int w = 0; w < 2; w++) {
        const int from = pick(0, length);
        s->clear[b][r][w] = (cw_layout_keep_clear){from, from + pick(4, 30), w};
    }
    s->must[b][r][0] = (cw_layout_must_joint){pick(20, length - 10), pick(2, 20), 7};
    s->limits[b][r][0] = (cw_layout_weight_limit){pick(0, length), pick(10, 20) * 100};
    s->limits[b][r][1] = (cw_layout_weight_limit){pick(0, length), pick(8, 20) * 100};
    *row = (cw_layout_row){s->items[b][r],  count,
                           s->clear[b][r],  pick(0, 5) / 3 + pick(0, 5) / 5,
                           s->must[b][r],   pick(0, 11) == 0,
                           s->limits[b][r], pick(0, 4) / 3};
}

static void make_problem(small_problem *s, cw_layout_rows rows, int barrels)
{
    memset(s, 0, sizeof *s);
    cw_layout_problem *p = &s->problem;
    *p = (cw_layout_problem){.barrels = s->barrels,
                             .barrel_count = barrels,
                             .setup_count = pick(2, 5),
                             .rows = rows,
                             .stagger_16 = pick(0, 4) * 9,
                             .ends_apart_16 = pick(0, 3) * pick(0, 3),
                             .gap_min_16 = pick(0, 3),
                             .tolerance_16 = pick(0, 6),
                             .piece_cost = pick(1, 10) * 100,
                             .length_cost = pick(0, 1) * pick(1, 9) * 192,
                             .joint_cost = pick(0, 4) * 100,
                             .setup_cost = pick(0, 5) * 250,
                             .gap_cost = pick(0, 1) * 12.5};
    p->gap_design_16 = p->gap_min_16 + pick(0, 2);
    p->gap_max_16 = p->gap_design_16 + pick(0, 2);
    p->max_setups = pick(rows == CW_ROWS_ONE ? 1 : 2, p->setup_count);
    s->twins = barrels == 2 && pick(0, 2) == 0;
    const int longest = rows == CW_ROWS_STAGGERED ? 210 : barrels == 2 ? 230 : 300;
    for (int b = 0; b < barrels; b++) {
        s->barrels[b].length_16 = pick(60, longest);
        s->barrels[b].over_16 = pick(0, 3) ? 0 : pick(1, 12);
        const int count = pick(2, 4);
        make_row(s, b, 0, &s->barrels[b].base, count);
        make_row(s, b, 1, &s->barrels[b].top, rows == CW_ROWS_ALIGNED ? count : pick(2, 4));
    }
    if (s->twins)
        s->barrels[1] = s->barrels[0];
}

/** The answer's own positions must stand, row by row, and cost what it says. */
static double check_answer(const cw_layout_problem *p, const cw_layout_solution *solution)
{
    double cost = p->setup_cost * solution->setup_count;
    unsigned used = 0;
    for (int b = 0; b < p->barrel_count; b++) {
        const cw_layout_barrel *barrel = &p->barrels[b];
        const cw_layout_barrel_answer *a = &solution->barrels[b];
        const int gap = (int)a->gap_16, off = abs(gap - p->gap_design_16);
        sequence rows[2] = {{.count = 0}};
        for (int r = 0; r < (p->rows == CW_ROWS_ONE ? 1 : 2); r++) {
            const cw_layout_cut *cut = r ? &a->top : &a->base;
            const cw_layout_row *row = r ? &barrel->top : &barrel->base;
            rows[r].count = cut->count;
            for (int k = 0; k < cut->count; k++)
                rows[r].item[k] = cut->items[k];
            assert_true(row_stands(row, &rows[r], gap));
            for (int k = 0; k < cut->count; k++) {
                used |= 1u << row->items[cut->items[k]].setup;
                assert_true(cut->start_16[k] == start_of(row, &rows[r], k, gap));
            }
            const int last = cut->count - 1;
            const int end = (int)cut->start_16[last] + row->items[cut->items[last]].length_16;
            assert_in_range(end, barrel->length_16 - p->tolerance_16,
                            barrel->length_16 + barrel->over_16 + p->tolerance_16);
            cost += cost_of_row(p, row, &rows[r], off);
        }
        if (p->rows == CW_ROWS_STAGGERED) {
            assert_true(rows_apart(barrel, &rows[0], &rows[1], gap, p->stagger_16));
            assert_true(abs(end_of(&barrel->base, &rows[0], gap) -
                            end_of(&barrel->top, &rows[1], gap)) <= p->ends_apart_16);
        }
    }
    assert_int_equal(used, solution->setups);
    assert_int_equal(bits(used), solution->setup_count);
    return cost;
}

static bool compare_with_enumeration(small_problem *s, int number)
{
    const brute b = enumerate(&s->problem, s->twins);
    cw_arena arena = cw_arena_on(NULL);
    const cw_layout_answer answer = solve(&s->problem, &arena);
    if (answer.kept != b.kept)
        fail_msg("problem %d: %d layouts, enumeration has %d", number, answer.kept, b.kept);
    for (int k = 0; k < b.kept; k++) {
        char name[40];
        snprintf(name, sizeof name, "problem %d, layout %d", number, k + 1);
        assert_cost(name, answer.best[k].cost, b.best[k]);
        assert_cost(name, answer.best[k].cost, check_answer(&s->problem, &answer.best[k]));
    }
    const int listed = b.equal - 1 < CW_LAYOUT_TIES_MAX ? b.equal - 1 : CW_LAYOUT_TIES_MAX;
    if (b.kept > 0 && (answer.tie_count != listed || answer.more_ties != (b.equal - 1 > listed)))
        fail_msg("problem %d: %d ties, enumeration has %d", number, answer.tie_count, b.equal - 1);
    cw_arena_release(&arena);
    return b.kept > 0;
}

static const cw_layout_block *block_of(const cw_layout_answer *answer, cw_layout_block_kind kind)
{
    for (int k = 0; k < answer->block_count; k++)
        if (answer->blocks[k].kind == kind)
            return &answer->blocks[k];
    return NULL;
}

static bool stands(const cw_layout_problem *p)
{
    return enumerate(p, false).kept > 0;
}

/** What stands in the way, as named, against enumeration with it relaxed so far and a step less. */
static int blocks_agree(small_problem *s, int number)
{
    cw_layout_problem *p = &s->problem;
    cw_arena arena = cw_arena_on(NULL);
    const cw_layout_answer answer = solve(p, &arena);
    const cw_layout_block *stagger = block_of(&answer, CW_BLOCK_STAGGER);
    const cw_layout_block *ends = block_of(&answer, CW_BLOCK_ENDS_APART);
    assert_false(answer.blocks_cut);
    const int was = p->stagger_16, apart = p->ends_apart_16;
    p->stagger_16 = stagger ? (int)stagger->amount : 0;
    const bool lower = stands(p);
    p->stagger_16++;
    if (lower != (stagger != NULL) || (lower && stands(p)))
        fail_msg("problem %d: stagger %d in the way", number, p->stagger_16 - 1);
    p->stagger_16 = was;
    enum { ANYWHERE = 100 };
    p->ends_apart_16 = ends ? (int)ends->amount : ANYWHERE;
    const bool farther = stands(p);
    p->ends_apart_16--;
    if (farther != (ends != NULL) || (farther && stands(p)))
        fail_msg("problem %d: ends %d apart", number, p->ends_apart_16 + 1);
    p->ends_apart_16 = apart;
    cw_arena_release(&arena);
    return (stagger != NULL) + (ends != NULL);
}

static void blocks_of_staggered_rows(void **state)
{
    (void)state;
    enum { PROBLEMS = 400, NAMED_MIN = 40 };
    static small_problem s;
    random_state = 60511;
    int named = 0;
    for (int n = 0; n < PROBLEMS; n++) {
        make_problem(&s, CW_ROWS_STAGGERED, 1);
        s.problem.max_setups = s.problem.setup_count;
        if (!stands(&s.problem))
            named += blocks_agree(&s, n);
    }
    if (named < NAMED_MIN)
        fail_msg("only %d blocks were named", named);
}

static void enumeration_agrees(void **state)
{
    (void)state;
    static const struct {
        cw_layout_rows rows;
        int barrels, problems;
    } sets[] = {{CW_ROWS_ONE, 1, 150},       {CW_ROWS_ONE, 2, 100},
                {CW_ROWS_ALIGNED, 1, 200},   {CW_ROWS_ALIGNED, 2, 120},
                {CW_ROWS_STAGGERED, 1, 300}, {CW_ROWS_STAGGERED, 2, 250}};
    enum { FEASIBLE_MIN = 20 }; // fewer would test little
    static small_problem s;
    random_state = 20240229;
    for (size_t n = 0; n < sizeof sets / sizeof *sets; n++) {
        int feasible = 0;
        for (int k = 0; k < sets[n].problems; k++) {
            make_problem(&s, sets[n].rows, sets[n].barrels);
            feasible += compare_with_enumeration(&s, (int)n * 1000 + k);
        }
        if (feasible < FEASIBLE_MIN)
            fail_msg("set %d: only %d of %d problems have a layout", (int)n, feasible,
                     sets[n].problems);
    }
}

// ---- continuous gap ---------------------------------------------------------------------------

/** A copy of the row in which every length is @p scale times as long. */
static cw_layout_row scaled_row(const cw_layout_row *row, int scale, small_problem *room)
{
    for (int i = 0; i < row->item_count; i++) {
        room->items[0][0][i] = row->items[i];
        room->items[0][0][i].length_16 *= scale;
    }
    for (int w = 0; w < row->keep_clear_count; w++)
        room->clear[0][0][w] = (cw_layout_keep_clear){row->keep_clear[w].from_16 * scale,
                                                      row->keep_clear[w].to_16 * scale, w};
    for (int m = 0; m < row->must_joint_count; m++)
        room->must[0][0][m] = (cw_layout_must_joint){row->must_joint[m].at_16 * scale,
                                                     row->must_joint[m].within_16 * scale, m};
    for (int l = 0; l < row->limit_count; l++)
        room->limits[0][0][l] =
            (cw_layout_weight_limit){row->limits[l].beyond_16 * scale, row->limits[l].weight_lb};
    return (cw_layout_row){room->items[0][0],     row->item_count,  room->clear[0][0],
                           row->keep_clear_count, room->must[0][0], row->must_joint_count,
                           room->limits[0][0],    row->limit_count};
}

static int held(int value, int lo, int hi)
{
    return value < lo ? lo : value > hi ? hi : value;
}

// The gap of each sequence as the header states it, in whole numbers by scaling all lengths.
static void continuous_sequence(const cw_layout_problem *p, const sequence *s)
{
    static small_problem room;
    const cw_layout_barrel *b = &p->barrels[0];
    const int joints = s->count - 1, scale = joints > 0 ? joints : 1;
    int total = 0;
    for (int k = 0; k < s->count; k++)
        total += b->base.items[s->item[k]].length_16;
    int spread =
        held(joints * p->gap_design_16, b->length_16 - total, b->length_16 + b->over_16 - total);
    spread = held(spread, joints * p->gap_min_16, joints * p->gap_max_16);
    const int end = total + spread;
    if (end < b->length_16 - p->tolerance_16 || end > b->length_16 + b->over_16 + p->tolerance_16)
        return;
    const cw_layout_row row = scaled_row(&b->base, scale, &room);
    if (!row_stands(&row, s, spread))
        return;
    uint64_t key = 0;
    unsigned setups = 0;
    add_to_key(&b->base, s, 0, &key, &setups);
    const double off = abs(spread - joints * p->gap_design_16);
    record(0, key, setups, cost_of_row(p, &b->base, s, 0) + p->gap_cost * off, 0);
}

static brute enumerate_continuous(const cw_layout_problem *p)
{
    enum { ROOM = 200000 };
    static sequence all[ROOM];
    brute b = {.kept = 0};
    cw_layout_barrel wide = p->barrels[0];
    // Every sequence whose lengths alone could fit: joints may take all that the widest gap allows.
    const int joints_16 = SEQUENCE_MAX * p->gap_max_16;
    wide.length_16 -= joints_16;
    wide.over_16 += joints_16;
    cw_layout_row bare = wide.base;
    bare.keep_clear_count = bare.must_joint_count = bare.limit_count = 0;
    const int count = enumerate_row(p, &wide, &bare, 0, all, ROOM);
    found_count[0] = 0;
    for (int k = 0; k < count; k++)
        continuous_sequence(p, &all[k]);
    for (int i = 0; i < found_count[0]; i++)
        if (bits(found[0][i].setups) <= p->max_setups)
            brute_add(&b, found[0][i].cost + p->setup_cost * bits(found[0][i].setups));
    return b;
}

static void continuous_gap(void **state)
{
    (void)state;
    static small_problem s;
    random_state = 77001;
    int feasible = 0;
    for (int n = 0; n < 300; n++) {
        make_problem(&s, CW_ROWS_ONE, 1);
        s.problem.gap_mode = CW_GAP_CONTINUOUS;
        s.barrels[0].length_16 = pick(60, 180);
        const brute b = enumerate_continuous(&s.problem);
        cw_arena arena = cw_arena_on(NULL);
        const cw_layout_answer answer = solve(&s.problem, &arena);
        if (answer.kept != b.kept)
            fail_msg("problem %d: %d layouts, enumeration has %d", n, answer.kept, b.kept);
        for (int k = 0; k < b.kept; k++)
            assert_cost("continuous", answer.best[k].cost, b.best[k]);
        feasible += b.kept > 0;
        cw_arena_release(&arena);
    }
    assert_true(feasible >= 100);
}

// ---- relations any optimum satisfies ------------------------------------------------------------

static double best_cost(const cw_layout_problem *problem)
{
    cw_arena arena = cw_arena_on(NULL);
    const cw_layout_answer answer = solve(problem, &arena);
    const double cost = answer.found ? answer.best[0].cost : 1e30;
    cw_arena_release(&arena);
    return cost;
}

// Longer runs than enumeration can reach; no weight limits and an exact end, so that they have a
// mirror image.
static void make_long_problem(small_problem *s, cw_layout_rows rows, int barrels)
{
    make_problem(s, rows, barrels);
    s->problem.tolerance_16 = 0;
    for (int b = 0; b < barrels; b++) {
        s->barrels[b].over_16 = 0;
        s->barrels[b].length_16 = pick(400, rows == CW_ROWS_STAGGERED ? 700 : 1500);
        s->barrels[b].base.limit_count = s->barrels[b].top.limit_count = 0;
        for (int r = 0; r < 2; r++)
            for (int w = 0; w < 2; w++) {
                const int from = pick(0, s->barrels[b].length_16);
                s->clear[b][r][w] = (cw_layout_keep_clear){from, from + pick(4, 30), w};
            }
    }
}

static void mirror_row(small_problem *s, int r, int length)
{
    for (int i = 0; i < ITEMS; i++) {
        unsigned *at = &s->items[0][r][i].at;
        const bool first = *at & CW_AT_FIRST, last = *at & CW_AT_LAST;
        *at = (*at & CW_AT_INNER) | (first ? CW_AT_LAST : 0u) | (last ? CW_AT_FIRST : 0u);
    }
    for (int w = 0; w < 2; w++) {
        const cw_layout_keep_clear was = s->clear[0][r][w];
        s->clear[0][r][w] = (cw_layout_keep_clear){length - was.to_16, length - was.from_16, w};
    }
    s->must[0][r][0].at_16 = length - s->must[0][r][0].at_16;
}

static void mirror_costs_the_same(void **state)
{
    (void)state;
    static small_problem s;
    random_state = 4242;
    int feasible = 0;
    for (int n = 0; n < 200; n++) {
        make_long_problem(&s, n % 2 ? CW_ROWS_ONE : CW_ROWS_ALIGNED, 1);
        const double cost = best_cost(&s.problem);
        mirror_row(&s, 0, s.barrels[0].length_16);
        mirror_row(&s, 1, s.barrels[0].length_16);
        assert_cost("mirror", best_cost(&s.problem), cost);
        feasible += cost < 1e29;
    }
    assert_true(feasible >= 50);
}

static void order_of_barrels_does_not_matter(void **state)
{
    (void)state;
    static small_problem s;
    random_state = 911;
    for (int n = 0; n < 90; n++) {
        make_long_problem(&s, (cw_layout_rows)(n % 3), 2);
        const double cost = best_cost(&s.problem);
        const cw_layout_barrel first = s.barrels[0];
        s.barrels[0] = s.barrels[1];
        s.barrels[1] = first;
        assert_cost("exchanged barrels", best_cost(&s.problem), cost);
    }
}

static void more_choice_never_costs_more(void **state)
{
    (void)state;
    static small_problem s;
    random_state = 31;
    int changed = 0;
    for (int n = 0; n < 120; n++) {
        make_long_problem(&s, n % 3 ? CW_ROWS_ONE : CW_ROWS_STAGGERED, 1);
        cw_layout_row *row = &s.barrels[0].base;
        const double all = best_cost(&s.problem);
        row->item_count--;
        const double fewer = best_cost(&s.problem);
        row->item_count++;
        if (all > fewer + 1e-6)
            fail_msg("problem %d: %f with one item more, %f without", n, all, fewer);
        row->keep_clear_count = 1;
        const double with_window = best_cost(&s.problem);
        s.clear[0][0][0].from_16 -= 15;
        s.clear[0][0][0].to_16 += 15;
        const double with_wider = best_cost(&s.problem);
        if (with_wider < with_window - 1e-6)
            fail_msg("problem %d: %f with a wider window, %f before", n, with_wider, with_window);
        changed += all < fewer - 1e-6 || with_wider > with_window + 1e-6;
    }
    assert_true(changed >= 20); // else the relations were never put to the test
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(enumeration_agrees),
        cmocka_unit_test(blocks_of_staggered_rows),
        cmocka_unit_test(continuous_gap),
        cmocka_unit_test(mirror_costs_the_same),
        cmocka_unit_test(order_of_barrels_does_not_matter),
        cmocka_unit_test(more_choice_never_costs_more),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
