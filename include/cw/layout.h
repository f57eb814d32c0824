/** @file
 * Dividing the run into pieces: the exact least-cost layout of all barrels together.
 *
 * All positions and lengths here are whole sixteenths of an inch along the slope, measured from the
 * outlet face (s = 0) upstream; a piece's laying length runs from shoulder to shoulder and does not
 * count its tongue.  docs/handbook/layout.md states the model and proves that the answer is the
 * optimum. Pure; takes memory only from the arena. */
#ifndef CW_LAYOUT_H
#define CW_LAYOUT_H

#include <stdbool.h>

#include "cw/arena.h"

enum {
    CW_LAYOUT_BARRELS_MAX = 12,
    CW_LAYOUT_ITEMS_MAX = 16,   /**< catalogue items of one row */
    CW_LAYOUT_SETUPS_MAX = 12,  /**< distinct mould set-ups of the whole problem */
    CW_LAYOUT_PIECES_MAX = 512, /**< pieces of one row of one barrel */
    CW_LAYOUT_KEPT = 3,         /**< different layouts reported */
    CW_LAYOUT_TIES_MAX = 16     /**< tied multisets listed */
};

/** Where in its row an item may stand (bit set).  A piece that is both first and last needs both
 * bits. */
enum { CW_AT_FIRST = 1, CW_AT_INNER = 2, CW_AT_LAST = 4, CW_AT_ANY = 7 };

/** One kind of piece that may be cast. */
typedef struct cw_layout_item {
    int length_16;     /**< laying length; > 0 */
    unsigned at;       /**< CW_AT_... bits */
    double extra_cost; /**< added to the cost of one pick; >= 0 */
    double weight_lb;  /**< as lifted; > 0 */
    int setup;         /**< mould set-up, 0 .. setup_count-1; items with one number share a mould */
} cw_layout_item;

/** No joint gap may meet the open interval (from, to): an opening with its clearance. */
typedef struct cw_layout_keep_clear {
    int from_16, to_16;
    int id; /**< caller's number, given back in a blocking report */
} cw_layout_keep_clear;

/** The middle of some joint gap must lie within at +- within: a phase line or a bend. */
typedef struct cw_layout_must_joint {
    int at_16, within_16;
    int id;
} cw_layout_must_joint;

/** A piece whose upstream end lies beyond @c beyond_16 must not weigh more than @c weight_lb (crane
 * reach falls off with station; beyond 0 is the limit everywhere).  The least applying limit
 * counts. */
typedef struct cw_layout_weight_limit {
    int beyond_16;
    double weight_lb;
} cw_layout_weight_limit;

/** One row (bases, or tops) of one barrel. */
typedef struct cw_layout_row {
    const cw_layout_item *items;
    int item_count;
    const cw_layout_keep_clear *keep_clear;
    int keep_clear_count;
    const cw_layout_must_joint *must_joint;
    int must_joint_count;
    const cw_layout_weight_limit *limits;
    int limit_count;
} cw_layout_row;

typedef struct cw_layout_barrel {
    int length_16; /**< wanted end of the last piece */
    int over_16;   /**< it may also end anywhere up to so far past it; >= 0.  The tolerance counts
                      beyond both ends   of this place */
    cw_layout_row base, top; /**< top is ignored for CW_ROWS_ONE */
} cw_layout_barrel;

typedef enum cw_layout_rows {
    CW_ROWS_ONE,      /**< one row (ring) */
    CW_ROWS_ALIGNED,  /**< base and top have the same cut list: item i of the top row is the mate of
                         item i of the  base row and has the same length and the same @c at; both
                         rows' windows and limits count */
    CW_ROWS_STAGGERED /**< every base joint is at least stagger_16 from every top joint (start to
                         start, ends exempt) */
} cw_layout_rows;

typedef enum cw_gap_mode {
    CW_GAP_GRID, /**< one uniform gap per barrel on the 1/16 in grid (a gauge or spacer can hold it)
                  */
    CW_GAP_CONTINUOUS /**< any uniform gap in the band: the design gap when the run then ends in its
                         place, else the one that just brings it there, else (within the tolerance)
                         the limit of the band.  Not for staggered rows: one fractional gap cannot
                         close two rows exactly */
} cw_gap_mode;

typedef struct cw_layout_problem {
    const cw_layout_barrel *barrels;
    int barrel_count;
    int setup_count;
    cw_layout_rows rows;
    int stagger_16;
    int ends_apart_16; /**< staggered rows: the last base and the last top may end so far apart; >=
                          0. Not looked at otherwise */
    cw_gap_mode gap_mode;
    int gap_min_16, gap_max_16, gap_design_16; /**< min <= design <= max, min >= 0 */
    int tolerance_16;                          /**< the end may miss its place by this much; >= 0 */
    int max_setups; /**< at most so many distinct set-ups; 1 .. CW_LAYOUT_SETUPS_MAX */
    double
        piece_cost; /**< c_p, each piece set.  Costs in dollars, 0 to 1e6, counted to 1e-5 dollar */
    double length_cost; /**< c_len, each foot of laying length */
    double joint_cost;  /**< c_j, each joint */
    double setup_cost;  /**< c_m, each distinct set-up over all barrels */
    double gap_cost; /**< c_g, each joint and 1/16 in. that the gap differs from the design gap */
} cw_layout_problem;

typedef struct cw_layout_cut {
    const int *items; /**< item of each piece, from the outlet */
    int count;
    const double *start_16; /**< start of each piece; whole numbers in grid mode */
} cw_layout_cut;

typedef struct cw_layout_barrel_answer {
    cw_layout_cut base, top; /**< top.count 0 for CW_ROWS_ONE; same as base when aligned */
    double gap_16;           /**< uniform gap; the design gap when there is no joint */
    double end_16;           /**< upstream face of the last piece of the base row */
} cw_layout_barrel_answer;

typedef struct cw_layout_solution {
    double cost;
    unsigned setups; /**< bit set of set-ups used */
    int setup_count;
    const cw_layout_barrel_answer *barrels;
} cw_layout_solution;

/** What stands in the way when there is no layout.  Each is tried alone, on one barrel by itself
 * (of equal barrels the first), so several barrels may each need one.  Only when every barrel could
 * be laid by itself do the shared set-ups block, and then @c barrel is -1.  @c id is 0 where no
 * kind below gives it a meaning.  The search for them is bounded: a relaxation that it could not
 * show to admit a layout is not named, and one whose least amount it did not reach is rough; then
 * @c blocks_cut is set.  The end and the gap band are named only with their exact amount. */
typedef enum cw_layout_block_kind {
    CW_BLOCK_GAP_BAND, /**< amount: least change of the band (in 1/16 in, up to 64) that admits a
                          layout; negative below min */
    CW_BLOCK_END, /**< amount: how far (1/16 in, signed) past length_16 the nearest reachable run
                     ends, within one piece of it */
    CW_BLOCK_KEEP_CLEAR, /**< id names the window; amount: how much narrower (1/16 in, taken from
                            one side) it must be, 0 if only dropping it admits a layout */
    CW_BLOCK_MUST_JOINT, /**< id names the joint; amount: least extra tolerance (1/16 in) */
    CW_BLOCK_WEIGHT,     /**< amount: least extra lb on every limit of the barrel */
    CW_BLOCK_ENDS_APART, /**< amount: least distance of the ends (1/16 in) that admits a layout */
    CW_BLOCK_STAGGER,    /**< amount: the largest stagger (1/16 in) that admits a layout */
    CW_BLOCK_SETUPS      /**< amount: set-ups needed */
} cw_layout_block_kind;

typedef struct cw_layout_block {
    cw_layout_block_kind kind;
    int barrel;
    int id;
    double amount;
    bool rough; /**< the amount admits a layout, but a smaller change may do too */
} cw_layout_block;

enum { CW_LAYOUT_BLOCKS_MAX = 16 };

typedef struct cw_layout_answer {
    bool found;
    /** The best, and up to two more that differ in the multiset of pieces of some barrel, by cost
     * then tie rules. Equal barrels that exchange their layouts make no new one. */
    cw_layout_solution best[CW_LAYOUT_KEPT];
    int kept;
    /** Other solutions whose cost equals the best's to 1e-9 relative (multisets differ); best[0]
     * was chosen among them by the tie rules: least |gap - design|, fewest pieces, longest shortest
     * piece, largest pieces first from the outlet. */
    cw_layout_solution ties[CW_LAYOUT_TIES_MAX];
    int tie_count;
    bool more_ties;                               /**< the list is cut at CW_LAYOUT_TIES_MAX */
    cw_layout_block blocks[CW_LAYOUT_BLOCKS_MAX]; /**< when not found: every single relaxation that
                                                     alone would admit one */
    int block_count;
    bool blocks_cut; /**< some relaxation was not tried to the end: it may admit a layout too */
    long states;     /**< states settled, for the benchmark */
} cw_layout_answer;

/** NULL when the problem is well formed, else a sentence that says what is not (programming faults
 * and limits of this header only). */
const char *cw_layout_fault(const cw_layout_problem *problem);

/** Solve.  @pre cw_layout_fault() is NULL. */
cw_layout_answer cw_layout_solve(const cw_layout_problem *problem, cw_arena *arena);

#endif
