/* Triangles between survey points: Delaunay by inserting one point after the other and flipping
 * edges (C. L. Lawson, "Software for C1 surface interpolation", Mathematical Software III, 1977).
 * Flips keep the triangulation valid whatever rounding does to the circle test, so a regular grid
 * of points is no special case. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "cw/tolerance.h"
#include "ground_internal.h"

enum { NONE = -1, OUTER = 3 /* corners of the first triangle, around all points */ };

/* Coordinates are scaled so that the points fill a unit square; then these are shares of its side.
 */
#define OUTER_REACH                                                                                \
    1e4 /* outer corners stand so far away that a hull is true to 1e-5 of its length */
#define AREA_SLACK 1e-14 /* twice the area of a triangle that rounding cannot tell from a line */
#define CIRCLE_SLACK 1e-14

/** corner[i] faces beside[i], the triangle across the other two corners. */
typedef struct triangle {
    int corner[3], beside[3];
} triangle;

typedef struct spot {
    double x, y;
} spot;

typedef struct mesher {
    spot *spots; /**< the points, then the outer corners */
    int count;
    triangle *triangles;
    int triangle_count;
    int *edges; /**< stack of triangles whose edge across from corner 0 is to be looked at */
    int edge_count, edge_capacity;
} mesher;

/* Twice the signed area; positive counter-clockwise. */
static double turn(spot a, spot b, spot c)
{
    return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

/* Positive when d lies inside the circle through the counter-clockwise a, b, c. */
static double in_circle(spot a, spot b, spot c, spot d)
{
    const double ax = a.x - d.x, ay = a.y - d.y, bx = b.x - d.x, by = b.y - d.y;
    const double cx = c.x - d.x, cy = c.y - d.y;
    return (ax * ax + ay * ay) * (bx * cy - cx * by) - (bx * bx + by * by) * (ax * cy - cx * ay) +
           (cx * cx + cy * cy) * (ax * by - bx * ay);
}

static spot at(const mesher *m, int t, int corner)
{
    return m->spots[m->triangles[t].corner[corner]];
}

/* The triangle around the point: the one whose least turn is greatest, so rounding cannot leave it
 * in none. */
static int around(const mesher *m, spot p)
{
    int best = 0;
    double best_turn = -HUGE_VAL;
    for (int t = 0; t < m->triangle_count; t++) {
        const spot a = at(m, t, 0), b = at(m, t, 1), c = at(m, t, 2);
        const double least = fmin(turn(a, b, p), fmin(turn(b, c, p), turn(c, a, p)));
        if (least >= 0.0)
            return t;
        if (least > best_turn) {
            best_turn = least;
            best = t;
        }
    }
    return best;
}

static int side_towards(const triangle *t, int neighbour)
{
    for (int i = 0; i < 3; i++)
        if (t->beside[i] == neighbour)
            return i;
    return NONE;
}

static void link(mesher *m, int t, int from, int to)
{
    if (t == NONE)
        return;
    const int side = side_towards(&m->triangles[t], from);
    assert(side != NONE);
    m->triangles[t].beside[side] = to;
}

static void push(mesher *m, int t)
{
    if (m->edge_count < m->edge_capacity)
        m->edges[m->edge_count++] = t;
}

/* Three triangles in place of one, each with the new point as corner 0. */
static void split(mesher *m, int t, int point)
{
    const triangle old = m->triangles[t];
    const int u = m->triangle_count, v = u + 1;
    m->triangle_count += 2;
    m->triangles[t] = (triangle){{point, old.corner[0], old.corner[1]}, {old.beside[2], u, v}};
    m->triangles[u] = (triangle){{point, old.corner[1], old.corner[2]}, {old.beside[0], v, t}};
    m->triangles[v] = (triangle){{point, old.corner[2], old.corner[0]}, {old.beside[1], t, u}};
    link(m, old.beside[0], t, u);
    link(m, old.beside[1], t, v);
    push(m, t);
    push(m, u);
    push(m, v);
}

/* Turn the edge across from corner 0 of t, when the point across it lies in t's circle or t is
 * flat. */
static void look_at(mesher *m, int t)
{
    const int n = m->triangles[t].beside[0];
    if (n == NONE)
        return;
    const triangle near = m->triangles[t], far = m->triangles[n];
    const int side = side_towards(&far, t);
    const int p = near.corner[0], a = near.corner[1], b = near.corner[2], d = far.corner[side];
    const spot sp = m->spots[p], sa = m->spots[a], sb = m->spots[b], sd = m->spots[d];
    const bool flat = turn(sp, sa, sb) <= AREA_SLACK;
    if (!flat && in_circle(sp, sa, sb, sd) <= CIRCLE_SLACK)
        return;
    if (turn(sp, sa, sd) <= 0.0 || turn(sp, sd, sb) <= 0.0)
        return; // Turned, the edge would leave the four corners.
    const int beyond_a = far.beside[(side + 1) % 3], beyond_b = far.beside[(side + 2) % 3];
    // far runs d, b, a counter-clockwise: across from b lies the edge a-d, across from a the edge
    // d-b.
    m->triangles[t] = (triangle){{p, a, d}, {beyond_a, n, near.beside[2]}};
    m->triangles[n] = (triangle){{p, d, b}, {beyond_b, near.beside[1], t}};
    link(m, beyond_a, n, t);
    link(m, near.beside[1], t, n);
    push(m, t);
    push(m, n);
}

static void insert(mesher *m, int point)
{
    m->edge_count = 0;
    split(m, around(m, m->spots[point]), point);
    // Each flip gives the new point one more neighbour, so there are fewer than the triangles.
    for (int i = 0; m->edge_count > 0 && i < m->edge_capacity; i++)
        look_at(m, m->edges[--m->edge_count]);
}

static mesher prepare(const cw_survey_point *points, int count, cw_arena *arena)
{
    double north = points[0].northing_ft, south = north, east = points[0].easting_ft, west = east;
    for (int i = 1; i < count; i++) {
        north = fmax(north, points[i].northing_ft);
        south = fmin(south, points[i].northing_ft);
        east = fmax(east, points[i].easting_ft);
        west = fmin(west, points[i].easting_ft);
    }
    const double side = fmax(fmax(north - south, east - west), CW_SAME_PLACE_FT);
    mesher m = {.spots = CW_TAKE(arena, spot, count + OUTER),
                .count = count,
                .triangles = CW_TAKE(arena, triangle, 2 * count + 1),
                .edge_capacity = 8 * (count + OUTER)};
    m.edges = CW_TAKE(arena, int, m.edge_capacity);
    for (int i = 0; i < count; i++)
        m.spots[i] =
            (spot){(points[i].easting_ft - west) / side, (points[i].northing_ft - south) / side};
    m.spots[count] = (spot){-OUTER_REACH, -OUTER_REACH};
    m.spots[count + 1] = (spot){OUTER_REACH, -OUTER_REACH};
    m.spots[count + 2] = (spot){0.0, OUTER_REACH};
    m.triangles[0] = (triangle){{count, count + 1, count + 2}, {NONE, NONE, NONE}};
    m.triangle_count = 1;
    return m;
}

/* Faces without an outer corner and with an area. */
static cw_ground_mesh harvest(const mesher *m, const cw_survey_point *points, cw_arena *arena)
{
    int(*faces)[3] = cw_arena_take(arena, (size_t)m->triangle_count, sizeof *faces);
    int count = 0;
    for (int t = 0; t < m->triangle_count; t++) {
        const int *corner = m->triangles[t].corner;
        if (corner[0] >= m->count || corner[1] >= m->count || corner[2] >= m->count ||
            turn(at(m, t, 0), at(m, t, 1), at(m, t, 2)) <= AREA_SLACK)
            continue;
        memcpy(faces[count++], corner, sizeof faces[0]);
    }
    return (cw_ground_mesh){points, m->count, (const int(*)[3])faces, count};
}

/* ---- which points ---- */

static void report_none_near(cw_survey_points points, const cw_ground_line *line, cw_pos at,
                             cw_diags *diags)
{
    int swapped = 0;
    double least_ft = HUGE_VAL;
    const cw_survey_point *nearest = &points.items[0];
    for (int i = 0; i < points.count; i++) {
        const cw_survey_point *point = &points.items[i];
        const double distance_ft =
            cw_ground_line_distance(line, point->northing_ft, point->easting_ft);
        if (distance_ft < least_ft) {
            least_ft = distance_ft;
            nearest = point;
        }
        swapped +=
            cw_ground_line_distance(line, point->easting_ft, point->northing_ft) <= line->reach_ft;
    }
    if (swapped >= 3)
        cw_diag_add(
            diags, at, CW_E_CONFLICT,
            "northing and easting look swapped: no point lies within %.0f ft of the centre "
            "line as read, and %d of %d do the other way round; set ground.order to the other "
            "order",
            line->reach_ft, swapped, points.count);
    else
        cw_diag_add(diags, at, CW_E_RANGE,
                    "no survey point lies within %.0f ft of the centre line; the nearest is '%s' "
                    "(line %d), %.1f ft away: check survey.northing, easting and azimuth, or raise "
                    "ground.reach",
                    line->reach_ft, nearest->name, nearest->line, least_ft);
}

/* False when one place has two heights.  A point that only repeats another is left out. */
static bool keep_apart(cw_survey_point *kept, int *count, const cw_survey_point *point, cw_pos at,
                       cw_diags *diags)
{
    for (int i = 0; i < *count; i++) {
        if (hypot(kept[i].northing_ft - point->northing_ft,
                  kept[i].easting_ft - point->easting_ft) > CW_SAME_PLACE_FT)
            continue;
        if (fabs(kept[i].elevation_ft - point->elevation_ft) <= CW_SAME_PLACE_FT)
            return true;
        cw_diag_add(
            diags, (cw_pos){at.file, at.path, point->line, 1}, CW_E_CONFLICT,
            "point '%s' stands in the same place as '%s' (line %d) but at %.2f ft, not %.2f "
            "ft; delete one of them",
            point->name, kept[i].name, kept[i].line, point->elevation_ft, kept[i].elevation_ft);
        return false;
    }
    kept[(*count)++] = *point;
    return true;
}

/* The points near the line; none after a fault. */
static cw_survey_points choose(cw_survey_points points, const cw_ground_line *line, cw_pos at,
                               cw_arena *arena, cw_diags *diags)
{
    cw_survey_point *kept = CW_TAKE(arena, cw_survey_point, CW_MESH_POINTS_MAX);
    int near = 0, faults = 0;
    for (int i = 0; i < points.count; i++) {
        const cw_survey_point *point = &points.items[i];
        if (!(cw_ground_line_distance(line, point->northing_ft, point->easting_ft) <=
              line->reach_ft))
            continue;
        if (near == CW_MESH_POINTS_MAX) {
            cw_diag_add(diags, at, CW_E_TOO_MANY,
                        "more than %d survey points lie within %.0f ft of the centre line; lower "
                        "ground.reach",
                        CW_MESH_POINTS_MAX, line->reach_ft);
            faults++;
            break;
        }
        faults += !keep_apart(kept, &near, point, at, diags);
    }
    if (faults == 0 && near == 0)
        report_none_near(points, line, at, diags);
    else if (faults == 0 && near < 3)
        cw_diag_add(
            diags, at, CW_E_MISSING,
            "%d survey point%s within %.0f ft of the centre line, 3 make a surface; measure "
            "more points or raise ground.reach",
            near, near == 1 ? " lies" : "s lie", line->reach_ft);
    return (cw_survey_points){kept, faults == 0 && near >= 3 ? near : 0};
}

cw_ground_mesh cw_ground_triangulate(cw_survey_points points, const cw_ground_line *line, cw_pos at,
                                     cw_arena *arena, cw_diags *diags)
{
    assert(points.count > 0);
    const cw_survey_points kept = choose(points, line, at, arena, diags);
    if (kept.count == 0)
        return (cw_ground_mesh){0};
    mesher m = prepare(kept.items, kept.count, arena);
    for (int i = 0; i < kept.count; i++)
        insert(&m, i);
    const cw_ground_mesh mesh = harvest(&m, kept.items, arena);
    if (mesh.face_count == 0)
        cw_diag_add(
            diags, at, CW_E_GEOMETRY,
            "the %d survey points near the centre line stand in one straight row and make no "
            "surface; add points beside it, or write ground.profile instead",
            kept.count);
    return mesh;
}
