#include "structures_internal.h"

#include "cw/tolerance.h"
#include "cw/units.h"

static const char statics[] = "closed form: statics";
static const char manual[] = "government foundation manual: 1 in of settlement at failure";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_bearing_input,     \
              member)

static const cw_field inputs[] = {
    IN("outside_width", "B", CW_DIM_FT, 1.0, 120.0, NULL, "that bears", range, outside_ft),
    IN("dead", "G", CW_DIM_LB_PER_FT, 0.0, 500000.0, NULL, "weight of the box, per ft of run",
       range, dead_lb_per_ft),
    IN("earth", "w", CW_DIM_PSF, 0.0, 30000.0, "0 psf", "on the top", practice, earth_psf),
    IN("live", "q", CW_DIM_PSF, 0.0, 30000.0, "0 psf", "traffic, spread over the width", practice,
       live_psf),
    IN("water", "W", CW_DIM_LB_PER_FT, 0.0, 200000.0, "0 lb/ft", "inside", practice,
       water_lb_per_ft),
    IN("allowed", "q_a", CW_DIM_PSF, 0.0, 100000.0, "0 psf",
       "allowed bearing pressure; 0 when not known", practice, allowed_psf),
    IN("ground_stiffness", "k_s", CW_DIM_PCF, 0.0, 5e6, "0 pcf",
       "pressure over settlement; 0 estimates it from the allowed pressure", practice, ground_pcf),
    IN("slope", "s", CW_DIM_SLOPE, 0.0, 1.0, "0 %", "of the bed along the run", practice, slope),
    IN("friction", "mu", CW_DIM_NONE, 0.05, 1.0, "@structure.friction", "on the bed", NULL,
       friction),
};

static const cw_field outputs[] = {
    OUT("pressure", "q", CW_DIM_PSF, "under the floor, all loads", cw_struct_bearing, pressure_psf),
    CHOICE_OUT("check", cw_verdict_words, "that against the allowed pressure", cw_struct_bearing,
               verdict),
    FLAG_OUT("has_settlement", "the ground's stiffness is known", cw_struct_bearing,
             has_settlement),
    OUT("stiffness", "k_s", CW_DIM_PCF, "taken", cw_struct_bearing, ground_pcf),
    OUT("settlement", NULL, CW_DIM_IN, "under lasting loads, within a factor of two",
        cw_struct_bearing, settlement_in),
    FLAG_OUT("can_slide", "the bed slopes", cw_struct_bearing, has_slide),
    OUT("slide_safety", NULL, CW_DIM_NONE, "friction over slope; 0 on a level bed",
        cw_struct_bearing, slide),
};

bool cw_struct_bearing_valid(const cw_struct_bearing_input *in, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), in, where, diags);
}

cw_struct_bearing cw_struct_bear(const cw_struct_bearing_input *in, const cw_rows *rows,
                                 cw_working *working)
{
    cw_struct_bearing out = {.verdict = CW_UNDECIDED, .ground_pcf = in->ground_pcf};
    const double lasting_psf = in->dead_lb_per_ft / in->outside_ft + in->earth_psf;
    out.pressure_psf = cw_step_add(
        working, "q", "G/B + w + q + W/B",
        lasting_psf + in->live_psf + in->water_lb_per_ft / in->outside_ft, CW_DIM_PSF, statics);
    if (in->allowed_psf > 0.0)
        out.verdict = cw_meets(out.pressure_psf, in->allowed_psf) ? CW_HOLDS : CW_FAILS;
    if (!(in->ground_pcf > 0.0))
        out.ground_pcf =
            cw_step_add(working, "k_s", "36 q_a, per ft",
                        cw_rows_value(rows, "structure.ground_per_allowed") * in->allowed_psf,
                        CW_DIM_PCF, manual);
    out.has_settlement = out.ground_pcf > 0.0;
    if (out.has_settlement)
        out.settlement_in =
            cw_step_add(working, "d", "(G/B + w) / k_s",
                        lasting_psf / out.ground_pcf * CW_IN_PER_FT, CW_DIM_IN, statics);
    out.has_slide = in->slope > 0.0;
    if (out.has_slide)
        out.slide =
            cw_step_add(working, "F_s", "mu / s", in->friction / in->slope, CW_DIM_NONE, statics);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_bearing_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_bearing *)output = cw_struct_bear(input, &cw_data, working);
}

const cw_calc cw_calc_bearing = {
    .name = "bearing",
    .title = "Bearing, settlement and sliding on the bed",
    .group = "structures",
    .about = "Even pressure under the floor, settlement by one spring, and friction of a piece on "
             "a sloping bed.  The pressure under the walls may be double: see frame-moments on "
             "springs." CW_STRUCT_REVIEW,
    .source = "closed form: statics; stiffness of the ground from a foundation manual",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_bearing_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_bearing),
    .valid = valid,
    .run = run,
    .example = "outside_width=15.667ft dead=6767lb/ft earth=504.5psf allowed=3000psf slope=5%",
};
