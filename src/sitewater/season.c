/* Flow to lead round a short piece of winter work, by a local rule. */
#include "sitewater_internal.h"

#include "cw/units.h"

static const char manual[] = "Urban Storm Drainage Criteria Manual, vol. 3, sheet SM-8: Denver area, November to March";

/* How long the stream is led round. */
static const char *const lengths[] = {"two-weeks", "four-weeks", NULL};
static const char *const length_ids[] = {"season.two_weeks", "season.four_weeks"};

static const cw_field inputs[] = {
    NUMBER_IN("area", "A", CW_DIM_ACRE, 1.0, 1e6, NULL, "drained to the crossing", "common practice",
              cw_season_input, area_acre),
    CHOICE_IN("time", lengths, NULL, "how long the stream is led round, a month at most", manual, cw_season_input,
              length),
    NUMBER_IN("k", "K", CW_DIM_NONE, 0.01, 5.0, "@season.k", "flow of a square mile in winter, ft3/s", NULL,
              cw_season_input, k),
};

static const cw_field outputs[] = {
    OUT("flow", "Q", CW_DIM_CFS, "to lead round; more where more is seen on site", cw_season, flow_cfs),
};

bool cw_season_input_valid(const cw_season_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

cw_season cw_sitewater_season(const cw_season_input *in, const cw_rows *rows, cw_working *working)
{
    const double sqmi = in->area_acre / CW_ACRE_PER_SQMI;
    return (cw_season){cw_step_add(working, "Q", "S K A, A in square miles",
                                   cw_rows_value(rows, length_ids[in->length]) * in->k * sqmi, CW_DIM_CFS, manual)};
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_season_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_season *)output = cw_sitewater_season(input, &cw_data, working);
}

const cw_calc cw_calc_winter_flow = {
    .name = "winter-flow",
    .title = "Flow to lead round a short piece of winter work",
    .group = "sitewater",
    .about = "A local rule for work of up to a month between November and March.  Elsewhere and for longer work ask for a "
             "local rule or take the flow of a return period: see risk.  What is seen on site rules when it is more.",
    .source = manual,
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_season_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_season),
    .valid = valid,
    .run = run,
    .example = "area=3968acre time=two-weeks",
};
