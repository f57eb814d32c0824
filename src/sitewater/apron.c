#include "sitewater_internal.h"

#include <math.h>
#include <stdio.h>

#include "cw/tolerance.h"
#include "cw/units.h"

enum { APRON_CLASSES = 6, ROCK_CLASSES = 10, ID_MAX = 40 };

/* Tailwater over the height of the outlet, HEC-14 sec. 10.2. */
#define TAILWATER_LOW 0.4
#define TAILWATER_HIGH 1.0

static const char eq104[] = "FHWA HEC-14 (2006), eq. 10.4";
static const char eq105[] = "FHWA HEC-14 (2006), eq. 10.5";
static const char eqd1[] = "FHWA HEC-14 (2006), app. D, eq. D.1b (from memory, not verified)";
static const char table[] = "FHWA HEC-14 (2006), table 10.1 (from memory, not verified)";
static const char rock[] = "FHWA HEC-23 (2009), guideline 4 (from memory, not verified)";
static const char practice[] = "common practice";

static const char *const dissipators[] = {"no", "yes", "not-known", NULL};

#define IN(key, symbol, dim, low, high, meaning, member)                                           \
    NUMBER_IN(key, symbol, dim, low, high, NULL, meaning, practice, cw_apron_input, member)
#define OPTION(key, symbol, dim, low, high, meaning, member, has)                                  \
    OPTION_IN(key, symbol, dim, low, high, meaning, NULL, cw_apron_input, member, has)

static const cw_field inputs[] = {
    IN("flow", "Q", CW_DIM_CFS, 0.1, 20000.0, "of one barrel", flow_cfs),
    IN("span", "B", CW_DIM_IN, 12.0, 480.0, "clear span of one barrel", span_in),
    IN("rise", "D", CW_DIM_IN, 12.0, 240.0, "clear rise, above any bed in the barrel", rise_in),
    COUNT_IN("barrels", "N", 1.0, 8.0, "1", "barrels side by side", practice, cw_apron_input,
             barrels),
    OPTION("tailwater", "TW", CW_DIM_FT, 0.0, 100.0,
           "above the outlet invert; 0.4 of the rise when not known", tailwater_ft, has_tailwater),
    OPTION("normal_depth", "y_n", CW_DIM_FT, 0.05, 20.0,
           "in the barrel, only when the flow in it is fast", normal_ft, has_normal),
    OPTION("velocity", "V", CW_DIM_FPS, 0.1, 100.0, "at the outlet", velocity_fps, has_velocity),
    OPTION("depth", "y", CW_DIM_FT, 0.05, 20.0, "at the outlet", depth_ft, has_depth),
    OPTION("channel_velocity", "V_c", CW_DIM_FPS, 0.1, 50.0, "natural velocity of the channel",
           channel_fps, has_channel),
};

static const cw_field outputs[] = {
    OUT("tailwater_used", "TW", CW_DIM_FT, "within 0.4 to 1.0 of the rise", cw_apron, tailwater_ft),
    OUT("stone_pipe", "D_p", CW_DIM_IN, "D50 by eq. 10.4, rise and Q D/B", cw_apron, pipe_in),
    OUT("stone_equal_area", "D_a", CW_DIM_IN, "the same with the circle of equal area, to compare",
        cw_apron, area_in),
    OUT("stone_box", "D_b", CW_DIM_IN, "D50 by the formula with span", cw_apron, box_in),
    OUT("stone", "D_50", CW_DIM_IN, "the larger of pipe and box", cw_apron, stone_in),
    COUNT_OUT("apron_class", NULL, "1 to 6, 0 when no class is large enough", cw_apron,
              apron_class),
    COUNT_OUT("rock_class", NULL, "1 to 10 for I to X, 0 when none is large enough", cw_apron,
              rock_class),
    OUT("class_stone", NULL, CW_DIM_IN, "nominal D50 of the rock class", cw_apron, class_stone_in),
    OUT("length", "L", CW_DIM_FT, "of the apron", cw_apron, length_ft),
    OUT("width", "W", CW_DIM_FT, "at the outlet", cw_apron, width_ft),
    OUT("end_width", "W_e", CW_DIM_FT, "at the end", cw_apron, end_width_ft),
    OUT("stone_depth", "t", CW_DIM_FT, "depth of stone, on filter or fabric", cw_apron, depth_ft),
    OUT("froude", "Fr", CW_DIM_NONE, "at the outlet, 0 when not known", cw_apron, froude),
    CHOICE_OUT("dissipator", dissipators, "an energy dissipator needs its own design", cw_apron,
               dissipator),
    CHOICE_OUT("range", cw_verdict_words, "within the range of both formulas and the classes",
               cw_apron, verdict),
};

bool cw_apron_input_valid(const cw_apron_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    const double rise_ft = in->rise_in / CW_IN_PER_FT;
    bool good = true;
    if (in->has_normal && in->normal_ft > rise_ft) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "normal_depth %.6g ft is more than the rise %.6g ft; fast flow does not fill "
                    "the barrel: leave it out",
                    in->normal_ft, rise_ft);
        good = false;
    }
    if (in->has_depth && in->depth_ft > rise_ft) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "depth %.6g ft is more than the rise %.6g ft; give the rise for a full outlet",
                    in->depth_ft, rise_ft);
        good = false;
    }
    return good;
}

static double used_tailwater_ft(double height_ft, double tailwater_ft)
{
    return fmin(fmax(tailwater_ft, TAILWATER_LOW * height_ft), TAILWATER_HIGH * height_ft);
}

double cw_sitewater_pipe_stone_ft(double diameter_ft, double flow_cfs, double tailwater_ft)
{
    // FHWA HEC-14 (2006) eq. 10.4 (Fletcher and Grace 1972).
    const double strength = flow_cfs / (sqrt(GRAVITY_FT_PER_S2) * pow(diameter_ft, 2.5));
    return 0.2 * diameter_ft * pow(strength, 4.0 / 3.0) * diameter_ft /
           used_tailwater_ft(diameter_ft, tailwater_ft);
}

double cw_sitewater_box_stone_ft(double span_ft, double rise_ft, double flow_cfs,
                                 double tailwater_ft)
{
    // FHWA HEC-14 (2006) eq. D.1b, from memory, not verified.
    return 0.014 * sqrt(rise_ft) * flow_cfs / (span_ft * used_tailwater_ft(rise_ft, tailwater_ft));
}

/* Row "<family>.<index>.<what>". */
static double class_row(const cw_rows *rows, const char *family, int index, const char *what)
{
    char id[ID_MAX];
    snprintf(id, sizeof id, "%s.%d.%s", family, index, what);
    return cw_rows_value(rows, id);
}

/* First class whose @p what is not under the stone needed; 0 when there is none. */
static int class_of(const cw_rows *rows, const char *family, const char *what, int classes,
                    double stone_in)
{
    for (int i = 1; i <= classes; i++)
        if (cw_meets(stone_in, class_row(rows, family, i, what)))
            return i;
    return 0;
}

static void size_stone(cw_apron *out, const cw_apron_input *in, cw_working *w)
{
    const double span_ft = in->span_in / CW_IN_PER_FT, rise_ft = in->rise_in / CW_IN_PER_FT;
    double height_ft = rise_ft, area_ft = 2.0 * sqrt(span_ft * rise_ft / CW_PI);
    if (in->has_normal) {
        height_ft = cw_step_add(w, "D'", "(D + y_n)/2, fast flow in the barrel",
                                (rise_ft + in->normal_ft) / 2.0, CW_DIM_FT, eq105);
        area_ft = (area_ft + fmin(in->normal_ft, area_ft)) / 2.0;
    }
    const double given_ft = in->has_tailwater ? in->tailwater_ft : 0.0;
    out->tailwater_ft = cw_step_add(w, "TW", "within 0.4 to 1.0 of D (D'); 0.4 when not known",
                                    used_tailwater_ft(height_ft, given_ft), CW_DIM_FT, eq104);
    const double part_cfs =
        cw_step_add(w, "Q'", "Q D/B", in->flow_cfs * rise_ft / span_ft, CW_DIM_CFS, practice);
    out->pipe_in = cw_step_add(
        w, "D_p", "0.2 D (Q'/(sqrt(g) D^2.5))^(4/3) D/TW",
        CW_IN_PER_FT * cw_sitewater_pipe_stone_ft(height_ft, part_cfs, out->tailwater_ft),
        CW_DIM_IN, eq104);
    out->area_in = cw_step_add(
        w, "D_a", "the same with the diameter of the circle of equal area and Q",
        CW_IN_PER_FT * cw_sitewater_pipe_stone_ft(area_ft, in->flow_cfs, out->tailwater_ft),
        CW_DIM_IN, eq104);
    out->box_in =
        cw_step_add(w, "D_b", "0.014 D^0.5 Q/(B TW)",
                    CW_IN_PER_FT * cw_sitewater_box_stone_ft(span_ft, height_ft, in->flow_cfs,
                                                             out->tailwater_ft),
                    CW_DIM_IN, eqd1);
    out->stone_in = cw_step_add(w, "D_50", "the larger of D_p and D_b",
                                fmax(out->pipe_in, out->box_in), CW_DIM_IN, practice);
}

static void size_apron(cw_apron *out, const cw_apron_input *in, const cw_rows *rows, cw_working *w)
{
    const double span_ft = in->span_in / CW_IN_PER_FT, rise_ft = in->rise_in / CW_IN_PER_FT;
    out->apron_class = class_of(rows, "apron", "stone", APRON_CLASSES, out->stone_in);
    out->rock_class = class_of(rows, "rock", "d50_min", ROCK_CLASSES, out->stone_in);
    // Beyond the classes the last one gives the least there must be, and the range is undecided.
    const int length_class = out->apron_class ? out->apron_class : APRON_CLASSES;
    out->length_ft =
        cw_step_add(w, "L", "rise x length ratio of the apron class",
                    rise_ft * class_row(rows, "apron", length_class, "length"), CW_DIM_FT, table);
    const double opening_ft = span_ft * in->barrels;
    out->width_ft = cw_step_add(w, "W", "the larger of 3 D and N B + 2 D",
                                fmax(3.0 * rise_ft, opening_ft + 2.0 * rise_ft), CW_DIM_FT,
                                "FHWA HEC-14 (2006), fig. 10.4 (from memory, not verified); with "
                                "span: common practice");
    out->end_width_ft = cw_step_add(w, "W_e", "W + 2/3 L, 1 in 3 each side",
                                    out->width_ft + 2.0 / 3.0 * out->length_ft, CW_DIM_FT, table);
    double depth_in = class_row(rows, "apron", length_class, "depth") *
                      fmax(out->stone_in, class_row(rows, "apron", length_class, "stone"));
    const int rock_class = out->rock_class ? out->rock_class : ROCK_CLASSES;
    out->class_stone_in = class_row(rows, "rock", rock_class, "d50");
    const double largest_in =
        cw_step_add(w, "D_100", "largest stone of the rock class",
                    class_row(rows, "rock", rock_class, "d100"), CW_DIM_IN, rock);
    depth_in = fmax(depth_in, fmax(largest_in, 1.5 * out->class_stone_in));
    out->depth_ft = cw_step_add(w, "t",
                                "the largest of depth ratio x stone of the apron class, D_100 and "
                                "1.5 x nominal D50 of the rock class",
                                depth_in / CW_IN_PER_FT, CW_DIM_FT, table);
}

static int dissipator_of(cw_apron *out, const cw_apron_input *in, const cw_rows *rows,
                         cw_working *w)
{
    if (!in->has_velocity)
        return CW_DISSIPATOR_NOT_KNOWN;
    if (in->has_depth)
        out->froude = cw_step_add(w, "Fr", "V / sqrt(g y)",
                                  in->velocity_fps / sqrt(GRAVITY_FT_PER_S2 * in->depth_ft),
                                  CW_DIM_NONE, "open-channel flow, definition");
    const double most_fps = cw_rows_value(rows, "dissipator.velocity");
    const double ratio = cw_rows_value(rows, "dissipator.ratio");
    const bool calm = cw_meets(in->velocity_fps, most_fps) &&
                      cw_meets(out->froude, cw_rows_value(rows, "dissipator.froude")) &&
                      (!in->has_channel || cw_meets(in->velocity_fps, ratio * in->channel_fps));
    return calm ? CW_DISSIPATOR_NO : CW_DISSIPATOR_YES;
}

cw_apron cw_sitewater_apron(const cw_apron_input *in, const cw_rows *rows, cw_working *working)
{
    cw_apron out = {.froude = 0.0};
    size_stone(&out, in, working);
    size_apron(&out, in, rows, working);
    out.dissipator = dissipator_of(&out, in, rows, working);
    const double height_ft = in->has_normal ? (in->rise_in / CW_IN_PER_FT + in->normal_ft) / 2.0
                                            : in->rise_in / CW_IN_PER_FT;
    const double strength = cw_step_add(
        working, "F_b", "Q/(B D^1.5), range of the formula with span",
        in->flow_cfs / (in->span_in / CW_IN_PER_FT * pow(height_ft, 1.5)), CW_DIM_NONE, eqd1);
    const bool inside = cw_meets(in->rise_in, cw_rows_value(rows, "apron.rise_max")) &&
                        cw_meets(strength, cw_rows_value(rows, "apron.box_max")) &&
                        out.apron_class > 0 && out.rock_class > 0;
    out.verdict = inside ? CW_HOLDS : CW_UNDECIDED;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_apron_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_apron *)output = cw_sitewater_apron(input, &cw_data, working);
}

const cw_calc cw_calc_apron = {
    .name = "apron",
    .title = "Stone apron at the outlet",
    .group = "sitewater",
    .about = "Stone size by two formulas that differ by a factor of about two; both are shown and "
             "the larger is taken.  Made for outlets up to 60 in and calm enough flow: beyond that "
             "the range is undecided and an engineer decides.  Scour of the channel itself, a "
             "scour hole and the stability of a steep channel are not considered.",
    .source = "FHWA HEC-14 (2006), ch. 10 and app. D; FHWA HEC-23 (2009), guideline 4",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_apron_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_apron),
    .valid = valid,
    .run = run,
    .example = "flow=300cfs span=8ft rise=6ft tailwater=3ft velocity=12ft/s depth=3.1ft",
};
