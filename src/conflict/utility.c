#include "conflict_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char plane[] = "derived: plane geometry";
static const char range[] = "common practice: range of culvert trenches";

#define TYPE cw_utility_input

static const cw_field inputs[] = {
    NUMBER_IN("top", "z_u", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the top of the utility", range, TYPE, top_ft),
    NUMBER_IN("diameter", "d", CW_DIM_IN, 0.5, 240.0, NULL, "outside, or height of a duct bank",
              range, TYPE, diameter_in),
    NUMBER_IN("offset", "x", CW_DIM_FT, -500.0, 500.0, "0 ft",
              "of its centre from the centre line of the structure", "common practice: it crosses",
              TYPE, offset_ft),
    OPTION_IN("angle", "a", CW_DIM_DEG, 5.0, 175.0,
              "it crosses the centre line at this angle: the offset is not looked at", range, TYPE,
              angle_deg, has_angle),
    NUMBER_IN("bottom", "z_b", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the bottom of the cut", range, TYPE, bottom_ft),
    NUMBER_IN("bottom_width", "b", CW_DIM_FT, 2.0, 400.0, NULL, "of the cut", range, TYPE,
              bottom_width_ft),
    NUMBER_IN("slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 10.0, NULL, "of its faces; 0 when shored",
              range, TYPE, side_slope),
    NUMBER_IN("surface", "z_s", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the ground", range, TYPE, surface_ft),
    NUMBER_IN("width", "W", CW_DIM_FT, 2.0, 400.0, NULL, "out to out of all barrels", range, TYPE,
              width_ft),
    NUMBER_IN("underside", "z_1", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the underside of the box", range, TYPE, underside_ft),
    NUMBER_IN("box_top", "z_2", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the top of the box", range, TYPE, box_top_ft),
    NUMBER_IN("clearance", "c", CW_DIM_IN, 0.0, 240.0, "@conflict.utility_clear",
              "that the owner of the utility asks for", NULL, TYPE, clearance_in),
};

static const cw_field outputs[] = {
    OUT("cut_gap", "g_1", CW_DIM_FT, "from the dug face or bottom; negative in the cut", cw_utility,
        cut_gap_ft),
    FLAG_OUT("exposed", "it shows in the cut", cw_utility, exposed),
    OUT("exposed_length", NULL, CW_DIM_FT, "that hangs free when it crosses", cw_utility,
        exposed_ft),
    CHOICE_OUT(
        "cut_check", cw_verdict_words,
        "undecided: it shows and must be held; fails: it does not show but lies too near the face",
        cw_utility, cut_verdict),
    OUT("box_gap", "g_2", CW_DIM_FT, "from the concrete; negative when they meet", cw_utility,
        box_gap_ft),
    CHOICE_OUT("box_check", cw_verdict_words, "clear of the box", cw_utility, box_verdict),
};

bool cw_conflict_cut_valid(double bottom_ft, double surface_ft, cw_pos where, cw_diags *diags)
{
    if (bottom_ft < surface_ft)
        return true;
    cw_diag_add(
        diags, where, CW_E_GEOMETRY,
        "the bottom of the cut at %.6g ft does not lie below the ground at %.6g ft; check both",
        bottom_ft, surface_ft);
    return false;
}

bool cw_utility_input_valid(const cw_utility_input *in, cw_pos where, cw_diags *diags)
{
    bool good = cw_conflict_cut_valid(in->bottom_ft, in->surface_ft, where, diags);
    if (in->underside_ft >= in->box_top_ft) {
        cw_diag_add(
            diags, where, CW_E_GEOMETRY,
            "the underside of the box at %.6g ft does not lie below its top at %.6g ft; check both",
            in->underside_ft, in->box_top_ft);
        good = false;
    }
    return good;
}

double cw_conflict_half_ft(const cw_cut_section *cut, double elevation_ft)
{
    return cut->half_bottom_ft + cut->side_slope * fmax(0.0, elevation_ft - cut->bottom_ft);
}

/* The cut is the space above its bottom and inside its four faces: the distance to it is at least
 * the greatest of the distances to those planes. */
double cw_conflict_cut_gap_ft(const cw_cut_section *cut, double offset_ft, double beyond_ft,
                              double center_ft, double radius_ft)
{
    const double rise_ft = center_ft - cut->bottom_ft, slant = hypot(1.0, cut->side_slope);
    const double side_ft =
        (fabs(offset_ft) - cut->half_bottom_ft - cut->side_slope * rise_ft) / slant;
    const double end_ft = (beyond_ft - cut->side_slope * rise_ft) / slant;
    return fmax(-rise_ft, fmax(side_ft, end_ft)) - radius_ft;
}

double cw_conflict_box_gap_ft(const cw_box_section *box, double offset_ft, double beyond_ft,
                              double center_ft, double radius_ft)
{
    const double side_ft = fabs(offset_ft) - box->half_width_ft;
    const double up_ft = fmax(center_ft - box->top_ft, box->underside_ft - center_ft);
    const double most_ft = fmax(side_ft, fmax(up_ft, beyond_ft));
    if (most_ft <= 0.0)
        return most_ft - radius_ft;
    return hypot(fmax(side_ft, 0.0), hypot(fmax(up_ft, 0.0), fmax(beyond_ft, 0.0))) - radius_ft;
}

cw_utility cw_conflict_utility(const cw_utility_input *in, cw_working *w)
{
    const double radius_ft = in->diameter_in / CW_IN_PER_FT / 2.0;
    const double clear_ft = in->clearance_in / CW_IN_PER_FT;
    const double offset_ft = in->has_angle ? 0.0 : in->offset_ft;
    const double before_ft = -CW_ANY_HIGH; // The section is within the run.
    const cw_cut_section cut = {in->bottom_width_ft / 2.0, in->bottom_ft, in->side_slope,
                                in->surface_ft};
    const cw_box_section box = {in->width_ft / 2.0, in->underside_ft, in->box_top_ft};
    const double center_ft =
        cw_step_add(w, "z_c", "z_u - d/2", in->top_ft - radius_ft, CW_DIM_ELEV_FT, plane);
    cw_utility out = {.cut_verdict = CW_HOLDS, .box_verdict = CW_HOLDS};
    out.cut_gap_ft = cw_step_add(
        w, "g_1", "greatest of z_b - z_c and (|x| - b/2 - z (z_c - z_b)) / (1 + z^2)^0.5, less d/2",
        cw_conflict_cut_gap_ft(&cut, offset_ft, before_ft, center_ft, radius_ft), CW_DIM_FT,
        "derived: distance from the planes of the cut");
    out.box_gap_ft = cw_step_add(
        w, "g_2", "distance of the centre from the rectangle of the box, less d/2",
        cw_conflict_box_gap_ft(&box, offset_ft, before_ft, center_ft, radius_ft), CW_DIM_FT, plane);
    out.exposed = out.cut_gap_ft < 0.0;
    if (out.exposed && in->has_angle)
        out.exposed_ft = cw_step_add(w, "L_u", "(b + 2 z (z_u - z_b)) / sin a",
                                     2.0 * cw_conflict_half_ft(&cut, in->top_ft) /
                                         sin(in->angle_deg * CW_RAD_PER_DEG),
                                     CW_DIM_FT, plane);
    if (!cw_meets(clear_ft, out.cut_gap_ft))
        out.cut_verdict = out.exposed ? CW_UNDECIDED : CW_FAILS;
    if (!cw_meets(clear_ft, out.box_gap_ft))
        out.box_verdict = CW_FAILS;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_utility_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_utility *)output = cw_conflict_utility(input, working);
}

const cw_calc cw_calc_utility_clearance = {
    .name = "utility-clearance",
    .title = "Utility beside or across the cut and the box",
    .group = "conflict",
    .about = "How far a utility lies from the dug face and from the concrete in a cross section, "
             "and how much of it hangs free when "
             "it crosses. A utility must be located by hand or vacuum before a machine digs near "
             "it, whatever this says.",
    .source = "derived: plane geometry",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_utility_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_utility),
    .valid = valid,
    .run = run,
    .example = "top=508.5ft diameter=12in angle=90deg bottom=498ft bottom_width=17ft slope=1.5:1 "
               "surface=512ft width=11.667ft "
               "underside=500ft box_top=507ft",
};
