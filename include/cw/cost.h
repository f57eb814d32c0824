/** @file
 * What the work costs, three ways on one site: pieces set by their own weight, whole rings lowered
 * and pulled together, and cast in place; the road user's side of a closure; break-evens.
 *
 * Money in cents, days as working days unless said.  Every price is a row of data/cost.csv that a
 * price file of the user replaces: none is a bid average.  Direct cost, closure and whole time are
 * kept apart.  Each function is pure;
 * @p working may be NULL. */
#ifndef CW_COST_H
#define CW_COST_H

#include "cw/calc.h"

/* ---- prices ---- */

/** @p base with the values that @p text gives in their place, marked as set by this job.  @p text
 * is CSV with the heading id,price or id,price,source: prices as people write them, "$1,050.00" or
 * 12 percent; lines with # are remarks.  Faults go to @p diags at @p file: an id that is not in @p
 * base, one given twice, a value that cannot be read or lies outside the limits of its row. */
cw_rows cw_cost_prices_read(const char *text, const char *file, const cw_rows *base,
                            cw_arena *arena, cw_diags *diags);

/* ---- three methods ---- */

typedef enum cw_method {
    CW_METHOD_GRAVITY, /**< two-piece, set by their own weight */
    CW_METHOD_PULLED,  /**< rings, lowered and pulled together */
    CW_METHOD_CAST,    /**< cast in place */
    CW_METHODS
} cw_method;

extern const char *const cw_method_words[]; /**< "gravity", "pulled", "cast", NULL */

typedef struct cw_methods_input {
    /* the work */
    double length_ft;                          /**< of all barrels together */
    double section_sqft;                       /**< concrete of the cross section, for casting */
    int picks;                                 /**< bases and tops to set */
    double pick_min;                           /**< crane time of each */
    double shift_min;                          /**< of a day that go into setting */
    double prepare_days;                       /**< before the first pick, gravity */
    double pulled_ft_per_day, cast_ft_per_day; /**< before the rate factor */
    double rate_factor;                        /**< place, traffic, soil and so on, on both */
    double same_days; /**< digging, bedding, backfill, headwalls: alike for all three */
    double days_per_week;
    double lead_days; /**< precast: calendar days from approval to the first piece */
    /* direct, gravity and pulled */
    double piece_ft_cents, ring_ft_cents; /**< delivered, a foot of barrel */
    double crane_day_cents, crew_day_cents, crew_pulled_day_cents, plant_day_cents;
    double mobilisation_cents;
    double joints_cents, joints_pulled_cents;
    double load_cents; /**< standing and escort of a truck load beyond the delivered price */
    int loads, ring_loads;
    /* direct, cast in place */
    double cast_day_cents; /**< crew, plant and forms */
    double concrete_cy_cents, waste_percent, bar_lb_cents;
    double bar_lb_per_cy;
    /* all */
    double same_cents;         /**< of what is alike */
    double indirect_day_cents; /**< site overhead, a working day */
    double traffic_day_cents;  /**< traffic control, a calendar day of closure */
    double user_day_cents;     /**< road user cost, a calendar day of closure */
    double share;              /**< of the cast-in-place cost that is asked about */
} cw_methods_input;

typedef struct cw_method_cost {
    double work_days;    /**< of the box only */
    double closure_days; /**< calendar days, with what is alike */
    double whole_days;   /**< calendar days from approval: lead time and closure */
    double direct_cents;
    double contractor_cents; /**< and indirect and traffic control */
    double owner_cents;      /**< and the road user's */
} cw_method_cost;

typedef struct cw_break_even {
    bool has;
    double value;
} cw_break_even;

typedef struct cw_methods {
    cw_method_cost of[CW_METHODS];
    double gravity_over_pulled, gravity_over_cast; /**< contractor */
    double gravity_over_cast_direct, gravity_over_cast_owner;
    cw_break_even
        indirect_day_cents; /**< from which gravity costs no more than the share of cast in place */
    cw_break_even user_day_cents; /**< road user cost from which it does so for the owner, on top of
                                     the rest */
    double piece_ft_cents_pulled,
        piece_ft_cents_cast;       /**< delivered price up to which gravity costs no more */
    cw_break_even pick_min_pulled; /**< crane time of a pick up to which it does not */
    double lead_days; /**< up to which gravity is done before cast in place, which starts at once */
} cw_methods;

/** Working days of the box by each method. */
double cw_cost_days(const cw_methods_input *input, cw_method method);
/** Cost of a method that takes so many working days for the box: for days that a simulation gave.
 */
cw_method_cost cw_cost_price(const cw_methods_input *input, cw_method method, double work_days);
cw_methods cw_cost_methods(const cw_methods_input *input, cw_working *working);

typedef struct cw_cost_swing {
    const char *key;              /**< input that is varied */
    double low, high;             /**< its values */
    double low_ratio, high_ratio; /**< gravity over cast in place, contractor */
} cw_cost_swing;

enum { CW_COST_SWINGS = 8 };

/** One input at a time a fifth down and up, the others as they are; greatest swing first, ties in
 * the order of the inputs. */
void cw_cost_swings(const cw_methods_input *input, cw_cost_swing swings[CW_COST_SWINGS]);

/** Change of gravity's contractor cost over change of an input, both in percent, by central
 * difference of one percent. */
double cw_cost_elasticity(const cw_methods_input *input, const char *key);

/* ---- road users ---- */

typedef struct cw_detour_input {
    double vehicles; /**< a day, that go round */
    double truck_percent;
    double detour_miles, detour_mph, direct_miles, direct_mph;
    double car_hour_cents, truck_hour_cents, car_mile_cents, truck_mile_cents;
} cw_detour_input;

typedef struct cw_detour {
    double minutes, miles;         /**< more than the direct way */
    double car_cents, truck_cents; /**< each */
    double day_cents;
} cw_detour;

bool cw_detour_input_valid(const cw_detour_input *input, cw_pos where, cw_diags *diags);
cw_detour cw_cost_detour(const cw_detour_input *input, cw_working *working);

typedef struct cw_queue_input {
    cw_list demand;  /**< vehicles in each hour */
    double capacity; /**< an hour */
    double truck_percent;
    double car_hour_cents, truck_hour_cents; /**< in a queue */
} cw_queue_input;

typedef struct cw_queue {
    double longest, left; /**< vehicles at the end of an hour; at the end of the last */
    double delay_h;       /**< of all vehicles */
    double cents;
} cw_queue;

bool cw_queue_input_valid(const cw_queue_input *input, cw_pos where, cw_diags *diags);
cw_queue cw_cost_queue(const cw_queue_input *input, cw_working *working);

typedef struct cw_bids_input {
    double price_a_cents, days_a, price_b_cents, days_b;
    double day_cents; /**< what the owner counts for a day */
} cw_bids_input;

typedef struct cw_bids {
    double total_a_cents, total_b_cents;
    cw_break_even day_cents; /**< at which both are alike */
} cw_bids;

cw_bids cw_cost_bids(const cw_bids_input *input, cw_working *working);

extern const cw_calc cw_calc_method_cost, cw_calc_detour_cost, cw_calc_queue_delay,
    cw_calc_bid_days;

#endif
