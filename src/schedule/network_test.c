/* Networks of textbooks, all four kinds of links, calendars, dates. */
#include "../base/calc_test_help.h"

#include "cw/schedule.h"

enum { MOST = 64 };

typedef struct net {
    cw_activity activities[MOST];
    cw_link links[MOST];
    cw_network network;
    cw_clock clock;
} net;

/* One minute stands for the unit of the textbook. */
static void open_net(net *n, cw_arena *arena)
{
    const cw_calendar always = cw_calendar_elapsed();
    memset(n, 0, sizeof *n);
    n->clock = cw_clock_make(&always, 0, 400, arena);
    n->network = (cw_network){n->activities, 0, n->links, 0, &n->clock};
}

static void activity(net *n, int64_t duration)
{
    n->activities[n->network.count++] = (cw_activity){.duration_min = duration};
}

static void tie(net *n, int from, int to, cw_link_kind kind, int64_t lag)
{
    n->links[n->network.link_count++] = (cw_link){from, to, kind, lag, 0};
}

static void after(net *n, int from, int to)
{
    tie(n, from, to, CW_FINISH_START, 0);
}

/* Critical path method, teaching example: A 6; B 2, C 2 after A; D 3 after B; F 2 after C; E 4
 * after D and F; G 1. */
static void first_teaching_example(void **state)
{
    (void)state;
    enum { A, B, C, D, E, F, G };
    static const int64_t durations[] = {6, 2, 2, 3, 4, 2, 1};
    cw_arena arena = cw_arena_on(NULL);
    net n;
    open_net(&n, &arena);
    for (size_t i = 0; i < COUNT_OF(durations); i++)
        activity(&n, durations[i]);
    after(&n, A, B);
    after(&n, A, C);
    after(&n, B, D);
    after(&n, C, F);
    after(&n, D, E);
    after(&n, F, E);
    after(&n, E, G);
    const cw_network_answer got = cw_network_solve(&n.network, &arena);
    assert_int_equal(got.status, CW_NETWORK_OK);
    assert_int_equal(got.finish_min, 16);
    static const int64_t slack[] = {0, 0, 1, 0, 0, 1, 0};
    for (size_t i = 0; i < COUNT_OF(slack); i++) {
        assert_int_equal(got.times[i].float_min, slack[i]);
        assert_int_equal(got.times[i].critical, slack[i] == 0);
    }
    cw_arena_release(&arena);
}

/* Critical path method, teaching example with events 1 to 8: A 1-2, B 1-3, C 1-4, D 2-5, E 3-5, F
 * 3-6, G 3-7, H 4-6, I 5-7, J 6-8, K 7-8. */
static void second_teaching_example(void **state)
{
    (void)state;
    static const struct {
        int from, to, duration, total, free;
    } rows[] = {{1, 2, 2, 9, 0}, {1, 3, 7, 0, 0},  {1, 4, 8, 3, 0}, {2, 5, 3, 9, 8},
                {3, 5, 6, 1, 0}, {3, 6, 10, 0, 0}, {3, 7, 4, 5, 4}, {4, 6, 6, 3, 3},
                {5, 7, 2, 1, 0}, {6, 8, 5, 0, 0},  {7, 8, 6, 1, 1}};
    cw_arena arena = cw_arena_on(NULL);
    net n;
    open_net(&n, &arena);
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        activity(&n, rows[i].duration);
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        for (size_t j = 0; j < COUNT_OF(rows); j++)
            if (rows[i].to == rows[j].from)
                after(&n, (int)i, (int)j);
    const cw_network_answer got = cw_network_solve(&n.network, &arena);
    assert_int_equal(got.finish_min, 22);
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        assert_int_equal(got.times[i].float_min, rows[i].total);
        assert_int_equal(got.times[i].free_min, rows[i].free);
    }
    cw_arena_release(&arena);
}

/* Hand: A 10 and B 4.  Finish-start 2: B 12..16.  Start-start 3: B 3..7, A ends last. Finish-finish
 * 1: B 7..11. Start-finish 12: B 8..12.  Finish-start -3: B 7..11. */
static void all_links_by_hand(void **state)
{
    (void)state;
    static const struct {
        cw_link_kind kind;
        int64_t lag, start, finish, float_a, float_b;
    } rows[] = {{CW_FINISH_START, 2, 12, 16, 0, 0},
                {CW_START_START, 3, 3, 10, 0, 3},
                {CW_FINISH_FINISH, 1, 7, 11, 0, 0},
                {CW_START_FINISH, 12, 8, 12, 0, 0},
                {CW_FINISH_START, -3, 7, 11, 0, 0}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_arena arena = cw_arena_on(NULL);
        net n;
        open_net(&n, &arena);
        activity(&n, 10);
        activity(&n, 4);
        tie(&n, 0, 1, rows[i].kind, rows[i].lag);
        const cw_network_answer got = cw_network_solve(&n.network, &arena);
        assert_int_equal(got.times[1].early_start_min, rows[i].start);
        assert_int_equal(got.finish_min, rows[i].finish);
        assert_int_equal(got.times[0].float_min, rows[i].float_a);
        assert_int_equal(got.times[1].float_min, rows[i].float_b);
        cw_arena_release(&arena);
    }
}

static void cycles_are_named(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    net n;
    open_net(&n, &arena);
    for (int i = 0; i < 6; i++)
        activity(&n, 1);
    after(&n, 0, 1);
    after(&n, 1, 2);
    after(&n, 2, 3);
    after(&n, 3, 1);
    after(&n, 3, 4);
    after(&n, 4, 5);
    const cw_network_answer got = cw_network_solve(&n.network, &arena);
    assert_int_equal(got.status, CW_NETWORK_CYCLE);
    assert_int_equal(got.cycle_count, 3);
    for (int i = 0; i < 3; i++) { // each waits for the one before it
        const int here = got.cycle[i], before = got.cycle[(i + 2) % 3];
        assert_true((before == 1 && here == 2) || (before == 2 && here == 3) ||
                    (before == 3 && here == 1));
    }
    cw_arena_release(&arena);
}

/* Early times against the longest path by plain relaxation, late times against the same from the
 * end. */
static void any_network_against_relaxation(void **state)
{
    (void)state;
    uint64_t seed = 20260302u;
    for (int turn = 0; turn < 400; turn++) {
        cw_arena arena = cw_arena_on(NULL);
        net n;
        open_net(&n, &arena);
        const int count = 2 + (int)(next_random(&seed) * 14.0);
        for (int i = 0; i < count; i++)
            activity(&n, 1 + (int64_t)(next_random(&seed) * 20.0));
        for (int k = 0; k < 2 * count; k++) {
            const int a = (int)(next_random(&seed) * count), b = (int)(next_random(&seed) * count);
            if (a < b)
                tie(&n, a, b, (cw_link_kind)(next_random(&seed) * 4.0),
                    (int64_t)(next_random(&seed) * 6.0));
        }
        const cw_network_answer got = cw_network_solve(&n.network, &arena);
        int64_t start[MOST] = {0}, finish = 0;
        for (int round = 0; round < count; round++)
            for (int k = 0; k < n.network.link_count; k++) {
                const cw_link *l = &n.links[k];
                const bool from_start = l->kind == CW_START_START || l->kind == CW_START_FINISH;
                const bool to_start = l->kind == CW_START_START || l->kind == CW_FINISH_START;
                const int64_t bound =
                    start[l->from] + (from_start ? 0 : n.activities[l->from].duration_min) +
                    l->lag_min - (to_start ? 0 : n.activities[l->to].duration_min);
                if (bound > start[l->to])
                    start[l->to] = bound;
            }
        bool any_critical = false;
        for (int i = 0; i < count; i++) {
            assert_int_equal(got.times[i].early_start_min, start[i]);
            if (start[i] + n.activities[i].duration_min > finish)
                finish = start[i] + n.activities[i].duration_min;
            assert_true(got.times[i].free_min >= 0 &&
                        got.times[i].free_min <= got.times[i].float_min);
            any_critical = any_critical || got.times[i].critical;
        }
        assert_int_equal(got.finish_min, finish);
        assert_true(any_critical);
        // An activity longer by its float leaves the finish; one minute more moves it.
        const int i = (int)(next_random(&seed) * count);
        bool ends_only = true; // lengthening moves the start when a link holds the finish
        for (int k = 0; k < n.network.link_count; k++)
            ends_only = ends_only && !(n.links[k].to == i && n.links[k].kind >= CW_FINISH_FINISH) &&
                        !(n.links[k].from == i && n.links[k].kind != CW_FINISH_START);
        if (ends_only) {
            n.activities[i].duration_min += got.times[i].float_min;
            assert_int_equal(cw_network_solve(&n.network, &arena).finish_min, finish);
            n.activities[i].duration_min += 1;
            assert_int_equal(cw_network_solve(&n.network, &arena).finish_min, finish + 1);
        }
        cw_arena_release(&arena);
    }
}

/* ---- calendars ---- */

static cw_calendar five_days(void)
{
    cw_calendar c = {.off_days = NULL};
    for (int d = 0; d < 5; d++) {
        c.start_min[d] = 7 * 60;
        c.work_min[d] = 480;
    }
    return c;
}

/* 2026-05-04 is a Monday.  Hand. */
static void clock_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const int monday = cw_date_day(2026, 5, 4);
    assert_int_equal(cw_date_weekday(monday), 0);
    const int off[] = {monday + 2};
    cw_calendar c = five_days();
    c.off_days = off;
    c.off_count = 1;
    const cw_clock clock = cw_clock_make(&c, monday, 30, &arena);
    enum { DAY = 1440 };
    assert_int_equal(cw_clock_begin(&clock, 0), 420);
    assert_int_equal(cw_clock_begin(&clock, 500), 500);
    assert_int_equal(cw_clock_begin(&clock, 900), DAY + 420);
    assert_int_equal(cw_clock_finish(&clock, 420, 480), 900);
    assert_int_equal(cw_clock_finish(&clock, 420, 481), DAY + 421);
    assert_int_equal(cw_clock_finish(&clock, DAY + 420, 481), 3 * DAY + 421);    // Wednesday is off
    assert_int_equal(cw_clock_finish(&clock, 4 * DAY + 890, 20), 7 * DAY + 430); // over the weekend
    assert_int_equal(cw_clock_back(&clock, 3 * DAY + 421, 481), DAY + 420);
    assert_int_equal(cw_clock_worked(&clock, 3 * DAY), 960);
    cw_arena_release(&arena);
}

/* Back and finish undo one another, and a night shift past midnight counts as one. */
static void clock_inverses(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_calendar night = {.off_days = NULL};
    for (int d = 0; d < 6; d++) {
        night.start_min[d] = 21 * 60;
        night.work_min[d] = 480;
    }
    const cw_clock clock = cw_clock_make(&night, cw_date_day(2026, 5, 4), 400, &arena);
    assert_int_equal(cw_clock_finish(&clock, 0, 480), 29 * 60);
    uint64_t seed = 20260302u;
    for (int i = 0; i < 5000; i++) {
        const int64_t at = cw_clock_begin(&clock, (int64_t)(next_random(&seed) * 200000.0));
        const int64_t work = 1 + (int64_t)(next_random(&seed) * 20000.0);
        const int64_t end = cw_clock_finish(&clock, at, work);
        assert_int_equal(cw_clock_worked(&clock, end) - cw_clock_worked(&clock, at), work);
        assert_int_equal(cw_clock_back(&clock, end, work), at);
        assert_true(cw_clock_worked(&clock, end - 1) < cw_clock_worked(&clock, end));
    }
    cw_arena_release(&arena);
}

/* Concrete cures at night and on Sunday, a crew does not: pour of 8 h on Friday, 3 days of curing,
 * 8 h of backfill. */
static void lags_go_by_their_own_clock(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_calendar shift = five_days(), always = cw_calendar_elapsed();
    const int friday = cw_date_day(2026, 5, 8);
    const cw_clock clocks[] = {cw_clock_make(&shift, friday, 60, &arena),
                               cw_clock_make(&always, friday, 60, &arena)};
    const cw_activity activities[] = {{480, 0, 0}, {480, 0, 0}};
    cw_link link = {0, 1, CW_FINISH_START, 3 * CW_DAY_MIN, 1};
    const cw_network network = {activities, 2, &link, 1, clocks};
    cw_network_answer got = cw_network_solve(&network, &arena);
    assert_int_equal(got.times[1].early_start_min,
                     4 * CW_DAY_MIN + 420); // cured on Monday at 15:00, so on Tuesday
    link.clock = 0; // three shifts of lag are another thing: 4320 min of shifts, nine working days
    got = cw_network_solve(&network, &arena);
    assert_int_equal(got.times[1].early_start_min, 14 * CW_DAY_MIN + 420);
    cw_arena_release(&arena);
}

static void too_long_for_the_clock(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_calendar shift = five_days();
    const cw_clock clock = cw_clock_make(&shift, 0, 10, &arena);
    const cw_activity one = {100000, 0, 0};
    const cw_network network = {&one, 1, NULL, 0, &clock};
    assert_int_equal(cw_network_solve(&network, &arena).status, CW_NETWORK_TOO_LONG);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(first_teaching_example),
        cmocka_unit_test(second_teaching_example),
        cmocka_unit_test(all_links_by_hand),
        cmocka_unit_test(cycles_are_named),
        cmocka_unit_test(any_network_against_relaxation),
        cmocka_unit_test(clock_by_hand),
        cmocka_unit_test(clock_inverses),
        cmocka_unit_test(lags_go_by_their_own_clock),
        cmocka_unit_test(too_long_for_the_clock),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
