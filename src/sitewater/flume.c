#include "sitewater_internal.h"

#include <math.h>

#include "cw/units.h"

/* Halvings of 50 ft: down to the last bit of a double. */
enum { HALVINGS = 60 };

/* Between these Froude numbers the surface is unsteady. */
#define FROUDE_SLOW 0.86
#define FROUDE_FAST 1.13

static const char manning[] = "Manning, factor 1.486 in ft and s";
static const char shape[] = "closed form: trapezoid";
static const char practice[] = "common practice";

static const char *const states[] = {"slow", "unsteady", "fast", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, member)                                 \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, practice, cw_flume_input, member)

static const cw_field inputs[] = {
    IN("flow", "Q", CW_DIM_CFS, 0.01, 20000.0, NULL, "carried by the flume", flow_cfs),
    IN("width", "b", CW_DIM_FT, 0.5, 200.0, NULL, "bottom width", width_ft),
    IN("side_slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 6.0, "vertical", "of each side", side_slope),
    IN("slope", "S", CW_DIM_SLOPE, 0.0001, 0.5, NULL, "of the bottom", slope),
    IN("roughness", "n", CW_DIM_NONE, 0.008, 0.2, NULL,
       "Manning n: plastic sheet 0.009 to 0.011, boards 0.012 to 0.014, stone 0.045 to 0.125",
       roughness),
    NUMBER_IN("freeboard", "f", CW_DIM_FT, 0.0, 5.0, "@freeboard.flume", "above the water", NULL,
              cw_flume_input, freeboard_ft),
};

static const cw_field outputs[] = {
    CHOICE_OUT("status", cw_sitewater_found, "whether a depth under 50 ft carries the flow",
               cw_flume, status),
    OUT("depth", "y", CW_DIM_FT, "of the water", cw_flume, depth_ft),
    OUT("velocity", "V", CW_DIM_FPS, "of the water", cw_flume, velocity_fps),
    OUT("froude", "Fr", CW_DIM_NONE, "V / sqrt(g A/T)", cw_flume, froude),
    CHOICE_OUT("state", states, "of the flow; fast and unsteady water needs more freeboard",
               cw_flume, state),
    OUT("height", "H", CW_DIM_FT, "with freeboard", cw_flume, height_ft),
    OUT("top_width", "T_h", CW_DIM_FT, "at that height", cw_flume, top_ft),
    COUNT_OUT("iterations", NULL, "halvings of the bracket", cw_flume, iterations),
    OUT("residual", NULL, CW_DIM_CFS, "flow at the depth less the flow", cw_flume, residual_cfs),
};

bool cw_flume_input_valid(const cw_flume_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

static double area_sqft(const cw_flume_input *in, double depth_ft)
{
    return (in->width_ft + in->side_slope * depth_ft) * depth_ft;
}

static double manning_cfs(const cw_flume_input *in, double depth_ft)
{
    const double area = area_sqft(in, depth_ft);
    const double wet_ft = in->width_ft + 2.0 * depth_ft * hypot(1.0, in->side_slope);
    return MANNING_FT / in->roughness * area * pow(area / wet_ft, 2.0 / 3.0) * sqrt(in->slope);
}

/* The flow of a trapezoid rises with depth, so halving cannot fail once the bracket holds it. */
static void find_depth(cw_flume *out, const cw_flume_input *in)
{
    double low_ft = 0.0, high_ft = CW_FLUME_DEPTH_MAX_FT;
    out->status = manning_cfs(in, high_ft) >= in->flow_cfs ? CW_FOUND : CW_FOUND_NONE;
    if (out->status == CW_FOUND)
        for (; out->iterations < HALVINGS; out->iterations++) {
            const double middle_ft = (low_ft + high_ft) / 2.0;
            if (manning_cfs(in, middle_ft) < in->flow_cfs)
                low_ft = middle_ft;
            else
                high_ft = middle_ft;
        }
    out->depth_ft = high_ft;
    out->residual_cfs = manning_cfs(in, high_ft) - in->flow_cfs;
}

cw_flume cw_sitewater_flume(const cw_flume_input *in, cw_working *working)
{
    cw_flume out = {.iterations = 0};
    find_depth(&out, in);
    cw_step_add(working, "y", "depth at which 1.486/n A R^(2/3) S^(1/2) is Q, by halving",
                out.depth_ft, CW_DIM_FT, manning);
    const double area =
        cw_step_add(working, "A", "(b + z y) y", area_sqft(in, out.depth_ft), CW_DIM_SQFT, shape);
    out.velocity_fps =
        cw_step_add(working, "V", "Q / A", in->flow_cfs / area, CW_DIM_FPS, "continuity");
    const double surface_ft = in->width_ft + 2.0 * in->side_slope * out.depth_ft;
    out.froude = cw_step_add(working, "Fr", "V / sqrt(g A/T)",
                             out.velocity_fps / sqrt(GRAVITY_FT_PER_S2 * area / surface_ft),
                             CW_DIM_NONE, "open-channel flow, definition");
    out.state = out.froude < FROUDE_SLOW   ? CW_FLUME_SLOW
                : out.froude > FROUDE_FAST ? CW_FLUME_FAST
                                           : CW_FLUME_UNSTEADY;
    out.height_ft =
        cw_step_add(working, "H", "y + f", out.depth_ft + in->freeboard_ft, CW_DIM_FT, practice);
    out.top_ft = cw_step_add(working, "T_h", "b + 2 z H",
                             in->width_ft + 2.0 * in->side_slope * out.height_ft, CW_DIM_FT, shape);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_flume_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_flume *)output = cw_sitewater_flume(input, working);
}

const cw_calc cw_calc_flume = {
    .name = "flume",
    .title = "Flume or lined ditch round the work",
    .group = "sitewater",
    .about = "Depth of uniform flow in a rectangle or trapezoid, and its height with freeboard.  "
             "Bends, backwater from the outlet and the drop at the inlet are not considered.",
    .source = "Manning, factor 1.486 in ft and s",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_flume_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_flume),
    .valid = valid,
    .run = run,
    .example = "flow=60cfs width=4ft side_slope=1:1 slope=0.5% roughness=0.011",
};
