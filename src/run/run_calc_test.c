/* Calculators of the run: printed numbers, faults, descriptors. */
#include <ctype.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cw/run.h"
#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "run_check.h"

#define COUNT_OF(table) (sizeof(table) / sizeof(table)[0])

static const cw_calc *const calcs[] = {
    &cw_calc_run_length, &cw_calc_slope_length, &cw_calc_joint_grade,   &cw_calc_joint_place,
    &cw_calc_cover,      &cw_calc_bend,         &cw_calc_barrel_offset, &cw_calc_skew_end,
    &cw_calc_headwall,   &cw_calc_round_up,
};

enum { WORDS_MAX = 40, STRUCT_MAX = 8192, LINE_MAX_BYTES = 1000 };

typedef union room {
    double align;
    unsigned char bytes[STRUCT_MAX];
} room;

typedef struct bench {
    cw_arena arena;
    cw_diags diags;
    cw_working working;
    room input, output;
} bench;

static void open_bench(bench *on)
{
    *on = (bench){.arena = cw_arena_on(NULL)};
    on->diags = cw_diags_on(&on->arena);
    on->working = cw_working_on(&on->arena, NULL);
}

/* Words of the form key=value, split at spaces. */
static bool fill(bench *on, const cw_calc *calc, const char *words)
{
    assert_true(calc->input_size <= STRUCT_MAX && calc->output_size <= STRUCT_MAX);
    cw_calc_value values[WORDS_MAX];
    int count = 0;
    char *copy = cw_arena_copy(&on->arena, words, strlen(words));
    for (char *word = strtok(copy, " \n"); word; word = strtok(NULL, " \n")) {
        char *equals = strchr(word, '=');
        assert_non_null(equals);
        *equals = '\0';
        assert_true(count < WORDS_MAX);
        values[count++] = (cw_calc_value){.key = word, .text = equals + 1};
    }
    const cw_rows rows = {0};
    return cw_calc_fill(calc, values, count, &rows, &on->input, NULL, &on->arena, &on->diags);
}

static void answer(bench *on, const cw_calc *calc, const char *words)
{
    open_bench(on);
    if (!fill(on, calc, words)) {
        for (int i = 0; i < on->diags.count; i++)
            print_error("%s: %s\n", calc->name, on->diags.items[i].message);
        fail();
    }
    calc->run(&on->input, &on->output, &on->working);
}

static const cw_field *output_of(const cw_calc *calc, const char *key)
{
    for (int i = 0; i < calc->output_count; i++)
        if (strcmp(calc->outputs[i].key, key) == 0)
            return &calc->outputs[i];
    print_error("%s has no output %s\n", calc->name, key);
    fail();
    return NULL;
}

static bool given(const cw_field *field, const void *base)
{
    return field->has_offset == CW_NO_FLAG ||
           *(const bool *)((const char *)base + field->has_offset);
}

static double value_of(const cw_field *field, const void *base)
{
    const void *place = (const char *)base + field->offset;
    return field->kind == CW_KIND_NUMBER ? *(const double *)place : *(const int *)place;
}

/* ---- printed numbers ---- */

static const char skewed[] =
    "elevation=520ft grade=1.5% skew=20deg inlet_widths=12ft,8ft inlet_falls=2%,4% "
    "inlet_side_slope=2:1 outlet_widths=12ft,8ft outlet_falls=2%,4% outlet_side_slope=2:1 "
    "invert=505ft slope=1% rise=72in top=10in width=140in ";

typedef struct row {
    const cw_calc *calc;
    const char *words; /* NULL: the calculator's own example */
    const char *key;
    double value, within;
} row;

/* Hand calculations: the skewed crossing is worked out in docs/handbook/run.md and verified there
 * by substitution; the others are written out beside the same numbers in the tests of the
 * functions. */
static const row numbers[] = {
    {&cw_calc_run_length, NULL, "inlet_distance", 37.0837, 5e-5},
    {&cw_calc_run_length, NULL, "outlet_distance", 37.8605, 5e-5},
    {&cw_calc_run_length, NULL, "plan_length", 74.944, 5e-4},
    {&cw_calc_run_length, NULL, "slope_length", 74.948, 5e-4},
    {&cw_calc_run_length, NULL, "other_cut_length", 70.697, 5e-4},
    {&cw_calc_run_length, NULL, "other_cut_saves", 4.25, 5e-3},
    {&cw_calc_run_length, NULL, "outlet_invert", 504.621, 5e-4},
    {&cw_calc_run_length, NULL, "inlet_cover", 0.9997, 5e-5},
    {&cw_calc_run_length, NULL, "inlet_far_cover", 0.9997 - 1.9951, 1e-4},
    /* 0.015 x 5.8333 cos 20 = 0.0822 */
    {&cw_calc_run_length, NULL, "left_out", 0.0822, 5e-5},
    {&cw_calc_round_up, NULL, "pieces", 13, 0},
    {&cw_calc_round_up, NULL, "run", 78.496, 5e-4},
    {&cw_calc_round_up, NULL, "excess", 3.552, 5e-4},
    {&cw_calc_round_up, NULL, "inlet_distance", 40.636, 5e-4},
    {&cw_calc_round_up, NULL, "outlet_invert", 504.621, 5e-4},
    {&cw_calc_round_up, NULL, "inlet_invert", 505.406, 5e-4},
    {&cw_calc_round_up, NULL, "inlet_fill", 6.147, 5e-4},
    {&cw_calc_round_up, NULL, "all_inlet_fill", 6.147, 5e-4},
    {&cw_calc_round_up, NULL, "shared_inlet_fill", 6.990, 5e-4},
    /* 7.8333 - 1.7761 (cos 20/2 - 0.01 + 0.015 sin 20) = 7.8333 - 0.8258 */
    {&cw_calc_round_up, NULL, "shared_outlet_fill", 7.0076, 5e-5},
    {&cw_calc_round_up, NULL, "box_height", 6.8337, 5e-5},
    {&cw_calc_cover, NULL, "centre_cover", 8.1663, 5e-5},
    {&cw_calc_cover, NULL, "inlet_hinge_cover", 7.503, 1e-3},
    {&cw_calc_cover, NULL, "outlet_hinge_cover", 7.710, 1e-3},
    {&cw_calc_slope_length, NULL, "slope_length", 100.4988, 5e-5},
    {&cw_calc_slope_length, NULL, "plan_length", 99.5037, 5e-5},
    {&cw_calc_joint_grade, NULL, "advance", 6.041195, 5e-7},
    {&cw_calc_joint_grade, NULL, "distance", 60.4119, 6e-5},
    {&cw_calc_joint_grade, NULL, "invert", 513.0951, 6e-5},
    {&cw_calc_joint_grade, NULL, "subgrade", 511.7617, 6e-5},
    {&cw_calc_joint_grade, NULL, "rod_invert", 7.395, 5e-4},
    {&cw_calc_joint_grade, NULL, "rod_subgrade", 8.728, 5e-4},
    {&cw_calc_joint_place, NULL, "northing", 2037.849, 6e-4},
    {&cw_calc_joint_place, NULL, "easting", 988.046, 6e-4},
    {&cw_calc_joint_place, NULL, "azimuth", 145, 1e-9},
    {&cw_calc_joint_place, NULL, "elevation", 504.621, 1e-9},
    {&cw_calc_bend, NULL, "joints", 6, 0},
    {&cw_calc_bend, NULL, "both_long", 8.611 * 12, 6e-3},
    {&cw_calc_bend, NULL, "one_short", 7.388 * 12, 6e-3},
    {&cw_calc_bend, NULL, "open_turn", 0.1705, 5e-5},
    {&cw_calc_bend, NULL, "chord_pieces", 13.09, 5e-3},
    /* 120 - 2 x 11.9167 tan 5 = 117.9148 and 122.0852 */
    {&cw_calc_barrel_offset, NULL, "barrel_length", 117.9148, 5e-5},
    {&cw_calc_barrel_offset, NULL, "longer", -2.0852, 5e-5},
    {&cw_calc_barrel_offset, NULL, "leftmost_length", 122.0852, 5e-5},
    {&cw_calc_skew_end, NULL, "long_side", 10.548 * 12, 6e-3},
    {&cw_calc_skew_end, NULL, "short_side", 5.452 * 12, 6e-3},
    /* 14.3333 tan 20 = 5.2169 */
    {&cw_calc_skew_end, NULL, "joint_shift", 5.2169, 5e-5},
    {&cw_calc_headwall, NULL, "length", 14.4154, 1e-4},
    {&cw_calc_headwall, NULL, "concrete", 1.8174, 1e-4},
};

static void printed_numbers(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(numbers); i++) {
        bench on;
        answer(&on, numbers[i].calc,
               numbers[i].words ? numbers[i].words : numbers[i].calc->example);
        const cw_field *field = output_of(numbers[i].calc, numbers[i].key);
        assert_true(given(field, &on.output));
        near(numbers[i].key, value_of(field, &on.output), numbers[i].value, numbers[i].within);
        cw_arena_release(&on.arena);
    }
}

/* Fill of rise, top and 1 ft is the default, so leaving it out changes nothing. */
static void default_fill(void **state)
{
    (void)state;
    bench on;
    answer(&on, &cw_calc_run_length, skewed);
    const cw_field *field = output_of(&cw_calc_run_length, "plan_length");
    near("plan length, ft", value_of(field, &on.output), 74.944, 5e-4);
    cw_arena_release(&on.arena);
}

static void no_meeting_point_gives_no_number(void **state)
{
    (void)state;
    char words[600];
    snprintf(words, sizeof words, "%sfill_at_end=15ft", skewed);
    bench on;
    answer(&on, &cw_calc_run_length, words);
    assert_false(given(output_of(&cw_calc_run_length, "plan_length"), &on.output));
    assert_int_equal(value_of(output_of(&cw_calc_run_length, "inlet_result"), &on.output),
                     CW_RUN_LOW_AT_HINGE);
    cw_arena_release(&on.arena);
    snprintf(words, sizeof words, "%sfill_at_end=15ft piece=72in", skewed);
    answer(&on, &cw_calc_round_up, words);
    assert_false(given(output_of(&cw_calc_round_up, "pieces"), &on.output));
    assert_int_equal(value_of(output_of(&cw_calc_round_up, "result"), &on.output),
                     CW_RUN_LOW_AT_HINGE);
    cw_arena_release(&on.arena);
    answer(&on, &cw_calc_barrel_offset,
           "length=60ft bend_at=5ft bend_turn=60deg barrels=3 barrel=3 spacing=12ft");
    assert_false(given(output_of(&cw_calc_barrel_offset, "barrel_length"), &on.output));
    assert_int_equal(value_of(output_of(&cw_calc_barrel_offset, "result"), &on.output),
                     CW_RUN_FOLDED);
    cw_arena_release(&on.arena);
}

/* Hand: at the inlet hinge 14.44 ft less 0.00487 ft per ft of way is left: 14.336 at 21.284 ft
 * (along the road), 14.326 at 23.407 ft (square), so that 14.333 ft is met by the one cut and not
 * by the other. */
static void other_cut_may_have_no_answer(void **state)
{
    (void)state;
    char words[600];
    snprintf(words, sizeof words, "%scut=road fill_at_end=14.333ft", skewed);
    bench on;
    answer(&on, &cw_calc_run_length, words);
    assert_true(given(output_of(&cw_calc_run_length, "plan_length"), &on.output));
    assert_false(given(output_of(&cw_calc_run_length, "other_cut_length"), &on.output));
    cw_arena_release(&on.arena);
}

/* ---- faults ---- */

typedef struct fault {
    const cw_calc *calc;
    const char *words, *message;
} fault;

static const fault faults[] = {
    {&cw_calc_run_length,
     "elevation=520ft inlet_widths=12ft,8ft inlet_falls=2% inlet_side_slope=2:1 outlet_widths=12ft "
     "outlet_falls=2% outlet_side_slope=2:1 invert=505ft slope=1% rise=72in top=10in width=140in",
     "inlet_widths has 2 items and inlet_falls 1"},
    {&cw_calc_run_length,
     "elevation=520ft inlet_widths=1ft,1ft,1ft,1ft,1ft,1ft,1ft,1ft,1ft "
     "inlet_falls=1%,1%,1%,1%,1%,1%,1%,1%,1% inlet_side_slope=2:1 outlet_widths=12ft "
     "outlet_falls=2% "
     "outlet_side_slope=2:1 invert=505ft slope=1% rise=72in top=10in width=140in",
     "at most 8"},
    {&cw_calc_cover,
     "elevation=520ft inlet_widths=12ft inlet_falls=2% inlet_side_slope=2:1 outlet_widths=12ft "
     "outlet_falls=2% outlet_side_slope=2:1 invert=505ft slope=1% rise=72in top=10in "
     "outlet_distance=0ft inlet_distance=0ft",
     "both 0 ft"},
    {&cw_calc_cover,
     "elevation=520ft inlet_widths=12ft inlet_falls=2% inlet_side_slope=2:1 outlet_widths=12ft "
     "outlet_falls=2%,3% outlet_side_slope=2:1 invert=505ft slope=1% rise=72in top=10in",
     "outlet_widths has 1 items and outlet_falls 2"},
    {&cw_calc_joint_place,
     "northing=0ft easting=0ft road_azimuth=0deg inlet_side=left outlet_distance=30ft "
     "outlet_invert=500ft slope=1% piece=72in joint=1 barrels=2 barrel=3 spacing=12ft",
     "barrel 3 is not one of 2"},
    {&cw_calc_joint_place,
     "northing=0ft easting=0ft road_azimuth=0deg inlet_side=left outlet_distance=30ft "
     "outlet_invert=500ft slope=1% piece=72in joint=1 barrels=2 barrel=1",
     "give spacing"},
    {&cw_calc_bend, "turn=60deg turn_max=60deg piece=48in width=168in", "lengthen the piece"},
    {&cw_calc_bend, "turn=5deg turn_max=5deg piece=96in width=168in gap_min=1in gap_max=0.5in",
     "less than gap_min"},
    {&cw_calc_bend, "turn=5deg turn_max=5deg piece=96in width=24in radius=3ft", "is no chord"},
    {&cw_calc_barrel_offset,
     "length=60ft bend_at=5ft,9ft bend_turn=60deg barrels=3 barrel=3 spacing=12ft",
     "give one turn for each bend"},
    {&cw_calc_barrel_offset,
     "length=60ft bend_at=1ft,2ft,3ft,4ft,5ft,6ft,7ft,8ft,9ft "
     "bend_turn=1deg,1deg,1deg,1deg,1deg,1deg,1deg,1deg,1deg barrels=3 barrel=4 spacing=12ft",
     "at most 8"},
    {&cw_calc_skew_end, "piece=48in width=168in skew=45deg", "longer than 84 in"},
    {&cw_calc_headwall, "width=12ft rise=72in top=10in thickness=12in span=120in barrels=2",
     "wider than the structure"},
};

static void faults_are_named(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(faults); i++) {
        bench on;
        open_bench(&on);
        assert_false(fill(&on, faults[i].calc, faults[i].words));
        bool found = false;
        for (int j = 0; j < on.diags.count; j++)
            found = found || strstr(on.diags.items[j].message, faults[i].message);
        if (!found)
            print_error("%s: no finding says \"%s\"\n", faults[i].calc->name, faults[i].message);
        assert_true(found);
        cw_arena_release(&on.arena);
    }
}

/* ---- descriptors ---- */

static void check_fields(const cw_field *fields, int count, size_t size)
{
    for (int i = 0; i < count; i++) {
        assert_non_null(fields[i].key);
        assert_true(fields[i].meaning && strlen(fields[i].meaning) > 4);
        assert_true(fields[i].offset < size);
        assert_true(!fields[i].fallback || fields[i].source);
        assert_true((fields[i].kind == CW_KIND_CHOICE) == (fields[i].choices != NULL));
        for (int j = 0; j < i; j++)
            assert_string_not_equal(fields[i].key, fields[j].key);
    }
}

static void descriptors_are_complete(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(calcs); i++) {
        check_fields(calcs[i]->inputs, calcs[i]->input_count, calcs[i]->input_size);
        check_fields(calcs[i]->outputs, calcs[i]->output_count, calcs[i]->output_size);
        bench on;
        answer(&on, calcs[i], calcs[i]->example);
        assert_true(on.working.count > 0);
        for (int j = 0; j < on.working.count; j++) {
            assert_non_null(on.working.steps[j].source);
            assert_true(isfinite(on.working.steps[j].value));
        }
        cw_arena_release(&on.arena);
    }
}

static void draw_field(const cw_field *field, void *base, uint64_t *seed)
{
    void *place = (char *)base + field->offset;
    if (field->has_offset != CW_NO_FLAG)
        *(bool *)((char *)base + field->has_offset) = between(seed, 0, 1) < 0.5;
    // The ends of a range are drawn often: that is where things divide by zero.
    const double pick = between(seed, 0, 1);
    const double value = pick < 0.1   ? field->low
                         : pick > 0.9 ? field->high
                                      : between(seed, field->low, field->high);
    if (field->kind == CW_KIND_NUMBER)
        *(double *)place = value;
    else if (field->kind == CW_KIND_COUNT)
        *(int *)place = (int)value;
    else if (field->kind == CW_KIND_CHOICE)
        *(int *)place = (int)between(seed, 0, 2);
    else if (field->kind == CW_KIND_LIST) {
        cw_list *list = place;
        list->count = 2;
        for (int i = 0; i < list->count; i++)
            list->items[i] = between(seed, field->low, field->high);
    }
}

/* Any input within the limits that valid() passes gives finite numbers. */
static void answers_are_finite(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 40;
    for (size_t i = 0; i < COUNT_OF(calcs); i++) {
        const cw_calc *calc = calcs[i];
        int ran = 0;
        bench on;
        open_bench(&on);
        for (int j = 0; j < CASES; j++) {
            memset(&on.input, 0, sizeof on.input);
            for (int k = 0; k < calc->input_count; k++)
                draw_field(&calc->inputs[k], &on.input, &seed);
            on.diags.count = on.diags.dropped = 0;
            if (calc->valid && !calc->valid(&on.input, (cw_pos){0}, &on.diags)) {
                assert_true(on.diags.count > 0);
                continue;
            }
            ran++;
            memset(&on.output, 0, sizeof on.output);
            calc->run(&on.input, &on.output, NULL);
            for (int k = 0; k < calc->output_count; k++)
                if (given(&calc->outputs[k], &on.output) &&
                    !isfinite(value_of(&calc->outputs[k], &on.output))) {
                    print_error("%s %s, case %d\n", calc->name, calc->outputs[k].key, j);
                    fail();
                }
        }
        assert_true(ran > CASES / 100);
        cw_arena_release(&on.arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(printed_numbers),
        cmocka_unit_test(default_fill),
        cmocka_unit_test(no_meeting_point_gives_no_number),
        cmocka_unit_test(other_cut_may_have_no_answer),
        cmocka_unit_test(faults_are_named),
        cmocka_unit_test(descriptors_are_complete),
        cmocka_unit_test(answers_are_finite),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
