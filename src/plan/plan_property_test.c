// What must hold of every plan, tried on random jobs with a fixed seed.
#include "plan_test_help.h"

#include <stdlib.h>

#include "cw/report.h"
#include "cw/units.h"

enum { OPENINGS = 3, LENGTHS = 3, STRIPS = 2 };

/** A job as numbers, to be written in either system of units and mirrored. */
typedef struct recipe {
    int form, barrels, inlet_left, cut_road, excess, first_barrel, staggered, continuous;
    double span_in, rise_in, wall_in, floor_in, top_in, haunch_in, leg_in, clear_gap_in;
    double drop_in[CW_BARRELS_MAX];
    bool has_road, has_length, has_bend, has_phase;
    double azimuth_deg, elevation_ft, grade, skew_deg, invert_ft, slope, side_slope;
    double strip_ft[STRIPS], fall[STRIPS];
    double length_ft, outlet_ft, overrun_ft, bend_at_ft, bend_deg, phase_at_ft;
    double lengths_in[LENGTHS];
    int opening_count;
    struct {
        int barrel, face;
        double at_ft, height_in, diameter_in;
    } openings[OPENINGS];
} recipe;

typedef struct dice {
    uint64_t state;
} dice;

/* A linear congruential generator; Knuth's MMIX constants, from memory, not verified (any would
 * do). */
static double roll(dice *d)
{
    d->state = d->state * 6364136223846793005u + 1442695040888963407u;
    return (double)(d->state >> 11) / 9007199254740992.0;
}

static int pick(dice *d, int from, int to)
{
    return from + (int)(roll(d) * (to - from + 1));
}

/* A value on a grid, as people state it. */
static double some(dice *d, double from, double to, double step)
{
    return from + step * floor(roll(d) * (floor((to - from) / step + 1e-9) + 1.0));
}

static void roll_box(dice *d, recipe *r)
{
    r->form = pick(d, 0, 2);
    r->span_in = some(d, 48, 168, 6);
    r->rise_in = some(d, 48, 96, 6);
    r->wall_in = some(d, 6, 12, 1);
    r->floor_in = some(d, 8, 14, 1);
    r->top_in = some(d, 8, 14, 1);
    r->haunch_in = some(d, 0, 8, 2);
    r->leg_in = some(d, 24, r->rise_in - 24, 6);
    r->barrels = pick(d, 1, 3);
    r->clear_gap_in = some(d, 2, 8, 1);
    r->first_barrel = roll(d) < 0.5 ? 1 : r->barrels;
    for (int b = 0; b < r->barrels; b++)
        r->drop_in[b] = roll(d) < 0.7 ? 0.0 : 6.0;
}

static void roll_openings(dice *d, recipe *r)
{
    r->opening_count = pick(d, 0, OPENINGS);
    for (int i = 0; i < r->opening_count; i++) {
        r->openings[i].barrel = pick(d, 1, r->barrels);
        r->openings[i].face = pick(d, 0, 3);
        r->openings[i].at_ft = some(d, 4, r->length_ft - 4, 0.25);
        r->openings[i].diameter_in = some(d, 6, 18, 1);
        const double half_in = r->openings[i].diameter_in / 2.0;
        r->openings[i].height_in = r->openings[i].face < 2
                                       ? some(d, half_in + 1, r->rise_in - half_in - 1, 1)
                                       : some(d, -12, 12, 1);
    }
}

static recipe roll_recipe(dice *d)
{
    recipe r = {0};
    roll_box(d, &r);
    r.has_road = roll(d) < 0.7;
    r.has_length = !r.has_road || roll(d) < 0.6;
    r.azimuth_deg = some(d, 0, 359, 7);
    r.elevation_ft = some(d, 520, 530, 0.25);
    r.grade = some(d, -0.04, 0.04, 0.005);
    r.skew_deg = some(d, -30, 30, 5);
    r.invert_ft = some(d, 500, 506, 0.25);
    r.slope = some(d, 0, 0.03, 0.0025);
    r.side_slope = some(d, 1.5, 3, 0.5);
    for (int i = 0; i < STRIPS; i++) {
        r.strip_ft[i] = some(d, 4, 14, 1);
        r.fall[i] = some(d, 0, 0.06, 0.01);
    }
    r.inlet_left = pick(d, 0, 1);
    r.cut_road = pick(d, 0, 1);
    r.excess = pick(d, 0, 2);
    r.length_ft = some(d, 30, 90, 0.5);
    r.outlet_ft = some(d, 10, r.length_ft - 10, 0.5);
    r.overrun_ft = some(d, 0, 4, 0.5);
    r.has_bend = roll(d) < 0.25;
    r.bend_at_ft = some(d, 10, r.length_ft - 10, 0.5);
    r.bend_deg = some(d, -5, 5, 2);
    r.has_phase = roll(d) < 0.25;
    r.phase_at_ft = some(d, 10, r.length_ft - 10, 0.5);
    r.staggered = r.form != CW_FORM_RING && roll(d) < 0.25;
    r.continuous = !r.staggered && roll(d) < 0.25;
    for (int i = 0; i < LENGTHS; i++)
        r.lengths_in[i] = 48.0 + 24.0 * i;
    roll_openings(d, &r);
    return r;
}

/* ---- the recipe as text ---- */

static const char *length(cw_arena *arena, double value, cw_dim dim, bool si)
{
    if (!si)
        return cw_arena_print(arena, "%.15g %s", value, dim == CW_DIM_IN ? "in" : "ft");
    return dim == CW_DIM_IN ? cw_arena_print(arena, "%.15g mm", value * CW_MM_PER_IN)
                            : cw_arena_print(arena, "%.15g m", value * CW_M_PER_FT);
}

/** How a recipe is written. */
typedef struct style {
    bool si, openings_reversed, lengths_reversed;
} style;

static void write_road(cw_text *t, cw_arena *a, const recipe *r, bool si)
{
    cw_text_print(t, "road:\n  station: %s\n  elevation: %s\n  grade: %.12g%%\n  inlet_side: %s\n",
                  si ? "0 m" : "0+00", length(a, r->elevation_ft, CW_DIM_ELEV_FT, si),
                  r->grade * CW_PERCENT, r->inlet_left ? "left" : "right");
    for (int side = 0; side < 2; side++) {
        cw_text_print(t, "  %s_template:\n    side_slope: %g:1\n    strips:\n",
                      side ? "inlet" : "outlet", r->side_slope);
        for (int i = 0; i < STRIPS; i++)
            cw_text_print(t, "      - {width: %s, fall: %.12g%%}\n",
                          length(a, r->strip_ft[i], CW_DIM_FT, si), r->fall[i] * CW_PERCENT);
    }
}

static void write_run(cw_text *t, cw_arena *a, const recipe *r, bool si)
{
    static const char *const excesses[] = {"inlet", "outlet", "shared"};
    cw_text_print(t,
                  "run:\n  skew: %.12g deg\n  invert: %s\n  slope: %.12g%%\n  cut: %s\n"
                  "  excess: %s\n  overrun: %s\n",
                  r->skew_deg, length(a, r->invert_ft, CW_DIM_ELEV_FT, si), r->slope * CW_PERCENT,
                  r->cut_road ? "road" : "square", excesses[r->excess],
                  length(a, r->overrun_ft, CW_DIM_FT, si));
    if (r->has_length)
        cw_text_print(t, "  length: %s\n", length(a, r->length_ft, CW_DIM_FT, si));
    if (r->has_length && r->has_road)
        cw_text_print(t, "  outlet_distance: %s\n", length(a, r->outlet_ft, CW_DIM_FT, si));
    if (r->has_bend)
        cw_text_print(t, "bends:\n  - {at: %s, turn: %.12g deg, within: %s}\n",
                      length(a, r->bend_at_ft, CW_DIM_FT, si), r->bend_deg,
                      length(a, 36.0, CW_DIM_IN, si));
    if (r->has_phase)
        cw_text_print(t, "phases:\n  - {at: %s, name: First, within: %s}\n",
                      length(a, r->phase_at_ft, CW_DIM_FT, si), length(a, 36.0, CW_DIM_IN, si));
}

static void write_box(cw_text *t, cw_arena *a, const recipe *r, bool si)
{
    static const char *const forms[] = {"lid", "double-u", "ring"};
    const struct {
        const char *key;
        double value;
    } sizes[] = {{"span", r->span_in},   {"rise", r->rise_in}, {"wall", r->wall_in},
                 {"floor", r->floor_in}, {"top", r->top_in},   {"haunch", r->haunch_in}};
    cw_text_print(t, "box:\n  form: %s\n", forms[r->form]);
    for (size_t i = 0; i < sizeof sizes / sizeof sizes[0]; i++)
        cw_text_print(t, "  %s: %s\n", sizes[i].key, length(a, sizes[i].value, CW_DIM_IN, si));
    if (r->form == CW_FORM_DOUBLE_U)
        cw_text_print(t, "  leg: %s\n", length(a, r->leg_in, CW_DIM_IN, si));
    cw_text_print(t, "barrels:\n  count: %d\n  clear_gap: %s\n  drops: [", r->barrels,
                  length(a, r->clear_gap_in, CW_DIM_IN, si));
    for (int b = 0; b < r->barrels; b++)
        cw_text_print(t, "%s%s", b ? ", " : "", length(a, r->drop_in[b], CW_DIM_IN, si));
    cw_text_print(t, "]\norder: {first_barrel: %d}\n", r->first_barrel);
}

static void write_pieces(cw_text *t, cw_arena *a, const recipe *r, style s)
{
    static const char *const faces[] = {"left", "right", "floor", "top"};
    cw_text_print(t, "joint: {gap_mode: %s}\npieces:\n  rows: %s\n  max_setups: 6\n  lengths: [",
                  r->continuous ? "continuous" : "gauge", r->staggered ? "staggered" : "aligned");
    for (int i = 0; i < LENGTHS; i++)
        cw_text_print(
            t, "%s%s", i ? ", " : "",
            length(a, r->lengths_in[s.lengths_reversed ? LENGTHS - 1 - i : i], CW_DIM_IN, s.si));
    cw_text_print(t, "]\n  payload: %s\n", s.si ? "45000 kg" : "99208.0180106 lb");
    if (r->opening_count > 0)
        cw_text_add(t, "openings:\n");
    for (int k = 0; k < r->opening_count; k++) {
        const int i = s.openings_reversed ? r->opening_count - 1 - k : k;
        cw_text_print(t,
                      "  - {name: O%d, barrel: %d, face: %s, at: %s, height: %s, diameter: %s}\n",
                      i, r->openings[i].barrel, faces[r->openings[i].face],
                      length(a, r->openings[i].at_ft, CW_DIM_FT, s.si),
                      length(a, r->openings[i].height_in, CW_DIM_IN, s.si),
                      length(a, r->openings[i].diameter_in, CW_DIM_IN, s.si));
    }
}

static const char *written(cw_arena *arena, const recipe *r, style s)
{
    cw_text t = cw_text_on(arena);
    cw_text_print(&t,
                  "format: 1\njob: {name: R, number: R}\nsurvey:\n  northing: %s\n  easting: "
                  "%s\n  azimuth: %.12g deg\n",
                  length(arena, 2000.0, CW_DIM_COORD_FT, s.si),
                  length(arena, 1000.0, CW_DIM_COORD_FT, s.si), r->azimuth_deg);
    if (r->has_road)
        write_road(&t, arena, r, s.si);
    write_run(&t, arena, r, s.si);
    write_box(&t, arena, r, s.si);
    write_pieces(&t, arena, r, s);
    return cw_text_string(&t);
}

/* Reflection in the meridian through the crossing: azimuths and turns change sign, left and right
 * change places, the skew (up-station) stays. */
static recipe mirrored(const recipe *r)
{
    recipe m = *r;
    m.azimuth_deg = r->azimuth_deg > 0.0 ? 360.0 - r->azimuth_deg : 0.0;
    m.inlet_left = !r->inlet_left;
    m.bend_deg = -r->bend_deg;
    m.first_barrel = r->barrels + 1 - r->first_barrel;
    for (int b = 0; b < r->barrels; b++)
        m.drop_in[b] = r->drop_in[r->barrels - 1 - b];
    for (int i = 0; i < r->opening_count; i++) {
        m.openings[i].barrel = r->barrels + 1 - r->openings[i].barrel;
        if (r->openings[i].face < 2)
            m.openings[i].face = 1 - r->openings[i].face;
        else
            m.openings[i].height_in = -r->openings[i].height_in;
    }
    return m;
}

/* ---- the properties ---- */

static void pieces_fill_the_run(const cw_plan *plan)
{
    for (int b = 0; b < plan->barrel_count; b++) {
        const cw_plan_barrel *barrel = &plan->barrels[b];
        const int *rows[2] = {barrel->bases, barrel->tops};
        const int counts[2] = {barrel->base_count, barrel->top_count};
        for (int row = 0; row < 2; row++) {
            double sum_in = 0.0;
            for (int i = 0; i < counts[row]; i++)
                sum_in += plan->pieces[rows[row][i]].length_in + (i ? barrel->gap_in : 0.0);
            // Staggered tops may end apart from the bases by the end tolerance.
            const double apart_in =
                row == 1 && plan->job->pieces.rows == 1 ? plan->job->run.end_tolerance_in : 0.0;
            if (counts[row] > 0)
                NEAR(sum_in, barrel->laid_in, apart_in + 1.0 / CW_SIXTEENTHS_PER_IN);
        }
        const cw_plan_joint *last = &barrel->joints[barrel->base_count];
        NEAR(last->at.slope_in, barrel->laid_in, 1e-6);
        // The turn of the run is taken by the mitres, half by each of two faces.
        double turned_deg = 0.0;
        for (int i = 0; i < barrel->base_count; i++) {
            const cw_piece_shape *shape = &plan->types[plan->pieces[rows[0][i]].type].shape;
            turned_deg += shape->downstream.mitre_deg + shape->upstream.mitre_deg;
        }
        NEAR(turned_deg,
             barrel->line.points[barrel->line.count - 1].turned_deg -
                 barrel->line.points[0].turned_deg,
             1e-9);
    }
}

static const cw_plan_quantity *amount(const cw_plan *plan, const char *item)
{
    for (int i = 0; i < plan->quantity_count; i++)
        if (strcmp(plan->quantities[i].item, item) == 0)
            return &plan->quantities[i];
    fail_msg("no quantity %s", item);
    return NULL;
}

/* Bedding laid piece by piece: the barrels share its width; a bend makes their lengths differ. */
static void bedding_adds_up(const cw_plan *plan)
{
    if (plan->job->bend_count > 0)
        return;
    double slope_in = 0.0;
    const cw_plan_barrel *barrel = &plan->barrels[0];
    for (int i = 0; i < barrel->base_count; i++)
        slope_in += plan->pieces[barrel->bases[i]].length_in + (i ? barrel->gap_in : 0.0);
    const double width_ft = plan->width_ft + 2.0 * plan->job->bedding.extra_ft;
    const double wanted_cy = width_ft * slope_in / CW_IN_PER_FT * plan->job->bedding.thickness_in /
                             CW_IN_PER_FT / CW_CUFT_PER_CY;
    double longest_in = 0.0;
    for (int b = 0; b < plan->barrel_count; b++)
        longest_in = fmax(longest_in, fabs(plan->barrels[b].laid_in - barrel->laid_in));
    if (longest_in < 0.01)
        NEAR(amount(plan, "Bedding in place")->exact, wanted_cy, 1e-3 * wanted_cy);
}

static void same_checks(const cw_plan *a, const cw_plan *b)
{
    assert_int_equal(a->checks.count, b->checks.count);
    for (int i = 0; i < a->checks.count; i++) {
        assert_string_equal(a->checks.items[i].id, b->checks.items[i].id);
        // A limit met to the last bit may fall to either side.
        if (a->checks.items[i].verdict != b->checks.items[i].verdict)
            NEAR(a->checks.items[i].demand, a->checks.items[i].capacity, 1e-6);
    }
}

static void same_amounts(const cw_plan *a, const cw_plan *b)
{
    NEAR(b->layout.best[0].cost, a->layout.best[0].cost, 1e-6 * a->layout.best[0].cost);
    NEAR(b->plan_length_ft, a->plan_length_ft, 1e-6);
    assert_int_equal(b->quantity_count, a->quantity_count);
    assert_int_equal(b->piece_count, a->piece_count);
    static const char *const items[] = {"Weight of pieces", "Concrete in pieces",
                                        "Bedding in place", "Sealant to order",
                                        "External wrap to order"};
    for (size_t i = 0; i < sizeof items / sizeof items[0]; i++) {
        const double wanted = amount(a, items[i])->exact;
        NEAR(amount(b, items[i])->exact, wanted, 1e-6 * fabs(wanted) + 1e-9);
    }
}

static void same_in_si(cw_arena *arena, const recipe *r, const cw_plan *us)
{
    const cw_plan *si = plan_of(arena, written(arena, r, (style){.si = true}));
    assert_int_equal(si->laid, us->laid);
    same_checks(us, si);
    if (!us->laid)
        return;
    same_amounts(us, si);
    for (int b = 0; b < us->barrel_count; b++)
        for (int i = 0; i <= us->barrels[b].base_count; i++) {
            const cw_plan_joint *p = &us->barrels[b].joints[i], *q = &si->barrels[b].joints[i];
            NEAR(q->at.place.northing_ft, p->at.place.northing_ft, 1e-6);
            NEAR(q->at.place.easting_ft, p->at.place.easting_ft, 1e-6);
            NEAR(q->subgrade_ft, p->subgrade_ft, 1e-6);
            NEAR(q->cover_ft, p->cover_ft, 1e-6);
        }
    for (int i = 0; i < us->step_count; i++)
        assert_string_equal(us->steps[i].id, si->steps[i].id);
}

static bool same_row(const cw_plan *a, const int *p, const cw_plan *b, const int *q, int count)
{
    for (int i = 0; i < count; i++)
        if (fabs(a->pieces[p[i]].length_in - b->pieces[q[i]].length_in) > 1e-9)
            return false;
    return true;
}

/* Divisions of one cost are told apart by rules that go through the barrels from the left, so the
 * mirror image may settle on another of them. */
static bool same_division(const cw_plan *a, const cw_plan *b)
{
    for (int n = 0; n < a->barrel_count; n++) {
        const cw_plan_barrel *p = &a->barrels[n], *q = &b->barrels[a->barrel_count - 1 - n];
        if (p->base_count != q->base_count || p->top_count != q->top_count ||
            !same_row(a, p->bases, b, q->bases, p->base_count) ||
            !same_row(a, p->tops, b, q->tops, p->top_count))
            return false;
    }
    return true;
}

static void same_place_mirrored(const cw_run_place *p, const cw_run_place *q)
{
    NEAR(q->northing_ft, p->northing_ft, 1e-6);
    NEAR(q->easting_ft, 2000.0 - p->easting_ft, 1e-6);
}

static void same_barrel_mirrored(const cw_plan *plan, const cw_plan *other, int barrel)
{
    const cw_plan_barrel *p = &plan->barrels[barrel];
    const cw_plan_barrel *q = &other->barrels[plan->barrel_count - 1 - barrel];
    for (int i = 0; i <= p->base_count; i++)
        same_place_mirrored(&p->joints[i].at.place, &q->joints[i].at.place);
    if (p->has_cover)
        NEAR(q->least_cover.cover_ft, p->least_cover.cover_ft, 1e-6);
    for (int i = 0; i < p->base_count; i++) {
        const cw_plan_type *x = &plan->types[plan->pieces[p->bases[i]].type];
        const cw_plan_type *y = &other->types[other->pieces[q->bases[i]].type];
        NEAR(y->weight.weight_lb, x->weight.weight_lb, 1e-6);
        NEAR(y->weight.x_ft, -x->weight.x_ft, 1e-9);
        NEAR(y->weight.y_ft, x->weight.y_ft, 1e-9);
    }
}

/* True when the mirror image was compared piece by piece. */
static bool same_mirrored(cw_arena *arena, const recipe *r, const cw_plan *plan)
{
    const recipe m = mirrored(r);
    const cw_plan *other = plan_of(arena, written(arena, &m, (style){0}));
    assert_int_equal(other->laid, plan->laid);
    if (!plan->laid)
        return false;
    NEAR(other->layout.best[0].cost, plan->layout.best[0].cost, 1e-6);
    if (!same_division(plan, other))
        return false;
    same_amounts(plan, other);
    for (int b = 0; b < plan->barrel_count; b++)
        same_barrel_mirrored(plan, other, b);
    return true;
}

static void more_fill_more_cover(cw_arena *arena, const recipe *r, const cw_plan *plan)
{
    if (!plan->laid || !plan->has_surface || !r->has_length)
        return;
    recipe higher = *r;
    higher.elevation_ft += 0.75;
    const cw_plan *other = plan_of(arena, written(arena, &higher, (style){0}));
    for (int b = 0; b < plan->barrel_count; b++) {
        NEAR(other->barrels[b].least_cover.cover_ft, plan->barrels[b].least_cover.cover_ft + 0.75,
             1e-9);
        NEAR(other->barrels[b].end_cover.cover_ft, plan->barrels[b].end_cover.cover_ft + 0.75,
             1e-9);
    }
}

static void order_of_lists_is_nothing(cw_arena *arena, const recipe *r, const cw_plan *plan)
{
    const style turned = {.openings_reversed = true, .lengths_reversed = true};
    const cw_plan *other = plan_of(arena, written(arena, r, turned));
    assert_int_equal(other->laid, plan->laid);
    if (plan->laid)
        NEAR(other->layout.best[0].cost, plan->layout.best[0].cost, 0.0);
}

static void same_again(cw_arena *arena, const recipe *r, const cw_plan *plan)
{
    const cw_plan *again = plan_of(arena, written(arena, r, (style){0}));
    assert_string_equal(cw_plan_json(again, arena), cw_plan_json(plan, arena));
}

static void every_plan_keeps_them(void **state)
{
    (void)state;
    enum { JOBS = 300, LAID_LEAST = 150 };
    dice d = {20260504};
    int laid = 0, compared = 0;
    for (int i = 0; i < JOBS; i++) {
        cw_arena arena = cw_arena_on(NULL);
        const recipe r = roll_recipe(&d);
        const cw_plan *plan = plan_of(&arena, written(&arena, &r, (style){0}));
        ledger_is_sound(plan);
        laid += plan->laid;
        if (plan->laid) {
            pieces_fill_the_run(plan);
            bedding_adds_up(plan);
        }
        same_in_si(&arena, &r, plan);
        compared += same_mirrored(&arena, &r, plan);
        more_fill_more_cover(&arena, &r, plan);
        order_of_lists_is_nothing(&arena, &r, plan);
        if (i % 8 == 0)
            same_again(&arena, &r, plan);
        cw_arena_release(&arena);
    }
    assert_true(laid >= LAID_LEAST);
    assert_true(compared >= laid * 3 / 4);
}

/* ---- memory that runs out ---- */

typedef struct meagre {
    int left, out; /* blocks still given; blocks not given back */
    jmp_buf back;
} meagre;

static void *obtain(void *self, size_t bytes)
{
    meagre *m = self;
    if (m->left-- == 0)
        return NULL;
    m->out++;
    return malloc(bytes);
}

static void give_back(void *self, void *block)
{
    meagre *m = self;
    m->out--;
    free(block);
}

static void exhausted(void *self, size_t bytes)
{
    (void)bytes;
    meagre *m = self;
    longjmp(m->back, 1);
}

static void each_block_may_fail(void **state)
{
    (void)state;
    static meagre m;
    static cw_arena arena;
    static const char text[] = JOB_HEAD JOB_ROAD("1%", "right") JOB_BOX
        "run: {invert: 505 ft, slope: 1%}\npieces: {lengths: [8 ft, 6 ft, 4 ft]}\n"
        "openings: [{name: Lead, face: left, at: 20 ft, height: 2 ft, diameter: 12 in}]\n";
    const cw_memory memory = {obtain, give_back, exhausted, &m};
    static int failed;
    static bool done;
    failed = 0;
    done = false;
    for (volatile int block = 0; block < 200 && !done; block++) {
        m.left = block;
        m.out = 0;
        arena = cw_arena_on(&memory);
        if (setjmp(m.back) == 0) {
            const cw_plan *plan = plan_of(&arena, text);
            assert_true(strlen(cw_plan_json(plan, &arena)) > 1000);
            done = true;
        } else {
            failed++;
        }
        cw_arena_release(&arena);
        assert_int_equal(m.out, 0);
    }
    assert_true(done);
    assert_true(failed >= 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_plan_keeps_them),
        cmocka_unit_test(each_block_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
