/* What the drawing builders share: lettering, notes that find a free place, and picture geometry of
 * the plan. */
#ifndef CW_DRAW_INTERNAL_H
#define CW_DRAW_INTERNAL_H

#include "cw/drawing.h"
#include "cw/plan.h"
#include "drawing_internal.h"

#define DRAW_RIM_PT 4.0

/* ---- lettering ---- */

/* Size of lettering for a frame of this width: sheets wider than a letter page may be printed at 64
 * %. */
double draw_lettering_pt(double width_pt);
cw_drawing *draw_new(cw_arena *arena, cw_view view, double text_pt);

/* Room of the foot (title, scale, notes) and its drawing; notes are lines under the scale or NULL.
 */
double draw_foot_pt(double text_pt, int note_lines);
/* @p words broken to the width of the sheet, joined by '\n'; their number in @p lines. */
const char *draw_wrapped(cw_arena *arena, const char *words, double text_pt, double width_pt,
                         int *lines);
void draw_foot(cw_drawing *drawing, const char *title, const char *notes, bool with_scale);

/* "8'-0\"" and "12.34 ft" in the plan's unit system. */
const char *draw_cast(const cw_plan *plan, cw_arena *arena, double length_in);
const char *draw_survey(const cw_plan *plan, cw_arena *arena, double length_ft);
const char *draw_value(const cw_plan *plan, cw_arena *arena, double value, cw_dim dim);
/* "20°" */
const char *draw_angle(cw_arena *arena, double angle_deg);

/* Steps of 1, 2 or 5 times a power of ten: the least not under @p least. */
double draw_round_step(double least);
/* A sheet that only says @p sentence: there is nothing to draw. */
const cw_drawing *draw_sentence(cw_arena *arena, double width_pt, double height_pt,
                                const char *title, const char *sentence);

/* ---- places on paper ---- */

cw_xy draw_paper(const cw_drawing *drawing, cw_xy real);
/* A line through @p count real points in the layer's pen with other dashes. */
cw_item *draw_dashed(cw_drawing *drawing, cw_layer layer, cw_dash dash, const cw_xy *points,
                     int count);
/* Text at a paper place. */
void draw_text_at(cw_drawing *drawing, double x_pt, double y_pt, cw_text_style style,
                  const char *text);
/* The same, only where it covers no other text; true when written. */
bool draw_text_if_free(cw_drawing *drawing, double x_pt, double y_pt, cw_text_style style,
                       const char *text);

/* Where the words of a note stand: rows of text that start at y_pt and go on by step_pt (negative:
 * upward), first tried with their middle shift_pt to the right of the tip. */
typedef struct draw_rows {
    double y_pt, step_pt, shift_pt;
} draw_rows;
/* A note with an arrow to tip, in the first row where it is free near tip; else a label on a
 * leader. */
void draw_callout(cw_drawing *drawing, cw_xy tip, draw_rows rows, const char *text);

/* ---- picture geometry ---- */

/* The outside section of a row, from the first mark of that row; NULL when the row has no pieces.
 */
const cw_piece_shape *draw_row_shape(const cw_plan *plan, cw_order_row row);
bool draw_is_ring(const cw_plan *plan);
/* tan of the angle of an end face from square: positive when its right side lies farther upstream.
 */
double draw_face_tan(const cw_piece_shape *shape, bool upstream);

const char *draw_top_word(const cw_plan *plan);  /* "lid" or "hood" */
const char *draw_base_word(const cw_plan *plan); /* "base" or "ring" */

/* ---- ends ---- */

/* Corners of a strip along a wing, low_ft to high_ft behind its inner face, from its root; false when there is none. */
bool draw_wing_shape(const cw_plan_end_works *works, int side, double low_ft, double high_ft, cw_end_point corners[4]);
/* The same of the cutoff wall. */
bool draw_cutoff_shape(const cw_plan_end_works *works, double thick_ft, cw_end_point corners[4]);

/* ---- the sheet of one mark ---- */

/* Three views of a piece in inches, each with the place of its own origin on the sheet: end view (x
 * right, z up), side view from the right (y right, z up), plan (y right, x down). */
typedef struct draw_mark {
    const cw_plan *plan;
    const cw_plan_type *type;
    const cw_piece_shape *shape;
    cw_arena *arena;
    cw_drawing *drawing;
    double width_in, height_in;
    double low_in, high_in; /* farthest points along the run, tongues included */
    cw_xy end_at, side_at, plan_at;
} draw_mark;

cw_xy draw_mark_end(const draw_mark *m, double x_in, double z_in);
cw_xy draw_mark_side(const draw_mark *m, double y_in, double z_in);
cw_xy draw_mark_plan(const draw_mark *m, double y_in, double x_in);
/* Place along the run of a face at x_in right of the centre line. */
double draw_mark_face(const draw_mark *m, bool upstream, double x_in);
/* Draw the views: shapes only. */
void draw_mark_views(draw_mark *m);

#endif
