/* Random numbers by place: the counter form of the split-mix generator. */
#include "schedule_internal.h"

/* Steele, Lea, Flood, "Fast splittable pseudorandom number generators", 2014: the golden-ratio step
 * and its mixer. */
#define GOLDEN UINT64_C(0x9E3779B97F4A7C15)

static uint64_t mixed(uint64_t z)
{
    z = (z ^ (z >> 30)) * UINT64_C(0xBF58476D1CE4E5B9);
    z = (z ^ (z >> 27)) * UINT64_C(0x94D049BB133111EB);
    return z ^ (z >> 31);
}

uint64_t cw_random_word(uint64_t state, uint64_t place)
{
    return mixed(state + (place + 1) * GOLDEN);
}

uint64_t cw_random_run(uint64_t seed, int run)
{
    // Mixed twice: places of one run are steps of GOLDEN apart, so states of runs must not be.
    return mixed(cw_random_word(mixed(seed), (uint64_t)run) ^ GOLDEN);
}

double cw_random_share(uint64_t state, uint64_t place)
{
    // The upper 53 bits at the middle of their cell: never 0 and never 1.
    return ((double)(cw_random_word(state, place) >> 11) + 0.5) * 0x1p-53;
}
