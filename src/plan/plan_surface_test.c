/* The cut of a plan in the ground's triangles: place, direction, bends and feet of the survey. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#include "cw/ground.h"
#include "cw/plan.h"
#include "cw/units.h"

static void near(const char *what, double got, double want, double tolerance)
{
    if (!(fabs(got - want) <= tolerance))
        fail_msg("%s: got %.10g, want %.10g within %.2g", what, got, want, tolerance);
}

/* The plane z = 500 + 0.02 N + 0.01 E over a square of 600 ft around a place. */
static void lay_plane(cw_survey_point points[4], double north_ft, double east_ft)
{
    static const double corner[4][2] = {{-300, -300}, {300, -300}, {300, 300}, {-300, 300}};
    for (int i = 0; i < 4; i++)
        points[i] = (cw_survey_point){north_ft + corner[i][0], east_ft + corner[i][1],
                                      500 + 0.02 * corner[i][0] + 0.01 * corner[i][1], "", "", i};
}

static const int square[2][3] = {{0, 1, 2}, {0, 2, 3}};

static cw_plan_surface_input some_cut(double length_ft)
{
    const cw_trench_layer layer = {1, CW_SOIL_B};
    const double slope = 1;
    return (cw_plan_surface_input){.outlet_chain_ft = -40,
                                   .inlet_chain_ft = length_ft - 40,
                                   .subgrade_ft = 490,
                                   .grade = 0.01,
                                   .shape = cw_trench_sloped(16, &layer, &slope, 1),
                                   .step_ft = 10};
}

/* Hand: under a plane that rises g along the run and s across it, the section at depth D has z h^2/(1 - z^2
 * s^2) - b^2/(4 z), h = D + b/(2 z); a quadratic of the distance, so Simpson's rule is exact. */
static double by_hand(double azimuth_deg, double outlet_ground_ft, double length_ft)
{
    const double a = azimuth_deg * CW_RAD_PER_DEG;
    const double along = 0.02 * cos(a) + 0.01 * sin(a), across = 0.01 * cos(a) - 0.02 * sin(a);
    double area[3];
    for (int i = 0; i < 3; i++) {
        const double depth = outlet_ground_ft - 490 + (along - 0.01) * length_ft * i / 2, h = depth + 8;
        area[i] = h * h / (1 - across * across) - 64;
    }
    return length_ft * (area[0] + 4 * area[1] + area[2]) / 6;
}

static void straight_run_lies_where_the_plan_puts_it(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_survey_point points[4];
    // The crossing in US survey feet; the surface is in international feet, 4 ft on.
    const double scale = 1200.0 / 3937.0 / 0.3048, north = 2000000, east = 600000;
    lay_plane(points, north * scale, east * scale);
    const cw_ground_mesh mesh = {points, 4, square, 2};
    const cw_job job = {.ground = {.mesh = &mesh, .mesh_scale = scale}};
    const cw_run_path path = {.frame = {.northing_ft = north, .easting_ft = east, .azimuth_deg = 70}};
    const cw_plan_surface_input in = some_cut(100);
    const cw_plan_surface got = cw_plan_surface_of(&job, &path, &in, &arena);
    assert_true(got.present && got.known && got.has_average);
    const double a = 70 * CW_RAD_PER_DEG;
    const double want = by_hand(70, 500 - 40 * (0.02 * cos(a) + 0.01 * sin(a)), 100);
    near("volume", got.dug.cut_cuft, want, 0.05);
    // Sections every 10 ft: z L (D1 - D2)^2/6 too much in each, closed form but for the lean across.
    const double fall = 10 * (0.02 * cos(a) + 0.01 * sin(a) - 0.01);
    near("average end area", got.average_cuft - want, 10 * 10 * fall * fall / 6, 0.05);
    near("on the plane", got.dug.edge[0].elevation_ft,
         500 + 0.02 * (got.dug.edge[0].north_ft + got.origin_northing_ft - north * scale) +
             0.01 * (got.dug.edge[0].east_ft + got.origin_easting_ft - east * scale), 1e-6);
    cw_arena_release(&arena);
}

/* Level ground: a bend keeps the area times the length of the centre line, and so do zones of backfill. */
static void bends_and_backfill_follow_the_path(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_survey_point points[4];
    lay_plane(points, 5000, 7000);
    for (int i = 0; i < 4; i++)
        points[i].elevation_ft = 500;
    const cw_ground_mesh mesh = {points, 4, square, 2};
    const cw_job job = {.ground = {.mesh = &mesh, .mesh_scale = 1}};
    const cw_run_path path = {.frame = {.northing_ft = 5000, .easting_ft = 7000, .azimuth_deg = 200},
                              .bends = {{-10, -20}, {35, 15}},
                              .bend_count = 2};
    cw_plan_surface_input in = some_cut(120);
    in.grade = 0;
    in.end_slopes[0] = in.end_slopes[1] = 1;
    in.has_fill = true;
    in.fill = (cw_earthwork_fill_input){.boxes = {1, 10, 0, 7, 1, -40, 80},
                                        .bedding_ft = 1,
                                        .pipe_zone_ft = 9,
                                        .top_ft = 20,
                                        .lift_ft = 0.5};
    const cw_plan_surface got = cw_plan_surface_of(&job, &path, &in, &arena);
    assert_true(got.known && got.has_fill);
    near("run", got.dug.run_cuft, 120 * (16 * 10 + 100), 1e-6);
    near("end", got.dug.ends_cuft[1], cw_trench_end_cuft(16, 1, 1, 10), 1e-6);
    near("box", got.fill.boxes_cuft, 10 * 7 * 120, 1e-6);
    near("bedding", got.fill.bedding_cuft, 120 * 17, 1e-6);
    near("pipe zone", got.fill.pipe_zone_cuft, 120 * (16 * 8 + 80 - 70), 1e-6);
    near("final", got.fill.final_cuft, 120 * (16 + 19), 1e-6);
    cw_arena_release(&arena);
}

static void missing_ground_gives_the_reason_and_the_place(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_survey_point points[4];
    lay_plane(points, 5000, 7000);
    const cw_ground_mesh mesh = {points, 4, square, 2};
    cw_job job = {.ground = {.mesh = &mesh, .mesh_scale = 1}};
    const cw_run_path path = {.frame = {.northing_ft = 5000, .easting_ft = 7000}};
    const cw_plan_surface_input in = some_cut(400);
    const cw_plan_surface got = cw_plan_surface_of(&job, &path, &in, &arena);
    assert_true(got.present && !got.known);
    assert_string_equal(got.why,
                        "part of the bottom of the cut has no ground; measure there (N 5300.0, E 7000.0)");
    job.ground.mesh = NULL;
    assert_false(cw_plan_surface_of(&job, &path, &in, &arena).present);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(straight_run_lies_where_the_plan_puts_it),
        cmocka_unit_test(bends_and_backfill_follow_the_path),
        cmocka_unit_test(missing_ground_gives_the_reason_and_the_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
