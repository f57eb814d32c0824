/* The document model: blocks in order, nothing laid out yet. */
#include "cw/document.h"

#include <assert.h>
#include <string.h>

cw_document *cw_document_new(cw_arena *arena, cw_paper paper, cw_title_block title)
{
    cw_document *document = CW_TAKE(arena, cw_document, 1);
    *document = (cw_document){.arena = arena, .paper = paper, .title = title};
    return document;
}

static cw_doc_block *add(cw_document *document, cw_doc_block block)
{
    if (document->count == document->capacity) {
        const int capacity = document->capacity ? document->capacity * 2 : 32;
        document->blocks = cw_arena_grow(document->arena, document->blocks, (size_t)document->count,
                                         (size_t)capacity, sizeof(cw_doc_block));
        document->capacity = capacity;
    }
    document->blocks[document->count] = block;
    return &document->blocks[document->count++];
}

void cw_doc_part(cw_document *document, const char *anchor, const char *title)
{
    add(document, (cw_doc_block){.type = CW_DOC_PART, .anchor = anchor, .title = title});
}

void cw_doc_heading(cw_document *document, const char *anchor, const char *text)
{
    add(document, (cw_doc_block){.type = CW_DOC_HEADING, .anchor = anchor, .title = text});
}

void cw_doc_paragraph(cw_document *document, const char *text)
{
    add(document, (cw_doc_block){.type = CW_DOC_PARAGRAPH, .text = text});
}

void cw_doc_notice(cw_document *document, const char *word, const char *text)
{
    add(document, (cw_doc_block){.type = CW_DOC_NOTICE, .title = word, .text = text});
}

cw_table *cw_doc_table(cw_document *document, const char *anchor, const char *caption,
                       const cw_column *columns, int column_count)
{
    assert(column_count >= 1 && column_count <= CW_COLUMNS_MAX);
    cw_table *table = CW_TAKE(document->arena, cw_table, 1);
    cw_column *kept = CW_TAKE(document->arena, cw_column, column_count);
    for (int i = 0; i < column_count; i++)
        kept[i] = columns[i];
    *table = (cw_table){.arena = document->arena,
                        .caption = caption,
                        .columns = kept,
                        .column_count = column_count};
    add(document,
        (cw_doc_block){.type = CW_DOC_TABLE, .anchor = anchor, .title = caption, .table = table});
    return table;
}

cw_doc_row *cw_table_row(cw_table *table, cw_emphasis emphasis, const char *const *cells)
{
    if (table->row_count == table->capacity) {
        const int capacity = table->capacity ? table->capacity * 2 : 16;
        table->rows = cw_arena_grow(table->arena, table->rows, (size_t)table->row_count,
                                    (size_t)capacity, sizeof(cw_doc_row));
        table->capacity = capacity;
    }
    const char **kept = CW_TAKE(table->arena, const char *, table->column_count);
    for (int i = 0; i < table->column_count; i++)
        kept[i] = cells[i] ? cells[i] : "";
    table->rows[table->row_count] = (cw_doc_row){.cells = kept, .emphasis = emphasis};
    return &table->rows[table->row_count++];
}

cw_table *cw_doc_form(cw_document *document, const char *caption, const cw_column *columns,
                      int column_count, int rows, double height_pt)
{
    cw_table *table = cw_doc_table(document, NULL, caption, columns, column_count);
    table->boxed = true;
    const bool numbered = columns[0].head && strcmp(columns[0].head, "No.") == 0;
    for (int r = 0; r < rows; r++) {
        const char *cells[CW_COLUMNS_MAX] = {0};
        if (numbered)
            cells[0] = cw_arena_print(document->arena, "%d", r + 1);
        cw_table_row(table, CW_ROW_PLAIN, cells)->height_pt = height_pt;
    }
    return table;
}

void cw_doc_pairs(cw_document *document, const cw_pair *pairs, int count, int columns)
{
    cw_pair *kept = CW_TAKE(document->arena, cw_pair, count);
    for (int i = 0; i < count; i++)
        kept[i] = pairs[i];
    add(document, (cw_doc_block){.type = CW_DOC_PAIRS,
                                 .pairs = kept,
                                 .count = count,
                                 .columns = columns > 0 ? columns : 1});
}

void cw_doc_figure(cw_document *document, const char *anchor, const cw_drawing *drawing,
                   const char *caption)
{
    const cw_figure figure = {drawing, caption, anchor};
    cw_doc_figures(document, &figure, 1, 1);
}

void cw_doc_figures(cw_document *document, const cw_figure *figures, int count, int columns)
{
    cw_figure *kept = CW_TAKE(document->arena, cw_figure, count);
    for (int i = 0; i < count; i++)
        kept[i] = figures[i];
    add(document, (cw_doc_block){.type = CW_DOC_FIGURES,
                                 .figures = kept,
                                 .count = count,
                                 .columns = columns > 0 ? columns : 1});
}

void cw_doc_sign(cw_document *document, const char *const *labels, int count)
{
    const char **kept = CW_TAKE(document->arena, const char *, count);
    for (int i = 0; i < count; i++)
        kept[i] = labels[i];
    add(document,
        (cw_doc_block){.type = CW_DOC_SIGN, .labels = kept, .count = count, .columns = count});
}

void cw_doc_seal(cw_document *document, double width_pt, double height_pt, const char *text)
{
    add(document,
        (cw_doc_block){
            .type = CW_DOC_SEAL, .text = text, .width_pt = width_pt, .height_pt = height_pt});
}

void cw_doc_page_break(cw_document *document)
{
    add(document, (cw_doc_block){.type = CW_DOC_BREAK});
}

void cw_doc_sheet_list(cw_document *document)
{
    add(document, (cw_doc_block){.type = CW_DOC_SHEET_LIST});
}
