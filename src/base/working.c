#include "cw/working.h"

cw_working cw_working_on(cw_arena *arena, const char *title)
{
    return (cw_working){.arena = arena, .title = title};
}

double cw_step_add(cw_working *working, const char *symbol, const char *expression, double value,
                   cw_dim dim, const char *source)
{
    if (!working)
        return value;
    if (working->count == working->capacity) {
        working->capacity = working->capacity ? working->capacity * 2 : 8;
        working->steps = cw_arena_grow(working->arena, working->steps, (size_t)working->count,
                                       (size_t)working->capacity, sizeof *working->steps);
    }
    working->steps[working->count++] = (cw_working_step){symbol, expression, value, dim, source};
    return value;
}
