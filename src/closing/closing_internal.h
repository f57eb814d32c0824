/* Shared by the files of this module. */
#ifndef CW_CLOSING_INTERNAL_H
#define CW_CLOSING_INTERNAL_H

#include "cw/closing.h"
#include "cw/field_make.h"
#include "cw/tolerance.h"

static inline int cw_closing_verdict(double demand, double capacity)
{
    return cw_meets(demand, capacity) ? CW_HOLDS : CW_FAILS;
}

#endif
