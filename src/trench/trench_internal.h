/* Shared by the files of this module. */
#ifndef CW_TRENCH_INTERNAL_H
#define CW_TRENCH_INTERNAL_H

#include "cw/field_make.h"
#include "cw/trench.h"

extern const char *const cw_trench_classes[];
extern const char *const cw_trench_protections[];

/* cw_protection of a cut. */
int cw_trench_protection(const cw_rows *rows, double depth_ft, bool all_rock);

/* Stands in the text of every calculator that shapes a cut. */
#define CAUTION                                                                                    \
    "A competent person classes the soil on site, inspects before each shift and after rain, and " \
    "may ask for a flatter slope (29 CFR 1926 Subpart P)."

#endif
