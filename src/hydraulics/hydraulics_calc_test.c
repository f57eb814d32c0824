/* Calculators of the water: printed numbers, faults, and that their examples run. */
#include "hydraulics_check.h"

#include <stdlib.h>
#include <string.h>

#include "cw/hydraulics.h"

enum { WORDS_MAX = 40, STRUCT_MAX = 16384 };

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

/* Words of the form key=value, split at spaces. */
static bool fill(bench *on, const cw_calc *calc, const char *words)
{
    *on = (bench){.arena = cw_arena_on(NULL)};
    on->diags = cw_diags_on(&on->arena);
    on->working = cw_working_on(&on->arena, NULL);
    assert_true(calc->input_size <= STRUCT_MAX && calc->output_size <= STRUCT_MAX);
    cw_calc_value values[WORDS_MAX];
    int count = 0;
    char *copy = cw_arena_copy(&on->arena, words, strlen(words));
    for (char *word = strtok(copy, " "); word; word = strtok(NULL, " ")) {
        char *equals = strchr(word, '=');
        assert_non_null(equals);
        *equals = '\0';
        assert_true(count < WORDS_MAX);
        values[count++] = (cw_calc_value){.key = word, .text = equals + 1};
    }
    return cw_calc_fill(calc, values, count, &cw_data, &on->input, NULL, &on->arena, &on->diags);
}

static const cw_field *output_of(const cw_calc *calc, const char *key)
{
    for (int i = 0; i < calc->output_count; i++)
        if (strcmp(calc->outputs[i].key, key) == 0)
            return &calc->outputs[i];
    fail_msg("%s has no output %s", calc->name, key);
    return NULL;
}

typedef struct row {
    const cw_calc *calc;
    const char *words; /* NULL: the example */
    const char *key;
    double want, within;
    const char *source;
} row;

#define STEEP                                                                                      \
    "flow=300cfs span=8ft rise=6ft length=150ft slope=2% n=0.012 inlet=headwall-bevel-45 "         \
    "entrance=headwall-rounded "

static const row rows[] = {
    {&cw_calc_critical_depth, "flow=200cfs width=10ft", "critical_depth", 2.3160, 5e-5, "closed"},
    {&cw_calc_normal_depth, NULL, "normal_depth", 1.7641, 5e-5, "bisection"},
    {&cw_calc_normal_depth, "flow=200cfs width=8ft n=0.012 slope=0.2%", "normal_depth", 3.1093,
     5e-5, "bisection"},
    {&cw_calc_trapezoid_depth, NULL, "normal_depth", 4.0457, 5e-5, "bisection"},
    {&cw_calc_trapezoid_depth, NULL, "critical_depth", 2.1477, 5e-5, "bisection"},
    {&cw_calc_composite_roughness, NULL, "n", 0.02612, 5e-6, "closed form"},
    {&cw_calc_tailwater, NULL, "level", 504.0457, 5e-5, "bisection"},
    {&cw_calc_tailwater, "flow=50cfs kind=table flows=0cfs,100cfs levels=500ft,502ft", "level", 501,
     1e-9, "straight line"},
    {&cw_calc_inlet_headwater, NULL, "headwater", 4.8760, 6e-5, "HDS-5 app. A"},
    {&cw_calc_inlet_headwater,
     "flow=300cfs span=6ft rise=5ft slope=1% inlet=own form=power k=0.495 m=0.667 c=0.0314 y=0.82",
     "headwater", 7.2150, 6e-5, "HDS-5 app. A"},
    {&cw_calc_inlet_headwater, "flow=180cfs span=6ft rise=5ft fall=2ft crest=12ft", "crest_head",
     2.924, 1e-3, "(180/36)^(2/3)"},
    {&cw_calc_outlet_headwater, NULL, "headwater", 3.858, 1e-3, "hand, R^1.33"},
    {&cw_calc_headwater, NULL, "headwater", 5.5475, 6e-5, "Runge-Kutta"},
    {&cw_calc_headwater, NULL, "jump_at", 87.73, 0.05, "Runge-Kutta"},
    {&cw_calc_headwater, STEEP "tailwater=9.5ft", "headwater", 7.4141, 2e-4, "Runge-Kutta"},
    {&cw_calc_barrel_profile, NULL, "depth", 2.4514, 2e-3, "Runge-Kutta"},
    {&cw_calc_hydraulic_jump, NULL, "depth_after", 4.7952, 5e-5, "closed form"},
    {&cw_calc_hydraulic_jump, NULL, "loss", 1.2436, 5e-5, "closed form"},
    /* q 27, D 4: (484.9 + 1.125 - 181.8... by hand: 27^2/32.2/1.5 = 15.0932, /4 = 5.6599; (15.0932
       + 1.125 - 5.6599 + 8)/4 */
    {&cw_calc_hydraulic_jump, "depth=1.5ft velocity=18ft/s rise=4ft", "pressure_head", 4.6396, 1e-4,
     "hand: momentum"},
    {&cw_calc_road_weir, NULL, "flow", 848.53, 5e-3, "closed form"},
};

static void numbers_of_the_calculators(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT_OF(rows); i++) {
        static bench on;
        const row *at = &rows[i];
        if (!fill(&on, at->calc, at->words ? at->words : at->calc->example)) {
            for (int k = 0; k < on.diags.count; k++)
                print_error("%s: %s\n", at->calc->name, on.diags.items[k].message);
            fail();
        }
        at->calc->run(&on.input, &on.output, &on.working);
        assert_true(on.working.count > 0);
        const cw_field *field = output_of(at->calc, at->key);
        const char *base = (const char *)&on.output;
        if (field->has_offset != CW_NO_FLAG)
            assert_true(*(const bool *)(base + field->has_offset));
        double value;
        memcpy(&value, base + field->offset, sizeof value);
        near(at->key, value, at->want, at->within);
        cw_arena_release(&on.arena);
    }
}

typedef struct fault {
    const cw_calc *calc;
    const char *words, *says;
    cw_code code;
} fault;

static const fault faults[] = {
    {&cw_calc_normal_depth, "flow=200cfs width=8ft n=0 slope=1%", "0.005", CW_E_RANGE},
    {&cw_calc_headwater, "flow=1cfs span=8ft rise=-6ft length=9ft slope=1% tailwater=0ft", "rise",
     CW_E_RANGE},
    {&cw_calc_headwater, "flow=1cfs span=8ft rise=6ft bed=70in length=9ft slope=1% tailwater=0ft",
     "tenth", CW_E_GEOMETRY},
    {&cw_calc_inlet_headwater, "flow=1cfs span=8ft rise=6ft inlet=own k=0.5", "needs its law",
     CW_E_MISSING},
    {&cw_calc_inlet_headwater, "flow=1cfs span=8ft rise=6ft k=0.5", "inlet=own", CW_E_CONFLICT},
    {&cw_calc_outlet_headwater,
     "flow=1cfs span=8ft rise=6ft length=9ft slope=1% tailwater=0ft loss=0.5", "entrance=own",
     CW_E_CONFLICT},
    {&cw_calc_barrel_profile,
     "at=99ft flow=1cfs span=8ft rise=6ft length=9ft slope=1% tailwater=0ft", "inside it",
     CW_E_CONFLICT},
    {&cw_calc_tailwater, "flow=5cfs kind=table flows=0cfs,9cfs levels=5ft", "one for each",
     CW_E_CONFLICT},
    {&cw_calc_tailwater, "flow=5cfs kind=table flows=9cfs,0cfs levels=5ft,6ft", "order",
     CW_E_CONFLICT},
    {&cw_calc_tailwater, "flow=5cfs kind=surveyed x=0ft,9ft", "ns is missing", CW_E_MISSING},
    {&cw_calc_road_weir, "x=0ft,100ft z=8ft,8ft pool=9ft tailwater=10ft", "run back",
     CW_E_CONFLICT},
    {&cw_calc_road_weir, "x=0ft z=8ft pool=9ft", "two points", CW_E_GEOMETRY},
    {&cw_calc_hydraulic_jump, "depth=5ft velocity=30ft/s rise=4ft", "under the lid", CW_E_GEOMETRY},
};

static void faults_are_named_with_their_remedy(void **state)
{
    (void)state;
    for (int i = 0; i < COUNT_OF(faults); i++) {
        static bench on;
        const fault *at = &faults[i];
        if (fill(&on, at->calc, at->words))
            fail_msg("%s takes %s", at->calc->name, at->words);
        bool found = false;
        for (int k = 0; k < on.diags.count; k++)
            found = found || (on.diags.items[k].code == at->code &&
                              strstr(on.diags.items[k].message, at->says));
        if (!found)
            fail_msg("%s: \"%s\" does not say \"%s\"", at->calc->name,
                     on.diags.count ? on.diags.items[0].message : "nothing", at->says);
        cw_arena_release(&on.arena);
    }
}

static void what_is_no_fault_is_an_answer(void **state)
{
    (void)state;
    static bench on;
    assert_true(fill(&on, &cw_calc_normal_depth, "flow=200cfs width=8ft n=0.012 slope=0%"));
    cw_calc_normal_depth.run(&on.input, &on.output, NULL);
    const cw_field *field = output_of(&cw_calc_normal_depth, "result");
    int index;
    memcpy(&index, (const char *)&on.output + field->offset, sizeof index);
    assert_string_equal(field->choices[index], "no normal depth");
    cw_arena_release(&on.arena);
    assert_true(fill(&on, &cw_calc_tailwater,
                     "flow=500cfs kind=table flows=0cfs,100cfs levels=500ft,502ft"));
    cw_calc_tailwater.run(&on.input, &on.output, NULL);
    field = output_of(&cw_calc_tailwater, "result");
    memcpy(&index, (const char *)&on.output + field->offset, sizeof index);
    assert_string_equal(field->choices[index], "outside the table");
    cw_arena_release(&on.arena);
}

static void tables_of_inlets_entrances_and_roads_are_whole(void **state)
{
    (void)state;
    cw_water_inlet inlet;
    double loss;
    for (int i = 0; i < CW_WATER_INLET_OWN; i++)
        assert_true(cw_water_inlet_rows(&cw_data, i, &inlet));
    assert_false(cw_water_inlet_rows(&cw_data, CW_WATER_INLET_OWN, &inlet));
    assert_string_equal(cw_water_inlet_choices[CW_WATER_INLET_OWN], "own");
    assert_null(cw_water_inlet_choices[CW_WATER_INLET_OWN + 1]);
    for (int i = 0; i < CW_WATER_ENTRANCE_OWN; i++)
        assert_true(cw_water_entrance_rows(&cw_data, i, &loss));
    assert_false(cw_water_entrance_rows(&cw_data, CW_WATER_ENTRANCE_OWN, &loss));
    assert_string_equal(cw_water_entrance_choices[CW_WATER_ENTRANCE_OWN], "own");
    cw_water_weir weir;
    assert_true(cw_water_weir_rows(&cw_data, CW_WATER_GRAVEL, &weir));
    assert_int_equal(weir.head_count, 4);
    assert_int_equal(weir.ratio_count, 5);
    const cw_rows none = {0};
    assert_false(cw_water_inlet_rows(&none, 0, &inlet));
    assert_false(cw_water_weir_rows(&none, CW_WATER_PAVED, &weir));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_of_the_calculators),
        cmocka_unit_test(faults_are_named_with_their_remedy),
        cmocka_unit_test(what_is_no_fault_is_an_answer),
        cmocka_unit_test(tables_of_inlets_entrances_and_roads_are_whole),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
