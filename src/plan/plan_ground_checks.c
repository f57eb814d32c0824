/* Rows of the ledger about the cut, line and grade, sealant, fill and backfill. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

static const char subpart_p[] = "29 CFR 1926 Subpart P";

static const char *place_words(const draft *d, const cw_plan_cut *cut)
{
    return cw_arena_print(d->arena, "%s from the outlet", draft_words(d, cut->at_ft, CW_DIM_FT));
}

/* ---- the cut ---- */

static const char *class_words(int soil)
{
    static const char *const words[] = {"stable rock", "class A", "class B", "class C"};
    return words[soil];
}

static const char *reason_words(int reason)
{
    static const char *const words[CW_REASONS] = {
        [CW_REASON_MATERIAL] = "by its material",
        [CW_REASON_STRENGTH] = "by its strength",
        [CW_REASON_NOT_TESTED] = "its strength was not tested",
        [CW_REASON_DISTURBED] = "placed or dug before, so never class A",
        [CW_REASON_VIBRATION] = "traffic or plant shakes it",
        [CW_REASON_FISSURED] = "fissured",
        [CW_REASON_WATER] = "under groundwater, or water seeps from it",
        [CW_REASON_DIP] = "its layers dip into the cut",
    };
    return words[reason];
}

static void check_class(draft *d, const cw_plan_cut *cut, const cw_plan_layer *layer)
{
    const bool surcharge = d->job->trench.surcharge;
    const bool classed = d->plan.trench.classed;
    // An unclassed cut sloped as class C is lawful; one that an engineer must look at is not
    // decided here.
    draft_add(
        d,
        (cw_check){
            .id = "trench.soil-class",
            .what = classed ? cw_arena_print(d->arena, "%s is %s: %s", layer->name,
                                             class_words(layer->soil.soil),
                                             reason_words(layer->soil.reason))
                            : "Nobody classed the ground: it is cut as class C",
            .where = cw_arena_print(d->arena, "%s, slope %s", place_words(d, cut),
                                    draft_words(d, layer->soil.side_slope, CW_DIM_SIDE_SLOPE)),
            .clause =
                classed ? "29 CFR 1926 Subpart P App. A; the competent person classes the ground "
                          "on site"
                        : "29 CFR 1926.652(b)(1); the competent person may ask for a flatter slope",
            .verdict = surcharge ? CW_UNDECIDED : CW_HOLDS,
            .rests_on = "trench.slope.a, trench.slope.b, trench.slope.c",
            .mend = surcharge ? "loads stand nearer than the setback: the competent person or an "
                                "engineer sets the slope"
                              : "",
            .working =
                classed ? cw_arena_print(d->arena, "Class of the ground: %s", layer->name) : NULL});
}

static void check_depth(draft *d, const cw_plan_cut *cut)
{
    const double limit_ft = draft_row_value(d, "trench.depth_max", 20.0);
    cw_check *row = draft_add(d, (cw_check){.id = "trench.depth",
                                            .what = "Cut is no deeper than the tables of slopes go",
                                            .where = place_words(d, cut),
                                            .demand = cut->section.deepest_ft,
                                            .capacity = limit_ft,
                                            .dim = CW_DIM_FT,
                                            .clause = draft_source(d, "trench.depth_max"),
                                            .rests_on = "trench.depth_max",
                                            .mend = "a registered engineer designs the cut: what "
                                                    "is drawn here is a quantity, no design",
                                            .working = "Section of the cut at its deepest"});
    cw_check_judge(row);
    if (row->verdict == CW_FAILS)
        row->verdict = CW_UNDECIDED;
    else
        row->mend = "";
}

static const cw_plan_cut *first_refused(const draft *d)
{
    for (int i = 0; i < d->plan.trench.cut_count; i++)
        if (d->plan.trench.cuts[i].refused)
            return &d->plan.trench.cuts[i];
    return NULL;
}

static void check_protection(draft *d, const cw_plan_cut *deepest)
{
    static const char *const how[] = {"Sides are sloped for the class of each layer",
                                      "Sides are benched",
                                      "Sides stand in a shield, sloped above it"};
    const cw_plan_cut *refused = first_refused(d);
    const cw_job_trench *given = &d->job->trench;
    cw_check check = {.id = "trench.protection",
                      .what = how[given->protection],
                      .where = place_words(d, refused ? refused : deepest),
                      .clause = given->protection == CW_JOB_SHIELD
                                    ? "29 CFR 1926.652 and App. B; the shield's own tabulated data"
                                    : "29 CFR 1926 Subpart P App. B",
                      .verdict = CW_HOLDS,
                      .working = "Section of the cut at its deepest"};
    if (refused) {
        check.verdict = CW_FAILS;
        check.mend = "the ground here takes no benches: write trench.protection: slope, or shield";
    } else if (given->protection == CW_JOB_SHIELD &&
               !cw_meets(given->below_shield_ft, draft_row_value(d, "trench.shield_below", 2.0))) {
        check.verdict = CW_FAILS;
        check.rests_on = "trench.shield_below";
        check.mend = cw_arena_print(
            d->arena,
            "dig no more than %s below the shield, and only when it is designed for the full depth",
            draft_words(d, draft_row_value(d, "trench.shield_below", 2.0), CW_DIM_FT));
    } else if (deepest->section.protection == CW_PROTECTION_WATCH) {
        check.what = "Shallow cut: no protection if the competent person sees no sign of a cave-in";
        check.clause = draft_source(d, "trench.protection_depth");
        check.rests_on = "trench.protection_depth";
    }
    draft_add(d, check);
}

static void check_edges(draft *d)
{
    const cw_plan_trench *trench = &d->plan.trench;
    draft_judge(d, (cw_check){.id = "trench.spoil",
                              .what = "Spoil, material and plant keep back from the edge",
                              .demand = d->job->trench.spoil_setback_ft,
                              .capacity = draft_row_value(d, "trench.spoil", 2.0),
                              .at_least = true,
                              .dim = CW_DIM_FT,
                              .clause = draft_source(d, "trench.spoil"),
                              .rests_on = "trench.spoil",
                              .mend = "move it back, or retain it"});
    if (trench->egress.needed)
        draft_judge(
            d,
            (cw_check){.id = "trench.egress",
                       .what = cw_arena_print(
                           d->arena,
                           "Way to a ladder or ramp; the strips beside the boxes are trenches: %d "
                           "ladder%s in each, none shared",
                           trench->egress.each, trench->egress.each == 1 ? "" : "s"),
                       .demand = d->job->trench.egress_ft,
                       .capacity = draft_row_value(d, "trench.egress_travel", 25.0),
                       .dim = CW_DIM_FT,
                       .clause = draft_source(d, "trench.egress_travel"),
                       .rests_on = "trench.egress_travel",
                       .mend = "set ladders closer: lessen trench.egress",
                       .working = "Ladders"});
}

void draft_check_trench(draft *d)
{
    const cw_plan_trench *trench = &d->plan.trench;
    if (!trench->present) {
        draft_add(
            d,
            (cw_check){
                .id = "trench.ground",
                .what = "Depth and section of the cut are known",
                .clause = subpart_p,
                .verdict = CW_UNDECIDED,
                .mend = "give ground.profile or ground.file along the whole run, and trench.soil"});
        return;
    }
    if (trench->deepest < 0) {
        draft_add(d,
                  (cw_check){.id = "trench.ground",
                             .what = "Nothing is dug: the ground lies under or near the subgrade",
                             .clause = subpart_p});
        return;
    }
    const cw_plan_cut *deepest = &trench->cuts[trench->deepest];
    for (int i = deepest->layer_count - 1; i >= 0; i--)
        check_class(d, deepest, &deepest->layers[i]);
    check_depth(d, deepest);
    check_protection(d, deepest);
    check_edges(d);
}

/* ---- line and grade ---- */

/* The two feet differ by two parts in a million: at large coordinates that is more than the line
 * tolerance. */
static void check_foot(draft *d)
{
    const cw_job_survey *survey = &d->job->survey;
    const double far_ft = fmax(fabs(survey->northing_ft), fabs(survey->easting_ft));
    const double off_ft = far_ft * 2e-6, limit_ft = 0.01;
    const bool stated = draft_stated(d, "survey.foot");
    draft_add(
        d,
        (cw_check){
            .id = "survey.foot",
            .what =
                stated ? "The foot of the coordinates is declared"
                : off_ft < limit_ft
                    ? "The foot of the coordinates does not matter: they are small"
                    : cw_arena_print(
                          d->arena,
                          "The foot of the coordinates: the other one would move the culvert by %s",
                          draft_words(d, off_ft, CW_DIM_FT)),
            .clause = "85 FR 62698: the US survey foot is longer by 2 parts in a million",
            .verdict = stated || off_ft < limit_ft ? CW_HOLDS : CW_UNDECIDED,
            .mend = stated || off_ft < limit_ft ? "" : "ask the surveyor, and state survey.foot"});
}

static void check_instrument(draft *d)
{
    const cw_plan_grade *grade = &d->plan.grade;
    if (grade->has_instrument) {
        const bool under = grade->least_rod_ft < 0.0;
        draft_judge(
            d,
            (cw_check){
                .id = "grade.rod",
                .what = under ? "Instrument stands over every level that is read"
                              : "Rod is long enough for every level that is read",
                .where = under ? grade->least_rod : grade->most_rod,
                .demand = under ? grade->least_rod_ft : grade->most_rod_ft,
                .capacity = under ? 0.0 : d->job->grade.rod_ft,
                .at_least = under,
                .dim = CW_DIM_FT,
                .clause = "height of instrument less elevation",
                .mend =
                    under
                        ? "set the instrument higher, or turn to a second set-up for the wall tops"
                        : "turn to a second set-up in the cut, or bring a longer rod",
                .working = "Rod readings at the outlet of barrel 1"});
    }
    if (grade->has_loop)
        draft_judge(d, (cw_check){.id = "grade.level-loop",
                                  .what = "Line of levels closes on the benchmark",
                                  .demand = fabs(grade->loop.misclosure_ft),
                                  .capacity = grade->loop.allowed_ft,
                                  .dim = CW_DIM_FT,
                                  .clause = draft_source(d, "level.misclosure"),
                                  .rests_on = "level.misclosure",
                                  .mend = "run the levels again before anything is set by them",
                                  .working = "Line of levels"});
}

static void check_camber(draft *d)
{
    const cw_plan_grade *grade = &d->plan.grade;
    if (!grade->has_camber)
        return;
    draft_judge(d, (cw_check){.id = "grade.camber-joints",
                              .what = "Joints turn for the camber within the band of gaps",
                              .demand = fabs(grade->camber.gap_change_in),
                              .capacity = d->job->joint.gap_max_in - d->job->joint.gap_min_in,
                              .dim = CW_DIM_IN,
                              .clause = "geometry: outside height x turn of a joint",
                              .mend = "less camber, shorter pieces or a wider band of gaps",
                              .working = "Camber"});
    draft_judge(
        d, (cw_check){
               .id = "grade.camber-pond",
               .what = "Water that stands in the barrel once it has settled",
               .demand = grade->camber.pond_settled_in,
               .capacity = d->job->grade.pond_in,
               .dim = CW_DIM_IN,
               .clause = draft_basis(d, "grade_control.pond", "joint.lip"),
               .rests_on = draft_rest(d, "grade_control.pond", "joint.lip"),
               .mend = "raise grade_control.camber to the settlement, within what the joints turn",
               .working = "Camber"});
}

static void check_growth(draft *d, int number)
{
    const cw_plan_growth *growth = &d->plan.grade.growth[number];
    const cw_plan_barrel *barrel = &d->plan.barrels[number];
    if (barrel->base_count < 2)
        return;
    // The bound that the upstream half of the joints has more trouble with.
    const double long_in = growth->growth.high_in - growth->closed_in,
                 short_in = -growth->growth.low_in - growth->opened_in;
    const bool runs_long = long_in >= short_in;
    const char *bounds =
        cw_arena_print(d->arena, "%s to %s", draft_words(d, growth->growth.low_in, CW_DIM_IN),
                       draft_words(d, growth->growth.high_in, CW_DIM_IN));
    draft_judge(
        d,
        (cw_check){
            .id = "grade.growth",
            .what = cw_arena_print(
                d->arena,
                "The gaps of the upstream half bring the end into its tolerance; left alone, 19 "
                "of 20 runs end %s past the drawing",
                bounds),
            .where = cw_arena_print(d->arena, "barrel %d, %d pieces, %d joints to mend with",
                                    number + 1, barrel->base_count, growth->late_joints),
            .demand = fmax(0.0, runs_long ? growth->growth.high_in : -growth->growth.low_in),
            .capacity =
                d->job->run.end_tolerance_in + (runs_long ? growth->closed_in : growth->opened_in),
            .dim = CW_DIM_IN,
            .clause = cw_arena_print(d->arena, "sum of independent tolerances; end: %s",
                                     draft_basis(d, "run.end_tolerance", "run.end_tolerance")),
            .rests_on = draft_rest(d, "run.end_tolerance", "run.end_tolerance"),
            .mend = cw_arena_print(d->arena,
                                   "tape from the first piece on; order a closure piece, or a cast "
                                   "closure, when piece "
                                   "%d stands at the latest",
                                   growth->order_by > 0 ? growth->order_by
                                                        : barrel->base_count - growth->late_joints),
            .working = cw_arena_print(d->arena, "Growth of the run, barrel %d", number + 1)});
}

static void check_heading(draft *d, int number)
{
    const cw_plan_growth *growth = &d->plan.grade.growth[number];
    const cw_plan_barrel *barrel = &d->plan.barrels[number];
    if (barrel->base_count < 2)
        return;
    const bool often = growth->straight < 2;
    draft_add(
        d,
        (cw_check){
            .id = "grade.heading",
            .what =
                growth->straight >= barrel->base_count
                    ? cw_arena_print(
                          d->arena,
                          "Heading left alone keeps the line: %s at the end in 19 of 20 runs",
                          draft_words(d, 1.96 * growth->heading.end_sd_in, CW_DIM_IN))
                    : cw_arena_print(d->arena,
                                     "Heading is mended after every %d pieces at the latest; left "
                                     "alone, the end "
                                     "would be off by %s in 19 of 20 runs",
                                     growth->straight > 1 ? growth->straight : 1,
                                     draft_words(d, 1.96 * growth->heading.end_sd_in, CW_DIM_IN)),
            .where = cw_arena_print(d->arena, "barrel %d", number + 1),
            .clause = cw_arena_print(
                d->arena, "a steady difference of the gaps grows with the square of the pieces; %s",
                draft_source(d, "joint.line_tolerance")),
            .verdict = often ? CW_UNDECIDED : CW_HOLDS,
            .rests_on = "joint.gap_side_difference, joint.line_tolerance",
            .mend = often ? "one piece may leave the line: tape both gaps before every release, or "
                            "widen the line tolerance with "
                            "the owner"
                          : "",
            .working = cw_arena_print(d->arena, "Heading left alone, barrel %d", number + 1)});
}

void draft_check_grade(draft *d)
{
    check_foot(d);
    check_instrument(d);
    check_camber(d);
    for (int b = 0; b < d->plan.barrel_count; b++) {
        check_growth(d, b);
        check_heading(d, b);
    }
}

/* ---- sealant ---- */

static void check_rope(draft *d)
{
    const cw_plan_closing *closing = &d->plan.closing;
    const cw_job_sealant *given = &d->job->sealant;
    const char *room = cw_arena_print(d->arena, "room %s to %s between tongue and groove",
                                      draft_words(d, closing->annulus_min_in, CW_DIM_IN),
                                      draft_words(d, closing->annulus_max_in, CW_DIM_IN));
    cw_check check = {
        .id = "sealant.size",
        .where = room,
        .clause =
            cw_arena_print(d->arena, "compression by definition, and sealant does not shrink; %s",
                           draft_basis(d, "sealant.compression", "sealant.compression")),
        .rests_on = draft_rest(d, "sealant.compression", "sealant.compression"),
        .working = closing->has_rope ? "Size of the sealant" : "Room for the sealant"};
    if (!closing->has_rope) {
        const double needed_in =
            closing->annulus_max_in / (1.0 - given->compression_percent / CW_PERCENT);
        check.what = cw_arena_print(d->arena, "Sealant fits the joint: %s high at least",
                                    draft_words(d, needed_in, CW_DIM_IN));
        check.verdict = CW_UNDECIDED;
        check.mend =
            closing->annulus_min_in > 0.0 && closing->face_in > 0.0
                ? "state sealant.sizes (and sealant.width): the sections that the supplier has"
                : "the tolerance takes all the room of the joint: get tongue and groove from the "
                  "precaster's drawing";
        draft_add(d, check);
        return;
    }
    const cw_rope *rope = &closing->rope;
    const bool fits = rope->state == CW_ROPE_FITS;
    check.what =
        fits ? cw_arena_print(d->arena, "Sealant %s high fits the joint",
                              draft_words(d, rope->size_in, CW_DIM_IN))
        : rope->state == CW_ROPE_TOO_LOW
            ? cw_arena_print(d->arena, "No sealant fits the joint: none of the sizes is %s high",
                             draft_words(d, rope->height_needed_in, CW_DIM_IN))
            : "No sealant fits the joint: what is high enough at its widest overfills it at its "
              "tightest";
    check.demand = rope->squeeze_percent;
    check.capacity = given->compression_percent;
    check.at_least = true;
    check.dim = CW_DIM_PERCENT;
    check.mend = "less tolerance of the joint, a narrower section, two thinner rows, or rely on "
                 "the wrap by agreement with the owner";
    cw_check *row = draft_add(d, check);
    cw_check_judge(row);
    // High enough and yet too full: the compression holds, the joint does not close.
    row->verdict = fits ? CW_HOLDS : CW_FAILS;
    if (fits)
        row->mend = "";
}

static void check_rope_temperature(draft *d)
{
    const cw_job_sealant *given = &d->job->sealant;
    if (given->has_temperature)
        draft_judge(
            d,
            (cw_check){.id = "sealant.temperature",
                       .what = "Sealant and concrete are warm enough",
                       .demand = given->temperature_f,
                       .capacity = given->temperature_min_f,
                       .at_least = true,
                       .dim = CW_DIM_DEGF,
                       .clause = draft_basis(d, "sealant.temperature_min", "sealant.temperature"),
                       .rests_on = draft_rest(d, "sealant.temperature_min", "sealant.temperature"),
                       .mend = "warm the sealant and the faces, or use the supplier's primer"});
}

/* ---- fill between barrels ---- */

static void check_cure(draft *d)
{
    const cw_job *job = d->job;
    const cw_plan_closing *closing = &d->plan.closing;
    if (job->barrels.count < 2 || job->fill.kind == 2 || !(job->barrels.clear_gap_in > 0.0))
        return;
    const char *what =
        cw_arena_print(d->arena, "Fill between the barrels has %s when backfill begins",
                       draft_words(d, job->fill.strength_psi, CW_DIM_PSI));
    if (!closing->has_strength) {
        draft_add(d, (cw_check){.id = "fill.cure",
                                .what = what,
                                .where = closing->strength.state == CW_STRENGTH_NEVER
                                             ? "the curve never reaches it"
                                             : "no curve: strength not estimated",
                                .clause = "ASTM C1074; strength shown by cylinders or maturity",
                                .verdict = CW_UNDECIDED,
                                .rests_on = draft_rest(d, "fill_between.strength_needed",
                                                       "fill.strength_to_resume"),
                                .mend = "state fill_between.break_ages, break_strengths and "
                                        "forecast, or break cylinders before backfill"});
        return;
    }
    const bool past = closing->strength.extrapolated || !closing->reached;
    cw_check *row = draft_add(
        d, (cw_check){.id = "fill.cure",
                      .what = what,
                      .where = past ? "past the forecast or the last break"
                                    : "by the forecast; a sensor where it cures slowest rules",
                      .demand = closing->release_h,
                      .capacity = job->fill.cure_h,
                      .dim = CW_DIM_HOUR,
                      .clause = cw_arena_print(d->arena, "ASTM C1074; %s",
                                               draft_basis(d, "fill_between.cure", "fill.cure")),
                      .rests_on = draft_rest(d, "fill_between.cure", "fill.cure"),
                      .mend = cw_arena_print(
                          d->arena,
                          "wait %s from the last placement, keep it warm, or order a quicker mix",
                          draft_words(d, closing->release_h, CW_DIM_HOUR)),
                      .working = "Time until the fill takes backfill beside it"});
    cw_check_judge(row);
    if (row->verdict == CW_HOLDS && past) {
        row->verdict = CW_UNDECIDED;
        row->mend = "break cylinders: the estimate reaches past the forecast or the last break";
    } else if (row->verdict == CW_HOLDS) {
        row->mend = "";
    }
}

/* ---- backfill ---- */

static void check_lifts(draft *d)
{
    const cw_plan_closing *closing = &d->plan.closing;
    const cw_job *job = d->job;
    draft_judge(
        d,
        (cw_check){.id = "backfill.sides",
                   .what = cw_arena_print(
                       d->arena, "Sides are filled in balance: %d lifts each, %d apart at most",
                       closing->lifts, closing->lifts_apart > 0 ? closing->lifts_apart : 1),
                   .where = cw_arena_print(d->arena, "lift %s loose, %s compacted",
                                           draft_words(d, job->order.backfill_lift_in, CW_DIM_IN),
                                           draft_words(d, closing->compacted_in, CW_DIM_IN)),
                   .demand = closing->compacted_in *
                             (closing->lifts_apart > 0 ? closing->lifts_apart : 1),
                   .capacity = job->order.side_difference_in,
                   .dim = CW_DIM_IN,
                   .clause = draft_basis(d, "order.side_difference", "backfill.side_difference"),
                   .rests_on = draft_rest(d, "order.side_difference", "backfill.side_difference"),
                   .mend = "thinner lifts, or have the difference looked at by the engineer",
                   .working = "Backfill beside the boxes: lifts, working space upright"});
}

static void check_machine(draft *d)
{
    const cw_job *job = d->job;
    const char *name = "the first machine";
    for (int i = job->strength.vehicle_count - 1; i >= 0; i--)
        if (job->strength.vehicles[i].use == CW_VEHICLE_CROSSING)
            name = job->strength.vehicles[i].name;
    double least_ft = CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++)
        if (d->plan.barrels[b].has_cover)
            least_ft = fmin(least_ft, d->plan.barrels[b].least_cover.cover_ft);
    if (!(least_ft < CW_ANY_HIGH))
        return;
    cw_check *row = draft_add(
        d,
        (cw_check){
            .id = "backfill.first-machine",
            .what = cw_arena_print(
                d->arena,
                "Finished cover is what machines wait for (%s); not before the fill stands at %s",
                name, draft_words(d, d->plan.closing.machine_ft, CW_DIM_ELEV_FT)),
            .where = "least cover under the roadway",
            .demand = least_ft,
            .capacity = job->order.cover_before_equipment_ft,
            .at_least = true,
            .dim = CW_DIM_FT,
            .clause = draft_basis(d, "order.cover_before_equipment", "cover.before_equipment"),
            .rests_on = draft_rest(d, "order.cover_before_equipment", "cover.before_equipment"),
            .mend = "no machine crosses without an analysis of its wheels on this cover"});
    cw_check_judge(row);
    if (row->verdict == CW_FAILS)
        row->verdict = CW_UNDECIDED;
    else
        row->mend = "";
}

void draft_check_closing(draft *d)
{
    check_rope(d);
    check_rope_temperature(d);
    check_cure(d);
    check_lifts(d);
    check_machine(d);
}
