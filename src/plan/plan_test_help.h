/** @file
 * Jobs as text for the tests of the plan.  The parts are joined by string concatenation. */
#ifndef CW_PLAN_TEST_HELP_H
#define CW_PLAN_TEST_HELP_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cw/plan.h"
#include "cw/text.h"
#include "cw/yaml.h"

/** Accepted form and a named datum, so that only what a test is about stays open. */
#define JOB_HEAD                                                                                   \
    "format: 1\n"                                                                                  \
    "job: {name: Test, number: T-1}\n"                                                             \
    "acceptance: {form: accepted, reference: SP 1}\n"                                              \
    "survey: {datum: Local, benchmark: BM 1, northing: 2000 ft, easting: 1000 ft, azimuth: 75 "    \
    "deg}\n"

/** Base 16,650 lb and lid 11,275 lb for 6 ft (hand: src/weight/weight_test.c). */
#define JOB_BOX                                                                                    \
    "box: {form: lid, span: 12 ft, rise: 4 ft, wall: 10 in, floor: 10 in, top: 11 in, haunch: 8 "  \
    "in}\n"
#define JOB_NO_TONGUE "joint: {tongue: 0 in, groove: 0 in}\n"

/** Level ground 4 ft over an invert at 500 ft, and a section of sealant that fits the joint of JOB_BOX. */
#define JOB_GROUND                                                                                 \
    "ground: {profile: [{at: -50 ft, elevation: 504 ft}, {at: 200 ft, elevation: 504 ft}]}\n"      \
    "sealant: {sizes: [1-1/4 in], width: 3/4 in}\n"

/** The worked road: grade point 520.00 ft, hinge 20 ft out and 0.56 ft down, 2:1 beyond. */
#define JOB_SIDE "{strips: [{width: 12 ft, fall: 2%}, {width: 8 ft, fall: 4%}], side_slope: 2:1}"
#define JOB_ROAD(grade, side)                                                                      \
    "road:\n  station: 12+34.50\n  elevation: 520.00 ft\n  grade: " grade "\n  inlet_side: " side  \
    "\n  outlet_template: " JOB_SIDE "\n  inlet_template: " JOB_SIDE "\n"

/** The job of @p text, or a failed test with the findings printed. */
static inline const cw_job *job_of(cw_arena *arena, const char *text)
{
    cw_diags diags = cw_diags_on(arena);
    const cw_entries *entries = cw_yaml_read(text, strlen(text), "job.yaml", arena, &diags);
    const cw_job *job = entries ? cw_job_build(entries, NULL, arena, &diags) : NULL;
    for (int i = 0; !job && i < diags.count; i++)
        print_error("%s\n", cw_diag_line(arena, &diags.items[i]));
    if (!job)
        print_error("%s\n", text);
    assert_non_null(job);
    return job;
}

static inline const cw_plan *plan_of(cw_arena *arena, const char *text)
{
    return cw_plan_compute(job_of(arena, text), arena);
}

static inline void near_to(double got, double wanted, double tolerance, const char *what, int line)
{
    if (!(fabs(got - wanted) <= tolerance)) {
        print_error("line %d: %s is %.8g, wanted %.8g within %.2g\n", line, what, got, wanted,
                    tolerance);
        fail();
    }
}
#define NEAR(got, wanted, tolerance) near_to(got, wanted, tolerance, #got, __LINE__)

/** The first row of the ledger with this id whose place holds @p where; NULL when there is none. */
static inline const cw_check *row_at(const cw_plan *plan, const char *id, const char *where)
{
    for (int i = 0; i < plan->checks.count; i++)
        if (strcmp(plan->checks.items[i].id, id) == 0 && strstr(plan->checks.items[i].where, where))
            return &plan->checks.items[i];
    return NULL;
}

static inline const cw_check *row_of(const cw_plan *plan, const char *id)
{
    return row_at(plan, id, "");
}

/** The row must be there and come out so. */
static inline const cw_check *verdict_is(const cw_plan *plan, const char *id, cw_verdict verdict)
{
    const cw_check *row = row_of(plan, id);
    if (!row || row->verdict != verdict) {
        print_error("row %s: %s, wanted %s\n", id, row ? cw_verdict_word(row->verdict) : "absent",
                    cw_verdict_word(verdict));
        fail();
    }
    return row;
}

/** What every ledger keeps: see the conditions. */
static inline void ledger_is_sound(const cw_plan *plan)
{
    for (int i = 0; i < plan->checks.count; i++) {
        const cw_check *row = &plan->checks.items[i];
        assert_true(row->id && row->what && row->where && row->clause && row->rests_on &&
                    row->mend);
        for (int j = 0; j < i; j++)
            if (cw_text_same(row->id, plan->checks.items[j].id) &&
                cw_text_same(row->where, plan->checks.items[j].where))
                fail_msg("two rows %s at '%s'", row->id, row->where);
        if (row->verdict != CW_HOLDS && row->mend[0] == '\0')
            fail_msg("row %s at '%s' does not hold and has no remedy", row->id, row->where);
        bool shown = row->working == NULL;
        for (int w = 0; w < plan->working_count && !shown; w++)
            shown = cw_text_same(plan->workings[w].title, row->working);
        if (!shown)
            fail_msg("row %s names a working that is not there: %s", row->id, row->working);
        for (const char *at = row->rests_on; *at;) {
            const size_t length = strcspn(at, ", ");
            char id[64] = "";
            assert_true(length > 0 && length < sizeof id);
            memcpy(id, at, length);
            if (!cw_rows_find(&plan->job->rows, id))
                fail_msg("row %s rests on %s, which is no row", row->id, id);
            at += length;
            at += strspn(at, ", ");
        }
    }
}

#endif
