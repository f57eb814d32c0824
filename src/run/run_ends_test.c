/* Ends of the culvert under the side slopes. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "run_check.h"

/* Hand calculation by the end formula, verified by substitution: hinge 519.44, tolerance half a
 * unit of the last printed digit. */
static void skewed_example_along_the_road(void **state)
{
    (void)state;
    const cw_run_road road = example_road();
    const cw_run_path path = example_path(20);
    const cw_run_under under = example_under(&road, &path, CW_RUN_CUT_ROAD);
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, NULL);
    const cw_run_end outlet = cw_run_end_find(&under, CW_RUN_OUTLET, NULL);
    assert_int_equal(inlet.status, CW_RUN_OK);
    assert_int_equal(outlet.status, CW_RUN_OK);
    near("hinge", cw_run_hinge_ft(&road.inlet), 20, 1e-12);
    near("hinge elevation", road.elevation_ft - cw_run_hinge_drop_ft(&road.inlet), 519.44, 1e-9);
    near("inlet, ft", inlet.distance_ft, 34.9823, 5e-5);
    near("outlet, ft", outlet.distance_ft, 35.7151, 5e-5);
    near("total, ft", inlet.distance_ft + outlet.distance_ft, 70.697, 5e-4);
    // 0.015 x 5.8333/cos 20 = 0.0931 ft along a face cut on the road.
    near("grade along the face, ft", inlet.grade_ft, 0.0931, 5e-5);
    near("one height along the road", inlet.far_height_ft, inlet.height_ft, 0);
    near("both sides at the inlet", inlet.surface_ft, 513.1832, 5e-5);
    near("both sides at the inlet", inlet.invert_ft + under.fill_ft, 513.1832, 5e-5);
    near("both sides at the outlet", outlet.surface_ft, 512.4762, 5e-5);
    near("both sides at the outlet", outlet.invert_ft + under.fill_ft, 512.4762, 5e-5);
}

static void skewed_example_square(void **state)
{
    (void)state;
    const cw_run_road road = example_road();
    const cw_run_path path = example_path(20);
    const cw_run_under under = example_under(&road, &path, CW_RUN_CUT_SQUARE);
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, NULL);
    const cw_run_end outlet = cw_run_end_find(&under, CW_RUN_OUTLET, NULL);
    near("setback, ft", inlet.setback_ft, 1.9951, 5e-5);
    near("inlet, ft", inlet.distance_ft, 37.0837, 5e-5);
    // From the near to the far corner u grows by 2 x 1.9951, so the 2:1 slope falls by 1.9951.
    near("far corner, ft", inlet.far_height_ft, inlet.height_ft - 1.9951, 5e-5);
    near("outlet, ft", outlet.distance_ft, 37.8605, 5e-5);
    near("total, ft", inlet.distance_ft + outlet.distance_ft, 74.944, 5e-4);
}

static void square_crossing(void **state)
{
    (void)state;
    cw_run_road road = example_road();
    road.grade = 0;
    const cw_run_path path = example_path(0);
    const cw_run_under under = example_under(&road, &path, CW_RUN_CUT_SQUARE);
    near("inlet, ft", cw_run_end_find(&under, CW_RUN_INLET, NULL).distance_ft, 32.562, 5e-4);
    near("outlet, ft", cw_run_end_find(&under, CW_RUN_OUTLET, NULL).distance_ft, 33.891, 5e-4);
}

/* US Army engineer correspondence course EN5465 pp. 5-17 to 5-19: 100 ft of level runway with its
 * edge at 607.00, 10:1, inverts 600.80 and 599.62 at the toes: 62.0 + 100 + 73.8 = 235.8 ft, 237.8
 * with 2 ft of projection, slope 0.0050. */
static void runway_of_the_army_course(void **state)
{
    (void)state;
    const cw_run_side side = {.strips = {{50, 0}}, .strip_count = 1, .side_slope = 10};
    const cw_run_road road = {.elevation_ft = 607, .outlet = side, .inlet = side};
    const cw_run_path path = example_path(0);
    const double slope = (600.80 - 599.62) / 235.8;
    const cw_run_under under = {.road = &road,
                                .path = &path,
                                .invert_ft = 600.80 - slope * (50 + 62.0),
                                .slope = slope,
                                .width_ft = 3};
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, NULL);
    const cw_run_end outlet = cw_run_end_find(&under, CW_RUN_OUTLET, NULL);
    near("slope of the culvert", slope, 0.0050, 5e-5);
    near("upstream toe, ft", inlet.distance_ft - 50, 62.0, 1e-6);
    near("downstream toe, ft", outlet.distance_ft - 50, 73.8, 1e-6);
    near("culvert, ft", inlet.distance_ft + outlet.distance_ft, 235.8, 1e-6);
    near("with projection, ft", inlet.distance_ft + outlet.distance_ft + 2, 237.8, 1e-6);
    near("upstream invert", inlet.invert_ft, 600.80, 1e-6);
    near("downstream invert", outlet.invert_ft, 599.62, 1e-6);
}

static void refusals(void **state)
{
    (void)state;
    cw_run_road road = example_road();
    road.grade = 0;
    const cw_run_path path = example_path(0);
    cw_run_under under = example_under(&road, &path, CW_RUN_CUT_SQUARE);

    // Hinge 519.44 less invert 505.20 leaves 14.24 ft at the hinge of the inlet side.
    under.fill_ft = 14.25;
    assert_int_equal(cw_run_end_find(&under, CW_RUN_INLET, NULL).status, CW_RUN_LOW_AT_HINGE);
    assert_int_equal(cw_run_end_march(&under, CW_RUN_INLET).status, CW_RUN_LOW_AT_HINGE);
    under.fill_ft = 14.23;
    assert_int_equal(cw_run_end_find(&under, CW_RUN_INLET, NULL).status, CW_RUN_OK);

    // Outlet: 1 - m S = 1 - 10 x 0.1 = 0: slope and invert fall together.
    under.fill_ft = 2;
    under.slope = 0.1;
    road.outlet.side_slope = 10;
    assert_int_equal(cw_run_end_closed(&under, CW_RUN_OUTLET, NULL).status, CW_RUN_NEVER_MEETS);
    assert_int_equal(cw_run_end_march(&under, CW_RUN_OUTLET).status, CW_RUN_TOO_FAR);

    // 1 - 9.95 x 0.1 = 0.005: (20 + 9.95 x 12.44) / 0.005 is some 28,800 ft.
    road.outlet.side_slope = 9.95;
    assert_int_equal(cw_run_end_find(&under, CW_RUN_OUTLET, NULL).status, CW_RUN_TOO_FAR);
    assert_int_equal(cw_run_end_march(&under, CW_RUN_OUTLET).status, CW_RUN_TOO_FAR);

    const cw_run_path along = example_path(90);
    under.path = &along;
    assert_int_equal(cw_run_end_find(&under, CW_RUN_INLET, NULL).status, CW_RUN_PARALLEL);
    assert_int_equal(cw_run_end_march(&under, CW_RUN_INLET).status, CW_RUN_PARALLEL);
}

/* Hand: a side slope that starts at the grade point: 520 - s/2 = 512.8333 + 0.01 s, s
 * = 7.16667/0.51. */
static void template_without_strips(void **state)
{
    (void)state;
    cw_run_road road = example_road();
    road.grade = 0;
    road.inlet.strip_count = 0;
    const cw_run_path path = example_path(0);
    const cw_run_under under = example_under(&road, &path, CW_RUN_CUT_SQUARE);
    near("closed, ft", cw_run_end_closed(&under, CW_RUN_INLET, NULL).distance_ft, 14.0523, 5e-5);
    near("march, ft", cw_run_end_march(&under, CW_RUN_INLET).distance_ft, 14.0523, 5e-5);
}

static void every_status_has_words(void **state)
{
    (void)state;
    for (int i = CW_RUN_OK; i <= CW_RUN_NO_LENGTH; i++)
        assert_string_not_equal(cw_run_status_words((cw_run_status)i), "unknown status");
    assert_string_equal(cw_run_status_words((cw_run_status)(CW_RUN_NO_LENGTH + 1)),
                        "unknown status");
}

/* Hand: ground 518 - 0.1 s against 512.8333 + 0.01 s: s = 5.16667/0.11 = 46.9697; the side slope
 * lies lower there. */
static void ground_above_the_fill(void **state)
{
    (void)state;
    cw_run_road road = example_road();
    road.grade = 0;
    const cw_run_path path = example_path(0);
    const cw_run_ground_point points[] = {{20, 516}, {60, 512}};
    const cw_run_ground ground = {points, 2};
    cw_run_under under = example_under(&road, &path, CW_RUN_CUT_SQUARE);
    under.ground = &ground;
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, NULL);
    assert_int_equal(inlet.status, CW_RUN_OK);
    assert_true(inlet.marched && inlet.search.iterations > 0);
    assert_true(inlet.search.low_ft <= inlet.distance_ft &&
                inlet.distance_ft <= inlet.search.high_ft);
    near("inlet, ft", inlet.distance_ft, 46.9697, 5e-5);
    near("residual, ft", inlet.search.residual_ft, 0, 1e-8);
    // No ground is known on the outlet side: the side slope alone counts there.
    near("outlet, ft", cw_run_end_find(&under, CW_RUN_OUTLET, NULL).distance_ft, 33.891, 5e-4);
}

/* A level bank at 516 is known to 60 ft only; there the surface drops to the side slope, past the
 * wanted height. */
static void step_of_the_surface(void **state)
{
    (void)state;
    const cw_run_road road = example_road();
    const cw_run_path path = example_path(0);
    const cw_run_ground_point points[] = {{0, 516}, {60, 516}};
    const cw_run_ground ground = {points, 2};
    cw_run_under under = example_under(&road, &path, CW_RUN_CUT_SQUARE);
    under.ground = &ground;
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, NULL);
    assert_int_equal(inlet.status, CW_RUN_AT_STEP);
    near("step, ft", inlet.distance_ft, 60, 1e-6);
}

/* Hand: past a 20 deg bend at 25 ft, t = s - 25: 516.94 - t cos 20/2 = 513.08333 + 0.01 t. */
static void bend_before_the_end(void **state)
{
    (void)state;
    cw_run_road road = example_road();
    road.grade = 0;
    cw_run_path path = example_path(0);
    path.bends[0] = (cw_run_bend){25, 20};
    path.bend_count = 1;
    const cw_run_under under = example_under(&road, &path, CW_RUN_CUT_ROAD);
    const double expected_ft =
        25 + (516.94 - 505.25 - 94 / 12.0) / (cos(20 * CW_RAD_PER_DEG) / 2 + 0.01);
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, NULL);
    assert_int_equal(inlet.status, CW_RUN_OK);
    near("hand value, ft", expected_ft, 33.0373, 5e-5);
    near("inlet, ft", inlet.distance_ft, expected_ft, 1e-7);
}

typedef struct drawn {
    cw_run_road road;
    cw_run_path path;
    cw_run_under under;
} drawn;

static void draw(uint64_t *seed, drawn *one)
{
    one->road = random_road(seed);
    one->path = (cw_run_path){.frame = random_frame(seed)};
    one->under =
        (cw_run_under){.road = &one->road,
                       .path = &one->path,
                       .invert_ft = one->road.elevation_ft - between(seed, 2, 40),
                       .slope = between(seed, 0, 0.1),
                       .width_ft = between(seed, 4, 60),
                       .cut = between(seed, 0, 1) < 0.5 ? CW_RUN_CUT_SQUARE : CW_RUN_CUT_ROAD,
                       .fill_ft = between(seed, 0, 15)};
}

/* Derived: substitution check, with the two lines written out anew. */
static void closed_form_satisfies_its_equation(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    int solved = 0;
    for (int i = 0; i < CASES; i++) {
        drawn one;
        draw(&seed, &one);
        const cw_run_which which = i % 2 ? CW_RUN_INLET : CW_RUN_OUTLET;
        const cw_run_end end = cw_run_end_closed(&one.under, which, NULL);
        if (end.status != CW_RUN_OK)
            continue;
        solved++;
        const double sign = which == CW_RUN_INLET ? 1 : -1, s = end.distance_ft;
        const cw_run_side *side = which == CW_RUN_INLET ? &one.road.inlet : &one.road.outlet;
        double hinge_ft = 0, hinge_z_ft = one.road.elevation_ft;
        for (int j = 0; j < side->strip_count; j++) {
            hinge_ft += side->strips[j].width_ft;
            hinge_z_ft -= side->strips[j].width_ft * side->strips[j].fall;
        }
        const double skew = one.path.frame.skew_deg * CW_RAD_PER_DEG;
        const double setback_ft =
            one.under.cut == CW_RUN_CUT_SQUARE ? one.under.width_ft / 2 * fabs(sin(skew)) : 0;
        const double fill_ft = hinge_z_ft + sign * one.road.grade * s * sin(skew) -
                               (s * cos(skew) - setback_ft - hinge_ft) / side->side_slope;
        const double wall_ft = one.under.invert_ft + sign * one.under.slope * s + one.under.fill_ft;
        near("fill against wall, ft", fill_ft, wall_ft, 1e-9);
        near("reported fill, ft", end.surface_ft, fill_ft, 1e-9);
        assert_true(s * cos(skew) - setback_ft >= hinge_ft - 1e-6);
    }
    assert_true(solved > CASES / 2);
}

static void march_agrees_with_closed_form(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 1;
    int refused = 0;
    for (int i = 0; i < CASES; i++) {
        drawn one;
        draw(&seed, &one);
        const cw_run_which which = i % 2 ? CW_RUN_INLET : CW_RUN_OUTLET;
        const cw_run_end closed = cw_run_end_closed(&one.under, which, NULL);
        const cw_run_end marched = cw_run_end_march(&one.under, which);
        if (closed.status == CW_RUN_OK) {
            assert_int_equal(marched.status, CW_RUN_OK);
            near("march, ft", marched.distance_ft, closed.distance_ft, 1e-6);
            near("residual, ft", marched.search.residual_ft, 0, 1e-6);
        } else {
            refused++;
            const cw_run_status expected =
                closed.status == CW_RUN_NEVER_MEETS ? CW_RUN_TOO_FAR : closed.status;
            assert_int_equal(marched.status, expected);
        }
    }
    assert_true(refused > CASES / 100);
}

/* Turning the road round (up-station becomes down-station) changes nothing on the ground. */
static void reversed_stationing_gives_the_same_ends(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 2;
    for (int i = 0; i < CASES; i++) {
        drawn one;
        draw(&seed, &one);
        const cw_run_end before = cw_run_end_find(&one.under, CW_RUN_INLET, NULL);
        one.road.grade = -one.road.grade;
        one.path.frame.skew_deg = -one.path.frame.skew_deg;
        const cw_run_end after = cw_run_end_find(&one.under, CW_RUN_INLET, NULL);
        assert_int_equal(before.status, after.status);
        near("inlet, ft", after.distance_ft, before.distance_ft, 1e-9);
    }
}

/* Ground that lies under every side slope must not move an end. */
static void low_ground_changes_nothing(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 3;
    for (int i = 0; i < CASES / 10; i++) {
        drawn one;
        draw(&seed, &one);
        const cw_run_ground_point points[] = {{-1500, -5000}, {1500, -5000}};
        const cw_run_ground ground = {points, 2};
        const cw_run_end before = cw_run_end_find(&one.under, CW_RUN_OUTLET, NULL);
        one.under.ground = &ground;
        const cw_run_end after = cw_run_end_find(&one.under, CW_RUN_OUTLET, NULL);
        if (before.status == CW_RUN_OK)
            near("outlet, ft", after.distance_ft, before.distance_ft, 1e-6);
        else
            assert_int_not_equal(after.status, CW_RUN_OK);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(skewed_example_along_the_road),
        cmocka_unit_test(skewed_example_square),
        cmocka_unit_test(square_crossing),
        cmocka_unit_test(runway_of_the_army_course),
        cmocka_unit_test(refusals),
        cmocka_unit_test(template_without_strips),
        cmocka_unit_test(every_status_has_words),
        cmocka_unit_test(ground_above_the_fill),
        cmocka_unit_test(step_of_the_surface),
        cmocka_unit_test(bend_before_the_end),
        cmocka_unit_test(closed_form_satisfies_its_equation),
        cmocka_unit_test(march_agrees_with_closed_form),
        cmocka_unit_test(reversed_stationing_gives_the_same_ends),
        cmocka_unit_test(low_ground_changes_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
