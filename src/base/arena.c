#include "cw/arena.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct cw_block {
    struct cw_block *next;
    size_t size, used; /* bytes of data[] */
    max_align_t data[];
} cw_block;

enum { BLOCK_BYTES = 64 * 1024, ALIGNMENT = sizeof(max_align_t) };

static void *malloc_obtain(void *self, size_t bytes)
{
    (void)self;
    return malloc(bytes);
}

static void malloc_give_back(void *self, void *block)
{
    (void)self;
    free(block);
}

static void malloc_exhausted(void *self, size_t bytes)
{
    (void)self;
    (void)bytes;
    abort();
}

const cw_memory cw_memory_malloc = {malloc_obtain, malloc_give_back, malloc_exhausted, NULL};

cw_arena cw_arena_on(const cw_memory *memory)
{
    return (cw_arena){.memory = memory ? memory : &cw_memory_malloc};
}

static cw_block *block_with_room(cw_arena *arena, size_t bytes)
{
    cw_block *newest = arena->blocks;
    if (newest && newest->size - newest->used >= bytes)
        return newest;

    // Blocks double with what is already held, so that a large plan needs few of them.
    size_t size = arena->bytes_held > BLOCK_BYTES ? arena->bytes_held : BLOCK_BYTES;
    if (size > 4u * 1024 * 1024)
        size = 4u * 1024 * 1024;
    if (size < bytes)
        size = bytes;
    const size_t whole = sizeof(cw_block) + size;
    cw_block *block = whole > size ? arena->memory->obtain(arena->memory->self, whole) : NULL;
    if (!block) {
        arena->memory->exhausted(arena->memory->self, whole);
        abort(); // exhausted() must not return
    }
    *block = (cw_block){.next = arena->blocks, .size = size};
    arena->blocks = block;
    arena->bytes_held += whole;
    return block;
}

void *cw_arena_take(cw_arena *arena, size_t count, size_t size)
{
    const bool overflow = size != 0 && count > (SIZE_MAX - ALIGNMENT) / size;
    if (overflow) {
        arena->memory->exhausted(arena->memory->self, SIZE_MAX);
        abort();
    }
    const size_t bytes = (count * size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    cw_block *block = block_with_room(arena, bytes);
    void *taken = (char *)block->data + block->used;
    block->used += bytes;
    memset(taken, 0, bytes);
    return taken;
}

void *cw_arena_grow(cw_arena *arena, const void *old, size_t used, size_t count, size_t size)
{
    void *grown = cw_arena_take(arena, count, size);
    if (used > 0)
        memcpy(grown, old, used * size);
    return grown;
}

char *cw_arena_copy(cw_arena *arena, const char *text, size_t length)
{
    char *copy = cw_arena_take(arena, length + 1, 1);
    if (length > 0)
        memcpy(copy, text, length);
    return copy;
}

char *cw_arena_print(cw_arena *arena, const char *format, ...)
{
    char brief[256];
    va_list arguments;
    va_start(arguments, format);
    const int length = vsnprintf(brief, sizeof brief, format, arguments);
    va_end(arguments);
    if (length < 0)
        return cw_arena_copy(arena, "", 0);
    if ((size_t)length < sizeof brief)
        return cw_arena_copy(arena, brief, (size_t)length);

    char *text = cw_arena_take(arena, (size_t)length + 1, 1);
    va_start(arguments, format);
    vsnprintf(text, (size_t)length + 1, format, arguments);
    va_end(arguments);
    return text;
}

void cw_arena_release(cw_arena *arena)
{
    while (arena->blocks) {
        cw_block *block = arena->blocks;
        arena->blocks = block->next;
        arena->memory->give_back(arena->memory->self, block);
    }
    arena->bytes_held = 0;
}
