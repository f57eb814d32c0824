/* Earth against a base that has no top yet: its walls are free cantilevers. */
#include "structures_internal.h"

#include <math.h>

#include "cw/units.h"

static const char cantilever[] = "closed form: cantilever under earth pressure";
static const char roller_source[] =
    "compaction pressure of a line load, geotechnical texts (from memory, not verified)";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

enum { HALVINGS = 80 };

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_open_input, member)

static const cw_field inputs[] = {
    IN("wall", "h_w", CW_DIM_FT, 0.5, 30.0, NULL, "clear height of the wall", range, wall_ft),
    IN("allowed", "M_a", CW_DIM_FT_LB, 1.0, 1e6, NULL,
       "factored moment the foot of the wall may take, per ft of run, tension outside", range,
       allowed_ft_lb),
    IN("earth_weight", "g_s", CW_DIM_PCF, 60.0, 160.0, "@structure.earth.unit",
       "unit weight of the fill", NULL, earth_pcf),
    IN("k", "k", CW_DIM_NONE, 0.1, 1.0, "@structure.lateral.k",
       "side pressure ratio; a stiff short wall takes the one at rest", NULL, k),
    IN("surcharge", "q", CW_DIM_PSF, 0.0, 5000.0, "@structure.plant_surcharge",
       "plant beside the wall", NULL, surcharge_psf),
    IN("roller", "p", CW_DIM_LB_PER_FT, 0.0, 20000.0, "0 lb/ft",
       "line load of a roller along the wall, dead and centrifugal; 0 for none", practice,
       roller_lb_per_ft),
    IN("earth_factor", NULL, CW_DIM_NONE, 1.0, 3.0, "@structure.factor.building.side.most",
       "on earth and compaction", NULL, earth_factor),
    IN("surcharge_factor", NULL, CW_DIM_NONE, 1.0, 3.0, "@structure.factor.building.surcharge",
       "on the surcharge", NULL, surcharge_factor),
};

static const cw_field outputs[] = {
    OUT("limit", "h", CW_DIM_FT, "earth above the floor that the wall allows", cw_struct_open,
        limit_ft),
    FLAG_OUT("to_the_top", "the wall may be filled to its top", cw_struct_open, full),
    OUT("moment", "M", CW_DIM_FT_LB, "at the foot, at that height, not factored", cw_struct_open,
        moment_ft_lb),
    OUT("shear", "V", CW_DIM_LB_PER_FT, "at the foot, at that height, not factored", cw_struct_open,
        shear_lb),
    OUT("moment_if_full", NULL, CW_DIM_FT_LB, "factored, were it filled to the top", cw_struct_open,
        full_ft_lb),
    OUT("compaction", "s_h", CW_DIM_PSF, "side pressure locked in by the roller", cw_struct_open,
        roller_psf),
    OUT("compaction_from", "z_c", CW_DIM_FT, "depth where it is reached", cw_struct_open,
        roller_from_ft),
    OUT("compaction_to", "h_c", CW_DIM_FT, "depth where earth alone presses more", cw_struct_open,
        roller_to_ft),
};

bool cw_struct_open_valid(const cw_struct_open_input *in, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), in, where, diags);
}

typedef struct foot {
    double moment, shear;
} foot;

/* Straight-line pressure between depths a and b, at the foot at depth h. */
static foot stretch(double a, double b, double pa, double pb, double h)
{
    if (!(b > a))
        return (foot){0.0, 0.0};
    const double shear = (pa + pb) / 2.0 * (b - a);
    return (foot){shear * (h - b) + (b - a) * (b - a) * (2.0 * pa + pb) / 6.0, shear};
}

static foot earth_at(const cw_struct_open_input *in, const cw_struct_open *roller, double h)
{
    const double slope = in->k * in->earth_pcf;
    if (!(in->roller_lb_per_ft > 0.0))
        return stretch(0.0, h, 0.0, slope * h, h);
    const double from = fmin(h, roller->roller_from_ft), to = fmin(h, roller->roller_to_ft);
    const double rise = roller->roller_psf / roller->roller_from_ft;
    const foot parts[3] = {stretch(0.0, from, 0.0, rise * from, h),
                           stretch(from, to, roller->roller_psf, roller->roller_psf, h),
                           stretch(to, h, slope * to, slope * h, h)};
    foot sum = {0.0, 0.0};
    for (int i = 0; i < 3; i++) {
        sum.moment += parts[i].moment;
        sum.shear += parts[i].shear;
    }
    return sum;
}

static foot surcharge_at(const cw_struct_open_input *in, double h)
{
    const double psf = in->k * in->surcharge_psf;
    return stretch(0.0, h, psf, psf, h);
}

static double factored(const cw_struct_open_input *in, const cw_struct_open *roller, double h)
{
    return in->earth_factor * earth_at(in, roller, h).moment +
           in->surcharge_factor * surcharge_at(in, h).moment;
}

cw_struct_open cw_struct_unlidded_fill(const cw_struct_open_input *in, cw_working *working)
{
    cw_struct_open out = {0};
    if (in->roller_lb_per_ft > 0.0) {
        const double p = in->roller_lb_per_ft, g = in->earth_pcf;
        out.roller_psf = cw_step_add(working, "s_h", "sqrt(2 p g_s / pi)",
                                     sqrt(2.0 * p * g / CW_PI), CW_DIM_PSF, roller_source);
        out.roller_from_ft =
            cw_step_add(working, "z_c", "k sqrt(2 p / (pi g_s))",
                        in->k * sqrt(2.0 * p / (CW_PI * g)), CW_DIM_FT, roller_source);
        out.roller_to_ft =
            cw_step_add(working, "h_c", "sqrt(2 p / (pi g_s)) / k",
                        sqrt(2.0 * p / (CW_PI * g)) / in->k, CW_DIM_FT, roller_source);
    }
    out.full_ft_lb = cw_step_add(working, "M_full", "f_e (earth, compaction) + f_s k q h_w^2/2",
                                 factored(in, &out, in->wall_ft), CW_DIM_FT_LB, cantilever);
    out.full = out.full_ft_lb <= in->allowed_ft_lb;
    double low = 0.0, high = in->wall_ft;
    for (int i = 0; i < HALVINGS && !out.full; i++) {
        const double h = (low + high) / 2.0;
        if (factored(in, &out, h) <= in->allowed_ft_lb)
            low = h;
        else
            high = h;
    }
    out.limit_ft =
        cw_step_add(working, "h", "f_e k g_s h^3/6 + f_s k q h^2/2 = M_a, with compaction",
                    out.full ? in->wall_ft : low, CW_DIM_FT, cantilever);
    const foot earth = earth_at(in, &out, out.limit_ft), plant = surcharge_at(in, out.limit_ft);
    out.moment_ft_lb = cw_step_add(working, "M", "at that height, not factored",
                                   earth.moment + plant.moment, CW_DIM_FT_LB, cantilever);
    out.shear_lb = cw_step_add(working, "V", "at that height, not factored",
                               earth.shear + plant.shear, CW_DIM_LB_PER_FT, cantilever);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_open_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_open *)output = cw_struct_unlidded_fill(input, working);
}

const cw_calc cw_calc_unlidded_fill = {
    .name = "unlidded-fill",
    .title = "Earth against a base without its top",
    .group = "structures",
    .about = "How high earth may stand against a wall that no lid props, with plant beside it "
             "and the pressure that a roller locks in.  Without a number from the engineer no "
             "earth stands more than a foot above the floor before the top is on (common "
             "practice)." CW_STRUCT_REVIEW,
    .source = "closed form: cantilever under earth pressure; factors of AASHTO LRFD 3.4 from "
              "memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_open_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_open),
    .valid = valid,
    .run = run,
    .example = "wall=8ft allowed=14361ft-lb",
};
