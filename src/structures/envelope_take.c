/* What an envelope keeps of the forces it meets. */
#include <math.h>

#include "envelope_internal.h"

#define SAME_RATIO 1e-9 /* nearer extremes are one: rounding must not choose what goes with them   \
                         */
#define SAME_LEAST 1e-6 /* lb or ft lb: nothing */

static double slack_of(double value)
{
    return SAME_RATIO * fabs(value) + SAME_LEAST;
}

/* Whether a moment, counted in its own direction, with its thrust is worse than the one known: more
 * of it, or the same with less thrust, since thrust helps the section. */
static bool worse(double moment, double thrust, double known, double known_thrust)
{
    const double slack = slack_of(known);
    return moment > known + slack ||
           (moment >= known - slack && thrust < known_thrust - slack_of(known_thrust));
}

void cw_take_moment(cw_struct_span *span, double moment, double thrust, int index)
{
    if (worse(moment, thrust, span->most_ft_lb, span->most_thrust_lb)) {
        span->most_ft_lb = moment;
        span->most_thrust_lb = thrust;
        span->most_case = index;
    }
    if (worse(-moment, thrust, -span->least_ft_lb, span->least_thrust_lb)) {
        span->least_ft_lb = moment;
        span->least_thrust_lb = thrust;
        span->least_case = index;
    }
}

/* Of equal shears the one with more moment is worse. */
void cw_take_shear(cw_struct_span *span, cw_struct_force force, int index)
{
    const double shear_lb = fabs(force.shear_lb), slack_lb = slack_of(span->shear_lb);
    const double known = fabs(span->shear_moment_ft_lb);
    if (!(shear_lb > span->shear_lb + slack_lb ||
          (shear_lb >= span->shear_lb - slack_lb &&
           fabs(force.moment_ft_lb) > known + slack_of(known))))
        return;
    span->shear_lb = shear_lb;
    span->shear_moment_ft_lb = force.moment_ft_lb;
    span->shear_thrust_lb = force.thrust_lb;
    span->shear_case = index;
}

void cw_take_thrust(cw_reading *r, double thrust_lb, int index)
{
    if (thrust_lb <= r->thrust_most_lb)
        return;
    r->thrust_most_lb = thrust_lb;
    r->thrust_case = index;
}

void cw_take_force(cw_reading *r, cw_struct_force force, int index)
{
    cw_take_moment(&r->span, force.moment_ft_lb, force.thrust_lb, index);
    cw_take_shear(&r->span, force, index);
    cw_take_thrust(r, force.thrust_lb, index);
}

void cw_extremes_widen(cw_extremes *e, int i, double moment, double shear, double thrust)
{
    if (moment > e->near_most[i] && worse(moment, thrust, e->most[i], e->most_thrust[i])) {
        e->most[i] = moment;
        e->near_most[i] = moment - slack_of(moment);
        e->most_thrust[i] = thrust;
    }
    if (moment < e->near_least[i] && worse(-moment, thrust, -e->least[i], e->least_thrust[i])) {
        e->least[i] = moment;
        e->near_least[i] = moment + slack_of(moment);
        e->least_thrust[i] = thrust;
    }
    if (shear > e->up[i]) {
        e->up[i] = shear;
        e->up_moment[i] = moment;
        e->up_thrust[i] = thrust;
    }
    if (shear < e->down[i]) {
        e->down[i] = shear;
        e->down_moment[i] = moment;
        e->down_thrust[i] = thrust;
    }
    if (thrust > e->thrust[i])
        e->thrust[i] = thrust;
}
