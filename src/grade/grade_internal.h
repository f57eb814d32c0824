/* Shared by the files of this module. */
#ifndef CW_GRADE_INTERNAL_H
#define CW_GRADE_INTERNAL_H

#include "cw/field_make.h"
#include "cw/grade.h"
#include "cw/tolerance.h"

/* Two lists of the same length; @p names stands in the message. */
bool cw_grade_pairs(const cw_list *a, const cw_list *b, const char *names, cw_pos where,
                    cw_diags *diags);

static inline int cw_grade_verdict(double demand, double capacity)
{
    return cw_meets(demand, capacity) ? CW_HOLDS : CW_FAILS;
}

#endif
