/* Backfill: lifts, the difference between the sides, density tests. */
#include "closing_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char prism[] = "closed form: trench less boxes";
static const char soil[] = "definition of dry unit weight and relative compaction";
static const char range[] = "common practice: range of backfills";

#define TYPE cw_backfill_input

static const cw_field inputs[] = {
    COUNT_IN("barrels", "N", 1.0, 8.0, "1", "barrels side by side", range, TYPE, barrels),
    NUMBER_IN("outside_width", "B", CW_DIM_IN, 24.0, 840.0, NULL, "of one barrel", range, TYPE,
              width_in),
    NUMBER_IN("outside_height", "H_o", CW_DIM_IN, 24.0, 480.0, NULL, "of one barrel", range, TYPE,
              height_in),
    NUMBER_IN("gap", "g", CW_DIM_IN, 0.0, 120.0, "0 in", "clear between barrels, filled apart",
              range, TYPE, clear_gap_in),
    NUMBER_IN("work_space", "w_s", CW_DIM_FT, 1.0, 20.0, "@trench.working_space",
              "each side, at the bottom", NULL, TYPE, work_ft),
    NUMBER_IN("slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 4.0, NULL, "of the trench", range, TYPE,
              side_slope),
    NUMBER_IN("depth", "D", CW_DIM_FT, 0.5, 60.0, NULL, "filled, from the underside of the boxes",
              range, TYPE, depth_ft),
    NUMBER_IN("length", "L", CW_DIM_FT, 1.0, 20000.0, NULL, "of the run", range, TYPE, length_ft),
    NUMBER_IN("lift", "t_c", CW_DIM_IN, 1.0, 36.0, "5 in", "compacted thickness of a lift",
              "common practice: 6 in loose", TYPE, lift_in),
    NUMBER_IN("loose_ratio", NULL, CW_DIM_NONE, 1.0, 1.6, "@backfill.loose_ratio",
              "loose over compacted thickness", NULL, TYPE, loose_ratio),
    FLAG_IN("tops_on", "yes", "lids or hoods are on and sealed", "common practice", TYPE, lids_on),
    NUMBER_IN("floor", "t_f", CW_DIM_IN, 4.0, 60.0, "10 in", "thickness, read without tops",
              "common practice", TYPE, floor_in),
    NUMBER_IN("difference", NULL, CW_DIM_IN, 1.0, 120.0, "@backfill.side_difference",
              "between the sides, tops on", NULL, TYPE, difference_in),
    NUMBER_IN("difference_open", NULL, CW_DIM_IN, 1.0, 120.0, "@backfill.side_difference_open",
              "between the sides, without tops", NULL, TYPE, difference_open_in),
    NUMBER_IN("height_open", NULL, CW_DIM_FT, 0.0, 20.0, "@backfill.unlidded_height",
              "above the floor, without tops", NULL, TYPE, open_height_ft),
    OPTION_IN("left", "h_l", CW_DIM_FT, 0.0, 60.0, "height of the fill now, left", range, TYPE,
              left_ft, has_left),
    OPTION_IN("right", "h_r", CW_DIM_FT, 0.0, 60.0, "height of the fill now, right", range, TYPE,
              right_ft, has_right),
    NUMBER_IN("test_volume", NULL, CW_DIM_CY, 10.0, 10000.0, "@backfill.test_volume",
              "compacted volume for one density test", NULL, TYPE, test_cy),
    COUNT_IN("tests_least", NULL, 0.0, 20.0, "@backfill.tests_least", "in each lift of each side",
             NULL, TYPE, tests_least),
};

#define BACKFILL cw_backfill

static const cw_field outputs[] = {
    COUNT_OUT("lifts", NULL, "on each side", BACKFILL, lifts),
    OUT("loose", NULL, CW_DIM_IN, "thickness to spread", BACKFILL, loose_in),
    COUNT_OUT("lifts_apart", NULL, "difference allowed between the sides", BACKFILL, lifts_apart),
    OUT("area", "A", CW_DIM_SQFT, "of the fill", BACKFILL, area_sqft),
    OUT("volume", "V", CW_DIM_CY, "compacted", BACKFILL, volume_cy),
    OUT("loose_volume", NULL, CW_DIM_CY, "to bring, at the same ratio", BACKFILL, loose_cy),
    COUNT_OUT("tests", NULL, "of density, in all", BACKFILL, tests),
    OUT("difference_now", NULL, CW_DIM_IN, "between the sides", BACKFILL, difference_in),
    CHOICE_OUT("difference_check", cw_verdict_words, "undecided without both heights", BACKFILL,
               verdict_difference),
    OUT("height_max", NULL, CW_DIM_FT, "of the fill now, from the underside", BACKFILL,
        height_max_ft),
    CHOICE_OUT("height_check", cw_verdict_words, "of the higher side", BACKFILL, verdict_height),
};

bool cw_backfill_input_valid(const cw_backfill_input *in, cw_pos where, cw_diags *diags)
{
    if (in->has_left == in->has_right)
        return true;
    cw_diag_add(diags, where, CW_E_MISSING, "the height of one side is given; give left and right");
    return false;
}

static double fill_sqft(const cw_backfill_input *in)
{
    const double boxes =
        (in->barrels * in->width_in + (in->barrels - 1) * in->clear_gap_in) / CW_IN_PER_FT;
    const double d = in->depth_ft, bottom = boxes + 2.0 * in->work_ft;
    return bottom * d + in->side_slope * d * d - boxes * fmin(d, in->height_in / CW_IN_PER_FT);
}

static void judge_heights(BACKFILL *out, const cw_backfill_input *in, double allowed_in)
{
    out->height_max_ft =
        in->lids_on ? in->depth_ft : in->floor_in / CW_IN_PER_FT + in->open_height_ft;
    out->verdict_difference = CW_UNDECIDED;
    out->verdict_height = CW_UNDECIDED;
    if (!in->has_left || !in->has_right)
        return;
    out->difference_in = fabs(in->left_ft - in->right_ft) * CW_IN_PER_FT;
    out->verdict_difference = cw_closing_verdict(out->difference_in, allowed_in);
    out->verdict_height = cw_closing_verdict(fmax(in->left_ft, in->right_ft), out->height_max_ft);
}

cw_backfill cw_closing_backfill(const cw_backfill_input *in, cw_working *w)
{
    BACKFILL out = {.lifts = cw_count_up(in->depth_ft * CW_IN_PER_FT / in->lift_in)};
    cw_step_add(w, "n", "D / t_c, rounded up", out.lifts, CW_DIM_COUNT, "derived: counting");
    out.loose_in = cw_step_add(w, "t_l", "t_c x loose over compacted",
                               in->lift_in * in->loose_ratio, CW_DIM_IN, "definition");
    const double allowed_in = in->lids_on ? in->difference_in : in->difference_open_in;
    out.lifts_apart = (int)floor(allowed_in / in->lift_in * (1.0 + CW_RATIO_SLACK));
    out.area_sqft = cw_step_add(w, "A", "b D + z D^2 - (N B + (N - 1) g) (the lower of D and H_o)",
                                fill_sqft(in), CW_DIM_SQFT, prism);
    out.volume_cy = cw_step_add(w, "V", "A L", out.area_sqft * in->length_ft / CW_CUFT_PER_CY,
                                CW_DIM_CY, prism);
    out.loose_cy = out.volume_cy * in->loose_ratio;
    const int by_volume = cw_count_up(out.volume_cy / in->test_cy);
    const int by_lift = 2 * out.lifts * in->tests_least;
    out.tests = (int)cw_step_add(w, "tests", "the larger of V / volume of a test and 2 n least",
                                 by_volume > by_lift ? by_volume : by_lift, CW_DIM_COUNT,
                                 "common practice");
    judge_heights(&out, in, allowed_in);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_backfill_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(BACKFILL *)output = cw_closing_backfill(input, working);
}

const cw_calc cw_calc_backfill_lifts = {
    .name = "backfill-lifts",
    .title = "Backfill in lifts",
    .group = "closing",
    .about = "Lifts and volume on both sides, density tests, and whether the fill stands too high "
             "or too unequal now.  Level lifts under level ground; heavy rollers stay off the "
             "walls.  The wall of a base without its top is a cantilever: only the engineer's "
             "number allows more height.",
    .source = "closed form: trench less boxes; limits by common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_backfill_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(BACKFILL),
    .valid = valid,
    .run = run,
    .example =
        "outside_width=164in outside_height=116in slope=1:1 depth=116in length=120ft lift=6in "
        "left=4ft right=2.5ft",
};

/* ---- relative compaction ---- */

#define MOISTURE_OPTIONS(type)                                                                     \
    NUMBER_IN("moisture", "w", CW_DIM_PERCENT, 0.0, 80.0, NULL,                                    \
              "water over dry soil, in the field", range, type, moisture_percent),                 \
        NUMBER_IN("maximum", "g_m", CW_DIM_PCF, 60.0, 170.0, NULL,                                 \
                  "dry unit weight of the laboratory test; ask which test", range, type,           \
                  maximum_pcf),                                                                    \
        OPTION_IN("optimum", "w_o", CW_DIM_PERCENT, 1.0, 60.0, "moisture of that test", range,     \
                  type, optimum_percent, has_optimum),                                             \
        NUMBER_IN("needed", NULL, CW_DIM_PERCENT, 80.0, 110.0, "@backfill.compaction",             \
                  "of the maximum", NULL, type, needed_percent),                                   \
        NUMBER_IN("moisture_range", NULL, CW_DIM_PERCENT, 0.1, 10.0, "@compaction.moisture",       \
                  "from the optimum, either way", NULL, type, moisture_range_percent)

#define COMPACTION_OUT(type, part)                                                                 \
    OUT("dry", "g_d", CW_DIM_PCF, "dry unit weight in the field", type, part dry_pcf),             \
        OUT("relative", NULL, CW_DIM_PERCENT, "of the maximum", type, part relative_percent),      \
        CHOICE_OUT("check", cw_verdict_words, "of compaction", type, part verdict),                \
        OPTION_OUT("moisture_off", NULL, CW_DIM_PERCENT, "field less optimum", type,               \
                   part moisture_off_percent, part has_optimum),                                   \
        CHOICE_OUT("moisture_check", cw_verdict_words, "undecided without the optimum", type,      \
                   part verdict_moisture)

static const cw_field compaction_inputs[] = {
    NUMBER_IN("wet", "g_w", CW_DIM_PCF, 60.0, 180.0, NULL, "wet unit weight in the field", range,
              cw_compaction_input, wet_pcf),
    MOISTURE_OPTIONS(cw_compaction_input),
};

static const cw_field compaction_outputs[] = {
    COMPACTION_OUT(cw_compaction, ),
};

cw_compaction cw_closing_compaction(const cw_compaction_input *in, cw_working *w)
{
    cw_compaction out = {.has_optimum = in->has_optimum, .verdict_moisture = CW_UNDECIDED};
    out.dry_pcf =
        cw_step_add(w, "g_d", "g_w / (1 + w)",
                    in->wet_pcf / (1.0 + in->moisture_percent / CW_PERCENT), CW_DIM_PCF, soil);
    out.relative_percent = cw_step_add(
        w, "RC", "g_d / g_m", out.dry_pcf / in->maximum_pcf * CW_PERCENT, CW_DIM_PERCENT, soil);
    out.verdict = cw_closing_verdict(in->needed_percent, out.relative_percent);
    if (in->has_optimum) {
        out.moisture_off_percent = in->moisture_percent - in->optimum_percent;
        out.verdict_moisture =
            cw_closing_verdict(fabs(out.moisture_off_percent), in->moisture_range_percent);
    }
    return out;
}

static void run_compaction(const void *input, void *output, cw_working *working)
{
    *(cw_compaction *)output = cw_closing_compaction(input, working);
}

static const char proctor[] =
    "Standard (ASTM D698) and modified (ASTM D1557) tests give different maxima: name the one that "
    "the contract names, since 95 percent of one is not 95 percent of the other.";

const cw_calc cw_calc_relative_compaction = {
    .name = "relative-compaction",
    .title = "Relative compaction",
    .group = "closing",
    .about = proctor,
    .source = "definition of dry unit weight and relative compaction",
    .inputs = compaction_inputs,
    .input_count = COUNT(compaction_inputs),
    .input_size = sizeof(cw_compaction_input),
    .outputs = compaction_outputs,
    .output_count = COUNT(compaction_outputs),
    .output_size = sizeof(cw_compaction),
    .run = run_compaction,
    .example = "wet=124.6pcf moisture=11.8% maximum=116pcf",
};

/* ---- sand cone ---- */

#undef TYPE
#define TYPE cw_sand_cone_input

static const cw_field sand_inputs[] = {
    NUMBER_IN("sand_before", "W_1", CW_DIM_LB, 1.0, 200.0, NULL, "jar with sand before", range,
              TYPE, sand_before_lb),
    NUMBER_IN("sand_after", "W_2", CW_DIM_LB, 0.0, 200.0, NULL, "jar with sand after", range, TYPE,
              sand_after_lb),
    NUMBER_IN("cone", "W_c", CW_DIM_LB, 0.1, 50.0, NULL, "sand that fills cone and plate", range,
              TYPE, cone_lb),
    NUMBER_IN("sand_weight", "g_s", CW_DIM_PCF, 60.0, 120.0, NULL, "unit weight of the sand", range,
              TYPE, sand_pcf),
    NUMBER_IN("soil", "W_w", CW_DIM_LB, 0.5, 200.0, NULL, "wet soil from the hole", range, TYPE,
              soil_lb),
    MOISTURE_OPTIONS(TYPE),
};

static const cw_field sand_outputs[] = {
    OUT("hole", "V", CW_DIM_NONE, "volume of the hole, ft3", cw_sand_cone, hole_cuft),
    OUT("wet", "g_w", CW_DIM_PCF, "wet unit weight", cw_sand_cone, wet_pcf),
    COMPACTION_OUT(cw_sand_cone, compaction.),
};

bool cw_sand_cone_input_valid(const cw_sand_cone_input *in, cw_pos where, cw_diags *diags)
{
    const double used = in->sand_before_lb - in->sand_after_lb;
    if (used > in->cone_lb)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "sand used, %.6g lb, is no more than the cone holds, %.6g lb: there is no hole; "
                "check sand_before, sand_after and cone",
                used, in->cone_lb);
    return false;
}

cw_sand_cone cw_closing_sand_cone(const cw_sand_cone_input *in, cw_working *w)
{
    static const char test[] = "sand-cone test: sand in the hole over its unit weight";
    cw_sand_cone out = {.hole_cuft = 0.0};
    out.hole_cuft = cw_step_add(
        w, "V", "(W_1 - W_2 - W_c) / g_s",
        (in->sand_before_lb - in->sand_after_lb - in->cone_lb) / in->sand_pcf, CW_DIM_NONE, test);
    out.wet_pcf = cw_step_add(w, "g_w", "W_w / V", in->soil_lb / out.hole_cuft, CW_DIM_PCF, test);
    const cw_compaction_input field = {.wet_pcf = out.wet_pcf,
                                       .moisture_percent = in->moisture_percent,
                                       .has_optimum = in->has_optimum,
                                       .maximum_pcf = in->maximum_pcf,
                                       .optimum_percent = in->optimum_percent,
                                       .needed_percent = in->needed_percent,
                                       .moisture_range_percent = in->moisture_range_percent};
    out.compaction = cw_closing_compaction(&field, w);
    return out;
}

static bool sand_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_sand_cone_input_valid(input, where, diags);
}

static void run_sand(const void *input, void *output, cw_working *working)
{
    *(cw_sand_cone *)output = cw_closing_sand_cone(input, working);
}

const cw_calc cw_calc_sand_cone = {
    .name = "sand-cone",
    .title = "Density by the sand cone",
    .group = "closing",
    .about = proctor,
    .source =
        "sand-cone test (ASTM D1556, from memory, not verified); definition of dry unit weight",
    .inputs = sand_inputs,
    .input_count = COUNT(sand_inputs),
    .input_size = sizeof(cw_sand_cone_input),
    .outputs = sand_outputs,
    .output_count = COUNT(sand_outputs),
    .output_size = sizeof(cw_sand_cone),
    .valid = sand_valid,
    .run = run_sand,
    .example = "sand_before=14.72lb sand_after=5.96lb cone=3.44lb sand_weight=88pcf soil=7.31lb "
               "moisture=12.4% maximum=112.5pcf",
};
