#include <math.h>

#include "cw/units.h"
#include "layout_internal.h"

static cw_layout_cut cut_of(const cw_layout_row *row, const layout_entry *entry, unsigned track,
                            cw_arena *arena)
{
    int *items = CW_TAKE(arena, int, entry->pieces);
    double *start_16 = CW_TAKE(arena, double, entry->pieces);
    int count = 0, laid_16 = 0;
    for (int k = 0; k < entry->pieces; k++) {
        if ((unsigned)(entry->steps[k] >> TRACK_SHIFT) != track)
            continue;
        items[count] = entry->steps[k] & ITEM_MASK;
        start_16[count] = laid_16 + (double)(count * entry->spread) / entry->scale;
        laid_16 += row->items[items[count]].length_16;
        count++;
    }
    return (cw_layout_cut){.items = items, .count = count, .start_16 = start_16};
}

static double row_cost(const cw_layout_problem *problem, const cw_layout_row *row,
                       const cw_layout_cut *cut, double off_16)
{
    double cost = problem->piece_cost * cut->count;
    for (int k = 0; k < cut->count; k++) {
        const cw_layout_item *item = &row->items[cut->items[k]];
        cost += item->extra_cost + problem->length_cost * item->length_16 / CW_SIXTEENTHS_PER_FT;
    }
    return cost + (problem->joint_cost + problem->gap_cost * off_16) * (cut->count - 1);
}

cw_layout_solution cw_layout_write(const cw_layout_problem *problem, const layout_whole *whole,
                                   cw_arena *arena)
{
    cw_layout_barrel_answer *barrels =
        CW_TAKE(arena, cw_layout_barrel_answer, problem->barrel_count);
    const int setup_count = cw_layout_popcount(whole->setups);
    double cost = problem->setup_cost * setup_count;
    for (int b = 0; b < problem->barrel_count; b++) {
        const cw_layout_barrel *barrel = &problem->barrels[b];
        const layout_entry *entry = &whole->entries[b];
        cw_layout_barrel_answer *out = &barrels[b];
        out->base = cut_of(&barrel->base, entry, 0, arena);
        if (problem->rows == CW_ROWS_STAGGERED)
            out->top = cut_of(&barrel->top, entry, 1, arena);
        else if (problem->rows == CW_ROWS_ALIGNED)
            out->top = out->base;
        const int last = out->base.count - 1;
        const bool joined = last > 0 || out->top.count > 1;
        out->gap_16 = joined ? (double)entry->spread / entry->scale : problem->gap_design_16;
        out->end_16 =
            out->base.start_16[last] + barrel->base.items[out->base.items[last]].length_16;
        const double off_16 = fabs(out->gap_16 - problem->gap_design_16);
        cost += row_cost(problem, &barrel->base, &out->base, off_16);
        if (out->top.count > 0)
            cost += row_cost(problem, &barrel->top, &out->top, off_16);
    }
    return (cw_layout_solution){
        .cost = cost, .setups = whole->setups, .setup_count = setup_count, .barrels = barrels};
}
