/** @file
 * One arena holds everything a plan needs; one release frees it all.
 * src/base/arena.c is the only file that calls malloc. */
#ifndef CW_ARENA_H
#define CW_ARENA_H

#include <stddef.h>

/** Where the arena gets its blocks, and what happens when there are none left.
 * @c obtain returns @p bytes of memory or NULL; @c give_back takes a block again.
 * @c exhausted is called when obtain returned NULL and MUST NOT RETURN: the program ends with a message,
 * a server drops the request, a test jumps back.  So no caller in the core tests for NULL. */
typedef struct cw_memory {
    void *(*obtain)(void *self, size_t bytes);
    void (*give_back)(void *self, void *block);
    void (*exhausted)(void *self, size_t bytes);
    void *self;
} cw_memory;

typedef struct cw_arena {
    const cw_memory *memory;
    struct cw_block *blocks; /**< newest first */
    size_t bytes_held;       /**< taken from @c memory, in bytes */
} cw_arena;

/** Memory from malloc; prints nothing, aborts the process when there is none left. */
extern const cw_memory cw_memory_malloc;

/** An empty arena on @p memory (NULL means cw_memory_malloc).  Takes no memory until first use. */
cw_arena cw_arena_on(const cw_memory *memory);

/** @p count zeroed items of @p size bytes, aligned for any type.  Never NULL; count 0 gives a valid pointer. */
void *cw_arena_take(cw_arena *arena, size_t count, size_t size);

#define CW_TAKE(arena, type, count) ((type *)cw_arena_take((arena), (size_t)(count), sizeof(type)))

/** Room for @p count items in place of @p old, the first @p used of them copied (old is left to the arena). */
void *cw_arena_grow(cw_arena *arena, const void *old, size_t used, size_t count, size_t size);

/** A copy of the @p length bytes at @p text with a closing zero. */
char *cw_arena_copy(cw_arena *arena, const char *text, size_t length);

/** printf into the arena; the locale must be "C". */
__attribute__((format(printf, 2, 3))) char *cw_arena_print(cw_arena *arena, const char *format, ...);

/** Give all blocks back; the arena is empty and may be used again. */
void cw_arena_release(cw_arena *arena);

#endif
