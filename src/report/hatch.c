/* Fill patterns as strokes, the same for every back end. */
#include <math.h>

#include "drawing_internal.h"

/* The largest sheet with its rim; a shape that runs far off the paper is not hatched out there. */
#define PAPER_MIN_PT (-20.0)
#define PAPER_MAX_PT 1260.0

typedef struct strokes {
    cw_arena *arena;
    const cw_item *shape;
    cw_xy *points;
    int count, capacity;
} strokes;

/* Even-odd test against the rings of a path, or the disc of an arc. */
static bool is_inside(const cw_item *shape, cw_xy p)
{
    if (shape->kind == CW_ITEM_ARC)
        return hypot(p.x - shape->center.x, p.y - shape->center.y) <= shape->radius_pt;
    bool inside = false;
    int start = 0;
    for (int r = 0; r < shape->ring_count; r++) {
        const int end = shape->ring_end[r];
        for (int i = start, k = end - 1; i < end; k = i++) {
            const cw_xy a = shape->points[i], b = shape->points[k];
            if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y))
                inside = !inside;
        }
        start = end;
    }
    return inside;
}

/* Strokes wholly outside are left out, which keeps the files small; the back end clips the rest. */
static void add_stroke(strokes *s, double ax, double ay, double bx, double by)
{
    const cw_xy a = {ax, ay}, b = {bx, by}, middle = {(ax + bx) / 2, (ay + by) / 2};
    if (!is_inside(s->shape, a) && !is_inside(s->shape, b) && !is_inside(s->shape, middle))
        return;
    if (s->count + 2 > s->capacity) {
        const int capacity = s->capacity ? s->capacity * 2 : 256;
        s->points =
            cw_arena_grow(s->arena, s->points, (size_t)s->count, (size_t)capacity, sizeof(cw_xy));
        s->capacity = capacity;
    }
    s->points[s->count++] = a;
    s->points[s->count++] = b;
}

/* Scatter that is the same on every run: a share 0 <= r < 1 from the cell's place. */
static double scatter(int column, int row, unsigned salt)
{
    unsigned h = (unsigned)column * 374761393u + (unsigned)row * 668265263u + salt * 2246822519u;
    h = (h ^ (h >> 13)) * 1274126177u;
    return (double)((h ^ (h >> 16)) & 0xFFFFu) / 65536.0;
}

static void dot(strokes *s, double x, double y)
{
    add_stroke(s, x, y, x, y);
}

static void concrete_cell(strokes *s, double x, double y, int column, int row)
{
    const double u = scatter(column, row, 1), v = scatter(column, row, 2);
    dot(s, x + 8 * u, y + 8 * v);
    dot(s, x + 8 * scatter(column, row, 3), y + 8 * scatter(column, row, 4));
    if (scatter(column, row, 5) < 0.45) {
        const double cx = x + 2 + 4 * v, cy = y + 2 + 4 * u, turn = 6.0 * scatter(column, row, 6),
                     r = 1.5;
        const double third = 2.0943951023931953; /* a third of a turn */
        for (int i = 0; i < 3; i++) {
            const double a = turn + i * third, b = a + third;
            add_stroke(s, cx + r * cos(a), cy + r * sin(a), cx + r * cos(b), cy + r * sin(b));
        }
    }
}

static void earth_cell(strokes *s, double x, double y, int column, int row)
{
    const bool rising = ((column + row) & 1) == 0;
    for (int i = 0; i < 3; i++) {
        const double shift = 2.4 * i;
        if (rising)
            add_stroke(s, x + shift, y + 6.5, x + shift + 5, y + 1.5);
        else
            add_stroke(s, x + shift, y + 1.5, x + shift + 5, y + 6.5);
    }
}

static void rock_cell(strokes *s, double x, double y, int column, int row)
{
    const double v = 4 * scatter(column, row, 1);
    add_stroke(s, x, y + v, x + 6, y + v + 5);
    add_stroke(s, x + 4, y + v + 7, x + 9, y + v);
    add_stroke(s, x + 8, y + v + 2, x + 12, y + v + 6);
}

static void backfill_cell(strokes *s, double x, double y, int column, int row)
{
    const double px = x + 7 * scatter(column, row, 1), py = y + 7 * scatter(column, row, 2);
    if (scatter(column, row, 3) < 0.22)
        add_stroke(s, px, py, px + 2.2, py - 1.4);
    else
        dot(s, px, py);
}

static void water_cell(strokes *s, double x, double y, int row)
{
    const double shift = (row & 1) ? 8 : 0;
    add_stroke(s, x + shift, y, x + shift + 9, y);
}

static void draw_cell(strokes *s, cw_fill fill, cw_xy at, int column, int row)
{
    switch (fill) {
    case CW_FILL_CONCRETE_CUT:
        concrete_cell(s, at.x, at.y, column, row);
        break;
    case CW_FILL_EARTH:
        earth_cell(s, at.x, at.y, column, row);
        break;
    case CW_FILL_BEDDING:
        dot(s, at.x + 2.2 * scatter(column, row, 1), at.y + 2.2 * scatter(column, row, 2));
        break;
    case CW_FILL_BACKFILL:
        backfill_cell(s, at.x, at.y, column, row);
        break;
    case CW_FILL_GROUT:
        add_stroke(s, at.x, at.y + 2.4, at.x + 2.4, at.y);
        break;
    case CW_FILL_ROCK:
        rock_cell(s, at.x, at.y, column, row);
        break;
    case CW_FILL_WATER:
        water_cell(s, at.x, at.y, row);
        break;
    default:
        break;
    }
}

/* Cell of each pattern in points; 0 for fills without strokes. */
static cw_xy cell_of(cw_fill fill)
{
    static const cw_xy cells[CW_FILL_COUNT] = {
        [CW_FILL_CONCRETE_CUT] = {8, 8}, [CW_FILL_EARTH] = {11, 8},    [CW_FILL_BEDDING] = {3, 3},
        [CW_FILL_BACKFILL] = {9, 9},     [CW_FILL_GROUT] = {2.4, 2.4}, [CW_FILL_ROCK] = {14, 11},
        [CW_FILL_WATER] = {18, 4},
    };
    return cells[fill];
}

const cw_xy *cw_fill_strokes(cw_arena *arena, const cw_item *item, int *count)
{
    *count = 0;
    const cw_xy cell = cell_of(item->fill);
    if (item->kind == CW_ITEM_TEXT || !(cell.x > 0))
        return NULL;
    cw_xy min, max;
    cw_item_bounds(item, &min, &max);
    const int first_column = (int)floor(fmax(min.x, PAPER_MIN_PT) / cell.x) - 1;
    const int last_column = (int)floor(fmin(max.x, PAPER_MAX_PT) / cell.x);
    const int first_row = (int)floor(fmax(min.y, PAPER_MIN_PT) / cell.y) - 1;
    const int last_row = (int)floor(fmin(max.y, PAPER_MAX_PT) / cell.y);
    strokes s = {.arena = arena, .shape = item};
    for (int row = first_row; row <= last_row; row++) {
        for (int column = first_column; column <= last_column; column++)
            draw_cell(&s, item->fill, (cw_xy){column * cell.x, row * cell.y}, column, row);
    }
    *count = s.count;
    return s.points;
}

double cw_fill_grey(cw_fill fill)
{
    static const double greys[CW_FILL_COUNT] = {
        [CW_FILL_NONE] = -1,           [CW_FILL_WHITE] = 1,    [CW_FILL_CONCRETE] = 0.955,
        [CW_FILL_CONCRETE_CUT] = 0.89, [CW_FILL_EARTH] = -1,   [CW_FILL_BEDDING] = 1,
        [CW_FILL_BACKFILL] = -1,       [CW_FILL_GROUT] = 0.93, [CW_FILL_ROCK] = -1,
        [CW_FILL_WATER] = -1,          [CW_FILL_SHADE] = 0.91, [CW_FILL_SOLID] = 0,
    };
    return greys[fill];
}

cw_pen cw_fill_pen(cw_fill fill)
{
    const bool dots =
        fill == CW_FILL_BEDDING || fill == CW_FILL_CONCRETE_CUT || fill == CW_FILL_BACKFILL;
    return (cw_pen){dots ? 0.55 : 0.37, CW_DASH_NONE, 0.38, fill == CW_FILL_WATER};
}
