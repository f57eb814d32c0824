/* Earthwork from the ground's triangles, where the ground file is a surface. */
#include "plan_internal.h"

#include <string.h>

#include "cw/ground.h"
#include "cw/tolerance.h"

/* Coordinates from the outlet, so that millions of feet do not eat the digits of the volume. */
static cw_earthwork_ground ground_near(const cw_ground_mesh *mesh, double north_ft, double east_ft, cw_arena *arena)
{
    double(*points)[3] = cw_arena_take(arena, (size_t)mesh->point_count, sizeof *points);
    for (int i = 0; i < mesh->point_count; i++) {
        const cw_survey_point *p = &mesh->points[i];
        const double place[3] = {p->easting_ft - east_ft, p->northing_ft - north_ft, p->elevation_ft};
        memcpy(points[i], place, sizeof place);
    }
    return (cw_earthwork_ground){(const double(*)[3])points, mesh->faces, mesh->point_count, mesh->face_count};
}

static void add_leg(cw_earthwork_cut *cut, const cw_run_path *path, double from_ft, double to_ft, const cw_plan_surface *out,
                    double scale)
{
    const cw_run_place start = cw_run_path_at(path, from_ft);
    cut->legs[cut->leg_count++] = (cw_earthwork_leg){.east_ft = start.easting_ft * scale - out->origin_easting_ft,
                                                     .north_ft = start.northing_ft * scale - out->origin_northing_ft,
                                                     .azimuth_deg = start.azimuth_deg,
                                                     .from_ft = from_ft,
                                                     .to_ft = to_ft};
}

static cw_earthwork_cut cut_of(const cw_run_path *path, const cw_plan_surface_input *in, const cw_plan_surface *out,
                               double scale)
{
    cw_earthwork_cut cut = {.shape = in->shape, .bottom_elev_ft = in->subgrade_ft, .grade = in->grade};
    double from_ft = in->outlet_chain_ft;
    for (int i = 0; i < path->bend_count; i++) {
        const double bend_ft = path->bends[i].chain_ft;
        if (bend_ft < from_ft + CW_SAME_PLACE_FT || bend_ft > in->inlet_chain_ft - CW_SAME_PLACE_FT)
            continue;
        add_leg(&cut, path, from_ft, bend_ft, out, scale);
        from_ft = bend_ft;
    }
    add_leg(&cut, path, from_ft, in->inlet_chain_ft, out, scale);
    for (int i = 0; i < 2; i++)
        if (in->end_slopes[i] > 0.0)
            cut.ends[i] = (cw_earthwork_end){CW_END_SLOPED, in->end_slopes[i], 0.0};
    return cut;
}

static const char *why_not(const cw_earthwork_dug *dug, const cw_plan_surface *out, cw_arena *arena)
{
    return cw_arena_print(arena, "%s (N %.1f, E %.1f)", cw_earthwork_status_words(dug->status),
                          out->origin_northing_ft + dug->where.north_ft, out->origin_easting_ft + dug->where.east_ft);
}

cw_plan_surface cw_plan_surface_of(const cw_job *job, const cw_run_path *path, const cw_plan_surface_input *in,
                                   cw_arena *arena)
{
    cw_plan_surface out = {.why = ""};
    if (!job->ground.mesh || job->ground.mesh->face_count == 0)
        return out;
    out.present = true;
    const double scale = job->ground.mesh_scale;
    const cw_run_place outlet = cw_run_path_at(path, in->outlet_chain_ft);
    out.origin_northing_ft = outlet.northing_ft * scale;
    out.origin_easting_ft = outlet.easting_ft * scale;
    const cw_earthwork_ground ground =
        ground_near(job->ground.mesh, out.origin_northing_ft, out.origin_easting_ft, arena);
    const cw_earthwork_cut cut = cut_of(path, in, &out, scale);
    out.dug = cw_earthwork_dig(&ground, &cut, arena);
    out.known = out.dug.status == CW_EARTHWORK_KNOWN;
    if (!out.known) {
        out.why = why_not(&out.dug, &out, arena);
        return out;
    }
    out.has_average = cw_earthwork_average_cuft(&ground, &cut, in->step_ft, &out.average_cuft, arena);
    out.has_fill = in->has_fill;
    if (in->has_fill)
        out.fill = cw_earthwork_fill_of(&out.dug, &in->fill);
    return out;
}
