/* DXF read back pair by pair. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

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

/* One code and its value; the file is a list of such pairs of lines that end in CR LF. */
typedef struct reader {
    const char *at;
    int code;
    char value[400];
} reader;

static void take_line(reader *r, char *line, size_t size)
{
    const char *end = strstr(r->at, "\r\n");
    assert_non_null(end);
    const size_t length = (size_t)(end - r->at);
    assert_true(length < size);
    memcpy(line, r->at, length);
    line[length] = '\0';
    for (size_t i = 0; i < length; i++)
        assert_true(line[i] >= ' ' && line[i] < 0x7F);
    r->at = end + 2;
}

static bool next_pair(reader *r)
{
    char code[16];
    if (*r->at == '\0')
        return false;
    take_line(r, code, sizeof code);
    take_line(r, r->value, sizeof r->value);
    r->code = atoi(code);
    return true;
}

static void samples_read_back(void **state)
{
    const cw_drawing *drawings[] = {sample_section(*state, 480, 300, 7.5), sample_profile(*state, 516, 230, 7.5),
                                    sample_plan(*state, 480, 200, 7.5)};
    for (int i = 0; i < 3; i++) {
        const char *dxf = cw_dxf_write(drawings[i], *state);
        assert_string_equal(dxf, cw_dxf_write(drawings[i], *state));
        int texts = 0, wanted = 0, open_lines = 0, sections = 0;
        for (int k = 0; k < drawings[i]->count; k++)
            wanted += drawings[i]->items[k].kind == CW_ITEM_TEXT;
        for (reader r = {.at = dxf}; next_pair(&r);) {
            texts += r.code == 0 && strcmp(r.value, "TEXT") == 0;
            open_lines += r.code == 0 ? (strcmp(r.value, "POLYLINE") == 0) - (strcmp(r.value, "SEQEND") == 0) : 0;
            sections += r.code == 0 ? (strcmp(r.value, "SECTION") == 0) - (strcmp(r.value, "ENDSEC") == 0) : 0;
        }
        assert_int_equal(texts, wanted);
        assert_int_equal(open_lines, 0);
        assert_int_equal(sections, 0);
        assert_non_null(strstr(dxf, "\r\nEOF\r\n"));
    }
}

static cw_drawing *blank(cw_arena *arena)
{
    return cw_drawing_new(arena, (cw_view){400, 400, 20, 20, 20, 380, CW_VIEW_FT});
}

/* A frame of 10 ft with a hole of 4 ft: every stroke of its pattern lies in the frame and none in the hole. */
static void patterns_stay_in_their_shape(void **state)
{
    const cw_xy outer[4] = {{1, 1}, {11, 1}, {11, 11}, {1, 11}}, hole[4] = {{4, 4}, {8, 4}, {8, 8}, {4, 8}};
    const cw_draw_ring rings[2] = {{outer, 4}, {hole, 4}};
    for (int fill = CW_FILL_CONCRETE_CUT; fill <= CW_FILL_WATER; fill++) {
        cw_drawing *d = blank(*state);
        cw_draw_region(d, CW_LAYER_CUT, (cw_fill)fill, rings, 2, true);
        cw_drawing_finish(d);
        double x[2] = {0}, y[2] = {0};
        int strokes = 0;
        bool hatch = false;
        for (reader r = {.at = cw_dxf_write(d, *state)}; next_pair(&r);) {
            if (r.code == 8)
                hatch = strcmp(r.value, "HATCH") == 0;
            if (r.code == 10 || r.code == 11)
                x[r.code - 10] = atof(r.value);
            if (r.code == 20)
                y[0] = y[1] = atof(r.value);
            if (r.code == 21)
                y[1] = atof(r.value);
            if (!hatch || (r.code != 20 && r.code != 21))
                continue;
            const double mx = r.code == 21 ? (x[0] + x[1]) / 2 : x[0], my = (y[0] + y[1]) / 2;
            if (r.code == 20) // a point, or the start of a line
                assert_true(mx > 1 - 1e-5 && mx < 11 + 1e-5 && my > 1 - 1e-5 && my < 11 + 1e-5);
            else
                assert_false(mx > 4 + 1e-5 && mx < 8 - 1e-5 && my > 4 + 1e-5 && my < 8 - 1e-5);
            strokes++;
        }
        assert_true(strokes > 10);
    }
}

/* True scale: a circle of 2.5 ft round (3, 4), and a text with signs that release 12 spells out. */
static void true_scale_and_signs(void **state)
{
    cw_drawing *d = blank(*state);
    cw_draw_circle(d, CW_LAYER_OUTLINE, CW_FILL_NONE, (cw_xy){3, 4}, 2.5);
    cw_draw_text(d, (cw_xy){2, 9}, (cw_text_style){0}, "20° ±½ Ø");
    cw_drawing_finish(d);
    const char *dxf = cw_dxf_write(d, *state);
    double radius = 0, x = 0, y = 0;
    bool circle = false;
    for (reader r = {.at = dxf}; next_pair(&r);) {
        if (r.code == 0)
            circle = strcmp(r.value, "CIRCLE") == 0;
        if (circle && r.code == 10)
            x = atof(r.value);
        if (circle && r.code == 20)
            y = atof(r.value);
        if (circle && r.code == 40)
            radius = atof(r.value);
    }
    assert_true(fabs(radius - 2.5) < 1e-5 && fabs(x - 3) < 1e-5 && fabs(y - 4) < 1e-5);
    assert_non_null(strstr(dxf, "20%%d %%p 1/2 %%c"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(samples_read_back, set_up, tear_down),
        cmocka_unit_test_setup_teardown(patterns_stay_in_their_shape, set_up, tear_down),
        cmocka_unit_test_setup_teardown(true_scale_and_signs, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
