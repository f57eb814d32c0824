/* Costs against hand sums, published rates and worked examples; the reader of price files. */
#include "../base/calc_test_help.h"

#include "cw/cost.h"

/* Two barrels of 96 ft, 16 ft pieces: 24 picks; a rate factor of 0.85 (one of the factors of the
 * table).  Prices are the round numbers of data/cost.csv, which are invented. */
#define JOB "length=192ft section_area=44ft2 picks=24 rate_factor=0.85 lead=49 "
#define ROUND "length=192ft section_area=44ft2 picks=24 rate_factor=1 "
#define DETOUR                                                                                     \
    "vehicles=4000 trucks=8% detour_miles=6.5 detour_speed=35 direct_miles=0.5 direct_speed=45"
#define HOURS "demand=600,900,1200,1100,700,400,300 capacity=800 "
#define BIDS "price_a=$520000 days_a=38 price_b=$610000 days_b=14 day=$9000"

/* Sums by hand, in the order of the build-up: 192 x 1050 + 2.4286 x 8820 + 12,000 + 8000 and so on.
 */
static const char hand[] = "hand";

static const expected values[] = {
    {&cw_calc_method_cost, JOB, "gravity_days", 2.4286, 5e-5, NULL, "hand: 1 + 24 x 25/420"},
    {&cw_calc_method_cost, JOB, "pulled_days", 11.294, 5e-4, NULL,
     "Virginia DOT table: 20 ft a day; 192/17"},
    {&cw_calc_method_cost, JOB, "cast_days", 45.176, 5e-4, NULL,
     "Virginia DOT table: 5 ft a day; 192/4.25"},
    {&cw_calc_method_cost, ROUND, "pulled_days", 9.6, 1e-9, NULL,
     "Virginia DOT table, factors of 1"},
    {&cw_calc_method_cost, ROUND, "cast_days", 38.4, 1e-9, NULL,
     "Virginia DOT table, factors of 1"},
    {&cw_calc_method_cost, "length=120ft section_area=44ft2 picks=16 rate_factor=0.7225",
     "pulled_days", 8.3045, 5e-4, NULL,
     "Virginia DOT table: small city and fair soil, 0.85 x 0.85"},
    {&cw_calc_method_cost, "length=120ft section_area=44ft2 picks=16 rate_factor=0.7225",
     "cast_days", 33.218, 5e-4, NULL, "Virginia DOT table: small city and fair soil, 0.85 x 0.85"},
    // Rules of thumb of the trade: two-piece 2 to 3 days, pulled about two weeks more, cast in
    // place 60 to 70 days.
    {&cw_calc_method_cost, JOB, "gravity_closure", 3.4, 5e-4, NULL, "hand: 2.4286 x 7/5"},
    {&cw_calc_method_cost, JOB, "pulled_closure", 15.81, 5e-3, NULL, "hand: 11.294 x 7/5"},
    {&cw_calc_method_cost, JOB, "cast_closure", 63.25, 5e-3, NULL, "hand: 45.176 x 7/5"},
    {&cw_calc_method_cost, JOB, "gravity_direct", 24302000, 100, NULL, hand},
    {&cw_calc_method_cost, JOB, "gravity_contractor", 25152000, 100, NULL, hand},
    {&cw_calc_method_cost, JOB, "pulled_direct", 31468000, 100, NULL, hand},
    {&cw_calc_method_cost, JOB, "pulled_contractor", 35420900, 100, NULL, hand},
    {&cw_calc_method_cost, JOB, "cast_direct", 49426200, 100, NULL, hand},
    {&cw_calc_method_cost, JOB, "cast_contractor", 65237900, 100, NULL, hand},
    {&cw_calc_method_cost, JOB, "gravity_over_pulled", 0.710, 5e-4, NULL, "hand: 251,520/354,209"},
    {&cw_calc_method_cost, JOB, "gravity_over_cast", 0.3855, 5e-5, NULL, "hand: 251,520/652,379"},
    {&cw_calc_method_cost, JOB, "direct_over_cast", 0.4917, 5e-5, NULL, "hand: 243,020/494,262"},
    {&cw_calc_method_cost, JOB, "indirect_needed", 619700, 100, NULL,
     "hand: (3 x 243,020 - 494,262)/(45.176 - 7.286)"},
    {&cw_calc_method_cost, JOB, "road_users_needed", 192600, 100, NULL,
     "hand: (3 x 251,520 - 652,379)/(63.25 - 10.2)"},
    {&cw_calc_method_cost, JOB, "piece_price_cast", 313785, 20, NULL,
     "hand: 1050 + (652,379 - 251,520)/192"},
    {&cw_calc_method_cost, JOB, "piece_price_pulled", 158484, 20, NULL,
     "hand: 1050 + (354,209 - 251,520)/192"},
    {&cw_calc_method_cost, JOB, "pick_time_pulled", 170.87, 0.05, NULL,
     "hand: 25 + 102,689/(24 x 12,320/420)"},
    {&cw_calc_method_cost, JOB, "lead_even", 59.85, 5e-3, NULL, "hand: 63.25 - 3.4"},
    {&cw_calc_method_cost, JOB, "gravity_whole", 52.4, 5e-4, NULL, "hand: 49 + 3.4"},
    {&cw_calc_method_cost, JOB, "cast_whole", 63.25, 5e-3, NULL, "casting starts at once"},
    // What is alike: 2.8 + 6.4 working days and money on both sides.
    {&cw_calc_method_cost, JOB "same_days=9.2 same_cost=$50000", "gravity_closure", 16.28, 5e-4,
     NULL, "hand: 11.6286 x 7/5"},
    {&cw_calc_method_cost, JOB "same_days=9.2 same_cost=$50000", "cast_closure", 76.13, 5e-3, NULL,
     "hand: 54.376 x 7/5"},
    {&cw_calc_method_cost, JOB "same_days=9.2 same_cost=$50000", "gravity_direct", 29302000, 100,
     NULL, hand},
    {&cw_calc_method_cost, JOB "traffic=$1000 road_users=$2000", "gravity_owner", 26172000, 100,
     NULL, "hand: 251,520 + 3.4 x 3000"},
    {&cw_calc_method_cost, JOB "loads=9 ring_loads=12 load_price=$500", "gravity_direct", 24752000,
     100, NULL, "hand: 243,020 + 4500"},
    {&cw_calc_method_cost, JOB "loads=9 ring_loads=12 load_price=$500", "pulled_direct", 32068000,
     100, NULL, "hand: 314,680 + 6000"},
    // One input at a time, by hand in a table of an independent program.
    {&cw_calc_method_cost, JOB "piece_price=$840", "gravity_over_cast", 0.3237, 5e-5, NULL,
     "independent program"},
    {&cw_calc_method_cost, JOB "piece_price=$1260", "gravity_over_cast", 0.4473, 5e-5, NULL,
     "independent program"},
    {&cw_calc_method_cost, "length=192ft section_area=44ft2 picks=24 rate_factor=0.68",
     "gravity_over_cast", 0.3200, 5e-5, NULL, "independent program"},
    {&cw_calc_method_cost, ROUND, "gravity_over_cast", 0.4396, 5e-5, NULL, "independent program"},
    {&cw_calc_method_cost, JOB "cast_day=$6672", "gravity_over_cast", 0.4359, 5e-5, NULL,
     "independent program"},
    {&cw_calc_method_cost, JOB "indirect=$2800", "gravity_over_cast", 0.4024, 5e-5, NULL,
     "independent program"},
    {&cw_calc_method_cost, JOB "concrete_price=$228", "gravity_over_cast", 0.3783, 5e-5, NULL,
     "independent program"},
    {&cw_calc_method_cost, JOB "pick_time=30min", "gravity_over_cast", 0.3909, 5e-5, NULL,
     "independent program"},
    // Road users.
    {&cw_calc_detour_cost, DETOUR, "minutes", 10.47619, 5e-5, NULL, "hand: 0.174603 h"},
    {&cw_calc_detour_cost, DETOUR, "car", 827.44, 5e-3, NULL, "hand: 27.39 x 0.174603 + 0.582 x 6"},
    {&cw_calc_detour_cost, DETOUR, "truck", 1147.56, 5e-3, NULL, "hand: 31.36 x 0.174603 + 6"},
    {&cw_calc_detour_cost, DETOUR, "day", 3412200, 100, NULL,
     "hand: 4000 (0.92 x 8.2744 + 0.08 x 11.4756)"},
    {&cw_calc_queue_delay, HOURS, "delay", 2340, 1e-9, NULL,
     "hand: 0 + 50 + 300 + 650 + 750 + 500 + 90"},
    {&cw_calc_queue_delay, HOURS, "longest", 800, 1e-9, NULL,
     "hand: 0, 100, 500, 800, 700, 300, 0"},
    {&cw_calc_queue_delay, HOURS, "cost", 6713460, 1, NULL, "hand: 2340 x 28.69"},
    {&cw_calc_queue_delay, "demand=900,900 capacity=800", "left", 200, 1e-9, NULL, hand},
    {&cw_calc_bid_days, BIDS, "total_a", 86200000, 1e-3, NULL, "hand: 520,000 + 342,000"},
    {&cw_calc_bid_days, BIDS, "total_b", 73600000, 1e-3, NULL, "hand: 610,000 + 126,000"},
    {&cw_calc_bid_days, BIDS, "day_even", 375000, 1e-3, NULL, "hand: 90,000/24"},
};

static void values_come_out(void **state)
{
    (void)state;
    for (size_t i = 0; i < COUNT_OF(values); i++)
        must_give(&values[i]);
}

static void bad_inputs_are_refused(void **state)
{
    (void)state;
    refuse(
        &cw_calc_detour_cost,
        "vehicles=4000 trucks=8% detour_miles=0.5 detour_speed=35 direct_miles=6.5 direct_speed=45",
        CW_E_CONFLICT, "shorter");
    refuse(&cw_calc_queue_delay, "capacity=800", CW_E_MISSING, "demand");
    refuse(&cw_calc_method_cost, "length=192ft section_area=44ft2 picks=0", CW_E_RANGE, "picks");
    refuse(&cw_calc_bid_days, "price_a=520000 days_a=38 price_b=$610000 days_b=14 day=$9000",
           CW_E_UNIT, "price_a");
}

static cw_methods_input base_job(void)
{
    uint64_t room[ROOM / 8];
    take(&cw_calc_method_cost, JOB, room);
    cw_methods_input in;
    memcpy(&in, room, sizeof in);
    return in;
}

/* At the break-even the two costs are alike. */
static void break_evens_are_even(void **state)
{
    (void)state;
    const cw_methods_input in = base_job();
    const cw_methods base = cw_cost_methods(&in, NULL);
    cw_methods_input at = in;
    at.indirect_day_cents = base.indirect_day_cents.value;
    near("indirect", cw_cost_methods(&at, NULL).gravity_over_cast, in.share, 1e-9);
    at = in;
    at.user_day_cents = base.user_day_cents.value;
    near("road users", cw_cost_methods(&at, NULL).gravity_over_cast_owner, in.share, 1e-9);
    at = in;
    at.piece_ft_cents = base.piece_ft_cents_pulled;
    near("price, pulled", cw_cost_methods(&at, NULL).gravity_over_pulled, 1.0, 1e-9);
    at.piece_ft_cents = base.piece_ft_cents_cast;
    near("price, cast", cw_cost_methods(&at, NULL).gravity_over_cast, 1.0, 1e-9);
    at = in;
    at.pick_min = base.pick_min_pulled.value;
    near("pick time", cw_cost_methods(&at, NULL).gravity_over_pulled, 1.0, 1e-9);
    at = in;
    at.lead_days = base.lead_days;
    const cw_methods even = cw_cost_methods(&at, NULL);
    near("lead", even.of[CW_METHOD_GRAVITY].whole_days, even.of[CW_METHOD_CAST].whole_days, 1e-9);
    // Below 2.43/45.18 of the cost no price of a day helps: gravity has more of its days than that.
    at = in;
    at.share = 0.05;
    assert_false(cw_cost_methods(&at, NULL).indirect_day_cents.has);
}

/* Cost is straight in the days: what a simulation gives may be priced run by run, and the mean of
 * the costs is the cost of the mean. */
static void price_is_straight_in_days(void **state)
{
    (void)state;
    const cw_methods_input in = base_job();
    for (int m = 0; m < CW_METHODS; m++) {
        const cw_method_cost two = cw_cost_price(&in, (cw_method)m, 2.0),
                             six = cw_cost_price(&in, (cw_method)m, 6.0);
        const cw_method_cost four = cw_cost_price(&in, (cw_method)m, 4.0);
        near("contractor", four.contractor_cents,
             0.5 * (two.contractor_cents + six.contractor_cents), 1e-3);
        near("closure", four.closure_days, 0.5 * (two.closure_days + six.closure_days), 1e-9);
        const cw_methods whole = cw_cost_methods(&in, NULL);
        near("the same",
             cw_cost_price(&in, (cw_method)m, cw_cost_days(&in, (cw_method)m)).owner_cents,
             whole.of[m].owner_cents, 1e-6);
    }
}

/* Independent program, one input at a time a fifth down and up; elasticities of gravity by central
 * difference. */
static void swings_and_elasticities(void **state)
{
    (void)state;
    const cw_methods_input in = base_job();
    cw_cost_swing swings[CW_COST_SWINGS];
    cw_cost_swings(&in, swings);
    assert_string_equal(swings[0].key, "rate_factor"); // 0.68 to 1.02
    assert_string_equal(swings[1].key, "piece_price");
    near("low", swings[1].low_ratio, 0.3237, 5e-5);
    near("high", swings[1].high_ratio, 0.4473, 5e-5);
    assert_string_equal(swings[2].key, "cast_day");
    near("low", swings[2].low_ratio, 0.4359, 5e-5);
    near("high", swings[2].high_ratio, 0.3456, 5e-5);
    for (int i = 1; i < CW_COST_SWINGS; i++)
        assert_true(fabs(swings[i - 1].high_ratio - swings[i - 1].low_ratio) >=
                    fabs(swings[i].high_ratio - swings[i].low_ratio));
    near("piece price", cw_cost_elasticity(&in, "piece_price"), 0.8015, 5e-5);
    near("setting time", cw_cost_elasticity(&in, "pick_time"), 0.0700, 5e-5);
    near("indirect", cw_cost_elasticity(&in, "indirect"), 0.0338, 5e-5);
    near("no such key", cw_cost_elasticity(&in, "weather"), 0.0, 0.0);
}

/* ---- price files ---- */

static void prices_replace_rows(void **state)
{
    (void)state;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_rows rows = cw_cost_prices_read("id,price,source\n"
                                             "# our estimate of May\r\n"
                                             "cost.piece_ft, \"$1,210.50\" ,quotation 17\r\n"
                                             "\n"
                                             "cost.shift,7 h\n"
                                             "cost.waste,6 percent,\"yard, last job\"",
                                             "prices.csv", &cw_data, &arena, &diags);
    assert_int_equal(diags.count, 0);
    assert_int_equal(rows.count, cw_data.count);
    const cw_row *piece = cw_rows_find(&rows, "cost.piece_ft");
    near("cents", piece->value, 121050.0, 1e-9);
    assert_string_equal(piece->source, "quotation 17");
    assert_int_equal(piece->status, CW_STATUS_CONTRACT);
    near("min", cw_rows_value(&rows, "cost.shift"), 420.0, 1e-9);
    assert_string_equal(cw_rows_find(&rows, "cost.shift")->source, "prices.csv");
    assert_string_equal(cw_rows_find(&rows, "cost.waste")->source, "yard, last job");
    near("others stay", cw_rows_value(&rows, "cost.crane_day"),
         cw_rows_value(&cw_data, "cost.crane_day"), 0.0);
    cw_arena_release(&arena);
}

static void bad_prices_are_said(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        int code, line;
        const char *said;
    } rows[] = {
        {"cost.piece_ft,$1000\n", CW_E_SYNTAX, 1, "heading"},
        {"id,price\ncost.piece_fp,$1000\n", CW_E_UNKNOWN_KEY, 2, "cost.piece_ft"},
        {"id,price\nmaturity.datum,32 F\n", CW_E_UNKNOWN_KEY, 2, "no price"},
        {"id,price\ncost.piece_ft,1000\n", CW_E_VALUE, 2, "1000"},
        {"id,price\ncost.piece_ft,$1\n", CW_E_RANGE, 2, "$100"},
        {"id,price\n\ncost.piece_ft,$1000\ncost.piece_ft,$1100\n", CW_E_DUPLICATE, 4, "twice"},
        {"id,price\ncost.piece_ft,$1,050.00\ncost.shift\n", CW_E_SYNTAX, 3, "quote"},
        {"id,price\ncost.piece_ft,\"$1050\n", CW_E_SYNTAX, 2, "quote"},
        {"id,price\ncost.piece_ft,$1,a,b\n", CW_E_SYNTAX, 2, "quote"},
    };
    for (size_t i = 0; i < COUNT_OF(rows); i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        cw_cost_prices_read(rows[i].text, "prices.csv", &cw_data, &arena, &diags);
        bool found = false;
        for (int k = 0; k < diags.count; k++)
            found = found || ((int)diags.items[k].code == rows[i].code &&
                              diags.items[k].where.line == rows[i].line &&
                              strstr(diags.items[k].message, rows[i].said));
        if (!found)
            fail_msg("case %zu: %d findings, first: %s", i, diags.count,
                     diags.count ? diags.items[0].message : "none");
        cw_arena_release(&arena);
    }
}

/* Any bytes: findings or rows, no crash, and what is not named stays. */
static void any_bytes_are_read(void **state)
{
    (void)state;
    static const char alphabet[] = "id,price\n\"$1#cost.shift4 h\r\t,";
    uint64_t seed = 20260302u;
    for (int i = 0; i < 3000; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        char text[700] = "id,price\n";
        const int length = (int)between(&seed, 10.0, 690.0);
        for (int k = 9; k < length; k++)
            text[k] = alphabet[(int)between(&seed, 0.0, sizeof alphabet - 1.0)];
        const cw_rows rows = cw_cost_prices_read(text, "x", &cw_data, &arena, &diags);
        assert_int_equal(rows.count, cw_data.count);
        for (int k = 0; k < rows.count; k++)
            assert_true(rows.items[k].value >= rows.items[k].low &&
                        rows.items[k].value <= rows.items[k].high);
        cw_arena_release(&arena);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(values_come_out),         cmocka_unit_test(bad_inputs_are_refused),
        cmocka_unit_test(break_evens_are_even),    cmocka_unit_test(price_is_straight_in_days),
        cmocka_unit_test(swings_and_elasticities), cmocka_unit_test(prices_replace_rows),
        cmocka_unit_test(bad_prices_are_said),     cmocka_unit_test(any_bytes_are_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
