/* Calculators of the run under a road: run-length, round-up and cover.
 *
 * They share one input struct and one table; each calculator takes a stretch of the table. */
#include <math.h>
#include <stddef.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "run_internal.h"

typedef struct side_input {
    cw_list widths_ft, falls;
    double side_slope;
} side_input;

typedef struct road_input {
    double at_ft;
    bool has_outlet_ft, has_inlet_ft;
    double outlet_ft, inlet_ft;
    double elevation_ft, grade, skew_deg;
    side_input inlet, outlet;
    double invert_ft, slope, rise_in, top_in;
    double width_ft;
    int cut;
    bool has_fill_ft;
    double fill_ft;
    double piece_in, gap_in;
    int excess;
} road_input;

#define IN(member) offsetof(road_input, member)

static const cw_field inputs[] = {
    // cover only
    {"at", "s", CW_KIND_NUMBER, CW_DIM_FT, -2000, 2000, "0 ft", false,
     "plan distance along the barrel from the road centre line, upstream positive",
     "common practice", NULL, IN(at_ft), CW_NO_FLAG},
    {"outlet_distance", "s_out", CW_KIND_NUMBER, CW_DIM_FT, 0, 2000, NULL, false,
     "plan distance of the outlet face from the road centre line; the hinge when not given", NULL,
     NULL, IN(outlet_ft), IN(has_outlet_ft)},
    {"inlet_distance", "s_in", CW_KIND_NUMBER, CW_DIM_FT, 0, 2000, NULL, false,
     "plan distance of the inlet face from the road centre line; the hinge when not given", NULL,
     NULL, IN(inlet_ft), IN(has_inlet_ft)},
    // all three
    {"elevation", "P", CW_KIND_NUMBER, CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
     true, "profile grade where the barrel crosses the road", NULL, NULL, IN(elevation_ft),
     CW_NO_FLAG},
    {"grade", "p", CW_KIND_NUMBER, CW_DIM_SLOPE, -0.3, 0.3, "0 %", false,
     "grade of the road, positive when it rises up-station", "common practice", NULL, IN(grade),
     CW_NO_FLAG},
    {"skew", "theta", CW_KIND_NUMBER, CW_DIM_DEG, -75, 75, "0 deg", false,
     "angle of the barrel from the road's normal, positive when the inlet lies up-station",
     "common practice", NULL, IN(skew_deg), CW_NO_FLAG},
    {"inlet_widths", "w", CW_KIND_LIST, CW_DIM_FT, 0.01, 500, NULL, true,
     "widths of lane, shoulder and so on from the grade point to the hinge, inlet side", NULL, NULL,
     IN(inlet.widths_ft), CW_NO_FLAG},
    {"inlet_falls", "c", CW_KIND_LIST, CW_DIM_SLOPE, -0.5, 0.5, NULL, true,
     "their falls away from the grade point, positive down", NULL, NULL, IN(inlet.falls),
     CW_NO_FLAG},
    {"inlet_side_slope", "m", CW_KIND_NUMBER, CW_DIM_SIDE_SLOPE, 0.1, 100, NULL, true,
     "side slope beyond the hinge, horizontal to 1 vertical, inlet side", NULL, NULL,
     IN(inlet.side_slope), CW_NO_FLAG},
    {"outlet_widths", "w", CW_KIND_LIST, CW_DIM_FT, 0.01, 500, NULL, true,
     "widths from the grade point to the hinge, outlet side", NULL, NULL, IN(outlet.widths_ft),
     CW_NO_FLAG},
    {"outlet_falls", "c", CW_KIND_LIST, CW_DIM_SLOPE, -0.5, 0.5, NULL, true,
     "their falls away from the grade point, positive down", NULL, NULL, IN(outlet.falls),
     CW_NO_FLAG},
    {"outlet_side_slope", "m", CW_KIND_NUMBER, CW_DIM_SIDE_SLOPE, 0.1, 100, NULL, true,
     "side slope beyond the hinge, horizontal to 1 vertical, outlet side", NULL, NULL,
     IN(outlet.side_slope), CW_NO_FLAG},
    {"invert", "z_i", CW_KIND_NUMBER, CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
     true, "invert at the road centre line", NULL, NULL, IN(invert_ft), CW_NO_FLAG},
    {"slope", "S", CW_KIND_NUMBER, CW_DIM_SLOPE, 0, 0.3, NULL, true,
     "slope of the barrel, rising from outlet to inlet", NULL, NULL, IN(slope), CW_NO_FLAG},
    {"rise", "r", CW_KIND_NUMBER, CW_DIM_IN, 12, 240, NULL, true, "clear height of the box", NULL,
     NULL, IN(rise_in), CW_NO_FLAG},
    {"top", "t", CW_KIND_NUMBER, CW_DIM_IN, 3, 48, NULL, true, "thickness of the lid or crown",
     NULL, NULL, IN(top_in), CW_NO_FLAG},
    // run-length and round-up
    {"width", "W", CW_KIND_NUMBER, CW_DIM_FT, 1, 400, NULL, true, "out to out of all barrels", NULL,
     NULL, IN(width_ft), CW_NO_FLAG},
    {"cut", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, "square", false,
     "end faces square to the barrel or along the road", "common practice", cw_run_cut_choices,
     IN(cut), CW_NO_FLAG},
    {"fill_at_end", "H", CW_KIND_NUMBER, CW_DIM_FT, 0, 200, NULL, false,
     "fill above the invert at the back of the end wall; rise, top and 1 ft when not given",
     "common practice", NULL, IN(fill_ft), IN(has_fill_ft)},
    // round-up only
    {"piece", "L_p", CW_KIND_NUMBER, CW_DIM_IN, 12, 600, NULL, true, "laying length of one piece",
     NULL, NULL, IN(piece_in), CW_NO_FLAG},
    {"gap", "j", CW_KIND_NUMBER, CW_DIM_IN, 0, 6, "1/2 in", false, "joint gap", "common practice",
     NULL, IN(gap_in), CW_NO_FLAG},
    {"excess", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, "inlet", false,
     "end to which the excess of whole pieces goes", "common practice", cw_run_excess_choices,
     IN(excess), CW_NO_FLAG},
};

enum { COVER_ONLY = 3, SHARED = 13, RUN_ONLY = 3, ROUND_ONLY = 3 };
_Static_assert(sizeof inputs / sizeof inputs[0] == COVER_ONLY + SHARED + RUN_ONLY + ROUND_ONLY,
               "the stretches cover the table");

/* ---- from the input to the discipline's own structs ---- */

static bool side_valid(const side_input *side, const char *name, cw_pos where, cw_diags *diags)
{
    if (side->widths_ft.count != side->falls.count) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "%s_widths has %d items and %s_falls %d; give one fall for each strip", name,
                    side->widths_ft.count, name, side->falls.count);
        return false;
    }
    if (side->widths_ft.count > CW_RUN_STRIPS_MAX) {
        cw_diag_add(diags, where, CW_E_TOO_MANY,
                    "%s_widths has %d strips; at most %d are taken, join strips of one fall", name,
                    side->widths_ft.count, CW_RUN_STRIPS_MAX);
        return false;
    }
    return true;
}

static bool road_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const road_input *in = input;
    const bool inlet = side_valid(&in->inlet, "inlet", where, diags);
    return side_valid(&in->outlet, "outlet", where, diags) && inlet;
}

static cw_run_side side_from(const side_input *in)
{
    cw_run_side side = {.strip_count = in->widths_ft.count, .side_slope = in->side_slope};
    for (int i = 0; i < side.strip_count; i++)
        side.strips[i] = (cw_run_strip){in->widths_ft.items[i], in->falls.items[i]};
    return side;
}

static cw_run_road road_from(const road_input *in)
{
    return (cw_run_road){
        .elevation_ft = in->elevation_ft,
        .grade = in->grade,
        .outlet = side_from(&in->outlet),
        .inlet = side_from(&in->inlet),
    };
}

/* Elevations do not depend on the hand of the inlet or on the place, so any frame with this skew
 * will do. */
static cw_run_path path_from(const road_input *in)
{
    return (cw_run_path){.frame = {.skew_deg = in->skew_deg, .inlet = CW_RUN_INLET_RIGHT}};
}

static double box_ft(const road_input *in)
{
    return (in->rise_in + in->top_in) / CW_IN_PER_FT;
}

/* Fill over the lid behind an end wall when none is asked for: common practice. */
#define FILL_OVER_TOP_FT 1.0

static cw_run_under under_from(const road_input *in, const cw_run_road *road,
                               const cw_run_path *path)
{
    return (cw_run_under){
        .road = road,
        .path = path,
        .invert_ft = in->invert_ft,
        .slope = in->slope,
        .width_ft = in->width_ft,
        .cut = (cw_run_cut)in->cut,
        .fill_ft = in->has_fill_ft ? in->fill_ft : box_ft(in) + FILL_OVER_TOP_FT,
    };
}

/* ---- run-length ---- */

typedef struct length_output {
    int outlet_result, inlet_result;
    bool found, other_found;
    double outlet_ft, inlet_ft, plan_ft, slope_length_ft;
    double outlet_invert_ft, inlet_invert_ft, outlet_cover_ft, inlet_cover_ft;
    double outlet_far_ft, inlet_far_ft, grade_ft;
    double other_plan_ft, saving_ft;
} length_output;

#define OUT(member) offsetof(length_output, member)
#define IF_FOUND OUT(found)

static const cw_field length_outputs[] = {
    {"outlet_result", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false,
     "how the search for the outlet ended", NULL, cw_run_status_choices, OUT(outlet_result),
     CW_NO_FLAG},
    {"inlet_result", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false,
     "how the search for the inlet ended", NULL, cw_run_status_choices, OUT(inlet_result),
     CW_NO_FLAG},
    {"outlet_distance", "s_out", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan, road centre line to outlet face", NULL, NULL, OUT(outlet_ft), IF_FOUND},
    {"inlet_distance", "s_in", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan, road centre line to inlet face", NULL, NULL, OUT(inlet_ft), IF_FOUND},
    {"plan_length", "L", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "plan length, face to face",
     NULL, NULL, OUT(plan_ft), IF_FOUND},
    {"slope_length", "L_b", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "length along the slope",
     NULL, NULL, OUT(slope_length_ft), IF_FOUND},
    {"outlet_invert", "z_out", CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false,
     "invert at the outlet face", NULL, NULL, OUT(outlet_invert_ft), IF_FOUND},
    {"inlet_invert", "z_in", CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false,
     "invert at the inlet face", NULL, NULL, OUT(inlet_invert_ft), IF_FOUND},
    {"outlet_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill over the top of the box at the outlet, at the corner nearest to the road", NULL, NULL,
     OUT(outlet_cover_ft), IF_FOUND},
    {"inlet_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill over the top of the box at the inlet, at the corner nearest to the road", NULL, NULL,
     OUT(inlet_cover_ft), IF_FOUND},
    {"outlet_far_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "the same at the corner farthest from the road", NULL, NULL, OUT(outlet_far_ft), IF_FOUND},
    {"inlet_far_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "the same at the corner farthest from the road", NULL, NULL, OUT(inlet_far_ft), IF_FOUND},
    {"left_out", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "how much higher the fill is at one corner by the road's grade; not in the answer", NULL, NULL,
     OUT(grade_ft), IF_FOUND},
    {"other_cut_length", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan length with the other cut", NULL, NULL, OUT(other_plan_ft), OUT(other_found)},
    {"other_cut_saves", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan length that the other cut saves", NULL, NULL, OUT(saving_ft), OUT(other_found)},
};

/* What a height of fill above the invert leaves over the box. */
static double cover_of(double height_ft, const road_input *in)
{
    return height_ft - box_ft(in) * cw_run_slope_factor(in->slope);
}

static void other_cut(cw_run_under under, length_output *out)
{
    under.cut = under.cut == CW_RUN_CUT_ROAD ? CW_RUN_CUT_SQUARE : CW_RUN_CUT_ROAD;
    const cw_run_end outlet = cw_run_end_find(&under, CW_RUN_OUTLET, NULL);
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, NULL);
    out->other_found = outlet.status == CW_RUN_OK && inlet.status == CW_RUN_OK;
    if (!out->other_found)
        return;
    out->other_plan_ft = outlet.distance_ft + inlet.distance_ft;
    out->saving_ft = out->plan_ft - out->other_plan_ft;
}

static void run_length(const void *input, void *output, cw_working *working)
{
    const road_input *in = input;
    length_output *out = output;
    const cw_run_road road = road_from(in);
    const cw_run_path path = path_from(in);
    const cw_run_under under = under_from(in, &road, &path);
    const cw_run_end outlet = cw_run_end_find(&under, CW_RUN_OUTLET, working);
    const cw_run_end inlet = cw_run_end_find(&under, CW_RUN_INLET, working);
    *out = (length_output){.outlet_result = (int)outlet.status, .inlet_result = (int)inlet.status};
    out->found = outlet.status == CW_RUN_OK && inlet.status == CW_RUN_OK;
    if (!out->found)
        return;
    out->outlet_ft = outlet.distance_ft;
    out->inlet_ft = inlet.distance_ft;
    out->outlet_invert_ft = outlet.invert_ft;
    out->inlet_invert_ft = inlet.invert_ft;
    out->outlet_cover_ft = cover_of(outlet.height_ft, in);
    out->inlet_cover_ft = cover_of(inlet.height_ft, in);
    out->grade_ft = inlet.grade_ft;
    out->outlet_far_ft = cover_of(outlet.far_height_ft, in);
    out->inlet_far_ft = cover_of(inlet.far_height_ft, in);
    out->plan_ft = cw_step_add(working, "L", "s_in + s_out", inlet.distance_ft + outlet.distance_ft,
                               CW_DIM_FT, "derived: plane geometry");
    out->slope_length_ft = cw_step_add(working, "L_b", "L sqrt(1 + S^2)",
                                       out->plan_ft * cw_run_slope_factor(in->slope), CW_DIM_FT,
                                       "derived: slope length of a plan length");
    other_cut(under, out);
}

#define EXAMPLE_ROAD                                                                               \
    "elevation=520ft grade=1.5% skew=20deg inlet_widths=12ft,8ft inlet_falls=2%,4% "               \
    "inlet_side_slope=2:1 "                                                                        \
    "outlet_widths=12ft,8ft outlet_falls=2%,4% outlet_side_slope=2:1 invert=505ft slope=1% "       \
    "rise=72in "                                                                                   \
    "top=10in "

const cw_calc cw_calc_run_length = {
    .name = "run-length",
    .title = "Length of the culvert under a road",
    .group = "run",
    .about = "Where each end must stand so that the side slope comes down to the wanted fill at "
             "the back of the end "
             "wall, for a straight barrel on one grade under a straight road of constant grade. "
             "The ground is not "
             "looked at. On a skewed square end the wanted fill is that at the corner nearest to "
             "the road, where it "
             "is highest; the road's grade along the face is left out and shown.",
    .source = "derived: side slope meets the line of wanted fill; right-angled case as in US Army "
              "engineer "
              "correspondence course EN5465 pp. 5-17 to 5-19",
    .inputs = inputs + COVER_ONLY,
    .input_count = SHARED + RUN_ONLY,
    .input_size = sizeof(road_input),
    .outputs = length_outputs,
    .output_count = COUNT_OF(length_outputs),
    .output_size = sizeof(length_output),
    .valid = road_valid,
    .run = run_length,
    .example = EXAMPLE_ROAD "width=140in cut=square fill_at_end=94in",
};

/* ---- round-up ---- */

typedef struct round_output {
    int result;
    bool found;
    int pieces;
    double laid_ft, plan_ft, excess_ft, short_in;
    double outlet_ft, inlet_ft, outlet_invert_ft, inlet_invert_ft, outlet_fill_ft, inlet_fill_ft;
    double box_ft;
    double only_inlet_ft, only_outlet_ft, shared_inlet_ft, shared_outlet_ft;
} round_output;

#undef OUT
#define OUT(member) offsetof(round_output, member)

static const cw_field round_outputs[] = {
    {"result", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false,
     "how the search for the ends went, the outlet's fault first", NULL, cw_run_status_choices,
     OUT(result), CW_NO_FLAG},
    {"pieces", "n", CW_KIND_COUNT, CW_DIM_COUNT, 0, 0, NULL, false, "whole pieces", NULL, NULL,
     OUT(pieces), IF_FOUND},
    {"laid_length", "L_n", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "along the slope, with gaps", NULL, NULL, OUT(laid_ft), IF_FOUND},
    {"run", "X_n", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "the same in plan", NULL, NULL,
     OUT(plan_ft), IF_FOUND},
    {"excess", "x", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "plan, over what is needed", NULL,
     NULL, OUT(excess_ft), IF_FOUND},
    {"short_piece", "L_s", CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false,
     "laying length of the last piece when it is cast short instead", NULL, NULL, OUT(short_in),
     IF_FOUND},
    {"outlet_distance", "s_out", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan, road centre line to outlet face", NULL, NULL, OUT(outlet_ft), IF_FOUND},
    {"inlet_distance", "s_in", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan, road centre line to inlet face", NULL, NULL, OUT(inlet_ft), IF_FOUND},
    {"outlet_invert", "z_out", CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false,
     "invert at the outlet face", NULL, NULL, OUT(outlet_invert_ft), IF_FOUND},
    {"inlet_invert", "z_in", CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false,
     "invert at the inlet face", NULL, NULL, OUT(inlet_invert_ft), IF_FOUND},
    {"outlet_fill", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill above the invert at the outlet end", NULL, NULL, OUT(outlet_fill_ft), IF_FOUND},
    {"inlet_fill", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill above the invert at the inlet end", NULL, NULL, OUT(inlet_fill_ft), IF_FOUND},
    {"box_height", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "top of the box above the invert: fill below this leaves it bare", NULL, NULL, OUT(box_ft),
     IF_FOUND},
    {"all_inlet_fill", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill at the inlet when all excess goes there", NULL, NULL, OUT(only_inlet_ft), IF_FOUND},
    {"all_outlet_fill", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill at the outlet when all excess goes there", NULL, NULL, OUT(only_outlet_ft), IF_FOUND},
    {"shared_inlet_fill", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill at the inlet when the excess is shared equally", NULL, NULL, OUT(shared_inlet_ft),
     IF_FOUND},
    {"shared_outlet_fill", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill at the outlet when the excess is shared equally", NULL, NULL, OUT(shared_outlet_ft),
     IF_FOUND},
};

static double fill_at(const cw_run_under *under, cw_run_which which, double distance_ft)
{
    return cw_run_end_at(under, which, distance_ft).height_ft;
}

static void show_fills(const round_output *out, cw_working *working)
{
    static const char *const why = "derived: fill falls by excess (cos skew/m + g - q)";
    cw_step_add(working, "h_in", "fill at the inlet, all excess there", out->only_inlet_ft,
                CW_DIM_FT, why);
    cw_step_add(working, "h_out", "fill at the outlet, all excess there", out->only_outlet_ft,
                CW_DIM_FT, why);
    cw_step_add(working, "h_in/2", "fill at the inlet, excess shared", out->shared_inlet_ft,
                CW_DIM_FT, why);
    cw_step_add(working, "h_out/2", "fill at the outlet, excess shared", out->shared_outlet_ft,
                CW_DIM_FT, why);
}

static void fill_rounding(const road_input *in, const cw_run_under *under, const cw_run_end ends[2],
                          round_output *out, cw_working *working)
{
    const double outlet_ft = ends[CW_RUN_OUTLET].distance_ft,
                 inlet_ft = ends[CW_RUN_INLET].distance_ft;
    const cw_run_rounding round = cw_run_round_up(outlet_ft + inlet_ft, in->slope, in->piece_in,
                                                  in->gap_in, (cw_run_excess)in->excess, working);
    out->pieces = round.pieces;
    out->laid_ft = round.laid_in / CW_IN_PER_FT;
    out->plan_ft = round.plan_ft;
    out->excess_ft = round.excess_ft;
    out->short_in = round.short_in;
    const cw_run_end outlet =
        cw_run_end_at(under, CW_RUN_OUTLET, outlet_ft + round.outlet_share_ft);
    const cw_run_end inlet = cw_run_end_at(under, CW_RUN_INLET, inlet_ft + round.inlet_share_ft);
    out->outlet_ft = outlet.distance_ft;
    out->inlet_ft = inlet.distance_ft;
    out->outlet_invert_ft = outlet.invert_ft;
    out->inlet_invert_ft = inlet.invert_ft;
    out->outlet_fill_ft = outlet.height_ft;
    out->inlet_fill_ft = inlet.height_ft;
    out->box_ft = box_ft(in) * cw_run_slope_factor(in->slope);
    out->only_inlet_ft = fill_at(under, CW_RUN_INLET, inlet_ft + round.excess_ft);
    out->only_outlet_ft = fill_at(under, CW_RUN_OUTLET, outlet_ft + round.excess_ft);
    out->shared_inlet_ft = fill_at(under, CW_RUN_INLET, inlet_ft + round.excess_ft / 2.0);
    out->shared_outlet_ft = fill_at(under, CW_RUN_OUTLET, outlet_ft + round.excess_ft / 2.0);
    show_fills(out, working);
}

static void round_up(const void *input, void *output, cw_working *working)
{
    const road_input *in = input;
    round_output *out = output;
    const cw_run_road road = road_from(in);
    const cw_run_path path = path_from(in);
    const cw_run_under under = under_from(in, &road, &path);
    const cw_run_end ends[2] = {[CW_RUN_OUTLET] = cw_run_end_find(&under, CW_RUN_OUTLET, working),
                                [CW_RUN_INLET] = cw_run_end_find(&under, CW_RUN_INLET, working)};
    const bool outlet_found = ends[CW_RUN_OUTLET].status == CW_RUN_OK;
    *out = (round_output){.result = (int)ends[outlet_found ? CW_RUN_INLET : CW_RUN_OUTLET].status};
    out->found = out->result == CW_RUN_OK;
    if (out->found)
        fill_rounding(in, &under, ends, out, working);
}

const cw_calc cw_calc_round_up = {
    .name = "round-up",
    .title = "Whole pieces for a run, and the fill that is left at its ends",
    .group = "run",
    .about = "Rounds the needed length up to equal pieces with equal gaps and shows what the "
             "excess does to the "
             "fill at the ends: all to the inlet, all to the outlet, or shared. For pieces of "
             "several lengths "
             "use a layout. Straight barrel, straight road; the ground is not looked at.",
    .source = "derived: n pieces and n - 1 gaps; substitution in the end formula",
    .inputs = inputs + COVER_ONLY,
    .input_count = SHARED + RUN_ONLY + ROUND_ONLY,
    .input_size = sizeof(road_input),
    .outputs = round_outputs,
    .output_count = COUNT_OF(round_outputs),
    .output_size = sizeof(round_output),
    .valid = road_valid,
    .run = round_up,
    .example =
        EXAMPLE_ROAD "width=140in cut=square fill_at_end=94in piece=72in gap=0.5in excess=inlet",
};

/* ---- cover ---- */

typedef struct cover_output {
    double cover_ft, surface_ft, top_ft;
    double centre_ft, inlet_hinge_ft, outlet_hinge_ft;
    double least_ft, least_at_ft;
} cover_output;

#undef OUT
#define OUT(member) offsetof(cover_output, member)

static const cw_field cover_outputs[] = {
    {"cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "fill over the top of the box there", NULL, NULL, OUT(cover_ft), CW_NO_FLAG},
    {"surface", NULL, CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false, "finished surface there",
     NULL, NULL, OUT(surface_ft), CW_NO_FLAG},
    {"top_of_box", NULL, CW_KIND_NUMBER, CW_DIM_ELEV_FT, 0, 0, NULL, false, "top of the box there",
     NULL, NULL, OUT(top_ft), CW_NO_FLAG},
    {"centre_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "cover under the road centre line", NULL, NULL, OUT(centre_ft), CW_NO_FLAG},
    {"inlet_hinge_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "cover under the hinge, inlet side", NULL, NULL, OUT(inlet_hinge_ft), CW_NO_FLAG},
    {"outlet_hinge_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "cover under the hinge, outlet side", NULL, NULL, OUT(outlet_hinge_ft), CW_NO_FLAG},
    {"least_cover", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "least cover between the ends, or between the hinges when no ends are given", NULL, NULL,
     OUT(least_ft), CW_NO_FLAG},
    {"least_cover_at", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "where, from the road centre line, upstream positive", NULL, NULL, OUT(least_at_ft),
     CW_NO_FLAG},
};

static bool cover_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const road_input *in = input;
    if (!road_valid(input, where, diags))
        return false;
    if (in->has_outlet_ft && in->has_inlet_ft && in->outlet_ft + in->inlet_ft < CW_SAME_PLACE_FT) {
        cw_diag_add(
            diags, where, CW_E_GEOMETRY,
            "outlet_distance and inlet_distance are both 0 ft; give the distances of two faces");
        return false;
    }
    return true;
}

static double hinge_distance(const cw_run_side *side, double skew_deg)
{
    // A template without width still needs a run to look at.
    return fmax(cw_run_hinge_ft(side), CW_RUN_MARCH_FT) / cos(skew_deg * CW_RAD_PER_DEG);
}

static void cover(const void *input, void *output, cw_working *working)
{
    const road_input *in = input;
    cover_output *out = output;
    const cw_run_road road = road_from(in);
    const cw_run_path path = path_from(in);
    const double inlet_hinge_ft = hinge_distance(&road.inlet, in->skew_deg);
    const double outlet_hinge_ft = hinge_distance(&road.outlet, in->skew_deg);
    const double outlet_ft = in->has_outlet_ft ? in->outlet_ft : outlet_hinge_ft;
    const double inlet_ft = in->has_inlet_ft ? in->inlet_ft : inlet_hinge_ft;
    const cw_run_line line =
        cw_run_line_of(&path, (cw_run_span){-outlet_ft, inlet_ft, CW_RUN_CUT_SQUARE}, 0.0);
    const cw_run_over over = {
        .road = &road,
        .line = &line,
        .grade = {.outlet_invert_ft = in->invert_ft - in->slope * outlet_ft, .slope = in->slope},
        .box = {in->rise_in, in->top_in},
    };
    const cw_run_cover here = cw_run_cover_at(&over, in->at_ft + outlet_ft);
    const cw_run_cover least = cw_run_least_cover(&over, 0.0, line.length_ft);
    *out = (cover_output){
        .centre_ft = cw_run_cover_at(&over, outlet_ft).cover_ft,
        .inlet_hinge_ft = cw_run_cover_at(&over, outlet_ft + inlet_hinge_ft).cover_ft,
        .outlet_hinge_ft = cw_run_cover_at(&over, outlet_ft - outlet_hinge_ft).cover_ft,
        .least_ft = least.cover_ft,
        .least_at_ft = least.at_ft - outlet_ft,
    };
    static const char *const geometry = "derived: plane geometry";
    cw_step_add(working, "u", "s cos skew", here.place.u_ft, CW_DIM_FT, geometry);
    cw_step_add(working, "a", "s sin skew", here.place.a_ft, CW_DIM_FT, geometry);
    out->surface_ft = cw_step_add(working, "z_s", "P + p a - fall of the template at u",
                                  here.surface_ft, CW_DIM_ELEV_FT, geometry);
    out->top_ft = cw_step_add(working, "z_t", "z_i + S s + (r + t) sqrt(1 + S^2)", here.top_ft,
                              CW_DIM_ELEV_FT, "derived: thickness square to the grade");
    out->cover_ft = cw_step_add(working, "c", "z_s - z_t", here.cover_ft, CW_DIM_FT, geometry);
    cw_step_add(working, "c_min", "least at grade point, strip edges, hinges and ends",
                least.cover_ft, CW_DIM_FT, "derived: linear between these");
}

const cw_calc cw_calc_cover = {
    .name = "cover",
    .title = "Cover over the box at a point, and the least cover",
    .group = "run",
    .about =
        "Height of the finished road or side slope above the top of the box on the barrel's axis. "
        "The least "
        "is seldom at the centre line, so strip edges, hinges and ends are all tried. Pavement and "
        "fill are not told apart; the ground is not looked at.",
    .source = "derived: plane geometry",
    .inputs = inputs,
    .input_count = COVER_ONLY + SHARED,
    .input_size = sizeof(road_input),
    .outputs = cover_outputs,
    .output_count = COUNT_OF(cover_outputs),
    .output_size = sizeof(cover_output),
    .valid = cover_valid,
    .run = cover,
    .example = "at=0ft " EXAMPLE_ROAD "outlet_distance=37.86ft inlet_distance=37.08ft",
};
