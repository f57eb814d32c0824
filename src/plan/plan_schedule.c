/* The schedule: the order with crews, trucks and weather; once without chance for the bar chart,
 * and many times for how sure the dates are. */
#include <string.h>

#include "cw/date.h"
#include "cw/text.h"
#include "cw/units.h"
#include "plan_internal.h"

enum { HORIZON_DAYS = 2000, BARS_MAX = 128 };

/* What the lines of the chart are called; kinds with one name share a line. */
static const char *bar_name(const cw_step *step, int rows)
{
    switch (step->kind) {
    case CW_STEP_DIVERTED:
        return "Stream led round";
    case CW_STEP_SUBGRADE:
        return "Subgrade";
    case CW_STEP_BEDDING:
        return "Bedding";
    case CW_STEP_SET:
        return rows == 1 ? "Rings set" : step->row == CW_ORDER_BASE ? "Bases set" : "Tops set";
    case CW_STEP_WRAPPED:
        return "Joints wrapped";
    case CW_STEP_GAP_READY:
    case CW_STEP_FILL:
    case CW_STEP_FILL_SET:
    case CW_STEP_FILL_CURED:
        return "Fill between barrels, cured";
    case CW_STEP_BACKFILL:
        return "Backfill";
    case CW_STEP_COVER:
        return "Cover";
    case CW_STEP_PUMPS_OFF:
        return "Diversion taken out";
    case CW_STEP_WALK_THROUGH:
        return "Walk-through";
    default:
        return NULL;
    }
}

/* The calendar of the job laid out from its first day. */
static cw_clock clock_of(const cw_job_schedule *given, int first_day, cw_arena *arena)
{
    int *off = CW_TAKE(arena, int, CW_OFF_DAYS_MAX);
    const char *bad = NULL;
    cw_calendar calendar = {.off_days = off, .off_count = cw_job_off_days(given->off, off, &bad)};
    for (int d = 0; d < given->days_per_week; d++) {
        calendar.start_min[d] = (int)(given->from_h * CW_MIN_PER_HOUR + 0.5);
        calendar.work_min[d] = (int)(given->shift_h * CW_MIN_PER_HOUR + 0.5);
    }
    return cw_clock_make(&calendar, first_day, HORIZON_DAYS, arena);
}

static cw_plan_pace pace_of(const draft *d, int first_day)
{
    const cw_job_schedule *given = &d->job->schedule;
    const cw_order_graph *graph = d->plan.order;
    int *load = CW_TAKE(d->arena, int, graph->step_count);
    cw_plan_pace pace = {.clock = clock_of(given, first_day, d->arena),
                         .trucks = given->trucks,
                         .load_of_step = load};
    for (int c = 0; c < CW_CREWS; c++)
        pace.crews[c] = c == CW_CREW_JOINT   ? given->joint_crews
                        : c == CW_CREW_EARTH ? given->earth_crews
                                             : 1;
    for (int i = 0; i < graph->step_count; i++)
        load[i] = -1;
    for (int i = 0; i < d->plan.piece_count; i++) {
        const cw_plan_piece *piece = &d->plan.pieces[i];
        const cw_piece_steps *steps = &graph->pieces[piece->barrel][piece->row][piece->index];
        load[steps->received] = load[steps->set] = piece->load - 1;
        pace.load_count = piece->load > pace.load_count ? piece->load : pace.load_count;
    }
    return pace;
}

/* ---- the run without chance ---- */

static cw_plan_bar *bar_of(draft *d, cw_plan_bar *bars, int *count, const cw_step *step)
{
    const char *name = bar_name(step, d->plan.order->rows);
    if (!name)
        return NULL;
    if (d->plan.order->phase_count > 1)
        name = cw_arena_print(d->arena, "Phase %d: %s", step->phase + 1, name);
    for (int i = 0; i < *count; i++)
        if (cw_text_same(bars[i].name, name))
            return &bars[i];
    if (*count == BARS_MAX)
        return NULL;
    bars[*count] = (cw_plan_bar){.name = name, .start_min = 1e30};
    return &bars[(*count)++];
}

static void take_bars(draft *d, const cw_setting_scratch *run)
{
    const cw_order_graph *graph = d->plan.order;
    cw_plan_bar *bars = CW_TAKE(d->arena, cw_plan_bar, BARS_MAX);
    double *set = CW_TAKE(d->arena, double, d->plan.piece_count);
    int count = 0;
    for (int at = 0; at < graph->step_count; at++) { // in the wanted order, so are the lines
        const int i = graph->sequence[at];
        cw_plan_bar *bar = bar_of(d, bars, &count, &graph->steps[i]);
        if (!bar)
            continue;
        bar->start_min = run->start_min[i] < bar->start_min ? run->start_min[i] : bar->start_min;
        bar->finish_min =
            run->finish_min[i] > bar->finish_min ? run->finish_min[i] : bar->finish_min;
    }
    for (int i = 0; i < d->plan.piece_count; i++) {
        const cw_plan_piece *piece = &d->plan.pieces[i];
        set[i] = run->finish_min[graph->pieces[piece->barrel][piece->row][piece->index].set];
    }
    d->plan.schedule.bars = bars;
    d->plan.schedule.bar_count = count;
    d->plan.schedule.set_min = set;
}

static void take_criticality(draft *d, const cw_setting_scratch *scratch)
{
    const cw_order_graph *graph = d->plan.order;
    cw_plan_bar *bars = (cw_plan_bar *)d->plan.schedule.bars;
    int count = d->plan.schedule.bar_count;
    for (int i = 0; i < graph->step_count; i++) {
        cw_plan_bar *bar = bar_of(d, bars, &count, &graph->steps[i]);
        const double share =
            scratch->run_count > 0 ? (double)scratch->critical_count[i] / scratch->run_count : 0.0;
        if (bar && share > bar->critical)
            bar->critical = share;
    }
}

/* ---- the runs ---- */

static void take_runs(draft *d, const cw_setting *setting)
{
    const cw_job_schedule *given = &d->job->schedule;
    cw_plan_schedule *out = &d->plan.schedule;
    cw_setting_scratch *scratch = cw_setting_scratch_make(setting, d->arena);
    double *values[4];
    for (int k = 0; k < 4; k++)
        values[k] = CW_TAKE(d->arena, double, given->runs);
    for (int r = 0; r < given->runs; r++) {
        const cw_setting_outcome got = cw_setting_run(setting, (uint64_t)given->seed, r, scratch);
        if (got.status != CW_SETTING_DONE)
            continue;
        values[0][out->runs] = got.finish_min / CW_DAY_MIN;
        values[1][out->runs] = got.crane_days;
        values[2][out->runs] = got.truck_wait_min / CW_MIN_PER_HOUR;
        values[3][out->runs++] = got.crane_idle_min / CW_MIN_PER_HOUR;
    }
    out->stopped = given->runs - out->runs;
    out->finish = cw_figures_of(values[0], out->runs);
    out->crane_days = cw_figures_of(values[1], out->runs);
    out->truck_wait_h = cw_figures_of(values[2], out->runs);
    out->crane_idle_h = cw_figures_of(values[3], out->runs);
    out->finish_days = values[0];
    if (out->has_by) // a run that does not come to the end is late
        out->by_share = cw_figures_share(values[0], out->runs, out->by_day - out->first_day + 1.0) *
                        out->runs / given->runs;
    take_criticality(d, scratch);
}

static void take_swings(draft *d, const cw_setting *setting, int law_count,
                        cw_setting_scratch *scratch)
{
    cw_finish_swing *swings = CW_TAKE(d->arena, cw_finish_swing, law_count);
    const char **names = CW_TAKE(d->arena, const char *, law_count);
    cw_setting_swings(setting, scratch, CW_TAKE(d->arena, double, law_count), swings);
    for (int i = 0; i < law_count; i++)
        names[i] = cw_plan_law_name(i, d->arena);
    d->plan.schedule.swings = swings;
    d->plan.schedule.law_names = names;
    d->plan.schedule.swing_count = law_count;
}

void draft_schedule(draft *d)
{
    const cw_job_schedule *given = &d->job->schedule;
    cw_plan_schedule *out = &d->plan.schedule;
    if (!given->present || !d->plan.order)
        return;
    out->present = true;
    cw_date_read(given->start, &out->first_day);
    out->has_by = given->by[0] != '\0' && cw_date_read(given->by, &out->by_day);
    const cw_plan_pace pace = pace_of(d, out->first_day);
    const cw_setting_job job = cw_plan_setting_job(d->plan.order, &pace, &d->job->rows, d->arena);
    if (cw_setting_fault(&job, d->arena)) {
        out->status = CW_SETTING_STUCK;
        return;
    }
    const cw_setting *setting = cw_setting_prepare(&job, d->arena);
    cw_setting_scratch *steady = cw_setting_scratch_make(setting, d->arena);
    double *share = CW_TAKE(d->arena, double, job.law_count);
    for (int i = 0; i < job.law_count; i++)
        share[i] = 0.5;
    const cw_setting_outcome got = cw_setting_fixed(setting, share, steady);
    out->status = (cw_setting_status)got.status;
    if (out->status != CW_SETTING_DONE)
        return;
    out->steady_min = got.finish_min;
    take_bars(d, steady);
    if (given->runs > 0) {
        take_runs(d, setting);
        take_swings(d, setting, job.law_count, steady);
    }
}

/* ---- ledger ---- */

static const char rests[] = "time.set.likely, pace.day_variation, pace.job_variation, weather.rain";

void draft_check_schedule(draft *d)
{
    const cw_plan_schedule *s = &d->plan.schedule;
    if (!s->present)
        return;
    if (s->status != CW_SETTING_DONE || s->stopped > 0) {
        draft_add(d, (cw_check){.id = "schedule.end",
                                .what = "The work comes to its end within the calendar",
                                .where = "",
                                .clause = "simulation, docs/handbook/schedule.md",
                                .verdict = CW_UNDECIDED,
                                .rests_on = rests,
                                .mend = "add crews or trucks, longer shifts, or correct the "
                                        "overrides of time.* and weather.*"});
        return;
    }
    if (!s->has_by || s->runs == 0)
        return;
    draft_judge(
        d, (cw_check){
               .id = "schedule.by",
               .what =
                   cw_arena_print(d->arena, "Days to the end, four times in five (P80), against %s",
                                  d->job->schedule.by),
               .where = "",
               .demand = s->finish.p80,
               .capacity = s->by_day - s->first_day + 1.0,
               .dim = CW_DIM_NONE,
               .clause = "job file: schedule.by",
               .rests_on = rests,
               .mend = "begin earlier, add crews, trucks or shifts, or shorten what swings most"});
}
