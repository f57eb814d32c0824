#include "trench_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/tolerance.h"

const char *const cw_trench_verdicts[] = {"holds", "fails", "undecided", NULL};

double cw_trench_row(const cw_rows *rows, const char *id)
{
    const cw_row *row = cw_rows_find(rows, id);
    assert(row); // data/ is compiled in and a test reads each of these rows
    return row->value;
}

int cw_trench_whole(double value)
{
    return (int)ceil(value - CW_RATIO_SLACK * fmax(1.0, fabs(value)));
}
