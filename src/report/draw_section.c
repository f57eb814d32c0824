/* The typical section: all barrels looking upstream, with what they stand on and what lies about
 * them. */
#include <assert.h>
#include <math.h>

#include "cw/report.h"

#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define EARTH_IN 30.0       /* earth shown beyond the backfill */
#define COVER_SHOWN_IN 24.0 /* least room over the top for the finished surface */

typedef struct section {
    const cw_plan *plan;
    cw_arena *arena;
    cw_drawing *drawing;
    double outer_in, span_in, wall_in, floor_in, rise_in, top_in, leg_in, gap_in;
    double height_in; /* outside */
    double total_in;  /* out to out of all barrels */
    double under_in;  /* of the bedding, below the floor's underside */
    double lowest_in,
        surface_in; /* underside of the lowest bedding; shown surface over the top of the highest */
    bool surface_true; /* the surface is drawn to scale */
} section;

static double axis_in(const section *s, int barrel)
{
    return s->plan->barrels[barrel].offset_ft * CW_IN_PER_FT;
}

/* Inside floor of a barrel against that of the highest. */
static double invert_in(const section *s, int barrel)
{
    return -s->plan->barrels[barrel].grade.drop_in;
}

static void measure(section *s)
{
    const cw_plan *plan = s->plan;
    const cw_job *job = plan->job;
    const cw_piece_shape *base = draw_row_shape(plan, CW_ORDER_BASE);
    s->span_in = job->box.span_in;
    s->wall_in = job->box.wall_in;
    s->floor_in = job->box.floor_in;
    s->rise_in = job->box.rise_in;
    s->top_in = job->box.top_in;
    s->leg_in = base->leg_in;
    s->gap_in = job->barrels.clear_gap_in;
    s->outer_in = plan->outside_width_in;
    s->height_in = s->floor_in + s->rise_in + s->top_in;
    s->total_in = plan->width_ft * CW_IN_PER_FT;
    s->under_in = job->bedding.leveling_in + job->bedding.thickness_in;
    double deepest = 0;
    for (int b = 0; b < plan->barrel_count; b++)
        deepest = fmin(deepest, invert_in(s, b));
    s->lowest_in = deepest - s->floor_in - s->under_in;
    const double cover_in =
        plan->barrels[0].has_cover ? plan->barrels[0].least_cover.cover_ft * CW_IN_PER_FT : 0;
    const double most_in = fmax(0.28 * s->height_in, COVER_SHOWN_IN);
    s->surface_true = cover_in > 0 && cover_in <= most_in;
    s->surface_in = s->rise_in + s->top_in + (s->surface_true ? fmax(cover_in, 1) : most_in);
}

static double bed_half_in(const section *s)
{
    return s->total_in / 2 + s->plan->job->bedding.extra_ft * CW_IN_PER_FT;
}

static void frame_picture(section *s, double width_pt, double height_pt)
{
    const double text = draw_lettering_pt(width_pt), half_in = bed_half_in(s) + EARTH_IN;
    const cw_view view = cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                                    .height_pt = height_pt,
                                                    .min = {-half_in, s->lowest_in - 6},
                                                    .max = {half_in, s->surface_in},
                                                    .left_pt = 9 * text,
                                                    .right_pt = 11 * text,
                                                    .top_pt = 5 * text,
                                                    .bottom_pt = draw_foot_pt(text, 1) + 10 * text,
                                                    .unit = CW_VIEW_IN});
    s->drawing = draw_new(s->arena, view, text);
}

/* ---- earth, bedding, backfill ---- */

static void earth(section *s)
{
    const double half = bed_half_in(s), edge = half + EARTH_IN, low = s->lowest_in - 6;
    const cw_xy ground[] = {{-edge, low},           {edge, low},           {edge, s->surface_in},
                            {half, s->surface_in},  {half, s->lowest_in},  {-half, s->lowest_in},
                            {-half, s->surface_in}, {-edge, s->surface_in}};
    cw_draw_region(s->drawing, CW_LAYER_OUTLINE, CW_FILL_EARTH, &(cw_draw_ring){ground, 8}, 1,
                   false);
    const cw_xy fill[] = {
        {-half, s->lowest_in}, {half, s->lowest_in}, {half, s->surface_in}, {-half, s->surface_in}};
    cw_draw_region(s->drawing, CW_LAYER_OUTLINE, CW_FILL_BACKFILL, &(cw_draw_ring){fill, 4}, 1,
                   false);
    cw_draw_line(s->drawing, CW_LAYER_RULE, fill[0], fill[3]);
    cw_draw_line(s->drawing, CW_LAYER_RULE, fill[1], fill[2]);
    cw_draw_line(s->drawing, CW_LAYER_CUT, (cw_xy){-edge, s->surface_in},
                 (cw_xy){edge, s->surface_in});
}

/* Bedding steps down with the barrels; each barrel's strip reaches half-way to its neighbour. */
static void bedding(section *s)
{
    const int count = s->plan->barrel_count;
    for (int b = 0; b < count; b++) {
        const double half = (s->outer_in + s->gap_in) / 2, under = invert_in(s, b) - s->floor_in;
        const double from = b == 0 ? -bed_half_in(s) : axis_in(s, b) - half,
                     to = b + 1 == count ? bed_half_in(s) : axis_in(s, b) + half;
        const double course = under - s->plan->job->bedding.leveling_in;
        const cw_xy bed[] = {
            {from, under - s->under_in}, {to, under - s->under_in}, {to, course}, {from, course}};
        const cw_xy level[] = {{from, course}, {to, course}, {to, under}, {from, under}};
        cw_draw_region(s->drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, &(cw_draw_ring){bed, 4}, 1,
                       false);
        cw_draw_polygon(s->drawing, CW_LAYER_OUTLINE, CW_FILL_BEDDING, bed, 4);
        cw_draw_polygon(s->drawing, CW_LAYER_RULE, CW_FILL_WHITE, level, 4);
    }
}

static void gaps(section *s)
{
    static const cw_fill fills[] = {CW_FILL_GROUT, CW_FILL_GROUT, CW_FILL_BACKFILL};
    for (int b = 0; b + 1 < s->plan->barrel_count; b++) {
        const double from = axis_in(s, b) + s->outer_in / 2,
                     to = axis_in(s, b + 1) - s->outer_in / 2;
        const double low = fmin(invert_in(s, b), invert_in(s, b + 1)) - s->floor_in;
        const double high = fmax(invert_in(s, b), invert_in(s, b + 1)) + s->rise_in + s->top_in;
        cw_draw_rectangle(s->drawing, CW_LAYER_RULE, CW_FILL_WHITE, (cw_xy){from, low},
                          (cw_xy){to, high});
        cw_draw_rectangle(s->drawing, CW_LAYER_RULE, fills[s->plan->job->fill.kind],
                          (cw_xy){from, low}, (cw_xy){to, high});
    }
}

/* ---- concrete ---- */

static void base_piece(section *s, double x, double z)
{
    const double half = s->span_in / 2, out = s->outer_in / 2, haunch = s->plan->job->box.haunch_in,
                 leg = z + s->leg_in;
    const cw_xy points[] = {{x - out, z - s->floor_in},
                            {x + out, z - s->floor_in},
                            {x + out, leg},
                            {x + half, leg},
                            {x + half, z + haunch},
                            {x + half - haunch, z},
                            {x - half + haunch, z},
                            {x - half, z + haunch},
                            {x - half, leg},
                            {x - out, leg}};
    cw_draw_polygon(s->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, points, 10);
}

static void top_piece(section *s, double x, double z)
{
    const double half = s->span_in / 2, out = s->outer_in / 2,
                 haunch = s->plan->job->box.top_haunch_in;
    const double leg = z + s->leg_in, soffit = z + s->rise_in, crown = soffit + s->top_in;
    if (s->plan->job->box.form == CW_FORM_LID) {
        cw_draw_rectangle(s->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, (cw_xy){x - out, soffit},
                          (cw_xy){x + out, crown});
        return;
    }
    const cw_xy points[] = {{x - out, leg},
                            {x - half, leg},
                            {x - half, soffit - haunch},
                            {x - half + haunch, soffit},
                            {x + half - haunch, soffit},
                            {x + half, soffit - haunch},
                            {x + half, leg},
                            {x + out, leg},
                            {x + out, crown},
                            {x - out, crown}};
    cw_draw_polygon(s->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, points, 10);
}

static void ring_piece(section *s, double x, double z)
{
    const double half = s->span_in / 2, out = s->outer_in / 2, soffit = z + s->rise_in;
    const double low = s->plan->job->box.haunch_in, high = s->plan->job->box.top_haunch_in;
    const cw_xy outer[] = {{x - out, z - s->floor_in},
                           {x + out, z - s->floor_in},
                           {x + out, soffit + s->top_in},
                           {x - out, soffit + s->top_in}};
    const cw_xy inner[] = {{x - half + low, z},       {x + half - low, z},
                           {x + half, z + low},       {x + half, soffit - high},
                           {x + half - high, soffit}, {x - half + high, soffit},
                           {x - half, soffit - high}, {x - half, z + low}};
    const cw_draw_ring rings[] = {{outer, 4}, {inner, 8}};
    cw_draw_region(s->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, rings, 2, true);
}

static void barrels(section *s)
{
    for (int b = 0; b < s->plan->barrel_count; b++) {
        const double x = axis_in(s, b), z = invert_in(s, b), half = s->span_in / 2;
        cw_draw_rectangle(s->drawing, CW_LAYER_RULE, CW_FILL_WHITE, (cw_xy){x - half, z},
                          (cw_xy){x + half, z + s->rise_in});
        if (draw_is_ring(s->plan)) {
            ring_piece(s, x, z);
        } else {
            base_piece(s, x, z);
            top_piece(s, x, z);
        }
        cw_draw_line(s->drawing, CW_LAYER_CENTER, (cw_xy){x, z - s->floor_in - s->under_in - 3},
                     (cw_xy){x, z + s->rise_in + s->top_in + 6});
        const cw_xy middle = draw_paper(s->drawing, (cw_xy){x, z + s->rise_in * 0.5});
        const cw_text_style bold = {.weight = CW_FONT_BOLD, .align = CW_ALIGN_CENTER, .halo = true};
        const char *size =
            cw_arena_print(s->arena, "%s x %s", draw_cast(s->plan, s->arena, s->span_in),
                           draw_cast(s->plan, s->arena, s->rise_in));
        const bool roomy = cw_font_width_pt(size, s->drawing->text_pt, CW_FONT_REGULAR) + 6 <
                           s->span_in * s->drawing->view.scale_x;
        draw_text_at(s->drawing, middle.x, middle.y - (roomy ? 2 : 0), bold,
                     cw_arena_print(s->arena, roomy ? "BARREL %d" : "%d", b + 1));
        if (!roomy)
            continue;
        cw_text_style plain = bold;
        plain.weight = CW_FONT_REGULAR;
        plain.valign = CW_VALIGN_TOP;
        draw_text_at(s->drawing, middle.x, middle.y + 3, plain, size);
    }
}

/* ---- dimensions and notes ---- */

static void across(section *s)
{
    enum { POINTS_MAX = 4 * CW_BARRELS_MAX };
    cw_drawing *d = s->drawing;
    const int count = s->plan->barrel_count;
    cw_xy points[POINTS_MAX];
    const char *texts[POINTS_MAX];
    int used = 0;
    const double low = s->lowest_in - 6;
    for (int b = 0; b < count; b++) {
        const double x = axis_in(s, b), xs[4] = {x - s->outer_in / 2, x - s->span_in / 2,
                                                 x + s->span_in / 2, x + s->outer_in / 2};
        for (int k = 0; k < 4; k++) {
            points[used] = (cw_xy){xs[k], low};
            texts[used] = k == 1                          ? draw_cast(s->plan, s->arena, s->span_in)
                          : k == 3 && b == 0 && count > 1 ? draw_cast(s->plan, s->arena, s->gap_in)
                          : k == 0 && b == 0              ? draw_cast(s->plan, s->arena, s->wall_in)
                                                          : NULL;
            used++;
        }
    }
    assert(used > 0);
    const double step = 2.1 * d->text_pt;
    cw_draw_dimension_chain(
        d, (cw_dimension){.offset_pt = -1.6 * step, .kind = CW_DIMENSION_HORIZONTAL}, points, used,
        texts);
    const double last_row = count > 1 ? 3.4 : 2.6;
    cw_draw_dimension(d, (cw_dimension){points[0], points[used - 1], -last_row * step,
                                        cw_arena_print(s->arena, "%s out to out%s",
                                                       draw_cast(s->plan, s->arena, s->total_in),
                                                       count > 1 ? " of all barrels" : ""),
                                        CW_DIMENSION_HORIZONTAL});
    if (count > 1)
        cw_draw_dimension(d,
                          (cw_dimension){points[0], points[3], -2.5 * step,
                                         cw_arena_print(s->arena, "%s outside",
                                                        draw_cast(s->plan, s->arena, s->outer_in)),
                                         CW_DIMENSION_HORIZONTAL});
}

/* A thickness is written into the slab: its dimension line is too short for it. */
static bool slab_has_room(const section *s, double thick_in)
{
    return thick_in * s->drawing->view.scale_y > 0.85 * s->drawing->text_pt;
}

static void slab_words(section *s, int barrel, double z_in, const char *name, double thick_in)
{
    if (!slab_has_room(s, thick_in))
        return;
    const cw_xy at =
        draw_paper(s->drawing, (cw_xy){axis_in(s, barrel) + s->span_in * 0.2, z_in + thick_in / 2});
    draw_text_at(
        s->drawing, at.x, at.y,
        (cw_text_style){.align = CW_ALIGN_CENTER, .valign = CW_VALIGN_MIDDLE, .halo = true},
        cw_arena_print(s->arena, "%s %s", name, draw_cast(s->plan, s->arena, thick_in)));
}

static void upward(section *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan *plan = s->plan;
    const int last = plan->barrel_count - 1;
    const double z = invert_in(s, last), x = bed_half_in(s) + EARTH_IN, under = z - s->floor_in;
    const cw_xy points[] = {
        {x, under}, {x, z}, {x, z + s->rise_in}, {x, z + s->rise_in + s->top_in}};
    const char *const texts[] = {NULL, draw_cast(plan, s->arena, s->rise_in), NULL};
    cw_draw_dimension_chain(
        d, (cw_dimension){.offset_pt = 2.6 * d->text_pt, .kind = CW_DIMENSION_VERTICAL}, points, 4,
        texts);
    cw_draw_dimension(d, (cw_dimension){points[0], points[3], 5.2 * d->text_pt,
                                        cw_arena_print(s->arena, "%s outside",
                                                       draw_cast(plan, s->arena, s->height_in)),
                                        CW_DIMENSION_VERTICAL});
    slab_words(s, 0, invert_in(s, 0) - s->floor_in, "Floor", s->floor_in);
    slab_words(s, 0, invert_in(s, 0) + s->rise_in, "Top", s->top_in);
    if (plan->job->box.form != CW_FORM_DOUBLE_U)
        return;
    const double zl = invert_in(s, 0), xl = -(bed_half_in(s) + EARTH_IN);
    const cw_xy left[] = {{xl, zl - s->floor_in},
                          {xl, zl},
                          {xl, zl + s->leg_in},
                          {xl, zl + s->rise_in},
                          {xl, zl + s->rise_in + s->top_in}};
    const char *const left_texts[] = {NULL, draw_cast(plan, s->arena, s->leg_in),
                                      draw_cast(plan, s->arena, s->rise_in - s->leg_in), NULL};
    cw_draw_dimension_chain(
        d, (cw_dimension){.offset_pt = -2.2 * d->text_pt, .kind = CW_DIMENSION_VERTICAL}, left, 5,
        left_texts);
}

static bool room_for_notes(const section *s)
{
    return s->span_in * s->drawing->view.scale_x > 16 * s->drawing->text_pt;
}

/* What the foot says; in a small picture also what would not fit inside a barrel. */
static const char *foot_words(const section *s)
{
    const char *slopes =
        "Slopes of the excavation are not shown: they follow the soil and the competent person.";
    cw_text text = cw_text_on(s->arena);
    const bool thin = !slab_has_room(s, s->floor_in) || !slab_has_room(s, s->top_in);
    if (thin)
        cw_text_print(&text, "Floor %s, top %s. ", draw_cast(s->plan, s->arena, s->floor_in),
                      draw_cast(s->plan, s->arena, s->top_in));
    if (!room_for_notes(s))
        cw_text_print(&text, "Haunches %s. ",
                      draw_cast(s->plan, s->arena, s->plan->job->box.haunch_in));
    cw_text_add(&text, thin ? "Excavation slopes are not shown." : slopes);
    return cw_text_string(&text);
}

static void notes(section *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan *plan = s->plan;
    const cw_job *job = plan->job;
    const double step = 1.4 * d->text_pt, z = invert_in(s, 0), x = axis_in(s, 0);
    const double top_pt = draw_paper(d, (cw_xy){0, s->surface_in}).y;
    const draw_rows above = {top_pt - 8, -step, 0};
    const cw_plan_barrel *barrel = &plan->barrels[0];
    if (barrel->has_cover) {
        const cw_xy crown = {x - s->outer_in * 0.25, z + s->rise_in + s->top_in},
                    surface = {crown.x, s->surface_in};
        cw_draw_arrow(d, CW_LAYER_DIMENSION, crown, surface);
        cw_draw_arrow(d, CW_LAYER_DIMENSION, surface, crown);
        draw_callout(d, surface, above,
                     cw_arena_print(s->arena, "Least cover %s, at %s from the outlet%s",
                                    draw_survey(plan, s->arena, barrel->least_cover.cover_ft),
                                    draw_survey(plan, s->arena, barrel->least_cover.at_ft),
                                    s->surface_true ? "" : " (cover not to scale)"));
    }
    if (plan->barrel_count > 1) {
        static const char *const words[] = {"Grout", "Flowable fill", "Granular fill"};
        const cw_xy gap = {(axis_in(s, 0) + axis_in(s, 1)) / 2, z + s->rise_in + s->top_in};
        draw_callout(d, gap, above,
                     cw_arena_print(s->arena, "%s in the gap, %d placement%s",
                                    words[job->fill.kind], job->fill.placements,
                                    job->fill.placements == 1 ? "" : "s"));
    }
    if (!room_for_notes(s))
        return;
    /* Notes inside the first barrel: there the paper is white. */
    const double half = s->span_in / 2;
    if (!draw_is_ring(plan)) {
        const cw_xy seat = {x + half + s->wall_in * 0.4, z + s->leg_in};
        const draw_rows rows = {draw_paper(d, (cw_xy){0, z + s->rise_in * 0.83}).y, step,
                                -0.3 * s->span_in * d->view.scale_x};
        draw_callout(d, seat, rows,
                     cw_arena_print(s->arena, "Seat, %s on base", draw_top_word(plan)));
    }
    if (job->box.haunch_in > 0) {
        const cw_xy haunch = {x - half + job->box.haunch_in / 2, z + job->box.haunch_in / 2};
        const draw_rows rows = {draw_paper(d, (cw_xy){0, z + s->rise_in * 0.27}).y, step,
                                0.25 * s->span_in * d->view.scale_x};
        draw_callout(
            d, haunch, rows,
            cw_arena_print(s->arena, "Haunch %s", draw_cast(plan, s->arena, job->box.haunch_in)));
    }
    if (job->box.form != CW_FORM_LID && job->box.top_haunch_in > 0) {
        const cw_xy haunch = {x - half + job->box.top_haunch_in / 2,
                              z + s->rise_in - job->box.top_haunch_in / 2};
        const draw_rows rows = {draw_paper(d, (cw_xy){0, z + s->rise_in * 0.72}).y, step,
                                0.25 * s->span_in * d->view.scale_x};
        draw_callout(d, haunch, rows,
                     cw_arena_print(s->arena, "Haunch %s",
                                    draw_cast(plan, s->arena, job->box.top_haunch_in)));
    }
}

static void earth_words(section *s)
{
    cw_drawing *d = s->drawing;
    const cw_job *job = s->plan->job;
    const double step = 1.4 * d->text_pt, half = bed_half_in(s),
                 under = invert_in(s, 0) - s->floor_in;
    /* Beside the dimensions, as far left as the sheet allows. */
    const double left_pt = draw_paper(d, (cw_xy){-half - EARTH_IN, 0}).x;
    const double low_pt = draw_paper(d, (cw_xy){0, s->lowest_in - 6}).y;
    const draw_rows below = {
        low_pt + 6, step,
        fmax(-7.5 * d->text_pt, left_pt - draw_paper(d, (cw_xy){-half, 0}).x - 3 * d->text_pt)};
    draw_callout(d, (cw_xy){-half + 4, under - s->under_in + job->bedding.thickness_in / 2}, below,
                 cw_arena_print(s->arena, "%s leveling\non %s bedding",
                                draw_cast(s->plan, s->arena, job->bedding.leveling_in),
                                draw_cast(s->plan, s->arena, job->bedding.thickness_in)));
    const draw_rows above = {draw_paper(d, (cw_xy){0, s->surface_in}).y - 8, -step, 0};
    draw_callout(d, (cw_xy){half * 0.97, s->surface_in * 0.75}, above, "Backfill");
    draw_callout(d, (cw_xy){half + EARTH_IN * 0.7, s->surface_in * 0.6}, above,
                 "Natural ground or fill");
    const cw_xy bed[] = {{s->total_in / 2, s->lowest_in}, {half, s->lowest_in}};
    cw_draw_dimension(d, (cw_dimension){bed[0], bed[1], -1.5 * d->text_pt,
                                        draw_survey(s->plan, s->arena, job->bedding.extra_ft),
                                        CW_DIMENSION_HORIZONTAL});
}

const cw_drawing *cw_draw_typical_section(const cw_plan *plan, double width_pt, double height_pt,
                                          cw_arena *arena)
{
    section s = {.plan = plan, .arena = arena};
    measure(&s);
    frame_picture(&s, width_pt, height_pt);
    earth(&s);
    bedding(&s);
    gaps(&s);
    barrels(&s);
    draw_foot(s.drawing, "TYPICAL SECTION, LOOKING UPSTREAM", foot_words(&s), true);
    across(&s);
    upward(&s);
    notes(&s);
    earth_words(&s);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
