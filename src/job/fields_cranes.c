/* The job format, cranes: where they may stand, their load charts, what is in their way. */
#include "fields_internal.h"

static const char *const bank_words[] = {"both", "left", "right", NULL};
/* Same words and order as cw_setback_rule and cw_legs_carry of the lifting discipline. */
static const char *const rule_words[] = {"from-toe", "from-edge", "fixed", NULL};
static const char *const carry_words[] = {"two", "three", "all", NULL};

#define CRANES(member) offsetof(cw_job_cranes, member)
#define CRANE(member) offsetof(cw_job_crane, member)
#define STRETCH(member) offsetof(cw_job_no_stand, member)
#define LINE(member) offsetof(cw_job_line, member)

const cw_field cw_job_cranes_fields[CW_JOB_CRANES_FIELDS] = {
    NEEDED_CHOICE("side", bank_words, CRANES(side),
                  "banks on which cranes may stand, looking upstream"),
    NEEDED_CHOICE("rule", rule_words, CRANES(rule),
                  "set-back: mats at least k depths from the toe of the cut or from its edge, or a "
                  "fixed distance "
                  "from the edge"),
    WITH_DEFAULT("k", NUMBER, CW_DIM_NONE, 0, 5, CRANES(k), "1.5",
                 "common practice: 1 stiff dry clay or shored, 2 sand, wet, layered",
                 "depths of the set-back"),
    MAYBE("fixed", NUMBER, CW_DIM_FT, 0, 200, CRANES(fixed_ft), CRANES(has_fixed),
          "rule fixed: mats from the edge of the cut, by an engineer"),
    NEEDED("depth", NUMBER, CW_DIM_FT, 0, 60, CRANES(depth_ft),
           "of the cut below the crane's ground"),
    NEEDED("side_slope", NUMBER, CW_DIM_SIDE_SLOPE, 0, 5, CRANES(side_slope),
           "of the cut; 0:1 when plumb or shored"),
    WITH_DEFAULT("beside", NUMBER, CW_DIM_FT, 0, 20, CRANES(beside_ft), "2 ft",
                 "common practice: room to work", "toe of the cut from the outside wall"),
    WITH_DEFAULT("before_outlet", NUMBER, CW_DIM_FT, -500, 500, CRANES(before_ft), "30 ft",
                 "common practice", "how far past the outlet face a crane may stand"),
    WITH_DEFAULT("beyond_inlet", NUMBER, CW_DIM_FT, -500, 500, CRANES(beyond_ft), "30 ft",
                 "common practice", "how far past the inlet face a crane may stand"),
    WITH_DEFAULT("tackle", NUMBER, CW_DIM_LB, 0, 100000, CRANES(tackle_lb), "1000 lb",
                 "common practice", "slings, shackles, beam"),
    CHOICE("carry", carry_words, CRANES(carry), "two",
           "US Navy rigging manuals: a rigid piece may ride on two legs",
           "of four legs: two, three as sling tags rate, or all with gear that equalises"),
    WITH_DEFAULT("share", NUMBER, CW_DIM_PERCENT, 10, 100, CRANES(share_percent), "75%",
                 "common practice", "most of the chart that a pick is planned for"),
    MAYBE("insert", NUMBER, CW_DIM_LB, 100, 1000000, CRANES(insert_lb), CRANES(has_insert),
          "strength of one lifting insert in pull in the concrete of the day of the lift, not a "
          "safe load"),
    MAYBE("soil", NUMBER, CW_DIM_PSF, 100, 20000, CRANES(soil_psf), CRANES(has_soil),
          "bearing of the ground under the mats, by a geotechnical engineer"),
    WITH_DEFAULT("corner", NUMBER, CW_DIM_PERCENT, 25, 100, CRANES(corner_percent), "85%",
                 "common practice: 75 to 85",
                 "of crane and load on one float when the maker's reactions are not at hand"),
    WITH_DEFAULT("obstacle", NUMBER, CW_DIM_FT, 0, 150, CRANES(obstacle_ft), "4 ft",
                 "common practice: rail, spoil, truck bed",
                 "highest thing that a piece passes over, above the crane's ground"),
    MAYBE("truck", NUMBER, CW_DIM_FT, 5, 300, CRANES(truck_ft), CRANES(has_truck),
          "farthest that trucks are unloaded from the slew centre"),
    WITH_DEFAULT("cross", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, CRANES(cross_cents), "$0",
                 "compared by count of setups",
                 "cost of moving to the other bank, beside the setup there"),
    MAYBE_TEXT("director", CRANES(director), "lift director, printed on the lift plan"),
    MAYBE_TEXT("operator", CRANES(operator_name), "crane operator, printed on the lift plan"),
};

static const cw_field choice_fields[] = {
    NEEDED_TEXT("name", CRANE(name), "name of the crane, printed on the lift plan"),
    NEEDED_TEXT("chart", CRANE(chart),
                "file of its load chart: boom_ft,radius_ft,capacity_lb,configuration"),
    NEEDED_TEXT("configuration", CRANE(configuration),
                "word of the chart: outriggers, counterweight, sector"),
    MAYBE("boom_most", NUMBER, CW_DIM_FT, 10, 800, CRANE(boom_most_ft), CRANE(has_boom_most),
          "longest boom of the chart that may be used"),
    MAYBE("weight", NUMBER, CW_DIM_LB, 5000, 3000000, CRANE(weight_lb), CRANE(has_weight),
          "of the crane with its counterweight, without load"),
    WITH_DEFAULT("block", NUMBER, CW_DIM_LB, 0, 100000, CRANE(block_lb), "1500 lb",
                 "common practice; the chart's notes govern",
                 "hook block, ball and other deductions of the chart"),
    NEEDED("half", NUMBER, CW_DIM_FT, 3, 60, CRANE(half_ft),
           "slew centre to the outer edge of its mats"),
    WITH_DEFAULT("mat_width", NUMBER, CW_DIM_FT, 1, 20, CRANE(mat_width_ft), "4 ft",
                 "common practice", "of one mat"),
    WITH_DEFAULT("mat_length", NUMBER, CW_DIM_FT, 1, 60, CRANE(mat_length_ft), "8 ft",
                 "common practice", "of one mat in bearing"),
    WITH_DEFAULT("pivot_height", NUMBER, CW_DIM_FT, 0, 30, CRANE(pivot_height_ft), "7 ft",
                 "common practice", "boom foot above the ground"),
    WITH_DEFAULT("pivot_back", NUMBER, CW_DIM_FT, -10, 15, CRANE(pivot_back_ft), "4 ft",
                 "common practice", "boom foot behind the slew centre"),
    WITH_DEFAULT("bring", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, CRANE(bring_cents), "$0",
                 "compared by count of setups", "cost of bringing it, once"),
    WITH_DEFAULT("setup", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, CRANE(setup_cents), "$0",
                 "compared by count of setups", "cost of one setup beside the crane's time"),
    WITH_DEFAULT("day", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, CRANE(day_cents), "$0",
                 "compared by count of setups", "cost of a day of eight hours"),
    WITH_DEFAULT("setup_time", NUMBER, CW_DIM_HOUR, 0, 48, CRANE(setup_h), "1 h",
                 "common practice: 45 to 90 min", "time of one setup"),
    WITH_DEFAULT("piece_time", NUMBER, CW_DIM_HOUR, 0, 24, CRANE(piece_h), "25 min",
                 "common practice: 15 to 30 min", "time to unload and set one piece"),
};

static const cw_field stretch_fields[] = {
    CHOICE("side", bank_words, STRETCH(side), "both", "the safe side",
           "bank on which no crane may stand"),
    NEEDED("from", NUMBER, CW_DIM_FT, -500, PLAN_HIGH, STRETCH(from_ft),
           "along the run from the outlet face"),
    NEEDED("to", NUMBER, CW_DIM_FT, -500, PLAN_HIGH, STRETCH(to_ft),
           "along the run from the outlet face"),
};

static const cw_field line_fields[] = {
    NEEDED_TEXT("name", LINE(name), "name of the power line"),
    NEEDED_CHOICE("side", bank_words, LINE(side),
                  "left or right of the run; it is taken as parallel to it"),
    NEEDED("distance", NUMBER, CW_DIM_FT, 0, 2000, LINE(distance_ft),
           "from the centre line of the run"),
    NEEDED("height", NUMBER, CW_DIM_FT, 5, 400, LINE(height_ft),
           "lowest wire above the crane's ground"),
    NEEDED("kilovolts", NUMBER, CW_DIM_NONE, 0.1, 2000, LINE(kilovolts),
           "of the line; the highest presumed when unknown"),
    FLAG("known", LINE(known), "no", "the safe side", "the utility has given the voltage"),
};

const cw_section cw_job_cranes_sections[CW_JOB_CRANES_SECTIONS] = {
    {.key = "choices",
     .meaning = "cranes to choose from",
     .need = CW_NEED_REQUIRED,
     .is_list = true,
     .max_items = CW_CRANES_MAX,
     .fields = choice_fields,
     .field_count = COUNT_OF(choice_fields),
     .offset = CRANES(choices),
     .count_offset = CRANES(choice_count),
     .item_size = sizeof(cw_job_crane),
     .present_offset = CW_NO_FLAG},
    {.key = "no_stand",
     .meaning = "stretches along the run where no crane may stand",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_NO_STANDS_MAX,
     .fields = stretch_fields,
     .field_count = COUNT_OF(stretch_fields),
     .offset = CRANES(no_stands),
     .count_offset = CRANES(no_stand_count),
     .item_size = sizeof(cw_job_no_stand),
     .present_offset = CW_NO_FLAG},
    {.key = "power_lines",
     .meaning = "power lines beside the run",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_LINES_MAX,
     .fields = line_fields,
     .field_count = COUNT_OF(line_fields),
     .offset = CRANES(lines),
     .count_offset = CRANES(line_count),
     .item_size = sizeof(cw_job_line),
     .present_offset = CW_NO_FLAG},
};
