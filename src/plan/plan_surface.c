/* Earthwork from the ground's triangles, where the ground file is a surface. */
#include "plan_internal.h"

#include <math.h>
#include <string.h>

#include "cw/ground.h"
#include "cw/tolerance.h"
#include "cw/units.h"

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

/* ---- the cut of this plan ---- */

/* Why the cut is not one shape along straight planes; NULL when it is. */
static const char *not_covered(const draft *d)
{
    const cw_plan_trench *trench = &d->plan.trench;
    const cw_plan_cut *deepest = &trench->cuts[trench->deepest];
    if (!deepest->shape)
        return "the section at the deepest place is not known";
    if (d->job->grade.camber_ft != 0.0)
        return "the bottom is cambered and no plane; the sections stand";
    if (d->job->run.cut == CW_CUT_ROAD && d->job->road.present && fabs(d->job->run.skew_deg) > CW_SAME_DIRECTION_DEG)
        return "the ends lie along a skewed road, not square; the sections stand";
    for (int i = 0; i < trench->cut_count; i++) {
        const cw_trench_section *a = &trench->cuts[i].section, *b = &deepest->section;
        if (!trench->cuts[i].dug)
            continue;
        // Layers follow the ground, so where they have slopes of their own the section changes all along.
        if (fabs(a->slope_bottom - b->slope_bottom) > CW_RATIO_SLACK || fabs(a->slope_top - b->slope_top) > CW_RATIO_SLACK ||
            fabs(a->slope_bottom - a->slope_top) > CW_RATIO_SLACK || trench->cuts[i].refused != deepest->refused)
            return "the slopes of the faces change with the layers or the depth; the sections stand";
    }
    return NULL;
}

static double end_slope(const cw_plan_cut *end)
{
    return end->dug ? end->section.slope_top : 0.0;
}

static void show(draft *d, const cw_plan_surface *surface)
{
    cw_working *w = draft_working(d, "Volume of the cut from the surface");
    const char *prisms = "closed form: prisms over triangles, clipped by the planes of the cut";
    cw_step_add(w, "V_r", "sum of area x mean depth over the pieces of triangles, along the run",
                surface->dug.run_cuft / CW_CUFT_PER_CY, CW_DIM_CY, prisms);
    cw_step_add(w, "V", "V_r and the sloped ends, bank", surface->dug.cut_cuft / CW_CUFT_PER_CY, CW_DIM_CY, prisms);
    if (surface->has_average)
        cw_step_add(w, "V_a", "sections out of the same triangles, average end area, along the run",
                    surface->average_cuft / CW_CUFT_PER_CY, CW_DIM_CY, "average end area");
    cw_step_add(w, "V_l", "to be filled under the bottom where the ground is lower",
                surface->dug.low_cuft / CW_CUFT_PER_CY, CW_DIM_CY, prisms);
}

void draft_surface(draft *d)
{
    static const double step_ft = 10.0; // common practice: sections of a culvert trench at 5 to 10 ft
    const cw_plan_trench *trench = &d->plan.trench;
    if (!d->job->ground.mesh || trench->deepest < 0)
        return;
    cw_plan_surface *surface = &d->plan.surface;
    const char *why = not_covered(d);
    if (why) {
        *surface = (cw_plan_surface){.present = true, .why = why};
        return;
    }
    const cw_plan_surface_input input = {
        .outlet_chain_ft = d->plan.span.outlet_chain_ft,
        .inlet_chain_ft = d->plan.span.inlet_chain_ft,
        .subgrade_ft = draft_subgrade_ft(d, 0.0),
        .grade = d->job->run.slope,
        .shape = *trench->cuts[trench->deepest].shape,
        .end_slopes = {end_slope(&trench->cuts[0]), end_slope(&trench->cuts[trench->cut_count - 1])},
        .step_ft = step_ft};
    *surface = cw_plan_surface_of(d->job, &d->plan.path, &input, d->arena);
    if (surface->known)
        show(d, surface);
}

/* Two ways to one volume: when they part, ground beside the centre line is not what the sections take it for. */
void draft_check_surface(draft *d)
{
    const cw_plan_surface *surface = &d->plan.surface;
    if (!surface->present)
        return;
    cw_check check = {.id = "trench.surface",
                      .what = "Volume of the cut from the surface and from sections on the centre line, apart by",
                      .clause = draft_source(d, "trench.volume_apart"),
                      .rests_on = "trench.volume_apart",
                      .verdict = CW_UNDECIDED,
                      .mend = surface->why};
    if (!surface->known) {
        draft_add(d, check);
        return;
    }
    const cw_plan_trench *trench = &d->plan.trench;
    const double sections_cuft = (trench->exact_cy + trench->ends_cy) * CW_CUFT_PER_CY;
    check.has_numbers = true;
    check.demand = fabs(surface->dug.cut_cuft - sections_cuft) / surface->dug.cut_cuft * CW_PERCENT;
    check.capacity = draft_row_value(d, "trench.volume_apart", 5.0);
    check.dim = CW_DIM_PERCENT;
    check.working = "Volume of the cut from the surface";
    check.mend = "take the surface's volume; ground beside the centre line lies higher or lower, or give trench.cross_fall";
    cw_check_judge(&check);
    // A difference is no fault of the work: which volume counts is for the contract.
    if (check.verdict == CW_FAILS)
        check.verdict = CW_UNDECIDED;
    if (check.verdict == CW_HOLDS)
        check.mend = "";
    draft_add(d, check);
}
