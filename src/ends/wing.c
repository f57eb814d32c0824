#include "ends_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char plane[] = "derived: plane geometry";
static const char range[] = "common practice: range of culvert ends";

const char *const cw_wing_kind_words[] = {"flared", "straight", "along_road", NULL};
const char *const cw_wall_make_words[] = {"cast", "precast", NULL};
static const char *const sides[] = {"long", "short", NULL};

#define TYPE cw_wing_input

static const cw_field inputs[] = {
    CHOICE_IN(
        "kind", cw_wing_kind_words, "flared",
        "flared: turned out from the barrel; straight: along it; along_road: in line with the road",
        "common practice", TYPE, kind),
    NUMBER_IN("flare", "beta", CW_DIM_DEG, 0.0, 89.0, "@end.wing_flare",
              "flared: from the barrel axis", NULL, TYPE, flare_deg),
    NUMBER_IN("skew", "theta", CW_DIM_DEG, 0.0, 75.0, "0 deg",
              "of the barrel from the road's normal", "common practice: a square crossing", TYPE,
              skew_deg),
    CHOICE_IN("side", sides, "long",
              "on a skewed crossing: long where flare and skew add, short where they take from "
              "each other",
              "common practice", TYPE, side),
    NUMBER_IN("root", "H_1", CW_DIM_FT, 1.0, 40.0, NULL,
              "top of the wall at the headwall, above the invert", range, TYPE, root_ft),
    NUMBER_IN("tip", "H_2", CW_DIM_FT, 0.0, 40.0, "@end.wing_tip", "top of the wall at its tip",
              NULL, TYPE, tip_ft),
    NUMBER_IN("slope", "m", CW_DIM_SIDE_SLOPE, 0.25, 20.0, NULL, "of the fill, square to the road",
              range, TYPE, side_slope),
    OPTION_IN("length", "L_w", CW_DIM_FT, 1.0, 500.0, "in place of the one that the fill asks for",
              range, TYPE, length_ft, has_length),
    NUMBER_IN("thickness", "t", CW_DIM_IN, 4.0, 60.0, "@end.wing_thickness", "of the wall", NULL,
              TYPE, thickness_in),
    CHOICE_IN("make", cw_wall_make_words, "cast",
              "cast in place, or precast and set on a footing that is cast in place",
              "common practice", TYPE, make),
    NUMBER_IN("concrete", "w_c", CW_DIM_PCF, 90.0, 200.0, "@concrete.unit_weight",
              "precast: unit weight", NULL, TYPE, concrete_pcf),
    OPTION_IN("footing_width", "B", CW_DIM_FT, 0.5, 40.0, "in place of the ratio", range, TYPE,
              footing_width_ft, has_footing_width),
    NUMBER_IN("footing_ratio", "k", CW_DIM_NONE, 0.3, 2.0, "@end.wing_footing_ratio",
              "width of the footing over the height of the wall above it", NULL, TYPE,
              footing_ratio),
    NUMBER_IN("footing", "t_f", CW_DIM_IN, 4.0, 60.0, "@end.wing_footing",
              "thickness of the footing", NULL, TYPE, footing_in),
    NUMBER_IN("footing_depth", "y_f", CW_DIM_FT, 0.5, 20.0, "@end.wing_footing_depth",
              "underside of the footing below the invert", NULL, TYPE, footing_depth_ft),
    NUMBER_IN("work", "w", CW_DIM_FT, 0.0, 10.0, "@end.work", "dug beyond the footing on each side",
              NULL, TYPE, work_ft),
    NUMBER_IN("along", NULL, CW_DIM_DEG, 45.0, 89.0, "@end.along_road",
              "angle from the normal at which a wing runs almost along the road", NULL, TYPE,
              along_deg),
};

#define IF_FOUND(key, symbol, dim, meaning, member)                                                \
    OPTION_OUT(key, symbol, dim, meaning, cw_wing, member, found)

static const cw_field outputs[] = {
    CHOICE_OUT("direction", cw_verdict_words,
               "undecided: it runs almost along the road; fails: it never comes down with the fill",
               cw_wing, verdict),
    OUT("from_normal", "gamma", CW_DIM_DEG, "from the road's normal", cw_wing, from_normal_deg),
    IF_FOUND("out", "d", CW_DIM_FT, "root to tip, square to the road", out_ft),
    OPTION_OUT("needed_length", NULL, CW_DIM_FT, "that the fill asks for", cw_wing, needed_ft,
               has_needed),
    IF_FOUND("wing_length", "L_w", CW_DIM_FT, "of the wing", length_ft),
    IF_FOUND("face", "A", CW_DIM_SQFT, "one face above the invert", face_sqft),
    IF_FOUND("below", NULL, CW_DIM_FT, "wall between invert and footing", below_ft),
    IF_FOUND("wall_above", "V_1", CW_DIM_CY, "concrete of the wall above the invert", above_cy),
    IF_FOUND("wall_below", "V_2", CW_DIM_CY, "concrete of the wall below the invert", below_cy),
    IF_FOUND("footing_wide", "B", CW_DIM_FT, "width of the footing", footing_width_ft),
    IF_FOUND("footing_concrete", "V_f", CW_DIM_CY, "of the footing", footing_cy),
    IF_FOUND("concrete_all", "V", CW_DIM_CY, "wall and footing", concrete_cy),
    IF_FOUND("formed", NULL, CW_DIM_SQFT,
             "formed on site: both faces and the tip, and the rim of the footing; precast: "
             "the rim alone",
             formed_sqft),
    IF_FOUND("excavation", NULL, CW_DIM_CY, "of the footing below the invert, upright sides",
             excavation_cy),
    IF_FOUND("panel", "W", CW_DIM_LB, "precast wall without its footing, else 0", panel_lb),
};

bool cw_ends_heights_valid(double root_ft, double tip_ft, cw_pos where, cw_diags *diags)
{
    if (tip_ft < root_ft)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "the tip of the wing stands %.6g ft high and its root %.6g ft; the tip must be "
                "lower, as the fill is",
                tip_ft, root_ft);
    return false;
}

bool cw_wing_input_valid(const cw_wing_input *in, cw_pos where, cw_diags *diags)
{
    bool good = in->kind == CW_WING_ALONG_ROAD ||
                cw_ends_heights_valid(in->root_ft, in->tip_ft, where, diags);
    if (in->kind == CW_WING_ALONG_ROAD && in->tip_ft > in->root_ft) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "the tip of the wing stands %.6g ft high and its root %.6g ft; it may be as "
                    "high, not higher",
                    in->tip_ft, in->root_ft);
        good = false;
    }
    if (in->footing_depth_ft < in->footing_in / CW_IN_PER_FT) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "the footing is %.6g in thick and its underside only %.6g ft below the invert; "
                    "lower it or make it "
                    "thinner",
                    in->footing_in, in->footing_depth_ft);
        good = false;
    }
    return good;
}

double cw_ends_from_normal_deg(int kind, double flare_deg, double skew_deg, int side)
{
    if (kind == CW_WING_ALONG_ROAD)
        return 90.0;
    const double flare = kind == CW_WING_FLARED ? flare_deg : 0.0;
    return fabs(side == CW_WING_LONG ? flare + skew_deg : flare - skew_deg);
}

/* The length that the fill asks for; false when the wing never leaves the fill. */
static bool needed(const cw_wing_input *in, cw_wing *out, cw_working *w)
{
    if (in->kind == CW_WING_ALONG_ROAD) {
        out->needed_ft = cw_step_add(
            w, "L_w", "m H_1: the fill round the tip comes down to the invert at the root",
            in->side_slope * in->root_ft, CW_DIM_FT, "derived: cone of the side slope");
        return true;
    }
    const double out_ft = cw_step_add(
        w, "d", "m (H_1 - H_2)", in->side_slope * (in->root_ft - in->tip_ft), CW_DIM_FT, plane);
    if (out->from_normal_deg >= 90.0 - CW_SAME_DIRECTION_DEG)
        return false;
    out->needed_ft =
        cw_step_add(w, "L_w", "d / cos gamma", out_ft / cos(out->from_normal_deg * CW_RAD_PER_DEG),
                    CW_DIM_FT, plane);
    return true;
}

static void wall(const cw_wing_input *in, cw_wing *out, cw_working *w)
{
    const double thick_ft = in->thickness_in / CW_IN_PER_FT;
    out->face_sqft =
        cw_step_add(w, "A", "L_w (H_1 + H_2)/2", out->length_ft * (in->root_ft + in->tip_ft) / 2.0,
                    CW_DIM_SQFT, plane);
    out->above_cy =
        cw_step_add(w, "V_1", "A t", out->face_sqft * thick_ft / CW_CUFT_PER_CY, CW_DIM_CY, plane);
    out->below_ft = cw_step_add(w, "h", "y_f - t_f",
                                fmax(0.0, in->footing_depth_ft - in->footing_in / CW_IN_PER_FT),
                                CW_DIM_FT, plane);
    out->below_cy =
        cw_step_add(w, "V_2", "L_w h t", out->length_ft * out->below_ft * thick_ft / CW_CUFT_PER_CY,
                    CW_DIM_CY, plane);
}

static void footing(const cw_wing_input *in, cw_wing *out, cw_working *w)
{
    const double foot_ft = in->footing_in / CW_IN_PER_FT,
                 thick_ft = in->thickness_in / CW_IN_PER_FT;
    out->footing_width_ft = cw_step_add(
        w, "B", in->has_footing_width ? "given" : "k (H_1 + h)",
        in->has_footing_width ? in->footing_width_ft
                              : in->footing_ratio * (in->root_ft + out->below_ft),
        CW_DIM_FT, in->has_footing_width ? "given" : "common practice, before a design");
    out->footing_cy = cw_step_add(w, "V_f", "L_w B t_f",
                                  out->length_ft * out->footing_width_ft * foot_ft / CW_CUFT_PER_CY,
                                  CW_DIM_CY, plane);
    out->concrete_cy =
        cw_step_add(w, "V", "V_1 + V_2 + V_f", out->above_cy + out->below_cy + out->footing_cy,
                    CW_DIM_CY, plane);
    const double rim_sqft = 2.0 * (out->length_ft + out->footing_width_ft) * foot_ft;
    const double faces_sqft = 2.0 * (out->face_sqft + out->length_ft * out->below_ft) +
                              (in->tip_ft + out->below_ft) * thick_ft;
    const bool cast = in->make == CW_WALL_CAST;
    out->formed_sqft = cw_step_add(
        w, "A_f", cast ? "2 (A + L_w h) + (H_2 + h) t + 2 (L_w + B) t_f" : "2 (L_w + B) t_f",
        rim_sqft + (cast ? faces_sqft : 0.0), CW_DIM_SQFT, plane);
    out->excavation_cy = cw_step_add(w, "V_e", "L_w (B + 2 w) y_f",
                                     out->length_ft * (out->footing_width_ft + 2.0 * in->work_ft) *
                                         in->footing_depth_ft / CW_CUFT_PER_CY,
                                     CW_DIM_CY, "derived: upright sides below the invert");
    if (!cast)
        out->panel_lb = cw_step_add(
            w, "W", "(V_1 + V_2) w_c",
            (out->above_cy + out->below_cy) * CW_CUFT_PER_CY * in->concrete_pcf, CW_DIM_LB, plane);
}

cw_wing cw_ends_wing(const cw_wing_input *in, cw_working *w)
{
    cw_wing out = {.verdict = CW_HOLDS};
    out.from_normal_deg =
        cw_step_add(w, "gamma", "beta + theta where they add, beta - theta on the other side",
                    cw_ends_from_normal_deg(in->kind, in->flare_deg, in->skew_deg, in->side),
                    CW_DIM_DEG, plane);
    out.has_needed = needed(in, &out, w);
    if (in->kind != CW_WING_ALONG_ROAD && out.from_normal_deg >= in->along_deg)
        out.verdict = out.has_needed ? CW_UNDECIDED : CW_FAILS;
    out.found = in->has_length || out.has_needed;
    if (!out.found)
        return out;
    out.length_ft = in->has_length ? in->length_ft : out.needed_ft;
    out.out_ft = in->kind == CW_WING_ALONG_ROAD
                     ? 0.0
                     : out.length_ft * cos(out.from_normal_deg * CW_RAD_PER_DEG);
    wall(in, &out, w);
    footing(in, &out, w);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_wing_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_wing *)output = cw_ends_wing(input, working);
}

const cw_calc cw_calc_wingwall = {
    .name = "wingwall",
    .title = "Wingwall: length from the fill slope, concrete, forms and digging",
    .group = "ends",
    .about =
        "One wing at an end of the culvert. Its length is what the side slope needs to fall from "
        "the root to the tip, "
        "measured along the wing; on a skewed crossing the two sides differ. The road's grade is "
        "left out. Quantities "
        "only: stability, reinforcement and the depth of frost and scour are for the engineer.",
    .source = "derived: plane geometry; the widths of footings are common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_wing_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_wing),
    .valid = valid,
    .run = run,
    .example = "root=8ft tip=2ft slope=2:1 flare=30deg skew=20deg side=long thickness=12in",
};
