/* The display list: view, layers, shapes and text. */
#include "cw/drawing.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "cw/units.h"
#include "drawing_internal.h"

#define DEFAULT_TEXT_PT 7.5
#define LINE_FEED 1.25 /* line distance as a share of the size */
#define PT_PER_MM (CW_PT_PER_IN / CW_MM_PER_IN)

/* ---- View ---- */

/* Smallest customary scale (model length per inch of paper, in the same unit) that is not finer
 * than raw. */
static double round_up_to(double raw, const double *steps, int count)
{
    const double decade = pow(10.0, floor(log10(raw) + 1e-9));
    for (int i = 0; i < count; i++) {
        if (steps[i] * decade >= raw * (1 - 1e-9))
            return steps[i] * decade;
    }
    return 10.0 * decade;
}

static double rounded_scale(double pt_per_ft)
{
    static const double feet[] = {1, 1.5, 2, 2.5, 3, 4, 5, 6, 8};
    static const double inches[] = {1, 1.5, 2, 3, 4, 6, 8};
    const double ft_per_in = CW_PT_PER_IN / pt_per_ft;
    if (ft_per_in >= 1)
        return CW_PT_PER_IN / round_up_to(ft_per_in, feet, sizeof feet / sizeof feet[0]);
    const double in_per_in =
        round_up_to(ft_per_in * CW_IN_PER_FT, inches, sizeof inches / sizeof inches[0]);
    return CW_PT_PER_IN / fmin(in_per_in / CW_IN_PER_FT, 1);
}

cw_view cw_view_fit(cw_view_wish wish)
{
    const double times = wish.exaggeration > 0 ? wish.exaggeration : 1;
    const double room_x = wish.width_pt - wish.left_pt - wish.right_pt;
    const double room_y = wish.height_pt - wish.top_pt - wish.bottom_pt;
    const double span_x = wish.max.x - wish.min.x, span_y = wish.max.y - wish.min.y;
    assert(room_x > 0 && room_y > 0 && span_x > 0 && span_y > 0);

    double scale = fmin(room_x / span_x, room_y / (span_y * times));
    if (!wish.exact_fit) {
        const double units_per_ft = wish.unit == CW_VIEW_IN ? CW_IN_PER_FT : 1;
        scale = rounded_scale(scale * units_per_ft) / units_per_ft;
    }
    cw_view view = {.width_pt = wish.width_pt,
                    .height_pt = wish.height_pt,
                    .scale_x = scale,
                    .scale_y = scale * times,
                    .unit = wish.unit};
    view.left_pt = wish.left_pt + (room_x - span_x * view.scale_x) / 2 - wish.min.x * view.scale_x;
    view.base_pt = wish.top_pt + (room_y + span_y * view.scale_y) / 2 + wish.min.y * view.scale_y;
    return view;
}

cw_xy cw_view_paper(const cw_view *view, cw_xy real)
{
    return (cw_xy){view->left_pt + view->scale_x * real.x, view->base_pt - view->scale_y * real.y};
}

cw_xy cw_view_real(const cw_view *view, cw_xy paper_pt)
{
    return (cw_xy){(paper_pt.x - view->left_pt) / view->scale_x,
                   (view->base_pt - paper_pt.y) / view->scale_y};
}

/* "4 ft" or "3 in": what one inch of paper stands for. */
static const char *per_inch(cw_arena *arena, double scale, cw_view_unit unit)
{
    const double ft = CW_PT_PER_IN / scale / (unit == CW_VIEW_IN ? CW_IN_PER_FT : 1);
    return ft < 1 - 1e-9 ? cw_arena_print(arena, "%.4g in", ft * CW_IN_PER_FT)
                         : cw_arena_print(arena, "%.4g ft", ft);
}

const char *cw_view_scale_text(cw_arena *arena, const cw_view *view)
{
    const char *across = per_inch(arena, view->scale_x, view->unit);
    const double times = view->scale_y / view->scale_x;
    if (fabs(times - 1) < 1e-9)
        return cw_arena_print(arena, "Scale 1 in = %s", across);
    return cw_arena_print(arena, "Horizontal 1 in = %s, vertical 1 in = %s (heights %.3g times)",
                          across, per_inch(arena, view->scale_y, view->unit), times);
}

cw_xy cw_at_paper(const cw_drawing *drawing, double x_pt, double y_pt)
{
    return cw_view_real(&drawing->view, (cw_xy){x_pt, y_pt});
}

cw_xy cw_moved(const cw_drawing *drawing, cw_xy real, double right_pt, double up_pt)
{
    return (cw_xy){real.x + right_pt / drawing->view.scale_x,
                   real.y + up_pt / drawing->view.scale_y};
}

/* ---- Layers ---- */

typedef struct layer_row {
    const char *name;
    double width_mm; /* ISO 128-20 series: 0.13 0.18 0.25 0.35 0.50 0.70 mm */
    cw_dash dash;
    double grey;
    bool accent;
} layer_row;

static const layer_row layers[CW_LAYER_COUNT] = {
    [CW_LAYER_OUTLINE] = {"outline", 0.35, CW_DASH_NONE, 0, false},
    [CW_LAYER_CUT] = {"cut", 0.50, CW_DASH_NONE, 0, false},
    [CW_LAYER_HIDDEN] = {"hidden", 0.25, CW_DASH_SHORT, 0, false},
    [CW_LAYER_CENTER] = {"center", 0.18, CW_DASH_CENTER, 0, false},
    [CW_LAYER_GROUND] = {"ground", 0.25, CW_DASH_LONG, 0, false},
    [CW_LAYER_DIMENSION] = {"dimension", 0.18, CW_DASH_NONE, 0.15, false},
    [CW_LAYER_TEXT] = {"text", 0.25, CW_DASH_NONE, 0, false},
    [CW_LAYER_HATCH] = {"hatch", 0.13, CW_DASH_NONE, 0.4, false},
    [CW_LAYER_WATER] = {"water", 0.25, CW_DASH_NONE, 0.2, true},
    [CW_LAYER_FUTURE] = {"future", 0.25, CW_DASH_PHANTOM, 0.45, false},
    [CW_LAYER_HIGHLIGHT] = {"highlight", 0.70, CW_DASH_NONE, 0, true},
    [CW_LAYER_GRID] = {"grid", 0.13, CW_DASH_NONE, 0.72, false},
    [CW_LAYER_RULE] = {"rule", 0.13, CW_DASH_NONE, 0, false},
    [CW_LAYER_BORDER] = {"border", 0.70, CW_DASH_NONE, 0, false},
};

const char *cw_layer_name(cw_layer layer)
{
    return layers[layer].name;
}

cw_pen cw_layer_pen(const cw_drawing *drawing, cw_layer layer)
{
    const layer_row *row = &layers[layer];
    return (cw_pen){row->width_mm * PT_PER_MM * drawing->pen_factor, row->dash, row->grey,
                    row->accent};
}

int cw_dash_lengths_pt(cw_dash dash, double lengths_pt[6])
{
    static const struct {
        int count;
        double lengths[6];
    } patterns[] = {
        [CW_DASH_NONE] = {0, {0}},
        [CW_DASH_SHORT] = {2, {4, 2.5}},
        [CW_DASH_LONG] = {2, {9, 3}},
        [CW_DASH_CENTER] = {4, {14, 2.5, 3, 2.5}},
        [CW_DASH_PHANTOM] = {6, {14, 2.5, 3, 2.5, 3, 2.5}},
    };
    memcpy(lengths_pt, patterns[dash].lengths, sizeof patterns[dash].lengths);
    return patterns[dash].count;
}

/* ---- The list ---- */

cw_drawing *cw_drawing_new(cw_arena *arena, cw_view view)
{
    cw_drawing *drawing = CW_TAKE(arena, cw_drawing, 1);
    *drawing =
        (cw_drawing){.arena = arena, .view = view, .pen_factor = 1, .text_pt = DEFAULT_TEXT_PT};
    drawing->labels = CW_TAKE(arena, cw_label_queue, 1);
    return drawing;
}

cw_item *cw_item_add(cw_drawing *drawing, cw_item item)
{
    assert(!drawing->finished);
    if (drawing->count == drawing->capacity) {
        const int capacity = drawing->capacity ? drawing->capacity * 2 : 64;
        drawing->items = cw_arena_grow(drawing->arena, drawing->items, (size_t)drawing->count,
                                       (size_t)capacity, sizeof(cw_item));
        drawing->capacity = capacity;
    }
    drawing->items[drawing->count] = item;
    return &drawing->items[drawing->count++];
}

void cw_drawing_insert(cw_drawing *drawing, const cw_drawing *figure, cw_xy at_pt)
{
    assert(figure->finished);
    for (int i = 0; i < figure->count; i++) {
        cw_item item = figure->items[i];
        item.at = cw_xy_plus(item.at, at_pt, 1);
        item.center = cw_xy_plus(item.center, at_pt, 1);
        if (item.kind == CW_ITEM_PATH) {
            const int count = item.ring_end[item.ring_count - 1];
            cw_xy *points = CW_TAKE(drawing->arena, cw_xy, count);
            for (int k = 0; k < count; k++)
                points[k] = cw_xy_plus(item.points[k], at_pt, 1);
            item.points = points;
        }
        cw_item_add(drawing, item);
    }
}

/* ---- Shapes ---- */

cw_item *cw_paper_path(cw_drawing *drawing, cw_layer layer, cw_fill fill, const cw_xy *points,
                       int count, bool closed)
{
    cw_xy *kept = CW_TAKE(drawing->arena, cw_xy, count);
    memcpy(kept, points, (size_t)count * sizeof *kept);
    int *end = CW_TAKE(drawing->arena, int, 1);
    *end = count;
    return cw_item_add(drawing, (cw_item){.kind = CW_ITEM_PATH,
                                          .layer = layer,
                                          .pen = cw_layer_pen(drawing, layer),
                                          .fill = fill,
                                          .points = kept,
                                          .ring_end = end,
                                          .ring_count = 1,
                                          .closed = closed});
}

cw_item *cw_paper_line(cw_drawing *drawing, cw_layer layer, cw_xy a, cw_xy b)
{
    return cw_paper_path(drawing, layer, CW_FILL_NONE, (cw_xy[]){a, b}, 2, false);
}

cw_item *cw_paper_circle(cw_drawing *drawing, cw_layer layer, cw_fill fill, cw_xy center,
                         double radius_pt)
{
    return cw_item_add(drawing, (cw_item){.kind = CW_ITEM_ARC,
                                          .layer = layer,
                                          .pen = cw_layer_pen(drawing, layer),
                                          .fill = fill,
                                          .closed = true,
                                          .center = center,
                                          .radius_pt = radius_pt,
                                          .to_deg = 360});
}

void cw_paper_head(cw_drawing *drawing, cw_layer layer, cw_xy tip, cw_xy along, double length_pt)
{
    const cw_xy across = {-along.y, along.x}, foot = cw_xy_plus(tip, along, -length_pt);
    const double half = length_pt * 0.28;
    const cw_xy points[] = {tip, cw_xy_plus(foot, across, half), cw_xy_plus(foot, across, -half)};
    cw_paper_path(drawing, layer, CW_FILL_SOLID, points, 3, true)->pen.width_pt = 0;
}

static const cw_xy *all_on_paper(cw_drawing *drawing, const cw_xy *points, int count)
{
    cw_xy *paper = CW_TAKE(drawing->arena, cw_xy, count);
    for (int i = 0; i < count; i++)
        paper[i] = cw_view_paper(&drawing->view, points[i]);
    return paper;
}

void cw_draw_line(cw_drawing *drawing, cw_layer layer, cw_xy a, cw_xy b)
{
    cw_paper_line(drawing, layer, cw_view_paper(&drawing->view, a),
                  cw_view_paper(&drawing->view, b));
}

void cw_draw_polyline(cw_drawing *drawing, cw_layer layer, const cw_xy *points, int count)
{
    if (count >= 2)
        cw_paper_path(drawing, layer, CW_FILL_NONE, all_on_paper(drawing, points, count), count,
                      false);
}

void cw_draw_polygon(cw_drawing *drawing, cw_layer layer, cw_fill fill, const cw_xy *points,
                     int count)
{
    if (count >= 3)
        cw_paper_path(drawing, layer, fill, all_on_paper(drawing, points, count), count, true);
}

void cw_draw_rectangle(cw_drawing *drawing, cw_layer layer, cw_fill fill, cw_xy min, cw_xy max)
{
    const cw_xy corners[] = {min, {max.x, min.y}, max, {min.x, max.y}};
    cw_draw_polygon(drawing, layer, fill, corners, 4);
}

void cw_draw_region(cw_drawing *drawing, cw_layer layer, cw_fill fill, const cw_draw_ring *rings,
                    int count, bool outlined)
{
    if (count < 1)
        return;
    int total = 0;
    for (int r = 0; r < count; r++)
        total += rings[r].count;
    cw_xy *points = CW_TAKE(drawing->arena, cw_xy, total);
    int *ends = CW_TAKE(drawing->arena, int, count);
    int used = 0;
    for (int r = 0; r < count; r++) {
        for (int i = 0; i < rings[r].count; i++)
            points[used++] = cw_view_paper(&drawing->view, rings[r].points[i]);
        ends[r] = used;
    }
    cw_item item = {.kind = CW_ITEM_PATH,
                    .layer = layer,
                    .pen = cw_layer_pen(drawing, layer),
                    .fill = fill,
                    .points = points,
                    .ring_end = ends,
                    .ring_count = count,
                    .closed = true};
    if (!outlined)
        item.pen.width_pt = 0;
    cw_item_add(drawing, item);
}

/* In an exaggerated view an arc is an ellipse and is drawn as a polyline fine enough not to show
 * its corners. */
static void draw_ellipse(cw_drawing *drawing, cw_layer layer, cw_fill fill, cw_xy center,
                         double radius, const double from_to_deg[2])
{
    enum { PARTS = 72 };
    cw_xy points[PARTS + 1];
    for (int i = 0; i <= PARTS; i++) {
        const double angle =
            CW_RAD_PER_DEG * (from_to_deg[0] + (from_to_deg[1] - from_to_deg[0]) * i / PARTS);
        points[i] = (cw_xy){center.x + radius * cos(angle), center.y + radius * sin(angle)};
    }
    const bool full = fabs(from_to_deg[1] - from_to_deg[0]) >= 360;
    cw_paper_path(drawing, layer, fill, all_on_paper(drawing, points, PARTS + 1),
                  full ? PARTS : PARTS + 1, full);
}

static bool scales_equal(const cw_view *view)
{
    return fabs(view->scale_y / view->scale_x - 1) < 1e-9;
}

void cw_draw_circle(cw_drawing *drawing, cw_layer layer, cw_fill fill, cw_xy center, double radius)
{
    if (scales_equal(&drawing->view))
        cw_paper_circle(drawing, layer, fill, cw_view_paper(&drawing->view, center),
                        radius * drawing->view.scale_x);
    else
        draw_ellipse(drawing, layer, fill, center, radius, (double[]){0, 360});
}

void cw_draw_arc(cw_drawing *drawing, cw_layer layer, cw_xy center, double radius, double from_deg,
                 double to_deg)
{
    if (to_deg < from_deg)
        to_deg += 360;
    if (!scales_equal(&drawing->view)) {
        draw_ellipse(drawing, layer, CW_FILL_NONE, center, radius, (double[]){from_deg, to_deg});
        return;
    }
    cw_item *arc =
        cw_paper_circle(drawing, layer, CW_FILL_NONE, cw_view_paper(&drawing->view, center),
                        radius * drawing->view.scale_x);
    arc->from_deg = from_deg;
    arc->to_deg = to_deg;
    arc->closed = false;
}

void cw_draw_arrow(cw_drawing *drawing, cw_layer layer, cw_xy a, cw_xy b)
{
    const double head_pt = 6;
    const cw_xy from = cw_view_paper(&drawing->view, a), tip = cw_view_paper(&drawing->view, b);
    const double length = hypot(tip.x - from.x, tip.y - from.y);
    if (length < 1e-9)
        return;
    const cw_xy along = {(tip.x - from.x) / length, (tip.y - from.y) / length};
    cw_paper_line(drawing, layer, from, cw_xy_plus(tip, along, -fmin(head_pt, length) * 0.8));
    cw_paper_head(drawing, layer, tip, along, fmin(head_pt, length));
}

/* ---- Text ---- */

cw_item cw_paper_text(const cw_drawing *drawing, cw_xy at, const char *text, double size_pt,
                      cw_text_style style)
{
    cw_pen pen = cw_layer_pen(drawing, CW_LAYER_TEXT);
    pen.grey = style.grey;
    return (cw_item){.kind = CW_ITEM_TEXT,
                     .layer = CW_LAYER_TEXT,
                     .pen = pen,
                     .text = text,
                     .at = at,
                     .size_pt = size_pt,
                     .angle_deg = style.angle_deg,
                     .weight = style.weight,
                     .align = style.align,
                     .halo = style.halo,
                     .width_pt = cw_font_width_pt(text, size_pt, style.weight)};
}

void cw_draw_text(cw_drawing *drawing, cw_xy at, cw_text_style style, const char *text)
{
    const double size = style.size_pt > 0 ? style.size_pt : drawing->text_pt,
                 feed = size * LINE_FEED;
    int lines = 1;
    for (const char *p = text; *p; p++)
        lines += *p == '\n';

    double down = 0; /* of the first baseline under the anchor */
    if (style.valign == CW_VALIGN_TOP)
        down = size * CW_FONT_CAP;
    else if (style.valign == CW_VALIGN_MIDDLE)
        down = (size * CW_FONT_CAP - (lines - 1) * feed) / 2;
    else if (style.valign == CW_VALIGN_BOTTOM)
        down = -(lines - 1) * feed;

    const double angle = style.angle_deg * CW_RAD_PER_DEG;
    const cw_xy below = {sin(angle), cos(angle)}, anchor = cw_view_paper(&drawing->view, at);
    for (int i = 0; i < lines; i++) {
        const char *end = strchr(text, '\n');
        const char *line = end ? cw_arena_copy(drawing->arena, text, (size_t)(end - text)) : text;
        if (*line)
            cw_item_add(drawing, cw_paper_text(drawing, cw_xy_plus(anchor, below, down + i * feed),
                                               line, size, style));
        text = end ? end + 1 : text;
    }
}

void cw_item_text_box(const cw_item *item, cw_xy corners[4])
{
    const double left = item->align == CW_ALIGN_RIGHT    ? -item->width_pt
                        : item->align == CW_ALIGN_CENTER ? -item->width_pt / 2
                                                         : 0;
    const double top = item->size_pt * CW_FONT_CAP;
    const double bottom =
        strpbrk(item->text, "gjpqy,;()[]{}Q_|/") ? -item->size_pt * CW_FONT_DESCENT : 0;
    const double angle = item->angle_deg * CW_RAD_PER_DEG;
    const cw_xy along = {cos(angle), -sin(angle)}, up = {-sin(angle), -cos(angle)};
    const cw_xy start = cw_xy_plus(item->at, along, left),
                end = cw_xy_plus(start, along, item->width_pt);
    corners[0] = cw_xy_plus(start, up, bottom);
    corners[1] = cw_xy_plus(end, up, bottom);
    corners[2] = cw_xy_plus(end, up, top);
    corners[3] = cw_xy_plus(start, up, top);
}

void cw_item_bounds(const cw_item *item, cw_xy *min_pt, cw_xy *max_pt)
{
    if (item->kind == CW_ITEM_ARC) {
        *min_pt = (cw_xy){item->center.x - item->radius_pt, item->center.y - item->radius_pt};
        *max_pt = (cw_xy){item->center.x + item->radius_pt, item->center.y + item->radius_pt};
        return;
    }
    cw_xy corners[4];
    const cw_xy *points = item->points;
    int count = 4;
    if (item->kind == CW_ITEM_TEXT) {
        cw_item_text_box(item, corners);
        points = corners;
    } else {
        count = item->ring_end[item->ring_count - 1];
    }
    *min_pt = *max_pt = points[0];
    for (int i = 1; i < count; i++) {
        *min_pt = (cw_xy){fmin(min_pt->x, points[i].x), fmin(min_pt->y, points[i].y)};
        *max_pt = (cw_xy){fmax(max_pt->x, points[i].x), fmax(max_pt->y, points[i].y)};
    }
}
