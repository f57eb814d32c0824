/* Every calculator on every face: its example runs, its limits hold, its JSON parses, its manual is current. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cw/report.h"
#include "cw/text.h"

/* "key=value key='with spaces'" cut into values; quotes as a shell takes them. */
static int cut_example(const char *example, cw_calc_value *values, int most, cw_arena *arena)
{
    int count = 0;
    const char *at = example;
    while (*at) {
        at += strspn(at, " ");
        if (!*at)
            break;
        cw_text word = cw_text_on(arena);
        char quote = '\0';
        for (; *at && (quote || *at != ' '); at++) {
            if (quote ? *at == quote : (*at == '\'' || *at == '"'))
                quote = quote ? '\0' : *at;
            else
                cw_text_add_bytes(&word, at, 1);
        }
        char *text = cw_arena_copy(arena, cw_text_string(&word), word.length);
        char *equals = strchr(text, '=');
        assert_non_null(equals);
        assert_true(count < most);
        *equals = '\0';
        values[count++] = (cw_calc_value){text, equals + 1, {.file = "example"}};
    }
    return count;
}

static void show(const cw_calc *calc, const cw_diags *diags, cw_arena *arena)
{
    for (int i = 0; i < diags->count; i++)
        print_error("%s: %s\n", calc->name, cw_diag_line(arena, &diags->items[i]));
}

static cw_calc_answer answer_example(const cw_calc *calc, cw_arena *arena)
{
    cw_calc_value values[64];
    const int count = cut_example(calc->example, values, 64, arena);
    cw_diags diags = cw_diags_on(arena);
    cw_calc_answer answer = {.calc = calc,
                             .input = cw_arena_take(arena, calc->input_size, 1),
                             .output = cw_arena_take(arena, calc->output_size, 1),
                             .given = CW_TAKE(arena, bool, calc->input_count),
                             .working = cw_working_on(arena, calc->title)};
    if (!cw_calc_fill(calc, values, count, &cw_data, answer.input, answer.given, arena, &diags)) {
        show(calc, &diags, arena);
        fail_msg("example of %s does not run: %s", calc->name, calc->example);
    }
    calc->run(answer.input, answer.output, &answer.working);
    return answer;
}

static void examples_run_and_show_their_working(void **state)
{
    (void)state;
    assert_true(cw_calcs_all.count >= 10);
    for (int i = 0; i < cw_calcs_all.count; i++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_calc *calc = cw_calcs_all.items[i];
        const cw_calc_answer answer = answer_example(calc, &arena);
        if (answer.working.count == 0)
            fail_msg("%s shows no working", calc->name);
        for (int k = 0; k < answer.working.count; k++) {
            const cw_working_step *step = &answer.working.steps[k];
            if (!isfinite(step->value) || !step->symbol[0] || !step->expression[0] || !step->source[0])
                fail_msg("%s: step %d is not complete", calc->name, k);
        }
        for (int k = 0; k < calc->output_count; k++) {
            if (calc->outputs[k].kind != CW_KIND_NUMBER)
                continue;
            double value;
            memcpy(&value, (char *)answer.output + calc->outputs[k].offset, sizeof value);
            if (!isfinite(value))
                fail_msg("%s: %s is not finite", calc->name, calc->outputs[k].key);
        }
        json_error_t error;
        json_t *json = json_loads(cw_calc_json(&answer, &arena), JSON_REJECT_DUPLICATES, &error);
        if (!json)
            fail_msg("%s: JSON line %d: %s", calc->name, error.line, error.text);
        assert_int_equal(json_object_size(json_object_get(json, "results")), calc->output_count);
        json_decref(json);
        assert_non_null(strstr(cw_calc_text(&answer, CW_SI, &arena), calc->source));
        cw_arena_release(&arena);
    }
}

static void descriptors_are_complete(void **state)
{
    (void)state;
    for (int i = 0; i < cw_calcs_all.count; i++) {
        const cw_calc *calc = cw_calcs_all.items[i];
        assert_true(calc->about[0] && calc->source[0] && calc->title[0] && calc->group[0]);
        assert_ptr_equal(cw_calc_find(calc->name), calc);
        for (int k = 0; k < calc->input_count; k++) {
            const cw_field *field = &calc->inputs[k];
            if (!field->meaning || !field->meaning[0])
                fail_msg("%s: %s has no meaning", calc->name, field->key);
            if (field->required && field->fallback)
                fail_msg("%s: %s is required and has a default", calc->name, field->key);
            if (field->fallback && field->fallback[0] == '@' && !cw_rows_find(&cw_data, field->fallback + 1))
                fail_msg("%s: %s has default %s, which is no row", calc->name, field->key, field->fallback);
            for (int other = 0; other < k; other++)
                assert_string_not_equal(field->key, calc->inputs[other].key);
        }
        for (int k = 0; k < calc->output_count; k++)
            assert_true(calc->outputs[k].meaning && calc->outputs[k].meaning[0]);
    }
}

/* One step below and above each limit is refused, with the place; the limit itself is taken by the field reader. */
static void limits_are_refused(void **state)
{
    (void)state;
    for (int i = 0; i < cw_calcs_all.count; i++) {
        const cw_calc *calc = cw_calcs_all.items[i];
        for (int k = 0; k < calc->input_count; k++) {
            const cw_field *field = &calc->inputs[k];
            if (field->kind != CW_KIND_NUMBER || field->dim == CW_DIM_MONEY)
                continue;
            cw_arena arena = cw_arena_on(NULL);
            char *base = cw_arena_take(&arena, calc->input_size, 1);
            const double limits[2] = {field->low, field->high};
            for (int side = 0; side < 2; side++) {
                if (fabs(limits[side]) >= CW_ANY_HIGH)
                    continue;
                const double step = fmax(1e-3, fabs(limits[side]) * 1e-3);
                const double outside = side ? limits[side] + step : limits[side] - step;
                cw_diags diags = cw_diags_on(&arena);
                const char *text = cw_quantity_write(&arena, outside, field->dim);
                const cw_pos at = {.file = "x", .line = 7, .column = 3};
                if (cw_field_read(field, text, base, at, &arena, &diags))
                    fail_msg("%s: %s takes %s", calc->name, field->key, text);
                assert_int_equal(diags.count, 1);
                assert_int_equal(diags.items[0].where.line, 7);
            }
            cw_arena_release(&arena);
        }
    }
}

static void missing_and_unknown_inputs_are_named(void **state)
{
    (void)state;
    for (int i = 0; i < cw_calcs_all.count; i++) {
        const cw_calc *calc = cw_calcs_all.items[i];
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        int needed = 0;
        for (int k = 0; k < calc->input_count; k++)
            needed += calc->inputs[k].required;
        const cw_calc_value wrong = {"no_such_input", "1", {.file = "x"}};
        assert_false(cw_calc_fill(calc, &wrong, 1, &cw_data, cw_arena_take(&arena, calc->input_size, 1), NULL, &arena,
                                  &diags));
        assert_int_equal(diags.count, needed + 1);
        assert_int_equal(diags.items[0].code, CW_E_UNKNOWN_KEY);
        for (int k = 1; k < diags.count; k++)
            assert_int_equal(diags.items[k].code, CW_E_MISSING);
        cw_arena_release(&arena);
    }
}

static void manual_page_is_current(void **state)
{
    (void)state;
    FILE *stream = fopen(CW_ROOT "/docs/calculators.md", "rb");
    if (!stream)
        fail_msg("docs/calculators.md is missing; run tools/renew");
    static char page[1 << 18];
    page[fread(page, 1, sizeof page - 1, stream)] = '\0';
    fclose(stream);
    for (int i = 0; i < cw_calcs_all.count; i++) {
        cw_arena arena = cw_arena_on(NULL);
        if (!strstr(page, cw_calc_manual(cw_calcs_all.items[i], &arena)))
            fail_msg("docs/calculators.md is old at %s; run tools/renew", cw_calcs_all.items[i]->name);
        cw_arena_release(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(examples_run_and_show_their_working), cmocka_unit_test(descriptors_are_complete),
        cmocka_unit_test(limits_are_refused),                  cmocka_unit_test(missing_and_unknown_inputs_are_named),
        cmocka_unit_test(manual_page_is_current),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
