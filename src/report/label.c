/* Where lettering goes: overlap tests and the placing of labels. */
#include <math.h>
#include <string.h>

#include "cw/units.h"
#include "drawing_internal.h"

#define OVERLAP_PT 0.3 /* boxes that only touch do not count */
#define RIM_PT 1.0     /* kept clear to the frame's edge */
#define BOX_PAD_PT 2.5 /* between a tag's text and its frame */
#define NEAR_PT 3.0    /* default distance of a label from its place */
#define LINE_FEED 1.25

enum {
    NEAR_PLACES = 8,
    LEADER_RINGS = 5,
    LEADER_WAYS = 16,
    PLACES = NEAR_PLACES + LEADER_RINGS * LEADER_WAYS
};

/* ---- Overlap ---- */

/* How deep two quadrilaterals overlap along the edges' normals of a; the least over its two
 * directions. */
static double depth_along(const cw_xy a[4], const cw_xy b[4])
{
    double least = HUGE_VAL;
    for (int e = 0; e < 2; e++) {
        const double dx = a[e + 1].x - a[e].x, dy = a[e + 1].y - a[e].y, length = hypot(dx, dy);
        if (length < 1e-9)
            return 0;
        double low[2] = {HUGE_VAL, HUGE_VAL}, high[2] = {-HUGE_VAL, -HUGE_VAL};
        for (int i = 0; i < 4; i++) {
            const double pa = (a[i].x * dx + a[i].y * dy) / length,
                         pb = (b[i].x * dx + b[i].y * dy) / length;
            low[0] = fmin(low[0], pa);
            high[0] = fmax(high[0], pa);
            low[1] = fmin(low[1], pb);
            high[1] = fmax(high[1], pb);
        }
        least = fmin(least, fmin(high[0], high[1]) - fmax(low[0], low[1]));
    }
    return least;
}

bool cw_quads_overlap(const cw_xy a[4], const cw_xy b[4], double depth_pt)
{
    return depth_along(a, b) > depth_pt && depth_along(b, a) > depth_pt;
}

static bool in_frame(const cw_drawing *drawing, const cw_xy box[4], double rim_pt)
{
    for (int i = 0; i < 4; i++) {
        if (box[i].x < rim_pt || box[i].y < rim_pt || box[i].x > drawing->view.width_pt - rim_pt ||
            box[i].y > drawing->view.height_pt - rim_pt)
            return false;
    }
    return true;
}

static bool box_is_free(const cw_drawing *drawing, const cw_xy box[4])
{
    if (!in_frame(drawing, box, RIM_PT))
        return false;
    for (int i = 0; i < drawing->count; i++) {
        cw_xy other[4];
        if (drawing->items[i].kind != CW_ITEM_TEXT)
            continue;
        cw_item_text_box(&drawing->items[i], other);
        if (cw_quads_overlap(box, other, 0))
            return false;
    }
    return true;
}

bool cw_text_is_free(const cw_drawing *drawing, const cw_item *text)
{
    cw_xy box[4];
    cw_item_text_box(text, box);
    return box_is_free(drawing, box);
}

int cw_drawing_overlaps(const cw_drawing *drawing, cw_arena *arena, const cw_overlap **list)
{
    int count = 0, capacity = 8;
    cw_overlap *found = CW_TAKE(arena, cw_overlap, capacity);
    for (int i = 0; i < drawing->count; i++) {
        if (drawing->items[i].kind != CW_ITEM_TEXT)
            continue;
        cw_xy a[4], b[4];
        cw_item_text_box(&drawing->items[i], a);
        /* k == i stands for the frame's edge. */
        for (int k = i; k < drawing->count; k++) {
            if (k == i ? in_frame(drawing, a, -OVERLAP_PT) : drawing->items[k].kind != CW_ITEM_TEXT)
                continue;
            if (k > i) {
                cw_item_text_box(&drawing->items[k], b);
                if (!cw_quads_overlap(a, b, OVERLAP_PT))
                    continue;
            }
            if (count == capacity) {
                found =
                    cw_arena_grow(arena, found, (size_t)count, (size_t)capacity * 2, sizeof *found);
                capacity *= 2;
            }
            found[count++] =
                (cw_overlap){drawing->items[i].text, k == i ? NULL : drawing->items[k].text,
                             drawing->items[i].at};
        }
    }
    *list = found;
    return count;
}

/* ---- Lines under a box ---- */

/* True when the segment meets the upright box: its stretch inside all four edges is not empty. */
static bool segment_meets(cw_xy a, cw_xy b, cw_xy min, cw_xy max)
{
    double from = 0, to = 1;
    const double d[2] = {b.x - a.x, b.y - a.y}, start[2] = {a.x, a.y};
    const double low[2] = {min.x, min.y}, high[2] = {max.x, max.y};
    for (int axis = 0; axis < 2; axis++) {
        if (fabs(d[axis]) < 1e-12) {
            if (start[axis] < low[axis] || start[axis] > high[axis])
                return false;
            continue;
        }
        const double t0 = (low[axis] - start[axis]) / d[axis],
                     t1 = (high[axis] - start[axis]) / d[axis];
        from = fmax(from, fmin(t0, t1));
        to = fmin(to, fmax(t0, t1));
    }
    return from <= to;
}

static int path_crossings(const cw_item *item, cw_xy min, cw_xy max)
{
    int crossings = 0, start = 0;
    for (int r = 0; r < item->ring_count; r++) {
        const int end = item->ring_end[r];
        for (int i = start; i + 1 < end; i++)
            crossings += segment_meets(item->points[i], item->points[i + 1], min, max);
        if (item->closed && end - start > 2)
            crossings += segment_meets(item->points[end - 1], item->points[start], min, max);
        start = end;
    }
    return crossings;
}

/* Nearest and farthest corner tell whether the circle's line passes through the box. */
static int arc_crossings(const cw_item *item, cw_xy min, cw_xy max)
{
    const double nx = fmax(fmax(min.x - item->center.x, item->center.x - max.x), 0);
    const double ny = fmax(fmax(min.y - item->center.y, item->center.y - max.y), 0);
    const double fx = fmax(fabs(min.x - item->center.x), fabs(max.x - item->center.x));
    const double fy = fmax(fabs(min.y - item->center.y), fabs(max.y - item->center.y));
    return hypot(nx, ny) <= item->radius_pt && hypot(fx, fy) >= item->radius_pt;
}

/* Layers as a bit set. */
#define LAYER_BIT(layer) (1u << (layer))
#define LAYERS_BUILT                                                                               \
    (LAYER_BIT(CW_LAYER_OUTLINE) | LAYER_BIT(CW_LAYER_CUT) | LAYER_BIT(CW_LAYER_HIGHLIGHT) |       \
     LAYER_BIT(CW_LAYER_WATER) | LAYER_BIT(CW_LAYER_FUTURE) | LAYER_BIT(CW_LAYER_GROUND))
#define LAYERS_ALL_BUT_GRID (~LAYER_BIT(CW_LAYER_GRID))

static int crossings_of_box(const cw_drawing *drawing, cw_xy min, cw_xy max, unsigned layer_bits)
{
    int crossings = 0;
    for (int i = 0; i < drawing->count; i++) {
        const cw_item *item = &drawing->items[i];
        if (!(layer_bits & LAYER_BIT(item->layer)) || item->kind == CW_ITEM_TEXT)
            continue;
        cw_xy low, high;
        cw_item_bounds(item, &low, &high);
        if (low.x > max.x || low.y > max.y || high.x < min.x || high.y < min.y)
            continue;
        crossings += item->kind == CW_ITEM_ARC ? arc_crossings(item, min, max)
                                               : path_crossings(item, min, max);
    }
    return crossings;
}

bool cw_text_hits_built(const cw_drawing *drawing, const cw_item *text)
{
    cw_xy min, max;
    cw_item_bounds(text, &min, &max);
    return crossings_of_box(drawing, min, max, LAYERS_BUILT) > 0;
}

static bool leader_hits_text(const cw_drawing *drawing, cw_xy a, cw_xy b)
{
    for (int i = 0; i < drawing->count; i++) {
        if (drawing->items[i].kind != CW_ITEM_TEXT)
            continue;
        cw_xy min, max;
        cw_item_bounds(&drawing->items[i], &min, &max);
        if (segment_meets(a, b, min, max))
            return true;
    }
    return false;
}

/* ---- Labels ---- */

void cw_draw_label(cw_drawing *drawing, cw_label label)
{
    cw_label_queue *queue = drawing->labels;
    if (!*label.text)
        return;
    if (queue->count == queue->capacity) {
        const int capacity = queue->capacity ? queue->capacity * 2 : 16;
        queue->items = cw_arena_grow(drawing->arena, queue->items, (size_t)queue->count,
                                     (size_t)capacity, sizeof(cw_label));
        queue->capacity = capacity;
    }
    queue->items[queue->count++] = label;
}

typedef struct place {
    cw_xy min, max; /* of the whole label */
    bool on_leader;
    double score; /* less is better */
} place;

/* Size of the label's block of lines, frame included. */
static cw_xy label_size(const cw_drawing *drawing, const cw_label *label, double size_pt)
{
    double width = 0;
    int lines = 0, count;
    const char *const *text =
        cw_font_wrap(drawing->arena, label->text, size_pt, label->weight, 1e6, &count);
    for (lines = 0; lines < count; lines++)
        width = fmax(width, cw_font_width_pt(text[lines], size_pt, label->weight));
    const double pad = label->boxed ? 2 * BOX_PAD_PT : 0;
    return (cw_xy){width + pad, size_pt * (CW_FONT_CAP + CW_FONT_DESCENT) +
                                    (lines - 1) * size_pt * LINE_FEED + pad};
}

/* The k-th place to try: eight around the point, then rings on a leader. */
static place place_at(const cw_label *label, cw_xy at, cw_xy size, int k)
{
    static const double near_ways[NEAR_PLACES][2] = {{1, 0},  {0, -1},  {-1, 0}, {0, 1},
                                                     {1, -1}, {-1, -1}, {1, 1},  {-1, 1}};
    static const double sides[5][2] = {{0, 0}, {0, -1}, {0, 1}, {-1, 0}, {1, 0}};
    double wx, wy, clear = label->clear_pt > 0 ? label->clear_pt : NEAR_PT, score;
    place p = {.on_leader = k >= NEAR_PLACES};
    if (!p.on_leader) {
        wx = near_ways[k][0];
        wy = near_ways[k][1];
        score = 0.15 * k;
        if (k >= 4)
            clear *= 0.7;
    } else {
        const int ring = (k - NEAR_PLACES) / LEADER_WAYS, way = (k - NEAR_PLACES) % LEADER_WAYS;
        const double angle = 2 * CW_PI * (way + 0.5) / LEADER_WAYS;
        wx = cos(angle);
        wy = -sin(angle);
        clear += 10.0 + 9.0 * ring;
        score = 3 + 1.2 * ring + 0.05 * way;
    }
    score -= 1.0 * (wx * sides[label->side][0] + wy * sides[label->side][1]);
    const cw_xy middle = {at.x + wx * (clear + size.x / 2), at.y + wy * (clear + size.y / 2)};
    p.min = (cw_xy){middle.x - size.x / 2, middle.y - size.y / 2};
    p.max = (cw_xy){middle.x + size.x / 2, middle.y + size.y / 2};
    p.score = score;
    return p;
}

/* Point of the label's rim where its leader starts. */
static cw_xy leader_foot(const place *p, cw_xy at)
{
    return (cw_xy){fmin(fmax(at.x, p->min.x - 1), p->max.x + 1),
                   fmin(fmax(at.y, p->min.y - 1), p->max.y + 1)};
}

static void write_label(cw_drawing *drawing, const cw_label *label, double size_pt, const place *p,
                        cw_xy at)
{
    if (p->on_leader) {
        cw_paper_line(drawing, CW_LAYER_DIMENSION, leader_foot(p, at), at);
        cw_paper_circle(drawing, CW_LAYER_DIMENSION, CW_FILL_SOLID, at, 0.9);
    }
    if (label->boxed) {
        const cw_xy frame[] = {p->min, {p->max.x, p->min.y}, p->max, {p->min.x, p->max.y}};
        cw_paper_path(drawing, CW_LAYER_DIMENSION, CW_FILL_WHITE, frame, 4, true);
    }
    const double pad = label->boxed ? BOX_PAD_PT : 0;
    cw_text_style style = {.weight = label->weight, .halo = !label->boxed};
    /* Text left of its place ends at it, text right of it starts there. */
    const double middle = (p->min.x + p->max.x) / 2;
    double x = p->min.x + pad;
    if (label->boxed || fabs(middle - at.x) < (p->max.x - p->min.x) * 0.25) {
        style.align = CW_ALIGN_CENTER;
        x = middle;
    } else if (middle < at.x) {
        style.align = CW_ALIGN_RIGHT;
        x = p->max.x - pad;
    }
    int count;
    const char *const *lines =
        cw_font_wrap(drawing->arena, label->text, size_pt, label->weight, 1e6, &count);
    for (int i = 0; i < count; i++) {
        const double y = p->min.y + pad + size_pt * (CW_FONT_CAP + LINE_FEED * i);
        cw_item_add(drawing, cw_paper_text(drawing, (cw_xy){x, y}, lines[i], size_pt, style));
    }
}

static bool place_label(cw_drawing *drawing, const cw_label *label)
{
    const double size_pt = label->size_pt > 0 ? label->size_pt : drawing->text_pt;
    const cw_xy at = cw_view_paper(&drawing->view, label->at),
                size = label_size(drawing, label, size_pt);
    place best = place_at(label, at, size, 0), first_choice = best;
    best.score = HUGE_VAL;
    const int places = label->leader ? PLACES : NEAR_PLACES;
    for (int k = 0; k < places; k++) {
        place p = place_at(label, at, size, k);
        if (p.score < first_choice.score)
            first_choice = p;
        if (p.score >= best.score)
            continue; /* crossings only make it worse */
        const cw_xy box[4] = {{p.min.x - 1, p.max.y + 1},
                              {p.max.x + 1, p.max.y + 1},
                              {p.max.x + 1, p.min.y - 1},
                              {p.min.x - 1, p.min.y - 1}};
        if (!box_is_free(drawing, box))
            continue;
        p.score += 2.0 * crossings_of_box(drawing, p.min, p.max, LAYERS_ALL_BUT_GRID);
        if (p.on_leader && leader_hits_text(drawing, leader_foot(&p, at), at))
            p.score += 8;
        if (p.score < best.score)
            best = p;
    }
    if (!isfinite(best.score) && !label->must)
        return false;
    write_label(drawing, label, size_pt, isfinite(best.score) ? &best : &first_choice, at);
    return true;
}

/* Text with a halo goes on top, so that its rim parts the lines that were drawn after it; all else
 * keeps its order. */
static void raise_halos(cw_drawing *drawing)
{
    cw_item *ordered = CW_TAKE(drawing->arena, cw_item, drawing->count);
    int used = 0;
    for (int raised = 0; raised < 2; raised++) {
        for (int i = 0; i < drawing->count; i++) {
            const cw_item *item = &drawing->items[i];
            if ((item->kind == CW_ITEM_TEXT && item->halo) == (raised == 1))
                ordered[used++] = *item;
        }
    }
    drawing->items = ordered;
    drawing->capacity = drawing->count;
}

void cw_drawing_finish(cw_drawing *drawing)
{
    const cw_label_queue *queue = drawing->labels;
    drawing->dropped = CW_TAKE(drawing->arena, const char *, queue->count);
    for (int i = 0; i < queue->count; i++) {
        if (!place_label(drawing, &queue->items[i]))
            drawing->dropped[drawing->dropped_count++] = queue->items[i].text;
    }
    raise_halos(drawing);
    drawing->finished = true;
}
