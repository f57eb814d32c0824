/* The area between a dug shape and the ground, exact for polygons, and exact volumes from it. */
#include "trench_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/tolerance.h"

/* ---- shapes ---- */

void cw_trench_layer_slopes(const cw_trench_layer *layers, int count, double depth_ft, bool brief,
                            const cw_rows *rows, double *slopes)
{
    assert(count >= 1 && count <= CW_TRENCH_LAYERS_MAX);
    double below = 0.0;
    for (int i = 0; i < count; i++) {
        // A stronger layer on a weaker one would be undercut by it: it takes the weaker slope.
        below = fmax(below, cw_trench_class_slope(rows, layers[i].soil, depth_ft, brief));
        slopes[i] = below;
    }
}

static void add_point(cw_trench_shape *shape, double offset_ft, double height_ft)
{
    assert(shape->count < CW_TRENCH_FACE_MAX);
    shape->face[shape->count++] = (cw_trench_point){offset_ft, height_ft};
}

cw_trench_shape cw_trench_sloped(double bottom_ft, const cw_trench_layer *layers,
                                 const double *slopes, int count)
{
    assert(count >= 1 && count <= CW_TRENCH_LAYERS_MAX);
    cw_trench_shape shape = {.bottom_ft = bottom_ft, .side_slope = slopes[count - 1]};
    add_point(&shape, 0.0, 0.0);
    for (int i = 0; i + 1 < count; i++) {
        const cw_trench_point last = shape.face[shape.count - 1];
        add_point(&shape, last.offset_ft + slopes[i] * layers[i].thickness_ft,
                  last.height_ft + layers[i].thickness_ft);
    }
    return shape;
}

cw_trench_shape cw_trench_benched(double bottom_ft, double side_slope, double first_ft,
                                  double next_ft, double depth_ft)
{
    assert(first_ft > 0.0 && next_ft > 0.0);
    cw_trench_shape shape = {.bottom_ft = bottom_ft, .side_slope = 0.0};
    add_point(&shape, 0.0, 0.0);
    double height = first_ft;
    while (height < depth_ft && shape.count + 2 < CW_TRENCH_FACE_MAX) {
        add_point(&shape, shape.face[shape.count - 1].offset_ft, height);
        add_point(&shape, side_slope * height, height);
        height += next_ft;
    }
    return shape;
}

cw_trench_shape cw_trench_stepped(double bottom_ft, double vertical_ft, double side_slope)
{
    cw_trench_shape shape = {.bottom_ft = bottom_ft, .side_slope = side_slope};
    add_point(&shape, 0.0, 0.0);
    if (vertical_ft > 0.0)
        add_point(&shape, 0.0, vertical_ft);
    return shape;
}

/* ---- heights ---- */

static double ground_ft(const cw_trench_ground *ground, double offset_ft)
{
    const cw_trench_point *p = ground->points;
    if (offset_ft <= p[0].offset_ft)
        return p[0].height_ft;
    for (int i = 0; i + 1 < ground->count; i++) {
        if (offset_ft > p[i + 1].offset_ft)
            continue;
        const double share = (offset_ft - p[i].offset_ft) / (p[i + 1].offset_ft - p[i].offset_ft);
        return p[i].height_ft + share * (p[i + 1].height_ft - p[i].height_ft);
    }
    return p[ground->count - 1].height_ft;
}

/* Height of the face at @p out_ft from the edge of the bottom; at a vertical part its foot. */
static double face_ft(const cw_trench_shape *shape, double out_ft)
{
    const cw_trench_point *p = shape->face;
    for (int i = 0; i + 1 < shape->count; i++) {
        if (out_ft > p[i + 1].offset_ft || p[i].offset_ft == p[i + 1].offset_ft)
            continue;
        const double share = (out_ft - p[i].offset_ft) / (p[i + 1].offset_ft - p[i].offset_ft);
        return p[i].height_ft + share * (p[i + 1].height_ft - p[i].height_ft);
    }
    const cw_trench_point last = p[shape->count - 1];
    if (shape->side_slope <= 0.0)
        return last.height_ft;
    return last.height_ft + (out_ft - last.offset_ft) / shape->side_slope;
}

static double shape_ft(const cw_trench_shape *shape, double offset_ft)
{
    const double out = fabs(offset_ft) - shape->bottom_ft / 2.0;
    return out <= 0.0 ? 0.0 : face_ft(shape, out);
}

/* ---- where a face meets the ground ---- */

/* One side: offsets counted outward from the edge of the bottom. */
typedef struct side {
    const cw_trench_shape *shape;
    const cw_trench_ground *ground;
    double sign; /* +1 right, -1 left */
} side;

static double side_ground_ft(const side *s, double out_ft)
{
    return ground_ft(s->ground, s->sign * (s->shape->bottom_ft / 2.0 + out_ft));
}

/* The next offset past @p out_ft at which the ground bends, or @p far_ft. */
static double next_bend_ft(const side *s, double out_ft, double far_ft)
{
    double next = far_ft;
    for (int i = 0; i < s->ground->count; i++) {
        const double out = s->sign * s->ground->points[i].offset_ft - s->shape->bottom_ft / 2.0;
        if (out > out_ft && out < next)
            next = out;
    }
    return next;
}

/* Along one straight part of the face from @p a to @p b: true when the ground meets it, at *out_ft.
 */
static bool meets_between(const side *s, cw_trench_point a, cw_trench_point b, double *out_ft)
{
    const double rate = (b.height_ft - a.height_ft) / (b.offset_ft - a.offset_ft);
    double from = a.offset_ft, over = side_ground_ft(s, from) - a.height_ft;
    for (int turn = 0; turn <= s->ground->count; turn++) {
        const double to = next_bend_ft(s, from, b.offset_ft);
        const double over_to = side_ground_ft(s, to) - (a.height_ft + rate * (to - a.offset_ft));
        if (over_to < 0.0 || (over_to == 0.0 && to < b.offset_ft)) {
            *out_ft = over > 0.0 ? from + (to - from) * over / (over - over_to) : from;
            return true;
        }
        if (to >= b.offset_ft)
            return false;
        from = to;
        over = over_to;
    }
    return false;
}

/* Past the last point: the ground is level beyond its ends, so a face that rises meets it. */
static double meet_beyond(const side *s)
{
    const cw_trench_point last = s->shape->face[s->shape->count - 1];
    const double z = s->shape->side_slope;
    if (z <= 0.0)
        return last.offset_ft;
    double highest = last.height_ft, far = last.offset_ft;
    for (int i = 0; i < s->ground->count; i++) {
        highest = fmax(highest, s->ground->points[i].height_ft);
        far = fmax(far, s->sign * s->ground->points[i].offset_ft - s->shape->bottom_ft / 2.0);
    }
    // One foot more, so that the face ends above the ground and the two cross.
    const double end = fmax(far, last.offset_ft + z * (highest - last.height_ft)) + z;
    const cw_trench_point top = {end, last.height_ft + (end - last.offset_ft) / z};
    double out = last.offset_ft;
    const bool met = meets_between(s, last, top, &out);
    assert(met);
    (void)met;
    return out;
}

static double edge_out_ft(const side *s)
{
    if (side_ground_ft(s, 0.0) <= 0.0)
        return 0.0;
    const cw_trench_point *p = s->shape->face;
    for (int i = 0; i + 1 < s->shape->count; i++) {
        double out = 0.0;
        if (p[i].offset_ft < p[i + 1].offset_ft) {
            if (meets_between(s, p[i], p[i + 1], &out))
                return out;
        } else if (side_ground_ft(s, p[i].offset_ft) <= p[i + 1].height_ft) {
            return p[i].offset_ft;
        }
    }
    return meet_beyond(s);
}

/* ---- area ---- */

/* The next offset past @p from_ft at which shape or ground bends, or @p far_ft. */
static double next_break_ft(const cw_trench_shape *shape, const cw_trench_ground *ground,
                            double from_ft, double far_ft)
{
    double next = far_ft;
    for (int i = 0; i < ground->count; i++)
        if (ground->points[i].offset_ft > from_ft && ground->points[i].offset_ft < next)
            next = ground->points[i].offset_ft;
    for (int i = 0; i < shape->count; i++) {
        const double out = shape->bottom_ft / 2.0 + shape->face[i].offset_ft;
        if (out > from_ft && out < next)
            next = out;
        if (-out > from_ft && -out < next)
            next = -out;
    }
    return next;
}

/* Positive part of a straight line from @p a to @p b over @p width_ft. */
static double positive_sqft(double a, double b, double width_ft)
{
    if (a >= 0.0 && b >= 0.0)
        return width_ft * (a + b) / 2.0;
    if (a <= 0.0 && b <= 0.0)
        return 0.0;
    const double high = fmax(a, b), low = fmin(a, b);
    return width_ft * high * high / (high - low) / 2.0;
}

static double area_between(const cw_trench_shape *shape, const cw_trench_ground *ground,
                           double left_ft, double right_ft)
{
    double area = 0.0, from = left_ft;
    const int most = ground->count + 2 * shape->count + 2;
    for (int i = 0; i < most && from < right_ft; i++) {
        const double to = next_break_ft(shape, ground, from, right_ft), width = to - from;
        // Quarter points: at the ends themselves the face may be vertical.
        const double x1 = from + 0.25 * width, x3 = from + 0.75 * width;
        const double v1 = ground_ft(ground, x1) - shape_ft(shape, x1);
        const double v3 = ground_ft(ground, x3) - shape_ft(shape, x3);
        const double half = (v3 - v1) / 2.0;
        area += positive_sqft(v1 - half, v3 + half, width);
        from = to;
    }
    return area;
}

static bool ground_below(const cw_trench_shape *shape, const cw_trench_ground *ground)
{
    const double half = shape->bottom_ft / 2.0;
    if (ground_ft(ground, -half) < 0.0 || ground_ft(ground, half) < 0.0)
        return true;
    for (int i = 0; i < ground->count; i++)
        if (fabs(ground->points[i].offset_ft) < half && ground->points[i].height_ft < 0.0)
            return true;
    return false;
}

cw_trench_cut cw_trench_cut_of(const cw_trench_shape *shape, const cw_trench_ground *ground)
{
    assert(shape->count >= 1 && ground->count >= 1);
    const side left = {shape, ground, -1.0}, right = {shape, ground, 1.0};
    cw_trench_cut cut = {.left_ft = shape->bottom_ft / 2.0 + edge_out_ft(&left),
                         .right_ft = shape->bottom_ft / 2.0 + edge_out_ft(&right),
                         .filled = ground_below(shape, ground)};
    cut.left_height_ft = ground_ft(ground, -cut.left_ft);
    cut.right_height_ft = ground_ft(ground, cut.right_ft);
    cut.area_sqft = area_between(shape, ground, -cut.left_ft, cut.right_ft);
    return cut;
}

/* No face runs farther out under this plane: u <= o + z (D + s (b/2 + u)). */
static double plane_reach_ft(const cw_trench_shape *shape, double depth_ft, double cross_fall)
{
    const cw_trench_point last = shape->face[shape->count - 1];
    const double z = shape->side_slope, s = fabs(cross_fall), half = shape->bottom_ft / 2.0;
    assert(s * z < 1.0);
    return half + (last.offset_ft + z * (fmax(depth_ft, 0.0) + s * half)) / (1.0 - s * z) + 1.0;
}

cw_trench_cut cw_trench_cut_plane(const cw_trench_shape *shape, double depth_ft, double cross_fall)
{
    const double reach = plane_reach_ft(shape, depth_ft, cross_fall);
    const cw_trench_ground plane = {.count = 2,
                                    .points = {{-reach, depth_ft - cross_fall * reach},
                                               {reach, depth_ft + cross_fall * reach}}};
    return cw_trench_cut_of(shape, &plane);
}

/* ---- volume ---- */

double cw_trench_average_cuft(double length_ft, double area_1_sqft, double area_2_sqft)
{
    return length_ft * (area_1_sqft + area_2_sqft) / 2.0;
}

double cw_trench_prismoid_cuft(double length_ft, double area_1_sqft, double middle_sqft,
                               double area_2_sqft)
{
    return length_ft * (area_1_sqft + 4.0 * middle_sqft + area_2_sqft) / 6.0;
}

/* The next depth past @p from_ft at which an edge of the cut passes a corner of the face. */
static double next_corner_ft(const cw_trench_shape *shape, double cross_fall, double from_ft,
                             double far_ft)
{
    double next = far_ft;
    for (int i = 0; i < shape->count; i++) {
        const double lean = cross_fall * (shape->bottom_ft / 2.0 + shape->face[i].offset_ft);
        const double depths[2] = {shape->face[i].height_ft - lean, shape->face[i].height_ft + lean};
        for (int k = 0; k < 2; k++)
            if (depths[k] > from_ft && depths[k] < next)
                next = depths[k];
    }
    return next;
}

double cw_trench_prism_cuft(const cw_trench_shape *shape, double cross_fall, double depth_1_ft,
                            double depth_2_ft, double length_ft)
{
    const double low = fmin(depth_1_ft, depth_2_ft), high = fmax(depth_1_ft, depth_2_ft);
    if (high - low <= CW_SAME_PLACE_FT)
        return length_ft * cw_trench_cut_plane(shape, (low + high) / 2.0, cross_fall).area_sqft;
    // Between corners the area is a quadratic of the depth, for which two Gauss points are exact.
    // They lie inside: at a corner of a bench under rising ground the area itself jumps.
    static const double gauss = 0.28867513459481287; // 1/(2 sqrt 3)
    double volume = 0.0, from = low;
    for (int i = 0; i <= 2 * shape->count && from < high; i++) {
        const double to = next_corner_ft(shape, cross_fall, from, high);
        const double middle = (from + to) / 2.0, off = gauss * (to - from);
        const double areas = cw_trench_cut_plane(shape, middle - off, cross_fall).area_sqft +
                             cw_trench_cut_plane(shape, middle + off, cross_fall).area_sqft;
        volume += length_ft * (to - from) / (high - low) * areas / 2.0;
        from = to;
    }
    return volume;
}

double cw_trench_end_cuft(double bottom_ft, double side_slope, double end_slope, double depth_ft)
{
    // derived: wedge over the bottom edge, and one pyramid at each corner
    const double d2 = depth_ft * depth_ft;
    return end_slope * (bottom_ft * d2 / 2.0 + 2.0 / 3.0 * side_slope * d2 * depth_ft);
}

double cw_trench_ramp_cuft(double width_ft, double side_slope, double ramp_slope, double depth_ft)
{
    // derived: integral of b d + z d^2 while d falls evenly from D to 0
    const double d2 = depth_ft * depth_ft;
    return ramp_slope * (width_ft * d2 / 2.0 + side_slope * d2 * depth_ft / 3.0);
}

/* ---- under a level plane ---- */

/* Of the strip between point i of the face and the next one, or the slope above the last, as far as
 * @p height_ft. */
static double strip_top_ft(const cw_trench_shape *shape, int i, double height_ft, double *offset_ft)
{
    const cw_trench_point from = shape->face[i];
    const bool last = i + 1 == shape->count;
    const double top = last ? height_ft : fmin(height_ft, shape->face[i + 1].height_ft);
    const double rise = last ? 0.0 : shape->face[i + 1].height_ft - from.height_ft;
    const double slope = last         ? shape->side_slope
                         : rise > 0.0 ? (shape->face[i + 1].offset_ft - from.offset_ft) / rise
                                      : 0.0;
    *offset_ft = from.offset_ft + slope * (top - from.height_ft);
    return top;
}

double cw_trench_level_half_ft(const cw_trench_shape *shape, double height_ft)
{
    double offset = 0.0;
    for (int i = 0; i < shape->count && shape->face[i].height_ft <= height_ft; i++)
        strip_top_ft(shape, i, height_ft, &offset);
    return shape->bottom_ft / 2.0 + offset;
}

double cw_trench_level_sqft(const cw_trench_shape *shape, double height_ft)
{
    double area = shape->bottom_ft * fmax(0.0, height_ft), offset;
    for (int i = 0; i < shape->count && shape->face[i].height_ft < height_ft; i++) {
        const double top = strip_top_ft(shape, i, height_ft, &offset);
        area +=
            (shape->face[i].offset_ft + offset) * (top - shape->face[i].height_ft); // both sides
    }
    return area;
}
