/** @file
 * The parts of the setting book. */
#ifndef CW_BOOK_INTERNAL_H
#define CW_BOOK_INTERNAL_H

#include "cw/report.h"

typedef struct book {
    const cw_plan *plan;
    cw_arena *arena;
    cw_document *document;
    cw_room room;
} book;

/* ---- writing values ---- */

/** Value with unit, and without for a column whose heading names it. */
const char *book_value(const book *b, double value, cw_dim dim);
const char *book_number(const book *b, double value, cw_dim dim);
/** Unit of a column. */
const char *book_unit(const book *b, cw_dim dim);
/** Whole number. */
const char *book_count(const book *b, long value);

/* ---- parts, in the order of the book ---- */

void book_cover(book *b);
void book_ledger(book *b);
void book_run(book *b);
void book_ends(book *b);
void book_obstacles(book *b);
void book_water(book *b);
void book_site_water(book *b);
void book_trench(book *b);
void book_grade(book *b);
void book_backfill(book *b);
void book_ground_logs(book *b);
void book_strength(book *b);
void book_stages(book *b);
void book_lift(book *b);
void book_layout(book *b);
void book_pieces(book *b);
void book_order(book *b);
void book_stops(book *b);
void book_schedule(book *b);
void book_quantities(book *b);
void book_cut_sheet(book *b);
void book_logs(book *b);
void book_workings(book *b);
void book_assumptions(book *b);

#endif
