/** @file
 * Earthwork from the ground's own surface: what a cut takes out of triangles, exactly, and what goes
 * back in.
 *
 * The cut is made of planes: the bottom, which rises along each straight part of the run; the faces
 * of a cw_trench_shape on both sides; and the ends.  Ground triangles are clipped by these planes, and
 * over each piece the depth is linear, so the sum of the prisms is the volume.  Plan coordinates are
 * easting and northing in ft from an origin that the caller keeps near the cut; all lengths in ft. */
#ifndef CW_EARTHWORK_H
#define CW_EARTHWORK_H

#include "cw/arena.h"
#include "cw/trench.h"

enum { CW_EARTHWORK_LEGS_MAX = 16 };

/** Ground as triangles. */
typedef struct cw_earthwork_ground {
    const double (*points_ft)[3]; /**< easting, northing, elevation */
    const int (*faces)[3];        /**< indices into points, either way round */
    int point_count, face_count;
} cw_earthwork_ground;

/** A straight part of the run; looking along it, right is positive. */
typedef struct cw_earthwork_leg {
    double east_ft, north_ft; /**< where @c from_ft is */
    double azimuth_deg;       /**< clockwise from north */
    double from_ft, to_ft;    /**< plan distances along the run; from < to, the next leg goes on */
} cw_earthwork_leg;

typedef enum cw_earthwork_end_kind {
    CW_END_VERTICAL,
    CW_END_SLOPED, /**< a plane from the edge of the bottom, with hips where it meets the sides */
    CW_END_RAMP    /**< a bottom of its own width that rises, with the faces of the cut from its edges */
} cw_earthwork_end_kind;

typedef struct cw_earthwork_end {
    int kind;     /**< cw_earthwork_end_kind */
    double slope; /**< horizontal per 1 vertical, above 0 unless vertical */
    double width_ft; /**< of a ramp */
} cw_earthwork_end;

typedef struct cw_earthwork_cut {
    cw_earthwork_leg legs[CW_EARTHWORK_LEGS_MAX];
    int leg_count;           /**< 1 at least */
    cw_trench_shape shape;   /**< across the run */
    double bottom_elev_ft;   /**< at the first leg's start */
    double grade;            /**< of the bottom, ft/ft, + when it rises along the run */
    cw_earthwork_end ends[2]; /**< at the start of the first leg, at the end of the last */
} cw_earthwork_cut;

/** Why there is no volume. */
typedef enum cw_earthwork_status {
    CW_EARTHWORK_KNOWN,
    CW_EARTHWORK_NO_GROUND,   /**< part of the bottom has no ground above or below it */
    CW_EARTHWORK_OFF_SURFACE, /**< the faces leave the surface before they meet the ground */
    CW_EARTHWORK_FOLDED,      /**< triangles lie over each other */
    CW_EARTHWORK_CROWDED,     /**< faces of parts of the run that do not follow each other meet */
    CW_EARTHWORK_SHARP,       /**< a bend of a right angle or more */
    CW_EARTHWORK_STATUSES
} cw_earthwork_status;

typedef struct cw_earthwork_place {
    double east_ft, north_ft, elevation_ft;
} cw_earthwork_place;

/** What is dug.  Ground that lies above the planes of the faces but is parted from the cut by lower
 * ground is not part of it. */
typedef struct cw_earthwork_dug {
    int status;               /**< cw_earthwork_status; volumes only when known */
    cw_earthwork_place where; /**< of the trouble; its elevation is not set */
    double run_cuft;          /**< beside and over the bottom */
    double ends_cuft[2];      /**< beyond it */
    double cut_cuft;          /**< all of it, bank measure */
    double footprint_sqft;    /**< in plan */
    double low_cuft, low_sqft; /**< to be filled under the bottom where the ground lies below it */
    double deepest_ft; /**< of the ground above the bottom's plane, at the edges of the cut too */
    double left_ft, right_ft; /**< farthest edges from the centre line, both positive outward */
    const cw_earthwork_place *edge; /**< where the cut meets the ground, counter-clockwise, its longest
                                       ring; the first place is not repeated */
    int edge_count;
    const struct cw_earthwork_pieces *pieces; /**< for the volumes below a level */
} cw_earthwork_dug;

/** Exact.  Memory only for what lies near the cut. */
cw_earthwork_dug cw_earthwork_dig(const cw_earthwork_ground *ground, const cw_earthwork_cut *cut,
                                  cw_arena *arena);

/** Words for a status that is not known: what is wrong and what would mend it. */
const char *cw_earthwork_status_words(int status);

/** Volume in the cut below @p height_ft over the bottom (a plane that rises with it) and below the
 * ground, beside and over the bottom only; without what boxes take. */
double cw_earthwork_below_cuft(const cw_earthwork_dug *dug, double height_ft);

/** Outsides of the barrels, in place. */
typedef struct cw_earthwork_boxes {
    int barrels;
    double width_ft, clear_gap_ft, height_ft; /**< of one barrel; between two; outside height */
    double seat_ft;                           /**< of its underside above the bottom of the cut */
    double from_ft, to_ft;                    /**< along the run */
} cw_earthwork_boxes;

/** What the boxes take below @p height_ft over the bottom and below the ground; @p gaps: what lies
 * between them instead. */
double cw_earthwork_boxes_cuft(const cw_earthwork_dug *dug, const cw_earthwork_boxes *boxes,
                               bool gaps, double height_ft);

/** Sections across one run at @p step_ft and at both ends of every leg, average end area; false when
 * the surface does not reach across one of them, or has more breaks than a section takes.  Over the
 * bottom only. */
bool cw_earthwork_average_cuft(const cw_earthwork_ground *ground, const cw_earthwork_cut *cut,
                               double step_ft, double *volume_cuft, cw_arena *arena);

/** The class for ground that was placed or dug before: never stronger than B (29 CFR 1926 Subpart P
 * App. A: previously disturbed soil is not class A). */
int cw_earthwork_disturbed(int soil);

/* ---- backfill ---- */

enum { CW_EARTHWORK_LIFTS_MAX = 64 };

/** Levels are heights over the bottom of the cut. */
typedef struct cw_earthwork_fill_input {
    cw_earthwork_boxes boxes;
    double bedding_ft;   /**< top of the bedding and leveling course; the boxes' seat */
    double pipe_zone_ft; /**< top of the pipe zone */
    double top_ft;       /**< top of the backfill, or the ground where it is lower */
    double lift_ft;      /**< compacted */
} cw_earthwork_fill_input;

typedef struct cw_earthwork_lift {
    double from_ft, to_ft;
    double volume_cuft; /**< compacted, less boxes and the gaps between them */
} cw_earthwork_lift;

typedef struct cw_earthwork_fill {
    double bedding_cuft;   /**< the whole bottom, up to the seat */
    double pipe_zone_cuft; /**< beside and over the boxes up to its top */
    double final_cuft;     /**< from there to the top */
    double boxes_cuft, gaps_cuft; /**< taken below the top and the ground */
    cw_earthwork_lift lifts[CW_EARTHWORK_LIFTS_MAX];
    int lift_count;  /**< from the seat up */
    bool all_lifts; /**< false when there are more than are kept */
} cw_earthwork_fill;

/** Compacted volumes by zone and by lift. */
cw_earthwork_fill cw_earthwork_fill_of(const cw_earthwork_dug *dug,
                                       const cw_earthwork_fill_input *input);

/* ---- calculators on spot heights ---- */

typedef struct cw_surface_input {
    cw_list stations_ft, offsets_ft, heights_ft; /**< heights row by row, stations x offsets */
    double from_ft, to_ft, bottom_ft, level_ft, grade, side_slope;
    double end_slopes[2]; /**< 0: vertical */
    double step_ft;
} cw_surface_input;

typedef struct cw_surface_volume {
    int verdict, status; /**< cw_verdict: undecided unless the status is known */
    double volume_cy, run_cy, start_cy, end_cy, low_cy;
    bool has_average;
    double average_cy, excess_cy;
    double footprint_sqft, deepest_ft, left_ft, right_ft;
} cw_surface_volume;

bool cw_surface_input_valid(const cw_surface_input *input, cw_pos where, cw_diags *diags);
cw_surface_volume cw_surface_volume_of(const cw_surface_input *input, cw_working *working);

typedef struct cw_surface_fill_input {
    cw_surface_input cut;
    int barrels;
    double width_in, height_in, clear_gap_in, seat_ft, pipe_zone_ft, top_ft, lift_in;
} cw_surface_fill_input;

typedef struct cw_surface_fill {
    int verdict, status;
    double bedding_cy, pipe_zone_cy, final_cy, boxes_cy, gaps_cy;
    int lifts;
    cw_list lifts_cy;
} cw_surface_fill;

bool cw_surface_fill_input_valid(const cw_surface_fill_input *input, cw_pos where, cw_diags *diags);
cw_surface_fill cw_surface_fill_of(const cw_surface_fill_input *input, cw_working *working);

extern const cw_calc cw_calc_surface_volume;
extern const cw_calc cw_calc_surface_backfill;

#endif
