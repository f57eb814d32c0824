/* Convex pieces of ground in plan, clipped by straight lines, with the source of each side kept. */
#ifndef CW_TRENCH_CLIP_H
#define CW_TRENCH_CLIP_H

#include "cw/earthwork.h"

enum { PIECE_CORNERS_MAX = 16 };

/* Sides that no line of the cut made. */
enum { SIDE_FACE_0 = -1, SIDE_FACE_1 = -2, SIDE_FACE_2 = -3, SIDE_DAYLIGHT = -4, SIDE_NONE = -5 };

typedef struct clip_corner {
    double e, n, z; /* of the ground */
    double d;       /* over the cut */
    int side;       /* where the side from here to the next corner comes from */
} clip_corner;

typedef struct clip_piece {
    int count;
    clip_corner corners[PIECE_CORNERS_MAX];
} clip_piece;

/* a e + b n <= c, unit normal outward. */
typedef struct half_plane {
    double a, b, c;
    int line; /* its number, SIDE_NONE when nobody asks */
} half_plane;

/* z = base + slope_e e + slope_n n */
typedef struct cut_plane {
    double base, slope_e, slope_n;
} cut_plane;

enum { CELL_BOUNDS_MAX = 6 };

/* Part of the plan in which the cut is one plane. */
typedef struct cut_cell {
    half_plane bounds[CELL_BOUNDS_MAX];
    int bound_count;
    cut_plane cut, bottom; /* bottom: of its leg, carried on */
    int leg;
    int zone; /* 0 along the run, 1 and 2 beyond its ends */
    bool is_floor;
} cut_cell;

typedef struct cut_cells {
    cut_cell *items;
    int count;
} cut_cells;

static inline double plane_at(const cut_plane *p, double e, double n)
{
    return p->base + p->slope_e * e + p->slope_n * n;
}

/* Cells of the cut; reach_ft gets how far from the run it can reach under ground as high as
 * highest_ft. */
cut_cells cells_of(const cw_earthwork_cut *cut, double highest_ft, double *reach_ft, cw_arena *arena);

/* Distance along a leg and offset to the right. */
void leg_place(const cw_earthwork_leg *leg, double e, double n, double *along, double *right);

/* What lies within; count 0 when nothing does. */
clip_piece clip_by(const clip_piece *piece, const half_plane *by);
/* Keeps where value is not negative; value by corner. */
clip_piece clip_positive(const clip_piece *piece, const double *value, int side);
double piece_sqft(const clip_piece *piece);
/* Integral of a linear function given at the corners. */
double piece_cuft(const clip_piece *piece, const double *value);

/* What is dug, kept for the volumes below a level. */
typedef struct dug_piece {
    clip_piece shape;
    int cell, face;
    int group; /* while they are joined: index of a piece of the same cut */
} dug_piece;

typedef struct cw_earthwork_pieces {
    const dug_piece *items;
    int count;
    cut_cells cells;
    const cw_earthwork_cut *cut;
} cw_earthwork_pieces;

#endif
