#include "breaklines.h"

#include <assert.h>
#include <gts.h>
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "cw/tolerance.h"
#include "triangulate.h"

enum { FAULTS_MAX = 20, OUTER = 3, ROUNDS_MAX = 8, CORNERS = 3 };

/* The first triangle stands so far out, in sizes of the survey, that a hull is true to a millionth
 * of a foot. */
#define OUTER_REACH 1e6

/* Where a point stands in the order of insertion. */
typedef struct order_row {
    uint64_t key;
    int index;
} order_row;

/* Two points within CW_SAME_PLACE_FT, by their places in the file. */
typedef struct pair {
    int first, second;
} pair;

typedef struct mesher {
    cw_survey_points points;
    cw_pos at;
    cw_arena *arena;
    cw_diags *diags;
    GtsSurface *surface;
    double outer[OUTER][2]; /**< easting and northing of the corners of the first triangle */
    int *merged;             /**< by point: the point it repeats, or itself */
    int merged_count, faults;
    pair *pairs;
    int pair_count, pair_room;
} mesher;

/* ---- which point is whose ---- */

/* Heights play no part in the plan: a vertex carries the number of its point in their place. */
static int index_of(const GtsVertex *v)
{
    return (int)v->p.z;
}

static cw_pos line_of(const mesher *m, int index)
{
    return (cw_pos){m->at.file, m->at.path, m->points.items[index].line, 1};
}

/* ---- order of insertion ---- */

/* Place along a Hilbert curve through a square of 65536 x 65536 cells. */
static uint64_t hilbert(uint32_t x, uint32_t y)
{
    enum { SIDE = 65536 };
    uint64_t place = 0;
    for (uint32_t s = SIDE / 2; s > 0; s /= 2) {
        const uint32_t right = (x & s) > 0, up = (y & s) > 0;
        place += (uint64_t)s * s * ((3 * right) ^ up);
        if (up)
            continue;
        if (right) {
            x = SIDE - 1 - x;
            y = SIDE - 1 - y;
        }
        const uint32_t swap = x;
        x = y;
        y = swap;
    }
    return place;
}

/* Round of a point: half of all come last, a quarter before them, and so on (N. Amenta, S. Choi and
 * G. Rote, "Incremental constructions con BRIO", 2003).  The draw is a fixed mixing of the number. */
static int round_of(int index)
{
    uint32_t h = (uint32_t)index * 2654435761u;
    h ^= h >> 15;
    h *= 2246822519u;
    h ^= h >> 13;
    int drawn = 0;
    while (drawn < ROUNDS_MAX && (h >> drawn & 1u))
        drawn++;
    return ROUNDS_MAX - drawn;
}

static int by_key(const void *left, const void *right)
{
    const order_row *a = left, *b = right;
    if (a->key != b->key)
        return a->key < b->key ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

typedef struct extent {
    double south_ft, west_ft, side_ft;
} extent;

static extent extent_of(cw_survey_points points)
{
    const cw_survey_point *p = points.items;
    double north = p->northing_ft, south = north, east = p->easting_ft, west = east;
    for (int i = 1; i < points.count; i++) {
        north = fmax(north, p[i].northing_ft);
        south = fmin(south, p[i].northing_ft);
        east = fmax(east, p[i].easting_ft);
        west = fmin(west, p[i].easting_ft);
    }
    return (extent){south, west, fmax(fmax(north - south, east - west), CW_SAME_PLACE_FT)};
}

static const order_row *order_of(cw_survey_points points, extent whole, cw_arena *arena)
{
    static const double last_cell = 65535.0;
    enum { HILBERT_BITS = 32 };
    order_row *rows = CW_TAKE(arena, order_row, points.count);
    for (int i = 0; i < points.count; i++) {
        const cw_survey_point *p = &points.items[i];
        const uint32_t x = (uint32_t)((p->easting_ft - whole.west_ft) / whole.side_ft * last_cell);
        const uint32_t y =
            (uint32_t)((p->northing_ft - whole.south_ft) / whole.side_ft * last_cell);
        rows[i] = (order_row){(uint64_t)round_of(i) << HILBERT_BITS | hilbert(x, y), i};
    }
    qsort(rows, (size_t)points.count, sizeof *rows, by_key);
    return rows;
}

/* ---- points ---- */

static GtsVertex *vertex_at(double east_ft, double north_ft, int index)
{
    return gts_vertex_new(gts_vertex_class(), east_ft, north_ft, index);
}

static GtsFace *begin(mesher *m, extent whole)
{
    const double x = whole.west_ft, y = whole.south_ft, far = whole.side_ft * OUTER_REACH;
    const double outer[OUTER][2] = {{x - far, y - far}, {x + far, y - far}, {x, y + far}};
    memcpy(m->outer, outer, sizeof outer);
    GtsVertex *a = vertex_at(outer[0][0], outer[0][1], -1);
    GtsVertex *b = vertex_at(outer[1][0], outer[1][1], -2);
    GtsVertex *c = vertex_at(outer[2][0], outer[2][1], -3);
    GtsEdgeClass *edges = gts_edge_class();
    m->surface =
        gts_surface_new(gts_surface_class(), gts_face_class(), edges, gts_vertex_class());
    GtsFace *face = gts_face_new(gts_face_class(), gts_edge_new(edges, a, b),
                                 gts_edge_new(edges, b, c), gts_edge_new(edges, c, a));
    gts_surface_add_face(m->surface, face);
    return face;
}

/* Two points at one place: the later in the file is the repeat. */
static void merge(mesher *m, int a, int b)
{
    const int first = a < b ? a : b, second = a < b ? b : a;
    const cw_survey_point *kept = &m->points.items[first], *repeat = &m->points.items[second];
    if (fabs(kept->elevation_ft - repeat->elevation_ft) > CW_SAME_PLACE_FT) {
        if (m->faults++ < FAULTS_MAX)
            cw_diag_add(m->diags, line_of(m, second), CW_E_CONFLICT,
                        "point '%s' stands in the same place as '%s' (line %d), N %.3f, E %.3f, but "
                        "at %.2f ft, not %.2f ft; delete one of them",
                        repeat->name, kept->name, kept->line, repeat->northing_ft,
                        repeat->easting_ft, repeat->elevation_ft, kept->elevation_ft);
        return;
    }
    m->merged[second] = first;
    m->merged_count++;
}

/* A face near the newest vertex, from which the next search starts. */
static GtsFace *face_at(GtsVertex *v, GtsFace *otherwise)
{
    if (!v->segments || !GTS_IS_EDGE(v->segments->data))
        return otherwise;
    const GtsEdge *edge = v->segments->data;
    return edge->triangles ? edge->triangles->data : otherwise;
}

/* The triangle across @p edge from @p t; NULL at the outermost. */
static GtsTriangle *across(const GtsEdge *edge, const GtsTriangle *t)
{
    for (GSList *i = edge->triangles; i; i = i->next)
        if (i->data != t)
            return i->data;
    return NULL;
}

/* The face around the place: across any edge that has the place beyond it.  In a Delaunay
 * triangulation this never comes back to a face (L. De Floriani and others, "On sorting triangles in
 * a Delaunay tessellation", 1991); the library's own search follows a rounded line and can go round
 * among points in rows. */
static GtsFace *face_around(const mesher *m, GtsFace *start, const GtsVertex *v)
{
    GtsTriangle *t = GTS_TRIANGLE(start);
    const guint most = gts_surface_face_number(m->surface);
    for (guint i = 0; i < most && t; i++) {
        GtsVertex *corner[CORNERS];
        GtsEdge *edge[CORNERS];
        gts_triangle_vertices_edges(t, NULL, &corner[0], &corner[1], &corner[2], &edge[0], &edge[1],
                                    &edge[2]);
        int k = 0;
        while (k < CORNERS && gts_point_orientation(GTS_POINT(corner[k]),
                                                    GTS_POINT(corner[(k + 1) % CORNERS]),
                                                    GTS_POINT(v)) >= 0.0)
            k++;
        if (k == CORNERS)
            return GTS_FACE(t);
        t = across(edge[k], t);
    }
    return NULL;
}

static void insert_all(mesher *m, const order_row *order, GtsFace *near)
{
    for (int i = 0; i < m->points.count; i++) {
        const int index = order[i].index;
        if (m->merged[index] != index)
            continue;
        const cw_survey_point *p = &m->points.items[index];
        GtsVertex *v = vertex_at(p->easting_ft, p->northing_ft, index);
        GtsFace *face = face_around(m, near, v);
        assert(face != NULL); // all points lie in the first triangle
        GtsVertex *there = gts_delaunay_add_vertex_to_face(m->surface, v, face);
        if (there) {
            gts_object_destroy(GTS_OBJECT(v));
            const int other = index_of(there);
            if (index < other)
                there->p.z = index; // The vertex stays and takes the number of the earlier point.
            merge(m, index, other);
            continue;
        }
        near = face_at(v, near);
    }
}

/* ---- faces out of the library ---- */

/* The surface lists its faces by their addresses: they are put in order of their corners.  Corners of
 * the first triangle come last of all. */
typedef struct face_list {
    int (*faces)[CORNERS];
    GtsFace **items; /**< of the library, in its own order */
    int count, point_count;
} face_list;

static gint take_face(gpointer item, gpointer closure)
{
    face_list *list = closure;
    GtsVertex *v[CORNERS];
    gts_triangle_vertices(item, &v[0], &v[1], &v[2]);
    int least = 0, corner[CORNERS];
    for (int k = 0; k < CORNERS; k++) {
        const int index = index_of(v[k]);
        corner[k] = index < 0 ? list->point_count - 1 - index : index;
        least = corner[k] < corner[least] ? k : least;
    }
    for (int k = 0; k < CORNERS; k++)
        list->faces[list->count][k] = corner[(least + k) % CORNERS];
    list->items[list->count++] = item;
    return 0;
}

static int by_corners(const void *left, const void *right)
{
    const int *a = left, *b = right;
    for (int k = 0; k < CORNERS; k++)
        if (a[k] != b[k])
            return a[k] < b[k] ? -1 : 1;
    return 0;
}

static int by_address(const void *left, const void *right)
{
    const uintptr_t a = (uintptr_t) * (GtsFace *const *)left,
                    b = (uintptr_t) * (GtsFace *const *)right;
    return (a > b) - (a < b);
}

/* Takes the faces out of the surface and gives it back.  Freed in the order of their addresses they
 * take half the time that the library's own order takes. */
static face_list take_faces(mesher *m)
{
    const guint count = gts_surface_face_number(m->surface);
    face_list list = {.faces = cw_arena_take(m->arena, count, sizeof *list.faces),
                      .items = CW_TAKE(m->arena, GtsFace *, count),
                      .point_count = m->points.count};
    gts_surface_foreach_face(m->surface, take_face, &list);
    qsort(list.faces, (size_t)list.count, sizeof *list.faces, by_corners);
    qsort(list.items, (size_t)list.count, sizeof *list.items, by_address);
    for (int i = 0; i < list.count; i++)
        gts_surface_remove_face(m->surface, list.items[i]);
    gts_object_destroy(GTS_OBJECT(m->surface));
    return list;
}

/* ---- repeats ---- */

static int by_first(const void *left, const void *right)
{
    const pair *a = left, *b = right;
    if (a->first != b->first)
        return a->first < b->first ? -1 : 1;
    return (a->second > b->second) - (a->second < b->second);
}

static void note_pair(mesher *m, int a, int b)
{
    enum { FIRST_ROOM = 16 };
    const cw_survey_point *p = &m->points.items[a], *q = &m->points.items[b];
    if (hypot(p->easting_ft - q->easting_ft, p->northing_ft - q->northing_ft) > CW_SAME_PLACE_FT)
        return;
    if (m->pair_count == m->pair_room) {
        m->pair_room = m->pair_room > 0 ? 2 * m->pair_room : FIRST_ROOM;
        m->pairs = cw_arena_grow(m->arena, m->pairs, (size_t)m->pair_count, (size_t)m->pair_room,
                                 sizeof *m->pairs);
    }
    m->pairs[m->pair_count++] = (pair){a < b ? a : b, a < b ? b : a};
}

/* A point and its nearest neighbour share an edge of a Delaunay triangulation, so points that nearly
 * repeat another are found among short edges.  True when one was merged. */
static bool merge_near(mesher *m, const face_list *list)
{
    m->pair_count = 0;
    for (int f = 0; f < list->count; f++)
        for (int k = 0; k < CORNERS; k++) {
            const int a = list->faces[f][k], b = list->faces[f][(k + 1) % CORNERS];
            if (a < b && b < list->point_count)
                note_pair(m, a, b);
        }
    if (m->pair_count > 0)
        qsort(m->pairs, (size_t)m->pair_count, sizeof *m->pairs, by_first);
    const int before = m->merged_count;
    for (int i = 0; i < m->pair_count; i++)
        if (m->merged[m->pairs[i].first] == m->pairs[i].first &&
            m->merged[m->pairs[i].second] == m->pairs[i].second)
            merge(m, m->pairs[i].first, m->pairs[i].second);
    return m->merged_count > before;
}

/* Near repeats are rare: then the rest is triangulated again without them. */
static face_list triangulate_all(mesher *m)
{
    const extent whole = extent_of(m->points);
    const order_row *order = order_of(m->points, whole, m->arena);
    face_list list = {0};
    bool again = true;
    for (int i = 0; i < ROUNDS_MAX && again; i++) {
        insert_all(m, order, begin(m, whole));
        list = take_faces(m);
        again = merge_near(m, &list);
    }
    return list;
}

static void tell_merged(const mesher *m)
{
    for (int i = 0; i < m->points.count; i++) {
        if (m->merged[i] == i)
            continue;
        const cw_survey_point *repeat = &m->points.items[i];
        const cw_survey_point *kept = &m->points.items[m->merged[i]];
        cw_diag_add(m->diags, line_of(m, i), CW_W_ASSUMED,
                    "%d survey point%s another in place and height and %s merged with it; the first "
                    "is '%s', which repeats '%s' (line %d)",
                    m->merged_count, m->merged_count == 1 ? " repeats" : "s repeat",
                    m->merged_count == 1 ? "is" : "are", repeat->name, kept->name, kept->line);
        return;
    }
}

/* The faces between points, without those that hang on a corner of the first triangle. */
static const cw_ground_mesh *harvest(const mesher *m, face_list list)
{
    int kept = 0;
    for (int f = 0; f < list.count; f++) {
        const int *v = list.faces[f];
        if (v[0] < list.point_count && v[1] < list.point_count && v[2] < list.point_count) {
            memmove(list.faces[kept], v, sizeof list.faces[kept]);
            kept++;
        }
    }
    if (kept == 0) {
        const cw_survey_point *first = &m->points.items[0],
                              *last = &m->points.items[m->points.count - 1];
        cw_diag_add(m->diags, m->at, CW_E_GEOMETRY,
                    "the %d survey points, from N %.2f, E %.2f (line %d) to N %.2f, E %.2f (line "
                    "%d), stand in one straight row and make no surface; add points beside it, or "
                    "write ground.profile instead",
                    m->points.count - m->merged_count, first->northing_ft, first->easting_ft,
                    first->line, last->northing_ft, last->easting_ft, last->line);
        return NULL;
    }
    cw_ground_mesh *mesh = CW_TAKE(m->arena, cw_ground_mesh, 1);
    *mesh = (cw_ground_mesh){m->points.items, m->points.count, (const int(*)[CORNERS])list.faces,
                             kept};
    return mesh;
}

/* ---- the whole ---- */

static bool too_few(const mesher *m)
{
    const int places = m->points.count - m->merged_count;
    if (places >= CORNERS)
        return false;
    const cw_survey_point *first = &m->points.items[0];
    cw_diag_add(m->diags, m->at, CW_E_MISSING,
                "the survey has %d place%s, the first at N %.2f, E %.2f (line %d), and 3 make a "
                "surface; measure more points",
                places, places == 1 ? "" : "s", first->northing_ft, first->easting_ft, first->line);
    return true;
}

const cw_ground_mesh *cw_triangulate(cw_survey_points points, const char *code, cw_pos at,
                                     cw_arena *arena, cw_diags *diags)
{
    mesher m = {.points = points, .at = at, .arena = arena, .diags = diags};
    m.merged = CW_TAKE(arena, int, points.count);
    for (int i = 0; i < points.count; i++)
        m.merged[i] = i;
    const face_list list = triangulate_all(&m);
    const cw_ground_mesh *mesh = NULL;
    if (m.faults == 0 && m.merged_count > 0)
        tell_merged(&m);
    if (m.faults == 0 && !too_few(&m)) {
        bool sound = true;
        if (code && code[0]) {
            cw_breaklines lines = {.points = points,
                                   .merged = m.merged,
                                   .faces = list.faces,
                                   .face_count = list.count,
                                   .at = at,
                                   .arena = arena,
                                   .diags = diags};
            memcpy(lines.outer, m.outer, sizeof m.outer);
            sound = cw_breaklines_join(&lines, code);
        }
        mesh = sound ? harvest(&m, list) : NULL;
    }
    return mesh;
}
