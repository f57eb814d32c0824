/* Figures of many runs, and what each law does to the finish. */
#include "schedule_internal.h"
#include "setting_internal.h"

#include <math.h>
#include <stdlib.h>

static int by_size(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Value of rank ceil(p N), from 1. */
static double at_rank(const double *values, int count, double rank)
{
    const int r = cw_count_up(rank);
    return values[r < 1 ? 0 : r > count ? count - 1 : r - 1];
}

cw_figures cw_figures_of(double *values, int count)
{
    cw_figures out = {.count = count};
    if (count < 1)
        return out;
    qsort(values, (size_t)count, sizeof *values,
          by_size); // equal values are alike: any order is the same
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < count; i++)
        sum += values[i];
    out.mean = sum / count;
    for (int i = 0; i < count; i++)
        squares += (values[i] - out.mean) * (values[i] - out.mean);
    out.sd = count > 1 ? sqrt(squares / (count - 1)) : 0.0;
    out.p10 = at_rank(values, count, 0.1 * count);
    out.p50 = at_rank(values, count, 0.5 * count);
    out.p80 = at_rank(values, count, 0.8 * count);
    out.p90 = at_rank(values, count, 0.9 * count);
    // Ranks of a binomial count, normal approximation: N p -+ 1.96 sqrt(N p (1 - p)).
    const double band = cw_normal_quantile(0.975) * sqrt(count * 0.8 * 0.2);
    out.p80_low = at_rank(values, count, floor(0.8 * count - band));
    out.p80_high = at_rank(values, count, 0.8 * count + band);
    return out;
}

double cw_figures_share(const double *values, int count, double limit)
{
    int low = 0, high = count;
    while (low < high) {
        const int middle = low + (high - low) / 2;
        if (values[middle] <= limit)
            low = middle + 1;
        else
            high = middle;
    }
    return count > 0 ? (double)low / count : 0.0;
}

static int by_swing(const void *a, const void *b)
{
    const cw_finish_swing *x = a, *y = b;
    const double p = fabs(x->high_min - x->low_min), q = fabs(y->high_min - y->low_min);
    return p != q ? (p < q) - (p > q) : (x->law > y->law) - (x->law < y->law);
}

void cw_setting_swings(const cw_setting *setting, cw_setting_scratch *scratch, double *share,
                       cw_finish_swing *swings)
{
    const int laws = setting->job.law_count;
    for (int i = 0; i < laws; i++)
        share[i] = 0.5;
    for (int i = 0; i < laws; i++) {
        swings[i].law = i;
        share[i] = 0.1;
        swings[i].low_min = cw_setting_fixed(setting, share, scratch).finish_min;
        share[i] = 0.9;
        swings[i].high_min = cw_setting_fixed(setting, share, scratch).finish_min;
        share[i] = 0.5;
    }
    qsort(swings, (size_t)laws, sizeof *swings, by_swing);
}
