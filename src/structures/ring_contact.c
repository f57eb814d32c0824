/* One state of contacts: the springs that push and the unknown forces from one symmetric system,
 *
 *     [ bend + 1/k   bow ] [ spring forces  ]        upward movement of the floor without them
 *     [ bow'         flex] [ unknown forces ]  =  -  turn of the primary frame
 *
 * with the floor free to settle and tip so that the springs balance the load.  The diagonal holds
 * the give of each spring, so the system stays well conditioned where a mesh on soft ground would
 * not. */
#include "ring_internal.h"

#include <math.h>
#include <string.h>

enum { MODES = 3, UNKNOWNS = CW_BOX_LINE + MODES, RIGID = 2 };

/* Unknown forces that go together: a lid has its strut, or nothing when let go; in a double-u the
 * joint sets the even moment by the strut. */
typedef struct mode {
    double strut, even, odd;
} mode;

typedef struct ring_system {
    int springs, modes, count;
    int point[CW_BOX_LINE];
    mode mode[MODES];
    double lower[UNKNOWNS][UNKNOWNS];
    double rigid[RIGID][UNKNOWNS],
        settled[RIGID][UNKNOWNS]; /* settle and tip, and answers to them */
} ring_system;

static int modes_of(const cw_ring *ring, bool tied, mode modes[MODES])
{
    if (ring->form == CW_STRUCT_LID) {
        modes[0] = (mode){.strut = 1.0};
        return tied ? 1 : 0;
    }
    if (ring->form == CW_STRUCT_DOUBLE_U) {
        modes[0] = (mode){.strut = 1.0, .even = ring->joint_ft - ring->height_ft};
        return 1;
    }
    modes[0] = (mode){.strut = 1.0};
    modes[1] = (mode){.even = 1.0};
    modes[2] = (mode){.odd = 1.0};
    return MODES;
}

static double flex_of(const cw_ring *ring, mode a, mode b)
{
    return a.strut * b.strut * ring->strut_strut +
           (a.strut * b.even + a.even * b.strut) * ring->strut_even +
           a.even * b.even * ring->even_even + a.odd * b.odd * ring->odd_odd;
}

/* Even moment in the floor of a mode. */
static double foot_of(const cw_ring *ring, mode m)
{
    return m.strut * ring->height_ft + m.even;
}

static double bow_of(const cw_ring *ring, mode m, int point)
{
    return foot_of(ring, m) * ring->bow_even[point] + m.odd * ring->bow_odd[point];
}

/* Place of a floor point from the middle, in half widths. */
static double off_of(const cw_ring *ring, int point)
{
    return 2.0 * ring->floor.at_ft[point] / ring->width_ft - 1.0;
}

static void assemble(const cw_ring *ring, bool tied, const bool *open, ring_system *s)
{
    s->springs = 0;
    s->modes = modes_of(ring, tied, s->mode);
    for (int i = 0; ring->ground == CW_STRUCT_SPRINGS && i < ring->floor.count; i++)
        if (!open[i])
            s->point[s->springs++] = i;
    s->count = s->springs + s->modes;
    memset(s->rigid, 0, sizeof s->rigid);
    for (int i = 0; i < s->springs; i++) {
        const int point = s->point[i];
        for (int j = 0; j <= i; j++)
            s->lower[i][j] = cw_ring_bend_of(ring, point, s->point[j]);
        s->lower[i][i] += 1.0 / ring->spring[point];
        s->rigid[0][i] = 1.0;
        s->rigid[1][i] = off_of(ring, point);
    }
    for (int k = 0; k < s->modes; k++) {
        double *row = s->lower[s->springs + k];
        for (int j = 0; j < s->springs; j++)
            row[j] = bow_of(ring, s->mode[k], s->point[j]);
        for (int m = 0; m <= k; m++)
            row[s->springs + m] = flex_of(ring, s->mode[k], s->mode[m]);
    }
}

/* Lower times its transpose; the diagonal is kept inverted. */
static bool factor(ring_system *s)
{
    for (int i = 0; i < s->count; i++) {
        double *row = s->lower[i];
        for (int j = 0; j < i; j++) {
            const double *other = s->lower[j];
            double sum = row[j];
            for (int m = 0; m < j; m++)
                sum -= row[m] * other[m];
            row[j] = sum * other[j];
        }
        double sum = row[i];
        for (int m = 0; m < i; m++)
            sum -= row[m] * row[m];
        if (!(sum > 0.0))
            return false;
        row[i] = 1.0 / sqrt(sum);
    }
    return true;
}

static void substitute(const ring_system *s, double *vector)
{
    for (int i = 0; i < s->count; i++) {
        double sum = vector[i];
        for (int m = 0; m < i; m++)
            sum -= s->lower[i][m] * vector[m];
        vector[i] = sum * s->lower[i][i];
    }
    for (int i = s->count - 1; i >= 0; i--) {
        const double value = vector[i] * s->lower[i][i];
        vector[i] = value;
        for (int m = 0; m < i; m++)
            vector[m] -= s->lower[i][m] * value;
    }
}

static double dot(const double *a, const double *b, int count)
{
    double sum = 0.0;
    for (int i = 0; i < count; i++)
        sum += a[i] * b[i];
    return sum;
}

/* Upward movement of a floor point on the primary frame by a load of 1. */
static double up_by_load(const cw_ring *ring, int load, int point)
{
    if (load == CW_RING_FLOOR)
        return -ring->sag_even[point];
    if (load == CW_RING_FOOT)
        return ring->bow_even[point];
    // The joint's moment goes round the frame and is taken back by the even moment.
    return load == CW_RING_JOINT ? -ring->bow_even[point] : 0.0;
}

/* Turn of the primary frame against a mode by a load of 1. */
static double turn_by_load(const cw_ring *ring, int load, mode m)
{
    const double width_ft = ring->width_ft;
    const bool springs = ring->ground == CW_STRUCT_SPRINGS;
    switch (load) {
    case CW_RING_APART:
        return m.strut;
    case CW_RING_EVEN:
        return m.even;
    case CW_RING_ODD:
        return m.odd;
    case CW_RING_FOOT:
        return foot_of(ring, m) * ring->floor_one;
    case CW_RING_FLOOR:
        return -foot_of(ring, m) * ring->floor_even;
    case CW_RING_DOWN: // a straight-line reaction balances the load
        return springs ? 0.0 : foot_of(ring, m) * ring->floor_even / width_ft;
    case CW_RING_TIP: // closed form: N/B (1 +- 6 e/B)
        return springs ? 0.0 : m.odd * ring->floor_tilt * 6.0 / (width_ft * width_ft);
    default:
        return -(m.strut * ring->strut_even + m.even * ring->even_even);
    }
}

/* Worst force, over the forces, by which the answer misses balance and its own springs. */
static double missed(const cw_ring *ring, const ring_system *s, const double *x, int load,
                     const double settle[RIGID])
{
    double worst = 0.0, size = 0.0;
    for (int i = 0; i < s->springs; i++) {
        const int point = s->point[i];
        double up_ft = up_by_load(ring, load, point) + settle[0] + settle[1] * off_of(ring, point);
        for (int j = 0; j < s->springs; j++)
            up_ft += cw_ring_bend_of(ring, point, s->point[j]) * x[j];
        for (int k = 0; k < s->modes; k++)
            up_ft += bow_of(ring, s->mode[k], point) * x[s->springs + k];
        worst = fmax(worst, fabs(x[i] + up_ft * ring->spring[point]));
        size += fabs(x[i]);
    }
    for (int k = 0; k < s->modes; k++) {
        double turn = turn_by_load(ring, load, s->mode[k]);
        for (int j = 0; j < s->springs; j++)
            turn += bow_of(ring, s->mode[k], s->point[j]) * x[j];
        for (int m = 0; m < s->modes; m++)
            turn += flex_of(ring, s->mode[k], s->mode[m]) * x[s->springs + m];
        worst = fmax(worst, fabs(turn / flex_of(ring, s->mode[k], s->mode[k])));
        size += fabs(x[s->springs + k]);
    }
    for (int r = 0; r < RIGID && s->springs > 0; r++) {
        const double want =
            r == 0 ? load == CW_RING_DOWN : (load == CW_RING_TIP) * 2.0 / ring->width_ft;
        worst = fmax(worst, fabs(dot(s->rigid[r], x, s->springs) - want));
    }
    return size > 0.0 ? worst / size : 0.0;
}

static void read_answer(const cw_ring *ring, const ring_system *s, const double *x, int load,
                        const double settle[RIGID], cw_ring_contact *out)
{
    // A double-u's joint carries no moment: its even moment takes back that of the load.
    const bool jointed = ring->form == CW_STRUCT_DOUBLE_U && load == CW_RING_JOINT;
    double strut = 0.0, even = jointed ? -1.0 : 0.0, odd = 0.0;
    for (int k = 0; k < s->modes; k++) {
        strut += s->mode[k].strut * x[s->springs + k];
        even += s->mode[k].even * x[s->springs + k];
        odd += s->mode[k].odd * x[s->springs + k];
    }
    out->strut[load] = strut;
    out->even[load] = even;
    out->odd[load] = odd;
    // Movement of the seats against each other where the strut is gone.
    const mode one = {.strut = 1.0};
    double gap_ft = turn_by_load(ring, load, one);
    for (int j = 0; j < s->springs; j++)
        gap_ft += bow_of(ring, one, s->point[j]) * x[j];
    out->gap_ft[load] = s->modes == 0 ? gap_ft : 0.0;
    for (int i = 0; ring->ground == CW_STRUCT_SPRINGS && i < ring->floor.count; i++) {
        double up_ft = up_by_load(ring, load, i) + settle[0] + settle[1] * off_of(ring, i) +
                       strut * ring->height_ft * ring->bow_even[i] + odd * ring->bow_odd[i] +
                       (jointed ? even + 1.0 : even) * ring->bow_even[i];
        if (out->open[i])
            for (int j = 0; j < s->springs; j++)
                up_ft += cw_ring_bend_of(ring, i, s->point[j]) * x[j];
        out->up_ft[load][i] = up_ft;
    }
    for (int j = 0; j < s->springs; j++)
        out->up_ft[load][s->point[j]] = -x[j] / ring->spring[s->point[j]];
}

static void answer(const cw_ring *ring, const ring_system *s, int load, cw_ring_contact *out)
{
    double x[UNKNOWNS], settle[RIGID] = {0.0, 0.0};
    if (load == CW_RING_JOINT && ring->form != CW_STRUCT_DOUBLE_U)
        return;
    for (int i = 0; i < s->springs; i++)
        x[i] = -up_by_load(ring, load, s->point[i]);
    for (int k = 0; k < s->modes; k++)
        x[s->springs + k] = -turn_by_load(ring, load, s->mode[k]);
    substitute(s, x);
    if (s->springs > 0) {
        // Settling and tipping that make the springs balance the load.
        const double more[RIGID] = {dot(s->rigid[0], x, s->springs) - (load == CW_RING_DOWN),
                                    dot(s->rigid[1], x, s->springs) -
                                        (load == CW_RING_TIP) * 2.0 / ring->width_ft};
        const double a = dot(s->rigid[0], s->settled[0], s->springs);
        const double b = dot(s->rigid[0], s->settled[1], s->springs);
        const double c = dot(s->rigid[1], s->settled[1], s->springs);
        settle[0] = (c * more[0] - b * more[1]) / (a * c - b * b);
        settle[1] = (a * more[1] - b * more[0]) / (a * c - b * b);
        for (int i = 0; i < s->count; i++)
            x[i] -= settle[0] * s->settled[0][i] + settle[1] * s->settled[1][i];
    }
    read_answer(ring, s, x, load, settle, out);
    out->residual = fmax(out->residual, missed(ring, s, x, load, settle));
}

bool cw_ring_solve(const cw_ring *ring, bool tied, const bool *open, cw_ring_contact *out)
{
    ring_system s;
    out->tied = tied;
    out->residual = 0.0;
    memcpy(out->open, open, sizeof out->open);
    memset(out->strut, 0, sizeof out->strut);
    memset(out->even, 0, sizeof out->even);
    memset(out->odd, 0, sizeof out->odd);
    memset(out->gap_ft, 0, sizeof out->gap_ft);
    memset(out->up_ft, 0, sizeof out->up_ft);
    assemble(ring, tied, open, &s);
    if (ring->ground == CW_STRUCT_SPRINGS && s.springs < RIGID)
        return false;
    if (!factor(&s))
        return false;
    for (int r = 0; r < RIGID && s.springs > 0; r++) {
        memcpy(s.settled[r], s.rigid[r], sizeof s.settled[r]);
        substitute(&s, s.settled[r]);
    }
    for (int load = 0; load < CW_RING_LOADS; load++)
        answer(ring, &s, load, out);
    return true;
}
