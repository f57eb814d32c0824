/** @file
 * What the parts of the layout engine share: layout.c (entry, model), layout_gap.c (which gaps to
 * try), layout_count.c (which numbers of pieces), layout_row.c (graph of one row), layout_pair.c
 * (graph of two staggered rows), layout_stand.c (whether these can be laid at all), layout_kbest.c
 * (best different multisets), layout_subsets.c (set-ups over all barrels), layout_block.c (why
 * there is none). */
#ifndef CW_LAYOUT_INTERNAL_H
#define CW_LAYOUT_INTERNAL_H

#include <stdbool.h>
#include <stdint.h>

#include "cw/layout.h"

/** Costs are whole numbers of 1e-5 dollar / 192, so that money to the mill and a price per foot
 * times whole sixteenths are exact, sums do not depend on their order and a tie is a tie. */
typedef int64_t layout_cost;

enum {
    LIST_MAX = CW_LAYOUT_TIES_MAX +
               2,    /**< the best, the ties listed, and one more to know the list is cut */
    COUNT_BITS = 10, /**< holds CW_LAYOUT_PIECES_MAX */
    COUNTS_PER_WORD = 6,
    KEY_WORDS = (2 * CW_LAYOUT_ITEMS_MAX + COUNTS_PER_WORD - 1) / COUNTS_PER_WORD,
    FITS_KEPT = 64,
    COUNT_TABLE = 2 * CW_LAYOUT_PIECES_MAX,
    SETS = CW_LAYOUT_ITEMS_MAX + 7,
    TRACK_SHIFT = 4, /**< a step of a sequence is item | track << TRACK_SHIFT */
    ITEM_MASK = (1 << TRACK_SHIFT) - 1,
    NO_NODE = -1,
    DONE = -2 /**< the arc that completes the barrel */
};
_Static_assert(CW_LAYOUT_PIECES_MAX < (1 << COUNT_BITS), "counts must fit the packed key");
_Static_assert(CW_LAYOUT_ITEMS_MAX <= (1 << TRACK_SHIFT), "items must fit a step");

#define COST_NONE (INT64_MAX / 4)

/** A decision at one position: one item, or base and mate together when the rows are aligned. */
typedef struct layout_piece {
    int item, length_16;
    int end_max_16; /**< its upstream end may not lie beyond: what the weight limits leave */
    unsigned at, setups;
    layout_cost pick;
} layout_piece;

/** A row that is cut on its own; aligned rows are one track. */
typedef struct layout_track {
    layout_piece pieces[CW_LAYOUT_ITEMS_MAX];
    int count;
    cw_layout_keep_clear *clear;
    int clear_count;
    cw_layout_must_joint *must;
    int must_count;
} layout_track;

typedef struct layout_run {
    layout_track tracks[2];
    int track_count;
    int place_lo_16, place_hi_16; /**< where the run should end; it may miss by the tolerance */
    int tolerance_16;
} layout_run;

typedef struct layout_rules {
    cw_gap_mode mode;
    int gap_min_16, gap_max_16, gap_design_16;
    int stagger_16, ends_apart_16;
    int max_setups;
    layout_cost length; /**< price of one sixteenth of length of one track; part of every pick */
    layout_cost joint;  /**< one joint of one track */
    layout_cost gap;    /**< and for each 1/16 in off the design gap */
    layout_cost setup;
} layout_rules;

/** One gap to try.  Positions of the search are in 1/scale of a sixteenth, so that a fractional gap
 * is whole. */
typedef struct layout_gap {
    int scale, spread;  /**< gap = spread / scale */
    int end_lo, end_hi; /**< scaled */
    bool single;        /**< only the barrel of one piece */
    layout_cost joint;  /**< with the cost of being off the design gap */
    layout_cost bound;  /**< no layout with this gap costs less */
    int fewest;         /**< nor has fewer pieces, both tracks counted */
    double off_16;      /**< |gap - design| */
} layout_gap;

/** Which numbers of pieces can end in place with a gap, from the lattice of their lengths alone. */
typedef struct layout_fits {
    int lattice, less, rest, width; /**< what it was made for; lattice 0 when empty */
    int period;                     /**< numbers that differ by it end alike */
    bool repeats; /**< false: the period is longer than any layout, the table goes by the number
                     itself */
    short wait[COUNT_TABLE]; /**< pieces to add to this number before the next that fits */
} layout_fits;

/** What a row of some pieces with some gap must still cost, from the number of pieces to come. */
typedef struct layout_counts {
    const layout_fits *fits;
    int least_step, most_step; /**< piece and gap, scaled */
    layout_cost handling; /**< least cost of a piece and a joint beyond the price of its length */
    double per_length;    /**< price of a scaled sixteenth */
} layout_counts;

/** The pieces that one subset of the set-ups allows. */
typedef struct layout_choice {
    const layout_run *run;
    layout_piece pieces[2][CW_LAYOUT_ITEMS_MAX];
    int count[2];
} layout_choice;

/** Acyclic graph of part-laid barrels, nodes in an order that no arc goes against.
 * to[(node * 2 + last) * stride + choice index]: the node after that piece, NO_NODE or DONE. */
typedef struct layout_graph {
    int count, capacity, stride;
    short *laid; /**< pieces laid, up to a multiple of the period of layout_counts (one row only) */
    int *position;      /**< start of the next piece, scaled (one row only) */
    layout_cost *reach; /**< least cost from the outlet */
    layout_cost *rest;  /**< least cost to the end (one row only) */
    unsigned char *track;
    int *to;
    int to_capacity;
} layout_graph;

/** One of the best ways to finish from a node.  Its multiset, the packed counts of its pieces, stands
 * in solver->label_keys. */
typedef struct layout_label {
    layout_cost cost;
    int next; /**< label that follows, NO_NODE after the last piece */
    int to;   /**< node that the label after this one belongs to, DONE after the last piece */
    int shortest_16;
    short pieces;
    unsigned char step;
    unsigned char turn; /**< place among the labels of its node by the order of the pieces alone */
} layout_label;

/** A finished barrel. */
typedef struct layout_entry {
    layout_cost cost; /**< without set-ups */
    uint64_t key[KEY_WORDS]; /**< packed counts of the pieces of the choice: the multiset, exactly */
    double off_16;           /**< 0 without a joint */
    int scale, spread;
    int pieces, shortest_16;
    unsigned setups;
    unsigned char
        steps[2 * CW_LAYOUT_PIECES_MAX]; /**< in the order laid: the row that lags goes on */
} layout_entry;

typedef struct layout_list {
    layout_entry entries[LIST_MAX];
    int count;
} layout_list;

typedef struct layout_pending {
    uint64_t key;
    layout_cost reach;
    int from, slot;
} layout_pending;

typedef struct layout_solver {
    cw_arena *arena;
    layout_rules rules;
    layout_counts counts;        /**< of the row in hand */
    layout_fits fits[FITS_KEPT]; /**< made before; the place follows from what it is made for */
    layout_graph rows[2], pair;
    layout_pending *heap;
    int heap_count, heap_capacity;
    layout_label *labels;
    int label_count, label_capacity;
    uint64_t *label_keys; /**< for each label the words of its multiset */
    int key_capacity;
    int *first_label, *last_label; /**< of each node: first, and one past the last */
    int node_capacity;
    layout_gap *gaps;
    int gap_count, gap_capacity;
    uint64_t
        *sums[2]; /**< sets of total lengths in lattice steps, for so many pieces and one more */
    int sum_capacity; /**< words of each */
    bool *marks[2];   /**< ends that each row may have */
    int mark_capacity[2];
    uint64_t *sets[SETS]; /**< sets of places of layout_stand.c */
    int set_capacity[SETS];
    int wanted;         /**< different multisets to keep in every list, at most LIST_MAX */
    layout_cost pruned; /**< least bound of what a ceiling cut off since this was reset; COST_NONE
                           for nothing */
    long pairs;      /**< nodes of pair graphs made */
    long pairs_most; /**< beyond these a pair graph is given up, ... */
    bool pairs_cut;  /**< ... which stands here: its ceiling was too high to be worth it */
    long states;
    long states_most; /**< beyond these cw_layout_stands() gives up, ... */
    bool cut_short;   /**< ... and says so here */
} layout_solver;

/** Grow an arena array to at least @p need items, keeping @p used. */
void *cw_layout_room(cw_arena *arena, void *old, int used, int need, int *capacity, size_t size);

/** The pieces of @p run whose set-ups all lie in @p setups. */
layout_choice cw_layout_choose(const layout_run *run, unsigned setups);

/** No layout of this choice costs less, whatever the gap; COST_NONE when a track has nothing to
 * begin or end with. */
layout_cost cw_layout_floor(const layout_rules *rules, const layout_choice *choice);

/** The same for one track. */
layout_cost cw_layout_track_floor(const layout_rules *rules, const layout_choice *choice,
                                  int track);

/** Greatest common divisor of the lengths, in sixteenths. */
int cw_layout_lattice(const layout_piece *pieces, int count);

/** Set solver->counts for the row and gap. */
void cw_layout_count(layout_solver *solver, const layout_piece *pieces, int count,
                     const layout_gap *gap);

/** No way to finish from @p position with @p laid pieces before it has fewer pieces; 0 when there is
 * none. */
int cw_layout_count_fewest(const layout_counts *counts, const layout_gap *gap, int laid,
                           int position);

/** No way to finish from @p position with @p laid pieces before it costs less; COST_NONE when there
 * is none. */
layout_cost cw_layout_count_bound(const layout_counts *counts, const layout_gap *gap, int laid,
                                  int position);

/** Fill solver->gaps with every gap worth trying whose bound is at most @p ceiling.  Where both
 * rows may overrun their place but must end together, each gap comes once for each place of the
 * ends; @p whole leaves these together. */
void cw_layout_gaps(layout_solver *solver, const layout_choice *choice, layout_cost ceiling,
                    bool whole);

/** Graph of one track into solver->rows[track]; layouts that with @p elsewhere exceed @p ceiling
 * are cut. Gives the least complete cost of the track (without @p elsewhere), COST_NONE when there
 * is none. */
layout_cost cw_layout_row_graph(layout_solver *solver, const layout_choice *choice, int track,
                                const layout_gap *gap, layout_cost elsewhere, layout_cost ceiling);

/** Looks a short while for a layout of one track that costs no more than gap->bound; its cost, which
 * then is the least with this gap, or COST_NONE when none was met. */
layout_cost cw_layout_probe(layout_solver *solver, const layout_choice *choice,
                            const layout_gap *gap);

/** Least cost to the end of every node of a row, without looking at the other row. */
void cw_layout_fill_rest(layout_graph *graph, const layout_piece *pieces, layout_cost joint);

/** True when two staggered tracks can be laid with this gap, at whatever cost. */
bool cw_layout_pair_stands(layout_solver *solver, const layout_choice *choice,
                           const layout_gap *gap);

/** Graph of two staggered tracks into solver->pair; least complete cost or COST_NONE.  Not whole when
 * solver->pairs_cut is set. */
layout_cost cw_layout_pair_graph(layout_solver *solver, const layout_choice *choice,
                                 const layout_gap *gap, layout_cost ceiling);

/** How many pairs the first search may make before it is given up for a lower ceiling. */
enum { PAIRS_FIRST = 100000 };

/** Let the pair graphs that follow make @p room nodes in all. */
void cw_layout_limit_pairs(layout_solver *solver, long room);

/** How many the next search may make, when one with @p room made so many; one that was given up made
 * all of its room. */
long cw_layout_pairs_next(long room, long made);

/** End of that; whether a graph was given up. */
bool cw_layout_pairs_were_cut(layout_solver *solver);

/** Graph of the barrel with this gap, one or two tracks; least complete cost or COST_NONE. */
layout_cost cw_layout_search(layout_solver *solver, const layout_choice *choice,
                             const layout_gap *gap, layout_cost ceiling);

/** Least cost of the barrel over all gaps, or COST_NONE when every layout costs more than @p
 * ceiling. */
layout_cost cw_layout_least(layout_solver *solver, const layout_choice *choice,
                            layout_cost ceiling);

/** True when the barrel can be laid with some gap, at whatever cost; false too, and
 * solver->cut_short, when the states allowed are used up. */
bool cw_layout_stands(layout_solver *solver, const layout_choice *choice);

/** The best solver->wanted layouts with different multisets that cost at most @p ceiling. */
void cw_layout_kbest(layout_solver *solver, const layout_choice *choice, layout_cost ceiling,
                     layout_list *list);

/** Order of two finished barrels by cost, then the tie rules; 0 only for the same sequence and gap.
 */
int cw_layout_compare(const layout_run *run, const layout_entry *a, const layout_entry *b);

/** Order by the last tie rule only: larger pieces first from the outlet. */
int cw_layout_compare_order(const layout_run *run, const layout_entry *a, const layout_entry *b);

/** The barrels of a problem, equal ones once. */
typedef struct layout_family {
    const layout_run *kind[CW_LAYOUT_BARRELS_MAX];
    int kind_count;
    int of_barrel[CW_LAYOUT_BARRELS_MAX]; /**< kind of each barrel */
    int times[CW_LAYOUT_BARRELS_MAX];     /**< barrels of each kind */
    int barrel_count;
} layout_family;

/** A finished problem: entries[b] is barrel b. */
typedef struct layout_whole {
    layout_cost cost; /**< with set-ups */
    double off_16;    /**< summed over the barrels */
    int pieces, shortest_16;
    unsigned setups;
    layout_entry *entries;
} layout_whole;

typedef struct layout_outcome {
    layout_whole wholes[LIST_MAX]; /**< best first */
    int count;
} layout_outcome;

/** Least cost of all barrels together, COST_NONE when there is no layout. */
layout_cost cw_layout_whole_least(layout_solver *solver, const layout_family *family);

/** The best LIST_MAX layouts of all barrels together. */
void cw_layout_wholes(layout_solver *solver, const layout_family *family, layout_outcome *outcome);

/** Set-ups that some piece of the run needs. */
unsigned cw_layout_setups_of(const layout_run *run);

int cw_layout_popcount(unsigned bits);

/** Find the single relaxations that would admit a layout; one barrel of each kind is looked at. */
void cw_layout_find_blocks(layout_solver *solver, const cw_layout_problem *problem,
                           const layout_family *family, cw_layout_answer *answer);

/** Barrels, positions and cost of one whole, for the caller. */
cw_layout_solution cw_layout_write(const cw_layout_problem *problem, const layout_whole *whole,
                                   cw_arena *arena);

/** The run of one barrel in the terms of the engine. */
layout_run cw_layout_run_of(const cw_layout_problem *problem, int barrel, cw_arena *arena);

layout_rules cw_layout_rules_of(const cw_layout_problem *problem);

#endif
