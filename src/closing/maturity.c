/* Strength with time: maturity of the log, strength curve, time to release. */
#include "closing_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char c1074[] = "ASTM C1074";
static const char range[] = "common practice: range of site concrete";

/* Celsius and kelvin by their definitions. */
#define FAHRENHEIT_AT_ICE 32.0
#define CELSIUS_PER_FAHRENHEIT (5.0 / 9.0)
#define KELVIN_AT_ICE 273.15

static double celsius(double temperature_f)
{
    return (temperature_f - FAHRENHEIT_AT_ICE) * CELSIUS_PER_FAHRENHEIT;
}

double cw_closing_age_factor(double temperature_f, const cw_maturity_law *law)
{
    // Below the datum nothing hardens, in either measure.
    if (temperature_f <= law->datum_f)
        return 0.0;
    const double at = celsius(temperature_f) + KELVIN_AT_ICE;
    const double reference = celsius(law->reference_f) + KELVIN_AT_ICE;
    return exp(-law->activation_k * (1.0 / at - 1.0 / reference)); // ASTM C1074, equivalent age
}

cw_maturity cw_closing_maturity(const cw_maturity_span *spans, int count,
                                const cw_maturity_law *law)
{
    cw_maturity out = {.coldest_f = count > 0 ? spans[0].temperature_f : 0.0};
    for (int i = 0; i < count; i++) {
        const double t = spans[i].temperature_f, hours = spans[i].hours;
        out.hours += hours;
        out.coldest_f = fmin(out.coldest_f, t);
        out.equivalent_h += hours * cw_closing_age_factor(t, law);
        if (t > law->datum_f) // ASTM C1074, temperature-time factor
            out.maturity_ch += hours * (t - law->datum_f) * CELSIUS_PER_FAHRENHEIT;
        else
            out.cold_h += hours;
    }
    return out;
}

#define LAW_IN(type)                                                                               \
    NUMBER_IN("datum", "T_0", CW_DIM_DEGF, 0.0, 50.0, "@maturity.datum", "no hardening below it",  \
              NULL, type, law.datum_f),                                                            \
        NUMBER_IN("activation", "Q", CW_DIM_NONE, 1000.0, 10000.0, "@maturity.activation",         \
                  "activation energy over the gas constant, K", NULL, type, law.activation_k),     \
        NUMBER_IN("reference", "T_s", CW_DIM_DEGF, 50.0, 90.0, "@maturity.reference",              \
                  "of the equivalent age", NULL, type, law.reference_f)

/* ---- maturity of a log ---- */

static const cw_field maturity_inputs[] = {
    {"times", "t_i", CW_KIND_LIST, CW_DIM_HOUR, 0.0, 8760.0, NULL, true,
     "since placing, rising: the end of each interval, or of each reading", range, NULL,
     offsetof(cw_maturity_input, times_h), CW_NO_FLAG},
    {"temperatures", "T_i", CW_KIND_LIST, CW_DIM_DEGF, -40.0, 200.0, NULL, true,
     "mean of each interval, or the reading", range, NULL,
     offsetof(cw_maturity_input, temperatures_f), CW_NO_FLAG},
    FLAG_IN("readings", "no", "the temperatures are readings at the times", c1074,
            cw_maturity_input, readings),
    NUMBER_IN("longest", NULL, CW_DIM_HOUR, 0.1, 8760.0, "@maturity.interval",
              "longest part of the log without a value", NULL, cw_maturity_input, longest_h),
    LAW_IN(cw_maturity_input),
};

static const cw_field maturity_outputs[] = {
    OUT("maturity", "M", CW_DIM_NONE, "deg C h above the datum", cw_maturity, maturity_ch),
    OUT("equivalent_age", "t_e", CW_DIM_HOUR, "at the reference temperature", cw_maturity,
        equivalent_h),
    OUT("time", NULL, CW_DIM_HOUR, "that the log counts", cw_maturity, hours),
    OUT("cold_time", NULL, CW_DIM_HOUR, "at or below the datum, counted for nothing", cw_maturity,
        cold_h),
    OUT("coldest", NULL, CW_DIM_DEGF, "lowest value", cw_maturity, coldest_f),
};

/* A place in a list, for findings. */
static cw_pos item_of(cw_pos where, const char *list, int index, cw_diags *diags)
{
    where.path = cw_arena_print(diags->arena, "%s[%d]", list, index);
    return where;
}

static bool time_follows(const cw_maturity_input *in, int i, cw_pos where, cw_diags *diags)
{
    const double now = in->times_h.items[i], before = i > 0 ? in->times_h.items[i - 1] : 0.0;
    const bool first_reading = i == 0 && in->readings;
    if (now <= before && !(first_reading && now == before)) {
        cw_diag_add(diags, item_of(where, "times", i, diags), CW_E_GEOMETRY,
                    "times: value %d, %.6g h, does not lie past %.6g h; order the log", i + 1, now,
                    before);
        return false;
    }
    if (cw_meets(now - before, in->longest_h))
        return true;
    cw_diag_add(diags, item_of(where, "times", i, diags), CW_E_GEOMETRY,
                "the log has a gap of %.6g h before value %d, at %.6g h, more than %.6g h; fill it "
                "with the lowest temperature that is sure, or write a larger longest",
                now - before, i + 1, now, in->longest_h);
    return false;
}

bool cw_maturity_input_valid(const cw_maturity_input *in, cw_pos where, cw_diags *diags)
{
    const int count = in->times_h.count;
    if (count != in->temperatures_f.count || count < (in->readings ? 2 : 1)) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "%d times and %d temperatures; give the same number of both, %d at least",
                    count, in->temperatures_f.count, in->readings ? 2 : 1);
        return false;
    }
    bool good = true;
    for (int i = 0; i < count; i++)
        good = time_follows(in, i, where, diags) && good;
    return good;
}

static int spans_of(const cw_maturity_input *in, cw_maturity_span *spans)
{
    const double *t = in->times_h.items, *f = in->temperatures_f.items;
    const int first = in->readings ? 1 : 0;
    int count = 0;
    for (int i = first; i < in->times_h.count; i++)
        spans[count++] = (cw_maturity_span){t[i] - (i > 0 ? t[i - 1] : 0.0),
                                            in->readings ? (f[i - 1] + f[i]) / 2.0 : f[i]};
    return count;
}

cw_maturity cw_closing_maturity_of(const cw_maturity_input *in, cw_working *w)
{
    cw_maturity_span spans[CW_LIST_MAX];
    const int count = spans_of(in, spans);
    const cw_maturity out = cw_closing_maturity(spans, count, &in->law);
    cw_step_add(w, "t", "sum of the intervals", out.hours, CW_DIM_HOUR, c1074);
    cw_step_add(w, "M", "sum (T - T_0) dt in deg C h, where T > T_0", out.maturity_ch, CW_DIM_NONE,
                c1074);
    cw_step_add(w, "t_e", "sum exp(-Q (1/T - 1/T_s)) dt in K, where T > T_0", out.equivalent_h,
                CW_DIM_HOUR, c1074);
    return out;
}

static bool maturity_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_maturity_input_valid(input, where, diags);
}

static void run_maturity(const void *input, void *output, cw_working *working)
{
    *(cw_maturity *)output = cw_closing_maturity_of(input, working);
}

const cw_calc cw_calc_maturity = {
    .name = "maturity",
    .title = "Maturity of a temperature log",
    .group = "closing",
    .about = "Temperature-time factor and equivalent age.  Put the sensor where the concrete cures "
             "slowest.  Very hot early curing lowers the final strength, which neither measure "
             "shows.  Time before the first of the readings counts for nothing.",
    .source = "ASTM C1074 (constants from memory, not verified)",
    .inputs = maturity_inputs,
    .input_count = COUNT(maturity_inputs),
    .input_size = sizeof(cw_maturity_input),
    .outputs = maturity_outputs,
    .output_count = COUNT(maturity_outputs),
    .output_size = sizeof(cw_maturity),
    .valid = maturity_valid,
    .run = run_maturity,
    .example = "times=12h,24h,48h,72h,96h temperatures=10C,22C,18C,12C,8C",
};

/* ---- strength ---- */

#define TYPE cw_strength_input

static const char *const curves[] = {"hyperbola", "log", "breaks", NULL};
static const char *const measures[] = {"age", "maturity", NULL};
static const char *const states[] = {"reached", "later", "never", "no-curve", NULL};

static const cw_field strength_inputs[] = {
    CHOICE_IN("curve", curves, NULL,
              "hyperbola: S_u k (t - t_0)/(1 + k (t - t_0)); log: a + b log10 t; breaks: the same "
              "fitted to at least four breaks",
              NULL, TYPE, curve),
    CHOICE_IN("measure", measures, "age", "what t is: equivalent age in h, or maturity in deg C h",
              c1074, TYPE, measure),
    NUMBER_IN("now", "t", CW_DIM_NONE, 0.0, 1e6, NULL, "in that measure", range, TYPE, now),
    NUMBER_IN("target", "S_t", CW_DIM_PSI, 10.0, 20000.0, NULL, "strength that is waited for",
              range, TYPE, target_psi),
    NUMBER_IN("temperature", "T", CW_DIM_DEGF, -40.0, 180.0, "73.4 degF",
              "of the concrete from now on", range, TYPE, temperature_f),
    OPTION_IN("final", "S_u", CW_DIM_PSI, 100.0, 30000.0, "final strength of the hyperbola", range,
              TYPE, final_psi, has_final),
    OPTION_IN("rate", "k", CW_DIM_NONE, 1e-6, 10.0, "rate of the hyperbola, for one of the measure",
              range, TYPE, rate, has_rate),
    OPTION_IN("start", "t_0", CW_DIM_NONE, 0.0, 10000.0, "set of the hyperbola", range, TYPE, start,
              has_start),
    OPTION_IN("a", "a", CW_DIM_PSI, -60000.0, 30000.0, "of the log curve", range, TYPE, a_psi,
              has_a),
    OPTION_IN("b", "b", CW_DIM_PSI, 1.0, 30000.0, "of the log curve", range, TYPE, b_psi, has_b),
    LIST_IN("break_ages", NULL, CW_DIM_NONE, 0.1, 1e6, NULL, "of the breaks, in the measure", range,
            TYPE, break_ages),
    LIST_IN("break_strengths", NULL, CW_DIM_PSI, 10.0, 30000.0, NULL, "mean of each age", range,
            TYPE, break_psi),
    LAW_IN(TYPE),
};

static const cw_field strength_outputs[] = {
    CHOICE_OUT("state", states, "no-curve: strength not estimated", cw_strength, state),
    OUT("strength", "S", CW_DIM_PSI, "now, 0 without a curve", cw_strength, strength_psi),
    OPTION_OUT("needed", "t_t", CW_DIM_NONE, "at the target, in the measure", cw_strength, needed,
               has_needed),
    OPTION_OUT("wait", NULL, CW_DIM_HOUR, "on the clock at the temperature", cw_strength, wait_h,
               has_wait),
    OUT("fit_sd", NULL, CW_DIM_PSI, "of the breaks about their curve", cw_strength, fit_sd_psi),
    FLAG_OUT("extrapolated", "the target lies past the last break", cw_strength, extrapolated),
    CHOICE_OUT("check", cw_verdict_words, "target reached; undecided without a curve", cw_strength,
               verdict),
};

bool cw_strength_input_valid(const cw_strength_input *in, cw_pos where, cw_diags *diags)
{
    const cw_list *ages = &in->break_ages;
    if (ages->count != in->break_psi.count) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "%d break_ages and %d break_strengths; give the same number of both",
                    ages->count, in->break_psi.count);
        return false;
    }
    bool good = true;
    for (int i = 1; i < ages->count; i++) {
        if (ages->items[i] > ages->items[i - 1])
            continue;
        cw_diag_add(diags, item_of(where, "break_ages", i, diags), CW_E_GEOMETRY,
                    "break_ages: value %d, %.6g, does not lie past %.6g; order the breaks", i + 1,
                    ages->items[i], ages->items[i - 1]);
        good = false;
    }
    return good;
}

/* S = a + b log10 t, whatever it came from. */
typedef struct log_curve {
    double a_psi, b_psi, sd_psi;
} log_curve;

/* Least squares; false when the strengths do not rise. */
static bool fit(const cw_strength_input *in, log_curve *curve)
{
    const int n = in->break_ages.count;
    if (n < CW_BREAKS_MIN)
        return false;
    double sx = 0.0, sy = 0.0, sxx = 0.0, sxy = 0.0, squares = 0.0;
    for (int i = 0; i < n; i++) {
        sx += log10(in->break_ages.items[i]);
        sy += in->break_psi.items[i];
    }
    for (int i = 0; i < n; i++) {
        const double x = log10(in->break_ages.items[i]) - sx / n;
        sxx += x * x;
        sxy += x * (in->break_psi.items[i] - sy / n);
    }
    curve->b_psi = sxy / sxx;
    curve->a_psi = sy / n - curve->b_psi * sx / n;
    for (int i = 0; i < n; i++) {
        const double off =
            in->break_psi.items[i] - curve->a_psi - curve->b_psi * log10(in->break_ages.items[i]);
        squares += off * off;
    }
    curve->sd_psi = sqrt(squares / (n - 2));
    return curve->b_psi > 0.0;
}

static void by_hyperbola(cw_strength *out, const cw_strength_input *in, cw_working *w)
{
    const double grown = in->rate * fmax(0.0, in->now - in->start);
    out->strength_psi = cw_step_add(w, "S", "S_u k (t - t_0)/(1 + k (t - t_0))",
                                    in->final_psi * grown / (1.0 + grown), CW_DIM_PSI, c1074);
    out->has_needed = in->target_psi < in->final_psi;
    if (out->has_needed)
        out->needed =
            cw_step_add(w, "t_t", "t_0 + S_t/(k (S_u - S_t))",
                        in->start + in->target_psi / (in->rate * (in->final_psi - in->target_psi)),
                        CW_DIM_NONE, c1074);
}

static void by_log(cw_strength *out, const cw_strength_input *in, const log_curve *curve,
                   cw_working *w)
{
    const double now = in->now > 0.0 ? curve->a_psi + curve->b_psi * log10(in->now) : 0.0;
    out->strength_psi =
        cw_step_add(w, "S", "a + b log10 t, 0 at least", fmax(0.0, now), CW_DIM_PSI, c1074);
    out->needed = cw_step_add(
        w, "t_t", "10^((S_t - a)/b)",
        pow(10.0, fmin(300.0, (in->target_psi - curve->a_psi) / curve->b_psi)), CW_DIM_NONE, c1074);
    out->has_needed = true;
    out->fit_sd_psi = curve->sd_psi;
}

static bool use_curve(cw_strength *out, const cw_strength_input *in, cw_working *w)
{
    log_curve curve = {in->a_psi, in->b_psi, 0.0};
    if (in->curve == CW_CURVE_HYPERBOLA) {
        if (!(in->has_final && in->has_rate && in->has_start))
            return false;
        by_hyperbola(out, in, w);
        return true;
    }
    if (in->curve == CW_CURVE_LOG && !(in->has_a && in->has_b))
        return false;
    if (in->curve == CW_CURVE_BREAKS) {
        if (!fit(in, &curve))
            return false;
        cw_step_add(w, "a", "least squares", curve.a_psi, CW_DIM_PSI, "statistics");
        cw_step_add(w, "b", "least squares", curve.b_psi, CW_DIM_PSI, "statistics");
    }
    by_log(out, in, &curve, w);
    if (in->curve == CW_CURVE_BREAKS)
        out->extrapolated = out->needed > in->break_ages.items[in->break_ages.count - 1];
    return true;
}

/* Of the measure, in one hour at the temperature. */
static double gain_per_h(const cw_strength_input *in)
{
    if (in->measure == CW_MEASURE_AGE)
        return cw_closing_age_factor(in->temperature_f, &in->law);
    return fmax(0.0, in->temperature_f - in->law.datum_f) * CELSIUS_PER_FAHRENHEIT;
}

cw_strength cw_closing_strength(const cw_strength_input *in, cw_working *w)
{
    cw_strength out = {.state = CW_STRENGTH_NO_CURVE, .verdict = CW_UNDECIDED};
    const double gain =
        cw_step_add(w, "r", "of the measure in one hour at T", gain_per_h(in), CW_DIM_NONE, c1074);
    if (!use_curve(&out, in, w))
        return out;
    if (cw_meets(in->target_psi, out.strength_psi)) {
        out.state = CW_STRENGTH_REACHED;
        out.verdict = CW_HOLDS;
        out.has_wait = true;
    } else if (out.has_needed && gain > 0.0) {
        out.state = CW_STRENGTH_LATER;
        out.verdict = CW_FAILS;
        out.has_wait = true;
        out.wait_h = cw_step_add(w, "wait", "(t_t - t)/r", fmax(0.0, out.needed - in->now) / gain,
                                 CW_DIM_HOUR, c1074);
    } else {
        out.state = CW_STRENGTH_NEVER;
        out.verdict = CW_FAILS;
    }
    if (out.extrapolated)
        out.verdict = CW_UNDECIDED;
    return out;
}

static bool strength_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_strength_input_valid(input, where, diags);
}

static void run_strength(const void *input, void *output, cw_working *working)
{
    *(cw_strength *)output = cw_closing_strength(input, working);
}

const cw_calc cw_calc_strength_time = {
    .name = "strength-time",
    .title = "Strength now and the time to release",
    .group = "closing",
    .about =
        "The curve belongs to one mix: without its breaks there is no strength, only no-curve. "
        "Never counts for a temperature at or below the datum too.  Verify with field breaks "
        "before a step that loads the concrete.",
    .source = "ASTM C1074 (constants from memory, not verified)",
    .inputs = strength_inputs,
    .input_count = COUNT(strength_inputs),
    .input_size = sizeof(cw_strength_input),
    .outputs = strength_outputs,
    .output_count = COUNT(strength_outputs),
    .output_size = sizeof(cw_strength),
    .valid = strength_valid,
    .run = run_strength,
    .example = "curve=hyperbola now=57.08 target=2400psi final=4500psi rate=0.035 start=6",
};
