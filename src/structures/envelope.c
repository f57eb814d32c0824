/* Combinations of loads, each position of each vehicle in its own contact state: adding up results
 * of single loads would be wrong where contacts open. */
#include "box_internal.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "cw/units.h"

enum { STEPS_PER_SPAN = 50, POSITIONS_MAX = 4000 };

enum { ALL_MOST, TOP_MOST, SIDES_MOST, FULL_OF_WATER, FLOODED_GROUND, CASES };

const char *cw_struct_case_words(int index)
{
    static const char *const words[CASES] = {
        "all loads at their greatest", "top greatest, sides least", "top least, sides greatest",
        "full of water, sides least", "flooded ground, box empty"};
    assert(index >= 0 && index < CASES);
    return words[index];
}

/* Factors of one state; service takes 1 throughout. */
typedef struct factors {
    double weight[2], earth[2], side[2]; /* most, least */
    double surcharge, live, water;
} factors;

static factors factors_of(int state, const cw_rows *rows)
{
    static const struct {
        const char *weight[2], *earth[2], *side[2], *surcharge, *live, *water;
    } ids[] = {
#define IDS(name)                                                                                  \
    {{"structure.factor." name ".weight.most", "structure.factor." name ".weight.least"},          \
     {"structure.factor." name ".earth.most", "structure.factor." name ".earth.least"},            \
     {"structure.factor." name ".side.most", "structure.factor." name ".side.least"},              \
     "structure.factor." name ".surcharge",                                                        \
     "structure.factor." name ".live",                                                             \
     "structure.factor." name ".water"}
        IDS("strength"), IDS("permit"), IDS("building")
#undef IDS
    };
    factors f = {{1.0, 1.0}, {1.0, 1.0}, {1.0, 1.0}, 1.0, 1.0, 1.0};
    if (state == CW_STRUCT_SERVICE)
        return f;
    const int i = state - CW_STRUCT_STRENGTH;
    const double modifier = cw_rows_value(rows, "structure.factor.earth_modifier");
    for (int k = 0; k < 2; k++) {
        // The modifier raises what loads and, where earth relieves, is not taken to lower it.
        const double eta = k == 0 ? modifier : 1.0;
        f.weight[k] = cw_rows_value(rows, ids[i].weight[k]);
        f.earth[k] = eta * cw_rows_value(rows, ids[i].earth[k]);
        f.side[k] = eta * cw_rows_value(rows, ids[i].side[k]);
    }
    f.surcharge = cw_rows_value(rows, ids[i].surcharge);
    f.live = cw_rows_value(rows, ids[i].live);
    f.water = cw_rows_value(rows, ids[i].water);
    return f;
}

static void both_sides(cw_struct_case *load, cw_struct_side side)
{
    assert(load->left_count < CW_STRUCT_SIDES_MAX && load->right_count < CW_STRUCT_SIDES_MAX);
    load->left[load->left_count++] = side;
    load->right[load->right_count++] = side;
}

static void earth_sides(cw_struct_case *load, const cw_struct_box *box, const cw_struct_site *site,
                        double pcf, double even_psf)
{
    const double half_top_ft = box->top_in / 2.0 / CW_IN_PER_FT;
    const double height_ft =
        box->rise_in / CW_IN_PER_FT + half_top_ft + box->floor_in / 2.0 / CW_IN_PER_FT;
    const double top_psf = pcf * (site->cover_ft + half_top_ft) + even_psf;
    both_sides(load, (cw_struct_side){0.0, height_ft, top_psf + pcf * height_ft, top_psf});
}

static void water_inside(cw_struct_case *load, const cw_struct_box *box, double pcf)
{
    const double floor_ft = box->floor_in / 2.0 / CW_IN_PER_FT;
    const double rise_ft = box->rise_in / CW_IN_PER_FT;
    both_sides(load, (cw_struct_side){floor_ft, floor_ft + rise_ft, -pcf * rise_ft, 0.0});
    load->floor_psf += pcf * rise_ft;
}

static void water_outside(cw_struct_case *load, const cw_struct_box *box, double level_ft,
                          double pcf)
{
    const double floor_ft = box->floor_in / 2.0 / CW_IN_PER_FT;
    both_sides(load, (cw_struct_side){0.0, level_ft, pcf * level_ft, 0.0});
    load->floor_psf -= pcf * (level_ft + floor_ft);
}

static cw_struct_case case_of(int index, const cw_struct_box *box, const cw_struct_site *site,
                              const factors *f)
{
    const bool top_least = index == SIDES_MOST || index == FLOODED_GROUND;
    const bool sides_least = index == TOP_MOST || index == FULL_OF_WATER;
    cw_struct_case load = {.weight = f->weight[top_least],
                           .top_psf = f->earth[top_least] * site->earth_psf};
    if (sides_least)
        earth_sides(&load, box, site, f->side[1] * site->least_pcf, 0.0);
    else
        earth_sides(&load, box, site, f->side[0] * site->most_pcf,
                    f->surcharge * site->surcharge_psf);
    if (index == FULL_OF_WATER)
        water_inside(&load, box, f->water * site->water_pcf);
    if (index == FLOODED_GROUND)
        water_outside(&load, box, site->ground_water_ft, f->water * site->water_pcf);
    return load;
}

/* ---- gathering ---- */

static void take_moment(cw_struct_span *span, double moment, double thrust, int index)
{
    if (moment > span->most_ft_lb) {
        span->most_ft_lb = moment;
        span->most_thrust_lb = thrust;
        span->most_case = index;
    }
    if (moment < span->least_ft_lb) {
        span->least_ft_lb = moment;
        span->least_thrust_lb = thrust;
        span->least_case = index;
    }
}

static void take_force(cw_struct_span *span, cw_struct_force force, int index)
{
    take_moment(span, force.moment_ft_lb, force.thrust_lb, index);
    if (fabs(force.shear_lb) <= span->shear_lb)
        return;
    span->shear_lb = fabs(force.shear_lb);
    span->shear_moment_ft_lb = force.moment_ft_lb;
    span->shear_thrust_lb = force.thrust_lb;
    span->shear_case = index;
}

static bool take_solution(cw_struct_envelope *out, const cw_struct_box *box,
                          const cw_struct_case *load, int index)
{
    const cw_struct_solution one = cw_struct_solve(box, load);
    out->solves++;
    out->status = one.status;
    if (one.status != CW_STRUCT_OK)
        return false;
    out->released += one.released;
    for (int p = 0; p < CW_STRUCT_PLACES; p++) {
        take_force(&out->at[p], one.left[p], index);
        take_force(&out->at[p], one.right[p], index);
    }
    take_moment(&out->wall, one.wall_most_ft_lb, one.left[CW_STRUCT_WALL_MID].thrust_lb, index);
    out->strut_most_lb = fmax(out->strut_most_lb, one.strut_lb);
    out->strut_least_lb = fmin(out->strut_least_lb, one.strut_lb);
    out->bearing_most_psf = fmax(out->bearing_most_psf, one.bearing_most_psf);
    out->residual = fmax(out->residual, one.residual);
    return true;
}

/* The first axle at @p shift_ft from the left wall's centre line; false when nothing is on the
 * top. */
static bool place_wheels(cw_struct_case *load, const cw_struct_wheel *wheel, double shift_ft,
                         double width_ft, double factor)
{
    load->patch_count = 0;
    for (int p = 0; p < wheel->patch_count; p++) {
        const cw_struct_patch patch = {wheel->patches[p].from_ft + shift_ft,
                                       wheel->patches[p].to_ft + shift_ft,
                                       wheel->patches[p].psf * factor};
        if (patch.to_ft > 0.0 && patch.from_ft < width_ft)
            load->patches[load->patch_count++] = patch;
    }
    return load->patch_count > 0;
}

/* Positions that the steps may miss: each strip centred, and each of its ends at mid-span and at
 * the shear sections, where shear is greatest. */
static bool stand_wheels(cw_struct_envelope *out, const cw_struct_box *box, cw_struct_case load,
                         const cw_struct_wheel *wheel, double factor, int index)
{
    const double width_ft = (box->span_in + box->wall_in) / CW_IN_PER_FT;
    const double shear_ft = fmin(width_ft / 2.0, (box->wall_in / 2.0 + box->crown_haunch_in +
                                                  CW_BOX_SHEAR_DEPTH * box->top_in) /
                                                     CW_IN_PER_FT);
    const double at_ft[3] = {width_ft / 2.0, shear_ft, width_ft - shear_ft};
    for (int p = 0; p < wheel->patch_count; p++) {
        const cw_struct_patch patch = wheel->patches[p];
        const double part_ft[3] = {(patch.from_ft + patch.to_ft) / 2.0, patch.from_ft, patch.to_ft};
        for (int k = 0; k < 9; k++)
            if (place_wheels(&load, wheel, at_ft[k / 3] - part_ft[k % 3], width_ft, factor) &&
                !take_solution(out, box, &load, index))
                return false;
    }
    return true;
}

static bool move_wheels(cw_struct_envelope *out, const cw_struct_box *box, cw_struct_case load,
                        const cw_struct_wheel *wheel, double factor, int index)
{
    const double width_ft = (box->span_in + box->wall_in) / CW_IN_PER_FT;
    const double step_ft = width_ft / STEPS_PER_SPAN;
    const cw_struct_patch first = wheel->patches[0];
    const cw_struct_patch last = wheel->patches[wheel->patch_count - 1];
    // Counted from the first strip at mid-span, so that one position is exactly centred.
    const double origin_ft = width_ft / 2.0 - (first.from_ft + first.to_ft) / 2.0;
    const int back = (int)ceil((last.to_ft - first.from_ft + width_ft) / step_ft);
    const int ahead = STEPS_PER_SPAN + (int)ceil((first.to_ft - first.from_ft) / step_ft);
    for (int k = -back; k <= ahead && k + back < POSITIONS_MAX; k++)
        if (place_wheels(&load, wheel, origin_ft + k * step_ft, width_ft, factor) &&
            !take_solution(out, box, &load, index))
            return false;
    return stand_wheels(out, box, load, wheel, factor, index);
}

cw_struct_envelope cw_struct_envelop(const cw_struct_box *box, const cw_struct_site *site,
                                     const cw_struct_wheel *wheels, int wheel_count, int state,
                                     const cw_rows *rows)
{
    cw_struct_envelope out = {.strut_least_lb = CW_ANY_HIGH, .strut_most_lb = -CW_ANY_HIGH};
    for (int p = 0; p < CW_STRUCT_PLACES; p++)
        out.at[p] = (cw_struct_span){.most_ft_lb = -CW_ANY_HIGH, .least_ft_lb = CW_ANY_HIGH};
    out.wall = out.at[0];
    const factors f = factors_of(state, rows);
    for (int c = 0; c < CASES; c++) {
        if (c == FLOODED_GROUND && !(site->ground_water_ft > 0.0))
            continue;
        const cw_struct_case load = case_of(c, box, site, &f);
        if (!take_solution(&out, box, &load, c))
            return out;
        const bool traffic = c != SIDES_MOST && c != FLOODED_GROUND;
        for (int w = 0; traffic && w < wheel_count; w++)
            if (wheels[w].counts && !move_wheels(&out, box, load, &wheels[w], f.live, c))
                return out;
    }
    return out;
}
