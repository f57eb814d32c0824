/** @file
 * Breaklines of a survey: edges that a triangulation must have. */
#ifndef CW_APP_BREAKLINES_H
#define CW_APP_BREAKLINES_H

#include "cw/ground.h"

/** A Delaunay triangulation inside one far triangle. */
typedef struct cw_breaklines {
    cw_survey_points points;
    const int *merged;  /**< by point: the point it repeats, or itself */
    double outer[3][2]; /**< easting and northing of the corners of the far triangle, which count as
                           points after the others */
    int (*faces)[3];    /**< counter-clockwise; changed in place */
    int face_count;
    cw_pos at;
    cw_arena *arena;
    cw_diags *diags;
} cw_breaklines;

/** Joins the points with the code by edges (see cw_triangulate()); the rest becomes constrained
 * Delaunay.  False when breaklines cross, each crossing with its place. */
bool cw_breaklines_join(cw_breaklines *lines, const char *code);

#endif
