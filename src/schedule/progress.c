/* Progress: earned value and earned schedule. */
#include "schedule_internal.h"

#include <math.h>

#define TYPE cw_progress_input
static const char earned_value[] = "earned value management";
static const char earned_schedule[] = "earned schedule (Lipke 2003; from memory, not verified)";
static const char limits[] = "common practice";

static const cw_field inputs[] = {
    LIST_IN("planned", "PV_i", CW_DIM_NONE, 0.0, 1e9, NULL,
            "value to be earned by the end of each period, rising; the last "
            "is all of it",
            limits, TYPE, planned),
    NUMBER_IN("periods", "AT", CW_DIM_NONE, 0.01, 1000.0, NULL, "gone by", limits, TYPE, periods),
    NUMBER_IN("earned", "EV", CW_DIM_NONE, 0.0, 1e9, NULL,
              "by now, with weights that were fixed before the start", limits, TYPE, earned),
    OPTION_IN("actual", "AC", CW_DIM_NONE, 0.01, 1e9, "cost so far, in the same units", limits,
              TYPE, actual, has_actual),
};

static const cw_field outputs[] = {
    OUT("planned_now", "PV", CW_DIM_NONE, "value to be earned by now", cw_progress, planned),
    OUT("variance", "SV", CW_DIM_NONE, "EV - PV", cw_progress, variance),
    OUT("index", "SPI", CW_DIM_NONE, "EV/PV; goes to 1 at the end of late work too", cw_progress,
        index),
    OUT("earned_periods", "ES", CW_DIM_NONE, "when this much was to be earned", cw_progress,
        earned_periods),
    OUT("time_index", "SPI_t", CW_DIM_NONE, "ES/AT", cw_progress, time_index),
    OUT("forecast", NULL, CW_DIM_NONE, "periods in all at this pace; 0 when nothing is earned",
        cw_progress, forecast_periods),
    OPTION_OUT("cost_variance", "CV", CW_DIM_NONE, "EV - AC", cw_progress, cost_variance, has_cost),
    OPTION_OUT("cost_index", "CPI", CW_DIM_NONE, "EV/AC", cw_progress, cost_index, has_cost),
    OPTION_OUT("cost_forecast", "EAC", CW_DIM_NONE, "BAC/CPI; 0 when nothing is earned",
               cw_progress, cost_forecast, has_cost),
    OPTION_OUT("to_go_index", "TCPI", CW_DIM_NONE,
               "(BAC - EV)/(BAC - AC); 0 when the budget is spent", cw_progress, to_go_index,
               has_cost),
};

bool cw_progress_input_valid(const cw_progress_input *in, cw_pos where, cw_diags *diags)
{
    const cw_list *p = &in->planned;
    bool good = p->count > 0 && p->items[p->count - 1] > 0.0;
    if (!good)
        cw_diag_add(diags, where, CW_E_MISSING,
                    "planned has no value above 0; give the value at the end of each period");
    for (int i = 1; i < p->count; i++)
        if (p->items[i] < p->items[i - 1]) {
            cw_diag_add(diags, where, CW_E_GEOMETRY,
                        "planned: value %d, %.6g, is below %.6g; give the sum so far", i + 1,
                        p->items[i], p->items[i - 1]);
            good = false;
        }
    if (good && !cw_meets(in->earned, p->items[p->count - 1])) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "earned %.6g is more than all there is, %.6g; correct one of them", in->earned,
                    p->items[p->count - 1]);
        good = false;
    }
    return good;
}

/* Planned value at a time, straight within a period. */
static double planned_at(const cw_list *p, double periods)
{
    const int whole = (int)periods;
    if (whole >= p->count)
        return p->items[p->count - 1];
    const double from = whole > 0 ? p->items[whole - 1] : 0.0;
    return from + (p->items[whole] - from) * (periods - whole);
}

/* Time at which this much was planned. */
static double time_of(const cw_list *p, double earned)
{
    int whole = 0;
    while (whole < p->count && p->items[whole] <= earned)
        whole++;
    if (whole == p->count) { // all of it: the end of the first period that has it
        while (whole > 1 && p->items[whole - 2] >= p->items[p->count - 1])
            whole--;
        return whole;
    }
    const double from = whole > 0 ? p->items[whole - 1] : 0.0;
    return whole + (earned - from) / (p->items[whole] - from);
}

static void by_cost(cw_progress *out, const cw_progress_input *in, double all, cw_working *w)
{
    out->cost_variance =
        cw_step_add(w, "CV", "EV - AC", in->earned - in->actual, CW_DIM_NONE, earned_value);
    out->cost_index =
        cw_step_add(w, "CPI", "EV/AC", in->earned / in->actual, CW_DIM_NONE, earned_value);
    out->cost_forecast =
        cw_step_add(w, "EAC", "BAC/CPI", in->earned > 0.0 ? all * in->actual / in->earned : 0.0,
                    CW_DIM_NONE, earned_value);
    out->to_go_index = cw_step_add(w, "TCPI", "(BAC - EV)/(BAC - AC)",
                                   in->actual < all ? (all - in->earned) / (all - in->actual) : 0.0,
                                   CW_DIM_NONE, earned_value);
}

cw_progress cw_schedule_progress(const cw_progress_input *in, cw_working *w)
{
    const cw_list *p = &in->planned;
    const double all = p->items[p->count - 1];
    cw_progress out = {.has_cost = in->has_actual};
    out.planned = cw_step_add(w, "PV", "straight within the period", planned_at(p, in->periods),
                              CW_DIM_NONE, earned_value);
    out.variance =
        cw_step_add(w, "SV", "EV - PV", in->earned - out.planned, CW_DIM_NONE, earned_value);
    out.index = cw_step_add(w, "SPI", "EV/PV", out.planned > 0.0 ? in->earned / out.planned : 1.0,
                            CW_DIM_NONE, earned_value);
    out.earned_periods = cw_step_add(w, "ES", "C + (EV - PV_C)/(PV_C+1 - PV_C)",
                                     time_of(p, in->earned), CW_DIM_NONE, earned_schedule);
    out.time_index = cw_step_add(w, "SPI_t", "ES/AT", out.earned_periods / in->periods, CW_DIM_NONE,
                                 earned_schedule);
    out.forecast_periods =
        cw_step_add(w, "forecast", "whole duration/SPI_t",
                    out.time_index > 0.0 ? time_of(p, all) / out.time_index : 0.0, CW_DIM_NONE,
                    earned_schedule);
    if (out.has_cost)
        by_cost(&out, in, all, w);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_progress_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_progress *)output = cw_schedule_progress(input, working);
}

const cw_calc cw_calc_progress = {
    .name = "progress",
    .title = "Late or early, and until when",
    .group = "schedule",
    .about = "Earned value and earned schedule from one curve of planned value.  Earn by state of "
             "the piece (delivered, set, "
             "checked, wrapped, covered), not by opinion.",
    .source = "earned value management; earned schedule",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(TYPE),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_progress),
    .valid = valid,
    .run = run,
    .example = "planned=10,30,60,90,100 periods=3 earned=45",
};
