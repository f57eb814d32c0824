/* Lifts of backfill beside the boxes: numbered on both sides, with the greatest difference, the
 * strip for hand compactors, the zones, and the level at which the first machine may cross. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "draw_internal.h"

#define EARTH_FT 1.5
#define BESIDE_FT 3.0
#define LIFT_LEAST_PT 9.0 /* lifts thinner than this on paper get no number */

/* x right of the centre line, y above the underside of the lowest boxes, ft. */
typedef struct lift_sheet {
    const cw_plan *plan;
    cw_arena *arena;
    cw_drawing *drawing;
    const cw_trench_shape *shape; /* of the deepest cut; NULL: upright */
    double half_ft, wall_ft, under_ft, box_ft, lift_ft, ground_ft, over_ft;
    double side_ft; /* of the picture from the centre line */
} lift_sheet;

/* Half the width of the hole at a height over the underside; upright above the ground. */
static double half_at(const lift_sheet *s, double y)
{
    if (!s->shape)
        return s->half_ft;
    return cw_trench_level_half_ft(s->shape, fmin(fmax(y, 0.0), s->ground_ft) + s->under_ft);
}

static void measure(lift_sheet *s)
{
    const cw_plan *plan = s->plan;
    const cw_job *job = plan->job;
    const cw_plan_closing *closing = &plan->closing;
    const int deepest = plan->trench.deepest;
    s->wall_ft = plan->width_ft / 2.0;
    s->half_ft = s->wall_ft + job->trench.working_space_ft;
    s->under_ft = (job->bedding.leveling_in + job->bedding.thickness_in) / CW_IN_PER_FT;
    s->box_ft = closing->height_in / CW_IN_PER_FT;
    s->lift_ft = closing->compacted_in / CW_IN_PER_FT;
    s->over_ft = job->order.cover_before_equipment_ft;
    s->ground_ft = s->box_ft;
    if (deepest >= 0) {
        s->shape = plan->trench.cuts[deepest].shape;
        s->ground_ft = fmax(0.0, plan->trench.cuts[deepest].depth_ft - s->under_ft);
    }
    s->side_ft = half_at(s, s->box_ft + s->over_ft) + BESIDE_FT;
}

static void frame_picture(lift_sheet *s, double width_pt, double height_pt, int note_lines)
{
    const double text = draw_lettering_pt(width_pt);
    cw_view_wish wish = {.width_pt = width_pt,
                         .height_pt = height_pt,
                         .min = {-s->side_ft, -s->under_ft - EARTH_FT},
                         .max = {s->side_ft, s->box_ft + s->over_ft},
                         .left_pt = 7 * text,
                         .right_pt = 10 * text,
                         .top_pt = 4 * text,
                         .bottom_pt = draw_foot_pt(text, note_lines) + 3 * text,
                         .unit = CW_VIEW_FT};
    const double scale = cw_view_fit(wish).scale_y;
    wish.height_pt = fmin(height_pt, (s->box_ft + s->over_ft + s->under_ft + EARTH_FT) * scale +
                                         wish.top_pt + wish.bottom_pt + text);
    s->drawing = draw_new(s->arena, cw_view_fit(wish), text);
}

static void earth(lift_sheet *s)
{
    const double low = -s->under_ft - EARTH_FT;
    for (int side = 0; side < 2; side++) {
        const double way = side ? 1.0 : -1.0;
        cw_xy points[CW_TRENCH_FACE_MAX + 5];
        int count = 0;
        points[count++] = (cw_xy){0, low};
        points[count++] = (cw_xy){0, -s->under_ft};
        points[count++] = (cw_xy){way * s->half_ft, -s->under_ft};
        for (int i = 1; s->shape && i < s->shape->count; i++)
            if (s->shape->face[i].height_ft < s->ground_ft + s->under_ft)
                points[count++] = (cw_xy){way * (s->half_ft + s->shape->face[i].offset_ft),
                                          s->shape->face[i].height_ft - s->under_ft};
        points[count++] = (cw_xy){way * half_at(s, s->ground_ft), s->ground_ft};
        points[count++] = (cw_xy){way * s->side_ft, s->ground_ft};
        points[count++] = (cw_xy){way * s->side_ft, low};
        cw_draw_region(s->drawing, CW_LAYER_OUTLINE, CW_FILL_EARTH, &(cw_draw_ring){points, count},
                       1, false);
        cw_draw_polyline(s->drawing, CW_LAYER_CUT, points + 1, count - 2);
    }
}

static void boxes(lift_sheet *s)
{
    const cw_plan *plan = s->plan;
    const cw_job *job = plan->job;
    const double half = plan->outside_width_in / CW_IN_PER_FT / 2.0,
                 wall = job->box.wall_in / CW_IN_PER_FT;
    const double floor = job->box.floor_in / CW_IN_PER_FT, top = job->box.top_in / CW_IN_PER_FT;
    cw_draw_rectangle(s->drawing, CW_LAYER_RULE, CW_FILL_BEDDING,
                      (cw_xy){-s->wall_ft - job->bedding.extra_ft, -s->under_ft},
                      (cw_xy){s->wall_ft + job->bedding.extra_ft, 0});
    for (int b = 0; b < plan->barrel_count; b++) {
        const double x = plan->barrels[b].offset_ft;
        const cw_xy outer[] = {
            {x - half, 0}, {x + half, 0}, {x + half, s->box_ft}, {x - half, s->box_ft}};
        const cw_xy inner[] = {{x - half + wall, floor},
                               {x + half - wall, floor},
                               {x + half - wall, s->box_ft - top},
                               {x - half + wall, s->box_ft - top}};
        cw_draw_region(s->drawing, CW_LAYER_CUT, CW_FILL_CONCRETE_CUT,
                       (cw_draw_ring[]){{outer, 4}, {inner, 4}}, 2, true);
        if (b + 1 < plan->barrel_count && job->fill.kind != 2)
            cw_draw_rectangle(s->drawing, CW_LAYER_RULE, CW_FILL_GROUT, (cw_xy){x + half, 0},
                              (cw_xy){plan->barrels[b + 1].offset_ft - half, s->box_ft});
    }
}

/* Every so many lifts get a number, so that the numbers stand apart. */
static int number_step(const lift_sheet *s)
{
    const double tall_pt = s->lift_ft * s->drawing->view.scale_y;
    return tall_pt >= LIFT_LEAST_PT ? 1 : (int)ceil(LIFT_LEAST_PT / fmax(tall_pt, 0.1));
}

static void lifts(lift_sheet *s)
{
    const cw_plan_closing *closing = &s->plan->closing;
    const int step = number_step(s), count = closing->lifts;
    for (int i = 1; i <= count; i++) {
        const double top = fmin(i * s->lift_ft, s->box_ft), low = (i - 1) * s->lift_ft;
        for (int side = 0; side < 2; side++) {
            const double way = side ? 1.0 : -1.0;
            cw_draw_line(s->drawing, step > 1 ? CW_LAYER_HATCH : CW_LAYER_RULE,
                         (cw_xy){way * s->wall_ft, top}, (cw_xy){way * half_at(s, top), top});
            if ((i - 1) % step != 0)
                continue;
            const double middle = (low + top) / 2.0,
                         x = way * (s->wall_ft + half_at(s, middle)) / 2.0;
            const cw_xy at = draw_paper(s->drawing, (cw_xy){x, middle});
            draw_text_at(
                s->drawing, at.x, at.y,
                (cw_text_style){
                    .size_pt = fmin(s->drawing->text_pt,
                                    fmax(5.5, s->lift_ft * step * s->drawing->view.scale_y * 0.8)),
                    .align = CW_ALIGN_CENTER,
                    .valign = CW_VALIGN_MIDDLE,
                    .halo = true},
                cw_arena_print(s->arena, "%d", i));
        }
    }
    const double hand = s->plan->job->backfill.hand_zone_ft;
    if (hand > 0.0 && hand < s->half_ft - s->wall_ft)
        for (int side = 0; side < 2; side++) {
            const double x = (side ? 1.0 : -1.0) * (s->wall_ft + hand);
            draw_dashed(s->drawing, CW_LAYER_OUTLINE, CW_DASH_SHORT,
                        (cw_xy[]){{x, 0}, {x, s->box_ft}}, 2);
        }
}

/* The right side as far ahead of the left as is allowed, shown over the third part of the height.
 */
static void difference(lift_sheet *s)
{
    const int apart = s->plan->closing.lifts_apart > 0 ? s->plan->closing.lifts_apart : 1;
    const int low = s->plan->closing.lifts / 3;
    const double from = low * s->lift_ft, to = fmin((low + apart) * s->lift_ft, s->box_ft);
    const cw_xy ends[] = {{s->side_ft, from}, {s->side_ft, to}};
    cw_draw_dimension_chain(
        s->drawing,
        (cw_dimension){ends[0], ends[1], 2.0 * s->drawing->text_pt, NULL, CW_DIMENSION_VERTICAL},
        ends, 2, (const char *const[]){NULL});
    const cw_xy at = draw_paper(s->drawing, (cw_xy){s->side_ft, (from + to) / 2.0});
    draw_text_at(
        s->drawing, at.x + 3.0 * s->drawing->text_pt, at.y - 0.7 * s->drawing->text_pt,
        (cw_text_style){.valign = CW_VALIGN_MIDDLE},
        cw_arena_print(s->arena, "%d lift%s apart\nat most", apart, apart == 1 ? "" : "s"));
}

static void levels(lift_sheet *s)
{
    cw_drawing *d = s->drawing;
    const double edge = half_at(s, s->box_ft + s->over_ft);
    draw_dashed(d, CW_LAYER_OUTLINE, CW_DASH_LONG,
                (cw_xy[]){{-edge, s->box_ft + s->over_ft}, {edge, s->box_ft + s->over_ft}}, 2);
    cw_draw_label(d, (cw_label){.at = {0, s->box_ft + s->over_ft},
                                .text = cw_arena_print(
                                    s->arena, "No machine across before compacted cover of %s",
                                    draw_survey(s->plan, s->arena, s->over_ft)),
                                .side = CW_SIDE_ABOVE,
                                .leader = true});
    cw_draw_dimension(d, (cw_dimension){{-s->side_ft, 0},
                                        {-s->side_ft, s->box_ft},
                                        -2.0 * d->text_pt,
                                        draw_survey(s->plan, s->arena, s->box_ft),
                                        CW_DIMENSION_VERTICAL});
    for (int i = 0; i < s->plan->closing.zone_count; i++) {
        const cw_plan_zone *zone = &s->plan->closing.zones[i];
        if (!zone->has_to || zone->to_ft > s->box_ft + s->over_ft)
            continue;
        for (int side = 0; side < 2; side++) {
            const double way = side ? 1.0 : -1.0, from = zone->to_ft < s->box_ft ? s->wall_ft : 0.0;
            cw_draw_line(d, CW_LAYER_CUT, (cw_xy){way * from, zone->to_ft},
                         (cw_xy){way * half_at(s, zone->to_ft), zone->to_ft});
        }
        cw_draw_label(d, (cw_label){.at = {-half_at(s, zone->to_ft), zone->to_ft},
                                    .text = cw_arena_print(s->arena, "%s to here", zone->name),
                                    .side = CW_SIDE_LEFT_OF,
                                    .boxed = true,
                                    .leader = true});
    }
}

static const char *note_of(const lift_sheet *s)
{
    const cw_job *job = s->plan->job;
    const cw_plan_closing *closing = &s->plan->closing;
    // Without an engineer's figure a wall that stands alone takes no earth at all.
    const char *open =
        s->plan->strength.has_open
            ? cw_arena_print(s->arena, " above %s over the floor",
                             draw_survey(s->plan, s->arena, s->plan->strength.open.limit_ft))
            : "";
    return cw_arena_print(
        s->arena,
        "%d LIFTS EACH SIDE, %s LOOSE, %s COMPACTED, %d APART AT MOST. Along the walls inside the "
        "dashes, %s wide: hand "
        "compactors only, %s loose, %d to a lift. %s%s",
        closing->lifts, draw_cast(s->plan, s->arena, job->order.backfill_lift_in),
        draw_cast(s->plan, s->arena, closing->compacted_in),
        closing->lifts_apart > 0 ? closing->lifts_apart : 1,
        draw_survey(s->plan, s->arena, job->backfill.hand_zone_ft),
        draw_cast(s->plan, s->arena, job->backfill.hand_lift_in), closing->hand_lifts,
        draw_is_ring(s->plan) ? "" : "No fill beside a base without its top",
        draw_is_ring(s->plan) ? "" : cw_arena_print(s->arena, "%s.", open));
}

const cw_drawing *cw_draw_backfill(const cw_plan *plan, double width_pt, double height_pt,
                                   cw_arena *arena)
{
    lift_sheet s = {.plan = plan, .arena = arena};
    measure(&s);
    int lines;
    const char *notes =
        draw_wrapped(arena, note_of(&s), draw_lettering_pt(width_pt), width_pt, &lines);
    frame_picture(&s, width_pt, height_pt, lines);
    earth(&s);
    boxes(&s);
    lifts(&s);
    draw_foot(s.drawing, "BACKFILL IN LIFTS, LOOKING UPSTREAM", notes, true);
    difference(&s);
    levels(&s);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
