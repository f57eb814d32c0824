/* Shared by the files of this module. */
#ifndef CW_SITEWATER_INTERNAL_H
#define CW_SITEWATER_INTERNAL_H

#include "cw/field_make.h"
#include "cw/sitewater.h"

/* As the FHWA manuals take them in ft and s. */
#define GRAVITY_FT_PER_S2 32.2
#define MANNING_FT 1.486

/* Words of cw_found, for CHOICE fields. */
extern const char *const cw_sitewater_found[];

#endif
