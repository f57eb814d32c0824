#include "trench_internal.h"

#include "cw/tolerance.h"

static const char rule[] = "29 CFR 1926.651(c)(2)";
static const char range[] = "common practice: range of culvert trenches";

#define TYPE cw_egress_input

static const cw_field inputs[] = {
    NUMBER_IN("depth", "D", CW_DIM_FT, 0.5, 60.0, NULL, "of the trench", range, TYPE, depth_ft),
    NUMBER_IN("length", "L_o", CW_DIM_FT, 1.0, 3000.0, NULL,
              "open length of the trench, or of the strip beside the box", range, TYPE, length_ft),
    COUNT_IN("strips", NULL, 1.0, 2.0, "2",
             "strips that share no ladder: 2 once a box blocks the way across", "common practice",
             TYPE, strips),
};

static const cw_field outputs[] = {
    FLAG_OUT("needed", "a ladder, stair or ramp is needed at this depth", cw_egress, needed),
    COUNT_OUT("each", "n", "in one strip", cw_egress, each),
    COUNT_OUT("total", NULL, "in all strips", cw_egress, total),
    LIST_OUT("places", NULL, CW_DIM_FT, "from the end of the strip", cw_egress, places_ft),
    OUT("ladder", NULL, CW_DIM_FT, "upright height, bottom to above the edge", cw_egress,
        ladder_ft),
};

cw_egress cw_trench_egress(const cw_egress_input *in, const cw_rows *rows, cw_working *w)
{
    const double travel = cw_rows_value(rows, "trench.egress_travel");
    cw_egress out = {.needed = cw_meets(cw_rows_value(rows, "trench.egress_depth"), in->depth_ft)};
    out.ladder_ft = cw_step_add(w, "h", "D + height above the edge",
                                in->depth_ft + cw_rows_value(rows, "trench.egress_above"),
                                CW_DIM_FT, "29 CFR 1926.1053(b)(1)");
    if (!out.needed)
        return out;
    out.each = (int)cw_step_add(w, "n", "L_o / (2 x longest way), rounded up",
                                cw_count_up(in->length_ft / (2.0 * travel)), CW_DIM_COUNT, rule);
    out.total = out.each * in->strips;
    // Evenly spread: nobody is then farther than L_o / (2 n), which is within the limit.
    out.places_ft.count = out.each < CW_LIST_MAX ? out.each : CW_LIST_MAX;
    for (int i = 0; i < out.places_ft.count; i++)
        out.places_ft.items[i] = in->length_ft * (i + 0.5) / out.each;
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_egress *)output = cw_trench_egress(input, &cw_data, working);
}

const cw_calc cw_calc_egress = {
    .name = "egress",
    .title = "Ladders and their places",
    .group = "trench",
    .about =
        "Ladders, stairs or ramps for a trench of 4 ft and more, none farther than 25 ft from a "
        "worker.  The strip between a box and the face is a trench of its own.  " CAUTION,
    .source = "29 CFR 1926.651(c)(2)",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_egress_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_egress),
    .run = run,
    .example = "depth=9ft length=120ft strips=2",
};
