#include "cw/field.h"

static int words_in(const char *const *choices)
{
    int words = 0;
    while (choices[words])
        words++;
    return words;
}

static bool one_in_range(const cw_field *field, double value, cw_pos where, cw_diags *diags)
{
    const bool choice = field->kind == CW_KIND_CHOICE;
    const double low = choice ? 0.0 : field->low;
    const double high = choice ? words_in(field->choices) - 1.0 : field->high;
    if (value >= low && value <= high) // NaN is refused too
        return true;
    cw_diag_add(diags, where, choice ? CW_E_CHOICE : CW_E_RANGE,
                "%s %.6g %s is outside %.6g to %.6g; check the value and its unit", field->key,
                value, cw_dim_unit(field->dim), low, high);
    return false;
}

static bool list_in_range(const cw_field *field, const cw_list *list, cw_pos where, cw_diags *diags)
{
    if (list->count < 0 || list->count > CW_LIST_MAX) {
        cw_diag_add(diags, where, CW_E_TOO_MANY, "%s has %d items; give at most %d", field->key,
                    list->count, (int)CW_LIST_MAX);
        return false;
    }
    bool good = true;
    for (int i = 0; i < list->count; i++)
        good = one_in_range(field, list->items[i], where, diags) && good;
    return good;
}

static bool field_in_range(const cw_field *field, const void *input, cw_pos where, cw_diags *diags)
{
    const char *base = input;
    const void *at = base + field->offset;
    if (field->has_offset != CW_NO_FLAG && !*(const bool *)(const void *)(base + field->has_offset))
        return true;
    switch (field->kind) {
    case CW_KIND_NUMBER:
        return one_in_range(field, *(const double *)at, where, diags);
    case CW_KIND_COUNT:
    case CW_KIND_CHOICE:
        return one_in_range(field, *(const int *)at, where, diags);
    case CW_KIND_LIST:
        return list_in_range(field, at, where, diags);
    default:
        return true;
    }
}

bool cw_fields_in_range(const cw_field *fields, int count, const void *input, cw_pos where,
                        cw_diags *diags)
{
    bool good = true;
    for (int i = 0; i < count; i++)
        good = field_in_range(&fields[i], input, where, diags) && good;
    return good;
}
