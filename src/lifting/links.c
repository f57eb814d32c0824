/* Taking up chain links so that a piece hangs level. */
#include "lifting_internal.h"

static const char statics[] = "derived: statics of a rigid piece on one hook";
static const char range[] = "common practice: range of cast boxes and chains";

static const char *const states[] = {"hangs", "legs-too-short", "outside-the-picks", "hook-too-low",
                                     NULL};

#define TYPE cw_links_input

static const cw_field inputs[] = {
    NUMBER_IN("across", "a", CW_DIM_FT, 0.5, 60.0, NULL, "between picks across the barrel", range,
              TYPE, across_ft),
    NUMBER_IN("along", "b", CW_DIM_FT, 0.5, 60.0, NULL, "between picks along the run", range, TYPE,
              along_ft),
    NUMBER_IN("cg_x", "x", CW_DIM_FT, -30.0, 30.0, "0 ft",
              "centre of gravity right of the centre of the picks", range, TYPE, cg_x_ft),
    NUMBER_IN("cg_y", "y", CW_DIM_FT, -30.0, 30.0, "0 ft", "the same, upstream", range, TYPE,
              cg_y_ft),
    NUMBER_IN("pick_above_cg", "d", CW_DIM_FT, -20.0, 40.0, "0 ft",
              "picks above the centre of gravity; negative: below", range, TYPE, pick_above_cg_ft),
    NUMBER_IN("leg_length", "l", CW_DIM_FT, 1.0, 100.0, NULL,
              "of each leg before any link is taken up", range, TYPE, leg_ft),
    NUMBER_IN("link", "p", CW_DIM_IN, 0.25, 12.0, NULL, "one link more shortens a leg by this",
              range, TYPE, link_in),
    NUMBER_IN("width", "B", CW_DIM_FT, 0.0, 80.0, "0 ft", "outside width; 0: between the picks",
              range, TYPE, width_ft),
    NUMBER_IN("length", "L", CW_DIM_FT, 0.0, 80.0, "0 ft", "along the run; 0: between the picks",
              range, TYPE, length_ft),
    OPTION_IN("gap", NULL, CW_DIM_IN, 0.0, 6.0, "of the joint that the piece enters", range, TYPE,
              gap_in, has_gap),
};

static const cw_field outputs[] = {
    CHOICE_OUT("result", states, "with the links taken up", cw_links, state),
    LIST_OUT("links", NULL, CW_DIM_COUNT,
             "to take up: left downstream, right downstream, left upstream, right upstream",
             cw_links, links),
    OUT("hook_height", "H", CW_DIM_FT, "above the picks", cw_links, height_ft),
    OUT("plain_rise_across", NULL, CW_DIM_IN,
        "right over left with equal legs; 0 when they do not carry it", cw_links, plain_across_in),
    OUT("plain_rise_along", NULL, CW_DIM_IN, "upstream over downstream with equal legs", cw_links,
        plain_along_in),
    OUT("rise_across", NULL, CW_DIM_IN, "left over", cw_links, rise_across_in),
    OUT("rise_along", NULL, CW_DIM_IN, "left over", cw_links, rise_along_in),
    OUT("slack", NULL, CW_DIM_IN, "in the leg that hangs loose", cw_links, slack_in),
    CHOICE_OUT("entry_check", cw_verdict_words, "rise left over within half the joint gap",
               cw_links, verdict),
};

bool cw_links_input_valid(const cw_links_input *in, cw_pos where, cw_diags *diags)
{
    if (in->link_in / CW_IN_PER_FT < in->leg_ft / 2.0)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "link %.6g in is not under half the leg length %.6g ft; give the pitch of one link",
                in->link_in, in->leg_ft);
    return false;
}

static cw_hang_input picks_of(const cw_links_input *in)
{
    cw_hang_input hang = {.legs = CW_SLING_LEGS_MAX, .has_lengths = true, .load_lb = CW_LB_PER_KIP};
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++) {
        hang.pick_ft[i][0] = (i % 2 ? 0.5 : -0.5) * in->across_ft - in->cg_x_ft;
        hang.pick_ft[i][1] = (i / 2 ? 0.5 : -0.5) * in->along_ft - in->cg_y_ft;
        hang.pick_ft[i][2] = in->pick_above_cg_ft;
        hang.length_ft[i] = in->leg_ft;
    }
    return hang;
}

static double plan_distance(const cw_hang_input *hang, int leg)
{
    return hypot(hang->pick_ft[leg][0], hang->pick_ft[leg][1]);
}

/* Whole links next to the exact shortening of each leg, the farthest leg left as it is: all sixteen
 * roundings are hung and the most level is kept, the first of equals. */
static cw_hang best_links(const cw_links_input *in, cw_hang_input *hang,
                          int links[CW_SLING_LEGS_MAX])
{
    double farthest_ft = 0.0;
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
        farthest_ft = fmax(farthest_ft, plan_distance(hang, i));
    const double rise_ft = sqrt(fmax(0.0, in->leg_ft * in->leg_ft - farthest_ft * farthest_ft));
    cw_hang best = cw_lifting_hang(hang);
    double least_deg = best.state == CW_HANG_OK ? best.tilt_deg : HUGE_VAL;
    for (unsigned up = 0; up < 1u << CW_SLING_LEGS_MAX; up++) {
        int take[CW_SLING_LEGS_MAX];
        cw_hang_input tried = *hang;
        for (int i = 0; i < CW_SLING_LEGS_MAX; i++) {
            const double exact =
                (in->leg_ft - hypot(plan_distance(hang, i), rise_ft)) * CW_IN_PER_FT / in->link_in;
            take[i] = (int)floor(exact + CW_RATIO_SLACK) + (int)(up >> i & 1u);
            tried.length_ft[i] = in->leg_ft - take[i] * in->link_in / CW_IN_PER_FT;
        }
        const cw_hang hung = cw_lifting_hang(&tried);
        if (hung.state != CW_HANG_OK || hung.tilt_deg >= least_deg - CW_SAME_DIRECTION_DEG)
            continue;
        least_deg = hung.tilt_deg;
        best = hung;
        for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
            links[i] = take[i];
    }
    return best;
}

cw_links cw_lifting_links(const cw_links_input *in, cw_working *w)
{
    cw_hang_input hang = picks_of(in);
    const double width_in = CW_IN_PER_FT * (in->width_ft > 0.0 ? in->width_ft : in->across_ft);
    const double length_in = CW_IN_PER_FT * (in->length_ft > 0.0 ? in->length_ft : in->along_ft);
    int links[CW_SLING_LEGS_MAX] = {0};
    const cw_hang plain = cw_lifting_hang(&hang);
    const cw_hang hung = best_links(in, &hang, links);
    cw_links out = {.state = hung.state, .verdict = in->has_gap ? CW_FAILS : CW_UNDECIDED};
    out.links.count = CW_SLING_LEGS_MAX;
    for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
        out.links.items[i] = links[i];
    if (plain.state == CW_HANG_OK) {
        out.plain_across_in = width_in * sin(plain.across_deg * CW_RAD_PER_DEG);
        out.plain_along_in = length_in * sin(plain.along_deg * CW_RAD_PER_DEG);
    }
    cw_step_add(w, "rise, equal legs", "B sin(tilt across)", out.plain_across_in, CW_DIM_IN,
                statics);
    if (hung.state != CW_HANG_OK)
        return out;
    out.height_ft = cw_step_add(w, "H", "hook above the picks",
                                hung.hook_ft[2] - in->pick_above_cg_ft, CW_DIM_FT, statics);
    out.rise_across_in =
        cw_step_add(w, "rise across", "most level of all roundings to whole links",
                    width_in * sin(hung.across_deg * CW_RAD_PER_DEG), CW_DIM_IN, statics);
    out.rise_along_in =
        cw_step_add(w, "rise along", "the same hang",
                    length_in * sin(hung.along_deg * CW_RAD_PER_DEG), CW_DIM_IN, statics);
    out.slack_in = hung.slack_ft * CW_IN_PER_FT;
    if (in->has_gap)
        out.verdict = cw_lifting_verdict(fmax(fabs(out.rise_across_in), fabs(out.rise_along_in)),
                                         in->gap_in / 2.0);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_links_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_links *)output = cw_lifting_links(input, working);
}

const cw_calc cw_calc_chain_links = {
    .name = "chain-links",
    .title = "Chain links to take up so that a piece hangs level",
    .group = "lifting",
    .about =
        "Four equal chain legs with shorteners.  The leg to the pick farthest from the centre of "
        "gravity stays as it is; the others take up the whole number of links that leaves the "
        "least tilt.  A piece enters its groove when the rise left over is within half the gap.  "
        "Lift it six inches and look with a level: the centre of gravity is never quite where it "
        "was calculated.",
    .source = "derived: statics of a rigid piece on one hook; half the gap by common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_links_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_links),
    .valid = valid,
    .run = run,
    .example = "across=12.833ft along=3.6ft cg_x=0.3596ft pick_above_cg=3.616ft leg_length=13.73ft "
               "link=1.5in width=13.667ft length=6ft gap=0.75in",
};
