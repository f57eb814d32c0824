/** @file
 * The job: what the user said, immutable once validated, and how it is built from entries. */
#ifndef CW_JOB_H
#define CW_JOB_H

#include "cw/diag.h"
#include "cw/field.h"
#include "cw/job_sections.h"
#include "cw/rows.h"

enum {
    CW_BARRELS_MAX = 8,
    CW_STRIPS_MAX = 8,
    CW_BENDS_MAX = 8,
    CW_OPENINGS_MAX = 40,
    CW_PHASES_MAX = 6,
    CW_ENDS_MAX = 8,
    CW_LIMITS_MAX = 8,
    CW_LENGTHS_MAX = 16, /**< catalogue lengths of one row */
    CW_SETUPS_MAX = 12,  /**< mould set-ups of the whole job */
    CW_GROUND_MAX = 400,
    CW_FLOWS_MAX = 8,
    CW_STAGES_MAX = 40,
    CW_BED_POINTS_MAX = 60,
    CW_CREST_MAX = 40,
    CW_STEEL_MAX = 6,
    CW_VEHICLES_MAX = 8,
    CW_CRANES_MAX = 6,
    CW_NO_STANDS_MAX = 6,
    CW_LINES_MAX = 4,
    CW_OVERRIDES_MAX = 40,
    CW_UTILITIES_MAX = 20,
    CW_STRUCTURES_MAX = 12,
    CW_BOUNDARIES_MAX = 12,
    CW_SOILS_MAX = 3, /**< layers of ground that the section of the cut takes */
    CW_ZONES_MAX = 6, /**< of backfill, from the underside of the boxes up */
    CW_JOB_BYTES_MAX = 1024 * 1024, /**< of a job file */
    CW_JOB_ENTRIES_MAX = 20000,
    CW_JOB_DEPTH_MAX = 12
};

typedef enum cw_form { CW_FORM_LID, CW_FORM_DOUBLE_U, CW_FORM_RING } cw_form;
typedef enum cw_hand { CW_LEFT, CW_RIGHT } cw_hand;
typedef enum cw_piece_row { CW_ROW_BASE, CW_ROW_TOP, CW_ROW_BOTH } cw_piece_row;

/* ---- the parts of a job, in the order of the file; a text that is not given is "", never NULL ---- */

typedef struct cw_job_head {
    const char *name, *number, *owner, *prepared_by, *checked_by, *revision, *date, *notes;
    int units; /**< cw_unit_system of the output */
} cw_job_head;

typedef struct cw_job_override {
    const char *row, *value, *because;
} cw_job_override;

typedef struct cw_job_profile {
    const char *name; /**< "generic" or the path of a CSV beside the job file */
    cw_job_override *overrides;
    int override_count;
} cw_job_profile;

typedef enum cw_acceptance { CW_ACCEPTED, CW_REFUSED, CW_PENDING } cw_acceptance;

typedef struct cw_job_acceptance {
    bool present;
    int form; /**< cw_acceptance */
    const char *reference;
} cw_job_acceptance;

typedef enum cw_foot { CW_FOOT_INTERNATIONAL, CW_FOOT_US_SURVEY } cw_foot;

typedef struct cw_job_survey {
    const char *datum, *benchmark;
    bool has_benchmark;
    double benchmark_ft; /**< elevation of the benchmark */
    int foot;
    double northing_ft, easting_ft; /**< of the crossing point */
    double azimuth_deg;             /**< of the road, up-station, clockwise from north */
} cw_job_survey;

typedef struct cw_strip {
    double width_ft, fall; /**< fall ft/ft, down going away from the grade point is positive */
} cw_strip;

/** One side of the roadway from the profile-grade point outward. */
typedef struct cw_template_side {
    bool present;
    cw_strip *strips;
    int strip_count;
    double side_slope; /**< horizontal per 1 vertical */
} cw_template_side;

typedef struct cw_job_road {
    bool present;
    double station_ft;   /**< where the barrel centre line crosses the road */
    double elevation_ft; /**< profile grade there */
    double grade;        /**< ft/ft, up-station positive */
    int inlet_side;      /**< cw_hand looking up-station */
    cw_template_side outlet, inlet;
} cw_job_road;

typedef enum cw_end_cut { CW_CUT_SQUARE, CW_CUT_ROAD } cw_end_cut;
typedef enum cw_excess { CW_EXCESS_INLET, CW_EXCESS_OUTLET, CW_EXCESS_SHARED } cw_excess;
typedef enum cw_end_treatment { CW_END_HEADWALL, CW_END_COLLAR, CW_END_NONE } cw_end_treatment;

typedef enum cw_job_wing_kind { CW_JOB_WING_FLARED, CW_JOB_WING_STRAIGHT, CW_JOB_WING_ALONG_ROAD } cw_job_wing_kind;

/** Heights are above the invert of the end. */
typedef struct cw_job_wing {
    bool present;
    int kind; /**< cw_job_wing_kind */
    double flare_deg;
    bool has_root, has_tip, has_length, has_footing_width;
    double root_ft, tip_ft, length_ft;
    double thickness_in;
    int make; /**< 0 cast in place, 1 precast */
    double footing_width_ft, footing_in, footing_depth_ft;
} cw_job_wing;

typedef struct cw_job_end_apron {
    bool present, has_length;
    double length_ft, thickness_in;
} cw_job_end_apron;

typedef struct cw_job_cutoff {
    bool present;
    int make; /**< 0 cast in place, 1 precast */
    double depth_ft, thickness_in;
} cw_job_cutoff;

typedef struct cw_job_end {
    int treatment;       /**< cw_end_treatment */
    double parapet_in;   /**< headwall top above the top of the box */
    double thickness_in; /**< of the headwall */
    double overhang_in;  /**< headwall past the outside wall, each side */
    cw_job_wing left_wing, right_wing; /**< looking upstream */
    cw_job_end_apron apron;
    cw_job_cutoff cutoff;
} cw_job_end;

typedef struct cw_job_run {
    double skew_deg;  /**< from the road normal; positive when the inlet lies up-station */
    double invert_ft; /**< at the road centre line (at the outlet when there is no road) */
    double slope;     /**< ft/ft, rising from outlet to inlet */
    bool has_length;
    double length_ft; /**< plan length, outlet face to inlet face, along the centre of the structure */
    bool has_outlet_distance;
    double outlet_distance_ft; /**< plan, from the road centre line to the outlet face */
    int cut;                   /**< cw_end_cut */
    int excess;                /**< cw_excess */
    bool has_fill_at_end;
    double fill_at_end_ft;     /**< fill surface above the invert at the back of the end wall */
    double end_tolerance_in;
    double overrun_ft;
    cw_job_end outlet, inlet;
} cw_job_run;

typedef struct cw_job_bend {
    double at_ft;    /**< plan distance from the outlet face along the centre of the structure */
    double turn_deg; /**< right positive, looking upstream */
    double within_in; /**< how far the joint may stand from the bend point */
} cw_job_bend;

typedef struct cw_job_box {
    int form;
    double span_in, rise_in, wall_in, floor_in, top_in;
    bool has_leg;
    double leg_in; /**< double-u: clear height of the base wall above the floor */
    double haunch_in, top_haunch_in;
    double concrete_pcf, strength_psi;
} cw_job_box;

typedef struct cw_job_joint {
    double gap_in, gap_min_in, gap_max_in;
    int gap_mode; /**< 0 gauge, 1 continuous */
    double tongue_in, groove_in; /**< projection and depth along the run */
    double tongue_share, groove_share; /**< of the section's area */
} cw_job_joint;

typedef struct cw_job_barrels {
    int count;
    double clear_gap_in;
    bool has_drops;
    cw_list drops_in; /**< invert below the highest barrel, one each from the left */
} cw_job_barrels;

typedef struct cw_job_end_piece {
    int end; /**< 0 outlet, 1 inlet */
    int row; /**< cw_piece_row */
    const char *name;
    double length_in;
    double extra_cost; /**< cents */
    double extra_weight_lb;
} cw_job_end_piece;

typedef struct cw_job_pick_limit {
    double beyond_ft, weight_lb;
} cw_job_pick_limit;

typedef struct cw_job_layout_cost {
    double piece, joint, setup, per_ft, gap; /**< cents */
} cw_job_layout_cost;

typedef struct cw_job_pieces {
    cw_list lengths_in;
    bool has_top_lengths;
    cw_list top_lengths_in;
    int rows; /**< 0 aligned, 1 staggered */
    double stagger_in;
    int max_setups;
    bool has_pick_limit;
    double pick_limit_lb;
    double payload_lb;
    cw_job_layout_cost cost;
    cw_job_end_piece *ends;
    int end_count;
    cw_job_pick_limit *limits;
    int limit_count;
} cw_job_pieces;

typedef enum cw_face { CW_FACE_LEFT, CW_FACE_RIGHT, CW_FACE_FLOOR, CW_FACE_TOP } cw_face;

typedef struct cw_job_opening {
    const char *name;
    int barrel;       /**< 1.. from the left looking upstream */
    int face;         /**< cw_face */
    double at_ft;     /**< plan distance of its centre from the outlet face of that barrel */
    double height_in; /**< walls: centre above the inside floor; floor and top: right of the barrel centre */
    bool has_diameter, has_width, has_tall;
    double diameter_in, width_in, tall_in; /**< round, or width along the run by height */
    bool has_clear;
    double clear_in; /**< from its edge to any joint */
} cw_job_opening;

typedef struct cw_job_phase {
    double at_ft;     /**< plan distance of the phase line from the outlet face */
    double within_in; /**< how far the joint may stand from it */
    const char *name;
    bool has_lane, has_lane_after, has_barrier;
    double lane_ft;       /**< to the live lane upstream of the line, while this phase is open */
    double lane_after_ft; /**< to the live lane downstream of it, while the next phase is open */
    double barrier_ft;
    int face; /**< temporary face: 0 sloped, 1 shored */
} cw_job_phase;

typedef struct cw_ground_point {
    double at_ft, elevation_ft; /**< plan distance along the centre line from the outlet face */
} cw_ground_point;

typedef struct cw_job_ground {
    bool present;
    cw_ground_point *profile;
    int profile_count;
    const char *file;    /**< survey points, an .asc grid or a LandXML surface (.xml) beside the job file */
    int order;           /**< 0 pnezd, 1 penzd */
    const char *breakline_code; /**< survey points whose description starts with it make breaklines; "" for none */
    bool has_grid_unit;
    int grid_unit;       /**< 0 feet, 1 metres: of an .asc grid, which does not name its unit; required for one */
    const struct cw_ground_mesh *mesh; /**< not from the file: the surface that the profile was cut from (cw/ground.h), or NULL; of a
                                          grid the part near the run */
    double mesh_scale;   /**< times the job's own coordinates gives those of the surface: survey feet to international feet, or 1 */
    bool from_crossing;  /**< not from the file: a profile cut from a file counts from the crossing point, inlet side positive */
} cw_job_ground;

typedef struct cw_job_bedding {
    double thickness_in, leveling_in, extra_ft; /**< extra beyond the outside wall, each side */
} cw_job_bedding;

typedef struct cw_job_fill {
    int kind; /**< 0 grout, 1 flowable fill, 2 granular */
    int placements;
    double loss_percent, unit_weight_pcf, cure_h;
    double strength_psi;               /**< before backfill beside it */
    bool has_ages, has_breaks, has_forecast;
    cw_list ages_h, breaks_psi;        /**< breaks of the mix, equivalent age and strength */
    cw_list forecast_f;                /**< mean temperature of the fill, one value for each step from the last placement */
    double step_h;
    bool beneath; /**< it may run under the floors */
} cw_job_fill;

typedef struct cw_job_sealant {
    int rows, seat_rows;
    double roll_ft, waste_percent, splice_in;
    bool has_sizes, has_width, has_temperature;
    cw_list sizes_in;                  /**< heights of section that can be had */
    double width_in;                   /**< of the section; as high as wide when not given */
    double compression_percent;        /**< at the widest annulus */
    double annulus_tolerance_in;       /**< of the room between the faces, plus or minus */
    double temperature_f, temperature_min_f;
} cw_job_sealant;

typedef struct cw_job_lifting {
    double hook_ft;      /**< hook above the pick points */
    double end_ratio;    /**< pick points from each end, share of the length */
    double factor;       /**< multiplies the weight for the pick */
    bool spreader;       /**< slings hang plumb across the piece */
} cw_job_lifting;

typedef struct cw_job_order {
    int ahead;        /**< bases may lead tops by so many */
    int barrels;      /**< 0 together, 1 in turn */
    int spread;       /**< together: pieces one barrel may be ahead of the next */
    int first_barrel; /**< 1.. */
    double backfill_lift_in, side_difference_in, cover_before_equipment_ft;
} cw_job_order;

/** A default that was taken, with its place and source: printed in the plan. */
typedef struct cw_assumption {
    const char *path, *value, *meaning, *source;
    cw_status status;
} cw_assumption;

typedef struct cw_job {
    int format;
    cw_job_head head;
    cw_job_profile profile;
    cw_job_acceptance acceptance;
    cw_job_survey survey;
    cw_job_road road;
    cw_job_run run;
    cw_job_bend *bends;
    int bend_count;
    cw_job_box box;
    cw_job_joint joint;
    cw_job_barrels barrels;
    cw_job_pieces pieces;
    cw_job_opening *openings;
    int opening_count;
    cw_job_phase *phases;
    int phase_count;
    cw_job_ground ground;
    cw_job_bedding bedding;
    cw_job_fill fill;
    cw_job_sealant sealant;
    cw_job_lifting lifting;
    cw_job_order order;
    cw_job_water water;
    cw_job_site_water site_water;
    cw_job_trench trench;
    cw_job_grade grade;
    cw_job_backfill backfill;

    cw_job_strength strength;
    cw_job_obstacles obstacles;
    cw_job_schedule schedule;
    cw_job_cranes cranes;

    cw_rows rows; /**< the specification profile in force: shipped rows, then the named file, then overrides */
    const char *rows_name;
    const cw_assumption *assumptions;
    int assumption_count;
    const struct cw_entries *entries; /**< as read, to point a later finding at its line */
} cw_job;

/* ---- entries: what any reader hands to the builder ---- */

typedef enum cw_entry_kind { CW_ENTRY_SCALAR, CW_ENTRY_MAP, CW_ENTRY_LIST } cw_entry_kind;

/** One node of the file.  Path: keys joined by dots, list items as [0], [1]: "openings[2].at". */
typedef struct cw_entry {
    const char *path;
    cw_entry_kind kind;
    const char *value; /**< scalars: the text between any quotes, trimmed; "" for nothing */
    int line, column;  /**< of the value for scalars, of the key for maps and lists; from 1, in characters */
} cw_entry;

typedef struct cw_entries {
    const char *file;
    const cw_entry *items;
    int count;
} cw_entries;

/** Place of @p path in the file: its entry, or the nearest enclosing one; line 0 when there is none. */
cw_pos cw_entries_place(const cw_entries *entries, const char *path);

/** Files that a job names, read by the caller before the build (the core reads none). */
typedef struct cw_job_files {
    const char *profile_text; /**< text of the profile CSV or NULL */
    const char *ground_text;  /**< text of the .asc grid, or NULL */
    const char *chart_texts[CW_CRANES_MAX]; /**< text of the load chart of each crane, or NULL */
    const struct cw_ground_mesh *ground_mesh; /**< or the triangles of survey points or of a LandXML surface (cw/ground.h), or NULL */
    bool ground_own_feet; /**< the triangles are in the job's own foot, as survey points are, not in international feet */
} cw_job_files;

/** What files does the job name?  Values of profile.name (when it is not "generic"), ground.file and
 * cranes.choices[i].chart, or NULL. */
typedef struct cw_job_names {
    const char *profile, *ground, *charts[CW_CRANES_MAX];
    int ground_order; /**< of survey points: 0 pnezd, 1 penzd */
    const char *breakline_code; /**< ground.breakline_code or NULL */
    cw_pos profile_at, ground_at, charts_at[CW_CRANES_MAX];
} cw_job_names;
cw_job_names cw_job_file_names(const cw_entries *entries);

/** Build and validate.  All faults go to @p diags; returns NULL when there is any error.  Everything lives in @p arena. */
const cw_job *cw_job_build(const cw_entries *entries, const cw_job_files *files, cw_arena *arena,
                           cw_diags *diags);

/* ---- the format as a table ---- */

typedef enum cw_section_need {
    CW_NEED_REQUIRED, /**< must be there */
    CW_NEED_DEFAULTED, /**< absent means all its defaults */
    CW_NEED_OPTIONAL  /**< absent means the matter is not there: no defaults are taken */
} cw_section_need;

/** One map of the job file, or a list of maps. */
typedef struct cw_section {
    const char *key; /**< "" for the file itself */
    const char *meaning;
    cw_section_need need;
    bool is_list;
    int max_items;
    const cw_field *fields;
    int field_count;
    const struct cw_section *children;
    int child_count;
    size_t offset;         /**< in the parent's struct: of the struct, or of the pointer for lists */
    size_t count_offset;   /**< lists: of the int count in the parent's struct */
    size_t item_size;      /**< lists: of one item */
    size_t present_offset; /**< in its own struct: bool, or CW_NO_FLAG */
} cw_section;

/** The whole format. */
extern const cw_section cw_job_format;

/** JSON Schema (2020-12) of the job file, from the same tables. */
const char *cw_job_schema(cw_arena *arena);

/** A commented starter job that builds without fault. */
const char *cw_job_starter(cw_form form, int barrels, cw_unit_system units, cw_arena *arena);

#endif
