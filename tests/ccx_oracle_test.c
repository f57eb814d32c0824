// Boxes against CalculiX (ccx), a general-purpose finite element program: its own mesh of 40 beam
// elements to a member, its own solver, textbook nodal loads, springs one by one.  Contact states
// are taken from the box solver and confirmed by the movements that ccx finds.  Without ccx the
// test says so and skips.
#define _XOPEN_SOURCE 700

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "ccx_model.h"

static double worst_part; // of the greatest moment, over all models

static void compare(const char *name, const char *what, double got, double want, double scale,
                    double within)
{
    const double part = fabs(got - want) / scale;
    worst_part = fmax(worst_part, part);
    if (!(part <= within))
        fail_msg("%s, %s: %g, ccx %g: %.2g of the greatest, %.2g allowed", name, what, got, want,
                 part, within);
}

static void compare_box(const char *name, const cw_struct_box *box, const cw_struct_case *load,
                        double within)
{
    static model m;
    const cw_struct_solution one = cw_struct_solve(box, load);
    assert_int_equal(one.status, CW_STRUCT_OK);
    if (one.bearing_share < 1.0 - 1e-9)
        fail_msg("%s: the case must bear throughout", name);
    lay_model(&m, box, load);
    assert_true(run_ccx(&m, box, one.released));
    double scale = 0.0;
    for (int e = 0; e < MEMBERS * PARTS; e++)
        scale = fmax(scale, fabs(m.moment[e][0]));
    const int half = PARTS / 2;
    const struct {
        int place, element, end;
        bool right;
    } points[] = {{CW_STRUCT_TOP_MID, TOP * PARTS + half, 0, false},
                  {CW_STRUCT_TOP_END, TOP * PARTS, 0, true},
                  {CW_STRUCT_TOP_END, TOP * PARTS + PARTS - 1, 1, false},
                  {CW_STRUCT_WALL_MID, RIGHT * PARTS + half, 0, true},
                  {CW_STRUCT_WALL_MID, LEFT * PARTS + half, 0, false},
                  {CW_STRUCT_WALL_FOOT, RIGHT * PARTS, 0, true},
                  {CW_STRUCT_WALL_FOOT, LEFT * PARTS + PARTS - 1, 1, false},
                  {CW_STRUCT_FLOOR_END, 0, 0, false},
                  {CW_STRUCT_FLOOR_END, PARTS - 1, 1, true},
                  {CW_STRUCT_FLOOR_MID, half, 0, false}};
    for (size_t i = 0; i < sizeof points / sizeof points[0]; i++) {
        const cw_struct_force force =
            points[i].right ? one.right[points[i].place] : one.left[points[i].place];
        compare(name, cw_struct_place_words(points[i].place), force.moment_ft_lb,
                m.moment[points[i].element][points[i].end], scale, within);
    }
    if (box->form != CW_STRUCT_LID)
        return;
    const int wall_right = m.last[RIGHT][PARTS - 1], wall_left = m.first[LEFT][0];
    const int lid_right = m.first[TOP][0], lid_left = m.last[TOP][PARTS - 1];
    const double spread = m.move[wall_right][0] - m.move[wall_left][0];
    const double lid = m.move[lid_right][0] - m.move[lid_left][0];
    if (one.released) {
        assert_true(spread - lid >= 0.0); // open, as the box solver said
        compare(name, "gap", one.gap_in, (spread - lid) * CW_IN_PER_FT, one.gap_in, 10.0 * within);
    } else {
        assert_true(lid < 0.0); // shortened, so it struts
    }
}

static void skip_without_ccx(void)
{
    if (has_ccx())
        return;
    print_message(
        "skipped: ccx is not installed, so there is no finite element program to compare with\n");
    skip();
}

static void boxes_agree(void **state)
{
    (void)state;
    skip_without_ccx();
    int models = 0, released = 0;
    for (int form = 0; form < 3; form++)
        for (int ground = 0; ground < 2; ground++)
            for (int kind = 0; kind < 3; kind++) {
                const cw_struct_box box = ccx_box(form, ground);
                char name[80];
                snprintf(name, sizeof name, "form %d, ground %d, load %d", form, ground, kind);
                const cw_struct_case load = ccx_case(&box, kind);
                released += cw_struct_solve(&box, &load).released;
                compare_box(name, &box, &load, ground == CW_STRUCT_SPRINGS ? 3e-3 : 2e-5);
                models++;
            }
    print_message("%d models, %d with open seats, worst %.1e of the greatest moment\n", models,
                  released, worst_part);
    assert_true(models >= 12 && released >= 2 && released < models);
}

// ccx takes haunches as 40 steps to a member, the box solver as they are.
static void haunches_agree(void **state)
{
    (void)state;
    skip_without_ccx();
    worst_part = 0.0;
    for (int form = 0; form < 3; form++) {
        const cw_struct_box box = {.form = form,
                                   .span_in = 144.0,
                                   .rise_in = 72.0,
                                   .wall_in = 8.0,
                                   .floor_in = 10.0,
                                   .top_in = 9.0,
                                   .haunch_in = 8.0,
                                   .crown_haunch_in = form == CW_STRUCT_LID ? 0.0 : 6.0,
                                   .concrete_psi = 4287e3,
                                   .concrete_pcf = 150.0};
        cw_struct_case load = ccx_case(&box, 1);
        load.weight = 0.0; // the weight of haunches is not in the deck
        compare_box("haunches", &box, &load, 6e-3);
    }
    print_message("haunches: worst %.1e of the greatest moment\n", worst_part);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(boxes_agree),
                                       cmocka_unit_test(haunches_agree)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
