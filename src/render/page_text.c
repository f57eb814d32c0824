/* Document to plain text for a terminal.  Core. */
#include <assert.h>
#include <string.h>

#include "cw/render.h"

#include "cw/text.h"

enum { COLUMNS_LEAST = 40, COLUMNS_MOST = 200, GAP = 2, CELL_LEAST = 4 };

typedef struct writer {
    cw_text out;
    const cw_document *document;
    cw_arena *arena;
    int columns;
} writer;

static int length_of(const char *text)
{
    int count = 0;
    while (cw_utf8_next(&text))
        count++;
    return count;
}

static void repeat(cw_text *out, const char *sign, int times)
{
    for (int i = 0; i < times; i++)
        cw_text_add(out, sign);
}

/* ---- References: no pages here, so the title of the place is named ---- */

static const char *block_title(const cw_doc_block *block)
{
    return block->title ? block->title : "";
}

static bool anchor_is(const char *anchor, const char *name, size_t length)
{
    return anchor && strlen(anchor) == length && memcmp(anchor, name, length) == 0;
}

static const char *title_of_anchor(const cw_document *document, const char *name, size_t length)
{
    for (int i = 0; i < document->count; i++) {
        const cw_doc_block *block = &document->blocks[i];
        if (anchor_is(block->anchor, name, length))
            return block_title(block);
        for (int r = 0; block->type == CW_DOC_TABLE && r < block->table->row_count; r++) {
            if (anchor_is(block->table->rows[r].anchor, name, length))
                return block_title(block);
        }
        for (int f = 0; block->type == CW_DOC_FIGURES && f < block->count; f++) {
            if (anchor_is(block->figures[f].anchor, name, length))
                return block->figures[f].caption ? block->figures[f].caption : "the drawing";
        }
    }
    return "?";
}

/* "page {page:x}" and "sheet {page:x}" become the title in quotes. */
static const char *resolved(writer *w, const char *text)
{
    static const char opening[] = "{page:";
    static const char *const words[] = {"page ", "sheet "};
    if (!text)
        return "";
    cw_text out = cw_text_on(w->arena);
    for (const char *at = strstr(text, opening); at; at = strstr(text, opening)) {
        const char *name = at + strlen(opening), *end = strchr(name, '}');
        if (!end)
            break;
        size_t before = (size_t)(at - text);
        for (int i = 0; i < 2; i++) {
            const size_t length = strlen(words[i]);
            if (before >= length && memcmp(at - length, words[i], length) == 0) {
                before -= length;
                break;
            }
        }
        cw_text_add_bytes(&out, text, before);
        cw_text_print(&out, "\"%s\"", title_of_anchor(w->document, name, (size_t)(end - name)));
        text = end + 1;
    }
    cw_text_add(&out, text);
    return cw_text_string(&out);
}

/* ---- Wrapped lines ---- */

/* Length in bytes of the first line of text that is at most width characters; *next is where the
 * rest begins. */
static size_t first_line(const char *text, int width, const char **next)
{
    const char *at = text, *space = NULL;
    int used = 0;
    while (*at && *at != '\n') {
        if (*at == ' ')
            space = at;
        if (used == width) {
            const char *end = space && space > text ? space : at;
            *next = *end == ' ' ? end + 1 : end;
            return (size_t)(end - text);
        }
        cw_utf8_next(&at);
        used++;
    }
    *next = *at == '\n' ? at + 1 : at;
    return (size_t)(at - text);
}

static void paragraph(writer *w, const char *text, int indent)
{
    do {
        const char *next;
        const size_t length = first_line(text, w->columns - indent, &next);
        repeat(&w->out, " ", indent);
        cw_text_add_bytes(&w->out, text, length);
        cw_text_add(&w->out, "\n");
        text = next;
    } while (*text);
}

static void underlined(writer *w, const char *title, const char *sign)
{
    cw_text_add(&w->out, "\n");
    paragraph(w, title, 0);
    const int length = length_of(title);
    repeat(&w->out, sign, length < w->columns ? length : w->columns);
    cw_text_add(&w->out, "\n");
}

/* ---- Tables ---- */

static int longest_line(const char *text)
{
    int longest = 0;
    while (*text) {
        int length = 0;
        for (; *text && *text != '\n'; length++)
            cw_utf8_next(&text);
        text += *text == '\n';
        longest = length > longest ? length : longest;
    }
    return longest;
}

static void column_widths(writer *w, const cw_table *table, int *widths)
{
    assert(table->column_count > 0);
    int total = GAP * (table->column_count - 1);
    for (int c = 0; c < table->column_count; c++) {
        const cw_column *column = &table->columns[c];
        widths[c] = column->head ? longest_line(column->head) : 0;
        if (column->unit && length_of(column->unit) > widths[c])
            widths[c] = length_of(column->unit);
        for (int r = 0; r < table->row_count; r++) {
            if (table->rows[r].emphasis == CW_ROW_GROUP)
                continue;
            const int length = longest_line(resolved(w, table->rows[r].cells[c]));
            widths[c] = length > widths[c] ? length : widths[c];
        }
        total += widths[c];
    }
    while (total > w->columns) {
        int widest = 0;
        for (int c = 1; c < table->column_count; c++)
            widest = widths[c] > widths[widest] ? c : widest;
        if (widths[widest] <= CELL_LEAST)
            break;
        widths[widest]--;
        total--;
    }
}

static void cells_line(writer *w, const cw_table *table, const int *widths,
                       const char *const *cells)
{
    const char *rest[CW_COLUMNS_MAX];
    bool more = true;
    for (int c = 0; c < table->column_count; c++)
        rest[c] = cells[c] ? cells[c] : "";
    while (more) {
        more = false;
        int owed = 0; /* spaces that are only written when something follows */
        for (int c = 0; c < table->column_count; c++) {
            const char *next, *from = rest[c];
            const size_t bytes = first_line(from, widths[c], &next);
            const int length = length_of(cw_arena_copy(w->arena, from, bytes));
            const int left = table->columns[c].align == CW_ALIGN_RIGHT    ? widths[c] - length
                             : table->columns[c].align == CW_ALIGN_CENTER ? (widths[c] - length) / 2
                                                                          : 0;
            if (bytes) {
                repeat(&w->out, " ", owed + left);
                cw_text_add_bytes(&w->out, from, bytes);
                owed = widths[c] - left - length;
            } else {
                owed += widths[c];
            }
            owed += GAP;
            rest[c] = next;
            more = more || *next;
        }
        cw_text_add(&w->out, "\n");
    }
}

static void table_head(writer *w, const cw_table *table, const int *widths)
{
    const char *heads[CW_COLUMNS_MAX], *units[CW_COLUMNS_MAX];
    int total = GAP * (table->column_count - 1);
    bool any_head = false, any_unit = false;
    for (int c = 0; c < table->column_count; c++) {
        heads[c] = table->columns[c].head;
        units[c] = table->columns[c].unit;
        any_head = any_head || heads[c];
        any_unit = any_unit || units[c];
        total += widths[c];
    }
    if (any_head)
        cells_line(w, table, widths, heads);
    if (any_unit)
        cells_line(w, table, widths, units);
    if (any_head) {
        repeat(&w->out, "-", total);
        cw_text_add(&w->out, "\n");
    }
}

/* A blank form is only named: nobody writes on a screen. */
static void write_form(writer *w, const cw_table *table)
{
    cw_text_add(&w->out, "\n");
    paragraph(w,
              cw_arena_print(w->arena, "[form] %s: %d lines", resolved(w, table->caption),
                             table->row_count),
              0);
}

static void write_table(writer *w, const cw_table *table)
{
    if (table->boxed) {
        write_form(w, table);
        return;
    }
    int widths[CW_COLUMNS_MAX];
    column_widths(w, table, widths);
    cw_text_add(&w->out, "\n");
    if (table->caption)
        paragraph(w, resolved(w, table->caption), 0);
    table_head(w, table, widths);
    for (int r = 0; r < table->row_count; r++) {
        const cw_doc_row *row = &table->rows[r];
        if (row->emphasis == CW_ROW_GROUP) {
            paragraph(w, resolved(w, row->cells[0]), 0);
            continue;
        }
        const char *cells[CW_COLUMNS_MAX];
        for (int c = 0; c < table->column_count; c++)
            cells[c] = resolved(w, row->cells[c]);
        cells_line(w, table, widths, cells);
    }
}

/* ---- Blocks ---- */

static void write_pairs(writer *w, const cw_doc_block *block)
{
    int key = 0;
    for (int i = 0; i < block->count; i++) {
        const int length = length_of(block->pairs[i].key);
        key = length > key ? length : key;
    }
    if (key > w->columns / 2)
        key = w->columns / 2;
    const cw_column columns[] = {{.align = CW_ALIGN_LEFT}, {.align = CW_ALIGN_LEFT}};
    const cw_table shape = {.columns = columns, .column_count = 2};
    const int widths[] = {key, w->columns - key - GAP};
    cw_text_add(&w->out, "\n");
    for (int i = 0; i < block->count; i++) {
        const char *cells[] = {resolved(w, block->pairs[i].key),
                               resolved(w, block->pairs[i].value)};
        cells_line(w, &shape, widths, cells);
    }
}

static void write_sheet_list(writer *w)
{
    cw_text_add(&w->out, "\n");
    for (int i = 0; i < w->document->count; i++) {
        if (w->document->blocks[i].type == CW_DOC_PART)
            paragraph(w, w->document->blocks[i].title, 2);
    }
}

static void write_block(writer *w, const cw_doc_block *block)
{
    switch (block->type) {
    case CW_DOC_PART:
        underlined(w, block->title, "=");
        break;
    case CW_DOC_HEADING:
        underlined(w, resolved(w, block->title), "-");
        break;
    case CW_DOC_PARAGRAPH:
        cw_text_add(&w->out, "\n");
        paragraph(w, resolved(w, block->text), 0);
        break;
    case CW_DOC_NOTICE:
        cw_text_add(&w->out, "\n");
        paragraph(
            w,
            cw_arena_print(w->arena, "%s: %s", resolved(w, block->title), resolved(w, block->text)),
            0);
        break;
    case CW_DOC_TABLE:
        write_table(w, block->table);
        break;
    case CW_DOC_PAIRS:
        write_pairs(w, block);
        break;
    case CW_DOC_FIGURES:
        cw_text_add(&w->out, "\n");
        for (int i = 0; i < block->count; i++)
            paragraph(
                w, cw_arena_print(w->arena, "[drawing] %s", resolved(w, block->figures[i].caption)),
                0);
        break;
    case CW_DOC_SHEET_LIST:
        write_sheet_list(w);
        break;
    case CW_DOC_SIGN:
    case CW_DOC_SEAL:
    case CW_DOC_BREAK:
        break; /* nothing to sign on a screen */
    }
}

const char *cw_page_text(const cw_document *document, int columns, cw_arena *arena)
{
    writer w = {.out = cw_text_on(arena), .document = document, .arena = arena, .columns = columns};
    if (w.columns < COLUMNS_LEAST)
        w.columns = COLUMNS_LEAST;
    if (w.columns > COLUMNS_MOST)
        w.columns = COLUMNS_MOST;
    for (int i = 0; i < document->count; i++)
        write_block(&w, &document->blocks[i]);
    /* The first block's leading empty line is no use at the top. */
    const char *text = cw_text_string(&w.out);
    return *text == '\n' ? text + 1 : text;
}
