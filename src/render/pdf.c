/* Document to PDF with cairo and pango.  Not in the core. */
#include <cairo-pdf.h>
#include <fontconfig/fontconfig.h>
#include <math.h>
#include <pango/pangocairo.h>
#include <pango/pangofc-fontmap.h>
#include <string.h>

#include "cw/render.h"
#include "cw/units.h"

#define ACCENT_RED 0.122
#define ACCENT_GREEN 0.306
#define ACCENT_BLUE 0.475
#define HALO_PT 2.0
#define FIXED_DATE "2000-01-01T00:00:00Z" /* says nothing about the job; keeps the bytes the same  \
                                           */

typedef struct sink {
    cw_write_fn write;
    void *closure;
} sink;

typedef struct painter {
    cairo_t *cairo;
    PangoLayout *layout;
    PangoFontDescription *fonts[2]; /* regular, bold */
    cw_arena *arena;
} painter;

static cairo_status_t pass_on(void *closure, const unsigned char *bytes, unsigned length)
{
    const sink *s = closure;
    return s->write(s->closure, bytes, length) ? CAIRO_STATUS_SUCCESS : CAIRO_STATUS_WRITE_ERROR;
}

/* ---- Painting ---- */

static void set_grey(cairo_t *cairo, double grey)
{
    cairo_set_source_rgb(cairo, grey, grey, grey);
}

static void set_pen(cairo_t *cairo, const cw_pen *pen)
{
    double lengths[6];
    const int count = cw_dash_lengths_pt(pen->dash, lengths);
    cairo_set_dash(cairo, lengths, count, 0);
    cairo_set_line_width(cairo, pen->width_pt);
    if (pen->accent)
        cairo_set_source_rgb(cairo, ACCENT_RED, ACCENT_GREEN, ACCENT_BLUE);
    else
        set_grey(cairo, pen->grey);
}

static void trace(cairo_t *cairo, const cw_item *item)
{
    cairo_new_path(cairo);
    if (item->kind == CW_ITEM_ARC) {
        /* Angles count the other way round in cairo, whose y points down. */
        cairo_arc_negative(cairo, item->center.x, item->center.y, item->radius_pt,
                           -item->from_deg * CW_RAD_PER_DEG, -item->to_deg * CW_RAD_PER_DEG);
        if (item->closed)
            cairo_close_path(cairo);
        return;
    }
    int start = 0;
    for (int r = 0; r < item->ring_count; r++) {
        cairo_new_sub_path(cairo);
        for (int i = start; i < item->ring_end[r]; i++)
            cairo_line_to(cairo, item->points[i].x, item->points[i].y);
        if (item->closed)
            cairo_close_path(cairo);
        start = item->ring_end[r];
    }
}

/* Clipped once to the whole shape: clipping part by part doubles lines at the seams. */
static void paint_pattern(painter *p, const cw_item *item)
{
    int count;
    const cw_xy *strokes = cw_fill_strokes(p->arena, item, &count);
    if (count == 0)
        return;
    cairo_save(p->cairo);
    trace(p->cairo, item);
    cairo_clip(p->cairo);
    const cw_pen pen = cw_fill_pen(item->fill);
    set_pen(p->cairo, &pen);
    cairo_set_line_cap(p->cairo, CAIRO_LINE_CAP_ROUND);
    for (int i = 0; i + 1 < count; i += 2) {
        cairo_move_to(p->cairo, strokes[i].x, strokes[i].y);
        cairo_line_to(p->cairo, strokes[i + 1].x, strokes[i + 1].y);
    }
    cairo_stroke(p->cairo);
    cairo_restore(p->cairo);
}

static void paint_shape(painter *p, const cw_item *item)
{
    const double ground = cw_fill_grey(item->fill);
    if (ground >= 0) {
        trace(p->cairo, item);
        set_grey(p->cairo, ground);
        cairo_fill(p->cairo);
    }
    paint_pattern(p, item);
    if (item->pen.width_pt > 0) {
        trace(p->cairo, item);
        set_pen(p->cairo, &item->pen);
        cairo_stroke(p->cairo);
    }
}

static void paint_text(painter *p, const cw_item *item)
{
    PangoFontDescription *font = p->fonts[item->weight == CW_FONT_BOLD];
    pango_font_description_set_absolute_size(font, item->size_pt * PANGO_SCALE);
    pango_layout_set_font_description(p->layout, font);
    pango_layout_set_text(p->layout, item->text, -1);
    int width;
    pango_layout_get_size(p->layout, &width, NULL);
    const double share = item->align == CW_ALIGN_RIGHT    ? 1
                         : item->align == CW_ALIGN_CENTER ? 0.5
                                                          : 0;
    cairo_save(p->cairo);
    cairo_translate(p->cairo, item->at.x, item->at.y);
    cairo_rotate(p->cairo, -item->angle_deg * CW_RAD_PER_DEG);
    cairo_translate(p->cairo, -share * width / PANGO_SCALE,
                    -(double)pango_layout_get_baseline(p->layout) / PANGO_SCALE);
    if (item->halo) {
        cairo_new_path(p->cairo);
        pango_cairo_layout_path(p->cairo, p->layout);
        cairo_set_dash(p->cairo, NULL, 0, 0);
        cairo_set_line_width(p->cairo, HALO_PT);
        set_grey(p->cairo, 1);
        cairo_stroke(p->cairo);
    }
    set_grey(p->cairo, item->pen.grey);
    cairo_move_to(p->cairo, 0, 0);
    pango_cairo_show_layout(p->cairo, p->layout);
    cairo_restore(p->cairo);
}

static void paint_page(painter *p, const cw_drawing *page)
{
    cairo_set_fill_rule(p->cairo, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_set_line_join(p->cairo, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(p->cairo, CAIRO_LINE_CAP_BUTT);
    for (int i = 0; i < page->count; i++) {
        if (page->items[i].kind == CW_ITEM_TEXT)
            paint_text(p, &page->items[i]);
        else
            paint_shape(p, &page->items[i]);
    }
}

/* ---- Fonts ---- */

/* The private set-up holds the bundled files only when they are there; else the system's. */
static FcConfig *font_config(const char *font_dir, cw_arena *arena)
{
    if (!font_dir)
        return FcInitLoadConfigAndFonts();
    FcConfig *config = FcInitLoadConfigAndFonts();
    if (!config)
        return NULL;
    static const char *const files[] = {"Inter-Regular.otf", "Inter-Bold.otf"};
    for (int i = 0; i < 2; i++) {
        const char *path = cw_arena_print(arena, "%s/%s", font_dir, files[i]);
        FcConfigAppFontAddFile(config, (const FcChar8 *)path);
    }
    return config;
}

/* True when the family itself is there, not merely something like it: with another face every width
 * would be wrong. */
static bool has_family(FcConfig *config, const char *family)
{
    FcPattern *pattern =
        FcPatternBuild(NULL, FC_FAMILY, FcTypeString, (const FcChar8 *)family, (char *)NULL);
    FcObjectSet *objects = FcObjectSetBuild(FC_FAMILY, (char *)NULL);
    FcFontSet *set = FcFontList(config, pattern, objects);
    const bool found = set && set->nfont > 0;
    if (set)
        FcFontSetDestroy(set);
    FcObjectSetDestroy(objects);
    FcPatternDestroy(pattern);
    return found;
}

static void set_up_text(painter *p, PangoFontMap *map)
{
    PangoContext *context = pango_font_map_create_context(map);
    /* Points are points: pango counts 96 to the inch otherwise. */
    pango_cairo_context_set_resolution(context, CW_PT_PER_IN);
    cairo_font_options_t *options = cairo_font_options_create();
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    pango_cairo_context_set_font_options(context, options);
    cairo_font_options_destroy(options);
    p->layout = pango_layout_new(context);
    g_object_unref(context);

    PangoAttrList *attributes = pango_attr_list_new();
    pango_attr_list_insert(attributes, pango_attr_font_features_new("tnum=1, calt=0, liga=0"));
    pango_layout_set_attributes(p->layout, attributes);
    pango_attr_list_unref(attributes);
    pango_layout_set_single_paragraph_mode(p->layout, TRUE);
    for (int i = 0; i < 2; i++) {
        p->fonts[i] = pango_font_description_new();
        pango_font_description_set_family(p->fonts[i],
                                          CW_FONT_FAMILY ", " CW_FONT_FALLBACK ", DejaVu Sans");
        pango_font_description_set_weight(p->fonts[i], i ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    }
}

/* ---- The file ---- */

static void describe(cairo_surface_t *surface, const cw_document *document,
                     const cw_pdf_options *options, cw_arena *arena)
{
    const cw_title_block *t = &document->title;
    const char *title = cw_arena_print(arena, "%s%s%s", t->job ? t->job : "",
                                       t->job && t->set ? ": " : "", t->set ? t->set : "");
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_TITLE, title);
    if (t->prepared && *t->prepared)
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_AUTHOR, t->prepared);
    if (t->number && *t->number)
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_SUBJECT, t->number);
    if (options->program)
        cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATOR, options->program);
    const char *date = options->date_iso ? options->date_iso : FIXED_DATE;
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
    cairo_pdf_surface_set_metadata(surface, CAIRO_PDF_METADATA_MOD_DATE, date);
}

/* Bookmarks are the only way about: link tags of this cairo generation make damaged files. */
static void add_bookmarks(cairo_surface_t *surface, const cw_pages *pages, cw_arena *arena)
{
    int parent = CAIRO_PDF_OUTLINE_ROOT;
    for (int i = 0; i < pages->bookmark_count; i++) {
        const cw_bookmark *b = &pages->bookmarks[i];
        /* Places are written with fixed decimals, so that the locale does not matter. */
        const int tenths = (int)lround(fmax(b->y_pt, 0) * 10);
        const char *where =
            cw_arena_print(arena, "page=%d pos=[0 %d.%d]", b->page + 1, tenths / 10, tenths % 10);
        const bool top = b->level == 0;
        const int id = cairo_pdf_surface_add_outline(
            surface, top ? CAIRO_PDF_OUTLINE_ROOT : parent, b->title, where,
            top ? CAIRO_PDF_OUTLINE_FLAG_BOLD : (cairo_pdf_outline_flags_t)0);
        if (top)
            parent = id;
    }
}

static cairo_status_t paint_all(painter *p, cairo_surface_t *surface, const cw_pages *pages)
{
    for (int i = 0; i < pages->count; i++) {
        cairo_pdf_surface_set_page_label(surface, cw_arena_print(p->arena, "%d", i + 1));
        paint_page(p, pages->pages[i]);
        cairo_show_page(p->cairo);
    }
    add_bookmarks(surface, pages, p->arena);
    const cairo_status_t painted = cairo_status(p->cairo);
    cairo_surface_finish(surface);
    const cairo_status_t finished = cairo_surface_status(surface);
    return painted != CAIRO_STATUS_SUCCESS ? painted : finished;
}

bool cw_pdf_write(const cw_document *document, const cw_pdf_options *options, cw_write_fn write,
                  void *closure, cw_arena *arena, cw_diags *diags)
{
    const cw_pdf_options none = {0};
    if (!options)
        options = &none;
    FcConfig *config = font_config(options->font_dir, arena);
    if (!config || !has_family(config, CW_FONT_FAMILY)) {
        cw_diag_add(diags, (cw_pos){.file = options->font_dir}, CW_E_FILE,
                    "the typeface %s was not found, and without it the sheets would have no text; "
                    "install it (package fonts-inter) "
                    "or name the folder that holds Inter-Regular.otf and Inter-Bold.otf",
                    CW_FONT_FAMILY);
        if (config)
            FcConfigDestroy(config);
        return false;
    }
    const cw_pages pages = cw_document_pages(document, arena, diags);
    sink out = {write, closure};
    cairo_surface_t *surface =
        cairo_pdf_surface_create_for_stream(pass_on, &out, pages.width_pt, pages.height_pt);
    describe(surface, document, options, arena);

    PangoFontMap *map = pango_cairo_font_map_new_for_font_type(CAIRO_FONT_TYPE_FT);
    pango_fc_font_map_set_config((PangoFcFontMap *)map, config);
    painter p = {.cairo = cairo_create(surface), .arena = arena};
    set_up_text(&p, map);
    const cairo_status_t status = paint_all(&p, surface, &pages);

    for (int i = 0; i < 2; i++)
        pango_font_description_free(p.fonts[i]);
    g_object_unref(p.layout);
    cairo_destroy(p.cairo);
    cairo_surface_destroy(surface);
    pango_fc_font_map_shutdown((PangoFcFontMap *)map); // lets go of the configuration
    g_object_unref(map);
    FcConfigDestroy(config);
    if (status != CAIRO_STATUS_SUCCESS)
        cw_diag_add(diags, (cw_pos){0}, CW_E_FILE, "the PDF could not be written: %s",
                    cairo_status_to_string(status));
    return status == CAIRO_STATUS_SUCCESS;
}
