/* Shared by the files of this module. */
#ifndef CW_COST_INTERNAL_H
#define CW_COST_INTERNAL_H

#include "cw/cost.h"
#include "cw/field_make.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* An input of money, in cents, whose default is a row. */
#define CENTS_IN(key, symbol, fallback, meaning, type, member)                                     \
    NUMBER_IN(key, symbol, CW_DIM_MONEY, 0.0, 1e10, fallback, meaning,                             \
              "common practice: range of prices", type, member)

#endif
