/** @file
 * One descriptor of one named value.  The same tables drive the job reader, its JSON Schema, the starter file, the
 * calculators on every face, the documentation and the tests. */
#ifndef CW_FIELD_H
#define CW_FIELD_H

#include <stdbool.h>
#include <stddef.h>

#include "cw/diag.h"
#include "cw/quantity.h"
#include "cw/rows.h"

typedef enum cw_kind {
    CW_KIND_NUMBER, /**< double */
    CW_KIND_COUNT,  /**< int, dim CW_DIM_COUNT */
    CW_KIND_CHOICE, /**< int, index into choices */
    CW_KIND_FLAG,   /**< bool, yes or no */
    CW_KIND_TEXT,   /**< const char * */
    CW_KIND_LIST    /**< cw_list of doubles */
} cw_kind;

enum { CW_LIST_MAX = 64 };

typedef struct cw_list {
    int count;
    double items[CW_LIST_MAX];
} cw_list;

/** Open ends of a range. */
#define CW_ANY_LOW (-1e15)
#define CW_ANY_HIGH 1e15

typedef struct cw_field {
    const char *key;      /**< as typed: "clear_gap" */
    const char *symbol;   /**< in formulas, or NULL */
    cw_kind kind;
    cw_dim dim;
    double low, high;     /**< inclusive; for LIST each item; unused for text, flag, choice */
    const char *fallback; /**< default as a person would type it, "@row.id" to take it from the profile or data, or NULL */
    bool required;        /**< no fallback and must be given; with neither the field is optional */
    const char *meaning;  /**< one sentence, no final stop needed */
    const char *source;   /**< of the limits or the default; NULL when the fallback is a row or there is none */
    const char *const *choices; /**< NULL-terminated words, for CHOICE */
    size_t offset;        /**< of the value in its struct */
    size_t has_offset;    /**< of a bool that tells whether an optional value was given; CW_NO_FLAG when none */
} cw_field;

#define CW_NO_FLAG ((size_t)-1)

/** Read @p text as @p field into @p base (the struct that the offsets refer to).  Faults go to @p diags at @p where with
 * value, limit and remedy.  Returns true when the value was stored. */
bool cw_field_read(const cw_field *field, const char *text, void *base, cw_pos where, cw_arena *arena,
                   cw_diags *diags);

/** Limits of every number, count, choice and list of @p fields in the struct at @p input, for callers that filled it
 * themselves; an optional number that was not given is passed over.  Faults go to @p diags. */
bool cw_fields_in_range(const cw_field *fields, int count, const void *input, cw_pos where, cw_diags *diags);

/** What may be written: "a length such as ...", "lid, double-u or ring", "a whole number from 1 to 8". */
const char *cw_field_hint(cw_arena *arena, const cw_field *field);

/** The stored value as text that cw_field_read() takes back. */
const char *cw_field_write(const cw_field *field, const void *base, cw_arena *arena);

/** The stored value as people read it. */
const char *cw_field_print(const cw_field *field, const void *base, cw_unit_system system, cw_arena *arena);

/** Put the default into @p base; an optional text becomes "", other optional values stay as they are; rows with "@id" are looked up in @p rows.  Returns the row used or NULL. */
const cw_row *cw_field_default(const cw_field *field, const cw_rows *rows, void *base, cw_arena *arena,
                               cw_diags *diags);

#endif
