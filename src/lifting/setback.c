/* How far the crane stands from the trench. */
#include "lifting_internal.h"

static const char range[] = "common practice: range of trenches and cranes";

static const char *const rules[] = {"from-toe", "from-edge", "fixed", NULL};

#define TYPE cw_setback_input

static const cw_field inputs[] = {
    CHOICE_IN("rule", rules, NULL,
              "from-toe: mat at least k depths from the toe; from-edge: k depths from the edge; "
              "fixed: the engineer's distance from the edge",
              NULL, TYPE, rule),
    NUMBER_IN("depth", "D", CW_DIM_FT, 0.0, 60.0, NULL, "of the excavation", range, TYPE, depth_ft),
    NUMBER_IN("side_slope", NULL, CW_DIM_SIDE_SLOPE, 0.0, 5.0, "0:1",
              "of its side towards the crane; 0: plumb or shored", range, TYPE, side_slope),
    NUMBER_IN("k", NULL, CW_DIM_NONE, 0.0, 5.0, "@lift.setback_k", "depths", NULL, TYPE, k),
    OPTION_IN("fixed", NULL, CW_DIM_FT, 0.0, 200.0, "mat from the edge, rule fixed", range, TYPE,
              fixed_ft, has_fixed),
    NUMBER_IN("half", NULL, CW_DIM_FT, 0.0, 40.0, NULL,
              "slew centre to the outer edge of the mats towards the trench", range, TYPE, half_ft),
    NUMBER_IN("toe", NULL, CW_DIM_FT, 0.0, 200.0, NULL,
              "toe of the excavation from the centre line, on the crane's side", range, TYPE,
              toe_ft),
    NUMBER_IN("centre", NULL, CW_DIM_FT, 0.0, 500.0, NULL, "slew centre from the centre line",
              range, TYPE, centre_ft),
    NUMBER_IN("float_load", "Q", CW_DIM_LB, 0.0, 2000000.0, "0 lb", "on the mat next to the trench",
              range, TYPE, float_lb),
    NUMBER_IN("mat_width", NULL, CW_DIM_FT, 0.5, 20.0, "4 ft", "of that mat", range, TYPE,
              mat_width_ft),
    NUMBER_IN("mat_length", NULL, CW_DIM_FT, 0.5, 60.0, "8 ft", "of that mat in bearing", range,
              TYPE, mat_length_ft),
};

static const cw_field outputs[] = {
    OUT("edge_needed", NULL, CW_DIM_FT, "mat from the edge of the cut", cw_setback, edge_needed_ft),
    OUT("edge", NULL, CW_DIM_FT, "as it stands; negative: over the cut", cw_setback, edge_ft),
    OUT("centre_needed", NULL, CW_DIM_FT, "slew centre from the centre line", cw_setback,
        centre_needed_ft),
    OUT("pressure", NULL, CW_DIM_PSF,
        "of the mat at the depth of the toe, spread 2 down 1 out on all sides", cw_setback,
        pressure_psf),
    CHOICE_OUT("check", cw_verdict_words, "the rule is kept", cw_setback, verdict),
};

bool cw_setback_input_valid(const cw_setback_input *in, cw_pos where, cw_diags *diags)
{
    if ((in->rule == CW_SETBACK_FIXED) == in->has_fixed)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                in->has_fixed ? "fixed is %.6g ft but the rule is not fixed; keep one"
                              : "rule is fixed and no distance is given (%.6g ft); give fixed",
                in->fixed_ft);
    return false;
}

cw_setback cw_lifting_setback(const cw_setback_input *in, const cw_rows *rows, cw_working *w)
{
    cw_setback out = {0};
    const double cut_ft = in->side_slope * in->depth_ft;
    const double by_rule_ft = in->rule == CW_SETBACK_FROM_TOE    ? in->k * in->depth_ft - cut_ft
                              : in->rule == CW_SETBACK_FROM_EDGE ? in->k * in->depth_ft
                                                                 : in->fixed_ft;
    static const char *const how[] = {"k D - side slope D", "k D", "as named"};
    const double least_ft = in->depth_ft > 0.0 ? cw_rows_value(rows, "lift.edge_least") : 0.0;
    out.edge_needed_ft =
        cw_step_add(w, "e_n", how[in->rule], fmax(by_rule_ft, least_ft), CW_DIM_FT,
                    "the rule that the lift plan names; 29 CFR 1926.651(j)(2): 2 ft at least");
    out.edge_ft = cw_step_add(w, "e", "centre - half - toe - side slope D",
                              in->centre_ft - in->half_ft - in->toe_ft - cut_ft, CW_DIM_FT,
                              "closed form: geometry");
    out.centre_needed_ft = cw_step_add(w, "c_n", "toe + side slope D + e_n + half",
                                       in->toe_ft + cut_ft + out.edge_needed_ft + in->half_ft,
                                       CW_DIM_FT, "closed form: geometry");
    out.pressure_psf = cw_step_add(
        w, "s", "Q/((B + D)(L + D))",
        in->float_lb / ((in->mat_width_ft + in->depth_ft) * (in->mat_length_ft + in->depth_ft)),
        CW_DIM_PSF, "2:1 spread, soil mechanics textbooks");
    out.verdict = cw_lifting_verdict(out.edge_needed_ft, out.edge_ft);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_setback_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_setback *)output = cw_lifting_setback(input, &cw_data, working);
}

const cw_calc cw_calc_crane_setback = {
    .name = "crane-setback",
    .title = "Crane beside a trench: set-back",
    .group = "lifting",
    .about =
        "There is no single rule.  The same question (4 m deep) was answered in the trade with 6, "
        "8, "
        "9.6, 10 and 12 m from the toe, so the rule is named, not assumed.  One depth from the toe "
        "is for stiff dry clay or a shored face; two for sand, water, layers or vibration.  The "
        "tables for protective systems do not cover a crane: a professional engineer does.  Add "
        "half the spread pressure to a rigid shore.  Rain and groundwater: look again.",
    .source = "common practice; 2:1 spread of soil mechanics textbooks",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_setback_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_setback),
    .valid = valid,
    .run = run,
    .example = "rule=from-toe depth=10ft side_slope=1:1 k=1.5 half=16ft toe=9ft centre=42ft "
               "float_load=100kip",
};
