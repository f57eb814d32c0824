/* Shared by the files of this module. */
#ifndef CW_CLOSING_INTERNAL_H
#define CW_CLOSING_INTERNAL_H

#include "cw/closing.h"
#include "cw/tolerance.h"

#define COUNT(array) ((int)(sizeof(array) / sizeof(array)[0]))

#define NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, type, member)            \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, fallback, (fallback) == NULL, meaning,        \
            source, NULL, offsetof(type, member), CW_NO_FLAG                                       \
    }
/* An optional number and the bool beside it that tells whether it was given. */
#define OPTION_IN(key, symbol, dim, low, high, meaning, source, type, member, has)                 \
    {                                                                                              \
        key, symbol, CW_KIND_NUMBER, dim, low, high, NULL, false, meaning, source, NULL,           \
            offsetof(type, member), offsetof(type, has)                                            \
    }
#define COUNT_IN(key, symbol, low, high, fallback, meaning, source, type, member)                  \
    {                                                                                              \
        key, symbol, CW_KIND_COUNT, CW_DIM_COUNT, low, high, fallback, (fallback) == NULL,         \
            meaning, source, NULL, offsetof(type, member), CW_NO_FLAG                              \
    }
#define CHOICE_IN(key, words, fallback, meaning, source, type, member)                             \
    {                                                                                              \
        key, NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, fallback, (fallback) == NULL, meaning,       \
            source, words, offsetof(type, member), CW_NO_FLAG                                      \
    }
#define FLAG_IN(key, fallback, meaning, source, type, member)                                      \
    {                                                                                              \
        key, NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, fallback, (fallback) == NULL, meaning, source, \
            NULL, offsetof(type, member), CW_NO_FLAG                                               \
    }
/* A list that may be left out. */
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
#define LIST_OUT(key, symbol, dim, meaning, type, member)                                          \
    {                                                                                              \
        key, symbol, CW_KIND_LIST, dim, CW_ANY_LOW, CW_ANY_HIGH, NULL, false, meaning, NULL, NULL, \
            offsetof(type, member), CW_NO_FLAG                                                     \
    }

/* Words of cw_verdict, for CHOICE fields. */
extern const char *const cw_closing_verdicts[];

/* Value of a row that data/ holds. */
double cw_closing_row(const cw_rows *rows, const char *id);

/* The least whole number that is not below @p value, which is met within one part in 1e9. */
int cw_closing_whole(double value);

static inline int cw_closing_verdict(double demand, double capacity)
{
    return cw_meets(demand, capacity) ? CW_HOLDS : CW_FAILS;
}

#endif
