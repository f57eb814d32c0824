#include "sitewater_internal.h"

#include "cw/units.h"

static const char cone[] =
    "derived: prism under the pit, straight fall of the cone to nothing at R";
static const char range[] = "common practice: range of sites";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_draw_down_input, member)

static const cw_field inputs[] = {
    IN("length", "a", CW_DIM_FT, 1.0, 10000.0, NULL, "of the pit", range, length_ft),
    IN("width", "b", CW_DIM_FT, 0.5, 2000.0, NULL, "of the pit", range, width_ft),
    IN("drawdown", "s", CW_DIM_FT, 0.1, 100.0, NULL, "lowering under the pit", range, drawdown_ft),
    IN("reach", "R", CW_DIM_FT, 0.0, 20000.0, NULL, "radius of influence, from the edge", range,
       reach_ft),
    IN("yield", "S_y", CW_DIM_PERCENT, 0.1, 50.0, "@draw_down.yield",
       "specific yield: sand 15 to 30 percent, silt 3 to 15", NULL, yield_percent),
    IN("pumped", "Q_p", CW_DIM_CFS, 0.0001, 500.0, NULL, "pumping rate", range, pump_cfs),
    IN("inflow", "Q", CW_DIM_CFS, 0.0, 500.0, "0 cfs", "steady inflow, taken off the pumping rate",
       range, inflow_cfs),
};

static const cw_field outputs[] = {
    OUT("cone", "V", CW_DIM_CUFT, "ground that drains", cw_draw_down, cone_cuft),
    OUT("water", "V_w", CW_DIM_CUFT, "water in it", cw_draw_down, water_cuft),
    OUT("time", "t", CW_DIM_HOUR, "to lower the water", cw_draw_down, hours),
};

bool cw_draw_down_input_valid(const cw_draw_down_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    if (in->pump_cfs > in->inflow_cfs)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "pumping %.6g cfs does not exceed the inflow of %.6g cfs: the water is never "
                "lowered; pump more",
                in->pump_cfs, in->inflow_cfs);
    return false;
}

cw_draw_down cw_sitewater_draw_down(const cw_draw_down_input *in, cw_working *working)
{
    const double a = in->length_ft, b = in->width_ft, r = in->reach_ft;
    // Wedges along the four sides, and the four quarter cones of the corners.
    cw_draw_down out = {
        .cone_cuft = cw_step_add(working, "V", "s (a b + (a + b) R + pi R^2 / 3)",
                                 in->drawdown_ft * (a * b + (a + b) * r + CW_PI * r * r / 3.0),
                                 CW_DIM_CUFT, cone)};
    out.water_cuft = cw_step_add(working, "V_w", "S_y V",
                                 out.cone_cuft * in->yield_percent / CW_PERCENT, CW_DIM_CUFT, cone);
    out.hours = cw_step_add(working, "t", "V_w / (Q_p - Q)",
                            out.water_cuft / (in->pump_cfs - in->inflow_cfs) / CW_S_PER_HOUR,
                            CW_DIM_HOUR, "water balance");
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_draw_down_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_draw_down *)output = cw_sitewater_draw_down(input, working);
}

const cw_calc cw_calc_draw_down = {
    .name = "draw-down",
    .title = "Time to lower the groundwater",
    .group = "sitewater",
    .about =
        "Water stored in the cone over the pumping rate that is left after the steady inflow.  "
        "The cone is taken as straight, which is on the safe side; fine layers drain later "
        "than this says.",
    .source = "derived: prism under the pit, straight fall of the cone to nothing at R",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_draw_down_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_draw_down),
    .valid = valid,
    .run = run,
    .example = "length=120ft width=30ft drawdown=6ft reach=90ft pumped=1.2cfs inflow=0.5cfs",
};
