/* Weight and centre of gravity.  Sources in the rows: "hand" is arithmetic written out beside the
 * value; "closed form" is the formula named there, worked apart from the module. */
#include "weight_test_help.h"

#include "cw/text.h"

static const double volume_tolerance_cuft = 0.001;
static const double weight_tolerance_lb = 0.5;
static const double place_tolerance_ft = 0.0001;

/* ---- hand-worked pieces ---- */

static void base_and_lid_by_hand(void **state)
{
    (void)state;
    // hand: 13.6667 x 0.8333 + 2 x 0.8333 x 4 + 0.6667^2 = 18.5 ft2; x 6 ft = 111 ft3; x 150.
    // z: (11.3889 x 0.41667 + 6.6667 x 2.8333 + 0.4444 x 1.05556)/18.5 = 1.3029 ft.
    const cw_piece_shape base = example_base();
    const cw_piece_weight b = cw_weight_compute(&base, NULL);
    near("base area ft2", b.section_area_sqft, 18.5, 0.0001);
    near("base volume ft3", b.volume_cuft, 111.0, volume_tolerance_cuft);
    near("base weight lb", b.weight_lb, 16650.0, weight_tolerance_lb);
    near("base z ft", b.z_ft, 1.3029, place_tolerance_ft);
    near("base x ft", b.x_ft, 0.0, place_tolerance_ft);
    near("base y ft", b.y_ft, 3.0, place_tolerance_ft);
    near("base width in", b.width_in, 164.0, 1e-9);
    near("base height in", b.height_in, 58.0, 1e-9);
    near("base line weight lb/ft", b.weight_lb_per_ft, 2775.0, 0.01);

    // hand: 13.6667 x 0.91667 x 6 = 75.1667 ft3; x 150.
    const cw_piece_shape lid = example_lid();
    const cw_piece_weight l = cw_weight_compute(&lid, NULL);
    near("lid volume ft3", l.volume_cuft, 75.1667, volume_tolerance_cuft);
    near("lid weight lb", l.weight_lb, 11275.0, weight_tolerance_lb);
    near("lid z ft", l.z_ft, 11.0 / 24.0, place_tolerance_ft);
}

/* The usual hand calculation takes the hole through the wall alone; this one also clips the top of
 * the haunch. */
static void holed_base_by_hand(void **state)
{
    (void)state;
    cw_piece_shape holed = example_base();
    holed.opening_count = 1;
    holed.openings[0] = (cw_piece_opening){
        .face = CW_HOLE_LEFT, .y_in = 36.0, .z_in = 34.0, .is_round = true, .diameter_in = 36.0};

    // hand, wall alone: pi/4 x 3^2 x 0.8333 = 5.8905 ft3, 883.57 lb, at x -6.41667 and z 2.8333 ft:
    // x = 883.57 x 6.41667 / 15766.43 = 0.3596; z = (16650 x 1.30289 - 883.57 x 2.83333)/15766.43.
    const cw_piece_solids solids = cw_weight_solids(&holed);
    assert_int_equal(solids.count, 7);
    near("hole in the wall ft3", solids.items[5].volume_cuft, -5.8905, 0.0001);
    double weight = 0.0, x = 0.0, z = 0.0;
    for (int i = 0; i < 6; i++) {
        const cw_piece_solid *solid = &solids.items[i];
        weight += solid->volume_cuft * solid->unit_pcf;
        x += solid->volume_cuft * solid->unit_pcf * solid->x_ft;
        z += solid->volume_cuft * solid->unit_pcf * solid->z_ft;
    }
    near("wall alone, weight lb", weight, 15766.4, 0.05);
    near("wall alone, x ft", x / weight, 0.3596, place_tolerance_ft);
    near("wall alone, z ft", z / weight, 1.2171, place_tolerance_ft);

    // scipy.integrate.quad 1.10.1 over the 2 in of haunch in the hole: 0.0103500 ft3, centroid
    // x -5.952252, z 1.404504 ft; with it W 15,764.875 lb, x 0.360221, z 1.217099 ft.
    near("sliver ft3", solids.items[6].volume_cuft, -0.0103500, 1e-7);
    near("sliver x ft", solids.items[6].x_ft, -5.952252, 1e-6);
    near("sliver z ft", solids.items[6].z_ft, 1.404504, 1e-6);
    const cw_piece_weight h = cw_weight_compute(&holed, NULL);
    near("holed weight lb", h.weight_lb, 15764.875, 0.001);
    near("holed x ft", h.x_ft, 0.360221, 1e-6);
    near("holed z ft", h.z_ft, 1.217099, 1e-6);
}

static void shallow_base_by_hand(void **state)
{
    (void)state;
    // hand: 11.6667 x 1 + 2 x 0.8333 x 3 + 0.6667^2 = 17.1111 ft2; x 6 = 102.667 ft3; x 150 =
    // 15,400.
    cw_piece_shape shape = example_base();
    shape.span_in = 120.0;
    shape.slab_in = 12.0;
    shape.leg_in = 36.0;
    const cw_piece_weight got = cw_weight_compute(&shape, NULL);
    near("area ft2", got.section_area_sqft, 17.1111, 0.0001);
    near("volume ft3", got.volume_cuft, 102.667, volume_tolerance_cuft);
    near("weight lb", got.weight_lb, 15400.0, weight_tolerance_lb);
}

static void boxes_per_foot_by_hand(void **state)
{
    (void)state;
    // hand: base 13.6667 x 0.8333 + 2 x 0.8333 x 8 = 24.7222 ft2, 3.71 k/ft; lid 11.3889 ft2, 1.71;
    // together 36.1111 ft2, 5.42 k/ft.  The ring of the same walls is the same concrete.
    cw_box_weight_input box = {.form = 0,
                               .span_in = 144.0,
                               .rise_in = 96.0,
                               .wall_in = 10.0,
                               .floor_in = 10.0,
                               .top_in = 10.0,
                               .unit_pcf = 150.0};
    const cw_box_weight lid = cw_weight_box(&box, NULL);
    near("base lb/ft", lid.base_lb_per_ft, 3708.33, 0.01);
    near("lid lb/ft", lid.top_lb_per_ft, 1708.33, 0.01);
    near("box lb/ft", lid.box_lb_per_ft, 5416.67, 0.01);
    box.form = 1;
    box.leg_in = 40.0;
    const cw_box_weight hood = cw_weight_box(&box, NULL);
    near("hood, box lb/ft", hood.box_lb_per_ft, 5416.67, 0.01);
    // hand: crown 11.3889 + walls 2 x 0.8333 x 56/12 = 19.1667 ft2.
    near("hood ft3/ft", hood.top_cuft_per_ft, 19.1667, 0.0001);
    box.form = 2;
    const cw_box_weight ring = cw_weight_box(&box, NULL);
    near("ring lb/ft", ring.box_lb_per_ft, 5416.67, 0.01);
    near("ring has no top", ring.top_lb_per_ft, 0.0, 0.0);
}

/* A hood is the base turned over: its centroid from the crown is the base's from the floor. */
static void hood_is_base_turned_over(void **state)
{
    (void)state;
    const cw_piece_shape base = example_base();
    cw_piece_shape hood = base;
    hood.part = CW_PART_HOOD;
    const cw_piece_weight b = cw_weight_compute(&base, NULL), h = cw_weight_compute(&hood, NULL);
    near("weight lb", h.weight_lb, b.weight_lb, 1e-6);
    near("z ft", h.z_ft, 58.0 / CW_IN_PER_FT - b.z_ft, 1e-9);
}

/* ---- ends ---- */

static void skew_and_mitre_in_closed_form(void **state)
{
    (void)state;
    // closed form for a flat rectangle B = 14 ft, L = 8 ft, one end turned by s: sides L +- B/2 tan
    // s; volume unchanged; x = tan s B^2/(12 L); y = (L^2 + tan^2 s B^2/12)/(2 L).
    cw_piece_shape lid = example_lid();
    lid.span_in = 148.0;
    lid.length_in = 96.0;
    lid.upstream.skew_deg = 20.0;
    const cw_piece_weight got = cw_weight_compute(&lid, NULL);
    near("longer side ft", got.longest_in / CW_IN_PER_FT, 8.0 + 2.548, 0.0005);
    near("shorter side ft", got.shortest_in / CW_IN_PER_FT, 8.0 - 2.548, 0.0005);
    near("overall ft", got.overall_length_in / CW_IN_PER_FT, 10.548, 0.0005);
    near("weight lb", got.weight_lb, 14.0 * 11.0 / 12.0 * 8.0 * 150.0, weight_tolerance_lb);
    near("x ft", got.x_ft, 0.743105, place_tolerance_ft);
    near("y ft", got.y_ft, 4.135234, place_tolerance_ft);
    near("z ft", got.z_ft, 11.0 / 24.0, place_tolerance_ft);

    // closed form for a 5 deg turn to the right: half at each end l +- B tan 2.5 = 8.611 and 7.389
    // ft, all at one end l +- B/2 tan 5 = 8.612 and 7.388 ft; the right side is the shorter, so x
    // moves left.
    lid.upstream.skew_deg = 0.0;
    lid.upstream.mitre_deg = lid.downstream.mitre_deg = 2.5;
    const cw_piece_weight both = cw_weight_compute(&lid, NULL);
    near("both, longer ft", both.longest_in / CW_IN_PER_FT, 8.611, 0.0005);
    near("both, shorter ft", both.shortest_in / CW_IN_PER_FT, 7.389, 0.0005);
    near("both, y stays ft", both.y_ft, 4.0, 1e-9);
    assert_true(both.x_ft < -0.1);
    lid.downstream.mitre_deg = 0.0;
    lid.upstream.mitre_deg = 5.0;
    const cw_piece_weight one = cw_weight_compute(&lid, NULL);
    near("one, longer ft", one.longest_in / CW_IN_PER_FT, 8.612, 0.0005);
    near("one, shorter ft", one.shortest_in / CW_IN_PER_FT, 7.388, 0.0005);
}

static void solids_between_slanted_ends(void **state)
{
    (void)state;
    // scipy.integrate.dblquad 1.10.1 over each figure of the section: ends turned 25 and -30 deg,
    // 10 ft on the centre line.  In the sum over a symmetric piece some of these moments cancel, so
    // each solid is compared.
    static const struct {
        int part, solid;
        double volume_cuft, x_ft, y_ft, z_ft;
    } rows[] = {
        {CW_PART_BASE, 2, 11.010649887, 6.398382287, 4.644753462, 2.833333333},
        {CW_PART_BASE, 3, 3.562227462, -5.779385344, 5.320879019, 1.056359339},
        {CW_PART_BASE, 4, 0.882216982, 5.771286724, 4.679570627, 1.052310029},
        {CW_PART_HOOD, 3, 3.562227462, -5.779385344, 5.320879019, 3.776973994},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_piece_shape shape = example_base();
        shape.part = rows[i].part;
        shape.length_in = 120.0;
        shape.downstream.skew_deg = 25.0;
        shape.upstream.skew_deg = -30.0;
        const cw_piece_solids solids = cw_weight_solids(&shape);
        const cw_piece_solid *solid = &solids.items[rows[i].solid];
        near("volume ft3", solid->volume_cuft, rows[i].volume_cuft, 1e-8);
        near("x ft", solid->x_ft, rows[i].x_ft, 1e-8);
        near("y ft", solid->y_ft, rows[i].y_ft, 1e-8);
        near("z ft", solid->z_ft, rows[i].z_ft, 1e-8);
    }
}

static void parallel_skew_keeps_the_walls_alike(void **state)
{
    (void)state;
    // closed form: a sheared prism keeps volume and length; y of the centroid of a section
    // symmetric about x = 0 stays at half the length, x at 0.
    cw_piece_shape base = example_base();
    base.upstream.skew_deg = base.downstream.skew_deg = 30.0;
    const cw_piece_weight got = cw_weight_compute(&base, NULL);
    near("weight lb", got.weight_lb, 16650.0, weight_tolerance_lb);
    near("x ft", got.x_ft, 0.0, 1e-9);
    near("y ft", got.y_ft, 3.0, 1e-9);
    near("longer in", got.longest_in, 72.0, 1e-9);
    near("overall ft", got.overall_length_in / CW_IN_PER_FT, 6.0 + 13.6667 * 0.577350, 0.001);
}

static void tongue_and_groove_shift_y(void **state)
{
    (void)state;
    // hand: tongue 0.5 x 18.5 x 4/12 = 3.08333 ft3 at y -2/12; groove 0.5 x 18.5 x 4.5/12 = 3.46875
    // ft3 at y 6 - 2.25/12 = 5.8125.  V = 111 + 3.08333 - 3.46875 = 110.61458. y = (111 x 3
    // - 3.08333 x 0.166667 - 3.46875 x 5.8125)/110.61458 = 2.823534.
    cw_piece_shape base = example_base();
    base.tongue_in = 4.0;
    base.groove_in = 4.5;
    base.downstream.joint = CW_JOINT_TONGUE;
    base.upstream.joint = CW_JOINT_GROOVE;
    const cw_piece_weight got = cw_weight_compute(&base, NULL);
    near("volume ft3", got.volume_cuft, 110.61458, volume_tolerance_cuft);
    near("y ft", got.y_ft, 2.823534, place_tolerance_ft);
    near("overall in", got.overall_length_in, 76.0, 1e-9);
    near("z stays ft", got.z_ft, 1.3029, place_tolerance_ft);
}

static void end_weight_and_extras_by_hand(void **state)
{
    (void)state;
    // hand: 16,650 lb at y 3 and 3,000 lb at y 6: y = 67,950/19,650 = 3.45802; 20 ft3 more
    // concrete.
    cw_piece_shape base = example_base();
    base.extra_upstream_lb = 3000.0;
    const cw_piece_weight got = cw_weight_compute(&base, NULL);
    near("weight lb", got.weight_lb, 19650.0, weight_tolerance_lb);
    near("volume ft3", got.volume_cuft, 131.0, volume_tolerance_cuft);
    near("y ft", got.y_ft, 3.45802, place_tolerance_ft);

    // hand: 0.5 ft3 of steel at 490 lb/ft3 = 245 lb at x 5: x = 1225/16,895 = 0.072506.
    base.extra_upstream_lb = 0.0;
    base.extra_count = 1;
    base.extras[0] = (cw_piece_solid){"pipe stub", NULL, 0.5, 490.0, 5.0, 3.0, 2.0, NULL};
    const cw_piece_weight steel = cw_weight_compute(&base, NULL);
    near("weight lb", steel.weight_lb, 16895.0, weight_tolerance_lb);
    near("x ft", steel.x_ft, 0.072506, place_tolerance_ft);
}

/* ---- openings ---- */

static void hole_across_the_seat_is_shared(void **state)
{
    (void)state;
    // closed form: a circle cut in half by the seat leaves each piece a half circle; centroid 4
    // r/(3 pi) from the cut.  r = 1.5 ft: volume pi r^2/2 x 0.8333 = 2.94524 ft3 at 0.63662 ft
    // below the seat.
    cw_piece_shape base = example_base();
    base.opening_count = 1;
    base.openings[0] = (cw_piece_opening){
        .face = CW_HOLE_RIGHT, .y_in = 36.0, .z_in = 58.0, .is_round = true, .diameter_in = 36.0};
    const cw_piece_solids lower = cw_weight_solids(&base);
    assert_int_equal(lower.count, 6);
    near("lower half ft3", lower.items[5].volume_cuft, -2.94524, 0.00001);
    near("lower half z ft", lower.items[5].z_ft, 58.0 / 12.0 - 0.63662, 0.00001);
    near("lower half x ft", lower.items[5].x_ft, 77.0 / 12.0, 1e-9);
    cw_piece_shape hood = base;
    hood.part = CW_PART_HOOD;
    hood.openings[0].z_in = 0.0;
    const cw_piece_solids upper = cw_weight_solids(&hood);
    near("upper half ft3", upper.items[5].volume_cuft, -2.94524, 0.00001);
    near("upper half z ft", upper.items[5].z_ft, 0.63662, 0.00001);
}

static void hole_through_a_haunch_by_hand(void **state)
{
    (void)state;
    // hand: 24 in wide, from the floor to 8 in above it, through wall and the whole 8 in haunch:
    // wall 2 x 0.66667 x 0.83333 = 1.11111 ft3; haunch 2 x 0.66667^2/2 = 0.44444 ft3, centroid a
    // third of the leg from its corner.
    cw_piece_shape base = example_base();
    base.opening_count = 1;
    base.openings[0] = (cw_piece_opening){
        .face = CW_HOLE_RIGHT, .y_in = 36.0, .z_in = 14.0, .width_in = 24.0, .tall_in = 8.0};
    const cw_piece_solids solids = cw_weight_solids(&base);
    assert_int_equal(solids.count, 7);
    near("wall ft3", solids.items[5].volume_cuft, -1.11111, 0.00001);
    near("haunch ft3", solids.items[6].volume_cuft, -0.44444, 0.00001);
    near("haunch x ft", solids.items[6].x_ft, 6.0 - 8.0 / 36.0, 0.00001);
    near("haunch z ft", solids.items[6].z_ft, (10.0 + 8.0 / 3.0) / 12.0, 0.00001);
}

static void floor_and_lid_holes_by_hand(void **state)
{
    (void)state;
    // hand: a 30 x 24 in hole (24 along the run) in an 11 in lid takes 2.5 x 2 x 0.91667 = 4.58333
    // ft3.
    cw_piece_shape lid = example_lid();
    lid.opening_count = 1;
    lid.openings[0] = (cw_piece_opening){
        .face = CW_HOLE_TOP, .y_in = 30.0, .x_in = -20.0, .width_in = 24.0, .tall_in = 30.0};
    const cw_piece_solids top = cw_weight_solids(&lid);
    near("lid hole ft3", top.items[1].volume_cuft, -4.58333, 0.00001);
    near("lid hole x ft", top.items[1].x_ft, -20.0 / 12.0, 1e-9);
    near("lid hole z ft", top.items[1].z_ft, 5.5 / 12.0, 1e-9);
    cw_piece_shape base = example_base();
    base.opening_count = 1;
    base.openings[0] = (cw_piece_opening){
        .face = CW_HOLE_FLOOR, .y_in = 36.0, .is_round = true, .diameter_in = 24.0};
    const cw_piece_solids floor = cw_weight_solids(&base);
    near("floor hole ft3", floor.items[5].volume_cuft, -CW_PI * 10.0 / 12.0, 0.00001);
    near("floor hole z ft", floor.items[5].z_ft, 5.0 / 12.0, 1e-9);
}

/* A hole that belongs wholly to the neighbour takes nothing from this piece. */
static void hole_beyond_the_wall_takes_nothing(void **state)
{
    (void)state;
    cw_piece_shape base = example_base();
    base.opening_count = 1;
    base.openings[0] = (cw_piece_opening){
        .face = CW_HOLE_RIGHT, .y_in = 36.0, .z_in = 80.0, .is_round = true, .diameter_in = 36.0};
    assert_int_equal(cw_weight_solids(&base).count, 5);
}

/* ---- picks ---- */

static void picks_by_hand(void **state)
{
    (void)state;
    // hand: wall centres at +-77/12 = 6.41667 ft; 0.2 x 6 = 1.2 and 4.8 ft; top at 58/12 ft.
    cw_piece_shape base = example_base();
    const cw_pick_points square = cw_weight_picks(&base, 0.2);
    for (int i = 0; i < 4; i++) {
        near("x ft", square.x_ft[i], i % 2 ? 77.0 / 12.0 : -77.0 / 12.0, 1e-9);
        near("y ft", square.y_ft[i], i < 2 ? 1.2 : 4.8, 1e-9);
    }
    near("z ft", square.z_ft, 58.0 / 12.0, 1e-9);
    // hand: upstream end turned 20 deg: right wall 6 + 6.41667 x 0.36397 = 8.33548 ft; 0.8 of
    // it 6.66838.
    base.upstream.skew_deg = 20.0;
    near("skewed y ft", cw_weight_picks(&base, 0.2).y_ft[3], 6.66838, 0.00001);
}

/* ---- properties ---- */

static const int property_cases = 3000;

static void mirror_moves_the_centre_of_gravity_across(void **state)
{
    (void)state;
    uint64_t seed = 5;
    for (int i = 0; i < property_cases; i++) {
        const cw_piece_shape shape = valid_shape(&seed);
        cw_piece_shape other = shape;
        other.upstream.skew_deg = -shape.upstream.skew_deg;
        other.downstream.skew_deg = -shape.downstream.skew_deg;
        other.upstream.mitre_deg = -shape.upstream.mitre_deg;
        other.downstream.mitre_deg = -shape.downstream.mitre_deg;
        for (int k = 0; k < shape.opening_count; k++) {
            cw_piece_opening *hole = &other.openings[k];
            hole->x_in = -hole->x_in;
            if (hole->face == CW_HOLE_LEFT || hole->face == CW_HOLE_RIGHT)
                hole->face = hole->face == CW_HOLE_LEFT ? CW_HOLE_RIGHT : CW_HOLE_LEFT;
        }
        const cw_piece_weight a = cw_weight_compute(&shape, NULL);
        const cw_piece_weight b = cw_weight_compute(&other, NULL);
        near("weight lb", b.weight_lb, a.weight_lb, 1e-6);
        near("x ft", b.x_ft, -a.x_ft, 1e-9);
        near("y ft", b.y_ft, a.y_ft, 1e-9);
        near("z ft", b.z_ft, a.z_ft, 1e-9);
    }
}

/* Cutting a piece along any plumb plane that stays inside it changes nothing in the sum. */
static void splitting_conserves_volume_and_place(void **state)
{
    (void)state;
    uint64_t seed = 6;
    for (int i = 0; i < property_cases; i++) {
        cw_piece_shape whole = valid_shape(&seed);
        whole.opening_count = 0;
        whole.upstream.joint = whole.downstream.joint = CW_JOINT_PLAIN;
        const double cut_in = whole.length_in * random_between(&seed, 0.3, 0.7);
        cw_piece_shape low = whole, high = whole;
        low.upstream = (cw_piece_end){.skew_deg = random_between(&seed, -8.0, 8.0)};
        low.length_in = cut_in;
        high.downstream = low.upstream;
        high.length_in = whole.length_in - cut_in;
        const cw_piece_weight w = cw_weight_compute(&whole, NULL);
        const cw_piece_weight a = cw_weight_compute(&low, NULL);
        const cw_piece_weight b = cw_weight_compute(&high, NULL);
        const double sum_lb = a.weight_lb + b.weight_lb;
        near("weight lb", sum_lb, w.weight_lb, 1e-6);
        near("x ft", (a.weight_lb * a.x_ft + b.weight_lb * b.x_ft) / sum_lb, w.x_ft, 1e-9);
        near("z ft", (a.weight_lb * a.z_ft + b.weight_lb * b.z_ft) / sum_lb, w.z_ft, 1e-9);
        const double shift_ft = cut_in / CW_IN_PER_FT;
        near("y ft", (a.weight_lb * a.y_ft + b.weight_lb * (b.y_ft + shift_ft)) / sum_lb, w.y_ft,
             1e-9);
    }
}

static void volume_scales_with_length(void **state)
{
    (void)state;
    uint64_t seed = 7;
    for (int i = 0; i < property_cases; i++) {
        cw_piece_shape shape = valid_shape(&seed);
        shape.opening_count = 0;
        shape.upstream = shape.downstream = (cw_piece_end){.joint = CW_JOINT_PLAIN};
        const cw_piece_weight one = cw_weight_compute(&shape, NULL);
        const double factor = random_between(&seed, 0.5, 4.0);
        shape.length_in *= factor;
        const cw_piece_weight many = cw_weight_compute(&shape, NULL);
        near("volume ft3", many.volume_cuft, factor * one.volume_cuft, 1e-9 * many.volume_cuft);
        near("y ft", many.y_ft, factor * one.y_ft, 1e-9);
        near("z ft", many.z_ft, one.z_ft, 1e-9);
    }
}

/* ---- refusals ---- */

typedef struct refusal {
    const char *name;
    void (*spoil)(cw_piece_shape *shape);
    cw_code code;
    const char *words;
} refusal;

static void spoil_span(cw_piece_shape *s)
{
    s->span_in = 4.0;
}
static void spoil_nan(cw_piece_shape *s)
{
    s->wall_in = (double)NAN;
}
static void spoil_part(cw_piece_shape *s)
{
    s->part = 4;
}
static void spoil_lid(cw_piece_shape *s)
{
    s->part = CW_PART_LID;
}
static void spoil_leg(cw_piece_shape *s)
{
    s->leg_in = 0.0;
}
static void spoil_ring(cw_piece_shape *s)
{
    s->part = CW_PART_RING;
}
static void spoil_top(cw_piece_shape *s)
{
    s->top_slab_in = 8.0;
}
static void spoil_haunch(cw_piece_shape *s)
{
    s->haunch_in = 50.0;
}
static void spoil_turn(cw_piece_shape *s)
{
    s->upstream.skew_deg = 50.0;
    s->upstream.mitre_deg = -20.0;
}
static void spoil_cross(cw_piece_shape *s)
{
    s->upstream.skew_deg = 45.0;
}
static void spoil_cross_left(cw_piece_shape *s)
{
    s->upstream.skew_deg = -45.0;
}

static void spoil_count(cw_piece_shape *s)
{
    s->opening_count = 9;
}
static void spoil_extras(cw_piece_shape *s)
{
    s->extra_count = 5;
}
static void spoil_extra(cw_piece_shape *s)
{
    s->extra_count = 1;
    s->extras[0].unit_pcf = -1.0;
}
static void one_hole(cw_piece_shape *s, int face, double y_in, double z_in)
{
    s->opening_count = 1;
    s->openings[0] = (cw_piece_opening){
        .face = face, .y_in = y_in, .z_in = z_in, .is_round = true, .diameter_in = 24.0};
}
static void spoil_face(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_TOP, 36.0, 0.0);
}
static void spoil_unknown_face(cw_piece_shape *s)
{
    one_hole(s, 9, 36.0, 34.0);
}

static void spoil_size(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_LEFT, 36.0, 34.0);
    s->openings[0].diameter_in = 0.0;
}
static void spoil_low(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_LEFT, 36.0, 20.0);
}
static void spoil_high(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_LEFT, 36.0, 71.0);
}
static void spoil_end(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_LEFT, 11.0, 34.0);
}
static void spoil_groove(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_LEFT, 57.0, 34.0);
    s->upstream.joint = CW_JOINT_GROOVE;
    s->groove_in = 4.0;
}
static void spoil_overlap(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_LEFT, 30.0, 34.0);
    s->openings[1] = s->openings[0];
    s->openings[1].y_in = 50.0;
    s->opening_count = 2;
}
static void spoil_corner(cw_piece_shape *s)
{
    one_hole(s, CW_HOLE_LEFT, 36.0, 22.0);
    s->openings[1] = (cw_piece_opening){
        .face = CW_HOLE_FLOOR, .y_in = 40.0, .x_in = -66.0, .width_in = 12.0, .tall_in = 12.0};
    s->opening_count = 2;
}
static void spoil_weight(cw_piece_shape *s)
{
    s->extra_count = 1;
    s->extras[0] = (cw_piece_solid){"void", NULL, -200.0, 150.0, 0.0, 0.0, 0.0, NULL};
}

static const refusal refusals[] = {
    {"span", spoil_span, CW_E_RANGE, "span 4 in is outside 18 to 720"},
    {"no number", spoil_nan, CW_E_RANGE, "wall nan in is outside"},
    {"part", spoil_part, CW_E_CHOICE, "choose base to ring"},
    {"lid with legs", spoil_lid, CW_E_GEOMETRY, "a lid has no walls"},
    {"base without legs", spoil_leg, CW_E_GEOMETRY, "needs walls"},
    {"ring without top", spoil_ring, CW_E_GEOMETRY, "a ring needs a top slab"},
    {"base with top", spoil_top, CW_E_GEOMETRY, "only a ring has top_slab"},
    {"haunch", spoil_haunch, CW_E_GEOMETRY, "do not fit leg 48 in"},
    {"turn", spoil_turn, CW_E_RANGE, "pass the limit of 60 deg"},
    {"planes cross", spoil_cross, CW_E_GEOMETRY, "the shorter side is -10 in"},
    {"planes cross, left", spoil_cross_left, CW_E_GEOMETRY, "the shorter side is -10 in"},
    {"too many openings", spoil_count, CW_E_TOO_MANY, "9 openings"},
    {"too many extras", spoil_extras, CW_E_TOO_MANY, "5 extra solids"},
    {"extra", spoil_extra, CW_E_RANGE, "unit weight -1"},
    {"face", spoil_face, CW_E_CONFLICT, "opening 1 is in a face"},
    {"unknown face", spoil_unknown_face, CW_E_CONFLICT, "opening 1 is in a face"},
    {"size", spoil_size, CW_E_RANGE, "0 by 0 in"},
    {"into the floor", spoil_low, CW_E_GEOMETRY, "spans 8 to 32 in above the underside"},
    {"over the seat", spoil_high, CW_E_GEOMETRY, "outside its face from 10 to 58 in"},
    {"into the end", spoil_end, CW_E_GEOMETRY, "outside the sound concrete from 0 to 72 in"},
    {"into the groove", spoil_groove, CW_E_GEOMETRY, "from 0 to 68 in"},
    {"overlap", spoil_overlap, CW_E_CONFLICT, "openings 1 and 2 overlap"},
    {"overlap in a haunch", spoil_corner, CW_E_CONFLICT, "openings 1 and 2 overlap"},
    {"nothing left", spoil_weight, CW_E_GEOMETRY, "must weigh something"},
};

static void bad_shapes_are_refused(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_piece_shape shape = example_base();
        assert_true(cw_piece_shape_valid(&shape, (cw_pos){0}, &diags));
        refusals[i].spoil(&shape);
        if (cw_piece_shape_valid(&shape, (cw_pos){0}, &diags) || diags.count < 1)
            fail_msg("%s is not refused", refusals[i].name);
        if (diags.items[0].code != refusals[i].code ||
            !strstr(diags.items[0].message, refusals[i].words))
            fail_msg("%s: error %d: %s", refusals[i].name, (int)diags.items[0].code,
                     diags.items[0].message);
        cw_arena_release(&arena);
    }
}

/* A hole that touches floor and joint exactly is still allowed. */
static void touching_is_allowed(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_piece_shape shape = example_base();
    shape.slab_in = 10.1;
    one_hole(&shape, CW_HOLE_LEFT, 12.0, 22.1);
    assert_true(cw_piece_shape_valid(&shape, (cw_pos){0}, &diags));
    assert_int_equal(diags.count, 0);
    cw_arena_release(&arena);
}

/* ---- working and calculators ---- */

static void working_shows_every_solid(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_working working = cw_working_on(&arena, "test");
    cw_piece_shape shape = example_base();
    one_hole(&shape, CW_HOLE_LEFT, 36.0, 34.0);
    const cw_piece_weight got = cw_weight_compute(&shape, &working);
    const int solids = cw_weight_solids(&shape).count;
    assert_int_equal(working.count, 1 + solids + 5);
    double sum = 0.0;
    for (int i = 1; i <= solids; i++) {
        sum += working.steps[i].value;
        assert_non_null(working.steps[i].source);
        assert_null(strstr(working.steps[i].expression, "-0.0000"));
    }
    near("sum of steps ft3", sum, got.volume_cuft, 1e-9);
    cw_arena_release(&arena);
}

enum { BYTES_MAX = 4096, WORDS_MAX = 40 };

/* Runs the calculator's own example into @p output. */
static void run_example(const cw_calc *calc, void *output, cw_arena *arena)
{
    static const cw_rows no_rows = {NULL, 0};
    cw_diags diags = cw_diags_on(arena);
    cw_calc_value values[WORDS_MAX];
    int count = 0;
    char *copy = cw_arena_copy(arena, calc->example, strlen(calc->example));
    for (char *word = strtok(copy, " "); word && count < WORDS_MAX; word = strtok(NULL, " ")) {
        char *equals = strchr(word, '=');
        assert_non_null(equals);
        *equals = '\0';
        values[count++] = (cw_calc_value){.key = word, .text = equals + 1};
    }
    void *input = cw_arena_take(arena, 1, calc->input_size);
    if (!cw_calc_fill(calc, values, count, &no_rows, input, NULL, arena, &diags))
        fail_msg("example of %s: %s", calc->name, diags.count ? diags.items[0].message : "refused");
    cw_working working = cw_working_on(arena, calc->title);
    calc->run(input, output, &working);
    assert_true(working.count > 0);
}

static double result(const cw_calc *calc, const char *key, const void *output)
{
    for (int i = 0; i < calc->output_count; i++)
        if (cw_text_same(calc->outputs[i].key, key))
            return *(const double *)(const void *)((const char *)output + calc->outputs[i].offset);
    fail_msg("%s has no result %s", calc->name, key);
    return 0.0;
}

static void examples_give_the_hand_values(void **state)
{
    (void)state;
    // The same hand values as above, now from text to result.
    static const struct {
        const cw_calc *calc;
        const char *key;
        double value, tolerance;
    } rows[] = {
        {&cw_calc_piece_weight, "weight", 16650.0, 0.5},
        {&cw_calc_piece_weight, "z", 1.3029, 0.0001},
        {&cw_calc_piece_cg, "weight", 15764.9, 0.05},
        {&cw_calc_piece_cg, "x", 0.3602, 0.0001},
        {&cw_calc_piece_cg, "z", 1.2171, 0.0001},
        {&cw_calc_section_area, "area", 17.1111, 0.0001},
        {&cw_calc_section_area, "line_weight", 2566.67, 0.01},
        {&cw_calc_box_weight_per_foot, "base", 3708.33, 0.01},
        {&cw_calc_box_weight_per_foot, "box", 5416.67, 0.01},
        {&cw_calc_skew_end_weight, "weight", 15400.0, 0.5},
        {&cw_calc_skew_end_weight, "x", 0.743105, 0.0001},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_arena arena = cw_arena_on(NULL);
        void *output = cw_arena_take(&arena, 1, BYTES_MAX);
        run_example(rows[i].calc, output, &arena);
        near(rows[i].key, result(rows[i].calc, rows[i].key, output), rows[i].value,
             rows[i].tolerance);
        cw_arena_release(&arena);
    }
}

static void bad_boxes_are_refused(void **state)
{
    (void)state;
    const cw_box_weight_input good = {.form = 1,
                                      .span_in = 144.0,
                                      .rise_in = 96.0,
                                      .wall_in = 10.0,
                                      .floor_in = 10.0,
                                      .top_in = 10.0,
                                      .leg_in = 40.0,
                                      .unit_pcf = 150.0};
    cw_box_weight_input bad[4] = {good, good, good, good};
    bad[0].form = 3;
    bad[1].leg_in = 96.0;
    bad[2].form = 0;
    bad[2].top_haunch_in = 6.0;
    bad[3].top_in = 0.0;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    assert_true(cw_calc_box_weight_per_foot.valid(&good, (cw_pos){0}, &diags));
    for (int i = 0; i < 4; i++) {
        assert_false(cw_calc_box_weight_per_foot.valid(&bad[i], (cw_pos){0}, &diags));
        assert_int_equal(diags.count, i + 1);
    }
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(base_and_lid_by_hand),
        cmocka_unit_test(holed_base_by_hand),
        cmocka_unit_test(shallow_base_by_hand),
        cmocka_unit_test(boxes_per_foot_by_hand),
        cmocka_unit_test(hood_is_base_turned_over),
        cmocka_unit_test(skew_and_mitre_in_closed_form),
        cmocka_unit_test(solids_between_slanted_ends),
        cmocka_unit_test(parallel_skew_keeps_the_walls_alike),
        cmocka_unit_test(tongue_and_groove_shift_y),
        cmocka_unit_test(end_weight_and_extras_by_hand),
        cmocka_unit_test(hole_across_the_seat_is_shared),
        cmocka_unit_test(hole_through_a_haunch_by_hand),
        cmocka_unit_test(floor_and_lid_holes_by_hand),
        cmocka_unit_test(hole_beyond_the_wall_takes_nothing),
        cmocka_unit_test(picks_by_hand),
        cmocka_unit_test(mirror_moves_the_centre_of_gravity_across),
        cmocka_unit_test(splitting_conserves_volume_and_place),
        cmocka_unit_test(volume_scales_with_length),
        cmocka_unit_test(bad_shapes_are_refused),
        cmocka_unit_test(touching_is_allowed),
        cmocka_unit_test(working_shows_every_solid),
        cmocka_unit_test(examples_give_the_hand_values),
        cmocka_unit_test(bad_boxes_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
