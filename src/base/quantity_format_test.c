/* Printing of quantities, and reading back what was printed.  Sources named in the rows:
 *   hand      hand arithmetic on exact relations, written out in the row
 *   85 FR     85 FR 62698 (2020-10-05): 1 US survey ft = 1200/3937 m, international ft 0.3048 m
 *   scipy     scipy.constants 1.10.1 (its pound, inch, foot, g and pound_force), run apart from
 * this program header    the form is promised by cw/quantity.h practice  common practice in US
 * construction */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cw/quantity.h"
#include "cw/units.h"
#include "quantity_internal.h"

#define COUNT_OF(array) (sizeof(array) / sizeof(array)[0])

typedef struct printing {
    double value;
    cw_dim dim;
    cw_unit_system system;
    const char *text;
    const char *source;
} printing;

static const printing printings[] = {
    /* feet-inches to 1/16: n = round(in * 16), then feet, inches, reduced fraction */
    {5.895833 * 12.0, CW_DIM_IN, CW_US, "5'-10 3/4\"", "hand: 1132 sixteenths"},
    {0.999 * 12.0, CW_DIM_IN, CW_US, "1'-0\"", "hand: 191.8 -> 192 sixteenths"},
    {5.99999 * 12.0, CW_DIM_IN, CW_US, "6'-0\"", "hand: 1152 sixteenths"},
    {7.4895 * 12.0, CW_DIM_IN, CW_US, "7'-5 7/8\"", "hand: 1437.98 -> 1438 sixteenths"},
    {8.33333 * 12.0, CW_DIM_IN, CW_US, "8'-4\"", "hand: 1600 sixteenths"},
    {70.75, CW_DIM_IN, CW_US, "5'-10 3/4\"", "hand"},
    {10.75, CW_DIM_IN, CW_US, "10 3/4\"", "hand: under a foot"},
    {0.75, CW_DIM_IN, CW_US, "3/4\"", "hand"},
    {0.0625, CW_DIM_IN, CW_US, "1/16\"", "hand"},
    {0.03125, CW_DIM_IN, CW_US, "1/16\"", "hand: half of a sixteenth goes up"},
    {-0.03125, CW_DIM_IN, CW_US, "-1/16\"", "hand: half goes away from zero"},
    {0.03, CW_DIM_IN, CW_US, "0\"", "hand: 0.48 sixteenth"},
    {-0.03, CW_DIM_IN, CW_US, "0\"", "hand: never -0"},
    {0.0, CW_DIM_IN, CW_US, "0\"", "hand"},
    {-0.0, CW_DIM_IN, CW_US, "0\"", "hand: never -0"},
    {12.0, CW_DIM_IN, CW_US, "1'-0\"", "hand"},
    {11.97, CW_DIM_IN, CW_US, "1'-0\"", "hand: 191.52 -> 192 sixteenths"},
    {11.96, CW_DIM_IN, CW_US, "11 15/16\"", "hand: 191.36 -> 191 sixteenths"},
    {12.5, CW_DIM_IN, CW_US, "1'-0 1/2\"", "hand"},
    {-66.0, CW_DIM_IN, CW_US, "-5'-6\"", "hand"},
    {70.75, CW_DIM_IN, CW_SI, "1797 mm", "hand: 1797.05"},
    {10.0, CW_DIM_IN, CW_SI, "254 mm", "hand"},

    /* stations: n = round(ft * 100) */
    {1234.56, CW_DIM_STATION_FT, CW_US, "12+34.56", "hand"},
    {99.999, CW_DIM_STATION_FT, CW_US, "1+00.00", "hand: 9999.9 -> 10000"},
    {-5.5, CW_DIM_STATION_FT, CW_US, "-0+05.50", "hand"},
    {123456.784, CW_DIM_STATION_FT, CW_US, "1234+56.78", "hand"},
    {0.0, CW_DIM_STATION_FT, CW_US, "0+00.00", "hand"},
    {-0.004, CW_DIM_STATION_FT, CW_US, "0+00.00", "hand: never -0"},
    {0.005, CW_DIM_STATION_FT, CW_US, "0+00.01", "hand: half goes up"},
    {5.0, CW_DIM_STATION_FT, CW_US, "0+05.00", "hand"},
    {123.456 / 0.3048, CW_DIM_STATION_FT, CW_SI, "123.456 m", "hand"},

    /* survey */
    {12.0, CW_DIM_FT, CW_US, "12.00 ft", "hand"},
    {1234.5, CW_DIM_FT, CW_US, "1,234.50 ft", "hand"},
    {1.005, CW_DIM_FT, CW_US, "1.01 ft", "hand: half as written, though binary is a hair low"},
    {-1.005, CW_DIM_FT, CW_US, "-1.01 ft", "hand: away from zero"},
    {2.675, CW_DIM_FT, CW_US, "2.68 ft", "hand: half as written"},
    {0.125, CW_DIM_FT, CW_US, "0.13 ft", "hand: exact half"},
    {1.00499, CW_DIM_FT, CW_US, "1.00 ft", "hand"},
    {-0.004, CW_DIM_FT, CW_US, "0.00 ft", "hand: never -0"},
    {100.0, CW_DIM_FT, CW_SI, "30.480 m", "85 FR"},
    {1067.29, CW_DIM_ELEV_FT, CW_US, "1067.29 ft", "hand: no comma in elevations"},
    {601.25, CW_DIM_ELEV_FT, CW_SI, "183.261 m", "hand: 601.25 * 0.3048"},
    {1321228.8089, CW_DIM_COORD_FT, CW_US, "1321228.809 ft", "hand"},
    {1000000.0, CW_DIM_COORD_FT, CW_SI, "304800.000 m", "85 FR"},

    /* weights and the rest */
    {16650.0, CW_DIM_LB, CW_US, "16,650 lb", "hand"},
    {999.5, CW_DIM_LB, CW_US, "1,000 lb", "hand: half goes up"},
    {999.4, CW_DIM_LB, CW_US, "999 lb", "hand"},
    {-1234567.0, CW_DIM_LB, CW_US, "-1,234,567 lb", "hand"},
    {10000.0, CW_DIM_LB, CW_SI, "4,536 kg", "hand: 4535.92"},
    {150.0, CW_DIM_PCF, CW_US, "150 lb/ft3", "hand"},
    {62.4, CW_DIM_PCF, CW_US, "62.4 lb/ft3", "hand"},
    {62.96, CW_DIM_PCF, CW_US, "63 lb/ft3", "hand"},
    {150.0, CW_DIM_PCF, CW_SI, "23.56 kN/m3", "scipy: 150/6.365880354"},
    {5000.0, CW_DIM_PSI, CW_US, "5,000 psi", "hand"},
    {5000.0, CW_DIM_PSI, CW_SI, "34.47 MPa", "scipy: 5000 psi"},
    {2500.0, CW_DIM_PSF, CW_US, "2,500 psf", "hand"},
    {2500.0, CW_DIM_PSF, CW_SI, "119.7 kPa", "scipy: 2500 * 0.04788026"},
    {0.01, CW_DIM_SLOPE, CW_US, "1.00 %", "header"},
    {-0.015, CW_DIM_SLOPE, CW_US, "-1.50 %", "hand"},
    {0.005, CW_DIM_SLOPE, CW_SI, "0.50 %", "hand"},
    {-0.00001, CW_DIM_SLOPE, CW_US, "0.00 %", "hand: never -0"},
    {2.0, CW_DIM_SIDE_SLOPE, CW_US, "2:1", "header"},
    {1.5, CW_DIM_SIDE_SLOPE, CW_US, "1.5:1", "header"},
    {0.75, CW_DIM_SIDE_SLOPE, CW_SI, "0.75:1", "hand"},
    {0.0, CW_DIM_SIDE_SLOPE, CW_US, "vertical", "header"},
    {20.504166, CW_DIM_DEG, CW_US, "20.50 deg", "hand"},
    {42.5, CW_DIM_SQFT, CW_US, "42.50 ft2", "hand"},
    {100.0, CW_DIM_SQFT, CW_SI, "9.29 m2", "hand: 9.290304"},
    {102.6667, CW_DIM_CUFT, CW_US, "102.67 ft3", "hand"},
    {100.0, CW_DIM_CUFT, CW_SI, "2.832 m3", "hand: 2.8316847"},
    {12.34, CW_DIM_CY, CW_US, "12.3 cy", "hand"},
    {9.994, CW_DIM_CY, CW_US, "9.99 cy", "hand"},
    {9.996, CW_DIM_CY, CW_US, "10.0 cy", "hand: rounded it is not under 10"},
    {1234.56, CW_DIM_CY, CW_US, "1,234.6 cy", "hand"},
    {100.0, CW_DIM_CY, CW_SI, "76.5 m3", "hand: 76.455"},
    {1.25, CW_DIM_HOUR, CW_US, "1.3 h", "hand: exact half goes up"},
    {40.0, CW_DIM_DEGF, CW_US, "40 deg F", "hand"},
    {41.0, CW_DIM_DEGF, CW_SI, "5 deg C", "hand: 9*5/9"},
    {31.9, CW_DIM_DEGF, CW_SI, "0 deg C", "hand: -0.06, never -0"},
    {95.0, CW_DIM_PERCENT, CW_US, "95.0 %", "hand"},
    {2775.2, CW_DIM_LB_PER_FT, CW_US, "2,775 lb/ft", "hand"},
    {1000.0, CW_DIM_LB_PER_FT, CW_SI, "1,488 kg/m", "scipy: 1.488164"},
    {45000.0, CW_DIM_FT_LB, CW_US, "45,000 ft lb", "hand"},
    {45000.0, CW_DIM_FT_LB, CW_SI, "61.01 kN m", "scipy: 45 * 1.355818"},
    {22.54, CW_DIM_TON, CW_US, "22.5 ton", "hand"},
    {22.54, CW_DIM_TON, CW_SI, "20.4 t", "hand: 22.54 * 0.90718 = 20.448"},
    {34.56, CW_DIM_CFS, CW_US, "34.56 cfs", "hand"},
    {12345.6, CW_DIM_CFS, CW_US, "12,346 cfs", "hand: four digits, all before the point"},
    {0.00043056, CW_DIM_CFS, CW_US, "0.000431 cfs", "hand: six decimals at most"},
    {85.0, CW_DIM_CFS, CW_SI, "2.407 m3/s", "scipy: 85 * 0.0283168"},
    {8.5, CW_DIM_FPS, CW_US, "8.50 ft/s", "hand"},
    {24.0, CW_DIM_ACRE, CW_US, "24.00 acre", "hand"},
    {24.0, CW_DIM_ACRE, CW_SI, "9.712 ha", "scipy: 24 * 0.404686"},
    {3.2, CW_DIM_IN_PER_H, CW_SI, "81.3 mm/h", "hand: 81.28"},
    {8.64 / 0.3048, CW_DIM_FT_PER_DAY, CW_US, "28.35 ft/day", "hand: 28.3465"},
    {8.64 / 0.3048, CW_DIM_FT_PER_DAY, CW_SI, "8.640 m/day", "hand"},
    {7.8545, CW_DIM_HP, CW_US, "7.855 hp", "hand: half goes up"},
    {91.65, CW_DIM_MIN, CW_US, "91.7 min", "hand"},
    {0.3135, CW_DIM_SQIN_PER_FT, CW_US, "0.314 in2/ft", "hand: half goes up"},
    {0.31, CW_DIM_SQIN_PER_FT, CW_SI, "656 mm2/m", "hand: 0.31 * 2116.67"},
    {10.0, CW_DIM_HP, CW_SI, "7.457 kW", "scipy"},
    {125000.0, CW_DIM_MONEY, CW_US, "$1,250.00", "header"},
    {-1250.0, CW_DIM_MONEY, CW_US, "-$12.50", "hand"},
    {5.0, CW_DIM_MONEY, CW_SI, "$0.05", "hand"},
    {1250.5, CW_DIM_MONEY, CW_US, "$12.51", "hand: half a cent goes up"},
    {-0.2, CW_DIM_MONEY, CW_US, "$0.00", "hand: never -0"},
    {1.25, CW_DIM_NONE, CW_US, "1.25", "hand"},
    {0.012345, CW_DIM_NONE, CW_US, "0.01235", "hand: four digits, half up"},
    {12345.6, CW_DIM_NONE, CW_US, "12346", "hand: digits before the point stay"},
    {9.9996, CW_DIM_NONE, CW_US, "10", "hand"},
    {-0.0, CW_DIM_NONE, CW_US, "0", "hand: never -0"},
    {1.0 / 3.0, CW_DIM_NONE, CW_SI, "0.3333", "hand"},
    {1250.0, CW_DIM_COUNT, CW_US, "1,250", "hand"},
    {(double)NAN, CW_DIM_FT, CW_US, "not finite", "no number to print"},
    {(double)INFINITY, CW_DIM_IN, CW_US, "not finite", "no number to print"},
    {-(double)INFINITY, CW_DIM_STATION_FT, CW_US, "not finite", "no number to print"},
    {(double)NAN, CW_DIM_MONEY, CW_US, "not finite", "no number to print"},
    {(double)NAN, CW_DIM_SIDE_SLOPE, CW_US, "not finite", "no number to print"},
    {(double)INFINITY, CW_DIM_NONE, CW_US, "not finite", "no number to print"},
};

static void every_value_prints_as_its_text(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    for (size_t i = 0; i < COUNT_OF(printings); i++) {
        const printing *row = &printings[i];
        const char *got = cw_quantity_format(&arena, row->value, row->dim, row->system);
        if (strcmp(got, row->text) != 0)
            fail_msg("%.17g (dim %d): %s, expected %s (%s)", row->value, (int)row->dim, got,
                     row->text, row->source);
    }
    cw_arena_release(&arena);
}

/* The number of a cell and the unit of its heading together are the format. */
static void number_and_unit_make_the_format(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    for (size_t i = 0; i < COUNT_OF(printings); i++) {
        const printing *row = &printings[i];
        if (!isfinite(row->value) || row->dim == CW_DIM_MONEY)
            continue;
        const char *unit = cw_dim_unit_in(row->dim, row->system);
        const char *number = cw_quantity_number(&arena, row->value, row->dim, row->system);
        const char *both = cw_arena_print(&arena, "%s%s%s", number, *unit ? " " : "", unit);
        assert_string_equal(both, row->text);
    }
    assert_string_equal(cw_quantity_number(&arena, -125000.0, CW_DIM_MONEY, CW_US), "-1,250.00");
    cw_arena_release(&arena);
}

static const struct {
    double value;
    int decimals;
    const char *text;
} decimals[] = {
    {0.5, 0, "1"},
    {1.5, 0, "2"},
    {2.5, 0, "3"},
    {-2.5, 0, "-3"},
    {0.49, 0, "0"},
    {-0.49, 0, "0"},
    {999.5, 0, "1,000"},
    {999999.5, 0, "1,000,000"},
    {1234567.891, 2, "1,234,567.89"},
    {0.0000005, 6, "0.000001"},
    {0.125, 2, "0.13"},
    {0.375, 2, "0.38"},
    {1.005, 2, "1.01"},
    {8.345, 2, "8.35"},
    {100.0, 3, "100.000"},
    {-0.0004, 3, "0.000"},
    {1e15, 1, "1,000,000,000,000,000.0"},
    {1e21, 0, "1,000,000,000,000,000,000,000"},
    {(double)NAN, 2, "not finite"},
    {1e308, 6, "not finite"},
};

static void decimals_round_half_away_from_zero(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    for (size_t i = 0; i < COUNT_OF(decimals); i++) // hand arithmetic
        assert_string_equal(cw_decimal(&arena, decimals[i].value, decimals[i].decimals),
                            decimals[i].text);
    cw_arena_release(&arena);
}

static const struct {
    double length_in;
    int denominator;
    const char *text;
} rulers[] = {
    {70.75, 64, "5'-10 3/4\""},
    {70.765625, 64, "5'-10 49/64\""},
    {70.765625, 32, "5'-10 25/32\""}, /* 2264.5 thirty-seconds: half up to 2265 = 70 25/32 */
    {70.75, 4, "5'-10 3/4\""},
    {70.75, 2, "5'-11\""},
    {70.75, 1, "5'-11\""},
    {11.5, 1, "1'-0\""},
    {0.49, 1, "0\""},
    {-0.49, 1, "0\""},
    {71.999, 8, "6'-0\""},
    {1200000.0, 16, "100000'-0\""},
};

static void rulers_of_every_denominator(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    for (size_t i = 0; i < COUNT_OF(rulers); i++) // hand arithmetic
        assert_string_equal(cw_feet_inches(&arena, rulers[i].length_in, rulers[i].denominator),
                            rulers[i].text);
    cw_arena_release(&arena);
}

static const struct {
    double value;
    cw_dim dim;
    const char *text;
} written[] = {
    {70.75, CW_DIM_IN, "5'-10 3/4\""},
    {0.015625, CW_DIM_IN, "1/64\""},
    {1.3, CW_DIM_IN, "1.3 in"},
    {0.0, CW_DIM_IN, "0\""},
    {12.5, CW_DIM_FT, "12.5 ft"},
    {70.75 / 12.0, CW_DIM_FT, "5'-10 3/4\""},
    {601.25, CW_DIM_ELEV_FT, "601.25 ft"},
    {1234.5, CW_DIM_STATION_FT, "12+34.5"},
    {5.0, CW_DIM_STATION_FT, "0+05"},
    {-5.5, CW_DIM_STATION_FT, "-0+05.5"},
    {34.0, CW_DIM_STATION_FT, "0+34"},
    {0.0, CW_DIM_STATION_FT, "0+00"},
    {16650.0, CW_DIM_LB, "16650 lb"},
    {150.0, CW_DIM_PCF, "150 lb/ft3"},
    {0.005, CW_DIM_SLOPE, "0.5 %"},
    {-0.015, CW_DIM_SLOPE, "-1.5 %"},
    {1.0 / 48.0, CW_DIM_SLOPE, "1:48"},
    {0.0123456789012, CW_DIM_SLOPE, "0.0123456789012 ft/ft"},
    {1.5, CW_DIM_SIDE_SLOPE, "1.5:1"},
    {20.5, CW_DIM_DEG, "20.5 deg"},
    {0.1, CW_DIM_CY, "0.1 cy"},
    {40.0, CW_DIM_DEGF, "40 deg F"},
    {125000.0, CW_DIM_MONEY, "$1250"},
    {-1250.0, CW_DIM_MONEY, "-$12.50"},
    {1250.0, CW_DIM_COUNT, "1250"},
    {0.30000000000000004, CW_DIM_NONE, "0.30000000000000004"},
    {-0.0, CW_DIM_NONE, "0"},
    {(double)NAN, CW_DIM_NONE, "not finite"},
    {-(double)INFINITY, CW_DIM_SLOPE, "not finite"},
};

static void job_files_get_the_shortest_text(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    for (size_t i = 0; i < COUNT_OF(written); i++) // forms promised by the header, by hand
        assert_string_equal(cw_quantity_write(&arena, written[i].value, written[i].dim),
                            written[i].text);
    // So large a slope overflows as a percentage; it is still written, in digits.
    assert_non_null(strstr(cw_quantity_write(&arena, 1e308, CW_DIM_SLOPE), " ft/ft"));
    cw_arena_release(&arena);
}

/* xorshift64 (Marsaglia 2003): the same values on every machine. */
static uint64_t next_random(uint64_t *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return *seed;
}

static const uint64_t first_seed = 20260302u;
enum { PROPERTY_CASES = 10000 };

/* Sizes from 1e-6 to 1e8 spread evenly over the decades, either sign where the dimension has one.
 */
static double random_value(uint64_t *seed, cw_dim dim)
{
    const double unit = (double)(next_random(seed) >> 11) / 9007199254740992.0; // 2^53
    const double size = pow(10.0, -6.0 + 14.0 * unit);
    const bool minus = next_random(seed) % 2 == 0 && dim != CW_DIM_SIDE_SLOPE;
    const bool whole = dim == CW_DIM_COUNT || dim == CW_DIM_MONEY;
    return (minus ? -1.0 : 1.0) * (whole ? ceil(size) : size);
}

static void what_is_written_reads_back(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    for (int dim = 0; dim < (int)CW_DIM_TEXT; dim++) {
        cw_arena arena = cw_arena_on(NULL);
        for (int i = 0; i < PROPERTY_CASES; i++) {
            const double value = random_value(&seed, (cw_dim)dim);
            const char *text = cw_quantity_write(&arena, value, (cw_dim)dim);
            const cw_parsed back = cw_quantity_parse(text, (cw_dim)dim);
            if (back.status != CW_PARSE_OK || fabs(back.value - value) > 1e-15 * fabs(value))
                fail_msg("seed %llu dim %d case %d: %.17g written %s read %.17g (status %d at %zu)",
                         (unsigned long long)first_seed, dim, i, value, text, back.value,
                         (int)back.status, back.at);
        }
        cw_arena_release(&arena);
    }
}

/* Half of the last printed digit, in the stored unit. */
static double half_digit(const char *text, double value, cw_dim dim, cw_unit_system system)
{
    if (dim == CW_DIM_IN && system == CW_US)
        return 0.5 / CW_SIXTEENTHS_PER_IN;
    if (dim == CW_DIM_SIDE_SLOPE)
        return 0.005;
    if (dim == CW_DIM_NONE)
        return fmin(0.5, fmax(0.0000005, 0.0005 * fabs(value)));
    const bool trimmed = (dim == CW_DIM_PCF || dim == CW_DIM_PSI || dim == CW_DIM_PSF);
    const char *point = strchr(text, '.');
    size_t digits = point ? strspn(point + 1, "0123456789") : 0;
    if (trimmed && system == CW_US)
        digits = 1;
    const double half = 0.5 * pow(10.0, -(double)digits);
    const char *name = cw_dim_unit_in(dim, system);
    const cw_unit *unit = *name ? cw_unit_named(dim, name) : NULL;
    if (dim == CW_DIM_MONEY)
        return half * CW_PERCENT;
    return unit ? half * unit->multiply / unit->divide : half;
}

static void what_is_printed_reads_back_within_half_a_digit(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    for (int turn = 0; turn < 2 * (int)CW_DIM_TEXT; turn++) {
        const cw_dim dim = (cw_dim)(turn / 2);
        const cw_unit_system system = turn % 2 == 0 ? CW_US : CW_SI;
        cw_arena arena = cw_arena_on(NULL);
        for (int i = 0; i < PROPERTY_CASES / 4; i++) {
            const double value = random_value(&seed, dim);
            const char *text = cw_quantity_format(&arena, value, dim, system);
            const cw_parsed back = cw_quantity_parse(text, dim);
            const double within = half_digit(text, value, dim, system) + 1e-14 * fabs(value);
            if (back.status != CW_PARSE_OK || !(fabs(back.value - value) <= within * (1.0 + 1e-9)))
                fail_msg(
                    "seed %llu dim %d system %d: %.17g printed %s read %.17g (status %d at %zu)",
                    (unsigned long long)first_seed, (int)dim, (int)system, value, text, back.value,
                    (int)back.status, back.at);
        }
        cw_arena_release(&arena);
    }
}

static void every_dimension_has_unit_and_hint(void **state)
{
    (void)state;
    for (int dim = 0; dim < (int)CW_DIM_LIMIT; dim++) {
        assert_non_null(cw_dim_unit((cw_dim)dim));
        assert_non_null(cw_dim_unit_in((cw_dim)dim, CW_SI));
        assert_true(strlen(cw_dim_hint((cw_dim)dim)) > 0);
    }
    assert_string_equal(cw_dim_unit(CW_DIM_FT), "ft");
    assert_string_equal(cw_dim_unit(CW_DIM_PCF), "lb/ft3");
    assert_string_equal(cw_dim_unit(CW_DIM_NONE), "");
    assert_string_equal(cw_dim_unit_in(CW_DIM_SLOPE, CW_US), "%");
    assert_string_equal(cw_dim_unit_in(CW_DIM_IN, CW_SI), "mm");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_value_prints_as_its_text),
        cmocka_unit_test(number_and_unit_make_the_format),
        cmocka_unit_test(decimals_round_half_away_from_zero),
        cmocka_unit_test(rulers_of_every_denominator),
        cmocka_unit_test(job_files_get_the_shortest_text),
        cmocka_unit_test(what_is_written_reads_back),
        cmocka_unit_test(what_is_printed_reads_back_within_half_a_digit),
        cmocka_unit_test(every_dimension_has_unit_and_hint),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
