/* Plane frame by the stiffness method.  A bar's stiffness is the inverse of its flexibility,
 * integrated along its length, so that a haunch enters as it is; loads enter by the movements they
 * cause in the same flexibility (derived: force method, bar held at one end). */
#include "structures_internal.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define MECHANISM_RATIO 1e-11 /* of a pivot to its diagonal: rounding leaves about 1e-13 */
#define INERTIA_DIVISOR 12.0  /* second moment of a rectangle is b h^3 over this */

/* Gauss-Legendre, five points on 0..1: exact to degree nine. */
enum { GAUSS = 5, REFINEMENTS = 2 };
static const double gauss_at[GAUSS] = {0.046910077030668004, 0.23076534494715845, 0.5,
                                       0.7692346550528415, 0.9530899229693320};
static const double gauss_weight[GAUSS] = {0.11846344252809454, 0.23931433524968324,
                                           0.28444444444444444, 0.23931433524968324,
                                           0.11846344252809454};

void cw_frame_clear(cw_frame *frame, double modulus_psf)
{
    memset(frame, 0, sizeof *frame);
    frame->modulus_psf = modulus_psf;
    frame->axial = 1.0;
}

int cw_frame_point_add(cw_frame *frame, double x_ft, double y_ft)
{
    if (frame->points == CW_FRAME_POINTS)
        return -1;
    frame->point[frame->points] =
        (cw_frame_point){.x_ft = x_ft, .y_ft = y_ft, .same_x = -1, .same_y = -1};
    return frame->points++;
}

void cw_frame_loads_clear(cw_frame *frame)
{
    for (int i = 0; i < frame->bars; i++)
        memset(frame->bar[i].held, 0, sizeof frame->bar[i].held);
    for (int i = 0; i < frame->points; i++)
        memset(frame->point[i].load, 0, sizeof frame->point[i].load);
}

static double bending_at(double modulus_psf, const cw_frame_taper *bar, double x_ft)
{
    const double depth_ft =
        bar->from_depth_ft + (bar->to_depth_ft - bar->from_depth_ft) * x_ft / bar->length_ft;
    return modulus_psf * depth_ft * depth_ft * depth_ft / INERTIA_DIVISOR;
}

cw_frame_flex cw_frame_flexibility(double modulus_psf, const cw_frame_taper *bar)
{
    cw_frame_flex flex = {0};
    for (int g = 0; g < GAUSS; g++) {
        const double x_ft = gauss_at[g] * bar->length_ft;
        const double arm_ft = bar->length_ft - x_ft;
        const double over_ei =
            gauss_weight[g] * bar->length_ft / bending_at(modulus_psf, bar, x_ft);
        flex.across += arm_ft * arm_ft * over_ei;
        flex.cross += arm_ft * over_ei;
        flex.turn += over_ei;
    }
    return flex;
}

static void set_stiffness(const cw_frame *frame, cw_frame_bar *bar)
{
    const cw_frame_taper *shape = &bar->shape;
    const cw_frame_flex flex = cw_frame_flexibility(frame->modulus_psf, shape);
    const double det = flex.across * flex.turn - flex.cross * flex.cross;
    double along = 0.0;
    for (int g = 0; g < GAUSS; g++)
        along += gauss_weight[g] * shape->length_ft /
                 (frame->modulus_psf * frame->axial *
                  (shape->from_depth_ft +
                   (shape->to_depth_ft - shape->from_depth_ft) * gauss_at[g]));
    bar->vv = flex.turn / det;
    bar->vr = -flex.cross / det;
    bar->rr = flex.across / det;
    bar->along = 1.0 / along;
}

int cw_frame_bar_add(cw_frame *frame, int from, int to, double from_depth_ft, double to_depth_ft)
{
    if (frame->bars == CW_FRAME_POINTS)
        return -1;
    const double x_ft = frame->point[to].x_ft - frame->point[from].x_ft;
    const double y_ft = frame->point[to].y_ft - frame->point[from].y_ft;
    const double length_ft = hypot(x_ft, y_ft);
    assert(length_ft > 0.0 && from_depth_ft > 0.0 && to_depth_ft > 0.0);
    frame->bar[frame->bars] = (cw_frame_bar){.from = from,
                                             .to = to,
                                             .shape = {length_ft, from_depth_ft, to_depth_ft},
                                             .c = x_ft / length_ft,
                                             .s = y_ft / length_ft};
    set_stiffness(frame, &frame->bar[frame->bars]);
    return frame->bars++;
}

double cw_frame_load_moment(double x_ft, const cw_frame_line *load)
{
    const double from = fmax(x_ft, load->from_ft);
    if (from >= load->to_ft)
        return 0.0;
    const double slope = (load->to_load - load->from_load) / (load->to_ft - load->from_ft);
    const double start = load->from_load + slope * (from - load->from_ft);
    const double run = load->to_ft - from, arm = from - x_ft;
    const double force = run * (start + load->to_load) / 2.0;
    return force * arm + run * run * (start + 2.0 * load->to_load) / 6.0;
}

cw_frame_bend cw_frame_load_bend(double modulus_psf, const cw_frame_taper *bar,
                                 const cw_frame_line *load)
{
    const double cuts[4] = {0.0, load->from_ft, load->to_ft, bar->length_ft};
    cw_frame_bend bend = {0};
    for (int part = 0; part < 3; part++) {
        const double run_ft = cuts[part + 1] - cuts[part];
        for (int g = 0; run_ft > 0.0 && g < GAUSS; g++) {
            const double x_ft = cuts[part] + gauss_at[g] * run_ft;
            const double curve = cw_frame_load_moment(x_ft, load) * gauss_weight[g] * run_ft /
                                 bending_at(modulus_psf, bar, x_ft);
            bend.across_ft += curve * (bar->length_ft - x_ft);
            bend.turn += curve;
        }
    }
    return bend;
}

void cw_frame_bar_across(cw_frame *frame, int index, double from_ft, double to_ft, double from_load,
                         double to_load)
{
    cw_frame_bar *bar = &frame->bar[index];
    const cw_frame_line load = {from_ft, to_ft, from_load, to_load};
    if (!(to_ft > from_ft))
        return;
    const cw_frame_bend bend = cw_frame_load_bend(frame->modulus_psf, &bar->shape, &load);
    const double force = (from_load + to_load) / 2.0 * (to_ft - from_ft);
    const double moment = cw_frame_load_moment(0.0, &load);
    const double end_force = -(bar->vv * bend.across_ft + bar->vr * bend.turn);
    const double end_moment = -(bar->vr * bend.across_ft + bar->rr * bend.turn);
    bar->held[1] += -end_force - force;
    bar->held[2] += -end_moment - end_force * bar->shape.length_ft - moment;
    bar->held[4] += end_force;
    bar->held[5] += end_moment;
}

void cw_frame_bar_along(cw_frame *frame, int bar, double load_lb)
{
    frame->bar[bar].held[0] -= load_lb / 2.0;
    frame->bar[bar].held[3] -= load_lb / 2.0;
}

static void bar_dofs(const cw_frame *frame, const cw_frame_bar *bar, int dofs[6])
{
    for (int i = 0; i < 3; i++) {
        dofs[i] = frame->point[bar->from].dof[i];
        dofs[3 + i] = frame->point[bar->to].dof[i];
    }
}

bool cw_frame_number(cw_frame *frame, const int *order)
{
    frame->dofs = 0;
    for (int i = 0; i < frame->points; i++)
        for (int d = 0; d < 3; d++)
            frame->point[order[i]].dof[d] = -1;
    for (int i = 0; i < frame->points; i++) {
        cw_frame_point *point = &frame->point[order[i]];
        const int shared[3] = {point->same_x, point->same_y, -1};
        for (int d = 0; d < 3; d++) {
            // A partner that comes earlier in the order has given its number already.
            if (point->dof[d] >= 0)
                continue;
            int *partner = shared[d] >= 0 ? &frame->point[shared[d]].dof[d] : NULL;
            if (partner && *partner >= 0)
                point->dof[d] = *partner;
            else if (!point->fixed[d])
                point->dof[d] = frame->dofs++;
            if (partner)
                *partner = point->dof[d];
        }
    }
    frame->band_used = 1;
    for (int b = 0; b < frame->bars; b++) {
        int dofs[6];
        bar_dofs(frame, &frame->bar[b], dofs);
        for (int i = 0; i < 6; i++)
            for (int j = 0; j < 6; j++)
                if (dofs[i] >= 0 && dofs[j] >= 0 && dofs[i] - dofs[j] + 1 > frame->band_used)
                    frame->band_used = dofs[i] - dofs[j] + 1;
    }
    return frame->band_used <= CW_FRAME_BAND;
}

/* End forces, in the bar's axes, of a movement of its far end against the near one. */
static void end_forces_of(const cw_frame_bar *bar, double along, double across, double turn,
                          double ends[6])
{
    ends[3] = bar->along * along;
    ends[4] = bar->vv * across + bar->vr * turn;
    ends[5] = bar->vr * across + bar->rr * turn;
    // The near end follows by equilibrium.
    ends[0] = -ends[3];
    ends[1] = -ends[4];
    ends[2] = -ends[5] - ends[4] * bar->shape.length_ft;
}

static void to_local(const cw_frame_bar *bar, const double global[6], double local[6])
{
    for (int e = 0; e < 6; e += 3) {
        local[e] = bar->c * global[e] + bar->s * global[e + 1];
        local[e + 1] = -bar->s * global[e] + bar->c * global[e + 1];
        local[e + 2] = global[e + 2];
    }
}

static void to_global(const cw_frame_bar *bar, const double local[6], double global[6])
{
    for (int e = 0; e < 6; e += 3) {
        global[e] = bar->c * local[e] - bar->s * local[e + 1];
        global[e + 1] = bar->s * local[e] + bar->c * local[e + 1];
        global[e + 2] = local[e + 2];
    }
}

static void bar_add(cw_frame *frame, const cw_frame_bar *bar)
{
    int dofs[6];
    bar_dofs(frame, bar, dofs);
    for (int j = 0; j < 6; j++) {
        if (dofs[j] < 0)
            continue;
        double unit[6] = {0.0}, local[6], ends[6], column[6];
        unit[j] = 1.0;
        to_local(bar, unit, local);
        end_forces_of(bar, local[3] - local[0], local[4] - local[1] - local[2] * bar->shape.length_ft,
                      local[5] - local[2], ends);
        to_global(bar, ends, column);
        for (int i = 0; i < 6; i++)
            if (dofs[i] >= dofs[j])
                frame->band[dofs[i]][dofs[i] - dofs[j]] += column[i];
    }
}

/* Rows of the lower half, diagonal first: band[i][i - j]. */
static bool band_factor(cw_frame *frame)
{
    const int width = frame->band_used;
    for (int i = 0; i < frame->dofs; i++) {
        double *row = frame->band[i];
        const double diagonal = row[0];
        const int first = i - width + 1 > 0 ? i - width + 1 : 0;
        for (int j = first; j <= i; j++) {
            const double *other = frame->band[j];
            double sum = row[i - j];
            const int low = j - width + 1 > first ? j - width + 1 : first;
            for (int m = low; m < j; m++)
                sum -= row[i - m] * other[j - m];
            if (j < i)
                row[i - j] = sum / other[0];
            else if (!(sum > MECHANISM_RATIO * diagonal))
                return false;
            else
                row[0] = sqrt(sum);
        }
    }
    return true;
}

static void band_substitute(const cw_frame *frame, double *vector)
{
    const int width = frame->band_used;
    for (int i = 0; i < frame->dofs; i++) {
        double sum = vector[i];
        for (int m = 1; m < width && m <= i; m++)
            sum -= frame->band[i][m] * vector[i - m];
        vector[i] = sum / frame->band[i][0];
    }
    for (int i = frame->dofs - 1; i >= 0; i--) {
        double sum = vector[i];
        for (int m = 1; m < width && i + m < frame->dofs; m++)
            sum -= frame->band[i + m][m] * vector[i + m];
        vector[i] = sum / frame->band[i][0];
    }
}

double cw_frame_move(const cw_frame *frame, int point, int direction)
{
    const int dof = frame->point[point].dof[direction];
    return dof < 0 ? 0.0 : frame->move[dof] + frame->fine[dof];
}

/* Far end less near end: the coarse parts nearly cancel, so the fine ones count. */
static double apart(const cw_frame *frame, const cw_frame_bar *bar, int direction)
{
    const int from = frame->point[bar->from].dof[direction];
    const int to = frame->point[bar->to].dof[direction];
    const double coarse = (to < 0 ? 0.0 : frame->move[to]) - (from < 0 ? 0.0 : frame->move[from]);
    return coarse + ((to < 0 ? 0.0 : frame->fine[to]) - (from < 0 ? 0.0 : frame->fine[from]));
}

void cw_frame_end_forces(const cw_frame *frame, int index, double ends[6])
{
    const cw_frame_bar *bar = &frame->bar[index];
    const double x = apart(frame, bar, 0), y = apart(frame, bar, 1);
    const double near_turn = cw_frame_move(frame, bar->from, 2);
    end_forces_of(bar, bar->c * x + bar->s * y,
                  -bar->s * x + bar->c * y - near_turn * bar->shape.length_ft, apart(frame, bar, 2),
                  ends);
    for (int i = 0; i < 6; i++)
        ends[i] += bar->held[i];
}

/* Load less resistance of each free movement. */
static void unbalanced(const cw_frame *frame, double *sum)
{
    memset(sum, 0, CW_FRAME_DOFS * sizeof sum[0]);
    for (int b = 0; b < frame->bars; b++) {
        double ends[6], global[6];
        int dofs[6];
        cw_frame_end_forces(frame, b, ends);
        to_global(&frame->bar[b], ends, global);
        bar_dofs(frame, &frame->bar[b], dofs);
        for (int i = 0; i < 6; i++)
            if (dofs[i] >= 0)
                sum[dofs[i]] -= global[i];
    }
    for (int i = 0; i < frame->points; i++) {
        const cw_frame_point *point = &frame->point[i];
        for (int d = 0; d < 3; d++)
            if (point->dof[d] >= 0)
                sum[point->dof[d]] += point->load[d];
        if (point->dof[1] >= 0)
            sum[point->dof[1]] -= point->spring * cw_frame_move(frame, i, 1);
    }
}

bool cw_frame_solve(cw_frame *frame)
{
    memset(frame->band, 0, sizeof frame->band);
    memset(frame->move, 0, sizeof frame->move);
    memset(frame->fine, 0, sizeof frame->fine);
    for (int b = 0; b < frame->bars; b++)
        bar_add(frame, &frame->bar[b]);
    for (int i = 0; i < frame->points; i++)
        if (frame->point[i].dof[1] >= 0)
            frame->band[frame->point[i].dof[1]][0] += frame->point[i].spring;
    if (!band_factor(frame))
        return false;
    // The first pass gives the movements, the others what rounding left of the loads: a box on soft
    // ground moves much as a whole and its short bars feel differences only.
    for (int pass = 0; pass <= REFINEMENTS; pass++) {
        double step[CW_FRAME_DOFS];
        double *target = pass == 0 ? frame->move : frame->fine;
        unbalanced(frame, step);
        band_substitute(frame, step);
        for (int i = 0; i < frame->dofs; i++)
            target[i] += step[i];
    }
    return true;
}

double cw_frame_residual(const cw_frame *frame)
{
    double sum[CW_FRAME_DOFS], worst = 0.0;
    unbalanced(frame, sum);
    for (int i = 0; i < frame->dofs; i++)
        worst = fmax(worst, fabs(sum[i]));
    return worst;
}

double cw_frame_reaction(const cw_frame *frame, int point, int direction)
{
    double sum = -frame->point[point].load[direction];
    for (int b = 0; b < frame->bars; b++) {
        const cw_frame_bar *bar = &frame->bar[b];
        if (bar->from != point && bar->to != point)
            continue;
        double ends[6], global[6];
        cw_frame_end_forces(frame, b, ends);
        to_global(bar, ends, global);
        sum += global[(bar->from == point ? 0 : 3) + direction];
    }
    return sum;
}
