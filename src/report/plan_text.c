/* The ledger for a terminal, and the lists that other programs take as CSV. */
#include <math.h>
#include <string.h>

#include "cw/report.h"
#include "cw/text.h"
#include "cw/units.h"

static void add_numbers(cw_text *text, const cw_check *check, const cw_plan *plan, cw_arena *arena)
{
    if (!check->has_numbers)
        return;
    cw_text_print(text, "    %s, %s %s", cw_quantity_format(arena, check->demand, check->dim, plan->units),
                  check->at_least ? "wanted at least" : "allowed",
                  cw_quantity_format(arena, check->capacity, check->dim, plan->units));
    if (check->ratio > 0.0)
        cw_text_print(text, ", used %s %%", cw_decimal(arena, check->ratio * CW_PERCENT, 0));
    cw_text_add(text, "\n");
}

const char *cw_ledger_text(const cw_plan *plan, cw_arena *arena)
{
    static const cw_verdict order[] = {CW_FAILS, CW_UNDECIDED, CW_HOLDS};
    cw_text text = cw_text_on(arena);
    int counts[3] = {0};
    for (int i = 0; i < plan->checks.count; i++)
        counts[plan->checks.items[i].verdict]++;
    cw_text_print(&text, "%s\nLedger: %d hold, %d fail, %d undecided\n", plan->job->head.name, counts[CW_HOLDS],
                  counts[CW_FAILS], counts[CW_UNDECIDED]);
    for (size_t v = 0; v < sizeof order / sizeof order[0]; v++) {
        for (int i = 0; i < plan->checks.count; i++) {
            const cw_check *check = &plan->checks.items[i];
            if (check->verdict != order[v])
                continue;
            cw_text_print(&text, "\n%-9s %s%s%s  [%s]\n", cw_verdict_word(check->verdict), check->what,
                          check->where[0] ? ": " : "", check->where, check->id);
            add_numbers(&text, check, plan, arena);
            cw_text_print(&text, "    by: %s\n", check->clause);
            if (check->verdict != CW_HOLDS && check->mend[0])
                cw_text_print(&text, "    to mend: %s\n", check->mend);
        }
    }
    return cw_text_string(&text);
}

/* A CSV cell, quoted when it must be (RFC 4180). */
static void add_cell(cw_text *text, const char *value, bool last)
{
    if (value[strcspn(value, ",\"\r\n")] == '\0') {
        cw_text_add(text, value);
    } else {
        cw_text_add(text, "\"");
        for (const char *at = value; *at; at++)
            cw_text_add_bytes(text, *at == '"' ? "\"\"" : at, *at == '"' ? 2 : 1);
        cw_text_add(text, "\"");
    }
    cw_text_add(text, last ? "\r\n" : ",");
}

const char *cw_pieces_csv(const cw_plan *plan, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    cw_text_add(&text, "turn,slot,mark,description,barrel,row,laying_length_in,weight_lb,pick_lb,cg_x_ft,cg_y_ft,cg_z_ft,"
                       "start_plan_ft,end_plan_ft,invert_start_ft,invert_end_ft,load\r\n");
    for (int i = 0; plan->order && i < plan->piece_count; i++) {
        const cw_plan_piece *piece = &plan->pieces[plan->setting[i]];
        const cw_plan_type *type = &plan->types[piece->type];
        cw_text_print(&text, "%d,%s,%s,", piece->turn, piece->slot, type->mark);
        add_cell(&text, type->name, false);
        cw_text_print(&text, "%d,%s,%.4f,%.0f,%.0f,%.3f,%.3f,%.3f,%.4f,%.4f,%.4f,%.4f,%d\r\n", piece->barrel + 1,
                      piece->row == CW_ORDER_BASE ? "base" : "top", piece->length_in, type->weight.weight_lb,
                      type->pick_lb, type->weight.x_ft, type->weight.y_ft, type->weight.z_ft, piece->start_ft,
                      piece->end_ft, piece->invert_start_ft, piece->invert_end_ft, piece->load);
    }
    return cw_text_string(&text);
}

const char *cw_points_csv(const cw_plan *plan, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    int number = 1;
    for (int b = 0; b < plan->barrel_count; b++)
        for (int i = 0; i <= plan->barrels[b].base_count; i++) {
            const cw_plan_joint *joint = &plan->barrels[b].joints[i];
            cw_text_print(&text, "%d,%.3f,%.3f,%.3f,INV %s\r\n", number++, joint->at.place.northing_ft,
                          joint->at.place.easting_ft, joint->at.invert_ft, joint->name);
        }
    for (int i = 0; i < plan->grade.stake_count; i++) {
        const cw_plan_stake *stake = &plan->grade.stakes[i];
        cw_text_print(&text, "%d,%.3f,%.3f,%.3f,OFF%.2f%s INV %s\r\n", number++, stake->northing_ft, stake->easting_ft, stake->invert_ft,
                      fabs(stake->offset_ft), stake->offset_ft < 0.0 ? "L" : "R", stake->name);
    }
    return cw_text_string(&text);
}

/* ---- the rows behind the numbers ---- */

const char *cw_rows_csv(const cw_rows *rows, cw_arena *arena)
{
    static const char *const letters[] = {"S", "M", "P", "C"};
    cw_text text = cw_text_on(arena);
    cw_text_add(&text, "id,value,unit,low,high,source,edition,clause,status,note\r\n");
    for (int i = 0; i < rows->count; i++) {
        const cw_row *row = &rows->items[i];
        cw_text_print(&text, "%s,%.15g,%s,%.15g,%.15g,", row->id, row->value, cw_row_unit(row->dim), row->low, row->high);
        add_cell(&text, row->source ? row->source : "", false);
        add_cell(&text, row->edition ? row->edition : "", false);
        add_cell(&text, row->clause ? row->clause : "", false);
        cw_text_print(&text, "%s,", letters[row->status]);
        add_cell(&text, row->note ? row->note : "", true);
    }
    return cw_text_string(&text);
}

const char *cw_rows_text(const cw_rows *rows, cw_unit_system units, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    for (int i = 0; i < rows->count; i++) {
        const cw_row *row = &rows->items[i];
        cw_text_print(&text, "%-34s %14s  %s\n", row->id, cw_quantity_format(arena, row->value, row->dim, units),
                      cw_row_source(arena, row));
    }
    return cw_text_string(&text);
}

/* Rows of one source: counted by status. */
static void add_source(cw_text *text, const cw_rows *rows, int first)
{
    const cw_row *row = &rows->items[first];
    int counts[4] = {0};
    for (int i = first; i < rows->count; i++)
        if (cw_text_same(rows->items[i].source, row->source))
            counts[rows->items[i].status]++;
    cw_text_print(text, "| %s | %d | %d | %d |\n", row->source, counts[CW_STATUS_READ], counts[CW_STATUS_MEMORY],
                  counts[CW_STATUS_PRACTICE]);
}

const char *cw_rows_sources(const cw_rows *rows, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    cw_text_add(&text, "| source | rows read | from memory | common practice |\n|---|---|---|---|\n");
    for (int i = 0; i < rows->count; i++) {
        bool seen = false;
        for (int k = 0; k < i && !seen; k++)
            seen = cw_text_same(rows->items[k].source, rows->items[i].source);
        if (!seen)
            add_source(&text, rows, i);
    }
    return cw_text_string(&text);
}
