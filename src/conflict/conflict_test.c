/* Utilities, footings and faces beside traffic against hand values and a search for the nearest
 * point. */
#include "../base/calc_test_help.h"

#include "cw/conflict.h"

/* Bottom 17 ft wide at 498.00, faces 1.5:1, ground at 512.00; box 11.667 ft wide from 500.00 to
 * 507.00. */
#define CUT                                                                                        \
    "bottom=498ft bottom_width=17ft slope=1.5:1 surface=512ft width=140in underside=500ft "        \
    "box_top=507ft diameter=12in "
#define FOOTING "foundation=507ft bottom=498ft bottom_width=17ft slope=1:1 surface=511ft "
#define EDGE "depth=12ft slope=1:1 "

static const expected values[] = {
    {&cw_calc_utility_clearance, CUT "top=508.5ft angle=90deg", "cut_gap", -10.5, 1e-9, NULL,
     "hand: 498 - 508 - 0.5"},
    {&cw_calc_utility_clearance, CUT "top=508.5ft angle=90deg", "exposed_length", 48.5, 1e-9, NULL,
     "hand: 17 + 3 x 10.5"},
    {&cw_calc_utility_clearance, CUT "top=508.5ft angle=45deg", "exposed_length", 68.589, 5e-4,
     NULL, "hand: 48.5/sin 45"},
    {&cw_calc_utility_clearance, CUT "top=508.5ft angle=90deg", "box_gap", 0.5, 1e-9, NULL,
     "hand: 508 - 507 - 0.5"},
    {&cw_calc_utility_clearance, CUT "top=508.5ft angle=90deg", "box_check", 0, 0, "fails",
     "hand: 6 in of 12 in"},
    {&cw_calc_utility_clearance, CUT "top=508.5ft angle=90deg clearance=6in", "box_check", 0, 0,
     "holds", "hand: 6 in of 6 in"},
    {&cw_calc_utility_clearance, CUT "top=508.5ft angle=90deg", "cut_check", 0, 0, "undecided",
     "it shows"},
    /* Beside the cut: (30 - 8.5 - 1.5 x 6)/(1 + 2.25)^0.5 = 6.9338. */
    {&cw_calc_utility_clearance, CUT "top=504.5ft offset=30ft", "cut_gap", 6.4338, 5e-5, NULL,
     "hand"},
    {&cw_calc_utility_clearance, CUT "top=504.5ft offset=-30ft", "cut_gap", 6.4338, 5e-5, NULL,
     "mirror"},
    {&cw_calc_utility_clearance, CUT "top=504.5ft offset=30ft", "box_gap", 23.6667, 5e-5, NULL,
     "hand: 30 - 5.8333 - 0.5"},
    {&cw_calc_utility_clearance, CUT "top=504.5ft offset=30ft", "exposed_length", 0.0, 0.0, NULL,
     "it does not show"},
    {&cw_calc_utility_clearance, CUT "top=504.5ft offset=19ft", "cut_check", 0, 0, "fails",
     "hand: (19 - 17.5)/1.803 - 0.5 = 0.33 ft"},
    {&cw_calc_utility_clearance, CUT "top=496.5ft angle=90deg", "cut_gap", 1.5, 1e-9, NULL,
     "hand: 498 - 496 - 0.5"},
    {&cw_calc_utility_clearance, CUT "top=496.5ft angle=90deg", "cut_check", 0, 0, "holds",
     "hand: 1.5 of 1 ft"},
    /* 3 ft beside and 4 ft over a corner of the box: 5 ft. */
    {&cw_calc_utility_clearance, CUT "top=511.5ft offset=106in", "box_gap", 4.5, 1e-6, NULL,
     "hand: 3-4-5 triangle"},
    {&cw_calc_utility_clearance, CUT "top=503.5ft angle=90deg", "box_gap", -3.5, 1e-9, NULL,
     "hand: 3 ft over the underside"},
    /* Footing 9 ft above the bottom, its edge 17.5 ft from that of the bottom. */
    {&cw_calc_influence_line, FOOTING "away=26ft", "below", 9.0, 1e-9, NULL, "hand"},
    {&cw_calc_influence_line, FOOTING "away=26ft", "needed", 9.0, 1e-9, NULL, "hand: 1:1"},
    {&cw_calc_influence_line, FOOTING "away=26ft", "had", 17.5, 1e-9, NULL, "hand: 26 - 8.5"},
    {&cw_calc_influence_line, FOOTING "away=26ft", "deepest", 489.5, 1e-9, NULL,
     "hand: 507 - 17.5"},
    {&cw_calc_influence_line, FOOTING "away=26ft", "edge", 4.5, 1e-9, NULL, "hand: 17.5 - 13"},
    {&cw_calc_influence_line, FOOTING "away=26ft influence=2:1", "influence_check", 0, 0, "fails",
     "hand: 18 wanted, 17.5 had"},
    {&cw_calc_influence_line, FOOTING "away=17.5ft", "influence_check", 0, 0, "holds",
     "hand: 9 of 9"},
    {&cw_calc_influence_line, FOOTING "away=17.4ft", "influence_check", 0, 0, "fails",
     "hand: 8.9 of 9"},
    {&cw_calc_influence_line, FOOTING "away=23ft", "edge_check", 0, 0, "fails",
     "hand: 1.5 of 2 ft"},
    {&cw_calc_influence_line,
     "foundation=497ft away=12ft bottom=498ft bottom_width=17ft slope=0 surface=511ft", "needed",
     0.0, 0.0, NULL, "a footing below the cut"},
    /* 3 ft toe, 12 ft deep at 1:1, 2 ft setback (29 CFR 1926.651(j)(2)), barrier 2 ft: 19 ft;
       shored 3 + 1 + 2. */
    {&cw_calc_phase_edge, EDGE "lane=25ft", "sloped_room", 19.0, 1e-9, NULL, "hand"},
    {&cw_calc_phase_edge, EDGE "lane=25ft", "shored_room", 6.0, 1e-9, NULL, "hand"},
    {&cw_calc_phase_edge, EDGE "lane=25ft", "steepest", 1.5, 1e-9, NULL, "hand: (25 - 7)/12"},
    {&cw_calc_phase_edge, EDGE "lane=25ft", "fits", 0, 0, "slope", "hand"},
    {&cw_calc_phase_edge, EDGE "lane=19ft", "check", 0, 0, "holds", "hand: 19 of 19"},
    {&cw_calc_phase_edge, EDGE "lane=18.9ft", "check", 0, 0, "fails", "hand: 19 of 18.9"},
    {&cw_calc_phase_edge, EDGE "lane=18.9ft", "fits", 0, 0, "shore", "hand"},
    {&cw_calc_phase_edge, EDGE "lane=5.9ft", "fits", 0, 0, "none", "hand: 6 wanted"},
    {&cw_calc_phase_edge, EDGE "lane=5.9ft", "steepest", 0.0, 0.0, NULL, "hand"},
    {&cw_calc_phase_edge, EDGE "lane=25ft face=shore", "to_lane", 21.0, 1e-9, NULL, "hand: 25 - 4"},
    /* Top edge 15 ft out, traffic 10 ft from it, the cut 12 ft deep. */
    {&cw_calc_phase_edge, EDGE "lane=25ft", "surcharge", 0, 0, "yes", "hand: 10 under 12 ft"},
    {&cw_calc_phase_edge, EDGE "lane=27ft", "surcharge", 0, 0, "no", "hand: 12 ft exactly"},
    {&cw_calc_phase_edge, EDGE "lane=25ft", "load_check", 0, 0, "undecided",
     "29 CFR 1926 Subpart P App. B, from memory"},
    {&cw_calc_phase_edge, "depth=20.1ft slope=1:1 lane=100ft", "load_check", 0, 0, "undecided",
     "29 CFR 1926 Subpart P App. B: 20 ft"},
};

static void values_come_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++)
        must_give(&values[i]);
}

/* ---- properties, fixed seed ---- */

static double to_segment(double x, double y, double ax, double ay, double bx, double by,
                         bool *inner)
{
    const double length2 = (bx - ax) * (bx - ax) + (by - ay) * (by - ay);
    const double t = ((x - ax) * (bx - ax) + (y - ay) * (by - ay)) / length2;
    const double within = fmin(fmax(t, 0.0), 1.0);
    *inner = t >= 0.0 && t <= 1.0;
    return hypot(x - ax - within * (bx - ax), y - ay - within * (by - ay));
}

/* Against the nearest point of the cut's outline: inside and outside agree, the gap is never more
 * than the true distance, and it is the true distance where a face or the bottom is nearest. */
static void gap_is_the_distance_to_the_cut(void **state)
{
    (void)state;
    enum { HIGH = 400 };
    uint64_t seed = 11;
    for (int i = 0; i < 10000; i++) {
        const cw_cut_section cut = {between(&seed, 3.0, 30.0), between(&seed, -50.0, 50.0),
                                    between(&seed, 0.0, 3.0), 0.0};
        const double x = between(&seed, -80.0, 80.0),
                     z = cut.bottom_ft + between(&seed, -30.0, 60.0);
        const double gap = cw_conflict_cut_gap_ft(&cut, x, -CW_ANY_HIGH, z, 0.0);
        const double rise = z - cut.bottom_ft, side = fabs(x);
        const bool inside = rise >= 0.0 && side <= cut.half_bottom_ft + cut.side_slope * rise;
        assert_true(inside == (gap <= 0.0));
        if (inside)
            continue;
        bool on_bottom, on_face;
        const double bottom =
            to_segment(side, rise, -cut.half_bottom_ft, 0.0, cut.half_bottom_ft, 0.0, &on_bottom);
        const double face = to_segment(side, rise, cut.half_bottom_ft, 0.0,
                                       cut.half_bottom_ft + cut.side_slope * HIGH, HIGH, &on_face);
        const double true_gap = fmin(bottom, face);
        assert_true(gap <= true_gap + 1e-9);
        if ((bottom <= face && on_bottom) || (face < bottom && on_face))
            near("gap", gap, true_gap, 1e-9);
    }
}

/* Distance to a box in space: the point less itself clamped to the box. */
static void gap_is_the_distance_to_the_box(void **state)
{
    (void)state;
    uint64_t seed = 12;
    for (int i = 0; i < 10000; i++) {
        const double half = between(&seed, 2.0, 30.0), low = between(&seed, -20.0, 20.0),
                     high = low + between(&seed, 3.0, 20.0);
        const cw_box_section box = {half, low, high};
        const double x = between(&seed, -60.0, 60.0), z = between(&seed, -40.0, 60.0),
                     past = between(&seed, -40.0, 40.0);
        const double gap = cw_conflict_box_gap_ft(&box, x, past, z, 0.0);
        const double dx = x - fmin(fmax(x, -half), half), dz = z - fmin(fmax(z, low), high),
                     dp = fmax(past, 0.0);
        const double distance = sqrt(dx * dx + dz * dz + dp * dp);
        if (distance > 0.0)
            near("outside", gap, distance, 1e-9);
        else
            assert_true(gap <= 0.0);
    }
}

/* A lane farther off never makes a face fit worse, and a slope that fits is no flatter than the one
 * that just fits. */
static void more_room_never_hurts(void **state)
{
    (void)state;
    uint64_t seed = 13;
    for (int i = 0; i < 10000; i++) {
        cw_phase_edge_input in = {.lane_ft = between(&seed, 0.0, 60.0),
                                  .depth_ft = between(&seed, 2.0, 25.0),
                                  .side_slope = between(&seed, 0.0, 2.0),
                                  .toe_ft = between(&seed, 0.0, 6.0),
                                  .barrier_ft = 2.0,
                                  .setback_ft = 2.0,
                                  .shore_ft = 1.0,
                                  .face =
                                      next_random(&seed) < 0.5 ? CW_FACE_SLOPED : CW_FACE_SHORED,
                                  .reach_ratio = 1.0,
                                  .depth_max_ft = 20.0};
        const cw_phase_edge one = cw_conflict_phase_edge(&in, NULL);
        if (in.face == CW_FACE_SLOPED && one.fit == CW_HOLDS)
            assert_true(in.side_slope <= one.steepest * (1.0 + 1e-9) + 1e-9);
        in.lane_ft += between(&seed, 0.0, 10.0);
        const cw_phase_edge wider = cw_conflict_phase_edge(&in, NULL);
        assert_true(wider.fit <= one.fit && wider.load <= one.load && wider.way <= one.way);
    }
}

static void bad_input_is_refused(void **state)
{
    (void)state;
    refuse(&cw_calc_utility_clearance,
           "top=500ft diameter=12in bottom=512ft bottom_width=17ft slope=1:1 surface=512ft "
           "width=12ft underside=500ft box_top=507ft",
           CW_E_GEOMETRY, "bottom of the cut at 512 ft|below the ground");
    refuse(&cw_calc_utility_clearance,
           "top=500ft diameter=12in bottom=498ft bottom_width=17ft slope=1:1 surface=512ft "
           "width=12ft underside=508ft box_top=507ft",
           CW_E_GEOMETRY, "underside of the box at 508 ft|507 ft");
    refuse(&cw_calc_influence_line,
           "foundation=507ft away=26ft bottom=520ft bottom_width=17ft slope=1:1 surface=511ft",
           CW_E_GEOMETRY, "bottom of the cut at 520 ft");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out),
        cmocka_unit_test(gap_is_the_distance_to_the_cut),
        cmocka_unit_test(gap_is_the_distance_to_the_box),
        cmocka_unit_test(more_room_never_hurts),
        cmocka_unit_test(bad_input_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
