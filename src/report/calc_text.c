#include <string.h>

#include "cw/json.h"
#include "cw/report.h"
#include "cw/text.h"

static const char *limits_of(const cw_field *field, cw_arena *arena)
{
    if (field->kind == CW_KIND_CHOICE) {
        cw_text words = cw_text_on(arena);
        for (int i = 0; field->choices[i]; i++)
            cw_text_print(&words, "%s%s", i ? " | " : "", field->choices[i]);
        return cw_text_string(&words);
    }
    if (field->kind == CW_KIND_FLAG)
        return "yes | no";
    if (field->kind == CW_KIND_TEXT)
        return "text";
    const char *low = field->low > CW_ANY_LOW ? cw_quantity_format(arena, field->low, field->dim, CW_US) : NULL;
    const char *high = field->high < CW_ANY_HIGH ? cw_quantity_format(arena, field->high, field->dim, CW_US) : NULL;
    const char *many = field->kind == CW_KIND_LIST ? "list, each " : "";
    if (low && high)
        return cw_arena_print(arena, "%s%s to %s", many, low, high);
    if (low)
        return cw_arena_print(arena, "%sat least %s", many, low);
    if (high)
        return cw_arena_print(arena, "%sat most %s", many, high);
    return cw_arena_print(arena, "%s%s", many, cw_dim_hint(field->dim));
}

static const char *default_of(const cw_field *field, cw_arena *arena)
{
    if (field->required)
        return "must be given";
    if (!field->fallback)
        return "may be left out";
    if (field->fallback[0] != '@')
        return cw_arena_print(arena, "default %s", field->fallback);
    const cw_row *row = cw_rows_find(&cw_data, field->fallback + 1);
    return cw_arena_print(arena, "default %s, %s", row ? cw_quantity_format(arena, row->value, row->dim, CW_US) : "?",
                          row ? cw_status_words(row->status) : "unknown row");
}

const char *cw_calc_manual(const cw_calc *calc, cw_arena *arena)
{
    cw_text text = cw_text_on(arena);
    cw_text_print(&text, "%s - %s\n\n%s\nSource: %s\n\nInputs\n", calc->name, calc->title, calc->about, calc->source);
    for (int i = 0; i < calc->input_count; i++) {
        const cw_field *field = &calc->inputs[i];
        cw_text_print(&text, "  %-18s %s\n  %-18s   %s; %s\n", field->key, field->meaning, "",
                      limits_of(field, arena), default_of(field, arena));
    }
    cw_text_add(&text, "\nResults\n");
    for (int i = 0; i < calc->output_count; i++)
        cw_text_print(&text, "  %-18s %s\n", calc->outputs[i].key, calc->outputs[i].meaning);
    cw_text_print(&text, "\nExample\n  culvertwright calc %s %s\n", calc->name, calc->example);
    return cw_text_string(&text);
}

/* An optional input that was not given has nothing to show. */
static bool shown(const cw_field *field, bool given)
{
    return given || field->fallback || field->required;
}

static void add_line(cw_text *text, const cw_field *field, const void *base, cw_unit_system units,
                     const char *remark, cw_arena *arena)
{
    const char *value = cw_field_has(field, base) ? cw_field_print(field, base, units, arena) : "none";
    cw_text_print(text, "  %-20s %18s   %s%s\n", field->key, value, field->meaning, remark);
}

const char *cw_calc_text(const cw_calc_answer *answer, cw_unit_system units, cw_arena *arena)
{
    const cw_calc *calc = answer->calc;
    cw_text text = cw_text_on(arena);
    cw_text_print(&text, "%s\n\nInputs\n", calc->title);
    for (int i = 0; i < calc->input_count; i++)
        if (shown(&calc->inputs[i], answer->given[i]))
            add_line(&text, &calc->inputs[i], answer->input, units, answer->given[i] ? "" : " (assumed)", arena);
    cw_text_add(&text, "\nResults\n");
    for (int i = 0; i < calc->output_count; i++)
        add_line(&text, &calc->outputs[i], answer->output, units, "", arena);
    if (answer->working.count > 0)
        cw_text_add(&text, "\nWorking\n");
    for (int i = 0; i < answer->working.count; i++) {
        const cw_working_step *step = &answer->working.steps[i];
        cw_text_print(&text, "  %s = %s\n    = %s   [%s]\n", step->symbol, step->expression,
                      cw_quantity_format(arena, step->value, step->dim, units), step->source);
    }
    cw_text_print(&text, "\nSource: %s\n%s\n", calc->source, calc->about);
    return cw_text_string(&text);
}

static void add_value(cw_json *json, const cw_field *field, const void *base, cw_arena *arena)
{
    const char *at = (const char *)base + field->offset;
    if (!cw_field_has(field, base)) {
        cw_json_text(json, "value", NULL);
        cw_json_text(json, "text", "none");
        return;
    }
    if (field->kind == CW_KIND_NUMBER) {
        double value;
        memcpy(&value, at, sizeof value);
        cw_json_number(json, "value", value);
        cw_json_text(json, "unit", cw_dim_unit(field->dim));
    } else if (field->kind == CW_KIND_COUNT) {
        int value;
        memcpy(&value, at, sizeof value);
        cw_json_count(json, "value", value);
    } else if (field->kind == CW_KIND_LIST) {
        const cw_list *list = (const cw_list *)(const void *)at;
        cw_json_open_list(json, "value");
        for (int i = 0; i < list->count; i++)
            cw_json_number(json, NULL, list->items[i]);
        cw_json_close_list(json);
        cw_json_text(json, "unit", cw_dim_unit(field->dim));
    } else {
        cw_json_text(json, "value", cw_field_print(field, base, CW_US, arena));
    }
    cw_json_text(json, "text", cw_field_print(field, base, CW_US, arena));
}

const char *cw_calc_json(const cw_calc_answer *answer, cw_arena *arena)
{
    const cw_calc *calc = answer->calc;
    cw_json json = cw_json_on(arena);
    cw_json_open(&json, NULL);
    cw_json_text(&json, "calculator", calc->name);
    cw_json_open(&json, "inputs");
    for (int i = 0; i < calc->input_count; i++) {
        if (!shown(&calc->inputs[i], answer->given[i]))
            continue;
        cw_json_open(&json, calc->inputs[i].key);
        add_value(&json, &calc->inputs[i], answer->input, arena);
        cw_json_flag(&json, "assumed", !answer->given[i]);
        cw_json_close(&json);
    }
    cw_json_close(&json);
    cw_json_open(&json, "results");
    for (int i = 0; i < calc->output_count; i++) {
        cw_json_open(&json, calc->outputs[i].key);
        add_value(&json, &calc->outputs[i], answer->output, arena);
        cw_json_close(&json);
    }
    cw_json_close(&json);
    cw_json_open_list(&json, "working");
    for (int i = 0; i < answer->working.count; i++) {
        const cw_working_step *step = &answer->working.steps[i];
        cw_json_open(&json, NULL);
        cw_json_text(&json, "symbol", step->symbol);
        cw_json_text(&json, "expression", step->expression);
        cw_json_number(&json, "value", step->value);
        cw_json_text(&json, "unit", cw_dim_unit(step->dim));
        cw_json_text(&json, "source", step->source);
        cw_json_close(&json);
    }
    cw_json_close_list(&json);
    cw_json_text(&json, "source", calc->source);
    cw_json_close(&json);
    return cw_json_string(&json);
}
