/* A network typed in one line, for the calculator. */
#include "schedule_internal.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { LINKS_MAX = 512, NAME_MAX = 15, LINE_MAX_BYTES = 4000 };
#define DURATION_MAX 1000.0
#define VARIANCE_SHARE 36.0 /* ((b - a)/6)^2 */

static const char grammar[] =
    "write A:6/B:8-10-12/C:3:A,B~ss+2 : name, duration or low-likely-high, what it waits for, "
    "with ~fs, ~ss, ~ff or ~sf and a lag";
static const char path_method[] = "critical path method";
static const char three_point[] =
    "three-point estimate: mean (a + 4m + b)/6, standard deviation (b - a)/6";

typedef struct activity {
    char name[NAME_MAX + 1];
    double mean, variance;
    const char *needs; /* text of what it waits for, up to the next slash */
} activity;

typedef struct typed {
    activity activities[CW_LIST_MAX];
    int count;
    cw_link links[LINKS_MAX];
    int link_count;
} typed;

/* A place in the text that is read, and the first thing that is wrong. */
typedef struct reader {
    const char *at;
    char fault[160];
} reader;

static bool wrong(reader *r, const char *what, const char *near)
{
    const int length = (int)strcspn(near, "/");
    if (!r->fault[0])
        snprintf(r->fault, sizeof r->fault, "%s at \"%.*s\"", what, length < 30 ? length : 30,
                 near);
    return false;
}

static bool is_name(char c)
{
    return (c >= 'A' && c <= 'Z') || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '_';
}

static bool read_name(reader *r, char name[NAME_MAX + 1])
{
    const char *from = r->at;
    int length = 0;
    for (; is_name(*r->at) && length < NAME_MAX; r->at++)
        name[length++] = *r->at;
    name[length] = '\0';
    return length > 0 && !is_name(*r->at) ? true
                                          : wrong(r, "no name of 1 to 15 letters and digits", from);
}

static bool read_number(reader *r, double *value)
{
    const char *from = r->at;
    double scale = 1.0;
    int digits = 0;
    *value = 0.0;
    for (; *r->at >= '0' && *r->at <= '9' && digits < 9; r->at++, digits++)
        *value = *value * 10.0 + (*r->at - '0');
    if (*r->at == '.')
        for (r->at++; *r->at >= '0' && *r->at <= '9' && digits < 9; r->at++, digits++)
            *value += (*r->at - '0') * (scale /= 10.0);
    return digits > 0 && *value <= DURATION_MAX ? true : wrong(r, "no number from 0 to 1000", from);
}

static bool read_times(reader *r, activity *a)
{
    double times[3] = {0.0};
    const char *from = r->at;
    int count = 0;
    do {
        if (!read_number(r, &times[count++]))
            return false;
    } while (count < 3 && *r->at == '-' && r->at++);
    if (count == 2 || (count == 3 && !(times[0] <= times[1] && times[1] <= times[2])))
        return wrong(r, "times are one, or low-likely-high in this order", from);
    a->mean = count == 1 ? times[0] : (times[0] + 4.0 * times[1] + times[2]) / 6.0;
    a->variance = count == 1 ? 0.0 : (times[2] - times[0]) * (times[2] - times[0]) / VARIANCE_SHARE;
    return true;
}

static int find(const typed *net, const char *name)
{
    for (int i = 0; i < net->count; i++)
        if (strcmp(net->activities[i].name, name) == 0)
            return i;
    return -1;
}

static bool read_activity(reader *r, typed *net)
{
    activity *a = &net->activities[net->count];
    const char *from = r->at;
    if (net->count == CW_LIST_MAX)
        return wrong(r, "more than 64 activities", from);
    if (!read_name(r, a->name))
        return false;
    if (find(net, a->name) >= 0)
        return wrong(r, "a name is there twice", from);
    if (*r->at++ != ':')
        return wrong(r, "no colon and duration after the name", from);
    if (!read_times(r, a))
        return false;
    a->needs = "";
    if (*r->at == ':') {
        a->needs = ++r->at;
        r->at += strcspn(r->at, "/");
    }
    net->count++;
    return *r->at == '\0' || *r->at == '/' ? true : wrong(r, "something is left over", r->at);
}

static bool read_lag(reader *r, cw_link *link)
{
    static const char *const kinds[] = {"fs", "ss", "ff", "sf"};
    double lag = 0.0;
    int kind = 0;
    while (kind < 4 && strncmp(r->at, kinds[kind], 2) != 0)
        kind++;
    if (kind == 4)
        return wrong(r, "no ~fs, ~ss, ~ff or ~sf", r->at);
    r->at += 2;
    link->kind = (cw_link_kind)kind;
    const char sign = *r->at;
    if (sign != '+' && sign != '-')
        return true;
    r->at++;
    if (!read_number(r, &lag))
        return false;
    link->lag_min = (int64_t)floor(lag * CW_DAY_MIN + 0.5) * (sign == '-' ? -1 : 1);
    return true;
}

static bool read_needs(reader *r, typed *net, int to)
{
    char name[NAME_MAX + 1];
    r->at = net->activities[to].needs;
    while (*r->at && *r->at != '/') {
        const char *from = r->at;
        if (!read_name(r, name))
            return false;
        if (net->link_count == LINKS_MAX)
            return wrong(r, "more than 512 links", from);
        cw_link *link = &net->links[net->link_count++];
        *link = (cw_link){find(net, name), to, CW_FINISH_START, 0, 0};
        if (link->from < 0)
            return wrong(r, "no activity of this name", from);
        if (*r->at == '~' && (r->at++, !read_lag(r, link)))
            return false;
        if (*r->at == ',')
            r->at++;
        else if (*r->at && *r->at != '/')
            return wrong(r, "something is left over", r->at);
    }
    return true;
}

static bool read_typed(const char *text, typed *net, reader *r)
{
    *r = (reader){.at = text};
    net->count = net->link_count = 0;
    if (strlen(text) > LINE_MAX_BYTES)
        return wrong(r, "more than 4000 letters", text);
    do {
        if (!read_activity(r, net))
            return false;
    } while (*r->at == '/' && r->at++);
    for (int i = 0; i < net->count; i++)
        if (!read_needs(r, net, i))
            return false;
    return true;
}

/* ---- the answer ---- */

static cw_network_answer solve(const typed *net, cw_arena *arena)
{
    const cw_calendar always = cw_calendar_elapsed();
    cw_clock *clock = CW_TAKE(arena, cw_clock, 1);
    cw_activity *activities = CW_TAKE(arena, cw_activity, net->count);
    *clock = cw_clock_make(&always, 0, CW_CLOCK_DAYS_MAX, arena);
    for (int i = 0; i < net->count; i++)
        activities[i].duration_min = (int64_t)floor(net->activities[i].mean * CW_DAY_MIN + 0.5);
    const cw_network network = {activities, net->count, net->links, net->link_count, clock};
    return cw_network_solve(&network, arena);
}

static double units(int64_t minutes)
{
    return (double)minutes / CW_DAY_MIN;
}

/* Whether the link holds its second activity where it is. */
static bool drives(const cw_link *link, const cw_activity_times *times)
{
    const cw_activity_times *a = &times[link->from], *b = &times[link->to];
    const int64_t from = link->kind == CW_FINISH_START || link->kind == CW_FINISH_FINISH
                             ? a->early_finish_min
                             : a->early_start_min;
    const int64_t to = link->kind == CW_FINISH_START || link->kind == CW_START_START
                           ? b->early_start_min
                           : b->early_finish_min;
    return from + link->lag_min == to;
}

/* Variance of the chain to the finish; of several the greatest. */
static double chain_variance(const typed *net, const cw_network_answer *answer)
{
    double sum[CW_LIST_MAX] = {0.0}, most = 0.0;
    for (int at = 0; at < net->count; at++) {
        const int i = answer->order[at];
        if (!answer->times[i].critical)
            continue;
        double before = 0.0;
        for (int k = 0; k < net->link_count; k++)
            if (net->links[k].to == i && answer->times[net->links[k].from].critical &&
                drives(&net->links[k], answer->times))
                before = fmax(before, sum[net->links[k].from]);
        sum[i] = before + net->activities[i].variance;
        if (answer->times[i].early_finish_min == answer->finish_min)
            most = fmax(most, sum[i]);
    }
    return most;
}

bool cw_network_input_valid(const cw_network_input *in, cw_pos where, cw_diags *diags)
{
    typed net;
    reader r;
    if (!read_typed(in->activities, &net, &r)) {
        cw_diag_add(diags, where, CW_E_SYNTAX, "activities: %s; %s", r.fault, grammar);
        return false;
    }
    const cw_network_answer answer = solve(&net, diags->arena);
    if (answer.status == CW_NETWORK_OK)
        return true;
    if (answer.status == CW_NETWORK_TOO_LONG) {
        cw_diag_add(diags, where, CW_E_RANGE,
                    "the network is longer than %d; shorten durations and lags", CW_CLOCK_DAYS_MAX);
        return false;
    }
    const char *names = "";
    for (int i = 0; i < answer.cycle_count; i++)
        names = cw_arena_print(diags->arena, "%s%s%s", names, i ? ", " : "",
                               net.activities[answer.cycle[i]].name);
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "activities %s wait for one another in a ring; take one of the links out", names);
    return false;
}

static void show(const typed *net, const cw_network_answer *answer, cw_working *w)
{
    for (int i = 0; w && i < net->count; i++) {
        const cw_activity_times *t = &answer->times[i];
        const char *dates = cw_arena_print(
            w->arena, "starts %.6g to %.6g, ends %.6g to %.6g, float%s", units(t->early_start_min),
            units(t->late_start_min), units(t->early_finish_min), units(t->late_finish_min),
            t->critical ? " (critical)" : "");
        cw_step_add(
            w, cw_arena_copy(w->arena, net->activities[i].name, strlen(net->activities[i].name)),
            dates, units(t->float_min), CW_DIM_NONE, path_method);
    }
}

cw_network_result cw_schedule_network(const cw_network_input *in, cw_working *w)
{
    typed net;
    reader r;
    cw_network_result out = {0};
    cw_arena arena = cw_arena_on(NULL);
    if (!read_typed(in->activities, &net, &r))
        return out; // refused by cw_network_input_valid()
    const cw_network_answer answer = solve(&net, &arena);
    if (answer.status == CW_NETWORK_OK) {
        out.finish = units(answer.finish_min);
        out.floats.count = net.count;
        for (int i = 0; i < net.count; i++) {
            out.floats.items[i] = units(answer.times[i].float_min);
            out.critical += answer.times[i].critical;
        }
        out.sd = sqrt(chain_variance(&net, &answer));
        show(&net, &answer, w);
    }
    cw_arena_release(&arena);
    cw_step_add(w, "T", "latest early finish", out.finish, CW_DIM_NONE, path_method);
    cw_step_add(w, "sd", "of the critical chain; of several the greatest", out.sd, CW_DIM_NONE,
                three_point);
    out.p80 = cw_step_add(w, "P80", "T + z sd", out.finish + cw_normal_quantile(0.8) * out.sd,
                          CW_DIM_NONE, three_point);
    return out;
}

/* ---- calculator ---- */

static const cw_field inputs[] = {
    {"activities", NULL, CW_KIND_TEXT, CW_DIM_TEXT, 0, 0, NULL, true,
     "name:duration:what it waits for, with / between; duration or low-likely-high in one unit; "
     "~ss+2 and the like for other "
     "links and lags",
     NULL, NULL, offsetof(cw_network_input, activities), CW_NO_FLAG},
};

static const cw_field outputs[] = {
    OUT("finish", "T", CW_DIM_NONE, "in the unit of the durations", cw_network_result, finish),
    LIST_OUT("floats", NULL, CW_DIM_NONE, "total float of each activity, as typed",
             cw_network_result, floats),
    COUNT_OUT("critical", NULL, "activities without float", cw_network_result, critical),
    OUT("sd", NULL, CW_DIM_NONE, "of the critical chain, from three times", cw_network_result, sd),
    OUT("p80", NULL, CW_DIM_NONE, "of that chain alone: where chains meet the truth is later",
        cw_network_result, p80),
};

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_network_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_network_result *)output = cw_schedule_network(input, working);
}

const cw_calc cw_calc_network = {
    .name = "network",
    .title = "Critical path of a few activities",
    .group = "schedule",
    .about = "A network typed in one line, without calendars; the schedule of a job has them.  The "
             "working lists early and "
             "late dates of each activity.",
    .source = "critical path method; three-point estimates",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_network_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_network_result),
    .valid = valid,
    .run = run,
    .example =
        "activities=dig:3/bed:1:dig/base:2:bed~ss+0.5/top:2:base~ss+1,base~ff+0.5/fill:2-3-6:top",
};
