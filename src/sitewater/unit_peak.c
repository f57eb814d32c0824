#include "sitewater_internal.h"

#include <math.h>
#include <stdio.h>

#include "cw/units.h"

static const char tr55[] = "NRCS TR-55 (1986)";
static const char chart[] = "NRCS TR-55 (1986), app. F (from memory, not verified)";
static const char practice[] = "common practice";

/* The table holds for times of concentration from 0.1 to 10 h. */
#define TIME_LOW_H 0.1
#define TIME_HIGH_H 10.0

static const char *const types[] = {"I", "IA", "II", "III", NULL};

enum { RATIOS_MAX = 8, PONDS = 5, COEFFICIENTS = 3, ID_MAX = 40 };

/* Ia/P of the curves of each rain type, in hundredths, as the row ids name them. */
static const struct {
    int count, hundredths[RATIOS_MAX];
} curves[CW_RAIN_TYPES] = {
    [CW_RAIN_I] = {8, {10, 20, 25, 30, 35, 40, 45, 50}},
    [CW_RAIN_IA] = {5, {10, 20, 25, 30, 50}},
    [CW_RAIN_II] = {6, {10, 30, 35, 40, 45, 50}},
    [CW_RAIN_III] = {6, {10, 30, 35, 40, 45, 50}},
};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_unit_peak_input, member)

static const cw_field inputs[] = {
    IN("area", "A", CW_DIM_ACRE, 1.0, 64000.0, NULL, "drained area", practice, area_acre),
    IN("time", "T", CW_DIM_MIN, 1.0, 1800.0, NULL, "time of concentration", practice, time_min),
    IN("rain", "P", CW_DIM_IN, 0.1, 40.0, NULL, "24-hour rain of the return period", practice,
       rain_in),
    IN("curve_number", "CN", CW_DIM_NONE, 30.0, 99.0, NULL, "of soil and cover", tr55,
       curve_number),
    CHOICE_IN("rain_type", types, "II", "rain distribution", practice, cw_unit_peak_input,
              rain_type),
    IN("ponds", "p", CW_DIM_PERCENT, 0.0, 5.0, "0 percent",
       "ponds and swamps spread through the area", tr55, pond_percent),
    IN("season_share", "s", CW_DIM_PERCENT, 1.0, 100.0, "100 percent",
       "share of the yearly flow that the season of the work has", practice, season_percent),
};

static const cw_field outputs[] = {
    OUT("runoff_inches", "Q_r", CW_DIM_NONE, "depth of runoff, inches", cw_unit_peak, runoff_in),
    OUT("loss_ratio", "Ia/P", CW_DIM_NONE, "first loss over rain", cw_unit_peak, loss_ratio),
    OUT("unit_peak", "q_u", CW_DIM_NONE, "cfs for a square mile and an inch of runoff",
        cw_unit_peak, csm_per_in),
    OUT("peak", "Q_p", CW_DIM_CFS, "peak of the year", cw_unit_peak, peak_cfs),
    OUT("flow", "Q", CW_DIM_CFS, "peak of the season", cw_unit_peak, flow_cfs),
    CHOICE_OUT("range", cw_verdict_words, "time and loss ratio lie within the table", cw_unit_peak,
               verdict),
};

bool cw_unit_peak_input_valid(const cw_unit_peak_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

/* log10 qu = C0 + C1 log10 T + C2 (log10 T)^2, T in hours. */
static double curve_csm_per_in(const cw_rows *rows, int type, int hundredths, double time_h)
{
    double c[COEFFICIENTS];
    for (int i = 0; i < COEFFICIENTS; i++) {
        char id[ID_MAX];
        snprintf(id, sizeof id, "unit_peak.%s.%d.c%d", types[type], hundredths, i);
        c[i] = cw_rows_value(rows, id);
    }
    const double x = log10(time_h);
    return pow(10.0, c[0] + c[1] * x + c[2] * x * x);
}

/* Straight between the curves on either side; the end curves beyond them. */
static double unit_peak_csm_per_in(const cw_rows *rows, int type, double loss_ratio, double time_h)
{
    const int *at = curves[type].hundredths;
    const int last = curves[type].count - 1;
    const double x = fmin(fmax(loss_ratio * CW_PERCENT, at[0]), at[last]);
    int i = 0;
    while (i < last - 1 && x > at[i + 1])
        i++;
    const double low = curve_csm_per_in(rows, type, at[i], time_h);
    const double high = curve_csm_per_in(rows, type, at[i + 1], time_h);
    return low + (high - low) * (x - at[i]) / (at[i + 1] - at[i]);
}

static double pond_factor(const cw_rows *rows, double pond_percent)
{
    static const int hundredths[PONDS] = {0, 20, 100, 300, 500};
    double factor[PONDS];
    for (int i = 0; i < PONDS; i++) {
        char id[ID_MAX];
        snprintf(id, sizeof id, "unit_peak.pond.%d", hundredths[i]);
        factor[i] = cw_rows_value(rows, id);
    }
    const double x = pond_percent * CW_PERCENT;
    int i = 0;
    while (i < PONDS - 2 && x > hundredths[i + 1])
        i++;
    return factor[i] +
           (factor[i + 1] - factor[i]) * (x - hundredths[i]) / (hundredths[i + 1] - hundredths[i]);
}

static bool in_table(const cw_unit_peak_input *in, double loss_ratio)
{
    const int *at = curves[in->rain_type].hundredths;
    const double x = loss_ratio * CW_PERCENT, time_h = in->time_min / CW_MIN_PER_HOUR;
    return x >= at[0] && x <= at[curves[in->rain_type].count - 1] && time_h >= TIME_LOW_H &&
           time_h <= TIME_HIGH_H;
}

cw_unit_peak cw_sitewater_unit_peak(const cw_unit_peak_input *in, const cw_rows *rows,
                                    cw_working *working)
{
    const double store_in = cw_step_add(working, "S", "1000/CN - 10, inches",
                                        1000.0 / in->curve_number - 10.0, CW_DIM_NONE, tr55);
    const double loss_in =
        cw_step_add(working, "Ia", "0.2 S, inches", 0.2 * store_in, CW_DIM_NONE, tr55);
    const double net_in = fmax(0.0, in->rain_in - loss_in);
    cw_unit_peak out = {.loss_ratio = cw_step_add(working, "Ia/P", "Ia / P", loss_in / in->rain_in,
                                                  CW_DIM_NONE, tr55)};
    out.runoff_in =
        cw_step_add(working, "Q_r", "(P - Ia)^2 / (P + 0.8 S), 0 while P < Ia, inches",
                    net_in * net_in / (in->rain_in + 0.8 * store_in), CW_DIM_NONE, tr55);
    const double time_h = fmin(fmax(in->time_min / CW_MIN_PER_HOUR, TIME_LOW_H), TIME_HIGH_H);
    out.csm_per_in = cw_step_add(
        working, "q_u", "10^(C0 + C1 log T + C2 (log T)^2), T in h, straight between the curves",
        unit_peak_csm_per_in(rows, in->rain_type, out.loss_ratio, time_h), CW_DIM_NONE, chart);
    const double factor = cw_step_add(working, "F_p", "factor of ponds and swamps",
                                      pond_factor(rows, in->pond_percent), CW_DIM_NONE, chart);
    out.peak_cfs =
        cw_step_add(working, "Q_p", "q_u A Q_r F_p, A in square miles",
                    out.csm_per_in * in->area_acre / CW_ACRE_PER_SQMI * out.runoff_in * factor,
                    CW_DIM_CFS, tr55);
    out.flow_cfs =
        cw_step_add(working, "Q", "s Q_p", out.peak_cfs * in->season_percent / CW_PERCENT,
                    CW_DIM_CFS, practice);
    out.verdict = in_table(in, out.loss_ratio) ? CW_HOLDS : CW_UNDECIDED;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_unit_peak_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_unit_peak *)output = cw_sitewater_unit_peak(input, &cw_data, working);
}

const cw_calc cw_calc_unit_peak_flow = {
    .name = "unit-peak-flow",
    .title = "Peak flow by curve number and unit peak",
    .group = "sitewater",
    .about = "Graphical peak discharge: runoff of a 24-hour rain by curve number, times the unit "
             "peak of the rain distribution.  One uniform area with one main stream.  Beyond the "
             "ends of the table the end curve is taken and the range is undecided.",
    .source = "NRCS TR-55 (1986), ch. 2 and 4, coefficients from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_unit_peak_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_unit_peak),
    .valid = valid,
    .run = run,
    .example = "area=250acres time=1.53h rain=6in curve_number=75 rain_type=II",
};
