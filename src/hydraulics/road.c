/* Flow over the road: a broad weir with a sloped crest, panel by panel. */
#include <math.h>
#include <stdio.h>

#include "hydraulics_internal.h"

static bool read_row(const cw_rows *rows, const char *surface, const char *what, int index,
                     double *value)
{
    char id[64];
    snprintf(id, sizeof id, "weir.%s.%s_%d", surface, what, index + 1);
    const cw_row *row = cw_rows_find(rows, id);
    if (row)
        *value = row->value;
    return row != NULL;
}

bool cw_water_weir_rows(const cw_rows *rows, cw_water_surface surface, cw_water_weir *weir)
{
    const char *name = surface == CW_WATER_GRAVEL ? "gravel" : "paved";
    *weir = (cw_water_weir){0};
    for (int i = 0; i < CW_WATER_WEIR_MAX; i++) {
        if (!read_row(rows, name, "head", i, &weir->head_ft[i]) ||
            !read_row(rows, name, "factor", i, &weir->factor[i]))
            break;
        weir->head_count++;
    }
    for (int i = 0; i < CW_WATER_WEIR_MAX; i++) {
        if (!read_row(rows, name, "ratio", i, &weir->ratio[i]) ||
            !read_row(rows, name, "reduction", i, &weir->reduction[i]))
            break;
        weir->ratio_count++;
    }
    return weir->head_count > 0 && weir->ratio_count > 0;
}

cw_water_weir cw_water_weir_own(double factor, const cw_water_weir *reduction)
{
    cw_water_weir weir = *reduction;
    weir.head_count = 1;
    weir.head_ft[0] = 0.0;
    weir.factor[0] = factor;
    return weir;
}

static double look_up(const double *at, const double *value, int count, double x)
{
    if (x <= at[0])
        return value[0];
    for (int i = 1; i < count; i++)
        if (x < at[i])
            return value[i - 1] + (value[i] - value[i - 1]) * (x - at[i - 1]) / (at[i] - at[i - 1]);
    return value[count - 1];
}

static double reduction_of(const cw_water_weir *weir, double ratio)
{
    const int last = weir->ratio_count - 1;
    if (ratio > weir->ratio[last])
        return weir->reduction[last] * fmax(1.0 - ratio, 0.0) / (1.0 - weir->ratio[last]);
    return look_up(weir->ratio, weir->reduction, weir->ratio_count, ratio);
}

static bool rises(const double *at, int count)
{
    for (int i = 1; i < count; i++)
        if (!(at[i] > at[i - 1]))
            return false;
    return true;
}

static bool weir_good(const cw_water_weir *weir)
{
    if (weir->head_count < 1 || weir->head_count > CW_WATER_WEIR_MAX || weir->ratio_count < 1 ||
        weir->ratio_count > CW_WATER_WEIR_MAX)
        return false;
    for (int i = 0; i < weir->head_count; i++)
        if (!(weir->factor[i] > 0.1 && weir->factor[i] < 10.0) ||
            (i > 0 && weir->factor[i] < weir->factor[i - 1]))
            return false;
    for (int i = 0; i < weir->ratio_count; i++)
        if (!(weir->reduction[i] > 0.0 && weir->reduction[i] <= 1.0) ||
            !(weir->ratio[i] >= 0.0 && weir->ratio[i] < 1.0) ||
            (i > 0 && weir->reduction[i] > weir->reduction[i - 1]))
            return false;
    return rises(weir->head_ft, weir->head_count) && rises(weir->ratio, weir->ratio_count);
}

cw_water_status cw_water_road_check(const cw_water_road *road)
{
    if (!road->points || road->count < 2 || !weir_good(&road->weir))
        return CW_WATER_BAD_ROAD;
    for (int i = 0; i < road->count; i++) {
        const cw_water_crest *at = &road->points[i];
        if (!isfinite(at->x_ft) || !isfinite(at->z_ft) || (i > 0 && at->x_ft < at[-1].x_ft))
            return CW_WATER_BAD_ROAD;
    }
    return road->points[road->count - 1].x_ft > road->points[0].x_ft ? CW_WATER_OK
                                                                     : CW_WATER_BAD_ROAD;
}

double cw_water_road_low_ft(const cw_water_road *road)
{
    double low = road->points[0].z_ft;
    for (int i = 1; i < road->count; i++)
        low = fmin(low, road->points[i].z_ft);
    return low;
}

static double power_five_halves(double h)
{
    return h * h * sqrt(h);
}

/* Below this part of the head the crest counts as level: the difference of two powers would lose
 * its digits. */
#define LEVEL_RATIO 1e-4

typedef struct panel {
    double flow_cfs, length_ft, head_ft, submergence;
} panel;

/* The integral of h^1.5 along a straight crest, h2 and h1 being the heads at the ends of its wet
 * part: 0.4 (h2^2.5 - h1^2.5)/grade.  Factor and submergence go by the mean head of the wet part.
 */
static panel over_panel(const cw_water_weir *weir, double width_ft, const double head_ft[2],
                        double excess_ft)
{
    const double high = fmax(head_ft[0], head_ft[1]);
    const double low = fmax(fmin(head_ft[0], head_ft[1]), 0.0);
    if (!(high > 0.0))
        return (panel){0};
    const double rise = fabs(head_ft[0] - head_ft[1]);
    const double length = rise > 0.0 ? width_ft * fmin((high - low) / rise, 1.0) : width_ft;
    const double mean = 0.5 * (high + low);
    const double integral =
        high - low <= LEVEL_RATIO * high
            ? length * mean * sqrt(mean)
            : 0.4 * (power_five_halves(high) - power_five_halves(low)) * length / (high - low);
    const double submergence = fmax(1.0 - excess_ft / mean, 0.0);
    return (panel){
        .flow_cfs = look_up(weir->head_ft, weir->factor, weir->head_count, mean) *
                    reduction_of(weir, submergence) * integral,
        .length_ft = length,
        .head_ft = high,
        .submergence = submergence,
    };
}

cw_water_over cw_water_road_over(const cw_water_road *road, double pool_ft, double tail_ft)
{
    const cw_water_crest *points = road->points;
    const int last = road->count - 1;
    const double excess = fmax(pool_ft - tail_ft, 0.0);
    cw_water_over over = {.depth_ft = fmax(pool_ft - cw_water_road_low_ft(road), 0.0)};
    double most = 0.0;
    for (int i = 0; i < last && over.depth_ft > 0.0; i++) {
        const double heads[2] = {pool_ft - points[i].z_ft, pool_ft - points[i + 1].z_ft};
        const panel part =
            over_panel(&road->weir, points[i + 1].x_ft - points[i].x_ft, heads, excess);
        over.flow_cfs += part.flow_cfs;
        over.length_ft += part.length_ft;
        if (part.flow_cfs > most) {
            most = part.flow_cfs;
            over.submergence = part.submergence;
        }
    }
    /* Critical velocity at two thirds of the greatest head: sqrt(2/3 g h). */
    over.velocity_fps = sqrt(CW_WATER_GRAVITY * over.depth_ft * 2.0 / 3.0);
    over.past_ends = pool_ft > points[0].z_ft || pool_ft > points[last].z_ft;
    return over;
}
