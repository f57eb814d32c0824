/* The box as a frame: one path of points round it, floor from left to right, right wall up, top
 * from right to left, left wall down, so that every bar has the inside on its left. */
#include "box_internal.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "cw/units.h"

enum { FLOOR_PARTS = 24, TOP_PARTS = 16, WALL_PARTS = 10 };
#define NEAR_PARTS                                                                                 \
    0.3 /* grid points nearer than this part of a step to a named place are left out */
#define SAME_FT                                                                                    \
    0.02 /* a quarter of an inch: nearer places are one, so that no bar is very short              \
          */

/* A rising list of places along a member. */
typedef struct places {
    int count;
    double at_ft[CW_BOX_LINE];
} places;

static bool place_add(places *list, double at_ft)
{
    int i = 0;
    while (i < list->count && list->at_ft[i] < at_ft - SAME_FT)
        i++;
    if (i < list->count && list->at_ft[i] <= at_ft + SAME_FT)
        return true;
    if (list->count == CW_BOX_LINE)
        return false;
    memmove(&list->at_ft[i + 1], &list->at_ft[i], (size_t)(list->count - i) * sizeof(double));
    list->at_ft[i] = at_ft;
    list->count++;
    return true;
}

static int place_of(const places *list, double at_ft)
{
    int best = 0;
    for (int i = 1; i < list->count; i++)
        if (fabs(list->at_ft[i] - at_ft) < fabs(list->at_ft[best] - at_ft))
            best = i;
    return best;
}

static bool grid_add(places *list, double length_ft, int parts)
{
    const places named = *list;
    const double step_ft = length_ft / parts;
    for (int i = 1; i < parts; i++) {
        const double at_ft = length_ft * i / parts;
        bool clear = true;
        for (int n = 0; n < named.count; n++)
            clear = clear && fabs(named.at_ft[n] - at_ft) > NEAR_PARTS * step_ft;
        if (clear && !place_add(list, at_ft))
            return false;
    }
    return true;
}

/* Effective depths and haunches at one end of a member. */
typedef struct member_end {
    double face_ft, tip_ft, shear_ft;
} member_end;

static member_end end_of(double half_support_in, double haunch_in, double thickness_in,
                         double length_ft)
{
    member_end end = {.face_ft = half_support_in / CW_IN_PER_FT};
    end.tip_ft = end.face_ft + haunch_in / CW_IN_PER_FT;
    end.shear_ft =
        fmin(end.tip_ft + CW_BOX_SHEAR_DEPTH * thickness_in / CW_IN_PER_FT, length_ft / 2.0);
    return end;
}

/* The left half, then its mirror: rounding must not set both sides apart. */
static bool slab_places(places *list, double length_ft, member_end end, int parts)
{
    const double named[4] = {0.0, end.face_ft, end.tip_ft, end.shear_ft};
    bool good = place_add(list, length_ft / 2.0);
    for (int i = 0; i < 4; i++)
        good = good && place_add(list, named[i]);
    good = good && grid_add(list, length_ft / 2.0, parts / 2);
    const int half = list->count;
    if (!good || 2 * half - 1 > CW_BOX_LINE)
        return false;
    for (int i = half - 2; i >= 0; i--)
        list->at_ft[list->count++] = length_ft - list->at_ft[i];
    return true;
}

static double joint_ft(const cw_struct_box *box, double height_ft)
{
    return box->joint_in > 0.0 ? (box->floor_in / 2.0 + box->joint_in) / CW_IN_PER_FT
                               : height_ft / 2.0;
}

static bool wall_places(places *list, const cw_struct_box *box, double height_ft, member_end end)
{
    const double crown_ft = box->top_in / 2.0 / CW_IN_PER_FT;
    bool good = place_add(list, 0.0) && place_add(list, end.face_ft) &&
                place_add(list, end.tip_ft) && place_add(list, end.shear_ft) &&
                place_add(list, height_ft / 2.0) && place_add(list, height_ft);
    if (box->form != CW_STRUCT_LID)
        good = good && place_add(list, height_ft - crown_ft) &&
               place_add(list, height_ft - crown_ft - box->crown_haunch_in / CW_IN_PER_FT);
    if (box->form == CW_STRUCT_DOUBLE_U)
        good = good && place_add(list, joint_ft(box, height_ft));
    return good && grid_add(list, height_ft, WALL_PARTS);
}

/* Thickness of a member at a distance from the centre line it ends on, ft. */
static double depth_ft(double at_ft, double half_support_in, double haunch_in, double thickness_in)
{
    const double beyond_in = at_ft * CW_IN_PER_FT - half_support_in;
    return (thickness_in + fmax(0.0, haunch_in - fmax(0.0, beyond_in))) / CW_IN_PER_FT;
}

static double slab_depth_ft(const cw_struct_box *box, double at_ft, double length_ft, bool top)
{
    const double near_ft = fmin(at_ft, length_ft - at_ft);
    return depth_ft(near_ft, box->wall_in / 2.0, top ? box->crown_haunch_in : box->haunch_in,
                    top ? box->top_in : box->floor_in);
}

static double wall_depth_ft(const cw_struct_box *box, double at_ft, double height_ft)
{
    const double low = depth_ft(at_ft, box->floor_in / 2.0, box->haunch_in, box->wall_in);
    const double high =
        depth_ft(height_ft - at_ft, box->top_in / 2.0, box->crown_haunch_in, box->wall_in);
    return fmax(low, high);
}

/* ---- path ---- */

static bool line_point(cw_box_mesh *mesh, cw_box_line *line, double x_ft, double y_ft, double at_ft,
                       int shared)
{
    int point = shared;
    if (shared < 0) {
        point = cw_frame_point_add(&mesh->frame, x_ft, y_ft);
        if (point < 0)
            return false;
        mesh->path[mesh->path_count++] = point;
    }
    if (line->count == CW_BOX_LINE)
        return false;
    line->point[line->count] = point;
    line->at_ft[line->count++] = at_ft;
    return true;
}

static bool lay_slab(cw_box_mesh *mesh, cw_box_line *line, const places *at, bool top, int first,
                     int last)
{
    const double y_ft = top ? mesh->height_ft : 0.0;
    for (int i = 0; i < at->count; i++) {
        const double x_ft = top ? mesh->width_ft - at->at_ft[i] : at->at_ft[i];
        const int shared = i == 0 ? first : i + 1 == at->count ? last : -1;
        if (!line_point(mesh, line, x_ft, y_ft, x_ft, shared))
            return false;
    }
    return true;
}

/* @p ends are the points at the floor and at the top, -1 for a new one.  At the joint of a
 * double-u two points stand at one place. */
static bool lay_wall(cw_box_mesh *mesh, cw_box_line *line, const places *at, bool up,
                     const int ends[2])
{
    const double x_ft = up ? mesh->width_ft : 0.0;
    for (int k = 0; k < at->count; k++) {
        const int i = up ? k : at->count - 1 - k;
        const int shared = i == 0 ? ends[0] : i + 1 == at->count ? ends[1] : -1;
        if (!line_point(mesh, line, x_ft, at->at_ft[i], at->at_ft[i], shared))
            return false;
        if (i != mesh->wall_joint)
            continue;
        if (!line_point(mesh, line, x_ft, at->at_ft[i], at->at_ft[i], -1))
            return false;
        const int point = line->point[line->count - 1];
        mesh->frame.point[point].same_x = mesh->frame.point[point].same_y =
            line->point[line->count - 2];
    }
    return true;
}

/* Bars along a line; where two points stand at one place there is none. */
static bool lay_bars(cw_box_mesh *mesh, cw_box_line *line, const cw_struct_box *box, int member)
{
    line->first_bar = mesh->frame.bars;
    for (int i = 0; i + 1 < line->count; i++) {
        double depth[2];
        if (line->at_ft[i] == line->at_ft[i + 1])
            continue;
        for (int e = 0; e < 2; e++)
            depth[e] = member == CW_STRUCT_WALL_MID
                           ? wall_depth_ft(box, line->at_ft[i + e], mesh->height_ft)
                           : slab_depth_ft(box, line->at_ft[i + e], mesh->width_ft,
                                           member == CW_STRUCT_TOP_MID);
        if (cw_frame_bar_add(&mesh->frame, line->point[i], line->point[i + 1], depth[0], depth[1]) <
            0)
            return false;
    }
    return true;
}

static void name_places(cw_box_mesh *mesh, const places lists[3], const member_end ends[3])
{
    int *place = mesh->place;
    const places *floor = &lists[0], *wall = &lists[1], *top = &lists[2];
    place[CW_STRUCT_FLOOR_END] = place[CW_STRUCT_TOP_END] = place[CW_STRUCT_WALL_FOOT] = 0;
    place[CW_STRUCT_FLOOR_MID] = place_of(floor, mesh->width_ft / 2.0);
    place[CW_STRUCT_FLOOR_FACE] = place_of(floor, ends[0].tip_ft);
    place[CW_STRUCT_FLOOR_SHEAR] = place_of(floor, ends[0].shear_ft);
    place[CW_STRUCT_TOP_MID] = place_of(top, mesh->width_ft / 2.0);
    place[CW_STRUCT_TOP_FACE] = place_of(top, ends[2].tip_ft);
    place[CW_STRUCT_TOP_SHEAR] = place_of(top, ends[2].shear_ft);
    place[CW_STRUCT_WALL_FACE] = place_of(wall, ends[1].tip_ft);
    place[CW_STRUCT_WALL_SHEAR] = place_of(wall, ends[1].shear_ft);
    place[CW_STRUCT_WALL_MID] = place_of(wall, mesh->height_ft / 2.0);
    place[CW_STRUCT_WALL_TOP] = wall->count - 1;
    // Above a joint the wall has one point more; the place is counted in the list of points.
    for (int i = CW_STRUCT_WALL_TOP; i <= CW_STRUCT_WALL_FOOT; i++)
        if (mesh->wall_joint >= 0 && place[i] > mesh->wall_joint)
            place[i]++;
}

static bool lay_path(cw_box_mesh *mesh, const cw_struct_box *box, const places lists[3])
{
    const bool lid = box->form == CW_STRUCT_LID;
    if (!lay_slab(mesh, &mesh->floor, &lists[0], false, -1, -1))
        return false;
    const int floor_ends[2] = {mesh->floor.point[0], mesh->floor.point[mesh->floor.count - 1]};
    const int right_ends[2] = {floor_ends[1], -1};
    if (!lay_wall(mesh, &mesh->right, &lists[1], true, right_ends))
        return false;
    const int right_top = mesh->right.point[mesh->right.count - 1];
    if (!lay_slab(mesh, &mesh->top, &lists[2], true, lid ? -1 : right_top, -1))
        return false;
    const int left_ends[2] = {floor_ends[0], lid ? -1 : mesh->top.point[mesh->top.count - 1]};
    if (!lay_wall(mesh, &mesh->left, &lists[1], false, left_ends))
        return false;
    return lay_bars(mesh, &mesh->floor, box, CW_STRUCT_FLOOR_MID) &&
           lay_bars(mesh, &mesh->right, box, CW_STRUCT_WALL_MID) &&
           lay_bars(mesh, &mesh->top, box, CW_STRUCT_TOP_MID) &&
           lay_bars(mesh, &mesh->left, box, CW_STRUCT_WALL_MID);
}

bool cw_box_mesh_build(cw_box_mesh *mesh, const cw_struct_box *box)
{
    memset(mesh, 0, sizeof *mesh);
    cw_frame_clear(&mesh->frame, box->concrete_psi * CW_SQIN_PER_SQFT);
    mesh->width_ft = (box->span_in + box->wall_in) / CW_IN_PER_FT;
    mesh->height_ft = (box->rise_in + box->floor_in / 2.0 + box->top_in / 2.0) / CW_IN_PER_FT;
    const member_end ends[3] = {
        end_of(box->wall_in / 2.0, box->haunch_in, box->floor_in, mesh->width_ft),
        end_of(box->floor_in / 2.0, box->haunch_in, box->wall_in, mesh->height_ft),
        end_of(box->wall_in / 2.0, box->crown_haunch_in, box->top_in, mesh->width_ft)};
    places lists[3] = {{0}, {0}, {0}};
    if (!slab_places(&lists[0], mesh->width_ft, ends[0], FLOOR_PARTS) ||
        !wall_places(&lists[1], box, mesh->height_ft, ends[1]) ||
        !slab_places(&lists[2], mesh->width_ft, ends[2], TOP_PARTS))
        return false;
    mesh->wall_joint =
        box->form == CW_STRUCT_DOUBLE_U ? place_of(&lists[1], joint_ft(box, mesh->height_ft)) : -1;
    if (!lay_path(mesh, box, lists))
        return false;
    name_places(mesh, lists, ends);
    return true;
}

void cw_box_mesh_tie(cw_box_mesh *mesh, const cw_struct_box *box, bool tied)
{
    if (box->form != CW_STRUCT_LID)
        return;
    const int walls[2] = {mesh->right.point[mesh->right.count - 1], mesh->left.point[0]};
    const int seats[2] = {mesh->top.point[0], mesh->top.point[mesh->top.count - 1]};
    for (int i = 0; i < 2; i++) {
        cw_frame_point *seat = &mesh->frame.point[seats[i]];
        seat->same_y = walls[i];
        seat->same_x = tied ? walls[i] : -1;
    }
    // A lid that is let go has no sideways load: holding one end takes no force.
    mesh->frame.point[seats[1]].fixed[0] = !tied;
}
