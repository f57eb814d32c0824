#include "takeoff_internal.h"

#include "cw/units.h"

double cw_takeoff_with_percent(double percent)
{
    return 1.0 + percent / CW_PERCENT;
}

static int words_in(const char *const *choices)
{
    int words = 0;
    while (choices[words])
        words++;
    return words;
}

static bool one_in_range(const cw_field *field, const void *base, cw_pos where, cw_diags *diags)
{
    const void *at = (const char *)base + field->offset;
    double value = 0.0, low = field->low, high = field->high;
    switch (field->kind) {
    case CW_KIND_NUMBER:
        value = *(const double *)at;
        break;
    case CW_KIND_COUNT:
        value = *(const int *)at;
        break;
    case CW_KIND_CHOICE:
        value = *(const int *)at;
        low = 0.0;
        high = words_in(field->choices) - 1.0;
        break;
    default:
        return true;
    }
    if (value >= low && value <= high) // NaN is refused too
        return true;
    cw_diag_add(diags, where, field->kind == CW_KIND_CHOICE ? CW_E_CHOICE : CW_E_RANGE,
                "%s %.6g %s is outside %.6g to %.6g; check the value and its unit", field->key,
                value, cw_dim_unit(field->dim), low, high);
    return false;
}

bool cw_takeoff_in_range(const cw_field *fields, int count, const void *input, cw_pos where,
                         cw_diags *diags)
{
    bool good = true;
    for (int i = 0; i < count; i++)
        good = one_in_range(&fields[i], input, where, diags) && good;
    return good;
}
