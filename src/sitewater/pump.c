#include "sitewater_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

#define FT_PER_STEP_OF_ALTITUDE 1000.0

static const char hazen[] = "Hazen-Williams in ft, gpm and in (from memory, not verified)";
static const char power[] = "closed form: weight of water lifted in a second";
static const char practice[] = "common practice";

static const char *const standbys[] = {"one", "all", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_pump_input, member)

static const cw_field inputs[] = {
    IN("flow", "Q", CW_DIM_CFS, 0.001, 500.0, NULL, "to be pumped", practice, flow_cfs),
    IN("pump_capacity", "Q_1", CW_DIM_CFS, 0.001, 200.0, NULL,
       "of one pump at the total head, from its curve", practice, pump_cfs),
    IN("lift", "h", CW_DIM_FT, 0.0, 300.0, NULL, "water in the sump to the end of the hose",
       practice, lift_ft),
    IN("hose", "L", CW_DIM_FT, 0.0, 10000.0, "0 ft", "length of the hose of one pump", practice,
       hose_ft),
    IN("hose_diameter", "d", CW_DIM_IN, 0.0, 48.0, "0 in", "its clear diameter", practice, hose_in),
    IN("hose_c", "C", CW_DIM_NONE, 60.0, 160.0, "@pump.hose_c", "Hazen-Williams C", NULL, hose_c),
    IN("other_losses", "h_o", CW_DIM_FT, 0.0, 100.0, "0 ft", "bends, valves, strainer", practice,
       other_ft),
    IN("efficiency", "e", CW_DIM_PERCENT, 10.0, 95.0, "@pump.efficiency",
       "of the pump and its couplings", NULL, efficiency_percent),
    CHOICE_IN("standby", standbys, "one",
              "one spare for the largest pump, or spares for all of the flow", practice,
              cw_pump_input, standby),
    IN("suction", "h_s", CW_DIM_FT, 0.0, 40.0, "0 ft", "suction lift; 0 for a pump in water",
       practice, suction_ft),
    IN("altitude", "z", CW_DIM_FT, 0.0, 14000.0, "0 ft", "of the site above the sea", practice,
       site_ft),
};

static const cw_field outputs[] = {
    COUNT_OUT("duty", NULL, "pumps that run", cw_pump, duty),
    COUNT_OUT("spare", NULL, "on site and working", cw_pump, standby),
    COUNT_OUT("pumps", NULL, "in all", cw_pump, pumps),
    OUT("each", "q", CW_DIM_CFS, "flow of one pump", cw_pump, each_cfs),
    OUT("hose_loss", "h_f", CW_DIM_FT, "in one hose", cw_pump, hose_loss_ft),
    OUT("head", "H", CW_DIM_FT, "total head", cw_pump, head_ft),
    OUT("power", "P", CW_DIM_HP, "all that run", cw_pump, power_hp),
    OUT("power_each", "P_1", CW_DIM_HP, "one of them", cw_pump, each_hp),
    OUT("suction_limit", NULL, CW_DIM_FT, "suction lift to plan for at the site", cw_pump,
        suction_limit_ft),
    CHOICE_OUT("suction_check", cw_verdict_words, "suction lift against that", cw_pump, suction),
};

bool cw_pump_input_valid(const cw_pump_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    bool good = true;
    if (in->hose_ft > 0.0 && !(in->hose_in > 0.0)) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "the hose is %.6g ft long and has no diameter; give hose_diameter",
                    in->hose_ft);
        good = false;
    }
    if (!(in->lift_ft + in->hose_ft + in->other_ft > 0.0)) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "lift, hose and other losses are all 0 ft: there is nothing to pump against; "
                    "give the lift");
        good = false;
    }
    return good;
}

double cw_sitewater_hose_loss_ft(double length_ft, double diameter_in, double flow_cfs,
                                 double hazen_c)
{
    const double gpm = flow_cfs / CW_CFS_PER_GPM;
    return 10.44 * length_ft * pow(gpm / hazen_c, 1.852) / pow(diameter_in, 4.8655);
}

static double power_hp(const cw_pump_input *in, const cw_rows *rows, double flow_cfs,
                       double head_ft)
{
    return cw_rows_value(rows, "material.water") * flow_cfs * head_ft /
           (CW_FT_LB_PER_S_PER_HP * in->efficiency_percent / CW_PERCENT);
}

cw_pump cw_sitewater_pump(const cw_pump_input *in, const cw_rows *rows, cw_working *working)
{
    // The slack keeps an exact multiple from asking for one pump more.
    const double ratio = in->flow_cfs / in->pump_cfs;
    cw_pump out = {.duty = (int)ceil(ratio * (1.0 - CW_RATIO_SLACK))};
    cw_step_add(working, "N", "Q / Q_1, rounded up", out.duty, CW_DIM_COUNT, practice);
    out.standby = in->standby == CW_STANDBY_ALL ? out.duty : 1;
    out.pumps = out.duty + out.standby;
    out.each_cfs =
        cw_step_add(working, "q", "Q / N", in->flow_cfs / out.duty, CW_DIM_CFS, practice);
    if (in->hose_ft > 0.0)
        out.hose_loss_ft = cw_step_add(
            working, "h_f", "10.44 L q^1.852 / (C^1.852 d^4.8655), q in gpm, d in inches",
            cw_sitewater_hose_loss_ft(in->hose_ft, in->hose_in, out.each_cfs, in->hose_c),
            CW_DIM_FT, hazen);
    out.head_ft = cw_step_add(working, "H", "h + h_f + h_o",
                              in->lift_ft + out.hose_loss_ft + in->other_ft, CW_DIM_FT, practice);
    out.power_hp =
        cw_step_add(working, "P", "g_w Q H / (550 e), g_w weight of a cubic foot of water",
                    power_hp(in, rows, in->flow_cfs, out.head_ft), CW_DIM_HP, power);
    out.each_hp = cw_step_add(working, "P_1", "P / N", out.power_hp / out.duty, CW_DIM_HP, power);
    const double lost_ft =
        cw_rows_value(rows, "pump.suction_per_1000ft") * in->site_ft / FT_PER_STEP_OF_ALTITUDE;
    out.suction_limit_ft =
        cw_step_add(working, "h_m", "lift at sea level less the loss by altitude",
                    fmax(0.0, cw_rows_value(rows, "pump.suction") - lost_ft), CW_DIM_FT, practice);
    out.suction = cw_meets(in->suction_ft, out.suction_limit_ft) ? CW_HOLDS : CW_FAILS;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_pump_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_pump *)output = cw_sitewater_pump(input, &cw_data, working);
}

const cw_calc cw_calc_pump_set = {
    .name = "pump-set",
    .title = "Pumps for a bypass or a sump",
    .group = "sitewater",
    .about = "Number of pumps with spares, total head and power at the shaft.  The capacity of one "
             "pump must be read from its curve at the total head: run this twice.  Starting, "
             "priming and clogging are not considered.",
    .source = "closed form: weight of water lifted in a second; hose by Hazen-Williams",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_pump_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_pump),
    .valid = valid,
    .run = run,
    .example = "flow=4000gpm pump_capacity=2200gpm lift=22ft hose=500ft hose_diameter=12in",
};
