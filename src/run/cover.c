#include <assert.h>
#include <math.h>
#include <stddef.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* Covers closer than this are equal (a billionth of a foot): then the place nearer the outlet is
 * named. */
#define SAME_COVER_FT 1e-9

/* A straight with a smaller component across the road, or a ground step with a smaller change, has
 * no crossing. */
#define NO_CHANGE 1e-12

/* Beside a jump of the surface (hinge in a cut, end of the known ground) it is tried on both sides.
 */
#define BESIDE_FT (2.0 * CW_SAME_PLACE_FT)

cw_run_cover cw_run_cover_at(const cw_run_over *over, double at_ft)
{
    const cw_run_place place = cw_run_line_at(over->line, at_ft);
    cw_run_cover cover = {.at_ft = at_ft, .place = place};
    cover.surface_ft =
        cw_run_finished_ft(over->road, over->ground, place.u_ft, place.a_ft, place.chain_ft);
    // Rise and top are square to the grade: their height is t / cos(atan S) = t sqrt(1 + S^2).
    cover.top_ft = cw_run_invert_ft(&over->grade, at_ft) +
                   (over->box.rise_in + over->box.top_in) / CW_IN_PER_FT *
                       cw_run_slope_factor(over->grade.slope);
    cover.cover_ft = cover.surface_ft - cover.top_ft;
    return cover;
}

/* The best so far of the search for least (sign +1) or greatest (-1) cover. */
typedef struct quest {
    const cw_run_over *over;
    double from_ft, to_ft, sign;
    cw_run_cover cover;
} quest;

static void try_at(quest *best, double at_ft)
{
    if (!(at_ft >= best->from_ft && at_ft <= best->to_ft))
        return;
    const cw_run_cover here = cw_run_cover_at(best->over, at_ft);
    const double more_ft = best->sign * (here.cover_ft - best->cover.cover_ft);
    if (more_ft < -SAME_COVER_FT || (more_ft <= SAME_COVER_FT && at_ft < best->cover.at_ft))
        best->cover = here;
}

static void try_around(quest *best, double at_ft)
{
    try_at(best, at_ft - BESIDE_FT);
    try_at(best, at_ft);
    try_at(best, at_ft + BESIDE_FT);
}

/* One straight of the barrel: everything on it is linear in the distance along it. */
typedef struct straight {
    double at_ft, u_ft, a_ft, chain_ft;
    double u_rate, a_rate, chain_rate; /* per ft along the barrel */
} straight;

static straight leg_of(const cw_run_line *line, int index)
{
    const cw_run_vertex *from = &line->points[index], *to = &line->points[index + 1];
    const cw_run_place start = cw_run_line_at(line, from->at_ft);
    return (straight){
        .at_ft = from->at_ft,
        .u_ft = start.u_ft,
        .a_ft = start.a_ft,
        .chain_ft = from->chain_ft,
        .u_rate = cos(start.skew_deg * CW_RAD_PER_DEG),
        .a_rate = sin(start.skew_deg * CW_RAD_PER_DEG),
        .chain_rate = (to->chain_ft - from->chain_ft) / (to->at_ft - from->at_ft),
    };
}

/* Where the straight is at distance u from the road's centre line. */
static double at_u(const straight *leg, double u_ft)
{
    return leg->at_ft + (u_ft - leg->u_ft) / leg->u_rate;
}

static void try_side(quest *best, const straight *leg, const cw_run_side *side, double sign)
{
    if (fabs(leg->u_rate) < NO_CHANGE)
        return;
    double out_ft = 0.0;
    for (int i = 0; i < side->strip_count; i++) {
        out_ft += side->strips[i].width_ft;
        try_at(best, at_u(leg, sign * out_ft));
    }
    try_at(best, at_u(leg, sign * out_ft));
    try_at(best, at_u(leg, sign * (out_ft + BESIDE_FT)));
}

/* Side slope less ground at one ground point, the slope's line taken without end. */
static double slope_over_ground(const quest *best, const straight *leg, double sign, int point,
                                double *at_ft)
{
    const cw_run_road *road = best->over->road;
    const cw_run_side *side = sign > 0.0 ? &road->inlet : &road->outlet;
    const cw_run_ground_point *ground = &best->over->ground->points[point];
    *at_ft = leg->at_ft + (ground->chain_ft - leg->chain_ft) / leg->chain_rate;
    const double forward_ft = *at_ft - leg->at_ft;
    const double out_ft = sign * (leg->u_ft + leg->u_rate * forward_ft) - cw_run_hinge_ft(side);
    return road->elevation_ft + road->grade * (leg->a_ft + leg->a_rate * forward_ft) -
           cw_run_hinge_drop_ft(side) - out_ft / side->side_slope - ground->elevation_ft;
}

static void try_ground(quest *best, const straight *leg)
{
    const cw_run_ground *ground = best->over->ground;
    if (!ground || ground->count < 2)
        return;
    for (int i = 0; i < ground->count; i++)
        try_around(best,
                   leg->at_ft + (ground->points[i].chain_ft - leg->chain_ft) / leg->chain_rate);
    for (int bank = 0; bank < 2; bank++) {
        const double sign = bank == 0 ? -1.0 : 1.0;
        for (int i = 0; i + 1 < ground->count; i++) {
            double from_ft = 0.0, to_ft = 0.0;
            const double before_ft = slope_over_ground(best, leg, sign, i, &from_ft);
            const double after_ft = slope_over_ground(best, leg, sign, i + 1, &to_ft);
            if (fabs(before_ft - after_ft) > NO_CHANGE)
                try_at(best, from_ft + (to_ft - from_ft) * before_ft / (before_ft - after_ft));
        }
    }
}

static cw_run_cover search(const cw_run_over *over, double from_ft, double to_ft, double sign)
{
    assert(over->line->status == CW_RUN_OK && from_ft <= to_ft);
    quest best = {.over = over, .from_ft = from_ft, .to_ft = to_ft, .sign = sign};
    best.cover = cw_run_cover_at(over, from_ft);
    try_at(&best, to_ft);
    for (int i = 0; i + 1 < over->line->count; i++) {
        const straight leg = leg_of(over->line, i);
        try_at(&best, leg.at_ft);
        if (fabs(leg.u_rate) >= NO_CHANGE)
            try_at(&best, at_u(&leg, 0.0));
        try_side(&best, &leg, &over->road->inlet, 1.0);
        try_side(&best, &leg, &over->road->outlet, -1.0);
        try_ground(&best, &leg);
    }
    return best.cover;
}

cw_run_cover cw_run_least_cover(const cw_run_over *over, double from_ft, double to_ft)
{
    return search(over, from_ft, to_ft, 1.0);
}

cw_run_cover cw_run_most_cover(const cw_run_over *over, double from_ft, double to_ft)
{
    return search(over, from_ft, to_ft, -1.0);
}
