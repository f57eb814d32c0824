/* Calculators of lengths and places along the barrel: slope-length, joint-grade and joint-place. */
#include <stddef.h>

#include "cw/run.h"
#include "cw/units.h"
#include "run_internal.h"

#define COORDINATE_FT 1e8

static const char *const geometry = "derived: plane geometry";

/* ---- slope-length ---- */

typedef struct slope_input {
    double length_ft, slope;
} slope_input;

typedef struct slope_output {
    double slope_length_ft, plan_length_ft, factor, added_ft;
} slope_output;

static const cw_field slope_inputs[] = {
    {"length", "L", CW_KIND_NUMBER, CW_DIM_FT, 0, 20000, NULL, true,
     "a length, in plan or along the slope", NULL, NULL, offsetof(slope_input, length_ft),
     CW_NO_FLAG},
    {"slope", "S", CW_KIND_NUMBER, CW_DIM_SLOPE, -1, 1, NULL, true, "rise over plan run", NULL,
     NULL, offsetof(slope_input, slope), CW_NO_FLAG},
};

static const cw_field slope_outputs[] = {
    {"slope_length", "L_b", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "length along the slope when the given one is in plan", NULL, NULL,
     offsetof(slope_output, slope_length_ft), CW_NO_FLAG},
    {"plan_length", "X", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "length in plan when the given one is along the slope", NULL, NULL,
     offsetof(slope_output, plan_length_ft), CW_NO_FLAG},
    {"factor", NULL, CW_KIND_NUMBER, CW_DIM_NONE, 0, 0, NULL, false, "slope length per plan length",
     NULL, NULL, offsetof(slope_output, factor), CW_NO_FLAG},
    {"added", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "slope length less the plan length given", NULL, NULL, offsetof(slope_output, added_ft),
     CW_NO_FLAG},
};

static void slope_length(const void *input, void *output, cw_working *working)
{
    const slope_input *in = input;
    slope_output *out = output;
    out->factor = cw_step_add(working, "f", "sqrt(1 + S^2)", cw_run_slope_factor(in->slope),
                              CW_DIM_NONE, geometry);
    out->slope_length_ft =
        cw_step_add(working, "L_b", "L f", in->length_ft * out->factor, CW_DIM_FT, geometry);
    out->plan_length_ft =
        cw_step_add(working, "X", "L / f", in->length_ft / out->factor, CW_DIM_FT, geometry);
    out->added_ft = out->slope_length_ft - in->length_ft;
}

const cw_calc cw_calc_slope_length = {
    .name = "slope-length",
    .title = "Plan length and slope length",
    .group = "run",
    .about = "Stations and drawings are in plan, pieces are sold along the slope. Exact for one "
             "constant slope.",
    .source = "derived: right triangle",
    .inputs = slope_inputs,
    .input_count = COUNT_OF(slope_inputs),
    .input_size = sizeof(slope_input),
    .outputs = slope_outputs,
    .output_count = COUNT_OF(slope_outputs),
    .output_size = sizeof(slope_output),
    .run = slope_length,
    .example = "length=100ft slope=10%",
};

/* ---- joint-grade ---- */

typedef struct grade_input {
    double outlet_invert_ft, slope, drop_in, piece_in, gap_in, below_in;
    int joint;
    bool has_instrument;
    double instrument_ft;
} grade_input;

typedef struct grade_output {
    double advance_ft, slope_distance_ft, at_ft, invert_ft, under_ft;
    bool has_rods;
    double rod_invert_ft, rod_under_ft;
} grade_output;

#define IN(member) offsetof(grade_input, member)
#define OUT(member) offsetof(grade_output, member)

static const cw_field grade_inputs[] = {
    {"outlet_invert", "z_out", CW_KIND_NUMBER, CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT,
     NULL, true, "invert at the outlet face of the highest barrel", NULL, NULL,
     IN(outlet_invert_ft), CW_NO_FLAG},
    {"slope", "S", CW_KIND_NUMBER, CW_DIM_SLOPE, 0, 0.3, NULL, true, "rising from outlet to inlet",
     NULL, NULL, IN(slope), CW_NO_FLAG},
    {"piece", "L_p", CW_KIND_NUMBER, CW_DIM_IN, 12, 600, NULL, true, "laying length of one piece",
     NULL, NULL, IN(piece_in), CW_NO_FLAG},
    {"gap", "j", CW_KIND_NUMBER, CW_DIM_IN, 0, 6, "1/2 in", false, "joint gap", "common practice",
     NULL, IN(gap_in), CW_NO_FLAG},
    {"joint", "i", CW_KIND_COUNT, CW_DIM_COUNT, 0, 2000, NULL, true,
     "pieces set below this point; 0 is the outlet face", NULL, NULL, IN(joint), CW_NO_FLAG},
    {"drop", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 120, "0 in", false,
     "of this barrel below the highest one", "common practice", NULL, IN(drop_in), CW_NO_FLAG},
    {"below", "t", CW_KIND_NUMBER, CW_DIM_IN, 0, 240, "0 in", false,
     "floor, leveling and bedding down to the subgrade, square to the grade", "common practice",
     NULL, IN(below_in), CW_NO_FLAG},
    {"instrument", "HI", CW_KIND_NUMBER, CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
     false, "elevation of the line of sight, for rod readings", NULL, NULL, IN(instrument_ft),
     IN(has_instrument)},
};

static const cw_field grade_outputs[] = {
    {"advance", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan length of one piece with its gap", NULL, NULL, OUT(advance_ft), CW_NO_FLAG},
    {"slope_distance", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "along the slope from the outlet face", NULL, NULL, OUT(slope_distance_ft), CW_NO_FLAG},
    {"distance", "x", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "in plan from the outlet face",
     NULL, NULL, OUT(at_ft), CW_NO_FLAG},
    {"invert", "z", CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false, "invert there", NULL, NULL,
     OUT(invert_ft), CW_NO_FLAG},
    {"subgrade", "z_s", CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false, "below the bedding",
     NULL, NULL, OUT(under_ft), CW_NO_FLAG},
    {"rod_invert", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "rod reading on the invert",
     NULL, NULL, OUT(rod_invert_ft), OUT(has_rods)},
    {"rod_subgrade", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "rod reading on the subgrade", NULL, NULL, OUT(rod_under_ft), OUT(has_rods)},
};

static double plan_of(double slope_in, double slope)
{
    return slope_in / CW_IN_PER_FT / cw_run_slope_factor(slope);
}

static void joint_grade(const void *input, void *output, cw_working *working)
{
    const grade_input *in = input;
    grade_output *out = output;
    const cw_run_grade grade = {in->outlet_invert_ft, in->slope, in->drop_in};
    const double slope_in = cw_step_add(working, "s", "i (L_p + j)",
                                        cw_run_equal_joint_in(in->joint, in->piece_in, in->gap_in),
                                        CW_DIM_IN, "derived: equal pieces and gaps");
    *out = (grade_output){.slope_distance_ft = slope_in / CW_IN_PER_FT,
                          .advance_ft = plan_of(in->piece_in + in->gap_in, in->slope),
                          .has_rods = in->has_instrument};
    out->at_ft = cw_step_add(working, "x", "s / sqrt(1 + S^2)", plan_of(slope_in, in->slope),
                             CW_DIM_FT, geometry);
    out->invert_ft = cw_step_add(working, "z", "z_out + S x - drop",
                                 cw_run_invert_ft(&grade, out->at_ft), CW_DIM_ELEV_FT, geometry);
    out->under_ft = cw_step_add(working, "z_s", "z - t sqrt(1 + S^2)",
                                cw_run_under_invert_ft(out->invert_ft, in->slope, in->below_in),
                                CW_DIM_ELEV_FT, "derived: thickness square to the grade");
    if (!in->has_instrument)
        return;
    out->rod_invert_ft = cw_step_add(working, "r", "HI - z", in->instrument_ft - out->invert_ft,
                                     CW_DIM_FT, "common practice: differential leveling");
    out->rod_under_ft = cw_step_add(working, "r_s", "HI - z_s", in->instrument_ft - out->under_ft,
                                    CW_DIM_FT, "common practice: differential leveling");
}

const cw_calc cw_calc_joint_grade = {
    .name = "joint-grade",
    .title = "Station and grade of a joint",
    .group = "run",
    .about = "Where the joint after a number of equal pieces lies, in plan and along the slope, "
             "its invert, the subgrade "
             "under it and the rod readings. Design values: measured gaps are not known here.",
    .source = "derived: plane geometry",
    .inputs = grade_inputs,
    .input_count = COUNT_OF(grade_inputs),
    .input_size = sizeof(grade_input),
    .outputs = grade_outputs,
    .output_count = COUNT_OF(grade_outputs),
    .output_size = sizeof(grade_output),
    .run = joint_grade,
    .example = "outlet_invert=512.34ft slope=1.25% piece=72in gap=0.5in joint=10 below=16in "
               "instrument=520.49ft",
};

/* ---- joint-place ---- */

typedef struct place_input {
    double northing_ft, easting_ft, road_azimuth_deg, skew_deg;
    int inlet, cut;
    double outlet_ft, outlet_invert_ft, slope;
    int barrels, barrel;
    double spacing_ft, drop_in, right_ft, piece_in, gap_in;
    int joint;
} place_input;

typedef struct place_output {
    double northing_ft, easting_ft, elevation_ft, azimuth_deg, at_ft, u_ft, a_ft;
} place_output;

#undef IN
#undef OUT
#define IN(member) offsetof(place_input, member)
#define OUT(member) offsetof(place_output, member)

static const cw_field place_inputs[] = {
    {"northing", "N_0", CW_KIND_NUMBER, CW_DIM_COORD_FT, -COORDINATE_FT, COORDINATE_FT, NULL, true,
     "of the crossing of the structure's and the road's centre lines", NULL, NULL, IN(northing_ft),
     CW_NO_FLAG},
    {"easting", "E_0", CW_KIND_NUMBER, CW_DIM_COORD_FT, -COORDINATE_FT, COORDINATE_FT, NULL, true,
     "of the crossing", NULL, NULL, IN(easting_ft), CW_NO_FLAG},
    {"road_azimuth", "A", CW_KIND_NUMBER, CW_DIM_DEG, 0, 360, NULL, true,
     "of the road up-station, clockwise from north", NULL, NULL, IN(road_azimuth_deg), CW_NO_FLAG},
    {"inlet_side", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, true,
     "side of the inlet looking up-station", NULL, cw_run_inlet_choices, IN(inlet), CW_NO_FLAG},
    {"skew", "theta", CW_KIND_NUMBER, CW_DIM_DEG, -75, 75, "0 deg", false,
     "angle of the barrel from the road's normal, positive when the inlet lies up-station",
     "common practice", NULL, IN(skew_deg), CW_NO_FLAG},
    {"cut", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, "square", false,
     "end faces square to the barrel or along the road", "common practice", cw_run_cut_choices,
     IN(cut), CW_NO_FLAG},
    {"outlet_distance", "s_out", CW_KIND_NUMBER, CW_DIM_FT, -2000, 2000, NULL, true,
     "plan, road centre line to the outlet face on the structure's centre line", NULL, NULL,
     IN(outlet_ft), CW_NO_FLAG},
    {"outlet_invert", "z_out", CW_KIND_NUMBER, CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT,
     NULL, true, "invert at the outlet face of the highest barrel", NULL, NULL,
     IN(outlet_invert_ft), CW_NO_FLAG},
    {"slope", "S", CW_KIND_NUMBER, CW_DIM_SLOPE, 0, 0.3, NULL, true, "rising from outlet to inlet",
     NULL, NULL, IN(slope), CW_NO_FLAG},
    {"barrels", "n", CW_KIND_COUNT, CW_DIM_COUNT, 1, 8, "1", false, "barrels side by side",
     "common practice", NULL, IN(barrels), CW_NO_FLAG},
    {"barrel", "k", CW_KIND_COUNT, CW_DIM_COUNT, 1, 8, "1", false,
     "which one, from the left looking upstream", "common practice", NULL, IN(barrel), CW_NO_FLAG},
    {"spacing", "c", CW_KIND_NUMBER, CW_DIM_FT, 0, 100, "0 ft", false,
     "of the barrels, centre to centre", "common practice", NULL, IN(spacing_ft), CW_NO_FLAG},
    {"drop", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 120, "0 in", false,
     "of this barrel below the highest one", "common practice", NULL, IN(drop_in), CW_NO_FLAG},
    {"right", "o", CW_KIND_NUMBER, CW_DIM_FT, -500, 500, "0 ft", false,
     "offset of the point to the right of the barrel's axis looking upstream", "common practice",
     NULL, IN(right_ft), CW_NO_FLAG},
    {"piece", "L_p", CW_KIND_NUMBER, CW_DIM_IN, 12, 600, NULL, true, "laying length of one piece",
     NULL, NULL, IN(piece_in), CW_NO_FLAG},
    {"gap", "j", CW_KIND_NUMBER, CW_DIM_IN, 0, 6, "1/2 in", false, "joint gap", "common practice",
     NULL, IN(gap_in), CW_NO_FLAG},
    {"joint", "i", CW_KIND_COUNT, CW_DIM_COUNT, 0, 2000, NULL, true,
     "pieces set below this point; 0 is the outlet face", NULL, NULL, IN(joint), CW_NO_FLAG},
};

static const cw_field place_outputs[] = {
    {"northing", "N", CW_KIND_NUMBER, CW_DIM_COORD_FT, 0, 0, NULL, false, "of the point", NULL,
     NULL, OUT(northing_ft), CW_NO_FLAG},
    {"easting", "E", CW_KIND_NUMBER, CW_DIM_COORD_FT, 0, 0, NULL, false, "of the point", NULL, NULL,
     OUT(easting_ft), CW_NO_FLAG},
    {"elevation", "Z", CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false,
     "invert of the barrel there", NULL, NULL, OUT(elevation_ft), CW_NO_FLAG},
    {"azimuth", "d", CW_KIND_NUMBER, CW_DIM_DEG, 0, 0, NULL, false,
     "of the barrel looking upstream", NULL, NULL, OUT(azimuth_deg), CW_NO_FLAG},
    {"distance", "x", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "in plan from the outlet face of this barrel", NULL, NULL, OUT(at_ft), CW_NO_FLAG},
    {"road_offset", "u", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "square to the road, positive on the inlet side", NULL, NULL, OUT(u_ft), CW_NO_FLAG},
    {"road_distance", "a", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "along the road from the crossing, positive up-station", NULL, NULL, OUT(a_ft), CW_NO_FLAG},
};

static bool place_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const place_input *in = input;
    if (in->barrel > in->barrels) {
        cw_diag_add(diags, where, CW_E_CONFLICT, "barrel %d is not one of %d barrels; give 1 to %d",
                    in->barrel, in->barrels, in->barrels);
        return false;
    }
    if (in->barrels > 1 && !(in->spacing_ft > 0.0)) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "%d barrels need their spacing centre to centre; give spacing", in->barrels);
        return false;
    }
    return true;
}

static void joint_place(const void *input, void *output, cw_working *working)
{
    const place_input *in = input;
    place_output *out = output;
    const cw_run_inlet inlet = (cw_run_inlet)in->inlet;
    const double slope_in = cw_run_equal_joint_in(in->joint, in->piece_in, in->gap_in);
    // The line must have a length and a straight one goes on past it, so the last piece is a good
    // end.
    const double length_ft = plan_of(slope_in + in->piece_in, in->slope);
    const cw_run_path path = {
        .frame = {.northing_ft = in->northing_ft,
                  .easting_ft = in->easting_ft,
                  .azimuth_deg = cw_run_azimuth_deg(in->road_azimuth_deg, in->skew_deg, inlet),
                  .skew_deg = in->skew_deg,
                  .inlet = inlet}};
    const cw_run_span span = {-in->outlet_ft, length_ft - in->outlet_ft, (cw_run_cut)in->cut};
    const double offset_ft = cw_run_barrel_offset_ft(in->barrel - 1, in->barrels, in->spacing_ft);
    const cw_run_line line = cw_run_line_of(&path, span, offset_ft);
    const cw_run_grade grade = {in->outlet_invert_ft, in->slope, in->drop_in};
    const cw_run_joint joint = cw_run_joint_at(&line, &grade, slope_in);
    const cw_run_place place = cw_run_beside(&line, joint.at_ft, in->right_ft);
    *out = (place_output){.u_ft = place.u_ft, .a_ft = place.a_ft};
    cw_step_add(working, "y", "(k - (n + 1)/2) c", offset_ft, CW_DIM_FT, geometry);
    out->azimuth_deg =
        cw_step_add(working, "d", "A + 90 - theta (inlet right), A - 90 + theta (left)",
                    place.azimuth_deg, CW_DIM_DEG, geometry);
    out->at_ft =
        cw_step_add(working, "x", "i (L_p + j) / sqrt(1 + S^2)", joint.at_ft, CW_DIM_FT, geometry);
    const cw_run_place outlet = cw_run_line_at(&line, 0.0);
    cw_step_add(working, "N_1", "N_0 - s_out cos d - y sin d (+ shift of a face along the road)",
                outlet.northing_ft, CW_DIM_COORD_FT, geometry);
    cw_step_add(working, "E_1", "E_0 - s_out sin d + y cos d (+ shift of a face along the road)",
                outlet.easting_ft, CW_DIM_COORD_FT, geometry);
    out->northing_ft = cw_step_add(working, "N", "N_1 + x cos d - o sin d", place.northing_ft,
                                   CW_DIM_COORD_FT, geometry);
    out->easting_ft = cw_step_add(working, "E", "E_1 + x sin d + o cos d", place.easting_ft,
                                  CW_DIM_COORD_FT, geometry);
    out->elevation_ft =
        cw_step_add(working, "Z", "z_out + S x - drop", joint.invert_ft, CW_DIM_ELEV_FT, geometry);
}

const cw_calc cw_calc_joint_place = {
    .name = "joint-place",
    .title = "Northing, easting and invert of a joint",
    .group = "run",
    .about = "Stake-out of a joint of one barrel, or of a point beside it, from the crossing point "
             "and the azimuth of the "
             "road. Straight barrel, equal pieces and gaps; the coordinates are plane, no scale or "
             "convergence is applied.",
    .source = "derived: plane geometry",
    .inputs = place_inputs,
    .input_count = COUNT_OF(place_inputs),
    .input_size = sizeof(place_input),
    .outputs = place_outputs,
    .output_count = COUNT_OF(place_outputs),
    .output_size = sizeof(place_output),
    .valid = place_valid,
    .run = joint_place,
    .example = "northing=2000ft easting=1000ft road_azimuth=75deg inlet_side=right skew=20deg "
               "outlet_distance=37.8605ft outlet_invert=504.621ft slope=1% barrels=3 barrel=1 "
               "spacing=11.9167ft "
               "piece=72in gap=0.5in joint=0",
};
