/* What stands in the way of the cut, straightened: upstream runs to the right, the centre line is
 * level. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define LEAST_PIPE_PT 2.0 /* thinner pipes are drawn this wide */

typedef struct picture {
    const cw_plan *plan;
    const cw_plan_conflicts *conflicts;
    cw_arena *arena;
    cw_drawing *drawing;
    cw_xy low, high; /* window: x along the centre line, y to the left of it */
} picture;

static void take_in(picture *p, double at_ft, double offset_ft)
{
    p->low = (cw_xy){fmin(p->low.x, at_ft), fmin(p->low.y, -offset_ft)};
    p->high = (cw_xy){fmax(p->high.x, at_ft), fmax(p->high.y, -offset_ft)};
}

/* Things far off are cut at the rim: they do not squeeze the rest. */
static void measure(picture *p)
{
    const cw_plan_outline *cut = &p->conflicts->cut;
    double half_ft = cut->half_bottom_ft;
    for (int i = 0; i < cut->count; i++)
        half_ft = fmax(half_ft, cut->points[i].half_ft);
    p->low = (cw_xy){cut->start_ft, 0};
    p->high = (cw_xy){cut->end_ft, 0};
    take_in(p, 0, half_ft);
    take_in(p, 0, -half_ft);
    const double most_ft = 2.2 * half_ft + 10.0;
    for (int i = 0; i < p->conflicts->structure_count; i++) {
        const cw_job_structure *given = p->conflicts->structures[i].given;
        take_in(p, 0, copysign(fmin(fabs(given->far_ft), most_ft), given->far_ft));
    }
    for (int i = 0; i < p->conflicts->utility_count; i++) {
        const cw_job_utility *given = p->conflicts->utilities[i].given;
        const double offsets_ft[2] = {given->from_offset_ft, given->to_offset_ft};
        for (int k = 0; k < 2 && !given->has_at; k++)
            take_in(p, 0, copysign(fmin(fabs(offsets_ft[k]) + 2.0, most_ft), offsets_ft[k]));
    }
    for (int i = 0; i < p->conflicts->line_count; i++) {
        const cw_plan_line *line = &p->conflicts->lines[i];
        if (!line->outside)
            take_in(p, 0, (line->right ? 1.0 : -1.0) * fmin(line->away_ft + 2.0, most_ft));
    }
}

static void frame_picture(picture *p, double width_pt, double height_pt)
{
    const double text = draw_lettering_pt(width_pt);
    const cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                                    .height_pt = height_pt,
                                                    .min = p->low,
                                                    .max = p->high,
                                                    .left_pt = 7 * text,
                                                    .right_pt = 7 * text,
                                                    .top_pt = 8 * text,
                                                    .bottom_pt = draw_foot_pt(text, 2) + 8 * text});
    p->drawing = draw_new(p->arena, view, text);
}

static cw_xy at_place(double at_ft, double offset_ft)
{
    return (cw_xy){at_ft, -offset_ft};
}

static draw_rows rows_above(const picture *p)
{
    return (draw_rows){draw_paper(p->drawing, p->high).y - 10, -1.6 * p->drawing->text_pt, 0};
}

static draw_rows rows_below(const picture *p)
{
    return (draw_rows){draw_paper(p->drawing, p->low).y + 10, 1.6 * p->drawing->text_pt, 0};
}

static void note(picture *p, cw_xy tip, const char *words)
{
    draw_callout(p->drawing, tip, tip.y >= 0 ? rows_above(p) : rows_below(p), words);
}

/* ---- the cut and the box ---- */

static void cut(picture *p)
{
    const cw_plan_outline *cut = &p->conflicts->cut;
    const int count = cut->count;
    cw_xy *ring = CW_TAKE(p->arena, cw_xy, 2 * count);
    for (int i = 0; i < count; i++) {
        ring[i] = at_place(cut->points[i].at_ft, -cut->points[i].half_ft);
        ring[2 * count - 1 - i] = at_place(cut->points[i].at_ft, cut->points[i].half_ft);
    }
    cw_draw_polygon(p->drawing, CW_LAYER_CUT, CW_FILL_WHITE, ring, 2 * count);
    const double half = cut->half_bottom_ft;
    const cw_xy bottom[5] = {at_place(cut->start_ft, -half), at_place(cut->end_ft, -half),
                             at_place(cut->end_ft, half), at_place(cut->start_ft, half),
                             at_place(cut->start_ft, -half)};
    cw_draw_polyline(p->drawing, CW_LAYER_HIDDEN, bottom, 5);
    const double out = p->plan->outside_width_in / CW_IN_PER_FT / 2;
    for (int b = 0; b < p->plan->barrel_count; b++) {
        const double y = p->plan->barrels[b].offset_ft;
        cw_draw_rectangle(p->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, at_place(0, y + out),
                          at_place(p->plan->plan_length_ft, y - out));
    }
    cw_draw_line(p->drawing, CW_LAYER_CENTER, at_place(cut->start_ft, 0), at_place(cut->end_ft, 0));
}

/* ---- obstacles ---- */

/* The stretch of a line inside the window; false when there is none. */
static bool clip(const picture *p, cw_xy ends[2])
{
    const double from[2] = {ends[0].x, ends[0].y},
                 way[2] = {ends[1].x - ends[0].x, ends[1].y - ends[0].y};
    const double low[2] = {p->low.x, p->low.y}, high[2] = {p->high.x, p->high.y};
    double t[2] = {0, 1};
    for (int axis = 0; axis < 2; axis++) {
        if (fabs(way[axis]) < 1e-9) {
            if (from[axis] < low[axis] || from[axis] > high[axis])
                return false;
            continue;
        }
        const double a = (low[axis] - from[axis]) / way[axis],
                     b = (high[axis] - from[axis]) / way[axis];
        t[0] = fmax(t[0], fmin(a, b));
        t[1] = fmin(t[1], fmax(a, b));
    }
    if (t[0] >= t[1])
        return false;
    for (int k = 0; k < 2; k++)
        ends[k] = (cw_xy){from[0] + t[k] * way[0], from[1] + t[k] * way[1]};
    return true;
}

static void utility(picture *p, const cw_plan_utility *found)
{
    const cw_job_utility *given = found->given;
    cw_xy ends[2];
    if (given->has_at) {
        const double angle = given->angle_deg * CW_RAD_PER_DEG, reach = 2000.0;
        ends[0] = at_place(given->at_ft - reach * cos(angle), -reach * sin(angle));
        ends[1] = at_place(given->at_ft + reach * cos(angle), reach * sin(angle));
    } else {
        ends[0] = at_place(given->from_ft, given->from_offset_ft);
        ends[1] = at_place(given->to_ft, given->to_offset_ft);
    }
    if (!clip(p, ends))
        return;
    const double length = hypot(ends[1].x - ends[0].x, ends[1].y - ends[0].y);
    const cw_xy side = {-(ends[1].y - ends[0].y) / length, (ends[1].x - ends[0].x) / length};
    const double half =
        fmax(given->diameter_in / CW_IN_PER_FT, LEAST_PIPE_PT / p->drawing->view.scale_x) / 2;
    const cw_layer layer = given->status == CW_UTILITY_LIVE ? CW_LAYER_OUTLINE : CW_LAYER_HIDDEN;
    cw_draw_line(p->drawing, layer, cw_xy_plus(ends[0], side, half),
                 cw_xy_plus(ends[1], side, half));
    cw_draw_line(p->drawing, layer, cw_xy_plus(ends[0], side, -half),
                 cw_xy_plus(ends[1], side, -half));
    // A crossing is named at its upper end, a line beside the cut in its middle.
    const cw_xy tip = given->has_at
                          ? (ends[0].y > ends[1].y ? ends[0] : ends[1])
                          : (cw_xy){(ends[0].x + ends[1].x) / 2, (ends[0].y + ends[1].y) / 2};
    const char *top =
        !found->has_level
            ? "level not known"
            : cw_arena_print(p->arena, "top %s",
                             draw_value(p->plan, p->arena, found->top_ft, CW_DIM_ELEV_FT));
    note(p, tip,
         cw_arena_print(p->arena, "%s%s\n%s, %s", given->name,
                        given->status == CW_UTILITY_LIVE ? "" : " (abandoned)",
                        draw_cast(p->plan, p->arena, given->diameter_in), top));
}

static void structure(picture *p, const cw_plan_structure *found)
{
    const cw_job_structure *given = found->given;
    const double from = fmax(given->from_ft, p->low.x), to = fmin(given->to_ft, p->high.x);
    if (from >= to)
        return;
    const double far = -given->far_ft < p->low.y    ? p->low.y
                       : -given->far_ft > p->high.y ? p->high.y
                                                    : -given->far_ft;
    const double near = -given->near_ft;
    if (near <= p->low.y || near >= p->high.y)
        return;
    cw_draw_rectangle(p->drawing, CW_LAYER_CUT, CW_FILL_ROCK, (cw_xy){from, fmin(near, far)},
                      (cw_xy){to, fmax(near, far)});
    note(p, (cw_xy){(from + to) / 2, far},
         cw_arena_print(p->arena, "%s\nfooting %s", given->name,
                        draw_value(p->plan, p->arena, given->foundation_ft, CW_DIM_ELEV_FT)));
}

static void boundary(picture *p, const char *name, double from_ft, double from_offset_ft,
                     double to_ft, double to_offset_ft)
{
    cw_xy ends[2] = {at_place(from_ft, from_offset_ft), at_place(to_ft, to_offset_ft)};
    if (!clip(p, ends))
        return;
    draw_dashed(p->drawing, CW_LAYER_OUTLINE, CW_DASH_PHANTOM, ends, 2);
    const cw_xy tip = {0.85 * ends[1].x + 0.15 * ends[0].x, 0.85 * ends[1].y + 0.15 * ends[0].y};
    note(p, tip, name);
}

static void boundaries(picture *p)
{
    const cw_job_obstacles *given = &p->plan->job->obstacles;
    if (given->has_left)
        boundary(p, "Right of way, left", p->low.x, -given->left_ft, p->high.x, -given->left_ft);
    if (given->has_right)
        boundary(p, "Right of way, right", p->low.x, given->right_ft, p->high.x, given->right_ft);
    for (int i = 0; i < given->boundary_count; i++) {
        const cw_job_boundary *line = &given->boundaries[i];
        boundary(p, line->name, line->from_ft, line->from_offset_ft, line->to_ft,
                 line->to_offset_ft);
    }
}

/* Phase line, the top edge of its temporary face, and the edge of the lane. */
static void edge(picture *p, const cw_plan_phase_edge *found)
{
    cw_drawing *d = p->drawing;
    const cw_job_phase *phase = &p->plan->job->phases[found->phase];
    const double way = found->upstream ? 1 : -1, lane = phase->at_ft + way * found->lane_ft;
    const double left = p->high.y, right = p->low.y;
    cw_draw_line(d, CW_LAYER_HIGHLIGHT, (cw_xy){phase->at_ft, left}, (cw_xy){phase->at_ft, right});
    const cw_xy at_lane[2] = {{lane, left}, {lane, right}};
    cw_draw_polyline(d, CW_LAYER_OUTLINE, at_lane, 2);
    note(p, (cw_xy){lane, found->upstream ? left : right},
         cw_arena_print(p->arena, "Live lane, %s\nfrom phase line %d",
                        draw_survey(p->plan, p->arena, found->lane_ft), found->phase + 1));
    if (!found->has_depth)
        return;
    const double top = phase->at_ft + way * found->take.edge_ft;
    const cw_xy at_top[2] = {{top, left}, {top, right}};
    draw_dashed(d, CW_LAYER_CUT, CW_DASH_SHORT, at_top, 2);
    note(p, (cw_xy){top, found->upstream ? right : left},
         cw_arena_print(p->arena, "Edge of the cut, %s\n%s deep",
                        found->take.fit == CW_HOLDS ? "face fits" : "DOES NOT FIT",
                        draw_survey(p->plan, p->arena, found->depth_ft)));
}

static void ends(picture *p)
{
    cw_drawing *d = p->drawing;
    const double size = d->text_pt;
    const cw_xy out = draw_paper(d, at_place(p->conflicts->cut.start_ft, 0)),
                in = draw_paper(d, at_place(p->conflicts->cut.end_ft, 0));
    const cw_text_style bold = {.weight = CW_FONT_BOLD, .valign = CW_VALIGN_MIDDLE, .halo = true};
    draw_text_at(d, in.x + size, in.y, bold, "INLET");
    cw_text_style right = bold;
    right.align = CW_ALIGN_RIGHT;
    draw_text_at(d, out.x - size, out.y, right, "OUTLET");
}

const cw_drawing *cw_draw_obstacles(const cw_plan *plan, double width_pt, double height_pt,
                                    cw_arena *arena)
{
    picture p = {.plan = plan, .conflicts = &plan->conflicts, .arena = arena};
    static const char title[] = "THE CUT AND WHAT STANDS IN ITS WAY";
    if (!plan->conflicts.present)
        return draw_sentence(arena, width_pt, height_pt, title,
                             "The job names no obstacles and no traffic beside the cut.");
    measure(&p);
    frame_picture(&p, width_pt, height_pt);
    cut(&p);
    for (int i = 0; i < p.conflicts->structure_count; i++)
        structure(&p, &p.conflicts->structures[i]);
    for (int i = 0; i < p.conflicts->utility_count; i++)
        if (!p.conflicts->utilities[i].outside)
            utility(&p, &p.conflicts->utilities[i]);
    for (int i = 0; i < p.conflicts->edge_count; i++)
        edge(&p, &p.conflicts->edges[i]);
    boundaries(&p);
    ends(&p);
    int lines;
    draw_foot(p.drawing, title,
              draw_wrapped(arena,
                           cw_arena_print(arena,
                                          "Upstream runs to the right; drawn straight along the "
                                          "center line. Full line: cut at the "
                                          "ground; dashed: its bottom. %s.",
                                          plan->conflicts.cut.how),
                           p.drawing->text_pt, width_pt - 12 * p.drawing->text_pt, &lines),
              true);
    cw_drawing_finish(p.drawing);
    return p.drawing;
}
