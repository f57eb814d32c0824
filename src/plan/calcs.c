/* All calculators, in the order of the manual. */
#include "cw/plan.h"

#include <string.h>

static const cw_calc *const all[] = {
    &cw_calc_run_length,    &cw_calc_slope_length, &cw_calc_round_up,       &cw_calc_joint_grade,
    &cw_calc_joint_place,   &cw_calc_cover,        &cw_calc_bend,           &cw_calc_barrel_offset,
    &cw_calc_skew_end,      &cw_calc_headwall,     &cw_calc_section_area,   &cw_calc_box_weight_per_foot,
    &cw_calc_piece_weight,  &cw_calc_piece_cg,     &cw_calc_skew_end_weight, &cw_calc_sealant_length,
    &cw_calc_wrap_length,   &cw_calc_bedding,      &cw_calc_barrel_fill,    &cw_calc_truck_loads,
};

const cw_calcs cw_calcs_all = {all, (int)(sizeof all / sizeof all[0])};

const cw_calc *cw_calc_find(const char *name)
{
    for (int i = 0; i < cw_calcs_all.count; i++)
        if (strcmp(cw_calcs_all.items[i]->name, name) == 0)
            return cw_calcs_all.items[i];
    return NULL;
}
