/* Lettering and notes shared by the drawing builders. */
#include "draw_internal.h"

#include <math.h>
#include <string.h>

#include "cw/quantity.h"
#include "cw/text.h"
#include "cw/units.h"

#define WIDE_FRAME_PT 700.0
#define LINE_FEED 1.25

enum { CALLOUT_ROWS = 6, CALLOUT_SHIFTS = 15 };

/* ---- lettering ---- */

double draw_lettering_pt(double width_pt)
{
    return width_pt > WIDE_FRAME_PT ? 9.25 : 7.5;
}

cw_drawing *draw_new(cw_arena *arena, cw_view view, double text_pt)
{
    cw_drawing *drawing = cw_drawing_new(arena, view);
    drawing->text_pt = text_pt;
    return drawing;
}

double draw_foot_pt(double text_pt, int note_lines)
{
    return text_pt * (2.9 + LINE_FEED * note_lines) + DRAW_RIM_PT;
}

const char *draw_wrapped(cw_arena *arena, const char *words, double text_pt, double width_pt,
                         int *lines)
{
    const char *const *broken =
        cw_font_wrap(arena, words, text_pt, CW_FONT_REGULAR, width_pt - 2 * DRAW_RIM_PT, lines);
    cw_text joined = cw_text_on(arena);
    for (int i = 0; i < *lines; i++)
        cw_text_print(&joined, "%s%s", i ? "\n" : "", broken[i]);
    return cw_text_string(&joined);
}

void draw_foot(cw_drawing *drawing, const char *title, const char *notes, bool with_scale)
{
    const double size = drawing->text_pt, left = DRAW_RIM_PT;
    int lines = 0;
    for (const char *p = notes; p && *p; p++)
        lines += *p == '\n' || p == notes;
    double y = drawing->view.height_pt - DRAW_RIM_PT - size * (CW_FONT_DESCENT + LINE_FEED * lines);
    if (with_scale) {
        draw_text_at(drawing, left, y, (cw_text_style){0},
                     cw_view_scale_text(drawing->arena, &drawing->view));
        cw_draw_scale_bar(drawing, cw_at_paper(drawing, drawing->view.width_pt - 205, y));
    }
    draw_text_at(drawing, left, y - size * LINE_FEED * (with_scale ? 1.1 : 0),
                 (cw_text_style){.size_pt = size * 1.2, .weight = CW_FONT_BOLD}, title);
    if (lines > 0)
        draw_text_at(drawing, left, y + size * LINE_FEED, (cw_text_style){0}, notes);
}

const char *draw_value(const cw_plan *plan, cw_arena *arena, double value, cw_dim dim)
{
    return cw_quantity_format(arena, value, dim, plan->units);
}

const char *draw_angle(cw_arena *arena, double angle_deg)
{
    return cw_arena_print(arena, "%.4g°", angle_deg);
}

const char *draw_cast(const cw_plan *plan, cw_arena *arena, double length_in)
{
    return draw_value(plan, arena, length_in, CW_DIM_IN);
}

const char *draw_survey(const cw_plan *plan, cw_arena *arena, double length_ft)
{
    return draw_value(plan, arena, length_ft, CW_DIM_FT);
}

double draw_round_step(double least)
{
    const double decade = pow(10, floor(log10(least) + 1e-9)), part = least / decade;
    const double slack = 1 + 1e-9;
    return decade * (part <= slack ? 1 : part <= 2 * slack ? 2 : part <= 5 * slack ? 5 : 10);
}

const cw_drawing *draw_sentence(cw_arena *arena, double width_pt, double height_pt,
                                const char *title, const char *sentence)
{
    const double text = draw_lettering_pt(width_pt);
    const cw_view view = {width_pt, height_pt, 1, 1, 0, height_pt, CW_VIEW_FT};
    cw_drawing *drawing = draw_new(arena, view, text);
    int lines;
    const char *words = draw_wrapped(arena, sentence, text, width_pt * 0.8, &lines);
    draw_text_at(drawing, width_pt / 2, height_pt / 2 - text * LINE_FEED * lines / 2,
                 (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP}, words);
    draw_foot(drawing, title, NULL, false);
    cw_drawing_finish(drawing);
    return drawing;
}

/* ---- places on paper ---- */

cw_xy draw_paper(const cw_drawing *drawing, cw_xy real)
{
    return cw_view_paper(&drawing->view, real);
}

cw_item *draw_dashed(cw_drawing *drawing, cw_layer layer, cw_dash dash, const cw_xy *points,
                     int count)
{
    cw_xy *paper = CW_TAKE(drawing->arena, cw_xy, count);
    for (int i = 0; i < count; i++)
        paper[i] = draw_paper(drawing, points[i]);
    cw_item *item = cw_paper_path(drawing, layer, CW_FILL_NONE, paper, count, false);
    item->pen.dash = dash;
    return item;
}

void draw_text_at(cw_drawing *drawing, double x_pt, double y_pt, cw_text_style style,
                  const char *text)
{
    cw_draw_text(drawing, cw_at_paper(drawing, x_pt, y_pt), style, text);
}

bool draw_text_if_free(cw_drawing *drawing, double x_pt, double y_pt, cw_text_style style,
                       const char *text)
{
    /* Written, looked at, and taken back when it is in the way: cw_draw_text alone knows where
     * lines go. */
    const int before = drawing->count;
    draw_text_at(drawing, x_pt, y_pt, style, text);
    const int after = drawing->count;
    drawing->count = before;
    for (int i = before; i < after; i++) {
        const cw_item item = drawing->items[i];
        if (!cw_text_is_free(drawing, &item))
            return false;
    }
    drawing->count = after;
    return true;
}

/* ---- callouts ---- */

typedef struct text_block {
    cw_xy min, max;
    double size_pt;
    const char *text;
} text_block;

static cw_xy block_size(const cw_drawing *drawing, const char *text, double size_pt)
{
    int count;
    const char *const *lines =
        cw_font_wrap(drawing->arena, text, size_pt, CW_FONT_REGULAR, 1e6, &count);
    double width = 0;
    for (int i = 0; i < count; i++)
        width = fmax(width, cw_font_width_pt(lines[i], size_pt, CW_FONT_REGULAR));
    return (cw_xy){width, size_pt * (CW_FONT_CAP + CW_FONT_DESCENT + (count - 1) * LINE_FEED)};
}

static bool quad_hits_text(const cw_drawing *drawing, const cw_xy quad[4])
{
    for (int i = 0; i < drawing->count; i++) {
        if (drawing->items[i].kind != CW_ITEM_TEXT)
            continue;
        cw_xy box[4];
        cw_item_text_box(&drawing->items[i], box);
        if (cw_quads_overlap(quad, box, 0))
            return true;
    }
    return false;
}

static bool block_is_free(const cw_drawing *drawing, cw_xy min, cw_xy max)
{
    const double clear = 1.5;
    if (min.x < DRAW_RIM_PT || min.y < DRAW_RIM_PT ||
        max.x > drawing->view.width_pt - DRAW_RIM_PT ||
        max.y > drawing->view.height_pt - DRAW_RIM_PT)
        return false;
    const cw_xy quad[4] = {{min.x - clear, max.y + clear},
                           {max.x + clear, max.y + clear},
                           {max.x + clear, min.y - clear},
                           {min.x - clear, min.y - clear}};
    return !quad_hits_text(drawing, quad);
}

static bool leader_is_free(const cw_drawing *drawing, cw_xy from, cw_xy to)
{
    const double length = hypot(to.x - from.x, to.y - from.y), half = 0.6;
    if (length < 1)
        return true;
    const cw_xy side = {-(to.y - from.y) / length * half, (to.x - from.x) / length * half};
    const cw_xy quad[4] = {cw_xy_plus(from, side, 1), cw_xy_plus(to, side, 1),
                           cw_xy_plus(to, side, -1), cw_xy_plus(from, side, -1)};
    return !quad_hits_text(drawing, quad);
}

/* Point of the block's edge that faces the tip. */
static cw_xy block_foot(cw_xy min, cw_xy max, cw_xy tip)
{
    const double inset = fmin(4, (max.x - min.x) / 2);
    return (cw_xy){fmin(fmax(tip.x, min.x + inset), max.x - inset),
                   tip.y > max.y ? max.y + 1 : min.y - 1};
}

static void write_callout(cw_drawing *drawing, cw_xy min, cw_xy max, cw_xy tip, const char *text)
{
    const cw_xy foot = block_foot(min, max, tip);
    const double length = hypot(tip.x - foot.x, tip.y - foot.y);
    if (length > 1) {
        const cw_xy along = {(tip.x - foot.x) / length, (tip.y - foot.y) / length};
        cw_paper_line(drawing, CW_LAYER_DIMENSION, foot, cw_xy_plus(tip, along, -fmin(3, length)));
        cw_paper_head(drawing, CW_LAYER_DIMENSION, tip, along, fmin(5, length));
    }
    const cw_text_style style = {.align = CW_ALIGN_CENTER, .halo = true, .valign = CW_VALIGN_TOP};
    draw_text_at(drawing, (min.x + max.x) / 2, min.y, style, text);
}

void draw_callout(cw_drawing *drawing, cw_xy tip, draw_rows rows, const char *text)
{
    static const double shifts[CALLOUT_SHIFTS] = {0,   12, -12, 24, -24, 38,  -38, 54,
                                                  -54, 74, -74, 96, -96, 124, -124};
    const cw_xy size = block_size(drawing, text, drawing->text_pt), at = draw_paper(drawing, tip);
    for (int row = 0; row < CALLOUT_ROWS; row++) {
        const double y = rows.y_pt + row * rows.step_pt;
        const double top = rows.step_pt < 0 ? y - size.y : y;
        for (int k = 0; k < CALLOUT_SHIFTS; k++) {
            const cw_xy min = {at.x + rows.shift_pt + shifts[k] - size.x / 2, top},
                        max = {min.x + size.x, top + size.y};
            const cw_xy foot = block_foot(min, max, at);
            /* A leader that lies flat on what it points at is not read. */
            if (fabs(at.x - foot.x) > 4 * fabs(at.y - foot.y) + 8)
                continue;
            if (!block_is_free(drawing, min, max) || !leader_is_free(drawing, foot, at))
                continue;
            write_callout(drawing, min, max, at, text);
            return;
        }
    }
    cw_draw_label(drawing, (cw_label){.at = tip, .text = text, .leader = true});
}

/* ---- picture geometry ---- */

const cw_piece_shape *draw_row_shape(const cw_plan *plan, cw_order_row row)
{
    for (int i = 0; i < plan->type_count; i++)
        if (plan->types[i].row == row)
            return &plan->types[i].shape;
    return NULL;
}

bool draw_is_ring(const cw_plan *plan)
{
    return plan->job->box.form == CW_FORM_RING;
}

double draw_face_tan(const cw_piece_shape *shape, bool upstream)
{
    const cw_piece_end *end = upstream ? &shape->upstream : &shape->downstream;
    const double angle_deg = end->skew_deg + (upstream ? -end->mitre_deg : end->mitre_deg);
    return tan(angle_deg * CW_RAD_PER_DEG);
}

const char *draw_top_word(const cw_plan *plan)
{
    return plan->job->box.form == CW_FORM_DOUBLE_U ? "hood" : "lid";
}

const char *draw_base_word(const cw_plan *plan)
{
    return draw_is_ring(plan) ? "box" : "base";
}
