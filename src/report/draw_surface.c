/* The water in one barrel at one flow, along its length: floor, lid, surface, pressure line,
 * critical and normal depth, tailwater and pool. */
#include <math.h>
#include <stdlib.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define COUNT_OF(a) ((int)(sizeof(a) / sizeof(a)[0]))
#define LEVEL_LEAST_PT 22.0
#define DISTANCE_LEAST_PT 40.0
#define TICK_PT 3.0
#define FALL_PT 26.0 /* length on paper of a free fall or of the drop into the inlet */

enum { EVEN_STATIONS = 121, STATIONS_MAX = EVEN_STATIONS + 2 * CW_WATER_NODES_MAX + 1 };

typedef struct surface {
    const cw_plan *plan;
    const cw_plan_flow *flow;
    const cw_water_barrel *barrel;
    const cw_water_profile *profile;
    int number;
    cw_arena *arena;
    cw_drawing *drawing;
    double run_ft;                                  /* horizontal length */
    double outlet_ft, inlet_ft, opening_ft, bed_ft; /* sills; opening over them */
    double floor_ft, top_ft;                        /* thickness of the slabs, plumb */
    double pool_ft, tail_ft;
    bool has_tail, tail_below; /* below the outlet's sill */
    double low_ft, high_ft;    /* elevations shown */
    double left_ft, right_ft;  /* ends of the water outside, distance from the outlet */
    const char *words;         /* over the drawing */
    int word_lines;
} surface;

/* ---- places ---- */

/* Distance from the outlet of a place x_ft below the inlet along the barrel. */
static double distance_at(const surface *s, double x_ft)
{
    return s->run_ft * (1 - x_ft / s->profile->length_ft);
}

static double sill_at(const surface *s, double distance_ft)
{
    return s->outlet_ft + (s->inlet_ft - s->outlet_ft) * distance_ft / s->run_ft;
}

/* height_ft, plumb, over the sill of the barrel. */
static cw_xy over_sill(const surface *s, double distance_ft, double height_ft)
{
    return (cw_xy){distance_ft, sill_at(s, distance_ft) + height_ft};
}

static cw_xy at_x(const surface *s, double x_ft, double height_ft)
{
    return over_sill(s, distance_at(s, x_ft), height_ft);
}

/* ---- words ---- */

static const char *feet(const surface *s, double length_ft)
{
    return draw_survey(s->plan, s->arena, length_ft);
}

static const char *level_text(const surface *s, double level_ft)
{
    return draw_value(s->plan, s->arena, level_ft, CW_DIM_ELEV_FT);
}

static void say_depths(const surface *s, cw_text *text)
{
    const cw_water_profile *p = s->profile;
    cw_text_print(text, " Critical depth %s%s", feet(s, p->critical_ft),
                  p->critical_ft >= s->opening_ft ? " (over the opening)" : "");
    if (!p->has_normal)
        cw_text_add(text, ", no normal depth on this slope.");
    else
        cw_text_print(text, ", normal depth %s%s.", feet(s, p->normal.value),
                      p->normal.value >= s->opening_ft ? " (over the opening)" : "");
    if (p->near_critical)
        cw_text_add(text, " Both are nearly equal: the surface is unsteady.");
}

static void say_jump(const surface *s, cw_text *text)
{
    const cw_water_profile *p = s->profile;
    if (!p->has_jump)
        return;
    cw_text_print(text, " Jump %s from the inlet, from %s to %s.", feet(s, p->jump_ft),
                  feet(s, p->jump_before_ft), feet(s, p->jump_after_ft));
    if (p->jump_at_lid)
        cw_text_add(text, " It touches the top: pulses of pressure and air.");
}

static void find_words(surface *s, double text_pt, double width_pt)
{
    const cw_water_profile *p = s->profile;
    cw_text text = cw_text_on(s->arena);
    cw_text_print(&text, "The barrel carries %s",
                  draw_value(s->plan, s->arena, p->flow_cfs, CW_DIM_CFS));
    if (s->flow->flow_cfs - p->flow_cfs > 1e-6 * s->flow->flow_cfs)
        cw_text_print(&text, " of %s in all",
                      draw_value(s->plan, s->arena, s->flow->flow_cfs, CW_DIM_CFS));
    if (s->flow->answer.over.flow_cfs > 0)
        cw_text_print(&text, " (%s over the road)",
                      draw_value(s->plan, s->arena, s->flow->answer.over.flow_cfs, CW_DIM_CFS));
    cw_text_print(&text, ".");
    if (p->flow_cfs > 0) {
        cw_text_print(&text, " Outlet: depth %s%s, velocity %s, Froude number %s.",
                      feet(s, p->outlet_depth_ft),
                      p->outlet_depth_ft >= s->opening_ft ? " (full)" : "",
                      draw_value(s->plan, s->arena, p->outlet_velocity_fps, CW_DIM_FPS),
                      cw_decimal(s->arena, p->outlet_froude, 2));
        say_depths(s, &text);
        say_jump(s, &text);
        if (p->head.bridged)
            cw_text_add(&text, " The curve from the outlet ends just inside the barrel; its energy "
                               "line is carried on to the inlet.");
    }
    s->words = draw_wrapped(s->arena, cw_text_string(&text), text_pt, width_pt, &s->word_lines);
}

static const char *head_words(const surface *s)
{
    const char *regime = cw_water_regime_words(s->profile->regime);
    if (s->profile->flow_cfs <= 0)
        return cw_arena_print(s->arena, "Barrel %d: %s", s->number + 1, regime);
    return cw_arena_print(s->arena, "Barrel %d: water %s, %s control", s->number + 1, regime,
                          cw_water_control_words(s->profile->head.control));
}

/* ---- frame ---- */

static void measure(surface *s)
{
    const cw_water_barrel *b = s->barrel;
    const double fall_ft = b->inlet_floor_ft - b->outlet_floor_ft;
    s->run_ft = sqrt(fmax(b->length_ft * b->length_ft - fall_ft * fall_ft, 0));
    const double plumb = b->length_ft / s->run_ft / CW_IN_PER_FT;
    s->bed_ft = b->bed_ft;
    s->outlet_ft = cw_water_outlet_sill_ft(b);
    s->inlet_ft = cw_water_sill_ft(b);
    s->opening_ft = cw_water_opening_ft(b);
    s->floor_ft = s->plan->job->box.floor_in * plumb;
    s->top_ft = s->plan->job->box.top_in * plumb;
    s->pool_ft = s->flow->answer.pool_ft;
    const cw_water_tail_level *tail = &s->flow->answer.tail;
    s->tail_ft = tail->level_ft;
    s->tail_below = tail->has_level && tail->level_ft <= s->outlet_ft;
    s->has_tail = tail->has_level && !s->tail_below;
    s->low_ft = fmin(s->outlet_ft, s->inlet_ft) - s->bed_ft - s->floor_ft;
    /* Tailwater not far below the outlet is drawn; deeper it is only named. */
    if (s->tail_below && s->outlet_ft - s->tail_ft < s->opening_ft)
        s->low_ft = fmin(s->low_ft, s->tail_ft);
    s->high_ft = fmax(fmax(s->outlet_ft, s->inlet_ft) + s->opening_ft + s->top_ft, s->pool_ft);
    if (s->has_tail)
        s->high_ft = fmax(s->high_ft, s->tail_ft);
    for (int i = 0; i < s->profile->slow.count; i++) {
        const cw_water_node *node = &s->profile->slow.nodes[i];
        s->high_ft = fmax(s->high_ft, at_x(s, node->x_ft, node->head_ft).y);
    }
}

static cw_view fit(const surface *s, double width_pt, double height_pt, double text, int times)
{
    return cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                      .height_pt = height_pt,
                                      .min = {0, s->low_ft},
                                      .max = {s->run_ft, s->high_ft},
                                      .left_pt = 16.5 * text,
                                      .right_pt = 13 * text,
                                      .top_pt = (6.5 + 1.25 * s->word_lines) * text,
                                      .bottom_pt = draw_foot_pt(text, 0) + 4.9 * text,
                                      .exaggeration = times});
}

/* Heights are raised as far as the length stays as long as it can be: what counts here is depth. */
static void frame_picture(surface *s, double width_pt, double height_pt)
{
    static const int raises[] = {2, 3, 4, 5, 10, 20};
    const double text = draw_lettering_pt(width_pt);
    find_words(s, text, width_pt);
    cw_view view = fit(s, width_pt, height_pt, text, 1);
    const double natural = view.scale_x;
    for (int i = 0; i < COUNT_OF(raises); i++) {
        const cw_view raised = fit(s, width_pt, height_pt, text, raises[i]);
        if (raised.scale_x < natural * (1 - 1e-9))
            break;
        view = raised;
    }
    s->drawing = draw_new(s->arena, view, text);
    const double outlet_pt = cw_view_paper(&view, (cw_xy){0, 0}).x,
                 inlet_pt = cw_view_paper(&view, (cw_xy){s->run_ft, 0}).x;
    s->left_ft = -fmin(10.5 * text, outlet_pt - 6 * text) / view.scale_x;
    s->right_ft = s->run_ft + fmin(12 * text, width_pt - inlet_pt - DRAW_RIM_PT) / view.scale_x;
}

/* ---- grid ---- */

static void level_grid(surface *s)
{
    cw_drawing *d = s->drawing;
    const double unit_ft = s->plan->units == CW_SI ? 1 / CW_M_PER_FT : 1;
    const double step_ft = draw_round_step(LEVEL_LEAST_PT / d->view.scale_y / unit_ft) * unit_ft;
    const int first = (int)ceil(s->low_ft / step_ft), last = (int)floor(s->high_ft / step_ft);
    for (int i = first; i <= last; i++) {
        const double y = draw_paper(d, (cw_xy){0, i * step_ft}).y, x = 5 * d->text_pt;
        cw_paper_line(d, CW_LAYER_GRID, (cw_xy){x + 3, y},
                      (cw_xy){draw_paper(d, (cw_xy){s->right_ft, 0}).x, y});
        draw_text_at(
            d, x, y,
            (cw_text_style){.align = CW_ALIGN_RIGHT, .valign = CW_VALIGN_MIDDLE, .grey = 0.35},
            cw_quantity_number(s->arena, i * step_ft, CW_DIM_ELEV_FT, s->plan->units));
    }
}

static void distance_grid(surface *s)
{
    cw_drawing *d = s->drawing;
    const double unit_ft = s->plan->units == CW_SI ? 1 / CW_M_PER_FT : 1;
    const double step_ft = draw_round_step(DISTANCE_LEAST_PT / d->view.scale_x / unit_ft) * unit_ft;
    const double y = draw_paper(d, (cw_xy){0, s->low_ft}).y + 0.8 * d->text_pt;
    const int last = (int)floor(s->run_ft / step_ft + 1e-9);
    cw_paper_line(d, CW_LAYER_RULE, (cw_xy){draw_paper(d, (cw_xy){0, 0}).x, y},
                  (cw_xy){draw_paper(d, (cw_xy){s->run_ft, 0}).x, y});
    for (int i = 0; i <= last; i++) {
        const double x = draw_paper(d, (cw_xy){i * step_ft, 0}).x;
        cw_paper_line(d, CW_LAYER_RULE, (cw_xy){x, y}, (cw_xy){x, y + TICK_PT});
        draw_text_at(
            d, x, y + TICK_PT + 2,
            (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP, .grey = 0.35},
            cw_decimal(s->arena, i * step_ft / unit_ft, step_ft / unit_ft < 1 ? 1 : 0));
    }
    draw_text_at(d, draw_paper(d, (cw_xy){s->run_ft / 2, 0}).x, y + TICK_PT + 2 + 1.3 * d->text_pt,
                 (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP, .grey = 0.35},
                 cw_arena_print(s->arena, "Distance from the outlet, %s",
                                cw_dim_unit_in(CW_DIM_FT, s->plan->units)));
}

/* ---- concrete ---- */

static void band(surface *s, double from_ft, double to_ft, cw_layer layer, cw_fill fill)
{
    const cw_xy points[4] = {over_sill(s, 0, from_ft), over_sill(s, s->run_ft, from_ft),
                             over_sill(s, s->run_ft, to_ft), over_sill(s, 0, to_ft)};
    cw_draw_polygon(s->drawing, layer, fill, points, 4);
}

static void concrete(surface *s)
{
    band(s, -s->bed_ft - s->floor_ft, -s->bed_ft, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT);
    band(s, s->opening_ft, s->opening_ft + s->top_ft, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT);
    if (s->bed_ft > 0)
        band(s, -s->bed_ft, 0, CW_LAYER_OUTLINE, CW_FILL_BEDDING);
    cw_drawing *d = s->drawing;
    for (int inlet = 0; inlet < 2; inlet++) {
        const double face = inlet ? s->run_ft : 0;
        cw_draw_line(d, CW_LAYER_RULE, over_sill(s, face, 0), over_sill(s, face, s->opening_ft));
        const double end = inlet ? s->right_ft : s->left_ft,
                     sill = inlet ? s->inlet_ft : s->outlet_ft;
        if (inlet || !s->tail_below)
            cw_draw_line(d, CW_LAYER_RULE, (cw_xy){face, sill}, (cw_xy){end, sill});
    }
}

/* ---- water ---- */

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Even steps and all nodes between from_ft and to_ft from the inlet, both included. */
static int find_stations(const surface *s, double from_ft, double to_ft, double *x_ft)
{
    const cw_water_profile *p = s->profile;
    const cw_water_branch *const branches[2] = {&p->fast, &p->slow};
    int count = 0;
    for (int i = 0; i < EVEN_STATIONS; i++)
        x_ft[count++] = from_ft + (to_ft - from_ft) * i / (EVEN_STATIONS - 1);
    for (int k = 0; k < 2; k++)
        for (int i = 0; i < branches[k]->count; i++)
            if (branches[k]->nodes[i].x_ft > from_ft && branches[k]->nodes[i].x_ft < to_ft)
                x_ft[count++] = branches[k]->nodes[i].x_ft;
    qsort(x_ft, (size_t)count, sizeof *x_ft, by_size);
    return count;
}

/* The fill of one piece of water: between the sill (or sills) and the surface. */
static void fill_under(surface *s, const cw_xy *line, int count, cw_xy right_foot, cw_xy left_foot)
{
    cw_xy *ring = CW_TAKE(s->arena, cw_xy, count + 2);
    for (int i = 0; i < count; i++)
        ring[i] = line[i];
    ring[count] = right_foot;
    ring[count + 1] = left_foot;
    cw_draw_region(s->drawing, CW_LAYER_WATER, CW_FILL_WATER, &(cw_draw_ring){ring, count + 2}, 1,
                   false);
}

/* Water of one branch, from_ft to to_ft from the inlet; ends[] are its depths there. */
static void branch_water(surface *s, double from_ft, double to_ft, const double ends[2])
{
    double *x_ft = CW_TAKE(s->arena, double, STATIONS_MAX);
    const int count = find_stations(s, from_ft, to_ft, x_ft);
    cw_xy *water = CW_TAKE(s->arena, cw_xy, count), *press = CW_TAKE(s->arena, cw_xy, count);
    int pressed = 0;
    for (int i = 0; i < count; i++) {
        const double head_ft = i == 0           ? ends[0]
                               : i + 1 == count ? ends[1]
                                                : cw_water_depth_at(s->profile, x_ft[i]);
        water[i] = at_x(s, x_ft[i], fmin(head_ft, s->opening_ft));
        if (head_ft > s->opening_ft)
            press[pressed++] = at_x(s, x_ft[i], head_ft);
    }
    fill_under(s, water, count, at_x(s, to_ft, 0), at_x(s, from_ft, 0));
    draw_dashed(s->drawing, CW_LAYER_WATER, CW_DASH_NONE, water, count)->pen.width_pt *= 2;
    if (pressed > 1) {
        draw_dashed(s->drawing, CW_LAYER_WATER, CW_DASH_LONG, press, pressed);
        cw_draw_label(s->drawing, (cw_label){.at = press[pressed / 2],
                                             .text = "Pressure line",
                                             .side = CW_SIDE_ABOVE,
                                             .leader = true});
    }
}

static void jump(surface *s)
{
    const cw_water_profile *p = s->profile;
    cw_drawing *d = s->drawing;
    const double after_ft = fmin(p->jump_after_ft, s->opening_ft);
    const cw_xy low = at_x(s, p->jump_ft, p->jump_before_ft), high = at_x(s, p->jump_ft, after_ft);
    const cw_xy a = draw_paper(d, low), b = draw_paper(d, high);
    const double third = (b.y - a.y) / 3;
    const cw_xy zig[4] = {a, {a.x - 2.5, a.y + third}, {a.x + 2.5, a.y + 2 * third}, b};
    cw_paper_path(d, CW_LAYER_CUT, CW_FILL_NONE, zig, 4, false);
    cw_draw_label(
        d, (cw_label){.at = high,
                      .text = cw_arena_print(s->arena, "Jump from %s\nto %s%s",
                                             feet(s, p->jump_before_ft), feet(s, p->jump_after_ft),
                                             p->jump_at_lid ? " of pressure" : ""),
                      .side = CW_SIDE_ABOVE,
                      .clear_pt = 5,
                      .leader = true});
}

static void barrel_water(surface *s)
{
    const cw_water_profile *p = s->profile;
    const double length = p->length_ft;
    const double inlet_ft = cw_water_depth_at(p, 0), outlet_ft = cw_water_depth_at(p, length);
    if (!p->has_jump) {
        if (fmax(inlet_ft, outlet_ft) > 0)
            branch_water(s, 0, length, (double[2]){inlet_ft, outlet_ft});
        return;
    }
    branch_water(s, 0, p->jump_ft, (double[2]){inlet_ft, p->jump_before_ft});
    branch_water(s, p->jump_ft, length, (double[2]){p->jump_after_ft, outlet_ft});
}

static void tail_water(surface *s)
{
    cw_drawing *d = s->drawing;
    const double depth_ft =
        fmin(cw_water_depth_at(s->profile, s->profile->length_ft), s->opening_ft);
    const cw_xy lip = over_sill(s, 0, depth_ft);
    if (s->has_tail) {
        const cw_xy line[2] = {{s->left_ft, s->tail_ft}, {0, s->tail_ft}};
        fill_under(s, line, 2, (cw_xy){0, s->outlet_ft}, (cw_xy){s->left_ft, s->outlet_ft});
        cw_draw_water_line(d, line[0], line[1],
                           cw_arena_print(s->arena, "Tailwater\n%s", level_text(s, s->tail_ft)));
        return;
    }
    /* Below the outlet, or not there at all: the jet falls free. */
    if (depth_ft > 0) {
        const cw_xy over = cw_moved(d, lip, -FALL_PT / 2, -4),
                    end = cw_moved(d, lip, -FALL_PT, -14);
        draw_dashed(d, CW_LAYER_WATER, CW_DASH_SHORT, (cw_xy[]){lip, over, end}, 3);
    }
    const char *words = s->tail_below ? cw_arena_print(s->arena, "Tailwater %s,\nbelow the outlet",
                                                       level_text(s, s->tail_ft))
                                      : "Free outfall";
    if (s->tail_below && s->tail_ft >= s->low_ft) {
        cw_draw_water_line(d, (cw_xy){s->left_ft, s->tail_ft}, (cw_xy){0, s->tail_ft}, words);
        return;
    }
    cw_draw_label(d, (cw_label){.at = cw_moved(d, (cw_xy){0, s->outlet_ft}, -5 * d->text_pt, 0),
                                .text = words,
                                .side = CW_SIDE_BELOW,
                                .leader = true});
}

static void pool_water(surface *s)
{
    cw_drawing *d = s->drawing;
    const double depth_ft = fmin(cw_water_depth_at(s->profile, 0), s->opening_ft);
    const cw_xy entry = over_sill(s, s->run_ft, depth_ft), far = {s->right_ft, s->pool_ft};
    /* A pool under the top draws down into the inlet; that curve is not computed, so it is dashed.
     */
    const bool drops = s->pool_ft < s->inlet_ft + s->opening_ft && s->pool_ft > entry.y;
    const cw_xy near = {s->run_ft + (drops ? FALL_PT / d->view.scale_x : 0), s->pool_ft};
    const cw_xy line[3] = {drops ? entry : near, near, far};
    if (s->pool_ft > s->inlet_ft)
        fill_under(s, line, 3, (cw_xy){far.x, s->inlet_ft}, (cw_xy){s->run_ft, s->inlet_ft});
    if (drops)
        draw_dashed(d, CW_LAYER_WATER, CW_DASH_SHORT, line, 2);
    cw_draw_water_line(d, near, far,
                       cw_arena_print(s->arena, "Pool %s", level_text(s, s->pool_ft)));
    if (s->pool_ft - s->inlet_ft < 0.005)
        return;
    const double x_ft = s->right_ft - 2 * d->text_pt / d->view.scale_x;
    const char *words = cw_arena_print(s->arena, "HW %s", feet(s, s->pool_ft - s->inlet_ft));
    cw_draw_dimension(
        d,
        (cw_dimension){{x_ft, s->inlet_ft}, {x_ft, s->pool_ft}, 0, words, CW_DIMENSION_VERTICAL});
}

/* ---- critical and normal depth ---- */

static void depth_line(surface *s, double depth_ft, cw_dash dash, double share, const char *words)
{
    if (depth_ft <= 0 || depth_ft >= s->opening_ft)
        return;
    draw_dashed(s->drawing, CW_LAYER_DIMENSION, dash,
                (cw_xy[]){over_sill(s, 0, depth_ft), over_sill(s, s->run_ft, depth_ft)}, 2);
    cw_draw_label(s->drawing, (cw_label){.at = over_sill(s, share * s->run_ft, depth_ft),
                                         .text = words,
                                         .side = CW_SIDE_ABOVE,
                                         .clear_pt = 1.5,
                                         .leader = true});
}

static void depth_lines(surface *s)
{
    const cw_water_profile *p = s->profile;
    if (p->flow_cfs <= 0)
        return;
    depth_line(s, p->critical_ft, CW_DASH_CENTER, 0.72,
               cw_arena_print(s->arena, "Critical depth %s", feet(s, p->critical_ft)));
    if (p->has_normal)
        depth_line(s, p->normal.value, CW_DASH_SHORT, 0.3,
                   cw_arena_print(s->arena, "Normal depth %s", feet(s, p->normal.value)));
}

/* ---- the sheet ---- */

static void head_lines(surface *s)
{
    cw_drawing *d = s->drawing;
    const double first = DRAW_RIM_PT + 1.2 * d->text_pt;
    draw_text_at(d, DRAW_RIM_PT, first,
                 (cw_text_style){.size_pt = 1.2 * d->text_pt, .weight = CW_FONT_BOLD},
                 head_words(s));
    draw_text_at(d, DRAW_RIM_PT, first + 1.4 * d->text_pt, (cw_text_style){0}, s->words);
}

static void end_words(surface *s)
{
    cw_drawing *d = s->drawing;
    const double low_pt = draw_paper(d, (cw_xy){0, s->low_ft}).y + 0.8 * d->text_pt + TICK_PT + 2;
    cw_text_style bold = {.weight = CW_FONT_BOLD, .valign = CW_VALIGN_TOP};
    draw_text_at(d, draw_paper(d, (cw_xy){s->run_ft, 0}).x + 1.6 * d->text_pt, low_pt, bold,
                 "INLET");
    bold.align = CW_ALIGN_RIGHT;
    draw_text_at(d, draw_paper(d, (cw_xy){0, 0}).x - 1.6 * d->text_pt, low_pt, bold, "OUTLET");
    const double middle_pt = draw_paper(d, (cw_xy){s->run_ft / 2, 0}).x;
    const double row_pt = DRAW_RIM_PT + (3.4 + 1.25 * s->word_lines) * d->text_pt;
    cw_draw_flow_arrow(d, cw_at_paper(d, middle_pt, row_pt + d->text_pt), 180);
}

const cw_drawing *cw_draw_water_profile(const cw_plan *plan, int flow, int barrel, double width_pt,
                                        double height_pt, cw_arena *arena)
{
    const cw_plan_flow *at = &plan->water.flows[flow];
    const char *title =
        cw_arena_print(arena, "WATER IN BARREL %d: %s", barrel + 1, at->given->name);
    if (at->answer.status != CW_WATER_OK || !at->profiles)
        return draw_sentence(arena, width_pt, height_pt, title,
                             cw_arena_print(arena, "There is no water profile: %s.",
                                            cw_water_status_words(at->answer.status)));
    surface s = {.plan = plan,
                 .flow = at,
                 .barrel = &plan->water.site.barrels[barrel],
                 .profile = &at->profiles[barrel],
                 .number = barrel,
                 .arena = arena};
    measure(&s);
    frame_picture(&s, width_pt, height_pt);
    level_grid(&s);
    distance_grid(&s);
    draw_foot(s.drawing, title, NULL, true);
    head_lines(&s);
    concrete(&s);
    end_words(&s);
    barrel_water(&s);
    tail_water(&s);
    pool_water(&s);
    depth_lines(&s);
    if (s.profile->has_jump)
        jump(&s);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
