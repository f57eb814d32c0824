#include "cw/takeoff.h"

#include <assert.h>
#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

cw_order cw_takeoff_order(double exact, double step)
{
    assert(step > 0.0 && exact >= 0.0);
    const double steps = exact / step;
    const double nearest = floor(steps + 0.5);
    // A need that is a whole number of steps but for the last bits must not buy one more.
    const double whole = cw_meets(steps, nearest) ? nearest : ceil(steps);
    return (cw_order){.exact = exact, .up = whole * step, .step = step};
}

cw_takeoff_concrete cw_takeoff_concrete_of(const cw_takeoff_mark *marks, int count)
{
    cw_takeoff_concrete total = {.pieces = 0};
    double volume_cuft = 0.0;
    for (int i = 0; i < count; i++) {
        const cw_takeoff_mark *mark = &marks[i];
        total.pieces += mark->count;
        volume_cuft += mark->count * mark->volume_cuft;
        total.weight_lb += mark->count * mark->weight_lb;
        if (mark->count > 0 && mark->weight_lb > total.heaviest_lb) {
            total.heaviest_lb = mark->weight_lb;
            total.heaviest = mark->mark;
        }
    }
    total.volume_cy = volume_cuft / CW_CUFT_PER_CY;
    return total;
}

int cw_takeoff_joints(const int *pieces_in_row, int rows)
{
    int joints = 0;
    for (int i = 0; i < rows; i++)
        if (pieces_in_row[i] > 0)
            joints += pieces_in_row[i] - 1;
    return joints;
}
