#include "structures_internal.h"

#include <assert.h>

const char *const cw_struct_verdicts[] = {"holds", "fails", "undecided", NULL};
const char *const cw_struct_forms[] = {"lid", "double-u", "ring", NULL};
const char *const cw_struct_grounds[] = {"uniform", "springs", NULL};
const char *const cw_struct_rules[] = {"box", "plain", "fine-soil", NULL};
const char *const cw_struct_machines[] = {"truck", "tandem", "axles", "tracks", NULL};
const char *const cw_struct_phis[] = {"box", "three-sided", "cast", NULL};

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
    const void *at = (const char *)input + field->offset;
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

bool cw_struct_in_range(const cw_field *fields, int count, const void *input, cw_pos where,
                        cw_diags *diags)
{
    bool good = true;
    for (int i = 0; i < count; i++)
        good = field_in_range(&fields[i], input, where, diags) && good;
    return good;
}

bool cw_struct_positive(const char *key, double value, cw_dim dim, cw_pos where, cw_diags *diags)
{
    if (value > 0.0)
        return true;
    cw_diag_add(diags, where, CW_E_MISSING, "%s is %.6g %s; give a value above 0", key, value,
                cw_dim_unit(dim));
    return false;
}

double cw_struct_row(const cw_rows *rows, const char *id)
{
    const cw_row *row = cw_rows_find(rows, id);
    assert(row);
    return row->value;
}
