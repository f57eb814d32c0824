#include "structures_internal.h"

#include <math.h>

#include "cw/units.h"

static const char fluid[] = "equivalent fluid weight, closed form";
static const char table[] = "AASHTO LRFD Table 3.11.6.4-1 (from memory, not verified)";
static const char practice[] = "common practice";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_lateral_input,     \
              member)

static const cw_field inputs[] = {
    IN("cover", "H", CW_DIM_FT, 0.0, 100.0, NULL, "earth over the top", practice, cover_ft),
    IN("height", "h", CW_DIM_FT, 0.5, 60.0, NULL, "outside height of the box", practice, height_ft),
    IN("most", "e_1", CW_DIM_PCF, 0.0, 160.0, "@structure.lateral.most",
       "equivalent fluid weight, greatest", NULL, most_pcf),
    IN("least", "e_2", CW_DIM_PCF, 0.0, 160.0, "@structure.lateral.least",
       "equivalent fluid weight, least", NULL, least_pcf),
    IN("earth_weight", "g_s", CW_DIM_PCF, 60.0, 160.0, "@structure.earth.unit",
       "unit weight of the fill", NULL, earth_pcf),
    IN("k", "k", CW_DIM_NONE, 0.0, 3.0, "@structure.lateral.k",
       "side pressure ratio for traffic beside the wall; 0 without traffic", NULL, k),
    IN("water", "h_w", CW_DIM_FT, 0.0, 160.0, "0 ft",
       "ground water above the underside; give equivalent weights for soil under water then",
       practice, water_ft),
};

static const cw_field outputs[] = {
    OUT("top_most", NULL, CW_DIM_PSF, "earth at the top of the box", cw_struct_lateral,
        top_most_psf),
    OUT("foot_most", NULL, CW_DIM_PSF, "earth at the underside", cw_struct_lateral, foot_most_psf),
    OUT("top_least", NULL, CW_DIM_PSF, "least, at the top", cw_struct_lateral, top_least_psf),
    OUT("foot_least", NULL, CW_DIM_PSF, "least, at the underside", cw_struct_lateral,
        foot_least_psf),
    OUT("surcharge_height", "h_eq", CW_DIM_FT, "soil that stands for traffic", cw_struct_lateral,
        surcharge_ft),
    OUT("surcharge", "p_s", CW_DIM_PSF, "traffic, over the whole height", cw_struct_lateral,
        surcharge_psf),
    OUT("water_foot", "p_w", CW_DIM_PSF, "water at the underside", cw_struct_lateral,
        water_foot_psf),
    OUT("push", "F", CW_DIM_LB_PER_FT, "most on one wall, all together", cw_struct_lateral,
        push_lb),
    OUT("moment", "M", CW_DIM_FT_LB, "of that about the underside, per ft of run",
        cw_struct_lateral, moment_ft_lb),
};

bool cw_struct_lateral_valid(const cw_struct_lateral_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    if (in->least_pcf <= in->most_pcf)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "least %.6g lb/ft3 is above most %.6g lb/ft3; exchange them", in->least_pcf,
                in->most_pcf);
    return false;
}

double cw_struct_surcharge_ft(double height_ft, const cw_rows *rows)
{
    static const double at_ft[3] = {5.0, 10.0, 20.0};
    const double soil_ft[3] = {cw_rows_value(rows, "structure.surcharge.5ft"),
                               cw_rows_value(rows, "structure.surcharge.10ft"),
                               cw_rows_value(rows, "structure.surcharge.20ft")};
    if (height_ft <= at_ft[0])
        return soil_ft[0];
    for (int i = 1; i < 3; i++)
        if (height_ft <= at_ft[i])
            return soil_ft[i - 1] + (soil_ft[i] - soil_ft[i - 1]) * (height_ft - at_ft[i - 1]) /
                                        (at_ft[i] - at_ft[i - 1]);
    return soil_ft[2];
}

cw_struct_lateral cw_struct_lateral_pressure(const cw_struct_lateral_input *in, const cw_rows *rows,
                                             cw_working *working)
{
    cw_struct_lateral out = {0};
    const double foot_ft = in->cover_ft + in->height_ft;
    out.top_most_psf =
        cw_step_add(working, "p_t", "e_1 H", in->most_pcf * in->cover_ft, CW_DIM_PSF, fluid);
    out.foot_most_psf =
        cw_step_add(working, "p_f", "e_1 (H + h)", in->most_pcf * foot_ft, CW_DIM_PSF, fluid);
    out.top_least_psf = in->least_pcf * in->cover_ft;
    out.foot_least_psf = in->least_pcf * foot_ft;
    out.surcharge_ft = cw_step_add(working, "h_eq", "table, by H + h, straight between",
                                   cw_struct_surcharge_ft(foot_ft, rows), CW_DIM_FT, table);
    out.surcharge_psf = cw_step_add(working, "p_s", "k g_s h_eq",
                                    in->k * in->earth_pcf * out.surcharge_ft, CW_DIM_PSF, table);
    const double water_pcf = cw_rows_value(rows, "material.water");
    out.water_foot_psf = cw_step_add(working, "p_w", "g_w h_w", water_pcf * in->water_ft,
                                     CW_DIM_PSF, "closed form: hydrostatics");
    // Water above the top presses over the whole wall; below it only up to its level.
    const double wet_ft = fmin(in->water_ft, in->height_ft);
    const double wet_top_psf = out.water_foot_psf - water_pcf * wet_ft;
    const double h = in->height_ft;
    out.push_lb =
        cw_step_add(working, "F", "(p_t + p_f) h/2 + p_s h + water",
                    (out.top_most_psf + out.foot_most_psf) * h / 2.0 + out.surcharge_psf * h +
                        (wet_top_psf + out.water_foot_psf) * wet_ft / 2.0,
                    CW_DIM_LB_PER_FT, fluid);
    out.moment_ft_lb = cw_step_add(
        working, "M", "p_t h^2/2 + (p_f - p_t) h^2/6 + p_s h^2/2 + water",
        out.top_most_psf * h * h / 2.0 + (out.foot_most_psf - out.top_most_psf) * h * h / 6.0 +
            out.surcharge_psf * h * h / 2.0 + wet_top_psf * wet_ft * wet_ft / 2.0 +
            (out.water_foot_psf - wet_top_psf) * wet_ft * wet_ft / 6.0,
        CW_DIM_FT_LB, fluid);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_lateral_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_lateral *)output = cw_struct_lateral_pressure(input, &cw_data, working);
}

const cw_calc cw_calc_lateral_pressure = {
    .name = "lateral-pressure",
    .title = "Earth, traffic and water beside a wall",
    .group = "structures",
    .about = "Greatest and least side pressure, and what they push on one wall.  The greatest "
             "governs walls, the least the middle of floor and top: run both.  Compaction is "
             "in unlidded-fill." CW_STRUCT_REVIEW,
    .source = "equivalent fluid weight; AASHTO LRFD 3.11 (from memory, not verified)",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_lateral_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_lateral),
    .valid = valid,
    .run = run,
    .example = "cover=4ft height=10ft",
};
