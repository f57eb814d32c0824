/** @file
 * Water through box barrels, over the road above them and in the channel below them.
 *
 * Steady flow.  Depths and heads in ft, flows in cfs, speeds in ft/s, g = 32.2 ft/s2 and the
 * Manning factor 1.486 as in FHWA HDS-5.  A headwater is the energy head of the pool above the
 * inlet sill of its barrel: the approach velocity head is inside it, and taking the pool as still
 * is on the safe side.  Levels are elevations.  `x` runs along a barrel from its inlet, downstream
 * positive; S is positive when the barrel falls downstream.  The sill is the floor, or the bed
 * where one is embedded.
 *
 * Pure: no allocation, no files; workings may always be NULL.  A number means something only where
 * its status is CW_WATER_OK or its `has_` flag is set. */
#ifndef CW_HYDRAULICS_H
#define CW_HYDRAULICS_H

#include <stdbool.h>

#include "cw/calc.h"
#include "cw/rows.h"
#include "cw/working.h"

#define CW_WATER_GRAVITY 32.2  /**< ft/s2, as HDS-5 uses it */
#define CW_WATER_MANNING 1.486 /**< ft^(1/3)/s, as HDS-5 prints it */

enum {
    CW_WATER_BARRELS_MAX = 8,
    CW_WATER_NODES_MAX = 160, /**< of one profile */
    CW_WATER_WEIR_MAX = 5     /**< points of the tables of a road surface */
};

/** How a question ended.  cw_water_status_words() says it in a sentence with the remedy. */
typedef enum cw_water_status {
    CW_WATER_OK = 0,
    CW_WATER_NO_NORMAL,    /**< level or adverse: there is no normal depth */
    CW_WATER_OVER_BANKS,   /**< the surveyed section does not hold the flow below its lower end */
    CW_WATER_BEYOND_TABLE, /**< the flow lies outside the table of flow and stage */
    CW_WATER_BAD_SECTION,  /**< no width, no roughness, points not from left to right, ... */
    CW_WATER_BAD_TABLE,    /**< flow or stage of the tailwater table does not rise */
    CW_WATER_BAD_BARREL, /**< span, rise above the bed, length, roughness or a loss out of sense */
    CW_WATER_BAD_INLET,  /**< an inlet law that does not rise with flow */
    CW_WATER_BAD_ROAD,   /**< crest points not from left to right, or a weir factor out of sense */
    CW_WATER_BAD_FLOW,   /**< a flow that is negative or not finite */
    CW_WATER_ROAD_DROWNED, /**< the tailwater at zero flow stands over the road */
    CW_WATER_BELOW_SILLS,  /**< the level asked for lies under every sill or under the tailwater */
    CW_WATER_NOT_FOUND     /**< no root within the bracket or the number of steps */
} cw_water_status;

const char *cw_water_status_words(cw_water_status status);

/** A root and how it was found; all zero but the value for a closed form. */
typedef struct cw_water_root {
    cw_water_status status;
    double value;     /**< depth ft, level ft or flow cfs, as the function says */
    double low, high; /**< last bracket of the value */
    int iterations;
    double residual; /**< relative miss of the flow, unless the function says otherwise */
} cw_water_root;

/* ---- sections ---- */

typedef enum cw_water_shape {
    CW_WATER_RECTANGLE, /**< bottom_ft wide, open at the top */
    CW_WATER_TRAPEZOID,
    CW_WATER_SURVEYED
} cw_water_shape;

/** A surveyed point; @c n is the roughness from this point to the next (that of the last is
 * unused). */
typedef struct cw_water_point {
    double x_ft, z_ft, n;
} cw_water_point;

typedef struct cw_water_section {
    cw_water_shape shape;
    double bottom_ft;  /**< rectangle, trapezoid */
    double side_slope; /**< trapezoid, horizontal per 1 vertical; >= 0 */
    double n;          /**< rectangle, trapezoid: sides, and bed where bed_n is 0 */
    double bed_n;      /**< 0: as n; otherwise the composite of Horton is taken */
    const cw_water_point
        *points; /**< surveyed: x never falling, at least 3; depth is above the lowest */
    int point_count;
    bool
        one_panel; /**< surveyed: one area, one perimeter and Horton's composite n; otherwise the
                      conveyances of panels of equal n are added, with no friction between panels */
} cw_water_section;

typedef struct cw_water_wet {
    double area_sqft, wetted_ft, top_ft;
    double conveyance_cfs; /**< flow at slope 1 */
    double n;              /**< that one section would need for this conveyance; 0 when dry */
} cw_water_wet;

/** CW_WATER_OK or CW_WATER_BAD_SECTION. */
cw_water_status cw_water_section_check(const cw_water_section *section);

/** Elevation of the lowest point of a surveyed section; 0 for the others. */
double cw_water_section_low_ft(const cw_water_section *section);

/** Depth at which the lower end of a surveyed section is reached; a very large number for others.
 */
double cw_water_section_full_ft(const cw_water_section *section);

/** Wet part at @p depth_ft.  Source: plane geometry; Manning with HDS-5's 1.486. */
cw_water_wet cw_water_section_at(const cw_water_section *section, double depth_ft);

/** Normal depth, ft.  A surveyed section is searched from its lowest point in 200 steps, so that
 * the lowest of several roots is found. */
cw_water_root cw_water_normal_depth(const cw_water_section *section, double flow_cfs, double slope);

/** Critical depth, ft: Q^2 T = g A^3; of several roots of a surveyed section that of least energy.
 */
cw_water_root cw_water_critical_depth(const cw_water_section *section, double flow_cfs);

/** ((P1 n1^1.5 + P2 n2^1.5)/(P1 + P2))^(2/3).  Source: Horton 1933, as cited by HDS-5 app. D. */
double cw_water_composite_n(double walls_ft, double walls_n, double bed_ft, double bed_n,
                            cw_working *working);

/** Depth after a jump on a level rectangular floor, y1/2 (sqrt(1 + 8 F^2) - 1). */
double cw_water_sequent_ft(double depth_ft, double froude);

/* ---- tailwater ---- */

typedef enum cw_water_tail {
    CW_WATER_TAIL_FREE,
    CW_WATER_TAIL_FIXED,
    CW_WATER_TAIL_TABLE,
    CW_WATER_TAIL_CHANNEL
} cw_water_tail;

typedef struct cw_water_stage {
    double flow_cfs, level_ft;
} cw_water_stage;

typedef struct cw_water_tailwater {
    cw_water_tail kind;
    double level_ft;              /**< fixed */
    const cw_water_stage *stages; /**< table: flow rising, level never falling; straight between */
    int stage_count;
    cw_water_section channel; /**< normal depth in it */
    double channel_slope;
    double channel_bed_ft; /**< elevation of its bed; added to the elevations of a surveyed
                              section's points when not 0 */
} cw_water_tailwater;

typedef struct cw_water_tail_level {
    cw_water_status status;
    bool has_level;                          /**< false for a free outfall */
    double level_ft, depth_ft, velocity_fps; /**< depth and velocity of a channel only */
    cw_water_root root;                      /**< of a channel */
} cw_water_tail_level;

cw_water_status cw_water_tailwater_check(const cw_water_tailwater *tail);
cw_water_tail_level cw_water_tailwater_at(const cw_water_tailwater *tail, double flow_cfs);

/* ---- inlets ---- */

/** Law of an inlet.  r = Q/(A D^0.5), HW/D = head.  Unsubmerged to r = 3.5: Hc/D + K r^M + Ks S
 * when
 * @c with_critical, else K r^M; submerged from 4.0: c r^2 + Y + Ks S; between them one cubic.
 * Source: HDS-5 app. A. */
typedef struct cw_water_inlet {
    bool with_critical; /**< form 1 */
    double k, m, c, y;
    double slope_factor; /**< Ks: -0.5, mitred to the slope 0.7 */
} cw_water_inlet;

typedef struct cw_water_inlet_kind {
    const char *id;    /**< "wings-30-75"; rows inlet.<id>.k and so on */
    const char *words; /**< "wingwalls flared 30 to 75 deg" */
} cw_water_inlet_kind;

/** Ids of all inlets, closed by NULL; the last before it is "own". */
extern const char *const cw_water_inlet_choices[];
enum { CW_WATER_INLET_DEFAULT = 1, CW_WATER_INLET_OWN = 23 };

/** The inlet at this index of cw_water_inlet_choices, without "own"; NULL past the end. */
const cw_water_inlet_kind *cw_water_inlet_kind_at(int index);

/** The coefficients of inlet @p index from @p rows; false when a row is missing. */
bool cw_water_inlet_rows(const cw_rows *rows, int index, cw_water_inlet *inlet);

/** Entrance loss k_e of this edge from rows entrance.<id>.loss; false when the row is missing. */
bool cw_water_entrance_rows(const cw_rows *rows, int index, double *loss);

/** Ids of the entrances, closed by NULL; the last before it is "own". */
extern const char *const cw_water_entrance_choices[];
enum { CW_WATER_ENTRANCE_DEFAULT = 0, CW_WATER_ENTRANCE_OWN = 8 };

/** Where the inlet law stands. */
typedef enum cw_water_part {
    CW_WATER_UNSUBMERGED,
    CW_WATER_JOIN,
    CW_WATER_SUBMERGED
} cw_water_part;

typedef struct cw_water_inlet_head {
    double r;              /**< Q/(A D^0.5) */
    double unsubmerged_ft; /**< as printed, wherever r is */
    double submerged_ft;
    double headwater_ft; /**< the answer: >= the critical energy head */
    cw_water_part part;
    bool shifted;       /**< the join was moved to the crossing of the two laws */
    bool outside_tests; /**< HW/D > 3 */
} cw_water_inlet_head;

/** Headwater by inlet control of one opening.  @pre span, rise > 0, flow >= 0. */
cw_water_inlet_head cw_water_inlet_control(const cw_water_inlet *inlet, double span_ft,
                                           double rise_ft, double slope, double flow_cfs);

/* ---- one barrel ---- */

typedef struct cw_water_barrel {
    double span_ft, rise_ft;                /**< clear, as cast */
    double bed_ft;                          /**< embedded bed above the floor, >= 0, < rise */
    double length_ft;                       /**< along the slope */
    double inlet_floor_ft, outlet_floor_ft; /**< elevations of the cast floor */
    double n;                               /**< walls and lid, and floor where there is no bed */
    double bed_n;                           /**< of the embedded bed; used when bed_ft > 0 */
    cw_water_inlet inlet;
    double entrance_loss; /**< k_e */
    double other_loss; /**< sum of k of bends, grates and junctions, on the velocity at the inlet */
    double blocked_ratio;  /**< part of the span blocked at the face, 0 .. 0.9 */
    bool channel_velocity; /**< exit loss is the difference of the velocity heads, not all of that
                              of the barrel */
} cw_water_barrel;

cw_water_status cw_water_barrel_check(const cw_water_barrel *barrel);

/** Sill and opening after the bed. */
double cw_water_sill_ft(const cw_water_barrel *barrel); /**< inlet */
double cw_water_outlet_sill_ft(const cw_water_barrel *barrel);
double cw_water_opening_ft(const cw_water_barrel *barrel); /**< rise above the bed */
double cw_water_slope(const cw_water_barrel *barrel);

typedef enum cw_water_control { CW_WATER_BY_INLET, CW_WATER_BY_OUTLET } cw_water_control;

typedef enum cw_water_regime {
    CW_WATER_STILL,     /**< no flow */
    CW_WATER_SLOW,      /**< runs free and slow */
    CW_WATER_FAST,      /**< runs free and fast */
    CW_WATER_JUMPS,     /**< jumps inside */
    CW_WATER_DROWNED,   /**< a fast slope drowned from the outlet up to the inlet */
    CW_WATER_PART_FULL, /**< touches the lid over a part of the barrel */
    CW_WATER_FULL       /**< full from end to end */
} cw_water_regime;

const char *cw_water_regime_words(cw_water_regime regime);
const char *cw_water_control_words(cw_water_control control);
extern const char *const cw_water_regime_choices[];
extern const char *const cw_water_control_choices[];

/** The headwater alone: what the solvers call. */
typedef struct cw_water_head {
    cw_water_status status;
    double headwater_ft; /**< above the inlet sill: the larger of the two */
    double inlet_ft;
    bool has_outlet; /**< false: the barrel runs fast and nothing from the outlet reaches the inlet
                      */
    double outlet_ft;
    bool bridged; /**< outlet_ft is led over: the outlet's curve ends just inside the barrel, or the
                     barrel is about to fill */
    cw_water_control control;
} cw_water_head;

/** @p tail_ft: depth of the tailwater above the outlet sill (below 0 allowed: a free outfall);
 * @p tail_velocity_fps used only with channel_velocity.  @pre the barrel is checked. */
cw_water_head cw_water_head_of(const cw_water_barrel *barrel, double flow_cfs, double tail_ft,
                               double tail_velocity_fps);

typedef struct cw_water_node {
    double x_ft;
    double head_ft;   /**< depth, or pressure head above the sill where it exceeds the opening */
    double energy_ft; /**< above the sill there */
    double run_ft;    /**< dx/dhead, for the curve between nodes; unused where the barrel is full */
} cw_water_node;

/** One branch, nodes by rising x. */
typedef struct cw_water_branch {
    int count;
    cw_water_node nodes[CW_WATER_NODES_MAX];
} cw_water_branch;

typedef struct cw_water_profile {
    cw_water_status status;
    double flow_cfs, slope, length_ft, opening_ft, span_ft;
    double critical_ft;   /**< not limited by the lid */
    bool has_normal;      /**< false on level or adverse barrels */
    cw_water_root normal; /**< with no lid: a value above the opening means that it is never free at
                             normal depth */
    bool near_critical;   /**< normal and critical depth within 1 %: an unsteady surface */
    double full_slope;    /**< friction slope when full */
    cw_water_inlet_head inlet;
    cw_water_head head;
    cw_water_regime regime;
    double outlet_depth_ft, outlet_velocity_fps, outlet_froude;
    bool has_jump;
    double jump_ft;                       /**< from the inlet */
    double jump_before_ft, jump_after_ft; /**< equal momentum; after may be a pressure head */
    double jump_residual;                 /**< relative miss of the momentum */
    bool jump_at_lid;     /**< the jump touches the lid: pulses of pressure and air */
    cw_water_branch slow; /**< from the outlet up, as far as it goes; empty when there is none */
    cw_water_branch fast; /**< from the inlet down; empty on slopes that are not steep */
} cw_water_profile;

/** Both controls, regime and the two branches of one barrel. */
void cw_water_profile_of(const cw_water_barrel *barrel, double flow_cfs, double tail_ft,
                         double tail_velocity_fps, cw_water_profile *profile);

/** Depth, or pressure head, at @p x_ft from the inlet; on the governing branch (fast before a jump,
 * slow after it).  @p x_ft is held to the barrel. */
double cw_water_depth_at(const cw_water_profile *profile, double x_ft);

typedef struct cw_water_formula {
    double critical_ft, velocity_fps, radius_ft;
    double friction, loss_ft; /**< F n^2 L/R^(4/3) and H */
    double tail_ft;           /**< ho */
    double headwater_ft;
    bool fair; /**< HW >= 0.75 D: within the use that HDS-5 gives the rule */
} cw_water_formula;

/** HW = H + max(TW, (dc + D)/2) - L S with all friction at full section and HDS-5's factor 29: a
 * cross-check, not what the answers rest on.  @p exit_loss usually 1. */
cw_water_formula cw_water_outlet_formula(const cw_water_barrel *barrel, double flow_cfs,
                                         double tail_ft, double exit_loss, cw_working *working);

/* ---- the road ---- */

typedef enum cw_water_surface {
    CW_WATER_PAVED,
    CW_WATER_GRAVEL,
    CW_WATER_OWN_FACTOR
} cw_water_surface;
extern const char *const cw_water_surface_choices[];

/** Weir factor by head, and its reduction by submergence; straight between points, level outside.
 */
typedef struct cw_water_weir {
    int head_count, ratio_count;
    double head_ft[CW_WATER_WEIR_MAX], factor[CW_WATER_WEIR_MAX];
    double ratio[CW_WATER_WEIR_MAX],
        reduction[CW_WATER_WEIR_MAX]; /**< past the last straight to 0 at ratio 1 */
} cw_water_weir;

/** From rows weir.paved.* or weir.gravel.*; false when a row is missing. */
bool cw_water_weir_rows(const cw_rows *rows, cw_water_surface surface, cw_water_weir *weir);
/** One factor at all heads, with the reduction of @p surface kept from a table read before. */
cw_water_weir cw_water_weir_own(double factor, const cw_water_weir *reduction);

/** Crest along the road; x never falling.  Past its ends there is no flow: give the ends high
 * enough. */
typedef struct cw_water_crest {
    double x_ft, z_ft;
} cw_water_crest;

typedef struct cw_water_road {
    const cw_water_crest *points;
    int count; /**< at least 2 */
    cw_water_weir weir;
} cw_water_road;

typedef struct cw_water_over {
    double flow_cfs;
    double depth_ft;  /**< pool above the lowest point of the crest */
    double length_ft; /**< wet crest */
    double
        velocity_fps;   /**< greatest mean velocity of a panel at critical depth, 2/3 of the head */
    double submergence; /**< of the panel with the greatest flow, tailwater head over pool head; 0
                           when free */
    bool past_ends; /**< an end of the crest is under water: the flow around it is not counted */
} cw_water_over;

cw_water_status cw_water_road_check(const cw_water_road *road);
double cw_water_road_low_ft(const cw_water_road *road);
/** @p tail_ft is the elevation of the tailwater; use a very low one when there is none. */
cw_water_over cw_water_road_over(const cw_water_road *road, double pool_ft, double tail_ft);

/* ---- all together ---- */

typedef struct cw_water_site {
    const cw_water_barrel *barrels;
    int barrel_count;          /**< 0 .. CW_WATER_BARRELS_MAX; 0 only with a road */
    const cw_water_road *road; /**< NULL: none, the pool rises as far as it must */
    cw_water_tailwater tailwater;
} cw_water_site;

cw_water_status cw_water_site_check(const cw_water_site *site);

/** Answer for one flow. */
typedef struct cw_water_answer {
    cw_water_status status;
    double flow_cfs, pool_ft;
    cw_water_tail_level tail;
    double barrel_cfs[CW_WATER_BARRELS_MAX]; /**< sum with the road's flow is flow_cfs within 1e-9
                                                of it */
    cw_water_head heads[CW_WATER_BARRELS_MAX];
    cw_water_over over;
    int evaluations;        /**< barrel headwaters computed */
    double low_ft, high_ft; /**< bracket of the pool */
    double residual_ft;     /**< greatest difference between the pool and the headwater level of a
                               running barrel */
} cw_water_answer;

/** Pool level for a total flow.  @pre cw_water_site_check() is CW_WATER_OK. */
cw_water_answer cw_water_pool(const cw_water_site *site, double flow_cfs);

/** Total flow, cfs, that holds the pool at @p pool_ft; the tailwater moves with the flow.
 * Residual in ft of pool. */
cw_water_root cw_water_at_pool(const cw_water_site *site, double pool_ft);

/** @p count points at equal steps of flow from 0 to @p flow_max_cfs into @p points; the worst
 * status. */
cw_water_status cw_water_curve(const cw_water_site *site, double flow_max_cfs,
                               cw_water_answer *points, int count);

/** Flow that puts @p over_ft of water on the lowest point of the road: top of a curve that shows
 * overtopping. */
cw_water_root cw_water_overtopping(const cw_water_site *site, double over_ft);

/** Profile of barrel @p index at a point of the curve. */
void cw_water_site_profile(const cw_water_site *site, const cw_water_answer *at, int index,
                           cw_water_profile *profile);

/* ---- calculators ---- */

extern const cw_calc cw_calc_critical_depth;
extern const cw_calc cw_calc_normal_depth;
extern const cw_calc cw_calc_trapezoid_depth;
extern const cw_calc cw_calc_composite_roughness;
extern const cw_calc cw_calc_tailwater;
extern const cw_calc cw_calc_inlet_headwater;
extern const cw_calc cw_calc_outlet_headwater;
extern const cw_calc cw_calc_headwater;
extern const cw_calc cw_calc_barrel_profile;
extern const cw_calc cw_calc_hydraulic_jump;
extern const cw_calc cw_calc_road_weir;

#endif
