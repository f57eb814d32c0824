/* Calculators of time, laws and random numbers against published and independently computed values.
 */
#include "../base/calc_test_help.h"

#include "cw/schedule.h"

#define THREE "low=15min likely=20min high=40min "
#define LOOP "away=120min unload=44min "
/* The same numbers as working days in the place of minutes: the law knows no unit. */
#define TEXTBOOK "low=6min likely=7min high=14min "
#define PATH "low=6,2,5,4 likely=7,3,5.5,6 high=14,4,9,8 "

#define NOTES                                                                                      \
    "activities=A:6-7-14/B:8-10-12/C:2-3-4:A/D:6-7-8:A/E:5-5.5-9:B,C/F:5-7-9:B,C/G:4-6-8:D,E/"     \
    "H:2.5-3-3.5:F"
/* Events 1 to 6 with a dummy from 2 to 3. */
#define LECTURE                                                                                    \
    "activities=a12:2-5-8/a13:1-4-7/dummy:0:a12/a24:2-4-6:a12/a26:5-7-12:a12/"                     \
    "a34:3-5-10:a13,dummy/"                                                                        \
    "a35:3-6-9:a13,dummy/a45:4-6-10:a24,a34/a46:2-5-8:a24,a34/a56:2-4-6:a35,a45"

static const char scipy[] = "scipy.stats 1.10";
static const char pert_notes[] = "three-point example of university operations course notes: path "
                                 "of 8, 3, 6, 6, variance 2.7778";
static const char repair[] =
    "operations research textbook exercise: two machines, up 12 h, repair 8 h, one repairman";

static const expected values[] = {
    /* Laws. */
    {&cw_calc_duration, "law=beta " TEXTBOOK, "mean", 8.0, 1e-9, NULL, pert_notes},
    {&cw_calc_duration, "law=beta " TEXTBOOK, "sd", 1.309307341, 1e-8, NULL, scipy},
    {&cw_calc_duration, "law=beta " TEXTBOOK, "p10", 6.4785, 5e-5, NULL, scipy},
    {&cw_calc_duration, "law=beta " TEXTBOOK, "p50", 7.7690, 5e-5, NULL, scipy},
    {&cw_calc_duration, "law=beta " TEXTBOOK, "p80", 9.1028, 5e-5, NULL, scipy},
    {&cw_calc_duration, "law=beta " TEXTBOOK, "p90", 9.8712, 5e-5, NULL, scipy},
    {&cw_calc_duration, "law=beta " THREE, "mean", 22.5, 1e-9, NULL, "hand: (15 + 80 + 40)/6"},
    {&cw_calc_duration, "law=beta " THREE, "sd", 4.330127019, 1e-8, NULL,
     "hand: root of 7.5 x 17.5/7"},
    {&cw_calc_duration, "law=beta " THREE, "p90", 28.6334, 5e-5, NULL, scipy},
    {&cw_calc_duration, "law=triangular " TEXTBOOK, "mean", 9.0, 1e-9, NULL, "hand"},
    {&cw_calc_duration, "law=triangular " TEXTBOOK, "sd", 1.779513042, 1e-8, NULL,
     "hand: root of 57/18"},
    {&cw_calc_duration, "law=triangular " TEXTBOOK, "p10", 6.8944, 5e-5, NULL, scipy},
    {&cw_calc_duration, "law=triangular " THREE, "p80", 30.0, 1e-9, NULL,
     "hand: 40 - root of 0.2 x 25 x 20"},
    {&cw_calc_duration, "law=triangular " THREE, "p50", 24.1886, 5e-5, NULL, scipy},
    {&cw_calc_duration, "law=lognormal mean=22.5min variation=0.35", "sd", 7.875, 1e-9, NULL,
     "hand: 22.5 x 0.35"},
    {&cw_calc_duration, "law=lognormal mean=22.5min variation=0.35", "p10", 13.7369, 5e-5, NULL,
     scipy},
    {&cw_calc_duration, "law=lognormal mean=22.5min variation=0.35", "p50", 21.2368, 5e-5, NULL,
     scipy},
    {&cw_calc_duration, "law=lognormal mean=22.5min variation=0.35", "p90", 32.8314, 5e-5, NULL,
     scipy},
    {&cw_calc_duration, "law=fixed likely=20min", "p90", 20.0, 0.0, NULL, "no chance"},
    /* Chains. */
    {&cw_calc_chain, PATH "by=25", "mean", 23.0, 1e-9, NULL, pert_notes},
    {&cw_calc_chain, PATH "by=25", "sd", 1.666667, 1e-6, NULL, pert_notes},
    {&cw_calc_chain, PATH "by=25", "by_share", 0.8849, 5e-5, NULL, "normal table at z = 1.2"},
    {&cw_calc_chain, PATH "by=20", "by_share", 0.0359, 5e-5, NULL, "normal table at z = -1.8"},
    {&cw_calc_chain, PATH "by=25", "p80", 24.40, 5e-3, NULL, "hand: 23 + 0.8416 x 1.6667"},
    {&cw_calc_chain, PATH "by=25", "p90", 25.14, 5e-3, NULL, "hand: 23 + 1.2816 x 1.6667"},
    {&cw_calc_chain, "low=2,3,4,2 likely=5,5,6,4 high=8,10,10,6 by=20", "mean", 20.8333, 5e-5, NULL,
     "university lecture on PERT networks: 20.83; activities 1-2, 3-4, 4-5, 5-6"},
    {&cw_calc_chain, "low=2,3,4,2 likely=5,5,6,4 high=8,10,10,6 by=20", "sd", 1.950783, 5e-6, NULL,
     "hand: root of 1 + 49/36 + 1 + 16/36 = 3.8056"},
    /* Networks; more in network_test.c. */
    {&cw_calc_network, "activities=A:6/B:2:A/C:2:A/D:3:B/F:2:C/E:4:D,F/G:1:E", "finish", 16, 1e-9,
     NULL, "critical path teaching example"},
    {&cw_calc_network, "activities=A:6/B:2:A/C:2:A/D:3:B/F:2:C/E:4:D,F/G:1:E", "critical", 5, 0,
     NULL, "the same: A B D E G"},
    {&cw_calc_network, NOTES, "finish", 23.0, 1e-3, NULL, pert_notes},
    {&cw_calc_network, NOTES, "sd", 1.6667, 5e-5, NULL, pert_notes},
    {&cw_calc_network, NOTES, "p80", 24.40, 5e-3, NULL, "hand: 23 + 0.8416 x 1.6667"},
    {&cw_calc_network, LECTURE, "finish", 20.8333, 1e-3, NULL,
     "university lecture on PERT networks: 20.83"},
    {&cw_calc_network, LECTURE, "sd", 1.950783, 5e-6, NULL, "the same path: variance 3.8056"},
    {&cw_calc_network, "activities=A:10/B:4:A~ss+3", "finish", 10, 1e-9, NULL, "hand"},
    {&cw_calc_network, "activities=A:10/B:4:A~ff+1", "finish", 11, 1e-9, NULL, "hand"},
    {&cw_calc_network, "activities=A:10/B:4:A~sf+12", "finish", 12, 1e-9, NULL, "hand"},
    {&cw_calc_network, "activities=A:10/B:4:A~fs-3", "finish", 11, 1e-9, NULL, "hand"},
    /* Trucks. */
    {&cw_calc_truck_cycle, "away=720min unload=480min trucks=2", "crane_use", 0.6897, 5e-5, NULL,
     repair},
    {&cw_calc_truck_cycle, "away=720min unload=480min trucks=2", "wait", 192.0, 0.05, NULL,
     "the same: 3.2 h"},
    {&cw_calc_truck_cycle, LOOP "trucks=1", "steady_loads", 0.366, 5e-4, NULL, "hand: 60/164"},
    {&cw_calc_truck_cycle, LOOP "trucks=3", "steady_loads", 1.098, 5e-4, NULL, "hand: 180/164"},
    {&cw_calc_truck_cycle, LOOP "trucks=4", "steady_loads", 1.364, 5e-4, NULL, "hand: 60/44"},
    {&cw_calc_truck_cycle, LOOP "trucks=4", "trucks_full", 4, 0, NULL, "hand: 164/44 = 3.7"},
    {&cw_calc_truck_cycle, LOOP "trucks=1", "wait", 0.0, 1e-9, NULL, "nobody to wait for"},
    {&cw_calc_truck_cycle, LOOP "trucks=2", "wait", 11.80, 5e-3, NULL,
     "hand: N s r/(1 + r), r = 44/120"},
    {&cw_calc_truck_cycle, LOOP "trucks=3", "random_loads", 0.938, 5e-4, NULL,
     "finite-source formula, independent program"},
    {&cw_calc_truck_cycle, LOOP "trucks=6", "crane_use", 0.962, 5e-4, NULL,
     "finite-source formula, independent program"},
    {&cw_calc_truck_cycle, LOOP "trucks=6", "wait", 110.49, 5e-3, NULL,
     "finite-source formula, independent program"},
    {&cw_calc_crane_queue, "every=30min unload=22min", "use", 0.7333, 5e-5, NULL, "hand"},
    {&cw_calc_crane_queue, "every=30min unload=22min", "wait", 30.25, 1e-9, NULL,
     "hand: 0.7333 x 22/(2 x 0.2667)"},
    {&cw_calc_crane_queue, "every=30min unload=22min", "wait_random", 60.5, 1e-9, NULL, "hand"},
    /* Learning: Canadian Journal of Civil Engineering 21 (1994) 939-953, app. 2: 80 percent, 0.80,
       0.60, 0.64. */
    {&cw_calc_learning, "first=100min ratio=0.8 pieces=2 form=average", "average", 80.0, 1e-9, NULL,
     "CJCE 21 (1994) app. 2"},
    {&cw_calc_learning, "first=100min ratio=0.8 pieces=2 form=average", "last", 60.0, 1e-9, NULL,
     "CJCE 21 (1994) app. 2"},
    {&cw_calc_learning, "first=100min ratio=0.8 pieces=4 form=average", "average", 64.0, 1e-9, NULL,
     "CJCE 21 (1994) app. 2"},
    {&cw_calc_learning, "first=30min ratio=0.9 pieces=12", "total", 281.23, 5e-3, NULL,
     "independent program"},
    {&cw_calc_learning, "first=30min ratio=0.9 pieces=12", "last", 20.563, 5e-4, NULL,
     "hand: 30 x 12^log2(0.9)"},
    {&cw_calc_learning, "first=30min ratio=0.9 pieces=12 form=average", "total", 246.75, 5e-3, NULL,
     "hand: 12 x 20.563"},
    {&cw_calc_learning, "first=30min ratio=0.9 pieces=12 form=average", "last", 17.551, 5e-4, NULL,
     "independent program"},
    {&cw_calc_learning, "first=30min ratio=0.9 pieces=64 least=22min", "last", 22.0, 0.0, NULL,
     "floor"},
    /* Weather: negative binomial. */
    {&cw_calc_weather_days, "needed=10 good=0.8 by=14", "mean", 12.5, 1e-9, NULL, "hand: W/p"},
    {&cw_calc_weather_days, "needed=10 good=0.8 by=14", "sd", 1.767767, 1e-6, NULL,
     "hand: root of W(1-p)/p^2 = 3.125"},
    {&cw_calc_weather_days, "needed=10 good=0.8 by=14", "by_share", 0.8702, 5e-5, NULL, scipy},
    {&cw_calc_weather_days, "needed=10 good=0.8 by=14", "p10", 10, 0, NULL, scipy},
    {&cw_calc_weather_days, "needed=10 good=0.8 by=14", "p50", 12, 0, NULL, scipy},
    {&cw_calc_weather_days, "needed=10 good=0.8 by=14", "p80", 14, 0, NULL, scipy},
    {&cw_calc_weather_days, "needed=10 good=0.8 by=14", "p90", 15, 0, NULL, scipy},
    {&cw_calc_weather_days, "needed=5 good=1", "p90", 5, 0, NULL, "no bad day"},
    {&cw_calc_weather_days, "needed=10 good=0.8 persistence=0.3 by=14", "mean", 12.607, 0.01, NULL,
     "400,000 chains drawn with numpy"},
    {&cw_calc_weather_days, "needed=10 good=0.8 persistence=0.3 by=14", "sd", 2.451, 0.01, NULL,
     "400,000 chains drawn with numpy"},
    {&cw_calc_weather_days, "needed=10 good=0.8 persistence=0.3 by=14", "by_share", 0.8100, 0.003,
     NULL, "400,000 chains drawn with numpy"},
    /* Calendar, hand: 48 is 9 weeks and 3 days. */
    {&cw_calc_work_days, "days=48", "calendar_days", 66, 0, NULL, "hand"},
    {&cw_calc_work_days, "days=45.2", "calendar_days", 64, 0, NULL, "hand: 46 days"},
    {&cw_calc_work_days, "days=11.3", "calendar_days", 16, 0, NULL, "hand: 12 days"},
    {&cw_calc_work_days, "days=2.43", "calendar_days", 3, 0, NULL, "hand"},
    {&cw_calc_work_days, "days=1 start=saturday", "calendar_days", 3, 0, NULL, "hand: Monday"},
    {&cw_calc_work_days, "days=7 days_per_week=7 start=sunday", "calendar_days", 7, 0, NULL,
     "hand"},
    /* Cast in place, hand: base 4, 8, 12; wall 10, 15, 20; top 18, 30, 42; free 24, 36, 48. */
    {&cw_calc_cast_line, "segments=3", "base_end", 12, 1e-9, NULL, "hand"},
    {&cw_calc_cast_line, "segments=3", "wall_end", 20, 1e-9, NULL, "hand"},
    {&cw_calc_cast_line, "segments=3", "top_end", 42, 1e-9, NULL, "hand"},
    {&cw_calc_cast_line, "segments=3", "days", 48, 1e-9, NULL, "hand"},
    {&cw_calc_cast_line, "segments=1", "days", 24, 1e-9, NULL, "hand"},
    /* Progress. */
    {&cw_calc_progress, "planned=2.4,8 periods=1 earned=1.6 actual=3", "variance", -0.8, 1e-9, NULL,
     "earned-value teaching example: BAC 8, PV 2.4, EV 1.6, AC 3"},
    {&cw_calc_progress, "planned=2.4,8 periods=1 earned=1.6 actual=3", "cost_variance", -1.4, 1e-9,
     NULL, "the same"},
    {&cw_calc_progress, "planned=2.4,8 periods=1 earned=1.6 actual=3", "index", 0.6667, 5e-5, NULL,
     "the same"},
    {&cw_calc_progress, "planned=2.4,8 periods=1 earned=1.6 actual=3", "cost_index", 0.5333, 5e-5,
     NULL, "the same"},
    {&cw_calc_progress, "planned=2.4,8 periods=1 earned=1.6 actual=3", "to_go_index", 1.28, 1e-9,
     NULL, "the same"},
    {&cw_calc_progress, "planned=55,100 periods=1 earned=50 actual=45", "index", 0.9091, 5e-5, NULL,
     "hand: 50/55"},
    {&cw_calc_progress, "planned=55,100 periods=1 earned=50 actual=45", "cost_index", 1.1111, 5e-5,
     NULL, "hand: 50/45"},
    {&cw_calc_progress, "planned=55,100 periods=1 earned=50 actual=45", "cost_forecast", 90, 1e-9,
     NULL, "hand: 100/1.1111"},
    {&cw_calc_progress, "planned=10,30,60,90,100 periods=3 earned=45", "earned_periods", 2.5, 1e-9,
     NULL, "hand: 2 + 15/30"},
    {&cw_calc_progress, "planned=10,30,60,90,100 periods=3 earned=45", "time_index", 0.8333, 5e-5,
     NULL, "hand"},
    {&cw_calc_progress, "planned=10,30,60,90,100 periods=3 earned=45", "forecast", 6.0, 1e-9, NULL,
     "hand: 5/0.8333"},
    {&cw_calc_progress, "planned=10,30,60,90,100 periods=8 earned=100", "index", 1.0, 1e-9, NULL,
     "late, and yet 1"},
    {&cw_calc_progress, "planned=10,30,60,90,100 periods=8 earned=100", "time_index", 0.625, 1e-9,
     NULL, "hand: 5/8"},
    {&cw_calc_progress, "planned=10,100,100 periods=1 earned=100", "earned_periods", 2.0, 1e-9,
     NULL, "hand: the end of the first period that has it all"},
    {&cw_calc_setting_rate, "expected=25min weight=4 set=6 average=31min left=14", "rate", 28.6,
     1e-9, NULL, "hand: (100 + 186)/10"},
    {&cw_calc_setting_rate, "expected=25min weight=4 set=6 average=31min left=14", "time_left",
     6.67333, 1e-4, NULL, "hand: 14 x 28.6/60"},
};

static void values_come_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++)
        must_give(&values[i]);
}

static void bad_inputs_are_refused(void **state)
{
    (void)state;
    refuse(&cw_calc_duration, "law=beta low=15min likely=20min", CW_E_MISSING,
           "low, likely and high");
    refuse(&cw_calc_duration, "law=lognormal mean=20min", CW_E_MISSING, "mean and variation");
    refuse(&cw_calc_duration, "law=fixed", CW_E_MISSING, "likely");
    refuse(&cw_calc_duration, "law=triangular low=25min likely=20min high=40min", CW_E_GEOMETRY,
           "25|20|40|order");
    refuse(&cw_calc_duration, "law=beta low=20min likely=20min high=20min", CW_E_GEOMETRY, "below");
    refuse(&cw_calc_network, "activities=A:6/B:2:C", CW_E_SYNTAX, "no activity of this name|C");
    refuse(&cw_calc_network, "activities=A:6/A:2", CW_E_SYNTAX, "twice");
    refuse(&cw_calc_network, "activities=A:6/B", CW_E_SYNTAX, "no colon|B");
    refuse(&cw_calc_network, "activities=A:6/:3", CW_E_SYNTAX, "no name");
    refuse(&cw_calc_network, "activities=A:6-7", CW_E_SYNTAX, "low-likely-high|6-7");
    refuse(&cw_calc_network, "activities=A:7-6-8", CW_E_SYNTAX, "in this order");
    refuse(&cw_calc_network, "activities=A:6/B:2:A~xy", CW_E_SYNTAX, "~fs|xy");
    refuse(&cw_calc_network, "activities=A:6/B:2:A~fs+", CW_E_SYNTAX, "no number");
    refuse(&cw_calc_network, "activities=A:6x", CW_E_SYNTAX, "left over");
    refuse(&cw_calc_network, "activities=A:6/B:2:A;", CW_E_SYNTAX, "left over");
    refuse(&cw_calc_network, "activities=A:2000", CW_E_SYNTAX, "no number from 0 to 1000");
    refuse(&cw_calc_network, "activities=A:6:C/B:2:A/C:1:B", CW_E_CONFLICT, "ring|A|B|C");
    refuse(&cw_calc_chain, "low=1,2 likely=2,3 high=3 by=5", CW_E_CONFLICT, "2 low|1 high");
    refuse(&cw_calc_chain, "low=1,4 likely=2,3 high=3,5 by=5", CW_E_GEOMETRY, "activity 2");
    refuse(&cw_calc_crane_queue, "every=20min unload=20min", CW_E_CONFLICT, "without end");
    refuse(&cw_calc_truck_cycle, "away=120min unload=44min trucks=61", CW_E_RANGE, "61|60");
    refuse(&cw_calc_progress, "planned=10,5 periods=1 earned=1", CW_E_GEOMETRY, "value 2|5|10");
    refuse(&cw_calc_progress, "planned=10,20 periods=1 earned=21", CW_E_CONFLICT, "21|20");
    refuse(&cw_calc_progress, "periods=1 earned=21", CW_E_MISSING, "planned");
}

/* ---- random numbers ---- */

/* Outputs of the split-mix generator from state 1234567, as collections of programming tasks print
 * them (from memory, not verified; they agree with an independent program). */
static void random_words_are_the_known_ones(void **state)
{
    (void)state;
    static const uint64_t known[] = {UINT64_C(6457827717110365317), UINT64_C(3203168211198807973),
                                     UINT64_C(9817491932198370423), UINT64_C(4593380528125082431),
                                     UINT64_C(16408922859458223821)};
    for (size_t i = 0; i < COUNT_OF(known); i++)
        assert_true(cw_random_word(1234567, i) == known[i]);
}

/* Shares of many runs and places are even (chi-square of 100 cells: 99 +- 14) and not correlated.
 */
static void random_shares_are_even(void **state)
{
    (void)state;
    enum { CELLS = 100, RUNS = 400, PLACES = 250 };
    int counts[CELLS] = {0};
    double product = 0.0, along = 0.0;
    for (int r = 0; r < RUNS; r++) {
        const uint64_t run = cw_random_run(7, r), next = cw_random_run(7, r + 1);
        for (uint64_t k = 0; k < PLACES; k++) {
            const double u = cw_random_share(run, k);
            counts[(int)(u * CELLS)]++;
            product += (u - 0.5) * (cw_random_share(next, k) - 0.5);
            along += (u - 0.5) * (cw_random_share(run, k + 1) - 0.5);
        }
    }
    const double mean = (double)RUNS * PLACES / CELLS;
    double chi = 0.0;
    for (int i = 0; i < CELLS; i++)
        chi += (counts[i] - mean) * (counts[i] - mean) / mean;
    if (!(chi > 50.0 && chi < 160.0))
        fail_msg("chi-square %.1f of 99 degrees", chi);
    // Of 100,000 products each with standard deviation 1/12: five of their sums' deviations.
    near("product of neighbouring runs", product, 0.0, 5.0 * sqrt((double)RUNS * PLACES) / 12.0);
    near("product along a run", along, 0.0, 5.0 * sqrt((double)RUNS * PLACES) / 12.0);
}

/* ---- laws ---- */

static void normal_quantiles(void **state)
{
    (void)state;
    static const struct {
        double share, z;
    } rows[] = {{1e-12, -7.034483825301131},
                {0.001, -3.090232306167813},
                {0.1, -1.2815515655446004},
                {0.3, -0.5244005127080409},
                {0.5, 0.0},
                {0.8, 0.8416212335729143},
                {0.975, 1.959963984540054}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        near("normal quantile (scipy.stats)", cw_normal_quantile(rows[i].share), rows[i].z, 1e-11);
        near("and back", cw_normal_share(rows[i].z), rows[i].share, 1e-12);
    }
}

static cw_law any_law(uint64_t *seed, int kind)
{
    cw_law law = {.kind = kind, .low = between(seed, 0.0, 50.0)};
    law.high = law.low + between(seed, 1.0, 100.0);
    law.likely = law.low + (law.high - law.low) * (kind % 2 ? next_random(seed) : 0.0);
    if (next_random(seed) < 0.8)
        law.likely = between(seed, law.low, law.high);
    law.mean = between(seed, 1.0, 100.0);
    law.variation = between(seed, 0.05, 1.0);
    return law;
}

/* Share of the quantile is the share; the mean of even quantiles is the mean; the variance
 * likewise. */
static void laws_hold_together(void **state)
{
    (void)state;
    enum { CELLS = 4000 };
    uint64_t seed = 20260302u;
    for (int i = 0; i < 60; i++) {
        const cw_law law = any_law(&seed, 1 + i % 3);
        assert_true(cw_law_valid(&law));
        double sum = 0.0, squares = 0.0, last = 0.0;
        for (int k = 0; k < CELLS; k++) {
            const double share = (k + 0.5) / CELLS, x = cw_law_quantile(&law, share);
            near("share of the quantile", cw_law_share(&law, x), share, 1e-9);
            assert_true(x >= last);
            last = x;
            sum += x;
            squares += x * x;
        }
        const double mean = sum / CELLS, sd = sqrt(cw_law_variance(&law));
        near("mean", mean, cw_law_mean(&law), 4e-3 * sd);
        near("variance", squares / CELLS - mean * mean, sd * sd, 0.05 * sd * sd);
    }
}

/* The grid is within a thousandth of a standard deviation, and rises. */
static void samplers_are_close(void **state)
{
    (void)state;
    uint64_t seed = 20260303u;
    for (int i = 0; i < 60; i++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_law law = any_law(&seed, i % 4);
        const cw_sampler sampler = cw_sampler_make(&law, &arena);
        const double sd = sqrt(cw_law_variance(&law));
        double worst = 0.0, last = 0.0;
        for (int k = 0; k < 3000; k++) {
            const double share = (k + 0.37) / 3000.0, x = cw_sampler_at(&sampler, share);
            worst = fmax(worst, fabs(x - cw_law_quantile(&law, share)));
            assert_true(x >= last - 1e-12 * fabs(last));
            last = x;
        }
        near("grid against the law", worst, 0.0, 1e-3 * sd + 1e-12);
        cw_arena_release(&arena);
    }
}

/* ---- spreads ---- */

static void spread_by_hand(void **state)
{
    (void)state;
    double ten[] = {7, 1, 3, 9, 5, 2, 8, 4, 10, 6};
    const cw_figures got = cw_figures_of(ten, 10);
    near("mean", got.mean, 5.5, 1e-12);
    near("sd", got.sd, 3.027650354, 1e-9); // hand: root of 82.5/9
    near("P10", got.p10, 1.0, 0.0);
    near("P50", got.p50, 5.0, 0.0);
    near("P80", got.p80, 8.0, 0.0);
    near("P90", got.p90, 9.0, 0.0);
    near("share under 4", cw_figures_share(ten, 10, 4.0), 0.4, 1e-12);
    near("share under 0", cw_figures_share(ten, 10, 0.0), 0.0, 0.0);
    double many[1000];
    for (int i = 0; i < 1000; i++)
        many[i] = i + 1;
    const cw_figures band = cw_figures_of(many, 1000);
    near("low rank", band.p80_low, 775.0, 0.0); // binomial band of 1000 runs, hand: 800 -+ 24.8
    near("high rank", band.p80_high, 825.0, 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out),
        cmocka_unit_test(bad_inputs_are_refused),
        cmocka_unit_test(random_words_are_the_known_ones),
        cmocka_unit_test(random_shares_are_even),
        cmocka_unit_test(normal_quantiles),
        cmocka_unit_test(laws_hold_together),
        cmocka_unit_test(samplers_are_close),
        cmocka_unit_test(spread_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
