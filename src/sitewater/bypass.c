#include "sitewater_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char energy[] = "energy of a full pipe, FHWA HDS-5 (2012), ch. 3";
static const char range[] = "common practice: range of temporary pipes";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_bypass_input, member)

static const cw_field inputs[] = {
    IN("flow", "Q", CW_DIM_CFS, 0.01, 5000.0, NULL, "all pipes together", range, flow_cfs),
    IN("head", "h", CW_DIM_FT, 0.05, 60.0, NULL,
       "pool above the tailwater, or above the centre of a free outlet", range, head_ft),
    IN("length", "L", CW_DIM_FT, 1.0, 5000.0, NULL, "of the pipe", range, length_ft),
    IN("roughness", "n", CW_DIM_NONE, 0.008, 0.04, NULL,
       "Manning n: smooth 0.012, corrugated metal 0.024", range, roughness),
    IN("entrance", "k_e", CW_DIM_NONE, 0.0, 2.0, "@bypass.entrance",
       "entrance loss: 0.5 flush with a wall, 0.9 thin and projecting", NULL, entrance),
    COUNT_IN("pipes", "N", 1.0, 20.0, "1", "equal pipes side by side", range, cw_bypass_input,
             pipes),
    LIST_IN("sizes", "d", CW_DIM_IN, 4.0, 144.0,
            "12 in, 15 in, 18 in, 24 in, 30 in, 36 in, 42 in, 48 in, 60 in, 72 in",
            "clear diameters to be had", range, cw_bypass_input, sizes_in),
};

static const cw_field outputs[] = {
    CHOICE_OUT("status", cw_sitewater_found, "whether a size carries the flow", cw_bypass, status),
    OUT("size", "d", CW_DIM_IN, "smallest that carries it; the largest of the list when none does",
        cw_bypass, size_in),
    OUT("capacity", "Q_c", CW_DIM_CFS, "all pipes, at the head", cw_bypass, capacity_cfs),
    OUT("velocity", "V", CW_DIM_FPS, "at the flow", cw_bypass, velocity_fps),
    OUT("head_used", "h_u", CW_DIM_FT, "at the flow", cw_bypass, head_used_ft),
};

bool cw_bypass_input_valid(const cw_bypass_input *input, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), input, where, diags))
        return false;
    if (input->sizes_in.count > 0)
        return true;
    cw_diag_add(diags, where, CW_E_MISSING, "no pipe size is given; list the sizes to be had");
    return false;
}

/* Loss over the velocity head.  2g/1.486^2 = 29.16, which HDS-5 prints as 29. */
static double losses(double diameter_ft, double length_ft, double roughness, double entrance)
{
    const double friction = 2.0 * GRAVITY_FT_PER_S2 / (MANNING_FT * MANNING_FT);
    return 1.0 + entrance +
           friction * roughness * roughness * length_ft / pow(diameter_ft / 4.0, 4.0 / 3.0);
}

static double area_sqft(double diameter_ft)
{
    return CW_PI / 4.0 * diameter_ft * diameter_ft;
}

double cw_sitewater_full_pipe_cfs(double diameter_ft, double length_ft, double head_ft,
                                  double roughness, double entrance)
{
    return area_sqft(diameter_ft) * sqrt(2.0 * GRAVITY_FT_PER_S2 * head_ft /
                                         losses(diameter_ft, length_ft, roughness, entrance));
}

static double capacity_cfs(const cw_bypass_input *in, double size_in)
{
    return in->pipes * cw_sitewater_full_pipe_cfs(size_in / CW_IN_PER_FT, in->length_ft,
                                                  in->head_ft, in->roughness, in->entrance);
}

cw_bypass cw_sitewater_bypass(const cw_bypass_input *in, cw_working *working)
{
    double best_in = 0.0, largest_in = 0.0;
    for (int i = 0; i < in->sizes_in.count; i++) {
        const double size_in = in->sizes_in.items[i];
        largest_in = fmax(largest_in, size_in);
        const bool smaller = best_in <= 0.0 || size_in < best_in;
        if (smaller && cw_meets(in->flow_cfs, capacity_cfs(in, size_in)))
            best_in = size_in;
    }
    cw_bypass out = {.status = best_in > 0.0 ? CW_FOUND : CW_FOUND_NONE};
    out.size_in =
        cw_step_add(working, "d", "smallest listed size with Q_c >= Q, or the largest",
                    best_in > 0.0 ? best_in : largest_in, CW_DIM_IN, "search of the list");
    const double diameter_ft = out.size_in / CW_IN_PER_FT;
    const double loss = cw_step_add(working, "k", "1 + k_e + 29.16 n^2 L / (d/4)^(4/3)",
                                    losses(diameter_ft, in->length_ft, in->roughness, in->entrance),
                                    CW_DIM_NONE, energy);
    out.capacity_cfs = cw_step_add(working, "Q_c", "N pi d^2/4 sqrt(2 g h / k)",
                                   capacity_cfs(in, out.size_in), CW_DIM_CFS, energy);
    out.velocity_fps =
        cw_step_add(working, "V", "Q / (N pi d^2/4)",
                    in->flow_cfs / (in->pipes * area_sqft(diameter_ft)), CW_DIM_FPS, "continuity");
    out.head_used_ft = cw_step_add(
        working, "h_u", "k V^2 / 2g",
        loss * out.velocity_fps * out.velocity_fps / (2.0 * GRAVITY_FT_PER_S2), CW_DIM_FT, energy);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_bypass_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_bypass *)output = cw_sitewater_bypass(input, working);
}

const cw_calc cw_calc_bypass_pipe = {
    .name = "bypass-pipe",
    .title = "Gravity pipe round the work",
    .group = "sitewater",
    .about = "Smallest size that carries the flow when it runs full under the head.  The inlet is "
             "taken as covered by the pool; with a low pool the inlet may govern and the pipe "
             "carries less.  Bends and screens need a larger entrance loss.",
    .source = "energy of a full pipe, FHWA HDS-5 (2012), ch. 3",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_bypass_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_bypass),
    .valid = valid,
    .run = run,
    .example = "flow=20cfs head=3ft length=200ft roughness=0.012 entrance=0.5",
};
