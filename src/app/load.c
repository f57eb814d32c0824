#include <string.h>
#include <strings.h>

#include "app.h"
#include "cw/chart.h"
#include "cw/yaml.h"
#include "surface.h"
#include "triangulate.h"

enum { PROFILE_BYTES_MAX = 1024 * 1024, GROUND_BYTES_MAX = 64 * 1024 * 1024 };

/* A name in a job file is meant beside that file. */
static const char *beside(const char *job_path, const char *name, cw_arena *arena)
{
    const char *slash = strrchr(job_path, '/');
    if (name[0] == '/' || !slash)
        return name;
    return cw_arena_print(arena, "%.*s/%s", (int)(slash - job_path), job_path, name);
}

static bool is_grid(const char *name)
{
    const char *ending = strrchr(name, '.');
    return ending && strcasecmp(ending, ".asc") == 0;
}

/* A LandXML surface and survey points become triangles here, since the core has no library for
 * either. */
static void read_ground(const char *job_path, const cw_job_names *names, cw_job_files *files,
                        cw_arena *arena, cw_diags *diags)
{
    size_t length = 0;
    const char *text = cw_file_read(beside(job_path, names->ground, arena), GROUND_BYTES_MAX,
                                    &length, names->ground_at, arena, diags);
    if (text)
        cw_ground_files(names, text, length, files, arena, diags);
}

void cw_ground_files(const cw_job_names *names, const char *text, size_t length, cw_job_files *files,
                     cw_arena *arena, cw_diags *diags)
{
    if (is_grid(names->ground)) {
        files->ground_text = text;
        return;
    }
    if (cw_surface_is_named(names->ground)) {
        files->ground_mesh = cw_surface_read(text, length, names->ground, arena, diags);
        return;
    }
    const cw_pos at = {names->ground, "ground.file", 0, 0};
    const cw_survey_points points = cw_ground_points(text, names->ground_order, at, arena, diags);
    files->ground_own_feet = true;
    if (points.count > 0)
        files->ground_mesh = cw_triangulate(points, names->breakline_code, at, arena, diags);
}

const cw_job *cw_load_job(const char *path, cw_arena *arena, cw_diags *diags)
{
    size_t length = 0;
    const char *file = strcmp(path, "-") == 0 ? "standard input" : path;
    char *text = cw_file_read(path, CW_JOB_BYTES_MAX, &length, (cw_pos){0}, arena, diags);
    const cw_entries *entries = text ? cw_yaml_read(text, length, file, arena, diags) : NULL;
    if (!entries)
        return NULL;
    const cw_job_names names = cw_job_file_names(entries);
    cw_job_files files = {0};
    if (names.profile)
        files.profile_text =
            cw_file_read(beside(path, names.profile, arena), PROFILE_BYTES_MAX, &length, names.profile_at, arena, diags);
    if (names.ground)
        read_ground(path, &names, &files, arena, diags);
    for (int i = 0; i < CW_CRANES_MAX; i++)
        if (names.charts[i])
            files.chart_texts[i] = cw_file_read(beside(path, names.charts[i], arena), CW_CHART_BYTES_MAX, &length,
                                                names.charts_at[i], arena, diags);
    const cw_job *job = cw_job_build(entries, &files, arena, diags);
    return cw_diags_stop(diags) ? NULL : job;
}

const cw_plan *cw_load_plan(const char *path, cw_arena *arena, cw_diags *diags)
{
    const cw_job *job = cw_load_job(path, arena, diags);
    return job && !cw_diags_stop(diags) ? cw_plan_compute(job, arena) : NULL;
}
