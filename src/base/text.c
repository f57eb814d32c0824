#include "cw/text.h"

#include <limits.h>
#include <stdio.h>
#include <string.h>

cw_text cw_text_on(cw_arena *arena)
{
    return (cw_text){.arena = arena};
}

void cw_text_add_bytes(cw_text *text, const char *bytes, size_t length)
{
    if (text->length + length + 1 > text->capacity) {
        size_t capacity = text->capacity ? text->capacity * 2 : 256;
        if (capacity < text->length + length + 1)
            capacity = text->length + length + 1;
        text->data = cw_arena_grow(text->arena, text->data, text->length, capacity, 1);
        text->capacity = capacity;
    }
    if (length > 0)
        memcpy(text->data + text->length, bytes, length);
    text->length += length;
    text->data[text->length] = '\0';
}

void cw_text_add(cw_text *text, const char *piece)
{
    cw_text_add_bytes(text, piece, strlen(piece));
}

void cw_text_print(cw_text *text, const char *format, ...)
{
    char brief[512];
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(brief, sizeof brief, format, arguments);
    va_end(arguments);
    if (length < 0)
        return;
    if ((size_t)length < sizeof brief) {
        cw_text_add_bytes(text, brief, (size_t)length);
        return;
    }
    char *whole = cw_arena_take(text->arena, (size_t)length + 1, 1);
    va_start(arguments, format);
    vsnprintf(whole, (size_t)length + 1, format, arguments);
    va_end(arguments);
    cw_text_add_bytes(text, whole, (size_t)length);
}

const char *cw_text_string(const cw_text *text)
{
    return text->data ? text->data : "";
}

const char *cw_text_clip(cw_arena *arena, const char *text)
{
    enum { SHOWN_MAX = 60 };
    size_t length = strlen(text);
    const bool cut = length > SHOWN_MAX;
    if (cut)
        for (length = SHOWN_MAX; length > 0 && ((unsigned char)text[length] & 0xC0) == 0x80;)
            length--;
    char *shown = cw_arena_copy(arena, text, length);
    for (size_t i = 0; i < length; i++)
        if ((unsigned char)shown[i] < ' ' || shown[i] == 0x7F)
            shown[i] = '?';
    return cut ? cw_arena_print(arena, "%s...", shown) : shown;
}

bool cw_text_same(const char *a, const char *b)
{
    return a && b && strcmp(a, b) == 0;
}

enum { WORD_MAX = 48 };

/* Optimal string alignment distance (Damerau 1964; adjacent swaps count one) on three rolling rows. */
static int edit_distance(const char *a, const char *b)
{
    const int m = (int)strlen(a), n = (int)strlen(b);
    if (m > WORD_MAX || n > WORD_MAX)
        return INT_MAX;
    int rows[3][WORD_MAX + 1];
    for (int j = 0; j <= n; j++)
        rows[0][j] = j;
    for (int i = 1; i <= m; i++) {
        const int *above = rows[(i - 1) % 3], *higher = rows[(i + 1) % 3];
        int *row = rows[i % 3];
        row[0] = i;
        for (int j = 1; j <= n; j++) {
            int least = above[j - 1] + (a[i - 1] != b[j - 1]);
            if (above[j] + 1 < least)
                least = above[j] + 1;
            if (row[j - 1] + 1 < least)
                least = row[j - 1] + 1;
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1] &&
                higher[j - 2] + 1 < least)
                least = higher[j - 2] + 1;
            row[j] = least;
        }
    }
    return rows[m % 3][n];
}

const char *cw_text_nearest(const char *word, const char *const *candidates, int count)
{
    const int length = (int)strlen(word);
    int allowed = length / 3;
    if (allowed < 1)
        allowed = 1;
    const char *nearest = NULL;
    for (int i = 0; i < count; i++) {
        const int distance = edit_distance(word, candidates[i]);
        if (distance <= allowed) {
            nearest = candidates[i];
            allowed = distance - 1;
        }
    }
    return nearest;
}
