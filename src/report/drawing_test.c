/* The drawing model against hand calculations and the ISO 128 line widths. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "cw/drawing.h"
#include "cw/units.h"
#include "sample_test_help.h"

static int set_up(void **state)
{
    static cw_arena arena;
    arena = cw_arena_on(NULL);
    *state = &arena;
    return 0;
}

static int tear_down(void **state)
{
    cw_arena_release(*state);
    return 0;
}

/* Frame 400 x 300, margins 50: room 300 x 200.  100 ft in 300 pt is 24 ft to the inch, the next
 * customary scale is 25: 72 / 25 = 2.88 pt/ft, 288 pt across, so the left end is at 50 + (300 -
 * 288) / 2 = 56; 20 ft are 57.6 pt high, so y = 0 is at 50 + (200 + 57.6) / 2 = 178.8.  By hand. */
static cw_view golden_view(void)
{
    return cw_view_fit((cw_view_wish){.width_pt = 400,
                                      .height_pt = 300,
                                      .max = {100, 20},
                                      .left_pt = 50,
                                      .right_pt = 50,
                                      .top_pt = 50,
                                      .bottom_pt = 50});
}

static void close_to(double got, double wanted, double within)
{
    if (!(fabs(got - wanted) <= within))
        fail_msg("%.6f is not %.6f within %g", got, wanted, within);
}

static const cw_item *find_text(const cw_drawing *d, const char *text)
{
    for (int i = 0; i < d->count; i++) {
        if (d->items[i].kind == CW_ITEM_TEXT && strcmp(d->items[i].text, text) == 0)
            return &d->items[i];
    }
    fail_msg("no text '%s'", text);
    return NULL;
}

/* First line of the drawing whose length is wanted to 1e-6 pt. */
static const cw_item *find_line(const cw_drawing *d, double wanted)
{
    for (int i = 0; i < d->count; i++) {
        const cw_item *it = &d->items[i];
        if (it->kind == CW_ITEM_PATH && it->ring_end[0] == 2 && it->layer == CW_LAYER_DIMENSION &&
            fabs(hypot(it->points[1].x - it->points[0].x, it->points[1].y - it->points[0].y) -
                 wanted) < 1e-6)
            return it;
    }
    fail_msg("no dimension line %.4f pt long", wanted);
    return NULL;
}

static void view_takes_the_next_customary_scale(void **state)
{
    const cw_view v = golden_view();
    close_to(v.scale_x, 2.88, 1e-9);
    close_to(v.scale_y, 2.88, 1e-9);
    close_to(v.left_pt, 56, 1e-9);
    close_to(v.base_pt, 178.8, 1e-9);
    assert_string_equal(cw_view_scale_text(*state, &v), "Scale 1 in = 25 ft");
    const cw_xy back = cw_view_real(&v, cw_view_paper(&v, (cw_xy){12.5, -3}));
    close_to(back.x, 12.5, 1e-9);
    close_to(back.y, -3, 1e-9);
}

static void view_states_both_scales_when_heights_are_exaggerated(void **state)
{
    /* 1 in = 20 ft and 1 in = 5 ft is the usual profile pair, 4 : 1.  140 ft need 7 in; 20 ft at 4
     * : 1 need 4 in. */
    const cw_view v = cw_view_fit(
        (cw_view_wish){.width_pt = 504, .height_pt = 400, .max = {140, 20}, .exaggeration = 4});
    close_to(v.scale_x, 3.6, 1e-9);
    close_to(v.scale_y, 14.4, 1e-9);
    assert_string_equal(cw_view_scale_text(*state, &v),
                        "Horizontal 1 in = 20 ft, vertical 1 in = 5 ft (heights 4 times)");
}

static void view_in_inches_states_feet(void **state)
{
    /* 200 in. over 400 pt: 36 in. to the inch of paper, which is 3 ft. */
    const cw_view v = cw_view_fit(
        (cw_view_wish){.width_pt = 400, .height_pt = 400, .max = {200, 100}, .unit = CW_VIEW_IN});
    close_to(v.scale_x, 2, 1e-9);
    assert_string_equal(cw_view_scale_text(*state, &v), "Scale 1 in = 3 ft");
    /* A joint detail 12 in. wide over 300 pt: 2.88, so 3 in. to the inch. */
    const cw_view small = cw_view_fit(
        (cw_view_wish){.width_pt = 300, .height_pt = 300, .max = {12, 6}, .unit = CW_VIEW_IN});
    close_to(small.scale_x, 24, 1e-9);
    assert_string_equal(cw_view_scale_text(*state, &small), "Scale 1 in = 3 in");
}

static void line_widths_are_of_the_iso_128_series(void **state)
{
    /* ISO 128-20: 0.13 0.18 0.25 0.35 0.5 0.7 mm. */
    static const double series[] = {0.13, 0.18, 0.25, 0.35, 0.5, 0.7};
    for (int layer = 0; layer < CW_LAYER_COUNT; layer++) {
        cw_drawing *d = cw_drawing_new(*state, golden_view());
        cw_draw_line(d, (cw_layer)layer, (cw_xy){0, 0}, (cw_xy){1, 1});
        const double mm = d->items[0].pen.width_pt / CW_PT_PER_IN * CW_MM_PER_IN;
        bool listed = false;
        for (size_t i = 0; i < sizeof series / sizeof series[0]; i++)
            listed = listed || fabs(series[i] - mm) < 1e-9;
        assert_true(listed);
    }
}

static void dimension_shows_the_given_text_and_the_true_length(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    cw_draw_dimension(d, (cw_dimension){{10, 0}, {70, 5}, 20, "60.00 ft", CW_DIMENSION_HORIZONTAL});
    /* 60 ft at 2.88 pt/ft is 172.8 pt; the line lies 20 pt over the higher point: 178.8 - 5 x 2.88
     * - 20 = 144.4. */
    const cw_item *line = find_line(d, 172.8);
    close_to(line->points[0].y, 144.4, 1e-9);
    close_to(line->points[1].y, 144.4, 1e-9);
    const cw_item *text = find_text(d, "60.00 ft");
    close_to(text->at.x, 56 + 40 * 2.88, 1e-9); /* middle */
    assert_true(text->at.y < 144.4);            /* over the line */
}

static void vertical_and_aligned_dimensions(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    d->text_pt = 5;
    cw_draw_dimension(d, (cw_dimension){{0, 0}, {0, 15}, -12, "15.00", CW_DIMENSION_VERTICAL});
    close_to(find_line(d, 43.2)->points[0].x, 56 - 12, 1e-9); /* 15 x 2.88, left of both */
    close_to(find_text(d, "15.00")->angle_deg, 90, 1e-9);     /* read from the right */
    /* 3-4-5: 30 and 40... scaled to 9, 12, 15 ft: 15 x 2.88 = 43.2 again, at another place. */
    cw_draw_dimension(d, (cw_dimension){{20, 0}, {32, 9}, 10, "15.00 s", CW_DIMENSION_ALIGNED});
    const cw_item *text = find_text(d, "15.00 s");
    close_to(text->angle_deg, atan2(9, 12) * CW_DEG_PER_RAD, 1e-9);
}

static void short_dimension_puts_its_text_beside(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    cw_draw_dimension(d, (cw_dimension){{40, 0}, {41, 0}, 20, "1.00 ft", CW_DIMENSION_HORIZONTAL});
    const cw_item *text = find_text(d, "1.00 ft");
    assert_true(text->at.x >= 56 + 41 * 2.88);
    find_line(d, 2.88);
    /* Twice the same: the second must not lie on the first. */
    cw_draw_dimension(d, (cw_dimension){{40, 0}, {41, 0}, 20, "1.00 m", CW_DIMENSION_HORIZONTAL});
    const cw_overlap *list;
    assert_int_equal(cw_drawing_overlaps(d, *state, &list), 0);
}

static void chain_lies_on_one_line(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    const cw_xy points[] = {{0, 0}, {30, 4}, {60, 2}};
    const char *const texts[] = {"30.0", "30.0 b"};
    cw_draw_dimension_chain(d, (cw_dimension){.offset_pt = 15, .kind = CW_DIMENSION_HORIZONTAL},
                            points, 3, texts);
    /* Both members are 86.4 pt long and lie 15 pt over the highest of the three points: 178.8 - 4
     * x 2.88 - 15. */
    int members = 0;
    for (int i = 0; i < d->count; i++) {
        const cw_item *it = &d->items[i];
        if (it->kind == CW_ITEM_PATH && it->ring_end[0] == 2 &&
            fabs(fabs(it->points[1].x - it->points[0].x) - 86.4) < 1e-6) {
            close_to(it->points[0].y, 178.8 - 11.52 - 15, 1e-9);
            members++;
        }
    }
    assert_int_equal(members, 2);
}

static void planted_overlaps_are_found(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    const cw_text_style style = {.size_pt = 10};
    cw_draw_text(d, cw_at_paper(d, 100, 100), style, "first");
    cw_draw_text(d, cw_at_paper(d, 110, 103), style, "second");
    cw_draw_text(d, cw_at_paper(d, 100, 130), style, "clear of both");
    const cw_overlap *list;
    assert_int_equal(cw_drawing_overlaps(d, *state, &list), 1);
    assert_string_equal(list[0].a, "first");
    assert_string_equal(list[0].b, "second");
    /* Their upright boxes would meet; the slanted ones do not. */
    cw_draw_text(d, cw_at_paper(d, 200, 200), (cw_text_style){.size_pt = 10, .angle_deg = 45},
                 "slanted text");
    cw_draw_text(d, cw_at_paper(d, 235, 200), style, "level text");
    assert_int_equal(cw_drawing_overlaps(d, *state, &list), 1);
    /* Over the frame's edge. */
    cw_draw_text(d, cw_at_paper(d, 390, 50), style, "runs out");
    assert_int_equal(cw_drawing_overlaps(d, *state, &list), 2);
    assert_null(list[1].b);
}

static void labels_never_overlap_and_none_is_lost(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    enum { LABELS = 60 };
    for (int i = 0; i < LABELS; i++)
        cw_draw_label(d, (cw_label){.at = {50 + 0.3 * (i % 8), 10 + 0.4 * (i / 8)},
                                    .text = cw_arena_print(*state, "label %d", i),
                                    .leader = i % 2});
    cw_drawing_finish(d);
    const cw_overlap *list;
    assert_int_equal(cw_drawing_overlaps(d, *state, &list), 0);
    int placed = 0;
    for (int i = 0; i < d->count; i++)
        placed += d->items[i].kind == CW_ITEM_TEXT;
    assert_true(placed > 20);
    assert_int_equal(placed + d->dropped_count, LABELS);
}

static void label_keeps_its_side_when_free(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    cw_draw_label(d, (cw_label){.at = {50, 10}, .text = "Above", .side = CW_SIDE_ABOVE});
    cw_draw_label(d, (cw_label){.at = {10, 10}, .text = "Left", .side = CW_SIDE_LEFT_OF});
    cw_drawing_finish(d);
    const cw_xy above = cw_view_paper(&d->view, (cw_xy){50, 10}),
                left = cw_view_paper(&d->view, (cw_xy){10, 10});
    assert_true(find_text(d, "Above")->at.y < above.y);
    const cw_item *text = find_text(d, "Left");
    assert_int_equal(text->align, CW_ALIGN_RIGHT);
    assert_true(text->at.x < left.x);
}

static void a_label_that_must_stay_is_reported_not_dropped(void **state)
{
    cw_drawing *d = cw_drawing_new(
        *state,
        (cw_view){.width_pt = 40, .height_pt = 12, .scale_x = 1, .scale_y = 1, .base_pt = 12});
    cw_draw_label(d, (cw_label){.at = {20, 6}, .text = "much too long for this frame"});
    cw_draw_label(d, (cw_label){.at = {20, 6}, .text = "much too long and needed", .must = true});
    cw_drawing_finish(d);
    assert_int_equal(d->dropped_count, 1);
    assert_string_equal(d->dropped[0], "much too long for this frame");
    const cw_overlap *list;
    assert_int_equal(cw_drawing_overlaps(d, *state, &list), 1);
}

static void hatch_stays_out_of_holes(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    const cw_xy outer[] = {{0, 0}, {60, 0}, {60, 30}, {0, 30}},
                hole[] = {{10, 5}, {50, 5}, {50, 25}, {10, 25}};
    const cw_draw_ring rings[] = {{outer, 4}, {hole, 4}};
    for (int fill = CW_FILL_CONCRETE_CUT; fill <= CW_FILL_WATER; fill++) {
        d->count = 0;
        cw_draw_region(d, CW_LAYER_CUT, (cw_fill)fill, rings, 2, true);
        int count, again;
        const cw_xy *strokes = cw_fill_strokes(*state, &d->items[0], &count);
        const cw_xy *twice = cw_fill_strokes(*state, &d->items[0], &again);
        assert_true(count > 20);
        assert_int_equal(count, again);
        assert_memory_equal(strokes, twice, (size_t)count * sizeof *strokes);
        const cw_xy low = cw_view_paper(&d->view, (cw_xy){10, 25}),
                    high = cw_view_paper(&d->view, (cw_xy){50, 5});
        for (int i = 0; i + 1 < count; i += 2) {
            const cw_xy m = {(strokes[i].x + strokes[i + 1].x) / 2,
                             (strokes[i].y + strokes[i + 1].y) / 2};
            /* No stroke lies in the hole by more than its own half length (9 pt for water, the
             * longest). */
            assert_false(m.x > low.x + 5 && m.x < high.x - 5 && m.y > low.y + 5 &&
                         m.y < high.y - 5);
        }
    }
}

static void scale_bar_is_as_long_as_it_says(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, golden_view());
    cw_draw_scale_bar(d, cw_at_paper(d, 20, 280));
    /* 1.5 in. of paper are 37.5 ft; of 10, 20, 50, 100 the nearest is 50 ft: 144 pt. */
    const cw_item *first = find_text(d, "0"), *last = find_text(d, "50 ft");
    close_to(last->at.x - first->at.x, 144, 1e-6);
}

static void circle_of_an_exaggerated_view_is_an_ellipse(void **state)
{
    cw_drawing *d = cw_drawing_new(*state, (cw_view){.width_pt = 100,
                                                     .height_pt = 100,
                                                     .scale_x = 2,
                                                     .scale_y = 6,
                                                     .left_pt = 50,
                                                     .base_pt = 50});
    cw_draw_circle(d, CW_LAYER_OUTLINE, CW_FILL_NONE, (cw_xy){0, 0}, 5);
    cw_xy min, max;
    cw_item_bounds(&d->items[0], &min, &max);
    close_to(max.x - min.x, 20, 1e-6);
    close_to(max.y - min.y, 60, 1e-6);
}

static void wrapped_lines_fit_and_lose_nothing(void **state)
{
    static const char text[] = "Check the gap at both walls: ½ in ± ⅛ in, slope 1.00 % and angle "
                               "20 ° at most, incomprehensibilities\nnew line";
    for (double width = 30; width < 300; width += 17) {
        int count;
        const char *const *lines = cw_font_wrap(*state, text, 9, CW_FONT_REGULAR, width, &count);
        size_t letters = 0, wanted = 0;
        for (int i = 0; i < count; i++) {
            assert_true(cw_font_width_pt(lines[i], 9, CW_FONT_REGULAR) <= width + 0.01);
            assert_true(lines[i][0] != '%' && strncmp(lines[i], "°", 2) != 0);
            for (const char *p = lines[i]; *p; p++)
                letters += *p != ' ';
        }
        for (const char *p = text; *p; p++)
            wanted += *p != ' ' && *p != '\n';
        assert_int_equal(letters, wanted);
    }
    const char *cut =
        cw_font_shorten(*state, "A rather long title of a sheet", 10, CW_FONT_BOLD, 80);
    assert_true(cw_font_width_pt(cut, 10, CW_FONT_BOLD) <= 80);
    assert_non_null(strstr(cut, "…"));
}

static void signs_of_the_trade_are_in_the_font(void **state)
{
    (void)state;
    assert_true(cw_font_knows(
        "0123456789 AZaz ° ± × · ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ ′ ″ Ø ≤ ≥ – — → ↓ ↑ Δ θ γ μ √ ² ³ § ✓ …"));
    assert_false(cw_font_knows("漢"));
    const char *broken = "\xC3(";
    assert_int_equal(cw_utf8_next(&broken), 0xFFFD);
    assert_int_equal(cw_utf8_next(&broken), '(');
    assert_int_equal(cw_utf8_next(&broken), 0);
}

static void sample_drawings_have_no_overlapping_text(void **state)
{
    cw_arena *arena = *state;
    for (int size = 0; size < 2; size++) {
        const double text_pt = size ? 9.25 : 7.5;
        const cw_drawing *all[] = {
            sample_section(arena, 480, 300, text_pt), sample_profile(arena, 516, 230, text_pt),
            sample_plan(arena, 480, 200, text_pt), sample_step(arena, 110, 76, 3)};
        for (int i = 0; i < 4; i++) {
            const cw_overlap *list;
            const int count = cw_drawing_overlaps(all[i], arena, &list);
            if (count)
                fail_msg("drawing %d at %.2f pt: '%s' on '%s'", i, text_pt, list[0].a,
                         list[0].b ? list[0].b : "the frame's edge");
            assert_int_equal(all[i]->dropped_count, 0);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(view_takes_the_next_customary_scale, set_up, tear_down),
        cmocka_unit_test_setup_teardown(view_states_both_scales_when_heights_are_exaggerated,
                                        set_up, tear_down),
        cmocka_unit_test_setup_teardown(view_in_inches_states_feet, set_up, tear_down),
        cmocka_unit_test_setup_teardown(line_widths_are_of_the_iso_128_series, set_up, tear_down),
        cmocka_unit_test_setup_teardown(dimension_shows_the_given_text_and_the_true_length, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(vertical_and_aligned_dimensions, set_up, tear_down),
        cmocka_unit_test_setup_teardown(short_dimension_puts_its_text_beside, set_up, tear_down),
        cmocka_unit_test_setup_teardown(chain_lies_on_one_line, set_up, tear_down),
        cmocka_unit_test_setup_teardown(planted_overlaps_are_found, set_up, tear_down),
        cmocka_unit_test_setup_teardown(labels_never_overlap_and_none_is_lost, set_up, tear_down),
        cmocka_unit_test_setup_teardown(label_keeps_its_side_when_free, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_label_that_must_stay_is_reported_not_dropped, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(hatch_stays_out_of_holes, set_up, tear_down),
        cmocka_unit_test_setup_teardown(scale_bar_is_as_long_as_it_says, set_up, tear_down),
        cmocka_unit_test_setup_teardown(circle_of_an_exaggerated_view_is_an_ellipse, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(wrapped_lines_fit_and_lose_nothing, set_up, tear_down),
        cmocka_unit_test_setup_teardown(signs_of_the_trade_are_in_the_font, set_up, tear_down),
        cmocka_unit_test_setup_teardown(sample_drawings_have_no_overlapping_text, set_up,
                                        tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
