/* The rules: what each step needs.  One function for each group of rules. */
#include "order_internal.h"

#include <stddef.h>

static void add_base_needs(cw_order_builder *b, int barrel, int k)
{
    const cw_order_barrel_plan *plan = &b->plan->barrels[barrel];
    const cw_piece_steps *bases = b->pieces[barrel][CW_ORDER_BASE], *own = &bases[k];
    const int subgrade = b->subgrade[barrel][plan->phase[CW_ORDER_BASE][k]];
    cw_order_add_need(b, own->bedding, subgrade, CW_RULE_SUBGRADE_FIRST);
    cw_order_add_need(b, own->set, own->bedding, CW_RULE_BEDDING_FIRST);
    const int open = k - b->run->lead_limit;
    if (b->run->rows == 2 && open >= 0) {
        const cw_piece_steps *cover = &b->pieces[barrel][CW_ORDER_TOP][plan->cover_top[open]];
        cw_order_add_need(b, own->set, cover->set, CW_RULE_LEAD_LIMIT);
    }
}

static void add_top_needs(cw_order_builder *b, int barrel, int t)
{
    const cw_order_barrel_plan *plan = &b->plan->barrels[barrel];
    const cw_piece_steps *bases = b->pieces[barrel][CW_ORDER_BASE];
    const cw_piece_steps *own = &b->pieces[barrel][CW_ORDER_TOP][t];
    const int support = bases[plan->support[t]].released;
    cw_order_add_need(b, own->walls_levelled, support, CW_RULE_JOINT_RELEASED);
    cw_order_add_need(b, own->seat_sealant, own->walls_levelled, CW_RULE_SEAT_LEVEL);
    cw_order_add_need(b, own->set, own->seat_sealant, CW_RULE_SEALANT_FIRST);
    for (int k = 0; t == 0 && k < 2 && k < b->run->barrels[barrel].base.count; k++)
        cw_order_add_need(b, own->set, bases[k].released, CW_RULE_TWO_BASES_FIRST);
    const int beyond = bases[plan->need_base[t]].released;
    cw_order_add_need(b, own->set, beyond, CW_RULE_BASE_BEYOND_TOP);
}

static void add_piece_needs(cw_order_builder *b, cw_order_piece piece)
{
    const cw_piece_steps *own = &b->pieces[piece.barrel][piece.row][piece.index];
    cw_order_add_need(b, own->received, b->accepted, CW_RULE_ACCEPTED_FIRST);
    cw_order_add_need(b, own->set, own->received, CW_RULE_INSPECTED_FIRST);
    if (piece.index > 0) {
        const cw_piece_steps *before = own - 1;
        cw_order_add_need(b, own->joint_sealant, before->released, CW_RULE_JOINT_RELEASED);
        cw_order_add_need(b, own->set, before->set, CW_RULE_TONGUE_IN_GROOVE);
        cw_order_add_need(b, own->set, before->released, CW_RULE_JOINT_RELEASED);
        cw_order_add_need(b, own->set, own->joint_sealant, CW_RULE_SEALANT_FIRST);
    }
    if (piece.row == CW_ORDER_BASE)
        add_base_needs(b, piece.barrel, piece.index);
    else
        add_top_needs(b, piece.barrel, piece.index);
    cw_order_add_need(b, own->released, own->set, CW_RULE_JOINT_RELEASED);
    if (own->wrapped >= 0)
        cw_order_add_need(b, own->wrapped, own->released, CW_RULE_JOINT_RELEASED);
}

void cw_order_add_setting_needs(cw_order_builder *b)
{
    for (int barrel = 0; barrel < b->run->barrel_count; barrel++) {
        for (int p = 0; p < b->plan->phase_count; p++) {
            const int subgrade = b->subgrade[barrel][p];
            cw_order_add_need(b, subgrade, b->accepted, CW_RULE_ACCEPTED_FIRST);
            cw_order_add_need(b, subgrade, b->meeting, CW_RULE_BEFORE_DIGGING);
            cw_order_add_need(b, subgrade, b->cleared, CW_RULE_BEFORE_DIGGING);
        }
        for (int row = 0; row < b->run->rows; row++) {
            const int count = cw_order_line_of(&b->run->barrels[barrel], (cw_order_row)row)->count;
            for (int i = 0; i < count; i++)
                add_piece_needs(b, (cw_order_piece){barrel, (cw_order_row)row, i});
        }
    }
}

static const cw_piece_steps *steps_of(const cw_order_builder *b, cw_order_piece piece)
{
    return &b->pieces[piece.barrel][piece.row][piece.index];
}

/* The i-th piece of barrel @p one in the phase waits for the (i - within)-th of barrel @p other, in
 * the barrels' own sequences; the last of a shorter barrel stands for those it lacks.  Thus the
 * counts differ by at most
 * @p within also when a barrel leaves its own sequence. */
static void hold_within(cw_order_builder *b, int phase, int one, int other, int within)
{
    const cw_order_barrel_plan *own = &b->plan->barrels[one], *far = &b->plan->barrels[other];
    const int first = own->phase_from[phase], far_first = far->phase_from[phase];
    const int count = own->phase_from[phase + 1] - first;
    const int far_count = far->phase_from[phase + 1] - far_first;
    for (int i = within; i < count; i++) {
        const int j = i - within < far_count ? i - within : far_count - 1;
        cw_order_add_need(b, steps_of(b, own->sequence[first + i])->set,
                          steps_of(b, far->sequence[far_first + j])->set, CW_RULE_BARREL_REACH);
    }
}

/* The first base and the first top of the phase in barrel @p next wait for the last of each in @p
 * before. */
static void hold_turn(cw_order_builder *b, int phase, int before, int next)
{
    const cw_order_barrel_plan *own = &b->plan->barrels[next], *last = &b->plan->barrels[before];
    bool seen[2] = {false, false};
    for (int i = own->phase_from[phase]; i < own->phase_from[phase + 1]; i++) {
        const cw_order_piece first = own->sequence[i];
        if (seen[first.row])
            continue;
        seen[first.row] = true;
        bool held[2] = {false, false};
        for (int j = last->phase_from[phase + 1] - 1; j >= last->phase_from[phase]; j--) {
            const cw_order_piece end = last->sequence[j];
            if (!held[end.row])
                cw_order_add_need(b, steps_of(b, first)->set, steps_of(b, end)->released,
                                  CW_RULE_BARREL_TURN);
            held[end.row] = true;
        }
    }
}

void cw_order_add_barrel_needs(cw_order_builder *b)
{
    const int *barrels = b->plan->rank_barrel;
    for (int p = 0; p < b->plan->phase_count; p++) {
        for (int i = 0; i + 1 < b->run->barrel_count; i++) {
            if (b->run->mode == CW_BARRELS_IN_TURN) {
                hold_turn(b, p, barrels[i], barrels[i + 1]);
                continue;
            }
            for (int j = i + 1; j < b->run->barrel_count; j++) {
                hold_within(b, p, barrels[i], barrels[j], b->run->barrel_lead);
                hold_within(b, p, barrels[j], barrels[i], b->run->barrel_lag);
            }
        }
    }
}

/* Whether the stretch shares more than a joint's play with another. */
static bool touches(double from_ft, double to_ft, double start_ft, double end_ft)
{
    return start_ft < to_ft - CW_ORDER_TOUCH_FT && end_ft > from_ft + CW_ORDER_TOUCH_FT;
}

/* @p step waits for every closed and wrapped box of @p barrel in the stretch. */
static void need_wrapped(cw_order_builder *b, int step, int barrel, double from_ft, double to_ft,
                         cw_rule rule)
{
    const cw_order_row row = cw_order_closing_row(b->run);
    const cw_order_line *line = cw_order_line_of(&b->run->barrels[barrel], row);
    for (int i = 0; i < line->count; i++)
        if (touches(from_ft, to_ft, line->start_ft[i], line->end_ft[i]))
            cw_order_add_need(b, step, b->pieces[barrel][row][i].wrapped, rule);
}

static void add_placement_needs(cw_order_builder *b, int s, int gap, int i)
{
    const int fill = cw_order_fill_at(b, s, gap, i);
    cw_order_add_need(b, cw_order_fill_set_at(b, s, gap, i), fill, CW_RULE_SET_BEFORE_NEXT);
    if (i == 0)
        return;
    cw_order_add_need(b, fill, cw_order_fill_set_at(b, s, gap, i - 1), CW_RULE_SET_BEFORE_NEXT);
    if (gap > 0)
        cw_order_add_need(b, fill, cw_order_fill_at(b, s, gap - 1, i - 1), CW_RULE_GAPS_BALANCED);
    if (gap + 2 < b->run->barrel_count)
        cw_order_add_need(b, fill, cw_order_fill_at(b, s, gap + 1, i - 1), CW_RULE_GAPS_BALANCED);
    if (b->run->cure_before_backfill)
        return;
    // Whole lifts that fit under the top of the placement below.
    const int lifts = i * b->run->backfill_lifts / b->run->fill_placements;
    for (int r = 0; lifts > 0 && r < b->reach_count; r++) {
        if (!touches(b->segment_from_ft[s], b->segment_to_ft[s], b->reach_from_ft[r],
                     b->reach_to_ft[r]))
            continue;
        cw_order_add_need(b, fill, cw_order_backfill_at(b, r, lifts - 1, CW_SIDE_LEFT),
                          CW_RULE_OUTER_FACES_IN_STEP);
        cw_order_add_need(b, fill, cw_order_backfill_at(b, r, lifts - 1, CW_SIDE_RIGHT),
                          CW_RULE_OUTER_FACES_IN_STEP);
    }
}

static void add_fill_needs(cw_order_builder *b, int s, int gap)
{
    const double from_ft = b->segment_from_ft[s], to_ft = b->segment_to_ft[s];
    const int ready = cw_order_ready_at(b, s, gap), first = cw_order_fill_at(b, s, gap, 0);
    for (int barrel = gap; barrel < gap + 2; barrel++) {
        need_wrapped(b, ready, barrel, from_ft, to_ft, CW_RULE_LIDS_BEFORE_FILL);
        need_wrapped(b, first, barrel, from_ft, to_ft, CW_RULE_LIDS_BEFORE_FILL);
    }
    cw_order_add_need(b, first, ready, CW_RULE_GAP_READY);
    const int placements = b->run->fill_placements;
    for (int i = 0; i < placements; i++)
        add_placement_needs(b, s, gap, i);
    cw_order_add_need(b, cw_order_cured_at(b, s, gap),
                      cw_order_fill_set_at(b, s, gap, placements - 1), CW_RULE_SET_BEFORE_NEXT);
}

/* The piece upstream of the reach stands too, unless it belongs to a later phase. */
static void need_next_top(cw_order_builder *b, int step, int r, int barrel)
{
    const cw_order_row row = cw_order_closing_row(b->run);
    const cw_order_line *line = cw_order_line_of(&b->run->barrels[barrel], row);
    const int *phase = b->plan->barrels[barrel].phase[row];
    for (int i = 0; i < line->count; i++) {
        if (line->start_ft[i] < b->reach_to_ft[r] - CW_ORDER_TOUCH_FT)
            continue;
        if (phase[i] <= b->reach_phase[r])
            cw_order_add_need(b, step, b->pieces[barrel][row][i].released, CW_RULE_NEXT_TOP_ON);
        return;
    }
}

static void need_cured(cw_order_builder *b, int step, int r, cw_rule rule)
{
    for (int s = 0; s < b->segment_count; s++)
        if (touches(b->reach_from_ft[r], b->reach_to_ft[r], b->segment_from_ft[s],
                    b->segment_to_ft[s]))
            for (int gap = 0; gap + 1 < b->run->barrel_count; gap++)
                cw_order_add_need(b, step, cw_order_cured_at(b, s, gap), rule);
}

static void add_lift_needs(cw_order_builder *b, int r, int lift, cw_side side)
{
    const int step = cw_order_backfill_at(b, r, lift, side);
    const int apart = b->run->lift_difference_max;
    const cw_side other = side == CW_SIDE_LEFT ? CW_SIDE_RIGHT : CW_SIDE_LEFT;
    if (lift >= apart)
        cw_order_add_need(b, step, cw_order_backfill_at(b, r, lift - apart, other),
                          CW_RULE_SIDES_BALANCED);
    if (lift > 0) {
        cw_order_add_need(b, step, cw_order_backfill_at(b, r, lift - 1, side),
                          CW_RULE_LIFT_ON_LIFT);
        return;
    }
    for (int barrel = 0; barrel < b->run->barrel_count; barrel++) {
        need_wrapped(b, step, barrel, b->reach_from_ft[r], b->reach_to_ft[r],
                     CW_RULE_TOPS_BEFORE_BACKFILL);
        need_next_top(b, step, r, barrel);
    }
    if (b->run->cure_before_backfill)
        need_cured(b, step, r, CW_RULE_CURE_BEFORE_BACKFILL);
}

static void add_reach_needs(cw_order_builder *b, int r)
{
    const int lifts = b->run->backfill_lifts, cover = cw_order_cover_at(b, r);
    for (int i = 0; i < lifts; i++) {
        add_lift_needs(b, r, i, CW_SIDE_LEFT);
        add_lift_needs(b, r, i, CW_SIDE_RIGHT);
    }
    cw_order_add_need(b, cover, cw_order_backfill_at(b, r, lifts - 1, CW_SIDE_LEFT),
                      CW_RULE_COVER_BEFORE_CROSSING);
    cw_order_add_need(b, cover, cw_order_backfill_at(b, r, lifts - 1, CW_SIDE_RIGHT),
                      CW_RULE_COVER_BEFORE_CROSSING);
    need_cured(b, cover, r, CW_RULE_CURE_BEFORE_LOAD);
    cw_order_add_need(b, b->walk[b->reach_phase[r]], cover, CW_RULE_WALK_AFTER_BACKFILL);
}

/* The walk-through comes after the last piece of the phase in each row. */
static void add_walk_needs(cw_order_builder *b, int phase, int barrel)
{
    const cw_order_barrel_plan *plan = &b->plan->barrels[barrel];
    bool seen[2] = {false, false};
    for (int i = plan->phase_from[phase + 1] - 1; i >= plan->phase_from[phase]; i--) {
        const cw_order_piece piece = plan->sequence[i];
        if (!seen[piece.row])
            cw_order_add_need(b, b->walk[phase], steps_of(b, piece)->released,
                              CW_RULE_WALK_AFTER_BACKFILL);
        seen[piece.row] = true;
    }
}

void cw_order_add_closing_needs(cw_order_builder *b)
{
    for (int s = 0; s < b->segment_count; s++)
        for (int gap = 0; gap + 1 < b->run->barrel_count; gap++)
            add_fill_needs(b, s, gap);
    for (int r = 0; r < b->reach_count; r++)
        add_reach_needs(b, r);
    for (int p = 0; p < b->plan->phase_count; p++) {
        for (int barrel = 0; barrel < b->run->barrel_count; barrel++)
            add_walk_needs(b, p, barrel);
        cw_order_add_need(b, b->open[p], b->walk[p], CW_RULE_OPEN_AFTER_WALK);
    }
    cw_order_add_need(b, b->closeout, b->open[b->plan->phase_count - 1], CW_RULE_CLOSEOUT_LAST);
}

/* Nothing is dug before the water is under the subgrade; no pump stops before every reach of the phase
 * is held down. */
void cw_order_add_water_needs(cw_order_builder *b)
{
    const int lifts = b->run->hold_down_lifts;
    for (int p = 0; p < b->plan->phase_count; p++) {
        cw_order_add_need(b, b->diverted[p], b->cleared, CW_RULE_BEFORE_DIGGING);
        for (int barrel = 0; barrel < b->run->barrel_count; barrel++)
            cw_order_add_need(b, b->subgrade[barrel][p], b->diverted[p], CW_RULE_WATER_DOWN);
        cw_order_add_need(b, b->pumps_off[p], b->diverted[p], CW_RULE_WATER_DOWN);
        cw_order_add_need(b, b->closeout, b->pumps_off[p], CW_RULE_CLOSEOUT_LAST);
    }
    for (int r = 0; r < b->reach_count; r++) {
        const int off = b->pumps_off[b->reach_phase[r]];
        if (lifts > b->run->backfill_lifts) {
            cw_order_add_need(b, off, cw_order_cover_at(b, r), CW_RULE_HELD_DOWN);
            continue;
        }
        // The first lift is asked for at least: it waits for boxes that are closed and wrapped.
        const int last = lifts > 1 ? lifts - 1 : 0;
        cw_order_add_need(b, off, cw_order_backfill_at(b, r, last, CW_SIDE_LEFT), CW_RULE_HELD_DOWN);
        cw_order_add_need(b, off, cw_order_backfill_at(b, r, last, CW_SIDE_RIGHT),
                          CW_RULE_HELD_DOWN);
    }
}
