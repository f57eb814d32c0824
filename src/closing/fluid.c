/* Fresh concrete and fluid fill against forms and walls. */
#include "closing_internal.h"

#include <math.h>

static const char aci[] = "ACI 347-04 (coefficients from memory, not verified)";
static const char statics[] = "statics: pressure of a fluid";
static const char range[] = "common practice: range of fills and boxes";

static const char *const mixes[] = {"plain", "middle", "slow", "flowable", NULL};
static const char *const rules[] = {"full-head", "low-rate",   "high-rate",
                                    "least",     "head-limit", NULL};

#define TYPE cw_pressure_input

static const cw_field pressure_inputs[] = {
    NUMBER_IN("unit_weight", "w", CW_DIM_PCF, 60.0, 200.0, "150 lb/ft3", "fresh", range, TYPE,
              unit_pcf),
    NUMBER_IN("height", "h", CW_DIM_FT, 0.25, 60.0, NULL, "of one placement", range, TYPE,
              height_ft),
    NUMBER_IN("rate", "R", CW_DIM_FT, 0.1, 60.0, NULL, "rise of the level in one hour", range, TYPE,
              rate_ft_per_h),
    NUMBER_IN("temperature", "T", CW_DIM_DEGF, 35.0, 110.0, "60 degF", "of the concrete", range,
              TYPE, temperature_f),
    CHOICE_IN("mix", mixes, NULL,
              "plain: cement types I to III; middle: those with retarder, or blends; slow: blends "
              "with retarder, much slag or fly ash; flowable: flowable fill and grout",
              NULL, TYPE, mix),
    NUMBER_IN("slump", NULL, CW_DIM_IN, 0.0, 12.0, "4 in", "of the concrete", range, TYPE,
              slump_in),
    FLAG_IN("vibrated", "yes", "internally, near the surface; a narrow gap cannot be",
            "common practice", TYPE, vibrated),
};

static const cw_field pressure_outputs[] = {
    OUT("pressure", "p", CW_DIM_PSF, "to design for", cw_pressure, pressure_psf),
    CHOICE_OUT("by", rules,
               "full-head: mix, slump, rate or no vibration; least: the least of the source; "
               "head-limit: no more than the full head",
               cw_pressure, rule),
    OUT("formula", NULL, CW_DIM_PSF, "before its limits", cw_pressure, formula_psf),
    OUT("head", NULL, CW_DIM_PSF, "full fluid head", cw_pressure, head_psf),
    OUT("weight_factor", "C_w", CW_DIM_NONE, "for unit weight", cw_pressure, weight_factor),
    OUT("mix_factor", "C_c", CW_DIM_NONE, "for cement and admixture", cw_pressure, mix_factor),
    OUT("thrust", "F", CW_DIM_LB_PER_FT, "on the whole height", cw_pressure, thrust_lb_per_ft),
    OUT("moment", "M", CW_DIM_FT_LB, "at the foot of a wall without a top, for a foot of run",
        cw_pressure, moment_ft_lb),
};

static double weight_factor(const cw_rows *rows, double unit_pcf)
{
    const double normal = cw_rows_value(rows, "form.weight_normal");
    if (unit_pcf < cw_rows_value(rows, "form.weight_light"))
        return fmax(cw_rows_value(rows, "form.weight_least"), 0.5 * (1.0 + unit_pcf / normal));
    return unit_pcf > cw_rows_value(rows, "form.weight_heavy") ? unit_pcf / normal : 1.0;
}

static double mix_factor(const cw_rows *rows, int mix)
{
    static const char *const ids[] = {"form.mix_plain", "form.mix_middle", "form.mix_slow",
                                      "form.mix_plain"};
    return cw_rows_value(rows, ids[mix]);
}

static bool acts_as_fluid(const cw_pressure_input *in, const cw_rows *rows)
{
    return in->mix == CW_MIX_FLOWABLE || !in->vibrated ||
           in->slump_in > cw_rows_value(rows, "form.slump_max") ||
           in->rate_ft_per_h > cw_rows_value(rows, "form.rate_high");
}

static void find_pressure(cw_pressure *out, const cw_pressure_input *in, const cw_rows *rows)
{
    out->formula_psf = out->head_psf;
    out->pressure_psf = out->head_psf;
    out->rule = CW_PRESSURE_FLUID;
    if (acts_as_fluid(in, rows))
        return;
    const double factor = out->weight_factor * out->mix_factor;
    const double r = in->rate_ft_per_h, t = in->temperature_f;
    const bool low = r < cw_rows_value(rows, "form.rate_low") &&
                     in->height_ft <= cw_rows_value(rows, "form.height_low");
    if (low) // ACI 347-04 wall formula, rate under 7 ft/h and height of 14 ft at most
        out->formula_psf = factor * (cw_rows_value(rows, "form.low.base") +
                                     cw_rows_value(rows, "form.low.rate") * r / t);
    else // ACI 347-04 wall formula for higher walls and rates of 7 to 15 ft/h
        out->formula_psf = factor * (cw_rows_value(rows, "form.high.base") +
                                     cw_rows_value(rows, "form.high.temperature") / t +
                                     cw_rows_value(rows, "form.high.rate") * r / t);
    const double least = cw_rows_value(rows, "form.least") * out->weight_factor;
    out->pressure_psf = fmin(out->head_psf, fmax(least, out->formula_psf));
    out->rule = out->pressure_psf == out->formula_psf
                    ? (low ? CW_PRESSURE_LOW_RATE : CW_PRESSURE_HIGH_RATE)
                : out->pressure_psf == least ? CW_PRESSURE_LEAST
                                             : CW_PRESSURE_HEAD;
}

cw_pressure cw_closing_pressure(const cw_pressure_input *in, const cw_rows *rows, cw_working *w)
{
    cw_pressure out = {.rule = CW_PRESSURE_FLUID};
    out.weight_factor = cw_step_add(w, "C_w", "0.5 (1 + w/145) light, 1 normal, w/145 heavy",
                                    weight_factor(rows, in->unit_pcf), CW_DIM_NONE, aci);
    out.mix_factor = cw_step_add(w, "C_c", "for cement and admixture", mix_factor(rows, in->mix),
                                 CW_DIM_NONE, aci);
    const double h = in->height_ft;
    out.head_psf = cw_step_add(w, "w h", "w h", in->unit_pcf * h, CW_DIM_PSF, statics);
    find_pressure(&out, in, rows);
    static const char *const forms[] = {"w h", "C_w C_c (150 + 9000 R/T)",
                                        "C_w C_c (150 + 43400/T + 2800 R/T)", "600 C_w",
                                        "w h, less than the formula"};
    const double p = cw_step_add(w, "p", forms[out.rule], out.pressure_psf, CW_DIM_PSF,
                                 out.rule == CW_PRESSURE_FLUID ? statics : aci);
    // Fluid down to the depth where p is reached, even below it.
    const double y = p / in->unit_pcf, rest = h - y;
    out.thrust_lb_per_ft =
        cw_step_add(w, "F", "p h - p^2/(2 w)", p * h - p * y / 2.0, CW_DIM_LB_PER_FT, statics);
    out.moment_ft_lb = cw_step_add(w, "M", "p y/2 (h - 2 y/3) + p (h - y)^2/2, y = p/w",
                                   p * y / 2.0 * (h - 2.0 * y / 3.0) + p * rest * rest / 2.0,
                                   CW_DIM_FT_LB, statics);
    return out;
}

static void run_pressure(const void *input, void *output, cw_working *working)
{
    *(cw_pressure *)output = cw_closing_pressure(input, &cw_data, working);
}

const cw_calc cw_calc_form_pressure = {
    .name = "form-pressure",
    .title = "Pressure of fresh concrete on a wall",
    .group = "closing",
    .about = "Lateral pressure of one placement against a wall form or the wall of a box, with "
             "thrust and moment of its envelope.  A gap of a few inches cannot be vibrated and "
             "flowable fill is a fluid: both take the full head.  Columns are not covered.",
    .source = "ACI 347-04 (coefficients from memory, not verified); statics",
    .inputs = pressure_inputs,
    .input_count = COUNT(pressure_inputs),
    .input_size = sizeof(cw_pressure_input),
    .outputs = pressure_outputs,
    .output_count = COUNT(pressure_outputs),
    .output_size = sizeof(cw_pressure),
    .run = run_pressure,
    .example = "height=12ft rate=5ft temperature=70degF mix=plain",
};
