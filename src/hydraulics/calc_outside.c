/* Calculators of what lies outside the barrel: tailwater and road-weir. */
#include <math.h>
#include <stddef.h>

#include "hydraulics_internal.h"

static const char *const tail_choices[] = {"fixed", "table", "channel", "surveyed", NULL};
enum { TAIL_FIXED, TAIL_TABLE, TAIL_CHANNEL, TAIL_SURVEYED };

#define LOW_FT (-2000.0)
#define HIGH_FT 30000.0

typedef struct tail_input {
    double flow_cfs;
    int kind;
    bool has_level_ft, has_width_ft, has_slope;
    double level_ft, width_ft, side_slope, n, slope, bed_ft;
    cw_list flows_cfs, levels_ft, xs_ft, zs_ft, ns;
} tail_input;

typedef struct tail_output {
    int result;
    bool found, has_depth;
    double level_ft, depth_ft, velocity_fps, residual;
    int iterations;
} tail_output;

static const cw_field tail_inputs[] = {
    NUMBER_IN("flow", "Q", CW_DIM_CFS, 0, 1e6, NULL, true, "total flow", NULL, tail_input,
              flow_cfs),
    CHOICE_IN("kind", "channel", "fixed level, table, even channel or surveyed section",
              "common practice", tail_choices, tail_input, kind),
    MAYBE_IN("level", "z", CW_DIM_ELEV_FT, LOW_FT, HIGH_FT, "fixed: level of the water", tail_input,
             level_ft),
    LIST_IN("flows", "Q", CW_DIM_CFS, 0, 1e6, "table: flows, rising", tail_input, flows_cfs),
    LIST_IN("levels", "z", CW_DIM_ELEV_FT, LOW_FT, HIGH_FT, "table: levels at these flows",
            tail_input, levels_ft),
    MAYBE_IN("width", "b", CW_DIM_FT, 0.1, 10000, "channel: width of the bottom", tail_input,
             width_ft),
    NUMBER_IN("side_slope", "z", CW_DIM_SIDE_SLOPE, 0, 20, "2:1", false, "channel: side slope",
              "common practice", tail_input, side_slope),
    NUMBER_IN("n", "n", CW_DIM_NONE, 0.005, 1, "@roughness.channel", false, "channel: roughness",
              NULL, tail_input, n),
    MAYBE_IN("slope", "S", CW_DIM_SLOPE, -0.3, 0.3, "channel and surveyed: slope downstream",
             tail_input, slope),
    NUMBER_IN("bed", "z_b", CW_DIM_ELEV_FT, LOW_FT, HIGH_FT, "0 ft", false,
              "channel: elevation of its bed at the outlet", "common practice", tail_input, bed_ft),
    LIST_IN("x", "x", CW_DIM_FT, -1e5, 1e5, "surveyed: distances from left to right", tail_input,
            xs_ft),
    LIST_IN("z", "z", CW_DIM_ELEV_FT, LOW_FT, HIGH_FT, "surveyed: elevations at them", tail_input,
            zs_ft),
    LIST_IN("ns", "n", CW_DIM_NONE, 0.005, 1,
            "surveyed: roughness from each point to the next, or one for all", tail_input, ns),
};

static const cw_field tail_outputs[] = {
    WORD_OUT("result", "how the search ended", cw_water_status_choices, tail_output, result),
    OUT("level", "z", CW_DIM_ELEV_FT, "level of the tailwater", tail_output, level_ft,
        offsetof(tail_output, found)),
    OUT("depth", "y_n", CW_DIM_COORD_FT, "depth of the channel", tail_output, depth_ft,
        offsetof(tail_output, has_depth)),
    OUT("velocity", "V", CW_DIM_FPS, "velocity of the channel", tail_output, velocity_fps,
        offsetof(tail_output, has_depth)),
    COUNT_OUT("iterations", "steps of the search", tail_output, iterations,
              offsetof(tail_output, has_depth)),
    OUT("residual", NULL, CW_DIM_NONE, "relative miss of the flow", tail_output, residual,
        offsetof(tail_output, has_depth)),
};

typedef struct tail_room {
    cw_water_stage stages[CW_LIST_MAX];
    cw_water_point points[CW_LIST_MAX];
} tail_room;

static cw_water_tailwater tail_from(const tail_input *in, tail_room *room)
{
    cw_water_tailwater tail = {.level_ft = in->level_ft, .channel_slope = in->slope};
    switch (in->kind) {
    case TAIL_FIXED:
        tail.kind = CW_WATER_TAIL_FIXED;
        break;
    case TAIL_TABLE:
        tail.kind = CW_WATER_TAIL_TABLE;
        tail.stages = room->stages;
        tail.stage_count = in->flows_cfs.count;
        for (int i = 0; i < in->flows_cfs.count; i++)
            room->stages[i] = (cw_water_stage){in->flows_cfs.items[i], in->levels_ft.items[i]};
        break;
    case TAIL_CHANNEL:
        tail.kind = CW_WATER_TAIL_CHANNEL;
        tail.channel_bed_ft = in->bed_ft;
        tail.channel = (cw_water_section){.shape = CW_WATER_TRAPEZOID,
                                          .bottom_ft = in->width_ft,
                                          .side_slope = in->side_slope,
                                          .n = in->n};
        break;
    default:
        tail.kind = CW_WATER_TAIL_CHANNEL;
        tail.channel = (cw_water_section){
            .shape = CW_WATER_SURVEYED, .points = room->points, .point_count = in->xs_ft.count};
        for (int i = 0; i < in->xs_ft.count; i++)
            room->points[i] = (cw_water_point){in->xs_ft.items[i], in->zs_ft.items[i],
                                               in->ns.items[in->ns.count > 1 ? i : 0]};
        break;
    }
    return tail;
}

static bool wants(bool given, const char *what, const char *kind, cw_pos where, cw_diags *diags)
{
    if (!given)
        cw_diag_add(diags, where, CW_E_MISSING, "%s is missing; kind=%s needs it", what, kind);
    return given;
}

static bool same_count(int a, int b, const char *first, const char *second, cw_pos where,
                       cw_diags *diags)
{
    if (a != b)
        cw_diag_add(diags, where, CW_E_CONFLICT, "%s has %d items and %s %d; give one for each",
                    first, a, second, b);
    return a == b;
}

static bool tail_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const tail_input *in = input;
    const char *kind = tail_choices[in->kind];
    bool good = true;
    if (in->kind == TAIL_FIXED)
        good = wants(in->has_level_ft, "level", kind, where, diags);
    if (in->kind == TAIL_TABLE)
        good =
            wants(in->flows_cfs.count > 0, "flows", kind, where, diags) &&
            same_count(in->flows_cfs.count, in->levels_ft.count, "flows", "levels", where, diags);
    if (in->kind == TAIL_CHANNEL)
        good = wants(in->has_width_ft, "width", kind, where, diags) &&
               wants(in->has_slope, "slope", kind, where, diags);
    if (in->kind == TAIL_SURVEYED)
        good = wants(in->xs_ft.count > 0, "x", kind, where, diags) &&
               wants(in->ns.count > 0, "ns", kind, where, diags) &&
               wants(in->has_slope, "slope", kind, where, diags) &&
               same_count(in->xs_ft.count, in->zs_ft.count, "x", "z", where, diags) &&
               (in->ns.count == 1 ||
                same_count(in->xs_ft.count, in->ns.count, "x", "ns", where, diags));
    if (!good)
        return false;
    tail_room room;
    const cw_water_tailwater tail = tail_from(in, &room);
    const cw_water_status status = cw_water_tailwater_check(&tail);
    if (status == CW_WATER_OK || status == CW_WATER_NO_NORMAL)
        return true; /* the second is an answer */
    cw_diag_add(diags, where, CW_E_CONFLICT, "%s", cw_water_status_words(status));
    return false;
}

static void tail_run(const void *input, void *output, cw_working *working)
{
    const tail_input *in = input;
    tail_output *out = output;
    tail_room room;
    const cw_water_tailwater tail = tail_from(in, &room);
    const cw_water_tail_level level = cw_water_tailwater_at(&tail, in->flow_cfs);
    *out = (tail_output){.result = (int)level.status, .found = level.status == CW_WATER_OK};
    if (!out->found) {
        cw_step_add(working, "Q", "no level is known for it", in->flow_cfs, CW_DIM_CFS, "as given");
        return;
    }
    out->has_depth = tail.kind == CW_WATER_TAIL_CHANNEL;
    out->level_ft = cw_step_add(
        working, "z", out->has_depth ? "bed + root of Q = K S^(1/2)" : "given, straight between",
        level.level_ft, CW_DIM_ELEV_FT, out->has_depth ? "Manning" : "as given");
    if (!out->has_depth)
        return;
    out->depth_ft =
        cw_step_add(working, "y_n", "z - bed", level.depth_ft, CW_DIM_COORD_FT, "Manning");
    out->velocity_fps =
        cw_step_add(working, "V", "Q/A", level.velocity_fps, CW_DIM_FPS, "continuity");
    out->iterations = level.root.iterations;
    out->residual = level.root.residual;
}

const cw_calc cw_calc_tailwater = {
    .name = "tailwater",
    .title = "Level of the water below the outlet",
    .group = "hydraulics",
    .about = "Tailwater at the outlet for a flow: a fixed level, a table, normal depth of an even "
             "channel, or of a surveyed section whose panels of equal roughness are added. A flow "
             "outside the table or over the ends of the section gets no level. Backwater from a "
             "structure or a river farther down must be given as a level.",
    .source = "Manning's formula, factor 1.486 as in FHWA HDS-5",
    .inputs = tail_inputs,
    .input_count = COUNT_OF(tail_inputs),
    .input_size = sizeof(tail_input),
    .outputs = tail_outputs,
    .output_count = COUNT_OF(tail_outputs),
    .output_size = sizeof(tail_output),
    .valid = tail_valid,
    .run = tail_run,
    .example = "flow=400cfs kind=channel width=20ft side_slope=2:1 n=0.035 slope=0.16% bed=500ft",
};

/* ---- road-weir ---- */

typedef struct road_input {
    cw_list xs_ft, zs_ft;
    double pool_ft;
    bool has_tail_ft, has_factor;
    double tail_ft, factor;
    int surface;
} road_input;

typedef struct road_output {
    double flow_cfs, depth_ft, length_ft, velocity_fps, submergence;
    bool past_ends;
} road_output;

static const cw_field road_inputs[] = {
    LIST_IN("x", "x", CW_DIM_FT, -1e5, 1e5, "distances along the road, from left to right",
            road_input, xs_ft),
    LIST_IN("z", "z", CW_DIM_ELEV_FT, LOW_FT, HIGH_FT, "elevations of the crest at them",
            road_input, zs_ft),
    NUMBER_IN("pool", "z_p", CW_DIM_ELEV_FT, LOW_FT, HIGH_FT, NULL, true,
              "level of the pool, as energy", NULL, road_input, pool_ft),
    MAYBE_IN("tailwater", "z_t", CW_DIM_ELEV_FT, LOW_FT, HIGH_FT,
             "level of the tailwater; free when not given", road_input, tail_ft),
    CHOICE_IN("surface", "paved", "surface of the road; own needs factor", "common practice",
              cw_water_surface_choices, road_input, surface),
    MAYBE_IN("factor", "C_r", CW_DIM_NONE, 0.5, 5, "own weir factor, ft^0.5/s", road_input, factor),
};

static const cw_field road_outputs[] = {
    OUT("flow", "Q", CW_DIM_CFS, "flow over the road", road_output, flow_cfs, CW_NO_FLAG),
    OUT("depth", NULL, CW_DIM_COORD_FT, "pool above the lowest point of the crest", road_output,
        depth_ft, CW_NO_FLAG),
    OUT("wet_length", "L", CW_DIM_FT, "length of crest under water", road_output, length_ft,
        CW_NO_FLAG),
    OUT("velocity", "V", CW_DIM_FPS, "critical velocity at the deepest point", road_output,
        velocity_fps, CW_NO_FLAG),
    OUT("submergence", NULL, CW_DIM_NONE,
        "tailwater head over pool head of the panel that carries most", road_output, submergence,
        CW_NO_FLAG),
    {"past_ends", NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, NULL, false,
     "an end of the crest is under water: what goes around it is not counted", NULL, NULL,
     offsetof(road_output, past_ends), CW_NO_FLAG},
};

static cw_water_road road_from(const road_input *in, cw_water_crest crest[CW_LIST_MAX])
{
    cw_water_road road = {.points = crest, .count = in->xs_ft.count};
    for (int i = 0; i < in->xs_ft.count; i++)
        crest[i] = (cw_water_crest){in->xs_ft.items[i], in->zs_ft.items[i]};
    const bool own = in->surface == CW_WATER_OWN_FACTOR;
    cw_water_weir_rows(&cw_data, own ? CW_WATER_PAVED : (cw_water_surface)in->surface, &road.weir);
    if (own)
        road.weir = cw_water_weir_own(in->factor, &road.weir);
    return road;
}

static bool road_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const road_input *in = input;
    if (!same_count(in->xs_ft.count, in->zs_ft.count, "x", "z", where, diags))
        return false;
    if (in->has_factor != (in->surface == CW_WATER_OWN_FACTOR)) {
        cw_diag_add(diags, where, in->has_factor ? CW_E_CONFLICT : CW_E_MISSING,
                    "surface=own and factor go together; give both or neither");
        return false;
    }
    cw_water_crest crest[CW_LIST_MAX];
    const cw_water_road road = road_from(in, crest);
    if (cw_water_road_check(&road) != CW_WATER_OK) {
        cw_diag_add(diags, where, CW_E_GEOMETRY, "%s; give x and z of at least two points",
                    cw_water_status_words(CW_WATER_BAD_ROAD));
        return false;
    }
    if (in->has_tail_ft && in->tail_ft > in->pool_ft) {
        cw_diag_add(
            diags, where, CW_E_CONFLICT,
            "the tailwater %.2f ft stands above the pool %.2f ft; water would run back over "
            "the road: check both levels",
            in->tail_ft, in->pool_ft);
        return false;
    }
    return true;
}

static void road_run(const void *input, void *output, cw_working *working)
{
    static const char source[] = "FHWA HDS-5, 1985 edition, fig. III-11 (read from memory)";
    const road_input *in = input;
    road_output *out = output;
    cw_water_crest crest[CW_LIST_MAX];
    const cw_water_road road = road_from(in, crest);
    const cw_water_over over =
        cw_water_road_over(&road, in->pool_ft, in->has_tail_ft ? in->tail_ft : -1e6);
    out->depth_ft =
        cw_step_add(working, "h", "z_p - lowest z", over.depth_ft, CW_DIM_COORD_FT, "geometry");
    out->length_ft = cw_step_add(working, "L", "wet crest", over.length_ft, CW_DIM_FT, "geometry");
    out->submergence = cw_step_add(working, "h_t/h", "of the panel that carries most",
                                   over.submergence, CW_DIM_NONE, source);
    out->flow_cfs = cw_step_add(working, "Q", "sum of 0.4 k_t C_r (h_2^2.5 - h_1^2.5)/grade",
                                over.flow_cfs, CW_DIM_CFS, source);
    out->velocity_fps = cw_step_add(working, "V", "(2/3 g h)^(1/2)", over.velocity_fps, CW_DIM_FPS,
                                    "critical flow");
    out->past_ends = over.past_ends;
}

const cw_calc cw_calc_road_weir = {
    .name = "road-weir",
    .title = "Flow over the road",
    .group = "hydraulics",
    .about =
        "Flow over a road, dike or cofferdam as a broad weir with a sloped crest, panel by panel. "
        "Factor and submergence go by the mean head of each panel. Depth on a road kills: any "
        "flow over it closes it to traffic.",
    .source = "FHWA HDS-5, 1985 edition, fig. III-11 (readings from memory, within 0.05)",
    .inputs = road_inputs,
    .input_count = COUNT_OF(road_inputs),
    .input_size = sizeof(road_input),
    .outputs = road_outputs,
    .output_count = COUNT_OF(road_outputs),
    .output_size = sizeof(road_output),
    .valid = road_valid,
    .run = road_run,
    .example = "x=0ft,100ft z=508ft,508ft pool=510ft surface=own factor=3.0",
};
