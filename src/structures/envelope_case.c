/* Combinations of loads, and where a vehicle stands. */
#include "envelope_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"

enum { STEPS_PER_SPAN = 50, POSITIONS_MAX = 4000, STANDS_PER_STRIP = 9 };

const char *cw_struct_case_words(int index)
{
    static const char *const words[CW_ENVELOPE_CASES] = {
        "all loads at their greatest", "top greatest, sides least", "top least, sides greatest",
        "full of water, sides least", "flooded ground, box empty"};
    assert(index >= 0 && index < CW_ENVELOPE_CASES);
    return words[index];
}

cw_envelope_factors cw_envelope_factors_of(int state, const cw_rows *rows)
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
    cw_envelope_factors f = {{1.0, 1.0}, {1.0, 1.0}, {1.0, 1.0}, 1.0, 1.0, 1.0};
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

bool cw_envelope_has(int index, const cw_struct_site *site)
{
    return index != CW_ENVELOPE_FLOODED_GROUND || site->ground_water_ft > 0.0;
}

bool cw_envelope_has_traffic(int index)
{
    return index != CW_ENVELOPE_SIDES_MOST && index != CW_ENVELOPE_FLOODED_GROUND;
}

cw_struct_case cw_envelope_case(int index, const cw_struct_box *box, const cw_struct_site *site,
                                const cw_envelope_factors *f)
{
    const bool top_least = index == CW_ENVELOPE_SIDES_MOST || index == CW_ENVELOPE_FLOODED_GROUND;
    const bool sides_least = index == CW_ENVELOPE_TOP_MOST || index == CW_ENVELOPE_FULL_OF_WATER;
    cw_struct_case load = {.weight = f->weight[top_least],
                           .top_psf = f->earth[top_least] * site->earth_psf};
    if (sides_least)
        earth_sides(&load, box, site, f->side[1] * site->least_pcf, 0.0);
    else
        earth_sides(&load, box, site, f->side[0] * site->most_pcf,
                    f->surcharge * site->surcharge_psf);
    if (index == CW_ENVELOPE_FULL_OF_WATER)
        water_inside(&load, box, f->water * site->water_pcf);
    if (index == CW_ENVELOPE_FLOODED_GROUND)
        water_outside(&load, box, site->ground_water_ft, f->water * site->water_pcf);
    return load;
}

/* ---- positions ---- */

cw_envelope_walk cw_envelope_walk_of(const cw_struct_box *box, const cw_struct_wheel *wheel)
{
    cw_envelope_walk walk = {.width_ft = (box->span_in + box->wall_in) / CW_IN_PER_FT};
    const cw_struct_patch first = wheel->patches[0];
    const cw_struct_patch last = wheel->patches[wheel->patch_count - 1];
    walk.step_ft = walk.width_ft / STEPS_PER_SPAN;
    walk.shear_ft = fmin(walk.width_ft / 2.0, (box->wall_in / 2.0 + box->crown_haunch_in +
                                               CW_BOX_SHEAR_DEPTH * box->top_in) /
                                                  CW_IN_PER_FT);
    // Counted from the first strip at mid-span, so that one position is exactly centred.
    walk.origin_ft = walk.width_ft / 2.0 - (first.from_ft + first.to_ft) / 2.0;
    walk.back = (int)ceil((last.to_ft - first.from_ft + walk.width_ft) / walk.step_ft);
    const int ahead = STEPS_PER_SPAN + (int)ceil((first.to_ft - first.from_ft) / walk.step_ft);
    walk.steps = walk.back + ahead + 1;
    walk.steps = walk.steps > POSITIONS_MAX ? POSITIONS_MAX : walk.steps;
    walk.count = walk.steps + STANDS_PER_STRIP * wheel->patch_count;
    return walk;
}

int cw_envelope_place(const cw_envelope_walk *walk, const cw_struct_wheel *wheel, int position,
                      cw_struct_patch *patches)
{
    double shift_ft = walk->origin_ft + (position - walk->back) * walk->step_ft;
    if (position >= walk->steps) {
        // Positions that the steps may miss: each strip centred, and each of its ends at mid-span
        // and at the shear sections, where shear is greatest.
        const int stand = (position - walk->steps) % STANDS_PER_STRIP;
        const cw_struct_patch patch = wheel->patches[(position - walk->steps) / STANDS_PER_STRIP];
        const double at_ft[3] = {walk->width_ft / 2.0, walk->shear_ft,
                                 walk->width_ft - walk->shear_ft};
        const double part_ft[3] = {(patch.from_ft + patch.to_ft) / 2.0, patch.from_ft, patch.to_ft};
        shift_ft = at_ft[stand / 3] - part_ft[stand % 3];
    }
    int count = 0;
    for (int p = 0; p < wheel->patch_count; p++) {
        const cw_struct_patch patch = {wheel->patches[p].from_ft + shift_ft,
                                       wheel->patches[p].to_ft + shift_ft, wheel->patches[p].psf};
        if (patch.to_ft > 0.0 && patch.from_ft < walk->width_ft)
            patches[count++] = patch;
    }
    return count;
}
