/* Medians of what must be fast, measured in one run.  Figures are for comparing, not for promising. */
#define _POSIX_C_SOURCE 200809L
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "../src/app/app.h"
#include "bench_structures.h"
#include "bench.h"
#include "../src/app/triangulate.h"
#include "cw/earthwork.h"
#include "cw/hydraulics.h"
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
        const double ms = sum_ms / OFFSETS, states = sum_states / OFFSETS;
        printf("layout %4d ft, three barrels: %7.3f ms, %6.2f us a foot, %5.1f states a foot\n", length_ft, ms,
               ms * 1e3 / length_ft, states / length_ft);
    }
}

/* ---- water ---- */

static cw_water_barrel some_barrel(double span_ft, double rise_ft, double floor_ft)
{
    cw_water_barrel barrel = {.span_ft = span_ft, .rise_ft = rise_ft, .length_ft = 120.0, .inlet_floor_ft = floor_ft + 1.2,
                              .outlet_floor_ft = floor_ft, .n = 0.012, .entrance_loss = 0.4};
    cw_water_inlet_rows(&cw_data, CW_WATER_INLET_DEFAULT, &barrel.inlet);
    return barrel;
}

/* A rating of 200 points from no flow to deep water over the road, above a channel that rises with the flow. */
static void bench_curve(const char *what, const cw_water_barrel *barrels)
{
    enum { POINTS = 200 };
    static const cw_water_crest crest[] = {{0, 112}, {40, 110.5}, {90, 110}, {150, 110.4}, {200, 112}};
    cw_water_road road = {.points = crest, .count = 5};
    cw_water_weir_rows(&cw_data, CW_WATER_PAVED, &road.weir);
    const cw_water_site site = {.barrels = barrels, .barrel_count = 3, .road = &road,
        .tailwater = {.kind = CW_WATER_TAIL_CHANNEL, .channel_slope = 0.004, .channel_bed_ft = 99.5,
                      .channel = {.shape = CW_WATER_TRAPEZOID, .bottom_ft = 20, .side_slope = 2, .n = 0.035}}};
    if (cw_water_site_check(&site) != CW_WATER_OK) {
        fputs("the site of the rating is out of sense\n", stderr);
        exit(1);
    }
    static cw_water_answer points[POINTS];
    double times[ROUNDS];
    for (int i = 0; i < ROUNDS; i++) {
        const double start = now_ms();
        if (cw_water_curve(&site, 2400.0, points, POINTS) != CW_WATER_OK)
            fputs("a point of the rating was not found\n", stderr);
        times[i] = now_ms() - start;
    }
    int evaluations = 0;
    for (int i = 0; i < POINTS; i++)
        evaluations += points[i].evaluations;
    const cw_water_answer *top = &points[POINTS - 1];
    printf("rating of %d points, %s: %6.3f ms, %.1f headwaters a point, %.0f of %.0f cfs over the road at the top\n",
           (int)POINTS, what, median(times, ROUNDS), (double)evaluations / POINTS, top->over.flow_cfs, top->flow_cfs);
}

static void bench_curves(void)
{
    cw_water_barrel barrels[3];
    for (int i = 0; i < 3; i++)
        barrels[i] = some_barrel(8, 6, 100);
    bench_curve("three barrels alike", barrels);
    barrels[1] = some_barrel(6, 6, 100.5);
    barrels[2] = some_barrel(10, 5, 101.25);
    bench_curve("three different barrels", barrels);
}

/* ---- batch ---- */

enum { BATCH_ROWS = 1000000, PATH_BYTES = 512 };

/* Even in 0 .. 1, the same on every machine (Marsaglia's xorshift). */
static double even(unsigned long long *seed)
{
    *seed ^= *seed << 13;
    *seed ^= *seed >> 7;
    *seed ^= *seed << 17;
    return (double)(*seed >> 11) / 9007199254740992.0;
}

static bool write_barrels(const char *path)
{
    FILE *out = fopen(path, "w");
    if (!out)
        return false;
    unsigned long long seed = 0x9e3779b97f4a7c15;
    fputs("flow_cfs,slope_ft_per_ft,length_ft,tailwater_ft,span_in,rise_in\n", out);
    for (int i = 0; i < BATCH_ROWS; i++) {
        const double flow = 5 + 795 * even(&seed), slope = 0.05 * even(&seed), length = 20 + 380 * even(&seed);
        const double tail = 12 * even(&seed), span = 36 + 144 * even(&seed), rise = 36 + 108 * even(&seed);
        fprintf(out, "%.2f,%.5f,%.1f,%.2f,%.1f,%.1f\n", flow, slope, length, tail, span, rise);
    }
    return fclose(out) == 0;
}

/* Run a program to its end, its output into nothing when quiet; false when it fails. */
static bool run_program(char *const *arguments, bool quiet, double *wall_s, double *user_s)
{
    const double start = now_ms();
    struct rusage before, after;
    getrusage(RUSAGE_CHILDREN, &before);
    fflush(stdout);
    const pid_t child = fork();
    if (child == 0) {
        if (quiet && !freopen("/dev/null", "w", stdout))
            _exit(127);
        execv(arguments[0], arguments);
        _exit(127);
    }
    int status = 1;
    if (child < 0 || waitpid(child, &status, 0) != child)
        return false;
    getrusage(RUSAGE_CHILDREN, &after);
    *wall_s = (now_ms() - start) / 1e3;
    *user_s = (double)(after.ru_utime.tv_sec - before.ru_utime.tv_sec) +
              (double)(after.ru_utime.tv_usec - before.ru_utime.tv_usec) / 1e6;
    return status == 0;
}

/* Rows per second of a calculator on the file: the best of a few runs, since the machine is noisy. */
static double time_batch(char *program, char *calculator, char *file)
{
    char *const arguments[] = {program, "calc", calculator, "--batch", file, NULL};
    double best_wall_s = 1e9, best_user_s = 1e9;
    for (int i = 0; i < 5; i++) {
        double wall_s = 0.0, user_s = 0.0;
        if (!run_program(arguments, true, &wall_s, &user_s)) {
            fprintf(stderr, "%s calc %s --batch %s fails\n", program, calculator, file);
            exit(1);
        }
        best_wall_s = wall_s < best_wall_s ? wall_s : best_wall_s;
        best_user_s = user_s < best_user_s ? user_s : best_user_s;
    }
    printf("batch of %d rows, %s: %.2f s (%.0f rows/s), %.2f s of processor time\n", (int)BATCH_ROWS, calculator,
           best_wall_s, BATCH_ROWS / best_wall_s, best_user_s);
    return BATCH_ROWS / best_wall_s;
}

/* The program and the file stand beside this one. */
static void bench_batch(const char *self)
{
    const char *slash = strrchr(self, '/');
    const int folder = slash ? (int)(slash - self + 1) : 0;
    char program[PATH_BYTES], file[PATH_BYTES], inlet[32], whole[32];
    snprintf(program, sizeof program, "%.*sculvertwright", folder, self);
    snprintf(file, sizeof file, "%.*sbench-barrels.csv", folder, self);
    if (!write_barrels(file)) {
        fprintf(stderr, "%s cannot be written\n", file);
        exit(1);
    }
    snprintf(inlet, sizeof inlet, "%.0f", time_batch(program, "inlet-headwater", file));
    snprintf(whole, sizeof whole, "%.0f", time_batch(program, "headwater", file));
    char python[] = "/usr/bin/python3", script[] = "tools/bench_headwater.py", probe[] = "import numpy, scipy";
    double wall_s, user_s;
    if (!run_program((char *[]){python, "-c", probe, NULL}, true, &wall_s, &user_s))
        puts("  numpy and scipy are not here; nothing to compare with");
    else if (!run_program((char *[]){python, script, file, program, inlet, whole, NULL}, false, &wall_s, &user_s))
        fprintf(stderr, "%s fails\n", script);
    remove(file);
}

/* ---- a survey and a cut in it ---- */

enum { SURVEY_ROWS = 316, SURVEY_POINTS = SURVEY_ROWS * SURVEY_ROWS };

/* Random places, or rows ten feet apart as a machine flies them; gentle ground. */
static cw_survey_points some_survey(bool in_rows, cw_arena *arena)
{
    static const double apart_ft = 10.0;
    unsigned long long seed = 1;
    cw_survey_point *points = CW_TAKE(arena, cw_survey_point, SURVEY_POINTS);
    for (int i = 0; i < SURVEY_POINTS; i++) {
        const double side_ft = apart_ft * SURVEY_ROWS;
        const double east = in_rows ? apart_ft * (i % SURVEY_ROWS) : side_ft * even(&seed);
        const double north = in_rows ? apart_ft * (i / SURVEY_ROWS) : side_ft * even(&seed);
        points[i] = (cw_survey_point){north, east, 500.0 + 2.0 * even(&seed) + 0.002 * north, "", "", i + 1};
    }
    return (cw_survey_points){points, SURVEY_POINTS};
}

/* A cut of 300 ft in the middle, 1.5:1, its bottom 14 ft down. */
static double dig_some(const cw_ground_mesh *mesh, cw_arena *arena)
{
    double(*places)[3] = cw_arena_take(arena, (size_t)mesh->point_count, sizeof *places);
    for (int i = 0; i < mesh->point_count; i++) {
        const cw_survey_point *p = &mesh->points[i];
        const double place[3] = {p->easting_ft - 1500.0, p->northing_ft - 1500.0, p->elevation_ft};
        memcpy(places[i], place, sizeof place);
    }
    const cw_earthwork_ground ground = {(const double(*)[3])places, mesh->faces, mesh->point_count, mesh->face_count};
    const cw_trench_layer layer = {1.0, CW_SOIL_C};
    const double slope = 1.5;
    const cw_earthwork_cut cut = {.legs = {{0.0, 0.0, 37.0, 0.0, 300.0}},
                                  .leg_count = 1,
                                  .shape = cw_trench_sloped(20.0, &layer, &slope, 1),
                                  .bottom_elev_ft = 489.0,
                                  .grade = 0.01,
                                  .ends = {{CW_END_SLOPED, 2.0, 0.0}, {CW_END_SLOPED, 2.0, 0.0}}};
    const cw_earthwork_dug dug = cw_earthwork_dig(&ground, &cut, arena);
    double average = 0.0;
    if (dug.status != CW_EARTHWORK_KNOWN || !cw_earthwork_average_cuft(&ground, &cut, 10.0, &average, arena))
        exit(1);
    for (int lift = 1; lift <= 24; lift++)
        average += cw_earthwork_below_cuft(&dug, 0.5 * lift);
    return average > 0.0 ? dug.cut_cuft : 0.0;
}

/* Of the process, since the machine may have others. */
static double processor_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

/* In a process of its own, so that its memory is its own. */
static void bench_survey(const char *what, bool in_rows)
{
    fflush(stdout);
    const pid_t child = fork();
    if (child != 0) {
        waitpid(child, NULL, 0);
        return;
    }
    const cw_pos at = {"survey", NULL, 0, 0};
    double triangles_ms = 1e9, volumes_ms = 1e9, cut_cuft = 0.0;
    int faces = 0;
    for (int i = 0; i < 3; i++) {
        cw_arena arena = cw_arena_on(&cw_app_memory);
        cw_diags diags = cw_diags_on(&arena);
        const cw_survey_points points = some_survey(in_rows, &arena);
        const double start = processor_ms();
        const cw_ground_mesh *mesh = cw_triangulate(points, NULL, at, &arena, &diags);
        if (!mesh)
            exit(1);
        const double made = processor_ms();
        cut_cuft = dig_some(mesh, &arena);
        const double dug = processor_ms();
        faces = mesh->face_count;
        triangles_ms = made - start < triangles_ms ? made - start : triangles_ms;
        volumes_ms = dug - made < volumes_ms ? dug - made : volumes_ms;
        cw_arena_release(&arena);
    }
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("survey of %d points %s: %d faces in %.0f ms, cut of %.0f cy with sections and 24 levels in %.1f ms, %.1f MiB\n",
           (int)SURVEY_POINTS, what, faces, triangles_ms, cut_cuft / CW_CUFT_PER_CY, volumes_ms,
           (double)usage.ru_maxrss / 1024.0);
    fflush(stdout);
    char file[] = "bench-survey.txt", seconds[32];
    FILE *stream = fopen(file, "w");
    cw_arena arena = cw_arena_on(&cw_app_memory);
    const cw_survey_points points = some_survey(in_rows, &arena);
    for (int i = 0; stream && i < points.count; i++)
        fprintf(stream, "%d,%.6f,%.6f,%.3f\n", i, points.items[i].northing_ft, points.items[i].easting_ft,
                points.items[i].elevation_ft);
    if (stream)
        fclose(stream);
    snprintf(seconds, sizeof seconds, "%.4f", triangles_ms / 1e3);
    char python[] = "/usr/bin/python3", script[] = "tools/bench_surface.py", probe[] = "import numpy, scipy";
    double wall_s, user_s;
    if (run_program((char *[]){python, "-c", probe, NULL}, true, &wall_s, &user_s))
        run_program((char *[]){python, script, file, seconds, NULL}, false, &wall_s, &user_s);
    remove(file);
    exit(0);
}

int main(int count, char **arguments)
{
    static const char *const demos[] = {"demo/farm-road.yaml", "demo/twin-hood.yaml", "demo/phased-three.yaml",
                                        "demo/gully.yaml"};
    if (count > 1 && strcmp(arguments[1], "survey") == 0) {
        bench_survey("here and there", false);
        bench_survey("in rows", true);
        return 0;
    }
    if (count > 1) {
        bench_job(arguments[1]);
        return 0;
    }
    for (size_t i = 0; i < sizeof demos / sizeof demos[0]; i++)
        bench_job(demos[i]);
    bench_layout();
    bench_curves();
    bench_structures();
    bench_setting(arguments[0]);
    bench_batch(arguments[0]);
    bench_survey("here and there", false);
    bench_survey("in rows", true);
    struct rusage usage;
    getrusage(RUSAGE_SELF, &usage);
    printf("greatest memory of this process: %.1f MiB\n", (double)usage.ru_maxrss / 1024.0);
    return 0;
}
