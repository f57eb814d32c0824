/* Calculators of depths: critical-depth, normal-depth, trapezoid-depth, composite-roughness and
 * hydraulic-jump. */
#include <math.h>
#include <stddef.h>

#include "cw/units.h"
#include "hydraulics_internal.h"

#define FLOW_MOST_CFS 1e6
static const char manning[] = "Manning's formula, factor 1.486 as in FHWA HDS-5";

/* ---- depths of a channel ---- */

typedef struct channel_input {
    double flow_cfs, width_ft, side_slope, n, slope;
} channel_input;

/* Rectangles take the first part of the table, trapezoids all of it. */
static const cw_field channel_inputs[] = {
    NUMBER_IN("flow", "Q", CW_DIM_CFS, 1e-6, FLOW_MOST_CFS, NULL, true, "flow", NULL, channel_input,
              flow_cfs),
    NUMBER_IN("width", "b", CW_DIM_FT, 0.05, 10000, NULL, true, "width of the bottom", NULL,
              channel_input, width_ft),
    NUMBER_IN("n", "n", CW_DIM_NONE, 0.005, 1, NULL, true, "Manning's roughness", NULL,
              channel_input, n),
    NUMBER_IN("slope", "S", CW_DIM_SLOPE, -0.5, 0.5, NULL, true,
              "slope of the bed, positive when it falls with the water", NULL, channel_input,
              slope),
    NUMBER_IN("side_slope", "z", CW_DIM_SIDE_SLOPE, 0, 20, NULL, true,
              "side slope, horizontal to 1 vertical", NULL, channel_input, side_slope),
};

enum { CRITICAL_INPUTS = 2, NORMAL_INPUTS = 4, TRAPEZOID_INPUTS = 5 };
_Static_assert(COUNT_OF(channel_inputs) == TRAPEZOID_INPUTS, "the stretches cover the table");

typedef struct depth_output {
    int result;
    bool has_normal;
    double normal_ft, low_ft, high_ft, residual;
    int iterations;
    double critical_ft, energy_ft, critical_fps;
    double velocity_fps, froude, area_sqft, radius_ft;
} depth_output;

#define IF_NORMAL offsetof(depth_output, has_normal)

static const cw_field depth_outputs[] = {
    OUT("critical_depth", "y_c", CW_DIM_COORD_FT, "depth of least energy", depth_output,
        critical_ft, CW_NO_FLAG),
    OUT("critical_velocity", "V_c", CW_DIM_FPS, "mean velocity at critical depth", depth_output,
        critical_fps, CW_NO_FLAG),
    OUT("critical_energy", "H_c", CW_DIM_COORD_FT, "critical depth and its velocity head",
        depth_output, energy_ft, CW_NO_FLAG),
    WORD_OUT("result", "how the search for normal depth ended", cw_water_status_choices,
             depth_output, result),
    OUT("normal_depth", "y_n", CW_DIM_COORD_FT, "depth of uniform flow", depth_output, normal_ft,
        IF_NORMAL),
    OUT("velocity", "V", CW_DIM_FPS, "mean velocity at normal depth", depth_output, velocity_fps,
        IF_NORMAL),
    OUT("froude", "Fr", CW_DIM_NONE, "Froude number at normal depth; above 1 the flow is fast",
        depth_output, froude, IF_NORMAL),
    OUT("area", "A", CW_DIM_SQFT, "wet area at normal depth", depth_output, area_sqft, IF_NORMAL),
    OUT("radius", "R", CW_DIM_COORD_FT, "hydraulic radius at normal depth", depth_output, radius_ft,
        IF_NORMAL),
    COUNT_OUT("iterations", "steps of the search", depth_output, iterations, IF_NORMAL),
    OUT("bracket_low", NULL, CW_DIM_COORD_FT, "low end of the last bracket", depth_output, low_ft,
        IF_NORMAL),
    OUT("bracket_high", NULL, CW_DIM_COORD_FT, "high end of the last bracket", depth_output,
        high_ft, IF_NORMAL),
    OUT("residual", NULL, CW_DIM_NONE, "relative miss of the flow", depth_output, residual,
        IF_NORMAL),
};

enum { CRITICAL_OUTPUTS = 3 };

static cw_water_section section_of(const channel_input *in)
{
    return (cw_water_section){
        .shape = in->side_slope > 0.0 ? CW_WATER_TRAPEZOID : CW_WATER_RECTANGLE,
        .bottom_ft = in->width_ft,
        .side_slope = in->side_slope,
        .n = in->n,
    };
}

static void critical(const channel_input *in, depth_output *out, cw_working *working)
{
    cw_water_section section = section_of(in);
    if (section.n == 0.0)
        section.n = 0.012; /* not used for critical depth, and not asked for */
    const cw_water_root root = cw_water_critical_depth(&section, in->flow_cfs);
    const double area = cw_water_section_at(&section, root.value).area_sqft;
    if (section.shape == CW_WATER_RECTANGLE)
        cw_step_add(working, "q", "Q/b", in->flow_cfs / in->width_ft, CW_DIM_SQFT,
                    "flow per foot of width, ft2/s");
    out->critical_ft =
        cw_step_add(working, "y_c",
                    section.shape == CW_WATER_RECTANGLE ? "(q^2/g)^(1/3)" : "root of Q^2 T = g A^3",
                    root.value, CW_DIM_COORD_FT, "derived: least energy; g = 32.2 ft/s2");
    out->critical_fps =
        cw_step_add(working, "V_c", "Q/A_c", in->flow_cfs / area, CW_DIM_FPS, "continuity");
    out->energy_ft = cw_step_add(working, "H_c", "y_c + V_c^2/2g",
                                 root.value + out->critical_fps * out->critical_fps / TWO_G,
                                 CW_DIM_COORD_FT, "energy");
}

static void critical_run(const void *input, void *output, cw_working *working)
{
    depth_output *out = output;
    *out = (depth_output){0};
    critical(input, out, working);
}

static void normal_run(const void *input, void *output, cw_working *working)
{
    const channel_input *in = input;
    depth_output *out = output;
    *out = (depth_output){0};
    critical(in, out, working);
    const cw_water_section section = section_of(in);
    const cw_water_root root = cw_water_normal_depth(&section, in->flow_cfs, in->slope);
    out->result = (int)root.status;
    out->has_normal = root.status == CW_WATER_OK;
    if (!out->has_normal)
        return;
    const cw_water_wet wet = cw_water_section_at(&section, root.value);
    out->normal_ft = cw_step_add(working, "y_n", "root of Q = 1.486/n A R^(2/3) S^(1/2)",
                                 root.value, CW_DIM_COORD_FT, manning);
    out->low_ft = root.low;
    out->high_ft = root.high;
    out->iterations = root.iterations;
    out->residual = root.residual;
    out->area_sqft =
        cw_step_add(working, "A", "(b + z y_n) y_n", wet.area_sqft, CW_DIM_SQFT, "plane geometry");
    out->radius_ft = cw_step_add(working, "R", "A/P", wet.area_sqft / wet.wetted_ft,
                                 CW_DIM_COORD_FT, "plane geometry");
    out->velocity_fps =
        cw_step_add(working, "V", "Q/A", in->flow_cfs / wet.area_sqft, CW_DIM_FPS, "continuity");
    out->froude =
        cw_step_add(working, "Fr", "V/(g A/T)^(1/2)",
                    out->velocity_fps / sqrt(CW_WATER_GRAVITY * wet.area_sqft / wet.top_ft),
                    CW_DIM_NONE, "definition");
}

const cw_calc cw_calc_critical_depth = {
    .name = "critical-depth",
    .title = "Critical depth in a rectangle",
    .group = "hydraulics",
    .about =
        "Depth of least energy for a flow in a rectangular channel or a free-flowing box "
        "barrel. The lid is not looked at: a depth above the rise means that the barrel cannot "
        "pass the flow with a free surface at its outlet.",
    .source = "derived: least energy of a rectangle, g = 32.2 ft/s2 as in FHWA HDS-5",
    .inputs = channel_inputs,
    .input_count = CRITICAL_INPUTS,
    .input_size = sizeof(channel_input),
    .outputs = depth_outputs,
    .output_count = CRITICAL_OUTPUTS,
    .output_size = sizeof(depth_output),
    .run = critical_run,
    .example = "flow=200cfs width=8ft",
};

const cw_calc cw_calc_normal_depth = {
    .name = "normal-depth",
    .title = "Normal depth in a rectangle",
    .group = "hydraulics",
    .about = "Depth of uniform flow in a rectangular channel, open at the top, with its critical "
             "depth. A level or adverse slope has no normal depth and says so.",
    .source = manning,
    .inputs = channel_inputs,
    .input_count = NORMAL_INPUTS,
    .input_size = sizeof(channel_input),
    .outputs = depth_outputs,
    .output_count = COUNT_OF(depth_outputs),
    .output_size = sizeof(depth_output),
    .run = normal_run,
    .example = "flow=200cfs width=8ft n=0.012 slope=1%",
};

const cw_calc cw_calc_trapezoid_depth = {
    .name = "trapezoid-depth",
    .title = "Normal and critical depth in a trapezoid",
    .group = "hydraulics",
    .about =
        "Depth of uniform flow and critical depth of a trapezoidal channel with one roughness. "
        "The channel is taken as long and even: no backwater.",
    .source = manning,
    .inputs = channel_inputs,
    .input_count = TRAPEZOID_INPUTS,
    .input_size = sizeof(channel_input),
    .outputs = depth_outputs,
    .output_count = COUNT_OF(depth_outputs),
    .output_size = sizeof(depth_output),
    .run = normal_run,
    .example = "flow=400cfs width=20ft side_slope=2:1 n=0.035 slope=0.16%",
};

/* ---- composite roughness ---- */

typedef struct rough_input {
    double walls_ft, walls_n, bed_ft, bed_n;
} rough_input;

typedef struct rough_output {
    double n;
} rough_output;

static const cw_field rough_inputs[] = {
    NUMBER_IN("walls", "P_w", CW_DIM_FT, 0, 1000, NULL, true,
              "wet length of the walls, both sides, and of the lid when full", NULL, rough_input,
              walls_ft),
    NUMBER_IN("walls_n", "n_w", CW_DIM_NONE, 0.005, 1, "@roughness.box", false,
              "roughness of walls and lid", NULL, rough_input, walls_n),
    NUMBER_IN("bed", "P_b", CW_DIM_FT, 0.05, 1000, NULL, true, "wet width of the bed", NULL,
              rough_input, bed_ft),
    NUMBER_IN("bed_n", "n_b", CW_DIM_NONE, 0.005, 1, "@roughness.bed", false,
              "roughness of the bed", NULL, rough_input, bed_n),
};

static const cw_field rough_outputs[] = {
    OUT("n", "n", CW_DIM_NONE, "roughness of the whole", rough_output, n, CW_NO_FLAG),
};

static void rough_run(const void *input, void *output, cw_working *working)
{
    const rough_input *in = input;
    rough_output *out = output;
    out->n = cw_water_composite_n(in->walls_ft, in->walls_n, in->bed_ft, in->bed_n, working);
}

const cw_calc cw_calc_composite_roughness = {
    .name = "composite-roughness",
    .title = "Roughness of a barrel with an embedded bed",
    .group = "hydraulics",
    .about =
        "One roughness for walls and bed of different roughness, the velocity being taken as the "
        "same over both. It changes with depth: the barrel calculators take it anew at each.",
    .source = "Horton 1933 (from memory, not verified), as FHWA HDS-5 app. D uses it",
    .inputs = rough_inputs,
    .input_count = COUNT_OF(rough_inputs),
    .input_size = sizeof(rough_input),
    .outputs = rough_outputs,
    .output_count = COUNT_OF(rough_outputs),
    .output_size = sizeof(rough_output),
    .run = rough_run,
    .example = "walls=8ft walls_n=0.012 bed=10ft bed_n=0.035",
};

/* ---- jump ---- */

typedef struct jump_input {
    double depth_ft, velocity_fps;
    bool has_rise_in;
    double rise_in;
} jump_input;

typedef struct jump_output {
    double froude;
    bool jumps, open, at_lid;
    double after_ft, loss_ft, pressure_ft;
} jump_output;

static const cw_field jump_inputs[] = {
    NUMBER_IN("depth", "y_1", CW_DIM_FT, 0.001, 100, NULL, true, "depth before the jump", NULL,
              jump_input, depth_ft),
    NUMBER_IN("velocity", "V_1", CW_DIM_FPS, 0.01, 200, NULL, true, "velocity before the jump",
              NULL, jump_input, velocity_fps),
    MAYBE_IN("rise", "D", CW_DIM_IN, 1, 600, "clear rise of the barrel; none when not given",
             jump_input, rise_in),
};

static const cw_field jump_outputs[] = {
    OUT("froude", "Fr_1", CW_DIM_NONE, "Froude number before; there is no jump at or below 1",
        jump_output, froude, CW_NO_FLAG),
    OUT("depth_after", "y_2", CW_DIM_COORD_FT, "depth after the jump", jump_output, after_ft,
        offsetof(jump_output, open)),
    OUT("loss", "dE", CW_DIM_COORD_FT, "energy lost in the jump", jump_output, loss_ft,
        offsetof(jump_output, open)),
    OUT("pressure_head", "p_2", CW_DIM_COORD_FT,
        "pressure head above the floor after a jump that fills the barrel", jump_output,
        pressure_ft, offsetof(jump_output, at_lid)),
};

static bool jump_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const jump_input *in = input;
    if (!in->has_rise_in || in->depth_ft * CW_IN_PER_FT <= in->rise_in)
        return true;
    cw_diag_add(
        diags, where, CW_E_GEOMETRY,
        "depth is %.3f ft and the rise only %.3f ft; before a jump the water runs under the "
        "lid",
        in->depth_ft, in->rise_in / CW_IN_PER_FT);
    return false;
}

static void jump_run(const void *input, void *output, cw_working *working)
{
    static const char momentum[] = "momentum on a level floor";
    const jump_input *in = input;
    jump_output *out = output;
    const double y1 = in->depth_ft, v = in->velocity_fps;
    *out = (jump_output){0};
    out->froude = cw_step_add(working, "Fr_1", "V_1/(g y_1)^(1/2)", v / sqrt(CW_WATER_GRAVITY * y1),
                              CW_DIM_NONE, "definition");
    out->jumps = out->froude > 1.0;
    if (!out->jumps)
        return;
    const double y2 = cw_step_add(working, "y_2", "y_1/2 ((1 + 8 Fr_1^2)^(1/2) - 1)",
                                  cw_water_sequent_ft(y1, out->froude), CW_DIM_COORD_FT, momentum);
    const double rise = in->rise_in / CW_IN_PER_FT;
    out->at_lid = in->has_rise_in && y2 > rise;
    out->open = !out->at_lid;
    if (out->at_lid) {
        const double q = y1 * v;
        const double whole = q * q / (CW_WATER_GRAVITY * y1) + 0.5 * y1 * y1;
        out->pressure_ft =
            cw_step_add(working, "p_2", "(q^2/(g y_1) + y_1^2/2 - q^2/(g D) + D^2/2)/D",
                        (whole - q * q / (CW_WATER_GRAVITY * rise) + 0.5 * rise * rise) / rise,
                        CW_DIM_COORD_FT, "momentum with the pressure of the full opening");
        return;
    }
    out->after_ft = y2;
    const double step = y2 - y1;
    out->loss_ft = cw_step_add(working, "dE", "(y_2 - y_1)^3/(4 y_1 y_2)",
                               step * step * step / (4.0 * y1 * y2), CW_DIM_COORD_FT, "energy");
}

const cw_calc cw_calc_hydraulic_jump = {
    .name = "hydraulic-jump",
    .title = "Depth after a hydraulic jump",
    .group = "hydraulics",
    .about =
        "Depth after a jump in a rectangle on a level floor, or the pressure head where the jump "
        "fills a barrel. A jump at the lid brings pulses of pressure and air: a loose lid and "
        "the sealant of the joints feel them.",
    .source = "derived: momentum of a rectangular channel or conduit",
    .inputs = jump_inputs,
    .input_count = COUNT_OF(jump_inputs),
    .input_size = sizeof(jump_input),
    .outputs = jump_outputs,
    .output_count = COUNT_OF(jump_outputs),
    .output_size = sizeof(jump_output),
    .valid = jump_valid,
    .run = jump_run,
    .example = "depth=1.5ft velocity=18ft/s",
};
