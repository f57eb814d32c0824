/** @file
 * The document model: what a book or sheet set says, block by block, before anyone asks how it is
 * printed.
 *
 * Text is UTF-8 and must live as long as the document.  "{page:anchor}" inside any text becomes the
 * page number of the block with that anchor.  cw_document_pages lays the document out (every page
 * is a cw_drawing); back ends only paint. */
#ifndef CW_DOCUMENT_H
#define CW_DOCUMENT_H

#include <stdbool.h>

#include "cw/arena.h"
#include "cw/diag.h"
#include "cw/drawing.h"
#include "cw/font.h"

typedef enum cw_paper {
    CW_PAPER_LETTER =
        0, /**< 8.5 x 11 in. portrait, body 8.75 pt, one column, title strip at the bottom */
    CW_PAPER_TABLOID /**< 17 x 11 in. landscape, body 11 pt (legible printed on letter), two
                        columns, title strip at the right */
} cw_paper;

/** Texts of the title block; NULL or "" leaves a field out. */
typedef struct cw_title_block {
    const char *job;    /**< name of the job */
    const char *number; /**< job or contract number */
    const char *place;  /**< route, station or owner's words */
    const char *set;    /**< name of the set: "Setting book" */
    const char *revision, *date, *prepared, *checked;
    const char *datum;  /**< datum and benchmark */
    const char *units;  /**< "US survey feet" */
    const char *status; /**< "FOR FIELD USE", "PRELIMINARY - NOT FOR SETTING" */
} cw_title_block;

typedef struct cw_column {
    const char *head; /**< heading; '\n' allowed */
    const char *unit; /**< second heading line in regular weight: "ft", or NULL */
    cw_align align;   /**< numbers right */
    double share;     /**< part of the width relative to the other columns; 0: by content */
} cw_column;

typedef enum cw_emphasis {
    CW_ROW_PLAIN = 0,
    CW_ROW_STRONG, /**< bold: totals, failed checks */
    CW_ROW_SHADED, /**< grey ground: hold points */
    CW_ROW_GROUP   /**< bold first cell over the whole width: group heading */
} cw_emphasis;

typedef struct cw_doc_row {
    const char *const *cells; /**< one per column; NULL means "" */
    cw_emphasis emphasis;
    const char *anchor; /**< or NULL */
    double height_pt;   /**< least height; 0: by the text.  Forms use it */
} cw_doc_row;

enum { CW_COLUMNS_MAX = 16 };

typedef struct cw_table {
    cw_arena *arena;
    const char *caption; /**< above the table, or NULL */
    const cw_column *columns;
    int column_count;
    cw_doc_row *rows;
    int row_count, capacity;
    bool wide;  /**< over both columns of a tabloid sheet */
    bool boxed; /**< all cells ruled: forms to write in */
} cw_table;

typedef struct cw_figure {
    const cw_drawing *drawing; /**< finished */
    const char *caption;       /**< under it, or NULL */
    const char *anchor;        /**< or NULL */
} cw_figure;

typedef struct cw_pair {
    const char *key, *value;
} cw_pair;

typedef enum cw_block_type {
    CW_DOC_PART = 0,
    CW_DOC_HEADING,
    CW_DOC_PARAGRAPH,
    CW_DOC_NOTICE,
    CW_DOC_TABLE,
    CW_DOC_PAIRS,
    CW_DOC_FIGURES,
    CW_DOC_SIGN,
    CW_DOC_SEAL,
    CW_DOC_BREAK,
    CW_DOC_SHEET_LIST
} cw_block_type;

typedef struct cw_doc_block {
    cw_block_type type;
    const char *anchor; /**< or NULL */
    const char *title;  /**< part, heading, notice word, caption */
    const char *text;
    cw_table *table;
    const cw_pair *pairs;
    const cw_figure *figures;
    const char *const *labels; /**< sign boxes */
    int count;                 /**< of pairs, figures, labels */
    int columns;               /**< of pairs, figures, labels */
    double width_pt, height_pt;
} cw_doc_block;

typedef struct cw_document {
    cw_arena *arena;
    cw_paper paper;
    cw_title_block title;
    cw_doc_block *blocks;
    int count, capacity;
} cw_document;

cw_document *cw_document_new(cw_arena *arena, cw_paper paper, cw_title_block title);

/** Room for content: width of one text column, of the whole sheet, and height.  Compose figures for
 * these. */
typedef struct cw_room {
    double column_pt;    /**< one column (all of it on letter) */
    double full_pt;      /**< across the sheet */
    double height_pt;    /**< of a page under the part's title */
    double body_pt;      /**< size of body text */
    double lettering_pt; /**< size for text in drawings (cw_drawing.text_pt); 5.9 pt or more when
                            tabloid is printed on letter */
} cw_room;
cw_room cw_paper_room(cw_paper paper);

/** New sheet, bookmark, sheet title; listed in the sheet list. */
void cw_doc_part(cw_document *document, const char *anchor, const char *title);
/** Heading and bookmark under the part.  Kept with what follows. */
void cw_doc_heading(cw_document *document, const char *anchor, const char *text);
/** '\n' starts a new line inside the paragraph. */
void cw_doc_paragraph(cw_document *document, const char *text);
/** Boxed; @p word stands bold before it: "HOLD", "CAUTION", "NOTE". */
void cw_doc_notice(cw_document *document, const char *word, const char *text);

/** An empty table to which rows are added.  The head is repeated on every page; a row is never
 * split.
 * @pre column_count <= CW_COLUMNS_MAX; @p columns is copied (the array, not the strings). */
cw_table *cw_doc_table(cw_document *document, const char *anchor, const char *caption,
                       const cw_column *columns, int column_count);
/** @p cells is copied (the array, not the strings): column_count entries. */
cw_doc_row *cw_table_row(cw_table *table, cw_emphasis emphasis, const char *const *cells);
/** Blank ruled table of @p rows rows @p height_pt high; rows are numbered in the first cell when
 * its column has the head "No.". */
cw_table *cw_doc_form(cw_document *document, const char *caption, const cw_column *columns,
                      int column_count, int rows, double height_pt);

/** Key and value lists in @p columns columns (1 or 2 usual); array is copied. */
void cw_doc_pairs(cw_document *document, const cw_pair *pairs, int count, int columns);

/** One figure, full size, centred; wider than a column goes across the sheet. */
void cw_doc_figure(cw_document *document, const char *anchor, const cw_drawing *drawing,
                   const char *caption);
/** Small figures in a grid, @p columns to a row, thin frames; rows are not split from their
 * captions.  Array is copied. */
void cw_doc_figures(cw_document *document, const cw_figure *figures, int count, int columns);

/** Boxes to sign: a label under a line, side by side. Array is copied. */
void cw_doc_sign(cw_document *document, const char *const *labels, int count);
/** Blank box for an engineer's seal, with @p text in small print at its foot. */
void cw_doc_seal(cw_document *document, double width_pt, double height_pt, const char *text);
void cw_doc_page_break(cw_document *document);
/** Table of the parts with their pages. */
void cw_doc_sheet_list(cw_document *document);

/* ---- Layout ---- */

typedef struct cw_bookmark {
    const char *title;
    int page;    /**< from 0 */
    int level;   /**< 0 part, 1 heading */
    double y_pt; /**< from the top */
} cw_bookmark;

typedef struct cw_pages {
    cw_drawing *const *pages; /**< finished drawings of the whole paper */
    int count;
    const cw_bookmark *bookmarks;
    int bookmark_count;
    double width_pt, height_pt;
} cw_pages;

/** Lay out the document.  Faults (unknown anchor, figure larger than the sheet, characters not in
 * the font) go to
 * @p diags, each once; the pages are complete all the same (a figure that is too large is left
 * out). */
cw_pages cw_document_pages(const cw_document *document, cw_arena *arena, cw_diags *diags);

#endif
