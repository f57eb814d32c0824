/* Conventions of print.  Values are rounded here and nowhere else.  Feet-inches, carried: n = the
 * length in parts of an inch, rounded; the feet are taken out of n, so 0.999 ft is 1'-0" and never
 * 0'-12".  Stations likewise from hundredths of a foot, so 99.999 is 1+00.00.  A minus is printed
 * only when a digit other than zero is (derived: rounding first, splitting after). */
#include "cw/quantity.h"

#include <assert.h>
#include <float.h>
#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

#include "cw/units.h"
#include "quantity_internal.h"

enum {
    TEXT_MAX = 512, /* 309 digits of the largest double, their commas, six decimals and a sign */
    DECIMALS_MAX = 6,
    DIGITS = -1, /* in place of decimals: four digits, since sizes run over many decades */
    DECIMALS_WRITTEN_MAX = 36,
    SIGNIFICANT_SHOWN = 4,
    DENOMINATOR_MAX = 64
};

static const char not_finite[] = "not finite";

/* How a dimension is named and printed; MONEY, SIDE_SLOPE, US lengths in inches and US stations
 * have their own way of writing. */
typedef struct form {
    const char *stored, *us, *si;
    int decimals_us, decimals_si;
    bool grouped; /* thousands separators */
    bool trimmed; /* no trailing zeros in US units */
    const char *hint;
} form;

static const form forms[CW_DIM_LIMIT] = {
    [CW_DIM_NONE] = {"", "", "", 0, 0, false, true, "a plain number such as 1.25"},
    [CW_DIM_COUNT] = {"", "", "", 0, 0, true, false, "a whole number such as 12"},
    [CW_DIM_FT] = {"ft", "ft", "m", 2, 3, true, false,
                   "a length such as 12 ft, 8 ft 6 in, 5'-10 3/4\" or 3.6 m"},
    [CW_DIM_IN] = {"in", "", "mm", 0, 0, false, false,
                   "a length such as 10 in, 1-1/2 in, 5'-10 3/4\", 8 ft 6 in or 905 mm"},
    [CW_DIM_ELEV_FT] = {"ft", "ft", "m", 2, 3, false, false,
                        "an elevation such as 601.25 ft or 183.261 m"},
    [CW_DIM_STATION_FT] = {"ft", "", "m", 2, 3, false, false,
                           "a station such as 12+34.50, or a length such as 1234.5 ft"},
    [CW_DIM_COORD_FT] = {"ft", "ft", "m", 3, 3, false, false,
                         "a coordinate such as 1321228.809 ft, 1321228.809 usft or 402710.541 m"},
    [CW_DIM_LB] = {"lb", "lb", "kg", 0, 0, true, false,
                   "a weight such as 16,650 lb, 8.3 ton, 16.65 kip or 7550 kg"},
    [CW_DIM_PCF] = {"lb/ft3", "lb/ft3", "kN/m3", 1, 2, true, true,
                    "a unit weight such as 150 pcf, 150 lb/ft3, 23.5 kN/m3 or 2400 kg/m3"},
    [CW_DIM_PSI] = {"psi", "psi", "MPa", 1, 2, true, true,
                    "a stress such as 5000 psi, 5 ksi or 34.5 MPa"},
    [CW_DIM_PSF] = {"psf", "psf", "kPa", 1, 1, true, true,
                    "a pressure such as 2500 psf, 2.5 ksf or 120 kPa"},
    [CW_DIM_SLOPE] = {"ft/ft", "%", "%", 2, 2, false, false,
                      "a slope such as 0.5%, 1:48, 1/4 in/ft or 0.01 ft/ft"},
    [CW_DIM_SIDE_SLOPE] = {"H:1V", "", "", 2, 2, false, true,
                           "a side slope such as 2:1, 2H:1V, 1V:2H or vertical"},
    [CW_DIM_DEG] = {"deg", "deg", "deg", 2, 2, false, false,
                    "an angle such as 20 deg or 20d30m15s"},
    [CW_DIM_SQFT] = {"ft2", "ft2", "m2", 2, 2, true, false, "an area such as 42.5 ft2 or 3.95 m2"},
    [CW_DIM_CUFT] = {"ft3", "ft3", "m3", 2, 3, true, false,
                     "a volume such as 102.67 ft3, 3.8 cy or 2.907 m3"},
    [CW_DIM_CY] = {"cy", "cy", "m3", 1, 1, true, false,
                   "a volume such as 12.5 cy, 337.5 ft3 or 9.6 m3"},
    [CW_DIM_HOUR] = {"h", "h", "h", 1, 1, true, false, "a time such as 1.5 h, 90 min or 2 days"},
    [CW_DIM_DEGF] = {"deg F", "deg F", "deg C", 0, 0, false, false,
                     "a temperature such as 40 F or 5 C"},
    [CW_DIM_PERCENT] = {"%", "%", "%", 1, 1, false, false, "a share such as 95% or 95 percent"},
    [CW_DIM_LB_PER_FT] = {"lb/ft", "lb/ft", "kg/m", 0, 0, true, false,
                          "a weight per length such as 2775 lb/ft or 4130 kg/m"},
    [CW_DIM_FT_LB] = {"ft lb", "ft lb", "kN m", 0, 2, true, false,
                      "a moment such as 45,000 ft lb, 45 kip-ft or 61 kN m"},
    [CW_DIM_TON] = {"ton", "ton", "t", 1, 1, true, false, "a mass such as 22.5 tons or 20.4 t"},
    [CW_DIM_MONEY] = {"$", "$", "$", 2, 2, true, false, "an amount such as $1,250.00"},
    [CW_DIM_CFS] = {"ft3/s", "cfs", "m3/s", DIGITS, DIGITS, true, false,
                    "a flow such as 85 cfs, 1,100 gpm, 2.4 m3/s or 150 l/s"},
    [CW_DIM_FPS] = {"ft/s", "ft/s", "m/s", 2, 3, true, false,
                    "a velocity such as 8.5 ft/s or 2.6 m/s"},
    [CW_DIM_ACRE] = {"acre", "acre", "ha", DIGITS, DIGITS, true, false,
                     "an area of land such as 24 acres, 1.5 sq mi, 9.7 ha or 3.9 km2"},
    [CW_DIM_IN_PER_H] = {"in/h", "in/h", "mm/h", 2, 1, true, false,
                         "a rain intensity such as 3.2 in/h or 81 mm/h"},
    [CW_DIM_FT_PER_DAY] = {"ft/day", "ft/day", "m/day", DIGITS, DIGITS, true, false,
                           "a permeability such as 28 ft/day, 0.0001 m/s, 0.01 cm/s or 8.6 m/day"},
    [CW_DIM_HP] = {"hp", "hp", "kW", DIGITS, DIGITS, true, false, "a power such as 7.5 hp or 5.6 kW"},
    [CW_DIM_MIN] = {"min", "min", "min", 1, 1, true, false, "a time such as 90 min or 1.5 h"},
    [CW_DIM_SQIN_PER_FT] = {"in2/ft", "in2/ft", "mm2/m", 3, 0, true, false,
                            "a steel area such as 0.31 in2/ft or 656 mm2/m"},
    [CW_DIM_TEXT] = {"", "", "", 0, 0, false, true, "text"},
};

static const form *form_of(cw_dim dim)
{
    assert((int)dim >= 0 && dim < CW_DIM_LIMIT);
    return &forms[dim];
}

const char *cw_dim_unit(cw_dim dim)
{
    return form_of(dim)->stored;
}

const char *cw_dim_unit_in(cw_dim dim, cw_unit_system system)
{
    return system == CW_SI ? form_of(dim)->si : form_of(dim)->us;
}

const char *cw_dim_hint(cw_dim dim)
{
    return form_of(dim)->hint;
}

/* The whole number nearest to @p size >= 0, halves up.  A value within four ulps below a half is
 * taken as that half: 1.005 is stored a hair low, and conversions leave a last bit of noise, but
 * the reader sees the half. The cap keeps the allowance under a thousandth where an ulp grows
 * large. */
static double round_half_up(double size)
{
    const double hair = fmin(4.0 * DBL_EPSILON * size, 1e-3);
    const double below = floor(size);
    return size - below >= 0.5 - hair ? below + 1.0 : below;
}

/* Digits of @p size * @p scale, rounded, with zeros in front up to @p least; their count, or 0 past
 * the range of double. */
static int rounded_digits(char digits[TEXT_MAX], double size, double scale, int least)
{
    const double parts = round_half_up(size * scale);
    if (!isfinite(parts))
        return 0;
    return snprintf(digits, TEXT_MAX, "%0*.0f", least, parts);
}

static bool all_zero(const char *digits)
{
    return digits[strspn(digits, "0")] == '\0';
}

static void put_decimal(char out[TEXT_MAX], double value, int decimals, bool grouped)
{
    static const double scales[DECIMALS_MAX + 1] = {1e0, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6};
    char digits[TEXT_MAX];
    const int count = rounded_digits(digits, fabs(value), scales[decimals], decimals + 1);
    if (count == 0) {
        snprintf(out, TEXT_MAX, "%s", not_finite);
        return;
    }
    const int whole = count - decimals;
    size_t used = 0;
    if (value < 0.0 && !all_zero(digits))
        out[used++] = '-';
    for (int i = 0; i < whole; i++) {
        if (grouped && i > 0 && (whole - i) % 3 == 0)
            out[used++] = ',';
        out[used++] = digits[i];
    }
    if (decimals > 0)
        out[used++] = '.';
    for (int i = whole; i < count; i++)
        out[used++] = digits[i];
    out[used] = '\0';
}

/* Drop zeros at the end of decimals, and the point when nothing is left behind it. */
static void trim_zeros(char *text)
{
    if (!strchr(text, '.'))
        return;
    size_t length = strlen(text);
    while (text[length - 1] == '0')
        length--;
    if (text[length - 1] == '.')
        length--;
    text[length] = '\0';
}

static void put_station(char out[TEXT_MAX], double station_ft)
{
    char digits[TEXT_MAX];
    const int count = rounded_digits(digits, fabs(station_ft), CW_FT_PER_STATION, 5);
    if (count == 0) {
        snprintf(out, TEXT_MAX, "%s", not_finite);
        return;
    }
    const char *sign = station_ft < 0.0 && !all_zero(digits) ? "-" : "";
    const char *rest = digits + count - 4;
    snprintf(out, TEXT_MAX, "%s%.*s+%.2s.%.2s", sign, count - 4, digits, rest, rest + 2);
}

static void put_feet_inches(char out[TEXT_MAX], double length_in, int denominator)
{
    const double parts = round_half_up(fabs(length_in) * denominator);
    if (!isfinite(parts)) {
        snprintf(out, TEXT_MAX, "%s", not_finite);
        return;
    }
    const double parts_per_ft = CW_IN_PER_FT * denominator;
    const int rest = (int)fmod(parts, parts_per_ft);
    const double feet = (parts - rest) / parts_per_ft;
    const int inches = rest / denominator;
    int over = rest % denominator, under = denominator;
    while (over > 0 && over % 2 == 0) {
        over /= 2;
        under /= 2;
    }
    const char *sign = length_in < 0.0 && parts > 0.0 ? "-" : "";
    int used = snprintf(out, TEXT_MAX, "%s", sign);
    if (feet > 0.0)
        used += snprintf(out + used, TEXT_MAX - (size_t)used, "%.0f'-", feet);
    if (over == 0)
        snprintf(out + used, TEXT_MAX - (size_t)used, "%d\"", inches);
    else if (inches == 0 && feet == 0.0)
        snprintf(out + used, TEXT_MAX - (size_t)used, "%d/%d\"", over, under);
    else
        snprintf(out + used, TEXT_MAX - (size_t)used, "%d %d/%d\"", inches, over, under);
}

/* Four significant digits, but all digits before the point. */
static void put_significant(char out[TEXT_MAX], double value, bool grouped)
{
    const double size = fabs(value);
    int decimals = 0;
    if (size > 0.0 && isfinite(size))
        decimals = SIGNIFICANT_SHOWN - 1 - (int)floor(log10(size));
    if (decimals < 0)
        decimals = 0;
    if (decimals > DECIMALS_MAX)
        decimals = DECIMALS_MAX;
    put_decimal(out, value, decimals, grouped);
}

static void put_plain(char out[TEXT_MAX], double value)
{
    put_significant(out, value, false);
    trim_zeros(out);
}

static void put_side_slope(char out[TEXT_MAX], double run_per_rise)
{
    put_decimal(out, run_per_rise, 2, false);
    trim_zeros(out);
    if (strcmp(out, "0") == 0)
        snprintf(out, TEXT_MAX, "vertical");
    else if (strcmp(out, not_finite) != 0)
        snprintf(out + strlen(out), TEXT_MAX - strlen(out), ":1");
}

/* Volumes for ordering to 0.1, small ones to 0.01: concrete and grout are bought in small lots. */
static void put_bulk(char out[TEXT_MAX], double volume)
{
    const bool small = round_half_up(fabs(volume) * CW_PERCENT) < 10.0 * CW_PERCENT;
    put_decimal(out, volume, small ? 2 : 1, true);
}

static double shown_in(double value, cw_dim dim, cw_unit_system system)
{
    const char *name = cw_dim_unit_in(dim, system);
    const cw_unit *unit = *name != '\0' ? cw_unit_named(dim, name) : NULL;
    return unit ? cw_unit_from_stored(unit, value) : value;
}

static void put_number(char out[TEXT_MAX], double value, cw_dim dim, cw_unit_system system)
{
    const form *style = form_of(dim);
    const bool us = system == CW_US;
    if (dim == CW_DIM_IN && us) {
        put_feet_inches(out, value, CW_SIXTEENTHS_PER_IN);
    } else if (dim == CW_DIM_STATION_FT && us) {
        put_station(out, value);
    } else if (dim == CW_DIM_SIDE_SLOPE) {
        put_side_slope(out, value);
    } else if (dim == CW_DIM_NONE || dim == CW_DIM_TEXT) {
        put_plain(out, value);
    } else if (dim == CW_DIM_MONEY) {
        put_decimal(out, copysign(round_half_up(fabs(value)), value) / CW_PERCENT, 2, true);
    } else if (dim == CW_DIM_CY) {
        put_bulk(out, shown_in(value, dim, system));
    } else if (style->decimals_us == DIGITS) {
        put_significant(out, shown_in(value, dim, system), style->grouped);
    } else {
        put_decimal(out, shown_in(value, dim, system), us ? style->decimals_us : style->decimals_si,
                    style->grouped);
        if (us && style->trimmed)
            trim_zeros(out);
    }
}

const char *cw_quantity_number(cw_arena *arena, double value, cw_dim dim, cw_unit_system system)
{
    char number[TEXT_MAX];
    put_number(number, value, dim, system);
    return cw_arena_copy(arena, number, strlen(number));
}

const char *cw_quantity_format(cw_arena *arena, double value, cw_dim dim, cw_unit_system system)
{
    char number[TEXT_MAX];
    put_number(number, value, dim, system);
    const char *unit = cw_dim_unit_in(dim, system);
    if (*unit == '\0' || strcmp(number, not_finite) == 0)
        return cw_arena_copy(arena, number, strlen(number));
    if (dim != CW_DIM_MONEY)
        return cw_arena_print(arena, "%s %s", number, unit);
    const bool minus = number[0] == '-';
    return cw_arena_print(arena, "%s%s%s", minus ? "-" : "", unit, number + minus);
}

const char *cw_feet_inches(cw_arena *arena, double length_in, int denominator)
{
    assert(denominator >= 1 && denominator <= DENOMINATOR_MAX);
    assert((denominator & (denominator - 1)) == 0);
    char text[TEXT_MAX];
    put_feet_inches(text, length_in, denominator);
    return cw_arena_copy(arena, text, strlen(text));
}

const char *cw_decimal(cw_arena *arena, double value, int decimals)
{
    assert(decimals >= 0 && decimals <= DECIMALS_MAX);
    char text[TEXT_MAX];
    put_decimal(text, value, decimals, true);
    return cw_arena_copy(arena, text, strlen(text));
}

static bool reads_as(const char *text, cw_dim dim, double value)
{
    const cw_parsed back = cw_quantity_parse(text, dim);
    return back.status == CW_PARSE_OK && back.value == value;
}

/* The shortest decimal that reads as @p value: 15 digits are always free of noise, 17 always
 * suffice. */
static void put_shortest(char out[TEXT_MAX], double value)
{
    if (!isfinite(value)) { // a percentage may overflow
        snprintf(out, TEXT_MAX, "%s", not_finite);
        return;
    }
    const int exponent = value != 0.0 ? (int)floor(log10(fabs(value))) : 0;
    for (int digits = DBL_DIG; digits <= DBL_DECIMAL_DIG; digits++) {
        int decimals = digits - 1 - exponent;
        if (decimals < 0)
            decimals = 0;
        if (decimals > DECIMALS_WRITTEN_MAX)
            decimals = DECIMALS_WRITTEN_MAX;
        snprintf(out, TEXT_MAX, "%.*f", decimals, value != 0.0 ? value : 0.0);
        trim_zeros(out);
        if (reads_as(out, CW_DIM_NONE, value))
            return;
    }
}

static size_t decimals_in(const char *text)
{
    const char *point = strchr(text, '.');
    return point ? strlen(point + 1) : 0;
}

/* 1234.5 -> 12+34.5 */
static const char *station_text(cw_arena *arena, const char *plain)
{
    const bool minus = *plain == '-';
    const char *digits = plain + minus;
    const int whole = (int)strcspn(digits, ".");
    const char *sign = minus ? "-" : "";
    if (whole <= 2)
        return cw_arena_print(arena, "%s0+%s%s", sign, whole == 1 ? "0" : "", digits);
    return cw_arena_print(arena, "%s%.*s+%s", sign, whole - 2, digits, digits + whole - 2);
}

static const char *length_text(cw_arena *arena, double value, cw_dim dim, const char *plain)
{
    const double length_in = dim == CW_DIM_IN ? value : value * CW_IN_PER_FT;
    const bool wanted = dim == CW_DIM_IN || decimals_in(plain) > DECIMALS_MAX;
    if (wanted) {
        const char *marked = cw_feet_inches(arena, length_in, DENOMINATOR_MAX);
        if (reads_as(marked, dim, value))
            return marked;
    }
    return cw_arena_print(arena, "%s %s", plain, cw_dim_unit(dim));
}

static const char *slope_text(cw_arena *arena, double value, const char *plain)
{
    char number[TEXT_MAX];
    put_shortest(number, value * CW_PERCENT);
    const char *percent = cw_arena_print(arena, "%s %%", number);
    if (decimals_in(number) <= DECIMALS_MAX && reads_as(percent, CW_DIM_SLOPE, value))
        return percent;
    const double run = value != 0.0 ? round(1.0 / fabs(value)) : 0.0;
    if (run >= 1.0 && run < 1e6) {
        const char *ratio = cw_arena_print(arena, "%s1:%.0f", value < 0.0 ? "-" : "", run);
        if (reads_as(ratio, CW_DIM_SLOPE, value))
            return ratio;
    }
    return cw_arena_print(arena, "%s ft/ft", plain);
}

const char *cw_quantity_write(cw_arena *arena, double value, cw_dim dim)
{
    const form *style = form_of(dim);
    if (!isfinite(value))
        return not_finite;
    char plain[TEXT_MAX];
    if (dim == CW_DIM_COUNT || dim == CW_DIM_MONEY)
        value = copysign(round_half_up(fabs(value)), value);
    put_shortest(plain, dim == CW_DIM_MONEY ? fabs(value) / CW_PERCENT : value);
    switch (dim) {
    case CW_DIM_FT:
    case CW_DIM_IN:
        return length_text(arena, value, dim, plain);
    case CW_DIM_STATION_FT:
        return station_text(arena, plain);
    case CW_DIM_SLOPE:
        return slope_text(arena, value, plain);
    case CW_DIM_SIDE_SLOPE:
        return cw_arena_print(arena, "%s:1", plain);
    case CW_DIM_MONEY:
        if (!strchr(plain, '.'))
            return cw_arena_print(arena, "%s$%s", value < 0.0 ? "-" : "", plain);
        return cw_arena_print(arena, "%s$%.2f", value < 0.0 ? "-" : "", fabs(value) / CW_PERCENT);
    default:
        return cw_arena_print(arena, "%s%s%s", plain, *style->stored != '\0' ? " " : "",
                              style->stored);
    }
}
