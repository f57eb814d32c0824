#include "cw/check.h"

#include "cw/tolerance.h"

cw_checks cw_checks_on(cw_arena *arena)
{
    return (cw_checks){.arena = arena};
}

cw_check *cw_check_add(cw_checks *checks, cw_check check)
{
    if (checks->count == checks->capacity) {
        checks->capacity = checks->capacity ? checks->capacity * 2 : 32;
        checks->items = cw_arena_grow(checks->arena, checks->items, (size_t)checks->count,
                                      (size_t)checks->capacity, sizeof *checks->items);
    }
    checks->items[checks->count] = check;
    return &checks->items[checks->count++];
}

void cw_check_judge(cw_check *check)
{
    const double used = check->at_least ? check->capacity : check->demand;
    const double there = check->at_least ? check->demand : check->capacity;
    check->has_numbers = true;
    // Levels and places have no share that is used up: their zero is a datum.
    const bool level = check->dim == CW_DIM_ELEV_FT || check->dim == CW_DIM_STATION_FT || check->dim == CW_DIM_COORD_FT;
    check->ratio = !level && used >= 0.0 && there > 0.0 ? used / there : 0.0;
    check->verdict = cw_meets(used, there) ? CW_HOLDS : CW_FAILS;
}

const char *const cw_verdict_words[] = {"holds", "fails", "undecided", NULL};

const char *cw_verdict_word(cw_verdict verdict)
{
    return cw_verdict_words[verdict];
}

cw_verdict cw_checks_worst(const cw_checks *checks)
{
    cw_verdict worst = CW_HOLDS;
    for (int i = 0; i < checks->count; i++) {
        if (checks->items[i].verdict == CW_FAILS)
            return CW_FAILS;
        if (checks->items[i].verdict == CW_UNDECIDED)
            worst = CW_UNDECIDED;
    }
    return worst;
}
