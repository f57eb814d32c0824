/* Properties of boxes, with a fixed seed: equilibrium, mirrors, contacts, envelopes. */
#include "../base/calc_test_help.h"

#include "cw/structures.h"

static const uint64_t first_seed = 20261125u;
enum { BOXES = 10000, MIRRORS = 1000, ENVELOPES = 12, POSITIONS = 60 };

static double within(uint64_t *seed, double low, double high)
{
    return low + (high - low) * next_random(seed);
}

static cw_struct_box random_box(uint64_t *seed)
{
    cw_struct_box box = {.form = (int)within(seed, 0.0, 2.999),
                         .span_in = within(seed, 36.0, 300.0),
                         .rise_in = within(seed, 24.0, 144.0),
                         .wall_in = within(seed, 4.0, 18.0),
                         .floor_in = within(seed, 5.0, 24.0),
                         .top_in = within(seed, 5.0, 24.0),
                         .concrete_psi = within(seed, 3e6, 6e6),
                         .concrete_pcf = 150.0,
                         .ground = next_random(seed) < 0.5 ? CW_STRUCT_UNIFORM : CW_STRUCT_SPRINGS,
                         .ground_pcf = within(seed, 30e3, 800e3)};
    if (next_random(seed) < 0.6)
        box.haunch_in = within(seed, 0.0, 10.0);
    if (box.form != CW_STRUCT_LID && next_random(seed) < 0.5)
        box.crown_haunch_in = within(seed, 0.0, 10.0);
    if (box.form == CW_STRUCT_DOUBLE_U && next_random(seed) < 0.5)
        box.joint_in = box.haunch_in +
                       within(seed, 0.1, 0.9) * (box.rise_in - box.haunch_in - box.crown_haunch_in);
    return box;
}

static double width_of(const cw_struct_box *box)
{
    return (box->span_in + box->wall_in) / CW_IN_PER_FT;
}

static double height_of(const cw_struct_box *box)
{
    return (box->rise_in + box->floor_in / 2.0 + box->top_in / 2.0) / CW_IN_PER_FT;
}

static cw_struct_case random_case(const cw_struct_box *box, uint64_t *seed, bool even)
{
    cw_struct_case load = {.weight = within(seed, 0.5, 1.5),
                           .top_psf = within(seed, 50.0, 3000.0),
                           .left_count = 1,
                           .right_count = 1};
    const double pcf = within(seed, 0.0, 90.0);
    const double head = within(seed, 0.0, 10.0), top = height_of(box);
    load.left[0] = load.right[0] = (cw_struct_side){0.0, top, pcf * (head + top), pcf * head};
    if (even) {
        load.patches[load.patch_count++] =
            (cw_struct_patch){0.3 * width_of(box), 0.7 * width_of(box), within(seed, 0.0, 2000.0)};
        return load;
    }
    // More earth on the left, part of the height, and two strips anywhere on the top.
    const double from = within(seed, 0.0, top / 2.0);
    load.left[load.left_count++] =
        (cw_struct_side){from, from + within(seed, 0.1, top / 2.0), within(seed, 0.0, 100.0), 0.0};
    for (int i = 0; i < 2; i++) {
        const double start = within(seed, -3.0, width_of(box));
        load.patches[load.patch_count++] =
            (cw_struct_patch){start, start + within(seed, 0.5, 8.0), within(seed, 0.0, 2000.0)};
    }
    return load;
}

/* Contacts hold what they claim: a seat never pulls, an open one gapes, the ground never pulls. */
static void check_contacts(const cw_struct_box *box, const cw_struct_solution *one, int turn)
{
    const double scale = 1e-6 * (1.0 + one->bearing_most_psf * width_of(box));
    if (box->form == CW_STRUCT_LID && one->strut_lb < -scale)
        fail_msg("box %d: the lid pulls with %g lb", turn, one->strut_lb);
    if (one->released && !(one->gap_in >= 0.0))
        fail_msg("box %d: open seats overlap by %g in", turn, -one->gap_in);
    if (one->bearing_least_psf < -scale)
        fail_msg("box %d: the ground pulls with %g psf", turn, one->bearing_least_psf);
}

static void forces_balance(void **state)
{
    (void)state;
    uint64_t seed = first_seed;
    double worst = 0.0;
    int solved = 0, released = 0, lifted = 0, most_rounds = 0;
    for (int turn = 0; turn < BOXES; turn++) {
        const cw_struct_box box = random_box(&seed);
        const cw_struct_case load = random_case(&box, &seed, false);
        const cw_struct_solution one = cw_struct_solve(&box, &load);
        if (one.status == CW_STRUCT_NO_CONTACT)
            continue; // narrow boxes may tip over under one-sided earth
        if (one.status != CW_STRUCT_OK)
            fail_msg("box %d (seed %llu): %s", turn, (unsigned long long)first_seed,
                     cw_struct_status_words(one.status));
        if (!(one.residual < 1e-9))
            fail_msg("box %d: residual %g of the load", turn, one.residual);
        check_contacts(&box, &one, turn);
        worst = fmax(worst, one.residual);
        most_rounds = one.rounds > most_rounds ? one.rounds : most_rounds;
        solved++;
        released += one.released;
        lifted += one.bearing_share < 1.0 - 1e-9;
    }
    print_message("%d solved, %d open seats, %d lifted, most rounds %d, worst residual %.1e\n",
                  solved, released, lifted, most_rounds, worst);
    assert_true(solved > BOXES * 9 / 10 && released > 500 && lifted > 50);
}

static cw_struct_case mirrored(const cw_struct_case *load, double width_ft)
{
    cw_struct_case out = *load;
    memcpy(out.left, load->right, sizeof out.left);
    memcpy(out.right, load->left, sizeof out.right);
    out.left_count = load->right_count;
    out.right_count = load->left_count;
    for (int i = 0; i < load->patch_count; i++) {
        out.patches[i].from_ft = width_ft - load->patches[i].to_ft;
        out.patches[i].to_ft = width_ft - load->patches[i].from_ft;
    }
    return out;
}

static void same_force(cw_struct_force a, cw_struct_force b, double scale, int turn, int place)
{
    const double off = fmax(fabs(a.moment_ft_lb - b.moment_ft_lb),
                            fmax(fabs(a.shear_lb - b.shear_lb), fabs(a.thrust_lb - b.thrust_lb)));
    if (!(off <= 1e-6 * scale))
        fail_msg("box %d, %s: left and right differ by %g of %g", turn,
                 cw_struct_place_words(place), off, scale);
}

static void mirrors_agree(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 1;
    int solved = 0;
    for (int turn = 0; turn < MIRRORS; turn++) {
        const cw_struct_box box = random_box(&seed);
        const bool even = turn % 2 == 0;
        const cw_struct_case load = random_case(&box, &seed, even);
        const cw_struct_case other = mirrored(&load, width_of(&box));
        const cw_struct_solution a = cw_struct_solve(&box, &load);
        const cw_struct_solution b = cw_struct_solve(&box, &other);
        assert_int_equal(a.status, b.status);
        if (a.status != CW_STRUCT_OK)
            continue;
        const double scale = a.bearing_most_psf * width_of(&box) * width_of(&box);
        for (int p = 0; p < CW_STRUCT_PLACES; p++) {
            // In the middle of a slab shear changes its sign with the side it is read from.
            const bool middle = p == CW_STRUCT_TOP_MID || p == CW_STRUCT_FLOOR_MID;
            cw_struct_force right = b.right[p];
            same_force(a.left[p], right, scale, turn, p);
            if (even && !middle)
                same_force(a.left[p], a.right[p], scale, turn, p);
        }
        solved++;
    }
    assert_true(solved > MIRRORS * 9 / 10);
}

static void check_inside(const cw_struct_envelope *e, const cw_struct_solution *one, int turn)
{
    double shear_lb = 0.0;
    for (int p = 0; p < CW_STRUCT_PLACES; p++)
        shear_lb = fmax(shear_lb, e->at[p].shear_lb);
    for (int p = 0; p < CW_STRUCT_PLACES; p++) {
        const cw_struct_span *span = &e->at[p];
        const double room = 0.003 * fmax(fabs(span->most_ft_lb), fabs(span->least_ft_lb)) + 1e-6;
        for (int right = 0; right < 2; right++) {
            const cw_struct_force force = right ? one->right[p] : one->left[p];
            if (force.moment_ft_lb > span->most_ft_lb + room ||
                force.moment_ft_lb < span->least_ft_lb - room)
                fail_msg("envelope %d, %s: %g outside %g to %g", turn, cw_struct_place_words(p),
                         force.moment_ft_lb, span->least_ft_lb, span->most_ft_lb);
            if (fabs(force.shear_lb) > span->shear_lb + 0.005 * shear_lb)
                fail_msg("envelope %d, %s: shear %g over %g", turn, cw_struct_place_words(p),
                         force.shear_lb, span->shear_lb);
        }
    }
}

/* Positions between those of the envelope stay within it, to 0.3 percent for moments and half a
 * percent of the greatest shear for shears. */
static void envelopes_bound_each_position(void **state)
{
    (void)state;
    uint64_t seed = first_seed + 2;
    for (int turn = 0; turn < ENVELOPES; turn++) {
        cw_struct_box box = random_box(&seed);
        box.span_in = within(&seed, 96.0, 240.0);
        const double cover_ft = within(&seed, 0.5, 6.0);
        const cw_struct_site site = {.earth_psf = 120.0 * cover_ft,
                                     .cover_ft = cover_ft,
                                     .most_pcf = 60.0,
                                     .least_pcf = 30.0,
                                     .surcharge_psf = 100.0,
                                     .water_pcf = 62.4};
        const cw_struct_vehicle vehicle =
            cw_struct_design_vehicle(turn % 2 == 0 ? CW_STRUCT_TRUCK : CW_STRUCT_TANDEM, &cw_data);
        const cw_struct_spread spread = {.cover_ft = cover_ft,
                                         .span_ft = box.span_in / CW_IN_PER_FT};
        const cw_struct_wheel wheel = cw_struct_wheel_pressure(&vehicle, &spread, &cw_data, NULL);
        const cw_struct_envelope e =
            cw_struct_envelop(&box, &site, &wheel, 1, CW_STRUCT_SERVICE, &cw_data);
        assert_int_equal(e.status, CW_STRUCT_OK);
        assert_true(e.residual < 1e-9);
        const double top = height_of(&box), head = cover_ft + box.top_in / 2.0 / CW_IN_PER_FT;
        for (int k = 0; k < POSITIONS; k++) {
            cw_struct_case load = {
                .weight = 1.0, .top_psf = site.earth_psf, .left_count = 1, .right_count = 1};
            load.left[0] = load.right[0] =
                (cw_struct_side){0.0, top, 30.0 * (head + top), 30.0 * head};
            const double shift = within(&seed, -30.0, width_of(&box));
            for (int p = 0; p < wheel.patch_count; p++)
                load.patches[load.patch_count++] =
                    (cw_struct_patch){wheel.patches[p].from_ft + shift,
                                      wheel.patches[p].to_ft + shift, wheel.patches[p].psf};
            const cw_struct_solution one = cw_struct_solve(&box, &load);
            assert_int_equal(one.status, CW_STRUCT_OK);
            check_inside(&e, &one, turn);
        }
    }
}

/* By hand, for the lid of 14 ft on 10 in walls under 4 ft: earth 13.876, lid 4.126, tandem
 * 13.488 kip ft; 1.05 x 1.30 x 13.876 + 1.25 x 4.126 + 1.75 x 13.488 = 47.70 kip ft. */
static void lid_strength_by_hand(void **state)
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
    cw_struct_wheel wheels[2];
    for (int i = 0; i < 2; i++) {
        const cw_struct_vehicle vehicle = cw_struct_design_vehicle((cw_struct_machine)i, &cw_data);
        wheels[i] = cw_struct_wheel_pressure(&vehicle, &spread, &cw_data, NULL);
    }
    const cw_struct_envelope e =
        cw_struct_envelop(&box, &site, wheels, 2, CW_STRUCT_STRENGTH, &cw_data);
    assert_int_equal(e.status, CW_STRUCT_OK);
    near("lid", e.at[CW_STRUCT_TOP_MID].most_ft_lb, 47700.0, 10.0);
    assert_true(e.released > 0 && e.released < e.solves);
    for (int c = 0; c < 5; c++)
        assert_true(strlen(cw_struct_case_words(c)) > 5);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(forces_balance),
        cmocka_unit_test(mirrors_agree),
        cmocka_unit_test(envelopes_bound_each_position),
        cmocka_unit_test(lid_strength_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
