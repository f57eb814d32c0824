/* SVG checked by a general XML parser (libxml2). */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <libxml/parser.h>

#include "../report/sample_test_help.h"
#include "cw/render.h"

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

static xmlDocPtr parsed(const char *svg)
{
    xmlDocPtr doc = xmlReadMemory(svg, (int)strlen(svg), "drawing.svg", NULL, XML_PARSE_NONET);
    if (!doc)
        fail_msg("not well formed");
    assert_string_equal((const char *)xmlDocGetRootElement(doc)->name, "svg");
    return doc;
}

static int count_elements(xmlDocPtr doc, const char *name)
{
    int count = 0;
    for (xmlNodePtr node = xmlDocGetRootElement(doc)->children; node; node = node->next)
        count += node->type == XML_ELEMENT_NODE && strcmp((const char *)node->name, name) == 0;
    return count;
}

static void samples_are_well_formed_and_keep_their_text(void **state)
{
    const cw_drawing *drawings[] = {sample_section(*state, 480, 300, 7.5),
                                    sample_profile(*state, 516, 230, 7.5),
                                    sample_plan(*state, 480, 200, 7.5)};
    for (int i = 0; i < 3; i++) {
        const char *svg = cw_svg_write(drawings[i], "", *state);
        assert_string_equal(svg, cw_svg_write(drawings[i], "", *state));
        xmlDocPtr doc = parsed(svg);
        int texts = 0;
        for (int k = 0; k < drawings[i]->count; k++)
            texts += drawings[i]->items[k].kind == CW_ITEM_TEXT;
        assert_int_equal(count_elements(doc, "text"), texts);
        assert_true(count_elements(doc, "path") >= drawings[i]->count - texts);
        xmlFreeDoc(doc);
    }
}

static void same_drawing_composed_twice_gives_the_same_bytes(void **state)
{
    const char *a = cw_svg_write(sample_section(*state, 480, 300, 7.5), "", *state);
    const char *b = cw_svg_write(sample_section(*state, 480, 300, 7.5), "", *state);
    assert_string_equal(a, b);
}

static cw_drawing *plain(cw_arena *arena)
{
    return cw_drawing_new(
        arena,
        (cw_view){.width_pt = 200, .height_pt = 100, .scale_x = 2, .scale_y = 2, .base_pt = 100});
}

static void text_is_escaped_and_comes_back_whole(void **state)
{
    static const char words[] = "a < b & c > \"d\" 5′-10¾″ Ø ≤ 3°";
    cw_drawing *d = plain(*state);
    cw_draw_text(d, (cw_xy){1, 1}, (cw_text_style){.angle_deg = 30}, words);
    cw_draw_text(d, (cw_xy){1, 9}, (cw_text_style){0}, "bell\a rung");
    cw_drawing_finish(d);
    xmlDocPtr doc = parsed(cw_svg_write(d, "", *state));
    xmlNodePtr node = xmlDocGetRootElement(doc)->children;
    while (node && node->type != XML_ELEMENT_NODE)
        node = node->next;
    xmlChar *content = xmlNodeGetContent(node);
    assert_string_equal((const char *)content, words);
    xmlFree(content);
    xmlFreeDoc(doc);
}

static void lines_lie_where_they_were_drawn(void **state)
{
    cw_drawing *d = plain(*state);
    cw_draw_line(d, CW_LAYER_OUTLINE, (cw_xy){10, 5}, (cw_xy){60.125, 5});
    cw_draw_circle(d, CW_LAYER_OUTLINE, CW_FILL_NONE, (cw_xy){50, 25}, 10);
    cw_drawing_finish(d);
    const char *svg = cw_svg_write(d, "", *state);
    /* x = 2 x 10, 2 x 60.125; y = 100 - 2 x 5.  By hand. */
    assert_non_null(strstr(svg, "d=\"M20 90L120.25 90\""));
    /* A circle in two halves of radius 20 around (100, 50). */
    assert_non_null(strstr(svg, "d=\"M120 50A20 20 0 0 0 80 50A20 20 0 0 0 120 50Z\""));
    assert_non_null(strstr(svg, "viewBox=\"0 0 200 100\""));
    /* 0.35 mm are 0.99 pt. */
    assert_non_null(strstr(svg, "stroke-width=\"0.99\""));
}

static void a_quarter_arc_turns_counterclockwise(void **state)
{
    cw_drawing *d = plain(*state);
    cw_draw_arc(d, CW_LAYER_HIDDEN, (cw_xy){50, 25}, 10, 0, 90);
    cw_draw_arc(d, CW_LAYER_HIDDEN, (cw_xy){50, 25}, 10, 90, 0);
    cw_drawing_finish(d);
    const char *svg = cw_svg_write(d, "", *state);
    assert_non_null(strstr(svg, "d=\"M120 50A20 20 0 0 0 100 30\""));
    assert_non_null(strstr(svg, "d=\"M100 30A20 20 0 1 0 120 50\""));
    assert_non_null(strstr(svg, "stroke-dasharray=\"4 2.5\""));
}

static void ids_carry_the_prefix(void **state)
{
    cw_drawing *d = plain(*state);
    cw_draw_rectangle(d, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, (cw_xy){5, 5}, (cw_xy){60, 40});
    cw_drawing_finish(d);
    const char *svg = cw_svg_write(d, "s7-", *state);
    assert_non_null(strstr(svg, "id=\"s7-c0\""));
    assert_non_null(strstr(svg, "url(#s7-c0)"));
    xmlFreeDoc(parsed(svg));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(samples_are_well_formed_and_keep_their_text, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(same_drawing_composed_twice_gives_the_same_bytes, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(text_is_escaped_and_comes_back_whole, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lines_lie_where_they_were_drawn, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_quarter_arc_turns_counterclockwise, set_up, tear_down),
        cmocka_unit_test_setup_teardown(ids_carry_the_prefix, set_up, tear_down),
    };
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    xmlCleanupParser();
    return failed;
}
