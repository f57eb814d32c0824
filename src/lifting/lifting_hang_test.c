/* How a piece hangs, on random picks, legs and centres of gravity: forces balance, legs have their
 * lengths, the hook is plumb over the centre of gravity, and the worst leg is what trying every
 * state gives. */
#include "../base/calc_test_help.h"

#include "cw/lifting.h"

static const uint64_t first_seed = 20261125u;
enum { CASES = 4000 };

static double distance(const double a[3], const double b[3])
{
    return sqrt((a[0] - b[0]) * (a[0] - b[0]) + (a[1] - b[1]) * (a[1] - b[1]) +
                (a[2] - b[2]) * (a[2] - b[2]));
}

static cw_hang_input random_input(uint64_t *seed, int legs, bool lengths)
{
    cw_hang_input in = {.legs = legs,
                        .has_lengths = lengths,
                        .load_lb = between(seed, 1000, 50000),
                        .carry = (int)between(seed, 0, 2.999),
                        .height_ft = between(seed, 3, 30)};
    const double a = between(seed, 4, 14), b = between(seed, 2, 8), x = between(seed, -1.5, 1.5),
                 y = between(seed, -0.8, 0.8), z = between(seed, 0.5, 6);
    for (int i = 0; i < legs; i++) {
        in.pick_ft[i][0] = (i % 2 ? a : -a) / 2.0 - x + between(seed, -0.5, 0.5);
        in.pick_ft[i][1] = legs == 2 ? 0.0 : (i / 2 ? b : -b) / 2.0 - y;
        in.pick_ft[i][2] = z;
        in.length_ft[i] = between(seed, 9, 9.5) + a / 2.0;
    }
    return in;
}

static void check_balance(const cw_hang_input *in, const cw_hang *out, const double tension_lb[],
                          bool exact)
{
    const double origin[3] = {0.0, 0.0, 0.0}, reach = distance(out->hook_ft, origin);
    double sum[3] = {0.0, 0.0, 0.0};
    for (int i = 0; i < in->legs; i++) {
        const double length = distance(out->hook_ft, in->pick_ft[i]);
        for (int k = 0; k < 3; k++)
            sum[k] += tension_lb[i] * (out->hook_ft[k] - in->pick_ft[i][k]) / length;
        if (!exact)
            continue;
        if (i == out->slack)
            near("slack", out->length_ft[i] - length, out->slack_ft, 1e-6);
        else
            near("length", length, out->length_ft[i], 1e-6);
        assert_true(tension_lb[i] >= 0.0);
    }
    for (int k = 0; k < 3; k++)
        near("balance", sum[k], in->load_lb * out->hook_ft[k] / reach, 2e-6 * in->load_lb);
}

static void forces_balance(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    int hung = 0, tilted = 0, slack = 0;
    for (int turn = 0; turn < CASES; turn++) {
        const int legs = 2 + turn % 3;
        const cw_hang_input in = random_input(&seed, legs, turn % 2);
        const cw_hang out = cw_lifting_hang(&in);
        if (out.state != CW_HANG_OK)
            continue;
        hung++;
        tilted += out.tilt_deg > 0.1;
        slack += out.slack >= 0;
        check_balance(&in, &out, out.even_lb, true);
        near("tilt", tan(out.tilt_deg * CW_RAD_PER_DEG),
             hypot(out.hook_ft[0], out.hook_ft[1]) / out.hook_ft[2], 1e-9);
        for (int i = 0; i < legs; i++)
            assert_true(out.tension_lb[i] >= out.even_lb[i] * (1.0 - 1e-6) - 1e-6 * in.load_lb);
    }
    if (hung < CASES / 2 || tilted < CASES / 10 || slack < CASES / 20)
        fail_msg("%d hung, %d tilted, %d with a slack leg", hung, tilted, slack);
}

/* Picks at the corners of a rectangle and the hook over the centre of gravity: even shares W (1/4 +
 * sx x/(2a) + sy y/(2b)) (closed form), and every other balance moves t between the diagonals, so
 * the worst of leg k is its share and the lesser of its neighbours'. */
static void worst_leg_of_a_rectangle(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 1;
    int checked = 0;
    for (int turn = 0; turn < CASES; turn++) {
        const double a = between(&seed, 4, 14), b = between(&seed, 2, 8), h = between(&seed, 4, 20);
        const double x = between(&seed, -a, a) / 2.2, y = between(&seed, -b, b) / 2.2;
        cw_hang_input in = {.legs = 4, .load_lb = 10000.0, .height_ft = h, .carry = CW_CARRY_TWO};
        double share[4];
        bool inside = true;
        for (int i = 0; i < 4; i++) {
            const double sx = i % 2 ? 1.0 : -1.0, sy = i / 2 ? 1.0 : -1.0;
            in.pick_ft[i][0] = sx * a / 2.0 - x;
            in.pick_ft[i][1] = sy * b / 2.0 - y;
            in.pick_ft[i][2] = 3.0;
            share[i] = in.load_lb * (0.25 + sx * x / (2.0 * a) + sy * y / (2.0 * b));
            inside = inside && share[i] >= 0.0;
        }
        const cw_hang out = cw_lifting_hang(&in);
        assert_int_equal(out.state, CW_HANG_OK); // the centre of gravity is inside the picks
        if (!inside)
            continue;
        checked++;
        for (int i = 0; i < 4; i++) {
            const double l = distance(out.hook_ft, in.pick_ft[i]);
            const double worst = share[i] + fmin(share[i ^ 1], share[i ^ 2]);
            near("worst leg", out.tension_lb[i], worst * l / h, 0.02);
        }
    }
    assert_true(checked > CASES / 4);
}

/* A three-legged state is one in which the fourth leg is slack: the worst tension of each leg is
 * the greatest over the threes that hold the piece.  Cramer's rule again, written out here. */
static void worst_leg_by_trying_threes(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 2;
    int checked = 0;
    for (int turn = 0; turn < CASES; turn++) {
        cw_hang_input in = random_input(&seed, 4, false);
        in.carry = CW_CARRY_TWO;
        const cw_hang out = cw_lifting_hang(&in);
        double worst[4] = {0.0};
        for (int spare = 0; spare < 4; spare++) {
            double m[3][4], t[3];
            int at[3], n = 0;
            for (int i = 0; i < 4; i++)
                if (i != spare)
                    at[n++] = i;
            // Vertical share v of each leg: sum v = W, sum v x = 0, sum v y = 0 about the centre of
            // gravity.
            for (int c = 0; c < 3; c++) {
                m[0][c] = 1.0;
                m[1][c] = in.pick_ft[at[c]][0];
                m[2][c] = in.pick_ft[at[c]][1];
            }
            m[0][3] = in.load_lb;
            m[1][3] = m[2][3] = 0.0;
            for (int p = 0; p < 3; p++) { // Gauss with pivots
                int best = p;
                for (int r = p + 1; r < 3; r++)
                    if (fabs(m[r][p]) > fabs(m[best][p]))
                        best = r;
                for (int c = 0; c < 4; c++) {
                    const double keep = m[p][c];
                    m[p][c] = m[best][c];
                    m[best][c] = keep;
                }
                for (int r = 0; r < 3; r++)
                    for (int c = 3; r != p && c >= p; c--)
                        m[r][c] -= m[p][c] * m[r][p] / m[p][p];
            }
            bool holds = true;
            for (int i = 0; i < 3; i++) {
                t[i] = m[i][3] / m[i][i];
                holds = holds && t[i] >= -1e-9 * in.load_lb;
            }
            for (int i = 0; holds && i < 3; i++)
                worst[at[i]] = fmax(worst[at[i]],
                                    t[i] * distance(out.hook_ft, in.pick_ft[at[i]]) / in.height_ft);
        }
        if (out.state != CW_HANG_OK) {
            near("no three holds it", fmax(fmax(worst[0], worst[1]), fmax(worst[2], worst[3])), 0.0,
                 1e-3);
            continue;
        }
        checked++;
        for (int i = 0; i < 4; i++)
            near("worst leg", out.tension_lb[i], worst[i], 1e-5 * in.load_lb);
    }
    assert_true(checked > CASES / 2);
}

/* Taking up links never leaves more tilt than equal legs. */
static void links_level(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 3;
    for (int turn = 0; turn < CASES / 4; turn++) {
        const cw_links_input in = {.across_ft = between(&seed, 5, 14),
                                   .along_ft = between(&seed, 2, 8),
                                   .cg_x_ft = between(&seed, -1, 1),
                                   .cg_y_ft = between(&seed, -0.5, 0.5),
                                   .pick_above_cg_ft = between(&seed, 0.5, 6),
                                   .leg_ft = between(&seed, 12, 25),
                                   .link_in = between(&seed, 0.5, 3)};
        const cw_links out = cw_lifting_links(&in, NULL);
        assert_int_equal(out.state, CW_HANG_OK);
        const double before =
            hypot(out.plain_across_in / in.across_ft, out.plain_along_in / in.along_ft);
        const double after =
            hypot(out.rise_across_in / in.across_ft, out.rise_along_in / in.along_ft);
        if (after > before + 1e-3)
            fail_msg("turn %d: %.4f in/ft after, %.4f before", turn, after, before);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(forces_balance),
        cmocka_unit_test(worst_leg_of_a_rectangle),
        cmocka_unit_test(worst_leg_by_trying_threes),
        cmocka_unit_test(links_level),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
