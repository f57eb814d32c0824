/** @file
 * Runs for the tests of the order module. */
#ifndef CW_ORDER_TEST_HELP_H
#define CW_ORDER_TEST_HELP_H

#include "cw/order.h"

/** A row of @p count pieces of the given whole-foot lengths, laid without gaps. */
static inline cw_order_line line_of(cw_arena *arena, const int *length_ft, int count)
{
    double *start = CW_TAKE(arena, double, count), *end = CW_TAKE(arena, double, count);
    double at = 0.0;
    for (int i = 0; i < count; i++) {
        start[i] = at;
        at += length_ft[i];
        end[i] = at;
    }
    return (cw_order_line){start, end, NULL, count};
}

/** @p barrels alike barrels of @p count aligned sections of 8 ft. */
static inline cw_order_run aligned_run(cw_arena *arena, int barrels, int count)
{
    int *length = CW_TAKE(arena, int, count);
    for (int i = 0; i < count; i++)
        length[i] = 8;
    cw_order_barrel *made = CW_TAKE(arena, cw_order_barrel, barrels);
    for (int b = 0; b < barrels; b++)
        made[b] = (cw_order_barrel){line_of(arena, length, count), line_of(arena, length, count)};
    cw_order_run run = cw_order_usual();
    run.barrels = made;
    run.barrel_count = barrels;
    return run;
}

/** One barrel, bases 16, 16, 16 ft under tops 8, 16, 16, 8 ft. */
static inline cw_order_run staggered_run(cw_arena *arena)
{
    static const int bases[] = {16, 16, 16}, tops[] = {8, 16, 16, 8};
    cw_order_barrel *made = CW_TAKE(arena, cw_order_barrel, 1);
    *made = (cw_order_barrel){line_of(arena, bases, 3), line_of(arena, tops, 4)};
    cw_order_run run = cw_order_usual();
    run.barrels = made;
    run.barrel_count = 1;
    return run;
}

#endif
