/* Which machine may cross at today's cover, and what cover it needs. */
#include "structures_internal.h"

#include <math.h>
#include <string.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char simple[] = "closed form: simple span between wall centre lines";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

enum { STEPS = 50, COVER_STEPS = 80, HALVINGS = 10 };
#define COVER_STEP_FT                                                                              \
    0.25 /* searched over 20 ft from the least cover; then halved to a hundredth of an inch */

static const char *const measures[] = {"pressure", "moment", "design", NULL};

typedef struct cover_input {
    cw_struct_cross_input cross;
    cw_struct_machine_input machine;
} cover_input;

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cover_input, cross.member)

static const cw_field inputs[] = {
    CHOICE_IN("measure", measures, "design",
              "against a given pressure, a given moment, or the design traffic at design cover",
              NULL, cover_input, cross.measure),
    CW_STRUCT_MACHINE_FIELDS(cover_input, machine),
    CHOICE_IN("rule", cw_struct_rules, "plain", "how patches grow through the fill", NULL,
              cover_input, cross.rule),
    IN("cover", "H", CW_DIM_FT, 0.0, 60.0, NULL, "of today, compacted", practice, cover_ft),
    IN("span", "S", CW_DIM_IN, 24.0, 600.0, NULL, "clear width", range, span_in),
    IN("wall", "t_w", CW_DIM_IN, 3.0, 60.0, NULL, "wall thickness", range, wall_in),
    IN("top", "t_t", CW_DIM_IN, 3.0, 60.0, NULL, "thickness of the top", range, top_in),
    IN("earth_weight", "g_s", CW_DIM_PCF, 60.0, 160.0, "@structure.earth.unit",
       "unit weight of the fill", NULL, earth_pcf),
    IN("unit_weight", "g_c", CW_DIM_PCF, 90.0, 200.0, "@concrete.unit_weight", "of the concrete",
       NULL, concrete_pcf),
    IN("allowed_pressure", "q_a", CW_DIM_PSF, 0.0, 100000.0, "0 psf",
       "by pressure: earth and machine together, from the box's design", practice, allowed_psf),
    IN("capacity", "M_r", CW_DIM_FT_LB, 0.0, 1e6, "0 ft-lb",
       "by moment: factored resistance of the top, per ft of run", practice, capacity_ft_lb),
    IN("design_cover", "H_d", CW_DIM_FT, 0.0, 60.0, "0 ft",
       "by design: cover that the box was designed for", practice, design_cover_ft),
    IN("least_cover", NULL, CW_DIM_FT, 0.0, 20.0, "@cover.before_equipment",
       "no machine crosses at less", NULL, least_ft),
};

static const cw_field outputs[] = {
    FLAG_OUT("may_cross", "at today's cover", cw_struct_cross, may_cross),
    OUT("live_pressure", "q", CW_DIM_PSF, "of the machine on the top, impact included",
        cw_struct_cross, live_psf),
    OUT("earth_pressure", "w", CW_DIM_PSF, "of today's earth", cw_struct_cross, earth_psf),
    OUT("use", NULL, CW_DIM_NONE, "demand over what is allowed", cw_struct_cross, ratio),
    FLAG_OUT("found", "some cover within 20 ft of the least is enough", cw_struct_cross, found),
    OUT("needed_cover", "H_n", CW_DIM_FT, "least cover that is enough; 0 when none was found",
        cw_struct_cross, needed_ft),
};

static bool cross_has_limit(const cw_struct_cross_input *in, cw_pos where, cw_diags *diags)
{
    if (in->measure == CW_STRUCT_BY_PRESSURE)
        return cw_struct_positive("allowed_pressure", in->allowed_psf, CW_DIM_PSF, where, diags);
    if (in->measure == CW_STRUCT_BY_MOMENT)
        return cw_struct_positive("capacity", in->capacity_ft_lb, CW_DIM_FT_LB, where, diags);
    return cw_struct_positive("design_cover", in->design_cover_ft, CW_DIM_FT, where, diags);
}

bool cw_struct_cross_valid(const cw_struct_cross_input *in, cw_pos where, cw_diags *diags)
{
    // The machine stands between the fields of the crossing; its own check is the caller's.
    const cover_input all = {.cross = *in, .machine = {.presence = 1.0}};
    const bool good = cw_fields_in_range(inputs, COUNT(inputs), &all, where, diags);
    const int axles = in->vehicle.axles;
    if (axles < 1 || axles > CW_STRUCT_AXLES_MAX) {
        cw_diag_add(diags, where, CW_E_RANGE, "the machine has %d axles; give 1 to %d", axles,
                    (int)CW_STRUCT_AXLES_MAX);
        return false;
    }
    return good && cross_has_limit(in, where, diags);
}

static double earth_psf(const cw_struct_cross_input *in, double cover_ft, const cw_rows *rows)
{
    const cw_struct_earth_input earth = {.compacted = true,
                                         .cover_ft = cover_ft,
                                         .outside_ft =
                                             (in->span_in + 2.0 * in->wall_in) / CW_IN_PER_FT,
                                         .earth_pcf = in->earth_pcf};
    return cw_struct_earth_load(&earth, rows, NULL).pressure_psf;
}

static cw_struct_wheel wheel_at(const cw_struct_cross_input *in, const cw_struct_vehicle *vehicle,
                                double cover_ft, const cw_rows *rows)
{
    const cw_struct_spread spread = {
        .rule = in->rule, .cover_ft = cover_ft, .span_ft = in->span_in / CW_IN_PER_FT};
    return cw_struct_wheel_pressure(vehicle, &spread, rows, NULL);
}

/* Factored moment in the middle of a simple span under earth, weight and a vehicle. */
static double span_moment(const cw_struct_cross_input *in, const cw_struct_wheel *wheel,
                          double cover_ft, const char *live_id, const cw_rows *rows)
{
    const double span_ft = (in->span_in + in->wall_in) / CW_IN_PER_FT;
    const double earth = cw_rows_value(rows, "structure.factor.earth_modifier") *
                         cw_rows_value(rows, "structure.factor.strength.earth.most") *
                         earth_psf(in, cover_ft, rows);
    const double weight = cw_rows_value(rows, "structure.factor.strength.weight.most") *
                          in->concrete_pcf * in->top_in / CW_IN_PER_FT;
    return (earth + weight) * span_ft * span_ft / 8.0 +
           cw_rows_value(rows, live_id) * cw_struct_simple_span_moment(wheel, span_ft, STEPS);
}

double cw_struct_cross_demand(const cw_struct_cross_input *in, double cover_ft, const cw_rows *rows)
{
    const cw_struct_wheel wheel = wheel_at(in, &in->vehicle, cover_ft, rows);
    if (in->measure == CW_STRUCT_BY_PRESSURE)
        return wheel.pressure_psf + earth_psf(in, cover_ft, rows);
    return span_moment(in, &wheel, cover_ft, "structure.factor.building.live", rows);
}

static double allowed_by(const cw_struct_cross_input *in, const cw_rows *rows)
{
    if (in->measure == CW_STRUCT_BY_PRESSURE)
        return in->allowed_psf;
    if (in->measure == CW_STRUCT_BY_MOMENT)
        return in->capacity_ft_lb;
    double most = 0.0;
    for (int i = CW_STRUCT_TRUCK; i <= CW_STRUCT_TANDEM; i++) {
        const cw_struct_vehicle vehicle = cw_struct_design_vehicle((cw_struct_machine)i, rows);
        cw_struct_wheel wheel = wheel_at(in, &vehicle, in->design_cover_ft, rows);
        if (!wheel.counts)
            wheel.patch_count = 0;
        most = fmax(most, span_moment(in, &wheel, in->design_cover_ft,
                                      "structure.factor.strength.live", rows));
    }
    return most;
}

/* Enough at this cover and, where that is thin, also where the rule of thin cover ends: the rules
 * meet with a step, and cover only grows. */
static bool enough(const cw_struct_cross_input *in, double cover_ft, double allowed,
                   const cw_rows *rows)
{
    const double thin_ft = cw_rows_value(rows, "structure.thin_cover");
    return cw_meets(cw_struct_cross_demand(in, cover_ft, rows), allowed) &&
           (cover_ft >= thin_ft || cw_meets(cw_struct_cross_demand(in, thin_ft, rows), allowed));
}

static void find_cover(const cw_struct_cross_input *in, const cw_rows *rows, cw_struct_cross *out)
{
    for (int i = 0; i <= COVER_STEPS && !out->found; i++) {
        double high = in->least_ft + i * COVER_STEP_FT;
        if (!enough(in, high, out->allowed, rows))
            continue;
        double low = fmax(in->least_ft, high - COVER_STEP_FT);
        for (int k = 0; k < HALVINGS && i > 0; k++) {
            const double middle = (low + high) / 2.0;
            if (enough(in, middle, out->allowed, rows))
                high = middle;
            else
                low = middle;
        }
        out->found = true;
        out->needed_ft = high;
    }
}

cw_struct_cross cw_struct_machine_cover(const cw_struct_cross_input *in, const cw_rows *rows,
                                        cw_working *working)
{
    cw_struct_cross out = {.wheel = wheel_at(in, &in->vehicle, in->cover_ft, rows)};
    const bool pressure = in->measure == CW_STRUCT_BY_PRESSURE;
    const cw_dim dim = pressure ? CW_DIM_PSF : CW_DIM_FT_LB;
    out.live_psf = cw_step_add(working, "q", "P (1 + IM) m / (w_w l_w)", out.wheel.pressure_psf,
                               CW_DIM_PSF, "AASHTO LRFD 3.6.1.2.6 (from memory, not verified)");
    out.earth_psf = cw_step_add(working, "w", "F_e g_s H", earth_psf(in, in->cover_ft, rows),
                                CW_DIM_PSF, "AASHTO LRFD 12.11.2.2.1");
    out.demand = cw_step_add(working, pressure ? "p" : "M_u",
                             pressure ? "q + w" : "1.05 x 1.30 M_E + 1.25 M_D + 1.50 M_L",
                             cw_struct_cross_demand(in, in->cover_ft, rows), dim, pressure ? practice : simple);
    out.allowed = cw_step_add(working, pressure ? "q_a" : "M_a",
                              in->measure == CW_STRUCT_BY_DESIGN
                                  ? "the same of the design traffic at H_d, 1.75 M_L"
                                  : "given",
                              allowed_by(in, rows), dim, pressure ? practice : simple);
    out.ratio = out.demand / out.allowed;
    out.may_cross =
        enough(in, in->cover_ft, out.allowed, rows) && cw_meets(in->least_ft, in->cover_ft);
    find_cover(in, rows, &out);
    cw_step_add(working, "H_n", "least cover at which demand <= allowed, least_cover at least",
                out.needed_ft, CW_DIM_FT, simple);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    const cover_input *in = input;
    return cw_fields_in_range(inputs, COUNT(inputs), in, where, diags) &&
           cw_struct_machine_valid(&in->machine, where, diags) &&
           cross_has_limit(&in->cross, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    const cover_input *in = input;
    cw_struct_cross_input cross = in->cross;
    cross.vehicle = cw_struct_machine_vehicle(&in->machine, &cw_data);
    *(cw_struct_cross *)output = cw_struct_machine_cover(&cross, &cw_data, working);
}

const cw_calc cw_calc_machine_cover = {
    .name = "machine-cover",
    .title = "Machine over the box",
    .group = "structures",
    .about = "Whether a machine may cross at today's cover, and the least cover that is enough.  "
             "The top is taken as a simple span.  Shear, edges of lids without joint keys and a "
             "machine beside the wall are not covered; fill must be compacted." CW_STRUCT_REVIEW,
    .source = "closed form: simple span; AASHTO LRFD 3.6.1.2.6 and 3.4 from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cover_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_cross),
    .valid = valid,
    .run = run,
    .example =
        "machine=tracks machine_weight=100000lb gauge=9ft patch_width=24in patch_length=144in "
        "impact=no presence=1 cover=2ft span=14ft wall=10in top=12in design_cover=4ft",
};
