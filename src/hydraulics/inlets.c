/* Inlet control: FHWA HDS-5, 3rd ed. 2012, app. A. */
#include <math.h>
#include <string.h>

#include "hydraulics_internal.h"

/* Every inlet but "own": id and words. */
#define INLETS(X)                                                                                  \
    X("wings-30-75", "wingwalls flared 30 to 75 deg, square top edge")                             \
    X("wings-90-15", "wingwalls at 90 or 15 deg, square top edge")                                 \
    X("wings-0", "side walls carried straight on, square top edge")                                \
    X("wings-45-bevel", "wingwalls flared 45 deg, top edge bevelled 0.043 of the rise")            \
    X("wings-18-34-bevel", "wingwalls flared 18 to 33.7 deg, top edge bevelled 0.083 of the rise") \
    X("headwall-chamfer", "headwall, 3/4 in chamfers")                                             \
    X("headwall-bevel-45", "headwall, 45 deg bevels")                                              \
    X("headwall-bevel-34", "headwall, 33.7 deg bevels")                                            \
    X("headwall-skew-45-chamfer", "headwall skewed 45 deg, 3/4 in chamfers")                       \
    X("headwall-skew-30-chamfer", "headwall skewed 30 deg, 3/4 in chamfers")                       \
    X("headwall-skew-15-chamfer", "headwall skewed 15 deg, 3/4 in chamfers")                       \
    X("headwall-skew-bevel", "headwall skewed 10 to 45 deg, 45 deg bevels")                        \
    X("wings-45-chamfer", "wingwalls flared 45 deg, not offset, 3/4 in chamfer on top")            \
    X("wings-18-chamfer", "wingwalls flared 18.4 deg, not offset, 3/4 in chamfer on top")          \
    X("wings-18-skew-chamfer",                                                                     \
      "wingwalls flared 18.4 deg, not offset, 3/4 in chamfer on top, barrel skewed 30 deg")        \
    X("wings-45-offset", "wingwalls flared 45 deg, offset, top edge bevelled")                     \
    X("wings-34-offset", "wingwalls flared 33.7 deg, offset, top edge bevelled")                   \
    X("wings-18-offset", "wingwalls flared 18.4 deg, offset, top edge bevelled")                   \
    X("tapered-throat", "throat of a tapered inlet; take the throat's width and height")           \
    X("side-tapered-face", "face of a side-tapered inlet, square edges; take the face")            \
    X("side-tapered-face-bevel", "face of a side-tapered inlet, bevelled edges; take the face")    \
    X("slope-tapered-face", "face of a slope-tapered inlet, square edges; take the face")          \
    X("slope-tapered-face-bevel", "face of a slope-tapered inlet, bevelled edges; take the face")

#define KIND(id, words) {id, words},
static const cw_water_inlet_kind kinds[] = {INLETS(KIND)};

_Static_assert(sizeof kinds / sizeof kinds[0] == CW_WATER_INLET_OWN, "own comes after the table");

#define CHOICE(id, words) id,
const char *const cw_water_inlet_choices[] = {INLETS(CHOICE) "own", NULL};

/* Ids of the rows of an inlet, in the order in which a table sorts them. */
enum { ROW_C, ROW_FORM, ROW_K, ROW_M, ROW_Y, ROWS_OF_INLET };

#define ROW_IDS(id, words)                                                                         \
    {"inlet." id ".c", "inlet." id ".form", "inlet." id ".k", "inlet." id ".m", "inlet." id ".y"},
static const char *const row_ids[][ROWS_OF_INLET] = {INLETS(ROW_IDS)};

#define SLOPE_FACTOR (-0.5)

const cw_water_inlet_kind *cw_water_inlet_kind_at(int index)
{
    return index >= 0 && index < COUNT_OF(kinds) ? &kinds[index] : NULL;
}

/* The row after the last one found, which it nearly always is, or else searched for. */
static const cw_row *next_row(const cw_rows *rows, const cw_row *last, const char *id)
{
    const cw_row *next = last + 1;
    const bool there = next < rows->items + rows->count && strcmp(next->id, id) == 0;
    return there ? next : cw_rows_find(rows, id);
}

bool cw_water_inlet_rows(const cw_rows *rows, int index, cw_water_inlet *inlet)
{
    if (!cw_water_inlet_kind_at(index))
        return false;
    double values[ROWS_OF_INLET];
    const cw_row *row = cw_rows_find(rows, row_ids[index][0]);
    for (int i = 0; row && i < ROWS_OF_INLET; i++) {
        values[i] = row->value;
        if (i + 1 < ROWS_OF_INLET)
            row = next_row(rows, row, row_ids[index][i + 1]);
    }
    if (!row)
        return false;
    *inlet = (cw_water_inlet){.with_critical = values[ROW_FORM] == 1.0,
                              .k = values[ROW_K],
                              .m = values[ROW_M],
                              .c = values[ROW_C],
                              .y = values[ROW_Y],
                              .slope_factor = SLOPE_FACTOR};
    return true;
}

#define ENTRANCES(X)                                                                               \
    X("headwall-square")                                                                           \
    X("headwall-rounded")                                                                          \
    X("wings-30-75-square")                                                                        \
    X("wings-30-75-rounded")                                                                       \
    X("wings-10-25-square")                                                                        \
    X("wings-parallel")                                                                            \
    X("tapered")                                                                                   \
    X("projecting-square")

#define ENTRANCE(id) id,
const char *const cw_water_entrance_choices[] = {ENTRANCES(ENTRANCE) "own", NULL};

#define LOSS_ID(id) "entrance." id ".loss",
static const char *const loss_ids[] = {ENTRANCES(LOSS_ID)};

_Static_assert(sizeof loss_ids / sizeof loss_ids[0] == CW_WATER_ENTRANCE_OWN,
               "own comes after the table");

bool cw_water_entrance_rows(const cw_rows *rows, int index, double *loss)
{
    if (index < 0 || index >= CW_WATER_ENTRANCE_OWN)
        return false;
    const cw_row *row = cw_rows_find(rows, loss_ids[index]);
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

/* With the critical head of this r, which costs a root. */
static double unsubmerged_by(const cw_water_inlet *inlet, double slope, double r, double critical)
{
    const double power = power_part(inlet, r);
    return inlet->with_critical ? critical + power + inlet->slope_factor * slope : power;
}

static double unsubmerged(const cw_water_inlet *inlet, double slope, double r)
{
    return unsubmerged_by(inlet, slope, r, inlet->with_critical ? critical_head(r) : 0.0);
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
    const double critical = critical_head(r);
    const double low = unsubmerged_by(inlet, slope, r, critical);
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
    ratio = fmax(ratio, critical);
    head.unsubmerged_ft = low * rise_ft;
    head.submerged_ft = high * rise_ft;
    head.headwater_ft = ratio * rise_ft;
    head.outside_tests = ratio > TESTED_TO;
    return head;
}
