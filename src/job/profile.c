/* The rows in force: shipped ones, replaced by those of the named profile, replaced by the
 * overrides. */
#include "job_internal.h"

#include <assert.h>
#include <string.h>

#include "cw/text.h"

static const char *nearest_row(cw_arena *arena, const cw_rows *rows, const char *id)
{
    assert(rows->items); // the shipped rows are always in force
    const char **ids = CW_TAKE(arena, const char *, rows->count);
    for (int i = 0; i < rows->count; i++)
        ids[i] = rows->items[i].id;
    return cw_text_nearest(id, ids, rows->count);
}

static void say_no_row(cw_builder *b, cw_pos where, const char *id)
{
    const char *near = nearest_row(b->arena, &b->job->rows, id);
    const char *shown = cw_text_clip(b->arena, id);
    if (near)
        cw_diag_add(b->diags, where, CW_E_UNKNOWN_KEY,
                    "there is no profile row %s; did you mean %s?", shown, near);
    else
        cw_diag_add(b->diags, where, CW_E_UNKNOWN_KEY,
                    "there is no profile row %s; the rows are listed in the generic profile, such "
                    "as joint.gap_max",
                    shown);
}

static cw_row *row_in_force(const cw_builder *b, const char *id)
{
    const cw_row *found = cw_rows_find(&b->job->rows, id);
    return found ? &b->rows[found - b->rows] : NULL;
}

/* The line of the profile text on which a row begins. */
static int line_of(const char *text, const char *id)
{
    const size_t length = strlen(id);
    int line = 1;
    for (const char *at = text; *at; at++) {
        const bool begins = at == text || at[-1] == '\n';
        const char *word = begins ? at + strspn(at, " \t\"") : at;
        if (begins && strncmp(word, id, length) == 0 &&
            (word[length] == ',' || word[length] == '"' || word[length] == ' '))
            return line;
        line += *at == '\n';
    }
    return 0;
}

static void replace_from_profile(cw_builder *b, const cw_row *row, const char *name)
{
    const cw_pos where = {.file = name,
                          .path = row->id,
                          .line = line_of(b->files->profile_text, row->id),
                          .column = 1};
    cw_row *old = row_in_force(b, row->id);
    if (!old) {
        say_no_row(b, where, row->id);
        return;
    }
    if (old->dim != row->dim) {
        cw_diag_add(b->diags, where, CW_E_UNIT,
                    "the unit of row %s must be %s; convert its value and limits", row->id,
                    cw_row_unit(old->dim));
        return;
    }
    if (!(row->value >= old->low && row->value <= old->high)) {
        cw_diag_add(b->diags, where, CW_E_RANGE,
                    "row %s is %s, outside the sensible limits %s to %s; correct it or its unit",
                    row->id, cw_quantity_write(b->arena, row->value, row->dim),
                    cw_quantity_write(b->arena, old->low, row->dim),
                    cw_quantity_write(b->arena, old->high, row->dim));
        return;
    }
    *old = *row;
}

static void read_profile(cw_builder *b)
{
    const char *name = b->job->profile.name;
    b->job->rows_name = name && name[0] ? name : "generic";
    if (cw_text_same(b->job->rows_name, "generic"))
        return;
    if (!b->files->profile_text) {
        cw_diag_add(b->diags, cw_entries_place(b->entries, "profile.name"), CW_E_FILE,
                    "profile %s could not be read; put the file beside the job file, or write "
                    "generic",
                    cw_text_clip(b->arena, name));
        return;
    }
    const cw_rows rows = cw_rows_parse(b->files->profile_text, name, b->arena, b->diags);
    for (int i = 0; i < rows.count; i++)
        replace_from_profile(b, &rows.items[i], name);
}

static void say_unreadable(cw_builder *b, cw_pos where, const cw_job_override *change,
                           const cw_row *row, cw_parse_status status)
{
    const bool unit = status == CW_PARSE_NO_UNIT || status == CW_PARSE_BAD_UNIT;
    cw_diag_add(b->diags, where, unit ? CW_E_UNIT : CW_E_VALUE, "%s for row %s %s; write %s",
                cw_text_clip(b->arena, change->value), row->id,
                status == CW_PARSE_NO_UNIT    ? "has no unit"
                : status == CW_PARSE_BAD_UNIT ? "has a unit that does not fit"
                                              : "cannot be read",
                cw_dim_hint(row->dim));
}

static void override_row(cw_builder *b, int index)
{
    const cw_job_override *change = &b->job->profile.overrides[index];
    const char *at = cw_arena_print(b->arena, "profile.overrides[%d]", index);
    const char *row_path = cw_arena_print(b->arena, "%s.row", at);
    const char *value_path = cw_arena_print(b->arena, "%s.value", at);
    if (!cw_job_sound(b, row_path) || !cw_job_sound(b, value_path) || !change->because[0])
        return;
    cw_row *row = row_in_force(b, change->row);
    if (!row) {
        say_no_row(b, cw_entries_place(b->entries, row_path), change->row);
        return;
    }
    for (int i = 0; i < index; i++) {
        if (!cw_text_same(b->job->profile.overrides[i].row, change->row))
            continue;
        const char *first = cw_arena_print(b->arena, "profile.overrides[%d].row", i);
        cw_diag_add(b->diags, cw_entries_place(b->entries, row_path), CW_E_DUPLICATE,
                    "row %s is overridden twice: at line %d and again here; keep one", row->id,
                    cw_entries_place(b->entries, first).line);
        return;
    }
    const cw_pos where = cw_entries_place(b->entries, value_path);
    const cw_parsed parsed = cw_quantity_parse(change->value, row->dim);
    if (parsed.status != CW_PARSE_OK) {
        say_unreadable(b, where, change, row, parsed.status);
        return;
    }
    if (!(parsed.value >= row->low && parsed.value <= row->high)) {
        cw_diag_add(b->diags, where, CW_E_RANGE,
                    "%s for row %s is outside its limits; write a value from %s to %s",
                    cw_text_clip(b->arena, change->value), row->id,
                    cw_quantity_write(b->arena, row->low, row->dim),
                    cw_quantity_write(b->arena, row->high, row->dim));
        return;
    }
    row->value = parsed.value;
    row->source = change->because;
    row->edition = row->clause = "";
    row->status = CW_STATUS_CONTRACT;
}

void cw_job_rows(cw_builder *b)
{
    b->rows = cw_arena_grow(b->arena, cw_data.items, (size_t)cw_data.count, (size_t)cw_data.count,
                            sizeof *b->rows);
    b->job->rows = (cw_rows){b->rows, cw_data.count};
    read_profile(b);
    for (int i = 0; i < b->job->profile.override_count; i++)
        override_row(b, i);
}
