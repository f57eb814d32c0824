/* Three times for an activity: the law they make, and a chain of them. */
#include "schedule_internal.h"

#include <math.h>

static const char range[] = "common practice: range of durations";
static const char three_point[] =
    "three-point estimate: mean (a + 4m + b)/6, standard deviation (b - a)/6";

static const cw_field duration_inputs[] = {
    CHOICE_IN(
        "law", cw_law_words, "beta",
        "fixed: likely; triangular and beta: low, likely, high; lognormal: mean and variation",
        NULL, cw_duration_input, law),
    OPTION_IN("low", "a", CW_DIM_MIN, 0.0, 525600.0, "never less", range, cw_duration_input,
              low_min, has_low),
    OPTION_IN("likely", "m", CW_DIM_MIN, 0.0, 525600.0, "most often", range, cw_duration_input,
              likely_min, has_likely),
    OPTION_IN("high", "b", CW_DIM_MIN, 0.0, 525600.0, "never more", range, cw_duration_input,
              high_min, has_high),
    OPTION_IN("mean", "mu", CW_DIM_MIN, 0.01, 525600.0, "of the lognormal law", range,
              cw_duration_input, mean_min, has_mean),
    OPTION_IN("variation", "c", CW_DIM_NONE, 0.01, 2.0, "standard deviation over mean, lognormal",
              range, cw_duration_input, variation, has_variation),
};

static const cw_field duration_outputs[] = {
    OUT("mean", NULL, CW_DIM_MIN, "long-run average", cw_duration, mean_min),
    OUT("sd", NULL, CW_DIM_MIN, "standard deviation of the law itself", cw_duration, sd_min),
    OUT("p10", NULL, CW_DIM_MIN, "one in ten is shorter", cw_duration, p10_min),
    OUT("p50", NULL, CW_DIM_MIN, "one in two is shorter", cw_duration, p50_min),
    OUT("p80", NULL, CW_DIM_MIN, "four in five are shorter", cw_duration, p80_min),
    OUT("p90", NULL, CW_DIM_MIN, "nine in ten are shorter", cw_duration, p90_min),
};

static cw_law law_of(const cw_duration_input *in)
{
    return (cw_law){in->law,      in->low_min,  in->likely_min,
                    in->high_min, in->mean_min, in->variation};
}

bool cw_duration_input_valid(const cw_duration_input *in, cw_pos where, cw_diags *diags)
{
    const bool three = in->law == CW_LAW_TRIANGULAR || in->law == CW_LAW_BETA;
    const bool all = three                         ? in->has_low && in->has_likely && in->has_high
                     : in->law == CW_LAW_LOGNORMAL ? in->has_mean && in->has_variation
                                                   : in->has_likely;
    if (!all) {
        cw_diag_add(diags, where, CW_E_MISSING, "law %s needs %s", cw_law_words[in->law],
                    three                         ? "low, likely and high"
                    : in->law == CW_LAW_LOGNORMAL ? "mean and variation"
                                                  : "likely");
        return false;
    }
    const cw_law law = law_of(in);
    if (cw_law_valid(&law))
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "low %.6g, likely %.6g and high %.6g min are not in order; low must be below high",
                in->low_min, in->likely_min, in->high_min);
    return false;
}

cw_duration cw_schedule_duration(const cw_duration_input *in, cw_working *w)
{
    static const char *const sources[] = {
        "derived: no chance", "statistics: triangular law",
        "statistics: beta law with shapes 1 + 4(m-a)/(b-a) and 1 + 4(b-m)/(b-a)",
        "statistics: lognormal law"};
    const char *source = sources[in->law];
    const cw_law law = law_of(in);
    cw_duration out = {0};
    out.mean_min = cw_step_add(w, "mean", "of the law", cw_law_mean(&law), CW_DIM_MIN, source);
    out.sd_min =
        cw_step_add(w, "sd", "of the law", sqrt(cw_law_variance(&law)), CW_DIM_MIN, source);
    out.p10_min =
        cw_step_add(w, "P10", "quantile 0.1", cw_law_quantile(&law, 0.1), CW_DIM_MIN, source);
    out.p50_min =
        cw_step_add(w, "P50", "quantile 0.5", cw_law_quantile(&law, 0.5), CW_DIM_MIN, source);
    out.p80_min =
        cw_step_add(w, "P80", "quantile 0.8", cw_law_quantile(&law, 0.8), CW_DIM_MIN, source);
    out.p90_min =
        cw_step_add(w, "P90", "quantile 0.9", cw_law_quantile(&law, 0.9), CW_DIM_MIN, source);
    return out;
}

static bool duration_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_duration_input_valid(input, where, diags);
}

static void run_duration(const void *input, void *output, cw_working *working)
{
    *(cw_duration *)output = cw_schedule_duration(input, working);
}

const cw_calc cw_calc_duration = {
    .name = "duration",
    .title = "What three times for an activity mean",
    .group = "schedule",
    .about = "The same three numbers give different means under the triangular and the beta law: "
             "the law is an input that "
             "shows.",
    .source = "statistics",
    .inputs = duration_inputs,
    .input_count = COUNT(duration_inputs),
    .input_size = sizeof(cw_duration_input),
    .outputs = duration_outputs,
    .output_count = COUNT(duration_outputs),
    .output_size = sizeof(cw_duration),
    .valid = duration_valid,
    .run = run_duration,
    .example = "law=beta low=15min likely=20min high=40min",
};

/* ---- chain ---- */

static const cw_field chain_inputs[] = {
    LIST_IN("low", "a_i", CW_DIM_NONE, 0.0, 1e4, NULL,
            "of each activity of the chain, in one unit of time", range, cw_chain_input, low),
    LIST_IN("likely", "m_i", CW_DIM_NONE, 0.0, 1e4, NULL, "of each", range, cw_chain_input, likely),
    LIST_IN("high", "b_i", CW_DIM_NONE, 0.0, 1e4, NULL, "of each", range, cw_chain_input, high),
    NUMBER_IN("by", "T", CW_DIM_NONE, 0.0, 1e6, NULL, "time that is there", range, cw_chain_input,
              by),
};

static const cw_field chain_outputs[] = {
    OUT("mean", NULL, CW_DIM_NONE, "sum of the means", cw_chain, mean),
    OUT("sd", NULL, CW_DIM_NONE, "root of the sum of squares", cw_chain, sd),
    OUT("p80", NULL, CW_DIM_NONE, "enough four times in five", cw_chain, p80),
    OUT("p90", NULL, CW_DIM_NONE, "enough nine times in ten", cw_chain, p90),
    OUT("by_share", NULL, CW_DIM_NONE, "chance to be done in time", cw_chain, by_share),
};

bool cw_chain_input_valid(const cw_chain_input *in, cw_pos where, cw_diags *diags)
{
    const int count = in->low.count;
    if (count < 1 || count != in->likely.count || count != in->high.count) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "%d low, %d likely and %d high; give each activity all three", count,
                    in->likely.count, in->high.count);
        return false;
    }
    bool good = true;
    for (int i = 0; i < count; i++) {
        const double a = in->low.items[i], m = in->likely.items[i], b = in->high.items[i];
        if (a <= m && m <= b)
            continue;
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "activity %d: %.6g, %.6g, %.6g are not in order from low to high", i + 1, a, m,
                    b);
        good = false;
    }
    return good;
}

cw_chain cw_schedule_chain(const cw_chain_input *in, cw_working *w)
{
    cw_chain out = {0};
    double variance = 0.0;
    for (int i = 0; i < in->low.count; i++) {
        const double sd = (in->high.items[i] - in->low.items[i]) / 6.0;
        out.mean += (in->low.items[i] + 4.0 * in->likely.items[i] + in->high.items[i]) / 6.0;
        variance += sd * sd;
    }
    cw_step_add(w, "mean", "sum of (a + 4m + b)/6", out.mean, CW_DIM_NONE, three_point);
    out.sd = cw_step_add(w, "sd", "root of the sum of ((b - a)/6)^2", sqrt(variance), CW_DIM_NONE,
                         three_point);
    static const char normal[] = "central limit theorem: the sum of many is nearly normal";
    out.p80 = cw_step_add(w, "P80", "mean + z sd", out.mean + cw_normal_quantile(0.8) * out.sd,
                          CW_DIM_NONE, normal);
    out.p90 = cw_step_add(w, "P90", "mean + z sd", out.mean + cw_normal_quantile(0.9) * out.sd,
                          CW_DIM_NONE, normal);
    const double share =
        out.sd > 0.0 ? cw_normal_share((in->by - out.mean) / out.sd) : in->by >= out.mean;
    out.by_share =
        cw_step_add(w, "P(done by T)", "normal share of (T - mean)/sd", share, CW_DIM_NONE, normal);
    return out;
}

static bool chain_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_chain_input_valid(input, where, diags);
}

static void run_chain(const void *input, void *output, cw_working *working)
{
    *(cw_chain *)output = cw_schedule_chain(input, working);
}

const cw_calc cw_calc_chain = {
    .name = "activity-chain",
    .title = "A chain of activities with three times each",
    .group = "schedule",
    .about = "One chain only: where chains meet, the later one counts and the mean is later than "
             "this says.  The network and "
             "the simulation of the job know about that.",
    .source = "three-point estimates",
    .inputs = chain_inputs,
    .input_count = COUNT(chain_inputs),
    .input_size = sizeof(cw_chain_input),
    .outputs = chain_outputs,
    .output_count = COUNT(chain_outputs),
    .output_size = sizeof(cw_chain),
    .valid = chain_valid,
    .run = run_chain,
    .example = "low=6,2,5,4 likely=7,3,5.5,6 high=14,4,9,8 by=25",
};
