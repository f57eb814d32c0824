/** @file
 * Lifting: how a piece hangs, what legs and inserts carry, what the crane carries and what it does
 * to the ground.
 *
 * Axes of a piece: x across (right looking upstream), y along the run (upstream), z up.  ft, in,
 * lb, psi, psf, degrees.  Each function is pure; @p working may be NULL.  Inputs lie within the
 * limits of the calculator's fields (cw_calc_fill() refuses others); the ..._valid functions report
 * what no single field shows.  Nothing here replaces the crane maker's chart, the tag of the sling,
 * the precaster's lift drawing or the lift director. */
#ifndef CW_LIFTING_H
#define CW_LIFTING_H

#include "cw/calc.h"
#include "cw/chart.h"
#include "cw/check.h"

/* ---- how a piece hangs ---- */

enum { CW_SLING_LEGS_MAX = 4 };

/** How many of four legs are counted as carrying. */
typedef enum cw_legs_carry {
    CW_CARRY_TWO, /**< a rigid piece may ride on any three, at worst on two across: each leg for its
                     worst */
    CW_CARRY_THREE, /**< as sling tags rate four legs: 4/3 of an even share, the worst at most */
    CW_CARRY_ALL    /**< only with gear that equalises */
} cw_legs_carry;

typedef enum cw_hang_state {
    CW_HANG_OK,
    CW_HANG_TOO_SHORT, /**< the legs do not meet */
    CW_HANG_OUTSIDE,   /**< no set of pulling legs holds it: the centre of gravity is outside the
                          picks */
    CW_HANG_OVER,      /**< the hook comes below the centre of gravity */
    CW_HANG_STATES
} cw_hang_state;

/** A piece on one hook. */
typedef struct cw_hang_input {
    int legs;                             /**< 2 to 4 */
    double pick_ft[CW_SLING_LEGS_MAX][3]; /**< x, y, z of each pick from the centre of gravity */
    bool has_lengths; /**< else the legs are made so that the hook is over the centre of gravity */
    double length_ft[CW_SLING_LEGS_MAX];
    double height_ft; /**< without lengths: hook above the highest pick */
    double load_lb;   /**< on the legs: piece times dynamic factor */
    int carry;        /**< cw_legs_carry; matters for four legs */
} cw_hang_input;

typedef struct cw_hang {
    int state;         /**< cw_hang_state; the rest means nothing unless OK */
    double hook_ft[3]; /**< from the centre of gravity, in the axes of the piece */
    double length_ft[CW_SLING_LEGS_MAX];  /**< of the legs, pick to hook */
    double tension_lb[CW_SLING_LEGS_MAX]; /**< to be sized for */
    double even_lb[CW_SLING_LEGS_MAX]; /**< legs of equal stiffness, all taut (two, three: the same
                                          as above) */
    double angle_deg[CW_SLING_LEGS_MAX]; /**< from the horizontal, as it hangs */
    double across_deg, along_deg;        /**< as it hangs: right side up, upstream end up */
    double tilt_deg;                     /**< from level, whichever way */
    int slack;                           /**< leg that hangs slack, -1 when none */
    double slack_ft;
} cw_hang;

/** Statics of a rigid piece whose legs meet at one point plumb over the centre of gravity. */
cw_hang cw_lifting_hang(const cw_hang_input *input);

typedef struct cw_bridle_input {
    double weight_lb, dynamic, tackle_lb;
    int legs;
    double across_ft,
        along_ft;       /**< between picks: four at the corners, two in line, three as a triangle */
    cw_list x_ft, y_ft; /**< any other picks, from the same centre; empty: as above */
    double cg_x_ft, cg_y_ft; /**< centre of gravity from the centre of the picks */
    double pick_above_cg_ft;
    bool has_height;
    double height_ft;
    cw_list lengths_ft;         /**< none, one for all, or one each */
    int carry;                  /**< cw_legs_carry */
    double width_ft, length_ft; /**< outside size of the piece */
    double wall_arm_ft;         /**< picks above the foot of the wall they stand on; 0: none */
    bool has_gap;
    double gap_in; /**< of the joint that it enters */
} cw_bridle_input;

typedef struct cw_bridle {
    int state;
    double hook_lb;
    double tension_lb;
    cw_list tensions_lb, even_lb, lengths_ft;
    double angle_deg, height_ft; /**< flattest leg; hook above the picks */
    double across_deg, along_deg;
    double rise_across_in, rise_along_in; /**< over the outside size, sign as the angles */
    double slack_in;
    double pull_lb, wall_pull_lb,
        wall_ft_lb; /**< across: at one pick, on the worse side, at its foot */
    int verdict_angle, verdict_entry;
} cw_bridle;

bool cw_bridle_input_valid(const cw_bridle_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds lift.angle_* (data/lifting.csv). */
cw_bridle cw_lifting_bridle(const cw_bridle_input *input, const cw_rows *rows, cw_working *working);

typedef struct cw_links_input {
    double across_ft, along_ft, cg_x_ft, cg_y_ft, pick_above_cg_ft;
    double leg_ft;  /**< of each leg before it is shortened */
    double link_in; /**< pitch: one link shortens a leg by this */
    double width_ft, length_ft;
    bool has_gap;
    double gap_in;
} cw_links_input;

typedef struct cw_links {
    int state; /**< cw_hang_state */
    cw_list
        links; /**< to take up: left downstream, right downstream, left upstream, right upstream */
    double height_ft;
    double plain_across_in, plain_along_in; /**< rise with equal legs */
    double rise_across_in, rise_along_in;   /**< rise left over */
    double slack_in;
    int verdict;
} cw_links;

bool cw_links_input_valid(const cw_links_input *input, cw_pos where, cw_diags *diags);
cw_links cw_lifting_links(const cw_links_input *input, cw_working *working);

typedef struct cw_spreader_input {
    double weight_lb, dynamic;
    double bar_ft, bar_lb;
    double leg_ft;  /**< of each of the two legs from bar end to hook */
    double drop_ft; /**< bar to picks */
    double cg_ft;   /**< centre of gravity from the middle of the bar */
    double pick_above_cg_ft;
    int drops; /**< slings at each end of the bar */
    double tackle_lb;
} cw_spreader_input;

typedef struct cw_spreader {
    double hook_lb, top_leg_lb, compression_lb, near_lb, far_lb, drop_lb;
    double angle_deg, height_ft, tilt_deg;
    int verdict_angle;
} cw_spreader;

bool cw_spreader_input_valid(const cw_spreader_input *input, cw_pos where, cw_diags *diags);
cw_spreader cw_lifting_spreader(const cw_spreader_input *input, const cw_rows *rows,
                                cw_working *working);

typedef enum cw_sling_kind {
    CW_SLING_CHAIN_80,
    CW_SLING_CHAIN_100,
    CW_SLING_WIRE_ROPE,
    CW_SLING_WIRE_ROPE_UNCOATED,
    CW_SLING_ROUNDSLING,
    CW_SLING_SHACKLE,
    CW_SLING_KINDS
} cw_sling_kind;

typedef struct cw_sling_input {
    int kind; /**< cw_sling_kind */
    double tension_lb;
    bool has_tag;
    double tag_lb; /**< rated load on the tag, one leg, straight */
} cw_sling_input;

typedef struct cw_sling {
    double size_in;   /**< 0: goes by its rated load, or none is large enough */
    double rating_lb; /**< of that size, or the tag's */
    double ratio;
    int verdict;
} cw_sling;

/** @p rows holds sling.* (data/lifting.csv). */
cw_sling cw_lifting_sling(const cw_sling_input *input, const cw_rows *rows, cw_working *working);

/* ---- inserts ---- */

typedef struct cw_insert_input {
    double tension_lb, angle_deg; /**< of the leg, from the horizontal */
    double dynamic;
    double ultimate_lb; /**< tested or calculated strength in pull, at rated_psi */
    bool has_shear;
    double shear_ultimate_lb; /**< without: that of the pull, on the whole leg tension */
    double factor;            /**< strength over load */
    double rated_psi, lift_psi;
} cw_insert_input;

typedef struct cw_insert {
    double pull_lb, shear_lb;    /**< with the dynamic factor */
    double strength_lb, safe_lb; /**< at lift; over the factor */
    double ratio;
    double needed_psi; /**< concrete at which it would just do */
    int verdict;
} cw_insert;

cw_insert cw_lifting_insert(const cw_insert_input *input, cw_working *working);

typedef struct cw_breakout_input {
    double depth_in; /**< effective embedment */
    double psi, light;
    double left_in, right_in, down_in, up_in; /**< to the edges of the concrete */
    double eccentricity_in;
    double head_sqft; /**< bearing area of the head; 0: unknown */
    bool uncracked;
    double factor, tension_lb;
} cw_breakout_input;

typedef struct cw_breakout {
    double basic_lb, area_ratio, edge_factor, breakout_lb;
    double pullout_lb, blowout_lb; /**< 0: not asked for, or does not occur */
    double strength_lb, safe_lb, ratio;
    int verdict;
} cw_breakout;

cw_breakout cw_lifting_breakout(const cw_breakout_input *input, const cw_rows *rows,
                                cw_working *working);

/* ---- boom, swing, power lines, wind ---- */

typedef struct cw_boom_input {
    double boom_ft, radius_ft; /**< radius under load */
    double pivot_height_ft, pivot_back_ft, boom_half_ft;
    double ground_ft;                          /**< crane's ground above the landing */
    double obstacle_ft, obstacle_clear_ft;     /**< highest thing passed over, above the landing */
    double piece_height_ft, piece_half_ft;     /**< towards the crane */
    double rigging_ft, block_ft, two_block_ft; /**< hook above the piece; hook to sheave; margin */
    double boom_clear_ft;                      /**< least */
} cw_boom_input;

typedef struct cw_boom {
    bool reaches; /**< the boom is long enough for the radius */
    double angle_deg, tip_ft, needed_ft,
        spare_ft;  /**< tip above the landing; what the lift needs */
    double gap_ft; /**< boom to the near top corner of the piece at its highest */
    int verdict_height, verdict_boom;
} cw_boom;

cw_boom cw_lifting_boom(const cw_boom_input *input, cw_working *working);

typedef struct cw_swing_input {
    double crane_x_ft, crane_y_ft, truck_x_ft, truck_y_ft, land_x_ft, land_y_ft;
    double tail_ft, tail_clear_ft;
    bool has_obstacle;
    double obstacle_x_ft, obstacle_y_ft; /**< nearest thing to the tail */
} cw_swing_input;

typedef struct cw_swing {
    double truck_radius_ft, land_radius_ft, swing_deg; /**< the shorter way; right positive */
    double tail_gap_ft;
    int verdict_tail;
} cw_swing;

cw_swing cw_lifting_swing(const cw_swing_input *input, cw_working *working);

typedef struct cw_power_line_input {
    double kilovolts;
    bool known; /**< the utility has given the voltage; otherwise the flat distance for the presumed
                   range */
    double line_x_ft,
        line_height_ft; /**< horizontal distance from the slew centre, height of the lowest wire */
    double boom_tip_radius_ft,
        boom_tip_height_ft; /**< farthest that any part, load or rigging reaches */
    double swing_gap_deg;   /**< the swing is stopped this far from the line's bearing; 0: may point
                               at it */
} cw_power_line_input;

typedef struct cw_power_line {
    double needed_ft, nearest_ft;
    bool by_utility; /**< over 1,000 kV: the utility or a qualified engineer sets it */
    int verdict;
} cw_power_line;

cw_power_line cw_lifting_power_line(const cw_power_line_input *input, const cw_rows *rows,
                                    cw_working *working);

typedef struct cw_load_wind_input {
    double weight_lb, area_sqft, drag, wind_fps, pendulum_ft;
    double chart_fps,
        chart_area_sqft_per_lb; /**< wind of the chart and the load area times drag it counts on */
} cw_load_wind_input;

typedef struct cw_load_wind {
    double push_lb, swing_deg, drift_in, allowed_fps;
    bool reduced;
    int verdict;
} cw_load_wind;

cw_load_wind cw_lifting_load_wind(const cw_load_wind_input *input, const cw_rows *rows,
                                  cw_working *working);

/* ---- ground ---- */

typedef struct cw_outrigger_input {
    double carrier_lb, carrier_cg_ft; /**< forward of the middle of the outriggers */
    double upper_lb, upper_behind_ft; /**< behind the slew centre */
    double counter_lb, counter_behind_ft;
    double boom_lb, boom_ahead_ft;
    double load_lb, radius_ft;
    double slew_behind_ft;      /**< slew centre behind the middle of the outriggers */
    double along_ft, across_ft; /**< outrigger spread */
    double from_deg,
        to_deg; /**< slew, 0 over the rear, towards side B; swept from one to the other */
    double elastic_percent; /**< added for frames that are not rigid */
} cw_outrigger_input;

/** Corners in this order. */
typedef enum cw_corner {
    CW_CORNER_REAR_B,
    CW_CORNER_REAR_A,
    CW_CORNER_FRONT_B,
    CW_CORNER_FRONT_A,
    CW_CORNERS
} cw_corner;

typedef struct cw_outriggers {
    bool stands;                  /**< two corners never lift together */
    double corner_lb[CW_CORNERS]; /**< greatest over the swing, without the addition */
    double peak_lb, peak_deg;     /**< greatest of all, with the addition */
    double start_lb[CW_CORNERS];  /**< at from_deg */
    bool lifts;                   /**< some corner has no load somewhere */
    double empty_peak_lb;         /**< same swing without the load */
    int corner;                   /**< cw_corner of the peak */
    int verdict;
} cw_outriggers;

cw_outriggers cw_lifting_outriggers(const cw_outrigger_input *input, cw_working *working);

typedef struct cw_track_input {
    double total_lb, along_ft,
        across_ft; /**< offset of the resultant from the middle of the tracks */
    double bearing_ft, width_ft, gauge_ft;
    double allowed_psf;
} cw_track_input;

typedef struct cw_track {
    bool stands;
    double heavy_lb, light_lb;
    double most_psf, least_psf; /**< under the heavier track */
    double light_most_psf;
    double contact_ft;
    int verdict;
} cw_track;

cw_track cw_lifting_track(const cw_track_input *input, cw_working *working);

typedef struct cw_mat_input {
    double load_lb, width_ft, length_ft, thickness_in, unit_pcf, float_ft;
    double soil_psf, bending_psi, shear_psi;
} cw_mat_input;

typedef struct cw_mat {
    double weight_lb, area_sqft, needed_ft, cantilever_ft, pressure_psf;
    double moment_ft_lb, bending_psi, shear_lb, shear_psi;
    int verdict_soil, verdict_bending, verdict_shear;
} cw_mat;

cw_mat cw_lifting_mat(const cw_mat_input *input, cw_working *working);

typedef enum cw_setback_rule {
    CW_SETBACK_FROM_TOE,  /**< mat edge at least k depths from the toe of the excavation */
    CW_SETBACK_FROM_EDGE, /**< at least k depths from the edge of the cut */
    CW_SETBACK_FIXED /**< a distance from the edge that the engineer of the shoring or slope named
                      */
} cw_setback_rule;

typedef struct cw_setback_input {
    int rule;
    double depth_ft, side_slope; /**< horizontal per 1; 0: plumb or shored */
    double k;
    bool has_fixed;
    double fixed_ft;
    double half_ft;   /**< slew centre to the outer edge of the mats towards the trench */
    double toe_ft;    /**< toe of the excavation from the centre line of the run */
    double centre_ft; /**< slew centre from the centre line of the run */
    double float_lb, mat_width_ft, mat_length_ft;
} cw_setback_input;

typedef struct cw_setback {
    double edge_needed_ft, edge_ft; /**< mat from the edge of the cut */
    double centre_needed_ft;        /**< of the slew centre from the centre line */
    double pressure_psf;            /**< at the depth of the toe, spread 2:1 */
    int verdict;
} cw_setback;

bool cw_setback_input_valid(const cw_setback_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds lift.edge_least (data/lifting.csv). */
cw_setback cw_lifting_setback(const cw_setback_input *input, const cw_rows *rows,
                              cw_working *working);

/* ---- a pick ---- */

typedef struct cw_pick_input {
    double piece_lb, dynamic, tackle_lb, block_lb,
        deduction_lb; /**< jib, auxiliary head, hanging rope by the chart's notes */
    double radius_ft;
    cw_list radii_ft, capacities_lb; /**< the column of the boom in use */
    double line_pull_lb;             /**< of one part of line; 0: not checked */
    int parts;
} cw_pick_input;

typedef struct cw_pick {
    double gross_lb, row_radius_ft, capacity_lb, percent;
    double radius_most_ft; /**< last row that carries it; 0: none */
    bool critical;
    int verdict; /**< undecided between the warning and the stop percent */
} cw_pick;

bool cw_pick_input_valid(const cw_pick_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds lift.chart_* (data/lifting.csv). */
cw_pick cw_lifting_pick(const cw_pick_input *input, const cw_rows *rows, cw_working *working);

/* ---- setups ---- */

enum {
    CW_SETUP_PIECES_MAX = 2000,
    CW_SETUP_CRANES_MAX = 6,
    CW_SETUP_LINES_MAX = 12,
    CW_SETUP_RANGES_MAX = 8
};

/** A piece to be set, in the order of setting. */
typedef struct cw_setup_piece {
    double at_ft, offset_ft; /**< centre of gravity: along the run, right of the centre line */
    double load_lb;          /**< gross on the hook without the crane's own deductions */
} cw_setup_piece;

/** A candidate crane. */
typedef struct cw_setup_crane {
    const cw_chart_column *columns; /**< booms that may be used */
    int column_count;
    double deduction_lb;                      /**< block, ball, jib */
    double chart_percent;                     /**< most of the chart that a pick may take */
    double bring_cents;                       /**< once, when it is used at all */
    double setup_cents;                       /**< each setup: move, mats, levelling */
    double day_cents, setup_days, piece_days; /**< days of one setup, of one piece */
} cw_setup_crane;

typedef struct cw_setup_range {
    double from_ft, to_ft;
} cw_setup_range;

/** A line parallel to the run on which slew centres may stand. */
typedef struct cw_setup_line {
    double offset_ft;
    cw_setup_range ranges[CW_SETUP_RANGES_MAX]; /**< along the run, in order, apart */
    int range_count;
    unsigned cranes; /**< bit k: crane k may stand here */
    int bank;        /**< lines of one number lie on one side: no crossing between them */
} cw_setup_line;

typedef struct cw_setup_problem {
    const cw_setup_piece *pieces;
    int piece_count;
    const cw_setup_crane *cranes;
    int crane_count;
    const cw_setup_line *lines;
    int line_count;
    double cross_cents; /**< more for a setup on another bank than the one before */
} cw_setup_problem;

/** One stand of the crane: it sets pieces first .. first + count - 1 of the order that can be set
 * at all. */
typedef struct cw_setup {
    int crane, column, line;
    double at_ft;          /**< slew centre along the run */
    double from_ft, to_ft; /**< it may stand anywhere between */
    int first, count;      /**< in cw_setup_answer.order */
    double percent;        /**< worst of the chart, its deductions counted on the load */
} cw_setup;

typedef struct cw_setup_answer {
    double cents;
    const cw_setup *setups;
    int setup_count;
    const int *order; /**< pieces that some crane can set, as in the problem */
    int order_count;
    const int *off_chart; /**< pieces that none can */
    int off_count;
} cw_setup_answer;

/** NULL, or what is wrong with the problem in one sentence (in @p arena). */
const char *cw_setup_fault(const cw_setup_problem *problem, cw_arena *arena);

/** The cheapest sequence of setups that sets all pieces in their order, one crane at work at a
 * time; exact (docs/handbook/lifting.md has the proof).  Ties go to fewer setups, then to fewer
 * crossings, then to long first blocks, the earlier crane and line.
 * @pre cw_setup_fault() is NULL. */
cw_setup_answer cw_lifting_setups(const cw_setup_problem *problem, cw_arena *arena);

/** What would bring a piece onto the chart. */
typedef struct cw_setup_near {
    bool found; /**< some crane carries the load at some radius */
    int crane, column, line;
    double at_ft;          /**< nearest allowed place */
    double radius_ft;      /**< from there */
    double radius_most_ft; /**< that the chart allows */
    double short_ft;       /**< the crane must come closer by this (negative: stand farther off) */
} cw_setup_near;

cw_setup_near cw_lifting_nearest(const cw_setup_problem *problem, int piece);

typedef struct cw_setups_input {
    double first_ft, last_ft; /**< centres of the first and last piece */
    int pieces;
    double offset_ft, radius_ft; /**< barrel to the crane's line; most that the chart allows */
    double radius_least_ft;
    bool has_gap;
    double gap_from_ft, gap_to_ft; /**< where the crane may not stand */
} cw_setups_input;

typedef struct cw_setups {
    bool reached; /**< every piece can be set */
    double half_ft;
    int count;
    cw_list at_ft;
    int verdict;
} cw_setups;

bool cw_setups_input_valid(const cw_setups_input *input, cw_pos where, cw_diags *diags);
cw_setups cw_lifting_line_setups(const cw_setups_input *input, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_bridle;
extern const cw_calc cw_calc_chain_links;
extern const cw_calc cw_calc_spreader;
extern const cw_calc cw_calc_sling_size;
extern const cw_calc cw_calc_lift_insert;
extern const cw_calc cw_calc_concrete_breakout;
extern const cw_calc cw_calc_boom_clearance;
extern const cw_calc cw_calc_crane_swing;
extern const cw_calc cw_calc_power_line;
extern const cw_calc cw_calc_load_wind;
extern const cw_calc cw_calc_outriggers;
extern const cw_calc cw_calc_track_pressure;
extern const cw_calc cw_calc_crane_mat;
extern const cw_calc cw_calc_crane_setback;
extern const cw_calc cw_calc_chart_pick;
extern const cw_calc cw_calc_crane_setups;

#endif
