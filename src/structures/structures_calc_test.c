/* Bad input to the calculators, and the words that each of them must have. */
#include "../base/calc_test_help.h"

#include "cw/structures.h"

static const cw_calc *const all[] = {
    &cw_calc_earth_load,      &cw_calc_lateral_pressure, &cw_calc_wheel_pressure,
    &cw_calc_frame_moments,   &cw_calc_wall_fill_height, &cw_calc_unlidded_fill,
    &cw_calc_machine_cover,   &cw_calc_handling_moment,  &cw_calc_bearing,
    &cw_calc_section_flexure, &cw_calc_section_shear,
};

/* What no box can be is refused with place, value, limit and remedy. */
static void bad_input_is_refused(void **state)
{
    (void)state;
    static const struct {
        const cw_calc *calc;
        const char *text;
        int code;
        const char *words;
    } rows[] = {
        {&cw_calc_earth_load, "cover=-1ft outside_width=13ft", CW_E_RANGE, "cover|0 ft"},
        {&cw_calc_earth_load, "cover=4ft outside_width=13ft bed=trench", CW_E_GEOMETRY,
         "trench_width|13"},
        {&cw_calc_lateral_pressure, "cover=4ft height=10ft most=20pcf", CW_E_CONFLICT,
         "least|exchange"},
        {&cw_calc_wheel_pressure, "machine=axles cover=3ft span=12ft", CW_E_MISSING,
         "axles|0 loads"},
        {&cw_calc_wheel_pressure,
         "machine=axles axles=10kip,10kip,5kip spacing=4ft cover=3ft span=12ft", CW_E_CONFLICT,
         "spacing|3 axles|give 2"},
        {&cw_calc_wheel_pressure, "machine=tracks cover=3ft span=12ft", CW_E_MISSING,
         "machine_weight|gauge|patch_width"},
        {&cw_calc_wheel_pressure,
         "machine=tracks machine_weight=50kip gauge=2ft patch_width=30in patch_length=100in "
         "cover=3ft span=12ft",
         CW_E_GEOMETRY, "overlap|gauge"},
        {&cw_calc_frame_moments, "span=14ft rise=8ft wall=0in floor=12in top=12in cover=4ft",
         CW_E_RANGE, "wall|3 in"},
        {&cw_calc_frame_moments,
         "span=3ft rise=8ft wall=10in floor=12in top=12in cover=4ft haunch=20in", CW_E_GEOMETRY,
         "haunch|36"},
        {&cw_calc_frame_moments,
         "span=14ft rise=8ft wall=10in floor=12in top=12in cover=4ft crown_haunch=8in",
         CW_E_CONFLICT, "flat lid"},
        {&cw_calc_frame_moments,
         "form=double-u span=14ft rise=8ft wall=10in floor=12in top=12in cover=4ft haunch=8in "
         "seat=5in",
         CW_E_GEOMETRY, "seat|mid height"},
        {&cw_calc_frame_moments,
         "span=14ft rise=8ft wall=10in floor=12in top=12in cover=4ft ground_water=20ft", CW_E_RANGE,
         "ground_water|floating"},
        {&cw_calc_wall_fill_height,
         "wall=8ft floor=10in allowed=6000ft-lb weight=3708lb/ft outside_width=13ft set=8ft",
         CW_E_GEOMETRY, "set|no lift"},
        {&cw_calc_machine_cover, "cover=2ft span=14ft wall=10in top=12in", CW_E_MISSING,
         "design_cover"},
        {&cw_calc_machine_cover, "measure=moment cover=2ft span=14ft wall=10in top=12in",
         CW_E_MISSING, "capacity"},
        {&cw_calc_handling_moment,
         "piece=base span=14ft wall=10in slab=12in length=6ft weight=26500lb", CW_E_MISSING, "leg"},
        {&cw_calc_handling_moment,
         "piece=lid span=14ft wall=10in slab=12in length=6ft weight=26500lb overhang=8ft",
         CW_E_GEOMETRY, "overhang|nearer"},
        {&cw_calc_handling_moment,
         "piece=base span=14ft wall=10in slab=12in leg=8ft length=6ft weight=26500lb "
         "sling_angle=20deg",
         CW_E_RANGE, "sling_angle|30"},
        {&cw_calc_section_flexure, "thickness=10in depth=11in steel=0.3in2/ft moment=9000ft-lb",
         CW_E_GEOMETRY, "11|tension half"},
        {&cw_calc_section_shear,
         "member=lid cover=3ft thickness=10in depth=4in steel=0.3in2/ft shear=9000lb/ft "
         "moment=9000ft-lb",
         CW_E_GEOMETRY, "4|tension half"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++)
        refuse(rows[i].calc, rows[i].text, rows[i].code, rows[i].words);
}

static void every_result_asks_for_review(void **state)
{
    (void)state;
    for (size_t c = 0; c < COUNT_OF(all); c++)
        if (!strstr(all[c]->about, "or review by a licensed engineer"))
            fail_msg("%s does not say so", all[c]->name);
}

/* The public check of a box says what its calculator says. */
static void boxes_are_checked(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_struct_box box = {.span_in = 168.0,
                         .rise_in = 96.0,
                         .wall_in = 10.0,
                         .floor_in = 12.0,
                         .top_in = 12.0,
                         .concrete_psi = 4.287e6,
                         .concrete_pcf = 150.0,
                         .ground_pcf = 150e3};
    assert_true(cw_struct_box_valid(&box, (cw_pos){.file = "test"}, &diags));
    box.wall_in = 0.0;
    assert_false(cw_struct_box_valid(&box, (cw_pos){.file = "test"}, &diags));
    assert_int_equal(diags.count, 1);
    assert_non_null(strstr(diags.items[0].message, "wall 0 in"));
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_input_is_refused),
        cmocka_unit_test(every_result_asks_for_review),
        cmocka_unit_test(boxes_are_checked),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
