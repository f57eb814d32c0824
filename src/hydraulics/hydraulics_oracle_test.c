/* Profiles against scipy's adaptive quadrature (tests/oracle/profile_oracle.py), where scipy is
 * there. */
#define _POSIX_C_SOURCE 200809L
#include "hydraulics_check.h"

#include <stdlib.h>
#include <string.h>

#include "cw/hydraulics.h"

#define PYTHON "/usr/bin/python3"

enum { CASES = 150, COMMAND_MAX = 40000 };

typedef struct oracle_case {
    cw_water_barrel barrel;
    double flow_cfs, tail_ft;
} oracle_case;

static oracle_case any_case(unsigned long long *seed)
{
    const double slopes[] = {0.0, -0.005, even_in(seed, 1e-4, 0.01), even_in(seed, 0.005, 0.05)};
    oracle_case at = {.barrel = {.span_ft = even_in(seed, 4, 12),
                                 .rise_ft = even_in(seed, 4, 10),
                                 .length_ft = even_in(seed, 30, 300),
                                 .n = even_in(seed, 0.011, 0.018),
                                 .entrance_loss = 0.5}};
    const double kind = even(seed);
    const int pick = kind < 0.1 ? 0 : kind < 0.2 ? 1 : kind < 0.6 ? 2 : 3;
    at.barrel.inlet_floor_ft = slopes[pick] * at.barrel.length_ft;
    if (even(seed) < 0.3) { /* a bed on the floor, so thin that it takes no opening */
        at.barrel.bed_ft = 1e-9;
        at.barrel.bed_n = even_in(seed, 0.02, 0.04);
    }
    const double rise = at.barrel.rise_ft;
    at.flow_cfs = at.barrel.span_ft * rise * sqrt(rise) * even_in(seed, 0.2, 4.5);
    at.tail_ft = even(seed) < 0.3 ? 0.0 : even_in(seed, 0.2, 1.8) * rise;
    assert_true(cw_water_inlet_rows(&cw_data, 1, &at.barrel.inlet));
    return at;
}

static void compare(int index, const oracle_case *at, const char *word, double want)
{
    cw_water_profile p;
    cw_water_profile_of(&at->barrel, at->flow_cfs, at->tail_ft, 0, &p);
    assert_int_equal(p.status, CW_WATER_OK);
    const char *got = p.has_jump ? "jump" : p.regime == CW_WATER_FAST ? "fast" : "slow";
    if (strcmp(got, word) != 0)
        fail_msg("case %d: %s, scipy says %s %.6f", index, got, word, want);
    if (p.has_jump)
        near("place of the jump", p.jump_ft, want, 0.05);
    else
        near(word, cw_water_depth_at(&p, p.regime == CW_WATER_FAST ? p.length_ft : 0), want,
             fmin(0.005, 0.001 * want));
}

static void profiles_agree_with_quadrature(void **state)
{
    (void)state;
    if (system(PYTHON " -c 'import scipy' >/dev/null 2>&1") != 0)
        skip();
    static oracle_case cases[CASES];
    static char command[COMMAND_MAX];
    unsigned long long seed = 77001;
    size_t used = (size_t)snprintf(command, sizeof command, "%s %s/tests/oracle/profile_oracle.py",
                                   PYTHON, CW_ROOT);
    for (int i = 0; i < CASES; i++) {
        cases[i] = any_case(&seed);
        const oracle_case *at = &cases[i];
        const cw_water_barrel *b = &at->barrel;
        used += (size_t)snprintf(command + used, sizeof command - used,
                                 " '%.12g %.12g %.12g %.12g %.12g %.12g %.12g %.12g'", b->span_ft,
                                 b->rise_ft, b->length_ft, cw_water_slope(b), b->n,
                                 b->bed_ft > 0 ? b->bed_n : b->n, at->flow_cfs, at->tail_ft);
        assert_true(used < sizeof command);
    }
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    for (int i = 0; i < CASES; i++) {
        char word[16];
        double want;
        if (fscanf(pipe, "%15s %lf", word, &want) != 2)
            fail_msg("scipy gives no answer for case %d", i);
        compare(i, &cases[i], word, want);
    }
    assert_int_equal(pclose(pipe), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(profiles_agree_with_quadrature)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
