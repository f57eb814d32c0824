/* Mitred pieces, skew ends, headwalls and whole pieces. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "run_check.h"

static cw_run_turn example_turn(void)
{
    return (cw_run_turn){.turn_deg = 30,
                         .turn_max_deg = 5,
                         .piece_in = 96,
                         .width_in = 168,
                         .gap_min_in = 0.25,
                         .gap_max_in = 0.75,
                         .has_radius = true,
                         .radius_ft = 200};
}

/* Hand: l 8 ft, 5 deg a joint, 14 ft wide: 8 + 14 tan 2.5 = 8.611, 8 + 7 tan 5 = 8.612; R 200: 2
 * asin(8/400) = 2.292 deg, 200 (1 - cos 1.146) = 0.0400 ft, 30/2.292 = 13.09; 0.5 in over 14 ft is
 * 0.1705 deg. */
static void bend_by_hand(void **state)
{
    (void)state;
    cw_run_turn turn = example_turn();
    const cw_run_turned turned = cw_run_turn_pieces(&turn, NULL);
    assert_int_equal(turned.joints, 6);
    near("joint turn, deg", turned.joint_turn_deg, 5, 1e-12);
    near("both ends cut, long ft", turned.both.long_in / CW_IN_PER_FT, 8.611, 5e-4);
    near("both ends cut, short ft", turned.both.short_in / CW_IN_PER_FT, 7.389, 5e-4);
    near("one end cut, long ft", turned.one.long_in / CW_IN_PER_FT, 8.612, 5e-4);
    near("one end cut, short ft", turned.one.short_in / CW_IN_PER_FT, 7.388, 5e-4);
    near("open joint, deg", turned.open_deg, 0.1705, 5e-5);
    near("chord turn, deg", turned.chord_turn_deg, 2.292, 5e-4);
    near("mid-ordinate, ft", turned.mid_ordinate_ft, 0.0400, 5e-5);
    near("pieces of the bend", turned.chord_pieces, 13.09, 5e-3);

    // Hand: 16-ft pieces with that joint: 16/(2 tan 0.08526) = 5376 ft.
    turn.piece_in = 192;
    near("radius of square pieces, ft", cw_run_turn_pieces(&turn, NULL).open_radius_ft, 5376, 0.5);
}

static void joints_of_a_bend(void **state)
{
    (void)state;
    cw_run_turn turn = example_turn();
    turn.has_radius = false;
    turn.turn_deg = -12;
    const cw_run_turned left = cw_run_turn_pieces(&turn, NULL);
    assert_int_equal(left.joints, 3);
    near("4 deg each", left.joint_turn_deg, 4, 1e-12);
    assert_false(left.has_chord);
    turn.turn_deg = 0;
    const cw_run_turned none = cw_run_turn_pieces(&turn, NULL);
    assert_int_equal(none.joints, 0);
    near("no mitre", none.both.long_in, 96, 0);
    turn.gap_max_in = turn.gap_min_in;
    near("a rigid joint has no radius", cw_run_turn_pieces(&turn, NULL).open_radius_ft, 0, 0);
    // 3 x 0.1 exceeds 0.3 in binary; it must still be three joints.
    turn.turn_deg = 0.1 * 3;
    turn.turn_max_deg = 0.1;
    assert_int_equal(cw_run_turn_pieces(&turn, NULL).joints, 3);
}

/* Hand: 14 ft wide, 20 deg: 7 tan 20 = 2.548 ft to either side. */
static void skew_piece_by_hand(void **state)
{
    (void)state;
    const cw_run_sides sides = cw_run_skew_piece(96, 168, 20);
    near("long, ft", sides.long_in / CW_IN_PER_FT, 8 + 2.548, 5e-4);
    near("short, ft", sides.short_in / CW_IN_PER_FT, 8 - 2.548, 5e-4);
    near("either hand", cw_run_skew_piece(96, 168, -20).long_in, sides.long_in, 0);
}

/* The area of a mitred or skewed piece is that of the square piece: the long and short side average
 * to its length. */
static void mitres_keep_the_area(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 30;
    for (int i = 0; i < CASES; i++) {
        cw_run_turn turn = {.turn_deg = between(&seed, -90, 90),
                            .turn_max_deg = between(&seed, 1, 30),
                            .piece_in = between(&seed, 48, 192),
                            .width_in = between(&seed, 60, 240),
                            .gap_min_in = 0.25,
                            .gap_max_in = 0.75};
        const cw_run_turned turned = cw_run_turn_pieces(&turn, NULL);
        assert_true(turned.joint_turn_deg <= turn.turn_max_deg * (1 + CW_RATIO_SLACK));
        near("whole turn, deg", turned.joints * turned.joint_turn_deg, fabs(turn.turn_deg), 1e-9);
        near("mean of both", (turned.both.long_in + turned.both.short_in) / 2, turn.piece_in, 1e-9);
        near("mean of one", (turned.one.long_in + turned.one.short_in) / 2, turn.piece_in, 1e-9);
        // The faces of the piece include the joint's turn.
        const double slant = (turned.both.long_in - turned.both.short_in) / 2 / turn.width_in;
        near("angle of the faces, deg", 2 * atan(slant) * CW_DEG_PER_RAD, turned.joint_turn_deg,
             1e-9);
    }
}

/* Hand: 11.6667/cos 20 + 2 = 14.4154 ft; 6 + 10/12 + 1 = 7.8333 ft; 112.9207 less 10 x 6/cos 20
 * = 63.8507 leaves 49.0700 ft2; 1 ft thick: 1.8174 cy. */
static void headwall_by_hand(void **state)
{
    (void)state;
    cw_run_headwall wall = {.width_ft = 140 / CW_IN_PER_FT,
                            .skew_deg = 20,
                            .cut = CW_RUN_CUT_ROAD,
                            .overhang_in = 12,
                            .rise_in = 72,
                            .top_in = 10,
                            .parapet_in = 12,
                            .thickness_in = 12,
                            .span_in = 120,
                            .openings = 1};
    const cw_run_headwall_take road = cw_run_headwall_size(&wall, NULL);
    near("length, ft", road.length_ft, 14.4154, 5e-5);
    near("height, ft", road.height_ft, 7.8333, 5e-5);
    near("gross, ft2", road.gross_sqft, 112.9207, 5e-5);
    near("openings, ft2", road.openings_sqft, 63.8507, 5e-5);
    near("face, ft2", road.face_sqft, 49.0700, 1e-4);
    near("concrete, cy", road.concrete_cy, 1.8174, 5e-5);
    wall.cut = CW_RUN_CUT_SQUARE;
    const cw_run_headwall_take square = cw_run_headwall_size(&wall, NULL);
    near("square length, ft", square.length_ft, 13.6667, 5e-5);
    near("square openings, ft2", square.openings_sqft, 60, 1e-9);
}

/* Hand: 74.944 ft at 1 %, 6 ft pieces, 1/2 in gaps: 13 pieces, 78.5 ft laid, 78.496 in plan,
 * excess 3.552. */
static void whole_pieces_by_hand(void **state)
{
    (void)state;
    const cw_run_rounding round =
        cw_run_round_up(74.9442, 0.01, 72, 0.5, CW_RUN_EXCESS_SHARED, NULL);
    assert_int_equal(round.pieces, 13);
    near("laid, ft", round.laid_in / CW_IN_PER_FT, 78.5, 1e-12);
    near("plan, ft", round.plan_ft, 78.496, 5e-4);
    near("excess, ft", round.excess_ft, 3.552, 5e-4);
    near("shared, ft", round.outlet_share_ft, 1.776, 5e-4);
    near("shared, ft", round.inlet_share_ft, 1.776, 5e-4);
    // 74.9442 sqrt(1.0001) - 12 x 6.041667 = 2.44795 ft.
    near("short piece, in", round.short_in, 2.44795 * CW_IN_PER_FT, 1e-3);
    near("to the outlet",
         cw_run_round_up(74.9442, 0.01, 72, 0.5, CW_RUN_EXCESS_OUTLET, NULL).outlet_share_ft,
         round.excess_ft, 0);
    near("to the inlet",
         cw_run_round_up(74.9442, 0.01, 72, 0.5, CW_RUN_EXCESS_INLET, NULL).inlet_share_ft,
         round.excess_ft, 0);
}

static void exact_fit_gains_no_piece(void **state)
{
    (void)state;
    for (int n = 1; n <= 200; n++) {
        const double need_ft = (n * 72 + (n - 1) * 0.5) / CW_IN_PER_FT / cw_run_slope_factor(0.013);
        const cw_run_rounding round =
            cw_run_round_up(need_ft, 0.013, 72, 0.5, CW_RUN_EXCESS_INLET, NULL);
        assert_int_equal(round.pieces, n);
        near("excess, ft", round.excess_ft, 0, 1e-9);
    }
}

static void pieces_are_enough_and_not_one_too_many(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 31;
    for (int i = 0; i < CASES; i++) {
        const double need_ft = between(&seed, 1, 500), slope = between(&seed, 0, 0.3);
        const double piece_in = between(&seed, 24, 192), gap_in = between(&seed, 0, 2);
        const cw_run_rounding round =
            cw_run_round_up(need_ft, slope, piece_in, gap_in, CW_RUN_EXCESS_SHARED, NULL);
        const double need_in = need_ft * CW_IN_PER_FT * sqrt(1 + slope * slope);
        assert_true(round.laid_in >= need_in - 1e-6);
        assert_true(round.pieces == 1 || round.laid_in - piece_in - gap_in < need_in);
        near("plan, ft", round.plan_ft, need_ft + round.excess_ft, 1e-7);
        near("shares, ft", round.outlet_share_ft + round.inlet_share_ft, round.excess_ft, 1e-12);
        near("short piece closes the run, in",
             (round.pieces - 1) * (piece_in + gap_in) + round.short_in, need_in, 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bend_by_hand),
        cmocka_unit_test(joints_of_a_bend),
        cmocka_unit_test(skew_piece_by_hand),
        cmocka_unit_test(mitres_keep_the_area),
        cmocka_unit_test(headwall_by_hand),
        cmocka_unit_test(whole_pieces_by_hand),
        cmocka_unit_test(exact_fit_gains_no_piece),
        cmocka_unit_test(pieces_are_enough_and_not_one_too_many),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
