/* Quantities, cut sheet, blank logs, workings, assumptions. */
#include "book_internal.h"

#include <string.h>

#include "cw/text.h"

#define COUNT_OF(table) ((int)(sizeof(table) / sizeof(table)[0]))

void book_quantities(book *b)
{
    static const cw_column columns[] = {
        {"Item", NULL, CW_ALIGN_LEFT, 3.6},   {"Exact", NULL, CW_ALIGN_RIGHT, 1.5},
        {"Printed", NULL, CW_ALIGN_RIGHT, 1.5}, {"Rounded", NULL, CW_ALIGN_LEFT, 1.0},
        {"How it is taken off", NULL, CW_ALIGN_LEFT, 3.8},
    };
    static const char *const roundings[] = {"", "up", "nearest"};
    cw_doc_part(b->document, "quantities", "Quantities");
    cw_doc_paragraph(b->document, "Nothing is rounded on the way; only the printed amount is, in the direction named. Laid length and "
                                  "pay length are different numbers: the contract says which one is paid.");
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    const char *group = "";
    for (int i = 0; i < b->plan->quantity_count; i++) {
        const cw_plan_quantity *quantity = &b->plan->quantities[i];
        if (strcmp(group, quantity->group) != 0) {
            const char *head[] = {quantity->group, "", "", "", ""};
            cw_table_row(table, CW_ROW_GROUP, head);
            group = quantity->group;
        }
        const char *cells[] = {quantity->item, book_value(b, quantity->exact, quantity->dim),
                               quantity->rounding == CW_ROUND_NONE ? "" : book_value(b, quantity->printed, quantity->dim),
                               roundings[quantity->rounding], quantity->rule};
        cw_table_row(table, CW_ROW_PLAIN, cells);
    }
}

/* ---- cut sheet ---- */

static void cut_rows(book *b, int number)
{
    static const cw_column columns[] = {
        {"Joint", NULL, CW_ALIGN_LEFT, 1.7},       {"Plan\ndist.", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Northing", NULL, CW_ALIGN_RIGHT, 1.95},  {"Easting", NULL, CW_ALIGN_RIGHT, 1.95},
        {"Sub-\ngrade", NULL, CW_ALIGN_RIGHT, 1.2}, {"Top of\nbedding", NULL, CW_ALIGN_RIGHT, 1.2},
        {"Invert", NULL, CW_ALIGN_RIGHT, 1.2},     {"Wall\ntop", NULL, CW_ALIGN_RIGHT, 1.2},
        {"HI", NULL, CW_ALIGN_LEFT, 0.9},          {"Rod", NULL, CW_ALIGN_LEFT, 0.9},
        {"Read", NULL, CW_ALIGN_LEFT, 0.95},       {"Off", NULL, CW_ALIGN_LEFT, 0.8},
    };
    const cw_plan_barrel *barrel = &b->plan->barrels[number];
    cw_doc_heading(b->document, NULL, cw_arena_print(b->arena, "Barrel %d", number + 1));
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    table->boxed = true;
    for (int i = 0; i <= barrel->base_count; i++) {
        const cw_plan_joint *joint = &barrel->joints[i];
        const char *cells[] = {joint->name,
                               book_number(b, joint->at.at_ft, CW_DIM_FT),
                               book_number(b, joint->at.place.northing_ft, CW_DIM_COORD_FT),
                               book_number(b, joint->at.place.easting_ft, CW_DIM_COORD_FT),
                               book_number(b, joint->subgrade_ft, CW_DIM_ELEV_FT),
                               book_number(b, joint->bedding_ft, CW_DIM_ELEV_FT),
                               book_number(b, joint->at.invert_ft, CW_DIM_ELEV_FT),
                               book_number(b, joint->seat_ft, CW_DIM_ELEV_FT),
                               "", "", "", ""};
        cw_table_row(table, joint->mitred || joint->phase_line ? CW_ROW_STRONG : CW_ROW_PLAIN, cells)->height_pt = 17.0;
    }
}

void book_cut_sheet(book *b)
{
    cw_doc_part(b->document, "cut-sheet", "Cut sheet");
    cw_doc_paragraph(b->document,
                     cw_arena_print(b->arena,
                                    "At the middle of each joint and at both faces, in %s. Rod = HI less elevation. Check HI on the "
                                    "benchmark before and after. Bold: joint at a bend or phase line. Bedding elevation is under the "
                                    "leveling course; the wall top is the grade control of the top pieces.",
                                    b->plan->units == CW_SI ? "metres" : "feet"));
    for (int i = 0; i < b->plan->barrel_count; i++)
        cut_rows(b, i);
}

/* ---- blank logs ---- */

void book_logs(book *b)
{
    static const cw_column joint[] = {
        {"Joint", NULL, CW_ALIGN_LEFT, 1.4},      {"Gap left\nbottom", NULL, CW_ALIGN_LEFT, 1.0},
        {"Gap left\ntop", NULL, CW_ALIGN_LEFT, 1.0}, {"Gap right\nbottom", NULL, CW_ALIGN_LEFT, 1.0},
        {"Gap right\ntop", NULL, CW_ALIGN_LEFT, 1.0}, {"Lip at\nfloor", NULL, CW_ALIGN_LEFT, 0.9},
        {"Invert\nread", NULL, CW_ALIGN_LEFT, 1.1}, {"Off\nline", NULL, CW_ALIGN_LEFT, 0.8},
        {"Sealant\nlot", NULL, CW_ALIGN_LEFT, 1.1}, {"Temp.", NULL, CW_ALIGN_LEFT, 0.8},
        {"By, time", NULL, CW_ALIGN_LEFT, 1.3},
    };
    static const cw_column receiving[] = {
        {"Mark and\nserial", NULL, CW_ALIGN_LEFT, 1.4}, {"Cast\ndate", NULL, CW_ALIGN_LEFT, 1.0},
        {"Strength", NULL, CW_ALIGN_LEFT, 1.0},         {"Length\nleft", NULL, CW_ALIGN_LEFT, 1.0},
        {"Length\nright", NULL, CW_ALIGN_LEFT, 1.0},    {"Tongue,\ngroove sound", NULL, CW_ALIGN_LEFT, 1.2},
        {"Wall tops\nflat, wide", NULL, CW_ALIGN_LEFT, 1.2}, {"Inserts\nsound", NULL, CW_ALIGN_LEFT, 1.0},
        {"Scaled\nweight", NULL, CW_ALIGN_LEFT, 1.1},   {"Taken,\nby", NULL, CW_ALIGN_LEFT, 1.2},
    };
    const bool wide = b->room.full_pt > b->room.height_pt;
    cw_doc_part(b->document, "joint-log", "Joint log");
    cw_doc_form(b->document, "Fill in before the hook is let go; gaps at both sides, bottom and top", joint, COUNT_OF(joint), wide ? 22 : 24,
                20.0)->wide = true;
    cw_doc_part(b->document, "receiving-log", "Receiving log");
    cw_doc_form(b->document, "Tape every piece on the truck, before it is unloaded", receiving, COUNT_OF(receiving), wide ? 22 : 24, 20.0)
        ->wide = true;
}

/* ---- workings, assumptions ---- */

void book_workings(book *b)
{
    static const cw_column columns[] = {
        {"Symbol", NULL, CW_ALIGN_LEFT, 1.2}, {"Expression", NULL, CW_ALIGN_LEFT, 4.8},
        {"Value", NULL, CW_ALIGN_RIGHT, 1.8}, {"Source", NULL, CW_ALIGN_LEFT, 3.2},
    };
    cw_doc_part(b->document, "workings", "Workings");
    cw_doc_paragraph(b->document, "Each step can be followed by hand. Values are printed rounded and carried unrounded.");
    for (int i = 0; i < b->plan->working_count; i++) {
        const cw_working *working = &b->plan->workings[i];
        if (working->count == 0)
            continue;
        cw_doc_heading(b->document, cw_arena_print(b->arena, "working %s", working->title), working->title);
        cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
        for (int k = 0; k < working->count; k++) {
            const cw_working_step *step = &working->steps[k];
            const char *cells[] = {step->symbol, step->expression, book_value(b, step->value, step->dim), step->source};
            cw_table_row(table, CW_ROW_PLAIN, cells);
        }
    }
}

void book_assumptions(book *b)
{
    static const cw_column columns[] = {
        {"Entry", NULL, CW_ALIGN_LEFT, 2.4}, {"Value taken", NULL, CW_ALIGN_LEFT, 1.6},
        {"Meaning", NULL, CW_ALIGN_LEFT, 3.4}, {"Source and standing", NULL, CW_ALIGN_LEFT, 3.0},
    };
    const cw_job *job = b->plan->job;
    cw_doc_part(b->document, "assumptions", "Assumptions");
    cw_doc_paragraph(b->document,
                     cw_arena_print(b->arena,
                                    "What the job file does not state and the program took instead: %d entries. Rows from memory or "
                                    "practice are not from your contract: read it and state them. Specification profile: %s.",
                                    job->assumption_count, job->rows_name));
    cw_table *table = cw_doc_table(b->document, NULL, NULL, columns, COUNT_OF(columns));
    table->wide = true;
    for (int i = 0; i < job->assumption_count; i++) {
        const cw_assumption *assumption = &job->assumptions[i];
        const char *cells[] = {assumption->path, assumption->value, assumption->meaning, assumption->source};
        cw_table_row(table, assumption->status == CW_STATUS_CONTRACT ? CW_ROW_STRONG : CW_ROW_PLAIN, cells);
    }
}
