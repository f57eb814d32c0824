/* Calendar of work that needs so many workable days, each good or bad by chance. */
#include "schedule_internal.h"

#include <math.h>

enum { NEEDED_MAX = 120, DAYS_MAX = 8000 };

static const char chain[] = "statistics: two-state chain that keeps the share; without persistence "
                            "the negative binomial law";

static const cw_field weather_inputs[] = {
    COUNT_IN("needed", "W", 1, NEEDED_MAX, NULL, "workable days that the work takes",
             "common practice", cw_weather_days_input, needed),
    NUMBER_IN("good", "p", CW_DIM_NONE, 0.2, 1.0, NULL, "share of days that are workable",
              "common practice", cw_weather_days_input, good),
    NUMBER_IN("persistence", "r", CW_DIM_NONE, 0.0, 0.9, "0",
              "correlation of a day with the next: weather comes in spells", "common practice",
              cw_weather_days_input, persistence),
    OPTION_IN("by", "n", CW_DIM_NONE, 0.0, 2000.0, "days that are there", "common practice",
              cw_weather_days_input, by_days, has_by),
};

static const cw_field weather_outputs[] = {
    OUT("mean", NULL, CW_DIM_NONE, "days", cw_weather_days, mean_days),
    OUT("sd", NULL, CW_DIM_NONE, "days", cw_weather_days, sd_days),
    OUT("p10", NULL, CW_DIM_NONE, "days that are enough one time in ten", cw_weather_days,
        p10_days),
    OUT("p50", NULL, CW_DIM_NONE, "one time in two", cw_weather_days, p50_days),
    OUT("p80", NULL, CW_DIM_NONE, "four times in five", cw_weather_days, p80_days),
    OUT("p90", NULL, CW_DIM_NONE, "nine times in ten", cw_weather_days, p90_days),
    OPTION_OUT("by_share", NULL, CW_DIM_NONE, "chance to be done by then", cw_weather_days,
               by_share, has_by),
};

/* Chance of g good days so far with the last day good or bad. */
typedef struct odds {
    double good[NEEDED_MAX], bad[NEEDED_MAX];
} odds;

/* One day on; the chance that the last needed day was this one. */
static double next_day(odds *o, const cw_weather_days_input *in, int day)
{
    const double p = in->good, r = in->persistence;
    const double after_good = p + r * (1.0 - p), after_bad = p * (1.0 - r);
    double finished = 0.0, from_below = 0.0;
    for (int g = 0; g < in->needed; g++) {
        const double good = o->good[g], bad = o->bad[g];
        const double to_good = day == 0 && g == 0 ? p : good * after_good + bad * after_bad;
        o->bad[g] =
            day == 0 && g == 0 ? 1.0 - p : good * (1.0 - after_good) + bad * (1.0 - after_bad);
        o->good[g] = from_below;
        from_below = to_good;
        finished = to_good;
    }
    return finished;
}

static void find_percentiles(cw_weather_days *out, const cw_weather_days_input *in)
{
    static const double shares[4] = {0.1, 0.5, 0.8, 0.9};
    double *const at[4] = {&out->p10_days, &out->p50_days, &out->p80_days, &out->p90_days};
    odds o = {{0.0}, {0.0}};
    double done = 0.0;
    int found = 0;
    for (int day = 0; day < DAYS_MAX && (found < 4 || (out->has_by && day < in->by_days)); day++) {
        done += next_day(&o, in, day);
        while (found < 4 && cw_meets(shares[found], done))
            *at[found++] = day + 1;
        if (out->has_by && day + 1 <= in->by_days)
            out->by_share = fmin(1.0, done);
    }
}

cw_weather_days cw_schedule_weather_days(const cw_weather_days_input *in, cw_working *w)
{
    cw_weather_days out = {.has_by = in->has_by};
    const double p = in->good, q = p * (1.0 - in->persistence); // q: good after bad
    const double stop = (1.0 - p) * (1.0 - in->persistence);    // bad after good
    // Between good days: one day, and after a bad one a geometric count of mean 1/q more.
    const double first = 1.0 + (1.0 - p) / q, gap = 1.0 + stop / q;
    out.mean_days = cw_step_add(
        w, "D", "W/p, with the first spell: 1 + (1-p)/q + (W-1)(1 + (1-p)(1-r)/q), q = p(1-r)",
        first + (in->needed - 1) * gap, CW_DIM_NONE, chain);
    const double first_var = ((1.0 - p) * (2.0 - q) - (1.0 - p) * (1.0 - p)) / (q * q);
    const double gap_var = (stop * (2.0 - q) - stop * stop) / (q * q);
    out.sd_days =
        cw_step_add(w, "sd", "of the same sum of spells",
                    sqrt(fmax(0.0, first_var + (in->needed - 1) * gap_var)), CW_DIM_NONE, chain);
    find_percentiles(&out, in);
    cw_step_add(w, "P80", "first day by which the chance to be done is 0.8", out.p80_days,
                CW_DIM_NONE, chain);
    if (out.has_by)
        cw_step_add(w, "P(D <= n)", "chance summed day by day", out.by_share, CW_DIM_NONE, chain);
    return out;
}

static void run_weather(const void *input, void *output, cw_working *working)
{
    *(cw_weather_days *)output = cw_schedule_weather_days(input, working);
}

const cw_calc cw_calc_weather_days = {
    .name = "weather-days",
    .title = "Days for work that weather stops",
    .group = "schedule",
    .about = "The days are those on which one would work; weekends come on top.  A contract counts "
             "only weather worse than "
             "it tables for the month: share and persistence from local records.",
    .source = "statistics: waiting time in a two-state chain",
    .inputs = weather_inputs,
    .input_count = COUNT(weather_inputs),
    .input_size = sizeof(cw_weather_days_input),
    .outputs = weather_outputs,
    .output_count = COUNT(weather_outputs),
    .output_size = sizeof(cw_weather_days),
    .run = run_weather,
    .example = "needed=10 good=0.8 by=14",
};
