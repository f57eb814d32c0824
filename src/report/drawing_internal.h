/* What the files of the drawing model share: adding items in paper points. */
#ifndef CW_DRAWING_INTERNAL_H
#define CW_DRAWING_INTERNAL_H

#include "cw/drawing.h"

/* A waiting label; the list is in order of the calls. */
typedef struct cw_label_queue {
    cw_label *items;
    int count, capacity;
} cw_label_queue;

cw_pen cw_layer_pen(const cw_drawing *drawing, cw_layer layer);
cw_item *cw_item_add(cw_drawing *drawing, cw_item item);

/* Paths in paper points; the points are copied. */
cw_item *cw_paper_path(cw_drawing *drawing, cw_layer layer, cw_fill fill, const cw_xy *points,
                       int count, bool closed);
cw_item *cw_paper_line(cw_drawing *drawing, cw_layer layer, cw_xy a, cw_xy b);
cw_item *cw_paper_circle(cw_drawing *drawing, cw_layer layer, cw_fill fill, cw_xy center,
                         double radius_pt);
/* Filled arrow head with its point at tip, pointing along the unit vector. */
void cw_paper_head(cw_drawing *drawing, cw_layer layer, cw_xy tip, cw_xy along, double length_pt);

/* One line of text with its baseline anchor at a paper place, not yet added. */
cw_item cw_paper_text(const cw_drawing *drawing, cw_xy at, const char *text, double size_pt,
                      cw_text_style style);

/* True when the text's tight box overlaps no text of the drawing (by more than the tolerance) and
 * stays in the frame. */
bool cw_text_is_free(const cw_drawing *drawing, const cw_item *text);

/* True when lines of what is built (outlines, cuts, water) pass through the text's box. */
bool cw_text_hits_built(const cw_drawing *drawing, const cw_item *text);

/* True when two convex quadrilaterals overlap by more than depth_pt in every direction. */
bool cw_quads_overlap(const cw_xy a[4], const cw_xy b[4], double depth_pt);

static inline cw_xy cw_xy_plus(cw_xy a, cw_xy b, double factor)
{
    return (cw_xy){a.x + factor * b.x, a.y + factor * b.y};
}

#endif
