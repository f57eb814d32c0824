/* Placing figures and filling in the title blocks. */
#include <math.h>
#include <string.h>

#include "drawing_internal.h"
#include "pages_internal.h"

#define FEED 1.38
#define FRAME_PAD_PT 4.0
#define GRID_GAP_PT 10.0

/* ---- Figures ---- */

static void insert_figure(cw_flow *flow, const cw_drawing *drawing, double x, double y)
{
    for (int i = 0; i < drawing->count; i++) {
        const cw_item *item = &drawing->items[i];
        if (item->kind == CW_ITEM_TEXT && !cw_font_knows(item->text))
            cw_flow_fault(flow, CW_E_VALUE,
                          "the drawing text '%.60s' has a sign that the sheets' font does not "
                          "have; write it otherwise",
                          item->text);
    }
    cw_drawing_insert(flow->target, drawing, (cw_xy){x, y});
}

static int caption_lines(cw_flow *flow, const cw_figure *figure, double width,
                         const char *const **lines)
{
    int count = 0;
    *lines = NULL;
    if (figure->caption && *figure->caption)
        *lines = cw_font_wrap(flow->arena, cw_flow_text(flow, figure->caption), flow->sheet->small,
                              CW_FONT_REGULAR, width, &count);
    return count;
}

static bool fits_sheet(cw_flow *flow, const cw_figure *figure, double frame)
{
    const cw_sheet *sheet = flow->sheet;
    const double width = figure->drawing->view.width_pt + frame,
                 height = figure->drawing->view.height_pt + frame;
    const double most = sheet->bottom - sheet->top;
    if (width <= cw_full_width(sheet) + 0.01 && height <= most + 0.01)
        return true;
    cw_flow_fault(
        flow, CW_E_RANGE,
        "the figure '%.60s' is %.0f x %.0f pt but the sheet takes %.0f x %.0f pt; draw it smaller",
        figure->caption ? figure->caption : "", width, height, cw_full_width(sheet), most);
    return false;
}

static void single_figure(cw_flow *flow, const cw_figure *figure)
{
    const cw_sheet *sheet = flow->sheet;
    const cw_view *view = &figure->drawing->view;
    if (!fits_sheet(flow, figure, 0))
        return;
    const bool across = view->width_pt > cw_column_width(sheet) + 0.01;
    const char *const *lines;
    const int count =
        caption_lines(flow, figure, across ? cw_full_width(sheet) : cw_column_width(sheet), &lines);
    const double words = count ? count * sheet->small * FEED + 4 : 0,
                 height = view->height_pt + words;
    cw_flow_space(flow, 6);
    if (across)
        cw_flow_across(flow, height);
    else
        cw_flow_columns(flow);
    cw_flow_need(flow, height);
    cw_flow_anchor(flow, figure->anchor);
    const double left = cw_flow_left(flow), width = cw_flow_width(flow);
    insert_figure(flow, figure->drawing, left + (width - view->width_pt) / 2, flow->y);
    for (int i = 0; i < count; i++)
        cw_flow_write(flow, left,
                      flow->y + view->height_pt + 4 + sheet->small * (CW_FONT_ASCENT + i * FEED),
                      (cw_lettering){.size_pt = sheet->small, .grey = CW_MUTED_GREY}, lines[i]);
    cw_flow_use(flow, height + 6);
}

/* One row of the grid: frames of one height, captions inside them under the drawings. */
static void figure_row(cw_flow *flow, const cw_figure *figures, int count, double cell)
{
    const cw_sheet *sheet = flow->sheet;
    const double inside = cell - 2 * FRAME_PAD_PT;
    double tallest = 0;
    int most = 0;
    for (int i = 0; i < count; i++) {
        const char *const *lines;
        const int n = caption_lines(flow, &figures[i], inside, &lines);
        tallest = fmax(tallest, figures[i].drawing->view.height_pt);
        most = n > most ? n : most;
    }
    const double height = tallest + 2 * FRAME_PAD_PT + (most ? most * sheet->small * FEED + 4 : 0);
    cw_flow_need(flow, height);
    for (int i = 0; i < count; i++) {
        const double left = cw_flow_left(flow) + i * (cell + GRID_GAP_PT);
        const cw_drawing *drawing = figures[i].drawing;
        const char *const *lines;
        const int n = caption_lines(flow, &figures[i], inside, &lines);
        cw_flow_anchor(flow, figures[i].anchor);
        cw_flow_box(flow, CW_LAYER_RULE, CW_FILL_NONE, (cw_xy){left, flow->y},
                    (cw_xy){left + cell, flow->y + height});
        insert_figure(flow, drawing, left + (cell - drawing->view.width_pt) / 2,
                      flow->y + FRAME_PAD_PT);
        for (int k = 0; k < n; k++)
            cw_flow_write(flow, left + FRAME_PAD_PT,
                          flow->y + FRAME_PAD_PT + tallest + 4 +
                              sheet->small * (CW_FONT_ASCENT + k * FEED),
                          (cw_lettering){.size_pt = sheet->small}, lines[k]);
    }
    cw_flow_use(flow, height + GRID_GAP_PT);
}

void cw_place_figures(cw_flow *flow, const cw_doc_block *block)
{
    if (block->count < 1)
        return;
    if (block->columns == 1) {
        for (int i = 0; i < block->count; i++)
            single_figure(flow, &block->figures[i]);
        return;
    }
    const int columns = block->columns;
    double widest = 0;
    for (int i = 0; i < block->count; i++)
        widest = fmax(widest, block->figures[i].drawing->view.width_pt);
    const double gaps = GRID_GAP_PT * (columns - 1);
    const double cell_column = (cw_column_width(flow->sheet) - gaps) / columns;
    const bool across = widest + 2 * FRAME_PAD_PT > cell_column + 0.01;
    const double cell = across ? (cw_full_width(flow->sheet) - gaps) / columns : cell_column;
    if (widest + 2 * FRAME_PAD_PT > cell + 0.01) {
        cw_flow_fault(flow, CW_E_RANGE,
                      "figures %.0f pt wide do not go %d to a row of %.0f pt; draw them smaller",
                      widest, columns, cw_full_width(flow->sheet));
        return;
    }
    cw_flow_space(flow, 6);
    if (across)
        cw_flow_across(flow, 0);
    else
        cw_flow_columns(flow);
    for (int i = 0; i < block->count; i += columns) {
        const int in_row = block->count - i < columns ? block->count - i : columns;
        bool fit = true;
        for (int k = 0; k < in_row; k++)
            fit = fits_sheet(flow, &block->figures[i + k], 2 * FRAME_PAD_PT) && fit;
        if (fit)
            figure_row(flow, &block->figures[i], in_row, cell);
    }
}

/* ---- Title blocks ---- */

static const char *or_empty(const char *text)
{
    return text ? text : "";
}

/* Two texts with a mark between them when both are there. */
static const char *joined(cw_arena *arena, const char *a, const char *mark, const char *b)
{
    a = or_empty(a);
    b = or_empty(b);
    return cw_arena_print(arena, "%s%s%s", a, *a && *b ? mark : "", b);
}

static const char *with_key(cw_arena *arena, const char *key, const char *value)
{
    return value && *value ? cw_arena_print(arena, "%s %s", key, value) : "";
}

/* A field of the letter strip: three lines in a cell, those in the bit set @p bold stand out. */
static void strip_cell(cw_flow *flow, double left, double width, const char *const lines[3],
                       unsigned bold)
{
    const cw_sheet *sheet = flow->sheet;
    const double top = sheet->border_bottom - sheet->title_strip, pad = 6;
    for (int i = 0; i < 3; i++) {
        const bool strong = (bold >> i) & 1u;
        const cw_font_weight weight = strong ? CW_FONT_BOLD : CW_FONT_REGULAR;
        const double size = strong && i == 0 ? 8.5 : 7;
        const char *text = cw_font_shorten(flow->arena, cw_flow_text(flow, or_empty(lines[i])),
                                           size, weight, width - 2 * pad);
        cw_flow_write(flow, left + pad, top + 13.5 + 12.5 * i,
                      (cw_lettering){.size_pt = size, .weight = weight, .grey = strong ? 0 : 0.15},
                      text);
    }
    if (left > sheet->border_left)
        cw_flow_rule(flow, CW_LAYER_RULE, (cw_xy){left, top}, (cw_xy){left, sheet->border_bottom});
}

static void letter_strip(cw_flow *flow, int page)
{
    const cw_title_block *t = &flow->document->title;
    const cw_sheet *sheet = flow->sheet;
    cw_arena *arena = flow->arena;
    const double left = sheet->border_left, top = sheet->border_bottom - sheet->title_strip;
    const double widths[] = {200, 145, 136, 60};
    cw_flow_rule(flow, CW_LAYER_OUTLINE, (cw_xy){left, top}, (cw_xy){sheet->border_right, top});
    const char *job[] = {t->job, joined(arena, t->number, " · ", t->place), t->datum};
    const char *what[] = {flow->page_parts[page], t->set, t->status};
    const char *who[] = {joined(arena, with_key(arena, "Rev.", t->revision), " · ", t->date),
                         joined(arena, with_key(arena, "Prepared", t->prepared), ", ",
                                with_key(arena, "checked", t->checked)),
                         t->units};
    strip_cell(flow, left, widths[0], job, 1);
    strip_cell(flow, left + widths[0], widths[1], what, 1 | 4);
    strip_cell(flow, left + widths[0] + widths[1], widths[2], who, 0);
    const double last = left + widths[0] + widths[1] + widths[2],
                 middle = (last + sheet->border_right) / 2;
    cw_flow_rule(flow, CW_LAYER_RULE, (cw_xy){last, top}, (cw_xy){last, sheet->border_bottom});
    const cw_lettering big = {.size_pt = 13, .weight = CW_FONT_BOLD, .align = CW_ALIGN_CENTER};
    const cw_lettering small = {.size_pt = 7, .align = CW_ALIGN_CENTER, .grey = 0.15};
    cw_flow_write(flow, middle, top + 13.5, small, "Page");
    cw_flow_write(flow, middle, top + 27.5, big, cw_arena_print(arena, "%d", page + 1));
    cw_flow_write(flow, middle, top + 38.5, small,
                  cw_arena_print(arena, "of %d", flow->page_count));
}

/* One field of the tabloid strip, built upwards from @p foot; returns its top. */
static double strip_field(cw_flow *flow, double foot, const char *key, const char *value,
                          double size, cw_font_weight weight)
{
    const cw_sheet *sheet = flow->sheet;
    const double left = sheet->border_right - sheet->title_strip, pad = 8, key_size = 8;
    if (!value || !*value)
        return foot;
    int count;
    const char *const *lines = cw_font_wrap(flow->arena, cw_flow_text(flow, value), size, weight,
                                            sheet->title_strip - 2 * pad, &count);
    const double height = 5 + key_size * 1.3 + count * size * 1.3 + 5, top = foot - height;
    cw_flow_write(flow, left + pad, top + 5 + key_size * CW_FONT_ASCENT,
                  (cw_lettering){.size_pt = key_size, .grey = CW_MUTED_GREY}, key);
    for (int i = 0; i < count; i++)
        cw_flow_write(flow, left + pad,
                      top + 5 + key_size * 1.4 + size * (CW_FONT_ASCENT + 1.3 * i),
                      (cw_lettering){.size_pt = size, .weight = weight}, lines[i]);
    cw_flow_rule(flow, CW_LAYER_RULE, (cw_xy){left, top}, (cw_xy){sheet->border_right, top});
    return top;
}

static void tabloid_strip(cw_flow *flow, int page)
{
    const cw_title_block *t = &flow->document->title;
    const cw_sheet *sheet = flow->sheet;
    cw_arena *arena = flow->arena;
    const double left = sheet->border_right - sheet->title_strip;
    cw_flow_rule(flow, CW_LAYER_OUTLINE, (cw_xy){left, sheet->border_top},
                 (cw_xy){left, sheet->border_bottom});
    double y = sheet->border_bottom;
    y = strip_field(flow, y, "Sheet", cw_arena_print(arena, "%d of %d", page + 1, flow->page_count),
                    18, CW_FONT_BOLD);
    y = strip_field(flow, y, "Title", flow->page_parts[page], 13, CW_FONT_BOLD);
    y = strip_field(flow, y, "Set", t->set, 10.5, CW_FONT_REGULAR);
    y = strip_field(flow, y, "Job", t->job, 12, CW_FONT_BOLD);
    y = strip_field(flow, y, "Number and place", joined(arena, t->number, "\n", t->place), 10.5,
                    CW_FONT_REGULAR);
    y = strip_field(flow, y, "Revision and date", joined(arena, t->revision, " · ", t->date), 10.5,
                    CW_FONT_REGULAR);
    y = strip_field(flow, y, "Prepared", t->prepared, 10.5, CW_FONT_REGULAR);
    y = strip_field(flow, y, "Checked", t->checked, 10.5, CW_FONT_REGULAR);
    y = strip_field(flow, y, "Datum and units", joined(arena, t->datum, "\n", t->units), 10.5,
                    CW_FONT_REGULAR);
    strip_field(flow, y, "Status", t->status, 12, CW_FONT_BOLD);
}

/* Written last, when the number of pages is known. */
void cw_title_blocks(cw_flow *flow)
{
    const cw_sheet *sheet = flow->sheet;
    for (int page = 0; page < flow->page_count; page++) {
        flow->target = flow->pages[page];
        cw_flow_box(flow, CW_LAYER_BORDER, CW_FILL_NONE,
                    (cw_xy){sheet->border_left, sheet->border_top},
                    (cw_xy){sheet->border_right, sheet->border_bottom});
        if (flow->document->paper == CW_PAPER_LETTER)
            letter_strip(flow, page);
        else
            tabloid_strip(flow, page);
    }
}
