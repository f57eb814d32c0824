/* How fast: learning, the rate that the pieces set so far show, and the line of a box cast in
 * place. */
#include "schedule_internal.h"

#include <math.h>

static const char range[] = "common practice: range of setting times";
static const char curve[] = "learning curve: power law of the count";

/* ---- learning ---- */

static const char *const forms[] = {"unit", "average", NULL};

static const cw_field learning_inputs[] = {
    NUMBER_IN("first", "T_1", CW_DIM_MIN, 1.0, 1440.0, NULL, "time of the first piece", range,
              cw_learning_input, first_min),
    NUMBER_IN("ratio", "r", CW_DIM_NONE, 0.6, 1.0, NULL, "left after each doubling of the count",
              curve, cw_learning_input, ratio),
    COUNT_IN("pieces", "n", 1, 2000, NULL, "set one after the other", range, cw_learning_input,
             pieces),
    CHOICE_IN("form", forms, "unit",
              "unit: the time of the piece falls by r; average: the average so far does", curve,
              cw_learning_input, form),
    NUMBER_IN("least", "T_min", CW_DIM_MIN, 0.0, 1440.0, "0 min", "no piece takes less", range,
              cw_learning_input, least_min),
};

static const cw_field learning_outputs[] = {
    OUT("total", NULL, CW_DIM_MIN, "of all pieces", cw_learning, total_min),
    OUT("last", "T_n", CW_DIM_MIN, "time of the last piece", cw_learning, last_min),
    OUT("average", NULL, CW_DIM_MIN, "of all pieces", cw_learning, mean_min),
};

cw_learning cw_schedule_learning(const cw_learning_input *in, cw_working *w)
{
    cw_learning out = {0};
    const double b = cw_step_add(w, "b", "log2 r", log2(in->ratio), CW_DIM_NONE, curve);
    double before = 0.0; // total of the pieces so far by the law itself
    for (int k = 1; k <= in->pieces; k++) {
        double time = in->first_min * pow(k, b);
        if (in->form == CW_LEARNING_AVERAGE) {
            const double total = k * time;
            time = total - before;
            before = total;
        }
        out.last_min = fmax(in->least_min, time);
        out.total_min += out.last_min;
    }
    cw_step_add(w, "T_n", in->form == CW_LEARNING_UNIT ? "T_1 n^b" : "T_1 (n^(b+1) - (n-1)^(b+1))",
                out.last_min, CW_DIM_MIN, curve);
    cw_step_add(w, "total", "sum of T_k, none below T_min", out.total_min, CW_DIM_MIN, curve);
    out.mean_min =
        cw_step_add(w, "average", "total/n", out.total_min / in->pieces, CW_DIM_MIN, curve);
    return out;
}

static void run_learning(const void *input, void *output, cw_working *working)
{
    *(cw_learning *)output = cw_schedule_learning(input, working);
}

const cw_calc cw_calc_learning = {
    .name = "learning",
    .title = "Setting time that falls with practice",
    .group = "schedule",
    .about = "Says which of the two forms it uses, since the same ratio gives different totals.  "
             "After a long break part "
             "of it is lost.",
    .source = "learning curve: power law of the count",
    .inputs = learning_inputs,
    .input_count = COUNT(learning_inputs),
    .input_size = sizeof(cw_learning_input),
    .outputs = learning_outputs,
    .output_count = COUNT(learning_outputs),
    .output_size = sizeof(cw_learning),
    .run = run_learning,
    .example = "first=30min ratio=0.9 pieces=12",
};

/* ---- rate so far ---- */

static const char posterior[] =
    "statistics: mean of a normal rate after observation, prior worth so many pieces";

static const cw_field rate_inputs[] = {
    NUMBER_IN("expected", "m_0", CW_DIM_MIN, 1.0, 1440.0, NULL,
              "for a piece, before the work began", range, cw_setting_rate_input, expected_min),
    NUMBER_IN("weight", "n_0", CW_DIM_NONE, 0.0, 100.0, "4",
              "how many pieces that opinion is worth", "common practice", cw_setting_rate_input,
              weight_pieces),
    COUNT_IN("set", "n", 1, 5000, NULL, "pieces set so far", range, cw_setting_rate_input, set),
    NUMBER_IN("average", "x", CW_DIM_MIN, 1.0, 1440.0, NULL, "time that they took", range,
              cw_setting_rate_input, average_min),
    COUNT_IN("left", NULL, 0, 5000, "0", "pieces still to set", range, cw_setting_rate_input, left),
};

static const cw_field rate_outputs[] = {
    OUT("rate", NULL, CW_DIM_MIN, "to expect for the next piece", cw_setting_rate, rate_min),
    OUT("time_left", NULL, CW_DIM_HOUR, "of setting", cw_setting_rate, left_min),
};

cw_setting_rate cw_schedule_setting_rate(const cw_setting_rate_input *in, cw_working *w)
{
    cw_setting_rate out = {0};
    const double weight = in->weight_pieces + in->set;
    out.rate_min =
        cw_step_add(w, "m", "(n_0 m_0 + n x)/(n_0 + n)",
                    (in->weight_pieces * in->expected_min + in->set * in->average_min) / weight,
                    CW_DIM_MIN, posterior);
    out.left_min =
        cw_step_add(w, "left", "pieces left times m", in->left * out.rate_min / CW_MIN_PER_HOUR,
                    CW_DIM_HOUR, "derived: product");
    return out;
}

static void run_rate(const void *input, void *output, cw_working *working)
{
    *(cw_setting_rate *)output = cw_schedule_setting_rate(input, working);
}

const cw_calc cw_calc_setting_rate = {
    .name = "setting-rate",
    .title = "Setting rate to expect from what has been set",
    .group = "schedule",
    .about = "Keeps the opinion from before the work until the pieces outweigh it: a few bad "
             "pieces do not overturn the "
             "schedule, and many do.",
    .source = "statistics: posterior mean",
    .inputs = rate_inputs,
    .input_count = COUNT(rate_inputs),
    .input_size = sizeof(cw_setting_rate_input),
    .outputs = rate_outputs,
    .output_count = COUNT(rate_outputs),
    .output_size = sizeof(cw_setting_rate),
    .run = run_rate,
    .example = "expected=25min weight=4 set=6 average=31min left=14",
};

/* ---- cast in place ---- */

#define TYPE cw_cast_line_input
#define DAYS_IN(key, fallback, meaning, member)                                                    \
    NUMBER_IN(key, NULL, CW_DIM_NONE, 0.0, 120.0, fallback, meaning,                               \
              "common practice: range of stages", TYPE, member)

static const cw_field line_inputs[] = {
    COUNT_IN("segments", "S", 1, 200, NULL, "along the box, one after the other", "common practice",
             TYPE, segments),
    DAYS_IN("base_days", "4", "working days of a base: form, bar, pour", base_days),
    DAYS_IN("base_wait", "1", "until the wall may stand on it", base_wait_days),
    DAYS_IN("wall_days", "5", "of the walls", wall_days),
    DAYS_IN("wall_wait", "2", "until the top may rest on them", wall_wait_days),
    DAYS_IN("top_days", "6", "of the top: falsework, form, bar, pour", top_days),
    DAYS_IN("strip_days", "6", "cure and strip before the forms move on", strip_days),
};

static const cw_field line_outputs[] = {
    OUT("base_end", NULL, CW_DIM_NONE, "working days to the last base", cw_cast_line,
        base_end_days),
    OUT("wall_end", NULL, CW_DIM_NONE, "to the last wall", cw_cast_line, wall_end_days),
    OUT("top_end", NULL, CW_DIM_NONE, "to the last top", cw_cast_line, top_end_days),
    OUT("days", NULL, CW_DIM_NONE, "until the last forms are off", cw_cast_line, days),
};

cw_cast_line cw_schedule_cast_line(const cw_cast_line_input *in, cw_working *w)
{
    cw_cast_line out = {0};
    for (int i = 0; i < in->segments; i++) {
        out.base_end_days += in->base_days;
        out.wall_end_days =
            fmax(out.wall_end_days, out.base_end_days + in->base_wait_days) + in->wall_days;
        out.top_end_days = fmax(out.wall_end_days + in->wall_wait_days, out.days) + in->top_days;
        out.days = out.top_end_days + in->strip_days;
    }
    static const char how[] = "derived: a crew for each stage, one set of top forms";
    cw_step_add(w, "base", "each after the one before", out.base_end_days, CW_DIM_NONE, how);
    cw_step_add(w, "wall", "after the wall before and its base", out.wall_end_days, CW_DIM_NONE,
                how);
    cw_step_add(w, "top", "after its walls, when the forms are free", out.top_end_days, CW_DIM_NONE,
                how);
    cw_step_add(w, "days", "and the last forms off", out.days, CW_DIM_NONE, how);
    return out;
}

static void run_line(const void *input, void *output, cw_working *working)
{
    *(cw_cast_line *)output = cw_schedule_cast_line(input, working);
}

const cw_calc cw_calc_cast_line = {
    .name = "cast-line",
    .title = "Working days of a box cast in place",
    .group = "schedule",
    .about = "Segments in a line of three stages with a crew each and one set of top forms.  All "
             "days are the "
             "contractor's; weather, water and winter are not counted.",
    .source = "derived: line of stages",
    .inputs = line_inputs,
    .input_count = COUNT(line_inputs),
    .input_size = sizeof(TYPE),
    .outputs = line_outputs,
    .output_count = COUNT(line_outputs),
    .output_size = sizeof(cw_cast_line),
    .run = run_line,
    .example = "segments=3",
};
