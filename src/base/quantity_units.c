#include "quantity_internal.h"

#include <string.h>

#include "cw/units.h"

#define KILO 1e3
#define MEGA 1e6
#define CENTI 1e-2
#define SQM_PER_HA 1e4
#define CUM_PER_L 1e-3
#define FT_PER_YD 3.0
/* The Fahrenheit scale by its definition from the Celsius scale: 32 at the ice point, 9 degrees
 * for 5. */
#define FAHRENHEIT_STEPS 9.0
#define CELSIUS_STEPS 5.0
#define FAHRENHEIT_AT_ICE 32.0

#define FT_NAMES "ft|foot|feet|'|\u2032|\u2019"
#define IN_NAMES "in|inch|inches|\"|\u2033|\u201d"
#define USFT_NAMES "usft|us ft|us survey ft|us survey foot|us survey feet"
#define PERCENT_NAMES "%|percent"

/* pcf = kN/m3 * 1000 N / (N per lb) * (m3 per ft3), and so on: force and mass are both "lb" here,
 * one pound of force being the weight of one pound of mass at standard gravity. */
static const cw_unit units[] = {
    {CW_DIM_FT, FT_NAMES, 1.0, 1.0, 0.0, CW_PART_FEET, "the stored unit"},
    {CW_DIM_FT, IN_NAMES, 1.0, CW_IN_PER_FT, 0.0, CW_PART_INCHES, "12 in = 1 ft"},
    {CW_DIM_FT, "yd|yard|yards", FT_PER_YD, 1.0, 0.0, CW_PART_OTHER, "1 yd = 3 ft"},
    {CW_DIM_FT, "mi|mile|miles", CW_FT_PER_MILE, 1.0, 0.0, CW_PART_OTHER, "1 mi = 5280 ft"},
    {CW_DIM_FT, USFT_NAMES, CW_M_PER_USFT, CW_M_PER_FT, 0.0, CW_PART_OTHER,
     "1 US survey ft = 1200/3937 m (85 FR 62698)"},
    {CW_DIM_FT, "m|metre|metres|meter|meters", 1.0, CW_M_PER_FT, 0.0, CW_PART_OTHER,
     "1 ft = 0.3048 m"},
    {CW_DIM_FT, "cm", CENTI, CW_M_PER_FT, 0.0, CW_PART_OTHER, "1 ft = 30.48 cm"},
    {CW_DIM_FT, "mm", 1.0, CW_M_PER_FT *KILO, 0.0, CW_PART_OTHER, "1 ft = 304.8 mm"},
    {CW_DIM_FT, "km", KILO, CW_M_PER_FT, 0.0, CW_PART_OTHER, "1 ft = 0.0003048 km"},

    {CW_DIM_IN, IN_NAMES, 1.0, 1.0, 0.0, CW_PART_INCHES, "the stored unit"},
    {CW_DIM_IN, FT_NAMES, CW_IN_PER_FT, 1.0, 0.0, CW_PART_FEET, "1 ft = 12 in"},
    {CW_DIM_IN, "yd|yard|yards", FT_PER_YD *CW_IN_PER_FT, 1.0, 0.0, CW_PART_OTHER, "1 yd = 36 in"},
    {CW_DIM_IN, USFT_NAMES, CW_M_PER_USFT *KILO, CW_MM_PER_IN, 0.0, CW_PART_OTHER,
     "1 US survey ft = 1200/3937 m (85 FR 62698), 1 in = 25.4 mm"},
    {CW_DIM_IN, "m|metre|metres|meter|meters", KILO, CW_MM_PER_IN, 0.0, CW_PART_OTHER,
     "1 in = 0.0254 m"},
    {CW_DIM_IN, "cm", 1.0, CW_CM_PER_IN, 0.0, CW_PART_OTHER, "1 in = 2.54 cm"},
    {CW_DIM_IN, "mm", 1.0, CW_MM_PER_IN, 0.0, CW_PART_OTHER, "1 in = 25.4 mm"},

    {CW_DIM_LB, "lb|lbs|lbf|pound|pounds", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_LB, "kip|kips", CW_LB_PER_KIP, 1.0, 0.0, CW_PART_OTHER, "1 kip = 1000 lb"},
    {CW_DIM_LB, "ton|tons|short ton|short tons", CW_LB_PER_TON, 1.0, 0.0, CW_PART_OTHER,
     "1 short ton = 2000 lb"},
    {CW_DIM_LB, "kg", 1.0, CW_KG_PER_LB, 0.0, CW_PART_OTHER, "1 lb = 0.45359237 kg"},
    {CW_DIM_LB, "t|tonne|tonnes", KILO, CW_KG_PER_LB, 0.0, CW_PART_OTHER, "1 t = 1000 kg"},
    {CW_DIM_LB, "kN", KILO, CW_N_PER_LBF, 0.0, CW_PART_OTHER, "1 lbf = 0.45359237 * 9.80665 N"},
    {CW_DIM_LB, "N", 1.0, CW_N_PER_LBF, 0.0, CW_PART_OTHER, "1 lbf = 0.45359237 * 9.80665 N"},

    {CW_DIM_PCF, "lb/ft3|lb/ft^3|lb/ft\u00b3|pcf|lb/cf|lb/cu ft", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_PCF, "kip/ft3|kip/ft^3|kip/ft\u00b3|kcf", CW_LB_PER_KIP, 1.0, 0.0, CW_PART_OTHER,
     "1 kip = 1000 lb"},
    {CW_DIM_PCF, "kN/m3|kN/m^3|kN/m\u00b3", KILO *CW_M3_PER_CUFT, CW_N_PER_LBF, 0.0, CW_PART_OTHER,
     "1 lbf = 0.45359237 * 9.80665 N, 1 ft = 0.3048 m"},
    {CW_DIM_PCF, "kg/m3|kg/m^3|kg/m\u00b3", CW_M3_PER_CUFT, CW_KG_PER_LB, 0.0, CW_PART_OTHER,
     "1 lb = 0.45359237 kg, 1 ft = 0.3048 m"},

    {CW_DIM_PSI, "psi|lb/in2|lb/in^2|lb/in\u00b2|lb/sq in", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_PSI, "ksi|kip/in2", CW_LB_PER_KIP, 1.0, 0.0, CW_PART_OTHER, "1 ksi = 1000 psi"},
    {CW_DIM_PSI, "MPa|N/mm2|N/mm^2|N/mm\u00b2", CW_MM_PER_IN *CW_MM_PER_IN, CW_N_PER_LBF, 0.0,
     CW_PART_OTHER, "1 MPa = 1 N/mm2, 1 in = 25.4 mm"},
    {CW_DIM_PSI, "kPa", CW_MM_PER_IN *CW_MM_PER_IN, CW_N_PER_LBF *KILO, 0.0, CW_PART_OTHER,
     "1000 kPa = 1 N/mm2, 1 in = 25.4 mm"},

    {CW_DIM_PSF, "psf|lb/ft2|lb/ft^2|lb/ft\u00b2|lb/sf|lb/sq ft", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_PSF, "ksf|kip/ft2|kip/ft^2|kip/ft\u00b2", CW_LB_PER_KIP, 1.0, 0.0, CW_PART_OTHER,
     "1 ksf = 1000 psf"},
    {CW_DIM_PSF, "tsf|ton/ft2|tons/ft2", CW_LB_PER_TON, 1.0, 0.0, CW_PART_OTHER,
     "1 short ton = 2000 lb"},
    {CW_DIM_PSF, "psi", CW_SQIN_PER_SQFT, 1.0, 0.0, CW_PART_OTHER, "1 ft2 = 144 in2"},
    {CW_DIM_PSF, "kPa|kN/m2|kN/m^2|kN/m\u00b2", KILO *CW_M2_PER_SQFT, CW_N_PER_LBF, 0.0,
     CW_PART_OTHER, "1 kPa = 1000 N/m2, 1 ft = 0.3048 m"},

    {CW_DIM_SLOPE, PERCENT_NAMES, 1.0, CW_PERCENT, 0.0, CW_PART_OTHER, "100 % = 1 ft/ft"},
    {CW_DIM_SLOPE, "ft/ft|m/m|in/in", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_SLOPE, "in/ft|\"/ft|in./ft|in/foot", 1.0, CW_IN_PER_FT, 0.0, CW_PART_OTHER,
     "12 in = 1 ft"},
    {CW_DIM_SLOPE, "mm/m", 1.0, KILO, 0.0, CW_PART_OTHER, "1000 mm = 1 m"},

    {CW_DIM_DEG, "deg|degree|degrees|d|\u00b0", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_DEG, "rad|radian|radians", CW_DEG_PER_RAD, 1.0, 0.0, CW_PART_OTHER, "pi rad = 180 deg"},

    {CW_DIM_SQFT, "ft2|ft^2|ft\u00b2|sq ft|sqft|sf", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_SQFT, "in2|in^2|in\u00b2|sq in", 1.0, CW_SQIN_PER_SQFT, 0.0, CW_PART_OTHER,
     "144 in2 = 1 ft2"},
    {CW_DIM_SQFT, "sy|yd2|yd^2|yd\u00b2|sq yd", CW_SQFT_PER_SY, 1.0, 0.0, CW_PART_OTHER,
     "1 yd2 = 9 ft2"},
    {CW_DIM_SQFT, "m2|m^2|m\u00b2|sq m", 1.0, CW_M2_PER_SQFT, 0.0, CW_PART_OTHER,
     "1 ft2 = 0.09290304 m2"},

    {CW_DIM_CUFT, "ft3|ft^3|ft\u00b3|cu ft|cuft|cf", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_CUFT, "in3|in^3|in\u00b3|cu in", 1.0, CW_CUIN_PER_CUFT, 0.0, CW_PART_OTHER,
     "1728 in3 = 1 ft3"},
    {CW_DIM_CUFT, "cy|yd3|yd^3|yd\u00b3|cu yd", CW_CUFT_PER_CY, 1.0, 0.0, CW_PART_OTHER,
     "1 yd3 = 27 ft3"},
    {CW_DIM_CUFT, "m3|m^3|m\u00b3|cu m", 1.0, CW_M3_PER_CUFT, 0.0, CW_PART_OTHER,
     "1 ft = 0.3048 m"},

    {CW_DIM_CY, "cy|yd3|yd^3|yd\u00b3|cu yd", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_CY, "ft3|ft^3|ft\u00b3|cu ft|cuft|cf", 1.0, CW_CUFT_PER_CY, 0.0, CW_PART_OTHER,
     "27 ft3 = 1 yd3"},
    {CW_DIM_CY, "m3|m^3|m\u00b3|cu m", 1.0, CW_M3_PER_CY, 0.0, CW_PART_OTHER, "1 yd = 0.9144 m"},

    {CW_DIM_HOUR, "h|hr|hrs|hour|hours", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_HOUR, "min|mins|minute|minutes", 1.0, CW_MIN_PER_HOUR, 0.0, CW_PART_OTHER,
     "60 min = 1 h"},
    {CW_DIM_HOUR, "s|sec|second|seconds", 1.0, CW_S_PER_HOUR, 0.0, CW_PART_OTHER,
     "3600 s = 1 h"},
    {CW_DIM_HOUR, "d|day|days", CW_HOUR_PER_DAY, 1.0, 0.0, CW_PART_OTHER, "1 day = 24 h"},

    {CW_DIM_DEGF, "deg F|degF|F|\u00b0F|\u00b0 F|degrees F|fahrenheit", 1.0, 1.0, 0.0,
     CW_PART_OTHER, "the stored unit"},
    {CW_DIM_DEGF, "deg C|degC|C|\u00b0C|\u00b0 C|degrees C|celsius", FAHRENHEIT_STEPS,
     CELSIUS_STEPS, FAHRENHEIT_AT_ICE, CW_PART_OTHER, "F = C * 9/5 + 32"},

    {CW_DIM_PERCENT, PERCENT_NAMES, 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},

    {CW_DIM_LB_PER_FT, "lb/ft|lbs/ft|plf|lbf/ft", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_LB_PER_FT, "kip/ft|kips/ft|klf", CW_LB_PER_KIP, 1.0, 0.0, CW_PART_OTHER,
     "1 kip = 1000 lb"},
    {CW_DIM_LB_PER_FT, "kg/m", CW_M_PER_FT, CW_KG_PER_LB, 0.0, CW_PART_OTHER,
     "1 lb = 0.45359237 kg, 1 ft = 0.3048 m"},
    {CW_DIM_LB_PER_FT, "kN/m", KILO *CW_M_PER_FT, CW_N_PER_LBF, 0.0, CW_PART_OTHER,
     "1 lbf = 0.45359237 * 9.80665 N, 1 ft = 0.3048 m"},

    {CW_DIM_FT_LB, "ft lb|ft-lb|ft\u00b7lb|lb ft|lb-ft|lb\u00b7ft", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_FT_LB, "in lb|in-lb|lb in|lb-in", 1.0, CW_IN_PER_FT, 0.0, CW_PART_OTHER,
     "12 in = 1 ft"},
    {CW_DIM_FT_LB, "kip ft|kip-ft|ft kip|ft-kip|ft kips|ft-kips", CW_LB_PER_KIP, 1.0, 0.0,
     CW_PART_OTHER, "1 kip = 1000 lb"},
    {CW_DIM_FT_LB, "kN m|kN-m|kN\u00b7m", KILO, CW_N_PER_LBF *CW_M_PER_FT, 0.0, CW_PART_OTHER,
     "1 lbf = 0.45359237 * 9.80665 N, 1 ft = 0.3048 m"},
    {CW_DIM_FT_LB, "N m|N-m|N\u00b7m", 1.0, CW_N_PER_LBF *CW_M_PER_FT, 0.0, CW_PART_OTHER,
     "1 lbf = 0.45359237 * 9.80665 N, 1 ft = 0.3048 m"},

    {CW_DIM_TON, "ton|tons|short ton|short tons", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_TON, "lb|lbs|pound|pounds", 1.0, CW_LB_PER_TON, 0.0, CW_PART_OTHER,
     "1 short ton = 2000 lb"},
    {CW_DIM_TON, "kg", 1.0, CW_KG_PER_LB *CW_LB_PER_TON, 0.0, CW_PART_OTHER,
     "1 lb = 0.45359237 kg"},
    {CW_DIM_TON, "t|tonne|tonnes", KILO, CW_KG_PER_LB *CW_LB_PER_TON, 0.0, CW_PART_OTHER,
     "1 t = 1000 kg, 1 lb = 0.45359237 kg"},

    {CW_DIM_CFS, "cfs|ft3/s|ft^3/s|ft\u00b3/s|cu ft/s", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_CFS, "gpm|gal/min", CW_CUIN_PER_GAL, CW_CUIN_PER_CUFT *CW_S_PER_MIN, 0.0, CW_PART_OTHER,
     "1 US gal = 231 in3"},
    {CW_DIM_CFS, "mgd", MEGA *CW_CUIN_PER_GAL, CW_CUIN_PER_CUFT *CW_S_PER_DAY, 0.0, CW_PART_OTHER,
     "1 US gal = 231 in3, 1 day = 86400 s"},
    {CW_DIM_CFS, "m3/s|m^3/s|m\u00b3/s|cms", 1.0, CW_M3_PER_CUFT, 0.0, CW_PART_OTHER,
     "1 ft = 0.3048 m"},
    {CW_DIM_CFS, "m3/h|m^3/h|m\u00b3/h", 1.0, CW_M3_PER_CUFT *CW_S_PER_HOUR, 0.0, CW_PART_OTHER,
     "1 ft = 0.3048 m, 1 h = 3600 s"},
    {CW_DIM_CFS, "l/s|lps", CUM_PER_L, CW_M3_PER_CUFT, 0.0, CW_PART_OTHER,
     "1 l = 0.001 m3, 1 ft = 0.3048 m"},

    {CW_DIM_FPS, "ft/s|fps|ft/sec", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_FPS, "m/s", 1.0, CW_M_PER_FT, 0.0, CW_PART_OTHER, "1 ft = 0.3048 m"},
    {CW_DIM_FPS, "mph|mi/h", CW_FT_PER_MILE, CW_S_PER_HOUR, 0.0, CW_PART_OTHER,
     "1 mi = 5280 ft, 1 h = 3600 s"},

    {CW_DIM_ACRE, "acre|acres|ac", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_ACRE, "sq mi|sqmi|mi2|mi^2|mi\u00b2", CW_ACRE_PER_SQMI, 1.0, 0.0, CW_PART_OTHER,
     "1 mi2 = 640 acres"},
    {CW_DIM_ACRE, "ft2|ft^2|ft\u00b2|sq ft", 1.0, CW_SQFT_PER_ACRE, 0.0, CW_PART_OTHER,
     "1 acre = 43560 ft2"},
    {CW_DIM_ACRE, "ha|hectare|hectares", SQM_PER_HA, CW_M2_PER_SQFT *CW_SQFT_PER_ACRE, 0.0,
     CW_PART_OTHER, "1 ha = 10000 m2, 1 ft = 0.3048 m"},
    {CW_DIM_ACRE, "km2|km^2|km\u00b2|sq km", MEGA, CW_M2_PER_SQFT *CW_SQFT_PER_ACRE, 0.0,
     CW_PART_OTHER, "1 km2 = 1000000 m2, 1 ft = 0.3048 m"},

    {CW_DIM_IN_PER_H, "in/h|in/hr|iph|inches per hour", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_IN_PER_H, "mm/h|mm/hr", 1.0, CW_MM_PER_IN, 0.0, CW_PART_OTHER, "1 in = 25.4 mm"},

    {CW_DIM_FT_PER_DAY, "ft/day|ft/d", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_FT_PER_DAY, "m/s", CW_S_PER_DAY, CW_M_PER_FT, 0.0, CW_PART_OTHER,
     "1 ft = 0.3048 m, 1 day = 86400 s"},
    {CW_DIM_FT_PER_DAY, "cm/s", CENTI *CW_S_PER_DAY, CW_M_PER_FT, 0.0, CW_PART_OTHER,
     "1 ft = 30.48 cm, 1 day = 86400 s"},
    {CW_DIM_FT_PER_DAY, "m/day|m/d", 1.0, CW_M_PER_FT, 0.0, CW_PART_OTHER, "1 ft = 0.3048 m"},

    {CW_DIM_HP, "hp|horsepower", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_HP, "kW", KILO, CW_FT_LB_PER_S_PER_HP *CW_N_PER_LBF *CW_M_PER_FT, 0.0, CW_PART_OTHER,
     "1 hp = 550 ft lb/s, 1 lbf = 0.45359237 * 9.80665 N, 1 ft = 0.3048 m"},

    {CW_DIM_MIN, "min|mins|minute|minutes", 1.0, 1.0, 0.0, CW_PART_OTHER, "the stored unit"},
    {CW_DIM_MIN, "h|hr|hrs|hour|hours", CW_MIN_PER_HOUR, 1.0, 0.0, CW_PART_OTHER, "60 min = 1 h"},
    {CW_DIM_MIN, "s|sec|second|seconds", 1.0, CW_S_PER_MIN, 0.0, CW_PART_OTHER, "60 s = 1 min"},

    {CW_DIM_SQIN_PER_FT, "in2/ft|in^2/ft|in\u00b2/ft|sq in/ft", 1.0, 1.0, 0.0, CW_PART_OTHER,
     "the stored unit"},
    {CW_DIM_SQIN_PER_FT, "mm2/m|mm^2/m|mm\u00b2/m", CW_M_PER_FT, CW_MM_PER_IN *CW_MM_PER_IN, 0.0,
     CW_PART_OTHER, "1 in = 25.4 mm, 1 ft = 0.3048 m"},
};

const cw_unit *cw_unit_at(int index)
{
    const int count = (int)(sizeof units / sizeof units[0]);
    return index >= 0 && index < count ? &units[index] : NULL;
}

static cw_dim family(cw_dim dim)
{
    const bool survey = dim == CW_DIM_ELEV_FT || dim == CW_DIM_STATION_FT || dim == CW_DIM_COORD_FT;
    return survey ? CW_DIM_FT : dim;
}

static bool lists(const char *names, const char *name)
{
    const size_t length = strlen(name);
    for (const char *next = names; *next != '\0';) {
        const size_t size = strcspn(next, "|");
        if (size == length && strncmp(next, name, size) == 0)
            return true;
        next += size + (next[size] == '|');
    }
    return false;
}

const cw_unit *cw_unit_named(cw_dim dim, const char *name)
{
    for (int i = 0; cw_unit_at(i); i++)
        if (units[i].dim == family(dim) && lists(units[i].names, name))
            return &units[i];
    return NULL;
}

const cw_unit *cw_scan_unit(cw_scan *scan, cw_dim dim)
{
    const cw_unit *longest = NULL;
    cw_scan past = *scan;
    for (int i = 0; cw_unit_at(i); i++) {
        cw_scan trial = *scan;
        if (units[i].dim == family(dim) && cw_scan_name(&trial, units[i].names) &&
            trial.at > past.at) {
            longest = &units[i];
            past = trial;
        }
    }
    *scan = past;
    return longest;
}

double cw_unit_size(const cw_unit *unit, double value)
{
    return value * unit->multiply / unit->divide;
}

double cw_unit_from_stored(const cw_unit *unit, double stored)
{
    return (stored - unit->offset) * unit->divide / unit->multiply;
}
