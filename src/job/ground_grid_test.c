/* The ground along the centre line from an ASCII grid: reading, heights, sections and faults. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cw/ground.h"
#include "cw/text.h"

static const cw_pos here = {"points.txt", "ground.file", 0, 0};

static void check_near(double value, double wanted, double within, const char *what)
{
    if (!(fabs(value - wanted) <= within)) {
        print_error("%s: %.9f is not within %g of %.9f\n", what, value, within, wanted);
        fail();
    }
}

/* A straight line. */
static cw_ground_line straight(double northing_ft, double easting_ft, double azimuth_deg,
                               double from_ft, double to_ft)
{
    return (cw_ground_line){.legs = {{northing_ft, easting_ft, azimuth_deg, from_ft, to_ft}},
                            .leg_count = 1};
}

static void expect_line(const cw_diags *diags, int index, const char *wanted)
{
    if (index >= diags->count ||
        !cw_text_same(cw_diag_line(diags->arena, &diags->items[index]), wanted)) {
        for (int i = 0; i < diags->count; i++)
            print_error("got: %s\n", cw_diag_line(diags->arena, &diags->items[i]));
        print_error("wanted: %s\n", wanted);
        fail();
    }
}

/* Hand check: nodes z = 10 (south-west), 12 (south-east), 14 (north-west), 20 (north-east), 10 ft
 * cells with corner origin, so nodes at 5 and 15.  Middle: (10 + 12 + 14 + 20) / 4 = 14.  At E 5 N
 * 10: 12.  At E 7.5 N 15: 14 + 6 / 4 = 15.5. */
static void grid_heights_are_bilinear_between_cell_centres(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_ground_grid *grid = cw_ground_grid_parse(
        "NCOLS 2\r\nNROWS 2\r\nXLLCORNER 0\r\nYLLCORNER 0\r\nCELLSIZE 10\r\n14 20\r\n10 12\r\n",
        false, here, &arena, &diags);
    assert_non_null(grid);
    double z_ft = 0.0;
    assert_true(cw_ground_grid_height(grid, 10, 10, &z_ft));
    check_near(z_ft, 14, 1e-9, "middle, ft");
    assert_true(cw_ground_grid_height(grid, 10, 5, &z_ft));
    check_near(z_ft, 12, 1e-9, "west side, ft");
    assert_true(cw_ground_grid_height(grid, 15, 7.5, &z_ft));
    check_near(z_ft, 15.5, 1e-9, "north side, ft");
    assert_false(cw_ground_grid_height(grid, 16, 10, &z_ft));
    cw_arena_release(&arena);
}

/* Metres: 1 m cells, 3 x 3, height 100 m at the south and 102 m at the north; in feet x 1/0.3048.
 * Up the middle, 2 m long. */
static void grid_in_metres_is_cut_in_feet(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const char *text =
        "ncols 3\nnrows 3\nxllcenter 50\nyllcenter 70\ncellsize 1\nNODATA_value -9999\n"
        "102 102 102\n101 101 101\n100 100 100\n";
    const cw_ground_grid *grid = cw_ground_grid_parse(text, true, here, &arena, &diags);
    assert_non_null(grid);
    cw_ground_line line = straight(70 / 0.3048, 51 / 0.3048, 0, 0, 2 / 0.3048);
    line.must_cover = true;
    const cw_ground_profile profile = cw_ground_cut_grid(grid, &line, here, &arena, &diags);
    assert_int_equal(diags.count, 0);
    assert_true(profile.count >= 3);
    check_near(profile.points[0].elevation_ft, 100 / 0.3048, 1e-6, "south, ft");
    check_near(profile.points[profile.count - 1].elevation_ft, 102 / 0.3048, 1e-6, "north, ft");
    check_near(profile.points[profile.count - 1].at_ft, 2 / 0.3048, 1e-6, "north, ft");
    cw_arena_release(&arena);
}

static void unknown_cells_are_gaps(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const char *text = "ncols 5\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 10\nnodata_value 0\n"
                       "7 7 0 7 7\n7 7 7 7 7\n";
    const cw_ground_grid *grid = cw_ground_grid_parse(text, false, here, &arena, &diags);
    assert_non_null(grid);
    const cw_ground_line line = straight(5, 0, 90, 0, 40);
    assert_int_equal(cw_ground_cut_grid(grid, &line, here, &arena, &diags).count, 0);
    expect_line(&diags, 0,
                "points.txt: error 106: no ground from 10.00 to 30.00 ft along the centre line (0 "
                "at the crossing "
                "point, positive toward the inlet); measure points there");
    cw_arena_release(&arena);
}

/* z = x y over the cell (twist 1): along the diagonal z is a parabola whose chord over a quarter is
 * off by at most (1/4)^2 / 4 = 1/64 of the twist. */
static void grid_section_follows_the_twist(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_ground_grid *grid =
        cw_ground_grid_parse("ncols 2\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 1\n0 1\n0 0\n",
                             false, here, &arena, &diags);
    assert_non_null(grid);
    const cw_ground_line line = straight(0, 0, 45, 0, sqrt(2));
    const cw_ground_profile profile = cw_ground_cut_grid(grid, &line, here, &arena, &diags);
    assert_int_equal(profile.count, 5);
    for (int i = 1; i < profile.count; i++) {
        const double middle = (profile.points[i - 1].at_ft + profile.points[i].at_ft) / 2 / sqrt(2);
        const double chord =
            (profile.points[i - 1].elevation_ft + profile.points[i].elevation_ft) / 2;
        check_near(chord, middle * middle, 1.0 / 64 + 1e-9, "chord, ft");
    }
    cw_arena_release(&arena);
}

/* More breaks than are kept: a sine wave of 4 ft over a 1 ft grid; what is left out stays within
 * the stated height. */
static void long_profiles_are_thinned_within_their_tolerance(void **state)
{
    (void)state;
    enum { COLUMNS = 500 };
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_text text = cw_text_on(&arena);
    cw_text_print(&text, "ncols %d\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 1\n", COLUMNS);
    for (int i = 0; i < 2 * COLUMNS; i++)
        cw_text_print(&text, "%.9f ", 100 + 4 * sin((i % COLUMNS) / 20.0));
    const cw_ground_grid *grid =
        cw_ground_grid_parse(cw_text_string(&text), false, here, &arena, &diags);
    assert_non_null(grid);
    const cw_ground_line line = straight(0.5, 0, 90, 0, COLUMNS - 1);
    const cw_ground_profile profile = cw_ground_cut_grid(grid, &line, here, &arena, &diags);
    assert_true(profile.count > 10 && profile.count <= CW_GROUND_MAX);
    assert_true(profile.thinned_ft > 0 && profile.thinned_ft < 0.1);
    for (int i = 0, k = 1; i < COLUMNS; i++) {
        while (profile.points[k].at_ft < i)
            k++;
        const cw_ground_point *a = &profile.points[k - 1], *b = &profile.points[k];
        const double z_ft = a->elevation_ft + (b->elevation_ft - a->elevation_ft) * (i - a->at_ft) /
                                                  (b->at_ft - a->at_ft);
        check_near(z_ft, 100 + 4 * sin(i / 20.0), profile.thinned_ft + 1e-6, "thinned, ft");
    }
    cw_arena_release(&arena);
}

static void bad_grids_are_named(void **state)
{
    (void)state;
    static const struct {
        const char *text, *wanted;
    } cases[] = {
        {"1,2,3,4\n", "points.txt:1:1: error 106: the grid's heading lacks ncols; an .asc grid "
                      "starts with ncols, nrows, "
                      "xllcorner, yllcorner, cellsize"},
        {"ncols 2\nnrows two\n",
         "points.txt:2:1: error 105: heading value 'two' is not a number; write it as 1234.5"},
        {"ncols 1\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n",
         "points.txt:5:1: error 103: a grid of 1 columns and 2 rows is outside 2 by 2 to 4000000 "
         "cells; cut it down to "
         "the crossing"},
        {"ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 0\n1 2 3 4\n",
         "points.txt:5:1: error 103: a cell of 0 ft is outside 0.01 to 1000 ft; check cellsize and "
         "ground.grid_unit"},
        {"ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3\n",
         "points.txt:8:1: error 106: the grid ends after 3 of 4 heights; copy the whole file "
         "again"},
        {"ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3 4 5\n",
         "points.txt:7:1: error 110: the grid goes on after its 4 heights; check ncols and nrows"},
        {"ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3 x\n",
         "points.txt:7:1: error 105: height 'x' is not a number; write it as 1234.5"},
        {"ncols 2\nnrows 2\nxllcorner 0\nyllcorner 0\ncellsize 1\n1 2\n3 -9999\n",
         "points.txt:7:1: error 103: height -9999.00 ft is outside -1500 to 30000 ft; name its "
         "NODATA_value in the "
         "heading, or check ground.grid_unit"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        assert_null(cw_ground_grid_parse(cases[i].text, false, here, &arena, &diags));
        assert_int_equal(diags.count, 1);
        expect_line(&diags, 0, cases[i].wanted);
        cw_arena_release(&arena);
    }
}

/* A saw of 10 ft teeth every foot: 800 breaks, none of which may go. */
static void profile_of_too_many_breaks_is_named(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_text text = cw_text_on(&arena);
    cw_text_add(&text, "ncols 800\nnrows 2\nxllcenter 0\nyllcenter 0\ncellsize 1\n");
    for (int i = 0; i < 1600; i++)
        cw_text_print(&text, "%d ", i % 2 ? 110 : 100);
    const cw_ground_grid *grid =
        cw_ground_grid_parse(cw_text_string(&text), false, here, &arena, &diags);
    assert_non_null(grid);
    const cw_ground_line line = straight(0.5, 0, 90, 0, 799);
    assert_int_equal(cw_ground_cut_grid(grid, &line, here, &arena, &diags).count, 0);
    expect_line(&diags, 0,
                "points.txt: error 110: the ground line has more than 400 breaks even when 1 ft of "
                "height is ignored; "
                "use a smoother surface");
    cw_arena_release(&arena);
}

/* Definition of the bilinear square: over a whole square its volume is the area times the mean of the four heights.  One
 * unknown node takes four squares out. */
static void triangles_of_a_grid_hold_its_volume(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    enum { SIDE = 5 };
    double heights[SIDE * SIDE], mean = 0.0;
    bool known[SIDE * SIDE];
    for (int i = 0; i < SIDE * SIDE; i++) {
        heights[i] = (i * 7) % 11;
        known[i] = true;
    }
    cw_ground_grid grid = {SIDE, SIDE, 100, 200, 10, heights, known};
    for (int r = 0; r + 1 < SIDE; r++)
        for (int c = 0; c + 1 < SIDE; c++)
            mean += 100 * (heights[r * SIDE + c] + heights[r * SIDE + c + 1] + heights[(r + 1) * SIDE + c] +
                           heights[(r + 1) * SIDE + c + 1]) / 4;
    const cw_ground_line line = straight(220, 120, 0, 0, 10);
    const cw_ground_mesh *mesh = cw_ground_grid_mesh(&grid, &line, &arena);
    assert_int_equal(mesh->face_count, 64);
    double volume = 0.0;
    for (int f = 0; f < mesh->face_count; f++) {
        const cw_survey_point *a = &mesh->points[mesh->faces[f][0]], *b = &mesh->points[mesh->faces[f][1]];
        const cw_survey_point *c = &mesh->points[mesh->faces[f][2]];
        const double twice = (b->easting_ft - a->easting_ft) * (c->northing_ft - a->northing_ft) -
                             (b->northing_ft - a->northing_ft) * (c->easting_ft - a->easting_ft);
        assert_true(twice > 0.0);
        volume += twice / 2 * (a->elevation_ft + b->elevation_ft + c->elevation_ft) / 3;
    }
    check_near(volume, mean, 1e-6, "volume, ft3");
    // The north-west node of the file is row 0, column 0.
    double z_ft = 0.0;
    assert_true(cw_ground_mesh_height(mesh, 240, 100, &z_ft));
    check_near(z_ft, heights[0], 1e-9, "north-west node, ft");
    known[12] = false;
    assert_int_equal(cw_ground_grid_mesh(&grid, &line, &arena)->face_count, 48);
    const cw_ground_line away = straight(9000, 9000, 0, 0, 10);
    assert_null(cw_ground_grid_mesh(&grid, &away, &arena));
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(grid_heights_are_bilinear_between_cell_centres),
        cmocka_unit_test(grid_in_metres_is_cut_in_feet),
        cmocka_unit_test(unknown_cells_are_gaps),
        cmocka_unit_test(grid_section_follows_the_twist),
        cmocka_unit_test(long_profiles_are_thinned_within_their_tolerance),
        cmocka_unit_test(bad_grids_are_named),
        cmocka_unit_test(profile_of_too_many_breaks_is_named),
        cmocka_unit_test(triangles_of_a_grid_hold_its_volume),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
