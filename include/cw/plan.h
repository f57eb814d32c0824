/** @file
 * The plan: everything that is computed from a job, immutable.  Renderers read it and compute nothing.
 *
 * "Plan distance" is horizontal, along the barrel from its outlet face; "slope" positions are along the invert. */
#ifndef CW_PLAN_H
#define CW_PLAN_H

#include "cw/calc.h"
#include "cw/check.h"
#include "cw/job.h"
#include "cw/layout.h"
#include "cw/order.h"
#include "cw/run.h"
#include "cw/takeoff.h"
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

/** One end of the structure after the division into pieces. */
typedef struct cw_plan_end {
    bool from_template;     /**< its place was computed from the road */
    cw_run_end wanted, laid;
    bool has_fill;          /**< laid.height_ft means something (there is a road) */
    double box_top_ft;      /**< top of the box above the invert there, plumb */
    double wall_top_ft;     /**< headwall above the invert */
    bool has_headwall;
    cw_run_headwall_take headwall;
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
    int piece;        /**< index into pieces, -1 */
} cw_plan_step;

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

    const cw_plan_quantity *quantities;
    int quantity_count;
    cw_checks checks;
    const cw_working *workings;
    int working_count;
} cw_plan;

/** Compute the plan.  Never fails: what cannot be computed is a row of the ledger.  Everything lives in @p arena. */
const cw_plan *cw_plan_compute(const cw_job *job, cw_arena *arena);

/** Step of the default order with this id, or -1. */
int cw_plan_step_find(const cw_plan *plan, const char *id);

#endif
