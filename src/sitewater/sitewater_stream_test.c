/* Apron, bypass pipe, flume, pumps, cofferdam.  Sources: HEC-14 examples are from memory, not
 * verified; "hand" is arithmetic beside the value; course sheets as posted with their answers. */
#include "../base/calc_test_help.h"

#include "cw/sitewater.h"

/* ---- apron ---- */

static void stone_of_published_examples(void **state)
{
    (void)state;
    // hand: 0.2 x 5 x (85/(5.67450 x 55.9017))^(4/3) x 5/2.5 = 2 x 0.172735
    near("D 5, Q 85, TW 2.5", cw_sitewater_pipe_stone_ft(5.0, 85.0, 2.5), 0.3455, 0.0001);
    // HEC-14 sec. 10.2 design example: TW 1.6 raised to 2.0: 5.2 in
    near("US example", CW_IN_PER_FT * cw_sitewater_pipe_stone_ft(5.0, 85.0, 1.6), 5.2, 0.05);
    // The same in SI: D 1.5 m, 2.33 m3/s, TW 0.5 raised to 0.6 m: 0.13 m
    const double stone_ft =
        cw_sitewater_pipe_stone_ft(1.5 / CW_M_PER_FT, 2.33 / CW_M3_PER_CUFT, 0.5 / CW_M_PER_FT);
    near("SI example", stone_ft * CW_M_PER_FT, 0.13, 0.005);
    // Fletcher and Grace in feet: 0.020 D (D/TW) (Q/D^2.5)^(4/3)
    near("other form", cw_sitewater_pipe_stone_ft(4.0, 60.0, 2.0),
         0.020 * 4.0 * 2.0 * pow(60.0 / 32.0, 4.0 / 3.0), 0.02 * 0.37);
    // hand: 0.014 x sqrt(6) x 300 / (8 x 3) = 0.428661
    near("box", cw_sitewater_box_stone_ft(8.0, 6.0, 300.0, 3.0), 0.428661, 1e-6);
}

/* Urban Storm Drainage Criteria Manual vol. 3, sheet SM-8, example of 6.2 square miles: 1.2 ft3/s for two weeks, 1.9 for four. */
static void winter_flow_of_the_manual(void **state)
{
    (void)state;
    cw_season_input in;
    take(&cw_calc_winter_flow, "area=3968acre time=two-weeks", &in);
    near("two weeks", cw_sitewater_season(&in, &cw_data, NULL).flow_cfs, 1.2, 0.05);
    near("by hand 0.2 x 6.2", cw_sitewater_season(&in, &cw_data, NULL).flow_cfs, 1.24, 1e-9);
    take(&cw_calc_winter_flow, "area=3968acre time=four-weeks", &in);
    near("four weeks", cw_sitewater_season(&in, &cw_data, NULL).flow_cfs, 1.9, 0.05);
    near("by hand 1.5 x 1.24", cw_sitewater_season(&in, &cw_data, NULL).flow_cfs, 1.86, 1e-9);
}

static void apron_of_a_square_outlet_is_that_of_the_pipe(void **state)
{
    (void)state;
    // HEC-14 sec. 10.2 design example: class 2, length 20 ft, 15 ft wide, 28.3 ft at the end.
    cw_apron_input in;
    take(&cw_calc_apron, "flow=85cfs span=5ft rise=5ft tailwater=1.6ft", &in);
    const cw_apron got = cw_sitewater_apron(&in, &cw_data, NULL);
    near("TW raised", got.tailwater_ft, 2.0, 1e-12);
    near("stone in", got.pipe_in, 5.183, 0.001);
    assert_int_equal(got.apron_class, 2);
    assert_int_equal(got.rock_class, 1);
    near("length", got.length_ft, 20.0, 1e-9);
    near("width", got.width_ft, 15.0, 1e-9);
    near("end width", got.end_width_ft, 15.0 + 40.0 / 3.0, 1e-9);
    near("hand: 3.3 x 6 in over 12 in and 9 in", got.depth_ft, 19.8 / 12.0, 1e-9);
    assert_int_equal(got.dissipator, CW_DISSIPATOR_NOT_KNOWN);
    assert_int_equal(got.verdict, CW_HOLDS);
    in.tailwater_ft = 2.5;
    const cw_apron deep = cw_sitewater_apron(&in, &cw_data, NULL);
    near("D 5, Q 85, TW 2.5: 4.15 in", deep.pipe_in, 4.146, 0.001);
    assert_int_equal(deep.apron_class, 1);
}

static void both_formulas_of_a_box_are_shown(void **state)
{
    (void)state;
    // Q 300, 8 x 6 ft, TW 3, by hand: 0.43 (span), 0.83 (rise and Q D/B), 0.82 ft (equal area).
    cw_apron_input in;
    take(&cw_calc_apron, cw_calc_apron.example, &in);
    cw_apron got = cw_sitewater_apron(&in, &cw_data, NULL);
    near("span ft", got.box_in / CW_IN_PER_FT, 0.43, 0.005);
    near("pipe ft", got.pipe_in / CW_IN_PER_FT, 0.83, 0.005);
    near("area ft", got.area_in / CW_IN_PER_FT, 0.82, 0.005);
    near("larger", got.stone_in, got.pipe_in, 0.0);
    assert_int_equal(got.verdict, CW_UNDECIDED); // 72 in is above 60 in
    near("hand: 12/sqrt(32.2 x 3.1)", got.froude, 1.201081, 1e-6);
    assert_int_equal(got.dissipator, CW_DISSIPATOR_NO);
    in.has_channel = true;
    in.channel_fps = 7.9; // hand: 12/7.9 = 1.52
    assert_int_equal(cw_sitewater_apron(&in, &cw_data, NULL).dissipator, CW_DISSIPATOR_YES);
    in.channel_fps = 8.0; // 1.5 exactly
    assert_int_equal(cw_sitewater_apron(&in, &cw_data, NULL).dissipator, CW_DISSIPATOR_NO);
    in.velocity_fps = 14.1;
    in.has_channel = false;
    assert_int_equal(cw_sitewater_apron(&in, &cw_data, NULL).dissipator, CW_DISSIPATOR_YES);
    in.velocity_fps = 13.0;
    in.depth_ft = 0.5; // hand: Fr 3.24
    assert_int_equal(cw_sitewater_apron(&in, &cw_data, NULL).dissipator, CW_DISSIPATOR_YES);
    // The formula with span governs a tall, narrow, weak outlet? The larger is taken either way.
    in.flow_cfs = 10.0;
    in.has_tailwater = false;
    got = cw_sitewater_apron(&in, &cw_data, NULL);
    near("larger of two", got.stone_in, fmax(got.pipe_in, got.box_in), 0.0);
    assert_true(got.box_in > got.pipe_in);
}

static cw_apron square_apron(double side_in, double flow_cfs, double tailwater_ft)
{
    const cw_apron_input in = {.flow_cfs = flow_cfs,
                               .span_in = side_in,
                               .rise_in = side_in,
                               .barrels = 1,
                               .has_tailwater = true,
                               .tailwater_ft = tailwater_ft};
    return cw_sitewater_apron(&in, &cw_data, NULL);
}

static void classes_and_ranges_at_their_edges(void **state)
{
    (void)state;
    // 5.8 in serves apron class 2 (6 in); rock of class I may have 5.7 in, so class II it is.
    cw_apron got = square_apron(60.0, 92.5, 2.0);
    near("stone", got.stone_in, 5.8, 0.02);
    assert_int_equal(got.apron_class, 2);
    assert_int_equal(got.rock_class, 2);
    // 21 in: apron class 6 asks 2.0 x 22 = 44 in, rock of class VII has stones of 48 in.
    got = square_apron(60.0, 242.8, 2.0);
    near("stone", got.stone_in, 21.0, 0.1);
    assert_int_equal(got.apron_class, 6);
    assert_int_equal(got.rock_class, 7);
    near("depth", got.depth_ft, 4.0, 1e-9);
    // Q/(B D^1.5) of a one-foot outlet is Q: 8 is the end of the formula with span.
    assert_int_equal(square_apron(12.0, 8.0, 1.0).verdict, CW_HOLDS);
    assert_int_equal(square_apron(12.0, 8.1, 1.0).verdict, CW_UNDECIDED);
    // More tailwater than the rise counts as the rise.
    near("TW", square_apron(12.0, 5.0, 3.0).tailwater_ft, 1.0, 0.0);
    near("stone", square_apron(12.0, 5.0, 3.0).stone_in, square_apron(12.0, 5.0, 1.0).stone_in,
         0.0);
}

static void fast_flow_lowers_the_height(void **state)
{
    (void)state;
    // HEC-14 eq. 10.5: D' = (5 + 3)/2 = 4; eq. 10.4 with 4 ft and 0.4 x 4 ft of tailwater.
    cw_apron_input in;
    take(&cw_calc_apron, "flow=85cfs span=5ft rise=5ft normal_depth=3ft", &in);
    const cw_apron got = cw_sitewater_apron(&in, &cw_data, NULL);
    near("TW", got.tailwater_ft, 1.6, 1e-12);
    near("hand: 0.8 x (85/(5.67450 x 32))^(4/3) x 2.5", got.pipe_in / CW_IN_PER_FT, 0.726917, 1e-6);
}

static void more_flow_never_takes_smaller_stone(void **state)
{
    (void)state;
    cw_apron before = {.stone_in = 0.0};
    for (double flow = 1.0; flow < 4000.0; flow *= 1.07) {
        const cw_apron_input in = {.flow_cfs = flow, .span_in = 120, .rise_in = 60, .barrels = 2};
        const cw_apron got = cw_sitewater_apron(&in, &cw_data, NULL);
        assert_true(got.stone_in > before.stone_in);
        assert_true(got.length_ft >= before.length_ft && got.depth_ft >= before.depth_ft * 0.999);
        if (got.apron_class == 0 || got.rock_class == 0)
            assert_int_equal(got.verdict, CW_UNDECIDED);
        else
            assert_true(got.apron_class >= before.apron_class &&
                        got.rock_class >= before.rock_class);
        before = got;
    }
    assert_int_equal(before.apron_class, 0);
    assert_int_equal(before.rock_class, 0);
}

/* ---- bypass pipe ---- */

static void full_pipe_by_hand(void **state)
{
    (void)state;
    // hand: 3.14159 x sqrt(193.2/(1.5 + 29.164 x 0.000144 x 200/0.39685)) = 22.96
    near("24 in", cw_sitewater_full_pipe_cfs(2.0, 200.0, 3.0, 0.012, 0.5), 22.96, 0.005);
    // Without friction it is the orifice: A sqrt(2 g h / (1 + ke)).
    near("short", cw_sitewater_full_pipe_cfs(2.0, 0.0, 3.0, 0.012, 0.5),
         CW_PI * sqrt(2.0 * 32.2 * 3.0 / 1.5), 1e-9);
}

static void the_smallest_size_is_taken(void **state)
{
    (void)state;
    cw_bypass_input in;
    take(
        &cw_calc_bypass_pipe,
        "flow=20cfs head=3ft length=200ft roughness=0.012 entrance=0.5 sizes=[36in,18in,24in,30in]",
        &in);
    cw_bypass got = cw_sitewater_bypass(&in, NULL);
    assert_int_equal(got.status, CW_FOUND);
    near("size", got.size_in, 24.0, 0.0);
    near("hand: 3 (20/22.96)^2", got.head_used_ft, 2.276, 0.002);
    in.flow_cfs = 500.0;
    got = cw_sitewater_bypass(&in, NULL);
    assert_int_equal(got.status, CW_FOUND_NONE);
    near("largest", got.size_in, 36.0, 0.0);
    assert_true(got.capacity_cfs < 500.0 && got.head_used_ft > 3.0);
    in.pipes = 8;
    near("eight pipes", cw_sitewater_bypass(&in, NULL).capacity_cfs, 8.0 * got.capacity_cfs, 1e-9);
}

static void more_flow_never_takes_a_smaller_pipe(void **state)
{
    (void)state;
    cw_bypass_input in;
    take(&cw_calc_bypass_pipe, "flow=1cfs head=2ft length=150ft roughness=0.024", &in);
    double before = 0.0;
    for (double flow = 0.1; flow < 900.0; flow *= 1.1) {
        in.flow_cfs = flow;
        const cw_bypass got = cw_sitewater_bypass(&in, NULL);
        assert_true(got.size_in >= before);
        assert_true(got.status == CW_FOUND_NONE || got.head_used_ft <= 2.0 * (1.0 + 1e-9));
        before = got.size_in;
    }
    near("largest at last", before, 72.0, 0.0);
}

/* ---- flume ---- */

static void flume_of_published_depths(void **state)
{
    (void)state;
    static const struct {
        double flow, width, side, slope, n, depth, tolerance;
    } rows[] = {
        // independent program: rectangle Q 200, b 8, n 0.012
        {200, 8, 0, 0.002, 0.012, 3.1093, 0.0001},
        {200, 8, 0, 0.01, 0.012, 1.7641, 0.0001},
        // independent program: trapezoid Q 400, b 20, z 2, n 0.035
        {400, 20, 2, 0.0016, 0.035, 4.0457, 0.0001},
        // course sheet CIVE3415 (2024) E2.2: 3 m, 1/500, n 0.025, 5 m3/s: 1.215 m
        {5.0 / CW_M3_PER_CUFT, 3.0 / CW_M_PER_FT, 0, 0.002, 0.025, 1.215 / CW_M_PER_FT, 0.003},
        // Chow (1959) ch. 6 example, from memory: n 0.025: 3.36 ft (with 1.49)
        {400, 20, 2, 0.0016, 0.025, 3.36, 0.01},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const cw_flume_input in = {rows[i].flow,  rows[i].width, rows[i].side,
                                   rows[i].slope, rows[i].n,     1.0};
        const cw_flume got = cw_sitewater_flume(&in, NULL);
        assert_int_equal(got.status, CW_FOUND);
        near("depth", got.depth_ft, rows[i].depth, rows[i].tolerance);
        near("height", got.height_ft, got.depth_ft + 1.0, 1e-12);
        assert_true(fabs(got.residual_cfs) < 1e-9 * rows[i].flow);
    }
}

static void flume_states_and_no_answer(void **state)
{
    (void)state;
    cw_flume_input in = {200, 8, 0, 0.002, 0.012, 1.0};
    // critical depth 2.688 ft (q 25): 3.109 ft is slow, 1.764 ft is fast
    assert_int_equal(cw_sitewater_flume(&in, NULL).state, CW_FLUME_SLOW);
    in.slope = 0.01;
    assert_int_equal(cw_sitewater_flume(&in, NULL).state, CW_FLUME_FAST);
    in.slope = 0.0025; // Fr 0.92
    assert_true(cw_sitewater_flume(&in, NULL).froude < 1.0);
    assert_int_equal(cw_sitewater_flume(&in, NULL).state, CW_FLUME_UNSTEADY);
    in.slope = 0.003; // Fr 1.01
    assert_int_equal(cw_sitewater_flume(&in, NULL).state, CW_FLUME_UNSTEADY);
    in = (cw_flume_input){20000, 0.5, 0, 0.0001, 0.2, 1.0};
    const cw_flume none = cw_sitewater_flume(&in, NULL);
    assert_int_equal(none.status, CW_FOUND_NONE);
    near("largest tried", none.depth_ft, CW_FLUME_DEPTH_MAX_FT, 0.0);
    assert_true(none.residual_cfs < 0.0);
    double before = 0.0;
    for (double flow = 0.01; flow < 2000.0; flow *= 1.3) {
        in = (cw_flume_input){flow, 4, 1, 0.005, 0.011, 1.0};
        const double depth = cw_sitewater_flume(&in, NULL).depth_ft;
        assert_true(depth > before);
        before = depth;
    }
}

/* ---- pumps ---- */

static void pump_power_by_hand(void **state)
{
    (void)state;
    cw_pump_input in;
    take(&cw_calc_pump_set, "flow=2.5cfs pump_capacity=2.5cfs lift=18ft efficiency=65%", &in);
    // hand: 62.4 x 2.5 x 18 / (550 x 0.65)
    near("hp", cw_sitewater_pump(&in, &cw_data, NULL).power_hp, 7.8545, 0.0001);
    take(&cw_calc_pump_set, "flow=2000gpm pump_capacity=2000gpm lift=30ft efficiency=60%", &in);
    // hand: 2000 x 30 / (3960 x 0.6), where 3960 rounds 33000/8.342
    near("hp by gpm", cw_sitewater_pump(&in, &cw_data, NULL).power_hp, 25.25, 0.03);
    near("hose: 500 ft of 12 in, C 140, 2000 gpm",
         cw_sitewater_hose_loss_ft(500.0, 12.0, 2000.0 * CW_CFS_PER_GPM, 140.0), 4.03, 0.005);
}

static void pumps_and_spares(void **state)
{
    (void)state;
    cw_pump_input in;
    take(&cw_calc_pump_set, cw_calc_pump_set.example, &in);
    cw_pump got = cw_sitewater_pump(&in, &cw_data, NULL);
    assert_int_equal(got.duty, 2);
    assert_int_equal(got.pumps, 3);
    near("hand: 22 + 4.03", got.head_ft, 26.03, 0.005);
    in.standby = CW_STANDBY_ALL;
    in.flow_cfs = 3.0 * in.pump_cfs; // an exact multiple asks for no fourth
    got = cw_sitewater_pump(&in, &cw_data, NULL);
    assert_int_equal(got.duty, 3);
    assert_int_equal(got.pumps, 6);
    in.pump_cfs = 0.1;
    in.flow_cfs = 0.1 + 0.1 + 0.1; // a last bit over three times 0.1
    assert_int_equal(cw_sitewater_pump(&in, &cw_data, NULL).duty, 3);
    in.suction_ft = 17.0;
    in.site_ft = 3000.0; // hand: 20 - 3
    assert_int_equal(cw_sitewater_pump(&in, &cw_data, NULL).suction, CW_HOLDS);
    in.site_ft = 3100.0;
    assert_int_equal(cw_sitewater_pump(&in, &cw_data, NULL).suction, CW_FAILS);
    int pumps = 0;
    double power = 0.0;
    in.hose_ft = 0.0;
    for (double flow = 0.1; flow < 60.0; flow *= 1.1) {
        in.flow_cfs = flow;
        got = cw_sitewater_pump(&in, &cw_data, NULL);
        assert_true(got.pumps >= pumps && got.power_hp > power);
        assert_true(got.each_cfs <= in.pump_cfs * (1.0 + 1e-8));
        pumps = got.pumps;
        power = got.power_hp;
    }
}

/* ---- cofferdam ---- */

static void crest_and_trigger_by_hand(void **state)
{
    (void)state;
    cw_cofferdam_input in;
    take(&cw_calc_cofferdam, cw_calc_cofferdam.example, &in);
    cw_cofferdam got = cw_sitewater_cofferdam(&in, NULL);
    near("hand: 603.2 + 1", got.crest_ft, 604.2, 1e-9);
    near("hand: 604.2 - 598.5", got.height_ft, 5.7, 1e-9);
    assert_int_equal(got.first, CW_STOP_BASE);
    near("stop", got.stop_ft, 604.1, 1e-9);
    near("hand: 0.5 ft/h for 1 h", got.warn_ft, 603.6, 1e-9);
    // hand: 240 + 240 x 0.1/2; 90 + 150 x 1.6/2
    assert_true(got.has_stop_flow && got.has_warn_flow);
    near("stop flow", got.stop_cfs, 252.0, 1e-6);
    near("warn flow", got.warn_cfs, 210.0, 1e-6);
    assert_int_equal(got.stage_verdict, CW_HOLDS);
    in.wave_ft = 0.5;
    near("hand: 603.2 + 1 + 0.5", cw_sitewater_cofferdam(&in, NULL).crest_ft, 604.7, 1e-9);
    in.clear_h = 2.0; // the work would have to be cleared at 603.1, below the diversion stage
    assert_int_equal(cw_sitewater_cofferdam(&in, NULL).stage_verdict, CW_FAILS);
    in.has_crest = true;
    in.crest_ft = 603.9;
    in.has_barrel = true;
    in.barrel_ft = 610.0;
    got = cw_sitewater_cofferdam(&in, NULL);
    assert_int_equal(got.first, CW_STOP_COFFERDAM);
    assert_int_equal(got.crest_verdict, CW_FAILS);
    in.barrel_ft = 603.0;
    assert_int_equal(cw_sitewater_cofferdam(&in, NULL).first, CW_STOP_BARREL);
    in.wall_ft = 602.5;
    assert_int_equal(cw_sitewater_cofferdam(&in, NULL).first, CW_STOP_WALL);
    in.wall_ft = 599.5; // under the rating
    got = cw_sitewater_cofferdam(&in, NULL);
    assert_false(got.has_stop_flow || got.has_warn_flow);
}

static void bad_input_is_named(void **state)
{
    (void)state;
    refuse(&cw_calc_apron, "flow=85cfs span=5ft rise=5ft normal_depth=6ft", CW_E_CONFLICT,
           "normal_depth|6|5");
    refuse(&cw_calc_apron, "flow=85cfs span=5ft rise=5ft velocity=9ft/s depth=6ft", CW_E_CONFLICT,
           "depth|rise");
    refuse(&cw_calc_apron, "flow=85gal span=5ft rise=5ft", CW_E_UNIT, "flow");
    refuse(&cw_calc_bypass_pipe, "flow=9cfs head=2ft length=90ft roughness=0.012 sizes=[2in,24in]",
           CW_E_RANGE, "sizes");
    refuse(&cw_calc_flume, "flow=9cfs width=4ft slope=0% roughness=0.012", CW_E_RANGE, "slope");
    refuse(&cw_calc_pump_set, "flow=9cfs pump_capacity=9cfs lift=9ft hose=90ft", CW_E_MISSING,
           "hose_diameter");
    refuse(&cw_calc_pump_set, "flow=9cfs pump_capacity=9cfs lift=0ft", CW_E_CONFLICT, "lift");
    refuse(&cw_calc_cofferdam, "stage=600ft ground=601ft", CW_E_CONFLICT, "ground|600|601");
    refuse(&cw_calc_cofferdam, "stage=600ft ground=598ft rating_stages=[599ft,600ft]",
           CW_E_CONFLICT, "2 stages|0 flows");
    refuse(&cw_calc_cofferdam,
           "stage=600ft ground=598ft rating_stages=[599ft,602ft,601ft] "
           "rating_flows=[1cfs,2cfs,3cfs]",
           CW_E_CONFLICT, "point 3|sort");
}

/* Classes rise, and each row of the tables is there for the code that names it. */
static void tables_rise(void **state)
{
    (void)state;
    static const struct {
        const char *family, *what;
        int classes;
    } tables[] = {{"apron", "stone", 6},
                  {"apron", "length", 6},
                  {"rock", "d50", 10},
                  {"rock", "d50_min", 10},
                  {"rock", "d100", 10}};
    for (size_t t = 0; t < COUNT_OF(tables); t++) {
        double before = 0.0;
        for (int i = 1; i <= tables[t].classes; i++) {
            char id[40];
            snprintf(id, sizeof id, "%s.%d.%s", tables[t].family, i, tables[t].what);
            const cw_row *row = cw_rows_find(&cw_data, id);
            if (!row)
                fail_msg("no row %s", id);
            assert_true(row->value >= before);
            before = row->value;
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stone_of_published_examples),
        cmocka_unit_test(winter_flow_of_the_manual),
        cmocka_unit_test(apron_of_a_square_outlet_is_that_of_the_pipe),
        cmocka_unit_test(both_formulas_of_a_box_are_shown),
        cmocka_unit_test(classes_and_ranges_at_their_edges),
        cmocka_unit_test(fast_flow_lowers_the_height),
        cmocka_unit_test(more_flow_never_takes_smaller_stone),
        cmocka_unit_test(full_pipe_by_hand),
        cmocka_unit_test(the_smallest_size_is_taken),
        cmocka_unit_test(more_flow_never_takes_a_smaller_pipe),
        cmocka_unit_test(flume_of_published_depths),
        cmocka_unit_test(flume_states_and_no_answer),
        cmocka_unit_test(pump_power_by_hand),
        cmocka_unit_test(pumps_and_spares),
        cmocka_unit_test(crest_and_trigger_by_hand),
        cmocka_unit_test(bad_input_is_named),
        cmocka_unit_test(tables_rise),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
