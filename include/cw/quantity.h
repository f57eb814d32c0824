/** @file
 * Numbers with units as people write them, and back.
 *
 * Stored units (canonical): ft for survey lengths, in for cast lengths, lb, pcf, psi, psf, ft/ft, deg, cy, hours, degrees F,
 * ft3/s, ft/s, acres, in/h, ft/day, hp, min, in2/ft. */
#ifndef CW_QUANTITY_H
#define CW_QUANTITY_H

#include <stdbool.h>
#include <stddef.h>

#include "cw/arena.h"

/** What a number measures; the stored unit follows from it. */
typedef enum cw_dim {
    CW_DIM_NONE = 0,   /**< plain ratio or factor, no unit */
    CW_DIM_COUNT,      /**< whole number, no unit */
    CW_DIM_FT,         /**< survey length, stored in ft, printed decimal ft */
    CW_DIM_IN,         /**< cast length, stored in in, printed feet-inches to 1/16 */
    CW_DIM_ELEV_FT,    /**< elevation, stored in ft, printed to 0.01 */
    CW_DIM_STATION_FT, /**< station, stored in ft, printed 12+34.50; a plain length is accepted too */
    CW_DIM_COORD_FT,   /**< northing or easting, stored in ft, printed to 0.001 */
    CW_DIM_LB,         /**< weight or force, stored in lb */
    CW_DIM_PCF,        /**< unit weight, stored in lb/ft3 */
    CW_DIM_PSI,        /**< stress, stored in lb/in2 */
    CW_DIM_PSF,        /**< pressure, stored in lb/ft2 */
    CW_DIM_SLOPE,      /**< rise over run, stored ft/ft; accepts 0.5%, 1:48, 0.01 ft/ft; signed */
    CW_DIM_SIDE_SLOPE, /**< side slope, horizontal per 1 vertical; accepts 2:1, 2H:1V, 1V:2H; >= 0 */
    CW_DIM_DEG,        /**< angle, stored in degrees; accepts 20 deg, 20 degrees, 20d30m15s */
    CW_DIM_SQFT,       /**< area, stored in ft2 */
    CW_DIM_CUFT,       /**< volume, stored in ft3 */
    CW_DIM_CY,         /**< volume, stored in yd3 */
    CW_DIM_HOUR,       /**< time, stored in h; accepts min, h, days */
    CW_DIM_DEGF,       /**< temperature, stored in deg F; accepts F and C */
    CW_DIM_PERCENT,    /**< share, stored in percent; accepts 95% or 95 percent */
    CW_DIM_LB_PER_FT,  /**< line weight, stored in lb/ft */
    CW_DIM_FT_LB,      /**< moment, stored in ft lb */
    CW_DIM_TON,        /**< mass for ordering, stored in short tons */
    CW_DIM_MONEY,      /**< whole cents; accepts $12.50 or 12.50 USD-less "$" only */
    CW_DIM_CFS,        /**< flow, stored in ft3/s; accepts cfs, gpm, mgd, m3/s, l/s */
    CW_DIM_FPS,        /**< velocity, stored in ft/s */
    CW_DIM_ACRE,       /**< area of land, stored in acres; accepts ha, sq mi, km2 */
    CW_DIM_IN_PER_H,   /**< rain, stored in in/h */
    CW_DIM_FT_PER_DAY, /**< permeability, stored in ft/day; accepts m/s, cm/s, m/day */
    CW_DIM_HP,         /**< power, stored in hp (550 ft lb/s); accepts kW */
    CW_DIM_MIN,        /**< time of travel, stored in minutes; accepts min, h */
    CW_DIM_SQIN_PER_FT, /**< steel area in a foot of width, stored in in2/ft; accepts mm2/m */
    CW_DIM_TEXT,       /**< not a number */
    CW_DIM_LIMIT
} cw_dim;

typedef enum cw_unit_system { CW_US = 0, CW_SI } cw_unit_system;

typedef enum cw_parse_status {
    CW_PARSE_OK = 0,
    CW_PARSE_EMPTY,     /**< nothing there */
    CW_PARSE_NO_UNIT,   /**< a bare number where a unit is needed */
    CW_PARSE_BAD_UNIT,  /**< a unit that is unknown or of another kind */
    CW_PARSE_BAD_NUMBER /**< not a number, or text left over */
} cw_parse_status;

typedef struct cw_parsed {
    cw_parse_status status;
    double value;   /**< in the stored unit of the dimension; finite when status is OK */
    size_t at;      /**< byte offset in the text where reading stopped making sense (0 when OK) */
} cw_parsed;

/** Read one quantity of dimension @p dim from @p text (zero-terminated UTF-8).
 * Lengths: 12 ft, 12', 8 ft 6 in, 5'-10 3/4", 5' 10.75", 5-10-3/4 (feet-inches-fraction), 70 3/4", 1-1/2 in, 3.6 m, 905 mm,
 * 25 cm, 40.5 usft.  Prime and double-prime signs (U+2032, U+2033) and vulgar fractions (½ ¼ ¾ ⅛ ⅜ ⅝ ⅞) are taken like ' and ".
 * A bare number is CW_PARSE_NO_UNIT except for NONE and COUNT (and 0, which needs no unit but for a temperature).
 * Signs: a leading + or - is read; whether it is allowed is the field's limits.  Never reads NaN, inf, hex, exponents past 1e+-15. */
cw_parsed cw_quantity_parse(const char *text, cw_dim dim);

/** How the stored unit is named ("ft", "in", "lb/ft3", ...); "" for NONE and COUNT. */
const char *cw_dim_unit(cw_dim dim);
/** Same, in @p system as printed by cw_quantity_format. */
const char *cw_dim_unit_in(cw_dim dim, cw_unit_system system);
/** What to write, as a hint for messages: e.g. `a length such as 12 ft, 8 ft 6 in, 5'-10 3/4" or 3.6 m`. */
const char *cw_dim_hint(cw_dim dim);

/** A number in @p system ready to print with its unit: `5'-10 3/4"`, `12+34.50`, `16,650 lb`, `1.00 %`.
 * Rounds half away from zero, at the precision of the dimension (geometry conventions in the .c file); never prints "-0". */
const char *cw_quantity_format(cw_arena *arena, double value, cw_dim dim, cw_unit_system system);

/** The same without the unit, for table cells whose heading names it. */
const char *cw_quantity_number(cw_arena *arena, double value, cw_dim dim, cw_unit_system system);

/** Feet-inches text of a length in inches at 1/@p denominator: 70.75 -> 5'-10 3/4". denominator 1,2,4,8,16,32 or 64. */
const char *cw_feet_inches(cw_arena *arena, double length_in, int denominator);

/** Plain decimal with thousands separators, @p decimals 0..6, half away from zero. */
const char *cw_decimal(cw_arena *arena, double value, int decimals);

/** The stored value that reading this text gives back, shortest that round-trips, with unit: for writing job files. */
const char *cw_quantity_write(cw_arena *arena, double value, cw_dim dim);

#endif
