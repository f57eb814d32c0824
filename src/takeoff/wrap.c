#include "takeoff_internal.h"

#include "cw/units.h"

static const char outline[] = "derived: exposed outside of the section";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_wrap_input, member)

static const cw_field inputs[] = {
    IN("outside_width", "B", CW_DIM_IN, 24.0, 840.0, NULL, "outside width of one barrel", range,
       width_in),
    IN("outside_height", "H", CW_DIM_IN, 6.0, 480.0, NULL, "outside height of one barrel", range,
       height_in),
    COUNT_IN("barrels", "N", 1.0, 8.0, "1", "barrels side by side", range, cw_wrap_input, barrels),
    COUNT_IN("joints", "n", 0.0, 2000.0, NULL, "wrapped transverse joints in each barrel", range,
             cw_wrap_input, joints),
    {"wrap_seats", NULL, CW_KIND_FLAG, CW_DIM_NONE, 0.0, 0.0, "no", false,
     "wrap the seat line on both exposed sides too", practice, NULL,
     offsetof(cw_wrap_input, wrap_seats), CW_NO_FLAG},
    IN("seat", "L_s", CW_DIM_FT, 0.0, 20000.0, "0 ft", "length of the seat line on one side", range,
       seat_ft),
    IN("strip", "w", CW_DIM_IN, 1.0, 60.0, "12 in", "width of the strip", practice, strip_in),
    IN("lap", "l", CW_DIM_IN, 0.0, 36.0, "6 in", "extra at each end of a strip", practice, lap_in),
    IN("waste", NULL, CW_DIM_PERCENT, 0.0, 50.0, "10 percent", "waste", practice, waste_percent),
};

static const cw_field outputs[] = {
    OUT("round", "p", CW_DIM_FT, "exposed outside at one joint, all barrels", cw_wrap, round_ft),
    OUT("joints_total", NULL, CW_DIM_FT, "all joints, laps included", cw_wrap, joints_ft),
    OUT("seats_total", NULL, CW_DIM_FT, "both seat lines, laps included", cw_wrap, seats_ft),
    OUT("net", NULL, CW_DIM_FT, "length without waste", cw_wrap, net_ft),
    OUT("order", NULL, CW_DIM_FT, "with waste, not rounded", cw_wrap, length.exact),
    OUT("order_up", NULL, CW_DIM_FT, "rounded up to a whole foot", cw_wrap, length.up),
    OUT("area", NULL, CW_DIM_SQFT, "with waste, not rounded", cw_wrap, area.exact),
    OUT("area_up", NULL, CW_DIM_SQFT, "rounded up to a whole square foot", cw_wrap, area.up),
};

bool cw_wrap_input_valid(const cw_wrap_input *input, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
}

cw_wrap cw_takeoff_wrap(const cw_wrap_input *input, cw_working *working)
{
    // The walls between barrels are out of reach: the fill between barrels covers them.
    const double lap_ft = 2.0 * input->lap_in / CW_IN_PER_FT;
    cw_wrap out = {.round_ft = 0.0};
    out.round_ft =
        cw_step_add(working, "p", "N B + 2 H",
                    (input->barrels * input->width_in + 2.0 * input->height_in) / CW_IN_PER_FT,
                    CW_DIM_FT, outline);
    out.joints_ft =
        cw_step_add(working, "J", "n (p + 2 N l)",
                    input->joints * (out.round_ft + input->barrels * lap_ft), CW_DIM_FT, outline);
    out.seats_ft =
        cw_step_add(working, "Q", "2 (L_s + 2 l), 0 when not wrapped",
                    input->wrap_seats ? 2.0 * (input->seat_ft + lap_ft) : 0.0, CW_DIM_FT, outline);
    out.net_ft =
        cw_step_add(working, "M", "J + Q", out.joints_ft + out.seats_ft, CW_DIM_FT, outline);
    const double exact_ft = cw_step_add(working, "O", "M (1 + waste)",
                                        out.net_ft * cw_takeoff_with_percent(input->waste_percent),
                                        CW_DIM_FT, practice);
    const double exact_sqft = cw_step_add(
        working, "A", "O w", exact_ft * input->strip_in / CW_IN_PER_FT, CW_DIM_SQFT, outline);
    out.length = cw_takeoff_order(exact_ft, CW_ORDER_STEP_FT);
    out.area = cw_takeoff_order(exact_sqft, CW_ORDER_STEP_SQFT);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_wrap_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_wrap *)output = cw_takeoff_wrap(input, working);
}

const cw_calc cw_calc_wrap_length = {
    .name = "wrap-length",
    .title = "External joint wrap",
    .group = "takeoff",
    .about =
        "Length and area of the strip over the outside of transverse joints and, if wanted, the "
        "seat lines.  The underside and the walls between barrels are not wrapped.  Every barrel "
        "gets its own strip with a lap at both ends.",
    .source = "derived: exposed outside of the section",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_wrap_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_wrap),
    .valid = valid,
    .run = run,
    .example = "outside_width=164in outside_height=116in barrels=2 joints=19 "
               "wrap_seats=yes seat=120ft strip=1ft lap=6in waste=10%",
};
