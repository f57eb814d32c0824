/** @file
 * Exact unit relations.  These are the only places where the bare numbers may appear. */
#ifndef CW_UNITS_H
#define CW_UNITS_H

#define CW_PI 3.14159265358979323846

#define CW_IN_PER_FT 12.0
#define CW_SQIN_PER_SQFT 144.0
#define CW_CUIN_PER_CUFT 1728.0
#define CW_CUFT_PER_CY 27.0
#define CW_SQFT_PER_SY 9.0
#define CW_LB_PER_TON 2000.0
#define CW_LB_PER_KIP 1000.0
#define CW_FT_PER_STATION 100.0
#define CW_FT_PER_MILE 5280.0
/* US gallon, exact; acre of 43,560 square feet (international foot). */
#define CW_CUIN_PER_GAL 231.0
#define CW_CFS_PER_GPM (CW_CUIN_PER_GAL / CW_CUIN_PER_CUFT / CW_S_PER_MIN)
#define CW_SQFT_PER_ACRE 43560.0
#define CW_ACRE_PER_SQMI 640.0
/* Horsepower by its definition. */
#define CW_FT_LB_PER_S_PER_HP 550.0
#define CW_MIN_PER_HOUR 60.0
#define CW_S_PER_MIN 60.0
#define CW_S_PER_HOUR (CW_MIN_PER_HOUR * CW_S_PER_MIN)
#define CW_HOUR_PER_DAY 24.0
#define CW_S_PER_DAY (CW_HOUR_PER_DAY * CW_S_PER_HOUR)
#define CW_PERCENT 100.0
#define CW_SIXTEENTHS_PER_IN 16
#define CW_SIXTEENTHS_PER_FT 192

#define CW_DEG_PER_RAD (180.0 / CW_PI)
#define CW_RAD_PER_DEG (CW_PI / 180.0)

/* International foot, exact since 1959; US survey foot 1200/3937 m, exact by definition. */
#define CW_M_PER_FT 0.3048
#define CW_M_PER_USFT (1200.0 / 3937.0)
#define CW_MM_PER_IN 25.4
#define CW_CM_PER_IN 2.54
/* International avoirdupois pound, exact. */
#define CW_KG_PER_LB 0.45359237
/* Standard gravity, exact by definition (CGPM 1901). */
#define CW_M_PER_S2_GRAVITY 9.80665
#define CW_N_PER_LBF (CW_KG_PER_LB * CW_M_PER_S2_GRAVITY)
#define CW_N_PER_KN 1000.0
#define CW_M3_PER_CUFT (CW_M_PER_FT * CW_M_PER_FT * CW_M_PER_FT)
#define CW_M3_PER_CY (CW_CUFT_PER_CY * CW_M3_PER_CUFT)
#define CW_M2_PER_SQFT (CW_M_PER_FT * CW_M_PER_FT)

#endif
