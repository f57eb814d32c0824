/* Shear without stirrups, 1 ft wide.  The sources print kip and in: V_c = (0.0676 sqrt(f_c) +
 * 4.6 rho V d/M) b d, with limits; the coefficients stay as printed. */
#include "structures_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char slab_source[] = "AASHTO LRFD 5.12.7.3 (from memory, not verified)";
static const char general_source[] =
    "AASHTO LRFD 5.7.3.3 with beta = 2 (from memory, not verified)";
static const char range[] = "common practice: range of cast boxes";
static const char practice[] = "common practice";

#define WIDTH_IN CW_IN_PER_FT
#define THICK_IN 16.0 /* beta = 2 without stirrups holds below it */

static const char *const members[] = {"lid", "slab", "wall", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_shear_input, member)

static const cw_field inputs[] = {
    CHOICE_IN("member", members, NULL, "lid (simple slab), slab monolithic with its walls, or wall",
              NULL, cw_struct_shear_input, member),
    IN("cover", "H", CW_DIM_FT, 0.0, 60.0, NULL, "earth over the top", practice, cover_ft),
    IN("thickness", "h", CW_DIM_IN, 3.0, 60.0, NULL, "of the section", range, thickness_in),
    IN("depth", "d", CW_DIM_IN, 1.0, 60.0, NULL,
       "compression face to the middle of the tension steel", range, depth_in),
    IN("steel", "A_s", CW_DIM_SQIN_PER_FT, 0.01, 10.0, NULL, "tension steel at this section", range,
       steel_in2_per_ft),
    IN("strength", "f_c", CW_DIM_PSI, 2500.0, 10000.0, "@concrete.strength", "of the concrete",
       NULL, concrete_psi),
    IN("shear", "V_u", CW_DIM_LB_PER_FT, 0.0, 1e6, NULL, "factored, without sign", practice,
       shear_lb),
    IN("moment", "M_u", CW_DIM_FT_LB, 0.0, 1e6, NULL, "factored, at the same section, without sign",
       practice, moment_ft_lb),
    CHOICE_IN("set", cw_struct_phis, "box", "of resistance factors", NULL, cw_struct_shear_input,
              phi),
};

static const cw_field outputs[] = {
    FLAG_OUT("general_rule", "beta = 2: a wall, or cover below 2 ft", cw_struct_shear, general),
    OUT("ratio", "V d/M", CW_DIM_NONE, "at most 1", cw_struct_shear, ratio),
    OUT("by_formula", NULL, CW_DIM_LB_PER_FT, "slab formula", cw_struct_shear, formula_lb),
    OUT("floor", NULL, CW_DIM_LB_PER_FT, "need not be less; 0 for a wall", cw_struct_shear,
        floor_lb),
    OUT("cap", NULL, CW_DIM_LB_PER_FT, "may not be more", cw_struct_shear, cap_lb),
    OUT("general", NULL, CW_DIM_LB_PER_FT, "beta = 2", cw_struct_shear, general_lb),
    OUT("capacity", "V_r", CW_DIM_LB_PER_FT, "factored resistance", cw_struct_shear, capacity_lb),
    OUT("use", NULL, CW_DIM_NONE, "shear over that", cw_struct_shear, use),
    CHOICE_OUT("check", cw_verdict_words,
               "shear against that; undecided for 16 in and thicker under the general rule",
               cw_struct_shear, verdict),
};

bool cw_struct_shear_valid(const cw_struct_shear_input *in, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), in, where, diags) &&
           cw_struct_depth_fits(in->depth_in, in->thickness_in, where, diags);
}

static double phi_of(int set, const cw_rows *rows)
{
    static const char *const ids[] = {"structure.phi.box.shear", "structure.phi.three_sided.shear",
                                      "structure.phi.cast.shear"};
    return cw_rows_value(rows, ids[set]);
}

/* The root of the strength in kip and in, times an area: lb. */
static double root_lb(double coefficient, double concrete_psi, double area_in2)
{
    return coefficient * sqrt(concrete_psi / CW_LB_PER_KIP) * area_in2 * CW_LB_PER_KIP;
}

cw_struct_shear cw_struct_section_shear(const cw_struct_shear_input *in, const cw_rows *rows,
                                        cw_working *working)
{
    const double area_in2 = WIDTH_IN * in->depth_in;
    const double moment_in_lb = in->moment_ft_lb * CW_IN_PER_FT;
    cw_struct_shear out = {.general = in->member == CW_STRUCT_WALL_MEMBER ||
                                      in->cover_ft < cw_rows_value(rows, "structure.thin_cover"),
                           .phi = phi_of(in->phi, rows)};
    const bool bends = moment_in_lb > in->shear_lb * in->depth_in;
    out.ratio = cw_step_add(working, "V d/M", "1 at most",
                            bends ? in->shear_lb * in->depth_in / moment_in_lb : 1.0, CW_DIM_NONE,
                            slab_source);
    out.formula_lb =
        cw_step_add(working, "V_1", "(0.0676 sqrt(f_c) + 4.6 A_s/(b d) V d/M) b d, kip and in",
                    root_lb(0.0676, in->concrete_psi, area_in2) +
                        4.6 * in->steel_in2_per_ft * out.ratio * CW_LB_PER_KIP,
                    CW_DIM_LB_PER_FT, slab_source);
    out.cap_lb =
        cw_step_add(working, "V_2", "0.126 sqrt(f_c) b d, most",
                    root_lb(0.126, in->concrete_psi, area_in2), CW_DIM_LB_PER_FT, slab_source);
    if (in->member != CW_STRUCT_WALL_MEMBER)
        out.floor_lb = cw_step_add(
            working, "V_3", "0.0791 sqrt(f_c) b d for a lid, 0.0948 for a monolithic slab, least",
            root_lb(in->member == CW_STRUCT_SIMPLE_SLAB ? 0.0791 : 0.0948, in->concrete_psi,
                    area_in2),
            CW_DIM_LB_PER_FT, slab_source);
    const double lever_in = fmax(0.9 * in->depth_in, 0.72 * in->thickness_in);
    out.general_lb = cw_step_add(working, "V_4", "0.0316 beta sqrt(f_c) b d_v, beta = 2",
                                 root_lb(2.0 * 0.0316, in->concrete_psi, WIDTH_IN * lever_in),
                                 CW_DIM_LB_PER_FT, general_source);
    const double slab_lb = fmin(out.cap_lb, fmax(out.formula_lb, out.floor_lb));
    out.capacity_lb =
        cw_step_add(working, "V_r", out.general ? "phi V_4" : "phi x V_1 within V_3 and V_2",
                    out.phi * (out.general ? out.general_lb : slab_lb), CW_DIM_LB_PER_FT,
                    out.general ? general_source : slab_source);
    out.use = in->shear_lb / out.capacity_lb;
    out.verdict = cw_meets(in->shear_lb, out.capacity_lb) ? CW_HOLDS : CW_FAILS;
    if (out.general && in->thickness_in >= THICK_IN && out.verdict == CW_HOLDS)
        out.verdict = CW_UNDECIDED;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_shear_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_shear *)output = cw_struct_section_shear(input, &cw_data, working);
}

const cw_calc cw_calc_section_shear = {
    .name = "section-shear",
    .title = "Shear without stirrups",
    .group = "structures",
    .about = "Resistance of the concrete of a section 1 ft wide.  A lid is a simple slab and "
             "takes the lower of the two limits for slabs.  Thrust and stirrups are not "
             "counted." CW_STRUCT_REVIEW,
    .source = "AASHTO LRFD 5.12.7.3 and 5.7.3.3, from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_shear_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_shear),
    .valid = valid,
    .run = run,
    .example = "member=lid cover=4ft thickness=12in depth=10.5in steel=0.5in2/ft shear=9000lb/ft "
               "moment=40000ft-lb",
};
