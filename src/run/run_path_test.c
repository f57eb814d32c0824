/* Centre line, barrels, joints and their coordinates. */
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

static const double outlet_ft = 37.8605, inlet_ft = 37.0837;

/* Hand: road azimuth 75, inlet right, skew 20: d = 145.  N = 2000 + s cos 145, E = 1000 + s sin
 * 145, and for the outer barrels 11.9167 ft along azimuth 235. */
static void three_barrel_stake_out(void **state)
{
    (void)state;
    const cw_run_path path = example_path(20);
    near("azimuth, deg", path.frame.azimuth_deg, 145, 1e-12);
    const cw_run_span span = {-outlet_ft, inlet_ft, CW_RUN_CUT_SQUARE};
    static const double outlets[3][2] = {
        {2037.849, 988.046}, {2031.013, 978.284}, {2024.178, 968.523}};
    for (int k = 0; k < 3; k++) {
        const cw_run_line line =
            cw_run_line_of(&path, span, cw_run_barrel_offset_ft(k, 3, 11.9167));
        assert_int_equal(line.status, CW_RUN_OK);
        near("length, ft", line.length_ft, outlet_ft + inlet_ft, 1e-9);
        near("outlet N, ft", cw_run_line_at(&line, 0).northing_ft, outlets[k][0], 6e-4);
        near("outlet E, ft", cw_run_line_at(&line, 0).easting_ft, outlets[k][1], 6e-4);
    }
    const cw_run_line middle = cw_run_line_of(&path, span, 0);
    const cw_run_place inlet = cw_run_line_at(&middle, middle.length_ft);
    near("inlet N, ft", inlet.northing_ft, 1969.623, 6e-4);
    near("inlet E, ft", inlet.easting_ft, 1021.270, 6e-4);
    near("inlet chain, ft", inlet.chain_ft, inlet_ft, 1e-12);
}

static void azimuths_by_hand(void **state)
{
    (void)state;
    // The inlet lies up-station for positive skew, so it leans toward the road's azimuth on either
    // side.
    near("right", cw_run_azimuth_deg(0, 30, CW_RUN_INLET_RIGHT), 60, 0);
    near("left", cw_run_azimuth_deg(0, 30, CW_RUN_INLET_LEFT), 300, 0);
    near("right, past north", cw_run_azimuth_deg(300, -10, CW_RUN_INLET_RIGHT), 40, 1e-12);
    near("left, north", cw_run_azimuth_deg(90, 0, CW_RUN_INLET_LEFT), 0, 0);
}

/* Hand: y tan 20 = 11.9167 x 0.363970 = 4.33732 ft; with the inlet on the right the right barrel
 * starts that much downstream. */
static void faces_along_the_road_line_up(void **state)
{
    (void)state;
    const cw_run_path path = example_path(20);
    const cw_run_span span = {-35.7151, 34.9823, CW_RUN_CUT_ROAD};
    const cw_run_line middle = cw_run_line_of(&path, span, 0);
    const cw_run_line right = cw_run_line_of(&path, span, 11.9167);
    near("length, ft", right.length_ft, middle.length_ft, 1e-9);
    near("outlet faces, u ft", cw_run_line_at(&right, 0).u_ft, cw_run_line_at(&middle, 0).u_ft,
         1e-9);
    near("inlet faces, u ft", cw_run_line_at(&right, right.length_ft).u_ft,
         cw_run_line_at(&middle, middle.length_ft).u_ft, 1e-9);
    const cw_run_place square = cw_run_beside(&middle, 0, 11.9167);
    const cw_run_place face = cw_run_line_at(&right, 0);
    near("shift, ft",
         hypot(face.northing_ft - square.northing_ft, face.easting_ft - square.easting_ft), 4.33732,
         5e-6);
    assert_true(face.u_ft < square.u_ft);
}

/* Hand: grade example, S 1.25 %, 6 ft pieces, 1/2 in gap, outlet 512.34: advance 6.041195, joint 10
 * at 60.4119, z 513.0951; 16 in of floor and bed under it: 511.7617. */
static void joints_on_grade(void **state)
{
    (void)state;
    const cw_run_path path = example_path(0);
    const cw_run_line line = cw_run_line_of(&path, (cw_run_span){0, 120, CW_RUN_CUT_SQUARE}, 0);
    const cw_run_grade grade = {512.34, 0.0125, 0};
    const double first_in = cw_run_equal_joint_in(1, 72, 0.5);
    near("advance, ft", cw_run_joint_at(&line, &grade, first_in).at_ft, 6.041195, 5e-7);
    const cw_run_joint tenth = cw_run_joint_at(&line, &grade, cw_run_equal_joint_in(10, 72, 0.5));
    near("joint 10, ft", tenth.at_ft, 60.4119, 6e-5);
    near("invert", tenth.invert_ft, 513.0951, 6e-5);
    near("subgrade", cw_run_under_invert_ft(tenth.invert_ft, 0.0125, 16), 511.7617, 6e-5);
    const cw_run_grade low = {512.34, 0.0125, 6};
    near("drop, ft", tenth.invert_ft - cw_run_joint_at(&line, &low, tenth.slope_in).invert_ft, 0.5,
         1e-9);
}

/* Hand: sqrt(1 + 0.01) = 1.00498756. */
static void slope_lengths(void **state)
{
    (void)state;
    near("per 100 ft of plan", 100 * cw_run_slope_factor(0.10), 100.4988, 5e-5);
    near("plan per 100 ft laid", 100 / cw_run_slope_factor(0.10), 99.5037, 5e-5);
    near("no slope", cw_run_slope_factor(0), 1, 0);
}

/* 1200/3937 m against 0.3048 m, both exact by definition (85 FR 62698): 2 ppm. */
static void survey_foot(void **state)
{
    (void)state;
    near("2,000,000 US survey ft, ft", 2e6 * CW_M_PER_USFT / CW_M_PER_FT - 2e6, 4.000, 5e-4);
}

/* Hand: turn right 90 at 10 ft; at 30 ft the point is 10 forward and 20 right; barrel 4 ft right is
 * 8 ft shorter. */
static void right_angle_by_hand(void **state)
{
    (void)state;
    cw_run_path path = {.bends = {{10, 90}}, .bend_count = 1};
    path.frame.inlet = CW_RUN_INLET_RIGHT;
    const cw_run_place end = cw_run_path_at(&path, 30);
    near("N, ft", end.northing_ft, 10, 1e-12);
    near("E, ft", end.easting_ft, 20, 1e-12);
    near("azimuth, deg", end.azimuth_deg, 90, 1e-12);
    const cw_run_span span = {-15, 30, CW_RUN_CUT_SQUARE};
    const cw_run_line inner = cw_run_line_of(&path, span, 4),
                      outer = cw_run_line_of(&path, span, -4);
    near("inner, ft", inner.length_ft, 45 - 8, 1e-12);
    near("outer, ft", outer.length_ft, 45 + 8, 1e-12);
    near("inner corner N, ft", cw_run_line_at(&inner, 21).northing_ft, 6, 1e-12);
    near("inner corner E, ft", cw_run_line_at(&inner, 21).easting_ft, 4, 1e-12);
    near("inner end E, ft", cw_run_line_at(&inner, 37).easting_ft, 20, 1e-12);
    near("inner end N, ft", cw_run_line_at(&inner, 37).northing_ft, 6, 1e-12);
}

static void refused_lines(void **state)
{
    (void)state;
    cw_run_path path = {.bends = {{0, 40}, {10, 40}}, .bend_count = 2};
    path.frame.inlet = CW_RUN_INLET_RIGHT;
    const cw_run_span span = {-50, 50, CW_RUN_CUT_SQUARE};
    // The straight of 10 ft loses y tan 20 at both ends: gone at y = 10/(2 tan 20) = 13.737 ft.
    assert_int_equal(cw_run_line_of(&path, span, 13.73).status, CW_RUN_OK);
    assert_int_equal(cw_run_line_of(&path, span, 13.74).status, CW_RUN_FOLDED);
    assert_int_equal(cw_run_line_of(&path, span, -13.74).status, CW_RUN_OK);

    path.bends[1].chain_ft = 50;
    assert_int_equal(cw_run_line_of(&path, span, 0).status, CW_RUN_BEND_OUTSIDE);
    path.bends[1].chain_ft = -1;
    assert_int_equal(cw_run_line_of(&path, span, 0).status, CW_RUN_BEND_OUTSIDE);
    path.bends[0].chain_ft = -50;
    path.bend_count = 1;
    assert_int_equal(cw_run_line_of(&path, span, 0).status, CW_RUN_BEND_OUTSIDE);

    path.bend_count = 0;
    assert_int_equal(cw_run_line_of(&path, (cw_run_span){5, 5, CW_RUN_CUT_SQUARE}, 0).status,
                     CW_RUN_NO_LENGTH);
    path.frame.skew_deg = 86;
    assert_int_equal(cw_run_line_of(&path, (cw_run_span){-50, 50, CW_RUN_CUT_ROAD}, 3).status,
                     CW_RUN_PARALLEL);
    path.frame.skew_deg = 70;
    // A road cut moves the faces of a far barrel alike, so the length stays and nothing folds.
    near("length, ft", cw_run_line_of(&path, (cw_run_span){-50, 50, CW_RUN_CUT_ROAD}, 30).length_ft,
         100, 1e-9);
}

/* Lengths of the parallels: closed form, sum of the straights between coordinates, and summed small
 * chords. */
static void parallels_are_as_long_as_measured(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 10;
    int laid = 0;
    for (int i = 0; i < CASES; i++) {
        const cw_run_path path = random_path(&seed);
        const cw_run_span span = {-95, 95, CW_RUN_CUT_SQUARE};
        const double y_ft = between(&seed, -40, 40);
        const cw_run_line line = cw_run_line_of(&path, span, y_ft);
        if (line.status == CW_RUN_FOLDED)
            continue;
        assert_int_equal(line.status, CW_RUN_OK);
        laid++;
        double closed_ft = 190;
        for (int j = 0; j < path.bend_count; j++)
            closed_ft -= 2 * y_ft * tan(path.bends[j].turn_deg / 2 * CW_RAD_PER_DEG);
        near("closed form, ft", line.length_ft, closed_ft, 1e-9);
        double summed_ft = 0, measured_ft = 0;
        cw_run_place before = cw_run_line_at(&line, 0);
        for (int j = 1; j < line.count; j++) {
            summed_ft += line.points[j].at_ft - line.points[j - 1].at_ft;
            const cw_run_place here = cw_run_line_at(&line, line.points[j].at_ft);
            measured_ft +=
                hypot(here.northing_ft - before.northing_ft, here.easting_ft - before.easting_ft);
            before = here;
        }
        near("summed, ft", summed_ft, closed_ft, 1e-9);
        near("measured, ft", measured_ft, closed_ft,
             1e-7); // coordinates of millions of ft keep 1e-9 ft
    }
    assert_true(laid > CASES / 2);
}

/* Every straight of the parallel lies at its offset from the same straight of the centre line. */
static void parallels_keep_their_offset(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 11;
    for (int i = 0; i < CASES; i++) {
        const cw_run_path path = random_path(&seed);
        const double y_ft = between(&seed, -15, 15);
        const cw_run_cut cut = path.bend_count == 0 ? CW_RUN_CUT_ROAD : CW_RUN_CUT_SQUARE;
        const cw_run_line line = cw_run_line_of(&path, (cw_run_span){-95, 95, cut}, y_ft);
        if (line.status != CW_RUN_OK)
            continue;
        for (int j = 0; j + 1 < line.count; j++) {
            const double middle_ft = (line.points[j].at_ft + line.points[j + 1].at_ft) / 2;
            const cw_run_place on = cw_run_line_at(&line, middle_ft);
            const cw_run_place centre =
                cw_run_path_at(&path, (line.points[j].chain_ft + line.points[j + 1].chain_ft) / 2);
            const double azimuth = centre.azimuth_deg * CW_RAD_PER_DEG;
            near("azimuth, deg", remainder(on.azimuth_deg - centre.azimuth_deg, 360), 0, 1e-9);
            const double dn = on.northing_ft - centre.northing_ft,
                         de = on.easting_ft - centre.easting_ft;
            near("offset, ft", de * cos(azimuth) - dn * sin(azimuth), y_ft, 1e-7);
        }
    }
}

static cw_run_path mirrored(cw_run_path path)
{
    path.frame.azimuth_deg = -path.frame.azimuth_deg;
    path.frame.easting_ft = -path.frame.easting_ft;
    path.frame.inlet =
        path.frame.inlet == CW_RUN_INLET_LEFT ? CW_RUN_INLET_RIGHT : CW_RUN_INLET_LEFT;
    for (int i = 0; i < path.bend_count; i++)
        path.bends[i].turn_deg = -path.bends[i].turn_deg;
    return path;
}

/* The image in a north-south mirror: inlet on the other side, turns and offsets reversed. */
static void mirror_image(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 12;
    for (int i = 0; i < CASES; i++) {
        const cw_run_path path = random_path(&seed);
        const cw_run_path image = mirrored(path);
        const double y_ft = between(&seed, -15, 15), at_ft = between(&seed, -10, 200);
        const cw_run_cut cut = between(&seed, 0, 1) < 0.5 ? CW_RUN_CUT_SQUARE : CW_RUN_CUT_ROAD;
        const cw_run_line one = cw_run_line_of(&path, (cw_run_span){-95, 95, cut}, y_ft);
        const cw_run_line two = cw_run_line_of(&image, (cw_run_span){-95, 95, cut}, -y_ft);
        assert_int_equal(one.status, two.status);
        if (one.status != CW_RUN_OK)
            continue;
        const cw_run_place a = cw_run_line_at(&one, at_ft), b = cw_run_line_at(&two, at_ft);
        near("N, ft", b.northing_ft, a.northing_ft, 1e-7);
        near("E, ft", b.easting_ft, -a.easting_ft, 1e-7);
        near("u, ft", b.u_ft, a.u_ft, 1e-9);
        near("a, ft", b.a_ft, a.a_ft, 1e-9);
        near("azimuth, deg", remainder(a.azimuth_deg + b.azimuth_deg, 360), 0, 1e-9);
    }
}

/* From coordinates back to (u, a) by the road's azimuth, and back to the distance along the barrel.
 */
static void round_trip_of_coordinates(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 13;
    for (int i = 0; i < CASES; i++) {
        cw_run_path path = random_path(&seed);
        const double road_deg = between(&seed, 0, 360);
        path.frame.azimuth_deg =
            cw_run_azimuth_deg(road_deg, path.frame.skew_deg, path.frame.inlet);
        const cw_run_line line =
            cw_run_line_of(&path, (cw_run_span){-95, 95, CW_RUN_CUT_SQUARE}, 6);
        if (line.status != CW_RUN_OK)
            continue;
        const double at_ft = between(&seed, 0, line.length_ft);
        const cw_run_place place = cw_run_line_at(&line, at_ft);

        const double road = road_deg * CW_RAD_PER_DEG;
        const double dn = place.northing_ft - path.frame.northing_ft;
        const double de = place.easting_ft - path.frame.easting_ft;
        const double inlet_sign = path.frame.inlet == CW_RUN_INLET_RIGHT ? 1 : -1;
        near("a, ft", dn * cos(road) + de * sin(road), place.a_ft, 1e-7);
        near("u, ft", inlet_sign * (de * cos(road) - dn * sin(road)), place.u_ft, 1e-7);
        near("skew, deg",
             remainder(cw_run_azimuth_deg(road_deg, place.skew_deg, path.frame.inlet) -
                           place.azimuth_deg,
                       360),
             0, 1e-9);

        int leg = 0;
        while (leg + 2 < line.count && line.points[leg + 1].at_ft <= at_ft)
            leg++;
        const cw_run_place start = cw_run_line_at(&line, line.points[leg].at_ft);
        const double azimuth = place.azimuth_deg * CW_RAD_PER_DEG;
        const double back_ft = (place.northing_ft - start.northing_ft) * cos(azimuth) +
                               (place.easting_ft - start.easting_ft) * sin(azimuth);
        near("distance, ft", line.points[leg].at_ft + back_ft, at_ft, 1e-7);
    }
}

/* The centre line and the parallel at offset 0 are the same points. */
static void centre_line_is_the_parallel_at_zero(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 14;
    for (int i = 0; i < CASES; i++) {
        const cw_run_path path = random_path(&seed);
        const cw_run_line line =
            cw_run_line_of(&path, (cw_run_span){-95, 95, CW_RUN_CUT_SQUARE}, 0);
        const double chain_ft = between(&seed, -110, 110);
        const cw_run_place a = cw_run_path_at(&path, chain_ft),
                           b = cw_run_line_at(&line, chain_ft + 95);
        near("N, ft", b.northing_ft, a.northing_ft, 1e-7);
        near("E, ft", b.easting_ft, a.easting_ft, 1e-7);
        near("chain, ft", b.chain_ft, chain_ft, 1e-9);
        near("u, ft", b.u_ft, a.u_ft, 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_barrel_stake_out),
        cmocka_unit_test(azimuths_by_hand),
        cmocka_unit_test(faces_along_the_road_line_up),
        cmocka_unit_test(joints_on_grade),
        cmocka_unit_test(slope_lengths),
        cmocka_unit_test(survey_foot),
        cmocka_unit_test(right_angle_by_hand),
        cmocka_unit_test(refused_lines),
        cmocka_unit_test(parallels_are_as_long_as_measured),
        cmocka_unit_test(parallels_keep_their_offset),
        cmocka_unit_test(mirror_image),
        cmocka_unit_test(round_trip_of_coordinates),
        cmocka_unit_test(centre_line_is_the_parallel_at_zero),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
