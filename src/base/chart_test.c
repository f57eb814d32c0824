/* Reading load charts: faults at their line, look-up without interpolation. */
#include "calc_test_help.h"

#include <stdlib.h>

#include "cw/chart.h"

#define HEAD "boom_ft,radius_ft,capacity_lb,configuration\n"

static void good_text(const char *text, cw_chart *chart, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    if (!cw_chart_read(text, "chart.csv", chart, arena, &diags))
        fail_msg("%s", cw_diag_line(arena, &diags.items[0]));
    assert_int_equal(diags.count, 0);
}

/* Each text must be refused with a finding that begins "chart.csv:line: error code" and has the
 * words. */
static void faults_have_their_line(void **state)
{
    (void)state;
    static const struct {
        const char *text, *begins, *words;
    } rows[] = {
        {"", "chart.csv: error 106", "no rows"},
        {HEAD, "chart.csv:1:1: error 106", "no rows"},
        {"boom_ft,radius_ft,capacity_lb\n", "chart.csv:1:1: error 101", "has 3 columns"},
        {"boom_ft,radius_ft,capacity_ton,configuration\n", "chart.csv:1:1: error 104",
         "capacity_ton"},
        {"boom,radius_ft,capacity_lb,configuration\n", "chart.csv:1:1: error 104", "\"boom\""},
        {"boom_ft,boom_m,capacity_lb,configuration\n", "chart.csv:1:1: error 104", "boom_m"},
        {HEAD "40,10,90000,full\n40,15,,full\n", "chart.csv:3:1: error 106", "capacity is blank"},
        {HEAD "40,10,90000,full\n40,15\n", "chart.csv:3:1: error 101", "2 values"},
        {HEAD "40,10,90000,full\n40,15,8x,full\n", "chart.csv:3:1: error 105", "8x"},
        {HEAD "40,10,90000,full\n\n40,12,95000,full\n", "chart.csv:4:1: error 111",
         "95000 lb at 12 ft is more"},
        {HEAD "40,10,90000,full\n40,10,80000,full\n", "chart.csv:3:1: error 111",
         "radii from small to large"},
        {HEAD "40,12,90000,full\n40,10,99000,full\n", "chart.csv:3:1: error 111", "follows 12 ft"},
        {HEAD "60,10,90000,full\n40,10,95000,full\n", "chart.csv:3:1: error 111",
         "booms from short to long"},
        {HEAD "40,10,90000,full\n60,10,80000,full\n40,15,70000,full\n", "chart.csv:4:1: error 111",
         "(line 2)"},
        {HEAD "40,10,90,full\n", "chart.csv:2:1: error 103", "capacity_kip"},
        {HEAD "12.2,3.05,90000,full\n40,1,90000,full\n", "chart.csv:3:1: error 103", "radius 1 ft"},
        {HEAD "40,10,90000,\"full 360\"\n", "chart.csv:2:1: error 105", "plain word"},
        {HEAD "40,10,90000,full\n40,15,80000,full\n40,20,70000,full\n50,10,80000,full\n50,20,60000,"
              "full\n"
              "60,10,70000,full\n60,15,60000,full\n60,20,50000,full\n",
         "chart.csv:5:1: error 106", "boom 50 ft has no row at radius 15 ft"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_chart chart;
        assert_false(cw_chart_read(rows[i].text, "chart.csv", &chart, &arena, &diags));
        assert_true(diags.count > 0);
        const char *line = cw_diag_line(&arena, &diags.items[0]);
        if (strncmp(line, rows[i].begins, strlen(rows[i].begins)) != 0 ||
            !strstr(line, rows[i].words))
            fail_msg("row %d: %s", (int)i, line);
        cw_arena_release(&arena);
    }
}

/* Columns in any order, metric headings, notices, CRLF, byte order mark. */
static void forms_are_taken(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_chart chart;
    good_text("\xEF\xBB\xBF# made up\r\n# second\r\nconfiguration, "
              "capacity_t,radius_m,boom_m\r\nfull,10,3.048,12.192\r\n"
              "full,5,6.096,12.192\r\n",
              &chart, &arena);
    assert_string_equal(chart.notice, "made up");
    assert_int_equal(chart.count, 1);
    near("boom", chart.columns[0].boom_ft, 40.0, 1e-9);
    near("radius", chart.columns[0].radius_ft[1], 20.0, 1e-9);
    near("capacity", chart.columns[0].capacity_lb[0], 22046.226, 0.001); // 1 t = 2,204.6226 lb
    cw_arena_release(&arena);
}

static const char *demo(const char *name, cw_arena *arena)
{
    char path[512];
    snprintf(path, sizeof path, "%s/demo/cranes/%s", CW_ROOT, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *text = cw_arena_take(arena, 1 << 20, 1);
    assert_true(fread(text, 1, (1 << 20) - 1, file) > 0);
    fclose(file);
    return text;
}

/* The invented charts that ship: values as printed when they were made, 80 ft boom, full
 * outriggers. */
static void demo_charts(void **state)
{
    (void)state;
    static const double radii_ft[] = {20, 30, 40, 50, 60, 70};
    static const struct {
        const char *name;
        double capacity_lb[6];
    } rows[] = {
        {"invented-100-ton.csv", {62600, 49100, 35900, 25300, 19000, 14800}},
        {"invented-165-ton.csv", {108800, 85300, 58200, 42100, 32600, 26400}},
        {"invented-300-ton.csv", {197900, 155100, 101900, 72700, 55900, 45000}},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_chart chart;
        good_text(demo(rows[i].name, &arena), &chart, &arena);
        assert_non_null(strstr(chart.notice, "INVENTED"));
        for (size_t r = 0; r < COUNT_OF(radii_ft); r++)
            near(rows[i].name,
                 cw_chart_capacity(&chart, "outriggers_full_360", 80.0, radii_ft[r]).capacity_lb,
                 rows[i].capacity_lb[r], 0.0);
        cw_arena_release(&arena);
    }
}

/* US Navy rigging manual NAVEDTRA 14081: a 50 ft boom at 32 ft takes the 35 ft row (loads here are
 * made up). */
static void rows_not_interpolation(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_chart chart;
    good_text(
        HEAD
        "40,20,50000,full\n40,30,30000,full\n50,20,48000,full\n50,30,29000,full\n50,35,21000,full\n"
        "60,20,40000,full\n60,35,20000,full\n60,40,15000,full\n40,20,25000,half\n",
        &chart, &arena);
    const cw_chart_look at = cw_chart_capacity(&chart, "full", 50.0, 32.0);
    near("row", at.row_radius_ft, 35.0, 0.0);
    near("capacity", at.capacity_lb, 21000.0, 0.0);
    near("longer boom", cw_chart_capacity(&chart, "full", 51.0, 32.0).row_boom_ft, 60.0, 0.0);
    near("longer boom's load", cw_chart_capacity(&chart, "full", 51.0, 32.0).capacity_lb, 20000.0,
         0.0);
    near("other configuration", cw_chart_capacity(&chart, "half", 40.0, 20.0).capacity_lb, 25000.0,
         0.0);
    assert_false(cw_chart_capacity(&chart, "full", 61.0, 30.0).on_chart);
    assert_false(cw_chart_capacity(&chart, "full", 50.0, 36.0).on_chart);
    assert_false(cw_chart_capacity(&chart, "full", 50.0, 19.0).on_chart);
    assert_false(cw_chart_capacity(&chart, "none", 50.0, 30.0).on_chart);
    double least_ft, most_ft;
    assert_true(cw_chart_reach(&chart.columns[1], 29000.0, &least_ft, &most_ft));
    near("reach", most_ft, 30.0, 0.0);
    near("from", least_ft, 20.0, 0.0);
    assert_false(cw_chart_reach(&chart.columns[1], 48001.0, &least_ft, &most_ft));
    cw_arena_release(&arena);
}

/* Any byte turned into any other: the reader ends with findings or with a chart whose look-ups do
 * not rise. */
static void any_damage_is_survived(void **state)
{
    (void)state;
    uint64_t seed = 20261125u;
    cw_arena keep = cw_arena_on(NULL);
    const char *text = demo("invented-100-ton.csv", &keep);
    const size_t length = strlen(text);
    static const char bytes[] = "\n,#0159.-x\"\r\xff";
    for (int turn = 0; turn < 600; turn++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_chart chart;
        char *copy = cw_arena_copy(&arena, text, length);
        for (int i = 0; i < 3; i++)
            copy[(size_t)(next_random(&seed) * (double)length)] =
                bytes[(int)(next_random(&seed) * (sizeof bytes - 1))];
        const bool good = cw_chart_read(copy, "chart.csv", &chart, &arena, &diags);
        assert_int_equal(good, diags.count == 0);
        for (int c = 0; good && c < chart.count; c++)
            for (int i = 1; i < chart.columns[c].count; i++)
                assert_true(chart.columns[c].radius_ft[i] > chart.columns[c].radius_ft[i - 1] &&
                            chart.columns[c].capacity_lb[i] <= chart.columns[c].capacity_lb[i - 1]);
        cw_arena_release(&arena);
    }
    cw_arena_release(&keep);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(faults_have_their_line),
        cmocka_unit_test(forms_are_taken),
        cmocka_unit_test(demo_charts),
        cmocka_unit_test(rows_not_interpolation),
        cmocka_unit_test(any_damage_is_survived),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
