/* Setups along one line for pieces in a row: interval stabbing. */
#include "lifting_internal.h"

static const char range[] = "common practice: range of runs and cranes";
static const char stabbing[] =
    "derived: each stand as far along as its first piece allows; handbook, lifting";

enum { PIECES_MAX = 200 };

#define TYPE cw_setups_input

static const cw_field inputs[] = {
    NUMBER_IN("first", NULL, CW_DIM_FT, -2000.0, 2000.0, NULL,
              "middle of the first piece along the run", range, TYPE, first_ft),
    NUMBER_IN("last", NULL, CW_DIM_FT, -2000.0, 2000.0, NULL, "middle of the last piece", range,
              TYPE, last_ft),
    COUNT_IN("pieces", NULL, 1, PIECES_MAX, NULL, "in the row, evenly apart", range, TYPE, pieces),
    NUMBER_IN("offset", "d", CW_DIM_FT, 0.0, 500.0, NULL, "barrel to the line of slew centres",
              range, TYPE, offset_ft),
    NUMBER_IN("radius", "R", CW_DIM_FT, 1.0, 800.0, NULL,
              "last row of the chart that carries the heaviest piece; see chart-pick", range, TYPE,
              radius_ft),
    NUMBER_IN("radius_least", NULL, CW_DIM_FT, 0.0, 200.0, "0 ft", "first row of the chart", range,
              TYPE, radius_least_ft),
    OPTION_IN("no_stand_from", NULL, CW_DIM_FT, -2000.0, 2000.0,
              "stretch where the crane may not stand", range, TYPE, gap_from_ft, has_gap),
    NUMBER_IN("no_stand_to", NULL, CW_DIM_FT, -2000.0, 2000.0, "0 ft", "its end", range, TYPE,
              gap_to_ft),
};

static const cw_field outputs[] = {
    FLAG_OUT("reached", "every piece can be set from the line; otherwise the first ones that can",
             cw_setups, reached),
    OUT("half_cover", "h", CW_DIM_FT, "reach along the run to each side", cw_setups, half_ft),
    COUNT_OUT("setups", NULL, "least number of stands", cw_setups, count),
    LIST_OUT("stands", NULL, CW_DIM_FT, "places along the run, the first 64", cw_setups, at_ft),
    CHOICE_OUT("check", cw_verdict_words, "every piece is reached", cw_setups, verdict),
};

bool cw_setups_input_valid(const cw_setups_input *in, cw_pos where, cw_diags *diags)
{
    const int before = diags->count;
    if (!(in->last_ft >= in->first_ft))
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "last %.6g ft is before first %.6g ft; exchange them", in->last_ft,
                    in->first_ft);
    if (in->has_gap && !(in->gap_to_ft > in->gap_from_ft))
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "no_stand_to %.6g ft is not past no_stand_from %.6g ft", in->gap_to_ft,
                    in->gap_from_ft);
    if (!(in->radius_least_ft <= in->radius_ft))
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "radius_least %.6g ft is over radius %.6g ft; exchange them",
                    in->radius_least_ft, in->radius_ft);
    return diags->count == before;
}

static double centre_of(const cw_setups_input *in, int piece)
{
    if (in->pieces == 1)
        return in->first_ft;
    return in->first_ft + (in->last_ft - in->first_ft) * piece / (in->pieces - 1);
}

/* One past the last piece of the longest block from @p first; the place to stand in @p at_ft. */
static int longest_block(const cw_setups_input *in, int first, double *at_ft)
{
    cw_setup_range now[PIECES_MAX + 2], last[PIECES_MAX + 2];
    cw_spans spans = {now, 1, COUNT(now)}, kept = {last, 0, COUNT(last)};
    now[0] = (cw_setup_range){in->first_ft - in->radius_ft, in->last_ft + in->radius_ft};
    if (in->has_gap)
        cw_spans_cut(&spans, in->gap_from_ft, in->gap_to_ft);
    int piece = first;
    for (; piece < in->pieces; piece++) {
        cw_spans_reach(&spans, centre_of(in, piece), in->offset_ft, in->radius_least_ft,
                       in->radius_ft);
        if (spans.count == 0)
            break;
        kept.count = spans.count;
        for (int i = 0; i < spans.count; i++)
            last[i] = now[i];
    }
    if (kept.count > 0)
        *at_ft = cw_spans_nearest(&kept, (centre_of(in, first) + centre_of(in, piece - 1)) / 2.0);
    return piece;
}

cw_setups cw_lifting_line_setups(const cw_setups_input *in, cw_working *w)
{
    cw_setups out = {.reached = true};
    const double square = in->radius_ft * in->radius_ft - in->offset_ft * in->offset_ft;
    out.half_ft = cw_step_add(w, "h", "sqrt(R^2 - d^2)", sqrt(fmax(0.0, square)), CW_DIM_FT,
                              "closed form: geometry");
    for (int first = 0; first < in->pieces;) {
        double at_ft = 0.0;
        const int past = longest_block(in, first, &at_ft);
        out.reached = past > first;
        if (!out.reached)
            break;
        if (out.at_ft.count < CW_LIST_MAX)
            out.at_ft.items[out.at_ft.count++] = at_ft;
        out.count++;
        first = past;
    }
    cw_step_add(w, "n", "blocks, each as long as one place allows", out.count, CW_DIM_COUNT,
                stabbing);
    out.verdict = out.reached ? CW_HOLDS : CW_FAILS;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_setups_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_setups *)output = cw_lifting_line_setups(input, working);
}

const cw_calc cw_calc_crane_setups = {
    .name = "crane-setups",
    .title = "Fewest crane setups along one side",
    .group = "lifting",
    .about =
        "Pieces in a row, set in order, from a line beside them: the least number of stands and "
        "where they may be.  Exact.  Several cranes, both sides, booms and costs are the plan's.  "
        "The truck must come within the radius of every stand.",
    .source = "derived: interval stabbing",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_setups_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_setups),
    .valid = valid,
    .run = run,
    .example = "first=3ft last=177ft pieces=30 offset=35ft radius=50ft",
};
