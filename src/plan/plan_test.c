// Whole jobs with expectations worked by hand; the derivation stands beside each.
#include "plan_test_help.h"

#include "cw/units.h"

static const cw_plan_piece *base_of(const cw_plan *plan, int barrel, int index)
{
    return &plan->pieces[plan->barrels[barrel].bases[index]];
}

static const cw_plan_type *type_at(const cw_plan *plan, int barrel, int index)
{
    return &plan->types[base_of(plan, barrel, index)->type];
}

static const cw_plan_quantity *quantity(const cw_plan *plan, const char *item)
{
    for (int i = 0; i < plan->quantity_count; i++)
        if (strcmp(plan->quantities[i].item, item) == 0)
            return &plan->quantities[i];
    fail_msg("no quantity '%s'", item);
    return NULL;
}

/* ---- a straight square run ---- */

/* hand: 16 pieces of 72 in and 15 gaps of 1/2 in are 1159.5 in on the slope; with S = 1.25 %
 * f = sqrt(1.00015625) = 1.000078122, so 1159.5/12/f = 96.61745 ft in plan. */
#define STRAIGHT                                                                                   \
    JOB_HEAD JOB_BOX JOB_NO_TONGUE "run: {invert: 512.34 ft, slope: 1.25%, length: 96.6175 ft}\n"  \
                                   "bedding: {leveling: 0 in, thickness: 6 in}\n"                  \
                                   "pieces: {lengths: [6 ft], pick_limit: \"18,000 lb\"}\n"

static void straight_run_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, STRAIGHT);
    assert_true(plan->laid && !plan->has_surface);
    assert_int_equal(plan->barrels[0].base_count, 16);
    assert_int_equal(plan->barrels[0].top_count, 16);
    NEAR(plan->slope_factor, 1.000078122, 1e-9);
    NEAR(plan->barrels[0].laid_in, 1159.5, 1e-9);
    NEAR(plan->barrels[0].gap_in, 0.5, 0.0);
    NEAR(plan->plan_length_ft, 96.61745, 1e-5);
    NEAR(plan->pay_length_ft, 97.0, 0.0); // halves up
    // hand: piece 11 starts at 10 x 72.5 = 725 in; 725/12/f = 60.4119 ft;
    // 512.34 + 0.0125 x 60.4119 = 513.0951 ft.
    NEAR(base_of(plan, 0, 10)->start_ft, 60.4119, 5e-5);
    NEAR(base_of(plan, 0, 10)->invert_start_ft, 513.0951, 5e-5);
    // hand: the joint is the middle of the gap, 1/4 in before it: 60.3911 ft and 513.0949 ft;
    // floor 10 in and bed 6 in square to the grade are 16/12 f = 1.3334 ft: 511.7615 ft.
    const cw_plan_joint *joint = &plan->barrels[0].joints[10];
    NEAR(joint->at.slope_in, 724.75, 1e-9);
    NEAR(joint->at.invert_ft, 513.0949, 5e-5);
    NEAR(joint->subgrade_ft, 511.7615, 5e-5);
    NEAR(joint->underside_ft - joint->subgrade_ft, 0.5 * plan->slope_factor, 1e-9);
    NEAR(joint->bedding_ft, joint->underside_ft, 1e-9);
    // hand: rise 48 in and lid 11 in are 59/12 f.
    NEAR(joint->top_ft - joint->at.invert_ft, 59.0 / 12.0 * 1.000078122, 1e-8);
    NEAR(joint->seat_ft - joint->at.invert_ft, 4.0 * 1.000078122, 1e-8);
    assert_string_equal(joint->name, "1-B10/11");
    assert_string_equal(plan->barrels[0].joints[0].name, "1 outlet");
    assert_string_equal(plan->barrels[0].joints[16].name, "1 inlet");
    // No road: the survey's azimuth is that of the run; 96.61745 ft at 75 deg.
    NEAR(plan->barrels[0].joints[16].at.place.northing_ft, 2000.0 + 96.61745 * 0.2588190, 1e-4);
    NEAR(plan->barrels[0].joints[16].at.place.easting_ft, 1000.0 + 96.61745 * 0.9659258, 1e-4);
    ledger_is_sound(plan);
    // No ground and no size of sealant are given; nothing fails.
    assert_int_equal(cw_checks_worst(&plan->checks), CW_UNDECIDED);
    for (int i = 0; i < plan->checks.count; i++)
        if (plan->checks.items[i].verdict != CW_HOLDS)
            assert_true(cw_text_same(plan->checks.items[i].id, "trench.ground") || cw_text_same(plan->checks.items[i].id, "sealant.size"));
    cw_arena_release(&arena);
}

static void weights_and_marks(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, STRAIGHT);
    // Ends differ from inner pieces (plain faces), so each row has three marks.
    assert_int_equal(plan->type_count, 6);
    int pieces = 0;
    for (int i = 0; i < plan->type_count; i++) {
        const cw_plan_type *type = &plan->types[i];
        // hand: 18.5 ft2 x 6 ft x 150 and 13.6667 x 0.91667 x 6 x 150; no tongue, so the ends too.
        NEAR(type->weight.weight_lb, type->row == CW_ORDER_BASE ? 16650.0 : 11275.0, 0.01);
        NEAR(type->pick_lb, 1.05 * type->weight.weight_lb, 1e-6);
        for (int j = 0; j < i; j++)
            assert_string_not_equal(type->mark, plan->types[j].mark);
        pieces += type->count;
    }
    assert_int_equal(pieces, plan->piece_count);
    assert_string_equal(type_at(plan, 0, 0)->mark, "B6-A");
    assert_string_equal(type_at(plan, 0, 1)->mark, "B6");
    assert_string_equal(type_at(plan, 0, 14)->mark, "B6");
    assert_string_equal(type_at(plan, 0, 15)->mark, "B6-B");
    assert_string_equal(base_of(plan, 0, 6)->slot, "1-B07");
    // hand: 16 (16,650 + 11,275) = 446,800 lb; 16 x 186.1667 ft3 / 27 = 110.321 yd3.
    NEAR(quantity(plan, "Weight of pieces")->exact, 446800.0, 0.1);
    NEAR(quantity(plan, "Concrete in pieces")->exact, 110.321, 0.001);
    NEAR(quantity(plan, "Transverse joints")->exact, 30.0, 0.0);
    // hand: outside 164 in, 1 ft more each side: 15.6667 ft x 0.5 ft x 96.625 ft / 27.
    NEAR(quantity(plan, "Bedding in place")->exact, 15.66667 * 0.5 * 96.625 / 27.0, 1e-3);
    cw_arena_release(&arena);
}

/* Independent count: fill each truck in the order of setting until weight or places run out. */
static int loads_by_hand(const cw_plan *plan, double payload_lb, int slots)
{
    int loads = 0, aboard = slots;
    double weight_lb = 0.0;
    for (int i = 0; i < plan->piece_count; i++) {
        const double next_lb = plan->types[plan->pieces[plan->setting[i]].type].weight.weight_lb;
        if (aboard == slots || weight_lb + next_lb > payload_lb) {
            loads++;
            aboard = 0;
            weight_lb = 0.0;
        }
        aboard++;
        weight_lb += next_lb;
        assert_int_equal(plan->pieces[plan->setting[i]].load, loads);
    }
    return loads;
}

static void order_and_trucks(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    // hand: 6 x 72 + 5 x 0.5 = 434.5 in = 36.2083 ft at no slope.
    const cw_plan *plan = plan_of(&arena, JOB_HEAD JOB_BOX JOB_NO_TONGUE
                                  "run: {invert: 500 ft, slope: 0%, length: 434.5 in}\n"
                                  "pieces: {lengths: [6 ft], payload: \"47,000 lb\"}\n");
    assert_true(plan->laid);
    assert_int_equal(plan->piece_count, 12);
    for (int i = 0; i < plan->piece_count; i++)
        assert_int_equal(plan->pieces[plan->setting[i]].turn, i + 1);
    // The graph's own checker takes the setting list.
    cw_order_piece list[12];
    for (int i = 0; i < 12; i++) {
        const cw_plan_piece *piece = &plan->pieces[plan->setting[i]];
        list[i] = (cw_order_piece){piece->barrel, piece->row, piece->index};
    }
    const cw_order_verdict verdict = cw_order_check_setting(plan->order, list, 12, &arena);
    assert_true(verdict.legal && verdict.complete);
    // Enumerated by hand for six aligned sections, payload 47,000 lb, 3 places: 4 or 5 loads.
    assert_int_equal(plan->trucks.loads, loads_by_hand(plan, 47000.0, 3));
    assert_in_range(plan->trucks.loads, 4, 5);
    assert_true(cw_plan_step_find(plan, "set 1-B03") > cw_plan_step_find(plan, "set 1-B02"));
    assert_int_equal(cw_plan_step_find(plan, "set 1-B07"), -1);
    cw_arena_release(&arena);
}

/* ---- the skewed crossing ---- */

#define SKEW_RUN(more)                                                                             \
    JOB_HEAD JOB_ROAD("1.5%", "right") "box: {form: lid, span: 10 ft, rise: 6 ft, wall: 10 in, "   \
                                       "floor: 10 in, top: 10 in, haunch: 8 "                      \
                                       "in}\n"                                                     \
                                       "pieces: {lengths: [6 ft]}\n"                               \
                                       "run: {skew: 20 deg, invert: 505 ft, slope: 1%, "           \
                                       "fill_at_end: 94 in, overrun: 5 ft, " more "}\n"

/* derived: s = (b + e + m (z_h - z_i - H)) / (cos 20 + m (g - q)), z_h = 519.44, H = 7.8333,
 * b = 20, g = +-0.01, q = +-0.015 sin 20: inlet 33.21333/0.949427, outlet 33.21333/0.929952;
 * square ends add e = 5.83333 sin 20 = 1.99512 to the numerator. */
static void skewed_ends_by_substitution(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, SKEW_RUN("cut: road"));
    NEAR(plan->inlet.wanted.distance_ft, 34.9823, 5e-5);
    NEAR(plan->outlet.wanted.distance_ft, 35.7151, 5e-5);
    plan = plan_of(&arena, SKEW_RUN("cut: square"));
    NEAR(plan->inlet.wanted.distance_ft, 37.0837, 5e-5);
    NEAR(plan->outlet.wanted.distance_ft, 37.8605, 5e-5);
    // hand: (74.944 f + j)/(6 + j) rounds up to 13 pieces; 13 x 72 + 12 x 0.5 = 942 in, 78.496 ft.
    assert_true(plan->laid);
    assert_int_equal(plan->barrels[0].base_count, 13);
    NEAR(plan->plan_length_ft, 78.496, 5e-4);
    // hand: the fill at the inlet drops 3.552 (cos 20/2 + 0.01 - 0.00513) from 7.8333 to 6.147 ft,
    // under the top of the box, 82 in f = 6.8337 ft.
    NEAR(plan->inlet.laid.height_ft, 6.147, 1e-3);
    assert_int_equal(row_at(plan, "run.end-not-bared", "inlet")->verdict, CW_FAILS);
    assert_int_equal(row_at(plan, "run.end-not-bared", "outlet")->verdict, CW_HOLDS);
    assert_int_equal(cw_checks_worst(&plan->checks), CW_FAILS);
    // hand: cover 8.167 ft at the centre line, 7.503 at the inlet hinge, 7.710 at the outlet hinge.
    NEAR(plan->barrels[0].least_cover.cover_ft, 7.503, 1e-3);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

static void excess_may_be_shared(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, SKEW_RUN("cut: square, excess: shared"));
    // hand: half of 3.552 ft at each end leaves 6.990 ft at the inlet and 7.007 ft at the outlet.
    NEAR(plan->inlet.laid.height_ft, 6.990, 1e-3);
    NEAR(plan->outlet.laid.height_ft, 7.007, 1e-3);
    NEAR(plan->span.outlet_chain_ft, -37.8605 - 1.776, 1e-3);
    NEAR(plan->barrels[0].joints[0].at.invert_ft, 505.0 - 0.01 * 39.6365, 1e-4);
    assert_int_equal(row_at(plan, "run.end-not-bared", "inlet")->verdict, CW_HOLDS);
    // All of it at the outlet: the inlet stands where it is wanted.
    plan = plan_of(&arena, SKEW_RUN("cut: square, excess: outlet"));
    NEAR(plan->span.inlet_chain_ft, 37.0837, 5e-5);
    NEAR(plan->outlet.laid.height_ft, 7.8333 - 3.552 * (0.469846 - 0.01 + 0.00513), 1e-3);
    cw_arena_release(&arena);
}

/* What is measured from the outlet face keeps that face where it is. */
static void phase_holds_the_outlet(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena,
        SKEW_RUN(
            "cut: square, excess: outlet") "phases: [{at: 40 ft, within: 4 ft, name: First}]\n");
    assert_true(plan->laid);
    NEAR(plan->span.outlet_chain_ft, -37.8605, 5e-5);
    verdict_is(plan, "run.excess", CW_UNDECIDED);
    cw_arena_release(&arena);
}

/* US Army engineer correspondence course EN5465, pp. 5-17 to 5-19: embankment 100 ft wide on top,
 * edges at 607.00, sides 10:1, inverts 600.80 and 599.62: 62.0 ft, 73.8 ft and 235.8 ft in all,
 * slope 0.0050.  It meets the invert itself; a fill of 1 ft, the least a job takes, under a road
 * 1 ft higher is the same geometry. */
static void army_course_example(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const char *side = "{strips: [{width: 50 ft, fall: 0%}], side_slope: 10:1}";
    // hand: the invert at the middle of the top is 599.62 + 1.18/235.8 x 123.8 = 600.23953.
    const cw_plan *plan = plan_of(
        &arena, cw_arena_print(&arena,
                               JOB_HEAD JOB_BOX
                               "road: {station: 0+00, elevation: 608 ft, grade: 0%%, inlet_side: "
                               "left, outlet_template: %s, inlet_template: %s}\n"
                               "run: {invert: 600.23953 ft, slope: 0.5004241%%, fill_at_end: 1 "
                               "ft}\npieces: {lengths: [6 ft]}\n",
                               side, side));
    NEAR(plan->inlet.wanted.distance_ft, 50.0 + 62.0, 1e-3);
    NEAR(plan->outlet.wanted.distance_ft, 50.0 + 73.8, 1e-3);
    NEAR(plan->inlet.wanted.invert_ft, 600.80, 1e-3);
    NEAR(plan->outlet.wanted.invert_ft, 599.62, 1e-3);
    NEAR(plan->wanted_span.inlet_chain_ft - plan->wanted_span.outlet_chain_ft, 235.8, 1e-3);
    cw_arena_release(&arena);
}

/* derived: azimuth 75 + 90 - 20 = 145 deg; outlet at 37.8605 ft against it, barrels 11.9167 ft
 * apart square to it: N = 2000 - 37.8605 cos 145 + y cos 235, E likewise with sines. */
static void stake_out_of_three_barrels(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, SKEW_RUN("cut: square, length: 78.496 ft, outlet_distance: "
                                 "37.8605 ft") "barrels: {count: 3, clear_gap: 3 in}\n");
    assert_true(plan->laid);
    NEAR(plan->azimuth_deg, 145.0, 1e-9);
    NEAR(plan->spacing_ft, 143.0 / 12.0, 1e-12);
    const double wanted[3][2] = {{2037.849, 988.046}, {2031.013, 978.284}, {2024.178, 968.523}};
    for (int b = 0; b < 3; b++) {
        const cw_run_place *place = &plan->barrels[b].joints[0].at.place;
        NEAR(place->northing_ft, wanted[b][0], 6e-4);
        NEAR(place->easting_ft, wanted[b][1], 6e-4);
        NEAR(plan->barrels[b].offset_ft, (b - 1) * 143.0 / 12.0, 1e-12);
    }
    // No inner joint differs in invert between barrels without drops.
    NEAR(plan->barrels[0].joints[4].at.invert_ft, plan->barrels[2].joints[4].at.invert_ft, 1e-9);
    cw_arena_release(&arena);
}

/* derived: the faces along the road; with the inlet on the right of the road and skew 20 the right
 * side of each face lies downstream (shift -offset tan 20), with the inlet on the left upstream. */
static void road_cut_faces_and_their_sign(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const double tan20 = 0.3639702;
    for (int left = 0; left < 2; left++) {
        const cw_plan *plan = plan_of(
            &arena,
            cw_arena_print(&arena,
                           "%s%s%s"
                           "box: {form: lid, span: 10 ft, rise: 6 ft, wall: 10 in, floor: "
                           "10 in, top: 10 in, haunch: 8 in}\n"
                           "barrels: {count: 2, clear_gap: 4 in}\npieces: {lengths: [6 "
                           "ft]}\n"
                           "run: {skew: 20 deg, invert: 505 ft, slope: 1%%, cut: road, "
                           "overrun: 5 ft}\n",
                           JOB_HEAD, left ? JOB_ROAD("0%", "left") : JOB_ROAD("0%", "right"), ""));
        assert_true(plan->laid);
        const double sign = left ? 1.0 : -1.0, offset_ft = 72.0 / 12.0;
        NEAR(plan->azimuth_deg, left ? 5.0 : 145.0, 1e-9);
        // Along the axis, forward of the square face through the middle.
        const double azimuth = plan->azimuth_deg * CW_RAD_PER_DEG;
        const cw_run_place *a = &plan->barrels[0].joints[0].at.place;
        const cw_run_place *b = &plan->barrels[1].joints[0].at.place;
        const double forward_ft = (b->northing_ft - a->northing_ft) * cos(azimuth) +
                                  (b->easting_ft - a->easting_ft) * sin(azimuth);
        NEAR(forward_ft, sign * 2.0 * offset_ft * tan20, 1e-6);
        const cw_piece_shape *first = &type_at(plan, 0, 0)->shape;
        NEAR(first->downstream.skew_deg, sign * 20.0, 1e-9);
        const int last = plan->barrels[0].base_count - 1;
        NEAR(type_at(plan, 0, last)->shape.upstream.skew_deg, sign * 20.0, 1e-9);
        // hand: half of 140 in x tan 20 = 25.478 in longer on one side than on the centre line.
        NEAR(type_at(plan, 0, 0)->weight.longest_in, 72.0 + 70.0 * tan20, 1e-4);
        // Both ends of the face lie equally far from the road: all faces in one line along it.
        NEAR(a->u_ft, b->u_ft, 1e-9);
    }
    cw_arena_release(&arena);
}

/* Nothing to cut along: the word is without effect when there is no road, or no skew. */
static void road_cut_without_skew(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, JOB_HEAD JOB_ROAD("1%", "right") JOB_BOX
                                  "run: {invert: 508 ft, slope: 1%, cut: road}\n"
                                  "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n");
    assert_true(plan->laid);
    NEAR(type_at(plan, 0, 0)->shape.downstream.skew_deg, 0.0, 0.0);
    // hand: with nothing stated the ends want 1 ft over the box: 59/12 f + 1 = 5.916913 ft.
    NEAR(plan->outlet.wanted.height_ft, 5.916913, 1e-6);
    NEAR(plan->inlet.wanted.height_ft, 5.916913, 1e-6);
    // hand: leveling course 2 in under the floor and bedding 6 in under it, square to the grade.
    const cw_plan_joint *joint = &plan->barrels[0].joints[1];
    NEAR(joint->underside_ft - joint->bedding_ft, 2.0 / 12.0 * 1.00005, 1e-8);
    NEAR(joint->bedding_ft - joint->subgrade_ft, 6.0 / 12.0 * 1.00005, 1e-8);
    plan = plan_of(&arena,
                   JOB_HEAD JOB_BOX "run: {invert: 508 ft, slope: 1%, cut: road, length: 80 ft}\n"
                                    "bends: [{at: 40 ft, turn: 4 deg, within: 4 ft}]\n"
                                    "barrels: {count: 2, clear_gap: 4 in}\n"
                                    "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n");
    assert_true(plan->laid);
    assert_int_equal(plan->span.cut, CW_RUN_CUT_SQUARE);
    NEAR(type_at(plan, 0, plan->barrels[0].base_count - 1)->shape.upstream.skew_deg, 0.0, 0.0);
    cw_arena_release(&arena);
}

/* A road whose templates are not given has no surface: no cover is claimed. */
static void road_without_templates(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, JOB_HEAD JOB_BOX
                "road: {station: 1+00, elevation: 520 ft, grade: 1%, inlet_side: left}\n"
                "run: {invert: 500 ft, slope: 1%, length: 100 ft, outlet_distance: 50 ft}\n"
                "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n");
    assert_true(plan->laid && !plan->has_surface);
    assert_false(plan->barrels[0].has_cover || plan->outlet.has_fill ||
                 plan->barrels[0].joints[3].has_surface);
    verdict_is(plan, "cover.least", CW_UNDECIDED);
    NEAR(plan->outlet.laid.invert_ft, 499.5, 1e-9);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* ---- bends ---- */

#define BEND_JOB(bends)                                                                            \
    JOB_HEAD JOB_BOX "run: {invert: 500 ft, slope: 0%, length: 120 ft}\n"                          \
                     "barrels: {count: 2, clear_gap: 4 in}\nbends: " bends "\n"                    \
                     "pieces: {lengths: [8 ft, 6 ft, 4 ft], max_setups: 6}\n"

/* derived: a right turn of 4 deg shortens the right line and lengthens the left one by
 * 2 x offset x tan(2 deg), offset 84 in: 2 x 7 x 0.0349208 = 0.488891 ft. */
static void bend_by_hand(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, BEND_JOB("[{at: 60 ft, turn: 4 deg, within: 24 in}]"));
    assert_true(plan->laid);
    NEAR(plan->barrels[0].wanted_in / CW_IN_PER_FT, 120.488891, 1e-5);
    NEAR(plan->barrels[1].wanted_in / CW_IN_PER_FT, 119.511109, 1e-5);
    for (int b = 0; b < 2; b++) {
        int mitred = 0;
        for (int i = 0; i + 1 < plan->barrels[b].base_count; i++) {
            const cw_piece_shape *before = &type_at(plan, b, i)->shape;
            const cw_piece_shape *after = &type_at(plan, b, i + 1)->shape;
            const cw_plan_joint *joint = &plan->barrels[b].joints[i + 1];
            NEAR(before->upstream.mitre_deg, after->downstream.mitre_deg, 1e-12);
            NEAR(before->upstream.mitre_deg, joint->mitred ? 2.0 : 0.0, 1e-9);
            mitred += joint->mitred;
            // The bend point of either barrel is 60 ft +- 7 tan 2 along it.
            if (joint->mitred)
                NEAR(joint->at.at_ft, 60.0 + (b == 0 ? 0.244446 : -0.244446), 2.04);
        }
        assert_int_equal(mitred, 1);
    }
    // Right turn: the right side of a mitred piece is the shorter one; 164 in / 2 x tan 2 deg.
    for (int i = 0; i < plan->type_count; i++) {
        const cw_piece_shape *shape = &plan->types[i].shape;
        if (shape->upstream.mitre_deg > 0.0 && shape->opening_count == 0)
            NEAR(plan->types[i].weight.shortest_in, shape->length_in - 82.0 * 0.0349208, 1e-4);
    }
    // Upstream of the bend the run heads 4 deg more to the right.
    const int last = plan->barrels[0].base_count;
    NEAR(plan->barrels[0].joints[last].at.place.azimuth_deg, 79.0, 1e-9);
    assert_int_equal(row_of(plan, "layout.mitre")->verdict, CW_HOLDS);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* A window that is wide enough for several joints still turns the run only once. */
static void wide_window_turns_once(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, BEND_JOB("[{at: 60 ft, turn: -4 deg, within: 10 ft}]"));
    assert_true(plan->laid);
    for (int b = 0; b < 2; b++) {
        double turned_deg = 0.0;
        for (int i = 0; i < plan->barrels[b].base_count; i++)
            turned_deg += type_at(plan, b, i)->shape.upstream.mitre_deg +
                          type_at(plan, b, i)->shape.downstream.mitre_deg;
        NEAR(turned_deg, -4.0, 1e-9);
    }
    cw_arena_release(&arena);
}

/* 12 deg at 5 deg a joint are three joints of 4 deg, one long piece and a gap apart:
 * hand: 96.5 in = 8.0417 ft. */
static void sharp_bend_is_spread(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, BEND_JOB("[{at: 60 ft, turn: 12 deg, within: 24 in}]"));
    assert_int_equal(plan->path.bend_count, 3);
    NEAR(plan->path.bends[0].turn_deg, 4.0, 1e-12);
    NEAR(plan->path.bends[1].chain_ft - plan->path.bends[0].chain_ft, 96.5 / 12.0, 1e-9);
    NEAR(plan->path.bends[1].chain_ft, 60.0, 1e-9);
    cw_arena_release(&arena);
}

/* Each bend has its own tolerance, and none is dropped when the turns need more joints than a run
 * takes. */
static void bends_keep_their_windows_and_number(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, BEND_JOB("[{at: 30 ft, turn: 4 deg, within: 6 ft}, {at: 90 ft, turn: -4 deg, "
                         "within: 2 in}]"));
    assert_int_equal(plan->problem.barrels[0].base.must_joint[0].within_16, 72 * 16);
    assert_int_equal(plan->problem.barrels[0].base.must_joint[1].within_16, 2 * 16);
    plan = plan_of(&arena, BEND_JOB("[{at: 50 ft, turn: 60 deg}, {at: 110 ft, turn: -4 deg}]"));
    assert_int_equal(plan->path.bend_count, CW_RUN_BENDS_MAX);
    NEAR(plan->path.bends[CW_RUN_BENDS_MAX - 1].turn_deg, -4.0, 1e-12);
    double turned_deg = 0.0;
    for (int i = 0; i < plan->path.bend_count; i++)
        turned_deg += plan->path.bends[i].turn_deg;
    NEAR(turned_deg, 56.0, 1e-9);
    cw_arena_release(&arena);
}

/* Two bends nearer together than any piece is long cannot each have a joint. */
static void bends_that_share_a_joint_fail(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(&arena, BEND_JOB("[{at: 60 ft, turn: 4 deg, within: 24 in}, {at: "
                                                   "61 ft, turn: 3 deg, within: 24 in}]"));
    assert_true(plan->laid);
    verdict_is(plan, "layout.bend-joint", CW_FAILS);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* ---- forms, rows, ends, drops, phases ---- */

static void ring_has_one_row(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, JOB_HEAD JOB_NO_TONGUE
        "box: {form: ring, span: 6 ft, rise: 4 ft, wall: 7 in, floor: 8 in, top: 9 in, haunch: 0 "
        "in}\nrun: {invert: 500 ft, slope: 0%, length: 434.5 in}\npieces: {lengths: [6 ft]}\n"
        "openings: [{name: Lead, face: top, at: 15 ft, height: 0 in, diameter: 12 in}]\n");
    assert_true(plan->laid);
    assert_int_equal(plan->barrels[0].base_count, 6);
    assert_int_equal(plan->barrels[0].top_count, 0);
    assert_string_equal(base_of(plan, 0, 2)->slot, "1-R03");
    // hand: outside 86 x 65 in less 72 x 48 in = 2134 in2 = 14.8194 ft2; x 6 ft x 150.
    NEAR(type_at(plan, 0, 1)->weight.weight_lb, 13337.5, 0.1);
    // hand: pi/4 x 1 ft2 x 9 in = 0.589049 ft3, 88.357 lb.
    NEAR(type_at(plan, 0, 2)->weight.weight_lb, 13337.5 - 88.357, 0.1);
    NEAR(plan->barrels[0].joints[2].seat_ft, plan->barrels[0].joints[2].top_ft, 0.0);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

static void staggered_rows_keep_apart(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, JOB_HEAD JOB_BOX
                "run: {invert: 500 ft, slope: 0.5%, length: 100 ft}\n"
                "pieces: {lengths: [8 ft, 4 ft], rows: staggered, stagger: 3 ft, max_setups: 4}\n");
    assert_true(plan->laid);
    verdict_is(plan, "layout.ends-meet", CW_HOLDS);
    const cw_check *row = verdict_is(plan, "layout.stagger", CW_HOLDS);
    double nearest_in = 1e9;
    for (int i = 1; i < plan->barrels[0].base_count; i++)
        for (int j = 1; j < plan->barrels[0].top_count; j++)
            nearest_in = fmin(nearest_in, fabs(base_of(plan, 0, i)->start_in -
                                               plan->pieces[plan->barrels[0].tops[j]].start_in));
    NEAR(row->demand, nearest_in, 1e-9);
    assert_true(nearest_in >= 36.0);
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

/* The end piece stands where it belongs, weighs its extra and takes no standard mould. */
static void end_pieces(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(
        &arena, JOB_HEAD JOB_BOX JOB_NO_TONGUE
        "run: {invert: 500 ft, slope: 0%, length: 495 in}\n"
        "pieces: {lengths: [6 ft], ends: [{end: outlet, row: base, name: Toe piece, length: 5 ft, "
        "extra_weight: \"2,000 lb\"}]}\n");
    assert_true(plan->laid);
    // hand: 60 + 6 x 72 + 6 x 0.5 = 495 in.
    NEAR(base_of(plan, 0, 0)->length_in, 60.0, 0.0);
    const cw_plan_type *toe = type_at(plan, 0, 0);
    NEAR(toe->weight.weight_lb, 16650.0 * 5.0 / 6.0 + 2000.0, 0.1);
    assert_non_null(strstr(toe->name, "Toe piece"));
    assert_int_equal(toe->count, 1);
    // The mate above it is a plain lid of its length.
    const cw_plan_piece *lid = &plan->pieces[plan->barrels[0].tops[0]];
    NEAR(lid->length_in, 60.0, 0.0);
    NEAR(plan->types[lid->type].weight.weight_lb, 11275.0 * 5.0 / 6.0, 0.1);
    cw_arena_release(&arena);
}

static void drops_lower_a_barrel(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, JOB_HEAD JOB_ROAD("0%", "right") JOB_BOX
                "run: {invert: 505 ft, slope: 1%}\n"
                "barrels: {count: 3, clear_gap: 4 in, drops: [0 in, 6 in, 0 in]}\n"
                "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n");
    assert_true(plan->laid);
    for (int i = 0; i <= plan->barrels[0].base_count; i++) {
        NEAR(plan->barrels[0].joints[i].at.invert_ft - plan->barrels[1].joints[i].at.invert_ft, 0.5,
             1e-9);
        NEAR(plan->barrels[0].joints[i].subgrade_ft - plan->barrels[1].joints[i].subgrade_ft, 0.5,
             1e-9);
    }
    NEAR(plan->barrels[1].least_cover.cover_ft - plan->barrels[0].least_cover.cover_ft, 0.5, 1e-9);
    cw_arena_release(&arena);
}

/* A phase line stands at the joint nearest to it; the later phase waits for the earlier to open. */
static void phases(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan =
        plan_of(&arena, JOB_HEAD JOB_BOX "run: {invert: 500 ft, slope: 0%, length: 120 ft}\n"
                                         "phases: [{name: South half, at: 57 ft, within: 24 in}]\n"
                                         "pieces: {lengths: [8 ft, 6 ft, 4 ft]}\n");
    assert_true(plan->laid);
    int lines = 0, at = -1;
    for (int i = 0; i <= plan->barrels[0].base_count; i++)
        if (plan->barrels[0].joints[i].phase_line) {
            lines++;
            at = i;
        }
    assert_int_equal(lines, 1);
    assert_true(fabs(plan->barrels[0].joints[at].at.at_ft - 57.0) <= 2.0 + 1e-9);
    // Every base of the second phase is set after the first is open.
    int open = -1;
    for (int i = 0; i < plan->step_count && open < 0; i++)
        if (plan->order->steps[plan->steps[i].step].kind == CW_STEP_PHASE_OPEN)
            open = i;
    assert_true(open > 0);
    for (int i = 0; i < plan->barrels[0].base_count; i++) {
        const int step =
            cw_plan_step_find(plan, cw_arena_print(&arena, "set %s", base_of(plan, 0, i)->slot));
        assert_int_equal(step > open, i >= at);
    }
    ledger_is_sound(plan);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(straight_run_by_hand),
        cmocka_unit_test(weights_and_marks),
        cmocka_unit_test(order_and_trucks),
        cmocka_unit_test(skewed_ends_by_substitution),
        cmocka_unit_test(excess_may_be_shared),
        cmocka_unit_test(phase_holds_the_outlet),
        cmocka_unit_test(army_course_example),
        cmocka_unit_test(stake_out_of_three_barrels),
        cmocka_unit_test(road_cut_faces_and_their_sign),
        cmocka_unit_test(road_cut_without_skew),
        cmocka_unit_test(road_without_templates),
        cmocka_unit_test(bend_by_hand),
        cmocka_unit_test(wide_window_turns_once),
        cmocka_unit_test(sharp_bend_is_spread),
        cmocka_unit_test(bends_keep_their_windows_and_number),
        cmocka_unit_test(bends_that_share_a_joint_fail),
        cmocka_unit_test(ring_has_one_row),
        cmocka_unit_test(staggered_rows_keep_apart),
        cmocka_unit_test(end_pieces),
        cmocka_unit_test(drops_lower_a_barrel),
        cmocka_unit_test(phases),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
