/** @file
 * Line and grade: what the rod reads, camber for settlement, how far the laid length runs from the
 * drawn one, the gap that the rest of the joints must take, and the heading.
 *
 * US units: ft for survey, in for gaps and cast lengths.  Plan distances count from the outlet,
 * upstream.  A right turn and an offset to the right (looking upstream) are positive.  Each
 * function is pure; @p working may be NULL.  Inputs lie within the limits of the calculator's
 * fields (cw_calc_fill() refuses others); the ..._valid functions report what no single field
 * shows. */
#ifndef CW_GRADE_H
#define CW_GRADE_H

#include "cw/calc.h"
#include "cw/check.h"

/* ---- rod and laser ---- */

typedef struct cw_rod_input {
    double benchmark_ft, backsight_ft;
    double outlet_ft;   /**< invert at the outlet */
    double slope;       /**< rising upstream */
    double distance_ft; /**< plan distance of the point from the outlet */
    double floor_in;    /**< thickness of the floor */
    double leveling_in, bedding_in;
    bool has_wall;
    double wall_top_in; /**< top of the base's wall above the invert, square to grade */
    double rise_in;     /**< camber or other raise of the invert here */
} cw_rod_input;

typedef struct cw_rod {
    double instrument_ft;                  /**< height of instrument */
    double invert_ft, bed_ft, subgrade_ft; /**< elevations; bed: top of the leveling course */
    bool has_wall;
    double wall_top_ft;
    double rod_invert_ft, rod_bed_ft, rod_subgrade_ft, rod_wall_top_ft;
    double laser_percent;
    int verdict; /**< cw_verdict: fails when the rod would read below 0 */
} cw_rod;

cw_rod cw_grade_rod(const cw_rod_input *input, cw_working *working);

typedef struct cw_stake_input {
    double north_ft, east_ft; /**< of the outlet on the centre line */
    double azimuth_deg;       /**< of the laying direction, clockwise from north */
    double distance_ft, offset_ft;
    double hub_ft;                 /**< elevation of the hub */
    double invert_ft, subgrade_ft; /**< design there */
} cw_stake_input;

typedef struct cw_stake {
    double north_ft, east_ft;
    double cut_invert_ft, cut_subgrade_ft; /**< hub above design: cut +, fill - */
} cw_stake;

cw_stake cw_grade_stake(const cw_stake_input *input, cw_working *working);

typedef struct cw_level_input {
    double start_ft;
    cw_list backsights_ft, foresights_ft; /**< one of each to a set-up */
    bool has_close;
    double close_ft;   /**< known elevation of the last point */
    double line_ft;    /**< length of the line of levels */
    double allowed_ft; /**< misclosure for one mile */
} cw_level_input;

typedef struct cw_level {
    cw_list elevations_ft; /**< of each turning point, as read */
    cw_list adjusted_ft;   /**< misclosure spread by set-ups; as read without a closing point */
    double rise_ft;        /**< sum of backsights less sum of foresights */
    bool has_close;
    double misclosure_ft, allowed_ft;
    int verdict; /**< cw_verdict: undecided without a closing point */
} cw_level;

bool cw_level_input_valid(const cw_level_input *input, cw_pos where, cw_diags *diags);
cw_level cw_grade_level(const cw_level_input *input, cw_working *working);

/* ---- camber ---- */

typedef enum cw_camber_shape {
    CW_CAMBER_PARABOLA,
    CW_CAMBER_BREAK /**< two straight grades that meet at mid-length */
} cw_camber_shape;

typedef struct cw_camber_input {
    int shape; /**< cw_camber_shape */
    double length_ft, slope;
    double rise_ft;   /**< of the middle above the straight grade, as laid */
    double settle_ft; /**< expected at the middle, a parabola that is 0 at the ends */
    double piece_ft;  /**< laying length */
    double height_in; /**< outside height of the box */
    double gap_min_in, gap_max_in;
    double distance_ft; /**< where the rise is wanted */
    double pond_in;     /**< depth of water that may stand */
} cw_camber_input;

typedef struct cw_camber {
    double rise_here_ft;
    double rise_max_grade_ft; /**< largest rise that leaves no adverse grade */
    double rise_max_gap_ft;   /**< largest rise that the band of gaps can turn */
    double rotation;          /**< of one joint, rad: all joints (parabola) or the middle (break) */
    double gap_change_in;     /**< gap at the top less gap at the floor of one joint */
    double longer_in;         /**< the run than its chord */
    double pond_laid_in, pond_settled_in;           /**< water that stands at most */
    int verdict_gap, verdict_laid, verdict_settled; /**< cw_verdict */
} cw_camber;

bool cw_camber_input_valid(const cw_camber_input *input, cw_pos where, cw_diags *diags);
cw_camber cw_grade_camber(const cw_camber_input *input, cw_working *working);

/* ---- length of the run ---- */

/** What a tolerance of plus or minus T means for one value. */
typedef enum cw_spread {
    CW_SPREAD_SD,      /**< it is one standard deviation */
    CW_SPREAD_THREE,   /**< three standard deviations */
    CW_SPREAD_UNIFORM, /**< any value within it is as likely */
    CW_SPREADS
} cw_spread;

typedef struct cw_growth_input {
    int pieces;
    double piece_in;       /**< drawn laying length */
    double gap_in;         /**< drawn gap */
    double length_bias_in; /**< mean of the cast lengths less drawn */
    double length_tol_in;
    double gap_mean_in; /**< mean gap as it is laid */
    double gap_tol_in;
    int spread;   /**< cw_spread of both tolerances */
    bool end_gap; /**< one more gap, against a wall at the end */
} cw_growth_input;

typedef struct cw_growth {
    double drawn_ft;
    int gaps;
    double growth_in, sd_in;
    double low_in, high_in;          /**< 19 of 20 runs grow between these */
    double mean_ft, low_ft, high_ft; /**< laid length */
} cw_growth;

cw_growth cw_grade_growth(const cw_growth_input *input, cw_working *working);

/** Standard deviation of one value with tolerance @p tolerance. */
double cw_grade_sd(double tolerance, int spread);

typedef enum cw_gap_state {
    CW_GAP_ON_TARGET,
    CW_GAP_FEASIBLE,  /**< outside the band aimed at, inside the limits */
    CW_GAP_TOO_WIDE,  /**< the gaps would open past the limit: the run is short */
    CW_GAP_TOO_TIGHT, /**< the run is long */
    CW_GAP_STATES
} cw_gap_state;

typedef struct cw_gap_input {
    double target_ft;   /**< slope length from the outlet face to where the run must end */
    double laid_ft;     /**< to the upstream face of the last piece set */
    cw_list lengths_in; /**< of the pieces still to set; or */
    int pieces;         /**< that many of */
    double piece_in;    /**< this length, when the list is empty */
    bool end_gap;       /**< one more gap, against a wall at the end */
    double gap_min_in, gap_max_in;
    double aim_low_in, aim_high_in;
} cw_gap_input;

typedef struct cw_gap {
    int gaps;
    double needed_in;
    int state;                      /**< cw_gap_state */
    double shortest_ft, longest_ft; /**< where the run can end */
    double special_in; /**< by how much one piece must be longer (+) or shorter for the nearest
                          feasible gap; 0 when feasible */
    int verdict;       /**< cw_verdict */
} cw_gap;

bool cw_gap_input_valid(const cw_gap_input *input, cw_pos where, cw_diags *diags);
cw_gap cw_grade_gap(const cw_gap_input *input, cw_working *working);

typedef struct cw_heading_input {
    double width_in;           /**< between the two measured sides of a joint */
    double advance_ft;         /**< one piece and its gap */
    cw_list left_in, right_in; /**< gaps measured, from the outlet; may be empty */
    int pieces;                /**< of the whole run */
    double difference_in;      /**< of every joint still to come, left less right */
    double sd_in;              /**< of that difference, one joint */
    bool first_true;           /**< the first piece is square to the line */
    double line_in;            /**< offset that is allowed */
} cw_heading_input;

typedef struct cw_heading {
    int joints;                    /**< measured */
    double heading_deg, offset_in; /**< at the last piece set */
    double mean_in;                /**< of the measured differences */
    double sd_seen_in;             /**< of them, 0 for fewer than two */
    double end_offset_in; /**< at the last piece of the run, when the rest goes on as stated */
    double end_sd_in;     /**< random part of it */
    int verdict;          /**< cw_verdict at the last piece set or, without gaps, of the run */
} cw_heading;

bool cw_heading_input_valid(const cw_heading_input *input, cw_pos where, cw_diags *diags);
cw_heading cw_grade_heading(const cw_heading_input *input, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_rod_reading;
extern const cw_calc cw_calc_offset_stake;
extern const cw_calc cw_calc_level_loop;
extern const cw_calc cw_calc_camber;
extern const cw_calc cw_calc_run_growth;
extern const cw_calc cw_calc_gap_needed;
extern const cw_calc cw_calc_heading_drift;

#endif
