/* Laying a document out on pages: the flow, and the blocks of text. */
#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "cw/text.h"
#include "drawing_internal.h"
#include "pages_internal.h"

#define FEED 1.38 /* line distance as a share of the size */
enum { PASSES_MAX = 6 };

static const cw_sheet sheets[] = {
    [CW_PAPER_LETTER] = {.width = 612,
                         .height = 792,
                         .border_left = 43,
                         .border_top = 28,
                         .border_right = 584,
                         .border_bottom = 764,
                         .left = 55,
                         .right = 572,
                         .top = 40,
                         .bottom = 710,
                         .gap = 0,
                         .columns = 1,
                         .body = 8.75,
                         .table = 8.25,
                         .small = 7.25,
                         .heading = 10.5,
                         .part = 14,
                         .title_strip = 46},
    [CW_PAPER_TABLOID] = {.width = 1224,
                          .height = 792,
                          .border_left = 48,
                          .border_top = 30,
                          .border_right = 1194,
                          .border_bottom = 762,
                          .left = 64,
                          .right = 1020,
                          .top = 46,
                          .bottom = 746,
                          .gap = 28,
                          .columns = 2,
                          .body = 11,
                          .table = 10.5,
                          .small = 9.5,
                          .heading = 13.5,
                          .part = 18,
                          .title_strip = 158},
};

const cw_sheet *cw_sheet_of(cw_paper paper)
{
    return &sheets[paper];
}

double cw_full_width(const cw_sheet *sheet)
{
    return sheet->right - sheet->left;
}

double cw_column_width(const cw_sheet *sheet)
{
    return (cw_full_width(sheet) - sheet->gap * (sheet->columns - 1)) / sheet->columns;
}

static double part_height(const cw_sheet *sheet)
{
    return sheet->part * 2.0;
}

cw_room cw_paper_room(cw_paper paper)
{
    const cw_sheet *sheet = cw_sheet_of(paper);
    const double caption = sheet->small * FEED + 12;
    return (cw_room){.column_pt = cw_column_width(sheet),
                     .full_pt = cw_full_width(sheet),
                     .body_pt = sheet->body,
                     .lettering_pt = paper == CW_PAPER_LETTER ? 7.5 : 9.25,
                     .height_pt = floor(sheet->bottom - sheet->top - part_height(sheet) - caption)};
}

/* ---- Flow ---- */

double cw_flow_left(const cw_flow *flow)
{
    if (flow->column < 0)
        return flow->sheet->left;
    return flow->sheet->left + flow->column * (cw_column_width(flow->sheet) + flow->sheet->gap);
}

double cw_flow_width(const cw_flow *flow)
{
    return flow->column < 0 ? cw_full_width(flow->sheet) : cw_column_width(flow->sheet);
}

void cw_flow_new_page(cw_flow *flow)
{
    if (flow->page_count == flow->page_capacity) {
        const int capacity = flow->page_capacity ? flow->page_capacity * 2 : 16;
        flow->pages = cw_arena_grow(flow->arena, flow->pages, (size_t)flow->page_count,
                                    (size_t)capacity, sizeof *flow->pages);
        flow->page_parts = cw_arena_grow(flow->arena, flow->page_parts, (size_t)flow->page_count,
                                         (size_t)capacity, sizeof *flow->page_parts);
        flow->page_capacity = capacity;
    }
    const cw_view view = {.width_pt = flow->sheet->width,
                          .height_pt = flow->sheet->height,
                          .scale_x = 1,
                          .scale_y = 1};
    flow->target = flow->pages[flow->page_count] = cw_drawing_new(flow->arena, view);
    flow->page_parts[flow->page_count++] = flow->part;
    flow->y = flow->region_top = flow->region_low = flow->sheet->top;
    flow->fresh = true;
    if (flow->column > 0)
        flow->column = 0;
}

bool cw_flow_need(cw_flow *flow, double height_pt)
{
    if (flow->y + height_pt <= flow->sheet->bottom + 0.01)
        return false;
    if (flow->column >= 0 && flow->column + 1 < flow->sheet->columns) {
        flow->region_low = fmax(flow->region_low, flow->y);
        flow->column++;
        flow->y = flow->region_top;
        flow->fresh = true;
        if (flow->y + height_pt <= flow->sheet->bottom + 0.01)
            return true;
    } else if (flow->fresh && flow->y <= flow->sheet->top + 0.01) {
        return false; /* an empty page does not get any larger */
    }
    cw_flow_new_page(flow);
    return true;
}

void cw_flow_across(cw_flow *flow, double height_pt)
{
    if (flow->column >= 0) {
        flow->y = fmax(flow->y, flow->region_low);
        flow->fresh = flow->y <= flow->sheet->top + 0.01;
    }
    flow->column = -1;
    cw_flow_need(flow, height_pt);
}

void cw_flow_columns(cw_flow *flow)
{
    if (flow->column >= 0)
        return;
    flow->column = 0;
    flow->region_top = flow->region_low = flow->y;
}

void cw_flow_space(cw_flow *flow, double height_pt)
{
    if (!flow->fresh)
        flow->y += height_pt;
}

void cw_flow_use(cw_flow *flow, double height_pt)
{
    flow->y += height_pt;
    flow->fresh = false;
}

void cw_flow_fault(cw_flow *flow, cw_code code, const char *format, ...)
{
    if (!flow->diags)
        return;
    char message[400];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(message, sizeof message, format, arguments);
    va_end(arguments);
    for (int i = 0; i < flow->diags->count; i++) {
        if (cw_text_same(flow->diags->items[i].message, message))
            return;
    }
    cw_diag_add(flow->diags, (cw_pos){0}, code, "%s", message);
}

void cw_flow_write(cw_flow *flow, double x, double baseline, cw_lettering lettering,
                   const char *text)
{
    if (!*text)
        return;
    if (!cw_font_knows(text))
        cw_flow_fault(
            flow, CW_E_VALUE,
            "the text '%.60s' has a sign that the sheets' font does not have; write it otherwise",
            text);
    const cw_text_style style = {
        .weight = lettering.weight, .align = lettering.align, .grey = lettering.grey};
    cw_item_add(flow->target,
                cw_paper_text(flow->target, (cw_xy){x, baseline}, text, lettering.size_pt, style));
}

void cw_flow_rule(cw_flow *flow, cw_layer layer, cw_xy from, cw_xy to)
{
    cw_paper_line(flow->target, layer, from, to);
}

void cw_flow_box(cw_flow *flow, cw_layer layer, cw_fill fill, cw_xy min, cw_xy max)
{
    const cw_xy corners[] = {min, {max.x, min.y}, max, {min.x, max.y}};
    cw_paper_path(flow->target, layer, fill, corners, 4, true);
}

void cw_flow_shade(cw_flow *flow, cw_xy min, cw_xy max)
{
    cw_flow_box(flow, CW_LAYER_GRID, CW_FILL_SHADE, min, max);
    flow->target->items[flow->target->count - 1].pen.width_pt = 0;
}

/* ---- References ---- */

void cw_flow_anchor(cw_flow *flow, const char *name)
{
    if (!name || !*name)
        return;
    cw_anchors *anchors = &flow->anchors;
    for (int i = 0; i < anchors->count; i++) {
        if (strcmp(anchors->items[i].name, name) == 0) {
            cw_flow_fault(flow, CW_E_DUPLICATE,
                          "the anchor '%s' is given twice in the document; rename one", name);
            return;
        }
    }
    if (anchors->count == anchors->capacity) {
        const int capacity = anchors->capacity ? anchors->capacity * 2 : 32;
        anchors->items = cw_arena_grow(flow->arena, anchors->items, (size_t)anchors->count,
                                       (size_t)capacity, sizeof(cw_anchor));
        anchors->capacity = capacity;
    }
    anchors->items[anchors->count++] = (cw_anchor){name, flow->page_count - 1};
}

/* Page number of an anchor from the last pass; "00" holds its place in the first. */
static const char *page_number(cw_flow *flow, const char *name, size_t length)
{
    if (!flow->known)
        return "00";
    for (int i = 0; i < flow->known->count; i++) {
        const char *candidate = flow->known->items[i].name;
        if (strlen(candidate) == length && memcmp(candidate, name, length) == 0)
            return cw_arena_print(flow->arena, "%d", flow->known->items[i].page + 1);
    }
    cw_flow_fault(flow, CW_E_MISSING, "no block has the anchor '%.*s' that a page reference names",
                  (int)length, name);
    return "?";
}

const char *cw_flow_text(cw_flow *flow, const char *text)
{
    static const char opening[] = "{page:";
    if (!text)
        return "";
    const char *at = strstr(text, opening);
    if (!at)
        return text;
    cw_text out = cw_text_on(flow->arena);
    while (at) {
        const char *name = at + strlen(opening), *end = strchr(name, '}');
        if (!end)
            break;
        cw_text_add_bytes(&out, text, (size_t)(at - text));
        cw_text_add(&out, page_number(flow, name, (size_t)(end - name)));
        text = end + 1;
        at = strstr(text, opening);
    }
    cw_text_add(&out, text);
    return cw_text_string(&out);
}

static void bookmark(cw_flow *flow, const char *title, int level)
{
    if (flow->bookmark_count == flow->bookmark_capacity) {
        const int capacity = flow->bookmark_capacity ? flow->bookmark_capacity * 2 : 32;
        flow->bookmarks = cw_arena_grow(flow->arena, flow->bookmarks, (size_t)flow->bookmark_count,
                                        (size_t)capacity, sizeof(cw_bookmark));
        flow->bookmark_capacity = capacity;
    }
    flow->bookmarks[flow->bookmark_count++] =
        (cw_bookmark){title, flow->page_count - 1, level, flow->y};
}

/* ---- Blocks of text ---- */

static void note_part(cw_flow *flow, const char *title)
{
    if (flow->part_count == flow->part_capacity) {
        const int capacity = flow->part_capacity ? flow->part_capacity * 2 : 16;
        flow->parts = cw_arena_grow(flow->arena, flow->parts, (size_t)flow->part_count,
                                    (size_t)capacity, sizeof(cw_part_entry));
        flow->part_capacity = capacity;
    }
    flow->parts[flow->part_count++] = (cw_part_entry){title, flow->page_count - 1};
}

static void place_part(cw_flow *flow, const cw_doc_block *block)
{
    const cw_sheet *sheet = flow->sheet;
    flow->part = block->title;
    flow->column = 0;
    cw_flow_new_page(flow);
    note_part(flow, block->title);
    cw_flow_anchor(flow, block->anchor);
    bookmark(flow, block->title, 0);
    const double baseline = sheet->top + sheet->part * CW_FONT_ASCENT;
    const char *title =
        cw_font_shorten(flow->arena, block->title, sheet->part, CW_FONT_BOLD, cw_full_width(sheet));
    cw_flow_write(flow, sheet->left, baseline,
                  (cw_lettering){.size_pt = sheet->part, .weight = CW_FONT_BOLD}, title);
    const double line = baseline + sheet->part * 0.5;
    cw_flow_rule(flow, CW_LAYER_OUTLINE, (cw_xy){sheet->left, line}, (cw_xy){sheet->right, line});
    flow->y = flow->region_top = flow->region_low = sheet->top + part_height(sheet);
}

/* More of a page than this is no company for a heading. */
#define HEADING_PART 0.85

/* Room that a heading asks for: itself, and the first lines of what follows or the whole of a figure. */
static double heading_needs_pt(const cw_sheet *sheet, const cw_doc_block *next)
{
    const double own_pt = sheet->heading * FEED, lines_pt = 5 * sheet->body * FEED;
    const bool figure = next && next->type == CW_DOC_FIGURES && next->count > 0;
    const double figure_pt = figure ? next->figures[0].drawing->view.height_pt + sheet->body : 0.0;
    // A figure of a whole page stands alone anyway.
    const bool goes = own_pt + figure_pt < (sheet->bottom - sheet->top) * HEADING_PART;
    return own_pt + (goes ? fmax(lines_pt, figure_pt) : lines_pt);
}

static void place_heading(cw_flow *flow, const cw_doc_block *block, const cw_doc_block *next)
{
    const cw_sheet *sheet = flow->sheet;
    cw_flow_columns(flow);
    cw_flow_space(flow, sheet->heading * 1.0);
    cw_flow_need(flow, heading_needs_pt(sheet, next));
    cw_flow_anchor(flow, block->anchor);
    bookmark(flow, block->title, 1);
    int count;
    const char *const *lines =
        cw_font_wrap(flow->arena, cw_flow_text(flow, block->title), sheet->heading, CW_FONT_BOLD,
                     cw_flow_width(flow), &count);
    for (int i = 0; i < count; i++) {
        cw_flow_write(flow, cw_flow_left(flow), flow->y + sheet->heading * CW_FONT_ASCENT,
                      (cw_lettering){.size_pt = sheet->heading, .weight = CW_FONT_BOLD}, lines[i]);
        cw_flow_use(flow, sheet->heading * 1.3);
    }
    flow->y += sheet->heading * 0.15;
}

static void place_paragraph(cw_flow *flow, const cw_doc_block *block)
{
    const cw_sheet *sheet = flow->sheet;
    const double feed = sheet->body * FEED;
    int count;
    cw_flow_columns(flow);
    const char *const *lines =
        cw_font_wrap(flow->arena, cw_flow_text(flow, block->text), sheet->body, CW_FONT_REGULAR,
                     cw_flow_width(flow), &count);
    cw_flow_space(flow, sheet->body * 0.35);
    for (int i = 0; i < count; i++) {
        /* No single first or last line alone in a column. */
        int keep = i == count - 2 ? 2 : 1;
        if (i == 0)
            keep = count <= 4 ? count : 2;
        cw_flow_need(flow, keep * feed);
        cw_flow_write(flow, cw_flow_left(flow), flow->y + sheet->body * CW_FONT_ASCENT,
                      (cw_lettering){.size_pt = sheet->body}, lines[i]);
        cw_flow_use(flow, feed);
    }
    flow->y += sheet->body * 0.35;
}

static void place_notice(cw_flow *flow, const cw_doc_block *block)
{
    const cw_sheet *sheet = flow->sheet;
    const double size = sheet->body, feed = size * FEED, pad = size * 0.75;
    const char *word = cw_flow_text(flow, block->title);
    cw_flow_columns(flow);
    const double indent = cw_font_width_pt(word, size, CW_FONT_BOLD) + size * 1.2;
    int count;
    const char *const *lines =
        cw_font_wrap(flow->arena, cw_flow_text(flow, block->text), size, CW_FONT_REGULAR,
                     cw_flow_width(flow) - indent - 2 * pad, &count);
    const double height = (count - 1) * feed + size * (CW_FONT_CAP + 0.2) + 2 * pad;
    cw_flow_space(flow, size * 0.6);
    cw_flow_need(flow, height);
    const double left = cw_flow_left(flow), baseline = flow->y + pad + size * (CW_FONT_CAP + 0.05);
    cw_flow_box(flow, CW_LAYER_OUTLINE, CW_FILL_NONE, (cw_xy){left, flow->y},
                (cw_xy){left + cw_flow_width(flow), flow->y + height});
    cw_flow_write(flow, left + pad, baseline,
                  (cw_lettering){.size_pt = size, .weight = CW_FONT_BOLD}, word);
    for (int i = 0; i < count; i++)
        cw_flow_write(flow, left + pad + indent, baseline + i * feed,
                      (cw_lettering){.size_pt = size}, lines[i]);
    cw_flow_use(flow, height);
    flow->y += size * 0.75;
}

/* Pairs run down the first column, then down the second. */
static void place_pairs(cw_flow *flow, const cw_doc_block *block)
{
    const cw_sheet *sheet = flow->sheet;
    const double size = sheet->body, feed = size * FEED, gap = size * 2;
    cw_flow_columns(flow);
    cw_flow_space(flow, size * 0.35);
    const int columns = block->columns, rows = (block->count + columns - 1) / columns;
    const double column = (cw_flow_width(flow) - gap * (columns - 1)) / columns;
    double key_width = 0;
    for (int i = 0; i < block->count; i++)
        key_width = fmax(key_width, cw_font_width_pt(block->pairs[i].key, size, CW_FONT_REGULAR));
    key_width = fmin(key_width + size, column * 0.5);
    for (int r = 0; r < rows; r++) {
        int tallest = 1;
        for (int pass = 0; pass < 2; pass++) {
            if (pass == 1)
                cw_flow_need(flow, tallest * feed);
            for (int c = 0; c < columns && c * rows + r < block->count; c++) {
                const cw_pair *pair = &block->pairs[c * rows + r];
                const double left = cw_flow_left(flow) + c * (column + gap);
                int keys, values;
                const char *const *key =
                    cw_font_wrap(flow->arena, cw_flow_text(flow, pair->key), size, CW_FONT_REGULAR,
                                 key_width - size * 0.5, &keys);
                const char *const *value =
                    cw_font_wrap(flow->arena, cw_flow_text(flow, pair->value), size,
                                 CW_FONT_REGULAR, column - key_width, &values);
                tallest = keys > tallest ? keys : tallest;
                tallest = values > tallest ? values : tallest;
                if (pass == 0)
                    continue;
                const double baseline = flow->y + size * CW_FONT_ASCENT;
                for (int i = 0; i < keys; i++)
                    cw_flow_write(flow, left, baseline + i * feed,
                                  (cw_lettering){.size_pt = size, .grey = CW_MUTED_GREY}, key[i]);
                for (int i = 0; i < values; i++)
                    cw_flow_write(flow, left + key_width, baseline + i * feed,
                                  (cw_lettering){.size_pt = size}, value[i]);
            }
        }
        cw_flow_use(flow, tallest * feed + size * 0.12);
    }
    flow->y += size * 0.35;
}

static void place_sign(cw_flow *flow, const cw_doc_block *block)
{
    const cw_sheet *sheet = flow->sheet;
    const double gap = 16, room = 30, height = room + sheet->small * FEED + 2;
    if (block->count < 1)
        return;
    cw_flow_columns(flow);
    cw_flow_space(flow, sheet->body);
    cw_flow_need(flow, height);
    const double width = (cw_flow_width(flow) - gap * (block->count - 1)) / block->count;
    for (int i = 0; i < block->count; i++) {
        const double left = cw_flow_left(flow) + i * (width + gap), line = flow->y + room;
        cw_flow_rule(flow, CW_LAYER_DIMENSION, (cw_xy){left, line}, (cw_xy){left + width, line});
        cw_flow_write(
            flow, left, line + sheet->small * 1.15,
            (cw_lettering){.size_pt = sheet->small, .grey = CW_MUTED_GREY},
            cw_font_shorten(flow->arena, block->labels[i], sheet->small, CW_FONT_REGULAR, width));
    }
    cw_flow_use(flow, height + sheet->body * 0.4);
}

static void place_seal(cw_flow *flow, const cw_doc_block *block)
{
    const cw_sheet *sheet = flow->sheet;
    cw_flow_columns(flow);
    cw_flow_space(flow, sheet->body);
    cw_flow_need(flow, block->height_pt);
    const double left = cw_flow_left(flow), foot = flow->y + block->height_pt;
    cw_flow_box(flow, CW_LAYER_OUTLINE, CW_FILL_NONE, (cw_xy){left, flow->y},
                (cw_xy){left + block->width_pt, foot});
    int count;
    const char *const *lines =
        cw_font_wrap(flow->arena, cw_flow_text(flow, block->text), sheet->small, CW_FONT_REGULAR,
                     block->width_pt - 12, &count);
    for (int i = 0; i < count; i++)
        cw_flow_write(flow, left + 6, foot - 6 - (count - 1 - i) * sheet->small * FEED,
                      (cw_lettering){.size_pt = sheet->small, .grey = CW_MUTED_GREY}, lines[i]);
    cw_flow_use(flow, block->height_pt + sheet->body * 0.5);
}

static void place_block(cw_flow *flow, const cw_doc_block *block, const cw_doc_block *next)
{
    switch (block->type) {
    case CW_DOC_PART:
        place_part(flow, block);
        break;
    case CW_DOC_HEADING:
        place_heading(flow, block, next);
        break;
    case CW_DOC_PARAGRAPH:
        place_paragraph(flow, block);
        break;
    case CW_DOC_NOTICE:
        place_notice(flow, block);
        break;
    case CW_DOC_TABLE:
        cw_place_table(flow, block);
        break;
    case CW_DOC_PAIRS:
        place_pairs(flow, block);
        break;
    case CW_DOC_FIGURES:
        cw_place_figures(flow, block);
        break;
    case CW_DOC_SIGN:
        place_sign(flow, block);
        break;
    case CW_DOC_SEAL:
        place_seal(flow, block);
        break;
    case CW_DOC_BREAK:
        if (flow->column > 0)
            flow->column = 0;
        cw_flow_new_page(flow);
        break;
    case CW_DOC_SHEET_LIST:
        cw_place_sheet_list(flow);
        break;
    }
}

/* ---- Passes ---- */

static cw_flow *run_pass(const cw_document *document, cw_arena *arena, const cw_flow *last,
                         cw_diags *diags)
{
    cw_flow *flow = CW_TAKE(arena, cw_flow, 1);
    *flow = (cw_flow){.document = document,
                      .sheet = cw_sheet_of(document->paper),
                      .arena = arena,
                      .diags = diags,
                      .part = ""};
    if (last) {
        flow->known = &last->anchors;
        flow->known_parts = last->parts;
        flow->known_part_count = last->part_count;
    }
    if (document->count == 0 || document->blocks[0].type != CW_DOC_PART)
        cw_flow_new_page(flow);
    for (int i = 0; i < document->count; i++)
        place_block(flow, &document->blocks[i],
                    i + 1 < document->count ? &document->blocks[i + 1] : NULL);
    return flow;
}

static bool same_places(const cw_flow *a, const cw_flow *b)
{
    if (a->anchors.count != b->anchors.count || a->part_count != b->part_count ||
        a->page_count != b->page_count)
        return false;
    for (int i = 0; i < a->anchors.count; i++) {
        if (a->anchors.items[i].page != b->anchors.items[i].page)
            return false;
    }
    for (int i = 0; i < a->part_count; i++) {
        if (a->parts[i].page != b->parts[i].page)
            return false;
    }
    return true;
}

cw_pages cw_document_pages(const cw_document *document, cw_arena *arena, cw_diags *diags)
{
    cw_flow *last = run_pass(document, arena, NULL, NULL);
    for (int pass = 1; pass < PASSES_MAX; pass++) {
        cw_flow *next = run_pass(document, arena, last, NULL);
        const bool settled = same_places(last, next);
        last = next;
        if (settled)
            break;
    }
    /* Once more with the settled numbers, now speaking up. */
    cw_flow *flow = run_pass(document, arena, last, diags);
    cw_title_blocks(flow);
    for (int i = 0; i < flow->page_count; i++)
        cw_drawing_finish(flow->pages[i]);
    return (cw_pages){.pages = flow->pages,
                      .count = flow->page_count,
                      .bookmarks = flow->bookmarks,
                      .bookmark_count = flow->bookmark_count,
                      .width_pt = flow->sheet->width,
                      .height_pt = flow->sheet->height};
}
