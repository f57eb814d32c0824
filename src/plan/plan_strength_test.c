/* Strength in the plan: whole jobs, with answers by hand or by the functions that their own tests hold to their sources. */
#include "plan_test_help.h"

#include "cw/units.h"

/* Lid box 14 x 8 ft of the hand calculations: wall 10 in, floor and top 12 in, haunch 8 in. */
#define BOX_14                                                                                                         \
    "box: {form: lid, span: 14 ft, rise: 8 ft, wall: 10 in, floor: 12 in, top: 12 in, haunch: 8 in}\n"
#define RUN_14                                                                                                         \
    JOB_HEAD "run: {invert: 500.00 ft, slope: 1%, length: 120 ft, end_tolerance: 1 in}\n" BOX_14 JOB_NO_TONGUE         \
             "pieces: {lengths: [6 ft, 4 ft], pick_limit: 60000 lb}\n"
#define CHOICES "strength:\n  resistance: box\n  spread: box\n  edition: lrfd-8\n"
#define COVER_4 "  cover_least: 4 ft\n  cover_most: 4 ft\n"

static const cw_field *field_of(const cw_calc *calc, const char *key)
{
    for (int i = 0; i < calc->input_count; i++)
        if (strcmp(calc->inputs[i].key, key) == 0)
            return &calc->inputs[i];
    fail_msg("calculator %s has no input %s", calc->name, key);
    return NULL;
}

static const cw_field *job_field(const char *key)
{
    for (int i = 0; i < cw_job_format.child_count; i++) {
        const cw_section *section = &cw_job_format.children[i];
        for (int k = 0; strcmp(section->key, "strength") == 0 && k < section->field_count; k++)
            if (strcmp(section->fields[k].key, key) == 0)
                return &section->fields[k];
    }
    fail_msg("strength has no key %s", key);
    return NULL;
}

/* The words of the job format and of the discipline are two lists: they must be the same, in the same order. */
static void words_are_those_of_the_discipline(void **state)
{
    (void)state;
    const struct {
        const char *job, *calc_key;
        const cw_calc *calc;
    } rows[] = {{"resistance", "set", &cw_calc_section_flexure},
                {"spread", "rule", &cw_calc_frame_moments},
                {"bed", "bed", &cw_calc_earth_load}};
    for (int i = 0; i < 3; i++) {
        const char *const *job = job_field(rows[i].job)->choices;
        const char *const *calc = field_of(rows[i].calc, rows[i].calc_key)->choices;
        int count = 0;
        for (; job[count] && calc[count]; count++)
            assert_string_equal(job[count], calc[count]);
        assert_true(!job[count] && !calc[count]);
    }
}

/* Statics by hand, lid of 14.833 ft between wall centre lines at 4 ft of cover: earth 0.50451 ksf (Fe 1.05106), weight 0.150 ksf,
 * tandem 0.56535 ksf over 9.433 ft with m = 1.2 and impact (AASHTO LRFD 3.6.1.2.6, from memory):
 * 1.05 x 1.30 x 0.50451 L^2/8 + 1.25 x 0.150 L^2/8 + 1.75 x 0.56535 x 9.433 (L/4 - 9.433/8) = 47.70 kip ft/ft. */
static void lid_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, RUN_14 CHOICES COVER_4);
    ledger_is_sound(plan);
    const cw_plan_strength *s = &plan->strength;
    assert_int_equal(s->cover_count, 1);
    assert_int_equal(s->status, CW_STRUCT_OK);
    NEAR(s->earth_psf[0], 504.51, 0.01);
    NEAR(s->sections[0].moment_ft_lb, 47700.0, 10.0);
    assert_string_equal(s->sections[0].name, "middle of the top, inside");
    // Required steel by the block: M_u/phi at d = 12 - 1 - 3/16 in., 5 ksi, 65 ksi; solved by hand to 0.001 in2.
    const double d_in = 12.0 - 1.0 - 3.0 / 16.0, m = 47700.0 * CW_IN_PER_FT, g = 0.85 * 5000.0 * 12.0;
    NEAR(s->sections[0].flexure.required_in2_per_ft, (g * d_in - sqrt(g * (g * d_in * d_in - 2.0 * m))) / 65000.0, 2e-3);
    cw_arena_release(&arena);
}

/* Without steel every section is undecided and says what it needs; with that steel each holds. */
static void steel_decides(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *open = plan_of(&arena, RUN_14 CHOICES COVER_4);
    const cw_check *row = verdict_is(open, "strength.bending", CW_UNDECIDED);
    assert_non_null(strstr(row->mend, "in2/ft"));
    assert_null(row_of(open, "strength.cracks"));
    static const char *const faces[] = {"top-inside", "wall-inside", "wall-outside", "floor-inside", "floor-outside"};
    for (int less = 0; less < 2; less++) {
        cw_text job = cw_text_on(&arena);
        cw_text_add(&job, RUN_14 CHOICES COVER_4 "  steel:\n");
        for (int i = 0; i < 5; i++) {
            const cw_plan_section *section = &open->strength.sections[i];
            const double need = fmax(section->flexure.required_in2_per_ft, section->flexure.least_in2_per_ft);
            cw_text_print(&job, "    - {at: %s, area: %.4f in2/ft}\n", faces[i], less && i == 0 ? need - 0.01 : need + 0.0002);
        }
        const cw_plan *plan = plan_of(&arena, cw_text_string(&job));
        ledger_is_sound(plan);
        int bending = 0;
        for (int i = 0; i < plan->checks.count; i++) {
            const cw_check *check = &plan->checks.items[i];
            if (strcmp(check->id, "strength.bending") != 0)
                continue;
            assert_int_equal(check->verdict, less && bending == 0 ? CW_FAILS : CW_HOLDS);
            bending++;
        }
        assert_int_equal(bending, 5);
        assert_non_null(row_of(plan, "strength.cracks"));
    }
    cw_arena_release(&arena);
}

/* Closed form: f k g h^3/6 = M, no plant: h = cbrt(6 x 9000/(1.35 x 0.5 x 120)) = 8.736 ft, more than the wall's 8; and for 5000: 7.181. */
static void earth_against_an_open_base(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *none = plan_of(&arena, RUN_14 CHOICES COVER_4);
    assert_false(none->strength.has_open);
    assert_non_null(strstr(verdict_is(none, "stage.open-base", CW_HOLDS)->what, "No earth"));
    const cw_plan *full = plan_of(&arena, RUN_14 CHOICES COVER_4 "  wall_moment: 9000 ft-lb\n  surcharge: 0 psf\n");
    assert_true(full->strength.open.full);
    const cw_plan *part = plan_of(&arena, RUN_14 CHOICES COVER_4 "  wall_moment: 5000 ft-lb\n  surcharge: 0 psf\n");
    NEAR(part->strength.open.limit_ft, cbrt(6.0 * 5000.0 / (1.35 * 0.5 * 120.0)), 1e-6);
    cw_arena_release(&arena);
}

static const char *twin(cw_arena *arena, int placements, const char *more)
{
    return cw_arena_print(arena,
                          "%sbarrels: {count: 2, clear_gap: 4 in}\nfill_between: {placements: %d, unit_weight: 140 pcf}\n" CHOICES
                              COVER_4 "  wall_moment: 9000 ft-lb\n%s",
                          RUN_14, placements, more);
}

/* Each placement keeps under what wall, sliding and floating allow where it starts; together they reach the top of the wall; and one
 * fewer than needed fails. */
static void placements_keep_their_limits(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const int needed = plan_of(&arena, twin(&arena, 20, ""))->strength.lifts_needed;
    assert_true(needed >= 2 && needed < 20);
    for (int count = needed; count <= needed + 2; count++) {
        const cw_plan *plan = plan_of(&arena, twin(&arena, count, ""));
        const cw_plan_strength *s = &plan->strength;
        ledger_is_sound(plan);
        verdict_is(plan, "fill.placement-height", CW_HOLDS);
        assert_true(s->lift_count > 0 && s->lift_count <= count);
        double at_ft = 0.0;
        for (int i = 0; i < s->lift_count; i++) {
            NEAR(s->lifts[i].from_ft, at_ft, 1e-9);
            at_ft = s->lifts[i].to_ft;
            // Wall by hand: 1.35 w h^2/2 (z + h/3) <= M.
            const double h = at_ft - s->lifts[i].from_ft, z = s->lifts[i].from_ft;
            assert_true(1.35 * 140.0 * h * h / 2.0 * (z + h / 3.0) <= 9000.0 * (1.0 + 1e-9));
        }
        NEAR(at_ft, 8.0, 1e-4);
        // The limit stands in the words of the step.
        bool said = false;
        for (int i = 0; i < plan->step_count; i++)
            said = said || (strncmp(plan->steps[i].id, "fill gap", 8) == 0 && strstr(plan->steps[i].limit, "above the floor at most"));
        assert_true(said);
    }
    const cw_plan *few = plan_of(&arena, twin(&arena, needed - 1, ""));
    verdict_is(few, "fill.placement-height", CW_FAILS);
    assert_int_equal(few->strength.lift_count, 0);
    ledger_is_sound(few);
    // No figure for the wall: what is left is undecided, never held.
    const cw_plan *open = plan_of(&arena, RUN_14 "barrels: {count: 2, clear_gap: 4 in}\nfill_between: {placements: 12}\n");
    verdict_is(open, "fill.placement-height", CW_UNDECIDED);
    cw_arena_release(&arena);
}

/* A machine whose only axle is the design tandem's with the same presence may cross wherever the box was designed to carry two of them,
 * at the design cover; heavier ones need more cover, and the needed cover never falls with the load. */
static void heavier_machines_need_more_cover(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    double last_ft = 0.0;
    for (int kip = 25; kip <= 145; kip += 20) {
        const cw_plan *plan = plan_of(
            &arena, cw_arena_print(&arena, "%s  vehicles:\n    - {name: Loader, use: crossing, axles: [%d lb], presence: 1.2, cover: 4 ft}\n",
                                   RUN_14 CHOICES COVER_4, kip * 1000));
        const cw_plan_crossing *crossing = &plan->strength.crossings[0];
        ledger_is_sound(plan);
        assert_int_equal(plan->strength.crossing_count, 1);
        if (kip == 25)
            verdict_is(plan, "stage.crossing", CW_HOLDS);
        if (!crossing->cross.found) {
            last_ft = 1e9;
            verdict_is(plan, "stage.crossing", CW_FAILS);
            continue;
        }
        assert_true(crossing->cross.needed_ft >= last_ft - 1e-9);
        last_ft = crossing->cross.needed_ft;
        bool said = false;
        for (int i = 0; i < plan->step_count; i++)
            said = said || (strncmp(plan->steps[i].id, "cover", 5) == 0 && strstr(plan->steps[i].limit, "Loader wants"));
        assert_true(said);
    }
    cw_arena_release(&arena);
}

/* Heavier permit vehicles never ease a section; the state that governs is then named. */
static void permit_vehicles_count(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plain = plan_of(&arena, RUN_14 CHOICES COVER_4);
    const cw_plan *permit = plan_of(&arena, RUN_14 CHOICES COVER_4
                                    "  vehicles:\n    - {name: Hauler, use: permit, axles: [60000 lb, 60000 lb, 60000 lb],"
                                    " spacing: [4.5 ft, 4.5 ft], presence: 1.2}\n");
    assert_true(permit->strength.permit && !plain->strength.permit);
    for (int i = 0; i < plain->strength.section_count; i++)
        assert_true(permit->strength.sections[i].flexure.required_in2_per_ft >=
                    plain->strength.sections[i].flexure.required_in2_per_ft - 1e-12);
    assert_int_equal(permit->strength.sections[0].from.state, CW_STRUCT_PERMIT);
    assert_non_null(strstr(row_of(permit, "strength.bending")->where, "permit vehicle"));
    cw_arena_release(&arena);
}

/* What is not known is undecided with its remedy, and a design range that the run leaves fails. */
static void unknowns_are_said(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *bare = plan_of(&arena, RUN_14 CHOICES);
    assert_int_equal(bare->strength.cover_count, 0);
    assert_non_null(strstr(verdict_is(bare, "strength.frame", CW_UNDECIDED)->mend, "cover"));
    ledger_is_sound(bare);
    const cw_plan *plan = plan_of(&arena, RUN_14 CHOICES COVER_4);
    verdict_is(plan, "strength.seat", CW_UNDECIDED);
    assert_non_null(strstr(verdict_is(plan, "strength.key", CW_UNDECIDED)->mend, "lb/ft"));
    const cw_plan *keyed = plan_of(&arena, RUN_14 CHOICES COVER_4 "  seat: 6 in\n  key: 0.5 in\n  steel: [{at: top-inside, area: 1 in2/ft, cover: 0.75 in}]\n");
    // By hand: N_u / (1/2 in x 12 in/ft) against 0.70 x 0.85 x 5,000 psi = 2,975 psi.
    NEAR(row_of(keyed, "strength.key")->demand, keyed->strength.key_lb / 6.0, 1e-6);
    NEAR(row_of(keyed, "strength.key")->capacity, 2975.0, 1e-6);
    NEAR(row_of(keyed, "strength.seat")->demand, keyed->strength.seat_lb / 72.0, 1e-6);
    verdict_is(keyed, "strength.steel-cover", CW_FAILS);
    verdict_is(plan, "strength.bearing", CW_UNDECIDED);
    verdict_is(plan, "strength.slide", CW_HOLDS);
    NEAR(row_of(plan, "strength.slide")->demand, 0.4 / 0.01, 1e-9);
    const cw_plan *other = plan_of(&arena, RUN_14 "strength:\n  resistance: cast\n  spread: plain\n  edition: other\n" COVER_4);
    verdict_is(other, "strength.edition", CW_UNDECIDED);
    // Cover of the road's own run, 7.5 ft and less, against a box for 9 ft and more.
    const cw_plan *deep = plan_of(&arena, JOB_HEAD JOB_ROAD("0%", "left") "run: {invert: 506.00 ft, slope: 0.5%}\n" BOX_14
                                  "pieces: {lengths: [6 ft, 4 ft]}\n" CHOICES "  cover_least: 9 ft\n");
    verdict_is(deep, "strength.cover-least", CW_FAILS);
    ledger_is_sound(deep);
    cw_arena_release(&arena);
}

/* Every form is solved on both grounds, with an equilibrium residual below 1e-9 of the load, for thin and thick cover. */
static void every_form_is_solved(void **state)
{
    (void)state;
    static const char *const forms[] = {"form: lid", "form: double-u, leg: 4 ft, top_haunch: 8 in", "form: ring, top_haunch: 8 in"};
    cw_arena arena = cw_arena_on(NULL);
    for (int f = 0; f < 3; f++)
        for (int thin = 0; thin < 2; thin++) {
            const cw_plan *plan = plan_of(
                &arena, cw_arena_print(&arena,
                                       "%srun: {invert: 500 ft, slope: 1%%, length: 96 ft, end_tolerance: 1 in}\n"
                                                "box: {%s, span: 12 ft, rise: 8 ft, wall: 10 in, floor: 11 in, top: 12 in, haunch: 8 in}\n"
                                                "pieces: {lengths: [6 ft, 4 ft]}\n" CHOICES "  cover_least: %s\n  cover_most: 12 ft\n"
                                                "  flood: 505 ft\n",
                                       JOB_HEAD, forms[f], thin ? "0.5 ft" : "3 ft"));
            const cw_plan_strength *s = &plan->strength;
            ledger_is_sound(plan);
            assert_int_equal(s->status, CW_STRUCT_OK);
            assert_int_equal(s->cover_count, 2);
            for (int c = 0; c < 2; c++)
                for (int g = 0; g < CW_PLAN_GROUNDS; g++)
                    for (int k = 0; k < 2; k++)
                        assert_true(s->envelopes[c][g][k].residual < 1e-9);
            assert_true((row_of(plan, "strength.joint-slab") != NULL) == (thin == 1));
            assert_int_equal(s->section_count, f == 0 ? 5 : 7);
        }
    cw_arena_release(&arena);
}

/* Slings by statics: hook 12 ft over the inserts at 6.417 ft aside: 61.87 deg; a spreader takes the pull away. */
static void slings_and_spreader(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plans[2];
    for (int k = 0; k < 2; k++)
        plans[k] = plan_of(
            &arena, cw_arena_print(&arena,
                                   "%srun: {invert: 500 ft, slope: 1%%, length: 96 ft, end_tolerance: 1 in}\n" JOB_BOX JOB_NO_TONGUE
                                   "pieces: {lengths: [6 ft]}\nlifting: {hook: 12 ft%s}\n" CHOICES COVER_4,
                                   JOB_HEAD, k ? ", spreader: yes" : ""));
    const cw_plan *slings = plans[0], *spreader = plans[1];
    NEAR(slings->strength.base_lift.sling_deg, atan2(12.0, 77.0 / 12.0) / CW_RAD_PER_DEG, 1e-9);
    // W/2 / tan / L x 1.5 with the base of 16,650 lb and 6 ft.
    NEAR(slings->strength.base_lift.lift.pull_lb, 1.5 * 16650.0 / 2.0 * (77.0 / 12.0 / 12.0) / 6.0, 1.0);
    NEAR(spreader->strength.base_lift.lift.pull_lb, 0.0, 1e-9);
    assert_true(spreader->strength.base_lift.lift.stress_psi < slings->strength.base_lift.lift.stress_psi);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(words_are_those_of_the_discipline), cmocka_unit_test(lid_by_hand),
        cmocka_unit_test(steel_decides),                     cmocka_unit_test(earth_against_an_open_base),
        cmocka_unit_test(placements_keep_their_limits),      cmocka_unit_test(heavier_machines_need_more_cover),
        cmocka_unit_test(permit_vehicles_count),             cmocka_unit_test(unknowns_are_said),
        cmocka_unit_test(every_form_is_solved),              cmocka_unit_test(slings_and_spreader),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
