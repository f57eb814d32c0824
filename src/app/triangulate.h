/** @file
 * Triangles between survey points. */
#ifndef CW_APP_TRIANGULATE_H
#define CW_APP_TRIANGULATE_H

#include "cw/ground.h"

/** Delaunay triangles of all @p points (at least one); none is left out for its distance from the
 * structure.  @p code: points whose description starts with it, then a number or nothing, then a
 * blank or the end, are joined in file order, one line for each number, and no triangle crosses such
 * a breakline ("" or NULL: no breaklines).  A point that repeats another is merged with it, with a
 * warning.  Faults at @p at.file and the line of the survey file: fewer than three places, all in
 * one straight row, one place with two heights, more than 1,048,576 ft wide, breaklines that cross.
 * NULL after a fault.  The mesh has its points on the nodes of a lattice, moved by at most a 2^30th of
 * the survey's width.  Same input, same triangles in the same order. */
const cw_ground_mesh *cw_triangulate(cw_survey_points points, const char *code, cw_pos at,
                                     cw_arena *arena, cw_diags *diags);

#endif
