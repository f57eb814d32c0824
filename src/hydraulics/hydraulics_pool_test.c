/* Road, several barrels under one pool, and what must hold for any of them. */
#include "hydraulics_check.h"

#include "cw/hydraulics.h"
#include "hydraulics/hydraulics_internal.h"

static cw_water_inlet inlet_of(int index)
{
    cw_water_inlet inlet = {0};
    assert_true(cw_water_inlet_rows(&cw_data, index, &inlet));
    return inlet;
}

static cw_water_weir paved(void)
{
    cw_water_weir weir;
    assert_true(cw_water_weir_rows(&cw_data, CW_WATER_PAVED, &weir));
    return weir;
}

/* ---- road ---- */

static void road_as_a_weir(void **state)
{
    (void)state;
    const cw_water_weir table = paved();
    const cw_water_crest level[] = {{0, 10}, {100, 10}};
    cw_water_road road = {level, 2, cw_water_weir_own(3.0, &table)};
    near("Cd L h^1.5", cw_water_road_over(&road, 12, -99).flow_cfs, 848.53, 5e-3);
    const cw_water_crest shorter[] = {{0, 10}, {60, 10}};
    road = (cw_water_road){shorter, 2, cw_water_weir_own(2.9, &table)};
    near("Cd L h^1.5", cw_water_road_over(&road, 11.5, -99).flow_cfs, 319.66, 5e-3);
    /* Course CIVE 530 midterm 1, 2005: 3.09 x 20 ft x 0.8^1.5 = 44.22 cfs. */
    const cw_water_crest twenty[] = {{0, 0}, {20, 0}};
    road = (cw_water_road){twenty, 2, cw_water_weir_own(3.09, &table)};
    near("CIVE 530 2005", cw_water_road_over(&road, 0.8, -99).flow_cfs, 44.22, 5e-3);
}

/* A sag against 20,000 level slices: the definition of the integral. */
static void sloped_crest_is_the_sum_of_its_slices(void **state)
{
    (void)state;
    const cw_water_weir table = paved();
    const cw_water_crest sag[] = {{0, 12}, {70, 9.5}, {90, 9.5}, {160, 11}};
    const cw_water_road road = {sag, 4, cw_water_weir_own(3.0, &table)};
    for (int k = 0; k < 4; k++) {
        const double pool = 9.8 + 0.5 * k;
        double sum = 0.0;
        for (int i = 0; i < 20000; i++) {
            const double x = 160.0 * (i + 0.5) / 20000;
            const double z = x < 70 ? 12 - 2.5 * x / 70 : x < 90 ? 9.5 : 9.5 + 1.5 * (x - 90) / 70;
            sum += z < pool ? 3.0 * pow(pool - z, 1.5) * 160.0 / 20000 : 0.0;
        }
        near("slices", cw_water_road_over(&road, pool, -99).flow_cfs, sum, 1e-4 * sum);
    }
    assert_true(cw_water_road_over(&road, 11.5, -99).past_ends);
    assert_false(cw_water_road_over(&road, 10.9, -99).past_ends);
}

static void submergence_takes_off(void **state)
{
    (void)state;
    const cw_water_crest level[] = {{0, 10}, {100, 10}};
    const cw_water_road road = {level, 2, paved()};
    const double freely = cw_water_road_over(&road, 11, 10.7).flow_cfs;
    near("free to 0.8", freely, 3.03 * 100, 1e-9);
    near("0.93 at 0.90", cw_water_road_over(&road, 11, 10.9).flow_cfs, 0.93 * freely, 1e-6);
    near("0.80 at 0.95", cw_water_road_over(&road, 11, 10.95).flow_cfs, 0.80 * freely, 1e-6);
    near("0 at 1", cw_water_road_over(&road, 11, 11).flow_cfs, 0.0, 1e-9);
    double before = -1.0;
    for (int i = 0; i <= 400; i++) {
        const double flow = cw_water_road_over(&road, 10.9 + 0.005 * i, 10.9).flow_cfs;
        assert_true(flow >= before);
        before = flow;
    }
}

/* ---- two barrels, by an independent program ---- */

static const struct {
    double barrel_cfs, headwater_ft, within_ft;
    cw_water_control control;
} curve_rows[] = {
    {50, 3.7606, 3e-4, CW_WATER_BY_OUTLET},  {100, 3.9426, 3e-4, CW_WATER_BY_OUTLET},
    {150, 4.2468, 3e-4, CW_WATER_BY_OUTLET}, {200, 4.6758, 3e-4, CW_WATER_BY_OUTLET},
    {250, 5.2394, 3e-4, CW_WATER_BY_OUTLET}, {300, 5.6654, 3e-4, CW_WATER_BY_INLET},
    {350, 6.3035, 3e-4, CW_WATER_BY_INLET},  {400, 6.9148, 3e-4, CW_WATER_BY_INLET},
    {450, 7.7881, 0.1, CW_WATER_BY_INLET}, /* in the join: straight there, a cubic here */
    {500, 8.6102, 3e-4, CW_WATER_BY_INLET},
};

static cw_water_barrel pair_barrel(void)
{
    return (cw_water_barrel){.span_ft = 8,
                             .rise_ft = 6,
                             .length_ft = 60,
                             .inlet_floor_ft = 0.3,
                             .n = 0.013,
                             .entrance_loss = 0.4,
                             .inlet = inlet_of(0)};
}

static void two_barrels_and_a_road(void **state)
{
    (void)state;
    const cw_water_barrel barrels[2] = {pair_barrel(), pair_barrel()};
    for (int i = 0; i < COUNT_OF(curve_rows); i++) {
        const cw_water_head head = cw_water_head_of(&barrels[0], curve_rows[i].barrel_cfs, 4.0, 0);
        const bool by_inlet = curve_rows[i].control == CW_WATER_BY_INLET;
        near("independent program", by_inlet ? head.inlet_ft : head.headwater_ft,
             curve_rows[i].headwater_ft, curve_rows[i].within_ft);
        /* The source's rating falls by 0.17 ft where outlet control lets go near 285 cfs (slope
         * close to critical).  Ours does not fall and comes back to it from above. */
        if (by_inlet)
            assert_true(head.headwater_ft >= head.inlet_ft &&
                        head.headwater_ft <= 1.04 * head.inlet_ft);
        else
            assert_int_equal(head.control, CW_WATER_BY_OUTLET);
    }
    const cw_water_weir table = paved();
    const cw_water_crest crest[] = {{0, 8.8}, {80, 8.8}};
    const cw_water_road road = {crest, 2, cw_water_weir_own(3.0, &table)};
    const cw_water_site site = {barrels, 2, &road, {.kind = CW_WATER_TAIL_FIXED, .level_ft = 4}};
    assert_int_equal(cw_water_site_check(&site), CW_WATER_OK);
    cw_water_answer at = cw_water_pool(&site, 1000);
    near("total 1000", at.pool_ft - 0.3, 8.5739, 3e-4);
    near("total 1000", at.barrel_cfs[0], 497.59, 0.02);
    near("total 1000", at.over.flow_cfs, 4.83, 0.03);
    at = cw_water_pool(&site, 1200);
    near("total 1200", at.pool_ft - 0.3, 9.1619, 3e-4);
    near("total 1200", at.barrel_cfs[1], 535.38, 0.02);
    near("total 1200", at.over.flow_cfs, 129.24, 0.03);
    const cw_water_root back = cw_water_at_pool(&site, at.pool_ft);
    assert_int_equal(back.status, CW_WATER_OK);
    near("and back", back.value, 1200, 1e-6);
}

static void what_cannot_be_says_so(void **state)
{
    (void)state;
    cw_water_barrel barrels[2] = {pair_barrel(), pair_barrel()};
    const cw_water_crest crest[] = {{0, 8.8}, {80, 8.8}};
    cw_water_road road = {crest, 2, paved()};
    cw_water_site site = {barrels, 2, &road, {.kind = CW_WATER_TAIL_FIXED, .level_ft = 9}};
    assert_int_equal(cw_water_site_check(&site), CW_WATER_ROAD_DROWNED);
    const cw_water_stage stages[] = {{0, 1}, {300, 4}};
    site.tailwater =
        (cw_water_tailwater){.kind = CW_WATER_TAIL_TABLE, .stages = stages, .stage_count = 2};
    assert_int_equal(cw_water_site_check(&site), CW_WATER_OK);
    assert_int_equal(cw_water_pool(&site, 301).status, CW_WATER_BEYOND_TABLE);
    assert_int_equal(cw_water_pool(&site, -1).status, CW_WATER_BAD_FLOW);
    assert_int_equal(cw_water_at_pool(&site, 0.2).status, CW_WATER_BELOW_SILLS);
    const cw_water_root far = cw_water_at_pool(&site, 30);
    assert_int_equal(far.status, CW_WATER_BEYOND_TABLE);
    near("as far as the table goes", far.high, 300, 0);
    assert_true(far.residual < 0.0);
    barrels[1].n = 0;
    assert_int_equal(cw_water_site_check(&site), CW_WATER_BAD_BARREL);
    barrels[1] = barrels[0];
    road.count = 1;
    assert_int_equal(cw_water_site_check(&site), CW_WATER_BAD_ROAD);
    site.road = NULL;
    site.barrel_count = 0;
    assert_int_equal(cw_water_site_check(&site), CW_WATER_BAD_BARREL);
    assert_int_equal(cw_water_overtopping(&site, 1).status, CW_WATER_BAD_ROAD);
}

/* ---- properties ---- */

enum { CASES = 10000, FLOWS = 20, HALVINGS = 30 };
static const unsigned long long first_seed = 20240611;

static cw_water_barrel any_barrel(unsigned long long *seed)
{
    const double kind = even(seed);
    cw_water_barrel barrel = {
        .span_ft = even_in(seed, 3, 14),
        .rise_ft = even_in(seed, 3, 12),
        .length_ft = even_in(seed, 20, 400),
        .n = even_in(seed, 0.010, 0.020),
        .entrance_loss = even_in(seed, 0.1, 0.9),
        .other_loss = even(seed) < 0.2 ? even(seed) : 0.0,
        .inlet = inlet_of((int)(even(seed) * CW_WATER_INLET_OWN)),
    };
    if (even(seed) < 0.2) {
        barrel.bed_ft = even_in(seed, 0.2, 1.0);
        barrel.bed_n = even_in(seed, 0.02, 0.05);
    }
    const double slope = kind < 0.1   ? 0.0
                         : kind < 0.2 ? -even_in(seed, 0, 0.01)
                         : kind < 0.7 ? even_in(seed, 0, 0.01)
                                      : even_in(seed, 0, 0.06);
    barrel.inlet_floor_ft = slope * barrel.length_ft;
    return barrel;
}

/* Between two flows with a large rise the steepest half is sought again and again: a step stays, a
 * steep curve does not. */
static double step_between(const cw_water_barrel *barrel, double tail_ft, double low, double high)
{
    double a = cw_water_head_of(barrel, low, tail_ft, 0).headwater_ft;
    double b = cw_water_head_of(barrel, high, tail_ft, 0).headwater_ft;
    for (int k = 0; k < HALVINGS; k++) {
        const double middle = 0.5 * (low + high);
        const double here = cw_water_head_of(barrel, middle, tail_ft, 0).headwater_ft;
        if (here - a > b - here) {
            high = middle;
            b = here;
        } else {
            low = middle;
            a = here;
        }
    }
    return b - a;
}

static void headwater_never_falls_and_never_steps(void **state)
{
    (void)state;
    unsigned long long seed = first_seed;
    for (int c = 0; c < CASES; c++) {
        const cw_water_barrel barrel = any_barrel(&seed);
        assert_int_equal(cw_water_barrel_check(&barrel), CW_WATER_OK);
        const double rise = cw_water_opening_ft(&barrel);
        const double tail = even(&seed) < 0.3 ? -5.0 : even_in(&seed, 0, 2 * rise);
        const double most = 6.5 * barrel.span_ft * rise * sqrt(rise);
        double before = 0.0;
        for (int i = 0; i <= FLOWS; i++) {
            const double flow = most * i / FLOWS;
            const cw_water_head head = cw_water_head_of(&barrel, flow, tail, 0);
            assert_int_equal(head.status, CW_WATER_OK);
            if (i == 0 && tail <= 0.0 && cw_water_slope(&barrel) >= 0.0)
                assert_true(head.headwater_ft == 0.0);
            if (i > 0 && !(head.headwater_ft >= before - 1e-9))
                fail_msg("seed %llu case %d: %.6f after %.6f at %.3f cfs", first_seed, c,
                         head.headwater_ft, before, flow);
            /* From no flow at all a curve may start upright. */
            if (i > 1 && head.headwater_ft - before > 0.3 * rise) {
                const double step = step_between(&barrel, tail, most * (i - 1) / FLOWS, flow);
                if (step > 1e-3)
                    fail_msg("seed %llu case %d: a step of %.4f ft near %.3f cfs", first_seed, c,
                             step, flow);
            }
            before = head.headwater_ft;
        }
    }
}

/* Loss between nodes by 200 slices of Simpson's rule, in depth. */
static double friction_between(const cw_water_run *run, const cw_water_node *a,
                               const cw_water_node *b)
{
    enum { SLICES = 200 };
    const double h = (b->head_ft - a->head_ft) / SLICES;
    double sum = 0.0, length = 0.0;
    for (int i = 0; i < SLICES; i++) {
        const double w[3] = {1, 4, 1};
        for (int k = 0; k < 3; k++) {
            const double y = a->head_ft + h * (i + 0.5 * k);
            const double sf = cw_water_friction(run, y);
            const double over = 1.0 - 2.0 * run->head_q / (y * y * y);
            const double rate = over / (run->box->slope - sf);
            length += w[k] * h / 6 * rate;
            sum += w[k] * h / 6 * rate * sf;
        }
    }
    return sum * (b->x_ft - a->x_ft) / length;
}

/* E1 + S dx = E2 + losses, node by node. */
static void check_energy(const cw_water_run *run, const cw_water_branch *branch, int c)
{
    for (int i = 0; i + 1 < branch->count; i++) {
        const cw_water_node *a = &branch->nodes[i], *b = &branch->nodes[i + 1];
        const double dx = b->x_ft - a->x_ft, top = run->box->rise_ft;
        assert_true(dx >= 0.0);
        if (fabs(a->head_ft - b->head_ft) < 1e-4 * top)
            continue; /* uniform: the integral over depth is 0/0 */
        double loss = run->full_slope * dx;
        if (fmin(a->head_ft, b->head_ft) < top * (1 - 1e-12))
            loss = friction_between(run, a, b);
        const double miss = b->energy_ft - a->energy_ft - run->box->slope * dx + loss;
        if (fabs(miss) > 1e-3 * top)
            fail_msg("seed %llu case %d node %d: energy misses %.5f ft", first_seed, c, i, miss);
    }
}

static void energy_balances_and_momenta_meet(void **state)
{
    (void)state;
    unsigned long long seed = first_seed;
    int jumps = 0, regimes[CW_WATER_FULL + 1] = {0};
    for (int c = 0; c < CASES / 4; c++) {
        const cw_water_barrel barrel = any_barrel(&seed);
        const double rise = cw_water_opening_ft(&barrel);
        const double tail = even(&seed) < 0.3 ? -5.0 : even_in(&seed, 0, 2 * rise);
        const double flow = barrel.span_ft * rise * sqrt(rise) * even_in(&seed, 0.2, 6);
        cw_water_profile p;
        cw_water_profile_of(&barrel, flow, tail, 0, &p);
        assert_int_equal(p.status, CW_WATER_OK);
        regimes[p.regime]++;
        const cw_water_box box = cw_water_box_of(&barrel);
        const cw_water_run run = cw_water_run_of(&box, flow);
        check_energy(&run, &p.slow, c);
        check_energy(&run, &p.fast, c);
        assert_true(p.outlet_depth_ft > 0.0 && p.outlet_depth_ft <= rise);
        if (!p.has_jump)
            continue;
        jumps++;
        const double q = flow / barrel.span_ft, g = CW_WATER_GRAVITY;
        const double y1 = p.jump_before_ft, y2 = fmin(p.jump_after_ft, rise);
        const double before = q * q / (g * y1) + y1 * y1 / 2;
        const double after = q * q / (g * y2) + y2 * y2 / 2 + y2 * (p.jump_after_ft - y2);
        near("momentum", after / before, 1.0, 1e-9);
        assert_true(y1 <= y2 * (1 + 1e-9) && p.jump_ft >= 0 && p.jump_ft <= barrel.length_ft);
    }
    assert_true(jumps > 20);
    for (int i = CW_WATER_SLOW; i <= CW_WATER_FULL; i++)
        assert_true(regimes[i] > 0);
}

static void flows_add_up_under_one_pool(void **state)
{
    (void)state;
    unsigned long long seed = first_seed;
    const cw_water_weir weir = paved();
    for (int c = 0; c < CASES / 10; c++) {
        cw_water_barrel barrels[4];
        const int count = 1 + (int)(even(&seed) * 4);
        double area = 0.0;
        for (int i = 0; i < count; i++) {
            barrels[i] = even(&seed) < 0.3 && i > 0 ? barrels[i - 1] : any_barrel(&seed);
            const double lift = even_in(&seed, 0, 2);
            barrels[i].inlet_floor_ft += lift;
            barrels[i].outlet_floor_ft += lift;
            area += barrels[i].span_ft * barrels[i].rise_ft;
        }
        const cw_water_crest crest[] = {{0, 40}, {40, even_in(&seed, 34, 37)}, {80, 34}, {150, 41}};
        const cw_water_road road = {crest, 4, weir};
        const cw_water_site site = {
            barrels,
            count,
            even(&seed) < 0.5 ? &road : NULL,
            {.kind = CW_WATER_TAIL_FIXED, .level_ft = even_in(&seed, 0, 8)}};
        assert_int_equal(cw_water_site_check(&site), CW_WATER_OK);
        enum { POINTS = 12 };
        cw_water_answer points[POINTS];
        assert_int_equal(cw_water_curve(&site, area * 14, points, POINTS), CW_WATER_OK);
        for (int k = 0; k < POINTS; k++) {
            const cw_water_answer *at = &points[k];
            double sum = at->over.flow_cfs;
            for (int i = 0; i < count; i++)
                sum += at->barrel_cfs[i];
            near("sum of flows", sum, at->flow_cfs, 1e-9 * fmax(1.0, at->flow_cfs));
            assert_true(at->low_ft <= at->pool_ft && at->pool_ft <= at->high_ft);
            for (int i = 0; i < count; i++) {
                const double level = cw_water_sill_ft(&barrels[i]) + at->heads[i].headwater_ft;
                if (at->barrel_cfs[i] > 0.0)
                    near("one pool", level, at->pool_ft, 1e-5);
            }
            if (k > 0)
                assert_true(at->pool_ft >= points[k - 1].pool_ft - 1e-5);
            /* Without the point before it the answer is the same. */
            near("from scratch", cw_water_pool(&site, at->flow_cfs).pool_ft, at->pool_ft, 1e-5);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(road_as_a_weir),
        cmocka_unit_test(sloped_crest_is_the_sum_of_its_slices),
        cmocka_unit_test(submergence_takes_off),
        cmocka_unit_test(two_barrels_and_a_road),
        cmocka_unit_test(what_cannot_be_says_so),
        cmocka_unit_test(headwater_never_falls_and_never_steps),
        cmocka_unit_test(energy_balances_and_momenta_meet),
        cmocka_unit_test(flows_add_up_under_one_pool),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
