#include <assert.h>
#include <math.h>

#include "layout_internal.h"

static int common_divisor(int a, int b)
{
    while (b != 0) { // Euclid; b falls each round
        const int r = a % b;
        a = b;
        b = r;
    }
    return a;
}

int cw_layout_lattice(const layout_piece *pieces, int count)
{
    int lattice = 0;
    for (int i = 0; i < count; i++)
        lattice = common_divisor(lattice, pieces[i].length_16);
    return lattice;
}

// derived: n pieces with gap g end at (whole number of lattice steps) + (n - 1) g, so they end in
// place only when (end - (n - 1) g) modulo the lattice leaves no more than the width of the place.
static void mark_fits(layout_fits *fits)
{
    int rest = fits->rest; // for n = 0
    for (int n = 0; n < fits->period; n++) {
        fits->wait[n] = rest <= fits->width ? 0 : 1;
        rest -= fits->less;
        if (rest < 0)
            rest += fits->lattice;
    }
}

// From marks to distances, backward; a period repeats, so a second round carries the first count
// over the end.
static void fill_waits(layout_fits *fits)
{
    int wait = COUNT_TABLE;
    for (int round = fits->repeats ? 2 : 1; round > 0; round--)
        for (int n = fits->period - 1; n >= 0; n--) {
            const bool fit = fits->wait[n] == 0;
            wait = fit ? 0 : wait < COUNT_TABLE ? wait + 1 : COUNT_TABLE;
            fits->wait[n] = (short)wait;
        }
}

static const layout_fits *fits_of(layout_solver *solver, int lattice, const layout_gap *gap)
{
    assert(lattice > 0);
    const int less = gap->spread % lattice;
    const int rest = (gap->end_hi + gap->spread) % lattice;
    const int width = gap->end_hi - gap->end_lo;
    const unsigned place = (unsigned)lattice / 64u * 5u + (unsigned)less + (unsigned)rest * 3u;
    layout_fits *fits = &solver->fits[place % FITS_KEPT];
    if (fits->lattice == lattice && fits->less == less && fits->rest == rest &&
        fits->width == width)
        return fits;
    const int period = lattice / common_divisor(less, lattice);
    fits->lattice = lattice;
    fits->less = less;
    fits->rest = rest;
    fits->width = width;
    fits->repeats = period <= COUNT_TABLE;
    fits->period = fits->repeats ? period : COUNT_TABLE;
    mark_fits(fits);
    fill_waits(fits);
    return fits;
}

void cw_layout_count(layout_solver *solver, const layout_piece *pieces, int count,
                     const layout_gap *gap)
{
    layout_counts *counts = &solver->counts;
    const layout_cost length_price = solver->rules.length;
    counts->fits = fits_of(solver, cw_layout_lattice(pieces, count) * gap->scale, gap);
    counts->least_step = counts->most_step = pieces[0].length_16;
    counts->handling = COST_NONE;
    for (int i = 0; i < count; i++) {
        const int length_16 = pieces[i].length_16;
        const layout_cost handling = pieces[i].pick - length_price * length_16;
        counts->least_step = length_16 < counts->least_step ? length_16 : counts->least_step;
        counts->most_step = length_16 > counts->most_step ? length_16 : counts->most_step;
        counts->handling = handling < counts->handling ? handling : counts->handling;
    }
    counts->least_step = counts->least_step * gap->scale + gap->spread;
    counts->most_step = counts->most_step * gap->scale + gap->spread;
    counts->handling += gap->joint;
    counts->per_length = (double)length_price / gap->scale;
}

int cw_layout_count_fewest(const layout_counts *counts, const layout_gap *gap, int laid,
                           int position)
{
    const int least = gap->end_lo + gap->spread - position; // sum of the steps to come, at least
    const int most = gap->end_hi + gap->spread - position;
    int fewest = least > 0 ? (least + counts->most_step - 1) / counts->most_step : 1;
    fewest = fewest < 1 ? 1 : fewest;
    const int all = laid + fewest;
    const layout_fits *fits = counts->fits;
    if (!fits->repeats && all >= COUNT_TABLE)
        return 0;
    fewest += fits->wait[all % fits->period];
    return fewest > most / counts->least_step ? 0 : fewest;
}

layout_cost cw_layout_count_bound(const layout_counts *counts, const layout_gap *gap, int laid,
                                  int position)
{
    int pieces = cw_layout_count_fewest(counts, gap, laid, position);
    if (pieces == 0)
        return COST_NONE;
    // Gaps may be dearer than they save: then the bound falls with the count.
    if ((double)counts->handling < counts->per_length * gap->spread)
        pieces = (gap->end_hi + gap->spread - position) / counts->least_step;
    const double length =
        (double)(gap->end_lo + gap->spread - position) - (double)pieces * gap->spread;
    const double price = counts->per_length * (length > 0.0 ? length : 0.0);
    return pieces * counts->handling + (layout_cost)(price * (1.0 - 1e-12)) - gap->joint;
}
