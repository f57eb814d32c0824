/** @file
 * What stands in the way of the cut: utilities, standing structures, and live traffic beside the
 * cut at a phase line.
 *
 * In a cross section the offset is counted from the centre line of the structure, right positive
 * looking upstream, and elevations are those of the job.  The cut has a level bottom and faces of
 * one slope on both sides (horizontal per 1 vertical).  US units: ft, in.  Each function is pure;
 * @p working may be NULL.
 *
 * Nothing here replaces the locating of utilities, the competent person of 29 CFR 1926 Subpart P or
 * an engineer's design of underpinning and shoring. */
#ifndef CW_CONFLICT_H
#define CW_CONFLICT_H

#include "cw/calc.h"
#include "cw/check.h"

/* ---- distances in the section ---- */

typedef struct cw_cut_section {
    double half_bottom_ft, bottom_ft; /**< half the width of the bottom; its elevation */
    double side_slope;
    double surface_ft; /**< elevation of the ground */
} cw_cut_section;

/** Half the width of the cut at @p elevation_ft, no less than at the bottom. */
double cw_conflict_half_ft(const cw_cut_section *cut, double elevation_ft);

/** Distance of a round thing from the dug face or bottom, ft; negative inside the cut.  @p
 * beyond_ft is how far it lies past the end of the bottom along the run, negative before the end.
 * At an edge the true distance is larger: the safe side. */
double cw_conflict_cut_gap_ft(const cw_cut_section *cut, double offset_ft, double beyond_ft,
                              double center_ft, double radius_ft);

typedef struct cw_box_section {
    double half_width_ft;        /**< of all barrels, outside */
    double underside_ft, top_ft; /**< elevations of the concrete */
} cw_box_section;

/** Distance of a round thing from the outside of the concrete, ft; negative when they meet.
 * @p beyond_ft as above, past the end face. */
double cw_conflict_box_gap_ft(const cw_box_section *box, double offset_ft, double beyond_ft,
                              double center_ft, double radius_ft);

typedef struct cw_utility_input {
    double top_ft;      /**< elevation of its top */
    double diameter_in; /**< outside, or height of a duct bank */
    double offset_ft;   /**< of its centre */
    bool has_angle;
    double angle_deg; /**< it crosses the centre line at this angle, offset is not looked at */
    double bottom_ft, bottom_width_ft, side_slope, surface_ft; /**< the cut */
    double width_ft, underside_ft, box_top_ft;                 /**< the box */
    double clearance_in;
} cw_utility_input;

typedef struct cw_utility {
    double cut_gap_ft, box_gap_ft;
    bool exposed;      /**< it shows in the cut */
    double exposed_ft; /**< length that hangs free when it crosses, 0 when it does not show or runs
                          along */
    int cut_verdict;   /**< cw_verdict: undecided when it shows and must be held, fails when it does
                          not show but lies too   near */
    int box_verdict;
} cw_utility;

bool cw_utility_input_valid(const cw_utility_input *input, cw_pos where, cw_diags *diags);
cw_utility cw_conflict_utility(const cw_utility_input *input, cw_working *working);

/* ---- standing structures ---- */

typedef struct cw_footing_input {
    double foundation_ft; /**< elevation of the underside of the footing */
    double away_ft;       /**< from the centre line to the nearest edge of the footing */
    double bottom_ft, bottom_width_ft, side_slope, surface_ft;
    double influence; /**< horizontal per 1 vertical */
    double clear_ft;  /**< wanted from the top edge of the cut */
} cw_footing_input;

typedef struct cw_footing {
    double below_ft;          /**< how far the cut goes below the footing, 0 at least */
    double needed_ft, had_ft; /**< edge of the footing to the edge of the bottom */
    int influence_verdict;
    double edge_ft; /**< top edge of the cut to the structure */
    int edge_verdict;
    double deepest_ft; /**< lowest bottom that keeps above the line, elevation */
} cw_footing;

bool cw_footing_input_valid(const cw_footing_input *input, cw_pos where, cw_diags *diags);
cw_footing cw_conflict_footing(const cw_footing_input *input, cw_working *working);

/* ---- the cut beside live traffic ---- */

typedef enum cw_edge_face { CW_FACE_SLOPED, CW_FACE_SHORED } cw_edge_face;
typedef enum cw_edge_way { CW_EDGE_SLOPE, CW_EDGE_SHORE, CW_EDGE_NONE } cw_edge_way;

typedef struct cw_phase_edge_input {
    double lane_ft;  /**< from the phase line to the edge of the live lane */
    double depth_ft; /**< of the cut there */
    double side_slope;
    double toe_ft;       /**< bottom of the cut past the phase line */
    double barrier_ft;   /**< width of the barrier */
    double setback_ft;   /**< edge of the cut to the barrier, sloped face */
    double shore_ft;     /**< room for shoring behind the edge of the bottom */
    int face;            /**< cw_edge_face: what is planned */
    double reach_ratio;  /**< of the depth: traffic nearer to the edge is surcharge */
    double depth_max_ft; /**< deeper faces are designed by an engineer */
} cw_phase_edge_input;

typedef struct cw_phase_edge {
    double slope_ft, shore_ft; /**< room that each face needs from the phase line */
    int way;         /**< cw_edge_way: the first that fits, the planned one before the other */
    double steepest; /**< side slope that just fits; 0 when not even an upright one does */
    int fit;         /**< cw_verdict of the planned face */
    double edge_ft;  /**< top edge of the planned face from the phase line */
    double to_lane_ft, reach_ft;
    bool surcharge;
    int load; /**< cw_verdict: undecided with traffic as surcharge, and beyond the depth of the
                 tables */
} cw_phase_edge;

/** Room that the face at a phase line needs, and how near the traffic comes to it. */
cw_phase_edge cw_conflict_phase_edge(const cw_phase_edge_input *input, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_utility_clearance;
extern const cw_calc cw_calc_influence_line;
extern const cw_calc cw_calc_phase_edge;

#endif
