/* The job format as a table: every section and key with its limits, default and meaning.
 * Limits here are sanity bounds that catch a slipped unit or digit; what an owner allows is a row
 * of the specification profile ("@row.id").  Optional texts that are absent are read as "". */
#include "fields_internal.h"

static const char *const unit_words[] = {"us", "si", NULL};
static const char *const acceptance_words[] = {"accepted", "refused", "pending", NULL};
static const char *const foot_words[] = {"international", "us-survey", NULL};
static const char *const side_words[] = {"left", "right", NULL};
static const char *const cut_words[] = {"square", "road", NULL};
static const char *const excess_words[] = {"inlet", "outlet", "shared", NULL};
static const char *const treatment_words[] = {"headwall", "collar", "none", NULL};
static const char *const form_words[] = {"lid", "double-u", "ring", NULL};
static const char *const gap_mode_words[] = {"gauge", "continuous", NULL};
static const char *const rows_words[] = {"aligned", "staggered", NULL};
static const char *const end_words[] = {"outlet", "inlet", NULL};
static const char *const piece_row_words[] = {"base", "top", "both", NULL};
static const char *const face_words[] = {"left", "right", "floor", "top", NULL};
static const char *const order_words[] = {"pnezd", "penzd", NULL};
static const char *const grid_unit_words[] = {"feet", "metres", NULL};
static const char *const phase_face_words[] = {"slope", "shore", NULL};
static const char *const barrel_order_words[] = {"together", "in_turn", NULL};

/* ---- the file itself ---- */

static const cw_field file_fields[] = {
    NEEDED("format", WHOLE, CW_DIM_COUNT, 1, 1, offsetof(cw_job, format),
           "version of the job format that this file is written in"),
};

static const cw_field head_fields[] = {
    NEEDED_TEXT("name", offsetof(cw_job_head, name), "name of the job, printed on every sheet"),
    MAYBE_TEXT("number", offsetof(cw_job_head, number), "contract or project number"),
    MAYBE_TEXT("owner", offsetof(cw_job_head, owner), "who will own the culvert"),
    MAYBE_TEXT("prepared_by", offsetof(cw_job_head, prepared_by), "who prepared this plan"),
    MAYBE_TEXT("checked_by", offsetof(cw_job_head, checked_by), "who checked this plan"),
    MAYBE_TEXT("revision", offsetof(cw_job_head, revision), "revision of this plan"),
    MAYBE_TEXT("date", offsetof(cw_job_head, date), "date of this revision, printed as written"),
    MAYBE_TEXT("notes", offsetof(cw_job_head, notes), "remarks for the cover sheet"),
    CHOICE("units", unit_words, offsetof(cw_job_head, units), "us",
           "US customary, the units of the governing US documents",
           "units of the output; the file itself may mix units freely"),
};

/* ---- profile ---- */

static const cw_field override_fields[] = {
    NEEDED_TEXT("row", offsetof(cw_job_override, row),
                "id of the profile row to replace, such as joint.gap_max"),
    NEEDED_TEXT("value", offsetof(cw_job_override, value), "the value in force on this job"),
    NEEDED_TEXT("because", offsetof(cw_job_override, because),
                "who or what sets it: contract clause, drawing or letter"),
};

static const cw_field profile_fields[] = {
    WITH_DEFAULT("name", CW_KIND_TEXT, CW_DIM_TEXT, 0, 0, offsetof(cw_job_profile, name), "generic",
                 "the rows shipped with the program; they are not from the contract",
                 "generic, or the file name of a specification profile beside the job file"),
};

static const cw_section profile_sections[] = {
    {.key = "overrides",
     .meaning = "rows of the profile that this contract sets otherwise, each with its reason",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_OVERRIDES_MAX,
     .fields = override_fields,
     .field_count = COUNT_OF(override_fields),
     .offset = offsetof(cw_job_profile, overrides),
     .count_offset = offsetof(cw_job_profile, override_count),
     .item_size = sizeof(cw_job_override),
     .present_offset = CW_NO_FLAG},
};

/* ---- acceptance and survey ---- */

static const cw_field acceptance_fields[] = {
    NEEDED_CHOICE("form", acceptance_words, offsetof(cw_job_acceptance, form),
                  "whether the owner takes this form of box on this job"),
    MAYBE_TEXT("reference", offsetof(cw_job_acceptance, reference),
               "where the owner says so: clause, plan note or letter"),
};

static const cw_field survey_fields[] = {
    MAYBE_TEXT("datum", offsetof(cw_job_survey, datum),
               "horizontal and vertical datum of the survey"),
    MAYBE_TEXT("benchmark", offsetof(cw_job_survey, benchmark),
               "bench mark that sets elevations: what and where it is"),
    MAYBE("benchmark_elevation", NUMBER, CW_DIM_ELEV_FT, ELEV_LOW, ELEV_HIGH,
          offsetof(cw_job_survey, benchmark_ft), offsetof(cw_job_survey, has_benchmark),
          "elevation of the benchmark"),
    CHOICE("foot", foot_words, offsetof(cw_job_survey, foot), "international",
           "exact foot of 0.3048 m, federal standard since the end of 2022 (85 FR 62698)",
           "which foot the coordinates are in"),
    WITH_DEFAULT("northing", NUMBER, CW_DIM_COORD_FT, -COORD_HIGH, COORD_HIGH,
                 offsetof(cw_job_survey, northing_ft), "0 ft",
                 "local coordinates with their origin at the crossing",
                 "northing of the point where the barrel centre line crosses the road, or of the "
                 "outlet face when the job has no road"),
    WITH_DEFAULT("easting", NUMBER, CW_DIM_COORD_FT, -COORD_HIGH, COORD_HIGH,
                 offsetof(cw_job_survey, easting_ft), "0 ft",
                 "local coordinates with their origin at the crossing",
                 "easting of the point where the barrel centre line crosses the road, or of the "
                 "outlet face when the job has no road"),
    WITH_DEFAULT(
        "azimuth", NUMBER, CW_DIM_DEG, 0, 360, offsetof(cw_job_survey, azimuth_deg), "0 deg",
        "local coordinates with this line running north",
        "azimuth of the road toward rising stations, clockwise from north, or of the culvert "
        "looking upstream when the job has no road"),
};

/* ---- road ---- */

static const cw_field strip_fields[] = {
    NEEDED("width", NUMBER, CW_DIM_FT, 0, 200, offsetof(cw_strip, width_ft),
           "width of this lane or shoulder, square to the road"),
    NEEDED("fall", NUMBER, CW_DIM_SLOPE, -0.25, 0.25, offsetof(cw_strip, fall),
           "fall of its surface going away from the grade point; negative where it rises"),
};

static const cw_field side_fields[] = {
    NEEDED("side_slope", NUMBER, CW_DIM_SIDE_SLOPE, 0.25, 20,
           offsetof(cw_template_side, side_slope),
           "slope of the fill from the outermost strip down, horizontal to vertical"),
};

static const cw_section side_sections[] = {
    {.key = "strips",
     .meaning = "lanes and shoulders from the grade point outward",
     .need = CW_NEED_REQUIRED,
     .is_list = true,
     .max_items = CW_STRIPS_MAX,
     .fields = strip_fields,
     .field_count = COUNT_OF(strip_fields),
     .offset = offsetof(cw_template_side, strips),
     .count_offset = offsetof(cw_template_side, strip_count),
     .item_size = sizeof(cw_strip),
     .present_offset = CW_NO_FLAG},
};

static const cw_field road_fields[] = {
    NEEDED("station", NUMBER, CW_DIM_STATION_FT, -1e6, 1e7, offsetof(cw_job_road, station_ft),
           "road station where the barrel centre line crosses"),
    NEEDED("elevation", NUMBER, CW_DIM_ELEV_FT, ELEV_LOW, ELEV_HIGH,
           offsetof(cw_job_road, elevation_ft), "profile grade elevation at that station"),
    NEEDED("grade", NUMBER, CW_DIM_SLOPE, -0.25, 0.25, offsetof(cw_job_road, grade),
           "grade of the road there, positive when it rises with the stations"),
    NEEDED_CHOICE("inlet_side", side_words, offsetof(cw_job_road, inlet_side),
                  "side of the road on which the inlet lies, looking along rising stations"),
};

/* The key inlet_side names a word (left or right); the templates are outlet_template and
 * inlet_template. */
static const cw_section road_sections[] = {
    {.key = "outlet_template",
     .meaning = "surface of the roadway from the grade point to the outlet side",
     .need = CW_NEED_OPTIONAL,
     .fields = side_fields,
     .field_count = COUNT_OF(side_fields),
     .children = side_sections,
     .child_count = COUNT_OF(side_sections),
     .offset = offsetof(cw_job_road, outlet),
     .present_offset = offsetof(cw_template_side, present)},
    {.key = "inlet_template",
     .meaning = "surface of the roadway from the grade point to the inlet side",
     .need = CW_NEED_OPTIONAL,
     .fields = side_fields,
     .field_count = COUNT_OF(side_fields),
     .children = side_sections,
     .child_count = COUNT_OF(side_sections),
     .offset = offsetof(cw_job_road, inlet),
     .present_offset = offsetof(cw_template_side, present)},
};

/* ---- run and bends ---- */

static const cw_field end_fields[] = {
    CHOICE("treatment", treatment_words, offsetof(cw_job_end, treatment), "headwall",
           "common practice", "what closes the fill at this end"),
    WITH_DEFAULT("parapet", NUMBER, CW_DIM_IN, 0, FT(10), offsetof(cw_job_end, parapet_in),
                 "@end.parapet", NULL, "height of the headwall above the top of the box"),
    WITH_DEFAULT("thickness", NUMBER, CW_DIM_IN, 4, FT(5), offsetof(cw_job_end, thickness_in),
                 "@end.thickness", NULL, "thickness of the headwall or collar"),
    WITH_DEFAULT("overhang", NUMBER, CW_DIM_IN, 0, FT(30), offsetof(cw_job_end, overhang_in),
                 "@end.overhang", NULL,
                 "how far the headwall passes the outside wall of the outer barrel, each side"),
};

static const cw_field run_fields[] = {
    WITH_DEFAULT(
        "skew", NUMBER, CW_DIM_DEG, -60, 60, offsetof(cw_job_run, skew_deg), "0 deg",
        "a square crossing",
        "angle from the square crossing to the barrel, positive when the inlet lies toward "
        "higher stations"),
    NEEDED("invert", NUMBER, CW_DIM_ELEV_FT, ELEV_LOW, ELEV_HIGH, offsetof(cw_job_run, invert_ft),
           "invert elevation where the barrel crosses the road centre line, or at the outlet face "
           "when the job has no road"),
    NEEDED("slope", NUMBER, CW_DIM_SLOPE, 0, 0.5, offsetof(cw_job_run, slope),
           "slope of the invert, rising from outlet to inlet"),
    MAYBE(
        "length", NUMBER, CW_DIM_FT, 4, PLAN_HIGH, offsetof(cw_job_run, length_ft),
        offsetof(cw_job_run, has_length),
        "plan length from outlet face to inlet face; left out, it follows from the road template"),
    MAYBE("outlet_distance", NUMBER, CW_DIM_FT, 0, PLAN_HIGH,
          offsetof(cw_job_run, outlet_distance_ft), offsetof(cw_job_run, has_outlet_distance),
          "plan distance along the barrel from the road centre line to the outlet face; only with "
          "a given length"),
    CHOICE("cut", cut_words, offsetof(cw_job_run, cut), "square", "common practice",
           "whether the ends are cut square to the barrel or parallel to the road"),
    CHOICE("excess", excess_words, offsetof(cw_job_run, excess), "inlet", "common practice",
           "where the length goes that whole pieces have over the needed length"),
    MAYBE("fill_at_end", NUMBER, CW_DIM_FT, 1, 150, offsetof(cw_job_run, fill_at_end_ft),
          offsetof(cw_job_run, has_fill_at_end),
          "height of the fill surface above the invert at the back of the end wall; left out, it "
          "follows from the box and the end treatment"),
    WITH_DEFAULT("end_tolerance", NUMBER, CW_DIM_IN, 0, FT(1),
                 offsetof(cw_job_run, end_tolerance_in), "@run.end_tolerance", NULL,
                 "how far the last face may miss its place"),
    WITH_DEFAULT("overrun", NUMBER, CW_DIM_FT, 0, 24, offsetof(cw_job_run, overrun_ft),
                 "@run.overrun", NULL,
                 "how much longer than needed the run may become so that whole pieces fill it"),
};

static const cw_section run_sections[] = {
    {.key = "outlet",
     .meaning = "end treatment at the outlet",
     .need = CW_NEED_DEFAULTED,
     .fields = end_fields,
     .field_count = COUNT_OF(end_fields),
     .children = cw_job_end_sections,
     .child_count = CW_JOB_END_SECTIONS,
     .offset = offsetof(cw_job_run, outlet),
     .present_offset = CW_NO_FLAG},
    {.key = "inlet",
     .meaning = "end treatment at the inlet",
     .need = CW_NEED_DEFAULTED,
     .fields = end_fields,
     .field_count = COUNT_OF(end_fields),
     .children = cw_job_end_sections,
     .child_count = CW_JOB_END_SECTIONS,
     .offset = offsetof(cw_job_run, inlet),
     .present_offset = CW_NO_FLAG},
};

static const cw_field bend_fields[] = {
    NEEDED(
        "at", NUMBER, CW_DIM_FT, 0, PLAN_HIGH, offsetof(cw_job_bend, at_ft),
        "plan distance of the bend point from the outlet face along the centre of the structure"),
    NEEDED("turn", NUMBER, CW_DIM_DEG, -90, 90, offsetof(cw_job_bend, turn_deg),
           "angle of the bend, positive to the right looking upstream"),
    WITH_DEFAULT("within", NUMBER, CW_DIM_IN, 0, FT(10), offsetof(cw_job_bend, within_in),
                 "@bend.within", NULL, "how far the mitred joint may stand from the bend point"),
};

/* ---- box, joint, barrels ---- */

static const cw_field box_fields[] = {
    NEEDED_CHOICE("form", form_words, offsetof(cw_job_box, form),
                  "how a barrel is made: base and flat lid, base and inverted U, or one ring"),
    NEEDED("span", NUMBER, CW_DIM_IN, FT(2), FT(40), offsetof(cw_job_box, span_in),
           "clear inside width of one barrel"),
    NEEDED("rise", NUMBER, CW_DIM_IN, FT(2), FT(20), offsetof(cw_job_box, rise_in),
           "clear inside height of one barrel, floor to soffit"),
    NEEDED("wall", NUMBER, CW_DIM_IN, 4, FT(3), offsetof(cw_job_box, wall_in), "wall thickness"),
    NEEDED("floor", NUMBER, CW_DIM_IN, 4, FT(4), offsetof(cw_job_box, floor_in),
           "thickness of the bottom slab"),
    NEEDED("top", NUMBER, CW_DIM_IN, 4, FT(4), offsetof(cw_job_box, top_in),
           "thickness of the lid or top slab"),
    MAYBE("leg", NUMBER, CW_DIM_IN, 6, FT(20), offsetof(cw_job_box, leg_in),
          offsetof(cw_job_box, has_leg),
          "double-u only: clear height of the base wall above the floor, up to the seat"),
    NEEDED("haunch", NUMBER, CW_DIM_IN, 0, FT(3), offsetof(cw_job_box, haunch_in),
           "leg of the 45-degree haunch between floor and walls; 0 in where there is none"),
    WITH_DEFAULT("top_haunch", NUMBER, CW_DIM_IN, 0, FT(3), offsetof(cw_job_box, top_haunch_in),
                 "0 in", "no haunch at the top unless the drawing shows one",
                 "leg of the 45-degree haunch between walls and top slab"),
    WITH_DEFAULT("concrete", NUMBER, CW_DIM_PCF, 90, 200, offsetof(cw_job_box, concrete_pcf),
                 "@concrete.unit_weight", NULL, "unit weight of the reinforced pieces"),
    WITH_DEFAULT("strength", NUMBER, CW_DIM_PSI, 2500, 15000, offsetof(cw_job_box, strength_psi),
                 "@concrete.strength", NULL, "specified strength of the concrete at 28 days"),
};

static const cw_field joint_fields[] = {
    WITH_DEFAULT("gap", NUMBER, CW_DIM_IN, 0, 3, offsetof(cw_job_joint, gap_in),
                 "@joint.gap_design", NULL, "design gap between shoulders at a joint"),
    WITH_DEFAULT("gap_min", NUMBER, CW_DIM_IN, 0, 3, offsetof(cw_job_joint, gap_min_in),
                 "@joint.gap_min", NULL, "least gap that sealant and spacers allow"),
    WITH_DEFAULT("gap_max", NUMBER, CW_DIM_IN, 0, 3, offsetof(cw_job_joint, gap_max_in),
                 "@joint.gap_max", NULL, "largest gap that the owner allows"),
    CHOICE(
        "gap_mode", gap_mode_words, offsetof(cw_job_joint, gap_mode), "gauge", "common practice",
        "gauge: one gap in whole sixteenths that a spacer holds; continuous: any gap in the band"),
    WITH_DEFAULT("tongue", NUMBER, CW_DIM_IN, 0, FT(1), offsetof(cw_job_joint, tongue_in),
                 "@joint.tongue", NULL, "length of the tongue along the run"),
    WITH_DEFAULT("groove", NUMBER, CW_DIM_IN, 0, FT(1), offsetof(cw_job_joint, groove_in),
                 "@joint.groove", NULL, "depth of the groove along the run"),
    WITH_DEFAULT("tongue_share", NUMBER, CW_DIM_NONE, 0, 1, offsetof(cw_job_joint, tongue_share),
                 "@joint.tongue_share", NULL, "share of the section's area that the tongue takes"),
    WITH_DEFAULT("groove_share", NUMBER, CW_DIM_NONE, 0, 1, offsetof(cw_job_joint, groove_share),
                 "@joint.groove_share", NULL, "share of the section's area that the groove takes"),
};

static const cw_field barrels_fields[] = {
    WITH_DEFAULT("count", WHOLE, CW_DIM_COUNT, 1, CW_BARRELS_MAX, offsetof(cw_job_barrels, count),
                 "1", "a single barrel", "number of parallel barrels"),
    WITH_DEFAULT("clear_gap", NUMBER, CW_DIM_IN, 0, FT(10), offsetof(cw_job_barrels, clear_gap_in),
                 "@barrel.clear_gap", NULL, "clear space between the outside walls of two barrels"),
    MAYBE("drops", LIST, CW_DIM_IN, 0, FT(5), offsetof(cw_job_barrels, drops_in),
          offsetof(cw_job_barrels, has_drops),
          "invert of each barrel below the highest one, from the left looking upstream"),
};

/* ---- pieces ---- */

static const cw_field cost_fields[] = {
    WITH_DEFAULT("piece", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, offsetof(cw_job_layout_cost, piece),
                 "@layout.piece_cost", NULL, "cost of setting one piece, whatever its length"),
    WITH_DEFAULT("joint", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, offsetof(cw_job_layout_cost, joint),
                 "@layout.joint_cost", NULL, "cost of one joint: sealant, wrap and check"),
    WITH_DEFAULT("setup", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, offsetof(cw_job_layout_cost, setup),
                 "@layout.setup_cost", NULL, "cost of one mould set-up at the plant"),
    WITH_DEFAULT("per_ft", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, offsetof(cw_job_layout_cost, per_ft),
                 "@layout.length_cost", NULL, "price of one foot of laying length"),
    WITH_DEFAULT(
        "gap", NUMBER, CW_DIM_MONEY, 0, COST_HIGH, offsetof(cw_job_layout_cost, gap),
        "@layout.gap_cost", NULL,
        "penalty for each joint and each 1/16 in. that the gap differs from the design gap"),
};

static const cw_field end_piece_fields[] = {
    NEEDED_CHOICE("end", end_words, offsetof(cw_job_end_piece, end),
                  "end at which the piece stands"),
    NEEDED_CHOICE("row", piece_row_words, offsetof(cw_job_end_piece, row),
                  "row to which the piece belongs: bases, tops or both"),
    NEEDED_TEXT("name", offsetof(cw_job_end_piece, name), "name of this kind of piece"),
    NEEDED("length", NUMBER, CW_DIM_IN, PIECE_LOW, PIECE_HIGH,
           offsetof(cw_job_end_piece, length_in), "laying length, tongue not counted"),
    WITH_DEFAULT("extra_cost", NUMBER, CW_DIM_MONEY, 0, COST_HIGH,
                 offsetof(cw_job_end_piece, extra_cost), "$0", "priced like a plain piece",
                 "price over that of a plain piece of this length"),
    WITH_DEFAULT("extra_weight", NUMBER, CW_DIM_LB, 0, PICK_HIGH,
                 offsetof(cw_job_end_piece, extra_weight_lb), "0 lb", "weighs like a plain piece",
                 "weight over that of a plain piece of this length"),
};

static const cw_field limit_fields[] = {
    NEEDED("beyond", NUMBER, CW_DIM_FT, 0, PLAN_HIGH, offsetof(cw_job_pick_limit, beyond_ft),
           "distance from the outlet face past which this limit holds"),
    NEEDED("weight", NUMBER, CW_DIM_LB, PICK_LOW, PICK_HIGH, offsetof(cw_job_pick_limit, weight_lb),
           "heaviest piece that may be set there"),
};

static const cw_field pieces_fields[] = {
    NEEDED("lengths", LIST, CW_DIM_IN, PIECE_LOW, PIECE_HIGH, offsetof(cw_job_pieces, lengths_in),
           "laying lengths that the plant casts, tongue not counted"),
    MAYBE("top_lengths", LIST, CW_DIM_IN, PIECE_LOW, PIECE_HIGH,
          offsetof(cw_job_pieces, top_lengths_in), offsetof(cw_job_pieces, has_top_lengths),
          "staggered rows only: laying lengths of the tops when they differ from the bases"),
    CHOICE("rows", rows_words, offsetof(cw_job_pieces, rows), "aligned", "common practice",
           "whether joints of bases and tops stand over each other or are kept apart"),
    WITH_DEFAULT("stagger", NUMBER, CW_DIM_IN, 0, FT(10), offsetof(cw_job_pieces, stagger_in),
                 "@piece.stagger", NULL,
                 "staggered rows: least distance between a joint of the bases and one of the tops"),
    WITH_DEFAULT("max_setups", WHOLE, CW_DIM_COUNT, 1, CW_SETUPS_MAX,
                 offsetof(cw_job_pieces, max_setups), "@piece.max_setups", NULL,
                 "most mould set-ups that the order may need"),
    MAYBE("pick_limit", NUMBER, CW_DIM_LB, PICK_LOW, PICK_HIGH,
          offsetof(cw_job_pieces, pick_limit_lb), offsetof(cw_job_pieces, has_pick_limit),
          "heaviest piece that the crane may lift anywhere along the run"),
    WITH_DEFAULT("payload", NUMBER, CW_DIM_LB, 5000, PICK_HIGH, offsetof(cw_job_pieces, payload_lb),
                 "@haul.payload", NULL, "heaviest load of one truck"),
};

static const cw_section pieces_sections[] = {
    {.key = "cost",
     .meaning = "what the layout weighs against each other when it divides the run",
     .need = CW_NEED_DEFAULTED,
     .fields = cost_fields,
     .field_count = COUNT_OF(cost_fields),
     .offset = offsetof(cw_job_pieces, cost),
     .present_offset = CW_NO_FLAG},
    {.key = "ends",
     .meaning = "pieces that may stand only at an end, such as one with a headwall cast on",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_ENDS_MAX,
     .fields = end_piece_fields,
     .field_count = COUNT_OF(end_piece_fields),
     .offset = offsetof(cw_job_pieces, ends),
     .count_offset = offsetof(cw_job_pieces, end_count),
     .item_size = sizeof(cw_job_end_piece),
     .present_offset = CW_NO_FLAG},
    {.key = "limits",
     .meaning =
         "pick limits that hold past a distance from the outlet, where the crane reaches less",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_LIMITS_MAX,
     .fields = limit_fields,
     .field_count = COUNT_OF(limit_fields),
     .offset = offsetof(cw_job_pieces, limits),
     .count_offset = offsetof(cw_job_pieces, limit_count),
     .item_size = sizeof(cw_job_pick_limit),
     .present_offset = CW_NO_FLAG},
};

/* ---- openings, phases, ground ---- */

static const cw_field opening_fields[] = {
    NEEDED_TEXT("name", offsetof(cw_job_opening, name), "name of the opening on drawings"),
    WITH_DEFAULT("barrel", WHOLE, CW_DIM_COUNT, 1, CW_BARRELS_MAX, offsetof(cw_job_opening, barrel),
                 "1", "the left barrel", "barrel, counted from the left looking upstream"),
    NEEDED_CHOICE("face", face_words, offsetof(cw_job_opening, face),
                  "wall or slab that it passes through, looking upstream"),
    NEEDED("at", NUMBER, CW_DIM_FT, 0, PLAN_HIGH, offsetof(cw_job_opening, at_ft),
           "plan distance of its centre from the outlet face of that barrel"),
    NEEDED("height", NUMBER, CW_DIM_IN, -FT(20), FT(20), offsetof(cw_job_opening, height_in),
           "in a wall: its centre above the inside floor; in floor or top: its centre right of the "
           "barrel centre"),
    MAYBE("diameter", NUMBER, CW_DIM_IN, 1, FT(20), offsetof(cw_job_opening, diameter_in),
          offsetof(cw_job_opening, has_diameter), "diameter of a round opening"),
    MAYBE("width", NUMBER, CW_DIM_IN, 1, FT(20), offsetof(cw_job_opening, width_in),
          offsetof(cw_job_opening, has_width), "width of a rectangular opening along the run"),
    MAYBE("tall", NUMBER, CW_DIM_IN, 1, FT(40), offsetof(cw_job_opening, tall_in),
          offsetof(cw_job_opening, has_tall),
          "height of a rectangular opening; in floor or top its size across the run"),
    MAYBE(
        "clear", NUMBER, CW_DIM_IN, 0, FT(10), offsetof(cw_job_opening, clear_in),
        offsetof(cw_job_opening, has_clear),
        "least distance from its edge to any joint; left out, it follows from the wall thickness"),
};

static const cw_field phase_fields[] = {
    NEEDED("at", NUMBER, CW_DIM_FT, 0, PLAN_HIGH, offsetof(cw_job_phase, at_ft),
           "plan distance of the phase line from the outlet face"),
    WITH_DEFAULT("within", NUMBER, CW_DIM_IN, 0, FT(20), offsetof(cw_job_phase, within_in),
                 "@phase.within", NULL, "how far the joint may stand from the phase line"),
    NEEDED_TEXT("name", offsetof(cw_job_phase, name), "name of the phase that ends at this line"),
    MAYBE("lane", NUMBER, CW_DIM_FT, 0, 300, offsetof(cw_job_phase, lane_ft),
          offsetof(cw_job_phase, has_lane),
          "from the line, along the barrel, to the edge of the lane that carries traffic upstream of it "
          "while this phase is open"),
    MAYBE("lane_after", NUMBER, CW_DIM_FT, 0, 300, offsetof(cw_job_phase, lane_after_ft),
          offsetof(cw_job_phase, has_lane_after),
          "the same downstream of the line, while the next phase is open"),
    MAYBE("barrier", NUMBER, CW_DIM_FT, 0, 10, offsetof(cw_job_phase, barrier_ft),
          offsetof(cw_job_phase, has_barrier),
          "width of the barrier between cut and traffic; left out, row conflict.barrier"),
    CHOICE("face", phase_face_words, offsetof(cw_job_phase, face), "slope", "common practice",
           "temporary face of the cut at the line"),
};

static const cw_field ground_point_fields[] = {
    NEEDED("at", NUMBER, CW_DIM_FT, -PLAN_HIGH, 2 * PLAN_HIGH, offsetof(cw_ground_point, at_ft),
           "plan distance along the centre line from the outlet face, negative downstream of it"),
    NEEDED("elevation", NUMBER, CW_DIM_ELEV_FT, ELEV_LOW, ELEV_HIGH,
           offsetof(cw_ground_point, elevation_ft), "elevation of the ground there"),
};

static const cw_field ground_fields[] = {
    MAYBE_TEXT(
        "file", offsetof(cw_job_ground, file),
        "survey points (text), a grid (.asc) or a LandXML surface (.xml) beside the job file"),
    CHOICE("order", order_words, offsetof(cw_job_ground, order), "pnezd", "common practice",
           "order of the columns of survey points: point, northing, easting, elevation, "
           "description, or easting first"),
    MAYBE_TEXT("breakline_code", offsetof(cw_job_ground, breakline_code),
               "survey points whose description starts with it and a number (BL1, BL2) are joined in "
               "file order, one breakline for each number"),
    {"grid_unit", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false,
     "unit of the cells and heights of an .asc grid, which does not name it; needed for one", NULL,
     grid_unit_words, offsetof(cw_job_ground, grid_unit), offsetof(cw_job_ground, has_grid_unit)},
};

static const cw_section ground_sections[] = {
    {.key = "profile",
     .meaning = "existing ground along the centre line, from downstream to upstream",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_GROUND_MAX,
     .fields = ground_point_fields,
     .field_count = COUNT_OF(ground_point_fields),
     .offset = offsetof(cw_job_ground, profile),
     .count_offset = offsetof(cw_job_ground, profile_count),
     .item_size = sizeof(cw_ground_point),
     .present_offset = CW_NO_FLAG},
};

/* ---- what goes under, between and into the joints; lifting and order ---- */

static const cw_field bedding_fields[] = {
    WITH_DEFAULT("thickness", NUMBER, CW_DIM_IN, 0, FT(4), offsetof(cw_job_bedding, thickness_in),
                 "@bedding.thickness", NULL, "compacted bedding under the leveling course"),
    WITH_DEFAULT("leveling", NUMBER, CW_DIM_IN, 0, FT(1), offsetof(cw_job_bedding, leveling_in),
                 "@bedding.leveling", NULL, "screeded leveling course under the base"),
    WITH_DEFAULT("extra", NUMBER, CW_DIM_FT, 0, 20, offsetof(cw_job_bedding, extra_ft),
                 "@bedding.extra", NULL, "bedding beyond the outside wall, each side"),
};

static const cw_field lifting_fields[] = {
    WITH_DEFAULT("hook", NUMBER, CW_DIM_FT, 2, 100, offsetof(cw_job_lifting, hook_ft),
                 "@lifting.hook", NULL, "height of the hook above the pick points"),
    WITH_DEFAULT("end_ratio", NUMBER, CW_DIM_NONE, 0.05, 0.45, offsetof(cw_job_lifting, end_ratio),
                 "@lifting.end_ratio", NULL,
                 "distance of the pick points from each end as a share of the piece length"),
    WITH_DEFAULT(
        "factor", NUMBER, CW_DIM_NONE, 1, 3, offsetof(cw_job_lifting, factor),
        "@lifting.pick_factor", NULL,
        "multiplies the calculated weight to give the weight that the crane is chosen for"),
    FLAG("spreader", offsetof(cw_job_lifting, spreader), "no", "slings to one hook",
         "a spreader keeps the slings plumb across the piece"),
};

static const cw_field order_fields[] = {
    WITH_DEFAULT("ahead", WHOLE, CW_DIM_COUNT, 2, 40, offsetof(cw_job_order, ahead), "@order.ahead",
                 NULL, "most bases that may stand ahead of the last top set"),
    CHOICE("barrels", barrel_order_words, offsetof(cw_job_order, barrels), "together",
           "common practice", "whether parallel barrels go up together or one after the other"),
    WITH_DEFAULT("spread", WHOLE, CW_DIM_COUNT, 1, 40, offsetof(cw_job_order, spread),
                 "@order.spread", NULL,
                 "together: pieces that one barrel may be ahead of the next"),
    WITH_DEFAULT("first_barrel", WHOLE, CW_DIM_COUNT, 1, CW_BARRELS_MAX,
                 offsetof(cw_job_order, first_barrel), "1", "the left barrel",
                 "barrel that is set first, counted from the left looking upstream"),
    WITH_DEFAULT("backfill_lift", NUMBER, CW_DIM_IN, 2, FT(3),
                 offsetof(cw_job_order, backfill_lift_in), "@backfill.lift", NULL,
                 "loose thickness of one lift of backfill beside the box"),
    WITH_DEFAULT("side_difference", NUMBER, CW_DIM_IN, 0, FT(10),
                 offsetof(cw_job_order, side_difference_in), "@backfill.side_difference", NULL,
                 "how much higher the fill may stand on one side than on the other"),
    WITH_DEFAULT("cover_before_equipment", NUMBER, CW_DIM_FT, 0, 20,
                 offsetof(cw_job_order, cover_before_equipment_ft), "@cover.before_equipment", NULL,
                 "cover over the box before construction equipment may cross"),
};

/* ---- the whole ---- */

static const cw_section file_sections[] = {
    {.key = "job",
     .meaning = "what the job is called and who answers for the plan",
     .need = CW_NEED_REQUIRED,
     .fields = head_fields,
     .field_count = COUNT_OF(head_fields),
     .offset = offsetof(cw_job, head),
     .present_offset = CW_NO_FLAG},
    {.key = "profile",
     .meaning = "specification profile: where limits and trade values come from",
     .need = CW_NEED_DEFAULTED,
     .fields = profile_fields,
     .field_count = COUNT_OF(profile_fields),
     .children = profile_sections,
     .child_count = COUNT_OF(profile_sections),
     .offset = offsetof(cw_job, profile),
     .present_offset = CW_NO_FLAG},
    {.key = "acceptance",
     .meaning = "the owner's word on this form of box; without it the first check stays undecided",
     .need = CW_NEED_OPTIONAL,
     .fields = acceptance_fields,
     .field_count = COUNT_OF(acceptance_fields),
     .offset = offsetof(cw_job, acceptance),
     .present_offset = offsetof(cw_job_acceptance, present)},
    {.key = "survey",
     .meaning = "where the crossing lies and in which system",
     .need = CW_NEED_DEFAULTED,
     .fields = survey_fields,
     .field_count = COUNT_OF(survey_fields),
     .offset = offsetof(cw_job, survey),
     .present_offset = CW_NO_FLAG},
    {.key = "road",
     .meaning = "the road over the culvert at the crossing",
     .need = CW_NEED_OPTIONAL,
     .fields = road_fields,
     .field_count = COUNT_OF(road_fields),
     .children = road_sections,
     .child_count = COUNT_OF(road_sections),
     .offset = offsetof(cw_job, road),
     .present_offset = offsetof(cw_job_road, present)},
    {.key = "run",
     .meaning = "line, grade and length of the culvert and its ends",
     .need = CW_NEED_REQUIRED,
     .fields = run_fields,
     .field_count = COUNT_OF(run_fields),
     .children = run_sections,
     .child_count = COUNT_OF(run_sections),
     .offset = offsetof(cw_job, run),
     .present_offset = CW_NO_FLAG},
    {.key = "bends",
     .meaning = "bends in plan, from the outlet up",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_BENDS_MAX,
     .fields = bend_fields,
     .field_count = COUNT_OF(bend_fields),
     .offset = offsetof(cw_job, bends),
     .count_offset = offsetof(cw_job, bend_count),
     .item_size = sizeof(cw_job_bend),
     .present_offset = CW_NO_FLAG},
    {.key = "box",
     .meaning = "cross section of one barrel and its concrete",
     .need = CW_NEED_REQUIRED,
     .fields = box_fields,
     .field_count = COUNT_OF(box_fields),
     .offset = offsetof(cw_job, box),
     .present_offset = CW_NO_FLAG},
    {.key = "joint",
     .meaning = "tongue and groove and the gap between pieces",
     .need = CW_NEED_DEFAULTED,
     .fields = joint_fields,
     .field_count = COUNT_OF(joint_fields),
     .offset = offsetof(cw_job, joint),
     .present_offset = CW_NO_FLAG},
    {.key = "barrels",
     .meaning = "parallel barrels",
     .need = CW_NEED_DEFAULTED,
     .fields = barrels_fields,
     .field_count = COUNT_OF(barrels_fields),
     .offset = offsetof(cw_job, barrels),
     .present_offset = CW_NO_FLAG},
    {.key = "pieces",
     .meaning = "which pieces can be had, and what limits their choice",
     .need = CW_NEED_REQUIRED,
     .fields = pieces_fields,
     .field_count = COUNT_OF(pieces_fields),
     .children = pieces_sections,
     .child_count = COUNT_OF(pieces_sections),
     .offset = offsetof(cw_job, pieces),
     .present_offset = CW_NO_FLAG},
    {.key = "openings",
     .meaning = "pipe holes, manholes and blockouts that joints must keep clear of",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_OPENINGS_MAX,
     .fields = opening_fields,
     .field_count = COUNT_OF(opening_fields),
     .offset = offsetof(cw_job, openings),
     .count_offset = offsetof(cw_job, opening_count),
     .item_size = sizeof(cw_job_opening),
     .present_offset = CW_NO_FLAG},
    {.key = "phases",
     .meaning = "lines at which the work stops while traffic moves over, from the outlet up",
     .need = CW_NEED_OPTIONAL,
     .is_list = true,
     .max_items = CW_PHASES_MAX,
     .fields = phase_fields,
     .field_count = COUNT_OF(phase_fields),
     .offset = offsetof(cw_job, phases),
     .count_offset = offsetof(cw_job, phase_count),
     .item_size = sizeof(cw_job_phase),
     .present_offset = CW_NO_FLAG},
    {.key = "ground",
     .meaning = "existing ground along the culvert",
     .need = CW_NEED_OPTIONAL,
     .fields = ground_fields,
     .field_count = COUNT_OF(ground_fields),
     .children = ground_sections,
     .child_count = COUNT_OF(ground_sections),
     .offset = offsetof(cw_job, ground),
     .present_offset = offsetof(cw_job_ground, present)},
    {.key = "bedding",
     .meaning = "bedding and leveling course under the bases",
     .need = CW_NEED_DEFAULTED,
     .fields = bedding_fields,
     .field_count = COUNT_OF(bedding_fields),
     .offset = offsetof(cw_job, bedding),
     .present_offset = CW_NO_FLAG},
    {.key = "fill_between",
     .meaning = "fill of the space between parallel barrels",
     .need = CW_NEED_DEFAULTED,
     .fields = cw_job_fill_fields,
     .field_count = CW_JOB_FILL_FIELDS,
     .offset = offsetof(cw_job, fill),
     .present_offset = CW_NO_FLAG},
    {.key = "sealant",
     .meaning = "preformed sealant in the joints and on the wall tops",
     .need = CW_NEED_DEFAULTED,
     .fields = cw_job_sealant_fields,
     .field_count = CW_JOB_SEALANT_FIELDS,
     .offset = offsetof(cw_job, sealant),
     .present_offset = CW_NO_FLAG},
    {.key = "lifting",
     .meaning = "how a piece hangs on the hook",
     .need = CW_NEED_DEFAULTED,
     .fields = lifting_fields,
     .field_count = COUNT_OF(lifting_fields),
     .offset = offsetof(cw_job, lifting),
     .present_offset = CW_NO_FLAG},
    {.key = "order",
     .meaning = "order of setting and backfilling",
     .need = CW_NEED_DEFAULTED,
     .fields = order_fields,
     .field_count = COUNT_OF(order_fields),
     .offset = offsetof(cw_job, order),
     .present_offset = CW_NO_FLAG},
    {.key = "water",
     .meaning = "flows, inlet and tailwater: does the opening carry the water",
     .need = CW_NEED_OPTIONAL,
     .fields = cw_job_water_fields,
     .field_count = CW_JOB_WATER_FIELDS,
     .children = cw_job_water_sections,
     .child_count = CW_JOB_WATER_SECTIONS,
     .offset = offsetof(cw_job, water),
     .present_offset = offsetof(cw_job_water, present)},
    {.key = "site_water",
     .meaning = "water during the work: diversion, cofferdam, groundwater",
     .need = CW_NEED_OPTIONAL,
     .children = cw_job_site_water_sections,
     .child_count = CW_JOB_SITE_WATER_SECTIONS,
     .offset = offsetof(cw_job, site_water),
     .present_offset = offsetof(cw_job_site_water, present)},
    {.key = "trench",
     .meaning = "the cut: ground, protection of its sides, spoil, ladders",
     .need = CW_NEED_DEFAULTED,
     .fields = cw_job_trench_fields,
     .field_count = CW_JOB_TRENCH_FIELDS,
     .children = cw_job_trench_sections,
     .child_count = 1,
     .offset = offsetof(cw_job, trench),
     .present_offset = CW_NO_FLAG},
    {.key = "grade_control",
     .meaning = "level or laser, camber, stakes, and how far laid pieces run from the drawn length",
     .need = CW_NEED_DEFAULTED,
     .fields = cw_job_grade_fields,
     .field_count = CW_JOB_GRADE_FIELDS,
     .children = cw_job_grade_sections,
     .child_count = CW_JOB_GRADE_SECTIONS,
     .offset = offsetof(cw_job, grade),
     .present_offset = CW_NO_FLAG},
    {.key = "backfill",
     .meaning = "backfill beside and over the boxes: zones, tests, first machine; lifts stand under order",
     .need = CW_NEED_DEFAULTED,
     .fields = cw_job_backfill_fields,
     .field_count = CW_JOB_BACKFILL_FIELDS,
     .children = cw_job_backfill_sections,
     .child_count = 1,
     .offset = offsetof(cw_job, backfill),
     .present_offset = CW_NO_FLAG},
    {.key = "strength",
     .meaning = "the box under earth and traffic, and what it bears while it is built",
     .need = CW_NEED_OPTIONAL,
     .fields = cw_job_strength_fields,
     .field_count = CW_JOB_STRENGTH_FIELDS,
     .children = cw_job_strength_sections,
     .child_count = CW_JOB_STRENGTH_SECTIONS,
     .offset = offsetof(cw_job, strength),
     .present_offset = offsetof(cw_job_strength, present)},
    {.key = "obstacles",
     .meaning = "what stands in the way of the cut: right of way, utilities, standing structures",
     .need = CW_NEED_OPTIONAL,
     .fields = cw_job_obstacle_fields,
     .field_count = CW_JOB_OBSTACLE_FIELDS,
     .children = cw_job_obstacle_sections,
     .child_count = CW_JOB_OBSTACLE_SECTIONS,
     .offset = offsetof(cw_job, obstacles),
     .present_offset = offsetof(cw_job_obstacles, present)},
    {.key = "schedule",
     .meaning = "dates: calendar, crews and trucks, and how sure they are",
     .need = CW_NEED_OPTIONAL,
     .fields = cw_job_schedule_fields,
     .field_count = CW_JOB_SCHEDULE_FIELDS,
     .offset = offsetof(cw_job, schedule),
     .present_offset = offsetof(cw_job_schedule, present)},
    {.key = "cranes",
     .meaning = "cranes that may set the pieces, where they may stand, and their load charts",
     .need = CW_NEED_OPTIONAL,
     .fields = cw_job_cranes_fields,
     .field_count = CW_JOB_CRANES_FIELDS,
     .children = cw_job_cranes_sections,
     .child_count = CW_JOB_CRANES_SECTIONS,
     .offset = offsetof(cw_job, cranes),
     .present_offset = offsetof(cw_job_cranes, present)},
};

const cw_section cw_job_format = {
    .key = "",
    .meaning = "one job: a two-piece precast box culvert to be set",
    .need = CW_NEED_REQUIRED,
    .fields = file_fields,
    .field_count = COUNT_OF(file_fields),
    .children = file_sections,
    .child_count = COUNT_OF(file_sections),
    .offset = 0,
    .present_offset = CW_NO_FLAG,
};
