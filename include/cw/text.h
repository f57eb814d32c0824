/** @file
 * Growing text in an arena, and the few string helpers the core needs. */
#ifndef CW_TEXT_H
#define CW_TEXT_H

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>

#include "cw/arena.h"

/** Text under construction.  @c data is always closed by a zero once anything was added. */
typedef struct cw_text {
    cw_arena *arena;
    char *data;
    size_t length, capacity; /**< bytes */
} cw_text;

cw_text cw_text_on(cw_arena *arena);
void cw_text_add(cw_text *text, const char *piece);
void cw_text_add_bytes(cw_text *text, const char *bytes, size_t length);
__attribute__((format(printf, 2, 3))) void cw_text_print(cw_text *text, const char *format, ...);

/** The text so far, "" when nothing was added. */
const char *cw_text_string(const cw_text *text);

/** @p text as it may stand in a message: control characters as '?', at most 60 bytes, cut at a character with "...". */
const char *cw_text_clip(cw_arena *arena, const char *text);

bool cw_text_same(const char *a, const char *b);

/** The candidate nearest to @p word by edit distance (insert, delete, replace, swap), or NULL when none is
 * within a third of its length (at least 1).  Ties go to the first.  For "did you mean". */
const char *cw_text_nearest(const char *word, const char *const *candidates, int count);

#endif
