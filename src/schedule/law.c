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
        return law->mean > 0.0 && isfinite(law->mean) && law->variation > 0.0 &&
               law->variation <= 2.0;
    case CW_LAW_TRIANGULAR:
    case CW_LAW_BETA:
        return law->low >= 0.0 && law->low <= law->likely && law->likely <= law->high &&
               law->low < law->high && isfinite(law->high);
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

/* Even part of the continued fraction of the incomplete beta function (Abramowitz and
 * Stegun 26.5.8) by Lentz's rule. */
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

/* The beta law on 0..1 with shapes p and q = 6 - p; scale is 1 over the beta function of both. */
typedef struct beta_law {
    double p, q, scale;
} beta_law;

static beta_law beta_of(const cw_law *law)
{
    const double p = 1.0 + (SHAPE_SUM - 2.0) * (law->likely - law->low) / (law->high - law->low),
                 q = SHAPE_SUM - p;
    return (beta_law){p, q, tgamma(SHAPE_SUM) / (tgamma(p) * tgamma(q))};
}

static double beta_density(const beta_law *b, double x)
{
    return pow(x, b->p - 1.0) * pow(1.0 - x, b->q - 1.0) * b->scale;
}

/* Share under x. */
static double beta_share(const beta_law *b, double x)
{
    if (x <= 0.0)
        return 0.0;
    if (x >= 1.0)
        return 1.0;
    const double front = beta_density(b, x) * x * (1.0 - x);
    // The fraction converges fast on this side of the mean.
    if (x < (b->p + 1.0) / (SHAPE_SUM + 2.0))
        return front * beta_fraction(x, b->p, b->q) / b->p;
    return 1.0 - front * beta_fraction(1.0 - x, b->q, b->p) / b->q;
}

/* Newton's rule from @p x, kept inside a bracket that halves when it leaves. */
static double beta_quantile(const beta_law *b, double share, double x)
{
    double low = 0.0, high = 1.0;
    for (int i = 0; i < NEWTON_STEPS && high - low > 1e-15; i++) {
        const double off = beta_share(b, x) - share;
        if (off > 0.0)
            high = x;
        else
            low = x;
        const double slope = beta_density(b, x);
        double next = slope > 0.0 ? x - off / slope : -1.0;
        if (!(next > low && next < high))
            next = 0.5 * (low + high);
        if (fabs(next - x) <= 1e-13)
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
    beta_law beta;
    switch (law->kind) {
    case CW_LAW_TRIANGULAR:
        return triangular_share(law, value);
    case CW_LAW_BETA:
        beta = beta_of(law);
        return beta_share(&beta, (value - law->low) / (law->high - law->low));
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
    beta_law beta;
    switch (law->kind) {
    case CW_LAW_TRIANGULAR:
        return triangular_quantile(law, share);
    case CW_LAW_BETA:
        beta = beta_of(law);
        return law->low + (law->high - law->low) * beta_quantile(&beta, share, beta.p / SHAPE_SUM);
    case CW_LAW_LOGNORMAL:
        log_shape(law, &middle, &sd);
        return exp(middle + sd * cw_normal_quantile(share));
    default:
        return law->likely;
    }
}

/* Grids: one over all, a finer one over the last 1/16 at either end, and a finer one yet over the
 * last 1/256, since quantiles bend most at the ends.  A knot holds value and slope for a cell, and
 * cubics lie between them. */
enum { CELLS = 64, EXACT_CELLS = 4, END_PART = 16 };

static const double tail_of[CW_SAMPLER_GRIDS] = {
    1.0, 1.0 / END_PART, 1.0 / END_PART, 1.0 / (END_PART * END_PART), 1.0 / (END_PART * END_PART)};

static double density_of(const cw_law *law, const beta_law *beta, double x)
{
    double middle, sd;
    if (law->kind == CW_LAW_BETA)
        return beta_density(beta, (x - law->low) / (law->high - law->low)) / (law->high - law->low);
    log_shape(law, &middle, &sd);
    const double z = (log(x) - middle) / sd;
    return exp(-0.5 * z * z) / (sqrt(2.0 * CW_PI) * sd * x);
}

/* Grid g, counted from its end: 0 from 0, odd ones from 0, even ones from 1 downwards. */
static void fill_grid(const cw_law *law, int g, cw_knot *knots)
{
    const bool from_top = g > 0 && g % 2 == 0;
    const double width = tail_of[g] / CELLS, range = law->high - law->low;
    const beta_law beta = law->kind == CW_LAW_BETA ? beta_of(law) : (beta_law){0.0, 0.0, 0.0};
    const int first = g > 2 ? EXACT_CELLS : CELLS / END_PART, last = g == 0 ? CELLS - first : CELLS;
    double x = beta.p / SHAPE_SUM;
    for (int i = first; i <= last; i++) {
        const double share = from_top ? 1.0 - i * width : i * width;
        if (law->kind == CW_LAW_BETA)
            x = beta_quantile(&beta, share, x); // begins at the knot before
        const double value =
            law->kind == CW_LAW_BETA ? law->low + range * x : cw_law_quantile(law, share);
        knots[i] = (cw_knot){value, (from_top ? -width : width) / density_of(law, &beta, value)};
    }
}

cw_sampler cw_sampler_make(const cw_law *law, cw_arena *arena)
{
    cw_sampler sampler = {.law = *law};
    if (law->kind == CW_LAW_FIXED || law->kind == CW_LAW_TRIANGULAR)
        return sampler;
    cw_knot *knots = CW_TAKE(arena, cw_knot, CW_SAMPLER_GRIDS * (CELLS + 1));
    for (int g = 0; g < CW_SAMPLER_GRIDS; g++)
        fill_grid(law, g, knots + g * (CELLS + 1));
    sampler.knots = knots;
    return sampler;
}

/* The cubic of Hermite through value and slope of both knots. */
static double between_knots(const cw_knot *knots, double at)
{
    const int cell = (int)at;
    const double t = at - cell;
    const cw_knot *a = &knots[cell], *b = a + 1;
    const double rise = b->value - a->value;
    const double c = a->slope - rise, d = rise - b->slope;
    return a->value + t * (rise + (1.0 - t) * (c * (1.0 - t) + d * t));
}

double cw_sampler_at(const cw_sampler *sampler, double share)
{
    if (!sampler->knots)
        return cw_law_quantile(&sampler->law, share);
    const double tail = share < 0.5 ? share : 1.0 - share;
    if (tail >= 1.0 / END_PART)
        return between_knots(sampler->knots, share * CELLS);
    const bool outer = tail < 1.0 / (END_PART * END_PART);
    const double at =
        tail * (outer ? (double)CELLS * END_PART * END_PART : (double)CELLS * END_PART);
    if (outer && at < EXACT_CELLS)
        return cw_law_quantile(&sampler->law, share); // one draw in 2048
    return between_knots(sampler->knots + ((outer ? 3 : 1) + (share >= 0.5)) * (CELLS + 1), at);
}
