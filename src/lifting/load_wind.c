/* Wind on a hanging piece. */
#include "lifting_internal.h"

static const char range[] = "common practice: range of pieces and weather";

/* Miles an hour in a foot a second. */
#define MPH_PER_FPS (CW_S_PER_HOUR / CW_FT_PER_MILE)

#define TYPE cw_load_wind_input

static const cw_field inputs[] = {
    NUMBER_IN("weight", "W", CW_DIM_LB, 100.0, 500000.0, NULL, "of the piece", range, TYPE,
              weight_lb),
    NUMBER_IN("area", "A", CW_DIM_SQFT, 0.5, 3000.0, NULL, "that the wind meets", range, TYPE,
              area_sqft),
    NUMBER_IN("drag", "c", CW_DIM_NONE, 0.5, 3.0, "2", "1.1 to 2 for a block, 2 for two walls",
              "common practice of crane makers", TYPE, drag),
    NUMBER_IN("wind", "v", CW_DIM_FPS, 0.0, 150.0, NULL, "gust, such as 20 mph", range, TYPE,
              wind_fps),
    NUMBER_IN("pendulum", "l", CW_DIM_FT, 1.0, 400.0, "30 ft", "boom head to piece", range, TYPE,
              pendulum_ft),
    NUMBER_IN("chart_wind", "v_c", CW_DIM_FPS, 5.0, 100.0, "30 mph",
              "most that the crane's chart allows", "common practice; the chart governs", TYPE,
              chart_fps),
    NUMBER_IN("load_area", NULL, CW_DIM_NONE, 0.0005, 0.05, "@wind.load_area",
              "area times drag that the chart counts on, ft2 for each lb", NULL, TYPE,
              chart_area_sqft_per_lb),
};

static const cw_field outputs[] = {
    OUT("push", "F", CW_DIM_LB, "on the piece", cw_load_wind, push_lb),
    OUT("swing", NULL, CW_DIM_DEG, "off plumb under a steady wind", cw_load_wind, swing_deg),
    OUT("drift", NULL, CW_DIM_IN, "of the piece: guide it with tag lines", cw_load_wind, drift_in),
    OUT("wind_allowed", NULL, CW_DIM_FPS, "by the chart, for this area", cw_load_wind, allowed_fps),
    FLAG_OUT("reduced", "the piece catches more wind than the chart counts on", cw_load_wind,
             reduced),
    CHOICE_OUT("check", cw_verdict_words,
               "fails: over the chart or the site limit, until the maker's data say otherwise; "
               "undecided: over the first warning",
               cw_load_wind, verdict),
};

cw_load_wind cw_lifting_load_wind(const cw_load_wind_input *in, const cw_rows *rows, cw_working *w)
{
    cw_load_wind out = {0};
    const double mph = in->wind_fps * MPH_PER_FPS, caught_sqft = in->drag * in->area_sqft;
    out.push_lb = cw_step_add(w, "F", "0.00256 v^2 c A (mph)",
                              cw_rows_value(rows, "wind.pressure") * mph * mph * caught_sqft,
                              CW_DIM_LB, "ASCE 7 velocity pressure (from memory, not verified)");
    out.swing_deg =
        cw_step_add(w, "swing", "atan(F/W)", atan2(out.push_lb, in->weight_lb) * CW_DEG_PER_RAD,
                    CW_DIM_DEG, "closed form: statics");
    out.drift_in = cw_step_add(w, "drift", "l F/W",
                               in->pendulum_ft * CW_IN_PER_FT * out.push_lb / in->weight_lb,
                               CW_DIM_IN, "closed form: statics");
    const double share =
        cw_step_add(w, "r", "sqrt(load area W / (c A)), 1 at most",
                    fmin(1.0, sqrt(in->chart_area_sqft_per_lb * in->weight_lb / caught_sqft)),
                    CW_DIM_NONE, "derived: push grows with the square of the wind");
    out.reduced = share < 1.0;
    out.allowed_fps =
        cw_step_add(w, "v_a", "r v_c", share * in->chart_fps, CW_DIM_FPS, "the chart of the crane");
    const double stop_mph = cw_rows_value(rows, "wind.stop");
    if (!cw_meets(in->wind_fps, out.allowed_fps) || !cw_meets(mph, stop_mph))
        out.verdict = CW_FAILS;
    else
        out.verdict = cw_meets(mph, cw_rows_value(rows, "wind.plan")) ? CW_HOLDS : CW_UNDECIDED;
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_load_wind *)output = cw_lifting_load_wind(input, &cw_data, working);
}

const cw_calc cw_calc_load_wind = {
    .name = "load-wind",
    .title = "Wind on a hanging piece",
    .group = "lifting",
    .about =
        "Concrete pieces are heavy for their area: the swing in the joint and the site's limit "
        "govern, not the chart's load area, except for a lid turned on edge.  Above 20 mph the "
        "lift stops until somebody has looked at the maker's wind data and written the decision "
        "down (USACE EM 385-1-1).  Stop for lightning within 10 miles until 30 minutes after the "
        "last.  Stop when operator and signal person lose sight or word of each other.",
    .source = "ASCE 7 velocity pressure, from memory; common practice of crane makers",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_load_wind_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_load_wind),
    .run = run,
    .example = "weight=16650lb area=29ft2 wind=20mph",
};
