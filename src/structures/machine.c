/* Machines as calculators take them, and the design vehicles. */
#include "structures_internal.h"

#include "cw/units.h"

cw_struct_vehicle cw_struct_design_vehicle(cw_struct_machine machine, const cw_rows *rows)
{
    cw_struct_vehicle out = {.gauge_ft = cw_rows_value(rows, "structure.gauge"),
                             .patch_width_in = cw_rows_value(rows, "structure.tire.width"),
                             .patch_length_in = cw_rows_value(rows, "structure.tire.length"),
                             .presence = cw_rows_value(rows, "structure.presence"),
                             .impact = true};
    if (machine == CW_STRUCT_TANDEM) {
        out.axles = 2;
        out.axle_lb[0] = out.axle_lb[1] = cw_rows_value(rows, "structure.tandem.axle");
        out.at_ft[1] = cw_rows_value(rows, "structure.tandem.spacing");
        return out;
    }
    out.axles = 3;
    out.axle_lb[0] = cw_rows_value(rows, "structure.truck.front");
    out.axle_lb[1] = out.axle_lb[2] = cw_rows_value(rows, "structure.truck.rear");
    out.at_ft[1] = cw_rows_value(rows, "structure.truck.spacing");
    out.at_ft[2] = 2.0 * out.at_ft[1];
    return out;
}

void cw_struct_vehicle_axles(cw_struct_vehicle *vehicle, const cw_list *axles_lb,
                             const cw_list *spacing_ft)
{
    vehicle->axles = axles_lb->count;
    vehicle->at_ft[0] = 0.0;
    for (int i = 0; i < vehicle->axles; i++)
        vehicle->axle_lb[i] = axles_lb->items[i];
    for (int i = 1; i < vehicle->axles; i++)
        vehicle->at_ft[i] = vehicle->at_ft[i - 1] + spacing_ft->items[i - 1];
}

static bool axles_valid(const cw_struct_machine_input *in, cw_pos where, cw_diags *diags)
{
    const int axles = in->axles_lb.count;
    bool good = true;
    if (axles < 1 || axles > CW_STRUCT_AXLES_MAX) {
        cw_diag_add(diags, where, axles < 1 ? CW_E_MISSING : CW_E_TOO_MANY,
                    "axles has %d loads; give 1 to %d for this machine", axles,
                    (int)CW_STRUCT_AXLES_MAX);
        good = false;
    }
    if (axles >= 1 && in->spacing_ft.count != axles - 1) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "spacing has %d distances for %d axles; give %d, one between each two",
                    in->spacing_ft.count, axles, axles - 1);
        good = false;
    }
    return good;
}

bool cw_struct_machine_valid(const cw_struct_machine_input *in, cw_pos where, cw_diags *diags)
{
    if (in->machine == CW_STRUCT_AXLE_LIST)
        return axles_valid(in, where, diags);
    if (in->machine != CW_STRUCT_TRACKS)
        return true;
    bool good = cw_struct_positive("machine_weight", in->weight_lb, CW_DIM_LB, where, diags);
    good = cw_struct_positive("gauge", in->gauge_ft, CW_DIM_FT, where, diags) && good;
    good = cw_struct_positive("patch_width", in->patch_width_in, CW_DIM_IN, where, diags) && good;
    good = cw_struct_positive("patch_length", in->patch_length_in, CW_DIM_IN, where, diags) && good;
    if (good && in->gauge_ft * CW_IN_PER_FT < in->patch_width_in) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "tracks %.6g in wide overlap at a gauge of %.6g ft; give the gauge between "
                    "their centres",
                    in->patch_width_in, in->gauge_ft);
        good = false;
    }
    return good;
}

cw_struct_vehicle cw_struct_machine_vehicle(const cw_struct_machine_input *in, const cw_rows *rows)
{
    cw_struct_vehicle out = cw_struct_design_vehicle((cw_struct_machine)in->machine, rows);
    out.presence = in->presence;
    out.impact = in->impact;
    if (in->machine == CW_STRUCT_AXLE_LIST)
        cw_struct_vehicle_axles(&out, &in->axles_lb, &in->spacing_ft);
    if (in->machine == CW_STRUCT_TRACKS) {
        out.axles = 1;
        out.axle_lb[0] = in->weight_lb;
    }
    if (in->gauge_ft > 0.0)
        out.gauge_ft = in->gauge_ft;
    if (in->patch_width_in > 0.0)
        out.patch_width_in = in->patch_width_in;
    if (in->patch_length_in > 0.0)
        out.patch_length_in = in->patch_length_in;
    return out;
}
