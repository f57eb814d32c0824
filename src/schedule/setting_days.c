/* Days of a run: which are lost to weather, how the crews are, and how far work gets on them. */
#include "setting_internal.h"

#include <math.h>

/* Places of the numbers that belong to no step, far from the streams of steps. */
#define WEATHER_PLACE (UINT64_C(1) << 40)
#define DAY_PLACE (UINT64_C(2) << 40)
#define JOB_PLACE (UINT64_C(3) << 40)

enum { WEATHER_KINDS = 3, WEATHER_BITS = 15 };

/* Two states; the first day by the share, then with the given correlation to the day before. */
static bool bad_day(const cw_setting *s, const cw_setting_state *st, int day, int kind)
{
    static const unsigned bits[WEATHER_KINDS] = {CW_EXPOSED_RAIN, CW_EXPOSED_WIND, CW_EXPOSED_COLD};
    const cw_bad_days *law = kind == 0 ? &s->job.rain : kind == 1 ? &s->job.wind : &s->job.cold;
    if (law->share <= 0.0)
        return false;
    double chance = law->share;
    if (day > 0) {
        const bool before = st->weather[day - 1] & bits[kind];
        // Of a chain that keeps its share b: b + r(1 - b) after a bad day, b(1 - r) after a good
        // one.
        chance = before ? law->share + law->persistence * (1.0 - law->share)
                        : law->share * (1.0 - law->persistence);
    }
    return cw_random_share(st->stream,
                           WEATHER_PLACE + (uint64_t)day * WEATHER_KINDS + (uint64_t)kind) < chance;
}

static unsigned weather_of(const cw_setting *s, cw_setting_state *st, int day)
{
    if (day < st->weather_known)
        return st->weather[day];
    if (st->share)
        return 0; // a run without chance has no bad days
    for (; st->weather_known <= day; st->weather_known++) {
        const int d = st->weather_known;
        unsigned bits = 0;
        bits |= bad_day(s, st, d, 0) ? CW_EXPOSED_RAIN : 0U;
        bits |= bad_day(s, st, d, 1) ? CW_EXPOSED_WIND : 0U;
        bits |= bad_day(s, st, d, 2) ? CW_EXPOSED_COLD : 0U;
        bits |= d > 0 && (st->weather[d - 1] & CW_EXPOSED_RAIN) ? CW_EXPOSED_DRYING : 0U;
        st->weather[d] = (unsigned char)(bits & WEATHER_BITS);
    }
    return st->weather[day];
}

double cw_setting_advance(const cw_setting *s, cw_setting_state *st, const stretch *work, int day,
                          double *begin)
{
    const int days = s->job.clock.days;
    double left = work->minutes;
    bool begun = false;
    for (; day < days; day++) {
        const double from = work->at > s->opens[day] ? work->at : s->opens[day],
                     room = s->shuts[day] - from;
        if (room <= 0.0 || (work->exposed && (weather_of(s, st, day) & work->exposed)))
            continue;
        // What would not fit into any shift must be begun all the same.
        if (work->whole && !begun && left > room && left <= s->shuts[day] - s->opens[day])
            continue;
        if (!begun)
            *begin = from;
        begun = true;
        if (left <= room)
            return from + left;
        left -= room;
    }
    st->too_long = true;
    return work->at;
}

int cw_setting_open_day(const cw_setting *s, cw_setting_state *st, double at, unsigned exposed)
{
    // The window of the day before may run past midnight.
    int day = (int)(at * (1.0 / CW_DAY_MIN)) - 1;
    for (day = day < 0 ? 0 : day; day < s->job.clock.days; day++)
        if (s->shuts[day] > at && s->shuts[day] > s->opens[day] &&
            !(exposed && (weather_of(s, st, day) & exposed)))
            return day;
    return s->job.clock.days;
}

double cw_setting_worked(const cw_setting *s, double at)
{
    int day = (int)(at / CW_DAY_MIN) - 1;
    day = day < 0 ? 0 : day < s->job.clock.days ? day : s->job.clock.days;
    double worked = s->before[day];
    for (int last = day + 1; day <= last && day < s->job.clock.days; day++)
        worked += fmin(fmax(at - s->opens[day], 0.0), s->shuts[day] - s->opens[day]);
    return worked;
}

/* Lognormal with mean 1. */
static double factor(uint64_t stream, uint64_t place, double sd)
{
    return exp(sd * cw_normal_quantile(cw_random_share(stream, place)) - 0.5 * sd * sd);
}

double cw_setting_day_factor(const cw_setting *s, cw_setting_state *st, int day)
{
    if (st->share || s->day_sd <= 0.0 || day >= s->job.clock.days)
        return 1.0; // past the last day the step will not be begun
    if (st->day_factor[day] <= 0.0)
        st->day_factor[day] = factor(st->stream, DAY_PLACE + (uint64_t)day, s->day_sd);
    return st->day_factor[day];
}

double cw_setting_job_factor(const cw_setting *s, uint64_t stream)
{
    return s->job_sd <= 0.0 ? 1.0 : factor(stream, JOB_PLACE, s->job_sd);
}
