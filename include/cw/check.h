/** @file
 * One row of the ledger: an engineering check and how it came out. */
#ifndef CW_CHECK_H
#define CW_CHECK_H

#include <stdbool.h>

#include "cw/arena.h"
#include "cw/quantity.h"

typedef enum cw_verdict { CW_HOLDS = 0, CW_FAILS, CW_UNDECIDED } cw_verdict;

typedef struct cw_check {
    const char *id;      /**< stable, "layout.gap", unique with @c where */
    const char *what;    /**< "Design gap within the joint's limits" */
    const char *where;   /**< piece, joint, step or station: "joint B1-7", "sta 0+12.00"; "" for the whole job */
    bool has_numbers;    /**< demand and capacity mean something */
    double demand, capacity; /**< demand <= capacity holds, unless at_least */
    bool at_least;       /**< the check is demand >= capacity */
    cw_dim dim;
    double ratio;        /**< demand/capacity, or capacity/demand when at_least; 0 when neither can be formed (levels, places) */
    const char *clause;  /**< source and clause of the limit */
    cw_verdict verdict;
    const char *rests_on; /**< ids of assumption rows, comma separated, or "" */
    const char *mend;    /**< what would mend it, or "" */
    const char *working; /**< title of the working that shows it, or NULL */
} cw_check;

typedef struct cw_checks {
    cw_arena *arena;
    cw_check *items;
    int count, capacity;
} cw_checks;

cw_checks cw_checks_on(cw_arena *arena);

/** Add @p check as it is and return it for further filling. */
cw_check *cw_check_add(cw_checks *checks, cw_check check);

/** Set ratio and verdict of a check with numbers by cw_meets(). */
void cw_check_judge(cw_check *check);

/** "holds", "fails", "undecided", NULL: the words of cw_verdict, for CHOICE fields. */
extern const char *const cw_verdict_words[];

/** One of them. */
const char *cw_verdict_word(cw_verdict verdict);

/** The worst verdict: fails before undecided before holds.  An empty ledger holds. */
cw_verdict cw_checks_worst(const cw_checks *checks);

#endif
