#include "sitewater_internal.h"

#include <math.h>

#include "cw/units.h"

/* Velocity over the square root of the slope, ft/s: TR-55 (1986), app. F. */
#define SHALLOW_UNPAVED_FPS 16.1345
#define SHALLOW_PAVED_FPS 20.3282
/* TR-55 prints its Manning factor to three digits. */
#define TR55_MANNING_FT 1.49
/* Least time of concentration of TR-55: 0.1 h. */
#define LEAST_MIN 6.0

static const char tr55[] = "NRCS TR-55 (1986), ch. 3";
static const char practice[] = "common practice";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_travel_input, member)
/* Left out, a value stays 0; a part with a length needs it. */
#define PART(key, symbol, dim, low, high, meaning, member)                                         \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, NULL, false, meaning, NULL, NULL,             \
            offsetof(cw_travel_input, member), CW_NO_FLAG                                          \
    }

static const cw_field inputs[] = {
    IN("sheet", "L_s", CW_DIM_FT, 0.0, 100.0, "0 ft", "length of sheet flow",
       "100 ft at most: NRCS practice after TR-55, from memory, not verified", sheet_ft),
    PART("sheet_n", "n_s", CW_DIM_NONE, 0.0, 1.0,
         "Manning n for sheet flow: smooth 0.011, short grass 0.15, dense grass 0.24, woods 0.40 "
         "to 0.80",
         sheet_n),
    PART("rain", "P_2", CW_DIM_IN, 0.0, 20.0, "2-year, 24-hour rain", rain_in),
    PART("sheet_slope", "s_s", CW_DIM_SLOPE, 0.0, 1.0, "slope of the sheet flow", sheet_slope),
    IN("shallow", "L_c", CW_DIM_FT, 0.0, 20000.0, "0 ft", "length of shallow concentrated flow",
       practice, shallow_ft),
    PART("shallow_slope", "s_c", CW_DIM_SLOPE, 0.0, 1.0, "its slope", shallow_slope),
    FLAG_IN("paved", "no", "the shallow flow runs on pavement", practice, cw_travel_input, paved),
    IN("channel", "L_k", CW_DIM_FT, 0.0, 200000.0, "0 ft", "length of channel", practice,
       channel_ft),
    PART("channel_n", "n", CW_DIM_NONE, 0.0, 0.3, "Manning n of the channel", channel_n),
    PART("channel_slope", "S", CW_DIM_SLOPE, 0.0, 1.0, "its slope", channel_slope),
    PART("channel_area", "A", CW_DIM_SQFT, 0.0, 20000.0, "its flow area, bank full", channel_sqft),
    PART("channel_perimeter", "P_w", CW_DIM_FT, 0.0, 2000.0, "its wetted perimeter",
         channel_wet_ft),
};

static const cw_field outputs[] = {
    OUT("sheet_time", "T_s", CW_DIM_MIN, "sheet flow", cw_travel, sheet_min),
    OUT("shallow_velocity", "V_c", CW_DIM_FPS, "shallow flow", cw_travel, shallow_fps),
    OUT("shallow_time", "T_c", CW_DIM_MIN, "shallow flow", cw_travel, shallow_min),
    OUT("channel_velocity", "V", CW_DIM_FPS, "channel", cw_travel, channel_fps),
    OUT("channel_time", "T_k", CW_DIM_MIN, "channel", cw_travel, channel_min),
    OUT("time", "T", CW_DIM_MIN, "time of concentration, 6 min at least", cw_travel, total_min),
};

/* One part: its values must be above 0 when it has a length. */
static bool part_given(const char *part, double length_ft, const double *values,
                       const char *const *keys, int count, cw_pos where, cw_diags *diags)
{
    bool good = true;
    for (int i = 0; length_ft > 0.0 && i < count; i++) {
        if (values[i] > 0.0)
            continue;
        cw_diag_add(diags, where, CW_E_MISSING,
                    "%s has a length of %.6g ft and no %s; give %s above 0", part, length_ft,
                    keys[i], keys[i]);
        good = false;
    }
    return good;
}

bool cw_travel_input_valid(const cw_travel_input *in, cw_pos where, cw_diags *diags)
{
    static const char *const sheet[] = {"sheet_n", "rain", "sheet_slope"};
    static const char *const shallow[] = {"shallow_slope"};
    static const char *const channel[] = {"channel_n", "channel_slope", "channel_area",
                                          "channel_perimeter"};
    const double sheet_values[] = {in->sheet_n, in->rain_in, in->sheet_slope};
    const double channel_values[] = {in->channel_n, in->channel_slope, in->channel_sqft,
                                     in->channel_wet_ft};
    bool good = cw_fields_in_range(inputs, COUNT(inputs), in, where, diags);
    good = part_given("sheet", in->sheet_ft, sheet_values, sheet, 3, where, diags) && good;
    good =
        part_given("shallow", in->shallow_ft, &in->shallow_slope, shallow, 1, where, diags) && good;
    good = part_given("channel", in->channel_ft, channel_values, channel, 4, where, diags) && good;
    if (good && !(in->sheet_ft + in->shallow_ft + in->channel_ft > 0.0)) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "no part of the way has a length; give sheet, shallow or channel");
        good = false;
    }
    return good;
}

cw_travel cw_sitewater_travel(const cw_travel_input *in, cw_working *working)
{
    cw_travel out = {.total_min = 0.0};
    if (in->sheet_ft > 0.0)
        out.sheet_min = cw_step_add(working, "T_s", "0.007 (n_s L_s)^0.8 / (P_2^0.5 s_s^0.4), h",
                                    CW_MIN_PER_HOUR * 0.007 * pow(in->sheet_n * in->sheet_ft, 0.8) /
                                        (sqrt(in->rain_in) * pow(in->sheet_slope, 0.4)),
                                    CW_DIM_MIN, tr55);
    if (in->shallow_ft > 0.0) {
        const double factor_fps = in->paved ? SHALLOW_PAVED_FPS : SHALLOW_UNPAVED_FPS;
        out.shallow_fps =
            cw_step_add(working, "V_c", in->paved ? "20.3282 s_c^0.5" : "16.1345 s_c^0.5",
                        factor_fps * sqrt(in->shallow_slope), CW_DIM_FPS, tr55);
        out.shallow_min =
            cw_step_add(working, "T_c", "L_c / V_c",
                        in->shallow_ft / out.shallow_fps / CW_S_PER_MIN, CW_DIM_MIN, tr55);
    }
    if (in->channel_ft > 0.0) {
        const double radius_ft = in->channel_sqft / in->channel_wet_ft;
        out.channel_fps = cw_step_add(working, "V", "1.49 / n (A/P_w)^(2/3) S^0.5",
                                      TR55_MANNING_FT / in->channel_n * pow(radius_ft, 2.0 / 3.0) *
                                          sqrt(in->channel_slope),
                                      CW_DIM_FPS, tr55);
        out.channel_min =
            cw_step_add(working, "T_k", "L_k / V", in->channel_ft / out.channel_fps / CW_S_PER_MIN,
                        CW_DIM_MIN, tr55);
    }
    const double sum_min = out.sheet_min + out.shallow_min + out.channel_min;
    out.total_min = cw_step_add(working, "T", "T_s + T_c + T_k, 6 min at least",
                                fmax(LEAST_MIN, sum_min), CW_DIM_MIN, tr55);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_travel_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_travel *)output = cw_sitewater_travel(input, working);
}

const cw_calc cw_calc_time_of_concentration = {
    .name = "time-of-concentration",
    .title = "Time of concentration",
    .group = "sitewater",
    .about = "Time of travel from the far end of the area: sheet flow, then shallow concentrated "
             "flow, then a channel that runs bank full.  Storage in ponds is not counted.",
    .source = "NRCS TR-55 (1986), ch. 3; factors of shallow flow from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_travel_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_travel),
    .valid = valid,
    .run = run,
    .example = "sheet=100ft sheet_n=0.24 rain=3.6in sheet_slope=1% shallow=1400ft shallow_slope=1% "
               "channel=7300ft channel_n=0.05 channel_slope=0.5% channel_area=27ft2 "
               "channel_perimeter=28.2ft",
};
