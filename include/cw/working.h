/** @file
 * The working of a result: each intermediate with symbol, expression, value, unit and source, so that
 * the book can print the calculation and a reviewer can follow it by hand. */
#ifndef CW_WORKING_H
#define CW_WORKING_H

#include "cw/arena.h"
#include "cw/quantity.h"

typedef struct cw_working_step {
    const char *symbol;     /**< "L_b" */
    const char *expression; /**< "(s_in + s_out) sqrt(1 + S^2)" */
    double value;           /**< in the stored unit of @c dim */
    cw_dim dim;
    const char *source;     /**< publication and clause, "derived: ...", or "common practice" */
} cw_working_step;

typedef struct cw_working {
    cw_arena *arena;
    const char *title; /**< NULL, or what is computed and where: "Weight of B8-1" */
    cw_working_step *steps;
    int count, capacity;
} cw_working;

cw_working cw_working_on(cw_arena *arena, const char *title);

/** Add a step.  @p working may be NULL: then nothing is kept and the value is only passed through.
 * Strings must outlive the working (literals, or text of the same arena).  Returns @p value, so that it can
 * wrap an expression. */
double cw_step_add(cw_working *working, const char *symbol, const char *expression, double value, cw_dim dim,
                   const char *source);

#endif
