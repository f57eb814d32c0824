/* Arena, text, diagnostics, working, checks.  Expected values are by hand from what the headers
 * promise. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cw/check.h"
#include "cw/diag.h"
#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/working.h"

/* Memory that counts its blocks and runs out at a chosen call. */
typedef struct scarce {
    jmp_buf way_out;
    int calls, given_back, fail_at; /* fail_at counts from 0; negative never fails */
    int exhausted;
    size_t asked; /* bytes of the call that failed */
} scarce;

static void *scarce_obtain(void *self, size_t bytes)
{
    scarce *store = self;
    if (store->calls == store->fail_at)
        return NULL;
    store->calls++;
    return malloc(bytes);
}

static void scarce_give_back(void *self, void *block)
{
    ((scarce *)self)->given_back++;
    free(block);
}

static void scarce_exhausted(void *self, size_t bytes)
{
    scarce *store = self;
    store->exhausted++;
    store->asked = bytes;
    longjmp(store->way_out, 1);
}

static cw_memory memory_on(scarce *store)
{
    return (cw_memory){scarce_obtain, scarce_give_back, scarce_exhausted, store};
}

enum { BLOCK_AT_LEAST = 64 * 1024, LONG_TEXT = 300 * 1024, CHECKS = 3000, STEPS = 3000 };

/* Uses every function of the base that takes memory, in amounts that need many blocks. */
static void use_everything(cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    for (int i = 0; i < LONG_TEXT / 8; i++)
        cw_text_add(&text, "8 bytes.");
    cw_text_print(&text, "%*d", 2000, 7);

    cw_diags diags = cw_diags_on(arena);
    for (int i = 0; i < CW_DIAGS_MAX; i++)
        cw_diag_add(&diags, (cw_pos){.line = CW_DIAGS_MAX - i}, CW_E_RANGE, "%*d", 900, i);
    cw_diags_sort(&diags);
    cw_diag_line(arena, &diags.items[0]);

    cw_checks checks = cw_checks_on(arena);
    for (int i = 0; i < CHECKS; i++)
        cw_check_add(&checks, (cw_check){.id = "base.many"});
    cw_working working = cw_working_on(arena, "many steps");
    for (int i = 0; i < STEPS; i++)
        cw_step_add(&working, "x", "1 + 1", 2.0, CW_DIM_NONE, "hand");
    cw_arena_print(arena, "%*d", 5 * BLOCK_AT_LEAST, 1);
    cw_arena_copy(arena, text.data, text.length);
    cw_quantity_format(arena, 70.75, CW_DIM_IN, CW_US);
    cw_quantity_write(arena, 70.75, CW_DIM_IN);
    assert_int_equal(checks.count, CHECKS);
    assert_int_equal(working.count, STEPS);
}

/* True when the run came to its end; false when memory ran out at call @p fail_at. */
static bool runs_with_failure_at(int fail_at, int *calls)
{
    scarce store = {.fail_at = fail_at};
    const cw_memory memory = memory_on(&store);
    cw_arena arena = cw_arena_on(&memory);
    volatile bool whole = false;
    if (setjmp(store.way_out) == 0) {
        use_everything(&arena);
        whole = true;
    }
    assert_int_equal(store.exhausted, whole ? 0 : 1);
    assert_true(whole || store.asked >= BLOCK_AT_LEAST);
    cw_arena_release(&arena);
    assert_null(arena.blocks);
    assert_int_equal(arena.bytes_held, 0);
    assert_int_equal(store.given_back, store.calls);
    *calls = store.calls;
    return whole;
}

static void memory_may_run_out_at_any_call(void **state)
{
    (void)state;
    int needed = 0;
    assert_true(runs_with_failure_at(-1, &needed));
    assert_true(needed > 5);
    for (int fail_at = 0; fail_at < needed; fail_at++) {
        int calls = 0;
        assert_false(runs_with_failure_at(fail_at, &calls));
        assert_int_equal(calls, fail_at);
    }
}

static void take_too_much(scarce *store, size_t count, size_t size)
{
    const cw_memory memory = memory_on(store);
    cw_arena arena = cw_arena_on(&memory);
    if (setjmp(store->way_out) == 0)
        cw_arena_take(&arena, count, size);
}

static void a_size_past_the_address_space_is_refused(void **state)
{
    (void)state;
    static const struct {
        size_t count, size;
    } cases[] = {{SIZE_MAX, 2}, {SIZE_MAX / 2, 4}, {SIZE_MAX - 8, 1}, {SIZE_MAX - 64, 1}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        scarce store = {.fail_at = 0};
        take_too_much(&store, cases[i].count, cases[i].size);
        assert_int_equal(store.exhausted, 1);
        assert_int_equal(store.calls, 0);
    }
}

static void arena_gives_zeroed_aligned_memory(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    assert_int_equal(arena.bytes_held, 0);
    unsigned char *last = NULL;
    for (size_t size = 0; size < 300; size++) {
        unsigned char *taken = cw_arena_take(&arena, size, 1);
        assert_non_null(taken);
        assert_int_equal((uintptr_t)taken % _Alignof(max_align_t), 0);
        for (size_t i = 0; i < size; i++) {
            assert_int_equal(taken[i], 0);
            taken[i] = 0xff;
        }
        assert_true(size <= 1 || taken != last);
        last = taken;
    }
    const double *doubles = CW_TAKE(&arena, double, 20000); // larger than a block
    assert_true(doubles[0] == 0.0 && doubles[19999] == 0.0);
    assert_true(arena.bytes_held >= 20000 * sizeof(double));
    cw_arena_release(&arena);
    assert_int_equal(arena.bytes_held, 0);
    assert_string_equal(cw_arena_copy(&arena, "again", 5), "again");
    cw_arena_release(&arena);
    cw_arena_release(&arena); // an empty arena may be released
}

static void arena_copies_grows_and_prints(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    assert_string_equal(cw_arena_copy(&arena, "tongue", 3), "ton");
    assert_string_equal(cw_arena_copy(&arena, NULL, 0), "");
    const int three[] = {3, 1, 4};
    const int *grown = cw_arena_grow(&arena, three, 3, 6, sizeof three[0]);
    assert_memory_equal(grown, three, sizeof three);
    assert_int_equal(grown[3] | grown[4] | grown[5], 0);
    const int *fresh = cw_arena_grow(&arena, NULL, 0, 2, sizeof three[0]);
    assert_int_equal(fresh[0], 0);
    assert_string_equal(cw_arena_print(&arena, "%s-%d", "B8", 1), "B8-1");
    for (int width = 254; width <= 258; width++) { // around the size of the brief buffer
        const char *text = cw_arena_print(&arena, "%*d", width, 5);
        assert_int_equal(strlen(text), width);
        assert_int_equal(text[width - 1], '5');
    }
    cw_arena_release(&arena);
}

static void text_grows_and_keeps_all(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_text text = cw_text_on(&arena);
    assert_string_equal(cw_text_string(&text), "");
    cw_text_add(&text, "");
    assert_string_equal(cw_text_string(&text), "");
    cw_text_add_bytes(&text, "lid and hood", 3);
    cw_text_print(&text, " %d", 12);
    assert_string_equal(cw_text_string(&text), "lid 12");
    for (int i = 0; i < 1000; i++)
        cw_text_print(&text, "%03d", i);
    assert_int_equal(text.length, 6 + 3 * 1000);
    for (int i = 0; i < 1000; i++) {
        char digits[16];
        snprintf(digits, sizeof digits, "%03d", i);
        assert_memory_equal(cw_text_string(&text) + 6 + 3 * i, digits, 3);
    }
    for (int width = 510; width <= 514; width++) { // around the size of the brief buffer
        cw_text one = cw_text_on(&arena);
        cw_text_print(&one, "%*d", width, 5);
        assert_int_equal(one.length, width);
        assert_int_equal(strlen(cw_text_string(&one)), width);
    }
    assert_true(cw_text_same("a", "a"));
    assert_false(cw_text_same("a", "b"));
    assert_false(cw_text_same("a", NULL));
    assert_false(cw_text_same(NULL, NULL));
    cw_arena_release(&arena);
}

static void nearest_word_is_within_a_third(void **state)
{
    (void)state;
    static const char *const keys[] = {"span",   "rise",    "cover", "tongue",
                                       "groove", "station", "pan"};
    static const struct {
        const char *word, *nearest; /* edit distance (Damerau 1964) by hand in the comment */
    } cases[] = {
        {"span", "span"},       /* 0 */
        {"spna", "span"},       /* 1: swap */
        {"sapn", "span"},       /* 1: swap; "pan" is 2 */
        {"spn", "span"},        /* 1: insert; "pan" is 2 */
        {"an", "pan"},          /* 1 */
        {"spam", "span"},       /* 1: replace */
        {"spans", "span"},      /* 1: delete */
        {"covver", "cover"},    /* 1 */
        {"tounge", "tongue"},   /* 2 by swaps of neighbours, 6/3 = 2 allowed */
        {"statoin", "station"}, /* 1: swap */
        {"grove", "groove"},    /* 1 */
        {"rize", "rise"},       /* 1 */
        {"width", NULL},        /* none within 1 */
        {"c", NULL},            /* none within 1 */
        {"", NULL},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        const char *got = cw_text_nearest(cases[i].word, keys, 7);
        if (got != cases[i].nearest && !cw_text_same(got, cases[i].nearest))
            fail_msg("%s: %s, expected %s", cases[i].word, got ? got : "none",
                     cases[i].nearest ? cases[i].nearest : "none");
    }
    static const char *const twins[] = {"bar", "car"};
    assert_string_equal(cw_text_nearest("far", twins, 2), "bar"); // ties go to the first
    assert_null(cw_text_nearest("far", twins, 0));
    assert_null(
        cw_text_nearest("a word far longer than any key of the format, past forty-eight", keys, 7));
}

static void diags_sort_by_place_then_order(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_diag_add(&diags, (cw_pos){.line = 9, .column = 1}, CW_E_RANGE, "nine");
    cw_diag_add(&diags, (cw_pos){.line = 2, .column = 7}, CW_E_UNIT, "two-seven %s", "first");
    cw_diag_add(&diags, (cw_pos){.line = 2, .column = 7}, CW_E_RANGE, "two-seven second");
    cw_diag_add(&diags, (cw_pos){.line = 2, .column = 3}, CW_E_VALUE, "two-three");
    cw_diag_add(&diags, (cw_pos){0}, CW_E_FILE, "no place");
    cw_diag_add(&diags, (cw_pos){.line = 9, .column = 1}, CW_E_RANGE, "nine");
    cw_diag_add(&diags, (cw_pos){.line = 9, .column = 1}, CW_E_UNIT, "nine");
    cw_diags_sort(&diags);
    static const char *const order[] = {"no place",         "two-three", "two-seven first",
                                        "two-seven second", "nine",      "nine"};
    assert_int_equal(diags.count, 6); // the exact repeat is gone, the other code stays
    for (int i = 0; i < diags.count; i++)
        assert_string_equal(diags.items[i].message, order[i]);
    assert_int_equal(diags.items[4].code, CW_E_RANGE);
    assert_int_equal(diags.items[5].code, CW_E_UNIT);
    cw_diags_sort(&diags);
    assert_int_equal(diags.count, 6);
    cw_arena_release(&arena);
}

static void diags_past_the_bound_are_counted(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    for (int i = 0; i < CW_DIAGS_MAX + 5; i++)
        cw_diag_add(&diags, (cw_pos){.line = 1000 - i}, CW_E_RANGE, "finding %d", i);
    assert_int_equal(diags.count, CW_DIAGS_MAX);
    assert_int_equal(diags.dropped, 5);
    cw_diags_sort(&diags);
    for (int i = 1; i < diags.count; i++)
        assert_true(diags.items[i - 1].where.line < diags.items[i].where.line);
    cw_arena_release(&arena);
}

static void diag_line_leaves_out_what_is_unknown(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_diag whole = {{"job.yaml", "box.span", 12, 9}, CW_E_RANGE, "too wide"};
    const cw_diag file = {{.file = "job.yaml"}, CW_E_FILE, "cannot be read"};
    const cw_diag bare = {{0}, CW_W_MEMORY, "rests on memory"};
    assert_string_equal(cw_diag_line(&arena, &whole), "job.yaml:12:9: error 103: too wide");
    assert_string_equal(cw_diag_line(&arena, &file), "job.yaml: error 113: cannot be read");
    assert_string_equal(cw_diag_line(&arena, &bare), "warning 301: rests on memory");

    cw_diags diags = cw_diags_on(&arena);
    cw_diag_add(&diags, (cw_pos){0}, CW_E_VALUE, "%*d", 3000, 1);
    assert_int_equal(strlen(diags.items[0].message), 1023); // cut, closed, not overrun
    cw_arena_release(&arena);
}

static void codes_are_stable_and_listed_once(void **state)
{
    (void)state;
    int count = 0;
    for (; cw_code_at(count); count++) {
        assert_true(strlen(cw_code_at(count)->meaning) > 0);
        assert_true(count == 0 || cw_code_at(count - 1)->code < cw_code_at(count)->code);
    }
    assert_null(cw_code_at(-1));
    assert_int_equal(cw_code_at(0)->code, 101);
    assert_int_equal(CW_E_FILE, 113);
    assert_int_equal(CW_E_NO_SOLUTION, 202);
    assert_int_equal(CW_W_ASSUMED, 302);
    assert_int_equal(count, 13 + 2 + 2); // 101..113, 201..202, 301..302
    assert_string_equal(cw_code_kind(CW_E_NO_SOLUTION), "error");
    assert_string_equal(cw_code_kind(CW_W_MEMORY), "warning");
}

static void working_keeps_steps_in_order(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_working working = cw_working_on(&arena, "Weight");
    for (int i = 0; i < 100; i++) {
        const double same = cw_step_add(&working, "W", "V w", (double)i, CW_DIM_LB, "hand");
        assert_true(same == (double)i);
    }
    assert_int_equal(working.count, 100);
    for (int i = 0; i < 100; i++)
        assert_true(working.steps[i].value == (double)i && working.steps[i].dim == CW_DIM_LB);
    assert_string_equal(working.title, "Weight");
    assert_true(cw_step_add(NULL, "W", "V w", 5.0, CW_DIM_LB, "hand") == 5.0);
    cw_arena_release(&arena);
}

static void meets_allows_a_billionth(void **state)
{
    (void)state;
    assert_true(cw_meets(10.0, 10.0));
    assert_true(cw_meets(10.0 * (1.0 + 0.9e-9), 10.0));
    assert_false(cw_meets(10.0 * (1.0 + 1.1e-9), 10.0));
    assert_true(cw_meets(0.0, 0.0));
    assert_true(cw_meets(0.9e-9, 0.0)); // under 1 the allowance is absolute
    assert_false(cw_meets(1.1e-9, 0.0));
    assert_true(cw_meets(-10.0, -10.0));
    assert_true(cw_meets(-10.0 + 0.9e-8, -10.0));
    assert_false(cw_meets(-10.0 + 1.1e-8, -10.0));
    assert_false(cw_meets((double)NAN, 1.0));
    assert_false(cw_meets(1.0, (double)NAN));
}

static void verdict_and_ratio_follow_the_numbers(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double demand, capacity;
        bool at_least;
        double ratio;
        cw_verdict verdict;
    } cases[] = {
        {"half used", 5.0, 10.0, false, 0.5, CW_HOLDS},
        {"exactly used", 10.0, 10.0, false, 1.0, CW_HOLDS},
        {"over", 12.0, 10.0, false, 1.2, CW_FAILS},
        {"nothing there", 1.0, 0.0, false, 0.0, CW_FAILS},
        {"nothing asked", 0.0, 0.0, false, 0.0, CW_HOLDS},
        {"negative demand", -1.0, 10.0, false, 0.0, CW_HOLDS},
        {"at least: twice", 20.0, 10.0, true, 0.5, CW_HOLDS},
        {"at least: exactly", 10.0, 10.0, true, 1.0, CW_HOLDS},
        {"at least: short", 8.0, 10.0, true, 1.25, CW_FAILS},
        {"at least: none there", 0.0, 10.0, true, 0.0, CW_FAILS},
        {"no number", (double)NAN, 10.0, false, 0.0, CW_FAILS},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_check check = {.demand = cases[i].demand,
                          .capacity = cases[i].capacity,
                          .at_least = cases[i].at_least,
                          .verdict = CW_UNDECIDED};
        cw_check_judge(&check);
        if (!check.has_numbers || check.ratio != cases[i].ratio ||
            check.verdict != cases[i].verdict)
            fail_msg("%s: ratio %g, %s", cases[i].name, check.ratio,
                     cw_verdict_word(check.verdict));
    }
}

static void worst_verdict_of_a_ledger(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_checks checks = cw_checks_on(&arena);
    assert_int_equal(cw_checks_worst(&checks), CW_HOLDS);
    for (int i = 0; i < 40; i++) // past the first growth
        cw_check_add(&checks, (cw_check){.id = "a", .demand = i})->verdict = CW_HOLDS;
    assert_int_equal(cw_checks_worst(&checks), CW_HOLDS);
    assert_true(checks.items[39].demand == 39.0);
    cw_check_add(&checks, (cw_check){.id = "b", .verdict = CW_UNDECIDED});
    assert_int_equal(cw_checks_worst(&checks), CW_UNDECIDED);
    cw_check_add(&checks, (cw_check){.id = "c", .verdict = CW_FAILS});
    cw_check_add(&checks, (cw_check){.id = "d", .verdict = CW_UNDECIDED});
    assert_int_equal(cw_checks_worst(&checks), CW_FAILS);
    assert_string_equal(cw_verdict_word(CW_HOLDS), "holds");
    assert_string_equal(cw_verdict_word(CW_FAILS), "fails");
    assert_string_equal(cw_verdict_word(CW_UNDECIDED), "undecided");
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(memory_may_run_out_at_any_call),
        cmocka_unit_test(a_size_past_the_address_space_is_refused),
        cmocka_unit_test(arena_gives_zeroed_aligned_memory),
        cmocka_unit_test(arena_copies_grows_and_prints),
        cmocka_unit_test(text_grows_and_keeps_all),
        cmocka_unit_test(nearest_word_is_within_a_third),
        cmocka_unit_test(diags_sort_by_place_then_order),
        cmocka_unit_test(diags_past_the_bound_are_counted),
        cmocka_unit_test(diag_line_leaves_out_what_is_unknown),
        cmocka_unit_test(codes_are_stable_and_listed_once),
        cmocka_unit_test(working_keeps_steps_in_order),
        cmocka_unit_test(meets_allows_a_billionth),
        cmocka_unit_test(verdict_and_ratio_follow_the_numbers),
        cmocka_unit_test(worst_verdict_of_a_ledger),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
