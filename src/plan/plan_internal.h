/** @file
 * The parts of cw_plan_compute, in the order in which they run. */
#ifndef CW_PLAN_INTERNAL_H
#define CW_PLAN_INTERNAL_H

#include "cw/plan.h"

enum { CW_PLAN_WORKINGS_MAX = 400 };

/** A plan under construction. */
typedef struct draft {
    cw_plan plan;
    const cw_job *job;
    cw_arena *arena;
    cw_checks *checks; /* of the plan */
    cw_working *workings;
    int working_count;
    cw_layout_item base_items[CW_LAYOUT_ITEMS_MAX], top_items[CW_LAYOUT_ITEMS_MAX];
    const char *item_names[2][CW_LAYOUT_ITEMS_MAX]; /* end pieces; NULL for standard */
    double item_extra_lb[2][CW_LAYOUT_ITEMS_MAX];
    int item_end[2][CW_LAYOUT_ITEMS_MAX]; /* -1 standard, 0 outlet, 1 inlet */
    int item_count[2];
    int setup_count;
    cw_layout_must_joint must_bend_phase[CW_BARRELS_MAX][CW_BENDS_MAX + CW_PHASES_MAX];
    const char *limits[CW_STEP_KINDS]; /* words that all steps of a kind share, NULL until asked for */
    const char *joint_limit;
    int bend_of[CW_RUN_BENDS_MAX]; /* bend of the job that each bend of the path belongs to */
} draft;

/** A new working, kept in the plan; NULL when there is no room for more (the values stay right). */
cw_working *draft_working(draft *d, const char *title);

/** Value of a profile row in force; @p fallback when the row is not there. */
const cw_row *draft_row(const draft *d, const char *id);

/** Source phrase of a row. */
const char *draft_source(const draft *d, const char *id);

/** Source phrase of a limit that the job may state at @p path and that else is row @p id. */
const char *draft_basis(const draft *d, const char *path, const char *id);
/** The row's id when the value at @p path was taken from it, "" when the job states the value. */
const char *draft_rest(const draft *d, const char *path, const char *id);

/** Does the job file give the value at this path? */
bool draft_stated(const draft *d, const char *path);

/** Add an amount to the quantities. */
void draft_quantity(draft *d, cw_plan_quantity quantity);

/** What the cut is dug to, from what the job has. */
typedef struct draft_dig {
    double work_ft;
    const char *how, *rests_on;
} draft_dig;
draft_dig draft_dig_of(const draft *d);
/** Slope of its faces at a plan distance, as one straight line from the edge of the bottom to the top edge. */
double draft_dig_slope(const draft *d, double at_ft);
/** Ground that is dug: the existing ground where it is known, else the finished road and slopes. */
bool draft_dig_ground(const draft *d, double at_ft, double *ground_ft);

/** "Water main and gas main": what must be located before the cut, "" for nothing. */
const char *draft_locate_names(const draft *d);

/** Clear height that belongs to the base: rise for lid and ring, leg for double-u. */
double draft_base_leg_in(const cw_job *job);
/** Clear height that belongs to the top: 0 for a lid. */
double draft_top_leg_in(const cw_job *job);
/** Letter of a row's pieces: B base, L lid, H hood, R ring. */
char draft_letter(const cw_job *job, cw_order_row row);
/** Weight of a foot of run, no joint detail: of the box, or of a base without its top. */
double draft_box_lb_per_ft(const cw_job *job, bool with_top);
/** The wheels or tracks of a vehicle of the job. */
cw_struct_vehicle draft_vehicle(const draft *d, const cw_job_vehicle *given);
/** "base", "lid", "hood", "ring". */
const char *draft_word(const cw_job *job, cw_order_row row);

/** Shape of a piece of row @p row without joints, openings or cuts. */
cw_piece_shape draft_plain_shape(const cw_job *job, cw_order_row row, double length_in);

/** "Manhole (opening 2)": names alone need not differ. */
const char *draft_opening_name(const draft *d, int opening);

/** Whether bends, phase lines or openings, which are measured from the outlet face, hold that face where it is. */
bool draft_outlet_held(const cw_job *job);

/** How far apart the last top and the last base of a barrel end, inches along the slope. */
double draft_ends_apart_in(const draft *d, int barrel);

/** How far the opening's edge must stay from any joint. */
double draft_opening_clear_in(const draft *d, const cw_job_opening *opening);

/** Index of the piece of that row before the joint that is nearest to the bend with vertex @p vertex; -1 for a single
 * piece. */
int draft_bend_joint(const draft *d, int barrel, cw_order_row row, int vertex);

/** Phase in which a base is set, from 0: that of its middle. */
int draft_phase_of(const draft *d, const cw_plan_piece *piece);

/** False when the shape cannot be: then the ledger gets a row weight.shape at @p where. */
bool draft_shape_good(draft *d, const cw_piece_shape *shape, const char *where);

/** Whether the opening cuts pieces of this row (a wall opening across the mid-height joint cuts both). */
bool draft_opening_binds(const cw_job *job, const cw_job_opening *opening, cw_order_row row);

bool draft_run(draft *d);     /* ends, path, wanted lengths; false when there is no run */
bool draft_layout(draft *d);  /* division into pieces; false when there is none */
void draft_pieces(draft *d);  /* pieces, marks, weights, joints, cover */
void draft_order(draft *d);   /* setting order, trucks */
void draft_takeoff(draft *d); /* quantities */
void draft_check_acceptance(draft *d);
void draft_check_run(draft *d);
void draft_check_layout(draft *d);
void draft_check_blocks(draft *d);
void draft_check_rest(draft *d);
void draft_water(draft *d);      /* flows, headwater, profiles, apron */
void draft_site_water(draft *d); /* diversion, cofferdam, groundwater, floating; after draft_water() */
void draft_strength(draft *d); /* the box under its loads; before draft_order() */
void draft_stages(draft *d);   /* what it bears while it is built; part of draft_strength() */
void draft_check_strength(draft *d);
void draft_ends(draft *d);       /* wings, aprons, cutoff walls; after draft_pieces() */
void draft_conflicts(draft *d);  /* the cut and what stands in its way; after draft_pieces() */
void draft_check_ends(draft *d);
void draft_check_conflicts(draft *d);
void draft_take_ends(draft *d);  /* their quantities, from draft_takeoff() */
void draft_cranes(draft *d); /* rigging, setups, picks; after draft_order() */
void draft_check_cranes(draft *d);
void draft_check_water(draft *d);
void draft_check_site_water(draft *d);
void draft_trench(draft *d);     /* sections and volumes of the cut; after draft_site_water() */
void draft_surface(draft *d);    /* volume of the cut from the ground's triangles; after draft_trench() */
void draft_check_surface(draft *d);
void draft_grade(draft *d);      /* rod, camber, stakes, growth, heading */
void draft_closing(draft *d);    /* sealant, fill, backfill; before draft_order(), which takes its lifts */
void draft_check_trench(draft *d);
void draft_check_grade(draft *d);
void draft_check_closing(draft *d);

/** The hole at one place, level ground taken across it. */
typedef struct draft_hole {
    double at_ft, bottom_ft;
    bool dug;
    double depth_ft;
    cw_trench_shape shape; /* when dug */
} draft_hole;
draft_hole draft_hole_at(const draft *d, double at_ft);
/** Area of the hole below @p height_ft over its bottom; upright above the ground, at the edges of the cut. */
double draft_hole_sqft(const draft_hole *hole, double height_ft);
/** "1 1/2"" or "3.00 ft" in the units of the plan. */
const char *draft_words(const draft *d, double value, cw_dim dim);
/** Bottom of the cut under the lowest barrel. */
double draft_subgrade_ft(const draft *d, double at_ft);
/** Invert of the first barrel with its camber. */
double draft_invert_ft(const draft *d, double at_ft);

/** Camber of the invert at a plan distance along a barrel, ft. */
double draft_camber_ft(const draft *d, double length_ft, double at_ft);
/** What must hold before a step is signed; "" when nothing is to be said. */
const char *draft_step_limit(draft *d, const cw_step *step, int piece);
void draft_ground_quantities(draft *d);
/** Value of a profile row in force, or @p otherwise. */
double draft_row_value(const draft *d, const char *id, double otherwise);

/** Add a row as it is; texts left out become "". */
cw_check *draft_add(draft *d, cw_check check);
/** Add a row with numbers and judge it; what mends it is dropped when it holds. */
void draft_judge(draft *d, cw_check check);

/* ---- schedule ---- */

void draft_schedule(draft *d);
void draft_check_schedule(draft *d);

#endif
