#include <assert.h>
#include <string.h>

#include "layout_internal.h"

/* Whether two staggered rows can be laid with one gap at all, whatever they cost.  The pairs of
 * places that the search for the least cost would settle one by one are here sets of bits: for each
 * joint of the bases, the places of the tops that can stand around it. */

enum {
    WORD_BITS = 64,
    SET_STATES = 8 // the sets around one joint take the work of about so many states of a row
};

typedef struct stand_pass {
    layout_solver *solver;
    const layout_choice *choice;
    const layout_gap *gap;
    const layout_graph *base, *top;
    int step[2][CW_LAYOUT_ITEMS_MAX];
    int most_step[2];
    int words;                              /**< of a set of top places */
    uint64_t *arrives[CW_LAYOUT_ITEMS_MAX]; /**< by top piece: the places that it ends a joint at */
    uint64_t *ends_here; /**< top places from which one piece completes the row */
    int *node_at[2];     /**< node of each place, NO_NODE for none */
    uint64_t *beyond;    /**< ring: for each base node, top places next beyond it */
    int ring, band;      /**< base nodes kept, words of each */
    uint64_t *before;    /**< for the node in hand, last top places short of it */
    uint64_t *end_sets;  /**< of each top node from end_first on: ends that it can reach */
    int end_first, end_words;
    uint64_t *done; /**< ring: for each base node, ends of tops completed short of it */
    int taken;      /**< sets taken so far */
} stand_pass;

// Sets are kept in blocks that the next pass uses again.
static uint64_t *take_words(stand_pass *pass, int words)
{
    layout_solver *solver = pass->solver;
    const int which = pass->taken++;
    solver->sets[which] = cw_layout_room(solver->arena, solver->sets[which], 0, words,
                                         &solver->set_capacity[which], sizeof *solver->sets[which]);
    if (words > 0)
        memset(solver->sets[which], 0, (size_t)words * sizeof *solver->sets[which]);
    return solver->sets[which];
}

static bool alive(const layout_graph *row, int node)
{
    return row->rest[node] < COST_NONE;
}

static void set_bit(uint64_t *set, int at)
{
    assert(set);
    set[at / WORD_BITS] |= (uint64_t)1 << at % WORD_BITS;
}

static bool has_bit(const uint64_t *set, int at)
{
    return set[at / WORD_BITS] >> at % WORD_BITS & 1u;
}

/** Word @p word of the set moved up by @p by places; the set has @p words words from @p first. */
static uint64_t moved(const uint64_t *set, int first, int words, int word, int by)
{
    const int part = by % WORD_BITS;
    const int at = word - by / WORD_BITS - first;
    uint64_t bits = at >= 0 && at < words ? set[at] << part : 0;
    if (part > 0 && at >= 1 && at <= words)
        bits |= set[at - 1] >> (WORD_BITS - part);
    return bits;
}

/** Bits of word @p word at places @p from and later. */
static uint64_t from_on(int word, int from)
{
    const int first = word * WORD_BITS;
    if (from <= first)
        return UINT64_MAX;
    return from >= first + WORD_BITS ? 0 : UINT64_MAX << (from - first);
}

static void map_places(stand_pass *pass, int track, int places)
{
    const layout_graph *row = track ? pass->top : pass->base;
    pass->node_at[track] = (int *)take_words(pass, places / 2 + 1);
    for (int p = 0; p < places; p++)
        pass->node_at[track][p] = NO_NODE;
    for (int n = 0; n < row->count; n++)
        pass->node_at[track][row->position[n]] = n;
    for (int i = 0; i < row->stride; i++) {
        const int step = pass->choice->pieces[track][i].length_16 + pass->gap->spread;
        pass->step[track][i] = step;
        if (step > pass->most_step[track])
            pass->most_step[track] = step;
    }
}

static void map_top(stand_pass *pass)
{
    const layout_graph *top = pass->top;
    for (int i = 0; i < top->stride; i++)
        pass->arrives[i] = take_words(pass, pass->words);
    pass->ends_here = take_words(pass, pass->words);
    for (int n = 0; n < top->count; n++) {
        const int *to = top->to + n * 2 * top->stride;
        for (int i = 0; i < top->stride; i++) {
            if (to[i] != NO_NODE && alive(top, to[i]))
                set_bit(pass->arrives[i], top->position[to[i]]);
            if (to[top->stride + i] == DONE)
                set_bit(pass->ends_here, top->position[n]);
        }
    }
}

// Only tops beyond the last joint of the bases are asked, and that lies within a piece of the end.
static void map_ends(stand_pass *pass)
{
    const layout_graph *top = pass->top;
    const int from = pass->gap->end_lo - pass->most_step[0];
    const int words = (pass->gap->end_hi - pass->gap->end_lo) / WORD_BITS + 1;
    pass->end_first = top->count;
    while (pass->end_first > 0 && top->position[pass->end_first - 1] >= from)
        pass->end_first--;
    pass->end_words = words;
    pass->end_sets = take_words(pass, (top->count - pass->end_first) * words);
    for (int n = top->count - 1; n >= pass->end_first; n--) {
        uint64_t *set = pass->end_sets + (n - pass->end_first) * words;
        const int *to = top->to + n * 2 * top->stride;
        for (int i = 0; i < top->stride; i++) {
            if (to[top->stride + i] == DONE)
                set_bit(set, top->position[n] + pass->step[1][i] - pass->gap->spread -
                                 pass->gap->end_lo);
            if (to[i] == NO_NODE)
                continue;
            const uint64_t *next = pass->end_sets + (to[i] - pass->end_first) * words;
            for (int w = 0; w < words; w++)
                set[w] |= next[w];
        }
    }
}

/** Reach of the next piece of the bases in words, back from @p place. */
static int first_word(const stand_pass *pass, int place)
{
    const int back = place - pass->most_step[0];
    return back > 0 ? back / WORD_BITS : 0;
}

static uint64_t *beyond_of(const stand_pass *pass, int node)
{
    return pass->beyond + (node % pass->ring) * pass->band;
}

static uint64_t *done_of(const stand_pass *pass, int node)
{
    return pass->done + (node % pass->ring) * pass->end_words;
}

static bool gather_done(stand_pass *pass, int node, int source)
{
    uint64_t *done = done_of(pass, node);
    const uint64_t *set = done_of(pass, source);
    uint64_t any = 0;
    for (int w = 0; w < pass->end_words; w++) {
        done[w] |= set[w];
        any |= set[w];
    }
    return any != 0;
}

// Tops that stand next beyond the joints before this one: those short of it go on as far as they
// may; those past it stay.
static bool gather(stand_pass *pass, int node, int first)
{
    const layout_graph *base = pass->base;
    const int place = base->position[node], stagger = pass->solver->rules.stagger_16;
    uint64_t *past = beyond_of(pass, node);
    const int past_first = place / WORD_BITS;
    bool any = false;
    for (int w = 0; w < pass->band; w++)
        past[w] = 0;
    for (int w = 0; w < pass->end_words; w++)
        done_of(pass, node)[w] = 0;
    for (int w = first; w <= past_first; w++)
        pass->before[w] = 0;
    for (int i = 0; alive(base, node) && i < base->stride; i++) {
        const int from = place - pass->step[0][i];
        const int source = from >= 0 ? pass->node_at[0][from] : NO_NODE;
        if (source == NO_NODE || base->to[source * 2 * base->stride + i] != node)
            continue;
        any = gather_done(pass, node, source) || any;
        const uint64_t *set = beyond_of(pass, source);
        for (int b = 0; b < pass->band; b++) {
            const int word = from / WORD_BITS + b;
            if (set[b] == 0)
                continue;
            any = true;
            if (word <= past_first)
                pass->before[word] |= set[b] & ~from_on(word, place - stagger + 1);
            if (word >= past_first && word - past_first < pass->band)
                past[word - past_first] |= set[b] & from_on(word, place + stagger);
            // The start of the run is no joint.
            if (word == 0 && from == 0)
                pass->before[0] |= set[0] & 1u;
        }
    }
    return any;
}

// In order of place, so that what is added goes on itself; a step may be shorter than a word.
static void close_before(stand_pass *pass, int first, int place)
{
    const layout_graph *top = pass->top;
    const int stagger = pass->solver->rules.stagger_16;
    const int last = place / WORD_BITS;
    for (int w = first; w <= last; w++) {
        const uint64_t allowed = ~from_on(w, place - stagger + 1);
        uint64_t bits = pass->before[w], was = ~bits;
        if (allowed == 0)
            return;
        while (bits != was) { // each round adds a bit, at most 64
            was = bits;
            pass->before[w] = bits;
            for (int i = 0; i < top->stride; i++)
                bits |= moved(pass->before + first, first, last - first + 1, w, pass->step[1][i]) &
                        pass->arrives[i][w] & allowed;
        }
    }
}

static void pass_over(stand_pass *pass, int node, int first)
{
    const layout_graph *top = pass->top;
    const int place = pass->base->position[node];
    const int past_first = place / WORD_BITS, span = past_first - first + 1;
    uint64_t *past = beyond_of(pass, node);
    for (int b = 0; b < pass->band && past_first + b < pass->words; b++) {
        const int word = past_first + b;
        uint64_t bits = 0;
        for (int i = 0; i < top->stride; i++)
            bits |= moved(pass->before + first, first, span, word, pass->step[1][i]) &
                    pass->arrives[i][word];
        past[b] |= bits & from_on(word, place + pass->solver->rules.stagger_16);
    }
}

/** Tops whose last joint stands short of this one may be completed. */
static void complete_tops(stand_pass *pass, int node, int first)
{
    const layout_graph *top = pass->top;
    uint64_t *ends = done_of(pass, node);
    for (int w = first; w <= pass->base->position[node] / WORD_BITS; w++) {
        const uint64_t bits = pass->before[w] & pass->ends_here[w];
        for (int at = 0; bits != 0 && at < WORD_BITS; at++) {
            if (!(bits >> at & 1u))
                continue;
            const int place = w * WORD_BITS + at;
            const int *done = top->to + (pass->node_at[1][place] * 2 + 1) * top->stride;
            for (int i = 0; i < top->stride; i++)
                if (done[i] == DONE)
                    set_bit(ends, place + pass->step[1][i] - pass->gap->spread - pass->gap->end_lo);
        }
    }
}

static bool end_within(const stand_pass *pass, const uint64_t *ends, int end)
{
    const int apart = pass->solver->rules.ends_apart_16, lo = pass->gap->end_lo;
    const int width = pass->gap->end_hi - lo;
    const int from = end - lo < apart ? 0 : end - lo - apart;
    const int to = width - (end - lo) < apart ? width : end - lo + apart;
    for (int w = from / WORD_BITS; w <= to / WORD_BITS; w++)
        if (ends[w] & from_on(w, from) & ~from_on(w, to + 1))
            return true;
    return false;
}

/** True when the bases may be completed from @p node and the tops beside them too. */
static bool completes(const stand_pass *pass, int node)
{
    const layout_graph *base = pass->base;
    const int place = base->position[node], from = place / WORD_BITS * WORD_BITS;
    const uint64_t *past = beyond_of(pass, node);
    for (int i = 0; i < base->stride; i++) {
        if (base->to[(node * 2 + 1) * base->stride + i] != DONE)
            continue;
        const int end = place + pass->step[0][i] - pass->gap->spread;
        if (end_within(pass, done_of(pass, node), end))
            return true;
        for (int at = 0; at < pass->band * WORD_BITS; at++) {
            if (!has_bit(past, at))
                continue;
            const int other = pass->node_at[1][from + at] - pass->end_first;
            if (end_within(pass, pass->end_sets + other * pass->end_words, end))
                return true;
        }
    }
    return false;
}

static bool run_stand(stand_pass *pass)
{
    const layout_graph *base = pass->base;
    beyond_of(pass, 0)[0] = 1; // the tops start with the bases
    if (completes(pass, 0))
        return true;
    for (int node = 1; node < base->count; node++) {
        const int place = base->position[node];
        const int first = first_word(pass, place);
        if (!gather(pass, node, first))
            continue;
        pass->solver->states += SET_STATES;
        close_before(pass, first, place);
        pass_over(pass, node, first);
        complete_tops(pass, node, first);
        if (completes(pass, node))
            return true;
    }
    return false;
}

bool cw_layout_pair_stands(layout_solver *solver, const layout_choice *choice,
                           const layout_gap *gap)
{
    for (int t = 0; t < 2; t++) {
        if (cw_layout_row_graph(solver, choice, t, gap, 0, COST_NONE) >= COST_NONE)
            return false;
        cw_layout_fill_rest(&solver->rows[t], choice->pieces[t], gap->joint);
    }
    const int places = gap->end_hi + gap->spread + 1;
    stand_pass pass = {.solver = solver,
                       .choice = choice,
                       .gap = gap,
                       .base = &solver->rows[0],
                       .top = &solver->rows[1],
                       .words = places / WORD_BITS + 1};
    map_places(&pass, 0, places);
    map_places(&pass, 1, places);
    map_top(&pass);
    map_ends(&pass);
    pass.ring = pass.most_step[0] + 1;
    pass.band = pass.most_step[1] / WORD_BITS + 2;
    pass.beyond = take_words(&pass, pass.ring * pass.band);
    pass.done = take_words(&pass, pass.ring * pass.end_words);
    pass.before = take_words(&pass, pass.words);
    return run_stand(&pass);
}
