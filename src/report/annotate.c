/* What is written about a drawing: dimensions, notes, marks.  Paper sizes at real places. */
#include <math.h>
#include <string.h>

#include "cw/units.h"
#include "drawing_internal.h"

#define TICK_PT 2.6 /* half length of a dimension's oblique tick */
#define EXTENSION_GAP_PT 2.0
#define EXTENSION_PAST_PT 3.0
#define OVER_LINE_PT 2.0 /* text over its line */
#define BESIDE_PT 4.0
#define LINE_FEED 1.25

/* ---- Dimensions ---- */

/* A dimension on paper: its line, the unit vector along it, and where the measured points are. */
typedef struct dimension_line {
    cw_xy from, to, along;
    double length;
    cw_xy points[2];
} dimension_line;

static dimension_line line_of(const cw_drawing *drawing, const cw_dimension *dimension)
{
    const cw_xy a = cw_view_paper(&drawing->view, dimension->a),
                b = cw_view_paper(&drawing->view, dimension->b);
    dimension_line line = {.from = a, .to = b, .points = {a, b}};
    const double offset = dimension->offset_pt;
    if (dimension->kind == CW_DIMENSION_HORIZONTAL) {
        line.from.y = line.to.y = (offset >= 0 ? fmin(a.y, b.y) : fmax(a.y, b.y)) - offset;
    } else if (dimension->kind == CW_DIMENSION_VERTICAL) {
        line.from.x = line.to.x = (offset >= 0 ? fmax(a.x, b.x) : fmin(a.x, b.x)) + offset;
    } else {
        const double length = hypot(b.x - a.x, b.y - a.y);
        const cw_xy left = {(b.y - a.y) / fmax(length, 1e-9), -(b.x - a.x) / fmax(length, 1e-9)};
        line.from = cw_xy_plus(a, left, offset);
        line.to = cw_xy_plus(b, left, offset);
    }
    line.length = hypot(line.to.x - line.from.x, line.to.y - line.from.y);
    line.along = line.length > 1e-9 ? (cw_xy){(line.to.x - line.from.x) / line.length,
                                              (line.to.y - line.from.y) / line.length}
                                    : (cw_xy){1, 0};
    return line;
}

/* From the measured point to just past the dimension line. */
static void extension(cw_drawing *drawing, cw_xy point, cw_xy end)
{
    const double length = hypot(end.x - point.x, end.y - point.y);
    if (length <= EXTENSION_GAP_PT + 0.5)
        return;
    const cw_xy along = {(end.x - point.x) / length, (end.y - point.y) / length};
    cw_paper_line(drawing, CW_LAYER_DIMENSION, cw_xy_plus(point, along, EXTENSION_GAP_PT),
                  cw_xy_plus(end, along, EXTENSION_PAST_PT));
}

static void tick(cw_drawing *drawing, cw_xy at, cw_xy along)
{
    /* 45 degrees to the line, always leaning the same way. */
    const cw_xy lean = {(along.x + along.y) * TICK_PT * 0.7071,
                        (along.y - along.x) * TICK_PT * 0.7071};
    cw_paper_line(drawing, CW_LAYER_OUTLINE, cw_xy_plus(at, lean, -1), cw_xy_plus(at, lean, 1));
}

/* Reading direction: from the bottom or from the right of the sheet. */
static double reading_angle_deg(cw_xy along)
{
    double angle = atan2(-along.y, along.x) * CW_DEG_PER_RAD;
    if (angle > 90.0 + 1e-6)
        angle -= 180;
    else if (angle <= -90.0 + 1e-6)
        angle += 180;
    return angle;
}

/* The text of a dimension and the places it may take. */
typedef struct dimension_text {
    cw_item item;
    cw_xy along, up; /* of the reading direction */
    cw_xy middle, start, end;
    bool strict; /* keep clear of built lines too, not only of other text */
} dimension_text;

static dimension_text text_of(const cw_drawing *drawing, const dimension_line *line,
                              const char *text)
{
    const double angle_deg = reading_angle_deg(line->along), angle = angle_deg * CW_RAD_PER_DEG;
    dimension_text t = {.along = {cos(angle), -sin(angle)}, .up = {-sin(angle), -cos(angle)}};
    const bool turned = t.along.x * line->along.x + t.along.y * line->along.y < 0;
    t.start = turned ? line->to : line->from;
    t.end = turned ? line->from : line->to;
    t.middle = cw_xy_plus(line->from, line->along, line->length / 2);
    t.item = cw_paper_text(
        drawing, t.middle, text, drawing->text_pt,
        (cw_text_style){.align = CW_ALIGN_CENTER, .angle_deg = angle_deg, .halo = true});
    return t;
}

/* Try the place at @p anchor, @p up_pt over the line. */
static bool try_place(const cw_drawing *drawing, dimension_text *t, cw_xy anchor, cw_align align,
                      double up_pt)
{
    t->item.at = cw_xy_plus(anchor, t->up, up_pt);
    t->item.align = align;
    return cw_text_is_free(drawing, &t->item) &&
           !(t->strict && cw_text_hits_built(drawing, &t->item));
}

/* Over the line, under it, or slid along it. */
static bool place_inside(const cw_drawing *drawing, dimension_text *t, double length)
{
    const double under = -(OVER_LINE_PT + t->item.size_pt * CW_FONT_CAP);
    const double slack = (length - t->item.width_pt) / 2 - 2;
    if (slack < 0)
        return false;
    static const double slides[] = {0, 0.5, -0.5, 1, -1};
    for (int k = 0; k < 5; k++) {
        const cw_xy anchor = cw_xy_plus(t->middle, t->along, slides[k] * slack);
        if (try_place(drawing, t, anchor, CW_ALIGN_CENTER, OVER_LINE_PT) ||
            try_place(drawing, t, anchor, CW_ALIGN_CENTER, under))
            return true;
    }
    return false;
}

/* Beside the line on its own level, the line running on under it. */
static bool place_beside(cw_drawing *drawing, dimension_text *t)
{
    const double run_on = BESIDE_PT + t->item.width_pt;
    if (try_place(drawing, t, cw_xy_plus(t->end, t->along, BESIDE_PT), CW_ALIGN_LEFT,
                  OVER_LINE_PT)) {
        cw_paper_line(drawing, CW_LAYER_DIMENSION, t->end, cw_xy_plus(t->end, t->along, run_on));
        return true;
    }
    if (try_place(drawing, t, cw_xy_plus(t->start, t->along, -BESIDE_PT), CW_ALIGN_RIGHT,
                  OVER_LINE_PT)) {
        cw_paper_line(drawing, CW_LAYER_DIMENSION, t->start,
                      cw_xy_plus(t->start, t->along, -run_on));
        return true;
    }
    return false;
}

/* Lifted above or let down below on a short leader from the middle. */
static bool place_lifted(cw_drawing *drawing, dimension_text *t)
{
    const double feed = t->item.size_pt * 1.4, cap = t->item.size_pt * CW_FONT_CAP;
    for (int row = 1; row <= 4; row++) {
        const double up = OVER_LINE_PT + row * feed, down = -(OVER_LINE_PT + row * feed + cap);
        const bool above = try_place(drawing, t, t->middle, CW_ALIGN_CENTER, up);
        if (above || try_place(drawing, t, t->middle, CW_ALIGN_CENTER, down)) {
            cw_paper_line(drawing, CW_LAYER_DIMENSION, t->middle,
                          cw_xy_plus(t->middle, t->up, above ? up - 1.5 : down + cap + 1.5));
            return true;
        }
    }
    return false;
}

static void dimension_words(cw_drawing *drawing, const dimension_line *line, const char *text,
                            bool in_chain)
{
    dimension_text t = text_of(drawing, line, text);
    bool placed = false;
    for (int round = 0; round < 2 && !placed; round++) {
        t.strict = round == 0;
        placed = place_inside(drawing, &t, line->length) ||
                 (!in_chain && place_beside(drawing, &t)) || place_lifted(drawing, &t);
    }
    if (!placed) {
        /* No free place: the plain one, and the overlap test will speak up. */
        t.item.align = CW_ALIGN_CENTER;
        t.item.at = cw_xy_plus(t.middle, t.up, OVER_LINE_PT);
    }
    cw_item_add(drawing, t.item);
}

void cw_draw_dimension(cw_drawing *drawing, cw_dimension dimension)
{
    const dimension_line line = line_of(drawing, &dimension);
    cw_paper_line(drawing, CW_LAYER_DIMENSION, line.from, line.to);
    extension(drawing, line.points[0], line.from);
    extension(drawing, line.points[1], line.to);
    tick(drawing, line.from, line.along);
    tick(drawing, line.to, line.along);
    dimension_words(drawing, &line, dimension.text, false);
}

/* Every member of a chain lies on the line that clears all points. */
static double chain_offset(const cw_drawing *drawing, const cw_dimension *like, const cw_xy *points,
                           int count, int i)
{
    if (like->kind == CW_DIMENSION_ALIGNED)
        return like->offset_pt;
    const bool level = like->kind == CW_DIMENSION_HORIZONTAL;
    /* "Out" is the way the offset leads: up or right when positive. */
    const double out = like->offset_pt >= 0 ? 1 : -1;
    double far_all = -HUGE_VAL, far_pair = -HUGE_VAL;
    for (int k = 0; k < count; k++) {
        const cw_xy p = cw_view_paper(&drawing->view, points[k]);
        const double reach = out * (level ? -p.y : p.x);
        far_all = fmax(far_all, reach);
        if (k == i || k == i + 1)
            far_pair = fmax(far_pair, reach);
    }
    return like->offset_pt + out * (far_all - far_pair);
}

void cw_draw_dimension_chain(cw_drawing *drawing, cw_dimension like, const cw_xy *points, int count,
                             const char *const *texts)
{
    for (int i = 0; i + 1 < count; i++) {
        cw_dimension one = like;
        one.a = points[i];
        one.b = points[i + 1];
        one.offset_pt = chain_offset(drawing, &like, points, count, i);
        const dimension_line line = line_of(drawing, &one);
        cw_paper_line(drawing, CW_LAYER_DIMENSION, line.from, line.to);
        if (i == 0) {
            extension(drawing, line.points[0], line.from);
            tick(drawing, line.from, line.along);
        }
        extension(drawing, line.points[1], line.to);
        tick(drawing, line.to, line.along);
    }
    /* Words last, so that wide texts give way to what is drawn; those that fit come first. */
    for (int pass = 0; pass < 2; pass++) {
        for (int i = 0; i + 1 < count; i++) {
            if (!texts[i])
                continue;
            cw_dimension one = like;
            one.a = points[i];
            one.b = points[i + 1];
            one.offset_pt = chain_offset(drawing, &like, points, count, i);
            const dimension_line line = line_of(drawing, &one);
            const bool fits =
                cw_font_width_pt(texts[i], drawing->text_pt, CW_FONT_REGULAR) + 4 <= line.length;
            if (fits == (pass == 0))
                dimension_words(drawing, &line, texts[i], i > 0 && i + 2 < count);
        }
    }
}

/* ---- Notes ---- */

void cw_draw_leader(cw_drawing *drawing, cw_xy tip, double right_pt, double up_pt, const char *text)
{
    const bool to_left = right_pt < 0;
    const double shelf = to_left ? -6 : 6, size = drawing->text_pt;
    const cw_xy point = cw_view_paper(&drawing->view, tip);
    const cw_xy elbow = {point.x + right_pt - shelf, point.y - up_pt},
                end = {elbow.x + shelf, elbow.y};
    const double length = hypot(elbow.x - point.x, elbow.y - point.y);
    if (length > 1e-9) {
        const cw_xy along = {(point.x - elbow.x) / length, (point.y - elbow.y) / length};
        cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_NONE,
                      (cw_xy[]){end, elbow, cw_xy_plus(point, along, -fmin(4, length))}, 3, false);
        cw_paper_head(drawing, CW_LAYER_DIMENSION, point, along, fmin(5, length));
    }
    /* The first line stands at the shelf, further ones under it. */
    const cw_text_style style = {
        .align = to_left ? CW_ALIGN_RIGHT : CW_ALIGN_LEFT, .halo = true, .valign = CW_VALIGN_TOP};
    const cw_xy at = {end.x + (to_left ? -2 : 2), end.y - size * CW_FONT_CAP / 2};
    cw_draw_text(drawing, cw_view_real(&drawing->view, at), style, text);
}

void cw_draw_piece_tag(cw_drawing *drawing, cw_xy at, const char *text)
{
    const double size = drawing->text_pt, pad = 2.5;
    const double half = cw_font_width_pt(text, size, CW_FONT_BOLD) / 2 + pad,
                 rise = size * CW_FONT_CAP / 2 + pad;
    const cw_xy c = cw_view_paper(&drawing->view, at);
    const cw_xy frame[] = {{c.x - half, c.y - rise},
                           {c.x + half, c.y - rise},
                           {c.x + half, c.y + rise},
                           {c.x - half, c.y + rise}};
    cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_WHITE, frame, 4, true);
    cw_draw_text(drawing, at,
                 (cw_text_style){
                     .weight = CW_FONT_BOLD, .align = CW_ALIGN_CENTER, .valign = CW_VALIGN_MIDDLE},
                 text);
}

void cw_draw_level_mark(cw_drawing *drawing, cw_xy at, bool to_left, const char *text)
{
    enum { LEVEL_ROWS = 5 };
    const double height = 5, half = 3, size = drawing->text_pt, way = to_left ? -1 : 1;
    const cw_xy point = cw_view_paper(&drawing->view, at);
    cw_item words = cw_paper_text(
        drawing, point, text, size,
        (cw_text_style){.align = to_left ? CW_ALIGN_RIGHT : CW_ALIGN_LEFT, .halo = true});
    /* Lifted row by row until free of other text and of lines; else until free of text. */
    double lift = 0;
    bool placed = false;
    for (int k = 0; k < 2 * LEVEL_ROWS && !placed; k++) {
        lift = k % LEVEL_ROWS * size * 1.3;
        words.at = (cw_xy){point.x + way * (half + 1), point.y - height - lift - OVER_LINE_PT};
        placed = cw_text_is_free(drawing, &words) &&
                 (k >= LEVEL_ROWS || !cw_text_hits_built(drawing, &words));
    }
    const cw_xy triangle[] = {
        point, {point.x - half, point.y - height}, {point.x + half, point.y - height}};
    cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_WHITE, triangle, 3, true);
    const cw_xy knee = {point.x, point.y - height - lift};
    if (lift > 0)
        cw_paper_line(drawing, CW_LAYER_DIMENSION, (cw_xy){point.x, point.y - height}, knee);
    cw_paper_line(drawing, CW_LAYER_DIMENSION, knee,
                  (cw_xy){point.x + way * (half + 2 + words.width_pt), knee.y});
    cw_item_add(drawing, words);
}

void cw_draw_slope_mark(cw_drawing *drawing, cw_xy a, cw_xy b, const char *text)
{
    const double over = 6, half = 14;
    const cw_xy low = a.y <= b.y ? a : b, high = a.y <= b.y ? b : a;
    const cw_xy pl = cw_view_paper(&drawing->view, low), ph = cw_view_paper(&drawing->view, high);
    const double length = hypot(pl.x - ph.x, pl.y - ph.y);
    if (length < 1e-9)
        return;
    const cw_xy down = {(pl.x - ph.x) / length, (pl.y - ph.y) / length};
    const double angle_deg = reading_angle_deg(down), angle = angle_deg * CW_RAD_PER_DEG;
    const cw_xy up = {-sin(angle), -cos(angle)};
    const cw_xy middle = cw_xy_plus((cw_xy){(pl.x + ph.x) / 2, (pl.y + ph.y) / 2}, up, over);
    const cw_xy tip = cw_xy_plus(middle, down, half);
    cw_paper_line(drawing, CW_LAYER_DIMENSION, cw_xy_plus(middle, down, -half),
                  cw_xy_plus(tip, down, -4));
    cw_paper_head(drawing, CW_LAYER_DIMENSION, tip, down, 5);
    const cw_text_style style = {.align = CW_ALIGN_CENTER, .angle_deg = angle_deg, .halo = true};
    cw_draw_text(drawing, cw_view_real(&drawing->view, cw_xy_plus(middle, up, OVER_LINE_PT)), style,
                 text);
}

/* ---- Marks ---- */

void cw_draw_cg_mark(cw_drawing *drawing, cw_xy at)
{
    enum { PARTS = 8 };
    const double r = 4.5;
    const cw_xy c = cw_view_paper(&drawing->view, at);
    cw_paper_circle(drawing, CW_LAYER_HIDDEN, CW_FILL_WHITE, c, r)->pen.dash = CW_DASH_NONE;
    for (int quarter = 0; quarter < 2; quarter++) {
        cw_xy points[PARTS + 2] = {c};
        for (int i = 0; i <= PARTS; i++) {
            const double angle = quarter * CW_PI + CW_PI / 2 * i / PARTS;
            points[i + 1] = (cw_xy){c.x + r * cos(angle), c.y - r * sin(angle)};
        }
        cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_SOLID, points, PARTS + 2, true)
            ->pen.width_pt = 0;
    }
}

void cw_draw_lift_mark(cw_drawing *drawing, cw_xy at, const char *text)
{
    const double r = 3, arm = 4.5;
    const cw_xy c = cw_view_paper(&drawing->view, at);
    cw_paper_circle(drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, c, r);
    cw_paper_line(drawing, CW_LAYER_DIMENSION, (cw_xy){c.x - arm, c.y}, (cw_xy){c.x + arm, c.y});
    cw_paper_line(drawing, CW_LAYER_DIMENSION, (cw_xy){c.x, c.y - arm}, (cw_xy){c.x, c.y + arm});
    cw_draw_label(drawing, (cw_label){.at = at, .text = text, .clear_pt = arm + 2, .leader = true});
}

void cw_draw_north_arrow(cw_drawing *drawing, cw_xy at, double north_deg)
{
    const double half = 16, barb = 5;
    const double angle = north_deg * CW_RAD_PER_DEG;
    const cw_xy c = cw_view_paper(&drawing->view, at), along = {cos(angle), -sin(angle)},
                right = {sin(angle), cos(angle)};
    const cw_xy tip = cw_xy_plus(c, along, half), foot = cw_xy_plus(c, along, -half);
    const cw_xy notch = cw_xy_plus(c, along, -half * 0.55);
    const cw_xy east = cw_xy_plus(foot, right, barb), west = cw_xy_plus(foot, right, -barb);
    cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_WHITE, (cw_xy[]){tip, east, notch}, 3, true);
    cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_SOLID, (cw_xy[]){tip, notch, west}, 3, true);
    const cw_text_style style = {.size_pt = 10,
                                 .weight = CW_FONT_BOLD,
                                 .align = CW_ALIGN_CENTER,
                                 .valign = CW_VALIGN_MIDDLE};
    cw_draw_text(drawing, cw_view_real(&drawing->view, cw_xy_plus(tip, along, 8)), style, "N");
}

void cw_draw_flow_arrow(cw_drawing *drawing, cw_xy at, double direction_deg)
{
    const double half = 18, shaft = 2.2, head = 10;
    const double angle = direction_deg * CW_RAD_PER_DEG;
    const cw_xy c = cw_view_paper(&drawing->view, at), along = {cos(angle), -sin(angle)},
                side = {along.y, -along.x};
    const cw_xy tip = cw_xy_plus(c, along, half), neck = cw_xy_plus(tip, along, -head),
                tail = cw_xy_plus(c, along, -half);
    const cw_xy points[] = {
        cw_xy_plus(tail, side, shaft),        cw_xy_plus(neck, side, shaft),
        cw_xy_plus(neck, side, 2.4 * shaft),  tip,
        cw_xy_plus(neck, side, -2.4 * shaft), cw_xy_plus(neck, side, -shaft),
        cw_xy_plus(tail, side, -shaft),
    };
    cw_paper_path(drawing, CW_LAYER_WATER, CW_FILL_WHITE, points, 7, true);
    const double turn = reading_angle_deg(along), up = turn * CW_RAD_PER_DEG;
    const cw_xy words = cw_xy_plus(c, (cw_xy){-sin(up), -cos(up)}, 2.4 * shaft + 2);
    const cw_text_style style = {.align = CW_ALIGN_CENTER,
                                 .angle_deg = turn,
                                 .size_pt = drawing->text_pt * 0.9,
                                 .halo = true};
    cw_draw_text(drawing, cw_view_real(&drawing->view, words), style, "FLOW");
}

void cw_draw_scale_bar(cw_drawing *drawing, cw_xy at)
{
    static const double steps[] = {1, 2, 5, 10};
    const double target_pt = 1.5 * CW_PT_PER_IN, high = 3.2;
    const bool cast = drawing->view.unit == CW_VIEW_IN;
    const double pt_per_ft = drawing->view.scale_x * (cast ? CW_IN_PER_FT : 1);
    /* Small details are measured in inches. */
    const bool inches = target_pt / pt_per_ft < 1;
    const double pt_per_unit = inches ? pt_per_ft / CW_IN_PER_FT : pt_per_ft;
    const double raw = target_pt / pt_per_unit, decade = pow(10, floor(log10(raw) + 1e-9));
    double length = decade;
    for (int i = 0; i < 4; i++) {
        if (fabs(steps[i] * decade - raw) < fabs(length - raw))
            length = steps[i] * decade;
    }
    const cw_xy left = cw_view_paper(&drawing->view, at);
    const int parts = 4;
    for (int i = 0; i < parts; i++) {
        const double x0 = left.x + length * pt_per_unit * i / parts,
                     x1 = left.x + length * pt_per_unit * (i + 1) / parts;
        const cw_xy part[] = {{x0, left.y - high}, {x1, left.y - high}, {x1, left.y}, {x0, left.y}};
        cw_paper_path(drawing, CW_LAYER_DIMENSION, i % 2 ? CW_FILL_WHITE : CW_FILL_SOLID, part, 4,
                      true);
    }
    const double shares[] = {0, 0.5, 1};
    for (int i = 0; i < 3; i++) {
        const char *text = cw_arena_print(drawing->arena, "%g%s", length * shares[i],
                                          i < 2    ? ""
                                          : inches ? " in"
                                                   : " ft");
        const cw_xy where = {left.x + length * shares[i] * pt_per_unit,
                             left.y - high - OVER_LINE_PT};
        const cw_text_style style = {.align = CW_ALIGN_CENTER, .size_pt = drawing->text_pt * 0.9};
        cw_draw_text(drawing, cw_view_real(&drawing->view, where), style, text);
    }
}

void cw_draw_break_line(cw_drawing *drawing, cw_xy a, cw_xy b)
{
    const double zig = 4;
    const cw_xy from = cw_view_paper(&drawing->view, a), to = cw_view_paper(&drawing->view, b);
    const double length = hypot(to.x - from.x, to.y - from.y);
    if (length < 4 * zig)
        return;
    const cw_xy along = {(to.x - from.x) / length, (to.y - from.y) / length},
                side = {along.y, -along.x};
    const cw_xy middle = cw_xy_plus(from, along, length / 2);
    const cw_xy points[] = {
        from,
        cw_xy_plus(middle, along, -zig),
        cw_xy_plus(cw_xy_plus(middle, along, -zig / 3), side, zig),
        cw_xy_plus(cw_xy_plus(middle, along, zig / 3), side, -zig),
        cw_xy_plus(middle, along, zig),
        to,
    };
    cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_NONE, points, 6, false);
}

void cw_draw_water_line(cw_drawing *drawing, cw_xy a, cw_xy b, const char *text)
{
    cw_draw_line(drawing, CW_LAYER_WATER, a, b);
    const cw_xy mark = {(a.x + b.x) / 2, (a.y + b.y) / 2};
    const cw_xy c = cw_view_paper(&drawing->view, mark);
    const cw_xy triangle[] = {c, {c.x - 3, c.y - 5}, {c.x + 3, c.y - 5}};
    cw_paper_path(drawing, CW_LAYER_WATER, CW_FILL_WHITE, triangle, 3, true);
    for (int i = 1; i <= 2; i++) {
        const double half = 6 - 2.0 * i, y = c.y + 2.0 * i;
        cw_paper_line(drawing, CW_LAYER_WATER, (cw_xy){c.x - half, y}, (cw_xy){c.x + half, y});
    }
    cw_draw_label(drawing, (cw_label){.at = cw_moved(drawing, mark, 3, 4),
                                      .text = text,
                                      .side = CW_SIDE_RIGHT_OF,
                                      .leader = true});
}
