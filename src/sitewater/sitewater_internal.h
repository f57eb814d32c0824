/* Shared by the files of this module. */
#ifndef CW_SITEWATER_INTERNAL_H
#define CW_SITEWATER_INTERNAL_H

#include "cw/sitewater.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

/* As the FHWA manuals take them in ft and s. */
#define GRAVITY_FT_PER_S2 32.2
#define MANNING_FT 1.486

#define NUMBER_IN(key, symbol, dim, low, high, fallback, required, meaning, source, type, member)  \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, fallback, required, meaning, source, NULL,    \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
/* An optional number and the bool beside it that tells whether it was given. */
#define OPTION_IN(key, symbol, dim, low, high, meaning, type, member, has)                         \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, NULL, false, meaning, NULL, NULL,             \
            offsetof(type, member), offsetof(type, has)                                            \
    }
#define COUNT_IN(key, symbol, low, high, fallback, meaning, source, type, member)                  \
    {                                                                                              \
        key, symbol, CW_KIND_COUNT, CW_DIM_COUNT, low, high, fallback, false, meaning, source,     \
            NULL, offsetof(type, member), CW_NO_FLAG                                               \
    }
#define CHOICE_IN(key, words, fallback, required, meaning, source, type, member)                   \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, fallback, required, meaning, source, words,  \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define FLAG_IN(key, fallback, meaning, source, type, member)                                      \
    {                                                                                              \
        key, NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, fallback, false, meaning, source, NULL,        \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define LIST_IN(key, symbol, dim, low, high, fallback, meaning, source, type, member)              \
    {                                                                                              \
        key, symbol, CW_KIND_LIST, dim, low, high, fallback, false, meaning, source, NULL,         \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define OUT(key, symbol, dim, meaning, type, member)                                               \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning, NULL,     \
            NULL, offsetof(type, member), CW_NO_FLAG                                               \
    }
#define OPTION_OUT(key, symbol, dim, meaning, type, member, has)                                   \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning, NULL,     \
            NULL, offsetof(type, member), offsetof(type, has)                                      \
    }
#define COUNT_OUT(key, symbol, meaning, type, member)                                              \
    {                                                                                              \
        key, symbol, CW_KIND_COUNT, CW_DIM_COUNT, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning,   \
            NULL, NULL, offsetof(type, member), CW_NO_FLAG                                         \
    }
#define CHOICE_OUT(key, words, meaning, type, member)                                              \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false, meaning, NULL, words,           \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }
#define FLAG_OUT(key, meaning, type, member)                                                       \
    {                                                                                              \
        key, NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, NULL, false, meaning, NULL, NULL,              \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }

/* Words of cw_verdict and of cw_found, for CHOICE fields. */
extern const char *const cw_sitewater_verdicts[];
extern const char *const cw_sitewater_found[];

/* Limits of every number, count, choice and list of @p fields in the struct at @p input; an
 * optional number that was not given is passed over.  Faults go to @p diags. */
bool cw_sitewater_in_range(const cw_field *fields, int count, const void *input, cw_pos where,
                           cw_diags *diags);

/* Value of a row that data/sitewater.csv or data/materials.csv holds. */
double cw_sitewater_row(const cw_rows *rows, const char *id);

#endif
