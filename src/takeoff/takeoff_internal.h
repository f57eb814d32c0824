/* Shared by the files of this module. */
#ifndef CW_TAKEOFF_INTERNAL_H
#define CW_TAKEOFF_INTERNAL_H

#include "cw/field_make.h"
#include "cw/takeoff.h"
#include "cw/units.h"

/* 1 + percent/100. */
static inline double cw_takeoff_with_percent(double percent)
{
    return 1.0 + percent / CW_PERCENT;
}

#endif
