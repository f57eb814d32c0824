/* How a rigid piece hangs from one hook.  All legs and the weight pass through the hook, so moments
 * are in balance wherever it is: the hook stands plumb over the centre of gravity, the piece turns
 * until it does, and the leg tensions follow from the three force equations.  Source: statics. */
#include "lifting_internal.h"

/* Directions whose volume is less than this lie in a plane. */
#define FLAT 1e-9

typedef struct leg {
    double to_hook[3]; /* unit vector from the pick */
    double length_ft;
} leg;

static double volume(const double a[3], const double b[3], const double c[3])
{
    double normal[3];
    cw_cross(b, c, normal);
    return cw_dot(a, normal);
}

/* The hook of two legs lies in the plane of both picks and the centre of gravity, on the other side
 * of the picks' line; with the centre of gravity on that line, straight above it. */
static bool hook_of_two(const cw_hang_input *in, double hook[3])
{
    const double *a = in->pick_ft[0], *b = in->pick_ft[1];
    const double l = in->length_ft[0], m = in->length_ft[1];
    double along[3], off[3];
    cw_minus(b, a, along);
    const double between = cw_length(along);
    if (between < SAME_FT)
        return false;
    for (int k = 0; k < 3; k++)
        along[k] /= between;
    const double t = (l * l - m * m + between * between) / (2.0 * between);
    const double rise_sq = l * l - t * t;
    if (rise_sq <= 0.0)
        return false;
    cw_along(a, -cw_dot(a, along), along, off); // line's point nearest to the centre of gravity
    double reach = cw_length(off);
    if (reach < SAME_FT) {
        const double up[3] = {0.0, 0.0, 1.0};
        cw_along(up, -along[2], along, off);
        reach = cw_length(off);
    }
    if (reach < SAME_FT)
        return false;
    for (int k = 0; k < 3; k++)
        hook[k] = a[k] + t * along[k] + sqrt(rise_sq) * off[k] / reach;
    return true;
}

/* Point at the given distances from three picks, on the upper side: two circles in the picks' plane
 * and the height above it. */
static bool hook_of_three(const cw_hang_input *in, const int legs[3], double hook[3])
{
    const double *a = in->pick_ft[legs[0]];
    const double l = in->length_ft[legs[0]], m = in->length_ft[legs[1]], n = in->length_ft[legs[2]];
    double first[3], second[3], third[3], to_third[3];
    cw_minus(in->pick_ft[legs[1]], a, first);
    cw_minus(in->pick_ft[legs[2]], a, to_third);
    const double d = cw_length(first);
    if (d < SAME_FT)
        return false;
    for (int k = 0; k < 3; k++)
        first[k] /= d;
    const double i = cw_dot(first, to_third);
    cw_along(to_third, -i, first, second);
    const double j = cw_length(second);
    if (j < SAME_FT)
        return false;
    for (int k = 0; k < 3; k++)
        second[k] /= j;
    cw_cross(first, second, third);
    const double up = third[2] < 0.0 ? -1.0 : 1.0;
    const double x = (l * l - m * m + d * d) / (2.0 * d);
    const double y = (l * l - n * n + i * i + j * j) / (2.0 * j) - i * x / j;
    const double height_sq = l * l - x * x - y * y;
    if (height_sq <= 0.0)
        return false;
    for (int k = 0; k < 3; k++)
        hook[k] = a[k] + x * first[k] + y * second[k] + up * sqrt(height_sq) * third[k];
    return true;
}

/* Tensions of three legs that together pull as @p force: Cramer's rule. */
static bool pull_of_three(const leg legs[], const int which[3], const double force[3],
                          double tension_lb[3])
{
    const double *a = legs[which[0]].to_hook, *b = legs[which[1]].to_hook,
                 *c = legs[which[2]].to_hook;
    const double whole = volume(a, b, c);
    if (fabs(whole) < FLAT)
        return false;
    tension_lb[0] = volume(force, b, c) / whole;
    tension_lb[1] = volume(a, force, c) / whole;
    tension_lb[2] = volume(a, b, force) / whole;
    return true;
}

static void legs_to(const cw_hang_input *in, const double hook[3], leg legs[])
{
    for (int i = 0; i < in->legs; i++) {
        cw_minus(hook, in->pick_ft[i], legs[i].to_hook);
        legs[i].length_ft = cw_length(legs[i].to_hook);
        for (int k = 0; k < 3; k++)
            legs[i].to_hook[k] /= fmax(legs[i].length_ft, SAME_FT);
    }
}

/* The pull that balances the weight when the hook is plumb over the centre of gravity. */
static void weight_pull(const cw_hang_input *in, const double hook[3], double force[3])
{
    const double reach = fmax(cw_length(hook), SAME_FT);
    for (int k = 0; k < 3; k++)
        force[k] = in->load_lb * hook[k] / reach;
}

/* Four legs of given lengths: three set the hook and all of them pull, the fourth reaches it with
 * something to spare.  Where several threes do, the piece hangs lowest. */
static int hook_of_four(const cw_hang_input *in, cw_hang *out)
{
    double lowest = -1.0;
    bool met = false, under = false;
    for (int spare = 0; spare < 4; spare++) {
        const int three[3] = {spare == 0 ? 1 : 0, spare <= 1 ? 2 : 1, spare <= 2 ? 3 : 2};
        double hook[3], force[3], tension_lb[3], to_spare[3];
        leg legs[CW_SLING_LEGS_MAX];
        if (!hook_of_three(in, three, hook))
            continue;
        met = true;
        under = under || hook[2] <= SAME_FT;
        legs_to(in, hook, legs);
        weight_pull(in, hook, force);
        cw_minus(hook, in->pick_ft[spare], to_spare);
        const double left_ft = in->length_ft[spare] - cw_length(to_spare);
        if (left_ft < -SAME_FT || !pull_of_three(legs, three, force, tension_lb) ||
            fmin(tension_lb[0], fmin(tension_lb[1], tension_lb[2])) < -SAME_FT * in->load_lb ||
            cw_length(hook) <= lowest + SAME_FT)
            continue;
        lowest = cw_length(hook);
        for (int k = 0; k < 3; k++)
            out->hook_ft[k] = hook[k];
        out->slack_ft = left_ft > SAME_FT ? left_ft : 0.0;
        out->slack = left_ft > SAME_FT ? spare : -1;
    }
    if (lowest >= 0.0)
        return CW_HANG_OK;
    return under ? CW_HANG_OVER : met ? CW_HANG_OUTSIDE : CW_HANG_TOO_SHORT;
}

static int find_hook(const cw_hang_input *in, cw_hang *out)
{
    static const int all_three[3] = {0, 1, 2};
    out->slack = -1;
    if (!in->has_lengths) {
        double top_ft = in->pick_ft[0][2];
        for (int i = 1; i < in->legs; i++)
            top_ft = fmax(top_ft, in->pick_ft[i][2]);
        out->hook_ft[2] = top_ft + in->height_ft;
        return CW_HANG_OK;
    }
    if (in->legs == 4)
        return hook_of_four(in, out);
    const bool found =
        in->legs == 2 ? hook_of_two(in, out->hook_ft) : hook_of_three(in, all_three, out->hook_ft);
    return found ? CW_HANG_OK : CW_HANG_TOO_SHORT;
}

static bool two_legs(const cw_hang_input *in, const leg legs[], const double force[3], cw_hang *out)
{
    // Both legs and the weight lie in one plane; what is left over there must vanish.
    const double *a = legs[0].to_hook, *b = legs[1].to_hook;
    const double ab = cw_dot(a, b), af = cw_dot(a, force), bf = cw_dot(b, force);
    const double whole = 1.0 - ab * ab;
    if (whole < FLAT)
        return false;
    out->even_lb[0] = (af - ab * bf) / whole;
    out->even_lb[1] = (bf - ab * af) / whole;
    double rest[3];
    cw_along(force, -out->even_lb[0], a, rest);
    cw_along(rest, -out->even_lb[1], b, rest);
    return cw_length(rest) < 1e-6 * in->load_lb;
}

/* Legs of equal stiffness: least sum of T^2 l, so T_i = (u_i . m)/l_i with three equations for m.
 */
static bool even_pull(const leg legs[], const double force[3], double even_lb[])
{
    double rows[3][3] = {{0.0}}, m[3];
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
        for (int r = 0; r < 3; r++)
            for (int c = 0; c < 3; c++)
                rows[r][c] += legs[i].to_hook[r] * legs[i].to_hook[c] / legs[i].length_ft;
    const double whole = volume(rows[0], rows[1], rows[2]);
    if (fabs(whole) < FLAT * FLAT)
        return false;
    // The matrix is symmetric, so its rows are its columns.
    m[0] = volume(force, rows[1], rows[2]) / whole;
    m[1] = volume(rows[0], force, rows[2]) / whole;
    m[2] = volume(rows[0], rows[1], force) / whole;
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
        even_lb[i] = cw_dot(legs[i].to_hook, m) / legs[i].length_ft;
    return true;
}

/* Four legs at one hook have one tension too many: every balance is even + t loose, where loose
 * pulls nothing.  The pulling ones lie between two values of t; each leg is worst at one of them.
 */
static bool four_legs(const cw_hang_input *in, const leg legs[], const double force[3],
                      cw_hang *out)
{
    double loose[CW_SLING_LEGS_MAX], low = -HUGE_VAL, high = HUGE_VAL;
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++) {
        const int a = i == 0 ? 1 : 0, b = i <= 1 ? 2 : 1, c = i <= 2 ? 3 : 2;
        loose[i] = (i % 2 ? -1.0 : 1.0) * volume(legs[a].to_hook, legs[b].to_hook, legs[c].to_hook);
    }
    if (!even_pull(legs, force, out->even_lb))
        return false;
    const double none_lb = SAME_FT * in->load_lb;
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++) {
        if (fabs(loose[i]) < FLAT) {
            if (out->even_lb[i] < -none_lb)
                return false;
            continue;
        }
        const double bound = -(out->even_lb[i] + none_lb) / loose[i];
        if (loose[i] > 0.0)
            low = fmax(low, bound);
        else
            high = fmin(high, bound);
    }
    if (!(low <= high) || !isfinite(low) || !isfinite(high))
        return false;
    const double shift = fmin(fmax(0.0, low), high);
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++) {
        const double even = out->even_lb[i];
        const double worst = fmax(even + low * loose[i], even + high * loose[i]);
        out->even_lb[i] = fmax(0.0, even + shift * loose[i]);
        out->tension_lb[i] = in->carry == CW_CARRY_TWO ? worst
                             : in->carry == CW_CARRY_THREE
                                 ? fmin(worst, 4.0 / 3.0 * out->even_lb[i])
                                 : out->even_lb[i];
    }
    return true;
}

static bool pulls(const cw_hang_input *in, const leg legs[], const double force[3], cw_hang *out)
{
    static const int all_three[3] = {0, 1, 2};
    if (in->legs == 4)
        return four_legs(in, legs, force, out);
    const bool found = in->legs == 3 ? pull_of_three(legs, all_three, force, out->even_lb)
                                     : two_legs(in, legs, force, out);
    for (int i = 0; i < in->legs; i++) {
        if (!found || out->even_lb[i] < -SAME_FT * in->load_lb)
            return false;
        out->tension_lb[i] = out->even_lb[i] = fmax(0.0, out->even_lb[i]);
    }
    return true;
}

cw_hang cw_lifting_hang(const cw_hang_input *in)
{
    cw_hang out = {0};
    out.state = find_hook(in, &out);
    if (out.state != CW_HANG_OK)
        return out;
    const double reach = cw_length(out.hook_ft);
    if (out.hook_ft[2] <= SAME_FT) {
        out.state = CW_HANG_OVER;
        return out;
    }
    leg legs[CW_SLING_LEGS_MAX] = {0};
    double force[3], up[3];
    legs_to(in, out.hook_ft, legs);
    weight_pull(in, out.hook_ft, force);
    if (!pulls(in, legs, force, &out)) {
        out.state = CW_HANG_OUTSIDE;
        return out;
    }
    for (int k = 0; k < 3; k++)
        up[k] = out.hook_ft[k] / reach;
    for (int i = 0; i < in->legs; i++) {
        out.length_ft[i] = in->has_lengths ? in->length_ft[i] : legs[i].length_ft;
        out.angle_deg[i] =
            asin(fmax(-1.0, fmin(1.0, cw_dot(legs[i].to_hook, up)))) * CW_DEG_PER_RAD;
    }
    out.across_deg = asin(up[0]) * CW_DEG_PER_RAD;
    out.along_deg = asin(up[1]) * CW_DEG_PER_RAD;
    out.tilt_deg = atan2(hypot(up[0], up[1]), up[2]) * CW_DEG_PER_RAD;
    return out;
}
