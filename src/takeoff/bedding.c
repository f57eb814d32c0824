#include "takeoff_internal.h"

#include "cw/units.h"

static const char prism[] = "closed form: prism of the bed";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_bedding_input, member)

static const cw_field inputs[] = {
    IN("outside_width", "B", CW_DIM_IN, 24.0, 840.0, NULL, "outside width of one barrel", range,
       width_in),
    COUNT_IN("barrels", "N", 1.0, 8.0, "1", "barrels side by side", range, cw_bedding_input,
             barrels),
    IN("gap", "g", CW_DIM_IN, 0.0, 120.0, "0 in", "clear between barrels", range, clear_gap_in),
    IN("extra", "e", CW_DIM_FT, 0.0, 20.0, "1 ft", "beyond the outside wall, each side", practice,
       extra_ft),
    IN("thickness", "t", CW_DIM_IN, 0.0, 60.0, "6 in", "compacted bedding", practice, thickness_in),
    IN("leveling", "t_l", CW_DIM_IN, 0.0, 24.0, "2 in", "leveling course", practice, leveling_in),
    IN("length", "L", CW_DIM_FT, 1.0, 20000.0, NULL, "along the bed", range, length_ft),
    IN("unit_weight", "g_s", CW_DIM_PCF, 60.0, 200.0, "135 lb/ft3",
       "unit weight of the compacted stone", practice, unit_pcf),
    IN("waste", NULL, CW_DIM_PERCENT, 0.0, 50.0, "10 percent", "waste", practice, waste_percent),
};

static const cw_field outputs[] = {
    OUT("bed", "b", CW_DIM_FT, "width of the bed", cw_bedding, bed_ft),
    OUT("bedding", "V", CW_DIM_CY, "bedding, compacted, in place", cw_bedding, bedding_cy),
    OUT("leveling_volume", "V_l", CW_DIM_CY, "leveling course, in place", cw_bedding, leveling_cy),
    OUT("bedding_tons", NULL, CW_DIM_TON, "with waste, not rounded", cw_bedding,
        bedding_tons.exact),
    OUT("bedding_tons_up", NULL, CW_DIM_TON, "rounded up to a whole ton", cw_bedding,
        bedding_tons.up),
    OUT("leveling_tons", NULL, CW_DIM_TON, "with waste, not rounded", cw_bedding,
        leveling_tons.exact),
    OUT("leveling_tons_up", NULL, CW_DIM_TON, "rounded up to a whole ton", cw_bedding,
        leveling_tons.up),
};

bool cw_bedding_input_valid(const cw_bedding_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

static cw_order tons(const cw_bedding_input *input, double volume_cy)
{
    const double neat = volume_cy * CW_CUFT_PER_CY * input->unit_pcf / CW_LB_PER_TON;
    return cw_takeoff_order(neat * cw_takeoff_with_percent(input->waste_percent),
                            CW_ORDER_STEP_TON);
}

cw_bedding cw_takeoff_bedding(const cw_bedding_input *input, cw_working *working)
{
    const double barrels_in =
        input->barrels * input->width_in + (input->barrels - 1) * input->clear_gap_in;
    cw_bedding out = {.bed_ft = cw_step_add(working, "b", "N B + (N - 1) g + 2 e",
                                            barrels_in / CW_IN_PER_FT + 2.0 * input->extra_ft,
                                            CW_DIM_FT, prism)};
    const double area_cy_per_in = out.bed_ft * input->length_ft / CW_IN_PER_FT / CW_CUFT_PER_CY;
    out.bedding_cy =
        cw_step_add(working, "V", "b t L", area_cy_per_in * input->thickness_in, CW_DIM_CY, prism);
    out.leveling_cy = cw_step_add(working, "V_l", "b t_l L", area_cy_per_in * input->leveling_in,
                                  CW_DIM_CY, prism);
    out.bedding_tons = tons(input, out.bedding_cy);
    out.leveling_tons = tons(input, out.leveling_cy);
    cw_step_add(working, "T", "V g_s (1 + waste)", out.bedding_tons.exact, CW_DIM_TON, practice);
    cw_step_add(working, "T_l", "V_l g_s (1 + waste)", out.leveling_tons.exact, CW_DIM_TON,
                practice);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_bedding_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_bedding *)output = cw_takeoff_bedding(input, working);
}

const cw_calc cw_calc_bedding = {
    .name = "bedding",
    .title = "Bedding and leveling course",
    .group = "takeoff",
    .about =
        "Volume in place and tons to order of a bed of constant width.  The leveling course is "
        "taken at the same unit weight.  Undercut and foundation stone are not counted.",
    .source = "closed form: prism of the bed",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_bedding_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_bedding),
    .valid = valid,
    .run = run,
    .example = "outside_width=164in barrels=1 extra=1ft thickness=6in "
               "leveling=2in length=120ft unit_weight=135pcf "
               "waste=10%",
};
