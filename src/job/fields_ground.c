/* The job format, ground: the cut, the control of line and grade, the backfill. */
#include "fields_internal.h"

/* Same words and order as the choices of the calculators (a test of the plan compares them). */
static const char *const material_words[] = {"rock",     "cohesive", "cemented", "angular",
                                             "granular", "unknown",  NULL};
static const char *const dip_words[] = {"none", "flat", "steep", NULL};
static const char *const protection_words[] = {"slope", "bench", "shield", NULL};
static const char *const spoil_words[] = {"hauled", "left", "right", "both", NULL};
static const char *const earth_words[] = {"clay", "common", "rock", "sand-gravel", NULL};
static const char *const instrument_words[] = {"level", "laser", NULL};
static const char *const camber_words[] = {"parabola", "break", NULL};
static const char *const fill_words[] = {"grout", "flowable", "granular", NULL};
static const char *const side_words[] = {"left", "right", "both", NULL};

#define NEEDED_FLAG(key, offset, meaning)                                                          \
    NEEDED(key, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, offset, meaning)
#define SOIL(member) offsetof(cw_job_soil, member)
#define TRENCH(member) offsetof(cw_job_trench, member)
#define GRADE(member) offsetof(cw_job_grade, member)
#define GROWTH(member) offsetof(cw_job_growth, member)
#define LOOP(member) offsetof(cw_job_level_loop, member)
#define ZONE(member) offsetof(cw_job_zone, member)
#define BACKFILL(member) offsetof(cw_job_backfill, member)

/* ---- the cut ---- */

static const cw_field soil_fields[] = {
    NEEDED_TEXT("name", SOIL(name), "what the layer is called in the soil report"),
    NEEDED_CHOICE("material", material_words, SOIL(material),
                  "cohesive: clays; cemented: caliche, hardpan; angular: angular gravel, silt, "
                  "silt loam; granular: sand, "
                  "gravel"),
    MAYBE("thickness", NUMBER, CW_DIM_FT, 0.1, 100, SOIL(thickness_ft), SOIL(has_thickness),
          "of the layer; the last one goes down without end"),
    NEEDED_FLAG(
        "disturbed", SOIL(disturbed),
        "existing embankment, old culvert trench or other ground that was dug or placed before"),
    NEEDED_FLAG(
        "wet", SOIL(wet),
        "water seeps freely from it; ground under the groundwater level counts as wet anyway"),
    MAYBE("strength", NUMBER, CW_DIM_PSF, 0, 20000, SOIL(strength_psf), SOIL(has_strength),
          "cohesive: unconfined compressive strength"),
    FLAG("fissured", SOIL(fissured), "no", "soil report", "cracks in it"),
    CHOICE("dip", dip_words, SOIL(dip), "none", "soil report",
           "layers that dip into the cut: flat below 4H:1V, steep from 4H:1V on"),
};

const cw_field cw_job_trench_fields[CW_JOB_TRENCH_FIELDS] = {
    CHOICE("protection", protection_words, TRENCH(protection), "slope", "common practice",
           "how the sides are kept from caving in"),
    WITH_DEFAULT("working_space", NUMBER, CW_DIM_FT, 1, 20, TRENCH(working_space_ft),
                 "@trench.working_space", NULL,
                 "between the outer wall and the foot of the face, each side"),
    WITH_DEFAULT("cross_fall", NUMBER, CW_DIM_SLOPE, -0.3, 0.3, TRENCH(cross_fall), "0%",
                 "ground level across the run",
                 "of the ground across the run, + when it rises to the right"),
    WITH_DEFAULT("open_time", NUMBER, CW_DIM_HOUR, 0.5, 8760, TRENCH(open_h), "720 h",
                 "common practice", "how long the cut stays open"),
    MAYBE("shield", NUMBER, CW_DIM_FT, 1, 40, TRENCH(shield_ft), TRENCH(has_shield),
          "shield: its top above the bottom of the cut"),
    WITH_DEFAULT("below_shield", NUMBER, CW_DIM_FT, 0, 20, TRENCH(below_shield_ft), "0 ft",
                 "the shield stands on the bottom",
                 "shield: depth of the bottom below its lower edge"),
    CHOICE("spoil", spoil_words, TRENCH(spoil), "hauled", "common practice",
           "where the suitable part of the dug ground lies until it is used: hauled off, or on a "
           "side looking upstream"),
    WITH_DEFAULT("spoil_setback", NUMBER, CW_DIM_FT, 0, 100, TRENCH(spoil_setback_ft),
                 "@trench.spoil", NULL, "from the edge of the cut to spoil, material or plant"),
    CHOICE("earth", earth_words, TRENCH(earth), "common", "common practice",
           "kind of the dug ground, for its swell and shrink"),
    WITH_DEFAULT("suitable", NUMBER, CW_DIM_PERCENT, 0, 100, TRENCH(suitable_percent), "0%",
                 "no report says that the ground is fit for backfill",
                 "part of the dug ground that is fit for backfill"),
    WITH_DEFAULT("truck", NUMBER, CW_DIM_CY, 1, 60, TRENCH(truck_cy), "14 cy", "common practice",
                 "loose volume of the box of a truck that hauls earth"),
    WITH_DEFAULT("truck_payload", NUMBER, CW_DIM_LB, 1000, 200000, TRENCH(truck_payload_lb),
                 "34,000 lb", "common practice", "payload of that truck"),
    WITH_DEFAULT("overbreak", NUMBER, CW_DIM_PERCENT, 0, 50, TRENCH(overbreak_percent), "5%",
                 "common practice, 5 to 10", "dug beyond the lines, shown apart"),
    WITH_DEFAULT("egress", NUMBER, CW_DIM_FT, 5, 100, TRENCH(egress_ft), "@trench.egress_travel",
                 NULL, "longest way to a ladder or ramp"),
    FLAG("vibration", TRENCH(vibration), "yes",
         "traffic and plant work beside a culvert, common practice",
         "traffic, piling or heavy plant near the cut"),
    FLAG("surcharge", TRENCH(surcharge), "no", "plant keeps the setback",
         "crane, trucks or material stand nearer than the setback"),
    MAYBE(
        "pay_line", NUMBER, CW_DIM_FT, 0, 20, TRENCH(pay_ft), TRENCH(has_pay),
        "vertical pay planes outside the outer walls; left out, excavation is not paid by volume"),
    MAYBE_TEXT("competent_person", TRENCH(competent_person),
               "who classes the ground and inspects before each shift"),
};

const cw_section cw_job_trench_sections[1] = {
    {.key = "soil",
     .meaning = "layers of ground from the surface down; without them the cut is sloped as class C",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_SOILS_MAX,
     .fields = soil_fields,
     .field_count = COUNT_OF(soil_fields),
     .offset = TRENCH(soils),
     .count_offset = TRENCH(soil_count),
     .item_size = sizeof(cw_job_soil),
     .present_offset = CW_NO_FLAG},
};

/* ---- line and grade ---- */

const cw_field cw_job_grade_fields[CW_JOB_GRADE_FIELDS] = {
    CHOICE("instrument", instrument_words, GRADE(instrument), "level", "common practice",
           "what gives the height"),
    MAYBE("backsight", NUMBER, CW_DIM_FT, 0, 50, GRADE(backsight_ft), GRADE(has_backsight),
          "rod on the benchmark from the set-up that the grade sheet is for"),
    WITH_DEFAULT("rod", NUMBER, CW_DIM_FT, 5, 50, GRADE(rod_ft), "25 ft", "common practice",
                 "longest reading of the rod"),
    CHOICE("camber_shape", camber_words, GRADE(camber_shape), "parabola",
           "FHWA Culvert Inspection Manual 1986",
           "of the cambered grade; break: flat upstream half, steep downstream half"),
    WITH_DEFAULT("camber", NUMBER, CW_DIM_FT, 0, 10, GRADE(camber_ft), "0 ft",
                 "no settlement is forecast",
                 "rise of the middle above the straight grade, as laid"),
    WITH_DEFAULT("settlement", NUMBER, CW_DIM_FT, 0, 10, GRADE(settlement_ft), "0 ft",
                 "no settlement is forecast", "expected at the middle of the run"),
    WITH_DEFAULT("pond", NUMBER, CW_DIM_IN, 0, FT(2), GRADE(pond_in), "@joint.lip", NULL,
                 "depth of water that may stand in the barrel"),
    WITH_DEFAULT("stake_offset", NUMBER, CW_DIM_FT, 1, 200, GRADE(stake_offset_ft), "10 ft",
                 "common practice", "from the edge of the cut to the stakes"),
    WITH_DEFAULT("stake_spacing", NUMBER, CW_DIM_FT, 5, 200, GRADE(stake_spacing_ft), "25 ft",
                 "common practice", "between stakes, along the run"),
    CHOICE("stake_side", side_words, GRADE(stake_side), "left", "common practice",
           "side of the stakes looking upstream"),
};

static const cw_field growth_fields[] = {
    MAYBE("gap", NUMBER, CW_DIM_IN, 0, 3, GROWTH(gap_in), GROWTH(has_gap),
          "mean gap as the crew lays it; left out, the gap of the layout"),
    WITH_DEFAULT("gap_tolerance", NUMBER, CW_DIM_IN, 0, 2, GROWTH(gap_tolerance_in), "1/8 in",
                 "common practice", "of one gap, plus or minus, as three standard deviations"),
    WITH_DEFAULT("length_bias", NUMBER, CW_DIM_IN, -2, 2, GROWTH(length_bias_in), "0 in",
                 "no piece was taped yet", "mean of the cast lengths less drawn"),
    WITH_DEFAULT("length_tolerance", NUMBER, CW_DIM_IN, 0, 2, GROWTH(length_tolerance_in), "1/4 in",
                 "common practice; the product standard allows more (from memory, not verified)",
                 "of one cast length, plus or minus, as three standard deviations"),
};

static const cw_field loop_fields[] = {
    NEEDED("backsights", LIST, CW_DIM_FT, 0, 50, LOOP(backsights_ft), "one to a set-up, in order"),
    NEEDED("foresights", LIST, CW_DIM_FT, 0, 50, LOOP(foresights_ft), "one to a set-up, in order"),
    NEEDED("length", NUMBER, CW_DIM_FT, 1, 52800, LOOP(length_ft),
           "length of the line of levels, there and back"),
};

const cw_section cw_job_grade_sections[CW_JOB_GRADE_SECTIONS] = {
    {.key = "growth",
     .meaning = "how far laid pieces and gaps differ from the drawing",
     .need = CW_NEED_DEFAULTED,
     .fields = growth_fields,
     .field_count = COUNT_OF(growth_fields),
     .offset = GRADE(growth),
     .present_offset = CW_NO_FLAG},
    {.key = "loop",
     .meaning = "line of levels from the benchmark and back, to check it",
     .need = CW_NEED_OPTIONAL,
     .fields = loop_fields,
     .field_count = COUNT_OF(loop_fields),
     .offset = GRADE(loop),
     .present_offset = LOOP(present)},
};

/* ---- fill between barrels, sealant ---- */

const cw_field cw_job_fill_fields[CW_JOB_FILL_FIELDS] = {
    CHOICE("kind", fill_words, offsetof(cw_job_fill, kind), "grout", "common practice",
           "what fills the space between parallel barrels"),
    WITH_DEFAULT("placements", WHOLE, CW_DIM_COUNT, 1, 20, offsetof(cw_job_fill, placements),
                 "@fill.placements", NULL, "number of lifts in which it is placed"),
    WITH_DEFAULT("loss", NUMBER, CW_DIM_PERCENT, 0, 100, offsetof(cw_job_fill, loss_percent),
                 "@fill.loss", NULL, "material to order beyond the neat volume"),
    WITH_DEFAULT("unit_weight", NUMBER, CW_DIM_PCF, 30, 170, offsetof(cw_job_fill, unit_weight_pcf),
                 "@fill.unit_weight", NULL, "wet unit weight of the fill"),
    FLAG("beneath", offsetof(cw_job_fill, beneath), "yes",
         "nobody vouches for the contact of every floor with its bed",
         "the fill may run under the floors and lift them"),
    WITH_DEFAULT("cure", NUMBER, CW_DIM_HOUR, 0, 672, offsetof(cw_job_fill, cure_h), "@fill.cure",
                 NULL, "time from the last placement to the start of backfill"),
    WITH_DEFAULT("strength_needed", NUMBER, CW_DIM_PSI, 0, 5000, offsetof(cw_job_fill, strength_psi),
                 "@fill.strength_to_resume", NULL, "strength of the fill before backfill beside it"),
    MAYBE("break_ages", LIST, CW_DIM_HOUR, 0.1, 8760, offsetof(cw_job_fill, ages_h),
          offsetof(cw_job_fill, has_ages),
          "laboratory breaks of this mix: ages, cured at 73 deg F; 4 at least"),
    MAYBE("break_strengths", LIST, CW_DIM_PSI, 1, 20000, offsetof(cw_job_fill, breaks_psi),
          offsetof(cw_job_fill, has_breaks), "strength at each of these ages"),
    MAYBE("forecast", LIST, CW_DIM_DEGF, -40, 160, offsetof(cw_job_fill, forecast_f),
          offsetof(cw_job_fill, has_forecast),
          "mean temperature of the fill, where it is coldest, in each step from the last placement"),
    WITH_DEFAULT("forecast_step", NUMBER, CW_DIM_HOUR, 0.5, 24, offsetof(cw_job_fill, step_h), "12 h",
                 "a value for day and for night", "time that one value of the forecast stands for"),
};

const cw_field cw_job_sealant_fields[CW_JOB_SEALANT_FIELDS] = {
    WITH_DEFAULT("rows", WHOLE, CW_DIM_COUNT, 1, 4, offsetof(cw_job_sealant, rows), "@sealant.rows",
                 NULL, "rows of sealant in a joint between pieces of one row"),
    WITH_DEFAULT("seat_rows", WHOLE, CW_DIM_COUNT, 0, 4, offsetof(cw_job_sealant, seat_rows),
                 "@sealant.seat_rows", NULL,
                 "rows of sealant on each wall top under the top pieces"),
    WITH_DEFAULT("roll", NUMBER, CW_DIM_FT, 1, 500, offsetof(cw_job_sealant, roll_ft),
                 "@sealant.roll", NULL, "length of one roll as delivered"),
    WITH_DEFAULT("waste", NUMBER, CW_DIM_PERCENT, 0, 100, offsetof(cw_job_sealant, waste_percent),
                 "@sealant.waste", NULL, "sealant to order beyond the measured length"),
    WITH_DEFAULT("splice", NUMBER, CW_DIM_IN, 0, FT(2), offsetof(cw_job_sealant, splice_in),
                 "@sealant.splice", NULL, "length used up by one splice"),
    MAYBE("sizes", LIST, CW_DIM_IN, 0.1, 4, offsetof(cw_job_sealant, sizes_in),
          offsetof(cw_job_sealant, has_sizes), "heights of section that the supplier has"),
    MAYBE("width", NUMBER, CW_DIM_IN, 0.25, 4, offsetof(cw_job_sealant, width_in),
          offsetof(cw_job_sealant, has_width), "width of the section; as high as wide when left out"),
    WITH_DEFAULT("compression", NUMBER, CW_DIM_PERCENT, 5, 80,
                 offsetof(cw_job_sealant, compression_percent), "@sealant.compression", NULL,
                 "compression at the widest room between tongue and groove"),
    WITH_DEFAULT("room_tolerance", NUMBER, CW_DIM_IN, 0, 1,
                 offsetof(cw_job_sealant, annulus_tolerance_in), "1/16 in",
                 "common practice; take the precaster's drawing",
                 "how far the room between tongue and groove may be off, either way"),
    MAYBE("temperature", NUMBER, CW_DIM_DEGF, -40, 160, offsetof(cw_job_sealant, temperature_f),
          offsetof(cw_job_sealant, has_temperature),
          "coldest that concrete and sealant will be when pieces are set"),
    WITH_DEFAULT("temperature_min", NUMBER, CW_DIM_DEGF, -40, 120,
                 offsetof(cw_job_sealant, temperature_min_f), "@sealant.temperature", NULL,
                 "coldest at which the sealant is used without warming or primer"),
};

/* ---- backfill ---- */

static const cw_field zone_fields[] = {
    NEEDED_TEXT("name", ZONE(name), "of the zone, as the drawing calls it"),
    NEEDED_TEXT("material", ZONE(material), "what it is filled with"),
    MAYBE("to", NUMBER, CW_DIM_FT, 0.1, 100, ZONE(to_ft), ZONE(has_to),
          "its top above the underside of the boxes; the last zone goes to the finished surface"),
    WITH_DEFAULT("compaction", NUMBER, CW_DIM_PERCENT, 80, 110, ZONE(compaction_percent),
                 "@backfill.compaction", NULL, "of the maximum dry density"),
};

const cw_field cw_job_backfill_fields[CW_JOB_BACKFILL_FIELDS] = {
    WITH_DEFAULT("loose_ratio", NUMBER, CW_DIM_NONE, 1, 1.6, BACKFILL(loose_ratio),
                 "@backfill.loose_ratio", NULL, "loose over compacted thickness of a lift"),
    WITH_DEFAULT("test_volume", NUMBER, CW_DIM_CY, 10, 10000, BACKFILL(test_cy),
                 "@backfill.test_volume", NULL, "compacted volume for one density test"),
    WITH_DEFAULT("tests_least", WHOLE, CW_DIM_COUNT, 0, 20, BACKFILL(tests_least),
                 "@backfill.tests_least", NULL, "density tests in each lift of each side"),
    WITH_DEFAULT("hand_zone", NUMBER, CW_DIM_FT, 0, 10, BACKFILL(hand_zone_ft), "2 ft",
                 "common practice", "strip beside the walls that only hand compactors work"),
    WITH_DEFAULT("hand_lift", NUMBER, CW_DIM_IN, 2, FT(1), BACKFILL(hand_lift_in), "4 in",
                 "common practice", "loose thickness of a lift under a hand compactor"),
};

const cw_section cw_job_backfill_sections[1] = {
    {.key = "zones",
     .meaning = "zones of backfill from the underside of the boxes up",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_ZONES_MAX,
     .fields = zone_fields,
     .field_count = COUNT_OF(zone_fields),
     .offset = BACKFILL(zones),
     .count_offset = BACKFILL(zone_count),
     .item_size = sizeof(cw_job_zone),
     .present_offset = CW_NO_FLAG},
};
