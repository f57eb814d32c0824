/* What one lifting insert is asked and what it may carry. */
#include "lifting_internal.h"

static const char osha[] = "29 CFR 1926.704(c)";
static const char range[] = "common practice: range of inserts";

#define TYPE cw_insert_input

static const cw_field inputs[] = {
    NUMBER_IN("tension", "T", CW_DIM_LB, 1.0, 500000.0, NULL, "of the leg; see bridle", range, TYPE,
              tension_lb),
    NUMBER_IN("angle", "t", CW_DIM_DEG, 15.0, 90.0, "90 deg", "of the leg from the face", range,
              TYPE, angle_deg),
    NUMBER_IN("dynamic", "f", CW_DIM_NONE, 1.0, 5.0, "1", "where it is not in the tension yet",
              "common practice", TYPE, dynamic),
    NUMBER_IN("ultimate", "N_n", CW_DIM_LB, 1.0, 2000000.0, NULL,
              "strength of the insert in pull, tested or concrete-breakout, not a safe load", range,
              TYPE, ultimate_lb),
    OPTION_IN("shear_ultimate", "V_n", CW_DIM_LB, 1.0, 2000000.0,
              "strength along the face; without it the whole tension is held against the pull",
              range, TYPE, shear_ultimate_lb, has_shear),
    NUMBER_IN("factor", NULL, CW_DIM_NONE, 1.0, 10.0, "@lift.insert_factor", "strength over load",
              NULL, TYPE, factor),
    NUMBER_IN("rated_at", NULL, CW_DIM_PSI, 500.0, 15000.0, "3500 psi",
              "concrete for which the strength holds", "common practice", TYPE, rated_psi),
    NUMBER_IN("at_lift", NULL, CW_DIM_PSI, 200.0, 15000.0, NULL,
              "concrete on the day of the lift, by cylinders", range, TYPE, lift_psi),
};

static const cw_field outputs[] = {
    OUT("pull", "N", CW_DIM_LB, "square to the face", cw_insert, pull_lb),
    OUT("shear", "V", CW_DIM_LB, "along the face", cw_insert, shear_lb),
    OUT("strength", NULL, CW_DIM_LB, "in pull, at lift", cw_insert, strength_lb),
    OUT("safe_load", NULL, CW_DIM_LB, "strength over the factor", cw_insert, safe_lb),
    OUT("ratio", NULL, CW_DIM_NONE, "load times factor over strength", cw_insert, ratio),
    OUT("strength_needed", NULL, CW_DIM_PSI,
        "concrete at which it would just do; 0: not even at its rated strength", cw_insert,
        needed_psi),
    CHOICE_OUT("check", cw_verdict_words, "the factor is kept", cw_insert, verdict),
};

cw_insert cw_lifting_insert(const cw_insert_input *in, cw_working *w)
{
    cw_insert out = {0};
    const double leg_lb = in->tension_lb * in->dynamic, t = in->angle_deg * CW_RAD_PER_DEG;
    out.pull_lb =
        cw_step_add(w, "N", "f T sin t", leg_lb * sin(t), CW_DIM_LB, "closed form: statics");
    out.shear_lb = cw_step_add(w, "V", "f T cos t", fmax(0.0, leg_lb * cos(t)), CW_DIM_LB,
                               "closed form: statics");
    const double counted_psi = fmin(in->lift_psi, in->rated_psi);
    const double share = cw_step_add(w, "r", "sqrt(strength at lift / rated), 1 at most",
                                     sqrt(counted_psi / in->rated_psi), CW_DIM_NONE,
                                     "derived: breakout grows with the root of the strength");
    out.strength_lb =
        cw_step_add(w, "N_n", "r N_n", in->ultimate_lb * share, CW_DIM_LB, "definition");
    out.safe_lb =
        cw_step_add(w, "N_s", "N_n / factor", out.strength_lb / in->factor, CW_DIM_LB, osha);
    if (in->has_shear) {
        const double n = out.pull_lb / out.safe_lb;
        const double v = out.shear_lb * in->factor / (in->shear_ultimate_lb * share);
        out.ratio = cw_step_add(w, "ratio", "[(N/N_s)^(5/3) + (V/V_s)^(5/3)]^(3/5)",
                                pow(pow(n, 5.0 / 3.0) + pow(v, 5.0 / 3.0), 0.6), CW_DIM_NONE,
                                "ACI 318-19, R17.8 (from memory, not verified)");
    } else {
        out.ratio = cw_step_add(w, "ratio", "f T / N_s", leg_lb / out.safe_lb, CW_DIM_NONE,
                                "common practice: the whole leg against the pull");
    }
    out.verdict = cw_lifting_verdict(out.ratio, 1.0);
    const double needed_psi = counted_psi * out.ratio * out.ratio;
    out.needed_psi = cw_meets(needed_psi, in->rated_psi) ? needed_psi : 0.0;
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_insert *)output = cw_lifting_insert(input, working);
}

const cw_calc cw_calc_lift_insert = {
    .name = "lift-insert",
    .title = "Lifting insert: load against strength at lift",
    .group = "lifting",
    .about =
        "An insert of precast concrete other than tilt-up holds four times the greatest intended "
        "load (29 CFR 1926.704(c)), the lifting hardware five times ((d)).  The intended load is "
        "the tension of the leg, not its vertical share.  Concrete younger than the rating counts "
        "by the root of its strength; more strength than rated is not counted.  No one stands "
        "under the piece but the crew that sets it ((e)).",
    .source = "29 CFR 1926.704",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_insert_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_insert),
    .run = run,
    .example = "tension=4761lb angle=60.95deg ultimate=20868lb at_lift=3000psi",
};
