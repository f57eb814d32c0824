/* The ground along the centre line: points, triangles, sections, gaps and faults. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cw/ground.h"
#include "cw/text.h"
#include "cw/units.h"

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

/* ---- numbers ---- */

/* The nearest double, as the library's strtod gives it: 20,000 decimals of up to 18 digits, seed 9. */
static void coordinates_are_the_nearest_double(void **state)
{
    (void)state;
    enum { ROUNDS = 20000, DIGITS = 18 };
    uint64_t seed = 9;
    for (int round = 0; round < ROUNDS; round++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        char number[DIGITS + 3] = "-", text[64];
        int length = round % 2;
        const int digits = 1 + (int)((seed >> 33) % DIGITS), point = (int)((seed >> 40) % DIGITS);
        for (int i = 0; i < digits; i++) {
            if (i == point)
                number[length++] = '.';
            seed = seed * 6364136223846793005ull + 1442695040888963407ull; // Knuth's MMIX
            number[length++] = (char)('0' + (seed >> 40) % 10);
        }
        number[length] = '\0';
        if (fabs(strtod(number, NULL)) > CW_GROUND_COORD_MAX_FT)
            continue;
        snprintf(text, sizeof text, "1,%s,5,6\n", number);
        const cw_survey_points points = cw_ground_points(text, 0, here, &arena, &diags);
        assert_int_equal(points.count, 1);
        assert_true(points.items[0].northing_ft == strtod(number, NULL));
        cw_arena_release(&arena);
    }
}

/* ---- heights and sections ---- */

/* Hand check: the plane through (N 0, E 0, 500), (100, 0, 504), (0, 100, 502) is z = 500 + 0.04 N +
 * 0.02 E: at N 50 E 25 z = 502.5; at N 25 E 50 z = 502.0. */
static const cw_survey_point corner_points[] = {
    {0, 0, 500, "1", "", 1}, {100, 0, 504, "2", "", 2}, {0, 100, 502, "3", "", 3}};

static void triangle_gives_heights_of_its_plane(void **state)
{
    (void)state;
    const int faces[1][3] = {{0, 1, 2}};
    const cw_ground_mesh mesh = {corner_points, 3, faces, 1};
    double z_ft = 0.0;
    assert_true(cw_ground_mesh_height(&mesh, 50, 25, &z_ft));
    check_near(z_ft, 502.5, 1e-9, "N 50 E 25, ft");
    assert_true(cw_ground_mesh_height(&mesh, 25, 50, &z_ft));
    check_near(z_ft, 502.0, 1e-9, "N 25 E 50, ft");
    assert_false(cw_ground_mesh_height(&mesh, 60, 60, &z_ft));
}

/* Hand check: the line east along N 50 meets the triangle from E 0 (z 502) to E 50 (z 503). */
static void section_of_a_triangle_is_exact(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_ground_line line = straight(50, -20, 90, 0, 200);
    const int faces[1][3] = {{0, 1, 2}};
    const cw_ground_mesh mesh = {corner_points, 3, faces, 1};
    const cw_ground_profile profile = cw_ground_cut_mesh(&mesh, &line, here, &arena, &diags);
    assert_int_equal(diags.count, 0);
    assert_int_equal(profile.count, 2);
    check_near(profile.points[0].at_ft, 20, 1e-9, "start, ft");
    check_near(profile.points[0].elevation_ft, 502, 1e-9, "start, ft");
    check_near(profile.points[1].at_ft, 70, 1e-9, "end, ft");
    check_near(profile.points[1].elevation_ft, 503, 1e-9, "end, ft");
    cw_arena_release(&arena);
}

/* Hand check: a ridge of four points.  North and south at 100 ft, west and east of the middle at 90
 * ft; the line along the ridge stays at 100, the line across it rises 90 - 100 - 90 with its break
 * on the ridge. */
static void section_breaks_on_the_edge_it_crosses(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_survey_point points[] = {{50, 0, 100, "n", "", 1},
                                      {-50, 0, 100, "s", "", 2},
                                      {0, -80, 90, "w", "", 3},
                                      {0, 80, 90, "e", "", 4}};
    const int faces[2][3] = {{0, 1, 2}, {0, 3, 1}};
    const cw_ground_mesh mesh = {points, 4, faces, 2};
    const cw_ground_line across = straight(0, -80, 90, 0, 160);
    const cw_ground_profile cut = cw_ground_cut_mesh(&mesh, &across, here, &arena, &diags);
    assert_int_equal(cut.count, 3);
    check_near(cut.points[0].elevation_ft, 90, 1e-9, "west, ft");
    check_near(cut.points[1].at_ft, 80, 1e-9, "ridge, ft");
    check_near(cut.points[1].elevation_ft, 100, 1e-9, "ridge, ft");
    check_near(cut.points[2].elevation_ft, 90, 1e-9, "east, ft");
    // The line lies in the shared edge of both triangles: counted once.
    const cw_ground_line along = straight(-50, 0, 0, 0, 100);
    const cw_ground_profile ridge = cw_ground_cut_mesh(&mesh, &along, here, &arena, &diags);
    assert_int_equal(ridge.count, 2);
    check_near(ridge.points[1].at_ft, 100, 1e-9, "north, ft");
    check_near(ridge.points[1].elevation_ft, 100, 1e-9, "north, ft");
    assert_int_equal(diags.count, 0);
    cw_arena_release(&arena);
}

/* ---- gaps ---- */

static void missing_ground_is_named_and_not_guessed(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_survey_point points[] = {{-10, 0, 5, "", "", 1}, {10, 0, 5, "", "", 2},
                                      {0, 20, 5, "", "", 3},  {-10, 50, 5, "", "", 4},
                                      {10, 50, 5, "", "", 5}, {0, 30, 5, "", "", 6}};
    const int faces[2][3] = {{0, 1, 2}, {3, 4, 5}};
    const cw_ground_mesh mesh = {points, 6, faces, 2};
    cw_ground_line line = straight(0, -5, 90, -5, 60);
    assert_int_equal(cw_ground_cut_mesh(&mesh, &line, here, &arena, &diags).count, 0);
    assert_int_equal(diags.count, 1);
    expect_line(&diags, 0,
                "points.txt: error 106: no ground from 20.00 to 30.00 ft along the centre line (0 "
                "at the crossing "
                "point, positive toward the inlet); measure points there");
    line.must_cover = true;
    diags = cw_diags_on(&arena);
    assert_int_equal(cw_ground_cut_mesh(&mesh, &line, here, &arena, &diags).count, 0);
    assert_int_equal(diags.count, 3);
    expect_line(&diags, 2,
                "points.txt: error 106: no ground from 50.00 to 60.00 ft along the centre line (0 "
                "at the crossing "
                "point, positive toward the inlet); measure points there");
    cw_arena_release(&arena);
}

/* ---- text and faults ---- */

static void points_are_read_in_both_orders_and_separators(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const char *commas = "\xEF\xBB\xBF"
                         "Point,Northing,Easting,Elev,Desc\r\n"
                         "1,2000.000,1000.000,500.00,OUTLET INV, B1\r\n\r\n"
                         "201,1990.000,1060.000,506.215,\"CP 201, 5/8\"\" REBAR\"\r\n"
                         "3, 1.5 ,\"-2.5\", +3.25";
    const cw_survey_points points = cw_ground_points(commas, 0, here, &arena, &diags);
    assert_int_equal(points.count, 3);
    assert_int_equal(diags.count, 1);
    expect_line(
        &diags, 0,
        "points.txt:1:1: warning 302: line 1 holds no coordinates and is taken for a heading");
    check_near(points.items[0].northing_ft, 2000, 0, "northing, ft");
    check_near(points.items[0].easting_ft, 1000, 0, "easting, ft");
    check_near(points.items[0].elevation_ft, 500, 0, "elevation, ft");
    assert_string_equal(points.items[0].note, "OUTLET INV, B1");
    assert_int_equal(points.items[1].line, 4);
    assert_string_equal(points.items[1].note, "CP 201, 5/8\" REBAR");
    check_near(points.items[2].easting_ft, -2.5, 0, "easting, ft");
    const char *blanks = "7\t1000.5  2000.5 \t 99.5 ground, rough\n";
    const cw_survey_points swapped = cw_ground_points(blanks, 1, here, &arena, &diags);
    assert_int_equal(swapped.count, 1);
    check_near(swapped.items[0].northing_ft, 2000.5, 0, "northing, ft");
    assert_string_equal(swapped.items[0].note, "ground, rough");
    cw_arena_release(&arena);
}

static void bad_survey_lines_are_named(void **state)
{
    (void)state;
    static const struct {
        const char *text, *wanted;
    } cases[] = {
        {"", "points.txt: error 106: the survey file holds no point, 3 make a surface; is it the "
             "right file?"},
        {"1,2,3,4\n2,3,4\n", "points.txt:2:1: error 105: this line has 3 fields, 4 are needed: "
                             "point, northing, easting, "
                             "elevation"},
        {"1,2,3,4\nA,B,C,D\n",
         "points.txt:2:1: error 105: northing 'B' is not a number; write it as 1234.567, with a "
         "point and no thousands mark"},
        {"1,2,nan,4\n", "points.txt:1:1: error 105: easting 'nan' is not a number; write it as "
                        "1234.567, with a point "
                        "and no thousands mark"},
        {"1,0x10,3,4\n", "points.txt:1:1: error 105: northing '0x10' is not a number; write it as "
                         "1234.567, with a point "
                         "and no thousands mark"},
        {"1,500.0,1000,2000000\n",
         "points.txt:1:1: error 103: elevation 2000000.00 is outside -1500 to 30000 ft; check "
         "the order of the columns"},
        {"1,9e9,1000,500\n",
         "points.txt:1:1: error 103: coordinate 9000000000.000 is outside -100000000 to 100000000 "
         "ft; check the column and its unit"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        assert_int_equal(cw_ground_points(cases[i].text, 0, here, &arena, &diags).count, 0);
        assert_int_equal(diags.count, 1);
        expect_line(&diags, 0, cases[i].wanted);
        cw_arena_release(&arena);
    }
}

/* ---- the line of a job ---- */

/* Hand check: road azimuth 75, inlet right, skew 20: the barrel runs at 75 + 90 - 20 = 145 deg; 40
 * ft downstream of N 2000 E 1000 is N 2000 - 40 cos 145 = 2032.766, E 1000 - 40 sin 145 = 977.057.
 * A bend of +30 deg 60 ft from the outlet, 20 ft upstream of the crossing: the last leg runs at 175
 * deg. */
static void line_of_a_job_follows_its_bends(void **state)
{
    (void)state;
    cw_job_bend bends[] = {{60, 30, 1}};
    const cw_job job = {.survey = {.northing_ft = 2000, .easting_ft = 1000, .azimuth_deg = 75},
                        .road = {.present = true, .inlet_side = CW_RIGHT},
                        .run = {.skew_deg = 20,
                                .has_length = true,
                                .length_ft = 100,
                                .has_outlet_distance = true,
                                .outlet_distance_ft = 40},
                        .bends = bends,
                        .bend_count = 1};
    const cw_ground_line line = cw_ground_line_of(&job);
    assert_true(line.must_cover);
    assert_int_equal(line.leg_count, 3);
    check_near(line.legs[0].northing_ft, 2032.766, 0.001, "outlet, ft");
    check_near(line.legs[0].easting_ft, 977.057, 0.001, "outlet, ft");
    check_near(line.legs[0].from_ft, -40, 1e-9, "outlet, ft");
    check_near(line.legs[1].to_ft, 20, 1e-9, "bend, ft");
    check_near(line.legs[2].from_ft, 20, 1e-9, "bend, ft");
    check_near(line.legs[2].azimuth_deg, 175, 1e-9, "last leg, deg");
    check_near(line.legs[2].to_ft, 60, 1e-9, "inlet, ft");
    check_near(line.legs[2].northing_ft, 2000 + 20 * cos(145 * CW_RAD_PER_DEG), 1e-9, "bend, ft");
}

/* The limit of cw/ground.h: one point more than is taken. */
static void too_many_points_are_named(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_text text = cw_text_on(&arena);
    for (int k = 0; k <= CW_SURVEY_MAX; k++)
        cw_text_print(&text, "%d,%d,%d,9\n", k, k % 200, k / 200);
    assert_int_equal(cw_ground_points(cw_text_string(&text), 0, here, &arena, &diags).count, 0);
    assert_int_equal(diags.count, 1);
    expect_line(&diags, 0,
                "points.txt:200001:1: error 110: more than 200000 points; cut the file down to the "
                "crossing");
    cw_arena_release(&arena);
}

static void surface_beside_the_line_is_named(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const int faces[1][3] = {{0, 1, 2}};
    const cw_ground_mesh mesh = {corner_points, 3, faces, 1};
    const cw_ground_line line = straight(500, 500, 90, 0, 200);
    assert_int_equal(cw_ground_cut_mesh(&mesh, &line, here, &arena, &diags).count, 0);
    expect_line(&diags, 0,
                "points.txt: error 106: the surface does not reach the centre line anywhere: it lies "
                "from N 0.0 to 100.0 and E 0.0 to 100.0, and the line passes N 500.0, E 500.0; check "
                "survey.northing, easting and azimuth, and the unit of the surface");
    // With its columns the other way round this one would be met.
    diags = cw_diags_on(&arena);
    const cw_survey_point swapped_points[] = {
        {490, 0, 500, "1", "", 1}, {510, 0, 504, "2", "", 2}, {490, 20, 502, "3", "", 3}};
    const cw_ground_mesh swapped = {swapped_points, 3, faces, 1};
    const cw_ground_line east = straight(5, 500, 90, 0, 200);
    assert_int_equal(cw_ground_cut_mesh(&swapped, &east, here, &arena, &diags).count, 0);
    expect_line(&diags, 0,
                "points.txt: error 111: the surface does not reach the centre line anywhere: it lies "
                "from N 490.0 to 510.0 and E 0.0 to 20.0, and the line passes N 5.0, E 500.0; "
                "northing and easting look swapped: set ground.order to the other order");
    cw_arena_release(&arena);
}

/* ---- the file of a job ---- */

static cw_job square_job(const char *file)
{
    // Road to the north, inlet on its right: the barrel runs east from (N 100, E 200).
    return (cw_job){.survey = {.northing_ft = 100, .easting_ft = 200},
                    .road = {.present = true, .inlet_side = CW_RIGHT},
                    .ground = {.present = true, .file = file}};
}

/* Hand check: the plane z = 10 + 0.1 (E - 200) over a square of 100 ft around the crossing; the
 * profile goes from -50 ft at 5 ft to +50 ft at 15 ft, counted from the crossing. */
static void profile_counts_from_the_crossing(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_job job = square_job("points.txt");
    const cw_survey_point points[] = {{50, 150, 5, "1", "", 1},
                                      {150, 150, 5, "2", "", 2},
                                      {50, 250, 15, "3", "", 3},
                                      {150, 250, 15, "4", "", 4}};
    const int faces[2][3] = {{0, 1, 2}, {1, 3, 2}};
    const cw_ground_mesh mesh = {points, 4, faces, 2};
    const cw_job_files files = {.ground_mesh = &mesh, .ground_own_feet = true};
    cw_ground_from_files(&job, &files, here, &arena, &diags);
    assert_int_equal(diags.count, 0);
    assert_true(job.ground.from_crossing);
    const int last = job.ground.profile_count - 1;
    assert_true(last >= 1);
    check_near(job.ground.profile[0].at_ft, -50, 1e-9, "outlet side, ft");
    check_near(job.ground.profile[0].elevation_ft, 5, 1e-9, "outlet side, ft");
    check_near(job.ground.profile[last].at_ft, 50, 1e-9, "inlet side, ft");
    check_near(job.ground.profile[last].elevation_ft, 15, 1e-9, "inlet side, ft");
    cw_arena_release(&arena);
}

/* Coordinates of 2,000,000 US survey feet lie at 2,000,004 international feet, where the surface
 * has them. */
static void survey_feet_are_found_on_a_surface(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_survey_point points[] = {{1999954, 2000004, 5, "", "", 1},
                                      {2000054, 2000004, 5, "", "", 2},
                                      {2000004, 2000054, 10, "", "", 3}};
    const int faces[1][3] = {{0, 1, 2}};
    const cw_ground_mesh mesh = {points, 3, faces, 1};
    cw_job job = square_job("eg.xml");
    job.survey.northing_ft = job.survey.easting_ft = 2000000;
    job.survey.foot = CW_FOOT_US_SURVEY;
    const cw_job_files files = {.ground_mesh = &mesh};
    cw_ground_from_files(&job, &files, here, &arena, &diags);
    assert_int_equal(diags.count, 0);
    assert_int_equal(job.ground.profile_count, 2);
    check_near(job.ground.profile[0].at_ft, 0, 0.001, "crossing, ft");
    check_near(job.ground.profile[0].elevation_ft, 5, 0.001, "crossing, ft");
    check_near(job.ground.profile[1].at_ft, 50, 0.001, "inlet side, ft");
    // Triangles of survey points are in the job's own foot: the crossing lies 4 ft off the corner.
    job.ground.profile_count = 0;
    const cw_job_files own = {.ground_mesh = &mesh, .ground_own_feet = true};
    cw_ground_from_files(&job, &own, here, &arena, &diags);
    assert_int_equal(diags.count, 0);
    check_near(job.ground.profile[0].at_ft, 4, 0.001, "corner, ft");
    cw_arena_release(&arena);
}

static void ground_files_that_cannot_serve_are_named(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_job_bend bends[] = {{20, 10, 1}};
    cw_job job = square_job("g.ASC");
    job.bends = bends;
    job.bend_count = 1;
    const cw_job_files none = {0}, text = {.ground_text = "1,50,150,5\n"};
    cw_ground_from_files(&job, &none, here, &arena, &diags);
    cw_ground_from_files(&job, &text, here, &arena, &diags);
    job.bend_count = 0;
    cw_ground_from_files(&job, &text, here, &arena, &diags);
    assert_int_equal(diags.count, 3);
    expect_line(
        &diags, 0,
        "points.txt: error 113: ground file 'g.ASC' was not read; put it beside the job file");
    expect_line(&diags, 1,
                "points.txt: error 106: bends count from the outlet face, whose place on the "
                "ground is not known; "
                "give run.length and run.outlet_distance");
    expect_line(
        &diags, 2,
        "points.txt: error 106: the grid 'g.ASC' does not name its unit; add 'grid_unit: feet' or "
        "'grid_unit: metres' to ground");
    assert_int_equal(job.ground.profile_count, 0);
    // Points alone make no surface in the core.
    diags = cw_diags_on(&arena);
    cw_job bare = square_job("points.txt");
    cw_ground_from_files(&bare, &text, here, &arena, &diags);
    assert_int_equal(diags.count, 1);
    expect_line(&diags, 0,
                "points.txt: error 113: the points of ground file 'points.txt' came without their "
                "triangles; hand them over triangulated, as the command line does, or write "
                "ground.profile instead");
    // What the reader of the file reported is not reported again.
    diags = cw_diags_on(&arena);
    cw_diag_add(&diags, here, CW_E_FILE, "cannot open g.ASC");
    cw_ground_from_files(&job, &none, here, &arena, &diags);
    assert_int_equal(diags.count, 1);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(coordinates_are_the_nearest_double),
        cmocka_unit_test(triangle_gives_heights_of_its_plane),
        cmocka_unit_test(section_of_a_triangle_is_exact),
        cmocka_unit_test(section_breaks_on_the_edge_it_crosses),
        cmocka_unit_test(missing_ground_is_named_and_not_guessed),
        cmocka_unit_test(points_are_read_in_both_orders_and_separators),
        cmocka_unit_test(bad_survey_lines_are_named),
        cmocka_unit_test(too_many_points_are_named),
        cmocka_unit_test(surface_beside_the_line_is_named),
        cmocka_unit_test(line_of_a_job_follows_its_bends),
        cmocka_unit_test(profile_counts_from_the_crossing),
        cmocka_unit_test(survey_feet_are_found_on_a_surface),
        cmocka_unit_test(ground_files_that_cannot_serve_are_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
