/* Ends of the culvert, and what stands in the way of the cut. */
#include "book_internal.h"

#include <math.h>
#include <string.h>

#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

/* ---- ends ---- */

static void wing_table(book *b, const cw_plan_end_works *works)
{
    static const cw_column columns[] = {
        {"Wing", NULL, CW_ALIGN_LEFT, 1.0},
        {"Kind", NULL, CW_ALIGN_LEFT, 2.0},
        {"From the\nroad's normal", NULL, CW_ALIGN_RIGHT, 1.4},
        {"Length", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Root", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Tip", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Thick", NULL, CW_ALIGN_RIGHT, 1.0},
        {"Footing", NULL, CW_ALIGN_RIGHT, 1.8},
        {"Fill at\nthe tip", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Panel", NULL, CW_ALIGN_RIGHT, 1.3},
    };
    static const char *const kinds[] = {"flared", "along the barrel", "in line with the road"};
    static const char *const sides[] = {"left", "right"};
    if (!works->wings[0].present && !works->wings[1].present)
        return;
    cw_table *table = cw_doc_table(b->document, NULL, "Wingwalls, heights above the invert",
                                   columns, COUNT_OF(columns));
    table->wide = true;
    for (int side = 0; side < 2; side++) {
        const cw_plan_wing *wing = &works->wings[side];
        if (!wing->present)
            continue;
        const char *kind = wing->given->kind == CW_JOB_WING_FLARED
                               ? cw_arena_print(b->arena, "flared %s",
                                                book_value(b, wing->given->flare_deg, CW_DIM_DEG))
                               : kinds[wing->given->kind];
        if (!wing->has_take) {
            const char *cells[] = {
                sides[side], kind,
                "",          "none",
                "",          "",
                "",          "",
                "",          wing->fault ? "see the ledger" : "never leaves the fill"};
            cw_table_row(table, CW_ROW_STRONG, cells);
            continue;
        }
        const char *cells[] = {
            sides[side],
            cw_arena_print(b->arena, "%s, %s", kind,
                           wing->given->make == CW_WALL_CAST ? "cast" : "precast"),
            book_value(b, wing->take.from_normal_deg, CW_DIM_DEG),
            book_value(b, wing->take.length_ft, CW_DIM_FT),
            book_value(b, wing->root_ft, CW_DIM_FT),
            book_value(b, wing->tip_ft, CW_DIM_FT),
            book_value(b, wing->given->thickness_in, CW_DIM_IN),
            cw_arena_print(b->arena, "%s x %s",
                           book_value(b, wing->take.footing_width_ft, CW_DIM_FT),
                           book_value(b, wing->given->footing_in, CW_DIM_IN)),
            wing->has_fill ? book_value(b, wing->fill_tip_ft, CW_DIM_FT) : "not known",
            wing->take.panel_lb > 0.0 ? book_value(b, wing->take.panel_lb, CW_DIM_LB) : "none"};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static void end_quantities(book *b, const char *end)
{
    static const cw_column columns[] = {{"Quantity", NULL, CW_ALIGN_LEFT, 3.0},
                                        {"Amount", NULL, CW_ALIGN_RIGHT, 1.2},
                                        {"Taken off by", NULL, CW_ALIGN_LEFT, 4.0}};
    cw_table *table =
        cw_doc_table(b->document, NULL, "Quantities of this end", columns, COUNT_OF(columns));
    for (int i = 0; i < b->plan->quantity_count; i++) {
        const cw_plan_quantity *quantity = &b->plan->quantities[i];
        if (strcmp(quantity->group, "Ends") != 0 || strncmp(quantity->item, end, strlen(end)) != 0)
            continue;
        const char *cells[] = {quantity->item, book_value(b, quantity->printed, quantity->dim),
                               quantity->rule};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static void corner_table(book *b, const cw_plan_end_works *works)
{
    static const cw_column columns[] = {{"Point", NULL, CW_ALIGN_LEFT, 2.0},
                                        {"Northing", NULL, CW_ALIGN_RIGHT, 1.6},
                                        {"Easting", NULL, CW_ALIGN_RIGHT, 1.6}};
    static const char *const sides[] = {"left", "right"};
    const cw_run_inlet inlet = b->plan->path.frame.inlet;
    cw_table *table = cw_doc_table(b->document, NULL, "Stake-out of the end, inner faces", columns,
                                   COUNT_OF(columns));
    for (int side = 0; side < 2; side++) {
        const struct {
            const char *what;
            cw_end_point at;
            bool there;
        } points[] = {{"root of the wing", works->plan.root[side], true},
                      {"tip of the wing", works->plan.tip[side], works->wings[side].has_take},
                      {"end of the outer edge", works->plan.edge[side],
                       works->has_apron || works->has_cutoff}};
        for (int k = 0; k < COUNT_OF(points); k++) {
            if (!points[k].there)
                continue;
            const cw_run_place place = cw_plan_end_place(works, inlet, points[k].at);
            const char *cells[] = {cw_arena_print(b->arena, "%s, %s", sides[side], points[k].what),
                                   book_number(b, place.northing_ft, CW_DIM_COORD_FT),
                                   book_number(b, place.easting_ft, CW_DIM_COORD_FT)};
            cw_table_row(table, CW_ROW_PLAIN, cells);
        }
    }
}

static void end_part(book *b, bool inlet)
{
    const cw_plan_end_works *works = inlet ? &b->plan->inlet.works : &b->plan->outlet.works;
    const double wide_pt = b->room.full_pt, tall_pt = b->room.height_pt;
    if (!works->present)
        return;
    cw_doc_part(b->document, inlet ? "inlet-end" : "outlet-end",
                inlet ? "Inlet end" : "Outlet end");
    cw_doc_figure(b->document, NULL,
                  cw_draw_end(b->plan, inlet, wide_pt,
                              wide_pt > tall_pt ? tall_pt * 0.86 : tall_pt * 0.62, b->arena),
                  NULL);
    wing_table(b, works);
    end_quantities(b, inlet ? "Inlet" : "Outlet");
    corner_table(b, works);
    cw_doc_notice(
        b->document, "NOTE",
        inlet ? "The inlet cutoff wall is cast before backfill passes it. No backfill loads a "
                "headwall or wing before its concrete has "
                "the strength for it. Stability, reinforcement, weep holes and the depth of frost "
                "and scour are the engineer's."
              : "The outlet cutoff wall is cast before the bedding: the first piece is set against "
                "it, and its line is the datum of the "
                "whole run. No backfill loads a headwall or wing before its concrete has the "
                "strength for it. Stability, "
                "reinforcement, weep holes and the depth of frost and scour are the engineer's.");
}

void book_ends(book *b)
{
    end_part(b, false);
    end_part(b, true);
}

/* ---- obstacles ---- */

/* Worst verdict of the rows whose place begins with this name. */
static const char *verdict_of(const book *b, const char *name)
{
    cw_verdict worst = CW_HOLDS;
    for (int i = 0; i < b->plan->checks.count; i++) {
        const cw_check *check = &b->plan->checks.items[i];
        if (strncmp(check->id, "conflict.", 9) != 0 ||
            strncmp(check->where, name, strlen(name)) != 0)
            continue;
        const char next = check->where[strlen(name)];
        if (next != '\0' && next != ',')
            continue;
        if (check->verdict == CW_FAILS || (check->verdict == CW_UNDECIDED && worst == CW_HOLDS))
            worst = check->verdict;
    }
    return cw_verdict_word(worst);
}

static const char *gap_words(const book *b, double gap_ft)
{
    return gap_ft > CW_ANY_HIGH / 2 ? "far" : book_value(b, gap_ft, CW_DIM_FT);
}

static void utility_table(book *b)
{
    static const cw_column columns[] = {
        {"Utility", NULL, CW_ALIGN_LEFT, 2.0},
        {"Where", NULL, CW_ALIGN_LEFT, 2.2},
        {"Top", NULL, CW_ALIGN_RIGHT, 1.3},
        {"From the\ncut", NULL, CW_ALIGN_RIGHT, 1.2},
        {"From the\nbox", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Wanted", NULL, CW_ALIGN_RIGHT, 1.0},
        {"In the\ncut", NULL, CW_ALIGN_RIGHT, 1.2},
        {"What is done with it", NULL, CW_ALIGN_LEFT, 2.6},
        {"Verdict", NULL, CW_ALIGN_LEFT, 1.1},
    };
    static const char *const supports[] = {"nothing stated", "hung", "relocated", "shut off",
                                           "removed"};
    const cw_plan_conflicts *conflicts = &b->plan->conflicts;
    if (conflicts->utility_count == 0)
        return;
    cw_table *table =
        cw_doc_table(b->document, NULL, "Utilities; below 0: in the cut or in the concrete",
                     columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < conflicts->utility_count; i++) {
        const cw_plan_utility *found = &conflicts->utilities[i];
        const cw_job_utility *given = found->given;
        const char *where = given->has_at
                                ? cw_arena_print(b->arena, "crosses at %s, %s",
                                                 book_value(b, given->at_ft, CW_DIM_FT),
                                                 book_value(b, given->angle_deg, CW_DIM_DEG))
                                : cw_arena_print(b->arena, "%s to %s, %s to %s off",
                                                 book_value(b, given->from_ft, CW_DIM_FT),
                                                 book_value(b, given->to_ft, CW_DIM_FT),
                                                 book_value(b, given->from_offset_ft, CW_DIM_FT),
                                                 book_value(b, given->to_offset_ft, CW_DIM_FT));
        const char *done =
            given->accepted && given->accepted[0]
                ? cw_arena_print(b->arena, "%s: %s", supports[given->support], given->accepted)
                : supports[given->support];
        const char *located =
            given->located && given->located[0] ? given->located : "not located yet";
        const char *cells[] = {
            cw_arena_print(b->arena, "%s%s", given->name,
                           given->status == CW_UTILITY_LIVE ? "" : "\nabandoned"),
            where,
            found->has_level ? book_value(b, found->top_ft, CW_DIM_ELEV_FT) : "not known",
            gap_words(b, found->cut_gap_ft),
            gap_words(b, found->box_gap_ft),
            book_value(b, given->clearance_in, CW_DIM_IN),
            found->exposed_ft > 0.0 ? book_value(b, found->exposed_ft, CW_DIM_FT) : "no",
            cw_arena_print(b->arena, "%s\n%s", done, located),
            verdict_of(b, given->name)};
        cw_table_row(table, strcmp(cells[8], "holds") == 0 ? CW_ROW_PLAIN : CW_ROW_STRONG, cells);
    }
}

static void structure_table(book *b)
{
    static const cw_column columns[] = {
        {"Structure", NULL, CW_ALIGN_LEFT, 2.0},
        {"Worst at", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Footing", NULL, CW_ALIGN_RIGHT, 1.3},
        {"Cut goes\nbelow it", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Bottom edge\nwanted off", NULL, CW_ALIGN_RIGHT, 1.3},
        {"had", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Top edge\noff", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Lowest bottom\nwithout support", NULL, CW_ALIGN_RIGHT, 1.5},
        {"Verdict", NULL, CW_ALIGN_LEFT, 1.1},
    };
    const cw_plan_conflicts *conflicts = &b->plan->conflicts;
    if (conflicts->structure_count == 0)
        return;
    cw_table *table =
        cw_doc_table(b->document, NULL, "Standing structures", columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < conflicts->structure_count; i++) {
        const cw_plan_structure *found = &conflicts->structures[i];
        const char *cells[] = {found->given->name,
                               book_value(b, found->at_ft, CW_DIM_FT),
                               book_value(b, found->given->foundation_ft, CW_DIM_ELEV_FT),
                               book_value(b, found->take.below_ft, CW_DIM_FT),
                               book_value(b, found->take.needed_ft, CW_DIM_FT),
                               book_value(b, found->take.had_ft, CW_DIM_FT),
                               book_value(b, found->take.edge_ft, CW_DIM_FT),
                               book_value(b, found->take.deepest_ft, CW_DIM_ELEV_FT),
                               verdict_of(b, found->given->name)};
        cw_table_row(table, strcmp(cells[8], "holds") == 0 ? CW_ROW_PLAIN : CW_ROW_STRONG, cells);
    }
}

static void edge_table(book *b)
{
    static const cw_column columns[] = {
        {"Phase line", NULL, CW_ALIGN_LEFT, 1.6},
        {"Traffic", NULL, CW_ALIGN_LEFT, 1.3},
        {"Lane at", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Depth", NULL, CW_ALIGN_RIGHT, 1.1},
        {"Sloped face\nneeds", NULL, CW_ALIGN_RIGHT, 1.3},
        {"Shored face\nneeds", NULL, CW_ALIGN_RIGHT, 1.3},
        {"Edge to\nlane", NULL, CW_ALIGN_RIGHT, 1.1},
        {"What fits", NULL, CW_ALIGN_LEFT, 1.6},
        {"Traffic loads\nthe face", NULL, CW_ALIGN_LEFT, 1.3},
    };
    static const char *const ways[] = {"sloped face", "only a shored face", "nothing"};
    const cw_plan_conflicts *conflicts = &b->plan->conflicts;
    if (conflicts->edge_count == 0)
        return;
    cw_table *table = cw_doc_table(
        b->document, NULL, "Temporary faces beside traffic, from the phase line along the barrel",
        columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < conflicts->edge_count; i++) {
        const cw_plan_phase_edge *edge = &conflicts->edges[i];
        const cw_job_phase *phase = &b->plan->job->phases[edge->phase];
        const char *line = cw_arena_print(b->arena, "%d, %s", edge->phase + 1, phase->name);
        const char *traffic = edge->upstream ? "upstream" : "downstream";
        if (!edge->has_depth) {
            const char *cells[] = {line,        traffic, book_value(b, edge->lane_ft, CW_DIM_FT),
                                   "not known", "",      "",
                                   "",          "",      ""};
            cw_table_row(table, CW_ROW_STRONG, cells);
            continue;
        }
        const bool planned = edge->take.fit == CW_HOLDS;
        const char *fits =
            planned && phase->face == CW_FACE_SHORED ? "shored face" : ways[edge->take.way];
        const char *cells[] = {line,
                               traffic,
                               book_value(b, edge->lane_ft, CW_DIM_FT),
                               book_value(b, edge->depth_ft, CW_DIM_FT),
                               book_value(b, edge->take.slope_ft, CW_DIM_FT),
                               book_value(b, edge->take.shore_ft, CW_DIM_FT),
                               planned ? book_value(b, edge->take.to_lane_ft, CW_DIM_FT) : "",
                               fits,
                               !planned               ? ""
                               : edge->take.surcharge ? "yes: to be designed"
                                                      : "no"};
        cw_table_row(table, planned ? CW_ROW_PLAIN : CW_ROW_STRONG, cells);
    }
}

void book_obstacles(book *b)
{
    const cw_plan_conflicts *conflicts = &b->plan->conflicts;
    const double wide_pt = b->room.full_pt, tall_pt = b->room.height_pt;
    if (!conflicts->present)
        return;
    cw_doc_part(b->document, "obstacles", "Obstacles to the cut");
    cw_doc_figure(b->document, NULL,
                  cw_draw_obstacles(b->plan, wide_pt,
                                    wide_pt > tall_pt ? tall_pt * 0.78 : tall_pt * 0.6, b->arena),
                  NULL);
    utility_table(b);
    structure_table(b);
    edge_table(b);
    if (conflicts->utility_count > 0)
        cw_doc_notice(b->document, "HOLD",
                      "Each utility is located and exposed by hand or vacuum, and supported, "
                      "before a machine digs nearer to it than the tolerance zone "
                      "of the state's law. A struck line is a stop of work: clear the cut, call "
                      "the owner, and nobody goes back before the owner releases it.");
    if (conflicts->edge_count > 0)
        cw_doc_notice(b->document, "CAUTION",
                      "A competent person inspects the face beside traffic before each shift and "
                      "after rain. Shoring beside traffic is designed by an "
                      "engineer for the wheels that pass it.");
}
