/* The long profile: one barrel cut along its axis, with road, ground, cover and the inverts at the
 * joints. */
#include <math.h>
#include <string.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/units.h"
#include "draw_internal.h"

#define COUNT_OF(a) ((int)(sizeof(a) / sizeof(a)[0]))
#define BOX_LEAST_PT 34.0 /* a box lower than this on paper is drawn with raised heights */

#define SMALL_PEN 0.6
#define SMALL_PIECE_PT 14.0
#define LEVEL_CELL 4.3 /* room of a joint's level words, in text sizes */

enum { SURFACE_POINTS = 200, STRIP_ROWS = 3 };

#define UTILITY_REACH_FT 6.0 /* below the bedding that a utility is still shown */

typedef struct profile {
    const cw_plan *plan;
    const cw_plan_barrel *barrel;
    int number;
    cw_arena *arena;
    cw_drawing *drawing;
    double length_ft;
    double floor_ft, rise_ft, top_ft, leg_ft; /* plumb */
    double leveling_ft, bedding_ft;
    double low_ft, high_ft; /* elevations shown */
    double strip_pt;        /* height of the table under the drawing */
    bool upright;           /* its words are turned */
    double head_pt;         /* width of its row names */
} profile;

/* ---- places ---- */

static double invert_at(const profile *p, double at_ft)
{
    return cw_run_invert_ft(&p->barrel->grade, at_ft);
}

/* A point height_ft (plumb) over the invert. */
static cw_xy over_invert(const profile *p, double at_ft, double height_ft)
{
    return (cw_xy){at_ft, invert_at(p, at_ft) + height_ft};
}

/* Finished surface and ground over this barrel's axis. */
static int surface_line(const profile *p, cw_xy *points)
{
    const cw_plan *plan = p->plan;
    if (p->number == 0) {
        int count = 0;
        for (int i = 0; i < plan->profile_count && count < SURFACE_POINTS; i++)
            points[count++] = (cw_xy){plan->profile[i].at_ft, plan->profile[i].surface_ft};
        return count;
    }
    const cw_run_over over = {&plan->road, plan->ground.count > 1 ? &plan->ground : NULL,
                              &p->barrel->line, p->barrel->grade, plan->box};
    for (int i = 0; i < SURFACE_POINTS; i++) {
        const double at_ft = p->length_ft * i / (SURFACE_POINTS - 1);
        points[i] = (cw_xy){at_ft, cw_run_cover_at(&over, at_ft).surface_ft};
    }
    return SURFACE_POINTS;
}

static int ground_line(const profile *p, cw_xy *points)
{
    int count = 0;
    for (int i = 0; i < SURFACE_POINTS; i++) {
        const double at_ft = p->length_ft * i / (SURFACE_POINTS - 1);
        double ground_ft;
        if (cw_run_ground_at(&p->plan->ground, cw_run_line_at(&p->barrel->line, at_ft).chain_ft,
                             &ground_ft))
            points[count++] = (cw_xy){at_ft, ground_ft};
    }
    return count;
}

/* Where the axis is u_ft from the road's centre line; the place nearest to the outlet or to the
 * inlet. */
static bool place_at_u(const profile *p, double u_ft, bool last, double *at_ft)
{
    bool found = false;
    for (int i = 0; i + 1 < SURFACE_POINTS; i++) {
        const double a = p->length_ft * i / (SURFACE_POINTS - 1),
                     b = p->length_ft * (i + 1) / (SURFACE_POINTS - 1);
        const double ua = cw_run_line_at(&p->barrel->line, a).u_ft - u_ft,
                     ub = cw_run_line_at(&p->barrel->line, b).u_ft - u_ft;
        if ((ua <= 0) == (ub <= 0))
            continue;
        *at_ft = a + (b - a) * ua / (ua - ub);
        found = true;
        if (!last)
            break;
    }
    return found;
}

/* ---- frame ---- */

static void measure(profile *p)
{
    const cw_plan *plan = p->plan;
    const cw_job *job = plan->job;
    const double per_in = plan->slope_factor / CW_IN_PER_FT;
    const cw_piece_shape *base = draw_row_shape(plan, CW_ORDER_BASE);
    p->length_ft = p->barrel->joints[p->barrel->base_count].at.at_ft;
    p->floor_ft = job->box.floor_in * per_in;
    p->rise_ft = job->box.rise_in * per_in;
    p->top_ft = job->box.top_in * per_in;
    p->leg_ft = base->leg_in * per_in;
    p->leveling_ft = job->bedding.leveling_in * per_in;
    p->bedding_ft = job->bedding.thickness_in * per_in;
    const double outlet_ft = invert_at(p, 0), inlet_ft = invert_at(p, p->length_ft);
    p->low_ft = fmin(outlet_ft, inlet_ft) - p->floor_ft - p->leveling_ft - p->bedding_ft;
    p->high_ft = fmax(outlet_ft + plan->outlet.wall_top_ft, inlet_ft + plan->inlet.wall_top_ft);
    cw_xy points[SURFACE_POINTS];
    int count = job->road.present ? surface_line(p, points) : 0;
    for (int i = 0; i < count; i++)
        p->high_ft = fmax(p->high_ft, points[i].y);
    count = ground_line(p, points);
    for (int i = 0; i < count; i++) {
        p->low_ft = fmin(p->low_ft, points[i].y);
        p->high_ft = fmax(p->high_ft, points[i].y);
    }
    /* A utility a little under the bottom is shown; one far below is none of the cut's. */
    const double least_ft = p->low_ft - UTILITY_REACH_FT;
    for (int i = 0; i < plan->conflicts.utility_count; i++) {
        const cw_plan_utility *utility = &plan->conflicts.utilities[i];
        const double low_ft = utility->top_ft - utility->given->diameter_in / CW_IN_PER_FT;
        if (utility->given->has_at && utility->has_level && low_ft >= least_ft)
            p->low_ft = fmin(p->low_ft, low_ft);
    }
}

static cw_view fit(const profile *p, double width_pt, double height_pt, double text, int times)
{
    const double foot_pt = draw_foot_pt(text, 0);
    return cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                      .height_pt = height_pt,
                                      .min = {0, p->low_ft},
                                      .max = {p->length_ft, p->high_ft},
                                      .left_pt = p->head_pt,
                                      .right_pt = 5.5 * text,
                                      .top_pt = 4.2 * text,
                                      .bottom_pt = foot_pt + p->strip_pt + 3.2 * text,
                                      .exaggeration = times});
}

/* True heights when the box is legible; else raised as little as makes it so, as far as the frame
 * allows. */
static cw_view choose(const profile *p, double width_pt, double height_pt, double text)
{
    /* Times that leave a customary vertical scale. */
    static const int raises[] = {2, 4, 5};
    cw_view view = fit(p, width_pt, height_pt, text, 1);
    const double natural = view.scale_x;
    for (int i = 0; i < COUNT_OF(raises) && view.scale_y * p->rise_ft < BOX_LEAST_PT; i++) {
        const cw_view raised = fit(p, width_pt, height_pt, text, raises[i]);
        if (raised.scale_x < natural)
            break;
        view = raised;
    }
    return view;
}

static void frame_picture(profile *p, double width_pt, double height_pt)
{
    const double text = draw_lettering_pt(width_pt);
    p->head_pt = 11 * text;
    /* The words of the joints stand level where they all fit, else upright. */
    p->strip_pt = STRIP_ROWS * 1.7 * text;
    cw_view view = choose(p, width_pt, height_pt, text);
    p->upright = p->length_ft / p->barrel->base_count * view.scale_x < LEVEL_CELL * text;
    if (p->upright) {
        p->strip_pt = STRIP_ROWS * 4.9 * text;
        view = choose(p, width_pt, height_pt, text);
    }
    /* Spare height goes mostly above, where the notes are. */
    const double low_pt = cw_view_paper(&view, (cw_xy){0, p->low_ft}).y;
    const double share = p->plan->job->road.present ? 0.7 : 0.2;
    view.base_pt += share * (height_pt - draw_foot_pt(text, 0) - p->strip_pt - 3.2 * text - low_pt);
    p->drawing = draw_new(p->arena, view, text);
}

/* ---- what is built ---- */

static void band(profile *p, double from_ft, double to_ft, cw_layer layer, cw_fill fill)
{
    const cw_xy points[4] = {over_invert(p, 0, from_ft), over_invert(p, p->length_ft, from_ft),
                             over_invert(p, p->length_ft, to_ft), over_invert(p, 0, to_ft)};
    cw_draw_polygon(p->drawing, layer, fill, points, 4);
}

static void hole(profile *p, const cw_job_opening *given)
{
    const double factor = p->plan->slope_factor / CW_IN_PER_FT;
    const double half_ft =
        (given->has_diameter ? given->diameter_in : given->width_in) / 2 / CW_IN_PER_FT;
    const double from = given->at_ft - half_ft, to = given->at_ft + half_ft;
    if (given->face == CW_FACE_TOP || given->face == CW_FACE_FLOOR) {
        const bool top = given->face == CW_FACE_TOP;
        const double low = top ? p->rise_ft : -p->floor_ft, high = top ? p->rise_ft + p->top_ft : 0;
        const cw_xy points[4] = {over_invert(p, from, low), over_invert(p, to, low),
                                 over_invert(p, to, high), over_invert(p, from, high)};
        cw_draw_polygon(p->drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, points, 4);
        return;
    }
    /* The left wall is seen beyond; the right one is cut away, so its openings are hidden lines. */
    const cw_layer unseen =
        half_ft * p->drawing->view.scale_x < 4 ? CW_LAYER_RULE : CW_LAYER_HIDDEN;
    const cw_layer layer = given->face == CW_FACE_LEFT ? CW_LAYER_OUTLINE : unseen;
    const cw_fill fill = given->face == CW_FACE_LEFT ? CW_FILL_SHADE : CW_FILL_NONE;
    const double center = given->height_in * factor;
    if (given->has_diameter) {
        cw_draw_circle(p->drawing, layer, fill, over_invert(p, given->at_ft, center), half_ft);
        return;
    }
    const double tall = given->tall_in * factor / 2;
    const cw_xy points[4] = {over_invert(p, from, center - tall), over_invert(p, to, center - tall),
                             over_invert(p, to, center + tall),
                             over_invert(p, from, center + tall)};
    cw_draw_polygon(p->drawing, layer, fill, points, 4);
}

/* Lines of a long run whose pieces are small on paper are thinner. */
static double pen_of(const profile *p)
{
    return p->length_ft / p->barrel->base_count * p->drawing->view.scale_x < SMALL_PIECE_PT
               ? SMALL_PEN
               : 1;
}

static void joints(profile *p, const int *row, int count, double low_ft, double high_ft)
{
    p->drawing->pen_factor = pen_of(p);
    for (int i = 1; i < count; i++) {
        const cw_plan_piece *before = &p->plan->pieces[row[i - 1]];
        const cw_plan_piece *after = &p->plan->pieces[row[i]];
        const double at = (before->end_ft + after->start_ft) / 2;
        cw_draw_line(p->drawing, CW_LAYER_OUTLINE, over_invert(p, at, low_ft),
                     over_invert(p, at, high_ft));
    }
    p->drawing->pen_factor = 1;
}

static void headwall(profile *p, bool inlet)
{
    const cw_plan_end *end = inlet ? &p->plan->inlet : &p->plan->outlet;
    if (!end->has_headwall)
        return;
    const double thick_ft =
        (inlet ? p->plan->job->run.inlet : p->plan->job->run.outlet).thickness_in / CW_IN_PER_FT;
    const double face = inlet ? p->length_ft : 0, far = inlet ? face + thick_ft : -thick_ft,
                 invert = invert_at(p, face);
    cw_draw_rectangle(p->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT,
                      (cw_xy){fmin(face, far), invert + p->rise_ft},
                      (cw_xy){fmax(face, far), invert + end->wall_top_ft});
    cw_draw_rectangle(p->drawing, CW_LAYER_OUTLINE, CW_FILL_CONCRETE,
                      (cw_xy){fmin(face, far), invert},
                      (cw_xy){fmax(face, far), invert + p->rise_ft});
}

static void barrel(profile *p)
{
    const cw_plan_barrel *b = p->barrel;
    const bool ring = b->top_count == 0;
    const double under = -p->floor_ft, seam = ring ? p->rise_ft + p->top_ft : p->leg_ft;
    band(p, under - p->leveling_ft - p->bedding_ft, under - p->leveling_ft, CW_LAYER_OUTLINE,
         CW_FILL_BEDDING);
    band(p, under - p->leveling_ft, under, CW_LAYER_RULE, CW_FILL_WHITE);
    band(p, 0, p->rise_ft, CW_LAYER_RULE, CW_FILL_CONCRETE);
    band(p, under, 0, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT);
    band(p, p->rise_ft, p->rise_ft + p->top_ft, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT);
    if (!ring)
        cw_draw_line(p->drawing, CW_LAYER_OUTLINE, over_invert(p, 0, seam),
                     over_invert(p, p->length_ft, seam));
    joints(p, b->bases, b->base_count, under, seam);
    joints(p, b->tops, b->top_count, seam, p->rise_ft + p->top_ft);
    for (int i = 0; i < p->plan->job->opening_count; i++)
        if (p->plan->job->openings[i].barrel == p->number + 1)
            hole(p, &p->plan->job->openings[i]);
    headwall(p, false);
    headwall(p, true);
}

static void road(profile *p)
{
    cw_xy points[SURFACE_POINTS];
    if (p->plan->job->road.present) {
        const int count = surface_line(p, points);
        cw_draw_polyline(p->drawing, CW_LAYER_CUT, points, count);
    }
    const int count = ground_line(p, points);
    if (count > 1)
        cw_draw_polyline(p->drawing, CW_LAYER_GROUND, points, count);
}

/* ---- notes ---- */

static draw_rows rows_above(const profile *p)
{
    return (draw_rows){draw_paper(p->drawing, (cw_xy){0, p->high_ft}).y - 8,
                       -1.5 * p->drawing->text_pt, 0};
}

static double surface_at(const profile *p, double at_ft)
{
    cw_xy points[SURFACE_POINTS];
    const int count = surface_line(p, points);
    for (int i = 0; i + 1 < count; i++)
        if (points[i + 1].x >= at_ft) {
            const double run = points[i + 1].x - points[i].x;
            const double share = run > 0 ? (at_ft - points[i].x) / run : 0;
            return points[i].y + share * (points[i + 1].y - points[i].y);
        }
    return points[count - 1].y;
}

static void cover_note(profile *p, const cw_run_cover *cover, const char *what)
{
    const cw_xy top = {cover->at_ft, cover->top_ft}, surface = {cover->at_ft, cover->surface_ft};
    if (cover->surface_ft <= cover->top_ft)
        return;
    cw_draw_arrow(p->drawing, CW_LAYER_DIMENSION, top, surface);
    cw_draw_arrow(p->drawing, CW_LAYER_DIMENSION, surface, top);
    draw_callout(
        p->drawing, surface, rows_above(p),
        cw_arena_print(p->arena, "%s %s", what, draw_survey(p->plan, p->arena, cover->cover_ft)));
}

static void covers(profile *p)
{
    const cw_plan *plan = p->plan;
    if (!p->barrel->has_cover)
        return;
    cover_note(p, &p->barrel->least_cover, "Least cover");
    double at_ft;
    if (!place_at_u(p, 0, false, &at_ft))
        return;
    const cw_run_over over = {&plan->road, plan->ground.count > 1 ? &plan->ground : NULL,
                              &p->barrel->line, p->barrel->grade, plan->box};
    const cw_run_cover cover = cw_run_cover_at(&over, at_ft);
    cover_note(p, &cover, "Road center line: cover");
}

static void road_marks(profile *p)
{
    if (!p->plan->job->road.present)
        return;
    const double u_ft[2] = {-cw_run_hinge_ft(&p->plan->road.outlet),
                            cw_run_hinge_ft(&p->plan->road.inlet)};
    for (int s = 0; s < 2; s++) {
        double at_ft;
        if (!place_at_u(p, u_ft[s], s, &at_ft))
            continue;
        const cw_xy at = {at_ft, surface_at(p, at_ft)};
        cw_paper_circle(p->drawing, CW_LAYER_OUTLINE, CW_FILL_WHITE, draw_paper(p->drawing, at), 2);
        draw_rows rows = rows_above(p);
        rows.y_pt = draw_paper(p->drawing, at).y - 9;
        rows.shift_pt = s ? 16 : -16;
        draw_callout(p->drawing, at, rows, "Hinge");
    }
}

static void end_words(profile *p, bool inlet)
{
    cw_drawing *d = p->drawing;
    const double face = inlet ? p->length_ft : 0;
    const cw_xy at = draw_paper(d, over_invert(p, face, p->rise_ft / 2));
    const double thick_pt =
        (inlet ? p->plan->job->run.inlet : p->plan->job->run.outlet).thickness_in / CW_IN_PER_FT *
        d->view.scale_x;
    cw_text_style style = {.weight = CW_FONT_BOLD,
                           .align = inlet ? CW_ALIGN_LEFT : CW_ALIGN_RIGHT,
                           .valign = CW_VALIGN_MIDDLE};
    draw_text_at(d, at.x + (inlet ? 1 : -1) * (thick_pt + 5), at.y, style,
                 inlet ? "INLET" : "OUTLET");
}

static void layer_words(profile *p)
{
    const cw_job *job = p->plan->job;
    const double at_ft = p->length_ft * 0.08,
                 under = -p->floor_ft - p->leveling_ft - p->bedding_ft / 2;
    const cw_xy low = draw_paper(p->drawing, over_invert(p, at_ft, under));
    const draw_rows below = {low.y + 9 + p->bedding_ft * p->drawing->view.scale_y / 2,
                             1.4 * p->drawing->text_pt, 90};
    draw_callout(p->drawing, over_invert(p, at_ft, under), below,
                 cw_arena_print(p->arena, "%s leveling course on %s bedding",
                                draw_cast(p->plan, p->arena, job->bedding.leveling_in),
                                draw_cast(p->plan, p->arena, job->bedding.thickness_in)));
    cw_xy ground[SURFACE_POINTS];
    const int count = ground_line(p, ground);
    if (count > 1) {
        const cw_xy at = ground[count - 1 - count / 10];
        draw_rows rows = {draw_paper(p->drawing, at).y - 8, -1.4 * p->drawing->text_pt, 0};
        draw_callout(p->drawing, at, rows, "Existing ground");
    }
    if (job->road.present) {
        const double at_x = p->length_ft * 0.40;
        const cw_xy at = {at_x, surface_at(p, at_x)};
        draw_rows rows = {draw_paper(p->drawing, at).y - 8, -1.4 * p->drawing->text_pt, -30};
        draw_callout(p->drawing, at, rows, "Finished surface");
    }
}

static void opening_words(profile *p)
{
    for (int i = 0; i < p->plan->job->opening_count; i++) {
        const cw_job_opening *given = &p->plan->job->openings[i];
        if (given->barrel != p->number + 1)
            continue;
        const bool top = given->face == CW_FACE_TOP;
        const double height = top                            ? p->rise_ft + p->top_ft
                              : given->face == CW_FACE_FLOOR ? 0
                                                             : given->height_in / CW_IN_PER_FT;
        const cw_xy at = over_invert(p, given->at_ft, height);
        const cw_xy crown =
            draw_paper(p->drawing, over_invert(p, given->at_ft, p->rise_ft + p->top_ft));
        const draw_rows rows = {crown.y - 9, -1.5 * p->drawing->text_pt, 0};
        draw_callout(p->drawing, at, rows,
                     cw_arena_print(p->arena, "%s at %s", given->name ? given->name : "Opening",
                                    draw_survey(p->plan, p->arena, given->at_ft)));
    }
}

/* Utilities that cross the axis of the structure, as rings at their level. */
static void utilities(profile *p)
{
    const cw_plan_conflicts *conflicts = &p->plan->conflicts;
    for (int i = 0; i < conflicts->utility_count; i++) {
        const cw_job_utility *given = conflicts->utilities[i].given;
        const double radius_ft = given->diameter_in / CW_IN_PER_FT / 2;
        const cw_xy top = {given->at_ft, conflicts->utilities[i].top_ft};
        if (!given->has_at || !conflicts->utilities[i].has_level || top.x < 0 || top.x > p->length_ft ||
            top.y > p->high_ft || top.y - 2 * radius_ft < p->low_ft)
            continue;
        cw_draw_circle(p->drawing,
                       given->status == CW_UTILITY_LIVE ? CW_LAYER_CUT : CW_LAYER_HIDDEN,
                       CW_FILL_WHITE, (cw_xy){top.x, top.y - radius_ft}, radius_ft);
        draw_callout(p->drawing, top, rows_above(p), given->name);
    }
}

/* The grade stands where no opening is. */
static double free_share(const profile *p)
{
    static const double shares[] = {0.37, 0.25, 0.62, 0.5, 0.78};
    const double half_ft = 36 / p->drawing->view.scale_x;
    for (int k = 0; k < 5; k++) {
        bool is_free = true;
        for (int i = 0; i < p->plan->job->opening_count; i++)
            is_free = is_free &&
                      (p->plan->job->openings[i].barrel != p->number + 1 ||
                       fabs(p->plan->job->openings[i].at_ft - shares[k] * p->length_ft) > half_ft);
        if (is_free)
            return shares[k];
    }
    return shares[0];
}

/* Joints that are more than joints. */
static void joint_words(profile *p)
{
    for (int i = 0; i <= p->barrel->base_count; i++) {
        const cw_plan_joint *joint = &p->barrel->joints[i];
        if (joint->is_end || (!joint->mitred && !joint->phase_line))
            continue;
        const double under = -p->floor_ft - p->leveling_ft - p->bedding_ft;
        const cw_xy foot = over_invert(p, joint->at.at_ft, under);
        cw_draw_line(p->drawing, CW_LAYER_HIGHLIGHT, over_invert(p, joint->at.at_ft, -p->floor_ft),
                     over_invert(p, joint->at.at_ft, p->rise_ft + p->top_ft));
        const draw_rows rows = {draw_paper(p->drawing, foot).y + 9, 1.4 * p->drawing->text_pt, 0};
        draw_callout(p->drawing, foot, rows,
                     joint->phase_line ? "Phase line" : "Bend: mitred joint");
    }
}

static void grade_mark(profile *p)
{
    const double middle_ft = free_share(p) * p->length_ft, half_ft = 20 / p->drawing->view.scale_x;
    cw_draw_slope_mark(
        p->drawing, over_invert(p, middle_ft - half_ft, p->rise_ft * 0.10),
        over_invert(p, middle_ft + half_ft, p->rise_ft * 0.10),
        cw_arena_print(p->arena, "Invert %s",
                       draw_value(p->plan, p->arena, fabs(p->plan->job->run.slope), CW_DIM_SLOPE)));
}

/* Level lines with elevations at the left. */
static void levels(profile *p)
{
    static const double steps[] = {1, 2, 5, 10, 20, 50, 100};
    const double unit_ft = p->plan->units == CW_SI ? 1 / CW_M_PER_FT : 1;
    double step_ft = 0;
    for (int i = 0; i < COUNT_OF(steps) && step_ft * p->drawing->view.scale_y < 22; i++)
        step_ft = steps[i] * unit_ft;
    const double right_ft = p->length_ft + 3 / p->drawing->view.scale_x;
    for (int i = 0; i < 200; i++) {
        const double z = ceil(p->low_ft / step_ft) * step_ft + i * step_ft;
        if (z > p->high_ft + step_ft / 2)
            break;
        cw_draw_line(p->drawing, CW_LAYER_GRID,
                     cw_at_paper(p->drawing, 4.2 * p->drawing->text_pt + DRAW_RIM_PT + 3,
                                 draw_paper(p->drawing, (cw_xy){0, z}).y),
                     (cw_xy){right_ft, z});
        const cw_xy at = draw_paper(p->drawing, (cw_xy){0, z});
        draw_text_if_free(
            p->drawing, 4.2 * p->drawing->text_pt + DRAW_RIM_PT, at.y,
            (cw_text_style){.align = CW_ALIGN_RIGHT, .valign = CW_VALIGN_MIDDLE, .grey = 0.35},
            cw_quantity_number(p->arena, z, CW_DIM_ELEV_FT, p->plan->units));
    }
}

/* ---- the strip of joints ---- */

static const char *strip_cell(const profile *p, int joint, int row)
{
    const cw_plan_joint *j = &p->barrel->joints[joint];
    if (row == 0) {
        if (j->is_end)
            return j->index < 0 ? "outlet" : "inlet";
        /* "1-B07/08" without the barrel's number: the title has it. */
        const char *name = strchr(j->name, '-');
        return name ? name + 1 : j->name;
    }
    return row == 1 ? cw_quantity_number(p->arena, j->at.at_ft, CW_DIM_FT, p->plan->units)
                    : cw_quantity_number(p->arena, j->at.invert_ft, CW_DIM_ELEV_FT, p->plan->units);
}

static double cell_room_pt(const profile *p)
{
    return p->upright ? p->drawing->text_pt * 1.12 : p->drawing->text_pt * LEVEL_CELL;
}

static void strip_column(profile *p, int joint, double top_pt, double row_pt)
{
    cw_drawing *d = p->drawing;
    const cw_plan_joint *j = &p->barrel->joints[joint];
    const double x = draw_paper(d, (cw_xy){j->at.at_ft, 0}).x;
    const cw_text_style style = {.align = CW_ALIGN_CENTER,
                                 .valign = CW_VALIGN_MIDDLE,
                                 .angle_deg = p->upright ? 90 : 0,
                                 .size_pt = d->text_pt * 0.95};
    for (int row = 0; row < STRIP_ROWS; row++)
        draw_text_at(d, x, top_pt + (row + 0.5) * row_pt, style, strip_cell(p, joint, row));
    const cw_xy foot = draw_paper(d, over_invert(p, j->at.at_ft, -p->floor_ft));
    cw_paper_line(d, CW_LAYER_GRID, foot, (cw_xy){x, top_pt});
    cw_paper_line(d, CW_LAYER_RULE, (cw_xy){x, top_pt - 3}, (cw_xy){x, top_pt});
}

static void strip(profile *p)
{
    cw_drawing *d = p->drawing;
    const double top_pt = d->view.height_pt - draw_foot_pt(d->text_pt, 0) - p->strip_pt,
                 row_pt = p->strip_pt / STRIP_ROWS;
    const char *const heads[STRIP_ROWS] = {
        "Joint",
        cw_arena_print(p->arena, "Distance, %s", cw_dim_unit_in(CW_DIM_FT, p->plan->units)),
        cw_arena_print(p->arena, "Invert, %s", cw_dim_unit_in(CW_DIM_ELEV_FT, p->plan->units))};
    const double right_pt = d->view.width_pt - DRAW_RIM_PT;
    for (int row = 0; row <= STRIP_ROWS; row++)
        cw_paper_line(d, CW_LAYER_RULE, (cw_xy){DRAW_RIM_PT, top_pt + row * row_pt},
                      (cw_xy){right_pt, top_pt + row * row_pt});
    for (int row = 0; row < STRIP_ROWS; row++)
        draw_text_at(d, DRAW_RIM_PT, top_pt + (row + 0.5) * row_pt,
                     (cw_text_style){.valign = CW_VALIGN_MIDDLE, .weight = CW_FONT_BOLD},
                     heads[row]);
    const int last = p->barrel->base_count;
    const double room_pt = cell_room_pt(p),
                 last_x = draw_paper(d, (cw_xy){p->barrel->joints[last].at.at_ft, 0}).x;
    double before_x = -1e6;
    for (int i = 0; i <= last; i++) {
        const double x = draw_paper(d, (cw_xy){p->barrel->joints[i].at.at_ft, 0}).x;
        if (i < last && (x - before_x < room_pt || last_x - x < room_pt))
            continue;
        strip_column(p, i, top_pt, row_pt);
        before_x = x;
    }
}

const cw_drawing *cw_draw_long_profile(const cw_plan *plan, int barrel_number, double width_pt,
                                       double height_pt, cw_arena *arena)
{
    profile p = {.plan = plan,
                 .barrel = &plan->barrels[barrel_number],
                 .number = barrel_number,
                 .arena = arena};
    measure(&p);
    frame_picture(&p, width_pt, height_pt);
    levels(&p);
    barrel(&p);
    road(&p);
    strip(&p);
    draw_foot(p.drawing, cw_arena_print(arena, "PROFILE ALONG BARREL %d", barrel_number + 1), NULL,
              true);
    end_words(&p, false);
    end_words(&p, true);
    grade_mark(&p);
    joint_words(&p);
    covers(&p);
    road_marks(&p);
    opening_words(&p);
    utilities(&p);
    layer_words(&p);
    cw_drawing_finish(p.drawing);
    return p.drawing;
}
