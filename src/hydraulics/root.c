#include <math.h>

#include "hydraulics_internal.h"

enum { STEPS_MAX = 120 };

/* Narrower than this part of its upper end a bracket holds no further digit of use. */
#define BRACKET_RATIO 1e-15

cw_water_root cw_water_hunt(cw_water_miss miss, const void *about, double low, double high)
{
    cw_water_root root = {.status = CW_WATER_NOT_FOUND, .low = low, .high = high};
    double below = miss(about, low), above = miss(about, high);
    if (!(below <= 0.0) || !(above >= 0.0)) {
        root.residual = below > 0.0 ? below : above;
        return root;
    }
    int stale = 0; /* -1: the low end has stayed, 1: the high end has */
    double width = high - low;
    while (root.iterations < STEPS_MAX) {
        const bool slow = root.iterations % 3 == 2 && high - low > 0.5 * width;
        if (root.iterations % 3 == 2)
            width = high - low;
        double at = below == above || slow ? 0.5 * (low + high)
                                           : low - below * (high - low) / (above - below);
        if (!(at > low && at < high))
            at = 0.5 * (low + high);
        if (!(at > low && at < high)) {
            root.status = CW_WATER_OK; /* no number lies between */
            break;
        }
        root.iterations++;
        const double here = miss(about, at);
        root.value = at;
        root.residual = here;
        if (here <= 0.0) {
            low = at;
            below = here;
            above *= stale == 1 ? 0.5 : 1.0;
            stale = 1;
        }
        if (here >= 0.0) {
            high = at;
            above = here;
            below *= stale == -1 ? 0.5 : 1.0;
            stale = -1;
        }
        if (here == 0.0 || high - low <= BRACKET_RATIO * fabs(high)) {
            root.status = CW_WATER_OK;
            break;
        }
    }
    root.low = low;
    root.high = high;
    return root;
}
