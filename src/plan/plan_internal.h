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
} draft;

/** A new working, kept in the plan; NULL when there is no room for more (the values stay right). */
cw_working *draft_working(draft *d, const char *title);

/** Value of a profile row in force; @p fallback when the row is not there. */
const cw_row *draft_row(const draft *d, const char *id);

/** Source phrase of a row. */
const char *draft_source(const draft *d, const char *id);

/** Clear height that belongs to the base: rise for lid and ring, leg for double-u. */
double draft_base_leg_in(const cw_job *job);
/** Clear height that belongs to the top: 0 for a lid. */
double draft_top_leg_in(const cw_job *job);
/** Letter of a row's pieces: B base, L lid, H hood, R ring. */
char draft_letter(const cw_job *job, cw_order_row row);
/** "base", "lid", "hood", "ring". */
const char *draft_word(const cw_job *job, cw_order_row row);

/** Shape of a piece of row @p row without joints, openings or cuts. */
cw_piece_shape draft_plain_shape(const cw_job *job, cw_order_row row, double length_in);

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

#endif
