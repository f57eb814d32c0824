// Fields: reading with its messages, writing back, printing, defaults.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

// It wants the four above before it.
#include <cmocka.h>

#include <stdio.h>
#include <string.h>

#include "cw/field.h"

typedef struct sample {
    double span_in, factor, slope, length_ft, cost;
    int count, form;
    bool wet, has_leg;
    const char *name, *note;
    double leg_in;
    cw_list lengths_in;
} sample;

static const char *const forms[] = {"lid", "double-u", "ring", NULL};

enum { SPAN, FACTOR, SLOPE, LENGTH, COST, COUNT, FORM, WET, NAME, NOTE, LEG, LENGTHS, FIELDS };

static const cw_field fields[FIELDS] = {
    {"span", "S", CW_KIND_NUMBER, CW_DIM_IN, 24, 480, "@box.span", false, "inside width", NULL,
     NULL, offsetof(sample, span_in), CW_NO_FLAG},
    {"factor", NULL, CW_KIND_NUMBER, CW_DIM_NONE, 1, CW_ANY_HIGH, "1.05", false, "a factor",
     "common practice", NULL, offsetof(sample, factor), CW_NO_FLAG},
    {"slope", NULL, CW_KIND_NUMBER, CW_DIM_SLOPE, CW_ANY_LOW, 0.5, NULL, true, "a slope", NULL,
     NULL, offsetof(sample, slope), CW_NO_FLAG},
    {"length", NULL, CW_KIND_NUMBER, CW_DIM_FT, 4, 3000, NULL, true, "a length", NULL, NULL,
     offsetof(sample, length_ft), CW_NO_FLAG},
    {"cost", NULL, CW_KIND_NUMBER, CW_DIM_MONEY, 0, 1e8, NULL, true, "a cost", NULL, NULL,
     offsetof(sample, cost), CW_NO_FLAG},
    {"count", NULL, CW_KIND_COUNT, CW_DIM_COUNT, 1, 8, "@barrels", false, "how many", NULL, NULL,
     offsetof(sample, count), CW_NO_FLAG},
    {"form", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, "ring", false, "a form", "common practice",
     forms, offsetof(sample, form), CW_NO_FLAG},
    {"wet", NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, "no", false, "is it wet", "common practice",
     NULL, offsetof(sample, wet), CW_NO_FLAG},
    {"name", NULL, CW_KIND_TEXT, CW_DIM_TEXT, 0, 0, NULL, true, "what it is called", NULL, NULL,
     offsetof(sample, name), CW_NO_FLAG},
    {"note", NULL, CW_KIND_TEXT, CW_DIM_TEXT, 0, 0, NULL, false, "a remark", NULL, NULL,
     offsetof(sample, note), CW_NO_FLAG},
    {"leg", NULL, CW_KIND_NUMBER, CW_DIM_IN, 6, 240, NULL, false, "a leg", NULL, NULL,
     offsetof(sample, leg_in), offsetof(sample, has_leg)},
    {"lengths", NULL, CW_KIND_LIST, CW_DIM_IN, 24, 288, NULL, true, "some lengths", NULL, NULL,
     offsetof(sample, lengths_in), CW_NO_FLAG},
};

typedef struct fixture {
    cw_arena arena;
    cw_diags diags;
    sample value;
} fixture;

static fixture fresh(void)
{
    return (fixture){.arena = cw_arena_on(NULL)};
}

static bool read_into(fixture *f, int field, const char *text)
{
    f->diags = cw_diags_on(&f->arena);
    const cw_pos where = {"job.yaml", "box.x", 12, 9};
    return cw_field_read(&fields[field], text, &f->value, where, &f->arena, &f->diags);
}

/* ---- faults ---- */

#define IN_HINT "a length such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"

static const struct {
    int field;
    const char *text, *fault;
} faults[] = {
    {SPAN, "3 in",
     "error 103: span 3 in is below the least 24 in; write a value from 24 in to 40 ft"},
    {SPAN, "480.001 in",
     "error 103: span 480.001 in is above the most 40 ft; write a value from 24 in to 40 ft"},
    {SPAN, "-2 ft",
     "error 103: span -2 ft is below the least 24 in; write a value from 24 in to 40 ft"},
    {SPAN, "12", "error 104: span 12 has no unit; write " IN_HINT},
    {SPAN, "12 kg",
     "error 104: span 12 kg has a unit that does not fit here (\"kg\"); write " IN_HINT},
    {SPAN, "", "error 105: span has no value; write " IN_HINT},
    {SPAN, "nan", "error 105: span nan cannot be read; write " IN_HINT},
    {SPAN, "12 ft 3 in 4",
     "error 105: span 12 ft 3 in 4 makes no sense from \"4\" on; write " IN_HINT},
    {FACTOR, "0.9", "error 103: factor 0.9 is below the least 1; write a value from 1 up"},
    {SLOPE, "60%", "error 103: slope 60% is above the most 50 %; write a value from 50 % down"},
    {LENGTH, "3000.5 ft",
     "error 103: length 3000.5 ft is above the most 3000 ft; write a value from 4 ft to 3000 ft"},
    {COST, "12.50", "error 104: cost 12.50 has no unit; write an amount such as $1,250.00"},
    {COUNT, "0", "error 103: count 0 is below the least 1; write a value from 1 to 8"},
    {COUNT, "9", "error 103: count 9 is above the most 8; write a value from 1 to 8"},
    {COUNT, "2 ft",
     "error 104: count 2 ft has a unit that does not fit here (\"ft\"); write a whole number from "
     "1 to 8"},
    {COUNT, "two", "error 105: count two cannot be read; write a whole number from 1 to 8"},
    {FORM, "lid ", "error 109: form lid  is not one of lid, double-u or ring; did you mean lid?"},
    {FORM, "doubel-u",
     "error 109: form doubel-u is not one of lid, double-u or ring; did you mean double-u?"},
    {FORM, "Arch", "error 109: form Arch is not a choice; write lid, double-u or ring"},
    {FORM, "", "error 109: form has no value; write lid, double-u or ring"},
    {WET, "maybe", "error 109: wet maybe is neither yes nor no; write yes or no"},
    {WET, "", "error 109: wet (nothing) is neither yes nor no; write yes or no"},
    {NAME, "", "error 105: name has no value; write it: what it is called"},
    {LENGTHS, "", "error 105: lengths is an empty list; write " IN_HINT},
    {LENGTHS, "[ ]", "error 105: lengths is an empty list; write " IN_HINT},
    {LENGTHS, "8 ft, 6", "error 104: lengths 6 has no unit; write " IN_HINT},
    {LENGTHS, "8 ft,", "error 105: lengths has no value; write " IN_HINT},
    // Long and unprintable texts are shown cut, at a character.
    {FORM, "a\tb", "error 109: form a?b is not a choice; write lid, double-u or ring"},
    {FORM, "0123456789012345678901234567890123456789012345678901234567\xE2\x80\xB2x",
     "error 109: form 0123456789012345678901234567890123456789012345678901234567... is not a "
     "choice; "
     "write lid, double-u or ring"},
};

static void each_fault_names_value_limit_and_remedy(void **state)
{
    (void)state;
    int wrong = 0;
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        fixture f = fresh();
        const sample before = f.value;
        const bool stored = read_into(&f, faults[i].field, faults[i].text);
        const char *line = f.diags.count == 1 ? cw_diag_line(&f.arena, &f.diags.items[0]) : "";
        const char *wanted = cw_arena_print(&f.arena, "job.yaml:12:9: %s", faults[i].fault);
        if (stored || strcmp(line, wanted) != 0 || memcmp(&before, &f.value, sizeof before) != 0) {
            print_message("wanted %s\nfound  %s\n", wanted, line);
            wrong++;
        }
        cw_arena_release(&f.arena);
    }
    assert_int_equal(wrong, 0);
}

static void all_faults_of_a_list_are_told(void **state)
{
    (void)state;
    fixture f = fresh();
    assert_false(read_into(&f, LENGTHS, "1 ft, 8 ft, 6, 99 ft"));
    assert_int_equal(f.diags.count, 3);
    cw_arena_release(&f.arena);
}

static void long_lists_are_refused(void **state)
{
    (void)state;
    char text[8 * (CW_LIST_MAX + 1) + 1] = "";
    for (int i = 0; i < CW_LIST_MAX; i++)
        strcat(text, i > 0 ? ", 8 ft" : "8 ft");
    fixture f = fresh();
    assert_true(read_into(&f, LENGTHS, text));
    assert_int_equal(f.value.lengths_in.count, CW_LIST_MAX);
    strcat(text, ", 8 ft");
    assert_false(read_into(&f, LENGTHS, text));
    assert_string_equal(f.diags.items[0].message,
                        "lengths has more than 64 items; shorten the list");
    cw_arena_release(&f.arena);
}

/* ---- sound values ---- */

static void values_are_written_and_printed(void **state)
{
    (void)state;
    static const struct {
        int field;
        const char *text, *written, *us, *si;
    } cases[] = {
        // 25.4 mm = 1 in; 0.3048 m = 1 ft: exact by definition.
        {SPAN, "12 ft", "12'-0\"", "12'-0\"", "3658 mm"},
        {SPAN, "70 3/4 in", "5'-10 3/4\"", "5'-10 3/4\"", "1797 mm"},
        {FACTOR, "1.2", "1.2", "1.2", "1.2"},
        {SLOPE, "-1:50", "-2 %", "-2.00 %", "-2.00 %"},
        {LENGTH, "30 m", "30 m?", "98.43 ft", "30.000 m"},
        {COST, "$1,250", "$1250", "$1,250.00", "$1,250.00"},
        {COUNT, "3", "3", "3", "3"},
        {FORM, "double-u", "double-u", "double-u", "double-u"},
        {WET, "true", "yes", "yes", "yes"},
        {WET, "no", "no", "no", "no"},
        {NAME, "a: b", "a: b", "a: b", "a: b"},
        {NOTE, "", "", "", ""},
        {LENGTHS, "[8 ft,6 ft]", "8'-0\", 6'-0\"", "8'-0\", 6'-0\"", "2438 mm, 1829 mm"},
        {LENGTHS, "  8 ft ", "8'-0\"", "8'-0\"", "2438 mm"},
    };
    int wrong = 0;
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        fixture f = fresh();
        const cw_field *field = &fields[cases[i].field];
        assert_true(read_into(&f, cases[i].field, cases[i].text));
        assert_int_equal(f.diags.count, 0);
        const char *written = cw_field_write(field, &f.value, &f.arena);
        const char *us = cw_field_print(field, &f.value, CW_US, &f.arena);
        const char *si = cw_field_print(field, &f.value, CW_SI, &f.arena);
        // 30 m has no short decimal in feet; there only the reading back counts.
        const bool same_text =
            strcmp(cases[i].written, "30 m?") == 0 || strcmp(written, cases[i].written) == 0;
        const sample first = f.value;
        const bool again = read_into(&f, cases[i].field, written);
        if (field->kind == CW_KIND_TEXT)
            f.value.name = first.name, f.value.note = first.note;
        if (!same_text || strcmp(us, cases[i].us) != 0 || strcmp(si, cases[i].si) != 0 || !again ||
            memcmp(&first, &f.value, sizeof first) != 0) {
            print_message("%s: %s | %s | %s\n", cases[i].text, written, us, si);
            wrong++;
        }
        cw_arena_release(&f.arena);
    }
    assert_int_equal(wrong, 0);
}

static void optional_values_tell_that_they_are_there(void **state)
{
    (void)state;
    fixture f = fresh();
    assert_false(read_into(&f, LEG, "1 in"));
    assert_false(f.value.has_leg);
    assert_true(read_into(&f, LEG, "2 ft"));
    assert_true(f.value.has_leg && f.value.leg_in == 24.0);
    cw_arena_release(&f.arena);
}

static void limits_are_inclusive(void **state)
{
    (void)state;
    fixture f = fresh();
    assert_true(read_into(&f, SPAN, "2 ft"));
    assert_true(read_into(&f, SPAN, "40 ft"));
    assert_true(read_into(&f, COUNT, "8"));
    assert_int_equal(f.value.count, 8);
    cw_arena_release(&f.arena);
}

static void hints_fit_the_kind(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    assert_string_equal(cw_field_hint(&arena, &fields[SPAN]), IN_HINT);
    assert_string_equal(cw_field_hint(&arena, &fields[FORM]), "lid, double-u or ring");
    assert_string_equal(cw_field_hint(&arena, &fields[WET]), "yes or no");
    assert_string_equal(cw_field_hint(&arena, &fields[NAME]), "some text");
    assert_string_equal(cw_field_hint(&arena, &fields[COUNT]), "a whole number from 1 to 8");
    cw_arena_release(&arena);
}

/* ---- defaults ---- */

static void defaults_come_from_rows_or_words(void **state)
{
    (void)state;
    static const cw_row items[] = {
        {.id = "barrels", .value = 2, .dim = CW_DIM_COUNT, .low = 1, .high = 8, .source = "s"},
        {.id = "box.span", .value = 144, .dim = CW_DIM_IN, .low = 0, .high = 999, .source = "s"},
    };
    const cw_rows rows = {items, 2};
    fixture f = fresh();
    f.diags = cw_diags_on(&f.arena);
    const cw_row *used[FIELDS];
    for (int i = 0; i < FIELDS; i++)
        used[i] = cw_field_default(&fields[i], &rows, &f.value, &f.arena, &f.diags);
    assert_int_equal(f.diags.count, 0);
    assert_ptr_equal(used[SPAN], &items[1]);
    assert_ptr_equal(used[COUNT], &items[0]);
    assert_null(used[FORM]);
    assert_true(f.value.span_in == 144.0 && f.value.factor == 1.05);
    assert_int_equal(f.value.count, 2);
    assert_int_equal(f.value.form, 2);
    assert_string_equal(f.value.note, "");
    assert_false(f.value.has_leg);
    cw_arena_release(&f.arena);
}

static void rows_that_do_not_serve_are_refused(void **state)
{
    (void)state;
    static const struct {
        cw_row row;
        const char *fault;
    } cases[] = {
        {{.id = "other", .value = 1, .dim = CW_DIM_IN},
         "span takes its default from row box.span, which the profile does not have; give span in "
         "the "
         "job, or add the row"},
        {{.id = "box.span", .value = 12, .dim = CW_DIM_IN},
         "row box.span is 12 in, which does not serve as span; set the row to a value from 24 in "
         "to "
         "40 ft"},
        {{.id = "box.span", .value = 30, .dim = CW_DIM_LB},
         "row box.span is 30 lb, which does not serve as span; set the row to a value from 24 in "
         "to 40 ft"},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const cw_rows rows = {&cases[i].row, 1};
        fixture f = fresh();
        f.diags = cw_diags_on(&f.arena);
        assert_null(cw_field_default(&fields[SPAN], &rows, &f.value, &f.arena, &f.diags));
        assert_int_equal(f.diags.count, 1);
        assert_string_equal(f.diags.items[0].message, cases[i].fault);
        cw_arena_release(&f.arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_fault_names_value_limit_and_remedy),
        cmocka_unit_test(all_faults_of_a_list_are_told),
        cmocka_unit_test(long_lists_are_refused),
        cmocka_unit_test(values_are_written_and_printed),
        cmocka_unit_test(optional_values_tell_that_they_are_there),
        cmocka_unit_test(limits_are_inclusive),
        cmocka_unit_test(hints_fit_the_kind),
        cmocka_unit_test(defaults_come_from_rows_or_words),
        cmocka_unit_test(rows_that_do_not_serve_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
