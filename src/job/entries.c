#include "job_internal.h"

#include <string.h>

#include "cw/text.h"

static const cw_entry *entry_at(const cw_entries *entries, const char *path, size_t length)
{
    for (int i = 0; i < entries->count; i++) {
        const char *candidate = entries->items[i].path;
        if (strncmp(candidate, path, length) == 0 && candidate[length] == '\0')
            return &entries->items[i];
    }
    return NULL;
}

bool cw_entries_given(const cw_entries *entries, const char *path)
{
    const size_t length = strlen(path);
    for (int i = 0; i < entries->count; i++) {
        const char *candidate = entries->items[i].path;
        const bool begins = strncmp(candidate, path, length) == 0;
        if (begins &&
            (candidate[length] == '\0' || candidate[length] == '.' || candidate[length] == '['))
            return true;
    }
    return false;
}

cw_pos cw_entries_place(const cw_entries *entries, const char *path)
{
    cw_pos pos = {.file = entries->file, .path = path};
    size_t length = strlen(path);
    for (;;) {
        const cw_entry *entry = entry_at(entries, path, length);
        if (entry) {
            pos.line = entry->line;
            pos.column = entry->column;
            return pos;
        }
        if (length == 0)
            return pos;
        do
            length--;
        while (length > 0 && path[length] != '.' && path[length] != '[');
    }
}

static const char *scalar_at(const cw_entries *entries, const char *path, cw_pos *where)
{
    const cw_entry *entry = entry_at(entries, path, strlen(path));
    if (!entry || entry->kind != CW_ENTRY_SCALAR || !entry->value || !entry->value[0])
        return NULL;
    *where = (cw_pos){entries->file, path, entry->line, entry->column};
    return entry->value;
}

cw_job_names cw_job_file_names(const cw_entries *entries)
{
    cw_job_names names = {0};
    names.profile = scalar_at(entries, "profile.name", &names.profile_at);
    if (names.profile && cw_text_same(names.profile, "generic"))
        names.profile = NULL;
    names.ground = scalar_at(entries, "ground.file", &names.ground_at);
    cw_pos ignored = {0};
    const char *order = scalar_at(entries, "ground.order", &ignored);
    names.ground_order = order && cw_text_same(order, "penzd") ? 1 : 0;
    names.breakline_code = scalar_at(entries, "ground.breakline_code", &ignored);
    static const char *const charts[CW_CRANES_MAX] = {
        "cranes.choices[0].chart", "cranes.choices[1].chart", "cranes.choices[2].chart",
        "cranes.choices[3].chart", "cranes.choices[4].chart", "cranes.choices[5].chart",
    };
    for (int i = 0; i < CW_CRANES_MAX; i++)
        names.charts[i] = scalar_at(entries, charts[i], &names.charts_at[i]);
    return names;
}
