#include "cw/field.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "cw/text.h"
#include "cw/units.h"

/* One reading: what is read, into what, and where faults go. */
typedef struct reading {
    const cw_field *field;
    const char *text;
    cw_pos where;
    cw_arena *arena;
    cw_diags *diags;
} reading;

static void *at(void *base, size_t offset)
{
    return (char *)base + offset;
}

static const void *at_const(const void *base, size_t offset)
{
    return (const char *)base + offset;
}

/* ---- words of the messages ---- */

/* A limit as a person would type it; whole feet where inches grow long. */
static const char *limit_text(cw_arena *arena, double value, cw_dim dim)
{
    const double feet = value / CW_IN_PER_FT;
    const bool whole_feet = dim == CW_DIM_IN && feet == floor(feet) && fabs(feet) >= 3.0;
    if (whole_feet)
        return cw_arena_print(arena, "%.0f ft", feet);
    if (dim == CW_DIM_IN && value == floor(value))
        return cw_arena_print(arena, "%.0f in", value);
    return cw_quantity_write(arena, value, dim);
}

/* "24 in to 40 ft", "24 in up", "40 ft down", to follow "from". */
static const char *range_text(cw_arena *arena, const cw_field *field)
{
    const char *low = limit_text(arena, field->low, field->dim);
    const char *high = limit_text(arena, field->high, field->dim);
    if (field->low <= CW_ANY_LOW)
        return cw_arena_print(arena, "%s down", high);
    if (field->high >= CW_ANY_HIGH)
        return cw_arena_print(arena, "%s up", low);
    if (field->low == field->high)
        return low;
    return cw_arena_print(arena, "%s to %s", low, high);
}

static int choice_count(const cw_field *field)
{
    int count = 0;
    while (field->choices[count])
        count++;
    return count;
}

static const char *choice_list(cw_arena *arena, const cw_field *field)
{
    cw_text text = cw_text_on(arena);
    const int count = choice_count(field);
    for (int i = 0; i < count; i++)
        cw_text_print(&text, "%s%s",
                      i == 0          ? ""
                      : i + 1 < count ? ", "
                                      : " or ",
                      field->choices[i]);
    return cw_text_string(&text);
}

const char *cw_field_hint(cw_arena *arena, const cw_field *field)
{
    switch (field->kind) {
    case CW_KIND_CHOICE:
        return choice_list(arena, field);
    case CW_KIND_FLAG:
        return "yes or no";
    case CW_KIND_TEXT:
        return "some text";
    case CW_KIND_COUNT:
        if (field->low == field->high)
            return range_text(arena, field);
        return cw_arena_print(arena, "a whole number from %s", range_text(arena, field));
    case CW_KIND_NUMBER:
    case CW_KIND_LIST:
        break;
    }
    return cw_dim_hint(field->dim);
}

/* ---- reading ---- */

static const char *shown(const reading *in, const char *text)
{
    return cw_text_clip(in->arena, text);
}

static void say_unreadable(const reading *in, const char *text, cw_parsed parsed)
{
    const char *key = in->field->key;
    const char *hint = cw_field_hint(in->arena, in->field);
    switch (parsed.status) {
    case CW_PARSE_EMPTY:
        cw_diag_add(in->diags, in->where, CW_E_VALUE, "%s has no value; write %s", key, hint);
        return;
    case CW_PARSE_NO_UNIT:
        cw_diag_add(in->diags, in->where, CW_E_UNIT, "%s %s has no unit; write %s", key,
                    shown(in, text), hint);
        return;
    case CW_PARSE_BAD_UNIT:
        cw_diag_add(in->diags, in->where, CW_E_UNIT,
                    "%s %s has a unit that does not fit here (\"%s\"); write %s", key,
                    shown(in, text), shown(in, text + parsed.at), hint);
        return;
    case CW_PARSE_BAD_NUMBER:
    case CW_PARSE_OK:
        break;
    }
    if (parsed.at > 0 && parsed.at < strlen(text))
        cw_diag_add(in->diags, in->where, CW_E_VALUE,
                    "%s %s makes no sense from \"%s\" on; write %s", key, shown(in, text),
                    shown(in, text + parsed.at), hint);
    else
        cw_diag_add(in->diags, in->where, CW_E_VALUE, "%s %s cannot be read; write %s", key,
                    shown(in, text), hint);
}

static bool read_number(const reading *in, const char *text, double *value)
{
    const cw_field *field = in->field;
    const cw_parsed parsed = cw_quantity_parse(text, field->dim);
    if (parsed.status != CW_PARSE_OK) {
        say_unreadable(in, text, parsed);
        return false;
    }
    const bool low = !(parsed.value >= field->low);
    if (low || !(parsed.value <= field->high)) {
        cw_diag_add(in->diags, in->where, CW_E_RANGE, "%s %s is %s the %s %s; write %s%s",
                    field->key, shown(in, text), low ? "below" : "above", low ? "least" : "most",
                    limit_text(in->arena, low ? field->low : field->high, field->dim),
                    field->low == field->high ? "" : "a value from ", range_text(in->arena, field));
        return false;
    }
    *value = parsed.value;
    return true;
}

static bool read_choice(const reading *in, int *index)
{
    const cw_field *field = in->field;
    const int count = choice_count(field);
    for (int i = 0; i < count; i++) {
        if (cw_text_same(in->text, field->choices[i])) {
            *index = i;
            return true;
        }
    }
    const char *near = cw_text_nearest(in->text, field->choices, count);
    const char *list = choice_list(in->arena, field);
    if (!in->text[0])
        cw_diag_add(in->diags, in->where, CW_E_CHOICE, "%s has no value; write %s", field->key,
                    list);
    else if (near)
        cw_diag_add(in->diags, in->where, CW_E_CHOICE, "%s %s is not one of %s; did you mean %s?",
                    field->key, shown(in, in->text), list, near);
    else
        cw_diag_add(in->diags, in->where, CW_E_CHOICE, "%s %s is not a choice; write %s",
                    field->key, shown(in, in->text), list);
    return false;
}

static bool read_flag(const reading *in, bool *flag)
{
    const char *text = in->text;
    const bool yes = cw_text_same(text, "yes") || cw_text_same(text, "true");
    if (yes || cw_text_same(text, "no") || cw_text_same(text, "false")) {
        *flag = yes;
        return true;
    }
    cw_diag_add(in->diags, in->where, CW_E_CHOICE, "%s %s is neither yes nor no; write yes or no",
                in->field->key, text[0] ? shown(in, text) : "(nothing)");
    return false;
}

static bool read_text(const reading *in, const char **text)
{
    if (in->field->required && !in->text[0]) {
        cw_diag_add(in->diags, in->where, CW_E_VALUE, "%s has no value; write it: %s",
                    in->field->key, in->field->meaning);
        return false;
    }
    *text = cw_arena_copy(in->arena, in->text, strlen(in->text));
    return true;
}

static const char *trimmed(cw_arena *arena, const char *start, const char *end)
{
    while (start < end && (*start == ' ' || *start == '\t'))
        start++;
    while (end > start && (end[-1] == ' ' || end[-1] == '\t'))
        end--;
    return cw_arena_copy(arena, start, (size_t)(end - start));
}

/* Items stand between commas, with or without brackets around the whole. */
static bool read_list(const reading *in, cw_list *list)
{
    const char *whole = trimmed(in->arena, in->text, in->text + strlen(in->text));
    size_t length = strlen(whole);
    if (length >= 2 && whole[0] == '[' && whole[length - 1] == ']') {
        whole = trimmed(in->arena, whole + 1, whole + length - 1);
        length = strlen(whole);
    }
    cw_list read = {0};
    bool good = true;
    for (const char *next = whole; length > 0 && next;) {
        const char *comma = strchr(next, ',');
        const char *end = comma ? comma : whole + length;
        if (read.count == CW_LIST_MAX) {
            cw_diag_add(in->diags, in->where, CW_E_TOO_MANY,
                        "%s has more than %d items; shorten the list", in->field->key,
                        (int)CW_LIST_MAX);
            return false;
        }
        double value = 0.0;
        good = read_number(in, trimmed(in->arena, next, end), &value) && good;
        read.items[read.count++] = value;
        next = comma ? comma + 1 : NULL;
    }
    if (read.count == 0) {
        cw_diag_add(in->diags, in->where, CW_E_VALUE, "%s is an empty list; write %s",
                    in->field->key, cw_field_hint(in->arena, in->field));
        return false;
    }
    if (good)
        *list = read;
    return good;
}

bool cw_field_read(const cw_field *field, const char *text, void *base, cw_pos where,
                   cw_arena *arena, cw_diags *diags)
{
    const reading in = {field, text, where, arena, diags};
    void *value = at(base, field->offset);
    bool good = false;
    switch (field->kind) {
    case CW_KIND_NUMBER:
        good = read_number(&in, text, value);
        break;
    case CW_KIND_COUNT: {
        double count = 0.0;
        good = read_number(&in, text, &count);
        if (good)
            *(int *)value = (int)count;
        break;
    }
    case CW_KIND_CHOICE:
        good = read_choice(&in, value);
        break;
    case CW_KIND_FLAG:
        good = read_flag(&in, value);
        break;
    case CW_KIND_TEXT:
        good = read_text(&in, value);
        break;
    case CW_KIND_LIST:
        good = read_list(&in, value);
        break;
    }
    if (good && field->has_offset != CW_NO_FLAG)
        *(bool *)at(base, field->has_offset) = true;
    return good;
}

/* ---- writing ---- */

static const char *list_text(const cw_field *field, const cw_list *list,
                             const cw_unit_system *system, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    for (int i = 0; i < list->count; i++) {
        const double item = list->items[i];
        cw_text_print(&text, "%s%s", i > 0 ? ", " : "",
                      system ? cw_quantity_format(arena, item, field->dim, *system)
                             : cw_quantity_write(arena, item, field->dim));
    }
    return cw_text_string(&text);
}

/* With a system for people, without one to be read back. */
static const char *value_text(const cw_field *field, const void *base, const cw_unit_system *system,
                              cw_arena *arena)
{
    const void *value = at_const(base, field->offset);
    switch (field->kind) {
    case CW_KIND_NUMBER: {
        const double number = *(const double *)value;
        return system ? cw_quantity_format(arena, number, field->dim, *system)
                      : cw_quantity_write(arena, number, field->dim);
    }
    case CW_KIND_COUNT:
        return cw_arena_print(arena, "%d", *(const int *)value);
    case CW_KIND_CHOICE:
        return field->choices[*(const int *)value];
    case CW_KIND_FLAG:
        return *(const bool *)value ? "yes" : "no";
    case CW_KIND_TEXT:
        return *(const char *const *)value ? *(const char *const *)value : "";
    case CW_KIND_LIST:
        break;
    }
    return list_text(field, value, system, arena);
}

const char *cw_field_write(const cw_field *field, const void *base, cw_arena *arena)
{
    return value_text(field, base, NULL, arena);
}

const char *cw_field_print(const cw_field *field, const void *base, cw_unit_system system,
                           cw_arena *arena)
{
    return value_text(field, base, &system, arena);
}

/* ---- defaults ---- */

static const cw_row *row_default(const cw_field *field, const cw_rows *rows, void *base,
                                 cw_arena *arena, cw_diags *diags)
{
    const char *id = field->fallback + 1;
    const cw_row *row = cw_rows_find(rows, id);
    if (!row) {
        cw_diag_add(diags, (cw_pos){.path = field->key}, CW_E_MISSING,
                    "%s takes its default from row %s, which the profile does not have; give %s in "
                    "the job, or add the row",
                    field->key, id, field->key);
        return NULL;
    }
    const bool fits = row->value >= field->low && row->value <= field->high;
    if (!fits || row->dim != field->dim) {
        cw_diag_add(diags, (cw_pos){.path = field->key}, CW_E_RANGE,
                    "row %s is %s, which does not serve as %s; set the row to a value from %s", id,
                    limit_text(arena, row->value, row->dim), field->key, range_text(arena, field));
        return NULL;
    }
    if (field->kind == CW_KIND_COUNT)
        *(int *)at(base, field->offset) = (int)row->value;
    else
        *(double *)at(base, field->offset) = row->value;
    return row;
}

const cw_row *cw_field_default(const cw_field *field, const cw_rows *rows, void *base,
                               cw_arena *arena, cw_diags *diags)
{
    if (!field->fallback) {
        if (field->kind == CW_KIND_TEXT)
            *(const char **)at(base, field->offset) = "";
        return NULL;
    }
    if (field->fallback[0] == '@')
        return row_default(field, rows, base, arena, diags);
    cw_field_read(field, field->fallback, base, (cw_pos){.path = field->key}, arena, diags);
    return NULL;
}
