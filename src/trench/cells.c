/* The planes of a cut, each with the part of the plan in which it is the bottom of the cut. */
#include <assert.h>
#include <math.h>

#include "clip.h"
#include "cw/units.h"

void leg_place(const cw_earthwork_leg *leg, double e, double n, double *along, double *right)
{
    const double azimuth = leg->azimuth_deg * CW_RAD_PER_DEG;
    const double de = e - leg->east_ft, dn = n - leg->north_ft;
    *along = leg->from_ft + de * sin(azimuth) + dn * cos(azimuth);
    *right = de * cos(azimuth) - dn * sin(azimuth);
}

/* One leg while its cells are laid. */
typedef struct layer {
    const cw_earthwork_cut *cut;
    const cw_earthwork_leg *leg;
    int number;
    cut_cells *cells;
    half_plane along[2]; /* where the leg begins and ends */
} layer;

/* u along + v right <= w */
static half_plane bound(const layer *l, double u, double v, double w, int line)
{
    const double azimuth = l->leg->azimuth_deg * CW_RAD_PER_DEG;
    const double a = u * sin(azimuth) + v * cos(azimuth), b = u * cos(azimuth) - v * sin(azimuth);
    const double c = w - u * l->leg->from_ft + a * l->leg->east_ft + b * l->leg->north_ft;
    const double size = hypot(a, b);
    return (half_plane){a / size, b / size, c / size, line};
}

/* z = base + u along + v right */
static cut_plane plane(const layer *l, double base, double u, double v)
{
    const double azimuth = l->leg->azimuth_deg * CW_RAD_PER_DEG;
    const double a = u * sin(azimuth) + v * cos(azimuth), b = u * cos(azimuth) - v * sin(azimuth);
    return (cut_plane){base + u * l->leg->from_ft - a * l->leg->east_ft - b * l->leg->north_ft, a, b};
}

/* Height of the bottom where the distance along the run is 0. */
static double bottom_base(const cw_earthwork_cut *cut)
{
    return cut->bottom_elev_ft - cut->grade * cut->legs[0].from_ft;
}

/* Numbers of lines: one for each offset of a corner of the face on each side, leg and zone, then
 * those across. */
enum { ZONES = 3, SIDES = 2, PER_ZONE = SIDES * CW_TRENCH_FACE_MAX };

static int offset_line(const layer *l, int zone, int side, int corner)
{
    const cw_trench_point *face = l->cut->shape.face;
    while (corner > 0 && face[corner - 1].offset_ft == face[corner].offset_ft)
        corner--;
    return ((l->number * ZONES + zone) * SIDES + side) * CW_TRENCH_FACE_MAX + corner;
}

static int other_line(int index)
{
    return CW_EARTHWORK_LEGS_MAX * ZONES * PER_ZONE + index;
}

static int hip_line(int end, int side, int corner)
{
    return other_line(CW_EARTHWORK_LEGS_MAX + 2 + (end * SIDES + side) * CW_TRENCH_FACE_MAX + corner);
}

/* A straight part of the face: from its corner outward. */
typedef struct strip {
    int corner;
    double from_ft, to_ft, height_ft, rate; /* offsets from the edge; rise per foot outward */
    bool open;                              /* has no outer end */
} strip;

static int strips_of(const cw_trench_shape *shape, strip *strips)
{
    int count = 0;
    for (int i = 0; i + 1 < shape->count; i++) {
        const cw_trench_point a = shape->face[i], b = shape->face[i + 1];
        if (b.offset_ft > a.offset_ft)
            strips[count++] = (strip){i, a.offset_ft, b.offset_ft, a.height_ft,
                                      (b.height_ft - a.height_ft) / (b.offset_ft - a.offset_ft), false};
    }
    const cw_trench_point last = shape->face[shape->count - 1];
    if (shape->side_slope > 0.0)
        strips[count++] = (strip){shape->count - 1, last.offset_ft, 0.0, last.height_ft,
                                  1.0 / shape->side_slope, true};
    return count;
}

static cut_cell *add_cell(const layer *l, int zone)
{
    cut_cell *cell = &l->cells->items[l->cells->count++];
    *cell = (cut_cell){.leg = l->number,
                       .zone = zone,
                       .bottom = plane(l, bottom_base(l->cut), l->cut->grade, 0.0)};
    return cell;
}

static void add_bound(cut_cell *cell, half_plane by)
{
    assert(cell->bound_count < CELL_BOUNDS_MAX);
    cell->bounds[cell->bound_count++] = by;
}

/* Both sides of a strip, offsets counted from @p half_ft. */
static void bound_across(const layer *l, cut_cell *cell, const strip *s, int side, double half_ft)
{
    const double sign = side == 0 ? -1.0 : 1.0;
    add_bound(cell, bound(l, 0.0, -sign, -(half_ft + s->from_ft),
                          offset_line(l, cell->zone, side, s->corner)));
    if (!s->open)
        add_bound(cell, bound(l, 0.0, sign, half_ft + s->to_ft,
                              offset_line(l, cell->zone, side, s->corner + 1)));
}

/* The bottom and its faces: @p base and @p grade of the bottom, @p width_ft wide, within @p within. */
static void lay_trough(const layer *l, int zone, double base, double grade, double width_ft,
                       const half_plane *within)
{
    strip strips[CW_TRENCH_FACE_MAX];
    const int count = strips_of(&l->cut->shape, strips);
    const double half_ft = width_ft / 2.0;
    cut_cell *floor = add_cell(l, zone);
    floor->is_floor = zone == 0;
    floor->cut = plane(l, base, grade, 0.0);
    for (int side = 0; side < SIDES; side++)
        add_bound(floor, bound(l, 0.0, side == 0 ? -1.0 : 1.0, half_ft, offset_line(l, zone, side, 0)));
    for (int i = 0; i < 2; i++)
        add_bound(floor, within[i]);
    for (int k = 0; k < count; k++)
        for (int side = 0; side < SIDES; side++) {
            const strip *s = &strips[k];
            const double sign = side == 0 ? -1.0 : 1.0;
            cut_cell *cell = add_cell(l, zone);
            cell->cut = plane(l, base + s->height_ft - s->rate * (half_ft + s->from_ft), grade,
                              sign * s->rate);
            bound_across(l, cell, s, side, half_ft);
            for (int i = 0; i < 2; i++)
                add_bound(cell, within[i]);
        }
}

/* A plane from the edge of the bottom; where a face stands higher, the face. */
static void lay_slope(const layer *l, int end, const half_plane *within)
{
    const cw_earthwork_cut *cut = l->cut;
    const double sign_along = end == 0 ? -1.0 : 1.0;
    const double edge_ft = end == 0 ? l->leg->from_ft : l->leg->to_ft;
    const double base = bottom_base(cut), rate = sign_along / cut->ends[end].slope;
    const double end_base = base + cut->grade * edge_ft - rate * edge_ft;
    const int zone = end + 1;
    strip strips[CW_TRENCH_FACE_MAX];
    const int count = strips_of(&cut->shape, strips);
    const double half_ft = cut->shape.bottom_ft / 2.0;
    cut_cell *middle = add_cell(l, zone);
    middle->cut = plane(l, end_base, rate, 0.0);
    for (int side = 0; side < SIDES; side++)
        add_bound(middle, bound(l, 0.0, side == 0 ? -1.0 : 1.0, half_ft, offset_line(l, zone, side, 0)));
    for (int i = 0; i < 2; i++)
        add_bound(middle, within[i]);
    for (int k = 0; k < count; k++)
        for (int side = 0; side < SIDES; side++) {
            const strip *s = &strips[k];
            const double out = side == 0 ? -s->rate : s->rate;
            const double face_base = base + s->height_ft - s->rate * (half_ft + s->from_ft);
            const int line = hip_line(end, side, s->corner);
            for (int face = 0; face < 2; face++) {
                // The hip: face and end plane are level there.
                const double turn = face ? -1.0 : 1.0;
                cut_cell *cell = add_cell(l, zone);
                cell->cut = face ? plane(l, face_base, cut->grade, out) : plane(l, end_base, rate, 0.0);
                bound_across(l, cell, s, side, half_ft);
                add_bound(cell, bound(l, turn * (cut->grade - rate), turn * out,
                                      turn * (end_base - face_base), line));
                for (int i = 0; i < 2; i++)
                    add_bound(cell, within[i]);
            }
        }
}

static void lay_end(const layer *l, int end)
{
    const cw_earthwork_end *e = &l->cut->ends[end];
    if (e->kind == CW_END_VERTICAL)
        return;
    // Beyond the edge of the bottom, and before the bend at the leg's other end.
    half_plane within[2] = {l->along[0], l->along[1]};
    within[end].a = -within[end].a;
    within[end].b = -within[end].b;
    within[end].c = -within[end].c;
    if (e->kind == CW_END_SLOPED) {
        lay_slope(l, end, within);
        return;
    }
    const double edge_ft = end == 0 ? l->leg->from_ft : l->leg->to_ft;
    const double rate = (end == 0 ? -1.0 : 1.0) / e->slope;
    const double at_edge = bottom_base(l->cut) + l->cut->grade * edge_ft;
    lay_trough(l, end + 1, at_edge - rate * edge_ft, rate, e->width_ft, within);
}

/* The bisector of a bend, kept on the side of the leg before it. */
static half_plane mitre(const cw_earthwork_cut *cut, int before)
{
    const cw_earthwork_leg *a = &cut->legs[before], *b = &cut->legs[before + 1];
    const double one = a->azimuth_deg * CW_RAD_PER_DEG, two = b->azimuth_deg * CW_RAD_PER_DEG;
    const double u = sin(one) + sin(two), v = cos(one) + cos(two), size = hypot(u, v);
    return (half_plane){u / size, v / size, (u * b->east_ft + v * b->north_ft) / size,
                        other_line(before)};
}

/* How far a face runs out under ground as high as @p rise_ft over the lowest bottom. */
static double face_reach_ft(const cw_earthwork_cut *cut, double rise_ft)
{
    const cw_trench_point last = cut->shape.face[cut->shape.count - 1];
    double reach = last.offset_ft + cut->shape.side_slope * fmax(0.0, rise_ft - last.height_ft);
    for (int i = 0; i < 2; i++)
        if (cut->ends[i].kind != CW_END_VERTICAL)
            reach = fmax(reach, cut->ends[i].slope * rise_ft + cut->ends[i].width_ft);
    return reach + cut->shape.bottom_ft;
}

cut_cells cells_of(const cw_earthwork_cut *cut, double highest_ft, double *reach_ft, cw_arena *arena)
{
    const int per_trough = 1 + SIDES * CW_TRENCH_FACE_MAX;
    cut_cells cells = {CW_TAKE(arena, cut_cell, (cut->leg_count + 4) * per_trough), 0};
    const cw_earthwork_leg *last = &cut->legs[cut->leg_count - 1];
    const double fall_ft = fabs(cut->grade) * (last->to_ft - cut->legs[0].from_ft);
    // A side face falls with the grade on past the end of the bottom; twice that is kept.
    const double rise_ft = fmax(0.0, highest_ft - cut->bottom_elev_ft) + 2.0 * fall_ft;
    *reach_ft = face_reach_ft(cut, rise_ft * (1.0 + 2.0 * fabs(cut->grade)));
    for (int i = 0; i < cut->leg_count; i++) {
        layer l = {.cut = cut, .leg = &cut->legs[i], .number = i, .cells = &cells};
        if (i > 0) {
            l.along[0] = mitre(cut, i - 1);
            l.along[0].a = -l.along[0].a;
            l.along[0].b = -l.along[0].b;
            l.along[0].c = -l.along[0].c;
        } else {
            l.along[0] = bound(&l, -1.0, 0.0, -l.leg->from_ft, other_line(CW_EARTHWORK_LEGS_MAX));
        }
        l.along[1] = i + 1 < cut->leg_count
                         ? mitre(cut, i)
                         : bound(&l, 1.0, 0.0, l.leg->to_ft, other_line(CW_EARTHWORK_LEGS_MAX + 1));
        lay_trough(&l, 0, bottom_base(cut), cut->grade, cut->shape.bottom_ft, l.along);
        if (i == 0)
            lay_end(&l, 0);
        if (i + 1 == cut->leg_count)
            lay_end(&l, 1);
    }
    return cells;
}
