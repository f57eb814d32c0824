/* Ground in whole jobs: the cut, line and grade, sealant, maturity, backfill.  Numbers by hand are
 * worked in the comments. */
#include "plan_test_help.h"

#include "cw/units.h"

#define HEAD                                                                                       \
    "format: 1\njob: {name: Ground, number: G}\nsurvey: {datum: Local, benchmark: BM 1, "          \
    "benchmark_elevation: 515.87 ft}\n"
#define WIDE_BOX                                                                                   \
    "box: {form: lid, span: 144 in, rise: 8 ft, wall: 10 in, floor: 10 in, top: 10 in, haunch: 8 " \
    "in}\n" /* 164 x 116 in */
#define SLIM_BOX                                                                                   \
    "box: {form: lid, span: 100 in, rise: 8 ft, wall: 10 in, floor: 10 in, top: 10 in, haunch: 8 " \
    "in}\n" /* 120 in wide */
#define SIX_FEET "pieces: {lengths: [6 ft], pick_limit: \"60,000 lb\"}\n"
/* n pieces of 72 in and n - 1 gaps of 1/2 in on a level grade: 10 make 724.5 in, 20 make 1449.5 in.
 */
#define TEN "run: {invert: 500 ft, slope: 0%, length: 724.5 in, overrun: 0 in}\n" SIX_FEET
#define TWENTY "run: {invert: 500 ft, slope: 0%, length: 1449.5 in, overrun: 0 in}\n" SIX_FEET
/* Subgrade 10 + 2 + 6 in under the invert: 498.5 ft. */
#define LEVEL(elevation)                                                                           \
    "ground: {profile: [{at: -10 ft, elevation: " elevation                                        \
    "}, {at: 200 ft, elevation: " elevation "}]}\n"
#define CLAY "{name: Clay, material: cohesive, strength: 1.0 tsf, disturbed: no, wet: no}"
#define SAND(more) "{name: Sand, material: granular, " more "disturbed: no, wet: no}"

static const cw_plan_cut *first_cut(const cw_plan *plan)
{
    assert_true(plan->trench.present && plan->trench.cut_count >= 2);
    return &plan->trench.cuts[0];
}

static bool undecided(const cw_plan *plan, const char *id)
{
    const cw_check *row = row_of(plan, id);
    return row && row->verdict == CW_UNDECIDED;
}

/* ---- words ---- */

static const cw_section *child(const cw_section *section, const char *key)
{
    for (int i = 0; i < section->child_count; i++)
        if (strcmp(section->children[i].key, key) == 0)
            return &section->children[i];
    fail_msg("no section %s", key);
    return NULL;
}

static const char *const *choices(const cw_field *fields, int count, const char *key)
{
    for (int i = 0; i < count; i++)
        if (strcmp(fields[i].key, key) == 0)
            return fields[i].choices;
    fail_msg("no field %s", key);
    return NULL;
}

static void same_words(const char *const *a, const char *const *b)
{
    int i = 0;
    for (; a[i]; i++)
        assert_string_equal(a[i], b[i]);
}

static void choices_are_those_of_the_calculators(void **state)
{
    (void)state;
    const cw_section *trench = child(&cw_job_format, "trench"),
                     *grade = child(&cw_job_format, "grade_control");
    const cw_section *soil = child(trench, "soil");
    const cw_calc *class = &cw_calc_soil_class, *earth = &cw_calc_earth_volumes,
                  *camber = &cw_calc_camber;
    same_words(choices(soil->fields, soil->field_count, "material"),
               choices(class->inputs, class->input_count, "material"));
    same_words(choices(soil->fields, soil->field_count, "dip"),
               choices(class->inputs, class->input_count, "dip"));
    same_words(choices(trench->fields, trench->field_count, "earth"),
               choices(earth->inputs, earth->input_count, "earth"));
    same_words(choices(grade->fields, grade->field_count, "camber_shape"),
               choices(camber->inputs, camber->input_count, "shape"));
}

/* ---- the cut ---- */

/* hand: b = 2 x 13.667 + 0.333 + 6 = 33.667 ft, D = 511.5 - 498.5 = 13 ft, class B 1:1: A = 33.667
 * x 13 + 169 = 606.67 ft2, T = 59.67 ft; constant along 60.375 ft: 1356.58 yd3 by both rules. */
static void level_cut_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, HEAD WIDE_BOX TEN LEVEL("511.5 ft") "barrels: {count: 2, clear_gap: 4 in}\n"
                                                    "trench: {soil: [" CLAY "], pay_line: 1 ft}\n");
    const cw_plan_cut *cut = first_cut(plan);
    assert_true(cut->dug && cut->drawn && cut->shape);
    NEAR(cut->subgrade_ft, 498.5, 1e-9);
    NEAR(cut->section.bottom_ft, 33.667, 5e-4);
    NEAR(cut->section.area_sqft, 606.67, 5e-3);
    NEAR(cut->section.top_ft, 59.667, 5e-4);
    assert_int_equal(cut->layers[0].soil.soil, CW_SOIL_B);
    NEAR(plan->trench.exact_cy, 606.6667 * 60.375 / 27.0, 0.01);
    NEAR(plan->trench.average_cy, plan->trench.exact_cy, 1e-6);
    // hand: both ends b z D^2 / 2 + 2/3 z z D^3 = 33.667 x 84.5 + 1464.67 = 4309.5 ft3 each.
    NEAR(plan->trench.ends_cy, 2.0 * (33.66667 * 84.5 + 2.0 / 3.0 * 2197.0) / 27.0, 0.01);
    // hand: 27.667 + 2 ft between the pay planes, 13 ft deep.
    NEAR(plan->trench.pay_cy, 29.66667 * 13.0 * 60.375 / 27.0, 0.01);
    // hand: 60.4 ft of cut, each ladder serves 25 ft both ways, two strips: 2 each.
    assert_int_equal(plan->trench.egress.total, 4);
    verdict_is(plan, "trench.depth", CW_HOLDS);
    cw_arena_release(&arena);
}

/* hand: b = 16 ft, z = 1, depth straight from 8 to 14 ft: average end area exceeds the prismoid by
 * z L 6^2 / 6. */
static void sloping_ground_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, HEAD SLIM_BOX TEN "ground: {profile: [{at: 0 ft, elevation: 506.5 ft}, "
                                          "{at: 60.375 ft, elevation: 512.5 ft}]}\n"
                                          "trench: {soil: [" CLAY "]}\n");
    NEAR(plan->trench.cuts[0].section.area_sqft, 192.0, 1e-6);
    NEAR(plan->trench.cuts[plan->trench.cut_count - 1].section.area_sqft, 420.0, 1e-6);
    NEAR(plan->trench.average_cy - plan->trench.exact_cy, 60.375 * 36.0 / 6.0 / 27.0, 1e-4);
    NEAR(plan->trench.average_cy, 60.375 * 306.0 / 27.0, 1e-4);
    assert_int_equal(plan->trench.deepest, plan->trench.cut_count - 1);
    cw_arena_release(&arena);
}

/* hand: bottom 5 ft class B, 6 ft class C over it, b = 16: A = 315 ft2, T = 44 ft; the other way
 * round the upper layer takes the slope of the lower: A = 357.5, T = 49. */
static void layers_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *weak_over =
        plan_of(&arena, HEAD SLIM_BOX TEN LEVEL("509.5 ft") "trench: {soil: [" SAND(
                            "thickness: 6 ft, ") ", " CLAY "]}\n");
    NEAR(first_cut(weak_over)->section.area_sqft, 315.0, 1e-6);
    NEAR(first_cut(weak_over)->section.top_ft, 44.0, 1e-6);
    const cw_plan *strong_over = plan_of(
        &arena, HEAD SLIM_BOX TEN LEVEL("509.5 ft") "trench:\n  vibration: no\n  soil:\n"
                                                    "    - {name: Caliche, material: cemented, "
                                                    "thickness: 6 ft, disturbed: no, wet: no}\n"
                                                    "    - " SAND("") "\n");
    NEAR(first_cut(strong_over)->section.area_sqft, 357.5, 1e-6);
    NEAR(first_cut(strong_over)->section.top_ft, 49.0, 1e-6);
    cw_arena_release(&arena);
}

/* A layer that ends within the run gets a section where it does, and the volume is that of both
 * stretches. */
static void layer_that_runs_out(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, HEAD SLIM_BOX TEN
                                  "ground: {profile: [{at: 0 ft, elevation: 502.5 ft}, {at: 60.375 "
                                  "ft, elevation: 510.5 ft}]}\n"
                                  "trench: {soil: [" SAND("thickness: 6 ft, ") ", " CLAY "]}\n");
    // hand: depth 4 to 12 ft; the sand is 6 ft thick, so clay comes in at a quarter of the run.
    bool found = false;
    for (int i = 0; i < plan->trench.cut_count; i++)
        found = found || fabs(plan->trench.cuts[i].at_ft - 60.375 / 4.0) < 1e-6;
    assert_true(found);
    // hand: first quarter 1.5:1 from 4 to 6 ft: areas 88, 113.5 (5 ft: 80 + 37.5 = 117.5), 150.
    const double first = 60.375 / 4.0 * (88.0 + 4.0 * 117.5 + 150.0) / 6.0;
    // hand: then clay d = 0, 3, 6 ft at 1:1 under 6 ft of sand: 16 d + d^2 + 6 (16 + 2 d) + 54:
    // 150, 243, 354.
    const double second = 60.375 * 0.75 * (150.0 + 4.0 * 243.0 + 354.0) / 6.0;
    NEAR(plan->trench.exact_cy, (first + second) / 27.0, 1e-3);
    cw_arena_release(&arena);
}

static void class_is_capped(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *old = plan_of(
        &arena,
        HEAD SLIM_BOX TEN LEVEL("509 ft") "trench: {vibration: no, soil: [{name: Old fill, "
                                          "material: cemented, disturbed: yes, wet: no}]}\n");
    assert_int_equal(first_cut(old)->layers[0].soil.soil, CW_SOIL_B);
    assert_int_equal(first_cut(old)->layers[0].soil.reason, CW_REASON_DISTURBED);
    const cw_plan *wet = plan_of(
        &arena, HEAD SLIM_BOX TEN LEVEL("509 ft") "trench: {soil: [" CLAY "]}\n"
                                                  "site_water: {groundwater: {level: 499 ft, base: "
                                                  "480 ft, permeability: 5 ft/day}}\n");
    assert_int_equal(first_cut(wet)->layers[0].soil.soil, CW_SOIL_C);
    assert_int_equal(first_cut(wet)->layers[0].soil.reason, CW_REASON_WATER);
    NEAR(first_cut(wet)->water_ft, 0.5, 1e-9);
    // 29 CFR 1926.652(b)(1): without a class 1.5:1.
    const cw_plan *none = plan_of(&arena, HEAD SLIM_BOX TEN LEVEL("509 ft"));
    NEAR(first_cut(none)->section.slope_top, 1.5, 0.0);
    verdict_is(none, "trench.soil-class", CW_HOLDS);
    assert_true(undecided(plan_of(&arena, HEAD SLIM_BOX TEN), "trench.ground"));
    cw_arena_release(&arena);
}

static void what_the_tables_do_not_hold(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // 22 ft deep: an engineer designs.
    assert_true(undecided(plan_of(&arena, HEAD SLIM_BOX TEN LEVEL("520.5 ft")), "trench.depth"));
    // Clay whose strength was not tested is class C and takes no benches.
    const cw_plan *bench = plan_of(
        &arena,
        HEAD SLIM_BOX TEN LEVEL("509 ft") "trench: {protection: bench, soil: [{name: Clay, "
                                          "material: cohesive, disturbed: no, wet: no}]}\n");
    verdict_is(bench, "trench.protection", CW_FAILS);
    // 29 CFR 1926.652(e)(2)(i): 2 ft under the shield at most.
    const cw_plan *shield = plan_of(
        &arena, HEAD SLIM_BOX TEN LEVEL(
                    "509 ft") "trench: {protection: shield, shield: 8 ft, below_shield: 3 ft}\n");
    verdict_is(shield, "trench.protection", CW_FAILS);
    const cw_plan *spoil = plan_of(
        &arena, HEAD SLIM_BOX TEN LEVEL(
                    "509 ft") "trench: {spoil_setback: 1 ft, egress: 40 ft, surcharge: yes}\n");
    verdict_is(spoil, "trench.spoil", CW_FAILS);
    verdict_is(spoil, "trench.egress", CW_FAILS);
    assert_true(undecided(spoil, "trench.soil-class"));
    // The ground lies under the subgrade: nothing is dug, and nothing fails.
    const cw_plan *fill = plan_of(&arena, HEAD SLIM_BOX TEN LEVEL("490 ft"));
    assert_int_equal(fill->trench.deepest, -1);
    verdict_is(fill, "trench.ground", CW_HOLDS);
    cw_arena_release(&arena);
}

/* ---- line and grade ---- */

/* hand: HI = 515.87 + 4.62 = 520.49; subgrade at the tenth joint 511.7615 (plan_test.c), so the rod
 * reads 8.728 ft. */
static void rods_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, HEAD JOB_BOX
        "run: {invert: 512.34 ft, slope: 1.25%, length: 96.6175 ft}\n"
        "bedding: {leveling: 0 in, thickness: 6 in}\n" SIX_FEET
        "grade_control:\n  backsight: 4.62 ft\n"
        "  loop: {backsights: [4.62 ft, 5 ft], foresights: [5.01 ft, 4.59 ft], length: 1 mi}\n");
    assert_true(plan->grade.has_instrument);
    NEAR(plan->grade.instrument_ft, 520.49, 1e-9);
    NEAR(plan->grade.instrument_ft - plan->barrels[0].joints[10].subgrade_ft, 8.728, 6e-4);
    NEAR(plan->grade.laser_percent, 1.25, 1e-9);
    assert_true(strstr(plan->grade.most_rod, "subgrade at 1 outlet") != NULL);
    // hand: 9.62 up and 9.60 down: 0.02 ft, and 0.05 ft is allowed for a mile.
    NEAR(plan->grade.loop.misclosure_ft, 0.02, 1e-9);
    verdict_is(plan, "grade.level-loop", CW_HOLDS);
    verdict_is(plan, "grade.rod", CW_HOLDS);
    const cw_plan *low = plan_of(
        &arena, HEAD JOB_BOX "run: {invert: 512.34 ft, slope: 1.25%, length: 96.6175 ft}\n" SIX_FEET
                             "grade_control: {backsight: 0.5 ft}\n");
    verdict_is(low, "grade.rod",
               CW_FAILS); // the wall top at the inlet lies at 517.5 ft, over HI 516.37 ft
    cw_arena_release(&arena);
}

/* hand: 20 pieces, mean gap excess 1/4 in: 19 x 0.25 = 4.75 in; sd sqrt(20 x 0.0833^2 + 19 x
 * 0.125^2) = 0.66 in, so 19 of 20 runs grow between 3.46 and 6.04 in.  Half of the 19 joints close
 * by 10 x (0.75 - 0.25) = 5 in, which does not make up for it. */
static void growth_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, HEAD WIDE_BOX TWENTY "grade_control: {growth: {gap: 3/4 in, gap_tolerance: "
                                             "3/8 in, length_tolerance: 1/4 in}}\n");
    const cw_plan_growth *growth = &plan->grade.growth[0];
    NEAR(growth->growth.growth_in, 4.75, 1e-9);
    NEAR(growth->growth.sd_in, 0.66, 0.005);
    NEAR(growth->growth.high_in, 4.75 + 1.96 * 0.6597, 0.01);
    assert_int_equal(growth->late_joints, 10);
    NEAR(growth->closed_in, 5.0, 1e-9);
    assert_int_equal(growth->order_by, 10);
    assert_int_equal(growth->last.state, CW_GAP_TOO_TIGHT);
    verdict_is(plan, "grade.growth", CW_FAILS);
    // As drawn, it holds: 10 joints close by 2.5 in.
    const cw_plan *drawn = plan_of(&arena, HEAD WIDE_BOX TWENTY);
    verdict_is(drawn, "grade.growth", CW_HOLDS);
    assert_int_equal(drawn->grade.growth[0].order_by, 0);
    cw_arena_release(&arena);
}

/* At either limit of the tape the gaps that are left are the limits of the joint, and the end
 * stands at its tolerance. */
static void tape_is_solved_again_after_each_piece(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, HEAD WIDE_BOX TWENTY);
    const double end_in = plan->barrels[0].laid_in, tolerance_in = plan->job->run.end_tolerance_in;
    for (int i = 0; i < 19; i++) {
        const cw_plan_tape *tape = &plan->grade.tape[0][i];
        assert_int_equal(tape->gaps, 19 - i);
        NEAR(tape->rest_ft, (19 - i) * 6.0, 1e-9);
        const double least_gap =
            (end_in + tolerance_in - (tape->most_ft + tape->rest_ft) * 12.0) / tape->gaps;
        const double most_gap =
            (end_in - tolerance_in - (tape->least_ft + tape->rest_ft) * 12.0) / tape->gaps;
        NEAR(least_gap, plan->job->joint.gap_min_in, 1e-9);
        NEAR(most_gap, plan->job->joint.gap_max_in, 1e-9);
        assert_true(tape->least_ft < tape->drawn_ft && tape->drawn_ft < tape->most_ft);
    }
    cw_arena_release(&arena);
}

/* hand: sd 1/8 in across 13.667 ft, advance 6.0417 ft, 20 pieces: a sd sqrt(n (n - 1)(2 n - 1)/6)/B
 * = 2.75 in at the end. */
static void heading_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, HEAD WIDE_BOX TWENTY
                                  "profile: {overrides: [{row: joint.gap_side_difference, value: "
                                  "0.375 in, because: test}]}\n");
    NEAR(plan->grade.growth[0].heading.end_sd_in, 2.75, 0.005);
    // hand: k = 7: 72.5 x 0.125/164 x sqrt(7 x 6 x 13/6) = 0.527 in, over 1/1.96 = 0.510; k = 6:
    // 0.410 in.
    assert_int_equal(plan->grade.growth[0].straight, 6);
    verdict_is(plan, "grade.heading", CW_HOLDS);
    cw_arena_release(&arena);
}

/* hand: m = 0.25 ft over L: 4 m x/L (1 - x/L); every level of a joint carries it, and the ends
 * none. */
static void camber_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
#define LONG HEAD WIDE_BOX "run: {invert: 500 ft, slope: 1%, length: 120.8 ft}\n" SIX_FEET
    const cw_plan *flat = plan_of(&arena, LONG);
    const cw_plan *plan =
        plan_of(&arena, LONG "grade_control: {camber: 0.25 ft, settlement: 0.25 ft}\n");
    const cw_plan_barrel *barrel = &plan->barrels[0];
    for (int i = 0; i <= barrel->base_count; i++) {
        const double share = barrel->joints[i].at.at_ft / barrel->line.length_ft,
                     rise = share * (1.0 - share);
        NEAR(barrel->joints[i].camber_ft, rise, 1e-9);
        NEAR(barrel->joints[i].subgrade_ft - flat->barrels[0].joints[i].subgrade_ft, rise, 1e-9);
        NEAR(barrel->joints[i].seat_ft - flat->barrels[0].joints[i].seat_ft, rise, 1e-9);
    }
    verdict_is(plan, "grade.camber-pond", CW_HOLDS);
    verdict_is(plan, "grade.camber-joints", CW_HOLDS);
    cw_arena_release(&arena);
}

static void stakes_stand_clear_and_square(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // North is upstream (azimuth 0), so left is west; hand: the edge stands 8 + 10.5 ft at 1:1 from
    // the centre, and 10 ft more.
    const cw_plan *plan = plan_of(
        &arena, HEAD SLIM_BOX TEN LEVEL("509 ft") "trench: {soil: [" CLAY
                                                  "]}\ngrade_control: {stake_side: both}\n");
    assert_int_equal(plan->grade.stake_count, 8); // 0, 25, 50 ft and the end, on both sides
    const cw_plan_stake *left = &plan->grade.stakes[1], *right = &plan->grade.stakes[5];
    NEAR(left->offset_ft, -28.5, 1e-9);
    NEAR(left->northing_ft, 25.0, 1e-9);
    NEAR(left->easting_ft, -28.5, 1e-9);
    NEAR(right->easting_ft, 28.5, 1e-9);
    NEAR(right->subgrade_ft, 498.5, 1e-9);
    cw_arena_release(&arena);
}

static void foot_is_declared(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
#define FAR(more)                                                                                  \
    "format: 1\njob: {name: G, number: G}\nsurvey: {northing: 640000 ft, easting: 1000 ft" more    \
    "}\n" WIDE_BOX TEN
    assert_true(undecided(plan_of(&arena, FAR("")), "survey.foot"));
    verdict_is(plan_of(&arena, FAR(", foot: us-survey")), "survey.foot", CW_HOLDS);
    cw_arena_release(&arena);
}

/* ---- closing ---- */

/* hand: shares 0.5 and 0.45 of 10 in leave 1/2 in, 1/16 either way: 0.4375 to 0.5625; half
 * compression asks for 1-1/8 in. */
static void sealant_fits_or_none_does(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, HEAD WIDE_BOX TEN
                "sealant: {sizes: [1 in, 1-1/4 in], width: 3/4 in, temperature: 30 F}\n");
    NEAR(plan->closing.annulus_min_in, 0.4375, 1e-9);
    NEAR(plan->closing.annulus_max_in, 0.5625, 1e-9);
    assert_int_equal(plan->closing.rope.state, CW_ROPE_FITS);
    NEAR(plan->closing.rope.size_in, 1.25, 0.0);
    verdict_is(plan, "sealant.size", CW_HOLDS);
    verdict_is(plan, "sealant.temperature", CW_FAILS);
    const cw_check *low =
        verdict_is(plan_of(&arena, HEAD WIDE_BOX TEN "sealant: {sizes: [1/2 in, 1 in]}\n"),
                   "sealant.size", CW_FAILS);
    assert_true(strstr(low->what, "No sealant fits") != NULL);
    // hand: 1-1/4 in square fills 1.5625/(0.4375 x 3) = 1.19 of the joint.
    const cw_plan *full = plan_of(&arena, HEAD WIDE_BOX TEN "sealant: {sizes: [1-1/4 in]}\n");
    assert_int_equal(full->closing.rope.state, CW_ROPE_TOO_FULL);
    verdict_is(full, "sealant.size", CW_FAILS);
    assert_true(undecided(plan_of(&arena, HEAD WIDE_BOX TEN), "sealant.size"));
    cw_arena_release(&arena);
}

/* hand (Q = 5000 K, 23 C): factors at 10, 22, 18, 12, 8 C are 0.4606, 0.9444, 0.7483, 0.5214,
 * 0.4063; after 48 h 34.82 h of equivalent age; 38.65 h come at 48 + (38.65 - 34.82)/0.5214 = 55.35
 * h, 57.08 h at 96 h.  Breaks on S = 500 log10 t: 793.6 psi. */
static void maturity_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
#define MIX(cure)                                                                                  \
    HEAD WIDE_BOX TEN "barrels: {count: 2, clear_gap: 4 in}\nfill_between:\n  strength_needed: "   \
                      "793.6 psi\n  cure: " cure "\n"                                              \
                      "  break_ages: [10 h, 20 h, 40 h, 80 h]\n"                                   \
                      "  break_strengths: [500 psi, 650.515 psi, 801.030 psi, 951.545 psi]\n"      \
                      "  forecast: [10 C, 22 C, 18 C, 18 C, 12 C, 12 C, 8 C, 8 C]\n"
    const cw_plan *plan = plan_of(&arena, MIX("56 h"));
    assert_true(plan->closing.has_strength && plan->closing.reached);
    NEAR(plan->closing.maturity.equivalent_h, 57.08, 0.01);
    NEAR(plan->closing.strength.needed, 38.65, 0.02);
    NEAR(plan->closing.release_h, 55.35, 0.05);
    verdict_is(plan, "fill.cure", CW_HOLDS);
    const cw_plan *soon = plan_of(&arena, MIX("24 h"));
    verdict_is(soon, "fill.cure", CW_FAILS);
    const cw_plan *none =
        plan_of(&arena, HEAD WIDE_BOX TEN "barrels: {count: 2, clear_gap: 4 in}\n");
    assert_true(strstr(verdict_is(none, "fill.cure", CW_UNDECIDED)->where,
                       "no curve: strength not estimated") != NULL);
    // One barrel has no such fill.
    assert_null(row_of(plan_of(&arena, HEAD WIDE_BOX TEN), "fill.cure"));
    cw_arena_release(&arena);
}

/* hand: one barrel, 3 ft of working space, Ho = D = 9.667 ft, z = 1, no bedding: b D + D^2 - Bo Ho
 * = 19.667 x 9.667 + 93.44 - 132.11 = 151.44 ft2; 116 in of 6 in lifts: 20; 24 in of difference: 4
 * lifts. */
static void backfill_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, HEAD WIDE_BOX TEN
                "bedding: {thickness: 0 in, leveling: 0 in}\n"
                "ground: {profile: [{at: 0 ft, elevation: 508.8333 ft}, {at: 100 ft, elevation: "
                "508.8333 ft}]}\n"
                "trench: {soil: [" CLAY "]}\n"
                "order: {backfill_lift: 6 in}\n"
                "backfill: {loose_ratio: 1, zones: [{name: Side, material: stone, to: 4 ft}, "
                "{name: Rest, material: clay}]}\n");
    NEAR(plan->closing.beside_cy, 151.44 * 60.375 / 27.0, 0.02);
    NEAR(plan->closing.over_cy, 0.0, 0.0);
    NEAR(plan->closing.zones[0].volume_cy + plan->closing.zones[1].volume_cy,
         plan->closing.beside_cy, 1e-6);
    // hand: to 4 ft: 19.667 x 4 + 16 - 13.667 x 4 = 40 ft2.
    NEAR(plan->closing.zones[0].volume_cy, 40.0 * 60.375 / 27.0, 1e-3);
    assert_int_equal(plan->closing.lifts, 20);
    double lifts_cy = 0.0;
    for (int i = 0; i < 20; i++)
        lifts_cy += plan->closing.lift_cy[i];
    NEAR(lifts_cy, plan->closing.beside_cy, 1e-6);
    // hand: first lift of 1/2 ft: 19.667 x 0.5 + 0.25 - 13.667 x 0.5 = 3.25 ft2.
    NEAR(plan->closing.lift_cy[0], 3.25 * 60.375 / 27.0, 1e-3);
    assert_int_equal(plan->closing.lifts_apart, 4);
    assert_int_equal(plan->order_run.backfill_lifts, 20);
    assert_int_equal(plan->order_run.lift_difference_max, 4);
    // hand: 338.6 yd3 are 2 tests by volume, and 2 x 20 by lift and side.
    assert_int_equal(plan->closing.tests, 40);
    verdict_is(plan, "backfill.sides", CW_HOLDS);
    const cw_plan *thick =
        plan_of(&arena, HEAD WIDE_BOX TEN "order: {backfill_lift: 12 in, side_difference: 6 in}\n");
    verdict_is(thick, "backfill.sides", CW_FAILS);
    cw_arena_release(&arena);
}

/* hand: common earth weighs 2480, 3100 and 3450 lb a yard loose, in the bank and compacted: it
 * swells 25 percent, and a compacted yard takes 3450/3100 of a bank yard.  All of the cut is fit
 * and fills more than is needed: nothing is brought. */
static void earth_is_balanced(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, HEAD WIDE_BOX TEN LEVEL("511.5 ft") "trench: {suitable: 100%, soil: [" CLAY "]}\n");
    const cw_plan_trench *trench = &plan->trench;
    const double dug = trench->exact_cy + trench->ends_cy,
                 need = plan->closing.beside_cy + plan->closing.over_cy;
    NEAR(trench->earth.loose_cy, 1.25 * dug, 1e-6);
    NEAR(trench->balance.reuse_cy, need * 3450.0 / 3100.0, need * 1e-6);
    NEAR(trench->balance.export_cy, dug - trench->balance.reuse_cy, 1e-6);
    NEAR(trench->balance.import_cy, 0.0, 1e-9);
    const cw_plan *unfit =
        plan_of(&arena, HEAD WIDE_BOX TEN LEVEL("511.5 ft") "trench: {soil: [" CLAY "]}\n");
    NEAR(unfit->trench.balance.import_cy, need, 1e-6);
    cw_arena_release(&arena);
}

/* ---- limits at the steps ---- */

static const char *limit_of(const cw_plan *plan, const char *id)
{
    const int step = cw_plan_step_find(plan, id);
    assert_true(step >= 0);
    return plan->steps[step].limit;
}

static void steps_say_what_must_hold(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, HEAD WIDE_BOX TEN "barrels: {count: 2, clear_gap: 4 in}\n");
    assert_true(strstr(limit_of(plan, "subgrade barrel 1"), "competent person") != NULL);
    assert_true(strstr(limit_of(plan, "bed 1-B01"), "not frozen") != NULL);
    assert_true(strstr(limit_of(plan, "release 1-B02"), "gap 1/4\" to 3/4\"") != NULL);
    assert_true(
        strstr(limit_of(plan, "release 1-B02"), "lift out, clean, new sealant, set again") != NULL);
    assert_true(strstr(limit_of(plan, "release 1-B01"), "gap") == NULL);
    assert_true(strstr(limit_of(plan, "level 1-L01"), "left and right") != NULL);
    assert_true(strstr(limit_of(plan, "cure gap 1-2"), "no curve") != NULL);
    assert_true(strstr(limit_of(plan, "backfill left lift 1"),
                       "at most 5 lifts over the other side") != NULL);
    assert_string_equal(limit_of(plan, "meet"), "");
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(choices_are_those_of_the_calculators),
        cmocka_unit_test(level_cut_by_hand),
        cmocka_unit_test(sloping_ground_by_hand),
        cmocka_unit_test(layers_by_hand),
        cmocka_unit_test(layer_that_runs_out),
        cmocka_unit_test(class_is_capped),
        cmocka_unit_test(what_the_tables_do_not_hold),
        cmocka_unit_test(rods_by_hand),
        cmocka_unit_test(growth_by_hand),
        cmocka_unit_test(tape_is_solved_again_after_each_piece),
        cmocka_unit_test(heading_by_hand),
        cmocka_unit_test(camber_by_hand),
        cmocka_unit_test(stakes_stand_clear_and_square),
        cmocka_unit_test(foot_is_declared),
        cmocka_unit_test(sealant_fits_or_none_does),
        cmocka_unit_test(maturity_by_hand),
        cmocka_unit_test(backfill_by_hand),
        cmocka_unit_test(earth_is_balanced),
        cmocka_unit_test(steps_say_what_must_hold),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
