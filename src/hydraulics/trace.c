/* Gradually varied flow in a box: where each depth lies along the barrel.
 *
 *     dx/dy = (1 - Fr^2)/(S - Sf)        free surface
 *     dp/dx = S - Sf_full                full
 *
 * Depth is the variable that steps; the distance of a step is Simpson's integral.  Steps shrink in
 * proportion to the distance from normal depth, where dx/dy has a pole. */
#include <assert.h>
#include <math.h>

#include "hydraulics_internal.h"

/* A step changes depth by at most this part of it, and comes nearer to normal depth by at most this
 * part of the distance.  Simpson's error is then below 1e-4 of the step's length (integral of 1/y).
 */
#define STEP_OF_DEPTH 0.12
#define STEP_TO_NORMAL 0.25

/* Just under the lid: from this part of the rise. */
#define NEAR_LID 0.998

/* So near to normal depth the flow is uniform. */
#define UNIFORM_RATIO 1e-6

/* Below this 1 - Fr^2 is zero up to rounding. */
#define CRITICAL_ROUNDING 1e-12

/* A carried line may begin or end beside a pole that it does not reach: no step changes the rate by
 * more than this part of the greater one. */
#define STEP_OF_RATE 0.3

enum { BETWEEN_STEPS_MAX = 60, HALVINGS_MAX = 40 };

/* A step of Newton shorter than this part of the root is the last: the next would be its square. */
#define BETWEEN_STEP 1e-8

typedef enum way { UP, DOWN, CARRIED } way;

typedef struct march {
    const cw_water_run *run;
    way way;
    bool has_pole;
    double pole_ft;
    double stop_ft; /* the depth at which the branch ends */
    double length_ft;
} march;

/* Friction of the flow whose critical energy is 1.5 y: at critical depth y, or past the lid with
 * the barrel full and a velocity head of 1.5 y - D. */
static double choked_friction(const cw_water_run *run, double y)
{
    const double top = run->box->rise_ft;
    if (y > top)
        return run->full_slope * (1.5 * y - top) * top * top / run->head_q;
    return cw_water_friction(run, y) * 0.5 * y * y * y / run->head_q;
}

/* What ds/dy of a free surface takes, out of reach of the nodes that are written meanwhile. */
typedef struct free_flow {
    double slope, twice_head_q, rough_q, side, bed;
    double sign; /* of ds/dx */
} free_flow;

static free_flow free_flow_of(const march *m)
{
    const cw_water_run *run = m->run;
    return (free_flow){.slope = run->box->slope,
                       .twice_head_q = 2.0 * run->head_q,
                       .rough_q = run->rough_q,
                       .side = run->box->side,
                       .bed = run->box->bed,
                       .sign = m->way == UP ? -1.0 : 1.0};
}

/* ds/dy, s from where the branch begins; the friction is that of cw_water_friction(). */
static inline double free_rate(const free_flow *flow, double y)
{
    const double part = 1.0 / y, square = part * part;
    const double over = 1.0 - flow->twice_head_q * (square * part);
    const double friction =
        flow->rough_q * square * cw_water_four_thirds(flow->side + flow->bed * part);
    return fabs(over) < CRITICAL_ROUNDING ? 0.0 : flow->sign * over / (flow->slope - friction);
}

static double carried_rate(const march *m, double y)
{
    return 1.5 / (choked_friction(m->run, y) - m->run->box->slope);
}

/* Cubic through depths and slopes at both ends, solved for the depth at a distance. */
double cw_water_between(const double run_ft[2], const double head_ft[2], double length_ft,
                        double at_ft, double *per_ft)
{
    const double h = head_ft[1] - head_ft[0];
    const double a = run_ft[0] * h, b = run_ft[1] * h;
    *per_ft = 0.0;
    if (!(length_ft > 0.0))
        return head_ft[1];
    double low = 0.0, high = 1.0, t = at_ft / length_ft;
    for (int i = 0; i < BETWEEN_STEPS_MAX; i++) {
        const double u = 1.0 - t;
        const double here = length_ft * t * t * (3.0 - 2.0 * t) + t * u * (a * u - b * t) - at_ft;
        if (here > 0.0)
            high = t;
        else
            low = t;
        const double rate =
            6.0 * length_ft * t * u + a * u * (1.0 - 3.0 * t) + b * t * (3.0 * t - 2.0);
        const double next = t - here / rate, step = next - t;
        t = next > low && next < high ? next : 0.5 * (low + high);
        *per_ft = h / rate;
        if (fabs(step) < BETWEEN_STEP * t) {
            t = next;
            break;
        }
    }
    return head_ft[0] + h * t;
}

static inline void keep(cw_water_branch *branch, const march *m, double s, double y, double rate)
{
    if (!branch)
        return;
    assert(branch->count < CW_WATER_NODES_MAX);
    const cw_water_run *run = m->run;
    const bool down = m->way == DOWN;
    branch->nodes[branch->count++] = (cw_water_node){
        .x_ft = down ? s : run->box->length_ft - s,
        .head_ft = y,
        .energy_ft = y + cw_water_velocity_head(run, y),
        .run_ft = down ? rate : -rate,
    };
}

/* The next depth from y, toward the stop; it does not jump over the edge of what is near the lid.
 */
static inline double next_depth(const march *m, double y)
{
    double step = STEP_OF_DEPTH * y;
    if (m->has_pole)
        step = cw_water_lesser(step, STEP_TO_NORMAL * fabs(y - m->pole_ft));
    const double next = m->stop_ft > y ? cw_water_lesser(y + step, m->stop_ft)
                                       : cw_water_greater(y - step, m->stop_ft);
    const double edge = NEAR_LID * m->run->box->rise_ft;
    return m->way == UP && (y - edge) * (next - edge) < 0.0 ? edge : next;
}

/* 0 at the edge, 1 at the lid. */
static double nearness(const march *m, double y)
{
    const double top = m->run->box->rise_ft;
    return y > NEAR_LID * top ? 1.0 - (top - y) / ((1.0 - NEAR_LID) * top) : 0.0;
}

static bool rate_changes(double from, double to)
{
    return fabs(to - from) > STEP_OF_RATE * cw_water_greater(fabs(from), fabs(to));
}

/* Room for the nodes that the caller adds. */
enum { NODES_SPARE = 8 };

/* The next step: to depth @c next, where the rate is @c rate, over the distance @c ds. */
typedef struct stride {
    double next, rate, ds;
} stride;

static inline stride free_stride(const march *m, const free_flow *flow, double y, double rate)
{
    const double next = next_depth(m, y);
    const double middle = free_rate(flow, 0.5 * (y + next)), end = free_rate(flow, next);
    return (stride){next, end, (next - y) / 6.0 * (rate + 4.0 * middle + end)};
}

static stride carried_stride(const march *m, double y, double rate)
{
    double next = next_depth(m, y), end = carried_rate(m, next);
    for (int k = 0; k < HALVINGS_MAX && rate_changes(rate, end); k++) {
        next = 0.5 * (y + next);
        end = carried_rate(m, next);
    }
    const double middle = carried_rate(m, 0.5 * (y + next));
    return (stride){next, end, (next - y) / 6.0 * (rate + 4.0 * middle + end)};
}

/* Step from depth y0 at distance s0; fills @p out. */
static void go(const march *m, double s0, double y0, cw_water_branch *branch, cw_water_traced *out)
{
    const free_flow flow = free_flow_of(m);
    const bool up = m->way == UP,
               carried = m->way == CARRIED; /* what is near the lid counts upward */
    double s = s0, y = y0, rate = carried ? carried_rate(m, y) : free_rate(&flow, y);
    keep(branch, m, s, y, rate);
    for (int i = 0; i < CW_WATER_NODES_MAX - NODES_SPARE && y != m->stop_ft; i++) {
        if (m->has_pole && fabs(y - m->pole_ft) <= UNIFORM_RATIO * y)
            break;
        const stride step = carried ? carried_stride(m, y, rate) : free_stride(m, &flow, y, rate);
        if (!(step.ds > 0.0))
            break;
        if (s + step.ds >= m->length_ft) {
            const double from = nearness(m, y), left = m->length_ft - s;
            y = cw_water_between((double[2]){rate, step.rate}, (double[2]){y, step.next}, step.ds,
                                 left, &(double){0.0});
            out->near_ft += 0.5 * (from + nearness(m, y)) * left;
            s = m->length_ft;
            break;
        }
        s += step.ds;
        if (up)
            out->near_ft += 0.5 * (nearness(m, y) + nearness(m, step.next)) * step.ds;
        y = step.next;
        rate = step.rate;
        keep(branch, m, s, y, rate);
    }
    const bool stopped = s < m->length_ft && y == m->stop_ft;
    out->end = stopped ? CW_WATER_AT_CRITICAL : CW_WATER_AT_LENGTH;
    out->at_ft = stopped ? s : m->length_ft;
    out->head_ft = y;
    out->near_ft += stopped ? 0.0 : nearness(m, y) * (m->length_ft - s);
    if (!stopped && branch)
        keep(branch, m, m->length_ft, y, carried ? carried_rate(m, y) : free_rate(&flow, y));
}

static void reverse(cw_water_branch *branch)
{
    for (int i = 0, j = branch->count - 1; i < j; i++, j--) {
        const cw_water_node node = branch->nodes[i];
        branch->nodes[i] = branch->nodes[j];
        branch->nodes[j] = node;
    }
}

/* Full, from the state in @p out on: to the inlet, or to where the head has come down to the lid.
 */
static void go_full(const march *m, cw_water_branch *branch, cw_water_traced *out)
{
    const cw_water_run *run = m->run;
    const double top = run->box->rise_ft;
    const double rise = run->full_slope - run->box->slope;
    const double rest = m->length_ft - out->at_ft;
    const double reach = rise < 0.0 ? cw_water_lesser((out->head_ft - top) / -rise, rest) : rest;
    keep(branch, m, out->at_ft, out->head_ft, 0.0);
    out->end = reach < rest ? CW_WATER_AT_CRITICAL : CW_WATER_AT_LENGTH;
    out->head_ft = reach < rest ? top : out->head_ft + rise * reach;
    out->at_ft += reach;
    out->full_ft += reach;
    keep(branch, m, out->at_ft, out->head_ft, 0.0);
}

/* With a free surface, from the state in @p out on: up to the lid, down to normal or critical
 * depth. */
static void go_free(march *m, cw_water_branch *branch, cw_water_traced *out)
{
    const cw_water_run *run = m->run;
    const double top = run->box->rise_ft, y = out->head_ft;
    const bool rising = cw_water_friction(run, y) > run->box->slope;
    m->has_pole = run->has_normal && !run->steep;
    m->pole_ft = run->normal_ft;
    m->stop_ft = run->steep ? cw_water_lesser(run->critical_ft, top) : run->normal_ft;
    if (rising)
        m->stop_ft = m->has_pole ? cw_water_lesser(run->normal_ft, top) : top;
    go(m, out->at_ft, y, branch, out);
    if (out->end == CW_WATER_AT_CRITICAL && rising)
        go_full(m, branch, out);
    else if (!run->steep)
        out->end = CW_WATER_AT_LENGTH;
}

cw_water_traced cw_water_trace_slow(const cw_water_run *run, double start_ft,
                                    cw_water_branch *branch)
{
    march m = {.run = run, .way = UP, .length_ft = run->box->length_ft};
    const double top = run->box->rise_ft;
    cw_water_traced out = {.end = CW_WATER_AT_CRITICAL, .head_ft = start_ft};
    if (branch)
        branch->count = 0;
    if (start_ft >= top)
        go_full(&m, branch, &out);
    /* Nothing slow is left when the lid's edge or the outlet is already critical. */
    const bool slow = !run->steep || out.head_ft > run->critical_ft;
    if (out.end != CW_WATER_AT_LENGTH && slow)
        go_free(&m, branch, &out);
    if (branch)
        reverse(branch);
    return out;
}

cw_water_traced cw_water_trace_fast(const cw_water_run *run, cw_water_branch *branch)
{
    march m = {.run = run,
               .way = DOWN,
               .has_pole = true,
               .pole_ft = run->normal_ft,
               .stop_ft = run->normal_ft,
               .length_ft = run->box->length_ft};
    cw_water_traced out = {.end = CW_WATER_AT_LENGTH};
    if (branch)
        branch->count = 0;
    const double start = cw_water_lesser(run->critical_ft, run->box->rise_ft);
    go(&m, 0.0, start, branch, &out);
    return out;
}

/* ---- past critical ---- */

/* S - Sf of choked flow; below the lid its cubes, relative, which need no root: with q^2 = g y^3
 * friction is y g/1.486^2 times rough^(4/3). */
static double choked_miss(const void *about, double y)
{
    const cw_water_run *run = about;
    const double slope = run->box->slope;
    if (y > run->box->rise_ft)
        return 1.0 - choked_friction(run, y) / slope;
    const double rough = cw_water_rough(run->box, y);
    const double part = CW_WATER_GRAVITY / (CW_WATER_MANNING * CW_WATER_MANNING) * y / slope;
    return 1.0 - part * part * part * rough * rough * rough * rough;
}

/* From the depth in @p out down to @p stop_ft, or to where friction holds the slope; false when the
 * stop comes before the length is gone. */
static bool follow(const cw_water_run *run, double stop_ft, double length_ft, cw_water_traced *out)
{
    if (choked_miss(run, out->head_ft) <= 0.0)
        return true;
    march m = {.run = run, .way = CARRIED, .stop_ft = stop_ft, .length_ft = length_ft};
    if (choked_miss(run, stop_ft) < 0.0) {
        m.has_pole = true;
        m.pole_ft = m.stop_ft = cw_water_hunt(choked_miss, run, stop_ft, out->head_ft).value;
    }
    go(&m, out->at_ft, out->head_ft, NULL, out);
    return m.has_pole || out->end == CW_WATER_AT_LENGTH;
}

bool cw_water_carry_on(const cw_water_run *run, double distance_ft, double floor_ft,
                       double *energy_ft)
{
    const double top = run->box->rise_ft, lowest = floor_ft * (2.0 / 3.0);
    cw_water_traced out = {.head_ft = run->critical_ft};
    if (run->critical_ft > top)
        out.head_ft = (top + run->head_q / (top * top)) * (2.0 / 3.0);
    if (lowest >= out.head_ft)
        return false;
    /* Friction steps at the lid: each side of it is followed on its own. */
    bool through = false;
    if (out.head_ft > top)
        through =
            follow(run, cw_water_greater(lowest, nextafter(top, CW_ANY_HIGH)), distance_ft, &out);
    if (!through && lowest < top) {
        out.head_ft = cw_water_lesser(out.head_ft, top);
        through = follow(run, lowest, distance_ft, &out);
    }
    *energy_ft = 1.5 * out.head_ft;
    return through;
}
