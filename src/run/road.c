#include <assert.h>
#include <math.h>
#include <stddef.h>

#include "cw/run.h"
#include "cw/tolerance.h"

double cw_run_hinge_ft(const cw_run_side *side)
{
    double out_ft = 0.0;
    for (int i = 0; i < side->strip_count; i++)
        out_ft += side->strips[i].width_ft;
    return out_ft;
}

double cw_run_hinge_drop_ft(const cw_run_side *side)
{
    double drop_ft = 0.0;
    for (int i = 0; i < side->strip_count; i++)
        drop_ft += side->strips[i].width_ft * side->strips[i].fall;
    return drop_ft;
}

/* Drop below the grade point at distance out_ft >= 0 on this side. */
static double drop_at(const cw_run_side *side, double out_ft)
{
    double left_ft = out_ft, drop_ft = 0.0;
    for (int i = 0; i < side->strip_count; i++) {
        const cw_run_strip *strip = &side->strips[i];
        if (left_ft <= strip->width_ft)
            return drop_ft + left_ft * strip->fall;
        drop_ft += strip->width_ft * strip->fall;
        left_ft -= strip->width_ft;
    }
    return drop_ft + left_ft / side->side_slope;
}

double cw_run_surface_ft(const cw_run_road *road, double u_ft, double a_ft)
{
    const cw_run_side *side = u_ft >= 0.0 ? &road->inlet : &road->outlet;
    assert(side->strip_count >= 0 && side->strip_count <= CW_RUN_STRIPS_MAX);
    assert(side->side_slope > 0.0);
    return road->elevation_ft + road->grade * a_ft - drop_at(side, fabs(u_ft));
}

bool cw_run_ground_at(const cw_run_ground *ground, double chain_ft, double *elevation_ft)
{
    if (!ground || ground->count < 2 || !(chain_ft >= ground->points[0].chain_ft) ||
        !(chain_ft <= ground->points[ground->count - 1].chain_ft))
        return false;
    int low = 0, high = ground->count - 1;
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (ground->points[middle].chain_ft <= chain_ft)
            low = middle;
        else
            high = middle;
    }
    const cw_run_ground_point *from = &ground->points[low], *to = &ground->points[high];
    const double share = (chain_ft - from->chain_ft) / (to->chain_ft - from->chain_ft);
    *elevation_ft = from->elevation_ft + share * (to->elevation_ft - from->elevation_ft);
    return true;
}

double cw_run_finished_ft(const cw_run_road *road, const cw_run_ground *ground, double u_ft,
                          double a_ft, double chain_ft)
{
    const double fill_ft = cw_run_surface_ft(road, u_ft, a_ft);
    const cw_run_side *side = u_ft >= 0.0 ? &road->inlet : &road->outlet;
    // At the hinge itself the road counts: it is built, whatever the ground beside it does.
    if (fabs(u_ft) <= cw_run_hinge_ft(side) + CW_SAME_PLACE_FT)
        return fill_ft;
    double ground_ft = 0.0;
    if (cw_run_ground_at(ground, chain_ft, &ground_ft) && ground_ft > fill_ft)
        return ground_ft;
    return fill_ft;
}
