/* A LandXML surface to triangles. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/surface.h"
#include "cw/text.h"

#define HEAD                                                                                       \
    "<?xml version=\"1.0\"?>\n<LandXML xmlns=\"http://www.landxml.org/schema/LandXML-1.2\" "       \
    "version=\"1.2\">\n"
#define FEET "<Units><Imperial linearUnit=\"foot\" areaUnit=\"squareFoot\"/></Units>\n"
#define SURFACE(points, faces)                                                                     \
    "<Surfaces><Surface name=\"EG\"><Definition surfType=\"TIN\">\n<Pnts>\n" points                \
    "</Pnts>\n<Faces>\n" faces "</Faces></Definition></Surface></Surfaces></LandXML>\n"
/* The three points of the plane z = 500 + 0.04 N + 0.02 E. */
#define PLANE "<P id=\"10\">0 0 500</P>\n<P id=\"7\">100 0 504</P>\n<P id=\"99\">0 100 502</P>\n"

static const cw_ground_mesh *read_text(cw_arena *arena, const char *text, cw_diags *diags)
{
    *diags = cw_diags_on(arena);
    return cw_surface_read(text, strlen(text), "eg.xml", arena, diags);
}

/* Ids are names and not numbers of order; hand check: at N 50 E 25 z = 502.5, at N 25 E 50 z =
 * 502.0. */
static void surface_gives_the_heights_of_its_plane(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags;
    const cw_ground_mesh *mesh = read_text(
        &arena, HEAD FEET SURFACE(PLANE, "<F n=\"0 0 0\">99 10 7</F>\n<F i=\"1\">7 10 99</F>\n"),
        &diags);
    assert_non_null(mesh);
    assert_int_equal(diags.count, 0);
    assert_int_equal(mesh->point_count, 3);
    assert_int_equal(mesh->face_count, 1);
    double z_ft = 0.0;
    assert_true(cw_ground_mesh_height(mesh, 50, 25, &z_ft));
    assert_true(fabs(z_ft - 502.5) < 1e-9);
    assert_true(cw_ground_mesh_height(mesh, 25, 50, &z_ft));
    assert_true(fabs(z_ft - 502.0) < 1e-9);
    cw_arena_release(&arena);
}

/* 1 m = 1/0.3048 ft; the US survey foot is 1200/3937 m, 4.000 ft more than the international one at
 * 2,000,000 ft. */
static void units_become_international_feet(void **state)
{
    (void)state;
    static const struct {
        const char *units;
        double northing_ft;
    } cases[] = {{"<Units><Metric linearUnit=\"meter\"/></Units>", 2000000 / 0.3048},
                 {"<Units><Imperial linearUnit=\"USSurveyFoot\"/></Units>", 2000004.0},
                 {"<Units><Imperial linearUnit=\"foot\"/></Units>", 2000000.0}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags;
        const cw_ground_mesh *mesh =
            read_text(&arena,
                      cw_arena_print(&arena, "%s%s%s", HEAD, cases[i].units,
                                     SURFACE("<P id=\"1\">2000000 0 5</P><P id=\"2\">2000000,5 9 "
                                             "5</P><P id=\"3\"> 2000009\n9\t5 </P>",
                                             "<F>1 2 3</F>")),
                      &diags);
        assert_non_null(mesh);
        assert_true(fabs(mesh->points[0].northing_ft - cases[i].northing_ft) < 0.001);
        assert_true(mesh->points[1].northing_ft > mesh->points[0].northing_ft);
        cw_arena_release(&arena);
    }
}

static void groups_may_be_split_and_namespaces_differ(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags;
    const cw_ground_mesh *mesh = read_text(
        &arena,
        "\xEF\xBB\xBF<x:LandXML xmlns:x=\"urn:any\">\r\n<x:Units><x:Metric "
        "linearUnit=\"meter\"/></x:Units>"
        "<x:Surfaces><x:Surface name=\"contours\"><x:Definition surfType=\"grid\"/></x:Surface>"
        "<x:Surface name=\"eg\"><x:Definition surfType=\"TIN\"><x:Pnts><x:P id=\"a\">0 0 "
        "1</x:P></x:Pnts>"
        "<x:Pnts><x:P id=\"b\">9 0 1</x:P><x:P id=\"c\">0 9 1</x:P><x:P id=\"d\">9 9 "
        "1</x:P></x:Pnts>"
        "<x:Faces><x:F>a b c</x:F></x:Faces><x:Faces><x:F>b d "
        "c</x:F></x:Faces></x:Definition></x:Surface>"
        "</x:Surfaces></x:LandXML>",
        &diags);
    assert_non_null(mesh);
    assert_int_equal(mesh->point_count, 4);
    assert_int_equal(mesh->face_count, 2);
    cw_arena_release(&arena);
}

static void bad_surfaces_are_named(void **state)
{
    (void)state;
    static const struct {
        const char *text, *wanted;
    } cases[] = {
        {"<LandXML><Units>\n</LandXML>\n",
         "eg.xml:2:11: error 101: the XML is not well formed: Opening and ending tag mismatch: "
         "Units line 1 and LandXML; "
         "export the surface again"},
        {"<!DOCTYPE LandXML [<!ENTITY a \"b\">]><LandXML>&a;</LandXML>",
         "eg.xml:1:1: error 101: the file declares a document type, which LandXML does not need "
         "and which is not taken; "
         "export the surface again"},
        {"<html/>",
         "eg.xml:1:1: error 108: this is 'html', not LandXML; export the surface as LandXML 1.2"},
        {HEAD "</LandXML>", "eg.xml:2:1: error 106: the file does not name its linear unit; export "
                            "it with Units, linearUnit "
                            "foot, USSurveyFoot or meter"},
        {HEAD "<Units><Imperial linearUnit=\"inch\"/></Units></LandXML>",
         "eg.xml:3:1: error 104: linear unit 'inch' is not taken; export the surface in foot, "
         "USSurveyFoot or meter"},
        {HEAD FEET "</LandXML>", "eg.xml:2:1: error 106: the file holds no triangulated surface; "
                                 "export the existing ground as "
                                 "LandXML with a TIN definition"},
        {HEAD FEET SURFACE(PLANE, ""),
         "eg.xml:4:1: error 106: the surface has no visible face; export it with its triangles"},
        {HEAD FEET SURFACE(PLANE, "<F>10 7 8</F>"),
         "eg.xml:11:1: error 105: this face names point '8', which the surface does not have; "
         "export the surface again"},
        {HEAD FEET SURFACE(PLANE, "<F>10 7 99 10</F>"),
         "eg.xml:11:1: error 105: a face of 4 points, only triangles are taken; export the surface "
         "as a TIN"},
        {HEAD FEET SURFACE(PLANE "<P id=\"7\">5 5 5</P>\n", "<F>10 7 99</F>"),
         "eg.xml:9:1: error 107: point id '7' was given before, in line 7; export the surface "
         "again"},
        {HEAD FEET SURFACE(PLANE "<P id=\"8\">5 5</P>\n", "<F>10 7 99</F>"),
         "eg.xml:9:1: error 105: a point needs an id and three numbers, northing, easting and "
         "elevation; export the surface "
         "again"},
        {HEAD FEET SURFACE(PLANE "<P>5 5 5</P>\n", "<F>10 7 99</F>"),
         "eg.xml:9:1: error 105: a point needs an id and three numbers, northing, easting and "
         "elevation; export the surface "
         "again"},
        {HEAD FEET SURFACE(PLANE "<P id=\"8\">5 5 nan</P>\n", "<F>10 7 99</F>"),
         "eg.xml:9:1: error 105: a point needs an id and three numbers, northing, easting and "
         "elevation; export the surface "
         "again"},
        {HEAD FEET SURFACE(PLANE "<P id=\"8\">5 5 90000</P>\n", "<F>10 7 99</F>"),
         "eg.xml:9:1: error 103: point at N 5.0, E 5.0, elevation 90000.0 ft is outside "
         "+-100000000 ft and -1500 to 30000 ft; "
         "check the file's unit"},
        {HEAD FEET "<Surfaces><Surface name=\"EG\"><Definition "
                   "surfType=\"TIN\"/></Surface>\n<Surface name=\"FG\"><Definition "
                   "surfType=\"TIN\"/></Surface></Surfaces></LandXML>",
         "eg.xml:5:1: error 110: a second surface 'FG' stands in this file, one is taken; export "
         "only that of the existing "
         "ground"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags;
        assert_null(read_text(&arena, cases[i].text, &diags));
        assert_int_equal(diags.count, 1);
        assert_string_equal(cw_diag_line(&arena, &diags.items[0]), cases[i].wanted);
        cw_arena_release(&arena);
    }
}

static void names_tell_landxml(void **state)
{
    (void)state;
    assert_true(cw_surface_is_named("eg.xml"));
    assert_true(cw_surface_is_named("EG.LandXML"));
    assert_false(cw_surface_is_named("eg.xml.txt"));
    assert_false(cw_surface_is_named("xml"));
}

/* A file may not make the reader open another one, nor grow without end. */
static void entities_and_size_are_bounded(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags;
    // The document type hides in UTF-16 from a search of the bytes; the parsed document still shows
    // it.
    const char *ascii = "<!DOCTYPE a SYSTEM \"file:///nowhere\"><a/>";
    char wide[256] = {'\xFF', '\xFE'};
    size_t length = 2;
    for (size_t i = 0; ascii[i]; i++, length += 2)
        wide[length] = ascii[i];
    diags = cw_diags_on(&arena);
    assert_null(cw_surface_read(wide, length, "eg.xml", &arena, &diags));
    assert_int_equal(diags.count, 1);
    assert_string_equal(cw_diag_line(&arena, &diags.items[0]),
                        "eg.xml:1:1: error 101: the file declares a document type, which is not "
                        "taken; export the surface "
                        "again");
    diags = cw_diags_on(&arena);
    assert_null(cw_surface_read("", (size_t)CW_SURFACE_BYTES_MAX + 1, "eg.xml", &arena, &diags));
    assert_int_equal(diags.items[0].code, CW_E_TOO_MANY);
    assert_null(read_text(&arena, "", &diags));
    assert_int_equal(diags.count, 1);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(surface_gives_the_heights_of_its_plane),
        cmocka_unit_test(units_become_international_feet),
        cmocka_unit_test(groups_may_be_split_and_namespaces_differ),
        cmocka_unit_test(bad_surfaces_are_named),
        cmocka_unit_test(names_tell_landxml),
        cmocka_unit_test(entities_and_size_are_bounded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
