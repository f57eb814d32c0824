#include "cw/rows.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#include "cw/text.h"

enum { ROWS_MAX = 1000, COLUMNS = 10 };

static const char *const heading[COLUMNS] = {"id",     "value",   "unit",   "low",    "high",
                                             "source", "edition", "clause", "status", "note"};

enum { ID, VALUE, UNIT, LOW, HIGH, SOURCE, EDITION, CLAUSE, STATUS, NOTE };

/* How a row names its stored unit. */
static const struct {
    const char *word;
    cw_dim dim;
} units[] = {
    {"ratio", CW_DIM_NONE},
    {"count", CW_DIM_COUNT},
    {"ft", CW_DIM_FT},
    {"in", CW_DIM_IN},
    {"lb", CW_DIM_LB},
    {"pcf", CW_DIM_PCF},
    {"psi", CW_DIM_PSI},
    {"psf", CW_DIM_PSF},
    {"slope", CW_DIM_SLOPE},
    {"deg", CW_DIM_DEG},
    {"side_slope", CW_DIM_SIDE_SLOPE},
    {"ft2", CW_DIM_SQFT},
    {"ft3", CW_DIM_CUFT},
    {"cy", CW_DIM_CY},
    {"h", CW_DIM_HOUR},
    {"degF", CW_DIM_DEGF},
    {"percent", CW_DIM_PERCENT},
    {"lb/ft", CW_DIM_LB_PER_FT},
    {"ft-lb", CW_DIM_FT_LB},
    {"ton", CW_DIM_TON},
    {"cents", CW_DIM_MONEY},
    {"cfs", CW_DIM_CFS},
    {"ft/s", CW_DIM_FPS},
    {"acre", CW_DIM_ACRE},
    {"in/h", CW_DIM_IN_PER_H},
    {"ft/day", CW_DIM_FT_PER_DAY},
    {"hp", CW_DIM_HP},
    {"min", CW_DIM_MIN},
    {"in2/ft", CW_DIM_SQIN_PER_FT},
};

enum { UNIT_COUNT = sizeof units / sizeof units[0] };

const cw_row *cw_rows_find(const cw_rows *rows, const char *id)
{
    int low = 0, high = rows->count;
    while (low < high) {
        const int middle = low + (high - low) / 2;
        const int order = strcmp(rows->items[middle].id, id);
        if (order == 0)
            return &rows->items[middle];
        if (order < 0)
            low = middle + 1;
        else
            high = middle;
    }
    return NULL;
}

double cw_rows_value(const cw_rows *rows, const char *id)
{
    const cw_row *row = cw_rows_find(rows, id);
    assert(row);
    return row->value;
}

const char *cw_status_words(cw_status status)
{
    static const char *const words[] = {"read", "from memory, not verified", "common practice",
                                        "set by this job"};
    return words[status];
}

const char *cw_row_source(cw_arena *arena, const cw_row *row)
{
    cw_text text = cw_text_on(arena);
    cw_text_add(&text, row->source);
    if (row->edition && row->edition[0])
        cw_text_print(&text, ", %s", row->edition);
    if (row->clause && row->clause[0])
        cw_text_print(&text, ", %s", row->clause);
    const char *status = cw_status_words(row->status);
    if (row->status != CW_STATUS_READ && !cw_text_same(row->source, status))
        cw_text_print(&text, " (%s)", status);
    return cw_text_string(&text);
}

const char *cw_row_unit(cw_dim dim)
{
    for (int i = 0; i < UNIT_COUNT; i++)
        if (units[i].dim == dim)
            return units[i].word;
    return "";
}

/* ---- reading ---- */

typedef struct csv {
    const char *at, *file;
    int line, column;
    cw_arena *arena;
    cw_diags *diags;
} csv;

typedef struct record {
    const char *fields[COLUMNS];
    cw_pos places[COLUMNS];
    int count; /* as found; may be more than COLUMNS */
    cw_pos where;
} record;

static cw_pos place(const csv *in)
{
    return (cw_pos){.file = in->file, .line = in->line, .column = in->column};
}

/* One byte on; columns count characters, so bytes that continue one do not count. */
static void step(csv *in)
{
    const unsigned char byte = (unsigned char)*in->at++;
    if (byte == '\n') {
        in->line++;
        in->column = 1;
    } else if (((unsigned char)*in->at & 0xC0) != 0x80) {
        in->column++;
    }
}

static bool at_line_end(const csv *in)
{
    return in->at[0] == '\n' || (in->at[0] == '\r' && in->at[1] == '\n');
}

static const char *quoted_field(csv *in)
{
    const cw_pos opened = place(in);
    cw_text text = cw_text_on(in->arena);
    step(in);
    while (*in->at) {
        if (in->at[0] == '"' && in->at[1] != '"') {
            step(in);
            return cw_text_string(&text);
        }
        if (in->at[0] == '"')
            step(in);
        cw_text_add_bytes(&text, in->at, 1);
        step(in);
    }
    cw_diag_add(in->diags, opened, CW_E_SYNTAX,
                "a quoted value is not closed; end it with a double quote");
    return cw_text_string(&text);
}

static const char *plain_field(csv *in)
{
    const char *start = in->at;
    while (*in->at && *in->at != ',' && !at_line_end(in))
        step(in);
    const char *end = in->at;
    while (start < end && (*start == ' ' || *start == '\t'))
        start++;
    while (end > start && (end[-1] == ' ' || end[-1] == '\t'))
        end--;
    return cw_arena_copy(in->arena, start, (size_t)(end - start));
}

/* The next record; false at the end of the text. */
static bool next_record(csv *in, record *out)
{
    while (at_line_end(in))
        step(in);
    if (!*in->at)
        return false;
    *out = (record){.where = place(in)};
    for (;;) {
        const cw_pos where = place(in);
        const char *field = *in->at == '"' ? quoted_field(in) : plain_field(in);
        if (out->count < COLUMNS) {
            out->fields[out->count] = field;
            out->places[out->count] = where;
        }
        out->count++;
        if (*in->at == ',') {
            step(in);
            continue;
        }
        if (*in->at && !at_line_end(in)) {
            cw_diag_add(in->diags, place(in), CW_E_SYNTAX,
                        "text follows a closing quote; write a comma there or double the quote");
            while (*in->at && !at_line_end(in))
                step(in);
        }
        return true;
    }
}

static bool read_number(csv *in, const record *from, int column, double open, double *value)
{
    const char *text = from->fields[column];
    *value = open;
    if (!text[0] && column != VALUE)
        return true;
    const cw_parsed parsed = cw_quantity_parse(text, CW_DIM_NONE);
    if (parsed.status != CW_PARSE_OK) {
        cw_diag_add(in->diags, from->places[column], CW_E_VALUE,
                    "%s of row %s is \"%s\"; write a plain number in the unit of the row",
                    heading[column], from->fields[ID], cw_text_clip(in->arena, text));
        return false;
    }
    *value = parsed.value;
    return true;
}

static bool read_unit(csv *in, const record *from, cw_dim *dim)
{
    const char *words[UNIT_COUNT];
    for (int i = 0; i < UNIT_COUNT; i++) {
        words[i] = units[i].word;
        if (cw_text_same(units[i].word, from->fields[UNIT])) {
            *dim = units[i].dim;
            return true;
        }
    }
    const bool given = from->fields[UNIT][0] != '\0';
    const char *near = given ? cw_text_nearest(from->fields[UNIT], words, UNIT_COUNT) : NULL;
    cw_diag_add(in->diags, from->places[UNIT], CW_E_UNIT, "unit of row %s is \"%s\"; write %s",
                from->fields[ID], cw_text_clip(in->arena, from->fields[UNIT]),
                near ? near
                     : "ft, in, lb, pcf, psi, deg, h, percent, ratio, count, cents or the like");
    return false;
}

static bool read_status(csv *in, const record *from, cw_status *status)
{
    static const char letters[] = "SMP";
    const char *text = from->fields[STATUS];
    const char *found = text[0] && !text[1] ? strchr(letters, text[0]) : NULL;
    if (!found) {
        cw_diag_add(in->diags, from->places[STATUS], CW_E_CHOICE,
                    "status of row %s is \"%s\"; write S (read in the source), M (from memory) or "
                    "P (common practice)",
                    from->fields[ID], cw_text_clip(in->arena, text));
        return false;
    }
    *status = (cw_status)(found - letters);
    return true;
}

static bool within(csv *in, const record *from, const cw_row *row)
{
    if (row->value >= row->low && row->value <= row->high)
        return true;
    cw_diag_add(in->diags, from->places[VALUE], CW_E_RANGE,
                "value of row %s is %s, outside its own limits %s to %s; correct the value, its "
                "unit or the limits",
                row->id, from->fields[VALUE], from->fields[LOW][0] ? from->fields[LOW] : "(open)",
                from->fields[HIGH][0] ? from->fields[HIGH] : "(open)");
    return false;
}

static bool is_whole(csv *in, const record *from, const cw_row *row)
{
    if (row->dim != CW_DIM_COUNT || row->value == floor(row->value))
        return true;
    cw_diag_add(in->diags, from->places[VALUE], CW_E_VALUE,
                "value of row %s is %s and counts things; write a whole number", row->id,
                from->fields[VALUE]);
    return false;
}

/* One row from one record; every fault of it is reported. */
static bool read_row(csv *in, record *from, cw_row *row)
{
    if (from->count != COLUMNS) {
        cw_diag_add(in->diags, from->where, CW_E_SYNTAX,
                    "this row has %d values and %d are wanted (id, value, unit, low, high, source, "
                    "edition, clause, status, note); put values with commas in double quotes",
                    from->count, (int)COLUMNS);
        return false;
    }
    if (!from->fields[ID][0]) {
        cw_diag_add(in->diags, from->where, CW_E_MISSING,
                    "this row has no id; write one such as joint.gap_max");
        return false;
    }
    from->fields[ID] = cw_text_clip(in->arena, from->fields[ID]);
    *row = (cw_row){.id = from->fields[ID],
                    .source = from->fields[SOURCE],
                    .edition = from->fields[EDITION],
                    .clause = from->fields[CLAUSE],
                    .note = from->fields[NOTE]};
    bool good = read_number(in, from, VALUE, 0.0, &row->value);
    good = read_number(in, from, LOW, -1e15, &row->low) && good;
    good = read_number(in, from, HIGH, 1e15, &row->high) && good;
    good = read_unit(in, from, &row->dim) && good;
    good = read_status(in, from, &row->status) && good;
    if (!row->source[0]) {
        cw_diag_add(in->diags, from->places[SOURCE], CW_E_MISSING,
                    "row %s has no source; name a publication, or write common practice", row->id);
        good = false;
    }
    return good && is_whole(in, from, row) && within(in, from, row);
}

static bool read_heading(csv *in)
{
    record found;
    if (!next_record(in, &found)) {
        cw_diag_add(in->diags, place(in), CW_E_SYNTAX,
                    "the file is empty; begin it with "
                    "id,value,unit,low,high,source,edition,clause,status,note");
        return false;
    }
    bool same = found.count == COLUMNS;
    for (int i = 0; same && i < COLUMNS; i++)
        same = cw_text_same(found.fields[i], heading[i]);
    if (!same)
        cw_diag_add(in->diags, found.where, CW_E_SYNTAX,
                    "the first line is not the heading; write "
                    "id,value,unit,low,high,source,edition,clause,status,note");
    return same;
}

/* Insert by id; false when the id is there already. */
static bool insert(cw_row *rows, int *lines, int count, const cw_row *row, int line, int *first)
{
    int at = count;
    for (; at > 0; at--) {
        const int order = strcmp(rows[at - 1].id, row->id);
        if (order == 0) {
            *first = lines[at - 1];
            return false;
        }
        if (order < 0)
            break;
    }
    memmove(rows + at + 1, rows + at, (size_t)(count - at) * sizeof *rows);
    memmove(lines + at + 1, lines + at, (size_t)(count - at) * sizeof *lines);
    rows[at] = *row;
    lines[at] = line;
    return true;
}

cw_rows cw_rows_parse(const char *text, const char *file, cw_arena *arena, cw_diags *diags)
{
    static const char byte_order_mark[] = "\xEF\xBB\xBF";
    csv in = {.at = text, .file = file, .line = 1, .column = 1, .arena = arena, .diags = diags};
    if (strncmp(in.at, byte_order_mark, strlen(byte_order_mark)) == 0)
        in.at += strlen(byte_order_mark);
    if (!read_heading(&in))
        return (cw_rows){0};

    cw_row *rows = CW_TAKE(arena, cw_row, ROWS_MAX);
    int *lines = CW_TAKE(arena, int, ROWS_MAX);
    int count = 0, first = 0;
    record found;
    while (next_record(&in, &found)) {
        cw_row row;
        if (!read_row(&in, &found, &row))
            continue;
        if (count == ROWS_MAX) {
            cw_diag_add(diags, found.where, CW_E_TOO_MANY,
                        "this is row %d and a file may have %d; split it", count + 1,
                        (int)ROWS_MAX);
            break;
        }
        if (insert(rows, lines, count, &row, found.where.line, &first))
            count++;
        else
            cw_diag_add(diags, found.where, CW_E_DUPLICATE,
                        "row %s is there already at line %d; keep one", row.id, first);
    }
    return (cw_rows){rows, count};
}
