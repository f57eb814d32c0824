#include "sitewater_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char practice[] = "common practice";
static const char hydrostatics[] = "the outside water is taken to stand as high under the box";
static const char given[] = "as given";

static const char *const stops[] = {"cofferdam", "barrel", "base", "wall", NULL};

#define ELEVATION_LOW_FT (-1500.0)
#define ELEVATION_HIGH_FT 20000.0

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_cofferdam_input, member)
#define LEVEL(key, symbol, meaning, member, has)                                                   \
    OPTION_IN(key, symbol, CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, meaning, NULL,     \
              cw_cofferdam_input, member, has)

static const cw_field inputs[] = {
    IN("stage", "z_w", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
       "water at the diversion flow", NULL, stage_ft),
    IN("ground", "z_g", CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
       "lowest ground under the crest", NULL, ground_ft),
    IN("freeboard", "f", CW_DIM_FT, 0.0, 10.0, "@freeboard.cofferdam", "above that water", NULL,
       freeboard_ft),
    IN("wave", "w", CW_DIM_FT, 0.0, 10.0, "0 ft", "waves and run-up, added", practice, wave_ft),
    LEVEL("crest", "z_c", "crest as built; the needed one when not given", crest_ft, has_crest),
    LEVEL("barrel_floats", "z_b", "water at which the partly built barrel floats", barrel_ft,
          has_barrel),
    LEVEL("base_floats", "z_u", "water at which a base without its top floats", base_ft, has_base),
    LEVEL("wall_top", "z_t", "top of the wall of a base without its top", wall_ft, has_wall),
    IN("rise_rate", "v", CW_DIM_FT, 0.0, 20.0, "0 ft", "rise of the stream in one hour", practice,
       rise_ft_per_h),
    IN("clear_time", "t", CW_DIM_HOUR, 0.0, 168.0, "0 h", "to clear the work", practice, clear_h),
    LIST_IN("rating_stages", NULL, CW_DIM_ELEV_FT, ELEVATION_LOW_FT, ELEVATION_HIGH_FT, NULL,
            "stages of a rating of the stream, rising", NULL, cw_cofferdam_input, rating_stage_ft),
    LIST_IN("rating_flows", NULL, CW_DIM_CFS, 0.0, 1e6, NULL, "the flow at each", NULL,
            cw_cofferdam_input, rating_flow_cfs),
};

static const cw_field outputs[] = {
    OUT("crest_needed", "z_n", CW_DIM_ELEV_FT, "elevation", cw_cofferdam, crest_ft),
    OUT("height", "h", CW_DIM_FT, "of that above the ground", cw_cofferdam, height_ft),
    CHOICE_OUT("crest_check", cw_verdict_words, "crest as built against the needed one",
               cw_cofferdam, crest_verdict),
    CHOICE_OUT("first", stops, "what happens first as the stream rises", cw_cofferdam, first),
    OUT("stop", "z_s", CW_DIM_ELEV_FT, "stage at which it happens", cw_cofferdam, stop_ft),
    OUT("warn", "z_a", CW_DIM_ELEV_FT, "stage at which the work is cleared", cw_cofferdam, warn_ft),
    CHOICE_OUT("stage_check", cw_verdict_words,
               "the diversion flow passes without clearing the work", cw_cofferdam, stage_verdict),
    OPTION_OUT("stop_flow", "Q_s", CW_DIM_CFS, "at the stop stage", cw_cofferdam, stop_cfs,
               has_stop_flow),
    OPTION_OUT("warn_flow", "Q_a", CW_DIM_CFS, "at the warn stage", cw_cofferdam, warn_cfs,
               has_warn_flow),
};

static bool rating_valid(const cw_list *stages, const cw_list *flows, cw_pos where, cw_diags *diags)
{
    if (stages->count != flows->count || stages->count == 1) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "the rating has %d stages and %d flows; give as many of one as of the other, "
                    "two at least",
                    stages->count, flows->count);
        return false;
    }
    for (int i = 1; i < stages->count; i++) {
        if (stages->items[i] > stages->items[i - 1] && flows->items[i] >= flows->items[i - 1])
            continue;
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "rating point %d (%.6g ft, %.6g cfs) does not rise over the one before; sort "
                    "the rating",
                    i + 1, stages->items[i], flows->items[i]);
        return false;
    }
    return true;
}

bool cw_cofferdam_input_valid(const cw_cofferdam_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    bool good = rating_valid(&in->rating_stage_ft, &in->rating_flow_cfs, where, diags);
    if (in->ground_ft >= in->stage_ft) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "the ground, %.6g ft, is not under the water, %.6g ft: no cofferdam is "
                    "needed there; check both elevations",
                    in->ground_ft, in->stage_ft);
        good = false;
    }
    return good;
}

/* Flow at a stage, straight between the points; false outside them. */
static bool rated(const cw_cofferdam_input *in, double stage_ft, double *flow_cfs)
{
    const cw_list *stages = &in->rating_stage_ft, *flows = &in->rating_flow_cfs;
    for (int i = 1; i < stages->count; i++) {
        const double low_ft = stages->items[i - 1], high_ft = stages->items[i];
        if (stage_ft < low_ft || stage_ft > high_ft)
            continue;
        *flow_cfs = flows->items[i - 1] + (flows->items[i] - flows->items[i - 1]) *
                                              (stage_ft - low_ft) / (high_ft - low_ft);
        return true;
    }
    return false;
}

static void find_first(cw_cofferdam *out, const cw_cofferdam_input *in, double crest_ft,
                       cw_working *w)
{
    const struct {
        bool known;
        double level_ft;
        const char *symbol, *what, *source;
    } levels[CW_STOPS] = {
        [CW_STOP_COFFERDAM] = {true, crest_ft, "z_c", "crest of the cofferdam", given},
        [CW_STOP_BARREL] = {in->has_barrel, in->barrel_ft, "z_b", "the partly built barrel floats",
                            hydrostatics},
        [CW_STOP_BASE] = {in->has_base, in->base_ft, "z_u", "a base without its top floats",
                          hydrostatics},
        [CW_STOP_WALL] = {in->has_wall, in->wall_ft, "z_t", "top of the wall of such a base",
                          given},
    };
    out->first = CW_STOP_COFFERDAM;
    for (int i = 0; i < CW_STOPS; i++) {
        if (!levels[i].known)
            continue;
        cw_step_add(w, levels[i].symbol, levels[i].what, levels[i].level_ft, CW_DIM_ELEV_FT,
                    levels[i].source);
        if (levels[i].level_ft < levels[out->first].level_ft)
            out->first = i;
    }
    out->stop_ft = cw_step_add(w, "z_s", "the lowest of them", levels[out->first].level_ft,
                               CW_DIM_ELEV_FT, practice);
}

cw_cofferdam cw_sitewater_cofferdam(const cw_cofferdam_input *in, cw_working *working)
{
    cw_cofferdam out = {.crest_verdict = CW_HOLDS};
    out.crest_ft =
        cw_step_add(working, "z_n", "z_w + f + w", in->stage_ft + in->freeboard_ft + in->wave_ft,
                    CW_DIM_ELEV_FT, practice);
    out.height_ft =
        cw_step_add(working, "h", "z_n - z_g", out.crest_ft - in->ground_ft, CW_DIM_FT, practice);
    const double crest_ft = in->has_crest ? in->crest_ft : out.crest_ft;
    out.crest_verdict = cw_meets(out.crest_ft, crest_ft) ? CW_HOLDS : CW_FAILS;
    find_first(&out, in, crest_ft, working);
    out.warn_ft =
        cw_step_add(working, "z_a", "z_s - v t", out.stop_ft - in->rise_ft_per_h * in->clear_h,
                    CW_DIM_ELEV_FT, practice);
    out.stage_verdict = cw_meets(in->stage_ft, out.warn_ft) ? CW_HOLDS : CW_FAILS;
    out.has_stop_flow = rated(in, out.stop_ft, &out.stop_cfs);
    out.has_warn_flow = rated(in, out.warn_ft, &out.warn_cfs);
    if (out.has_warn_flow)
        cw_step_add(working, "Q_a", "rating at z_a, straight between its points", out.warn_cfs,
                    CW_DIM_CFS, given);
    if (out.has_stop_flow)
        cw_step_add(working, "Q_s", "rating at z_s, straight between its points", out.stop_cfs,
                    CW_DIM_CFS, given);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_cofferdam_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_cofferdam *)output = cw_sitewater_cofferdam(input, working);
}

const cw_calc cw_calc_cofferdam = {
    .name = "cofferdam",
    .title = "Cofferdam height and stop trigger",
    .group = "sitewater",
    .about = "Crest over the water at the diversion flow, and the stage at which the cofferdam is "
             "overtopped or what stands behind it floats, whichever is first.  The groundwater "
             "under the box is taken to stand as high as the stream; levels at which a box floats "
             "come from the flotation calculator.  Stability, seepage and piping of the cofferdam "
             "are not considered.",
    .source = "common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_cofferdam_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_cofferdam),
    .valid = valid,
    .run = run,
    .example =
        "stage=603.2ft ground=598.5ft base_floats=604.10ft wall_top=604.25ft rise_rate=0.5ft "
        "clear_time=1h rating_stages=[600ft,602ft,604ft,606ft] "
        "rating_flows=[20cfs,90cfs,240cfs,480cfs]",
};
