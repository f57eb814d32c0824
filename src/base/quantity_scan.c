#include "quantity_internal.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum {
    SIGNIFICANT_MAX = 18, /* 10^18 < 2^63 */
    WHOLE_DIGITS_MAX = 15,
    DECIMALS_MAX = 40,
    POWER_MAX = 22, /* 10^22 is the last power of ten that a double holds exactly */
    FRACTION_DIGITS_MAX = 3,
    DENOMINATOR_MAX = 64
};

bool cw_scan_fail(cw_scan *scan, cw_parse_status status, size_t at)
{
    scan->status = status;
    scan->fault_at = at;
    return false;
}

bool cw_scan_is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z');
}

/* Length in bytes of the blank at @p text: space, tab, line end, or no-break space; 0 when there is
 * none. */
static size_t blank_at(const char *text)
{
    if (*text == ' ' || *text == '\t' || *text == '\n' || *text == '\r')
        return 1;
    return strncmp(text, "\u00a0", 2) == 0 ? 2 : 0;
}

void cw_scan_blanks(cw_scan *scan)
{
    for (size_t size; (size = blank_at(scan->text + scan->at)) > 0;)
        scan->at += size;
}

bool cw_scan_at_end(const cw_scan *scan)
{
    return scan->text[scan->at] == '\0';
}

bool cw_scan_take(cw_scan *scan, char c)
{
    if (scan->text[scan->at] != c)
        return false;
    scan->at++;
    return true;
}

/* Digits gathered as an integer, with the number of them that stood after the point. */
typedef struct gathered {
    uint64_t digits;
    int significant, decimals;
} gathered;

static void gather(gathered *sum, char digit)
{
    sum->digits = sum->digits * 10 + (uint64_t)(digit - '0');
    if (sum->digits > 0)
        sum->significant++;
}

/* digits / 10^decimals.  The quotient is corrected once by its remainder, so that up to 10^-22 the
 * result is the nearest double but for a near tie (error under 0.51 ulp); beyond, a second division
 * adds half an ulp. strtod is not used: its decimal point follows the locale. */
static double scaled(const gathered *sum)
{
    static const double powers[POWER_MAX + 1] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                 1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    const int first = sum->decimals < POWER_MAX ? sum->decimals : POWER_MAX;
    const double high = (double)(sum->digits >> 32) * 4294967296.0; // 2^32: exact
    const double low = (double)(sum->digits & 0xffffffffu);
    const double nearest = high + low;
    const double lost = low - (nearest - high);
    const double quotient = nearest / powers[first];
    const double remainder = fma(-quotient, powers[first], nearest) + lost;
    return (quotient + remainder / powers[first]) / powers[sum->decimals - first];
}

/* True when the comma at @p comma parts thousands: one to three digits before it (not a lone or
 * leading zero, which would be a decimal comma), exactly three behind. */
static bool parts_thousands(const char *start, const char *comma, bool first)
{
    if (first && (comma - start > 3 || *start == '0'))
        return false;
    return cw_scan_is_digit(comma[1]) && cw_scan_is_digit(comma[2]) && cw_scan_is_digit(comma[3]) &&
           !cw_scan_is_digit(comma[4]);
}

static bool read_whole(cw_scan *scan, gathered *sum)
{
    const size_t start = scan->at;
    bool first = true;
    for (;; scan->at++) {
        const char c = scan->text[scan->at];
        if (c == ',' && scan->at > start) {
            if (!parts_thousands(scan->text + start, scan->text + scan->at, first))
                return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at);
            first = false;
            continue;
        }
        if (!cw_scan_is_digit(c))
            return true;
        if (sum->significant == WHOLE_DIGITS_MAX)
            return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
        gather(sum, c);
    }
}

/* Decimals after a point already passed; those past SIGNIFICANT_MAX or DECIMALS_MAX change nothing
 * that a double can hold and are passed over. */
static void read_decimals(cw_scan *scan, gathered *sum)
{
    for (; cw_scan_is_digit(scan->text[scan->at]); scan->at++)
        if (sum->significant < SIGNIFICANT_MAX && sum->decimals < DECIMALS_MAX) {
            gather(sum, scan->text[scan->at]);
            sum->decimals++;
        }
}

/* A letter that would make it an exponent or a hexadecimal number: 1e3, 0x1F. */
static bool at_exponent_or_hex(const char *text)
{
    if (*text == 'e' || *text == 'E')
        return cw_scan_is_digit(text[1]) ||
               ((text[1] == '+' || text[1] == '-') && cw_scan_is_digit(text[2]));
    return (*text == 'x' || *text == 'X') && (cw_scan_is_digit(text[1]) || is_letter(text[1]));
}

bool cw_scan_number(cw_scan *scan, cw_scan_value *out)
{
    gathered sum = {0};
    const size_t start = scan->at;
    if (!read_whole(scan, &sum))
        return false;
    const bool some = scan->at > start;
    const bool point = scan->text[scan->at] == '.';
    if (point && !cw_scan_is_digit(scan->text[scan->at + 1]))
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at);
    if (!some && !point)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at);
    if (cw_scan_take(scan, '.'))
        read_decimals(scan, &sum);
    if (at_exponent_or_hex(scan->text + scan->at))
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at);
    *out = (cw_scan_value){scaled(&sum), sum.decimals, !point};
    return true;
}

typedef struct vulgar {
    const char *sign;
    double value;
} vulgar;

static const vulgar vulgars[] = {
    {"\u00bd", 0.5},   {"\u00bc", 0.25},  {"\u00be", 0.75},  {"\u215b", 0.125},
    {"\u215c", 0.375}, {"\u215d", 0.625}, {"\u215e", 0.875},
};

static const vulgar *vulgar_at(const char *text)
{
    for (size_t i = 0; i < sizeof vulgars / sizeof vulgars[0]; i++)
        if (strncmp(text, vulgars[i].sign, strlen(vulgars[i].sign)) == 0)
            return &vulgars[i];
    return NULL;
}

bool cw_scan_at_number(const cw_scan *scan)
{
    return cw_scan_is_digit(scan->text[scan->at]) || vulgar_at(scan->text + scan->at);
}

/* Digits and a slash: the start of a fraction in figures. */
static bool at_fraction(const char *text)
{
    const size_t digits = strspn(text, "0123456789");
    return digits > 0 && text[digits] == '/';
}

/* Up to FRACTION_DIGITS_MAX digits; more are too many for any ruler. */
static int read_small(cw_scan *scan)
{
    int value = 0;
    for (int i = 0; i < FRACTION_DIGITS_MAX && cw_scan_is_digit(scan->text[scan->at]); i++)
        value = value * 10 + (scan->text[scan->at++] - '0');
    return cw_scan_is_digit(scan->text[scan->at]) ? -1 : value;
}

/* A proper fraction, denominator 2, 4 ... 64: what a rule shows. */
static bool read_fraction(cw_scan *scan, double *out)
{
    const vulgar *sign = vulgar_at(scan->text + scan->at);
    if (sign) {
        scan->at += strlen(sign->sign);
        *out = sign->value;
        return true;
    }
    const size_t start = scan->at;
    const int numerator = read_small(scan);
    if (numerator < 0 || !cw_scan_take(scan, '/'))
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
    const size_t below = scan->at;
    const int denominator = read_small(scan);
    const bool power_of_two = denominator > 0 && (denominator & (denominator - 1)) == 0;
    if (!power_of_two || denominator > DENOMINATOR_MAX)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, below);
    if (numerator >= denominator)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
    *out = (double)numerator / denominator;
    return true;
}

/* Pass what may stand between a whole number and its fraction, if a fraction follows. */
static bool to_fraction(cw_scan *scan)
{
    cw_scan ahead = *scan;
    if (!cw_scan_take(&ahead, '-'))
        cw_scan_blanks(&ahead);
    const char *next = ahead.text + ahead.at;
    // 103/4 is one fraction, never 10 3/4, so figures need something between.
    const bool parted = ahead.at > scan->at;
    if (!vulgar_at(next) && !(parted && at_fraction(next)))
        return false;
    *scan = ahead;
    return true;
}

bool cw_scan_mixed(cw_scan *scan, cw_scan_value *out)
{
    const char *next = scan->text + scan->at;
    double fraction = 0.0;
    if (vulgar_at(next) || at_fraction(next)) {
        if (!read_fraction(scan, &fraction))
            return false;
        *out = (cw_scan_value){fraction, 0, false};
        return true;
    }
    if (!cw_scan_number(scan, out))
        return false;
    if (!out->whole || !to_fraction(scan))
        return true;
    if (!read_fraction(scan, &fraction))
        return false;
    out->value += fraction;
    out->whole = false;
    return true;
}

bool cw_scan_station(cw_scan *scan, double *out)
{
    gathered sum = {0};
    const size_t start = scan->at;
    for (; cw_scan_is_digit(scan->text[scan->at]); scan->at++) {
        if (sum.significant == WHOLE_DIGITS_MAX - 2)
            return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, start);
        gather(&sum, scan->text[scan->at]);
    }
    scan->at++; // the plus, which the caller has seen
    for (int i = 0; i < 2; i++, scan->at++) {
        if (!cw_scan_is_digit(scan->text[scan->at]))
            return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at);
        gather(&sum, scan->text[scan->at]);
    }
    const size_t past = scan->at;
    const bool third = cw_scan_is_digit(scan->text[scan->at]);
    for (; cw_scan_is_digit(scan->text[scan->at]); scan->at++)
        continue;
    if (scan->text[scan->at] == '.') {
        scan->at++;
        if (!cw_scan_is_digit(scan->text[scan->at]))
            return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, scan->at - 1);
        read_decimals(scan, &sum);
    }
    cw_scan_blanks(scan);
    // A unit behind it means a metric or other station, which the program does not keep.
    if (is_letter(scan->text[scan->at]))
        return cw_scan_fail(scan, CW_PARSE_BAD_UNIT, scan->at);
    if (third)
        return cw_scan_fail(scan, CW_PARSE_BAD_NUMBER, past);
    *out = scaled(&sum);
    return true;
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

/* Bytes of @p text that the name of @p size bytes covers, 0 when it does not match. */
static size_t covers(const char *name, size_t size, const char *text)
{
    size_t at = 0;
    for (size_t i = 0; i < size; i++) {
        if (name[i] == ' ') {
            const size_t before = at;
            for (size_t blank; (blank = blank_at(text + at)) > 0;)
                at += blank;
            if (at == before)
                return 0;
        } else if (lower(name[i]) == lower(text[at])) {
            at++;
        } else {
            return 0;
        }
    }
    return at;
}

/* "ft" must not be found in "fts", "ft/s", "ft^2" or "ft²". */
static bool ends_cleanly(char last, const char *next)
{
    const bool word = is_letter(last), figure = cw_scan_is_digit(last);
    if (!word && !figure)
        return true;
    if (is_letter(*next) || *next == '/' || *next == '^')
        return false;
    if (figure)
        return !cw_scan_is_digit(*next);
    return strncmp(next, "\u00b2", 2) != 0 && strncmp(next, "\u00b3", 2) != 0 &&
           strncmp(next, "\u00b7", 2) != 0;
}

bool cw_scan_name(cw_scan *scan, const char *names)
{
    const char *text = scan->text + scan->at;
    size_t longest = 0;
    for (const char *name = names; *name != '\0';) {
        const size_t size = strcspn(name, "|");
        const size_t covered = covers(name, size, text);
        if (covered > longest && ends_cleanly(name[size - 1], text + covered))
            longest = covered;
        name += size + (name[size] == '|');
    }
    if (longest == 0)
        return false;
    scan->at += longest;
    const char *next = text + longest;
    if (is_letter(next[-1]) && next[0] == '.' && !cw_scan_is_digit(next[1]))
        scan->at++; // the stop of an abbreviation: "8 ft. 6 in."
    return true;
}
