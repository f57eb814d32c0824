/* Calendars and the clocks made of them. */
#include "schedule_internal.h"

#include <assert.h>

cw_calendar cw_calendar_elapsed(void)
{
    cw_calendar calendar = {.off_days = NULL};
    for (int i = 0; i < CW_WEEKDAYS; i++)
        calendar.work_min[i] = CW_DAY_MIN;
    return calendar;
}

cw_clock cw_clock_make(const cw_calendar *calendar, int first_day, int days, cw_arena *arena)
{
    assert(days > 0 && days <= CW_CLOCK_DAYS_MAX);
    int *start = CW_TAKE(arena, int, days), *work = CW_TAKE(arena, int, days);
    int64_t *before = CW_TAKE(arena, int64_t, days + 1);
    int next_off = 0;
    for (int d = 0; d < days; d++) {
        const int day = first_day + d, weekday = cw_date_weekday(day);
        while (next_off < calendar->off_count && calendar->off_days[next_off] < day)
            next_off++;
        const bool off = next_off < calendar->off_count && calendar->off_days[next_off] == day;
        start[d] = calendar->start_min[weekday];
        work[d] = off ? 0 : calendar->work_min[weekday];
        before[d + 1] = before[d] + work[d];
    }
    return (cw_clock){first_day, days, start, work, before};
}

/* Beginning of the window of day d. */
static int64_t opens(const cw_clock *clock, int d)
{
    return (int64_t)d * CW_DAY_MIN + clock->start_min[d];
}

int64_t cw_clock_worked(const cw_clock *clock, int64_t at_min)
{
    if (at_min <= 0)
        return 0;
    const int64_t day = at_min / CW_DAY_MIN;
    if (day > clock->days)
        return clock->before_min[clock->days];
    // A night window of the day before may still be open.
    const int first = day > 0 ? (int)day - 1 : 0;
    int64_t worked = clock->before_min[first];
    for (int d = first; d <= (int)day && d < clock->days; d++) {
        const int64_t into = at_min - opens(clock, d);
        worked += into < 0 ? 0 : into > clock->work_min[d] ? clock->work_min[d] : into;
    }
    return worked;
}

/* First day with before[d + 1] > work (upper) or >= work (lower); days when there is none. */
static int day_of(const cw_clock *clock, int64_t work, bool upper)
{
    int low = 0, high = clock->days;
    while (low < high) {
        const int middle = low + (high - low) / 2;
        const int64_t by_end = clock->before_min[middle + 1];
        if (upper ? by_end > work : by_end >= work)
            high = middle;
        else
            low = middle + 1;
    }
    return low;
}

static int64_t moment(const cw_clock *clock, int64_t work, bool upper)
{
    const int d = day_of(clock, work, upper);
    if (d == clock->days)
        return (int64_t)(clock->days + 1) * CW_DAY_MIN;
    return opens(clock, d) + work - clock->before_min[d];
}

int64_t cw_clock_begin(const cw_clock *clock, int64_t at_min)
{
    const int64_t begin = moment(clock, cw_clock_worked(clock, at_min), true);
    return begin > at_min ? begin : at_min;
}

int64_t cw_clock_finish(const cw_clock *clock, int64_t at_min, int64_t work_min)
{
    return work_min == 0 ? at_min : moment(clock, cw_clock_worked(clock, at_min) + work_min, false);
}

int64_t cw_clock_back(const cw_clock *clock, int64_t at_min, int64_t work_min)
{
    if (work_min == 0)
        return at_min;
    const int64_t from = cw_clock_worked(clock, at_min) - work_min;
    return from < 0
               ? from
               : moment(clock, from, true); // before the first day: as if it had been worked at
}

/* ---- calculator ---- */

static const char *const weekdays[] = {"monday", "tuesday",  "wednesday", "thursday",
                                       "friday", "saturday", "sunday",    NULL};

static const cw_field work_days_inputs[] = {
    NUMBER_IN("days", "w", CW_DIM_NONE, 0.01, 3000.0, NULL,
              "working days of the work, a part counts as one", "common practice",
              cw_work_days_input, days),
    CHOICE_IN("start", weekdays, "monday", "first day of the work", NULL, cw_work_days_input,
              start),
    COUNT_IN("days_per_week", NULL, 1, CW_WEEKDAYS, "5", "worked in each week, from Monday",
             "common practice", cw_work_days_input, days_per_week),
};

static const cw_field work_days_outputs[] = {
    COUNT_OUT("working_days", NULL, "whole days", cw_work_days, working),
    COUNT_OUT("calendar_days", NULL, "from the first day to the last, both counted", cw_work_days,
              calendar),
};

cw_work_days cw_schedule_work_days(const cw_work_days_input *in, cw_working *w)
{
    cw_work_days out = {.working = cw_count_up(in->days)};
    int left = out.working;
    // Every week has a working day, so seven times as many days are enough, and the first may wait
    // a week.
    for (int d = 0; left > 0 && d < CW_WEEKDAYS * (out.working + 1); d++) {
        out.calendar++;
        left -= (in->start + d) % CW_WEEKDAYS < in->days_per_week;
    }
    cw_step_add(w, "w", "days, counted up", out.working, CW_DIM_COUNT, "common practice");
    cw_step_add(w, "c", "walked day by day from the start", out.calendar, CW_DIM_COUNT,
                "derived: the calendar");
    return out;
}

static void run_work_days(const void *input, void *output, cw_working *working)
{
    *(cw_work_days *)output = cw_schedule_work_days(input, working);
}

const cw_calc cw_calc_work_days = {
    .name = "work-days",
    .title = "Calendar days of so many working days",
    .group = "schedule",
    .about = "Walks the week; holidays and weather are the job's.  The first day counts, also when "
             "it is a day off.",
    .source = "derived: the calendar",
    .inputs = work_days_inputs,
    .input_count = COUNT(work_days_inputs),
    .input_size = sizeof(cw_work_days_input),
    .outputs = work_days_outputs,
    .output_count = COUNT(work_days_outputs),
    .output_size = sizeof(cw_work_days),
    .run = run_work_days,
    .example = "days=48 start=monday days_per_week=5",
};
