// The layout engine against solved instances and hand calculations; what it says when there is no
// layout.
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

enum { FT = CW_SIXTEENTHS_PER_FT };

// ---- solved instances -------------------------------------------------------------------------

// Source of L1 to L6d: solved by DP, MILP and enumeration, author's independent program.  Prices
// common to all: 1000 a pick, 400 a joint, 2500 a set-up unless named; gap 1/4 to 3/4 in., design
// 1/2, end tolerance 1/8.
static const cw_layout_problem COMMON = {
    .barrel_count = 1,
    .setup_count = 8,
    .rows = CW_ROWS_ONE,
    .gap_min_16 = 4,
    .gap_max_16 = 12,
    .gap_design_16 = 8,
    .tolerance_16 = 2,
    .max_setups = 8,
    .piece_cost = 1000,
    .joint_cost = 400,
    .setup_cost = 2500,
};

static cw_layout_item plain(int ft, int setup)
{
    return (cw_layout_item){
        .length_16 = ft * FT, .at = CW_AT_ANY, .weight_lb = 1000.0 * ft, .setup = setup};
}

static void assert_cost(const char *name, double got, double expected)
{
    if (got < expected - 1e-6 || got > expected + 1e-6)
        fail_msg("%s: cost %.6f, expected %.6f dollars", name, got, expected);
}

typedef struct solved_case {
    const char *name;
    int length_16;
    int catalogue_ft[4];
    double setup_cost;
    const cw_layout_keep_clear *clear;
    int clear_count;
    const cw_layout_weight_limit *limits;
    int limit_count;
    double cost;
    int pieces;
    double gap_16;
    int setups;
    int ties; // multisets that cost the same, the answer among them
    const char *lengths_ft;
} solved_case;

static const cw_layout_keep_clear PIPES[] = {{44 * FT, 52 * FT, 1}, {76 * FT, 84 * FT, 2}};
// 16-ft pieces weigh 16,000 and 10-ft pieces 10,000 here, so this is "16 ft to 64.5 ft, then 10
// ft".
static const cw_layout_weight_limit REACH[] = {{0, 16000}, {64 * FT + FT / 2, 10000}};

static const solved_case SOLVED[] = {
    {"L1",
     23096,
     {16, 12, 8, 4},
     2500,
     NULL,
     0,
     NULL,
     0,
     15800,
     8,
     8,
     2,
     2,
     "16 16 16 16 16 16 12 12"},
    {"L2",
     23096,
     {16, 12, 8, 4},
     6000,
     NULL,
     0,
     NULL,
     0,
     19600,
     10,
     6,
     1,
     1,
     "12 12 12 12 12 12 12 12 12 12"},
    {"L3",
     20016,
     {16, 12, 10, 8},
     2500,
     NULL,
     0,
     REACH,
     2,
     15800,
     8,
     7,
     2,
     1,
     "16 16 16 16 10 10 10 10"},
    {"L4", 21552, {16, 12, 8, 4}, 2500, PIPES, 2, NULL, 0, 15800, 8, 7, 2, 2, NULL},
};

static cw_layout_answer solve(const cw_layout_problem *problem, cw_arena *arena)
{
    assert_null(cw_layout_fault(problem));
    return cw_layout_solve(problem, arena);
}

static void lengths_text(const cw_layout_row *row, const cw_layout_cut *cut, char *text,
                         size_t room)
{
    text[0] = 0;
    for (int k = 0; k < cut->count; k++) {
        const size_t used = strlen(text);
        snprintf(text + used, room - used, "%s%d", k ? " " : "",
                 row->items[cut->items[k]].length_16 / FT);
    }
}

static void solved_instances(void **state)
{
    (void)state;
    for (size_t n = 0; n < sizeof SOLVED / sizeof *SOLVED; n++) {
        const solved_case *c = &SOLVED[n];
        cw_layout_item items[4];
        for (int i = 0; i < 4; i++)
            items[i] = plain(c->catalogue_ft[i], i);
        const cw_layout_barrel barrel = {.length_16 = c->length_16,
                                         .base = {.items = items,
                                                  .item_count = 4,
                                                  .keep_clear = c->clear,
                                                  .keep_clear_count = c->clear_count,
                                                  .limits = c->limits,
                                                  .limit_count = c->limit_count}};
        cw_layout_problem problem = COMMON;
        problem.barrels = &barrel;
        problem.setup_cost = c->setup_cost;
        cw_arena arena = cw_arena_on(NULL);
        const cw_layout_answer answer = solve(&problem, &arena);
        assert_true(answer.found);
        assert_cost(c->name, answer.best[0].cost, c->cost);
        const cw_layout_barrel_answer *laid = &answer.best[0].barrels[0];
        if (laid->base.count != c->pieces || answer.best[0].setup_count != c->setups ||
            laid->gap_16 < c->gap_16 || laid->gap_16 > c->gap_16 || answer.tie_count + 1 != c->ties)
            fail_msg("%s: %d pieces, %d set-ups, gap %g/16 in, %d multisets", c->name,
                     laid->base.count, answer.best[0].setup_count, laid->gap_16,
                     answer.tie_count + 1);
        char text[200];
        lengths_text(&barrel.base, &laid->base, text, sizeof text);
        if (c->lengths_ft)
            assert_string_equal(text, c->lengths_ft);
        cw_arena_release(&arena);
    }
}

static void l5_end_types(void **state)
{
    (void)state;
    // L5: inner 16, 12, 8; first H10 (+1200) or H14 (+1400); last K7 (+1800) or K11 (+2000).
    cw_layout_item items[] = {plain(16, 0), plain(12, 1), plain(8, 2), plain(10, 3),
                              plain(14, 4), plain(7, 5),  plain(11, 6)};
    const double extra[] = {0, 0, 0, 1200, 1400, 1800, 2000};
    for (int i = 0; i < 7; i++) {
        items[i].extra_cost = extra[i];
        items[i].at = i < 3 ? CW_AT_INNER : i < 5 ? CW_AT_FIRST : CW_AT_LAST;
    }
    const cw_layout_barrel barrel = {.length_16 = 18664, .base = {.items = items, .item_count = 7}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    cw_arena arena = cw_arena_on(NULL);
    const cw_layout_answer answer = solve(&problem, &arena);
    assert_true(answer.found);
    assert_cost("L5", answer.best[0].cost, 19900);
    const cw_layout_barrel_answer *laid = &answer.best[0].barrels[0];
    char text[200];
    lengths_text(&barrel.base, &laid->base, text, sizeof text);
    assert_string_equal(text, "10 16 16 16 16 16 7");
    assert_true(laid->gap_16 == 7.0);
    assert_int_equal(answer.best[0].setup_count, 3);
    assert_int_equal(answer.tie_count, 0);
    cw_arena_release(&arena);
}

typedef struct stagger_case {
    const char *name;
    int stagger_ft;
    bool windows;
    double cost;
    int bases, tops, setups;
} stagger_case;

static const stagger_case STAGGERED[] = {
    {"L6a", 0, false, 15400, 4, 4, 2},      {"L6b 2 ft", 2, false, 19300, 4, 5, 3},
    {"L6b 4 ft", 4, false, 19300, 4, 5, 3}, {"L6c", 6, false, 19300, 4, 5, 3},
    {"L6d", 4, true, 23200, 5, 5, 4},
};

static void l6_staggered(void **state)
{
    (void)state;
    static const cw_layout_keep_clear base_window = {27 * FT, 35 * FT, 1};
    static const cw_layout_keep_clear top_window = {44 * FT, 52 * FT, 2};
    for (size_t n = 0; n < sizeof STAGGERED / sizeof *STAGGERED; n++) {
        const stagger_case *c = &STAGGERED[n];
        // Module lengths: the piece with its gap; so the gap is 0.
        const cw_layout_item base[] = {plain(16, 0), plain(12, 1), plain(8, 2), plain(4, 3)};
        const cw_layout_item top[] = {plain(16, 4), plain(12, 5), plain(8, 6), plain(4, 7)};
        const cw_layout_barrel barrel = {
            .length_16 = 64 * FT,
            .base = {base, 4, &base_window, c->windows, NULL, 0, NULL, 0},
            .top = {top, 4, &top_window, c->windows, NULL, 0, NULL, 0}};
        cw_layout_problem problem = COMMON;
        problem.barrels = &barrel;
        problem.rows = CW_ROWS_STAGGERED;
        problem.stagger_16 = c->stagger_ft * FT;
        problem.gap_min_16 = problem.gap_max_16 = problem.gap_design_16 = 0;
        problem.tolerance_16 = 0;
        cw_arena arena = cw_arena_on(NULL);
        const cw_layout_answer answer = solve(&problem, &arena);
        assert_true(answer.found);
        assert_cost(c->name, answer.best[0].cost, c->cost);
        const cw_layout_barrel_answer *laid = &answer.best[0].barrels[0];
        // By symmetry the longer row may be either.
        assert_int_equal(laid->base.count + laid->top.count, c->bases + c->tops);
        assert_int_equal(answer.best[0].setup_count, c->setups);
        cw_arena_release(&arena);
    }
}

static double best_cost(const cw_layout_problem *problem)
{
    cw_arena arena = cw_arena_on(NULL);
    const cw_layout_answer answer = solve(problem, &arena);
    const double cost = answer.found ? answer.best[0].cost : 1e30;
    cw_arena_release(&arena);
    return cost;
}

static void continuous_closes_l1(void **state)
{
    (void)state;
    // Hand calculation: 16 x 7 + 8 is 120 ft; 56/16 in. over 7 joints is 1/2 in.  One inch less of
    // run leaves 40/16 over 7 joints: 5.714/16 in.  On the grid 40/16 is first 8 joints of 5: 16 x
    // 6 + 8 x 3, 9 pieces.
    const cw_layout_item items[] = {plain(16, 0), plain(8, 1)};
    const cw_layout_barrel barrel = {.length_16 = 120 * FT + 40,
                                     .base = {.items = items, .item_count = 2}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    problem.gap_mode = CW_GAP_CONTINUOUS;
    problem.tolerance_16 = 0;
    cw_arena arena = cw_arena_on(NULL);
    const cw_layout_answer answer = solve(&problem, &arena);
    assert_true(answer.found);
    assert_cost("continuous L1", answer.best[0].cost, 15800);
    const cw_layout_barrel_answer *laid = &answer.best[0].barrels[0];
    assert_true(laid->gap_16 > 40.0 / 7 - 1e-9 && laid->gap_16 < 40.0 / 7 + 1e-9);
    assert_true(laid->end_16 > barrel.length_16 - 1e-6 && laid->end_16 < barrel.length_16 + 1e-6);
    problem.gap_mode = CW_GAP_GRID;
    assert_cost("grid", solve(&problem, &arena).best[0].cost, 9 * 1000 + 8 * 400 + 2 * 2500);
    cw_arena_release(&arena);
}

// ---- what stands in the way ---------------------------------------------------------------------

static const cw_layout_block *block_of(const cw_layout_answer *answer, cw_layout_block_kind kind)
{
    for (int k = 0; k < answer->block_count; k++)
        if (answer->blocks[k].kind == kind)
            return &answer->blocks[k];
    return NULL;
}

static void assert_block(const cw_layout_answer *answer, cw_layout_block_kind kind, int barrel,
                         int id, double amount)
{
    assert_false(answer->found);
    const cw_layout_block *block = block_of(answer, kind);
    if (!block)
        fail_msg("no block of kind %d among %d", (int)kind, answer->block_count);
    else if (block->barrel != barrel || block->id != id || block->amount < amount - 1e-6 ||
             block->amount > amount + 1e-6)
        fail_msg("kind %d: barrel %d, id %d, amount %g; expected %d, %d, %g", (int)kind,
                 block->barrel, block->id, block->amount, barrel, id, amount);
}

// All amounts by hand: two pieces of 16 ft (3072) with the design gap 8 leave one joint, 3072 to
// 3080.
static void blocks_of_one_row(void **state)
{
    (void)state;
    const cw_layout_item item = plain(16, 0);
    cw_layout_barrel barrel = {.length_16 = 2 * 16 * FT + 8,
                               .base = {.items = &item, .item_count = 1}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    problem.gap_min_16 = problem.gap_max_16 = 8;
    problem.tolerance_16 = 0;
    cw_arena arena = cw_arena_on(NULL);
    assert_cost("two pieces", solve(&problem, &arena).best[0].cost, 2 * 1000 + 400 + 2500);

    barrel.length_16 += 5;
    cw_layout_answer answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_GAP_BAND, 0, 0, 5);
    assert_block(&answer, CW_BLOCK_END, 0, 0, -5);
    barrel.length_16 -= 8;
    answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_GAP_BAND, 0, 0, -3);
    assert_block(&answer, CW_BLOCK_END, 0, 0, 3);
    barrel.length_16 += 3;

    const cw_layout_keep_clear window = {3070, 3090, 41};
    barrel.base.keep_clear = &window;
    barrel.base.keep_clear_count = 1;
    answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_KEEP_CLEAR, 0, 41,
                 10); // from 3070 to 3080; from above it were 18
    barrel.base.keep_clear_count = 0;

    const cw_layout_must_joint must = {3100, 4, 17};
    barrel.base.must_joint = &must;
    barrel.base.must_joint_count = 1;
    answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_MUST_JOINT, 0, 17, 20); // the middle lies at 3076
    barrel.base.must_joint_count = 0;

    const cw_layout_weight_limit limit = {4000, 14500};
    barrel.base.limits = &limit;
    barrel.base.limit_count = 1;
    answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_WEIGHT, 0, 0, 1500);
    assert_null(block_of(&answer, CW_BLOCK_SETUPS));
    cw_arena_release(&arena);
}

static void blocks_of_stagger_and_setups(void **state)
{
    (void)state;
    const cw_layout_item base = plain(16, 0);
    const cw_layout_item top[] = {plain(12, 1), plain(20, 2)};
    cw_layout_barrel barrels[2] = {{.length_16 = 32 * FT,
                                    .base = {.items = &base, .item_count = 1},
                                    .top = {.items = top, .item_count = 2}}};
    cw_layout_problem problem = COMMON;
    problem.barrels = barrels;
    problem.rows = CW_ROWS_STAGGERED;
    problem.gap_min_16 = problem.gap_design_16 = problem.gap_max_16 = 0;
    problem.stagger_16 = 5 * FT;
    cw_arena arena = cw_arena_on(NULL);
    cw_layout_answer answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_STAGGER, 0, 0,
                 4 * FT); // the joint at 16 ft stands between 12 and 20
    problem.stagger_16 = 4 * FT;
    problem.max_setups = 2;
    answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_SETUPS, 0, 0, 3);

    // Two barrels that can each be laid with one set-up, but not with the same one.
    const cw_layout_item other = plain(20, 3);
    barrels[1] =
        (cw_layout_barrel){.length_16 = 20 * FT, .base = {.items = &other, .item_count = 1}};
    problem.rows = CW_ROWS_ONE;
    problem.barrel_count = 2;
    problem.max_setups = 1;
    answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_SETUPS, -1, 0, 2);
    cw_arena_release(&arena);
}

static void blocks_of_ends(void **state)
{
    (void)state;
    // Hand calculation: two of 10 ft end at 20 ft, two of 11 ft at 22 ft.
    const cw_layout_item base = plain(10, 0), top = plain(11, 1);
    const cw_layout_barrel barrel = {.length_16 = 20 * FT,
                                     .over_16 = 2 * FT,
                                     .base = {.items = &base, .item_count = 1},
                                     .top = {.items = &top, .item_count = 1}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    problem.rows = CW_ROWS_STAGGERED;
    problem.gap_min_16 = problem.gap_design_16 = problem.gap_max_16 = 0;
    problem.stagger_16 = FT;
    problem.ends_apart_16 = 2 * FT - 1;
    cw_arena arena = cw_arena_on(NULL);
    cw_layout_answer answer = solve(&problem, &arena);
    assert_block(&answer, CW_BLOCK_ENDS_APART, 0, 0, 2 * FT);
    assert_false(answer.blocks_cut);
    problem.ends_apart_16 = 2 * FT;
    answer = solve(&problem, &arena);
    assert_true(answer.found);
    assert_int_equal(answer.best[0].barrels[0].base.count, 2);
    assert_int_equal(answer.best[0].barrels[0].top.count, 2);
    cw_arena_release(&arena);
}

/** Many joints and no layout: the search for what blocks it must stop, and what it names must do.
 */
static void blocks_take_bounded_work(void **state)
{
    (void)state;
    enum { STATES_MOST = 1000000 };
    cw_layout_item base[4], top[4];
    const int lengths_in[] = {96, 72, 60, 48};
    for (int i = 0; i < 4; i++) {
        base[i] = plain(1, i);
        base[i].length_16 = lengths_in[i] * CW_SIXTEENTHS_PER_IN;
        top[i] = base[i];
        top[i].setup = 4 + i;
    }
    const cw_layout_barrel barrel = {.length_16 = 400 * FT + 37,
                                     .base = {.items = base, .item_count = 4},
                                     .top = {.items = top, .item_count = 4}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    problem.rows = CW_ROWS_STAGGERED;
    problem.stagger_16 = 60 * CW_SIXTEENTHS_PER_IN;
    cw_arena arena = cw_arena_on(NULL);
    cw_layout_answer answer = solve(&problem, &arena);
    assert_false(answer.found);
    assert_true(answer.blocks_cut);
    assert_true(answer.states < STATES_MOST);
    assert_int_equal(answer.block_count, 1);
    assert_int_equal(answer.blocks[0].kind, CW_BLOCK_STAGGER);
    assert_true(answer.blocks[0].rough && answer.blocks[0].amount > 0);
    problem.stagger_16 = (int)answer.blocks[0].amount;
    answer = solve(&problem, &arena);
    assert_true(answer.found);
    cw_arena_release(&arena);
}

// ---- barrels together, work, faults
// ---------------------------------------------------------------------------------------

static void shared_set_ups_decide_together(void **state)
{
    (void)state;
    // Hand calculation.  Gap 0, picks 1000, joints free.  36 ft is 18 x 2 or 12 x 3, 60 ft is 12 x
    // 5, 18 x 2 + 12 x 2. Set-ups at 900: 18 x 2 and 18 x 2 + 12 x 2 = 6000 + 1800 = 7800, against
    // all of 12 = 8000 + 900 = 8900. Set-ups at 2500: 6000 + 5000 = 11000 against 8000 + 2500 =
    // 10500, though the first barrel alone would take 18 x 2 (4500 against 5500).
    const cw_layout_item items[] = {plain(18, 0), plain(12, 1)};
    const cw_layout_barrel barrels[] = {
        {.length_16 = 36 * FT, .base = {.items = items, .item_count = 2}},
        {.length_16 = 60 * FT, .base = {.items = items, .item_count = 2}}};
    cw_layout_problem problem = COMMON;
    problem.barrels = barrels;
    problem.barrel_count = 2;
    problem.gap_min_16 = problem.gap_design_16 = problem.gap_max_16 = 0;
    problem.tolerance_16 = 0;
    problem.joint_cost = 0;
    problem.setup_cost = 900;
    assert_cost("apart", best_cost(&problem), 7800);
    problem.setup_cost = 2500;
    assert_cost("shared", best_cost(&problem), 10500);
}

static void states_grow_with_the_run(void **state)
{
    (void)state;
    const cw_layout_item items[] = {plain(16, 0), plain(12, 1), plain(8, 2), plain(4, 3)};
    long states[2];
    for (int n = 0; n < 2; n++) {
        const int ft = n == 0 ? 100 : 400;
        // The run that whole 16-ft pieces and design gaps would give, and 4 ft more.
        const cw_layout_barrel barrel = {.length_16 = ft * FT + ft / 16 * 8,
                                         .base = {.items = items, .item_count = 4}};
        cw_layout_problem problem = COMMON;
        problem.barrels = &barrel;
        problem.gap_cost = 25;
        cw_arena arena = cw_arena_on(NULL);
        const cw_layout_answer answer = solve(&problem, &arena);
        assert_true(answer.found);
        states[n] = answer.states;
        cw_arena_release(&arena);
    }
    // Four times the run: the work must stay far from the sixteen times of a quadratic search.
    if (states[1] > 8 * states[0])
        fail_msg("%ld states at 100 ft, %ld at 400 ft", states[0], states[1]);
}

static void faults(void **state)
{
    (void)state;
    cw_layout_item item = plain(16, 0);
    cw_layout_barrel barrel = {.length_16 = 32 * FT, .base = {.items = &item, .item_count = 1}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    assert_null(cw_layout_fault(&problem));
    problem.gap_design_16 = 13;
    assert_non_null(strstr(cw_layout_fault(&problem), "gap band"));
    problem.gap_design_16 = 8;
    item.setup = 8;
    assert_non_null(strstr(cw_layout_fault(&problem), "set-up"));
    item.setup = 0;
    item.length_16 = 1;
    assert_non_null(strstr(cw_layout_fault(&problem), "512 pieces"));
    item.length_16 = 16 * FT;
    problem.rows = CW_ROWS_STAGGERED;
    problem.gap_mode = CW_GAP_CONTINUOUS;
    assert_non_null(strstr(cw_layout_fault(&problem), "staggered"));
    problem.rows = CW_ROWS_ALIGNED;
    assert_non_null(strstr(cw_layout_fault(&problem), "1 to 16 items"));
    cw_layout_item mate = plain(12, 1);
    barrel.top = (cw_layout_row){.items = &mate, .item_count = 1};
    assert_non_null(strstr(cw_layout_fault(&problem), "same length"));
    mate.length_16 = 16 * FT;
    assert_null(cw_layout_fault(&problem));
    problem.piece_cost = -1;
    assert_non_null(strstr(cw_layout_fault(&problem), "cost"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(solved_instances),
        cmocka_unit_test(l5_end_types),
        cmocka_unit_test(l6_staggered),
        cmocka_unit_test(continuous_closes_l1),
        cmocka_unit_test(blocks_of_one_row),
        cmocka_unit_test(blocks_of_stagger_and_setups),
        cmocka_unit_test(blocks_of_ends),
        cmocka_unit_test(blocks_take_bounded_work),
        cmocka_unit_test(shared_set_ups_decide_together),
        cmocka_unit_test(states_grow_with_the_run),
        cmocka_unit_test(faults),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
