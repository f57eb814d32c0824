/* How many legal orders there are, against closed forms and enumerations by hand. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "order_test_help.h"

enum { CHOSEN_MAX = 20 };

/* The number of linear extensions of the order among the steps of the chosen kinds, by the count
 * over sets: orders(set) = sum of orders(set without its last step). */
static long count_orders(const cw_order_graph *graph, unsigned kinds, cw_arena *arena)
{
    uint32_t *below = CW_TAKE(arena, uint32_t, graph->step_count);
    int *bit = CW_TAKE(arena, int, graph->step_count);
    uint32_t need[CHOSEN_MAX];
    int chosen = 0;
    for (int i = 0; i < graph->step_count; i++) {
        const int step = graph->sequence[i];
        for (int n = graph->need_from[step]; n < graph->need_from[step + 1]; n++) {
            const int other = graph->needs[n].step;
            below[step] |= below[other] | (bit[other] > 0 ? 1u << (bit[other] - 1) : 0u);
        }
        if (kinds >> graph->steps[step].kind & 1u) {
            assert_true(chosen < CHOSEN_MAX);
            need[chosen++] = below[step];
            bit[step] = chosen;
        }
    }
    long *orders = CW_TAKE(arena, long, (size_t)1 << chosen);
    orders[0] = 1;
    const uint32_t all = (1u << chosen) - 1u;
    for (uint32_t set = 0; set < all; set++)
        for (int i = 0; orders[set] > 0 && i < chosen; i++)
            if (!(set >> i & 1u) && (need[i] & ~set) == 0)
                orders[set | 1u << i] += orders[set];
    return orders[all];
}

static long orders_of(const cw_order_run *run, unsigned kinds, cw_arena *arena)
{
    const char *fault = cw_order_fault(run, arena);
    if (fault)
        fail_msg("%s", fault);
    return count_orders(cw_order_build(run, arena), kinds, arena);
}

static const unsigned setting = 1u << CW_STEP_SET;

/* Ballot sequences: the orders of n bases and n tops in which top k follows base min(k + 1, n)
 * number Catalan(n - 1), C(m) = (2m)! / (m! (m + 1)!). */
static void aligned_orders_are_catalan(void **state)
{
    (void)state;
    static const long catalan[] = {1, 1, 2, 5, 14, 42, 132, 429};
    for (int n = 1; n <= 8; n++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_order_run run = aligned_run(&arena, 1, n);
        run.lead_limit = CW_ORDER_NO_LIMIT;
        assert_int_equal(orders_of(&run, setting, &arena), catalan[n - 1]);
        run.beyond = CW_BEYOND_WHOLE; // the same when joints are above each other
        assert_int_equal(orders_of(&run, setting, &arena), catalan[n - 1]);
        cw_arena_release(&arena);
    }
}

/* By hand, n = 5.  After B1 B2 two bases are open; a top needs two open, a base may make it H.  H =
 * 2: only top, base, top, base ...  H = 3: back at two open, either base then top or top then base,
 * for each of B3, B4, B5: 2^3 = 8.  H = 4: all 14 but the one with five bases open. */
static void lead_limit_narrows_the_strip(void **state)
{
    (void)state;
    static const struct {
        int limit;
        long orders;
    } cases[] = {{2, 1}, {3, 8}, {4, 13}, {5, 14}};
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_order_run run = aligned_run(&arena, 1, 5);
        run.lead_limit = cases[i].limit;
        assert_int_equal(orders_of(&run, setting, &arena), cases[i].orders);
        cw_arena_release(&arena);
    }
}

static int read_sequence(const char *text, cw_order_piece *pieces)
{
    int count = 0;
    for (const char *at = text; *at; at++) {
        if (*at != 'B' && *at != 'L')
            continue;
        const int barrel = at[2] == 'b' ? 1 : 0;
        pieces[count++] =
            (cw_order_piece){barrel, *at == 'B' ? CW_ORDER_BASE : CW_ORDER_TOP, at[1] - '1'};
    }
    return count;
}

/* All listed orders are legal and their number is that of all legal orders, so the list is
 * complete. */
static void expect_exactly(const cw_order_run *run, const char *const *listed, long count)
{
    cw_arena arena = cw_arena_on(NULL);
    const cw_order_graph *graph = cw_order_build(run, &arena);
    assert_int_equal(count_orders(graph, setting, &arena), count);
    for (long i = 0; i < count; i++) {
        cw_order_piece pieces[CHOSEN_MAX];
        const int pieces_count = read_sequence(listed[i], pieces);
        const cw_order_verdict verdict =
            cw_order_check_setting(graph, pieces, pieces_count, &arena);
        assert_true(verdict.legal && verdict.complete);
    }
    cw_arena_release(&arena);
}

/* Enumerated by hand. */
static void small_runs_have_the_listed_orders(void **state)
{
    (void)state;
    static const char *const three[] = {"B1 B2 L1 B3 L2 L3", "B1 B2 B3 L1 L2 L3"};
    static const char *const four[] = {"B1 B2 B3 B4 L1 L2 L3 L4", "B1 B2 B3 L1 B4 L2 L3 L4",
                                       "B1 B2 B3 L1 L2 B4 L3 L4", "B1 B2 L1 B3 B4 L2 L3 L4",
                                       "B1 B2 L1 B3 L2 B4 L3 L4"};
    static const char *const staggered[] = {"B1 B2 B3 L1 L2 L3 L4", "B1 B2 L1 B3 L2 L3 L4",
                                            "B1 B2 L1 L2 B3 L3 L4"};
    cw_arena arena = cw_arena_on(NULL);
    cw_order_run run = aligned_run(&arena, 1, 3);
    expect_exactly(&run, three, 2);
    run = aligned_run(&arena, 1, 4);
    expect_exactly(&run, four, 5);
    run = staggered_run(&arena);
    expect_exactly(&run, staggered, 3);
    run.beyond = CW_BEYOND_WHOLE; // a whole base beyond: L2 ends at 24 ft, so B3 from 32 ft
    expect_exactly(&run, staggered, 2);
    cw_arena_release(&arena);
}

/* Two barrels of two sections, each B1 B2 L1 L2 in itself.  Merging two fixed sequences of four:
 * free C(8,4) = 70; the second never ahead: ballot sequences, Catalan(4) = 14; at most 2 ahead:
 * lattice paths with height 0..2, 2^3 = 8; at most 1: one. */
static void two_barrels_merge_as_lattice_paths(void **state)
{
    (void)state;
    static const struct {
        int lead, lag;
        long orders;
    } cases[] = {{1, 0, 1},
                 {2, 0, 8},
                 {CW_ORDER_NO_LIMIT, 0, 14},
                 {CW_ORDER_NO_LIMIT, CW_ORDER_NO_LIMIT, 70},
                 {4, 4, 70},
                 {1, 1, 16}}; // after each equal pair one of two goes first: 2^4
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_order_run run = aligned_run(&arena, 2, 2);
        run.barrel_lead = cases[i].lead;
        run.barrel_lag = cases[i].lag;
        assert_int_equal(orders_of(&run, setting, &arena), cases[i].orders);
        run.first_barrel = 1; // mirrored barrels have as many
        assert_int_equal(orders_of(&run, setting, &arena), cases[i].orders);
        run.mode = CW_BARRELS_IN_TURN;
        assert_int_equal(orders_of(&run, setting, &arena), 1);
        cw_arena_release(&arena);
    }
}

/* 14 setting orders, then fill, cure, and two lifts a side: (left, right in any order) twice, 14 *
 * 2 * 2. */
static void fill_cure_and_backfill_follow(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_order_run run = aligned_run(&arena, 2, 2);
    run.barrel_lead = CW_ORDER_NO_LIMIT;
    run.fill_between = true;
    run.fill_placements = 1;
    run.backfill_lifts = 2;
    const unsigned kinds =
        setting | 1u << CW_STEP_FILL | 1u << CW_STEP_FILL_CURED | 1u << CW_STEP_BACKFILL;
    assert_int_equal(orders_of(&run, kinds, &arena), 56);
    // Two lifts apart at most leave the sides free: C(4,2) = 6 orders of LL and RR.
    run.lift_difference_max = 2;
    assert_int_equal(orders_of(&run, kinds, &arena), 14 * 6);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(aligned_orders_are_catalan),
        cmocka_unit_test(lead_limit_narrows_the_strip),
        cmocka_unit_test(small_runs_have_the_listed_orders),
        cmocka_unit_test(two_barrels_merge_as_lattice_paths),
        cmocka_unit_test(fill_cure_and_backfill_follow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
