/* Laws of durations: shares, quantiles and samplers. */
#include "schedule_internal.h"

#include <math.h>

const char *const cw_law_words[] = {"fixed", "triangular", "beta", "lognormal", NULL};

/* The sum of both shape parameters of the beta law is 6, whatever its three times. */
#define SHAPE_SUM 6.0

enum { FRACTION_TERMS = 200, NEWTON_STEPS = 200 };

double cw_normal_share(double z)
{
    return 0.5 * erfc(-z / sqrt(2.0));
}

double cw_normal_quantile(double share)
{
    if (share == 0.5)
        return 0.0;
    const double tail = fmin(share, 1.0 - share);
    // Abramowitz and Stegun 26.2.23, within 4.5e-4; then two steps of Halley's rule on erfc.
    const double t = sqrt(-2.0 * log(tail));
    double z = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
                       (1.0 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    for (int i = 0; i < 2; i++) {
        const double off = 0.5 * erfc(z / sqrt(2.0)) - tail;
        const double newton = off * sqrt(2.0 * CW_PI) * exp(0.5 * z * z);
        z += newton / (1.0 - 0.5 * z * newton);
    }
    return share < 0.5 ? -z : z;
}

bool cw_law_valid(const cw_law *law)
{
    switch (law->kind) {
    case CW_LAW_FIXED:
        return law->likely >= 0.0 && isfinite(law->likely);
    case CW_LAW_LOGNORMAL:
        return law->mean > 0.0 && isfinite(law->mean) && law->variation > 0.0 && law->variation <= 2.0;
    case CW_LAW_TRIANGULAR:
    case CW_LAW_BETA:
        return law->low >= 0.0 && law->low <= law->likely && law->likely <= law->high && law->low < law->high &&
               isfinite(law->high);
    default:
        return false;
    }
}

double cw_law_mean(const cw_law *law)
{
    switch (law->kind) {
    case CW_LAW_TRIANGULAR:
        return (law->low + law->likely + law->high) / 3.0;
    case CW_LAW_BETA:
        return (law->low + 4.0 * law->likely + law->high) / 6.0; // three-point estimate
    case CW_LAW_LOGNORMAL:
        return law->mean;
    default:
        return law->likely;
    }
}

double cw_law_variance(const cw_law *law)
{
    const double a = law->low, m = law->likely, b = law->high;
    const double mean = cw_law_mean(law);
    switch (law->kind) {
    case CW_LAW_TRIANGULAR:
        return (a * a + m * m + b * b - a * m - a * b - m * b) / 18.0;
    case CW_LAW_BETA:
        return (mean - a) * (b - mean) / (SHAPE_SUM + 1.0); // of a beta law with this sum of shapes
    case CW_LAW_LOGNORMAL:
        return mean * mean * law->variation * law->variation;
    default:
        return 0.0;
    }
}

/* ---- beta ---- */

static double shape_of(const cw_law *law)
{
    return 1.0 + (SHAPE_SUM - 2.0) * (law->likely - law->low) / (law->high - law->low);
}

/* Even part of the continued fraction of the incomplete beta function (Abramowitz and Stegun 26.5.8) by Lentz's rule. */
static double beta_fraction(double x, double p, double q)
{
    const double tiny = 1e-300;
    double c = 1.0, d = 1.0 - (p + q) * x / (p + 1.0);
    d = 1.0 / (fabs(d) < tiny ? tiny : d);
    double h = d;
    for (int m = 1; m <= FRACTION_TERMS; m++) {
        const double even = m * (q - m) * x / ((p + 2 * m - 1.0) * (p + 2 * m));
        d = 1.0 + even * d;
        d = 1.0 / (fabs(d) < tiny ? tiny : d);
        c = 1.0 + even / c;
        c = fabs(c) < tiny ? tiny : c;
        h *= d * c;
        const double odd = -(p + m) * (p + q + m) * x / ((p + 2 * m) * (p + 2 * m + 1.0));
        d = 1.0 + odd * d;
        d = 1.0 / (fabs(d) < tiny ? tiny : d);
        c = 1.0 + odd / c;
        c = fabs(c) < tiny ? tiny : c;
        h *= d * c;
        if (fabs(d * c - 1.0) < 1e-15)
            break;
    }
    return h;
}

static double beta_density(double x, double p)
{
    const double q = SHAPE_SUM - p;
    return pow(x, p - 1.0) * pow(1.0 - x, q - 1.0) * tgamma(SHAPE_SUM) / (tgamma(p) * tgamma(q));
}

/* Share under x of the beta law on 0..1 with shapes p and 6 - p. */
static double beta_share(double x, double p)
{
    if (x <= 0.0)
        return 0.0;
    if (x >= 1.0)
        return 1.0;
    const double q = SHAPE_SUM - p;
    const double front = beta_density(x, p) * x * (1.0 - x);
    // The fraction converges fast on this side of the mean.
    if (x < (p + 1.0) / (SHAPE_SUM + 2.0))
        return front * beta_fraction(x, p, q) / p;
    return 1.0 - front * beta_fraction(1.0 - x, q, p) / q;
}

/* Newton's rule kept inside a bracket that halves when it leaves. */
static double beta_quantile(double share, double p)
{
    double low = 0.0, high = 1.0, x = p / SHAPE_SUM;
    for (int i = 0; i < NEWTON_STEPS && high - low > 1e-15; i++) {
        const double off = beta_share(x, p) - share;
        if (off > 0.0)
            high = x;
        else
            low = x;
        const double slope = beta_density(x, p);
        double next = slope > 0.0 ? x - off / slope : -1.0;
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        if (fabs(next - x) <= 1e-15)
            return next;
        x = next;
    }
    return x;
}

/* ---- all laws ---- */

/* Mean and standard deviation of the logarithm. */
static void log_shape(const cw_law *law, double *middle, double *sd)
{
    const double square = log(1.0 + law->variation * law->variation);
    *middle = log(law->mean) - 0.5 * square;
    *sd = sqrt(square);
}

static double triangular_share(const cw_law *law, double value)
{
    const double a = law->low, m = law->likely, b = law->high;
    if (value <= a)
        return 0.0;
    if (value >= b)
        return 1.0;
    if (value < m)
        return (value - a) * (value - a) / ((b - a) * (m - a));
    return 1.0 - (b - value) * (b - value) / ((b - a) * (b - m));
}

double cw_law_share(const cw_law *law, double value)
{
    double middle, sd;
    switch (law->kind) {
    case CW_LAW_TRIANGULAR:
        return triangular_share(law, value);
    case CW_LAW_BETA:
        return beta_share((value - law->low) / (law->high - law->low), shape_of(law));
    case CW_LAW_LOGNORMAL:
        log_shape(law, &middle, &sd);
        return value <= 0.0 ? 0.0 : cw_normal_share((log(value) - middle) / sd);
    default:
        return value >= law->likely ? 1.0 : 0.0;
    }
}

static double triangular_quantile(const cw_law *law, double share)
{
    const double a = law->low, m = law->likely, b = law->high;
    if (share * (b - a) < m - a)
        return a + sqrt(share * (b - a) * (m - a));
    return b - sqrt((1.0 - share) * (b - a) * (b - m));
}

double cw_law_quantile(const cw_law *law, double share)
{
    double middle, sd;
    switch (law->kind) {
    case CW_LAW_TRIANGULAR:
        return triangular_quantile(law, share);
    case CW_LAW_BETA:
        return law->low + (law->high - law->low) * beta_quantile(share, shape_of(law));
    case CW_LAW_LOGNORMAL:
        log_shape(law, &middle, &sd);
        return exp(middle + sd * cw_normal_quantile(share));
    default:
        return law->likely;
    }
}

/* Three even grids: one over all, and a finer one over 1/32 at either end, where quantiles bend most. */
enum { END_CELLS = 256, EXACT_CELLS = 16, END_PART = 32, END_GRID = END_CELLS * END_PART };

cw_sampler cw_sampler_make(const cw_law *law, cw_arena *arena)
{
    cw_sampler sampler = {.law = *law};
    if (law->kind == CW_LAW_FIXED || law->kind == CW_LAW_TRIANGULAR)
        return sampler;
    double *grid = CW_TAKE(arena, double, CW_SAMPLER_CELLS + 1);
    double *low = CW_TAKE(arena, double, END_CELLS + 1), *high = CW_TAKE(arena, double, END_CELLS + 1);
    const int unused = CW_SAMPLER_CELLS / END_PART;
    for (int i = unused; i <= CW_SAMPLER_CELLS - unused; i++)
        grid[i] = cw_law_quantile(law, (double)i / CW_SAMPLER_CELLS);
    for (int i = EXACT_CELLS; i <= END_CELLS; i++) {
        low[i] = cw_law_quantile(law, (double)i / END_GRID);
        high[i] = cw_law_quantile(law, 1.0 - (double)i / END_GRID);
    }
    sampler.grid = grid;
    sampler.low_end = low;
    sampler.high_end = high;
    return sampler;
}

static double between_knots(const double *grid, double at)
{
    const int cell = (int)at;
    return grid[cell] + (grid[cell + 1] - grid[cell]) * (at - cell);
}

double cw_sampler_at(const cw_sampler *sampler, double share)
{
    if (!sampler->grid)
        return cw_law_quantile(&sampler->law, share);
    const double tail = share < 0.5 ? share : 1.0 - share;
    if (tail * END_PART >= 1.0)
        return between_knots(sampler->grid, share * CW_SAMPLER_CELLS);
    if (tail * END_GRID < EXACT_CELLS)
        return cw_law_quantile(&sampler->law, share); // one draw in 256
    return between_knots(share < 0.5 ? sampler->low_end : sampler->high_end, tail * END_GRID);
}
