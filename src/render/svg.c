/* Drawing to SVG.  Core: no files, no library. */
#include <assert.h>
#include <math.h>
#include <stdlib.h>

#include "cw/render.h"
#include "cw/text.h"
#include "cw/units.h"

/* The one colour, dark enough to copy as black: it only repeats what line and word say. */
#define ACCENT "#1f4e79"
#define HALO_PT 2.0

/* Two decimals of a point are finer than any plotter; trailing zeros and "-0" are left out. */
static void number(cw_text *out, double value)
{
    const long hundredths = lround(value * 100);
    const long whole = labs(hundredths) / 100, rest = labs(hundredths) % 100;
    cw_text_print(out, "%s%ld", hundredths < 0 ? "-" : "", whole);
    if (rest % 10)
        cw_text_print(out, ".%02ld", rest);
    else if (rest)
        cw_text_print(out, ".%ld", rest / 10);
}

static void attribute(cw_text *out, const char *name, double value)
{
    cw_text_print(out, " %s=\"", name);
    number(out, value);
    cw_text_add(out, "\"");
}

static void escaped(cw_text *out, const char *text)
{
    for (; *text; text++) {
        const unsigned char c = (unsigned char)*text;
        if (c == '&')
            cw_text_add(out, "&amp;");
        else if (c == '<')
            cw_text_add(out, "&lt;");
        else if (c == '>')
            cw_text_add(out, "&gt;");
        else if (c == '"')
            cw_text_add(out, "&quot;");
        else if (c >= ' ' || c == '\t')
            cw_text_add_bytes(out, text, 1);
        /* Other control characters are not allowed in XML. */
    }
}

static void grey(cw_text *out, const char *name, double share)
{
    const int level = (int)lround(fmin(fmax(share, 0), 1) * 255);
    cw_text_print(out, " %s=\"#%02x%02x%02x\"", name, (unsigned)level, (unsigned)level,
                  (unsigned)level);
}

static void stroke(cw_text *out, const cw_pen *pen)
{
    if (!(pen->width_pt > 0)) {
        cw_text_add(out, " stroke=\"none\"");
        return;
    }
    if (pen->accent)
        cw_text_add(out, " stroke=\"" ACCENT "\"");
    else
        grey(out, "stroke", pen->grey);
    attribute(out, "stroke-width", pen->width_pt);
    double lengths[6];
    const int count = cw_dash_lengths_pt(pen->dash, lengths);
    if (count == 0)
        return;
    cw_text_add(out, " stroke-dasharray=\"");
    for (int i = 0; i < count; i++) {
        if (i)
            cw_text_add(out, " ");
        number(out, lengths[i]);
    }
    cw_text_add(out, "\"");
}

static void pair(cw_text *out, const char *command, cw_xy p)
{
    cw_text_add(out, command);
    number(out, p.x);
    cw_text_add(out, " ");
    number(out, p.y);
}

static void path_data(cw_text *out, const cw_item *item)
{
    int start = 0;
    for (int r = 0; r < item->ring_count; r++) {
        for (int i = start; i < item->ring_end[r]; i++)
            pair(out, i == start ? "M" : "L", item->points[i]);
        if (item->closed)
            cw_text_add(out, "Z");
        start = item->ring_end[r];
    }
}

static void arc_data(cw_text *out, const cw_item *item)
{
    const cw_xy c = item->center;
    const double r = item->radius_pt, sweep = item->to_deg - item->from_deg;
    const double a = item->from_deg * CW_RAD_PER_DEG, b = item->to_deg * CW_RAD_PER_DEG;
    const bool full = sweep >= 360;
    const cw_xy from = {c.x + r * cos(a), c.y - r * sin(a)};
    const cw_xy to = full ? (cw_xy){c.x - r * cos(a), c.y + r * sin(a)}
                          : (cw_xy){c.x + r * cos(b), c.y - r * sin(b)};
    /* A full circle takes two halves: an arc that ends where it starts is not drawn at all. */
    for (int half = 0; half < (full ? 2 : 1); half++) {
        if (half == 0)
            pair(out, "M", from);
        cw_text_add(out, "A");
        number(out, r);
        cw_text_add(out, " ");
        number(out, r);
        cw_text_print(out, " 0 %d 0", !full && sweep > 180);
        pair(out, " ", half == 0 ? to : from);
    }
    if (full)
        cw_text_add(out, "Z");
}

static void shape_data(cw_text *out, const cw_item *item)
{
    cw_text_add(out, " d=\"");
    if (item->kind == CW_ITEM_ARC)
        arc_data(out, item);
    else
        path_data(out, item);
    cw_text_add(out, "\"");
}

/* The strokes of a pattern, clipped to their shape. */
static void hatch(cw_text *out, const cw_item *item, const char *id, const cw_xy *strokes,
                  int count)
{
    cw_text_add(out, "<clipPath id=\"");
    escaped(out, id);
    cw_text_add(out, "\"><path clip-rule=\"evenodd\"");
    shape_data(out, item);
    cw_text_add(out, "/></clipPath><path class=\"hatch\" fill=\"none\" stroke-linecap=\"round\"");
    const cw_pen pen = cw_fill_pen(item->fill);
    stroke(out, &pen);
    cw_text_add(out, " clip-path=\"url(#");
    escaped(out, id);
    cw_text_add(out, ")\" d=\"");
    for (int i = 0; i + 1 < count; i += 2) {
        pair(out, "M", strokes[i]);
        pair(out, "L", strokes[i + 1]);
    }
    cw_text_add(out, "\"/>\n");
}

static void painted(cw_text *out, const cw_item *item, double ground, const cw_pen *pen)
{
    cw_text_print(out, "<path class=\"%s\"", cw_layer_name(item->layer));
    if (ground >= 0) {
        grey(out, "fill", ground);
        cw_text_add(out, " fill-rule=\"evenodd\"");
    } else {
        cw_text_add(out, " fill=\"none\"");
    }
    stroke(out, pen);
    shape_data(out, item);
    cw_text_add(out, "/>\n");
}

/* Ground first, then the pattern, then the outline over both. */
static void shape(cw_text *out, const cw_item *item, const char *prefix, int serial)
{
    const double ground = cw_fill_grey(item->fill);
    int count;
    const cw_xy *strokes = cw_fill_strokes(out->arena, item, &count);
    if (count == 0) {
        painted(out, item, ground, &item->pen);
        return;
    }
    if (ground >= 0)
        painted(out, item, ground, &(cw_pen){0});
    hatch(out, item, cw_arena_print(out->arena, "%sc%d", prefix, serial), strokes, count);
    if (item->pen.width_pt > 0)
        painted(out, item, -1, &item->pen);
}

static void words(cw_text *out, const cw_item *item)
{
    static const char *const anchors[] = {"start", "middle", "end"};
    cw_text_print(out, "<text class=\"%s\"", cw_layer_name(item->layer));
    attribute(out, "x", item->at.x);
    attribute(out, "y", item->at.y);
    attribute(out, "font-size", item->size_pt);
    if (item->weight == CW_FONT_BOLD)
        cw_text_add(out, " font-weight=\"700\"");
    if (item->align != CW_ALIGN_LEFT)
        cw_text_print(out, " text-anchor=\"%s\"", anchors[item->align]);
    if (fabs(item->angle_deg) > 1e-9) {
        cw_text_add(out, " transform=\"rotate(");
        number(out, -item->angle_deg);
        pair(out, " ", item->at);
        cw_text_add(out, ")\"");
    }
    grey(out, "fill", item->pen.grey);
    if (item->halo) {
        cw_text_add(out, " stroke=\"#fff\" paint-order=\"stroke\" stroke-linejoin=\"round\"");
        attribute(out, "stroke-width", HALO_PT);
    }
    cw_text_add(out, ">");
    escaped(out, item->text);
    cw_text_add(out, "</text>\n");
}

const char *cw_svg_write(const cw_drawing *drawing, const char *id_prefix, cw_arena *arena)
{
    assert(drawing->finished);
    cw_text out = cw_text_on(arena);
    cw_text_add(&out, "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ");
    number(&out, drawing->view.width_pt);
    cw_text_add(&out, " ");
    number(&out, drawing->view.height_pt);
    cw_text_add(&out, "\" width=\"");
    number(&out, drawing->view.width_pt);
    cw_text_add(&out, "pt\" height=\"");
    number(&out, drawing->view.height_pt);
    /* Tabular digits and no ligatures: the text is as wide as it was laid out. */
    cw_text_add(&out,
                "pt\" font-family=\"" CW_FONT_FAMILY ", '" CW_FONT_FALLBACK
                "', 'DejaVu Sans', sans-serif\" "
                "font-feature-settings=\"'tnum','calt' 0,'liga' 0\" stroke-linejoin=\"round\">\n");
    for (int i = 0; i < drawing->count; i++) {
        if (drawing->items[i].kind == CW_ITEM_TEXT)
            words(&out, &drawing->items[i]);
        else
            shape(&out, &drawing->items[i], id_prefix, i);
    }
    cw_text_add(&out, "</svg>\n");
    return cw_text_string(&out);
}
