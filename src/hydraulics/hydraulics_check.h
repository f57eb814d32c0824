/* For the tests of this module: a double within a tolerance, with the source in the failure. */
#ifndef CW_HYDRAULICS_CHECK_H
#define CW_HYDRAULICS_CHECK_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

static inline void near(const char *what, double got, double want, double within)
{
    if (!(fabs(got - want) <= within))
        fail_msg("%s: %.9g, wanted %.9g within %g", what, got, want, within);
}

/* A generator of even numbers in 0 .. 1 that is the same everywhere (Marsaglia's xorshift). */
static inline double even(unsigned long long *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

static inline double even_in(unsigned long long *seed, double low, double high)
{
    return low + (high - low) * even(seed);
}

#endif
