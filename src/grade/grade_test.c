/* Rods, camber, laid length and heading against hand values and simulation. */
#include "../base/calc_test_help.h"

#include "cw/grade.h"

#define ROD                                                                                        \
    "benchmark=515.87ft backsight=4.62ft outlet=512.34ft slope=1.25% floor=10in leveling=0in "     \
    "bedding=6in "
#define LONG "length=120ft slope=1% piece=6ft outside_height=10ft "
#define GROW                                                                                       \
    "pieces=20 piece=6ft gap=0.5in gap_mean=0.75in length_tolerance=0.0833in "                     \
    "gap_tolerance=0.125in tolerance_is=sd "
#define TURN "width=164in advance=6.0417ft pieces=20 "
#define LOOP "start=100ft backsights=4.20ft,5.15ft,3.05ft foresights=2.50ft,3.50ft,4.10ft "

static const expected values[] = {
    /* hand: a piece of 6 ft and 0.5 in at 1.25 percent advances 6.041667/1.000078 = 6.041195;
       joint 10. */
    {&cw_calc_rod_reading, ROD "distance=60.4119ft", "instrument", 520.49, 1e-6, NULL, "hand"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft", "invert", 513.0951, 5e-5, NULL, "hand"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft", "subgrade", 511.7617, 5e-5, NULL,
     "hand: square to grade"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft", "rod_invert", 7.395, 5e-4, NULL, "hand"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft", "rod_subgrade", 8.728, 5e-4, NULL, "hand"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft", "laser", 1.25, 1e-9, NULL, "hand"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft wall_top=48in", "rod_wall", 3.395, 5e-4, NULL,
     "hand: 4 ft higher"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft raise=3in", "rod_invert", 7.145, 5e-4, NULL,
     "hand"},
    {&cw_calc_rod_reading, ROD "distance=60.4119ft wall_top=96in", "check", 0, 0, "fails",
     "hand: the wall is above HI"},
/* hand: 30 degrees: 1000 + 60 x 0.866025 - 10 x 0.5; 2000 + 60 x 0.5 + 10 x 0.866025. */
#define STAKE                                                                                      \
    "north=1000ft east=2000ft azimuth=30deg distance=60ft offset=10ft hub=518.42ft "               \
    "invert=513.09ft subgrade=511.76ft"
    {&cw_calc_offset_stake, STAKE, "north_stake", 1046.9615, 5e-5, NULL, "hand"},
    {&cw_calc_offset_stake, STAKE, "east_stake", 2038.6603, 5e-5, NULL, "hand"},
    {&cw_calc_offset_stake, STAKE, "cut_invert", 5.33, 1e-9, NULL, "hand"},
    {&cw_calc_offset_stake, STAKE, "cut_subgrade", 6.66, 1e-9, NULL, "hand"},
    /* Surveying course page: 101.70, 103.35, 102.30; sum BS - sum FS = 2.30. */
    {&cw_calc_level_loop, LOOP, "rise", 2.30, 1e-9, NULL, "course page"},
    {&cw_calc_level_loop, LOOP, "check", 0, 0, "undecided", "no closing point"},
    {&cw_calc_level_loop, LOOP "close=102.27ft", "misclosure", 0.03, 1e-9, NULL, "hand"},
    {&cw_calc_level_loop, LOOP "close=102.27ft", "check", 0, 0, "holds",
     "hand: 0.05 ft for a mile"},
    {&cw_calc_level_loop, LOOP "close=102.27ft line=0.25mi", "check", 0, 0, "fails",
     "hand: 0.025 ft"},
    /* Camber, hand: S L/4 = 0.30, S L/2 = 0.60; 4 x 0.25 x 0.25 x 0.75; 8 x 0.25 x 6/14,400. */
    {&cw_calc_camber, LONG "rise=0.25ft distance=30ft", "rise_max_grade", 0.30, 1e-9, NULL, "hand"},
    {&cw_calc_camber, LONG "shape=break rise=0.25ft", "rise_max_grade", 0.60, 1e-9, NULL, "hand"},
    {&cw_calc_camber, LONG "rise=0.25ft distance=30ft", "rise_here", 0.1875, 1e-9, NULL, "hand"},
    {&cw_calc_camber, LONG "rise=0.25ft", "rotation", 0.000833, 5e-7, NULL, "hand"},
    {&cw_calc_camber, LONG "rise=0.25ft", "gap_change", 0.10, 1e-9, NULL, "hand"},
    {&cw_calc_camber, LONG "rise=0.25ft", "longer", 0.0167, 5e-5, NULL, "hand: 8 m^2/(3 L)"},
    {&cw_calc_camber, LONG "shape=break rise=0.25ft distance=30ft", "rise_here", 0.125, 1e-9, NULL,
     "hand"},
    {&cw_calc_camber, LONG "shape=break rise=0.25ft", "gap_change", 1.0, 1e-9, NULL,
     "hand: 120 x 4 x 0.25/120"},
    /* hand: band 0.5 in, 120 x 8 x 6/14,400 = 0.4 in a foot. */
    {&cw_calc_camber, LONG "rise=0.25ft gap_min=0.25in gap_max=0.75in", "rise_max_gap", 1.25, 1e-9,
     NULL, "hand"},
    {&cw_calc_camber, LONG "rise=0.25ft", "pond_laid", 0.0, 1e-9, NULL, "hand: m below S L/4"},
    /* hand: break of 0.9 ft: 0.6 + 0.9 = 1.5 at the middle, 1.2 at the inlet: 0.3 ft = 3.6 in
       stands. */
    {&cw_calc_camber, LONG "shape=break rise=0.9ft", "pond_laid", 3.6, 1e-9, NULL, "hand"},
    {&cw_calc_camber, LONG "shape=break rise=0.9ft", "laid", 0, 0, "fails", "hand"},
    /* hand: settlement of the rise leaves the straight grade; 1.2 ft on a straight grade of 1
     * percent leaves 0.01 x - 0.04 x (1 - x/120): lowest at 45 ft, -0.675 ft; the joints at 42 and
     * 48 give 0.672. */
    {&cw_calc_camber, LONG "rise=0.25ft settlement=0.25ft", "pond_settled", 0.0, 1e-9, NULL,
     "hand"},
    {&cw_calc_camber, LONG "rise=0ft settlement=1.2ft", "pond_settled", 8.064, 1e-6, NULL, "hand"},
    {&cw_calc_camber, LONG "rise=0ft settlement=1.2ft", "settled", 0, 0, "fails", "hand"},
    /* Growth, hand: 19 x 0.25 and 20 x 0.25; (20 x 0.0833^2 + 19 x 0.125^2)^(1/2). */
    {&cw_calc_run_growth, GROW, "growth", 4.75, 1e-9, NULL, "hand"},
    {&cw_calc_run_growth, GROW "end_gap=yes", "growth", 5.0, 1e-9, NULL, "hand"},
    {&cw_calc_run_growth, GROW, "sd", 0.660, 5e-4, NULL, "hand"},
    {&cw_calc_run_growth, GROW, "growth_high", 6.04, 5e-3, NULL, "hand: 4.75 + 1.96 x 0.660"},
    {&cw_calc_run_growth, GROW, "growth_low", 3.46, 5e-3, NULL, "hand"},
    {&cw_calc_run_growth, GROW, "drawn", 120.0 + 9.5 / 12.0, 1e-9, NULL, "hand"},
    {&cw_calc_run_growth, GROW "length_bias=0.1in", "growth", 6.75, 1e-9, NULL,
     "hand: 20 x 0.1 more"},
    /* Gap, hand: 120.79 - 60.55 - 60 = 0.24 ft = 2.88 in over 10 joints. */
    {&cw_calc_gap_needed, "target=120.79ft laid=60.55ft pieces=10 piece=6ft", "needed", 0.288, 1e-9,
     NULL, "hand"},
    {&cw_calc_gap_needed, "target=120.79ft laid=60.55ft pieces=10 piece=6ft", "state", 0, 0,
     "feasible", "hand"},
    {&cw_calc_gap_needed, "target=120.95ft laid=60.55ft pieces=10 piece=6ft", "state", 0, 0,
     "on-target", "hand: 0.48 in"},
    {&cw_calc_gap_needed, "target=120.79ft laid=60.55ft pieces=10 piece=6ft", "end_near",
     120.55 + 2.5 / 12.0, 1e-9, NULL, "hand"},
    {&cw_calc_gap_needed, "target=120.79ft laid=60.55ft pieces=10 piece=6ft", "end_far",
     120.55 + 7.5 / 12.0, 1e-9, NULL, "hand"},
    /* hand: 1 ft over 2 joints is 6 in; 2 x (6 - 0.75) = 10.5 in longer. */
    {&cw_calc_gap_needed, "target=23ft laid=10ft lengths=6ft,6ft", "state", 0, 0, "too-wide",
     "hand"},
    {&cw_calc_gap_needed, "target=23ft laid=10ft lengths=6ft,6ft", "special", 10.5, 1e-9, NULL,
     "hand"},
    {&cw_calc_gap_needed, "target=22ft laid=10.5ft lengths=6ft,6ft", "state", 0, 0, "too-tight",
     "hand"},
    {&cw_calc_gap_needed, "target=22ft laid=10.5ft lengths=6ft,6ft", "special", -6.5, 1e-9, NULL,
     "hand: -6 - 0.5"},
    {&cw_calc_gap_needed, "target=22ft laid=10.5ft lengths=6ft,6ft", "check", 0, 0, "fails",
     "hand"},
    {&cw_calc_gap_needed, "target=22ft laid=21.95ft end_gap=yes", "needed", 0.6, 1e-9, NULL,
     "hand"},
    /* Heading, hand: 72.5 x 0.125/164 x 190 = 10.50, x 210 = 11.60; sd x 2470^(1/2), x 2870^(1/2).
     */
    {&cw_calc_heading_drift, TURN "difference=0.125in sd=0.125in", "end_offset", 10.50, 0.005, NULL,
     "hand"},
    {&cw_calc_heading_drift, TURN "difference=0.125in sd=0.125in", "end_sd", 2.75, 0.005, NULL,
     "hand"},
    {&cw_calc_heading_drift, TURN "difference=0.125in sd=0.125in first_true=no", "end_offset",
     11.60, 0.005, NULL, "hand"},
    {&cw_calc_heading_drift, TURN "difference=0.125in sd=0.125in first_true=no", "end_sd", 2.96,
     0.005, NULL, "hand"},
    {&cw_calc_heading_drift, TURN "difference=0.125in", "check", 0, 0, "fails", "hand"},
    /* hand: left gap wider turns right: one joint of 1/8 in, second piece off by 72.5 x 0.125/164.
     */
    {&cw_calc_heading_drift, TURN "left=0.625in right=0.5in", "offset", 0.05526, 5e-6, NULL,
     "hand"},
    {&cw_calc_heading_drift, TURN "left=0.625in right=0.5in", "heading", 0.04367, 5e-6, NULL,
     "hand"},
    {&cw_calc_heading_drift, TURN "left=0.5in right=0.625in", "offset", -0.05526, 5e-6, NULL,
     "mirror"},
    {&cw_calc_heading_drift, TURN "left=0.5in,0.7in right=0.4in,0.4in", "difference_mean", 0.2,
     1e-9, NULL, "hand"},
    {&cw_calc_heading_drift, TURN "left=0.5in,0.7in right=0.4in,0.4in", "difference_sd", 0.141421,
     5e-7, NULL, "hand"},
};

static void values_come_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++)
        must_give(&values[i]);
}

static void levels_of_the_course_page(void **state)
{
    (void)state;
    static const double want[] = {101.70, 103.35, 102.30}, adjusted[] = {101.69, 103.33, 102.27};
    uint64_t output[ROOM / 8];
    run_on(&cw_calc_level_loop, LOOP "close=102.27ft", output);
    const cw_level *level = (const cw_level *)(const void *)output;
    assert_int_equal(level->elevations_ft.count, 3);
    for (int i = 0; i < 3; i++) {
        near("elevation ft", level->elevations_ft.items[i], want[i], 1e-9);
        near("adjusted ft", level->adjusted_ft.items[i], adjusted[i], 1e-9); // hand: 0.01 each
    }
}

static const uint64_t first_seed = 20260302u;

/* 19 of 20 simulated runs end between the bounds: lengths and gaps uniform within tolerance. */
static void bounds_hold_nineteen_of_twenty(void **state)
{
    (void)state;
    enum { RUNS = 20000 };
    static const int pieces[] = {5, 20, 60};
    uint64_t seed = first_seed;
    for (size_t c = 0; c < COUNT_OF(pieces); c++) {
        const cw_growth_input in = {.pieces = pieces[c],
                                    .piece_in = 72.0,
                                    .gap_in = 0.5,
                                    .length_bias_in = -0.03,
                                    .length_tol_in = 0.25,
                                    .gap_mean_in = 0.6,
                                    .gap_tol_in = 0.2,
                                    .spread = CW_SPREAD_UNIFORM};
        const cw_growth got = cw_grade_growth(&in, NULL);
        int inside = 0;
        double sum = 0.0;
        for (int run = 0; run < RUNS; run++) {
            double laid = 0.0;
            for (int i = 0; i < pieces[c]; i++)
                laid += 72.0 - 0.03 + between(&seed, -0.25, 0.25);
            for (int i = 0; i + 1 < pieces[c]; i++)
                laid += 0.6 + between(&seed, -0.2, 0.2);
            inside += laid >= got.low_ft * CW_IN_PER_FT && laid <= got.high_ft * CW_IN_PER_FT;
            sum += laid;
        }
        // Five standard errors of the share and of the mean.
        near("share inside", (double)inside / RUNS, 0.95, 5.0 * sqrt(0.05 * 0.95 / RUNS) + 0.004);
        near("mean in", sum / RUNS, got.mean_ft * CW_IN_PER_FT, 5.0 * got.sd_in / sqrt(RUNS));
    }
}

static void random_heading_matches_simulation(void **state)
{
    (void)state;
    enum { RUNS = 20000, PIECES = 20 };
    const double half = 0.125 * sqrt(3.0); // uniform with a standard deviation of 1/8 in
    uint64_t seed = first_seed + 1;
    double squares = 0.0;
    for (int run = 0; run < RUNS; run++) {
        double heading = 0.0, offset = 0.0;
        for (int i = 0; i < PIECES; i++) {
            heading += i > 0 ? between(&seed, -half, half) / 164.0 : 0.0;
            offset += 6.0417 * CW_IN_PER_FT * heading;
        }
        squares += offset * offset;
    }
    uint64_t output[ROOM / 8];
    run_on(&cw_calc_heading_drift, TURN "sd=0.125in", output);
    const cw_heading *got = (const cw_heading *)(const void *)output;
    near("sd in", got->end_sd_in, sqrt(squares / RUNS), 0.025 * got->end_sd_in);
}

/* Laying on with the needed gap ends on the target. */
static void needed_gap_closes_the_run(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 2;
    for (int i = 0; i < 500; i++) {
        cw_gap_input in = {.target_ft = between(&seed, 80.0, 120.0),
                           .laid_ft = between(&seed, 20.0, 60.0),
                           .gap_min_in = 0.25,
                           .gap_max_in = 0.75,
                           .aim_low_in = 0.375,
                           .aim_high_in = 0.5,
                           .end_gap = next_random(&seed) < 0.5};
        in.lengths_in.count = 1 + (int)(next_random(&seed) * 9.0);
        double end = in.laid_ft;
        for (int k = 0; k < in.lengths_in.count; k++) {
            in.lengths_in.items[k] = between(&seed, 48.0, 96.0);
            end += in.lengths_in.items[k] / CW_IN_PER_FT;
        }
        const cw_gap got = cw_grade_gap(&in, NULL);
        near("end ft", end + got.gaps * got.needed_in / CW_IN_PER_FT, in.target_ft, 1e-9);
        // With the special piece the gap is at its limit.
        const double gap = got.needed_in - got.special_in / got.gaps;
        assert_true(gap >= in.gap_min_in - 1e-9 && gap <= in.gap_max_in + 1e-9);
        const bool reach =
            in.target_ft >= got.shortest_ft - 1e-9 && in.target_ft <= got.longest_ft + 1e-9;
        assert_int_equal(got.verdict, reach ? CW_HOLDS : CW_FAILS);
    }
}

/* At its greatest rise without adverse grade nothing stands, a little above it something does. */
static void ponds_start_at_the_limit(void **state)
{
    (void)state;
    for (int shape = 0; shape < 2; shape++) {
        cw_camber_input in = {.shape = shape,
                              .length_ft = 120.0,
                              .slope = 0.01,
                              .piece_ft = 6.0,
                              .height_in = 120.0,
                              .gap_min_in = 0.25,
                              .gap_max_in = 0.75,
                              .pond_in = 0.0};
        in.rise_ft = cw_grade_camber(&in, NULL).rise_max_grade_ft;
        near("at the limit in", cw_grade_camber(&in, NULL).pond_laid_in, 0.0, 1e-9);
        in.rise_ft *= 1.2;
        assert_true(cw_grade_camber(&in, NULL).pond_laid_in > 0.01);
        // A rise at which the gaps are just used up.
        in.rise_ft = cw_grade_camber(&in, NULL).rise_max_gap_ft;
        near("gap in", cw_grade_camber(&in, NULL).gap_change_in, 0.5, 1e-9);
        assert_int_equal(cw_grade_camber(&in, NULL).verdict_gap, CW_HOLDS);
    }
}

/* The lengthening against the polygon of many short floors. */
static void lengthening_matches_the_polygon(void **state)
{
    (void)state;
    enum { PARTS = 20000 };
    for (int shape = 0; shape < 2; shape++) {
        cw_camber_input in = {.shape = shape,
                              .length_ft = 120.0,
                              .rise_ft = 0.5,
                              .piece_ft = 6.0,
                              .height_in = 120.0,
                              .gap_max_in = 0.75};
        double length = 0.0, before = 0.0;
        for (int i = 1; i <= PARTS; i++) {
            in.distance_ft = 120.0 * i / PARTS;
            const double here = cw_grade_camber(&in, NULL).rise_here_ft;
            length += hypot(120.0 / PARTS, here - before);
            before = here;
        }
        near("longer in", cw_grade_camber(&in, NULL).longer_in, (length - 120.0) * CW_IN_PER_FT,
             1e-4);
    }
}

static void bad_input_is_refused(void **state)
{
    (void)state;
    refuse(&cw_calc_level_loop, "start=100ft backsights=4ft,5ft foresights=2ft", CW_E_CONFLICT,
           "2 and 1");
    refuse(&cw_calc_level_loop, "start=100 backsights=4ft foresights=2ft", CW_E_UNIT, "start");
    refuse(&cw_calc_camber, LONG "rise=0.25ft distance=130ft", CW_E_GEOMETRY, "130|120 ft");
    refuse(&cw_calc_camber, "length=10ft slope=1% piece=12ft outside_height=10ft rise=0ft",
           CW_E_GEOMETRY, "12 ft|longer");
    refuse(&cw_calc_camber, LONG "rise=0.25ft gap_min=0.75in gap_max=0.5in", CW_E_CONFLICT,
           "exchange");
    refuse(&cw_calc_gap_needed, "target=100ft laid=60ft", CW_E_MISSING, "no joint|pieces");
    refuse(&cw_calc_gap_needed, "target=100ft laid=60ft pieces=3", CW_E_MISSING, "3 pieces|6 ft");
    refuse(&cw_calc_gap_needed, "target=100ft laid=60ft pieces=3 piece=6ft lengths=6ft",
           CW_E_CONFLICT, "one of them");
    refuse(&cw_calc_gap_needed, "target=100ft laid=60ft lengths=6ft aim_low=0.6in", CW_E_CONFLICT,
           "aim_high|aim_low");
    refuse(&cw_calc_heading_drift, TURN "left=0.5in", CW_E_CONFLICT, "1 and 0");
    refuse(&cw_calc_heading_drift,
           "width=164in advance=6ft pieces=2 left=0.5in,0.5in right=0.5in,0.5in", CW_E_CONFLICT,
           "2 measured|which has 1");
    refuse(&cw_calc_run_growth,
           "pieces=0 piece=6ft gap_mean=0.5in length_tolerance=0in gap_tolerance=0in", CW_E_RANGE,
           "pieces");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out),
        cmocka_unit_test(levels_of_the_course_page),
        cmocka_unit_test(bounds_hold_nineteen_of_twenty),
        cmocka_unit_test(random_heading_matches_simulation),
        cmocka_unit_test(needed_gap_closes_the_run),
        cmocka_unit_test(ponds_start_at_the_limit),
        cmocka_unit_test(lengthening_matches_the_polygon),
        cmocka_unit_test(bad_input_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
