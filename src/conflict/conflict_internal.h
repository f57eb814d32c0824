/* Shared by the files of this module. */
#ifndef CW_CONFLICT_INTERNAL_H
#define CW_CONFLICT_INTERNAL_H

#include "cw/conflict.h"
#include "cw/field_make.h"

/* Bounds that catch a slipped digit. */
#define ELEVATION_LOW_FT (-1500.0)
#define ELEVATION_HIGH_FT 30000.0

/* The bottom of a cut lies under the ground. */
bool cw_conflict_cut_valid(double bottom_ft, double surface_ft, cw_pos where, cw_diags *diags);

#endif
