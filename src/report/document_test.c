/* Laying out documents: nothing lost, nothing split, heads repeated, references right. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cw/document.h"
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

static int times_on(const cw_drawing *page, const char *text)
{
    int times = 0;
    for (int i = 0; i < page->count; i++)
        times += page->items[i].kind == CW_ITEM_TEXT && strcmp(page->items[i].text, text) == 0;
    return times;
}

static int times_in(const cw_pages *pages, const char *text)
{
    int times = 0;
    for (int p = 0; p < pages->count; p++)
        times += times_on(pages->pages[p], text);
    return times;
}

/* Page (from 0) that has the text; -1 when none. */
static int page_of(const cw_pages *pages, const char *text)
{
    for (int p = 0; p < pages->count; p++) {
        if (times_on(pages->pages[p], text))
            return p;
    }
    return -1;
}

static cw_document *empty_document(cw_arena *arena, cw_paper paper)
{
    return cw_document_new(arena, paper, (cw_title_block){.job = "Job"});
}

enum { ROWS = 300 };

static cw_document *long_table(cw_arena *arena, cw_paper paper)
{
    static const cw_column columns[] = {{"Mark", NULL, CW_ALIGN_LEFT, 0},
                                        {"Load", "lb", CW_ALIGN_RIGHT, 0},
                                        {"Note", NULL, CW_ALIGN_LEFT, 1}};
    cw_document *doc = empty_document(arena, paper);
    cw_doc_part(doc, NULL, "Marks");
    cw_table *table = cw_doc_table(doc, "marks", "All marks", columns, 3);
    for (int i = 0; i < ROWS; i++) {
        const char *cells[] = {
            cw_arena_print(arena, "row%d", i), cw_arena_print(arena, "%d lb", i),
            i % 7 == 0 ? "a note that is long enough to take more than one line in its cell of the "
                         "table, on letter paper and on tabloid paper alike, begin to end"
                       : "short"};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
    return doc;
}

static void long_tables_lose_no_row_and_repeat_their_head(void **state)
{
    for (int paper = CW_PAPER_LETTER; paper <= CW_PAPER_TABLOID; paper++) {
        cw_diags diags = cw_diags_on(*state);
        const cw_pages pages =
            cw_document_pages(long_table(*state, (cw_paper)paper), *state, &diags);
        assert_int_equal(diags.count, 0);
        assert_true(pages.count >= 3);
        int starts = 0;
        for (int p = 0; p < pages.count; p++) {
            const int heads = times_on(pages.pages[p], "Mark");
            /* One head in each column that has rows. */
            assert_in_range(heads, 1, paper == CW_PAPER_LETTER ? 1 : 2);
            assert_int_equal(times_on(pages.pages[p], "lb"), heads);
            starts += heads;
        }
        assert_int_equal(times_in(&pages, "All marks"), 1);
        assert_int_equal(times_in(&pages, "All marks (continued)"), starts - 1);
        int last = 0;
        for (int i = 0; i < ROWS; i++) {
            const char *mark = cw_arena_print(*state, "row%d", i),
                       *load = cw_arena_print(*state, "%d lb", i);
            assert_int_equal(times_in(&pages, mark), 1);
            assert_int_equal(page_of(&pages, mark), page_of(&pages, load));
            assert_true(page_of(&pages, mark) >= last);
            last = page_of(&pages, mark);
        }
    }
}

static void rows_are_not_split_and_stay_above_the_foot(void **state)
{
    cw_diags diags = cw_diags_on(*state);
    const cw_pages pages = cw_document_pages(long_table(*state, CW_PAPER_LETTER), *state, &diags);
    int firsts = 0, ends = 0;
    for (int p = 0; p < pages.count; p++) {
        int first = 0, end = 0;
        for (int i = 0; i < pages.pages[p]->count; i++) {
            const cw_item *item = &pages.pages[p]->items[i];
            if (item->kind != CW_ITEM_TEXT)
                continue;
            first += strncmp(item->text, "a note", 6) == 0;
            end +=
                strlen(item->text) >= 3 && strcmp(item->text + strlen(item->text) - 3, "end") == 0;
            if (strncmp(item->text, "row", 3) == 0)
                assert_true(item->at.y < 712);
        }
        assert_int_equal(first, end);
        firsts += first;
        ends += end;
    }
    assert_int_equal(firsts, (ROWS + 6) / 7);
    assert_int_equal(ends, firsts);
}

static void numbers_are_not_broken_in_a_crowded_table(void **state)
{
    static const cw_column columns[] = {
        {"Slot", NULL, CW_ALIGN_LEFT, 0},        {"Station", NULL, CW_ALIGN_RIGHT, 0},
        {"Length", "ft-in", CW_ALIGN_RIGHT, 0},  {"Weight", "lb", CW_ALIGN_RIGHT, 0},
        {"Invert low", "ft", CW_ALIGN_RIGHT, 0}, {"Invert high", "ft", CW_ALIGN_RIGHT, 0},
        {"Radius", "ft", CW_ALIGN_RIGHT, 0},     {"Tension", "lb", CW_ALIGN_RIGHT, 0},
        {"Share", "%", CW_ALIGN_RIGHT, 0},       {"Verdict", NULL, CW_ALIGN_CENTER, 0},
        {"Remedy", NULL, CW_ALIGN_LEFT, 1},
    };
    cw_document *doc = empty_document(*state, CW_PAPER_LETTER);
    cw_doc_part(doc, NULL, "Part");
    cw_table *table = cw_doc_table(doc, NULL, NULL, columns, 11);
    cw_table_row(table, CW_ROW_STRONG,
                 (const char *const[]){"B1-01-U", "12+34.56", "8′-0 1/2″", "16,650", "808.25",
                                       "808.33", "32.5", "9,610", "71", "fails",
                                       "Move the crane nearer or use the short slings"});
    cw_diags diags = cw_diags_on(*state);
    const cw_pages pages = cw_document_pages(doc, *state, &diags);
    for (int i = 0; i < 10; i++)
        assert_int_equal(times_in(&pages, table->rows[0].cells[i]), 1);
    const cw_overlap *list;
    assert_int_equal(cw_drawing_overlaps(pages.pages[0], *state, &list), 0);
}

static void references_and_sheet_list_name_the_right_page(void **state)
{
    cw_document *doc = empty_document(*state, CW_PAPER_LETTER);
    cw_doc_part(doc, "a", "Alpha");
    cw_doc_sheet_list(doc);
    cw_doc_paragraph(doc, "Lifts are on page {page:lift}, this is page {page:a}; [{page:row}]");
    cw_doc_part(doc, NULL, "Beta");
    for (int i = 0; i < 60; i++)
        cw_doc_paragraph(doc, "one line\nanother line\na third line");
    cw_doc_part(doc, "lift", "Gamma");
    static const cw_column columns[] = {{"Item", NULL, CW_ALIGN_LEFT, 0}};
    cw_table *table = cw_doc_table(doc, NULL, NULL, columns, 1);
    for (int i = 0; i < 120; i++)
        cw_table_row(table, CW_ROW_PLAIN,
                     (const char *const[]){cw_arena_print(*state, "item %d", i)});
    table->rows[100].anchor = "row";
    cw_diags diags = cw_diags_on(*state);
    const cw_pages pages = cw_document_pages(doc, *state, &diags);
    assert_int_equal(diags.count, 0);
    const int row_page = page_of(&pages, "item 100");
    int gamma = -1;
    for (int i = 0; i < pages.bookmark_count; i++) {
        if (strcmp(pages.bookmarks[i].title, "Gamma") == 0)
            gamma = pages.bookmarks[i].page;
    }
    assert_true(gamma > 2 && row_page > gamma);
    const char *line = cw_arena_print(*state, "Lifts are on page %d, this is page 1; [%d]",
                                      gamma + 1, row_page + 1);
    assert_int_equal(times_on(pages.pages[0], line), 1);
    assert_true(times_on(pages.pages[0], cw_arena_print(*state, "%d", gamma + 1)) >= 1);
    assert_int_equal(times_on(pages.pages[0], "Beta"), 1);
    for (int p = 0; p < pages.count; p++)
        assert_int_equal(times_on(pages.pages[p], cw_arena_print(*state, "of %d", pages.count)), 1);
}

static void faults_are_said_once(void **state)
{
    cw_document *doc = empty_document(*state, CW_PAPER_LETTER);
    cw_doc_part(doc, "here", "Part");
    cw_doc_paragraph(doc, "See page {page:nowhere} and again {page:nowhere}.");
    cw_doc_paragraph(doc, "A sign that is not there: 漢");
    cw_doc_heading(doc, "here", "Twice");
    cw_drawing *large = cw_drawing_new(
        *state, (cw_view){.width_pt = 700, .height_pt = 100, .scale_x = 1, .scale_y = 1});
    cw_drawing_finish(large);
    cw_doc_figure(doc, NULL, large, "Too wide");
    cw_diags diags = cw_diags_on(*state);
    const cw_pages pages = cw_document_pages(doc, *state, &diags);
    assert_int_equal(diags.count, 4);
    assert_int_equal(diags.items[0].code, CW_E_MISSING);
    assert_non_null(strstr(diags.items[0].message, "'nowhere'"));
    assert_int_equal(diags.items[1].code, CW_E_VALUE);
    assert_int_equal(diags.items[2].code, CW_E_DUPLICATE);
    assert_int_equal(diags.items[3].code, CW_E_RANGE);
    assert_non_null(strstr(diags.items[3].message, "700 x 100"));
    assert_int_equal(times_in(&pages, "Too wide"), 0);
}

static void headings_stay_with_what_follows(void **state)
{
    for (int lines = 30; lines < 60; lines++) {
        cw_document *doc = empty_document(*state, CW_PAPER_LETTER);
        cw_doc_part(doc, NULL, "Part");
        for (int i = 0; i < lines; i++)
            cw_doc_paragraph(doc, "filler");
        cw_doc_heading(doc, NULL, "The heading");
        cw_doc_paragraph(doc, "follower");
        cw_diags diags = cw_diags_on(*state);
        const cw_pages pages = cw_document_pages(doc, *state, &diags);
        assert_int_equal(page_of(&pages, "The heading"), page_of(&pages, "follower"));
    }
}

static void sample_pages_have_no_overlapping_text(void **state)
{
    for (int paper = CW_PAPER_LETTER; paper <= CW_PAPER_TABLOID; paper++) {
        cw_diags diags = cw_diags_on(*state);
        const cw_pages pages =
            cw_document_pages(sample_document(*state, (cw_paper)paper), *state, &diags);
        if (diags.count)
            fail_msg("%s", diags.items[0].message);
        for (int p = 0; p < pages.count; p++) {
            const cw_overlap *list;
            if (cw_drawing_overlaps(pages.pages[p], *state, &list))
                fail_msg("page %d: '%s' on '%s'", p + 1, list[0].a,
                         list[0].b ? list[0].b : "the frame's edge");
        }
    }
}

static void wide_figures_break_the_columns_of_tabloid(void **state)
{
    const cw_room room = cw_paper_room(CW_PAPER_TABLOID);
    assert_true(room.column_pt < room.full_pt / 2);
    cw_document *doc = empty_document(*state, CW_PAPER_TABLOID);
    cw_doc_part(doc, NULL, "Part");
    for (int i = 0; i < 30; i++)
        cw_doc_paragraph(doc, "before");
    cw_drawing *wide = cw_drawing_new(
        *state,
        (cw_view){
            .width_pt = room.full_pt, .height_pt = 60, .scale_x = 1, .scale_y = 1, .base_pt = 60});
    cw_draw_text(wide, (cw_xy){5, 5}, (cw_text_style){0}, "in the figure");
    cw_drawing_finish(wide);
    cw_doc_figure(doc, NULL, wide, "caption");
    cw_doc_paragraph(doc, "after");
    cw_diags diags = cw_diags_on(*state);
    const cw_pages pages = cw_document_pages(doc, *state, &diags);
    double before = 0, figure = 0, after = 0;
    const int page = page_of(&pages, "in the figure");
    for (int i = 0; i < pages.pages[page]->count; i++) {
        const cw_item *item = &pages.pages[page]->items[i];
        if (item->kind != CW_ITEM_TEXT)
            continue;
        if (strcmp(item->text, "before") == 0)
            before = fmax(before, item->at.y);
        if (strcmp(item->text, "in the figure") == 0)
            figure = item->at.y;
        if (strcmp(item->text, "after") == 0)
            after = item->at.y;
    }
    assert_true(before < figure && figure < after);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(long_tables_lose_no_row_and_repeat_their_head, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(rows_are_not_split_and_stay_above_the_foot, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(numbers_are_not_broken_in_a_crowded_table, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(references_and_sheet_list_name_the_right_page, set_up,
                                        tear_down),
        cmocka_unit_test_setup_teardown(faults_are_said_once, set_up, tear_down),
        cmocka_unit_test_setup_teardown(headings_stay_with_what_follows, set_up, tear_down),
        cmocka_unit_test_setup_teardown(sample_pages_have_no_overlapping_text, set_up, tear_down),
        cmocka_unit_test_setup_teardown(wide_figures_break_the_columns_of_tabloid, set_up,
                                        tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
