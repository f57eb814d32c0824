/** @file
 * Closing up: sealant that fits the joint, the fluid fill between barrels and what it does to them,
 * the strength that is waited for, the backfill and its tests, the weather.
 *
 * US units: in, ft, lb, psf, psi, pcf, deg F.  Maturity is in deg C hours and its datum and
 * activation in the units of ASTM C1074.  Each function is pure; @p working may be NULL.  Inputs
 * lie within the limits of the calculator's fields (cw_calc_fill() refuses others); the ..._valid
 * functions report what no single field shows. */
#ifndef CW_CLOSING_H
#define CW_CLOSING_H

#include "cw/calc.h"
#include "cw/check.h"

/* ---- sealant ---- */

typedef enum cw_rope_state {
    CW_ROPE_FITS,
    CW_ROPE_TOO_LOW,  /**< no size is high enough for the widest annulus */
    CW_ROPE_TOO_FULL, /**< the least size that is high enough overfills the tightest annulus */
    CW_ROPE_STATES
} cw_rope_state;

typedef struct cw_rope_input {
    double annulus_min_in, annulus_max_in; /**< between the mating faces */
    double face_in;                        /**< length of the joint face along the mating depth */
    double compression_percent;            /**< at the widest annulus */
    int rows;                              /**< ropes side by side */
    bool has_width;
    double width_in;  /**< of one rope; as high as wide when not given */
    cw_list sizes_in; /**< heights that can be had */
    bool has_temperature;
    double temperature_f;     /**< of concrete and sealant */
    double temperature_min_f; /**< without warming or primer */
} cw_rope_input;

typedef struct cw_rope {
    int state; /**< cw_rope_state */
    double height_needed_in;
    double size_in; /**< chosen; with none, the size the figures are for */
    double squeeze_percent, squeeze_tight_percent; /**< at the widest and at the tightest annulus */
    double fill;                                   /**< of the joint face at the tightest annulus */
    double squeezed_in;                            /**< width of all rows at the tightest annulus */
    double annulus_max_in;   /**< widest annulus that a size which does not overfill would seal; 0:
                                none */
    int verdict;             /**< cw_verdict of the size */
    int verdict_temperature; /**< cw_verdict: undecided without a temperature */
} cw_rope;

bool cw_rope_input_valid(const cw_rope_input *input, cw_pos where, cw_diags *diags);
cw_rope cw_closing_rope(const cw_rope_input *input, cw_working *working);

/* ---- fluid fill and fresh concrete ---- */

typedef enum cw_mix {
    CW_MIX_PLAIN,    /**< types I, II, III without retarder */
    CW_MIX_MIDDLE,   /**< the same with retarder, or blends without */
    CW_MIX_SLOW,     /**< blends with retarder, or much slag or fly ash */
    CW_MIX_FLOWABLE, /**< flowable fill, grout: full fluid head */
    CW_MIXES
} cw_mix;

typedef enum cw_pressure_rule {
    CW_PRESSURE_FLUID, /**< full head, because of rate, slump, mix or no vibration */
    CW_PRESSURE_LOW_RATE,
    CW_PRESSURE_HIGH_RATE,
    CW_PRESSURE_LEAST, /**< the least value of the source governs */
    CW_PRESSURE_HEAD,  /**< the formula gives more than the full head */
    CW_PRESSURE_RULES
} cw_pressure_rule;

typedef struct cw_pressure_input {
    double unit_pcf, height_ft;
    double rate_ft_per_h;
    double temperature_f;
    int mix; /**< cw_mix */
    double slump_in;
    bool vibrated; /**< internally, within 4 ft of the surface */
} cw_pressure_input;

typedef struct cw_pressure {
    double weight_factor, mix_factor;
    double formula_psf; /**< before the limits; the head where no formula holds */
    double head_psf, pressure_psf;
    int rule;                /**< cw_pressure_rule */
    double thrust_lb_per_ft; /**< on the whole height */
    double moment_ft_lb;     /**< at the foot, for a foot of wall */
} cw_pressure;

/** @p rows holds form.* (data/closing.csv). */
cw_pressure cw_closing_pressure(const cw_pressure_input *input, const cw_rows *rows,
                                cw_working *working);

/* ---- strength with time ---- */

/** One interval of a temperature log. */
typedef struct cw_maturity_span {
    double hours, temperature_f; /**< mean over it */
} cw_maturity_span;

typedef struct cw_maturity_law {
    double datum_f;      /**< no hardening below */
    double activation_k; /**< activation energy over the gas constant, K */
    double reference_f;  /**< of the equivalent age */
} cw_maturity_law;

typedef struct cw_maturity {
    double hours;
    double maturity_ch; /**< Nurse-Saul, deg C h */
    double equivalent_h;
    double cold_h; /**< at or below the datum: counted for nothing */
    double coldest_f;
} cw_maturity;

/** Sums over @p count intervals; additive over any split of them. */
cw_maturity cw_closing_maturity(const cw_maturity_span *spans, int count,
                                const cw_maturity_law *law);
/** Hours of equivalent age that one hour at @p temperature_f gives. */
double cw_closing_age_factor(double temperature_f, const cw_maturity_law *law);

typedef struct cw_maturity_input {
    cw_list times_h; /**< since placing, rising; the end of each interval, or of each reading */
    cw_list temperatures_f; /**< mean of each interval, or the reading at each time */
    bool readings;
    double longest_h; /**< interval without a value that is accepted */
    cw_maturity_law law;
} cw_maturity_input;

/** Besides lists that do not match, a gap in the log is reported at its place in the list. */
bool cw_maturity_input_valid(const cw_maturity_input *input, cw_pos where, cw_diags *diags);
cw_maturity cw_closing_maturity_of(const cw_maturity_input *input, cw_working *working);

typedef enum cw_curve {
    CW_CURVE_HYPERBOLA, /**< S = S_u k (t - t_0)/(1 + k (t - t_0)) */
    CW_CURVE_LOG,       /**< S = a + b log10 t */
    CW_CURVE_BREAKS,    /**< the same, fitted to breaks */
    CW_CURVES
} cw_curve;

/** What a curve goes by. */
typedef enum cw_measure {
    CW_MEASURE_AGE,     /**< equivalent age, h */
    CW_MEASURE_MATURITY /**< Nurse-Saul, deg C h */
} cw_measure;

typedef enum cw_strength_state {
    CW_STRENGTH_REACHED,
    CW_STRENGTH_LATER,    /**< after the stated time */
    CW_STRENGTH_NEVER,    /**< the curve does not reach it */
    CW_STRENGTH_NO_CURVE, /**< strength not estimated */
    CW_STRENGTH_STATES
} cw_strength_state;

typedef struct cw_strength_input {
    int curve;   /**< cw_curve */
    int measure; /**< cw_measure of the curve and of the values below */
    double now;  /**< h of equivalent age, or deg C h */
    double target_psi;
    double temperature_f; /**< of the concrete from now on */
    cw_maturity_law law;
    bool has_final, has_rate, has_start, has_a, has_b;
    double final_psi, rate, start; /**< S_u, k, t_0 */
    double a_psi, b_psi;
    cw_list break_ages, break_psi; /**< rising ages */
} cw_strength_input;

typedef struct cw_strength {
    int state; /**< cw_strength_state */
    double strength_psi;
    bool has_needed, has_wait;
    double needed;     /**< in the measure of the curve, at the target */
    double wait_h;     /**< on the clock, at the temperature */
    bool extrapolated; /**< the target lies past the last break */
    double fit_sd_psi; /**< of the breaks about the fitted curve */
    int verdict;       /**< cw_verdict: undecided without a curve and past the last break */
} cw_strength;

/** Breaks needed for a curve. */
enum { CW_BREAKS_MIN = 4 };

bool cw_strength_input_valid(const cw_strength_input *input, cw_pos where, cw_diags *diags);
cw_strength cw_closing_strength(const cw_strength_input *input, cw_working *working);

/* ---- backfill ---- */

typedef struct cw_backfill_input {
    int barrels;
    double width_in, height_in, clear_gap_in; /**< outside of one barrel; between barrels */
    double work_ft, side_slope;               /**< the trench */
    double depth_ft;                          /**< filled, from the underside of the boxes */
    double length_ft;
    double lift_in, loose_ratio; /**< compacted lift; loose over compacted thickness */
    bool lids_on;
    double floor_in; /**< thickness, for the height that is allowed without lids */
    double difference_in, difference_open_in, open_height_ft;
    bool has_left, has_right;
    double left_ft, right_ft; /**< of the fill now, from the underside */
    double test_cy;           /**< compacted volume for one density test */
    int tests_least;          /**< in each lift of each side */
} cw_backfill_input;

typedef struct cw_backfill {
    int lifts;       /**< each side */
    double loose_in; /**< to spread */
    int lifts_apart; /**< of difference allowed */
    double area_sqft, volume_cy, loose_cy;
    int tests;              /**< in all */
    double difference_in;   /**< now */
    int verdict_difference; /**< cw_verdict: undecided without heights */
    double height_max_ft;   /**< above the underside, now */
    int verdict_height;     /**< cw_verdict of the higher side */
} cw_backfill;

bool cw_backfill_input_valid(const cw_backfill_input *input, cw_pos where, cw_diags *diags);
cw_backfill cw_closing_backfill(const cw_backfill_input *input, cw_working *working);

typedef struct cw_compaction_input {
    double wet_pcf, moisture_percent;
    bool has_optimum;
    double maximum_pcf, optimum_percent; /**< of the laboratory test named */
    double needed_percent, moisture_range_percent;
} cw_compaction_input;

typedef struct cw_compaction {
    double dry_pcf, relative_percent;
    bool has_optimum;
    double moisture_off_percent;   /**< field less optimum */
    int verdict, verdict_moisture; /**< cw_verdict: moisture undecided without an optimum */
} cw_compaction;

cw_compaction cw_closing_compaction(const cw_compaction_input *input, cw_working *working);

typedef struct cw_sand_cone_input {
    double sand_before_lb, sand_after_lb, cone_lb; /**< cone and plate */
    double sand_pcf;
    double soil_lb; /**< wet, from the hole */
    double moisture_percent;
    bool has_optimum;
    double maximum_pcf, optimum_percent;
    double needed_percent, moisture_range_percent;
} cw_sand_cone_input;

typedef struct cw_sand_cone {
    double hole_cuft, wet_pcf;
    cw_compaction compaction;
} cw_sand_cone;

bool cw_sand_cone_input_valid(const cw_sand_cone_input *input, cw_pos where, cw_diags *diags);
cw_sand_cone cw_closing_sand_cone(const cw_sand_cone_input *input, cw_working *working);

/* ---- weather ---- */

typedef struct cw_concreting_input {
    double air_f, concrete_f; /**< concrete: as placed */
    double mean_f;            /**< mean air temperature of the day */
    double least_in;          /**< least dimension of the section */
    bool frozen;              /**< ground or bedding under it */
} cw_concreting_input;

typedef struct cw_concreting {
    bool cold;                /**< the cold rules apply */
    double mixed_f, placed_f; /**< least temperatures */
    double drop_f;            /**< a difference: most in the first 24 h after protection, deg F */
    double hot_f;             /**< most at discharge */
    int verdict;              /**< cw_verdict */
} cw_concreting;

/** @p rows holds cold.* and hot.* (data/closing.csv). */
cw_concreting cw_closing_concreting(const cw_concreting_input *input, const cw_rows *rows,
                                    cw_working *working);

typedef struct cw_evaporation_input {
    double concrete_f, air_f, humidity_percent, wind_fps;
    double limit; /**< lb/ft2/h */
} cw_evaporation_input;

typedef struct cw_evaporation {
    double rate; /**< lb/ft2/h, 0 at least */
    int verdict;
} cw_evaporation;

cw_evaporation cw_closing_evaporation(const cw_evaporation_input *input, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_sealant_size;
extern const cw_calc cw_calc_form_pressure;
extern const cw_calc cw_calc_maturity;
extern const cw_calc cw_calc_strength_time;
extern const cw_calc cw_calc_backfill_lifts;
extern const cw_calc cw_calc_relative_compaction;
extern const cw_calc cw_calc_sand_cone;
extern const cw_calc cw_calc_concrete_temperature;
extern const cw_calc cw_calc_evaporation;

#endif
