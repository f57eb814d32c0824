/** @file
 * Faults of the input: each with its place, a stable code, the value, the limit and a remedy.
 * All faults of one pass are collected; none stops the reading of the rest. */
#ifndef CW_DIAG_H
#define CW_DIAG_H

#include <stdbool.h>

#include "cw/arena.h"

/** A place in an input file.  line and column count from 1 (column in characters); 0 means unknown.
 * @c path is the place in the job tree ("box.span", "openings[2].at"), or NULL. */
typedef struct cw_pos {
    const char *file;
    const char *path;
    int line, column;
} cw_pos;

/** Stable codes.  Each has a paragraph in docs/errors.md (a test checks that none lacks one). */
typedef enum cw_code {
    CW_E_SYNTAX = 101,     /**< the file is not well formed */
    CW_E_UNKNOWN_KEY,      /**< 102: a key that the format does not have */
    CW_E_RANGE,            /**< 103: a value outside its limits */
    CW_E_UNIT,             /**< 104: a value without a unit, or with one of another kind */
    CW_E_VALUE,            /**< 105: a value that cannot be read as what it should be */
    CW_E_MISSING,          /**< 106: a needed entry is not there */
    CW_E_DUPLICATE,        /**< 107: a key given twice */
    CW_E_KIND,             /**< 108: a list where a map is wanted, and so on */
    CW_E_CHOICE,           /**< 109: a word that is not one of the choices */
    CW_E_TOO_MANY,         /**< 110: more items than the program takes */
    CW_E_CONFLICT,         /**< 111: two entries that cannot both hold */
    CW_E_GEOMETRY,         /**< 112: dimensions that make no shape */
    CW_E_FILE,             /**< 113: a file that cannot be read or written */
    CW_E_NO_LAYOUT = 201,  /**< no division into pieces meets the constraints */
    CW_E_NO_SOLUTION,      /**< 202: an iteration found no answer */
    CW_W_MEMORY = 301,     /**< warning: a result rests on a value from memory or practice */
    CW_W_ASSUMED           /**< 302: warning: a default was used */
} cw_code;

typedef struct cw_diag {
    cw_pos where;
    cw_code code;
    const char *message; /**< value, limit and remedy in one sentence */
} cw_diag;

/** Bound on kept findings; further ones are only counted. */
enum { CW_DIAGS_MAX = 400 };

typedef struct cw_diags {
    cw_arena *arena;
    cw_diag *items;
    int count, capacity;
    int dropped; /**< findings past CW_DIAGS_MAX */
} cw_diags;

cw_diags cw_diags_on(cw_arena *arena);

__attribute__((format(printf, 4, 5))) void cw_diag_add(cw_diags *diags, cw_pos where, cw_code code,
                                                       const char *format, ...);

/** Sort by file, line, column, then order of finding; exact repeats at one place are dropped. */
void cw_diags_sort(cw_diags *diags);

/** One line: "file:line:column: error 103: message" (parts that are unknown are left out). */
const char *cw_diag_line(cw_arena *arena, const cw_diag *diag);

/** "error" or "warning". */
const char *cw_code_kind(cw_code code);

/** All codes with a one-line meaning, for the documentation and its test; NULL past the end. */
typedef struct cw_code_row {
    cw_code code;
    const char *meaning;
} cw_code_row;
const cw_code_row *cw_code_at(int index);

#endif
