/* The three views of a cast piece: outlines, tongue and groove, openings. */
#include <math.h>

#include "cw/units.h"
#include "draw_internal.h"

cw_xy draw_mark_end(const draw_mark *m, double x_in, double z_in)
{
    return (cw_xy){m->end_at.x + x_in, m->end_at.y + z_in};
}

cw_xy draw_mark_side(const draw_mark *m, double y_in, double z_in)
{
    return (cw_xy){m->side_at.x + y_in, m->side_at.y + z_in};
}

cw_xy draw_mark_plan(const draw_mark *m, double y_in, double x_in)
{
    return (cw_xy){m->plan_at.x + y_in, m->plan_at.y - x_in};
}

double draw_mark_face(const draw_mark *m, bool upstream, double x_in)
{
    return (upstream ? m->shape->length_in : 0) + x_in * draw_face_tan(m->shape, upstream);
}

/* ---- the lap of the joint ---- */

/* The half of the section that tongue and groove take is the inner one: the outer half laps
 * outside. Shown as assumed; the share of the area is taken as the share of the thickness. */
typedef struct lap {
    double run_in;          /* along the run, outward positive: tongue; inward negative: groove */
    double half_in;         /* of the inner part's width */
    double low_in, high_in; /* of its height */
} lap;

static bool is_open_down(const cw_piece_shape *shape)
{
    return shape->part == CW_PART_LID || shape->part == CW_PART_HOOD;
}

static bool lap_of(const draw_mark *m, bool upstream, lap *out)
{
    const cw_piece_shape *s = m->shape;
    const int joint = upstream ? s->upstream.joint : s->downstream.joint;
    if (joint == CW_JOINT_PLAIN)
        return false;
    const bool tongue = joint == CW_JOINT_TONGUE;
    const double share = tongue ? s->tongue_share : s->groove_share;
    out->run_in = tongue ? s->tongue_in : -s->groove_in;
    out->half_in = s->part == CW_PART_LID ? m->width_in / 2 : s->span_in / 2 + share * s->wall_in;
    out->low_in = is_open_down(s) ? 0 : s->slab_in * (1 - share);
    out->high_in = m->height_in;
    if (is_open_down(s))
        out->high_in = s->leg_in + s->slab_in * share;
    else if (s->part == CW_PART_RING)
        out->high_in = m->height_in - s->top_slab_in * (1 - share);
    return true;
}

/* ---- end view, looking upstream ---- */

static int base_outline(const draw_mark *m, cw_xy points[10])
{
    const cw_piece_shape *s = m->shape;
    const double half = s->span_in / 2, out = m->width_in / 2, h = s->haunch_in, f = s->slab_in,
                 top = m->height_in;
    const double xz[10][2] = {{-out, 0},     {out, 0},      {out, top},     {half, top},
                              {half, f + h}, {half - h, f}, {-half + h, f}, {-half, f + h},
                              {-half, top},  {-out, top}};
    for (int i = 0; i < 10; i++)
        points[i] = draw_mark_end(m, xz[i][0], xz[i][1]);
    return 10;
}

static int hood_outline(const draw_mark *m, cw_xy points[10])
{
    const cw_piece_shape *s = m->shape;
    const double half = s->span_in / 2, out = m->width_in / 2, h = s->haunch_in, soffit = s->leg_in,
                 top = m->height_in;
    const double xz[10][2] = {{-out, 0},           {-half, 0},         {-half, soffit - h},
                              {-half + h, soffit}, {half - h, soffit}, {half, soffit - h},
                              {half, 0},           {out, 0},           {out, top},
                              {-out, top}};
    for (int i = 0; i < 10; i++)
        points[i] = draw_mark_end(m, xz[i][0], xz[i][1]);
    return 10;
}

static void ring_outline(draw_mark *m)
{
    const cw_piece_shape *s = m->shape;
    const double half = s->span_in / 2, out = m->width_in / 2, low = s->haunch_in,
                 high = s->top_haunch_in;
    const double f = s->slab_in, soffit = f + s->leg_in;
    const cw_xy outer[] = {draw_mark_end(m, -out, 0), draw_mark_end(m, out, 0),
                           draw_mark_end(m, out, m->height_in),
                           draw_mark_end(m, -out, m->height_in)};
    const double xz[8][2] = {{-half + low, f},       {half - low, f},       {half, f + low},
                             {half, soffit - high},  {half - high, soffit}, {-half + high, soffit},
                             {-half, soffit - high}, {-half, f + low}};
    cw_xy inner[8];
    for (int i = 0; i < 8; i++)
        inner[i] = draw_mark_end(m, xz[i][0], xz[i][1]);
    const cw_draw_ring rings[] = {{outer, 4}, {inner, 8}};
    cw_draw_region(m->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, rings, 2, true);
}

/* The line between the halves of the joint on the downstream end. */
static void end_lap(draw_mark *m)
{
    lap l;
    if (!lap_of(m, false, &l))
        return;
    const double bottom = is_open_down(m->shape) ? l.high_in : l.low_in;
    if (m->shape->part == CW_PART_LID) {
        cw_draw_line(m->drawing, CW_LAYER_RULE, draw_mark_end(m, -l.half_in, bottom),
                     draw_mark_end(m, l.half_in, bottom));
        return;
    }
    const double free_edge = is_open_down(m->shape) ? 0 : l.high_in;
    const cw_xy points[] = {
        draw_mark_end(m, -l.half_in, free_edge), draw_mark_end(m, -l.half_in, bottom),
        draw_mark_end(m, l.half_in, bottom), draw_mark_end(m, l.half_in, free_edge),
        draw_mark_end(m, -l.half_in, free_edge)};
    cw_draw_polyline(m->drawing, CW_LAYER_RULE, points, m->shape->part == CW_PART_RING ? 5 : 4);
}

static void end_hole(draw_mark *m, const cw_piece_opening *hole)
{
    const cw_piece_shape *s = m->shape;
    const bool wall = hole->face == CW_HOLE_LEFT || hole->face == CW_HOLE_RIGHT;
    const double half = (hole->is_round ? hole->diameter_in : hole->tall_in) / 2;
    for (int side = -1; side <= 1; side += 2) {
        if (wall) {
            const double z = fmin(fmax(hole->z_in + side * half, 0), m->height_in),
                         way = hole->face == CW_HOLE_LEFT ? -1 : 1;
            cw_draw_line(m->drawing, CW_LAYER_HIDDEN, draw_mark_end(m, way * s->span_in / 2, z),
                         draw_mark_end(m, way * m->width_in / 2, z));
        } else {
            const bool floor = hole->face == CW_HOLE_FLOOR;
            const double low =
                floor ? 0 : m->height_in - (s->part == CW_PART_RING ? s->top_slab_in : s->slab_in);
            const double high = floor ? s->slab_in : m->height_in, x = hole->x_in + side * half;
            cw_draw_line(m->drawing, CW_LAYER_HIDDEN, draw_mark_end(m, x, low),
                         draw_mark_end(m, x, high));
        }
    }
}

static void end_view(draw_mark *m)
{
    cw_xy points[10];
    int count = 0;
    if (m->shape->part == CW_PART_RING)
        ring_outline(m);
    else if (m->shape->part == CW_PART_LID)
        cw_draw_rectangle(m->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE,
                          draw_mark_end(m, -m->width_in / 2, 0),
                          draw_mark_end(m, m->width_in / 2, m->height_in));
    else
        count = m->shape->part == CW_PART_HOOD ? hood_outline(m, points) : base_outline(m, points);
    if (count > 0)
        cw_draw_polygon(m->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, points, count);
    end_lap(m);
    for (int i = 0; i < m->shape->opening_count; i++)
        end_hole(m, &m->shape->openings[i]);
}

/* ---- side view, from the right ---- */

static void side_lap(draw_mark *m, bool upstream)
{
    lap l;
    if (!lap_of(m, upstream, &l))
        return;
    const double face = draw_mark_face(m, upstream, m->width_in / 2), out = upstream ? 1 : -1,
                 end = face + out * l.run_in;
    const cw_xy a = draw_mark_side(m, face, l.low_in), b = draw_mark_side(m, end, l.low_in),
                c = draw_mark_side(m, end, l.high_in), e = draw_mark_side(m, face, l.high_in);
    if (l.run_in > 0) {
        cw_draw_polygon(m->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, (cw_xy[]){a, b, c, e}, 4);
    } else if (m->shape->part == CW_PART_LID) {
        /* The slab is cut through its whole width, so the notch is seen. */
        cw_draw_polygon(m->drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, (cw_xy[]){a, b, c, e}, 4);
    } else {
        const bool down = is_open_down(m->shape);
        const cw_xy points[] = {down ? b : c, down ? c : b, down ? e : a};
        cw_draw_polyline(m->drawing, CW_LAYER_HIDDEN, points, 3);
    }
}

static void side_hole(draw_mark *m, const cw_piece_opening *hole)
{
    const bool wall = hole->face == CW_HOLE_LEFT || hole->face == CW_HOLE_RIGHT;
    const double half = (hole->is_round ? hole->diameter_in : hole->width_in) / 2;
    if (!wall) {
        const bool floor = hole->face == CW_HOLE_FLOOR;
        const double low =
            floor ? 0
                  : m->height_in - (m->shape->part == CW_PART_RING ? m->shape->top_slab_in
                                                                   : m->shape->slab_in);
        const double high = floor ? m->shape->slab_in : m->height_in;
        for (int side = -1; side <= 1; side += 2)
            cw_draw_line(m->drawing, CW_LAYER_HIDDEN,
                         draw_mark_side(m, hole->y_in + side * half, low),
                         draw_mark_side(m, hole->y_in + side * half, high));
        return;
    }
    const cw_layer layer = hole->face == CW_HOLE_RIGHT ? CW_LAYER_OUTLINE : CW_LAYER_HIDDEN;
    const cw_fill fill = hole->face == CW_HOLE_RIGHT ? CW_FILL_WHITE : CW_FILL_NONE;
    if (hole->is_round) {
        /* Only the part that lies in this piece. */
        enum { PARTS = 48 };
        cw_xy points[PARTS];
        for (int i = 0; i < PARTS; i++) {
            const double angle = 2 * CW_PI * i / PARTS;
            points[i] = draw_mark_side(m, hole->y_in + half * cos(angle),
                                       fmin(fmax(hole->z_in + half * sin(angle), 0), m->height_in));
        }
        cw_draw_polygon(m->drawing, layer, fill, points, PARTS);
    } else {
        const double low = fmax(hole->z_in - hole->tall_in / 2, 0),
                     high = fmin(hole->z_in + hole->tall_in / 2, m->height_in);
        cw_draw_rectangle(m->drawing, layer, fill, draw_mark_side(m, hole->y_in - half, low),
                          draw_mark_side(m, hole->y_in + half, high));
    }
}

static void side_view(draw_mark *m)
{
    const cw_piece_shape *s = m->shape;
    side_lap(m, false);
    side_lap(m, true);
    /* The far wall first: where a cut makes it longer it stands out behind the near one. */
    for (int side = -1; side <= 1; side += 2) {
        const double x = side * m->width_in / 2;
        cw_draw_rectangle(m->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE,
                          draw_mark_side(m, draw_mark_face(m, false, x), 0),
                          draw_mark_side(m, draw_mark_face(m, true, x), m->height_in));
    }
    lap l;
    for (int up = 0; up < 2; up++)
        if (lap_of(m, up, &l) && l.run_in < 0)
            side_lap(m, up);
    const double x = m->width_in / 2, from = draw_mark_face(m, false, x),
                 to = draw_mark_face(m, true, x);
    if (s->part != CW_PART_LID) {
        const double inside = s->part == CW_PART_HOOD ? s->leg_in : s->slab_in;
        cw_draw_line(m->drawing, CW_LAYER_HIDDEN, draw_mark_side(m, from, inside),
                     draw_mark_side(m, to, inside));
    }
    if (s->part == CW_PART_RING)
        cw_draw_line(m->drawing, CW_LAYER_HIDDEN, draw_mark_side(m, from, s->slab_in + s->leg_in),
                     draw_mark_side(m, to, s->slab_in + s->leg_in));
    for (int i = 0; i < s->opening_count; i++)
        side_hole(m, &s->openings[i]);
}

/* ---- plan ---- */

static void plan_strip(draw_mark *m, cw_layer layer, cw_fill fill, double half_in,
                       double shifts_in[2], const bool upstream[2])
{
    const cw_xy points[] = {
        draw_mark_plan(m, draw_mark_face(m, upstream[0], -half_in) + shifts_in[0], -half_in),
        draw_mark_plan(m, draw_mark_face(m, upstream[1], -half_in) + shifts_in[1], -half_in),
        draw_mark_plan(m, draw_mark_face(m, upstream[1], half_in) + shifts_in[1], half_in),
        draw_mark_plan(m, draw_mark_face(m, upstream[0], half_in) + shifts_in[0], half_in)};
    cw_draw_polygon(m->drawing, layer, fill, points, 4);
}

static void plan_lap(draw_mark *m, bool upstream, bool tongue)
{
    lap l;
    if (!lap_of(m, upstream, &l) || (l.run_in > 0) != tongue)
        return;
    const double reach = (upstream ? 1 : -1) * l.run_in;
    double shifts[2] = {0, reach};
    const bool both[2] = {upstream, upstream};
    /* From above a base's or ring's groove opens to the eye (a ring's does not); a lid's and a
     * hood's lies below. */
    const cw_layer layer = tongue                           ? CW_LAYER_OUTLINE
                           : m->shape->part == CW_PART_BASE ? CW_LAYER_OUTLINE
                                                            : CW_LAYER_HIDDEN;
    plan_strip(m, layer, tongue ? CW_FILL_CONCRETE : CW_FILL_NONE, l.half_in, shifts, both);
}

static void plan_line(draw_mark *m, cw_layer layer, double x_in)
{
    cw_draw_line(m->drawing, layer, draw_mark_plan(m, draw_mark_face(m, false, x_in), x_in),
                 draw_mark_plan(m, draw_mark_face(m, true, x_in), x_in));
}

static void plan_hole(draw_mark *m, const cw_piece_opening *hole)
{
    const bool wall = hole->face == CW_HOLE_LEFT || hole->face == CW_HOLE_RIGHT;
    const double half = (hole->is_round ? hole->diameter_in : hole->width_in) / 2;
    if (wall) {
        const double way = hole->face == CW_HOLE_LEFT ? -1 : 1;
        for (int side = -1; side <= 1; side += 2)
            cw_draw_line(m->drawing, CW_LAYER_HIDDEN,
                         draw_mark_plan(m, hole->y_in + side * half, way * m->shape->span_in / 2),
                         draw_mark_plan(m, hole->y_in + side * half, way * m->width_in / 2));
        return;
    }
    const bool seen = hole->face == CW_HOLE_TOP || m->shape->part == CW_PART_BASE;
    const cw_layer layer = seen ? CW_LAYER_OUTLINE : CW_LAYER_HIDDEN;
    const cw_fill fill = seen ? CW_FILL_WHITE : CW_FILL_NONE;
    if (hole->is_round)
        cw_draw_circle(m->drawing, layer, fill, draw_mark_plan(m, hole->y_in, hole->x_in), half);
    else
        cw_draw_rectangle(m->drawing, layer, fill,
                          draw_mark_plan(m, hole->y_in - half, hole->x_in + hole->tall_in / 2),
                          draw_mark_plan(m, hole->y_in + half, hole->x_in - hole->tall_in / 2));
}

static void plan_view(draw_mark *m)
{
    const cw_piece_shape *s = m->shape;
    plan_lap(m, false, true);
    plan_lap(m, true, true);
    double none[2] = {0, 0};
    const bool ends[2] = {false, true};
    plan_strip(m, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, m->width_in / 2, none, ends);
    for (int side = -1; side <= 1; side += 2) {
        plan_line(m, s->part == CW_PART_BASE ? CW_LAYER_OUTLINE : CW_LAYER_HIDDEN,
                  side * s->span_in / 2);
        if (s->part == CW_PART_BASE && s->haunch_in > 0)
            plan_line(m, CW_LAYER_RULE, side * (s->span_in / 2 - s->haunch_in));
    }
    plan_lap(m, false, false);
    plan_lap(m, true, false);
    for (int i = 0; i < s->opening_count; i++)
        plan_hole(m, &s->openings[i]);
}

void draw_mark_views(draw_mark *m)
{
    end_view(m);
    side_view(m);
    plan_view(m);
}
