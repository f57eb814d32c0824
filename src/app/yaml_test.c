/* Job text to entries: paths, values, places, limits.  The faults of syntax are in tests/bad. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cw/text.h"
#include "cw/yaml.h"

/* "path = value @line:column" for each entry, one a line. */
static const char *listing(cw_arena *arena, const char *text, size_t length)
{
    static const char *const words[] = {"", "(map)", "(list)"};
    cw_diags diags = cw_diags_on(arena);
    const cw_entries *entries = cw_yaml_read(text, length, "job.yaml", arena, &diags);
    cw_text out = cw_text_on(arena);
    for (int i = 0; i < diags.count; i++)
        cw_text_print(&out, "%s\n", cw_diag_line(arena, &diags.items[i]));
    for (int i = 0; entries && i < entries->count; i++) {
        const cw_entry *e = &entries->items[i];
        cw_text_print(&out, "%s = %s%s @%d:%d\n", e->path, words[e->kind], e->value, e->line,
                      e->column);
    }
    return cw_text_string(&out);
}

/* Expected places by counting characters in the text by hand. */
static void entries_have_paths_values_and_places(void **state)
{
    (void)state;
    static const struct {
        const char *name, *text, *wanted;
    } cases[] = {
        {"block", "box:\n  span: 12 ft\n  rise: 4 ft  # inside\n",
         " = (map) @1:1\nbox = (map) @1:1\nbox.span = 12 ft @2:9\nbox.rise = 4 ft @3:9\n"},
        {"flow", "bedding: {thickness: 6 in, extra: 1 ft}\n",
         " = (map) @1:1\nbedding = (map) @1:1\nbedding.thickness = 6 in @1:22\nbedding.extra = 1 "
         "ft @1:35\n"},
        {"lists", "lengths: [8 ft, 6 ft]\nends:\n  - name: a\n    row: both\n  - {name: b}\n",
         " = (map) @1:1\nlengths = (list) @1:1\nlengths[0] = 8 ft @1:11\nlengths[1] = 6 ft "
         "@1:17\nends = (list) @2:1\n"
         "ends[0] = (map) @3:5\nends[0].name = a @3:11\nends[0].row = both @4:10\nends[1] = (map) "
         "@5:5\n"
         "ends[1].name = b @5:12\n"},
        {"list at the indent of its key", "ends:\n- a\n-   b\n",
         " = (map) @1:1\nends = (list) @1:1\nends[0] = a @2:3\nends[1] = b @3:5\n"},
        {"list in a list", "a: [[1], []]\n",
         " = (map) @1:1\na = (list) @1:1\na[0] = (list) @1:5\na[0][0] = 1 @1:6\na[1] = (list) "
         "@1:10\n"},
        {"trade signs need no quotes",
         "a: 5'-10 3/4\"\nb: 12+34.50\nc: 1:48\nd: 2:1\ne: 0.5%\nf: $1,250.00\ng: -8 deg\nh: "
         "30,000 lb\ni: c#d\n",
         " = (map) @1:1\na = 5'-10 3/4\" @1:4\nb = 12+34.50 @2:4\nc = 1:48 @3:4\nd = 2:1 @4:4\ne = "
         "0.5% @5:4\n"
         "f = $1,250.00 @6:4\ng = -8 deg @7:4\nh = 30,000 lb @8:4\ni = c#d @9:4\n"},
        {"trade signs between brackets", "a: [5'-10 3/4\", 1:48, \"24,000 lb\"]\n",
         " = (map) @1:1\na = (list) @1:1\na[0] = 5'-10 3/4\" @1:5\na[1] = 1:48 @1:17\na[2] = "
         "24,000 lb @1:23\n"},
        {"no word changes its meaning", "a: yes\nb: null\nc: 0x10\nd: 2026-05-04\ne: 1e3\nf: ~\n",
         " = (map) @1:1\na = yes @1:4\nb = null @2:4\nc = 0x10 @3:4\nd = 2026-05-04 @4:4\ne = 1e3 "
         "@5:4\nf = ~ @6:4\n"},
        {"quotes", "a: \" x: # y \"\nb: 'it''s'\nc: \"\"\nd:\n'e': 1\n",
         " = (map) @1:1\na = x: # y @1:4\nb = it's @2:4\nc =  @3:4\nd =  @4:3\ne = 1 @5:6\n"},
        {"columns count characters", "\"\xE2\x80\xB2\": \xC2\xBD in\nb: {\xC3\xA9: 1, c: 2}\n",
         " = (map) @1:1\n\xE2\x80\xB2 = \xC2\xBD in @1:6\nb = (map) @2:1\nb.\xC3\xA9 = 1 @2:8\nb.c "
         "= 2 @2:14\n"},
        {"byte order mark and CRLF",
         "\xEF\xBB\xBF"
         "a: 1\r\nb:\r\n  c: 2\r\n",
         " = (map) @1:1\na = 1 @1:4\nb = (map) @2:1\nb.c = 2 @3:6\n"},
        {"old line ends", "a: 1\rb: 2\r", " = (map) @1:1\na = 1 @1:4\nb = 2 @2:4\n"},
        {"no end of the last line", "a: 1", " = (map) @1:1\na = 1 @1:4\n"},
        {"document marks", "---\na: 1\n...\n", " = (map) @2:1\na = 1 @2:4\n"},
        {"twice the same key", "a: 1\na: 2\n", " = (map) @1:1\na = 1 @1:4\na = 2 @2:4\n"},
        {"comments", "# a\n\n  # b\na: 1 #c\n", " = (map) @4:1\na = 1 @4:4\n"},
        {"a tab after the colon", "a:\t1\n", " = (map) @1:1\na = 1 @1:4\n"},
        {"list over several lines", "a: [1,\n  2,\n  3]\n",
         " = (map) @1:1\na = (list) @1:1\na[0] = 1 @1:5\na[1] = 2 @2:3\na[2] = 3 @3:3\n"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        const char *got = listing(&arena, cases[i].text, strlen(cases[i].text));
        if (strcmp(got, cases[i].wanted) != 0)
            print_error("%s\n", cases[i].name);
        assert_string_equal(got, cases[i].wanted);
        cw_arena_release(&arena);
    }
}

static const cw_entries *read_text(cw_arena *arena, const cw_text *text, cw_diags *diags)
{
    *diags = cw_diags_on(arena);
    return cw_yaml_read(cw_text_string(text), text->length, "job.yaml", arena, diags);
}

/* The limits of cw/job.h: the last size that is taken, and the first that is not. */
static void limits_hold_exactly(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags;
    for (int over = 0; over <= 1; over++) {
        cw_text deep = cw_text_on(&arena), many = cw_text_on(&arena), big = cw_text_on(&arena);
        cw_text_add(&deep, "a: "); // the file itself is the first level
        for (int i = 1; i < CW_JOB_DEPTH_MAX + over; i++)
            cw_text_add(&deep, "[");
        for (int i = 1; i < CW_JOB_DEPTH_MAX + over; i++)
            cw_text_add(&deep, "]");
        for (int i = 1; i < CW_JOB_ENTRIES_MAX + over; i++)
            cw_text_print(&many, "k%d: v\n", i);
        cw_text_add(&big, "a: 1\n#");
        while (big.length < CW_JOB_BYTES_MAX + (size_t)over)
            cw_text_add(&big, "x");
        const cw_text *const all[] = {&deep, &many, &big};
        for (int i = 0; i < 3; i++) {
            const cw_entries *entries = read_text(&arena, all[i], &diags);
            assert_true((entries != NULL) == (over == 0));
            assert_int_equal(diags.count, over);
            assert_true(over == 0 || diags.items[0].code == CW_E_TOO_MANY);
        }
    }
    cw_arena_release(&arena);
}

/* Inputs that make a careless reader slow: each is near the size limit and must end in a moment,
 * with few findings. */
static void long_and_crooked_files_end_soon(void **state)
{
    (void)state;
    static const char *const pieces[] = {
        "[",  "{",    "a, ",    "- ",  "a: b\n", "a\n",    "- a\n  b\n", "\xC3\xA9, ", "? ",
        "\"", "\t\n", "\xFF\n", "&a ", "a:b\n",  "#1 #1 ", "- - - - ",   "{a: [",      "1,000 "};
    for (size_t i = 0; i < sizeof pieces / sizeof pieces[0]; i++)
        for (int bracket = 0; bracket <= 1; bracket++) {
            cw_arena arena = cw_arena_on(NULL);
            cw_diags diags;
            cw_text text = cw_text_on(&arena);
            cw_text_add(&text, bracket ? "a: [" : "");
            while (text.length + 16 < CW_JOB_BYTES_MAX)
                cw_text_add(&text, pieces[i]);
            read_text(&arena, &text, &diags);
            assert_true(diags.count <= 21);
            assert_int_equal(diags.dropped, 0);
            cw_arena_release(&arena);
        }
}

/* A NUL in the text ends no string early: it is a fault in its place. */
static void bytes_are_counted_not_ended(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    assert_string_equal(listing(&arena, "a: 1\n\0b: 2\n", 11),
                        "job.yaml:2:1: error 101: character U+0000 does not show and does not "
                        "belong in a job file; "
                        "delete it\n");
    assert_string_equal(listing(&arena, "", 0),
                        "job.yaml:1:1: error 101: the file is empty; 'culvertwright new FILE' "
                        "writes a job to start from\n");
    // Nothing behind the byte order mark; the bytes are on the heap so that reading past them is
    // seen.
    char *mark = malloc(3);
    assert_non_null(mark);
    memcpy(mark, "\xEF\xBB\xBF", 3);
    assert_string_equal(listing(&arena, mark, 3),
                        "job.yaml:1:1: error 101: the file is empty; 'culvertwright new FILE' "
                        "writes a job to start from\n");
    free(mark);
    cw_arena_release(&arena);
}

/* Several faults of the same reading are all reported, and no entry is handed on. */
static void faults_are_collected(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    assert_string_equal(listing(&arena, "a: !x 1\nb: 2\nc: |\n  text\nd.e: 4\n",
                                strlen("a: !x 1\nb: 2\nc: |\n  text\nd.e: 4\n")),
                        "job.yaml:1:4: error 101: '!' starts a tag, which job files do not have; "
                        "put the value in quotes\n"
                        "job.yaml:3:4: error 101: text over several lines is not taken; write the "
                        "value on one line, in quotes\n"
                        "job.yaml:5:1: error 101: key 'd.e' holds a dot or a bracket; write the "
                        "outer key, and the inner one indented on "
                        "the next line\n");
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(entries_have_paths_values_and_places),
        cmocka_unit_test(limits_hold_exactly),
        cmocka_unit_test(long_and_crooked_files_end_soon),
        cmocka_unit_test(bytes_are_counted_not_ended),
        cmocka_unit_test(faults_are_collected),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
