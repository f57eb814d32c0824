/* A job that the reader takes must plan: no crash, and every row of the ledger complete.  Files that a job names are left out. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "cw/report.h"
#include "cw/yaml.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(bool held)
{
    if (!held)
        abort();
}

static void check_ledger(const cw_plan *plan)
{
    for (int i = 0; i < plan->checks.count; i++) {
        const cw_check *check = &plan->checks.items[i];
        must(check->id && check->what && check->where && check->clause && check->rests_on && check->mend);
        must(check->verdict == CW_HOLDS || check->mend[0] != '\0');
        must(!check->has_numbers || (isfinite(check->demand) && isfinite(check->capacity)));
    }
    for (int i = 0; i < plan->piece_count; i++)
        must(isfinite(plan->pieces[i].invert_start_ft) && isfinite(plan->types[plan->pieces[i].type].weight.weight_lb));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_entries *entries = cw_yaml_read((const char *)data, size, "job.yaml", &arena, &diags);
    const cw_job_files files = {0};
    const cw_job *job = entries ? cw_job_build(entries, &files, &arena, &diags) : NULL;
    if (job) {
        const cw_plan *plan = cw_plan_compute(job, &arena);
        check_ledger(plan);
        must(cw_ledger_text(plan, &arena)[0] != '\0');
    }
    cw_arena_release(&arena);
    return 0;
}
