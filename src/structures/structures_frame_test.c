/* The frame solver against textbook formulas, and boxes against closed forms. */
#include "../base/calc_test_help.h"

#include "cw/structures.h"

#include <stdlib.h>

#include "structures/structures_internal.h"

#define MODULUS_PSF 617328000.0 /* 4,287 ksi */
#define STIFF_AXIS 1e7          /* textbook formulas neglect shortening */

enum { BEAM_PARTS = 16, SPRING_PARTS = 80 };

/* Depth of a rectangle 1 ft wide with this second moment, ft^4. */
static double depth_for(double inertia)
{
    return cbrt(12.0 * inertia);
}

static const int in_order[CW_FRAME_POINTS] = {
    0,  1,  2,  3,  4,  5,  6,  7,  8,  9,  10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 21, 22, 23,
    24, 25, 26, 27, 28, 29, 30, 31, 32, 33, 34, 35, 36, 37, 38, 39, 40, 41, 42, 43, 44, 45, 46, 47,
    48, 49, 50, 51, 52, 53, 54, 55, 56, 57, 58, 59, 60, 61, 62, 63, 64, 65, 66, 67, 68, 69, 70, 71,
    72, 73, 74, 75, 76, 77, 78, 79, 80, 81, 82, 83, 84, 85, 86, 87, 88, 89, 90, 91, 92, 93, 94, 95};

/* A beam along x of unit depth. */
static void beam(cw_frame *frame, double length_ft, int parts)
{
    cw_frame_clear(frame, MODULUS_PSF);
    for (int i = 0; i <= parts; i++)
        assert_int_equal(cw_frame_point_add(frame, length_ft * i / parts, 0.0), i);
    for (int i = 0; i < parts; i++)
        cw_frame_bar_add(frame, i, i + 1, 1.0, 1.0);
}

static void solve_in(cw_frame *frame, const int *order)
{
    assert_true(cw_frame_number(frame, order));
    assert_true(cw_frame_solve(frame));
}

static void solve(cw_frame *frame)
{
    solve_in(frame, in_order);
}

/* Textbook: even load w: R = 3wL/8, M = wL^2/8.  Triangle with its peak at the fixed end:
 * R = wL/10, M = wL^2/15; without the prop M = wL^2/6. */
static void propped_cantilevers(void **state)
{
    (void)state;
    static cw_frame frame;
    for (int load = 0; load < 3; load++) {
        beam(&frame, 8.0, BEAM_PARTS);
        for (int d = 0; d < 3; d++)
            frame.point[0].fixed[d] = true;
        frame.point[BEAM_PARTS].fixed[1] = load < 2;
        for (int i = 0; i < BEAM_PARTS; i++) {
            const double a = 8.0 * i / BEAM_PARTS, b = 8.0 * (i + 1) / BEAM_PARTS;
            const double wa = load == 0 ? 1.2 : 0.48 * (1.0 - a / 8.0);
            const double wb = load == 0 ? 1.2 : 0.48 * (1.0 - b / 8.0);
            cw_frame_bar_across(&frame, i, 0.0, b - a, -wa, -wb);
        }
        solve(&frame);
        static const double moment[3] = {9.6, 2.048, 5.12}, prop[3] = {3.6, 0.384, 0.0};
        near("fixed moment", cw_frame_reaction(&frame, 0, 2), moment[load], 1e-9);
        if (load < 2)
            near("prop", cw_frame_reaction(&frame, BEAM_PARTS, 1), prop[load], 1e-9);
    }
}

/* Portal with pinned feet, closed form: k = Ib h/(Ic L), H = w L^2/(4 h (2k + 3)). */
static void pinned_portal(void **state)
{
    (void)state;
    static cw_frame frame;
    static const double x[4] = {0.0, 0.0, 12.0, 12.0}, y[4] = {0.0, 8.0, 8.0, 0.0};
    cw_frame_clear(&frame, MODULUS_PSF);
    frame.axial = STIFF_AXIS;
    for (int i = 0; i < 4; i++)
        cw_frame_point_add(&frame, x[i], y[i]);
    const double column = depth_for(1.0), girder = depth_for(2.0);
    cw_frame_bar_add(&frame, 0, 1, column, column);
    cw_frame_bar_add(&frame, 1, 2, girder, girder);
    cw_frame_bar_add(&frame, 2, 3, column, column);
    for (int i = 0; i < 4; i += 3)
        frame.point[i].fixed[0] = frame.point[i].fixed[1] = true;
    cw_frame_bar_across(&frame, 1, 0.0, 12.0, -1.5, -1.5);
    solve(&frame);
    const double k = 2.0 * 8.0 / 12.0, push = 1.5 * 144.0 / (4.0 * 8.0 * (2.0 * k + 3.0));
    double ends[6];
    cw_frame_end_forces(&frame, 1, ends);
    near("thrust", ends[0], push, 1e-6);
    near("corner", fabs(ends[2]), push * 8.0, 1e-6);
}

/* Closed box L 10, h 8, slab I 1.6, wall I 1: k = Is h/(Iw L); even load on top and floor: corner
 * w L^2/12/(1 + k); even load on both walls: corner p h^2/12 k/(1 + k). */
static void closed_box(void **state)
{
    (void)state;
    static cw_frame frame;
    static const double x[4] = {0.0, 10.0, 10.0, 0.0}, y[4] = {0.0, 0.0, 8.0, 8.0};
    const double k = 1.6 * 8.0 / 10.0;
    const double wanted[2] = {2.0 * 100.0 / 12.0 / (1.0 + k), 0.8 * 64.0 / 12.0 * k / (1.0 + k)};
    for (int load = 0; load < 2; load++) {
        cw_frame_clear(&frame, MODULUS_PSF);
        frame.axial = STIFF_AXIS;
        for (int i = 0; i < 4; i++)
            cw_frame_point_add(&frame, x[i], y[i]);
        for (int i = 0; i < 4; i++) {
            const double depth = depth_for(i % 2 == 0 ? 1.6 : 1.0);
            cw_frame_bar_add(&frame, i, (i + 1) % 4, depth, depth);
        }
        frame.point[0].fixed[0] = frame.point[0].fixed[1] = frame.point[1].fixed[1] = true;
        for (int i = load; i < 4; i += 2)
            cw_frame_bar_across(&frame, i, 0.0, load == 0 ? 10.0 : 8.0, load == 0 ? 2.0 : 0.8,
                                load == 0 ? 2.0 : 0.8);
        solve(&frame);
        double ends[6];
        cw_frame_end_forces(&frame, 0, ends);
        near("corner", fabs(ends[2]), wanted[load], 1e-6);
    }
}

/* 10 by 10, constant EI, 25 at mid top, 2.5 under the floor: slope deflection by hand gives
 * rotations 14.3229 and -11.7188, corners 16.9271 and 9.1146, middles 45.5729 and 22.1354. */
static void box_with_point_load(void **state)
{
    (void)state;
    static cw_frame frame;
    static const double x[6] = {0.0, 5.0, 10.0, 10.0, 5.0, 0.0},
                        y[6] = {0.0, 0.0, 0.0, 10.0, 10.0, 10.0};
    cw_frame_clear(&frame, MODULUS_PSF);
    frame.axial = STIFF_AXIS;
    for (int i = 0; i < 6; i++)
        cw_frame_point_add(&frame, x[i], y[i]);
    for (int i = 0; i < 6; i++)
        cw_frame_bar_add(&frame, i, (i + 1) % 6, 1.0, 1.0);
    frame.point[0].fixed[0] = frame.point[0].fixed[1] = frame.point[2].fixed[1] = true;
    frame.point[4].load[1] = -25.0;
    for (int i = 0; i < 2; i++)
        cw_frame_bar_across(&frame, i, 0.0, 5.0, 2.5, 2.5);
    static const int folded[6] = {0, 1, 5, 2, 4, 3};
    solve_in(&frame, folded);
    double floor[6], top[6];
    cw_frame_end_forces(&frame, 0, floor);
    cw_frame_end_forces(&frame, 3, top);
    near("bottom corner", fabs(floor[2]), 9.1146, 1e-4);
    near("bottom middle", fabs(floor[5]), 22.1354, 1e-4);
    near("top corner", fabs(top[2]), 16.9271, 1e-4);
    near("top middle", fabs(top[5]), 45.5729, 1e-4);
}

/* Beam on springs, Hetenyi's closed form: L 14 ft, P 40 kip, t 10 in, k 200 kcf. */
static void beam_on_springs(void **state)
{
    (void)state;
    static cw_frame frame;
    const double part = 14.0 / SPRING_PARTS, t = 10.0 / 12.0, k = 200e3;
    cw_frame_clear(&frame, MODULUS_PSF);
    for (int i = 0; i <= SPRING_PARTS; i++) {
        cw_frame_point_add(&frame, part * i, 0.0);
        frame.point[i].spring = k * part * (i == 0 || i == SPRING_PARTS ? 0.5 : 1.0);
    }
    for (int i = 0; i < SPRING_PARTS; i++)
        cw_frame_bar_add(&frame, i, i + 1, t, t);
    frame.point[0].fixed[0] = true;
    frame.point[SPRING_PARTS / 2].load[1] = -40e3;
    solve(&frame);
    double ends[6];
    cw_frame_end_forces(&frame, SPRING_PARTS / 2, ends);
    const double l = pow(k / (4.0 * MODULUS_PSF * t * t * t / 12.0), 0.25), a = l * 14.0;
    const double both = sinh(a) + sin(a);
    near("lambda", l, 0.202439, 1e-6);
    const double moment = 40e3 / (4.0 * l) * (cosh(a) - cos(a)) / both;
    near("published moment", moment, 53387.0, 1.0);
    near("moment", fabs(ends[2]), moment, 5e-4 * moment);
    near("middle", -cw_frame_move(&frame, SPRING_PARTS / 2, 1), 0.022095, 3e-6);
    near("end", -cw_frame_move(&frame, 0, 1), 0.003083, 4e-6);
}

/* A cantilever whose depth runs from a to b: tip movement under a tip load P is the integral of
 * P s^2/(E I(s)), here in closed form for I = h^3/12 with h straight:
 * 12 P/E m^3 (ln(b/a) + 2 a/b - a^2/(2 b^2) - 3/2), m = L/(b - a), depth a at the tip. */
static void tapered_cantilever(void **state)
{
    (void)state;
    static cw_frame frame;
    const double a = 0.8, b = 1.4, length = 5.0, m = length / (b - a);
    cw_frame_clear(&frame, MODULUS_PSF);
    enum { PARTS = 10 };
    for (int i = 0; i <= PARTS; i++)
        cw_frame_point_add(&frame, length * i / PARTS, 0.0);
    for (int i = 0; i < PARTS; i++)
        cw_frame_bar_add(&frame, i, i + 1, b + (a - b) * i / PARTS, b + (a - b) * (i + 1) / PARTS);
    for (int d = 0; d < 3; d++)
        frame.point[0].fixed[d] = true;
    frame.point[PARTS].load[1] = -1000.0;
    solve(&frame);
    const double tip = 12.0 * 1000.0 / MODULUS_PSF * m * m * m *
                       (log(b / a) + 2.0 * a / b - a * a / (2.0 * b * b) - 1.5);
    near("tip", -cw_frame_move(&frame, PARTS, 1), tip, 1e-9 * tip);
}

static void free_frames_are_mechanisms(void **state)
{
    (void)state;
    static cw_frame frame;
    beam(&frame, 8.0, 4);
    frame.point[0].fixed[0] = frame.point[0].fixed[1] = true; // may turn about this end
    assert_true(cw_frame_number(&frame, in_order));
    assert_false(cw_frame_solve(&frame));
}

/* ---- boxes: 14 x 8 ft, walls 10 in, slabs 12 in ---- */

static cw_struct_box sample(int form)
{
    return (cw_struct_box){.form = form,
                           .span_in = 168.0,
                           .rise_in = 96.0,
                           .wall_in = 10.0,
                           .floor_in = 12.0,
                           .top_in = 12.0,
                           .concrete_psi = 4287e3,
                           .concrete_pcf = 150.0};
}

static cw_struct_case earth_case(double top_psf, double foot_psf, double head_psf)
{
    const cw_struct_side side = {0.0, 9.0, foot_psf, head_psf};
    return (cw_struct_case){
        .top_psf = top_psf, .left_count = 1, .right_count = 1, .left = {side}, .right = {side}};
}

#define WIDTH_FT (178.0 / 12.0)
#define TOP_PSF 654.51

/* The tied answers follow from two cases that both strut, since those add up. */
static cw_struct_solution tied_top(cw_struct_box box)
{
    const cw_struct_case push = earth_case(1e-3, 1620.0, 540.0);
    const cw_struct_case all = earth_case(TOP_PSF + 1e-3, 1620.0, 540.0);
    const cw_struct_solution a = cw_struct_solve(&box, &all), b = cw_struct_solve(&box, &push);
    assert_int_equal(a.status, CW_STRUCT_OK);
    assert_false(a.released || b.released);
    cw_struct_solution out = a;
    for (int p = 0; p < CW_STRUCT_PLACES; p++)
        out.left[p].moment_ft_lb = a.left[p].moment_ft_lb - b.left[p].moment_ft_lb;
    out.strut_lb = a.strut_lb - b.strut_lb;
    return out;
}

/* Closed form with axial shortening neglected: kb = 2 Ib/L, kw = 3 Iw/h, earth on top: corner
 * w L^2/12 kw/(kw + kb); side pressure: the propped moment times kb/(kw + kb).  A frame program
 * written apart from this one gives -7,055, 10,946, -784 and -2,317, 4,309, 1,768 lb and ft. */
static void lid_against_closed_form(void **state)
{
    (void)state;
    const cw_struct_box box = sample(CW_STRUCT_LID);
    const double ib = 1.0 / 12.0, iw = pow(10.0 / 12.0, 3.0) / 12.0;
    const double kb = 2.0 * ib / WIDTH_FT, kw = 3.0 * iw / 9.0;
    const cw_struct_solution top = tied_top(box);
    const double corner = TOP_PSF * WIDTH_FT * WIDTH_FT / 12.0 * kw / (kw + kb);
    near("closed corner", corner, 7064.0, 1.0);
    near("corner", top.left[CW_STRUCT_WALL_FOOT].moment_ft_lb, -corner, 0.002 * corner);
    near("corner", top.left[CW_STRUCT_WALL_FOOT].moment_ft_lb, -7055.0, 1.0);
    near("lid", top.left[CW_STRUCT_TOP_MID].moment_ft_lb, TOP_PSF * WIDTH_FT * WIDTH_FT / 8.0,
         1e-4);
    near("floor", top.left[CW_STRUCT_FLOOR_MID].moment_ft_lb, 10946.0, 1.5);
    near("tie", top.strut_lb, -784.0, 0.6);
    const cw_struct_case load = earth_case(1e-3, 810.0, 270.0);
    const cw_struct_solution side = cw_struct_solve(&box, &load);
    const double fixed = 270.0 * 81.0 / 8.0 + 540.0 * 81.0 / 15.0;
    near("fixed end", fixed, 5650.0, 1.0);
    near("closed side", fixed * kb / (kw + kb), 2324.3, 0.1);
    near("side corner", side.left[CW_STRUCT_WALL_FOOT].moment_ft_lb, -2324.3, 0.004 * 2324.3);
    near("side corner", side.left[CW_STRUCT_WALL_FOOT].moment_ft_lb, -2317.0, 0.6);
    near("wall", side.wall_most_ft_lb, 4309.0, 4.0);
    near("strut", side.strut_lb, 1768.0, 0.6);
}

/* Springs, same program: kcf, foot, floor middle, strut of tied tops. */
static void lid_on_springs(void **state)
{
    (void)state;
    static const double wanted[2][4] = {{200e3, -5979.0, 8577.0, -664.0},
                                        {60e3, -6677.0, 10137.0, -742.0}};
    for (int i = 0; i < 2; i++) {
        cw_struct_box box = sample(CW_STRUCT_LID);
        box.ground = CW_STRUCT_SPRINGS;
        box.ground_pcf = wanted[i][0];
        // Weight of soil keeps all springs closed in both parts, so that they add up.
        const cw_struct_case push = earth_case(3.0 * TOP_PSF, 4860.0, 1620.0);
        const cw_struct_case all = earth_case(4.0 * TOP_PSF, 4860.0, 1620.0);
        const cw_struct_solution a = cw_struct_solve(&box, &all), b = cw_struct_solve(&box, &push);
        assert_true(a.status == CW_STRUCT_OK && b.status == CW_STRUCT_OK);
        assert_false(a.released || b.released);
        near("all bears", a.bearing_share, 1.0, 1e-12);
        near("foot",
             a.left[CW_STRUCT_WALL_FOOT].moment_ft_lb - b.left[CW_STRUCT_WALL_FOOT].moment_ft_lb,
             wanted[i][1], 12.0);
        near("floor",
             a.left[CW_STRUCT_FLOOR_MID].moment_ft_lb - b.left[CW_STRUCT_FLOOR_MID].moment_ft_lb,
             wanted[i][2], 15.0);
        near("strut", a.strut_lb - b.strut_lb, wanted[i][3], 2.0);
    }
}

/* Service earth with the least side pressure and the weight of the walls (as two line loads on the
 * floor's ends): tied it would pull, so the seat opens.  Released is determinate, by hand:
 * foot -(135 x 81/2 + 270 x 81/6) = -9,113, floor 18,001 + 2,250 x 14.833/8 - 9,113 = 13,061. */
static void seat_opens_when_the_lid_would_pull(void **state)
{
    (void)state;
    cw_struct_box box = sample(CW_STRUCT_LID);
    cw_struct_case load = earth_case(TOP_PSF - 150.0, 405.0, 135.0);
    load.weight = 1.0; // lid 150 psf, floor 150 psf (no effect on even reaction), walls 125 psf
    const cw_struct_solution one = cw_struct_solve(&box, &load);
    assert_int_equal(one.status, CW_STRUCT_OK);
    assert_true(one.released);
    near("foot", one.left[CW_STRUCT_WALL_FOOT].moment_ft_lb, -9112.5, 0.01);
    near("floor", one.left[CW_STRUCT_FLOOR_MID].moment_ft_lb, 13061.0, 2.0);
    near("no tie", one.strut_lb, 0.0, 1e-6);
    near("each wall top outward 0.0017 ft", one.gap_in, 2.0 * 0.0017 * 12.0, 0.003);
    load = earth_case(TOP_PSF - 150.0, 810.0, 270.0);
    load.weight = 1.0;
    assert_false(cw_struct_solve(&box, &load).released);
}

/* Same program: pin at mid wall makes both slabs simple spans under even load. */
static void hood_and_ring(void **state)
{
    (void)state;
    cw_struct_box box = sample(CW_STRUCT_DOUBLE_U);
    const cw_struct_case top = earth_case(TOP_PSF, 0.0, 0.0);
    const cw_struct_case side = earth_case(1e-3, 810.0, 270.0);
    cw_struct_solution one = cw_struct_solve(&box, &top);
    near("hood corner", one.left[CW_STRUCT_TOP_END].moment_ft_lb, 0.0, 0.01);
    near("hood middle", one.left[CW_STRUCT_TOP_MID].moment_ft_lb, 18001.0, 0.5);
    one = cw_struct_solve(&box, &side);
    near("hood side, top", one.left[CW_STRUCT_TOP_END].moment_ft_lb, -5379.0, 0.6);
    near("hood side, foot", one.left[CW_STRUCT_WALL_FOOT].moment_ft_lb, -5556.0, 0.6);
    box.ground = CW_STRUCT_SPRINGS;
    box.ground_pcf = 200e3;
    one = cw_struct_solve(&box, &top);
    near("hood on springs", one.left[CW_STRUCT_TOP_END].moment_ft_lb, -1188.0, 4.0);
    near("hood on springs, floor", one.left[CW_STRUCT_FLOOR_MID].moment_ft_lb, 13174.0, 4.0);
    box = sample(CW_STRUCT_RING);
    one = cw_struct_solve(&box, &top);
    near("ring corner", one.left[CW_STRUCT_TOP_END].moment_ft_lb, -5858.5, 0.1);
    near("ring middle", one.left[CW_STRUCT_TOP_MID].moment_ft_lb, 12143.0, 0.6);
    one = cw_struct_solve(&box, &side);
    near("ring side, top", one.left[CW_STRUCT_TOP_END].moment_ft_lb, -1777.0, 0.6);
    near("ring side, foot", one.left[CW_STRUCT_WALL_FOOT].moment_ft_lb, -1954.0, 0.6);
    near("ring side, wall", one.wall_most_ft_lb, 3632.0, 1.0);
    near("foot shear", fabs(one.left[CW_STRUCT_WALL_FOOT].shear_lb), 2855.0, 0.6);
    near("top shear", fabs(one.left[CW_STRUCT_WALL_TOP].shear_lb), 2005.0, 0.6);
}

static void what_cannot_stand_is_said(void **state)
{
    (void)state;
    cw_struct_box box = sample(CW_STRUCT_LID);
    const cw_struct_case lifted = earth_case(-500.0, 0.0, 0.0);
    assert_int_equal(cw_struct_solve(&box, &lifted).status, CW_STRUCT_NO_CONTACT);
    box.ground = CW_STRUCT_SPRINGS;
    box.ground_pcf = 100e3;
    assert_int_equal(cw_struct_solve(&box, &lifted).status, CW_STRUCT_NO_CONTACT);
    box.wall_in = 0.0;
    const cw_struct_case plain = earth_case(500.0, 0.0, 0.0);
    assert_int_equal(cw_struct_solve(&box, &plain).status, CW_STRUCT_BAD_BOX);
    box = sample(CW_STRUCT_LID);
    box.haunch_in = 90.0;
    assert_int_equal(cw_struct_solve(&box, &plain).status, CW_STRUCT_BAD_BOX);
    // Earth against one wall only, heavier than the box: it tips over its other edge.
    cw_struct_case tips = {.weight = 1.0, .left_count = 1, .left = {{0.0, 9.0, 9000.0, 9000.0}}};
    box = sample(CW_STRUCT_RING);
    assert_int_equal(cw_struct_solve(&box, &tips).status, CW_STRUCT_NO_CONTACT);
    for (int i = CW_STRUCT_OK; i <= CW_STRUCT_TOO_LARGE; i++)
        assert_true(strlen(cw_struct_status_words((cw_struct_status)i)) > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(propped_cantilevers),
        cmocka_unit_test(pinned_portal),
        cmocka_unit_test(closed_box),
        cmocka_unit_test(box_with_point_load),
        cmocka_unit_test(beam_on_springs),
        cmocka_unit_test(tapered_cantilever),
        cmocka_unit_test(free_frames_are_mechanisms),
        cmocka_unit_test(lid_against_closed_form),
        cmocka_unit_test(lid_on_springs),
        cmocka_unit_test(seat_opens_when_the_lid_would_pull),
        cmocka_unit_test(hood_and_ring),
        cmocka_unit_test(what_cannot_stand_is_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
