/* The section of the cut at one place, looking upstream: ground, layers, faces, boxes, spoil and
 * water, to scale. */
#include <math.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

#define EARTH_FT 2.5     /* earth shown under the bottom */
#define BESIDE_FT 5.0    /* ground shown beyond the edge or the spoil */
#define LAYER_WORDS 11.0 /* width of the words for a layer, in text heights */

enum { FACE_POINTS = CW_TRENCH_FACE_MAX + 2 };

/* x right of the centre line, y above the bottom of the cut, ft. */
typedef struct trench_sheet {
    const cw_plan *plan;
    const cw_plan_cut *cut;
    cw_arena *arena;
    cw_drawing *drawing;
    double cross_fall;
    double left_ft, right_ft; /* ends of the ground shown */
    double high_ft;           /* top of what is shown */
    double under_ft, box_ft;  /* underside over the bottom; outside height */
} trench_sheet;

static double ground_ft(const trench_sheet *s, double x_ft)
{
    return s->cut->depth_ft + s->cross_fall * x_ft;
}

static bool spoil_on(const trench_sheet *s, bool right)
{
    const int spoil = s->plan->job->trench.spoil;
    return s->cut->pile_base_ft > 0.0 &&
           (spoil == CW_SPOIL_BOTH || spoil == (right ? CW_SPOIL_RIGHT : CW_SPOIL_LEFT));
}

static double shown_ft(const trench_sheet *s, bool right)
{
    const double edge = right ? s->cut->section.right_ft : s->cut->section.left_ft;
    const double pile = spoil_on(s, right) ? s->cut->pile_base_ft : 0.0;
    return edge + s->plan->job->trench.spoil_setback_ft + pile + BESIDE_FT;
}

static void measure(trench_sheet *s)
{
    const cw_job *job = s->plan->job;
    const double half_ft = s->cut->section.bottom_ft / 2.0;
    // The plan takes the ground level where a cross fall would leave the low side in the air.
    s->cross_fall =
        fabs(job->trench.cross_fall) * half_ft >= s->cut->depth_ft ? 0.0 : job->trench.cross_fall;
    s->left_ft = -shown_ft(s, false);
    s->right_ft = shown_ft(s, true);
    s->under_ft = (job->bedding.leveling_in + job->bedding.thickness_in) / CW_IN_PER_FT;
    s->box_ft = (job->box.floor_in + job->box.rise_in + job->box.top_in) / CW_IN_PER_FT;
    s->high_ft = fmax(ground_ft(s, s->left_ft), ground_ft(s, s->right_ft));
    if (s->cut->pile_height_ft > 0.0)
        s->high_ft += s->cut->pile_height_ft;
    s->high_ft = fmax(s->high_ft, s->under_ft + s->box_ft);
    if (job->trench.protection == CW_JOB_SHIELD)
        s->high_ft = fmax(s->high_ft, job->trench.shield_ft);
}

static void frame_picture(trench_sheet *s, double width_pt, double height_pt, int note_lines)
{
    const double text = draw_lettering_pt(width_pt);
    cw_view_wish wish = {.width_pt = width_pt,
                         .height_pt = height_pt,
                         .min = {s->left_ft, -EARTH_FT},
                         .max = {s->right_ft, s->high_ft},
                         .left_pt = 8 * text,
                         .right_pt = LAYER_WORDS * text + 5 * text,
                         .top_pt = 6 * text,
                         .bottom_pt = draw_foot_pt(text, note_lines) + 9 * text,
                         .unit = CW_VIEW_FT};
    // A wide cut fills the width, not the height: the frame shrinks to it.
    const double scale = cw_view_fit(wish).scale_y;
    wish.height_pt =
        fmin(height_pt, (s->high_ft + EARTH_FT) * scale + wish.top_pt + wish.bottom_pt + text);
    s->drawing = draw_new(s->arena, cw_view_fit(wish), text);
}

/* ---- the dug shape ---- */

/* Points of one face from the edge of the bottom up to the ground. */
static int face_of(const trench_sheet *s, bool right, cw_xy *points)
{
    const cw_trench_shape *shape = s->cut->shape;
    const double way = right ? 1.0 : -1.0,
                 edge = right ? s->cut->section.right_ft : s->cut->section.left_ft;
    int count = 0;
    for (int i = 0; i < shape->count; i++) {
        const double x = way * (shape->bottom_ft / 2.0 + shape->face[i].offset_ft);
        if (i > 0 && shape->face[i].height_ft > ground_ft(s, x))
            break;
        points[count++] = (cw_xy){x, shape->face[i].height_ft};
    }
    points[count++] = (cw_xy){way * edge, ground_ft(s, way * edge)};
    return count;
}

/* Where the face stands at a height. */
static double face_at(const trench_sheet *s, bool right, double y)
{
    cw_xy face[FACE_POINTS];
    const int count = face_of(s, right, face);
    double x = face[0].x;
    for (int k = 0; k + 1 < count; k++)
        if (face[k].y <= y && face[k + 1].y >= y && face[k + 1].y > face[k].y)
            x = face[k].x +
                (face[k + 1].x - face[k].x) * (y - face[k].y) / (face[k + 1].y - face[k].y);
    return x;
}

static void earth(trench_sheet *s)
{
    cw_xy left[FACE_POINTS], right[FACE_POINTS], all[2 * FACE_POINTS + 4];
    const int left_count = face_of(s, false, left), right_count = face_of(s, true, right);
    int count = 0;
    all[count++] = (cw_xy){s->left_ft, -EARTH_FT};
    all[count++] = (cw_xy){s->left_ft, ground_ft(s, s->left_ft)};
    for (int i = left_count - 1; i >= 0; i--)
        all[count++] = left[i];
    for (int i = 0; i < right_count; i++)
        all[count++] = right[i];
    all[count++] = (cw_xy){s->right_ft, ground_ft(s, s->right_ft)};
    all[count++] = (cw_xy){s->right_ft, -EARTH_FT};
    cw_draw_region(s->drawing, CW_LAYER_OUTLINE, CW_FILL_EARTH, &(cw_draw_ring){all, count}, 1,
                   false);
    cw_draw_polyline(s->drawing, CW_LAYER_CUT, all + 1, count - 2);
    draw_dashed(s->drawing, CW_LAYER_GROUND, CW_DASH_LONG,
                (cw_xy[]){left[left_count - 1], right[right_count - 1]}, 2);
}

/* Layer lines in the earth on both sides. */
static void layers(trench_sheet *s)
{
    for (int i = 1; i < s->cut->layer_count; i++) {
        const double y = s->cut->layers[i].bottom_ft;
        for (int side = 0; side < 2; side++) {
            const bool right = side == 1;
            const double x = face_at(s, right, y);
            draw_dashed(s->drawing, CW_LAYER_OUTLINE, CW_DASH_LONG,
                        (cw_xy[]){{x, y}, {right ? s->right_ft : s->left_ft, y}}, 2);
        }
    }
}

/* Beside the picture, each at its layer or under the words before it. */
static void layer_words(trench_sheet *s)
{
    static const char *const classes[] = {"stable rock", "class A", "class B", "class C"};
    cw_drawing *d = s->drawing;
    const double text = d->text_pt, x_pt = draw_paper(d, (cw_xy){s->right_ft, 0}).x + 4.2 * text;
    double free_pt = -CW_ANY_HIGH;
    for (int i = s->cut->layer_count - 1; i >= 0; i--) {
        const cw_plan_layer *layer = &s->cut->layers[i];
        const double top = i + 1 < s->cut->layer_count ? s->cut->layers[i + 1].bottom_ft
                                                       : ground_ft(s, s->right_ft);
        int count;
        const char *const *lines = cw_font_wrap(
            s->arena, cw_arena_print(s->arena, "%s: %s", layer->name, classes[layer->soil.soil]),
            text, CW_FONT_REGULAR, LAYER_WORDS * text, &count);
        const double middle_pt =
            draw_paper(d, (cw_xy){s->right_ft, (layer->bottom_ft + top) / 2.0}).y;
        double y_pt = fmax(free_pt, middle_pt - 0.625 * text * count);
        cw_paper_line(d, CW_LAYER_DIMENSION, (cw_xy){x_pt - 3.0, y_pt + 0.6 * text},
                      (cw_xy){x_pt - 1.1 * text, middle_pt});
        for (int k = 0; k < count; k++, y_pt += 1.25 * text)
            draw_text_at(d, x_pt, y_pt, (cw_text_style){.valign = CW_VALIGN_TOP}, lines[k]);
        free_pt = y_pt + 0.4 * text;
    }
}

static void slope_words(trench_sheet *s)
{
    cw_xy face[FACE_POINTS];
    const int count = face_of(s, false, face);
    for (int k = 0; k + 1 < count; k++) {
        const double rise = face[k + 1].y - face[k].y, run = fabs(face[k + 1].x - face[k].x);
        if (!(rise > 0.8) || run / rise > 20.0)
            continue;
        const char *words =
            run < 0.01 * rise
                ? cw_arena_print(s->arena, "%s upright", draw_survey(s->plan, s->arena, rise))
                : draw_value(s->plan, s->arena, run / rise, CW_DIM_SIDE_SLOPE);
        cw_draw_label(s->drawing, (cw_label){.at = {(face[k].x + face[k + 1].x) / 2.0,
                                                    (face[k].y + face[k + 1].y) / 2.0},
                                             .text = words,
                                             .leader = true,
                                             .side = CW_SIDE_RIGHT_OF,
                                             .weight = CW_FONT_BOLD});
    }
}

/* ---- what stands in it ---- */

static void boxes(trench_sheet *s)
{
    const cw_plan *plan = s->plan;
    const cw_job *job = plan->job;
    cw_drawing *d = s->drawing;
    const double width = plan->outside_width_in / CW_IN_PER_FT,
                 wall = job->box.wall_in / CW_IN_PER_FT;
    const double floor = job->box.floor_in / CW_IN_PER_FT, top = job->box.top_in / CW_IN_PER_FT;
    const double bed = plan->width_ft / 2.0 + job->bedding.extra_ft;
    const double level = s->under_ft - job->bedding.leveling_in / CW_IN_PER_FT;
    const double reach = fmin(bed, s->cut->section.bottom_ft / 2.0);
    if (s->under_ft > 0.0)
        cw_draw_rectangle(d, CW_LAYER_RULE, CW_FILL_BEDDING, (cw_xy){-reach, 0.0},
                          (cw_xy){reach, level > 0.0 ? level : s->under_ft});
    for (int b = 0; b < plan->barrel_count; b++) {
        const double x = plan->barrels[b].offset_ft, low = s->under_ft;
        const cw_xy outer[] = {{x - width / 2, low},
                               {x + width / 2, low},
                               {x + width / 2, low + s->box_ft},
                               {x - width / 2, low + s->box_ft},
                               {x - width / 2, low}};
        const cw_xy inner[] = {{x - width / 2 + wall, low + floor},
                               {x + width / 2 - wall, low + floor},
                               {x + width / 2 - wall, low + s->box_ft - top},
                               {x - width / 2 + wall, low + s->box_ft - top},
                               {x - width / 2 + wall, low + floor}};
        cw_draw_polyline(d, CW_LAYER_FUTURE, outer, 5);
        cw_draw_polyline(d, CW_LAYER_FUTURE, inner, 5);
    }
}

static void shield(trench_sheet *s)
{
    const cw_job_trench *given = &s->plan->job->trench;
    if (given->protection != CW_JOB_SHIELD || s->cut->refused)
        return;
    const double half = s->cut->section.bottom_ft / 2.0, thick = 0.35;
    for (int side = 0; side < 2; side++) {
        const double x = side ? half - thick : -half;
        cw_draw_rectangle(s->drawing, CW_LAYER_CUT, CW_FILL_SHADE,
                          (cw_xy){x, given->below_shield_ft}, (cw_xy){x + thick, given->shield_ft});
    }
    cw_draw_label(s->drawing, (cw_label){.at = {half - thick, given->shield_ft},
                                         .text = cw_arena_print(
                                             s->arena, "Shield to %s over the bottom",
                                             draw_survey(s->plan, s->arena, given->shield_ft)),
                                         .leader = true,
                                         .side = CW_SIDE_ABOVE});
}

static void spoil_piles(trench_sheet *s)
{
    const double back = s->plan->job->trench.spoil_setback_ft;
    for (int side = 0; side < 2; side++) {
        const bool right = side == 1;
        const double way = right ? 1.0 : -1.0,
                     edge = right ? s->cut->section.right_ft : s->cut->section.left_ft;
        const cw_xy lip = {way * edge, ground_ft(s, way * edge)},
                    foot = {way * (edge + back), ground_ft(s, way * (edge + back))};
        if (spoil_on(s, right)) {
            const double base = s->cut->pile_base_ft, tall = s->cut->pile_height_ft;
            const cw_xy pile[] = {foot,
                                  {foot.x + way * base / 2, foot.y + tall},
                                  {foot.x + way * base, ground_ft(s, foot.x + way * base)}};
            cw_draw_polygon(s->drawing, CW_LAYER_OUTLINE, CW_FILL_BACKFILL, pile, 3);
            cw_draw_label(s->drawing,
                          (cw_label){.at = pile[1],
                                     .text = cw_arena_print(s->arena, "Spoil %s high, %s wide",
                                                            draw_survey(s->plan, s->arena, tall),
                                                            draw_survey(s->plan, s->arena, base)),
                                     .side = CW_SIDE_ABOVE,
                                     .leader = true});
        }
        const cw_xy *a = right ? &lip : &foot, *b = right ? &foot : &lip;
        cw_draw_dimension(s->drawing,
                          (cw_dimension){*a, *b, 1.6 * s->drawing->text_pt,
                                         cw_arena_print(s->arena, "keep %s",
                                                        draw_survey(s->plan, s->arena, back)),
                                         CW_DIMENSION_HORIZONTAL});
    }
}

static void water(trench_sheet *s)
{
    if (!(s->cut->water_ft > 0.0) || s->cut->water_ft > s->cut->depth_ft)
        return;
    const bool right = s->right_ft >= -s->left_ft;
    const double x = face_at(s, right, s->cut->water_ft);
    cw_draw_water_line(
        s->drawing, (cw_xy){right ? x : s->left_ft, s->cut->water_ft},
        (cw_xy){right ? s->right_ft : x, s->cut->water_ft},
        cw_arena_print(
            s->arena, "Still groundwater %s",
            draw_value(s->plan, s->arena, s->cut->subgrade_ft + s->cut->water_ft, CW_DIM_ELEV_FT)));
}

/* ---- dimensions ---- */

static void dimensions(trench_sheet *s)
{
    cw_drawing *d = s->drawing;
    const double text = d->text_pt, half = s->cut->section.bottom_ft / 2.0,
                 wall = s->plan->width_ft / 2.0;
    const double row = EARTH_FT * d->view.scale_y + 1.8 * text;
    const char *space = draw_survey(s->plan, s->arena, half - wall);
    cw_draw_dimension(d,
                      (cw_dimension){{-half, 0}, {-wall, 0}, -row, space, CW_DIMENSION_HORIZONTAL});
    cw_draw_dimension(d,
                      (cw_dimension){{wall, 0}, {half, 0}, -row, space, CW_DIMENSION_HORIZONTAL});
    cw_draw_dimension(d, (cw_dimension){{-wall, 0},
                                        {wall, 0},
                                        -(row + 2.2 * text),
                                        cw_arena_print(s->arena, "boxes %s",
                                                       draw_survey(s->plan, s->arena, 2 * wall)),
                                        CW_DIMENSION_HORIZONTAL});
    cw_draw_dimension(d, (cw_dimension){{-half, 0},
                                        {half, 0},
                                        -(row + 4.4 * text),
                                        cw_arena_print(s->arena, "bottom %s",
                                                       draw_survey(s->plan, s->arena, 2 * half)),
                                        CW_DIMENSION_HORIZONTAL});
    const cw_xy left = {-s->cut->section.left_ft, ground_ft(s, -s->cut->section.left_ft)},
                right = {s->cut->section.right_ft, ground_ft(s, s->cut->section.right_ft)};
    const double over = (s->high_ft - fmax(left.y, right.y)) * d->view.scale_y + 3.0 * text;
    cw_draw_dimension(
        d, (cw_dimension){left, right, over,
                          cw_arena_print(s->arena, "open %s",
                                         draw_survey(s->plan, s->arena, s->cut->section.top_ft)),
                          CW_DIMENSION_HORIZONTAL});
    const cw_xy deep[] = {{s->right_ft, 0}, {s->right_ft, ground_ft(s, s->right_ft)}};
    cw_draw_dimension(d, (cw_dimension){deep[0], deep[1], 1.8 * text,
                                        draw_survey(s->plan, s->arena, ground_ft(s, s->right_ft)),
                                        CW_DIMENSION_VERTICAL});
    cw_draw_level_mark(d, (cw_xy){s->left_ft, 0}, true,
                       draw_value(s->plan, s->arena, s->cut->subgrade_ft, CW_DIM_ELEV_FT));
    cw_draw_level_mark(d, (cw_xy){s->left_ft, ground_ft(s, s->left_ft)}, true,
                       draw_value(s->plan, s->arena, s->cut->ground_ft + s->cross_fall * s->left_ft,
                                  CW_DIM_ELEV_FT));
    draw_dashed(d, CW_LAYER_CENTER, CW_DASH_CENTER,
                (cw_xy[]){{0, -EARTH_FT * 0.6}, {0, s->high_ft}}, 2);
}

static const char *note_of(const trench_sheet *s)
{
    cw_text text = cw_text_on(s->arena);
    cw_text_add(&text, "COMPETENT PERSON INSPECTS BEFORE EACH SHIFT AND AFTER RAIN (29 CFR "
                       "1926.651(k)) AND MAY ASK FOR FLATTER SIDES.");
    if (s->cut->section.verdict == CW_UNDECIDED)
        cw_text_add(&text, " DEEPER THAN THE TABLES: A REGISTERED ENGINEER DESIGNS THIS CUT; WHAT "
                           "IS DRAWN IS A QUANTITY.");
    if (s->cut->refused)
        cw_text_add(&text, " THE GROUND TAKES NO BENCHES HERE: DRAWN SLOPED.");
    cw_text_add(&text, " Strips beside the boxes are trenches, however wide the cut is.");
    return cw_text_string(&text);
}

const cw_drawing *cw_draw_trench(const cw_plan *plan, int cut, double width_pt, double height_pt,
                                 cw_arena *arena)
{
    trench_sheet s = {.plan = plan, .cut = &plan->trench.cuts[cut], .arena = arena};
    const char *title = cw_arena_print(arena, "TRENCH SECTION AT %s, LOOKING UPSTREAM",
                                       draw_survey(plan, arena, s.cut->at_ft));
    if (!s.cut->shape)
        return draw_sentence(arena, width_pt, height_pt, title, "Nothing is dug here.");
    measure(&s);
    int lines;
    const char *notes =
        draw_wrapped(arena, note_of(&s), draw_lettering_pt(width_pt), width_pt, &lines);
    frame_picture(&s, width_pt, height_pt, lines);
    earth(&s);
    layers(&s);
    boxes(&s);
    shield(&s);
    draw_foot(s.drawing, title, notes, true);
    dimensions(&s);
    spoil_piles(&s);
    water(&s);
    slope_words(&s);
    layer_words(&s);
    cw_drawing_finish(s.drawing);
    return s.drawing;
}
