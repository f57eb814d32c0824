// Rows of constants: the CSV form, its faults with their places, the look-up, and the compiler of
// data files.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

// It wants the four above before it.
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cw/rows.h"

#define HEADING "id,value,unit,low,high,source,edition,clause,status,note\n"

/* RFC 4180: quoted values hold commas, doubled quotes and line ends; lines end in LF or CRLF. */
static void quoted_values_are_read(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_rows rows = cw_rows_parse(
        "\xEF\xBB\xBF" HEADING "b.two,0.5,in,0,1,\"A, \"\"B\"\" and\nC\",2010,\"3.1\",S,x\r\n"
        "\r\n"
        "a.one,-2,degF,,, Practice ,,,P,",
        "t.csv", &arena, &diags);
    assert_int_equal(diags.count, 0);
    assert_int_equal(rows.count, 2);
    assert_string_equal(rows.items[0].id, "a.one"); // sorted by id
    assert_string_equal(rows.items[0].source, "Practice");
    assert_int_equal(rows.items[0].dim, CW_DIM_DEGF);
    assert_true(rows.items[0].low < -1e14 && rows.items[0].high > 1e14);
    assert_string_equal(rows.items[1].source, "A, \"B\" and\nC");
    assert_string_equal(rows.items[1].clause, "3.1");
    assert_string_equal(rows.items[1].note, "x");
    assert_true(rows.items[1].value == 0.5 && rows.items[1].dim == CW_DIM_IN);
    assert_int_equal(rows.items[1].status, CW_STATUS_READ);
    cw_arena_release(&arena);
}

static const struct {
    const char *text, *fault;
} faults[] = {
    {"", "t.csv:1:1: error 101: the file is empty; begin it with "
         "id,value,unit,low,high,source,edition,clause,status,note"},
    {"id,value\n", "t.csv:1:1: error 101: the first line is not the heading; write "
                   "id,value,unit,low,high,source,edition,clause,status,note"},
    {HEADING "a,1,in,0,2,s,,,P\n",
     "t.csv:2:1: error 101: this row has 9 values and 10 are wanted (id, value, unit, low, high, "
     "source, edition, clause, status, note); put values with commas in double quotes"},
    {HEADING "a,1,in,0,2,s, t,,,P,\n",
     "t.csv:2:1: error 101: this row has 11 values and 10 are wanted (id, value, unit, low, high, "
     "source, edition, clause, status, note); put values with commas in double quotes"},
    {HEADING ",1,in,0,2,s,,,P,\n",
     "t.csv:2:1: error 106: this row has no id; write one such as joint.gap_max"},
    {HEADING "a,one,in,0,2,s,,,P,\n", "t.csv:2:3: error 105: value of row a is \"one\"; write a "
                                      "plain number in the unit of the row"},
    {HEADING "a,,in,0,2,s,,,P,\n", "t.csv:2:3: error 105: value of row a is \"\"; write a plain "
                                   "number in the unit of the row"},
    {HEADING "a,1,in,0,2x,s,,,P,\n", "t.csv:2:10: error 105: high of row a is \"2x\"; write a "
                                     "plain number in the unit of the row"},
    {HEADING "a,1,inn,0,2,s,,,P,\n", "t.csv:2:5: error 104: unit of row a is \"inn\"; write in"},
    {HEADING "a,1,,0,2,s,,,P,\n",
     "t.csv:2:5: error 104: unit of row a is \"\"; write ft, in, lb, pcf, psi, deg, h, percent, "
     "ratio, count, cents or the like"},
    {HEADING "a,1.5,count,0,2,s,,,P,\n", "t.csv:2:3: error 105: value of row a is 1.5 and counts "
                                         "things; write a whole number"},
    {HEADING "a,3,in,0,2,s,,,P,\n",
     "t.csv:2:3: error 103: value of row a is 3, outside its own limits 0 to 2; correct the value, "
     "its unit or the limits"},
    {HEADING "a,-3,in,0,,s,,,P,\n",
     "t.csv:2:3: error 103: value of row a is -3, outside its own limits 0 to (open); correct the "
     "value, its unit or the limits"},
    {HEADING "a,1,in,0,2,,,,P,\n", "t.csv:2:12: error 106: row a has no source; name a "
                                   "publication, or write common practice"},
    {HEADING "a,1,in,0,2,s,,,X,\n",
     "t.csv:2:16: error 109: status of row a is \"X\"; write S (read in the source), M (from "
     "memory) or P (common practice)"},
    {HEADING "a,1,in,0,2,s,,,C,\n",
     "t.csv:2:16: error 109: status of row a is \"C\"; write S (read in the source), M (from "
     "memory) or P (common practice)"},
    {HEADING "a,1,in,0,2,s,,,P,\nb,1,in,0,2,s,,,P,\na,2,in,0,2,s,,,P,\n",
     "t.csv:4:1: error 107: row a is there already at line 2; keep one"},
    {HEADING "a,1,in,0,2,\"s,,,P,\n",
     "t.csv:2:12: error 101: a quoted value is not closed; end it with a double quote"},
    {HEADING "a,1,in,0,2,\"s\"x,,,P,\n", "t.csv:2:15: error 101: text follows a closing quote; "
                                         "write a comma there or double the quote"},
    // Columns count characters: the sign before the comma is two bytes.
    {HEADING "\xC2\xB5,one,in,0,2,s,,,P,\n",
     "t.csv:2:3: error 105: value of row \xC2\xB5 is \"one\"; write a plain number in the unit of "
     "the row"},
};

static void each_fault_has_its_place(void **state)
{
    (void)state;
    int wrong = 0;
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_rows_parse(faults[i].text, "t.csv", &arena, &diags);
        const char *found = diags.count > 0 ? cw_diag_line(&arena, &diags.items[0]) : "no fault";
        if (strcmp(found, faults[i].fault) != 0) {
            print_message("wanted %s\nfound  %s\n", faults[i].fault, found);
            wrong++;
        }
        cw_arena_release(&arena);
    }
    assert_int_equal(wrong, 0);
}

static void faulty_rows_are_left_out(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_rows rows =
        cw_rows_parse(HEADING "a,1,in,0,2,s,,,P,\nb,9,inch,8,0,,,,Z,\nc,1,in,0,2,s,,,P,\n", "t.csv",
                      &arena, &diags);
    assert_int_equal(rows.count, 2);
    assert_non_null(cw_rows_find(&rows, "a"));
    assert_null(cw_rows_find(&rows, "b"));
    assert_non_null(cw_rows_find(&rows, "c"));
    assert_null(cw_rows_find(&rows, ""));
    assert_null(cw_rows_find(&rows, "zz"));
    assert_int_equal(diags.count, 3); // unit, status and source of b, all at once
    cw_arena_release(&arena);
}

static void too_many_rows_are_refused(void **state)
{
    (void)state;
    enum { ROWS = 1001, ROW_BYTES = 32 };
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    char *text = cw_arena_take(&arena, ROWS + 4, ROW_BYTES);
    int used = sprintf(text, "%s", HEADING);
    for (int i = 0; i < ROWS; i++)
        used += sprintf(text + used, "r%d,1,in,0,2,s,,,P,\n", i);
    assert_int_equal(cw_rows_parse(text, "t.csv", &arena, &diags).count, 1000);
    assert_int_equal(diags.count, 1);
    assert_string_equal(
        cw_diag_line(&arena, &diags.items[0]),
        "t.csv:1002:1: error 110: this is row 1001 and a file may have 1000; split it");
    cw_arena_release(&arena);
}

static void sources_are_told_with_their_status(void **state)
{
    (void)state;
    static const struct {
        cw_row row;
        const char *words;
    } cases[] = {
        {{.source = "A", .edition = "2020", .clause = "3.1", .status = CW_STATUS_READ},
         "A, 2020, 3.1"},
        {{.source = "A", .edition = "", .clause = "3.1", .status = CW_STATUS_MEMORY},
         "A, 3.1 (from memory, not verified)"},
        {{.source = "common practice", .status = CW_STATUS_PRACTICE}, "common practice"},
        {{.source = "plan note 4", .status = CW_STATUS_CONTRACT}, "plan note 4 (set by this job)"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        assert_string_equal(cw_row_source(&arena, &cases[i].row), cases[i].words);
        cw_arena_release(&arena);
    }
    assert_string_equal(cw_status_words(CW_STATUS_READ), "read");
}

/* ---- the compiler of data files ---- */

static void write_file(const char *path, const char *text)
{
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_true(fputs(text, file) >= 0);
    assert_int_equal(fclose(file), 0);
}

static int compile(const char *arguments)
{
    char command[600];
    snprintf(command, sizeof command, "\"%s\" %s 2>compile_data_test.err", CW_COMPILE_DATA,
             arguments);
    return system(command);
}

static bool exists(const char *path)
{
    FILE *file = fopen(path, "rb");
    if (file)
        fclose(file);
    return file != NULL;
}

static void check_told(const char *words)
{
    char text[2000] = "";
    FILE *file = fopen("compile_data_test.err", "rb");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    if (!strstr(text, words))
        print_message("wanted %s\nfound  %s\n", words, text);
    assert_non_null(strstr(text, words));
}

#define MADE "compile_data_test.c.out"
#define FIRST "compile_data_test_1.csv"
#define SECOND "compile_data_test_2.csv"

static void bad_data_do_not_compile(void **state)
{
    (void)state;
    static const struct {
        const char *first, *second, *told;
    } cases[] = {
        {HEADING "a,1,in,0,2,,,,P,\n", HEADING "b,1,in,0,2,s,,,P,\n", "row a has no source"},
        {HEADING "a,1,,0,2,s,,,P,\n", HEADING "b,1,in,0,2,s,,,P,\n", "unit of row a is \"\""},
        {HEADING "a,3,in,0,2,s,,,P,\n", HEADING "b,1,in,0,2,s,,,P,\n", "outside its own limits"},
        {HEADING "a,1,in,0,2,s,,,P,\n", HEADING "a,1,in,0,2,s,,,P,\n",
         SECOND ": error 107: row a is already in " FIRST "; keep one"},
        {HEADING, HEADING, "the files hold no rows"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        remove(MADE);
        write_file(FIRST, cases[i].first);
        write_file(SECOND, cases[i].second);
        assert_int_not_equal(compile(MADE " " FIRST " " SECOND), 0);
        check_told(cases[i].told);
        assert_false(exists(MADE));
    }
    assert_int_not_equal(compile(MADE " no_such_file.csv"), 0);
    check_told("no_such_file.csv: error 113: cannot be read");
    assert_int_not_equal(compile(MADE), 0);
    check_told("usage");
}

static void good_data_compile_sorted_and_escaped(void **state)
{
    (void)state;
    write_file(FIRST, HEADING "b,0.1,in,0,2,\"q \"\"x\"\" \\ \xC2\xB5 ?\",,,P,\n");
    write_file(SECOND, HEADING "a,1,ratio,,,s,e,c,S,n\n");
    assert_int_equal(compile(MADE " " FIRST " " SECOND), 0);
    char text[1000] = "";
    FILE *file = fopen(MADE, "rb");
    assert_non_null(file);
    text[fread(text, 1, sizeof text - 1, file)] = '\0';
    fclose(file);
    const char *a = strstr(text, "{\"a\", 1, (cw_dim)0, -1000000000000000, 1000000000000000, "
                                 "\"s\", \"e\", \"c\", (cw_status)0, \"n\"},");
    const char *b =
        strstr(text, "{\"b\", 0.10000000000000001, (cw_dim)3, 0, 2, "
                     "\"q \\\"x\\\" \\\\ \\302\\265 \\077\", \"\", \"\", (cw_status)2, \"\"},");
    assert_true(a && b && a < b);
    assert_non_null(strstr(text, "const cw_rows cw_data = {rows, 2};"));
    remove(MADE);
    remove(FIRST);
    remove(SECOND);
    remove("compile_data_test.err");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quoted_values_are_read),
        cmocka_unit_test(each_fault_has_its_place),
        cmocka_unit_test(faulty_rows_are_left_out),
        cmocka_unit_test(too_many_rows_are_refused),
        cmocka_unit_test(sources_are_told_with_their_status),
        cmocka_unit_test(bad_data_do_not_compile),
        cmocka_unit_test(good_data_compile_sorted_and_escaped),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
