/* Sets of places along a line. */
#include <assert.h>

#include "lifting_internal.h"

void cw_spans_clamp(cw_spans *spans, double from_ft, double to_ft)
{
    int kept = 0;
    for (int i = 0; i < spans->count; i++) {
        const double from = fmax(spans->items[i].from_ft, from_ft);
        const double to = fmin(spans->items[i].to_ft, to_ft);
        if (from <= to)
            spans->items[kept++] = (cw_setup_range){from, to};
    }
    spans->count = kept;
}

void cw_spans_cut(cw_spans *spans, double from_ft, double to_ft)
{
    if (!(from_ft < to_ft))
        return;
    int i = 0;
    while (i < spans->count && spans->items[i].to_ft <= from_ft)
        i++;
    while (i < spans->count && spans->items[i].from_ft < to_ft) {
        const cw_setup_range whole = spans->items[i];
        const bool before = whole.from_ft <= from_ft, after = whole.to_ft >= to_ft;
        if (before && after) {
            assert(spans->count < spans->capacity);
            for (int j = spans->count; j > i; j--)
                spans->items[j] = spans->items[j - 1];
            spans->count++;
            spans->items[i].to_ft = from_ft;
            spans->items[i + 1].from_ft = to_ft;
            return;
        }
        if (before) {
            spans->items[i++].to_ft = from_ft;
        } else if (after) {
            spans->items[i++].from_ft = to_ft;
        } else {
            for (int j = i + 1; j < spans->count; j++)
                spans->items[j - 1] = spans->items[j];
            spans->count--;
        }
    }
}

void cw_spans_reach(cw_spans *spans, double at_ft, double d_ft, double least_ft, double most_ft)
{
    if (!cw_meets(d_ft, most_ft)) {
        spans->count = 0;
        return;
    }
    const double far_ft = sqrt(fmax(0.0, most_ft * most_ft - d_ft * d_ft));
    const double near_ft = d_ft < least_ft ? sqrt(least_ft * least_ft - d_ft * d_ft) : 0.0;
    cw_spans_clamp(spans, at_ft - far_ft, at_ft + far_ft);
    cw_spans_cut(spans, at_ft - near_ft, at_ft + near_ft);
}

double cw_spans_nearest(const cw_spans *spans, double at_ft)
{
    double best_ft = spans->items[0].from_ft;
    for (int i = 0; i < spans->count; i++) {
        const double to = fmin(fmax(at_ft, spans->items[i].from_ft), spans->items[i].to_ft);
        if (fabs(to - at_ft) < fabs(best_ft - at_ft))
            best_ft = to;
    }
    return best_ft;
}
