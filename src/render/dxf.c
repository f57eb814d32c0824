/* Drawing to DXF, release 12 in ASCII: the oldest form that every reader takes.  Core: no files, no library.
 *
 * What the sheet shows comes out at true scale: one drawing unit is a foot (an inch on piece sheets), paper sizes are divided by the
 * scale of the sheet.  Where heights are drawn larger than lengths they stay so, as on the sheet.  Dimensions and patterns are lines
 * and text, which no reader can misread.  Grounds (greys, white) are left out: release 12 has none. */
#include <assert.h>
#include <math.h>
#include <string.h>

#include "cw/render.h"
#include "cw/text.h"
#include "cw/units.h"

enum { CUTS_MAX = 256, CODE_WIDTH = 3 };

typedef struct dxf {
    cw_text out;
    const cw_drawing *drawing;
    double unit_per_pt;
} dxf;

/* ---- pairs of code and value ---- */

static void pair_text(dxf *x, int code, const char *value)
{
    cw_text_print(&x->out, "%*d\r\n%s\r\n", CODE_WIDTH, code, value);
}

static void pair_int(dxf *x, int code, int value)
{
    cw_text_print(&x->out, "%*d\r\n%d\r\n", CODE_WIDTH, code, value);
}

static void pair_real(dxf *x, int code, double value)
{
    // "-0" would make equal drawings differ in their bytes.
    cw_text_print(&x->out, "%*d\r\n%.6f\r\n", CODE_WIDTH, code, fabs(value) < 5e-7 ? 0.0 : value);
}

static cw_xy place(const dxf *x, cw_xy paper)
{
    const cw_view *view = &x->drawing->view;
    return (cw_xy){(paper.x - view->left_pt) * x->unit_per_pt, (view->base_pt - paper.y) * x->unit_per_pt};
}

static void pair_place(dxf *x, int code, cw_xy paper)
{
    const cw_xy at = place(x, paper);
    pair_real(x, code, at.x);
    pair_real(x, code + 10, at.y);
    pair_real(x, code + 20, 0.0);
}

/* ---- tables ---- */

static const char *const line_types[] = {"CONTINUOUS", "DASH_SHORT", "DASH_LONG", "DASH_CENTER", "DASH_PHANTOM"};

static void line_type(dxf *x, int dash)
{
    double lengths[6], total = 0.0;
    const int count = dash == CW_DASH_NONE ? 0 : cw_dash_lengths_pt((cw_dash)dash, lengths);
    for (int i = 0; i < count; i++)
        total += lengths[i] * x->unit_per_pt;
    pair_text(x, 0, "LTYPE");
    pair_text(x, 2, line_types[dash]);
    pair_int(x, 70, 0);
    pair_text(x, 3, count > 0 ? "dashes" : "full line");
    pair_int(x, 72, 65);
    pair_int(x, 73, count);
    pair_real(x, 40, total);
    for (int i = 0; i < count; i++)
        pair_real(x, 49, (i % 2 ? -1.0 : 1.0) * lengths[i] * x->unit_per_pt);
}

/* Colours only repeat what line and layer say: water blue, patterns and grids grey, the rest black or white. */
static int colour_of(cw_layer layer)
{
    enum { BLUE = 5, FOREGROUND = 7, GREY = 8, LIGHT_GREY = 9 };
    switch (layer) {
    case CW_LAYER_WATER:
        return BLUE;
    case CW_LAYER_HATCH:
    case CW_LAYER_FUTURE:
        return GREY;
    case CW_LAYER_GRID:
        return LIGHT_GREY;
    default:
        return FOREGROUND;
    }
}

static const char *layer_name(const dxf *x, cw_layer layer)
{
    char *name = cw_arena_copy(x->out.arena, cw_layer_name(layer), strlen(cw_layer_name(layer)));
    for (char *p = name; *p; p++)
        if (*p >= 'a' && *p <= 'z')
            *p = (char)(*p - 'a' + 'A');
    return name;
}

static void open_table(dxf *x, const char *name, int count)
{
    pair_text(x, 0, "TABLE");
    pair_text(x, 2, name);
    pair_int(x, 70, count);
}

static void tables(dxf *x)
{
    enum { DASHES = CW_DASH_PHANTOM + 1 };
    pair_text(x, 0, "SECTION");
    pair_text(x, 2, "TABLES");
    open_table(x, "LTYPE", DASHES);
    for (int i = 0; i < DASHES; i++)
        line_type(x, i);
    pair_text(x, 0, "ENDTAB");
    open_table(x, "LAYER", CW_LAYER_COUNT + 1);
    for (int i = -1; i < CW_LAYER_COUNT; i++) {
        pair_text(x, 0, "LAYER");
        pair_text(x, 2, i < 0 ? "0" : layer_name(x, (cw_layer)i));
        pair_int(x, 70, 0);
        pair_int(x, 62, i < 0 ? 7 : colour_of((cw_layer)i));
        pair_text(x, 6, line_types[CW_DASH_NONE]);
    }
    pair_text(x, 0, "ENDTAB");
    open_table(x, "STYLE", 1);
    pair_text(x, 0, "STYLE");
    pair_text(x, 2, "STANDARD");
    pair_int(x, 70, 0);
    pair_real(x, 40, 0.0);
    pair_real(x, 41, 1.0);
    pair_real(x, 50, 0.0);
    pair_int(x, 71, 0);
    pair_real(x, 42, 1.0);
    pair_text(x, 3, "txt");
    pair_text(x, 4, "");
    pair_text(x, 0, "ENDTAB");
    pair_text(x, 0, "ENDSEC");
}

static void header(dxf *x)
{
    const cw_view *view = &x->drawing->view;
    pair_text(x, 999, view->unit == CW_VIEW_IN ? "drawing unit: inch" : "drawing unit: foot");
    pair_text(x, 0, "SECTION");
    pair_text(x, 2, "HEADER");
    pair_text(x, 9, "$ACADVER");
    pair_text(x, 1, "AC1009");
    pair_text(x, 9, "$EXTMIN");
    pair_place(x, 10, (cw_xy){0.0, view->height_pt});
    pair_text(x, 9, "$EXTMAX");
    pair_place(x, 10, (cw_xy){view->width_pt, 0.0});
    pair_text(x, 0, "ENDSEC");
}

/* ---- entities ---- */

static void open_entity(dxf *x, const char *type, cw_layer layer, cw_dash dash)
{
    pair_text(x, 0, type);
    pair_text(x, 8, layer_name(x, layer));
    if (dash != CW_DASH_NONE)
        pair_text(x, 6, line_types[dash]);
}

static void line(dxf *x, cw_layer layer, cw_dash dash, cw_xy a, cw_xy b)
{
    open_entity(x, "LINE", layer, dash);
    pair_place(x, 10, a);
    pair_place(x, 11, b);
}

static void ring(dxf *x, const cw_item *item, int from, int to)
{
    if (to - from == 2 && !item->closed) {
        line(x, item->layer, item->pen.dash, item->points[from], item->points[from + 1]);
        return;
    }
    open_entity(x, "POLYLINE", item->layer, item->pen.dash);
    pair_int(x, 66, 1);
    pair_place(x, 10, (cw_xy){x->drawing->view.left_pt, x->drawing->view.base_pt});
    pair_int(x, 70, item->closed ? 1 : 0);
    for (int i = from; i < to; i++) {
        open_entity(x, "VERTEX", item->layer, CW_DASH_NONE);
        pair_place(x, 10, item->points[i]);
    }
    open_entity(x, "SEQEND", item->layer, CW_DASH_NONE);
}

static void arc(dxf *x, const cw_item *item)
{
    const bool full = item->to_deg - item->from_deg >= 360.0;
    open_entity(x, full ? "CIRCLE" : "ARC", item->layer, item->pen.dash);
    pair_place(x, 10, item->center);
    pair_real(x, 40, item->radius_pt * x->unit_per_pt);
    if (full)
        return;
    pair_real(x, 50, item->from_deg);
    pair_real(x, 51, item->to_deg);
}

/* Small black shapes such as arrow heads. */
static void solid(dxf *x, const cw_item *item)
{
    const int count = item->ring_count == 1 ? item->ring_end[0] : 0;
    if (item->kind != CW_ITEM_PATH || count < 3 || count > 4)
        return;
    // The third and fourth corner of a SOLID are crossed over; a triangle repeats its last.
    const int order[4] = {0, 1, count - 1, 2};
    open_entity(x, "SOLID", item->layer, CW_DASH_NONE);
    for (int i = 0; i < 4; i++)
        pair_place(x, 10 + i, item->points[order[i]]);
}

/* ---- patterns, cut at their shape ---- */

typedef struct cuts {
    double at[CUTS_MAX];
    int count;
} cuts;

static void cut_by(cuts *list, cw_xy a, cw_xy b, cw_xy p, cw_xy q)
{
    const double dx = b.x - a.x, dy = b.y - a.y, ex = q.x - p.x, ey = q.y - p.y;
    const double det = dx * ey - dy * ex;
    if (det == 0.0 || list->count == CUTS_MAX)
        return;
    const double t = ((p.x - a.x) * ey - (p.y - a.y) * ex) / det;
    const double u = ((p.x - a.x) * dy - (p.y - a.y) * dx) / det;
    // Half open, so that a corner counts once.
    if (u >= 0.0 && u < 1.0 && t > 0.0 && t < 1.0)
        list->at[list->count++] = t;
}

static bool inside(const cw_item *item, cw_xy p)
{
    if (item->kind == CW_ITEM_ARC)
        return hypot(p.x - item->center.x, p.y - item->center.y) <= item->radius_pt;
    bool in = false;
    int start = 0;
    for (int r = 0; r < item->ring_count; r++) {
        for (int i = start, j = item->ring_end[r] - 1; i < item->ring_end[r]; j = i++) {
            const cw_xy a = item->points[i], b = item->points[j];
            if ((a.y > p.y) != (b.y > p.y) && p.x < (b.x - a.x) * (p.y - a.y) / (b.y - a.y) + a.x)
                in = !in;
        }
        start = item->ring_end[r];
    }
    return in;
}

static void cut_by_circle(cuts *list, const cw_item *item, cw_xy a, cw_xy b)
{
    const double dx = b.x - a.x, dy = b.y - a.y, fx = a.x - item->center.x, fy = a.y - item->center.y;
    const double aa = dx * dx + dy * dy, bb = fx * dx + fy * dy;
    const double under = bb * bb - aa * (fx * fx + fy * fy - item->radius_pt * item->radius_pt);
    if (!(under > 0.0))
        return;
    for (int k = -1; k <= 1; k += 2) {
        const double t = (-bb + k * sqrt(under)) / aa;
        if (t > 0.0 && t < 1.0)
            list->at[list->count++] = t;
    }
}

static void cut_by_shape(cuts *list, const cw_item *item, cw_xy a, cw_xy b)
{
    if (item->kind == CW_ITEM_ARC) {
        cut_by_circle(list, item, a, b);
        return;
    }
    int start = 0;
    for (int r = 0; r < item->ring_count; r++) {
        for (int i = start, j = item->ring_end[r] - 1; i < item->ring_end[r]; j = i++)
            cut_by(list, a, b, item->points[j], item->points[i]);
        start = item->ring_end[r];
    }
}

static void sort(cuts *list)
{
    for (int i = 1; i < list->count; i++) {
        const double value = list->at[i];
        int k = i;
        for (; k > 0 && list->at[k - 1] > value; k--)
            list->at[k] = list->at[k - 1];
        list->at[k] = value;
    }
}

static cw_xy between(cw_xy a, cw_xy b, double t)
{
    return (cw_xy){a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
}

static void stroke(dxf *x, const cw_item *item, cw_xy a, cw_xy b)
{
    if (a.x == b.x && a.y == b.y) {
        if (!inside(item, a))
            return;
        open_entity(x, "POINT", CW_LAYER_HATCH, CW_DASH_NONE);
        pair_place(x, 10, a);
        return;
    }
    cuts list = {.count = 0};
    cut_by_shape(&list, item, a, b);
    sort(&list);
    double from = 0.0;
    for (int i = 0; i <= list.count; i++) {
        const double to = i < list.count ? list.at[i] : 1.0;
        if (to - from > 1e-9 && inside(item, between(a, b, (from + to) / 2.0)))
            line(x, CW_LAYER_HATCH, CW_DASH_NONE, between(a, b, from), between(a, b, to));
        from = to;
    }
}

static void shape(dxf *x, const cw_item *item)
{
    int count;
    const cw_xy *strokes = cw_fill_strokes(x->out.arena, item, &count);
    for (int i = 0; i + 1 < count; i += 2)
        stroke(x, item, strokes[i], strokes[i + 1]);
    if (item->fill == CW_FILL_SOLID)
        solid(x, item);
    if (!(item->pen.width_pt > 0.0))
        return;
    if (item->kind == CW_ITEM_ARC) {
        arc(x, item);
        return;
    }
    int start = 0;
    for (int r = 0; r < item->ring_count; r++) {
        if (item->ring_end[r] - start > 1)
            ring(x, item, start, item->ring_end[r]);
        start = item->ring_end[r];
    }
}

/* ---- text ---- */

/* Release 12 text is ASCII: signs that it has codes for, signs with a plain spelling, and the rest by number. */
static const char *ascii(dxf *x, const char *text)
{
    static const struct {
        unsigned sign;
        const char *plain;
    } signs[] = {{0xB0, "%%d"},   {0xB1, "%%p"},  {0xD8, "%%c"},   {0xBD, " 1/2"}, {0xBC, " 1/4"}, {0xBE, " 3/4"},
                 {0x215B, " 1/8"}, {0x2032, "'"}, {0x2033, "\""}, {0x2264, "<="}, {0x2265, ">="}, {0x2013, "-"},
                 {0x2014, "-"},   {0xD7, "x"},    {0xB7, "."},     {0x2026, "..."}, {0xA0, " "},  {0xB2, "2"},
                 {0xB3, "3"},     {0x2019, "'"}};
    cw_text out = cw_text_on(x->out.arena);
    for (unsigned code; (code = cw_utf8_next(&text)) != 0;) {
        size_t i = 0;
        while (i < sizeof signs / sizeof signs[0] && signs[i].sign != code)
            i++;
        if (code >= ' ' && code < 0x7F)
            cw_text_print(&out, "%c", (int)code);
        else if (i < sizeof signs / sizeof signs[0])
            cw_text_add(&out, signs[i].plain);
        else if (code > 0x7F)
            cw_text_print(&out, "\\U+%04X", code);
    }
    return cw_text_string(&out);
}

static void words(dxf *x, const cw_item *item)
{
    static const int alignments[] = {0, 1, 2};
    open_entity(x, "TEXT", item->layer, CW_DASH_NONE);
    pair_place(x, 10, item->at);
    pair_real(x, 40, item->size_pt * CW_FONT_CAP * x->unit_per_pt);
    pair_text(x, 1, ascii(x, item->text));
    if (fabs(item->angle_deg) > 1e-9)
        pair_real(x, 50, item->angle_deg);
    pair_text(x, 7, "STANDARD");
    if (item->align == CW_ALIGN_LEFT)
        return;
    pair_int(x, 72, alignments[item->align]);
    pair_place(x, 11, item->at);
}

const char *cw_dxf_write(const cw_drawing *drawing, cw_arena *arena)
{
    assert(drawing->finished);
    dxf x = {.out = cw_text_on(arena), .drawing = drawing, .unit_per_pt = 1.0 / drawing->view.scale_x};
    header(&x);
    tables(&x);
    pair_text(&x, 0, "SECTION");
    pair_text(&x, 2, "BLOCKS");
    pair_text(&x, 0, "ENDSEC");
    pair_text(&x, 0, "SECTION");
    pair_text(&x, 2, "ENTITIES");
    for (int i = 0; i < drawing->count; i++) {
        if (drawing->items[i].kind == CW_ITEM_TEXT)
            words(&x, &drawing->items[i]);
        else
            shape(&x, &drawing->items[i]);
    }
    pair_text(&x, 0, "ENDSEC");
    pair_text(&x, 0, "EOF");
    return cw_text_string(&x.out);
}
