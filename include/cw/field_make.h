/** @file
 * Initialisers of cw_field rows, for the tables of calculators.  An input without a default must be
 * given. */
#ifndef CW_FIELD_MAKE_H
#define CW_FIELD_MAKE_H

#include "cw/field.h"

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

#endif
