/** @file
 * Water during the work: the flow to expect, the apron at the outlet, the way of the stream round
 * the work, the groundwater pumped from the trench, and the level at which a half-built barrel
 * floats.
 *
 * US units: ft3/s, ft, ft/s, lb; formulas that their source gives in metres are worked in metres
 * with both conversions visible.  Each function is pure; @p working may be NULL.  Inputs must lie
 * within the limits of the calculator's fields: test with the ..._valid function, which reports
 * every value that does not. */
#ifndef CW_SITEWATER_H
#define CW_SITEWATER_H

#include "cw/calc.h"
#include "cw/check.h"

/* ---- design flow ---- */

typedef struct cw_rational_input {
    double runoff;        /**< C, 0.05 to 1 */
    double rain_in_per_h; /**< over the time of concentration */
    double area_acre;
    double storm_factor;   /**< on C for rare storms; C times it is taken as 1 at most */
    double season_percent; /**< share of the yearly flow that the season of the work has */
    bool exact_units;      /**< 1.008 ft3/s for an acre inch per hour in place of 1 */
} cw_rational_input;

typedef struct cw_rational {
    double runoff;   /**< as used */
    double peak_cfs; /**< of the year */
    double flow_cfs; /**< of the season */
    int verdict;     /**< cw_verdict: undecided above the area the method is meant for */
} cw_rational;

bool cw_rational_input_valid(const cw_rational_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds rational.area_max (data/sitewater.csv). */
cw_rational cw_sitewater_rational(const cw_rational_input *input, const cw_rows *rows,
                                  cw_working *working);

typedef struct cw_travel_input {
    double sheet_ft, sheet_n, sheet_slope, rain_in; /**< rain: 2-year, 24-hour depth */
    double shallow_ft, shallow_slope;
    bool paved;
    double channel_ft, channel_n, channel_slope, channel_sqft,
        channel_wet_ft; /**< wet: wetted perimeter */
} cw_travel_input;

typedef struct cw_travel {
    double sheet_min, shallow_min, channel_min;
    double shallow_fps, channel_fps; /**< 0 where the part has no length */
    double total_min;                /**< not below the least time that the source takes */
} cw_travel;

/** Parts of no length are left out, at least one must have a length. */
bool cw_travel_input_valid(const cw_travel_input *input, cw_pos where, cw_diags *diags);
cw_travel cw_sitewater_travel(const cw_travel_input *input, cw_working *working);

/** Rain distributions of the unit peak table. */
typedef enum cw_rain_type {
    CW_RAIN_I,
    CW_RAIN_IA,
    CW_RAIN_II,
    CW_RAIN_III,
    CW_RAIN_TYPES
} cw_rain_type;

typedef struct cw_unit_peak_input {
    double area_acre, time_min, rain_in; /**< rain: 24-hour depth */
    double curve_number;
    int rain_type;         /**< cw_rain_type */
    double pond_percent;   /**< of the area, spread through it */
    double season_percent; /**< as for the rational method */
} cw_unit_peak_input;

typedef struct cw_unit_peak {
    double runoff_in;
    double loss_ratio; /**< Ia/P, as it is, not clamped */
    double csm_per_in; /**< ft3/s for a square mile and an inch of runoff */
    double peak_cfs, flow_cfs;
    int verdict; /**< cw_verdict: undecided where Ia/P or the time was clamped to the ends of the
                    table */
} cw_unit_peak;

bool cw_unit_peak_input_valid(const cw_unit_peak_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds the unit_peak.* coefficients (data/sitewater.csv). */
cw_unit_peak cw_sitewater_unit_peak(const cw_unit_peak_input *input, const cw_rows *rows,
                                    cw_working *working);

/** Winter work of up to a month; a rule of the Denver area. */
typedef struct cw_season_input {
    double area_acre;
    int length; /**< 0 two weeks, 1 four weeks */
    double k;   /**< ft3/s from a square mile */
} cw_season_input;

typedef struct cw_season {
    double flow_cfs;
} cw_season;

bool cw_season_input_valid(const cw_season_input *input, cw_pos where, cw_diags *diags);
cw_season cw_sitewater_season(const cw_season_input *input, const cw_rows *rows, cw_working *working);

typedef struct cw_risk_input {
    double return_periods; /**< T, in periods: years, or seasons when the flow is a season's */
    double periods;        /**< N; a part of one is allowed, 0.25 for three months */
    bool has_accepted;
    double accepted_percent; /**< risk that is accepted */
} cw_risk_input;

typedef struct cw_risk {
    double risk_percent; /**< of at least one exceedance in N periods */
    bool has_accepted;
    double needed_periods; /**< return period at which the risk is the accepted one */
} cw_risk;

bool cw_risk_input_valid(const cw_risk_input *input, cw_pos where, cw_diags *diags);
cw_risk cw_sitewater_risk(const cw_risk_input *input, cw_working *working);

/* ---- outlet protection ---- */

typedef struct cw_apron_input {
    double flow_cfs; /**< of one barrel */
    double span_in, rise_in;
    int barrels;
    bool has_tailwater, has_normal, has_velocity, has_depth, has_channel;
    double tailwater_ft; /**< above the outlet invert; 0.4 of the rise when not known */
    double normal_ft;    /**< normal depth in the barrel, given only when the flow in it is fast */
    double velocity_fps; /**< at the outlet */
    double depth_ft;     /**< at the outlet, for the Froude number */
    double channel_fps;  /**< natural velocity of the channel */
} cw_apron_input;

typedef struct cw_apron {
    double tailwater_ft; /**< as used, within 0.4 to 1.0 of the rise */
    double pipe_in, area_in,
        box_in; /**< stone size by HEC-14 eq. 10.4 with rise and Q D/B, the same with the circle of
                   equal area, and by the formula with span */
    double stone_in;       /**< the larger of pipe_in and box_in */
    int apron_class;       /**< 1 to 6 of HEC-14, 0 when none is large enough */
    int rock_class;        /**< 1 to 10 (I to X), 0 when none is large enough */
    double class_stone_in; /**< nominal D50 of the rock class, of the last one when none is large
                              enough */
    double length_ft, width_ft, end_width_ft, depth_ft;
    double froude;  /**< 0 when velocity or depth is not given */
    int dissipator; /**< cw_apron_dissipator */
    int verdict; /**< cw_verdict: undecided beyond the range of either formula or of the classes */
} cw_apron;

/** Whether an energy dissipator needs its own design. */
typedef enum cw_apron_dissipator {
    CW_DISSIPATOR_NO,
    CW_DISSIPATOR_YES,
    CW_DISSIPATOR_NOT_KNOWN /**< the outlet velocity is not given */
} cw_apron_dissipator;

bool cw_apron_input_valid(const cw_apron_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds apron.*, rock.* and dissipator.* (data/sitewater.csv). */
cw_apron cw_sitewater_apron(const cw_apron_input *input, const cw_rows *rows, cw_working *working);

/** Stone size D50, ft, by HEC-14 (2006) eq. 10.4 for a circular outlet; @p tailwater_ft is taken
 * within 0.4 to 1.0 of
 * @p diameter_ft; a fast barrel puts (diameter + normal depth)/2 for @p diameter_ft (eq. 10.5). */
double cw_sitewater_pipe_stone_ft(double diameter_ft, double flow_cfs, double tailwater_ft);
/** The same for a box by the formula with span. */
double cw_sitewater_box_stone_ft(double span_ft, double rise_ft, double flow_cfs,
                                 double tailwater_ft);

/* ---- the stream's way round the work ---- */

typedef struct cw_bypass_input {
    double flow_cfs; /**< all pipes */
    double head_ft;  /**< pool above tailwater, or above the centre of a free outlet */
    double length_ft, roughness, entrance;
    int pipes;
    cw_list sizes_in; /**< clear diameters to be had, any order */
} cw_bypass_input;

typedef enum cw_found { CW_FOUND, CW_FOUND_NONE } cw_found;

typedef struct cw_bypass {
    int status; /**< cw_found; with none, the figures are those of the largest size */
    double size_in;
    double capacity_cfs, velocity_fps; /**< all pipes at the head; velocity of the design flow */
    double head_used_ft;               /**< at the design flow */
} cw_bypass;

bool cw_bypass_input_valid(const cw_bypass_input *input, cw_pos where, cw_diags *diags);
cw_bypass cw_sitewater_bypass(const cw_bypass_input *input, cw_working *working);

/** Flow of one full pipe, ft3/s; sizes in ft, @p entrance the loss factor. */
double cw_sitewater_full_pipe_cfs(double diameter_ft, double length_ft, double head_ft,
                                  double roughness, double entrance);

typedef struct cw_flume_input {
    double flow_cfs, width_ft, side_slope, slope, roughness, freeboard_ft;
} cw_flume_input;

typedef enum cw_flume_state { CW_FLUME_SLOW, CW_FLUME_UNSTEADY, CW_FLUME_FAST } cw_flume_state;

typedef struct cw_flume {
    int status; /**< cw_found; with none the depth is the largest that was tried */
    double depth_ft, velocity_fps, froude, height_ft,
        top_ft; /**< height: with freeboard; top: width there */
    int state;  /**< cw_flume_state */
    int iterations;
    double residual_cfs;
} cw_flume;

/** No depth above this is looked for. */
#define CW_FLUME_DEPTH_MAX_FT 50.0

bool cw_flume_input_valid(const cw_flume_input *input, cw_pos where, cw_diags *diags);
cw_flume cw_sitewater_flume(const cw_flume_input *input, cw_working *working);

typedef enum cw_standby { CW_STANDBY_ONE, CW_STANDBY_ALL } cw_standby;

typedef struct cw_pump_input {
    double flow_cfs, pump_cfs; /**< all; one pump at the head */
    double lift_ft;            /**< water in the sump to the free end of the hose */
    double hose_ft, hose_in,
        hose_c;      /**< one hose to each pump; 0 ft: no hose loss; Hazen-Williams C */
    double other_ft; /**< further losses */
    double efficiency_percent;
    int standby;                /**< cw_standby */
    double suction_ft, site_ft; /**< suction lift; altitude of the site */
} cw_pump_input;

typedef struct cw_pump {
    int duty, standby, pumps;
    double each_cfs, hose_loss_ft, head_ft;
    double power_hp, each_hp; /**< all duty pumps; one of them */
    double suction_limit_ft;
    int suction; /**< cw_verdict */
} cw_pump;

bool cw_pump_input_valid(const cw_pump_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds pump.* (data/sitewater.csv). */
cw_pump cw_sitewater_pump(const cw_pump_input *input, const cw_rows *rows, cw_working *working);

/** Hazen-Williams loss of a full hose, ft. */
double cw_sitewater_hose_loss_ft(double length_ft, double diameter_in, double flow_cfs,
                                 double hazen_c);

/** What happens first as the stream rises. */
typedef enum cw_stop_cause {
    CW_STOP_COFFERDAM, /**< overtopped */
    CW_STOP_BARREL,    /**< the partly built barrel floats */
    CW_STOP_BASE,      /**< a base without its top floats */
    CW_STOP_WALL,      /**< water comes over the wall of a base without its top */
    CW_STOPS
} cw_stop_cause;

typedef struct cw_cofferdam_input {
    double stage_ft,
        ground_ft; /**< elevations: water at the diversion flow; ground under the crest */
    double freeboard_ft, wave_ft;
    bool has_crest, has_barrel, has_base, has_wall;
    double crest_ft;  /**< elevation as built; the needed one when not given */
    double barrel_ft; /**< elevation of the water at which the partly built barrel floats */
    double base_ft;   /**< the same for a base without its top */
    double wall_ft;   /**< elevation of the top of its wall */
    double rise_ft_per_h, clear_h; /**< how fast the stream rises; time to clear the work */
    cw_list rating_stage_ft,
        rating_flow_cfs; /**< stages and their flows, both rising; may be empty */
} cw_cofferdam_input;

typedef struct cw_cofferdam {
    double crest_ft, height_ft; /**< needed */
    int crest_verdict;          /**< cw_verdict: crest as built against the needed one */
    int stage_verdict; /**< cw_verdict: the work may go on at the stage of the diversion flow */
    int first;         /**< cw_stop_cause */
    double stop_ft;    /**< elevation at which it happens */
    double warn_ft;    /**< elevation at which the work is cleared */
    bool has_stop_flow, has_warn_flow; /**< within the rating */
    double stop_cfs, warn_cfs;
} cw_cofferdam;

bool cw_cofferdam_input_valid(const cw_cofferdam_input *input, cw_pos where, cw_diags *diags);
cw_cofferdam cw_sitewater_cofferdam(const cw_cofferdam_input *input, cw_working *working);

/* ---- groundwater ---- */

typedef enum cw_slot_sides { CW_SLOT_BOTH, CW_SLOT_ONE } cw_slot_sides;

typedef struct cw_trench_inflow_input {
    double k_ft_per_day;
    double head_ft,
        drawdown_ft; /**< still water above the impervious base; lowering at the trench */
    double length_ft, width_ft;
    int sides;        /**< cw_slot_sides */
    bool ends;        /**< add the flow round both ends */
    double influence; /**< C of Sichardt, m and m/s */
    bool has_reach;
    double reach_ft; /**< radius of influence in place of the formula */
} cw_trench_inflow_input;

/** A flow with its range: nobody knows k better than by a factor of three either way. */
typedef struct cw_inflow {
    double low_cfs, flow_cfs, high_cfs;
    double start_cfs, start_high_cfs; /**< while the cone forms */
    double reach_ft;                  /**< radius of influence at k */
    double each_cfs;                  /**< of one well; 0 for a trench */
    double radius_ft;                 /**< of the well or of the equal circle; 0 for a trench */
    int verdict; /**< cw_verdict: undecided where the formula is out of its range */
} cw_inflow;

bool cw_trench_inflow_input_valid(const cw_trench_inflow_input *input, cw_pos where,
                                  cw_diags *diags);
/** @p rows holds inflow.* (data/sitewater.csv). */
cw_inflow cw_sitewater_trench_inflow(const cw_trench_inflow_input *input, const cw_rows *rows,
                                     cw_working *working);

typedef enum cw_well_layout { CW_WELL_SINGLE, CW_WELL_RING } cw_well_layout;

typedef struct cw_well_inflow_input {
    double k_ft_per_day, head_ft, drawdown_ft;
    int layout;                 /**< cw_well_layout */
    double well_in;             /**< diameter of a single well; not read for a ring */
    double length_ft, width_ft; /**< of the ring; not read for a single well */
    int wells;                  /**< in the ring */
    double influence;
    bool has_reach;
    double reach_ft;
} cw_well_inflow_input;

bool cw_well_inflow_input_valid(const cw_well_inflow_input *input, cw_pos where, cw_diags *diags);
cw_inflow cw_sitewater_well_inflow(const cw_well_inflow_input *input, const cw_rows *rows,
                                   cw_working *working);

/** Radius of influence by Sichardt, R = C s sqrt(k) in m and m/s; in ft. */
double cw_sitewater_reach_ft(double influence, double drawdown_ft, double k_ft_per_day);

typedef struct cw_draw_down_input {
    double length_ft, width_ft, drawdown_ft, reach_ft;
    double yield_percent; /**< specific yield */
    double pump_cfs, inflow_cfs;
} cw_draw_down_input;

typedef struct cw_draw_down {
    double cone_cuft, water_cuft; /**< ground drained; water in it */
    double hours;
} cw_draw_down;

bool cw_draw_down_input_valid(const cw_draw_down_input *input, cw_pos where, cw_diags *diags);
cw_draw_down cw_sitewater_draw_down(const cw_draw_down_input *input, cw_working *working);

/* ---- flotation ---- */

typedef enum cw_float_state {
    CW_FLOAT_CLOSED, /**< base with its top, empty, ends stopped */
    CW_FLOAT_OPEN    /**< base without its top: water may come over the wall */
} cw_float_state;

typedef struct cw_flotation_input {
    int state;                  /**< cw_float_state */
    double weight_lb_per_ft;    /**< of what stands there, for a foot of run */
    double width_in, height_in; /**< outside; the height of the base's wall top when open */
    double span_in, rise_in;    /**< clear inside, for ballast; the wall's clear height when open */
    double cover_ft;            /**< fill over the top; 0 when open */
    double soil_pcf;            /**< unit weight of that fill */
    double water_pcf;
    double safety;   /**< factor on uplift */
    double water_ft; /**< water, or groundwater, above the underside of the floor */
} cw_flotation_input;

typedef enum cw_float_first {
    CW_FLOAT_FLOATS, /**< at the level given */
    CW_FLOAT_FILLS,  /**< water comes over the wall first, at the level given */
    CW_FLOAT_NEVER   /**< at no water level; the level is the one where the uplift is full */
} cw_float_first;

typedef struct cw_flotation {
    int first;       /**< cw_float_first, with the factor */
    double safe_ft;  /**< level above the underside that holds with the factor */
    double level_ft; /**< level at which it just floats (factor 1), or fills, or is fully lifted */
    double uplift_lb_per_ft, held_lb_per_ft; /**< at the water given */
    double factor;                           /**< held / uplift there; 0 when there is no uplift */
    int verdict;                             /**< cw_verdict at the water given */
    double ballast_lb_per_ft;                /**< missing weight */
    double
        water_inside_ft; /**< water inside that gives it; more than the clear height does not fit */
    bool water_holds;
    double
        fill_ft; /**< closed: fill over the top in all; open: fill on the floor inside, kept dry */
} cw_flotation;

bool cw_flotation_input_valid(const cw_flotation_input *input, cw_pos where, cw_diags *diags);
cw_flotation cw_sitewater_flotation(const cw_flotation_input *input, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_rational_flow;
extern const cw_calc cw_calc_time_of_concentration;
extern const cw_calc cw_calc_unit_peak_flow;
extern const cw_calc cw_calc_winter_flow;
extern const cw_calc cw_calc_risk;
extern const cw_calc cw_calc_apron;
extern const cw_calc cw_calc_bypass_pipe;
extern const cw_calc cw_calc_flume;
extern const cw_calc cw_calc_pump_set;
extern const cw_calc cw_calc_cofferdam;
extern const cw_calc cw_calc_trench_inflow;
extern const cw_calc cw_calc_well_inflow;
extern const cw_calc cw_calc_draw_down;
extern const cw_calc cw_calc_flotation;

#endif
