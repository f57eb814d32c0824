/* Wings, apron and cutoff wall of an end: on the plan of the whole, and on a sheet of their own. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define GAP_LINES 7.5 /* between plan and elevation, in lines of text */
#define STUB_SHARE 0.3

/* ---- shapes, in the axes of the end ---- */

static cw_end_point along(cw_end_point from, cw_end_point way, double by_ft)
{
    return (cw_end_point){from.out_ft + way.out_ft * by_ft, from.right_ft + way.right_ft * by_ft};
}

static cw_end_point way_between(cw_end_point a, cw_end_point b)
{
    const double length = fmax(hypot(b.out_ft - a.out_ft, b.right_ft - a.right_ft), 1e-9);
    return (cw_end_point){(b.out_ft - a.out_ft) / length, (b.right_ft - a.right_ft) / length};
}

bool draw_wing_shape(const cw_plan_end_works *works, int side, double low_ft, double high_ft,
                     cw_end_point corners[4])
{
    const cw_plan_wing *wing = &works->wings[side];
    if (!wing->present || !wing->has_take)
        return false;
    const cw_end_point root = works->plan.root[side], tip = works->plan.tip[side],
                       way = way_between(root, tip);
    // Away from the water; a wing in line with the road goes on in the line of the headwall.
    const bool along_road = wing->given->kind == CW_JOB_WING_ALONG_ROAD;
    const double sign = (side == CW_END_RIGHT ? 1.0 : -1.0) * (along_road ? -1.0 : 1.0);
    const cw_end_point back = {-sign * way.right_ft, sign * way.out_ft};
    corners[0] = along(root, back, low_ft);
    corners[1] = along(tip, back, low_ft);
    corners[2] = along(tip, back, high_ft);
    corners[3] = along(root, back, high_ft);
    return true;
}

bool draw_cutoff_shape(const cw_plan_end_works *works, double thick_ft, cw_end_point corners[4])
{
    if (!works->has_cutoff)
        return false;
    const cw_end_point a = works->plan.edge[CW_END_LEFT], b = works->plan.edge[CW_END_RIGHT],
                       way = way_between(a, b);
    // Under the edge, toward the barrel.
    const cw_end_point in = {-way.right_ft, way.out_ft};
    corners[0] = a;
    corners[1] = b;
    corners[2] = along(b, in, thick_ft);
    corners[3] = along(a, in, thick_ft);
    return true;
}

/* ---- the sheet ---- */

typedef struct sheet {
    const cw_plan *plan;
    const cw_plan_end *end;
    const cw_plan_end_works *works;
    const cw_job_end *given;
    cw_arena *arena;
    cw_drawing *drawing;
    double sign;             /* x of the sheet for one foot to the right looking upstream */
    double low_x, high_x;    /* window */
    double stub_ft, out_ft;  /* barrel shown; farthest point in front of the face */
    double high_ft, deep_ft; /* elevation: top and foot */
    double base_y;           /* real y of the invert in the elevation */
} sheet;

static cw_xy in_plan(const sheet *s, cw_end_point at)
{
    return (cw_xy){s->sign * at.right_ft, -at.out_ft};
}

static cw_xy in_elevation(const sheet *s, double right_ft, double z_ft)
{
    return (cw_xy){s->sign * right_ft, s->base_y + z_ft};
}

static void take_in(sheet *s, cw_end_point at)
{
    s->low_x = fmin(s->low_x, s->sign * at.right_ft);
    s->high_x = fmax(s->high_x, s->sign * at.right_ft);
    s->out_ft = fmax(s->out_ft, at.out_ft);
}

static void measure(sheet *s)
{
    const cw_plan_end_works *works = s->works;
    s->stub_ft = STUB_SHARE * fmin(works->width_ft, 20.0);
    s->high_ft = s->end->wall_top_ft;
    s->deep_ft = s->plan->job->box.floor_in / CW_IN_PER_FT;
    cw_end_point corners[4];
    for (int side = 0; side < 2; side++) {
        take_in(s, works->plan.root[side]);
        take_in(s, works->plan.edge[side]);
        const cw_plan_wing *wing = &works->wings[side];
        if (!draw_wing_shape(works, side, -0.5 * wing->take.footing_width_ft,
                             0.5 * wing->take.footing_width_ft, corners))
            continue;
        for (int k = 0; k < 4; k++)
            take_in(s, corners[k]);
        s->high_ft = fmax(s->high_ft, wing->root_ft);
        s->deep_ft = fmax(s->deep_ft, wing->given->footing_depth_ft);
    }
    if (works->has_cutoff)
        s->deep_ft = fmax(s->deep_ft, s->given->cutoff.depth_ft);
}

static void frame_picture(sheet *s, double width_pt, double height_pt)
{
    const double text = draw_lettering_pt(width_pt), gap_pt = GAP_LINES * text;
    const double tall_ft = s->stub_ft + s->out_ft + s->high_ft + s->deep_ft;
    const cw_view view =
        cw_view_fit((cw_view_wish){.width_pt = width_pt,
                                   .height_pt = height_pt,
                                   .min = {s->low_x, s->stub_ft - tall_ft},
                                   .max = {s->high_x, s->stub_ft},
                                   .left_pt = 10 * text,
                                   .right_pt = 10 * text,
                                   .top_pt = 4 * text,
                                   .bottom_pt = draw_foot_pt(text, 1) + gap_pt + 4 * text});
    s->drawing = draw_new(s->arena, view, text);
    s->base_y = -s->out_ft - gap_pt / view.scale_x - s->high_ft;
}

/* ---- plan ---- */

static void polygon(sheet *s, cw_layer layer, cw_fill fill, const cw_end_point *at, int count)
{
    cw_xy points[CW_END_CORNERS_MAX];
    for (int i = 0; i < count; i++)
        points[i] = in_plan(s, at[i]);
    cw_draw_polygon(s->drawing, layer, fill, points, count);
}

static void plan_barrels(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan *plan = s->plan;
    const double out = plan->outside_width_in / CW_IN_PER_FT / 2,
                 in = plan->job->box.span_in / CW_IN_PER_FT / 2;
    const double skew = tan(s->works->face_deg * CW_RAD_PER_DEG);
    for (int b = 0; b < plan->barrel_count; b++) {
        const double y = plan->barrels[b].offset_ft;
        const double sides[4] = {y - out, y - in, y + in, y + out};
        const cw_end_point ring[4] = {{-sides[0] * skew, sides[0]},
                                      {-sides[3] * skew, sides[3]},
                                      {-s->stub_ft, sides[3]},
                                      {-s->stub_ft, sides[0]}};
        polygon(s, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, ring, 4);
        for (int k = 1; k < 3; k++)
            cw_draw_line(d, CW_LAYER_HIDDEN, in_plan(s, (cw_end_point){-sides[k] * skew, sides[k]}),
                         in_plan(s, (cw_end_point){-s->stub_ft, sides[k]}));
    }
}

static void plan_headwall(sheet *s)
{
    if (s->works->wall_ft <= 0)
        return;
    const double angle = s->works->face_deg * CW_RAD_PER_DEG;
    const cw_end_point out = {cos(angle), sin(angle)}, *root = s->works->plan.root;
    const cw_end_point ring[4] = {root[0], root[1], along(root[1], out, s->works->wall_ft),
                                  along(root[0], out, s->works->wall_ft)};
    polygon(s, CW_LAYER_CUT, CW_FILL_SHADE, ring, 4);
}

static void plan_view(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan_end_works *works = s->works;
    cw_end_point corners[4];
    if (works->has_apron)
        polygon(s, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, works->plan.outline, works->plan.corners);
    for (int side = 0; side < 2; side++) {
        const cw_plan_wing *wing = &works->wings[side];
        const double half_ft = wing->take.footing_width_ft / 2,
                     middle_ft = wing->present ? wing->given->thickness_in / CW_IN_PER_FT / 2 : 0;
        if (!draw_wing_shape(works, side, middle_ft - half_ft, middle_ft + half_ft, corners))
            continue;
        const cw_xy ring[5] = {in_plan(s, corners[0]), in_plan(s, corners[1]),
                               in_plan(s, corners[2]), in_plan(s, corners[3]),
                               in_plan(s, corners[0])};
        cw_draw_polyline(d, CW_LAYER_HIDDEN, ring, 5);
    }
    plan_barrels(s);
    for (int side = 0; side < 2; side++)
        if (works->wings[side].present &&
            draw_wing_shape(works, side, 0, works->wings[side].given->thickness_in / CW_IN_PER_FT,
                            corners))
            polygon(s, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT, corners, 4);
    plan_headwall(s);
    if (draw_cutoff_shape(works, s->given->cutoff.thickness_in / CW_IN_PER_FT, corners)) {
        const cw_xy ring[5] = {in_plan(s, corners[0]), in_plan(s, corners[1]),
                               in_plan(s, corners[2]), in_plan(s, corners[3]),
                               in_plan(s, corners[0])};
        cw_draw_polyline(d, CW_LAYER_HIDDEN, ring, 5);
    }
    cw_draw_line(d, CW_LAYER_CENTER, in_plan(s, (cw_end_point){-s->stub_ft, 0}),
                 in_plan(s, (cw_end_point){s->out_ft * 0.94, 0}));
}

/* Beyond the footing, so that the dimension lines of the apron stay free. */
static void wing_label(sheet *s, int side)
{
    static const char *const names[2] = {"Left wing", "Right wing"};
    const cw_plan_wing *wing = &s->works->wings[side];
    cw_end_point corners[4];
    if (!wing->present)
        return;
    const double back_ft =
        (wing->take.footing_width_ft + wing->given->thickness_in / CW_IN_PER_FT) / 2;
    if (!draw_wing_shape(s->works, side, 0, back_ft, corners))
        return;
    const cw_end_point middle = {0.45 * corners[3].out_ft + 0.55 * corners[2].out_ft,
                                 0.45 * corners[3].right_ft + 0.55 * corners[2].right_ft};
    const char *length = draw_survey(s->plan, s->arena, wing->take.length_ft);
    cw_draw_label(
        s->drawing,
        (cw_label){
            .at = in_plan(s, middle),
            .text = wing->given->kind == CW_JOB_WING_FLARED
                        ? cw_arena_print(s->arena, "%s\n%s long\nflared %s", names[side], length,
                                         draw_angle(s->arena, wing->given->flare_deg))
                        : cw_arena_print(s->arena, "%s\n%s long", names[side], length),
            .side = (side == CW_END_LEFT) == (s->sign > 0) ? CW_SIDE_LEFT_OF : CW_SIDE_RIGHT_OF,
            .leader = true});
}

/* Middle of the apron's outline. */
static cw_end_point apron_middle(const cw_end_plan *plan)
{
    cw_end_point sum = {0, 0};
    double twice = 0;
    for (int i = 0; i < plan->corners; i++) {
        const cw_end_point a = plan->outline[i], b = plan->outline[(i + 1) % plan->corners];
        const double cross = a.out_ft * b.right_ft - b.out_ft * a.right_ft;
        sum.out_ft += (a.out_ft + b.out_ft) * cross;
        sum.right_ft += (a.right_ft + b.right_ft) * cross;
        twice += cross;
    }
    return (cw_end_point){sum.out_ft / (3 * twice), sum.right_ft / (3 * twice)};
}

static void plan_words(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan_end_works *works = s->works;
    for (int side = 0; side < 2; side++)
        wing_label(s, side);
    const cw_end_point *edge = works->plan.edge;
    const double low_pt = draw_paper(d, (cw_xy){0, -s->out_ft}).y + 2.4 * d->text_pt;
    const cw_xy a = in_plan(s, edge[s->sign > 0 ? CW_END_LEFT : CW_END_RIGHT]),
                b = in_plan(s, edge[s->sign > 0 ? CW_END_RIGHT : CW_END_LEFT]);
    if (works->has_apron || works->has_cutoff)
        cw_draw_dimension(
            d, (cw_dimension){a, b, -(low_pt - fmax(draw_paper(d, a).y, draw_paper(d, b).y)),
                              cw_arena_print(s->arena, "%s%s",
                                             draw_survey(s->plan, s->arena, works->plan.edge_ft),
                                             fabs(a.y - b.y) > 0.01 ? " along the edge" : ""),
                              CW_DIMENSION_HORIZONTAL});
    if (works->has_apron) {
        const cw_xy middle = draw_paper(d, in_plan(s, apron_middle(&works->plan)));
        draw_text_at(
            d, middle.x, middle.y, (cw_text_style){.align = CW_ALIGN_CENTER, .halo = true},
            cw_arena_print(s->arena, "Apron %s\n%s",
                           draw_cast(s->plan, s->arena, s->given->apron.thickness_in),
                           draw_value(s->plan, s->arena, works->apron.area_sqft, CW_DIM_SQFT)));
    }
    const cw_text_style head = {.weight = CW_FONT_BOLD};
    draw_text_at(d, DRAW_RIM_PT + d->text_pt, DRAW_RIM_PT + 1.2 * d->text_pt, head, "PLAN");
    const cw_xy flow = draw_paper(d, in_plan(s, (cw_end_point){-s->stub_ft, 0}));
    cw_draw_flow_arrow(d, cw_at_paper(d, flow.x, flow.y - 1.2 * d->text_pt - 2),
                       works->inlet ? 90 : 270);
}

/* ---- elevation ---- */

static void elevation_wing(sheet *s, int side)
{
    const cw_plan_wing *wing = &s->works->wings[side];
    if (!wing->present || !wing->has_take)
        return;
    cw_drawing *d = s->drawing;
    const double root = s->works->plan.root[side].right_ft, tip = s->works->plan.tip[side].right_ft;
    const cw_xy face[4] = {in_elevation(s, root, 0), in_elevation(s, root, wing->root_ft),
                           in_elevation(s, tip, wing->tip_ft), in_elevation(s, tip, 0)};
    cw_draw_polygon(d, CW_LAYER_OUTLINE, CW_FILL_CONCRETE, face, 4);
    const double deep = -wing->given->footing_depth_ft,
                 foot = deep + wing->given->footing_in / CW_IN_PER_FT;
    const cw_xy stem[4] = {face[0], in_elevation(s, root, foot), in_elevation(s, tip, foot),
                           face[3]};
    cw_draw_polyline(d, CW_LAYER_HIDDEN, stem, 4);
    const cw_xy base[5] = {in_elevation(s, root, foot), in_elevation(s, tip, foot),
                           in_elevation(s, tip, deep), in_elevation(s, root, deep),
                           in_elevation(s, root, foot)};
    cw_draw_polyline(d, CW_LAYER_HIDDEN, base, 5);
}

static void elevation_face(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan *plan = s->plan;
    const double half = fabs(s->works->plan.root[CW_END_RIGHT].right_ft -
                             s->works->plan.root[CW_END_LEFT].right_ft) /
                        2;
    const double rise = plan->job->box.rise_in / CW_IN_PER_FT,
                 in = plan->job->box.span_in / CW_IN_PER_FT / 2;
    const double middle = (s->works->plan.root[0].right_ft + s->works->plan.root[1].right_ft) / 2;
    cw_draw_rectangle(d, CW_LAYER_OUTLINE, CW_FILL_SHADE,
                      in_elevation(s, middle - half * s->sign, 0),
                      in_elevation(s, middle + half * s->sign, s->end->wall_top_ft));
    for (int b = 0; b < plan->barrel_count; b++)
        cw_draw_rectangle(d, CW_LAYER_OUTLINE, CW_FILL_WHITE,
                          in_elevation(s, plan->barrels[b].offset_ft - in * s->sign, 0),
                          in_elevation(s, plan->barrels[b].offset_ft + in * s->sign, rise));
}

static void elevation_low(sheet *s)
{
    cw_drawing *d = s->drawing;
    const cw_plan_end_works *works = s->works;
    const double left = works->plan.edge[0].right_ft, right = works->plan.edge[1].right_ft;
    const double slab = works->has_apron ? s->given->apron.thickness_in / CW_IN_PER_FT : 0;
    if (works->has_apron)
        cw_draw_rectangle(d, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT,
                          in_elevation(s, s->sign > 0 ? left : right, -slab),
                          in_elevation(s, s->sign > 0 ? right : left, 0));
    if (works->has_cutoff) {
        const double deep = -s->given->cutoff.depth_ft;
        const cw_xy wall[4] = {in_elevation(s, left, -slab), in_elevation(s, left, deep),
                               in_elevation(s, right, deep), in_elevation(s, right, -slab)};
        cw_draw_polyline(d, CW_LAYER_HIDDEN, wall, 4);
    }
    const double past = 1.5;
    cw_draw_line(d, CW_LAYER_CENTER, (cw_xy){s->low_x - past, s->base_y},
                 (cw_xy){s->high_x + past, s->base_y});
}

/* Heights at a root or tip, on the outer side of the sheet. */
static void heights(sheet *s, int side)
{
    const cw_plan_wing *wing = &s->works->wings[side];
    if (!wing->present || !wing->has_take)
        return;
    cw_drawing *d = s->drawing;
    const bool left_on_sheet = (side == CW_END_LEFT) == (s->sign > 0);
    const cw_xy tip = in_elevation(s, s->works->plan.tip[side].right_ft, 0),
                root = in_elevation(s, s->works->plan.root[side].right_ft, 0);
    const double out_pt = fabs(draw_paper(d, (cw_xy){left_on_sheet ? s->low_x : s->high_x, 0}).x -
                               draw_paper(d, tip).x);
    const double sign = left_on_sheet ? -1 : 1, step = 2.0 * d->text_pt;
    cw_draw_dimension(d, (cw_dimension){tip,
                                        {tip.x, tip.y + wing->tip_ft},
                                        sign * (out_pt + step),
                                        draw_survey(s->plan, s->arena, wing->tip_ft),
                                        CW_DIMENSION_VERTICAL});
    cw_draw_dimension(
        d, (cw_dimension){
               {root.x, root.y},
               {root.x, root.y + wing->root_ft},
               sign * (out_pt + fabs(draw_paper(d, tip).x - draw_paper(d, root).x) + 2.6 * step),
               draw_survey(s->plan, s->arena, wing->root_ft),
               CW_DIMENSION_VERTICAL});
    cw_draw_dimension(d,
                      (cw_dimension){{tip.x, tip.y - wing->given->footing_depth_ft},
                                     tip,
                                     sign * (out_pt + step),
                                     draw_survey(s->plan, s->arena, wing->given->footing_depth_ft),
                                     CW_DIMENSION_VERTICAL});
}

static void elevation(sheet *s)
{
    cw_drawing *d = s->drawing;
    for (int side = 0; side < 2; side++)
        elevation_wing(s, side);
    elevation_face(s);
    elevation_low(s);
    for (int side = 0; side < 2; side++)
        heights(s, side);
    const double deep_pt = draw_paper(d, in_elevation(s, 0, -s->deep_ft)).y;
    if (s->works->has_cutoff)
        draw_callout(
            d,
            in_elevation(s, (s->works->plan.edge[0].right_ft + s->works->plan.edge[1].right_ft) / 2,
                         -s->given->cutoff.depth_ft),
            (draw_rows){deep_pt + 1.8 * d->text_pt, 1.5 * d->text_pt, 0},
            cw_arena_print(s->arena, "Cutoff wall %s thick, foot %s below the invert",
                           draw_cast(s->plan, s->arena, s->given->cutoff.thickness_in),
                           draw_survey(s->plan, s->arena, s->given->cutoff.depth_ft)));
    const double head_pt = draw_paper(d, (cw_xy){0, s->base_y + s->high_ft}).y;
    draw_text_at(d, DRAW_RIM_PT + d->text_pt, head_pt - 1.6 * d->text_pt,
                 (cw_text_style){.weight = CW_FONT_BOLD},
                 s->works->inlet ? "ELEVATION, looking downstream" : "ELEVATION, looking upstream");
    const double mid_ft = s->plan->barrels[0].offset_ft,
                 rise_ft = s->plan->job->box.rise_in / CW_IN_PER_FT;
    const cw_xy opening = draw_paper(d, in_elevation(s, mid_ft, rise_ft / 2));
    draw_text_at(
        d, opening.x, opening.y, (cw_text_style){.align = CW_ALIGN_CENTER, .halo = true},
        cw_arena_print(s->arena, "Invert\n%s",
                       draw_value(s->plan, s->arena, s->end->laid.invert_ft, CW_DIM_ELEV_FT)));
}

const cw_drawing *cw_draw_end(const cw_plan *plan, bool inlet, double width_pt, double height_pt,
                              cw_arena *arena)
{
    const cw_plan_end *end = inlet ? &plan->inlet : &plan->outlet;
    sheet s = {.plan = plan,
               .end = end,
               .works = &end->works,
               .given = inlet ? &plan->job->run.inlet : &plan->job->run.outlet,
               .arena = arena,
               .sign = inlet ? -1.0 : 1.0};
    const char *title = inlet ? "INLET END" : "OUTLET END";
    if (!end->works.present)
        return draw_sentence(arena, width_pt, height_pt, title,
                             "This end has no wings, apron or cutoff wall.");
    measure(&s);
    frame_picture(&s, width_pt, height_pt);
    plan_view(&s);
    elevation(&s);
    draw_foot(
        s.drawing, title,
        "Left and right are looking upstream. In the elevation wings show shorter than they are.",
        true);
    plan_words(&s);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
