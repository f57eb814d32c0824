/* Sealant, fluid fill, maturity, backfill and weather against hand values and integration. */
#include "../base/calc_test_help.h"

#include "cw/closing.h"

#define ROPE "annulus_min=0.5in face=6in compression=50% "
#define FORM "mix=plain "
#define EIGHT "times=12h,24h,48h,72h,96h temperatures=10C,22C,18C,12C,8C "
#define CURVE "curve=hyperbola final=4500psi rate=0.035 start=6 "
#define FILL "outside_width=164in outside_height=116in slope=1:1 depth=116in length=120ft lift=6in "
#define CONE                                                                                       \
    "sand_before=14.72lb sand_after=5.96lb cone=3.44lb sand_weight=88pcf soil=7.31lb "             \
    "moisture=12.4% maximum=112.5pcf "

static const expected values[] = {
    /* Rope, hand: 1 - 0.5/1; 1 x 1/0.5; 1 - 0.625/1; 1 - 0.5/1.25; 1.25^2/0.5. */
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in sizes=1in", "squeeze", 50.0, 1e-9, NULL,
     "hand"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in sizes=1in", "squeezed_width", 2.0, 1e-9, NULL,
     "hand"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in sizes=1in", "result", 0, 0, "fits", "hand"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.625in sizes=1in", "squeeze", 37.5, 1e-9, NULL,
     "hand"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.625in sizes=1in", "result", 0, 0, "too-low",
     "hand"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in sizes=1.25in", "squeeze", 60.0, 1e-9, NULL,
     "hand"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in sizes=1.25in", "squeezed_width", 3.125, 1e-9,
     NULL, "hand"},
/* hand: 1.25 in is high enough for 0.625 in; it fills 1.5625/(0.25 x 4) = 1.56 of a tight joint;
 * 1 in fills 1.0 and seals 0.5 in. */
#define TIGHT "annulus_min=0.25in annulus_max=0.625in face=4in compression=50% "
    {&cw_calc_sealant_size, TIGHT, "size", 1.25, 1e-9, NULL, "hand"},
    {&cw_calc_sealant_size, TIGHT, "fill", 1.5625, 1e-9, NULL, "hand"},
    {&cw_calc_sealant_size, TIGHT, "result", 0, 0, "too-full", "hand"},
    {&cw_calc_sealant_size, TIGHT, "annulus_max_fit", 0.5, 1e-9, NULL, "hand"},
    {&cw_calc_sealant_size, TIGHT "sizes=2in", "annulus_max_fit", 0.0, 0.0, NULL, "hand"},
    {&cw_calc_sealant_size, TIGHT "width=0.5in", "result", 0, 0, "fits", "hand: 0.625/1.0"},
    {&cw_calc_sealant_size, TIGHT "width=0.5in rows=2", "result", 0, 0, "too-full", "hand: 1.25"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in", "temperature_check", 0, 0, "undecided",
     "not given"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in temperature=40degF", "temperature_check", 0, 0,
     "holds", "40 deg F exactly"},
    {&cw_calc_sealant_size, ROPE "annulus_max=0.5in temperature=39degF", "temperature_check", 0, 0,
     "fails", "common practice"},
    /* ACI 347-04 wall formulas worked by hand (coefficients from memory). */
    {&cw_calc_form_pressure, FORM "rate=5ft temperature=70degF height=12ft", "pressure", 792.9,
     0.05, NULL, "hand"},
    {&cw_calc_form_pressure, FORM "rate=6ft temperature=60degF height=10ft", "pressure", 1050.0,
     0.05, NULL, "hand"},
    {&cw_calc_form_pressure, "mix=middle rate=4ft temperature=50degF height=16ft", "pressure",
     1490.4, 0.05, NULL, "hand"},
    {&cw_calc_form_pressure, FORM "rate=10ft temperature=70degF height=12ft", "pressure", 1170.0,
     0.05, NULL, "hand"},
    {&cw_calc_form_pressure, FORM "rate=3ft temperature=80degF height=9ft", "pressure", 600.0, 0.05,
     NULL, "hand"},
    {&cw_calc_form_pressure, FORM "rate=3ft temperature=80degF height=9ft", "by", 0, 0, "least",
     "hand: 487.5 from the formula"},
    {&cw_calc_form_pressure, FORM "unit_weight=130pcf rate=4ft temperature=70degF height=12ft",
     "weight_factor", 0.948, 5e-4, NULL, "hand"},
    {&cw_calc_form_pressure, FORM "unit_weight=130pcf rate=4ft temperature=70degF height=12ft",
     "pressure", 629.9, 0.05, NULL, "hand"},
    {&cw_calc_form_pressure, FORM "unit_weight=60pcf rate=4ft temperature=70degF height=12ft",
     "weight_factor", 0.8, 1e-9, NULL, "least of the source"},
    {&cw_calc_form_pressure, FORM "unit_weight=174pcf rate=4ft temperature=70degF height=12ft",
     "weight_factor", 1.2, 1e-9, NULL, "hand"},
    {&cw_calc_form_pressure, FORM "rate=8ft temperature=70degF height=4ft", "pressure", 600.0, 0.05,
     NULL, "hand: w h"},
    {&cw_calc_form_pressure, FORM "rate=8ft temperature=70degF height=3.9ft", "by", 0, 0,
     "head-limit", "hand: 585 below 600"},
    {&cw_calc_form_pressure, FORM "rate=5ft temperature=70degF height=12ft slump=8in", "pressure",
     1800.0, 0.05, NULL, "hand: w h"},
    {&cw_calc_form_pressure, FORM "rate=5ft temperature=70degF height=12ft vibrated=no", "by", 0, 0,
     "full-head", "ACI 347-04"},
    {&cw_calc_form_pressure, FORM "rate=16ft temperature=70degF height=12ft", "by", 0, 0,
     "full-head", "ACI 347-04"},
    {&cw_calc_form_pressure, FORM "rate=15ft temperature=70degF height=12ft", "by", 0, 0,
     "high-rate", "ACI 347-04"},
/* Fluid of 130 lb/ft3, hand: 65 h^2 and 21.667 h^3. */
#define FLUID "mix=flowable unit_weight=130pcf rate=5ft "
    {&cw_calc_form_pressure, FLUID "height=3ft", "thrust", 585.0, 0.5, NULL, "hand"},
    {&cw_calc_form_pressure, FLUID "height=4ft", "thrust", 1040.0, 0.5, NULL, "hand"},
    {&cw_calc_form_pressure, FLUID "height=5ft", "thrust", 1625.0, 0.5, NULL, "hand"},
    {&cw_calc_form_pressure, FLUID "height=6ft", "thrust", 2340.0, 0.5, NULL, "hand"},
    {&cw_calc_form_pressure, FLUID "height=3ft", "moment", 585.0, 0.5, NULL, "hand"},
    {&cw_calc_form_pressure, FLUID "height=4ft", "moment", 1387.0, 0.5, NULL, "hand"},
    {&cw_calc_form_pressure, FLUID "height=5ft", "moment", 2708.0, 0.5, NULL, "hand"},
    {&cw_calc_form_pressure, FLUID "height=6ft", "moment", 4680.0, 0.5, NULL, "hand"},
    /* Maturity, ASTM C1074 formulas by hand: factors 0.4606, 0.9444, 0.7483, 0.5214, 0.4063. */
    {&cw_calc_maturity, EIGHT, "equivalent_age", 57.08, 0.005, NULL, "hand"},
    {&cw_calc_maturity, EIGHT, "maturity", 1296.0, 1e-6, NULL, "hand"},
    {&cw_calc_maturity, EIGHT "datum=14degF", "maturity", 2256.0, 1e-6, NULL, "hand: -10 deg C"},
    {&cw_calc_maturity, EIGHT "reference=20C", "equivalent_age", 67.85, 0.005, NULL, "hand"},
    {&cw_calc_maturity, "times=12h,24h temperatures=20C,25C", "maturity", 540.0, 1e-6, NULL,
     "hand"},
    {&cw_calc_maturity, "times=12h,24h temperatures=20C,-5C", "maturity", 240.0, 1e-6, NULL,
     "hand: never negative"},
    {&cw_calc_maturity, "times=12h,24h temperatures=20C,-5C", "cold_time", 12.0, 1e-9, NULL,
     "hand"},
    {&cw_calc_maturity, "times=0h,10h,20h temperatures=10C,20C,30C readings=yes", "maturity", 400.0,
     1e-6, NULL, "hand: 150 + 250"},
    {&cw_calc_strength_time, CURVE "now=57.08 target=2400psi", "strength", 2886.0, 0.5, NULL,
     "hand"},
    {&cw_calc_strength_time, CURVE "now=57.08 target=2400psi", "state", 0, 0, "reached", "hand"},
    {&cw_calc_strength_time, CURVE "now=57.08 target=2400psi", "needed", 38.65, 0.005, NULL,
     "hand"},
    {&cw_calc_strength_time, CURVE "now=28.65 target=2400psi", "wait", 10.0, 0.005, NULL,
     "hand: at 73.4 deg F an hour is an hour"},
    {&cw_calc_strength_time, CURVE "now=28.65 target=2400psi temperature=50degF", "wait", 21.71,
     0.02, NULL, "hand: 10/0.4606"},
    {&cw_calc_strength_time, CURVE "now=28.65 target=2400psi temperature=30degF", "state", 0, 0,
     "never", "at the datum"},
    {&cw_calc_strength_time, CURVE "now=28.65 target=4500psi", "state", 0, 0, "never",
     "final strength"},
    {&cw_calc_strength_time, CURVE "now=5 target=100psi", "strength", 0.0, 0.0, NULL, "before set"},
    {&cw_calc_strength_time,
     "curve=log measure=maturity a=-3000psi b=1800psi now=1296 target=2000psi", "strength", 2603.0,
     0.5, NULL, "hand"},
    /* hand: 10^(5500/1800) = 1136.5 deg C h; 136.5/20. */
    {&cw_calc_strength_time,
     "curve=log measure=maturity a=-3000psi b=1800psi now=1000 target=2500psi temperature=20C",
     "wait", 6.823, 0.005, NULL, "hand"},
    {&cw_calc_strength_time, "curve=log a=-3000psi now=1000 target=2500psi", "state", 0, 0,
     "no-curve", "b is missing"},
    {&cw_calc_strength_time, "curve=log a=-3000psi now=1000 target=2500psi", "check", 0, 0,
     "undecided", "no curve"},
    {&cw_calc_strength_time,
     "curve=breaks break_ages=10,100,1000 break_strengths=1000psi,2000psi,3000psi now=50 "
     "target=1500psi",
     "state", 0, 0, "no-curve", "three breaks"},
/* hand: 1000 psi for each decade. */
#define BREAKS                                                                                     \
    "curve=breaks break_ages=10,100,1000,10000 break_strengths=1000psi,2000psi,3000psi,4000psi "
    {&cw_calc_strength_time, BREAKS "now=100 target=1500psi", "strength", 2000.0, 1e-6, NULL,
     "hand"},
    {&cw_calc_strength_time, BREAKS "now=100 target=2500psi", "needed", 316.228, 1e-3, NULL,
     "hand"},
    {&cw_calc_strength_time, BREAKS "now=100 target=4500psi", "extrapolated", 0, 0, "yes",
     "past the last break"},
    {&cw_calc_strength_time, BREAKS "now=100 target=4500psi", "check", 0, 0, "undecided",
     "past the last break"},
    /* Backfill, hand: 19.667 x 9.667 + 93.45 - 132.1 = 151.44; x 120/27; 116/6 in; 24/6. */
    {&cw_calc_backfill_lifts, FILL, "area", 151.44, 0.005, NULL, "hand"},
    {&cw_calc_backfill_lifts,
     "outside_width=164in outside_height=116in slope=1:1 depth=14ft length=120ft", "area", 339.22,
     0.005, NULL, "hand: 19.667 x 14 + 196 - 132.11, fill over the box"},
    {&cw_calc_backfill_lifts, FILL, "volume", 673.09, 0.05, NULL, "hand"},
    {&cw_calc_backfill_lifts, FILL, "lifts", 20, 0, NULL, "hand"},
    {&cw_calc_backfill_lifts, FILL, "lifts_apart", 4, 0, NULL, "hand"},
    {&cw_calc_backfill_lifts, FILL, "tests", 40, 0, NULL, "hand: 20 lifts, two sides"},
    {&cw_calc_backfill_lifts, FILL "tests_least=0", "tests", 3, 0, NULL, "hand: 673/250"},
    {&cw_calc_backfill_lifts, FILL "left=4ft right=2.5ft", "difference_now", 18.0, 1e-9, NULL,
     "hand"},
    {&cw_calc_backfill_lifts, FILL "left=4ft right=2ft", "difference_check", 0, 0, "holds",
     "24 in exactly"},
    {&cw_calc_backfill_lifts, FILL "left=4.1ft right=2ft", "difference_check", 0, 0, "fails",
     "hand"},
    {&cw_calc_backfill_lifts, FILL, "difference_check", 0, 0, "undecided", "not given"},
    {&cw_calc_backfill_lifts, FILL "tops_on=no left=1.8ft right=1.8ft", "height_check", 0, 0,
     "holds", "hand: 10 in and 1 ft"},
    {&cw_calc_backfill_lifts, FILL "tops_on=no left=1.9ft right=1.9ft", "height_check", 0, 0,
     "fails", "hand"},
    {&cw_calc_backfill_lifts, FILL "tops_on=no", "lifts_apart", 2, 0, NULL, "hand: 12/6"},
    /* Compaction, hand: 124.6/1.118; (14.72 - 5.96 - 3.44)/88; 7.31/V. */
    {&cw_calc_relative_compaction, "wet=124.6pcf moisture=11.8% maximum=116pcf", "dry", 111.45,
     0.005, NULL, "hand"},
    {&cw_calc_relative_compaction, "wet=124.6pcf moisture=11.8% maximum=116pcf", "relative", 96.1,
     0.05, NULL, "hand"},
    {&cw_calc_relative_compaction, "wet=124.6pcf moisture=11.8% maximum=118pcf", "check", 0, 0,
     "fails", "hand: 94.4"},
    {&cw_calc_relative_compaction, "wet=124.6pcf moisture=11.8% maximum=116pcf", "moisture_check",
     0, 0, "undecided", "no optimum"},
    {&cw_calc_relative_compaction, "wet=124.6pcf moisture=11.8% maximum=116pcf optimum=13.8%",
     "moisture_check", 0, 0, "holds", "2 percent"},
    {&cw_calc_relative_compaction, "wet=124.6pcf moisture=11.8% maximum=116pcf optimum=9.7%",
     "moisture_check", 0, 0, "fails", "hand"},
    {&cw_calc_sand_cone, CONE, "hole", 0.06045, 5e-6, NULL, "hand"},
    {&cw_calc_sand_cone, CONE, "wet", 120.92, 0.005, NULL, "hand"},
    {&cw_calc_sand_cone, CONE, "dry", 107.58, 0.005, NULL, "hand"},
    {&cw_calc_sand_cone, CONE, "relative", 95.6, 0.05, NULL, "hand"},
    {&cw_calc_sand_cone, CONE, "check", 0, 0, "holds", "95 percent"},
/* Weather. */
#define COLD "air=28degF air_mean=33degF frozen=no "
    {&cw_calc_concrete_temperature, COLD "concrete=55degF least=10in", "check", 0, 0, "holds",
     "ACI 306R: 55 under 12 in"},
    {&cw_calc_concrete_temperature, COLD "concrete=54degF least=10in", "check", 0, 0, "fails",
     "ACI 306R"},
    {&cw_calc_concrete_temperature, COLD "concrete=54degF least=12in", "placed", 50.0, 0, NULL,
     "ACI 306R: 12 to 36 in"},
    {&cw_calc_concrete_temperature, COLD "concrete=54degF least=10in", "mixed", 65.0, 0, NULL,
     "ACI 306R: air 0 to 30"},
    {&cw_calc_concrete_temperature,
     "air=-1degF air_mean=5degF frozen=no concrete=60degF least=80in", "mixed", 55.0, 0, NULL,
     "ACI 306R: below 0, over 72 in"},
    {&cw_calc_concrete_temperature,
     "air=31degF air_mean=39degF frozen=no concrete=60degF least=40in", "mixed", 50.0, 0, NULL,
     "ACI 306R: above 30, 36 to 72 in"},
    {&cw_calc_concrete_temperature,
     "air=31degF air_mean=40degF frozen=no concrete=45degF least=10in", "cold", 0, 0, "no",
     "ACI 306R: mean of 40"},
    {&cw_calc_concrete_temperature,
     "air=60degF air_mean=60degF frozen=yes concrete=60degF least=10in", "check", 0, 0, "fails",
     "frozen ground"},
    {&cw_calc_concrete_temperature,
     "air=95degF air_mean=88degF frozen=no concrete=96degF least=10in", "check", 0, 0, "fails",
     "ACI 305.1: 95 at discharge"},
    {&cw_calc_evaporation, "concrete=90degF air=80degF humidity=50% wind=10mph", "rate", 0.241,
     5e-4, NULL, "hand"},
    {&cw_calc_evaporation, "concrete=85degF air=90degF humidity=30% wind=15mph", "rate", 0.305,
     5e-4, NULL, "hand"},
    {&cw_calc_evaporation, "concrete=85degF air=90degF humidity=30% wind=15mph", "check", 0, 0,
     "fails", "0.2 lb/ft2 in an hour"},
    {&cw_calc_evaporation, "concrete=50degF air=90degF humidity=90% wind=15mph", "rate", 0.0, 0.0,
     NULL, "water condenses"},
};

static void values_come_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++)
        must_give(&values[i]);
}

static const uint64_t first_seed = 20260302u;

/* Thrust and moment of the envelope against slices of it. */
static void envelope_matches_slices(void **state)
{
    (void)state;
    enum { SLICES = 4000 };
    uint64_t seed = first_seed;
    for (int i = 0; i < 100; i++) {
        const cw_pressure_input in = {.unit_pcf = between(&seed, 90.0, 160.0),
                                      .height_ft = between(&seed, 2.0, 25.0),
                                      .rate_ft_per_h = between(&seed, 1.0, 18.0),
                                      .temperature_f = between(&seed, 40.0, 90.0),
                                      .mix = i % CW_MIXES,
                                      .slump_in = 4.0,
                                      .vibrated = i % 3 != 0};
        const cw_pressure got = cw_closing_pressure(&in, &cw_data, NULL);
        double thrust = 0.0, moment = 0.0;
        for (int k = 0; k < SLICES; k++) {
            const double y = in.height_ft * (k + 0.5) / SLICES;
            const double force = fmin(in.unit_pcf * y, got.pressure_psf) * in.height_ft / SLICES;
            thrust += force;
            moment += force * (in.height_ft - y);
        }
        near("thrust lb/ft", got.thrust_lb_per_ft, thrust, 1e-5 * thrust);
        near("moment ft lb", got.moment_ft_lb, moment, 1e-5 * moment);
        assert_true(got.pressure_psf <= got.head_psf + 1e-9);
    }
}

/* The sums do not depend on how the intervals are cut. */
static void maturity_adds_over_split_intervals(void **state)
{
    (void)state;
    const cw_maturity_law law = {32.0, 5000.0, 73.4};
    uint64_t seed = first_seed + 2;
    for (int i = 0; i < 300; i++) {
        cw_maturity_span whole[6], parts[12];
        for (int k = 0; k < 6; k++) {
            whole[k] = (cw_maturity_span){between(&seed, 0.5, 24.0), between(&seed, 10.0, 130.0)};
            const double share = next_random(&seed);
            parts[2 * k] = (cw_maturity_span){whole[k].hours * share, whole[k].temperature_f};
            parts[2 * k + 1] =
                (cw_maturity_span){whole[k].hours * (1.0 - share), whole[k].temperature_f};
        }
        const cw_maturity a = cw_closing_maturity(whole, 6, &law),
                          b = cw_closing_maturity(parts, 12, &law);
        near("hours", b.hours, a.hours, 1e-9);
        near("deg C h", b.maturity_ch, a.maturity_ch, 1e-6);
        near("age h", b.equivalent_h, a.equivalent_h, 1e-6);
        near("cold h", b.cold_h, a.cold_h, 1e-9);
        // And over the log cut in two.
        const cw_maturity first = cw_closing_maturity(whole, 3, &law),
                          rest = cw_closing_maturity(whole + 3, 3, &law);
        near("two logs h", first.equivalent_h + rest.equivalent_h, a.equivalent_h, 1e-9);
        near("two logs deg C h", first.maturity_ch + rest.maturity_ch, a.maturity_ch, 1e-9);
    }
}

/* Strength at the needed age is the target. */
static void needed_age_gives_the_target(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 3;
    for (int i = 0; i < 500; i++) {
        cw_strength_input in = {.curve = i % 2 ? CW_CURVE_LOG : CW_CURVE_HYPERBOLA,
                                .now = 1.0,
                                .temperature_f = 73.4,
                                .law = {32.0, 5000.0, 73.4},
                                .has_final = true,
                                .has_rate = true,
                                .has_start = true,
                                .has_a = true,
                                .has_b = true,
                                .final_psi = between(&seed, 3000.0, 9000.0),
                                .rate = between(&seed, 0.01, 0.2),
                                .start = between(&seed, 2.0, 8.0),
                                .a_psi = -3000.0,
                                .b_psi = between(&seed, 800.0, 2500.0)};
        in.target_psi = between(&seed, 500.0, 2900.0);
        const cw_strength before = cw_closing_strength(&in, NULL);
        assert_int_equal(before.state, CW_STRENGTH_LATER);
        near("wait h", before.wait_h, before.needed - in.now, 1e-6 * before.needed);
        in.now = before.needed;
        const cw_strength there = cw_closing_strength(&in, NULL);
        near("strength psi", there.strength_psi, in.target_psi, 1e-6 * in.target_psi);
        assert_int_equal(there.state, CW_STRENGTH_REACHED);
    }
}

/* Least squares: no other line through the breaks has a smaller sum of squares. */
static void fitted_curve_is_the_best_line(void **state)
{
    (void)state;
    // Independent sums: uncentred normal equations.
    static const double x[] = {1.0, 1.5, 2.0, 3.0}, y[] = {1000.0, 1600.0, 2100.0, 2940.0};
    cw_strength_input in = {.curve = CW_CURVE_BREAKS,
                            .now = 100.0,
                            .target_psi = 1000.0,
                            .temperature_f = 73.4,
                            .law = {32.0, 5000.0, 73.4}};
    double mx = 0.0, my = 0.0, sxx = 0.0, sxy = 0.0;
    for (int i = 0; i < 4; i++) {
        in.break_ages.items[i] = pow(10.0, x[i]);
        in.break_psi.items[i] = y[i];
        mx += x[i] / 4.0;
        my += y[i] / 4.0;
    }
    in.break_ages.count = in.break_psi.count = 4;
    for (int i = 0; i < 4; i++) {
        sxx += x[i] * x[i] - mx * mx;
        sxy += x[i] * y[i] - mx * my;
    }
    near("strength psi", cw_closing_strength(&in, NULL).strength_psi, my + sxy / sxx * (2.0 - mx),
         1e-6);
    // Strengths that fall with age make no curve.
    in.break_psi.items[0] = 9000.0;
    assert_int_equal(cw_closing_strength(&in, NULL).state, CW_STRENGTH_NO_CURVE);
}

/* Of all listed sizes the least that fits is taken; when none fits, none does. */
static void rope_matches_trial_of_all_sizes(void **state)
{
    (void)state;
    static const double sizes[] = {1.5, 0.5, 0.75, 1.0, 0.625, 1.25, 0.875};
    uint64_t seed = first_seed + 4;
    for (int i = 0; i < 2000; i++) {
        cw_rope_input in = {.annulus_min_in = between(&seed, 0.15, 0.6),
                            .face_in = between(&seed, 2.0, 6.0),
                            .compression_percent = between(&seed, 20.0, 60.0),
                            .rows = 1 + i % 2,
                            .temperature_min_f = 40.0};
        in.annulus_max_in = in.annulus_min_in + between(&seed, 0.0, 0.4);
        in.sizes_in.count = (int)COUNT_OF(sizes);
        double best = 0.0;
        for (size_t k = 0; k < COUNT_OF(sizes); k++) {
            const double h = in.sizes_in.items[k] = sizes[k];
            const bool squeezed = 1.0 - in.annulus_max_in / h >= in.compression_percent / 100.0;
            const bool room = in.rows * h * h <= in.annulus_min_in * in.face_in;
            if (squeezed && room && (best == 0.0 || h < best))
                best = h;
        }
        const cw_rope got = cw_closing_rope(&in, NULL);
        assert_int_equal(got.state == CW_ROPE_FITS, best > 0.0);
        if (best > 0.0)
            near("size in", got.size_in, best, 0.0);
        assert_int_equal(got.annulus_max_in >= in.annulus_max_in, best > 0.0);
    }
}

static void a_gap_in_the_log_has_its_place(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_maturity_input in = {.longest_h = 1.0, .law = {32.0, 5000.0, 73.4}, .readings = true};
    static const double times[] = {0.0, 0.5, 1.0, 4.0, 4.5};
    in.times_h.count = in.temperatures_f.count = 5;
    for (int i = 0; i < 5; i++) {
        in.times_h.items[i] = times[i];
        in.temperatures_f.items[i] = 60.0;
    }
    assert_false(cw_maturity_input_valid(&in, (cw_pos){.file = "log.csv", .line = 7}, &diags));
    assert_int_equal(diags.count, 1);
    assert_string_equal(diags.items[0].where.path, "times[3]");
    assert_int_equal(diags.items[0].where.line, 7);
    assert_non_null(strstr(diags.items[0].message, "3 h before value 4, at 4 h"));
    cw_arena_release(&arena);
}

static void bad_input_is_refused(void **state)
{
    (void)state;
    refuse(&cw_calc_sealant_size, "annulus_min=0.6in annulus_max=0.5in face=4in", CW_E_CONFLICT,
           "exchange");
    refuse(&cw_calc_maturity, "times=12h,24h temperatures=20C", CW_E_CONFLICT,
           "2 times|1 temperatures");
    refuse(&cw_calc_maturity, "times=24h,12h temperatures=20C,20C", CW_E_GEOMETRY,
           "value 2|order the log");
    refuse(&cw_calc_maturity, "times=12h,48h temperatures=20C,20C", CW_E_GEOMETRY,
           "gap of 36 h|value 2");
    refuse(&cw_calc_maturity, "times=30h temperatures=20C", CW_E_GEOMETRY, "gap of 30 h|value 1");
    refuse(&cw_calc_maturity, "times=12h temperatures=20C readings=yes", CW_E_CONFLICT,
           "2 at least");
    refuse(&cw_calc_maturity, "times=12h temperatures=20", CW_E_UNIT, "temperatures");
    refuse(&cw_calc_strength_time,
           "curve=breaks break_ages=10,5 break_strengths=100psi,200psi now=5 target=100psi",
           CW_E_GEOMETRY, "value 2|order the breaks");
    refuse(&cw_calc_strength_time, "curve=breaks break_ages=10 now=5 target=100psi", CW_E_CONFLICT,
           "1 break_ages|0");
    refuse(&cw_calc_backfill_lifts, FILL "left=4ft", CW_E_MISSING, "left and right");
    refuse(&cw_calc_sand_cone,
           "sand_before=9lb sand_after=5.96lb cone=3.44lb sand_weight=88pcf soil=7lb moisture=12% "
           "maximum=112pcf",
           CW_E_GEOMETRY, "no hole");
    refuse(&cw_calc_form_pressure, "height=12ft rate=5ft mix=wet", CW_E_CHOICE, "plain");
    refuse(&cw_calc_evaporation, "concrete=90degF air=80degF humidity=50% wind=10", CW_E_UNIT,
           "wind");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out),
        cmocka_unit_test(envelope_matches_slices),
        cmocka_unit_test(maturity_adds_over_split_intervals),
        cmocka_unit_test(needed_age_gives_the_target),
        cmocka_unit_test(fitted_curve_is_the_best_line),
        cmocka_unit_test(rope_matches_trial_of_all_sizes),
        cmocka_unit_test(a_gap_in_the_log_has_its_place),
        cmocka_unit_test(bad_input_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
