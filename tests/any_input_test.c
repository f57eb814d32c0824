/* Every calculator: any input within the limits gives finite results and a complete working, and
 * the working does not change them. */
#include "../src/base/calc_test_help.h"

static const uint64_t first_seed = 20260302u;
enum { CASES = 3000, MOST = 100000, LEAST_VALID = 20 };

/* Within the limits, both ends among them, and small values often. */
static double within(uint64_t *seed, double low, double high)
{
    const double share = next_random(seed);
    if (share < 0.1)
        return low;
    if (share > 0.9)
        return high;
    const double t = next_random(seed);
    return low + (high - low) * (share < 0.5 ? t * t * t * t : t);
}

static void set_random(const cw_field *field, char *base, uint64_t *seed)
{
    void *at = base + field->offset;
    if (field->has_offset != CW_NO_FLAG)
        *(bool *)(void *)(base + field->has_offset) = next_random(seed) < 0.5;
    int words = 0;
    while (field->choices && field->choices[words])
        words++;
    bool falling = false;
    cw_list list = {.count = 2 + (int)(next_random(seed) * 3.0)};
    switch (field->kind) {
    case CW_KIND_NUMBER:
        *(double *)at = within(seed, field->low, field->high);
        break;
    case CW_KIND_COUNT:
        *(int *)at = (int)within(seed, field->low, field->high);
        break;
    case CW_KIND_CHOICE:
        *(int *)at = (int)(next_random(seed) * words);
        break;
    case CW_KIND_FLAG:
        *(bool *)at = next_random(seed) < 0.5;
        break;
    case CW_KIND_LIST:
        // Rising or falling, as rows of a table are.
        falling = next_random(seed) < 0.5;
        for (int i = 0; i < list.count; i++)
            list.items[falling ? list.count - 1 - i : i] =
                field->low + (field->high - field->low) * (i + next_random(seed)) / list.count;
        *(cw_list *)at = list;
        break;
    case CW_KIND_TEXT:
        break; // as in the example, which is there already
    default:
        fail_msg("%s has a kind this test does not know", field->key);
    }
}

/* The text of the example: "key=..." up to a blank. */
static void take_text(const cw_calc *calc, const cw_field *field, char *base)
{
    static char texts[8][512];
    static int used;
    const char *at = strstr(calc->example, field->key);
    assert_true(at && used < 8);
    at += strlen(field->key) + 1;
    snprintf(texts[used], sizeof texts[used], "%.*s", (int)strcspn(at, " "), at);
    *(const char **)(void *)(base + field->offset) = texts[used++];
}

static void check_results(const cw_calc *calc, const char *output, int turn)
{
    for (int i = 0; i < calc->output_count; i++) {
        const cw_field *field = &calc->outputs[i];
        const void *at = output + field->offset;
        if (field->kind == CW_KIND_NUMBER && !isfinite(*(const double *)at))
            fail_msg("%s case %d: %s is not finite", calc->name, turn, field->key);
        if (field->kind != CW_KIND_CHOICE)
            continue;
        int words = 0;
        while (field->choices[words])
            words++;
        const int word = *(const int *)at;
        if (word < 0 || word >= words)
            fail_msg("%s case %d: %s is word %d of %d", calc->name, turn, field->key, word, words);
    }
}

static void check_case(const cw_calc *calc, const char *input, int turn)
{
    uint64_t plain[ROOM / 8] = {0}, shown[ROOM / 8] = {0};
    cw_arena arena = cw_arena_on(NULL);
    cw_working working = cw_working_on(&arena, calc->title);
    calc->run(input, plain, NULL);
    calc->run(input, shown, &working);
    check_results(calc, (const char *)plain, turn);
    assert_memory_equal(plain, shown, calc->output_size);
    if (working.count == 0)
        fail_msg("%s case %d: no working", calc->name, turn);
    for (int i = 0; i < working.count; i++) {
        const cw_working_step *step = &working.steps[i];
        if (!isfinite(step->value) || !step->symbol[0] || !step->expression[0] || !step->source[0])
            fail_msg("%s case %d: step %d is not complete", calc->name, turn, i);
    }
    cw_arena_release(&arena);
}

static void any_valid_input_gives_finite_results(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    for (int c = 0; c < cw_calcs_all.count; c++) {
        const cw_calc *calc = cw_calcs_all.items[c];
        uint64_t input[ROOM / 8], example[ROOM / 8] = {0};
        assert_true(calc->input_size <= sizeof input && calc->output_size <= ROOM);
        for (int i = 0; i < calc->input_count; i++)
            if (calc->inputs[i].kind == CW_KIND_TEXT)
                take_text(calc, &calc->inputs[i], (char *)example);
        int ran = 0;
        for (int turn = 0; turn < CASES || (ran < LEAST_VALID && turn < MOST); turn++) {
            cw_arena arena = cw_arena_on(NULL);
            cw_diags diags = cw_diags_on(&arena);
            memcpy(input, example, sizeof input);
            for (int i = 0; i < calc->input_count; i++)
                set_random(&calc->inputs[i], (char *)input, &seed);
            const bool good = !calc->valid || calc->valid(input, (cw_pos){.file = "test"}, &diags);
            assert_int_equal(good, diags.count == 0);
            if (good) {
                check_case(calc, (const char *)input, turn);
                ran++;
            }
            cw_arena_release(&arena);
        }
        if (ran < LEAST_VALID)
            fail_msg("%s: only %d of %d cases were valid", calc->name, ran, (int)MOST);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_valid_input_gives_finite_results),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
