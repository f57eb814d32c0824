/* What a base and a lid feel on the hook. */
#include "structures_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char statics[] = "closed form: statics";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

/* Overhang at which sagging and hogging are equal: a = (sqrt 2 - 1)/2 of the length. */
#define BEST_OVERHANG 0.20710678118654752

static const char *const pieces[] = {"base", "lid", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_lift_input, member)

static const cw_field inputs[] = {
    CHOICE_IN("piece", pieces, NULL, "base on inserts at its wall tops, or flat lid", NULL,
              cw_struct_lift_input, piece),
    IN("span", "S", CW_DIM_IN, 24.0, 600.0, NULL, "clear width", range, span_in),
    IN("wall", "t_w", CW_DIM_IN, 3.0, 60.0, NULL, "wall thickness", range, wall_in),
    IN("slab", "t", CW_DIM_IN, 3.0, 60.0, NULL, "thickness of floor or lid", range, slab_in),
    IN("leg", "R", CW_DIM_IN, 0.0, 300.0, "0 in", "base: clear height of the wall", range, leg_in),
    IN("length", "L", CW_DIM_FT, 1.0, 30.0, NULL, "of the piece along the run", range, length_ft),
    IN("weight", "W", CW_DIM_LB, 100.0, 500000.0, NULL, "of the piece", range, weight_lb),
    IN("unit_weight", "g_c", CW_DIM_PCF, 90.0, 200.0, "@concrete.unit_weight", "of the concrete",
       NULL, concrete_pcf),
    IN("strength", "f_c", CW_DIM_PSI, 1000.0, 15000.0, "3500 psi",
       "of the concrete on the day of the lift", practice, concrete_psi),
    IN("sling_angle", NULL, CW_DIM_DEG, 30.0, 90.0, "90 deg",
       "of the slings from the horizontal, seen along the run; 90 with a spreader", practice,
       sling_deg),
    IN("overhang", "a", CW_DIM_IN, 0.0, 300.0, "0 in",
       "lid: insert line to the nearer side; 0 takes 0.207 of the width", statics, overhang_in),
    IN("dynamic", "f", CW_DIM_NONE, 1.0, 5.0, "@structure.handling.dynamic",
       "multiplies the weight", NULL, dynamic),
};

static const cw_field outputs[] = {
    OUT("pull", "H", CW_DIM_LB_PER_FT, "inward at each side, per ft of run", cw_struct_lift,
        pull_lb),
    OUT("wall_foot", "M_w", CW_DIM_FT_LB, "base: at the foot of the wall, tension outside",
        cw_struct_lift, wall_ft_lb),
    OUT("slab_middle", "M_s", CW_DIM_FT_LB,
        "middle of the slab by its weight: tension at its underside", cw_struct_lift, slab_ft_lb),
    OUT("over_inserts", "M_o", CW_DIM_FT_LB, "lid: over the inserts, tension on its upper face",
        cw_struct_lift, overhang_ft_lb),
    OUT("slab_total", "M", CW_DIM_FT_LB, "greatest in the slab, with the pull", cw_struct_lift,
        total_ft_lb),
    OUT("stress", NULL, CW_DIM_PSI, "of the plain slab", cw_struct_lift, stress_psi),
    OUT("wall_stress", NULL, CW_DIM_PSI, "of the plain wall", cw_struct_lift, wall_stress_psi),
    OUT("limit", NULL, CW_DIM_PSI, "tension without cracks", cw_struct_lift, limit_psi),
    FLAG_OUT("holds", "no cracks; otherwise the steel must carry it: see section-flexure",
             cw_struct_lift, holds),
};

bool cw_struct_lift_valid(const cw_struct_lift_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    if (in->piece == CW_STRUCT_BASE_PIECE)
        return cw_struct_positive("leg", in->leg_in, CW_DIM_IN, where, diags);
    const double width_in = in->span_in + 2.0 * in->wall_in;
    if (2.0 * in->overhang_in < width_in)
        return true;
    cw_diag_add(
        diags, where, CW_E_GEOMETRY,
        "overhang %.6g in is not less than half of the lid's width %.6g in; measure it from "
        "the nearer side",
        in->overhang_in, width_in);
    return false;
}

/* Plain section 1 ft wide: 6 M / (b t^2). */
static double stress_psi(double moment_ft_lb, double thickness_in)
{
    return 6.0 * moment_ft_lb / (thickness_in * thickness_in);
}

static void lift_base(const cw_struct_lift_input *in, double slab_psf, cw_struct_lift *out,
                      cw_working *working)
{
    const double span_ft = (in->span_in + in->wall_in) / CW_IN_PER_FT;
    const double arm_ft = (in->leg_in + in->slab_in / 2.0) / CW_IN_PER_FT;
    out->wall_ft_lb =
        cw_step_add(working, "M_w", "H (R + t/2)", out->pull_lb * arm_ft, CW_DIM_FT_LB, statics);
    out->slab_ft_lb = cw_step_add(working, "M_s", "f g_c t (S + t_w)^2/8",
                                  slab_psf * span_ft * span_ft / 8.0, CW_DIM_FT_LB, statics);
    // Both bend the floor the same way: it hangs between the walls and they pull inward.
    out->total_ft_lb = cw_step_add(working, "M", "M_s + M_w", out->slab_ft_lb + out->wall_ft_lb,
                                   CW_DIM_FT_LB, statics);
    out->wall_stress_psi = stress_psi(out->wall_ft_lb, in->wall_in);
}

static void lift_lid(const cw_struct_lift_input *in, double slab_psf, cw_struct_lift *out,
                     cw_working *working)
{
    const double width_ft = (in->span_in + 2.0 * in->wall_in) / CW_IN_PER_FT;
    const double a_ft =
        in->overhang_in > 0.0 ? in->overhang_in / CW_IN_PER_FT : BEST_OVERHANG * width_ft;
    const double middle_ft = width_ft - 2.0 * a_ft;
    out->overhang_ft_lb = cw_step_add(working, "M_o", "f g_c t a^2/2", slab_psf * a_ft * a_ft / 2.0,
                                      CW_DIM_FT_LB, statics);
    out->slab_ft_lb = cw_step_add(working, "M_s", "f g_c t (B - 2 a)^2/8 - M_o",
                                  slab_psf * middle_ft * middle_ft / 8.0 - out->overhang_ft_lb,
                                  CW_DIM_FT_LB, statics);
    // Inserts stand in the upper face: the pull presses the lid off its middle.
    const double pulled = out->pull_lb * in->slab_in / 2.0 / CW_IN_PER_FT;
    out->total_ft_lb =
        cw_step_add(working, "M", "greater of M_o and M_s + H t/2",
                    fmax(out->overhang_ft_lb, out->slab_ft_lb + pulled), CW_DIM_FT_LB, statics);
}

cw_struct_lift cw_struct_handling(const cw_struct_lift_input *in, const cw_rows *rows,
                                  cw_working *working)
{
    cw_struct_lift out = {0};
    const double slab_psf = in->dynamic * in->concrete_pcf * in->slab_in / CW_IN_PER_FT;
    // Vertical slings pull straight; tan of a right angle is left alone.
    const double cotangent = in->sling_deg < 90.0 ? 1.0 / tan(in->sling_deg * CW_RAD_PER_DEG) : 0.0;
    out.pull_lb = cw_step_add(working, "H", "f W/2 / tan(angle) / L",
                              in->dynamic * in->weight_lb / 2.0 * cotangent / in->length_ft,
                              CW_DIM_LB_PER_FT, statics);
    if (in->piece == CW_STRUCT_BASE_PIECE)
        lift_base(in, slab_psf, &out, working);
    else
        lift_lid(in, slab_psf, &out, working);
    out.stress_psi =
        cw_step_add(working, "s", "6 M / t^2", stress_psi(out.total_ft_lb, in->slab_in), CW_DIM_PSI,
                    "closed form: plain section");
    out.limit_psi =
        cw_step_add(working, "s_a", "5 sqrt(f_c)",
                    cw_rows_value(rows, "structure.handling.tension") * sqrt(in->concrete_psi),
                    CW_DIM_PSI, practice);
    out.holds =
        cw_meets(out.stress_psi, out.limit_psi) && cw_meets(out.wall_stress_psi, out.limit_psi);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_lift_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_lift *)output = cw_struct_handling(input, &cw_data, working);
}

const cw_calc cw_calc_handling_moment = {
    .name = "handling-moment",
    .title = "Bending of a piece on the hook",
    .group = "structures",
    .about = "Moments per ft of run in a base on inserts at its wall tops, or in a lid, with "
             "inclined slings or a spreader.  Inclined slings pull the walls of a base inward: a "
             "tall base wants a spreader.  Inserts and bending along the run are not checked "
             "here." CW_STRUCT_REVIEW,
    .source = "closed form: statics; dynamic factor and limit of tension by common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_lift_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_lift),
    .valid = valid,
    .run = run,
    .example = "piece=base span=14ft wall=10in slab=12in leg=8ft length=6ft weight=26500lb "
               "sling_angle=60deg",
};
