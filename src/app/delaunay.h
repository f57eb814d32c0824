/** @file
 * Delaunay triangles of places on a lattice, by Boost.Polygon, which is C++. */
#ifndef CW_APP_DELAUNAY_H
#define CW_APP_DELAUNAY_H

#ifdef __cplusplus
extern "C" {
#endif

/** Coordinates lie within this of zero, so that the turn of three places is exact in 64 bits. */
enum { CW_LATTICE_MOST = 1 << 29 };

typedef struct cw_lattice_place {
    int x, y;
} cw_lattice_place;

/** Twice the area of the triangle, positive when c lies to the left of the way from a to b.  Exact. */
static inline long long cw_lattice_turn(cw_lattice_place a, cw_lattice_place b, cw_lattice_place c)
{
    return (long long)(b.x - a.x) * (c.y - a.y) - (long long)(b.y - a.y) * (c.x - a.x);
}

/** Why there are no triangles. */
enum { CW_DELAUNAY_NO_MEMORY = -1, CW_DELAUNAY_NOT_PLANE = -2 };

/** Triangles of @p count places, no two the same, with their convex outline; each turns left.  @p faces
 * has room for 2 * count.  The number of triangles, 0 when all places stand in one row; otherwise one
 * of the reasons, CW_DELAUNAY_NOT_PLANE when the library's triangles would lie over each other.  Same
 * input, same triangles in the same order. */
int cw_delaunay(const cw_lattice_place *places, int count, int (*faces)[3]);

#ifdef __cplusplus
}
#endif

#endif
