/* Triangles between survey points: against the definition of Delaunay, a hull by gift wrapping, and by
 * hand. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/delaunay.h"
#include "app/triangulate.h"
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

/* ---- triangulation ---- */

/* A 64-bit linear congruential generator (Knuth's MMIX constants), fixed seed. */
static double next_random(uint64_t *seed)
{
    *seed = *seed * 6364136223846793005ull + 1442695040888963407ull;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

static double area_of(const cw_ground_mesh *mesh, int face)
{
    const cw_survey_point *a = &mesh->points[mesh->faces[face][0]];
    const cw_survey_point *b = &mesh->points[mesh->faces[face][1]];
    const cw_survey_point *c = &mesh->points[mesh->faces[face][2]];
    return fabs((b->northing_ft - a->northing_ft) * (c->easting_ft - a->easting_ft) -
                (b->easting_ft - a->easting_ft) * (c->northing_ft - a->northing_ft)) /
           2.0;
}

static double mesh_area(const cw_ground_mesh *mesh)
{
    double area = 0.0;
    for (int i = 0; i < mesh->face_count; i++)
        area += area_of(mesh, i);
    return area;
}

/* Definition of a Delaunay triangulation: no point inside the circle of a triangle.  Euler: with h
 * points on the hull there are 2 n - 2 - h triangles; here the four corners of a square are the
 * hull, so 2 n - 6. */
static void random_points_make_a_delaunay_mesh(void **state)
{
    (void)state;
    enum { COUNT = 300 };
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    uint64_t seed = 20240607;
    cw_survey_point points[COUNT] = {{0, 0, 0, "", "", 0},
                                     {0, 1000, 0, "", "", 0},
                                     {1000, 0, 0, "", "", 0},
                                     {1000, 1000, 0, "", "", 0}};
    for (int i = 4; i < COUNT; i++)
        points[i] = (cw_survey_point){
            1 + 998 * next_random(&seed), 1 + 998 * next_random(&seed), 0, "", "", i};
    const cw_survey_points all = {points, COUNT};
    const cw_ground_mesh *mesh = cw_triangulate(all, NULL, here, &arena, &diags);
    assert_non_null(mesh);
    assert_int_equal(mesh->face_count, 2 * COUNT - 6);
    check_near(mesh_area(mesh), 1e6, 1e-3, "area, ft2");
    for (int f = 0; f < mesh->face_count; f++) {
        const cw_survey_point *a = &points[mesh->faces[f][0]], *b = &points[mesh->faces[f][1]];
        const cw_survey_point *c = &points[mesh->faces[f][2]];
        // Circumcentre by the perpendicular bisectors.
        const double bx = b->easting_ft - a->easting_ft, by = b->northing_ft - a->northing_ft;
        const double cx = c->easting_ft - a->easting_ft, cy = c->northing_ft - a->northing_ft;
        const double d = 2 * (bx * cy - by * cx);
        const double ux = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / d;
        const double uy = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / d;
        for (int i = 0; i < COUNT; i++)
            if (hypot(points[i].easting_ft - a->easting_ft - ux,
                      points[i].northing_ft - a->northing_ft - uy) < hypot(ux, uy) * (1 - 1e-6)) {
                print_error("point %d lies in the circle of face %d (seed 20240607)\n", i, f);
                fail();
            }
    }
    cw_arena_release(&arena);
}

/* On a square lattice every four neighbours share a circle and rows are collinear: the worst case
 * for the circle test. 9 x 9 squares of 10 ft: 162 triangles, 8,100 ft2.  All points lie on the
 * plane z = 100 + 0.1 N - 0.2 E. */
static void lattice_of_points_is_no_special_case(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_survey_point points[100];
    for (int i = 0; i < 100; i++) {
        const double n_ft = 2000000 + 10.0 * (i / 10), e_ft = 600000 + 10.0 * (i % 10);
        points[i] = (cw_survey_point){
            n_ft, e_ft, 100 + 0.1 * (n_ft - 2000000) - 0.2 * (e_ft - 600000), "", "", i};
    }
    const cw_ground_line line = {
        .legs = {{2000045, 600000, 77, 0, 60}}, .leg_count = 1, .must_cover = true};
    const cw_survey_points all = {points, 100};
    const cw_ground_mesh *mesh = cw_triangulate(all, NULL, here, &arena, &diags);
    assert_non_null(mesh);
    assert_int_equal(mesh->face_count, 162);
    check_near(mesh_area(mesh), 8100, 1e-3, "area, ft2");
    const cw_ground_profile profile = cw_ground_cut_mesh(mesh, &line, here, &arena, &diags);
    assert_int_equal(diags.count, 0);
    assert_true(profile.count > 6);
    for (int i = 0; i < profile.count; i++) {
        const double s = profile.points[i].at_ft, azimuth = 77 * CW_RAD_PER_DEG;
        check_near(profile.points[i].elevation_ft,
                   104.5 + s * (0.1 * cos(azimuth) - 0.2 * sin(azimuth)), 1e-6, "plane, ft");
        assert_true(i == 0 || s > profile.points[i - 1].at_ft);
    }
    check_near(profile.points[profile.count - 1].at_ft, 60, 1e-9, "end, ft");
    cw_arena_release(&arena);
}

/* Area of the convex hull by gift wrapping: an independent way to what the triangles cover. */
static double hull_area(const cw_survey_point *points, int count)
{
    int start = 0;
    for (int i = 1; i < count; i++)
        if (points[i].easting_ft < points[start].easting_ft ||
            (points[i].easting_ft == points[start].easting_ft &&
             points[i].northing_ft < points[start].northing_ft))
            start = i;
    double twice_area = 0.0;
    int here_at = start;
    for (int step = 0; step <= count; step++) {
        const cw_survey_point *p = &points[here_at];
        int next = here_at == 0 ? 1 : 0;
        for (int i = 0; i < count; i++) {
            const cw_survey_point *q = &points[next], *r = &points[i];
            const double turn =
                (q->easting_ft - p->easting_ft) * (r->northing_ft - p->northing_ft) -
                (q->northing_ft - p->northing_ft) * (r->easting_ft - p->easting_ft);
            const bool farther =
                hypot(r->easting_ft - p->easting_ft, r->northing_ft - p->northing_ft) >
                hypot(q->easting_ft - p->easting_ft, q->northing_ft - p->northing_ft);
            if (turn < 0.0 || (turn == 0.0 && farther))
                next = i;
        }
        twice_area +=
            p->easting_ft * points[next].northing_ft - points[next].easting_ft * p->northing_ft;
        here_at = next;
        if (here_at == start)
            break;
    }
    return fabs(twice_area) / 2.0;
}

static int by_place(const void *left, const void *right)
{
    const cw_lattice_place *a = left, *b = right;
    if (a->x != b->x)
        return a->x < b->x ? -1 : 1;
    return (a->y > b->y) - (a->y < b->y);
}

/* Points drawn from a 9 by 9 lattice: rows, squares and repeated places are the rule.  Whatever
 * they are, the triangles cover the hull once: their areas add up to it.  500 rounds, seed 7. */
static void crooked_points_are_covered_once(void **state)
{
    (void)state;
    enum { ROUNDS = 500, COUNT = 24 };
    uint64_t seed = 7;
    for (int round = 0; round < ROUNDS; round++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_survey_point points[COUNT];
        for (int i = 0; i < COUNT; i++) {
            const double n_ft = floor(9 * next_random(&seed)), e_ft = floor(9 * next_random(&seed));
            points[i] = (cw_survey_point){7 * n_ft, 7 * e_ft, n_ft - 3 * e_ft, "", "", i};
        }
            const cw_survey_points all = {points, COUNT};
        const cw_ground_mesh *mesh = cw_triangulate(all, NULL, here, &arena, &diags);
    assert_non_null(mesh);
        // Repeats are merged, which is said; nothing else is.
        assert_true(diags.count <= 1);
        if (fabs(mesh_area(mesh) - hull_area(points, COUNT)) > 0.01) {
            print_error("round %d (seed 7): triangles %.4f ft2, hull %.4f ft2\n", round,
                        mesh_area(mesh), hull_area(points, COUNT));
            fail();
        }
        cw_arena_release(&arena);
    }
}

/* Places on one circle, where every four share it, and places within a step of one line, where they are
 * nearly in a row: the areas, as whole numbers, add up to that of the hull exactly.  The hull by
 * A. M. Andrew's monotone chain (1979), in 128 bits.  400 rounds, seed 3. */
static void round_and_thin_places_are_covered_exactly(void **state)
{
    (void)state;
    enum { ROUNDS = 400, MOST = 120 };
    __extension__ typedef __int128 wide;
    uint64_t seed = 3;
    for (int round = 0; round < ROUNDS; round++) {
        cw_lattice_place places[MOST];
        int faces[2 * MOST][3], hull[2 * MOST], hulled = 0, count = 0;
        const double reach = ldexp(1.0, 3 + (int)(26 * next_random(&seed))) - 1.0;
        for (int i = 0; i < MOST; i++) {
            const double t = 2.0 * CW_PI * next_random(&seed), x = reach * cos(t);
            const double y = round % 2 ? reach * sin(t) : x / 3.0 + 3.0 * next_random(&seed);
            places[i] = (cw_lattice_place){(int)rint(x), (int)rint(y)};
        }
        qsort(places, MOST, sizeof *places, by_place);
        for (int i = 0; i < MOST; i++)
            if (count == 0 || by_place(&places[count - 1], &places[i]) != 0)
                places[count++] = places[i];
        const int made = cw_delaunay(places, count, faces);
        assert_true(made > 0);
        for (int half = 0; half < 2; half++) {
            const int least = hulled + 2;
            for (int i = 0; i < count; i++) {
                const int at = half ? count - 1 - i : i;
                while (hulled >= least &&
                       cw_lattice_turn(places[hull[hulled - 2]], places[hull[hulled - 1]], places[at]) <= 0)
                    hulled--;
                hull[hulled++] = at;
            }
            hulled--;
        }
        wide hull_twice = 0, faces_twice = 0;
        for (int i = 1; i + 1 < hulled; i++)
            hull_twice += cw_lattice_turn(places[hull[0]], places[hull[i]], places[hull[i + 1]]);
        for (int f = 0; f < made; f++) {
            const long long turn = cw_lattice_turn(places[faces[f][0]], places[faces[f][1]], places[faces[f][2]]);
            assert_true(turn > 0);
            faces_twice += turn;
        }
        assert_true(hull_twice == faces_twice);
    }
}

/* The code is BL in the cases that have one. */
static void useless_points_are_named(void **state)
{
    (void)state;
    static const struct {
        const char *code, *text, *wanted;
    } cases[] = {
        {NULL, "1,1000,5000,10\n2,1010,5000,10\n",
         "points.txt: error 106: the survey has 2 places, the first at N 1000.00, E 5000.00 (line 1), "
         "and 3 make a surface; measure more points"},
        {NULL, "1,1000,5000,10\n2,1010,5000,10\n3,1000,5000,10.5\n",
         "points.txt:3:1: error 111: point '3' stands in the same place as '1' (line 1), N 1000.000, "
         "E 5000.000, but at 10.50 ft, not 10.00 ft; delete one of them"},
        {NULL, "1,1000,5000,10\n2,1000,5020,10\n3,1000,5040,10.5\n",
         "points.txt: error 112: the 3 survey points, from N 1000.00, E 5000.00 (line 1) to N "
         "1000.00, E 5040.00 (line 3), stand in one straight row and make no surface; add points "
         "beside it, or write ground.profile instead"},
        {NULL, "1,1000,5000,10\n2,1010,5000,10\n3,1000,1200000,10.5\n",
         "points.txt:3:1: error 103: point '1' (line 1), N 1000.00, E 5000.00, and point '3' (line 3), N "
         "1000.00, E 1200000.00, stand 1195000 ft apart, the limit is 1048576 ft; delete the one that is "
         "not of this survey"},
        // The diagonals of a square of 20 ft meet in its middle.
        {"BL", "1,0,0,5,BL1\n2,20,20,5,BL1 toe\n3,0,20,5,BL2\n4,20,0,5,BL2\n",
         "points.txt:4:1: error 112: the breakline from '3' (line 3) to '4' (line 4) crosses that "
         "between '1' (line 1) and '2' (line 2) at N 10.00, E 10.00; give both a point there, or "
         "other numbers"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        const cw_survey_points points = cw_ground_points(cases[i].text, 0, here, &arena, &diags);
        assert_true(points.count > 0);
        assert_null(cw_triangulate(points, cases[i].code, here, &arena, &diags));
        assert_int_equal(diags.count, 1);
        expect_line(&diags, 0, cases[i].wanted);
        cw_arena_release(&arena);
    }
}

static void repeated_points_are_merged_and_said(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    // The fifth repeats the first; the sixth stands 0.000002 ft from the second.
    const char *text = "1,0,0,5\n2,0,10,5\n3,10,0,5\n4,10,10,5\n5,0,0,5\n6,0.000002,10,5\n";
    const cw_survey_points points = cw_ground_points(text, 0, here, &arena, &diags);
    const cw_ground_mesh *mesh = cw_triangulate(points, NULL, here, &arena, &diags);
    assert_non_null(mesh);
    assert_int_equal(mesh->face_count, 2);
    check_near(mesh_area(mesh), 100, 1e-4, "area, ft2");
    assert_int_equal(diags.count, 1);
    expect_line(&diags, 0,
                "points.txt:5:1: warning 302: 2 survey points repeat another in place and height and "
                "are merged with it; the first is '5', which repeats '1' (line 1)");
    cw_arena_release(&arena);
}

/* ---- breaklines ---- */

static bool has_edge(const cw_ground_mesh *mesh, int a, int b)
{
    for (int f = 0; f < mesh->face_count; f++)
        for (int k = 0; k < 3; k++)
            if ((mesh->faces[f][k] == a && mesh->faces[f][(k + 1) % 3] == b) ||
                (mesh->faces[f][k] == b && mesh->faces[f][(k + 1) % 3] == a))
                return true;
    return false;
}

/* A kite whose long diagonal no Delaunay triangulation has: 40 ft along, 10 ft across.  With the
 * code the diagonal is an edge; BLDG is a building, not a breakline. */
static void breakline_becomes_an_edge(void **state)
{
    (void)state;
    const char *text = "1,0,0,5,BL7 crest\n2,-5,20,1,ground\n3,5,20,1,BLDG\n4,0,40,5,BL7\n";
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_survey_points points = cw_ground_points(text, 0, here, &arena, &diags);
    const cw_ground_mesh *plain = cw_triangulate(points, NULL, here, &arena, &diags);
    assert_non_null(plain);
    assert_true(has_edge(plain, 1, 2));
    assert_false(has_edge(plain, 0, 3));
    const cw_ground_mesh *broken = cw_triangulate(points, "BL", here, &arena, &diags);
    assert_non_null(broken);
    assert_true(has_edge(broken, 0, 3));
    double z_ft = 0.0;
    assert_true(cw_ground_mesh_height(broken, 0, 20, &z_ft));
    check_near(z_ft, 5.0, 1e-9, "on the crest, ft");
    assert_true(cw_ground_mesh_height(plain, 0, 20, &z_ft));
    check_near(z_ft, 1.0, 1e-9, "without the breakline, ft");
    assert_int_equal(diags.count, 0);
    // A code that no point carries is said.
    assert_non_null(cw_triangulate(points, "EP", here, &arena, &diags));
    assert_int_equal(diags.count, 1);
    expect_line(&diags, 0,
                "points.txt: warning 302: no two points carry the breakline code 'EP' with one "
                "number: the surface has no breaklines");
    cw_arena_release(&arena);
}

/* Does the way from a to b run along edges of the mesh, through points that stand on it? */
static bool runs_along(const cw_ground_mesh *mesh, int a, int b)
{
    const cw_survey_point *p = mesh->points;
    for (int step = 0; step < mesh->point_count && a != b; step++) {
        int next = -1;
        double least = 1e9;
        for (int i = 0; i < mesh->point_count; i++) {
            const double n = p[b].northing_ft - p[a].northing_ft, e = p[b].easting_ft - p[a].easting_ft;
            const double pn = p[i].northing_ft - p[a].northing_ft, pe = p[i].easting_ft - p[a].easting_ft;
            const double along = n * pn + e * pe;
            if (n * pe - e * pn == 0.0 && along > 0.0 && along < least && has_edge(mesh, a, i)) {
                least = along;
                next = i;
            }
        }
        if (next < 0)
            return false;
        a = next;
    }
    return a == b;
}

/* Lattice points 7 ft apart in random order, three breaklines that share no place: every one runs
 * along edges, also where it passes through other points, and the hull is still covered once.  200
 * rounds, seed 11. */
static void breaklines_hold_on_a_lattice(void **state)
{
    (void)state;
    enum { ROUNDS = 200, SIDE = 9, COUNT = SIDE * SIDE, LINES = 3 };
    uint64_t seed = 11;
    for (int round = 0; round < ROUNDS; round++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_survey_point points[COUNT];
        for (int i = 0; i < COUNT; i++)
            points[i] = (cw_survey_point){7.0 * (i / SIDE), 7.0 * (i % SIDE), next_random(&seed), "", "", i};
        int ends[LINES][2];
        static const char *const notes[LINES] = {"BL1", "BL2", "BL3"};
        for (int k = 0; k < LINES; k++) {
            // Each line keeps to its own band of three rows.
            ends[k][0] = SIDE * (3 * k) + (int)(SIDE * next_random(&seed));
            ends[k][1] = SIDE * (3 * k + 1 + (int)(2 * next_random(&seed))) + (int)(SIDE * next_random(&seed));
            points[ends[k][0]].note = points[ends[k][1]].note = notes[k];
        }
        const cw_survey_points all = {points, COUNT};
        const cw_ground_mesh *mesh = cw_triangulate(all, "BL", here, &arena, &diags);
        assert_int_equal(diags.count, 0);
        assert_non_null(mesh);
        assert_int_equal(mesh->face_count, 2 * (SIDE - 1) * (SIDE - 1));
        check_near(mesh_area(mesh), 56.0 * 56.0, 1e-6, "area, ft2");
        for (int k = 0; k < LINES; k++)
            if (!runs_along(mesh, ends[k][0], ends[k][1])) {
                print_error("round %d (seed 11): breakline %d is no chain of edges\n", round, k + 1);
                fail();
            }
        cw_arena_release(&arena);
    }
}

/* The outline is hollow by a ten-millionth of a foot: the breakline runs across the hollow. */
static void breakline_along_the_outline_holds(void **state)
{
    (void)state;
    const char *text = "1,0,0,5,BL1\n2,0.0000001,10,5\n3,0,20,5,BL1\n4,10,10,5\n";
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_survey_points points = cw_ground_points(text, 0, here, &arena, &diags);
    const cw_ground_mesh *mesh = cw_triangulate(points, "BL", here, &arena, &diags);
    assert_non_null(mesh);
    assert_true(has_edge(mesh, 0, 2));
    check_near(mesh_area(mesh), 100, 1e-4, "area, ft2");
    assert_int_equal(diags.count, 0);
    cw_arena_release(&arena);
}

/* Rows, near rows, repeats and crossing breaklines, 400 rounds, seed 1: a mesh whose faces turn left,
 * or a reason. */
static void any_points_give_a_mesh_or_a_reason(void **state)
{
    (void)state;
    enum { ROUNDS = 400, MOST = 60 };
    static const char *const notes[] = {"BL1", "BL2", "BL3", "BL", "BLDG", "x", ""};
    uint64_t seed = 1;
    for (int round = 0; round < ROUNDS; round++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_survey_point points[MOST];
        const int count = 1 + (int)((MOST - 1) * next_random(&seed));
        const double side = 1 + floor(12 * next_random(&seed)), loose = round % 3 == 0 ? 1e-6 : round % 3 == 1 ? 0.3 : 0.0;
        for (int i = 0; i < count; i++) {
            const double n = floor(side * next_random(&seed)), e = floor(side * next_random(&seed));
            points[i] = (cw_survey_point){n + loose * next_random(&seed), e + loose * next_random(&seed),
                                          next_random(&seed) < 0.02 ? 6 : 5, "n",
                                          notes[(int)(7 * next_random(&seed))], i + 1};
        }
        const cw_survey_points all = {points, count};
        const cw_ground_mesh *mesh = cw_triangulate(all, "BL", here, &arena, &diags);
        int errors = 0;
        for (int i = 0; i < diags.count; i++)
            errors += diags.items[i].code < CW_W_MEMORY;
        assert_true(mesh ? errors == 0 : errors > 0);
        for (int f = 0; mesh && f < mesh->face_count; f++) {
            const cw_survey_point *a = &mesh->points[mesh->faces[f][0]];
            const cw_survey_point *b = &mesh->points[mesh->faces[f][1]];
            const cw_survey_point *c = &mesh->points[mesh->faces[f][2]];
            const double twice = (b->easting_ft - a->easting_ft) * (c->northing_ft - a->northing_ft) -
                                 (b->northing_ft - a->northing_ft) * (c->easting_ft - a->easting_ft);
            assert_true(twice > 0.0);
        }
        cw_arena_release(&arena);
    }
}

/* Whatever lies in memory before. */
static void triangles_come_in_one_order(void **state)
{
    (void)state;
    enum { COUNT = 400 };
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    uint64_t seed = 5;
    cw_survey_point points[COUNT];
    for (int i = 0; i < COUNT; i++)
        points[i] = (cw_survey_point){floor(30 * next_random(&seed)), floor(30 * next_random(&seed)), 1, "", "", i};
    const cw_survey_points all = {points, COUNT};
    const cw_ground_mesh *first = cw_triangulate(all, NULL, here, &arena, &diags);
    char *filler[64];
    for (int i = 0; i < 64; i++)
        filler[i] = test_malloc((size_t)(17 * i + 1));
    for (int i = 0; i < 64; i += 3)
        test_free(filler[i]);
    const cw_ground_mesh *second = cw_triangulate(all, NULL, here, &arena, &diags);
    for (int i = 0; i < 64; i++)
        if (i % 3 != 0)
            test_free(filler[i]);
    assert_int_equal(first->face_count, second->face_count);
    assert_memory_equal(first->faces, second->faces, (size_t)first->face_count * sizeof *first->faces);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_points_make_a_delaunay_mesh),
        cmocka_unit_test(lattice_of_points_is_no_special_case),
        cmocka_unit_test(crooked_points_are_covered_once),
        cmocka_unit_test(round_and_thin_places_are_covered_exactly),
        cmocka_unit_test(useless_points_are_named),
        cmocka_unit_test(repeated_points_are_merged_and_said),
        cmocka_unit_test(breakline_becomes_an_edge),
        cmocka_unit_test(breaklines_hold_on_a_lattice),
        cmocka_unit_test(breakline_along_the_outline_holds),
        cmocka_unit_test(any_points_give_a_mesh_or_a_reason),
        cmocka_unit_test(triangles_come_in_one_order),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
