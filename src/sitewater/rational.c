#include "sitewater_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

/* An acre inch in an hour: 43560/12/3600 ft3/s. */
#define CFS_PER_ACRE_IN_PER_H (CW_SQFT_PER_ACRE / CW_IN_PER_FT / CW_S_PER_HOUR)

static const char practice[] = "common practice";
static const char rational[] = "rational method, FHWA HEC-22 (from memory, not verified)";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_rational_input, member)

static const cw_field inputs[] = {
    IN("runoff", "C", CW_DIM_NONE, 0.02, 1.0, NULL, "runoff coefficient", rational, runoff),
    IN("rain", "i", CW_DIM_IN_PER_H, 0.01, 30.0, NULL, "intensity over the time of concentration",
       practice, rain_in_per_h),
    IN("area", "A", CW_DIM_ACRE, 0.01, 5000.0, NULL, "drained area", practice, area_acre),
    IN("storm_factor", "C_f", CW_DIM_NONE, 1.0, 1.5, "1",
       "on C: 1.1 for 25 years, 1.2 for 50, 1.25 for 100", rational, storm_factor),
    IN("season_share", "s", CW_DIM_PERCENT, 1.0, 100.0, "100 percent",
       "share of the yearly flow that the season of the work has", practice, season_percent),
    FLAG_IN("exact_units", "no", "1.008 cfs for an acre inch per hour, not 1", rational,
            cw_rational_input, exact_units),
};

static const cw_field outputs[] = {
    OUT("runoff_used", "C_u", CW_DIM_NONE, "runoff coefficient, 1 at most", cw_rational, runoff),
    OUT("peak", "Q_p", CW_DIM_CFS, "peak of the year", cw_rational, peak_cfs),
    OUT("flow", "Q", CW_DIM_CFS, "peak of the season", cw_rational, flow_cfs),
    CHOICE_OUT("range", cw_verdict_words, "the area is one the method is meant for", cw_rational,
               verdict),
};

bool cw_rational_input_valid(const cw_rational_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

cw_rational cw_sitewater_rational(const cw_rational_input *input, const cw_rows *rows,
                                  cw_working *working)
{
    cw_rational out = {.runoff = cw_step_add(working, "C_u", "C C_f, 1 at most",
                                             fmin(1.0, input->runoff * input->storm_factor),
                                             CW_DIM_NONE, rational)};
    const double unit = input->exact_units ? CFS_PER_ACRE_IN_PER_H : 1.0;
    out.peak_cfs = cw_step_add(
        working, "Q_p", input->exact_units ? "43560/(12 x 3600) C_u i A" : "C_u i A",
        unit * out.runoff * input->rain_in_per_h * input->area_acre, CW_DIM_CFS, rational);
    out.flow_cfs =
        cw_step_add(working, "Q", "s Q_p", out.peak_cfs * input->season_percent / CW_PERCENT,
                    CW_DIM_CFS, practice);
    const double most = cw_step_add(working, "A_max", "area up to which the method is meant",
                                    cw_rows_value(rows, "rational.area_max"), CW_DIM_ACRE,
                                    "from memory, not verified");
    out.verdict = cw_meets(input->area_acre, most) ? CW_HOLDS : CW_UNDECIDED;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_rational_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_rational *)output = cw_sitewater_rational(input, &cw_data, working);
}

const cw_calc cw_calc_rational_flow = {
    .name = "rational-flow",
    .title = "Peak flow by the rational method",
    .group = "sitewater",
    .about = "Peak from rain on a small area, and the share of it in the season of the work.  No "
             "storage, no snow, no flow that comes in from elsewhere.  The rain intensity must be "
             "that of the return period and of the time of concentration.",
    .source = "rational method, FHWA HEC-22 (from memory, not verified)",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_rational_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_rational),
    .valid = valid,
    .run = run,
    .example = "runoff=0.45 rain=3.2in/h area=24acres",
};
