#include "takeoff_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/tolerance.h"

static int pieces_bound(int count, int slots)
{
    return count / slots + (count % slots > 0 ? 1 : 0);
}

cw_truck_loads cw_takeoff_trucks(const double *weights_lb, int count, double payload_lb, int slots,
                                 int *load_of)
{
    assert(payload_lb > 0.0 && slots >= 1 && count >= 0);
    cw_truck_loads out = {.loads = 0};
    double on_truck_lb = 0.0;
    int on_truck = 0;
    for (int i = 0; i < count; i++) {
        const double weight = weights_lb[i];
        const bool fits =
            on_truck > 0 && on_truck < slots && cw_meets(on_truck_lb + weight, payload_lb);
        if (!fits) {
            out.loads++;
            on_truck = 0;
            on_truck_lb = 0.0;
        }
        on_truck++;
        on_truck_lb += weight;
        out.total_lb += weight;
        out.heaviest_load_lb = fmax(out.heaviest_load_lb, on_truck_lb);
        if (!cw_meets(weight, payload_lb))
            out.overweight++;
        if (load_of)
            load_of[i] = out.loads - 1;
    }
    const int by_weight = (int)(cw_takeoff_order(out.total_lb, payload_lb).up / payload_lb + 0.5);
    const int by_slots = pieces_bound(count, slots);
    out.lower_bound = by_weight > by_slots ? by_weight : by_slots;
    return out;
}

static const char range[] = "common practice: range of road loads";

static const cw_field inputs[] = {
    {"weights", "w_i", CW_KIND_LIST, CW_DIM_LB, 1.0, 400000.0, NULL, true,
     "weights of the pieces in setting order", range, NULL,
     offsetof(cw_truck_loads_input, weights_lb), CW_NO_FLAG},
    NUMBER_IN("payload", "Q", CW_DIM_LB, 1000.0, 400000.0, NULL, "a truck may carry", range,
              cw_truck_loads_input, payload_lb),
    COUNT_IN("slots", NULL, 1.0, 20.0, "3", "pieces that have room on a truck", range,
             cw_truck_loads_input, slots),
};

static const cw_field outputs[] = {
    COUNT_OUT("loads", NULL, "truck loads in setting order, nothing staged", cw_truck_loads_output,
              loads),
    COUNT_OUT("lower_bound", NULL, "no order of the same pieces needs fewer", cw_truck_loads_output,
              lower_bound),
    COUNT_OUT("overweight", NULL, "pieces heavier than the payload", cw_truck_loads_output,
              overweight),
    OUT("total", NULL, CW_DIM_LB, "all pieces", cw_truck_loads_output, total_lb),
    OUT("heaviest_load", NULL, CW_DIM_LB, "heaviest load", cw_truck_loads_output, heaviest_load_lb),
    {"load_of", NULL, CW_KIND_LIST, CW_DIM_COUNT, CW_ANY_LOW, CW_ANY_HIGH, NULL, false,
     "load of each piece, from 1", NULL, NULL, offsetof(cw_truck_loads_output, load_of),
     CW_NO_FLAG},
};

static bool weights_valid(const cw_list *weights, cw_pos where, cw_diags *diags)
{
    if (weights->count < 1 || weights->count > CW_LIST_MAX) {
        cw_diag_add(diags, where, CW_E_TOO_MANY, "%d weights; give 1 to %d", weights->count,
                    CW_LIST_MAX);
        return false;
    }
    for (int i = 0; i < weights->count; i++)
        if (!(weights->items[i] >= inputs[0].low && weights->items[i] <= inputs[0].high)) {
            cw_diag_add(
                diags, where, CW_E_RANGE,
                "weight %d is %.6g lb, outside %.6g to %.6g lb; check the value and its unit",
                i + 1, weights->items[i], inputs[0].low, inputs[0].high);
            return false;
        }
    return true;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    const cw_truck_loads_input *trucks = input;
    const bool numbers = cw_fields_in_range(inputs, COUNT(inputs), input, where, diags);
    return weights_valid(&trucks->weights_lb, where, diags) && numbers;
}

static void run(const void *input, void *output, cw_working *working)
{
    const cw_truck_loads_input *in = input;
    int load_of[CW_LIST_MAX];
    const cw_truck_loads loads = cw_takeoff_trucks(in->weights_lb.items, in->weights_lb.count,
                                                   in->payload_lb, in->slots, load_of);
    cw_truck_loads_output out = {.loads = loads.loads,
                                 .lower_bound = loads.lower_bound,
                                 .overweight = loads.overweight,
                                 .total_lb = loads.total_lb,
                                 .heaviest_load_lb = loads.heaviest_load_lb};
    out.load_of.count = in->weights_lb.count;
    for (int i = 0; i < out.load_of.count; i++)
        out.load_of.items[i] = load_of[i] + 1;
    cw_step_add(working, "W", "sum w_i", out.total_lb, CW_DIM_LB, "statics");
    cw_step_add(working, "m_0", "the larger of W / Q and pieces / slots, rounded up",
                out.lower_bound, CW_DIM_COUNT, "derived: counting bound");
    cw_step_add(working, "m", "next fit: a new truck when the next piece does not fit", out.loads,
                CW_DIM_COUNT, "derived: next fit is optimal for contiguous blocks");
    *(cw_truck_loads_output *)output = out;
}

const cw_calc cw_calc_truck_loads = {
    .name = "truck-loads",
    .title = "Truck loads in setting order",
    .group = "takeoff",
    .about = "Loads when every truck carries the next pieces of the setting order and nothing is "
             "staged. "
             "Axle loads, deck room and permits are not checked.",
    .source = "derived: next fit is optimal for contiguous blocks",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_truck_loads_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_truck_loads_output),
    .valid = valid,
    .run = run,
    .example = "weights=16650lb,16650lb,11275lb,16650lb,11275lb,11275lb "
               "payload=47000lb slots=3",
};
