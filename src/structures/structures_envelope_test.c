/* The envelope by superposition against the mesh, position by position.  Both share the cases, the
 * positions and the integrals along a bar; the ways to the forces are different ones (force method
 * with springs as unknowns, stiffness method). */
#include "../base/calc_test_help.h"

#include "cw/structures.h"

#include "envelope_internal.h"

static const uint64_t first_seed = 20261125u;
enum { BOXES = 360, WHOLE_BOXES = 12, EVERY = 13, MIRRORS = 100, SOLUTIONS = 6000 };
#define WITHIN 1e-8 /* of the greatest moment or force */

static double within(uint64_t *seed, double low, double high)
{
    return low + (high - low) * next_random(seed);
}

/* All forms, both grounds; springs from mud to rock, so that wide floors lift in the middle. */
static cw_struct_box some_box(uint64_t *seed)
{
    cw_struct_box box = {.form = (int)within(seed, 0.0, 2.999),
                         .span_in = within(seed, 48.0, 300.0),
                         .rise_in = within(seed, 30.0, 144.0),
                         .wall_in = within(seed, 4.0, 16.0),
                         .floor_in = within(seed, 5.0, 20.0),
                         .top_in = within(seed, 5.0, 20.0),
                         .concrete_psi = within(seed, 3e6, 6e6),
                         .concrete_pcf = within(seed, 140.0, 155.0),
                         .ground = next_random(seed) < 0.4 ? CW_STRUCT_UNIFORM : CW_STRUCT_SPRINGS,
                         .ground_pcf = 20e3 * pow(150.0, next_random(seed))};
    if (next_random(seed) < 0.6)
        box.haunch_in = within(seed, 1.0, 12.0);
    if (box.form != CW_STRUCT_LID && next_random(seed) < 0.5)
        box.crown_haunch_in = within(seed, 1.0, 12.0);
    if (box.form == CW_STRUCT_DOUBLE_U && next_random(seed) < 0.5)
        box.joint_in = box.haunch_in +
                       within(seed, 0.1, 0.9) * (box.rise_in - box.haunch_in - box.crown_haunch_in);
    return box;
}

/* From a foot of cover to ten; one in three with water outside. */
static cw_struct_site some_site(const cw_struct_box *box, uint64_t *seed)
{
    const double cover_ft = within(seed, 0.3, next_random(seed) < 0.5 ? 2.0 : 10.0);
    cw_struct_site site = {.earth_psf = within(seed, 110.0, 150.0) * cover_ft,
                           .cover_ft = cover_ft,
                           .most_pcf = within(seed, 35.0, 90.0),
                           .least_pcf = within(seed, 0.0, 35.0),
                           .surcharge_psf = within(seed, 0.0, 250.0),
                           .water_pcf = 62.4};
    if (next_random(seed) < 0.33)
        site.ground_water_ft = within(seed, 0.1, 1.0) *
                               (box->rise_in + (box->floor_in + box->top_in) / 2.0) / CW_IN_PER_FT;
    return site;
}

static cw_struct_wheel some_wheel(const cw_struct_box *box, double cover_ft, uint64_t *seed)
{
    const int kind = (int)within(seed, 0.0, 3.999);
    const cw_struct_spread spread = {.cover_ft = cover_ft, .span_ft = box->span_in / CW_IN_PER_FT};
    cw_struct_vehicle vehicle =
        cw_struct_design_vehicle(kind == 0 ? CW_STRUCT_TRUCK : CW_STRUCT_TANDEM, &cw_data);
    if (kind == 2) { // scraper or permit vehicle
        vehicle.axles = 2 + (int)within(seed, 0.0, 3.999);
        for (int i = 0; i < vehicle.axles; i++) {
            vehicle.axle_lb[i] = within(seed, 5e3, 60e3);
            vehicle.at_ft[i] = i == 0 ? 0.0 : vehicle.at_ft[i - 1] + within(seed, 3.0, 14.0);
        }
    }
    if (kind == 3) { // crawler
        vehicle.axles = 1;
        vehicle.axle_lb[0] = within(seed, 30e3, 150e3);
        vehicle.patch_length_in = within(seed, 90.0, 200.0);
        vehicle.patch_width_in = within(seed, 16.0, 32.0);
        vehicle.gauge_ft = within(seed, 6.0, 10.0);
    }
    return cw_struct_wheel_pressure(&vehicle, &spread, &cw_data, NULL);
}

/* ---- the envelope of the mesh ---- */

typedef struct solved {
    cw_struct_force force;
    int index;
} solved;

typedef struct gathered {
    cw_struct_status status;
    int count, released, lifted;
    solved at[CW_STRUCT_PLACES][SOLUTIONS];
    double moment_scale, force_scale;
    double wall_most_ft_lb, wall_least_ft_lb, strut_most_lb, strut_least_lb, bearing_psf, residual;
} gathered;

static bool gather(gathered *g, const cw_struct_box *box, const cw_struct_case *load, int index)
{
    const cw_struct_solution one = cw_struct_solve(box, load);
    g->status = one.status;
    if (one.status != CW_STRUCT_OK)
        return false;
    assert_true(2 * g->count + 2 <= SOLUTIONS);
    for (int p = 0; p < CW_STRUCT_PLACES; p++)
        for (int right = 0; right < 2; right++) {
            const cw_struct_force force = right ? one.right[p] : one.left[p];
            g->at[p][2 * g->count + right] = (solved){force, index};
            g->moment_scale = fmax(g->moment_scale, fabs(force.moment_ft_lb));
            g->force_scale =
                fmax(g->force_scale, fmax(fabs(force.shear_lb), fabs(force.thrust_lb)));
        }
    g->count++;
    g->released += one.released;
    g->lifted += one.bearing_share < 1.0 - 1e-9;
    g->wall_most_ft_lb = fmax(g->wall_most_ft_lb, one.wall_most_ft_lb);
    g->wall_least_ft_lb = fmin(g->wall_least_ft_lb, one.wall_most_ft_lb);
    g->strut_most_lb = fmax(g->strut_most_lb, one.strut_lb);
    g->strut_least_lb = fmin(g->strut_least_lb, one.strut_lb);
    g->bearing_psf = fmax(g->bearing_psf, one.bearing_most_psf);
    g->residual = fmax(g->residual, one.residual);
    return true;
}

static void gather_all(gathered *g, const cw_struct_box *box, const cw_struct_ask *ask, int every)
{
    const cw_envelope_factors factors = cw_envelope_factors_of(ask->state, &cw_data);
    memset(g, 0, sizeof *g);
    g->wall_most_ft_lb = g->strut_most_lb = -CW_ANY_HIGH;
    g->wall_least_ft_lb = g->strut_least_lb = CW_ANY_HIGH;
    for (int c = 0; c < CW_ENVELOPE_CASES; c++) {
        if (!cw_envelope_has(c, ask->site))
            continue;
        cw_struct_case load = cw_envelope_case(c, box, ask->site, &factors);
        if (!gather(g, box, &load, c))
            return;
        for (int w = 0; cw_envelope_has_traffic(c) && w < ask->wheel_count; w++) {
            const cw_envelope_walk walk = cw_envelope_walk_of(box, &ask->wheels[w]);
            for (int k = 0; ask->wheels[w].counts && k < walk.count; k += every) {
                load.patch_count = cw_envelope_place(&walk, &ask->wheels[w], k, load.patches);
                for (int p = 0; p < load.patch_count; p++)
                    load.patches[p].psf *= factors.live;
                if (load.patch_count > 0 && !gather(g, box, &load, c))
                    return;
            }
        }
    }
}

/* ---- comparing ---- */

static void same(const char *what, int turn, double got, double want, double scale)
{
    if (!(fabs(got - want) <= WITHIN * scale))
        fail_msg("box %d (seed %llu), %s: %.12g by superposition, %.12g by the mesh, scale %g",
                 turn, (unsigned long long)first_seed, what, got, want, scale);
}

/* Some position has the extreme and what goes with it: where several have it, any of them may be
 * named. */
static void comes_from(const gathered *g, int place, int turn, cw_struct_force want, int index,
                       bool shear)
{
    for (int i = 0; i < 2 * g->count; i++) {
        const solved *one = &g->at[place][i];
        const double off =
            fabs(one->force.moment_ft_lb - want.moment_ft_lb) / g->moment_scale +
            fabs(one->force.thrust_lb - want.thrust_lb) / g->force_scale +
            (shear ? fabs(fabs(one->force.shear_lb) - want.shear_lb) / g->force_scale : 0.0);
        if (one->index == index && off <= 2.0 * WITHIN)
            return;
    }
    fail_msg("box %d, %s: no position of \"%s\" has moment %g, thrust %g, shear %g", turn,
             cw_struct_place_words(place), cw_struct_case_words(index), want.moment_ft_lb,
             want.thrust_lb, want.shear_lb);
}

static void compare_place(const gathered *g, const cw_struct_span *span, int place, int turn)
{
    double most = -CW_ANY_HIGH, least = CW_ANY_HIGH, shear = 0.0;
    for (int i = 0; i < 2 * g->count; i++) {
        most = fmax(most, g->at[place][i].force.moment_ft_lb);
        least = fmin(least, g->at[place][i].force.moment_ft_lb);
        shear = fmax(shear, fabs(g->at[place][i].force.shear_lb));
    }
    const char *what = cw_struct_place_words(place);
    same(what, turn, span->most_ft_lb, most, g->moment_scale);
    same(what, turn, span->least_ft_lb, least, g->moment_scale);
    same(what, turn, span->shear_lb, shear, g->force_scale);
    comes_from(g, place, turn, (cw_struct_force){span->most_ft_lb, 0.0, span->most_thrust_lb},
               span->most_case, false);
    comes_from(g, place, turn, (cw_struct_force){span->least_ft_lb, 0.0, span->least_thrust_lb},
               span->least_case, false);
    if (shear > WITHIN * g->force_scale)
        comes_from(
            g, place, turn,
            (cw_struct_force){span->shear_moment_ft_lb, span->shear_lb, span->shear_thrust_lb},
            span->shear_case, true);
}

static void compare(const gathered *g, const cw_struct_envelope *e, int turn)
{
    if (e->status != g->status)
        fail_msg("box %d: %s, the mesh says %s", turn, cw_struct_status_words(e->status),
                 cw_struct_status_words(g->status));
    if (g->status != CW_STRUCT_OK)
        return;
    assert_int_equal(e->solves, g->count);
    if (e->released != g->released)
        fail_msg("box %d: %d open seats, %d by the mesh", turn, e->released, g->released);
    for (int p = 0; p < CW_STRUCT_PLACES; p++)
        compare_place(g, &e->at[p], p, turn);
    same("wall, most", turn, e->wall.most_ft_lb, g->wall_most_ft_lb, g->moment_scale);
    same("wall, least", turn, e->wall.least_ft_lb, g->wall_least_ft_lb, g->moment_scale);
    same("strut, most", turn, e->strut_most_lb, g->strut_most_lb, g->force_scale);
    same("strut, least", turn, e->strut_least_lb, g->strut_least_lb, g->force_scale);
    same("bearing", turn, e->bearing_most_psf, g->bearing_psf, g->bearing_psf);
    if (!(e->residual < 1e-9))
        fail_msg("box %d: residual %g", turn, e->residual);
}

static void superposition_agrees_with_the_mesh(void **state)
{
    (void)state;
    static gathered g;
    uint64_t seed = first_seed;
    int solved_boxes = 0, released = 0, half_released = 0, lifted[2] = {0, 0}, flooded = 0;
    long positions = 0;
    double residual = 0.0;
    for (int turn = 0; turn < BOXES; turn++) {
        const cw_struct_box box = some_box(&seed);
        const cw_struct_site site = some_site(&box, &seed);
        const cw_struct_wheel wheel = some_wheel(&box, site.cover_ft, &seed);
        const cw_struct_ask ask = {.site = &site,
                                   .wheels = &wheel,
                                   .wheel_count = 1,
                                   .state = (int)within(&seed, 0.0, 3.999)};
        const int every = turn < WHOLE_BOXES ? 1 : EVERY;
        cw_struct_envelope e;
        gather_all(&g, &box, &ask, every);
        cw_envelope_every(&box, &ask, 1, every, &cw_data, &e);
        compare(&g, &e, turn);
        if (e.status != CW_STRUCT_OK)
            continue;
        solved_boxes++;
        positions += g.count;
        released += g.released > 0;
        half_released += g.released > 0 && g.released < g.count;
        lifted[box.ground] += g.lifted > 0;
        flooded += site.ground_water_ft > 0.0;
        residual = fmax(residual, e.residual);
    }
    print_message("%d boxes, %ld positions; seats open in %d, and closed too in %d; ground left in "
                  "%d uniform, %d springs; %d flooded; residual %.1e\n",
                  solved_boxes, positions, released, half_released, lifted[CW_STRUCT_UNIFORM],
                  lifted[CW_STRUCT_SPRINGS], flooded, residual);
    assert_true(solved_boxes >= 300 && half_released >= 20 && flooded >= 30);
    assert_true(lifted[CW_STRUCT_UNIFORM] >= 10 && lifted[CW_STRUCT_SPRINGS] >= 20);
}

/* A vehicle that drives the other way makes the same envelope: both sides are taken together. */
static void vehicles_may_turn_round(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 1;
    int solved_boxes = 0;
    for (int turn = 0; turn < MIRRORS; turn++) {
        const cw_struct_box box = some_box(&seed);
        const cw_struct_site site = some_site(&box, &seed);
        const double width_ft = (box.span_in + box.wall_in) / CW_IN_PER_FT;
        // One strip steps from mid-span, so that its mirror stands at the same places.
        cw_struct_wheel there = {.counts = true, .patch_count = 1};
        there.patches[0] = (cw_struct_patch){0.0, within(&seed, 1.0, 6.0), 900.0};
        cw_struct_wheel back = there;
        back.patches[0] = (cw_struct_patch){-there.patches[0].to_ft, 0.0, 900.0};
        cw_struct_envelope e[2];
        const cw_struct_ask asks[2] = {{&site, &there, 1, CW_STRUCT_STRENGTH, NULL},
                                       {&site, &back, 1, CW_STRUCT_STRENGTH, NULL}};
        cw_struct_envelop_each(&box, asks, 2, &cw_data, e);
        assert_int_equal(e[0].status, e[1].status);
        if (e[0].status != CW_STRUCT_OK)
            continue;
        const double scale = e[0].bearing_most_psf * width_ft * width_ft;
        for (int p = 0; p < CW_STRUCT_PLACES; p++) {
            same("there and back", turn, e[0].at[p].most_ft_lb, e[1].at[p].most_ft_lb, scale);
            same("there and back", turn, e[0].at[p].least_ft_lb, e[1].at[p].least_ft_lb, scale);
            same("there and back", turn, e[0].at[p].shear_lb, e[1].at[p].shear_lb, scale);
        }
        solved_boxes++;
    }
    assert_true(solved_boxes > MIRRORS / 2);
}

static const cw_struct_span *nearest(const cw_struct_curve *curve, double at_ft)
{
    int best = 0;
    for (int i = 1; i < curve->count; i++)
        if (fabs(curve->at_ft[i] - at_ft) < fabs(curve->at_ft[best] - at_ft))
            best = i;
    return &curve->span[best];
}

static void same_span(const cw_struct_span *a, const cw_struct_span *b, int turn)
{
    const double scale = fmax(fabs(a->most_ft_lb), fabs(a->least_ft_lb)) + a->shear_lb;
    same("diagram", turn, a->most_ft_lb, b->most_ft_lb, scale);
    same("diagram", turn, a->least_ft_lb, b->least_ft_lb, scale);
    same("diagram", turn, a->shear_lb, b->shear_lb, scale);
}

/* Diagrams pass through the named places, and asking for them changes nothing. */
static void diagrams_pass_through_the_places(void **state)
{
    (void)state;
    static cw_struct_diagram diagram;
    uint64_t seed = first_seed + 2;
    for (int turn = 0; turn < MIRRORS; turn++) {
        const cw_struct_box box = some_box(&seed);
        const cw_struct_site site = some_site(&box, &seed);
        const cw_struct_wheel wheel = some_wheel(&box, site.cover_ft, &seed);
        const cw_struct_ask asks[2] = {{&site, &wheel, 1, CW_STRUCT_STRENGTH, NULL},
                                       {&site, &wheel, 1, CW_STRUCT_STRENGTH, &diagram}};
        cw_struct_envelope e[2];
        cw_struct_envelop_each(&box, asks, 2, &cw_data, e);
        assert_int_equal(e[0].status, e[1].status);
        if (e[0].status != CW_STRUCT_OK)
            continue;
        for (int p = 0; p < CW_STRUCT_PLACES; p++)
            same_span(&e[0].at[p], &e[1].at[p], turn);
        const struct {
            const cw_struct_curve *curve;
            double at_ft;
            int place;
        } ends[] = {{&diagram.top, 0.0, CW_STRUCT_TOP_END},
                    {&diagram.top, diagram.width_ft / 2.0, CW_STRUCT_TOP_MID},
                    {&diagram.wall, 0.0, CW_STRUCT_WALL_FOOT},
                    {&diagram.wall, diagram.height_ft / 2.0, CW_STRUCT_WALL_MID},
                    {&diagram.wall, diagram.height_ft, CW_STRUCT_WALL_TOP},
                    {&diagram.floor, 0.0, CW_STRUCT_FLOOR_END},
                    {&diagram.floor, diagram.width_ft / 2.0, CW_STRUCT_FLOOR_MID}};
        for (size_t i = 0; i < COUNT_OF(ends); i++)
            same_span(nearest(ends[i].curve, ends[i].at_ft), &e[1].at[ends[i].place], turn);
        // No moment within the walls is above that of a point by more than a bar can bulge.
        double most = -CW_ANY_HIGH;
        for (int i = 0; i < diagram.wall.count; i++)
            most = fmax(most, diagram.wall.span[i].most_ft_lb);
        assert_true(e[1].wall.most_ft_lb >= most - 1e-6 * fabs(most));
    }
}

/* Closed form, service, no traffic: a lid is a simple span, M = q x (B - x)/2, V = q (B/2 - x); the
 * thrust at the foot of a wall is half the top and the wall's own weight. */
static void lid_diagram_by_hand(void **state)
{
    (void)state;
    static cw_struct_diagram d;
    const cw_struct_box box = {.span_in = 168.0,
                               .rise_in = 96.0,
                               .wall_in = 12.0,
                               .floor_in = 12.0,
                               .top_in = 12.0,
                               .concrete_psi = 4287e3,
                               .concrete_pcf = 150.0};
    const cw_struct_site site = {.earth_psf = 450.0,
                                 .cover_ft = 4.0,
                                 .most_pcf = 60.0,
                                 .least_pcf = 60.0,
                                 .water_pcf = 62.4};
    const cw_struct_ask ask = {&site, NULL, 0, CW_STRUCT_SERVICE, &d};
    cw_struct_envelope e;
    cw_struct_envelop_each(&box, &ask, 1, &cw_data, &e);
    assert_int_equal(e.status, CW_STRUCT_OK);
    near("width", d.width_ft, 15.0, 1e-12);
    near("height", d.height_ft, 9.0, 1e-12);
    assert_true(d.top.count >= 9 && d.floor.count >= 13 && d.wall.count >= 11);
    for (int i = 0; i < d.top.count; i++) {
        const double x = d.top.at_ft[i];
        near("moment", d.top.span[i].most_ft_lb, 600.0 * x * (15.0 - x) / 2.0, 1e-6);
        near("shear", d.top.span[i].shear_lb, 600.0 * (7.5 - x), 1e-6);
    }
    near("foot", d.wall.thrust_most_lb[0], 600.0 * 7.5 + 150.0 * 9.0, 1e-6);
    // The floor's own weight and water on it go straight to the ground; it bends under the others:
    // (600 x 15 + 2 x 1350)/15 = 780 psf.
    const int middle = d.floor.count - 1;
    near("rise of the floor's moment", d.floor.span[middle].most_ft_lb - d.floor.span[0].most_ft_lb,
         780.0 * 225.0 / 8.0, 1e-5);
}

/* The lid's moment is the same whether its seats are open or not; without a strut the section has
 * less thrust to help it, so that one must be named. */
static void equal_moments_take_the_least_thrust(void **state)
{
    (void)state;
    const cw_struct_box box = {.span_in = 168.0,
                               .rise_in = 96.0,
                               .wall_in = 10.0,
                               .floor_in = 12.0,
                               .top_in = 12.0,
                               .concrete_psi = 4287e3,
                               .concrete_pcf = 150.0};
    const cw_struct_site site = {.earth_psf = 504.51,
                                 .cover_ft = 4.0,
                                 .most_pcf = 60.0,
                                 .least_pcf = 30.0,
                                 .surcharge_psf = 156.0,
                                 .water_pcf = 62.4};
    const cw_struct_spread spread = {.cover_ft = 4.0, .span_ft = 14.0};
    const cw_struct_vehicle tandem = cw_struct_design_vehicle(CW_STRUCT_TANDEM, &cw_data);
    const cw_struct_wheel wheel = cw_struct_wheel_pressure(&tandem, &spread, &cw_data, NULL);
    const cw_struct_envelope e =
        cw_struct_envelop(&box, &site, &wheel, 1, CW_STRUCT_SERVICE, &cw_data);
    assert_true(e.released > 0 && e.released < e.solves && e.strut_most_lb > 100.0);
    near("thrust with the lid's moment", e.at[CW_STRUCT_TOP_MID].most_thrust_lb, 0.0, 1e-9);
    assert_true(e.at[CW_STRUCT_TOP_MID].most_case != CW_ENVELOPE_ALL_MOST);
}

static void odd_boxes_are_said(void **state)
{
    (void)state;
    const cw_struct_box none = {.span_in = 120.0};
    cw_struct_site site = {.earth_psf = 100.0,
                           .cover_ft = 1.0,
                           .most_pcf = 60.0,
                           .least_pcf = 30.0,
                           .water_pcf = 62.4};
    cw_struct_envelope e = cw_struct_envelop(&none, &site, NULL, 0, CW_STRUCT_SERVICE, &cw_data);
    assert_int_equal(e.status, CW_STRUCT_BAD_BOX);
    // A light box in deep water floats: nothing bears.
    const cw_struct_box light = {.span_in = 240.0,
                                 .rise_in = 120.0,
                                 .wall_in = 6.0,
                                 .floor_in = 6.0,
                                 .top_in = 6.0,
                                 .concrete_psi = 4287e3,
                                 .concrete_pcf = 150.0,
                                 .ground_pcf = 100e3};
    site.ground_water_ft = 10.0;
    for (int ground = 0; ground < 2; ground++) {
        cw_struct_box box = light;
        box.ground = ground;
        e = cw_struct_envelop(&box, &site, NULL, 0, CW_STRUCT_SERVICE, &cw_data);
        assert_int_equal(e.status, CW_STRUCT_NO_CONTACT);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(superposition_agrees_with_the_mesh),
        cmocka_unit_test(vehicles_may_turn_round),
        cmocka_unit_test(diagrams_pass_through_the_places),
        cmocka_unit_test(lid_diagram_by_hand),
        cmocka_unit_test(equal_moments_take_the_least_thrust),
        cmocka_unit_test(odd_boxes_are_said),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
