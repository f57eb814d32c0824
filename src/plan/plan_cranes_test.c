/* Cranes in the plan: setups, picks and rigging by hand. */
#include "plan_test_help.h"

#include "cw/units.h"

/* Bases of 16,650 lb and lids of 11,275 lb, 6 ft long (hand: src/weight/weight_test.c); pick
 * factor 1.05. */
#define RUN(length)                                                                                \
    JOB_HEAD "run: {invert: 500.00 ft, slope: 0%, length: " length                                 \
             ", end_tolerance: 1 in}\n" JOB_BOX JOB_NO_TONGUE                                      \
             "pieces: {lengths: [6 ft], pick_limit: 60000 lb}\n"
/* Toe 13.667/2 + 2 = 8.833 ft, plumb cut, mats 4 ft from its edge, half 10 ft: slew centre 22.833
 * ft off. */
#define CRANES                                                                                     \
    "cranes:\n  side: left\n  rule: fixed\n  depth: 6 ft\n  side_slope: 0:1\n"                     \
    "  choices: [{name: A, chart: a.csv, configuration: full, half: 10 ft}]\n"
#define CHART                                                                                      \
    "# made "                                                                                      \
    "up\nboom_ft,radius_ft,capacity_lb,configuration\n60,20,60000,full\n60,30,40000,full\n60,40,"  \
    "26700,full\n"

static const cw_job *job_with(cw_arena *arena, const char *text, const char *chart, cw_diags *diags)
{
    *diags = cw_diags_on(arena);
    const cw_entries *entries = cw_yaml_read(text, strlen(text), "job.yaml", arena, diags);
    assert_non_null(entries);
    const cw_job_files files = {.chart_texts = {chart}};
    return cw_job_build(entries, &files, arena, diags);
}

static const cw_plan *plan_with(cw_arena *arena, const char *text, const char *chart)
{
    cw_diags diags;
    const cw_job *job = job_with(arena, text, chart, &diags);
    if (!job)
        fail_msg("%s", cw_diag_line(arena, &diags.items[0]));
    const cw_plan *plan = cw_plan_compute(job, arena);
    assert_true(plan->laid);
    return plan;
}

/* Hand: gross 16,650 x 1.05 + 1,000 + 1,500 = 19,982.5 lb is within 75 percent of 26,700 lb, so to
 * 40 ft: sqrt(40^2 - 22.833^2) = 32.84 ft each way; centres from 3 to 57 ft and a bit: one
 * setup; 74.84 percent past 30 ft. */
static void one_setup_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_with(&arena, RUN("60 ft") CRANES "  fixed: 4 ft\n", CHART);
    const cw_plan_cranes *c = &plan->cranes;
    assert_int_equal(c->setup_count, 1);
    assert_int_equal(c->answer.off_count, 0);
    NEAR(c->setups[0].offset_ft, -22.8333, 1e-3);
    NEAR(c->picks[0].gross_lb, 19982.5, 1.0);
    NEAR(c->picks[c->setups[0].worst].percent, 74.84, 0.01);
    NEAR(c->picks[0].radius_ft, hypot(22.8333, c->setups[0].at->at_ft - 3.0), 0.05);
    assert_int_equal(row_at(plan, "crane.reach", "")->verdict, CW_HOLDS);
    assert_int_equal(row_at(plan, "crane.chart", "setup 1")->verdict, CW_HOLDS);
    assert_int_equal(row_at(plan, "crane.setback", "setup 1")->verdict, CW_HOLDS);
    assert_int_equal(row_at(plan, "crane.ground", "setup 1")->verdict,
                     CW_UNDECIDED); // neither soil nor weight
    assert_int_equal(row_at(plan, "lift.insert", "all marks")->verdict, CW_UNDECIDED);
    cw_arena_release(&arena);
}

/* Hand: centres from 3 to 117 ft and a bit are over 65.7 ft: two setups. */
static void a_longer_run_takes_two(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_with(&arena, RUN("120 ft") CRANES "  fixed: 4 ft\n", CHART);
    assert_int_equal(plan->cranes.setup_count, 2);
    assert_int_equal(plan->cranes.setups[0].at->count + plan->cranes.setups[1].at->count,
                     plan->piece_count);
    cw_arena_release(&arena);
}

/* Hand: at half of the chart 40,000 lb carries 19,982.5 lb to 30 ft; from 8.833 + 20 + 10 = 38.833
 * ft that is 8.833 ft short.  Lids, 11,275 x 1.05 + 2,500 = 14,339 lb against 13,350 lb at 40 ft,
 * are short by as much. */
static void off_chart_names_the_nearest(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_with(&arena, RUN("60 ft") CRANES "  fixed: 20 ft\n  share: 50%\n", CHART);
    assert_int_equal(plan->cranes.setup_count, 0);
    assert_int_equal(plan->cranes.answer.off_count, plan->piece_count);
    assert_int_equal(row_at(plan, "crane.reach", "")->verdict, CW_FAILS);
    const cw_check *row = row_at(plan, "crane.off-chart", "1-B01");
    assert_int_equal(row->verdict, CW_FAILS);
    assert_non_null(strstr(row->mend, "8.83 ft closer"));
    cw_arena_release(&arena);
}

/* A row whose hook is too low is not used: 60 ft of boom at 57 ft has its head at 7 + sqrt(60^2 -
 * 61^2), nowhere. */
static void low_hooks_are_not_used(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_with(
        &arena, RUN("60 ft") CRANES "  fixed: 4 ft\n",
        "boom_ft,radius_ft,capacity_lb,configuration\n"
        "40,20,90000,full\n40,30,80000,full\n60,20,60000,full\n60,30,40000,full\n60,40,26700,full\n"
        "60,57,26000,full\n");
    const cw_setup_crane *crane = &plan->cranes.problem.cranes[0];
    // Needed 4 + 2 + 4.83 + 12 + 4 + 4 = 30.83 ft.  40 ft of boom: 39.0 ft at 20 ft, 28.1 ft at 30
    // ft.
    assert_int_equal(crane->column_count, 2);
    assert_int_equal(crane->columns[0].count, 1);
    assert_int_equal(crane->columns[1].count, 3);
    cw_arena_release(&arena);
}

/* Hand: line 50 ft off on the crane's side, slew centre 22.83 ft off: 27.2 ft less the reach is
 * nothing. */
static void power_line_and_insert(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_with(&arena,
                  RUN("60 ft") CRANES "  fixed: 4 ft\n  insert: 30000 lb\n  soil: 3000 psf\n  "
                                      "truck: 40 ft\n  power_lines: [{name: Feeder, "
                                      "side: left, distance: 50 ft, height: 40 ft, kilovolts: 13, "
                                      "known: yes}, {name: Far, side: right, "
                                      "distance: 150 ft, height: 40 ft, kilovolts: 13}]\n",
                  CHART);
    assert_int_equal(row_at(plan, "crane.power-line", "Feeder")->verdict, CW_FAILS);
    assert_int_equal(row_at(plan, "crane.power-line", "Far")->verdict, CW_HOLDS);
    NEAR(row_at(plan, "crane.power-line", "Far")->capacity, 20.0, 0.0); // voltage not known
    // Base: 17,482.5 lb on two legs of four at about 61 deg is about 10,000 lb; four times is over
    // 30,000 lb.
    assert_int_equal(row_at(plan, "lift.insert", "mark B6")->verdict, CW_FAILS);
    assert_int_equal(row_at(plan, "crane.truck", "setup 1")->verdict,
                     CW_HOLDS); // 19,982.5 under 0.75 x 26,700
    cw_arena_release(&arena);
}

/* The words of the job format and of the discipline are two lists: they must be the same, in the
 * same order. */
static void words_are_those_of_the_discipline(void **state)
{
    (void)state;
    const struct {
        const char *job, *calc_key;
        const cw_calc *calc;
    } rows[] = {{"rule", "rule", &cw_calc_crane_setback}, {"carry", "carry", &cw_calc_bridle}};
    for (int i = 0; i < 2; i++) {
        const char *const *job = NULL, *const *calc = NULL;
        for (int s = 0; s < cw_job_format.child_count; s++)
            for (int k = 0; strcmp(cw_job_format.children[s].key, "cranes") == 0 &&
                            k < cw_job_format.children[s].field_count;
                 k++)
                if (strcmp(cw_job_format.children[s].fields[k].key, rows[i].job) == 0)
                    job = cw_job_format.children[s].fields[k].choices;
        for (int k = 0; k < rows[i].calc->input_count; k++)
            if (strcmp(rows[i].calc->inputs[k].key, rows[i].calc_key) == 0)
                calc = rows[i].calc->inputs[k].choices;
        assert_true(job && calc);
        int count = 0;
        for (; job[count] && calc[count]; count++)
            assert_string_equal(job[count], calc[count]);
        assert_true(!job[count] && !calc[count]);
    }
}

static void faults_of_the_section(void **state)
{
    (void)state;
    static const struct {
        const char *more, *chart, *says;
    } rows[] = {
        {"", CHART, "rule: fixed needs fixed"},
        {"  fixed: 4 ft\n", NULL, "a.csv was not read"},
        {"  fixed: 4 ft\n", "boom_ft,radius_ft,capacity_lb,configuration\n60,20,60000,half\n",
         "write one of half"},
        {"  fixed: 4 ft\n", "boom_ft,radius_ft,capacity_lb,configuration\n60,20,,full\n",
         "a.csv:2:1: error 106"},
        {"  fixed: 4 ft\n  no_stand: [{from: 20 ft, to: 10 ft}]\n", CHART, "exchange them"},
        {"  fixed: 4 ft\n  power_lines: [{name: F, side: both, distance: 9 ft, height: 30 ft, "
         "kilovolts: 5}]\n",
         CHART, "left or right"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags;
        const char *text = cw_arena_print(&arena, "%s%s", RUN("60 ft") CRANES, rows[i].more);
        assert_null(job_with(&arena, text, rows[i].chart, &diags));
        const char *line = cw_diag_line(&arena, &diags.items[0]);
        if (!strstr(line, rows[i].says))
            fail_msg("row %d: %s", (int)i, line);
        cw_arena_release(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_setup_by_hand),
        cmocka_unit_test(a_longer_run_takes_two),
        cmocka_unit_test(off_chart_names_the_nearest),
        cmocka_unit_test(low_hooks_are_not_used),
        cmocka_unit_test(power_line_and_insert),
        cmocka_unit_test(words_are_those_of_the_discipline),
        cmocka_unit_test(faults_of_the_section),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
