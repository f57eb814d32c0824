/* Trucks and the crane: a closed loop of trucks, and arrivals that know nothing of each other. */
#include "schedule_internal.h"

#include <math.h>

static const char range[] = "common practice: range of haul and unloading";
static const char finite_source[] =
    "queueing theory: one server, finite source (machine repair), all times exponential";
static const char open_queue[] =
    "queueing theory: Pollaczek-Khinchine mean wait, arrivals at random";

static const cw_field cycle_inputs[] = {
    NUMBER_IN("away", "Z", CW_DIM_MIN, 1.0, 1440.0, NULL,
              "from leaving the site until back on it: road, plant, loading, road", range,
              cw_truck_cycle_input, away_min),
    NUMBER_IN("unload", "s", CW_DIM_MIN, 1.0, 480.0, NULL, "crane time for the pieces of one load",
              range, cw_truck_cycle_input, unload_min),
    COUNT_IN("trucks", "N", 1, CW_TRUCKS_MAX, NULL, "in the loop", range, cw_truck_cycle_input,
             trucks),
};

static const cw_field cycle_outputs[] = {
    OUT("steady_loads", NULL, CW_DIM_NONE,
        "loads in an hour when every trip and every load take the same time", cw_truck_cycle,
        steady_per_h),
    OUT("random_loads", NULL, CW_DIM_NONE,
        "loads in an hour when the times are exponential: the truth lies between", cw_truck_cycle,
        random_per_h),
    OUT("crane_use", NULL, CW_DIM_NONE,
        "share of the time in which the crane unloads, times exponential", cw_truck_cycle,
        crane_use),
    OUT("wait", NULL, CW_DIM_MIN, "of a truck for the crane, times exponential", cw_truck_cycle,
        wait_min),
    COUNT_OUT("trucks_full", "N_full", "fewest that keep the crane busy when the times are steady",
              cw_truck_cycle, trucks_full),
};

cw_truck_cycle cw_schedule_truck_cycle(const cw_truck_cycle_input *in, cw_working *w)
{
    const double z = in->away_min, s = in->unload_min;
    cw_truck_cycle out = {.trucks_full = cw_count_up((z + s) / s)};
    out.steady_per_h = cw_step_add(w, "X_steady", "60 min(N/(Z + s), 1/s)",
                                   CW_MIN_PER_HOUR * fmin(in->trucks / (z + s), 1.0 / s),
                                   CW_DIM_NONE, "derived: the loop or the crane is full");
    // p_k/p_0 = N!/(N-k)! (s/Z)^k with k trucks at the crane; scaled down so that nothing
    // overflows.
    double weight = 1.0, total = 1.0, crowd = 0.0, scale = 1.0;
    for (int k = 1; k <= in->trucks; k++) {
        weight *= (in->trucks - k + 1) * s / z;
        total += weight;
        crowd += k * weight;
        if (total > 1e100) { // only ratios count
            weight /= 1e100;
            total /= 1e100;
            crowd /= 1e100;
            scale /= 1e100;
        }
    }
    const double idle = cw_step_add(w, "p_0", "1/sum of N!/(N-k)! (s/Z)^k", scale / total,
                                    CW_DIM_NONE, finite_source);
    out.crane_use = cw_step_add(w, "u", "1 - p_0", 1.0 - idle, CW_DIM_NONE, finite_source);
    out.random_per_h = cw_step_add(w, "X_random", "60 u/s", CW_MIN_PER_HOUR * out.crane_use / s,
                                   CW_DIM_NONE, finite_source);
    const double there =
        cw_step_add(w, "L", "mean trucks at the crane", crowd / total, CW_DIM_NONE, finite_source);
    out.wait_min = cw_step_add(w, "W", "L s/u - s", fmax(0.0, there * s / out.crane_use - s),
                               CW_DIM_MIN, finite_source);
    return out;
}

static void run_cycle(const void *input, void *output, cw_working *working)
{
    *(cw_truck_cycle *)output = cw_schedule_truck_cycle(input, working);
}

const cw_calc cw_calc_truck_cycle = {
    .name = "truck-cycle",
    .title = "Trucks in a loop between plant and crane",
    .group = "schedule",
    .about =
        "How many trucks keep the crane busy, and how long they wait.  One crane that unloads one "
        "truck at a time; "
        "without chance and with much of it.  The simulation of a whole job lies between both.",
    .source = "queueing theory: finite source",
    .inputs = cycle_inputs,
    .input_count = COUNT(cycle_inputs),
    .input_size = sizeof(cw_truck_cycle_input),
    .outputs = cycle_outputs,
    .output_count = COUNT(cycle_outputs),
    .output_size = sizeof(cw_truck_cycle),
    .run = run_cycle,
    .example = "away=120min unload=44min trucks=3",
};

/* ---- open queue ---- */

static const cw_field queue_inputs[] = {
    NUMBER_IN("every", "1/lambda", CW_DIM_MIN, 1.0, 1440.0, NULL,
              "mean time between trucks that come at random", range, cw_crane_queue_input,
              every_min),
    NUMBER_IN("unload", "s", CW_DIM_MIN, 0.5, 480.0, NULL, "crane time for one truck", range,
              cw_crane_queue_input, unload_min),
};

static const cw_field queue_outputs[] = {
    OUT("use", "rho", CW_DIM_NONE, "share of the time in which the crane unloads", cw_crane_queue,
        use),
    OUT("wait", "W_q", CW_DIM_MIN, "of a truck when unloading always takes the same time",
        cw_crane_queue, wait_min),
    OUT("wait_random", NULL, CW_DIM_MIN, "of a truck when unloading times are exponential",
        cw_crane_queue, wait_random_min),
};

bool cw_crane_queue_input_valid(const cw_crane_queue_input *in, cw_pos where, cw_diags *diags)
{
    if (in->unload_min < in->every_min)
        return true;
    cw_diag_add(
        diags, where, CW_E_CONFLICT,
        "a truck every %.6g min and %.6g min to unload it: the queue grows without end; send fewer",
        in->every_min, in->unload_min);
    return false;
}

cw_crane_queue cw_schedule_crane_queue(const cw_crane_queue_input *in, cw_working *w)
{
    cw_crane_queue out = {0};
    out.use =
        cw_step_add(w, "rho", "lambda s", in->unload_min / in->every_min, CW_DIM_NONE, open_queue);
    out.wait_min =
        cw_step_add(w, "W_q", "rho s/(2(1 - rho))",
                    out.use * in->unload_min / (2.0 * (1.0 - out.use)), CW_DIM_MIN, open_queue);
    out.wait_random_min =
        cw_step_add(w, "W_q,random", "rho s/(1 - rho)", out.use * in->unload_min / (1.0 - out.use),
                    CW_DIM_MIN, open_queue);
    return out;
}

static bool queue_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_crane_queue_input_valid(input, where, diags);
}

static void run_queue(const void *input, void *output, cw_working *working)
{
    *(cw_crane_queue *)output = cw_schedule_crane_queue(input, working);
}

const cw_calc cw_calc_crane_queue = {
    .name = "crane-queue",
    .title = "Wait of trucks that come at random",
    .group = "schedule",
    .about = "For deliveries by many haulers that do not wait for one another.  Long-run means: "
             "the first hours of a day "
             "are better.",
    .source = "queueing theory: Pollaczek-Khinchine",
    .inputs = queue_inputs,
    .input_count = COUNT(queue_inputs),
    .input_size = sizeof(cw_crane_queue_input),
    .outputs = queue_outputs,
    .output_count = COUNT(queue_outputs),
    .output_size = sizeof(cw_crane_queue),
    .valid = queue_valid,
    .run = run_queue,
    .example = "every=30min unload=22min",
};
