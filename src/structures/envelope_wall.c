/* Greatest moment within the walls over many positions. */
#include <assert.h>

#include "envelope_internal.h"

/* Of three samples in a row the middle one can be greatest with no straight line added. */
static bool sags(const cw_wall_hull *hull, double y_ft, double moment)
{
    const int n = hull->count;
    const double ax = hull->y_ft[n - 1] - hull->y_ft[n - 2], ay = y_ft - hull->y_ft[n - 2];
    return (hull->moment[n - 1] - hull->moment[n - 2]) * ay <= (moment - hull->moment[n - 2]) * ax;
}

static void take(cw_wall_hull *hull, double y_ft, double moment)
{
    while (hull->count >= 2 && sags(hull, y_ft, moment))
        hull->count--;
    hull->y_ft[hull->count] = y_ft;
    hull->moment[hull->count++] = moment;
}

void cw_wall_hull_of(const cw_ring *ring, const cw_struct_case *load, cw_wall_hull *out)
{
    const cw_ring_member *wall = &ring->wall;
    double moment[2], push_lb[2];
    assert(wall->count - 1 <= CW_WALL_BARS);
    out->count = out->last = 0;
    cw_ring_side_forces(ring, load, 0.0, &moment[0], &push_lb[0]);
    take(out, 0.0, moment[0]);
    for (int i = 0; i + 1 < wall->count; i++) {
        const double from_ft = wall->at_ft[i], run_ft = wall->bar[i].shape.length_ft;
        cw_ring_side_forces(ring, load, wall->at_ft[i + 1], &moment[1], &push_lb[1]);
        // Cubic through end moments and shears, exact where one straight-line load covers the bar.
        for (int k = 1; k <= CW_WALL_STEPS; k++) {
            const double t = (double)k / CW_WALL_STEPS, u = 1.0 - t;
            take(out, from_ft + run_ft * t,
                 moment[0] * u * u * (1.0 + 2.0 * t) + moment[1] * t * t * (3.0 - 2.0 * t) +
                     run_ft * t * u * (push_lb[0] * u - push_lb[1] * t));
        }
        moment[0] = moment[1];
        push_lb[0] = push_lb[1];
    }
}

double cw_wall_hull_most(cw_wall_hull *hull, double strut_lb, double height_ft)
{
    int i = hull->last;
    double most = hull->moment[i] - strut_lb * hull->y_ft[i];
    for (int step = -1; step <= 1; step += 2)
        while (i + step >= 0 && i + step < hull->count) {
            const double next = hull->moment[i + step] - strut_lb * hull->y_ft[i + step];
            if (!(next > most))
                break;
            most = next;
            i += step;
        }
    hull->last = i;
    return most + strut_lb * height_ft;
}
