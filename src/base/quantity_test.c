/* Reading of quantities.  Sources named in the rows:
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
#include "quantity_internal.h"

#define COUNT_OF(array) (sizeof(array) / sizeof(array)[0])

static const double relative_tolerance = 1e-14;

typedef struct reading {
    const char *text;
    cw_dim dim;
    double value;
    const char *source;
} reading;

static const reading readings[] = {
    /* lengths kept in feet */
    {"12 ft", CW_DIM_FT, 12.0, "header"},
    {"12'", CW_DIM_FT, 12.0, "header"},
    {"12ft", CW_DIM_FT, 12.0, "header"},
    {"12 feet", CW_DIM_FT, 12.0, "practice"},
    {"1 foot", CW_DIM_FT, 1.0, "practice"},
    {"12 FT", CW_DIM_FT, 12.0, "practice"},
    {"12 ft.", CW_DIM_FT, 12.0, "practice"},
    {"8 ft 6 in", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8ft6in", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8 ft. 6 in.", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8 ft - 6 in", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8'6\"", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8' 6\"", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8'-6\"", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8'- 6\"", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8' - 6\"", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"  8'-6\"  ", CW_DIM_FT, 8.5, "hand: 8 + 6/12"},
    {"8\u00a0ft\u00a06\u00a0in", CW_DIM_FT, 8.5, "hand: no-break spaces"},
    {"8'-6\"\r\n", CW_DIM_FT, 8.5, "hand: line end behind"},
    {"5'-10 3/4\"", CW_DIM_FT, 70.75 / 12.0, "hand: 5*12 + 10.75 = 70.75 in"},
    {"12.5'", CW_DIM_FT, 12.5, "header"},
    {"5.896'", CW_DIM_FT, 5.896, "header"},
    {"5 1/2'", CW_DIM_FT, 5.5, "hand"},
    {".5 ft", CW_DIM_FT, 0.5, "hand"},
    {"-5'-6\"", CW_DIM_FT, -5.5, "hand: minus takes the whole"},
    {"-12 ft", CW_DIM_FT, -12.0, "header"},
    {"+12 ft", CW_DIM_FT, 12.0, "header"},
    {"6 in", CW_DIM_FT, 0.5, "hand: 6/12"},
    {"70 3/4\"", CW_DIM_FT, 70.75 / 12.0, "hand"},
    {"3.6 m", CW_DIM_FT, 3.6 / 0.3048, "85 FR"},
    {"30.48 m", CW_DIM_FT, 100.0, "85 FR"},
    {"0.3048 m", CW_DIM_FT, 1.0, "85 FR"},
    {"304.8 mm", CW_DIM_FT, 1.0, "85 FR"},
    {"30.48 cm", CW_DIM_FT, 1.0, "85 FR"},
    {"1 km", CW_DIM_FT, 3280.839895013123, "scipy: 1000/foot"},
    {"2 yd", CW_DIM_FT, 6.0, "hand: 3 ft each"},
    {"1 mile", CW_DIM_FT, 5280.0, "hand: statute mile"},
    {"0.5 mi", CW_DIM_FT, 2640.0, "hand: statute mile"},
    {"2,000,000 usft", CW_DIM_FT, 2000004.000008, "85 FR: 2 ppm is 4.000 ft at 2,000,000"},
    {"40.5 usft", CW_DIM_FT, 40.5 * 1200.0 / 3937.0 / 0.3048, "85 FR"},
    {"40.5 US survey feet", CW_DIM_FT, 40.5 * 1200.0 / 3937.0 / 0.3048, "85 FR"},
    {"3937 usft", CW_DIM_FT, 1200.0 / 0.3048, "85 FR: 3937 US survey ft = 1200 m"},
    {"1,234.5 ft", CW_DIM_FT, 1234.5, "hand"},
    {"0", CW_DIM_FT, 0.0, "header: zero needs no unit"},
    {"0.00", CW_DIM_FT, 0.0, "header: zero needs no unit"},
    {"-0", CW_DIM_FT, 0.0, "header: zero needs no unit"},
    {"0 ft", CW_DIM_FT, 0.0, "hand"},
    {"000012 ft", CW_DIM_FT, 12.0, "hand"},
    {"5-10-3/4", CW_DIM_FT, 70.75 / 12.0, "hand: feet-inches-fraction"},

    /* cast lengths in inches */
    {"5'-10 3/4\"", CW_DIM_IN, 70.75, "hand: 5*12 + 10 + 3/4"},
    {"5' 10.75\"", CW_DIM_IN, 70.75, "hand: 5*12 + 10.75"},
    {"5-10-3/4", CW_DIM_IN, 70.75, "hand: 5*12 + 10 + 3/4"},
    {"5'-10-3/4\"", CW_DIM_IN, 70.75, "hand"},
    {"-5-10-3/4", CW_DIM_IN, -70.75, "hand"},
    {"0-0-1/2", CW_DIM_IN, 0.5, "hand"},
    {"6-0-1/64", CW_DIM_IN, 72.015625, "hand: 72 + 1/64"},
    {"70 3/4\"", CW_DIM_IN, 70.75, "header"},
    {"70-3/4\"", CW_DIM_IN, 70.75, "hand"},
    {"1-1/2 in", CW_DIM_IN, 1.5, "header"},
    {"1 1/2 in", CW_DIM_IN, 1.5, "hand"},
    {"1 1/2 inches", CW_DIM_IN, 1.5, "hand"},
    {"3/4\"", CW_DIM_IN, 0.75, "hand"},
    {"63/64 in", CW_DIM_IN, 0.984375, "hand: 63/64"},
    {"1/32 in", CW_DIM_IN, 0.03125, "hand: 1/32"},
    {"15/16\"", CW_DIM_IN, 0.9375, "hand: 15/16"},
    {"10 in", CW_DIM_IN, 10.0, "header"},
    {"10in.", CW_DIM_IN, 10.0, "practice"},
    {"10 inch", CW_DIM_IN, 10.0, "practice"},
    {"10.75 in", CW_DIM_IN, 10.75, "header"},
    {"5' 1/2\"", CW_DIM_IN, 60.5, "hand: 60 + 1/2"},
    {"5'-0 1/2\"", CW_DIM_IN, 60.5, "hand: 60 + 1/2"},
    {"5'-0\"", CW_DIM_IN, 60.0, "hand"},
    {"5'", CW_DIM_IN, 60.0, "hand"},
    {"5'-11 63/64\"", CW_DIM_IN, 71.984375, "hand: 71 + 63/64"},
    {"8 ft 6 in", CW_DIM_IN, 102.0, "hand: 96 + 6"},
    {"8 ft 6\"", CW_DIM_IN, 102.0, "hand: 96 + 6"},
    {"905 mm", CW_DIM_IN, 905.0 / 25.4, "85 FR: 1 in = 25.4 mm"},
    {"25.4 mm", CW_DIM_IN, 1.0, "85 FR: 1 in = 25.4 mm"},
    {"25 cm", CW_DIM_IN, 25.0 / 2.54, "85 FR: 1 in = 2.54 cm"},
    {"1.27 m", CW_DIM_IN, 50.0, "hand: 1270/25.4"},
    {"1 yd", CW_DIM_IN, 36.0, "hand"},
    {"1 usft", CW_DIM_IN, 12.0 * 1.000002000004, "85 FR: 1/(1 - 2e-6)"},
    {"5\u2032-10\u00be\u2033", CW_DIM_IN, 70.75, "header: prime signs, vulgar fraction"},
    {"5\u2019-10 3/4\u201d", CW_DIM_IN, 70.75, "practice: quotes as phones type them"},
    {"5'-10 \u00be\"", CW_DIM_IN, 70.75, "header"},
    {"5'-\u00bd\"", CW_DIM_IN, 60.5, "header"},
    {"\u00bd in", CW_DIM_IN, 0.5, "header"},
    {"\u00bc\"", CW_DIM_IN, 0.25, "header"},
    {"1\u00be in", CW_DIM_IN, 1.75, "header"},
    {"1\u215b\"", CW_DIM_IN, 1.125, "header"},
    {"1\u215c\"", CW_DIM_IN, 1.375, "header"},
    {"1-\u215d\"", CW_DIM_IN, 1.625, "header"},
    {"1 \u215e\"", CW_DIM_IN, 1.875, "header"},

    /* elevations, coordinates */
    {"601.25 ft", CW_DIM_ELEV_FT, 601.25, "header"},
    {"183.261 m", CW_DIM_ELEV_FT, 183.261 / 0.3048, "85 FR"},
    {"-3.5'", CW_DIM_ELEV_FT, -3.5, "header"},
    {"1,321,228.809 ft", CW_DIM_COORD_FT, 1321228.809, "hand"},
    {"2000000 usft", CW_DIM_COORD_FT, 2000004.000008, "85 FR: 2 ppm"},

    /* stations: 100 ft each (practice) */
    {"12+34.50", CW_DIM_STATION_FT, 1234.5, "hand: 12*100 + 34.5"},
    {"12+34.56", CW_DIM_STATION_FT, 1234.56, "hand"},
    {"12+34", CW_DIM_STATION_FT, 1234.0, "hand"},
    {"0+05", CW_DIM_STATION_FT, 5.0, "hand"},
    {"0+00", CW_DIM_STATION_FT, 0.0, "hand"},
    {"1+00.00", CW_DIM_STATION_FT, 100.0, "hand"},
    {"-0+05.50", CW_DIM_STATION_FT, -5.5, "hand: minus takes the whole"},
    {"+1+05.5", CW_DIM_STATION_FT, 105.5, "hand"},
    {"1234+56.784", CW_DIM_STATION_FT, 123456.784, "hand"},
    {"012+34", CW_DIM_STATION_FT, 1234.0, "hand"},
    {"1234.5 ft", CW_DIM_STATION_FT, 1234.5, "header"},
    {"8 ft 6 in", CW_DIM_STATION_FT, 8.5, "header"},
    {"30.48 m", CW_DIM_STATION_FT, 100.0, "85 FR"},
    {"0", CW_DIM_STATION_FT, 0.0, "header"},

    /* weights and forces */
    {"16,650 lb", CW_DIM_LB, 16650.0, "hand"},
    {"1,234,567 lb", CW_DIM_LB, 1234567.0, "hand"},
    {"16650 lbs", CW_DIM_LB, 16650.0, "practice"},
    {"16650 pounds", CW_DIM_LB, 16650.0, "practice"},
    {"16.65 kip", CW_DIM_LB, 16650.0, "hand: 1000 lb"},
    {"16.65 kips", CW_DIM_LB, 16650.0, "hand: 1000 lb"},
    {"8.3 ton", CW_DIM_LB, 16600.0, "hand: 2000 lb"},
    {"2 short tons", CW_DIM_LB, 4000.0, "hand: 2000 lb"},
    {"1 kg", CW_DIM_LB, 2.2046226218487757, "scipy: 1/pound"},
    {"0.45359237 kg", CW_DIM_LB, 1.0, "scipy: pound"},
    {"1 t", CW_DIM_LB, 2204.6226218487757, "scipy: 1000/pound"},
    {"2 tonnes", CW_DIM_LB, 4409.2452436975514, "scipy: 2000/pound"},
    {"4.4482216152605 N", CW_DIM_LB, 1.0, "scipy: pound_force"},
    {"4.4482216152605 kN", CW_DIM_LB, 1000.0, "scipy: pound_force"},

    /* unit weights */
    {"150 pcf", CW_DIM_PCF, 150.0, "header"},
    {"150 lb/ft3", CW_DIM_PCF, 150.0, "header"},
    {"150 lb/ft\u00b3", CW_DIM_PCF, 150.0, "practice"},
    {"150 lb/ft^3", CW_DIM_PCF, 150.0, "practice"},
    {"150 lb/cf", CW_DIM_PCF, 150.0, "practice"},
    {"150 lb/cu ft", CW_DIM_PCF, 150.0, "practice"},
    {"0.15 kip/ft3", CW_DIM_PCF, 150.0, "hand: 1000 lb"},
    {"0.15 kcf", CW_DIM_PCF, 150.0, "hand: 1000 lb"},
    {"1 kN/m3", CW_DIM_PCF, 6.365880354264157, "scipy: 1000 foot^3 / pound_force"},
    {"1 kN/m\u00b3", CW_DIM_PCF, 6.365880354264157, "scipy: 1000 foot^3 / pound_force"},
    {"16.018463373960145 kg/m3", CW_DIM_PCF, 1.0, "scipy: pound / foot^3"},

    /* stress and pressure */
    {"5000 psi", CW_DIM_PSI, 5000.0, "header"},
    {"5,000 psi", CW_DIM_PSI, 5000.0, "hand"},
    {"5 ksi", CW_DIM_PSI, 5000.0, "hand: 1000 psi"},
    {"40 lb/in2", CW_DIM_PSI, 40.0, "practice"},
    {"1 MPa", CW_DIM_PSI, 145.03773773020922, "scipy: 1e6/psi"},
    {"1 N/mm2", CW_DIM_PSI, 145.03773773020922, "scipy: 1e6/psi"},
    {"6.894757293168361 kPa", CW_DIM_PSI, 1.0, "scipy: psi"},
    {"2500 psf", CW_DIM_PSF, 2500.0, "header"},
    {"2500 lb/ft2", CW_DIM_PSF, 2500.0, "practice"},
    {"2.5 ksf", CW_DIM_PSF, 2500.0, "hand: 1000 psf"},
    {"1.5 tsf", CW_DIM_PSF, 3000.0, "hand: 2000 psf"},
    {"1 psi", CW_DIM_PSF, 144.0, "hand: 144 in2 in 1 ft2"},
    {"47.88025898033585 kPa", CW_DIM_PSF, 1000.0, "scipy: pound_force / foot^2"},
    {"0.04788025898033585 kN/m2", CW_DIM_PSF, 1.0, "scipy: pound_force / foot^2"},

    /* slopes */
    {"0.5%", CW_DIM_SLOPE, 0.005, "header"},
    {"0.5 %", CW_DIM_SLOPE, 0.005, "header"},
    {"0.5 percent", CW_DIM_SLOPE, 0.005, "header"},
    {"1/2 %", CW_DIM_SLOPE, 0.005, "hand"},
    {"-1.5%", CW_DIM_SLOPE, -0.015, "header"},
    {"+1.5%", CW_DIM_SLOPE, 0.015, "header"},
    {"1:48", CW_DIM_SLOPE, 1.0 / 48.0, "header: rise to run"},
    {"1 : 48", CW_DIM_SLOPE, 1.0 / 48.0, "header: rise to run"},
    {"-1:100", CW_DIM_SLOPE, -0.01, "hand"},
    {"2:1", CW_DIM_SLOPE, 2.0, "hand"},
    {"0.01 ft/ft", CW_DIM_SLOPE, 0.01, "header"},
    {"0.01 m/m", CW_DIM_SLOPE, 0.01, "hand"},
    {"1/4 in/ft", CW_DIM_SLOPE, 0.25 / 12.0, "hand: 1/4 over 12"},
    {"1/8 in/ft", CW_DIM_SLOPE, 1.0 / 96.0, "hand: 1/8 over 12"},
    {"\u00bc in/ft", CW_DIM_SLOPE, 1.0 / 48.0, "hand"},
    {"5 mm/m", CW_DIM_SLOPE, 0.005, "hand"},
    {"0", CW_DIM_SLOPE, 0.0, "header"},
    {"0%", CW_DIM_SLOPE, 0.0, "hand"},

    /* side slopes */
    {"2:1", CW_DIM_SIDE_SLOPE, 2.0, "header"},
    {"1.5:1", CW_DIM_SIDE_SLOPE, 1.5, "header"},
    {"1 1/2:1", CW_DIM_SIDE_SLOPE, 1.5, "hand: OSHA type C, 29 CFR 1926 subpart P app. B"},
    {"3/4:1", CW_DIM_SIDE_SLOPE, 0.75, "hand: OSHA type A, 29 CFR 1926 subpart P app. B"},
    {"2H:1V", CW_DIM_SIDE_SLOPE, 2.0, "header"},
    {"2h : 1v", CW_DIM_SIDE_SLOPE, 2.0, "header"},
    {"2 H:1 V", CW_DIM_SIDE_SLOPE, 2.0, "header"},
    {"1V:2H", CW_DIM_SIDE_SLOPE, 2.0, "header"},
    {"4V:1H", CW_DIM_SIDE_SLOPE, 0.25, "hand: 1/4"},
    {"0:1", CW_DIM_SIDE_SLOPE, 0.0, "hand"},
    {"vertical", CW_DIM_SIDE_SLOPE, 0.0, "header"},
    {"Vertical", CW_DIM_SIDE_SLOPE, 0.0, "header"},
    {"0", CW_DIM_SIDE_SLOPE, 0.0, "header"},

    /* angles */
    {"20 deg", CW_DIM_DEG, 20.0, "header"},
    {"20 degrees", CW_DIM_DEG, 20.0, "header"},
    {"20\u00b0", CW_DIM_DEG, 20.0, "practice"},
    {"20d", CW_DIM_DEG, 20.0, "practice"},
    {"20d30m15s", CW_DIM_DEG, 20.504166666666666, "hand: 20 + 30/60 + 15/3600"},
    {"20d 30m 15s", CW_DIM_DEG, 20.504166666666666, "hand: 20 + 30/60 + 15/3600"},
    {"20\u00b030'15\"", CW_DIM_DEG, 20.504166666666666, "hand: 20 + 30/60 + 15/3600"},
    {"20\u00b030\u203215\u2033", CW_DIM_DEG, 20.504166666666666, "hand"},
    {"20\u00b030.25'", CW_DIM_DEG, 20.504166666666666, "hand: 30.25/60"},
    {"20d30m", CW_DIM_DEG, 20.5, "hand"},
    {"20 deg 30 min 36 sec", CW_DIM_DEG, 20.51, "hand: 0.5 + 36/3600"},
    {"-20d30m", CW_DIM_DEG, -20.5, "hand: minus takes the whole"},
    {"20d30m15.5s", CW_DIM_DEG, 20.0 + 1815.5 / 3600.0, "hand"},
    {"1 rad", CW_DIM_DEG, 57.29577951308232, "scipy: 1/degree"},
    {"0", CW_DIM_DEG, 0.0, "header"},

    /* areas and volumes */
    {"42.5 ft2", CW_DIM_SQFT, 42.5, "header"},
    {"42.5 sq ft", CW_DIM_SQFT, 42.5, "practice"},
    {"42.5 sf", CW_DIM_SQFT, 42.5, "practice"},
    {"288 in2", CW_DIM_SQFT, 2.0, "hand: 144 in2"},
    {"2 sy", CW_DIM_SQFT, 18.0, "hand: 9 ft2"},
    {"0.09290304 m2", CW_DIM_SQFT, 1.0, "hand: 0.3048^2"},
    {"1 m\u00b2", CW_DIM_SQFT, 10.763910416709722, "scipy: 1/foot^2"},
    {"102.667 ft3", CW_DIM_CUFT, 102.667, "header"},
    {"3 cf", CW_DIM_CUFT, 3.0, "practice"},
    {"3 cu ft", CW_DIM_CUFT, 3.0, "practice"},
    {"3456 in3", CW_DIM_CUFT, 2.0, "hand: 1728 in3"},
    {"2 cy", CW_DIM_CUFT, 54.0, "hand: 27 ft3"},
    {"0.028316846592 m3", CW_DIM_CUFT, 1.0, "hand: 0.3048^3"},
    {"12.5 cy", CW_DIM_CY, 12.5, "header"},
    {"12 1/2 cu yd", CW_DIM_CY, 12.5, "practice"},
    {"12.5 yd3", CW_DIM_CY, 12.5, "header"},
    {"54 ft3", CW_DIM_CY, 2.0, "hand: 27 ft3"},
    {"0.764554857984 m3", CW_DIM_CY, 1.0, "hand: 0.9144^3"},

    /* times, temperatures, shares */
    {"1.5 h", CW_DIM_HOUR, 1.5, "header"},
    {"90 min", CW_DIM_HOUR, 1.5, "hand: 90/60"},
    {"90 minutes", CW_DIM_HOUR, 1.5, "hand: 90/60"},
    {"2 days", CW_DIM_HOUR, 48.0, "hand"},
    {"1 day", CW_DIM_HOUR, 24.0, "hand"},
    {"5400 s", CW_DIM_HOUR, 1.5, "hand: 5400/3600"},
    {"3 hrs", CW_DIM_HOUR, 3.0, "practice"},
    {"40 F", CW_DIM_DEGF, 40.0, "header"},
    {"40 \u00b0F", CW_DIM_DEGF, 40.0, "practice"},
    {"40\u00b0F", CW_DIM_DEGF, 40.0, "practice"},
    {"40 deg F", CW_DIM_DEGF, 40.0, "practice"},
    {"100 C", CW_DIM_DEGF, 212.0, "hand: 100*9/5 + 32"},
    {"0 C", CW_DIM_DEGF, 32.0, "hand: ice point"},
    {"-40 C", CW_DIM_DEGF, -40.0, "hand: -72 + 32; the minus belongs to the Celsius number"},
    {"-10 deg C", CW_DIM_DEGF, 14.0, "hand: -18 + 32"},
    {"0 F", CW_DIM_DEGF, 0.0, "hand"},
    {"95%", CW_DIM_PERCENT, 95.0, "header"},
    {"95 percent", CW_DIM_PERCENT, 95.0, "header"},

    /* line weights, moments, ordered mass, money, plain numbers */
    {"2775 lb/ft", CW_DIM_LB_PER_FT, 2775.0, "header"},
    {"2775 plf", CW_DIM_LB_PER_FT, 2775.0, "practice"},
    {"2.775 klf", CW_DIM_LB_PER_FT, 2775.0, "hand: 1000 lb"},
    {"1.488163943569554 kg/m", CW_DIM_LB_PER_FT, 1.0, "scipy: pound/foot"},
    {"14.593902937206365 kN/m", CW_DIM_LB_PER_FT, 1000.0, "scipy: pound_force/foot"},
    {"45,000 ft lb", CW_DIM_FT_LB, 45000.0, "header"},
    {"45000 lb-ft", CW_DIM_FT_LB, 45000.0, "practice"},
    {"45 kip-ft", CW_DIM_FT_LB, 45000.0, "hand: 1000 lb"},
    {"24 in-lb", CW_DIM_FT_LB, 2.0, "hand: 12 in"},
    {"1.3558179483314 kN m", CW_DIM_FT_LB, 1000.0, "scipy: pound_force foot"},
    {"1.3558179483314 N\u00b7m", CW_DIM_FT_LB, 1.0, "scipy: pound_force foot"},
    {"22.5 tons", CW_DIM_TON, 22.5, "header"},
    {"45000 lb", CW_DIM_TON, 22.5, "hand: 2000 lb"},
    {"907.18474 kg", CW_DIM_TON, 1.0, "scipy: short_ton"},
    {"0.90718474 t", CW_DIM_TON, 1.0, "scipy: short_ton"},
    {"85 cfs", CW_DIM_CFS, 85.0, "header"},
    {"85 ft3/s", CW_DIM_CFS, 85.0, "header"},
    {"448.8311688311688 gpm", CW_DIM_CFS, 1.0, "hand: 1728*60/231 gpm"},
    {"1 mgd", CW_DIM_CFS, 231e6 / 1728.0 / 86400.0, "hand: 231 in3 in a gallon"},
    {"0.028316846592 m3/s", CW_DIM_CFS, 1.0, "scipy: foot^3"},
    {"101.9406477312 m3/h", CW_DIM_CFS, 1.0, "scipy: foot^3*3600"},
    {"28.316846592 l/s", CW_DIM_CFS, 1.0, "scipy: foot^3*1000"},
    {"8.5 ft/s", CW_DIM_FPS, 8.5, "header"},
    {"0.3048 m/s", CW_DIM_FPS, 1.0, "85 FR"},
    {"15 mph", CW_DIM_FPS, 22.0, "hand: 15 x 5280/3600"},
    {"24 acres", CW_DIM_ACRE, 24.0, "header"},
    {"0.2 sq mi", CW_DIM_ACRE, 128.0, "hand: 640 acres"},
    {"87120 ft2", CW_DIM_ACRE, 2.0, "hand: 43,560 ft2"},
    {"0.40468564224 ha", CW_DIM_ACRE, 1.0, "scipy: acre/hectare"},
    {"0.0040468564224 km2", CW_DIM_ACRE, 1.0, "scipy: acre"},
    {"3.2 in/hr", CW_DIM_IN_PER_H, 3.2, "header"},
    {"25.4 mm/h", CW_DIM_IN_PER_H, 1.0, "85 FR: 1 in = 25.4 mm"},
    {"28 ft/day", CW_DIM_FT_PER_DAY, 28.0, "header"},
    {"0.0001 m/s", CW_DIM_FT_PER_DAY, 8.64 / 0.3048, "hand: 86400 s"},
    {"0.01 cm/s", CW_DIM_FT_PER_DAY, 8.64 / 0.3048, "hand: 86400 s"},
    {"8.64 m/day", CW_DIM_FT_PER_DAY, 8.64 / 0.3048, "85 FR"},
    {"1.5 h", CW_DIM_MIN, 90.0, "hand"},
    {"90 s", CW_DIM_MIN, 1.5, "hand"},
    {"0.31 in2/ft", CW_DIM_SQIN_PER_FT, 0.31, "header"},
    {"2116.6666666666665 mm2/m", CW_DIM_SQIN_PER_FT, 1.0, "hand: 645.16/0.3048"},
    {"7.5 hp", CW_DIM_HP, 7.5, "header"},
    {"0.7456998715822702 kW", CW_DIM_HP, 1.0, "scipy: hp/1000"},
    {"$1,250.00", CW_DIM_MONEY, 125000.0, "header: whole cents"},
    {"$1250", CW_DIM_MONEY, 125000.0, "header: whole cents"},
    {"$12.5", CW_DIM_MONEY, 1250.0, "hand"},
    {"$ 12.50", CW_DIM_MONEY, 1250.0, "hand"},
    {"-$12.50", CW_DIM_MONEY, -1250.0, "hand"},
    {"$0.29", CW_DIM_MONEY, 29.0, "hand: 0.29*100 is 28.999999999999996 in binary"},
    {"$1.15", CW_DIM_MONEY, 115.0, "hand: 1.15*100 is 114.99999999999999 in binary"},
    {"0", CW_DIM_MONEY, 0.0, "header"},
    {"1.25", CW_DIM_NONE, 1.25, "header"},
    {"-1.25", CW_DIM_NONE, -1.25, "header"},
    {"0.3", CW_DIM_NONE, 0.3, "C literal"},
    {"3.141592653589793", CW_DIM_NONE, 3.141592653589793, "C literal"},
    {"0.1000000000000000055511151231257827", CW_DIM_NONE, 0.1,
     "the double nearest 0.1, written out"},
    {"999999999999999", CW_DIM_NONE, 999999999999999.0, "C literal"},
    {"0.000000000000001", CW_DIM_NONE, 1e-15, "C literal"},
    {"123456.789", CW_DIM_NONE, 123456.789, "C literal"},
    {"12", CW_DIM_COUNT, 12.0, "header"},
    {"1,250", CW_DIM_COUNT, 1250.0, "hand"},
    {"0", CW_DIM_COUNT, 0.0, "header"},
};

static void every_form_reads_as_its_value(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(readings); i++) {
        const reading *row = &readings[i];
        const cw_parsed got = cw_quantity_parse(row->text, row->dim);
        const double off = fabs(got.value - row->value);
        if (got.status != CW_PARSE_OK || got.at != 0 ||
            off > relative_tolerance * fabs(row->value) ||
            signbit(got.value) != signbit(row->value))
            fail_msg("\"%s\" (dim %d): status %d at %zu, %.17g, expected %.17g (%s)", row->text,
                     (int)row->dim, (int)got.status, got.at, got.value, row->value, row->source);
    }
}

typedef struct refusal {
    const char *text;
    cw_dim dim;
    cw_parse_status status;
    size_t at;
    const char *why;
} refusal;

static const refusal refusals[] = {
    /* nothing */
    {"", CW_DIM_FT, CW_PARSE_EMPTY, 0, "empty"},
    {"   ", CW_DIM_FT, CW_PARSE_EMPTY, 3, "blank"},
    {"\t\n", CW_DIM_COUNT, CW_PARSE_EMPTY, 2, "blank"},
    {"85", CW_DIM_CFS, CW_PARSE_NO_UNIT, 2, "bare number"},
    {"85 ft/s", CW_DIM_CFS, CW_PARSE_BAD_UNIT, 3, "a velocity is no flow"},
    {"28 m/h", CW_DIM_FT_PER_DAY, CW_PARSE_BAD_UNIT, 3, "unknown"},
    {"24 in", CW_DIM_IN_PER_H, CW_PARSE_BAD_UNIT, 3, "a depth is no intensity"},
    {"", CW_DIM_TEXT, CW_PARSE_EMPTY, 0, "empty"},

    /* no unit */
    {"12", CW_DIM_FT, CW_PARSE_NO_UNIT, 2, "bare number"},
    {" 12 ", CW_DIM_FT, CW_PARSE_NO_UNIT, 4, "bare number"},
    {"5.896", CW_DIM_IN, CW_PARSE_NO_UNIT, 5, "bare number"},
    {"1234.5", CW_DIM_STATION_FT, CW_PARSE_NO_UNIT, 6, "a station needs its plus"},
    {"3/4", CW_DIM_IN, CW_PARSE_NO_UNIT, 3, "bare fraction"},
    {"1-1/2", CW_DIM_IN, CW_PARSE_NO_UNIT, 5, "bare mixed number"},
    {"5'-10", CW_DIM_IN, CW_PARSE_NO_UNIT, 5, "inches without mark"},
    {"8 ft 6", CW_DIM_FT, CW_PARSE_NO_UNIT, 6, "inches without unit"},
    {"5'6", CW_DIM_FT, CW_PARSE_NO_UNIT, 3, "inches without mark"},
    {"0.01", CW_DIM_SLOPE, CW_PARSE_NO_UNIT, 4, "percent or ft/ft"},
    {"2", CW_DIM_SIDE_SLOPE, CW_PARSE_NO_UNIT, 1, "2 to what"},
    {"20", CW_DIM_DEG, CW_PARSE_NO_UNIT, 2, "bare number"},
    {"20d30", CW_DIM_DEG, CW_PARSE_NO_UNIT, 5, "minutes without mark"},
    {"16,650", CW_DIM_LB, CW_PARSE_NO_UNIT, 6, "bare number"},
    {"12.50", CW_DIM_MONEY, CW_PARSE_NO_UNIT, 5, "no $"},
    {"0", CW_DIM_DEGF, CW_PARSE_NO_UNIT, 1, "0 F is not 0 C"},
    {"95", CW_DIM_PERCENT, CW_PARSE_NO_UNIT, 2, "bare number"},
    {"2H:1", CW_DIM_SIDE_SLOPE, CW_PARSE_NO_UNIT, 4, "one letter only"},
    {"2:1V", CW_DIM_SIDE_SLOPE, CW_PARSE_NO_UNIT, 1, "one letter only"},

    /* wrong unit */
    {"12 lb", CW_DIM_FT, CW_PARSE_BAD_UNIT, 3, "a weight"},
    {"12 ft", CW_DIM_LB, CW_PARSE_BAD_UNIT, 3, "a length"},
    {"12 ft2", CW_DIM_FT, CW_PARSE_BAD_UNIT, 3, "an area"},
    {"12 ft^2", CW_DIM_FT, CW_PARSE_BAD_UNIT, 3, "an area"},
    {"12 ft\u00b2", CW_DIM_FT, CW_PARSE_BAD_UNIT, 3, "an area"},
    {"12 ft/s", CW_DIM_FT, CW_PARSE_BAD_UNIT, 3, "a speed"},
    {"12 fts", CW_DIM_FT, CW_PARSE_BAD_UNIT, 3, "unknown"},
    {"12 furlongs", CW_DIM_FT, CW_PARSE_BAD_UNIT, 3, "unknown"},
    {"12 ft3", CW_DIM_SQFT, CW_PARSE_BAD_UNIT, 3, "a volume"},
    {"150 psf", CW_DIM_PCF, CW_PARSE_BAD_UNIT, 4, "a pressure"},
    {"150 lb", CW_DIM_PCF, CW_PARSE_BAD_UNIT, 4, "a weight"},
    {"150 kN/m", CW_DIM_PCF, CW_PARSE_BAD_UNIT, 4, "a line weight"},
    {"12 ft", CW_DIM_COUNT, CW_PARSE_BAD_UNIT, 3, "a count has no unit"},
    {"0.5%", CW_DIM_NONE, CW_PARSE_BAD_UNIT, 3, "a plain number has no unit"},
    {"5'-6'", CW_DIM_FT, CW_PARSE_BAD_UNIT, 4, "feet after feet"},
    {"5 ft 6 mm", CW_DIM_FT, CW_PARSE_BAD_UNIT, 7, "millimetres after feet"},
    {"1+234.5 m", CW_DIM_STATION_FT, CW_PARSE_BAD_UNIT, 8, "metric station"},
    {"12+34.5 ft", CW_DIM_STATION_FT, CW_PARSE_BAD_UNIT, 8, "a station carries no unit"},
    {"1 in 48", CW_DIM_SLOPE, CW_PARSE_BAD_UNIT, 2, "in is inch"},
    {"1 in", CW_DIM_SLOPE, CW_PARSE_BAD_UNIT, 2, "a length"},
    {"2H:1H", CW_DIM_SIDE_SLOPE, CW_PARSE_BAD_UNIT, 4, "the same letter twice"},
    {"2X:1V", CW_DIM_SIDE_SLOPE, CW_PARSE_BAD_UNIT, 1, "no such letter"},
    {"20 rads", CW_DIM_DEG, CW_PARSE_BAD_UNIT, 3, "unknown"},
    {"20d30h", CW_DIM_DEG, CW_PARSE_BAD_UNIT, 5, "hours are no minutes"},
    {"5 K", CW_DIM_DEGF, CW_PARSE_BAD_UNIT, 2, "kelvin"},
    {"$12.50 USD", CW_DIM_MONEY, CW_PARSE_BAD_UNIT, 7, "$ only"},
    {"12.50 $", CW_DIM_MONEY, CW_PARSE_BAD_UNIT, 6, "$ goes first"},
    {"\u20ac12", CW_DIM_MONEY, CW_PARSE_BAD_NUMBER, 0, "$ only"},

    /* no number */
    {"abc", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "no digit"},
    {"  abc", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 2, "no digit"},
    {"-", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 1, "no digit"},
    {"- 12 ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 1, "blank behind the sign"},
    {"--12 ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 1, "two signs"},
    {"nan", CW_DIM_NONE, CW_PARSE_BAD_NUMBER, 0, "not a number"},
    {"inf", CW_DIM_NONE, CW_PARSE_BAD_NUMBER, 0, "not finite"},
    {"-infinity ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 1, "not finite"},
    {"0x10", CW_DIM_NONE, CW_PARSE_BAD_NUMBER, 1, "hexadecimal"},
    {"1e3 ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 1, "exponent"},
    {"1.5E-3", CW_DIM_NONE, CW_PARSE_BAD_NUMBER, 3, "exponent"},
    {"12. ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 2, "point without decimals"},
    {". ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "point alone"},
    {"1.2.3 ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 3, "two points"},
    {"12 @", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 3, "no unit"},
    {"1000000000000000 ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "16 digits"},
    {"999999999999999 mi", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "5e18 ft is past 1e15"},
    {"0.0000000000000001 ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "under 1e-15"},
    {"12.0", CW_DIM_COUNT, CW_PARSE_BAD_NUMBER, 2, "a count is whole"},
    {"12 13", CW_DIM_COUNT, CW_PARSE_BAD_NUMBER, 3, "two numbers"},
    {"1/2", CW_DIM_NONE, CW_PARSE_BAD_NUMBER, 1, "a plain number has no fraction"},
    {"12", CW_DIM_TEXT, CW_PARSE_BAD_NUMBER, 0, "text is no number"},

    /* commas */
    {"16,65 lb", CW_DIM_LB, CW_PARSE_BAD_NUMBER, 2, "two digits in the group"},
    {"16,6500 lb", CW_DIM_LB, CW_PARSE_BAD_NUMBER, 2, "four digits in the group"},
    {"1666,500 lb", CW_DIM_LB, CW_PARSE_BAD_NUMBER, 4, "four digits in front"},
    {"1,234,56 lb", CW_DIM_LB, CW_PARSE_BAD_NUMBER, 5, "two digits in the last group"},
    {"0,125 m", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 1, "decimal comma"},
    {",125 m", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "comma first"},
    {"12, ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 2, "comma last"},
    {"1.234,567 ft", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 5, "comma in decimals"},

    /* feet, inches, fractions */
    {"5'-13\"", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 3, "13 inches"},
    {"5'-12\"", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 3, "12 inches are a foot"},
    {"5'-10 4/4\"", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 6, "fraction of one"},
    {"5'-10 5/4\"", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 6, "fraction over one"},
    {"5/4 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 0, "fraction over one"},
    {"1/0 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 2, "division by zero"},
    {"1/3 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 2, "no third on a rule"},
    {"1/128 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 2, "finer than 1/64"},
    {"1/1 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 0, "fraction of one"},
    {"1/ in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 2, "no denominator"},
    {"1/4444 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 2, "no such denominator"},
    {"1234/64 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 0, "fraction over one"},
    {"10.5 1/2 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 5, "decimal and fraction"},
    {"1/2/3 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 3, "two strokes"},
    {"5.5' 6\"", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "decimal feet with inches"},
    {"5 1/2' 3\"", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 0, "fraction of a foot with inches"},
    {"5'--6\"", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 2, "sign inside"},
    {"5'-+6\"", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 2, "sign inside"},
    {"5' -6\"", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 3, "sign inside"},
    {"5''", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 2, "feet twice"},
    {"5'-6\" 1\"", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 6, "left over"},
    {"5-10 in", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 1, "feet-inches or a range"},
    {"6-0", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 1, "feet-inches without marks"},
    {"5-10-3", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 4, "no fraction in the third part"},
    {"5-12-1/2", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 2, "12 inches"},
    {"5-10-3/4 ft", CW_DIM_IN, CW_PARSE_BAD_NUMBER, 9, "left over"},
    {"5 m 6 in", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 4, "inches after metres"},
    {"12 ft long", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 6, "left over"},

    /* stations, slopes, angles, money */
    {"12+345", CW_DIM_STATION_FT, CW_PARSE_BAD_NUMBER, 5, "three digits: a metric station"},
    {"12+3", CW_DIM_STATION_FT, CW_PARSE_BAD_NUMBER, 4, "one digit"},
    {"12+", CW_DIM_STATION_FT, CW_PARSE_BAD_NUMBER, 3, "no digit"},
    {"12+34.", CW_DIM_STATION_FT, CW_PARSE_BAD_NUMBER, 5, "point without decimals"},
    {"12 + 34", CW_DIM_STATION_FT, CW_PARSE_BAD_NUMBER, 3, "blanks inside"},
    {"12+-34", CW_DIM_STATION_FT, CW_PARSE_BAD_NUMBER, 3, "sign inside"},
    {"+34.50", CW_DIM_STATION_FT, CW_PARSE_NO_UNIT, 6, "no full stations: a bare number"},
    {"12345678901234+00", CW_DIM_STATION_FT, CW_PARSE_BAD_NUMBER, 0, "16 digits"},
    {"12+34.50", CW_DIM_FT, CW_PARSE_BAD_NUMBER, 2, "a station is no length"},
    {"1:0", CW_DIM_SLOPE, CW_PARSE_BAD_NUMBER, 2, "division by zero"},
    {"1:-48", CW_DIM_SLOPE, CW_PARSE_BAD_NUMBER, 2, "sign inside"},
    {"1:", CW_DIM_SLOPE, CW_PARSE_BAD_NUMBER, 2, "no run"},
    {"1/48", CW_DIM_SLOPE, CW_PARSE_BAD_NUMBER, 2, "no 48th on a rule; 1:48 is meant"},
    {"-2:1", CW_DIM_SIDE_SLOPE, CW_PARSE_BAD_NUMBER, 0, "a side slope has no sign"},
    {"2:0", CW_DIM_SIDE_SLOPE, CW_PARSE_BAD_NUMBER, 2, "level ground"},
    {"0V:2H", CW_DIM_SIDE_SLOPE, CW_PARSE_BAD_NUMBER, 0, "level ground"},
    {"2:", CW_DIM_SIDE_SLOPE, CW_PARSE_BAD_NUMBER, 2, "no rise"},
    {"20d60m", CW_DIM_DEG, CW_PARSE_BAD_NUMBER, 3, "60 minutes are a degree"},
    {"20d30m60s", CW_DIM_DEG, CW_PARSE_BAD_NUMBER, 6, "60 seconds are a minute"},
    {"20.5d30m", CW_DIM_DEG, CW_PARSE_BAD_NUMBER, 5, "decimal degrees with minutes"},
    {"20d30.5m15s", CW_DIM_DEG, CW_PARSE_BAD_NUMBER, 8, "decimal minutes with seconds"},
    {"$12.505", CW_DIM_MONEY, CW_PARSE_BAD_NUMBER, 6, "half a cent"},
    {"$12.5055", CW_DIM_MONEY, CW_PARSE_BAD_NUMBER, 6, "parts of a cent"},
    {"$-12", CW_DIM_MONEY, CW_PARSE_BAD_NUMBER, 1, "sign inside"},
    {"$", CW_DIM_MONEY, CW_PARSE_BAD_NUMBER, 1, "no digit"},
};

static void every_malformed_text_is_refused_at_its_place(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(refusals); i++) {
        const refusal *row = &refusals[i];
        const cw_parsed got = cw_quantity_parse(row->text, row->dim);
        if (got.status != row->status || got.at != row->at)
            fail_msg("\"%s\" (dim %d): status %d at %zu (%.17g), expected %d at %zu (%s)",
                     row->text, (int)row->dim, (int)got.status, got.at, got.value, (int)row->status,
                     row->at, row->why);
    }
}

/* One stored unit in SI, against scipy.constants 1.10.1 (run apart; same digits as NIST SP 811
 * appendix B to the seven it prints, from memory, not verified). */
static const struct {
    cw_dim dim;
    const char *unit;
    double of_one;
    const char *source;
} factors[] = {
    {CW_DIM_FT, "m", 0.3048, "85 FR"},
    {CW_DIM_FT, "usft", 0.999998, "85 FR: 0.3048 * 3937 / 1200"},
    {CW_DIM_IN, "mm", 25.4, "scipy: inch"},
    {CW_DIM_LB, "kg", 0.45359237, "scipy: pound"},
    {CW_DIM_LB, "N", 4.4482216152605, "scipy: pound_force"},
    {CW_DIM_PCF, "kg/m3", 16.018463373960145, "scipy: pound/foot^3"},
    {CW_DIM_PCF, "kN/m3", 1.0 / 6.365880354264157, "scipy: pound_force/foot^3/1000"},
    {CW_DIM_PSI, "kPa", 6.894757293168361, "scipy: psi/1000"},
    {CW_DIM_PSF, "kPa", 0.04788025898033585, "scipy: pound_force/foot^2/1000"},
    {CW_DIM_SQFT, "m2", 0.09290304, "scipy: foot^2"},
    {CW_DIM_CUFT, "m3", 0.028316846592, "scipy: foot^3"},
    {CW_DIM_CY, "m3", 0.764554857984, "scipy: yard^3"},
    {CW_DIM_LB_PER_FT, "kg/m", 1.488163943569554, "scipy: pound/foot"},
    {CW_DIM_FT_LB, "N m", 1.3558179483314, "scipy: pound_force*foot"},
    {CW_DIM_TON, "kg", 907.18474, "scipy: short_ton"},
    {CW_DIM_CFS, "gpm", 448.83116883116884, "scipy: foot^3/gallon*60"},
    {CW_DIM_CFS, "m3/s", 0.028316846592, "scipy: foot^3"},
    {CW_DIM_FPS, "m/s", 0.3048, "scipy: foot"},
    {CW_DIM_ACRE, "ha", 0.40468564224, "scipy: acre/hectare"},
    {CW_DIM_IN_PER_H, "mm/h", 25.4, "scipy: inch"},
    {CW_DIM_FT_PER_DAY, "m/s", 0.3048 / 86400.0, "scipy: foot/day"},
    {CW_DIM_HP, "kW", 0.7456998715822702, "scipy: hp/1000"},
    {CW_DIM_DEG, "rad", 0.017453292519943295, "scipy: degree"},
    {CW_DIM_DEGF, "deg C", -155.0 / 9.0, "hand: (1 - 32)*5/9"},
};

static void factors_agree_with_published_ones(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(factors); i++) {
        const cw_unit *unit = cw_unit_named(factors[i].dim, factors[i].unit);
        assert_non_null(unit);
        const double got = cw_unit_from_stored(unit, 1.0);
        if (fabs(got - factors[i].of_one) > relative_tolerance * fabs(factors[i].of_one))
            fail_msg("%s: %.17g, expected %.17g (%s)", factors[i].unit, got, factors[i].of_one,
                     factors[i].source);
    }
}

static void unit_names_are_unique_within_a_dimension(void **state)
{
    (void)state;
    for (int i = 0; cw_unit_at(i); i++) {
        assert_true(strlen(cw_unit_at(i)->exact) > 0);
        const char *names = cw_unit_at(i)->names;
        for (const char *name = names; *name != '\0';) {
            char one[64];
            const size_t size = strcspn(name, "|");
            assert_true(size > 0 && size < sizeof one);
            memcpy(one, name, size);
            one[size] = '\0';
            if (cw_unit_named(cw_unit_at(i)->dim, one) != cw_unit_at(i))
                fail_msg("unit name \"%s\" stands twice", one);
            name += size + (name[size] == '|');
        }
    }
    assert_null(cw_unit_at(-1));
    assert_null(cw_unit_named(CW_DIM_FT, "lb"));
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

/* A decimal text of up to 17 digits is read as the double the compiler's own library finds. */
static void decimals_are_read_to_the_last_bit(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    for (int i = 0; i < PROPERTY_CASES; i++) {
        char text[64];
        const int places = (int)(next_random(&seed) % 19);
        const uint64_t digits = next_random(&seed) % 100000000000000000u; // 17 digits
        double scale = 1.0;
        for (int k = 0; k < places; k++)
            scale *= 10.0;
        snprintf(text, sizeof text, "%.*f", places, (double)digits / scale / 1000.0);
        double expected = 0.0;
        assert_int_equal(sscanf(text, "%lf", &expected), 1);
        const cw_parsed got = cw_quantity_parse(text, CW_DIM_NONE);
        if (got.status != CW_PARSE_OK || fabs(got.value - expected) > 2.3e-16 * expected)
            fail_msg("seed %llu case %d: %s read %.17g, expected %.17g",
                     (unsigned long long)first_seed, i, text, got.value, expected);
    }
}

/* Every example of a hint ("such as A, B or C") must be read. */
static void hints_hold_true(void **state)
{
    (void)state;
    for (int dim = 0; dim < (int)CW_DIM_TEXT; dim++) {
        char hint[256];
        snprintf(hint, sizeof hint, "%s", strstr(cw_dim_hint((cw_dim)dim), "such as ") + 8);
        for (char *next = hint; next;) {
            char *comma = strstr(next, ", "), * or = strstr(next, " or ");
            char *end = comma ? comma : or ;
            const size_t skip = comma ? 2 : 4;
            if (end)
                *end = '\0';
            char *example = strncmp(next, "or a length such as ", 20) == 0 ? next + 20 : next;
            if (cw_quantity_parse(example, (cw_dim)dim).status != CW_PARSE_OK)
                fail_msg("the hint of dim %d shows \"%s\", which is refused", dim, example);
            next = end ? end + skip : NULL;
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_form_reads_as_its_value),
        cmocka_unit_test(every_malformed_text_is_refused_at_its_place),
        cmocka_unit_test(factors_agree_with_published_ones),
        cmocka_unit_test(unit_names_are_unique_within_a_dimension),
        cmocka_unit_test(decimals_are_read_to_the_last_bit),
        cmocka_unit_test(hints_hold_true),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
