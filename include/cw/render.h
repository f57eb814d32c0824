/** @file
 * Back ends: drawing to SVG and DXF, document to PDF, document to plain text. */
#ifndef CW_RENDER_H
#define CW_RENDER_H

#include <stdbool.h>
#include <stddef.h>

#include "cw/arena.h"
#include "cw/diag.h"
#include "cw/document.h"
#include "cw/drawing.h"

/** SVG with real (selectable) text; stands alone, or can be put inside a page.
 * @p id_prefix makes the ids unique when several drawings share a page ("" alone).  Size in points.
 * Core only.
 * @pre the drawing is finished. */
const char *cw_svg_write(const cw_drawing *drawing, const char *id_prefix, cw_arena *arena);

/** DXF release 12 in ASCII, at true scale: one unit is the unit of the drawing's view (foot or inch), the origin its real (0, 0).
 * Layers are those of the drawing, in capitals; signs outside ASCII are spelt out.  Patterns, dimensions and leaders are lines and
 * text; grounds are left out.  Same drawing, same bytes.  Core only.
 * @pre the drawing is finished. */
const char *cw_dxf_write(const cw_drawing *drawing, cw_arena *arena);

/** Takes @p length bytes; false stops the writing (disk full). */
typedef bool (*cw_write_fn)(void *closure, const unsigned char *bytes, size_t length);

typedef struct cw_pdf_options {
    const char *font_dir; /**< folder with Inter-Regular.otf and Inter-Bold.otf, or NULL: the fonts
                             of the system */
    const char *date_iso; /**< "2024-05-01T00:00:00Z" for the metadata; NULL: a fixed date, never
                             the clock */
    const char *program;  /**< creator in the metadata */
} cw_pdf_options;

/** Write @p document as PDF.  Same document, same bytes.  Needs cairo and pango (not in the core).
 * @return true when all was written; else false with a message in @p diags (no font, write failed).
 */
bool cw_pdf_write(const cw_document *document, const cw_pdf_options *options, cw_write_fn write,
                  void *closure, cw_arena *arena, cw_diags *diags);

/** Headings, paragraphs, lists and tables as plain text of at most @p columns characters a line (40
 * .. 200); figures are named, not drawn.  Core only. */
const char *cw_page_text(const cw_document *document, int columns, cw_arena *arena);

#endif
