/* Wings, aprons and cutoff walls against hand values, closed forms and mirror images. */
#include "../base/calc_test_help.h"

#include "cw/ends.h"

/* ---- values ---- */

#define WING "root=8ft tip=2ft slope=2:1 "
#define BOX "width=140in root=8ft tip=2ft slope=2:1 "

static const expected values[] = {
    /* Hand: d = 2 (8 - 2) = 12; 12/cos 30 = 13.856; 13.856 x 5 = 69.28; 69.28/27 = 2.566. */
    {&cw_calc_wingwall, WING "flare=30deg", "out", 12.0, 1e-9, NULL, "hand"},
    {&cw_calc_wingwall, WING "flare=30deg", "wing_length", 13.8564, 5e-5, NULL, "hand: 12/cos 30"},
    {&cw_calc_wingwall, WING "flare=30deg", "face", 69.282, 5e-4, NULL, "hand"},
    {&cw_calc_wingwall, WING "flare=30deg thickness=12in", "wall_above", 2.566, 5e-4, NULL, "hand"},
    /* Skew 20: 12/cos 50 and 12/cos 10: one order does not fit both sides. */
    {&cw_calc_wingwall, WING "flare=30deg skew=20deg side=long", "wing_length", 18.669, 5e-4, NULL,
     "hand: 12/cos 50"},
    {&cw_calc_wingwall, WING "flare=30deg skew=20deg side=short", "wing_length", 12.185, 5e-4, NULL,
     "hand: 12/cos 10"},
    {&cw_calc_wingwall, WING "kind=straight skew=20deg", "wing_length", 12.770, 5e-4, NULL,
     "hand: 12/cos 20"},
    {&cw_calc_wingwall, WING "kind=along_road", "wing_length", 16.0, 1e-9, NULL,
     "hand: 2 x 8, cone of the fill"},
    {&cw_calc_wingwall, "root=8ft tip=8ft slope=2:1 kind=along_road", "face", 128.0, 1e-9, NULL,
     "hand: 16 x 8"},
    {&cw_calc_wingwall, WING "flare=30deg length=10ft", "face", 50.0, 1e-9, NULL, "hand: 10 x 5"},
    {&cw_calc_wingwall, WING "flare=30deg length=10ft", "needed_length", 13.8564, 5e-5, NULL,
     "hand: 12/cos 30"},
    /* Footing 12 in thick, underside 3 ft down: wall 2 ft below the invert; B = 0.6 (8 + 2). */
    {&cw_calc_wingwall, WING "flare=30deg", "footing_wide", 6.0, 1e-9, NULL, "hand"},
    {&cw_calc_wingwall, WING "flare=30deg", "footing_concrete", 3.0792, 5e-4, NULL,
     "hand: 13.856 x 6/27"},
    {&cw_calc_wingwall, WING "flare=30deg", "wall_below", 1.0264, 5e-4, NULL,
     "hand: 13.856 x 2/27"},
    {&cw_calc_wingwall, WING "flare=30deg", "concrete_all", 6.6716, 5e-4, NULL,
     "hand: 2.5660 + 1.0264 + 3.0792"},
    {&cw_calc_wingwall, WING "flare=30deg", "formed", 237.70, 5e-3, NULL,
     "hand: 2 (69.282 + 27.713) + 4 + 2 (13.856 + 6)"},
    {&cw_calc_wingwall, WING "flare=30deg make=precast", "formed", 39.713, 5e-3, NULL,
     "hand: 2 (13.856 + 6)"},
    {&cw_calc_wingwall, WING "flare=30deg", "excavation", 12.317, 5e-4, NULL,
     "hand: 13.856 x 8 x 3/27"},
    {&cw_calc_wingwall, WING "flare=30deg make=precast concrete=150pcf", "panel", 14549.0, 0.5,
     NULL, "hand: 96.995 ft3"},
    {&cw_calc_wingwall, WING "flare=30deg", "panel", 0.0, 0.0, NULL,
     "cast in place: nothing to lift"},
    /* Nearly along the road, and past it. */
    {&cw_calc_wingwall, WING "flare=60deg skew=19deg", "direction", 0, 0, "holds", "hand: 79 deg"},
    {&cw_calc_wingwall, WING "flare=60deg skew=20deg", "direction", 0, 0, "undecided",
     "hand: 80 deg"},
    {&cw_calc_wingwall, WING "flare=75deg skew=15deg", "direction", 0, 0, "fails", "hand: 90 deg"},
    {&cw_calc_wingwall, WING "flare=75deg skew=30deg length=20ft", "face", 100.0, 1e-9, NULL,
     "hand: a given length is taken"},
    /* Apron between wings of 30 deg: W d + d^2 tan 30 = 140 + 83.14; edge W + 2 d tan 30. */
    {&cw_calc_end_apron, BOX "flare=30deg", "area", 223.14, 5e-3, NULL,
     "closed form: W d + d^2 tan beta"},
    {&cw_calc_end_apron, BOX "flare=30deg", "edge", 25.523, 5e-4, NULL,
     "closed form: W + 2 d tan beta"},
    {&cw_calc_end_apron, BOX "flare=30deg thickness=8in", "concrete", 5.5095, 5e-4, NULL,
     "hand: 223.14 x 0.6667/27"},
    /* Face along the road, skew 20: W/cos 20 = 12.4154; d = 12; tan 50 + tan 10 = 1.36808. */
    {&cw_calc_end_apron, BOX "flare=30deg skew=20deg cut=road", "long_wing", 18.669, 5e-4, NULL,
     "hand: 12/cos 50"},
    {&cw_calc_end_apron, BOX "flare=30deg skew=20deg cut=road", "short_wing", 12.185, 5e-4, NULL,
     "hand: 12/cos 10"},
    {&cw_calc_end_apron, BOX "flare=30deg skew=20deg cut=road", "area", 247.487, 5e-3, NULL,
     "hand: 12 x 12.4154 + 72 x 1.36808"},
    {&cw_calc_end_apron, BOX "flare=30deg skew=20deg cut=road", "edge", 28.832, 5e-4, NULL,
     "hand: 12.4154 + 12 x 1.36808"},
    /* Stopped short of the tips, and carried past them along the barrel. */
    {&cw_calc_end_apron, BOX "flare=30deg apron_length=6ft", "area", 90.785, 5e-4, NULL,
     "closed form with d = 6"},
    {&cw_calc_end_apron, BOX "flare=30deg apron_length=6ft", "edge", 18.595, 5e-4, NULL,
     "closed form with d = 6"},
    {&cw_calc_end_apron, BOX "flare=30deg apron_length=20ft", "area", 427.32, 5e-3, NULL,
     "hand: 223.14 + 8 x 25.523"},
    {&cw_calc_end_apron, BOX "kind=along_road", "has_edge", 0, 0, "no", "no wing bounds it"},
    {&cw_calc_end_apron, BOX "kind=along_road apron_length=10ft", "area", 116.667, 5e-4, NULL,
     "hand: 11.6667 x 10"},
    /* Cutoff wall 25.5 ft long, 3 ft deep under a slab of 8 in: 2.3333 ft high. */
    {&cw_calc_cutoff_wall, "length=25.5ft depth=3ft apron=8in", "height", 2.33333, 5e-5, NULL,
     "hand"},
    {&cw_calc_cutoff_wall, "length=25.5ft depth=3ft apron=8in", "concrete", 2.2037, 5e-5, NULL,
     "hand: 25.5 x 2.3333/27"},
    {&cw_calc_cutoff_wall, "length=25.5ft depth=3ft apron=8in", "formed", 123.667, 5e-4, NULL,
     "hand: 2 x 26.5 x 2.3333"},
    {&cw_calc_cutoff_wall, "length=25.5ft depth=3ft apron=8in make=precast", "formed", 0.0, 0.0,
     NULL, "nothing is formed"},
    {&cw_calc_cutoff_wall, "length=25.5ft depth=3ft apron=8in", "excavation", 6.6111, 5e-4, NULL,
     "hand: 25.5 x 3 x 2.3333/27"},
};

static void values_come_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++)
        must_give(&values[i]);
}

/* ---- properties, fixed seed ---- */

static cw_end_plan_input random_end(uint64_t *seed)
{
    cw_end_plan_input in = {.width_ft = between(seed, 5.0, 60.0), .has_apron = true};
    in.normal_deg = between(seed, -45.0, 45.0);
    in.face_deg = next_random(seed) < 0.5 ? 0.0 : in.normal_deg;
    for (int side = 0; side < 2; side++)
        in.wings[side] =
            (cw_end_wing){true, next_random(seed) < 0.7 ? CW_WING_FLARED : CW_WING_STRAIGHT,
                          between(seed, 0.0, 40.0), between(seed, 3.0, 40.0)};
    return in;
}

/* The mirror image has the same area and edge, and its tips change sides. */
static void mirrored_ends_are_alike(void **state)
{
    (void)state;
    uint64_t seed = 20260504;
    for (int i = 0; i < 10000; i++) {
        const cw_end_plan_input in = random_end(&seed);
        cw_end_plan_input mirror = in;
        mirror.normal_deg = -in.normal_deg;
        mirror.face_deg = -in.face_deg;
        mirror.wings[0] = in.wings[1];
        mirror.wings[1] = in.wings[0];
        const cw_end_plan one = cw_ends_plan(&in), other = cw_ends_plan(&mirror);
        near("area", one.area_sqft, other.area_sqft, 1e-8 * one.area_sqft);
        near("edge", one.edge_ft, other.edge_ft, 1e-9 * one.edge_ft);
        near("tip out", one.tip[0].out_ft, other.tip[1].out_ft, 1e-9);
        near("tip right", one.tip[0].right_ft, -other.tip[1].right_ft, 1e-9);
    }
}

/* Where the wings follow the fill and the face lies along the road, both tips are d from the face
 * and the apron is a trapezoid: (face + edge)/2 x d, whatever skew and flare. */
static void aprons_along_the_road_are_trapezoids(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < 10000; i++) {
        cw_end_plan_input in = random_end(&seed);
        const double out_ft = between(&seed, 2.0, 30.0);
        in.face_deg = in.normal_deg;
        for (int side = 0; side < 2; side++) {
            const bool adds = (in.normal_deg > 0.0) == (side == CW_END_LEFT);
            const double gamma =
                cw_ends_from_normal_deg(in.wings[side].kind, in.wings[side].flare_deg,
                                        fabs(in.normal_deg), adds ? CW_WING_LONG : CW_WING_SHORT);
            in.wings[side].length_ft = out_ft / cos(gamma * CW_RAD_PER_DEG);
        }
        const cw_end_plan plan = cw_ends_plan(&in);
        near("trapezoid", plan.area_sqft, (in.width_ft + plan.edge_ft) / 2.0 * out_ft,
             1e-8 * plan.area_sqft);
    }
}

/* A longer apron is never smaller, and at the tips of like wings the given length joins the one to
 * the tips. */
static void longer_aprons_are_larger(void **state)
{
    (void)state;
    uint64_t seed = 99;
    for (int i = 0; i < 2000; i++) {
        cw_end_plan_input in = random_end(&seed);
        in.has_apron_ft = true;
        double last_sqft = 0.0;
        for (double length_ft = 1.0; length_ft < 60.0; length_ft += 4.0) {
            in.apron_ft = length_ft;
            const double area_sqft = cw_ends_plan(&in).area_sqft;
            assert_true(area_sqft > last_sqft);
            last_sqft = area_sqft;
        }
        in.normal_deg = in.face_deg = 0.0;
        in.wings[1] = in.wings[0];
        in.apron_ft = cw_ends_plan(&in).tip[0].out_ft;
        const double given_sqft = cw_ends_plan(&in).area_sqft;
        in.has_apron_ft = false;
        near("to the tips", given_sqft, cw_ends_plan(&in).area_sqft, 1e-8 * given_sqft);
    }
}

static void bad_input_is_refused(void **state)
{
    (void)state;
    refuse(&cw_calc_wingwall, "root=5ft tip=6ft slope=2:1", CW_E_GEOMETRY,
           "tip of the wing stands 6 ft|lower");
    refuse(&cw_calc_wingwall, "root=5ft tip=6ft slope=2:1 kind=along_road", CW_E_GEOMETRY,
           "may be as high, not higher");
    refuse(&cw_calc_wingwall, WING "footing=24in footing_depth=1.5ft", CW_E_GEOMETRY,
           "24 in thick|1.5 ft|lower it");
    refuse(&cw_calc_end_apron, "width=12ft root=4ft tip=4ft slope=2:1", CW_E_GEOMETRY,
           "tip of the wing");
    refuse(&cw_calc_cutoff_wall, "length=20ft depth=0.5ft apron=6in", CW_E_GEOMETRY,
           "0.5 ft|6 in thick|deeper");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out),
        cmocka_unit_test(mirrored_ends_are_alike),
        cmocka_unit_test(aprons_along_the_road_are_trapezoids),
        cmocka_unit_test(longer_aprons_are_larger),
        cmocka_unit_test(bad_input_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
