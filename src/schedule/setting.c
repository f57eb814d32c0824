/* One run of the setting: steps wait for what must come before them, for their crews and for their
 * truck; what can begin begins in the wanted order.  Next-event simulation; events of one moment go
 * by the number of their step, so the answer does not depend on anything else. */
#include "setting_internal.h"

#include <math.h>
#include <string.h>

/* Places of random numbers: of steps their stream; of trucks and crane moves beside them. */
#define TRUCK_PLACE (UINT64_C(4) << 40)
#define MOVE_PLACE (UINT64_C(5) << 40)
#define TRUCK_DRAWS 3

/* ---- events: a heap by time, then number ---- */

static bool before(const event *a, const event *b)
{
    return a->at < b->at || (a->at == b->at && a->id < b->id);
}

static void push(cw_setting_state *st, double at, int id)
{
    const event item = {at, id};
    int i = st->event_count++;
    for (; i > 0 && before(&item, &st->events[(i - 1) / 2]); i = (i - 1) / 2)
        st->events[i] = st->events[(i - 1) / 2];
    st->events[i] = item;
}

static event pop(cw_setting_state *st)
{
    const event top = st->events[0], last = st->events[--st->event_count];
    int i = 0;
    for (int child = 1; child < st->event_count; child = 2 * i + 1) {
        child += child + 1 < st->event_count && before(&st->events[child + 1], &st->events[child]);
        if (!before(&st->events[child], &last))
            break;
        st->events[i] = st->events[child];
        i = child;
    }
    st->events[i] = last;
    return top;
}

/* ---- times ---- */

static double draw(const cw_setting *s, const cw_setting_state *st, int law, uint64_t place)
{
    if (law < 0)
        return 0.0;
    const double share = st->share ? st->share[law] : cw_random_share(st->stream, place);
    return cw_sampler_at(&s->samplers[law], share);
}

static double step_time(const cw_setting *s, cw_setting_state *st, int i, int day)
{
    const cw_setting_step *step = &s->job.steps[i];
    double time = draw(s, st, step->law, step->stream);
    if (step->learning >= 0)
        time *= s->learned[step->learning][st->learned[step->learning]++];
    if (step->crews == 0)
        return time; // curing knows no crew
    time *= st->job_factor * cw_setting_day_factor(s, st, day);
    if (step->setup >= 0 && step->setup != st->at_setup) {
        if (st->at_setup >= 0)
            time += draw(s, st, s->job.move_law, MOVE_PLACE + step->stream);
        st->at_setup = step->setup;
    }
    return time;
}

/* ---- steps ---- */

static void begin_step(const cw_setting *s, cw_setting_state *st, int i, double at)
{
    const cw_setting_step *step = &s->job.steps[i];
    const int day = step->crews ? cw_setting_open_day(s, st, at, step->exposed) : 0;
    const double time = step_time(s, st, i, day);
    double begin = at, end = at + time;
    if (step->crews && time > 0.0)
        end = cw_setting_advance(s, st, &(stretch){at, time, step->exposed, step->whole}, day,
                                 &begin);
    st->start[i] = begin;
    st->finish[i] = end;
    for (unsigned left = step->crews; left; left &= left - 1) {
        const int c = __builtin_ctz(left);
        st->free_crews[c]--;
        st->busy |= st->free_crews[c] == 0 ? 1U << c : 0U;
    }
    if (s->job.crane >= 0 && (step->crews >> s->job.crane) & 1U) {
        st->crane_first = begin < st->crane_first ? begin : st->crane_first;
        st->crane_last = end > st->crane_last ? end : st->crane_last;
        st->crane_used += time;
    }
    if (step->off_load >= 0)
        st->served[step->off_load] += time;
    if (end > at)
        push(st, end, i);
    else
        st->done_now[st->done_count++] = i;
}

static void queue_step(const cw_setting *s, cw_setting_state *st, int i, int cause, double at)
{
    const int set = s->set_of[i];
    st->cause[i] = cause;
    if (set < 0) {
        begin_step(s, st, i, at);
        return;
    }
    const int rank = s->job.rank[i], word = rank / 64;
    st->queue[set * s->words + word] |= UINT64_C(1) << (rank % 64);
    st->queue_count[set]++;
    st->waiting |= 1U << set;
    if (word < st->queue_from[set])
        st->queue_from[set] = word;
}

static void release(const cw_setting *s, cw_setting_state *st, int i, int cause, double at)
{
    if (--st->needs[i] == 0)
        queue_step(s, st, i, cause, at);
}

/* ---- trucks ---- */

/* Trucks drive in the hours of the shift, in any weather. */
static double drive(const cw_setting *s, cw_setting_state *st, double at, double minutes)
{
    double begin = at;
    if (minutes <= 0.0)
        return at;
    return cw_setting_advance(s, st, &(stretch){at, minutes, 0, false},
                              cw_setting_open_day(s, st, at, 0), &begin);
}

static void send_trucks(const cw_setting *s, cw_setting_state *st, int cause, double at)
{
    const cw_setting_job *job = &s->job;
    while (st->free_trucks > 0 && st->next_load < job->load_count && st->gate_open[st->next_load]) {
        const int load = st->next_load++;
        const uint64_t place = TRUCK_PLACE + (uint64_t)load * TRUCK_DRAWS;
        const double time =
            draw(s, st, job->load_law, place) + draw(s, st, job->out_law, place + 1);
        st->free_trucks--;
        st->cause[job->step_count + load] = cause;
        push(st, drive(s, st, at, time), job->step_count + load);
    }
}

static void leave(const cw_setting *s, cw_setting_state *st, int load, int cause, double at)
{
    const cw_setting_job *job = &s->job;
    const double on_site = cw_setting_worked(s, at) - cw_setting_worked(s, st->arrive[load]);
    st->truck_wait += fmax(0.0, on_site - st->served[load]);
    const double time = draw(s, st, job->back_law, TRUCK_PLACE + (uint64_t)load * TRUCK_DRAWS + 2);
    st->let_go[load] = cause;
    push(st, drive(s, st, at, time), job->step_count + job->load_count + load);
}

static void arrive(const cw_setting *s, cw_setting_state *st, int load, double at)
{
    st->arrive[load] = at;
    for (int k = s->load_steps_from[load]; k < s->load_steps_from[load + 1]; k++)
        release(s, st, s->load_steps[k], s->job.step_count + load, at);
    if (s->off_count[load] == 0)
        leave(s, st, load, -1, at);
}

/* ---- the run ---- */

static void end_step(const cw_setting *s, cw_setting_state *st, int i, double at)
{
    const cw_setting_step *step = &s->job.steps[i];
    st->steps_done++;
    for (unsigned left = step->crews; left; left &= left - 1) {
        const int c = __builtin_ctz(left);
        st->free_crews[c]++;
        st->busy &= ~(1U << c);
        st->last_user[c] = i;
    }
    for (int k = s->job.follow_from[i]; k < s->job.follow_from[i + 1]; k++)
        release(s, st, s->job.follows[k], i, at);
    if (step->off_load >= 0 && --st->off_left[step->off_load] == 0)
        leave(s, st, step->off_load, i, at);
    if (s->gated_from[i] == s->gated_from[i + 1])
        return;
    for (int k = s->gated_from[i]; k < s->gated_from[i + 1]; k++)
        st->gate_open[s->gated[k]] = true;
    send_trucks(s, st, i, at);
}

static void end_event(const cw_setting *s, cw_setting_state *st, event now)
{
    const int steps = s->job.step_count, loads = s->job.load_count;
    if (now.id < steps) {
        end_step(s, st, now.id, now.at);
    } else if (now.id < steps + loads) {
        arrive(s, st, now.id - steps, now.at);
    } else {
        st->free_trucks++;
        send_trucks(s, st, st->let_go[now.id - steps - loads], now.at);
    }
    while (st->done_count > 0)
        end_step(s, st, st->done_now[--st->done_count], now.at);
}

/* Lowest rank that waits in a set that is not empty. */
static int first_rank(const cw_setting *s, cw_setting_state *st, int set)
{
    int word = st->queue_from[set];
    const uint64_t *words = &st->queue[set * s->words];
    while (words[word] == 0)
        word++;
    st->queue_from[set] = word;
    return word * 64 + __builtin_ctzll(words[word]);
}

/* The step of the lowest rank whose crews are all free; -1 when there is none. */
static int next_step(const cw_setting *s, cw_setting_state *st)
{
    int best = s->job.step_count, from = -1;
    for (unsigned left = st->waiting; left; left &= left - 1) {
        const int set = __builtin_ctz(left);
        if (s->sets[set].crews & st->busy)
            continue;
        const int rank = first_rank(s, st, set);
        if (rank < best) {
            best = rank;
            from = set;
        }
    }
    if (from < 0)
        return -1;
    st->queue[from * s->words + best / 64] &= ~(UINT64_C(1) << (best % 64));
    if (--st->queue_count[from] == 0)
        st->waiting &= ~(1U << from);
    return s->at_rank[best];
}

/* A step that had to wait for a crew began because of the crew's last step. */
static void blame_crew(const cw_setting *s, cw_setting_state *st, int i, double at)
{
    const int cause = st->cause[i];
    const int steps = s->job.step_count;
    const double ready = cause < 0       ? 0.0
                         : cause < steps ? st->finish[cause]
                                         : st->arrive[cause - steps];
    if (ready >= at)
        return;
    for (unsigned left = s->job.steps[i].crews; left; left &= left - 1) {
        const int user = st->last_user[__builtin_ctz(left)];
        if (user >= 0 && st->finish[user] >= at)
            st->cause[i] = user;
    }
}

static void begin_what_can(const cw_setting *s, cw_setting_state *st, double at)
{
    for (int i = next_step(s, st); i >= 0 && !st->too_long; i = next_step(s, st)) {
        blame_crew(s, st, i, at);
        begin_step(s, st, i, at);
        while (st->done_count > 0)
            end_step(s, st, st->done_now[--st->done_count], at);
    }
}

static void reset(const cw_setting *s, cw_setting_state *st)
{
    const cw_setting_job *job = &s->job;
    memcpy(st->needs, s->needs, (size_t)job->step_count * sizeof *st->needs);
    memset(st->queue, 0, (size_t)(s->set_count * s->words) * sizeof *st->queue);
    for (int i = 0; i < s->set_count; i++) {
        st->queue_from[i] = s->words;
        st->queue_count[i] = 0;
    }
    for (int c = 0; c < job->crew_count; c++) {
        st->free_crews[c] = job->crew_size[c];
        st->last_user[c] = -1;
    }
    st->busy = st->waiting = 0;
    memset(st->learned, 0, sizeof st->learned);
    for (int d = 0; d < job->clock.days && s->day_sd > 0.0; d++)
        st->day_factor[d] = 0.0;
    for (int l = 0; l < job->load_count; l++) {
        st->off_left[l] = s->off_count[l];
        st->served[l] = 0.0;
        st->gate_open[l] = job->load_gate[l] < 0;
    }
    st->event_count = st->done_count = st->steps_done = st->next_load = st->weather_known = 0;
    st->free_trucks = job->truck_count;
    st->at_setup = -1;
    st->too_long = false;
    st->crane_first = HUGE_VAL;
    st->crane_last = st->crane_used = st->truck_wait = 0.0;
}

/* Back from the step that ended last along what let each begin. */
static void mark_chain(const cw_setting *s, cw_setting_state *st, int last)
{
    const int steps = s->job.step_count, most = steps + s->job.load_count;
    for (int at = last, i = 0; at >= 0 && i < most; at = st->cause[at], i++)
        if (at < steps)
            st->critical[at]++;
}

static int days_worked(const cw_setting *s, double from, double to)
{
    int days = 0;
    for (int d = (int)(from / CW_DAY_MIN); d < s->job.clock.days && s->opens[d] < to; d++)
        days += s->shuts[d] > s->opens[d];
    return days > 0 ? days : 1;
}

static cw_setting_outcome outcome_of(const cw_setting *s, cw_setting_state *st)
{
    cw_setting_outcome out = {.status = CW_SETTING_DONE, .stuck_step = -1};
    if (st->too_long || st->steps_done < s->job.step_count) {
        out.status = st->too_long ? CW_SETTING_TOO_LONG : CW_SETTING_STUCK;
        for (int r = s->job.step_count - 1; r >= 0; r--)
            if (st->needs[s->at_rank[r]] > 0)
                out.stuck_step = s->at_rank[r];
        return out;
    }
    int last = s->at_rank[0];
    for (int i = 0; i < s->job.step_count; i++)
        if (st->finish[i] > st->finish[last])
            last = i;
    out.finish_min = st->finish[last];
    mark_chain(s, st, last);
    st->face.run_count++;
    out.truck_wait_min = st->truck_wait;
    if (st->crane_last > 0.0) {
        const double shifts =
            cw_setting_worked(s, st->crane_last) - cw_setting_worked(s, st->crane_first);
        out.crane_used_min = st->crane_used;
        out.crane_idle_min = fmax(0.0, shifts - st->crane_used);
        out.crane_days = days_worked(s, st->crane_first, st->crane_last);
    }
    return out;
}

static cw_setting_outcome simulate(const cw_setting *s, cw_setting_state *st)
{
    for (int i = 0; i < s->job.step_count; i++)
        if (s->needs[i] == 0)
            queue_step(s, st, i, -1, 0.0);
    while (st->done_count > 0)
        end_step(s, st, st->done_now[--st->done_count], 0.0);
    send_trucks(s, st, -1, 0.0);
    begin_what_can(s, st, 0.0);
    // Every event is a step that ends or one of two moments of a load.
    const int most = s->job.step_count + 2 * s->job.load_count;
    for (int i = 0; i < most && st->event_count > 0 && !st->too_long; i++) {
        const event now = pop(st);
        end_event(s, st, now);
        if (st->event_count == 0 || st->events[0].at > now.at)
            begin_what_can(s, st, now.at);
    }
    return outcome_of(s, st);
}

cw_setting_outcome cw_setting_run(const cw_setting *s, uint64_t seed, int run,
                                  cw_setting_scratch *scratch)
{
    cw_setting_state *st = scratch->state;
    reset(s, st);
    st->share = NULL;
    st->stream = cw_random_run(seed, run);
    st->job_factor = cw_setting_job_factor(s, st->stream);
    return simulate(s, st);
}

cw_setting_outcome cw_setting_fixed(const cw_setting *s, const double *share,
                                    cw_setting_scratch *scratch)
{
    cw_setting_state *st = scratch->state;
    reset(s, st);
    st->share = share;
    st->stream = 0;
    st->job_factor = 1.0;
    return simulate(s, st);
}
