/** @file
 * Time: calendars, a network of activities, laws of durations, the setting of the pieces as a
 * discrete-event simulation with its crane, crews and trucks, and the figures that come out of many
 * runs of it.
 *
 * Times are minutes from midnight before day 0 of the schedule: whole minutes in the network, plain
 * numbers in the simulation.  A day number counts from 1970-01-01.  Each function is pure; @p
 * working may be NULL.  Inputs of the calculators lie within the limits of their fields. */
#ifndef CW_SCHEDULE_H
#define CW_SCHEDULE_H

#include <stdint.h>

#include "cw/calc.h"
#include "cw/date.h"

/* ---- calendars ---- */

enum { CW_DAY_MIN = 1440, CW_CLOCK_DAYS_MAX = 7320 };

/** When work goes on.  One window a day; a night shift may run past midnight up to the next day's
 * window. */
typedef struct cw_calendar {
    int start_min[CW_WEEKDAYS]; /**< from Monday; minutes after midnight */
    int work_min[CW_WEEKDAYS];  /**< 0: a day off */
    const int *off_days;        /**< holidays and closed days: day numbers, rising */
    int off_count;
} cw_calendar;

/** The clock that never stops: curing. */
cw_calendar cw_calendar_elapsed(void);

/** A calendar laid out over @c days days from @c first_day. */
typedef struct cw_clock {
    int first_day, days;
    const int *start_min, *work_min; /**< of each day */
    const int64_t *before_min;       /**< work before each day, and in all */
} cw_clock;

/** @pre days <= CW_CLOCK_DAYS_MAX. */
cw_clock cw_clock_make(const cw_calendar *calendar, int first_day, int days, cw_arena *arena);
/** Work from the beginning to @p at_min. */
int64_t cw_clock_worked(const cw_clock *clock, int64_t at_min);
/** First working moment not before @p at_min. */
int64_t cw_clock_begin(const cw_clock *clock, int64_t at_min);
/** Earliest end of @p work_min of work that begins at @p at_min or later; past the last day when
 * there is not so much. */
int64_t cw_clock_finish(const cw_clock *clock, int64_t at_min, int64_t work_min);
/** Latest beginning of @p work_min of work that ends by @p at_min. */
int64_t cw_clock_back(const cw_clock *clock, int64_t at_min, int64_t work_min);

/* ---- network ---- */

typedef enum cw_link_kind {
    CW_FINISH_START,
    CW_START_START,
    CW_FINISH_FINISH,
    CW_START_FINISH,
    CW_LINK_KINDS
} cw_link_kind;

typedef struct cw_link {
    int from, to;
    cw_link_kind kind;
    int64_t lag_min; /**< on the clock of the lag; below 0 it overlaps */
    int clock;       /**< of the lag: curing goes on at night */
} cw_link;

typedef struct cw_activity {
    int64_t duration_min; /**< of work on its clock */
    int clock;
    int64_t not_before_min;
} cw_activity;

typedef struct cw_network {
    const cw_activity *activities;
    int count;
    const cw_link *links;
    int link_count;
    const cw_clock *clocks;
} cw_network;

typedef struct cw_activity_times {
    int64_t early_start_min, early_finish_min, late_start_min, late_finish_min;
    int64_t float_min; /**< total, in work of its own clock */
    int64_t free_min;  /**< delays nothing that follows */
    bool critical;     /**< no total float */
} cw_activity_times;

typedef enum cw_network_status {
    CW_NETWORK_OK,
    CW_NETWORK_CYCLE,   /**< @c cycle names its activities */
    CW_NETWORK_TOO_LONG /**< past the last day of a clock */
} cw_network_status;

typedef struct cw_network_answer {
    cw_network_status status;
    const cw_activity_times *times; /**< by activity; NULL unless OK */
    int64_t finish_min;
    const int *cycle; /**< each waits for the one before it, the first for the last */
    int cycle_count;
    const int *order; /**< activities, none before what it waits for */
} cw_network_answer;

/** Early and late times.  Linear in activities and links.  @pre indices are in range. */
cw_network_answer cw_network_solve(const cw_network *network, cw_arena *arena);

/* ---- random numbers: by place, so that no draw moves another and the order of drawing does not
 * matter ---- */

/** Output @p place (from 0) of the 64-bit split-mix generator that begins at @p state (Steele, Lea,
 * Flood 2014). */
uint64_t cw_random_word(uint64_t state, uint64_t place);
/** State of one run. */
uint64_t cw_random_run(uint64_t seed, int run);
/** Share in (0, 1), 53 bits. */
double cw_random_share(uint64_t state, uint64_t place);

/* ---- laws of durations ---- */

typedef enum cw_law_kind {
    CW_LAW_FIXED,      /**< always likely */
    CW_LAW_TRIANGULAR, /**< low, likely, high */
    CW_LAW_BETA, /**< the same, mean (low + 4 likely + high)/6, shape parameters 1 + 4 (likely -
                    low)/(high - low) and its mirror */
    CW_LAW_LOGNORMAL, /**< mean and variation */
    CW_LAW_KINDS
} cw_law_kind;

extern const char *const cw_law_words[]; /**< "fixed", "triangular", "beta", "lognormal", NULL */

typedef struct cw_law {
    int kind; /**< cw_law_kind */
    double low, likely, high;
    double mean, variation; /**< lognormal: standard deviation over mean */
} cw_law;

/** low <= likely <= high with low < high, or mean > 0 with 0 < variation <= 2; never below 0. */
bool cw_law_valid(const cw_law *law);
double cw_law_mean(const cw_law *law);
double cw_law_variance(const cw_law *law);
/** Share of the values that are not above @p value. */
double cw_law_share(const cw_law *law, double value);
/** The value that @p share of all lie under, 0 < share < 1, to 1e-12 of the range. */
double cw_law_quantile(const cw_law *law, double share);

enum { CW_SAMPLER_GRIDS = 5 };

/** Quantile at a knot of a grid, and its slope there for one cell. */
typedef struct cw_knot {
    double value, slope;
} cw_knot;

/** A law ready for many draws: quantiles on even grids with cubics between them, exact in the last
 * 1/4096 of either end: within 0.001 standard deviations of the law. */
typedef struct cw_sampler {
    cw_law law;
    const cw_knot *knots; /**< of all grids; NULL: direct */
} cw_sampler;

cw_sampler cw_sampler_make(const cw_law *law, cw_arena *arena);
/** Rises with @p share. */
double cw_sampler_at(const cw_sampler *sampler, double share);

/** Standard normal value that @p share of all lie under. */
double cw_normal_quantile(double share);
double cw_normal_share(double z);

/* ---- setting as a simulation ---- */

enum {
    CW_CREWS_MAX = 8,
    CW_CREW_SETS_MAX = 32, /**< different sets of crews that steps take */
    CW_LEARNING_MAX = 4,
    CW_SETTING_STEPS_MAX = 20000,
    CW_TRUCKS_MAX = 60
};

/** Weather that stops a step, as bits. */
typedef enum cw_exposed {
    CW_EXPOSED_NOT = 0,
    CW_EXPOSED_RAIN = 1,
    CW_EXPOSED_DRYING = 2, /**< the day after rain */
    CW_EXPOSED_WIND = 4,
    CW_EXPOSED_COLD = 8
} cw_exposed;

/** A kind of bad days: a chain of two states that keeps the share. */
typedef struct cw_bad_days {
    double share;       /**< of all days, 0 to 0.95 */
    double persistence; /**< correlation of a day with the next, 0 to 0.95 */
} cw_bad_days;

typedef struct cw_setting_step {
    int law;          /**< index into laws; -1: takes no time */
    unsigned crews;   /**< bits of the crews that it takes; 0: goes on by itself day and night */
    unsigned exposed; /**< bits of cw_exposed */
    bool whole;       /**< is not begun when the shift would end before it */
    int setup;        /**< crane position; -1: any */
    int learning;     /**< group; -1: none */
    int from_load;    /**< waits for this truck load; -1: none */
    int off_load;     /**< takes a piece off this load; -1: none */
    uint64_t stream;  /**< its random numbers: the same in alternatives that are compared */
} cw_setting_step;

typedef struct cw_learning_group {
    double ratio; /**< time of the second over the first, each doubling; 1: none */
    double least; /**< share of the first time where it stops */
} cw_learning_group;

typedef struct cw_setting_job {
    const cw_setting_step *steps;
    int step_count;
    const int *follow_from, *follows; /**< steps that wait for step i: follows[follow_from[i]] .. */
    const int *rank;    /**< place in the wanted order; the lowest that can begin does */
    const cw_law *laws; /**< minutes */
    int law_count;
    int crew_count, crew_size[CW_CREWS_MAX]; /**< how many such crews there are */
    int crane;                               /**< the crew that is the crane; -1: none */
    int move_law;                            /**< crane from one position to another; -1: no time */
    int load_count, truck_count;
    const int
        *load_gate; /**< step after which a truck may be sent with this load; -1: from the start */
    int load_law, out_law, back_law; /**< at the plant, loaded to the site, and back; -1: no time */
    cw_clock clock;
    cw_bad_days rain, wind, cold;
    double day_variation; /**< of a factor common to all crew work that begins on one day; mean 1,
                             lognormal */
    double job_variation; /**< of one common to the whole run */
    cw_learning_group learning[CW_LEARNING_MAX];
} cw_setting_job;

/** NULL when it can be simulated, else what is wrong (in @p arena). */
const char *cw_setting_fault(const cw_setting_job *job, cw_arena *arena);

/** What is worked out once for all runs. */
typedef struct cw_setting cw_setting;
/** @pre cw_setting_fault() is NULL. */
const cw_setting *cw_setting_prepare(const cw_setting_job *job, cw_arena *arena);

/** What one run at a time writes on; each thread has its own. */
typedef struct cw_setting_scratch {
    struct cw_setting_state *state;
    const double *start_min, *finish_min; /**< of each step in the last run */
    const int
        *critical_count; /**< runs in which each step lay on the chain that led to the finish */
    int run_count;       /**< so far */
} cw_setting_scratch;
cw_setting_scratch *cw_setting_scratch_make(const cw_setting *setting, cw_arena *arena);

typedef enum cw_setting_status {
    CW_SETTING_DONE,
    CW_SETTING_STUCK,    /**< steps wait for one another or for a truck that cannot come */
    CW_SETTING_TOO_LONG, /**< past the last day of the clock */
    CW_SETTING_STATES
} cw_setting_status;

typedef struct cw_setting_outcome {
    int status;                            /**< cw_setting_status */
    int stuck_step;                        /**< first step in rank that was not done; -1 */
    double finish_min;                     /**< end of the last step */
    double crane_used_min, crane_idle_min; /**< of the shifts from its first pick to its last */
    int crane_days; /**< days from the first pick to the last, with both and those between on which
                       there is work */
    double truck_wait_min; /**< of all trucks on site, in working time, beyond the steps that unload
                              them */
} cw_setting_outcome;

/** Run @p run of @p seed.  The same answer in any order and on any thread. */
cw_setting_outcome cw_setting_run(const cw_setting *setting, uint64_t seed, int run,
                                  cw_setting_scratch *scratch);

/** One run without chance: each law at its own @p share (law_count of them), no bad days, common
 * factors 1. */
cw_setting_outcome cw_setting_fixed(const cw_setting *setting, const double *share,
                                    cw_setting_scratch *scratch);

/* ---- many runs ---- */

typedef struct cw_figures {
    int count;
    double mean, sd;
    double p10, p50, p80, p90;
    double p80_low, p80_high; /**< 95 percent band of the P80 from so many runs */
} cw_figures;

/** Sort @p values and take their figures.  A percentile is the value of rank ceil(p N). */
cw_figures cw_figures_of(double *values, int count);
/** Share of sorted @p values that are not above @p limit. */
double cw_figures_share(const double *values, int count, double limit);

/** What one input does to the finish: the others at their medians. */
typedef struct cw_finish_swing {
    int law;
    double low_min, high_min; /**< finish with this law at its P10 and P90 */
} cw_finish_swing;

/** Swings of all laws, greatest first, ties by index, into @p swings; @p share is scratch
 * (law_count of both). */
void cw_setting_swings(const cw_setting *setting, cw_setting_scratch *scratch, double *share,
                       cw_finish_swing *swings);

/* ---- cast in place ---- */

/** Segments one after the other, three stages, one set of top forms; whole working days. */
typedef struct cw_cast_line_input {
    int segments;
    double base_days, base_wait_days; /**< form, bar, pour; then until the wall may stand on it */
    double wall_days, wall_wait_days;
    double top_days, strip_days; /**< strip: cure and strip before the forms move on */
} cw_cast_line_input;

typedef struct cw_cast_line {
    double base_end_days, wall_end_days, top_end_days; /**< of the last segment */
    double days;                                       /**< forms free after the last */
} cw_cast_line;

cw_cast_line cw_schedule_cast_line(const cw_cast_line_input *input, cw_working *working);

/* ---- trucks ---- */

typedef struct cw_truck_cycle_input {
    double away_min, unload_min; /**< back to the plant, loading, out; crane minutes a load */
    int trucks;
} cw_truck_cycle_input;

typedef struct cw_truck_cycle {
    double steady_per_h; /**< loads, all times alike */
    double random_per_h; /**< all times exponential */
    double crane_use;    /**< of the random case */
    double wait_min;     /**< a load, random case */
    int trucks_full;     /**< that keep the crane busy when all times are alike */
} cw_truck_cycle;

cw_truck_cycle cw_schedule_truck_cycle(const cw_truck_cycle_input *input, cw_working *working);

typedef struct cw_crane_queue_input {
    double every_min, unload_min;
} cw_crane_queue_input;

typedef struct cw_crane_queue {
    double use;
    double wait_min, wait_random_min; /**< unloading always alike; exponential */
} cw_crane_queue;

bool cw_crane_queue_input_valid(const cw_crane_queue_input *input, cw_pos where, cw_diags *diags);
cw_crane_queue cw_schedule_crane_queue(const cw_crane_queue_input *input, cw_working *working);

/* ---- learning ---- */

typedef enum cw_learning_form {
    CW_LEARNING_UNIT,   /**< each doubling multiplies the time of the piece */
    CW_LEARNING_AVERAGE /**< each doubling multiplies the average time so far */
} cw_learning_form;

typedef struct cw_learning_input {
    double first_min, ratio;
    int pieces;
    int form;         /**< cw_learning_form */
    double least_min; /**< no piece takes less */
} cw_learning_input;

typedef struct cw_learning {
    double total_min, last_min, mean_min;
} cw_learning;

cw_learning cw_schedule_learning(const cw_learning_input *input, cw_working *working);

/* ---- weather days ---- */

typedef struct cw_weather_days_input {
    int needed;  /**< workable days */
    double good; /**< share of days that are workable */
    double persistence;
    bool has_by;
    double by_days;
} cw_weather_days_input;

typedef struct cw_weather_days {
    double mean_days, sd_days;
    double p10_days, p50_days, p80_days, p90_days;
    bool has_by;
    double by_share; /**< done by then */
} cw_weather_days;

cw_weather_days cw_schedule_weather_days(const cw_weather_days_input *input, cw_working *working);

/* ---- progress ---- */

typedef struct cw_progress_input {
    cw_list planned; /**< earned value as planned at the end of each period, rising */
    double periods;  /**< gone by */
    double earned;
    bool has_actual;
    double actual; /**< cost so far, in the units of the values */
} cw_progress_input;

typedef struct cw_progress {
    double planned;                    /**< by now */
    double variance, index;            /**< earned less planned, over planned */
    double earned_periods, time_index; /**< earned schedule, over the periods gone by */
    double forecast_periods;           /**< whole duration over the time index */
    bool has_cost;
    double cost_variance, cost_index, cost_forecast, to_go_index;
} cw_progress;

bool cw_progress_input_valid(const cw_progress_input *input, cw_pos where, cw_diags *diags);
cw_progress cw_schedule_progress(const cw_progress_input *input, cw_working *working);

typedef struct cw_setting_rate_input {
    double expected_min;  /**< for a piece, before the work began */
    double weight_pieces; /**< how many pieces that is worth */
    int set;
    double average_min;
    int left;
} cw_setting_rate_input;

typedef struct cw_setting_rate {
    double rate_min, left_min;
} cw_setting_rate;

cw_setting_rate cw_schedule_setting_rate(const cw_setting_rate_input *input, cw_working *working);

/* ---- other calculators ---- */

typedef struct cw_work_days_input {
    double days;
    int start;         /**< weekday, 0 Monday */
    int days_per_week; /**< from Monday */
} cw_work_days_input;

typedef struct cw_work_days {
    int working, calendar; /**< whole days; calendar: the first day counts */
} cw_work_days;

cw_work_days cw_schedule_work_days(const cw_work_days_input *input, cw_working *working);

typedef struct cw_duration_input {
    int law; /**< cw_law_kind */
    bool has_low, has_likely, has_high, has_mean, has_variation;
    double low_min, likely_min, high_min, mean_min, variation;
} cw_duration_input;

typedef struct cw_duration {
    double mean_min, sd_min, p10_min, p50_min, p80_min, p90_min;
} cw_duration;

bool cw_duration_input_valid(const cw_duration_input *input, cw_pos where, cw_diags *diags);
cw_duration cw_schedule_duration(const cw_duration_input *input, cw_working *working);

/** A chain of activities, each with three times; sums by the rule of three-point estimates. */
typedef struct cw_chain_input {
    cw_list low, likely, high; /**< in one unit of time */
    double by;
} cw_chain_input;

typedef struct cw_chain {
    double mean, sd, p80, p90, by_share;
} cw_chain;

bool cw_chain_input_valid(const cw_chain_input *input, cw_pos where, cw_diags *diags);
cw_chain cw_schedule_chain(const cw_chain_input *input, cw_working *working);

/** A network typed in one line: name:duration:needs with / between; a need is a name with ~fs, ~ss,
 * ~ff or ~sf and a lag. */
typedef struct cw_network_input {
    const char *activities;
} cw_network_input;

typedef struct cw_network_result {
    double finish, sd, p80; /**< in the unit of the durations, to 1/1440 of it */
    cw_list floats;         /**< total, in the order as typed */
    int critical;
} cw_network_result;

bool cw_network_input_valid(const cw_network_input *input, cw_pos where, cw_diags *diags);
cw_network_result cw_schedule_network(const cw_network_input *input, cw_working *working);

extern const cw_calc cw_calc_network, cw_calc_work_days, cw_calc_duration, cw_calc_chain,
    cw_calc_weather_days, cw_calc_truck_cycle, cw_calc_crane_queue, cw_calc_learning,
    cw_calc_cast_line, cw_calc_progress, cw_calc_setting_rate;

#endif
