/** @file
 * Excavation: class of soil and the slopes it allows, the section of the cut, its volume, and the
 * earth that comes out of it.
 *
 * US units: ft, ft2, ft3, yd3, lb.  A side slope is horizontal per 1 vertical.  In a section the
 * height is counted from the bottom of the cut and the offset from its centre line, right positive
 * looking upstream.  Each function is pure; @p working may be NULL.  Inputs lie within the limits
 * of the calculator's fields (cw_calc_fill() refuses others); the ..._valid functions report what
 * no single field shows.
 *
 * Nothing here replaces the competent person of 29 CFR 1926 Subpart P, who classes the soil on
 * site and may always ask for a flatter slope. */
#ifndef CW_TRENCH_H
#define CW_TRENCH_H

#include "cw/calc.h"
#include "cw/check.h"

/* ---- class of soil ---- */

/** Classes of 29 CFR 1926 Subpart P App. A, from strong to weak. */
typedef enum cw_soil_class {
    CW_SOIL_ROCK, /**< stable rock */
    CW_SOIL_A,
    CW_SOIL_B,
    CW_SOIL_C,
    CW_SOIL_CLASSES
} cw_soil_class;

typedef enum cw_soil_material {
    CW_MATERIAL_ROCK,
    CW_MATERIAL_COHESIVE, /**< clay, silty clay, sandy clay, clay loam */
    CW_MATERIAL_CEMENTED, /**< caliche, hardpan */
    CW_MATERIAL_ANGULAR,  /**< angular gravel, silt, silt loam, sandy loam */
    CW_MATERIAL_GRANULAR, /**< gravel, sand, loamy sand */
    CW_MATERIAL_UNKNOWN   /**< nobody classed it */
} cw_soil_material;

typedef enum cw_soil_dip {
    CW_DIP_NONE,
    CW_DIP_FLAT, /**< layers dip into the cut less steeply than 4H:1V */
    CW_DIP_STEEP /**< 4H:1V or steeper */
} cw_soil_dip;

/** What set the class. */
typedef enum cw_soil_reason {
    CW_REASON_MATERIAL,
    CW_REASON_STRENGTH,
    CW_REASON_NOT_TESTED, /**< cohesive, but no strength was measured */
    CW_REASON_DISTURBED,  /**< old embankment or backfilled trench */
    CW_REASON_VIBRATION,
    CW_REASON_FISSURED,
    CW_REASON_WATER, /**< submerged, or water seeps freely */
    CW_REASON_DIP,
    CW_REASONS
} cw_soil_reason;

/** Protection against cave-in. */
typedef enum cw_protection {
    CW_PROTECTION_NONE,   /**< entire cut in stable rock */
    CW_PROTECTION_WATCH,  /**< shallow: none if the competent person sees no sign of a cave-in */
    CW_PROTECTION_NEEDED, /**< slope, bench, shore or shield */
    CW_PROTECTIONS
} cw_protection;

typedef struct cw_soil_input {
    bool disturbed; /**< existing embankment, old culvert trench: asked first */
    bool submerged; /**< below water, or water seeps freely: asked second */
    int material;   /**< cw_soil_material */
    bool has_strength;
    double strength_psf; /**< unconfined compressive strength, of cohesive soil */
    bool vibration, fissured;
    int dip; /**< cw_soil_dip */
    double depth_ft;
    double open_h;  /**< how long the cut stays open */
    bool distress;  /**< cracks, sloughing or bulging seen */
    bool surcharge; /**< spoil, crane or traffic near the edge beyond the setback */
} cw_soil_input;

typedef struct cw_soil {
    int soil;   /**< cw_soil_class */
    int reason; /**< cw_soil_reason */
    double side_slope, slope_deg;
    int protection; /**< cw_protection */
    int verdict;    /**< cw_verdict: undecided above the depth of the tables, with surcharge, and
                       where rock is not stable */
} cw_soil;

bool cw_soil_input_valid(const cw_soil_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds trench.* (data/trench.csv). */
cw_soil cw_trench_soil(const cw_soil_input *input, const cw_rows *rows, cw_working *working);

/** Steepest slope of one class; @p brief: open for a day at most, which steepens class A in shallow
 * cuts. */
double cw_trench_class_slope(const cw_rows *rows, int soil, double depth_ft, bool brief);

/* ---- section ---- */

enum { CW_TRENCH_LAYERS_MAX = 8, CW_TRENCH_FACE_MAX = 64, CW_TRENCH_GROUND_MAX = 1024 };

/** One layer of ground, counted from the bottom of the cut up; the last one reaches the surface
 * whatever its thickness says. */
typedef struct cw_trench_layer {
    double thickness_ft;
    int soil; /**< cw_soil_class */
} cw_trench_layer;

typedef enum cw_trench_way {
    CW_WAY_SLOPE,
    CW_WAY_BENCH,          /**< class A, and cohesive class B */
    CW_WAY_SHIELD,         /**< vertical in the shield, sloped above */
    CW_WAY_VERTICAL_LOWER, /**< unsupported vertical lower part, class A only */
    CW_WAYS
} cw_trench_way;

typedef struct cw_trench_point {
    double offset_ft, height_ft;
} cw_trench_point;

/** The dug shape, the same on both sides: a level bottom, and a face that starts at its edge.
 * Offsets of the face are counted from that edge; offsets and heights never fall. */
typedef struct cw_trench_shape {
    double bottom_ft;
    int count; /**< 1 at least: the first point is (0, 0) */
    cw_trench_point face[CW_TRENCH_FACE_MAX];
    double side_slope; /**< above the last point */
} cw_trench_shape;

/** Ground across the section: offsets from the centre line, rising; level beyond both ends. */
typedef struct cw_trench_ground {
    int count; /**< 1 at least */
    cw_trench_point points[CW_TRENCH_GROUND_MAX];
} cw_trench_ground;

typedef struct cw_trench_cut {
    double area_sqft;
    double left_ft, right_ft; /**< edge of the cut from the centre line, both positive outward */
    double left_height_ft, right_height_ft; /**< of the ground there */
    bool filled; /**< the ground lies below the bottom somewhere across it */
} cw_trench_cut;

/** Slope of each layer: its own, or that of a weaker layer below it.  @p slopes gets @p count
 * values, bottom up. */
void cw_trench_layer_slopes(const cw_trench_layer *layers, int count, double depth_ft, bool brief,
                            const cw_rows *rows, double *slopes);

/** A sloped face through @p count layers (1 to CW_TRENCH_LAYERS_MAX), bottom up. */
cw_trench_shape cw_trench_sloped(double bottom_ft, const cw_trench_layer *layers,
                                 const double *slopes, int count);
/** Benches of @p first_ft, then @p next_ft, whose inner corners lie on @p side_slope from the edge
 * of the bottom, up to @p depth_ft. */
cw_trench_shape cw_trench_benched(double bottom_ft, double side_slope, double first_ft,
                                  double next_ft, double depth_ft);
/** Vertical up to @p vertical_ft, sloped above. */
cw_trench_shape cw_trench_stepped(double bottom_ft, double vertical_ft, double side_slope);

/** Area between @p shape and @p ground, exact for the polygons. */
cw_trench_cut cw_trench_cut_of(const cw_trench_shape *shape, const cw_trench_ground *ground);
/** The same under a plane ground that rises by @p cross_fall (ft/ft) to the right and stands
 * @p depth_ft above the bottom at the centre line.  The cross fall times the flattest slope must
 * stay under 1. */
cw_trench_cut cw_trench_cut_plane(const cw_trench_shape *shape, double depth_ft, double cross_fall);

/** Half the width of @p shape at @p height_ft over its bottom. */
double cw_trench_level_half_ft(const cw_trench_shape *shape, double height_ft);
/** What cw_trench_cut_plane() finds under a level plane at @p height_ft, without its search for the edges. */
double cw_trench_level_sqft(const cw_trench_shape *shape, double height_ft);

typedef struct cw_trench_section_input {
    int barrels;
    double width_in, clear_gap_in; /**< outside of one barrel; between barrels */
    double work_ft;                /**< each side */
    double depth_ft;               /**< at the centre line */
    double cross_fall;             /**< + when the ground rises to the right */
    int soil;                      /**< cw_soil_class at the bottom */
    bool has_height_2, has_height_3;
    double height_2_ft, height_3_ft; /**< where a second and a third layer begin */
    int soil_2, soil_3;
    bool cohesive; /**< class B that is clay or silt with clay: benches are allowed */
    double open_h;
    int way;              /**< cw_trench_way */
    double shield_ft;     /**< top of the shield above the bottom of the cut */
    double below_ft;      /**< dug below the lower edge of the shield */
    double spoil_ft;      /**< from the edge to the foot of the spoil */
    double spoil_base_ft; /**< width of the spoil pile on the right, 0 when hauled off */
    bool has_row_left, has_row_right;
    double row_left_ft, row_right_ft; /**< right of way from the centre line */
} cw_trench_section_input;

/** What the bottom width makes of the cut. */
typedef enum cw_trench_kind { CW_CUT_TRENCH, CW_CUT_EXCAVATION } cw_trench_kind;

typedef struct cw_trench_section {
    double bottom_ft, area_sqft, top_ft, left_ft, right_ft;
    double slope_bottom, slope_top;
    int kind;          /**< cw_trench_kind of the whole cut */
    int annulus_kind;  /**< cw_trench_kind of the strip between barrel and face */
    double deepest_ft; /**< at the higher edge of the cut */
    int protection;    /**< cw_protection */
    int verdict;       /**< cw_verdict of the faces */
    double reach_left_ft, reach_right_ft; /**< to the outer foot of what stands beside the cut */
    double crane_ft;  /**< from the centre line to the nearest place for a crane on the right */
    int right_of_way; /**< cw_verdict: undecided when it is not given */
} cw_trench_section;

bool cw_trench_section_input_valid(const cw_trench_section_input *input, cw_pos where,
                                   cw_diags *diags);
cw_trench_section cw_trench_section_of(const cw_trench_section_input *input, const cw_rows *rows,
                                       cw_working *working);
/** The dug shape behind that section. */
cw_trench_shape cw_trench_section_shape(const cw_trench_section_input *input, const cw_rows *rows);
/** Width of the bottom, ft. */
double cw_trench_bottom_ft(int barrels, double width_in, double clear_gap_in, double work_ft);

/* ---- volumes ---- */

/** L (A1 + A2)/2. */
double cw_trench_average_cuft(double length_ft, double area_1_sqft, double area_2_sqft);
/** L (A1 + 4 Am + A2)/6, Am at the middle of the depths. */
double cw_trench_prismoid_cuft(double length_ft, double area_1_sqft, double middle_sqft,
                               double area_2_sqft);
/** Exact volume of @p shape between two sections whose depths at the centre line run straight from
 * @p depth_1_ft to @p depth_2_ft (0 at least) under a plane with @p cross_fall. */
double cw_trench_prism_cuft(const cw_trench_shape *shape, double cross_fall, double depth_1_ft,
                            double depth_2_ft, double length_ft);
/** Sloped end of a pit, hips at the corners: bottom edge @p bottom_ft, sides @p side_slope, end
 * @p end_slope. */
double cw_trench_end_cuft(double bottom_ft, double side_slope, double end_slope, double depth_ft);
/** Ramp of constant width with side slopes from its edges. */
double cw_trench_ramp_cuft(double width_ft, double side_slope, double ramp_slope, double depth_ft);

typedef struct cw_trench_volume_input {
    double bottom_ft, side_slope, cross_fall;
    cw_list stations_ft, depths_ft; /**< stations rising; depth at the centre line at each */
    double start_slope, end_slope;  /**< sloped ends, 0: vertical or none */
    double overbreak_percent;
} cw_trench_volume_input;

typedef struct cw_trench_volume {
    double average_cy, exact_cy, excess_cy; /**< between the sections */
    double ends_cy;
    double total_cy;     /**< exact with ends, as drawn */
    double overbreak_cy; /**< apart from it */
    double length_ft;
} cw_trench_volume;

bool cw_trench_volume_input_valid(const cw_trench_volume_input *input, cw_pos where,
                                  cw_diags *diags);
cw_trench_volume cw_trench_volume_of(const cw_trench_volume_input *input, cw_working *working);

typedef struct cw_pit_input {
    double length_ft, width_ft, depth_ft; /**< of the bottom */
    double side_slope, end_slope;
    double ramp_slope, ramp_width_ft; /**< horizontal per 1 vertical; width 0: no ramp */
} cw_pit_input;

typedef struct cw_pit {
    double volume_cy;  /**< without ramp */
    double one_end_cy; /**< part of one sloped end */
    double ramp_cy;    /**< what a ramp adds beyond the foot of one vertical end */
    double top_length_ft, top_width_ft;
    double ramp_length_ft;
} cw_pit;

cw_pit cw_trench_pit(const cw_pit_input *input, cw_working *working);

/* ---- earth: bank, loose, compacted ---- */

typedef enum cw_earth_state { CW_EARTH_BANK, CW_EARTH_LOOSE, CW_EARTH_COMPACTED } cw_earth_state;

typedef enum cw_earth_kind {
    CW_EARTH_CLAY,
    CW_EARTH_COMMON,
    CW_EARTH_ROCK,
    CW_EARTH_SAND_GRAVEL,
    CW_EARTH_OTHER, /**< swell and shrink are given */
    CW_EARTH_KINDS
} cw_earth_kind;

typedef struct cw_earth_input {
    double volume_cy;
    int state; /**< cw_earth_state of that volume */
    int kind;  /**< cw_earth_kind */
    bool has_swell, has_shrink, has_loose;
    double swell_percent, shrink_percent; /**< in place of the table's */
    double loose_pcf;                     /**< unit weight in the truck, in place of the table's */
    double truck_cy, payload_lb;          /**< loose volume of the box; payload */
} cw_earth_input;

/** What limits a truck. */
typedef enum cw_truck_limit {
    CW_TRUCK_BY_VOLUME,
    CW_TRUCK_BY_WEIGHT,
    CW_TRUCK_NOT_KNOWN
} cw_truck_limit;

typedef struct cw_earth {
    double swell_percent, shrink_percent; /**< as used */
    double bank_cy, loose_cy, compacted_cy;
    double load_factor; /**< bank over loose volume */
    double truck_cy;    /**< loose, on one truck */
    int loads;
    int limit; /**< cw_truck_limit: not known without a unit weight */
} cw_earth;

bool cw_earth_input_valid(const cw_earth_input *input, cw_pos where, cw_diags *diags);
/** @p rows holds earth.* (data/trench.csv). */
cw_earth cw_trench_earth(const cw_earth_input *input, const cw_rows *rows, cw_working *working);

typedef struct cw_earth_balance_input {
    double dug_cy;           /**< bank */
    double suitable_percent; /**< of it fit for backfill */
    double need_cy;          /**< compacted backfill */
    double swell_percent, shrink_percent;
} cw_earth_balance_input;

typedef struct cw_earth_balance {
    double reuse_cy; /**< bank */
    double export_cy, export_loose_cy;
    double import_cy; /**< compacted, still missing */
} cw_earth_balance;

cw_earth_balance cw_trench_balance(const cw_earth_balance_input *input, cw_working *working);

typedef enum cw_pile_shape { CW_PILE_RIDGE, CW_PILE_CONE } cw_pile_shape;

typedef enum cw_pile_earth {
    CW_PILE_EARTH_DRY,
    CW_PILE_EARTH_MOIST,
    CW_PILE_CLAY,
    CW_PILE_GRAVEL,
    CW_PILE_SAND_DRY,
    CW_PILE_SAND_MOIST,
    CW_PILE_EARTHS
} cw_pile_earth;

typedef struct cw_pile_input {
    double volume_cy; /**< loose */
    int shape;        /**< cw_pile_shape */
    int earth;        /**< cw_pile_earth */
    double length_ft; /**< of a ridge */
    bool has_repose;
    double repose_deg; /**< in place of the table's */
} cw_pile_input;

typedef struct cw_pile {
    double repose_deg, height_ft, base_ft; /**< width of a ridge, diameter of a cone */
} cw_pile;

/** @p rows holds repose.* (data/trench.csv). */
cw_pile cw_trench_pile(const cw_pile_input *input, const cw_rows *rows, cw_working *working);

/* ---- egress ---- */

typedef struct cw_egress_input {
    double depth_ft, length_ft; /**< of the open trench or annulus */
    int strips; /**< 1 for an open trench; both sides of a box that blocks the way across: 2 */
} cw_egress_input;

typedef struct cw_egress {
    bool needed;
    int each, total;   /**< ladders in one strip, in all */
    cw_list places_ft; /**< from the end of the strip, at most CW_LIST_MAX */
    double ladder_ft;  /**< upright height from bottom to above the edge */
} cw_egress;

/** @p rows holds trench.egress_* (data/trench.csv). */
cw_egress cw_trench_egress(const cw_egress_input *input, const cw_rows *rows, cw_working *working);

/* ---- calculators ---- */

extern const cw_calc cw_calc_soil_class;
extern const cw_calc cw_calc_trench_section;
extern const cw_calc cw_calc_trench_volume;
extern const cw_calc cw_calc_pit_volume;
extern const cw_calc cw_calc_earth_volumes;
extern const cw_calc cw_calc_earth_balance;
extern const cw_calc cw_calc_stockpile;
extern const cw_calc cw_calc_egress;

#endif
