/* A spreader bar: two legs from its ends to the hook, plumb slings below. */
#include "lifting_internal.h"

static const char statics[] = "closed form: statics";
static const char range[] = "common practice: range of cast boxes and spreaders";

#define TYPE cw_spreader_input

static const cw_field inputs[] = {
    NUMBER_IN("weight", "W", CW_DIM_LB, 1.0, 500000.0, NULL, "of the piece for the pick", range,
              TYPE, weight_lb),
    NUMBER_IN("dynamic", "f", CW_DIM_NONE, 1.0, 4.0, "1", "multiplies the weight in the gear",
              "common practice", TYPE, dynamic),
    NUMBER_IN("bar", "b", CW_DIM_FT, 1.0, 60.0, NULL, "between the ends, slings plumb below them",
              range, TYPE, bar_ft),
    NUMBER_IN("bar_weight", NULL, CW_DIM_LB, 0.0, 50000.0, "0 lb", "of the bar", range, TYPE,
              bar_lb),
    NUMBER_IN("leg_length", "l", CW_DIM_FT, 0.6, 100.0, NULL, "bar end to hook", range, TYPE,
              leg_ft),
    NUMBER_IN("drop", NULL, CW_DIM_FT, 0.0, 60.0, "0 ft", "bar to picks", range, TYPE, drop_ft),
    NUMBER_IN("cg", "x", CW_DIM_FT, -30.0, 30.0, "0 ft",
              "centre of gravity from the middle of the bar", range, TYPE, cg_ft),
    NUMBER_IN("pick_above_cg", "d", CW_DIM_FT, -20.0, 40.0, "0 ft", "negative: below", range, TYPE,
              pick_above_cg_ft),
    COUNT_IN("drops", NULL, 1, 2, "2", "slings at each end of the bar", range, TYPE, drops),
    NUMBER_IN("tackle", NULL, CW_DIM_LB, 0.0, 100000.0, "0 lb", "slings and shackles", range, TYPE,
              tackle_lb),
};

static const cw_field outputs[] = {
    OUT("hook_load", NULL, CW_DIM_LB, "piece, bar and tackle, without the dynamic factor",
        cw_spreader, hook_lb),
    OUT("top_leg", NULL, CW_DIM_LB, "tension of the worse leg above the bar", cw_spreader,
        top_leg_lb),
    OUT("compression", "C", CW_DIM_LB, "in the bar", cw_spreader, compression_lb),
    OUT("near_end", NULL, CW_DIM_LB, "hangs from the end nearer to the centre of gravity",
        cw_spreader, near_lb),
    OUT("far_end", NULL, CW_DIM_LB, "hangs from the other end", cw_spreader, far_lb),
    OUT("drop_tension", NULL, CW_DIM_LB, "one sling of the near end", cw_spreader, drop_lb),
    OUT("leg_angle", "t", CW_DIM_DEG, "of the top legs before it tilts", cw_spreader, angle_deg),
    OUT("height", NULL, CW_DIM_FT, "hook above the picks", cw_spreader, height_ft),
    OUT("tilt", NULL, CW_DIM_DEG, "piece and bar, with equal legs", cw_spreader, tilt_deg),
    CHOICE_OUT("angle_check", cw_verdict_words, "of the top legs", cw_spreader, verdict_angle),
};

bool cw_spreader_input_valid(const cw_spreader_input *in, cw_pos where, cw_diags *diags)
{
    const int before = diags->count;
    if (!(2.0 * in->leg_ft > in->bar_ft * (1.0 + CW_RATIO_SLACK)))
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "leg_length %.6g ft is not more than half of the bar %.6g ft; the legs do not "
                    "meet: use longer ones",
                    in->leg_ft, in->bar_ft);
    if (!(fabs(in->cg_ft) < in->bar_ft / 2.0))
        cw_diag_add(
            diags, where, CW_E_GEOMETRY,
            "cg %.6g ft is not within half of the bar %.6g ft; the far slings would have to "
            "push: shift the bar",
            in->cg_ft, in->bar_ft);
    const double rise_ft = sqrt(fmax(0.0, in->leg_ft * in->leg_ft - in->bar_ft * in->bar_ft / 4.0));
    if (!(rise_ft + in->drop_ft + in->pick_above_cg_ft > SAME_FT))
        cw_diag_add(
            diags, where, CW_E_GEOMETRY,
            "the hook is not above the centre of gravity (pick_above_cg %.6g ft); use longer "
            "legs or drops",
            in->pick_above_cg_ft);
    return diags->count == before;
}

cw_spreader cw_lifting_spreader(const cw_spreader_input *in, const cw_rows *rows, cw_working *w)
{
    cw_spreader out = {0};
    const double half_ft = in->bar_ft / 2.0, load_lb = in->weight_lb * in->dynamic;
    const double rise_ft = sqrt(in->leg_ft * in->leg_ft - half_ft * half_ft);
    out.hook_lb = cw_step_add(w, "P", "W + bar + tackle",
                              in->weight_lb + in->bar_lb + in->tackle_lb, CW_DIM_LB, "definition");
    out.angle_deg = cw_step_add(w, "t", "atan(rise of the legs / (b/2))",
                                atan2(rise_ft, half_ft) * CW_DEG_PER_RAD, CW_DIM_DEG, statics);
    out.near_lb = cw_step_add(w, "R_1", "f W (1/2 + x/b)",
                              load_lb * (0.5 + fabs(in->cg_ft) / in->bar_ft), CW_DIM_LB, statics);
    out.far_lb = cw_step_add(w, "R_2", "f W - R_1", load_lb - out.near_lb, CW_DIM_LB, statics);
    out.drop_lb = out.near_lb / in->drops;
    // The bar's own weight rides half on each leg.
    const double end_lb = out.near_lb + in->bar_lb * in->dynamic / 2.0;
    out.top_leg_lb = cw_step_add(w, "T", "(R_1 + f bar/2)/sin t", end_lb * in->leg_ft / rise_ft,
                                 CW_DIM_LB, statics);
    out.compression_lb = cw_step_add(w, "C", "(R_1 + f bar/2)/tan t", end_lb * half_ft / rise_ft,
                                     CW_DIM_LB, statics);
    out.height_ft = rise_ft + in->drop_ft;
    out.tilt_deg =
        cw_step_add(w, "tilt", "atan(x / (height + d))",
                    atan2(fabs(in->cg_ft), out.height_ft + in->pick_above_cg_ft) * CW_DEG_PER_RAD,
                    CW_DIM_DEG, "derived: the hook is plumb over the centre of gravity");
    out.verdict_angle = cw_lifting_angle_verdict(out.angle_deg, rows);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_spreader_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_spreader *)output = cw_lifting_spreader(input, &cw_data, working);
}

const cw_calc cw_calc_spreader = {
    .name = "spreader",
    .title = "Spreader bar: legs, compression, drops",
    .group = "lifting",
    .about =
        "With plumb slings nothing pulls the walls of a base inward.  The near end carries more "
        "than half when the centre of gravity is off the middle of the bar.  The piece then tilts: "
        "shift the bar or take up links.  The bar must be rated for the compression with its "
        "length, and proof-tested (29 CFR 1926.251(a)(4): custom gear, 125 percent).",
    .source = "closed form: statics",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_spreader_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_spreader),
    .valid = valid,
    .run = run,
    .example = "weight=16650lb bar=12ft leg_length=10ft drop=6ft",
};
