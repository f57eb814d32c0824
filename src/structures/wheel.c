/* Wheels and tracks through the fill. */
#include "structures_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"

#define SHEAR_SLACK 1e-12 /* of the reaction */

static const char spread_source[] = "AASHTO LRFD 3.6.1.2.6 (from memory, not verified)";
static const char strip_source[] =
    "AASHTO LRFD 4.6.2.10.2, as concrete pipe industry training slides (2021) quote it";
static const char impact_source[] = "AASHTO LRFD 3.6.2.2 (from memory, not verified)";
static const char area[] = "closed form: load over area";

enum { SPAN_STEPS_MAX = 2000 };

/* How patches grow: widths in ft. */
typedef struct growth {
    double impact, spread;
    double wheel_ft, run_ft; /* of one wheel across, of one axle along */
    double strip_ft;         /* thin cover: width of slab for one axle */
    bool across;
} growth;

static growth grow(const cw_struct_vehicle *vehicle, const cw_struct_spread *spread, bool thin,
                   const cw_rows *rows)
{
    growth g = {.impact = 1.0};
    const double cover_ft = spread->cover_ft;
    if (vehicle->impact)
        g.impact +=
            fmax(0.0, cw_rows_value(rows, "structure.impact.most") / CW_PERCENT *
                          (1.0 - cw_rows_value(rows, "structure.impact.per_ft") * cover_ft));
    g.spread = cw_rows_value(rows, spread->rule == CW_STRUCT_RULE_FINE ? "structure.spread.fine"
                                                                       : "structure.spread.box");
    const double term_ft = spread->rule == CW_STRUCT_RULE_BOX
                               ? cw_rows_value(rows, "structure.spread.span_term") * spread->span_ft
                               : 0.0;
    g.wheel_ft = vehicle->patch_width_in / CW_IN_PER_FT + g.spread * cover_ft + term_ft;
    g.run_ft = vehicle->patch_length_in / CW_IN_PER_FT + g.spread * cover_ft;
    g.across = thin || vehicle->gauge_ft <= g.wheel_ft;
    g.strip_ft = (cw_rows_value(rows, "structure.strip.base") +
                  cw_rows_value(rows, "structure.strip.per_ft") * spread->span_ft) /
                 CW_IN_PER_FT;
    return g;
}

/* Load on the patch of axles first..last, and its strip. */
static cw_struct_patch strip_of(const cw_struct_vehicle *vehicle, const growth *g, double width_ft,
                                int first, int last)
{
    double load_lb = 0.0;
    for (int i = first; i <= last; i++)
        load_lb += vehicle->axle_lb[i] * (g->across ? 1.0 : 0.5);
    load_lb *= vehicle->presence * g->impact;
    const cw_struct_patch patch = {.from_ft = vehicle->at_ft[first] - g->run_ft / 2.0,
                                   .to_ft = vehicle->at_ft[last] + g->run_ft / 2.0};
    return (cw_struct_patch){patch.from_ft, patch.to_ft,
                             load_lb / (width_ft * (patch.to_ft - patch.from_ft))};
}

static void patch_add(cw_struct_wheel *out, cw_struct_patch patch, int axles)
{
    assert(out->patch_count < CW_STRUCT_PATCHES_MAX);
    out->patches[out->patch_count++] = patch;
    // Strips that overlap add up: the worst pressure is that at the start of one of them.
    for (int i = 0; i < out->patch_count; i++) {
        double psf = 0.0;
        for (int k = 0; k < out->patch_count; k++)
            if (out->patches[k].from_ft <= out->patches[i].from_ft &&
                out->patches[k].to_ft > out->patches[i].from_ft)
                psf += out->patches[k].psf;
        if (psf <= out->pressure_psf)
            continue;
        out->pressure_psf = psf;
        out->length_ft = patch.to_ft - patch.from_ft;
        out->axles = axles;
    }
}

/* Axles whose strips touch share one strip, unless the heaviest of them alone presses harder than
 * their average: then their strips stay apart and overlap, which is on the safe side. */
static void add_strips(cw_struct_wheel *out, const cw_struct_vehicle *vehicle, const growth *g,
                       bool merge)
{
    int first = 0;
    while (first < vehicle->axles) {
        int last = first;
        while (merge && last + 1 < vehicle->axles &&
               vehicle->at_ft[last + 1] - vehicle->at_ft[last] <= g->run_ft)
            last++;
        const cw_struct_patch whole = strip_of(vehicle, g, out->width_ft, first, last);
        bool even = true;
        for (int i = first; i <= last; i++)
            even =
                even && strip_of(vehicle, g, out->width_ft, i, i).psf <= whole.psf * (1.0 + 1e-12);
        if (even)
            patch_add(out, whole, last - first + 1);
        for (int i = first; !even && i <= last; i++)
            patch_add(out, strip_of(vehicle, g, out->width_ft, i, i), 1);
        first = last + 1;
    }
}

static bool traffic_counts(const cw_struct_spread *spread, const cw_rows *rows)
{
    if (spread->barrels_ft > 0.0)
        return spread->cover_ft <= spread->barrels_ft;
    return spread->cover_ft <= cw_rows_value(rows, "structure.live.left_out") ||
           spread->cover_ft <= spread->span_ft;
}

cw_struct_wheel cw_struct_wheel_pressure(const cw_struct_vehicle *vehicle,
                                         const cw_struct_spread *spread, const cw_rows *rows,
                                         cw_working *working)
{
    assert(vehicle->axles >= 1 && vehicle->axles <= CW_STRUCT_AXLES_MAX && spread->cover_ft >= 0.0);
    cw_struct_wheel out = {.counts = traffic_counts(spread, rows)};
    out.thin = spread->cover_ft < cw_rows_value(rows, "structure.thin_cover");
    const growth g = grow(vehicle, spread, out.thin, rows);
    out.impact = cw_step_add(working, "1 + IM", "1 + 0.33 (1 - 0.125 H), 1 at least; 1 without",
                             g.impact, CW_DIM_NONE, impact_source);
    out.spread = g.spread;
    out.merged_across = g.across;
    if (out.thin)
        out.width_ft = cw_step_add(working, "E", "96 + 1.44 S, in inches, S in ft", g.strip_ft,
                                   CW_DIM_FT, strip_source);
    else
        out.width_ft = cw_step_add(
            working, "w_w", "w_t + factor x H + span term, and s_w where wheels merge",
            g.wheel_ft + (g.across ? vehicle->gauge_ft : 0.0), CW_DIM_FT, spread_source);
    add_strips(&out, vehicle, &g, !out.thin);
    cw_step_add(working, "l_w", "l_t + factor x H, and the spacing of axles that merge",
                out.length_ft, CW_DIM_FT, spread_source);
    cw_step_add(working, "q", "P (1 + IM) m / (w_w l_w), overlapping strips added",
                out.pressure_psf, CW_DIM_PSF, area);
    out.load_lb = cw_step_add(working, "P'", "q w_w l_w",
                              out.pressure_psf * out.width_ft * out.length_ft, CW_DIM_LB, area);
    return out;
}

/* Strips that stand on a simple span. */
typedef struct span_load {
    int count;
    cw_struct_patch patches[CW_STRUCT_PATCHES_MAX];
    double left_lb; /* reaction */
} span_load;

static span_load load_of(const cw_struct_wheel *wheel, double shift_ft, double span_ft)
{
    span_load out = {.count = 0};
    for (int p = 0; p < wheel->patch_count; p++) {
        const cw_struct_patch patch = wheel->patches[p];
        const double a = fmax(0.0, patch.from_ft + shift_ft), b = fmin(span_ft, patch.to_ft + shift_ft);
        if (b <= a)
            continue;
        out.patches[out.count++] = (cw_struct_patch){a, b, patch.psf};
        out.left_lb += patch.psf * (b - a) * (span_ft - (a + b) / 2.0) / span_ft;
    }
    return out;
}

typedef struct span_force {
    double shear_lb, moment_ft_lb, load_psf;
} span_force;

static span_force force_at(const span_load *load, double x_ft)
{
    span_force out = {load->left_lb, load->left_lb * x_ft, 0.0};
    for (int p = 0; p < load->count; p++) {
        const cw_struct_patch patch = load->patches[p];
        const double run = fmax(0.0, fmin(x_ft, patch.to_ft) - patch.from_ft);
        out.shear_lb -= patch.psf * run;
        out.moment_ft_lb -= patch.psf * run * (x_ft - patch.from_ft - run / 2.0);
        if (x_ft > patch.from_ft && x_ft < patch.to_ft)
            out.load_psf += patch.psf;
    }
    return out;
}

/* Loads push down only, so the moment is greatest where the shear, which falls all the way, is nothing: found by tangents of
 * its straight parts, halved where a tangent leaves what is left of the span. */
static double worst_moment(const cw_struct_wheel *wheel, double shift_ft, double span_ft)
{
    enum { ROUNDS = 60 };
    const span_load load = load_of(wheel, shift_ft, span_ft);
    double low_ft = 0.0, high_ft = span_ft, x_ft = span_ft / 2.0, most = 0.0;
    for (int i = 0; i < ROUNDS && load.count > 0; i++) {
        const span_force force = force_at(&load, x_ft);
        most = fmax(most, force.moment_ft_lb);
        if (fabs(force.shear_lb) <= SHEAR_SLACK * load.left_lb)
            break;
        if (force.shear_lb > 0.0)
            low_ft = x_ft;
        else
            high_ft = x_ft;
        x_ft = force.load_psf > 0.0 ? x_ft + force.shear_lb / force.load_psf : low_ft;
        if (!(x_ft > low_ft && x_ft < high_ft))
            x_ft = (low_ft + high_ft) / 2.0;
    }
    return most;
}

double cw_struct_simple_span_moment(const cw_struct_wheel *wheel, double span_ft, int steps)
{
    assert(span_ft > 0.0 && steps >= 2 && steps <= SPAN_STEPS_MAX);
    double most = 0.0;
    // Each strip in turn steps over the span from mid-span outward, so that it is centred once.
    for (int p = 0; p < wheel->patch_count; p++) {
        const double middle_ft = (wheel->patches[p].from_ft + wheel->patches[p].to_ft) / 2.0;
        for (int k = 0; k <= steps; k++)
            most = fmax(most, worst_moment(wheel, span_ft * k / steps - middle_ft, span_ft));
    }
    return most;
}

/* ---- calculator ---- */

typedef struct wheel_input {
    cw_struct_machine_input machine;
    cw_struct_spread spread;
} wheel_input;

typedef struct wheel_output {
    bool counts;
    double impact, width_ft, length_ft;
    int axles;
    double pressure_psf, strip_lb_per_ft, simple_ft_lb;
} wheel_output;

static const cw_field inputs[] = {
    CW_STRUCT_MACHINE_FIELDS(wheel_input, machine),
    NUMBER_IN("cover", "H", CW_DIM_FT, 0.0, 60.0, NULL, "earth and pavement over the top",
              "common practice", wheel_input, spread.cover_ft),
    NUMBER_IN("span", "S", CW_DIM_FT, 1.0, 60.0, NULL, "clear, of one cell", "common practice",
              wheel_input, spread.span_ft),
    NUMBER_IN("barrels_width", NULL, CW_DIM_FT, 0.0, 200.0, "0 ft",
              "outside to outside of several barrels; 0 for one", "common practice", wheel_input,
              spread.barrels_ft),
    CHOICE_IN("rule", cw_struct_rules, "box",
              "how patches grow: box with the span term, plain without it, or fine soil", NULL,
              wheel_input, spread.rule),
};

static const cw_field outputs[] = {
    FLAG_OUT("counts", "traffic counts at this cover", wheel_output, counts),
    OUT("impact_factor", "1 + IM", CW_DIM_NONE, "dynamic allowance as applied", wheel_output,
        impact),
    OUT("width", "w_w", CW_DIM_FT, "of the patch, or of the strip under thin cover", wheel_output,
        width_ft),
    OUT("length", "l_w", CW_DIM_FT, "of the patch along the span", wheel_output, length_ft),
    COUNT_OUT("axles_merged", NULL, "axles in that patch", wheel_output, axles),
    OUT("pressure", "q", CW_DIM_PSF, "on the top, presence and impact included", wheel_output,
        pressure_psf),
    OUT("strip_load", "q l_w", CW_DIM_LB_PER_FT, "of that patch on a strip 1 ft wide", wheel_output,
        strip_lb_per_ft),
    OUT("moment", "M", CW_DIM_FT_LB,
        "greatest in a simple span of the clear width, per ft of run, not factored", wheel_output,
        simple_ft_lb),
};

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    const wheel_input *in = input;
    return cw_fields_in_range(inputs, COUNT(inputs), in, where, diags) &&
           cw_struct_machine_valid(&in->machine, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    enum { STEPS = 100 };
    const wheel_input *in = input;
    const cw_struct_vehicle vehicle = cw_struct_machine_vehicle(&in->machine, &cw_data);
    const cw_struct_wheel wheel =
        cw_struct_wheel_pressure(&vehicle, &in->spread, &cw_data, working);
    const double moment =
        cw_step_add(working, "M", "strips stepped over a simple span of the clear width",
                    cw_struct_simple_span_moment(&wheel, in->spread.span_ft, STEPS), CW_DIM_FT_LB,
                    "closed form: simple span");
    *(wheel_output *)output =
        (wheel_output){.counts = wheel.counts,
                       .impact = wheel.impact,
                       .width_ft = wheel.width_ft,
                       .length_ft = wheel.length_ft,
                       .axles = wheel.axles,
                       .pressure_psf = wheel.pressure_psf,
                       .strip_lb_per_ft = wheel.pressure_psf * wheel.length_ft,
                       .simple_ft_lb = moment};
}

const cw_calc cw_calc_wheel_pressure = {
    .name = "wheel-pressure",
    .title = "Wheels and tracks through the fill",
    .group = "structures",
    .about = "Pressure of a truck, an axle list or a crawler on the top, travelling along the "
             "span.  Compare moments and not pressures: a longer patch can win.  Traffic across "
             "the span under thin cover is not covered." CW_STRUCT_REVIEW,
    .source = "AASHTO LRFD 3.6.1.2.6, 4.6.2.10 and 3.6.2.2; constants from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(wheel_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(wheel_output),
    .valid = valid,
    .run = run,
    .example = "machine=tandem cover=4ft span=12ft",
};
