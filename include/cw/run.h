/** @file
 * The run: where the ends of the culvert lie under the road, and where every point of every barrel
 * is.
 *
 * Conventions.  The crossing is the point where the centre line of the structure (of all barrels
 * together) meets the centre line of the road.  `chain` is the plan distance along the centre line
 * of the structure from the crossing, positive upstream.  `at` is the plan distance along one
 * barrel from its own outlet face, positive upstream.  `u` is the distance square to the road,
 * positive on the inlet side; `a` is the distance along the road from the crossing, positive
 * up-station.  Right and left are looking upstream.  Skew is the angle between the barrel and the
 * normal of the road, positive when the inlet lies up-station.  The road is straight over the
 * structure.  Feet in plan; cast lengths in inches.
 *
 * Pure: no allocation but through a working, which may always be NULL. */
#ifndef CW_RUN_H
#define CW_RUN_H

#include <stdbool.h>

#include "cw/calc.h"
#include "cw/working.h"

enum { CW_RUN_STRIPS_MAX = 8, CW_RUN_BENDS_MAX = 8, CW_RUN_POINTS_MAX = CW_RUN_BENDS_MAX + 2 };

/** How a question about the run ended.  cw_run_status_words() says it in a sentence. */
typedef enum cw_run_status {
    CW_RUN_OK = 0,
    CW_RUN_LOW_AT_HINGE, /**< the fill is already too low at the hinge: the end would stand in the
                            roadway */
    CW_RUN_NEVER_MEETS,  /**< going out from the road the invert falls as fast as the side slope, or
                            faster */
    CW_RUN_TOO_FAR,      /**< no meeting point within CW_RUN_REACH_FT */
    CW_RUN_AT_STEP,  /**< the wanted height is passed at a step of the surface (a bend or a bank) */
    CW_RUN_PARALLEL, /**< the barrel runs along the road or turns back: it never leaves the roadway
                      */
    CW_RUN_FOLDED,   /**< a straight between bends vanishes at this offset */
    CW_RUN_BEND_OUTSIDE, /**< a bend is not between the ends, or the bends are not in upstream order
                          */
    CW_RUN_NO_LENGTH     /**< outlet and inlet ends coincide or are exchanged */
} cw_run_status;

/** One sentence with the remedy; never NULL. */
const char *cw_run_status_words(cw_run_status status);

/* ---- the road ---- */

typedef struct cw_run_strip {
    double width_ft; /**< square to the road; > 0 */
    double fall;     /**< ft/ft, positive when it goes down away from the grade point */
} cw_run_strip;

/** One side of the roadway from the profile-grade point outward; beyond the last strip (the hinge)
 * the side slope. */
typedef struct cw_run_side {
    cw_run_strip strips[CW_RUN_STRIPS_MAX];
    int strip_count;
    double side_slope; /**< horizontal per 1 vertical; > 0, falling away from the road */
} cw_run_side;

typedef struct cw_run_road {
    double elevation_ft; /**< profile grade at the crossing */
    double grade;        /**< of the profile, ft/ft, positive when it rises up-station */
    cw_run_side outlet, inlet;
} cw_run_road;

/** Distance from the grade point to the hinge, ft. */
double cw_run_hinge_ft(const cw_run_side *side);

/** How far the hinge lies below the grade point of the same cross section, ft. */
double cw_run_hinge_drop_ft(const cw_run_side *side);

/** Elevation of the finished road and its side slope at (u, a), ft. */
double cw_run_surface_ft(const cw_run_road *road, double u_ft, double a_ft);

/** Finished ground along the centre line of the structure; chain strictly increasing. */
typedef struct cw_run_ground_point {
    double chain_ft, elevation_ft;
} cw_run_ground_point;

typedef struct cw_run_ground {
    const cw_run_ground_point *points;
    int count; /**< 0 or 1: no ground known */
} cw_run_ground;

/** True when the ground is known at this chain; never extrapolated. */
bool cw_run_ground_at(const cw_run_ground *ground, double chain_ft, double *elevation_ft);

/** Elevation of what lies on the culvert: inside the hinges the road; outside them the side slope,
 * or the ground where it is known there and higher (cut).  @p ground may be NULL. */
double cw_run_finished_ft(const cw_run_road *road, const cw_run_ground *ground, double u_ft,
                          double a_ft, double chain_ft);

/* ---- the centre line and the barrels ---- */

typedef enum cw_run_inlet {
    CW_RUN_INLET_LEFT,
    CW_RUN_INLET_RIGHT
} cw_run_inlet; /**< looking up-station */
typedef enum cw_run_cut { CW_RUN_CUT_SQUARE, CW_RUN_CUT_ROAD } cw_run_cut; /**< end faces */
typedef enum cw_run_excess {
    CW_RUN_EXCESS_INLET,
    CW_RUN_EXCESS_OUTLET,
    CW_RUN_EXCESS_SHARED
} cw_run_excess;
typedef enum cw_run_which { CW_RUN_OUTLET, CW_RUN_INLET } cw_run_which;

/** Azimuth of the barrel looking upstream, 0 <= result < 360 deg: road + 90 - skew with the inlet
 * on the right of the road looking up-station, road - 90 + skew with it on the left. */
double cw_run_azimuth_deg(double road_azimuth_deg, double skew_deg, cw_run_inlet inlet);

typedef struct cw_run_frame {
    double northing_ft, easting_ft; /**< of the crossing */
    double azimuth_deg;             /**< upstream, of the straight just upstream of the crossing */
    double skew_deg;                /**< of that straight, -90 < skew < 90 */
    cw_run_inlet inlet;
} cw_run_frame;

typedef struct cw_run_bend {
    double chain_ft;
    double turn_deg; /**< right positive looking upstream, -90 .. 90 */
} cw_run_bend;

/** The centre line of the structure: straights that meet at mitred bends. */
typedef struct cw_run_path {
    cw_run_frame frame;
    cw_run_bend bends[CW_RUN_BENDS_MAX]; /**< by increasing chain */
    int bend_count;
} cw_run_path;

typedef struct cw_run_place {
    double northing_ft, easting_ft;
    double azimuth_deg; /**< of the straight, upstream, 0 <= azimuth < 360; at a bend of the one
                           upstream of it */
    double u_ft, a_ft;  /**< in the road's own coordinates */
    double skew_deg;    /**< of the straight; only its sine and cosine mean anything past 90 deg */
    double chain_ft;    /**< along the centre line of the structure */
} cw_run_place;

/** The point of the centre line at @p chain_ft; both end straights go on without end. */
cw_run_place cw_run_path_at(const cw_run_path *path, double chain_ft);

/** Offset of barrel @p barrel (0 .. count-1 from the left) to the right of the centre line, ft. */
double cw_run_barrel_offset_ft(int barrel, int count, double spacing_ft);

/** Where the centre line of the structure starts and stops. */
typedef struct cw_run_span {
    double outlet_chain_ft, inlet_chain_ft; /**< outlet usually negative */
    cw_run_cut cut;                         /**< of both ends */
} cw_run_span;

/** A corner of a barrel's line, in the frame of the straight at the crossing. */
typedef struct cw_run_vertex {
    double at_ft;              /**< along this line from its outlet face */
    double chain_ft;           /**< of the centre line's vertex that it belongs to */
    double along_ft, right_ft; /**< from the crossing */
    double turned_deg; /**< heading of the straight that begins here, less that at the crossing */
} cw_run_vertex;

/** One barrel (or any line parallel to the centre line): a mitred parallel of it between the ends.
 */
typedef struct cw_run_line {
    cw_run_status
        status; /**< OK, FOLDED, BEND_OUTSIDE, PARALLEL or NO_LENGTH; only OK has points */
    cw_run_frame frame;
    double offset_ft;
    double length_ft; /**< plan */
    cw_run_vertex points[CW_RUN_POINTS_MAX];
    int count;
} cw_run_line;

/** The parallel of @p path at @p offset_ft to the right.  With CW_RUN_CUT_ROAD the ends are moved
 * along the barrel so that all faces of an end lie in one line parallel to the road.  A bend
 * shortens the inner line by 2 offset tan(turn/2) and lengthens the outer one.  Source: derived:
 * plane geometry. */
cw_run_line cw_run_line_of(const cw_run_path *path, cw_run_span span, double offset_ft);

/** The point at @p at_ft from the line's outlet face; before and past its ends the end straights go
 * on. Its chain is in proportion between vertices, so that the ends of all barrels have the chain
 * of the ends.
 * @pre line->status is CW_RUN_OK. */
cw_run_place cw_run_line_at(const cw_run_line *line, double at_ft);

/** A point @p right_ft to the right of the line at @p at_ft, square to the straight there: wall
 * lines and offset stakes.  @pre line->status is CW_RUN_OK. */
cw_run_place cw_run_beside(const cw_run_line *line, double at_ft, double right_ft);

/* ---- the ends under the fill ---- */

/** No end is looked for farther from the road than this; and the step of the march. */
#define CW_RUN_REACH_FT 1000.0
#define CW_RUN_MARCH_FT 0.5

typedef struct cw_run_under {
    const cw_run_road *road;
    const cw_run_ground *ground; /**< NULL: none */
    const cw_run_path *path;
    double invert_ft; /**< at the crossing */
    double slope;     /**< rising from outlet to inlet, ft/ft plan */
    double width_ft;  /**< out to out of all barrels */
    cw_run_cut cut;
    double fill_ft; /**< wanted height of the fill above the invert at the back of the end wall,
                       where it is highest */
} cw_run_under;

/** What an iteration did; all zero for a closed form. */
typedef struct cw_run_search {
    int iterations;         /**< steps of the march and halvings */
    double low_ft, high_ft; /**< last bracket, distance from the crossing */
    double residual_ft;     /**< height of the surface above the wanted one at the answer */
} cw_run_search;

typedef struct cw_run_end {
    cw_run_status status; /**< the other numbers mean nothing unless OK */
    double distance_ft;   /**< plan along the centre line from the crossing, > 0 at either end */
    double invert_ft;
    double surface_ft;    /**< fill at the back of the end wall, at the corner nearest to the road
                             where it is highest */
    double height_ft;     /**< surface above invert */
    double far_height_ft; /**< the same at the corner farthest from the road; equal for an end along
                             the road */
    double setback_ft; /**< e_k: how much nearer to the road the near corner of a square end is than
                          its middle */
    double grade_ft; /**< how much higher one corner of the face lies than its middle by the road's
                        grade; left out of the search */
    bool marched;
    cw_run_search search;
} cw_run_end;

/** Where the end must be: closed form for a straight structure with no ground, else march and
 * bisect. */
cw_run_end cw_run_end_find(const cw_run_under *under, cw_run_which which, cw_working *working);

/** s = (b + e + m (z_hinge - z_invert - H)) / (cos skew + m (g - q)), straight and no ground.
 * Source: derived: the line of the side slope meets the line of the wanted fill.  @pre no bends.
 * Ground is not looked at. */
cw_run_end cw_run_end_closed(const cw_run_under *under, cw_run_which which, cw_working *working);

/** First place beyond the hinge where the surface comes down to the wanted height, by steps of
 * CW_RUN_MARCH_FT and bisection. */
cw_run_end cw_run_end_march(const cw_run_under *under, cw_run_which which);

/** The end when it stands at @p distance_ft from the crossing, wherever the wanted height is
 * (distance given, or run rounded up).  status is OK. */
cw_run_end cw_run_end_at(const cw_run_under *under, cw_run_which which, double distance_ft);

/* ---- slope lengths and joints ---- */

/** sqrt(1 + S^2): slope length per plan length. */
double cw_run_slope_factor(double slope);

/** Grade of one barrel. */
typedef struct cw_run_grade {
    double outlet_invert_ft; /**< of the highest barrel */
    double slope;
    double drop_in; /**< of this barrel below the highest, >= 0 */
} cw_run_grade;

typedef struct cw_run_joint {
    double slope_in; /**< along the slope from the outlet face */
    double at_ft;    /**< plan, along the barrel from the outlet face */
    double invert_ft;
    cw_run_place place;
} cw_run_joint;

/** Invert at plan distance @p at_ft from the outlet face, ft. */
double cw_run_invert_ft(const cw_run_grade *grade, double at_ft);

/** The joint (or any point) at @p slope_in along the slope.  @pre line->status is CW_RUN_OK. */
cw_run_joint cw_run_joint_at(const cw_run_line *line, const cw_run_grade *grade, double slope_in);

/** Where equal pieces put the start of piece i + 1: i (piece + gap), inches along the slope. */
double cw_run_equal_joint_in(int joint, double piece_in, double gap_in);

/** Elevation of a surface @p below_in under the invert, thickness measured square to the grade, ft.
 */
double cw_run_under_invert_ft(double invert_ft, double slope, double below_in);

/* ---- cover ---- */

typedef struct cw_run_box {
    double rise_in; /**< clear, square to the grade */
    double top_in;  /**< thickness of lid or crown */
} cw_run_box;

typedef struct cw_run_cover {
    double at_ft; /**< along the barrel */
    double surface_ft;
    double top_ft;   /**< top of the box */
    double cover_ft; /**< surface above top of the box; negative when it stands out */
    cw_run_place place;
} cw_run_cover;

/** What cover is taken over: one barrel under one road. */
typedef struct cw_run_over {
    const cw_run_road *road;
    const cw_run_ground *ground; /**< NULL: none */
    const cw_run_line *line;     /**< status OK */
    cw_run_grade grade;
    cw_run_box box;
} cw_run_over;

cw_run_cover cw_run_cover_at(const cw_run_over *over, double at_ft);

/** Least cover on the barrel's axis in from_ft .. to_ft.  Exact: cover is linear between the grade
 * point, the strip edges, the hinges, the bends and the ground points, and all of them are tried,
 * with the places where ground and side slope cross.  The first of equals. */
cw_run_cover cw_run_least_cover(const cw_run_over *over, double from_ft, double to_ft);

/** Likewise the greatest cover; beside a step of the ground, that within 2e-5 ft of it. */
cw_run_cover cw_run_most_cover(const cw_run_over *over, double from_ft, double to_ft);

/* ---- pieces at bends and skew ends ---- */

typedef struct cw_run_sides {
    double long_in, short_in; /**< laying length of the two outside faces */
} cw_run_sides;

typedef struct cw_run_turn {
    double turn_deg;     /**< total, sign does not matter */
    double turn_max_deg; /**< most for one mitred joint, > 0 */
    double piece_in;     /**< laying length on the centre line of the barrel */
    double width_in;     /**< outside width of the barrel */
    double gap_min_in, gap_max_in;
    bool has_radius;
    double radius_ft; /**< of the curve that the chords follow */
} cw_run_turn;

typedef struct cw_run_turned {
    int joints;            /**< mitred joints, 0 for no turn */
    double joint_turn_deg; /**< each */
    cw_run_sides both;     /**< both ends cut half the joint's turn */
    cw_run_sides one;      /**< one end cut the whole of it */
    double open_deg;       /**< what an uncut joint can turn within its gap band */
    double open_radius_ft; /**< least radius with square-cut pieces; 0 when the gap cannot vary */
    bool has_chord;        /**< only with a radius */
    double chord_turn_deg, mid_ordinate_ft, chord_pieces;
} cw_run_turned;

/** Source: derived: plane geometry of a mitre. */
cw_run_turned cw_run_turn_pieces(const cw_run_turn *turn, cw_working *working);

/** Sides of a piece with one end cut at @p skew_deg.  Source: derived: plane geometry. */
cw_run_sides cw_run_skew_piece(double piece_in, double width_in, double skew_deg);

typedef struct cw_run_headwall {
    double width_ft; /**< out to out of all barrels */
    double skew_deg;
    cw_run_cut cut;
    double overhang_in; /**< past the outside wall, each side, along the wall */
    double rise_in, top_in, parapet_in, thickness_in;
    double span_in;
    int openings; /**< barrels */
} cw_run_headwall;

typedef struct cw_run_headwall_take {
    double length_ft;
    double height_ft; /**< above the invert */
    double gross_sqft, openings_sqft, face_sqft;
    double concrete_cy; /**< above the invert, less the openings */
} cw_run_headwall_take;

cw_run_headwall_take cw_run_headwall_size(const cw_run_headwall *wall, cw_working *working);

/* ---- rounding up to whole pieces ---- */

typedef struct cw_run_rounding {
    int pieces;
    double laid_in;   /**< pieces and gaps along the slope */
    double plan_ft;   /**< the same in plan */
    double excess_ft; /**< plan, over what is needed */
    double short_in;  /**< or: the last piece cut to this, then there is no excess */
    double outlet_share_ft, inlet_share_ft; /**< of the excess, plan */
} cw_run_rounding;

/** n = ceil((L + j) / (Lp + j)) for @p need_ft in plan.  @pre need_ft > 0, piece_in > 0, gap_in >=
 * 0. */
cw_run_rounding cw_run_round_up(double need_ft, double slope, double piece_in, double gap_in,
                                cw_run_excess excess, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_run_length;
extern const cw_calc cw_calc_slope_length;
extern const cw_calc cw_calc_joint_grade;
extern const cw_calc cw_calc_joint_place;
extern const cw_calc cw_calc_cover;
extern const cw_calc cw_calc_bend;
extern const cw_calc cw_calc_barrel_offset;
extern const cw_calc cw_calc_skew_end;
extern const cw_calc cw_calc_headwall;
extern const cw_calc cw_calc_round_up;

#endif
