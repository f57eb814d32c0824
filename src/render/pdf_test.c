/* PDF checked from outside: structure by qpdf, text and page count by the poppler tools, widths by
 * pango. */
/* For popen, mkstemp and setenv. */
#define _POSIX_C_SOURCE 200809L

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>
#include <pango/pangocairo.h>

#include "../report/sample_test_help.h"
#include "cw/render.h"
#include "cw/text.h"

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

static bool collect(void *closure, const unsigned char *bytes, size_t length)
{
    cw_text_add_bytes(closure, (const char *)bytes, length);
    return true;
}

static bool disk_full(void *closure, const unsigned char *bytes, size_t length)
{
    (void)closure;
    (void)bytes;
    (void)length;
    return false;
}

static cw_text pdf_of(cw_arena *arena, cw_paper paper)
{
    cw_text out = cw_text_on(arena);
    cw_diags diags = cw_diags_on(arena);
    const bool written =
        cw_pdf_write(sample_document(arena, paper), NULL, collect, &out, arena, &diags);
    if (!written || diags.count)
        fail_msg("%s", diags.count ? diags.items[0].message : "not written");
    return out;
}

static bool have(const char *program)
{
    char command[200];
    snprintf(command, sizeof command, "command -v %s >/dev/null 2>&1", program);
    return system(command) == 0;
}

/* Put the file down, run the command (its %s is the path), give back what it printed; *status is
 * its exit state. */
static const char *run_on(cw_arena *arena, const cw_text *pdf, const char *before,
                          const char *after, int *status)
{
    char path[] = "pdf_test_XXXXXX", chunk[4096];
    const int handle = mkstemp(path);
    assert_true(handle >= 0);
    FILE *file = fdopen(handle, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(pdf->data, 1, pdf->length, file), pdf->length);
    fclose(file);
    FILE *pipe = popen(cw_arena_print(arena, "%s %s %s 2>&1", before, path, after), "r");
    assert_non_null(pipe);
    cw_text out = cw_text_on(arena);
    for (size_t got = fread(chunk, 1, sizeof chunk, pipe); got > 0;
         got = fread(chunk, 1, sizeof chunk, pipe))
        cw_text_add_bytes(&out, chunk, got);
    *status = pclose(pipe);
    remove(path);
    return cw_text_string(&out);
}

static void structure_is_sound(void **state)
{
    if (!have("qpdf"))
        skip();
    for (int paper = CW_PAPER_LETTER; paper <= CW_PAPER_TABLOID; paper++) {
        const cw_text pdf = pdf_of(*state, (cw_paper)paper);
        int status;
        const char *said = run_on(*state, &pdf, "qpdf --check", "", &status);
        if (status != 0)
            fail_msg("%s", said);
        assert_non_null(strstr(said, "No syntax or stream encoding errors"));
    }
}

static void text_can_be_taken_out_again(void **state)
{
    if (!have("pdftotext"))
        skip();
    const cw_text pdf = pdf_of(*state, CW_PAPER_LETTER);
    int status;
    const char *text = run_on(*state, &pdf, "pdftotext -layout", "-", &status);
    static const char *const wanted[] = {
        "10′-0″ × 6′-0″", "½ in ± ⅛ in",      "μ ≥ 0.35, θ ≤ 3°, γ = 150 lb/ft³, Δ ≈",
        "√2 → 1.414",     "24 in Ø",          "FOR FIELD USE",
        "20°30′ left",    "104′-6″ over all", "B1-70",
        "1,328,400"};
    for (size_t i = 0; i < sizeof wanted / sizeof wanted[0]; i++) {
        if (!strstr(text, wanted[i]))
            fail_msg("'%s' is not in the text", wanted[i]);
    }
    for (int i = 1; i <= 70; i++)
        assert_non_null(strstr(text, cw_arena_print(*state, "B1-%02d", i)));
}

static void pages_size_and_date_are_as_set(void **state)
{
    if (!have("pdfinfo"))
        skip();
    const cw_text pdf = pdf_of(*state, CW_PAPER_TABLOID);
    cw_diags diags = cw_diags_on(*state);
    const cw_pages pages =
        cw_document_pages(sample_document(*state, CW_PAPER_TABLOID), *state, &diags);
    int status;
    const char *said = run_on(*state, &pdf, "TZ=UTC pdfinfo -isodates", "", &status);
    assert_non_null(strstr(said, "1224 x 792 pts"));
    assert_non_null(strstr(said, "2000-01-01T00:00:00"));
    assert_non_null(strstr(said, "Sample Creek crossing: Setting book"));
    const char *count = strstr(said, "Pages:");
    assert_non_null(count);
    assert_int_equal(atoi(count + strlen("Pages:")), pages.count);
}

static void fonts_are_embedded(void **state)
{
    if (!have("pdffonts"))
        skip();
    const cw_text pdf = pdf_of(*state, CW_PAPER_LETTER);
    int status;
    const char *said = run_on(*state, &pdf, "pdffonts", "", &status);
    assert_non_null(strstr(said, "Inter-Regular"));
    assert_non_null(strstr(said, "Inter-Bold"));
}

static void same_document_same_bytes(void **state)
{
    const cw_text a = pdf_of(*state, CW_PAPER_LETTER), b = pdf_of(*state, CW_PAPER_LETTER);
    assert_int_equal(a.length, b.length);
    assert_memory_equal(a.data, b.data, a.length);
}

static void a_full_disk_is_reported(void **state)
{
    cw_diags diags = cw_diags_on(*state);
    assert_false(cw_pdf_write(sample_document(*state, CW_PAPER_LETTER), NULL, disk_full, NULL,
                              *state, &diags));
    assert_int_equal(diags.count, 1);
    assert_int_equal(diags.items[0].code, CW_E_FILE);
}

static void without_the_font_there_is_no_pdf(void **state)
{
    char path[] = "fonts_XXXXXX";
    const int handle = mkstemp(path);
    assert_true(handle >= 0);
    static const char nothing[] = "<?xml version=\"1.0\"?><!DOCTYPE fontconfig SYSTEM "
                                  "\"fonts.dtd\"><fontconfig></fontconfig>";
    assert_int_equal(write(handle, nothing, strlen(nothing)), (ssize_t)strlen(nothing));
    close(handle);
    const char *here = getcwd(cw_arena_take(*state, 4096, 1), 4096);
    setenv("FONTCONFIG_FILE", cw_arena_print(*state, "%s/%s", here, path), 1);
    cw_text out = cw_text_on(*state);
    cw_diags diags = cw_diags_on(*state);
    const bool written = cw_pdf_write(sample_document(*state, CW_PAPER_LETTER),
                                      &(cw_pdf_options){.font_dir = "no-such-folder"}, collect,
                                      &out, *state, &diags);
    unsetenv("FONTCONFIG_FILE");
    remove(path);
    assert_false(written);
    assert_int_equal(out.length, 0);
    assert_int_equal(diags.count, 1);
    assert_non_null(strstr(diags.items[0].message, "Inter"));
}

/* The core's width table against pango's own layout, kerning off. */
static void widths_agree_with_pango(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "Set from the outlet upslope",
        "12+34.50",
        "16,650 lb at 32 ft",
        "5′-10¾″ Ø ≤ 3° ± ½ × √2",
        "ABCDEFGHIJKLMNOPQRSTUVWXYZ",
        "abcdefghijklmnopqrstuvwxyz 0123456789 !#$%&()*+,-./:;<=>?@[]^_{|}~",
        "→ ↓ ↑ Δ θ γ μ ² ³ § – — …"};
    PangoFontMap *map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    PangoContext *context = pango_font_map_create_context(map);
    pango_cairo_context_set_resolution(context, 72);
    PangoLayout *layout = pango_layout_new(context);
    PangoAttrList *attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes,
                           pango_attr_font_features_new("tnum=1, calt=0, liga=0, kern=0"));
    pango_layout_set_attributes(layout, attributes);
    for (int weight = CW_FONT_REGULAR; weight <= CW_FONT_BOLD; weight++) {
        PangoFontDescription *font =
            pango_font_description_from_string(weight ? "Inter Bold" : "Inter");
        pango_font_description_set_absolute_size(font, 100.0 * PANGO_SCALE);
        pango_layout_set_font_description(layout, font);
        for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
            int width;
            pango_layout_set_text(layout, texts[i], -1);
            pango_layout_get_size(layout, &width, NULL);
            const double pango_pt = (double)width / PANGO_SCALE,
                         ours = cw_font_width_pt(texts[i], 100, (cw_font_weight)weight);
            if (fabs(pango_pt - ours) > 0.005 * pango_pt)
                fail_msg("'%s': %.2f pt here, %.2f pt by pango", texts[i], ours, pango_pt);
        }
        pango_font_description_free(font);
    }
    pango_attr_list_unref(attributes);
    g_object_unref(layout);
    g_object_unref(context);
    g_object_unref(map);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(structure_is_sound, set_up, tear_down),
        cmocka_unit_test_setup_teardown(text_can_be_taken_out_again, set_up, tear_down),
        cmocka_unit_test_setup_teardown(pages_size_and_date_are_as_set, set_up, tear_down),
        cmocka_unit_test_setup_teardown(fonts_are_embedded, set_up, tear_down),
        cmocka_unit_test_setup_teardown(same_document_same_bytes, set_up, tear_down),
        cmocka_unit_test_setup_teardown(a_full_disk_is_reported, set_up, tear_down),
        cmocka_unit_test_setup_teardown(without_the_font_there_is_no_pdf, set_up, tear_down),
        cmocka_unit_test_setup_teardown(widths_agree_with_pango, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
