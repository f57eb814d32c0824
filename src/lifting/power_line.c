/* Distance from power lines. */
#include <stdio.h>

#include "lifting_internal.h"

static const char range[] = "common practice: range of sites";
static const char table_a[] = "29 CFR 1926.1408, Table A";

#define TYPE cw_power_line_input

static const cw_field inputs[] = {
    NUMBER_IN("kilovolts", "U", CW_DIM_NONE, 0.1, 2000.0, NULL,
              "of the line; the highest presumed when it is not known", range, TYPE, kilovolts),
    FLAG_IN("known", NULL, "the utility has given the voltage", NULL, TYPE, known),
    NUMBER_IN("line_distance", NULL, CW_DIM_FT, 0.0, 2000.0, NULL,
              "slew centre to the line, square to it", range, TYPE, line_x_ft),
    NUMBER_IN("line_height", NULL, CW_DIM_FT, 0.0, 400.0, NULL,
              "lowest wire above the crane's ground; a wire hangs lower when it is hot or loaded",
              range, TYPE, line_height_ft),
    NUMBER_IN("reach", NULL, CW_DIM_FT, 0.0, 500.0, NULL,
              "farthest that boom, load, slings or tag lines get from the slew centre", range, TYPE,
              boom_tip_radius_ft),
    NUMBER_IN("reach_height", NULL, CW_DIM_FT, 0.0, 500.0, NULL, "boom head above the ground",
              range, TYPE, boom_tip_height_ft),
    NUMBER_IN("swing_stop", NULL, CW_DIM_DEG, 0.0, 90.0, "0 deg",
              "the swing is held this far off the square to the line; 0: it may point at the line",
              "common practice", TYPE, swing_gap_deg),
};

static const cw_field outputs[] = {
    OUT("needed", NULL, CW_DIM_FT, "least distance; 0: the utility or a qualified engineer sets it",
        cw_power_line, needed_ft),
    OUT("nearest", NULL, CW_DIM_FT, "any part to the line", cw_power_line, nearest_ft),
    FLAG_OUT("by_utility", "over 1,000 kV", cw_power_line, by_utility),
    CHOICE_OUT("check", cw_verdict_words, "undecided over 1,000 kV", cw_power_line, verdict),
};

/* 0 past the table. */
static double clearance_ft(double kilovolts, bool known, const cw_rows *rows)
{
    char id[32];
    double last_kv = 0.0;
    for (int i = 1; i <= 6; i++) {
        snprintf(id, sizeof id, "power_line.%d.kv", i);
        last_kv = cw_rows_value(rows, id);
        if (kilovolts > last_kv)
            continue;
        if (!known)
            return cw_rows_value(rows, i <= 3 ? "power_line.presumed" : "power_line.presumed_high");
        snprintf(id, sizeof id, "power_line.%d.clear", i);
        return cw_rows_value(rows, id);
    }
    return 0.0;
}

cw_power_line cw_lifting_power_line(const cw_power_line_input *in, const cw_rows *rows,
                                    cw_working *w)
{
    cw_power_line out = {.verdict = CW_UNDECIDED};
    out.needed_ft = cw_step_add(
        w, "D", in->known ? "row of the voltage, upper bound included" : "voltage not known",
        clearance_ft(in->kilovolts, in->known, rows), CW_DIM_FT,
        in->known ? table_a : "29 CFR 1926.1408(a)(2) and 1409");
    out.by_utility = out.needed_ft <= 0.0;
    const double towards_ft = in->boom_tip_radius_ft * cos(in->swing_gap_deg * CW_RAD_PER_DEG);
    const double beside_ft = fmax(0.0, in->line_x_ft - towards_ft);
    const double above_ft = fmax(0.0, in->line_height_ft - in->boom_tip_height_ft);
    out.nearest_ft = cw_step_add(w, "d", "swept cylinder to the line", hypot(beside_ft, above_ft),
                                 CW_DIM_FT, "derived: cylinder about the slew centre");
    if (!out.by_utility)
        out.verdict = cw_lifting_verdict(out.needed_ft, out.nearest_ft);
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_power_line *)output = cw_lifting_power_line(input, &cw_data, working);
}

const cw_calc cw_calc_power_line = {
    .name = "power-line",
    .title = "Crane and power line",
    .group = "lifting",
    .about =
        "No part of the crane, load or rigging comes nearer than Table A, unless the line is "
        "de-energised and grounded.  The whole swept space counts, not the load alone.  Find the "
        "lines and ask the utility for the voltage before the crane comes; a spotter or range "
        "limiter is needed when the boom could get within 20 ft.  Closer than the table only under "
        "29 CFR 1926.1410.",
    .source = "29 CFR 1926.1408, Table A",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_power_line_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_power_line),
    .run = run,
    .example =
        "kilovolts=69 known=yes line_distance=90ft line_height=40ft reach=70ft reach_height=75ft",
};
