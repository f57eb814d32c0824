/* The schedule as pictures: bars by day with the chance to be done, and setting against station. */
#include <math.h>

#include "cw/date.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_panel.h"

#define BAR_SHARE 0.55     /* of the height of a line */
#define WEEK_LEAST_PT 46.0 /* between two dates */
#define OFTEN 0.5          /* share of the runs from which a bar is drawn black */

typedef struct chart {
    const cw_plan *plan;
    const cw_plan_schedule *s;
    cw_arena *arena;
    cw_drawing *drawing;
    double left_pt, right_pt, top_pt, row_pt;
    double days;   /* shown */
    int step_days; /* between two dates */
} chart;

static double x_of(const chart *c, double days)
{
    return c->left_pt + days / c->days * (c->right_pt - c->left_pt);
}

static double last_day(const cw_plan_schedule *s)
{
    double last = s->steady_min / CW_DAY_MIN;
    if (s->runs > 0)
        last = fmax(last, s->finish.p90);
    if (s->has_by)
        last = fmax(last, s->by_day - s->first_day + 1.0);
    return ceil(last + 1.0);
}

static void box(chart *c, cw_fill fill, cw_layer layer, double x0, double x1, double y0, double y1)
{
    const cw_xy corners[4] = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    cw_paper_path(c->drawing, layer, fill, corners, 4, true);
}

/* Dates on Mondays, or on every so many days where weeks are too near. */
static void date_scale(chart *c, double bottom_pt)
{
    const double week_pt = (c->right_pt - c->left_pt) / c->days * CW_WEEKDAYS;
    const int weeks = (int)ceil(WEEK_LEAST_PT / week_pt);
    c->step_days = week_pt > WEEK_LEAST_PT * CW_WEEKDAYS ? 1 : weeks * CW_WEEKDAYS;
    const int first =
        c->step_days == 1 ? 0 : (CW_WEEKDAYS - cw_date_weekday(c->s->first_day)) % CW_WEEKDAYS;
    for (int d = first; d <= (int)c->days; d += c->step_days) {
        const double x = x_of(c, d);
        cw_paper_line(c->drawing, CW_LAYER_GRID, (cw_xy){x, c->top_pt}, (cw_xy){x, bottom_pt});
        draw_text_at(c->drawing, x, c->top_pt - 3,
                     (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_BOTTOM},
                     cw_date_print(c->arena, c->s->first_day + d) + 5); // month and day
    }
}

static void draw_bars(chart *c)
{
    const double half = 0.5 * BAR_SHARE * c->row_pt;
    for (int i = 0; i < c->s->bar_count; i++) {
        const cw_plan_bar *bar = &c->s->bars[i];
        const double y = c->top_pt + (i + 0.5) * c->row_pt;
        const double x0 = x_of(c, bar->start_min / CW_DAY_MIN);
        const double x1 = fmax(x0 + 1.0, x_of(c, bar->finish_min / CW_DAY_MIN));
        draw_text_at(c->drawing, c->left_pt - 6, y,
                     (cw_text_style){.align = CW_ALIGN_RIGHT, .valign = CW_VALIGN_MIDDLE},
                     bar->name);
        box(c, bar->critical >= OFTEN ? CW_FILL_SOLID : CW_FILL_SHADE, CW_LAYER_OUTLINE, x0, x1,
            y - half, y + half);
        if (c->s->runs > 0)
            draw_text_at(c->drawing, x1 + 4, y,
                         (cw_text_style){.valign = CW_VALIGN_MIDDLE, .halo = true},
                         cw_arena_print(c->arena, "%s %%",
                                        cw_decimal(c->arena, bar->critical * CW_PERCENT, 0)));
    }
}

static void upright(chart *c, double days, double bottom_pt, cw_layer layer, const char *words)
{
    const double x = x_of(c, days);
    cw_paper_line(c->drawing, layer, (cw_xy){x, c->top_pt}, (cw_xy){x, bottom_pt});
    draw_text_at(c->drawing, x, bottom_pt + 3,
                 (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP, .halo = true},
                 words);
}

static void draw_uprights(chart *c, double bottom_pt)
{
    const double line =
        1.3 * c->drawing->text_pt; // words one under the other: the days may be near
    if (c->s->runs > 0) {
        upright(c, c->s->finish.p50, bottom_pt, CW_LAYER_HIDDEN, "P50");
        upright(c, c->s->finish.p80, bottom_pt + line, CW_LAYER_CENTER, "P80");
    }
    if (c->s->has_by)
        upright(c, c->s->by_day - c->s->first_day + 1.0, bottom_pt + 2.0 * line, CW_LAYER_HIGHLIGHT,
                "wanted");
}

/* Share of the runs that are done, by day. */
static void draw_chance(chart *c, double top_pt, double bottom_pt)
{
    const draw_panel panel = {.left_pt = c->left_pt,
                              .right_pt = c->right_pt,
                              .top_pt = top_pt,
                              .bottom_pt = bottom_pt,
                              .x_high = c->days,
                              .y_high = CW_PERCENT,
                              .x_step = draw_panel_step(c->days, c->right_pt - c->left_pt, 40.0),
                              .y_step = 20.0,
                              .x_words = "Days from the midnight before the first day",
                              .y_words = "Runs done, %",
                              .title = "Chance to be done"};
    draw_panel_frame(&panel, c->drawing);
    cw_xy *points = CW_TAKE(c->arena, cw_xy, c->s->runs + 2);
    int count = 0;
    for (int i = 0; i < c->s->runs && c->s->finish_days[i] < c->days; i++)
        points[count++] =
            (cw_xy){c->s->finish_days[i], CW_PERCENT * (i + 1.0) / (c->s->runs + c->s->stopped)};
    draw_panel_line(&panel, c->drawing, CW_LAYER_CUT, CW_DASH_NONE, points, count);
}

static double widest_name(const cw_plan_schedule *s)
{
    double most = 0.0;
    for (int i = 0; i < s->bar_count; i++) {
        double letters = 0.0;
        for (const char *at = s->bars[i].name; *at; at++)
            letters += 1.0;
        most = fmax(most, letters);
    }
    return most;
}

const cw_drawing *cw_draw_schedule(const cw_plan *plan, double width_pt, double height_pt,
                                   cw_arena *arena)
{
    static const char title[] = "Schedule";
    const cw_plan_schedule *s = &plan->schedule;
    if (!s->present || s->status != CW_SETTING_DONE)
        return draw_sentence(arena, width_pt, height_pt, title, "No schedule was found.");
    const double text = draw_lettering_pt(width_pt);
    chart c = {.plan = plan, .s = s, .arena = arena, .days = last_day(s)};
    c.drawing = draw_new(
        arena, (cw_view){.width_pt = width_pt, .height_pt = height_pt, .scale_x = 1, .scale_y = 1},
        text);
    const char *notes = s->runs > 0 ? "Bars: all times at their medians, no bad days. Black, and "
                                      "the number: share of the runs in which "
                                      "the work held up the finish, of its most critical step."
                                    : "Bars: all times at their medians, no bad days.";
    int lines = 0;
    notes = draw_wrapped(arena, notes, text, width_pt, &lines);
    c.left_pt = fmax(6.6 * text, 0.58 * text * widest_name(s) + 10.0);
    c.right_pt = width_pt - 4.0 * text;
    c.top_pt = 2.0 * text;
    const double foot = height_pt - draw_foot_pt(text, lines);
    const double bars_end = s->runs > 0 ? c.top_pt + 0.6 * (foot - c.top_pt) : foot - 4.0 * text;
    c.row_pt = fmin(3.2 * text, (bars_end - c.top_pt) / s->bar_count);
    const double bottom = c.top_pt + c.row_pt * s->bar_count;
    date_scale(&c, bottom);
    draw_uprights(&c, bottom);
    draw_bars(&c);
    box(&c, CW_FILL_NONE, CW_LAYER_RULE, c.left_pt, c.right_pt, c.top_pt, bottom);
    if (s->runs > 0)
        draw_chance(&c, bottom + 6.5 * text, foot - 4.2 * text);
    draw_foot(c.drawing, title, notes, false);
    cw_drawing_finish(c.drawing);
    return c.drawing;
}

/* ---- setting against station ---- */

static void advance_line(const chart *c, const draw_panel *panel, int barrel, cw_order_row row)
{
    const cw_plan_barrel *line = &c->plan->barrels[barrel];
    const int *pieces = row == CW_ORDER_BASE ? line->bases : line->tops;
    const int count = row == CW_ORDER_BASE ? line->base_count : line->top_count;
    cw_xy *points = CW_TAKE(c->arena, cw_xy, count);
    for (int i = 0; i < count; i++) {
        const cw_plan_piece *piece = &c->plan->pieces[pieces[i]];
        points[i] =
            (cw_xy){(piece->start_ft + piece->end_ft) / 2.0, c->s->set_min[pieces[i]] / CW_DAY_MIN};
    }
    draw_panel_line(panel, c->drawing, row == CW_ORDER_BASE ? CW_LAYER_CUT : CW_LAYER_OUTLINE,
                    row == CW_ORDER_BASE ? CW_DASH_NONE : CW_DASH_SHORT, points, count);
    for (int i = 0; i < count; i++) {
        const cw_xy at = draw_panel_at(panel, points[i].x, points[i].y);
        const cw_xy mark[4] = {
            {at.x - 1.6, at.y}, {at.x, at.y - 1.6}, {at.x + 1.6, at.y}, {at.x, at.y + 1.6}};
        cw_paper_path(c->drawing, CW_LAYER_OUTLINE,
                      row == CW_ORDER_BASE ? CW_FILL_SOLID : CW_FILL_WHITE, mark, 4, true);
    }
}

const cw_drawing *cw_draw_advance(const cw_plan *plan, double width_pt, double height_pt,
                                  cw_arena *arena)
{
    static const char title[] = "Setting along the run";
    const cw_plan_schedule *s = &plan->schedule;
    if (!s->present || s->status != CW_SETTING_DONE)
        return draw_sentence(arena, width_pt, height_pt, title, "No schedule was found.");
    const double text = draw_lettering_pt(width_pt);
    chart c = {.plan = plan, .s = s, .arena = arena};
    c.drawing = draw_new(
        arena, (cw_view){.width_pt = width_pt, .height_pt = height_pt, .scale_x = 1, .scale_y = 1},
        text);
    int lines = 0;
    const char *words =
        plan->order->rows == 1
            ? "A mark for each ring, all times at their medians, no bad days."
            : "Full line and black marks: bases. Dashed line and white marks: tops. All times at "
              "their medians, no bad days.";
    words = draw_wrapped(arena, words, text, width_pt, &lines);
    double first = 1e30, last = 0.0, far_ft = 0.0;
    for (int i = 0; i < plan->piece_count; i++) {
        first = fmin(first, s->set_min[i] / CW_DAY_MIN);
        last = fmax(last, s->set_min[i] / CW_DAY_MIN);
        far_ft = fmax(far_ft, plan->pieces[i].end_ft);
    }
    draw_panel panel = {.left_pt = 7.0 * text,
                        .right_pt = width_pt - 2.0 * text,
                        .top_pt = 1.5 * text,
                        .bottom_pt = height_pt - draw_foot_pt(text, lines) - 4.2 * text,
                        .x_high = far_ft,
                        .y_low = floor(first),
                        .y_high = floor(last) + 1.0,
                        .x_words = "Along the barrel from its outlet face, ft",
                        .y_words = "Day"};
    panel.x_step = draw_panel_step(far_ft, panel.right_pt - panel.left_pt, 40.0);
    panel.y_step = fmax(
        1.0, draw_panel_step(panel.y_high - panel.y_low, panel.bottom_pt - panel.top_pt, 26.0));
    draw_panel_frame(&panel, c.drawing);
    for (int b = 0; b < plan->barrel_count; b++)
        for (int row = 0; row < plan->order->rows; row++)
            advance_line(&c, &panel, b, (cw_order_row)row);
    draw_foot(c.drawing, title, words, false);
    cw_drawing_finish(c.drawing);
    return c.drawing;
}
