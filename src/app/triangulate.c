#include "triangulate.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "breaklines.h"
#include "cw/tolerance.h"
#include "delaunay.h"

enum { FAULTS_MAX = 20, ROUNDS_MAX = 8, CORNERS = 3 };

/* Steps of the lattice across the survey: its middle is zero. */
enum { LATTICE_STEPS = 2 * (CW_LATTICE_MOST - 1) };

/* So wide a survey still has steps of two thousandths of a foot. */
#define SURVEY_WIDE_FT 1048576.0

/* Two points within CW_SAME_PLACE_FT, by their places in the file. */
typedef struct pair {
    int first, second;
} pair;

typedef struct face_list {
    int (*faces)[CORNERS];
    int count;
} face_list;

typedef struct mesher {
    cw_survey_points points; /**< on the lattice */
    const cw_lattice_place *places; /**< by point */
    cw_pos at;
    cw_arena *arena;
    cw_diags *diags;
    int *merged; /**< by point: the point it repeats, or itself */
    int merged_count, faults;
    pair *pairs;
    int pair_count, pair_room;
} mesher;

static cw_pos line_of(const mesher *m, int index)
{
    return (cw_pos){m->at.file, m->at.path, m->points.items[index].line, 1};
}

/* ---- onto the lattice ---- */

typedef struct extent {
    int south, north, west, east; /* points */
} extent;

static extent extent_of(cw_survey_points points)
{
    const cw_survey_point *p = points.items;
    extent e = {0};
    for (int i = 1; i < points.count; i++) {
        e.south = p[i].northing_ft < p[e.south].northing_ft ? i : e.south;
        e.north = p[i].northing_ft > p[e.north].northing_ft ? i : e.north;
        e.west = p[i].easting_ft < p[e.west].easting_ft ? i : e.west;
        e.east = p[i].easting_ft > p[e.east].easting_ft ? i : e.east;
    }
    return e;
}

static bool too_wide(mesher *m, int from, int to, double wide_ft)
{
    if (wide_ft <= SURVEY_WIDE_FT)
        return false;
    const cw_survey_point *a = &m->points.items[from], *b = &m->points.items[to];
    cw_diag_add(m->diags, line_of(m, a->line > b->line ? from : to), CW_E_RANGE,
                "point '%s' (line %d), N %.2f, E %.2f, and point '%s' (line %d), N %.2f, E %.2f, stand "
                "%.0f ft apart, the limit is %.0f ft; delete the one that is not of this survey",
                a->name, a->line, a->northing_ft, a->easting_ft, b->name, b->line, b->northing_ft,
                b->easting_ft, wide_ft, SURVEY_WIDE_FT);
    return true;
}

/* Puts every point on the nearest node of a lattice, so that the library's whole numbers and the mesh
 * say the same.  The step is a power of two, so nodes are exact in feet; it is at most a
 * 2^29th of the width of the survey, 8 millionths of a foot in one of 4,000 ft. */
static bool put_on_lattice(mesher *m)
{
    const cw_survey_point *p = m->points.items;
    const extent e = extent_of(m->points);
    const double high_ft = p[e.north].northing_ft - p[e.south].northing_ft;
    const double wide_ft = p[e.east].easting_ft - p[e.west].easting_ft;
    if (too_wide(m, e.south, e.north, high_ft) || too_wide(m, e.west, e.east, wide_ft))
        return false;
    int power = 0;
    frexp(fmax(fmax(high_ft, wide_ft), CW_SAME_PLACE_FT) / LATTICE_STEPS, &power);
    const double step_ft = ldexp(1.0, power);
    const double middle_x = rint((p[e.west].easting_ft + p[e.east].easting_ft) / 2.0 / step_ft);
    const double middle_y = rint((p[e.south].northing_ft + p[e.north].northing_ft) / 2.0 / step_ft);
    cw_survey_point *moved = CW_TAKE(m->arena, cw_survey_point, m->points.count);
    cw_lattice_place *places = CW_TAKE(m->arena, cw_lattice_place, m->points.count);
    for (int i = 0; i < m->points.count; i++) {
        const double x = rint(p[i].easting_ft / step_ft), y = rint(p[i].northing_ft / step_ft);
        places[i] = (cw_lattice_place){(int)(x - middle_x), (int)(y - middle_y)};
        moved[i] = p[i];
        moved[i].easting_ft = x * step_ft;
        moved[i].northing_ft = y * step_ft;
    }
    m->points.items = moved;
    m->places = places;
    return true;
}

/* ---- repeats ---- */

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

/* A place that is triangulated. */
typedef struct site {
    cw_lattice_place place;
    int index;
} site;

static int by_place(const void *left, const void *right)
{
    const site *a = left, *b = right;
    if (a->place.x != b->place.x)
        return a->place.x < b->place.x ? -1 : 1;
    if (a->place.y != b->place.y)
        return a->place.y < b->place.y ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

/* Points that are not merged yet, each node once; the first in the file stands for the others. */
static int take_sites(mesher *m, site *sites)
{
    int count = 0, kept = 0;
    for (int i = 0; i < m->points.count; i++)
        if (m->merged[i] == i)
            sites[count++] = (site){m->places[i], i};
    qsort(sites, (size_t)count, sizeof *sites, by_place);
    for (int i = 0; i < count; i++) {
        const site *last = kept > 0 ? &sites[kept - 1] : NULL;
        if (last && last->place.x == sites[i].place.x && last->place.y == sites[i].place.y)
            merge(m, last->index, sites[i].index);
        else
            sites[kept++] = sites[i];
    }
    return kept;
}

/* False after a fault of the library, which is told. */
static bool triangulate_sites(mesher *m, face_list *list)
{
    site *sites = CW_TAKE(m->arena, site, m->points.count);
    const int count = take_sites(m, sites);
    cw_lattice_place *places = CW_TAKE(m->arena, cw_lattice_place, count);
    for (int i = 0; i < count; i++)
        places[i] = sites[i].place;
    list->faces = cw_arena_take(m->arena, 2 * (size_t)count, sizeof *list->faces);
    list->count = cw_delaunay(places, count, list->faces);
    for (int f = 0; f < list->count; f++)
        for (int k = 0; k < CORNERS; k++)
            list->faces[f][k] = sites[list->faces[f][k]].index;
    if (list->count >= 0)
        return true;
    cw_diag_add(m->diags, m->at, list->count == CW_DELAUNAY_NO_MEMORY ? CW_E_FILE : CW_E_GEOMETRY,
                list->count == CW_DELAUNAY_NO_MEMORY
                    ? "no memory left to triangulate %d points; cut the file down to the crossing"
                    : "the %d survey points were not triangulated; cut the file down to the crossing, "
                      "or export a LandXML surface instead",
                count);
    return false;
}

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
    const double east_ft = p->easting_ft - q->easting_ft, north_ft = p->northing_ft - q->northing_ft;
    if (east_ft * east_ft + north_ft * north_ft > CW_SAME_PLACE_FT * CW_SAME_PLACE_FT)
        return;
    if (m->pair_count == m->pair_room) {
        m->pair_room = m->pair_room > 0 ? 2 * m->pair_room : FIRST_ROOM;
        m->pairs = cw_arena_grow(m->arena, m->pairs, (size_t)m->pair_count, (size_t)m->pair_room,
                                 sizeof *m->pairs);
    }
    m->pairs[m->pair_count++] = (pair){a, b};
}

/* A point and its nearest neighbour share an edge of a Delaunay triangulation, so points that nearly
 * repeat another are found among short edges.  True when one was merged. */
static bool merge_near(mesher *m, const face_list *list)
{
    m->pair_count = 0;
    for (int f = 0; f < list->count; f++)
        for (int k = 0; k < CORNERS; k++) {
            const int a = list->faces[f][k], b = list->faces[f][(k + 1) % CORNERS];
            note_pair(m, a < b ? a : b, a < b ? b : a);
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
    face_list list = {0};
    bool again = true;
    for (int i = 0; i < ROUNDS_MAX && again; i++) {
        if (!triangulate_sites(m, &list)) {
            m->faults++;
            return (face_list){0};
        }
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

static bool in_one_row(const mesher *m, const face_list *list)
{
    if (list->count > 0)
        return false;
    const cw_survey_point *first = &m->points.items[0], *last = &m->points.items[m->points.count - 1];
    cw_diag_add(m->diags, m->at, CW_E_GEOMETRY,
                "the %d survey points, from N %.2f, E %.2f (line %d) to N %.2f, E %.2f (line "
                "%d), stand in one straight row and make no surface; add points beside it, or "
                "write ground.profile instead",
                m->points.count - m->merged_count, first->northing_ft, first->easting_ft, first->line,
                last->northing_ft, last->easting_ft, last->line);
    return true;
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
    if (!put_on_lattice(&m))
        return NULL;
    const face_list list = triangulate_all(&m);
    if (m.faults == 0 && m.merged_count > 0)
        tell_merged(&m);
    if (m.faults > 0 || too_few(&m) || in_one_row(&m, &list))
        return NULL;
    if (code && code[0]) {
        cw_breaklines lines = {m.points, m.places, m.merged, list.faces, list.count, at, arena, diags};
        if (!cw_breaklines_join(&lines, code))
            return NULL;
    }
    cw_ground_mesh *mesh = CW_TAKE(arena, cw_ground_mesh, 1);
    *mesh = (cw_ground_mesh){m.points.items, m.points.count, (const int(*)[CORNERS])list.faces, list.count};
    return mesh;
}
