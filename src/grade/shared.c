#include "grade_internal.h"

bool cw_grade_pairs(const cw_list *a, const cw_list *b, const char *names, cw_pos where,
                    cw_diags *diags)
{
    if (a->count == b->count)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT, "%s: %d and %d values; give the same number of both",
                names, a->count, b->count);
    return false;
}
