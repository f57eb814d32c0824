/* The setting order as a simulation: its steps, needs and wanted sequence are those of the order
 * and nothing else. */
#include <assert.h>

#include "cw/units.h"
#include "plan_internal.h"

#define CREW(name) (1U << CW_CREW_##name)
#define GROUND (CW_EXPOSED_RAIN | CW_EXPOSED_DRYING)

/* How each kind of step is done; kinds without a name take no time: somebody signs. */
static const struct {
    const char *time; /* of the rows time.NAME.low, .likely and .high */
    unsigned crews, exposed;
    bool whole;
    int learning;
} ways[CW_STEP_KINDS] = {
    [CW_STEP_DIVERTED] = {"diversion", CREW(EARTH), CW_EXPOSED_RAIN, false, -1},
    [CW_STEP_SUBGRADE] = {"subgrade", CREW(EARTH), GROUND, false, -1},
    [CW_STEP_BEDDING] = {"bedding", CREW(BEDDING), CW_EXPOSED_RAIN, true, -1},
    [CW_STEP_RECEIVED] = {"received", CREW(JOINT), CW_EXPOSED_NOT, true, -1},
    [CW_STEP_JOINT_SEALANT] = {"joint_sealant", CREW(JOINT), CW_EXPOSED_RAIN, true, -1},
    [CW_STEP_WALLS_LEVELLED] = {"walls_levelled", CREW(JOINT), CW_EXPOSED_NOT, true, -1},
    [CW_STEP_SEAT_SEALANT] = {"seat_sealant", CREW(JOINT), CW_EXPOSED_RAIN, true, -1},
    [CW_STEP_SET] = {"set", CREW(CRANE) | CREW(SETTING), CW_EXPOSED_WIND, true, 0},
    [CW_STEP_RELEASED] = {"released", CREW(CRANE) | CREW(SETTING), CW_EXPOSED_NOT, false, -1},
    [CW_STEP_WRAPPED] = {"wrapped", CREW(JOINT), CW_EXPOSED_RAIN, false, -1},
    [CW_STEP_GAP_READY] = {"gap_ready", CREW(FILL), CW_EXPOSED_NOT, false, -1},
    [CW_STEP_FILL] = {"fill", CREW(FILL), CW_EXPOSED_RAIN | CW_EXPOSED_COLD, true, -1},
    [CW_STEP_FILL_SET] = {"fill_set", 0, CW_EXPOSED_NOT, false, -1},
    [CW_STEP_FILL_CURED] = {"fill_cured", 0, CW_EXPOSED_NOT, false, -1},
    [CW_STEP_BACKFILL] = {"backfill", CREW(EARTH), GROUND, false, -1},
    [CW_STEP_COVER] = {"cover", CREW(EARTH), GROUND, false, -1},
    [CW_STEP_PUMPS_OFF] = {"pumps_off", CREW(EARTH), CW_EXPOSED_NOT, false, -1},
    [CW_STEP_WALK_THROUGH] = {"walk_through", CREW(SETTING), CW_EXPOSED_NOT, false, -1},
};

static const char *const hauls[] = {"haul.load", "haul.out", "haul.back", "time.move"};
enum { HAULS = 4 };

static double minutes(const cw_rows *rows, const char *stem, const char *end, cw_arena *arena)
{
    const cw_row *row = cw_rows_find(rows, cw_arena_print(arena, "%s.%s", stem, end));
    assert(row); // of data/schedule.csv
    return row->dim == CW_DIM_HOUR ? row->value * CW_MIN_PER_HOUR : row->value;
}

static cw_law law_of(const cw_rows *rows, const char *stem, cw_arena *arena)
{
    cw_law law = {CW_LAW_BETA,
                  minutes(rows, stem, "low", arena),
                  minutes(rows, stem, "likely", arena),
                  minutes(rows, stem, "high", arena),
                  0.0,
                  0.0};
    if (law.low >= law.high)
        law.kind = CW_LAW_FIXED;
    return law;
}

/* The same step of two alternatives has the same random numbers: a number made of what the step is.
 */
static uint64_t stream_of(const cw_step *step)
{
    static const int sizes[] = {16, 4096, 128, 4, 16}; // barrels, pieces, parts, sides, phases
    const int parts[] = {step->barrel + 1, step->index + 1, step->part + 1, (int)step->side,
                         step->phase + 1};
    uint64_t number = (uint64_t)step->kind * 2 + (uint64_t)step->row;
    for (int i = 0; i < 5; i++)
        number = number * (uint64_t)sizes[i] + (uint64_t)(parts[i] % sizes[i]);
    return number;
}

static void take_steps(const cw_order_graph *graph, const int *load_of_step, const int *law_of_kind,
                       cw_setting_job *job, cw_arena *arena)
{
    cw_setting_step *steps = CW_TAKE(arena, cw_setting_step, graph->step_count);
    int *follows = CW_TAKE(arena, int, graph->need_count);
    for (int i = 0; i < graph->step_count; i++) {
        const cw_step_kind kind = graph->steps[i].kind;
        const int load = load_of_step ? load_of_step[i] : -1;
        steps[i] = (cw_setting_step){.law = law_of_kind[kind],
                                     .crews = ways[kind].crews,
                                     .exposed = ways[kind].exposed,
                                     .whole = ways[kind].whole,
                                     .setup = -1,
                                     .learning = ways[kind].time ? ways[kind].learning : -1,
                                     .from_load = kind == CW_STEP_RECEIVED ? load : -1,
                                     .off_load = kind == CW_STEP_SET ? load : -1,
                                     .stream = stream_of(&graph->steps[i])};
    }
    for (int i = 0; i < graph->need_count; i++)
        follows[i] = graph->follows[i].step;
    job->steps = steps;
    job->step_count = graph->step_count;
    job->follow_from = graph->follow_from;
    job->follows = follows;
    job->rank = graph->rank;
}

/* Trucks are called when the subgrade under the first of their pieces has been accepted. */
static void take_loads(const cw_order_graph *graph, const int *load_of_step, int load_count,
                       cw_setting_job *job, cw_arena *arena)
{
    int *gates = CW_TAKE(arena, int, load_count);
    for (int l = 0; l < load_count; l++)
        gates[l] = -1;
    for (int at = graph->step_count - 1; at >= 0;
         at--) { // backwards: the first piece is last to write
        const int i = graph->sequence[at];
        const cw_step *set = &graph->steps[i];
        if (set->kind != CW_STEP_SET || load_of_step[i] < 0)
            continue;
        for (int k = 0; k < graph->step_count; k++) {
            const cw_step *under = &graph->steps[k];
            if (under->kind == CW_STEP_SUBGRADE && under->barrel == set->barrel &&
                under->phase == set->phase)
                gates[load_of_step[i]] = k;
        }
    }
    job->load_gate = gates;
    job->load_count = load_count;
}

const char *cw_plan_law_name(int law, cw_arena *arena)
{
    int at = 0;
    for (int kind = 0; kind < CW_STEP_KINDS; kind++)
        if (ways[kind].time && at++ == law)
            return cw_arena_print(arena, "time.%s", ways[kind].time);
    return hauls[law - at];
}

cw_setting_job cw_plan_setting_job(const cw_order_graph *graph, const cw_plan_pace *pace,
                                   const cw_rows *rows, cw_arena *arena)
{
    cw_setting_job job = {
        .crane = CW_CREW_CRANE, .truck_count = pace->trucks, .clock = pace->clock};
    cw_law *laws = CW_TAKE(arena, cw_law, CW_STEP_KINDS + HAULS);
    int law_of_kind[CW_STEP_KINDS], haul_laws[HAULS];
    for (int kind = 0; kind < CW_STEP_KINDS; kind++) {
        law_of_kind[kind] = -1;
        if (!ways[kind].time)
            continue;
        laws[job.law_count] =
            law_of(rows, cw_arena_print(arena, "time.%s", ways[kind].time), arena);
        law_of_kind[kind] = job.law_count++;
    }
    for (int i = 0; i < HAULS; i++) {
        laws[job.law_count] = law_of(rows, hauls[i], arena);
        haul_laws[i] = job.law_count++;
    }
    job.laws = laws;
    job.load_law = haul_laws[0];
    job.out_law = haul_laws[1];
    job.back_law = haul_laws[2];
    job.move_law = haul_laws[3];
    job.crew_count = CW_CREWS;
    for (int c = 0; c < CW_CREWS; c++)
        job.crew_size[c] = pace->crews[c];
    const double persistence = cw_rows_value(rows, "weather.persistence");
    job.rain = (cw_bad_days){cw_rows_value(rows, "weather.rain"), persistence};
    job.wind = (cw_bad_days){cw_rows_value(rows, "weather.wind"), persistence};
    job.cold = (cw_bad_days){cw_rows_value(rows, "weather.cold"), persistence};
    job.day_variation = cw_rows_value(rows, "pace.day_variation");
    job.job_variation = cw_rows_value(rows, "pace.job_variation");
    for (int g = 0; g < CW_LEARNING_MAX; g++)
        job.learning[g] = (cw_learning_group){cw_rows_value(rows, "pace.learning"),
                                              cw_rows_value(rows, "pace.learning_least")};
    take_steps(graph, pace->load_of_step, law_of_kind, &job, arena);
    take_loads(graph, pace->load_of_step, pace->load_of_step ? pace->load_count : 0, &job, arena);
    return job;
}
