/* Breaklines by turning edges (S. W. Sloan, "A fast algorithm for generating constrained Delaunay
 * triangulations", Computers & Structures 47, 1993) on a lattice, where the
 * turn of three points is exact. */
#include "breaklines.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { CORNERS = 3, NONE = -1, FAULTS_MAX = 20, MERGES_MAX = 8 };

/* Edge k of a triangle runs from corner k to the next. */
typedef struct triangle {
    int corner[CORNERS], beside[CORNERS];
    bool fixed[CORNERS];
} triangle;

typedef struct edge {
    int from, to;
} edge;

typedef struct edge_list {
    edge *items;
    int count, room;
} edge_list;

typedef struct joiner {
    const cw_breaklines *lines;
    triangle *triangles;
    int count;
    int far;     /**< stands for a point beyond the outline in every direction, after the others */
    int *around; /**< by point: one triangle that has it */
    edge_list crossing, fresh;
    int faults;
} joiner;

/* ---- predicates ---- */

/* Positive when c lies to the left of the way from a to b. */
static long long turn(const joiner *j, int a, int b, int c)
{
    const cw_lattice_place *p = j->lines->places;
    return cw_lattice_turn(p[a], p[b], p[c]);
}

/* Places on one circle, as on a grid, must not turn to and fro for rounding: 2^-40 of what is added up
 * is more than rounding leaves. */
static bool in_circle(const joiner *j, const triangle *t, int v)
{
    static const double slack = 0x1p-40;
    const cw_lattice_place *p = j->lines->places, o = p[v];
    double sum = 0.0, most = 0.0;
    for (int k = 0; k < CORNERS; k++) {
        const cw_lattice_place a = p[t->corner[k]], b = p[t->corner[(k + 1) % CORNERS]],
                               c = p[t->corner[(k + 2) % CORNERS]];
        const double x = c.x - o.x, y = c.y - o.y, lift = x * x + y * y;
        sum += lift * (double)cw_lattice_turn(o, a, b);
        most += lift * fabs((double)cw_lattice_turn(o, a, b));
    }
    return sum > slack * most;
}

static bool is_ahead(const joiner *j, int a, int b, int v)
{
    const cw_lattice_place *p = j->lines->places;
    return (long long)(p[v].x - p[a].x) * (p[b].x - p[a].x) + (long long)(p[v].y - p[a].y) * (p[b].y - p[a].y) > 0;
}

/* ---- triangles that know their neighbours ---- */

/* Sides are numbered by triangle; those that leave a point hang on one string. */
static void link_sides(joiner *j)
{
    int *first = CW_TAKE(j->lines->arena, int, j->far);
    int *next = CW_TAKE(j->lines->arena, int, CORNERS * j->count);
    for (int v = 0; v < j->far; v++)
        first[v] = NONE;
    for (int s = 0; s < CORNERS * j->count; s++) {
        const int from = j->triangles[s / CORNERS].corner[s % CORNERS];
        next[s] = first[from];
        first[from] = s;
    }
    for (int s = 0; s < CORNERS * j->count; s++) {
        triangle *t = &j->triangles[s / CORNERS];
        const int from = t->corner[s % CORNERS], to = t->corner[(s + 1) % CORNERS];
        int back = first[to];
        while (back != NONE && j->triangles[back / CORNERS].corner[(back + 1) % CORNERS] != from)
            back = next[back];
        t->beside[s % CORNERS] = back == NONE ? NONE : back / CORNERS;
    }
}

/* A triangle between each side of the outline and the far point, so that going round any point comes
 * back to where it began. */
static void close_outline(joiner *j)
{
    int *ending = CW_TAKE(j->lines->arena, int, j->far); // by point: the one whose side ends there
    const int inside = j->count;
    for (int s = 0; s < CORNERS * inside; s++) {
        triangle *t = &j->triangles[s / CORNERS];
        if (t->beside[s % CORNERS] != NONE)
            continue;
        const int from = t->corner[s % CORNERS], to = t->corner[(s + 1) % CORNERS];
        t->beside[s % CORNERS] = j->count;
        ending[to] = j->count;
        j->triangles[j->count++] = (triangle){{to, from, j->far}, {s / CORNERS, NONE, NONE}, {false}};
    }
    for (int t = inside; t < j->count; t++) {
        const int before = ending[j->triangles[t].corner[1]];
        j->triangles[t].beside[1] = before;
        j->triangles[before].beside[2] = t;
    }
}

static joiner prepare(const cw_breaklines *lines)
{
    // With h points on the outline, n points have 2 n - 2 - h triangles and h beyond it (Euler).
    joiner j = {.lines = lines,
                .triangles = CW_TAKE(lines->arena, triangle, 2 * lines->points.count),
                .count = lines->face_count,
                .far = lines->points.count,
                .around = CW_TAKE(lines->arena, int, lines->points.count)};
    for (int t = 0; t < j.count; t++)
        for (int k = 0; k < CORNERS; k++) {
            j.triangles[t].corner[k] = lines->faces[t][k];
            j.around[lines->faces[t][k]] = t;
        }
    link_sides(&j);
    close_outline(&j);
    return j;
}

static int corner_of(const triangle *t, int v)
{
    for (int k = 0; k < CORNERS; k++)
        if (t->corner[k] == v)
            return k;
    return NONE;
}

static int side_towards(const triangle *t, int neighbour)
{
    for (int k = 0; k < CORNERS; k++)
        if (t->beside[k] == neighbour)
            return k;
    return NONE;
}

/* The triangle left of the edge and its side, or NONE when the two points are not joined. */
static int find_edge(const joiner *j, int from, int to, int *side)
{
    int t = j->around[from];
    for (int i = 0; i < j->count; i++) {
        const triangle *here = &j->triangles[t];
        const int k = corner_of(here, from);
        if (here->corner[(k + 1) % CORNERS] == to) {
            *side = k;
            return t;
        }
        t = here->beside[(k + 2) % CORNERS];
        if (t == j->around[from])
            break;
    }
    return NONE;
}

static void relink(joiner *j, int t, int from, int to)
{
    j->triangles[t].beside[side_towards(&j->triangles[t], from)] = to;
}

/* The edge k of t becomes the other diagonal of the two triangles; t and its neighbour stay in
 * place.  The edge c-d runs from the far corner of the neighbour to that of t. */
static edge turn_edge(joiner *j, int t, int k)
{
    const triangle a = j->triangles[t];
    const int n = a.beside[k];
    const triangle b = j->triangles[n];
    const int m = side_towards(&b, t), u = a.corner[k], w = a.corner[(k + 1) % CORNERS];
    const int c = a.corner[(k + 2) % CORNERS], d = b.corner[(m + 2) % CORNERS];
    const int wc = (k + 1) % CORNERS, cu = (k + 2) % CORNERS;
    const int ud = (m + 1) % CORNERS, dw = (m + 2) % CORNERS;
    j->triangles[t] = (triangle){{c, d, w},
                                 {n, b.beside[dw], a.beside[wc]},
                                 {false, b.fixed[dw], a.fixed[wc]}};
    j->triangles[n] = (triangle){{d, c, u},
                                 {t, a.beside[cu], b.beside[ud]},
                                 {false, a.fixed[cu], b.fixed[ud]}};
    relink(j, b.beside[dw], n, t);
    relink(j, a.beside[cu], t, n);
    j->around[c] = j->around[d] = j->around[w] = t;
    j->around[u] = n;
    return (edge){c, d};
}

/* ---- one stretch of a breakline ---- */

static void add(joiner *j, edge_list *list, edge item)
{
    enum { FIRST_ROOM = 64 };
    if (list->count == list->room) {
        list->room = list->room > 0 ? 2 * list->room : FIRST_ROOM;
        list->items = cw_arena_grow(j->lines->arena, list->items, (size_t)list->count,
                                    (size_t)list->room, sizeof *list->items);
    }
    list->items[list->count++] = item;
}

static void fix(joiner *j, int a, int b)
{
    const int ends[2][2] = {{a, b}, {b, a}};
    for (int i = 0; i < 2; i++) {
        int k = 0;
        const int t = find_edge(j, ends[i][0], ends[i][1], &k);
        assert(t != NONE);
        j->triangles[t].fixed[k] = true;
    }
}

static void tell_crossing(joiner *j, int a, int b, edge other)
{
    const cw_breaklines *lines = j->lines;
    const cw_survey_point *p = lines->points.items;
    const double ab_n = p[b].northing_ft - p[a].northing_ft, ab_e = p[b].easting_ft - p[a].easting_ft;
    const double cd_n = p[other.to].northing_ft - p[other.from].northing_ft;
    const double cd_e = p[other.to].easting_ft - p[other.from].easting_ft;
    const double ac_n = p[other.from].northing_ft - p[a].northing_ft;
    const double ac_e = p[other.from].easting_ft - p[a].easting_ft;
    const double share = (ac_e * cd_n - ac_n * cd_e) / (ab_e * cd_n - ab_n * cd_e);
    const int one = other.from < other.to ? other.from : other.to;
    const int two = other.from < other.to ? other.to : other.from;
    if (j->faults++ >= FAULTS_MAX)
        return;
    cw_diag_add(lines->diags, (cw_pos){lines->at.file, lines->at.path, p[b].line, 1}, CW_E_GEOMETRY,
                "the breakline from '%s' (line %d) to '%s' (line %d) crosses that between '%s' (line "
                "%d) and '%s' (line %d) at N %.2f, E %.2f; give both a point there, or other numbers",
                p[a].name, p[a].line, p[b].name, p[b].line, p[one].name, p[one].line, p[two].name,
                p[two].line, p[a].northing_ft + share * ab_n, p[a].easting_ft + share * ab_e);
}

/* Looks round a for the way to b: the point that it meets first, or NONE and the triangle that it
 * leaves through the side across from a. */
static int set_out(const joiner *j, int a, int b, int *leaves)
{
    int t = j->around[a];
    for (int i = 0; i < j->count; i++) {
        const triangle *here = &j->triangles[t];
        const int k = corner_of(here, a);
        const int p = here->corner[(k + 1) % CORNERS], q = here->corner[(k + 2) % CORNERS];
        if (p == b)
            return b;
        const long long turn_p = p == j->far ? 0 : turn(j, a, b, p);
        if (p != j->far && turn_p == 0 && is_ahead(j, a, b, p))
            return p;
        if (q != j->far && turn_p < 0 && turn(j, a, b, q) > 0) {
            *leaves = t;
            return NONE;
        }
        t = here->beside[(k + 2) % CORNERS];
    }
    assert(false && "a way between two points leaves through a triangle at the first");
    return b;
}

/* Collects the edges between a and the first point on the way to b, which is returned; NONE when a
 * breakline stands in the way. */
static int cross(joiner *j, int a, int b)
{
    int t = NONE;
    const int met = set_out(j, a, b, &t);
    j->crossing.count = 0;
    if (met != NONE)
        return met;
    int k = (corner_of(&j->triangles[t], a) + 1) % CORNERS;
    for (int i = 0; i < j->count; i++) {
        const triangle *here = &j->triangles[t];
        const edge out = {here->corner[k], here->corner[(k + 1) % CORNERS]};
        if (here->fixed[k]) {
            tell_crossing(j, a, b, out);
            return NONE;
        }
        add(j, &j->crossing, out);
        const int next = here->beside[k];
        const triangle *there = &j->triangles[next];
        const int m = side_towards(there, t), tip = there->corner[(m + 2) % CORNERS];
        const long long side = turn(j, a, b, tip);
        if (tip == b || side == 0)
            return tip;
        // The entered side runs from left to right here; a tip on the left leaves through the side
        // between the right end and the tip.
        k = side > 0 ? (m + 1) % CORNERS : (m + 2) % CORNERS;
        t = next;
    }
    assert(false && "the way ends at a point");
    return NONE;
}

static bool is_convex(const joiner *j, const triangle *a, int k)
{
    const triangle *b = &j->triangles[a->beside[k]];
    const int m = side_towards(b, (int)(a - j->triangles));
    const int u = a->corner[k], w = a->corner[(k + 1) % CORNERS];
    const int c = a->corner[(k + 2) % CORNERS], d = b->corner[(m + 2) % CORNERS];
    return turn(j, d, w, c) > 0 && turn(j, c, u, d) > 0;
}

static bool crosses(const joiner *j, edge e, int a, int b)
{
    if (e.from == a || e.from == b || e.to == a || e.to == b)
        return false;
    const long long from = turn(j, a, b, e.from), to = turn(j, a, b, e.to);
    return (from > 0 && to < 0) || (from < 0 && to > 0);
}

/* Turns the edges that cross until none does.  Each pass over the list turns at least one, and none
 * comes back (Sloan), so there are no more turns than pairs of edges. */
static void clear_way(joiner *j, int a, int b)
{
    j->fresh.count = 0;
    const long most = (long)(j->crossing.count + 1) * (j->crossing.count + 1);
    for (long pass = 0; pass < most && j->crossing.count > 0; pass++) {
        const int count = j->crossing.count;
        int left = 0;
        for (int i = 0; i < count; i++) {
            edge e = j->crossing.items[i];
            int k = 0;
            const int t = find_edge(j, e.from, e.to, &k);
            assert(t != NONE);
            if (is_convex(j, &j->triangles[t], k)) {
                e = turn_edge(j, t, k);
                if (!crosses(j, e, a, b)) {
                    add(j, &j->fresh, e);
                    continue;
                }
            }
            j->crossing.items[left++] = e;
        }
        j->crossing.count = left;
    }
    assert(j->crossing.count == 0);
}

/* The new edges become Delaunay again where no breakline forbids it. */
static void restore(joiner *j)
{
    bool turned = true;
    for (int pass = 0; pass <= j->fresh.count && turned; pass++) {
        turned = false;
        for (int i = 0; i < j->fresh.count; i++) {
            const edge e = j->fresh.items[i];
            int k = 0;
            const int t = find_edge(j, e.from, e.to, &k);
            if (t == NONE || j->triangles[t].fixed[k])
                continue;
            const triangle *far = &j->triangles[j->triangles[t].beside[k]];
            const int tip = far->corner[(side_towards(far, t) + 2) % CORNERS];
            if (!in_circle(j, &j->triangles[t], tip) || !is_convex(j, &j->triangles[t], k))
                continue;
            j->fresh.items[i] = turn_edge(j, t, k);
            turned = true;
        }
    }
}

static void join(joiner *j, int a, int b)
{
    for (int i = 0; i <= j->lines->points.count && a != b; i++) {
        const int stop = cross(j, a, b);
        if (stop == NONE)
            return;
        clear_way(j, a, stop);
        fix(j, a, stop);
        restore(j);
        a = stop;
    }
}

/* ---- which points ---- */

/* Number after the code, -1 when there is none; false when the description is about something else,
 * as BLDG is when the code is BL. */
static bool breakline_number(const char *note, const char *code, int *number)
{
    enum { DIGITS_MAX = 8 };
    const size_t length = strlen(code);
    if (strncmp(note, code, length) != 0)
        return false;
    const char *digits = note + length;
    const size_t count = strspn(digits, "0123456789");
    if (count > DIGITS_MAX || (digits[count] != '\0' && !strchr(" \t,", digits[count])))
        return false;
    *number = count > 0 ? atoi(digits) : -1;
    return true;
}

typedef struct break_row {
    int number, index;
} break_row;

static int by_number(const void *left, const void *right)
{
    const break_row *a = left, *b = right;
    if (a->number != b->number)
        return a->number < b->number ? -1 : 1;
    return (a->index > b->index) - (a->index < b->index);
}

static int kept_point(const cw_breaklines *lines, int index)
{
    for (int i = 0; i < MERGES_MAX && lines->merged[index] != index; i++)
        index = lines->merged[index];
    return index;
}

static void tell_none(const cw_breaklines *lines, const char *code)
{
    cw_diag_add(lines->diags, lines->at, CW_W_ASSUMED,
                "no two points carry the breakline code '%s' with one number: the surface has no "
                "breaklines",
                code);
}

bool cw_breaklines_join(cw_breaklines *lines, const char *code)
{
    break_row *rows = CW_TAKE(lines->arena, break_row, lines->points.count);
    int count = 0;
    bool any = false;
    for (int i = 0; i < lines->points.count; i++)
        if (breakline_number(lines->points.items[i].note, code, &rows[count].number))
            rows[count++].index = i;
    qsort(rows, (size_t)count, sizeof *rows, by_number);
    for (int i = 1; i < count && !any; i++)
        any = rows[i].number == rows[i - 1].number;
    if (!any) {
        tell_none(lines, code);
        return true;
    }
    joiner j = prepare(lines);
    for (int i = 1; i < count; i++)
        if (rows[i].number == rows[i - 1].number)
            join(&j, kept_point(lines, rows[i - 1].index), kept_point(lines, rows[i].index));
    for (int t = 0; t < lines->face_count; t++)
        memcpy(lines->faces[t], j.triangles[t].corner, sizeof lines->faces[t]);
    return j.faults == 0;
}
