/* The drawings of every demonstration job: legible, in the frame, to scale, and saying what the
 * plan says. */
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
#define PAPER_PT 0.02 /* agreement of lengths on paper */

static const char *const demos[] = {"farm-road", "twin-hood", "phased-three", "gully"};

/* Letter and tabloid, and the frames that the setting book uses. */
static const double frames[][2] = {{540, 400},  {1000, 600}, {540, 430},
                                   {1000, 340}, {540, 640},  {1100, 600}};

/* One-piece boxes, no road, a step between the barrels, metric print: what no demonstration job
 * has. */
static const char ring_job[] = "format: 1\n"
                               "job: {name: Ring, units: si}\n"
                               "survey: {northing: 100 ft, easting: 200 ft, azimuth: 200 deg}\n"
                               "run: {invert: 50 ft, slope: 2%, length: 60 ft}\n"
                               "box: {form: ring, span: 6 ft, rise: 5 ft, wall: 7 in, floor: 7 in, "
                               "top: 8 in, haunch: 6 in, top_haunch: 6 in}\n"
                               "barrels: {count: 2, clear_gap: 6 in, drops: [0 in, 12 in]}\n"
                               "pieces: {lengths: [6 ft, 5 ft, 4 ft]}\n";

/* Six barrels at 45 degrees to the road with staggered rows and openings that are not round; and
 * two bends. */
static const char wide_job[] =
    "format: 1\n"
    "job: {name: Wide}\n"
    "survey: {northing: 100 ft, easting: 200 ft, azimuth: 200 deg}\n"
    "road:\n"
    "  station: 1+00\n"
    "  elevation: 120 ft\n"
    "  grade: -2%\n"
    "  inlet_side: left\n"
    "  outlet_template: {strips: [{width: 20 ft, fall: 2%}], side_slope: 2:1}\n"
    "  inlet_template: {strips: [{width: 20 ft, fall: 2%}], side_slope: 2:1}\n"
    "run: {skew: -45 deg, invert: 108 ft, slope: 3%, cut: road}\n"
    "box: {form: lid, span: 10 ft, rise: 5 ft, wall: 9 in, floor: 9 in, top: 10 in, haunch: 6 in}\n"
    "barrels: {count: 6, clear_gap: 6 in}\n"
    "pieces: {lengths: [8 ft, 7 ft, 6 ft, 5 ft, 4 ft], rows: staggered}\n"
    "openings:\n"
    "  - {name: Sump, barrel: 3, face: floor, at: 30 ft, height: 1 ft, width: 2 ft, tall: 3 ft}\n"
    "  - {name: Port, barrel: 1, face: left, at: 40 ft, height: 30 in, width: 2 ft, tall: 18 in}\n";

static const char bent_job[] =
    "format: 1\n"
    "job: {name: Bent}\n"
    "survey: {northing: 100 ft, easting: 200 ft, azimuth: 20 deg}\n"
    "run: {invert: 50 ft, slope: 0.5%, length: 200 ft}\n"
    "bends: [{at: 60 ft, turn: -15 deg}, {at: 140 ft, turn: 10 deg}]\n"
    "box: {form: double-u, span: 8 ft, rise: 8 ft, leg: 4 ft, wall: 10 in, floor: 10 in, "
    "top: 10 in, haunch: 8 in, top_haunch: 8 in}\n"
    "barrels: {count: 1}\n"
    "pieces: {lengths: [8 ft, 6 ft, 5 ft, 4 ft]}\n";

/* ---- what every drawing must keep ---- */

static void all_sheets_clean(const cw_plan *plan, double width_pt, double height_pt,
                             cw_arena *arena)
{
    assert_clean(cw_draw_plan_view(plan, width_pt, height_pt, arena), "plan", arena);
    assert_clean(cw_draw_typical_section(plan, width_pt, height_pt, arena), "section", arena);
    assert_clean(cw_draw_layout(plan, width_pt, height_pt, arena), "layout", arena);
    assert_clean(cw_draw_joint_detail(plan, width_pt, height_pt, arena), "joint", arena);
    for (int b = 0; b < plan->barrel_count; b++)
        assert_clean(cw_draw_long_profile(plan, b, width_pt, height_pt, arena), "profile", arena);
}

static void sheets_are_legible(void **state)
{
    (void)state;
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(demos[j], &arena);
        for (int f = 0; f < COUNT_OF(frames); f++)
            all_sheets_clean(plan, frames[f][0], frames[f][1], &arena);
        assert_clean(cw_draw_joint_detail(plan, 540, 207, &arena), "small joint", &arena);
        cw_arena_release(&arena);
    }
}

/* The frames that the papers of the setting book leave. */
static void book_frames_are_legible(void **state)
{
    (void)state;
    static const double shares[] = {0.55, 0.62, 0.86, 1};
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(demos[j], &arena);
        for (int paper = CW_PAPER_LETTER; paper <= CW_PAPER_TABLOID; paper++) {
            const cw_room room = cw_paper_room((cw_paper)paper);
            for (int k = 0; k < COUNT_OF(shares); k++)
                all_sheets_clean(plan, room.full_pt, room.height_pt * shares[k], &arena);
            for (int t = 0; t < plan->type_count; t++)
                assert_clean(cw_draw_piece(plan, t, room.full_pt, room.height_pt * 0.66, &arena),
                             plan->types[t].mark, &arena);
        }
        cw_arena_release(&arena);
    }
}

static void pieces_are_legible(void **state)
{
    (void)state;
    static const double sizes[][2] = {{540, 400}, {540, 455}, {1000, 520}, {1100, 600}};
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(demos[j], &arena);
        for (int t = 0; t < plan->type_count; t++)
            for (int f = 0; f < COUNT_OF(sizes); f++)
                assert_clean(cw_draw_piece(plan, t, sizes[f][0], sizes[f][1], &arena),
                             plan->types[t].mark, &arena);
        cw_arena_release(&arena);
    }
}

static void story_is_legible(void **state)
{
    (void)state;
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(demos[j], &arena);
        for (int i = 0; i < plan->piece_count; i++) {
            assert_clean(cw_draw_story_frame(plan, i, 170, 95, &arena), "story", &arena);
            assert_clean(cw_draw_story_frame(plan, i, 200, 112, &arena), "story", &arena);
        }
        cw_arena_release(&arena);
    }
}

static void other_jobs_are_legible(void **state)
{
    (void)state;
    const char *const jobs[] = {ring_job, wide_job, bent_job};
    for (int j = 0; j < COUNT_OF(jobs); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_text(jobs[j], &arena);
        all_sheets_clean(plan, 540, 400, &arena);
        all_sheets_clean(plan, 1000, 600, &arena);
        for (int t = 0; t < plan->type_count; t++)
            assert_clean(cw_draw_piece(plan, t, 540, 455, &arena), plan->types[t].mark, &arena);
        for (int i = 0; i < plan->piece_count; i++)
            assert_clean(cw_draw_story_frame(plan, i, 170, 95, &arena), "story", &arena);
        cw_arena_release(&arena);
    }
}

/* ---- what the drawings say ---- */

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

/* Box of all filled shapes with this fill. */
static void fill_bounds(const cw_drawing *d, cw_fill fill, cw_xy *min, cw_xy *max)
{
    *min = (cw_xy){1e9, 1e9};
    *max = (cw_xy){-1e9, -1e9};
    for (int i = 0; i < d->count; i++) {
        cw_xy low, high;
        if (d->items[i].fill != fill || d->items[i].kind != CW_ITEM_PATH)
            continue;
        cw_item_bounds(&d->items[i], &low, &high);
        *min = (cw_xy){fmin(min->x, low.x), fmin(min->y, low.y)};
        *max = (cw_xy){fmax(max->x, high.x), fmax(max->y, high.y)};
    }
}

/* Hand calculation from the job files: outside width = span + 2 walls; all barrels = n outside + (n
 * - 1) gaps. */
static void section_says_the_job(void **state)
{
    (void)state;
    static const struct {
        const char *demo, *texts[5];
        double total_in, height_in;
    } rows[] = {
        {"farm-road",
         {"10'-0\"", "5'-0\"", "11'-8\" out to out", "6'-9\" outside", "2\" leveling"},
         140,
         81},
        {"twin-hood",
         {"12'-0\"", "10'-0\"", "28'-6\" out to out", "12'-4\" outside", "14'-0\" outside"},
         342,
         148},
        {"phased-three",
         {"12'-0\"", "8'-0\"", "41'-8\" out to out", "9'-11\" outside", "13'-8\" outside"},
         500,
         119},
        {"gully",
         {"8'-0\"", "6'-0\"", "9'-4\" out to out", "7'-6\" outside", "2\" leveling"},
         112,
         90},
    };
    for (int r = 0; r < COUNT_OF(rows); r++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(rows[r].demo, &arena);
        const cw_drawing *d = cw_draw_typical_section(plan, 540, 400, &arena);
        for (int i = 0; i < 5; i++)
            assert_says(d, rows[r].texts[i]);
        cw_xy min, max;
        fill_bounds(d, CW_FILL_CONCRETE_CUT, &min, &max);
        assert_true(fabs(max.x - min.x - rows[r].total_in * d->view.scale_x) < PAPER_PT);
        assert_true(fabs(max.y - min.y - rows[r].height_in * d->view.scale_y) < PAPER_PT);
        cw_arena_release(&arena);
    }
}

/* Straight square runs: the pieces reach from face to face, and their width is that of the barrels.
 */
static void plan_is_to_scale(void **state)
{
    (void)state;
    static const char *const straight[] = {"farm-road", "phased-three", "gully"};
    for (int j = 0; j < COUNT_OF(straight); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(straight[j], &arena);
        const cw_drawing *d = cw_draw_plan_view(plan, 540, 400, &arena);
        cw_xy min, max;
        fill_bounds(d, CW_FILL_CONCRETE, &min, &max);
        assert_true(fabs(max.x - min.x - plan->plan_length_ft * d->view.scale_x) < PAPER_PT);
        assert_true(fabs(max.y - min.y - plan->width_ft * d->view.scale_y) < PAPER_PT);
        assert_says(
            d, cw_arena_print(&arena, "%s plan length",
                              cw_quantity_format(&arena, plan->plan_length_ft, CW_DIM_FT, CW_US)));
        assert_says(
            d, cw_quantity_format(&arena, plan->job->road.station_ft, CW_DIM_STATION_FT, CW_US));
        assert_says(d, "OUTLET");
        assert_true(text_item(d, "OUTLET")->at.x < text_item(d, "INLET")->at.x);
        cw_arena_release(&arena);
    }
}

/* North of the farm road's culvert is upstream (road due east, inlet on the left), so north points
 * right.  In the twin the skew is 20 degrees and the azimuth 75 + 90 - 20 = 145 degrees. */
static void plan_says_skew_and_north(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_drawing *farm = cw_draw_plan_view(plan_of_demo("farm-road", &arena), 540, 400, &arena);
    assert_says(farm, "azimuth 0°");
    assert_says(farm, "no skew");
    const cw_item *north = text_item(farm, "N");
    for (int i = 0; i < farm->count; i++)
        if (farm->items[i].kind == CW_ITEM_TEXT && strcmp(farm->items[i].text, "N") == 0)
            north = &farm->items[i];
    assert_true(fabs(north->at.x - (540 - 32 + 16 + 8)) < 1);
    const cw_drawing *twin = cw_draw_plan_view(plan_of_demo("twin-hood", &arena), 540, 400, &arena);
    assert_says(twin, "azimuth 145°");
    assert_says(twin, "Skew 20°");
    assert_says(twin, "Bend 4° right");
    cw_arena_release(&arena);
}

static void profile_says_the_joints(void **state)
{
    (void)state;
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(demos[j], &arena);
        for (int b = 0; b < plan->barrel_count; b++) {
            const cw_drawing *d = cw_draw_long_profile(plan, b, 540, 400, &arena);
            const cw_plan_barrel *barrel = &plan->barrels[b];
            const cw_plan_joint *last = &barrel->joints[barrel->base_count];
            const cw_item *outlet = text_item(d, "outlet"), *inlet = text_item(d, "inlet");
            assert_non_null(outlet);
            assert_non_null(inlet);
            /* Turned words stand with their middle half a capital height beside the joint, both
             * alike. */
            assert_true(fabs(inlet->at.x - outlet->at.x - last->at.at_ft * d->view.scale_x) <
                        PAPER_PT);
            assert_says(d, cw_quantity_number(&arena, barrel->joints[0].at.invert_ft,
                                              CW_DIM_ELEV_FT, CW_US));
            assert_says(d, cw_quantity_number(&arena, last->at.invert_ft, CW_DIM_ELEV_FT, CW_US));
            assert_says(d, cw_quantity_number(&arena, last->at.at_ft, CW_DIM_FT, CW_US));
            assert_says(d, cw_arena_print(&arena, "Least cover %s",
                                          cw_quantity_format(&arena, barrel->least_cover.cover_ft,
                                                             CW_DIM_FT, CW_US)));
            const double times = d->view.scale_y / d->view.scale_x;
            assert_true(times >= 1 && times <= 5);
            if (times > 1)
                assert_says(d, "(heights");
        }
        cw_arena_release(&arena);
    }
}

static void piece_says_its_weight(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_demo("twin-hood", &arena);
    for (int t = 0; t < plan->type_count; t++) {
        const cw_plan_type *type = &plan->types[t];
        const cw_drawing *d = cw_draw_piece(plan, t, 540, 455, &arena);
        assert_says(d, type->mark);
        assert_says(d, cw_quantity_format(&arena, type->weight.weight_lb, CW_DIM_LB, CW_US));
        assert_says(
            d, cw_arena_print(&arena, "%s laying length",
                              cw_quantity_format(&arena, type->shape.length_in, CW_DIM_IN, CW_US)));
        assert_says(d, "TO OUTLET");
        assert_says(d, "TOP");
        /* The longer edge of an end cut on the skew: length + width tan(20 deg) / 2; 7 ft and 14
         * ft: 9'-6 9/16". */
        if (fabs(type->shape.downstream.skew_deg) > 1 && type->shape.length_in == 7 * CW_IN_PER_FT)
            assert_says(d, "9'-6 9/16\"");
        for (int i = 0; i < type->shape.opening_count; i++)
            assert_says(d,
                        cw_quantity_format(&arena, type->shape.openings[i].y_in, CW_DIM_IN, CW_US));
    }
    cw_arena_release(&arena);
}

static void layout_names_every_piece(void **state)
{
    (void)state;
    static const double sizes[][2] = {{540, 640}, {1000, 600}};
    for (int j = 0; j < COUNT_OF(demos); j++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of_demo(demos[j], &arena);
        for (int f = 0; f < COUNT_OF(sizes); f++) {
            const cw_drawing *d = cw_draw_layout(plan, sizes[f][0], sizes[f][1], &arena);
            for (int i = 0; i < plan->piece_count; i++)
                assert_says(d, plan->pieces[i].slot);
        }
        cw_arena_release(&arena);
    }
}

/* All pieces are in the frame of a short run: f stand, one is set, the rest is to come. */
static void story_counts_pieces(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_demo("farm-road", &arena);
    for (int f = 0; f < plan->piece_count; f++) {
        const cw_drawing *d = cw_draw_story_frame(plan, f, 170, 95, &arena);
        int standing = 0, coming = 0, now = 0;
        for (int i = 0; i < d->count; i++) {
            standing += d->items[i].fill == CW_FILL_CONCRETE;
            coming += d->items[i].layer == CW_LAYER_FUTURE;
            now += d->items[i].fill == CW_FILL_SHADE && d->items[i].layer == CW_LAYER_HIGHLIGHT;
        }
        assert_int_equal(standing, f);
        assert_int_equal(now, 1);
        assert_int_equal(coming, plan->piece_count - f - 1);
        assert_says(d, plan->pieces[plan->setting[f]].slot);
    }
    cw_arena_release(&arena);
}

static void joint_says_its_limits(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    /* The twin's job file raises the largest gap to 1 in. */
    const cw_drawing *d =
        cw_draw_joint_detail(plan_of_demo("twin-hood", &arena), 1000, 500, &arena);
    assert_says(d, "Gap 1/2\" (1/4\" to 1\")");
    assert_says(d, "Tongue 3 1/2\"");
    assert_says(d, "THE PRECASTER'S DRAWING GOVERNS");
    assert_says(d, "OUTLET");
    cw_arena_release(&arena);
}

/* Same plan, same bytes. */
static void drawings_repeat(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of_demo("twin-hood", &arena),
                  *again = plan_of_demo("twin-hood", &arena);
    const cw_drawing *const pairs[][2] = {
        {cw_draw_plan_view(plan, 540, 400, &arena), cw_draw_plan_view(again, 540, 400, &arena)},
        {cw_draw_long_profile(plan, 1, 540, 400, &arena),
         cw_draw_long_profile(again, 1, 540, 400, &arena)},
        {cw_draw_typical_section(plan, 540, 400, &arena),
         cw_draw_typical_section(again, 540, 400, &arena)},
        {cw_draw_layout(plan, 540, 400, &arena), cw_draw_layout(again, 540, 400, &arena)},
        {cw_draw_piece(plan, 0, 540, 400, &arena), cw_draw_piece(again, 0, 540, 400, &arena)},
        {cw_draw_story_frame(plan, 9, 170, 95, &arena),
         cw_draw_story_frame(again, 9, 170, 95, &arena)},
        {cw_draw_joint_detail(plan, 540, 400, &arena),
         cw_draw_joint_detail(again, 540, 400, &arena)},
    };
    for (int i = 0; i < COUNT_OF(pairs); i++)
        assert_string_equal(cw_svg_write(pairs[i][0], "", &arena),
                            cw_svg_write(pairs[i][1], "", &arena));
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sheets_are_legible),       cmocka_unit_test(book_frames_are_legible),
        cmocka_unit_test(pieces_are_legible),       cmocka_unit_test(story_is_legible),
        cmocka_unit_test(other_jobs_are_legible),   cmocka_unit_test(section_says_the_job),
        cmocka_unit_test(plan_is_to_scale),         cmocka_unit_test(plan_says_skew_and_north),
        cmocka_unit_test(profile_says_the_joints),  cmocka_unit_test(piece_says_its_weight),
        cmocka_unit_test(layout_names_every_piece), cmocka_unit_test(story_counts_pieces),
        cmocka_unit_test(joint_says_its_limits),    cmocka_unit_test(drawings_repeat),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
