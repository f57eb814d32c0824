/** @file
 * A calculator: a pure function on a small input struct with its descriptor. */
#ifndef CW_CALC_H
#define CW_CALC_H

#include "cw/field.h"
#include "cw/working.h"

typedef struct cw_calc {
    const char *name;   /**< "piece-weight", as typed after `calc` */
    const char *title;
    const char *group;  /**< discipline, for the list */
    const char *about;  /**< use, validity and what is not considered, in a few sentences */
    const char *source; /**< publication, or "derived: ..." */
    const cw_field *inputs;
    int input_count;
    size_t input_size;
    const cw_field *outputs; /**< limits unused */
    int output_count;
    size_t output_size;
    /** Faults that no single field shows; NULL when there are none.  True when it may run. */
    bool (*valid)(const void *input, cw_pos where, cw_diags *diags);
    /** @p working may be NULL.  Pure; may take memory only through the working. */
    void (*run)(const void *input, void *output, cw_working *working);
    /** May be NULL.  Keeps in an input with its defaults in place what run() would look up in tables, for a batch whose rows
     * share it; run() takes inputs that were not readied too. */
    void (*ready)(void *input);
    /** Example input as "key=value key=value", used by documentation and tests. */
    const char *example;
} cw_calc;

typedef struct cw_calcs {
    const cw_calc *const *items;
    int count;
} cw_calcs;

/** All calculators, in the order of the manual (src/plan/calcs.c gathers them from the disciplines). */
extern const cw_calcs cw_calcs_all;

/** The calculator of this name or NULL. */
const cw_calc *cw_calc_find(const char *name);

/** One value as typed, with its place for findings. */
typedef struct cw_calc_value {
    const char *key, *text;
    cw_pos where;
} cw_calc_value;

/** Fill @p input (input_size zeroed bytes): the given values, then defaults (rows from @p rows).  Every fault is reported; true when
 * the calculator may run.  @p given (input_count flags, may be NULL) tells which inputs were typed. */
bool cw_calc_fill(const cw_calc *calc, const cw_calc_value *values, int count, const cw_rows *rows,
                  void *input, bool *given, cw_arena *arena, cw_diags *diags);

/** Whether an optional value is there (always, for a field without a flag). */
bool cw_field_has(const cw_field *field, const void *base);

/** Short unit word for the name of a bare-number column: "in", "pcf", "" for plain numbers. */
const char *cw_dim_suffix(cw_dim dim);

/** The input whose key is @p name, or whose key and unit suffix is ("span_in": then *bare is true). NULL when none. */
const cw_field *cw_calc_column(const cw_calc *calc, const char *name, bool *bare);

#endif
