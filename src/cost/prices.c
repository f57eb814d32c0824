/* A price file of the user in the place of the rows that ship. */
#include "cost_internal.h"

#include <string.h>

#include "cw/text.h"

enum { CELLS = 3, CELL_BYTES = 256, LINES_MAX = 5000, NAMES_MAX = 512 };

typedef struct line {
    char cells[CELLS][CELL_BYTES];
    int count; /* of cells; CELLS + 1 when there are more, -1 when a quote does not close */
    bool too_long;
} line;

static void put(line *l, int *length, char byte)
{
    if (l->count >= CELLS)
        return;
    if (*length == CELL_BYTES - 1) {
        l->too_long = true;
        return;
    }
    l->cells[l->count][(*length)++] = byte;
}

static void trim(char *cell)
{
    size_t from = strspn(cell, " \t"), length = strlen(cell);
    while (length > from && (cell[length - 1] == ' ' || cell[length - 1] == '\t'))
        length--;
    memmove(cell, cell + from, length - from);
    cell[length - from] = '\0';
}

/* Cut one line (RFC 4180, without line ends in quotes); the place after it. */
static const char *cut(const char *at, line *l)
{
    memset(l, 0, sizeof *l);
    bool quoted = false;
    int length = 0;
    for (; *at && (*at != '\n' || quoted); at++) {
        if (quoted && at[0] == '"' && at[1] == '"') {
            put(l, &length, *at++);
        } else if (*at == '"') {
            quoted = !quoted;
        } else if (*at == ',' && !quoted) {
            l->count += l->count <= CELLS;
            length = 0;
        } else if (*at != '\r') {
            put(l, &length, *at);
        }
    }
    l->count = quoted ? -1 : l->count < CELLS ? l->count + 1 : CELLS + 1;
    for (int i = 0; i < CELLS; i++)
        trim(l->cells[i]);
    return *at ? at + 1 : at;
}

/* Only prices and the values of road users may be replaced this way. */
static bool is_price(const char *id)
{
    return strncmp(id, "cost.", 5) == 0 || strncmp(id, "user.", 5) == 0;
}

static const char *nearest_id(const cw_rows *rows, const char *id)
{
    const char *names[NAMES_MAX];
    int count = 0;
    for (int i = 0; i < rows->count && count < NAMES_MAX; i++)
        if (is_price(rows->items[i].id))
            names[count++] = rows->items[i].id;
    return cw_text_nearest(id, names, count);
}

static void unknown_id(const cw_rows *rows, const char *id, cw_pos where, cw_diags *diags)
{
    const char *nearest = nearest_id(rows, id);
    cw_diag_add(diags, where, CW_E_UNKNOWN_KEY,
                "%s is no price%s%s%s; culvertwright rows lists them",
                cw_text_clip(diags->arena, id), nearest ? "; did you mean " : "",
                nearest ? nearest : "", nearest ? "?" : "");
}

static void take_price(cw_row *row, const line *l, const char *file, cw_pos where, cw_diags *diags)
{
    const cw_parsed price = cw_quantity_parse(l->cells[1], row->dim);
    if (price.status != CW_PARSE_OK) {
        cw_diag_add(diags, where, CW_E_VALUE, "%s: %s cannot be read; write %s", row->id,
                    cw_text_clip(diags->arena, l->cells[1]), cw_dim_hint(row->dim));
        return;
    }
    if (!(price.value >= row->low && price.value <= row->high)) {
        cw_diag_add(diags, where, CW_E_RANGE, "%s: %s is outside %s to %s; correct it", row->id,
                    cw_text_clip(diags->arena, l->cells[1]),
                    cw_quantity_format(diags->arena, row->low, row->dim, CW_US),
                    cw_quantity_format(diags->arena, row->high, row->dim, CW_US));
        return;
    }
    row->value = price.value;
    row->source = l->count > 2 && l->cells[2][0]
                      ? cw_arena_copy(diags->arena, l->cells[2], strlen(l->cells[2]))
                      : file;
    row->edition = row->clause = row->note = "";
    row->status = CW_STATUS_CONTRACT;
}

static void take_line(cw_row *rows, const cw_rows *base, const line *l, const char *file,
                      cw_pos where, cw_diags *diags)
{
    if (l->count < 2 || l->count > CELLS || l->too_long) {
        cw_diag_add(diags, where, CW_E_SYNTAX,
                    "the line is not id,price or id,price,source; quote a price with commas: "
                    "\"$1,050.00\"");
        return;
    }
    const cw_row *found = cw_rows_find(base, l->cells[0]);
    if (!found || !is_price(found->id)) {
        unknown_id(base, l->cells[0], where, diags);
        return;
    }
    cw_row *row = &rows[found - base->items];
    if (row->status == CW_STATUS_CONTRACT && found->status != CW_STATUS_CONTRACT) {
        cw_diag_add(diags, where, CW_E_DUPLICATE, "%s is given twice; keep one", row->id);
        return;
    }
    take_price(row, l, file, where, diags);
}

cw_rows cw_cost_prices_read(const char *text, const char *file, const cw_rows *base,
                            cw_arena *arena, cw_diags *diags)
{
    cw_row *rows = CW_TAKE(arena, cw_row, base->count);
    memcpy(rows, base->items, (size_t)base->count * sizeof *rows);
    bool headed = false;
    cw_pos where = {.file = file, .column = 1};
    line l;
    for (const char *at = text; *at && where.line < LINES_MAX;) {
        where.line++;
        at = cut(at, &l);
        if (l.count == 1 && l.cells[0][0] == '\0')
            continue;
        if (l.cells[0][0] == '#')
            continue;
        if (!headed && strcmp(l.cells[0], "id") == 0 && strcmp(l.cells[1], "price") == 0) {
            headed = true;
            continue;
        }
        if (!headed) {
            cw_diag_add(diags, where, CW_E_SYNTAX,
                        "a price file begins with id,price or id,price,source; add the heading");
            break;
        }
        take_line(rows, base, &l, file, where, diags);
    }
    return (cw_rows){rows, base->count};
}
