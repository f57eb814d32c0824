/* Groundwater into a trench or wells: Dupuit, unconfined, on an impervious base. */
#include "sitewater_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char dupuit[] =
    "Dupuit: steady unconfined flow on an impervious base, Army TM 5-818-5";
static const char sichardt[] = "Sichardt, in m and m/s (from memory, not verified)";
static const char range[] = "common practice: range of sites";
static const char practice[] = "common practice";

static const char *const sides[] = {"both", "one", NULL};
static const char *const layouts[] = {"single", "ring", NULL};

#define TRENCH(key, symbol, dim, low, high, fallback, required, meaning, source, member)           \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_trench_inflow_input,      \
              member)
#define WELL(key, symbol, dim, low, high, fallback, required, meaning, source, member)             \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_well_inflow_input, member)

#define K_LOW 0.0001
#define K_HIGH 30000.0
#define K_MEANING "permeability: gravel 1e-2 to 1e-3 m/s, sand 1e-3 to 1e-5, silt 1e-6 to 1e-8"

static const cw_field trench_inputs[] = {
    TRENCH("permeability", "k", CW_DIM_FT_PER_DAY, K_LOW, K_HIGH, NULL, true, K_MEANING, range,
           k_ft_per_day),
    TRENCH("head", "H", CW_DIM_FT, 0.5, 300.0, NULL, true,
           "still groundwater above the impervious base", range, head_ft),
    TRENCH("drawdown", "s", CW_DIM_FT, 0.1, 100.0, NULL, true, "lowering at the trench", range,
           drawdown_ft),
    TRENCH("length", "L", CW_DIM_FT, 1.0, 10000.0, NULL, true, "of the trench", range, length_ft),
    TRENCH("width", "b", CW_DIM_FT, 0.5, 400.0, NULL, true, "of the trench", range, width_ft),
    CHOICE_IN("sides", sides, "both", "that water comes from", practice, cw_trench_inflow_input,
              sides),
    FLAG_IN("ends", "yes", "add the flow round both ends", practice, cw_trench_inflow_input, ends),
    TRENCH("influence", "C", CW_DIM_NONE, 500.0, 5000.0, "@inflow.influence_slot", false,
           "of Sichardt, 1500 to 2000 for a trench", NULL, influence),
    OPTION_IN("reach", "R", CW_DIM_FT, 1.0, 20000.0,
              "distance to where the water is not lowered, in place of the formula", NULL,
              cw_trench_inflow_input, reach_ft, has_reach),
};

static const cw_field well_inputs[] = {
    WELL("permeability", "k", CW_DIM_FT_PER_DAY, K_LOW, K_HIGH, NULL, true, K_MEANING, range,
         k_ft_per_day),
    WELL("head", "H", CW_DIM_FT, 0.5, 300.0, NULL, true,
         "still groundwater above the impervious base", range, head_ft),
    WELL("drawdown", "s", CW_DIM_FT, 0.1, 100.0, NULL, true,
         "lowering in the well, or inside the ring", range, drawdown_ft),
    CHOICE_IN("layout", layouts, NULL, "one well, or wells round a trench", NULL,
              cw_well_inflow_input, layout),
    WELL("well_diameter", "d", CW_DIM_IN, 0.0, 120.0, "0 in", false,
         "of a single well, with filter", range, well_in),
    WELL("length", "a", CW_DIM_FT, 0.0, 2000.0, "0 ft", false, "of the ring", range, length_ft),
    WELL("width", "b", CW_DIM_FT, 0.0, 2000.0, "0 ft", false, "of the ring", range, width_ft),
    COUNT_IN("wells", "N", 1.0, 500.0, "1", "in the ring", range, cw_well_inflow_input, wells),
    WELL("influence", "C", CW_DIM_NONE, 500.0, 5000.0, "@inflow.influence_well", false,
         "of Sichardt, 3000 for wells", NULL, influence),
    OPTION_IN("reach", "R", CW_DIM_FT, 1.0, 20000.0,
              "distance to where the water is not lowered, in place of the formula", NULL,
              cw_well_inflow_input, reach_ft, has_reach),
};

#define INFLOW_OUTPUTS                                                                             \
    OUT("reach_used", "R", CW_DIM_FT, "radius of influence", cw_inflow, reach_ft),                 \
        OUT("flow_low", "Q_l", CW_DIM_CFS, "at a third of k", cw_inflow, low_cfs),                 \
        OUT("flow", "Q", CW_DIM_CFS, "at k", cw_inflow, flow_cfs),                                 \
        OUT("flow_high", "Q_h", CW_DIM_CFS, "at three times k", cw_inflow, high_cfs),              \
        OUT("pump_flow", "Q_p", CW_DIM_CFS, "first pumping, at k: pumps to have running",          \
            cw_inflow, start_cfs),                                                                 \
        OUT("pump_flow_high", "Q_ph", CW_DIM_CFS,                                                  \
            "first pumping, at three times k: pumps to have within reach", cw_inflow,              \
            start_high_cfs)

static const cw_field trench_outputs[] = {
    INFLOW_OUTPUTS,
    CHOICE_OUT("range", cw_verdict_words, "long enough to be taken as a line", cw_inflow, verdict),
};

static const cw_field well_outputs[] = {
    INFLOW_OUTPUTS,
    OUT("radius", "r", CW_DIM_FT, "of the well, or of the equal circle", cw_inflow, radius_ft),
    OUT("each", "Q_1", CW_DIM_CFS, "first pumping of one well, at k", cw_inflow, each_cfs),
    CHOICE_OUT("range", cw_verdict_words, "compact enough to be taken as a circle", cw_inflow,
               verdict),
};

/* The water cannot be lowered under the impervious base. */
static bool drawdown_fits(double head_ft, double drawdown_ft, cw_pos where, cw_diags *diags)
{
    if (drawdown_ft <= head_ft)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "drawdown %.6g ft is more than the head %.6g ft above the impervious base; pump "
                "from open sumps on the base instead, or check both",
                drawdown_ft, head_ft);
    return false;
}

bool cw_trench_inflow_input_valid(const cw_trench_inflow_input *in, cw_pos where, cw_diags *diags)
{
    return cw_fields_in_range(trench_inputs, COUNT(trench_inputs), in, where, diags) &&
           drawdown_fits(in->head_ft, in->drawdown_ft, where, diags);
}

bool cw_well_inflow_input_valid(const cw_well_inflow_input *in, cw_pos where, cw_diags *diags)
{
    bool good = cw_fields_in_range(well_inputs, COUNT(well_inputs), in, where, diags) &&
                drawdown_fits(in->head_ft, in->drawdown_ft, where, diags);
    if (in->layout == CW_WELL_SINGLE && !(in->well_in > 0.0)) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "a single well has no diameter; give well_diameter");
        good = false;
    }
    if (in->layout == CW_WELL_RING && !(in->length_ft > 0.0 && in->width_ft > 0.0)) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "a ring of %.6g by %.6g ft encloses nothing; give its length and width",
                    in->length_ft, in->width_ft);
        good = false;
    }
    return good;
}

double cw_sitewater_reach_ft(double influence, double drawdown_ft, double k_ft_per_day)
{
    const double drawdown_m = drawdown_ft * CW_M_PER_FT;
    const double k_m_per_s = k_ft_per_day * CW_M_PER_FT / CW_S_PER_DAY;
    return influence * drawdown_m * sqrt(k_m_per_s) / CW_M_PER_FT;
}

/* k (H^2 - h^2) in ft3/s per ft, common to all forms. */
static double drive_cfs(double k_ft_per_day, double head_ft, double drawdown_ft)
{
    const double left_ft = head_ft - drawdown_ft;
    return k_ft_per_day / CW_S_PER_DAY * (head_ft * head_ft - left_ft * left_ft);
}

/* ---- trench ---- */

static double trench_reach_ft(const cw_trench_inflow_input *in, const cw_rows *rows,
                              double k_ft_per_day)
{
    if (in->has_reach)
        return in->reach_ft;
    const double least_ft = cw_rows_value(rows, "inflow.reach_least") * in->width_ft / 2.0;
    return fmax(least_ft, cw_sitewater_reach_ft(in->influence, in->drawdown_ft, k_ft_per_day));
}

static double trench_sides_cfs(const cw_trench_inflow_input *in, double reach_ft,
                               double k_ft_per_day)
{
    const double count = in->sides == CW_SLOT_ONE ? 1.0 : 2.0;
    return count * in->length_ft * drive_cfs(k_ft_per_day, in->head_ft, in->drawdown_ft) /
           (2.0 * reach_ft);
}

/* Each end is half a well of half the trench width (derived); from one side it is a quarter. */
static double trench_ends_cfs(const cw_trench_inflow_input *in, double reach_ft,
                              double k_ft_per_day)
{
    if (!in->ends)
        return 0.0;
    const double share = in->sides == CW_SLOT_ONE ? 0.5 : 1.0;
    const double radius_ft = in->width_ft / 2.0;
    return share * CW_PI * drive_cfs(k_ft_per_day, in->head_ft, in->drawdown_ft) /
           log((reach_ft + radius_ft) / radius_ft);
}

static double trench_steady(const void *input, const cw_rows *rows, double k_ft_per_day)
{
    const cw_trench_inflow_input *in = input;
    const double reach_ft = trench_reach_ft(in, rows, k_ft_per_day);
    return trench_sides_cfs(in, reach_ft, k_ft_per_day) +
           trench_ends_cfs(in, reach_ft, k_ft_per_day);
}

typedef double (*steady_flow)(const void *input, const cw_rows *rows, double k_ft_per_day);

/* The flow over and under k, and what the first pumping asks. */
static cw_inflow with_range(steady_flow steady, const void *input, double k_ft_per_day,
                            const cw_rows *rows, cw_working *working)
{
    const double factor = cw_rows_value(rows, "inflow.k_range");
    const double start = cw_rows_value(rows, "inflow.start");
    cw_inflow out = {.flow_cfs = steady(input, rows, k_ft_per_day)};
    out.low_cfs = cw_step_add(working, "Q_l", "the same at k/3, with its own R",
                              steady(input, rows, k_ft_per_day / factor), CW_DIM_CFS, practice);
    out.high_cfs = cw_step_add(working, "Q_h", "the same at 3 k, with its own R",
                               steady(input, rows, k_ft_per_day * factor), CW_DIM_CFS, practice);
    out.start_cfs = cw_step_add(working, "Q_p", "1.3 Q", start * out.flow_cfs, CW_DIM_CFS,
                                "Army TM 5-818-5 (1983), par. 4-1");
    out.start_high_cfs = cw_step_add(working, "Q_ph", "1.3 Q_h", start * out.high_cfs, CW_DIM_CFS,
                                     "Army TM 5-818-5 (1983), par. 4-1");
    return out;
}

cw_inflow cw_sitewater_trench_inflow(const cw_trench_inflow_input *in, const cw_rows *rows,
                                     cw_working *working)
{
    const double k = in->k_ft_per_day;
    const double reach_ft =
        cw_step_add(working, "R", in->has_reach ? "as given" : "C s sqrt(k), 2.5 b at least",
                    trench_reach_ft(in, rows, k), CW_DIM_FT, in->has_reach ? practice : sichardt);
    const double line_cfs = cw_step_add(
        working, "Q_s", in->sides == CW_SLOT_ONE ? "k (H^2 - h^2) L / 2R" : "k (H^2 - h^2) L / R",
        trench_sides_cfs(in, reach_ft, k), CW_DIM_CFS, dupuit);
    const double ends_cfs = trench_ends_cfs(in, reach_ft, k);
    if (in->ends)
        cw_step_add(working, "Q_e", "pi k (H^2 - h^2) / ln((R + b/2)/(b/2)), half from one side",
                    ends_cfs, CW_DIM_CFS, "derived: each end as half a well");
    cw_step_add(working, "Q", "Q_s + Q_e", line_cfs + ends_cfs, CW_DIM_CFS, dupuit);
    cw_inflow out = with_range(trench_steady, in, k, rows, working);
    out.reach_ft = reach_ft;
    const double compact = cw_rows_value(rows, "inflow.pit_ratio");
    out.verdict = cw_meets(compact * in->width_ft, in->length_ft) ? CW_HOLDS : CW_UNDECIDED;
    return out;
}

/* ---- wells ---- */

static double circle_ft(const cw_well_inflow_input *in)
{
    return in->layout == CW_WELL_SINGLE ? in->well_in / CW_IN_PER_FT / 2.0
                                        : sqrt(in->length_ft * in->width_ft / CW_PI);
}

static double well_reach_ft(const cw_well_inflow_input *in, const cw_rows *rows,
                            double k_ft_per_day)
{
    if (in->has_reach && in->layout == CW_WELL_RING)
        return in->reach_ft;
    // A single well needs R beyond its own wall whatever k is.
    const double least_ft = cw_rows_value(rows, "inflow.reach_least") * circle_ft(in);
    const double wanted_ft =
        in->has_reach ? in->reach_ft
                      : cw_sitewater_reach_ft(in->influence, in->drawdown_ft, k_ft_per_day);
    return in->layout == CW_WELL_SINGLE ? fmax(least_ft, wanted_ft) : wanted_ft;
}

static double well_steady(const void *input, const cw_rows *rows, double k_ft_per_day)
{
    const cw_well_inflow_input *in = input;
    const double radius_ft = circle_ft(in), reach_ft = well_reach_ft(in, rows, k_ft_per_day);
    // R is counted from the centre of a well, from the edge of a ring.
    const double outer_ft = in->layout == CW_WELL_RING ? reach_ft + radius_ft : reach_ft;
    return CW_PI * drive_cfs(k_ft_per_day, in->head_ft, in->drawdown_ft) /
           log(outer_ft / radius_ft);
}

static bool compact(const cw_well_inflow_input *in, const cw_rows *rows)
{
    const double shorter_ft = fmin(in->length_ft, in->width_ft);
    const double longer_ft = fmax(in->length_ft, in->width_ft);
    return in->layout == CW_WELL_SINGLE ||
           cw_meets(longer_ft, shorter_ft * cw_rows_value(rows, "inflow.pit_ratio"));
}

cw_inflow cw_sitewater_well_inflow(const cw_well_inflow_input *in, const cw_rows *rows,
                                   cw_working *working)
{
    const bool ring = in->layout == CW_WELL_RING;
    const double k = in->k_ft_per_day;
    const double radius_ft = cw_step_add(working, "r", ring ? "sqrt(a b / pi)" : "d / 2",
                                         circle_ft(in), CW_DIM_FT, "derived: circle of equal area");
    const double reach_ft =
        cw_step_add(working, "R", in->has_reach ? "as given" : "C s sqrt(k)",
                    well_reach_ft(in, rows, k), CW_DIM_FT, in->has_reach ? practice : sichardt);
    cw_step_add(working, "Q",
                ring ? "pi k (H^2 - h^2) / ln((R + r)/r)" : "pi k (H^2 - h^2) / ln(R/r)",
                well_steady(in, rows, k), CW_DIM_CFS, dupuit);
    cw_inflow out = with_range(well_steady, in, k, rows, working);
    out.reach_ft = reach_ft;
    out.radius_ft = radius_ft;
    out.each_cfs = cw_step_add(working, "Q_1", ring ? "Q_p / N" : "Q_p",
                               out.start_cfs / (ring ? in->wells : 1), CW_DIM_CFS, practice);
    out.verdict = compact(in, rows) ? CW_HOLDS : CW_UNDECIDED;
    return out;
}

/* ---- calculators ---- */

static bool trench_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_trench_inflow_input_valid(input, where, diags);
}

static void trench_run(const void *input, void *output, cw_working *working)
{
    *(cw_inflow *)output = cw_sitewater_trench_inflow(input, &cw_data, working);
}

static bool well_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_well_inflow_input_valid(input, where, diags);
}

static void well_run(const void *input, void *output, cw_working *working)
{
    *(cw_inflow *)output = cw_sitewater_well_inflow(input, &cw_data, working);
}

const cw_calc cw_calc_trench_inflow = {
    .name = "trench-inflow",
    .title = "Groundwater into a long trench",
    .group = "sitewater",
    .about = "Steady inflow from one side or both, with its range for a third and three times the "
             "permeability, and the flow to plan pumps for.  Unconfined, uniform ground on an "
             "impervious base; no stream, rain or leak through a cofferdam.  Flow to a trench goes "
             "with 1/R: R rules the answer.",
    .source = "Dupuit: steady unconfined flow on an impervious base, Army TM 5-818-5",
    .inputs = trench_inputs,
    .input_count = COUNT(trench_inputs),
    .input_size = sizeof(cw_trench_inflow_input),
    .outputs = trench_outputs,
    .output_count = COUNT(trench_outputs),
    .output_size = sizeof(cw_inflow),
    .valid = trench_valid,
    .run = trench_run,
    .example = "permeability=0.0001m/s head=6m drawdown=4m length=120ft width=30ft",
};

const cw_calc cw_calc_well_inflow = {
    .name = "well-inflow",
    .title = "Groundwater to a well or a ring of wells",
    .group = "sitewater",
    .about = "Steady flow to one well, or to wells round a trench taken as a circle of equal area, "
             "with its range and the flow to plan pumps for.  Unconfined, uniform ground on an "
             "impervious base.  The spacing and the yield of the single wells are not checked.",
    .source = "Dupuit: steady unconfined flow on an impervious base, Army TM 5-818-5",
    .inputs = well_inputs,
    .input_count = COUNT(well_inputs),
    .input_size = sizeof(cw_well_inflow_input),
    .outputs = well_outputs,
    .output_count = COUNT(well_outputs),
    .output_size = sizeof(cw_inflow),
    .valid = well_valid,
    .run = well_run,
    .example = "permeability=0.0001m/s head=6m drawdown=4m layout=ring length=60ft width=40ft "
               "wells=10",
};
