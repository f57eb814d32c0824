#include "cw/quantity.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"
#include "quantity_internal.h"

/* Bounds of what is read, in the stored unit.  No job holds a number outside them, and within them
 * every number that is read can be written and read again. */
static const double largest = 1e15, smallest = 1e-15;

static const double minutes_per_degree = 60.0, seconds_per_minute = 60.0;

static bool is_letter_or_mark(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '%' || c == '\'' || c == '"' ||
           c == '$' || (unsigned char)c >= 0x80;
}

/* What stands here is no unit of the dimension: a wrong unit if it looks like one, else left-over
 * text. */
static bool refuse_unit(cw_scan *scan)
{
    const bool like_unit = is_letter_or_mark(scan->text[scan->at]);
    return cw_scan_fail(scan, like_unit ? CW_PARSE_BAD_UNIT : CW_PARSE_BAD_NUMBER, scan->at);
}

/* The end came where a unit should be: right for zero only, which is the same length, weight or
 * slope in any unit.  (No temperature is: 0 F is not 0 C.) */
static bool end_without_unit(cw_scan *scan, cw_dim dim, double number, double *out)
{
    if (number != 0.0 || dim == CW_DIM_DEGF)
        return cw_scan_fail(scan, CW_PARSE_NO_UNIT, scan->at);
    *out = 0.0;
    return true;
}

static bool read_with_unit(cw_scan *scan, cw_dim dim, double *out)
{
    cw_scan_value number;
    if (!cw_scan_mixed(scan, &number))
        return false;
    cw_scan_blanks(scan);
    if (cw_scan_at_end(scan))
        return end_without_unit(scan, dim, number.value, out);
    const cw_unit *unit = cw_scan_unit(scan, dim);
    if (!unit)
        return refuse_unit(scan);
    scan->offset = unit->offset;
    *out = cw_unit_size(unit, number.value);
    return true;
}

static bool read_plain(cw_scan *scan, cw_dim dim, double *out)
{
    const size_t start = scan->at;
    cw_scan_value number;
    if (!cw_scan_number(scan, &number))
        return false;
    if (dim == CW_DIM_COUNT && !number.whole) {
        size_t point = start;
        while (scan->text[point] != '.')
            point++;
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, point);
    }
    *out = number.value;
    cw_scan_blanks(scan);
    return cw_scan_at_end(scan) || refuse_unit(scan);
}

/* Pass what may stand between feet and inches when inches follow: nothing, blanks, "-", " - ".  A
 * dash with a blank before it only would be a sign inside, and is left for the caller to refuse. */
static bool to_inches(cw_scan *scan)
{
    cw_scan ahead = *scan;
    cw_scan_blanks(&ahead);
    const bool blank_before = ahead.at > scan->at;
    if (cw_scan_take(&ahead, '-')) {
        const size_t past_dash = ahead.at;
        cw_scan_blanks(&ahead);
        if (blank_before && ahead.at == past_dash)
            return false;
    }
    if (!cw_scan_at_number(&ahead))
        return false;
    *scan = ahead;
    return true;
}

/* The inches after whole feet: under 12, marked as inches. */
static bool read_inches(cw_scan *scan, cw_dim dim, double *inches)
{
    const size_t start = scan->at;
    cw_scan_value number;
    if (!cw_scan_mixed(scan, &number))
        return false;
    if (number.value >= CW_IN_PER_FT)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
    *inches = number.value;
    cw_scan_blanks(scan);
    if (cw_scan_at_end(scan))
        return cw_scan_fail(scan, CW_PARSE_NO_UNIT, scan->at);
    const cw_scan before = *scan;
    const cw_unit *unit = cw_scan_unit(scan, dim);
    if (unit && unit->part == CW_PART_INCHES)
        return true;
    *scan = before;
    return refuse_unit(scan);
}

static double from_inches(cw_dim dim, double inches)
{
    return dim == CW_DIM_IN ? inches : inches / CW_IN_PER_FT;
}

/* True at digits-digits-: the start of feet-inches-fraction, as in 5-10-3/4. */
static bool at_three_parts(const cw_scan *scan)
{
    const char *next = scan->text + scan->at;
    for (int i = 0; i < 2; i++) {
        if (!cw_scan_is_digit(*next))
            return false;
        while (cw_scan_is_digit(*next))
            next++;
        if (*next++ != '-')
            return false;
    }
    return true;
}

static bool read_three_parts(cw_scan *scan, cw_dim dim, double *out)
{
    cw_scan_value feet, inches;
    if (!cw_scan_number(scan, &feet) || !cw_scan_take(scan, '-'))
        return false;
    const size_t start = scan->at;
    if (!cw_scan_mixed(scan, &inches))
        return false;
    if (inches.whole) // the second dash is still there: no fraction behind it
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at);
    if (inches.value >= CW_IN_PER_FT)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
    *out = from_inches(dim, feet.value * CW_IN_PER_FT + inches.value);
    return true;
}

static bool read_length(cw_scan *scan, cw_dim dim, double *out)
{
    if (at_three_parts(scan))
        return read_three_parts(scan, dim, out);
    const size_t start = scan->at;
    cw_scan_value number;
    if (!cw_scan_mixed(scan, &number))
        return false;
    cw_scan_blanks(scan);
    if (cw_scan_at_end(scan))
        return end_without_unit(scan, dim, number.value, out);
    const size_t unit_at = scan->at;
    const cw_unit *unit = cw_scan_unit(scan, dim);
    if (!unit)
        return refuse_unit(scan);
    *out = cw_unit_size(unit, number.value);
    const cw_scan past_unit = *scan;
    if (unit->part != CW_PART_FEET || !to_inches(scan))
        return true;

    if (!number.whole)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
    double inches = 0.0;
    if (!read_inches(scan, dim, &inches)) {
        // "12 ft2" is an area, not 12 ft and 2 of something.
        const char last = past_unit.text[past_unit.at - 1];
        const bool joined = cw_scan_is_digit(past_unit.text[past_unit.at]) && last != '\'';
        if (joined && (unsigned char)last < 0x80 && scan->status == CW_PARSE_NO_UNIT)
            return cw_scan_fail(scan, CW_PARSE_BAD_UNIT, unit_at);
        return false;
    }
    *out = from_inches(dim, number.value * CW_IN_PER_FT + inches);
    return true;
}

static bool read_station(cw_scan *scan, cw_dim dim, double *out)
{
    size_t past = scan->at;
    while (cw_scan_is_digit(scan->text[past]))
        past++;
    if (past > scan->at && scan->text[past] == '+')
        return cw_scan_station(scan, out);
    return read_length(scan, dim, out);
}

/* The second number of a ratio, after the colon; it divides, so it must not be zero. */
static bool read_divisor(cw_scan *scan, double *out)
{
    cw_scan_blanks(scan);
    const size_t start = scan->at;
    cw_scan_value number;
    if (!cw_scan_number(scan, &number))
        return false;
    if (number.value == 0.0)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
    *out = number.value;
    return true;
}

static bool read_slope(cw_scan *scan, cw_dim dim, double *out)
{
    cw_scan ahead = *scan;
    cw_scan_value rise;
    if (cw_scan_mixed(&ahead, &rise)) {
        cw_scan_blanks(&ahead);
        if (cw_scan_take(&ahead, ':')) {
            *scan = ahead;
            double run = 0.0;
            if (!read_divisor(scan, &run))
                return false;
            *out = rise.value / run;
            return true;
        }
    }
    return read_with_unit(scan, dim, out);
}

/* 'h', 'v' or 0, when the letter stands alone. */
static char read_leg_label(cw_scan *scan)
{
    cw_scan_blanks(scan);
    if (cw_scan_name(scan, "h"))
        return 'h';
    return cw_scan_name(scan, "v") ? 'v' : '\0';
}

static bool read_side_slope(cw_scan *scan, cw_dim dim, double *out)
{
    if (cw_scan_name(scan, "vertical")) {
        *out = 0.0;
        return true;
    }
    const size_t start = scan->at;
    cw_scan_value first;
    if (!cw_scan_mixed(scan, &first))
        return false;
    const size_t first_at = scan->at;
    const char label = read_leg_label(scan);
    cw_scan_blanks(scan);
    if (cw_scan_at_end(scan) && label == '\0')
        return end_without_unit(scan, dim, first.value, out);
    if (!cw_scan_take(scan, ':'))
        return refuse_unit(scan);
    cw_scan_blanks(scan);
    const size_t second_at = scan->at;
    cw_scan_value second;
    if (!cw_scan_mixed(scan, &second))
        return false;
    const size_t other_at = scan->at;
    const char other = read_leg_label(scan);
    if (label == other && label != '\0')
        return cw_scan_fail(scan, CW_PARSE_BAD_UNIT, other_at);
    if ((label == '\0') != (other == '\0'))
        return cw_scan_fail(scan, CW_PARSE_NO_UNIT, label == '\0' ? first_at : other_at);
    // Without letters the run comes first: 2:1 is two across for one up (common practice in US
    // earthwork).
    const bool turned = label == 'v';
    const double across = turned ? second.value : first.value;
    const double up = turned ? first.value : second.value;
    if (up == 0.0)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, turned ? start : second_at);
    *out = across / up;
    return true;
}

/* One of minutes or seconds of arc behind whole degrees; under 60. */
static bool read_arc_part(cw_scan *scan, const char *names, double *part, bool *whole)
{
    const size_t start = scan->at;
    cw_scan_value number;
    if (!cw_scan_number(scan, &number))
        return false;
    cw_scan_blanks(scan);
    if (cw_scan_at_end(scan))
        return cw_scan_fail(scan, CW_PARSE_NO_UNIT, scan->at);
    if (!cw_scan_name(scan, names))
        return refuse_unit(scan);
    if (number.value >= minutes_per_degree || !*whole)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
    *part = number.value;
    *whole = number.whole;
    return true;
}

static bool read_angle(cw_scan *scan, cw_dim dim, double *out)
{
    static const char minute_names[] = "m|min|'|\u2032|\u2019",
                      second_names[] = "s|sec|\"|\u2033|\u201d";
    cw_scan ahead = *scan;
    cw_scan_value degrees;
    if (!cw_scan_number(&ahead, &degrees))
        return read_with_unit(scan, dim, out);
    cw_scan_blanks(&ahead);
    const cw_unit *unit = cw_scan_unit(&ahead, dim);
    cw_scan_blanks(&ahead);
    if (!unit || unit->multiply != 1.0 || !cw_scan_is_digit(ahead.text[ahead.at]))
        return read_with_unit(scan, dim, out);

    *scan = ahead;
    double minutes = 0.0, seconds = 0.0;
    bool whole = degrees.whole;
    if (!read_arc_part(scan, minute_names, &minutes, &whole))
        return false;
    cw_scan_blanks(scan);
    if (cw_scan_is_digit(scan->text[scan->at]) &&
        !read_arc_part(scan, second_names, &seconds, &whole))
        return false;
    const double arc_minutes = minutes + seconds / seconds_per_minute;
    *out = degrees.value + arc_minutes / minutes_per_degree;
    return true;
}

static bool read_money(cw_scan *scan, cw_dim dim, double *out)
{
    const bool dollars = cw_scan_take(scan, '$');
    if (dollars)
        cw_scan_blanks(scan);
    cw_scan_value number;
    if (!cw_scan_number(scan, &number))
        return false;
    if (number.decimals > 2)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at - (size_t)(number.decimals - 2));
    cw_scan_blanks(scan);
    if (!cw_scan_at_end(scan))
        return refuse_unit(scan);
    if (!dollars)
        return end_without_unit(scan, dim, number.value, out);
    *out = round(number.value * CW_PERCENT);
    return true;
}

static bool read_value(cw_scan *scan, cw_dim dim, double *out)
{
    switch (dim) {
    case CW_DIM_NONE:
    case CW_DIM_COUNT:
        return read_plain(scan, dim, out);
    case CW_DIM_FT:
    case CW_DIM_IN:
    case CW_DIM_ELEV_FT:
    case CW_DIM_COORD_FT:
        return read_length(scan, dim, out);
    case CW_DIM_STATION_FT:
        return read_station(scan, dim, out);
    case CW_DIM_SLOPE:
        return read_slope(scan, dim, out);
    case CW_DIM_SIDE_SLOPE:
        return read_side_slope(scan, dim, out);
    case CW_DIM_DEG:
        return read_angle(scan, dim, out);
    case CW_DIM_MONEY:
        return read_money(scan, dim, out);
    case CW_DIM_TEXT:
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at);
    default:
        return read_with_unit(scan, dim, out);
    }
}

cw_parsed cw_quantity_parse(const char *text, cw_dim dim)
{
    assert(text && (int)dim >= 0 && dim < CW_DIM_LIMIT);
    cw_scan scan = {.text = text};
    cw_scan_blanks(&scan);
    if (cw_scan_at_end(&scan))
        return (cw_parsed){.status = CW_PARSE_EMPTY, .at = scan.at};

    const size_t start = scan.at;
    const bool minus = cw_scan_take(&scan, '-');
    if (!minus)
        cw_scan_take(&scan, '+');
    double value = 0.0;
    bool good = true;
    if (minus && dim == CW_DIM_SIDE_SLOPE) // its letters give the direction, never a sign
        good = cw_scan_fail(&scan, CW_PARSE_BAD_NUMBER, start);
    good = good && read_value(&scan, dim, &value);
    cw_scan_blanks(&scan);
    if (good && !cw_scan_at_end(&scan))
        good = cw_scan_fail(&scan, CW_PARSE_BAD_NUMBER, scan.at);
    // Adding the offset also turns -0 into 0.
    value = (minus ? -value : value) + scan.offset;
    const double size = fabs(value);
    if (good && (size >= largest || (size != 0.0 && size < smallest)))
        good = cw_scan_fail(&scan, CW_PARSE_BAD_NUMBER, start);
    if (!good)
        return (cw_parsed){.status = scan.status, .at = scan.fault_at};
    return (cw_parsed){.status = CW_PARSE_OK, .value = value};
}
