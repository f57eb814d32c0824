/** @file
 * Every tolerance of the program: name, unit, reason. */
#ifndef CW_TOLERANCE_H
#define CW_TOLERANCE_H

#include <math.h>
#include <stdbool.h>

/** A limit that is met exactly by design must pass on every compiler: one part in 1e9. */
#define CW_RATIO_SLACK 1e-9

/** Two plan positions closer than this are the same place (a hundred-thousandth of a foot, far
 * under the 0.01 ft to which survey is printed). */
#define CW_SAME_PLACE_FT 1e-5

/** Angles closer than this are the same direction (0.4 seconds of arc). */
#define CW_SAME_DIRECTION_DEG 1e-4

/** demand <= capacity, with CW_RATIO_SLACK.  NaN never meets. */
static inline bool cw_meets(double demand, double capacity)
{
    const double scale = capacity < 0 ? -capacity : capacity;
    return demand <= capacity + CW_RATIO_SLACK * (scale > 1.0 ? scale : 1.0);
}

/** The least whole number that is not less than @p value, which may be over it by CW_RATIO_SLACK. */
static inline int cw_count_up(double value)
{
    return (int)ceil(value - CW_RATIO_SLACK * fmax(1.0, fabs(value)));
}

#endif
