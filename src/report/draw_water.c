/* The performance curve: level of the pool against the total flow, and what governs it. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define COUNT_OF(a) ((int)(sizeof(a) / sizeof(a)[0]))
#define TICK_LEAST_PT 26.0 /* between two level ticks */
#define FLOW_LEAST_PT 44.0 /* between two flow ticks */
#define BRANCH_LEAST_PT                                                                            \
    16.0 /* a shorter stretch of the curve takes the name of the one before it */
#define MARK_PT 2.8
#define TICK_PT 3.0

enum { STRETCHES_MAX = 16, LEVELS_MAX = 3, PLACES_MAX = 10 };

/* What governs a point of the curve, as bits. */
enum { BY_INLET = 1, BY_OUTLET = 2, OVER_ROAD = 4 };

typedef struct chart {
    const cw_plan *plan;
    const cw_plan_water *water;
    cw_arena *arena;
    cw_drawing *drawing;
    double sill_ft, top_ft; /* of the lowest inlet: bed or floor, and the lid's underside */
    bool stepped;           /* inlets of different height */
    bool shows_road;
    double flow_step_cfs, level_step_ft;
    double flow_max_cfs, low_ft, high_ft;        /* ends of the axes */
    double left_pt, right_pt, top_pt, bottom_pt; /* the chart on paper */
} chart;

/* ---- range ---- */

static double cfs_unit(const chart *c)
{
    return c->plan->units == CW_SI ? 1 / CW_M3_PER_CUFT : 1;
}

static double ft_unit(const chart *c)
{
    return c->plan->units == CW_SI ? 1 / CW_M_PER_FT : 1;
}

static void find_inlet(chart *c)
{
    const cw_water_site *site = &c->water->site;
    c->sill_ft = cw_water_sill_ft(&site->barrels[0]);
    for (int b = 1; b < site->barrel_count; b++) {
        const double sill_ft = cw_water_sill_ft(&site->barrels[b]);
        c->stepped = c->stepped || fabs(sill_ft - c->sill_ft) > 0.005;
        c->sill_ft = fmin(c->sill_ft, sill_ft);
    }
    c->top_ft = c->sill_ft + c->water->opening_ft;
}

static void find_range(chart *c)
{
    const cw_plan_water *water = c->water;
    c->low_ft = c->sill_ft;
    c->high_ft = c->top_ft;
    for (int i = 0; i < water->curve_count; i++) {
        c->high_ft = fmax(c->high_ft, water->curve[i].pool_ft);
        c->low_ft = fmin(c->low_ft, water->curve[i].pool_ft);
    }
    c->flow_max_cfs = water->curve[water->curve_count - 1].flow_cfs;
    if (c->plan->job->water.has_allowed) {
        c->high_ft = fmax(c->high_ft, c->plan->job->water.allowed_ft);
        c->low_ft = fmin(c->low_ft, c->plan->job->water.allowed_ft);
    }
    /* A road far above the water would flatten the curve: then it is named in the foot. */
    const bool has_road = water->has_crest || c->plan->job->road.present;
    c->shows_road = has_road && water->low_road_ft - c->low_ft < 2 * (c->high_ft - c->low_ft);
    if (c->shows_road) {
        c->high_ft = fmax(c->high_ft, water->low_road_ft);
        c->low_ft = fmin(c->low_ft, water->low_road_ft);
    }
}

static void fit(chart *c, double width_pt, double height_pt, int note_lines)
{
    const double text = draw_lettering_pt(width_pt);
    c->left_pt = 6.6 * text;
    c->right_pt = width_pt - 5.6 * text;
    c->top_pt = 1.2 * text;
    c->bottom_pt = height_pt - draw_foot_pt(text, note_lines - 1) - 3.4 * text;
    const double wide_pt = c->right_pt - c->left_pt, tall_pt = c->bottom_pt - c->top_pt;
    /* Room over the highest line for its words, and for those of a flat end of the curve. */
    const bool flat = c->water->curve[c->water->curve_count - 1].over.flow_cfs > 0;
    c->high_ft += (c->high_ft - c->low_ft) * (flat ? 4.5 : 1.8) * text / tall_pt;
    c->flow_step_cfs =
        draw_round_step(c->flow_max_cfs / cfs_unit(c) * FLOW_LEAST_PT / wide_pt) * cfs_unit(c);
    c->level_step_ft =
        draw_round_step((c->high_ft - c->low_ft) / ft_unit(c) * TICK_LEAST_PT / tall_pt) *
        ft_unit(c);
    c->flow_max_cfs = ceil(c->flow_max_cfs / c->flow_step_cfs - 1e-9) * c->flow_step_cfs;
    c->low_ft = floor(c->low_ft / c->level_step_ft + 1e-9) * c->level_step_ft;
    c->high_ft = ceil(c->high_ft / c->level_step_ft - 1e-9) * c->level_step_ft;
    cw_view view = {.width_pt = width_pt,
                    .height_pt = height_pt,
                    .scale_x = wide_pt / c->flow_max_cfs,
                    .scale_y = tall_pt / (c->high_ft - c->low_ft),
                    .left_pt = c->left_pt,
                    .unit = CW_VIEW_FT};
    view.base_pt = c->bottom_pt + view.scale_y * c->low_ft;
    c->drawing = draw_new(c->arena, view, text);
}

/* ---- axes ---- */

static const char *tick_text(const chart *c, double value, double step)
{
    const int decimals = step >= 1 - 1e-9      ? 0
                         : step >= 0.1 - 1e-9  ? 1
                         : step >= 0.01 - 1e-9 ? 2
                                               : 3;
    return cw_decimal(c->arena, value, decimals);
}

static void flow_axis(chart *c)
{
    cw_drawing *d = c->drawing;
    const double step = c->flow_step_cfs, unit = cfs_unit(c);
    const int count = (int)lround(c->flow_max_cfs / step);
    for (int i = 0; i <= count; i++) {
        const double x = draw_paper(d, (cw_xy){i * step, 0}).x;
        cw_paper_line(d, CW_LAYER_GRID, (cw_xy){x, c->top_pt}, (cw_xy){x, c->bottom_pt});
        cw_paper_line(d, CW_LAYER_RULE, (cw_xy){x, c->bottom_pt},
                      (cw_xy){x, c->bottom_pt + TICK_PT});
        draw_text_at(d, x, c->bottom_pt + TICK_PT + 2,
                     (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP},
                     tick_text(c, i * step / unit, step / unit));
    }
    draw_text_at(
        d, (c->left_pt + c->right_pt) / 2, c->bottom_pt + TICK_PT + 2 + 1.3 * d->text_pt,
        (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP},
        cw_arena_print(c->arena, "Total flow, %s", cw_dim_unit_in(CW_DIM_CFS, c->plan->units)));
}

static void axis_words(chart *c, double x_pt, const char *words)
{
    draw_text_at(c->drawing, x_pt, (c->top_pt + c->bottom_pt) / 2,
                 (cw_text_style){.align = CW_ALIGN_CENTER, .angle_deg = 90}, words);
}

static void level_axis(chart *c)
{
    cw_drawing *d = c->drawing;
    const double step = c->level_step_ft, unit = ft_unit(c);
    const int first = (int)lround(c->low_ft / step), last = (int)lround(c->high_ft / step);
    const cw_text_style right = {.align = CW_ALIGN_RIGHT, .valign = CW_VALIGN_MIDDLE},
                        left = {.valign = CW_VALIGN_MIDDLE};
    for (int i = first; i <= last; i++) {
        const double y = draw_paper(d, (cw_xy){0, i * step}).y;
        cw_paper_line(d, CW_LAYER_GRID, (cw_xy){c->left_pt, y}, (cw_xy){c->right_pt, y});
        cw_paper_line(d, CW_LAYER_RULE, (cw_xy){c->left_pt - TICK_PT, y}, (cw_xy){c->left_pt, y});
        /* Elevations have no comma, as everywhere else. */
        draw_text_at(d, c->left_pt - TICK_PT - 2, y, right,
                     cw_arena_print(c->arena, "%.*f",
                                    step / unit >= 1 - 1e-9     ? 0
                                    : step / unit >= 0.1 - 1e-9 ? 1
                                                                : 2,
                                    i * step / unit));
    }
    /* The second scale starts at the inlet, which is no round elevation. */
    const int count = (int)floor((c->high_ft - c->sill_ft) / step + 1e-9);
    for (int i = 0; i <= count; i++) {
        const double y = draw_paper(d, (cw_xy){0, c->sill_ft + i * step}).y;
        cw_paper_line(d, CW_LAYER_RULE, (cw_xy){c->right_pt, y}, (cw_xy){c->right_pt + TICK_PT, y});
        draw_text_at(d, c->right_pt + TICK_PT + 2, y, left,
                     tick_text(c, i * step / unit, step / unit));
    }
    const char *unit_word = cw_dim_unit_in(CW_DIM_FT, c->plan->units);
    axis_words(c, DRAW_RIM_PT + d->text_pt,
               cw_arena_print(c->arena, "Headwater elevation, %s", unit_word));
    axis_words(c, d->view.width_pt - DRAW_RIM_PT - 2,
               cw_arena_print(c->arena, "Above the %sinlet %s, %s", c->stepped ? "lowest " : "",
                              c->plan->job->water.bed_in > 0 ? "bed" : "invert", unit_word));
    const cw_xy frame[4] = {{c->left_pt, c->bottom_pt},
                            {c->right_pt, c->bottom_pt},
                            {c->right_pt, c->top_pt},
                            {c->left_pt, c->top_pt}};
    cw_paper_path(d, CW_LAYER_RULE, CW_FILL_NONE, frame, 4, true);
}

/* ---- level lines ---- */

typedef struct level {
    double at_ft;
    cw_dash dash;
    const char *words;
} level;

/* One place of the words, over (even k) or under their line; written when it is free of text and,
 * if strict, of lines. */
static bool level_words_at(chart *c, const level *l, int k, bool strict)
{
    static const double shares[PLACES_MAX / 2] = {0.01, 0.99, 0.3, 0.7, 0.5};
    cw_drawing *d = c->drawing;
    const double y = draw_paper(d, (cw_xy){0, l->at_ft}).y, over = 2.4,
                 under = over + CW_FONT_CAP * d->text_pt;
    const double y_pt = k % 2 ? y + under : y - over, share = shares[k / 2];
    if (y_pt - CW_FONT_CAP * d->text_pt < c->top_pt || y_pt > c->bottom_pt)
        return false;
    const cw_align align = share < 0.1   ? CW_ALIGN_LEFT
                           : share > 0.9 ? CW_ALIGN_RIGHT
                                         : CW_ALIGN_CENTER;
    const cw_item words =
        cw_paper_text(d, (cw_xy){c->left_pt + share * (c->right_pt - c->left_pt), y_pt}, l->words,
                      d->text_pt, (cw_text_style){.align = align, .halo = true});
    if (!cw_text_is_free(d, &words) || (strict && cw_text_hits_built(d, &words)))
        return false;
    cw_item_add(d, words);
    return true;
}

static void level_words(chart *c, const level *l)
{
    for (int round = 0; round < 2; round++)
        for (int k = 0; k < PLACES_MAX; k++)
            if (level_words_at(c, l, k, round == 0))
                return;
    cw_draw_label(
        c->drawing,
        (cw_label){.at = {0.1 * c->flow_max_cfs, l->at_ft}, .text = l->words, .leader = true});
}

static const char *road_words(const chart *c)
{
    const cw_plan_water *water = c->water;
    const char *low = draw_value(c->plan, c->arena, water->low_road_ft, CW_DIM_ELEV_FT);
    if (water->has_overtopping)
        return cw_arena_print(c->arena, "Low point of the road %s, reached at %s", low,
                              draw_value(c->plan, c->arena, water->overtopping_cfs, CW_DIM_CFS));
    return cw_arena_print(c->arena, "Low point of the road %s", low);
}

static void level_lines(chart *c)
{
    const cw_job_water *given = &c->plan->job->water;
    level lines[LEVELS_MAX];
    int count = 0;
    if (c->shows_road)
        lines[count++] = (level){c->water->low_road_ft, CW_DASH_LONG, road_words(c)};
    if (given->has_allowed)
        lines[count++] = (level){
            given->allowed_ft, CW_DASH_PHANTOM,
            cw_arena_print(c->arena, "Allowed headwater %s",
                           draw_value(c->plan, c->arena, given->allowed_ft, CW_DIM_ELEV_FT))};
    lines[count++] =
        (level){c->top_ft, CW_DASH_SHORT,
                cw_arena_print(c->arena, "Underside of the top at the %sinlet %s, HW/D 1",
                               c->stepped ? "lowest " : "",
                               draw_value(c->plan, c->arena, c->top_ft, CW_DIM_ELEV_FT))};
    for (int i = 0; i < count; i++)
        draw_dashed(c->drawing, CW_LAYER_OUTLINE, lines[i].dash,
                    (cw_xy[]){{0, lines[i].at_ft}, {c->flow_max_cfs, lines[i].at_ft}}, 2);
    for (int i = 0; i < count; i++)
        level_words(c, &lines[i]);
}

/* ---- notes at the curve ---- */

/* No line of the chart passes through the text or close over or under it. */
static bool stands_clear(const cw_drawing *d, cw_item line)
{
    const double clear = 1.8, at_pt = line.at.y;
    for (int k = -1; k <= 1; k++) {
        line.at.y = at_pt + k * clear;
        if (cw_text_hits_built(d, &line))
            return false;
    }
    return true;
}

/* The block of a note's lines at the offset (its corner or side that faces the place), or nothing
 * when a line of it meets text, a line of the chart or the chart's edge. */
static bool note_at(chart *c, cw_xy at, cw_xy way, const char *const *lines, int count,
                    cw_font_weight weight)
{
    cw_drawing *d = c->drawing;
    const double size = d->text_pt, feed = 1.25 * size, cap = CW_FONT_CAP * size;
    double wide = 0;
    for (int i = 0; i < count; i++)
        wide = fmax(wide, cw_font_width_pt(lines[i], size, weight));
    const double tall = cap + (count - 1) * feed,
                 left = at.x - (way.x < 0   ? wide
                                : way.x > 0 ? 0
                                            : wide / 2),
                 top = at.y - (way.y < 0   ? tall
                               : way.y > 0 ? 0
                                           : tall / 2);
    if (left < c->left_pt + 2 || left + wide > c->right_pt - 2 || top < c->top_pt + 2 ||
        top + tall > c->bottom_pt - 2)
        return false;
    const cw_align align = way.x < 0 ? CW_ALIGN_RIGHT : way.x > 0 ? CW_ALIGN_LEFT : CW_ALIGN_CENTER;
    const int before = d->count;
    for (int i = 0; i < count; i++) {
        const cw_item line =
            cw_paper_text(d, (cw_xy){at.x, top + cap + i * feed}, lines[i], size,
                          (cw_text_style){.weight = weight, .align = align, .halo = true});
        const bool free = cw_text_is_free(d, &line) && stands_clear(d, line);
        if (!free) {
            d->count = before;
            return false;
        }
        cw_item_add(d, line);
    }
    return true;
}

/* A note at a point of the curve, clear of all lines; on a leader when it stands off. */
static void note(chart *c, cw_xy real, cw_font_weight weight, const char *text)
{
    static const double reaches[] = {8, 11, 15, 22, 32, 44, 58};
    static const cw_xy ways[] = {{-0.7, -0.7}, {0.7, 0.7}, {1, 0},      {-1, 0},
                                 {0, -1},      {0, 1},     {-0.7, 0.7}, {0.7, -0.7}};
    cw_drawing *d = c->drawing;
    int count;
    const char *const *lines = cw_font_wrap(c->arena, text, d->text_pt, weight, 1e6, &count);
    const cw_xy tip = draw_paper(d, real);
    for (int r = 0; r < COUNT_OF(reaches); r++)
        for (int k = 0; k < COUNT_OF(ways); k++) {
            if (!note_at(c, cw_xy_plus(tip, ways[k], reaches[r]), ways[k], lines, count, weight))
                continue;
            if (reaches[r] > 12)
                cw_paper_line(d, CW_LAYER_DIMENSION, cw_xy_plus(tip, ways[k], MARK_PT + 1),
                              cw_xy_plus(tip, ways[k], reaches[r] - 1.5));
            return;
        }
    cw_draw_label(d, (cw_label){.at = real, .text = text, .weight = weight, .leader = true});
}

/* ---- the curve ---- */

static double barrels_cfs(const chart *c, const cw_water_answer *answer)
{
    double sum = 0;
    for (int b = 0; b < c->water->site.barrel_count; b++)
        sum += answer->barrel_cfs[b];
    return sum;
}

static int governs(const chart *c, const cw_water_answer *answer)
{
    int bits = answer->over.flow_cfs > 0 ? OVER_ROAD : 0;
    for (int b = 0; b < c->water->site.barrel_count; b++)
        if (answer->barrel_cfs[b] > 0)
            bits |= answer->heads[b].control == CW_WATER_BY_INLET ? BY_INLET : BY_OUTLET;
    return bits;
}

static const char *branch_words(const chart *c, int bits)
{
    const char *inlet = cw_water_control_words(CW_WATER_BY_INLET),
               *outlet = cw_water_control_words(CW_WATER_BY_OUTLET);
    const bool both = (bits & BY_INLET) && (bits & BY_OUTLET);
    const char *first = bits & BY_INLET ? inlet : outlet;
    return cw_arena_print(c->arena, "%s%s%s control%s", first, both ? " and " : "",
                          both ? outlet : "", bits & OVER_ROAD ? ",\nover the road too" : "");
}

static cw_xy curve_point(const chart *c, int i)
{
    return (cw_xy){c->water->curve[i].flow_cfs, c->water->curve[i].pool_ft};
}

/* The point between two points of the curve where the road goes under, else half-way. */
static cw_xy border_after(const chart *c, int i)
{
    const cw_xy a = curve_point(c, i), b = curve_point(c, i + 1);
    const cw_plan_water *water = c->water;
    if (water->has_overtopping && water->overtopping_cfs >= a.x && water->overtopping_cfs <= b.x)
        return (cw_xy){water->overtopping_cfs, water->low_road_ft};
    return (cw_xy){(a.x + b.x) / 2, (a.y + b.y) / 2};
}

static double paper_distance(const chart *c, cw_xy a, cw_xy b)
{
    const cw_xy p = draw_paper(c->drawing, a), q = draw_paper(c->drawing, b);
    return hypot(q.x - p.x, q.y - p.y);
}

static void curve_line(chart *c)
{
    const int count = c->water->curve_count;
    cw_xy *points = CW_TAKE(c->arena, cw_xy, count + 1);
    int used = 0;
    for (int i = 0; i < count; i++) {
        points[used++] = curve_point(c, i);
        const bool reached = i + 1 < count && c->water->curve[i].over.flow_cfs <= 0 &&
                             c->water->curve[i + 1].over.flow_cfs > 0;
        if (reached)
            points[used++] = border_after(c, i);
    }
    cw_draw_polyline(c->drawing, CW_LAYER_HIGHLIGHT, points, used);
}

/* Stretches of the curve with one thing that governs: first and last point. */
typedef struct stretch {
    int from, to, bits;
} stretch;

static int find_stretches(const chart *c, stretch list[STRETCHES_MAX])
{
    int count = 0;
    for (int i = 1; i < c->water->curve_count; i++) {
        const int bits = governs(c, &c->water->curve[i]);
        if (count > 0 && list[count - 1].bits == bits) {
            list[count - 1].to = i;
            continue;
        }
        const bool brief = count > 0 && paper_distance(c, curve_point(c, list[count - 1].from),
                                                       curve_point(c, i)) < BRANCH_LEAST_PT;
        if (brief)
            list[count - 1] = (stretch){list[count - 1].from, i, bits};
        else if (count < STRETCHES_MAX) {
            // The first stretch begins with the point before it.
            const int from = count > 0 ? i : i - 1;
            list[count++] = (stretch){from, i, bits};
        }
    }
    return count;
}

static void branches(chart *c)
{
    stretch list[STRETCHES_MAX];
    const int count = find_stretches(c, list);
    cw_drawing *d = c->drawing;
    for (int i = 0; i < count; i++) {
        if (i > 0) {
            const cw_xy p = draw_paper(d, border_after(c, list[i].from - 1));
            cw_paper_line(d, CW_LAYER_OUTLINE, (cw_xy){p.x - 4, p.y - 4},
                          (cw_xy){p.x + 4, p.y + 4});
        }
        const cw_xy at = curve_point(c, (list[i].from + list[i].to + 1) / 2);
        note(c, at, CW_FONT_BOLD, branch_words(c, list[i].bits));
    }
}

/* What the barrels carry of it once the road is under water, against the same pool. */
static void split(chart *c)
{
    const int count = c->water->curve_count;
    cw_xy *points = CW_TAKE(c->arena, cw_xy, count + 1);
    int used = 0;
    for (int i = 0; i < count; i++) {
        const cw_water_answer *at = &c->water->curve[i];
        if (at->over.flow_cfs <= 0)
            continue;
        if (used == 0)
            points[used++] = border_after(c, i > 0 ? i - 1 : 0);
        points[used++] = (cw_xy){barrels_cfs(c, at), at->pool_ft};
    }
    if (used == 0)
        return;
    cw_draw_polyline(c->drawing, CW_LAYER_OUTLINE, points, used);
    note(c, points[used - 1], CW_FONT_REGULAR, "through the barrels;\nthe rest goes over the road");
}

/* ---- the flows of the job ---- */

static const char *flow_words(const chart *c, const cw_plan_flow *flow)
{
    const double over_cfs = flow->answer.over.flow_cfs;
    return cw_arena_print(c->arena, "%s: %s\npool %s, HW/D %s%s%s", flow->given->name,
                          draw_value(c->plan, c->arena, flow->flow_cfs, CW_DIM_CFS),
                          draw_value(c->plan, c->arena, flow->answer.pool_ft, CW_DIM_ELEV_FT),
                          cw_decimal(c->arena, flow->ratio, 2),
                          over_cfs > 0 ? "\nover the road " : "",
                          over_cfs > 0 ? draw_value(c->plan, c->arena, over_cfs, CW_DIM_CFS) : "");
}

static bool shown(const chart *c, const cw_plan_flow *flow)
{
    return flow->answer.status == CW_WATER_OK && flow->flow_cfs <= c->flow_max_cfs &&
           flow->answer.pool_ft <= c->high_ft;
}

static void flow_marks(chart *c)
{
    cw_drawing *d = c->drawing;
    for (int i = 0; i < c->water->flow_count; i++) {
        const cw_plan_flow *flow = &c->water->flows[i];
        if (!shown(c, flow))
            continue;
        const cw_xy at = {flow->flow_cfs, flow->answer.pool_ft};
        const cw_fill fill = flow->given->use == CW_FLOW_DESIGN ? CW_FILL_SOLID : CW_FILL_WHITE;
        cw_paper_circle(d, CW_LAYER_OUTLINE, fill, draw_paper(d, at), MARK_PT);
        note(c, at, CW_FONT_REGULAR, flow_words(c, flow));
    }
}

/* ---- foot ---- */

static const char *foot_words(const chart *c)
{
    const cw_plan_water *water = c->water;
    cw_text text = cw_text_on(c->arena);
    cw_text_add(&text, "The pool is taken as still: the energy line is its level. Full mark: "
                       "design flow.");
    const bool has_road = water->has_crest || c->plan->job->road.present;
    if (has_road && !c->shows_road)
        cw_text_print(&text, " %s: above this sheet.", road_words(c));
    if (has_road && !water->has_crest)
        cw_text_add(&text, " No crest is given: flow over the road is not counted.");
    for (int i = 0; i < water->flow_count; i++)
        if (!shown(c, &water->flows[i]))
            cw_text_print(&text, " %s has no point on this sheet: %s.", water->flows[i].given->name,
                          water->flows[i].answer.status == CW_WATER_OK
                              ? "it lies past the curve"
                              : cw_water_status_words(water->flows[i].answer.status));
    return cw_text_string(&text);
}

/* Why there is no curve, in one sentence. */
static const char *no_curve(const cw_plan_water *water, cw_arena *arena)
{
    if (!water->present)
        return "The job has no water section: headwater was not computed.";
    cw_water_status status = water->status;
    for (int i = 0; i < water->flow_count && status == CW_WATER_OK; i++)
        status = water->flows[i].answer.status;
    if (status != CW_WATER_OK)
        return cw_arena_print(arena, "There is no performance curve: %s.",
                              cw_water_status_words(status));
    return "There is no performance curve: no answer was found for a part of its flows.";
}

const cw_drawing *cw_draw_performance(const cw_plan *plan, double width_pt, double height_pt,
                                      cw_arena *arena)
{
    static const char title[] = "HEADWATER AGAINST FLOW";
    chart c = {.plan = plan, .water = &plan->water, .arena = arena};
    const bool empty = plan->water.status != CW_WATER_OK || plan->water.curve_count < 2 ||
                       plan->water.site.barrel_count < 1;
    if (empty)
        return draw_sentence(arena, width_pt, height_pt, title, no_curve(c.water, arena));
    find_inlet(&c);
    find_range(&c);
    /* The axes decide what is shown, and that decides the notes: fitted twice. */
    int lines = 1;
    const double text = draw_lettering_pt(width_pt);
    chart first = c;
    fit(&first, width_pt, height_pt, lines);
    const char *notes = draw_wrapped(arena, foot_words(&first), text, width_pt, &lines);
    fit(&c, width_pt, height_pt, lines);
    flow_axis(&c);
    level_axis(&c);
    draw_foot(c.drawing, title, notes, false);
    curve_line(&c);
    level_lines(&c);
    split(&c);
    flow_marks(&c);
    branches(&c);
    cw_drawing_finish(c.drawing);
    return c.drawing;
}
