/** @file
 * Weight and centre of gravity of one cast piece.
 *
 * One rule serves every piece: it is a list of signed solids {V, unit weight, x, y, z};
 * W = sum(g V), centre of gravity = sum(g V r) / W.  Source: statics, composite bodies.
 *
 * Axes of a piece as it hangs, looking upstream: X across, centre 0, right positive; Y along the
 * run, 0 where the downstream face crosses the centre line, upstream positive (a tongue on that
 * face has negative Y); Z up, 0 at the underside (floor of a base or ring, feet of a hood, soffit
 * of a lid). Reinforcement, lifting inserts and wet concrete are not counted apart: choose the unit
 * weight to suit. */
#ifndef CW_WEIGHT_H
#define CW_WEIGHT_H

#include "cw/calc.h"

enum {
    CW_PIECE_OPENINGS_MAX = 8,
    CW_PIECE_EXTRAS_MAX = 4,
    CW_PIECE_SOLIDS_MAX =
        48 /**< 8 section parts, 2 ends, 3 for each opening, 2 end weights, extras */
};

/** What is cast.  CW_PART_HOOD is the inverted U. */
typedef enum cw_piece_part { CW_PART_BASE, CW_PART_LID, CW_PART_HOOD, CW_PART_RING } cw_piece_part;

/** How an end is formed.  Inside a run: base and ring tongue downstream, groove upstream; lid and
 * hood the other way round.  The outside faces of the first and last piece are plain. */
typedef enum cw_piece_joint { CW_JOINT_PLAIN, CW_JOINT_TONGUE, CW_JOINT_GROOVE } cw_piece_joint;

/** Same order as the faces of a job file. */
typedef enum cw_hole_face { CW_HOLE_LEFT, CW_HOLE_RIGHT, CW_HOLE_FLOOR, CW_HOLE_TOP } cw_hole_face;

/** One end of a piece.  The end face is a plumb plane y = y_end + x tan(angle); the angle is
 * skew + mitre at the downstream end, skew - mitre at the upstream end, each within 60 deg. */
typedef struct cw_piece_end {
    int joint;       /**< cw_piece_joint */
    double skew_deg; /**< from square; positive when the right side of the face lies farther
                        upstream */
    double
        mitre_deg; /**< share of a bend's turn that this end takes (half, as a rule); right turn
                        positive, looking upstream: the right side of the piece becomes shorter */
} cw_piece_end;

/** A hole square through a wall, floor or top, and through any haunch behind it.  The part of a
 * wall hole above or below the wall belongs to the neighbouring piece and is not deducted.  It must
 * stay clear of both ends. */
typedef struct cw_piece_opening {
    int face;           /**< cw_hole_face */
    double y_in;        /**< centre, from the downstream face at the centre line */
    double z_in;        /**< walls: centre above the underside of the piece */
    double x_in;        /**< floor and top: centre right of the centre line */
    bool is_round;      /**< else rectangular */
    double diameter_in; /**< round */
    double width_in;    /**< rectangular: along the run */
    double tall_in;     /**< rectangular: up a wall, or across a floor or top */
} cw_piece_opening;

/** One signed solid. */
typedef struct cw_piece_solid {
    const char *name;    /**< "floor slab" */
    const char *formula; /**< of its volume */
    double volume_cuft;  /**< negative when removed */
    double unit_pcf;
    double x_ft, y_ft, z_ft; /**< its centroid */
    const char *source;      /**< of formula and place; NULL means given by the caller */
} cw_piece_solid;

typedef struct cw_piece_shape {
    int part;             /**< cw_piece_part */
    double span_in;       /**< clear between the walls (lid: of the box that it covers) */
    double wall_in;       /**< outside width is span + 2 wall, for a lid too */
    double leg_in;        /**< clear height of the walls of this piece; 0 for a lid */
    double slab_in;       /**< floor of a base or ring, crown of a hood, the lid */
    double haunch_in;     /**< leg of the 45 degree haunch between slab and walls; 0 for a lid */
    double top_slab_in;   /**< ring only, else 0 */
    double top_haunch_in; /**< ring only, else 0 */
    double length_in;     /**< laying length on the centre line, face to face, tongue not counted */
    double unit_pcf;      /**< of the hardened reinforced concrete */
    cw_piece_end downstream, upstream;
    double tongue_in, groove_in; /**< projection, and depth, along the run */
    double tongue_share,
        groove_share; /**< of the section's area, 0..1, taken to lie evenly over the section */
    double extra_downstream_lb, extra_upstream_lb; /**< thickening cast to that end: taken at its
                                                      face, at the centroid of the section */
    cw_piece_opening openings[CW_PIECE_OPENINGS_MAX];
    int opening_count;
    cw_piece_solid extras[CW_PIECE_EXTRAS_MAX]; /**< anything else, in the axes above; formula and
                                                   source may be NULL */
    int extra_count;
} cw_piece_shape;

typedef struct cw_piece_solids {
    int count;
    cw_piece_solid items[CW_PIECE_SOLIDS_MAX];
} cw_piece_solids;

typedef struct cw_piece_weight {
    double volume_cuft; /**< of all solids; an end weight counts as concrete of the piece's unit
                           weight */
    double weight_lb;
    double x_ft, y_ft, z_ft;    /**< centre of gravity */
    double section_area_sqft;   /**< without joint detail and openings */
    double section_z_ft;        /**< centroid of that section */
    double weight_lb_per_ft;    /**< of that section */
    double width_in, height_in; /**< outside */
    double overall_length_in;   /**< between the outermost points along the run, tongue included */
    double longest_in, shortest_in; /**< laying length at the longer and the shorter outside edge */
} cw_piece_weight;

/** Where the slings go when the precaster has said nothing: four points, order left downstream,
 * right downstream, left upstream, right upstream. */
typedef struct cw_pick_points {
    double x_ft[4], y_ft[4];
    double z_ft; /**< top of the piece */
} cw_pick_points;

/** Report every fault of @p shape at @p where (dimensions out of range, end planes that cross,
 * openings that leave their face or reach an end); true when none. */
bool cw_piece_shape_valid(const cw_piece_shape *shape, cw_pos where, cw_diags *diags);

/** The solids of a valid shape. */
cw_piece_solids cw_weight_solids(const cw_piece_shape *shape);

/** Weight, centre of gravity and outside size of a valid shape.  @p working may be NULL; otherwise
 * each solid becomes one step. */
cw_piece_weight cw_weight_compute(const cw_piece_shape *shape, cw_working *working);

/** Default pick points of a valid shape: on the wall centre lines, @p end_ratio (0..0.5) of each
 * wall's own length from its ends.  Common practice: 0.2.  The precaster's lift drawing governs. */
cw_pick_points cw_weight_picks(const cw_piece_shape *shape, double end_ratio);

/* ---- calculators ---- */

/** Output of section-area; input is a cw_piece_shape of which only the section is read. */
typedef struct cw_section_area {
    double area_sqft, z_ft;
    double width_in, height_in;
    double weight_lb_per_ft;
} cw_section_area;

typedef struct cw_box_weight_input {
    int form; /**< 0 lid, 1 double-u, 2 ring */
    double span_in, rise_in, wall_in, floor_in, top_in;
    double leg_in; /**< double-u: clear height of the base wall */
    double haunch_in, top_haunch_in;
    double unit_pcf;
} cw_box_weight_input;

typedef struct cw_box_weight {
    double base_lb_per_ft, top_lb_per_ft; /**< a ring is all base */
    double box_lb_per_ft;
    double base_cuft_per_ft, top_cuft_per_ft; /**< concrete in one foot of run */
} cw_box_weight;

cw_box_weight cw_weight_box(const cw_box_weight_input *input, cw_working *working);

extern const cw_calc cw_calc_piece_weight;
extern const cw_calc cw_calc_piece_cg;
extern const cw_calc cw_calc_section_area;
extern const cw_calc cw_calc_box_weight_per_foot;
extern const cw_calc cw_calc_skew_end_weight;

#endif
