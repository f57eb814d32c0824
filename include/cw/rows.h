/** @file
 * Constants are rows: each with value, unit, source and status.  The same form serves the tables in data/, which are
 * compiled in, and a specification profile that the job names. */
#ifndef CW_ROWS_H
#define CW_ROWS_H

#include <stdbool.h>

#include "cw/arena.h"
#include "cw/diag.h"
#include "cw/quantity.h"

/** How far a value may be trusted. */
typedef enum cw_status {
    CW_STATUS_READ,     /**< S: read in the source */
    CW_STATUS_MEMORY,   /**< M: from memory, not verified */
    CW_STATUS_PRACTICE, /**< P: common practice, no source */
    CW_STATUS_CONTRACT  /**< C: set by the job (override) with its reason */
} cw_status;

typedef struct cw_row {
    const char *id;    /**< "joint.gap_max" */
    double value;      /**< in the stored unit of @c dim */
    cw_dim dim;
    double low, high;  /**< sensible limits, inclusive */
    const char *source, *edition, *clause;
    cw_status status;
    const char *note;
} cw_row;

typedef struct cw_rows {
    const cw_row *items;
    int count;
} cw_rows;

/** All rows compiled in from data/ (made by tools/compile-data), sorted by id. */
extern const cw_rows cw_data;

/** The row with this id, or NULL. */
const cw_row *cw_rows_find(const cw_rows *rows, const char *id);

/** Value of a row that is known to be there: one of data/, which is compiled in. */
double cw_rows_value(const cw_rows *rows, const char *id);

/** How a row names the stored unit of @p dim: "in", "pcf", "ratio"; "" for what no row holds. */
const char *cw_row_unit(cw_dim dim);

/** "read", "from memory, not verified", "common practice", "set by this job". */
const char *cw_status_words(cw_status status);

/** Source, edition and clause in one phrase, with the status when it is not read. */
const char *cw_row_source(cw_arena *arena, const cw_row *row);

/** Parse a CSV (RFC 4180) with the heading id,value,unit,low,high,source,edition,clause,status,note.  Rows with faults
 * are reported at @p file and left out.  Sorted by id. */
cw_rows cw_rows_parse(const char *text, const char *file, cw_arena *arena, cw_diags *diags);

#endif
