/* The end in plan: roots, tips and the outline of the apron between them. */
#include "ends_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static cw_end_point moved(cw_end_point from, double angle_deg, double by_ft)
{
    const double angle = angle_deg * CW_RAD_PER_DEG;
    return (cw_end_point){from.out_ft + by_ft * cos(angle), from.right_ft + by_ft * sin(angle)};
}

/* Way of a wing, from `out` toward `right`. */
static double heading_deg(const cw_end_plan_input *in, int side)
{
    const double sign = side == CW_END_RIGHT ? 1.0 : -1.0;
    const cw_end_wing *wing = &in->wings[side];
    if (wing->kind == CW_WING_ALONG_ROAD)
        return in->normal_deg + sign * 90.0;
    return sign * (wing->kind == CW_WING_FLARED ? wing->flare_deg : 0.0);
}

/* A wing that bounds the apron: one along the road does not. */
static bool bounds(const cw_end_plan_input *in, int side)
{
    return in->wings[side].present && in->wings[side].kind != CW_WING_ALONG_ROAD;
}

/* Distance of a point from the line of the face. */
static double from_face_ft(const cw_end_plan_input *in, cw_end_point at)
{
    const double angle = in->face_deg * CW_RAD_PER_DEG;
    return at.out_ft * cos(angle) + at.right_ft * sin(angle);
}

static void add_corner(cw_end_plan *plan, cw_end_point at)
{
    plan->outline[plan->corners++] = at;
}

/* Where the side of an apron meets the line @p reach_ft from the face: on the wing, or past its tip
 * along the barrel. */
static cw_end_point side_end(const cw_end_plan_input *in, const cw_end_plan *plan, int side,
                             double reach_ft, bool *past)
{
    const double axis = cos(in->face_deg * CW_RAD_PER_DEG);
    *past = false;
    cw_end_point from = plan->root[side];
    if (bounds(in, side)) {
        const double tip_ft = from_face_ft(in, plan->tip[side]);
        if (reach_ft <= tip_ft)
            return moved(from, heading_deg(in, side),
                         reach_ft / tip_ft * in->wings[side].length_ft);
        *past = true;
        from = plan->tip[side];
        reach_ft -= tip_ft;
    }
    return moved(from, 0.0, reach_ft / axis);
}

static double shoelace_sqft(const cw_end_point *at, int count)
{
    double twice = 0.0;
    for (int i = 0; i < count; i++) {
        const cw_end_point a = at[i], b = at[(i + 1) % count];
        twice += a.out_ft * b.right_ft - b.out_ft * a.right_ft;
    }
    return fabs(twice) / 2.0;
}

static void outline(const cw_end_plan_input *in, cw_end_plan *plan)
{
    const bool to_tips = !in->has_apron_ft;
    if (to_tips && !(bounds(in, CW_END_LEFT) && bounds(in, CW_END_RIGHT)))
        return;
    cw_end_point ends[2];
    bool past[2] = {false, false};
    for (int side = 0; side < 2; side++)
        ends[side] = to_tips
                         ? plan->tip[side]
                         : side_end(in, plan, side,
                                    in->apron_ft * cos(in->face_deg * CW_RAD_PER_DEG), &past[side]);
    add_corner(plan, plan->root[CW_END_LEFT]);
    if (past[CW_END_LEFT])
        add_corner(plan, plan->tip[CW_END_LEFT]);
    add_corner(plan, ends[CW_END_LEFT]);
    add_corner(plan, ends[CW_END_RIGHT]);
    if (past[CW_END_RIGHT])
        add_corner(plan, plan->tip[CW_END_RIGHT]);
    add_corner(plan, plan->root[CW_END_RIGHT]);
    plan->has_outline = true;
    plan->edge[CW_END_LEFT] = ends[CW_END_LEFT];
    plan->edge[CW_END_RIGHT] = ends[CW_END_RIGHT];
    plan->area_sqft = shoelace_sqft(plan->outline, plan->corners);
}

cw_end_plan cw_ends_plan(const cw_end_plan_input *in)
{
    cw_end_plan plan = {0};
    for (int side = 0; side < 2; side++) {
        const double sign = side == CW_END_RIGHT ? 1.0 : -1.0;
        plan.root[side] =
            moved((cw_end_point){0.0, 0.0}, in->face_deg + 90.0, sign * in->width_ft / 2.0);
        plan.tip[side] = in->wings[side].present ? moved(plan.root[side], heading_deg(in, side),
                                                         in->wings[side].length_ft)
                                                 : plan.root[side];
        plan.edge[side] = bounds(in, side) ? plan.tip[side] : plan.root[side];
    }
    if (in->has_apron)
        outline(in, &plan);
    plan.edge_ft = hypot(plan.edge[1].out_ft - plan.edge[0].out_ft,
                         plan.edge[1].right_ft - plan.edge[0].right_ft);
    return plan;
}
