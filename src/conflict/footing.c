#include "conflict_internal.h"

#include <math.h>

#include "cw/tolerance.h"

static const char range[] = "common practice: range of culvert trenches";
static const char line_rule[] =
    "29 CFR 1926.651(i), from memory, not verified; the line is common practice";

#define TYPE cw_footing_input

static const cw_field inputs[] = {
    NUMBER_IN("foundation", "z_f", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the underside of the footing", range, TYPE, foundation_ft),
    NUMBER_IN("away", "x_f", CW_DIM_FT, 0.0, 500.0, NULL,
              "from the centre line of the cut to the nearest edge of the footing", range, TYPE,
              away_ft),
    NUMBER_IN("bottom", "z_b", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the bottom of the cut", range, TYPE, bottom_ft),
    NUMBER_IN("bottom_width", "b", CW_DIM_FT, 2.0, 400.0, NULL, "of the cut", range, TYPE,
              bottom_width_ft),
    NUMBER_IN("slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 10.0, NULL, "of its faces; 0 when shored",
              range, TYPE, side_slope),
    NUMBER_IN("surface", "z_s", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
              "elevation of the ground", range, TYPE, surface_ft),
    NUMBER_IN("influence", "m", CW_DIM_SIDE_SLOPE, 0.5, 3.0, "@conflict.influence",
              "line from the edge of the footing down to the cut, horizontal to vertical", NULL,
              TYPE, influence),
    NUMBER_IN("clear", "c", CW_DIM_FT, 0.0, 50.0, "@conflict.structure_clear",
              "from the top edge of the cut to the structure", NULL, TYPE, clear_ft),
};

static const cw_field outputs[] = {
    OUT("below", "v", CW_DIM_FT, "bottom of the cut below the footing, 0 at least", cw_footing,
        below_ft),
    OUT("needed", NULL, CW_DIM_FT, "edge of the footing to the edge of the bottom", cw_footing,
        needed_ft),
    OUT("had", NULL, CW_DIM_FT, "the same as it is; negative when the cut goes under the footing",
        cw_footing, had_ft),
    CHOICE_OUT("influence_check", cw_verdict_words, "the cut keeps above the line", cw_footing,
               influence_verdict),
    OUT("deepest", NULL, CW_DIM_ELEV_FT, "lowest bottom that does", cw_footing, deepest_ft),
    OUT("edge", NULL, CW_DIM_FT, "top edge of the cut to the structure", cw_footing, edge_ft),
    CHOICE_OUT("edge_check", cw_verdict_words, "far enough", cw_footing, edge_verdict),
};

bool cw_footing_input_valid(const cw_footing_input *in, cw_pos where, cw_diags *diags)
{
    return cw_conflict_cut_valid(in->bottom_ft, in->surface_ft, where, diags);
}

cw_footing cw_conflict_footing(const cw_footing_input *in, cw_working *w)
{
    const double half_ft = in->bottom_width_ft / 2.0;
    cw_footing out = {0};
    out.below_ft =
        cw_step_add(w, "v", "z_f - z_b, 0 at least", fmax(0.0, in->foundation_ft - in->bottom_ft),
                    CW_DIM_FT, "derived: levels");
    out.needed_ft =
        cw_step_add(w, "x_n", "m v", in->influence * out.below_ft, CW_DIM_FT, line_rule);
    out.had_ft = cw_step_add(w, "x_h", "x_f - b/2", in->away_ft - half_ft, CW_DIM_FT,
                             "derived: plane geometry");
    out.influence_verdict = cw_meets(out.needed_ft, out.had_ft) ? CW_HOLDS : CW_FAILS;
    out.deepest_ft = cw_step_add(w, "z_d", "z_f - x_h/m",
                                 in->foundation_ft - fmax(out.had_ft, 0.0) / in->influence,
                                 CW_DIM_ELEV_FT, line_rule);
    out.edge_ft = cw_step_add(w, "x_e", "x_h - z (z_s - z_b)",
                              out.had_ft - in->side_slope * (in->surface_ft - in->bottom_ft),
                              CW_DIM_FT, "derived: plane geometry");
    out.edge_verdict = cw_meets(in->clear_ft, out.edge_ft) ? CW_HOLDS : CW_FAILS;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_footing_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_footing *)output = cw_conflict_footing(input, working);
}

const cw_calc cw_calc_influence_line = {
    .name = "influence-line",
    .title = "Cut beside the footing of a standing structure",
    .group = "conflict",
    .about = "Whether the cut keeps above a line from the edge of the footing, so that it takes no "
             "ground from under it, and whether its "
             "top edge keeps clear of the structure. Where it does not, nobody digs before an "
             "engineer has designed the support "
             "or has found that the structure is not affected.",
    .source =
        "29 CFR 1926.651(i), from memory, not verified; the slope of the line is common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_footing_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_footing),
    .valid = valid,
    .run = run,
    .example = "foundation=507ft away=26ft bottom=498ft bottom_width=17ft slope=1:1 surface=511ft",
};
