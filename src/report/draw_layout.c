/* The key plan: every piece of every barrel as a strip to horizontal scale, with slot, mark and
 * setting turn. */
#include <math.h>
#include <string.h>

#include "cw/quantity.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"
#include "draw_internal.h"

enum { BANDS_MAX = 4 };

#define LEAST_HOLE_PT 3.0

/* The run is cut into bands, one under the other; a band holds a lane for each barrel; a lane holds
 * the strip of tops, the strip of bases and, under it, the running distances. */
typedef struct key_plan {
    const cw_plan *plan;
    cw_arena *arena;
    cw_drawing *drawing;
    double text, head_pt, right_pt;
    double length_ft, band_ft, scale;
    int bands;
    bool upright;              /* words of the pieces are turned */
    bool axis[CW_BARRELS_MAX]; /* distances under this barrel */
    double strip_pt, axis_pt, gap_pt, header_pt, foot_pt, top_pt;
    const char *notes;
} key_plan;

/* ---- measures ---- */

static int strips_of(const key_plan *k)
{
    return k->plan->barrels[0].top_count > 0 ? 2 : 1;
}

static double lanes_pt(const key_plan *k)
{
    double sum = 0;
    for (int b = 0; b < k->plan->barrel_count; b++)
        sum += k->gap_pt + strips_of(k) * k->strip_pt + (k->axis[b] ? k->axis_pt : 0);
    return sum;
}

static double band_pt(const key_plan *k)
{
    return k->header_pt + lanes_pt(k);
}

static bool same_joints(const cw_plan_barrel *a, const cw_plan_barrel *b)
{
    if (a->base_count != b->base_count)
        return false;
    for (int i = 0; i <= a->base_count; i++)
        if (fabs(a->joints[i].at.at_ft - b->joints[i].at.at_ft) > 0.004)
            return false;
    return true;
}

/* Length of the usual piece: the most frequent is near the mean of its row. */
static double usual_ft(const key_plan *k)
{
    const cw_plan_barrel *b = &k->plan->barrels[0];
    return b->joints[b->base_count].at.at_ft / b->base_count;
}

/* Try a number of bands: true when the words of the pieces fit. */
static bool try_bands(key_plan *k, double width_pt, double height_pt, int bands)
{
    const double text = k->text;
    k->bands = bands;
    k->band_ft = k->length_ft / bands;
    k->scale = (width_pt - k->head_pt - k->right_pt) / k->band_ft;
    const double pitch = usual_ft(k) * k->scale;
    const bool level = pitch >= 4.4 * text;
    k->upright = !level;
    k->axis_pt = level ? 1.7 * text : 4.3 * text;
    k->strip_pt = 0;
    const double room = (height_pt - k->foot_pt - 0.6 * text) / bands - band_pt(k);
    k->strip_pt = fmin(room / (strips_of(k) * k->plan->barrel_count), level ? 5 * text : 11 * text);
    return level ? k->strip_pt >= 2.8 * text : pitch >= 1.2 * text && k->strip_pt >= 3.7 * text;
}

static void frame_picture(key_plan *k, double width_pt, double height_pt)
{
    const cw_plan *plan = k->plan;
    k->head_pt = 9.5 * k->text;
    k->right_pt = 2.4 * k->text;
    k->gap_pt = 1.9 * k->text;
    k->header_pt = 1.5 * k->text;
    for (int b = 0; b < plan->barrel_count; b++) {
        k->length_ft =
            fmax(k->length_ft, plan->barrels[b].joints[plan->barrels[b].base_count].at.at_ft);
        k->axis[b] =
            b + 1 == plan->barrel_count || !same_joints(&plan->barrels[b], &plan->barrels[b + 1]);
    }
    int best = 1;
    for (int bands = BANDS_MAX; bands >= 1; bands--)
        if (try_bands(k, width_pt, height_pt, bands))
            best = bands;
    try_bands(k, width_pt, height_pt, best);
    k->top_pt =
        0.6 * k->text + fmax(0, (height_pt - k->foot_pt - 0.6 * k->text - best * band_pt(k)) * 0.3);
    const cw_view view = {.width_pt = width_pt,
                          .height_pt = height_pt,
                          .scale_x = k->scale,
                          .scale_y = k->scale,
                          .left_pt = k->head_pt};
    k->drawing = draw_new(k->arena, view, k->text);
}

/* Paper x of a distance in a band. */
static double x_of(const key_plan *k, int band, double at_ft)
{
    return k->head_pt + (at_ft - band * k->band_ft) * k->scale;
}

static double lane_top(const key_plan *k, int band, int barrel)
{
    double y = k->top_pt + band * band_pt(k) + k->header_pt;
    for (int b = 0; b < barrel; b++)
        y += k->gap_pt + strips_of(k) * k->strip_pt + (k->axis[b] ? k->axis_pt : 0);
    return y + k->gap_pt;
}

/* ---- pieces ---- */

static void words_level(key_plan *k, const cw_plan_piece *piece, cw_xy low, cw_xy high)
{
    const double size = k->text, feed = 1.25 * size;
    const char *lines[3] = {piece->slot, k->plan->types[piece->type].mark,
                            cw_arena_print(k->arena, "#%d", piece->turn)};
    const int fit = (int)floor((high.y - low.y - 2) / feed), count = fit > 3 ? 3 : fit;
    for (int i = 0; i < count; i++) {
        const cw_font_weight weight = i == 1 ? CW_FONT_BOLD : CW_FONT_REGULAR;
        if (cw_font_width_pt(lines[i], size, weight) > high.x - low.x - 1)
            continue;
        const double y = (low.y + high.y) / 2 + (i - (count - 1) / 2.0) * feed;
        draw_text_if_free(k->drawing, (low.x + high.x) / 2, y,
                          (cw_text_style){.align = CW_ALIGN_CENTER,
                                          .valign = CW_VALIGN_MIDDLE,
                                          .weight = weight,
                                          .halo = true},
                          lines[i]);
    }
}

/* Size at which @p words fit into the room, not below the smallest lettering of a letter sheet; 0
 * when none does. */
static double fitting_pt(const key_plan *k, const char *words, double room_pt)
{
    const double least_pt = fmin(k->text, 7.5),
                 wide_pt = cw_font_width_pt(words, k->text, CW_FONT_REGULAR);
    const double size_pt = k->text * fmin(1, room_pt / wide_pt);
    return size_pt >= least_pt ? size_pt : 0;
}

static void words_upright(key_plan *k, const cw_plan_piece *piece, cw_xy low, cw_xy high)
{
    const char *mark = k->plan->types[piece->type].mark;
    const char *const choices[] = {
        cw_arena_print(k->arena, "%s  %s  #%d", piece->slot, mark, piece->turn),
        cw_arena_print(k->arena, "%s  %s", piece->slot, mark), piece->slot, mark};
    for (int i = 0; i < 4; i++) {
        const double size_pt = fitting_pt(k, choices[i], high.y - low.y - 2);
        if (size_pt <= 0)
            continue;
        const cw_text_style style = {.size_pt = size_pt,
                                     .align = CW_ALIGN_CENTER,
                                     .valign = CW_VALIGN_MIDDLE,
                                     .angle_deg = 90,
                                     .halo = true};
        draw_text_if_free(k->drawing, (low.x + high.x) / 2, (low.y + high.y) / 2, style,
                          choices[i]);
        return;
    }
}

/* An inner piece with square ends and no opening. */
static bool is_plain(const cw_piece_shape *shape)
{
    return shape->opening_count == 0 && shape->downstream.joint != CW_JOINT_PLAIN &&
           shape->upstream.joint != CW_JOINT_PLAIN && fabs(draw_face_tan(shape, false)) < 1e-6 &&
           fabs(draw_face_tan(shape, true)) < 1e-6;
}

static void strip_piece(key_plan *k, const cw_plan_piece *piece, int band, double top, bool words)
{
    const double from_ft = band * k->band_ft, to_ft = from_ft + k->band_ft;
    if (piece->end_ft <= from_ft + 0.01 || piece->start_ft >= to_ft - 0.01)
        return;
    const cw_xy low = {x_of(k, band, fmax(piece->start_ft, from_ft)), top},
                high = {x_of(k, band, fmin(piece->end_ft, to_ft)), top + k->strip_pt};
    if (!words) {
        const cw_xy corners[] = {low, {high.x, low.y}, high, {low.x, high.y}};
        const cw_piece_shape *shape = &k->plan->types[piece->type].shape;
        const bool plain = is_plain(shape);
        cw_paper_path(k->drawing, CW_LAYER_OUTLINE, plain ? CW_FILL_NONE : CW_FILL_SHADE, corners,
                      4, true);
        return;
    }
    /* A piece that a band cuts has its words in the band that holds its middle. */
    const double middle_ft = (piece->start_ft + piece->end_ft) / 2;
    if (middle_ft < from_ft || middle_ft >= to_ft)
        return;
    if (k->upright)
        words_upright(k, piece, low, high);
    else
        words_level(k, piece, low, high);
}

/* All pieces of a barrel: their outlines, or their words, which are written over the marks of the
 * openings. */
static void strips(key_plan *k, int band, int barrel, bool words)
{
    const cw_plan_barrel *b = &k->plan->barrels[barrel];
    const double top = lane_top(k, band, barrel),
                 base_top = top + (strips_of(k) == 2 ? k->strip_pt : 0);
    for (int i = 0; i < b->top_count; i++)
        strip_piece(k, &k->plan->pieces[b->tops[i]], band, top, words);
    for (int i = 0; i < b->base_count; i++)
        strip_piece(k, &k->plan->pieces[b->bases[i]], band, base_top, words);
}

/* ---- distances, openings, joints that are more ---- */

static void distances(key_plan *k, int band, int barrel, double y)
{
    const cw_plan_barrel *b = &k->plan->barrels[barrel];
    const double room = k->upright ? 1.15 * k->text : 4.1 * k->text;
    const double from_ft = band * k->band_ft - 0.01, to_ft = from_ft + k->band_ft + 0.02;
    int last = b->base_count;
    while (last > 0 && b->joints[last].at.at_ft > to_ft)
        last--;
    const double last_x = x_of(k, band, b->joints[last].at.at_ft);
    double before = -1e6;
    for (int i = 0; i <= last; i++) {
        const double x = x_of(k, band, b->joints[i].at.at_ft);
        if (b->joints[i].at.at_ft < from_ft)
            continue;
        cw_paper_line(k->drawing, CW_LAYER_RULE, (cw_xy){x, y}, (cw_xy){x, y + 3});
        if (i < last && (x - before < room || last_x - x < room))
            continue;
        const char *text =
            cw_quantity_number(k->arena, b->joints[i].at.at_ft, CW_DIM_FT, k->plan->units);
        cw_text_style style = {
            .align = CW_ALIGN_CENTER, .valign = CW_VALIGN_TOP, .size_pt = 0.94 * k->text};
        if (k->upright)
            style = (cw_text_style){.align = CW_ALIGN_RIGHT,
                                    .valign = CW_VALIGN_MIDDLE,
                                    .size_pt = 0.94 * k->text,
                                    .angle_deg = 90};
        draw_text_at(k->drawing, x, y + 4, style, text);
        before = x;
    }
}

static void opening_mark(key_plan *k, int number, int band, double lane)
{
    const cw_job_opening *given = &k->plan->job->openings[number];
    const double x = x_of(k, band, given->at_ft), strip = k->strip_pt;
    const double half =
        fmax((given->has_diameter ? given->diameter_in : given->width_in) / CW_IN_PER_FT * k->scale,
             LEAST_HOLE_PT) /
        2;
    /* A lid job has its wall openings in the base; a hood job by height. */
    const cw_piece_shape *base = draw_row_shape(k->plan, CW_ORDER_BASE);
    const bool wall = given->face == CW_FACE_LEFT || given->face == CW_FACE_RIGHT;
    const bool upper = given->face == CW_FACE_TOP || (wall && given->height_in > base->leg_in);
    const double top = lane + (strips_of(k) == 2 && !upper ? strip : 0);
    const bool low_edge = given->face == CW_FACE_RIGHT || given->face == CW_FACE_FLOOR;
    const double y = low_edge ? top + strip - 3 : top, deep = 3;
    const cw_xy corners[] = {
        {x - half, y}, {x + half, y}, {x + half, y + deep}, {x - half, y + deep}};
    cw_paper_path(k->drawing, CW_LAYER_RULE, CW_FILL_SOLID, corners, 4, true);
    draw_text_if_free(k->drawing, x, lane - 2.5,
                      (cw_text_style){.align = CW_ALIGN_CENTER, .weight = CW_FONT_BOLD},
                      cw_arena_print(k->arena, "%c", 'a' + number % 26));
    cw_paper_line(k->drawing, CW_LAYER_DIMENSION, (cw_xy){x, lane - 1.5}, (cw_xy){x, y});
}

static void special_joints(key_plan *k, int band)
{
    const cw_plan *plan = k->plan;
    for (int b = 0; b < plan->barrel_count; b++) {
        const cw_plan_barrel *barrel = &plan->barrels[b];
        for (int i = 1; i < barrel->base_count; i++) {
            const cw_plan_joint *joint = &barrel->joints[i];
            if ((!joint->mitred && !joint->phase_line) || joint->at.at_ft < band * k->band_ft ||
                joint->at.at_ft > (band + 1) * k->band_ft)
                continue;
            const double x = x_of(k, band, joint->at.at_ft), top = lane_top(k, band, b);
            cw_paper_line(k->drawing, CW_LAYER_HIGHLIGHT, (cw_xy){x, top - 3},
                          (cw_xy){x, top + strips_of(k) * k->strip_pt + 3});
            draw_text_if_free(k->drawing, x, top - 4.5, (cw_text_style){.align = CW_ALIGN_CENTER},
                              joint->phase_line ? "Phase line" : "Bend");
        }
    }
}

static void band(key_plan *k, int number)
{
    const cw_plan *plan = k->plan;
    cw_drawing *d = k->drawing;
    for (int b = 0; b < plan->barrel_count; b++) {
        const double top = lane_top(k, number, b), strip = k->strip_pt;
        const double base_top = top + (strips_of(k) == 2 ? strip : 0);
        strips(k, number, b, false);
        const double middle = top + strips_of(k) * strip / 2;
        draw_text_at(d, DRAW_RIM_PT, middle,
                     (cw_text_style){.weight = CW_FONT_BOLD, .valign = CW_VALIGN_MIDDLE},
                     cw_arena_print(k->arena, "Barrel %d", b + 1));
        const cw_text_style name = {.align = CW_ALIGN_RIGHT, .valign = CW_VALIGN_MIDDLE};
        if (strips_of(k) == 2)
            draw_text_at(d, k->head_pt - 4, top + strip / 2, name,
                         plan->job->box.form == CW_FORM_DOUBLE_U ? "hoods" : "lids");
        draw_text_at(d, k->head_pt - 4, base_top + strip / 2, name,
                     draw_is_ring(plan) ? "boxes" : "bases");
        if (k->axis[b])
            distances(k, number, b, base_top + strip);
        for (int i = 0; i < plan->job->opening_count; i++) {
            const double at_ft = plan->job->openings[i].at_ft;
            if (plan->job->openings[i].barrel == b + 1 && at_ft >= number * k->band_ft &&
                at_ft < (number + 1) * k->band_ft)
                opening_mark(k, i, number, top);
        }
        strips(k, number, b, true);
    }
    special_joints(k, number);
    const double header = k->top_pt + number * band_pt(k) + k->header_pt;
    const cw_text_style bold = {.weight = CW_FONT_BOLD};
    cw_text_style right = bold;
    right.align = CW_ALIGN_RIGHT;
    draw_text_at(d, k->head_pt, header, bold, number == 0 ? "OUTLET" : "continued from the outlet");
    draw_text_at(d, d->view.width_pt - k->right_pt, header, right,
                 number + 1 == k->bands ? "INLET" : "to the inlet");
}

/* ---- foot ---- */

static const char *slot_at(const key_plan *k, const cw_job_opening *given)
{
    const cw_plan *plan = k->plan;
    for (int i = 0; i < plan->piece_count; i++) {
        const cw_plan_piece *piece = &plan->pieces[i];
        const cw_piece_shape *shape = &plan->types[piece->type].shape;
        if (piece->barrel != given->barrel - 1 || given->at_ft < piece->start_ft ||
            given->at_ft > piece->end_ft)
            continue;
        for (int h = 0; h < shape->opening_count; h++)
            if (shape->openings[h].face == given->face)
                return piece->slot;
    }
    return "?";
}

/* Notes under the title, wrapped to the sheet; returns the number of lines. */
static int write_notes(key_plan *k, double width_pt)
{
    const cw_plan *plan = k->plan;
    cw_text text = cw_text_on(k->arena);
    cw_text_print(&text,
                  "In each piece: slot, mark, #setting turn. Distances from the outlet face in "
                  "plan, %s. Shaded: not the plain inner piece.",
                  cw_dim_unit_in(CW_DIM_FT, plan->units));
    for (int i = 0; i < plan->job->opening_count; i++) {
        const cw_job_opening *given = &plan->job->openings[i];
        cw_text_print(&text, "%s %c %s, %s in %s", i == 0 ? " Openings:" : ";", 'a' + i % 26,
                      given->name ? given->name : "opening",
                      draw_survey(plan, k->arena, given->at_ft), slot_at(k, given));
    }
    int count;
    k->notes = draw_wrapped(k->arena, cw_text_string(&text), k->text, width_pt, &count);
    return count;
}

const cw_drawing *cw_draw_layout(const cw_plan *plan, double width_pt, double height_pt,
                                 cw_arena *arena)
{
    key_plan k = {.plan = plan, .arena = arena, .text = draw_lettering_pt(width_pt)};
    const int lines = write_notes(&k, width_pt);
    k.foot_pt = draw_foot_pt(k.text, lines);
    frame_picture(&k, width_pt, height_pt);
    draw_foot(k.drawing, "KEY PLAN OF THE PIECES", k.notes, false);
    cw_draw_scale_bar(k.drawing,
                      cw_at_paper(k.drawing, width_pt - 205, height_pt - k.foot_pt + 1.6 * k.text));
    for (int i = 0; i < k.bands; i++)
        band(&k, i);
    cw_drawing_finish(k.drawing);
    return k.drawing;
}
