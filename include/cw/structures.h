/** @file
 * Loads on a buried two-piece box, the forces in it, and what it bears before it is complete.
 *
 * Everything is per foot of barrel unless a name says otherwise: forces in lb, moments in ft lb,
 * pressures in psf.  Moment + is tension on the INSIDE face of top, wall or floor; thrust + is
 * compression; side pressure + pushes inward.  The frame lies on the centre lines of its members:
 * width S + wall, height R + floor/2 + top/2.  Values that a code sets are rows of
 * data/structures.csv with their status; the results are for review by a licensed engineer.
 *
 * Pure: no allocation, no files; workings may be NULL.  A solve takes about 65 kB of stack, an
 * envelope 195 kB. */
#ifndef CW_STRUCTURES_H
#define CW_STRUCTURES_H

#include <stdbool.h>

#include "cw/calc.h"
#include "cw/check.h"
#include "cw/rows.h"
#include "cw/working.h"

enum {
    CW_STRUCT_AXLES_MAX = 16,
    CW_STRUCT_PATCHES_MAX = 16,
    CW_STRUCT_SIDES_MAX = 4 /**< pressure figures on one wall */
};

typedef enum cw_struct_status {
    CW_STRUCT_OK = 0,
    CW_STRUCT_MECHANISM,  /**< the frame can move without strain: too few supports or no contact */
    CW_STRUCT_NO_CONTACT, /**< no part of the base bears */
    CW_STRUCT_UNSETTLED,  /**< the contact states did not repeat within the bound of rounds */
    CW_STRUCT_BAD_BOX,    /**< a dimension that makes no box; cw_struct_box_valid() says which */
    CW_STRUCT_TOO_LARGE   /**< more nodes than the solver holds */
} cw_struct_status;

/** In a sentence, with the remedy. */
const char *cw_struct_status_words(cw_struct_status status);

/* ---- earth, side pressure ---- */

typedef enum cw_struct_bed { CW_STRUCT_EMBANKMENT = 0, CW_STRUCT_TRENCH } cw_struct_bed;

typedef struct cw_struct_earth_input {
    int bed;           /**< cw_struct_bed */
    bool compacted;    /**< side fill; the cap of the factor follows */
    double cover_ft;   /**< earth over the top, without pavement; >= 0 */
    double outside_ft; /**< outside width, all barrels */
    double earth_pcf;
    double trench_ft;    /**< trench at the top of the box; 0 for an embankment */
    double k_mu;         /**< Rankine ratio times friction of the trench walls */
    double pavement_psf; /**< laid on top, not spread */
} cw_struct_earth_input;

typedef struct cw_struct_earth {
    double embankment; /**< Fe1 with its cap */
    double trench;     /**< Fe2 before Fe1 limits it; 0 for an embankment */
    double trench_cd;
    double factor; /**< taken */
    double pressure_psf;
    double load_lb_per_ft;
} cw_struct_earth;

bool cw_struct_earth_valid(const cw_struct_earth_input *in, cw_pos where, cw_diags *diags);
cw_struct_earth cw_struct_earth_load(const cw_struct_earth_input *in, const cw_rows *rows,
                                     cw_working *working);

typedef struct cw_struct_lateral_input {
    double cover_ft;            /**< earth over the top */
    double height_ft;           /**< outside height of the box */
    double most_pcf, least_pcf; /**< equivalent fluid weight of the earth */
    double earth_pcf, k;        /**< for the surcharge of traffic */
    double water_ft;            /**< ground water above the underside of the box */
} cw_struct_lateral_input;

typedef struct cw_struct_lateral {
    double top_most_psf, foot_most_psf;
    double top_least_psf, foot_least_psf;
    double surcharge_ft; /**< equivalent height of soil */
    double surcharge_psf;
    double water_foot_psf;
    double push_lb;      /**< most, with surcharge and water, on one wall */
    double moment_ft_lb; /**< of that push about the underside */
} cw_struct_lateral;

bool cw_struct_lateral_valid(const cw_struct_lateral_input *in, cw_pos where, cw_diags *diags);
cw_struct_lateral cw_struct_lateral_pressure(const cw_struct_lateral_input *in, const cw_rows *rows,
                                             cw_working *working);

/** Equivalent height of soil for traffic beside a wall of this height (grade to underside), ft. */
double cw_struct_surcharge_ft(double height_ft, const cw_rows *rows);

/* ---- wheels and tracks ---- */

/** Wheels in rows across, or two tracks (one "axle" with long patches). */
typedef struct cw_struct_vehicle {
    int axles;
    double axle_lb[CW_STRUCT_AXLES_MAX]; /**< whole axle, two wheels or two tracks */
    double at_ft[CW_STRUCT_AXLES_MAX];   /**< from the first, rising */
    double gauge_ft;                     /**< centre to centre of the wheels or tracks */
    double patch_width_in, patch_length_in;
    double presence; /**< multiple presence */
    bool impact;     /**< dynamic allowance is added */
} cw_struct_vehicle;

typedef enum cw_struct_machine {
    CW_STRUCT_TRUCK = 0, /**< design truck */
    CW_STRUCT_TANDEM,    /**< design tandem */
    CW_STRUCT_AXLE_LIST, /**< permit vehicle or machine on wheels, axle by axle */
    CW_STRUCT_TRACKS     /**< crawler */
} cw_struct_machine;

/** The design truck or tandem from @p rows (at the shortest axle spacing). */
cw_struct_vehicle cw_struct_design_vehicle(cw_struct_machine machine, const cw_rows *rows);

/** Give @p vehicle the axles of a list and the distances between them. */
void cw_struct_vehicle_axles(cw_struct_vehicle *vehicle, const cw_list *axles_lb,
                             const cw_list *spacing_ft);

typedef enum cw_struct_rule {
    CW_STRUCT_RULE_BOX =
        0,                /**< tire + factor x cover, plus the span term across the barrel's axis */
    CW_STRUCT_RULE_PLAIN, /**< the same without the span term */
    CW_STRUCT_RULE_FINE   /**< fine soil: factor 1, no span term (older editions) */
} cw_struct_rule;

typedef struct cw_struct_spread {
    int rule;          /**< cw_struct_rule */
    double cover_ft;   /**< >= 0 */
    double span_ft;    /**< clear, of one cell */
    double barrels_ft; /**< outside to outside of all barrels; 0 for one barrel */
} cw_struct_spread;

/** A strip of pressure on the top, measured along the span from the first axle. */
typedef struct cw_struct_patch {
    double from_ft, to_ft, psf;
} cw_struct_patch;

typedef struct cw_struct_wheel {
    bool counts;   /**< false: the cover is so high that traffic is left out */
    bool thin;     /**< cover below the limit of spreading: one axle on a strip of the slab */
    double impact; /**< 1 + IM/100 as applied */
    double spread; /**< growth of the patch per foot of cover */
    double width_ft, length_ft; /**< of the patch that governs */
    double load_lb;             /**< of all wheels in it, with presence and impact */
    double pressure_psf;
    int axles;          /**< whose patches have merged */
    bool merged_across; /**< both wheels of an axle in one patch */
    int patch_count;    /**< of the whole vehicle */
    cw_struct_patch patches[CW_STRUCT_PATCHES_MAX];
} cw_struct_wheel;

/** Pressure of @p vehicle on the top, travelling along the span.  All strips, and the worst of
 * them. */
cw_struct_wheel cw_struct_wheel_pressure(const cw_struct_vehicle *vehicle,
                                         const cw_struct_spread *spread, const cw_rows *rows,
                                         cw_working *working);

/** Greatest moment of the strips moving over a simple span, ft lb, with steps of span/@p steps. */
double cw_struct_simple_span_moment(const cw_struct_wheel *wheel, double span_ft, int steps);

/* ---- frame ---- */

typedef enum cw_struct_form {
    CW_STRUCT_LID = 0,
    CW_STRUCT_DOUBLE_U,
    CW_STRUCT_RING
} cw_struct_form;

typedef enum cw_struct_ground {
    CW_STRUCT_UNIFORM = 0, /**< straight-line reaction that balances the load, no tension */
    CW_STRUCT_SPRINGS      /**< springs under the floor, no tension */
} cw_struct_ground;

typedef struct cw_struct_box {
    int form; /**< cw_struct_form */
    double span_in, rise_in;
    double wall_in, floor_in, top_in;
    double haunch_in;       /**< leg of the 45 deg haunch at the floor; 0 for none */
    double crown_haunch_in; /**< at the top slab of a hood or ring; 0 for a lid */
    double joint_in;        /**< double-u: seat above the floor; 0: mid height of the frame */
    double concrete_psi, concrete_pcf;
    int ground;        /**< cw_struct_ground */
    double ground_pcf; /**< of the springs: pressure over settlement */
} cw_struct_box;

bool cw_struct_box_valid(const cw_struct_box *box, cw_pos where, cw_diags *diags);

/** Pressure on a wall between two heights above the floor's centre line, + inward. */
typedef struct cw_struct_side {
    double from_ft, to_ft, from_psf, to_psf;
} cw_struct_side;

/** Factored loads of one case.  Weight is taken from the box times @c weight. */
typedef struct cw_struct_case {
    double weight;    /**< factor on self weight */
    double top_psf;   /**< even, down */
    double floor_psf; /**< on the floor inside, down; water */
    int left_count, right_count, patch_count;
    cw_struct_side left[CW_STRUCT_SIDES_MAX], right[CW_STRUCT_SIDES_MAX];
    cw_struct_patch
        patches[CW_STRUCT_PATCHES_MAX]; /**< on the top, from the left wall's centre line */
} cw_struct_case;

typedef struct cw_struct_force {
    double moment_ft_lb, shear_lb, thrust_lb;
} cw_struct_force;

/** Where the frame is read.  Ends are on the centre lines, faces at the wall or haunch tip, and
 * shear sections the effective depth (0.9 of the thickness) beyond that. */
typedef enum cw_struct_place {
    CW_STRUCT_TOP_MID = 0,
    CW_STRUCT_TOP_END,
    CW_STRUCT_TOP_FACE,
    CW_STRUCT_TOP_SHEAR,
    CW_STRUCT_WALL_TOP, /**< centre line of the top, or pin of a lid */
    CW_STRUCT_WALL_MID,
    CW_STRUCT_WALL_SHEAR, /**< beyond the haunch at the floor */
    CW_STRUCT_WALL_FACE,
    CW_STRUCT_WALL_FOOT, /**< centre line of the floor */
    CW_STRUCT_FLOOR_END,
    CW_STRUCT_FLOOR_FACE,
    CW_STRUCT_FLOOR_SHEAR,
    CW_STRUCT_FLOOR_MID,
    CW_STRUCT_PLACES
} cw_struct_place;

const char *cw_struct_place_words(int place);

typedef struct cw_struct_solution {
    cw_struct_status status;
    cw_struct_force left[CW_STRUCT_PLACES], right[CW_STRUCT_PLACES]; /**< equal at mid-span */
    double wall_most_ft_lb; /**< greatest moment within either wall */
    double wall_most_at_ft; /**< above the floor's centre line */
    bool released;          /**< the seat of the lid gives no pull: walls stand free */
    double strut_lb;        /**< in the lid, + compression */
    double gap_in;          /**< opening of the seats, both together; 0 when closed */
    double seat_lb;         /**< least vertical force in a seat or wall joint; below 0 it lifts */
    int rounds;             /**< solves until the contact states repeated */
    double residual;        /**< unbalanced force over total load */
    double bearing_most_psf, bearing_least_psf;
    double bearing_share; /**< of the floor's width that bears */
    double slip_lb;       /**< net sideways force that friction under the floor must take */
} cw_struct_solution;

/** Forces of one case in its own contact state.  @pre cw_struct_box_valid(). */
cw_struct_solution cw_struct_solve(const cw_struct_box *box, const cw_struct_case *load);

/* ---- combinations ---- */

typedef enum cw_struct_state {
    CW_STRUCT_SERVICE = 0,
    CW_STRUCT_STRENGTH, /**< traffic of every day */
    CW_STRUCT_PERMIT,   /**< permit vehicle */
    CW_STRUCT_BUILDING  /**< machines while it is built */
} cw_struct_state;

/** Unfactored surroundings. */
typedef struct cw_struct_site {
    double earth_psf;           /**< on the top, soil-structure factor in it */
    double cover_ft;            /**< for side pressure and traffic */
    double most_pcf, least_pcf; /**< equivalent fluid weight */
    double surcharge_psf;       /**< traffic beside the wall */
    double ground_water_ft;     /**< above the floor's centre line, when the ground is flooded */
    double water_pcf;
} cw_struct_site;

typedef struct cw_struct_span {
    double most_ft_lb, least_ft_lb;             /**< moments */
    double most_thrust_lb, least_thrust_lb;     /**< with those moments; the least where several */
    double shear_lb;                            /**< greatest, without sign */
    double shear_moment_ft_lb, shear_thrust_lb; /**< with it */
    int most_case, least_case, shear_case;      /**< index for cw_struct_case_words() */
} cw_struct_span;

typedef struct cw_struct_envelope {
    cw_struct_status status;
    cw_struct_span at[CW_STRUCT_PLACES];
    cw_struct_span wall; /**< greatest moment within the walls; shear unused */
    double strut_most_lb, strut_least_lb;
    double bearing_most_psf;
    double residual;      /**< worst unbalanced force over the forces, of the answers added up */
    int solves, released; /**< positions, and how many of them with open seats */
} cw_struct_envelope;

enum { CW_STRUCT_CURVE_MAX = 40 };

/** Extremes along a member of one half, both sides taken together. */
typedef struct cw_struct_curve {
    int count;
    double at_ft[CW_STRUCT_CURVE_MAX]; /**< from the end, or above the floor's centre line */
    cw_struct_span span[CW_STRUCT_CURVE_MAX];
    double thrust_most_lb[CW_STRUCT_CURVE_MAX];
    int thrust_case[CW_STRUCT_CURVE_MAX];
} cw_struct_curve;

/** For the pictures of moment, shear and thrust: top and floor from their end to the middle, wall
 * from the floor up. */
typedef struct cw_struct_diagram {
    double width_ft, height_ft; /**< of the centre lines */
    cw_struct_curve top, wall, floor;
} cw_struct_diagram;

/** One envelope to be made of a box. */
typedef struct cw_struct_ask {
    const cw_struct_site *site;
    const cw_struct_wheel *wheels;
    int wheel_count;
    int state;                  /**< cw_struct_state */
    cw_struct_diagram *diagram; /**< filled as well; NULL leaves it out */
} cw_struct_ask;

/** Envelopes of one box: what does not depend on site and state is worked out once.  All
 * combinations of each state, each position of each vehicle in its own contact state; the same
 * answers as cw_struct_solve() position by position, to 1e-8 of the greatest; of equal moments the
 * one with the least thrust is named, of equal shears the one with the greatest moment.  A diagram
 * makes its envelope half as slow again.  Takes about 195 kB of stack: 130 of its own, and 65 while
 * the mesh is read or cw_struct_solve() is asked. */
void cw_struct_envelop_each(const cw_struct_box *box, const cw_struct_ask *asks, int count,
                            const cw_rows *rows, cw_struct_envelope *out);

/** One of them. */
cw_struct_envelope cw_struct_envelop(const cw_struct_box *box, const cw_struct_site *site,
                                     const cw_struct_wheel *wheels, int wheel_count, int state,
                                     const cw_rows *rows);

const char *cw_struct_case_words(int index);

/* ---- stages of building ---- */

typedef struct cw_struct_fill_input {
    bool top_on;    /**< lid or hood set and its seat tight */
    double wall_ft; /**< clear height of the wall to the seat */
    bool has_allowed;
    double allowed_ft_lb; /**< moment the wall may take */
    double load_factor;   /**< on the pressure of the fill */
    double fill_pcf;
    double set_ft;   /**< earlier lifts that have set, above the foot; they seal the floor */
    double floor_ft; /**< floor thickness: the fill stands beside it too */
    double weight_lb_per_ft; /**< of the empty barrel as it stands */
    double outside_ft;       /**< its width */
    double friction, safety_slide, safety_float;
    bool both_sides; /**< it stands equally high on both sides */
    bool beneath;    /**< it may run under the floor */
} cw_struct_fill_input;

typedef enum cw_struct_fill_limit {
    CW_STRUCT_BY_WALL = 0,
    CW_STRUCT_BY_SLIDING,
    CW_STRUCT_BY_FLOATING,
    CW_STRUCT_BY_SEAT /**< nothing governs below the top of the wall */
} cw_struct_fill_limit;

typedef struct cw_struct_fill {
    int verdict; /**< cw_verdict: undecided without the wall's moment */
    bool has_wall, has_sliding, has_floating;         /**< the limit applies and is known */
    double by_wall_ft, by_sliding_ft, by_floating_ft; /**< above the foot or the set fill */
    double lift_ft;                                   /**< least, of this lift */
    int governs;                                      /**< cw_struct_fill_limit */
    double foot_ft_lb, span_ft_lb, strut_lb, push_lb; /**< at that lift, not factored */
} cw_struct_fill;

bool cw_struct_fill_valid(const cw_struct_fill_input *in, cw_pos where, cw_diags *diags);
cw_struct_fill cw_struct_wall_fill(const cw_struct_fill_input *in, cw_working *working);

typedef struct cw_struct_open_input {
    double wall_ft;       /**< clear height of the wall */
    double allowed_ft_lb; /**< moment the foot of the wall may take */
    double earth_pcf, k;
    double surcharge_psf;    /**< plant beside the wall */
    double roller_lb_per_ft; /**< line load of a roller, dead and centrifugal; 0 for none */
    double earth_factor, surcharge_factor;
} cw_struct_open_input;

typedef struct cw_struct_open {
    double limit_ft;               /**< earth above the foot; the wall height when that is less */
    bool full;                     /**< the wall may be filled to its top */
    double moment_ft_lb, shear_lb; /**< at the limit, not factored */
    double full_ft_lb;             /**< factored, were the wall filled to its top */
    double roller_psf, roller_from_ft, roller_to_ft; /**< locked-in pressure and its depths */
} cw_struct_open;

bool cw_struct_open_valid(const cw_struct_open_input *in, cw_pos where, cw_diags *diags);
cw_struct_open cw_struct_unlidded_fill(const cw_struct_open_input *in, cw_working *working);

typedef enum cw_struct_measure {
    CW_STRUCT_BY_PRESSURE = 0, /**< pressure on the top against a given one */
    CW_STRUCT_BY_MOMENT,       /**< moment in the top against a given capacity */
    CW_STRUCT_BY_DESIGN        /**< moment against that of the design traffic at the design cover */
} cw_struct_measure;

typedef struct cw_struct_cross_input {
    int measure;
    cw_struct_vehicle vehicle;
    int rule;
    double cover_ft; /**< of today, compacted */
    double span_in, wall_in, top_in;
    double earth_pcf, concrete_pcf;
    double allowed_psf;     /**< by pressure: live and earth together */
    double capacity_ft_lb;  /**< by moment: factored resistance */
    double design_cover_ft; /**< by design */
    double least_ft;        /**< no machine crosses at less, whatever the numbers say */
} cw_struct_cross_input;

typedef struct cw_struct_cross {
    cw_struct_wheel wheel;
    double live_psf, earth_psf;
    double demand, allowed; /**< psf by pressure; ft lb otherwise, factored */
    double ratio;
    bool may_cross;   /**< demand within what is allowed, and the least cover there */
    bool found;       /**< some cover within reach is enough */
    double needed_ft; /**< least cover from which on the machine may cross */
} cw_struct_cross;

bool cw_struct_cross_valid(const cw_struct_cross_input *in, cw_pos where, cw_diags *diags);
cw_struct_cross cw_struct_machine_cover(const cw_struct_cross_input *in, const cw_rows *rows,
                                        cw_working *working);
/** Demand of the machine at another cover, in the measure of @p in: psf or ft lb. */
double cw_struct_cross_demand(const cw_struct_cross_input *in, double cover_ft,
                              const cw_rows *rows);

typedef enum cw_struct_piece { CW_STRUCT_BASE_PIECE = 0, CW_STRUCT_TOP_PIECE } cw_struct_piece;

typedef struct cw_struct_lift_input {
    int piece; /**< cw_struct_piece: a U on inserts at its wall tops, or a flat lid */
    double span_in, wall_in, slab_in;
    double leg_in;    /**< clear height of the base wall; 0 for a lid */
    double length_ft; /**< of the piece along the run */
    double weight_lb;
    double concrete_pcf, concrete_psi; /**< strength on the day */
    double sling_deg;   /**< from the horizontal, across the piece; 90 with a spreader */
    double overhang_in; /**< lid: insert line to the nearer side; 0 picks the best */
    double dynamic;
} cw_struct_lift_input;

typedef struct cw_struct_lift {
    double pull_lb;        /**< inward, on one wall top or lid edge, per ft */
    double wall_ft_lb;     /**< at the foot of the wall: tension outside */
    double slab_ft_lb;     /**< midspan by weight: base tension outside, lid tension inside */
    double overhang_ft_lb; /**< lid, over the inserts: tension outside */
    double total_ft_lb;    /**< greatest in the slab, pull included */
    double stress_psi, limit_psi; /**< of the plain slab, and the limit without cracks */
    double wall_stress_psi;
    bool holds; /**< no crack in slab and wall */
} cw_struct_lift;

bool cw_struct_lift_valid(const cw_struct_lift_input *in, cw_pos where, cw_diags *diags);
cw_struct_lift cw_struct_handling(const cw_struct_lift_input *in, const cw_rows *rows,
                                  cw_working *working);

typedef struct cw_struct_bearing_input {
    double outside_ft;
    double dead_lb_per_ft; /**< of the box, per ft */
    double earth_psf, live_psf;
    double water_lb_per_ft; /**< inside */
    double allowed_psf;     /**< 0 when not known */
    double ground_pcf;      /**< pressure over settlement; 0 derives it from allowed_psf */
    double slope;           /**< of the bed, ft/ft */
    double friction;
} cw_struct_bearing_input;

typedef struct cw_struct_bearing {
    double pressure_psf;
    double ground_pcf;
    bool has_settlement;
    double settlement_in;
    int verdict;    /**< cw_verdict */
    double slide;   /**< safety on the slope */
    bool has_slide; /**< the bed is not level */
} cw_struct_bearing;

bool cw_struct_bearing_valid(const cw_struct_bearing_input *in, cw_pos where, cw_diags *diags);
cw_struct_bearing cw_struct_bear(const cw_struct_bearing_input *in, const cw_rows *rows,
                                 cw_working *working);

/* ---- sections ---- */

typedef enum cw_struct_phi {
    CW_STRUCT_PHI_BOX = 0,     /**< precast box */
    CW_STRUCT_PHI_THREE_SIDED, /**< precast three-sided structure */
    CW_STRUCT_PHI_CAST         /**< box cast in place */
} cw_struct_phi;

typedef struct cw_struct_flexure_input {
    double thickness_in;
    double depth_in;         /**< compression face to the middle of the tension steel */
    double steel_in2_per_ft; /**< 0 asks for the required steel only */
    double concrete_psi, yield_psi;
    double moment_ft_lb, thrust_lb;          /**< factored, moment without sign */
    double service_ft_lb, service_thrust_lb; /**< for crack control; 0 leaves it out */
    int phi;                                 /**< cw_struct_phi */
    double exposure;                         /**< 1 or 0.75 */
    double spacing_in;                       /**< of the steel; 0 leaves the spacing open */
} cw_struct_flexure_input;

typedef struct cw_struct_flexure {
    double phi;
    double block_in;       /**< depth of the compression block at resistance */
    double strain;         /**< of the steel there */
    double capacity_ft_lb; /**< factored resistance with this thrust */
    int flexure;           /**< cw_verdict, as are those that follow */
    bool possible;         /**< some steel can carry the demand in this thickness */
    double required_in2_per_ft, least_in2_per_ft;
    int least;
    bool has_crack;
    double steel_psi, steel_limit_psi; /**< at service */
    double spacing_in;                 /**< greatest, by crack control */
    int crack;
} cw_struct_flexure;

bool cw_struct_flexure_valid(const cw_struct_flexure_input *in, cw_pos where, cw_diags *diags);
cw_struct_flexure cw_struct_section_flexure(const cw_struct_flexure_input *in, const cw_rows *rows,
                                            cw_working *working);

typedef enum cw_struct_slab {
    CW_STRUCT_SIMPLE_SLAB = 0, /**< lid */
    CW_STRUCT_FIXED_SLAB,      /**< monolithic with the walls */
    CW_STRUCT_WALL_MEMBER
} cw_struct_slab;

typedef struct cw_struct_shear_input {
    int member;      /**< cw_struct_slab */
    double cover_ft; /**< of earth */
    double thickness_in, depth_in, steel_in2_per_ft, concrete_psi;
    double shear_lb, moment_ft_lb; /**< factored, at the same section */
    int phi;
} cw_struct_shear_input;

typedef struct cw_struct_shear {
    bool general; /**< the beta = 2 rule: walls, and slabs under thin cover */
    double ratio; /**< V d/M, at most 1 */
    double formula_lb, floor_lb, cap_lb, general_lb; /**< concrete resistance, not factored */
    double phi, capacity_lb;
    double use; /**< demand over capacity */
    int verdict;
} cw_struct_shear;

bool cw_struct_shear_valid(const cw_struct_shear_input *in, cw_pos where, cw_diags *diags);
cw_struct_shear cw_struct_section_shear(const cw_struct_shear_input *in, const cw_rows *rows,
                                        cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_earth_load;
extern const cw_calc cw_calc_lateral_pressure;
extern const cw_calc cw_calc_wheel_pressure;
extern const cw_calc cw_calc_frame_moments;
extern const cw_calc cw_calc_wall_fill_height;
extern const cw_calc cw_calc_unlidded_fill;
extern const cw_calc cw_calc_machine_cover;
extern const cw_calc cw_calc_handling_moment;
extern const cw_calc cw_calc_bearing;
extern const cw_calc cw_calc_section_flexure;
extern const cw_calc cw_calc_section_shear;

#endif
