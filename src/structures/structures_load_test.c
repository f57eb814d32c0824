/* Loads against hand calculations from the printed rules, and properties. */
#include "../base/calc_test_help.h"

#include "cw/structures.h"

static cw_struct_earth earth(double cover_ft, double trench_ft)
{
    const cw_struct_earth_input in = {.bed =
                                          trench_ft > 0.0 ? CW_STRUCT_TRENCH : CW_STRUCT_EMBANKMENT,
                                      .compacted = true,
                                      .cover_ft = cover_ft,
                                      .outside_ft = 13.67,
                                      .earth_pcf = 120.0,
                                      .trench_ft = trench_ft,
                                      .k_mu = 0.165};
    return cw_struct_earth_load(&in, &cw_data, NULL);
}

/* 1 + 0.20 H/B by hand (rule as Illinois DOT CM 3.4 prints it): B 13.67 ft. */
static void embankment_by_hand(void **state)
{
    (void)state;
    near("4 ft", earth(4.0, 0.0).factor, 1.0585, 5e-5);
    near("4 ft", earth(4.0, 0.0).load_lb_per_ft, 6946.0, 1.0);
    near("10 ft", earth(10.0, 0.0).factor, 1.1463, 5e-5);
    near("10 ft", earth(10.0, 0.0).load_lb_per_ft, 18804.0, 1.0);
    near("20 ft, capped", earth(20.0, 0.0).load_lb_per_ft, 37729.0, 1.0);
}

/* Cd and Fe2 by hand: trench 17.67 ft, K mu 0.165. */
static void trench_by_hand(void **state)
{
    (void)state;
    near("Cd 10 ft", earth(10.0, 17.67).trench_cd, 0.51623, 5e-6);
    near("Fe2 10 ft", earth(10.0, 17.67).trench, 1.1791, 5e-5);
    near("no relief", earth(10.0, 17.67).factor, 1.1463, 5e-5);
    near("Cd 20 ft", earth(20.0, 17.67).trench_cd, 0.94451, 5e-6);
    near("relief", earth(20.0, 17.67).factor, 1.0787, 5e-5);
}

static void more_cover_never_weighs_less(void **state)
{
    (void)state;
    for (int trench = 0; trench < 2; trench++) {
        double before = 0.0;
        for (int i = 0; i <= 5000; i++) {
            const double now = earth(i * 0.02, trench ? 17.67 : 0.0).load_lb_per_ft;
            if (now < before)
                fail_msg("at %g ft the load falls from %g to %g", i * 0.02, before, now);
            before = now;
        }
    }
}

/* Table of equivalent heights, k 0.5 and 120 pcf by hand. */
static void surcharge_by_hand(void **state)
{
    (void)state;
    static const double rows[5][3] = {{5.0, 4.0, 240.0},
                                      {8.0, 3.4, 204.0},
                                      {10.0, 3.0, 180.0},
                                      {14.0, 2.6, 156.0},
                                      {25.0, 2.0, 120.0}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        near("height", cw_struct_surcharge_ft(rows[i][0], &cw_data), rows[i][1], 1e-12);
        const cw_struct_lateral_input in = {.cover_ft = rows[i][0] - 4.0,
                                            .height_ft = 4.0,
                                            .most_pcf = 60.0,
                                            .least_pcf = 30.0,
                                            .earth_pcf = 120.0,
                                            .k = 0.5};
        near("pressure", cw_struct_lateral_pressure(&in, &cw_data, NULL).surcharge_psf, rows[i][2],
             1e-9);
    }
}

/* By hand: 4 ft over 10 ft, 60 pcf, 156 psf, water 3 ft: earth 240 to 840 psf; push 5,400 + 1,560 +
 * 62.4 x 9/2 = 280.8; moment 240 x 50 + 600 x 100/6 + 156 x 50 + 62.4 x 27/6. */
static void side_by_hand(void **state)
{
    (void)state;
    const cw_struct_lateral_input in = {.cover_ft = 4.0,
                                        .height_ft = 10.0,
                                        .most_pcf = 60.0,
                                        .least_pcf = 30.0,
                                        .earth_pcf = 120.0,
                                        .k = 0.5,
                                        .water_ft = 3.0};
    const cw_struct_lateral out = cw_struct_lateral_pressure(&in, &cw_data, NULL);
    near("top", out.top_most_psf, 240.0, 1e-9);
    near("foot", out.foot_most_psf, 840.0, 1e-9);
    near("least foot", out.foot_least_psf, 420.0, 1e-9);
    near("push", out.push_lb, 5400.0 + 1560.0 + 280.8, 1e-9);
    near("moment", out.moment_ft_lb, 12000.0 + 10000.0 + 7800.0 + 280.8, 1e-9);
}

static cw_struct_wheel wheel(cw_struct_machine machine, double cover_ft, double span_ft, int rule)
{
    const cw_struct_vehicle vehicle = cw_struct_design_vehicle(machine, &cw_data);
    const cw_struct_spread spread = {.rule = rule, .cover_ft = cover_ft, .span_ft = span_ft};
    return cw_struct_wheel_pressure(&vehicle, &spread, &cw_data, NULL);
}

/* P (1 + IM) m/(w l) by hand for a span of 12 ft, to the digits worked. */
static void wheels_by_hand(void **state)
{
    (void)state;
    static const double rows[7][3] = {
        {2.0, 1631.1, 1274.3}, {3.0, 926.4, 748.5}, {4.0, 634.0, 570.6}, {5.0, 463.7, 450.7},
        {6.0, 351.6, 362.1},   {8.0, 217.6, 243.1}, {10.0, 156.6, 184.7}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        near("truck", wheel(CW_STRUCT_TRUCK, rows[i][0], 12.0, CW_STRUCT_RULE_BOX).pressure_psf,
             rows[i][1], 0.06);
        near("tandem", wheel(CW_STRUCT_TANDEM, rows[i][0], 12.0, CW_STRUCT_RULE_BOX).pressure_psf,
             rows[i][2], 0.06);
    }
    const cw_struct_wheel low = wheel(CW_STRUCT_TRUCK, 3.0, 12.0, CW_STRUCT_RULE_BOX);
    near("width", low.width_ft, 5.837, 5e-4);
    near("length", low.length_ft, 4.283, 5e-4);
    assert_false(low.merged_across);
    const cw_struct_wheel high = wheel(CW_STRUCT_TANDEM, 4.0, 12.0, CW_STRUCT_RULE_BOX);
    near("width", high.width_ft, 12.987, 5e-4);
    near("length", high.length_ft, 9.433, 5e-4);
    assert_int_equal(high.axles, 2);
}

/* Below 2 ft by hand: E = 96 + 1.44 S in; S 12, H 1.5: E 113.28 in, strip 30.7 in, IM 26.81
 * percent; S 14, H 1 and a lid of 14.833 ft between supports. */
static void thin_cover_by_hand(void **state)
{
    (void)state;
    const cw_struct_wheel truck = wheel(CW_STRUCT_TRUCK, 1.5, 12.0, CW_STRUCT_RULE_BOX);
    assert_true(truck.thin);
    near("E", truck.width_ft * 12.0, 113.28, 1e-9);
    near("strip", truck.length_ft * 12.0, 30.7, 1e-9);
    near("truck axle", truck.pressure_psf * truck.length_ft, 5158.5, 0.1);
    const cw_struct_wheel tandem = wheel(CW_STRUCT_TANDEM, 1.5, 12.0, CW_STRUCT_RULE_BOX);
    near("tandem axle", tandem.patches[0].psf * 30.7 / 12.0, 4030.1, 0.1);
    const cw_struct_wheel two = wheel(CW_STRUCT_TANDEM, 1.0, 14.0, CW_STRUCT_RULE_BOX);
    near("tandem moment", cw_struct_simple_span_moment(&two, 178.0 / 12.0, 400), 21790.0, 10.0);
    const cw_struct_wheel one = wheel(CW_STRUCT_TRUCK, 1.0, 14.0, CW_STRUCT_RULE_BOX);
    near("truck moment", cw_struct_simple_span_moment(&one, 178.0 / 12.0, 400), 17690.0, 10.0);
}

/* Two equal axles P at s on a simple span: P/(2L) (L - s/2)^2, or P L/4 when s > 0.586 L. */
static void two_axles_against_closed_form(void **state)
{
    (void)state;
    static const double rows[3][2] = {{12.0, 52083.3333}, {16.0, 76562.5}, {7.0, 22321.4286}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_struct_wheel w = {.patch_count = 2};
        for (int p = 0; p < 2; p++)
            w.patches[p] = (cw_struct_patch){4.0 * p - 5e-6, 4.0 * p + 5e-6, 12500.0 / 1e-5};
        near("moment",
             cw_struct_simple_span_moment(&w, rows[i][0], (int)(rows[i][0] * 100.0 + 0.5)),
             rows[i][1], 1e-6 * rows[i][1]);
    }
}

/* By hand without span term: 100 kip on two tracks 12 x 2 ft; a wheel of 30 kip on 24 x 16 in with
 * the dynamic allowance, one of a pair far apart. */
static void machines_by_hand(void **state)
{
    (void)state;
    const cw_struct_vehicle crawler = {.axles = 1,
                                       .axle_lb = {100e3},
                                       .gauge_ft = 9.0,
                                       .patch_width_in = 24.0,
                                       .patch_length_in = 144.0,
                                       .presence = 1.0};
    // Cover 1 ft is below the limit of spreading; the hand values are of the spreading rule.
    static const double rows[2][2] = {{2.0, 813.1}, {3.0, 593.9}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const cw_struct_spread spread = {
            .rule = CW_STRUCT_RULE_PLAIN, .cover_ft = rows[i][0], .span_ft = 14.0};
        near("tracks", cw_struct_wheel_pressure(&crawler, &spread, &cw_data, NULL).pressure_psf,
             rows[i][1], 0.1);
    }
    const cw_struct_vehicle hauler = {.axles = 1,
                                      .axle_lb = {60e3},
                                      .gauge_ft = 20.0,
                                      .patch_width_in = 24.0,
                                      .patch_length_in = 16.0,
                                      .presence = 1.0,
                                      .impact = true};
    static const double loads[3][2] = {{2.0, 2396.0}, {3.0, 1388.0}, {4.0, 892.0}};
    for (size_t i = 0; i < COUNT_OF(loads); i++) {
        const cw_struct_spread spread = {
            .rule = CW_STRUCT_RULE_PLAIN, .cover_ft = loads[i][0], .span_ft = 14.0};
        near("wheel", cw_struct_wheel_pressure(&hauler, &spread, &cw_data, NULL).pressure_psf,
             loads[i][1], 0.6);
    }
}

/* Strips carry all of the vehicle, whether they merge or overlap. */
static void strips_carry_the_whole_vehicle(void **state)
{
    (void)state;
    const cw_struct_vehicle uneven = {.axles = 4,
                                      .axle_lb = {12e3, 40e3, 8e3, 30e3},
                                      .at_ft = {0.0, 5.0, 9.0, 14.0},
                                      .gauge_ft = 6.0,
                                      .patch_width_in = 20.0,
                                      .patch_length_in = 10.0,
                                      .presence = 1.0};
    for (int i = 0; i < 60; i++) {
        const cw_struct_spread spread = {.cover_ft = 0.25 * i, .span_ft = 12.0};
        const cw_struct_wheel w = cw_struct_wheel_pressure(&uneven, &spread, &cw_data, NULL);
        double sum = 0.0, most = 0.0;
        for (int p = 0; p < w.patch_count; p++) {
            sum += w.patches[p].psf * (w.patches[p].to_ft - w.patches[p].from_ft) * w.width_ft;
            most = fmax(most, w.patches[p].psf);
        }
        near("sum", sum, 90e3 * (w.merged_across ? 1.0 : 0.5), 1e-6);
        assert_true(w.pressure_psf >= most - 1e-9);
    }
}

static void high_cover_leaves_traffic_out(void **state)
{
    (void)state;
    assert_true(wheel(CW_STRUCT_TRUCK, 9.0, 12.0, 0).counts);
    assert_false(wheel(CW_STRUCT_TRUCK, 12.1, 12.0, 0).counts);
    assert_true(wheel(CW_STRUCT_TRUCK, 15.0, 20.0, 0).counts);
    assert_true(wheel(CW_STRUCT_TRUCK, 8.0, 4.0, 0).counts);
    assert_false(wheel(CW_STRUCT_TRUCK, 8.1, 4.0, 0).counts);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(embankment_by_hand),
        cmocka_unit_test(trench_by_hand),
        cmocka_unit_test(more_cover_never_weighs_less),
        cmocka_unit_test(surcharge_by_hand),
        cmocka_unit_test(side_by_hand),
        cmocka_unit_test(wheels_by_hand),
        cmocka_unit_test(thin_cover_by_hand),
        cmocka_unit_test(two_axles_against_closed_form),
        cmocka_unit_test(machines_by_hand),
        cmocka_unit_test(strips_carry_the_whole_vehicle),
        cmocka_unit_test(high_cover_leaves_traffic_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
