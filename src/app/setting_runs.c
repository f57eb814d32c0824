#define _POSIX_C_SOURCE 200809L
#include <pthread.h>
#include <stdatomic.h>
#include <unistd.h>

#include "app.h"

enum { WORKERS_MAX = 16, BATCH = 256 /* runs taken at a time */ };

/* Runs are numbered, and each is a function of its number alone: whoever does it, the answer is the
 * same. */
typedef struct crew {
    const cw_setting *setting;
    uint64_t seed;
    int runs;
    cw_setting_outcome *outcomes;
    atomic_int next;
} crew;

typedef struct worker {
    crew *all;
    cw_arena arena;
    cw_setting_scratch *scratch;
} worker;

static void *work_on(void *closure)
{
    worker *w = closure;
    crew *all = w->all;
    for (int from = atomic_fetch_add(&all->next, BATCH); from < all->runs;
         from = atomic_fetch_add(&all->next, BATCH))
        for (int r = from; r < from + BATCH && r < all->runs; r++)
            all->outcomes[r] = cw_setting_run(all->setting, all->seed, r, w->scratch);
    return NULL;
}

void cw_setting_runs(const cw_setting *setting, const cw_runs_wanted *wanted,
                     cw_setting_outcome *outcomes, int *critical)
{
    const long cores = wanted->workers > 0 ? wanted->workers : sysconf(_SC_NPROCESSORS_ONLN);
    const int count = cores < 1 ? 1 : cores > WORKERS_MAX ? WORKERS_MAX : (int)cores;
    crew all = {
        .setting = setting, .seed = wanted->seed, .runs = wanted->runs, .outcomes = outcomes};
    worker workers[WORKERS_MAX] = {{.all = &all}};
    pthread_t threads[WORKERS_MAX];
    bool started[WORKERS_MAX] = {false};
    for (int i = 0; i < count; i++) {
        workers[i] = (worker){.all = &all, .arena = cw_arena_on(&cw_app_memory)};
        workers[i].scratch = cw_setting_scratch_make(setting, &workers[i].arena);
    }
    for (int i = 1; i < count; i++)
        started[i] = pthread_create(&threads[i], NULL, work_on, &workers[i]) == 0;
    work_on(&workers[0]); // also does what a thread that could not start would have done
    for (int i = 0; i < count; i++) {
        if (started[i])
            pthread_join(threads[i], NULL);
        for (int s = 0; s < wanted->steps; s++)
            critical[s] += workers[i].scratch->critical_count[s];
        cw_arena_release(&workers[i].arena);
    }
}
