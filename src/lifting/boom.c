/* Boom over the piece, and the swing from truck to landing. */
#include "lifting_internal.h"

static const char plane[] = "derived: boom as a straight line in its plane";
static const char range[] = "common practice: range of mobile cranes";

#define TYPE cw_boom_input

static const cw_field boom_inputs[] = {
    NUMBER_IN("boom", "L_b", CW_DIM_FT, 20.0, 500.0, NULL, "length", range, TYPE, boom_ft),
    NUMBER_IN("radius", "R", CW_DIM_FT, 5.0, 450.0, NULL, "under load", range, TYPE, radius_ft),
    NUMBER_IN("pivot_height", NULL, CW_DIM_FT, 0.0, 30.0, "7 ft", "boom foot above the ground",
              range, TYPE, pivot_height_ft),
    NUMBER_IN("pivot_back", NULL, CW_DIM_FT, -10.0, 15.0, "4 ft",
              "boom foot behind the slew centre", range, TYPE, pivot_back_ft),
    NUMBER_IN("boom_half", NULL, CW_DIM_FT, 0.0, 6.0, "2 ft", "half of its depth", range, TYPE,
              boom_half_ft),
    NUMBER_IN("ground", NULL, CW_DIM_FT, -60.0, 60.0, "0 ft",
              "crane's ground above the place of landing", range, TYPE, ground_ft),
    NUMBER_IN("obstacle", NULL, CW_DIM_FT, 0.0, 150.0, "0 ft",
              "highest thing passed over, above the place of landing", range, TYPE, obstacle_ft),
    NUMBER_IN("over", NULL, CW_DIM_FT, 0.0, 20.0, "@lift.over", "piece above the obstacle", NULL,
              TYPE, obstacle_clear_ft),
    NUMBER_IN("piece_height", NULL, CW_DIM_FT, 0.2, 40.0, NULL, "of the piece", range, TYPE,
              piece_height_ft),
    NUMBER_IN("piece_half", NULL, CW_DIM_FT, 0.2, 40.0, NULL, "its half width towards the crane",
              range, TYPE, piece_half_ft),
    NUMBER_IN("rigging", NULL, CW_DIM_FT, 0.0, 100.0, NULL, "hook above the piece", range, TYPE,
              rigging_ft),
    NUMBER_IN("block", NULL, CW_DIM_FT, 0.0, 20.0, "4 ft", "hook to the top of its block", range,
              TYPE, block_ft),
    NUMBER_IN("two_block", NULL, CW_DIM_FT, 0.0, 20.0, "@lift.two_block", "block to boom head",
              NULL, TYPE, two_block_ft),
    NUMBER_IN("boom_clear", NULL, CW_DIM_FT, 0.0, 10.0, "@lift.boom_clear", "boom to piece", NULL,
              TYPE, boom_clear_ft),
};

static const cw_field boom_outputs[] = {
    FLAG_OUT("reaches", "the boom is long enough for the radius", cw_boom, reaches),
    OUT("boom_angle", "b", CW_DIM_DEG, "from the horizontal", cw_boom, angle_deg),
    OUT("tip", NULL, CW_DIM_FT, "boom head above the place of landing", cw_boom, tip_ft),
    OUT("tip_needed", NULL, CW_DIM_FT, "for the lift", cw_boom, needed_ft),
    OUT("to_spare", NULL, CW_DIM_FT, "tip less tip needed", cw_boom, spare_ft),
    OUT("boom_gap", NULL, CW_DIM_FT, "boom to the near top edge of the piece at its highest",
        cw_boom, gap_ft),
    CHOICE_OUT("height_check", cw_verdict_words, "the hook comes high enough", cw_boom,
               verdict_height),
    CHOICE_OUT("boom_check", cw_verdict_words, "the piece stays clear of the boom", cw_boom,
               verdict_boom),
};

cw_boom cw_lifting_boom(const cw_boom_input *in, cw_working *w)
{
    cw_boom out = {.verdict_height = CW_FAILS, .verdict_boom = CW_FAILS};
    const double top_ft = in->obstacle_ft + in->obstacle_clear_ft + in->piece_height_ft;
    out.needed_ft = cw_step_add(
        w, "z_n", "obstacle + over + piece + rigging + block + two-block margin",
        top_ft + in->rigging_ft + in->block_ft + in->two_block_ft, CW_DIM_FT, "definition");
    const double run_ft = in->radius_ft + in->pivot_back_ft;
    out.reaches = run_ft > 0.0 && run_ft < in->boom_ft;
    if (!out.reaches)
        return out;
    const double b = acos(run_ft / in->boom_ft);
    out.angle_deg =
        cw_step_add(w, "b", "acos((R + pivot back)/L_b)", b * CW_DEG_PER_RAD, CW_DIM_DEG, plane);
    out.tip_ft =
        cw_step_add(w, "z_t", "ground + pivot height + L_b sin b",
                    in->ground_ft + in->pivot_height_ft + in->boom_ft * sin(b), CW_DIM_FT, plane);
    out.spare_ft = out.tip_ft - out.needed_ft;
    // Horizontal place of the boom's axis at the height of the top edge, then square to the boom.
    const double above_pivot_ft = top_ft - in->ground_ft - in->pivot_height_ft;
    const double axis_ft = -in->pivot_back_ft + above_pivot_ft / tan(b);
    out.gap_ft =
        cw_step_add(w, "g", "(R - half - x_b) sin b - half depth",
                    (in->radius_ft - in->piece_half_ft - axis_ft) * sin(b) - in->boom_half_ft,
                    CW_DIM_FT, plane);
    out.verdict_height = cw_lifting_verdict(out.needed_ft, out.tip_ft);
    out.verdict_boom = cw_lifting_verdict(in->boom_clear_ft, out.gap_ft);
    return out;
}

static void run_boom(const void *input, void *output, cw_working *working)
{
    *(cw_boom *)output = cw_lifting_boom(input, working);
}

const cw_calc cw_calc_boom_clearance = {
    .name = "boom-clearance",
    .title = "Boom: hook height and clearance over the piece",
    .group = "lifting",
    .about =
        "Boom angle for a radius, height of the boom head against what the lift needs, and the "
        "distance of the boom from the near top edge of the piece when it is highest.  The boom "
        "bends under load and the radius grows: measure the radius above three quarters of the "
        "chart.  Head sheave offset and jib are not considered.",
    .source = "derived: boom as a straight line in its plane; margins by common practice",
    .inputs = boom_inputs,
    .input_count = COUNT(boom_inputs),
    .input_size = sizeof(cw_boom_input),
    .outputs = boom_outputs,
    .output_count = COUNT(boom_outputs),
    .output_size = sizeof(cw_boom),
    .run = run_boom,
    .example =
        "boom=80ft radius=38ft piece_height=4.83ft piece_half=7ft rigging=12ft obstacle=13ft",
};

#undef TYPE
#define TYPE cw_swing_input
#define PLACE(key, meaning, member)                                                                \
    NUMBER_IN(key, NULL, CW_DIM_FT, -2000.0, 2000.0, NULL, meaning, range, TYPE, member)

static const cw_field swing_inputs[] = {
    PLACE("crane_x", "slew centre right of the centre line", crane_x_ft),
    PLACE("crane_y", "slew centre along the run", crane_y_ft),
    PLACE("truck_x", "centre of the piece on the truck, right", truck_x_ft),
    PLACE("truck_y", "the same, along the run", truck_y_ft),
    PLACE("landing_x", "where the piece is set, right", land_x_ft),
    PLACE("landing_y", "the same, along the run", land_y_ft),
    NUMBER_IN("tail", NULL, CW_DIM_FT, 0.0, 60.0, "0 ft",
              "radius of the counterweight about the slew centre", range, TYPE, tail_ft),
    NUMBER_IN("tail_clear", NULL, CW_DIM_FT, 0.0, 20.0, "@lift.tail_clear", "beyond it", NULL, TYPE,
              tail_clear_ft),
    OPTION_IN("obstacle_x", NULL, CW_DIM_FT, -2000.0, 2000.0,
              "nearest thing to the tail: spoil, wall, truck", range, TYPE, obstacle_x_ft,
              has_obstacle),
    NUMBER_IN("obstacle_y", NULL, CW_DIM_FT, -2000.0, 2000.0, "0 ft", "the same, along the run",
              range, TYPE, obstacle_y_ft),
};

static const cw_field swing_outputs[] = {
    OUT("truck_radius", NULL, CW_DIM_FT, "at the truck", cw_swing, truck_radius_ft),
    OUT("landing_radius", NULL, CW_DIM_FT, "where it is set", cw_swing, land_radius_ft),
    OUT("swing", NULL, CW_DIM_DEG, "truck to landing the shorter way, clockwise seen from above",
        cw_swing, swing_deg),
    OUT("tail_gap", NULL, CW_DIM_FT, "tail to the obstacle", cw_swing, tail_gap_ft),
    CHOICE_OUT("tail_check", cw_verdict_words, "undecided without an obstacle", cw_swing,
               verdict_tail),
};

cw_swing cw_lifting_swing(const cw_swing_input *in, cw_working *w)
{
    cw_swing out = {.verdict_tail = CW_UNDECIDED};
    const double tx = in->truck_x_ft - in->crane_x_ft, ty = in->truck_y_ft - in->crane_y_ft;
    const double lx = in->land_x_ft - in->crane_x_ft, ly = in->land_y_ft - in->crane_y_ft;
    out.truck_radius_ft = cw_step_add(w, "R_t", "distance crane to truck", hypot(tx, ty), CW_DIM_FT,
                                      "closed form: geometry");
    out.land_radius_ft = cw_step_add(w, "R_l", "distance crane to landing", hypot(lx, ly),
                                     CW_DIM_FT, "closed form: geometry");
    // x is right and y ahead, so turning right is clockwise from above.
    out.swing_deg = cw_step_add(w, "swing", "angle between them",
                                atan2(lx * ty - ly * tx, tx * lx + ty * ly) * CW_DEG_PER_RAD,
                                CW_DIM_DEG, "closed form: geometry");
    if (in->has_obstacle) {
        out.tail_gap_ft =
            hypot(in->obstacle_x_ft - in->crane_x_ft, in->obstacle_y_ft - in->crane_y_ft) -
            in->tail_ft;
        out.verdict_tail = cw_lifting_verdict(in->tail_clear_ft, out.tail_gap_ft);
    }
    return out;
}

static void run_swing(const void *input, void *output, cw_working *working)
{
    *(cw_swing *)output = cw_lifting_swing(input, working);
}

const cw_calc cw_calc_crane_swing = {
    .name = "crane-swing",
    .title = "Radii, swing and tail of a crane beside the trench",
    .group = "lifting",
    .about =
        "Radius at the truck and at the landing, the swing between them, and the counterweight's "
        "circle.  Both radii must be on the chart, and the outriggers are checked over the whole "
        "swing (outriggers).  Nobody enters the swing of the tail (29 CFR 1926.1424).",
    .source = "closed form: geometry",
    .inputs = swing_inputs,
    .input_count = COUNT(swing_inputs),
    .input_size = sizeof(cw_swing_input),
    .outputs = swing_outputs,
    .output_count = COUNT(swing_outputs),
    .output_size = sizeof(cw_swing),
    .run = run_swing,
    .example = "crane_x=-40ft crane_y=60ft truck_x=-70ft truck_y=60ft landing_x=0ft landing_y=75ft "
               "tail=14ft obstacle_x=-58ft obstacle_y=60ft",
};
