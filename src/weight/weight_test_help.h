/** @file
 * Shapes and comparisons for the tests of this module. */
#ifndef CW_WEIGHT_TEST_HELP_H
#define CW_WEIGHT_TEST_HELP_H

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "cw/units.h"
#include "cw/weight.h"

#define COUNT_OF(array) (sizeof(array) / sizeof(array)[0])

/** Fail with the name and source of the case unless |got - want| <= tolerance, all in the same
 * unit. */
static inline void near(const char *what, double got, double want, double tolerance)
{
    if (!(fabs(got - want) <= tolerance))
        fail_msg("%s: got %.8g, want %.8g within %.2g", what, got, want, tolerance);
}

/** The base of the worked example: 12 ft span, 4 ft legs, 10 in slab and walls, 8 in haunches, 6
 * ft, 150 lb/ft3. */
static inline cw_piece_shape example_base(void)
{
    return (cw_piece_shape){.part = CW_PART_BASE,
                            .span_in = 144.0,
                            .wall_in = 10.0,
                            .leg_in = 48.0,
                            .slab_in = 10.0,
                            .haunch_in = 8.0,
                            .length_in = 72.0,
                            .unit_pcf = 150.0,
                            .tongue_share = 0.5,
                            .groove_share = 0.5};
}

static inline cw_piece_shape example_lid(void)
{
    return (cw_piece_shape){.part = CW_PART_LID,
                            .span_in = 144.0,
                            .wall_in = 10.0,
                            .slab_in = 11.0,
                            .length_in = 72.0,
                            .unit_pcf = 150.0};
}

/** xorshift64*: a fixed seed gives the same cases everywhere. */
static inline double random_between(uint64_t *state, double low, double high)
{
    *state ^= *state >> 12;
    *state ^= *state << 25;
    *state ^= *state >> 27;
    const uint64_t bits = (*state * UINT64_C(2685821657736338717)) >> 11;
    return low + (high - low) * ((double)bits / 9007199254740992.0);
}

static inline int random_below(uint64_t *state, int limit)
{
    const int value = (int)random_between(state, 0.0, limit);
    return value < limit ? value : limit - 1;
}

/** A shape that may break a rule: the caller keeps the valid ones. */
static inline cw_piece_shape random_shape(uint64_t *state)
{
    cw_piece_shape shape = {.part = random_below(state, 4),
                            .span_in = random_between(state, 48.0, 240.0),
                            .wall_in = random_between(state, 6.0, 16.0),
                            .slab_in = random_between(state, 6.0, 18.0),
                            .length_in = random_between(state, 48.0, 192.0),
                            .unit_pcf = random_between(state, 140.0, 160.0),
                            .tongue_in = random_between(state, 2.0, 6.0),
                            .groove_in = random_between(state, 2.0, 6.0),
                            .tongue_share = random_between(state, 0.3, 0.6),
                            .groove_share = random_between(state, 0.3, 0.6)};
    const bool lid = shape.part == CW_PART_LID, ring = shape.part == CW_PART_RING;
    shape.leg_in = lid ? 0.0 : random_between(state, 30.0, 120.0);
    shape.haunch_in = lid || random_below(state, 4) == 0 ? 0.0 : random_between(state, 4.0, 14.0);
    shape.top_slab_in = ring ? random_between(state, 6.0, 18.0) : 0.0;
    shape.top_haunch_in = ring ? random_between(state, 0.0, 14.0) : 0.0;
    if (random_below(state, 3) > 0) {
        shape.downstream.skew_deg = random_between(state, -35.0, 35.0);
        shape.upstream.skew_deg = random_between(state, -35.0, 35.0);
        shape.downstream.mitre_deg = random_between(state, -8.0, 8.0);
        shape.upstream.mitre_deg = random_between(state, -8.0, 8.0);
    }
    shape.downstream.joint = random_below(state, 3);
    shape.upstream.joint = random_below(state, 3);
    shape.opening_count = random_below(state, 4);
    for (int i = 0; i < shape.opening_count; i++)
        shape.openings[i] = (cw_piece_opening){
            .face = random_below(state, 4),
            .y_in = random_between(state, 0.0, shape.length_in),
            .z_in = random_between(state, 0.0, shape.slab_in + shape.leg_in + shape.top_slab_in),
            .x_in = random_between(state, -0.5, 0.5) * shape.span_in,
            .is_round = random_below(state, 2) == 0,
            .diameter_in = random_between(state, 4.0, 48.0),
            .width_in = random_between(state, 4.0, 48.0),
            .tall_in = random_between(state, 4.0, 36.0)};
    return shape;
}

/** The next valid random shape; its findings are thrown away. */
static inline cw_piece_shape valid_shape(uint64_t *state)
{
    for (int tries = 0; tries < 10000; tries++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        const cw_piece_shape shape = random_shape(state);
        const bool good = cw_piece_shape_valid(&shape, (cw_pos){0}, &diags);
        cw_arena_release(&arena);
        if (good)
            return shape;
    }
    fail_msg("no valid shape in 10000 tries");
    return example_base();
}

#endif
