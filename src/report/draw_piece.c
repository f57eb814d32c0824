/* The sheet of one mark: three views with dimensions, weight, centre of gravity and lifting points.
 */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/units.h"
#include "draw_internal.h"

#define LINE_FEED 1.35

enum { WORD_LINES = 9 };

/* ---- frame ---- */

static void measure(draw_mark *m)
{
    const cw_piece_shape *s = m->shape;
    m->width_in = m->type->weight.width_in;
    m->height_in = m->type->weight.height_in;
    const double half = m->width_in / 2;
    m->low_in = fmin(draw_mark_face(m, false, -half), draw_mark_face(m, false, half));
    m->high_in = fmax(draw_mark_face(m, true, -half), draw_mark_face(m, true, half));
    if (s->downstream.joint == CW_JOINT_TONGUE)
        m->low_in -= s->tongue_in;
    if (s->upstream.joint == CW_JOINT_TONGUE)
        m->high_in += s->tongue_in;
}

static double words_pt(double text)
{
    return 27 * text;
}

/* End view and side view stand side by side on one level, the plan over the side view, the words
 * over the end view. */
static void frame_picture(draw_mark *m, double width_pt, double height_pt)
{
    const double text = draw_lettering_pt(width_pt), long_in = m->high_in - m->low_in;
    const double left = 6 * text, middle = 12 * text, right = 6 * text;
    const double top = 5.6 * text, between = 8.5 * text,
                 bottom = draw_foot_pt(text, 1) + 6.0 * text;
    const cw_view probe =
        cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                   .height_pt = height_pt,
                                   .min = {0, 0},
                                   .max = {m->width_in + long_in, m->height_in + m->width_in},
                                   .left_pt = left + middle + right,
                                   .top_pt = top + between + bottom,
                                   .unit = CW_VIEW_IN});
    cw_view view = probe;
    double scale = probe.scale_x;
    view.left_pt = 0;
    view.base_pt = height_pt;
    const double end_pt = m->width_in * scale,
                 column = fmax(left + end_pt + middle, words_pt(text) + 4 * text);
    const double spare_x = fmax(width_pt - column - long_in * scale - right, 0);
    const double spare_y =
        fmax(height_pt - top - between - bottom - (m->height_in + m->width_in) * scale, 0);
    const double ground = bottom + spare_y * 0.35, side_left = column + spare_x * 0.5;
    const double plan_low = ground + m->height_in * scale + between + spare_y * 0.3;
    m->end_at = (cw_xy){(left + (column - left - middle) / 2) / scale, ground / scale};
    m->side_at = (cw_xy){side_left / scale - m->low_in, ground / scale};
    m->plan_at = (cw_xy){m->side_at.x, plan_low / scale + m->width_in / 2};
    m->drawing = draw_new(m->arena, view, text);
}

/* ---- words ---- */

static const char *measured(draw_mark *m, double ft)
{
    return draw_cast(m->plan, m->arena, fabs(ft) < 0.002 ? 0 : fabs(ft) * CW_IN_PER_FT);
}

static const char *sideways(draw_mark *m, double ft)
{
    if (fabs(ft) < 0.002)
        return "on the center line";
    return cw_arena_print(m->arena, "%s %s of the center line", measured(m, ft),
                          ft > 0 ? "right" : "left");
}

static void words(draw_mark *m)
{
    cw_drawing *d = m->drawing;
    const cw_plan_type *t = m->type;
    const double size = d->text_pt, left = DRAW_RIM_PT;
    double y = DRAW_RIM_PT + 1.5 * size;
    draw_text_at(d, left, y, (cw_text_style){.size_pt = 2 * size, .weight = CW_FONT_BOLD}, t->mark);
    const char *const lines[WORD_LINES] = {
        t->name,
        cw_arena_print(m->arena, "To cast: %d", t->count),
        cw_arena_print(m->arena, "Weight %s, pick %s",
                       draw_value(m->plan, m->arena, t->weight.weight_lb, CW_DIM_LB),
                       draw_value(m->plan, m->arena, t->pick_lb, CW_DIM_LB)),
        cw_arena_print(m->arena, "CG: %s", sideways(m, t->weight.x_ft)),
        cw_arena_print(m->arena, "%s upstream of the downstream face", measured(m, t->weight.y_ft)),
        cw_arena_print(m->arena, "%s above the underside", measured(m, t->weight.z_ft)),
        "Lifting points on the wall center lines, right wall:",
        cw_arena_print(m->arena, "%s and %s from the downstream face.",
                       measured(m, t->picks.y_ft[1]), measured(m, t->picks.y_ft[3])),
        "The precaster's lift drawing governs.",
    };
    y += 0.6 * size;
    for (int i = 0; i < WORD_LINES; i++) {
        int count;
        const cw_font_weight weight = i == 2 ? CW_FONT_BOLD : CW_FONT_REGULAR;
        const char *const *wrapped =
            cw_font_wrap(m->arena, lines[i], size, weight, words_pt(size), &count);
        for (int k = 0; k < count; k++) {
            y += size * LINE_FEED;
            draw_text_at(d, left, y, (cw_text_style){.weight = weight}, wrapped[k]);
        }
        y += i < 3 || i == 5 ? 0.25 * size : 0;
    }
}

static void view_titles(draw_mark *m)
{
    cw_drawing *d = m->drawing;
    const double size = d->text_pt;
    const cw_text_style style = {
        .align = CW_ALIGN_CENTER, .weight = CW_FONT_BOLD, .size_pt = 0.95 * size};
    const double low = draw_paper(d, draw_mark_end(m, 0, 0)).y + 5.6 * size;
    draw_text_at(d, draw_paper(d, draw_mark_end(m, 0, 0)).x, low, style, "END, LOOKING UPSTREAM");
    const double middle = (m->low_in + m->high_in) / 2;
    draw_text_at(d, draw_paper(d, draw_mark_side(m, middle, 0)).x, low, style, "RIGHT SIDE");
    const cw_xy plan = draw_paper(d, draw_mark_plan(m, middle, m->width_in / 2));
    draw_text_at(d, plan.x, plan.y + 1.6 * size, style, "PLAN");
}

/* Arrows that the paint on the piece repeats. */
static void arrows(draw_mark *m)
{
    cw_drawing *d = m->drawing;
    const double size = d->text_pt, reach = 3.4 * size / d->view.scale_x;
    const cw_text_style bold = {.align = CW_ALIGN_CENTER, .weight = CW_FONT_BOLD, .halo = true};
    const cw_xy tail =
        draw_mark_plan(m, m->shape->length_in * 0.5 + reach / 2, -m->shape->span_in * 0.25);
    const cw_xy tip = {tail.x - reach, tail.y};
    cw_draw_arrow(d, CW_LAYER_OUTLINE, tail, tip);
    const cw_xy over = draw_paper(d, (cw_xy){(tail.x + tip.x) / 2, tail.y});
    draw_text_at(d, over.x, over.y - 3, bold, "TO OUTLET");
    const double x_pt = draw_paper(d, draw_mark_side(m, m->high_in, 0)).x + 2.2 * size;
    const double low_pt = draw_paper(d, draw_mark_side(m, 0, 0)).y;
    const cw_xy foot = cw_at_paper(d, x_pt, low_pt), head = cw_moved(d, foot, 0, 2.6 * size);
    cw_draw_arrow(d, CW_LAYER_OUTLINE, foot, head);
    draw_text_at(d, x_pt, low_pt - 3 * size, bold, "TOP");
}

/* ---- dimensions ---- */

static void dimension(draw_mark *m, cw_xy a, cw_xy b, double offset, cw_dimension_kind kind,
                      const char *text)
{
    cw_draw_dimension(m->drawing, (cw_dimension){a, b, offset * m->drawing->text_pt, text, kind});
}

static const char *cast(draw_mark *m, double length_in)
{
    return draw_cast(m->plan, m->arena, length_in);
}

static void end_dimensions(draw_mark *m)
{
    const cw_piece_shape *s = m->shape;
    const double half = s->span_in / 2, out = m->width_in / 2;
    if (s->part != CW_PART_LID) {
        const cw_xy across[] = {draw_mark_end(m, -out, 0), draw_mark_end(m, -half, 0),
                                draw_mark_end(m, half, 0), draw_mark_end(m, out, 0)};
        const char *const texts[] = {cast(m, s->wall_in), cast(m, s->span_in), NULL};
        cw_draw_dimension_chain(
            m->drawing,
            (cw_dimension){.offset_pt = -2 * m->drawing->text_pt, .kind = CW_DIMENSION_HORIZONTAL},
            across, 4, texts);
    }
    dimension(m, draw_mark_end(m, -out, 0), draw_mark_end(m, out, 0),
              s->part == CW_PART_LID ? -2 : -4, CW_DIMENSION_HORIZONTAL, cast(m, m->width_in));
    dimension(m, draw_mark_end(m, -out, 0), draw_mark_end(m, -out, m->height_in),
              s->part == CW_PART_LID ? -2 : -4, CW_DIMENSION_VERTICAL, cast(m, m->height_in));
    if (s->part == CW_PART_LID)
        return;
    const bool hood = s->part == CW_PART_HOOD;
    const double turn = hood ? s->leg_in : s->slab_in;
    const double levels[] = {0, turn, s->slab_in + s->leg_in, m->height_in};
    const bool ring = s->part == CW_PART_RING;
    const cw_xy up[] = {draw_mark_end(m, -out, levels[0]), draw_mark_end(m, -out, levels[1]),
                        draw_mark_end(m, -out, levels[2]), draw_mark_end(m, -out, levels[3])};
    const char *const texts[] = {cast(m, levels[1] - levels[0]), cast(m, levels[2] - levels[1]),
                                 ring ? cast(m, s->top_slab_in) : NULL};
    cw_draw_dimension_chain(
        m->drawing,
        (cw_dimension){.offset_pt = -2 * m->drawing->text_pt, .kind = CW_DIMENSION_VERTICAL}, up,
        ring ? 4 : 3, texts);
    if (s->haunch_in > 0) {
        const cw_xy tip =
            draw_mark_end(m, half - s->haunch_in / 2,
                          hood ? s->leg_in - s->haunch_in / 2 : s->slab_in + s->haunch_in / 2);
        const double middle =
            draw_paper(m->drawing,
                       draw_mark_end(m, 0, hood ? s->leg_in * 0.55 : s->slab_in + s->leg_in * 0.45))
                .y;
        const draw_rows rows = {middle,
                                hood ? 1.4 * m->drawing->text_pt : -1.4 * m->drawing->text_pt,
                                -0.18 * s->span_in * m->drawing->view.scale_x};
        draw_callout(m->drawing, tip, rows,
                     cw_arena_print(m->arena, "Haunch %s", cast(m, s->haunch_in)));
    }
}

static void side_dimensions(draw_mark *m)
{
    const cw_piece_shape *s = m->shape;
    dimension(m, draw_mark_side(m, 0, 0), draw_mark_side(m, s->length_in, 0), -2,
              CW_DIMENSION_HORIZONTAL,
              cw_arena_print(m->arena, "%s laying length", cast(m, s->length_in)));
    if (m->high_in - m->low_in > s->length_in + 0.01)
        dimension(m, draw_mark_side(m, m->low_in, 0), draw_mark_side(m, m->high_in, 0), -4,
                  CW_DIMENSION_HORIZONTAL,
                  cw_arena_print(m->arena, "%s overall", cast(m, m->high_in - m->low_in)));
}

static const char *joint_word(int joint)
{
    return joint == CW_JOINT_TONGUE ? "Tongue" : joint == CW_JOINT_GROOVE ? "Groove" : "Plain end";
}

static void plan_dimensions(draw_mark *m)
{
    const cw_piece_shape *s = m->shape;
    const double half = m->width_in / 2;
    const double from_left = draw_mark_face(m, false, -half),
                 to_left = draw_mark_face(m, true, -half);
    const double from_right = draw_mark_face(m, false, half),
                 to_right = draw_mark_face(m, true, half);
    const bool slanted = fabs((to_left - from_left) - (to_right - from_right)) > 0.03;
    if (slanted) {
        dimension(m, draw_mark_plan(m, from_left, -half), draw_mark_plan(m, to_left, -half), 2,
                  CW_DIMENSION_HORIZONTAL,
                  cw_arena_print(m->arena, "%s left edge", cast(m, to_left - from_left)));
        dimension(m, draw_mark_plan(m, from_right, half), draw_mark_plan(m, to_right, half), -3.4,
                  CW_DIMENSION_HORIZONTAL,
                  cw_arena_print(m->arena, "%s right edge", cast(m, to_right - from_right)));
    }
    dimension(m, draw_mark_plan(m, m->high_in, half), draw_mark_plan(m, m->high_in, -half), 2.2,
              CW_DIMENSION_VERTICAL, cast(m, m->width_in));
    const double top_pt = draw_paper(m->drawing, draw_mark_plan(m, 0, -half)).y -
                          (slanted ? 4 : 2) * m->drawing->text_pt;
    for (int up = 0; up < 2; up++) {
        const cw_piece_end *end = up ? &s->upstream : &s->downstream;
        const double run = end->joint == CW_JOINT_TONGUE   ? s->tongue_in
                           : end->joint == CW_JOINT_GROOVE ? -s->groove_in
                                                           : 0;
        const cw_xy tip = draw_mark_plan(
            m, draw_mark_face(m, up, -half * 0.8) + (up ? 0.5 : -0.5) * run, -half * 0.8);
        const double angle = atan(draw_face_tan(s, up)) * CW_DEG_PER_RAD;
        const char *what = joint_word(end->joint);
        if (run != 0)
            what = cw_arena_print(m->arena, "%s %s", what, cast(m, fabs(run)));
        if (fabs(angle) > 0.005)
            what = cw_arena_print(m->arena, "%s, cut %s", what, draw_angle(m->arena, fabs(angle)));
        draw_callout(m->drawing, tip,
                     (draw_rows){top_pt, -1.4 * m->drawing->text_pt, up ? 10 : -10}, what);
    }
}

static void opening_dimensions(draw_mark *m, const cw_piece_opening *hole)
{
    const cw_piece_shape *s = m->shape;
    cw_drawing *d = m->drawing;
    const bool wall = hole->face == CW_HOLE_LEFT || hole->face == CW_HOLE_RIGHT;
    const char *size =
        hole->is_round
            ? cw_arena_print(m->arena, "%s dia.", cast(m, hole->diameter_in))
            : cw_arena_print(m->arena, "%s x %s", cast(m, hole->width_in), cast(m, hole->tall_in));
    static const char *const faces[] = {"left wall", "right wall", "floor", "top"};
    const char *note = cw_arena_print(m->arena, "%s, %s", size, faces[hole->face]);
    if (!wall) {
        const cw_xy at = draw_mark_plan(m, hole->y_in, hole->x_in);
        const double half_pt =
            (hole->is_round ? hole->diameter_in : hole->tall_in) / 2 * d->view.scale_x;
        dimension(m, draw_mark_plan(m, 0, hole->x_in), at, -half_pt / d->text_pt - 2,
                  CW_DIMENSION_HORIZONTAL, cast(m, hole->y_in));
        cw_draw_label(d,
                      (cw_label){.at = at,
                                 .text = note,
                                 .clear_pt = (hole->is_round ? hole->diameter_in : hole->width_in) /
                                                 2 * d->view.scale_x +
                                             2,
                                 .side = CW_SIDE_RIGHT_OF,
                                 .leader = true});
        if (fabs(hole->x_in) > 0.01)
            dimension(m, draw_mark_plan(m, hole->y_in, 0), at, 0, CW_DIMENSION_VERTICAL,
                      cast(m, fabs(hole->x_in)));
        return;
    }
    const cw_xy at = draw_mark_side(m, hole->y_in, hole->z_in);
    const double above_pt = (m->height_in - hole->z_in) * d->view.scale_y + 2 * d->text_pt;
    dimension(m, draw_mark_side(m, 0, hole->z_in), at, above_pt / d->text_pt,
              CW_DIMENSION_HORIZONTAL, cast(m, hole->y_in));
    /* Heights count from the inside floor; a hood has none, so from its feet, and the floor's
     * height is told. */
    const bool hood = s->part == CW_PART_HOOD;
    const double from = hood ? 0 : s->slab_in;
    const double reach = (s->length_in - hole->y_in) * d->view.scale_x * 0.45 / d->text_pt;
    dimension(m, draw_mark_side(m, hole->y_in, from), at, fmax(reach, 2), CW_DIMENSION_VERTICAL,
              cast(m, hole->z_in - from));
    const cw_piece_shape *base = draw_row_shape(m->plan, CW_ORDER_BASE);
    if (hood)
        note = cw_arena_print(m->arena, "%s,\ncenter %s above inside floor", note,
                              cast(m, hole->z_in + base->leg_in));
    const double top_pt = draw_paper(d, draw_mark_side(m, 0, m->height_in)).y - 3.6 * d->text_pt;
    /* The arrow stands on the rim, clear of the dimension's own lines. */
    const double rim = 0.7 * (hole->is_round ? hole->diameter_in : hole->width_in) / 2;
    const cw_xy tip = draw_mark_side(m, hole->y_in + rim,
                                     hole->z_in + (hole->is_round ? rim : hole->tall_in / 2));
    draw_callout(d, tip, (draw_rows){top_pt, -1.4 * d->text_pt, 30}, note);
}

/* ---- marks ---- */

static void gravity_and_lifting(draw_mark *m)
{
    cw_drawing *d = m->drawing;
    const cw_piece_weight *w = &m->type->weight;
    const cw_pick_points *picks = &m->type->picks;
    const double x = w->x_ft * CW_IN_PER_FT, y = w->y_ft * CW_IN_PER_FT, z = w->z_ft * CW_IN_PER_FT;
    for (int i = 0; i < 4; i++)
        cw_draw_lift_mark(
            d, draw_mark_plan(m, picks->y_ft[i] * CW_IN_PER_FT, picks->x_ft[i] * CW_IN_PER_FT), "");
    for (int i = 1; i < 4; i += 2)
        cw_draw_lift_mark(
            d, draw_mark_side(m, picks->y_ft[i] * CW_IN_PER_FT, picks->z_ft * CW_IN_PER_FT), "");
    for (int i = 0; i < 2; i++)
        cw_draw_lift_mark(
            d, draw_mark_end(m, picks->x_ft[i] * CW_IN_PER_FT, picks->z_ft * CW_IN_PER_FT), "");
    const cw_xy marks[] = {draw_mark_plan(m, y, x), draw_mark_side(m, y, z),
                           draw_mark_end(m, x, z)};
    for (int i = 0; i < 3; i++) {
        cw_draw_cg_mark(d, marks[i]);
        cw_draw_label(d, (cw_label){.at = marks[i],
                                    .text = "CG",
                                    .clear_pt = 6,
                                    .weight = CW_FONT_BOLD,
                                    .leader = true});
    }
}

const cw_drawing *cw_draw_piece(const cw_plan *plan, int type, double width_pt, double height_pt,
                                cw_arena *arena)
{
    draw_mark m = {.plan = plan,
                   .type = &plan->types[type],
                   .shape = &plan->types[type].shape,
                   .arena = arena};
    measure(&m);
    frame_picture(&m, width_pt, height_pt);
    draw_mark_views(&m);
    draw_foot(
        m.drawing, cw_arena_print(arena, "MARK %s", m.type->mark),
        "Upstream runs to the right in plan and side view. Left and right are looking upstream.",
        true);
    words(&m);
    view_titles(&m);
    arrows(&m);
    gravity_and_lifting(&m);
    end_dimensions(&m);
    side_dimensions(&m);
    for (int i = 0; i < m.shape->opening_count; i++)
        opening_dimensions(&m, &m.shape->openings[i]);
    plan_dimensions(&m);
    cw_drawing_finish(m.drawing);
    return m.drawing;
}
