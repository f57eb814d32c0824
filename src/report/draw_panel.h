/* A small chart in paper points, for several on one sheet. */
#ifndef CW_DRAW_PANEL_H
#define CW_DRAW_PANEL_H

#include "draw_internal.h"

typedef struct draw_panel {
    double left_pt, right_pt, top_pt, bottom_pt; /* the frame; numbers stand outside it */
    double x_low, x_high, y_low, y_high;
    double x_step, y_step;
    const char *x_words, *y_words; /* what and unit */
    const char *title;             /* over the frame, or NULL */
} draw_panel;

/* Paper place of a value pair. */
cw_xy draw_panel_at(const draw_panel *panel, double x, double y);
/* A round step so that ticks stand at least @p least_pt apart when @p span fills @p room_pt. */
double draw_panel_step(double span, double room_pt, double least_pt);
/* Grid, numbers, frame and title. */
void draw_panel_frame(const draw_panel *panel, cw_drawing *drawing);
/* A line through value pairs, cut where it leaves the panel at its top; x rises and stays inside. */
void draw_panel_line(const draw_panel *panel, cw_drawing *drawing, cw_layer layer, cw_dash dash, const cw_xy *points,
                     int count);

#endif
