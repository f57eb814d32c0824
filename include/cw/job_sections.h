/** @file
 * Sections of the job that may be left out: water, water during the work, the cut, strength, dates, obstacles, cranes. */
#ifndef CW_JOB_SECTIONS_H
#define CW_JOB_SECTIONS_H

#include "cw/field.h"

/* ---- water ---- */

typedef enum cw_flow_use { CW_FLOW_DESIGN, CW_FLOW_CHECK, CW_FLOW_WORK } cw_flow_use;
typedef enum cw_flow_by { CW_FLOW_GIVEN, CW_FLOW_RATIONAL, CW_FLOW_UNIT_PEAK } cw_flow_by;

typedef struct cw_job_flow {
    const char *name;
    int use; /**< cw_flow_use: what it is for; work is the season of the work */
    int by;  /**< cw_flow_by */
    bool has_flow, has_period, has_area, has_runoff, has_rain_rate, has_rain, has_time, has_curve_number;
    double flow_cfs;
    double period_years;  /**< return period */
    double area_acre;
    double runoff;        /**< rational C */
    double rain_in_per_h; /**< rational: intensity over the time of concentration */
    double rain_in;       /**< unit peak: 24-hour depth */
    double time_h;        /**< unit peak: time of concentration */
    double curve_number;
    int rain_type;        /**< unit peak: cw_rain_type */
    double pond_percent, season_percent, storm_factor;
} cw_job_flow;

typedef struct cw_job_stage {
    double flow_cfs, level_ft;
} cw_job_stage;

typedef struct cw_job_bed_point {
    double at_ft, elevation_ft, roughness;
} cw_job_bed_point;

typedef enum cw_tail_kind { CW_TAIL_FREE, CW_TAIL_FIXED, CW_TAIL_TABLE, CW_TAIL_TRAPEZOID, CW_TAIL_SURVEYED } cw_tail_kind;

typedef struct cw_job_tailwater {
    int kind; /**< cw_tail_kind */
    bool has_level, has_bottom, has_side_slope, has_roughness, has_slope, has_bed_level;
    double level_ft;              /**< fixed */
    double bottom_ft, side_slope, roughness, slope, bed_level_ft; /**< channel below the outlet */
    cw_job_stage *stages;         /**< table */
    int stage_count;
    cw_job_bed_point *points;     /**< surveyed channel */
    int point_count;
} cw_job_tailwater;

typedef struct cw_job_crest_point {
    double at_ft, elevation_ft; /**< along the road, up-station from the crossing */
} cw_job_crest_point;

typedef struct cw_job_water {
    bool present;
    int inlet; /**< index into the inlets of cw/hydraulics.h */
    bool own_critical, has_own_k, has_own_m, has_own_c, has_own_y, has_own_source;
    double own_k, own_m, own_c, own_y, own_slope_factor;
    const char *own_source;
    double entrance_loss, other_loss, roughness, bed_in, bed_roughness, blocked_percent;
    bool channel_velocity;
    bool has_allowed;
    double allowed_ft; /**< highest pool at the design flow, elevation */
    double freeboard_ft, ratio_max;
    int surface; /**< road surface: cw_water_surface, paved or gravel */
    cw_job_tailwater tailwater;
    cw_job_flow *flows;
    int flow_count;
    cw_job_crest_point *crest;
    int crest_count;
} cw_job_water;

typedef enum cw_divert { CW_DIVERT_NONE, CW_DIVERT_PIPE, CW_DIVERT_FLUME, CW_DIVERT_PUMPS, CW_DIVERT_BARREL } cw_divert;

typedef struct cw_job_diversion {
    bool present;
    int kind; /**< cw_divert */
    cw_list sizes_in; /**< pipes to be had */
    bool has_sizes;
    double length_ft, roughness, entrance; /**< pipe, flume */
    int pipes;
    double width_ft, side_slope, slope;    /**< flume */
    bool has_pump;
    double pump_cfs, lift_ft, hose_ft, hose_in, hose_c, efficiency_percent, suction_ft; /**< pumps */
    int standby;       /**< 0 one, 1 as many again */
    double head_ft;    /**< pipe: pool above tailwater at the work flow */
} cw_job_diversion;

typedef struct cw_job_cofferdam {
    bool present;
    double ground_ft;    /**< elevation under the crest */
    bool has_crest;
    double crest_ft;     /**< elevation as built */
    double freeboard_ft, wave_ft;
    double rise_ft_per_h, clear_h;
} cw_job_cofferdam;

typedef struct cw_job_groundwater {
    bool present;
    double level_ft;     /**< elevation of the still groundwater */
    double base_ft;      /**< elevation of the impervious base */
    double k_ft_per_day;
    double below_ft;     /**< how far under the subgrade it is drawn down */
    int sides;           /**< 0 both, 1 one */
    bool ends;
    double yield_percent;
    bool has_pump;
    double pump_cfs;
    double safety;       /**< on uplift */
} cw_job_groundwater;

typedef struct cw_job_site_water {
    bool present;
    cw_job_diversion diversion;
    cw_job_cofferdam cofferdam;
    cw_job_groundwater groundwater;
} cw_job_site_water;

/* ---- ground: the cut, the grade, the backfill ---- */

/** One layer of ground; the first lies at the surface. */
typedef struct cw_job_soil {
    const char *name;
    int material;         /**< same order as cw_soil_material of cw/trench.h */
    bool has_thickness;
    double thickness_ft;  /**< the last layer goes down without end */
    bool disturbed, wet;  /**< placed or dug before; water seeps from it */
    bool has_strength;
    double strength_psf;
    bool fissured;
    int dip;              /**< same order as cw_soil_dip */
} cw_job_soil;

typedef enum cw_job_protection { CW_JOB_SLOPE, CW_JOB_BENCH, CW_JOB_SHIELD } cw_job_protection;
typedef enum cw_job_spoil { CW_SPOIL_HAULED, CW_SPOIL_LEFT, CW_SPOIL_RIGHT, CW_SPOIL_BOTH } cw_job_spoil;

typedef struct cw_job_trench {
    int protection;       /**< cw_job_protection */
    double working_space_ft, cross_fall, open_h;
    bool has_shield;
    double shield_ft, below_shield_ft;
    int spoil;            /**< cw_job_spoil */
    double spoil_setback_ft;
    int earth;            /**< same order as cw_earth_kind, without other */
    double suitable_percent, overbreak_percent, egress_ft;
    double truck_cy, truck_payload_lb;
    bool vibration, surcharge;
    bool has_pay;
    double pay_ft;        /**< vertical pay planes outside the outer walls */
    const char *competent_person;
    cw_job_soil *soils;
    int soil_count;
} cw_job_trench;

typedef struct cw_job_growth {
    bool has_gap;
    double gap_in;        /**< mean gap as it is laid */
    double gap_tolerance_in, length_bias_in, length_tolerance_in;
} cw_job_growth;

typedef struct cw_job_level_loop {
    bool present;
    cw_list backsights_ft, foresights_ft;
    double length_ft;
} cw_job_level_loop;

typedef struct cw_job_grade {
    int instrument;       /**< 0 level, 1 laser */
    bool has_backsight;
    double backsight_ft, rod_ft;
    int camber_shape;     /**< same order as cw_camber_shape */
    double camber_ft, settlement_ft, pond_in;
    double stake_offset_ft, stake_spacing_ft;
    int stake_side;       /**< 0 left, 1 right, 2 both */
    cw_job_growth growth;
    cw_job_level_loop loop;
} cw_job_grade;

typedef struct cw_job_zone {
    const char *name, *material;
    bool has_to;
    double to_ft;         /**< above the underside of the boxes; the last goes to the finished surface */
    double compaction_percent;
} cw_job_zone;

typedef struct cw_job_backfill {
    double loose_ratio, test_cy;
    int tests_least;
    double hand_zone_ft, hand_lift_in;
    cw_job_zone *zones;
    int zone_count;
} cw_job_backfill;

/* ---- strength ---- */

/** A face of a member along the span, where its steel lies. */
typedef enum cw_steel_at {
    CW_STEEL_TOP_INSIDE,
    CW_STEEL_TOP_OUTSIDE,
    CW_STEEL_WALL_INSIDE,
    CW_STEEL_WALL_OUTSIDE,
    CW_STEEL_FLOOR_INSIDE,
    CW_STEEL_FLOOR_OUTSIDE,
    CW_STEEL_FACES
} cw_steel_at;

typedef struct cw_job_steel {
    int at; /**< cw_steel_at */
    double area_in2_per_ft;
    double cover_in;  /**< clear, to the steel along the span */
    double size_in;   /**< diameter of its bar or wire */
    bool has_spacing;
    double spacing_in;
} cw_job_steel;

typedef enum cw_vehicle_use {
    CW_VEHICLE_PERMIT,  /**< on the finished road */
    CW_VEHICLE_CROSSING /**< over the box while it is built */
} cw_vehicle_use;

typedef enum cw_vehicle_kind { CW_VEHICLE_WHEELS, CW_VEHICLE_TRACKS } cw_vehicle_kind;

typedef struct cw_job_vehicle {
    const char *name;
    int use, kind;
    bool has_axles, has_spacing, has_weight, has_width, has_length, has_cover;
    cw_list axles_lb, spacing_ft; /**< wheels: axles from the front, and from each to the next */
    double gauge_ft;              /**< centre to centre of wheels or tracks */
    double width_in, length_in;   /**< print of a wheel, or of a track on the ground */
    double weight_lb;             /**< tracks: on both */
    double presence;
    double cover_ft; /**< crossing: compacted fill over the top when it crosses */
} cw_job_vehicle;

/* ---- schedule ---- */

typedef struct cw_job_schedule {
    bool present;
    const char *start;   /**< first day, "2026-05-04" */
    const char *by;      /**< wanted last day, or "" */
    const char *off;     /**< days on which nobody works, comma separated, or "" */
    double from_h, shift_h; /**< hour at which the shift begins; working hours in it */
    int days_per_week;   /**< from Monday */
    int trucks, joint_crews, earth_crews;
    int runs, seed;      /**< of the simulation; 0 runs: dates without chance only */
} cw_job_schedule;

enum { CW_OFF_DAYS_MAX = 100 };

/** The days of @p text, "2026-05-25, 2026-07-03", into @p days (CW_OFF_DAYS_MAX).  How many; -1 when a word is no date, they do
 * not rise or are too many, and *bad is where. */
int cw_job_off_days(const char *text, int *days, const char **bad);

typedef struct cw_job_strength {
    bool present;
    int resistance; /**< cw_struct_phi: set of resistance factors */
    int spread;     /**< cw_struct_rule: how wheels spread through the fill */
    int edition;    /**< 0 the edition that the rows are of, 1 another */
    int bed;        /**< cw_struct_bed */
    bool has_trench;
    double trench_ft; /**< width at the top of the box */
    bool compacted;
    double earth_pcf, side_most_pcf, side_least_pcf, side_ratio;
    bool has_flood;
    double flood_ft; /**< highest water outside with the box empty, elevation */
    bool has_cover_least, has_cover_most;
    double cover_least_ft, cover_most_ft; /**< that the box is designed for */
    double ground_pcf;                    /**< stiffness of the ground for springs */
    bool has_bearing;
    double bearing_psf; /**< allowed under the floor */
    double friction;
    double modulus_psi, yield_psi, exposure;
    bool design_traffic;
    bool has_seat;
    double seat_in; /**< bearing width of a lid on each wall */
    bool has_key;
    double key_in;  /**< height of the face of its key */
    bool has_wall_moment;
    double wall_moment_ft_lb; /**< that a wall may take, either face, while it stands without its top */
    double wall_factor;       /**< on the pressure against it */
    bool key_tight;           /**< the seat holds the wall top against fill */
    double surcharge_psf;     /**< plant beside a wall */
    double roller_lb_per_ft;
    double lift_psi; /**< strength of the concrete on the day of the lift */
    double steel_cover_in, steel_size_in; /**< of a face whose steel is not given */
    cw_job_steel *steel;
    int steel_count;
    cw_job_vehicle *vehicles;
    int vehicle_count;
} cw_job_strength;
/* ---- what stands in the way ---- */

typedef enum cw_utility_status { CW_UTILITY_LIVE, CW_UTILITY_ABANDONED } cw_utility_status;
typedef enum cw_utility_support {
    CW_SUPPORT_NONE, CW_SUPPORT_HANG, CW_SUPPORT_RELOCATE, CW_SUPPORT_SHUT_OFF, CW_SUPPORT_REMOVE
} cw_utility_support;

/** `at` is plan distance from the outlet face along the centre line, offsets are right positive looking upstream. */
typedef struct cw_job_utility {
    const char *name, *located, *accepted;
    bool has_at;
    double at_ft, angle_deg; /**< crosses the centre line there */
    bool has_from, has_from_offset, has_to, has_to_offset;
    double from_ft, from_offset_ft, to_ft, to_offset_ft; /**< or lies between two points */
    bool has_elevation, has_depth;
    double elevation_ft; /**< of its top */
    double depth_ft;     /**< ground to its top */
    double diameter_in, clearance_in;
    int status;  /**< cw_utility_status */
    int support; /**< cw_utility_support */
} cw_job_utility;

typedef struct cw_job_structure {
    const char *name, *accepted;
    double from_ft, to_ft;   /**< along the centre line */
    double near_ft, far_ft;  /**< offsets of its nearest and farthest side, of one sign */
    double foundation_ft;    /**< elevation of the underside of its footing */
    double clear_ft, influence;
} cw_job_structure;

typedef struct cw_job_boundary {
    const char *name;
    double from_ft, from_offset_ft, to_ft, to_offset_ft;
} cw_job_boundary;

typedef struct cw_job_obstacles {
    bool present;
    bool has_left, has_right;
    double left_ft, right_ft; /**< right of way from the centre line */
    cw_job_utility *utilities;
    int utility_count;
    cw_job_structure *structures;
    int structure_count;
    cw_job_boundary *boundaries;
    int boundary_count;
} cw_job_obstacles;

/* ---- cranes ---- */

/** A crane that may do the work, with the load chart that the job names. */
typedef struct cw_job_crane {
    const char *name, *chart, *configuration;
    bool has_boom_most, has_weight;
    double boom_most_ft;
    double weight_lb;                /**< all of it without the load */
    double block_lb;                 /**< hook block, ball and the chart's other deductions */
    double half_ft;                  /**< slew centre to the outer edge of its mats */
    double mat_width_ft, mat_length_ft; /**< of one mat in bearing */
    double pivot_height_ft, pivot_back_ft;
    double bring_cents, setup_cents, day_cents;
    double setup_h, piece_h;
    const struct cw_chart *loads; /**< read from the file that chart names */
} cw_job_crane;

typedef enum cw_bank { CW_BANK_BOTH, CW_BANK_LEFT, CW_BANK_RIGHT } cw_bank;

/** A stretch along the run where no crane may stand. */
typedef struct cw_job_no_stand {
    int side; /**< cw_bank */
    double from_ft, to_ft;
} cw_job_no_stand;

typedef struct cw_job_line {
    const char *name;
    int side; /**< CW_BANK_LEFT or CW_BANK_RIGHT */
    double distance_ft, height_ft; /**< from the centre line of the run; lowest wire above the crane's ground */
    double kilovolts;
    bool known;
} cw_job_line;

typedef struct cw_job_cranes {
    bool present;
    int side; /**< cw_bank */
    int rule; /**< cw_setback_rule */
    double k;
    bool has_fixed, has_insert, has_soil, has_truck;
    double fixed_ft;
    double depth_ft, side_slope, beside_ft; /**< of the cut; toe from the outside wall */
    double before_ft, beyond_ft; /**< how far past the outlet and inlet faces a crane may stand */
    double tackle_lb;
    double cross_cents;   /**< a move to the other bank, beside its setup */
    int carry;            /**< cw_legs_carry */
    double share_percent; /**< most of the chart that a pick is planned for */
    double insert_lb;     /**< strength of one insert in pull at lift */
    double soil_psf, obstacle_ft, truck_ft, corner_percent;
    const char *director, *operator_name;
    cw_job_crane *choices;
    int choice_count;
    cw_job_no_stand *no_stands;
    int no_stand_count;
    cw_job_line *lines;
    int line_count;
} cw_job_cranes;

#endif
