#include "plan_internal.h"

#include <string.h>

#include "cw/text.h"

cw_working *draft_working(draft *d, const char *title)
{
    if (d->working_count == CW_PLAN_WORKINGS_MAX)
        return NULL;
    cw_working *working = &d->workings[d->working_count++];
    *working = cw_working_on(d->arena, title);
    return working;
}

const cw_row *draft_row(const draft *d, const char *id)
{
    return cw_rows_find(&d->job->rows, id);
}

const char *draft_source(const draft *d, const char *id)
{
    const cw_row *row = draft_row(d, id);
    return row ? cw_row_source(d->arena, row) : "no row in the specification profile";
}

bool draft_stated(const draft *d, const char *path)
{
    for (int i = 0; i < d->job->entries->count; i++)
        if (strcmp(d->job->entries->items[i].path, path) == 0)
            return true;
    return false;
}

const char *draft_basis(const draft *d, const char *path, const char *id)
{
    return draft_stated(d, path) ? cw_arena_print(d->arena, "job file: %s", path) : draft_source(d, id);
}

const char *draft_rest(const draft *d, const char *path, const char *id)
{
    return draft_stated(d, path) ? "" : id;
}

const char *draft_words(const draft *d, double value, cw_dim dim)
{
    return cw_quantity_format(d->arena, value, dim, d->plan.units);
}

double draft_base_leg_in(const cw_job *job)
{
    return job->box.form == CW_FORM_DOUBLE_U ? job->box.leg_in : job->box.rise_in;
}

double draft_top_leg_in(const cw_job *job)
{
    return job->box.form == CW_FORM_DOUBLE_U ? job->box.rise_in - job->box.leg_in : 0.0;
}

char draft_letter(const cw_job *job, cw_order_row row)
{
    if (row == CW_ORDER_BASE)
        return job->box.form == CW_FORM_RING ? 'R' : 'B';
    return job->box.form == CW_FORM_DOUBLE_U ? 'H' : 'L';
}

const char *draft_word(const cw_job *job, cw_order_row row)
{
    switch (draft_letter(job, row)) {
    case 'R':
        return "ring";
    case 'H':
        return "hood";
    case 'L':
        return "lid";
    default:
        return "base";
    }
}

const cw_plan *cw_plan_compute(const cw_job *job, cw_arena *arena)
{
    draft *d = CW_TAKE(arena, draft, 1);
    d->job = job;
    d->arena = arena;
    d->workings = CW_TAKE(arena, cw_working, CW_PLAN_WORKINGS_MAX);
    d->plan = (cw_plan){.job = job, .units = (cw_unit_system)job->head.units, .checks = cw_checks_on(arena)};
    d->checks = &d->plan.checks;

    draft_check_acceptance(d);
    if (draft_run(d)) {
        if (draft_layout(d)) {
            draft_pieces(d);
            draft_ends(d);
            draft_water(d);
            draft_site_water(d);
            draft_trench(d);
            draft_surface(d);
            draft_grade(d);
            draft_closing(d);
            draft_conflicts(d);
            draft_strength(d);
            draft_order(d);
            draft_takeoff(d);
            draft_ground_quantities(d);
            draft_cranes(d);
            draft_check_run(d);
            draft_check_layout(d);
            draft_check_ends(d);
            draft_check_conflicts(d);
            draft_check_rest(d);
            draft_check_water(d);
            draft_check_site_water(d);
            draft_check_trench(d);
            draft_check_surface(d);
            draft_check_grade(d);
            draft_check_closing(d);
            draft_check_strength(d);
            draft_schedule(d);
            draft_check_schedule(d);
            draft_check_cranes(d);
            d->plan.laid = true;
        } else {
            draft_check_blocks(d);
        }
    }
    d->plan.workings = d->workings;
    d->plan.working_count = d->working_count;
    return &d->plan;
}

int cw_plan_step_find(const cw_plan *plan, const char *id)
{
    for (int i = 0; i < plan->step_count; i++)
        if (strcmp(plan->steps[i].id, id) == 0)
            return i;
    return -1;
}
