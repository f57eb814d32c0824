/* Quantities.  Sources: "hand" is arithmetic written out beside the value; "exhaustive" compares
 * with all ways to divide a list into blocks. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#include "cw/takeoff.h"
#include "cw/text.h"
#include "cw/units.h"

#define COUNT_OF(array) (sizeof(array) / sizeof(array)[0])

static void near(const char *what, double got, double want, double tolerance)
{
    if (!(fabs(got - want) <= tolerance))
        fail_msg("%s: got %.8g, want %.8g within %.2g", what, got, want, tolerance);
}

/* ---- rounding and counts ---- */

static void orders_round_up(void **state)
{
    (void)state;
    // hand: the least multiple of the step that is not under the need.
    static const struct {
        double exact, step, up;
    } rows[] = {{0.0, 1.0, 0.0},      {12.0, 1.0, 12.0},       {12.001, 1.0, 13.0},
                {15.7519, 0.5, 16.0}, {15.5, 0.5, 15.5},       {15.51, 0.5, 16.0},
                {0.1, 14.5, 14.5},    {1051.02, 14.5, 1058.5}, {14.5 * 7, 14.5, 101.5}};
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        const cw_order order = cw_takeoff_order(rows[i].exact, rows[i].step);
        near("up", order.up, rows[i].up, 1e-9);
        assert_true(order.exact >= rows[i].exact && order.exact <= rows[i].exact);
    }
    // The last bits of a sum must not buy one more: ten tenths are one.
    double tenths = 0.0;
    for (int i = 0; i < 10; i++)
        tenths += 1.1;
    near("ten times 1.1", cw_takeoff_order(tenths, 11.0).up, 11.0, 1e-9);
}

static void concrete_by_mark_by_hand(void **state)
{
    (void)state;
    // hand: 18 x 111 + 18 x 75.1667 + 1 x 102 = 3453 ft3 = 127.889 yd3;
    // 18 x 16,650 + 18 x 11,275 + 15,300 = 517,950 lb.
    static const cw_takeoff_mark marks[] = {
        {"L6", 18, 75.0 + 1.0 / 6.0, 11275.0},
        {"B6", 18, 111.0, 16650.0},
        {"B6-A", 1, 102.0, 15300.0},
        {"B8", 0, 148.0, 22200.0},
    };
    const cw_takeoff_concrete got = cw_takeoff_concrete_of(marks, COUNT_OF(marks));
    assert_int_equal(got.pieces, 37);
    near("volume yd3", got.volume_cy, 127.889, 0.001);
    near("weight lb", got.weight_lb, 517950.0, 0.01);
    near("heaviest lb", got.heaviest_lb, 16650.0, 0.0);
    assert_string_equal(got.heaviest, "B6");
    const cw_takeoff_concrete none = cw_takeoff_concrete_of(NULL, 0);
    assert_int_equal(none.pieces, 0);
    assert_null(none.heaviest);
}

static void joints_by_hand(void **state)
{
    (void)state;
    static const int rows[] = {20, 21, 0, 1};
    assert_int_equal(cw_takeoff_joints(rows, 4), 19 + 20);
    assert_int_equal(cw_takeoff_joints(NULL, 0), 0);
}

/* ---- sealant ---- */

static cw_sealant_input example_sealant(void)
{
    return (cw_sealant_input){.form = CW_TAKEOFF_LID,
                              .span_in = 144.0,
                              .wall_in = 10.0,
                              .floor_in = 10.0,
                              .top_in = 10.0,
                              .leg_in = 72.0,
                              .base_joints = 19,
                              .top_joints = 19,
                              .seat_ft = 20 * (6.0 + 0.5 / 12.0),
                              .rows = 1,
                              .seat_rows = 1,
                              .roll_ft = 14.5,
                              .waste_percent = 8.0};
}

static void sealant_by_hand(void **state)
{
    (void)state;
    // hand: L_b = 12.8333 + 2 (6 + 0.41667) = 25.6667; L_l = 12.8333; seats 2 x 20 x 6.041667 =
    // 241.667; 19 x 25.6667 + 19 x 12.8333 + 241.667 = 973.167; x 1.08 = 1051.02; / 14.5 = 72.48
    // -> 73.
    cw_sealant_input in = example_sealant();
    const cw_sealant got = cw_takeoff_sealant(&in, NULL);
    near("base joint ft", got.base_joint_ft, 25.667, 0.0005);
    near("lid joint ft", got.top_joint_ft, 12.833, 0.0005);
    near("seats ft", got.seat_ft, 241.67, 0.005);
    near("net ft", got.net_ft, 973.17, 0.005);
    near("order ft", got.length.exact, 1051.0, 0.05);
    assert_int_equal(got.rolls, 73);
    near("bought ft", got.bought_ft, 1058.5, 1e-9);
    // hand: 973.167/14.5 = 67.1 -> 68 rolls laid, 67 butts; 67 x 3 in = 16.75 ft; (973.167
    // + 16.75) 1.08.
    in.splice_in = 3.0;
    const cw_sealant spliced = cw_takeoff_sealant(&in, NULL);
    assert_int_equal(spliced.splices, 67);
    near("spliced order ft", spliced.length.exact, 1069.11, 0.005);
    assert_int_equal(spliced.rolls, 74);
}

static void sealant_of_other_forms_by_hand(void **state)
{
    (void)state;
    // hand: hood with 2 ft legs: 12.8333 + 2 (2 + 0.41667) = 17.6667; two rows everywhere double
    // the joints.
    cw_sealant_input in = example_sealant();
    in.form = CW_TAKEOFF_DOUBLE_U;
    in.top_leg_in = 24.0;
    in.rows = 2;
    const cw_sealant hood = cw_takeoff_sealant(&in, NULL);
    near("hood joint ft", hood.top_joint_ft, 17.6667, 0.0005);
    near("base, two rows ft", hood.base_ft, 2 * 19 * 25.6667, 0.01);
    near("hood, two rows ft", hood.top_ft, 2 * 19 * 17.6667, 0.01);
    near("seats, one row ft", hood.seat_ft, 241.667, 0.005);
    // hand: ring loop 2 (12.8333 + 6 + 0.83333) = 39.3333 ft; no seats.
    in.form = CW_TAKEOFF_RING;
    in.rows = 1;
    const cw_sealant ring = cw_takeoff_sealant(&in, NULL);
    near("ring joint ft", ring.base_joint_ft, 39.3333, 0.0005);
    near("ring net ft", ring.net_ft, 19 * 39.3333, 0.01);
    // A base and hood that meet at the seat have the same loop as the ring.
    in.form = CW_TAKEOFF_DOUBLE_U;
    in.leg_in = 48.0;
    const cw_sealant two = cw_takeoff_sealant(&in, NULL);
    near("loop ft", two.base_joint_ft + two.top_joint_ft, ring.base_joint_ft, 1e-9);
    // hand: one roll is enough and needs no butt; nothing at all needs no roll.
    in.base_joints = 1;
    in.top_joints = 0;
    in.seat_ft = 0.0;
    in.roll_ft = 50.0;
    assert_int_equal(cw_takeoff_sealant(&in, NULL).splices, 0);
    assert_int_equal(cw_takeoff_sealant(&in, NULL).rolls, 1);
    in.base_joints = 0;
    assert_int_equal(cw_takeoff_sealant(&in, NULL).rolls, 0);
}

/* ---- wrap ---- */

static void wrap_by_hand(void **state)
{
    (void)state;
    // hand: one barrel 13.6667 + 2 x 9.6667 = 33 ft; two: (13.6667 + 9.6667) x 2 = 46.6667;
    // three: 46.6667 + 13.6667 = 60.3333 (the inner one shows its top only).
    static const double round_ft[] = {33.0, 46.6667, 60.3333};
    cw_wrap_input in = {.width_in = 164.0,
                        .height_in = 116.0,
                        .joints = 19,
                        .strip_in = 9.0,
                        .lap_in = 6.0,
                        .waste_percent = 10.0};
    for (int n = 1; n <= 3; n++) {
        in.barrels = n;
        const cw_wrap got = cw_takeoff_wrap(&in, NULL);
        near("round ft", got.round_ft, round_ft[n - 1], 0.0005);
        near("joints ft", got.joints_ft, 19 * (round_ft[n - 1] + n), 0.01);
        near("no seats ft", got.seats_ft, 0.0, 0.0);
    }
    // hand, two barrels with seats of 120 ft: 19 x 48.6667 + 2 x 121 = 1166.667; x 1.1 = 1283.333
    // ft -> 1284; x 0.75 ft = 962.5 ft2 -> 963.
    in.barrels = 2;
    in.wrap_seats = true;
    in.seat_ft = 120.0;
    const cw_wrap got = cw_takeoff_wrap(&in, NULL);
    near("net ft", got.net_ft, 1166.667, 0.001);
    near("order ft", got.length.exact, 1283.333, 0.001);
    near("order up ft", got.length.up, 1284.0, 1e-9);
    near("area ft2", got.area.exact, 962.5, 0.001);
    near("area up ft2", got.area.up, 963.0, 1e-9);
}

/* ---- bedding ---- */

static void bedding_by_hand(void **state)
{
    (void)state;
    // hand: (13.6667 + 2) x 0.5 x 120/27 = 34.81 yd3; leveling a third of it, 11.60.
    // 34.8148 x 27 x 135/2000 x 1.1 = 69.795 tons -> 70.
    cw_bedding_input in = {.width_in = 164.0,
                           .barrels = 1,
                           .clear_gap_in = 4.0,
                           .extra_ft = 1.0,
                           .thickness_in = 6.0,
                           .leveling_in = 2.0,
                           .length_ft = 120.0,
                           .unit_pcf = 135.0,
                           .waste_percent = 10.0};
    const cw_bedding one = cw_takeoff_bedding(&in, NULL);
    near("bed ft", one.bed_ft, 15.6667, 0.0005);
    near("bedding yd3", one.bedding_cy, 34.81, 0.005);
    near("leveling yd3", one.leveling_cy, 11.605, 0.001);
    near("bedding tons", one.bedding_tons.exact, 69.795, 0.001);
    near("bedding tons up", one.bedding_tons.up, 70.0, 1e-9);
    near("leveling tons", one.leveling_tons.exact, 23.265, 0.001);
    // hand, two barrels 4 in apart: 27.3333 + 0.3333 + 2 = 29.6667 ft.
    in.barrels = 2;
    near("bed of two ft", cw_takeoff_bedding(&in, NULL).bed_ft, 29.6667, 0.0005);
}

/* ---- fill between barrels ---- */

static void barrel_fill_by_hand(void **state)
{
    (void)state;
    // hand: 0.33333 x 9.667 x 120/27 = 14.32 yd3; x 1.1 = 15.75; 27 x 20/(0.33333 x 120) = 13.5
    // ft/h; 9.667/13.5 = 0.716 h.
    cw_barrel_fill_input in = {.gap_in = 4.0,
                               .height_ft = 9.667,
                               .length_ft = 120.0,
                               .barrels = 2,
                               .loss_percent = 10.0,
                               .rate_cy_per_h = 20.0};
    const cw_barrel_fill two = cw_takeoff_barrel_fill(&in, NULL);
    near("net yd3", two.net_cy, 14.32, 0.005);
    near("order yd3", two.volume.exact, 15.75, 0.005);
    near("order up yd3", two.volume.up, 16.0, 1e-9);
    near("rise ft/h", two.rise_ft_per_h, 13.5, 0.0001);
    near("time h", two.hours, 0.716, 0.0005);
    in.barrels = 4;
    const cw_barrel_fill four = cw_takeoff_barrel_fill(&in, NULL);
    near("three gaps yd3", four.net_cy, 3 * two.net_cy, 1e-9);
    near("rise in one gap ft/h", four.rise_ft_per_h, 13.5, 0.0001);
}

/* ---- trucks ---- */

static const double base_lb = 16650.0, lid_lb = 11275.0, payload_lb = 47000.0;

static int loads_of_word(const char *word, int *load_of, cw_truck_loads *out)
{
    double weights[64];
    int count = 0;
    for (; word[count] != '\0'; count++)
        weights[count] = word[count] == 'B' ? base_lb : lid_lb;
    *out = cw_takeoff_trucks(weights, count, payload_lb, 3, load_of);
    return out->loads;
}

static void truck_loads_by_hand(void **state)
{
    (void)state;
    // hand: BBL 44,575 + BLL 39,200 = 2 loads; BB 33,300 (BBB would be 49,950) + BLL + L = 3 loads.
    int load_of[6];
    cw_truck_loads out;
    assert_int_equal(loads_of_word("BBLBLL", load_of, &out), 2);
    static const int blocks[] = {0, 0, 0, 1, 1, 1};
    assert_memory_equal(load_of, blocks, sizeof blocks);
    assert_int_equal(out.lower_bound, 2);
    near("heaviest load lb", out.heaviest_load_lb, 44575.0, 1e-6);
    near("total lb", out.total_lb, 83775.0, 1e-6);
    assert_int_equal(loads_of_word("BBBLLL", load_of, &out), 3);
    static const int others[] = {0, 0, 1, 1, 1, 2};
    assert_memory_equal(load_of, others, sizeof others);
    assert_int_equal(out.lower_bound, 2);
    assert_int_equal(out.overweight, 0);
    // hand: 50,000 alone is over; 47,000 just fills a truck; three of 1 lb fill the slots.
    static const double weights[] = {50000.0, 47000.0, 1.0, 1.0, 1.0, 1.0};
    const cw_truck_loads mixed = cw_takeoff_trucks(weights, 6, payload_lb, 3, NULL);
    assert_int_equal(mixed.loads, 4);
    assert_int_equal(mixed.overweight, 1);
    assert_int_equal(cw_takeoff_trucks(weights, 0, payload_lb, 3, NULL).loads, 0);
}

/* Every way to interleave n bases and n lids in which a lid never comes before its base. */
static void loads_over_legal_orders(int n, int tally[8], int *orders)
{
    for (int bits = 0; bits < 1 << (2 * n); bits++) {
        char word[16] = "";
        int bases = 0, lids = 0;
        bool legal = true;
        for (int i = 0; i < 2 * n && legal; i++) {
            const bool base = (bits >> i & 1) != 0;
            word[i] = base ? 'B' : 'L';
            bases += base;
            lids += !base;
            // An aligned lid needs its own base and, unless it is the last, the next one too.
            legal = bases <= n && lids <= bases - (bases < n ? 1 : 0);
        }
        word[2 * n] = '\0';
        if (!legal || bases != n || lids != n)
            continue;
        cw_truck_loads out;
        tally[loads_of_word(word, NULL, &out)]++;
        ++*orders;
    }
}

static void next_fit_over_all_setting_orders(void **state)
{
    (void)state;
    // exhaustive: 6 bases and 6 lids, each lid after its base and the base beyond it: 42 orders
    // (Catalan number C5), of which 10 ride on 4 trucks and the rest on 5.  With 3 of each only
    // BBLBLL rides on 2; with 4 of each every order takes 3.
    int tally[8] = {0}, orders = 0;
    loads_over_legal_orders(6, tally, &orders);
    assert_int_equal(orders, 42);
    assert_int_equal(tally[4], 10);
    assert_int_equal(tally[5], 32);
    int small[8] = {0}, few = 0;
    loads_over_legal_orders(3, small, &few);
    assert_int_equal(few, 2);
    assert_int_equal(small[2], 1);
    int middle[8] = {0}, some = 0;
    loads_over_legal_orders(4, middle, &some);
    assert_int_equal(middle[3], some);
}

/* Fewest blocks over all 2^(n-1) ways to cut the list. */
static int fewest_blocks(const double *weights, int count, int slots)
{
    int best = count;
    for (int cuts = 0; cuts < 1 << (count - 1); cuts++) {
        int blocks = 1, held = 0;
        double load = 0.0;
        bool good = true;
        for (int i = 0; i < count && good; i++) {
            if (i > 0 && (cuts >> (i - 1) & 1)) {
                blocks++;
                held = 0;
                load = 0.0;
            }
            load += weights[i];
            good = ++held <= slots && (load <= payload_lb || held == 1);
        }
        if (good && blocks < best)
            best = blocks;
    }
    return best;
}

static void next_fit_is_fewest(void **state)
{
    (void)state;
    uint32_t seed = 12345;
    for (int i = 0; i < 400; i++) {
        double weights[10];
        for (int k = 0; k < 10; k++) {
            seed = seed * 1664525u + 1013904223u;
            weights[k] = 4000.0 + (double)(seed >> 8) / 16777216.0 * 45000.0;
        }
        const int slots = 1 + i % 5;
        const cw_truck_loads got = cw_takeoff_trucks(weights, 10, payload_lb, slots, NULL);
        assert_int_equal(got.loads, fewest_blocks(weights, 10, slots));
        assert_true(got.lower_bound <= got.loads);
    }
}

/* ---- calculators ---- */

enum { BYTES_MAX = 4096, WORDS_MAX = 40 };

/* Fills @p input from "key=value ..." and says whether the calculator may run. */
static bool fill(const cw_calc *calc, const char *text, void *input, cw_arena *arena,
                 cw_diags *diags)
{
    static const cw_rows no_rows = {NULL, 0};
    cw_calc_value values[WORDS_MAX];
    int count = 0;
    char *copy = cw_arena_copy(arena, text, strlen(text));
    for (char *word = strtok(copy, " "); word && count < WORDS_MAX; word = strtok(NULL, " ")) {
        char *equals = strchr(word, '=');
        assert_non_null(equals);
        *equals = '\0';
        values[count++] = (cw_calc_value){.key = word, .text = equals + 1};
    }
    return cw_calc_fill(calc, values, count, &no_rows, input, NULL, arena, diags);
}

static void run_example(const cw_calc *calc, void *output, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    void *input = cw_arena_take(arena, 1, calc->input_size);
    if (!fill(calc, calc->example, input, arena, &diags))
        fail_msg("example of %s: %s", calc->name, diags.count ? diags.items[0].message : "refused");
    cw_working working = cw_working_on(arena, calc->title);
    calc->run(input, output, &working);
    assert_true(working.count > 0);
    for (int i = 0; i < working.count; i++)
        assert_non_null(working.steps[i].source);
}

static void examples_give_the_hand_values(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_sealant sealant;
    run_example(&cw_calc_sealant_length, &sealant, &arena);
    assert_int_equal(sealant.rolls, 73);
    near("net ft", sealant.net_ft, 973.17, 0.005);
    cw_wrap wrap;
    run_example(&cw_calc_wrap_length, &wrap, &arena);
    near("wrap ft", wrap.net_ft, 1166.667, 0.001);
    cw_bedding bedding;
    run_example(&cw_calc_bedding, &bedding, &arena);
    near("bedding yd3", bedding.bedding_cy, 34.81, 0.005);
    cw_barrel_fill grout;
    run_example(&cw_calc_barrel_fill, &grout, &arena);
    near("fill yd3", grout.net_cy, 14.32, 0.005);
    near("rise ft/h", grout.rise_ft_per_h, 13.5, 0.0001);
    cw_truck_loads_output trucks;
    run_example(&cw_calc_truck_loads, &trucks, &arena);
    assert_int_equal(trucks.loads, 2);
    assert_int_equal(trucks.load_of.count, 6);
    near("load of piece 4", trucks.load_of.items[3], 2.0, 0.0);
    cw_arena_release(&arena);
}

static void bad_input_is_refused(void **state)
{
    (void)state;
    static const struct {
        const cw_calc *calc;
        const char *change; /* takes the place of the example's entry of the same key */
        cw_code code;
    } rows[] = {
        {&cw_calc_sealant_length, "form=arch", CW_E_CHOICE},
        {&cw_calc_sealant_length, "form=double-u", CW_E_GEOMETRY},
        {&cw_calc_sealant_length, "span=2in", CW_E_RANGE},
        {&cw_calc_sealant_length, "roll=0ft", CW_E_RANGE},
        {&cw_calc_sealant_length, "base_joints=-1", CW_E_RANGE},
        {&cw_calc_wrap_length, "barrels=0", CW_E_RANGE},
        {&cw_calc_wrap_length, "lap=4ft", CW_E_RANGE},
        {&cw_calc_bedding, "length=0ft", CW_E_RANGE},
        {&cw_calc_bedding, "barrels=9", CW_E_RANGE},
        {&cw_calc_barrel_fill, "barrels=1", CW_E_RANGE},
        {&cw_calc_barrel_fill, "gap=0in", CW_E_RANGE},
        {&cw_calc_truck_loads, "payload=0lb", CW_E_RANGE},
        {&cw_calc_truck_loads, "slots=0", CW_E_RANGE},
        {&cw_calc_truck_loads, "weights=0.5lb", CW_E_RANGE},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        const size_t key = (size_t)(strchr(rows[i].change, '=') - rows[i].change) + 1;
        cw_text text = cw_text_on(&arena);
        char *copy = cw_arena_copy(&arena, rows[i].calc->example, strlen(rows[i].calc->example));
        for (char *word = strtok(copy, " "); word; word = strtok(NULL, " "))
            cw_text_print(&text, "%s ",
                          strncmp(word, rows[i].change, key) == 0 ? rows[i].change : word);
        assert_non_null(strstr(cw_text_string(&text), rows[i].change));
        void *input = cw_arena_take(&arena, 1, BYTES_MAX);
        if (fill(rows[i].calc, cw_text_string(&text), input, &arena, &diags) || diags.count == 0)
            fail_msg("%s %s is not refused", rows[i].calc->name, rows[i].change);
        if (diags.items[0].code != rows[i].code)
            fail_msg("%s: error %d: %s", rows[i].change, (int)diags.items[0].code,
                     diags.items[0].message);
        cw_arena_release(&arena);
    }
}

/* Callers that fill the structs themselves meet the same limits, and NaN. */
static void bad_structs_are_refused(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_pos nowhere = {0};
    cw_sealant_input sealant = example_sealant();
    assert_true(cw_sealant_input_valid(&sealant, nowhere, &diags));
    sealant.form = 3;
    assert_false(cw_sealant_input_valid(&sealant, nowhere, &diags));
    assert_int_equal(diags.items[0].code, CW_E_CHOICE);
    sealant = example_sealant();
    sealant.waste_percent = (double)NAN;
    assert_false(cw_sealant_input_valid(&sealant, nowhere, &diags));
    const cw_wrap_input wrap = {.width_in = 164.0, .height_in = 116.0};
    assert_false(cw_wrap_input_valid(&wrap, nowhere, &diags));
    const cw_bedding_input bedding = {.width_in = 164.0, .barrels = 1};
    assert_false(cw_bedding_input_valid(&bedding, nowhere, &diags));
    const cw_barrel_fill_input grout = {.gap_in = 4.0, .barrels = 2};
    assert_false(cw_barrel_fill_input_valid(&grout, nowhere, &diags));
    const cw_truck_loads_input trucks = {.payload_lb = payload_lb, .slots = 3};
    assert_false(cw_calc_truck_loads.valid(&trucks, nowhere, &diags));
    assert_int_equal(diags.items[diags.count - 1].code, CW_E_TOO_MANY);
    const cw_truck_loads_input light = {
        .weights_lb = {1, {0.0}}, .payload_lb = payload_lb, .slots = 3};
    assert_false(cw_calc_truck_loads.valid(&light, nowhere, &diags));
    assert_int_equal(diags.items[diags.count - 1].code, CW_E_RANGE);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(orders_round_up),
        cmocka_unit_test(concrete_by_mark_by_hand),
        cmocka_unit_test(joints_by_hand),
        cmocka_unit_test(sealant_by_hand),
        cmocka_unit_test(sealant_of_other_forms_by_hand),
        cmocka_unit_test(wrap_by_hand),
        cmocka_unit_test(bedding_by_hand),
        cmocka_unit_test(barrel_fill_by_hand),
        cmocka_unit_test(truck_loads_by_hand),
        cmocka_unit_test(next_fit_over_all_setting_orders),
        cmocka_unit_test(next_fit_is_fewest),
        cmocka_unit_test(examples_give_the_hand_values),
        cmocka_unit_test(bad_input_is_refused),
        cmocka_unit_test(bad_structs_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
