/** @file
 * Dates of the Gregorian calendar as day numbers from 1970-01-01. */
#ifndef CW_DATE_H
#define CW_DATE_H

#include <stdbool.h>

#include "cw/arena.h"

enum { CW_WEEKDAYS = 7 };

/** Day number of a date of the Gregorian calendar. */
int cw_date_day(int year, int month, int day);
/** 0 Monday .. 6 Sunday. */
int cw_date_weekday(int day);
/** Read "2026-05-04"; false when it is no date from 1900 to 2199. */
bool cw_date_read(const char *text, int *day);
/** "2026-05-04". */
const char *cw_date_print(cw_arena *arena, int day);

#endif
