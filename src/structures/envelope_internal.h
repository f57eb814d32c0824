/* Cases and positions of an envelope, shared with the test that goes over them one by one. */
#ifndef CW_ENVELOPE_INTERNAL_H
#define CW_ENVELOPE_INTERNAL_H

#include "ring_internal.h"

enum {
    CW_ENVELOPE_ALL_MOST,
    CW_ENVELOPE_TOP_MOST,
    CW_ENVELOPE_SIDES_MOST,
    CW_ENVELOPE_FULL_OF_WATER,
    CW_ENVELOPE_FLOODED_GROUND,
    CW_ENVELOPE_CASES
};

/* Factors of one state; service takes 1 throughout. */
typedef struct cw_envelope_factors {
    double weight[2], earth[2], side[2]; /* most, least */
    double surcharge, live, water;
} cw_envelope_factors;

cw_envelope_factors cw_envelope_factors_of(int state, const cw_rows *rows);

bool cw_envelope_has(int index, const cw_struct_site *site);
bool cw_envelope_has_traffic(int index);

/* Without wheels; both sides carry the same. */
cw_struct_case cw_envelope_case(int index, const cw_struct_box *box, const cw_struct_site *site,
                                const cw_envelope_factors *f);

/* Positions of one vehicle: steps over the top, then stands. */
typedef struct cw_envelope_walk {
    double width_ft, step_ft, origin_ft, shear_ft;
    int back, steps, count;
} cw_envelope_walk;

cw_envelope_walk cw_envelope_walk_of(const cw_struct_box *box, const cw_struct_wheel *wheel);

/* The strips on the top at one position, from the left wall's centre line; 0 when none is there. */
int cw_envelope_place(const cw_envelope_walk *walk, const cw_struct_wheel *wheel, int position,
                      cw_struct_patch *patches);

/* cw_struct_envelop_each() over each @p every th position: a test can follow it in short time. */
void cw_envelope_every(const cw_struct_box *box, const cw_struct_ask *asks, int count, int every,
                       const cw_rows *rows, cw_struct_envelope *out);

/* Greatest moment within the walls.  The unknown forces add a straight line to the moments of the
 * sides, so only the upper hull of these can hold the greatest. */
enum { CW_WALL_BARS = 17, CW_WALL_STEPS = 16, CW_WALL_SAMPLES = CW_WALL_BARS * CW_WALL_STEPS + 1 };

typedef struct cw_wall_hull {
    int count, last; /* @c last is where the greatest was found the last time */
    double y_ft[CW_WALL_SAMPLES], moment[CW_WALL_SAMPLES];
} cw_wall_hull;

void cw_wall_hull_of(const cw_ring *ring, const cw_struct_case *load, cw_wall_hull *out);

/* With a strut, without end moments: these add the same all along. */
double cw_wall_hull_most(cw_wall_hull *hull, double strut_lb, double height_ft);

/* ---- extremes ---- */

/* Of a station. */
typedef struct cw_reading {
    cw_struct_span span;
    double thrust_most_lb;
    int thrust_case;
} cw_reading;

/* Of moments that are equal but for rounding the one with the least thrust counts, of shears that
 * with the greatest moment. */
void cw_take_moment(cw_struct_span *span, double moment, double thrust, int index);
void cw_take_shear(cw_struct_span *span, cw_struct_force force, int index);
void cw_take_thrust(cw_reading *r, double thrust_lb, int index);
void cw_take_force(cw_reading *r, cw_struct_force force, int index);

/* Extremes of the live load at the stations, with what goes with them. */
typedef struct cw_extremes {
    double near_most[CW_RING_STATIONS],
        near_least[CW_RING_STATIONS]; /* where most may be met again */
    double most[CW_RING_STATIONS], most_thrust[CW_RING_STATIONS];
    double least[CW_RING_STATIONS], least_thrust[CW_RING_STATIONS];
    double up[CW_RING_STATIONS], up_moment[CW_RING_STATIONS], up_thrust[CW_RING_STATIONS];
    double down[CW_RING_STATIONS], down_moment[CW_RING_STATIONS], down_thrust[CW_RING_STATIONS];
    double thrust[CW_RING_STATIONS];
} cw_extremes;

void cw_extremes_widen(cw_extremes *e, int station, double moment, double shear, double thrust);

#endif
