/* Shared by the files of this module. */
#ifndef CW_SCHEDULE_INTERNAL_H
#define CW_SCHEDULE_INTERNAL_H

#include "cw/field_make.h"
#include "cw/schedule.h"
#include "cw/tolerance.h"
#include "cw/units.h"

#endif
