#include "cw/layout.h"

#include <assert.h>
#include <limits.h>

#include "layout_internal.h"

static bool same_items(const cw_layout_row *a, const cw_layout_row *b)
{
    if (a->item_count != b->item_count)
        return false;
    for (int i = 0; i < a->item_count; i++) {
        const cw_layout_item *x = &a->items[i], *y = &b->items[i];
        // Equal doubles are equal barrels; nearly equal ones are merely solved twice.
        const bool same_cost = x->extra_cost <= y->extra_cost && x->extra_cost >= y->extra_cost;
        const bool same_weight = x->weight_lb <= y->weight_lb && x->weight_lb >= y->weight_lb;
        if (x->length_16 != y->length_16 || x->at != y->at || x->setup != y->setup || !same_cost ||
            !same_weight)
            return false;
    }
    return true;
}

static bool same_row(const cw_layout_row *a, const cw_layout_row *b)
{
    if (a->keep_clear_count != b->keep_clear_count || a->must_joint_count != b->must_joint_count ||
        a->limit_count != b->limit_count || !same_items(a, b))
        return false;
    for (int w = 0; w < a->keep_clear_count; w++)
        if (a->keep_clear[w].from_16 != b->keep_clear[w].from_16 ||
            a->keep_clear[w].to_16 != b->keep_clear[w].to_16)
            return false;
    for (int m = 0; m < a->must_joint_count; m++)
        if (a->must_joint[m].at_16 != b->must_joint[m].at_16 ||
            a->must_joint[m].within_16 != b->must_joint[m].within_16)
            return false;
    for (int l = 0; l < a->limit_count; l++) {
        const cw_layout_weight_limit *x = &a->limits[l], *y = &b->limits[l];
        if (x->beyond_16 != y->beyond_16 || x->weight_lb < y->weight_lb ||
            x->weight_lb > y->weight_lb)
            return false;
    }
    return true;
}

static bool same_barrel(const cw_layout_problem *problem, const cw_layout_barrel *a,
                        const cw_layout_barrel *b)
{
    return a->length_16 == b->length_16 && a->over_16 == b->over_16 &&
           same_row(&a->base, &b->base) &&
           (problem->rows == CW_ROWS_ONE || same_row(&a->top, &b->top));
}

static layout_family family_of(const cw_layout_problem *problem, cw_arena *arena)
{
    layout_family family = {.barrel_count = problem->barrel_count};
    int first[CW_LAYOUT_BARRELS_MAX];
    for (int b = 0; b < problem->barrel_count; b++) {
        int kind = 0;
        while (kind < family.kind_count &&
               !same_barrel(problem, &problem->barrels[b], &problem->barrels[first[kind]]))
            kind++;
        if (kind == family.kind_count) {
            layout_run *run = CW_TAKE(arena, layout_run, 1);
            *run = cw_layout_run_of(problem, b, arena);
            family.kind[kind] = run;
            first[kind] = b;
            family.kind_count++;
        }
        family.of_barrel[b] = kind;
        family.times[kind]++;
    }
    return family;
}

cw_layout_answer cw_layout_solve(const cw_layout_problem *problem, cw_arena *arena)
{
    assert(!cw_layout_fault(problem));
    cw_layout_answer answer = {.found = false};
    layout_solver *solver = CW_TAKE(arena, layout_solver, 1);
    solver->arena = arena;
    solver->pairs_most = LONG_MAX;
    solver->rules = cw_layout_rules_of(problem);
    const layout_family family = family_of(problem, arena);
    layout_outcome outcome = {.count = 0};
    cw_layout_wholes(solver, &family, &outcome);
    answer.found = outcome.count > 0;
    answer.kept = outcome.count < CW_LAYOUT_KEPT ? outcome.count : CW_LAYOUT_KEPT;
    for (int n = 0; n < answer.kept; n++)
        answer.best[n] = cw_layout_write(problem, &outcome.wholes[n], arena);
    for (int n = 1; n < outcome.count; n++) {
        const layout_cost best = outcome.wholes[0].cost;
        if (outcome.wholes[n].cost > best + best / 1000000000)
            break;
        if (answer.tie_count == CW_LAYOUT_TIES_MAX)
            answer.more_ties = true;
        else
            answer.ties[answer.tie_count++] =
                n < answer.kept ? answer.best[n]
                                : cw_layout_write(problem, &outcome.wholes[n], arena);
    }
    if (!answer.found)
        cw_layout_find_blocks(solver, problem, &family, &answer);
    answer.states = solver->states;
    return answer;
}
