/* Design flow.  Sources: "hand" is arithmetic beside the value; TR-55 examples and tables are from
 * memory, not verified; the exercise is a textbook's as posted with its answer. */
#include "../base/calc_test_help.h"

#include "cw/sitewater.h"

static void rational_by_hand(void **state)
{
    (void)state;
    cw_rational_input in;
    take(&cw_calc_rational_flow, "runoff=0.45 rain=3.2in/h area=24acres", &in);
    near("hand: 0.45 x 3.2 x 24", cw_sitewater_rational(&in, &cw_data, NULL).peak_cfs, 34.56, 1e-9);
    in.exact_units = true;
    near("hand: x 43560/43200", cw_sitewater_rational(&in, &cw_data, NULL).peak_cfs, 34.848, 1e-9);
    take(&cw_calc_rational_flow, "runoff=0.4 rain=2.87in/h area=0.20sqmi", &in);
    near("textbook exercise 7-3: 146.94 cfs", cw_sitewater_rational(&in, &cw_data, NULL).flow_cfs,
         146.94, 0.005);
    take(&cw_calc_rational_flow,
         "runoff=0.9 rain=2in/h area=10acres storm_factor=1.25 season_share=40%", &in);
    const cw_rational capped = cw_sitewater_rational(&in, &cw_data, NULL);
    near("C is 1 at most", capped.runoff, 1.0, 0.0);
    near("hand: 2 x 10", capped.peak_cfs, 20.0, 1e-12);
    near("hand: 40 percent", capped.flow_cfs, 8.0, 1e-12);
    assert_int_equal(capped.verdict, CW_HOLDS);
    in.area_acre = 201.0;
    assert_int_equal(cw_sitewater_rational(&in, &cw_data, NULL).verdict, CW_UNDECIDED);
}

static void travel_of_the_published_example(void **state)
{
    (void)state;
    // TR-55 example 3-1: 0.30 + 0.24 + 0.99 = 1.53 h.
    cw_travel_input in;
    take(&cw_calc_time_of_concentration, cw_calc_time_of_concentration.example, &in);
    const cw_travel got = cw_sitewater_travel(&in, NULL);
    near("sheet h", got.sheet_min / CW_MIN_PER_HOUR, 0.30, 0.005);
    near("shallow h", got.shallow_min / CW_MIN_PER_HOUR, 0.24, 0.005);
    near("channel h", got.channel_min / CW_MIN_PER_HOUR, 0.99, 0.005);
    near("all h", got.total_min / CW_MIN_PER_HOUR, 1.53, 0.005);
    in.paved = true;
    near("hand: 20.3282 sqrt(0.01)", cw_sitewater_travel(&in, NULL).shallow_fps, 2.03282, 1e-9);
    take(&cw_calc_time_of_concentration, "shallow=50ft shallow_slope=4%", &in);
    const cw_travel little = cw_sitewater_travel(&in, NULL);
    near("hand: 50 / (16.1345 x 0.2) / 60", little.shallow_min, 0.258246, 1e-5);
    near("least time", little.total_min, 6.0, 0.0);
}

static void runoff_of_the_published_table(void **state)
{
    (void)state;
    // TR-55 table 2-1, CN 80.
    static const double rain_in[] = {2, 3, 4, 5, 6}, runoff_in[] = {0.56, 1.25, 2.04, 2.89, 3.78};
    for (size_t i = 0; i < COUNT_OF(rain_in); i++) {
        const cw_unit_peak_input in = {.area_acre = 640,
                                       .time_min = 60,
                                       .rain_in = rain_in[i],
                                       .curve_number = 80,
                                       .rain_type = CW_RAIN_II,
                                       .season_percent = 100};
        near("runoff in", cw_sitewater_unit_peak(&in, &cw_data, NULL).runoff_in, runoff_in[i],
             0.005);
    }
}

static void unit_peak_of_the_published_example(void **state)
{
    (void)state;
    // TR-55 example 4-1: 250 acres, CN 75, 6 in, 1.53 h, type II: Q 3.28 in, q_u 270, 345 cfs.
    cw_unit_peak_input in;
    take(&cw_calc_unit_peak_flow, cw_calc_unit_peak_flow.example, &in);
    const cw_unit_peak got = cw_sitewater_unit_peak(&in, &cw_data, NULL);
    near("runoff in", got.runoff_in, 3.28, 0.005);
    near("Ia/P", got.loss_ratio, 0.11, 0.005);
    near("q_u", got.csm_per_in, 270.0, 2.0);
    near("peak cfs", got.peak_cfs, 345.0, 1.0);
    assert_int_equal(got.verdict, CW_HOLDS);
    in.pond_percent = 0.6;
    near("hand: midway between 0.97 and 0.87", cw_sitewater_unit_peak(&in, &cw_data, NULL).peak_cfs,
         0.92 * got.peak_cfs, 1e-9 * got.peak_cfs);
}

static void unit_peak_at_one_hour_is_its_first_coefficient(void **state)
{
    (void)state;
    // log10 of one hour is 0: q_u = 10^C0.  Ia/P = 0.10 needs P = 2 S.
    static const struct {
        int type;
        double csm_per_in;
    } rows[] = {{CW_RAIN_I, 202.07},
                {CW_RAIN_IA, 107.77},
                {CW_RAIN_II, 357.46},
                {CW_RAIN_III, 297.28}}; // hand: 10^2.30550, 10^2.03250, 10^2.55323, 10^2.47317
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_unit_peak_input in = {.area_acre = 640,
                                 .time_min = 60,
                                 .rain_in = 5.0,
                                 .curve_number = 80,
                                 .rain_type = rows[i].type,
                                 .season_percent = 100};
        const cw_unit_peak got = cw_sitewater_unit_peak(&in, &cw_data, NULL);
        near("q_u", got.csm_per_in, rows[i].csm_per_in, 0.02);
        near("one square mile", got.peak_cfs, got.csm_per_in * got.runoff_in, 1e-9);
        in.time_min = 5.0; // under 0.1 h: as at 0.1 h, and said
        const cw_unit_peak fast = cw_sitewater_unit_peak(&in, &cw_data, NULL);
        in.time_min = 6.0;
        near("clamped", fast.csm_per_in, cw_sitewater_unit_peak(&in, &cw_data, NULL).csm_per_in,
             1e-9);
        assert_int_equal(fast.verdict, CW_UNDECIDED);
    }
}

static void more_rain_never_gives_less_flow(void **state)
{
    (void)state;
    for (int type = 0; type < CW_RAIN_TYPES; type++)
        for (double time_min = 6.0; time_min <= 600.0; time_min *= 2.0) {
            double before = -1.0;
            for (double rain_in = 0.2; rain_in <= 12.0; rain_in += 0.1) {
                const cw_unit_peak_input in = {.area_acre = 100,
                                               .time_min = time_min,
                                               .rain_in = rain_in,
                                               .curve_number = 70,
                                               .rain_type = type,
                                               .season_percent = 100};
                const double flow = cw_sitewater_unit_peak(&in, &cw_data, NULL).flow_cfs;
                if (flow < before - 1e-9)
                    fail_msg("type %d, %.0f min, %.1f in: %.6g after %.6g", type, time_min, rain_in,
                             flow, before);
                before = flow;
            }
            assert_true(before > 0.0);
        }
}

static void risk_by_hand(void **state)
{
    (void)state;
    static const struct {
        double period, periods, percent;
    } rows[] = {{10, 1, 10.0},      // hand
                {2, 1, 50.0},       // hand: one season
                {25, 5, 18.46},     // hand: 1 - 0.96^5 = 0.184627
                {2, 0.25, 15.91},   // hand: 1 - 0.5^(1/4) = 0.159104
                {100, 100, 63.40}}; // hand: 1 - 0.99^100 = 0.633968
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_risk_input in = {.return_periods = rows[i].period, .periods = rows[i].periods};
        cw_risk got = cw_sitewater_risk(&in, NULL);
        near("risk", got.risk_percent, rows[i].percent, 0.005);
        in.has_accepted = true;
        in.accepted_percent = got.risk_percent;
        got = cw_sitewater_risk(&in, NULL);
        near("there and back", got.needed_periods, rows[i].period, 1e-9 * rows[i].period);
    }
}

static void bad_input_is_named(void **state)
{
    (void)state;
    refuse(&cw_calc_rational_flow, "runoff=1.4 rain=3in/h area=24acres", CW_E_RANGE, "runoff|1.4");
    refuse(&cw_calc_rational_flow, "runoff=0.4 rain=3in area=24acres", CW_E_UNIT, "rain");
    refuse(&cw_calc_rational_flow, "rain=3in/h area=24acres", CW_E_MISSING, "runoff");
    refuse(&cw_calc_time_of_concentration, "paved=yes", CW_E_MISSING, "no part|give sheet");
    refuse(&cw_calc_time_of_concentration, "sheet=80ft rain=3in", CW_E_MISSING,
           "sheet_n|sheet_slope");
    refuse(&cw_calc_time_of_concentration, "sheet=101ft sheet_n=0.2 rain=3in sheet_slope=1%",
           CW_E_RANGE, "sheet|100");
    refuse(&cw_calc_time_of_concentration, "channel=500ft channel_n=0.05 channel_slope=1%",
           CW_E_MISSING, "channel_area|channel_perimeter");
    refuse(&cw_calc_unit_peak_flow, "area=9acres time=1h rain=3in curve_number=75 rain_type=IV",
           CW_E_CHOICE, "IV|III");
    refuse(&cw_calc_risk, "return_period=1", CW_E_RANGE, "return_period");
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_unit_peak_input bad = {.area_acre = (double)NAN, .rain_type = CW_RAIN_TYPES};
    assert_false(cw_unit_peak_input_valid(&bad, (cw_pos){.line = 4}, &diags));
    assert_true(diags.count >= 2);
    assert_int_equal(diags.items[0].where.line, 4);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rational_by_hand),
        cmocka_unit_test(travel_of_the_published_example),
        cmocka_unit_test(runoff_of_the_published_table),
        cmocka_unit_test(unit_peak_of_the_published_example),
        cmocka_unit_test(unit_peak_at_one_hour_is_its_first_coefficient),
        cmocka_unit_test(more_rain_never_gives_less_flow),
        cmocka_unit_test(risk_by_hand),
        cmocka_unit_test(bad_input_is_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
