#include "takeoff_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"

static const char path[] = "derived: path on the centre line of the tongue";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

static const char *const forms[] = {"lid", "double-u", "ring", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_sealant_input, member)

static const cw_field inputs[] = {
    {"form", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0.0, 0.0, "lid", false,
     "base and flat lid, base and hood, or closed ring", NULL, forms,
     offsetof(cw_sealant_input, form), CW_NO_FLAG},
    IN("span", "S", CW_DIM_IN, 18.0, 720.0, NULL, "clear width", range, span_in),
    IN("wall", "t", CW_DIM_IN, 3.0, 60.0, NULL, "wall thickness", range, wall_in),
    IN("floor", "t_f", CW_DIM_IN, 3.0, 60.0, NULL, "floor thickness", range, floor_in),
    IN("top", "t_t", CW_DIM_IN, 3.0, 60.0, NULL, "thickness of lid, crown or top slab", range,
       top_in),
    IN("leg", "R", CW_DIM_IN, 1.0, 360.0, NULL, "clear height of the base wall", range, leg_in),
    IN("top_leg", "R_t", CW_DIM_IN, 0.0, 360.0, "0 in", "double-u: clear height of the hood's wall",
       range, top_leg_in),
    COUNT_IN("base_joints", "n_b", 0.0, 2000.0, NULL,
             "transverse joints of bases or rings, all barrels", range, cw_sealant_input,
             base_joints),
    COUNT_IN("top_joints", "n_t", 0.0, 2000.0, "0",
             "transverse joints of lids or hoods, all barrels", range, cw_sealant_input,
             top_joints),
    IN("seat", "L_s", CW_DIM_FT, 0.0, 20000.0, "0 ft",
       "length of one seat line, on one wall, all barrels added", range, seat_ft),
    COUNT_IN("rows", NULL, 0.0, 4.0, "1", "rows of sealant in a transverse joint", practice,
             cw_sealant_input, rows),
    COUNT_IN("seat_rows", NULL, 0.0, 4.0, "1", "rows of sealant in a seat", practice,
             cw_sealant_input, seat_rows),
    IN("roll", NULL, CW_DIM_FT, 1.0, 500.0, "14.5 ft", "length of a roll as delivered", practice,
       roll_ft),
    IN("splice", NULL, CW_DIM_IN, 0.0, 24.0, "0 in", "lost where two rolls meet", practice,
       splice_in),
    IN("waste", NULL, CW_DIM_PERCENT, 0.0, 50.0, "8 percent", "waste, on top of splices", practice,
       waste_percent),
};

static const cw_field outputs[] = {
    OUT("base_joint", "L_b", CW_DIM_FT, "one row round one base or ring joint", cw_sealant,
        base_joint_ft),
    OUT("top_joint", "L_t", CW_DIM_FT, "one row along one lid or hood joint", cw_sealant,
        top_joint_ft),
    OUT("base_total", NULL, CW_DIM_FT, "base or ring joints, all rows", cw_sealant, base_ft),
    OUT("top_total", NULL, CW_DIM_FT, "lid or hood joints, all rows", cw_sealant, top_ft),
    OUT("seat_total", NULL, CW_DIM_FT, "seats on both walls, all rows", cw_sealant, seat_ft),
    OUT("net", NULL, CW_DIM_FT, "laid length", cw_sealant, net_ft),
    COUNT_OUT("splices", NULL, "butts of roll to roll", cw_sealant, splices),
    OUT("order", NULL, CW_DIM_FT, "with splices and waste, not rounded", cw_sealant, length.exact),
    COUNT_OUT("rolls", NULL, "rolls to buy, rounded up", cw_sealant, rolls),
    OUT("bought", NULL, CW_DIM_FT, "length of those rolls", cw_sealant, bought_ft),
};

bool cw_sealant_input_valid(const cw_sealant_input *input, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), input, where, diags))
        return false;
    if (input->form == CW_TAKEOFF_DOUBLE_U && !(input->top_leg_in > 0.0)) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "a hood needs walls: top_leg is %.6g in; give its clear height or choose lid",
                    input->top_leg_in);
        return false;
    }
    return true;
}

/* A U over one slab: (S + t) + 2 (R + t_s/2), in ft. */
static double u_path_ft(const cw_sealant_input *in, double leg_in, double slab_in)
{
    return (in->span_in + in->wall_in + 2.0 * leg_in + slab_in) / CW_IN_PER_FT;
}

static double base_path_ft(const cw_sealant_input *in, cw_working *working)
{
    if (in->form == CW_TAKEOFF_RING) {
        const double loop_in =
            2.0 * (in->span_in + in->wall_in + in->leg_in) + in->floor_in + in->top_in;
        return cw_step_add(working, "L_b", "2 (S + t) + 2 (R + t_f/2 + t_t/2), closed loop",
                           loop_in / CW_IN_PER_FT, CW_DIM_FT, path);
    }
    return cw_step_add(working, "L_b", "(S + t) + 2 (R + t_f/2)",
                       u_path_ft(in, in->leg_in, in->floor_in), CW_DIM_FT, path);
}

static double top_path_ft(const cw_sealant_input *in, cw_working *working)
{
    if (in->form == CW_TAKEOFF_RING)
        return 0.0;
    if (in->form == CW_TAKEOFF_DOUBLE_U)
        return cw_step_add(working, "L_t", "(S + t) + 2 (R_t + t_t/2)",
                           u_path_ft(in, in->top_leg_in, in->top_in), CW_DIM_FT, path);
    return cw_step_add(working, "L_t", "S + t", (in->span_in + in->wall_in) / CW_IN_PER_FT,
                       CW_DIM_FT, path);
}

cw_sealant cw_takeoff_sealant(const cw_sealant_input *input, cw_working *working)
{
    assert(input->roll_ft > 0.0);
    const bool ring = input->form == CW_TAKEOFF_RING;
    cw_sealant out = {.base_joint_ft = base_path_ft(input, working),
                      .top_joint_ft = top_path_ft(input, working)};
    out.base_ft =
        cw_step_add(working, "B", "n_b L_b rows",
                    input->base_joints * out.base_joint_ft * input->rows, CW_DIM_FT, path);
    out.top_ft = cw_step_add(working, "T", "n_t L_t rows",
                             ring ? 0.0 : input->top_joints * out.top_joint_ft * input->rows,
                             CW_DIM_FT, path);
    out.seat_ft =
        cw_step_add(working, "Q", "2 L_s seat rows, both walls",
                    ring ? 0.0 : 2.0 * input->seat_ft * input->seat_rows, CW_DIM_FT, path);
    out.net_ft = cw_step_add(working, "N", "B + T + Q", out.base_ft + out.top_ft + out.seat_ft,
                             CW_DIM_FT, path);
    const int rolls_laid =
        (int)(cw_takeoff_order(out.net_ft, input->roll_ft).up / input->roll_ft + 0.5);
    out.splices = rolls_laid > 1 ? rolls_laid - 1 : 0;
    const double spliced_ft = out.net_ft + out.splices * input->splice_in / CW_IN_PER_FT;
    const double exact_ft = cw_step_add(working, "O", "(N + splices x length lost) (1 + waste)",
                                        spliced_ft * cw_takeoff_with_percent(input->waste_percent),
                                        CW_DIM_FT, practice);
    out.length = cw_takeoff_order(exact_ft, input->roll_ft);
    out.rolls = (int)(out.length.up / input->roll_ft + 0.5);
    out.bought_ft = out.length.up;
    cw_step_add(working, "rolls", "O / roll, rounded up", out.rolls, CW_DIM_COUNT, practice);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_sealant_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_sealant *)output = cw_takeoff_sealant(input, working);
}

const cw_calc cw_calc_sealant_length = {
    .name = "sealant-length",
    .title = "Joint sealant",
    .group = "takeoff",
    .about =
        "Length and rolls of preformed sealant for transverse joints and the seat of the top.  "
        "Joints at headwall collars and patches where seat and joint meet are not counted.",
    .source = "derived: path on the centre line of the tongue",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_sealant_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_sealant),
    .valid = valid,
    .run = run,
    .example = "form=lid span=12ft wall=10in floor=10in top=10in leg=6ft "
               "base_joints=19 top_joints=19 seat=1450in roll=14.5ft "
               "waste=8%",
};
