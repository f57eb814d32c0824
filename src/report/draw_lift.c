/* One crane setup: plan with reach, swing and what is in the way, and the worst pick seen from the
 * side. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

/* Drawn beyond what must be seen. */
#define MARGIN_FT 8.0
/* A power line farther off than this many reaches is named under the drawing. */
#define LINE_REACHES 1.6

typedef struct sheet {
    const cw_plan *plan;
    const cw_plan_setup *setup;
    cw_arena *arena;
    cw_drawing *drawing;
    double edge_ft, toe_ft; /* of the cut, from the centre line */
    double far_ft;          /* farthest pick of this setup */
    cw_xy crane;            /* x along the run, y to the left */
} sheet;

static const char *feet(const sheet *s, double length_ft)
{
    return draw_survey(s->plan, s->arena, length_ft);
}

static cw_xy place_of(const sheet *s, int piece)
{
    const cw_plan_piece *p = &s->plan->pieces[piece];
    const cw_plan_type *type = &s->plan->types[p->type];
    return (cw_xy){p->start_ft + type->weight.y_ft / s->plan->slope_factor,
                   -(s->plan->barrels[p->barrel].offset_ft + type->weight.x_ft)};
}

static double radius_of(const sheet *s, int piece)
{
    return s->plan->cranes.picks[piece].radius_ft;
}

static sheet sheet_of(const cw_plan *plan, int setup, cw_arena *arena)
{
    const cw_job_cranes *cranes = &plan->job->cranes;
    sheet s = {.plan = plan, .setup = &plan->cranes.setups[setup], .arena = arena};
    s.toe_ft = plan->width_ft / 2.0 + cranes->beside_ft;
    s.edge_ft = s.toe_ft + cranes->side_slope * cranes->depth_ft;
    s.far_ft = radius_of(&s, s.setup->farthest);
    s.crane = (cw_xy){s.setup->at->at_ft, -s.setup->offset_ft};
    return s;
}

/* ---- plan ---- */

static void draw_trench(const sheet *s, double from, double to)
{
    for (int side = -1; side <= 1; side += 2) {
        const cw_xy edge[2] = {{from, side * s->edge_ft}, {to, side * s->edge_ft}};
        const cw_xy toe[2] = {{from, side * s->toe_ft}, {to, side * s->toe_ft}};
        cw_draw_polyline(s->drawing, CW_LAYER_OUTLINE, edge, 2);
        draw_dashed(s->drawing, CW_LAYER_HIDDEN, CW_DASH_SHORT, toe, 2);
    }
    cw_draw_label(s->drawing, (cw_label){.at = {from + 0.06 * (to - from), s->edge_ft},
                                         .text = "edge of cut",
                                         .side = CW_SIDE_ABOVE});
}

static void draw_pieces(const sheet *s, double from, double to)
{
    const double half = s->plan->outside_width_in / CW_IN_PER_FT / 2.0;
    for (int i = 0; i < s->plan->piece_count; i++) {
        const cw_plan_piece *p = &s->plan->pieces[i];
        if (p->row != CW_ORDER_BASE || p->end_ft < from || p->start_ft > to)
            continue;
        const bool own = s->plan->cranes.picks[i].setup == (int)(s->setup - s->plan->cranes.setups);
        const double y = -s->plan->barrels[p->barrel].offset_ft;
        const cw_xy low = {fmax(p->start_ft, from), y - half},
                    high = {fmin(p->end_ft, to), y + half};
        cw_draw_rectangle(s->drawing, CW_LAYER_RULE, own ? CW_FILL_SHADE : CW_FILL_NONE, low, high);
    }
}

static void draw_reach(const sheet *s)
{
    const double near = radius_of(s, s->setup->nearest);
    cw_draw_circle(s->drawing, CW_LAYER_CENTER, CW_FILL_NONE, s->crane, s->far_ft);
    cw_draw_circle(s->drawing, CW_LAYER_CENTER, CW_FILL_NONE, s->crane, near);
    cw_draw_label(
        s->drawing,
        (cw_label){.at = {s->crane.x + s->far_ft * 0.7071,
                          s->crane.y + (s->crane.y > 0 ? -1 : 1) * s->far_ft * 0.7071},
                   .text = cw_arena_print(s->arena, "farthest pick %s", feet(s, s->far_ft)),
                   .leader = true});
    cw_draw_label(s->drawing,
                  (cw_label){.at = {s->crane.x - near * 0.7071,
                                    s->crane.y + (s->crane.y > 0 ? -1 : 1) * near * 0.7071},
                             .text = cw_arena_print(s->arena, "nearest pick %s", feet(s, near)),
                             .leader = true});
    if (s->plan->job->cranes.has_truck) {
        const double away = s->crane.y > 0 ? 90.0 : 270.0;
        cw_draw_arc(s->drawing, CW_LAYER_FUTURE, s->crane, s->plan->job->cranes.truck_ft,
                    away - 70.0, away + 70.0);
        cw_draw_label(s->drawing,
                      (cw_label){.at = {s->crane.x + s->plan->job->cranes.truck_ft *
                                                         (s->crane.y > 0 ? 0.5 : -0.5),
                                        s->crane.y + (s->crane.y > 0 ? 1 : -1) *
                                                         s->plan->job->cranes.truck_ft * 0.866},
                                 .text = cw_arena_print(s->arena, "trucks within %s",
                                                        feet(s, s->plan->job->cranes.truck_ft)),
                                 .leader = true});
    }
}

static void draw_crane(const sheet *s)
{
    const cw_job_crane *crane = s->setup->crane;
    const double out = crane->half_ft - crane->mat_width_ft / 2.0,
                 half_w = crane->mat_width_ft / 2.0, half_l = crane->mat_length_ft / 2.0;
    for (int i = 0; i < 4; i++) {
        const cw_xy mat = {s->crane.x + (i % 2 ? out : -out), s->crane.y + (i / 2 ? out : -out)};
        cw_draw_rectangle(s->drawing, CW_LAYER_OUTLINE, CW_FILL_GROUT,
                          (cw_xy){mat.x - half_l, mat.y - half_w},
                          (cw_xy){mat.x + half_l, mat.y + half_w});
        cw_draw_line(s->drawing, CW_LAYER_OUTLINE, s->crane, mat);
    }
    cw_draw_circle(s->drawing, CW_LAYER_CUT, CW_FILL_WHITE, s->crane, 4.0);
    const cw_xy worst = place_of(s, s->setup->worst);
    cw_draw_line(s->drawing, CW_LAYER_HIGHLIGHT, s->crane, worst);
    cw_draw_lift_mark(
        s->drawing, worst,
        cw_arena_print(s->arena, "worst pick %s,\n%s at %s", s->plan->pieces[s->setup->worst].slot,
                       draw_value(s->plan, s->arena,
                                  s->plan->cranes.picks[s->setup->worst].gross_lb, CW_DIM_LB),
                       feet(s, radius_of(s, s->setup->worst))));
    cw_draw_label(s->drawing, (cw_label){.at = s->crane,
                                         .text = cw_arena_print(s->arena, "%s\n%.0f ft boom",
                                                                crane->name, s->setup->boom_ft),
                                         .weight = CW_FONT_BOLD,
                                         .clear_pt = 14.0,
                                         .boxed = true,
                                         .leader = true,
                                         .must = true});
}

static void draw_closed(const sheet *s, double from, double to)
{
    for (int i = 0; i < s->plan->job->cranes.no_stand_count; i++) {
        const cw_job_no_stand *no = &s->plan->job->cranes.no_stands[i];
        const double a = fmax(no->from_ft, from), b = fmin(no->to_ft, to);
        const bool here =
            no->side == CW_BANK_BOTH || (no->side == CW_BANK_LEFT) == (s->crane.y > 0);
        if (!here || a >= b)
            continue;
        const double y = s->crane.y, half = 6.0;
        cw_draw_rectangle(s->drawing, CW_LAYER_HIDDEN, CW_FILL_ROCK, (cw_xy){a, y - half},
                          (cw_xy){b, y + half});
        cw_draw_label(s->drawing,
                      (cw_label){.at = {(a + b) / 2, y}, .text = "no stand", .boxed = true});
    }
}

static bool line_shown(const sheet *s, const cw_job_line *line)
{
    return fabs((line->side == CW_BANK_LEFT ? 1 : -1) * line->distance_ft - s->crane.y) <
           LINE_REACHES * s->far_ft;
}

static void draw_lines(const sheet *s, double from, double to)
{
    for (int i = 0; i < s->plan->job->cranes.line_count; i++) {
        const cw_job_line *line = &s->plan->job->cranes.lines[i];
        if (!line_shown(s, line))
            continue;
        const double y = (line->side == CW_BANK_LEFT ? 1 : -1) * line->distance_ft;
        const cw_xy wire[2] = {{from, y}, {to, y}};
        draw_dashed(s->drawing, CW_LAYER_HIGHLIGHT, CW_DASH_PHANTOM, wire, 2);
        cw_draw_label(s->drawing,
                      (cw_label){.at = {(from + to) / 2, y},
                                 .text = cw_arena_print(s->arena, "%s, %s kV%s", line->name,
                                                        cw_decimal(s->arena, line->kilovolts, 1),
                                                        line->known ? "" : " presumed"),
                                 .weight = CW_FONT_BOLD,
                                 .side = CW_SIDE_BELOW,
                                 .must = true});
    }
}

/* Lines that lie too far off to be drawn, one row each. */
static const char *far_lines(const sheet *s, int *count)
{
    cw_text text = cw_text_on(s->arena);
    *count = 0;
    for (int i = 0; i < s->plan->job->cranes.line_count; i++) {
        const cw_job_line *line = &s->plan->job->cranes.lines[i];
        const double y = (line->side == CW_BANK_LEFT ? 1 : -1) * line->distance_ft;
        if (!line_shown(s, line))
            cw_text_print(&text, "%s%s, %s kV: %s from the slew centre", (*count)++ ? "\n" : "",
                          line->name, cw_decimal(s->arena, line->kilovolts, 1),
                          feet(s, fabs(y - s->crane.y)));
    }
    return *count ? cw_text_string(&text) : NULL;
}

const cw_drawing *cw_draw_lift_plan(const cw_plan *plan, int setup, double width_pt,
                                    double height_pt, cw_arena *arena)
{
    sheet s = sheet_of(plan, setup, arena);
    int far_count = 0;
    const char *far = far_lines(&s, &far_count);
    const double text_pt = draw_lettering_pt(width_pt), foot_pt = draw_foot_pt(text_pt, far_count);
    const double from = s.crane.x - s.far_ft - MARGIN_FT, to = s.crane.x + s.far_ft + MARGIN_FT;
    double low = fmin(-s.edge_ft, s.crane.y - s.setup->crane->half_ft) - MARGIN_FT;
    double high = fmax(s.edge_ft, s.crane.y + s.setup->crane->half_ft) + MARGIN_FT;
    const double truck = plan->job->cranes.has_truck ? plan->job->cranes.truck_ft + MARGIN_FT : 0.0;
    low = s.crane.y < 0 ? fmin(low, s.crane.y - truck) : low;
    high = s.crane.y > 0 ? fmax(high, s.crane.y + truck) : high;
    for (int i = 0; i < plan->job->cranes.line_count; i++) {
        const cw_job_line *line = &plan->job->cranes.lines[i];
        const double y = (line->side == CW_BANK_LEFT ? 1 : -1) * line->distance_ft;
        low = line_shown(&s, line) ? fmin(low, y - 2.0 * MARGIN_FT) : low;
        high = line_shown(&s, line) ? fmax(high, y + MARGIN_FT) : high;
    }
    s.drawing = draw_new(arena,
                         cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                                    .height_pt = height_pt,
                                                    .min = {from, low},
                                                    .max = {to, high},
                                                    .left_pt = 6.0,
                                                    .right_pt = 6.0,
                                                    .top_pt = 6.0,
                                                    .bottom_pt = foot_pt}),
                         text_pt);
    draw_pieces(&s, from, to);
    draw_trench(&s, from, to);
    draw_closed(&s, from, to);
    draw_reach(&s);
    draw_crane(&s);
    draw_lines(&s, from, to);
    const double at =
        s.crane.y > 0 ? s.crane.y - s.setup->crane->half_ft : s.crane.y + s.setup->crane->half_ft;
    cw_draw_label(s.drawing,
                  (cw_label){.at = {s.crane.x - s.setup->crane->half_ft, at},
                             .text = cw_arena_print(arena, "mats %s from the edge,\nneeded %s",
                                                    feet(&s, s.setup->setback.edge_ft),
                                                    feet(&s, s.setup->setback.edge_needed_ft)),
                             .side = CW_SIDE_LEFT_OF,
                             .leader = true});
    cw_draw_flow_arrow(
        s.drawing,
        (cw_xy){to - 0.12 * (to - from), s.crane.y > 0 ? -s.edge_ft - 5.0 : s.edge_ft + 5.0},
        180.0);
    draw_foot(s.drawing, cw_arena_print(arena, "Setup %d, plan; upstream to the right", setup + 1),
              far, true);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}

/* ---- elevation ---- */

static void draw_boom(const sheet *s, double radius, double tip_z)
{
    const cw_job_crane *crane = s->setup->crane;
    const cw_xy pivot = {-crane->pivot_back_ft, crane->pivot_height_ft}, tip = {radius, tip_z};
    cw_draw_line(s->drawing, CW_LAYER_HIGHLIGHT, pivot, tip);
    cw_draw_rectangle(s->drawing, CW_LAYER_OUTLINE, CW_FILL_SHADE,
                      (cw_xy){-crane->half_ft * 0.7, 3.0},
                      (cw_xy){crane->half_ft * 0.7, crane->pivot_height_ft});
    for (int side = -1; side <= 1; side += 2) {
        const double x = side * (crane->half_ft - crane->mat_width_ft / 2.0);
        cw_draw_rectangle(s->drawing, CW_LAYER_CUT, CW_FILL_GROUT,
                          (cw_xy){x - crane->mat_width_ft / 2.0, 0.0},
                          (cw_xy){x + crane->mat_width_ft / 2.0, 1.0});
        cw_draw_line(s->drawing, CW_LAYER_OUTLINE, (cw_xy){x, 1.0}, (cw_xy){x, 4.0});
        cw_draw_line(s->drawing, CW_LAYER_OUTLINE, (cw_xy){0.0, 4.0}, (cw_xy){x, 4.0});
    }
    cw_draw_label(
        s->drawing,
        (cw_label){.at = {(pivot.x + tip.x) / 2, (pivot.y + tip.y) / 2},
                   .text = cw_arena_print(s->arena, "%.0f ft boom at %.0f deg", s->setup->boom_ft,
                                          atan2(tip.y - pivot.y, tip.x - pivot.x) * CW_DEG_PER_RAD),
                   .side = CW_SIDE_LEFT_OF,
                   .must = true});
}

static void draw_hanging(const sheet *s, double radius, double tip_z)
{
    const cw_plan_type *type = &s->plan->types[s->plan->pieces[s->setup->worst].type];
    const cw_job *job = s->plan->job;
    const double half = type->weight.width_in / CW_IN_PER_FT / 2.0,
                 tall = type->weight.height_in / CW_IN_PER_FT;
    const double foot = job->cranes.obstacle_ft + 2.0, top = foot + tall,
                 hook = top + job->lifting.hook_ft;
    cw_draw_rectangle(s->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, (cw_xy){radius - half, foot},
                      (cw_xy){radius + half, top});
    cw_draw_line(s->drawing, CW_LAYER_OUTLINE, (cw_xy){radius - half * 0.9, top},
                 (cw_xy){radius, hook});
    cw_draw_line(s->drawing, CW_LAYER_OUTLINE, (cw_xy){radius + half * 0.9, top},
                 (cw_xy){radius, hook});
    cw_draw_line(s->drawing, CW_LAYER_OUTLINE, (cw_xy){radius, hook}, (cw_xy){radius, tip_z});
    cw_draw_label(s->drawing,
                  (cw_label){.at = {radius + half, (foot + top) / 2},
                             .text = cw_arena_print(s->arena, "%s at its highest,\n%s passed over",
                                                    s->plan->pieces[s->setup->worst].slot,
                                                    feet(s, job->cranes.obstacle_ft)),
                             .side = CW_SIDE_RIGHT_OF,
                             .must = true});
    const double bed = -job->cranes.depth_ft;
    cw_draw_rectangle(s->drawing, CW_LAYER_FUTURE, CW_FILL_NONE, (cw_xy){radius - half, bed},
                      (cw_xy){radius + half, bed + tall});
    cw_draw_cg_mark(s->drawing, (cw_xy){radius, foot + type->weight.z_ft});
}

/* Ground along the line of the boom: the cut is crossed at an angle, so it looks wider. */
static void draw_ground(const sheet *s, double radius, double from, double to)
{
    const double off = fabs(s->setup->offset_ft), depth = s->plan->job->cranes.depth_ft;
    const double across = fabs(place_of(s, s->setup->worst).y - s->crane.y) / fmax(radius, 1.0);
    if (across < 0.3)
        return;
    const cw_xy line[6] = {{from, 0},
                           {(off - s->edge_ft) / across, 0},
                           {(off - s->toe_ft) / across, -depth},
                           {fmin((off + s->toe_ft) / across, to), -depth},
                           {fmin((off + s->edge_ft) / across, to + 1), 0},
                           {fmax(to, (off + s->edge_ft) / across), 0}};
    int count = 6;
    if ((off + s->edge_ft) / across > to)
        count = 4;
    cw_draw_polyline(s->drawing, CW_LAYER_CUT, line, count);
}

const cw_drawing *cw_draw_lift_elevation(const cw_plan *plan, int setup, double width_pt,
                                         double height_pt, cw_arena *arena)
{
    sheet s = sheet_of(plan, setup, arena);
    const cw_job_crane *crane = s.setup->crane;
    const double text_pt = draw_lettering_pt(width_pt), foot_pt = draw_foot_pt(text_pt, 0);
    const double radius = radius_of(&s, s.setup->worst), run = radius + crane->pivot_back_ft;
    const double tip_z =
        crane->pivot_height_ft + sqrt(fmax(0.0, s.setup->boom_ft * s.setup->boom_ft - run * run));
    const double from = -crane->half_ft - MARGIN_FT,
                 to = radius + plan->outside_width_in / CW_IN_PER_FT + 4.0 * MARGIN_FT;
    s.drawing =
        draw_new(arena,
                 cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                            .height_pt = height_pt,
                                            .min = {from, -plan->job->cranes.depth_ft - 3.0},
                                            .max = {to, tip_z + 4.0},
                                            .left_pt = 6.0,
                                            .right_pt = 6.0,
                                            .top_pt = 6.0,
                                            .bottom_pt = foot_pt + 18.0}),
                 text_pt);
    draw_ground(&s, radius, from, to);
    draw_boom(&s, radius, tip_z);
    draw_hanging(&s, radius, tip_z);
    cw_draw_dimension(s.drawing,
                      (cw_dimension){.a = {0.0, -plan->job->cranes.depth_ft},
                                     .b = {radius, -plan->job->cranes.depth_ft},
                                     .kind = CW_DIMENSION_HORIZONTAL,
                                     .offset_pt = -14.0,
                                     .text = cw_arena_print(arena, "radius %s", feet(&s, radius))});
    draw_foot(s.drawing, cw_arena_print(arena, "Setup %d, worst pick, along the boom", setup + 1),
              NULL, true);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
