/* Groundwater and flotation.  Sources: "hand" is arithmetic in SI or US units beside the value;
 * "numeric" is a sum over a grid. */
#include "../base/calc_test_help.h"

#include "cw/sitewater.h"

#define CUM_PER_S(cfs) ((cfs)*CW_M3_PER_CUFT)

/* ---- inflow ---- */

static cw_trench_inflow_input slot(double influence)
{
    cw_trench_inflow_input in;
    // A metre of slot, its ends left out.
    take(&cw_calc_trench_inflow,
         "permeability=0.0001m/s head=6m drawdown=4m length=1m width=0.5m ends=no", &in);
    in.influence = influence;
    return in;
}

static void slot_by_hand(void **state)
{
    (void)state;
    // hand: R = 2000 x 4 x 0.01 = 80 m; 1e-4 (36 - 4)/80 = 4.000e-5 m3/s from both sides
    cw_trench_inflow_input in = slot(2000.0);
    cw_inflow got = cw_sitewater_trench_inflow(&in, &cw_data, NULL);
    near("R m", got.reach_ft * CW_M_PER_FT, 80.0, 1e-9);
    near("both sides", CUM_PER_S(got.flow_cfs), 4.000e-5, 1e-12);
    in.sides = CW_SLOT_ONE;
    near("one side", CUM_PER_S(cw_sitewater_trench_inflow(&in, &cw_data, NULL).flow_cfs), 2.000e-5,
         1e-12);
    // hand: C 1750: R 70 m, 32e-4/70 = 4.571e-5
    in = slot(1750.0);
    got = cw_sitewater_trench_inflow(&in, &cw_data, NULL);
    near("default C", CUM_PER_S(got.flow_cfs), 4.571e-5, 0.0005e-5);
    near("1.3 to start", got.start_cfs, 1.3 * got.flow_cfs, 1e-12);
    // q goes with k/R, R with sqrt(k): the range is sqrt(3) either way
    near("high", got.high_cfs / got.flow_cfs, sqrt(3.0), 1e-9);
    near("low", got.flow_cfs / got.low_cfs, sqrt(3.0), 1e-9);
    // With R given the range is that of k itself.
    in.has_reach = true;
    in.reach_ft = 100.0 / CW_M_PER_FT;
    got = cw_sitewater_trench_inflow(&in, &cw_data, NULL);
    near("R 100 m", CUM_PER_S(got.flow_cfs), 3.2e-5, 1e-12);
    near("high", got.high_cfs / got.flow_cfs, 3.0, 1e-9);
}

static void ends_and_the_least_reach(void **state)
{
    (void)state;
    cw_trench_inflow_input in = slot(2000.0);
    const double line = cw_sitewater_trench_inflow(&in, &cw_data, NULL).flow_cfs;
    in.ends = true;
    // hand: pi x 32e-4 / ln(80.25/0.25) = 1.741869e-3
    near("two half wells",
         CUM_PER_S(cw_sitewater_trench_inflow(&in, &cw_data, NULL).flow_cfs - line), 1.74187e-3,
         1e-8);
    assert_int_equal(cw_sitewater_trench_inflow(&in, &cw_data, NULL).verdict, CW_HOLDS);
    const double both = cw_sitewater_trench_inflow(&in, &cw_data, NULL).flow_cfs;
    in.sides = CW_SLOT_ONE;
    near("one side is half of all", cw_sitewater_trench_inflow(&in, &cw_data, NULL).flow_cfs,
         both / 2.0, 1e-12);
    in.width_ft = 40.0 / CW_M_PER_FT; // hand: 5 x 20 m
    const cw_inflow wide = cw_sitewater_trench_inflow(&in, &cw_data, NULL);
    near("least R m", wide.reach_ft * CW_M_PER_FT, 100.0, 1e-9);
    assert_int_equal(wide.verdict, CW_UNDECIDED);
}

static void well_by_hand(void **state)
{
    (void)state;
    cw_well_inflow_input in;
    take(&cw_calc_well_inflow,
         "permeability=0.0001m/s head=6m drawdown=4m layout=single well_diameter=0.3m", &in);
    cw_inflow got = cw_sitewater_well_inflow(&in, &cw_data, NULL);
    // hand: R = 3000 x 4 x 0.01 = 120 m; pi x 32e-4 / ln(120/0.15)
    near("R m", got.reach_ft * CW_M_PER_FT, 120.0, 1e-9);
    near("Q", CUM_PER_S(got.flow_cfs), 1.5039e-3, 0.00005e-3);
    near("one well", got.each_cfs, got.start_cfs, 1e-12);
    in.k_ft_per_day = 0.0001; // R by the formula would lie inside a wide well
    in.well_in = 120.0;
    got = cw_sitewater_well_inflow(&in, &cw_data, NULL);
    near("hand: 5 radii", got.reach_ft, 25.0, 1e-9);
    assert_true(got.flow_cfs > 0.0);
    take(&cw_calc_well_inflow, cw_calc_well_inflow.example, &in);
    got = cw_sitewater_well_inflow(&in, &cw_data, NULL);
    // hand: re = sqrt(18.288 x 12.192/pi) = 8.42462 m; pi x 32e-4/ln(128.42462/8.42462)
    near("re m", got.radius_ft * CW_M_PER_FT, 8.42462, 1e-4);
    near("ring", CUM_PER_S(got.flow_cfs), 3.6902e-3, 0.001e-3);
    near("each of ten", got.each_cfs, got.start_cfs / 10.0, 1e-12);
    assert_int_equal(got.verdict, CW_HOLDS);
    in.length_ft = 81.0;
    assert_int_equal(cw_sitewater_well_inflow(&in, &cw_data, NULL).verdict, CW_UNDECIDED);
}

static void ranges_hold_their_value_and_rise(void **state)
{
    (void)state;
    cw_trench_inflow_input trench;
    cw_well_inflow_input ring;
    take(&cw_calc_trench_inflow, cw_calc_trench_inflow.example, &trench);
    take(&cw_calc_well_inflow, cw_calc_well_inflow.example, &ring);
    double before_trench = 0.0, before_ring = 0.0;
    for (double k = 0.001; k < 5000.0; k *= 1.5) {
        trench.k_ft_per_day = ring.k_ft_per_day = k;
        const cw_inflow a = cw_sitewater_trench_inflow(&trench, &cw_data, NULL);
        const cw_inflow b = cw_sitewater_well_inflow(&ring, &cw_data, NULL);
        assert_true(a.low_cfs < a.flow_cfs && a.flow_cfs < a.high_cfs);
        assert_true(b.low_cfs < b.flow_cfs && b.flow_cfs < b.high_cfs);
        assert_true(a.start_high_cfs > a.start_cfs && b.start_cfs > b.flow_cfs);
        assert_true(a.flow_cfs > before_trench && b.flow_cfs > before_ring);
        before_trench = a.flow_cfs;
        before_ring = b.flow_cfs;
    }
}

/* ---- draw-down ---- */

static void cone_against_a_sum(void **state)
{
    (void)state;
    // numeric: drawdown s (1 - distance/R) round a rectangle, one quarter on a half-foot grid
    const double a = 60.0, b = 24.0, s = 6.0, r = 40.0, step = 0.5;
    double sum = 0.0;
    for (double x = step / 2.0; x < a / 2.0 + r; x += step)
        for (double y = step / 2.0; y < b / 2.0 + r; y += step) {
            const double away = hypot(fmax(0.0, x - a / 2.0), fmax(0.0, y - b / 2.0));
            sum += 4.0 * s * fmax(0.0, 1.0 - away / r) * step * step;
        }
    const cw_draw_down_input in = {a, b, s, r, 20.0, 2.0, 0.5};
    const cw_draw_down got = cw_sitewater_draw_down(&in, NULL);
    near("cone", got.cone_cuft, sum, 0.001 * sum);
    near("hand: a fifth", got.water_cuft, 0.2 * got.cone_cuft, 1e-6);
    near("hand: 1.5 cfs left", got.hours, got.water_cuft / 1.5 / 3600.0, 1e-9);
    const cw_draw_down_input pit = {10.0, 9.0, 4.0, 0.0, 25.0, 0.025, 0.0};
    near("hand: 360 x 0.25/0.025 s", cw_sitewater_draw_down(&pit, NULL).hours, 1.0, 1e-12);
}

/* ---- flotation ---- */

static void base_floats_before_it_fills(void **state)
{
    (void)state;
    // hand: 10 ft wide, floor and walls 12 in, walls 3 ft: 0.150 (10 + 6) = 2.40 k/ft;
    // 2400/(62.4 x 10) = 3.846 ft, under the 4.0 ft of the wall top
    cw_flotation_input in;
    take(&cw_calc_flotation, cw_calc_flotation.example, &in);
    cw_flotation got = cw_sitewater_flotation(&in, NULL);
    assert_int_equal(got.first, CW_FLOAT_FLOATS);
    near("float", got.level_ft, 3.846, 0.0005);
    near("hand: /1.1", got.safe_ft, 3.4965, 0.0001);
    near("hand: 2400/1872", got.factor, 1.28205, 1e-5);
    assert_int_equal(got.verdict, CW_HOLDS);
    in.water_ft = 3.6; // hand: 1.1 x 2246.4 - 2400 = 71.04; /(62.4 x 8) = 0.1423; /(110 x 8)
    got = cw_sitewater_flotation(&in, NULL);
    assert_int_equal(got.verdict, CW_FAILS);
    near("ballast", got.ballast_lb_per_ft, 71.04, 1e-6);
    near("water inside", got.water_inside_ft, 0.142308, 1e-6);
    assert_true(got.water_holds);
    near("fill inside", got.fill_ft, 0.0807273, 1e-6);
    in.weight_lb_per_ft = 2500.0; // hand: 4.006 ft: over the wall first
    got = cw_sitewater_flotation(&in, NULL);
    assert_int_equal(got.first, CW_FLOAT_FILLS);
    near("fills", got.level_ft, 4.0, 1e-12);
}

static cw_flotation_input closed_box(double cover_ft, double water_ft)
{
    // 12 x 8 ft clear, walls and slabs 10 in: 0.150 (13.667 x 9.667 - 96) = 5.417 k/ft (hand)
    return (cw_flotation_input){.state = CW_FLOAT_CLOSED,
                                .weight_lb_per_ft = 5417.0,
                                .width_in = 164.0,
                                .height_in = 116.0,
                                .span_in = 144.0,
                                .rise_in = 96.0,
                                .cover_ft = cover_ft,
                                .soil_pcf = 110.0,
                                .water_pcf = 62.4,
                                .safety = 1.1,
                                .water_ft = water_ft};
}

static void closed_barrel_by_hand(void **state)
{
    (void)state;
    cw_flotation_input in = closed_box(0.0, 5.0);
    // hand: 5417/(62.4 x 13.667) = 6.352 ft
    near("no fill", cw_sitewater_flotation(&in, NULL).level_ft, 6.352, 0.001);
    in = closed_box(3.0, 30.0);
    // hand: (5417 + 47.6 x 13.667 x 3)/(62.4 x 13.667 x 9.667): submerged weight of the fill
    cw_flotation got = cw_sitewater_flotation(&in, NULL);
    near("under water", got.factor, (5417.0 + 47.6 * 41.0) / (62.4 * 41.0 / 3.0 * 29.0 / 3.0),
         1e-9);
    assert_int_equal(got.first, CW_FLOAT_FLOATS);
    // The level that floats with 3 ft: dry fill 110 x 41 = 4510; full uplift 8243.9; 9927 - 8243.9
    // = 1683.1 = 62.4 x 13.667 d: d = 1.9736 ft above the top.
    near("rising over the top", got.level_ft, 29.0 / 3.0 + 1.9736, 0.0005);
    in.water_ft = got.level_ft;
    near("there G = U", cw_sitewater_flotation(&in, NULL).factor, 1.0, 1e-9);
    in = closed_box(3.0, got.safe_ft);
    near("there G = 1.1 U", cw_sitewater_flotation(&in, NULL).factor, 1.1, 1e-9);
    assert_int_equal(cw_sitewater_flotation(&in, NULL).verdict, CW_HOLDS);
    in = closed_box(8.0, 30.0);
    got = cw_sitewater_flotation(&in, NULL);
    assert_int_equal(got.first, CW_FLOAT_NEVER);
    assert_int_equal(got.verdict, CW_HOLDS);
}

static void ballast_holds_what_floats(void **state)
{
    (void)state;
    for (double water_ft = 1.0; water_ft < 20.0; water_ft += 0.7) {
        cw_flotation_input in = closed_box(0.0, water_ft);
        const cw_flotation got = cw_sitewater_flotation(&in, NULL);
        assert_int_equal(got.verdict == CW_HOLDS, got.ballast_lb_per_ft <= 0.0);
        assert_int_equal(got.verdict == CW_HOLDS, water_ft <= got.safe_ft);
        in.cover_ft = got.fill_ft;
        const cw_flotation filled = cw_sitewater_flotation(&in, NULL);
        if (got.fill_ft > 0.0)
            near("fill gives the factor", filled.factor, 1.1, 1e-9);
        in = closed_box(0.0, water_ft);
        in.weight_lb_per_ft += in.water_pcf * got.water_inside_ft * 12.0; // the span in feet
        assert_int_equal(cw_sitewater_flotation(&in, NULL).verdict, CW_HOLDS);
    }
}

static void level_rises_with_weight_and_falls_with_the_factor(void **state)
{
    (void)state;
    double before_level = 0.0, before_safe = 0.0;
    for (double weight = 500.0; weight < 12000.0; weight *= 1.05) {
        cw_flotation_input in = closed_box(2.0, 4.0);
        in.weight_lb_per_ft = weight;
        const cw_flotation got = cw_sitewater_flotation(&in, NULL);
        assert_true(got.level_ft >= before_level && got.safe_ft >= before_safe);
        assert_true(got.safe_ft <= got.level_ft);
        before_level = got.level_ft;
        before_safe = got.safe_ft;
        in.safety = 1.3;
        assert_true(cw_sitewater_flotation(&in, NULL).safe_ft <= got.safe_ft);
    }
}

static void dry_ground_lifts_nothing(void **state)
{
    (void)state;
    const cw_flotation_input in = closed_box(1.0, 0.0);
    const cw_flotation got = cw_sitewater_flotation(&in, NULL);
    near("uplift", got.uplift_lb_per_ft, 0.0, 0.0);
    near("factor stands for none", got.factor, 0.0, 0.0);
    assert_int_equal(got.verdict, CW_HOLDS);
}

static void bad_input_is_named(void **state)
{
    (void)state;
    refuse(&cw_calc_trench_inflow,
           "permeability=28ft/day head=10ft drawdown=12ft length=99ft width=9ft", CW_E_CONFLICT,
           "drawdown 12|head 10");
    refuse(&cw_calc_trench_inflow, "permeability=28 head=10ft drawdown=2ft length=99ft width=9ft",
           CW_E_UNIT, "permeability");
    refuse(&cw_calc_well_inflow, "permeability=28ft/day head=10ft drawdown=2ft layout=single",
           CW_E_MISSING, "well_diameter");
    refuse(&cw_calc_well_inflow,
           "permeability=28ft/day head=10ft drawdown=2ft layout=ring length=40ft", CW_E_MISSING,
           "encloses nothing");
    refuse(&cw_calc_draw_down,
           "length=40ft width=9ft drawdown=4ft reach=90ft pumped=0.5cfs inflow=0.5cfs",
           CW_E_CONFLICT, "never|pump more");
    refuse(&cw_calc_flotation,
           "state=open weight=2400lb/ft outside_width=10ft outside_height=4ft span=8ft rise=3ft "
           "water=3ft cover=2ft",
           CW_E_CONFLICT, "cover");
    refuse(&cw_calc_flotation,
           "state=closed weight=2400lb/ft outside_width=8ft outside_height=4ft span=8ft rise=5ft "
           "water=3ft",
           CW_E_GEOMETRY, "span|rise");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(slot_by_hand),
        cmocka_unit_test(ends_and_the_least_reach),
        cmocka_unit_test(well_by_hand),
        cmocka_unit_test(ranges_hold_their_value_and_rise),
        cmocka_unit_test(cone_against_a_sum),
        cmocka_unit_test(base_floats_before_it_fills),
        cmocka_unit_test(closed_barrel_by_hand),
        cmocka_unit_test(ballast_holds_what_floats),
        cmocka_unit_test(level_rises_with_weight_and_falls_with_the_factor),
        cmocka_unit_test(dry_ground_lifts_nothing),
        cmocka_unit_test(bad_input_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
