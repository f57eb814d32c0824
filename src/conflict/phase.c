#include "conflict_internal.h"

#include <math.h>

#include "cw/tolerance.h"

static const char range[] = "common practice: range of culvert trenches";
static const char *const faces[] = {"slope", "shore", NULL};
static const char *const ways[] = {"slope", "shore", "none", NULL};

#define TYPE cw_phase_edge_input

static const cw_field inputs[] = {
    NUMBER_IN("lane", "x_l", CW_DIM_FT, 0.0, 300.0, NULL,
              "from the phase line to the edge of the live lane, along the barrel", range, TYPE,
              lane_ft),
    NUMBER_IN("depth", "D", CW_DIM_FT, 0.5, 60.0, NULL,
              "of the cut under the road at the phase line", range, TYPE, depth_ft),
    NUMBER_IN("slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 10.0, "@trench.slope.c",
              "of a sloped temporary face", NULL, TYPE, side_slope),
    NUMBER_IN("toe", "e", CW_DIM_FT, 0.0, 30.0, "@trench.working_space",
              "bottom of the cut past the phase line", NULL, TYPE, toe_ft),
    NUMBER_IN("barrier", "b", CW_DIM_FT, 0.0, 10.0, "@conflict.barrier",
              "width of the barrier between cut and lane", NULL, TYPE, barrier_ft),
    NUMBER_IN("setback", "s", CW_DIM_FT, 0.0, 50.0, "@trench.spoil",
              "from the edge of a sloped face to the barrier", NULL, TYPE, setback_ft),
    NUMBER_IN("shoring", "t", CW_DIM_FT, 0.0, 5.0, "@conflict.shore",
              "room for shoring behind the edge of the bottom", NULL, TYPE, shore_ft),
    CHOICE_IN("face", faces, "slope", "temporary face that is planned", "common practice", TYPE,
              face),
    NUMBER_IN("reach", "k", CW_DIM_NONE, 0.25, 3.0, "@conflict.surcharge_reach",
              "traffic nearer to the edge than so many depths is surcharge", NULL, TYPE,
              reach_ratio),
    NUMBER_IN("depth_limit", NULL, CW_DIM_FT, 5.0, 20.0, "@trench.depth_max",
              "deeper faces are designed by a registered engineer", NULL, TYPE, depth_max_ft),
};

static const cw_field outputs[] = {
    OUT("sloped_room", "x_1", CW_DIM_FT, "that a sloped face needs from the phase line",
        cw_phase_edge, slope_ft),
    OUT("shored_room", "x_2", CW_DIM_FT, "that a shored face needs", cw_phase_edge, shore_ft),
    CHOICE_OUT("check", cw_verdict_words, "the planned face fits", cw_phase_edge, fit),
    CHOICE_OUT("fits", ways, "what fits, the planned face first", cw_phase_edge, way),
    OUT("steepest", "z_f", CW_DIM_SIDE_SLOPE,
        "slope that just fits; 0 when not even an upright face does", cw_phase_edge, steepest),
    OUT("edge", "x_e", CW_DIM_FT, "top edge of the planned face from the phase line", cw_phase_edge,
        edge_ft),
    OUT("to_lane", NULL, CW_DIM_FT, "from that edge to the lane", cw_phase_edge, to_lane_ft),
    OUT("load_reach", NULL, CW_DIM_FT, "traffic nearer than this is surcharge", cw_phase_edge,
        reach_ft),
    FLAG_OUT("surcharge", "the traffic loads the face", cw_phase_edge, surcharge),
    CHOICE_OUT("load_check", cw_verdict_words,
               "undecided: competent person or engineer sets the face", cw_phase_edge, load),
};

cw_phase_edge cw_conflict_phase_edge(const cw_phase_edge_input *in, cw_working *w)
{
    static const char *const plane = "derived: plane geometry";
    const bool shored = in->face == CW_FACE_SHORED;
    cw_phase_edge out = {0};
    out.slope_ft =
        cw_step_add(w, "x_1", "e + z D + s + b",
                    in->toe_ft + in->side_slope * in->depth_ft + in->setback_ft + in->barrier_ft,
                    CW_DIM_FT, "derived; setback of 29 CFR 1926.651(j)(2)");
    out.shore_ft = cw_step_add(w, "x_2", "e + t + b", in->toe_ft + in->shore_ft + in->barrier_ft,
                               CW_DIM_FT, plane);
    out.steepest = cw_step_add(
        w, "z_f", "(x_l - e - s - b) / D, 0 at least",
        fmax(0.0, in->lane_ft - in->toe_ft - in->setback_ft - in->barrier_ft) / in->depth_ft,
        CW_DIM_SIDE_SLOPE, plane);
    const bool slope_fits = cw_meets(out.slope_ft, in->lane_ft),
               shore_fits = cw_meets(out.shore_ft, in->lane_ft);
    out.fit = (shored ? shore_fits : slope_fits) ? CW_HOLDS : CW_FAILS;
    if (shored)
        out.way = shore_fits ? CW_EDGE_SHORE : CW_EDGE_NONE;
    else
        out.way = slope_fits ? CW_EDGE_SLOPE : shore_fits ? CW_EDGE_SHORE : CW_EDGE_NONE;
    out.edge_ft = cw_step_add(w, "x_e", shored ? "e + t" : "e + z D",
                              in->toe_ft + (shored ? in->shore_ft : in->side_slope * in->depth_ft),
                              CW_DIM_FT, plane);
    out.to_lane_ft = cw_step_add(w, "y", "x_l - x_e", in->lane_ft - out.edge_ft, CW_DIM_FT, plane);
    out.reach_ft =
        cw_step_add(w, "y_s", "k D", in->reach_ratio * in->depth_ft, CW_DIM_FT, "common practice");
    out.surcharge = !cw_meets(out.reach_ft, out.to_lane_ft);
    out.load = out.surcharge || !cw_meets(in->depth_ft, in->depth_max_ft) ? CW_UNDECIDED : CW_HOLDS;
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_phase_edge *)output = cw_conflict_phase_edge(input, working);
}

const cw_calc cw_calc_phase_edge = {
    .name = "phase-edge",
    .title = "Temporary face at a phase line beside live traffic",
    .group = "conflict",
    .about = "Whether a sloped or a shored face fits between the phase line and the lane that "
             "carries traffic, with a barrier between, and "
             "whether the traffic stands near enough to load the face. Barrier deflection and the "
             "design of shoring are left to their "
             "engineers. A competent person inspects before each shift.",
    .source = "derived; 29 CFR 1926.651(j)(2) for the setback, Subpart P App. B for surcharge "
              "(from memory, not verified)",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_phase_edge_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_phase_edge),
    .run = run,
    .example = "lane=25ft depth=12ft slope=1:1",
};
