#include <assert.h>
#include <math.h>
#include <stddef.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"

enum { MARCH_STEPS_MAX = 2000, /* CW_RUN_REACH_FT / CW_RUN_MARCH_FT */ HALVINGS_MAX = 60 };

/* A bracket this narrow moves the surface by less than a hundred-millionth of a foot on any side
 * slope. */
#define BRACKET_FT 1e-9

/* More than this left at the end of a bisection is a step of the surface and no meeting point. */
#define MEETS_FT 1e-6

/* A barrel within this of the road's direction does not cross it. */
#define COS_SKEW_MIN 1e-3

static double toward(cw_run_which which)
{
    return which == CW_RUN_INLET ? 1.0 : -1.0;
}

static const cw_run_side *side_of(const cw_run_road *road, cw_run_which which)
{
    return which == CW_RUN_INLET ? &road->inlet : &road->outlet;
}

/* e_k.  Derived: the corner of a square face lies width/2 from the axis, (width/2) sin skew nearer
 * to the road. */
static double setback(const cw_run_under *under, double skew_deg)
{
    return under->cut == CW_RUN_CUT_SQUARE
               ? under->width_ft / 2.0 * fabs(sin(skew_deg * CW_RAD_PER_DEG))
               : 0.0;
}

/* Derived: half the face reaches (width/2) cos skew along the road when square, (width/2)/cos skew
 * when cut along it. */
static double grade_over_half(const cw_run_under *under, double skew_deg)
{
    const double away = fabs(cos(skew_deg * CW_RAD_PER_DEG));
    const double half_ft = under->width_ft / 2.0;
    if (under->cut == CW_RUN_CUT_ROAD)
        return fabs(under->road->grade) * half_ft / fmax(away, COS_SKEW_MIN);
    return fabs(under->road->grade) * half_ft * away;
}

cw_run_end cw_run_end_at(const cw_run_under *under, cw_run_which which, double distance_ft)
{
    const double chain_ft = toward(which) * distance_ft;
    const cw_run_place place = cw_run_path_at(under->path, chain_ft);
    cw_run_end end = {.distance_ft = distance_ft, .setback_ft = setback(under, place.skew_deg)};
    const double back_ft = toward(which) * end.setback_ft;
    end.grade_ft = grade_over_half(under, place.skew_deg);
    end.invert_ft = under->invert_ft + under->slope * chain_ft;
    end.surface_ft =
        cw_run_finished_ft(under->road, under->ground, place.u_ft - back_ft, place.a_ft, chain_ft);
    end.height_ft = end.surface_ft - end.invert_ft;
    end.far_height_ft =
        cw_run_finished_ft(under->road, under->ground, place.u_ft + back_ft, place.a_ft, chain_ft) -
        end.invert_ft;
    return end;
}

/* ---- closed form ---- */

typedef struct terms {
    double hinge_ft, hinge_z_ft, setback_ft, away; /* away: cos skew */
    double invert_rise, road_rise;                 /* ft/ft going away from the road */
    double side_slope;
} terms;

static terms terms_of(const cw_run_under *under, cw_run_which which)
{
    const cw_run_side *side = side_of(under->road, which);
    const double skew_deg = under->path->frame.skew_deg;
    return (terms){
        .hinge_ft = cw_run_hinge_ft(side),
        .hinge_z_ft = under->road->elevation_ft - cw_run_hinge_drop_ft(side),
        .setback_ft = setback(under, skew_deg),
        .away = cos(skew_deg * CW_RAD_PER_DEG),
        .invert_rise = toward(which) * under->slope,
        .road_rise = toward(which) * under->road->grade * sin(skew_deg * CW_RAD_PER_DEG),
        .side_slope = side->side_slope,
    };
}

static void show_terms(const terms *t, const cw_run_under *under, double below, cw_working *working)
{
    static const char *const geometry = "derived: plane geometry";
    cw_step_add(working, "b", "sum of strip widths", t->hinge_ft, CW_DIM_FT, geometry);
    cw_step_add(working, "z_h", "P - sum(width x fall)", t->hinge_z_ft, CW_DIM_ELEV_FT, geometry);
    cw_step_add(working, "H", "wanted fill above the invert", under->fill_ft, CW_DIM_FT, "given");
    cw_step_add(working, "e", "(W/2) sin skew for a square end, 0 along the road", t->setback_ft,
                CW_DIM_FT, geometry);
    cw_step_add(working, "g", "+S toward the inlet, -S toward the outlet", t->invert_rise,
                CW_DIM_SLOPE, geometry);
    cw_step_add(working, "q", "grade x sin skew, + when going away goes up-station", t->road_rise,
                CW_DIM_SLOPE, geometry);
    cw_step_add(working, "D", "cos skew + m (g - q)", below, CW_DIM_NONE, geometry);
}

static void show_check(const cw_run_end *end, const cw_run_under *under, cw_working *working)
{
    cw_step_add(working, "z_f", "z_h + q s - (s cos skew - e - b)/m", end->surface_ft,
                CW_DIM_ELEV_FT, "derived: substitution");
    cw_step_add(working, "z_w", "z_i + g s + H, must equal z_f", end->invert_ft + under->fill_ft,
                CW_DIM_ELEV_FT, "derived: substitution");
}

cw_run_end cw_run_end_closed(const cw_run_under *under, cw_run_which which, cw_working *working)
{
    assert(under->path->bend_count == 0);
    const terms t = terms_of(under, which);
    if (t.away < COS_SKEW_MIN)
        return (cw_run_end){.status = CW_RUN_PARALLEL};
    // Derived: hinge + q s - (s cos skew - e - b)/m = invert + g s + H, solved for s.
    const double over_ft = t.hinge_ft + t.setback_ft +
                           t.side_slope * (t.hinge_z_ft - under->invert_ft - under->fill_ft);
    const double below = t.away + t.side_slope * (t.invert_rise - t.road_rise);
    show_terms(&t, under, below, working);
    const double hinge_at_ft = (t.hinge_ft + t.setback_ft) / t.away;
    const double spare_ft = t.hinge_z_ft - under->invert_ft - under->fill_ft -
                            (t.invert_rise - t.road_rise) * hinge_at_ft;
    if (spare_ft < -CW_RATIO_SLACK)
        return (cw_run_end){.status = CW_RUN_LOW_AT_HINGE};
    if (below <= CW_RATIO_SLACK)
        return (cw_run_end){.status = CW_RUN_NEVER_MEETS};
    const double distance_ft = over_ft / below;
    if (distance_ft > CW_RUN_REACH_FT)
        return (cw_run_end){.status = CW_RUN_TOO_FAR};
    cw_step_add(working, "s", "(b + e + m (z_h - z_i - H)) / D", distance_ft, CW_DIM_FT,
                "derived: side slope meets wanted fill");
    cw_run_under bare = *under;
    bare.ground = NULL;
    const cw_run_end end = cw_run_end_at(&bare, which, distance_ft);
    show_check(&end, under, working);
    return end;
}

/* ---- march ---- */

/* How far the corner of the end stands outside the hinge, ft. */
static double beyond_hinge(const cw_run_under *under, cw_run_which which, double distance_ft)
{
    const cw_run_place place = cw_run_path_at(under->path, toward(which) * distance_ft);
    return toward(which) * place.u_ft - setback(under, place.skew_deg) -
           cw_run_hinge_ft(side_of(under->road, which));
}

static double too_high(const cw_run_under *under, cw_run_which which, double distance_ft)
{
    return cw_run_end_at(under, which, distance_ft).height_ft - under->fill_ft;
}

typedef double (*measure)(const cw_run_under *under, cw_run_which which, double distance_ft);

/* Halve until the bracket is narrow; sign is that of the measure at low. */
static void halve(const cw_run_under *under, cw_run_which which, measure of, double sign,
                  cw_run_search *search)
{
    for (int i = 0; i < HALVINGS_MAX && search->high_ft - search->low_ft > BRACKET_FT; i++) {
        const double middle_ft = search->low_ft + (search->high_ft - search->low_ft) / 2.0;
        if (sign * of(under, which, middle_ft) > 0.0)
            search->low_ft = middle_ft;
        else
            search->high_ft = middle_ft;
        search->iterations++;
    }
}

/* First step from from_ft at which sign x measure is no longer above 0; false when there is none
 * within reach. */
static bool march(const cw_run_under *under, cw_run_which which, measure of, double sign,
                  cw_run_search *search)
{
    const double from_ft = search->high_ft;
    for (int i = 1; i <= MARCH_STEPS_MAX; i++) {
        search->low_ft = search->high_ft;
        search->high_ft = from_ft + i * CW_RUN_MARCH_FT;
        search->iterations++;
        if (!(sign * of(under, which, search->high_ft) > 0.0)) {
            halve(under, which, of, sign, search);
            return true;
        }
    }
    return false;
}

/* The bracket's end beyond the hinge; high_ft starts the search for the meeting point. */
static bool reach_hinge(const cw_run_under *under, cw_run_which which, cw_run_search *search)
{
    if (beyond_hinge(under, which, 0.0) >= 0.0)
        return true;
    return march(under, which, beyond_hinge, -1.0, search);
}

cw_run_end cw_run_end_march(const cw_run_under *under, cw_run_which which)
{
    cw_run_search search = {0};
    if (!reach_hinge(under, which, &search))
        return (cw_run_end){.status = CW_RUN_PARALLEL, .marched = true, .search = search};
    // The bracket is narrower than the slack, so its ends stand for the hinge itself.
    const double spare_ft = too_high(under, which, search.high_ft);
    double distance_ft = search.high_ft;
    cw_run_status status = spare_ft < -MEETS_FT ? CW_RUN_LOW_AT_HINGE : CW_RUN_OK;
    if (spare_ft > 0.0) {
        const bool met = march(under, which, too_high, 1.0, &search);
        distance_ft = search.low_ft + (search.high_ft - search.low_ft) / 2.0;
        if (!met || distance_ft > CW_RUN_REACH_FT)
            status = CW_RUN_TOO_FAR;
    }
    cw_run_end end = cw_run_end_at(under, which, distance_ft);
    search.residual_ft = end.height_ft - under->fill_ft;
    if (status == CW_RUN_OK && fabs(search.residual_ft) > MEETS_FT)
        status = CW_RUN_AT_STEP;
    end.status = status;
    end.marched = true;
    end.search = search;
    return end;
}

cw_run_end cw_run_end_find(const cw_run_under *under, cw_run_which which, cw_working *working)
{
    const bool has_ground = under->ground && under->ground->count >= 2;
    if (under->path->bend_count == 0 && !has_ground)
        return cw_run_end_closed(under, which, working);
    const cw_run_end end = cw_run_end_march(under, which);
    if (end.status == CW_RUN_OK) {
        cw_step_add(working, "H", "wanted fill above the invert", under->fill_ft, CW_DIM_FT,
                    "given");
        cw_step_add(working, "s",
                    "first place beyond the hinge where fill = invert + H, by march and bisection",
                    end.distance_ft, CW_DIM_FT, "derived: numerical search");
        cw_step_add(working, "r", "height left over at s", end.search.residual_ft, CW_DIM_FT,
                    "derived: numerical search");
    }
    return end;
}
