#include "cw/diag.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "cw/text.h"

static const cw_code_row codes[] = {
    {CW_E_SYNTAX, "the file is not well formed"},
    {CW_E_UNKNOWN_KEY, "a key that the format does not have"},
    {CW_E_RANGE, "a value outside its limits"},
    {CW_E_UNIT, "a value without a unit, or with one of another kind"},
    {CW_E_VALUE, "a value that cannot be read as what it should be"},
    {CW_E_MISSING, "a needed entry is not there"},
    {CW_E_DUPLICATE, "a key given twice"},
    {CW_E_KIND, "a list where a map is wanted, or the like"},
    {CW_E_CHOICE, "a word that is not one of the choices"},
    {CW_E_TOO_MANY, "more items than the program takes"},
    {CW_E_CONFLICT, "two entries that cannot both hold"},
    {CW_E_GEOMETRY, "dimensions that make no shape"},
    {CW_E_FILE, "a file that cannot be read or written"},
    {CW_E_NO_LAYOUT, "no division into pieces meets the constraints"},
    {CW_E_NO_SOLUTION, "an iteration found no answer"},
    {CW_W_MEMORY, "a result rests on a value from memory or practice"},
    {CW_W_ASSUMED, "a default was used"},
};

const cw_code_row *cw_code_at(int index)
{
    const int count = (int)(sizeof codes / sizeof codes[0]);
    return index >= 0 && index < count ? &codes[index] : NULL;
}

const char *cw_code_kind(cw_code code)
{
    return code >= CW_W_MEMORY ? "warning" : "error";
}

cw_diags cw_diags_on(cw_arena *arena)
{
    return (cw_diags){.arena = arena};
}

void cw_diag_add(cw_diags *diags, cw_pos where, cw_code code, const char *format, ...)
{
    if (diags->count >= CW_DIAGS_MAX) {
        diags->dropped++;
        return;
    }
    char message[1024];
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(message, sizeof message, format, arguments);
    va_end(arguments);
    if (diags->count == diags->capacity) {
        diags->capacity = diags->capacity ? diags->capacity * 2 : 16;
        diags->items = cw_arena_grow(diags->arena, diags->items, (size_t)diags->count,
                                     (size_t)diags->capacity, sizeof *diags->items);
    }
    const size_t kept = length < 0 ? 0 : strlen(message);
    diags->items[diags->count++] =
        (cw_diag){where, code, cw_arena_copy(diags->arena, message, kept)};
}

static int file_order(const cw_diag *a, const cw_diag *b)
{
    return strcmp(a->where.file ? a->where.file : "", b->where.file ? b->where.file : "");
}

static bool comes_before(const cw_diag *a, const cw_diag *b)
{
    if (file_order(a, b) != 0)
        return file_order(a, b) < 0;
    if (a->where.line != b->where.line)
        return a->where.line < b->where.line;
    return a->where.column < b->where.column;
}

static bool repeats(const cw_diag *a, const cw_diag *b)
{
    return a->code == b->code && file_order(a, b) == 0 && a->where.line == b->where.line &&
           a->where.column == b->where.column && cw_text_same(a->message, b->message);
}

void cw_diags_sort(cw_diags *diags)
{
    // Insertion sort: stable, and CW_DIAGS_MAX bounds it.
    for (int i = 1; i < diags->count; i++) {
        const cw_diag moving = diags->items[i];
        int j = i;
        for (; j > 0 && comes_before(&moving, &diags->items[j - 1]); j--)
            diags->items[j] = diags->items[j - 1];
        diags->items[j] = moving;
    }
    int kept = 0;
    for (int i = 0; i < diags->count; i++) {
        bool said = false;
        for (int j = kept; j > 0 && !comes_before(&diags->items[j - 1], &diags->items[i]) && !said; j--)
            said = repeats(&diags->items[j - 1], &diags->items[i]);
        if (!said)
            diags->items[kept++] = diags->items[i];
    }
    diags->count = kept;
}

const char *cw_diag_line(cw_arena *arena, const cw_diag *diag)
{
    cw_text text = cw_text_on(arena);
    if (diag->where.file)
        cw_text_print(&text, "%s:", diag->where.file);
    if (diag->where.line > 0)
        cw_text_print(&text, "%d:%d:", diag->where.line, diag->where.column);
    if (text.length > 0)
        cw_text_add(&text, " ");
    cw_text_print(&text, "%s %d: %s", cw_code_kind(diag->code), (int)diag->code, diag->message);
    return cw_text_string(&text);
}
