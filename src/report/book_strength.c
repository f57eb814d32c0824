/* Strength: loads, envelopes, sections, and what the box bears while it is built. */
#include "book_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

static const char *ground_word(int ground)
{
    static const char *const words[] = {"straight line", "springs"};
    return words[ground];
}

static const char *from_words(const book *b, cw_plan_from from)
{
    return cw_arena_print(b->arena, "%s, cover %s, %s", cw_struct_case_words(from.load),
                          book_value(b, b->plan->strength.cover_ft[from.cover], CW_DIM_FT), ground_word(from.ground));
}

/* ---- owner's choices ---- */

static void choice_pairs(book *b)
{
    static const char *const resistances[] = {"precast box", "precast three-sided structure", "box cast in place"};
    static const char *const spreads[] = {"over a box, with the span term", "without the span term", "fine soil, older editions"};
    const cw_job_strength *given = &b->plan->job->strength;
    const cw_pair pairs[] = {
        {"Resistance factors", resistances[given->resistance]},
        {"Spread of wheels", spreads[given->spread]},
        {"Edition", given->edition == 0 ? "AASHTO LRFD 8th edition; most values from memory, not verified" : "another: see the overrides"},
        {"Earth over the top", given->bed == 0 ? "embankment" : "trench"},
        {"Unit weight of the fill", book_value(b, given->earth_pcf, CW_DIM_PCF)},
        {"Side pressure, as a fluid", cw_arena_print(b->arena, "%s at most, %s at least", book_value(b, given->side_most_pcf, CW_DIM_PCF),
                                                    book_value(b, given->side_least_pcf, CW_DIM_PCF))},
        {"Concrete", book_value(b, b->plan->job->box.strength_psi, CW_DIM_PSI)},
        {"Steel", book_value(b, given->yield_psi, CW_DIM_PSI)},
        {"Ground under the floor", cw_arena_print(b->arena, "straight-line reaction, and springs of %s; both without tension",
                                                  book_value(b, given->ground_pcf, CW_DIM_PCF))},
        {"Traffic", given->design_traffic ? "design truck and tandem" : "none"},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
}

/* ---- envelopes ---- */

static void force_table(book *b, int cover)
{
    static const int places[] = {CW_STRUCT_TOP_MID,   CW_STRUCT_TOP_FACE,  CW_STRUCT_TOP_SHEAR, CW_STRUCT_WALL_TOP,
                                 CW_STRUCT_WALL_MID,  CW_STRUCT_WALL_SHEAR, CW_STRUCT_WALL_FACE, CW_STRUCT_FLOOR_FACE,
                                 CW_STRUCT_FLOOR_SHEAR, CW_STRUCT_FLOOR_MID};
    const cw_plan_strength *s = &b->plan->strength;
    const cw_column columns[] = {
        {"Place", NULL, CW_ALIGN_LEFT, 2.2},
        {"Moment, most\nstraight line", book_unit(b, CW_DIM_FT_LB), CW_ALIGN_RIGHT, 1.3},
        {"least", book_unit(b, CW_DIM_FT_LB), CW_ALIGN_RIGHT, 1.2},
        {"Shear", book_unit(b, CW_DIM_LB_PER_FT), CW_ALIGN_RIGHT, 1.2},
        {"Moment, most\nsprings", book_unit(b, CW_DIM_FT_LB), CW_ALIGN_RIGHT, 1.3},
        {"least", book_unit(b, CW_DIM_FT_LB), CW_ALIGN_RIGHT, 1.2},
        {"Shear", book_unit(b, CW_DIM_LB_PER_FT), CW_ALIGN_RIGHT, 1.2},
    };
    cw_table *table = cw_doc_table(b->document, NULL,
                                   cw_arena_print(b->arena, "Factored forces in a foot of run, cover %s; a plus moment pulls the inside",
                                                  book_value(b, s->cover_ft[cover], CW_DIM_FT)),
                                   columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < COUNT_OF(places); i++) {
        const char *cells[COUNT_OF(columns)] = {cw_struct_place_words(places[i])};
        for (int g = 0; g < CW_PLAN_GROUNDS; g++) {
            const cw_struct_span *at = &s->envelopes[cover][g][CW_STRUCT_STRENGTH].at[places[i]];
            cells[1 + 3 * g] = book_number(b, at->most_ft_lb, CW_DIM_FT_LB);
            cells[2 + 3 * g] = book_number(b, at->least_ft_lb, CW_DIM_FT_LB);
            cells[3 + 3 * g] = book_number(b, at->shear_lb, CW_DIM_LB_PER_FT);
        }
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

/* ---- sections ---- */

static void section_table(book *b)
{
    const cw_plan_strength *s = &b->plan->strength;
    const cw_column columns[] = {
        {"Section", NULL, CW_ALIGN_LEFT, 2.2},
        {"M_u", book_unit(b, CW_DIM_FT_LB), CW_ALIGN_RIGHT, 1.1},
        {"N_u", book_unit(b, CW_DIM_LB_PER_FT), CW_ALIGN_RIGHT, 1.1},
        {"Steel\ngiven", book_unit(b, CW_DIM_SQIN_PER_FT), CW_ALIGN_RIGHT, 0.9},
        {"needed", book_unit(b, CW_DIM_SQIN_PER_FT), CW_ALIGN_RIGHT, 0.9},
        {"least", book_unit(b, CW_DIM_SQIN_PER_FT), CW_ALIGN_RIGHT, 0.9},
        {"M_r", book_unit(b, CW_DIM_FT_LB), CW_ALIGN_RIGHT, 1.1},
        {"Service\nstress", book_unit(b, CW_DIM_PSI), CW_ALIGN_RIGHT, 1.1},
        {"Governed by", NULL, CW_ALIGN_LEFT, 3.4},
    };
    cw_table *table = cw_doc_table(b->document, NULL, "Bending with thrust", columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < s->section_count; i++) {
        const cw_plan_section *section = &s->sections[i];
        const cw_struct_flexure *f = &section->flexure;
        const char *cells[] = {section->name,
                               book_number(b, section->moment_ft_lb, CW_DIM_FT_LB),
                               book_number(b, section->thrust_lb, CW_DIM_LB_PER_FT),
                               section->has_steel ? book_number(b, section->steel_in2_per_ft, CW_DIM_SQIN_PER_FT) : "not given",
                               f->possible ? book_number(b, f->required_in2_per_ft, CW_DIM_SQIN_PER_FT) : "none is enough",
                               book_number(b, f->least_in2_per_ft, CW_DIM_SQIN_PER_FT),
                               section->has_steel ? book_number(b, f->capacity_ft_lb, CW_DIM_FT_LB) : "",
                               section->crack.has_crack ? book_number(b, section->crack.steel_psi, CW_DIM_PSI) : "",
                               from_words(b, section->from)};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static void shear_table(book *b)
{
    const cw_plan_strength *s = &b->plan->strength;
    const cw_column columns[] = {
        {"Section", NULL, CW_ALIGN_LEFT, 2.4},
        {"V_u", book_unit(b, CW_DIM_LB_PER_FT), CW_ALIGN_RIGHT, 1.2},
        {"V_r", book_unit(b, CW_DIM_LB_PER_FT), CW_ALIGN_RIGHT, 1.2},
        {"Steel counted", book_unit(b, CW_DIM_SQIN_PER_FT), CW_ALIGN_RIGHT, 1.3},
        {"Governed by", NULL, CW_ALIGN_LEFT, 3.6},
    };
    cw_table *table = cw_doc_table(b->document, NULL, "Shear, no stirrups", columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < CW_PLAN_SHEARS; i++) {
        const cw_plan_shear *shear = &s->shears[i];
        const char *cells[] = {shear->name, book_number(b, shear->shear_lb, CW_DIM_LB_PER_FT),
                               book_number(b, shear->shear.capacity_lb, CW_DIM_LB_PER_FT),
                               book_number(b, shear->steel_in2_per_ft, CW_DIM_SQIN_PER_FT), from_words(b, shear->from)};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

static void ground_pairs(book *b)
{
    const cw_plan_strength *s = &b->plan->strength;
    const cw_pair pairs[] = {
        {"Pressure under the floor at service, straight line", book_value(b, s->bearing_even_psf, CW_DIM_PSF)},
        {"The same on springs, under the walls", book_value(b, s->bearing_spring_psf, CW_DIM_PSF)},
        {"Settlement under lasting loads, within a factor of two",
         s->bearing.has_settlement ? book_value(b, s->bearing.settlement_in, CW_DIM_IN) : "stiffness not known"},
    };
    cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
}

void book_strength(book *b)
{
    const cw_plan_strength *s = &b->plan->strength;
    if (!s->present)
        return;
    const bool wide = b->room.full_pt > b->room.height_pt;
    const double tall_pt = b->room.height_pt * (wide ? 0.48 : 0.42);
    cw_doc_part(b->document, "strength", "Strength");
    cw_doc_notice(b->document, "FOR REVIEW",
                  "These results are for review by a licensed engineer. They do not replace the precaster's stamped design. Values "
                  "of the design code that are marked from memory must be read against the edition in force.");
    choice_pairs(b);
    if (s->cover_count == 0 || s->status != CW_STRUCT_OK) {
        cw_doc_notice(b->document, "UNDECIDED",
                      s->cover_count == 0 ? "No cover is known, so the finished box was not computed." : cw_struct_status_words(s->status));
        return;
    }
    cw_doc_paragraph(b->document,
                     "A frame on the centre lines, 1 ft of run. A lid struts the walls and never ties them; the ground never pulls. Every "
                     "combination and every place of the wheels is solved with the contacts that it has. Traffic across the span, skew "
                     "ends and openings are not covered.");
    for (int cover = 0; cover < s->cover_count; cover++)
        cw_doc_figure(b->document, NULL, cw_draw_loads(b->plan, cover, b->room.full_pt, tall_pt, b->arena), NULL);
    for (int cover = 0; cover < s->cover_count; cover++)
        force_table(b, cover);
    cw_doc_part(b->document, "forces", "Forces along the box");
    for (int cover = 0; cover < s->cover_count; cover++)
        for (int ground = 0; ground < CW_PLAN_GROUNDS; ground++)
            cw_doc_figure(b->document, NULL,
                          cw_draw_forces(b->plan, cover, ground, b->room.full_pt, b->room.height_pt * (wide ? 0.47 : 0.42), b->arena), NULL);
    cw_doc_part(b->document, "sections", "Sections of the box");
    section_table(b);
    shear_table(b);
    ground_pairs(b);
    cw_doc_figure(b->document, NULL, cw_draw_resistance(b->plan, b->room.full_pt, b->room.height_pt * (wide ? 0.6 : 0.56), b->arena), NULL);
}

/* ---- while it is built ---- */

static void placement_table(book *b)
{
    static const char *const limits[] = {"strength of the wall", "sliding", "floating", "top of the wall"};
    static const cw_column columns[] = {
        {"Placement", NULL, CW_ALIGN_LEFT, 1.0},      {"From, above the floor", NULL, CW_ALIGN_RIGHT, 1.4},
        {"To at most", NULL, CW_ALIGN_RIGHT, 1.2},    {"Limited by", NULL, CW_ALIGN_LEFT, 1.6},
        {"Date, time placed", NULL, CW_ALIGN_LEFT, 1.6}, {"Set, signed", NULL, CW_ALIGN_LEFT, 1.6},
    };
    const cw_plan_strength *s = &b->plan->strength;
    cw_doc_heading(b->document, NULL, "Fill between barrels");
    if (s->lift_count == 0) {
        cw_doc_notice(b->document, "HOLD",
                      s->lifts_needed == 0 ? "No placement of useful height is safe: have the walls braced, or use granular fill."
                                           : cw_arena_print(b->arena, "The job plans %d placements and its limits ask for %d.",
                                                            b->plan->job->fill.placements, s->lifts_needed));
        return;
    }
    cw_table *table = cw_doc_table(b->document, "placements", "Heights of the placements; each sets before the next", columns, COUNT_OF(columns));
    for (int i = 0; i < s->lift_count; i++) {
        const char *cells[] = {book_count(b, i + 1), book_value(b, s->lifts[i].from_ft, CW_DIM_FT),
                               book_value(b, s->lifts[i].to_ft, CW_DIM_FT), limits[s->lifts[i].governs], "", ""};
        cw_table_row(table, CW_ROW_PLAIN, cells)->height_pt = 18.0;
    }
    if (s->first_fill.verdict == CW_UNDECIDED)
        cw_doc_notice(b->document, "UNDECIDED",
                      "The engineer's figure for the wall is not given: these heights count sliding and floating alone.");
}

static void crossing_part(book *b, double tall_pt)
{
    static const cw_column columns[] = {
        {"Machine", NULL, CW_ALIGN_LEFT, 2.2},      {"Cover it needs", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Cover planned", NULL, CW_ALIGN_RIGHT, 1.2}, {"Cover measured", NULL, CW_ALIGN_LEFT, 1.4},
        {"May cross, signed", NULL, CW_ALIGN_LEFT, 1.6},
    };
    const cw_plan_strength *s = &b->plan->strength;
    if (s->crossing_count == 0)
        return;
    cw_doc_heading(b->document, NULL, "Machines over the box");
    cw_table *table = cw_doc_table(b->document, "crossings", "No machine crosses before its line is signed", columns, COUNT_OF(columns));
    for (int i = 0; i < s->crossing_count; i++) {
        const cw_plan_crossing *crossing = &s->crossings[i];
        const char *cells[] = {crossing->given->name,
                               crossing->cross.found ? book_value(b, crossing->cross.needed_ft, CW_DIM_FT) : "never",
                               book_value(b, crossing->cover_ft, CW_DIM_FT), "", ""};
        cw_table_row(table, CW_ROW_PLAIN, cells)->height_pt = 18.0;
    }
    cw_doc_figure(b->document, NULL, cw_draw_crossings(b->plan, b->room.full_pt, tall_pt, b->arena), NULL);
}

static const char *hook_words(const book *b, const cw_plan_handling *handling)
{
    const cw_struct_lift *lift = &handling->lift;
    if (!handling->type)
        return "the precaster's lift drawing rules";
    return cw_arena_print(b->arena, "mark %s, %s: slab %s, wall %s, without cracks up to %s", handling->type->mark,
                          handling->sling_deg < 90.0 ? cw_arena_print(b->arena, "slings at %s", book_value(b, handling->sling_deg, CW_DIM_DEG))
                                                     : "slings plumb under a spreader",
                          book_value(b, lift->stress_psi, CW_DIM_PSI),
                          book_value(b, lift->wall_stress_psi, CW_DIM_PSI), book_value(b, lift->limit_psi, CW_DIM_PSI));
}

void book_stages(book *b)
{
    const cw_plan_strength *s = &b->plan->strength;
    if (!s->present && !s->has_fill)
        return;
    const bool wide = b->room.full_pt > b->room.height_pt;
    cw_doc_part(b->document, "stages", "What the box bears while it is built");
    cw_doc_notice(b->document, "CAUTION",
                  "A base without its top is two free walls. No earth and no fluid fill stands higher against it than the figure on this "
                  "sheet, and nobody stands between barrels while fill is placed. Limits are for review by a licensed engineer.");
    if (s->has_fill)
        placement_table(b);
    if (!s->present)
        return;
    if (b->plan->job->box.form != CW_FORM_RING) {
        const cw_pair pairs[] = {
            {"Earth against a base without its top",
             s->has_open ? cw_arena_print(b->arena, "%s above the floor at most", book_value(b, s->open.limit_ft, CW_DIM_FT))
                         : "none: no figure for the wall is given"},
            {"Base on the hook", hook_words(b, &s->base_lift)},
            {"Top on the hook", hook_words(b, &s->top_lift)},
        };
        cw_doc_heading(b->document, NULL, "Walls and hook");
        cw_doc_pairs(b->document, pairs, COUNT_OF(pairs), 1);
    }
    crossing_part(b, b->room.height_pt * (wide ? 0.6 : 0.38));
}
