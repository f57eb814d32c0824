/* Shared by the files of this module. */
#ifndef CW_HYDRAULICS_INTERNAL_H
#define CW_HYDRAULICS_INTERNAL_H

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "cw/hydraulics.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

#define TWO_G (2.0 * CW_WATER_GRAVITY)

/* One or two words for each cw_water_status, closed by NULL. */
extern const char *const cw_water_status_choices[];

/* One numeric input, and one numeric output, of a calculator. */
#define NUMBER_IN(key, symbol, dim, low, high, fallback, required, meaning, source, type, member)  \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, fallback, required, meaning, source, NULL,    \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define MAYBE_IN(key, symbol, dim, low, high, meaning, type, member)                               \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, NULL, false, meaning, NULL, NULL,             \
            offsetof(type, member), offsetof(type, has_##member)                                   \
    }
#define LIST_IN(key, symbol, dim, low, high, meaning, type, member)                                \
    {                                                                                              \
        key, symbol, CW_KIND_LIST, dim, low, high, NULL, false, meaning, NULL, NULL,               \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define CHOICE_IN(key, fallback, meaning, source, choices, type, member)                           \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, fallback, false, meaning, source, choices,   \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define OUT(key, symbol, dim, meaning, type, member, flag)                                         \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, 0, 0, NULL, false, meaning, NULL, NULL,                  \
            offsetof(type, member), flag                                                           \
    }
#define COUNT_OUT(key, meaning, type, member, flag)                                                \
    {                                                                                              \
        key, NULL, CW_KIND_COUNT, CW_DIM_COUNT, 0, 0, NULL, false, meaning, NULL, NULL,            \
            offsetof(type, member), flag                                                           \
    }
#define WORD_OUT(key, meaning, choices, type, member)                                              \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false, meaning, NULL, choices,         \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }

/* Miss of a trial value: negative below the root, positive above it. */
typedef double (*cw_water_miss)(const void *about, double value);

/* The root between @p low and @p high of a function that rises from negative to positive there:
 * false position with halving of the stale end (Illinois), a bisection whenever that is slow.  Ends
 * when the bracket is narrower than 1e-15 of its upper end, or the miss is 0. */
cw_water_root cw_water_hunt(cw_water_miss miss, const void *about, double low, double high);

/* One box barrel ready for computing. */
typedef struct cw_water_box {
    double span_ft, rise_ft, slope, length_ft;
    double walls, bed;      /* n^1.5 */
    double side;            /* 2 walls/span */
    double bed_n;           /* of the bed, or of the floor where there is none */
    double entrance_factor; /* of the velocity head at the inlet: entrance, blockage, bends */
} cw_water_box;

cw_water_box cw_water_box_of(const cw_water_barrel *barrel);

/* A flow in a box. */
typedef struct cw_water_run {
    const cw_water_box *box;
    double flow_cfs;
    double head_q;      /* q^2/2g: the velocity head is this over y^2 */
    double rough_q;     /* (q/1.486)^2 */
    double critical_ft; /* not limited by the lid */
    double full_slope;
    cw_water_root normal;
    bool has_normal;
    double normal_ft;
    bool steep; /* normal depth below critical depth and below the lid */
} cw_water_run;

cw_water_run cw_water_run_of(const cw_water_box *box, double flow_cfs);

/* fmin() and fmax() of what is a number: those of the library are called, these are one
 * instruction. */
static inline double cw_water_lesser(double a, double b)
{
    return a < b ? a : b;
}

static inline double cw_water_greater(double a, double b)
{
    return a > b ? a : b;
}

/* x^(4/3) of a normal positive number, to 2e-15 of it; twice as fast as pow(), and the heart of all
 * that follows a water surface.  The guess r of x^(-1/3), within 4 %, is had by dividing the bits,
 * exponent and all, by -3.  With e = 1 - x r^3 the root is r (1 - e)^(-1/3), whose binomial series
 * is taken once to e^7 and once to e^2. */
static inline double cw_water_four_thirds(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    bits = UINT64_C(0x553ef0ff289dd796) - bits / 3;
    double r;
    memcpy(&r, &bits, sizeof r);
    double e = 1.0 - x * r * (r * r);
    const double e2 = e * e;
    const double low = 1.0 + e * (1.0 / 3.0) + e2 * (2.0 / 9.0 + e * (14.0 / 81.0));
    const double high =
        35.0 / 243.0 + e * (91.0 / 729.0) + e2 * (728.0 / 6561.0 + e * (1976.0 / 19683.0));
    r *= low + e2 * e2 * high;
    e = 1.0 - x * r * (r * r);
    r += r * e * (1.0 / 3.0 + e * (2.0 / 9.0));
    return x * r * (x * r);
}

/* Length wet on bed and walls over the area, each part times its n^1.5, at depth y <= rise with a
 * free surface. */
static inline double cw_water_rough(const cw_water_box *box, double depth_ft)
{
    return box->side + box->bed / depth_ft;
}

/* Friction slope with a free surface: Sf = (Q/K)^2 with K = 1.486 A^(5/3)/(sum P n^1.5)^(2/3). */
static inline double cw_water_friction(const cw_water_run *run, double depth_ft)
{
    const double part = 1.0 / depth_ft;
    return run->rough_q * (part * part) *
           cw_water_four_thirds(run->box->side + run->box->bed * part);
}

/* Normal depth of an open box of this width; its bracket and the relative miss of the flow. */
cw_water_root cw_water_box_normal(const cw_water_box *box, double flow_cfs);

static inline double cw_water_velocity_head(const cw_water_run *run, double head_ft)
{
    const double depth = cw_water_lesser(head_ft, run->box->rise_ft);
    return run->head_q / (depth * depth);
}

/* How a branch ended. */
typedef enum cw_water_end {
    CW_WATER_AT_LENGTH,  /* it goes through to the other end of the barrel */
    CW_WATER_AT_CRITICAL /* it came down to critical depth, or to the lid's edge when that is lower
                          */
} cw_water_end;

typedef struct cw_water_traced {
    cw_water_end end;
    double at_ft;   /* where it ended, from where it began */
    double head_ft; /* there */
    double full_ft; /* length over which the barrel was full */
    double near_ft; /* length over which the surface was just under the lid, by how near it was */
} cw_water_traced;

/* From the outlet up with @p start_ft there (depth or pressure head); from the inlet down.  @p
 * branch may be NULL. */
cw_water_traced cw_water_trace_slow(const cw_water_run *run, double start_ft,
                                    cw_water_branch *branch);
cw_water_traced cw_water_trace_fast(const cw_water_run *run, cw_water_branch *branch);

/* Energy at the inlet of the line that is carried on upstream from critical flow at the outlet
 * side,
 * @p distance_ft away.  It is followed only down to @p floor_ft; false when it falls lower. */
bool cw_water_carry_on(const cw_water_run *run, double distance_ft, double floor_ft,
                       double *energy_ft);

/* Depth or pressure head with which the slow branch begins. */
double cw_water_outlet_head(const cw_water_run *run, double tail_ft, double tail_velocity_fps,
                            bool channel_velocity);

/* The depth between two nodes at a distance from the first, and its change along the way, to nearly
 * all digits of the one and half of those of the other: cubic through depths and slopes. */
double cw_water_between(const double run_ft[2], const double head_ft[2], double length_ft,
                        double at_ft, double *per_ft);

/* One barrel solved as far as its headwater needs.  Past @c head nothing is filled for still water
 * or a bad flow. */
typedef struct cw_water_solved {
    cw_water_head head;
    cw_water_inlet_head inlet;
    cw_water_run run;
    double start_ft; /* depth or pressure head with which the slow branch begins */
    cw_water_traced slow;
} cw_water_solved;

/* @p slow may be NULL. */
void cw_water_solve(const cw_water_barrel *barrel, const cw_water_box *box, double flow_cfs,
                    const double tail[2], cw_water_branch *slow, cw_water_solved *solved);

#endif
