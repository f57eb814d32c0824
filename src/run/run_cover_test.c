/* Surface and cover over the box. */
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

/* Hand: lane 12 ft at 2 %, shoulder 8 ft at 4 %, 2:1. */
static void template_by_hand(void **state)
{
    (void)state;
    const cw_run_road road = example_road();
    near("crown", cw_run_surface_ft(&road, 0, 0), 520, 0);
    near("lane edge", cw_run_surface_ft(&road, 12, 0), 519.76, 1e-9);
    near("shoulder", cw_run_surface_ft(&road, -16, 0), 519.60, 1e-9);
    near("hinge", cw_run_surface_ft(&road, 20, 0), 519.44, 1e-9);
    near("slope", cw_run_surface_ft(&road, -30, 0), 514.44, 1e-9);
    near("100 ft up-station", cw_run_surface_ft(&road, 0, 100), 521.5, 1e-9);
}

static void ground_by_hand(void **state)
{
    (void)state;
    const cw_run_road road = example_road();
    const cw_run_ground_point points[] = {{-40, 518}, {10, 518}, {50, 514}};
    const cw_run_ground ground = {points, 3};
    double z_ft = 0;
    assert_true(cw_run_ground_at(&ground, 30, &z_ft));
    near("between points", z_ft, 516, 1e-12);
    assert_true(cw_run_ground_at(&ground, 50, &z_ft));
    near("last point", z_ft, 514, 1e-12);
    assert_false(cw_run_ground_at(&ground, 50.001, &z_ft));
    assert_false(cw_run_ground_at(&ground, -40.001, &z_ft));
    assert_false(cw_run_ground_at(NULL, 0, &z_ft));
    near("road over ground", cw_run_finished_ft(&road, &ground, 15, 0, 15), 519.64, 1e-9);
    near("slope over ground", cw_run_finished_ft(&road, &ground, 21, 0, 21), 518.94, 1e-9);
    near("ground over slope", cw_run_finished_ft(&road, &ground, 30, 0, 30), 516, 1e-9);
    near("no ground known", cw_run_finished_ft(&road, &ground, 60, 0, 60), 499.44, 1e-9);
}

/* Hand: 8.167 at the centre line, 7.503 and 7.710 at the hinges (thickness taken vertical; square
 * to the 1 % grade takes 0.0003 ft off each). */
static void cover_of_the_skewed_example(void **state)
{
    (void)state;
    const cw_run_road road = example_road();
    const cw_run_path path = example_path(20);
    const double outlet_ft = 37.8605, inlet_ft = 37.0837;
    const cw_run_line line =
        cw_run_line_of(&path, (cw_run_span){-outlet_ft, inlet_ft, CW_RUN_CUT_SQUARE}, 0);
    const cw_run_over over = {.road = &road,
                              .line = &line,
                              .grade = {.outlet_invert_ft = 505 - 0.01 * outlet_ft, .slope = 0.01},
                              .box = {72, 10}};
    const double hinge_ft = 20 / cos(20 * CW_RAD_PER_DEG);
    const double tilt_ft = 82 / CW_IN_PER_FT * (sqrt(1.0001) - 1);
    near("centre line, ft", cw_run_cover_at(&over, outlet_ft).cover_ft, 8.1667 - tilt_ft, 5e-5);
    near("inlet hinge, ft", cw_run_cover_at(&over, outlet_ft + hinge_ft).cover_ft, 7.503 - tilt_ft,
         5e-4);
    near("outlet hinge, ft", cw_run_cover_at(&over, outlet_ft - hinge_ft).cover_ft, 7.710 - tilt_ft,
         5e-4);

    // Between the hinges the inlet hinge is least; over the whole run it is one of the ends.
    const cw_run_cover under_road =
        cw_run_least_cover(&over, outlet_ft - hinge_ft, outlet_ft + hinge_ft);
    near("least under the road, ft", under_road.cover_ft, 7.503 - tilt_ft, 5e-4);
    near("at, ft", under_road.at_ft, outlet_ft + hinge_ft, 1e-9);
    const cw_run_cover least = cw_run_least_cover(&over, 0, line.length_ft);
    assert_true(least.at_ft < 1e-9 || least.at_ft > line.length_ft - 1e-9);
    // The fill is 1 ft over the lid at the corner nearest to the road; on the axis of the square
    // end it is lower by setback over side slope.
    near("least, ft", least.cover_ft, 1 - 1.9951 / 2 - tilt_ft, 1e-4);
}

/* Hand: with level road and pipe, the bank crosses the 2:1 slope where 519.44 - (u - 20)/2 = 512 +
 * 0.1 (u - 20): u = 32.4. */
static void least_where_bank_and_slope_cross(void **state)
{
    (void)state;
    cw_run_road road = example_road();
    road.grade = 0;
    const cw_run_path path = example_path(0);
    const cw_run_ground_point points[] = {{20, 512}, {60, 516}};
    const cw_run_ground ground = {points, 2};
    const cw_run_line line = cw_run_line_of(&path, (cw_run_span){-10, 50, CW_RUN_CUT_SQUARE}, 0);
    const cw_run_over over = {.road = &road,
                              .ground = &ground,
                              .line = &line,
                              .grade = {.outlet_invert_ft = 500},
                              .box = {72, 10}};
    const cw_run_cover least = cw_run_least_cover(&over, 0, line.length_ft);
    near("at, ft", least.at_ft - 10, 20 + 7.44 / 0.6, 1e-9);
    near("cover, ft", least.cover_ft, 512 + 0.1 * 7.44 / 0.6 - 506 - 10 / CW_IN_PER_FT, 1e-9);
}

/* Level everywhere: all cover is the same and the first place is named. */
static void first_of_equals(void **state)
{
    (void)state;
    const cw_run_side side = {.strips = {{40, 0}}, .strip_count = 1, .side_slope = 2};
    const cw_run_road road = {.elevation_ft = 20, .outlet = side, .inlet = side};
    const cw_run_path path = example_path(0);
    const cw_run_line line = cw_run_line_of(&path, (cw_run_span){-30, 30, CW_RUN_CUT_SQUARE}, 0);
    const cw_run_over over = {.road = &road, .line = &line, .box = {72, 12}};
    near("least at, ft", cw_run_least_cover(&over, 5, 55).at_ft, 5, 0);
    near("most at, ft", cw_run_most_cover(&over, 5, 55).at_ft, 5, 0);
    near("cover, ft", cw_run_least_cover(&over, 5, 55).cover_ft, 13, 1e-12);
}

/* A barrel along the road's centre line lies under the crown all the way: 20 ft of height less 7 ft
 * of box. */
static void barrel_along_the_road(void **state)
{
    (void)state;
    const cw_run_side side = {.strips = {{40, 0.02}}, .strip_count = 1, .side_slope = 2};
    const cw_run_road road = {.elevation_ft = 20, .outlet = side, .inlet = side};
    const cw_run_path path = example_path(90);
    const cw_run_line line = cw_run_line_of(&path, (cw_run_span){-30, 30, CW_RUN_CUT_SQUARE}, 0);
    const cw_run_over over = {.road = &road, .line = &line, .box = {72, 12}};
    near("least, ft", cw_run_least_cover(&over, 0, 60).cover_ft, 13, 1e-9);
    near("most, ft", cw_run_most_cover(&over, 0, 60).cover_ft, 13, 1e-9);
}

enum { GROUND_POINTS = 12, STATIONS = 200 };

typedef struct drawn {
    cw_run_road road;
    cw_run_ground_point points[GROUND_POINTS];
    cw_run_ground ground;
    cw_run_line line;
    cw_run_over over;
} drawn;

static bool draw(uint64_t *seed, drawn *one)
{
    one->road = random_road(seed);
    const cw_run_path path = random_path(seed);
    double chain_ft = between(seed, -110, -60);
    for (int i = 0; i < GROUND_POINTS; i++) {
        one->points[i] =
            (cw_run_ground_point){chain_ft, one->road.elevation_ft + between(seed, -25, 3)};
        chain_ft += between(seed, 5, 25);
    }
    one->ground = (cw_run_ground){one->points, GROUND_POINTS};
    one->line =
        cw_run_line_of(&path, (cw_run_span){-95, 95, CW_RUN_CUT_SQUARE}, between(seed, -15, 15));
    one->over = (cw_run_over){
        .road = &one->road,
        .ground = between(seed, 0, 1) < 0.5 ? &one->ground : NULL,
        .line = &one->line,
        .grade = {.outlet_invert_ft = one->road.elevation_ft - 20, .slope = between(seed, 0, 0.1)},
        .box = {72, 10}};
    return one->line.status == CW_RUN_OK;
}

/* The smallest cosine between a straight of the barrel and the road's normal. */
static double least_crossing(const cw_run_line *line)
{
    double least = 1;
    for (int i = 0; i + 1 < line->count; i++)
        least =
            fmin(least,
                 fabs(cos(cw_run_line_at(line, line->points[i].at_ft).skew_deg * CW_RAD_PER_DEG)));
    return least;
}

/* 200 stations in each of 10,000 random roads, grounds and bends: none has less than the least or
 * more than the most. */
static void no_station_beats_the_extremes(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 20;
    int compared = 0;
    for (int i = 0; i < CASES; i++) {
        drawn one;
        if (!draw(&seed, &one))
            continue;
        compared++;
        const double from_ft = between(&seed, 0, 60), to_ft = from_ft + between(&seed, 0, 120);
        const cw_run_cover least = cw_run_least_cover(&one.over, from_ft, to_ft);
        const cw_run_cover most = cw_run_most_cover(&one.over, from_ft, to_ft);
        const double flattest = least_crossing(&one.line);
        assert_true(least.at_ft >= from_ft && least.at_ft <= to_ft);
        near("least is attained", cw_run_cover_at(&one.over, least.at_ft).cover_ft, least.cover_ft,
             0);
        for (int j = 0; j <= STATIONS; j++) {
            const double at_ft = from_ft + (to_ft - from_ft) * j / STATIONS;
            const double cover_ft = cw_run_cover_at(&one.over, at_ft).cover_ft;
            assert_true(least.cover_ft <= cover_ft + 2e-9);
            // Beside a step of the ground the most is tried 2e-5 ft away from it, square to the
            // road; ground of up to 28/5 ft per ft can be that much lower there.
            assert_true(most.cover_ft >= cover_ft - 2e-5 * 5.6 / flattest - 1e-5);
        }
    }
    assert_true(compared > CASES / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(template_by_hand),
        cmocka_unit_test(ground_by_hand),
        cmocka_unit_test(cover_of_the_skewed_example),
        cmocka_unit_test(least_where_bank_and_slope_cross),
        cmocka_unit_test(first_of_equals),
        cmocka_unit_test(barrel_along_the_road),
        cmocka_unit_test(no_station_beats_the_extremes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
