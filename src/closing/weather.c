/* Cold, heat and wind on fresh concrete. */
#include "closing_internal.h"

#include <math.h>
#include <stdio.h>

#include "cw/units.h"

static const char aci306[] = "ACI 306R, table of recommended temperatures";
static const char range[] = "common practice: range of weather";

#define TYPE cw_concreting_input

static const cw_field inputs[] = {
    NUMBER_IN("air", NULL, CW_DIM_DEGF, -60.0, 130.0, NULL, "temperature at placing", range, TYPE,
              air_f),
    NUMBER_IN("air_mean", NULL, CW_DIM_DEGF, -60.0, 130.0, NULL, "mean of the day", range, TYPE,
              mean_f),
    NUMBER_IN("concrete", NULL, CW_DIM_DEGF, 20.0, 130.0, NULL, "as placed", range, TYPE,
              concrete_f),
    NUMBER_IN("least", NULL, CW_DIM_IN, 1.0, 240.0, NULL, "least dimension of the section", range,
              TYPE, least_in),
    FLAG_IN("frozen", NULL, "the ground or bedding under it is frozen", NULL, TYPE, frozen),
};

static const cw_field outputs[] = {
    CHOICE_OUT("check", cw_verdict_words, "the concrete may be placed", cw_concreting, verdict),
    FLAG_OUT("cold", "the rules for cold weather apply", cw_concreting, cold),
    OUT("mixed", NULL, CW_DIM_DEGF, "least temperature as mixed in cold weather", cw_concreting,
        mixed_f),
    OUT("placed", NULL, CW_DIM_DEGF, "least temperature as placed and kept in cold weather",
        cw_concreting, placed_f),
    OUT("drop", NULL, CW_DIM_NONE, "deg F that it may cool in the first 24 h after protection",
        cw_concreting, drop_f),
    OUT("hot", NULL, CW_DIM_DEGF, "highest temperature at discharge", cw_concreting, hot_f),
};

static double cold_row(const cw_rows *rows, int size, const char *what)
{
    char id[32];
    snprintf(id, sizeof id, "cold.%d.%s", size, what);
    return cw_rows_value(rows, id);
}

/* Size class 1 to 4 of the table. */
static int size_class(const cw_rows *rows, double least_in)
{
    for (int size = 1; size < 4; size++) {
        char id[32];
        snprintf(id, sizeof id, "cold.size.%d", size);
        if (least_in < cw_rows_value(rows, id))
            return size;
    }
    return 4;
}

cw_concreting cw_closing_concreting(const cw_concreting_input *in, const cw_rows *rows,
                                    cw_working *w)
{
    const int size = size_class(rows, in->least_in);
    const bool mild = in->air_f > cw_rows_value(rows, "cold.air_mild");
    const bool bitter = in->air_f < cw_rows_value(rows, "cold.air_cold");
    cw_concreting out = {.cold = in->mean_f < cw_rows_value(rows, "cold.mean")};
    out.mixed_f = cw_step_add(w, "T_m", "by least dimension and air",
                              cold_row(rows, size,
                                       mild     ? "mixed_mild"
                                       : bitter ? "mixed_cold"
                                                : "mixed_cool"),
                              CW_DIM_DEGF, aci306);
    out.placed_f = cw_step_add(w, "T_p", "by least dimension", cold_row(rows, size, "placed"),
                               CW_DIM_DEGF, aci306);
    out.drop_f = cw_step_add(w, "drop", "by least dimension, deg F", cold_row(rows, size, "drop"),
                             CW_DIM_NONE, aci306);
    out.hot_f = cw_step_add(w, "T_h", "at discharge", cw_rows_value(rows, "hot.most"), CW_DIM_DEGF,
                            "ACI 305.1");
    const bool too_cold = out.cold && !cw_meets(out.placed_f, in->concrete_f);
    const bool too_hot = !cw_meets(in->concrete_f, out.hot_f);
    out.verdict = in->frozen || too_cold || too_hot ? CW_FAILS : CW_HOLDS;
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_concreting *)output = cw_closing_concreting(input, &cw_data, working);
}

const cw_calc cw_calc_concrete_temperature = {
    .name = "concrete-temperature",
    .title = "Concrete in cold and heat",
    .group = "closing",
    .about = "Least and highest temperatures of concrete for walls, collars and fill.  No concrete "
             "on frozen ground or bedding.  Protection lasts two to three days, more when the "
             "concrete is loaded early (from memory).",
    .source = "ACI 306R and ACI 305.1 (read in a handbook and a restatement)",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_concreting_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_concreting),
    .run = run,
    .example = "air=28degF air_mean=33degF concrete=58degF least=10in frozen=no",
};

/* ---- evaporation ---- */

static const char menzel[] = "ACI 305R evaporation formula (from memory, not verified)";

#undef TYPE
#define TYPE cw_evaporation_input

static const cw_field evaporation_inputs[] = {
    NUMBER_IN("concrete", "T_c", CW_DIM_DEGF, 33.0, 130.0, NULL, "temperature", range, TYPE,
              concrete_f),
    NUMBER_IN("air", "T_a", CW_DIM_DEGF, 1.0, 130.0, NULL, "temperature", range, TYPE, air_f),
    NUMBER_IN("humidity", "r", CW_DIM_PERCENT, 0.0, 100.0, NULL, "relative, of the air", range,
              TYPE, humidity_percent),
    NUMBER_IN("wind", "V", CW_DIM_FPS, 0.0, 90.0, NULL, "20 in above the surface", range, TYPE,
              wind_fps),
    NUMBER_IN("limit", NULL, CW_DIM_NONE, 0.01, 1.0, "@evaporation.limit", "lb/ft2 in an hour",
              NULL, TYPE, limit),
};

static const cw_field evaporation_outputs[] = {
    OUT("rate", "E", CW_DIM_NONE, "lb/ft2 in an hour, 0 at least", cw_evaporation, rate),
    CHOICE_OUT("check", cw_verdict_words,
               "below the rate at which plastic shrinkage cracks are "
               "likely",
               cw_evaporation, verdict),
};

cw_evaporation cw_closing_evaporation(const cw_evaporation_input *in, cw_working *w)
{
    const double mph =
        cw_step_add(w, "V", "wind in miles per hour", in->wind_fps * CW_S_PER_HOUR / CW_FT_PER_MILE,
                    CW_DIM_NONE, "definition");
    const double steam =
        pow(in->concrete_f, 2.5) - in->humidity_percent / CW_PERCENT * pow(in->air_f, 2.5);
    cw_evaporation out = {.rate = 0.0};
    out.rate = cw_step_add(w, "E", "(T_c^2.5 - r T_a^2.5)(1 + 0.4 V) 10^-6, deg F and mph",
                           fmax(0.0, steam) * (1.0 + 0.4 * mph) * 1e-6, CW_DIM_NONE, menzel);
    // The limit itself is already a risk.
    out.verdict = out.rate < in->limit ? CW_HOLDS : CW_FAILS;
    return out;
}

static void run_evaporation(const void *input, void *output, cw_working *working)
{
    *(cw_evaporation *)output = cw_closing_evaporation(input, working);
}

const cw_calc cw_calc_evaporation = {
    .name = "evaporation",
    .title = "Evaporation from fresh concrete",
    .group = "closing",
    .about = "Rate at which a fresh surface loses water.  From 0.2 lb/ft2 in an hour plastic "
             "shrinkage cracks are likely: windbreak, fog, cover.  Blended cements crack at less.",
    .source = "ACI 305R evaporation formula (from memory, not verified)",
    .inputs = evaporation_inputs,
    .input_count = COUNT(evaporation_inputs),
    .input_size = sizeof(cw_evaporation_input),
    .outputs = evaporation_outputs,
    .output_count = COUNT(evaporation_outputs),
    .output_size = sizeof(cw_evaporation),
    .run = run_evaporation,
    .example = "concrete=90degF air=80degF humidity=50% wind=10mph",
};
