/* Dates and day numbers. */
#include "cw/date.h"

enum {
    MONTHS = 12,
    FIRST_YEAR = 1900,
    LAST_YEAR = 2199,
    EPOCH_WEEKDAY = 3
}; // 1970-01-01 was a Thursday

static bool leap(int year)
{
    return year % 4 == 0 && (year % 100 != 0 || year % 400 == 0); // Gregorian calendar
}

static int month_days(int year, int month)
{
    static const int days[MONTHS] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return days[month - 1] + (month == 2 && leap(year));
}

/* Leap days before the first of January of a year after 1600. */
static int leap_days_before(int year)
{
    return (year - 1) / 4 - (year - 1) / 100 + (year - 1) / 400;
}

int cw_date_day(int year, int month, int day)
{
    int total = (year - 1970) * 365 + leap_days_before(year) - leap_days_before(1970);
    for (int m = 1; m < month; m++)
        total += month_days(year, m);
    return total + day - 1;
}

int cw_date_weekday(int day)
{
    return ((day + EPOCH_WEEKDAY) % CW_WEEKDAYS + CW_WEEKDAYS) % CW_WEEKDAYS;
}

bool cw_date_read(const char *text, int *day)
{
    int parts[3] = {0, 0, 0};
    static const int digits[3] = {4, 2, 2};
    for (int p = 0; p < 3; p++) {
        for (int i = 0; i < digits[p]; i++, text++) {
            if (*text < '0' || *text > '9')
                return false;
            parts[p] = parts[p] * 10 + (*text - '0');
        }
        if (p < 2 && *text++ != '-')
            return false;
    }
    if (*text != '\0' || parts[0] < FIRST_YEAR || parts[0] > LAST_YEAR || parts[1] < 1 ||
        parts[1] > MONTHS || parts[2] < 1 || parts[2] > month_days(parts[0], parts[1]))
        return false;
    *day = cw_date_day(parts[0], parts[1], parts[2]);
    return true;
}

const char *cw_date_print(cw_arena *arena, int day)
{
    int year = FIRST_YEAR, month = 1;
    while (year < LAST_YEAR && cw_date_day(year + 1, 1, 1) <= day)
        year++;
    while (month < MONTHS && cw_date_day(year, month + 1, 1) <= day)
        month++;
    return cw_arena_print(arena, "%04d-%02d-%02d", year, month,
                          day - cw_date_day(year, month, 1) + 1);
}
