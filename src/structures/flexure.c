/* A section 1 ft wide with steel at one face.  Block equilibrium, compression +:
 * C = 0.85 f'c b a = A_s f_y + N/phi,  M/phi = C (h/2 - a/2) + A_s f_y (d - h/2). */
#include "structures_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char block[] = "equilibrium of the stress block, AASHTO LRFD 5.6.2.2 (from memory, "
                            "not verified)";
static const char least_source[] = "AASHTO LRFD 12.11.4.3.2 (from memory, not verified)";
static const char crack_source[] = "AASHTO LRFD 5.6.7 and C12.11.4 (from memory, not verified)";
static const char range[] = "common practice: range of cast boxes";
static const char practice[] = "common practice";

#define BLOCK_STRESS 0.85
#define CONCRETE_STRAIN 0.003
#define DUCTILE_STRAIN                                                                             \
    0.004 /* less steel strain than this: the section is not tension controlled */
#define CRACK_LB_PER_IN (700.0 * CW_LB_PER_KIP)
#define WIDTH_IN CW_IN_PER_FT

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_flexure_input,     \
              member)

static const cw_field inputs[] = {
    IN("thickness", "h", CW_DIM_IN, 3.0, 60.0, NULL, "of the section", range, thickness_in),
    IN("depth", "d", CW_DIM_IN, 1.0, 60.0, NULL,
       "compression face to the middle of the tension steel", range, depth_in),
    IN("steel", "A_s", CW_DIM_SQIN_PER_FT, 0.0, 10.0, NULL,
       "tension steel at this section; 0 asks for the required steel only", range,
       steel_in2_per_ft),
    IN("strength", "f_c", CW_DIM_PSI, 2500.0, 10000.0, "@concrete.strength", "of the concrete",
       NULL, concrete_psi),
    IN("yield", "f_y", CW_DIM_PSI, 30000.0, 80000.0, "@structure.steel.yield", "of the steel", NULL,
       yield_psi),
    IN("moment", "M_u", CW_DIM_FT_LB, 0.0, 1e6, NULL, "factored, without sign", practice,
       moment_ft_lb),
    IN("thrust", "N_u", CW_DIM_LB_PER_FT, 0.0, 1e5, "0 lb/ft",
       "factored, the least that comes with the moment", practice, thrust_lb),
    IN("service_moment", "M_s", CW_DIM_FT_LB, 0.0, 1e6, "0 ft-lb",
       "for crack control; 0 leaves it out", practice, service_ft_lb),
    IN("service_thrust", "N_s", CW_DIM_LB_PER_FT, 0.0, 1e5, "0 lb/ft", "with that", practice,
       service_thrust_lb),
    CHOICE_IN("set", cw_struct_phis, "box", "of resistance factors", NULL, cw_struct_flexure_input,
              phi),
    IN("exposure", "g_e", CW_DIM_NONE, 0.5, 1.0, "1", "1, or 0.75 with deicing salt",
       "AASHTO LRFD 5.6.7 (from memory, not verified)", exposure),
    IN("spacing", "s", CW_DIM_IN, 0.0, 24.0, "0 in", "of the steel; 0 leaves it open", practice,
       spacing_in),
};

static const cw_field outputs[] = {
    OUT("phi", NULL, CW_DIM_NONE, "resistance factor", cw_struct_flexure, phi),
    OUT("block", "a", CW_DIM_IN, "depth of the compression block", cw_struct_flexure, block_in),
    OUT("strain", NULL, CW_DIM_NONE, "of the steel", cw_struct_flexure, strain),
    OUT("capacity", "M_r", CW_DIM_FT_LB, "factored resistance with this thrust", cw_struct_flexure,
        capacity_ft_lb),
    CHOICE_OUT("flexure", cw_verdict_words,
               "moment against that; undecided when the steel strains under 0.004",
               cw_struct_flexure, flexure),
    FLAG_OUT("possible", "some steel can carry the moment in this thickness", cw_struct_flexure,
             possible),
    OUT("required", NULL, CW_DIM_SQIN_PER_FT, "steel for the moment", cw_struct_flexure,
        required_in2_per_ft),
    OUT("least", NULL, CW_DIM_SQIN_PER_FT, "least steel", cw_struct_flexure, least_in2_per_ft),
    CHOICE_OUT("least_check", cw_verdict_words, "steel against that", cw_struct_flexure, least),
    FLAG_OUT("has_crack", "cracks were checked", cw_struct_flexure, has_crack),
    OUT("steel_stress", "f_ss", CW_DIM_PSI, "at service", cw_struct_flexure, steel_psi),
    OUT("stress_limit", NULL, CW_DIM_PSI, "0.6 of the yield", cw_struct_flexure, steel_limit_psi),
    OUT("spacing_limit", "s", CW_DIM_IN, "greatest spacing by crack control; 0 when not checked",
        cw_struct_flexure, spacing_in),
    CHOICE_OUT("crack", cw_verdict_words, "stress, and spacing where given", cw_struct_flexure,
               crack),
};

bool cw_struct_flexure_valid(const cw_struct_flexure_input *in, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), in, where, diags) &&
           cw_struct_depth_fits(in->depth_in, in->thickness_in, where, diags);
}

static double phi_of(int set, const cw_rows *rows)
{
    static const char *const ids[] = {"structure.phi.box.flexure",
                                      "structure.phi.three_sided.flexure",
                                      "structure.phi.cast.flexure"};
    return cw_rows_value(rows, ids[set]);
}

/* Block depth over depth of the neutral axis.  AASHTO LRFD 5.6.2.2 (from memory). */
static double beta_of(double concrete_psi)
{
    const double ksi = concrete_psi / CW_LB_PER_KIP;
    return fmax(0.65, fmin(0.85, 0.85 - 0.05 * (ksi - 4.0)));
}

static void resist(const cw_struct_flexure_input *in, cw_struct_flexure *out, cw_working *working)
{
    const double per_in_lb = BLOCK_STRESS * in->concrete_psi * WIDTH_IN;
    const double pull_lb = in->steel_in2_per_ft * in->yield_psi;
    out->block_in = cw_step_add(working, "a", "(A_s f_y + N_u/phi) / (0.85 f_c b)",
                                (pull_lb + in->thrust_lb / out->phi) / per_in_lb, CW_DIM_IN, block);
    if (out->block_in > 0.0 && out->block_in < in->thickness_in) {
        const double c_in = out->block_in / beta_of(in->concrete_psi);
        const double moment_in_lb =
            per_in_lb * out->block_in * (in->thickness_in - out->block_in) / 2.0 +
            pull_lb * (in->depth_in - in->thickness_in / 2.0);
        out->strain = CONCRETE_STRAIN * (in->depth_in - c_in) / c_in;
        out->capacity_ft_lb = out->phi * moment_in_lb / CW_IN_PER_FT;
    }
    cw_step_add(working, "M_r", "phi (C (h - a)/2 + A_s f_y (d - h/2))", out->capacity_ft_lb,
                CW_DIM_FT_LB, block);
    if (in->steel_in2_per_ft <= 0.0)
        return;
    out->flexure = cw_meets(in->moment_ft_lb, out->capacity_ft_lb) ? CW_HOLDS : CW_FAILS;
    if (out->flexure == CW_HOLDS && out->strain < DUCTILE_STRAIN)
        out->flexure = CW_UNDECIDED;
}

static void require(const cw_struct_flexure_input *in, cw_struct_flexure *out, cw_working *working)
{
    const double g = BLOCK_STRESS * in->concrete_psi * WIDTH_IN, d = in->depth_in;
    const double moment = in->moment_ft_lb * CW_IN_PER_FT / out->phi;
    const double thrust = in->thrust_lb / out->phi;
    const double under = g * (g * d * d - thrust * (2.0 * d - in->thickness_in) - 2.0 * moment);
    out->possible = under >= 0.0;
    const double steel =
        out->possible ? fmax(0.0, (g * d - thrust - sqrt(under)) / in->yield_psi) : 0.0;
    out->required_in2_per_ft = cw_step_add(
        working, "A_req", "(g d - N - sqrt(g (g d^2 - N (2 d - h) - 2 M)))/f_y, g = 0.85 f_c b",
        steel, CW_DIM_SQIN_PER_FT, block);
}

/* Stress of the cracked section in psi; 0 where the thrust keeps the steel out of tension. */
static double service_stress(const cw_struct_flexure_input *in, double ratio)
{
    const double moment = in->service_ft_lb * CW_IN_PER_FT, thrust = in->service_thrust_lb;
    const double d = in->depth_in, half = in->thickness_in / 2.0;
    if (!(thrust > 0.0)) {
        const double n_rho = ratio * in->steel_in2_per_ft / (WIDTH_IN * d);
        const double k = sqrt(2.0 * n_rho + n_rho * n_rho) - n_rho;
        return moment / (in->steel_in2_per_ft * (1.0 - k / 3.0) * d);
    }
    const double e = moment / thrust + d - half;
    if (e / d < 1.15) // below it the expression does not hold: the section is barely cracked
        return 0.0;
    const double j = fmin(0.9, 0.74 + 0.1 * e / d);
    const double i = 1.0 / (1.0 - j * d / e);
    return fmax(0.0, (moment + thrust * (d - half)) / (in->steel_in2_per_ft * j * i * d));
}

static void control_cracks(const cw_struct_flexure_input *in, const cw_rows *rows,
                           cw_struct_flexure *out, cw_working *working)
{
    out->has_crack = in->service_ft_lb > 0.0 && in->steel_in2_per_ft > 0.0;
    if (!out->has_crack)
        return;
    const double cover_in = in->thickness_in - in->depth_in;
    const double beta = 1.0 + cover_in / (0.7 * (in->thickness_in - cover_in));
    out->steel_psi = cw_step_add(
        working, "f_ss", "M_s/(A_s j d); with thrust (M_s + N_s (d - h/2))/(A_s j i d)",
        service_stress(in, cw_rows_value(rows, "structure.steel.ratio")), CW_DIM_PSI, crack_source);
    out->steel_limit_psi = cw_step_add(
        working, "0.6 f_y", "most stress at service",
        cw_rows_value(rows, "structure.steel.service") * in->yield_psi, CW_DIM_PSI, crack_source);
    const double widest_in = 1.5 * in->thickness_in; // spacing rule of slabs, where stress is low
    if (out->steel_psi > 0.0)
        out->spacing_in =
            fmax(0.0, fmin(widest_in, CRACK_LB_PER_IN * in->exposure / (beta * out->steel_psi) -
                                          2.0 * cover_in));
    else
        out->spacing_in = widest_in;
    cw_step_add(working, "s", "700 g_e/(b_s f_ss) - 2 d_c in kip and in, 1.5 h at most",
                out->spacing_in, CW_DIM_IN, crack_source);
    const bool holds =
        cw_meets(out->steel_psi, out->steel_limit_psi) && cw_meets(in->spacing_in, out->spacing_in);
    out->crack = holds ? CW_HOLDS : CW_FAILS;
}

cw_struct_flexure cw_struct_section_flexure(const cw_struct_flexure_input *in, const cw_rows *rows,
                                            cw_working *working)
{
    cw_struct_flexure out = {.phi = phi_of(in->phi, rows),
                             .flexure = CW_UNDECIDED,
                             .least = CW_UNDECIDED,
                             .crack = CW_UNDECIDED};
    resist(in, &out, working);
    require(in, &out, working);
    out.least_in2_per_ft =
        cw_step_add(working, "A_min", "0.002 b h",
                    cw_rows_value(rows, "structure.steel.least") * WIDTH_IN * in->thickness_in,
                    CW_DIM_SQIN_PER_FT, least_source);
    if (in->steel_in2_per_ft > 0.0)
        out.least = cw_meets(out.least_in2_per_ft, in->steel_in2_per_ft) ? CW_HOLDS : CW_FAILS;
    control_cracks(in, rows, &out, working);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_flexure_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_flexure *)output = cw_struct_section_flexure(input, &cw_data, working);
}

const cw_calc cw_calc_section_flexure = {
    .name = "section-flexure",
    .title = "Bending with thrust, least steel and cracks",
    .group = "structures",
    .about = "Resistance of a section 1 ft wide with the steel of one face, the steel it needs, "
             "least steel and crack control.  Take the section at the face of the wall or haunch "
             "and the least thrust.  Anchorage and fatigue are not covered." CW_STRUCT_REVIEW,
    .source = "equilibrium of the stress block; AASHTO LRFD 5.6, 12.11.4 from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_flexure_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_flexure),
    .valid = valid,
    .run = run,
    .example = "thickness=10in depth=8.75in steel=0.33in2/ft moment=15000ft-lb "
               "service_moment=9000ft-lb",
};
