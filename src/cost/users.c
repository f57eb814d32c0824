/* The road user's side of a closure, and bids that count it. */
#include "cost_internal.h"

#include <math.h>

static const char components[] =
    "FHWA-HOP-12-005, ch. 2: user delay and vehicle operation; crashes and emissions not counted";
static const char range[] = "common practice: range of traffic";

/* ---- detour ---- */

#define TYPE cw_detour_input

static const cw_field detour_inputs[] = {
    NUMBER_IN("vehicles", "Q", CW_DIM_NONE, 0.0, 300000.0, NULL, "a day that go round", range, TYPE,
              vehicles),
    NUMBER_IN("trucks", "p_t", CW_DIM_PERCENT, 0.0, 100.0, NULL, "of them", range, TYPE,
              truck_percent),
    NUMBER_IN("detour_miles", NULL, CW_DIM_NONE, 0.01, 500.0, NULL, "length of the detour in miles",
              range, TYPE, detour_miles),
    NUMBER_IN("detour_speed", NULL, CW_DIM_NONE, 1.0, 90.0, NULL, "mph", range, TYPE, detour_mph),
    NUMBER_IN("direct_miles", NULL, CW_DIM_NONE, 0.0, 500.0, NULL,
              "length of the closed way in miles", range, TYPE, direct_miles),
    NUMBER_IN("direct_speed", NULL, CW_DIM_NONE, 1.0, 90.0, NULL, "mph", range, TYPE, direct_mph),
    CENTS_IN("car_hour", NULL, "@user.car_hour", "of a car and those in it, free flow", TYPE,
             car_hour_cents),
    CENTS_IN("truck_hour", NULL, "@user.truck_hour", "of a truck", TYPE, truck_hour_cents),
    CENTS_IN("car_mile", NULL, "@user.car_mile", "running cost of a car", TYPE, car_mile_cents),
    CENTS_IN("truck_mile", NULL, "@user.truck_mile", "running cost of a truck", TYPE,
             truck_mile_cents),
};

static const cw_field detour_outputs[] = {
    OUT("day", NULL, CW_DIM_MONEY, "road user cost of a calendar day", cw_detour, day_cents),
    OUT("minutes", "t", CW_DIM_MIN, "more than the direct way", cw_detour, minutes),
    OUT("miles", "x", CW_DIM_NONE, "more than the direct way", cw_detour, miles),
    OUT("car", NULL, CW_DIM_MONEY, "each car", cw_detour, car_cents),
    OUT("truck", NULL, CW_DIM_MONEY, "each truck", cw_detour, truck_cents),
};

bool cw_detour_input_valid(const cw_detour_input *in, cw_pos where, cw_diags *diags)
{
    if (in->detour_miles / in->detour_mph >= in->direct_miles / in->direct_mph &&
        in->detour_miles >= in->direct_miles)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "the detour, %.6g mi at %.6g mph, is shorter or quicker than the direct way, %.6g "
                "mi at %.6g mph; exchange them",
                in->detour_miles, in->detour_mph, in->direct_miles, in->direct_mph);
    return false;
}

cw_detour cw_cost_detour(const cw_detour_input *in, cw_working *w)
{
    cw_detour out = {0};
    const double hours = in->detour_miles / in->detour_mph - in->direct_miles / in->direct_mph;
    const double trucks = in->truck_percent / CW_PERCENT;
    out.minutes = cw_step_add(w, "t", "detour/speed - direct/speed", hours * CW_MIN_PER_HOUR,
                              CW_DIM_MIN, components);
    out.miles = cw_step_add(w, "x", "detour - direct", in->detour_miles - in->direct_miles,
                            CW_DIM_NONE, components);
    out.car_cents = cw_step_add(w, "u_car", "hour t + mile x",
                                in->car_hour_cents * hours + in->car_mile_cents * out.miles,
                                CW_DIM_MONEY, components);
    out.truck_cents = cw_step_add(w, "u_truck", "hour t + mile x",
                                  in->truck_hour_cents * hours + in->truck_mile_cents * out.miles,
                                  CW_DIM_MONEY, components);
    out.day_cents =
        cw_step_add(w, "U", "Q ((1 - p_t) u_car + p_t u_truck)",
                    in->vehicles * ((1.0 - trucks) * out.car_cents + trucks * out.truck_cents),
                    CW_DIM_MONEY, components);
    return out;
}

static bool detour_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_detour_input_valid(input, where, diags);
}

static void run_detour(const void *input, void *output, cw_working *working)
{
    *(cw_detour *)output = cw_cost_detour(input, working);
}

const cw_calc cw_calc_detour_cost = {
    .name = "detour-cost",
    .title = "Road user cost of a detour",
    .group = "cost",
    .about = "A cost of the public, not of the contractor: it enters a bid only by price and time, "
             "incentive, lane rental "
             "or liquidated damages.  Free flow on the detour; values are of their year and are "
             "not indexed.",
    .source = "FHWA-HOP-12-005, 2011, ch. 2; values of the Texas A&M Transportation Institute for "
              "Texas DOT, 2018 (2017 dollars)",
    .inputs = detour_inputs,
    .input_count = COUNT(detour_inputs),
    .input_size = sizeof(TYPE),
    .outputs = detour_outputs,
    .output_count = COUNT(detour_outputs),
    .output_size = sizeof(cw_detour),
    .valid = detour_valid,
    .run = run_detour,
    .example =
        "vehicles=4000 trucks=8% detour_miles=6.5 detour_speed=35 direct_miles=0.5 direct_speed=45",
};

/* ---- queue ---- */

#undef TYPE
#define TYPE cw_queue_input
static const char balance[] =
    "New Jersey DOT Road User Cost Manual, sec. 1: queue when demand is above capacity";

static const cw_field queue_inputs[] = {
    LIST_IN("demand", "v_i", CW_DIM_NONE, 0.0, 20000.0, NULL,
            "vehicles in each hour of the closure, in order", range, TYPE, demand),
    NUMBER_IN("capacity", "c", CW_DIM_NONE, 1.0, 20000.0, NULL, "vehicles an hour past the work",
              range, TYPE, capacity),
    NUMBER_IN("trucks", "p_t", CW_DIM_PERCENT, 0.0, 100.0, "0 percent", "of them", range, TYPE,
              truck_percent),
    CENTS_IN("car_hour", NULL, "@user.car_hour_queue", "of a car in a queue", TYPE, car_hour_cents),
    CENTS_IN("truck_hour", NULL, "@user.truck_hour_queue", "of a truck in a queue", TYPE,
             truck_hour_cents),
};

static const cw_field queue_outputs[] = {
    OUT("delay", NULL, CW_DIM_HOUR, "of all vehicles together", cw_queue, delay_h),
    OUT("longest", NULL, CW_DIM_NONE, "vehicles in the queue at the end of an hour", cw_queue,
        longest),
    OUT("left", NULL, CW_DIM_NONE, "still in it at the end: give more hours when it is not 0",
        cw_queue, left),
    OUT("cost", NULL, CW_DIM_MONEY, "of the delay", cw_queue, cents),
};

bool cw_queue_input_valid(const cw_queue_input *in, cw_pos where, cw_diags *diags)
{
    if (in->demand.count > 0)
        return true;
    cw_diag_add(diags, where, CW_E_MISSING,
                "demand is not given; give the vehicles of each hour, in order");
    return false;
}

cw_queue cw_cost_queue(const cw_queue_input *in, cw_working *w)
{
    cw_queue out = {0};
    double queue = 0.0;
    for (int i = 0; i < in->demand.count; i++) {
        const double grows = in->demand.items[i] - in->capacity, next = queue + grows;
        // Straight within the hour; where it runs empty, only up to then.
        if (next >= 0.0)
            out.delay_h += (queue + next) / 2.0;
        else
            out.delay_h += queue * queue / (-2.0 * grows);
        queue = fmax(0.0, next);
        out.longest = fmax(out.longest, queue);
    }
    out.left = queue;
    const double trucks = in->truck_percent / CW_PERCENT;
    cw_step_add(w, "Q_max", "greatest of max(0, Q + v - c)", out.longest, CW_DIM_NONE, balance);
    cw_step_add(w, "delay", "sum of (Q + Q')/2, or Q^2/(2(c - v)) where it empties", out.delay_h,
                CW_DIM_HOUR, balance);
    out.cents = cw_step_add(
        w, "cost", "delay ((1 - p_t) car + p_t truck)",
        out.delay_h * ((1.0 - trucks) * in->car_hour_cents + trucks * in->truck_hour_cents),
        CW_DIM_MONEY, components);
    return out;
}

static bool queue_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_queue_input_valid(input, where, diags);
}

static void run_queue(const void *input, void *output, cw_working *working)
{
    *(cw_queue *)output = cw_cost_queue(input, working);
}

const cw_calc cw_calc_queue_delay = {
    .name = "queue-delay",
    .title = "Delay in the queue at a lane closure",
    .group = "cost",
    .about = "Vehicles that wait because fewer pass than come.  Slowing down through the work zone "
             "is not counted.",
    .source = "New Jersey DOT Road User Cost Manual, sec. 1",
    .inputs = queue_inputs,
    .input_count = COUNT(queue_inputs),
    .input_size = sizeof(TYPE),
    .outputs = queue_outputs,
    .output_count = COUNT(queue_outputs),
    .output_size = sizeof(cw_queue),
    .valid = queue_valid,
    .run = run_queue,
    .example = "demand=600,900,1200,1100,700,400,300 capacity=800 trucks=8%",
};

/* ---- bids ---- */

#undef TYPE
#define TYPE cw_bids_input
static const char price_time[] = "TRR 1732, paper 00-0328 (2000): price and time bidding";

static const cw_field bids_inputs[] = {
    CENTS_IN("price_a", NULL, NULL, "first bid", TYPE, price_a_cents),
    NUMBER_IN("days_a", NULL, CW_DIM_NONE, 0.0, 2000.0, NULL, "its calendar days", range, TYPE,
              days_a),
    CENTS_IN("price_b", NULL, NULL, "second bid", TYPE, price_b_cents),
    NUMBER_IN("days_b", NULL, CW_DIM_NONE, 0.0, 2000.0, NULL, "its calendar days", range, TYPE,
              days_b),
    CENTS_IN("day", NULL, NULL, "what the owner counts for a day", TYPE, day_cents),
};

static const cw_field bids_outputs[] = {
    OUT("total_a", NULL, CW_DIM_MONEY, "price and days", cw_bids, total_a_cents),
    OUT("total_b", NULL, CW_DIM_MONEY, "price and days", cw_bids, total_b_cents),
    OPTION_OUT("day_even", NULL, CW_DIM_MONEY, "a day, at which both are alike", cw_bids,
               day_cents.value, day_cents.has),
};

cw_bids cw_cost_bids(const cw_bids_input *in, cw_working *w)
{
    cw_bids out = {0};
    out.total_a_cents =
        cw_step_add(w, "A", "price + days x day", in->price_a_cents + in->days_a * in->day_cents,
                    CW_DIM_MONEY, price_time);
    out.total_b_cents =
        cw_step_add(w, "B", "price + days x day", in->price_b_cents + in->days_b * in->day_cents,
                    CW_DIM_MONEY, price_time);
    const double days = in->days_a - in->days_b, cents = in->price_b_cents - in->price_a_cents;
    out.day_cents.has = fabs(days) > CW_RATIO_SLACK && cents / days >= 0.0;
    if (out.day_cents.has)
        out.day_cents.value = cw_step_add(w, "even", "(price_b - price_a)/(days_a - days_b)",
                                          cents / days, CW_DIM_MONEY, "derived: both totals alike");
    return out;
}

static void run_bids(const void *input, void *output, cw_working *working)
{
    *(cw_bids *)output = cw_cost_bids(input, working);
}

const cw_calc cw_calc_bid_days = {
    .name = "bid-days",
    .title = "Two bids by price and time",
    .group = "cost",
    .about = "Which bid is lower once days count, and from which value of a day on.",
    .source = "TRR 1732, paper 00-0328 (2000)",
    .inputs = bids_inputs,
    .input_count = COUNT(bids_inputs),
    .input_size = sizeof(TYPE),
    .outputs = bids_outputs,
    .output_count = COUNT(bids_outputs),
    .output_size = sizeof(cw_bids),
    .run = run_bids,
    .example = "price_a=$520000 days_a=38 price_b=$610000 days_b=14 day=$9000",
};
