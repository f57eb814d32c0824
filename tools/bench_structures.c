/* The structural part of a plan, and the same boxes by a finite element program where there is one. */
#define _XOPEN_SOURCE 700
#include "bench_structures.h"

#include <sys/resource.h>
#include <time.h>

#include "../tests/ccx_model.h"

enum { ROUNDS = 51, CCX_ROUNDS = 3, COVERS = 2, STATES = 2, GROUNDS = 2, SOLVES = 200 };

static double own_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec * 1e3 + (double)t.tv_nsec / 1e6;
}

static double seconds_ms(struct timeval t)
{
    return (double)t.tv_sec * 1e3 + (double)t.tv_usec / 1e3;
}

/* Processor time of this process and of those it has started and seen end. */
static double used_ms(void)
{
    struct rusage children;
    getrusage(RUSAGE_CHILDREN, &children);
    return own_ms() + seconds_ms(children.ru_utime) + seconds_ms(children.ru_stime);
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

/* Loads of the two covers, least and most, under the design truck and tandem. */
typedef struct surroundings {
    cw_struct_site site[COVERS];
    cw_struct_wheel wheels[COVERS][2];
} surroundings;

static void surround(surroundings *s, double span_ft)
{
    static const double covers_ft[COVERS] = {2.5, 8.0};
    for (int c = 0; c < COVERS; c++) {
        const cw_struct_spread spread = {.cover_ft = covers_ft[c], .span_ft = span_ft};
        s->site[c] = (cw_struct_site){.earth_psf = 130.0 * covers_ft[c],
                                      .cover_ft = covers_ft[c],
                                      .most_pcf = 60.0,
                                      .least_pcf = 30.0,
                                      .surcharge_psf = 156.0,
                                      .water_pcf = 62.4};
        for (int v = 0; v < 2; v++) {
            const cw_struct_vehicle vehicle = cw_struct_design_vehicle((cw_struct_machine)v, &cw_data);
            s->wheels[c][v] = cw_struct_wheel_pressure(&vehicle, &spread, &cw_data, NULL);
        }
    }
}

/* Eight envelopes; diagrams of the first @p drawn covers.  Gives the positions. */
static int envelop_plan(int form, int drawn)
{
    static cw_struct_diagram diagrams[COVERS * STATES];
    static surroundings s;
    int positions = 0;
    surround(&s, 14.0);
    for (int ground = 0; ground < GROUNDS; ground++) {
        const cw_struct_box box = ccx_box(form, ground);
        cw_struct_ask asks[COVERS * STATES];
        cw_struct_envelope out[COVERS * STATES];
        for (int i = 0; i < COVERS * STATES; i++) {
            const int cover = i / STATES;
            asks[i] = (cw_struct_ask){&s.site[cover], s.wheels[cover], 2,
                                      i % STATES ? CW_STRUCT_STRENGTH : CW_STRUCT_SERVICE,
                                      cover < drawn ? &diagrams[i] : NULL};
        }
        cw_struct_envelop_each(&box, asks, COVERS * STATES, &cw_data, out);
        for (int i = 0; i < COVERS * STATES; i++) {
            if (out[i].status != CW_STRUCT_OK)
                printf("  form %d: %s\n", form, cw_struct_status_words(out[i].status));
            positions += out[i].solves;
        }
    }
    return positions;
}

static void bench_plan(void)
{
    static const char *const forms[] = {"lid", "double-u", "ring"};
    for (int form = 0; form < 3; form++)
        for (int drawn = 0; drawn < 2; drawn++) {
            double times[ROUNDS];
            int positions = 0;
            for (int i = 0; i < ROUNDS; i++) {
                const double start = own_ms();
                positions = envelop_plan(form, drawn);
                times[i] = own_ms() - start;
            }
            printf("envelopes of %s, 2 covers x 2 states x 2 grounds%s: %6.3f ms of processor time, "
                   "%d positions, %.3f us each\n",
                   forms[form], drawn ? ", one cover with diagrams" : "", median(times, ROUNDS), positions,
                   median(times, ROUNDS) * 1e3 / positions);
        }
}

/* A model each of three forms, two grounds and three loads: processor time of ccx from writing the
 * deck to the last number read, which holds the start of a shell and of its process; and of one solve. */
static void bench_ccx(void)
{
    static model m;
    double ccx_ms[CCX_ROUNDS * 18], solve_us[18], start_ms[CCX_ROUNDS * 3];
    int models = 0, runs = 0, starts = 0;
    if (!has_ccx()) {
        puts("  ccx is not here; nothing to compare the boxes with");
        return;
    }
    for (int i = 0; i < CCX_ROUNDS * 3; i++) {
        const double start = used_ms();
        if (system("ccx -v >/dev/null 2>&1") != -1)
            start_ms[starts++] = used_ms() - start;
    }
    for (int form = 0; form < 3; form++)
        for (int ground = 0; ground < GROUNDS; ground++)
            for (int kind = 0; kind < 3; kind++) {
                const cw_struct_box box = ccx_box(form, ground);
                const cw_struct_case load = ccx_case(&box, kind);
                cw_struct_solution one = {0};
                double start = own_ms();
                for (int i = 0; i < SOLVES; i++)
                    one = cw_struct_solve(&box, &load);
                solve_us[models++] = (own_ms() - start) * 1e3 / SOLVES;
                for (int i = 0; i < CCX_ROUNDS; i++) {
                    start = used_ms();
                    lay_model(&m, &box, &load);
                    if (!run_ccx(&m, &box, one.released))
                        puts("  a model fails in ccx");
                    ccx_ms[runs++] = used_ms() - start;
                }
            }
    double plan_ms[ROUNDS];
    int positions = 0;
    for (int i = 0; i < ROUNDS; i++) {
        const double start = own_ms();
        positions = envelop_plan(CW_STRUCT_LID, 0);
        plan_ms[i] = own_ms() - start;
    }
    const double ccx = median(ccx_ms, runs), mesh = median(solve_us, models) / 1e3;
    const double one = median(plan_ms, ROUNDS) / positions, begin = median(start_ms, starts);
    printf("%d boxes, one position: ccx %.2f ms (deck written, process started, answer read; a start alone "
           "%.2f ms), cw_struct_solve %.4f ms, in an envelope %.5f ms\n",
           models, ccx, begin, mesh, one);
    printf("  ratio to ccx: cw_struct_solve %.0f, envelope %.0f; without the start of ccx %.0f and %.0f\n", ccx / mesh,
           ccx / one, (ccx - begin) / mesh, (ccx - begin) / one);
}

void bench_structures(void)
{
    bench_plan();
    bench_ccx();
}
