/* Line and grade: what the rod reads, camber, stakes, how far the run grows, and its heading. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

#define NINETEEN_OF_TWENTY 1.96 /* standard deviations of a normal value, either way */

/* ---- camber ---- */

static cw_camber_input camber_input(const draft *d, double length_ft, double at_ft)
{
    const cw_job *job = d->job;
    double longest_in = 0.0;
    for (int i = 0; i < job->pieces.lengths_in.count; i++)
        longest_in = fmax(longest_in, job->pieces.lengths_in.items[i]);
    return (cw_camber_input){.shape = job->grade.camber_shape,
                             .length_ft = length_ft,
                             .slope = job->run.slope,
                             .rise_ft = job->grade.camber_ft,
                             .settle_ft = job->grade.settlement_ft,
                             .piece_ft = fmin(longest_in / CW_IN_PER_FT, length_ft),
                             .height_in = job->box.floor_in + job->box.rise_in + job->box.top_in,
                             .gap_min_in = job->joint.gap_min_in,
                             .gap_max_in = job->joint.gap_max_in,
                             .distance_ft = fmin(fmax(at_ft, 0.0), length_ft),
                             .pond_in = job->grade.pond_in};
}

double draft_camber_ft(const draft *d, double length_ft, double at_ft)
{
    if (!(d->job->grade.camber_ft > 0.0))
        return 0.0;
    const cw_camber_input input = camber_input(d, length_ft, at_ft);
    return cw_grade_camber(&input, NULL).rise_here_ft;
}

static void find_camber(draft *d)
{
    const cw_job_grade *given = &d->job->grade;
    if (!(given->camber_ft > 0.0) && !(given->settlement_ft > 0.0))
        return;
    const double length_ft = d->plan.barrels[0].line.length_ft;
    const cw_camber_input input = camber_input(d, length_ft, length_ft / 2.0);
    d->plan.grade.camber = cw_grade_camber(&input, draft_working(d, "Camber"));
    d->plan.grade.has_camber = true;
}

/* ---- instrument ---- */

static void take_rod(cw_plan_grade *grade, double elevation_ft, const char *where, const char *what,
                     cw_arena *arena)
{
    const double rod_ft = grade->instrument_ft - elevation_ft;
    if (rod_ft < grade->least_rod_ft) {
        grade->least_rod_ft = rod_ft;
        grade->least_rod = cw_arena_print(arena, "%s at %s", what, where);
    }
    if (rod_ft > grade->most_rod_ft) {
        grade->most_rod_ft = rod_ft;
        grade->most_rod = cw_arena_print(arena, "%s at %s", what, where);
    }
}

static void show_rod(draft *d)
{
    const cw_job *job = d->job;
    const cw_plan_joint *joint = &d->plan.barrels[0].joints[0];
    const cw_rod_input input = {.benchmark_ft = job->survey.benchmark_ft,
                                .backsight_ft = job->grade.backsight_ft,
                                .outlet_ft = joint->at.invert_ft,
                                .slope = job->run.slope,
                                .floor_in = job->box.floor_in,
                                .leveling_in = job->bedding.leveling_in,
                                .bedding_in = job->bedding.thickness_in,
                                .has_wall = job->box.form != CW_FORM_RING,
                                .wall_top_in = draft_base_leg_in(job)};
    const cw_rod rod =
        cw_grade_rod(&input, draft_working(d, "Rod readings at the outlet of barrel 1"));
    d->plan.grade.laser_percent = rod.laser_percent;
}

static void find_instrument(draft *d)
{
    cw_plan_grade *grade = &d->plan.grade;
    const cw_job *job = d->job;
    grade->laser_percent = job->run.slope * CW_PERCENT;
    if (!job->grade.has_backsight || !job->survey.has_benchmark)
        return;
    grade->has_instrument = true;
    grade->instrument_ft = job->survey.benchmark_ft + job->grade.backsight_ft;
    grade->least_rod_ft = CW_ANY_HIGH;
    grade->most_rod_ft = -CW_ANY_HIGH;
    grade->least_rod = grade->most_rod = "";
    for (int b = 0; b < d->plan.barrel_count; b++)
        for (int i = 0; i <= d->plan.barrels[b].base_count; i++) {
            const cw_plan_joint *joint = &d->plan.barrels[b].joints[i];
            take_rod(grade, joint->seat_ft, joint->name,
                     job->box.form == CW_FORM_RING ? "top" : "wall top", d->arena);
            take_rod(grade, joint->subgrade_ft, joint->name, "subgrade", d->arena);
        }
    show_rod(d);
}

static void find_loop(draft *d)
{
    const cw_job_level_loop *given = &d->job->grade.loop;
    if (!given->present)
        return;
    const cw_level_input input = {.start_ft = d->job->survey.benchmark_ft,
                                  .backsights_ft = given->backsights_ft,
                                  .foresights_ft = given->foresights_ft,
                                  .has_close = true,
                                  .close_ft = d->job->survey.benchmark_ft,
                                  .line_ft = given->length_ft,
                                  .allowed_ft = draft_row_value(d, "level.misclosure", 0.05)};
    d->plan.grade.loop = cw_grade_level(&input, draft_working(d, "Line of levels"));
    d->plan.grade.has_loop = true;
}

/* ---- growth, closing, heading ---- */

static double piece_in(const draft *d, const cw_plan_barrel *barrel, int index)
{
    return d->plan.pieces[barrel->bases[index]].length_in;
}

static double mean_piece_in(const draft *d, const cw_plan_barrel *barrel)
{
    double sum_in = 0.0;
    for (int i = 0; i < barrel->base_count; i++)
        sum_in += piece_in(d, barrel, i);
    return sum_in / barrel->base_count;
}

static void find_closing_gap(draft *d, const cw_plan_barrel *barrel, cw_plan_growth *out,
                             double mean_gap_in)
{
    const cw_job_joint *joint = &d->job->joint;
    const int joints = barrel->base_count - 1;
    out->late_joints = (joints + 1) / 2;
    out->closed_in = out->late_joints * fmax(0.0, mean_gap_in - joint->gap_min_in);
    out->opened_in = out->late_joints * fmax(0.0, joint->gap_max_in - mean_gap_in);
    const double off_in =
        fmax(out->growth.high_in - out->closed_in, -out->growth.low_in - out->opened_in);
    if (!cw_meets(off_in, d->job->run.end_tolerance_in))
        out->order_by = barrel->base_count - out->late_joints;
    if (out->late_joints == 0)
        return;
    const cw_plan_piece *last = &d->plan.pieces[barrel->bases[joints - out->late_joints]];
    double rest_in = 0.0;
    for (int i = joints - out->late_joints + 1; i <= joints; i++)
        rest_in += piece_in(d, barrel, i);
    const double grown_in = last->start_in + last->length_in + out->growth.high_in;
    const double aim_in = d->job->grade.growth.gap_tolerance_in;
    const cw_gap_input input = {.target_ft = barrel->laid_in / CW_IN_PER_FT,
                                .laid_ft = grown_in / CW_IN_PER_FT,
                                .pieces = out->late_joints,
                                .piece_in = rest_in / out->late_joints,
                                .gap_min_in = joint->gap_min_in,
                                .gap_max_in = joint->gap_max_in,
                                .aim_low_in = barrel->gap_in - aim_in,
                                .aim_high_in = barrel->gap_in + aim_in};
    out->last = cw_grade_gap(
        &input, draft_working(d, cw_arena_print(d->arena, "Gap needed after growth, barrel %d",
                                                (int)(barrel - d->plan.barrels) + 1)));
}

static cw_heading_input heading_input(const draft *d, const cw_plan_barrel *barrel, int pieces)
{
    // The limit of the gaps' difference is taken as three standard deviations of it.
    const double sd_in = draft_row_value(d, "joint.gap_side_difference", 0.25) / 3.0;
    return (cw_heading_input){.width_in = d->plan.outside_width_in,
                              .advance_ft =
                                  (mean_piece_in(d, barrel) + barrel->gap_in) / CW_IN_PER_FT,
                              .pieces = pieces,
                              .sd_in = sd_in,
                              .first_true = true,
                              .line_in = draft_row_value(d, "joint.line_tolerance", 1.0)};
}

/* Left alone, the offset grows with the square of the number of pieces when a difference stays the
 * same, and a little less when it is random: the random part decides how soon the line is looked
 * at. */
static void find_heading(draft *d, const cw_plan_barrel *barrel, cw_plan_growth *out)
{
    const cw_heading_input whole = heading_input(d, barrel, barrel->base_count);
    out->heading = cw_grade_heading(
        &whole, draft_working(d, cw_arena_print(d->arena, "Heading left alone, barrel %d",
                                                (int)(barrel - d->plan.barrels) + 1)));
    out->straight = barrel->base_count;
    for (int k = 1; k <= barrel->base_count; k++) {
        const cw_heading_input input = heading_input(d, barrel, k);
        if (!cw_meets(NINETEEN_OF_TWENTY * cw_grade_heading(&input, NULL).end_sd_in,
                      input.line_in)) {
            out->straight = k - 1;
            return;
        }
    }
}

static cw_plan_growth growth_of(draft *d, const cw_plan_barrel *barrel)
{
    const cw_job_growth *given = &d->job->grade.growth;
    cw_plan_growth out = {.order_by = 0};
    const double mean_gap_in = given->has_gap ? given->gap_in : barrel->gap_in;
    const cw_growth_input input = {.pieces = barrel->base_count,
                                   .piece_in = mean_piece_in(d, barrel),
                                   .gap_in = barrel->gap_in,
                                   .length_bias_in = given->length_bias_in,
                                   .length_tol_in = given->length_tolerance_in,
                                   .gap_mean_in = mean_gap_in,
                                   .gap_tol_in = given->gap_tolerance_in,
                                   .spread = CW_SPREAD_THREE};
    out.growth = cw_grade_growth(
        &input, draft_working(d, cw_arena_print(d->arena, "Growth of the run, barrel %d",
                                                (int)(barrel - d->plan.barrels) + 1)));
    find_closing_gap(d, barrel, &out, mean_gap_in);
    find_heading(d, barrel, &out);
    return out;
}

/* At the upstream face of a piece the tape may stand so far that the gaps that are left can still
 * bring the end into its tolerance. */
static const cw_plan_tape *tape_of(draft *d, const cw_plan_barrel *barrel)
{
    const int count = barrel->base_count - 1;
    cw_plan_tape *tape = CW_TAKE(d->arena, cw_plan_tape, count > 0 ? count : 1);
    double rest_in = 0.0;
    for (int i = count - 1; i >= 0; i--) {
        const cw_plan_piece *piece = &d->plan.pieces[barrel->bases[i]];
        rest_in += piece_in(d, barrel, i + 1);
        const int gaps = count - i;
        const double room_in = barrel->laid_in - rest_in,
                     tolerance_in = d->job->run.end_tolerance_in;
        tape[i] = (cw_plan_tape){
            i,
            (piece->start_in + piece->length_in) / CW_IN_PER_FT,
            (room_in - tolerance_in - gaps * d->job->joint.gap_max_in) / CW_IN_PER_FT,
            (room_in + tolerance_in - gaps * d->job->joint.gap_min_in) / CW_IN_PER_FT,
            rest_in / CW_IN_PER_FT,
            gaps};
    }
    return tape;
}

static void find_growth(draft *d)
{
    cw_plan_growth *growth = CW_TAKE(d->arena, cw_plan_growth, d->plan.barrel_count);
    const cw_plan_tape **tape = CW_TAKE(d->arena, const cw_plan_tape *, d->plan.barrel_count);
    for (int b = 0; b < d->plan.barrel_count; b++) {
        growth[b] = growth_of(d, &d->plan.barrels[b]);
        tape[b] = tape_of(d, &d->plan.barrels[b]);
    }
    d->plan.grade.growth = growth;
    d->plan.grade.tape = tape;
}

/* ---- stakes ---- */

/* Edge of the widest cut on one side of the centre line, or the outer wall where nothing is dug. */
static double edge_ft(const draft *d, bool right)
{
    double edge = d->plan.width_ft / 2.0;
    for (int i = 0; i < d->plan.trench.cut_count; i++) {
        const cw_plan_cut *cut = &d->plan.trench.cuts[i];
        if (cut->dug)
            edge = fmax(edge, right ? cut->section.right_ft : cut->section.left_ft);
    }
    return edge;
}

static void add_stakes(draft *d, cw_plan_stake *stakes, bool right, int count)
{
    const cw_plan_barrel *barrel = &d->plan.barrels[0];
    const double off_ft = edge_ft(d, right) + d->job->grade.stake_offset_ft,
                 side = right ? 1.0 : -1.0;
    for (int i = 0; i < count; i++) {
        const double at_ft =
            i + 1 < count ? i * d->job->grade.stake_spacing_ft : barrel->line.length_ft;
        cw_plan_stake *stake = &stakes[d->plan.grade.stake_count++];
        const cw_run_place place =
            cw_run_beside(&barrel->line, at_ft, side * off_ft - barrel->offset_ft);
        *stake = (cw_plan_stake){cw_arena_print(d->arena, "%s%d", right ? "R" : "L", i + 1),
                                 at_ft,
                                 side * off_ft,
                                 place.northing_ft,
                                 place.easting_ft,
                                 draft_invert_ft(d, at_ft),
                                 draft_subgrade_ft(d, at_ft)};
    }
}

static void find_stakes(draft *d)
{
    const double length_ft = d->plan.barrels[0].line.length_ft,
                 spacing_ft = d->job->grade.stake_spacing_ft;
    const int count = (int)ceil(length_ft / spacing_ft - CW_RATIO_SLACK) + 1;
    cw_plan_stake *stakes = CW_TAKE(d->arena, cw_plan_stake, 2 * count);
    if (d->job->grade.stake_side != 1)
        add_stakes(d, stakes, false, count);
    if (d->job->grade.stake_side != 0)
        add_stakes(d, stakes, true, count);
    d->plan.grade.stakes = stakes;
}

void draft_grade(draft *d)
{
    find_camber(d);
    find_instrument(d);
    find_loop(d);
    find_growth(d);
    find_stakes(d);
}
