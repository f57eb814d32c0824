#include <assert.h>
#include <math.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"

double cw_run_slope_factor(double slope)
{
    return sqrt(1.0 + slope * slope);
}

double cw_run_invert_ft(const cw_run_grade *grade, double at_ft)
{
    return grade->outlet_invert_ft + grade->slope * at_ft - grade->drop_in / CW_IN_PER_FT;
}

cw_run_joint cw_run_joint_at(const cw_run_line *line, const cw_run_grade *grade, double slope_in)
{
    const double at_ft = slope_in / CW_IN_PER_FT / cw_run_slope_factor(grade->slope);
    return (cw_run_joint){
        .slope_in = slope_in,
        .at_ft = at_ft,
        .invert_ft = cw_run_invert_ft(grade, at_ft),
        .place = cw_run_line_at(line, at_ft),
    };
}

double cw_run_equal_joint_in(int joint, double piece_in, double gap_in)
{
    return joint * (piece_in + gap_in);
}

double cw_run_under_invert_ft(double invert_ft, double slope, double below_in)
{
    // Square to the grade, so the vertical thickness is t / cos(atan S).
    return invert_ft - below_in / CW_IN_PER_FT * cw_run_slope_factor(slope);
}

static double share_of_outlet(cw_run_excess excess)
{
    switch (excess) {
    case CW_RUN_EXCESS_OUTLET:
        return 1.0;
    case CW_RUN_EXCESS_SHARED:
        return 0.5;
    case CW_RUN_EXCESS_INLET:
        break;
    }
    return 0.0;
}

cw_run_rounding cw_run_round_up(double need_ft, double slope, double piece_in, double gap_in,
                                cw_run_excess excess, cw_working *working)
{
    assert(need_ft > 0.0 && piece_in > 0.0 && gap_in >= 0.0);
    static const char *const counting = "derived: n pieces and n - 1 gaps";
    const double factor = cw_run_slope_factor(slope);
    const double need_in =
        cw_step_add(working, "L_b", "(s_in + s_out) sqrt(1 + S^2)", need_ft * factor * CW_IN_PER_FT,
                    CW_DIM_IN, "derived: slope length of a plan length");
    // A run that fits exactly must not gain a piece by the last bit of the division.
    const double count = ceil((need_in + gap_in) / (piece_in + gap_in) - CW_RATIO_SLACK);
    cw_run_rounding round = {.pieces = count < 1.0 ? 1 : (int)count};
    cw_step_add(working, "n", "ceil((L_b + j) / (L_p + j))", round.pieces, CW_DIM_COUNT, counting);
    round.laid_in =
        cw_step_add(working, "L_n", "n L_p + (n - 1) j",
                    round.pieces * piece_in + (round.pieces - 1) * gap_in, CW_DIM_IN, counting);
    round.plan_ft =
        cw_step_add(working, "X_n", "L_n / sqrt(1 + S^2)", round.laid_in / CW_IN_PER_FT / factor,
                    CW_DIM_FT, "derived: plan length of a slope length");
    round.excess_ft = cw_step_add(working, "x", "X_n - (s_in + s_out)",
                                  fmax(round.plan_ft - need_ft, 0.0), CW_DIM_FT, counting);
    round.short_in = cw_step_add(
        working, "L_s", "L_b - (n - 1)(L_p + j), if one short piece is cast instead",
        fmin(need_in - (round.pieces - 1) * (piece_in + gap_in), piece_in), CW_DIM_IN, counting);
    round.outlet_share_ft = round.excess_ft * share_of_outlet(excess);
    round.inlet_share_ft = round.excess_ft - round.outlet_share_ft;
    return round;
}
