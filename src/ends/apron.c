#include "ends_internal.h"

#include <math.h>

#include "cw/units.h"

static const char plane[] = "derived: plane geometry";
static const char range[] = "common practice: range of culvert ends";
static const char *const cuts[] = {"square", "road", NULL};

/* ---- apron ---- */

#define TYPE cw_end_apron_input

static const cw_field apron_inputs[] = {
    NUMBER_IN("width", "W", CW_DIM_FT, 1.0, 400.0, NULL,
              "between the roots of the wings when square to the barrel", range, TYPE, width_ft),
    NUMBER_IN("skew", "theta", CW_DIM_DEG, 0.0, 75.0, "0 deg",
              "of the barrel from the road's normal", "common practice: a square crossing", TYPE,
              skew_deg),
    CHOICE_IN("cut", cuts, "square", "end face square to the barrel, or along the road",
              "common practice", TYPE, cut),
    CHOICE_IN("kind", cw_wing_kind_words, "flared", "of both wings", "common practice", TYPE, kind),
    NUMBER_IN("flare", "beta", CW_DIM_DEG, 0.0, 75.0, "@end.wing_flare",
              "flared: from the barrel axis", NULL, TYPE, flare_deg),
    NUMBER_IN("root", "H_1", CW_DIM_FT, 1.0, 40.0, NULL,
              "top of the wings at the headwall, above the invert", range, TYPE, root_ft),
    NUMBER_IN("tip", "H_2", CW_DIM_FT, 0.0, 40.0, "@end.wing_tip", "top of the wings at their tips",
              NULL, TYPE, tip_ft),
    NUMBER_IN("slope", "m", CW_DIM_SIDE_SLOPE, 0.25, 20.0, NULL, "of the fill, square to the road",
              range, TYPE, side_slope),
    OPTION_IN("apron_length", "L_a", CW_DIM_FT, 1.0, 200.0,
              "from the face along the barrel; out to the tips when not given", range, TYPE,
              apron_ft, has_apron_ft),
    NUMBER_IN("thickness", "t_a", CW_DIM_IN, 4.0, 36.0, "@end.apron_thickness", "of the slab", NULL,
              TYPE, thickness_in),
};

#define IF_FOUND(key, symbol, dim, meaning, member)                                                \
    OPTION_OUT(key, symbol, dim, meaning, cw_end_apron, member, found)

static const cw_field apron_outputs[] = {
    FLAG_OUT("has_edge",
             "there is an outer edge; give apron_length when the wings run along the road",
             cw_end_apron, found),
    IF_FOUND("long_wing", "L_1", CW_DIM_FT, "wing where flare and skew add", long_ft),
    IF_FOUND("short_wing", "L_2", CW_DIM_FT, "wing on the other side", short_ft),
    IF_FOUND("area", "A", CW_DIM_SQFT, "of the apron", area_sqft),
    IF_FOUND("edge", "L_e", CW_DIM_FT, "its outer edge: length of a cutoff wall there", edge_ft),
    IF_FOUND("concrete", "V", CW_DIM_CY, "of the slab", concrete_cy),
    IF_FOUND("formed", NULL, CW_DIM_SQFT, "at the outer edge", formed_sqft),
    IF_FOUND("excavation", NULL, CW_DIM_CY, "of the slab below the invert", excavation_cy),
};

bool cw_end_apron_input_valid(const cw_end_apron_input *in, cw_pos where, cw_diags *diags)
{
    return in->kind == CW_WING_ALONG_ROAD ||
           cw_ends_heights_valid(in->root_ft, in->tip_ft, where, diags);
}

cw_end_apron cw_ends_apron_of(const cw_end_plan *plan, double thickness_in, cw_working *w)
{
    cw_end_apron out = {.found = plan->has_outline};
    if (!out.found)
        return out;
    const double thick_ft = thickness_in / CW_IN_PER_FT;
    out.area_sqft = cw_step_add(w, "A", "polygon of roots, tips and outer edge", plan->area_sqft,
                                CW_DIM_SQFT, "closed form: area of the polygon");
    out.edge_ft = cw_step_add(w, "L_e", "between the ends of the outer edge", plan->edge_ft,
                              CW_DIM_FT, plane);
    out.concrete_cy =
        cw_step_add(w, "V", "A t_a", out.area_sqft * thick_ft / CW_CUFT_PER_CY, CW_DIM_CY, plane);
    out.formed_sqft = cw_step_add(w, "A_f", "L_e t_a", out.edge_ft * thick_ft, CW_DIM_SQFT, plane);
    out.excavation_cy = out.concrete_cy;
    return out;
}

cw_end_apron cw_ends_apron(const cw_end_apron_input *in, cw_working *w)
{
    // The right side is the long one when the road's normal turns left of the barrel.
    cw_end_plan_input plan = {
        .width_ft = in->cut ? in->width_ft / cos(in->skew_deg * CW_RAD_PER_DEG) : in->width_ft,
        .face_deg = in->cut ? -in->skew_deg : 0.0,
        .normal_deg = -in->skew_deg,
        .has_apron = true,
        .has_apron_ft = in->has_apron_ft,
        .apron_ft = in->apron_ft};
    double lengths_ft[2] = {0};
    for (int side = 0; side < 2; side++) {
        const cw_wing_input wing = {.kind = in->kind,
                                    .flare_deg = in->flare_deg,
                                    .skew_deg = in->skew_deg,
                                    .side = side == CW_END_RIGHT ? CW_WING_LONG : CW_WING_SHORT,
                                    .root_ft = in->root_ft,
                                    .tip_ft = in->tip_ft,
                                    .side_slope = in->side_slope,
                                    .along_deg = 90.0};
        const cw_wing found = cw_ends_wing(&wing, NULL);
        cw_step_add(w, side == CW_END_RIGHT ? "gamma_1" : "gamma_2",
                    side == CW_END_RIGHT ? "beta + theta, from the road's normal"
                                         : "beta - theta, from the road's normal",
                    found.from_normal_deg, CW_DIM_DEG, plane);
        if (!found.found)
            return (cw_end_apron){0};
        lengths_ft[side] = found.length_ft;
        plan.wings[side] = (cw_end_wing){true, in->kind, in->flare_deg, found.length_ft};
    }
    cw_step_add(w, "L_1", "m (H_1 - H_2) / cos(beta + theta)", lengths_ft[CW_END_RIGHT], CW_DIM_FT,
                plane);
    cw_step_add(w, "L_2", "m (H_1 - H_2) / cos(beta - theta)", lengths_ft[CW_END_LEFT], CW_DIM_FT,
                plane);
    const cw_end_plan shape = cw_ends_plan(&plan);
    cw_end_apron out = cw_ends_apron_of(&shape, in->thickness_in, w);
    out.long_ft = lengths_ft[CW_END_RIGHT];
    out.short_ft = lengths_ft[CW_END_LEFT];
    return out;
}

static bool apron_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_end_apron_input_valid(input, where, diags);
}

static void apron_run(const void *input, void *output, cw_working *working)
{
    *(cw_end_apron *)output = cw_ends_apron(input, working);
}

const cw_calc cw_calc_end_apron = {
    .name = "end-apron",
    .title = "Concrete apron between the wings",
    .group = "ends",
    .about = "The slab between two like wings of an end, out to their tips or to a given length: "
             "area, outer edge and concrete. "
             "Past the tips the sides go on along the barrel. Wings in line with the road do not "
             "bound it.",
    .source = "derived: plane geometry",
    .inputs = apron_inputs,
    .input_count = COUNT(apron_inputs),
    .input_size = sizeof(cw_end_apron_input),
    .outputs = apron_outputs,
    .output_count = COUNT(apron_outputs),
    .output_size = sizeof(cw_end_apron),
    .valid = apron_valid,
    .run = apron_run,
    .example = "width=140in root=8ft tip=2ft slope=2:1 flare=30deg",
};

/* ---- cutoff wall ---- */

#undef TYPE
#define TYPE cw_cutoff_input

static const cw_field cutoff_inputs[] = {
    NUMBER_IN("length", "L", CW_DIM_FT, 1.0, 500.0, NULL,
              "of the wall: the outer edge of the apron, tip to tip", range, TYPE, length_ft),
    NUMBER_IN("depth", "y", CW_DIM_FT, 0.5, 20.0, "@end.cutoff_depth",
              "of its foot below the invert", NULL, TYPE, depth_ft),
    NUMBER_IN("thickness", "t", CW_DIM_IN, 4.0, 48.0, "@end.cutoff_thickness", "of the wall", NULL,
              TYPE, thickness_in),
    NUMBER_IN("apron", "t_a", CW_DIM_IN, 0.0, 36.0, "0 in", "thickness of the apron over it",
              "common practice: no apron", TYPE, apron_in),
    CHOICE_IN("make", cw_wall_make_words, "cast", "cast in place or precast", "common practice",
              TYPE, make),
    NUMBER_IN("work", "w", CW_DIM_FT, 0.0, 10.0, "@end.work", "dug beyond the wall on each side",
              NULL, TYPE, work_ft),
};

static const cw_field cutoff_outputs[] = {
    OUT("height", "h", CW_DIM_FT, "of the wall under the apron", cw_cutoff, height_ft),
    OUT("concrete", "V", CW_DIM_CY, "of the wall under the apron", cw_cutoff, concrete_cy),
    OUT("formed", "A_f", CW_DIM_SQFT, "both faces and both ends; precast: 0", cw_cutoff,
        formed_sqft),
    OUT("excavation", "V_e", CW_DIM_CY, "under the apron, upright sides", cw_cutoff, excavation_cy),
};

bool cw_cutoff_input_valid(const cw_cutoff_input *in, cw_pos where, cw_diags *diags)
{
    if (in->depth_ft > in->apron_in / CW_IN_PER_FT)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "the cutoff wall goes %.6g ft below the invert and the apron over it is %.6g in "
                "thick; make the wall deeper",
                in->depth_ft, in->apron_in);
    return false;
}

cw_cutoff cw_ends_cutoff(const cw_cutoff_input *in, cw_working *w)
{
    const double thick_ft = in->thickness_in / CW_IN_PER_FT;
    cw_cutoff out = {0};
    out.height_ft = cw_step_add(w, "h", "y - t_a", in->depth_ft - in->apron_in / CW_IN_PER_FT,
                                CW_DIM_FT, plane);
    out.concrete_cy =
        cw_step_add(w, "V", "L h t", in->length_ft * out.height_ft * thick_ft / CW_CUFT_PER_CY,
                    CW_DIM_CY, plane);
    out.formed_sqft =
        in->make == CW_WALL_CAST
            ? cw_step_add(w, "A_f", "2 (L + t) h", 2.0 * (in->length_ft + thick_ft) * out.height_ft,
                          CW_DIM_SQFT, plane)
            : 0.0;
    out.excavation_cy =
        cw_step_add(w, "V_e", "L (t + 2 w) h",
                    in->length_ft * (thick_ft + 2.0 * in->work_ft) * out.height_ft / CW_CUFT_PER_CY,
                    CW_DIM_CY, "derived: upright sides");
    return out;
}

static bool cutoff_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_cutoff_input_valid(input, where, diags);
}

static void cutoff_run(const void *input, void *output, cw_working *working)
{
    *(cw_cutoff *)output = cw_ends_cutoff(input, working);
}

const cw_calc cw_calc_cutoff_wall = {
    .name = "cutoff-wall",
    .title = "Cutoff (toe) wall under the outer edge of an end",
    .group = "ends",
    .about = "Concrete, forms and digging of the wall that keeps water from washing under the end. "
             "How deep it must go is a "
             "matter of frost and scour, which this does not answer.",
    .source = "derived: plane geometry; the depth is common practice",
    .inputs = cutoff_inputs,
    .input_count = COUNT(cutoff_inputs),
    .input_size = sizeof(cw_cutoff_input),
    .outputs = cutoff_outputs,
    .output_count = COUNT(cutoff_outputs),
    .output_size = sizeof(cw_cutoff),
    .valid = cutoff_valid,
    .run = cutoff_run,
    .example = "length=25.5ft depth=3ft thickness=12in apron=8in",
};
