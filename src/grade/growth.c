/* Length of the run: how it may drift, the gap still needed, the heading. */
#include "grade_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char sums[] = "statistics: sum of independent values";
static const char chain[] = "closed form: lengths and gaps added";
static const char range[] = "common practice: range of culvert runs";

/* Two-sided 95 percent of the normal distribution. */
#define NORMAL_95 1.959964

static const char *const spreads[] = {"sd", "three-sd", "uniform", NULL};

#define TYPE cw_growth_input

static const cw_field growth_inputs[] = {
    COUNT_IN("pieces", "n", 1.0, 1000.0, NULL, "in the run", range, TYPE, pieces),
    NUMBER_IN("piece", "L_p", CW_DIM_IN, 12.0, 480.0, NULL, "drawn laying length", range, TYPE,
              piece_in),
    NUMBER_IN("gap", "g_0", CW_DIM_IN, 0.0, 3.0, "@joint.gap_design", "drawn gap", NULL, TYPE,
              gap_in),
    NUMBER_IN("length_bias", NULL, CW_DIM_IN, -2.0, 2.0, "0 in",
              "mean of the cast lengths less drawn", range, TYPE, length_bias_in),
    NUMBER_IN("length_tolerance", "T_L", CW_DIM_IN, 0.0, 2.0, NULL, "of one length, plus or minus",
              range, TYPE, length_tol_in),
    NUMBER_IN("gap_mean", "g_m", CW_DIM_IN, 0.0, 3.0, NULL, "mean gap as it is laid", range, TYPE,
              gap_mean_in),
    NUMBER_IN("gap_tolerance", "T_g", CW_DIM_IN, 0.0, 2.0, NULL, "of one gap, plus or minus", range,
              TYPE, gap_tol_in),
    CHOICE_IN("tolerance_is", spreads, "three-sd",
              "one standard deviation, three of them, or any value as likely", "common practice",
              TYPE, spread),
    FLAG_IN("end_gap", "no", "one more gap, against a wall at the end", "common practice", TYPE,
            end_gap),
};

static const cw_field growth_outputs[] = {
    OUT("drawn", NULL, CW_DIM_FT, "length", cw_growth, drawn_ft),
    OUT("growth", NULL, CW_DIM_IN, "mean growth over drawn", cw_growth, growth_in),
    OUT("sd", NULL, CW_DIM_IN, "standard deviation of it", cw_growth, sd_in),
    OUT("growth_low", NULL, CW_DIM_IN, "19 of 20 runs grow by more than this and less than that",
        cw_growth, low_in),
    OUT("growth_high", NULL, CW_DIM_IN, "the upper of the two", cw_growth, high_in),
    OUT("laid", NULL, CW_DIM_FT, "mean laid length", cw_growth, mean_ft),
    OUT("laid_low", NULL, CW_DIM_FT, "lower bound", cw_growth, low_ft),
    OUT("laid_high", NULL, CW_DIM_FT, "upper bound", cw_growth, high_ft),
    COUNT_OUT("gaps", NULL, "counted", cw_growth, gaps),
};

double cw_grade_sd(double tolerance, int spread)
{
    static const double divisor[] = {
        [CW_SPREAD_SD] = 1.0, [CW_SPREAD_THREE] = 3.0, [CW_SPREAD_UNIFORM] = 1.7320508075688772};
    return tolerance / divisor[spread];
}

cw_growth cw_grade_growth(const cw_growth_input *in, cw_working *w)
{
    const double n = in->pieces;
    cw_growth out = {.gaps = in->pieces - (in->end_gap ? 0 : 1)};
    out.drawn_ft =
        cw_step_add(w, "L_0", "n L_p + n_g g_0",
                    (n * in->piece_in + out.gaps * in->gap_in) / CW_IN_PER_FT, CW_DIM_FT, chain);
    out.growth_in = cw_step_add(w, "m", "n bias + n_g (g_m - g_0)",
                                n * in->length_bias_in + out.gaps * (in->gap_mean_in - in->gap_in),
                                CW_DIM_IN, sums);
    const double length_sd = cw_step_add(
        w, "s_L", "of one length", cw_grade_sd(in->length_tol_in, in->spread), CW_DIM_IN, sums);
    const double gap_sd = cw_step_add(w, "s_g", "of one gap",
                                      cw_grade_sd(in->gap_tol_in, in->spread), CW_DIM_IN, sums);
    out.sd_in =
        cw_step_add(w, "s", "(n s_L^2 + n_g s_g^2)^(1/2)",
                    sqrt(n * length_sd * length_sd + out.gaps * gap_sd * gap_sd), CW_DIM_IN, sums);
    out.low_in = cw_step_add(w, "low", "m - 1.96 s", out.growth_in - NORMAL_95 * out.sd_in,
                             CW_DIM_IN, "normal distribution, 95 percent");
    out.high_in = cw_step_add(w, "high", "m + 1.96 s", out.growth_in + NORMAL_95 * out.sd_in,
                              CW_DIM_IN, "normal distribution, 95 percent");
    out.mean_ft = out.drawn_ft + out.growth_in / CW_IN_PER_FT;
    out.low_ft = out.drawn_ft + out.low_in / CW_IN_PER_FT;
    out.high_ft = out.drawn_ft + out.high_in / CW_IN_PER_FT;
    return out;
}

static void run_growth(const void *input, void *output, cw_working *working)
{
    *(cw_growth *)output = cw_grade_growth(input, working);
}

const cw_calc cw_calc_run_growth = {
    .name = "run-growth",
    .title = "How far the laid length drifts",
    .group = "grade",
    .about = "Mean and 95 percent bounds of the laid length when lengths and gaps vary "
             "independently.  What is common to all pieces (one mould, one crew) belongs in the "
             "bias and the mean gap: it adds up piece by piece and is the larger part.",
    .source = "statistics: sum of independent values",
    .inputs = growth_inputs,
    .input_count = COUNT(growth_inputs),
    .input_size = sizeof(cw_growth_input),
    .outputs = growth_outputs,
    .output_count = COUNT(growth_outputs),
    .output_size = sizeof(cw_growth),
    .run = run_growth,
    .example = "pieces=20 piece=6ft gap=0.5in gap_mean=0.75in length_tolerance=0.25in "
               "gap_tolerance=0.375in",
};

/* ---- gap still needed ---- */

#undef TYPE
#define TYPE cw_gap_input

static const char *const gap_states[] = {"on-target", "feasible", "too-wide", "too-tight", NULL};

static const cw_field gap_inputs[] = {
    NUMBER_IN("target", "X", CW_DIM_FT, 1.0, 20000.0, NULL,
              "slope length from the outlet face to where the run must end", range, TYPE,
              target_ft),
    NUMBER_IN("laid", "L_k", CW_DIM_FT, 0.0, 20000.0, NULL,
              "slope length from the outlet face to the upstream face of the last piece set", range,
              TYPE, laid_ft),
    LIST_IN("lengths", "L_i", CW_DIM_IN, 12.0, 480.0, NULL, "of the pieces still to set", range,
            TYPE, lengths_in),
    COUNT_IN("pieces", "n", 0.0, 1000.0, "0", "still to set, when no lengths are listed",
             "common practice", TYPE, pieces),
    NUMBER_IN("piece", "L_p", CW_DIM_IN, 0.0, 480.0, "0 in", "length of each of those",
              "common practice", TYPE, piece_in),
    FLAG_IN("end_gap", "no", "one more gap, against a wall at the end", "common practice", TYPE,
            end_gap),
    NUMBER_IN("gap_min", "g_min", CW_DIM_IN, 0.0, 3.0, "@joint.gap_min", "of a joint", NULL, TYPE,
              gap_min_in),
    NUMBER_IN("gap_max", "g_max", CW_DIM_IN, 0.0, 3.0, "@joint.gap_max", "of a joint", NULL, TYPE,
              gap_max_in),
    NUMBER_IN("aim_low", NULL, CW_DIM_IN, 0.0, 3.0, "0.375 in", "of the band aimed at",
              "common practice", TYPE, aim_low_in),
    NUMBER_IN("aim_high", NULL, CW_DIM_IN, 0.0, 3.0, "0.5 in", "of the band aimed at",
              "common practice", TYPE, aim_high_in),
};

static const cw_field gap_outputs[] = {
    OUT("needed", "g", CW_DIM_IN, "in each joint still to make", cw_gap, needed_in),
    COUNT_OUT("joints", "n_g", "still to make", cw_gap, gaps),
    CHOICE_OUT("state", gap_states,
               "feasible: outside the band aimed at, so decide now; too-wide, too-tight: a special "
               "piece, a cast closure or a moved end",
               cw_gap, state),
    CHOICE_OUT("check", cw_verdict_words, "the gap within its limits", cw_gap, verdict),
    OUT("end_near", NULL, CW_DIM_FT, "where the run ends with all gaps least", cw_gap, shortest_ft),
    OUT("end_far", NULL, CW_DIM_FT, "and with all gaps largest", cw_gap, longest_ft),
    OUT("special", NULL, CW_DIM_IN, "one piece longer (+) or shorter (-) by this makes it feasible",
        cw_gap, special_in),
};

static bool ordered(const char *low_key, double low_in, const char *high_key, double high_in,
                    cw_pos where, cw_diags *diags)
{
    if (low_in <= high_in)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT, "%s %.6g in is below %s %.6g in; exchange them",
                high_key, high_in, low_key, low_in);
    return false;
}

bool cw_gap_input_valid(const cw_gap_input *in, cw_pos where, cw_diags *diags)
{
    bool good = ordered("gap_min", in->gap_min_in, "gap_max", in->gap_max_in, where, diags);
    good = ordered("aim_low", in->aim_low_in, "aim_high", in->aim_high_in, where, diags) && good;
    if (in->lengths_in.count > 0 && in->pieces > 0) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "lengths and pieces are both given; give one of them");
        good = false;
    }
    if (in->lengths_in.count == 0 && in->pieces == 0 && !in->end_gap) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "no joint is left to make; give lengths, or pieces and piece, or end_gap=yes");
        good = false;
    }
    if (in->pieces > 0 && in->piece_in <= 0.0) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "%d pieces without a length; write piece=6 ft or the "
                    "like",
                    in->pieces);
        good = false;
    }
    return good;
}

static double rest_in(const cw_gap_input *in)
{
    double sum = in->pieces * in->piece_in;
    for (int i = 0; i < in->lengths_in.count; i++)
        sum += in->lengths_in.items[i];
    return sum;
}

static void judge_gap(cw_gap *out, const cw_gap_input *in)
{
    out->verdict = CW_HOLDS;
    if (!cw_meets(out->needed_in, in->gap_max_in)) {
        out->state = CW_GAP_TOO_WIDE;
        out->special_in = (out->needed_in - in->gap_max_in) * out->gaps;
    } else if (!cw_meets(in->gap_min_in, out->needed_in)) {
        out->state = CW_GAP_TOO_TIGHT;
        out->special_in = (out->needed_in - in->gap_min_in) * out->gaps;
    } else {
        const bool aimed =
            cw_meets(in->aim_low_in, out->needed_in) && cw_meets(out->needed_in, in->aim_high_in);
        out->state = aimed ? CW_GAP_ON_TARGET : CW_GAP_FEASIBLE;
        return;
    }
    out->verdict = CW_FAILS;
}

cw_gap cw_grade_gap(const cw_gap_input *in, cw_working *w)
{
    const int pieces = in->lengths_in.count > 0 ? in->lengths_in.count : in->pieces;
    const double rest =
        cw_step_add(w, "R", "sum of the lengths still to set", rest_in(in), CW_DIM_IN, chain);
    cw_gap out = {.gaps = pieces + (in->end_gap ? 1 : 0)};
    const double room_in = (in->target_ft - in->laid_ft) * CW_IN_PER_FT - rest;
    out.needed_in =
        cw_step_add(w, "g", "(X - L_k - R) / n_g", room_in / out.gaps, CW_DIM_IN, chain);
    const double whole = in->laid_ft + rest / CW_IN_PER_FT;
    out.shortest_ft =
        cw_step_add(w, "X_1", "L_k + R + n_g g_min",
                    whole + out.gaps * in->gap_min_in / CW_IN_PER_FT, CW_DIM_FT, chain);
    out.longest_ft =
        cw_step_add(w, "X_2", "L_k + R + n_g g_max",
                    whole + out.gaps * in->gap_max_in / CW_IN_PER_FT, CW_DIM_FT, chain);
    judge_gap(&out, in);
    cw_step_add(w, "d", "n_g (g - the limit it passes)", out.special_in, CW_DIM_IN, chain);
    return out;
}

static bool gap_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_gap_input_valid(input, where, diags);
}

static void run_gap(const void *input, void *output, cw_working *working)
{
    *(cw_gap *)output = cw_grade_gap(input, working);
}

const cw_calc cw_calc_gap_needed = {
    .name = "gap-needed",
    .title = "Gap that the rest of the joints must take",
    .group = "grade",
    .about = "After each piece: the gap that brings the run to its end, and whether the joints can "
             "take it.  Measure along the slope, on the centre line of the floor.  Bases and tops "
             "are two chains: run it for each.",
    .source = "closed form: lengths and gaps added",
    .inputs = gap_inputs,
    .input_count = COUNT(gap_inputs),
    .input_size = sizeof(cw_gap_input),
    .outputs = gap_outputs,
    .output_count = COUNT(gap_outputs),
    .output_size = sizeof(cw_gap),
    .valid = gap_valid,
    .run = run_gap,
    .example = "target=120.79ft laid=60.55ft pieces=10 piece=6ft",
};
