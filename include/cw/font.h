/** @file
 * Widths of the one typeface of all sheets (Inter, regular and bold), so that text is laid out
 * once, in the core, and comes out alike in the browser, in PDF and on the terminal.  The table is
 * made by tools/make-font-widths.
 *
 * Digits count as tabular (all of one width); kerning is not counted, so real text is never wider
 * than said here by more than a hair. */
#ifndef CW_FONT_H
#define CW_FONT_H

#include <stdbool.h>

#include "cw/arena.h"

/** The family that back ends must ask for; the second is for signs that the first lacks. */
#define CW_FONT_FAMILY "Inter"
#define CW_FONT_FALLBACK "DejaVu Sans Condensed"

typedef enum cw_font_weight { CW_FONT_REGULAR = 0, CW_FONT_BOLD } cw_font_weight;

typedef enum cw_align { CW_ALIGN_LEFT = 0, CW_ALIGN_CENTER, CW_ALIGN_RIGHT } cw_align;

/** Heights as shares of the size: top of capitals, top of the line box, depth below the baseline.
 */
#define CW_FONT_CAP 0.727
#define CW_FONT_ASCENT 0.80
#define CW_FONT_DESCENT 0.20

/** Width in points of one line of UTF-8 @p text.  An unknown or broken character counts 0.6 of the
 * size. */
double cw_font_width_pt(const char *text, double size_pt, cw_font_weight weight);

/** True when every character of @p text is in the table (so that it prints and was measured). */
bool cw_font_knows(const char *text);

/** Lines of @p text broken at spaces (and at '\n') so that none is wider than @p width_pt; a single
 * word that is wider is broken between characters.  Breaks never separate a number from a following
 * sign such as ° or %.
 * @return lines in the arena, at least one; their number in @p count. */
const char *const *cw_font_wrap(cw_arena *arena, const char *text, double size_pt,
                                cw_font_weight weight, double width_pt, int *count);

/** @p text, or as much of it as fits in @p width_pt closed by "…". */
const char *cw_font_shorten(cw_arena *arena, const char *text, double size_pt,
                            cw_font_weight weight, double width_pt);

/** Next code point of zero-terminated UTF-8, advancing @p at; 0 at the end, 0xFFFD for a broken
 * sequence. */
unsigned cw_utf8_next(const char **at);

#endif
