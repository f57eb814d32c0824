#include "cw/json.h"

#include <assert.h>
#include <math.h>

cw_json cw_json_on(cw_arena *arena)
{
    return (cw_json){.text = cw_text_on(arena)};
}

static void add_quoted(cw_text *text, const char *value)
{
    cw_text_add(text, "\"");
    const char *plain = value;
    for (const char *at = value; *at != '\0'; at++) {
        const unsigned char byte = (unsigned char)*at;
        if (byte >= 0x20 && byte != '"' && byte != '\\')
            continue;
        cw_text_add_bytes(text, plain, (size_t)(at - plain));
        if (byte == '"' || byte == '\\')
            cw_text_print(text, "\\%c", byte);
        else
            cw_text_print(text, "\\u%04x", (unsigned)byte);
        plain = at + 1;
    }
    cw_text_add(text, plain);
    cw_text_add(text, "\"");
}

static void new_line(cw_json *json)
{
    cw_text_add(&json->text, "\n");
    for (int i = 0; i < json->depth; i++)
        cw_text_add(&json->text, " ");
}

static void begin(cw_json *json, const char *key)
{
    if (json->depth > 0) {
        if (json->has_items[json->depth])
            cw_text_add(&json->text, ",");
        new_line(json);
    }
    json->has_items[json->depth] = true;
    if (key) {
        add_quoted(&json->text, key);
        cw_text_add(&json->text, ": ");
    }
}

static void open_with(cw_json *json, const char *key, const char *bracket)
{
    begin(json, key);
    assert(json->depth + 1 < CW_JSON_DEPTH_MAX);
    json->has_items[++json->depth] = false;
    cw_text_add(&json->text, bracket);
}

static void close_with(cw_json *json, const char *bracket)
{
    assert(json->depth > 0);
    const bool had_items = json->has_items[json->depth];
    json->depth--;
    if (had_items)
        new_line(json);
    cw_text_add(&json->text, bracket);
}

void cw_json_open(cw_json *json, const char *key)
{
    open_with(json, key, "{");
}

void cw_json_close(cw_json *json)
{
    close_with(json, "}");
}

void cw_json_open_list(cw_json *json, const char *key)
{
    open_with(json, key, "[");
}

void cw_json_close_list(cw_json *json)
{
    close_with(json, "]");
}

void cw_json_text(cw_json *json, const char *key, const char *text)
{
    begin(json, key);
    if (text)
        add_quoted(&json->text, text);
    else
        cw_text_add(&json->text, "null");
}

void cw_json_number(cw_json *json, const char *key, double value)
{
    begin(json, key);
    if (isfinite(value))
        cw_text_print(&json->text, "%.15g", value == 0.0 ? 0.0 : value);
    else
        cw_text_add(&json->text, "null");
}

void cw_json_count(cw_json *json, const char *key, long value)
{
    begin(json, key);
    cw_text_print(&json->text, "%ld", value);
}

void cw_json_flag(cw_json *json, const char *key, bool value)
{
    begin(json, key);
    cw_text_add(&json->text, value ? "true" : "false");
}

const char *cw_json_string(cw_json *json)
{
    assert(json->depth == 0);
    cw_text_add(&json->text, "\n");
    return cw_text_string(&json->text);
}
