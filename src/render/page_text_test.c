/* Plain text of a document. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
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

static void small_table_comes_out_as_set_by_hand(void **state)
{
    cw_document *doc = cw_document_new(*state, CW_PAPER_LETTER, (cw_title_block){.job = "Job"});
    cw_doc_part(doc, "top", "Weights");
    static const cw_column columns[] = {{"Piece", NULL, CW_ALIGN_LEFT, 0},
                                        {"Weight", "lb", CW_ALIGN_RIGHT, 0},
                                        {"Note", NULL, CW_ALIGN_LEFT, 0}};
    cw_table *table = cw_doc_table(doc, NULL, "Lifts", columns, 3);
    cw_table_row(table, CW_ROW_GROUP, (const char *const[]){"Phase 1", NULL, NULL});
    cw_table_row(table, CW_ROW_PLAIN,
                 (const char *const[]){"B1-1", "16,650", "see page {page:top}"});
    cw_table_row(table, CW_ROW_PLAIN, (const char *const[]){"B1-2", "980", "5′-10¾″ clear"});
    assert_string_equal(cw_page_text(doc, 80, *state), "Weights\n"
                                                       "=======\n"
                                                       "\n"
                                                       "Lifts\n"
                                                       "Piece  Weight  Note\n"
                                                       "           lb\n"
                                                       "----------------------------\n"
                                                       "Phase 1\n"
                                                       "B1-1   16,650  see \"Weights\"\n"
                                                       "B1-2      980  5′-10¾″ clear\n");
}

static void no_line_is_wider_than_asked(void **state)
{
    const cw_document *doc = sample_document(*state, CW_PAPER_LETTER);
    for (int columns = 60; columns <= 140; columns += 20) {
        const char *text = cw_page_text(doc, columns, *state);
        int length = 0;
        for (unsigned code = cw_utf8_next(&text); code; code = cw_utf8_next(&text)) {
            length = code == '\n' ? 0 : length + 1;
            assert_true(length <= columns);
        }
    }
}

static void every_row_is_there(void **state)
{
    const char *text = cw_page_text(sample_document(*state, CW_PAPER_LETTER), 90, *state);
    for (int i = 1; i <= 70; i++)
        assert_non_null(strstr(text, cw_arena_print(*state, "B1-%02d", i)));
    assert_non_null(strstr(text, "CAUTION: No one stands under a piece"));
    assert_non_null(strstr(text, "[form] Readings: 18 lines"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(small_table_comes_out_as_set_by_hand, set_up, tear_down),
        cmocka_unit_test_setup_teardown(no_line_is_wider_than_asked, set_up, tear_down),
        cmocka_unit_test_setup_teardown(every_row_is_there, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
