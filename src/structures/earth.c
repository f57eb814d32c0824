#include "structures_internal.h"

#include <math.h>

#include "cw/units.h"

static const char lrfd[] =
    "AASHTO LRFD 12.11.2.2.1, embankment rule as Illinois DOT CM 3.4 quotes it";
static const char trench_source[] = "AASHTO LRFD 12.11.2.2.1 (from memory, not verified)";
static const char practice[] = "common practice";

static const char *const beds[] = {"embankment", "trench", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_earth_input, member)

static const cw_field inputs[] = {
    CHOICE_IN("bed", beds, "embankment", "trench relief needs a trench width measured in the field",
              NULL, cw_struct_earth_input, bed),
    FLAG_IN("compacted", "yes", "side fill is compacted", NULL, cw_struct_earth_input, compacted),
    IN("cover", "H", CW_DIM_FT, 0.0, 100.0, NULL, "earth over the top, without pavement", practice,
       cover_ft),
    IN("outside_width", "B", CW_DIM_FT, 1.0, 120.0, NULL, "outside to outside, all barrels",
       practice, outside_ft),
    IN("earth_weight", "g_s", CW_DIM_PCF, 60.0, 160.0, "@structure.earth.unit",
       "unit weight of the fill", NULL, earth_pcf),
    IN("trench_width", "B_d", CW_DIM_FT, 0.0, 200.0, "0 ft",
       "trench at the level of the top of the box", practice, trench_ft),
    IN("k_mu", "k_m", CW_DIM_NONE, 0.05, 0.25, "@structure.earth.k_mu",
       "side pressure ratio times friction of the trench walls", NULL, k_mu),
    IN("pavement", "p", CW_DIM_PSF, 0.0, 2000.0, "0 psf", "weight of the pavement", practice,
       pavement_psf),
};

static const cw_field outputs[] = {
    OUT("embankment_factor", "F_e1", CW_DIM_NONE, "with its cap", cw_struct_earth, embankment),
    OUT("trench_factor", "F_e2", CW_DIM_NONE, "before the embankment factor limits it; 0 without",
        cw_struct_earth, trench),
    OUT("factor", "F_e", CW_DIM_NONE, "taken", cw_struct_earth, factor),
    OUT("pressure", "w", CW_DIM_PSF, "on the top, pavement included", cw_struct_earth,
        pressure_psf),
    OUT("load", "W_E", CW_DIM_LB_PER_FT, "per ft of run", cw_struct_earth, load_lb_per_ft),
};

bool cw_struct_earth_valid(const cw_struct_earth_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    if (in->bed == CW_STRUCT_TRENCH && !(in->trench_ft > in->outside_ft)) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "trench_width %.6g ft does not hold a box %.6g ft wide; measure the trench at "
                    "the top of the box or choose embankment",
                    in->trench_ft, in->outside_ft);
        return false;
    }
    return true;
}

cw_struct_earth cw_struct_earth_load(const cw_struct_earth_input *in, const cw_rows *rows,
                                     cw_working *working)
{
    cw_struct_earth out = {0};
    const double cap = cw_rows_value(rows, in->compacted ? "structure.earth.cap_compacted"
                                                         : "structure.earth.cap_loose");
    const double rise = cw_rows_value(rows, "structure.earth.slope");
    out.embankment = out.factor =
        cw_step_add(working, "F_e1", "1 + 0.20 H/B, with its cap",
                    fmin(cap, 1.0 + rise * in->cover_ft / in->outside_ft), CW_DIM_NONE, lrfd);
    if (in->bed == CW_STRUCT_TRENCH && in->cover_ft > 0.0) {
        const double two_k = 2.0 * in->k_mu;
        out.trench_cd = cw_step_add(working, "C_d", "(1 - exp(-2 k_m H/B_d)) / (2 k_m)",
                                    -expm1(-two_k * in->cover_ft / in->trench_ft) / two_k,
                                    CW_DIM_NONE, trench_source);
        out.trench = cw_step_add(working, "F_e2", "C_d B_d^2 / (H B)",
                                 out.trench_cd * in->trench_ft * in->trench_ft /
                                     (in->cover_ft * in->outside_ft),
                                 CW_DIM_NONE, trench_source);
        out.factor = fmin(out.embankment, out.trench);
    }
    out.pressure_psf =
        cw_step_add(working, "w", "F_e g_s H + p",
                    out.factor * in->earth_pcf * in->cover_ft + in->pavement_psf, CW_DIM_PSF, lrfd);
    out.load_lb_per_ft = cw_step_add(working, "W_E", "w B", out.pressure_psf * in->outside_ft,
                                     CW_DIM_LB_PER_FT, lrfd);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_earth_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_earth *)output = cw_struct_earth_load(input, &cw_data, working);
}

const cw_calc cw_calc_earth_load = {
    .name = "earth-load",
    .title = "Earth over the top",
    .group = "structures",
    .about = "Weight of earth on a rigid box: the column over it times the factor of soil and "
             "structure.  Low fill gives no relief by a trench." CW_STRUCT_REVIEW,
    .source = "AASHTO LRFD 12.11.2.2.1 as Illinois DOT Culvert Manual CM 3.4 (May 2019) quotes it; "
              "trench rule from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_earth_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_earth),
    .valid = valid,
    .run = run,
    .example = "cover=10ft outside_width=13.67ft",
};
