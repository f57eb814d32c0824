/* Strength: what presses on the box, what its sections resist, which machine may cross at which cover. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"
#include "draw_panel.h"

/* ---- loads ---- */

typedef struct loads {
    const cw_plan *plan;
    cw_arena *arena;
    cw_drawing *drawing;
    int cover;
    double width_ft, height_ft; /* outside */
    double ft_per_psf;
} loads;

static const char *psf(const loads *l, double value)
{
    return draw_value(l->plan, l->arena, value, CW_DIM_PSF);
}

static double live_psf(const loads *l)
{
    const cw_plan_strength *s = &l->plan->strength;
    double most = 0.0;
    for (int v = 0; v < 2; v++)
        if (s->design[l->cover][v].counts)
            most = fmax(most, s->design[l->cover][v].pressure_psf);
    return most;
}

static void draw_box(loads *l)
{
    const cw_job_box *box = &l->plan->job->box;
    const double wall = box->wall_in / CW_IN_PER_FT, floor = box->floor_in / CW_IN_PER_FT;
    const double span = box->span_in / CW_IN_PER_FT, rise = box->rise_in / CW_IN_PER_FT;
    const double low = box->haunch_in / CW_IN_PER_FT;
    const double high = box->form == CW_FORM_LID ? 0.0 : box->top_haunch_in / CW_IN_PER_FT;
    const cw_xy outer[4] = {{0, 0}, {l->width_ft, 0}, {l->width_ft, l->height_ft}, {0, l->height_ft}};
    const cw_xy inner[8] = {{wall + low, floor},
                            {wall + span - low, floor},
                            {wall + span, floor + low},
                            {wall + span, floor + rise - high},
                            {wall + span - high, floor + rise},
                            {wall + high, floor + rise},
                            {wall, floor + rise - high},
                            {wall, floor + low}};
    const cw_draw_ring rings[2] = {{outer, 4}, {inner, 8}};
    cw_draw_region(l->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, rings, 2, true);
}

static void draw_top(loads *l)
{
    const cw_plan_strength *s = &l->plan->strength;
    const double earth = s->earth_psf[l->cover], live = live_psf(l);
    const double base = l->height_ft + 0.02 * l->height_ft;
    const double to = base + earth * l->ft_per_psf;
    const cw_xy block[4] = {{0, base}, {l->width_ft, base}, {l->width_ft, to}, {0, to}};
    cw_draw_polygon(l->drawing, CW_LAYER_OUTLINE, CW_FILL_BACKFILL, block, 4);
    cw_draw_label(l->drawing, (cw_label){.at = {0.22 * l->width_ft, (base + to) / 2},
                                         .text = cw_arena_print(l->arena, "earth %s", psf(l, earth)),
                                         .weight = CW_FONT_BOLD,
                                         .boxed = true,
                                         .must = true});
    if (!(live > 0.0))
        return;
    double length_ft = 0.0;
    for (int v = 0; v < 2; v++)
        if (s->design[l->cover][v].pressure_psf == live)
            length_ft = fmin(l->width_ft, s->design[l->cover][v].length_ft);
    const double from = (l->width_ft - length_ft) / 2, top = to + live * l->ft_per_psf;
    const cw_xy strip[4] = {{from, to}, {from + length_ft, to}, {from + length_ft, top}, {from, top}};
    cw_draw_polygon(l->drawing, CW_LAYER_OUTLINE, CW_FILL_SHADE, strip, 4);
    cw_draw_label(l->drawing,
                  (cw_label){.at = {from + length_ft, (to + top) / 2},
                             .text = cw_arena_print(l->arena, "wheels %s,\nwith impact, moving", psf(l, live)),
                             .side = CW_SIDE_RIGHT_OF,
                             .must = true});
}

static void side_figure(loads *l, bool right, double top_psf, double foot_psf, cw_layer layer, cw_dash dash,
                        cw_fill fill)
{
    const double x = right ? l->width_ft : 0.0, way = right ? 1.0 : -1.0;
    const cw_xy points[4] = {{x, 0},
                             {x + way * foot_psf * l->ft_per_psf, 0},
                             {x + way * top_psf * l->ft_per_psf, l->height_ft},
                             {x, l->height_ft}};
    if (fill != CW_FILL_NONE)
        cw_draw_polygon(l->drawing, layer, fill, points, 4);
    else
        draw_dashed(l->drawing, layer, dash, &points[1], 2);
}

static void draw_sides(loads *l)
{
    const cw_struct_lateral *side = &l->plan->strength.side[l->cover];
    for (int right = 0; right < 2; right++) {
        const double plus = side->surcharge_psf;
        side_figure(l, right, side->top_most_psf + plus, side->foot_most_psf + plus, CW_LAYER_OUTLINE, CW_DASH_NONE,
                    CW_FILL_SHADE);
        side_figure(l, right, side->top_least_psf, side->foot_least_psf, CW_LAYER_HIDDEN, CW_DASH_SHORT, CW_FILL_NONE);
    }
    const double foot = (side->foot_most_psf + side->surcharge_psf) * l->ft_per_psf;
    cw_draw_label(l->drawing, (cw_label){.at = {l->width_ft + foot, 0.12 * l->height_ft},
                                         .text = cw_arena_print(l->arena, "most %s at the foot\n(least %s)",
                                                                psf(l, side->foot_most_psf + side->surcharge_psf),
                                                                psf(l, side->foot_least_psf)),
                                         .side = CW_SIDE_RIGHT_OF,
                                         .must = true});
    cw_draw_label(l->drawing, (cw_label){.at = {l->width_ft + foot, 0.9 * l->height_ft},
                                         .text = cw_arena_print(l->arena, "most %s at the top,\n%s of it traffic\n(least %s)",
                                                                psf(l, side->top_most_psf + side->surcharge_psf),
                                                                psf(l, side->surcharge_psf), psf(l, side->top_least_psf)),
                                         .side = CW_SIDE_RIGHT_OF,
                                         .must = true});
}

static void draw_reaction(loads *l)
{
    const cw_struct_envelope *e = &l->plan->strength.envelopes[l->cover][CW_STRUCT_UNIFORM][CW_STRUCT_SERVICE];
    const double base = -0.02 * l->height_ft, to = base - e->bearing_most_psf * l->ft_per_psf;
    const cw_xy block[4] = {{0, base}, {l->width_ft, base}, {l->width_ft, to}, {0, to}};
    cw_draw_polygon(l->drawing, CW_LAYER_OUTLINE, CW_FILL_BEDDING, block, 4);
    cw_draw_label(l->drawing, (cw_label){.at = {l->width_ft / 2, (base + to) / 2},
                                         .text = cw_arena_print(l->arena, "ground at most %s", psf(l, e->bearing_most_psf)),
                                         .weight = CW_FONT_BOLD,
                                         .boxed = true,
                                         .must = true});
}

const cw_drawing *cw_draw_loads(const cw_plan *plan, int cover, double width_pt, double height_pt, cw_arena *arena)
{
    const cw_plan_strength *s = &plan->strength;
    const cw_job_box *box = &plan->job->box;
    loads l = {.plan = plan, .arena = arena, .cover = cover, .width_ft = plan->outside_width_in / CW_IN_PER_FT};
    l.height_ft = (box->floor_in + box->rise_in + box->top_in) / CW_IN_PER_FT;
    const char *title = cw_arena_print(arena, "LOADS AT COVER %s, NOT FACTORED",
                                       draw_value(plan, arena, s->cover_ft[cover], CW_DIM_FT));
    const cw_struct_envelope *e = &s->envelopes[cover][CW_STRUCT_UNIFORM][CW_STRUCT_SERVICE];
    const double most = fmax(s->earth_psf[cover] + live_psf(&l),
                             fmax(s->side[cover].foot_most_psf + s->surcharge_psf[cover], e->bearing_most_psf));
    l.ft_per_psf = 0.45 * l.height_ft / most;
    const double text = draw_lettering_pt(width_pt);
    const double over = (s->earth_psf[cover] + live_psf(&l)) * l.ft_per_psf + 0.05 * l.height_ft;
    const double under = e->bearing_most_psf * l.ft_per_psf + 0.05 * l.height_ft;
    const double aside = (s->side[cover].foot_most_psf + s->surcharge_psf[cover]) * l.ft_per_psf;
    const cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                                    .height_pt = height_pt,
                                                    .min = {-aside, -under},
                                                    .max = {l.width_ft + aside, l.height_ft + over},
                                                    .left_pt = 3 * text,
                                                    .right_pt = 15 * text,
                                                    .top_pt = text,
                                                    .bottom_pt = draw_foot_pt(text, 1) + text,
                                                    .unit = CW_VIEW_FT});
    l.drawing = draw_new(arena, view, text);
    draw_top(&l);
    draw_sides(&l);
    draw_reaction(&l);
    draw_box(&l);
    draw_foot(l.drawing, title, "Pressures to one scale of their own. Self weight is added. Each case takes most or least, never both.",
              true);
    cw_drawing_finish(l.drawing);
    return l.drawing;
}

/* ---- resistance ---- */

#define PANEL_LEAST 21.5 /* width of a panel, times the lettering: its title fits */

/* One panel of the sheet; values in kip and kip ft, or kN and kN m. */
static void resistance_panel(const cw_plan *plan, cw_drawing *d, const cw_plan_section *section, draw_panel panel)
{
    const bool si = plan->units == CW_SI;
    // A moment per length is a force: ft lb a foot, or kN m a metre.
    const double moment_unit = si ? CW_N_PER_LBF / CW_N_PER_KN : 1.0 / CW_LB_PER_KIP;
    const double thrust_unit = si ? moment_unit / CW_M_PER_FT : moment_unit;
    cw_xy points[CW_PLAN_PAIRS];
    double high = section->moment_ft_lb * moment_unit;
    for (int i = 0; i < CW_PLAN_PAIRS; i++) {
        points[i] = (cw_xy){section->pair_thrust_lb[i] * thrust_unit, section->pair_moment_ft_lb[i] * moment_unit};
        high = fmax(high, points[i].y);
    }
    panel.x_high = points[CW_PLAN_PAIRS - 1].x;
    panel.y_high = 1.15 * high;
    panel.x_step = draw_panel_step(panel.x_high, panel.right_pt - panel.left_pt, 34.0);
    panel.y_step = draw_panel_step(panel.y_high, panel.bottom_pt - panel.top_pt, 22.0);
    panel.x_words = si ? "thrust, kN/m" : "thrust, kip/ft";
    panel.y_words = si ? "moment, kN m/m" : "moment, kip ft/ft";
    panel.title = section->name;
    draw_panel_frame(&panel, d);
    draw_panel_line(&panel, d, CW_LAYER_CUT, CW_DASH_NONE, points, CW_PLAN_PAIRS);
    const cw_xy at = draw_panel_at(&panel, section->thrust_lb * thrust_unit, section->moment_ft_lb * moment_unit);
    cw_paper_circle(d, CW_LAYER_OUTLINE, CW_FILL_SOLID, at, 2.8);
    cw_draw_label(d, (cw_label){.at = cw_at_paper(d, at.x, at.y),
                                .text = cw_arena_print(d->arena, "used %s",
                                                       cw_decimal(d->arena, section->moment_ft_lb / section->flexure.capacity_ft_lb, 2)),
                                .clear_pt = 5.0,
                                .side = CW_SIDE_RIGHT_OF,
                                .must = true});
}

const cw_drawing *cw_draw_resistance(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena)
{
    static const char title[] = "RESISTANCE AND DEMAND OF EACH SECTION";
    const cw_plan_strength *s = &plan->strength;
    const double text = draw_lettering_pt(width_pt);
    int given = 0;
    for (int i = 0; i < s->section_count; i++)
        given += s->sections[i].has_steel;
    if (given == 0)
        return draw_sentence(arena, width_pt, height_pt, title, "No steel is given in the job: there is no resistance to draw.");
    const int room = (int)fmax(1.0, floor(width_pt / (PANEL_LEAST * text)));
    const int across = given < room ? given : room, down = (given + across - 1) / across;
    const double foot = draw_foot_pt(text, 1), wide = width_pt / across, tall = (height_pt - foot) / down;
    const cw_view view = {width_pt, height_pt, 1, 1, 0, height_pt, CW_VIEW_FT};
    cw_drawing *d = draw_new(arena, view, text);
    int n = 0;
    for (int i = 0; i < s->section_count; i++) {
        if (!s->sections[i].has_steel)
            continue;
        const int row = n / across;
        const double left = n % across * wide, top = row * tall;
        n++;
        resistance_panel(plan, d, &s->sections[i],
                         (draw_panel){.left_pt = left + 6.4 * text,
                                      .right_pt = left + wide - 1.6 * text,
                                      .top_pt = top + 2.6 * text,
                                      .bottom_pt = top + tall - 3.6 * text});
    }
    draw_foot(d, title, "Line: factored resistance with the steel given. Dot: the factored demand that asks most of it. Under the line holds.",
              false);
    cw_drawing_finish(d);
    return d;
}

/* ---- crossings ---- */

const cw_drawing *cw_draw_crossings(const cw_plan *plan, double width_pt, double height_pt, cw_arena *arena)
{
    static const char title[] = "MACHINES OVER THE BOX";
    static const cw_dash dashes[] = {CW_DASH_NONE, CW_DASH_LONG, CW_DASH_SHORT, CW_DASH_CENTER, CW_DASH_PHANTOM};
    const cw_plan_strength *s = &plan->strength;
    if (s->crossing_count == 0)
        return draw_sentence(arena, width_pt, height_pt, title, "The job names no machine that crosses.");
    const double text = draw_lettering_pt(width_pt);
    const double unit = plan->units == CW_SI ? 1 / CW_M_PER_FT : 1;
    const cw_view view = {width_pt, height_pt, 1, 1, 0, height_pt, CW_VIEW_FT};
    cw_drawing *d = draw_new(arena, view, text);
    draw_panel panel = {.left_pt = 6.4 * text,
                        .right_pt = width_pt - 2 * text,
                        .top_pt = 2 * text,
                        .bottom_pt = height_pt - draw_foot_pt(text, 1) - 4 * text,
                        .x_high = CW_PLAN_CROSS_STEPS * CW_PLAN_CROSS_STEP_FT / unit,
                        .y_high = 2.0,
                        .y_step = 0.2,
                        .x_words = plan->units == CW_SI ? "compacted cover over the top, m" : "compacted cover over the top, ft",
                        .y_words = "demand over what is allowed"};
    panel.x_step = draw_panel_step(panel.x_high, panel.right_pt - panel.left_pt, 40.0);
    draw_panel_frame(&panel, d);
    cw_paper_line(d, CW_LAYER_HIGHLIGHT, draw_panel_at(&panel, 0, 1), draw_panel_at(&panel, panel.x_high, 1));
    for (int i = 0; i < s->crossing_count; i++) {
        const cw_plan_crossing *crossing = &s->crossings[i];
        cw_xy points[CW_PLAN_CROSS_STEPS + 1];
        for (int k = 0; k <= CW_PLAN_CROSS_STEPS; k++)
            points[k] = (cw_xy){k * CW_PLAN_CROSS_STEP_FT / unit, crossing->use[k]};
        draw_panel_line(&panel, d, CW_LAYER_OUTLINE, dashes[i % 5], points, CW_PLAN_CROSS_STEPS + 1);
        const int mark = (int)fmin(CW_PLAN_CROSS_STEPS, 4 + 6 * i);
        const cw_xy at = draw_panel_at(&panel, points[mark].x, fmin(points[mark].y, 1.9));
        cw_draw_label(d, (cw_label){.at = cw_at_paper(d, at.x, at.y),
                                    .text = crossing->cross.found
                                                ? cw_arena_print(arena, "%s: from %s on", crossing->given->name,
                                                                 draw_survey(plan, arena, crossing->cross.needed_ft))
                                                : cw_arena_print(arena, "%s: never within 20 ft", crossing->given->name),
                                    .weight = CW_FONT_BOLD,
                                    .leader = true,
                                    .must = true});
    }
    draw_foot(d, title, "Under the heavy line the top carries machine and earth. The least cover of the job holds in any case.", false);
    cw_drawing_finish(d);
    return d;
}
