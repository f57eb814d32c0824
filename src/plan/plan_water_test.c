/* Water in the plan: whole jobs, with answers by hand or by the functions that their own tests hold to their sources. */
#include "plan_test_help.h"

#include "cw/units.h"

/* A run of 120 ft at 1 % with its outlet invert at 500.00 under no road: inlet invert 501.20. */
#define WATER_RUN                                                                                                      \
    JOB_HEAD "run: {invert: 500.00 ft, slope: 1%, length: 120 ft, end_tolerance: 1 in}\n" JOB_BOX                      \
             "pieces: {lengths: [6 ft, 4 ft], pick_limit: 40000 lb}\n"

/* The words of the job format and of the discipline are two lists: they must be the same, in the same order. */
static void inlet_words_are_those_of_the_discipline(void **state)
{
    (void)state;
    const cw_section *water = NULL;
    for (int i = 0; i < cw_job_format.child_count; i++)
        if (strcmp(cw_job_format.children[i].key, "water") == 0)
            water = &cw_job_format.children[i];
    assert_non_null(water);
    assert_string_equal(water->fields[0].key, "inlet");
    int count = 0;
    for (; water->fields[0].choices[count]; count++)
        assert_string_equal(water->fields[0].choices[count], cw_water_inlet_choices[count]);
    assert_null(cw_water_inlet_choices[count]);
    assert_int_equal(count - 1, CW_WATER_INLET_OWN);
}

/* 12 x 4 ft barrel, 300 cfs, free outfall, 1 %: critical depth (25^2/32.2)^(1/3) = 2.6875 ft (closed form), normal depth smaller, so it
 * runs fast and the inlet governs: 8-1 by hand: r = 300/(48 x 2) = 3.125; Hc = 1.5 x 2.6875 = 4.0313;
 * HW = 4.0313 + 4 (0.026 x 3.125 - 0.005) = 4.3363 ft. */
static void inlet_control_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, WATER_RUN "water:\n"
                                                    "  inlet: wings-30-75\n"
                                                    "  tailwater: {kind: free}\n"
                                                    "  flows: [{name: Flood, use: design, flow: 300 cfs}]\n");
    ledger_is_sound(plan);
    const cw_plan_flow *flow = &plan->water.flows[0];
    assert_int_equal(flow->answer.status, CW_WATER_OK);
    NEAR(flow->profiles[0].critical_ft, 2.6875, 5e-4);
    NEAR(flow->answer.heads[0].headwater_ft, 4.3363, 2e-3);
    const double inlet_ft = cw_run_invert_ft(&plan->barrels[0].grade, plan->barrels[0].laid_in / CW_IN_PER_FT / plan->slope_factor);
    NEAR(flow->answer.pool_ft, inlet_ft + flow->answer.heads[0].headwater_ft, 1e-9);
    assert_int_equal(flow->answer.heads[0].control, CW_WATER_BY_INLET);
    NEAR(row_of(plan, "water.headwater-ratio")->demand, flow->answer.heads[0].headwater_ft / 4.0, 1e-9);
    assert_null(row_of(plan, "water.over-road"));
    cw_arena_release(&arena);
}

/* Twin barrels alike share the flow; one that lies 6 in. lower carries more; the sum is the flow. */
static void barrels_share_the_flow(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const char *water = "water:\n  inlet: headwall-chamfer\n  tailwater: {kind: free}\n"
                        "  flows: [{name: Flood, use: design, flow: 400 cfs}]\n";
    const cw_plan *even = plan_of(&arena, cw_arena_print(&arena, "%sbarrels: {count: 2}\n%s", WATER_RUN, water));
    NEAR(even->water.flows[0].answer.barrel_cfs[0], 200.0, 1e-6);
    NEAR(even->water.flows[0].answer.barrel_cfs[1], 200.0, 1e-6);
    const cw_plan *uneven = plan_of(&arena, cw_arena_print(&arena, "%sbarrels: {count: 2, drops: [6 in, 0 in]}\n%s", WATER_RUN, water));
    const double *share = uneven->water.flows[0].answer.barrel_cfs;
    assert_true(share[0] > share[1] + 1.0);
    NEAR(share[0] + share[1], 400.0, 4e-7);
    assert_true(uneven->water.flows[0].answer.pool_ft < even->water.flows[0].answer.pool_ft);
    cw_arena_release(&arena);
}

/* Rational: 0.45 x 3.2 x 24 = 34.56 cfs by hand. */
static void flow_by_the_rational_method(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, WATER_RUN "water:\n  inlet: wings-0\n  tailwater: {kind: free}\n  flows:\n"
                                                    "    - {name: A, use: design, by: rational, area: 24 acre, runoff: 0.45, rain_rate: 3.2 in/h}\n");
    NEAR(plan->water.flows[0].flow_cfs, 34.56, 1e-9);
    assert_null(row_of(plan, "water.flow-method"));
    cw_arena_release(&arena);
}

/* What cannot be answered is a row with its reason, never a number. */
static void no_answer_is_an_undecided_row(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *beyond = plan_of(
        &arena, WATER_RUN "water:\n  inlet: wings-0\n  flows: [{name: A, use: design, flow: 300 cfs}]\n"
                          "  tailwater: {kind: table, table: [{flow: 0 cfs, level: 500 ft}, {flow: 100 cfs, level: 502 ft}]}\n");
    ledger_is_sound(beyond);
    assert_int_equal(row_of(beyond, "water.solved")->verdict, CW_UNDECIDED);
    assert_string_equal(row_of(beyond, "water.solved")->mend, cw_water_status_words(CW_WATER_BEYOND_TABLE));
    assert_null(row_of(beyond, "water.headwater-ratio"));
    const cw_plan *drowned = plan_of(
        &arena, WATER_RUN "water:\n  inlet: wings-0\n  flows: [{name: A, use: design, flow: 300 cfs}]\n"
                          "  tailwater: {kind: fixed, level: 530 ft}\n"
                          "  crest: [{at: -50 ft, elevation: 522 ft}, {at: 0 ft, elevation: 520 ft}, {at: 50 ft, elevation: 522 ft}]\n");
    ledger_is_sound(drowned);
    assert_int_equal(row_of(drowned, "water.site")->verdict, CW_UNDECIDED);
    cw_arena_release(&arena);
}

/* More flow than the barrel takes under a low road: the rest goes over, and a person must judge it. */
static void water_over_the_road_is_for_a_person(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, WATER_RUN "water:\n  inlet: wings-30-75\n  tailwater: {kind: free}\n"
                          "  flows: [{name: Design, use: design, flow: 100 cfs}, {name: Rare, use: check, flow: 1500 cfs}]\n"
                          "  crest: [{at: -200 ft, elevation: 512 ft}, {at: 0 ft, elevation: 507 ft}, {at: 200 ft, elevation: 512 ft}]\n");
    ledger_is_sound(plan);
    assert_int_equal(row_at(plan, "water.over-road", "Design")->verdict, CW_HOLDS);
    assert_int_equal(row_at(plan, "water.over-road", "Rare")->verdict, CW_UNDECIDED);
    const cw_water_answer *rare = &plan->water.flows[1].answer;
    NEAR(rare->over.flow_cfs + rare->barrel_cfs[0], 1500.0, 1.5e-6);
    assert_true(rare->pool_ft > 507.0);
    assert_true(plan->water.has_overtopping && plan->water.overtopping_cfs > 100.0 && plan->water.overtopping_cfs < 1500.0);
    for (int i = 1; i < plan->water.curve_count; i++)
        assert_true(plan->water.curve[i].pool_ft >= plan->water.curve[i - 1].pool_ft - 1e-9);
    cw_arena_release(&arena);
}

static int place_of(const cw_plan *plan, const char *id)
{
    const int place = cw_plan_step_find(plan, id);
    if (place < 0)
        print_error("no step %s\n", id);
    assert_true(place >= 0);
    return place;
}

/* Base of 16,650 lb for 6 ft, 2,775 lb/ft, floats by hand at 2775/(62.4 x 13.6667) = 3.254 ft above its underside, with a factor of 1.1
 * at 2.958 ft. */
static void floating_holds_the_pumps(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const char *job = WATER_RUN "site_water:\n  groundwater: {level: %s, base: 480 ft, permeability: 30 ft/day, pump: 5 cfs}\n";
    const cw_plan *low = plan_of(&arena, cw_arena_print(&arena, job, "498 ft"));
    ledger_is_sound(low);
    NEAR(low->site_water.open.safe_ft, 2775.0 / (1.1 * 62.4 * (12.0 + 20.0 / 12.0)), 1e-3);
    assert_int_equal(row_of(low, "site.float-base")->verdict, CW_HOLDS);
    const cw_plan *high = plan_of(&arena, cw_arena_print(&arena, job, "507 ft"));
    ledger_is_sound(high);
    assert_int_equal(row_of(high, "site.float-barrel")->verdict, CW_UNDECIDED);
    // Underside 500 - 10 in.; subgrade 8 in. lower; drawn 1 ft below that.
    NEAR(high->site_water.drawdown_ft, 507.0 - (500.0 - 18.0 / 12.0 * high->slope_factor - 1.0), 1e-6);
    // Low water: pumps may stop after the first lift on both sides.  High: only after the cover.
    bool *done = CW_TAKE(&arena, bool, high->order->step_count);
    for (int i = 0; i < high->step_count; i++)
        if (i != place_of(high, "pumps-off") && i != place_of(high, "cover"))
            done[high->steps[i].step] = true;
    assert_false(cw_order_allows(high->order, done, high->steps[place_of(high, "pumps-off")].step));
    assert_true(place_of(high, "divert") < place_of(high, "subgrade barrel 1"));
    assert_true(place_of(low, "pumps-off") < place_of(low, "close"));
    bool *first = CW_TAKE(&arena, bool, low->order->step_count);
    for (int i = 0; i < low->step_count; i++) {
        const cw_step *step = &low->order->steps[low->steps[i].step];
        first[low->steps[i].step] = step->kind != CW_STEP_PUMPS_OFF && step->kind != CW_STEP_COVER && step->kind != CW_STEP_WALK_THROUGH &&
                                    step->kind != CW_STEP_CLOSEOUT && step->kind != CW_STEP_PHASE_OPEN &&
                                    (step->kind != CW_STEP_BACKFILL || step->part == 0);
    }
    assert_true(cw_order_allows(low->order, first, low->steps[place_of(low, "pumps-off")].step));
    cw_arena_release(&arena);
}

/* The work flow of 20 cfs in a pipe of one of the sizes: 24 in. full under 2 ft of head by hand, 29 n^2 L/R^(4/3) = 1.578,
 * V = (64.4 x 2/(1 + 0.9 + 1.578))^0.5 = 6.09 ft/s, 19.1 cfs, is not enough.  The dam is the stage and its freeboard. */
static void diversion_and_dam(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, WATER_RUN "water:\n  inlet: wings-0\n  tailwater: {kind: fixed, level: 501.5 ft}\n"
                          "  flows: [{name: A, use: design, flow: 100 cfs}, {name: Low, use: work, flow: 20 cfs}]\n"
                          "site_water:\n  diversion: {kind: pipe, sizes: [18 in, 24 in, 36 in], head: 2 ft, length: 150 ft}\n"
                          "  cofferdam: {ground: 500 ft, freeboard: 1 ft, rise: 0.5 ft, clear: 1 h}\n");
    ledger_is_sound(plan);
    const cw_plan_site_water *site = &plan->site_water;
    NEAR(site->work_cfs, 20.0, 1e-12);
    assert_true(site->bypass.capacity_cfs >= 20.0 && site->bypass.size_in == 36.0);
    // Natural level: 1.5 ft above the outlet invert carried to the inlet invert; then the head that the pipe uses.
    const double inlet_ft = cw_run_invert_ft(&plan->barrels[0].grade, plan->barrels[0].line.length_ft);
    NEAR(site->stage_ft, inlet_ft + 1.5 + site->bypass.head_used_ft, 1e-9);
    NEAR(site->cofferdam.crest_ft, site->stage_ft + 1.0, 1e-9);
    NEAR(site->cofferdam.warn_ft, site->cofferdam.stop_ft - 0.5, 1e-9);
    assert_true(site->has_barrel_path && site->barrel_path.value > 20.0);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(inlet_words_are_those_of_the_discipline),
        cmocka_unit_test(inlet_control_by_hand),
        cmocka_unit_test(barrels_share_the_flow),
        cmocka_unit_test(flow_by_the_rational_method),
        cmocka_unit_test(no_answer_is_an_undecided_row),
        cmocka_unit_test(water_over_the_road_is_for_a_person),
        cmocka_unit_test(floating_holds_the_pumps),
        cmocka_unit_test(diversion_and_dam),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
