/* Inlet control: FHWA HDS-5, 3rd ed. 2012, app. A. */
#include <math.h>
#include <stdio.h>

#include "hydraulics_internal.h"

static const cw_water_inlet_kind kinds[] = {
    {"wings-30-75", "wingwalls flared 30 to 75 deg, square top edge"},
    {"wings-90-15", "wingwalls at 90 or 15 deg, square top edge"},
    {"wings-0", "side walls carried straight on, square top edge"},
    {"wings-45-bevel", "wingwalls flared 45 deg, top edge bevelled 0.043 of the rise"},
    {"wings-18-34-bevel", "wingwalls flared 18 to 33.7 deg, top edge bevelled 0.083 of the rise"},
    {"headwall-chamfer", "headwall, 3/4 in chamfers"},
    {"headwall-bevel-45", "headwall, 45 deg bevels"},
    {"headwall-bevel-34", "headwall, 33.7 deg bevels"},
    {"headwall-skew-45-chamfer", "headwall skewed 45 deg, 3/4 in chamfers"},
    {"headwall-skew-30-chamfer", "headwall skewed 30 deg, 3/4 in chamfers"},
    {"headwall-skew-15-chamfer", "headwall skewed 15 deg, 3/4 in chamfers"},
    {"headwall-skew-bevel", "headwall skewed 10 to 45 deg, 45 deg bevels"},
    {"wings-45-chamfer", "wingwalls flared 45 deg, not offset, 3/4 in chamfer on top"},
    {"wings-18-chamfer", "wingwalls flared 18.4 deg, not offset, 3/4 in chamfer on top"},
    {"wings-18-skew-chamfer",
     "wingwalls flared 18.4 deg, not offset, 3/4 in chamfer on top, barrel skewed 30 deg"},
    {"wings-45-offset", "wingwalls flared 45 deg, offset, top edge bevelled"},
    {"wings-34-offset", "wingwalls flared 33.7 deg, offset, top edge bevelled"},
    {"wings-18-offset", "wingwalls flared 18.4 deg, offset, top edge bevelled"},
    {"tapered-throat", "throat of a tapered inlet; take the throat's width and height"},
    {"side-tapered-face", "face of a side-tapered inlet, square edges; take the face"},
    {"side-tapered-face-bevel", "face of a side-tapered inlet, bevelled edges; take the face"},
    {"slope-tapered-face", "face of a slope-tapered inlet, square edges; take the face"},
    {"slope-tapered-face-bevel", "face of a slope-tapered inlet, bevelled edges; take the face"},
};

_Static_assert(sizeof kinds / sizeof kinds[0] == CW_WATER_INLET_OWN, "own comes after the table");

const char *const cw_water_inlet_choices[] = {
    "wings-30-75",
    "wings-90-15",
    "wings-0",
    "wings-45-bevel",
    "wings-18-34-bevel",
    "headwall-chamfer",
    "headwall-bevel-45",
    "headwall-bevel-34",
    "headwall-skew-45-chamfer",
    "headwall-skew-30-chamfer",
    "headwall-skew-15-chamfer",
    "headwall-skew-bevel",
    "wings-45-chamfer",
    "wings-18-chamfer",
    "wings-18-skew-chamfer",
    "wings-45-offset",
    "wings-34-offset",
    "wings-18-offset",
    "tapered-throat",
    "side-tapered-face",
    "side-tapered-face-bevel",
    "slope-tapered-face",
    "slope-tapered-face-bevel",
    "own",
    NULL,
};

#define SLOPE_FACTOR (-0.5)

const cw_water_inlet_kind *cw_water_inlet_kind_at(int index)
{
    return index >= 0 && index < COUNT_OF(kinds) ? &kinds[index] : NULL;
}

bool cw_water_inlet_rows(const cw_rows *rows, int index, cw_water_inlet *inlet)
{
    static const char *const names[] = {"form", "k", "m", "c", "y"};
    const cw_water_inlet_kind *kind = cw_water_inlet_kind_at(index);
    double values[COUNT_OF(names)];
    if (!kind)
        return false;
    for (int i = 0; i < COUNT_OF(names); i++) {
        char id[64];
        snprintf(id, sizeof id, "inlet.%s.%s", kind->id, names[i]);
        const cw_row *row = cw_rows_find(rows, id);
        if (!row)
            return false;
        values[i] = row->value;
    }
    *inlet = (cw_water_inlet){.with_critical = values[0] == 1.0,
                              .k = values[1],
                              .m = values[2],
                              .c = values[3],
                              .y = values[4],
                              .slope_factor = SLOPE_FACTOR};
    return true;
}

const char *const cw_water_entrance_choices[] = {
    "headwall-square",
    "headwall-rounded",
    "wings-30-75-square",
    "wings-30-75-rounded",
    "wings-10-25-square",
    "wings-parallel",
    "tapered",
    "projecting-square",
    "own",
    NULL,
};

bool cw_water_entrance_rows(const cw_rows *rows, int index, double *loss)
{
    if (index < 0 || index >= CW_WATER_ENTRANCE_OWN)
        return false;
    char id[64];
    snprintf(id, sizeof id, "entrance.%s.loss", cw_water_entrance_choices[index]);
    const cw_row *row = cw_rows_find(rows, id);
    if (row)
        *loss = row->value;
    return row != NULL;
}

/* ---- the law ---- */

/* Limits of the two laws and of the tests behind them. */
#define UNSUBMERGED_TO 3.5
#define SUBMERGED_FROM 4.0
#define TESTED_TO 3.0

/* Hc/D = 1.5 (r^2/g)^(1/3): q^2/g = r^2 D^3/g in a rectangle, and the energy at critical depth is
 * 1.5 yc. */
static double critical_head(double r)
{
    return 1.5 * cbrt(r * r / CW_WATER_GRAVITY);
}

/* K r^M; M = 2/3 to the three figures of the table is not 2/3, so a power it is. */
static double power_part(const cw_water_inlet *inlet, double r)
{
    return r > 0.0 ? inlet->k * pow(r, inlet->m) : 0.0;
}

static double unsubmerged(const cw_water_inlet *inlet, double slope, double r)
{
    const double power = power_part(inlet, r);
    return inlet->with_critical ? critical_head(r) + power + inlet->slope_factor * slope : power;
}

static double submerged(const cw_water_inlet *inlet, double slope, double r)
{
    return inlet->c * r * r + inlet->y + inlet->slope_factor * slope;
}

static double unsubmerged_rate(const cw_water_inlet *inlet, double r)
{
    const double power = inlet->m * power_part(inlet, r) / r;
    return inlet->with_critical ? (2.0 / 3.0) * critical_head(r) / r + power : power;
}

/* One cubic from 3.5 to 4.0, its end slopes limited to 3 times the secant so that it rises (Fritsch
 * and Carlson 1980).  HDS-5 draws a straight line. */
static double join(const cw_water_inlet *inlet, double slope, double r, bool *shifted)
{
    const double y0 = unsubmerged(inlet, slope, UNSUBMERGED_TO);
    const double y1 = submerged(inlet, slope, SUBMERGED_FROM);
    if (y1 <= y0) {
        *shifted = true;
        return fmax(unsubmerged(inlet, slope, r), submerged(inlet, slope, r));
    }
    const double width = SUBMERGED_FROM - UNSUBMERGED_TO;
    const double most = 3.0 * (y1 - y0) / width;
    const double m0 = fmin(unsubmerged_rate(inlet, UNSUBMERGED_TO), most) * width;
    const double m1 = fmin(2.0 * inlet->c * SUBMERGED_FROM, most) * width;
    const double t = (r - UNSUBMERGED_TO) / width, s = 1.0 - t;
    return y0 * s * s * (1.0 + 2.0 * t) + y1 * t * t * (3.0 - 2.0 * t) + t * s * (m0 * s - m1 * t);
}

/* Past the join only where the submerged law stays below the unsubmerged one for longer. */
static double above(const cw_water_inlet *inlet, double slope, double r, bool *shifted)
{
    const double y0 = unsubmerged(inlet, slope, UNSUBMERGED_TO);
    if (submerged(inlet, slope, SUBMERGED_FROM) > y0)
        return submerged(inlet, slope, r);
    *shifted = true;
    return fmax(unsubmerged(inlet, slope, r), submerged(inlet, slope, r));
}

cw_water_inlet_head cw_water_inlet_control(const cw_water_inlet *inlet, double span_ft,
                                           double rise_ft, double slope, double flow_cfs)
{
    const double r = flow_cfs / (span_ft * rise_ft * sqrt(rise_ft));
    cw_water_inlet_head head = {.r = r};
    double ratio;
    const double low = unsubmerged(inlet, slope, r);
    const double high = submerged(inlet, slope, r);
    if (r <= UNSUBMERGED_TO) {
        head.part = CW_WATER_UNSUBMERGED;
        ratio = low;
    } else if (r < SUBMERGED_FROM) {
        head.part = CW_WATER_JOIN;
        ratio = join(inlet, slope, r, &head.shifted);
    } else {
        head.part = CW_WATER_SUBMERGED;
        ratio = above(inlet, slope, r, &head.shifted);
    }
    /* No water enters with less than critical energy: the slope term may not take it lower. */
    ratio = fmax(ratio, critical_head(r));
    head.unsubmerged_ft = low * rise_ft;
    head.submerged_ft = high * rise_ft;
    head.headwater_ft = ratio * rise_ft;
    head.outside_tests = ratio > TESTED_TO;
    return head;
}
