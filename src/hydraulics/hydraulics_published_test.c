/* Answers printed in courses and manuals, in metres where the source gives metres. */
#include "hydraulics_check.h"

#include <string.h>

#include "cw/hydraulics.h"
#include "cw/units.h"

static double ft(double metres)
{
    return metres / CW_M_PER_FT;
}

static double cfs(double m3_per_s)
{
    return m3_per_s / CW_M3_PER_CUFT;
}

/* University open-channel course, sheet 2 (2024), E2.2 and E2.3: rectangle 3 m, 1 in 500, n 0.025, 5 m3/s: normal depth 1.215 m; a
 * bump of 0.326 m just gives critical flow over it: specific energy less 1.5 critical depth. */
static void bump_that_just_chokes(void **state)
{
    (void)state;
    const cw_water_section section = {.shape = CW_WATER_RECTANGLE, .bottom_ft = ft(3.0), .n = 0.025};
    const double flow = cfs(5.0);
    const double normal = cw_water_normal_depth(&section, flow, 1.0 / 500.0).value;
    const double critical = cw_water_critical_depth(&section, flow).value;
    near("normal depth, m", normal * CW_M_PER_FT, 1.215, 1e-3);
    const double velocity = flow / cw_water_section_at(&section, normal).area_sqft;
    const double energy = normal + velocity * velocity / (2.0 * CW_WATER_GRAVITY);
    near("bump, m", (energy - 1.5 * critical) * CW_M_PER_FT, 0.326, 6e-4);
}

/* University course, midterm 1 (2005): broad crest, Q = 3.09 L H^1.5, 20 ft, 0.8 ft: 44.22 cfs. */
static void broad_crest(void **state)
{
    (void)state;
    cw_water_weir table = {0};
    assert_true(cw_water_weir_rows(&cw_data, CW_WATER_PAVED, &table));
    static const cw_water_crest crest[] = {{0.0, 100.0}, {20.0, 100.0}};
    const cw_water_road road = {crest, 2, cw_water_weir_own(3.09, &table)};
    near("flow, cfs", cw_water_road_over(&road, 100.8, 50.0).flow_cfs, 44.22, 5e-3);
}

/* University course, midterm 2 (2004): jump from 0.568 m at Froude 2.24 to 1.53 m; the level backwater tip up to 5.0 m on 1 % is
 * 347 m long. */
static void jump_and_backwater_tip(void **state)
{
    (void)state;
    const double after = cw_water_sequent_ft(ft(0.5682), 2.2361) * CW_M_PER_FT;
    near("after the jump, m", after, 1.53, 6e-3);
    near("tip, m", (5.0 - after) / 0.01, 347.0, 0.6);
}

/* Worksheet with chart readings (to about 0.01): box 1.5 x 1.5 m, 4.8 m3/s, 36 m, ke 0.5, tailwater 0.8 m, fall 0.48 m.  Its
 * roughness 0.015 is inferred from its friction. */
static void worksheet_of_a_small_box(void **state)
{
    (void)state;
    const cw_water_barrel barrel = {.span_ft = ft(1.5),
                                    .rise_ft = ft(1.5),
                                    .length_ft = ft(36.0),
                                    .inlet_floor_ft = ft(0.48),
                                    .n = 0.015,
                                    .entrance_loss = 0.5};
    const cw_water_formula formula = cw_water_outlet_formula(&barrel, cfs(4.8), ft(0.8), 1.0, NULL);
    near("critical depth, m", formula.critical_ft * CW_M_PER_FT, 1.02, 0.01);
    near("ho, m", formula.tail_ft * CW_M_PER_FT, 1.26, 0.01);
    near("H, m", formula.loss_ft * CW_M_PER_FT, 0.49, 0.01);
    near("HW, m", formula.headwater_ft * CW_M_PER_FT, 1.27, 0.011);
    cw_water_inlet inlet = {0};
    int wings = 0;
    for (int i = 0; cw_water_inlet_kind_at(i); i++)
        if (strcmp(cw_water_inlet_kind_at(i)->id, "wings-30-75") == 0)
            wings = i;
    assert_true(cw_water_inlet_rows(&cw_data, wings, &inlet));
    const cw_water_inlet_head head = cw_water_inlet_control(&inlet, barrel.span_ft, barrel.rise_ft, 0.48 / 36.0, cfs(4.8));
    near("HW/D by inlet, chart reading", head.headwater_ft / barrel.rise_ft, 1.05, 0.05);
}

/* Direct-step backwater example of Chow 1959, ch. 10 (from memory, not verified): trapezoid 20 ft, 2:1, 400 cfs, n 0.025, S 0.0016,
 * alpha 1.10; from 5.0 to 4.8 ft depth the step is 155 ft long.  The book takes 1.49 where this program takes 1.486: 0.3 ft. */
static void direct_step_in_a_trapezoid(void **state)
{
    (void)state;
    const cw_water_section section = {.shape = CW_WATER_TRAPEZOID, .bottom_ft = 20.0, .side_slope = 2.0, .n = 0.025};
    double energy[2], friction[2];
    static const double depths[2] = {5.0, 4.8};
    for (int i = 0; i < 2; i++) {
        const cw_water_wet wet = cw_water_section_at(&section, depths[i]);
        const double velocity = 400.0 / wet.area_sqft, rate = 400.0 / wet.conveyance_cfs;
        energy[i] = depths[i] + 1.10 * velocity * velocity / (2.0 * CW_WATER_GRAVITY);
        friction[i] = rate * rate;
    }
    near("step, ft", (energy[0] - energy[1]) / (0.0016 - (friction[0] + friction[1]) / 2.0), 155.0, 1.0);
}

/* Routing example of FHWA HDS-5 (1985), p. 136: sill 878, 200 ft at 5 %: outlet sill 868; pool 885 is 7 ft of headwater. */
static void sills_of_the_routing_example(void **state)
{
    (void)state;
    const cw_water_barrel barrel = {
        .span_ft = 7.0, .rise_ft = 6.0, .length_ft = 200.0, .inlet_floor_ft = 878.0, .outlet_floor_ft = 868.0, .n = 0.012};
    near("slope", cw_water_slope(&barrel), 0.05, 1e-12);
    near("outlet sill, ft", cw_water_outlet_sill_ft(&barrel), 868.0, 1e-9);
    near("headwater, ft", 885.0 - cw_water_sill_ft(&barrel), 7.0, 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bump_that_just_chokes),    cmocka_unit_test(broad_crest),
        cmocka_unit_test(jump_and_backwater_tip),   cmocka_unit_test(worksheet_of_a_small_box),
        cmocka_unit_test(direct_step_in_a_trapezoid), cmocka_unit_test(sills_of_the_routing_example),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
