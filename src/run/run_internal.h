/* Words and limits that several calculators of the run share. */
#ifndef CW_RUN_INTERNAL_H
#define CW_RUN_INTERNAL_H

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

/* Lower than the lowest dry land and higher than the highest road: to catch slips of the pen. */
#define ELEVATION_LOW_FT (-2000.0)
#define ELEVATION_HIGH_FT 30000.0

/* One or two words for each cw_run_status, cw_run_cut, cw_run_excess and cw_run_inlet, closed by
 * NULL. */
extern const char *const cw_run_status_choices[];
extern const char *const cw_run_cut_choices[];
extern const char *const cw_run_excess_choices[];
extern const char *const cw_run_inlet_choices[];

#endif
