/** @file
 * What stands at an end of the culvert: wingwalls, the concrete apron between them, and the cutoff
 * (toe) wall under its edge.
 *
 * Axes of an end: `out` along the barrel away from the road, `right` square to it, right looking
 * UPSTREAM at both ends; the origin is the middle of the end face.  Angles turn from `out` toward
 * `right`.  Heights are above the invert of the end, and the apron is level with it.  US units: ft
 * in plan, in for thickness; ft2, yd3, lb.  Geometry and quantities only: no stability of a wall,
 * no scour.  Each function is pure; @p working may be NULL.  Inputs lie within the limits of the
 * calculator's fields; the ..._valid functions report what no single field shows. */
#ifndef CW_ENDS_H
#define CW_ENDS_H

#include "cw/calc.h"
#include "cw/check.h"

/* ---- wings ---- */

typedef enum cw_wing_kind {
    CW_WING_FLARED,    /**< turned out from the barrel axis */
    CW_WING_STRAIGHT,  /**< along the barrel */
    CW_WING_ALONG_ROAD /**< in line with the road */
} cw_wing_kind;

typedef enum cw_wall_make {
    CW_WALL_CAST,   /**< in place */
    CW_WALL_PRECAST /**< set on a footing cast in place */
} cw_wall_make;

/** On a skewed crossing the side where the barrel makes the acute angle with the road's normal as
 * the wing turns out: there the wing is longer. */
typedef enum cw_wing_side { CW_WING_LONG, CW_WING_SHORT } cw_wing_side;

typedef struct cw_wing_input {
    int kind; /**< cw_wing_kind */
    double flare_deg;
    double skew_deg;        /**< of the barrel from the road's normal, 0 or more */
    int side;               /**< cw_wing_side; no matter on a square crossing */
    double root_ft, tip_ft; /**< top of the wall at the headwall and at the tip */
    double side_slope;      /**< of the fill, square to the road */
    bool has_length;
    double length_ft; /**< in place of the one that the fill asks for */
    double thickness_in;
    int make; /**< cw_wall_make */
    double concrete_pcf;
    bool has_footing_width;
    double footing_width_ft, footing_ratio; /**< or the ratio times the height over the footing */
    double footing_in, footing_depth_ft;    /**< thickness; underside below the invert */
    double work_ft;
    double along_deg; /**< from the normal: nearly along the road */
} cw_wing_input;

typedef struct cw_wing {
    bool found; /**< a length is given or follows; else the rest means nothing */
    double from_normal_deg;
    double out_ft; /**< how far the tip lies from the root, square to the road */
    bool has_needed;
    double needed_ft; /**< length that the fill asks for */
    double length_ft;
    double face_sqft; /**< one face above the invert */
    double below_ft;  /**< wall between invert and footing */
    double above_cy, below_cy, footing_cy, concrete_cy;
    double footing_width_ft;
    double formed_sqft;   /**< on site */
    double excavation_cy; /**< of the footing, below the invert, upright sides */
    double panel_lb;      /**< precast wall without its footing, else 0 */
    int verdict;          /**< cw_verdict of the direction */
} cw_wing;

/** Angle of a wing from the road's normal, deg. */
double cw_ends_from_normal_deg(int kind, double flare_deg, double skew_deg, int side);

bool cw_wing_input_valid(const cw_wing_input *input, cw_pos where, cw_diags *diags);
/** Length d / cos(angle from the normal) with d = side slope x (root - tip); in line with the road
 * side slope x root: there the fill runs round the tip as a cone that comes down to the invert at
 * the root. Source: derived: plane geometry. */
cw_wing cw_ends_wing(const cw_wing_input *input, cw_working *working);

/* ---- the end in plan ---- */

enum { CW_END_CORNERS_MAX = 6, CW_END_LEFT = 0, CW_END_RIGHT = 1 };

typedef struct cw_end_point {
    double out_ft, right_ft;
} cw_end_point;

typedef struct cw_end_wing {
    bool present;
    int kind; /**< cw_wing_kind */
    double flare_deg, length_ft;
} cw_end_wing;

typedef struct cw_end_plan_input {
    double width_ft;      /**< root to root along the face */
    double face_deg;      /**< outward normal of the face: 0 when cut square */
    double normal_deg;    /**< normal of the road, away from it */
    cw_end_wing wings[2]; /**< CW_END_LEFT, CW_END_RIGHT */
    bool has_apron;
    bool has_apron_ft;
    double apron_ft; /**< from the face along the barrel; else out to the tips */
} cw_end_plan_input;

typedef struct cw_end_plan {
    cw_end_point root[2];
    cw_end_point tip[2]; /**< the root where there is no wing */
    bool has_outline;    /**< there is an apron and it has an edge */
    cw_end_point
        outline[CW_END_CORNERS_MAX]; /**< from the left root round by the edge to the right one */
    int corners;
    cw_end_point edge[2]; /**< ends of the outer edge; tips or roots without an apron */
    double area_sqft, edge_ft;
} cw_end_plan;

cw_end_plan cw_ends_plan(const cw_end_plan_input *input);

/* ---- apron and cutoff wall ---- */

typedef struct cw_end_apron_input {
    double width_ft, skew_deg;
    int cut;  /**< 0 square to the barrel, 1 along the road */
    int kind; /**< cw_wing_kind of both wings */
    double flare_deg, root_ft, tip_ft, side_slope;
    bool has_apron_ft;
    double apron_ft;
    double thickness_in;
} cw_end_apron_input;

typedef struct cw_end_apron {
    bool found;               /**< it has an edge; else the rest means nothing */
    double long_ft, short_ft; /**< the wings */
    double area_sqft, edge_ft;
    double concrete_cy, excavation_cy, formed_sqft;
} cw_end_apron;

bool cw_end_apron_input_valid(const cw_end_apron_input *input, cw_pos where, cw_diags *diags);
cw_end_apron cw_ends_apron(const cw_end_apron_input *input, cw_working *working);
/** Amounts of an apron with this outline; long_ft and short_ft stay 0. */
cw_end_apron cw_ends_apron_of(const cw_end_plan *plan, double thickness_in, cw_working *working);

typedef struct cw_cutoff_input {
    double length_ft, depth_ft;    /**< depth of its foot below the invert */
    double thickness_in, apron_in; /**< apron_in: slab over it, 0 without one */
    int make;                      /**< cw_wall_make */
    double work_ft;
} cw_cutoff_input;

typedef struct cw_cutoff {
    double height_ft; /**< under the apron */
    double concrete_cy, formed_sqft, excavation_cy;
} cw_cutoff;

bool cw_cutoff_input_valid(const cw_cutoff_input *input, cw_pos where, cw_diags *diags);
cw_cutoff cw_ends_cutoff(const cw_cutoff_input *input, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_wingwall;
extern const cw_calc cw_calc_end_apron;
extern const cw_calc cw_calc_cutoff_wall;

#endif
