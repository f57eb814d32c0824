/* Rows of the ledger about what stands in the way of the cut. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

static const char *feet(const draft *d, double value_ft)
{
    return cw_quantity_format(d->arena, value_ft, CW_DIM_FT, d->plan.units);
}

static bool given(const char *text)
{
    return text && text[0];
}

static const char *also(const draft *d, const char *one, const char *other)
{
    return other[0] ? cw_arena_print(d->arena, "%s, %s", one, other) : one;
}

/* ---- utilities ---- */

/* Is something agreed that takes it out of the way, or holds it? */
typedef enum agreed { NOTHING, STATED, AGREED } agreed;

static agreed moved(const cw_job_utility *utility)
{
    const bool moves =
        utility->support == CW_SUPPORT_RELOCATE || utility->support == CW_SUPPORT_REMOVE;
    return !moves ? NOTHING : given(utility->accepted) ? AGREED : STATED;
}

static agreed held(const cw_job_utility *utility)
{
    return utility->support == CW_SUPPORT_NONE ? NOTHING
           : given(utility->accepted)          ? AGREED
                                               : STATED;
}

static const char *support_words(const cw_job_utility *utility)
{
    static const char *const words[] = {"nothing is agreed", "hung from beams across the cut",
                                        "relocated before the cut", "shut off while it is exposed",
                                        "removed and its ends plugged"};
    return words[utility->support];
}

/* A row whose distance is too small, and what is agreed about it. */
static void settle(draft *d, cw_check check, const cw_job_utility *utility, agreed state)
{
    if (state == AGREED) {
        check.what = cw_arena_print(d->arena, "%s: it is %s, %s", check.what,
                                    support_words(utility), utility->accepted);
        check.verdict = CW_HOLDS;
        check.has_numbers = false;
        check.mend = "";
        draft_add(d, check);
        return;
    }
    cw_check *row = draft_add(d, check);
    cw_check_judge(row);
    if (state == STATED) {
        row->verdict = CW_UNDECIDED;
        row->mend = cw_arena_print(
            d->arena,
            "stated: it is %s; get the owner's agreement in writing and put it under accepted",
            support_words(utility));
    }
}

static void check_box(draft *d, const cw_plan_utility *utility, const char *where)
{
    const double clear_ft = utility->given->clearance_in / CW_IN_PER_FT;
    const cw_check check = {
        .id = "conflict.box",
        .what = "Utility clear of the box",
        .where = where,
        .demand = utility->box_gap_ft,
        .capacity = clear_ft,
        .at_least = true,
        .dim = CW_DIM_FT,
        .clause = "derived: distance of the utility from the outside of the concrete",
        .rests_on = "conflict.utility_clear",
        .mend = cw_arena_print(d->arena, "have it moved by %s at least, or shift or lower the run",
                               feet(d, clear_ft - utility->box_gap_ft)),
        .working = utility->working};
    if (utility->box_gap_ft >= clear_ft)
        draft_judge(d, check);
    else
        settle(d, check, utility->given, moved(utility->given));
}

static void check_cut(draft *d, const cw_plan_utility *utility, const char *where)
{
    const cw_job_utility *of = utility->given;
    const double clear_ft = of->clearance_in / CW_IN_PER_FT;
    const bool shows = utility->cut_gap_ft < 0.0, live = of->status == CW_UTILITY_LIVE;
    cw_check check = {
        .id = "conflict.cut",
        .what = shows ? cw_arena_print(d->arena, "Utility shows in the cut over about %s",
                                       feet(d, utility->exposed_ft))
                      : "Utility clear of the dug face",
        .where = where,
        .demand = utility->cut_gap_ft,
        .capacity = clear_ft,
        .at_least = true,
        .dim = CW_DIM_FT,
        .clause = cw_arena_print(d->arena, "derived: distance from the planes of the cut; %s",
                                 d->plan.conflicts.cut.how),
        .rests_on = also(d, d->plan.conflicts.cut.rests_on, "conflict.utility_clear"),
        .mend = shows ? "state what is done with it under support: hang, relocate or shut_off, "
                        "with its owner"
                      : cw_arena_print(
                            d->arena,
                            "shore the cut so that its face stands %s farther off, or have the "
                            "owner agree to less",
                            feet(d, clear_ft - utility->cut_gap_ft)),
        .working = utility->working};
    if (utility->cut_gap_ft >= clear_ft) {
        draft_judge(d, check);
    } else if (!live && of->support == CW_SUPPORT_NONE) {
        check.verdict = CW_UNDECIDED;
        check.mend =
            "prove that it is dead, then remove it from the cut and plug its ends: support: remove";
        draft_add(d, check);
    } else {
        settle(d, check, of, held(of));
    }
}

static double zone_ft_of(const draft *d)
{
    const cw_row *zone = draft_row(d, "conflict.tolerance_zone");
    return (zone ? zone->value : 24.0) / CW_IN_PER_FT;
}

const char *draft_locate_names(const draft *d)
{
    const cw_plan_conflicts *conflicts = &d->plan.conflicts;
    cw_text names = cw_text_on(d->arena);
    for (int i = 0; i < conflicts->utility_count; i++)
        if (conflicts->utilities[i].has_level &&
            conflicts->utilities[i].cut_gap_ft <= zone_ft_of(d))
            cw_text_print(&names, "%s%s", names.length > 0 ? ", " : "",
                          conflicts->utilities[i].given->name);
    return cw_text_string(&names);
}

static void check_located(draft *d, const cw_plan_utility *utility, const char *where)
{
    const double zone_ft = zone_ft_of(d);
    const cw_job_utility *of = utility->given;
    if (utility->cut_gap_ft > zone_ft)
        return;
    const bool found = given(of->located);
    draft_add(
        d,
        (cw_check){
            .id = "conflict.located",
            .what = found ? cw_arena_print(d->arena,
                                           "Utility located before a machine digs near it: %s",
                                           of->located)
                          : "Utility located before a machine digs near it",
            .where = where,
            .clause = cw_arena_print(d->arena, "29 CFR 1926.651(b), from memory, not verified; %s",
                                     draft_source(d, "conflict.tolerance_zone")),
            .verdict = found ? CW_HOLDS : CW_UNDECIDED,
            .rests_on = "conflict.tolerance_zone",
            .mend = found ? ""
                          : cw_arena_print(d->arena,
                                           "call for the locate, dig to it by hand or vacuum, and "
                                           "state it under located: "
                                           "no machine nearer than %s before",
                                           feet(d, zone_ft))});
}

static void check_utility(draft *d, const cw_plan_utility *utility)
{
    const cw_job_utility *of = utility->given;
    if (!utility->has_level || utility->outside) {
        draft_add(
            d, (cw_check){
                   .id = "conflict.outside",
                   .what = utility->outside ? "Utility lies beside the cut"
                                            : "Level of the utility is known",
                   .where = of->name,
                   .clause = "derived: place along the run",
                   .verdict = CW_UNDECIDED,
                   .mend =
                       utility->outside
                           ? cw_arena_print(
                                 d->arena,
                                 "it lies past the ends of the cut, %s to %s from the outlet face: "
                                 "check its place, or leave it out",
                                 feet(d, d->plan.conflicts.cut.start_ft),
                                 feet(d, d->plan.conflicts.cut.end_ft))
                           : "there is no ground from which its depth counts: give its elevation"});
        return;
    }
    if (utility->overhead) {
        draft_add(d, (cw_check){
                         .id = "conflict.overhead",
                         .what = "Line above the ground is kept clear of by booms and loads",
                         .where = of->name,
                         .clause = "29 CFR 1926.1408, from memory, not verified: 10 ft up to 50 kV",
                         .verdict = CW_UNDECIDED,
                         .mend = "have its owner state the voltage; de-energize it, or plan crane "
                                 "and digging at the distance for it"});
        return;
    }
    const char *where =
        cw_arena_print(d->arena, "%s, %s from the outlet face", of->name, feet(d, utility->at_ft));
    check_box(d, utility, where);
    check_cut(d, utility, where);
    check_located(d, utility, where);
}

/* ---- structures ---- */

static void check_structure(draft *d, const cw_plan_structure *structure)
{
    const cw_job_structure *of = structure->given;
    const cw_footing *take = &structure->take;
    const char *where = cw_arena_print(d->arena, "%s, %s from the outlet face", of->name,
                                       feet(d, structure->at_ft));
    const char *rests =
        also(d, d->plan.conflicts.cut.rests_on, "conflict.influence, conflict.structure_clear");
    const bool short_of = take->influence_verdict != CW_HOLDS || take->edge_verdict != CW_HOLDS;
    if (structure->outside && !short_of)
        return;
    if (short_of && given(of->accepted)) {
        draft_add(d, (cw_check){.id = "conflict.footing",
                                .what = cw_arena_print(
                                    d->arena, "The cut beside the structure is designed for: %s",
                                    of->accepted),
                                .where = where,
                                .clause = "29 CFR 1926.651(i), from memory, not verified",
                                .verdict = CW_HOLDS,
                                .working = structure->working});
        return;
    }
    draft_judge(
        d,
        (cw_check){
            .id = "conflict.footing",
            .what =
                "The cut keeps above the line from the footing: its bottom edge is far enough off",
            .where = where,
            .demand = take->had_ft,
            .capacity = take->needed_ft,
            .at_least = true,
            .dim = CW_DIM_FT,
            .clause =
                "29 CFR 1926.651(i), from memory, not verified; slope of the line common practice",
            .rests_on = rests,
            .mend = cw_arena_print(
                d->arena,
                "have an engineer design underpinning or shoring; a bottom no lower than %s, %s "
                "above this "
                "one, would do without",
                cw_quantity_format(d->arena, take->deepest_ft, CW_DIM_ELEV_FT, d->plan.units),
                feet(d, take->deepest_ft - structure->bottom_ft)),
            .working = structure->working});
    draft_judge(
        d, (cw_check){
               .id = "conflict.edge",
               .what = "Top edge of the cut clear of the structure",
               .where = where,
               .demand = take->edge_ft,
               .capacity = of->clear_ft,
               .at_least = true,
               .dim = CW_DIM_FT,
               .clause = cw_arena_print(d->arena, "common practice; %s", d->plan.conflicts.cut.how),
               .rests_on = rests,
               .mend = cw_arena_print(
                   d->arena, "shore or shield the face: upright, its edge would stand %s from it",
                   feet(d, take->had_ft)),
               .working = structure->working});
}

/* ---- right of way ---- */

static void check_line(draft *d, const cw_plan_line *line)
{
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    if (line->outside)
        return;
    const double upright_ft = cut->half_bottom_ft;
    const char *remedy =
        upright_ft <= line->away_ft
            ? cw_arena_print(d->arena,
                             "shore or shield this side: upright, it needs %s; or get an easement",
                             feet(d, upright_ft))
            : cw_arena_print(d->arena,
                             "even an upright face needs %s: narrow the working space, move the "
                             "run, or get an easement",
                             feet(d, upright_ft));
    draft_judge(
        d, (cw_check){.id = "conflict.right-of-way",
                      .what = "The cut stays inside the line",
                      .where = cw_arena_print(d->arena, "%s, %s from the outlet face", line->name,
                                              feet(d, line->at_ft)),
                      .demand = line->half_ft,
                      .capacity = line->away_ft,
                      .dim = CW_DIM_FT,
                      .clause = cw_arena_print(
                          d->arena, "derived: half width of the cut at the ground; %s", cut->how),
                      .rests_on = cut->rests_on,
                      .mend = cw_arena_print(d->arena, "%s over the line: %s",
                                             feet(d, line->half_ft - line->away_ft), remedy)});
}

/* ---- traffic ---- */

static const char *edge_remedy(const draft *d, const cw_plan_phase_edge *edge)
{
    const cw_phase_edge *take = &edge->take;
    if (take->way == CW_EDGE_SHORE)
        return cw_arena_print(
            d->arena,
            "a shored face needs %s and fits: write face: shore, and have an engineer design it",
            feet(d, take->shore_ft));
    const char *lack = feet(d, take->shore_ft - edge->lane_ft);
    return cw_arena_print(d->arena,
                          "not even a shored face fits, %s is missing: narrow or move the lane, or "
                          "detour the traffic",
                          lack);
}

static void check_edge(draft *d, const cw_plan_phase_edge *edge)
{
    const cw_job_phase *phase = &d->job->phases[edge->phase];
    const cw_phase_edge *take = &edge->take;
    const char *where = cw_arena_print(d->arena, "phase line %d, traffic %s of it", edge->phase + 1,
                                       edge->upstream ? "upstream" : "downstream");
    if (!edge->has_depth) {
        draft_add(
            d, (cw_check){
                   .id = "conflict.phase-fit",
                   .what = "Temporary face at the phase line fits beside the traffic",
                   .where = where,
                   .clause = "derived: depth under the road",
                   .verdict = CW_UNDECIDED,
                   .mend =
                       "give the road templates or the ground: the depth of the cut is not known"});
        return;
    }
    const bool shored = phase->face == CW_FACE_SHORED;
    cw_check *row = draft_add(
        d, (cw_check){.id = "conflict.phase-fit",
                      .what = shored ? "Shored face at the phase line fits beside the traffic"
                                     : "Sloped face at the phase line fits beside the traffic",
                      .where = where,
                      .demand = shored ? take->shore_ft : take->slope_ft,
                      .capacity = edge->lane_ft,
                      .dim = CW_DIM_FT,
                      .clause = cw_arena_print(d->arena, "29 CFR 1926.651(j)(2) and barrier; %s",
                                               d->plan.conflicts.cut.how),
                      .rests_on = also(d, d->plan.conflicts.cut.rests_on,
                                       "conflict.barrier, conflict.shore, trench.spoil"),
                      .mend = edge_remedy(d, edge),
                      .working = edge->working});
    cw_check_judge(row);
    const bool chosen = draft_stated(d, cw_arena_print(d->arena, "phases[%d].face", edge->phase));
    if (row->verdict == CW_HOLDS)
        row->mend = "";
    else if (!chosen && take->way == CW_EDGE_SHORE)
        row->verdict = CW_UNDECIDED;
    if (take->fit != CW_HOLDS)
        return; // no face, no load on it
    draft_add(
        d,
        (cw_check){
            .id = "conflict.phase-load",
            .what =
                take->surcharge
                    ? cw_arena_print(d->arena,
                                     "Traffic %s from the edge of the cut, %s deep, loads its face",
                                     feet(d, take->to_lane_ft), feet(d, edge->depth_ft))
                    : cw_arena_print(
                          d->arena,
                          "Traffic %s from the edge of the cut, %s deep, does not load its face",
                          feet(d, take->to_lane_ft), feet(d, edge->depth_ft)),
            .where = where,
            .clause = "29 CFR 1926 Subpart P App. B (surcharge, depth), from memory, not verified",
            .verdict = (cw_verdict)take->load,
            .rests_on = "conflict.surcharge_reach, trench.depth_max",
            .mend = take->load == CW_HOLDS ? ""
                    : shored
                        ? "the engineer of the shoring designs for the traffic"
                        : "the competent person sets a flatter face, or an engineer designs it",
            .working = edge->working});
}

void draft_check_conflicts(draft *d)
{
    const cw_plan_conflicts *conflicts = &d->plan.conflicts;
    if (!conflicts->present)
        return;
    for (int i = 0; i < conflicts->utility_count; i++)
        check_utility(d, &conflicts->utilities[i]);
    for (int i = 0; i < conflicts->structure_count; i++)
        check_structure(d, &conflicts->structures[i]);
    for (int i = 0; i < conflicts->line_count; i++)
        check_line(d, &conflicts->lines[i]);
    for (int i = 0; i < conflicts->edge_count; i++)
        check_edge(d, &conflicts->edges[i]);
}
