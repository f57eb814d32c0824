/* Crane setups: cases with known answers; tests/setups_oracle_test.c compares with other solvers.
 */
#include "../base/calc_test_help.h"

#include "cw/lifting.h"

static const double radius_ft[] = {10, 30, 50, 60}, light_lb[] = {90000, 50000, 20000, 10000},
                    strong_lb[] = {200000, 110000, 60000, 45000};
static const cw_chart_column light[] = {{"full", 80, radius_ft, light_lb, 4}};
static const cw_chart_column strong[] = {{"full", 80, radius_ft, strong_lb, 4}};

enum { ROW = 30 };

/* Thirty joints of 6 ft, 20,000 lb each on the hook: the light crane carries them to 50 ft. */
static void make_row(cw_setup_piece pieces[ROW])
{
    for (int i = 0; i < ROW; i++)
        pieces[i] = (cw_setup_piece){3.0 + 6.0 * i, 0.0, 20000.0};
}

static cw_setup_crane plain(const cw_chart_column *columns, double setup_cents)
{
    return (cw_setup_crane){
        .columns = columns, .column_count = 1, .chart_percent = 100.0, .setup_cents = setup_cents};
}

/* Hand: reach sqrt(50^2 - 35^2) = 35.7 ft to each side of a stand, 174 ft of centres: 2.44, so
 * three stands; 12, 12 and 6 pieces when each block is as long as it can be. */
static void a_row_from_one_side(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_setup_piece pieces[ROW];
    make_row(pieces);
    const cw_setup_crane crane = plain(light, 100.0);
    const cw_setup_line line = {
        .offset_ft = -35.0, .ranges = {{-50.0, 250.0}}, .range_count = 1, .cranes = 1u};
    const cw_setup_problem p = {pieces, ROW, &crane, 1, &line, 1, 0.0};
    assert_null(cw_setup_fault(&p, &arena));
    const cw_setup_answer answer = cw_lifting_setups(&p, &arena);
    assert_int_equal(answer.setup_count, 3);
    assert_int_equal(answer.off_count, 0);
    near("cost", answer.cents, 300.0, 1e-9);
    near("percent", answer.setups[0].percent, 100.0, 1e-9); // past 30 ft the row is that of 50 ft
    cw_arena_release(&arena);
}

/* Hand: the strong crane's setup costs three times as much; from 35 ft it carries to 60 ft, 48.7 ft
 * each way: two stands. 3 x 100 against 2 x 300, then with 400 to bring the light one: 700 against
 * 600. */
static void the_cheaper_crane_is_taken(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_setup_piece pieces[ROW];
    make_row(pieces);
    cw_setup_crane cranes[] = {plain(light, 100.0), plain(strong, 300.0)};
    const cw_setup_line line = {
        .offset_ft = -35.0, .ranges = {{-50.0, 250.0}}, .range_count = 1, .cranes = 3u};
    const cw_setup_problem p = {pieces, ROW, cranes, 2, &line, 1, 0.0};
    cw_setup_answer answer = cw_lifting_setups(&p, &arena);
    assert_int_equal(answer.setups[0].crane, 0);
    near("light", answer.cents, 300.0, 1e-9);
    cranes[0].bring_cents = 400.0;
    answer = cw_lifting_setups(&p, &arena);
    assert_int_equal(answer.setup_count, 2);
    assert_int_equal(answer.setups[1].crane, 1);
    near("strong", answer.cents, 600.0, 1e-9);
    cw_arena_release(&arena);
}

/* A piece that no crane carries is named and the others are planned; the nearest stand says what is
 * short. */
static void off_the_chart(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_setup_piece pieces[] = {{0.0, 0.0, 20000.0}, {6.0, 0.0, 100000.0}, {12.0, 0.0, 30000.0}};
    const cw_setup_crane crane = plain(light, 100.0);
    const cw_setup_line line = {
        .offset_ft = -40.0, .ranges = {{-50.0, 250.0}}, .range_count = 1, .cranes = 1u};
    const cw_setup_problem p = {pieces, 3, &crane, 1, &line, 1, 0.0};
    const cw_setup_answer answer = cw_lifting_setups(&p, &arena);
    assert_int_equal(answer.order_count, 1);
    assert_int_equal(answer.off_count, 2);
    assert_int_equal(answer.off_chart[0], 1);
    assert_int_equal(answer.off_chart[1], 2);
    assert_false(cw_lifting_nearest(&p, 1).found); // 100,000 lb over 90,000 lb at any radius
    const cw_setup_near near_by = cw_lifting_nearest(&p, 2);
    assert_true(near_by.found);
    near("radius", near_by.radius_ft, 40.0, 1e-9);
    near("most", near_by.radius_most_ft, 30.0, 0.0);
    near("short", near_by.short_ft, 10.0, 1e-9);
    const cw_setup_crane bare = {.chart_percent = 75.0}; // no boom: it sets nothing
    const cw_setup_problem nobody = {pieces, 3, &bare, 1, &line, 1, 0.0};
    assert_null(cw_setup_fault(&nobody, &arena));
    assert_int_equal(cw_lifting_setups(&nobody, &arena).off_count, 3);
    near("reachable", cw_lifting_nearest(&p, 0).short_ft, 0.0, 0.0);
    cw_arena_release(&arena);
}

/* Nearer than the first row of the chart there is no rating: a crane on the axis stands 10 ft off.
 */
static void not_too_near(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_setup_piece piece = {20.0, 0.0, 60000.0};
    const cw_setup_crane crane = plain(light, 100.0);
    cw_setup_line line = {
        .offset_ft = 0.0, .ranges = {{12.0, 28.0}}, .range_count = 1, .cranes = 1u};
    const cw_setup_problem p = {&piece, 1, &crane, 1, &line, 1, 0.0};
    assert_int_equal(cw_lifting_setups(&p, &arena).off_count, 1);
    near("too near", cw_lifting_nearest(&p, 0).short_ft, -10.0, 1e-9);
    line.ranges[0].from_ft = 10.0;
    const cw_setup_answer answer = cw_lifting_setups(&p, &arena);
    assert_int_equal(answer.off_count, 0);
    near("stand", answer.setups[0].at_ft, 10.0, 1e-9);
    cw_arena_release(&arena);
}

/* A stretch where nothing may stand splits the only place away. */
static void closed_stretch(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_setup_piece pieces[] = {{0.0, 0.0, 20000.0}, {60.0, 0.0, 20000.0}};
    const cw_setup_crane crane = plain(light, 100.0);
    cw_setup_line line = {
        .offset_ft = 40.0, .ranges = {{-50.0, 200.0}}, .range_count = 1, .cranes = 1u};
    const cw_setup_problem p = {pieces, 2, &crane, 1, &line, 1, 0.0};
    assert_int_equal(cw_lifting_setups(&p, &arena).setup_count,
                     1); // 30 ft to each side, from 30 ft exactly
    line.ranges[0].to_ft = 29.0;
    line.ranges[1] = (cw_setup_range){31.0, 200.0};
    line.range_count = 2;
    assert_int_equal(cw_lifting_setups(&p, &arena).setup_count, 2);
    cw_arena_release(&arena);
}

static void faults(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_setup_piece piece = {0.0, 0.0, 20000.0}, weightless = {0.0, 0.0, 0.0};
    const cw_setup_crane crane = plain(light, 100.0),
                         over = {.columns = light, .column_count = 1, .chart_percent = 101.0},
                         paid = {.columns = light,
                                 .column_count = 1,
                                 .chart_percent = 75.0,
                                 .day_cents = -1.0};
    const cw_setup_line line = {.ranges = {{0.0, 9.0}}, .range_count = 1, .cranes = 1u},
                        crossed = {.ranges = {{9.0, 0.0}}, .range_count = 1},
                        many = {.range_count = CW_SETUP_RANGES_MAX + 1};
    const struct {
        cw_setup_problem problem;
        const char *words;
    } rows[] = {
        {{&piece, 0, &crane, 1, &line, 1, 0.0}, "0 pieces"},
        {{&piece, 1, &crane, 0, &line, 1, 0.0}, "0 cranes"},
        {{&piece, 1, &crane, 1, &line, 0, 0.0}, "0 lines"},
        {{&weightless, 1, &crane, 1, &line, 1, 0.0}, "load of 0 lb"},
        {{&piece, 1, &over, 1, &line, 1, 0.0}, "101 percent"},
        {{&piece, 1, &paid, 1, &line, 1, 0.0}, "-1"},
        {{&piece, 1, &crane, 1, &crossed, 1, 0.0}, "from 9 to 0"},
        {{&piece, 1, &crane, 1, &line, 1, -5.0}, "-5 cents"},
        {{&piece, 1, &crane, 1, &many, 1, 0.0}, "9 ranges"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const char *said = cw_setup_fault(&rows[i].problem, &arena);
        if (!said || !strstr(said, rows[i].words))
            fail_msg("row %d: %s", (int)i, said ? said : "no fault");
    }
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_row_from_one_side), cmocka_unit_test(the_cheaper_crane_is_taken),
        cmocka_unit_test(off_the_chart),       cmocka_unit_test(not_too_near),
        cmocka_unit_test(closed_stretch),      cmocka_unit_test(faults),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
