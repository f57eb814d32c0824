#include "sitewater_internal.h"

#include <math.h>

#include "cw/units.h"

static const char bernoulli[] = "derived: independent periods of equal hazard";
static const char practice[] = "common practice";

static const cw_field inputs[] = {
    NUMBER_IN("return_period", "T", CW_DIM_NONE, 1.01, 1000.0, NULL,
              "of the flow, in periods: years, or seasons when the flow is a season's", practice,
              cw_risk_input, return_periods),
    NUMBER_IN("periods", "N", CW_DIM_NONE, 0.01, 200.0, "1",
              "that the work is exposed; 0.25 for three months of a year", practice, cw_risk_input,
              periods),
    OPTION_IN("accepted", "r", CW_DIM_PERCENT, 0.01, 99.0, "risk that is accepted", NULL,
              cw_risk_input, accepted_percent, has_accepted),
};

static const cw_field outputs[] = {
    OUT("risk", "R", CW_DIM_PERCENT, "of at least one flow above it", cw_risk, risk_percent),
    OPTION_OUT("needed_period", "T_r", CW_DIM_NONE, "return period that gives the accepted risk",
               cw_risk, needed_periods, has_accepted),
};

bool cw_risk_input_valid(const cw_risk_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

cw_risk cw_sitewater_risk(const cw_risk_input *in, cw_working *working)
{
    // expm1 and log1p keep the digits of small risks.
    cw_risk out = {.has_accepted = in->has_accepted,
                   .risk_percent = cw_step_add(
                       working, "R", "1 - (1 - 1/T)^N",
                       -CW_PERCENT * expm1(in->periods * log1p(-1.0 / in->return_periods)),
                       CW_DIM_PERCENT, bernoulli)};
    if (in->has_accepted)
        out.needed_periods =
            cw_step_add(working, "T_r", "1 / (1 - (1 - r)^(1/N))",
                        -1.0 / expm1(log1p(-in->accepted_percent / CW_PERCENT) / in->periods),
                        CW_DIM_NONE, bernoulli);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_risk_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_risk *)output = cw_sitewater_risk(input, working);
}

const cw_calc cw_calc_risk = {
    .name = "risk",
    .title = "Risk that the diversion flow is exceeded",
    .group = "sitewater",
    .about = "Chance of at least one exceedance while the work is exposed.  The hazard is taken as "
             "the same all year; records of the season are better.",
    .source = "derived: independent periods of equal hazard",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_risk_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_risk),
    .valid = valid,
    .run = run,
    .example = "return_period=2 periods=0.25 accepted=5%",
};
