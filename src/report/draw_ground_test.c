/* The sheets of the cut and of the backfill: legible in every frame, to scale, and saying what the
 * plan says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cw/render.h"
#include "cw/report.h"
#include "cw/units.h"
#include "draw_test_help.h"

#define COUNT_OF(a) ((int)(sizeof(a) / sizeof(a)[0]))

static const double frames[][2] = {{517, 300}, {540, 400}, {1000, 480}, {1100, 500}};
static const char *const demos[] = {"farm-road", "twin-hood", "phased-three", "gully"};

#define JOB(units, trench)                                                                         \
    "format: 1\njob: {name: Ground, number: G, units: " units "}\n"                                \
    "run: {invert: 500 ft, slope: 1%, length: 60 ft}\n"                                            \
    "box: {form: lid, span: 10 ft, rise: 6 ft, wall: 9 in, floor: 9 in, top: 10 in, haunch: 6 "    \
    "in}\n"                                                                                        \
    "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n"                                                      \
    "ground: {profile: [{at: -5 ft, elevation: 506 ft}, {at: 80 ft, elevation: 512 ft}]}\n" trench

#define CLAY                                                                                       \
    "{name: Stiff clay of the old terrace, material: cohesive, strength: 2 tsf, disturbed: no, "   \
    "wet: no}"

static const char *const jobs[] = {
    JOB("us", ""),
    JOB("us", "trench: {protection: bench, spoil: both, suitable: 100%, vibration: no, soil: [" CLAY
              "]}\n"),
    JOB("si",
        "trench: {protection: shield, shield: 6 ft, spoil: left, suitable: 50%, cross_fall: -8%}\n"
        "site_water: {groundwater: {level: 503 ft, base: 480 ft, permeability: 10 ft/day}}\n"),
    JOB("us", "barrels: {count: 3, clear_gap: 4 in}\n"
              "trench:\n  soil:\n    - {name: Road fill, material: granular, thickness: 3 ft, "
              "disturbed: yes, wet: no}\n"
              "    - {name: Silt, material: angular, thickness: 2 ft, disturbed: no, wet: yes}\n   "
              " - " CLAY "\n"
              "backfill: {zones: [{name: Haunch, material: stone, to: 2 ft}, {name: Side, "
              "material: sand, to: 6 ft}, {name: Cover, "
              "material: common fill}]}\n"
              "order: {backfill_lift: 4 in}\n"),
};

static void all_clean(const cw_plan *plan, const char *what, cw_arena *arena)
{
    for (int f = 0; f < COUNT_OF(frames); f++) {
        const double w = frames[f][0], h = frames[f][1];
        assert_clean(cw_draw_backfill(plan, w, h, arena), what, arena);
        for (int i = 0; i < plan->trench.cut_count; i++)
            if (plan->trench.cuts[i].drawn)
                assert_clean(cw_draw_trench(plan, i, w, h, arena),
                             cw_arena_print(arena, "%s, cut %d", what, i), arena);
    }
}

static void sheets_are_legible(void **state)
{
    (void)state;
    for (int j = 0; j < COUNT_OF(jobs); j++) {
        cw_arena arena = cw_arena_on(NULL);
        all_clean(plan_of_text(jobs[j], &arena), cw_arena_print(&arena, "job %d", j), &arena);
        cw_arena_release(&arena);
    }
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        const cw_plan *plan = cw_load_plan(
            cw_arena_print(&arena, "%s/demo/%s.yaml", CW_ROOT, demos[j]), &arena, &diags);
        assert_non_null(plan);
        all_clean(plan, demos[j], &arena);
        cw_arena_release(&arena);
    }
}

static bool says(const cw_drawing *d, const char *part)
{
    for (int i = 0; i < d->count; i++)
        if (d->items[i].kind == CW_ITEM_TEXT && strstr(d->items[i].text, part))
            return true;
    return false;
}

/* Every sheet of a cut names the rule on the competent person, and the widths that the plan has. */
static void cut_says_what_the_plan_says(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(jobs[1], &arena);
    const cw_plan_cut *cut = &plan->trench.cuts[plan->trench.deepest];
    const cw_drawing *d = cw_draw_trench(plan, plan->trench.deepest, 540, 400, &arena);
    assert_true(says(d, "COMPETENT PERSON"));
    assert_true(says(d, "29 CFR 1926.651(k)"));
    assert_true(says(d, cw_arena_print(&arena, "open %.2f ft", cut->section.top_ft)));
    assert_true(says(d, cw_arena_print(&arena, "bottom %.2f ft", cut->section.bottom_ft)));
    assert_true(says(d, "class A"));
    cw_arena_release(&arena);
}

/* The drawn face stands where the section has its edge. */
static void edges_are_to_scale(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(jobs[0], &arena);
    const cw_plan_cut *cut = &plan->trench.cuts[plan->trench.deepest];
    const cw_drawing *d = cw_draw_trench(plan, plan->trench.deepest, 540, 400, &arena);
    const cw_xy edge = cw_view_paper(&d->view, (cw_xy){cut->section.right_ft, cut->depth_ft});
    bool found = false;
    for (int i = 0; i < d->count; i++)
        for (int k = 0; d->items[i].kind == CW_ITEM_PATH && d->items[i].layer == CW_LAYER_CUT &&
                        k < d->items[i].ring_end[0];
             k++)
            found = found || hypot(d->items[i].points[k].x - edge.x,
                                   d->items[i].points[k].y - edge.y) < 0.02;
    assert_true(found);
    cw_arena_release(&arena);
}

static void lifts_say_what_the_plan_says(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(jobs[3], &arena);
    const cw_drawing *d = cw_draw_backfill(plan, 540, 400, &arena);
    assert_true(says(d, cw_arena_print(&arena, "%d LIFTS EACH SIDE", plan->closing.lifts)));
    assert_true(says(d, cw_arena_print(&arena, "%d lifts apart", plan->closing.lifts_apart)));
    assert_true(says(d, "Side to here"));
    assert_true(says(d, "compacted cover of 2.00 ft"));
    cw_arena_release(&arena);
}

/* A joint that no size fits says so on its detail. */
static void joint_says_none_fits(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *none = plan_of_text(JOB("us", "sealant: {sizes: [1/2 in]}\n"), &arena);
    assert_true(says(cw_draw_joint_detail(none, 540, 360, &arena), "NONE FITS"));
    const cw_plan *fits =
        plan_of_text(JOB("us", "sealant: {sizes: [1-1/4 in], width: 5/8 in}\n"), &arena);
    assert_true(says(cw_draw_joint_detail(fits, 540, 360, &arena), "5/8\" x 1 1/4\""));
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sheets_are_legible),   cmocka_unit_test(cut_says_what_the_plan_says),
        cmocka_unit_test(edges_are_to_scale),   cmocka_unit_test(lifts_say_what_the_plan_says),
        cmocka_unit_test(joint_says_none_fits),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
