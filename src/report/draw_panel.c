/* A small chart: a frame with two scales and what is drawn in it. */
#include "draw_panel.h"

#include <math.h>

#include "cw/quantity.h"
#include "cw/text.h"

#define TICK_PT 3.0

cw_xy draw_panel_at(const draw_panel *p, double x, double y)
{
    return (cw_xy){p->left_pt + (x - p->x_low) / (p->x_high - p->x_low) * (p->right_pt - p->left_pt),
                   p->bottom_pt - (y - p->y_low) / (p->y_high - p->y_low) * (p->bottom_pt - p->top_pt)};
}

double draw_panel_step(double span, double room_pt, double least_pt)
{
    return draw_round_step(span * least_pt / room_pt);
}

static const char *tick_text(cw_arena *arena, double value, double step)
{
    const int decimals = step >= 1 - 1e-9 ? 0 : step >= 0.1 - 1e-9 ? 1 : 2;
    return cw_decimal(arena, value, decimals);
}

static void scale_x(const draw_panel *p, cw_drawing *d)
{
    const int first = (int)ceil(p->x_low / p->x_step - 1e-9), last = (int)floor(p->x_high / p->x_step + 1e-9);
    for (int i = first; i <= last; i++) {
        const double x = draw_panel_at(p, i * p->x_step, p->y_low).x;
        cw_paper_line(d, CW_LAYER_GRID, (cw_xy){x, p->top_pt}, (cw_xy){x, p->bottom_pt});
        cw_paper_line(d, CW_LAYER_RULE, (cw_xy){x, p->bottom_pt}, (cw_xy){x, p->bottom_pt + TICK_PT});
        draw_text_at(d, x, p->bottom_pt + TICK_PT + 2,
                     (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP},
                     tick_text(d->arena, i * p->x_step, p->x_step));
    }
    draw_text_at(d, (p->left_pt + p->right_pt) / 2, p->bottom_pt + TICK_PT + 2 + 1.3 * d->text_pt,
                 (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP}, p->x_words);
}

static void scale_y(const draw_panel *p, cw_drawing *d)
{
    const int first = (int)ceil(p->y_low / p->y_step - 1e-9), last = (int)floor(p->y_high / p->y_step + 1e-9);
    for (int i = first; i <= last; i++) {
        const double y = draw_panel_at(p, p->x_low, i * p->y_step).y;
        cw_paper_line(d, CW_LAYER_GRID, (cw_xy){p->left_pt, y}, (cw_xy){p->right_pt, y});
        cw_paper_line(d, CW_LAYER_RULE, (cw_xy){p->left_pt - TICK_PT, y}, (cw_xy){p->left_pt, y});
        draw_text_at(d, p->left_pt - TICK_PT - 2, y,
                     (cw_text_style){.align = CW_ALIGN_RIGHT, .valign = CW_VALIGN_MIDDLE},
                     tick_text(d->arena, i * p->y_step, p->y_step));
    }
    draw_text_at(d, p->left_pt - 4.6 * d->text_pt, (p->top_pt + p->bottom_pt) / 2,
                 (cw_text_style){.align = CW_ALIGN_CENTER, .angle_deg = 90}, p->y_words);
}

void draw_panel_frame(const draw_panel *p, cw_drawing *d)
{
    scale_x(p, d);
    scale_y(p, d);
    const cw_xy frame[4] = {{p->left_pt, p->bottom_pt},
                            {p->right_pt, p->bottom_pt},
                            {p->right_pt, p->top_pt},
                            {p->left_pt, p->top_pt}};
    cw_paper_path(d, CW_LAYER_RULE, CW_FILL_NONE, frame, 4, true);
    if (p->title)
        draw_text_at(d, p->left_pt, p->top_pt - 4,
                     (cw_text_style){.weight = CW_FONT_BOLD, .valign = CW_VALIGN_BOTTOM}, p->title);
}

/* The part of a..b with y at most @p high, or none. */
static bool below(cw_xy *a, cw_xy *b, double high)
{
    if (a->y > high && b->y > high)
        return false;
    cw_xy *out = a->y > high ? a : b->y > high ? b : NULL;
    if (out) {
        const double t = (high - a->y) / (b->y - a->y);
        *out = (cw_xy){a->x + t * (b->x - a->x), high};
    }
    return true;
}

void draw_panel_line(const draw_panel *p, cw_drawing *d, cw_layer layer, cw_dash dash, const cw_xy *points, int count)
{
    cw_xy *run = CW_TAKE(d->arena, cw_xy, count + 1);
    int used = 0;
    for (int i = 0; i + 1 < count; i++) {
        cw_xy a = points[i], b = points[i + 1];
        if (!below(&a, &b, p->y_high))
            continue;
        if (used == 0)
            run[used++] = draw_panel_at(p, a.x, a.y);
        run[used++] = draw_panel_at(p, b.x, b.y);
    }
    if (used > 1)
        cw_paper_path(d, layer, CW_FILL_NONE, run, used, false)->pen.dash = dash;
}
