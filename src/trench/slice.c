/* Sections cut out of the surface, for the average end area. */
#include <math.h>
#include <stdlib.h>

#include "clip.h"
#include "cw/tolerance.h"

/* The ground along a section, over one triangle: offsets to the right, heights over the bottom. */
typedef struct slice {
    cw_trench_point from, to;
} slice;

typedef struct slicer {
    const cw_earthwork_ground *ground;
    const cw_earthwork_cut *cut;
    const cw_earthwork_leg *leg;
    double (*places)[2]; /* of the ground's points: along the leg, to the right */
    double at_ft, bottom_ft;
    int *faces; /* of the ground, near the leg */
    int face_count;
    slice *slices;
    int count, room;
    cw_arena *arena;
} slicer;

static int by_offset(const void *left, const void *right)
{
    const slice *a = left, *b = right;
    const double keys[][2] = {{a->from.offset_ft, b->from.offset_ft},
                              {a->to.offset_ft, b->to.offset_ft},
                              {a->from.height_ft, b->from.height_ft}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (keys[i][0] != keys[i][1])
            return keys[i][0] < keys[i][1] ? -1 : 1;
    return 0;
}

static void add(slicer *s, cw_trench_point a, cw_trench_point b)
{
    enum { FIRST_ROOM = 64 };
    if (s->count == s->room) {
        s->room = s->room > 0 ? 2 * s->room : FIRST_ROOM;
        s->slices = cw_arena_grow(s->arena, s->slices, (size_t)s->count, (size_t)s->room,
                                  sizeof *s->slices);
    }
    s->slices[s->count++] = a.offset_ft <= b.offset_ft ? (slice){a, b} : (slice){b, a};
}

/* Corners on the section itself count to one side, @p up, so that a triangle side along it is met
 * once. */
static void slice_face(slicer *s, const int *face, bool up)
{
    double along[3], right[3];
    bool past[3];
    for (int k = 0; k < 3; k++) {
        along[k] = s->places[face[k]][0];
        right[k] = s->places[face[k]][1];
        past[k] = up ? along[k] >= s->at_ft : along[k] > s->at_ft;
    }
    cw_trench_point met[2] = {{0.0, 0.0}, {0.0, 0.0}};
    int count = 0;
    for (int k = 0; k < 3; k++) {
        const int next = (k + 1) % 3;
        if (past[k] == past[next] || count == 2)
            continue;
        const double share = (s->at_ft - along[k]) / (along[next] - along[k]);
        const double z = s->ground->points_ft[face[k]][2], z_next = s->ground->points_ft[face[next]][2];
        met[count++] = (cw_trench_point){right[k] + share * (right[next] - right[k]),
                                         z + share * (z_next - z) - s->bottom_ft};
    }
    if (count == 2 && fabs(met[0].offset_ft - met[1].offset_ft) > CW_SAME_PLACE_FT)
        add(s, met[0], met[1]);
}

/* The slices as one line; false when there is a hole, an overlap or too many breaks. */
static bool chain(const slicer *s, cw_trench_ground *line)
{
    line->count = 0;
    for (int i = 0; i < s->count; i++) {
        const slice *here = &s->slices[i];
        const bool follows = i > 0 && fabs(here->from.offset_ft - s->slices[i - 1].to.offset_ft) <
                                          2.0 * CW_SAME_PLACE_FT;
        if (i > 0 && !follows)
            return false;
        if (line->count + 2 > CW_TRENCH_GROUND_MAX)
            return false;
        if (i == 0)
            line->points[line->count++] = here->from;
        line->points[line->count++] = here->to;
    }
    return line->count > 0;
}

static bool area_at(slicer *s, bool up, double *area_sqft)
{
    s->count = 0;
    for (int f = 0; f < s->face_count; f++)
        slice_face(s, s->ground->faces[s->faces[f]], up);
    if (s->count == 0)
        return false;
    qsort(s->slices, (size_t)s->count, sizeof *s->slices, by_offset);
    cw_trench_ground line;
    if (!chain(s, &line))
        return false;
    const cw_trench_cut cut = cw_trench_cut_of(&s->cut->shape, &line);
    // Beyond the line the ground is not known.
    if (-cut.left_ft < line.points[0].offset_ft - CW_SAME_PLACE_FT ||
        cut.right_ft > line.points[line.count - 1].offset_ft + CW_SAME_PLACE_FT)
        return false;
    *area_sqft = cut.area_sqft;
    return true;
}

static bool section_sqft(slicer *s, double at_ft, double *area_sqft)
{
    s->at_ft = at_ft;
    s->bottom_ft = s->cut->bottom_elev_ft + s->cut->grade * (at_ft - s->cut->legs[0].from_ft);
    // A section along the very edge of the surface is met from one side only.
    return area_at(s, true, area_sqft) || area_at(s, false, area_sqft);
}

/* Places of all points, and the faces that a section of this leg can meet within @p reach_ft. */
static void look_along(slicer *s, double reach_ft)
{
    const cw_earthwork_ground *ground = s->ground;
    for (int p = 0; p < ground->point_count; p++)
        leg_place(s->leg, ground->points_ft[p][0], ground->points_ft[p][1], &s->places[p][0],
                  &s->places[p][1]);
    s->face_count = 0;
    for (int f = 0; f < ground->face_count; f++) {
        const int *face = ground->faces[f];
        const double *a = s->places[face[0]], *b = s->places[face[1]], *c = s->places[face[2]];
        if (fmin(a[0], fmin(b[0], c[0])) <= s->leg->to_ft && fmax(a[0], fmax(b[0], c[0])) >= s->leg->from_ft &&
            fmin(a[1], fmin(b[1], c[1])) <= reach_ft && fmax(a[1], fmax(b[1], c[1])) >= -reach_ft)
            s->faces[s->face_count++] = f;
    }
}

bool cw_earthwork_average_cuft(const cw_earthwork_ground *ground, const cw_earthwork_cut *cut,
                               double step_ft, double *volume_cuft, cw_arena *arena)
{
    slicer s = {.ground = ground, .cut = cut, .arena = arena};
    s.places = cw_arena_take(arena, (size_t)ground->point_count, sizeof *s.places);
    s.faces = CW_TAKE(arena, int, ground->face_count);
    double highest_ft = -HUGE_VAL, reach_ft = 0.0;
    for (int p = 0; p < ground->point_count; p++)
        highest_ft = fmax(highest_ft, ground->points_ft[p][2]);
    cells_of(cut, highest_ft, &reach_ft, arena);
    *volume_cuft = 0.0;
    for (int i = 0; i < cut->leg_count; i++) {
        s.leg = &cut->legs[i];
        look_along(&s, reach_ft);
        const double length_ft = s.leg->to_ft - s.leg->from_ft;
        const int parts = cw_count_up(length_ft / step_ft);
        double before = 0.0;
        for (int k = 0; k <= parts; k++) {
            const double at_ft = s.leg->from_ft + fmin(length_ft, k * step_ft);
            double area = 0.0;
            if (!section_sqft(&s, at_ft, &area))
                return false;
            const double run_ft = k < parts ? step_ft : length_ft - (parts - 1) * step_ft;
            if (k > 0)
                *volume_cuft += cw_trench_average_cuft(run_ft, before, area);
            before = area;
        }
    }
    return true;
}
