/* Both branches of one barrel, the jump between them, and what leaves at the outlet. */
#include <math.h>
#include <stddef.h>
#include <string.h>

#include "hydraulics_internal.h"

/* Normal and critical depth closer than this: the surface is unsteady (common practice). */
#define NEAR_CRITICAL_RATIO 0.01

/* ---- depth along a branch ---- */

/* Depth, or pressure head, and how it changes downstream. */
typedef struct spot {
    double head_ft, per_ft;
} spot;

/* The node before @p x_ft, which lies past the first and before the last.  @p near is looked at
 * first. */
static int node_before(const cw_water_branch *branch, double x_ft, int near)
{
    const cw_water_node *nodes = branch->nodes;
    int low = 0, high = branch->count - 1;
    if (near < high && nodes[near].x_ft <= x_ft && x_ft < nodes[near + 1].x_ft)
        return near;
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (nodes[middle].x_ft <= x_ft)
            low = middle;
        else
            high = middle;
    }
    return low;
}

/* @p near comes from the last place on this branch, and goes to the next. */
static spot on_branch(const cw_water_branch *branch, double opening_ft, double x_ft, int *near)
{
    const cw_water_node *nodes = branch->nodes, *last = &nodes[branch->count - 1];
    if (x_ft <= nodes[0].x_ft)
        return (spot){nodes[0].head_ft, 0.0};
    if (x_ft >= last->x_ft)
        return (spot){last->head_ft, 0.0};
    *near = node_before(branch, x_ft, *near);
    const cw_water_node *a = &nodes[*near], *b = a + 1;
    const double length = b->x_ft - a->x_ft, at = x_ft - a->x_ft;
    if (!(length > 0.0))
        return (spot){b->head_ft, 0.0};
    const bool full = cw_water_lesser(a->head_ft, b->head_ft) >= opening_ft;
    const double change = (b->head_ft - a->head_ft) / length;
    if (full || a->head_ft == b->head_ft)
        return (spot){a->head_ft + change * at, change};
    spot here;
    here.head_ft = cw_water_between((double[2]){a->run_ft, b->run_ft},
                                    (double[2]){a->head_ft, b->head_ft}, length, at, &here.per_ft);
    return here;
}

double cw_water_depth_at(const cw_water_profile *profile, double x_ft)
{
    const double x = cw_water_lesser(cw_water_greater(x_ft, 0.0), profile->length_ft);
    const bool fast =
        profile->regime == CW_WATER_FAST || (profile->has_jump && x < profile->jump_ft);
    const cw_water_branch *branch = fast ? &profile->fast : &profile->slow;
    if (branch->count > 0)
        return on_branch(branch, profile->opening_ft, x, &(int){0}).head_ft;
    /* Still water: a level pool over a sloping floor. */
    return cw_water_greater(profile->outlet_depth_ft - profile->slope * (profile->length_ft - x),
                            0.0);
}

/* ---- the jump ---- */

/* Momentum and pressure per unit of span and of specific weight; past the lid the whole opening is
 * pressed by the excess.  Source: momentum equation for a rectangular conduit. */
static double momentum(const cw_water_run *run, double head_ft)
{
    const double top = run->box->rise_ft;
    const double depth = cw_water_lesser(head_ft, top);
    return 2.0 * run->head_q / depth + 0.5 * depth * depth + depth * (head_ft - depth);
}

/* Change of momentum with head: hydrostatic force per depth less that of the flow. */
static double momentum_rate(const cw_water_run *run, double head_ft)
{
    const double top = run->box->rise_ft;
    return head_ft < top ? head_ft - 2.0 * run->head_q / (head_ft * head_ft) : top;
}

/* Both branches at one place. */
typedef struct meeting {
    spot slow, fast;
    double miss, rate; /* relative excess of the slow branch's momentum, and its change along x */
} meeting;

static meeting meet(const cw_water_run *run, const cw_water_profile *profile, double x_ft,
                    int near[2])
{
    const double top = profile->opening_ft;
    meeting at = {.slow = on_branch(&profile->slow, top, x_ft, &near[0]),
                  .fast = on_branch(&profile->fast, top, x_ft, &near[1])};
    const double slow = momentum(run, at.slow.head_ft), fast = momentum(run, at.fast.head_ft);
    at.miss = slow / fast - 1.0;
    at.rate = (momentum_rate(run, at.slow.head_ft) * at.slow.per_ft -
               momentum_rate(run, at.fast.head_ft) * at.fast.per_ft) /
              fast;
    return at;
}

/* Where a jump is looked for first: between the nodes of the slow branch, the fast branch taken as
 * straight between its own. */
static double jump_guess(const cw_water_run *run, const cw_water_profile *profile, int near[2])
{
    const cw_water_node *slow = profile->slow.nodes, *fast = profile->fast.nodes;
    int low = 0, high = profile->slow.count - 1;
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        const cw_water_node *a = &fast[node_before(&profile->fast, slow[middle].x_ft, near[1])];
        const double part =
            (slow[middle].x_ft - a->x_ft) / cw_water_greater(a[1].x_ft - a->x_ft, 1e-9);
        const double head = a->head_ft + (a[1].head_ft - a->head_ft) * cw_water_lesser(part, 1.0);
        if (momentum(run, slow[middle].head_ft) < momentum(run, head))
            low = middle;
        else
            high = middle;
    }
    near[0] = low;
    return 0.5 * (slow[low].x_ft + slow[high].x_ft);
}

/* A step of Newton shorter than this part of the length is the last: the next would be its square.
 */
#define JUMP_STEP_RATIO 1e-11
enum { JUMP_STEPS_MAX = 100 };

/* Inside when the slow branch is the stronger at the outlet; then the jump stands where both are
 * equal. */
static void find_jump(const cw_water_run *run, cw_water_profile *profile)
{
    int near[2] = {0, 0};
    const double length = profile->length_ft;
    if (profile->slow.count == 0 || meet(run, profile, length, near).miss <= 0.0)
        return;
    double low = profile->slow.nodes[0].x_ft, high = length;
    double x = jump_guess(run, profile, near), step = length;
    meeting at = meet(run, profile, x, near);
    int steps = 0;
    for (; steps < JUMP_STEPS_MAX && at.miss != 0.0; steps++) {
        if (fabs(step) <= JUMP_STEP_RATIO * length)
            break;
        if (at.miss < 0.0)
            low = x;
        else
            high = x;
        double next = x - at.miss / at.rate;
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        step = next - x;
        x = next;
        at = meet(run, profile, x, near);
    }
    profile->has_jump = true;
    profile->jump_ft = x;
    profile->jump_residual = at.miss;
    if (steps == JUMP_STEPS_MAX)
        profile->status = CW_WATER_NOT_FOUND;
    profile->jump_before_ft = at.fast.head_ft;
    profile->jump_after_ft = at.slow.head_ft;
    profile->jump_at_lid = at.slow.head_ft >= profile->opening_ft;
}

/* ---- the whole ---- */

static void leave(const cw_water_run *run, double depth_ft, cw_water_profile *profile)
{
    const double depth = cw_water_lesser(depth_ft, run->box->rise_ft);
    profile->outlet_depth_ft = depth;
    profile->outlet_velocity_fps = run->flow_cfs / (run->box->span_ft * depth);
    profile->outlet_froude = profile->outlet_velocity_fps / sqrt(CW_WATER_GRAVITY * depth);
}

static cw_water_regime regime_of(const cw_water_run *run, const cw_water_traced *slow)
{
    const double length = run->box->length_ft;
    if (slow->full_ft >= length)
        return CW_WATER_FULL;
    if (slow->full_ft > 0.0)
        return CW_WATER_PART_FULL;
    return run->steep ? CW_WATER_DROWNED : CW_WATER_SLOW;
}

static void fill_depths(const cw_water_run *run, cw_water_profile *profile)
{
    profile->critical_ft = run->critical_ft;
    profile->normal = run->normal;
    profile->has_normal = run->has_normal;
    profile->full_slope = run->full_slope;
    profile->near_critical = run->has_normal && fabs(run->normal_ft - run->critical_ft) <=
                                                    NEAR_CRITICAL_RATIO * run->critical_ft;
}

void cw_water_profile_of(const cw_water_barrel *barrel, double flow_cfs, double tail_ft,
                         double tail_velocity_fps, cw_water_profile *profile)
{
    const cw_water_box box = cw_water_box_of(barrel);
    /* All but the nodes, of which only those that are counted are ever read. */
    memset(profile, 0, offsetof(cw_water_profile, slow));
    profile->slow.count = profile->fast.count = 0;
    profile->flow_cfs = flow_cfs;
    profile->slope = box.slope;
    profile->length_ft = box.length_ft;
    profile->opening_ft = box.rise_ft;
    profile->span_ft = box.span_ft;
    cw_water_solved solved;
    cw_water_solve(barrel, &box, flow_cfs, (double[2]){tail_ft, tail_velocity_fps}, &profile->slow,
                   &solved);
    profile->head = solved.head;
    profile->status = profile->head.status;
    if (profile->status != CW_WATER_OK)
        return;
    if (flow_cfs == 0.0) {
        profile->regime = CW_WATER_STILL;
        profile->outlet_depth_ft = cw_water_lesser(cw_water_greater(tail_ft, 0.0), box.rise_ft);
        return;
    }
    const cw_water_run *run = &solved.run;
    profile->inlet = solved.inlet;
    fill_depths(run, profile);
    if (solved.slow.end == CW_WATER_AT_LENGTH) {
        profile->regime = regime_of(run, &solved.slow);
        leave(run, solved.start_ft, profile);
        return;
    }
    const cw_water_traced fast = cw_water_trace_fast(run, &profile->fast);
    find_jump(run, profile);
    profile->regime = profile->has_jump ? CW_WATER_JUMPS : CW_WATER_FAST;
    leave(run, profile->has_jump ? solved.start_ft : fast.head_ft, profile);
}
