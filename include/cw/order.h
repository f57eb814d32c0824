/** @file
 * The setting order: every step of placing a precast box culvert, what must come before it, and
 * why.
 *
 * A step is work or a stop (hold, witness or record point) that happens once.  All rules are
 * prerequisites, also those that say "at most", so a set of done steps is a legal state exactly
 * when each done step's prerequisites are done; docs/handbook/order.md proves it.  Stations in feet
 * along the run from the outlet face.  Left and right are looking upstream; barrel 0 is the
 * leftmost.  Pure; memory only from the arena. */
#ifndef CW_ORDER_H
#define CW_ORDER_H

#include <stdbool.h>

#include "cw/arena.h"

enum {
    CW_ORDER_BARRELS_MAX = 12,
    CW_ORDER_PIECES_MAX = 512, /**< pieces of one row of one barrel */
    CW_ORDER_PHASES_MAX = 8,
    CW_ORDER_PARTS_MAX = 64,        /**< reaches, segments, placements or lifts */
    CW_ORDER_NO_LIMIT = 1000 * 1000 /**< for lead_limit, barrel_lead and barrel_lag */
};

typedef enum cw_order_row { CW_ORDER_BASE = 0, CW_ORDER_TOP = 1 } cw_order_row;

/** How far a base must reach beyond the top that is being placed. */
typedef enum cw_order_beyond {
    CW_BEYOND_SOME, /**< some set base ends beyond the top's upstream end */
    CW_BEYOND_WHOLE /**< one whole base lies beyond it */
} cw_order_beyond;

typedef enum cw_order_barrels {
    CW_BARRELS_IN_TURN, /**< all pieces of a barrel (in a phase) before the first of the next */
    CW_BARRELS_TOGETHER /**< within barrel_lead and barrel_lag pieces of one another */
} cw_order_barrels;

/** One row of pieces, piece 0 at the outlet; piece i lies from start_ft[i] to end_ft[i], shoulder
 * to shoulder. */
typedef struct cw_order_line {
    const double *start_ft, *end_ft;
    const int *phase; /**< phase of each piece, never falling along the row.  NULL: bases all in
                         phase 0; tops in the earliest phase that holds the bases they need */
    int count;
} cw_order_line;

typedef struct cw_order_barrel {
    cw_order_line base, top; /**< top.count 0 when rows is 1 */
} cw_order_barrel;

typedef struct cw_order_run {
    const cw_order_barrel *barrels;
    int barrel_count;
    int rows; /**< 1: one-piece boxes (the base row holds them); 2: bases and tops */

    int lead_limit; /**< most bases set that are not covered to their upstream end; >= 2 */
    cw_order_beyond beyond;
    double reach_ft; /**< a base end closer than this to a top's end does not count as beyond it; >
                        0 */

    cw_order_barrels mode;
    int first_barrel; /**< 0 or barrel_count-1: the side the setting starts from (the far one when
                         the near one would be in the way of the swing) */
    int barrel_lead;  /**< together: pieces an earlier barrel may be ahead of a later one; >= 1 */
    int barrel_lag;   /**< together: pieces a later barrel may be ahead of an earlier one; >= 0 */

    bool
        fill_between; /**< grout or flowable fill between neighbouring barrels; needs two barrels */
    int fill_segments;         /**< along each phase, between bulkheads; >= 1 */
    int fill_placements;       /**< one above the other in a segment; >= 1 */
    bool cure_before_backfill; /**< else the outer faces are backfilled in step with the rising fill
                                */

    int backfill_reaches;    /**< along each phase; >= 1 */
    int backfill_lifts;      /**< each side; >= 1 */
    int lift_difference_max; /**< lifts one side may be above the other; >= 1 */

    bool water;          /**< a stream or groundwater is held off while the work goes on */
    int hold_down_lifts; /**< with water: lifts on both sides that hold the boxes down before the pumps may stop; the first
                              is asked for at least; more than backfill_lifts: the cover as well */
} cw_order_run;

/** A run with the usual options and no barrels: two rows, lead 4, some base beyond by half a foot,
 * barrels together within 2, fill in 1 segment of 2 placements cured before backfill, 1 reach of 4
 * lifts, difference 1. common practice. */
cw_order_run cw_order_usual(void);

/** NULL when an order exists, else a sentence with place, value, limit and remedy (in @p arena). */
const char *cw_order_fault(const cw_order_run *run, cw_arena *arena);

typedef enum cw_step_kind {
    CW_STEP_PLAN_ACCEPTED,  /**< whole job */
    CW_STEP_MEETING,        /**< whole job */
    CW_STEP_SITE_CLEARED,   /**< whole job: utilities located, traffic and stream permits valid */
    CW_STEP_DIVERTED,       /**< phase: stream led round, water under the subgrade (only with water) */
    CW_STEP_SUBGRADE,       /**< barrel and phase */
    CW_STEP_BEDDING,        /**< under base index */
    CW_STEP_RECEIVED,       /**< piece row, index */
    CW_STEP_JOINT_SEALANT,  /**< joint between piece index-1 and index of the row */
    CW_STEP_WALLS_LEVELLED, /**< wall tops under top index */
    CW_STEP_SEAT_SEALANT,   /**< on the seat of top index */
    CW_STEP_SET,            /**< piece row, index */
    CW_STEP_RELEASED,       /**< piece row, index checked (with its joint), hook let go */
    CW_STEP_WRAPPED,   /**< joint of top (or one-piece box) index wrapped, its lift holes plugged */
    CW_STEP_GAP_READY, /**< segment index between barrel and barrel+1: bulkheads in, walls checked
                          for the head */
    CW_STEP_FILL,      /**< placement part of that segment */
    CW_STEP_FILL_SET,  /**< placement part has set */
    CW_STEP_FILL_CURED,   /**< segment strong enough for backfill and load */
    CW_STEP_BACKFILL,     /**< reach index, lift part, side */
    CW_STEP_COVER,        /**< reach index: cover measured, equipment may cross */
    CW_STEP_PUMPS_OFF,      /**< phase: pumps and diversion stopped (only with water) */
    CW_STEP_WALK_THROUGH, /**< phase */
    CW_STEP_PHASE_OPEN,   /**< phase open to traffic */
    CW_STEP_CLOSEOUT,     /**< whole job */
    CW_STEP_KINDS
} cw_step_kind;

typedef enum cw_stop {
    CW_STOP_NONE,    /**< work: nobody signs */
    CW_STOP_HOLD,    /**< work stops until it is signed */
    CW_STOP_WITNESS, /**< the inspector is called and may look */
    CW_STOP_RECORD   /**< written down */
} cw_stop;

typedef enum cw_side { CW_SIDE_NONE, CW_SIDE_LEFT, CW_SIDE_RIGHT } cw_side;

typedef struct cw_step {
    cw_step_kind kind;
    int barrel; /**< -1 when it is of no one barrel */
    cw_order_row row;
    int index; /**< piece, segment or reach counted from 0 at the outlet through all phases; -1 when
                  none */
    int part;  /**< placement or lift counted from 0; -1 when none */
    cw_side side;
    int phase;
    int point; /**< number in the table of stops, 0 when it has none */
    cw_stop stop;
} cw_step;

typedef enum cw_rule {
    CW_RULE_ACCEPTED_FIRST,
    CW_RULE_BEFORE_DIGGING,
    CW_RULE_SUBGRADE_FIRST,
    CW_RULE_BEDDING_FIRST,
    CW_RULE_INSPECTED_FIRST,
    CW_RULE_TONGUE_IN_GROOVE,
    CW_RULE_JOINT_RELEASED,
    CW_RULE_SEALANT_FIRST,
    CW_RULE_SEAT_LEVEL,
    CW_RULE_TWO_BASES_FIRST,
    CW_RULE_BASE_BEYOND_TOP,
    CW_RULE_LEAD_LIMIT,
    CW_RULE_BARREL_REACH,
    CW_RULE_BARREL_TURN,
    CW_RULE_LIDS_BEFORE_FILL,
    CW_RULE_GAP_READY,
    CW_RULE_SET_BEFORE_NEXT,
    CW_RULE_GAPS_BALANCED,
    CW_RULE_OUTER_FACES_IN_STEP,
    CW_RULE_CURE_BEFORE_BACKFILL,
    CW_RULE_CURE_BEFORE_LOAD,
    CW_RULE_TOPS_BEFORE_BACKFILL,
    CW_RULE_NEXT_TOP_ON,
    CW_RULE_LIFT_ON_LIFT,
    CW_RULE_SIDES_BALANCED,
    CW_RULE_COVER_BEFORE_CROSSING,
    CW_RULE_WALK_AFTER_BACKFILL,
    CW_RULE_OPEN_AFTER_WALK,
    CW_RULE_PHASE_OPEN,
    CW_RULE_CLOSEOUT_LAST,
    CW_RULE_WATER_DOWN,
    CW_RULE_HELD_DOWN,
    CW_RULES
} cw_rule;

typedef struct cw_rule_row {
    const char *id;       /**< stable: "tongue-in-groove" */
    const char *sentence; /**< for a superintendent */
    const char *source;   /**< publication, or "common practice" */
    bool progress; /**< it limits how far the work runs ahead; nothing rests on the earlier step, so
                      a piece may be lifted out without undoing what this rule alone ties to it */
} cw_rule_row;

/** The row of @p rule. */
const cw_rule_row *cw_rule_at(cw_rule rule);

/** A numbered stop of the installation plan. */
typedef struct cw_stop_row {
    int number;
    const char *words;
    cw_stop stop;
    bool owner;      /**< the owner's representative is usually there */
    bool each_shift; /**< comes back every shift: a daily check and no step of the order */
} cw_stop_row;

/** Stop @p number, from 1; NULL past the last. */
const cw_stop_row *cw_stop_at(int number);

/** "work", "hold", "witness", "record". */
const char *cw_stop_word(cw_stop stop);

/** What the step is, in a short imperative to which the caller adds the mark: "Set the base".
 * @p rows as in the run (one-piece boxes have other words). */
const char *cw_step_words(const cw_step *step, int rows);

typedef struct cw_need {
    int step; /**< this must be done first */
    cw_rule rule;
} cw_need;

/** The steps of one piece; -1 where it has none. */
typedef struct cw_piece_steps {
    int bedding, received, joint_sealant, walls_levelled, seat_sealant, set, released, wrapped;
} cw_piece_steps;

typedef struct cw_order_graph {
    const cw_step *steps;
    int step_count;
    const int *need_from; /**< step i needs needs[need_from[i]] .. needs[need_from[i+1]-1] */
    const cw_need *needs;
    int need_count;
    const int *follow_from; /**< the same edges from the other end */
    const cw_need *follows; /**< step: the one that waits */
    const int *sequence;    /**< all steps in the default order */
    const int *rank;        /**< place of each step in the default order */
    const cw_piece_steps *pieces[CW_ORDER_BARRELS_MAX][2]; /**< by barrel and row */
    int piece_count[CW_ORDER_BARRELS_MAX][2];
    int barrel_count, rows, phase_count;
    int segment_count, reach_count;                /**< through all phases */
    const double *segment_from_ft, *segment_to_ft; /**< NULL without fill */
    const double *reach_from_ft, *reach_to_ft;
} cw_order_graph;

/** All steps, needs and the default order.  Time and memory linear in steps and needs but for a
 * heap.
 * @pre cw_order_fault() is NULL. */
const cw_order_graph *cw_order_build(const cw_order_run *run, cw_arena *arena);

/* A state is an array of step_count flags, true = done. */

/** Steps that are not done and need nothing more, in default order, into @p steps (room for
 * step_count). */
int cw_order_next(const cw_order_graph *graph, const bool *done, int *steps);

/** Whether every prerequisite of @p step is done. */
bool cw_order_allows(const cw_order_graph *graph, const bool *done, int step);

/** Why not: the missing prerequisites of @p step, at most @p room of them; returns how many there
 * are. */
int cw_order_missing(const cw_order_graph *graph, const bool *done, int step, cw_need *missing,
                     int room);

/** A step that was done although a prerequisite was not. */
typedef struct cw_order_breach {
    int step, need;
    cw_rule rule;
} cw_order_breach;

/** All breaches of a recorded state, in default order of the step; at most @p room written; returns
 * how many there are. */
int cw_order_check(const cw_order_graph *graph, const bool *done, cw_order_breach *breaches,
                   int room);

typedef struct cw_order_piece {
    int barrel;
    cw_order_row row;
    int index;
} cw_order_piece;

/** What is wrong with a setting sequence of pieces. */
typedef struct cw_order_verdict {
    bool legal;    /**< every piece of it may be set where it stands */
    bool complete; /**< and it sets every piece */
    int at;        /**< first place that is wrong, -1 when legal */
    bool repeated; /**< the piece at that place was set before; no rule then */
    int breach_count;
    cw_order_breach breaches[8]; /**< what that piece waits for (set, released or phase open) */
} cw_order_verdict;

/** Check a piece-setting sequence; all other steps count as done as soon as they may be.
 * @pre every piece exists in the graph. */
cw_order_verdict cw_order_check_setting(const cw_order_graph *graph, const cw_order_piece *pieces,
                                        int count, cw_arena *arena);

typedef enum cw_lift_out {
    CW_LIFT_RESET = 0,    /**< the same piece goes back: new sealant, bedding looked at again */
    CW_LIFT_REJECTED = 1, /**< another piece comes: its inspection is undone too */
    CW_LIFT_KEEP_LIMITS =
        2 /**< also undo what only the progress rules tie to it, so that the state left is legal */
} cw_lift_out;

/** The done steps to undo when @p piece is lifted out, in the order of undoing, into @p undo (room
 * for step_count).
 * @p how is a sum of cw_lift_out values.  Without KEEP_LIMITS the state left may break progress
 * rules (and no other): cw_order_check() names them. */
int cw_order_lift_out(const cw_order_graph *graph, const bool *done, cw_order_piece piece,
                      unsigned how, int *undo, cw_arena *arena);

#endif
