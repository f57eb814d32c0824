/* The ground along the centre line: section of a surface, gaps, and the profile of a job's file. */
#include "cw/ground.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "ground_internal.h"

/* Thinning starts at the precision that survey is printed to, and gives up when a foot would be
 * lost. */
#define THIN_START_FT 0.001
#define THIN_MOST_FT 1.0

/* Shorter stretches are left out, so that no two points of the profile coincide; less than
 * CW_SAME_PLACE_FT, so that leaving one out makes no gap. */
#define NO_LENGTH_FT (CW_SAME_PLACE_FT / 4.0)

/* A corner so near the line is on it: ten times what rounding does to coordinates of 1e7 ft. */
#define ON_LINE_FT 1e-7

/* ---- the line ---- */

/* Where a leg that starts at the end of another, or ends at its start, begins. */
static cw_ground_leg leg_along(const cw_ground_leg *from, double from_ft, double to_ft)
{
    const double azimuth = from->azimuth_deg * CW_RAD_PER_DEG, forward_ft = from_ft - from->from_ft;
    return (cw_ground_leg){from->northing_ft + forward_ft * cos(azimuth),
                           from->easting_ft + forward_ft * sin(azimuth), from->azimuth_deg, from_ft,
                           to_ft};
}

/* Legs downstream of the crossing, then upstream: the azimuth is that of the straight just upstream
 * of it. */
static void lay_legs(const cw_job *job, const cw_ground_leg *crossing, double outlet_ft,
                     double inlet_ft, cw_ground_line *line)
{
    const double base_ft = -job->run.outlet_distance_ft;
    cw_ground_leg reversed[CW_LEGS_MAX];
    int below = 0;
    cw_ground_leg here = *crossing;
    for (int i = job->bend_count - 1; i >= 0; i--) {
        const double bend_ft = base_ft + job->bends[i].at_ft;
        if (bend_ft > 0.0 || bend_ft <= outlet_ft || below >= CW_LEGS_MAX - 1)
            continue;
        here = leg_along(&here, bend_ft, here.from_ft);
        if (here.to_ft > here.from_ft)
            reversed[below++] = here;
        here.azimuth_deg -= job->bends[i].turn_deg;
    }
    here = leg_along(&here, outlet_ft, here.from_ft);
    if (here.to_ft > here.from_ft)
        reversed[below++] = here;
    while (below > 0)
        line->legs[line->leg_count++] = reversed[--below];
    here = *crossing;
    for (int i = 0; i < job->bend_count && line->leg_count < CW_LEGS_MAX - 1; i++) {
        const double bend_ft = base_ft + job->bends[i].at_ft;
        if (bend_ft <= 0.0 || bend_ft >= inlet_ft)
            continue;
        here.to_ft = bend_ft;
        line->legs[line->leg_count++] = here;
        here = leg_along(&here, bend_ft, inlet_ft);
        here.azimuth_deg += job->bends[i].turn_deg;
    }
    here.to_ft = inlet_ft;
    if (here.to_ft > here.from_ft && line->leg_count < CW_LEGS_MAX)
        line->legs[line->leg_count++] = here;
}

cw_ground_line cw_ground_line_of(const cw_job *job)
{
    const bool right = job->road.inlet_side == CW_RIGHT;
    const double quarter_deg = 90.0;
    // Positive skew leans the inlet up-station, toward the road's own azimuth.  Without a road the survey's azimuth is
    // that of the culvert.
    const double turn_deg = right ? quarter_deg - job->run.skew_deg : job->run.skew_deg - quarter_deg;
    const cw_ground_leg crossing = {
        .northing_ft = job->survey.northing_ft,
        .easting_ft = job->survey.easting_ft,
        .azimuth_deg = job->survey.azimuth_deg + (job->road.present ? turn_deg : 0.0),
    };
    const bool starts_known = !job->road.present || job->run.has_outlet_distance;
    cw_ground_line line = {.must_cover = starts_known && job->run.has_length};
    const double outlet_ft = starts_known ? -job->run.outlet_distance_ft : -CW_GROUND_SPAN_FT;
    const double inlet_ft = line.must_cover ? outlet_ft + job->run.length_ft : CW_GROUND_SPAN_FT;
    lay_legs(job, &crossing, outlet_ft, inlet_ft, &line);
    return line;
}

/* ---- stretches to a profile ---- */

void cw_ground_add_stretch(cw_ground_stretches *list, cw_ground_stretch stretch)
{
    if (list->count == list->capacity) {
        list->capacity = list->capacity ? list->capacity * 2 : 256;
        list->items = cw_arena_grow(list->arena, list->items, (size_t)list->count,
                                    (size_t)list->capacity, sizeof *list->items);
    }
    list->items[list->count++] = stretch;
}

static int compare(double a, double b)
{
    return (a > b) - (a < b);
}

static int compare_stretches(const void *left, const void *right)
{
    const cw_ground_stretch *a = left, *b = right;
    const int keys[] = {compare(a->from_ft, b->from_ft), compare(a->to_ft, b->to_ft),
                        compare(a->from_z_ft, b->from_z_ft), compare(a->to_z_ft, b->to_z_ft)};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (keys[i] != 0)
            return keys[i];
    return 0;
}

static bool report_gap(double from_ft, double to_ft, cw_pos at, cw_diags *diags)
{
    cw_diag_add(diags, at, CW_E_MISSING,
                "no ground from %.2f to %.2f ft along the centre line (0 at the crossing point, "
                "positive toward the inlet); measure points there",
                from_ft, to_ft);
    return false;
}

/* Fills @p points with the ends of the stretches; false when there are gaps. */
static bool chain(const cw_ground_stretches *list, const cw_ground_line *line,
                  cw_ground_point *points, int *count, cw_pos at, cw_diags *diags)
{
    const double start_ft = line->legs[0].from_ft, end_ft = line->legs[line->leg_count - 1].to_ft;
    bool covered = true;
    double reached_ft = start_ft;
    *count = 0;
    for (int i = 0; i < list->count; i++) {
        const cw_ground_stretch *s = &list->items[i];
        if (*count > 0 && s->to_ft <= reached_ft + NO_LENGTH_FT)
            continue; // Two triangles share an edge that lies along the line.
        const bool gap = s->from_ft > reached_ft + CW_SAME_PLACE_FT;
        if (gap && (*count > 0 || line->must_cover))
            covered = report_gap(reached_ft, s->from_ft, at, diags);
        if (*count == 0 || gap)
            points[(*count)++] = (cw_ground_point){s->from_ft, s->from_z_ft};
        points[(*count)++] = (cw_ground_point){s->to_ft, s->to_z_ft};
        reached_ft = s->to_ft;
    }
    if (line->must_cover && *count > 0 && reached_ft < end_ft - CW_SAME_PLACE_FT)
        covered = report_gap(reached_ft, end_ft, at, diags);
    return covered;
}

/* Leaves out points that stand within @p off_ft of the chord between those kept: the chord must
 * pass the window that all points since the last kept one leave open.  Returns how many are kept in
 * @p kept. */
static int thin(const cw_ground_point *points, int count, double off_ft, cw_ground_point *kept)
{
    int n = 0;
    kept[n++] = points[0];
    double low = -HUGE_VAL, high = HUGE_VAL;
    for (int i = 1; i < count; i++) {
        const cw_ground_point *from = &kept[n - 1];
        double run_ft = points[i].at_ft - from->at_ft;
        const double slope = (points[i].elevation_ft - from->elevation_ft) / run_ft;
        if (slope < low || slope > high) {
            kept[n] = points[i - 1];
            from = &kept[n++];
            run_ft = points[i].at_ft - from->at_ft;
            low = -HUGE_VAL;
            high = HUGE_VAL;
        }
        const double rise_ft = points[i].elevation_ft - from->elevation_ft;
        low = fmax(low, (rise_ft - off_ft) / run_ft);
        high = fmin(high, (rise_ft + off_ft) / run_ft);
    }
    if (count > 1)
        kept[n++] = points[count - 1];
    return n;
}

cw_ground_profile cw_ground_join(cw_ground_stretches *list, const cw_ground_line *line, cw_pos at,
                                 cw_diags *diags)
{
    if (list->count == 0) {
        cw_diag_add(
            diags, at, CW_E_MISSING,
            "the surface does not reach the centre line anywhere; check survey.northing, easting "
            "and azimuth, and the unit of the surface");
        return (cw_ground_profile){0};
    }
    qsort(list->items, (size_t)list->count, sizeof *list->items, compare_stretches);
    cw_ground_point *points = CW_TAKE(list->arena, cw_ground_point, 2 * list->count);
    int count = 0;
    if (!chain(list, line, points, &count, at, diags))
        return (cw_ground_profile){0};
    if (count <= CW_GROUND_MAX)
        return (cw_ground_profile){points, count, 0.0};
    cw_ground_point *kept = CW_TAKE(list->arena, cw_ground_point, count);
    for (int doubled = 0; THIN_START_FT * (1 << doubled) <= THIN_MOST_FT; doubled++) {
        const double off_ft = THIN_START_FT * (1 << doubled);
        const int left = thin(points, count, off_ft, kept);
        if (left <= CW_GROUND_MAX)
            return (cw_ground_profile){kept, left, off_ft};
    }
    cw_diag_add(
        diags, at, CW_E_TOO_MANY,
        "the ground line has more than %d breaks even when %.0f ft of height is ignored; use a "
        "smoother surface",
        CW_GROUND_MAX, THIN_MOST_FT);
    return (cw_ground_profile){0};
}

/* ---- triangles ---- */

/* Twice the area below which a face is a line in plan and has no height of its own, ft2. */
#define FLAT_SQFT 1e-12

bool cw_ground_mesh_height(const cw_ground_mesh *mesh, double northing_ft, double easting_ft,
                           double *elevation_ft)
{
    for (int i = 0; i < mesh->face_count; i++) {
        const cw_survey_point *a = &mesh->points[mesh->faces[i][0]];
        const cw_survey_point *b = &mesh->points[mesh->faces[i][1]];
        const cw_survey_point *c = &mesh->points[mesh->faces[i][2]];
        const double bn = b->northing_ft - a->northing_ft, be = b->easting_ft - a->easting_ft;
        const double cn = c->northing_ft - a->northing_ft, ce = c->easting_ft - a->easting_ft;
        const double pn = northing_ft - a->northing_ft, pe = easting_ft - a->easting_ft;
        const double area = bn * ce - be * cn;
        if (fabs(area) < FLAT_SQFT)
            continue;
        const double share_b = (pn * ce - pe * cn) / area, share_c = (bn * pe - be * pn) / area;
        const double least = fmin(1.0 - share_b - share_c, fmin(share_b, share_c));
        if (least < -CW_RATIO_SLACK)
            continue;
        *elevation_ft = a->elevation_ft + share_b * (b->elevation_ft - a->elevation_ft) +
                        share_c * (c->elevation_ft - a->elevation_ft);
        return true;
    }
    return false;
}

typedef struct corner {
    double along_ft, right_ft, z_ft;
} corner;

/* A leg and its direction. */
typedef struct direction {
    const cw_ground_leg *leg;
    double north, east;
} direction;

/* Distance along the leg, and offset to the right looking along it. */
static corner corner_at(const direction *d, const cw_survey_point *p)
{
    const double north_ft = p->northing_ft - d->leg->northing_ft, east_ft = p->easting_ft - d->leg->easting_ft;
    const double right_ft = east_ft * d->north - north_ft * d->east;
    return (corner){d->leg->from_ft + north_ft * d->north + east_ft * d->east,
                    fabs(right_ft) < ON_LINE_FT ? 0.0 : right_ft, p->elevation_ft};
}

static void widen(cw_ground_stretch *s, double along_ft, double z_ft)
{
    if (along_ft < s->from_ft) {
        s->from_ft = along_ft;
        s->from_z_ft = z_ft;
    }
    if (along_ft > s->to_ft) {
        s->to_ft = along_ft;
        s->to_z_ft = z_ft;
    }
}

/* What of the face lies over the line, not yet cut to the leg. */
static cw_ground_stretch over_line(const corner corners[3])
{
    cw_ground_stretch s = {HUGE_VAL, -HUGE_VAL, 0.0, 0.0};
    for (int i = 0; i < 3; i++) {
        const corner *a = &corners[i], *b = &corners[(i + 1) % 3];
        if (a->right_ft == 0.0)
            widen(&s, a->along_ft, a->z_ft);
        if ((a->right_ft < 0.0 && b->right_ft > 0.0) || (a->right_ft > 0.0 && b->right_ft < 0.0)) {
            const double share = a->right_ft / (a->right_ft - b->right_ft);
            widen(&s, a->along_ft + share * (b->along_ft - a->along_ft),
                  a->z_ft + share * (b->z_ft - a->z_ft));
        }
    }
    return s;
}

static void cut_face(const cw_ground_mesh *mesh, const int face[3], const direction *d,
                     cw_ground_stretches *list)
{
    const cw_ground_leg *leg = d->leg;
    corner corners[3];
    for (int i = 0; i < 3; i++)
        corners[i] = corner_at(d, &mesh->points[face[i]]);
    cw_ground_stretch s = over_line(corners);
    const double length_ft = s.to_ft - s.from_ft;
    if (!(length_ft > NO_LENGTH_FT))
        return;
    const double from_ft = fmax(s.from_ft, leg->from_ft), to_ft = fmin(s.to_ft, leg->to_ft);
    if (!(to_ft - from_ft > NO_LENGTH_FT))
        return;
    const double grade = (s.to_z_ft - s.from_z_ft) / length_ft;
    cw_ground_add_stretch(list, (cw_ground_stretch){from_ft, to_ft,
                                                    s.from_z_ft + grade * (from_ft - s.from_ft),
                                                    s.from_z_ft + grade * (to_ft - s.from_ft)});
}

/* Says where the surface lies instead, and whether the other order of columns would bring it here. */
static void report_beside(const cw_ground_mesh *mesh, const cw_ground_line *line, cw_pos at,
                          cw_diags *diags)
{
    const cw_survey_point *p = mesh->points;
    double south = p[0].northing_ft, north = south, west = p[0].easting_ft, east = west;
    for (int i = 1; i < mesh->point_count; i++) {
        south = fmin(south, p[i].northing_ft);
        north = fmax(north, p[i].northing_ft);
        west = fmin(west, p[i].easting_ft);
        east = fmax(east, p[i].easting_ft);
    }
    const cw_ground_leg *leg = &line->legs[0];
    const bool swapped = leg->easting_ft >= south && leg->easting_ft <= north &&
                         leg->northing_ft >= west && leg->northing_ft <= east;
    cw_diag_add(diags, at, swapped ? CW_E_CONFLICT : CW_E_MISSING,
                "the surface does not reach the centre line anywhere: it lies from N %.1f to %.1f "
                "and E %.1f to %.1f, and the line passes N %.1f, E %.1f; %s",
                south, north, west, east, leg->northing_ft, leg->easting_ft,
                swapped ? "northing and easting look swapped: set ground.order to the other order"
                        : "check survey.northing, easting and azimuth, and the unit of the surface");
}

cw_ground_profile cw_ground_cut_mesh(const cw_ground_mesh *mesh, const cw_ground_line *line,
                                     cw_pos at, cw_arena *arena, cw_diags *diags)
{
    cw_ground_stretches list = {.arena = arena};
    for (int i = 0; i < line->leg_count; i++) {
        const double azimuth = line->legs[i].azimuth_deg * CW_RAD_PER_DEG;
        const direction along = {&line->legs[i], cos(azimuth), sin(azimuth)};
        for (int f = 0; f < mesh->face_count; f++)
            cut_face(mesh, mesh->faces[f], &along, &list);
    }
    if (list.count == 0) {
        report_beside(mesh, line, at, diags);
        return (cw_ground_profile){0};
    }
    return cw_ground_join(&list, line, at, diags);
}

/* ---- the file of a job ---- */

static bool ends_in(const char *name, const char *ending)
{
    const size_t length = strlen(name), tail = strlen(ending);
    if (length < tail)
        return false;
    for (size_t i = 0; i < tail; i++) {
        const char c = name[length - tail + i];
        if ((c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c) != ending[i])
            return false;
    }
    return true;
}

/* The reader of the file has already said why there is none. */
static bool is_reported(const cw_job *job, const cw_diags *diags)
{
    bool found = false;
    for (int i = 0; i < diags->count; i++)
        found = found || (cw_text_same(cw_code_kind(diags->items[i].code), "error") &&
                          (cw_text_same(diags->items[i].where.path, "ground.file") ||
                           cw_text_same(diags->items[i].where.file, job->ground.file)));
    return found;
}

static bool is_known(const cw_job *job, const cw_job_files *files, cw_pos at, cw_diags *diags)
{
    if (!files->ground_text && !files->ground_mesh) {
        if (!is_reported(job, diags))
            cw_diag_add(diags, at, CW_E_FILE,
                        "ground file '%s' was not read; put it beside the job file",
                        job->ground.file);
        return false;
    }
    if (!files->ground_mesh && !ends_in(job->ground.file, ".asc")) {
        cw_diag_add(diags, at, CW_E_FILE,
                    "the points of ground file '%s' came without their triangles; hand them over "
                    "triangulated, as the command line does, or write ground.profile instead",
                    job->ground.file);
        return false;
    }
    if (job->bend_count > 0 && job->road.present && !job->run.has_outlet_distance) {
        cw_diag_add(
            diags, at, CW_E_MISSING,
            "bends count from the outlet face, whose place on the ground is not known; give "
            "run.length and run.outlet_distance");
        return false;
    }
    if (ends_in(job->ground.file, ".asc") && !job->ground.has_grid_unit) {
        cw_diag_add(
            diags, at, CW_E_MISSING,
            "the grid '%s' does not name its unit; add 'grid_unit: feet' or 'grid_unit: metres' "
            "to ground",
            job->ground.file);
        return false;
    }
    return true;
}

static cw_ground_profile cut_grid(cw_job *job, const char *text, const cw_ground_line *line,
                                  cw_arena *arena, cw_diags *diags)
{
    const cw_pos at = {job->ground.file, "ground.file", 0, 0};
    const cw_ground_grid *grid =
        cw_ground_grid_parse(text, job->ground.grid_unit == 1, at, arena, diags);
    if (!grid)
        return (cw_ground_profile){0};
    job->ground.mesh = cw_ground_grid_mesh(grid, line, arena);
    return cw_ground_cut_grid(grid, line, at, arena, diags);
}

/* A surface and a grid in metres come in international feet; a job may count its coordinates in
 * survey feet, 4 ft apart at 2,000,000 ft.  Only the origin is converted: along the run the two
 * feet differ by less than 0.01 ft. */
static void use_international_feet(cw_ground_line *line)
{
    for (int i = 0; i < line->leg_count; i++) {
        line->legs[i].northing_ft *= CW_M_PER_USFT / CW_M_PER_FT;
        line->legs[i].easting_ft *= CW_M_PER_USFT / CW_M_PER_FT;
    }
}

void cw_ground_from_files(cw_job *job, const cw_job_files *files, cw_pos at, cw_arena *arena,
                          cw_diags *diags)
{
    if (!job->ground.file || !job->ground.file[0] || !is_known(job, files, at, diags))
        return;
    cw_ground_line line = cw_ground_line_of(job);
    if (line.leg_count == 0)
        return; // The run has no length, which is a fault of its own.
    const bool in_metres = ends_in(job->ground.file, ".asc") && job->ground.grid_unit == 1;
    const bool surface_file = files->ground_mesh && !files->ground_own_feet;
    job->ground.mesh = files->ground_mesh;
    job->ground.mesh_scale = 1.0;
    if (job->survey.foot == CW_FOOT_US_SURVEY && (surface_file || in_metres)) {
        use_international_feet(&line);
        job->ground.mesh_scale = CW_M_PER_USFT / CW_M_PER_FT;
    }
    const cw_pos in_file = {job->ground.file, "ground.file", 0, 0};
    const cw_ground_profile profile =
        files->ground_mesh ? cw_ground_cut_mesh(files->ground_mesh, &line, in_file, arena, diags)
                           : cut_grid(job, files->ground_text, &line, arena, diags);
    if (profile.count == 0)
        return;
    if (profile.thinned_ft > 0.0)
        cw_diag_add(
            diags, at, CW_W_ASSUMED,
            "the ground line was thinned to %d points, none farther than %.3f ft of height from "
            "the surface",
            profile.count, profile.thinned_ft);
    job->ground.profile = CW_TAKE(arena, cw_ground_point, profile.count);
    memcpy(job->ground.profile, profile.points, (size_t)profile.count * sizeof *profile.points);
    job->ground.profile_count = profile.count;
    job->ground.from_crossing = true;
}
