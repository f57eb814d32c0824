#include "trench_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char appendix_a[] = "29 CFR 1926 Subpart P App. A";
static const char appendix_b[] = "29 CFR 1926 Subpart P App. B, table B-1";
static const char range[] = "common practice: range of culvert trenches";

static const char *const materials[] = {"rock",     "cohesive", "cemented", "angular",
                                        "granular", "unknown",  NULL};
static const char *const dips[] = {"none", "flat", "steep", NULL};
static const char *const reasons[] = {"material",  "strength",  "not-tested",
                                      "disturbed", "vibration", "fissured",
                                      "water",     "dip",       NULL};
const char *const cw_trench_classes[] = {"rock", "A", "B", "C", NULL};
const char *const cw_trench_protections[] = {"none", "watch", "needed", NULL};

#define TYPE cw_soil_input

static const cw_field inputs[] = {
    FLAG_IN("disturbed", NULL,
            "existing road embankment, old culvert trench or other ground that was dug or placed "
            "before",
            NULL, TYPE, disturbed),
    FLAG_IN("submerged", NULL, "below water, or water seeps freely from the face", NULL, TYPE,
            submerged),
    CHOICE_IN("material", materials, NULL,
              "rock; cohesive: clays; cemented: caliche, hardpan; angular: angular gravel, silt, "
              "silt loam; granular: sand, gravel",
              NULL, TYPE, material),
    OPTION_IN("strength", "q_u", CW_DIM_PSF, 0.0, 20000.0,
              "unconfined compressive strength of cohesive soil: the reading of a pocket "
              "penetrometer, or twice that of a shear vane",
              "common practice: range of pocket instruments", TYPE, strength_psf, has_strength),
    FLAG_IN("vibration", "no", "traffic, piling or heavy plant near the cut", appendix_a, TYPE,
            vibration),
    FLAG_IN("fissured", "no", "cracks in the face", appendix_a, TYPE, fissured),
    CHOICE_IN("dip", dips, "none",
              "layers that dip into the cut: flat below 4H:1V, steep from 4H:1V on", appendix_a,
              TYPE, dip),
    NUMBER_IN("depth", "D", CW_DIM_FT, 0.5, 60.0, NULL, "of the cut at its deepest edge", range,
              TYPE, depth_ft),
    NUMBER_IN("open_time", "t", CW_DIM_HOUR, 0.5, 8760.0, "720 h", "how long the cut stays open",
              range, TYPE, open_h),
    FLAG_IN("distress", "no", "cracks, bulges or sloughing are seen", appendix_b, TYPE, distress),
    FLAG_IN("surcharge", "no", "loads near the edge beyond spoil at its setback", appendix_b, TYPE,
            surcharge),
};

static const cw_field outputs[] = {
    CHOICE_OUT("class", cw_trench_classes, "class of soil", cw_soil, soil),
    CHOICE_OUT("because", reasons, "what set the class", cw_soil, reason),
    OUT("slope", "z", CW_DIM_SIDE_SLOPE, "steepest slope of the face", cw_soil, side_slope),
    OUT("slope_angle", NULL, CW_DIM_DEG, "the same from the horizontal", cw_soil, slope_deg),
    CHOICE_OUT("protection", cw_trench_protections,
               "against cave-in: none in stable rock; watch: none if the competent person sees no "
               "sign of a cave-in",
               cw_soil, protection),
    CHOICE_OUT("check", cw_verdict_words,
               "undecided: an engineer or the competent person sets the slope", cw_soil, verdict),
};

double cw_trench_class_slope(const cw_rows *rows, int soil, double depth_ft, bool brief)
{
    static const char *const ids[] = {"trench.slope.rock", "trench.slope.a", "trench.slope.b",
                                      "trench.slope.c"};
    if (soil == CW_SOIL_A && brief && cw_meets(depth_ft, cw_rows_value(rows, "trench.brief_depth")))
        return cw_rows_value(rows, "trench.slope.a_brief");
    return cw_rows_value(rows, ids[soil]);
}

int cw_trench_protection(const cw_rows *rows, double depth_ft, bool all_rock)
{
    if (all_rock)
        return CW_PROTECTION_NONE;
    return depth_ft < cw_rows_value(rows, "trench.protection_depth") ? CW_PROTECTION_WATCH
                                                                     : CW_PROTECTION_NEEDED;
}

/* The class is no stronger than @p least. */
static void cap(cw_soil *out, int least, int reason)
{
    if (out->soil >= least)
        return;
    out->soil = least;
    out->reason = reason;
}

static void class_by_strength(cw_soil *out, const cw_soil_input *in, const cw_rows *rows)
{
    out->soil = CW_SOIL_C;
    out->reason = in->has_strength ? CW_REASON_STRENGTH : CW_REASON_NOT_TESTED;
    if (!in->has_strength)
        return;
    if (in->strength_psf >= cw_rows_value(rows, "trench.strength_a"))
        out->soil = CW_SOIL_A;
    else if (in->strength_psf > cw_rows_value(rows, "trench.strength_c"))
        out->soil = CW_SOIL_B;
}

/* 29 CFR 1926 Subpart P App. A, (b) definitions of the classes */
static void classify(cw_soil *out, const cw_soil_input *in, const cw_rows *rows)
{
    static const int by_material[] = {
        [CW_MATERIAL_ROCK] = CW_SOIL_ROCK,  [CW_MATERIAL_COHESIVE] = CW_SOIL_C,
        [CW_MATERIAL_CEMENTED] = CW_SOIL_A, [CW_MATERIAL_ANGULAR] = CW_SOIL_B,
        [CW_MATERIAL_GRANULAR] = CW_SOIL_C, [CW_MATERIAL_UNKNOWN] = CW_SOIL_C};
    out->soil = by_material[in->material];
    out->reason = CW_REASON_MATERIAL;
    if (in->material == CW_MATERIAL_COHESIVE)
        class_by_strength(out, in, rows);
    if (in->disturbed)
        cap(out, CW_SOIL_B, CW_REASON_DISTURBED);
    if (in->vibration && out->soil == CW_SOIL_A)
        cap(out, CW_SOIL_B, CW_REASON_VIBRATION);
    if (in->fissured)
        cap(out, CW_SOIL_B, CW_REASON_FISSURED);
    if (in->dip == CW_DIP_FLAT && out->soil == CW_SOIL_ROCK)
        cap(out, CW_SOIL_B, CW_REASON_DIP);
    if (in->dip == CW_DIP_STEEP)
        cap(out, CW_SOIL_C, CW_REASON_DIP);
    // Stable rock stays stable under water; anything else does not.
    if (in->submerged && out->soil != CW_SOIL_ROCK)
        cap(out, CW_SOIL_C, CW_REASON_WATER);
}

bool cw_soil_input_valid(const cw_soil_input *in, cw_pos where, cw_diags *diags)
{
    if (!in->has_strength || in->material == CW_MATERIAL_COHESIVE)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "strength %.6g psf says nothing about %s ground; leave it out, or write "
                "material=cohesive",
                in->strength_psf, materials[in->material]);
    return false;
}

cw_soil cw_trench_soil(const cw_soil_input *in, const cw_rows *rows, cw_working *working)
{
    cw_soil out = {.verdict = CW_HOLDS};
    classify(&out, in, rows);
    cw_step_add(working, "class", "0 rock, 1 A, 2 B, 3 C: the weakest of material and caps",
                out.soil, CW_DIM_COUNT, appendix_a);
    const bool brief = cw_meets(in->open_h, cw_rows_value(rows, "trench.brief_time"));
    const double own = cw_step_add(working, "z_0", "slope of the class",
                                   cw_trench_class_slope(rows, out.soil, in->depth_ft, brief),
                                   CW_DIM_SIDE_SLOPE, appendix_b);
    const double flatter = in->distress ? cw_rows_value(rows, "trench.distress") : 0.0;
    out.side_slope = cw_step_add(working, "z", "z_0, flatter where distress is seen", own + flatter,
                                 CW_DIM_SIDE_SLOPE, appendix_b);
    out.slope_deg =
        cw_step_add(working, "angle", "atan(1/z)", atan2(1.0, out.side_slope) * CW_DEG_PER_RAD,
                    CW_DIM_DEG, "trigonometry");
    out.protection = cw_trench_protection(rows, in->depth_ft, out.soil == CW_SOIL_ROCK);
    if (!cw_meets(in->depth_ft, cw_rows_value(rows, "trench.depth_max")) || in->surcharge)
        out.verdict = CW_UNDECIDED;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_soil_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_soil *)output = cw_trench_soil(input, &cw_data, working);
}

const cw_calc cw_calc_soil_class = {
    .name = "soil-class",
    .title = "Class of soil and its slope",
    .group = "trench",
    .about = "Class of ground for a cut and the steepest slope that the class allows up to 20 ft.  "
             "An existing embankment is never class A and ground under water is class C unless it "
             "is stable rock.  " CAUTION,
    .source = "29 CFR 1926 Subpart P App. A and B",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_soil_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_soil),
    .valid = valid,
    .run = run,
    .example = "disturbed=yes submerged=no material=cohesive strength=1.75tsf depth=14ft",
};
