/* The job format, water: flows, inlet, tailwater, road crest, and water during the work. */
#include "fields_internal.h"

/* Same words and order as the inlets of the hydraulics discipline (a test of the plan compares them). */
static const char *const inlet_words[] = {
    "wings-30-75",
    "wings-90-15",
    "wings-0",
    "wings-45-bevel",
    "wings-18-34-bevel",
    "headwall-chamfer",
    "headwall-bevel-45",
    "headwall-bevel-34",
    "headwall-skew-45-chamfer",
    "headwall-skew-30-chamfer",
    "headwall-skew-15-chamfer",
    "headwall-skew-bevel",
    "wings-45-chamfer",
    "wings-18-chamfer",
    "wings-18-skew-chamfer",
    "wings-45-offset",
    "wings-34-offset",
    "wings-18-offset",
    "tapered-throat",
    "side-tapered-face",
    "side-tapered-face-bevel",
    "slope-tapered-face",
    "slope-tapered-face-bevel",
    "own",
    NULL,
};
static const char *const surface_words[] = {"paved", "gravel", NULL};
static const char *const use_words[] = {"design", "check", "work", NULL};
static const char *const by_words[] = {"given", "rational", "unit_peak", NULL};
static const char *const rain_words[] = {"I", "IA", "II", "III", NULL};
static const char *const tail_words[] = {"free", "fixed", "table", "trapezoid", "surveyed", NULL};
static const char *const divert_words[] = {"none", "pipe", "flume", "pumps", "barrel", NULL};
static const char *const standby_words[] = {"one", "all", NULL};
static const char *const sides_words[] = {"both", "one", NULL};

#define WATER(member) offsetof(cw_job_water, member)
#define FLOW(member) offsetof(cw_job_flow, member)
#define TAIL(member) offsetof(cw_job_tailwater, member)
#define DIVERT(member) offsetof(cw_job_diversion, member)
#define DAM(member) offsetof(cw_job_cofferdam, member)
#define GROUND(member) offsetof(cw_job_groundwater, member)
#define FLOW_HIGH 1e6

const cw_field cw_job_water_fields[CW_JOB_WATER_FIELDS] = {
    NEEDED_CHOICE("inlet", inlet_words, WATER(inlet), "shape of the inlet; own takes the coefficients given beside it"),
    FLAG("own_critical", WATER(own_critical), "no", "most inlets of boxes have the second form",
         "own inlet: the unsubmerged law has the critical head in it"),
    MAYBE("own_k", NUMBER, CW_DIM_NONE, 1e-6, 5, WATER(own_k), WATER(has_own_k), "own inlet: K of the unsubmerged law"),
    MAYBE("own_m", NUMBER, CW_DIM_NONE, 0.1, 3, WATER(own_m), WATER(has_own_m), "own inlet: M of the unsubmerged law"),
    MAYBE("own_c", NUMBER, CW_DIM_NONE, 1e-6, 1, WATER(own_c), WATER(has_own_c), "own inlet: c of the submerged law"),
    MAYBE("own_y", NUMBER, CW_DIM_NONE, 0, 2, WATER(own_y), WATER(has_own_y), "own inlet: Y of the submerged law"),
    WITH_DEFAULT("own_slope_factor", NUMBER, CW_DIM_NONE, -1, 1, WATER(own_slope_factor), "-0.5",
                 "FHWA HDS-5, appendix A (from memory, not verified)", "own inlet: factor on the slope, 0.7 when mitred"),
    MAYBE_TEXT("own_source", WATER(own_source), "own inlet: where its coefficients come from"),
    WITH_DEFAULT("entrance_loss", NUMBER, CW_DIM_NONE, 0, 1.5, WATER(entrance_loss), "@water.entrance_loss", NULL,
                 "entrance loss, in velocity heads, for outlet control"),
    WITH_DEFAULT("other_loss", NUMBER, CW_DIM_NONE, 0, 10, WATER(other_loss), "0", "no bends or grates",
                 "further losses of bends, grates and junctions, in velocity heads"),
    WITH_DEFAULT("roughness", NUMBER, CW_DIM_NONE, 0.008, 0.1, WATER(roughness), "@water.roughness", NULL,
                 "Manning roughness of the concrete"),
    WITH_DEFAULT("bed", NUMBER, CW_DIM_IN, 0, FT(20), WATER(bed_in), "0 in", "clean barrel",
                 "depth of bed material on the floor"),
    WITH_DEFAULT("bed_roughness", NUMBER, CW_DIM_NONE, 0.01, 0.2, WATER(bed_roughness), "0.035",
                 "natural gravel bed, common practice", "Manning roughness of the bed material"),
    WITH_DEFAULT("blocked", NUMBER, CW_DIM_PERCENT, 0, 90, WATER(blocked_percent), "0%", "clean inlet",
                 "part of the span blocked by debris at the inlet"),
    FLAG("channel_velocity", WATER(channel_velocity), "no", "safe side: the whole velocity head is lost",
         "take the exit loss as the difference of the velocity heads of barrel and channel"),
    MAYBE("allowed_headwater", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, WATER(allowed_ft), WATER(has_allowed),
          "highest pool that the owner allows at the design flow, as an elevation"),
    WITH_DEFAULT("freeboard", NUMBER, CW_DIM_FT, 0, 20, WATER(freeboard_ft), "@water.freeboard", NULL,
                 "pool below the low point of the roadway at the design flow"),
    WITH_DEFAULT("ratio_max", NUMBER, CW_DIM_NONE, 0.5, 5, WATER(ratio_max), "@water.ratio_max", NULL,
                 "greatest headwater over rise at the design flow"),
    CHOICE("surface", surface_words, WATER(surface), "paved", "most roads", "surface over which the road overflows"),
};

/* ---- flows ---- */

static const cw_field flow_fields[] = {
    NEEDED_TEXT("name", FLOW(name), "name of the flow, printed with its answers"),
    NEEDED_CHOICE("use", use_words, FLOW(use),
                  "design: limits of headwater hold; check: the rare flood; work: while the culvert is built"),
    CHOICE("by", by_words, FLOW(by), "given", "the owner's hydrology report", "how the flow is found"),
    MAYBE("flow", NUMBER, CW_DIM_CFS, 0.001, FLOW_HIGH, FLOW(flow_cfs), FLOW(has_flow), "given: the flow itself"),
    MAYBE("period", NUMBER, CW_DIM_NONE, 1.01, 10000, FLOW(period_years), FLOW(has_period),
          "return period in years, or in seasons for the season of the work"),
    MAYBE("area", NUMBER, CW_DIM_ACRE, 0.01, 1e6, FLOW(area_acre), FLOW(has_area), "rational, unit_peak: drained area"),
    MAYBE("runoff", NUMBER, CW_DIM_NONE, 0.05, 1, FLOW(runoff), FLOW(has_runoff), "rational: runoff coefficient"),
    MAYBE("rain_rate", NUMBER, CW_DIM_IN_PER_H, 0.01, 30, FLOW(rain_in_per_h), FLOW(has_rain_rate),
          "rational: rain intensity over the time of concentration"),
    MAYBE("rain", NUMBER, CW_DIM_IN, 0.1, 60, FLOW(rain_in), FLOW(has_rain), "unit_peak: depth of the 24-hour rain"),
    MAYBE("time", NUMBER, CW_DIM_HOUR, 0.05, 48, FLOW(time_h), FLOW(has_time), "unit_peak: time of concentration"),
    MAYBE("curve_number", NUMBER, CW_DIM_NONE, 30, 100, FLOW(curve_number), FLOW(has_curve_number),
          "unit_peak: runoff curve number"),
    CHOICE("rain_type", rain_words, FLOW(rain_type), "II", "most of the inland United States",
           "unit_peak: rain distribution"),
    WITH_DEFAULT("pond", NUMBER, CW_DIM_PERCENT, 0, 5, FLOW(pond_percent), "0%", "no ponds or swamps",
                 "unit_peak: share of ponds and swamps"),
    WITH_DEFAULT("season", NUMBER, CW_DIM_PERCENT, 1, 100, FLOW(season_percent), "100%", "the whole year",
                 "rational, unit_peak: share of the yearly flow that the season of the work has"),
    WITH_DEFAULT("storm_factor", NUMBER, CW_DIM_NONE, 1, 1.5, FLOW(storm_factor), "1", "storms up to 10 years",
                 "rational: factor on the runoff coefficient for rare storms"),
};

/* ---- tailwater ---- */

static const cw_field tail_fields[] = {
    NEEDED_CHOICE("kind", tail_words, TAIL(kind), "what sets the water level below the outlet"),
    MAYBE("level", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, TAIL(level_ft), TAIL(has_level), "fixed: elevation of the water"),
    MAYBE("bottom", NUMBER, CW_DIM_FT, 0, 1000, TAIL(bottom_ft), TAIL(has_bottom), "trapezoid: bottom width"),
    MAYBE("side_slope", NUMBER, CW_DIM_SIDE_SLOPE, 0, 20, TAIL(side_slope), TAIL(has_side_slope),
          "trapezoid: side slope of the channel"),
    MAYBE("roughness", NUMBER, CW_DIM_NONE, 0.01, 0.3, TAIL(roughness), TAIL(has_roughness),
          "trapezoid: Manning roughness of the channel"),
    MAYBE("slope", NUMBER, CW_DIM_SLOPE, 1e-5, 0.5, TAIL(slope), TAIL(has_slope),
          "trapezoid, surveyed: slope of the channel below the outlet"),
    MAYBE("bed_level", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, TAIL(bed_level_ft), TAIL(has_bed_level),
          "trapezoid: elevation of the channel bed at the outlet; the outlet invert when left out"),
};

static const cw_field stage_fields[] = {
    NEEDED("flow", NUMBER, CW_DIM_CFS, 0, FLOW_HIGH, offsetof(cw_job_stage, flow_cfs), "flow in the channel"),
    NEEDED("level", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, offsetof(cw_job_stage, level_ft), "water level at this flow"),
};

static const cw_field bed_fields[] = {
    NEEDED("at", NUMBER, CW_DIM_FT, -5000, 5000, offsetof(cw_job_bed_point, at_ft), "distance across the channel, left to right"),
    NEEDED("elevation", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, offsetof(cw_job_bed_point, elevation_ft), "elevation of the ground there"),
    NEEDED("roughness", NUMBER, CW_DIM_NONE, 0.01, 0.3, offsetof(cw_job_bed_point, roughness),
           "Manning roughness from here to the next point"),
};

static const cw_section tail_sections[] = {
    {.key = "table",
     .meaning = "table of flow and level, both rising",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_STAGES_MAX,
     .fields = stage_fields,
     .field_count = COUNT_OF(stage_fields),
     .offset = TAIL(stages),
     .count_offset = TAIL(stage_count),
     .item_size = sizeof(cw_job_stage),
     .present_offset = CW_NO_FLAG},
    {.key = "points",
     .meaning = "surveyed channel section, left to right looking downstream",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_BED_POINTS_MAX,
     .fields = bed_fields,
     .field_count = COUNT_OF(bed_fields),
     .offset = TAIL(points),
     .count_offset = TAIL(point_count),
     .item_size = sizeof(cw_job_bed_point),
     .present_offset = CW_NO_FLAG},
};

static const cw_field crest_fields[] = {
    NEEDED("at", NUMBER, CW_DIM_FT, -20000, 20000, offsetof(cw_job_crest_point, at_ft),
           "distance along the road from the crossing, up-station positive"),
    NEEDED("elevation", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, offsetof(cw_job_crest_point, elevation_ft),
           "highest point of the roadway there"),
};

const cw_section cw_job_water_sections[CW_JOB_WATER_SECTIONS] = {
    {.key = "flows",
     .meaning = "flows to answer for: at least the design flow",
     .need = CW_NEED_REQUIRED,
     .is_list = true,
     .max_items = CW_FLOWS_MAX,
     .fields = flow_fields,
     .field_count = COUNT_OF(flow_fields),
     .offset = WATER(flows),
     .count_offset = WATER(flow_count),
     .item_size = sizeof(cw_job_flow),
     .present_offset = CW_NO_FLAG},
    {.key = "tailwater",
     .meaning = "water level below the outlet",
     .need = CW_NEED_REQUIRED,
     .fields = tail_fields,
     .field_count = COUNT_OF(tail_fields),
     .children = tail_sections,
     .child_count = COUNT_OF(tail_sections),
     .offset = WATER(tailwater),
     .present_offset = CW_NO_FLAG},
    {.key = "crest",
     .meaning = "crest of the road over which a flood goes, from down-station up; ends high enough to hold it",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_CREST_MAX,
     .fields = crest_fields,
     .field_count = COUNT_OF(crest_fields),
     .offset = WATER(crest),
     .count_offset = WATER(crest_count),
     .item_size = sizeof(cw_job_crest_point),
     .present_offset = CW_NO_FLAG},
};

/* ---- during the work ---- */

static const cw_field divert_fields[] = {
    NEEDED_CHOICE("kind", divert_words, DIVERT(kind),
                  "how the stream goes round the work; barrel: through the first barrel once it stands"),
    MAYBE("sizes", LIST, CW_DIM_IN, 4, 240, DIVERT(sizes_in), DIVERT(has_sizes), "pipe: clear diameters that can be had"),
    WITH_DEFAULT("pipes", WHOLE, CW_DIM_COUNT, 1, 12, DIVERT(pipes), "1", "one line of pipe", "pipe: lines side by side"),
    WITH_DEFAULT("head", NUMBER, CW_DIM_FT, 0.1, 50, DIVERT(head_ft), "2 ft", "common practice",
                 "pipe: pool above the tailwater at the work flow"),
    WITH_DEFAULT("length", NUMBER, CW_DIM_FT, 1, 5000, DIVERT(length_ft), "200 ft", "common practice",
                 "pipe: length of the bypass"),
    WITH_DEFAULT("roughness", NUMBER, CW_DIM_NONE, 0.008, 0.1, DIVERT(roughness), "0.012", "smooth pipe or lined flume",
                 "pipe, flume: Manning roughness"),
    WITH_DEFAULT("entrance", NUMBER, CW_DIM_NONE, 0, 2, DIVERT(entrance), "@bypass.entrance", NULL,
                 "pipe: entrance loss in velocity heads"),
    WITH_DEFAULT("width", NUMBER, CW_DIM_FT, 0.5, 100, DIVERT(width_ft), "4 ft", "common practice", "flume: bottom width"),
    WITH_DEFAULT("side_slope", NUMBER, CW_DIM_SIDE_SLOPE, 0, 4, DIVERT(side_slope), "vertical", "timber or steel flume",
                 "flume: side slope"),
    WITH_DEFAULT("slope", NUMBER, CW_DIM_SLOPE, 1e-5, 0.3, DIVERT(slope), "0.5%", "common practice", "flume: slope"),
    MAYBE("pump", NUMBER, CW_DIM_CFS, 0.01, 500, DIVERT(pump_cfs), DIVERT(has_pump), "pumps: what one pump gives at the head"),
    WITH_DEFAULT("lift", NUMBER, CW_DIM_FT, 0, 200, DIVERT(lift_ft), "12 ft", "common practice",
                 "pumps: water in the sump to the free end of the hose"),
    WITH_DEFAULT("hose", NUMBER, CW_DIM_FT, 0, 5000, DIVERT(hose_ft), "250 ft", "common practice", "pumps: length of each hose"),
    WITH_DEFAULT("hose_size", NUMBER, CW_DIM_IN, 2, 48, DIVERT(hose_in), "12 in", "common practice", "pumps: size of each hose"),
    WITH_DEFAULT("hose_c", NUMBER, CW_DIM_NONE, 80, 160, DIVERT(hose_c), "@pump.hose_c", NULL,
                 "pumps: Hazen-Williams coefficient of the hose"),
    WITH_DEFAULT("efficiency", NUMBER, CW_DIM_PERCENT, 20, 90, DIVERT(efficiency_percent), "@pump.efficiency", NULL,
                 "pumps: efficiency"),
    WITH_DEFAULT("suction", NUMBER, CW_DIM_FT, 0, 28, DIVERT(suction_ft), "10 ft", "common practice", "pumps: suction lift"),
    CHOICE("standby", standby_words, DIVERT(standby), "one", "one spare for the largest, common practice",
           "pumps: one spare, or as many spares as pumps"),
};

static const cw_field dam_fields[] = {
    NEEDED("ground", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, DAM(ground_ft), "ground under the cofferdam"),
    MAYBE("crest", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, DAM(crest_ft), DAM(has_crest), "crest as built, when it stands"),
    WITH_DEFAULT("freeboard", NUMBER, CW_DIM_FT, 0, 10, DAM(freeboard_ft), "@freeboard.cofferdam", NULL,
                 "crest above the water at the work flow"),
    WITH_DEFAULT("wave", NUMBER, CW_DIM_FT, 0, 10, DAM(wave_ft), "0 ft", "sheltered stream", "allowance for waves"),
    WITH_DEFAULT("rise", NUMBER, CW_DIM_FT, 0, 20, DAM(rise_ft_per_h), "1 ft", "common practice; ask for the stream's record",
                 "how far the stream can rise in an hour"),
    WITH_DEFAULT("clear", NUMBER, CW_DIM_HOUR, 0, 48, DAM(clear_h), "2 h", "common practice", "time to clear the work"),
};

static const cw_field groundwater_fields[] = {
    NEEDED("level", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, GROUND(level_ft), "still groundwater beside the trench"),
    NEEDED("base", NUMBER, CW_DIM_ELEV_FT, -1500, 30000, GROUND(base_ft), "top of the ground that lets no water through"),
    NEEDED("permeability", NUMBER, CW_DIM_FT_PER_DAY, 1e-5, 1e5, GROUND(k_ft_per_day), "permeability of the ground between"),
    WITH_DEFAULT("below", NUMBER, CW_DIM_FT, 0, 10, GROUND(below_ft), "1 ft", "common practice; 2 ft in fine sand",
                 "how far under the subgrade the water is drawn down"),
    CHOICE("sides", sides_words, GROUND(sides), "both", "water on both sides", "from how many sides the water comes"),
    FLAG("ends", GROUND(ends), "yes", "the trench is open at its ends", "add the flow round both ends"),
    WITH_DEFAULT("yield", NUMBER, CW_DIM_PERCENT, 1, 45, GROUND(yield_percent), "@draw_down.yield", NULL, "specific yield"),
    MAYBE("pump", NUMBER, CW_DIM_CFS, 0.001, 500, GROUND(pump_cfs), GROUND(has_pump), "pumping rate that is planned"),
    WITH_DEFAULT("safety", NUMBER, CW_DIM_NONE, 1, 2, GROUND(safety), "@flotation.factor", NULL,
                 "factor on uplift against floating"),
};

const cw_section cw_job_site_water_sections[CW_JOB_SITE_WATER_SECTIONS] = {
    {.key = "diversion",
     .meaning = "how the stream goes round the work",
     .need = CW_NEED_OPTIONAL,
     .fields = divert_fields,
     .field_count = COUNT_OF(divert_fields),
     .offset = offsetof(cw_job_site_water, diversion),
     .present_offset = DIVERT(present)},
    {.key = "cofferdam",
     .meaning = "dam that keeps the stream out of the work",
     .need = CW_NEED_OPTIONAL,
     .fields = dam_fields,
     .field_count = COUNT_OF(dam_fields),
     .offset = offsetof(cw_job_site_water, cofferdam),
     .present_offset = DAM(present)},
    {.key = "groundwater",
     .meaning = "groundwater in the trench",
     .need = CW_NEED_OPTIONAL,
     .fields = groundwater_fields,
     .field_count = COUNT_OF(groundwater_fields),
     .offset = offsetof(cw_job_site_water, groundwater),
     .present_offset = GROUND(present)},
};
