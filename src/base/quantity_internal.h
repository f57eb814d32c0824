/** @file
 * What the parts of the quantity module share with each other; nobody else includes it. */
#ifndef CW_QUANTITY_INTERNAL_H
#define CW_QUANTITY_INTERNAL_H

#include <stdbool.h>
#include <stddef.h>

#include "cw/quantity.h"

/** Which half of a feet-and-inches length a unit can be. */
typedef enum cw_unit_part { CW_PART_OTHER = 0, CW_PART_FEET, CW_PART_INCHES } cw_unit_part;

/** One unit of one dimension: stored = value * multiply / divide + offset.  Two factors, so that a
 * definition such as 1 ft = 0.3048 m is used as it stands and never as its rounded inverse. */
typedef struct cw_unit {
    cw_dim dim; /**< every length kept in ft is listed under CW_DIM_FT */
    const char *
        names; /**< alternatives between bars, ASCII case ignored; a blank stands for one or more */
    double multiply, divide, offset;
    cw_unit_part part;
    const char *exact; /**< the definition in words */
} cw_unit;

/** The units in table order; NULL past the end. */
const cw_unit *cw_unit_at(int index);

/** The unit of @p dim that has @p name among its names; NULL when there is none. */
const cw_unit *cw_unit_named(cw_dim dim, const char *name);

/** Size of @p value in the stored unit, without the offset. */
double cw_unit_size(const cw_unit *unit, double value);
double cw_unit_from_stored(const cw_unit *unit, double stored);

/** A place in the text being read, and the first fault found. */
typedef struct cw_scan {
    const char *text;
    size_t at;
    double offset; /**< zero of the unit's scale in the stored unit; added after the sign: -40 C is
                      -40 F */
    cw_parse_status status;
    size_t fault_at;
} cw_scan;

/** A number as read. */
typedef struct cw_scan_value {
    double value;
    int decimals; /**< digits kept after the point */
    bool whole;   /**< digits only: no point and no fraction */
} cw_scan_value;

/** Note the fault and return false, so that a reader can return it. */
bool cw_scan_fail(cw_scan *scan, cw_parse_status status, size_t at);

bool cw_scan_is_digit(char c);
void cw_scan_blanks(cw_scan *scan);
bool cw_scan_at_end(const cw_scan *scan);

/** Pass @p c if it is next. */
bool cw_scan_take(cw_scan *scan, char c);

/** A digit or a vulgar fraction sign is next. */
bool cw_scan_at_number(const cw_scan *scan);

/** An unsigned decimal: 12, 12.5, .5, 16,650.  At most 15 digits before the point. */
bool cw_scan_number(cw_scan *scan, cw_scan_value *out);

/** The same, or with a fraction: 3/4, 1-1/2, 10 3/4, 10¾. */
bool cw_scan_mixed(cw_scan *scan, cw_scan_value *out);

/** Digits, two digits and decimals around a plus: 12+34.50 read as 1234.50. */
bool cw_scan_station(cw_scan *scan, double *out);

/** Pass the longest of @p names (as in cw_unit) that is next and whole; false when none is. */
bool cw_scan_name(cw_scan *scan, const char *names);

/** Pass the longest unit of @p dim that is next; NULL when none is. */
const cw_unit *cw_scan_unit(cw_scan *scan, cw_dim dim);

#endif
