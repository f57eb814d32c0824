#include "takeoff_internal.h"

#include "cw/units.h"

static const char prism[] = "closed form: prism between the walls";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_barrel_fill_input, member)

static const cw_field inputs[] = {
    IN("gap", "g", CW_DIM_IN, 0.5, 120.0, NULL, "clear between barrels", range, gap_in),
    IN("height", "h", CW_DIM_FT, 0.1, 60.0, NULL, "height filled", range, height_ft),
    IN("length", "L", CW_DIM_FT, 1.0, 20000.0, NULL, "along the run", range, length_ft),
    COUNT_IN("barrels", "N", 2.0, 8.0, "2", "barrels side by side", range, cw_barrel_fill_input,
             barrels),
    IN("loss", NULL, CW_DIM_PERCENT, 0.0, 50.0, "10 percent",
       "leaks below, and gaps wider than drawn", practice, loss_percent),
    IN("rate", "q", CW_DIM_CY, 0.1, 400.0, NULL, "delivered into one gap in an hour", range,
       rate_cy_per_h),
};

static const cw_field outputs[] = {
    OUT("net", "V", CW_DIM_CY, "all gaps, no loss", cw_barrel_fill, net_cy),
    OUT("order", NULL, CW_DIM_CY, "with loss, not rounded", cw_barrel_fill, volume.exact),
    OUT("order_up", NULL, CW_DIM_CY, "rounded up to half a cubic yard", cw_barrel_fill, volume.up),
    OUT("rise", "r", CW_DIM_FT, "rise of the level in one hour", cw_barrel_fill, rise_ft_per_h),
    OUT("time", NULL, CW_DIM_HOUR, "to fill one gap at that rise", cw_barrel_fill, hours),
};

bool cw_barrel_fill_input_valid(const cw_barrel_fill_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

cw_barrel_fill cw_takeoff_barrel_fill(const cw_barrel_fill_input *input, cw_working *working)
{
    const double plan_sqft = input->gap_in / CW_IN_PER_FT * input->length_ft;
    cw_barrel_fill out = {.net_cy = 0.0};
    out.net_cy = cw_step_add(working, "V", "g h L (N - 1)",
                             plan_sqft * input->height_ft * (input->barrels - 1) / CW_CUFT_PER_CY,
                             CW_DIM_CY, prism);
    const double exact_cy =
        cw_step_add(working, "O", "V (1 + loss)",
                    out.net_cy * cw_takeoff_with_percent(input->loss_percent), CW_DIM_CY, practice);
    out.volume = cw_takeoff_order(exact_cy, CW_ORDER_STEP_CY);
    // Without loss: the level must not be expected to rise slower than it can.
    out.rise_ft_per_h =
        cw_step_add(working, "r", "q / (g L), in one hour",
                    CW_CUFT_PER_CY * input->rate_cy_per_h / plan_sqft, CW_DIM_FT, prism);
    out.hours = cw_step_add(working, "T", "h / r", input->height_ft / out.rise_ft_per_h,
                            CW_DIM_HOUR, prism);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_barrel_fill_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_barrel_fill *)output = cw_takeoff_barrel_fill(input, working);
}

const cw_calc cw_calc_barrel_fill = {
    .name = "barrel-fill",
    .title = "Fill between barrels",
    .group = "takeoff",
    .about =
        "Volume to order for the gaps between barrels, and how fast the level rises in one gap.  "
        "Pressure on the walls and floating are not checked here.",
    .source = "closed form: prism between the walls",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_barrel_fill_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_barrel_fill),
    .valid = valid,
    .run = run,
    .example = "gap=4in height=116in length=120ft barrels=2 loss=10% "
               "rate=20cy",
};
