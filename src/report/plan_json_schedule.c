/* The schedule member of the plan as JSON. */
#include "cw/date.h"
#include "plan_json_internal.h"

static void add_figures(cw_json *json, const char *key, const cw_figures *f)
{
    cw_json_open(json, key);
    cw_json_number(json, "mean", f->mean);
    cw_json_number(json, "p10", f->p10);
    cw_json_number(json, "p50", f->p50);
    cw_json_number(json, "p80", f->p80);
    cw_json_number(json, "p90", f->p90);
    cw_json_close(json);
}

static void add_runs(cw_json *json, const cw_plan *plan)
{
    const cw_plan_schedule *s = &plan->schedule;
    cw_json_count(json, "runs", s->runs);
    cw_json_count(json, "stopped", s->stopped);
    cw_json_count(json, "seed", plan->job->schedule.seed);
    add_figures(json, "finish_days", &s->finish);
    add_figures(json, "crane_days", &s->crane_days);
    add_figures(json, "truck_wait_h", &s->truck_wait_h);
    add_figures(json, "crane_idle_h", &s->crane_idle_h);
    if (s->has_by)
        cw_json_number(json, "by_share", s->by_share);
    cw_json_open_list(json, "swings");
    for (int i = 0; i < s->swing_count; i++) {
        cw_json_open(json, NULL);
        cw_json_text(json, "rows", s->law_names[s->swings[i].law]);
        cw_json_number(json, "low_days", s->swings[i].low_min / CW_DAY_MIN);
        cw_json_number(json, "high_days", s->swings[i].high_min / CW_DAY_MIN);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

void cw_plan_json_schedule(cw_json *json, const cw_plan *plan, cw_arena *arena)
{
    const cw_plan_schedule *s = &plan->schedule;
    if (!s->present)
        return;
    cw_json_open(json, "schedule");
    cw_json_text(json, "first_day", cw_date_print(arena, s->first_day));
    cw_json_flag(json, "solved", s->status == CW_SETTING_DONE);
    if (s->status == CW_SETTING_DONE) {
        cw_json_number(json, "steady_days", s->steady_min / CW_DAY_MIN);
        cw_json_open_list(json, "bars");
        for (int i = 0; i < s->bar_count; i++) {
            cw_json_open(json, NULL);
            cw_json_text(json, "name", s->bars[i].name);
            cw_json_number(json, "start_days", s->bars[i].start_min / CW_DAY_MIN);
            cw_json_number(json, "finish_days", s->bars[i].finish_min / CW_DAY_MIN);
            cw_json_number(json, "critical", s->bars[i].critical);
            cw_json_close(json);
        }
        cw_json_close_list(json);
        if (s->runs > 0)
            add_runs(json, plan);
    }
    cw_json_close(json);
}
