/* Sections, normal and critical depths, tailwater, jump. */
#include "hydraulics_check.h"

#include "cw/hydraulics.h"
#include "cw/units.h"

#define M CW_M_PER_FT

static cw_water_section rectangle(double width_ft, double n)
{
    return (cw_water_section){.shape = CW_WATER_RECTANGLE, .bottom_ft = width_ft, .n = n};
}

static cw_water_section trapezoid(double bottom_ft, double z, double n)
{
    return (cw_water_section){
        .shape = CW_WATER_TRAPEZOID, .bottom_ft = bottom_ft, .side_slope = z, .n = n};
}

/* Metric sources use g = 9.81 m/s2 and a Manning factor of 1; ours are 32.2 ft/s2 (9.8146 m/s2) and
 * 1.486 (the exact factor is 1.4859): the difference is below the last printed digit. */
typedef struct depth_case {
    const char *source;
    cw_water_shape shape;
    double bottom_ft, z, n, slope, flow_cfs;
    double normal_ft, critical_ft; /* 0: not asked */
    double within_ft;
} depth_case;

static const depth_case depth_cases[] = {
    {"closed form, q 20", CW_WATER_RECTANGLE, 1, 0, 0.012, 0, 20, 0, 2.3160, 5e-5},
    {"closed form, q 50", CW_WATER_RECTANGLE, 1, 0, 0.012, 0, 50, 0, 4.2661, 5e-5},
    {"closed form, q 25", CW_WATER_RECTANGLE, 1, 0, 0.012, 0, 25, 0, 2.6875, 5e-5},
    {"bisection, b 8, S 0.002", CW_WATER_RECTANGLE, 8, 0, 0.012, 0.002, 200, 3.1093, 0, 5e-5},
    {"bisection, b 8, S 0.01", CW_WATER_RECTANGLE, 8, 0, 0.012, 0.01, 200, 1.7641, 0, 5e-5},
    {"bisection, b 10, S 0.01", CW_WATER_RECTANGLE, 10, 0, 0.012, 0.01, 300, 1.9386, 3.0348, 5e-5},
    {"bisection, b 10, S 0.001", CW_WATER_RECTANGLE, 10, 0, 0.012, 0.001, 300, 4.3601, 0, 5e-5},
    {"bisection, z 2", CW_WATER_TRAPEZOID, 20, 2, 0.035, 0.0016, 400, 4.0457, 2.1477, 5e-5},
    {"Chow 1959, ch. 4 and 6 (from memory): 2.15 and 3.36 ft", CW_WATER_TRAPEZOID, 20, 2, 0.025,
     0.0016, 400, 3.36, 2.15, 6e-3},
    {"course CIVE3415, sheet 2, 2024, E2.1: 0.856 m", CW_WATER_TRAPEZOID, 3 / M, 2, 0.02, 0,
     10 / (M * M * M), 0, 0.856 / M, 1e-3 / M},
    {"course CIVE3415, sheet 2, 2024, E2.2: 1.215 m", CW_WATER_RECTANGLE, 3 / M, 0, 0.025, 0.002,
     5 / (M * M * M), 1.215 / M, 0, 6e-4 / M},
    {"course CIVE 530 midterm 1, 2005: 6.34 m", CW_WATER_RECTANGLE, 1 / M, 0, 0.012, 0,
     50 / (M * M * M), 0, 6.34 / M, 2e-3 / M},
    {"course CIVE 530 midterm 2, 2007: 0.8 m", CW_WATER_RECTANGLE, 5 / M, 0, 0.015, 0.0025,
     9.548 / (M * M * M), 0.8 / M, 0, 5e-4 / M},
};

static void depths_of_published_and_closed_cases(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT_OF(depth_cases); i++) {
        const depth_case *at = &depth_cases[i];
        const cw_water_section section = {
            .shape = at->shape, .bottom_ft = at->bottom_ft, .side_slope = at->z, .n = at->n};
        if (at->normal_ft > 0.0) {
            const cw_water_root root = cw_water_normal_depth(&section, at->flow_cfs, at->slope);
            assert_int_equal(root.status, CW_WATER_OK);
            near(at->source, root.value, at->normal_ft, at->within_ft);
            assert_true(root.low <= root.value && root.value <= root.high);
            assert_true(root.iterations > 0 && fabs(root.residual) < 1e-9);
        }
        if (at->critical_ft > 0.0)
            near(at->source, cw_water_critical_depth(&section, at->flow_cfs).value, at->critical_ft,
                 at->within_ft);
    }
}

/* FHWA-HRT-06-138 (2006), app. D, tables 20 and 21: section and its rating, slope 0.02 %; one n of
 * 0.036, which the report does not print, matches all 11 points. */
static const cw_water_point surveyed[] = {
    {64, 86.0, 0.036},  {130, 84.0, 0.036}, {152, 83.5, 0.036}, {197, 83.0, 0.036},
    {245, 82.5, 0.036}, {277, 82.0, 0.036}, {293, 81.0, 0.036}, {300, 78.7, 0.036},
    {305, 81.0, 0.036}, {329, 82.0, 0.036}, {406, 82.5, 0.036}, {470, 83.0, 0.036},
    {500, 86.0, 0.036},
};

static const double rating[][2] = {
    {68.7, 82.77},   {222.0, 83.49},  {375.4, 83.93},  {528.7, 84.30},
    {682.0, 84.61},  {773.0, 84.78},  {988.7, 85.15},  {1142.0, 85.38},
    {1295.3, 85.61}, {1448.7, 85.82}, {1602.0, 86.00},
};

static cw_water_section natural(void)
{
    return (cw_water_section){
        .shape = CW_WATER_SURVEYED, .points = surveyed, .point_count = COUNT_OF(surveyed)};
}

static void published_rating_of_a_natural_channel(void **state)
{
    (void)state;
    const cw_water_tailwater tail = {
        .kind = CW_WATER_TAIL_CHANNEL, .channel = natural(), .channel_slope = 0.0002};
    assert_int_equal(cw_water_tailwater_check(&tail), CW_WATER_OK);
    for (int i = 0; i < COUNT_OF(rating) - 1; i++) {
        const cw_water_tail_level level = cw_water_tailwater_at(&tail, rating[i][0]);
        assert_int_equal(level.status, CW_WATER_OK);
        near("FHWA-HRT-06-138 table 21", level.level_ft, rating[i][1], 0.0125);
    }
    /* The last flow needs 86.012 ft and the survey ends at 86.00. */
    assert_int_equal(cw_water_tailwater_at(&tail, rating[10][0]).status, CW_WATER_OVER_BANKS);
    near("same, next below", cw_water_tailwater_at(&tail, 1590.0).level_ft, 86.0, 0.0125);
}

static void panels_add_their_conveyance(void **state)
{
    (void)state;
    /* Two rectangles side by side, 10 and 20 ft wide, 2 ft deep, of different n: by hand. */
    const cw_water_point points[] = {
        {0, 5, 0.03}, {0, 0, 0.03}, {10, 0, 0.06}, {30, 0, 0.06}, {30, 5, 0.06}};
    cw_water_section section = {
        .shape = CW_WATER_SURVEYED, .points = points, .point_count = COUNT_OF(points)};
    const double k1 = 1.486 / 0.03 * 20 * pow(20.0 / 12.0, 2.0 / 3.0);
    const double k2 = 1.486 / 0.06 * 40 * pow(40.0 / 22.0, 2.0 / 3.0);
    const cw_water_wet wet = cw_water_section_at(&section, 2.0);
    near("area", wet.area_sqft, 60, 1e-12);
    near("perimeter", wet.wetted_ft, 34, 1e-12);
    near("top", wet.top_ft, 30, 1e-12);
    near("sum of panels", wet.conveyance_cfs, k1 + k2, 1e-9 * (k1 + k2));
    section.one_panel = true;
    const double n = cw_water_composite_n(12, 0.03, 22, 0.06, NULL);
    const double whole = 1.486 / n * 60 * pow(60.0 / 34.0, 2.0 / 3.0);
    near("one panel", cw_water_section_at(&section, 2.0).conveyance_cfs, whole, 1e-9 * whole);
}

static void surveyed_rectangle_is_a_rectangle(void **state)
{
    (void)state;
    const cw_water_point points[] = {{0, 107, 0.02}, {0, 100, 0.02}, {9, 100, 0.02}, {9, 107, 0}};
    const cw_water_section section = {
        .shape = CW_WATER_SURVEYED, .points = points, .point_count = COUNT_OF(points)};
    const cw_water_section plain = rectangle(9, 0.02);
    near("normal", cw_water_normal_depth(&section, 150, 0.004).value,
         cw_water_normal_depth(&plain, 150, 0.004).value, 1e-9);
    near("critical", cw_water_critical_depth(&section, 150).value,
         cw_water_critical_depth(&plain, 150).value, 1e-9);
    const cw_water_section flat = trapezoid(9, 0, 0.02);
    near("trapezoid without side slope", cw_water_normal_depth(&flat, 150, 0.004).value,
         cw_water_normal_depth(&plain, 150, 0.004).value, 1e-9);
}

static void what_has_no_answer_says_so(void **state)
{
    (void)state;
    const cw_water_section good = rectangle(8, 0.012);
    cw_water_root root = cw_water_normal_depth(&good, 200, 0.0);
    assert_int_equal(root.status, CW_WATER_NO_NORMAL);
    assert_true(root.value == 0.0);
    assert_int_equal(cw_water_normal_depth(&good, 200, -0.01).status, CW_WATER_NO_NORMAL);
    assert_int_equal(cw_water_normal_depth(&good, -1, 0.01).status, CW_WATER_BAD_FLOW);
    assert_int_equal(cw_water_critical_depth(&good, (double)NAN).status, CW_WATER_BAD_FLOW);
    const cw_water_section smooth = rectangle(8, 0.0), narrow = rectangle(-1, 0.012);
    assert_int_equal(cw_water_normal_depth(&smooth, 200, 0.01).status, CW_WATER_BAD_SECTION);
    assert_int_equal(cw_water_normal_depth(&narrow, 200, 0.01).status, CW_WATER_BAD_SECTION);
    const cw_water_point back[] = {{0, 5, 0.03}, {10, 0, 0.03}, {8, 0, 0.03}, {20, 5, 0.03}};
    const cw_water_section crossed = {
        .shape = CW_WATER_SURVEYED, .points = back, .point_count = COUNT_OF(back)};
    assert_int_equal(cw_water_section_check(&crossed), CW_WATER_BAD_SECTION);
    const cw_water_section section = natural();
    root = cw_water_normal_depth(&section, 5000, 0.0002);
    assert_int_equal(root.status, CW_WATER_OVER_BANKS);
    assert_true(root.residual < 0.0);
    for (int i = 0; i <= CW_WATER_NOT_FOUND; i++)
        assert_true(cw_water_status_words((cw_water_status)i)[0] != 0);
}

static void table_of_flow_and_stage(void **state)
{
    (void)state;
    static const cw_water_stage stages[] = {{0, 500}, {100, 502}, {400, 505}};
    cw_water_tailwater tail = {.kind = CW_WATER_TAIL_TABLE, .stages = stages, .stage_count = 3};
    near("straight between", cw_water_tailwater_at(&tail, 50).level_ft, 501, 1e-12);
    near("straight between", cw_water_tailwater_at(&tail, 250).level_ft, 503.5, 1e-12);
    near("at its end", cw_water_tailwater_at(&tail, 400).level_ft, 505, 1e-12);
    assert_int_equal(cw_water_tailwater_at(&tail, 400.1).status, CW_WATER_BEYOND_TABLE);
    static const cw_water_stage falls[] = {{0, 500}, {100, 502}, {400, 501}};
    tail.stages = falls;
    assert_int_equal(cw_water_tailwater_check(&tail), CW_WATER_BAD_TABLE);
    tail.stage_count = 1;
    assert_int_equal(cw_water_tailwater_check(&tail), CW_WATER_BAD_TABLE);
}

static void jump_and_composite_roughness(void **state)
{
    (void)state;
    const double froude = 18.0 / sqrt(32.2 * 1.5);
    near("closed form", froude, 2.5900, 5e-5);
    const double after = cw_water_sequent_ft(1.5, froude);
    near("closed form", after, 4.7952, 5e-5);
    near("closed form", pow(after - 1.5, 3) / (4 * 1.5 * after), 1.2436, 5e-5);
    /* Course CIVE 530, midterm 2, 2004: q 3 m2/s, y1 0.568 m; printed 1.53 m with y2/y1 rounded. */
    near("CIVE 530 2004", cw_water_sequent_ft(0.5682, 2.2361), 1.53, 6e-3);
    near("closed form (Horton)", cw_water_composite_n(8, 0.012, 10, 0.035, NULL), 0.02612, 5e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(depths_of_published_and_closed_cases),
        cmocka_unit_test(published_rating_of_a_natural_channel),
        cmocka_unit_test(panels_add_their_conveyance),
        cmocka_unit_test(surveyed_rectangle_is_a_rectangle),
        cmocka_unit_test(what_has_no_answer_says_so),
        cmocka_unit_test(table_of_flow_and_stage),
        cmocka_unit_test(jump_and_composite_roughness),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
