/* Ends and obstacles in the plan: whole jobs, with answers by hand or by geometry that other tests
 * hold. */
#include "plan_test_help.h"

#include "cw/units.h"

/* ---- ends ---- */

/* Road 520.00 at 0 %, 12 ft at 2 %, 8 ft at 4 %, slopes 2:1 (JOB_SIDE); the box is 4 ft by 11 in
 * with its headwall 1 ft over it. */
#define END_JOB(side, skew, cut, ends)                                                             \
    JOB_HEAD JOB_ROAD("0%", side) "run:\n  skew: " skew                                            \
                                  "\n  invert: 505 ft\n  slope: 0%\n  cut: " cut                   \
                                  "\n  overrun: 12 ft\n" ends JOB_BOX JOB_NO_TONGUE                \
                                  "pieces: {lengths: [6 ft, 4 ft]}\n"

#define WINGS                                                                                      \
    "  outlet:\n    left_wing: {flare: 30 deg, tip_height: 2 ft}\n    right_wing: {flare: 30 "     \
    "deg, tip_height: 2 ft}\n"                                                                     \
    "    apron: {thickness: 8 in}\n    cutoff: {depth: 3 ft}\n"                                    \
    "  inlet:\n    left_wing: {flare: 30 deg, tip_height: 2 ft}\n    right_wing: {flare: 30 deg, " \
    "tip_height: 2 ft}\n"

/* A point of an end is where the barrel's own line puts it, for both sides of the road, skews and
 * ends. */
static void points_of_ends_lie_where_the_line_says(void **state)
{
    (void)state;
    static const char *const jobs[] = {
        END_JOB("left", "20 deg", "square", WINGS), END_JOB("right", "20 deg", "square", WINGS),
        END_JOB("left", "-15 deg", "road", WINGS), END_JOB("right", "-15 deg", "road", WINGS)};
    for (int i = 0; i < 4; i++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of(&arena, jobs[i]);
        const cw_run_line *line = &plan->barrels[0].line;
        for (int end = 0; end < 2; end++) {
            const cw_plan_end_works *works = end ? &plan->inlet.works : &plan->outlet.works;
            for (int k = 0; k < 4; k++) {
                const cw_end_point point = {3.0 * k - 2.0, 7.0 - 5.0 * k};
                const cw_run_place got = cw_plan_end_place(works, plan->path.frame.inlet, point);
                const double at_ft = end ? line->length_ft + point.out_ft : -point.out_ft;
                const cw_run_place want = cw_run_beside(line, at_ft, point.right_ft);
                NEAR(got.northing_ft, want.northing_ft, 1e-6);
                NEAR(got.easting_ft, want.easting_ft, 1e-6);
                NEAR(got.u_ft, want.u_ft, 1e-6);
                NEAR(got.a_ft, want.a_ft, 1e-6);
            }
        }
        cw_arena_release(&arena);
    }
}

/* Without grade of the road and with ends along it the wings are those of the formula: 2 (H1 -
 * 2)/cos(30 +- 20), H1 the higher of headwall and fill.  Inlet right, skew toward rising stations:
 * flare and skew add on the left at the inlet, on the right at the outlet; the other way round with
 * the inlet left. */
static void skewed_wings_follow_the_formula(void **state)
{
    (void)state;
    for (int right = 0; right < 2; right++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of(&arena, right ? END_JOB("right", "20 deg", "road", WINGS)
                                                    : END_JOB("left", "20 deg", "road", WINGS));
        ledger_is_sound(plan);
        for (int end = 0; end < 2; end++) {
            const cw_plan_end *at = end ? &plan->inlet : &plan->outlet;
            const int long_side = (right == 1) == (end == 1) ? CW_END_LEFT : CW_END_RIGHT;
            for (int side = 0; side < 2; side++) {
                const cw_plan_wing *wing = &at->works.wings[side];
                const double gamma = side == long_side ? 50.0 : 10.0;
                NEAR(wing->take.from_normal_deg, gamma, 1e-9);
                const double high_ft = fmax(at->wall_top_ft, wing->fill_root_ft);
                NEAR(wing->take.length_ft, 2.0 * (high_ft - 2.0) / cos(gamma * CW_RAD_PER_DEG),
                     1e-6);
                assert_true(wing->fill_tip_ft <= 2.0 + 1e-6);
                verdict_is(plan, "ends.wing-tip", CW_HOLDS);
            }
            // Both tips stand equally far from the face.
            NEAR(at->works.wings[0].take.out_ft, at->works.wings[1].take.out_ft, 1e-6);
        }
        cw_arena_release(&arena);
    }
}

/* The road's grade carries the fill up toward one side: that wing is longer, and still the tip is
 * not overtopped. */
static void grade_lengthens_the_higher_side(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena,
        JOB_HEAD JOB_ROAD(
            "4%",
            "right") "run: {invert: 505 ft, slope: 0%, overrun: 12 ft, "
                     "outlet: {left_wing: {flare: 30 deg}, right_wing: {flare: 30 deg}}}\n" JOB_BOX
                         JOB_NO_TONGUE "pieces: {lengths: [6 ft, 4 ft]}\n");
    // Inlet right of the road: looking upstream, up-station is left.
    const cw_plan_wing *wings = plan->outlet.works.wings;
    assert_true(wings[CW_END_LEFT].take.length_ft > wings[CW_END_RIGHT].take.length_ft + 0.1);
    for (int side = 0; side < 2; side++)
        assert_true(wings[side].fill_tip_ft <= 2.0 + 1e-6);
    verdict_is(plan, "ends.wing-tip", CW_HOLDS);
    cw_arena_release(&arena);
}

/* A wing of 6 ft ends where the fill is still high. */
static void short_wings_fail(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena,
        END_JOB("right", "0 deg", "square",
                "  outlet:\n    left_wing: {kind: straight, length: 6 ft, tip_height: 2 ft}\n"));
    const cw_check *row = verdict_is(plan, "ends.wing-tip", CW_FAILS);
    // 6 ft out the fill is 3 ft lower than at the face (2:1).
    NEAR(row->capacity, plan->outlet.works.wings[CW_END_LEFT].fill_root_ft - 3.0 - 0.01, 1e-6);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* 60 deg of flare and 25 deg of skew: 85 deg from the normal on one side. */
static void wings_along_the_road_are_for_a_person_to_judge(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena,
        END_JOB("right", "25 deg", "road",
                "  inlet:\n    left_wing: {flare: 60 deg}\n    right_wing: {flare: 60 deg}\n"));
    const cw_check *row = row_at(plan, "ends.wing-direction", "inlet, left wing");
    assert_non_null(row);
    assert_int_equal(row->verdict, CW_UNDECIDED);
    NEAR(row->demand, 85.0, 1e-9);
    assert_int_equal(row_at(plan, "ends.wing-direction", "inlet, right wing")->verdict, CW_HOLDS);
    cw_arena_release(&arena);
}

/* 75 deg of flare and 20 deg of skew turn back to the road: no length follows. */
static void a_wing_that_turns_back_fails(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, END_JOB("right", "20 deg", "road", "  inlet:\n    left_wing: {flare: 75 deg}\n"));
    verdict_is(plan, "ends.wing-direction", CW_FAILS);
    assert_false(plan->inlet.works.wings[CW_END_LEFT].has_take);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* A tip above the headwall has no shape. */
static void a_tip_above_the_headwall_fails(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, END_JOB("right", "0 deg", "square",
                                                  "  inlet:\n    left_wing: {tip_height: 9 ft}\n"));
    const cw_check *row = verdict_is(plan, "ends.wing-shape", CW_FAILS);
    assert_non_null(strstr(row->mend, "tip of the wing stands 9 ft"));
    cw_arena_release(&arena);
}

static double quantity_of(const cw_plan *plan, const char *item)
{
    for (int i = 0; i < plan->quantity_count; i++)
        if (strcmp(plan->quantities[i].item, item) == 0)
            return plan->quantities[i].exact;
    fail_msg("no quantity %s", item);
    return 0.0;
}

/* The quantities are the sums of wings, apron and cutoff wall. */
static void quantities_add_up(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, END_JOB("right", "20 deg", "road", WINGS));
    const cw_plan_end_works *works = &plan->outlet.works;
    double wall_cy = 0.0, footing_cy = 0.0,
           dug_cy = works->apron.excavation_cy + works->cutoff.excavation_cy;
    for (int side = 0; side < 2; side++) {
        // Hand: length x (root + tip)/2 and 2 ft below the invert, 1 ft thick.
        const cw_plan_wing *wing = &works->wings[side];
        wall_cy += wing->take.length_ft * ((wing->root_ft + 2.0) / 2.0 + 2.0) / 27.0;
        footing_cy += wing->take.length_ft * 0.6 * (wing->root_ft + 2.0) / 27.0;
        dug_cy += wing->take.length_ft * (0.6 * (wing->root_ft + 2.0) + 2.0) * 3.0 / 27.0;
    }
    NEAR(quantity_of(plan, "Outlet wings, cast in place"), wall_cy, 1e-9);
    NEAR(quantity_of(plan, "Outlet wing footings"), footing_cy, 1e-9);
    NEAR(quantity_of(plan, "Outlet digging below the invert"), dug_cy, 1e-9);
    // Both edges of the apron lie along the road: a trapezoid.
    NEAR(works->apron.area_sqft,
         (works->width_ft + works->apron.edge_ft) / 2.0 * works->wings[0].take.out_ft, 1e-6);
    NEAR(quantity_of(plan, "Outlet apron, concrete"), works->apron.area_sqft * 8.0 / 12.0 / 27.0,
         1e-9);
    NEAR(quantity_of(plan, "Outlet cutoff wall, cast in place"),
         works->apron.edge_ft * (3.0 - 8.0 / 12.0) / 27.0, 1e-9);
    cw_arena_release(&arena);
}

/* ---- obstacles ---- */

/* 120 ft at 1 % under level ground at 512.00, outlet invert 500.00.  Bottom of the cut 18 in under
 * the invert (10 in floor, 2 in leveling, 6 in bedding): 498.50 at the outlet, 499.10 at 60 ft.
 * Half the bottom 13.667/2 + 3 = 9.8333 ft, faces 1.5:1. */
#define CUT_JOB(rest)                                                                              \
    JOB_HEAD "run: {invert: 500.00 ft, slope: 1%, length: 120 ft, end_tolerance: 1 in}\n" JOB_BOX  \
             "pieces: {lengths: [6 ft, 4 ft], pick_limit: 40000 lb}\n"                             \
             "ground: {profile: [{at: 0 ft, elevation: 512 ft}, {at: 120 ft, elevation: 512 "      \
             "ft}]}\n" rest

#define UTILITY(values)                                                                            \
    CUT_JOB("obstacles:\n  utilities:\n    - {name: Main, diameter: 12 in, " values "}\n")

static void a_narrow_right_of_way_fails_by_how_much(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, CUT_JOB("obstacles: {right_of_way_left: 25 ft, right_of_way_right: 31 ft}\n"));
    ledger_is_sound(plan);
    // Hand: 9.8333 + 1.5 x 13.5 = 30.083 ft.
    const cw_check *left = row_at(plan, "conflict.right-of-way", "left"),
                   *right = row_at(plan, "conflict.right-of-way", "right");
    assert_int_equal(left->verdict, CW_FAILS);
    assert_int_equal(right->verdict, CW_HOLDS);
    NEAR(left->demand, 30.083, 2e-3);
    NEAR(left->capacity, 25.0, 1e-9);
    assert_non_null(strstr(
        left->mend, "5.08 ft over the line: shore or shield this side: upright, it needs 9.83 ft"));
    // Nobody stands inside the bottom itself.
    const cw_plan *tight = plan_of(&arena, CUT_JOB("obstacles: {right_of_way_left: 9 ft}\n"));
    assert_non_null(strstr(verdict_is(tight, "conflict.right-of-way", CW_FAILS)->mend,
                           "even an upright face needs 9.83 ft"));
    cw_arena_release(&arena);
}

/* A line that comes nearer: 40 ft off at the outlet, 22 ft at the inlet; there the cut is 9.8333
 * + 1.5 x 12.3 = 28.28 ft. */
static void a_line_that_closes_in_fails_where_it_is_nearest(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena,
        CUT_JOB(
            "obstacles:\n  boundaries:\n    - {name: Fence, from: 0 ft, from_offset: -40 ft, to: "
            "120 ft, to_offset: -22 ft}\n"
            "    - {name: Wall, from: 300 ft, from_offset: 5 ft, to: 400 ft, to_offset: 5 ft}\n"));
    const cw_check *row = row_at(plan, "conflict.right-of-way", "Fence");
    assert_int_equal(row->verdict, CW_FAILS);
    NEAR(row->demand, 28.283, 5e-3);
    NEAR(row->capacity, 22.0, 0.05);
    assert_null(row_at(plan, "conflict.right-of-way", "Wall"));
    cw_arena_release(&arena);
}

/* Top at 511.00: centre 510.50, bottom of the cut 499.10, top of the box 505.517: 4.483 ft clear of
 * the box, 11.9 ft inside the cut, 19.667 + 3 x 11.9 = 55.37 ft exposed. */
static void a_crossing_main_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, UTILITY("at: 60 ft, elevation: 511 ft"));
    ledger_is_sound(plan);
    const cw_plan_utility *found = &plan->conflicts.utilities[0];
    NEAR(found->box_gap_ft, 4.483, 2e-3);
    NEAR(found->cut_gap_ft, -11.9, 5e-3);
    NEAR(found->exposed_ft, 55.37, 5e-3);
    assert_int_equal(verdict_is(plan, "conflict.box", CW_HOLDS)->has_numbers, true);
    verdict_is(plan, "conflict.cut", CW_FAILS);
    verdict_is(plan, "conflict.located", CW_UNDECIDED);
    // The same by its cover: 1 ft under the ground.
    const cw_plan *depth = plan_of(&arena, UTILITY("at: 60 ft, depth: 1 ft"));
    NEAR(depth->conflicts.utilities[0].box_gap_ft, found->box_gap_ft, 1e-9);
    // And as a line from side to side.
    const cw_plan *line = plan_of(
        &arena,
        UTILITY(
            "from: 60 ft, from_offset: -80 ft, to: 60 ft, to_offset: 80 ft, elevation: 511 ft"));
    NEAR(line->conflicts.utilities[0].box_gap_ft, found->box_gap_ft, 1e-6);
    NEAR(line->conflicts.utilities[0].cut_gap_ft, found->cut_gap_ft, 1e-6);
    NEAR(line->conflicts.utilities[0].exposed_ft, found->exposed_ft, 160.0 / 240.0 * 2.0);
    cw_arena_release(&arena);
}

/* What is stated and what is agreed moves the verdicts. */
static void agreement_settles_a_utility(void **state)
{
    (void)state;
    static const struct {
        const char *values;
        cw_verdict box, cut, located;
    } rows[] = {
        {"at: 60 ft, elevation: 511 ft, support: hang", CW_HOLDS, CW_UNDECIDED, CW_UNDECIDED},
        {"at: 60 ft, elevation: 511 ft, support: hang, accepted: letter 3, located: ticket 9",
         CW_HOLDS, CW_HOLDS, CW_HOLDS},
        // Hanging does not take it out of the box: its centre at 504.5 lies in the concrete.
        {"at: 60 ft, elevation: 505 ft, support: hang, accepted: letter 3, located: ticket 9",
         CW_FAILS, CW_HOLDS, CW_HOLDS},
        {"at: 60 ft, elevation: 505 ft, support: relocate, located: ticket 9", CW_UNDECIDED,
         CW_UNDECIDED, CW_HOLDS},
        {"at: 60 ft, elevation: 505 ft, support: relocate, accepted: letter 3, located: ticket 9",
         CW_HOLDS, CW_HOLDS, CW_HOLDS},
        {"at: 60 ft, elevation: 511 ft, status: abandoned", CW_HOLDS, CW_UNDECIDED, CW_UNDECIDED},
        {"at: 60 ft, elevation: 511 ft, status: abandoned, support: remove, accepted: letter 3, "
         "located: dead",
         CW_HOLDS, CW_HOLDS, CW_HOLDS},
        // 1.4 ft under the bottom at 499.10: clear.
        {"at: 60 ft, elevation: 497.6 ft, located: ticket 9", CW_HOLDS, CW_HOLDS, CW_HOLDS},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        const char *text = cw_arena_print(
            &arena, "%s%s}\n",
            CUT_JOB("obstacles:\n  utilities:\n    - {name: Main, diameter: 12 in, "),
            rows[i].values);
        const cw_plan *plan = plan_of(&arena, text);
        ledger_is_sound(plan);
        verdict_is(plan, "conflict.box", rows[i].box);
        verdict_is(plan, "conflict.cut", rows[i].cut);
        verdict_is(plan, "conflict.located", rows[i].located);
        cw_arena_release(&arena);
    }
}

/* Beside the cut, 40 ft off with its centre at 506.5: at the outlet (40 - 9.8333 - 1.5 x 8)/1.803 -
 * 0.5 = 9.58 ft, at 120 ft more. */
static void a_main_beside_the_cut(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena,
        UTILITY("from: 0 ft, from_offset: 40 ft, to: 120 ft, to_offset: 40 ft, elevation: 507 ft"));
    NEAR(plan->conflicts.utilities[0].cut_gap_ft, 9.577, 5e-3);
    NEAR(plan->conflicts.utilities[0].at_ft, 0.0, 1e-9);
    verdict_is(plan, "conflict.cut", CW_HOLDS);
    assert_null(row_of(plan, "conflict.located")); // farther than the tolerance zone
    // 22 ft off it lies in the cut's slope.
    const cw_plan *near_plan = plan_of(
        &arena,
        UTILITY(
            "from: 0 ft, from_offset: -21 ft, to: 120 ft, to_offset: -21 ft, elevation: 507 ft"));
    verdict_is(near_plan, "conflict.cut", CW_FAILS);
    cw_arena_release(&arena);
}

/* Past the reach of the cut, and above the ground. */
static void far_and_overhead_lines_are_told(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    verdict_is(plan_of(&arena, UTILITY("at: 170 ft, elevation: 508 ft")), "conflict.outside",
               CW_UNDECIDED);
    verdict_is(plan_of(&arena, UTILITY("at: 60 ft, elevation: 540 ft")), "conflict.overhead",
               CW_UNDECIDED);
    cw_arena_release(&arena);
}

/* The hold before digging names what must be located. */
static void the_order_names_what_to_locate(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, UTILITY("at: 60 ft, elevation: 511 ft"));
    const int step = cw_plan_step_find(plan, "clear");
    assert_true(step >= 0);
    assert_non_null(
        strstr(plan->steps[step].limit, "Main located and supported before a machine digs"));
    cw_arena_release(&arena);
}

/* Footing at 507.00, nearest edge 20 ft off: at the outlet the cut goes 8.5 ft below it, 20
 * - 9.8333 = 10.167 ft off: holds; the top edge at 30.08 ft lies under it: fails.  16 ft off: 6.167
 * ft fails the line.  An engineer's design settles both. */
static void footings_beside_the_cut(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
#define SHED(near, more)                                                                           \
    CUT_JOB("obstacles:\n  structures:\n    - {name: Shed, from: 0 ft, to: 30 ft, near: " near     \
            ", far: 50 ft, foundation: 507 ft" more "}\n")
    const cw_plan *plan = plan_of(&arena, SHED("20 ft", ""));
    ledger_is_sound(plan);
    const cw_check *line = verdict_is(plan, "conflict.footing", CW_HOLDS);
    NEAR(line->demand, 10.1667, 1e-3);
    NEAR(line->capacity, 8.5, 2e-3);
    NEAR(verdict_is(plan, "conflict.edge", CW_FAILS)->demand, 20.0 - 30.083, 2e-3);
    const cw_plan *tight = plan_of(&arena, SHED("16 ft", ""));
    verdict_is(tight, "conflict.footing", CW_FAILS);
    const cw_plan *designed = plan_of(&arena, SHED("16 ft", ", accepted: sheet S-2"));
    verdict_is(designed, "conflict.footing", CW_HOLDS);
    assert_null(row_of(designed, "conflict.edge"));
    cw_arena_release(&arena);
}

/* ---- traffic ---- */

#define PHASE_JOB(values)                                                                          \
    JOB_HEAD JOB_ROAD("0%", "right") "run: {invert: 505 ft, slope: 0%, length: 60 ft, "            \
                                     "outlet_distance: 30 ft, end_tolerance: 1 in}\n" JOB_BOX      \
                                     "pieces: {lengths: [6 ft], pick_limit: 40000 lb}\nphases: "   \
                                     "[{name: First, at: 30 ft, " values "}]\n"

/* At the centre line the road is at 520.00 and the bottom at 503.50: 16.5 ft.  Sloped 3 + 24.75 + 2
 * + 2 = 31.75 ft; shored 6 ft. */
static void faces_beside_traffic(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *wide = plan_of(&arena, PHASE_JOB("lane: 32 ft"));
    ledger_is_sound(wide);
    const cw_check *row = verdict_is(wide, "conflict.phase-fit", CW_HOLDS);
    NEAR(row->demand, 31.75, 0.01);
    // The top edge is 27.75 ft out, the lane 4.25 ft from it, the cut 16.5 ft deep.
    verdict_is(wide, "conflict.phase-load", CW_UNDECIDED);
    const cw_plan *narrow = plan_of(&arena, PHASE_JOB("lane: 20 ft"));
    assert_non_null(
        strstr(verdict_is(narrow, "conflict.phase-fit", CW_UNDECIDED)->mend, "write face: shore"));
    const cw_plan *stated = plan_of(&arena, PHASE_JOB("lane: 20 ft, face: slope"));
    verdict_is(stated, "conflict.phase-fit", CW_FAILS);
    assert_null(row_of(stated, "conflict.phase-load"));
    const cw_plan *shored = plan_of(&arena, PHASE_JOB("lane: 20 ft, face: shore"));
    NEAR(verdict_is(shored, "conflict.phase-fit", CW_HOLDS)->demand, 6.0, 1e-9);
    // Edge at 4 ft, lane 16 ft from it, nearer than the depth of 16.5 ft.
    verdict_is(shored, "conflict.phase-load", CW_UNDECIDED);
    const cw_plan *none = plan_of(&arena, PHASE_JOB("lane: 5 ft, lane_after: 40 ft"));
    assert_non_null(
        strstr(verdict_is(none, "conflict.phase-fit", CW_FAILS)->mend, "1.00 ft is missing"));
    const cw_check *after = row_at(none, "conflict.phase-fit", "downstream");
    assert_int_equal(after->verdict, CW_HOLDS);
    const cw_plan *bare = plan_of(&arena, PHASE_JOB("within: 24 in"));
    assert_false(bare->conflicts.present);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(points_of_ends_lie_where_the_line_says),
        cmocka_unit_test(skewed_wings_follow_the_formula),
        cmocka_unit_test(grade_lengthens_the_higher_side),
        cmocka_unit_test(short_wings_fail),
        cmocka_unit_test(wings_along_the_road_are_for_a_person_to_judge),
        cmocka_unit_test(a_wing_that_turns_back_fails),
        cmocka_unit_test(a_tip_above_the_headwall_fails),
        cmocka_unit_test(quantities_add_up),
        cmocka_unit_test(a_narrow_right_of_way_fails_by_how_much),
        cmocka_unit_test(a_line_that_closes_in_fails_where_it_is_nearest),
        cmocka_unit_test(a_crossing_main_by_hand),
        cmocka_unit_test(agreement_settles_a_utility),
        cmocka_unit_test(a_main_beside_the_cut),
        cmocka_unit_test(far_and_overhead_lines_are_told),
        cmocka_unit_test(the_order_names_what_to_locate),
        cmocka_unit_test(footings_beside_the_cut),
        cmocka_unit_test(faces_beside_traffic),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
