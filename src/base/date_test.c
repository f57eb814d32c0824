/* Dates against an almanac, and there and back. */
#include "calc_test_help.h"

#include "cw/date.h"

/* 2000-01-01 is day 10957 and a Saturday, 2024-02-29 day 19782 and a Thursday (any almanac). */
static void dates_of_the_almanac(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    assert_int_equal(cw_date_day(1970, 1, 1), 0);
    assert_int_equal(cw_date_day(2000, 1, 1), 10957);
    assert_int_equal(cw_date_weekday(10957), 5);
    assert_int_equal(cw_date_day(2024, 2, 29), 19782);
    assert_int_equal(cw_date_weekday(19782), 3);
    int day = 0;
    for (int d = cw_date_day(1900, 1, 1); d <= cw_date_day(2199, 12, 31); d += 17) {
        assert_true(cw_date_read(cw_date_print(&arena, d), &day));
        assert_int_equal(day, d);
    }
    static const char *const bad[] = {"",           "2026-5-4",   "2026-02-29", "2026-13-01",
                                      "2026-00-10", "2026-01-32", "26-01-01",   "2026-01-01x",
                                      "1899-12-31", "2026/01/01"};
    for (size_t i = 0; i < COUNT_OF(bad); i++)
        if (cw_date_read(bad[i], &day))
            fail_msg("%s is taken for a date", bad[i]);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(dates_of_the_almanac)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
