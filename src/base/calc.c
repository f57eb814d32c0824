#include "cw/calc.h"

#include <string.h>

#include "cw/text.h"

const char *cw_dim_suffix(cw_dim dim)
{
    static const char *const words[CW_DIM_LIMIT] = {
        [CW_DIM_FT] = "ft",         [CW_DIM_IN] = "in",          [CW_DIM_ELEV_FT] = "ft",
        [CW_DIM_STATION_FT] = "ft", [CW_DIM_COORD_FT] = "ft",    [CW_DIM_LB] = "lb",
        [CW_DIM_PCF] = "pcf",       [CW_DIM_PSI] = "psi",        [CW_DIM_PSF] = "psf",
        [CW_DIM_DEG] = "deg",         [CW_DIM_SLOPE] = "ft_per_ft",  [CW_DIM_SIDE_SLOPE] = "h_per_v",
              [CW_DIM_SQFT] = "sqft",      [CW_DIM_CUFT] = "cuft",
        [CW_DIM_CY] = "cy",         [CW_DIM_HOUR] = "h",         [CW_DIM_DEGF] = "degf",
        [CW_DIM_PERCENT] = "pct",   [CW_DIM_LB_PER_FT] = "lb_per_ft", [CW_DIM_FT_LB] = "ft_lb",
        [CW_DIM_TON] = "ton",       [CW_DIM_MONEY] = "cents",    [CW_DIM_CFS] = "cfs",
        [CW_DIM_FPS] = "fps",       [CW_DIM_ACRE] = "acre",      [CW_DIM_IN_PER_H] = "in_per_h",
        [CW_DIM_FT_PER_DAY] = "ft_per_day", [CW_DIM_HP] = "hp", [CW_DIM_MIN] = "min",
        [CW_DIM_SQIN_PER_FT] = "in2_per_ft",
    };
    return words[dim] ? words[dim] : "";
}

const cw_field *cw_calc_column(const cw_calc *calc, const char *name, bool *bare)
{
    for (int i = 0; i < calc->input_count; i++) {
        const cw_field *field = &calc->inputs[i];
        const size_t length = strlen(field->key);
        // A plain ratio has no unit: its cells are bare numbers under its own name.
        *bare = field->kind == CW_KIND_NUMBER && field->dim == CW_DIM_NONE;
        if (strcmp(field->key, name) == 0)
            return field;
        if (field->kind != CW_KIND_NUMBER || strncmp(field->key, name, length) != 0 || name[length] != '_')
            continue;
        *bare = true;
        const char *suffix = cw_dim_suffix(field->dim);
        if (suffix[0] != '\0' && strcmp(suffix, name + length + 1) == 0)
            return field;
    }
    return NULL;
}

static int index_of(const cw_calc *calc, const char *key)
{
    for (int i = 0; i < calc->input_count; i++)
        if (strcmp(calc->inputs[i].key, key) == 0)
            return i;
    return -1;
}

static void report_unknown(const cw_calc *calc, const cw_calc_value *value, cw_diags *diags)
{
    const char *keys[64];
    int count = 0;
    cw_text all = cw_text_on(diags->arena);
    for (; count < calc->input_count && count < 64; count++) {
        keys[count] = calc->inputs[count].key;
        cw_text_print(&all, "%s%s", count ? ", " : "", keys[count]);
    }
    const char *nearest = cw_text_nearest(value->key, keys, count);
    if (nearest)
        cw_diag_add(diags, value->where, CW_E_UNKNOWN_KEY, "%s has no input \"%s\"; did you mean %s?",
                    calc->name, value->key, nearest);
    else
        cw_diag_add(diags, value->where, CW_E_UNKNOWN_KEY, "%s has no input \"%s\"; it takes %s",
                    calc->name, value->key, cw_text_string(&all));
}

enum { INPUTS_MAX = 64 };

bool cw_calc_fill(const cw_calc *calc, const cw_calc_value *values, int count, const cw_rows *rows,
                  void *input, bool *given, cw_arena *arena, cw_diags *diags)
{
    bool here[INPUTS_MAX] = {false};
    bool good = true;
    cw_pos place = {0};
    for (int i = 0; i < count; i++) {
        place = values[i].where;
        const int at = index_of(calc, values[i].key);
        if (at < 0) {
            report_unknown(calc, &values[i], diags);
            good = false;
        } else if (here[at]) {
            cw_diag_add(diags, values[i].where, CW_E_DUPLICATE, "%s is given twice; keep one", values[i].key);
            good = false;
        } else {
            here[at] = true;
            good = cw_field_read(&calc->inputs[at], values[i].text, input, values[i].where, arena, diags) && good;
        }
    }
    place.column = 0;
    for (int i = 0; i < calc->input_count; i++) {
        const cw_field *field = &calc->inputs[i];
        if (given)
            given[i] = here[i];
        if (here[i])
            continue;
        if (field->required) {
            cw_diag_add(diags, place, CW_E_MISSING, "%s is missing: %s; write %s=%s", field->key, field->meaning,
                        field->key, field->kind == CW_KIND_NUMBER ? cw_dim_hint(field->dim) : "...");
            good = false;
        } else if (field->fallback) {
            cw_field_default(field, rows, input, arena, diags);
        }
    }
    return good && (!calc->valid || calc->valid(input, place, diags));
}

bool cw_field_has(const cw_field *field, const void *base)
{
    return field->has_offset == CW_NO_FLAG || *(const bool *)((const char *)base + field->has_offset);
}
