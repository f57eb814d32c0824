/* JSON Schema of the job file, for editors that complete and check while one types.  It is the
 * format table in another form: what a schema cannot say, such as the unit of a quantity, stays
 * with the reader of the job. */
#include <string.h>

#include "cw/job.h"
#include "cw/json.h"

/* A quantity has a digit or one of the vulgar fractions; everything else is left to the reader. */
#define HAS_DIGIT "[0-9\\u00BC-\\u00BE\\u215B-\\u215E]"

/** A section that is being written, and the child that comes next. */
typedef struct level {
    const cw_section *section;
    int next;
} level;

static bool is_open_ended(const cw_field *field)
{
    return field->low <= CW_ANY_LOW || field->high >= CW_ANY_HIGH;
}

/* Meaning, how it is written, limits and default in one description: editors show it beside the
 * key. */
static const char *describe(const cw_field *field, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    cw_text_add(&text, field->meaning);
    const bool measured = field->kind == CW_KIND_NUMBER || field->kind == CW_KIND_LIST;
    if (measured)
        cw_text_print(&text, "; %s", cw_field_hint(arena, field));
    if ((measured || field->kind == CW_KIND_COUNT) && !is_open_ended(field) &&
        field->low < field->high)
        cw_text_print(&text, "; %s to %s", cw_quantity_write(arena, field->low, field->dim),
                      cw_quantity_write(arena, field->high, field->dim));
    if (field->fallback && field->fallback[0] == '@')
        cw_text_print(&text, "; default: row %s of the profile", field->fallback + 1);
    else if (field->fallback)
        cw_text_print(&text, "; default: %s", field->fallback);
    return cw_text_string(&text);
}

static void write_types(cw_json *json, const char *first, const char *second)
{
    cw_json_open_list(json, "type");
    cw_json_text(json, NULL, first);
    cw_json_text(json, NULL, second);
    cw_json_close_list(json);
}

/* Inside an open object.  An editor's YAML reads a bare 0 or 1.5 as a number; only plain ratios and
 * 0 go without a unit. */
static void write_quantity(cw_json *json, const cw_field *field)
{
    write_types(json, "string", "number");
    cw_json_text(json, "pattern", HAS_DIGIT);
    if (field->dim == CW_DIM_NONE && !is_open_ended(field)) {
        cw_json_number(json, "minimum", field->low);
        cw_json_number(json, "maximum", field->high);
    } else if (field->dim != CW_DIM_NONE) {
        cw_json_count(json, "minimum", 0);
        cw_json_count(json, "maximum", 0);
    }
}

static void write_list_value(cw_json *json, const cw_field *field)
{
    cw_json_open_list(json, "anyOf");
    cw_json_open(json, NULL);
    cw_json_text(json, "type", "array");
    cw_json_count(json, "minItems", 1);
    cw_json_count(json, "maxItems", CW_LIST_MAX);
    cw_json_open(json, "items");
    write_quantity(json, field);
    cw_json_close(json);
    cw_json_close(json);
    cw_json_open(json, NULL);
    cw_json_text(json, "type", "string");
    cw_json_text(json, "pattern", HAS_DIGIT);
    cw_json_close(json);
    cw_json_close_list(json);
}

static void write_count(cw_json *json, const cw_field *field)
{
    write_types(json, "integer", "string");
    cw_json_text(json, "pattern", "^[0-9]+$");
    if (!is_open_ended(field)) {
        cw_json_number(json, "minimum", field->low);
        cw_json_number(json, "maximum", field->high);
    }
}

static void write_choices(cw_json *json, const char *const *choices)
{
    cw_json_open_list(json, "enum");
    for (int i = 0; choices[i]; i++)
        cw_json_text(json, NULL, choices[i]);
    cw_json_close_list(json);
}

/* What an editor's YAML makes of unquoted text such as 12 or 2026-05-04 or yes. */
static void write_words(cw_json *json, bool required)
{
    cw_json_open_list(json, "type");
    cw_json_text(json, NULL, "string");
    cw_json_text(json, NULL, "number");
    cw_json_text(json, NULL, "boolean");
    if (!required)
        cw_json_text(json, NULL, "null");
    cw_json_close_list(json);
    if (required)
        cw_json_count(json, "minLength", 1);
}

static void write_field(cw_json *json, const cw_field *field)
{
    cw_json_open(json, field->key);
    cw_json_text(json, "description", describe(field, json->text.arena));
    switch (field->kind) {
    case CW_KIND_NUMBER:
        write_quantity(json, field);
        break;
    case CW_KIND_COUNT:
        write_count(json, field);
        break;
    case CW_KIND_CHOICE:
        write_choices(json, field->choices);
        break;
    case CW_KIND_FLAG:
        write_types(json, "boolean", "string");
        break;
    case CW_KIND_TEXT:
        write_words(json, field->required);
        break;
    case CW_KIND_LIST:
        write_list_value(json, field);
        break;
    }
    if (field->fallback && field->fallback[0] != '@')
        cw_json_text(json, "default", field->fallback);
    cw_json_close(json);
}

/* Up to and including the section's own fields; its children come into the same "properties". */
static void begin_section(cw_json *json, const cw_section *section)
{
    const bool is_file = section->key[0] == '\0';
    if (!is_file)
        cw_json_open(json, section->key);
    cw_json_text(json, "description", section->meaning);
    if (section->is_list) {
        // A heading with nothing below it reads as null and is taken as absent.
        write_types(json, "array", "null");
        cw_json_count(json, "maxItems", section->max_items);
        if (section->need == CW_NEED_REQUIRED)
            cw_json_count(json, "minItems", 1);
        cw_json_open(json, "items");
        cw_json_text(json, "type", "object");
    } else if (section->need == CW_NEED_REQUIRED) {
        cw_json_text(json, "type", "object");
    } else {
        write_types(json, "object", "null");
    }
    cw_json_open(json, "properties");
    for (int i = 0; i < section->field_count; i++)
        write_field(json, &section->fields[i]);
}

static void end_section(cw_json *json, const cw_section *section)
{
    cw_json_close(json); // properties
    cw_json_open_list(json, "required");
    for (int i = 0; i < section->field_count; i++)
        if (section->fields[i].required)
            cw_json_text(json, NULL, section->fields[i].key);
    for (int i = 0; i < section->child_count; i++)
        if (section->children[i].need == CW_NEED_REQUIRED)
            cw_json_text(json, NULL, section->children[i].key);
    cw_json_close_list(json);
    cw_json_flag(json, "additionalProperties", false);
    if (section->is_list)
        cw_json_close(json); // items
    if (section->key[0] != '\0')
        cw_json_close(json);
}

const char *cw_job_schema(cw_arena *arena)
{
    cw_json json = cw_json_on(arena);
    level levels[CW_JOB_DEPTH_MAX] = {{&cw_job_format, 0}};
    int depth = 1;
    cw_json_open(&json, NULL);
    cw_json_text(&json, "$schema", "https://json-schema.org/draft/2020-12/schema");
    cw_json_text(&json, "title", "culvertwright job");
    begin_section(&json, &cw_job_format);
    while (depth > 0) {
        level *top = &levels[depth - 1];
        if (top->next == top->section->child_count) {
            end_section(&json, top->section);
            depth--;
        } else {
            const cw_section *child = &top->section->children[top->next++];
            begin_section(&json, child);
            levels[depth++] = (level){child, 0};
        }
    }
    cw_json_close(&json);
    return cw_json_string(&json);
}
