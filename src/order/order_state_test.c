/* Every reachable state of small runs, against rules written down a second time as counts, without
 * the graph's needs: what may be done, and by which rules the rest is refused, must agree in each
 * state. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "order_test_help.h"

enum {
    STEPS_MAX = 127, /* one bit of a key marks it as used */
    TABLE_BITS = 20,
    TABLE = 1 << TABLE_BITS,
    B_MAX = 2,
    N_MAX = 8,
    PARTS = 4
};

typedef struct key {
    uint64_t low, high;
} key;

/* The state as seen on site. */
typedef struct site {
    bool once[CW_STEP_KINDS]; /* of the whole job */
    bool subgrade[B_MAX][2], walk[2], open[2], diverted[2], pumps_off[2];
    bool piece[CW_STEP_KINDS][B_MAX][2][N_MAX];
    int fill, fill_set; /* placements of the one gap and segment */
    bool ready, cured;
    int left[2], right[2]; /* lifts of each reach */
    bool cover[2];
} site;

static site look(const cw_order_graph *graph, const bool *done)
{
    site s;
    memset(&s, 0, sizeof s);
    for (int i = 0; i < graph->step_count; i++) {
        if (!done[i])
            continue;
        const cw_step *step = &graph->steps[i];
        s.once[step->kind] = true;
        switch (step->kind) {
        case CW_STEP_SUBGRADE:
            s.subgrade[step->barrel][step->phase] = true;
            break;
        case CW_STEP_GAP_READY:
            s.ready = true;
            break;
        case CW_STEP_FILL:
            s.fill++;
            break;
        case CW_STEP_FILL_SET:
            s.fill_set++;
            break;
        case CW_STEP_FILL_CURED:
            s.cured = true;
            break;
        case CW_STEP_BACKFILL:
            (step->side == CW_SIDE_LEFT ? s.left : s.right)[step->index]++;
            break;
        case CW_STEP_COVER:
            s.cover[step->index] = true;
            break;
        case CW_STEP_WALK_THROUGH:
            s.walk[step->phase] = true;
            break;
        case CW_STEP_DIVERTED:
            s.diverted[step->phase] = true;
            break;
        case CW_STEP_PUMPS_OFF:
            s.pumps_off[step->phase] = true;
            break;
        case CW_STEP_PHASE_OPEN:
            s.open[step->phase] = true;
            break;
        default:
            if (step->index >= 0)
                s.piece[step->kind][step->barrel][step->row][step->index] = true;
        }
    }
    return s;
}

static int count_of(const bool *flags, int count)
{
    int n = 0;
    for (int i = 0; i < count; i++)
        n += flags[i];
    return n;
}

typedef struct trial {
    cw_order_run run;
    int phase_base[N_MAX], phase_top[N_MAX]; /* of all barrels */
    int phases;
    bool forced; /* two barrels together, each with one setting sequence only */
} trial;

#define BIT(rule) (1u << (CW_RULE_##rule))
#define UNLESS(condition, rule) ((condition) ? 0u : BIT(rule))

static int bases_of(const trial *t, int b)
{
    return t->run.barrels[b].base.count;
}

static int tops_of(const trial *t, int b)
{
    return t->run.rows == 2 ? t->run.barrels[b].top.count : 0;
}

static bool barrel_finished(const trial *t, const site *s, int b)
{
    return count_of(s->piece[CW_STEP_RELEASED][b][0], N_MAX) == bases_of(t, b) &&
           count_of(s->piece[CW_STEP_RELEASED][b][1], N_MAX) == tops_of(t, b);
}

static double end_of_set(const bool *set, const cw_order_line *line, int *count)
{
    *count = count_of(set, line->count);
    return *count > 0 ? line->end_ft[*count - 1] : 0.0;
}

/* Open bases if base k stood: those whose upstream end no set top reaches. */
static bool lead_kept(const trial *t, const site *s, int b, int k)
{
    int tops = 0, open = 0;
    const cw_order_line *base = &t->run.barrels[b].base, *top = &t->run.barrels[b].top;
    if (t->run.rows == 1)
        return true;
    const double covered_ft = end_of_set(s->piece[CW_STEP_SET][b][1], top, &tops);
    for (int i = 0; i <= k; i++)
        open += base->end_ft[i] > covered_ft + 0.01;
    return open <= t->run.lead_limit;
}

static bool base_beyond(const trial *t, const site *s, int b, int top)
{
    const cw_order_line *base = &t->run.barrels[b].base;
    const double end_ft = t->run.barrels[b].top.end_ft[top];
    const int standing = count_of(s->piece[CW_STEP_RELEASED][b][0], N_MAX);
    if (standing == base->count)
        return true;
    if (standing == 0)
        return false;
    return t->run.beyond == CW_BEYOND_WHOLE ? base->start_ft[standing - 1] >= end_ft - 0.01
                                            : base->end_ft[standing - 1] > end_ft + 0.01;
}

/* Two aligned barrels of two sections: each is set B1 B2 L1 L2, so counts say all. */
static bool together_kept(const trial *t, const site *s, const cw_step *step)
{
    const int place = step->row == CW_ORDER_BASE ? step->index : 2 + step->index;
    const int other = 1 - step->barrel;
    const int there = count_of(s->piece[CW_STEP_SET][other][0], N_MAX) +
                      count_of(s->piece[CW_STEP_SET][other][1], N_MAX);
    const bool leads = step->barrel == t->run.first_barrel;
    return place + 1 - there <= (leads ? t->run.barrel_lead : t->run.barrel_lag);
}

static unsigned set_refused(const trial *t, const site *s, const cw_step *step)
{
    const int b = step->barrel, row = (int)step->row, i = step->index;
    const bool(*piece)[B_MAX][2][N_MAX] = s->piece;
    unsigned rules = UNLESS(piece[CW_STEP_RECEIVED][b][row][i], INSPECTED_FIRST);
    if (i > 0) {
        rules |= UNLESS(piece[CW_STEP_SET][b][row][i - 1], TONGUE_IN_GROOVE);
        rules |= UNLESS(piece[CW_STEP_RELEASED][b][row][i - 1], JOINT_RELEASED);
        rules |= UNLESS(piece[CW_STEP_JOINT_SEALANT][b][row][i], SEALANT_FIRST);
    }
    if (row == CW_ORDER_BASE) {
        rules |= UNLESS(piece[CW_STEP_BEDDING][b][row][i], BEDDING_FIRST);
        rules |= UNLESS(lead_kept(t, s, b, i), LEAD_LIMIT);
    } else {
        const int two = bases_of(t, b) < 2 ? 1 : 2;
        const int standing = count_of(piece[CW_STEP_RELEASED][b][0], N_MAX);
        rules |= UNLESS(piece[CW_STEP_SEAT_SEALANT][b][row][i], SEALANT_FIRST);
        rules |= UNLESS(i > 0 || standing >= two, TWO_BASES_FIRST);
        rules |= UNLESS(base_beyond(t, s, b, i), BASE_BEYOND_TOP);
    }
    if (step->phase > 0)
        rules |= UNLESS(s->open[step->phase - 1], PHASE_OPEN);
    if (t->forced)
        rules |= UNLESS(together_kept(t, s, step), BARREL_REACH);
    if (t->run.mode == CW_BARRELS_IN_TURN && b != t->run.first_barrel && i == 0)
        rules |= UNLESS(barrel_finished(t, s, t->run.first_barrel), BARREL_TURN);
    return rules;
}

/* A top of a later phase may rest on bases of the one before; then nothing of its own phase is
 * below it. */
static unsigned early(const trial *t, const site *s, const cw_step *step, int below_phase)
{
    (void)t;
    return step->phase > 0 && below_phase < step->phase
               ? UNLESS(s->open[step->phase - 1], PHASE_OPEN)
               : 0u;
}

static int phase_of(const trial *t, int row, int i)
{
    return row == CW_ORDER_BASE ? t->phase_base[i] : t->phase_top[i];
}

static unsigned piece_refused(const trial *t, const site *s, const cw_step *step)
{
    const int b = step->barrel, row = (int)step->row, i = step->index;
    const bool(*piece)[B_MAX][2][N_MAX] = s->piece;
    int support = 0;
    switch (step->kind) {
    case CW_STEP_SET:
        return set_refused(t, s, step);
    case CW_STEP_RECEIVED:
        return UNLESS(s->once[CW_STEP_PLAN_ACCEPTED], ACCEPTED_FIRST) | early(t, s, step, 0);
    case CW_STEP_BEDDING:
        return UNLESS(s->subgrade[b][step->phase], SUBGRADE_FIRST);
    case CW_STEP_JOINT_SEALANT:
        return UNLESS(piece[CW_STEP_RELEASED][b][row][i - 1], JOINT_RELEASED) |
               early(t, s, step, phase_of(t, row, i - 1));
    case CW_STEP_WALLS_LEVELLED:
        for (int k = 0; k < bases_of(t, b); k++)
            if (t->run.barrels[b].base.start_ft[k] < t->run.barrels[b].top.end_ft[i] - 0.01)
                support = k;
        return UNLESS(count_of(piece[CW_STEP_RELEASED][b][0], N_MAX) > support, JOINT_RELEASED) |
               early(t, s, step, t->phase_base[support]);
    case CW_STEP_SEAT_SEALANT:
        return UNLESS(piece[CW_STEP_WALLS_LEVELLED][b][row][i], SEAT_LEVEL);
    case CW_STEP_RELEASED:
        return UNLESS(piece[CW_STEP_SET][b][row][i], JOINT_RELEASED);
    default:
        return UNLESS(piece[CW_STEP_RELEASED][b][row][i], JOINT_RELEASED);
    }
}

/* Boxes of the first @p phase phases closed and wrapped in every barrel. */
static bool wrapped_through(const trial *t, const site *s, int phase)
{
    const int row = t->run.rows == 2 ? 1 : 0;
    for (int b = 0; b < t->run.barrel_count; b++)
        for (int i = 0; i < (row == 1 ? tops_of(t, b) : bases_of(t, b)); i++)
            if (phase_of(t, row, i) <= phase && !s->piece[CW_STEP_WRAPPED][b][row][i])
                return false;
    return true;
}

/* One gap, one segment, one reach for each phase. */
static unsigned earth_refused(const trial *t, const site *s, const cw_step *step)
{
    const int r = step->index, lifts = t->run.backfill_lifts;
    const bool closed = wrapped_through(t, s, step->phase);
    const bool cured = !t->run.fill_between || s->cured;
    if (step->kind == CW_STEP_COVER)
        return UNLESS(s->left[r] == lifts && s->right[r] == lifts, COVER_BEFORE_CROSSING) |
               UNLESS(cured, CURE_BEFORE_LOAD);
    const bool left = step->side == CW_SIDE_LEFT;
    const int own = left ? s->left[r] : s->right[r], other = left ? s->right[r] : s->left[r];
    unsigned rules = UNLESS(own >= step->part, LIFT_ON_LIFT) |
                     UNLESS(step->part + 1 - other <= t->run.lift_difference_max, SIDES_BALANCED);
    if (step->part == 0)
        rules |= UNLESS(closed, TOPS_BEFORE_BACKFILL) |
                 UNLESS(cured || !t->run.cure_before_backfill, CURE_BEFORE_BACKFILL);
    return rules;
}

static unsigned fill_refused(const trial *t, const site *s, const cw_step *step)
{
    const int lifts = s->left[0] < s->right[0] ? s->left[0] : s->right[0];
    switch (step->kind) {
    case CW_STEP_GAP_READY:
        return UNLESS(wrapped_through(t, s, 0), LIDS_BEFORE_FILL);
    case CW_STEP_FILL_SET:
        return UNLESS(s->fill > step->part, SET_BEFORE_NEXT);
    case CW_STEP_FILL_CURED:
        return UNLESS(s->fill_set == t->run.fill_placements, SET_BEFORE_NEXT);
    default:
        break;
    }
    if (step->part == 0)
        return UNLESS(wrapped_through(t, s, 0), LIDS_BEFORE_FILL) | UNLESS(s->ready, GAP_READY);
    // Lifts and placements measured as parts of the wall: the outer faces as high as the placement
    // below.
    const bool in_step = (lifts + 1) * t->run.fill_placements > step->part * t->run.backfill_lifts;
    return UNLESS(s->fill_set >= step->part, SET_BEFORE_NEXT) |
           UNLESS(in_step || t->run.cure_before_backfill, OUTER_FACES_IN_STEP);
}

/* Lifts on both sides of the phase's one reach, or the cover on top of all. */
static bool held_down(const trial *t, const site *s, int phase)
{
    const int wanted = t->run.hold_down_lifts > 1 ? t->run.hold_down_lifts : 1;
    if (wanted > t->run.backfill_lifts)
        return s->cover[phase];
    return s->left[phase] >= wanted && s->right[phase] >= wanted;
}

static bool all_pumps_off(const trial *t, const site *s)
{
    for (int p = 0; p < t->phases; p++)
        if (!s->pumps_off[p])
            return false;
    return true;
}

static unsigned end_refused(const trial *t, const site *s, const cw_step *step)
{
    const int p = step->phase;
    bool walked = s->cover[p];
    for (int b = 0; b < t->run.barrel_count; b++)
        for (int row = 0; row < t->run.rows; row++)
            for (int i = 0; i < (row == 1 ? tops_of(t, b) : bases_of(t, b)); i++)
                walked =
                    walked && (phase_of(t, row, i) > p || s->piece[CW_STEP_RELEASED][b][row][i]);
    switch (step->kind) {
    case CW_STEP_WALK_THROUGH:
        return UNLESS(walked, WALK_AFTER_BACKFILL);
    case CW_STEP_PHASE_OPEN:
        return UNLESS(s->walk[p], OPEN_AFTER_WALK);
    case CW_STEP_CLOSEOUT:
        return UNLESS(s->open[t->phases - 1] && (!t->run.water || all_pumps_off(t, s)), CLOSEOUT_LAST);
    case CW_STEP_DIVERTED:
        return UNLESS(s->once[CW_STEP_SITE_CLEARED], BEFORE_DIGGING) | early(t, s, step, 0);
    case CW_STEP_PUMPS_OFF:
        return UNLESS(s->diverted[p], WATER_DOWN) | UNLESS(held_down(t, s, p), HELD_DOWN);
    case CW_STEP_SUBGRADE:
        return UNLESS(s->once[CW_STEP_PLAN_ACCEPTED], ACCEPTED_FIRST) |
               UNLESS(s->once[CW_STEP_MEETING] && s->once[CW_STEP_SITE_CLEARED], BEFORE_DIGGING) |
               (t->run.water ? UNLESS(s->diverted[p], WATER_DOWN) : early(t, s, step, 0));
    default:
        return 0u;
    }
}

/* The rules that @p step would break now. */
static unsigned refused(const trial *t, const site *s, const cw_step *step)
{
    switch (step->kind) {
    case CW_STEP_RECEIVED:
    case CW_STEP_BEDDING:
    case CW_STEP_JOINT_SEALANT:
    case CW_STEP_WALLS_LEVELLED:
    case CW_STEP_SEAT_SEALANT:
    case CW_STEP_SET:
    case CW_STEP_RELEASED:
    case CW_STEP_WRAPPED:
        return piece_refused(t, s, step);
    case CW_STEP_GAP_READY:
    case CW_STEP_FILL:
    case CW_STEP_FILL_SET:
    case CW_STEP_FILL_CURED:
        return fill_refused(t, s, step);
    case CW_STEP_BACKFILL:
    case CW_STEP_COVER:
        return earth_refused(t, s, step);
    default:
        return end_refused(t, s, step);
    }
}

static bool flag(key k, int i)
{
    return (i < 64 ? k.low >> i : k.high >> (i - 64)) & 1u;
}

static key with(key k, int i)
{
    if (i < 64)
        k.low |= (uint64_t)1 << i;
    else
        k.high |= (uint64_t)1 << (i - 64);
    return k;
}

typedef struct search {
    key *table; /* open addressing; a slot without any bit is free */
    key *queue;
    int tail;
} search;

static void visit(search *seen, key k)
{
    uint64_t hash = (k.low ^ k.high * 0x9E3779B97F4A7C15u) * 0xD6E8FEB86659FD93u;
    for (int probe = 0; probe < TABLE; probe++) {
        key *at = &seen->table[((hash >> 40) + (uint64_t)probe) & (TABLE - 1)];
        if (at->low == k.low && at->high == k.high)
            return;
        if (at->low == 0 && at->high == 0) {
            assert_true(seen->tail < TABLE * 3 / 4);
            *at = k;
            seen->queue[seen->tail++] = k;
            return;
        }
    }
    fail_msg("the table of states is full");
}

/* Pieces set in the barrel that leads less those in the other stay within the bounds. */
static void check_barrels(const trial *t, const site *s)
{
    if (t->run.barrel_count < 2 || t->run.mode != CW_BARRELS_TOGETHER)
        return;
    int set[2];
    for (int b = 0; b < 2; b++)
        set[b] = count_of(s->piece[CW_STEP_SET][b][0], N_MAX) +
                 count_of(s->piece[CW_STEP_SET][b][1], N_MAX);
    const int ahead = set[t->run.first_barrel] - set[1 - t->run.first_barrel];
    assert_true(ahead <= t->run.barrel_lead && -ahead <= t->run.barrel_lag);
}

static void check_state(const trial *t, const cw_order_graph *graph, search *seen, key k)
{
    bool done[STEPS_MAX];
    int undone = 0, possible = 0;
    for (int i = 0; i < graph->step_count; i++)
        done[i] = flag(k, i);
    const site s = look(graph, done);
    check_barrels(t, &s);
    assert_int_equal(cw_order_check(graph, done, NULL, 0), 0);
    for (int i = 0; i < graph->step_count; i++) {
        if (done[i])
            continue;
        undone++;
        cw_need missing[STEPS_MAX];
        const int count = cw_order_missing(graph, done, i, missing, STEPS_MAX);
        unsigned rules = 0;
        for (int n = 0; n < count; n++)
            rules |= 1u << missing[n].rule;
        if (!t->forced)
            rules &= ~BIT(BARREL_REACH); // counts alone do not decide it: see check_barrels()
        const unsigned expected = refused(t, &s, &graph->steps[i]);
        if (rules != expected)
            fail_msg("step %d (kind %d, barrel %d, row %d, index %d, part %d): rules %x, not %x", i,
                     (int)graph->steps[i].kind, graph->steps[i].barrel, (int)graph->steps[i].row,
                     graph->steps[i].index, graph->steps[i].part, rules, expected);
        if (count > 0)
            continue;
        possible++;
        visit(seen, with(k, i));
    }
    assert_true(possible > 0 || undone == 0); // no dead end but the finished job
}

/* Starts with nothing done, or with all deliveries and bedding done when @p supplied, which
 * only leaves out states that differ in them.  Returns the number of states. */
static int explore(const trial *t, bool supplied)
{
    cw_arena arena = cw_arena_on(NULL);
    const char *fault = cw_order_fault(&t->run, &arena);
    if (fault)
        fail_msg("%s", fault);
    const cw_order_graph *graph = cw_order_build(&t->run, &arena);
    assert_true(graph->step_count <= STEPS_MAX);
    search seen = {calloc(TABLE, sizeof(key)), calloc(TABLE, sizeof(key)), 0};
    assert_true(seen.table && seen.queue);
    key start = with((key){0, 0}, STEPS_MAX);
    for (int i = 0; i < graph->step_count; i++) {
        const cw_step *step = &graph->steps[i];
        const bool supply = step->phase == 0 && step->kind <= CW_STEP_RECEIVED;
        if (supplied && supply)
            start = with(start, i);
    }
    visit(&seen, start);
    for (int head = 0; head < seen.tail; head++)
        check_state(t, graph, &seen, seen.queue[head]);
    const int states = seen.tail;
    print_message("    %d steps, %d states\n", graph->step_count, states);
    const key last = seen.queue[states - 1];
    for (int i = 0; i < graph->step_count; i++)
        assert_true(flag(last, i)); // breadth first: the last state found is the finished job
    free(seen.table);
    free(seen.queue);
    cw_arena_release(&arena);
    return states;
}

static trial trial_of(cw_order_run run)
{
    run.backfill_lifts = 2;
    return (trial){.run = run, .phases = 1};
}

static void one_barrel_aligned(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    for (int n = 1; n <= 4; n++) {
        for (int limit = 2; limit <= n + 1 && limit <= 4; limit++) {
            trial t = trial_of(aligned_run(&arena, 1, n));
            t.run.lead_limit = limit;
            explore(&t, false);
        }
    }
    cw_arena_release(&arena);
}

static void one_barrel_staggered(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    trial t = trial_of(staggered_run(&arena));
    explore(&t, false);
    t.run.lead_limit = 2;
    explore(&t, false);
    t.run.lead_limit = 4;
    t.run.beyond = CW_BEYOND_WHOLE;
    t.run.lift_difference_max = 2;
    explore(&t, true);
    cw_arena_release(&arena);
}

/* Water held off: every height of fill that may be asked for, the cover too. */
static void water_held_off(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    trial t = trial_of(aligned_run(&arena, 1, 2));
    t.run.water = true;
    for (int lifts = 0; lifts <= t.run.backfill_lifts + 1; lifts++) {
        t.run.hold_down_lifts = lifts;
        explore(&t, true);
    }
    static const int base_phase[] = {0, 0, 1, 1};
    trial two = trial_of(aligned_run(&arena, 1, 4));
    cw_order_barrel barrel = two.run.barrels[0];
    barrel.base.phase = base_phase;
    two.run.barrels = &barrel;
    two.run.water = true;
    two.run.hold_down_lifts = 1;
    two.phases = 2;
    for (int i = 0; i < 4; i++) {
        two.phase_base[i] = base_phase[i];
        two.phase_top[i] = i >= 1;
    }
    explore(&two, true);
    cw_arena_release(&arena);
}

static void one_piece_boxes(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    trial t = trial_of(aligned_run(&arena, 1, 4));
    t.run.rows = 1;
    explore(&t, false);
    cw_arena_release(&arena);
}

/* Bases 1 and 2 of four in the first phase.  Top 1 needs base 2; top 2 needs base 3 of the second
 * phase. */
static void two_phases(void **state)
{
    (void)state;
    static const int base_phase[] = {0, 0, 1, 1};
    cw_arena arena = cw_arena_on(NULL);
    trial t = trial_of(aligned_run(&arena, 1, 4));
    cw_order_barrel barrel = t.run.barrels[0];
    barrel.base.phase = base_phase;
    t.run.barrels = &barrel;
    t.phases = 2;
    for (int i = 0; i < 4; i++) {
        t.phase_base[i] = base_phase[i];
        t.phase_top[i] = i >= 1;
    }
    explore(&t, true);
    cw_arena_release(&arena);
}

static void two_barrels(void **state)
{
    (void)state;
    static const struct {
        int sections;
        cw_order_barrels mode;
        int first, lead, lag;
        bool cure, supplied;
    } cases[] = {
        {2, CW_BARRELS_TOGETHER, 0, 1, 0, true, false},
        {2, CW_BARRELS_TOGETHER, 1, 2, 0, true, true},
        {2, CW_BARRELS_TOGETHER, 0, 1, 1, false, true},
        {2, CW_BARRELS_IN_TURN, 0, 1, 0, true, false},
        {2, CW_BARRELS_IN_TURN, 1, 1, 0, false, true},
        {3, CW_BARRELS_TOGETHER, 0, 1, 0, true, true},
        {3, CW_BARRELS_TOGETHER, 1, 2, 2, false, true},
        {4, CW_BARRELS_TOGETHER, 0, 2, 0, true, true},
        {4, CW_BARRELS_IN_TURN, 1, 1, 0, true, true},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        cw_arena arena = cw_arena_on(NULL);
        trial t = trial_of(aligned_run(&arena, 2, cases[i].sections));
        t.forced = cases[i].sections == 2 && cases[i].mode == CW_BARRELS_TOGETHER;
        t.run.mode = cases[i].mode;
        t.run.first_barrel = cases[i].first;
        t.run.barrel_lead = cases[i].lead;
        t.run.barrel_lag = cases[i].lag;
        t.run.cure_before_backfill = cases[i].cure;
        t.run.fill_between = true;
        explore(&t, cases[i].supplied);
        cw_arena_release(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_barrel_aligned), cmocka_unit_test(one_barrel_staggered),
        cmocka_unit_test(one_piece_boxes), cmocka_unit_test(water_held_off),    cmocka_unit_test(two_phases),
        cmocka_unit_test(two_barrels),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
