/* The schedule of whole jobs: hand-worked without chance, sums and bounds with it. */
#include "plan_test_help.h"

#include "cw/date.h"
#include "cw/render.h"
#include "cw/report.h"
#include "cw/units.h"

#define RUN                                                                                        \
    JOB_HEAD "run: {invert: 500.00 ft, slope: 1%, length: 60 ft, end_tolerance: 1 in}\n" JOB_BOX   \
        JOB_NO_TONGUE "pieces: {lengths: [6 ft, 4 ft], pick_limit: 60000 lb}\n"
#define SCHEDULE "schedule: {start: 2026-05-04, by: 2026-08-31, runs: 200}\n"

static void no_section_no_schedule(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, RUN);
    assert_false(plan->schedule.present);
    for (int i = 0; i < plan->checks.count; i++)
        assert_true(strncmp(plan->checks.items[i].id, "schedule.", 9) != 0);
    cw_arena_release(&arena);
}

static const cw_plan_bar *bar(const cw_plan *plan, const char *name)
{
    for (int i = 0; i < plan->schedule.bar_count; i++)
        if (strcmp(plan->schedule.bars[i].name, name) == 0)
            return &plan->schedule.bars[i];
    fail_msg("no bar %s", name);
    return NULL;
}

/* Fixed times (low, likely and high alike), trucks that take a minute, no bad days, no common
 * factors: the hand can follow. Subgrade takes the whole of the first day; the bedding of the first
 * base begins on the next working day at 7:00. */
static void dates_by_hand(void **state)
{
    (void)state;
    static const char *const fixed[][2] = {
        {"time.subgrade", "480 min"},    {"time.bedding", "20 min"}, {"time.received", "5 min"},
        {"time.joint_sealant", "8 min"}, {"time.set", "20 min"},     {"time.released", "5 min"},
        {"haul.load", "1 min"},          {"haul.out", "1 min"},      {"haul.back", "1 min"},
        {"pace.learning", "1"},
    };
    cw_arena arena = cw_arena_on(NULL);
    cw_text text = cw_text_on(&arena);
    cw_text_add(&text, RUN "schedule: {start: 2026-05-01, off: 2026-05-04, runs: 0, trucks: 20, "
                           "joint_crews: 9}\nprofile:\n  overrides:\n");
    for (size_t i = 0; i < sizeof fixed / sizeof fixed[0]; i++)
        for (int k = 0; k < 3; k++) {
            static const char *const ends[] = {".low", ".likely", ".high"};
            const bool plain = strcmp(fixed[i][0], "pace.learning") == 0;
            if (!plain || k == 0)
                cw_text_print(&text, "    - {row: %s%s, value: %s, because: test}\n", fixed[i][0],
                              plain ? "" : ends[k], fixed[i][1]);
        }
    const cw_plan *plan = plan_of(&arena, cw_text_string(&text));
    const cw_plan_schedule *s = &plan->schedule;
    assert_int_equal(s->status, CW_SETTING_DONE);
    assert_string_equal(cw_date_print(&arena, s->first_day), "2026-05-01");
    // Friday for the subgrade; Monday is off; Tuesday, day 4, at 7:00 the first bedding.
    NEAR(bar(plan, "Subgrade")->start_min, 420.0, 1e-9);
    NEAR(bar(plan, "Subgrade")->finish_min, 900.0, 1e-9);
    const double tuesday = 4.0 * CW_DAY_MIN + 420.0;
    NEAR(bar(plan, "Bedding")->start_min, tuesday, 1e-9);
    // Ten bases of 6 ft, a bedding every 20 min.
    NEAR(bar(plan, "Bedding")->finish_min, tuesday + plan->barrels[0].base_count * 20.0, 1e-9);
    // The first base sits after its bedding (its truck came within 2 min, and inspection took 5):
    // 20 + 20 min.
    NEAR(s->set_min[plan->barrels[0].bases[0]], tuesday + 40.0, 1e-9);
    // The second: released 5, sealant 8, set 20 more.
    NEAR(s->set_min[plan->barrels[0].bases[1]], tuesday + 73.0, 1e-9);
    assert_int_equal(s->runs, 0);
    cw_arena_release(&arena);
}

static void chance_makes_it_later(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, RUN SCHEDULE);
    ledger_is_sound(plan);
    const cw_plan_schedule *s = &plan->schedule;
    assert_int_equal(s->status, CW_SETTING_DONE);
    assert_int_equal(s->runs + s->stopped, 200);
    // One day in five is lost to rain: the median run is later than the one without chance.
    assert_true(s->finish.p50 > s->steady_min / CW_DAY_MIN);
    assert_true(s->finish.p10 <= s->finish.p50 && s->finish.p50 <= s->finish.p80 &&
                s->finish.p80 <= s->finish.p90);
    assert_true(s->by_share > 0.99 && s->has_by);
    assert_true(s->finish.p80 > 5.0 && s->finish.p80 < 120.0);
    for (int i = 0; i < s->bar_count; i++) {
        assert_true(s->bars[i].start_min < s->bars[i].finish_min &&
                    s->bars[i].finish_min <= s->steady_min + 1e-6);
        assert_true(s->bars[i].critical >= 0.0 && s->bars[i].critical <= 1.0);
    }
    NEAR(bar(plan, "Walk-through")->critical, 1.0, 1e-9); // everything ends with it
    assert_true(bar(plan, "Tops set")->start_min > bar(plan, "Bases set")->start_min);
    for (int i = 1; i < s->swing_count; i++)
        assert_true(fabs(s->swings[i].high_min - s->swings[i].low_min) <=
                    fabs(s->swings[i - 1].high_min - s->swings[i - 1].low_min));
    cw_arena_release(&arena);
}

/* The P80 is held against the wanted day, as a row of the ledger. */
static void wanted_day_is_judged(void **state)
{
    (void)state;
    static const struct {
        const char *by;
        cw_verdict verdict;
    } rows[] = {{"2026-08-31", CW_HOLDS}, {"2026-05-06", CW_FAILS}};
    for (int k = 0; k < 2; k++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of(
            &arena, cw_arena_print(&arena, "%sschedule: {start: 2026-05-04, by: %s, runs: 100}\n",
                                   RUN, rows[k].by));
        int found = 0;
        for (int i = 0; i < plan->checks.count; i++)
            if (strcmp(plan->checks.items[i].id, "schedule.by") == 0) {
                found++;
                assert_int_equal(plan->checks.items[i].verdict, rows[k].verdict);
                NEAR(plan->checks.items[i].demand, plan->schedule.finish.p80, 1e-12);
            }
        assert_int_equal(found, 1);
        cw_arena_release(&arena);
    }
}

/* What cannot end within the calendar is said. */
static void endless_work_is_undecided(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, RUN "schedule: {start: 2026-05-04, days_per_week: 1, shift: 1 h, runs: 10}\n"
                    "profile: {overrides: [{row: weather.rain, value: 0.95, because: test}]}\n");
    bool found = false;
    for (int i = 0; i < plan->checks.count; i++)
        found = found || (strcmp(plan->checks.items[i].id, "schedule.end") == 0 &&
                          plan->checks.items[i].verdict == CW_UNDECIDED);
    assert_true(found);
    cw_arena_release(&arena);
}

/* Book, drawings and JSON say the same days, and nothing on a drawing lies on another text. */
static void schedule_is_shown(void **state)
{
    (void)state;
    static const double frames[][2] = {{517, 560}, {1000, 600}};
    static const char *const sections[] = {SCHEDULE, "schedule: {start: 2026-05-04, runs: 0}\n",
                                           ("schedule: {start: 2026-05-04, by: 2027-12-24, off: "
                                            "\"2026-05-25, 2026-07-03\", runs: 20}\n")};
    for (int k = 0; k < 3; k++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of(&arena, cw_arena_print(&arena, "%s%s", RUN, sections[k]));
        for (int f = 0; f < 2; f++) {
            const cw_drawing *bars = cw_draw_schedule(plan, frames[f][0], frames[f][1], &arena);
            const cw_drawing *advance =
                cw_draw_advance(plan, frames[f][0], frames[f][1] * 0.6, &arena);
            const cw_overlap *list = NULL;
            assert_int_equal(bars->dropped_count + advance->dropped_count, 0);
            if (cw_drawing_overlaps(bars, &arena, &list) > 0 ||
                cw_drawing_overlaps(advance, &arena, &list) > 0)
                fail_msg("case %d, frame %d: \"%s\" and \"%s\" overlap", k, f, list->a, list->b);
            int texts = 0;
            for (int i = 0; i < bars->count; i++) {
                const cw_item *item = &bars->items[i];
                if (item->kind != CW_ITEM_TEXT)
                    continue;
                texts++;
                if (item->at.x < 0.0 || item->at.x > frames[f][0] || item->at.y < 0.0 ||
                    item->at.y > frames[f][1])
                    fail_msg("\"%s\" lies outside the sheet", item->text);
            }
            assert_true(texts > plan->schedule.bar_count);
        }
        const char *json = cw_plan_json(plan, &arena);
        assert_non_null(strstr(json, "\"first_day\": \"2026-05-04\""));
        const char *book = cw_page_text(cw_book(plan, CW_PAPER_LETTER, &arena), 110, &arena);
        assert_non_null(strstr(book, "Last day without chance"));
        assert_true((strstr(book, "four times in five") != NULL) == (k != 1));
        cw_arena_release(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_section_no_schedule),    cmocka_unit_test(dates_by_hand),
        cmocka_unit_test(chance_makes_it_later),     cmocka_unit_test(wanted_day_is_judged),
        cmocka_unit_test(endless_work_is_undecided), cmocka_unit_test(schedule_is_shown),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
