#include "structures_internal.h"

const char *const cw_struct_forms[] = {"lid", "double-u", "ring", NULL};
const char *const cw_struct_grounds[] = {"uniform", "springs", NULL};
const char *const cw_struct_rules[] = {"box", "plain", "fine-soil", NULL};
const char *const cw_struct_machines[] = {"truck", "tandem", "axles", "tracks", NULL};
const char *const cw_struct_phis[] = {"box", "three-sided", "cast", NULL};

bool cw_struct_positive(const char *key, double value, cw_dim dim, cw_pos where, cw_diags *diags)
{
    if (value > 0.0)
        return true;
    cw_diag_add(diags, where, CW_E_MISSING, "%s is %.6g %s; give a value above 0", key, value,
                cw_dim_unit(dim));
    return false;
}

bool cw_struct_depth_fits(double depth_in, double thickness_in, cw_pos where, cw_diags *diags)
{
    if (depth_in < thickness_in && depth_in > thickness_in / 2.0)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "steel %.6g in from the compression face is not in the tension half of a section "
                "%.6g in thick; give a depth between %.6g and %.6g in",
                depth_in, thickness_in, thickness_in / 2.0, thickness_in);
    return false;
}
