/* Bytes to a job: YAML reader and builder; or, by the first byte, survey points (1), a grid (2) or
 * a LandXML surface (3), each followed by the cut along a line.  Must hold for any input: no crash,
 * no leak, a job or an error but never both. */
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "../../src/app/surface.h"
#include "../../src/app/triangulate.h"
#include "cw/ground.h"
#include "cw/text.h"
#include "cw/yaml.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

enum { MODE_POINTS = 1, MODE_GRID, MODE_SURFACE };

static const cw_pos here = {"fuzz", "ground.file", 0, 0};

/* Three points around the origin, so that a job that names a survey file has one. */
static const char points_text[] = "1,-500,-500,10\n2,500,-500,12\n3,0,900,11\n4,0,0,9\n";

static bool has_error(const cw_diags *diags)
{
    bool found = diags->dropped > 0;
    for (int i = 0; i < diags->count; i++)
        found = found || cw_text_same(cw_code_kind(diags->items[i].code), "error");
    return found;
}

/* A result without an error, or an error without a result. */
static void demand(bool has_result, const cw_diags *diags)
{
    if (has_result == has_error(diags))
        abort();
}

static void read_job(const char *bytes, size_t size, cw_arena *arena, cw_diags *diags)
{
    const cw_entries *entries = cw_yaml_read(bytes, size, "fuzz", arena, diags);
    demand(entries != NULL, diags);
    if (!entries)
        return;
    cw_job_file_names(entries);
    const cw_job_files files = {.profile_text =
                                    "id,value,unit,low,high,source,edition,clause,status,note\n",
                                .ground_text = points_text};
    const cw_job *job = cw_job_build(entries, &files, arena, diags);
    demand(job != NULL, diags);
    for (int i = 0; i < diags->count; i++)
        if (strlen(cw_diag_line(arena, &diags->items[i])) < 10)
            abort();
}

static cw_ground_line some_line(void)
{
    return (cw_ground_line){.legs = {{-30, -40, 37, -50, 20}, {25.9, 2.13, 101, 20, 130}},
                            .leg_count = 2};
}

/* Distances must increase and heights be numbers. */
static void demand_order(cw_ground_profile profile)
{
    for (int i = 0; i < profile.count; i++) {
        const cw_ground_point *p = &profile.points[i];
        if (!(p->elevation_ft > -1e9 && p->elevation_ft < 1e9) ||
            (i > 0 && !(p->at_ft > p[-1].at_ft)))
            abort();
    }
}

static void read_ground(int mode, const char *bytes, size_t size, cw_arena *arena, cw_diags *diags)
{
    const cw_ground_line line = some_line();
    const char *text = cw_arena_copy(arena, bytes, size);
    if (mode == MODE_GRID) {
        const cw_ground_grid *grid = cw_ground_grid_parse(text, false, here, arena, diags);
        demand(grid != NULL, diags);
        if (grid)
            demand_order(cw_ground_cut_grid(grid, &line, here, arena, diags));
        return;
    }
    cw_ground_mesh mesh = {0};
    if (mode == MODE_POINTS) {
        const cw_survey_points points = cw_ground_points(text, 0, here, arena, diags);
        demand(points.count > 0, diags);
        if (points.count > 0)
            {
            const cw_ground_mesh *made = cw_triangulate(points, "BL", here, arena, diags);
            demand(made != NULL, diags);
            if (made)
                mesh = *made;
        }
    } else {
        const cw_ground_mesh *read = cw_surface_read(bytes, size, "fuzz", arena, diags);
        demand(read != NULL, diags);
        if (read)
            mesh = *read;
    }
    if (mesh.face_count > 0)
        demand_order(cw_ground_cut_mesh(&mesh, &line, here, arena, diags));
    else
        demand(false, diags);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const int mode = size > 0 && data[0] >= MODE_POINTS && data[0] <= MODE_SURFACE ? data[0] : 0;
    if (mode)
        read_ground(mode, (const char *)data + 1, size - 1, &arena, &diags);
    else
        read_job((const char *)data, size, &arena, &diags);
    cw_arena_release(&arena);
    return 0;
}
