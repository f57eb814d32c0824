/* Medians of what must be fast, measured in one run.  Figures are for comparing, not for promising. */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <time.h>

#include "../src/app/app.h"
#include "cw/render.h"
#include "cw/report.h"
#include "cw/units.h"

enum { ROUNDS = 51 };

static double now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static int by_value(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

static double median(double *times, int count)
{
    qsort(times, (size_t)count, sizeof *times, by_value);
    return times[count / 2];
}

static bool swallow(void *closure, const unsigned char *bytes, size_t length)
{
    (void)bytes;
    *(size_t *)closure += length;
    return true;
}

static void bench_job(const char *path)
{
    cw_arena arena = cw_arena_on(&cw_app_memory);
    cw_diags diags = cw_diags_on(&arena);
    const cw_job *job = cw_load_job(path, &arena, &diags);
    if (!job) {
        cw_diags_show(&diags);
        exit(1);
    }
    double read_ms[ROUNDS], plan_ms[ROUNDS], json_ms[ROUNDS], book_ms[ROUNDS];
    size_t held = 0, pdf_bytes = 0;
    int pieces = 0, steps = 0;
    for (int i = 0; i < ROUNDS; i++) {
        cw_arena scratch = cw_arena_on(&cw_app_memory);
        cw_diags found = cw_diags_on(&scratch);
        const double start = now_ms();
        cw_load_job(path, &scratch, &found);
        const double read = now_ms();
        const size_t before = scratch.bytes_held;
        const cw_plan *plan = cw_plan_compute(job, &scratch);
        const double planned = now_ms();
        held = scratch.bytes_held - before;
        cw_plan_json(plan, &scratch);
        const double printed = now_ms();
        read_ms[i] = read - start;
        plan_ms[i] = planned - read;
        json_ms[i] = printed - planned;
        book_ms[i] = 0.0;
        if (i < 5) {
            pdf_bytes = 0;
            cw_pdf_write(cw_book(plan, CW_PAPER_LETTER, &scratch), &(cw_pdf_options){.program = "bench"}, swallow,
                         &pdf_bytes, &scratch, &found);
            book_ms[i] = now_ms() - printed;
        }
        pieces = plan->piece_count;
        steps = plan->step_count;
        cw_arena_release(&scratch);
    }
    printf("%-28s %4d pieces %5d steps | read %6.2f ms | plan %6.2f ms %5.1f MiB | json %6.2f ms | book %7.1f ms %zu kB\n",
           strrchr(path, '/') + 1, pieces, steps, median(read_ms, ROUNDS), median(plan_ms, ROUNDS),
           (double)held / (1024.0 * 1024.0), median(json_ms, ROUNDS), median(book_ms, 5), pdf_bytes / 1024);
    cw_arena_release(&arena);
}

/* One run, three barrels alike, sixteen-foot to four-foot pieces; least time of a few, since the machine is noisy. */
static double time_layout(int length_16, const cw_layout_item *base, const cw_layout_item *top, long *states)
{
    const cw_layout_barrel barrel = {.length_16 = length_16,
                                     .base = {.items = base, .item_count = 4},
                                     .top = {.items = top, .item_count = 4}};
    const cw_layout_barrel three[3] = {barrel, barrel, barrel};
    const cw_layout_problem problem = {.barrels = three, .barrel_count = 3, .setup_count = 8, .rows = CW_ROWS_ALIGNED,
        .gap_min_16 = 4, .gap_max_16 = 12, .gap_design_16 = 8, .tolerance_16 = 2, .max_setups = 8, .piece_cost = 1000,
        .joint_cost = 400, .setup_cost = 2500};
    double least_ms = 1e9;
    for (int i = 0; i < 5; i++) {
        cw_arena arena = cw_arena_on(&cw_app_memory);
        const double start = now_ms();
        *states = cw_layout_solve(&problem, &arena).states;
        const double taken = now_ms() - start;
        least_ms = taken < least_ms ? taken : least_ms;
        cw_arena_release(&arena);
    }
    return least_ms;
}

/* The same lengths, gaps and limits on runs of 200 to 1600 ft, each the mean over ends that fall differently, since some ends
 * are met at once and others hardly at all.  Time for a foot of run must not grow. */
static void bench_layout(void)
{
    enum { OFFSETS = 15, OFFSET_STEP = 53 };
    static const int feet[4] = {16, 12, 8, 4};
    cw_layout_item base[4], top[4];
    for (int i = 0; i < 4; i++) {
        base[i] = (cw_layout_item){feet[i] * CW_SIXTEENTHS_PER_FT, CW_AT_ANY, 0.0, 1000.0 * feet[i], i};
        top[i] = base[i];
        top[i].setup = 4 + i;
    }
    for (int length_ft = 200; length_ft <= 1600; length_ft += 200) {
        double sum_ms = 0.0, sum_states = 0.0;
        for (int k = 0; k < OFFSETS; k++) {
            long states = 0;
            sum_ms += time_layout(length_ft * CW_SIXTEENTHS_PER_FT + 7 + k * OFFSET_STEP, base, top, &states);
            sum_states += (double)states;
        }
        printf("layout %4d ft, three barrels: %7.3f ms, %8.0f states, %6.2f us a foot\n", length_ft, sum_ms / OFFSETS,
               sum_states / OFFSETS, sum_ms / OFFSETS * 1e3 / length_ft);
    }
}

int main(int count, char **arguments)
{
    static const char *const demos[] = {"demo/farm-road.yaml", "demo/twin-hood.yaml", "demo/phased-three.yaml",
                                        "demo/gully.yaml"};
    if (count > 1) {
        bench_job(arguments[1]);
        return 0;
    }
    for (size_t i = 0; i < sizeof demos / sizeof demos[0]; i++)
        bench_job(demos[i]);
    bench_layout();
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("greatest memory of this process: %.1f MiB\n", (double)usage.ru_maxrss / 1024.0);
    return 0;
}
