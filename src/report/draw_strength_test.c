/* The drawings of strength: legible in every frame, the same twice, to scale, and saying what the plan says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <string.h>

#include "cw/render.h"
#include "cw/report.h"
#include "cw/units.h"
#include "draw_test_help.h"

#define COUNT_OF(a) ((int)(sizeof(a) / sizeof(a)[0]))

static const double frames[][2] = {{517, 280}, {540, 330}, {1000, 340}, {1100, 600}};
static const char *const demos[] = {"farm-road", "twin-hood", "phased-three"};

#define JOB(units, form, strength)                                                                                     \
    "format: 1\njob: {name: Strength, units: " units "}\n"                                                             \
    "run: {invert: 500 ft, slope: 1%, length: 60 ft, end_tolerance: 1 ft}\n"                                           \
    "box: {" form ", span: 10 ft, rise: 6 ft, wall: 9 in, floor: 9 in, top: 10 in, haunch: 6 in}\n"                    \
    "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n"                                                                          \
    "strength:\n  resistance: box\n  spread: box\n  edition: lrfd-8\n  cover_least: 1 ft\n  cover_most: 14 ft\n" strength

static const char *const jobs[] = {
    JOB("si", "form: ring, top_haunch: 6 in", "  flood: 504 ft\n  steel: [{at: top-inside, area: 0.5 in2/ft}]\n"),
    JOB("us", "form: lid", ""),
    JOB("us", "form: double-u, leg: 3 ft, top_haunch: 6 in",
        "  vehicles: [{name: A very long name of a heavy scraper with a full load, use: crossing, axles: [90000 lb, 70000 lb], "
        "spacing: [20 ft]}]\n"),
};

static void all_clean(const cw_plan *plan, const char *what, cw_arena *arena)
{
    const cw_plan_strength *s = &plan->strength;
    assert_true(s->cover_count > 0 && s->status == CW_STRUCT_OK);
    for (int f = 0; f < COUNT_OF(frames); f++) {
        const double w = frames[f][0], h = frames[f][1];
        for (int c = 0; c < s->cover_count; c++) {
            assert_clean(cw_draw_loads(plan, c, w, h, arena), what, arena);
            for (int g = 0; g < CW_PLAN_GROUNDS; g++)
                assert_clean(cw_draw_forces(plan, c, g, w, h, arena), what, arena);
        }
        assert_clean(cw_draw_resistance(plan, w, h * 1.3, arena), what, arena);
        assert_clean(cw_draw_crossings(plan, w, h, arena), what, arena);
    }
}

static void legible_in_every_frame(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT_OF(demos) + COUNT_OF(jobs); i++) {
        cw_arena arena = cw_arena_on(NULL);
        const bool demo = i < COUNT_OF(demos);
        all_clean(demo ? plan_of_demo(demos[i], &arena) : plan_of_text(jobs[i - COUNT_OF(demos)], &arena),
                  demo ? demos[i] : "job", &arena);
        cw_arena_release(&arena);
    }
}

static bool says(const cw_drawing *d, const char *words)
{
    for (int i = 0; i < d->count; i++)
        if (d->items[i].kind == CW_ITEM_TEXT && strstr(d->items[i].text, words))
            return true;
    return false;
}

/* Numbers on the sheets are those of the plan, and a sheet drawn twice is the same. */
static void say_what_the_plan_says(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_demo("phased-three", &arena);
    const cw_plan_strength *s = &plan->strength;
    const cw_drawing *loads = cw_draw_loads(plan, 1, 1000, 600, &arena);
    assert_true(says(loads, cw_quantity_format(&arena, s->earth_psf[1], CW_DIM_PSF, plan->units)));
    assert_string_equal(cw_svg_write(loads, "", &arena), cw_svg_write(cw_draw_loads(plan, 1, 1000, 600, &arena), "", &arena));
    const cw_drawing *forces = cw_draw_forces(plan, 1, CW_STRUCT_UNIFORM, 1000, 400, &arena);
    const cw_struct_envelope *e = &s->envelopes[1][CW_STRUCT_UNIFORM][CW_STRUCT_STRENGTH];
    assert_true(says(forces, cw_quantity_format(&arena, e->at[CW_STRUCT_TOP_MID].most_ft_lb, CW_DIM_FT_LB, plan->units)));
    assert_true(says(forces, cw_struct_case_words(e->at[CW_STRUCT_TOP_MID].most_case)));
    assert_true(says(cw_draw_resistance(plan, 1000, 600, &arena), "middle of the floor, inside"));
    assert_true(says(cw_draw_crossings(plan, 1000, 400, &arena), "Loaded excavator"));
    cw_arena_release(&arena);
}

/* The box stands to scale: its outline is as many feet wide as the box outside. */
static void box_is_to_scale(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_demo("phased-three", &arena);
    const cw_drawing *d = cw_draw_loads(plan, 0, 1000, 600, &arena);
    double width_ft = 0.0;
    for (int i = 0; i < d->count; i++) {
        if (d->items[i].layer != CW_LAYER_CUT)
            continue;
        cw_xy min, max;
        cw_item_bounds(&d->items[i], &min, &max);
        width_ft = fmax(width_ft, (max.x - min.x) / d->view.scale_x);
    }
    assert_true(fabs(width_ft - plan->outside_width_in / CW_IN_PER_FT) < 0.05);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(legible_in_every_frame), cmocka_unit_test(say_what_the_plan_says),
                                       cmocka_unit_test(box_is_to_scale)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
