// The ledger: what holds, what fails, what stands in the way of a division and by how much.
#include "plan_test_help.h"

/* hand: n pieces of 72 in and n - 1 gaps of 1/2 in; six of them make 434.5 in. */
#define SIX(more)                                                                                  \
    JOB_HEAD JOB_BOX JOB_NO_TONGUE "run: {invert: 500 ft, slope: 0%, length: 434.5 in, overrun: "  \
                                   "0 in}\n" more

#define HOOD_BOX                                                                                   \
    "box: {form: double-u, span: 12 ft, rise: 8 ft, leg: 4 ft, wall: 10 in, floor: 10 in, top: "   \
    "11 in, haunch: 8 in}\n"

static void mend_holds(const cw_plan *plan, const char *id, const char *where, const char *words)
{
    const cw_check *row = row_at(plan, id, where);
    if (!row) {
        for (int i = 0; i < plan->checks.count; i++)
            print_error("%s at '%s': %s\n", plan->checks.items[i].id, plan->checks.items[i].where,
                        plan->checks.items[i].mend);
        fail_msg("no row %s at '%s'", id, where);
        return;
    }
    assert_int_equal(row->verdict, CW_FAILS);
    if (!strstr(row->mend, words))
        fail_msg("row %s: '%s' lacks '%s'", id, row->mend, words);
}

static const cw_plan *blocked(cw_arena *arena, const char *text)
{
    const cw_plan *plan = plan_of(arena, text);
    assert_false(plan->laid);
    verdict_is(plan, "layout.found", CW_FAILS);
    assert_int_equal(cw_checks_worst(&plan->checks), CW_FAILS);
    ledger_is_sound(plan);
    return plan;
}

/* ---- no division ---- */

static void gap_band_in_the_way(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: 436.375 in is 6 x 72 + 5 x 7/8; with 3/4 the run ends at 435.75, 5/8 in short.
    const cw_plan *plan =
        blocked(&arena, JOB_HEAD JOB_BOX "run: {invert: 500 ft, slope: 0%, length: 436.375 in, "
                                         "end_tolerance: 0 in, overrun: 0 in}\n"
                                         "pieces: {lengths: [6 ft]}\n");
    mend_holds(plan, "layout.blocked-by-gap", "barrel 1", "a greatest gap of 7/8\"");
    mend_holds(plan, "layout.blocked-by-end", "barrel 1", "5/8\" short");
    cw_arena_release(&arena);
}

static void opening_in_the_way(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: the third gap is 217 to 217.5 in; the opening keeps 216 +- (6 + 12), 198 to 234, clear:
    // 17 in less on the inlet side would do, 19.5 on the outlet side.
    const cw_plan *plan = blocked(
        &arena, SIX("pieces: {lengths: [6 ft]}\nopenings: [{name: Lead, face: left, at: 18 ft, "
                    "height: 30 in, diameter: 12 in, clear: 12 in}]\n"));
    mend_holds(plan, "layout.blocked-by-opening", "Lead (opening 1), barrel 1",
               "narrow its keep-clear by 1'-5\"");
    // Across the seat it binds bases and hoods alike, and is still named once.
    plan = blocked(&arena, JOB_HEAD HOOD_BOX
                   "run: {invert: 500 ft, slope: 0%, length: 434.5 in, overrun: 0 in}\n"
                   "pieces: {lengths: [6 ft]}\nopenings: [{name: Lead, face: left, at: 18 ft, "
                   "height: 48 in, diameter: 12 in, clear: 12 in}]\n");
    mend_holds(plan, "layout.blocked-by-opening", "Lead (opening 1), barrel 1",
               "narrow its keep-clear by 1'-5\"");
    cw_arena_release(&arena);
}

static void phase_line_in_the_way(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: the joints next to 180 in are at 144.75 and 217.25; 35.25 - 12 = 23.25 in more.
    const cw_plan *plan = blocked(
        &arena,
        SIX("pieces: {lengths: [6 ft]}\nphases: [{name: One, at: 15 ft, within: 12 in}]\n"));
    mend_holds(plan, "layout.blocked-by-joint", "phase line 1, barrel 1", "1'-11 1/4\" farther");
    cw_arena_release(&arena);
}

static void weight_in_the_way(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: 16,650 lb x 1.05 = 17,482.5 lb.
    const cw_plan *plan =
        blocked(&arena, SIX("pieces: {lengths: [6 ft], pick_limit: \"15,000.5 lb\"}\n"));
    mend_holds(plan, "layout.blocked-by-weight", "barrel 1", "2,482 lb higher");
    cw_arena_release(&arena);
}

static void stagger_in_the_way(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // One length in both rows: every top joint stands over a base joint.
    const cw_plan *plan =
        blocked(&arena, SIX("pieces: {lengths: [6 ft], rows: staggered, stagger: 12 in}\n"));
    mend_holds(plan, "layout.blocked-by-stagger", "barrel 1", "a stagger of 0\"");
    cw_arena_release(&arena);
}

static void ends_in_the_way(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: two bases of 10 ft end 2 ft short of two lids of 11 ft.
    const cw_plan *plan =
        blocked(&arena, JOB_HEAD JOB_BOX
                "run: {invert: 500 ft, slope: 0%, length: 240.5 in, overrun: 24 in}\n"
                "pieces: {lengths: [10 ft], top_lengths: [11 ft], rows: staggered, stagger: 6 in}\n");
    mend_holds(plan, "layout.blocked-by-ends", "barrel 1", "an end_tolerance of 2'-0\"");
    cw_arena_release(&arena);
}

static void setups_in_the_way(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: 72 + 60 + 0.5 = 132.5 in needs both lengths: two moulds for bases, two for lids.
    const cw_plan *plan = blocked(&arena, JOB_HEAD JOB_BOX
                                  "run: {invert: 500 ft, slope: 0%, length: 132.5 in, overrun: 0 "
                                  "in}\npieces: {lengths: [6 ft, 5 ft], max_setups: 1}\n");
    mend_holds(plan, "layout.blocked-by-setups", "barrel 1", "4 set-ups");
    cw_arena_release(&arena);
}

/* An end that cannot be found: the road is lower than the box. */
static void no_end_and_no_line(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, JOB_HEAD JOB_ROAD("0%", "right") JOB_BOX
                                  "run: {invert: 519 ft, slope: 1%}\npieces: {lengths: [6 ft]}\n");
    assert_false(plan->laid);
    verdict_is(plan, "run.end", CW_FAILS);
    ledger_is_sound(plan);
    plan = plan_of(&arena, JOB_HEAD JOB_BOX "run: {invert: 500 ft, slope: 0%, length: 60 ft}\n"
                                            "bends: [{at: 0 ft, turn: 4 deg}]\n"
                                            "pieces: {lengths: [6 ft]}\n");
    assert_false(plan->laid);
    verdict_is(plan, "run.line", CW_FAILS);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* ---- openings ---- */

static const cw_plan_type *type_holding(const cw_plan *plan, cw_order_row row, double at_ft)
{
    for (int i = 0; i < plan->piece_count; i++) {
        const cw_plan_piece *piece = &plan->pieces[i];
        if (piece->row == row && piece->start_ft < at_ft && at_ft < piece->end_ft)
            return &plan->types[piece->type];
    }
    fail_msg("no piece at %g ft", at_ft);
    return NULL;
}

static void openings_in_all_faces(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, JOB_HEAD HOOD_BOX JOB_NO_TONGUE
                "run: {invert: 500 ft, slope: 0%, length: 434.5 in}\npieces: {lengths: [6 ft]}\n"
                "openings:\n"
                "  - {name: A, face: left, at: 9 ft, height: 24 in, diameter: 12 in}\n"
                "  - {name: B, face: floor, at: 15 ft, height: 0 in, diameter: 12 in}\n"
                "  - {name: C, face: top, at: 21 ft, height: 12 in, width: 24 in, tall: 12 in}\n"
                "  - {name: D, face: right, at: 27 ft, height: 48 in, diameter: 24 in}\n");
    assert_true(plan->laid);
    // hand: plain base 16,650 lb; pi/4 ft2 through 10 in is 0.65450 ft3, 98.17 lb.
    NEAR(type_holding(plan, CW_ORDER_BASE, 9.0)->weight.weight_lb, 16650.0 - 98.17, 0.05);
    NEAR(type_holding(plan, CW_ORDER_BASE, 15.0)->weight.weight_lb, 16650.0 - 98.17, 0.05);
    // hand: hood 13.6667 x 0.91667 + 2 x 0.8333 x 4 = 19.19444 ft2, 17,275 lb for 6 ft; 2 ft2
    // through 11 in is 275 lb.
    NEAR(type_holding(plan, CW_ORDER_TOP, 9.0)->weight.weight_lb, 17275.0, 0.05);
    NEAR(type_holding(plan, CW_ORDER_TOP, 21.0)->weight.weight_lb, 17275.0 - 275.0, 0.05);
    // hand: half of pi x 1 ft2 through 10 in on either side of the seat: 1.30900 ft3, 196.35 lb.
    NEAR(type_holding(plan, CW_ORDER_BASE, 27.0)->weight.weight_lb, 16650.0 - 196.35, 0.05);
    NEAR(type_holding(plan, CW_ORDER_TOP, 27.0)->weight.weight_lb, 17275.0 - 196.35, 0.05);
    const cw_check *across = verdict_is(plan, "layout.opening-across-seat", CW_UNDECIDED);
    assert_string_equal(across->where, "D (opening 4), barrel 1");
    // hand: A at 108 in; its piece spans 72.5 to 144.5: 35.5 - 6 = 29.5 in.
    NEAR(row_at(plan, "layout.opening-clear", "A ")->demand, 29.5, 1e-9);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

static void opening_past_the_end(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, JOB_HEAD JOB_ROAD("0%", "right") JOB_BOX
        "run: {invert: 505 ft, slope: 1%}\npieces: {lengths: [8 ft, 6 ft, 4 ft]}\n"
        "openings: [{name: Lost, face: left, at: 300 ft, height: 2 ft, diameter: 12 in}]\n");
    assert_true(plan->laid);
    const cw_check *row = verdict_is(plan, "layout.opening-inside", CW_FAILS);
    assert_string_equal(row->where, "Lost (opening 1), barrel 1");
    assert_null(row_of(plan, "layout.opening-clear"));
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* What cannot be cast is a row of the ledger, and the plan goes on without it. */
static void openings_that_cannot_be_cast(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, SIX("pieces: {lengths: [6 ft]}\nopenings:\n"
                    "  - {name: One, face: left, at: 9 ft, height: 24 in, diameter: 12 in}\n"
                    "  - {name: Two, face: left, at: 9.5 ft, height: 24 in, diameter: 12 in}\n"));
    assert_true(plan->laid);
    mend_holds(plan, "weight.shape", "1-B02, Two (opening 2)", "overlap");
    assert_int_equal(type_holding(plan, CW_ORDER_BASE, 9.0)->shape.opening_count, 1);
    ledger_is_sound(plan);

    cw_text text = cw_text_on(&arena);
    cw_text_add(&text, SIX("pieces: {lengths: [6 ft]}\nopenings:\n"));
    for (int i = 0; i < CW_PIECE_OPENINGS_MAX + 2; i++)
        cw_text_print(&text,
                      "  - {name: Weep, face: left, at: %d in, height: 24 in, diameter: 3 in, "
                      "clear: 4 in}\n",
                      84 + 5 * i);
    plan = plan_of(&arena, cw_text_string(&text));
    assert_true(plan->laid);
    mend_holds(plan, "weight.shape", "1-B02, Weep (opening 9)", "at most 8 openings");
    mend_holds(plan, "weight.shape", "1-B02, Weep (opening 10)", "at most 8 openings");
    assert_int_equal(type_holding(plan, CW_ORDER_BASE, 9.0)->shape.opening_count, 8);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* hand: half of 164 in x tan 60 deg is 142 in, more than the 72 in of the piece. */
static void cut_too_slanted(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, JOB_HEAD JOB_ROAD("0%", "right") JOB_BOX
                                  "run: {skew: 60 deg, invert: 505 ft, slope: 0.5%, cut: road}\n"
                                  "pieces: {lengths: [6 ft, 4 ft]}\n");
    assert_true(plan->laid);
    mend_holds(plan, "weight.shape", "1-B01", "longer or the cut flatter");
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* ---- weights ---- */

/* hand: with tongue 0.45 x 18.5 ft2 x 3.5 in and groove 0.5 of it an inner base of 6 ft weighs
 * 16,609.5 lb, the last one (tongue, no groove) 17,014.2 lb; picks 17,440 and 17,865 lb. */
static void last_base_is_the_heaviest(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
#define LAST(limit)                                                                                \
    JOB_HEAD JOB_BOX "run: {invert: 500 ft, slope: 0%, length: 60 ft}\n"                           \
                     "pieces: {lengths: [6 ft, 4 ft], pick_limit: \"" limit "\"}\n"
    const cw_plan *plan = plan_of(&arena, LAST("17,600 lb"));
    assert_true(plan->laid);
    verdict_is(plan, "weight.pick", CW_HOLDS);
    plan = plan_of(&arena, LAST("17,900 lb"));
    const cw_check *row = verdict_is(plan, "weight.pick", CW_HOLDS);
    assert_true(row->demand <= 1.05 * 17014.2 + 0.5);
    cw_arena_release(&arena);
}

static void limit_past_a_place(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: a 4 ft base picks at 11,655 lb, a 6 ft base at 17,483 lb.
    const cw_plan *plan =
        plan_of(&arena, JOB_HEAD JOB_BOX JOB_NO_TONGUE
                "run: {invert: 500 ft, slope: 0%, length: 60 ft}\npieces: {lengths: [6 ft, 4 ft], "
                "pick_limit: \"20,000 lb\", limits: [{beyond: 30 ft, weight: \"13,000 lb\"}]}\n");
    assert_true(plan->laid);
    for (int i = 0; i < plan->piece_count; i++)
        if (plan->pieces[i].end_ft > 30.0)
            NEAR(plan->pieces[i].length_in, 48.0, 0.0);
    const cw_check *row = verdict_is(plan, "weight.pick-beyond", CW_HOLDS);
    NEAR(row->demand, 11655.0, 0.5);
    NEAR(row->capacity, 13000.0, 0.0);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* ---- words and verdicts ---- */

/* A limit that the job states is not said to come from the profile. */
static void limits_name_their_source(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, SIX("pieces: {lengths: [6 ft], payload: \"48,000 lb\"}\n"));
    const cw_check *truck = verdict_is(plan, "weight.truck", CW_HOLDS);
    assert_string_equal(truck->clause, "job file: pieces.payload");
    assert_string_equal(truck->rests_on, "");
    plan = plan_of(&arena, SIX("pieces: {lengths: [6 ft]}\n"));
    truck = verdict_is(plan, "weight.truck", CW_HOLDS);
    assert_string_equal(truck->clause, "common practice");
    assert_string_equal(truck->rests_on, "haul.payload");
    cw_arena_release(&arena);
}

static void verdict_of_the_whole(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, JOB_HEAD JOB_BOX JOB_GROUND "run: {invert: 500 ft, slope: 0%, length: 434.5 in, overrun: 0 in}\n"
                                                    "pieces: {lengths: [6 ft], pick_limit: \"20,000 lb\"}\n");
    assert_int_equal(cw_checks_worst(&plan->checks), CW_HOLDS);
    plan = plan_of(&arena, JOB_HEAD JOB_BOX JOB_GROUND "run: {invert: 500 ft, slope: 0%, length: 434.5 in, overrun: 0 in}\n"
                                                       "pieces: {lengths: [6 ft]}\n"); // no crane chart
    assert_int_equal(cw_checks_worst(&plan->checks), CW_UNDECIDED);
    plan = plan_of(&arena, "format: 1\njob: {name: T, number: N}\n" JOB_BOX
                           "run: {invert: 500 ft, slope: 0%, length: 434.5 in}\n"
                           "pieces: {lengths: [6 ft], pick_limit: \"20,000 lb\"}\n");
    verdict_is(plan, "acceptance.form", CW_UNDECIDED);
    verdict_is(plan, "survey.datum", CW_UNDECIDED);
    plan = plan_of(&arena, "format: 1\njob: {name: T, number: N}\n" JOB_BOX
                           "acceptance: {form: refused, reference: Letter 4}\n"
                           "run: {invert: 500 ft, slope: 0%, length: 434.5 in}\n"
                           "pieces: {lengths: [6 ft]}\n");
    verdict_is(plan, "acceptance.form", CW_FAILS);
    assert_int_equal(cw_checks_worst(&plan->checks), CW_FAILS);
    assert_true(plan->laid);
    cw_arena_release(&arena);
}

/* Limits that fall between two sixteenths are taken on the safe side: 5 mm is 3.15 sixteenths. */
static void limits_between_sixteenths(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, JOB_HEAD JOB_BOX "run: {invert: 500 ft, slope: 0%, length: 433 in, overrun: 0 in}\n"
                                 "joint: {gap_min: 5 mm, gap: 6 mm, gap_max: 13 mm}\n"
                                 "pieces: {lengths: [6 ft]}\n");
    assert_int_equal(plan->problem.gap_min_16, 4);
    assert_int_equal(plan->problem.gap_max_16, 8); // 8.19
    assert_true(plan->laid);
    verdict_is(plan, "layout.gap-room", CW_HOLDS);
    verdict_is(plan, "layout.gap", CW_HOLDS);
    cw_arena_release(&arena);
}

/* The order of setting starts at an outer barrel and leads with two bases. */
static void no_legal_order(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, SIX("pieces: {lengths: [6 ft]}\nbarrels: {count: 3}\n"
                                              "order: {first_barrel: 2}\n"));
    assert_true(plan->laid);
    verdict_is(plan, "order.found", CW_FAILS);
    assert_int_equal(plan->step_count, 0);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* The same openings listed in another order make the same piece. */
static void alike_pieces_share_a_mark(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
#define SMALL "height: 24 in, diameter: 6 in}\n"
    const cw_plan *plan =
        plan_of(&arena, SIX("pieces: {lengths: [6 ft]}\nbarrels: {count: 3}\nopenings:\n"
                            "  - {name: A, barrel: 1, face: left, at: 8.5 ft, " SMALL
                            "  - {name: B, barrel: 1, face: left, at: 9.5 ft, " SMALL
                            "  - {name: C, barrel: 3, face: left, at: 9.5 ft, " SMALL
                            "  - {name: D, barrel: 3, face: left, at: 8.5 ft, " SMALL
                            "  - {name: E, barrel: 2, face: right, at: 8.5 ft, " SMALL));
    assert_true(plan->laid);
    const cw_plan_barrel *barrels = plan->barrels;
    const int first = plan->pieces[barrels[0].bases[1]].type;
    assert_int_equal(plan->pieces[barrels[2].bases[1]].type, first);
    assert_int_not_equal(plan->pieces[barrels[1].bases[1]].type, first);
    assert_int_equal(plan->types[first].count, 2);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gap_band_in_the_way),   cmocka_unit_test(opening_in_the_way),
        cmocka_unit_test(phase_line_in_the_way), cmocka_unit_test(weight_in_the_way),
        cmocka_unit_test(stagger_in_the_way),    cmocka_unit_test(setups_in_the_way),
        cmocka_unit_test(ends_in_the_way),
        cmocka_unit_test(no_end_and_no_line),    cmocka_unit_test(openings_in_all_faces),
        cmocka_unit_test(opening_past_the_end),  cmocka_unit_test(openings_that_cannot_be_cast),
        cmocka_unit_test(cut_too_slanted),       cmocka_unit_test(last_base_is_the_heaviest),
        cmocka_unit_test(limit_past_a_place),    cmocka_unit_test(limits_name_their_source),
        cmocka_unit_test(verdict_of_the_whole),  cmocka_unit_test(limits_between_sixteenths),
        cmocka_unit_test(no_legal_order),        cmocka_unit_test(alike_pieces_share_a_mark),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
