#include <assert.h>
#include <math.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"

static const char *const mitre = "derived: plane geometry of a mitre";

static cw_run_sides sides_of(double piece_in, double half_difference_in)
{
    return (cw_run_sides){piece_in + half_difference_in, piece_in - half_difference_in};
}

cw_run_sides cw_run_skew_piece(double piece_in, double width_in, double skew_deg)
{
    return sides_of(piece_in, width_in / 2.0 * fabs(tan(skew_deg * CW_RAD_PER_DEG)));
}

static void open_joint(const cw_run_turn *turn, cw_run_turned *turned, cw_working *working)
{
    const double open = (turn->gap_max_in - turn->gap_min_in) / turn->width_in;
    turned->open_deg = cw_step_add(working, "phi", "(g_max - g_min) / B_o", open * CW_DEG_PER_RAD,
                                   CW_DIM_DEG, "derived: small angle across the outside width");
    if (open > 0.0)
        turned->open_radius_ft =
            cw_step_add(working, "R_o", "l / (2 tan(phi/2))",
                        turn->piece_in / CW_IN_PER_FT / (2.0 * tan(open / 2.0)), CW_DIM_FT,
                        "derived: chords tangent at mid length");
}

static void chord(const cw_run_turn *turn, cw_run_turned *turned, cw_working *working)
{
    static const char *const circle = "derived: chord of a circle";
    const double half_chord = turn->piece_in / CW_IN_PER_FT / (2.0 * turn->radius_ft);
    const double half_angle = asin(fmin(half_chord, 1.0));
    turned->has_chord = true;
    turned->chord_turn_deg = cw_step_add(working, "D_c", "2 asin(l / (2 R))",
                                         2.0 * half_angle * CW_DEG_PER_RAD, CW_DIM_DEG, circle);
    turned->mid_ordinate_ft =
        cw_step_add(working, "M", "R (1 - cos(D_c/2))", turn->radius_ft * (1.0 - cos(half_angle)),
                    CW_DIM_FT, circle);
    turned->chord_pieces =
        cw_step_add(working, "N_c", "D / D_c", fabs(turn->turn_deg) / turned->chord_turn_deg,
                    CW_DIM_NONE, circle);
}

cw_run_turned cw_run_turn_pieces(const cw_run_turn *turn, cw_working *working)
{
    assert(turn->turn_max_deg > 0.0 && turn->piece_in > 0.0 && turn->width_in > 0.0);
    cw_run_turned turned = {0};
    const double total_deg = fabs(turn->turn_deg);
    turned.joints = (int)ceil(total_deg / turn->turn_max_deg - CW_RATIO_SLACK);
    turned.joint_turn_deg = turned.joints > 0 ? total_deg / turned.joints : 0.0;
    cw_step_add(working, "m", "ceil(D / D_max)", turned.joints, CW_DIM_COUNT, mitre);
    cw_step_add(working, "D_m", "D / m", turned.joint_turn_deg, CW_DIM_DEG, mitre);

    const double joint_turn = turned.joint_turn_deg * CW_RAD_PER_DEG;
    const double both_in = cw_step_add(working, "d_2", "B_o tan(D_m/2), both ends cut half",
                                       turn->width_in * tan(joint_turn / 2.0), CW_DIM_IN, mitre);
    const double one_in = cw_step_add(working, "d_1", "(B_o/2) tan(D_m), one end cut the whole",
                                      turn->width_in / 2.0 * tan(joint_turn), CW_DIM_IN, mitre);
    turned.both = sides_of(turn->piece_in, both_in);
    turned.one = sides_of(turn->piece_in, one_in);
    open_joint(turn, &turned, working);
    if (turn->has_radius)
        chord(turn, &turned, working);
    return turned;
}

cw_run_headwall_take cw_run_headwall_size(const cw_run_headwall *wall, cw_working *working)
{
    static const char *const geometry = "derived: plane geometry";
    const double stretch =
        wall->cut == CW_RUN_CUT_ROAD ? 1.0 / cos(wall->skew_deg * CW_RAD_PER_DEG) : 1.0;
    cw_run_headwall_take take = {0};
    take.length_ft = cw_step_add(
        working, "L_w", "W / cos skew + 2 overhang (W + 2 overhang when square)",
        wall->width_ft * stretch + 2.0 * wall->overhang_in / CW_IN_PER_FT, CW_DIM_FT, geometry);
    take.height_ft = cw_step_add(working, "H_w", "rise + top + parapet",
                                 (wall->rise_in + wall->top_in + wall->parapet_in) / CW_IN_PER_FT,
                                 CW_DIM_FT, geometry);
    take.gross_sqft = cw_step_add(working, "A_g", "L_w H_w", take.length_ft * take.height_ft,
                                  CW_DIM_SQFT, geometry);
    take.openings_sqft =
        cw_step_add(working, "A_o", "n span rise / cos skew (n span rise when square)",
                    wall->openings * wall->span_in * wall->rise_in / CW_SQIN_PER_SQFT * stretch,
                    CW_DIM_SQFT, geometry);
    take.face_sqft = cw_step_add(working, "A", "A_g - A_o", take.gross_sqft - take.openings_sqft,
                                 CW_DIM_SQFT, geometry);
    take.concrete_cy = cw_step_add(
        working, "V", "A t", take.face_sqft * wall->thickness_in / CW_IN_PER_FT / CW_CUFT_PER_CY,
        CW_DIM_CY, geometry);
    return take;
}
