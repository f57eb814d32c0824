/* Runs of the setting simulation: 400 ft, two barrels, 200 pieces; the same graph, times and
 * weather go to a script on simpy. */
#define _POSIX_C_SOURCE 200809L
#include "bench.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "../src/app/app.h"
#include "cw/units.h"

enum { BARRELS = 2, PIECES = 50, RUNS = 4000, RUNS_SINGLE = 2000, DAYS = 400, PER_LOAD = 3 };
static const double piece_ft = 8.0;

/* Of the processor for one thread, so that other work on the machine counts less; of the wall for
 * all cores. */
static double now_s(clockid_t clock)
{
    struct timespec t;
    clock_gettime(clock, &t);
    return (double)t.tv_sec + (double)t.tv_nsec / 1e9;
}

static const cw_order_graph *build_order(cw_arena *arena)
{
    double *start = CW_TAKE(arena, double, PIECES), *end = CW_TAKE(arena, double, PIECES);
    cw_order_barrel *barrels = CW_TAKE(arena, cw_order_barrel, BARRELS);
    for (int i = 0; i < PIECES; i++) {
        start[i] = i * piece_ft;
        end[i] = (i + 1) * piece_ft;
    }
    for (int b = 0; b < BARRELS; b++)
        barrels[b].base = barrels[b].top = (cw_order_line){start, end, NULL, PIECES};
    cw_order_run run = cw_order_usual();
    run.barrels = barrels;
    run.barrel_count = BARRELS;
    run.fill_between = true;
    run.fill_segments = 4;
    run.backfill_reaches = 8;
    const char *fault = cw_order_fault(&run, arena);
    if (fault) {
        fprintf(stderr, "%s\n", fault);
        exit(1);
    }
    return cw_order_build(&run, arena);
}

/* Three pieces a load, in the wanted order. */
static int *build_loads(const cw_order_graph *graph, cw_arena *arena)
{
    int *load = CW_TAKE(arena, int, graph->step_count), placed = 0;
    for (int i = 0; i < graph->step_count; i++)
        load[i] = -1;
    for (int at = 0; at < graph->step_count; at++) {
        const int i = graph->sequence[at];
        const cw_step *step = &graph->steps[i];
        if (step->kind != CW_STEP_SET)
            continue;
        load[i] = placed++ / PER_LOAD;
        load[graph->pieces[step->barrel][step->row][step->index].received] = load[i];
    }
    return load;
}

static void write_law(FILE *file, const cw_law *law)
{
    fprintf(file, "%d %.17g %.17g %.17g\n", law->kind, law->low, law->likely, law->high);
}

/* Plain numbers, one record a line; tools/bench_setting.py reads them. */
static bool write_model(const char *path, const cw_setting_job *job)
{
    FILE *file = fopen(path, "w");
    if (!file)
        return false;
    fprintf(file, "%d %d %d %d %d %d\n", job->step_count, job->law_count, job->crew_count,
            job->load_count, job->truck_count, job->clock.days);
    fprintf(file, "%d %d %d %.17g %.17g %.17g %.17g %.17g %.17g %.17g\n", job->load_law,
            job->out_law, job->back_law, job->rain.share, job->wind.share, job->cold.share,
            job->rain.persistence, job->day_variation, job->job_variation, job->learning[0].ratio);
    fprintf(file, "%.17g\n", job->learning[0].least);
    for (int c = 0; c < job->crew_count; c++)
        fprintf(file, "%d\n", job->crew_size[c]);
    for (int i = 0; i < job->law_count; i++)
        write_law(file, &job->laws[i]);
    for (int l = 0; l < job->load_count; l++)
        fprintf(file, "%d\n", job->load_gate[l]);
    for (int d = 0; d < job->clock.days; d++)
        fprintf(file, "%d %d\n", job->clock.start_min[d], job->clock.work_min[d]);
    for (int i = 0; i < job->step_count; i++) {
        const cw_setting_step *s = &job->steps[i];
        fprintf(file, "%d %u %u %d %d %d %d %d", s->law, s->crews, s->exposed, s->whole,
                s->learning, s->from_load, s->off_load, job->rank[i]);
        for (int k = job->follow_from[i]; k < job->follow_from[i + 1]; k++)
            fprintf(file, " %d", job->follows[k]);
        fprintf(file, "\n");
    }
    return fclose(file) == 0;
}

static void compare(const char *self, const cw_setting_job *job, double us, double mean_days)
{
    char path[4096], command[8192];
    const char *slash = strrchr(self, '/');
    snprintf(path, sizeof path, "%.*sbench-setting.txt", slash ? (int)(slash - self + 1) : 0, self);
    if (!write_model(path, job)) {
        fprintf(stderr, "%s cannot be written\n", path);
        exit(1);
    }
    snprintf(command, sizeof command, "/usr/bin/python3 tools/bench_setting.py '%s' %.3f %.4f",
             path, us, mean_days);
    fflush(stdout);
    if (system(command) != 0)
        puts("  simpy is not here or its script fails; nothing to compare with");
    remove(path);
}

void bench_setting(const char *self)
{
    cw_arena arena = cw_arena_on(&cw_app_memory);
    const cw_order_graph *graph = build_order(&arena);
    const cw_calendar week = {.start_min = {420, 420, 420, 420, 420, 0, 0},
                              .work_min = {480, 480, 480, 480, 480, 0, 0}};
    const cw_plan_pace pace = {.clock = cw_clock_make(&week, cw_date_day(2026, 5, 4), DAYS, &arena),
                               .crews = {1, 1, 1, 2, 1, 2},
                               .trucks = 4,
                               .load_of_step = build_loads(graph, &arena),
                               .load_count = (2 * BARRELS * PIECES + PER_LOAD - 1) / PER_LOAD};
    const cw_setting_job job = cw_plan_setting_job(graph, &pace, &cw_data, &arena);
    const cw_setting *setting = cw_setting_prepare(&job, &arena);
    cw_setting_outcome *outcomes = CW_TAKE(&arena, cw_setting_outcome, RUNS);
    int *critical = CW_TAKE(&arena, int, job.step_count);
    const double start = now_s(CLOCK_PROCESS_CPUTIME_ID);
    cw_setting_runs(setting, &(cw_runs_wanted){1, RUNS_SINGLE, job.step_count, 1}, outcomes,
                    critical);
    const double single = now_s(CLOCK_PROCESS_CPUTIME_ID), wall = now_s(CLOCK_MONOTONIC);
    cw_setting_runs(setting, &(cw_runs_wanted){1, RUNS, job.step_count, 0}, outcomes, critical);
    const double all = now_s(CLOCK_MONOTONIC);
    double *days = CW_TAKE(&arena, double, RUNS);
    for (int i = 0; i < RUNS; i++) {
        if (outcomes[i].status != CW_SETTING_DONE) {
            fprintf(stderr, "run %d: status %d at step %d\n", i, outcomes[i].status,
                    outcomes[i].stuck_step);
            exit(1);
        }
        days[i] = outcomes[i].finish_min / CW_DAY_MIN;
    }
    const cw_figures figures = cw_figures_of(days, RUNS);
    const double us = (single - start) / RUNS_SINGLE * 1e6;
    printf("setting, 400 ft, 200 pieces, %d steps, %d needs: %6.1f us of processor a run; %d runs "
           "on all cores in %.2f s of "
           "wall (100,000: %.1f s)\n",
           job.step_count, graph->need_count, us, RUNS, all - wall, (all - wall) * 100000.0 / RUNS);
    printf("  finish in days: mean %.2f, P10 %.2f, P50 %.2f, P80 %.2f, P90 %.2f\n", figures.mean,
           figures.p10, figures.p50, figures.p80, figures.p90);
    compare(self, &job, us, figures.mean);
    cw_arena_release(&arena);
}
