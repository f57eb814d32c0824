/* Shared by the files of this module. */
#ifndef CW_ENDS_INTERNAL_H
#define CW_ENDS_INTERNAL_H

#include "cw/ends.h"
#include "cw/field_make.h"

extern const char *const cw_wing_kind_words[];
extern const char *const cw_wall_make_words[];

/* A tip as high as the root, or higher, leaves the fill nothing to fall by. */
bool cw_ends_heights_valid(double root_ft, double tip_ft, cw_pos where, cw_diags *diags);

#endif
