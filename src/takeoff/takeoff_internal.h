/* Shared by the files of this module. */
#ifndef CW_TAKEOFF_INTERNAL_H
#define CW_TAKEOFF_INTERNAL_H

#include "cw/takeoff.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

/* One numeric input, and one numeric output, of a calculator. */
#define NUMBER_IN(key, symbol, dim, low, high, fallback, required, meaning, source, type, member)  \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, fallback, required, meaning, source, NULL,    \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define COUNT_IN(key, symbol, low, high, fallback, required, meaning, source, type, member)        \
    {                                                                                              \
        key, symbol, CW_KIND_COUNT, CW_DIM_COUNT, low, high, fallback, required, meaning, source,  \
            NULL, offsetof(type, member), CW_NO_FLAG                                               \
    }
#define OUT(key, symbol, dim, meaning, type, member)                                               \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning, NULL,     \
            NULL, offsetof(type, member), CW_NO_FLAG                                               \
    }
#define COUNT_OUT(key, symbol, meaning, type, member)                                              \
    {                                                                                              \
        key, symbol, CW_KIND_COUNT, CW_DIM_COUNT, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning,   \
            NULL, NULL, offsetof(type, member), CW_NO_FLAG                                         \
    }

/* Limits of every number, count and choice of @p fields in the struct at @p input; faults go to @p
 * diags. */
bool cw_takeoff_in_range(const cw_field *fields, int count, const void *input, cw_pos where,
                         cw_diags *diags);

/* 1 + percent/100. */
double cw_takeoff_with_percent(double percent);

#endif
