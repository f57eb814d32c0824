/* The joint of bases and of tops, cut along the run: a half lap that closes by straight lowering.
 */
#include <math.h>

#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define SEALANT_IN 0.75 /* height of a strip of sealant as drawn */

/* One panel.  x runs upstream from the shoulder of the piece that stands; z up from the slab's
 * underside. */
typedef struct lap_panel {
    const cw_plan *plan;
    cw_arena *arena;
    cw_drawing *drawing;
    double shift_in; /* of the panel's x = 0 on the sheet */
    double thick_in, reach_in;
    double gap_in, tongue_in, groove_in, tongue_share, groove_share;
    bool top;
    const char *name; /* "base", "lid" */
} lap_panel;

static cw_xy at(const lap_panel *p, double x_in, double z_in)
{
    return (cw_xy){p->shift_in + x_in, z_in};
}

/* Filled shape whose first and last points lie on the break at the panel's edge. */
static void cut_piece(lap_panel *p, const cw_xy *points, int count)
{
    cw_draw_region(p->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, &(cw_draw_ring){points, count},
                   1, false);
    cw_draw_polyline(p->drawing, CW_LAYER_CUT, points, count);
    const double over = 4 / p->drawing->view.scale_y;
    const cw_xy low = {points[0].x, points[0].y - over},
                high = {points[count - 1].x, points[count - 1].y + over};
    cw_draw_break_line(p->drawing, low, high);
}

/* Bases: the groove of the piece that stands opens upward and the new tongue comes down into it. */
static void base_lap(lap_panel *p)
{
    const double r = p->reach_in, t = p->thick_in, g = p->gap_in;
    const double ledge = t * (1 - p->groove_share), under = t * (1 - p->tongue_share);
    const cw_xy set[] = {at(p, -r, 0),
                         at(p, 0, 0),
                         at(p, 0, ledge),
                         at(p, -p->groove_in, ledge),
                         at(p, -p->groove_in, t),
                         at(p, -r, t)};
    const cw_xy fresh[] = {at(p, r, 0),
                           at(p, g, 0),
                           at(p, g, under),
                           at(p, g - p->tongue_in, under),
                           at(p, g - p->tongue_in, t),
                           at(p, r, t)};
    cut_piece(p, set, 6);
    cut_piece(p, fresh, 6);
}

/* Tops: the groove of the new piece opens downward and comes down over the tongue of the piece that
 * stands. */
static void top_lap(lap_panel *p)
{
    const double r = p->reach_in, t = p->thick_in, g = p->gap_in;
    const double tongue = t * p->tongue_share, roof = t * p->groove_share;
    const cw_xy set[] = {at(p, -r, 0),
                         at(p, p->tongue_in, 0),
                         at(p, p->tongue_in, tongue),
                         at(p, 0, tongue),
                         at(p, 0, t),
                         at(p, -r, t)};
    const cw_xy fresh[] = {at(p, r, 0),
                           at(p, g + p->groove_in, 0),
                           at(p, g + p->groove_in, roof),
                           at(p, g, roof),
                           at(p, g, t),
                           at(p, r, t)};
    cut_piece(p, set, 6);
    cut_piece(p, fresh, 6);
}

static cw_xy sealant(lap_panel *p)
{
    const double share = p->top ? (p->tongue_share + p->groove_share) / 2
                                : 1 - (p->tongue_share + p->groove_share) / 2;
    const double z = p->thick_in * share, from = p->top ? p->gap_in : p->gap_in - p->tongue_in,
                 to = p->top ? p->tongue_in : 0;
    const int rows = p->plan->job->sealant.rows;
    cw_xy first = at(p, (from + to) / 2, z);
    for (int i = 0; i < rows; i++) {
        const double x = from + (to - from) * (i + 0.5) / rows,
                     half = fmin((to - from) / rows * 0.3, SEALANT_IN);
        cw_draw_rectangle(p->drawing, CW_LAYER_RULE, CW_FILL_SOLID,
                          at(p, x - half, z - SEALANT_IN / 2), at(p, x + half, z + SEALANT_IN / 2));
        if (i == rows - 1)
            first = at(p, x, z);
    }
    return first;
}

static const char *cast(const lap_panel *p, double length_in)
{
    return draw_cast(p->plan, p->arena, length_in);
}

static void dimensions(lap_panel *p)
{
    cw_drawing *d = p->drawing;
    const cw_job_joint *joint = &p->plan->job->joint;
    const double t = p->thick_in, text = d->text_pt, g = p->gap_in;
    const char *tongue = cw_arena_print(p->arena, "Tongue %s", cast(p, p->tongue_in)),
               *groove = cw_arena_print(p->arena, "Groove %s", cast(p, p->groove_in));
    const char *gap = cw_arena_print(p->arena, "Gap %s (%s to %s)", cast(p, joint->gap_in),
                                     cast(p, joint->gap_min_in), cast(p, joint->gap_max_in));
    const double lap_z = p->top ? 0 : t, gap_z = p->top ? t : 0, way = p->top ? -1 : 1;
    const double tongue_x[2] = {p->top ? 0 : g - p->tongue_in, p->top ? p->tongue_in : g};
    const double groove_x[2] = {p->top ? g : -p->groove_in, p->top ? g + p->groove_in : 0};
    cw_draw_dimension(d, (cw_dimension){at(p, tongue_x[0], lap_z), at(p, tongue_x[1], lap_z),
                                        way * 1.9 * text, tongue, CW_DIMENSION_HORIZONTAL});
    cw_draw_dimension(d, (cw_dimension){at(p, groove_x[0], lap_z), at(p, groove_x[1], lap_z),
                                        way * 3.9 * text, groove, CW_DIMENSION_HORIZONTAL});
    cw_draw_dimension(d, (cw_dimension){at(p, 0, gap_z), at(p, g, gap_z), -way * 1.9 * text, gap,
                                        CW_DIMENSION_HORIZONTAL});
    cw_draw_dimension(d, (cw_dimension){at(p, -p->reach_in, 0), at(p, -p->reach_in, t), -1.9 * text,
                                        cast(p, t), CW_DIMENSION_VERTICAL});
}

/* Rows and, when the job says what can be had, the section that fits or that none does. */
static const char *sealant_words(const lap_panel *p)
{
    const cw_job_sealant *given = &p->plan->job->sealant;
    const cw_plan_closing *closing = &p->plan->closing;
    const char *rows = cw_arena_print(p->arena, "Sealant, %d row%s", given->rows, given->rows == 1 ? "" : "s");
    if (!closing->has_rope)
        return rows;
    if (closing->rope.state != CW_ROPE_FITS)
        return cw_arena_print(p->arena, "%s: NONE FITS", rows);
    return given->has_width ? cw_arena_print(p->arena, "%s, %s x %s", rows, cast(p, given->width_in), cast(p, closing->rope.size_in))
                            : cw_arena_print(p->arena, "%s, %s square", rows, cast(p, closing->rope.size_in));
}

static void words(lap_panel *p, cw_xy seal)
{
    cw_drawing *d = p->drawing;
    const double text = d->text_pt, r = p->reach_in, t = p->thick_in;
    const cw_text_style bold = {
        .align = CW_ALIGN_CENTER, .valign = CW_VALIGN_MIDDLE, .weight = CW_FONT_BOLD, .halo = true};
    const double far = p->tongue_in + p->gap_in, middle = (r + far) / 2;
    const cw_xy left = draw_paper(d, at(p, -middle, t / 2)),
                right = draw_paper(d, at(p, middle, t / 2));
    /* In a small panel only the order is told. */
    const double room_pt = (r - far) * d->view.scale_x;
    const bool small = cw_font_width_pt("straight down", text, CW_FONT_BOLD) > room_pt;
    draw_text_at(d, left.x, left.y, bold,
                 small ? "1: set" : cw_arena_print(p->arena, "1: %s, set", p->name));
    draw_text_at(d, right.x, right.y, bold,
                 small ? "2: new" : cw_arena_print(p->arena, "2: new %s,\nstraight down", p->name));
    const cw_xy above = at(p, r - 1, t);
    cw_draw_arrow(d, CW_LAYER_HIGHLIGHT, cw_moved(d, above, 0, 1.9 * text),
                  cw_moved(d, above, 0, 3));
    const double low = draw_paper(d, at(p, 0, 0)).y, high = draw_paper(d, at(p, 0, t)).y;
    const draw_rows rows = {p->top ? high - 8 : low + 8, (p->top ? -1.4 : 1.4) * text, -7 * text};
    draw_callout(d, seal, rows, sealant_words(p));
    const double ways = low + 5.4 * text, line = low + 7.3 * text;
    const cw_text_style title = {.align = CW_ALIGN_CENTER, .weight = CW_FONT_BOLD};
    draw_text_at(d, draw_paper(d, at(p, 0, 0)).x, line, title,
                 p->top ? "TOP JOINT, THROUGH THE SLAB" : "BASE JOINT, THROUGH THE FLOOR");
    const double x0 = draw_paper(d, at(p, -r, 0)).x, x1 = draw_paper(d, at(p, r, 0)).x,
                 shaft = 2.4 * text;
    cw_draw_arrow(d, CW_LAYER_OUTLINE, cw_at_paper(d, x0 + shaft, ways), cw_at_paper(d, x0, ways));
    draw_text_at(d, x0 + shaft + 4, ways, (cw_text_style){.valign = CW_VALIGN_MIDDLE}, "OUTLET");
    cw_draw_arrow(d, CW_LAYER_OUTLINE, cw_at_paper(d, x1 - shaft, ways), cw_at_paper(d, x1, ways));
    draw_text_at(d, x1 - shaft - 4, ways,
                 (cw_text_style){.valign = CW_VALIGN_MIDDLE, .align = CW_ALIGN_RIGHT}, "INLET");
}

static void panel(lap_panel *p)
{
    if (p->top)
        top_lap(p);
    else
        base_lap(p);
    const cw_xy seal = sealant(p);
    dimensions(p);
    words(p, seal);
}

static const char *notes_of(const cw_plan *plan, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    cw_text_add(&text, "SHOWN AS ASSUMED. THE PRECASTER'S DRAWING GOVERNS. Gap as laid:");
    bool alike = true;
    for (int b = 1; b < plan->barrel_count; b++)
        alike = alike && fabs(plan->barrels[b].gap_in - plan->barrels[0].gap_in) < 1e-6;
    for (int b = 0; b < plan->barrel_count && !alike; b++)
        cw_text_print(&text, "%s %s in barrel %d", b ? "," : "",
                      draw_cast(plan, arena, plan->barrels[b].gap_in), b + 1);
    if (alike)
        cw_text_print(&text, " %s", draw_cast(plan, arena, plan->barrels[0].gap_in));
    const cw_plan_closing *closing = &plan->closing;
    cw_text_print(&text, ". Room for the sealant %s to %s.", draw_cast(plan, arena, closing->annulus_min_in),
                  draw_cast(plan, arena, closing->annulus_max_in));
    if (closing->has_rope && closing->rope.state != CW_ROPE_FITS)
        cw_text_add(&text, " NO SEALANT OF THE SIZES GIVEN FITS THIS JOINT: LESS TOLERANCE, TWO THINNER ROWS, OR THE WRAP BY AGREEMENT.");
    return cw_text_string(&text);
}

const cw_drawing *cw_draw_joint_detail(const cw_plan *plan, double width_pt, double height_pt,
                                       cw_arena *arena)
{
    const cw_job_joint *joint = &plan->job->joint;
    const cw_job_box *box = &plan->job->box;
    const double text = draw_lettering_pt(width_pt),
                 reach_in = 2.6 * fmax(joint->tongue_in, joint->groove_in) + 5;
    const int panels = draw_is_ring(plan) ? 1 : 2;
    int lines;
    const char *notes = draw_wrapped(arena, notes_of(plan, arena), text, width_pt, &lines);
    const double between_pt = 7 * text, side_pt = 5 * text;
    const cw_view probe =
        cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                   .height_pt = height_pt,
                                   .min = {0, 0},
                                   .max = {2 * reach_in * panels, fmax(box->floor_in, box->top_in)},
                                   .left_pt = 2 * side_pt + (panels - 1) * between_pt,
                                   .top_pt = 6 * text,
                                   .bottom_pt = draw_foot_pt(text, lines) + 8 * text,
                                   .unit = CW_VIEW_IN});
    cw_view view = probe;
    const double used_pt = 2 * reach_in * panels * view.scale_x + (panels - 1) * between_pt;
    view.left_pt = (width_pt - used_pt) / 2 + 0.5 * side_pt;
    cw_drawing *drawing = draw_new(arena, view, text);
    for (int i = 0; i < panels; i++) {
        lap_panel p = {.plan = plan,
                       .arena = arena,
                       .drawing = drawing,
                       .top = i == 1,
                       .reach_in = reach_in,
                       .gap_in = joint->gap_in,
                       .tongue_in = joint->tongue_in,
                       .groove_in = joint->groove_in,
                       .tongue_share = joint->tongue_share,
                       .groove_share = joint->groove_share,
                       .thick_in = i ? box->top_in : box->floor_in,
                       .name = i ? draw_top_word(plan) : draw_base_word(plan)};
        p.shift_in = reach_in + i * (2 * reach_in + between_pt / view.scale_x);
        panel(&p);
    }
    draw_foot(drawing, "JOINT DETAIL, CUT ALONG THE RUN", notes, true);
    cw_drawing_finish(drawing);
    return drawing;
}
