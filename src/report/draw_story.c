/* One frame of the setting storyboard: what stands, what is set now, what is still to come. */
#include <math.h>

#include "cw/report.h"
#include "cw/units.h"
#include "draw_internal.h"

#define WINDOW_PIECES 8.0 /* shown on either side of the piece that is set */
#define PEN 0.62          /* small pictures take thinner lines */

typedef struct story {
    const cw_plan *plan;
    cw_drawing *drawing;
    const cw_plan_piece *now;
    double length_ft, from_ft, to_ft;
    double left_pt, scale;
    double lane_pt, gap_pt, top_pt, text;
    double top_share; /* of a lane's height that the tops take */
} story;

static void measure(story *s, double width_pt, double height_pt)
{
    const cw_plan *plan = s->plan;
    for (int b = 0; b < plan->barrel_count; b++)
        s->length_ft =
            fmax(s->length_ft, plan->barrels[b].joints[plan->barrels[b].base_count].at.at_ft);
    const double usual_ft =
        plan->barrels[0].joints[plan->barrels[0].base_count].at.at_ft / plan->barrels[0].base_count;
    const double half_ft = (WINDOW_PIECES + 0.5) * usual_ft,
                 middle_ft = (s->now->start_ft + s->now->end_ft) / 2;
    s->from_ft = 0;
    s->to_ft = s->length_ft;
    if (s->length_ft > 2 * half_ft) {
        s->from_ft = fmin(fmax(middle_ft - half_ft, 0), s->length_ft - 2 * half_ft);
        s->to_ft = s->from_ft + 2 * half_ft;
    }
    s->left_pt = 1.9 * s->text;
    s->scale = (width_pt - s->left_pt - 5) / (s->to_ft - s->from_ft);
    s->top_pt = 2.9 * s->text;
    const double room = height_pt - s->top_pt - 1.9 * s->text;
    s->gap_pt = fmin(9, room / plan->barrel_count * 0.34);
    s->lane_pt = fmin(room / plan->barrel_count - s->gap_pt, 46);
    s->top_share = plan->barrels[0].top_count == 0           ? 0
                   : plan->job->box.form == CW_FORM_DOUBLE_U ? 0.5
                                                             : 0.32;
}

static double x_of(const story *s, double at_ft)
{
    return s->left_pt + (fmin(fmax(at_ft, s->from_ft), s->to_ft) - s->from_ft) * s->scale;
}

static double lane_top(const story *s, int barrel)
{
    return s->top_pt + barrel * (s->lane_pt + s->gap_pt) + s->gap_pt;
}

static bool box_of(const story *s, const cw_plan_piece *piece, cw_xy corners[4])
{
    if (piece->end_ft <= s->from_ft + 0.01 || piece->start_ft >= s->to_ft - 0.01)
        return false;
    const double x0 = x_of(s, piece->start_ft), x1 = x_of(s, piece->end_ft),
                 top = lane_top(s, piece->barrel);
    const double split = top + s->lane_pt * s->top_share;
    const double y0 = piece->row == CW_ORDER_TOP ? top : split,
                 y1 = piece->row == CW_ORDER_TOP ? split : top + s->lane_pt;
    corners[0] = (cw_xy){x0, y0};
    corners[1] = (cw_xy){x1, y0};
    corners[2] = (cw_xy){x1, y1};
    corners[3] = (cw_xy){x0, y1};
    return true;
}

static void pieces(story *s, bool set)
{
    cw_xy corners[4];
    for (int i = 0; i < s->plan->piece_count; i++) {
        const cw_plan_piece *piece = &s->plan->pieces[i];
        if (piece == s->now || (piece->turn < s->now->turn) != set || !box_of(s, piece, corners))
            continue;
        cw_paper_path(s->drawing, set ? CW_LAYER_OUTLINE : CW_LAYER_FUTURE,
                      set ? CW_FILL_CONCRETE : CW_FILL_NONE, corners, 4, true);
    }
}

/* The piece that is set in this step, with the arrow of its way down. */
static void piece_now(story *s)
{
    cw_xy corners[4];
    if (!box_of(s, s->now, corners))
        return;
    cw_paper_path(s->drawing, CW_LAYER_HIGHLIGHT, CW_FILL_SHADE, corners, 4, true);
    const double x = (corners[0].x + corners[1].x) / 2, head = 5.5;
    const cw_xy tip = {x, corners[0].y - 1},
                tail = {x, lane_top(s, s->now->barrel) - s->gap_pt + 1};
    if (tip.y - tail.y > head)
        cw_paper_line(s->drawing, CW_LAYER_HIGHLIGHT, tail, (cw_xy){x, tip.y - head + 1});
    cw_paper_head(s->drawing, CW_LAYER_HIGHLIGHT, tip, (cw_xy){0, 1}, fmin(head, tip.y - tail.y));
}

static void edges(story *s)
{
    for (int side = 0; side < 2; side++) {
        const bool cut = side ? s->to_ft < s->length_ft - 0.01 : s->from_ft > 0.01;
        if (!cut)
            continue;
        const double x = side ? x_of(s, s->to_ft) : x_of(s, s->from_ft);
        for (int b = 0; b < s->plan->barrel_count; b++) {
            const double top = lane_top(s, b);
            cw_draw_break_line(s->drawing, cw_at_paper(s->drawing, x, top - 2),
                               cw_at_paper(s->drawing, x, top + s->lane_pt + 2));
        }
    }
}

static void words(story *s, cw_arena *arena)
{
    cw_drawing *d = s->drawing;
    const cw_plan *plan = s->plan;
    const bool top = s->now->row == CW_ORDER_TOP;
    const char *number = cw_arena_print(arena, "%d", s->now->turn);
    draw_text_at(d, 3, 1.35 * s->text,
                 (cw_text_style){.weight = CW_FONT_BOLD, .size_pt = 1.35 * s->text}, number);
    const double after = 3 + cw_font_width_pt(number, 1.35 * s->text, CW_FONT_BOLD) + 5;
    draw_text_at(d, after, 1.35 * s->text,
                 (cw_text_style){.weight = CW_FONT_BOLD, .size_pt = 1.1 * s->text},
                 cw_arena_print(arena, "Set %s %s",
                                top ? draw_top_word(plan) : draw_base_word(plan), s->now->slot));
    draw_text_at(d, d->view.width_pt - 3, 1.35 * s->text, (cw_text_style){.align = CW_ALIGN_RIGHT},
                 plan->types[s->now->type].mark);
    for (int b = 0; b < plan->barrel_count; b++)
        draw_text_at(d, 3, lane_top(s, b) + s->lane_pt / 2,
                     (cw_text_style){.weight = CW_FONT_BOLD, .valign = CW_VALIGN_MIDDLE},
                     cw_arena_print(arena, "%d", b + 1));
    const double foot = d->view.height_pt - 0.35 * s->text;
    draw_text_at(d, s->left_pt, foot, (cw_text_style){.size_pt = 0.88 * s->text},
                 s->from_ft > 0.01 ? "to the outlet" : "OUTLET");
    draw_text_at(d, d->view.width_pt - 5, foot,
                 (cw_text_style){.align = CW_ALIGN_RIGHT, .size_pt = 0.88 * s->text},
                 s->to_ft < s->length_ft - 0.01 ? "to the inlet" : "INLET");
}

const cw_drawing *cw_draw_story_frame(const cw_plan *plan, int frame, double width_pt,
                                      double height_pt, cw_arena *arena)
{
    story s = {.plan = plan, .now = &plan->pieces[plan->setting[frame]]};
    s.text = fmin(fmax(height_pt / 12.5, 6.5), 9.25);
    measure(&s, width_pt, height_pt);
    const cw_view view = {
        .width_pt = width_pt, .height_pt = height_pt, .scale_x = s.scale, .scale_y = s.scale};
    s.drawing = draw_new(arena, view, s.text);
    s.drawing->pen_factor = PEN;
    pieces(&s, false);
    pieces(&s, true);
    piece_now(&s);
    edges(&s);
    words(&s, arena);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
