/** @file
 * Breaklines of a survey: edges that a triangulation must have. */
#ifndef CW_APP_BREAKLINES_H
#define CW_APP_BREAKLINES_H

#include "cw/ground.h"
#include "delaunay.h"

/** A Delaunay triangulation with its convex outline. */
typedef struct cw_breaklines {
    cw_survey_points points;
    const cw_lattice_place *places; /**< by point */
    const int *merged;              /**< by point: the point it repeats, or itself */
    int (*faces)[3];                /**< turn left; changed in place */
    int face_count;
    cw_pos at;
    cw_arena *arena;
    cw_diags *diags;
} cw_breaklines;

/** Joins the points with the code by edges (see cw_triangulate()); the rest becomes constrained
 * Delaunay.  False when breaklines cross, each crossing with its place. */
bool cw_breaklines_join(cw_breaklines *lines, const char *code);

#endif
