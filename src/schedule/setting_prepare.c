/* What is checked and worked out once before the runs of a simulation. */
#include "setting_internal.h"

#include <assert.h>
#include <math.h>

#define VARIATION_MAX 1.0
#define BAD_SHARE_MAX 0.95

static bool index_in(int index, int low, int count)
{
    return index >= low && index < count;
}

static const char *step_fault(const cw_setting_job *job, int i, cw_arena *arena)
{
    const cw_setting_step *s = &job->steps[i];
    if (!index_in(s->law, -1, job->law_count))
        return cw_arena_print(arena, "step %d has law %d of %d; give one of them or -1", i, s->law,
                              job->law_count);
    if (s->crews >> job->crew_count)
        return cw_arena_print(arena, "step %d takes a crew that is not among the %d; add the crew",
                              i, job->crew_count);
    if (!index_in(s->learning, -1, CW_LEARNING_MAX))
        return cw_arena_print(arena, "step %d has learning group %d; give 0 to %d or -1", i,
                              s->learning, CW_LEARNING_MAX - 1);
    if (!index_in(s->from_load, -1, job->load_count) || !index_in(s->off_load, -1, job->load_count))
        return cw_arena_print(arena, "step %d has a truck load past the %d; add the load", i,
                              job->load_count);
    if (!index_in(job->rank[i], 0, job->step_count))
        return cw_arena_print(arena, "step %d has rank %d; ranks go from 0 to %d", i, job->rank[i],
                              job->step_count - 1);
    return NULL;
}

static const char *steps_fault(const cw_setting_job *job, cw_arena *arena)
{
    bool *taken = CW_TAKE(arena, bool, job->step_count);
    for (int i = 0; i < job->step_count; i++) {
        const char *fault = step_fault(job, i, arena);
        if (fault)
            return fault;
        if (taken[job->rank[i]])
            return cw_arena_print(arena, "two steps have rank %d; give each its own", job->rank[i]);
        taken[job->rank[i]] = true;
        for (int k = job->follow_from[i]; k < job->follow_from[i + 1]; k++)
            if (!index_in(job->follows[k], 0, job->step_count))
                return cw_arena_print(arena,
                                      "step %d is followed by step %d of %d; correct the graph", i,
                                      job->follows[k], job->step_count);
    }
    return NULL;
}

static bool bad_days_valid(const cw_bad_days *law)
{
    return law->share >= 0.0 && law->share <= BAD_SHARE_MAX && law->persistence >= 0.0 &&
           law->persistence <= BAD_SHARE_MAX;
}

static const char *laws_fault(const cw_setting_job *job, cw_arena *arena)
{
    for (int i = 0; i < job->law_count; i++)
        if (!cw_law_valid(&job->laws[i]))
            return cw_arena_print(
                arena, "law %d is no law: order low, likely and high, or give mean and variation",
                i);
    const int used[4] = {job->move_law, job->load_law, job->out_law, job->back_law};
    for (int i = 0; i < 4; i++)
        if (!index_in(used[i], -1, job->law_count))
            return cw_arena_print(
                arena, "law %d of %d for the crane or the trucks; give one of them or -1", used[i],
                job->law_count);
    if (!bad_days_valid(&job->rain) || !bad_days_valid(&job->wind) || !bad_days_valid(&job->cold))
        return "share and persistence of bad days lie from 0 to 0.95; correct them";
    if (!(job->day_variation >= 0.0 && job->day_variation <= VARIATION_MAX) ||
        !(job->job_variation >= 0.0 && job->job_variation <= VARIATION_MAX))
        return "variation of the day and of the job lies from 0 to 1; correct it";
    return NULL;
}

const char *cw_setting_fault(const cw_setting_job *job, cw_arena *arena)
{
    if (job->step_count < 1 || job->step_count > CW_SETTING_STEPS_MAX)
        return cw_arena_print(arena, "%d steps; 1 to %d can be simulated", job->step_count,
                              CW_SETTING_STEPS_MAX);
    if (job->crew_count < 0 || job->crew_count > CW_CREWS_MAX)
        return cw_arena_print(arena, "%d crews; at most %d are kept apart", job->crew_count,
                              CW_CREWS_MAX);
    for (int i = 0; i < job->crew_count; i++)
        if (job->crew_size[i] < 1)
            return cw_arena_print(arena, "there are %d of crew %d; give 1 at least",
                                  job->crew_size[i], i);
    if (!index_in(job->crane, -1, job->crew_count))
        return cw_arena_print(arena, "crane is crew %d of %d; give one of them or -1", job->crane,
                              job->crew_count);
    if (job->load_count > 0 && (job->truck_count < 1 || job->truck_count > CW_TRUCKS_MAX))
        return cw_arena_print(arena, "%d trucks; give 1 to %d", job->truck_count, CW_TRUCKS_MAX);
    for (int i = 0; i < job->load_count; i++)
        if (!index_in(job->load_gate[i], -1, job->step_count))
            return cw_arena_print(arena, "load %d waits for step %d of %d; correct it", i,
                                  job->load_gate[i], job->step_count);
    const char *fault = laws_fault(job, arena);
    return fault ? fault : steps_fault(job, arena);
}

/* ---- tables ---- */

static void make_sets(cw_setting *s, int *set_of)
{
    for (int i = 0; i < s->job.step_count; i++) {
        const unsigned crews = s->job.steps[i].crews;
        set_of[i] = -1;
        if (crews == 0)
            continue;
        int k = 0;
        while (k < s->set_count && s->sets[k].crews != crews)
            k++;
        assert(k < CW_CREW_SETS_MAX); // steps of a job take few different sets
        if (k == s->set_count)
            s->sets[s->set_count++].crews = crews;
        s->sets[k].step_count++;
        set_of[i] = k;
    }
}

static void make_needs(cw_setting *s, cw_arena *arena)
{
    const cw_setting_job *job = &s->job;
    int *needs = CW_TAKE(arena, int, job->step_count),
        *at_rank = CW_TAKE(arena, int, job->step_count);
    for (int i = 0; i < job->step_count; i++) {
        at_rank[job->rank[i]] = i;
        needs[i] += job->steps[i].from_load >= 0;
        for (int k = job->follow_from[i]; k < job->follow_from[i + 1]; k++)
            needs[job->follows[k]]++;
    }
    s->needs = needs;
    s->at_rank = at_rank;
}

static void make_loads(cw_setting *s, cw_arena *arena)
{
    const cw_setting_job *job = &s->job;
    int *from = CW_TAKE(arena, int, job->load_count + 1),
        *steps = CW_TAKE(arena, int, job->step_count);
    int *off = CW_TAKE(arena, int, job->load_count + 1),
        *next = CW_TAKE(arena, int, job->load_count + 1);
    for (int i = 0; i < job->step_count; i++) {
        if (job->steps[i].from_load >= 0)
            from[job->steps[i].from_load + 1]++;
        if (job->steps[i].off_load >= 0)
            off[job->steps[i].off_load]++;
    }
    for (int l = 0; l < job->load_count; l++)
        from[l + 1] += from[l];
    for (int i = 0; i < job->step_count; i++)
        if (job->steps[i].from_load >= 0) {
            const int l = job->steps[i].from_load;
            steps[from[l] + next[l]++] = i;
        }
    s->load_steps = steps;
    s->load_steps_from = from;
    s->off_count = off;

    int *gated_from = CW_TAKE(arena, int, job->step_count + 1),
        *gated = CW_TAKE(arena, int, job->load_count + 1);
    int *placed = CW_TAKE(arena, int, job->step_count);
    for (int l = 0; l < job->load_count; l++)
        if (job->load_gate[l] >= 0)
            gated_from[job->load_gate[l] + 1]++;
    for (int i = 0; i < job->step_count; i++)
        gated_from[i + 1] += gated_from[i];
    for (int l = 0; l < job->load_count; l++)
        if (job->load_gate[l] >= 0)
            gated[gated_from[job->load_gate[l]] + placed[job->load_gate[l]]++] = l;
    s->gated = gated;
    s->gated_from = gated_from;
}

/* Unit form: t_k = t_1 k^(log2 ratio), not below the least share. */
static void make_learning(cw_setting *s, cw_arena *arena)
{
    for (int g = 0; g < CW_LEARNING_MAX; g++) {
        int count = 0;
        for (int i = 0; i < s->job.step_count; i++)
            count += s->job.steps[i].learning == g;
        if (count == 0)
            continue;
        double *factor = CW_TAKE(arena, double, count);
        const cw_learning_group *group = &s->job.learning[g];
        for (int k = 0; k < count; k++)
            factor[k] = fmax(group->least, pow(k + 1.0, log2(group->ratio)));
        s->learned[g] = factor;
    }
}

static void make_days(cw_setting *s, cw_arena *arena)
{
    const cw_clock *clock = &s->job.clock;
    double *opens = CW_TAKE(arena, double, clock->days),
           *shuts = CW_TAKE(arena, double, clock->days);
    double *before = CW_TAKE(arena, double, clock->days + 1);
    for (int d = 0; d < clock->days; d++) {
        opens[d] = (double)d * CW_DAY_MIN + clock->start_min[d];
        shuts[d] = opens[d] + clock->work_min[d];
        before[d + 1] = before[d] + clock->work_min[d];
    }
    s->opens = opens;
    s->shuts = shuts;
    s->before = before;
}

/* Spread of the logarithm of a lognormal factor with this variation. */
static double log_sd(double variation)
{
    return sqrt(log(1.0 + variation * variation));
}

const cw_setting *cw_setting_prepare(const cw_setting_job *job, cw_arena *arena)
{
    cw_setting *s = CW_TAKE(arena, cw_setting, 1);
    s->job = *job;
    s->words = (job->step_count + 63) / 64;
    cw_sampler *samplers = CW_TAKE(arena, cw_sampler, job->law_count);
    for (int i = 0; i < job->law_count; i++)
        samplers[i] = cw_sampler_make(&job->laws[i], arena);
    s->samplers = samplers;
    int *set_of = CW_TAKE(arena, int, job->step_count);
    make_sets(s, set_of);
    s->set_of = set_of;
    make_needs(s, arena);
    make_loads(s, arena);
    make_learning(s, arena);
    make_days(s, arena);
    s->day_sd = log_sd(job->day_variation);
    s->job_sd = log_sd(job->job_variation);
    return s;
}

cw_setting_scratch *cw_setting_scratch_make(const cw_setting *s, cw_arena *arena)
{
    const cw_setting_job *job = &s->job;
    cw_setting_state *st = CW_TAKE(arena, cw_setting_state, 1);
    st->needs = CW_TAKE(arena, int, job->step_count);
    st->queue = CW_TAKE(arena, uint64_t, s->set_count * s->words + 1);
    st->queue_from = CW_TAKE(arena, int, CW_CREW_SETS_MAX);
    st->queue_count = CW_TAKE(arena, int, CW_CREW_SETS_MAX);
    st->events = CW_TAKE(arena, event, job->step_count + 2 * job->load_count);
    st->start = CW_TAKE(arena, double, job->step_count);
    st->finish = CW_TAKE(arena, double, job->step_count);
    st->cause = CW_TAKE(arena, int, job->step_count + job->load_count);
    st->off_left = CW_TAKE(arena, int, job->load_count);
    st->let_go = CW_TAKE(arena, int, job->load_count);
    st->arrive = CW_TAKE(arena, double, job->load_count);
    st->served = CW_TAKE(arena, double, job->load_count);
    st->gate_open = CW_TAKE(arena, bool, job->load_count);
    st->weather = CW_TAKE(arena, unsigned char, job->clock.days);
    st->day_factor = CW_TAKE(arena, double, job->clock.days);
    st->done_now = CW_TAKE(arena, int, job->step_count);
    st->critical = CW_TAKE(arena, int, job->step_count);
    st->face = (cw_setting_scratch){.state = st,
                                    .start_min = st->start,
                                    .finish_min = st->finish,
                                    .critical_count = st->critical};
    return &st->face;
}
