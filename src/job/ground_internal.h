/* What the files of the ground reader share. */
#ifndef CW_JOB_GROUND_INTERNAL_H
#define CW_JOB_GROUND_INTERNAL_H

#include <stdbool.h>
#include <stddef.h>

#include "cw/ground.h"

/** A stretch of the centre line over one straight piece of the surface. */
typedef struct cw_ground_stretch {
    double from_ft, to_ft; /**< plan distances; from <= to */
    double from_z_ft, to_z_ft;
} cw_ground_stretch;

typedef struct cw_ground_stretches {
    cw_arena *arena;
    cw_ground_stretch *items;
    int count, capacity;
} cw_ground_stretches;

void cw_ground_add_stretch(cw_ground_stretches *list, cw_ground_stretch stretch);

/** Stretches in any order to one profile; gaps are reported. */
cw_ground_profile cw_ground_join(cw_ground_stretches *list, const cw_ground_line *line, cw_pos at,
                                 cw_diags *diags);

/** Read a decimal number that fills @p length bytes at @p text: no hex, no infinity, no NaN. */
bool cw_ground_number(const char *text, size_t length, double *value);

#endif
