// The layout engine against an arc-flow integer program solved by glpsol (GLPK), a general-purpose
// solver: one program for each gap, the least over the gaps is the optimum.  Shape of the model:
// arc-flow formulation of the cutting stock problem, arXiv 1502.02899.  Without glpsol the test
// says so and skips.
#define _XOPEN_SOURCE 700

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

#include "cw/layout.h"
#include "cw/units.h"

enum { FT = CW_SIXTEENTHS_PER_FT, POSITIONS_MAX = 40000, ARCS_MAX = 6000 };

#define NO_LAYOUT 1e30

typedef struct arc {
    int flow, from, to; // flow: barrel and row; to: -1 is the end
    int end;            // where the piece ends
    int setup;
    double cost;
} arc;

static arc arcs[ARCS_MAX];
static int arc_count;

static bool joint_clear(const cw_layout_row *row, int end, int gap)
{
    for (int w = 0; w < row->keep_clear_count; w++)
        if (end < row->keep_clear[w].to_16 && end + gap > row->keep_clear[w].from_16)
            return false;
    return true;
}

static bool light_enough(const cw_layout_row *row, const cw_layout_item *item, int end)
{
    for (int l = 0; l < row->limit_count; l++)
        if (end > row->limits[l].beyond_16 && item->weight_lb > row->limits[l].weight_lb)
            return false;
    return true;
}

static void list_arcs(const cw_layout_problem *p, const cw_layout_barrel *barrel,
                      const cw_layout_row *row, int flow, int gap)
{
    static bool reached[POSITIONS_MAX];
    memset(reached, 0, sizeof reached);
    reached[0] = true;
    const int least = barrel->length_16 - p->tolerance_16;
    const int most = barrel->length_16 + barrel->over_16 + p->tolerance_16;
    const double joint = p->joint_cost + p->gap_cost * abs(gap - p->gap_design_16);
    for (int s = 0; s < most; s++)
        for (int i = 0; reached[s] && i < row->item_count; i++) {
            const cw_layout_item *item = &row->items[i];
            const int end = s + item->length_16;
            const double cost =
                p->piece_cost + item->extra_cost + p->length_cost * item->length_16 / FT;
            if (!light_enough(row, item, end) || (s == 0 && !(item->at & CW_AT_FIRST)))
                continue;
            assert_true(arc_count + 2 < ARCS_MAX);
            if (end >= least && end <= most && (item->at & CW_AT_LAST))
                arcs[arc_count++] = (arc){flow, s, -1, end, item->setup, cost};
            if (end + gap < most && (s == 0 || (item->at & CW_AT_INNER)) &&
                joint_clear(row, end, gap)) {
                reached[end + gap] = true;
                arcs[arc_count++] = (arc){flow, s, end + gap, end, item->setup, cost + joint};
            }
        }
}

static void write_flow(FILE *lp, int flow)
{
    static signed char role[POSITIONS_MAX];
    memset(role, 0, sizeof role);
    for (int a = 0; a < arc_count; a++)
        if (arcs[a].flow == flow) {
            role[arcs[a].from] = 1;
            if (arcs[a].to > 0)
                role[arcs[a].to] = 1;
        }
    fprintf(lp, " out%d:", flow);
    for (int a = 0; a < arc_count; a++)
        if (arcs[a].flow == flow && arcs[a].from == 0)
            fprintf(lp, " + y%d", a);
    fprintf(lp, " = 1\n in%d:", flow);
    for (int a = 0; a < arc_count; a++)
        if (arcs[a].flow == flow && arcs[a].to == -1)
            fprintf(lp, " + y%d", a);
    fprintf(lp, " = 1\n");
    for (int s = 1; s < POSITIONS_MAX; s++) {
        if (!role[s])
            continue;
        fprintf(lp, " n%d_%d:", flow, s);
        for (int a = 0; a < arc_count; a++)
            if (arcs[a].flow == flow && (arcs[a].from == s || arcs[a].to == s))
                fprintf(lp, " %c y%d", arcs[a].to == s ? '+' : '-', a);
        fprintf(lp, " = 0\n");
    }
}

/** A base joint and a top joint nearer than the stagger exclude each other, and so do ends that lie
 * too far apart. */
static void write_stagger(FILE *lp, int stagger_16, int ends_apart_16)
{
    for (int a = 0; a < arc_count; a++)
        for (int b = 0; b < arc_count; b++)
            if (arcs[a].flow == 0 && arcs[b].flow == 1 && arcs[a].to < 0 && arcs[b].to < 0 &&
                abs(arcs[a].end - arcs[b].end) > ends_apart_16)
                fprintf(lp, " e%d_%d: y%d + y%d <= 1\n", a, b, a, b);
    for (int a = 0; a < arc_count; a++)
        for (int b = 0; b < arc_count; b++)
            if (arcs[a].flow == 0 && arcs[b].flow == 1 && arcs[a].to > 0 && arcs[b].to > 0 &&
                abs(arcs[a].to - arcs[b].to) < stagger_16)
                fprintf(lp, " c%d_%d: y%d + y%d <= 1\n", a, b, a, b);
}

static void write_model(FILE *lp, const cw_layout_problem *p, int flows)
{
    fprintf(lp, "Minimize\n cost:");
    for (int a = 0; a < arc_count; a++)
        fprintf(lp, " + %.6f y%d\n", arcs[a].cost, a);
    for (int k = 0; k < p->setup_count; k++)
        fprintf(lp, " + %.6f z%d\n", p->setup_cost, k);
    fprintf(lp, "Subject To\n");
    for (int f = 0; f < flows; f++)
        write_flow(lp, f);
    if (p->rows == CW_ROWS_STAGGERED)
        write_stagger(lp, p->stagger_16, p->ends_apart_16);
    for (int a = 0; a < arc_count; a++)
        fprintf(lp, " u%d: y%d - z%d <= 0\n", a, a, arcs[a].setup);
    fprintf(lp, " most:");
    for (int k = 0; k < p->setup_count; k++)
        fprintf(lp, " + z%d", k);
    fprintf(lp, " <= %d\nBinary\n", p->max_setups);
    for (int a = 0; a < arc_count; a++)
        fprintf(lp, " y%d\n", a);
    for (int k = 0; k < p->setup_count; k++)
        fprintf(lp, " z%d\n", k);
    fprintf(lp, "End\n");
}

static double read_result(const char *path)
{
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    char line[200], status = 'u';
    double cost = NO_LAYOUT;
    while (fgets(line, sizeof line, file))
        if (sscanf(line, "s mip %*d %*d %c %lf", &status, &cost) == 2)
            break;
    fclose(file);
    return status == 'o' ? cost : NO_LAYOUT;
}

static double solve_by_glpsol(const cw_layout_problem *p, int flows)
{
    char model[] = "layout-model-XXXXXX", result[] = "layout-result-XXXXXX", command[300];
    const int model_file = mkstemp(model), result_file = mkstemp(result);
    assert_true(model_file >= 0 && result_file >= 0);
    close(result_file);
    FILE *lp = fdopen(model_file, "w");
    assert_non_null(lp);
    write_model(lp, p, flows);
    fclose(lp);
    snprintf(command, sizeof command, "glpsol --lp %s --write %s >/dev/null 2>&1", model, result);
    const int code = system(command);
    const double cost = code == 0 ? read_result(result) : NO_LAYOUT;
    remove(model);
    remove(result);
    assert_int_equal(code, 0);
    return cost;
}

/** Each flow has a way out of the outlet and a way into the end; an empty row is no row of a
 * program. */
static bool flows_have_ends(int flows)
{
    for (int f = 0; f < flows; f++) {
        bool begins = false, ends = false;
        for (int a = 0; a < arc_count; a++) {
            begins = begins || (arcs[a].flow == f && arcs[a].from == 0);
            ends = ends || (arcs[a].flow == f && arcs[a].to == -1);
        }
        if (!begins || !ends)
            return false;
    }
    return true;
}

/** The optimum with one gap for all barrels, by integer programming. */
static double oracle(const cw_layout_problem *p)
{
    double best = NO_LAYOUT;
    for (int gap = p->gap_min_16; gap <= p->gap_max_16; gap++) {
        arc_count = 0;
        int flows = 0;
        for (int b = 0; b < p->barrel_count; b++) {
            list_arcs(p, &p->barrels[b], &p->barrels[b].base, flows++, gap);
            if (p->rows == CW_ROWS_STAGGERED)
                list_arcs(p, &p->barrels[b], &p->barrels[b].top, flows++, gap);
        }
        const double cost = flows_have_ends(flows) ? solve_by_glpsol(p, flows) : NO_LAYOUT;
        if (cost < best)
            best = cost;
    }
    return best;
}

static cw_layout_item plain(int ft, int setup)
{
    return (cw_layout_item){
        .length_16 = ft * FT, .at = CW_AT_ANY, .weight_lb = 1000.0 * ft, .setup = setup};
}

static const cw_layout_problem COMMON = {
    .barrel_count = 1,
    .setup_count = 8,
    .gap_min_16 = 4,
    .gap_max_16 = 12,
    .gap_design_16 = 8,
    .tolerance_16 = 2,
    .max_setups = 8,
    .piece_cost = 1000,
    .joint_cost = 400,
    .setup_cost = 2500,
};

static double compare(const char *name, const cw_layout_problem *problem)
{
    assert_null(cw_layout_fault(problem));
    cw_arena arena = cw_arena_on(NULL);
    const cw_layout_answer answer = cw_layout_solve(problem, &arena);
    assert_true(answer.found);
    const double cost = answer.best[0].cost;
    cw_arena_release(&arena);
    const double expected = oracle(problem);
    if (cost > expected + 1e-3 || cost < expected - 1e-3)
        fail_msg("%s: %.4f dollars, the integer program has %.4f", name, cost, expected);
    return cost;
}

static void skip_without_glpsol(void)
{
    if (system("glpsol --version >/dev/null 2>&1") == 0)
        return;
    print_message(
        "skipped: glpsol is not installed, so there is no integer program to compare with\n");
    skip();
}

static void one_row(void **state)
{
    (void)state;
    skip_without_glpsol();
    static const cw_layout_keep_clear windows[] = {{44 * FT, 52 * FT, 1}, {76 * FT, 84 * FT, 2}};
    static const cw_layout_weight_limit reach[] = {{64 * FT + FT / 2, 12000}};
    const cw_layout_item items[] = {plain(16, 0), plain(12, 1), plain(10, 2), plain(8, 3)};
    cw_layout_barrel barrel = {.length_16 = 120 * FT + 56,
                               .base = {.items = items, .item_count = 4}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    compare("plain", &problem);
    problem.gap_cost = 12.5;
    problem.length_cost = 75;
    problem.setup_cost = 700;
    barrel.length_16 = 110 * FT + 70;
    compare("gap and length priced", &problem);
    problem.max_setups = 3;
    barrel.base.keep_clear = windows;
    barrel.base.keep_clear_count = 2;
    barrel.base.limits = reach;
    barrel.base.limit_count = 1;
    barrel.length_16 = 112 * FT + 48;
    compare("windows and reach", &problem);
}

static void end_types(void **state)
{
    (void)state;
    skip_without_glpsol();
    cw_layout_item items[] = {plain(16, 0), plain(12, 1), plain(8, 2), plain(10, 3),
                              plain(14, 4), plain(7, 5),  plain(11, 6)};
    const double extra[] = {0, 0, 0, 1200, 1400, 1800, 2000};
    for (int i = 0; i < 7; i++) {
        items[i].extra_cost = extra[i];
        items[i].at = i < 3 ? CW_AT_INNER : i < 5 ? CW_AT_FIRST : CW_AT_LAST;
    }
    cw_layout_barrel barrel = {.length_16 = 18664, .base = {.items = items, .item_count = 7}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    compare("97 ft 2-1/2 in with end types", &problem);
    barrel.length_16 = 18664 - 4 * FT;
    compare("4 ft less", &problem);
}

static void two_barrels_share(void **state)
{
    (void)state;
    skip_without_glpsol();
    const cw_layout_item items[] = {plain(16, 0), plain(12, 1), plain(10, 2), plain(8, 3)};
    cw_layout_barrel barrels[] = {
        {.length_16 = 72 * FT + 32, .base = {.items = items, .item_count = 4}},
        {.length_16 = 96 * FT + 64, .base = {.items = items, .item_count = 4}}};
    cw_layout_problem problem = COMMON;
    problem.barrels = barrels;
    problem.barrel_count = 2;
    // One gap here, since the engine may give each barrel its own and the program has one for both.
    problem.gap_min_16 = problem.gap_max_16 = 8;
    problem.tolerance_16 = 30;
    compare("two barrels", &problem);
    problem.setup_cost = 5000;
    compare("two barrels, dear moulds", &problem);
    problem.setup_cost = 300;
    problem.max_setups = 1;
    compare("two barrels, one mould", &problem);
}

static void staggered_rows(void **state)
{
    (void)state;
    skip_without_glpsol();
    static const cw_layout_keep_clear base_window = {27 * FT, 35 * FT, 1};
    static const cw_layout_keep_clear top_window = {44 * FT, 52 * FT, 2};
    const cw_layout_item base[] = {plain(16, 0), plain(12, 1), plain(8, 2), plain(4, 3)};
    const cw_layout_item top[] = {plain(16, 4), plain(12, 5), plain(8, 6), plain(4, 7)};
    cw_layout_barrel barrel = {.length_16 = 64 * FT,
                               .base = {base, 4, &base_window, 0, NULL, 0, NULL, 0},
                               .top = {top, 4, &top_window, 0, NULL, 0, NULL, 0}};
    cw_layout_problem problem = COMMON;
    problem.barrels = &barrel;
    problem.rows = CW_ROWS_STAGGERED;
    problem.gap_min_16 = problem.gap_design_16 = problem.gap_max_16 = 0;
    problem.tolerance_16 = 0;
    problem.stagger_16 = 4 * FT;
    compare("stagger 4 ft", &problem);
    problem.stagger_16 = 6 * FT; // more than the shortest piece
    compare("stagger 6 ft", &problem);
    barrel.base.keep_clear_count = barrel.top.keep_clear_count = 1;
    problem.stagger_16 = 4 * FT;
    compare("stagger 4 ft and windows", &problem);
    // The dearest pieces of the tops make them end elsewhere when they may.
    cw_layout_item odd[] = {plain(15, 4), plain(11, 5), plain(7, 6), plain(4, 7)};
    barrel.top.items = odd;
    barrel.over_16 = 4 * FT;
    barrel.base.keep_clear_count = barrel.top.keep_clear_count = 0;
    problem.stagger_16 = 2 * FT;
    problem.length_cost = 75;
    const double together = compare("ends together", &problem);
    problem.ends_apart_16 = FT;
    compare("ends 1 ft apart", &problem);
    problem.ends_apart_16 = 4 * FT;
    assert_true(compare("ends anywhere", &problem) < together);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_row),
        cmocka_unit_test(end_types),
        cmocka_unit_test(two_barrels_share),
        cmocka_unit_test(staggered_rows),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
