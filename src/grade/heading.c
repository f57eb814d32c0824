#include "grade_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char turning[] = "derived: small turns added joint by joint";
static const char range[] = "common practice: range of culvert runs";

#define TYPE cw_heading_input

static const cw_field inputs[] = {
    NUMBER_IN("width", "B", CW_DIM_IN, 24.0, 840.0, NULL, "between the two measured sides", range,
              TYPE, width_in),
    NUMBER_IN("advance", "a", CW_DIM_FT, 1.0, 41.0, NULL, "one piece and its gap", range, TYPE,
              advance_ft),
    LIST_IN("left", "g_L", CW_DIM_IN, 0.0, 6.0, NULL,
            "gaps measured at the left wall, from the "
            "outlet",
            range, TYPE, left_in),
    LIST_IN("right", "g_R", CW_DIM_IN, 0.0, 6.0, NULL, "the same at the right wall", range, TYPE,
            right_in),
    COUNT_IN("pieces", "n", 1.0, 1000.0, NULL, "in the whole run", range, TYPE, pieces),
    NUMBER_IN("difference", "d", CW_DIM_IN, -3.0, 3.0, "0 in",
              "left less right of every joint still to make", range, TYPE, difference_in),
    NUMBER_IN("sd", "s_d", CW_DIM_IN, 0.0, 3.0, "0 in", "random part of one such difference", range,
              TYPE, sd_in),
    FLAG_IN("first_true", "yes",
            "the first piece is square to the line, else it is off by the difference",
            "common practice", TYPE, first_true),
    NUMBER_IN("line", NULL, CW_DIM_IN, 0.0, 24.0, "@joint.line_tolerance", "offset that is allowed",
              NULL, TYPE, line_in),
};

static const cw_field outputs[] = {
    COUNT_OUT("joints", NULL, "measured", cw_heading, joints),
    OUT("heading", "psi", CW_DIM_DEG, "of the last piece set, right +", cw_heading, heading_deg),
    OUT("offset", "e", CW_DIM_IN, "of its upstream end, right +", cw_heading, offset_in),
    OUT("difference_mean", NULL, CW_DIM_IN, "of the measured differences", cw_heading, mean_in),
    OUT("difference_sd", NULL, CW_DIM_IN, "of the measured differences", cw_heading, sd_seen_in),
    OUT("end_offset", NULL, CW_DIM_IN, "of the end of the run when the rest goes on as stated",
        cw_heading, end_offset_in),
    OUT("end_sd", NULL, CW_DIM_IN, "random part of it", cw_heading, end_sd_in),
    CHOICE_OUT("check", cw_verdict_words, "offset against what is allowed", cw_heading, verdict),
};

bool cw_heading_input_valid(const cw_heading_input *in, cw_pos where, cw_diags *diags)
{
    bool good = cw_grade_pairs(&in->left_in, &in->right_in, "left and right", where, diags);
    if (in->left_in.count > in->pieces - 1) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "%d measured joints in a run of %d pieces, which has %d; check both",
                    in->left_in.count, in->pieces, in->pieces - 1);
        good = false;
    }
    return good;
}

static void look_back(cw_heading *out, const cw_heading_input *in)
{
    const int count = in->left_in.count;
    double sum = 0.0, squares = 0.0;
    for (int i = 0; i < count; i++)
        sum += in->left_in.items[i] - in->right_in.items[i];
    out->mean_in = count > 0 ? sum / count : 0.0;
    for (int i = 0; i < count; i++) {
        const double off = in->left_in.items[i] - in->right_in.items[i] - out->mean_in;
        squares += off * off;
    }
    out->sd_seen_in = count > 1 ? sqrt(squares / (count - 1)) : 0.0;
}

/* Walks the pieces of the run: the heading of a piece is the sum of the turns before it, and its
 * end is off by the sum of heading times advance. */
static void walk(cw_heading *out, const cw_heading_input *in)
{
    const int measured = in->left_in.count;
    const double advance_in = in->advance_ft * CW_IN_PER_FT;
    // The first piece is the one that has no joint before it.
    double heading = in->first_true ? 0.0 : in->difference_in / in->width_in, offset = 0.0;
    for (int i = 0; i < in->pieces; i++) {
        if (i > 0) {
            const double turn_in = i <= measured
                                       ? in->left_in.items[i - 1] - in->right_in.items[i - 1]
                                       : in->difference_in;
            heading += turn_in / in->width_in;
        }
        offset += advance_in * sin(heading);
        if (i == measured) {
            out->heading_deg = heading * CW_DEG_PER_RAD;
            out->offset_in = offset;
        }
    }
    out->end_offset_in = offset;
}

/* Turns still to come: the first of them moves all pieces after it, the last only the last piece.
 */
static double random_in(const cw_heading_input *in)
{
    const double n =
        in->pieces - 1 - in->left_in.count + (in->first_true || in->left_in.count > 0 ? 0 : 1);
    const double squares = n * (n + 1.0) * (2.0 * n + 1.0) / 6.0;
    return in->advance_ft * CW_IN_PER_FT * in->sd_in / in->width_in * sqrt(squares);
}

cw_heading cw_grade_heading(const cw_heading_input *in, cw_working *w)
{
    cw_heading out = {.joints = in->left_in.count};
    look_back(&out, in);
    walk(&out, in);
    cw_step_add(w, "psi", "sum of (g_L - g_R)/B", out.heading_deg, CW_DIM_DEG, turning);
    cw_step_add(w, "e", "sum of a sin psi over the pieces set", out.offset_in, CW_DIM_IN, turning);
    cw_step_add(w, "e_n", "the same to the end of the run with d: grows with n squared",
                out.end_offset_in, CW_DIM_IN, turning);
    out.end_sd_in =
        cw_step_add(w, "s_n", "a s_d/B (k (k + 1)(2 k + 1)/6)^(1/2), k turns still to come",
                    random_in(in), CW_DIM_IN, turning);
    const double now = out.joints > 0 ? out.offset_in : out.end_offset_in;
    out.verdict = cw_grade_verdict(fabs(now), in->line_in);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_heading_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_heading *)output = cw_grade_heading(input, working);
}

const cw_calc cw_calc_heading_drift = {
    .name = "heading-drift",
    .title = "Heading and offset from the gaps at both walls",
    .group = "grade",
    .about = "A gap wider at the left turns the run to the right.  The same fault at every joint "
             "moves the end by its number squared; random ones by its power of one and a half.  "
             "Cure: tape both sides of each piece and set a long left side against a long right.",
    .source = "derived: small turns added joint by joint",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_heading_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_heading),
    .valid = valid,
    .run = run,
    .example = "width=164in advance=6.0417ft pieces=20 difference=0.125in sd=0.125in",
};
