/* Outrigger reactions through the whole swing. */
#include "lifting_internal.h"

#include <assert.h>

static const char statics[] = "derived: rigid frame on four supports";
static const char range[] = "common practice: range of mobile cranes";

/* Full turn and a half, so that every swing has a bound. */
enum { STEPS_MAX = 720 };

static const char *const corners[] = {"rear-B", "rear-A", "front-B", "front-A", NULL};

#define TYPE cw_outrigger_input
#define WEIGHT(key, meaning, member)                                                               \
    NUMBER_IN(key, NULL, CW_DIM_LB, 0.0, 2000000.0, NULL, meaning, range, TYPE, member)
#define ARM(key, low, meaning, member)                                                             \
    NUMBER_IN(key, NULL, CW_DIM_FT, low, 100.0, NULL, meaning, range, TYPE, member)

static const cw_field inputs[] = {
    WEIGHT("carrier", "everything that does not turn", carrier_lb),
    ARM("carrier_cg", -50.0, "its centre of gravity forward of the middle of the outriggers",
        carrier_cg_ft),
    WEIGHT("upper", "turning part without counterweight and boom", upper_lb),
    ARM("upper_behind", -20.0, "its centre of gravity behind the slew centre", upper_behind_ft),
    WEIGHT("counterweight", "of the counterweight", counter_lb),
    ARM("counterweight_behind", 0.0, "behind the slew centre", counter_behind_ft),
    WEIGHT("boom_weight", "of the boom", boom_lb),
    ARM("boom_ahead", -20.0, "its centre of gravity ahead of the slew centre", boom_ahead_ft),
    WEIGHT("load", "on the boom head: piece, tackle, block", load_lb),
    NUMBER_IN("radius", "R", CW_DIM_FT, 5.0, 450.0, NULL, "of the load", range, TYPE, radius_ft),
    ARM("slew_behind", -30.0, "slew centre behind the middle of the outriggers", slew_behind_ft),
    NUMBER_IN("spread_along", NULL, CW_DIM_FT, 4.0, 60.0, NULL, "outriggers, front to rear", range,
              TYPE, along_ft),
    NUMBER_IN("spread_across", NULL, CW_DIM_FT, 4.0, 60.0, NULL, "outriggers, side to side", range,
              TYPE, across_ft),
    NUMBER_IN("from", NULL, CW_DIM_DEG, -360.0, 360.0, "0 deg",
              "swing begins, 0 over the rear, positive towards side B", range, TYPE, from_deg),
    NUMBER_IN("to", NULL, CW_DIM_DEG, -360.0, 360.0, "360 deg", "swing ends", range, TYPE, to_deg),
    NUMBER_IN("addition", NULL, CW_DIM_PERCENT, 0.0, 50.0, "@lift.outrigger_elastic",
              "for frames that are not rigid", NULL, TYPE, elastic_percent),
};

#define CORNER(key, place)                                                                         \
    OUT(key, NULL, CW_DIM_LB, "greatest over the swing", cw_outriggers, corner_lb[place])

static const cw_field outputs[] = {
    FLAG_OUT("stands", "at no place do two corners lift", cw_outriggers, stands),
    OUT("peak", NULL, CW_DIM_LB, "greatest of all, with the addition", cw_outriggers, peak_lb),
    OUT("peak_at", NULL, CW_DIM_DEG, "slew where it occurs", cw_outriggers, peak_deg),
    CHOICE_OUT("peak_corner", corners, "where it occurs", cw_outriggers, corner),
    CORNER("rear_B", CW_CORNER_REAR_B),
    CORNER("rear_A", CW_CORNER_REAR_A),
    CORNER("front_B", CW_CORNER_FRONT_B),
    CORNER("front_A", CW_CORNER_FRONT_A),
    OUT("empty_peak", NULL, CW_DIM_LB, "greatest without the load, same boom", cw_outriggers,
        empty_peak_lb),
    FLAG_OUT("lifts", "a corner carries nothing somewhere", cw_outriggers, lifts),
    CHOICE_OUT("check", cw_verdict_words, "undecided where a corner carries nothing", cw_outriggers,
               verdict),
};

/* A corner that would pull is let go: its share goes to the corner across, and the two beside it
 * lose as much, which keeps the sum and both moments.  False when a second one would pull. */
static bool rebalance(double corner_lb[CW_CORNERS], bool *lifts)
{
    static const int across[CW_CORNERS] = {CW_CORNER_FRONT_A, CW_CORNER_FRONT_B, CW_CORNER_REAR_A,
                                           CW_CORNER_REAR_B};
    int low = 0;
    for (int i = 1; i < CW_CORNERS; i++)
        if (corner_lb[i] < corner_lb[low])
            low = i;
    if (corner_lb[low] >= 0.0)
        return true;
    const double pull_lb = -corner_lb[low];
    *lifts = true;
    for (int i = 0; i < CW_CORNERS; i++)
        corner_lb[i] += i == low || i == across[low] ? pull_lb : -pull_lb;
    corner_lb[low] = 0.0;
    for (int i = 0; i < CW_CORNERS; i++)
        if (corner_lb[i] < 0.0)
            return false;
    return true;
}

static bool corners_at(const cw_outrigger_input *in, double load_lb, double slew_deg,
                       double corner_lb[CW_CORNERS], bool *lifts)
{
    const double turn = slew_deg * CW_RAD_PER_DEG;
    const double upper_lb = in->upper_lb + in->counter_lb + in->boom_lb + load_lb;
    const double moment = in->boom_lb * in->boom_ahead_ft + load_lb * in->radius_ft -
                          in->upper_lb * in->upper_behind_ft -
                          in->counter_lb * in->counter_behind_ft;
    const double along =
        moment * cos(turn) + upper_lb * in->slew_behind_ft - in->carrier_lb * in->carrier_cg_ft;
    const double across = moment * sin(turn);
    for (int i = 0; i < CW_CORNERS; i++) {
        const double rear = i < CW_CORNER_FRONT_B ? 1.0 : -1.0, side_b = i % 2 == 0 ? 1.0 : -1.0;
        corner_lb[i] = (upper_lb + in->carrier_lb) / 4.0 + rear * along / (2.0 * in->along_ft) +
                       side_b * across / (2.0 * in->across_ft);
    }
    return rebalance(corner_lb, lifts);
}

static void sweep(const cw_outrigger_input *in, double load_lb, cw_outriggers *out)
{
    const double turn_deg = in->to_deg - in->from_deg;
    const int steps = cw_count_up(fabs(turn_deg));
    assert(steps <= STEPS_MAX);
    out->stands = true;
    for (int s = 0; s <= steps; s++) {
        const double at_deg = in->from_deg + (steps > 0 ? turn_deg * s / steps : 0.0);
        double corner_lb[CW_CORNERS];
        if (!corners_at(in, load_lb, at_deg, corner_lb, &out->lifts))
            out->stands = false;
        for (int i = 0; i < CW_CORNERS; i++) {
            if (s == 0)
                out->start_lb[i] = corner_lb[i];
            out->corner_lb[i] = fmax(out->corner_lb[i], corner_lb[i]);
            if (corner_lb[i] > out->peak_lb) {
                out->peak_lb = corner_lb[i];
                out->peak_deg = at_deg;
                out->corner = i;
            }
        }
    }
}

cw_outriggers cw_lifting_outriggers(const cw_outrigger_input *in, cw_working *w)
{
    cw_outriggers out = {0}, empty = {0};
    const double more = 1.0 + in->elastic_percent / CW_PERCENT;
    sweep(in, in->load_lb, &out);
    sweep(in, 0.0, &empty);
    out.stands = out.stands && empty.stands;
    out.lifts = out.lifts || empty.lifts;
    cw_step_add(w, "M_u", "load R + boom - upper - counterweight",
                in->load_lb * in->radius_ft + in->boom_lb * in->boom_ahead_ft -
                    in->upper_lb * in->upper_behind_ft - in->counter_lb * in->counter_behind_ft,
                CW_DIM_FT_LB, "closed form: statics");
    cw_step_add(w, "V", "everything",
                in->carrier_lb + in->upper_lb + in->counter_lb + in->boom_lb + in->load_lb,
                CW_DIM_LB, "definition");
    cw_step_add(w, "V_c",
                "V/4 +- M_l/(2 spread along) +- M_t/(2 spread across), greatest over the swing",
                out.peak_lb, CW_DIM_LB, statics);
    out.peak_lb = cw_step_add(w, "peak", "V_c (1 + addition)", out.peak_lb * more, CW_DIM_LB,
                              "common practice: frames are not rigid");
    out.empty_peak_lb = empty.peak_lb * more;
    out.verdict = !out.stands ? CW_FAILS : out.lifts ? CW_UNDECIDED : CW_HOLDS;
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_outriggers *)output = cw_lifting_outriggers(input, working);
}

const cw_calc cw_calc_outriggers = {
    .name = "outriggers",
    .title = "Outrigger reactions through the swing",
    .group = "lifting",
    .about =
        "A rigid crane on four supports, turned degree by degree from truck to landing, loaded and "
        "empty.  A corner that would lift is let go and the others rebalanced; when two would lift "
        "the crane tips.  The maker's own reactions govern where he gives them.  Size the mats for "
        "the peak (crane-mat).  Not considered: slope, wind, swing forces, soft corners.",
    .source = "derived: rigid frame on four supports",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_outrigger_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_outriggers),
    .run = run,
    .example = "carrier=80kip carrier_cg=3ft upper=30kip upper_behind=3ft counterweight=66kip "
               "counterweight_behind=14ft boom_weight=30kip boom_ahead=24ft load=58kip radius=38ft "
               "slew_behind=1.5ft spread_along=28ft spread_across=27ft",
};
