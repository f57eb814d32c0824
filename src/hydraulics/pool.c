/* Several barrels and the road under one pool.
 *
 * Each running barrel has its flow Q_i and headwater level h_i(Q_i).  With u = Q^(2/3), in which a
 * headwater is nearly straight at low flow, the levels are taken as straight lines through the last
 * two points; the pool at which these lines and the road carry the total is found, the barrels are
 * computed again there, and so on.  The answer always lies between the least and the greatest of
 * the levels, which is the bracket.  When that does not close in, each barrel is inverted by
 * bisection inside a bisection of the pool. */
#include <math.h>
#include <string.h>

#include "hydraulics_internal.h"

enum { ROUNDS_MAX = 24, DOUBLINGS_MAX = 60, LEVEL_STEPS_MAX = 100 };

/* So near does the sum of the flows come to the total. */
#define LINES_MISS 1e-13

/* Levels closer than this are one pool: far below the 0.001 ft to which anyone reads a level. */
#define SAME_POOL_FT 1e-6

/* A line through two points nearer than this part of u is not believed. */
#define LEAST_MOVE 1e-7

/* A line flatter than this is not believed. */
#define LEAST_RATE 1e-4

/* Tailwater of a free outfall, as a level. */
#define NO_TAIL_FT (-1e6)

typedef struct group {
    const cw_water_barrel *barrel;
    cw_water_box box;
    int members;
    double sill_ft, tail_ft;
    double flow_cfs, u, level_ft; /* of one member */
    double rate;                  /* dh/du */
    double share; /* of a curve's last step: change of u for that of the total flow */
    cw_water_head head;
} group;

typedef struct pool {
    const cw_water_site *site;
    double flow_cfs, tail_ft, tail_velocity_fps;
    group groups[CW_WATER_BARRELS_MAX];
    int group_count;
    int of_barrel[CW_WATER_BARRELS_MAX];
    int evaluations;
} pool;

cw_water_status cw_water_site_check(const cw_water_site *site)
{
    const bool some = site->barrel_count > 0 || site->road;
    if (!some || site->barrel_count < 0 || site->barrel_count > CW_WATER_BARRELS_MAX ||
        (site->barrel_count > 0 && !site->barrels))
        return CW_WATER_BAD_BARREL;
    for (int i = 0; i < site->barrel_count; i++) {
        const cw_water_status status = cw_water_barrel_check(&site->barrels[i]);
        if (status != CW_WATER_OK)
            return status;
    }
    const cw_water_status status = cw_water_tailwater_check(&site->tailwater);
    if (status != CW_WATER_OK || !site->road)
        return status;
    if (cw_water_road_check(site->road) != CW_WATER_OK)
        return CW_WATER_BAD_ROAD;
    const cw_water_tail_level tail = cw_water_tailwater_at(&site->tailwater, 0.0);
    const bool drowned = tail.status == CW_WATER_OK && tail.has_level &&
                         tail.level_ft >= cw_water_road_low_ft(site->road);
    return drowned ? CW_WATER_ROAD_DROWNED : CW_WATER_OK;
}

/* Members are compared one by one: padding has no value. */
static bool same_barrel(const cw_water_barrel *a, const cw_water_barrel *b)
{
    const cw_water_inlet *p = &a->inlet, *q = &b->inlet;
    return a->span_ft == b->span_ft && a->rise_ft == b->rise_ft && a->bed_ft == b->bed_ft &&
           a->length_ft == b->length_ft && a->inlet_floor_ft == b->inlet_floor_ft &&
           a->outlet_floor_ft == b->outlet_floor_ft && a->n == b->n && a->bed_n == b->bed_n &&
           a->entrance_loss == b->entrance_loss && a->other_loss == b->other_loss &&
           a->blocked_ratio == b->blocked_ratio && a->channel_velocity == b->channel_velocity &&
           p->with_critical == q->with_critical && p->k == q->k && p->m == q->m && p->c == q->c &&
           p->y == q->y && p->slope_factor == q->slope_factor;
}

static void gather(pool *p)
{
    for (int i = 0; i < p->site->barrel_count; i++) {
        const cw_water_barrel *barrel = &p->site->barrels[i];
        int g = 0;
        while (g < p->group_count && !same_barrel(p->groups[g].barrel, barrel))
            g++;
        p->of_barrel[i] = g;
        if (g == p->group_count)
            p->groups[p->group_count++] = (group){
                .barrel = barrel,
                .box = cw_water_box_of(barrel),
                .sill_ft = cw_water_sill_ft(barrel),
                .tail_ft = p->tail_ft - cw_water_outlet_sill_ft(barrel),
            };
        p->groups[g].members++;
    }
}

static double to_u(double flow_cfs)
{
    const double root = cbrt(flow_cfs);
    return root * root;
}

static double from_u(double u)
{
    return u > 0.0 ? u * sqrt(u) : 0.0;
}

static double level_of(pool *p, group *g, double flow_cfs)
{
    p->evaluations++;
    g->flow_cfs = flow_cfs;
    g->u = to_u(flow_cfs);
    cw_water_solved solved;
    cw_water_solve(g->barrel, &g->box, flow_cfs, (double[2]){g->tail_ft, p->tail_velocity_fps},
                   NULL, &solved);
    g->head = solved.head;
    return g->level_ft = g->sill_ft + g->head.headwater_ft;
}

static double road_flow(const pool *p, double level_ft)
{
    return p->site->road ? cw_water_road_over(p->site->road, level_ft, p->tail_ft).flow_cfs : 0.0;
}

static double line_flow(const group *g, double level_ft)
{
    return from_u(g->u + (level_ft - g->level_ft) / g->rate);
}

/* Relative miss of the total when the barrels follow their lines.  @p rate: how it changes with the
 * level, that of the road being guessed from a level crest. */
static double lines_miss(const pool *p, double level_ft, double *rate)
{
    double sum = 0.0, change = 0.0;
    if (p->site->road) {
        const cw_water_over over = cw_water_road_over(p->site->road, level_ft, p->tail_ft);
        sum = over.flow_cfs;
        change = over.depth_ft > 0.0 ? 1.5 * over.flow_cfs / over.depth_ft : 0.0;
    }
    for (int i = 0; i < p->group_count; i++) {
        const group *g = &p->groups[i];
        const double u = fmax(g->u + (level_ft - g->level_ft) / g->rate, 0.0), root = sqrt(u);
        sum += g->members * u * root;
        change += g->members * 1.5 * root / g->rate;
    }
    *rate = change / p->flow_cfs;
    return sum / p->flow_cfs - 1.0;
}

/* No water runs at this level. */
static double lines_low(const pool *p)
{
    double low = CW_ANY_HIGH;
    for (int i = 0; i < p->group_count; i++) {
        const group *g = &p->groups[i];
        low = fmin(low, g->level_ft - g->u * g->rate);
    }
    return p->site->road ? fmin(low, cw_water_road_low_ft(p->site->road)) : low;
}

/* The pool at which the lines carry the total, near @p guess_ft: by Newton and then secants, held
 * in a bracket. */
static double lines_level(const pool *p, double guess_ft)
{
    double low = lines_low(p), high = CW_ANY_HIGH, step = 1.0;
    double x = fmax(guess_ft, low), last_x = x, last_miss = 0.0;
    for (int i = 0; i < LEVEL_STEPS_MAX; i++) {
        double rate;
        const double miss = lines_miss(p, x, &rate);
        if (fabs(miss) <= LINES_MISS)
            break;
        if (miss < 0.0)
            low = x;
        else
            high = x;
        if (x != last_x && (miss - last_miss) / (x - last_x) > 0.0)
            rate = (miss - last_miss) / (x - last_x);
        last_x = x;
        last_miss = miss;
        double next = x - miss / rate;
        if (!(next > low && next < high)) {
            next = high < CW_ANY_HIGH ? 0.5 * (low + high) : x + step;
            step *= 2.0;
        }
        if (next == x)
            break;
        x = next;
    }
    return x;
}

/* First line of a barrel: through its level at this flow and a little less. */
static void start_line(pool *p, group *g, double flow_cfs)
{
    const double less = 0.9 * flow_cfs;
    const double low = level_of(p, g, less);
    const double high = level_of(p, g, flow_cfs);
    g->rate = fmax((high - low) / (g->u - to_u(less)), LEAST_RATE);
}

static void move_to(pool *p, group *g, double flow_cfs)
{
    if (flow_cfs == g->flow_cfs)
        return;
    const double u = g->u, level = g->level_ft;
    level_of(p, g, flow_cfs);
    const double moved = g->u - u;
    if (fabs(moved) > LEAST_MOVE * u)
        g->rate = fmax((g->level_ft - level) / moved, LEAST_RATE);
}

/* Least and greatest of the pool and the levels of the barrels that run, or would. */
static void bracket(const pool *p, double level_ft, double *low, double *high)
{
    *low = *high = level_ft;
    for (int i = 0; i < p->group_count; i++) {
        const group *g = &p->groups[i];
        if (g->flow_cfs == 0.0 && g->level_ft >= level_ft)
            continue;
        *low = fmin(*low, g->level_ft);
        *high = fmax(*high, g->level_ft);
    }
}

static bool follow_lines(pool *p, cw_water_answer *answer)
{
    answer->pool_ft = p->groups[0].level_ft;
    for (int i = 0; i < ROUNDS_MAX; i++) {
        answer->pool_ft = lines_level(p, answer->pool_ft);
        double flows[CW_WATER_BARRELS_MAX];
        for (int k = 0; k < p->group_count; k++)
            flows[k] = line_flow(&p->groups[k], answer->pool_ft);
        for (int k = 0; k < p->group_count; k++)
            move_to(p, &p->groups[k], flows[k]);
        bracket(p, answer->pool_ft, &answer->low_ft, &answer->high_ft);
        if (answer->high_ft - answer->low_ft <= SAME_POOL_FT)
            return true;
    }
    return false;
}

/* ---- the sure way ---- */

typedef struct one {
    pool *p;
    group *g;
    double level_ft;
} one;

static double level_miss(const void *about, double flow_cfs)
{
    const one *of = about;
    return level_of(of->p, of->g, flow_cfs) - of->level_ft;
}

static double flow_at(pool *p, group *g, double level_ft)
{
    const one of = {p, g, level_ft};
    if (level_miss(&of, 0.0) >= 0.0)
        return 0.0;
    if (level_miss(&of, p->flow_cfs) <= 0.0)
        return p->flow_cfs;
    return cw_water_hunt(level_miss, &of, 0.0, p->flow_cfs).value;
}

static double sum_miss(const void *about, double level_ft)
{
    pool *p = *(pool *const *)about;
    double sum = road_flow(p, level_ft);
    for (int i = 0; i < p->group_count; i++)
        sum += p->groups[i].members * flow_at(p, &p->groups[i], level_ft);
    return sum / p->flow_cfs - 1.0;
}

static void bisect_pool(pool *p, cw_water_answer *answer)
{
    double low = CW_ANY_HIGH, high = CW_ANY_HIGH;
    for (int i = 0; i < p->group_count; i++) {
        low = fmin(low, level_of(p, &p->groups[i], 0.0));
        high = fmin(high, level_of(p, &p->groups[i], p->flow_cfs));
    }
    pool *const about = p;
    const cw_water_root root = cw_water_hunt(sum_miss, &about, low, high);
    answer->status = root.status;
    answer->pool_ft = root.value;
    sum_miss(&about, root.value);
    for (int i = 0; i < p->group_count; i++) {
        group *g = &p->groups[i];
        level_of(p, g, flow_at(p, g, root.value));
    }
    bracket(p, root.value, &answer->low_ft, &answer->high_ft);
}

/* ---- one flow ---- */

static double spread(const pool *p)
{
    double area = 0.0;
    for (int i = 0; i < p->group_count; i++)
        area += p->groups[i].members * p->groups[i].box.span_ft * p->groups[i].box.rise_ft;
    return p->flow_cfs / area;
}

/* Flow where the road is dry and all barrels are alike. */
static bool alike(pool *p, cw_water_answer *answer)
{
    if (p->group_count != 1)
        return false;
    answer->pool_ft = level_of(p, &p->groups[0], p->flow_cfs / p->groups[0].members);
    answer->low_ft = answer->high_ft = answer->pool_ft;
    return !p->site->road || answer->pool_ft <= cw_water_road_low_ft(p->site->road);
}

static double road_only_miss(const void *about, double level_ft)
{
    const pool *p = about;
    return road_flow(p, level_ft) / p->flow_cfs - 1.0;
}

static void solve(pool *p, const pool *seed, cw_water_answer *answer)
{
    if (p->group_count == 0) {
        const double low = cw_water_road_low_ft(p->site->road);
        double step = 1.0;
        for (int i = 0; i < DOUBLINGS_MAX && road_only_miss(p, low + step) < 0.0; i++)
            step *= 2.0;
        const cw_water_root root = cw_water_hunt(road_only_miss, p, low, low + step);
        answer->status = root.status;
        answer->pool_ft = root.value;
        answer->low_ft = root.low;
        answer->high_ft = root.high;
        return;
    }
    if (alike(p, answer))
        return;
    const bool seeded = seed && seed->group_count == p->group_count && seed->flow_cfs > 0.0;
    const double share = spread(p);
    for (int i = 0; i < p->group_count; i++) {
        group *g = &p->groups[i];
        if (seeded) {
            const group *last = &seed->groups[i];
            const double u = last->u + last->share * (p->flow_cfs - seed->flow_cfs);
            g->rate = last->rate;
            level_of(p, g, u > 0.0 ? from_u(u) : last->flow_cfs);
        }
        if (!(g->rate > 0.0))
            start_line(p, g, share * g->box.span_ft * g->box.rise_ft);
    }
    if (!follow_lines(p, answer))
        bisect_pool(p, answer);
    for (int i = 0; seeded && i < p->group_count; i++)
        p->groups[i].share = (p->groups[i].u - seed->groups[i].u) / (p->flow_cfs - seed->flow_cfs);
}

static void finish(const pool *p, cw_water_answer *answer)
{
    for (int i = 0; i < p->site->barrel_count; i++) {
        const group *g = &p->groups[p->of_barrel[i]];
        answer->barrel_cfs[i] = g->flow_cfs;
        answer->heads[i] = g->head;
    }
    if (p->site->road)
        answer->over = cw_water_road_over(p->site->road, answer->pool_ft, p->tail_ft);
    answer->evaluations = p->evaluations;
    answer->residual_ft = answer->high_ft - answer->low_ft;
}

/* Still water: the lowest sill, or the tailwater where it stands higher than a sill. */
static void stand_still(pool *p, cw_water_answer *answer)
{
    double level = CW_ANY_HIGH;
    for (int i = 0; i < p->group_count; i++)
        level = fmin(level, level_of(p, &p->groups[i], 0.0));
    if (p->group_count == 0)
        level = cw_water_road_low_ft(p->site->road);
    answer->pool_ft = answer->low_ft = answer->high_ft = level;
}

/* @p seed may be the last point of a curve; @p p is filled for the next. */
static cw_water_answer answer_for(const cw_water_site *site, double flow_cfs, const pool *seed,
                                  pool *p)
{
    cw_water_answer answer = {.flow_cfs = flow_cfs};
    *p = (pool){.site = site, .flow_cfs = flow_cfs};
    if (!(flow_cfs >= 0.0 && flow_cfs < CW_ANY_HIGH)) {
        answer.status = CW_WATER_BAD_FLOW;
        return answer;
    }
    answer.tail = cw_water_tailwater_at(&site->tailwater, flow_cfs);
    answer.status = answer.tail.status;
    if (answer.status != CW_WATER_OK)
        return answer;
    p->tail_ft = answer.tail.has_level ? answer.tail.level_ft : NO_TAIL_FT;
    p->tail_velocity_fps = answer.tail.velocity_fps;
    gather(p);
    if (flow_cfs == 0.0)
        stand_still(p, &answer);
    else
        solve(p, seed, &answer);
    finish(p, &answer);
    return answer;
}

cw_water_answer cw_water_pool(const cw_water_site *site, double flow_cfs)
{
    pool p;
    return answer_for(site, flow_cfs, NULL, &p);
}

cw_water_status cw_water_curve(const cw_water_site *site, double flow_max_cfs,
                               cw_water_answer *points, int count)
{
    pool two[2];
    cw_water_status worst = CW_WATER_OK;
    for (int i = 0; i < count; i++) {
        const double flow = count > 1 ? flow_max_cfs * i / (count - 1) : flow_max_cfs;
        points[i] = answer_for(site, flow, i > 0 ? &two[(i + 1) % 2] : NULL, &two[i % 2]);
        if (worst == CW_WATER_OK)
            worst = points[i].status;
    }
    return worst;
}

/* ---- flow for a pool ---- */

typedef struct wanted_pool {
    const cw_water_site *site;
    double pool_ft;
} wanted_pool;

static double pool_miss(const void *about, double flow_cfs)
{
    const wanted_pool *want = about;
    const cw_water_answer answer = cw_water_pool(want->site, flow_cfs);
    return answer.status == CW_WATER_OK ? answer.pool_ft - want->pool_ft : (double)NAN;
}

cw_water_root cw_water_at_pool(const cw_water_site *site, double pool_ft)
{
    const wanted_pool want = {site, pool_ft};
    cw_water_root root = {.status = CW_WATER_BELOW_SILLS};
    cw_water_answer answer = cw_water_pool(site, 0.0);
    if (answer.status != CW_WATER_OK)
        root.status = answer.status;
    if (answer.status != CW_WATER_OK || !(pool_ft >= answer.pool_ft))
        return root;
    double high = 1.0;
    for (int i = 0; i < DOUBLINGS_MAX; i++) {
        answer = cw_water_pool(site, high);
        if (answer.status != CW_WATER_OK || answer.pool_ft >= pool_ft)
            break;
        high *= 2.0;
    }
    /* The tailwater may be known only so far: look for the flow up to there. */
    const bool table = answer.status == CW_WATER_BEYOND_TABLE;
    if (table)
        high = site->tailwater.stages[site->tailwater.stage_count - 1].flow_cfs;
    if (table)
        answer = cw_water_pool(site, high);
    if (answer.status != CW_WATER_OK || answer.pool_ft < pool_ft) {
        root.status = table                          ? CW_WATER_BEYOND_TABLE
                      : answer.status != CW_WATER_OK ? answer.status
                                                     : CW_WATER_NOT_FOUND;
        root.high = high;
        root.residual = answer.pool_ft - pool_ft;
        return root;
    }
    return cw_water_hunt(pool_miss, &want, 0.0, high);
}

cw_water_root cw_water_overtopping(const cw_water_site *site, double over_ft)
{
    if (!site->road)
        return (cw_water_root){.status = CW_WATER_BAD_ROAD};
    return cw_water_at_pool(site, cw_water_road_low_ft(site->road) + over_ft);
}

void cw_water_site_profile(const cw_water_site *site, const cw_water_answer *at, int index,
                           cw_water_profile *profile)
{
    const cw_water_barrel *barrel = &site->barrels[index];
    const double tail = at->tail.has_level ? at->tail.level_ft : NO_TAIL_FT;
    cw_water_profile_of(barrel, at->barrel_cfs[index], tail - cw_water_outlet_sill_ft(barrel),
                        at->tail.velocity_fps, profile);
}
