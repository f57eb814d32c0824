/* Early and late times of a network with calendars, four kinds of links and lags. */
#include "schedule_internal.h"

/* The links that go out of each activity, or come in. */
typedef struct fan {
    int *from; /* count + 1 */
    int *links;
} fan;

static fan fan_of(const cw_network *net, bool out, cw_arena *arena)
{
    fan f = {CW_TAKE(arena, int, net->count + 1), CW_TAKE(arena, int, net->link_count)};
    for (int i = 0; i < net->link_count; i++)
        f.from[(out ? net->links[i].from : net->links[i].to) + 1]++;
    for (int i = 0; i < net->count; i++)
        f.from[i + 1] += f.from[i];
    int *next = CW_TAKE(arena, int, net->count);
    for (int i = 0; i < net->link_count; i++) {
        const int end = out ? net->links[i].from : net->links[i].to;
        f.links[f.from[end] + next[end]++] = i;
    }
    return f;
}

/* Activities so that none stands before what it waits for; how many could be placed. */
static int arrange(const cw_network *net, const fan *out, int *order, int *waiting)
{
    int placed = 0;
    for (int i = 0; i < net->link_count; i++)
        waiting[net->links[i].to]++;
    for (int i = 0; i < net->count; i++)
        if (waiting[i] == 0)
            order[placed++] = i;
    for (int at = 0; at < placed; at++)
        for (int k = out->from[order[at]]; k < out->from[order[at] + 1]; k++) {
            const int to = net->links[out->links[k]].to;
            if (--waiting[to] == 0)
                order[placed++] = to;
        }
    return placed;
}

/* Walk back from an activity that could not be placed through ones that could not: it must come
 * round. */
static void name_cycle(const cw_network *net, const int *waiting, cw_network_answer *answer,
                       cw_arena *arena)
{
    const fan in = fan_of(net, false, arena);
    int *seen_at = CW_TAKE(arena, int, net->count), *walk = CW_TAKE(arena, int, net->count);
    int now = 0, length = 0;
    while (waiting[now] == 0)
        now++;
    while (seen_at[now] == 0) {
        walk[length++] = now;
        seen_at[now] = length;
        for (int k = in.from[now]; k < in.from[now + 1]; k++) {
            const int from = net->links[in.links[k]].from;
            if (waiting[from] > 0) {
                now = from;
                break;
            }
        }
    }
    // The walk went against the links: turned round, each waits for the one before it.
    const int first = seen_at[now] - 1;
    int *cycle = CW_TAKE(arena, int, length - first);
    for (int i = first; i < length; i++)
        cycle[length - 1 - i] = walk[i];
    answer->cycle = cycle;
    answer->cycle_count = length - first;
}

static int64_t later(int64_t a, int64_t b)
{
    return a > b ? a : b;
}

static int64_t sooner(int64_t a, int64_t b)
{
    return a < b ? a : b;
}

/* Time @p at_min moved by a lag on its clock, either way. */
static int64_t lagged(const cw_network *net, const cw_link *link, int64_t at_min, int64_t lag_min)
{
    const cw_clock *clock = &net->clocks[link->clock];
    return lag_min >= 0 ? cw_clock_finish(clock, at_min, lag_min)
                        : cw_clock_back(clock, at_min, -lag_min);
}

static bool starts_from(cw_link_kind kind) // the link leaves the start of its first activity
{
    return kind == CW_START_START || kind == CW_START_FINISH;
}

static bool leads_to_start(cw_link_kind kind)
{
    return kind == CW_FINISH_START || kind == CW_START_START;
}

static void go_forward(const cw_network *net, const fan *out, int i, cw_activity_times *times,
                       int64_t *finish_bound)
{
    const cw_activity *a = &net->activities[i];
    const cw_clock *clock = &net->clocks[a->clock];
    cw_activity_times *t = &times[i];
    int64_t start = later(t->early_start_min, a->not_before_min);
    if (finish_bound[i] > 0)
        start = later(start, cw_clock_back(clock, finish_bound[i], a->duration_min));
    t->early_start_min = a->duration_min > 0 ? cw_clock_begin(clock, start) : start;
    t->early_finish_min = cw_clock_finish(clock, t->early_start_min, a->duration_min);
    for (int k = out->from[i]; k < out->from[i + 1]; k++) {
        const cw_link *link = &net->links[out->links[k]];
        const int64_t from = starts_from(link->kind) ? t->early_start_min : t->early_finish_min;
        const int64_t bound = lagged(net, link, from, link->lag_min);
        if (leads_to_start(link->kind))
            times[link->to].early_start_min = later(times[link->to].early_start_min, bound);
        else
            finish_bound[link->to] = later(finish_bound[link->to], bound);
    }
}

static void go_back(const cw_network *net, const fan *out, int i, cw_activity_times *times,
                    int64_t finish_min)
{
    const cw_activity *a = &net->activities[i];
    const cw_clock *clock = &net->clocks[a->clock];
    cw_activity_times *t = &times[i];
    int64_t finish = finish_min;
    int64_t free_to =
        cw_clock_worked(clock, finish_min) - cw_clock_worked(clock, t->early_finish_min);
    for (int k = out->from[i]; k < out->from[i + 1]; k++) {
        const cw_link *link = &net->links[out->links[k]];
        const cw_activity_times *next = &times[link->to];
        const bool to_start = leads_to_start(link->kind), from_start = starts_from(link->kind);
        const int64_t late = lagged(
            net, link, to_start ? next->late_start_min : next->late_finish_min, -link->lag_min);
        const int64_t early = lagged(
            net, link, to_start ? next->early_start_min : next->early_finish_min, -link->lag_min);
        finish = sooner(finish, from_start ? cw_clock_finish(clock, late, a->duration_min) : late);
        const int64_t mine = from_start ? t->early_start_min : t->early_finish_min;
        free_to = sooner(free_to, cw_clock_worked(clock, early) - cw_clock_worked(clock, mine));
    }
    t->late_finish_min = finish;
    t->late_start_min = cw_clock_back(clock, finish, a->duration_min);
    t->float_min =
        cw_clock_worked(clock, t->late_start_min) - cw_clock_worked(clock, t->early_start_min);
    t->free_min = free_to;
    t->critical = t->float_min <= 0;
}

/* Nothing may lie past the last day of the clock it goes by. */
static bool fits(const cw_network *net, const cw_activity_times *times)
{
    for (int i = 0; i < net->count; i++)
        if (times[i].early_finish_min >
            (int64_t)net->clocks[net->activities[i].clock].days * CW_DAY_MIN)
            return false;
    return true;
}

cw_network_answer cw_network_solve(const cw_network *net, cw_arena *arena)
{
    cw_network_answer answer = {.status = CW_NETWORK_OK};
    const fan out = fan_of(net, true, arena);
    int *order = CW_TAKE(arena, int, net->count), *waiting = CW_TAKE(arena, int, net->count);
    answer.order = order;
    if (arrange(net, &out, order, waiting) < net->count) {
        answer.status = CW_NETWORK_CYCLE;
        name_cycle(net, waiting, &answer, arena);
        return answer;
    }
    cw_activity_times *times = CW_TAKE(arena, cw_activity_times, net->count);
    int64_t *finish_bound = CW_TAKE(arena, int64_t, net->count);
    for (int at = 0; at < net->count; at++)
        go_forward(net, &out, order[at], times, finish_bound);
    if (!fits(net, times)) {
        answer.status = CW_NETWORK_TOO_LONG;
        return answer;
    }
    for (int i = 0; i < net->count; i++)
        answer.finish_min = later(answer.finish_min, times[i].early_finish_min);
    for (int at = net->count - 1; at >= 0; at--)
        go_back(net, &out, order[at], times, answer.finish_min);
    answer.times = times;
    return answer;
}
