/** @file
 * The plan: everything that is computed from a job, immutable.  Renderers read it and compute nothing.
 *
 * "Plan distance" is horizontal, along the barrel from its outlet face; "slope" positions are along the invert. */
#ifndef CW_PLAN_H
#define CW_PLAN_H

#include "cw/calc.h"
#include "cw/check.h"
#include "cw/closing.h"
#include "cw/conflict.h"
#include "cw/ends.h"
#include "cw/cost.h"
#include "cw/grade.h"
#include "cw/hydraulics.h"
#include "cw/job.h"
#include "cw/layout.h"
#include "cw/lifting.h"
#include "cw/order.h"
#include "cw/run.h"
#include "cw/schedule.h"
#include "cw/sitewater.h"
#include "cw/structures.h"
#include "cw/takeoff.h"
#include "cw/earthwork.h"
#include "cw/trench.h"
#include "cw/weight.h"
#include "cw/working.h"

/** Version of the JSON form of the plan. */
enum { CW_PLAN_FORMAT = 1 };

/** A mark: all pieces that are cast alike and may be exchanged for one another. */
typedef struct cw_plan_type {
    const char *mark;    /**< "B8", "L8-A" */
    const char *name;    /**< "Base 8'-0\", plain outlet end" */
    cw_order_row row;
    int barrel;          /**< of the first such piece */
    cw_piece_shape shape;
    cw_piece_weight weight;
    cw_pick_points picks;
    double pick_lb;      /**< weight times the pick factor */
    int count;
    int working;         /**< index in workings */
} cw_plan_type;

typedef struct cw_plan_piece {
    const char *slot;    /**< place in the work, from the outlet: "1-B07" */
    int type, barrel, index; /**< barrel and index from 0 */
    cw_order_row row;
    double start_in, length_in; /**< slope */
    double start_ft, end_ft;    /**< plan distance of its faces */
    double invert_start_ft, invert_end_ft;
    int turn;            /**< place in the setting order, from 1 */
    int load;            /**< truck load that brings it when nothing is staged, from 1 */
} cw_plan_piece;

/** The gap between piece index and index+1 of a row; index -1 is the outlet face, count-1 the inlet face. */
typedef struct cw_plan_joint {
    const char *name;    /**< "1-B07/08", "1 outlet", "1 inlet" */
    int barrel, index;
    cw_order_row row;
    bool is_end, mitred, phase_line;
    double gap_in;
    double camber_ft;    /**< in every level here */
    cw_run_joint at;     /**< middle of the gap (face of an end) on the invert */
    double top_ft;       /**< top of the box */
    double seat_ft;      /**< top of the base's walls (top of a ring's floor has none: top of the box) */
    double underside_ft, bedding_ft, subgrade_ft; /**< underside of the floor, top of bedding, bottom of bedding */
    bool has_surface;
    double surface_ft, cover_ft;
    bool has_ground;
    double ground_ft;
} cw_plan_joint;

typedef struct cw_plan_barrel {
    double offset_ft;         /**< right of the centre line */
    cw_run_line line;         /**< as laid */
    cw_run_grade grade;
    double wanted_in, laid_in; /**< slope lengths */
    double gap_in;
    const int *bases, *tops;  /**< indices into pieces, from the outlet */
    int base_count, top_count;
    const cw_plan_joint *joints; /**< base joints with both ends: base_count + 1 */
    bool has_cover;
    cw_run_cover least_cover, most_cover; /**< between the hinges of the roadway, at the axis */
    bool has_end_cover;
    cw_run_cover end_cover;   /**< least over the whole laid barrel, ends included, at the axis */
} cw_plan_barrel;

/** A wingwall; heights are above the invert of its end. */
typedef struct cw_plan_wing {
    bool present;
    const cw_job_wing *given;
    double root_ft, tip_ft;
    bool has_fill;
    double fill_root_ft, fill_tip_ft; /**< fill behind it */
    bool has_take; /**< a length is given or follows; else the rest means nothing */
    cw_wing take;
    const char *fault;   /**< why it has no shape, or NULL */
    const char *working; /**< title */
} cw_plan_wing;

/** Wings, apron and cutoff wall of an end, in the axes of cw/ends.h. */
typedef struct cw_plan_end_works {
    bool present;      /**< any of them is there */
    bool inlet;
    cw_run_place place; /**< middle of the end face */
    double width_ft;   /**< root to root along the face */
    double face_deg, normal_deg;
    double wall_ft;    /**< thickness of the headwall, 0 without one */
    cw_plan_wing wings[2]; /**< CW_END_LEFT, CW_END_RIGHT */
    cw_end_plan plan;
    bool has_apron, has_cutoff;
    cw_end_apron apron;
    cw_cutoff cutoff;
} cw_plan_end_works;

/** A point of an end in the survey's grid and in the road's coordinates; heading, skew and chain are those of the end. */
cw_run_place cw_plan_end_place(const cw_plan_end_works *works, cw_run_inlet inlet, cw_end_point point);

/** One end of the structure after the division into pieces. */
typedef struct cw_plan_end {
    bool from_template;     /**< its place was computed from the road */
    cw_run_end wanted, laid;
    bool has_fill;          /**< laid.height_ft means something (there is a road) */
    double box_top_ft;      /**< top of the box above the invert there, plumb */
    double wall_top_ft;     /**< headwall above the invert */
    bool has_headwall;
    cw_run_headwall_take headwall;
    cw_plan_end_works works;
} cw_plan_end;

/** One line of the profile over a barrel's axis. */
typedef struct cw_plan_profile_point {
    double at_ft, surface_ft;
    bool has_ground;
    double ground_ft;
} cw_plan_profile_point;

/** How amounts are rounded when printed; the exact value is kept. */
typedef enum cw_rounding { CW_ROUND_NONE, CW_ROUND_UP, CW_ROUND_NEAREST } cw_rounding;

typedef struct cw_plan_quantity {
    const char *group, *item;
    cw_dim dim;
    double exact, printed;
    cw_rounding rounding;
    const char *rule; /**< how it is taken off */
} cw_plan_quantity;

/** A step of the setting order with its words. */
typedef struct cw_plan_step {
    int step;         /**< in the graph */
    const char *id;   /**< stable: "set 1-B03" */
    const char *text; /**< "Set base 1-B03 (mark B8)" */
    const char *limit; /**< what must hold before it is signed, and what to do when it does not; "" when nothing is to be said */
    int piece;        /**< index into pieces, -1 */
} cw_plan_step;

/* ---- water ---- */

enum { CW_PLAN_CURVE_POINTS = 121 };

/** Answer for one flow of the job. */
typedef struct cw_plan_flow {
    const cw_job_flow *given;
    double flow_cfs;   /**< as given or found */
    cw_verdict method; /**< undecided where the method is past its range */
    cw_water_answer answer; /**< status OK or the other numbers mean nothing */
    const cw_water_profile *profiles; /**< one each barrel, from the left; NULL unless answered */
    double ratio;      /**< greatest headwater over opening of the barrels */
    double velocity_fps, froude; /**< greatest at the outlets */
    bool has_apron;
    cw_apron apron;
} cw_plan_flow;

typedef struct cw_plan_water {
    bool present;
    cw_water_status status; /**< of the site; the rest means nothing unless OK */
    cw_water_site site;
    double opening_ft;      /**< rise above the bed */
    const cw_plan_flow *flows;
    int flow_count;
    const cw_water_answer *curve; /**< performance curve, flow rising from 0 */
    int curve_count;
    double low_road_ft;     /**< low point of the roadway: of the crest, or the lower hinge */
    bool has_crest;
    bool has_overtopping;
    double overtopping_cfs; /**< flow at which the pool reaches the crest */
} cw_plan_water;

/** Water during the work. */
typedef struct cw_plan_site_water {
    bool present;
    double work_cfs;         /**< greatest flow for the season of the work; 0 when none is given */
    bool has_stage;
    double stage_ft;         /**< elevation of the stream above the work at that flow */
    const char *stage_how;   /**< how it was found */
    bool has_bypass, has_flume, has_pump, has_cofferdam, has_barrel_path;
    cw_bypass bypass;
    cw_flume flume;
    cw_pump pump;
    cw_cofferdam cofferdam;
    cw_water_root barrel_path; /**< flow that the first barrel passes with the pool at the cofferdam's needed crest */
    bool has_groundwater;
    double drawdown_ft;      /**< still groundwater less the lowered level under the subgrade */
    bool has_inflow;
    cw_inflow inflow;
    bool has_draw_down;
    cw_draw_down draw_down;
    double underside_ft;     /**< lowest underside of a floor: where floating begins */
    double groundwater_ft;   /**< still groundwater above it, not below 0 */
    cw_flotation closed, open; /**< an empty barrel with its top and no fill; a base without its top */
} cw_plan_site_water;

/* ---- ground ---- */

enum { CW_PLAN_CUTS_MAX = 520, CW_PLAN_DRAWN_MAX = 8 };

/** A layer of ground in one section, from the bottom of the cut up. */
typedef struct cw_plan_layer {
    const char *name;
    double bottom_ft;     /**< above the bottom of the cut */
    cw_soil soil;
} cw_plan_layer;

/** The section of the cut at one place. */
typedef struct cw_plan_cut {
    double at_ft;         /**< plan distance from the outlet face of the first barrel */
    const char *why;      /**< why there is a section here */
    double ground_ft, subgrade_ft, depth_ft; /**< on the centre line; depth 0 where nothing is dug */
    double water_ft;      /**< still groundwater above the bottom, 0 when none */
    bool dug;             /**< the ground stands high enough above the subgrade for a cut */
    cw_plan_layer layers[CW_SOILS_MAX];
    int layer_count;
    cw_trench_section section;
    bool refused;         /**< the ground does not take the protection that the job names: sloped instead */
    bool drawn;
    const cw_trench_shape *shape; /**< of drawn sections */
    double pile_base_ft, pile_height_ft; /**< spoil on one side, 0 when hauled */
} cw_plan_cut;

typedef struct cw_plan_trench {
    bool present;         /**< ground along the run is known */
    bool classed;         /**< the job says what the ground is */
    const cw_plan_cut *cuts;
    int cut_count;
    int deepest;          /**< index of the cut with the deepest edge; -1 when nothing is dug */
    double length_ft;     /**< of the part that is dug, plan */
    double exact_cy, average_cy, ends_cy, overbreak_cy;
    bool has_pay;
    double pay_cy;
    cw_earth earth;       /**< of the exact volume with ends, bank */
    cw_earth_balance balance;
    cw_egress egress;
} cw_plan_trench;

/** Grade of one barrel: growth, closing, heading. */
typedef struct cw_plan_growth {
    cw_growth growth;
    int late_joints;      /**< joints of the upstream half, which close what has grown */
    double closed_in, opened_in; /**< what they take up at the least gap, and give at the greatest */
    int order_by;         /**< piece after which a closure piece is ordered at the latest, from 1; 0 when none is needed */
    cw_gap last;          /**< gap needed in the upstream half when the run has grown to its high bound */
    int straight;         /**< pieces after which the heading may have left the line tolerance; the count of pieces when it does not */
    cw_heading heading;   /**< of the whole run, left alone */
} cw_plan_growth;

/** Where the tape should stand at the upstream face of a piece, slope distance from the outlet face. */
typedef struct cw_plan_tape {
    int piece;            /**< index of the base in its barrel */
    double drawn_ft, least_ft, most_ft; /**< between them the gaps that are left still end the run in its tolerance */
    double rest_ft;       /**< length of the pieces still to set */
    int gaps;             /**< still to make */
} cw_plan_tape;

typedef struct cw_plan_stake {
    const char *name;
    double at_ft, offset_ft; /**< plan; right positive, from the centre of the first or last barrel as named */
    double northing_ft, easting_ft, invert_ft, subgrade_ft;
} cw_plan_stake;

typedef struct cw_plan_grade {
    bool has_instrument;
    double instrument_ft; /**< height of instrument */
    double least_rod_ft, most_rod_ft;
    const char *least_rod, *most_rod; /**< where */
    double laser_percent;
    bool has_camber;
    cw_camber camber;
    bool has_loop;
    cw_level loop;
    const cw_plan_growth *growth; /**< of each barrel */
    const cw_plan_tape *const *tape; /**< of each barrel: one for each base but the last */
    const cw_plan_stake *stakes;
    int stake_count;
} cw_plan_grade;

typedef struct cw_plan_zone {
    const char *name, *material;
    double from_ft;       /**< above the underside */
    bool has_to;
    double to_ft;         /**< else to the finished surface */
    double compaction_percent, volume_cy;
} cw_plan_zone;

/** Sealant, fill between barrels, backfill. */
typedef struct cw_plan_closing {
    bool has_rope;
    cw_rope rope;
    double annulus_min_in, annulus_max_in, face_in;
    bool has_strength;    /**< the fill has a curve and a forecast */
    cw_maturity maturity; /**< of the whole forecast */
    cw_strength strength; /**< at its end */
    bool reached;         /**< within the forecast */
    double release_h;     /**< hours on the clock from the last placement */
    double compacted_in;  /**< one lift */
    double height_in;     /**< filled beside the box in lifts: its outside height */
    int lifts, lifts_apart, hand_lifts; /**< each side; hand lifts in one of them */
    const double *lift_cy;              /**< compacted, of each lift, both sides; NULL without volumes */
    double beside_cy, over_cy;          /**< compacted: to the top of the box, and over it to the surface */
    double loose_cy;
    int tests;
    const cw_plan_zone *zones;
    int zone_count;
    bool has_volumes;
    double machine_ft;    /**< elevation of compacted fill over the highest top at which the first machine may come */
} cw_plan_closing;

/* ---- strength ---- */

enum {
    CW_PLAN_COVERS = 2,   /**< least and most */
    CW_PLAN_GROUNDS = 2,  /**< straight-line reaction, springs */
    CW_PLAN_STATES = 3,   /**< service, strength, permit */
    CW_PLAN_SECTIONS = 7, /**< bending */
    CW_PLAN_SHEARS = 3,
    CW_PLAN_LIFTS_MAX = 40,
    CW_PLAN_PAIRS = 25,      /**< points of a curve of resistance */
    CW_PLAN_CROSS_STEPS = 48 /**< of a crossing's curve, a quarter of a foot each */
};

/** Covers of a crossing's curve, from 0, ft. */
#define CW_PLAN_CROSS_STEP_FT 0.25

/** Which of the envelopes an answer comes from. */
typedef struct cw_plan_from {
    int cover, ground, state; /**< index, cw_struct_ground, cw_struct_state */
    int load;                 /**< for cw_struct_case_words() */
} cw_plan_from;

/** A section that bends, with the face in tension. */
typedef struct cw_plan_section {
    const char *name; /**< "middle of the top, inside" */
    int face;         /**< cw_steel_at */
    double thickness_in, depth_in;
    bool has_steel;
    double steel_in2_per_ft, spacing_in; /**< given; spacing 0 when it is not */
    double moment_ft_lb, thrust_lb;      /**< factored, that need most steel; moment without sign */
    bool pulled;                         /**< the thrust with it is tension, taken as none */
    cw_plan_from from;
    cw_struct_flexure flexure;
    cw_struct_flexure crack; /**< at service, of the case that stresses the steel most */
    cw_plan_from crack_from;
    /* resistance against thrust, when the steel is given */
    double pair_thrust_lb[CW_PLAN_PAIRS], pair_moment_ft_lb[CW_PLAN_PAIRS];
} cw_plan_section;

typedef struct cw_plan_shear {
    const char *name;
    int member; /**< cw_struct_slab */
    double thickness_in, depth_in, steel_in2_per_ft;
    bool has_steel; /**< else the steel that bending needs is counted */
    double shear_lb, moment_ft_lb;
    cw_plan_from from;
    cw_struct_shear shear;
} cw_plan_shear;

/** One placement of the fill between barrels. */
typedef struct cw_plan_lift {
    double from_ft, to_ft; /**< above the floor inside */
    int governs;           /**< cw_struct_fill_limit */
} cw_plan_lift;

typedef struct cw_plan_crossing {
    const cw_job_vehicle *given;
    double cover_ft;      /**< when it crosses */
    bool by_steel;        /**< against the steel of the top; else against the design traffic */
    double design_cover_ft;
    cw_struct_cross cross;
    double use[CW_PLAN_CROSS_STEPS + 1]; /**< demand over what is allowed, at covers from 0 */
} cw_plan_crossing;

typedef struct cw_plan_handling {
    const cw_plan_type *type; /**< heaviest of its row; NULL when there is none to be computed */
    double sling_deg;
    cw_struct_lift lift;
} cw_plan_handling;

typedef struct cw_plan_strength {
    bool present;
    int cover_count; /**< 0: no cover is known, and only the stages mean something */
    double cover_ft[CW_PLAN_COVERS];
    bool permit;     /**< the job has permit vehicles */
    cw_struct_box box[CW_PLAN_GROUNDS];
    double earth_psf[CW_PLAN_COVERS], surcharge_psf[CW_PLAN_COVERS];
    cw_struct_lateral side[CW_PLAN_COVERS];
    cw_struct_wheel design[CW_PLAN_COVERS][2]; /**< truck and tandem */
    cw_struct_status status;                   /**< of all envelopes; the sections mean nothing unless OK */
    cw_struct_envelope envelopes[CW_PLAN_COVERS][CW_PLAN_GROUNDS][CW_PLAN_STATES];
    cw_struct_diagram *diagrams[CW_PLAN_COVERS][CW_PLAN_GROUNDS]; /**< factored, along the members */
    cw_plan_section sections[CW_PLAN_SECTIONS];
    int section_count;
    cw_plan_shear shears[CW_PLAN_SHEARS];
    cw_struct_bearing bearing;
    double bearing_even_psf, bearing_spring_psf; /**< greatest at service by either ground */
    double seat_lb, seat_psi, seat_limit_psi;    /**< lid on one wall, factored */
    double key_lb, key_psi;                      /**< thrust that the key of a lid passes on, factored */

    /* while it is built */
    bool has_open;
    cw_struct_open open; /**< earth against a base without its top */
    bool has_fill;       /**< there is fluid fill between barrels */
    cw_plan_lift lifts[CW_PLAN_LIFTS_MAX];
    int lift_count;      /**< 0: the placements of the job are too few */
    int lifts_needed;    /**< least number of placements; 0 when no number is enough */
    cw_struct_fill first_fill;
    const cw_plan_crossing *crossings;
    int crossing_count;
    cw_plan_handling base_lift, top_lift;
} cw_plan_strength;
/* ---- what stands in the way of the cut ---- */

/** The cut at a place along the centre line. */
typedef struct cw_plan_outline_point {
    double at_ft; /**< plan, from the outlet face; negative or past the inlet face in the ends */
    double bottom_ft;
    bool has_ground;
    double ground_ft;
    double half_ft; /**< of the cut at the ground; at the bottom when there is no ground */
} cw_plan_outline_point;

typedef struct cw_plan_outline {
    double half_bottom_ft, work_ft;
    const char *how;      /**< what width and slope rest on, in words */
    const char *rests_on; /**< their rows */
    double start_ft, end_ft; /**< ends of the bottom along the run */
    const cw_plan_outline_point *points;
    int count;
} cw_plan_outline;

typedef struct cw_plan_utility {
    const cw_job_utility *given;
    bool has_level, outside, overhead; /**< level known; too far along the run to matter; above the ground */
    double top_ft;        /**< elevation of its top where it comes nearest to the box */
    double cut_gap_ft, box_gap_ft; /**< negative: in the cut, in the concrete */
    double at_ft;         /**< where it comes nearest to the cut */
    double exposed_ft;    /**< length that shows in the cut */
    const char *working;  /**< title, or NULL */
} cw_plan_utility;

typedef struct cw_plan_structure {
    const cw_job_structure *given;
    bool outside;
    double at_ft; /**< worst place */
    double bottom_ft, ground_ft;
    cw_footing take;
    const char *working;
} cw_plan_structure;

/** A right of way line beside the cut. */
typedef struct cw_plan_line {
    const char *name;
    bool right, outside; /**< outside: no part of it lies beside the cut */
    double at_ft, half_ft, away_ft; /**< worst place: half width of the cut, distance of the line */
} cw_plan_line;

/** The temporary face at a phase line, toward the traffic on one side of it. */
typedef struct cw_plan_phase_edge {
    int phase;     /**< index in the job */
    bool upstream; /**< the traffic lies upstream of the line */
    double lane_ft, barrier_ft, depth_ft, ground_ft, bottom_ft;
    bool has_depth;
    cw_phase_edge take;
    const char *working;
} cw_plan_phase_edge;

typedef struct cw_plan_conflicts {
    bool present;
    cw_plan_outline cut;
    const cw_plan_utility *utilities;
    int utility_count;
    const cw_plan_structure *structures;
    int structure_count;
    const cw_plan_line *lines;
    int line_count;
    const cw_plan_phase_edge *edges;
    int edge_count;
} cw_plan_conflicts;

/* ---- schedule ---- */

/** A line of the bar chart: work of one kind in one phase, in the run without chance. */
typedef struct cw_plan_bar {
    const char *name;
    double start_min, finish_min;
    double critical; /**< share of the runs in which some step of it held up the finish; 0 without runs */
} cw_plan_bar;

typedef struct cw_plan_schedule {
    bool present;
    cw_setting_status status; /**< of the run without chance; the rest means nothing unless DONE */
    int first_day;            /**< day number; minutes count from its midnight */
    bool has_by;
    int by_day;
    const cw_plan_bar *bars;
    int bar_count;
    const double *set_min;    /**< when each piece is set, in the run without chance */
    double steady_min;        /**< finish of that run: all times at their medians, no bad days */
    int runs, stopped;        /**< runs that came to the end, and those past the last day of the calendar */
    const double *finish_days; /**< of each run, sorted: days from the first midnight */
    cw_figures finish, crane_days, truck_wait_h, crane_idle_h;
    double by_share;          /**< runs done by the wanted day, of all */
    const cw_finish_swing *swings;   /**< greatest first */
    const char *const *law_names; /**< by law: stem of the rows, "time.set" */
    int swing_count;
} cw_plan_schedule;
/* ---- earthwork from the surface ---- */

/** What the plan knows about the cut, for its volume from the ground's triangles. */
typedef struct cw_plan_surface_input {
    double outlet_chain_ft, inlet_chain_ft; /**< where the bottom begins and ends along the centre line */
    double subgrade_ft, grade;  /**< of the bottom at the outlet; ft/ft upstream */
    cw_trench_shape shape;      /**< the same all along */
    double end_slopes[2];       /**< outlet, inlet; 0: upright */
    double step_ft;             /**< of the sections for average end area */
    bool has_fill;
    cw_earthwork_fill_input fill; /**< its boxes' from and to are chains as well */
} cw_plan_surface_input;

typedef struct cw_plan_surface {
    bool present;      /**< the ground file is a surface and the cut is known */
    bool known;        /**< else @c why says what is missing, and there are no volumes */
    const char *why;
    double origin_northing_ft, origin_easting_ft; /**< of the edge's places, in the surface's coordinates */
    cw_earthwork_dug dug;
    bool has_average;
    double average_cuft; /**< of the run, by sections */
    bool has_fill;
    cw_earthwork_fill fill;
} cw_plan_surface;

/** Volumes of the cut from job.ground.mesh.  The centre line is @p path; each straight between bends is a leg. */
cw_plan_surface cw_plan_surface_of(const cw_job *job, const cw_run_path *path, const cw_plan_surface_input *input,
                                   cw_arena *arena);
/* ---- cranes ---- */

/** How one mark hangs on its bridle. */
typedef struct cw_plan_rigging {
    bool can;          /**< the weight hangs within the picks */
    cw_bridle made;    /**< legs made to length: level */
    cw_bridle equal;   /**< equal legs, of the longest of those: its rise out of level */
    double shorten_in[CW_SLING_LEGS_MAX]; /**< legs of that length by this, to hang level */
} cw_plan_rigging;

typedef struct cw_plan_pick {
    int setup; /**< index into setups, -1: off the chart */
    double gross_lb, radius_ft, rated_lb, percent; /**< on the boom head, the crane's deductions counted */
} cw_plan_pick;

typedef struct cw_plan_setup {
    const char *name;  /**< "setup 2" */
    const cw_job_crane *crane;
    const cw_setup *at;
    double boom_ft, offset_ft; /**< right of the centre line */
    int worst, nearest, farthest; /**< pieces: most of the chart, least and greatest radius */
    cw_boom boom;      /**< the tightest of its picks, for the boom and for the height each the worst */
    cw_setback setback;
    bool has_mat;
    double float_lb;   /**< on one float, by the share of the job */
    cw_mat mat;
    bool truck_on_chart;
    double truck_rated_lb, truck_gross_lb;
} cw_plan_setup;

typedef struct cw_plan_cranes {
    bool present;
    const char *fault; /**< NULL, or why there are no setups */
    cw_setup_problem problem;
    cw_setup_answer answer;
    const cw_plan_setup *setups;
    int setup_count;
    const cw_plan_pick *picks;       /**< one for each piece of the plan */
    const cw_plan_rigging *rigging;  /**< one for each type */
    double days[CW_CRANES_MAX];      /**< of each crane, setups and pieces */
} cw_plan_cranes;

typedef struct cw_plan {
    const cw_job *job;
    cw_unit_system units;
    bool laid;   /**< a division into pieces was found; when false only run, checks and workings are filled */

    /* the run */
    cw_run_road road;        /**< zero without a road */
    bool has_surface;        /**< road and both its templates are known: surface and cover mean something */
    cw_run_ground ground;
    cw_run_path path;
    cw_run_span wanted_span, span; /**< needed, and as laid */
    cw_run_box box;
    double azimuth_deg, outside_width_in, width_ft, spacing_ft; /**< of one barrel; of all; centre to centre */
    double plan_length_ft, slope_length_ft, slope_factor;       /**< as laid, on the centre line */
    double pay_length_ft;    /**< plan, all barrels, to the nearest foot each */
    cw_plan_end outlet, inlet;

    /* the pieces */
    cw_layout_problem problem;
    cw_layout_answer layout;
    const cw_plan_barrel *barrels;
    int barrel_count;
    const cw_plan_type *types;
    int type_count;
    const cw_plan_piece *pieces; /**< by barrel, bases before tops, from the outlet */
    int piece_count;
    const cw_plan_profile_point *profile; /**< over the first barrel's axis */
    int profile_count;

    /* the order */
    cw_order_run order_run;
    const cw_order_graph *order;
    const cw_plan_step *steps; /**< in default order */
    int step_count;
    const int *setting;        /**< pieces in setting order: indices into pieces */
    cw_truck_loads trucks;

    cw_plan_water water;
    cw_plan_site_water site_water;
    cw_plan_trench trench;
    cw_plan_surface surface;
    cw_plan_grade grade;
    cw_plan_closing closing;

    cw_plan_strength strength;
    cw_plan_conflicts conflicts;
    cw_plan_schedule schedule;
    cw_plan_cranes cranes;

    const cw_plan_quantity *quantities;
    int quantity_count;
    cw_checks checks;
    const cw_working *workings;
    int working_count;
} cw_plan;

/* ---- setting as a simulation ---- */

/** Crews of the simulation, as places in crew_size. */
enum { CW_CREW_CRANE, CW_CREW_SETTING, CW_CREW_BEDDING, CW_CREW_JOINT, CW_CREW_FILL, CW_CREW_EARTH, CW_CREWS };

/** What the order does not say. */
typedef struct cw_plan_pace {
    cw_clock clock;
    int crews[CW_CREWS]; /**< how many of each */
    int trucks;
    const int *load_of_step; /**< truck load, from 0, of each received and set step; -1 none; NULL: no trucks */
    int load_count;
} cw_plan_pace;

/** What a law of cw_plan_setting_job() is about, as in the rows: "time.set". */
const char *cw_plan_law_name(int law, cw_arena *arena);

/** The steps of an order with times, crews and weather of @p rows (time.*, haul.*, pace.*, weather.*): the order's own needs
 * and sequence, so that a simulated job cannot do what the order forbids. */
cw_setting_job cw_plan_setting_job(const cw_order_graph *graph, const cw_plan_pace *pace, const cw_rows *rows,
                                   cw_arena *arena);

/** Compute the plan.  Never fails: what cannot be computed is a row of the ledger.  Everything lives in @p arena. */
const cw_plan *cw_plan_compute(const cw_job *job, cw_arena *arena);

/** Step of the default order with this id, or -1. */
int cw_plan_step_find(const cw_plan *plan, const char *id);

#endif
