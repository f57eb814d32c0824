/* The sheets of ends and obstacles: legible in the frames of both papers, to scale, and saying what
 * the plan says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "app/app.h"
#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "cw/yaml.h"

#define COUNT_OF(a) ((int)(sizeof(a) / sizeof(a)[0]))
#define PAPER_PT 0.05

/* The frames in which the book composes them, letter and tabloid, and two others. */
static const double frames[][2] = {{539, 425}, {1049, 560}, {540, 400}, {1000, 600}};
static const char *const demos[] = {"farm-road", "twin-hood", "phased-three", "gully"};

#define JOB(units, skew, ends, rest)                                                               \
    "format: 1\n"                                                                                  \
    "job: {name: Ends, units: " units "}\n"                                                        \
    "survey: {northing: 100 ft, easting: 200 ft, azimuth: 90 deg}\n"                               \
    "road:\n"                                                                                      \
    "  station: 1+00\n"                                                                            \
    "  elevation: 512 ft\n"                                                                        \
    "  grade: 0.5%\n"                                                                              \
    "  inlet_side: left\n"                                                                         \
    "  outlet_template: {strips: [{width: 12 ft, fall: 2%}], side_slope: 2:1}\n"                   \
    "  inlet_template: {strips: [{width: 12 ft, fall: 2%}], side_slope: 2:1}\n"                    \
    "run:\n  skew: " skew                                                                          \
    "\n  invert: 501 ft\n  slope: 1%\n  length: 60 ft\n  outlet_distance: 30 ft\n  cut: road\n"    \
    "  end_tolerance: 12 in\n" ends                                                                \
    "box: {form: lid, span: 10 ft, rise: 5 ft, wall: 9 in, floor: 9 in, top: 10 in, "              \
    "haunch: 6 in}\n"                                                                              \
    "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n" rest

#define ALL_WINGS                                                                                  \
    "  outlet:\n    left_wing: {kind: straight}\n    right_wing: {kind: along_road}\n    apron: "  \
    "{length: 9 ft}\n    cutoff: {depth: 4 ft}\n"                                                  \
    "  inlet:\n    treatment: none\n    left_wing: {flare: 20 deg}\n    cutoff: {}\n"

#define ALL_OBSTACLES                                                                              \
    "phases: [{name: First, at: 30 ft, within: 10 ft, lane: 8 ft, lane_after: 40 ft}]\n"           \
    "obstacles:\n"                                                                                 \
    "  right_of_way_left: 30 ft\n"                                                                 \
    "  utilities:\n"                                                                               \
    "    - {name: Gas, at: 20 ft, elevation: 508 ft, diameter: 8 in}\n"                            \
    "    - {name: Water, at: 22 ft, angle: 100 deg, elevation: 509 ft, diameter: 12 in}\n"         \
    "    - {name: Duct, from: 0 ft, from_offset: -35 ft, to: 60 ft, to_offset: -30 ft, depth: 2 "  \
    "ft, diameter: 4 in}\n"                                                                        \
    "    - {name: Old line, at: 44 ft, elevation: 498 ft, diameter: 6 in, status: abandoned}\n"    \
    "  structures:\n"                                                                              \
    "    - {name: Barn, from: 5 ft, to: 25 ft, near: 28 ft, far: 44 ft, foundation: 505 ft}\n"     \
    "  boundaries:\n"                                                                              \
    "    - {name: Fence, from: -20 ft, from_offset: 33 ft, to: 80 ft, to_offset: 50 ft}\n"

static const char us_job[] = JOB("us", "10 deg", ALL_WINGS, ALL_OBSTACLES),
                  si_job[] = JOB("si", "-25 deg", ALL_WINGS, ALL_OBSTACLES),
                  bare_job[] = JOB("us", "0 deg", "", "");

static const cw_plan *plan_of_text(const char *text, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    const cw_entries *entries = cw_yaml_read(text, strlen(text), "text", arena, &diags);
    const cw_job_files files = {0};
    const cw_job *job = entries ? cw_job_build(entries, &files, arena, &diags) : NULL;
    if (!job)
        cw_diags_show(&diags);
    assert_non_null(job);
    const cw_plan *plan = cw_plan_compute(job, arena);
    assert_true(plan->laid);
    return plan;
}

static const cw_plan *plan_of_demo(const char *name, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    const cw_job *job =
        cw_load_job(cw_arena_print(arena, "%s/demo/%s.yaml", CW_ROOT, name), arena, &diags);
    if (!job)
        cw_diags_show(&diags);
    assert_non_null(job);
    return cw_plan_compute(job, arena);
}

static void assert_clean(const cw_drawing *d, const char *what, cw_arena *arena)
{
    const cw_overlap *list;
    const int count = cw_drawing_overlaps(d, arena, &list);
    for (int i = 0; i < count; i++)
        print_error("%s: '%s' and '%s' at %.0f, %.0f\n", what, list[i].a,
                    list[i].b ? list[i].b : "the rim", list[i].at_pt.x, list[i].at_pt.y);
    if (count > 0)
        fail();
}

static bool says(const cw_drawing *d, const char *text)
{
    for (int i = 0; i < d->count; i++)
        if (d->items[i].kind == CW_ITEM_TEXT && strstr(d->items[i].text, text))
            return true;
    return false;
}

static void assert_says(const cw_drawing *d, const char *text)
{
    if (!says(d, text))
        fail_msg("the drawing does not say %s", text);
}

static void check_legible(const cw_plan *plan, const char *name, cw_arena *arena)
{
    for (int f = 0; f < COUNT_OF(frames); f++) {
        const double w = frames[f][0], h = frames[f][1];
        assert_clean(cw_draw_end(plan, false, w, h, arena),
                     cw_arena_print(arena, "%s outlet %.0f", name, w), arena);
        assert_clean(cw_draw_end(plan, true, w, h, arena),
                     cw_arena_print(arena, "%s inlet %.0f", name, w), arena);
        assert_clean(cw_draw_obstacles(plan, w, h, arena),
                     cw_arena_print(arena, "%s obstacles %.0f", name, w), arena);
        assert_clean(cw_draw_plan_view(plan, w, h, arena),
                     cw_arena_print(arena, "%s plan %.0f", name, w), arena);
        assert_clean(cw_draw_long_profile(plan, 0, w, h, arena),
                     cw_arena_print(arena, "%s profile %.0f", name, w), arena);
    }
}

static void sheets_are_legible(void **state)
{
    (void)state;
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        check_legible(plan_of_demo(demos[j], &arena), demos[j], &arena);
        cw_arena_release(&arena);
    }
    const char *const texts[] = {us_job, si_job, bare_job};
    for (int j = 0; j < COUNT_OF(texts); j++) {
        cw_arena arena = cw_arena_on(NULL);
        check_legible(plan_of_text(texts[j], &arena), cw_arena_print(&arena, "text %d", j), &arena);
        cw_arena_release(&arena);
    }
}

/* Width and height of what one fill covers, points. */
static void fill_bounds(const cw_drawing *d, cw_fill fill, cw_xy *min, cw_xy *max)
{
    *min = (cw_xy){1e9, 1e9};
    *max = (cw_xy){-1e9, -1e9};
    for (int i = 0; i < d->count; i++) {
        if (d->items[i].kind != CW_ITEM_PATH || d->items[i].fill != fill)
            continue;
        cw_xy low, high;
        cw_item_bounds(&d->items[i], &low, &high);
        *min = (cw_xy){fmin(min->x, low.x), fmin(min->y, low.y)};
        *max = (cw_xy){fmax(max->x, high.x), fmax(max->y, high.y)};
    }
}

/* Cast wings are the widest concrete that is cut: from back to back of their tips. */
static void ends_are_to_scale(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_demo("farm-road", &arena);
    const cw_drawing *d = cw_draw_end(plan, false, 539, 425, &arena);
    const cw_plan_end_works *works = &plan->outlet.works;
    cw_xy min, max;
    fill_bounds(d, CW_FILL_CONCRETE_CUT, &min, &max);
    // 12 in of wall at 30 deg of flare reaches cos 30 of a foot farther out.
    const double wide_ft = works->plan.tip[CW_END_RIGHT].right_ft -
                           works->plan.tip[CW_END_LEFT].right_ft + 2.0 * cos(30.0 * CW_RAD_PER_DEG);
    assert_true(fabs(max.x - min.x - wide_ft * d->view.scale_x) < PAPER_PT);
    assert_says(d, "OUTLET END");
    for (int side = 0; side < 2; side++)
        assert_says(
            d, cw_quantity_format(&arena, works->wings[side].take.length_ft, CW_DIM_FT, CW_US));
    assert_says(d, cw_quantity_format(&arena, works->apron.area_sqft, CW_DIM_SQFT, CW_US));
    cw_arena_release(&arena);
}

/* The box on the sheet of obstacles is as long and wide as the plan says. */
static void obstacles_are_to_scale(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(us_job, &arena);
    const cw_drawing *d = cw_draw_obstacles(plan, 1000, 600, &arena);
    cw_xy min, max;
    fill_bounds(d, CW_FILL_CONCRETE, &min, &max);
    assert_true(fabs(max.x - min.x - plan->plan_length_ft * d->view.scale_x) < PAPER_PT);
    assert_true(fabs(max.y - min.y - plan->width_ft * d->view.scale_y) < PAPER_PT);
    assert_says(cw_draw_long_profile(plan, 0, 1000, 600, &arena), "Old line");
    assert_says(cw_draw_long_profile(plan, 0, 1000, 600, &arena), "Old line");
    static const char *const words[] = {"Gas",
                                        "Water",
                                        "Duct",
                                        "Old line (abandoned)",
                                        "Barn",
                                        "Fence",
                                        "Right of way, left",
                                        "DOES NOT FIT",
                                        "OUTLET",
                                        "INLET"};
    for (int i = 0; i < COUNT_OF(words); i++)
        assert_says(d, words[i]);
    cw_arena_release(&arena);
}

static void nothing_to_draw_is_said(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(bare_job, &arena);
    assert_says(cw_draw_end(plan, true, 540, 400, &arena), "no wings");
    assert_says(cw_draw_obstacles(plan, 540, 400, &arena), "no obstacles");
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sheets_are_legible),
        cmocka_unit_test(ends_are_to_scale),
        cmocka_unit_test(obstacles_are_to_scale),
        cmocka_unit_test(nothing_to_draw_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
