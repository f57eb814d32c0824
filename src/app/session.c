/* What the commands on a job file begin and end with. */
#include "app.h"

cw_exit cw_plan_exit(const cw_plan *plan)
{
    switch (cw_checks_worst(&plan->checks)) {
    case CW_FAILS:
        return CW_EXIT_FAILS;
    case CW_UNDECIDED:
        return CW_EXIT_UNDECIDED;
    default:
        return CW_EXIT_HOLDS;
    }
}

bool cw_session_open(cw_session *s, const char *path)
{
    s->arena = cw_arena_on(&cw_app_memory);
    s->diags = cw_diags_on(&s->arena);
    s->plan = cw_load_plan(path, &s->arena, &s->diags);
    return s->plan != NULL;
}

cw_exit cw_session_close(cw_session *s, cw_exit code)
{
    cw_diags_show(&s->diags);
    cw_arena_release(&s->arena);
    return code;
}

bool cw_write_text(const char *path, const char *text, cw_arena *arena, cw_diags *diags)
{
    cw_output output;
    if (!cw_output_open(&output, path, arena, diags))
        return false;
    fputs(text, output.stream);
    return cw_output_close(&output, true, arena, diags);
}

const char *cw_one_file(const char **words, int count, const char *command)
{
    if (count == 1)
        return words[0];
    if (count == 0)
        fprintf(stderr, "culvertwright %s: name the job file\n", command);
    return NULL;
}
