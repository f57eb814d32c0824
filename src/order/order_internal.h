/** @file
 * What the order module works out of the run before it makes steps. */
#ifndef CW_ORDER_INTERNAL_H
#define CW_ORDER_INTERNAL_H

#include "cw/order.h"
#include "cw/units.h"

/** Two spans touch when they share more than this: 1/16 in, the grid on which pieces are laid out.
 */
#define CW_ORDER_TOUCH_FT (1.0 / CW_SIXTEENTHS_PER_FT)

typedef struct cw_order_barrel_plan {
    const int *phase[2];  /**< by row */
    const int *need_base; /**< by top: the base that must be released before it (reaches beyond it,
                             carries it) */
    const int *support;   /**< by top: the last base that carries it */
    const int *cover_top; /**< by base: the top that covers its upstream end */
    const cw_order_piece *sequence; /**< the barrel's own setting sequence with the least lead */
    int sequence_count;
    int phase_from[CW_ORDER_PHASES_MAX + 1]; /**< where each phase starts in the sequence */
    int least_lead;                          /**< lead limit below which no sequence exists */
} cw_order_barrel_plan;

typedef struct cw_order_plan {
    cw_order_barrel_plan barrels[CW_ORDER_BARRELS_MAX];
    int rank_barrel[CW_ORDER_BARRELS_MAX]; /**< barrels in the order of setting */
    int phase_count;
    double phase_end_ft[CW_ORDER_PHASES_MAX]; /**< how far fill and backfill of the phase go */
} cw_order_plan;

/** The row that closes the box: tops, or the boxes themselves. */
cw_order_row cw_order_closing_row(const cw_order_run *run);
const cw_order_line *cw_order_line_of(const cw_order_barrel *barrel, cw_order_row row);

/** The last base that must stand before @p top: one beyond it, and the second base in any case. */
int cw_order_last_base_for(const cw_order_run *run, const cw_order_barrel_plan *plan, int barrel,
                           int top);

/** Work out the plan of a run whose counts, stations and base phases are sound. */
cw_order_plan cw_order_plan_make(const cw_order_run *run, cw_arena *arena);

/** The stop of a kind of step, and its number in the table of stops. */
cw_stop cw_order_kind_stop(cw_step_kind kind);
int cw_order_kind_point(cw_step_kind kind);

/** A graph under construction. */
typedef struct cw_order_builder {
    const cw_order_run *run;
    const cw_order_plan *plan;
    cw_arena *arena;
    cw_step *steps;
    int step_count, step_room;
    struct cw_order_edge {
        int step, need;
        cw_rule rule;
    } * edges;
    int edge_count, edge_room;
    bool *has_peer; /**< by step: it needs a step of its own phase */
    cw_piece_steps *pieces[CW_ORDER_BARRELS_MAX][2];
    int accepted, meeting, cleared, closeout;
    int subgrade[CW_ORDER_BARRELS_MAX][CW_ORDER_PHASES_MAX];
    int diverted[CW_ORDER_PHASES_MAX], pumps_off[CW_ORDER_PHASES_MAX]; /**< only with water */
    int walk[CW_ORDER_PHASES_MAX], open[CW_ORDER_PHASES_MAX];
    int segment_count, reach_count;
    double *segment_from_ft, *segment_to_ft, *reach_from_ft, *reach_to_ft;
    int *segment_phase, *reach_phase;
    int *fill;     /**< first step of each segment and gap; see cw_order_fill_at() */
    int *backfill; /**< first step of each reach */
} cw_order_builder;

int cw_order_add_step(cw_order_builder *builder, cw_step step);
void cw_order_add_need(cw_order_builder *builder, int step, int need, cw_rule rule);

/* Steps of segment s in the gap left of barrel g+1, and of reach r, are found by their place after
 * the first. */
int cw_order_ready_at(const cw_order_builder *builder, int segment, int gap);
int cw_order_fill_at(const cw_order_builder *builder, int segment, int gap, int placement);
int cw_order_fill_set_at(const cw_order_builder *builder, int segment, int gap, int placement);
int cw_order_cured_at(const cw_order_builder *builder, int segment, int gap);
int cw_order_backfill_at(const cw_order_builder *builder, int reach, int lift, cw_side side);
int cw_order_cover_at(const cw_order_builder *builder, int reach);

void cw_order_add_setting_needs(cw_order_builder *builder);
void cw_order_add_barrel_needs(cw_order_builder *builder);
void cw_order_add_closing_needs(cw_order_builder *builder);
void cw_order_add_water_needs(cw_order_builder *builder);

/** Fill graph->sequence and graph->rank. */
void cw_order_arrange(const cw_order_run *run, const cw_order_plan *plan, cw_order_graph *graph,
                      cw_arena *arena);

#endif
