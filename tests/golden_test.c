/* What the demos give, at printed precision.  Renewed only by hand (tools/renew), and read before it is committed. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "../src/app/app.h"
#include "cw/report.h"

static const char *const jobs[] = {"farm-road", "twin-hood", "phased-three", "gully"};

static void compare(const char *job, const char *suffix, const char *text)
{
    char path[512];
    snprintf(path, sizeof path, "%s/tests/golden/%s%s", CW_ROOT, job, suffix);
    FILE *stream = fopen(path, "rb");
    if (!stream)
        fail_msg("%s is missing; run tools/renew", path);
    static char kept[1 << 20];
    kept[fread(kept, 1, sizeof kept - 1, stream)] = '\0';
    fclose(stream);
    int line = 1;
    for (size_t i = 0; kept[i] || text[i]; i++) {
        if (kept[i] != text[i])
            fail_msg("%s differs from line %d on: kept \"%.60s\", now \"%.60s\"", path, line, kept + i, text + i);
        line += kept[i] == '\n';
    }
}

static void demos_give_what_they_gave(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof jobs / sizeof jobs[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        char path[512];
        snprintf(path, sizeof path, "%s/demo/%s.yaml", CW_ROOT, jobs[i]);
        const cw_plan *plan = cw_load_plan(path, &arena, &diags);
        if (!plan) {
            cw_diags_show(&diags);
            fail_msg("%s does not plan", path);
        }
        compare(jobs[i], ".ledger.txt", cw_ledger_text(plan, &arena));
        compare(jobs[i], ".pieces.csv", cw_pieces_csv(plan, &arena));
        compare(jobs[i], ".points.csv", cw_points_csv(plan, &arena));
        cw_arena_release(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(demos_give_what_they_gave)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
