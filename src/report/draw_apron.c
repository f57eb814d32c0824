/* The stone apron at the outlet: plan and section side by side at one scale, and what sized it. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define STUB_SHARE 0.22    /* of the apron's length: barrel that is shown */
#define EARTH_FT 1.5       /* ground shown under the stone */
#define STONE_LEAST_PT 3.0 /* stones smaller than this on paper are a pattern */
#define STONE_SHARE 0.94   /* of the pitch: stones do not touch on paper */

enum { STONES_MAX = 600 };

typedef struct sheet {
    const cw_plan *plan;
    const cw_plan_flow *flow;
    const cw_apron *apron;
    cw_arena *arena;
    cw_drawing *drawing;
    double stub_ft, wall_ft; /* barrel shown; thickness of the headwall, 0 without one */
    double rise_ft, floor_ft, top_ft, high_ft; /* high: top of headwall or slab over the invert */
    double tail_ft; /* tailwater over the invert, 0 when it is not known or below */
    double half_ft; /* half of what is widest in plan */
    cw_xy section;  /* real place of the invert at the outlet face in the section */
    double foot_pt; /* under the section's notes */
} sheet;

/* ---- words ---- */

/* Stones are bought by the inch, not by sixteenths. */
static const char *stone(const sheet *s, double size_in)
{
    if (s->plan->units == CW_SI)
        return draw_value(s->plan, s->arena, size_in, CW_DIM_IN);
    const bool whole = fabs(size_in - round(size_in)) < 0.005;
    return cw_arena_print(s->arena, "%s in", cw_decimal(s->arena, size_in, whole ? 0 : 1));
}

static const char *feet(const sheet *s, double length_ft)
{
    return draw_survey(s->plan, s->arena, length_ft);
}

static const char *class_words(const sheet *s)
{
    static const char *const roman[] = {"none", "I",   "II",   "III", "IV", "V",
                                        "VI",   "VII", "VIII", "IX",  "X"};
    if (s->apron->rock_class == 0)
        return "No rock class is large enough";
    return cw_arena_print(s->arena, "Rock class %s, D50 %s", roman[s->apron->rock_class],
                          stone(s, s->apron->class_stone_in));
}

static const char *sizing_words(const sheet *s)
{
    const cw_apron *a = s->apron;
    cw_text text = cw_text_on(s->arena);
    cw_text_print(&text, "Flow %s, %s in all. D50 needed: %s, the larger of two formulas. ",
                  s->flow->given->name,
                  draw_value(s->plan, s->arena, s->flow->flow_cfs, CW_DIM_CFS),
                  stone(s, a->stone_in));
    cw_text_print(
        &text,
        "HEC-14 eq. 10.4 with the rise and Q D/B: %s (with the circle of equal area: %s). "
        "Formula with the span, HEC-14 app. D: %s.",
        stone(s, a->pipe_in), stone(s, a->area_in), stone(s, a->box_in));
    return cw_text_string(&text);
}

static const char *size_words(const sheet *s)
{
    const cw_apron *a = s->apron;
    cw_text text = cw_text_on(s->arena);
    if (a->apron_class > 0)
        cw_text_print(&text, "Apron class %d of HEC-14 gives length and depth", a->apron_class);
    else
        cw_text_add(&text,
                    "No apron class of HEC-14 is large enough: length and depth are those of "
                    "the last one");
    cw_text_print(&text, "; tailwater taken as %s above the invert.", feet(s, a->tailwater_ft));
    if (a->froude > 0)
        cw_text_print(&text, " Outlet: velocity %s, Froude number %s.",
                      draw_value(s->plan, s->arena, s->flow->velocity_fps, CW_DIM_FPS),
                      cw_decimal(s->arena, a->froude, 2));
    return cw_text_string(&text);
}

static const char *dissipator_words(const sheet *s)
{
    static const char *const words[] = {
        [CW_DISSIPATOR_NO] = "By velocity and Froude number no energy dissipator is needed.",
        [CW_DISSIPATOR_YES] = "The outlet is fast: an energy dissipator needs its own design.",
        [CW_DISSIPATOR_NOT_KNOWN] = "The outlet velocity is not known: a dissipator may be needed.",
    };
    return words[s->apron->dissipator];
}

static const char *verdict_words(const sheet *s)
{
    if (s->apron->verdict == CW_HOLDS)
        return "Within the range of both formulas and of the classes.";
    return cw_arena_print(s->arena,
                          "Size %s: beyond the range of a formula or of the classes. An engineer "
                          "decides.",
                          cw_verdict_word((cw_verdict)s->apron->verdict));
}

/* ---- frame ---- */

static void measure(sheet *s)
{
    const cw_plan *plan = s->plan;
    const cw_job *job = plan->job;
    s->stub_ft = STUB_SHARE * s->apron->length_ft;
    s->wall_ft = plan->outlet.has_headwall ? job->run.outlet.thickness_in / CW_IN_PER_FT : 0;
    s->rise_ft = job->box.rise_in / CW_IN_PER_FT;
    s->floor_ft = job->box.floor_in / CW_IN_PER_FT;
    s->top_ft = job->box.top_in / CW_IN_PER_FT;
    s->high_ft = s->rise_ft + s->top_ft;
    if (s->wall_ft > 0)
        s->high_ft = fmax(s->high_ft, plan->outlet.wall_top_ft);
    double sill_ft = HUGE_VAL;
    for (int b = 0; b < plan->water.site.barrel_count; b++)
        sill_ft = fmin(sill_ft, cw_water_outlet_sill_ft(&plan->water.site.barrels[b]));
    if (s->flow->answer.tail.has_level)
        s->tail_ft = fmax(s->flow->answer.tail.level_ft - sill_ft, 0);
    s->half_ft = fmax(s->apron->end_width_ft, fmax(s->apron->width_ft, plan->width_ft)) / 2;
}

/* Depth of what the section shows under the invert. */
static double under_ft(const sheet *s)
{
    return fmax(s->apron->depth_ft, s->floor_ft) + EARTH_FT;
}

static void frame_picture(sheet *s, double width_pt, double height_pt)
{
    const double text = draw_lettering_pt(width_pt), gap_pt = 10 * text;
    const double length_ft = s->apron->length_ft + s->stub_ft;
    const cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                                    .height_pt = height_pt,
                                                    .min = {-s->apron->length_ft, -s->half_ft},
                                                    .max = {s->stub_ft + length_ft, s->half_ft},
                                                    .left_pt = 4.5 * text,
                                                    .right_pt = gap_pt + 2 * text,
                                                    .top_pt = 3 * text,
                                                    .bottom_pt = draw_foot_pt(text, 0) + 5 * text});
    s->drawing = draw_new(s->arena, view, text);
    const double top_ft = cw_view_real(&view, (cw_xy){0, 6 * text}).y;
    s->section = (cw_xy){length_ft + gap_pt / view.scale_x,
                         top_ft - fmax(s->high_ft, fmin(s->tail_ft, 2 * s->rise_ft))};
}

/* A place in the section: x upstream of the outlet face, z over the invert. */
static cw_xy in_section(const sheet *s, double x_ft, double z_ft)
{
    return (cw_xy){s->section.x + x_ft, s->section.y + z_ft};
}

/* ---- plan ---- */

static void plan_barrels(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan *plan = s->plan;
    const double out = plan->outside_width_in / CW_IN_PER_FT / 2,
                 in = plan->job->box.span_in / CW_IN_PER_FT / 2;
    for (int b = 0; b < plan->barrel_count; b++) {
        const double y = -plan->barrels[b].offset_ft;
        cw_draw_rectangle(d, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, (cw_xy){0, y - out},
                          (cw_xy){s->stub_ft, y + out});
        for (int side = -1; side <= 1; side += 2)
            cw_draw_line(d, CW_LAYER_HIDDEN, (cw_xy){0, y + side * in},
                         (cw_xy){s->stub_ft, y + side * in});
    }
    const double half = plan->width_ft / 2;
    cw_draw_break_line(d, (cw_xy){s->stub_ft, -half - 0.5}, (cw_xy){s->stub_ft, half + 0.5});
    if (s->wall_ft > 0)
        cw_draw_rectangle(d, CW_LAYER_OUTLINE, CW_FILL_SHADE, (cw_xy){0, -half},
                          (cw_xy){s->wall_ft, half});
}

static void plan_view(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_apron *a = s->apron;
    const double near = a->width_ft / 2, end = a->end_width_ft / 2, length = a->length_ft;
    const cw_xy outline[4] = {{0, near}, {-length, end}, {-length, -end}, {0, -near}};
    cw_draw_polygon(d, CW_LAYER_CUT, CW_FILL_ROCK, outline, 4);
    plan_barrels(s);
    cw_draw_line(d, CW_LAYER_CENTER, (cw_xy){-length - 1, 0}, (cw_xy){s->stub_ft * 0.9, 0});
    cw_draw_flow_arrow(d, (cw_xy){-length * 0.5, end * 0.3}, 180);
    const double step = 1.9 * d->text_pt;
    cw_draw_dimension(
        d, (cw_dimension){outline[2], {0, -end}, -step, feet(s, length), CW_DIMENSION_HORIZONTAL});
    cw_draw_dimension(d, (cw_dimension){outline[2], outline[1], -step, feet(s, a->end_width_ft),
                                        CW_DIMENSION_VERTICAL});
    const double past_pt = s->stub_ft * d->view.scale_x + 2.6 * d->text_pt;
    cw_draw_dimension(d, (cw_dimension){outline[3], outline[0], past_pt, feet(s, a->width_ft),
                                        CW_DIMENSION_VERTICAL});
    const cw_xy head = draw_paper(d, (cw_xy){-length, s->half_ft});
    draw_text_at(d, head.x, fmin(head.y - 0.8 * d->text_pt, DRAW_RIM_PT + 1.2 * d->text_pt),
                 (cw_text_style){.weight = CW_FONT_BOLD}, "PLAN");
}

/* ---- section ---- */

/* Stones of the nominal size in rows, every other row half a stone on; a pattern when too small or
 * too many. */
static void stones(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_apron *a = s->apron;
    const cw_xy low = in_section(s, -a->length_ft, -a->depth_ft), high = in_section(s, 0, 0);
    const double least_ft = STONE_LEAST_PT / d->view.scale_x,
                 size_ft = a->class_stone_in / CW_IN_PER_FT;
    const int rows = (int)fmax(1, floor(a->depth_ft / size_ft + 1e-9));
    const double pitch_ft = a->depth_ft / rows;
    const int columns = (int)floor(a->length_ft / pitch_ft);
    const bool drawn = size_ft >= least_ft && rows * columns <= STONES_MAX;
    cw_draw_rectangle(d, CW_LAYER_RULE, drawn ? CW_FILL_WHITE : CW_FILL_ROCK, low, high);
    for (int r = 0; drawn && r < rows; r++)
        for (int k = 0; k + r % 2 < columns; k++)
            cw_draw_circle(d, CW_LAYER_RULE, CW_FILL_CONCRETE,
                           (cw_xy){low.x + (k + 0.5 + 0.5 * (r % 2)) * a->length_ft / columns,
                                   low.y + (r + 0.5) * pitch_ft},
                           fmin(size_ft, pitch_ft) / 2 * STONE_SHARE);
}

static void section_ground(sheet *s)
{
    cw_drawing *d = s->drawing;
    const double length = s->apron->length_ft, depth = s->apron->depth_ft, low = -under_ft(s);
    const double past = 0.06 * length;
    const cw_xy ring[] = {in_section(s, s->stub_ft, low),   in_section(s, s->stub_ft, -s->floor_ft),
                          in_section(s, 0, -s->floor_ft),   in_section(s, 0, -depth),
                          in_section(s, -length, -depth),   in_section(s, -length, 0),
                          in_section(s, -length - past, 0), in_section(s, -length - past, low)};
    cw_draw_region(d, CW_LAYER_RULE, CW_FILL_EARTH, &(cw_draw_ring){ring, 8}, 1, false);
    cw_draw_line(d, CW_LAYER_OUTLINE, ring[5], ring[6]);
    stones(s);
    const cw_xy filter[] = {in_section(s, -length, 0), in_section(s, -length, -depth),
                            in_section(s, 0, -depth)};
    draw_dashed(d, CW_LAYER_HIGHLIGHT, CW_DASH_SHORT, filter, 3);
}

static void section_barrel(sheet *s)
{
    cw_drawing *d = s->drawing;
    cw_draw_rectangle(d, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, in_section(s, 0, -s->floor_ft),
                      in_section(s, s->stub_ft, 0));
    cw_draw_rectangle(d, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, in_section(s, 0, s->rise_ft),
                      in_section(s, s->stub_ft, s->rise_ft + s->top_ft));
    cw_draw_line(d, CW_LAYER_OUTLINE, in_section(s, 0, 0), in_section(s, 0, s->rise_ft));
    if (s->wall_ft > 0 && s->high_ft > s->rise_ft + s->top_ft)
        cw_draw_rectangle(d, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT,
                          in_section(s, 0, s->rise_ft + s->top_ft),
                          in_section(s, s->wall_ft, s->high_ft));
    cw_draw_break_line(d, in_section(s, s->stub_ft, -s->floor_ft - 0.5),
                       in_section(s, s->stub_ft, s->rise_ft + s->top_ft + 0.5));
}

static void section_words(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_apron *a = s->apron;
    const double length = a->length_ft, step = 1.5 * d->text_pt;
    cw_draw_dimension(d, (cw_dimension){in_section(s, -length, -a->depth_ft),
                                        in_section(s, -length, 0), -1.9 * d->text_pt,
                                        feet(s, a->depth_ft), CW_DIMENSION_VERTICAL});
    const double low_pt = draw_paper(d, in_section(s, 0, -under_ft(s))).y;
    const draw_rows below = {low_pt + 0.8 * d->text_pt, step, 0};
    draw_callout(d, in_section(s, -length * 0.72, -a->depth_ft / 2), below, class_words(s));
    draw_callout(d, in_section(s, -length * 0.3, -a->depth_ft), below,
                 "Filter as the contract says");
    if (s->tail_ft > 0 && s->tail_ft < 2 * s->rise_ft)
        cw_draw_water_line(
            d, in_section(s, -length, s->tail_ft), in_section(s, 0, s->tail_ft),
            cw_arena_print(s->arena, "Tailwater %s above the invert", feet(s, s->tail_ft)));
    cw_draw_label(d, (cw_label){.at = in_section(s, -length * 0.5, 0),
                                .text = "Top of stone at the outlet invert",
                                .side = CW_SIDE_ABOVE,
                                .leader = true});
    const cw_xy head = draw_paper(d, in_section(s, -length, 0));
    draw_text_at(d, head.x, DRAW_RIM_PT + 1.2 * d->text_pt, (cw_text_style){.weight = CW_FONT_BOLD},
                 "SECTION");
    s->foot_pt = low_pt + 0.8 * d->text_pt + 3.2 * step;
}

/* ---- what sized it ---- */

static void paragraphs(sheet *s)
{
    cw_drawing *d = s->drawing;
    const bool open = s->apron->verdict != CW_HOLDS;
    const struct {
        const char *words;
        bool bold;
    } list[] = {{class_words(s), true},
                {sizing_words(s), false},
                {size_words(s), false},
                {dissipator_words(s), s->apron->dissipator == CW_DISSIPATOR_YES},
                {verdict_words(s), open}};
    const double x = draw_paper(d, in_section(s, -s->apron->length_ft, 0)).x - 2.5 * d->text_pt;
    double y = s->foot_pt;
    for (int i = 0; i < (int)(sizeof list / sizeof list[0]); i++) {
        const cw_font_weight weight = list[i].bold ? CW_FONT_BOLD : CW_FONT_REGULAR;
        int count;
        const char *const *lines = cw_font_wrap(s->arena, list[i].words, d->text_pt, weight,
                                                d->view.width_pt - DRAW_RIM_PT - x, &count);
        for (int k = 0; k < count; k++, y += 1.25 * d->text_pt)
            draw_text_at(d, x, y, (cw_text_style){.weight = weight}, lines[k]);
        y += 0.45 * d->text_pt;
    }
}

const cw_drawing *cw_draw_apron(const cw_plan *plan, int flow, double width_pt, double height_pt,
                                cw_arena *arena)
{
    const cw_plan_flow *at = &plan->water.flows[flow];
    static const char title[] = "STONE APRON AT THE OUTLET";
    if (!at->has_apron)
        return draw_sentence(
            arena, width_pt, height_pt, title,
            "There is no apron: its flow has no answer, or a size lies outside what "
            "the formulas take.");
    sheet s = {.plan = plan, .flow = at, .apron = &at->apron, .arena = arena};
    measure(&s);
    frame_picture(&s, width_pt, height_pt);
    draw_foot(s.drawing, title, NULL, true);
    plan_view(&s);
    section_ground(&s);
    section_barrel(&s);
    section_words(&s);
    paragraphs(&s);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
