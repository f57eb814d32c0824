/* One pick against the column of a load chart. */
#include "lifting_internal.h"

static const char range[] = "common practice: range of cranes";
static const char row_rule[] = "US Navy rigging manual NAVEDTRA 14081: take the next larger radius";

#define TYPE cw_pick_input

static const cw_field inputs[] = {
    NUMBER_IN("piece", "W", CW_DIM_LB, 1.0, 2000000.0, NULL,
              "weight for the pick: scaled, or calculated with an allowance", range, TYPE,
              piece_lb),
    NUMBER_IN("dynamic", "f", CW_DIM_NONE, 1.0, 3.0, "1", "where the owner's rule asks for it",
              "common practice", TYPE, dynamic),
    NUMBER_IN("tackle", NULL, CW_DIM_LB, 0.0, 200000.0, "0 lb", "slings, shackles, spreader", range,
              TYPE, tackle_lb),
    NUMBER_IN("block", NULL, CW_DIM_LB, 0.0, 100000.0, "0 lb", "hook block and ball", range, TYPE,
              block_lb),
    NUMBER_IN("deductions", NULL, CW_DIM_LB, 0.0, 100000.0, "0 lb",
              "jib, auxiliary head, hanging rope: the notes of the chart say which", range, TYPE,
              deduction_lb),
    NUMBER_IN("radius", "R", CW_DIM_FT, 1.0, 800.0, NULL, "under load", range, TYPE, radius_ft),
    LIST_IN("chart_radii", NULL, CW_DIM_FT, 1.0, 800.0, NULL, "column of the boom in use, rising",
            range, TYPE, radii_ft),
    LIST_IN("chart_loads", NULL, CW_DIM_LB, 1.0, 6000000.0, NULL, "rated loads, one each", range,
            TYPE, capacities_lb),
    NUMBER_IN("line_pull", NULL, CW_DIM_LB, 0.0, 200000.0, "0 lb",
              "permitted in one part of line; 0: not asked", range, TYPE, line_pull_lb),
    COUNT_IN("parts", NULL, 1, 40, "1", "of line", range, TYPE, parts),
};

static const cw_field outputs[] = {
    OUT("gross", "P", CW_DIM_LB, "on the boom head", cw_pick, gross_lb),
    OUT("row_radius", NULL, CW_DIM_FT, "row of the chart that counts; 0: off the chart", cw_pick,
        row_radius_ft),
    OUT("rated", "C", CW_DIM_LB, "of that row, or what the line carries; 0: off the chart", cw_pick,
        capacity_lb),
    OUT("of_chart", NULL, CW_DIM_PERCENT, "gross over rated; 0: off the chart", cw_pick, percent),
    OUT("radius_most", NULL, CW_DIM_FT, "last row that carries the gross load; 0: none does",
        cw_pick, radius_most_ft),
    FLAG_OUT("critical", "above the planning share of the chart: a critical lift", cw_pick,
             critical),
    CHOICE_OUT("check", cw_verdict_words,
               "undecided: the lift director decides; fails: above the stop share or off the chart",
               cw_pick, verdict),
};

bool cw_pick_input_valid(const cw_pick_input *in, cw_pos where, cw_diags *diags)
{
    const int count = in->radii_ft.count, before = diags->count;
    if (count == 0 || count != in->capacities_lb.count)
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "chart_radii has %d values and chart_loads %d; give one load for each radius",
                    count, in->capacities_lb.count);
    for (int i = 1; i < count && diags->count == before; i++) {
        if (!(in->radii_ft.items[i] > in->radii_ft.items[i - 1]))
            cw_diag_add(diags, where, CW_E_CONFLICT,
                        "chart_radii %.6g ft follows %.6g ft; write them rising",
                        in->radii_ft.items[i], in->radii_ft.items[i - 1]);
        else if (in->capacities_lb.items[i] > in->capacities_lb.items[i - 1])
            cw_diag_add(diags, where, CW_E_CONFLICT,
                        "chart_loads %.6g lb follows %.6g lb; a rated load does not rise with the "
                        "radius: check the chart",
                        in->capacities_lb.items[i], in->capacities_lb.items[i - 1]);
    }
    return diags->count == before;
}

cw_pick cw_lifting_pick(const cw_pick_input *in, const cw_rows *rows, cw_working *w)
{
    cw_pick out = {.verdict = CW_FAILS, .critical = true};
    const cw_chart_column column = {.configuration = "typed",
                                    .boom_ft = 1.0,
                                    .radius_ft = in->radii_ft.items,
                                    .capacity_lb = in->capacities_lb.items,
                                    .count = in->radii_ft.count};
    const cw_chart chart = {.columns = &column, .count = 1};
    const cw_chart_look look = cw_chart_capacity(&chart, "typed", 1.0, in->radius_ft);
    double least_ft;
    out.gross_lb =
        cw_step_add(w, "P", "f W + tackle + block + deductions",
                    in->piece_lb * in->dynamic + in->tackle_lb + in->block_lb + in->deduction_lb,
                    CW_DIM_LB, "notes of the chart");
    cw_chart_reach(&column, out.gross_lb, &least_ft, &out.radius_most_ft);
    cw_step_add(w, "R_max", "last row that carries P, from the first on", out.radius_most_ft,
                CW_DIM_FT, row_rule);
    if (!look.on_chart)
        return out;
    out.row_radius_ft = look.row_radius_ft;
    out.capacity_lb = look.capacity_lb;
    if (in->line_pull_lb > 0.0)
        out.capacity_lb = fmin(out.capacity_lb, in->line_pull_lb * in->parts);
    cw_step_add(w, "C", "row of the next larger radius; parts times line pull at most",
                out.capacity_lb, CW_DIM_LB, row_rule);
    out.percent = cw_step_add(w, "P/C", "P / C", out.gross_lb / out.capacity_lb * CW_PERCENT,
                              CW_DIM_PERCENT, "definition");
    out.critical = !cw_meets(out.percent, cw_rows_value(rows, "lift.chart_plan"));
    if (!out.critical)
        out.verdict = CW_HOLDS;
    else if (cw_meets(out.percent, cw_rows_value(rows, "lift.chart_stop")))
        out.verdict = CW_UNDECIDED;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_pick_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_pick *)output = cw_lifting_pick(input, &cw_data, working);
}

const cw_calc cw_calc_chart_pick = {
    .name = "chart-pick",
    .title = "Pick against the crane's chart",
    .group = "lifting",
    .about =
        "Type the radii and rated loads of one boom from the maker's chart.  Between rows the next "
        "larger radius counts; nothing is interpolated, and past the last row or before the first "
        "there is no rating.  Ratings are already a share of tipping: there is nothing hidden to "
        "spend.  Boom, outriggers, counterweight and sector must be those of the chart.  For a "
        "whole chart in a file: culvertwright chart.",
    .source = "US Navy rigging manual NAVEDTRA 14081; percent by common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_pick_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_pick),
    .valid = valid,
    .run = run,
    .example =
        "piece=17500lb tackle=800lb block=1500lb radius=32ft chart_radii=25ft,30ft,35ft,40ft "
        "chart_loads=54800lb,49100lb,44500lb,35900lb",
};
