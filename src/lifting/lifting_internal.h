/* Shared by the files of this module. */
#ifndef CW_LIFTING_INTERNAL_H
#define CW_LIFTING_INTERNAL_H

#include <math.h>

#include "cw/field_make.h"
#include "cw/lifting.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* Legs or picks that agree to this are the same: far under a chain link or a tape reading. */
#define SAME_FT 1e-7

static inline int cw_lifting_verdict(double demand, double capacity)
{
    return cw_meets(demand, capacity) ? CW_HOLDS : CW_FAILS;
}

/* Slope of the flattest leg: plan for the first row, refuse under the second. */
static inline int cw_lifting_angle_verdict(double angle_deg, const cw_rows *rows)
{
    if (cw_meets(cw_rows_value(rows, "lift.angle_plan"), angle_deg))
        return CW_HOLDS;
    return cw_meets(cw_rows_value(rows, "lift.angle_least"), angle_deg) ? CW_UNDECIDED : CW_FAILS;
}

static inline double cw_dot(const double a[3], const double b[3])
{
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static inline double cw_length(const double a[3])
{
    return sqrt(cw_dot(a, a));
}

static inline void cw_minus(const double a[3], const double b[3], double out[3])
{
    for (int k = 0; k < 3; k++)
        out[k] = a[k] - b[k];
}

static inline void cw_cross(const double a[3], const double b[3], double out[3])
{
    out[0] = a[1] * b[2] - a[2] * b[1];
    out[1] = a[2] * b[0] - a[0] * b[2];
    out[2] = a[0] * b[1] - a[1] * b[0];
}

/* a + t b */
static inline void cw_along(const double a[3], double t, const double b[3], double out[3])
{
    for (int k = 0; k < 3; k++)
        out[k] = a[k] + t * b[k];
}

/* Places along a line where a crane may stand: closed spans in order, apart. */
typedef struct cw_spans {
    cw_setup_range *items;
    int count, capacity;
} cw_spans;

/* Keep what lies within from..to. */
void cw_spans_clamp(cw_spans *spans, double from_ft, double to_ft);
/* Take the open span from..to out; @pre one more span has room. */
void cw_spans_cut(cw_spans *spans, double from_ft, double to_ft);
/* Keep what a piece allows that is reached at least_ft to most_ft from a line d_ft away. */
void cw_spans_reach(cw_spans *spans, double at_ft, double d_ft, double least_ft, double most_ft);
/* The place nearest to @p at_ft; @pre not empty. */
double cw_spans_nearest(const cw_spans *spans, double at_ft);

#endif
