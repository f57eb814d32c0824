/* Shared by the tests of calculators. */
#ifndef CW_CALC_TEST_HELP_H
#define CW_CALC_TEST_HELP_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cw/calc.h"
#include "cw/units.h"

#define COUNT_OF(array) (sizeof(array) / sizeof(array)[0])

static inline void near(const char *what, double got, double want, double tolerance)
{
    if (!(fabs(got - want) <= tolerance))
        fail_msg("%s: got %.10g, want %.10g within %.2g", what, got, want, tolerance);
}

/* Texts lie in the arena of the reading: keep copies for the input of one case at a time. */
static inline void keep_texts(const cw_calc *calc, void *input)
{
    enum { TEXTS = 4, BYTES = 1024 };
    static char kept[TEXTS][BYTES];
    int used = 0;
    for (int i = 0; i < calc->input_count; i++) {
        const char **text = (const char **)(void *)((char *)input + calc->inputs[i].offset);
        if (calc->inputs[i].kind != CW_KIND_TEXT || !*text)
            continue;
        assert_true(used < TEXTS && strlen(*text) < BYTES);
        snprintf(kept[used], BYTES, "%s", *text);
        *text = kept[used++];
    }
}

/* Fill from "key=value key=value" (no blanks inside values) and say whether it may run; findings
 * are joined into @p said. */
static inline bool fill(const cw_calc *calc, const char *text, void *input, char *said, size_t room)
{
    enum { VALUES = 32, TEXT = 1024 };
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_calc_value values[VALUES];
    char copy[TEXT];
    int count = 0;
    snprintf(copy, sizeof copy, "%s", text);
    for (char *word = strtok(copy, " "); word; word = strtok(NULL, " ")) {
        char *equals = strchr(word, '=');
        assert_non_null(equals);
        assert_true(count < VALUES);
        *equals = '\0';
        values[count++] = (cw_calc_value){word, equals + 1, {.file = "test"}};
    }
    memset(input, 0, calc->input_size);
    const bool good = cw_calc_fill(calc, values, count, &cw_data, input, NULL, &arena, &diags);
    keep_texts(calc, input);
    size_t used = 0;
    said[0] = '\0';
    for (int i = 0; i < diags.count && used < room; i++)
        used += (size_t)snprintf(said + used, room - used, "%d %s|", (int)diags.items[i].code,
                                 diags.items[i].message);
    cw_arena_release(&arena);
    return good;
}

/* The same where it must run. */
static inline void take(const cw_calc *calc, const char *text, void *input)
{
    char said[2048];
    if (!fill(calc, text, input, said, sizeof said))
        fail_msg("%s %s: %s", calc->name, text, said);
}

/* The same where it must be refused with @p code and each of the words in @p needed ("a|b"). */
static inline void refuse(const cw_calc *calc, const char *text, int code, const char *needed)
{
    uint64_t input[2048];
    char said[2048], words[256], number[16];
    assert_true(calc->input_size <= sizeof input);
    if (fill(calc, text, input, said, sizeof said))
        fail_msg("%s takes %s", calc->name, text);
    snprintf(number, sizeof number, "%d ", code);
    snprintf(words, sizeof words, "%s", needed);
    if (!strstr(said, number))
        fail_msg("%s %s: no code %d in %s", calc->name, text, code, said);
    for (char *word = strtok(words, "|"); word; word = strtok(NULL, "|"))
        if (!strstr(said, word))
            fail_msg("%s %s: \"%s\" is not in %s", calc->name, text, word, said);
}

enum { ROOM = 4096 };

/* The output field @p key of @p calc. */
static inline const cw_field *output_field(const cw_calc *calc, const char *key)
{
    for (int i = 0; i < calc->output_count; i++)
        if (strcmp(calc->outputs[i].key, key) == 0)
            return &calc->outputs[i];
    fail_msg("%s has no output %s", calc->name, key);
    return NULL;
}

/* Run @p calc on "key=value ..." into @p output (ROOM bytes). */
static inline void run_on(const cw_calc *calc, const char *text, void *output)
{
    uint64_t input[ROOM / 8];
    assert_true(calc->input_size <= ROOM && calc->output_size <= ROOM);
    take(calc, text, input);
    memset(output, 0, ROOM);
    calc->run(input, output, NULL);
}

/* One value that must come out: @p want for numbers and counts, else @p word. */
typedef struct expected {
    const cw_calc *calc;
    const char *text, *key;
    double want, tolerance;
    const char *word;
    const char *source;
} expected;

static inline void must_give(const expected *row)
{
    uint64_t output[ROOM / 8];
    run_on(row->calc, row->text, output);
    const cw_field *field = output_field(row->calc, row->key);
    const void *at = (const char *)output + field->offset;
    char what[512];
    snprintf(what, sizeof what, "%s %s: %s (%s)", row->calc->name, row->text, row->key,
             row->source);
    if (field->kind == CW_KIND_CHOICE) {
        if (strcmp(field->choices[*(const int *)at], row->word) != 0)
            fail_msg("%s: got %s, want %s", what, field->choices[*(const int *)at], row->word);
    } else if (field->kind == CW_KIND_FLAG) {
        assert_int_equal(*(const bool *)at, strcmp(row->word, "yes") == 0);
    } else if (field->kind == CW_KIND_COUNT) {
        near(what, *(const int *)at, row->want, 0.0);
    } else {
        near(what, *(const double *)at, row->want, row->tolerance);
    }
}

/* xorshift64 (Marsaglia 2003): the same values on every machine. */
static inline double next_random(uint64_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return (double)(*seed >> 11) / 9007199254740992.0; // 2^53
}

static inline double between(uint64_t *seed, double low, double high)
{
    return low + (high - low) * next_random(seed);
}

#endif
