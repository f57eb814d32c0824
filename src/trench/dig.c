/* What a cut takes out of the ground: pieces of triangles over the planes of the cut, joined over
 * their sides to the ones that hang together with the bottom. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "clip.h"
#include "cw/tolerance.h"

enum { NONE = -1 };

/* Sides shorter than this join nothing and bound nothing, ft; pieces smaller than this hold nothing,
 * ft2: far under what survey can say, far over what rounding leaves. */
#define SHORT_FT 1e-7
#define SMALL_SQFT 1e-10

/* Places this near a line are on it, ft. */
#define ON_LINE_FT 1e-6

/* Share of the bottom that rounding may miss or count twice. */
#define COVER_SLACK 1e-7

/* A side of a triangle; where two triangles meet there are two. */
typedef struct face_side {
    int low, high; /* its points */
    int face, side;
} face_side;

/* A stretch of the edge of the cut, the cut on its left. */
typedef struct stretch {
    clip_corner from, to;
} stretch;

typedef struct digger {
    const cw_earthwork_ground *ground;
    const cw_earthwork_cut *cut;
    cw_arena *arena;
    cut_cells cells;
    int (*faces)[3]; /* near the cut, counter-clockwise */
    int face_count;
    int (*beside)[3]; /* across side k, from corner k to the next; NONE at the edge of the surface */
    bool *folded;     /* by face */
    dug_piece *pieces; /* by face, then by cell */
    int piece_count, piece_room;
    int *first; /* by face: its first piece; one more at the end */
    stretch *edge;
    int edge_count, edge_room;
    double floor_sqft;
    cw_earthwork_dug out;
} digger;

static const double *point(const digger *d, int index)
{
    return d->ground->points_ft[index];
}

/* ---- triangles near the cut ---- */

typedef struct box {
    double west, east, south, north;
} box;

static void widen(box *b, double e, double n)
{
    b->west = fmin(b->west, e);
    b->east = fmax(b->east, e);
    b->south = fmin(b->south, n);
    b->north = fmax(b->north, n);
}

static box box_of_run(const cw_earthwork_cut *cut, double reach_ft)
{
    box b = {HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
    for (int i = 0; i < cut->leg_count; i++) {
        const cw_earthwork_leg *leg = &cut->legs[i];
        // The far end by the leg's own direction: bounds along and across are straight lines.
        double north_along = 0.0, north_right = 0.0, east_along = 0.0, east_right = 0.0;
        leg_place(leg, leg->east_ft, leg->north_ft + 1.0, &north_along, &north_right);
        leg_place(leg, leg->east_ft + 1.0, leg->north_ft, &east_along, &east_right);
        const double length = leg->to_ft - leg->from_ft;
        widen(&b, leg->east_ft, leg->north_ft);
        widen(&b, leg->east_ft + length * (east_along - leg->from_ft),
              leg->north_ft + length * (north_along - leg->from_ft));
    }
    return (box){b.west - reach_ft, b.east + reach_ft, b.south - reach_ft, b.north + reach_ft};
}

static double twice_area(const digger *d, const int *face)
{
    const double *a = point(d, face[0]), *b = point(d, face[1]), *c = point(d, face[2]);
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

static void choose_faces(digger *d, double reach_ft)
{
    const box near = box_of_run(d->cut, reach_ft);
    d->faces = cw_arena_take(d->arena, (size_t)d->ground->face_count, sizeof *d->faces);
    for (int f = 0; f < d->ground->face_count; f++) {
        const int *face = d->ground->faces[f];
        box b = {HUGE_VAL, -HUGE_VAL, HUGE_VAL, -HUGE_VAL};
        for (int k = 0; k < 3; k++)
            widen(&b, point(d, face[k])[0], point(d, face[k])[1]);
        if (b.west > near.east || b.east < near.west || b.south > near.north || b.north < near.south)
            continue;
        const double area = twice_area(d, face);
        if (fabs(area) < SMALL_SQFT)
            continue; // A line in plan, which holds no volume.
        int *own = d->faces[d->face_count++];
        own[0] = face[0];
        own[1] = area > 0.0 ? face[1] : face[2];
        own[2] = area > 0.0 ? face[2] : face[1];
    }
}

static int by_points(const void *left, const void *right)
{
    const face_side *a = left, *b = right;
    const int keys[][2] = {{a->low, b->low}, {a->high, b->high}, {a->face, b->face}, {a->side, b->side}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (keys[i][0] != keys[i][1])
            return keys[i][0] < keys[i][1] ? -1 : 1;
    return 0;
}

/* Triangles that turn the same way pass a common side in opposite directions; two that pass it in one
 * direction, or three at one side, lie over each other. */
static void join_faces(digger *d)
{
    const int count = 3 * d->face_count;
    face_side *sides = CW_TAKE(d->arena, face_side, count);
    d->beside = cw_arena_take(d->arena, (size_t)d->face_count, sizeof *d->beside);
    d->folded = CW_TAKE(d->arena, bool, d->face_count);
    for (int f = 0; f < d->face_count; f++)
        for (int k = 0; k < 3; k++) {
            const int a = d->faces[f][k], b = d->faces[f][(k + 1) % 3];
            sides[3 * f + k] = (face_side){a < b ? a : b, a < b ? b : a, f, k};
            d->beside[f][k] = NONE;
        }
    if (count > 0)
        qsort(sides, (size_t)count, sizeof *sides, by_points);
    for (int i = 0; i + 1 < count; i++) {
        const face_side *a = &sides[i], *b = &sides[i + 1];
        if (a->low != b->low || a->high != b->high)
            continue;
        const bool third = d->beside[a->face][a->side] != NONE;
        const bool same_way = d->faces[a->face][a->side] == d->faces[b->face][b->side];
        if (third || same_way)
            d->folded[a->face] = d->folded[b->face] = true;
        d->beside[a->face][a->side] = b->face;
        d->beside[b->face][b->side] = a->face;
    }
}

/* ---- pieces ---- */

static clip_piece face_piece(const digger *d, int face, const cut_plane *cut)
{
    clip_piece piece = {.count = 3};
    for (int k = 0; k < 3; k++) {
        const double *p = point(d, d->faces[face][k]);
        piece.corners[k] =
            (clip_corner){p[0], p[1], p[2], p[2] - plane_at(cut, p[0], p[1]), SIDE_FACE_0 - k};
    }
    return piece;
}

/* The triangle within the cell; count 0 when it is nowhere in it. */
static clip_piece within_cell(const clip_piece *whole, const cut_cell *cell)
{
    clip_piece piece = *whole;
    for (int i = 0; i < cell->bound_count && piece.count > 0; i++) {
        const half_plane *by = &cell->bounds[i];
        bool outside = true;
        for (int k = 0; k < piece.count; k++)
            outside = outside && by->a * piece.corners[k].e + by->b * piece.corners[k].n > by->c;
        if (outside)
            piece.count = 0;
        else
            piece = clip_by(&piece, by);
    }
    return piece;
}

static void depths_of(const clip_piece *piece, double sign, double *depths)
{
    for (int i = 0; i < piece->count; i++)
        depths[i] = sign * piece->corners[i].d;
}

/* Ground below the bottom is to be filled. */
static void take_low(digger *d, const clip_piece *piece)
{
    double depths[PIECE_CORNERS_MAX];
    depths_of(piece, -1.0, depths);
    double deepest = 0.0;
    for (int i = 0; i < piece->count; i++)
        deepest = fmax(deepest, depths[i]);
    if (deepest <= 0.0)
        return;
    const clip_piece low = clip_positive(piece, depths, SIDE_DAYLIGHT);
    if (low.count == 0)
        return;
    depths_of(&low, -1.0, depths);
    d->out.low_sqft += piece_sqft(&low);
    d->out.low_cuft += piece_cuft(&low, depths);
}

static void add_piece(digger *d, const clip_piece *piece, int face, int cell)
{
    enum { FIRST_ROOM = 256 };
    if (d->piece_count == d->piece_room) {
        d->piece_room = d->piece_room > 0 ? 2 * d->piece_room : FIRST_ROOM;
        d->pieces = cw_arena_grow(d->arena, d->pieces, (size_t)d->piece_count, (size_t)d->piece_room,
                                  sizeof *d->pieces);
    }
    d->pieces[d->piece_count] = (dug_piece){*piece, cell, face, d->piece_count};
    d->piece_count++;
}

static void cut_face(digger *d, int face, int number)
{
    const cut_cell *cell = &d->cells.items[number];
    const clip_piece whole = face_piece(d, face, &cell->cut);
    const double highest = fmax(whole.corners[0].d, fmax(whole.corners[1].d, whole.corners[2].d));
    if (!cell->is_floor && highest <= 0.0)
        return;
    const clip_piece piece = within_cell(&whole, cell);
    if (piece.count == 0)
        return;
    if (cell->is_floor) {
        d->floor_sqft += piece_sqft(&piece);
        take_low(d, &piece);
    }
    double depths[PIECE_CORNERS_MAX];
    depths_of(&piece, 1.0, depths);
    const clip_piece dug = clip_positive(&piece, depths, SIDE_DAYLIGHT);
    if (dug.count > 0 && piece_sqft(&dug) > SMALL_SQFT)
        add_piece(d, &dug, face, number);
}

static void cut_all(digger *d)
{
    d->first = CW_TAKE(d->arena, int, d->face_count + 1);
    for (int f = 0; f < d->face_count; f++) {
        d->first[f] = d->piece_count;
        for (int c = 0; c < d->cells.count; c++)
            cut_face(d, f, c);
    }
    d->first[d->face_count] = d->piece_count;
}

/* ---- which pieces hang together ---- */

static int group_of(digger *d, int piece)
{
    while (d->pieces[piece].group != piece) {
        d->pieces[piece].group = d->pieces[d->pieces[piece].group].group;
        piece = d->pieces[piece].group;
    }
    return piece;
}

static void join(digger *d, int a, int b)
{
    a = group_of(d, a);
    b = group_of(d, b);
    d->pieces[a > b ? a : b].group = a > b ? b : a;
}

static const clip_corner *side_end(const clip_piece *p, int i)
{
    return &p->corners[(i + 1) % p->count];
}

static double length_of(const clip_corner *a, const clip_corner *b)
{
    return hypot(b->e - a->e, b->n - a->n);
}

/* The part of side i of @p p that side k of @p q lies along from the other side, as distances from
 * the side's start. */
static bool common(const clip_piece *p, int i, const clip_piece *q, int k, double *from, double *to)
{
    const clip_corner *a = &p->corners[i], *b = side_end(p, i);
    const clip_corner *c = &q->corners[k], *f = side_end(q, k);
    const double length = length_of(a, b);
    const double e = (b->e - a->e) / length, n = (b->n - a->n) / length;
    if (fabs((c->e - a->e) * n - (c->n - a->n) * e) > ON_LINE_FT ||
        fabs((f->e - a->e) * n - (f->n - a->n) * e) > ON_LINE_FT)
        return false;
    const double one = (f->e - a->e) * e + (f->n - a->n) * n;
    const double two = (c->e - a->e) * e + (c->n - a->n) * n;
    *from = fmax(0.0, one);
    *to = fmin(length, two);
    return *to - *from > SHORT_FT;
}

enum { NEIGHBOURS_MAX = 64 };

/* What lies beside one side of a piece. */
typedef struct neighbours {
    struct {
        int piece;
        double from, to;
    } items[NEIGHBOURS_MAX];
    int count;
} neighbours;

static void look_in_face(const digger *d, int number, int side, int face, neighbours *found)
{
    double from = 0.0, to = 0.0;
    for (int i = d->first[face]; i < d->first[face + 1]; i++)
        for (int k = 0; i != number && k < d->pieces[i].shape.count; k++)
            if (d->pieces[i].shape.corners[k].side != SIDE_DAYLIGHT && found->count < NEIGHBOURS_MAX &&
                common(&d->pieces[number].shape, side, &d->pieces[i].shape, k, &from, &to)) {
                found->items[found->count].piece = i;
                found->items[found->count].from = from;
                found->items[found->count++].to = to;
            }
}

/* A line of the cut may run along a side of the triangle, so neighbours are looked for by place, in
 * the triangle itself and in those around it. */
static neighbours beside_side(const digger *d, int number, int side)
{
    const dug_piece *p = &d->pieces[number];
    neighbours found = {.count = 0};
    const clip_corner *a = &p->shape.corners[side];
    if (a->side == SIDE_DAYLIGHT || length_of(a, side_end(&p->shape, side)) < SHORT_FT)
        return found;
    look_in_face(d, number, side, p->face, &found);
    for (int k = 0; k < 3; k++)
        if (d->beside[p->face][k] != NONE)
            look_in_face(d, number, side, d->beside[p->face][k], &found);
    return found;
}

static void join_pieces(digger *d)
{
    for (int i = 0; i < d->piece_count; i++)
        for (int k = 0; k < d->pieces[i].shape.count; k++) {
            const neighbours found = beside_side(d, i, k);
            for (int m = 0; m < found.count; m++)
                join(d, i, found.items[m].piece);
        }
}

/* Only what hangs together with a piece over the bottom stays; faces keep their order. */
static void keep_cut(digger *d)
{
    bool *dug = CW_TAKE(d->arena, bool, d->piece_count);
    for (int i = 0; i < d->piece_count; i++)
        if (d->cells.items[d->pieces[i].cell].is_floor)
            dug[group_of(d, i)] = true;
    bool *keep = CW_TAKE(d->arena, bool, d->piece_count);
    for (int i = 0; i < d->piece_count; i++)
        keep[i] = dug[group_of(d, i)];
    int kept = 0, i = 0;
    for (int f = 0; f < d->face_count; f++) {
        const int end = d->first[f + 1];
        d->first[f] = kept;
        for (; i < end; i++)
            if (keep[i])
                d->pieces[kept++] = d->pieces[i];
    }
    d->first[d->face_count] = d->piece_count = kept;
}

/* ---- faults ---- */

static void fault(digger *d, int status, const clip_corner *a, const clip_corner *b)
{
    if (d->out.status != CW_EARTHWORK_KNOWN)
        return;
    d->out.status = status;
    d->out.where = (cw_earthwork_place){(a->e + b->e) / 2.0, (a->n + b->n) / 2.0, 0.0};
}

/* A side of the surface over the bottom: where the ground is missing. */
static void find_hole(digger *d)
{
    const cw_earthwork_leg *leg = &d->cut->legs[0];
    const clip_corner start = {.e = leg->east_ft, .n = leg->north_ft};
    for (int f = 0; f < d->face_count; f++)
        for (int c = 0; c < d->cells.count; c++) {
            const cut_cell *cell = &d->cells.items[c];
            if (!cell->is_floor)
                continue;
            const clip_piece whole = face_piece(d, f, &cell->cut), piece = within_cell(&whole, cell);
            for (int k = 0; k < piece.count; k++) {
                const int side = piece.corners[k].side;
                if (side < 0 && d->beside[f][SIDE_FACE_0 - side] == NONE &&
                    length_of(&piece.corners[k], side_end(&piece, k)) > SHORT_FT)
                    fault(d, CW_EARTHWORK_NO_GROUND, &piece.corners[k], side_end(&piece, k));
            }
        }
    fault(d, CW_EARTHWORK_NO_GROUND, &start, &start);
}

static void check_bends(digger *d)
{
    static const double sharpest_deg = 89.0, turn_deg = 360.0;
    for (int i = 1; i < d->cut->leg_count; i++) {
        const cw_earthwork_leg *leg = &d->cut->legs[i];
        const double turn = remainder(leg->azimuth_deg - d->cut->legs[i - 1].azimuth_deg, turn_deg);
        const clip_corner here = {.e = leg->east_ft, .n = leg->north_ft};
        if (fabs(turn) > sharpest_deg)
            fault(d, CW_EARTHWORK_SHARP, &here, &here);
    }
}

static void check_cover(digger *d)
{
    double wanted = 0.0;
    for (int i = 0; i < d->cut->leg_count; i++)
        wanted += d->cut->shape.bottom_ft * (d->cut->legs[i].to_ft - d->cut->legs[i].from_ft);
    if (d->floor_sqft < wanted * (1.0 - COVER_SLACK))
        find_hole(d);
    const clip_corner here = {.e = d->cut->legs[0].east_ft, .n = d->cut->legs[0].north_ft};
    if (d->floor_sqft > wanted * (1.0 + COVER_SLACK))
        fault(d, CW_EARTHWORK_FOLDED, &here, &here);
}

/* Do two pieces of one triangle overlap? */
static bool overlap(const clip_piece *p, const clip_piece *q)
{
    clip_piece both = *p;
    for (int k = 0; k < q->count && both.count > 0; k++) {
        const clip_corner *a = &q->corners[k], *b = side_end(q, k);
        const half_plane left = {b->n - a->n, a->e - b->e,
                                 (b->n - a->n) * a->e + (a->e - b->e) * a->n, SIDE_NONE};
        both = clip_by(&both, &left);
    }
    return both.count > 0 && piece_sqft(&both) > SHORT_FT;
}

static int leg_of(const digger *d, const dug_piece *p)
{
    return d->cells.items[p->cell].leg;
}

/* Lines of two bends that meet within the cut would count the ground behind them twice. */
static void check_crowding(digger *d)
{
    for (int f = 0; f < d->face_count && d->cut->leg_count > 2; f++)
        for (int i = d->first[f]; i < d->first[f + 1]; i++)
            for (int k = i + 1; k < d->first[f + 1]; k++)
                if (abs(leg_of(d, &d->pieces[i]) - leg_of(d, &d->pieces[k])) > 1 &&
                    overlap(&d->pieces[i].shape, &d->pieces[k].shape))
                    fault(d, CW_EARTHWORK_CROWDED, &d->pieces[i].shape.corners[0],
                          &d->pieces[k].shape.corners[0]);
}

/* The surface may end exactly where the cut does. */
static bool on_bound(const cut_cell *cell, const clip_corner *a, const clip_corner *b)
{
    for (int i = 0; i < cell->bound_count; i++) {
        const half_plane *h = &cell->bounds[i];
        if (fabs(h->a * a->e + h->b * a->n - h->c) < ON_LINE_FT &&
            fabs(h->a * b->e + h->b * b->n - h->c) < ON_LINE_FT)
            return true;
    }
    return false;
}

static void check_surface(digger *d)
{
    for (int i = 0; i < d->piece_count; i++) {
        const dug_piece *p = &d->pieces[i];
        if (d->folded[p->face])
            fault(d, CW_EARTHWORK_FOLDED, &p->shape.corners[0], &p->shape.corners[0]);
        for (int k = 0; k < p->shape.count; k++) {
            const clip_corner *a = &p->shape.corners[k], *b = side_end(&p->shape, k);
            if (a->side < 0 && a->side >= SIDE_FACE_2 &&
                d->beside[p->face][SIDE_FACE_0 - a->side] == NONE && length_of(a, b) > SHORT_FT &&
                !on_bound(&d->cells.items[p->cell], a, b))
                fault(d, CW_EARTHWORK_OFF_SURFACE, a, b);
        }
    }
}

/* ---- the edge ---- */

static clip_corner along_side(const clip_corner *a, const clip_corner *b, double share)
{
    return (clip_corner){a->e + share * (b->e - a->e), a->n + share * (b->n - a->n),
                         a->z + share * (b->z - a->z), 0.0, SIDE_NONE};
}

static void add_stretch(digger *d, clip_corner from, clip_corner to)
{
    enum { FIRST_ROOM = 256 };
    if (length_of(&from, &to) < SHORT_FT)
        return;
    if (d->edge_count == d->edge_room) {
        d->edge_room = d->edge_room > 0 ? 2 * d->edge_room : FIRST_ROOM;
        d->edge = cw_arena_grow(d->arena, d->edge, (size_t)d->edge_count, (size_t)d->edge_room,
                                sizeof *d->edge);
    }
    d->edge[d->edge_count++] = (stretch){from, to};
}

/* Where no other piece lies beside a side, as at an upright face, it is the edge of the cut. */
static void edge_of_side(digger *d, int number, int side)
{
    const dug_piece *p = &d->pieces[number];
    const clip_corner *a = &p->shape.corners[side], *b = side_end(&p->shape, side);
    const neighbours found = beside_side(d, number, side);
    const double length = length_of(a, b);
    double reached = 0.0;
    for (int turn = 0; turn <= found.count && reached < length; turn++) {
        // The neighbour that begins first, of those past what is covered.
        double from = length, to = length;
        for (int i = 0; i < found.count; i++)
            if (found.items[i].to > reached + SHORT_FT && found.items[i].from < from) {
                from = found.items[i].from;
                to = found.items[i].to;
            }
        if (from > reached)
            add_stretch(d, along_side(a, b, reached / length), along_side(a, b, from / length));
        reached = fmax(reached, to);
    }
}

static void find_edge(digger *d)
{
    for (int i = 0; i < d->piece_count; i++)
        for (int k = 0; k < d->pieces[i].shape.count; k++)
            if (length_of(&d->pieces[i].shape.corners[k], side_end(&d->pieces[i].shape, k)) > SHORT_FT)
                edge_of_side(d, i, k);
}

static int by_start(const void *left, const void *right)
{
    const stretch *a = left, *b = right;
    const double keys[][2] = {{a->from.e, b->from.e}, {a->from.n, b->from.n}, {a->to.e, b->to.e}, {a->to.n, b->to.n}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (keys[i][0] != keys[i][1])
            return keys[i][0] < keys[i][1] ? -1 : 1;
    return 0;
}

/* The unused stretch that starts nearest to the place, within a hundredth of a foot; NONE. */
static int next_stretch(const digger *d, const bool *used, const clip_corner *at)
{
    static const double near_ft = 0.01;
    int low = 0, high = d->edge_count, best = NONE;
    while (low < high) {
        const int middle = low + (high - low) / 2;
        if (d->edge[middle].from.e < at->e - near_ft)
            low = middle + 1;
        else
            high = middle;
    }
    double least = near_ft;
    for (int i = low; i < d->edge_count && d->edge[i].from.e <= at->e + near_ft; i++) {
        const double away = length_of(at, &d->edge[i].from);
        if (!used[i] && away < least) {
            least = away;
            best = i;
        }
    }
    return best;
}

/* Chains the stretches; the longest ring is the edge of the cut. */
static void chain_edge(digger *d)
{
    if (d->edge_count == 0)
        return;
    qsort(d->edge, (size_t)d->edge_count, sizeof *d->edge, by_start);
    bool *used = CW_TAKE(d->arena, bool, d->edge_count);
    cw_earthwork_place *ring = CW_TAKE(d->arena, cw_earthwork_place, d->edge_count);
    cw_earthwork_place *best = CW_TAKE(d->arena, cw_earthwork_place, d->edge_count);
    double longest = 0.0;
    for (int start = 0; start < d->edge_count; start++) {
        double length = 0.0;
        int count = 0;
        for (int i = used[start] ? NONE : start; i != NONE; i = next_stretch(d, used, &d->edge[i].to)) {
            used[i] = true;
            const clip_corner *from = &d->edge[i].from;
            ring[count++] = (cw_earthwork_place){from->e, from->n, from->z};
            length += length_of(from, &d->edge[i].to);
        }
        if (length <= longest)
            continue;
        longest = length;
        d->out.edge_count = count;
        for (int i = 0; i < count; i++)
            best[i] = ring[i];
    }
    d->out.edge = best;
}

/* ---- sums ---- */

static void measure(digger *d, const dug_piece *p)
{
    const cut_cell *cell = &d->cells.items[p->cell];
    for (int i = 0; i < p->shape.count; i++) {
        const clip_corner *c = &p->shape.corners[i];
        double along = 0.0, right = 0.0;
        leg_place(&d->cut->legs[cell->leg], c->e, c->n, &along, &right);
        d->out.left_ft = fmax(d->out.left_ft, -right);
        d->out.right_ft = fmax(d->out.right_ft, right);
        if (cell->zone == 0)
            d->out.deepest_ft =
                fmax(d->out.deepest_ft, c->z - plane_at(&cell->bottom, c->e, c->n));
    }
}

static void sum_up(digger *d)
{
    double zones[3] = {0.0}, depths[PIECE_CORNERS_MAX];
    for (int i = 0; i < d->piece_count; i++) {
        const dug_piece *p = &d->pieces[i];
        depths_of(&p->shape, 1.0, depths);
        zones[d->cells.items[p->cell].zone] += piece_cuft(&p->shape, depths);
        d->out.footprint_sqft += piece_sqft(&p->shape);
        measure(d, p);
    }
    d->out.run_cuft = zones[0];
    d->out.ends_cuft[0] = zones[1];
    d->out.ends_cuft[1] = zones[2];
    d->out.cut_cuft = zones[0] + zones[1] + zones[2];
}

cw_earthwork_dug cw_earthwork_dig(const cw_earthwork_ground *ground, const cw_earthwork_cut *cut,
                                  cw_arena *arena)
{
    assert(cut->leg_count >= 1 && cut->leg_count <= CW_EARTHWORK_LEGS_MAX && cut->shape.count >= 1);
    digger d = {.ground = ground, .cut = cut, .arena = arena};
    double highest_ft = -HUGE_VAL, reach_ft = 0.0;
    for (int i = 0; i < ground->point_count; i++)
        highest_ft = fmax(highest_ft, ground->points_ft[i][2]);
    d.cells = cells_of(cut, highest_ft, &reach_ft, arena);
    check_bends(&d);
    choose_faces(&d, reach_ft);
    join_faces(&d);
    if (d.out.status != CW_EARTHWORK_KNOWN)
        return d.out;
    cut_all(&d);
    check_cover(&d);
    join_pieces(&d);
    keep_cut(&d);
    check_surface(&d);
    check_crowding(&d);
    if (d.out.status != CW_EARTHWORK_KNOWN)
        return (cw_earthwork_dug){.status = d.out.status, .where = d.out.where};
    sum_up(&d);
    find_edge(&d);
    chain_edge(&d);
    cw_earthwork_pieces *pieces = CW_TAKE(arena, cw_earthwork_pieces, 1);
    cw_earthwork_cut *own = CW_TAKE(arena, cw_earthwork_cut, 1);
    *own = *cut;
    *pieces = (cw_earthwork_pieces){d.pieces, d.piece_count, d.cells, own};
    d.out.pieces = pieces;
    return d.out;
}

const char *cw_earthwork_status_words(int status)
{
    static const char *const words[] = {
        [CW_EARTHWORK_KNOWN] = "known",
        [CW_EARTHWORK_NO_GROUND] = "part of the bottom of the cut has no ground; measure there",
        [CW_EARTHWORK_OFF_SURFACE] = "the cut leaves the surface before its faces meet the ground; "
                                     "measure farther out",
        [CW_EARTHWORK_FOLDED] = "triangles of the surface lie over each other; export it again",
        [CW_EARTHWORK_CROWDED] = "bends stand so near each other that the faces of the cut meet "
                                 "across them; lay out this cut by hand",
        [CW_EARTHWORK_SHARP] = "a bend turns by a right angle or more; lay out this cut by hand",
    };
    assert(status >= 0 && status < CW_EARTHWORK_STATUSES);
    return words[status];
}

int cw_earthwork_disturbed(int soil)
{
    return soil > CW_SOIL_B ? soil : CW_SOIL_B;
}
