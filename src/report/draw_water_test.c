/* The three drawings of the water: legible in every frame, to scale against their own ticks, and
 * saying what the plan says. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cw/quantity.h"
#include "cw/render.h"
#include "cw/report.h"
#include "cw/units.h"
#include "draw_test_help.h"

#define COUNT_OF(a) ((int)(sizeof(a) / sizeof(a)[0]))
#define PAPER_PT 0.02

static const double frames[][2] = {{517, 330}, {540, 400}, {1000, 600}, {1100, 500}};
static const char *const demos[] = {"farm-road", "twin-hood", "phased-three", "gully"};

/* A lid box under a road, units and water section to be filled in. */
#define JOB(units, slope, water)                                                                   \
    "format: 1\n"                                                                                  \
    "job: {name: Water, units: " units "}\n"                                                       \
    "survey: {northing: 100 ft, easting: 200 ft, azimuth: 90 deg}\n"                               \
    "road:\n"                                                                                      \
    "  station: 1+00\n"                                                                            \
    "  elevation: 512 ft\n"                                                                        \
    "  grade: 0.5%\n"                                                                              \
    "  inlet_side: left\n"                                                                         \
    "  outlet_template: {strips: [{width: 12 ft, fall: 2%}], side_slope: 2:1}\n"                   \
    "  inlet_template: {strips: [{width: 12 ft, fall: 2%}], side_slope: 2:1}\n"                    \
    "run: {invert: 501 ft, slope: " slope ", length: 60 ft, outlet_distance: 30 ft}\n"             \
    "box: {form: lid, span: 10 ft, rise: 5 ft, wall: 9 in, floor: 9 in, top: 10 in, "              \
    "haunch: 6 in}\n"                                                                              \
    "barrels: {count: 1}\n"                                                                        \
    "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n" water

#define OVER                                                                                       \
    "water:\n"                                                                                     \
    "  inlet: wings-30-75\n"                                                                       \
    "  allowed_headwater: 509 ft\n"                                                                \
    "  tailwater: {kind: trapezoid, bottom: 10 ft, side_slope: 2:1, roughness: 0.04, "             \
    "slope: 0.4%}\n"                                                                               \
    "  flows:\n"                                                                                   \
    "    - {name: Design storm, use: design, flow: 420 cfs, period: 25}\n"                         \
    "    - {name: Check flood, use: check, flow: 1000 cfs, period: 100}\n"                         \
    "    - {name: Summer work, use: work, flow: 40 cfs}\n"                                         \
    "  crest:\n"                                                                                   \
    "    - {at: -200 ft, elevation: 514 ft}\n"                                                     \
    "    - {at: 0 ft, elevation: 511.5 ft}\n"                                                      \
    "    - {at: 200 ft, elevation: 515 ft}\n"

#define FULL                                                                                       \
    "water:\n"                                                                                     \
    "  inlet: wings-30-75\n"                                                                       \
    "  bed: 6 in\n"                                                                                \
    "  tailwater: {kind: fixed, level: 508 ft}\n"                                                  \
    "  flows: [{name: Design storm of the county road, use: design, flow: 400 cfs, period: 25}]\n"

#define JUMP                                                                                       \
    "water:\n"                                                                                     \
    "  inlet: wings-90-15\n"                                                                       \
    "  tailwater: {kind: fixed, level: 503.7 ft}\n"                                                \
    "  flows: [{name: Design storm, use: design, flow: 180 cfs, period: 25}]\n"

#define FREE                                                                                       \
    "water:\n"                                                                                     \
    "  inlet: headwall-chamfer\n"                                                                  \
    "  tailwater: {kind: free}\n"                                                                  \
    "  flows: [{name: Design storm, use: design, flow: 320 cfs, period: 25}]\n"

/* The design flow lies past the end of the table: its question has no answer. */
#define SHORT_TABLE                                                                                \
    "water:\n"                                                                                     \
    "  inlet: headwall-chamfer\n"                                                                  \
    "  tailwater: {kind: table, table: [{flow: 0 cfs, level: 501 ft}, {flow: 50 cfs, level: 502 "  \
    "ft}]}\n"                                                                                      \
    "  flows: [{name: Design storm, use: design, flow: 320 cfs, period: 25}]\n"

static const char over_job[] = JOB("us", "0.6%", OVER), over_si[] = JOB("si", "0.6%", OVER),
                  full_job[] = JOB("us", "0.6%", FULL), jump_job[] = JOB("us", "4%", JUMP),
                  free_job[] = JOB("us", "1%", FREE), table_job[] = JOB("us", "1%", SHORT_TABLE),
                  dry_job[] = JOB("us", "1%", "");

/* ---- legible ---- */

static void all_clean(const cw_plan *plan, const char *what, cw_arena *arena)
{
    for (int f = 0; f < COUNT_OF(frames); f++) {
        const double w = frames[f][0], h = frames[f][1];
        assert_clean(cw_draw_performance(plan, w, h, arena), what, arena);
        for (int i = 0; i < plan->water.flow_count; i++) {
            assert_clean(cw_draw_apron(plan, i, w, h, arena), what, arena);
            for (int b = 0; b < plan->barrel_count; b++)
                assert_clean(cw_draw_water_profile(plan, i, b, w, h, arena), what, arena);
        }
    }
}

static void sheets_are_legible(void **state)
{
    (void)state;
    const char *const jobs[] = {over_job, over_si,   full_job, jump_job,
                                free_job, table_job, dry_job};
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

/* ---- words and scale ---- */

static const cw_item *text_item(const cw_drawing *d, const char *part)
{
    for (int i = 0; i < d->count; i++)
        if (d->items[i].kind == CW_ITEM_TEXT && strstr(d->items[i].text, part))
            return &d->items[i];
    return NULL;
}

static void assert_says(const cw_drawing *d, const char *part)
{
    if (!text_item(d, part))
        fail_msg("nothing says \"%s\"", part);
}

/* The text item that is exactly @p text, by rank. */
static const cw_item *exact_item(const cw_drawing *d, const char *text)
{
    for (int i = 0; i < d->count; i++)
        if (d->items[i].kind == CW_ITEM_TEXT && strcmp(d->items[i].text, text) == 0)
            return &d->items[i];
    fail_msg("no tick \"%s\"", text);
    return NULL;
}

/* The mark of the design flow stands where the printed ticks of both axes put its values. */
static void design_point_is_to_scale(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(over_job, &arena);
    const cw_plan_flow *flow = &plan->water.flows[0];
    const cw_drawing *d = cw_draw_performance(plan, 517, 330, &arena);
    const cw_item *mark = NULL;
    for (int i = 0; i < d->count; i++)
        if (d->items[i].kind == CW_ITEM_ARC && d->items[i].fill == CW_FILL_SOLID)
            mark = &d->items[i];
    assert_non_null(mark);
    const double x0 = exact_item(d, "200")->at.x, x1 = exact_item(d, "600")->at.x;
    const double y0 = exact_item(d, "502")->at.y, y1 = exact_item(d, "510")->at.y,
                 cap_pt = CW_FONT_CAP * d->text_pt / 2;
    assert_true(fabs(mark->center.x - (x0 + (x1 - x0) * (420 - 200) / 400)) < PAPER_PT);
    assert_true(
        fabs(mark->center.y - (y0 - cap_pt + (y1 - y0) * (flow->answer.pool_ft - 502) / 8)) < 0.1);
    cw_arena_release(&arena);
}

static void curve_says_the_plan(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(over_job, &arena);
    const cw_drawing *d = cw_draw_performance(plan, 517, 330, &arena);
    const cw_plan_water *water = &plan->water;
    assert_true(water->has_overtopping && water->flows[1].answer.over.flow_cfs > 0);
    /* The underside of the top lies the rise of 5 ft over the inlet's floor. */
    assert_says(d, cw_quantity_format(&arena, cw_water_sill_ft(&water->site.barrels[0]) + 5,
                                      CW_DIM_ELEV_FT, CW_US));
    assert_says(d, "Low point of the road 511.50 ft");
    assert_says(d, "Allowed headwater 509.00 ft");
    assert_says(d, "Design storm: 420.0 cfs");
    assert_says(d, "Check flood: 1,000 cfs");
    assert_says(d, "through the barrels;");
    assert_says(d, "over the road too");
    for (int i = 0; i < water->flow_count; i++)
        assert_says(d, cw_arena_print(&arena, "pool %s, HW/D %s",
                                      cw_quantity_format(&arena, water->flows[i].answer.pool_ft,
                                                         CW_DIM_ELEV_FT, CW_US),
                                      cw_decimal(&arena, water->flows[i].ratio, 2)));
    assert_says(d, cw_water_control_words(water->flows[0].answer.heads[0].control));
    const cw_drawing *si = cw_draw_performance(plan_of_text(over_si, &arena), 517, 330, &arena);
    assert_says(si, "Total flow, m3/s");
    assert_says(si, "Headwater elevation, m");
    /* 509 ft x 0.3048 = 155.1432 m. */
    assert_says(si, "Allowed headwater 155.143 m");
    cw_arena_release(&arena);
}

/* Points of the water surface inside the barrel: the open WATER paths with the wide pen. */
static void surface_ends(const cw_drawing *d, cw_xy *left, cw_xy *right)
{
    *left = (cw_xy){1e9, 0};
    *right = (cw_xy){-1e9, 0};
    double widest = 0;
    for (int i = 0; i < d->count; i++)
        if (d->items[i].layer == CW_LAYER_WATER && d->items[i].kind == CW_ITEM_PATH)
            widest = fmax(widest, d->items[i].pen.width_pt);
    for (int i = 0; i < d->count; i++) {
        const cw_item *item = &d->items[i];
        if (item->layer != CW_LAYER_WATER || item->kind != CW_ITEM_PATH || item->closed ||
            item->pen.width_pt < widest)
            continue;
        for (int k = 0; k < item->ring_end[0]; k++) {
            if (item->points[k].x < left->x)
                *left = item->points[k];
            if (item->points[k].x > right->x)
                *right = item->points[k];
        }
    }
}

/* Outlet and inlet depth on paper are those of the profile, over the printed floor. */
static void surface_is_to_scale(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const char *const jobs[] = {over_job, jump_job, free_job};
    for (int j = 0; j < COUNT_OF(jobs); j++) {
        const cw_plan *plan = plan_of_text(jobs[j], &arena);
        const cw_water_profile *profile = &plan->water.flows[0].profiles[0];
        const cw_water_barrel *barrel = &plan->water.site.barrels[0];
        const cw_drawing *d = cw_draw_water_profile(plan, 0, 0, 517, 330, &arena);
        cw_xy left, right;
        surface_ends(d, &left, &right);
        const double outlet_ft = cw_view_real(&d->view, left).y - barrel->outlet_floor_ft,
                     inlet_ft = cw_view_real(&d->view, right).y - barrel->inlet_floor_ft;
        assert_true(fabs(outlet_ft - profile->outlet_depth_ft) < 1e-6);
        assert_true(fabs(inlet_ft - fmin(cw_water_depth_at(profile, 0), 5)) < 1e-6);
        /* Pythagoras: the horizontal length of the laid barrel. */
        const double fall_ft = barrel->inlet_floor_ft - barrel->outlet_floor_ft;
        assert_true(fabs(hypot((right.x - left.x) / d->view.scale_x, fall_ft) - barrel->length_ft) <
                    1e-6);
    }
    cw_arena_release(&arena);
}

static void surface_says_the_plan(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(jump_job, &arena);
    const cw_water_profile *p = &plan->water.flows[0].profiles[0];
    assert_true(p->has_jump);
    const cw_drawing *d = cw_draw_water_profile(plan, 0, 0, 517, 330, &arena);
    assert_says(d, "jumps inside");
    assert_says(d, "(heights");
    assert_says(d, "Froude number");
    /* Critical depth of 18 cfs a foot: (18^2/32.2)^(1/3) = 2.159 ft. */
    assert_says(d, "Critical depth 2.16 ft");
    assert_says(d, cw_arena_print(&arena, "Jump from %s",
                                  cw_quantity_format(&arena, p->jump_before_ft, CW_DIM_FT, CW_US)));
    /* Belanger's conjugate depth for the printed depth before the jump. */
    const double froude = 18 / (p->jump_before_ft * sqrt(32.2 * p->jump_before_ft));
    const double after_ft = p->jump_before_ft / 2 * (sqrt(1 + 8 * froude * froude) - 1);
    assert_says(
        d, cw_arena_print(&arena, "to %s", cw_quantity_format(&arena, after_ft, CW_DIM_FT, CW_US)));
    const cw_drawing *full =
        cw_draw_water_profile(plan_of_text(full_job, &arena), 0, 0, 517, 330, &arena);
    assert_says(full, "full from end to end");
    assert_says(full, "Pressure line");
    assert_says(full, "508.00 ft");
    const cw_drawing *open =
        cw_draw_water_profile(plan_of_text(free_job, &arena), 0, 0, 517, 330, &arena);
    assert_says(open, "Free outfall");
    assert_true(exact_item(open, "OUTLET")->at.x < exact_item(open, "INLET")->at.x);
    cw_arena_release(&arena);
}

/* HEC-14 ch. 10: the apron widens 1 in 3 on each side, so its end is wider by two thirds of its
 * length; its area in plan is that of the trapezoid. */
static void apron_is_to_scale(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_text(over_job, &arena);
    const cw_apron *apron = &plan->water.flows[0].apron;
    const cw_drawing *d = cw_draw_apron(plan, 0, 1000, 600, &arena);
    assert_true(d->view.scale_x == d->view.scale_y);
    bool found = false;
    for (int i = 0; i < d->count && !found; i++) {
        const cw_item *item = &d->items[i];
        if (item->kind != CW_ITEM_PATH || item->fill != CW_FILL_ROCK)
            continue;
        cw_xy min, max;
        cw_item_bounds(item, &min, &max);
        const double length_ft = (max.x - min.x) / d->view.scale_x,
                     end_ft = (max.y - min.y) / d->view.scale_y;
        assert_true(fabs(length_ft - apron->length_ft) < 1e-6);
        assert_true(fabs(end_ft - (apron->width_ft + 2.0 / 3.0 * length_ft)) < 1e-6);
        found = true;
    }
    assert_true(found);
    const double lengths_ft[] = {apron->length_ft, apron->width_ft, apron->end_width_ft,
                                 apron->depth_ft};
    for (int i = 0; i < COUNT_OF(lengths_ft); i++)
        assert_says(d, cw_quantity_format(&arena, lengths_ft[i], CW_DIM_FT, CW_US));
    assert_says(d, "Filter as the contract says");
    assert_says(d, "Rock class");
    assert_says(d, "HEC-14 eq. 10.4");
    assert_says(d, "Within the range");
    cw_arena_release(&arena);
}

/* A rise of 8 ft is past the 60 in. that eq. 10.4 is mainly meant for (HEC-14 sec. 10.2). */
static void apron_out_of_range_is_undecided(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_plan *plan =
        cw_load_plan(cw_arena_print(&arena, "%s/demo/phased-three.yaml", CW_ROOT), &arena, &diags);
    assert_non_null(plan);
    assert_true(plan->water.flow_count > 0 && plan->water.flows[0].has_apron);
    assert_says(cw_draw_apron(plan, 0, 517, 330, &arena), "Size undecided");
    cw_arena_release(&arena);
}

static void nothing_is_said_in_a_sentence(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    assert_says(cw_draw_performance(plan_of_text(dry_job, &arena), 517, 330, &arena),
                "no water section");
    const cw_plan *plan = plan_of_text(table_job, &arena);
    assert_int_equal(plan->water.flows[0].answer.status, CW_WATER_BEYOND_TABLE);
    assert_says(cw_draw_performance(plan, 900, 330, &arena), "outside the table of flow and stage");
    assert_says(cw_draw_water_profile(plan, 0, 0, 900, 330, &arena),
                "outside the table of flow and stage");
    assert_says(cw_draw_apron(plan, 0, 900, 330, &arena), "There is no apron");
    cw_arena_release(&arena);
}

/* Same job, same bytes. */
static void drawings_repeat(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *one = plan_of_text(over_job, &arena), *two = plan_of_text(over_job, &arena);
    assert_string_equal(cw_svg_write(cw_draw_performance(one, 517, 330, &arena), "", &arena),
                        cw_svg_write(cw_draw_performance(two, 517, 330, &arena), "", &arena));
    assert_string_equal(
        cw_svg_write(cw_draw_water_profile(one, 1, 0, 517, 330, &arena), "", &arena),
        cw_svg_write(cw_draw_water_profile(two, 1, 0, 517, 330, &arena), "", &arena));
    assert_string_equal(cw_svg_write(cw_draw_apron(one, 1, 517, 330, &arena), "", &arena),
                        cw_svg_write(cw_draw_apron(two, 1, 517, 330, &arena), "", &arena));
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sheets_are_legible),
        cmocka_unit_test(design_point_is_to_scale),
        cmocka_unit_test(curve_says_the_plan),
        cmocka_unit_test(surface_is_to_scale),
        cmocka_unit_test(surface_says_the_plan),
        cmocka_unit_test(apron_is_to_scale),
        cmocka_unit_test(apron_out_of_range_is_undecided),
        cmocka_unit_test(nothing_is_said_in_a_sentence),
        cmocka_unit_test(drawings_repeat),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
