// The search for crane setups against trying everything, and against an integer program solved by
// glpsol (GLPK), a general-purpose solver.  In the program every piece is set from one of many
// places; a setup is paid for where a piece is set from another place than the piece before it, and
// more where that is on another line.  Without glpsol the second test says so and skips.
#define _XOPEN_SOURCE 700

#include "../src/base/calc_test_help.h"

#include <stdlib.h>
#include <unistd.h>

#include "cw/lifting.h"

enum {
    CASES = 200,
    MOST_PIECES = 7,
    CRANES = 3,
    LINES = 2,
    COLUMNS = 2,
    ROWS = 4,
    PLACES_MAX = 400
};

static const uint64_t first_seed = 20261125u;

#define NONE 1e30
// Places that are the ends of a reach are met exactly or not at all.
#define CLOSE_FT 1e-9

typedef struct sample {
    cw_setup_piece pieces[MOST_PIECES];
    cw_setup_crane cranes[CRANES];
    cw_setup_line lines[LINES];
    cw_chart_column columns[CRANES][COLUMNS];
    double radius_ft[CRANES][COLUMNS][ROWS], capacity_lb[CRANES][COLUMNS][ROWS];
    cw_setup_problem problem;
} sample;

static void fill_crane(sample *s, int k, uint64_t *seed)
{
    const double size = between(seed, 0.6, 2.5);
    for (int c = 0; c < COLUMNS; c++) {
        for (int r = 0; r < ROWS; r++) {
            s->radius_ft[k][c][r] = floor(between(seed, 8, 20)) + 12.0 * r + 4.0 * c;
            s->capacity_lb[k][c][r] = floor(size * 40000.0 / (1.0 + r) * between(seed, 0.9, 1.0));
            if (r > 0 && s->radius_ft[k][c][r] <= s->radius_ft[k][c][r - 1])
                s->radius_ft[k][c][r] = s->radius_ft[k][c][r - 1] + 3.0;
        }
        s->columns[k][c] = (cw_chart_column){"full", 40.0 + 20.0 * c, s->radius_ft[k][c],
                                             s->capacity_lb[k][c], ROWS};
    }
    s->cranes[k] = (cw_setup_crane){.columns = s->columns[k],
                                    .column_count = COLUMNS,
                                    .deduction_lb = floor(between(seed, 0, 2000)),
                                    .chart_percent = next_random(seed) < 0.5 ? 75.0 : 100.0,
                                    .bring_cents = floor(between(seed, 0, 4)) * 30000.0,
                                    .setup_cents = floor(between(seed, 1, 6)) * 20000.0,
                                    .day_cents = floor(between(seed, 0, 5)) * 90000.0 * size,
                                    .setup_days = 0.125,
                                    .piece_days = 0.0625};
}

static void make(sample *s, uint64_t *seed)
{
    const int pieces = 3 + (int)(next_random(seed) * (MOST_PIECES - 2)),
              barrels = 1 + (int)(next_random(seed) * 3.0);
    memset(s, 0, sizeof *s);
    for (int i = 0; i < pieces; i++)
        s->pieces[i] = (cw_setup_piece){16.0 * (i / barrels) + between(seed, 0, 12),
                                        12.0 * (i % barrels), floor(between(seed, 6000, 22000))};
    for (int k = 0; k < CRANES; k++)
        fill_crane(s, k, seed);
    for (int l = 0; l < LINES; l++) {
        const double from = between(seed, -20, 10), to = between(seed, 60, 110);
        cw_setup_line *line = &s->lines[l];
        line->offset_ft =
            l == 0 ? -between(seed, 10, 25) : 12.0 * (barrels - 1) + between(seed, 10, 25);
        line->ranges[line->range_count++] = (cw_setup_range){from, from + 40.0};
        if (next_random(seed) < 0.7)
            line->ranges[line->range_count++] =
                (cw_setup_range){from + between(seed, 41, 50), to + 20.0};
        line->bank = l;
        line->cranes = 1u + (unsigned)(next_random(seed) * ((1u << CRANES) - 1u));
    }
    s->problem = (cw_setup_problem){s->pieces,
                                    pieces,
                                    s->cranes,
                                    1 + (int)(next_random(seed) * CRANES),
                                    s->lines,
                                    LINES,
                                    floor(between(seed, -2, 4)) > 0.0 ? 30000.0 : 0.0};
}

/* A place to stand with one boom, and which pieces it sets. */
typedef struct place {
    int crane, line;
    double x_ft;
    unsigned sets;
} place;

static place places[PLACES_MAX];
static int place_count;

/* Straight from the chart: the first row that is not nearer carries the load within the share;
 * nearer than the first row there is no rating. */
static bool sets_piece(const cw_setup_problem *p, int k, int c, int l, int i, double x_ft)
{
    const cw_setup_crane *crane = &p->cranes[k];
    const cw_chart_column *column = &crane->columns[c];
    const double radius_ft =
        hypot(p->pieces[i].at_ft - x_ft, p->pieces[i].offset_ft - p->lines[l].offset_ft);
    if (radius_ft < column->radius_ft[0] - CLOSE_FT)
        return false;
    for (int r = 0; r < column->count; r++)
        if (radius_ft <= column->radius_ft[r] + CLOSE_FT)
            return p->pieces[i].load_lb + crane->deduction_lb <=
                   column->capacity_lb[r] * crane->chart_percent / 100.0 * (1.0 + 1e-12);
    return false;
}

static bool allowed(const cw_setup_line *line, double x_ft)
{
    for (int r = 0; r < line->range_count; r++)
        if (x_ft >= line->ranges[r].from_ft && x_ft <= line->ranges[r].to_ft)
            return true;
    return false;
}

/* What a place sets changes only at the ends of the ranges and where a row's circle about a piece
 * cuts the line. */
static void add_place(const cw_setup_problem *p, int k, int c, int l, double x_ft)
{
    if (!allowed(&p->lines[l], x_ft))
        return;
    place found = {k, l, x_ft, 0u};
    for (int i = 0; i < p->piece_count; i++)
        if (sets_piece(p, k, c, l, i, x_ft))
            found.sets |= 1u << i;
    for (int q = 0; q < place_count; q++)
        if (places[q].crane == k && places[q].line == l && (found.sets & ~places[q].sets) == 0u)
            return;
    int kept = 0;
    for (int q = 0; q < place_count; q++)
        if (places[q].crane != k || places[q].line != l || (places[q].sets & ~found.sets) != 0u)
            places[kept++] = places[q];
    place_count = kept;
    assert_true(place_count < PLACES_MAX);
    places[place_count++] = found;
}

static void list_places(const cw_setup_problem *p)
{
    place_count = 0;
    for (int k = 0; k < p->crane_count; k++)
        for (int c = 0; c < p->cranes[k].column_count; c++)
            for (int l = 0; l < p->line_count; l++) {
                if (!(p->lines[l].cranes >> k & 1u))
                    continue;
                for (int r = 0; r < p->lines[l].range_count; r++) {
                    add_place(p, k, c, l, p->lines[l].ranges[r].from_ft);
                    add_place(p, k, c, l, p->lines[l].ranges[r].to_ft);
                }
                for (int i = 0; i < p->piece_count; i++)
                    for (int r = 0; r < p->cranes[k].columns[c].count; r++) {
                        const double d = p->pieces[i].offset_ft - p->lines[l].offset_ft;
                        const double radius_ft = p->cranes[k].columns[c].radius_ft[r];
                        const double reach = sqrt(fmax(0.0, radius_ft * radius_ft - d * d));
                        add_place(p, k, c, l, p->pieces[i].at_ft - reach);
                        add_place(p, k, c, l, p->pieces[i].at_ft + reach);
                    }
            }
}

static double start_cents(const cw_setup_crane *crane)
{
    return crane->setup_cents + crane->day_cents * crane->setup_days;
}

/* Every way of setting the pieces from @p i on; @p at is the place in use, @p used the cranes
 * brought so far. */
static double try_all(const cw_setup_problem *p, int i, int at, unsigned used, double so_far,
                      double best)
{
    if (so_far >= best)
        return best;
    if (i == p->piece_count)
        return so_far;
    for (int q = 0; q < place_count; q++) {
        const cw_setup_crane *crane = &p->cranes[places[q].crane];
        if (!(places[q].sets >> i & 1u))
            continue;
        double cents = so_far + crane->day_cents * crane->piece_days;
        if (at >= 0 && places[q].line != places[at].line)
            cents += p->cross_cents;
        if (q != at)
            cents += start_cents(crane) + (used >> places[q].crane & 1u ? 0.0 : crane->bring_cents);
        best = try_all(p, i + 1, q, used | 1u << places[q].crane, cents, best);
    }
    return best;
}

static unsigned settable(void)
{
    unsigned all = 0u;
    for (int q = 0; q < place_count; q++)
        all |= places[q].sets;
    return all;
}

/* Leave out what no place sets; true when something is left. */
static bool drop_off_chart(sample *s)
{
    list_places(&s->problem);
    const unsigned good = settable();
    int kept = 0;
    for (int i = 0; i < s->problem.piece_count; i++)
        if (good >> i & 1u)
            s->pieces[kept++] = s->pieces[i];
    s->problem.piece_count = kept;
    list_places(&s->problem);
    return kept > 0;
}

/* The answer is what it says: each setup sets its pieces from where it stands, and the money adds
 * up. */
static void check_answer(const cw_setup_problem *p, const cw_setup_answer *answer)
{
    double cents = 0.0;
    unsigned used = 0u;
    int next = 0;
    for (int n = 1; n < answer->setup_count; n++)
        cents += answer->setups[n].line != answer->setups[n - 1].line ? p->cross_cents : 0.0;
    for (int n = 0; n < answer->setup_count; n++) {
        const cw_setup *setup = &answer->setups[n];
        const cw_setup_crane *crane = &p->cranes[setup->crane];
        assert_int_equal(setup->first, next);
        assert_true(setup->count > 0 && setup->percent <= crane->chart_percent * (1.0 + 1e-9));
        assert_true(allowed(&p->lines[setup->line], setup->at_ft));
        for (; next < setup->first + setup->count; next++)
            assert_true(sets_piece(p, setup->crane, setup->column, setup->line, answer->order[next],
                                   setup->at_ft));
        cents += start_cents(crane) + setup->count * crane->day_cents * crane->piece_days;
        cents += used >> setup->crane & 1u ? 0.0 : crane->bring_cents;
        used |= 1u << setup->crane;
    }
    assert_int_equal(next, answer->order_count);
    near("money", answer->cents, cents, 1e-3);
}

static void against_trying_everything(void **state)
{
    (void)state;
    static sample s;
    uint64_t seed = first_seed;
    int solved = 0, several = 0, off = 0;
    for (int turn = 0; turn < CASES; turn++) {
        make(&s, &seed);
        list_places(&s.problem);
        const unsigned good = settable();
        cw_arena arena = cw_arena_on(NULL);
        const char *fault = cw_setup_fault(&s.problem, &arena);
        if (fault)
            fail_msg("case %d: %s", turn, fault);
        const cw_setup_answer whole = cw_lifting_setups(&s.problem, &arena);
        for (int i = 0; i < whole.off_count; i++)
            assert_false(good >> whole.off_chart[i] & 1u);
        off += whole.off_count;
        check_answer(&s.problem, &whole);
        if (drop_off_chart(&s)) {
            const double best = try_all(&s.problem, 0, -1, 0u, 0.0, NONE);
            near("cost of the cheapest", whole.cents, best, 1e-3);
            solved++;
            several += whole.setup_count > 1;
        }
        cw_arena_release(&arena);
    }
    if (solved < CASES / 2 || several < CASES / 5 || off == 0)
        fail_msg("%d solved, %d with several setups, %d pieces off the chart", solved, several,
                 off);
}

static void write_program(FILE *lp, const cw_setup_problem *p)
{
    fprintf(lp, "Minimize\n cost:");
    for (int q = 0; q < place_count; q++)
        for (int i = 0; i < p->piece_count; i++) {
            const cw_setup_crane *crane = &p->cranes[places[q].crane];
            if (places[q].sets >> i & 1u)
                fprintf(lp, " + %.6f x%d_%d + %.6f w%d_%d\n", crane->day_cents * crane->piece_days,
                        i, q, start_cents(crane), i, q);
        }
    for (int k = 0; k < p->crane_count; k++)
        fprintf(lp, " + %.6f z%d\n", p->cranes[k].bring_cents, k);
    for (int i = 1; i < p->piece_count; i++)
        fprintf(lp, " + %.6f v%d\n", p->cross_cents, i);
    fprintf(lp, "Subject To\n");
    for (int i = 1; i < p->piece_count; i++)
        for (int l = 0; l < p->line_count; l++) {
            fprintf(lp, " cross%d_%d: - v%d", i, l, i);
            for (int q = 0; q < place_count; q++) {
                if (places[q].line == l && (places[q].sets >> i & 1u))
                    fprintf(lp, " + x%d_%d", i, q);
                if (places[q].line == l && (places[q].sets >> (i - 1) & 1u))
                    fprintf(lp, " - x%d_%d", i - 1, q);
            }
            fprintf(lp, " <= 0\n");
        }
    for (int i = 0; i < p->piece_count; i++) {
        fprintf(lp, " set%d:", i);
        for (int q = 0; q < place_count; q++)
            if (places[q].sets >> i & 1u)
                fprintf(lp, " + x%d_%d", i, q);
        fprintf(lp, " = 1\n");
    }
    for (int q = 0; q < place_count; q++)
        for (int i = 0; i < p->piece_count; i++) {
            if (!(places[q].sets >> i & 1u))
                continue;
            const bool before = i > 0 && (places[q].sets >> (i - 1) & 1u);
            fprintf(lp, " new%d_%d: x%d_%d - w%d_%d", i, q, i, q, i, q);
            if (before)
                fprintf(lp, " - x%d_%d", i - 1, q);
            fprintf(lp, " <= 0\n use%d_%d: x%d_%d - z%d <= 0\n", i, q, i, q, places[q].crane);
        }
    fprintf(lp, "Binary\n");
    for (int k = 0; k < p->crane_count; k++)
        fprintf(lp, " z%d\n", k);
    for (int i = 1; i < p->piece_count; i++)
        fprintf(lp, " v%d\n", i);
    for (int q = 0; q < place_count; q++)
        for (int i = 0; i < p->piece_count; i++)
            if (places[q].sets >> i & 1u)
                fprintf(lp, " x%d_%d\n w%d_%d\n", i, q, i, q);
    fprintf(lp, "End\n");
}

static double solve_by_glpsol(const cw_setup_problem *p)
{
    char model[] = "setups-model-XXXXXX", result[] = "setups-result-XXXXXX", command[300],
         line[200];
    const int model_file = mkstemp(model), result_file = mkstemp(result);
    assert_true(model_file >= 0 && result_file >= 0);
    close(result_file);
    FILE *lp = fdopen(model_file, "w");
    assert_non_null(lp);
    write_program(lp, p);
    fclose(lp);
    snprintf(command, sizeof command, "glpsol --lp %s --write %s >/dev/null 2>&1", model, result);
    const int code = system(command);
    double cents = NONE;
    char status = 'u';
    FILE *file = fopen(result, "r");
    assert_non_null(file);
    while (fgets(line, sizeof line, file))
        if (sscanf(line, "s mip %*d %*d %c %lf", &status, &cents) == 2)
            break;
    fclose(file);
    remove(model);
    remove(result);
    assert_int_equal(code, 0);
    assert_int_equal(status, 'o');
    return cents;
}

static void against_an_integer_program(void **state)
{
    (void)state;
    if (system("glpsol --version >/dev/null 2>&1") != 0) {
        print_message(
            "skipped: glpsol is not installed, so there is no integer program to compare with\n");
        skip();
    }
    static sample s;
    uint64_t seed = first_seed + 1;
    int solved = 0;
    for (int turn = 0; turn < CASES; turn++) {
        make(&s, &seed);
        if (!drop_off_chart(&s))
            continue;
        cw_arena arena = cw_arena_on(NULL);
        const cw_setup_answer answer = cw_lifting_setups(&s.problem, &arena);
        assert_int_equal(answer.off_count, 0);
        near("cost of the cheapest", answer.cents, solve_by_glpsol(&s.problem), 0.5);
        solved++;
        cw_arena_release(&arena);
    }
    assert_true(solved > CASES / 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(against_trying_everything),
        cmocka_unit_test(against_an_integer_program),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
