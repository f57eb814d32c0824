/* Makes the steps and gathers the needs into arrays by step. */
#include "order_internal.h"

#include <assert.h>
#include <stddef.h>

int cw_order_add_step(cw_order_builder *b, cw_step step)
{
    if (b->step_count == b->step_room) {
        b->step_room = b->step_room > 0 ? b->step_room * 2 : 256;
        b->steps = cw_arena_grow(b->arena, b->steps, (size_t)b->step_count, (size_t)b->step_room,
                                 sizeof *b->steps);
        b->has_peer = cw_arena_grow(b->arena, b->has_peer, (size_t)b->step_count,
                                    (size_t)b->step_room, sizeof *b->has_peer);
    }
    step.stop = cw_order_kind_stop(step.kind);
    step.point = cw_order_kind_point(step.kind);
    const bool first_piece = step.row == CW_ORDER_BASE && step.index == 0;
    if (step.kind == CW_STEP_RELEASED && first_piece)
        step.point--; // the first piece has a stop of its own, for line, grade and square
    b->steps[b->step_count] = step;
    return b->step_count++;
}

void cw_order_add_need(cw_order_builder *b, int step, int need, cw_rule rule)
{
    assert(step >= 0 && step < b->step_count && need >= 0 && need < b->step_count);
    if (b->edge_count == b->edge_room) {
        b->edge_room = b->edge_room > 0 ? b->edge_room * 2 : 1024;
        b->edges = cw_arena_grow(b->arena, b->edges, (size_t)b->edge_count, (size_t)b->edge_room,
                                 sizeof *b->edges);
    }
    b->edges[b->edge_count].step = step;
    b->edges[b->edge_count].need = need;
    b->edges[b->edge_count].rule = rule;
    b->edge_count++;
    if (b->steps[step].phase == b->steps[need].phase)
        b->has_peer[step] = true;
}

static int job_step(cw_order_builder *b, cw_step_kind kind, int barrel, int phase)
{
    return cw_order_add_step(
        b, (cw_step){.kind = kind, .barrel = barrel, .index = -1, .part = -1, .phase = phase});
}

static void add_site_steps(cw_order_builder *b)
{
    b->accepted = job_step(b, CW_STEP_PLAN_ACCEPTED, -1, 0);
    b->meeting = job_step(b, CW_STEP_MEETING, -1, 0);
    b->cleared = job_step(b, CW_STEP_SITE_CLEARED, -1, 0);
    for (int p = 0; p < b->plan->phase_count; p++) {
        if (b->run->water)
            b->diverted[p] = job_step(b, CW_STEP_DIVERTED, -1, p);
        for (int barrel = 0; barrel < b->run->barrel_count; barrel++)
            b->subgrade[barrel][p] = job_step(b, CW_STEP_SUBGRADE, barrel, p);
    }
}

static cw_piece_steps add_piece_steps(cw_order_builder *b, cw_order_piece piece)
{
    const bool top = piece.row == CW_ORDER_TOP;
    cw_step step = {.barrel = piece.barrel, .row = piece.row, .index = piece.index, .part = -1};
    step.phase = b->plan->barrels[piece.barrel].phase[piece.row][piece.index];
    const struct {
        cw_step_kind kind;
        bool wanted;
    } kinds[] = {
        {CW_STEP_RECEIVED, true},
        {CW_STEP_BEDDING, !top},
        {CW_STEP_WALLS_LEVELLED, top},
        {CW_STEP_SEAT_SEALANT, top},
        {CW_STEP_JOINT_SEALANT, piece.index > 0},
        {CW_STEP_SET, true},
        {CW_STEP_RELEASED, true},
        {CW_STEP_WRAPPED, piece.row == cw_order_closing_row(b->run)},
    };
    int ids[CW_STEP_KINDS];
    for (size_t i = 0; i < sizeof kinds / sizeof *kinds; i++) {
        step.kind = kinds[i].kind;
        ids[step.kind] = kinds[i].wanted ? cw_order_add_step(b, step) : -1;
    }
    return (cw_piece_steps){
        .bedding = ids[CW_STEP_BEDDING],
        .received = ids[CW_STEP_RECEIVED],
        .joint_sealant = ids[CW_STEP_JOINT_SEALANT],
        .walls_levelled = ids[CW_STEP_WALLS_LEVELLED],
        .seat_sealant = ids[CW_STEP_SEAT_SEALANT],
        .set = ids[CW_STEP_SET],
        .released = ids[CW_STEP_RELEASED],
        .wrapped = ids[CW_STEP_WRAPPED],
    };
}

static void add_setting_steps(cw_order_builder *b)
{
    for (int barrel = 0; barrel < b->run->barrel_count; barrel++) {
        for (int row = 0; row < b->run->rows; row++) {
            const int count = cw_order_line_of(&b->run->barrels[barrel], (cw_order_row)row)->count;
            cw_piece_steps *pieces = CW_TAKE(b->arena, cw_piece_steps, count);
            for (int i = 0; i < count; i++)
                pieces[i] = add_piece_steps(b, (cw_order_piece){barrel, (cw_order_row)row, i});
            b->pieces[barrel][row] = pieces;
        }
    }
}

/* A phase is cut into @p each equal parts. */
static int cut_phases(const cw_order_builder *b, int each, double **from_ft, double **to_ft,
                      int **phase)
{
    const int count = each * b->plan->phase_count;
    *from_ft = CW_TAKE(b->arena, double, count);
    *to_ft = CW_TAKE(b->arena, double, count);
    *phase = CW_TAKE(b->arena, int, count);
    for (int i = 0; i < count; i++) {
        const int p = i / each, part = i % each;
        const double low_ft = p > 0 ? b->plan->phase_end_ft[p - 1] : 0.0;
        const double length_ft = b->plan->phase_end_ft[p] - low_ft;
        (*from_ft)[i] = low_ft + length_ft * part / each;
        (*to_ft)[i] = low_ft + length_ft * (part + 1) / each;
        (*phase)[i] = p;
    }
    return count;
}

/* Gap by gap within each kind and placement, so that the numbers rise as the fill does. */
static void add_fill_steps(cw_order_builder *b)
{
    if (!b->run->fill_between)
        return;
    b->segment_count = cut_phases(b, b->run->fill_segments, &b->segment_from_ft, &b->segment_to_ft,
                                  &b->segment_phase);
    assert(b->segment_phase);
    b->fill = CW_TAKE(b->arena, int, b->segment_count);
    const int layers = 2 * b->run->fill_placements + 2, gaps = b->run->barrel_count - 1;
    for (int s = 0; s < b->segment_count; s++) {
        b->fill[s] = b->step_count;
        for (int layer = 0; layer < layers; layer++) {
            cw_step step = {.kind = layer % 2 == 1 ? CW_STEP_FILL : CW_STEP_FILL_SET,
                            .index = s,
                            .part = (layer - 1) / 2,
                            .phase = b->segment_phase[s]};
            if (layer == 0 || layer == layers - 1) {
                step.kind = layer == 0 ? CW_STEP_GAP_READY : CW_STEP_FILL_CURED;
                step.part = -1;
            }
            for (step.barrel = 0; step.barrel < gaps; step.barrel++)
                cw_order_add_step(b, step);
        }
    }
}

/* Layers: ready, fill 0, set 0, fill 1, set 1, ..., cured. */
static int fill_layer_at(const cw_order_builder *b, int segment, int gap, int layer)
{
    return b->fill[segment] + layer * (b->run->barrel_count - 1) + gap;
}

int cw_order_ready_at(const cw_order_builder *b, int segment, int gap)
{
    return fill_layer_at(b, segment, gap, 0);
}

int cw_order_fill_at(const cw_order_builder *b, int segment, int gap, int placement)
{
    return fill_layer_at(b, segment, gap, 1 + 2 * placement);
}

int cw_order_fill_set_at(const cw_order_builder *b, int segment, int gap, int placement)
{
    return fill_layer_at(b, segment, gap, 2 + 2 * placement);
}

int cw_order_cured_at(const cw_order_builder *b, int segment, int gap)
{
    return fill_layer_at(b, segment, gap, 2 * b->run->fill_placements + 1);
}

static void add_backfill_steps(cw_order_builder *b)
{
    b->reach_count = cut_phases(b, b->run->backfill_reaches, &b->reach_from_ft, &b->reach_to_ft,
                                &b->reach_phase);
    assert(b->reach_phase);
    b->backfill = CW_TAKE(b->arena, int, b->reach_count);
    for (int r = 0; r < b->reach_count; r++) {
        b->backfill[r] = b->step_count;
        cw_step step = {
            .kind = CW_STEP_BACKFILL, .barrel = -1, .index = r, .phase = b->reach_phase[r]};
        for (int i = 0; i < 2 * b->run->backfill_lifts; i++) {
            step.part = i / 2;
            step.side = i % 2 == 0 ? CW_SIDE_LEFT : CW_SIDE_RIGHT;
            cw_order_add_step(b, step);
        }
        step.kind = CW_STEP_COVER;
        step.part = -1;
        step.side = CW_SIDE_NONE;
        cw_order_add_step(b, step);
    }
}

int cw_order_backfill_at(const cw_order_builder *b, int reach, int lift, cw_side side)
{
    return b->backfill[reach] + 2 * lift + (side == CW_SIDE_RIGHT);
}

int cw_order_cover_at(const cw_order_builder *b, int reach)
{
    return b->backfill[reach] + 2 * b->run->backfill_lifts;
}

static void add_end_steps(cw_order_builder *b)
{
    for (int p = 0; p < b->plan->phase_count; p++) {
        if (b->run->water)
            b->pumps_off[p] = job_step(b, CW_STEP_PUMPS_OFF, -1, p);
        b->walk[p] = job_step(b, CW_STEP_WALK_THROUGH, -1, p);
        b->open[p] = job_step(b, CW_STEP_PHASE_OPEN, -1, p);
    }
    b->closeout = job_step(b, CW_STEP_CLOSEOUT, -1, b->plan->phase_count - 1);
}

/* Every piece of a later phase waits for the one before it to open, and so does each step that no
 * step of its own phase holds back already. */
static void add_phase_needs(cw_order_builder *b)
{
    for (int i = 0; i < b->step_count; i++) {
        const int phase = b->steps[i].phase;
        if (phase > 0 && (b->steps[i].kind == CW_STEP_SET || !b->has_peer[i]))
            cw_order_add_need(b, i, b->open[phase - 1], CW_RULE_PHASE_OPEN);
    }
}

/* Counting sort: by step, in the order in which the needs were added. */
static void sort_edges(const cw_order_builder *b, cw_order_graph *graph)
{
    const int steps = b->step_count;
    int *need_from = CW_TAKE(b->arena, int, steps + 2);
    int *follow_from = CW_TAKE(b->arena, int, steps + 2);
    cw_need *needs = CW_TAKE(b->arena, cw_need, b->edge_count);
    cw_need *follows = CW_TAKE(b->arena, cw_need, b->edge_count);
    // Counted two places on, so that placing the edges leaves each start where it belongs.
    for (int i = 0; i < b->edge_count; i++) {
        need_from[b->edges[i].step + 2]++;
        follow_from[b->edges[i].need + 2]++;
    }
    for (int i = 2; i < steps + 2; i++) {
        need_from[i] += need_from[i - 1];
        follow_from[i] += follow_from[i - 1];
    }
    for (int i = 0; i < b->edge_count; i++) {
        const int step = b->edges[i].step, need = b->edges[i].need;
        needs[need_from[step + 1]++] = (cw_need){need, b->edges[i].rule};
        follows[follow_from[need + 1]++] = (cw_need){step, b->edges[i].rule};
    }
    graph->need_from = need_from;
    graph->needs = needs;
    graph->follow_from = follow_from;
    graph->follows = follows;
    graph->need_count = b->edge_count;
}

const cw_order_graph *cw_order_build(const cw_order_run *run, cw_arena *arena)
{
    const cw_order_plan plan = cw_order_plan_make(run, arena);
    cw_order_builder builder = {.run = run, .plan = &plan, .arena = arena};
    cw_order_builder *b = &builder;
    add_site_steps(b);
    add_setting_steps(b);
    add_fill_steps(b);
    add_backfill_steps(b);
    add_end_steps(b);
    cw_order_add_setting_needs(b);
    cw_order_add_barrel_needs(b);
    cw_order_add_closing_needs(b);
    if (run->water)
        cw_order_add_water_needs(b);
    add_phase_needs(b);

    cw_order_graph *graph = CW_TAKE(arena, cw_order_graph, 1);
    graph->steps = b->steps;
    graph->step_count = b->step_count;
    sort_edges(b, graph);
    for (int i = 0; i < run->barrel_count; i++) {
        for (int row = 0; row < run->rows; row++) {
            graph->pieces[i][row] = b->pieces[i][row];
            graph->piece_count[i][row] =
                cw_order_line_of(&run->barrels[i], (cw_order_row)row)->count;
        }
    }
    graph->barrel_count = run->barrel_count;
    graph->rows = run->rows;
    graph->phase_count = plan.phase_count;
    graph->segment_count = b->segment_count;
    graph->reach_count = b->reach_count;
    graph->segment_from_ft = b->segment_from_ft;
    graph->segment_to_ft = b->segment_to_ft;
    graph->reach_from_ft = b->reach_from_ft;
    graph->reach_to_ft = b->reach_to_ft;
    cw_order_arrange(run, &plan, graph, arena);
    return graph;
}
