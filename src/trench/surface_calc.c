/* Calculators on a small field of spot heights. */
#include <math.h>

#include "cw/earthwork.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "trench_internal.h"

static const char range[] = "common practice: range of culvert trenches";
static const char prisms[] = "closed form: prisms over triangles, clipped by the planes of the cut";
static const char average_form[] = "average end area";

static const char *const statuses[] = {"known", "no-ground", "off-surface", "folded", "crowded",
                                       "sharp-bend", NULL};

/* Both calculators begin with the ground and the cut. */
#define SURFACE_IN(type, at)                                                                           \
    LIST_IN("stations", "x", CW_DIM_FT, -10000.0, 10000.0, NULL,                                       \
            "rows of spot heights, along the run, rising", range, type, at stations_ft),               \
        LIST_IN("offsets", "y", CW_DIM_FT, -1000.0, 1000.0, NULL,                                      \
                "columns, from the centre line, + right looking along the stations, rising", range,    \
                type, at offsets_ft),                                                                  \
        LIST_IN("heights", "h", CW_DIM_FT, -1500.0, 30000.0, NULL,                                     \
                "of the ground, row by row", range, type, at heights_ft),                              \
        NUMBER_IN("from", "x_1", CW_DIM_FT, -10000.0, 10000.0, NULL, "where the bottom begins", range, \
                  type, at from_ft),                                                                   \
        NUMBER_IN("to", "x_2", CW_DIM_FT, -10000.0, 10000.0, NULL, "where it ends", range, type,       \
                  at to_ft),                                                                           \
        NUMBER_IN("bottom", "b", CW_DIM_FT, 1.0, 500.0, NULL, "width of the bottom", range, type,      \
                  at bottom_ft),                                                                       \
        NUMBER_IN("level", "z_0", CW_DIM_FT, -1500.0, 30000.0, NULL,                                   \
                  "elevation of the bottom where it begins", range, type, at level_ft),                \
        NUMBER_IN("grade", "S", CW_DIM_SLOPE, -0.2, 0.2, "0 %", "of the bottom along the stations",    \
                  range, type, at grade),                                                              \
        NUMBER_IN("slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 4.0, NULL, "of both sides", range, type,       \
                  at side_slope),                                                                      \
        NUMBER_IN("start_slope", "z_1", CW_DIM_SIDE_SLOPE, 0.0, 30.0, "0:1",                           \
                  "of the end at the start, 0: vertical", range, type, at end_slopes[0]),              \
        NUMBER_IN("end_slope", "z_2", CW_DIM_SIDE_SLOPE, 0.0, 30.0, "0:1",                             \
                  "of the other end, 0: vertical", range, type, at end_slopes[1])

#define TYPE cw_surface_input

static const cw_field inputs[] = {
    SURFACE_IN(TYPE, ),
    NUMBER_IN("step", "d", CW_DIM_FT, 1.0, 1000.0, "10 ft", "between sections for average end area",
              "common practice", TYPE, step_ft),
};

#define OUTPUT cw_surface_volume

static const cw_field outputs[] = {
    CHOICE_OUT("check", cw_verdict_words, "undecided: the surface does not give the volume", OUTPUT, verdict),
    CHOICE_OUT("surface", statuses,
               "no-ground: none under part of the bottom; off-surface: a face leaves the surface before "
               "it meets the ground",
               OUTPUT, status),
    OUT("volume", "V", CW_DIM_CY, "of the cut, bank measure", OUTPUT, volume_cy),
    OUT("run", "V_r", CW_DIM_CY, "of it beside and over the bottom", OUTPUT, run_cy),
    OUT("start", NULL, CW_DIM_CY, "beyond the start", OUTPUT, start_cy),
    OUT("end", NULL, CW_DIM_CY, "beyond the end", OUTPUT, end_cy),
    OPTION_OUT("average", "V_a", CW_DIM_CY, "the run by average end area", OUTPUT, average_cy, has_average),
    OPTION_OUT("excess", NULL, CW_DIM_CY, "average end area less the exact run", OUTPUT, excess_cy,
               has_average),
    OUT("low", NULL, CW_DIM_CY, "to be filled under the bottom where the ground is lower", OUTPUT, low_cy),
    OUT("footprint", NULL, CW_DIM_SQFT, "of the cut in plan", OUTPUT, footprint_sqft),
    OUT("deepest", NULL, CW_DIM_FT, "ground above the bottom's plane, at the edges too", OUTPUT, deepest_ft),
    OUT("left", "x_l", CW_DIM_FT, "farthest left edge from the centre line", OUTPUT, left_ft),
    OUT("right", "x_r", CW_DIM_FT, "farthest right edge", OUTPUT, right_ft),
};

/* ---- ground and cut ---- */

enum { CORNERS = 4, GRID_POINTS_MAX = 2 * CW_LIST_MAX, GRID_FACES_MAX = CORNERS * CW_LIST_MAX };

typedef struct spot_ground {
    double points[GRID_POINTS_MAX][3];
    int faces[GRID_FACES_MAX][3];
    int point_count, face_count;
} spot_ground;

static void set_point(double *point, double right_ft, double along_ft, double height_ft)
{
    point[0] = right_ft;
    point[1] = along_ft;
    point[2] = height_ft;
}

/* Each square becomes four triangles round its middle, which has the mean of the four heights: no
 * diagonal is preferred, and the whole square holds what a twisted (bilinear) one does. */
static void lay_ground(const cw_surface_input *in, spot_ground *g)
{
    const int columns = in->offsets_ft.count;
    g->point_count = in->heights_ft.count;
    g->face_count = 0;
    for (int i = 0; i < g->point_count; i++)
        set_point(g->points[i], in->offsets_ft.items[i % columns], in->stations_ft.items[i / columns],
                  in->heights_ft.items[i]);
    for (int i = 0; i + 1 < in->stations_ft.count; i++)
        for (int k = 0; k + 1 < columns; k++) {
            const int corner[CORNERS] = {i * columns + k, i * columns + k + 1,
                                         (i + 1) * columns + k + 1, (i + 1) * columns + k};
            double sum[3] = {0.0};
            for (int c = 0; c < CORNERS; c++)
                for (int axis = 0; axis < 3; axis++)
                    sum[axis] += g->points[corner[c]][axis] / CORNERS;
            const int middle = g->point_count++;
            set_point(g->points[middle], sum[0], sum[1], sum[2]);
            for (int c = 0; c < CORNERS; c++) {
                int *face = g->faces[g->face_count++];
                face[0] = corner[c];
                face[1] = corner[(c + 1) % CORNERS];
                face[2] = middle;
            }
        }
}

static cw_earthwork_cut cut_of(const cw_surface_input *in)
{
    const cw_trench_layer layer = {1.0, CW_SOIL_C};
    cw_earthwork_cut cut = {.legs = {{0.0, in->from_ft, 0.0, in->from_ft, in->to_ft}},
                            .leg_count = 1,
                            .shape = cw_trench_sloped(in->bottom_ft, &layer, &in->side_slope, 1),
                            .bottom_elev_ft = in->level_ft,
                            .grade = in->grade};
    for (int i = 0; i < 2; i++)
        if (in->end_slopes[i] > 0.0)
            cut.ends[i] = (cw_earthwork_end){CW_END_SLOPED, in->end_slopes[i], 0.0};
    return cut;
}

static bool rises(const cw_list *list)
{
    for (int i = 1; i < list->count; i++)
        if (!(list->items[i] > list->items[i - 1] + CW_SAME_PLACE_FT))
            return false;
    return list->count >= 2;
}

bool cw_surface_input_valid(const cw_surface_input *in, cw_pos where, cw_diags *diags)
{
    if (!rises(&in->stations_ft) || !rises(&in->offsets_ft)) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "stations and offsets need two values each at least, each greater than the one "
                    "before; put them in order");
        return false;
    }
    const int wanted = in->stations_ft.count * in->offsets_ft.count;
    if (in->heights_ft.count != wanted) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "%d heights are given and %d stations with %d offsets need %d, row by row",
                    in->heights_ft.count, in->stations_ft.count, in->offsets_ft.count, wanted);
        return false;
    }
    if (!(in->to_ft > in->from_ft + CW_SAME_PLACE_FT)) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "the bottom ends at %.6g ft, not past its beginning at %.6g ft; check from and to",
                    in->to_ft, in->from_ft);
        return false;
    }
    return true;
}

static void show(const cw_surface_input *in, OUTPUT *out, cw_working *w)
{
    cw_step_add(w, "L", "x_2 - x_1", in->to_ft - in->from_ft, CW_DIM_FT, "derived: difference of the stations");
    cw_step_add(w, "A_f", "sum of the pieces' areas", out->footprint_sqft, CW_DIM_SQFT, prisms);
    cw_step_add(w, "V_r", "sum of area x mean depth over the triangles of each piece, along the run",
                out->run_cy, CW_DIM_CY, prisms);
    cw_step_add(w, "V", "V_r and what lies beyond the ends", out->volume_cy, CW_DIM_CY, prisms);
    if (out->has_average)
        cw_step_add(w, "V_a", "sum of d (A_1 + A_2)/2", out->average_cy, CW_DIM_CY, average_form);
}

OUTPUT cw_surface_volume_of(const cw_surface_input *in, cw_working *w)
{
    cw_arena arena = cw_arena_on(NULL);
    spot_ground *spots = CW_TAKE(&arena, spot_ground, 1);
    lay_ground(in, spots);
    const cw_earthwork_ground ground = {(const double(*)[3])spots->points, (const int(*)[3])spots->faces,
                                        spots->point_count, spots->face_count};
    const cw_earthwork_cut cut = cut_of(in);
    const cw_earthwork_dug dug = cw_earthwork_dig(&ground, &cut, &arena);
    OUTPUT out = {.status = dug.status,
                  .verdict = dug.status == CW_EARTHWORK_KNOWN ? CW_HOLDS : CW_UNDECIDED,
                  .volume_cy = dug.cut_cuft / CW_CUFT_PER_CY,
                  .run_cy = dug.run_cuft / CW_CUFT_PER_CY,
                  .start_cy = dug.ends_cuft[0] / CW_CUFT_PER_CY,
                  .end_cy = dug.ends_cuft[1] / CW_CUFT_PER_CY,
                  .low_cy = dug.low_cuft / CW_CUFT_PER_CY,
                  .footprint_sqft = dug.footprint_sqft,
                  .deepest_ft = dug.deepest_ft,
                  .left_ft = dug.left_ft,
                  .right_ft = dug.right_ft};
    // Sections no closer than this keep the work small however long the run is.
    const double step_ft = fmax(in->step_ft, (in->to_ft - in->from_ft) / CW_LIST_MAX);
    double average_cuft = 0.0;
    out.has_average = dug.status == CW_EARTHWORK_KNOWN &&
                      cw_earthwork_average_cuft(&ground, &cut, step_ft, &average_cuft, &arena);
    out.average_cy = average_cuft / CW_CUFT_PER_CY;
    out.excess_cy = out.has_average ? out.average_cy - out.run_cy : 0.0;
    if (!out.has_average)
        out.average_cy = 0.0;
    cw_arena_release(&arena);
    show(in, &out, w);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_surface_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(OUTPUT *)output = cw_surface_volume_of(input, working);
}

const cw_calc cw_calc_surface_volume = {
    .name = "surface-volume",
    .title = "Volume of a cut in a field of spot heights",
    .group = "trench",
    .about = "Exact volume between spot heights in rows and columns and a straight cut with one slope "
             "on both sides, and the same by average end area.  A square of heights counts as four "
             "triangles round its middle.  Ground that is parted from the cut by lower ground is not "
             "dug.  " CAUTION,
    .source = "closed form: prisms over triangles, clipped by the planes of the cut",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_surface_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(OUTPUT),
    .valid = valid,
    .run = run,
    .example = "stations=0ft,50ft offsets=-40ft,0ft,40ft heights=8ft,8ft,8ft,14ft,14ft,14ft from=0ft "
               "to=50ft bottom=16ft level=0ft slope=1:1 step=50ft",
};

/* ---- backfill ---- */

#undef TYPE
#define TYPE cw_surface_fill_input

static const cw_field fill_inputs[] = {
    SURFACE_IN(TYPE, cut.),
    COUNT_IN("barrels", "N", 1.0, 8.0, "1", "barrels side by side", range, TYPE, barrels),
    NUMBER_IN("outside_width", "B", CW_DIM_IN, 24.0, 840.0, NULL, "outside width of one barrel", range,
              TYPE, width_in),
    NUMBER_IN("outside_height", "H", CW_DIM_IN, 24.0, 840.0, NULL, "outside height", range, TYPE,
              height_in),
    NUMBER_IN("gap", "g", CW_DIM_IN, 0.0, 120.0, "0 in", "clear between barrels", range, TYPE,
              clear_gap_in),
    NUMBER_IN("seat", "t", CW_DIM_FT, 0.0, 20.0, "0 ft",
              "bedding and leveling course: underside of the boxes over the bottom of the cut", range,
              TYPE, seat_ft),
    NUMBER_IN("pipe_zone", "h_1", CW_DIM_FT, 0.0, 80.0, NULL,
              "top of the pipe zone over the bottom of the cut", range, TYPE, pipe_zone_ft),
    NUMBER_IN("top", "h_2", CW_DIM_FT, 0.5, 80.0, NULL,
              "top of the backfill over the bottom of the cut, or the ground where it is lower", range,
              TYPE, top_ft),
    NUMBER_IN("lift", "t_c", CW_DIM_IN, 2.0, 36.0, "6 in", "compacted", "common practice", TYPE, lift_in),
};

#undef OUTPUT
#define OUTPUT cw_surface_fill

static const cw_field fill_outputs[] = {
    CHOICE_OUT("check", cw_verdict_words, "undecided: the surface does not give the volumes", OUTPUT, verdict),
    CHOICE_OUT("surface", statuses, "as in surface-volume", OUTPUT, status),
    OUT("bedding", NULL, CW_DIM_CY, "between the bottom and the seat of the boxes", OUTPUT, bedding_cy),
    OUT("pipe_zone_volume", NULL, CW_DIM_CY, "beside and over the boxes up to its top", OUTPUT, pipe_zone_cy),
    OUT("final", NULL, CW_DIM_CY, "from there to the top", OUTPUT, final_cy),
    OUT("boxes", NULL, CW_DIM_CY, "taken by the boxes", OUTPUT, boxes_cy),
    OUT("gaps", NULL, CW_DIM_CY, "between the boxes", OUTPUT, gaps_cy),
    COUNT_OUT("lifts", NULL, "from the seat up", OUTPUT, lifts),
    LIST_OUT("lift_volumes", NULL, CW_DIM_CY, "of each, compacted; the first 64", OUTPUT, lifts_cy),
};

bool cw_surface_fill_input_valid(const cw_surface_fill_input *in, cw_pos where, cw_diags *diags)
{
    bool good = cw_surface_input_valid(&in->cut, where, diags);
    const double boxes_ft = cw_trench_bottom_ft(in->barrels, in->width_in, in->clear_gap_in, 0.0);
    if (boxes_ft > in->cut.bottom_ft) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "the barrels are %.6g ft wide together, more than the bottom, %.6g ft; widen it",
                    boxes_ft, in->cut.bottom_ft);
        good = false;
    }
    if (in->pipe_zone_ft < in->seat_ft || in->top_ft < in->pipe_zone_ft) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "seat %.6g ft, pipe_zone %.6g ft and top %.6g ft do not rise; put them in order",
                    in->seat_ft, in->pipe_zone_ft, in->top_ft);
        good = false;
    }
    return good;
}

static void take_fill(OUTPUT *out, const cw_earthwork_fill *fill)
{
    out->bedding_cy = fill->bedding_cuft / CW_CUFT_PER_CY;
    out->pipe_zone_cy = fill->pipe_zone_cuft / CW_CUFT_PER_CY;
    out->final_cy = fill->final_cuft / CW_CUFT_PER_CY;
    out->boxes_cy = fill->boxes_cuft / CW_CUFT_PER_CY;
    out->gaps_cy = fill->gaps_cuft / CW_CUFT_PER_CY;
    out->lifts = fill->lift_count;
    for (int i = 0; i < fill->lift_count && i < CW_LIST_MAX; i++)
        out->lifts_cy.items[out->lifts_cy.count++] = fill->lifts[i].volume_cuft / CW_CUFT_PER_CY;
}

OUTPUT cw_surface_fill_of(const cw_surface_fill_input *in, cw_working *w)
{
    cw_arena arena = cw_arena_on(NULL);
    spot_ground *spots = CW_TAKE(&arena, spot_ground, 1);
    lay_ground(&in->cut, spots);
    const cw_earthwork_ground ground = {(const double(*)[3])spots->points, (const int(*)[3])spots->faces,
                                        spots->point_count, spots->face_count};
    const cw_earthwork_cut cut = cut_of(&in->cut);
    const cw_earthwork_dug dug = cw_earthwork_dig(&ground, &cut, &arena);
    OUTPUT out = {.status = dug.status,
                  .verdict = dug.status == CW_EARTHWORK_KNOWN ? CW_HOLDS : CW_UNDECIDED};
    if (dug.status == CW_EARTHWORK_KNOWN) {
        const cw_earthwork_fill_input fill = {.boxes = {.barrels = in->barrels,
                                                        .width_ft = in->width_in / CW_IN_PER_FT,
                                                        .clear_gap_ft = in->clear_gap_in / CW_IN_PER_FT,
                                                        .height_ft = in->height_in / CW_IN_PER_FT,
                                                        .seat_ft = in->seat_ft,
                                                        .from_ft = in->cut.from_ft,
                                                        .to_ft = in->cut.to_ft},
                                              .bedding_ft = in->seat_ft,
                                              .pipe_zone_ft = in->pipe_zone_ft,
                                              .top_ft = in->top_ft,
                                              .lift_ft = in->lift_in / CW_IN_PER_FT};
        const cw_earthwork_fill filled = cw_earthwork_fill_of(&dug, &fill);
        take_fill(&out, &filled);
    }
    cw_arena_release(&arena);
    const char *zones = "derived: volume below a level and the ground, less boxes and gaps";
    cw_step_add(w, "V_b", "below the seat", out.bedding_cy, CW_DIM_CY, zones);
    cw_step_add(w, "V_1", "from the seat to h_1, less boxes and gaps", out.pipe_zone_cy, CW_DIM_CY, zones);
    cw_step_add(w, "V_2", "from h_1 to h_2, less boxes and gaps", out.final_cy, CW_DIM_CY, zones);
    return out;
}

static bool fill_valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_surface_fill_input_valid(input, where, diags);
}

static void run_fill(const void *input, void *output, cw_working *working)
{
    *(OUTPUT *)output = cw_surface_fill_of(input, working);
}

const cw_calc cw_calc_surface_backfill = {
    .name = "surface-backfill",
    .title = "Backfill by zone and lift in a field of spot heights",
    .group = "trench",
    .about = "What goes back into the cut of surface-volume beside and over its bottom, by zone and by "
             "lift: the volume between two levels that rise with the bottom, below the ground, less the "
             "boxes and the gaps between them.  The sloped ends are left out.",
    .source = "derived: volumes below a level, exact for the triangles",
    .inputs = fill_inputs,
    .input_count = COUNT(fill_inputs),
    .input_size = sizeof(cw_surface_fill_input),
    .outputs = fill_outputs,
    .output_count = COUNT(fill_outputs),
    .output_size = sizeof(OUTPUT),
    .valid = fill_valid,
    .run = run_fill,
    .example = "stations=0ft,120ft offsets=-40ft,40ft heights=9.667ft,9.667ft,9.667ft,9.667ft from=0ft "
               "to=120ft bottom=19.667ft level=0ft slope=1:1 outside_width=164.004in "
               "outside_height=116.004in pipe_zone=5ft top=9.667ft lift=6in",
};
