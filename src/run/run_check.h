/* What the tests of the run share: a comparison with a tolerance, fixed random numbers and the road
 * of the worked example.  Include after cmocka.h. */
#ifndef CW_RUN_CHECK_H
#define CW_RUN_CHECK_H

#include <math.h>
#include <stdint.h>
#include <stdio.h>

#include "cw/run.h"
#include "cw/units.h"

/* Fail with the name of the value when it is not within the tolerance, NaN included. */
static inline void near(const char *what, double actual, double expected, double within)
{
    if (!(fabs(actual - expected) <= within)) {
        print_error("%s: %.12g, expected %.12g within %g\n", what, actual, expected, within);
        fail();
    }
}

/* splitmix64, a public-domain generator: the same numbers on every machine. */
static inline uint64_t next_bits(uint64_t *state)
{
    uint64_t z = (*state += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

static inline double between(uint64_t *state, double low, double high)
{
    return low + (high - low) * ((double)(next_bits(state) >> 11) / 9007199254740992.0);
}

enum { CASES = 10000 };

static const uint64_t first_seed = 20240611;

/* 12 ft lane at 2 %, 8 ft shoulder at 4 %, 2:1, road +1.5 %, crossing at 520.00. */
static inline cw_run_road example_road(void)
{
    const cw_run_side side = {.strips = {{12, 0.02}, {8, 0.04}}, .strip_count = 2, .side_slope = 2};
    return (cw_run_road){.elevation_ft = 520, .grade = 0.015, .outlet = side, .inlet = side};
}

static inline cw_run_path example_path(double skew_deg)
{
    return (cw_run_path){
        .frame = {.northing_ft = 2000,
                  .easting_ft = 1000,
                  .azimuth_deg = cw_run_azimuth_deg(75, skew_deg, CW_RUN_INLET_RIGHT),
                  .skew_deg = skew_deg,
                  .inlet = CW_RUN_INLET_RIGHT}};
}

/* Invert 505.00 at the crossing, 1 %, 6 ft rise, 10 in lid, 1 ft of fill over it, 11 ft 8 in wide.
 */
static inline cw_run_under example_under(const cw_run_road *road, const cw_run_path *path,
                                         cw_run_cut cut)
{
    return (cw_run_under){.road = road,
                          .path = path,
                          .invert_ft = 505,
                          .slope = 0.01,
                          .width_ft = 140 / CW_IN_PER_FT,
                          .cut = cut,
                          .fill_ft = 94 / CW_IN_PER_FT};
}

/* A road whose sides, grade and elevation are drawn at random within what is built. */
static inline cw_run_side random_side(uint64_t *seed)
{
    cw_run_side side = {.strip_count = 1 + (int)between(seed, 0, 4),
                        .side_slope = between(seed, 0.5, 8)};
    for (int i = 0; i < side.strip_count; i++)
        side.strips[i] = (cw_run_strip){between(seed, 0.5, 24), between(seed, -0.06, 0.08)};
    return side;
}

static inline cw_run_road random_road(uint64_t *seed)
{
    return (cw_run_road){.elevation_ft = between(seed, 100, 600),
                         .grade = between(seed, -0.08, 0.08),
                         .outlet = random_side(seed),
                         .inlet = random_side(seed)};
}

static inline cw_run_frame random_frame(uint64_t *seed)
{
    return (cw_run_frame){.northing_ft = between(seed, 0, 3e6),
                          .easting_ft = between(seed, 0, 3e6),
                          .azimuth_deg = between(seed, 0, 360),
                          .skew_deg = between(seed, -60, 60),
                          .inlet =
                              between(seed, 0, 1) < 0.5 ? CW_RUN_INLET_LEFT : CW_RUN_INLET_RIGHT};
}

/* Up to three bends of up to 30 deg, at least 25 ft apart, between -90 and 90 ft. */
static inline cw_run_path random_path(uint64_t *seed)
{
    cw_run_path path = {.frame = random_frame(seed), .bend_count = (int)between(seed, 0, 4)};
    double at_ft = -70;
    for (int i = 0; i < path.bend_count; i++) {
        path.bends[i] = (cw_run_bend){at_ft + between(seed, 0, 20), between(seed, -30, 30)};
        at_ft += 45;
    }
    return path;
}

#endif
