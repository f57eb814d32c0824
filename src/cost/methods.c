/* Gravity-set pieces, pulled rings and casting in place on the same site. */
#include "cost_internal.h"

#include <math.h>
#include <string.h>

const char *const cw_method_words[] = {"gravity", "pulled", "cast", NULL};

static const char build_up[] = "derived: quantities times prices";
#define TYPE cw_methods_input
#define DAYS_PER_WEEK_ALL 7.0

static double cast_cy(const cw_methods_input *in)
{
    return in->length_ft * in->section_sqft / CW_CUFT_PER_CY;
}

double cw_cost_days(const cw_methods_input *in, cw_method method)
{
    switch (method) {
    case CW_METHOD_PULLED:
        return in->length_ft / (in->pulled_ft_per_day * in->rate_factor);
    case CW_METHOD_CAST:
        return in->length_ft / (in->cast_ft_per_day * in->rate_factor);
    default:
        return in->prepare_days + in->picks * in->pick_min / in->shift_min;
    }
}

static double direct_cents(const cw_methods_input *in, cw_method method, double days)
{
    switch (method) {
    case CW_METHOD_PULLED:
        return in->length_ft * in->ring_ft_cents +
               days * (in->crane_day_cents + in->crew_pulled_day_cents + in->plant_day_cents) +
               in->mobilisation_cents + in->joints_pulled_cents + in->ring_loads * in->load_cents;
    case CW_METHOD_CAST:
        return cast_cy(in) * (in->concrete_cy_cents * (1.0 + in->waste_percent / CW_PERCENT) +
                              in->bar_lb_per_cy * in->bar_lb_cents) +
               days * in->cast_day_cents;
    default:
        return in->length_ft * in->piece_ft_cents +
               days * (in->crane_day_cents + in->crew_day_cents + in->plant_day_cents) +
               in->mobilisation_cents + in->joints_cents + in->loads * in->load_cents;
    }
}

cw_method_cost cw_cost_price(const cw_methods_input *in, cw_method method, double work_days)
{
    cw_method_cost out = {.work_days = work_days};
    const double days = work_days + in->same_days;
    out.closure_days = days * DAYS_PER_WEEK_ALL / in->days_per_week;
    out.whole_days = out.closure_days + (method == CW_METHOD_CAST ? 0.0 : in->lead_days);
    out.direct_cents = direct_cents(in, method, work_days) + in->same_cents;
    out.contractor_cents =
        out.direct_cents + days * in->indirect_day_cents + out.closure_days * in->traffic_day_cents;
    out.owner_cents = out.contractor_cents + out.closure_days * in->user_day_cents;
    return out;
}

static cw_method_cost cost_of(const cw_methods_input *in, cw_method method)
{
    return cw_cost_price(in, method, cw_cost_days(in, method));
}

/* The rate x from which a + x p <= share (b + x q), when dearer days help at all. */
static cw_break_even meet(double a, double p, double b, double q, double share)
{
    const double gain = share * q - p;
    if (!(gain > 0.0))
        return (cw_break_even){false, 0.0};
    return (cw_break_even){true, fmax(0.0, (a - share * b) / gain)};
}

static void find_break_evens(cw_methods *out, const cw_methods_input *in)
{
    const cw_method_cost *g = &out->of[CW_METHOD_GRAVITY], *k = &out->of[CW_METHOD_CAST];
    const double pulled = out->of[CW_METHOD_PULLED].contractor_cents;
    const double g_days = g->work_days + in->same_days, k_days = k->work_days + in->same_days;
    out->indirect_day_cents =
        meet(g->contractor_cents - g_days * in->indirect_day_cents, g_days,
             k->contractor_cents - k_days * in->indirect_day_cents, k_days, in->share);
    out->user_day_cents =
        meet(g->contractor_cents, g->closure_days, k->contractor_cents, k->closure_days, in->share);
    const double rest = g->contractor_cents - in->length_ft * in->piece_ft_cents;
    out->piece_ft_cents_pulled = fmax(0.0, (pulled - rest) / in->length_ft);
    out->piece_ft_cents_cast = fmax(0.0, (k->contractor_cents - rest) / in->length_ft);
    // A day of gravity setting costs this much, and a pick takes this part of one.
    const double day = in->crane_day_cents + in->crew_day_cents + in->plant_day_cents +
                       in->indirect_day_cents +
                       in->traffic_day_cents * DAYS_PER_WEEK_ALL / in->days_per_week;
    const double minutes = in->picks * day / in->shift_min;
    out->pick_min_pulled.has =
        minutes > 0.0 && g->contractor_cents - in->pick_min * minutes <= pulled;
    if (out->pick_min_pulled.has)
        out->pick_min_pulled.value = in->pick_min + (pulled - g->contractor_cents) / minutes;
    out->lead_days = fmax(0.0, k->closure_days - g->closure_days);
}

static double ratio(double a, double b)
{
    return b > 0.0 ? a / b : 0.0;
}

static void show(const cw_methods *out, const cw_methods_input *in, cw_working *w)
{
    static const char *const symbols[CW_METHODS][4] = {
        {"d_G", "D_G", "K_G", "O_G"}, {"d_P", "D_P", "K_P", "O_P"}, {"d_C", "D_C", "K_C", "O_C"}};
    static const char *const days[CW_METHODS] = {"preparation + picks x time/shift",
                                                 "L/(rate x factor)", "L/(rate x factor)"};
    static const char *const direct[CW_METHODS] = {
        "L x price + d (crane + crew + plant) + mobilisation + joints + loads + what is alike",
        "L x price + d (crane + crew + plant) + mobilisation + joints + loads + what is alike",
        "concrete + bar + d x crew, plant and forms + what is alike"};
    cw_step_add(w, "V", "L A", cast_cy(in), CW_DIM_CY, build_up);
    for (int m = 0; m < CW_METHODS; m++) {
        const cw_method_cost *c = &out->of[m];
        cw_step_add(w, symbols[m][0], days[m], c->work_days, CW_DIM_NONE, build_up);
        cw_step_add(w, symbols[m][1], direct[m], c->direct_cents, CW_DIM_MONEY, build_up);
        cw_step_add(w, symbols[m][2], "direct + indirect + traffic control", c->contractor_cents,
                    CW_DIM_MONEY, build_up);
        cw_step_add(w, symbols[m][3], "contractor + road users", c->owner_cents, CW_DIM_MONEY,
                    build_up);
    }
}

cw_methods cw_cost_methods(const cw_methods_input *in, cw_working *w)
{
    cw_methods out = {.of = {{0}}};
    for (int m = 0; m < CW_METHODS; m++)
        out.of[m] = cost_of(in, (cw_method)m);
    const cw_method_cost *g = &out.of[CW_METHOD_GRAVITY], *k = &out.of[CW_METHOD_CAST];
    out.gravity_over_pulled = ratio(g->contractor_cents, out.of[CW_METHOD_PULLED].contractor_cents);
    out.gravity_over_cast = ratio(g->contractor_cents, k->contractor_cents);
    out.gravity_over_cast_direct = ratio(g->direct_cents, k->direct_cents);
    out.gravity_over_cast_owner = ratio(g->owner_cents, k->owner_cents);
    find_break_evens(&out, in);
    show(&out, in, w);
    return out;
}

/* ---- fields ---- */

static const char size_range[] = "common practice: range of boxes";
static const char rate_range[] = "common practice: range of rates";

static const cw_field inputs[] = {
    NUMBER_IN("length", "L", CW_DIM_FT, 4.0, 20000.0, NULL, "of all barrels together", size_range,
              TYPE, length_ft),
    NUMBER_IN("section_area", "A", CW_DIM_SQFT, 1.0, 2000.0, NULL,
              "concrete of one barrel's cross section, for casting", size_range, TYPE,
              section_sqft),
    COUNT_IN("picks", NULL, 1, 5000, NULL, "bases and tops to set", size_range, TYPE, picks),
    NUMBER_IN("pick_time", NULL, CW_DIM_MIN, 1.0, 480.0, "@cost.pick_time",
              "crane time of each, P50 of a simulation or an "
              "estimate",
              rate_range, TYPE, pick_min),
    NUMBER_IN("shift", NULL, CW_DIM_MIN, 60.0, 1440.0, "@cost.shift",
              "of a day that go into setting", rate_range, TYPE, shift_min),
    NUMBER_IN("prepare", NULL, CW_DIM_NONE, 0.0, 60.0, "@cost.prepare_days",
              "working days before the first pick, gravity", rate_range, TYPE, prepare_days),
    NUMBER_IN("pulled_rate", NULL, CW_DIM_FT, 1.0, 500.0, "@cost.pulled_rate",
              "barrel feet a day of pulled rings", rate_range, TYPE, pulled_ft_per_day),
    NUMBER_IN("cast_rate", NULL, CW_DIM_FT, 0.5, 200.0, "@cost.cast_rate",
              "barrel feet a day cast in place", rate_range, TYPE, cast_ft_per_day),
    NUMBER_IN("rate_factor", "f", CW_DIM_NONE, 0.1, 1.5, "@cost.rate_factor",
              "on both rates: place, traffic, complexity, soil, quantity", rate_range, TYPE,
              rate_factor),
    NUMBER_IN("same_days", NULL, CW_DIM_NONE, 0.0, 500.0, "0",
              "working days that are alike: digging, bedding, backfill, "
              "headwalls",
              rate_range, TYPE, same_days),
    NUMBER_IN("days_per_week", NULL, CW_DIM_NONE, 1.0, 7.0, "@cost.days_per_week", "worked",
              rate_range, TYPE, days_per_week),
    NUMBER_IN("lead", NULL, CW_DIM_NONE, 0.0, 730.0, "@cost.lead_days",
              "calendar days from approval of the shop drawings "
              "to the first piece",
              rate_range, TYPE, lead_days),
    CENTS_IN("piece_price", NULL, "@cost.piece_ft", "two pieces delivered, a foot of barrel", TYPE,
             piece_ft_cents),
    CENTS_IN("ring_price", NULL, "@cost.ring_ft", "ring delivered, a foot of barrel", TYPE,
             ring_ft_cents),
    CENTS_IN("crane_day", NULL, "@cost.crane_day", "crane with its operator", TYPE,
             crane_day_cents),
    CENTS_IN("crew_day", NULL, "@cost.crew_day", "setting crew, gravity", TYPE, crew_day_cents),
    CENTS_IN("crew_pulled_day", NULL, "@cost.crew_pulled_day",
             "setting crew with winch and pulling gear", TYPE, crew_pulled_day_cents),
    CENTS_IN("plant_day", NULL, "@cost.plant_day", "small plant of either", TYPE, plant_day_cents),
    CENTS_IN("mobilisation", NULL, "@cost.mobilisation", "crane and gear to the site and away",
             TYPE, mobilisation_cents),
    CENTS_IN("joints", NULL, "@cost.joints", "sealant, wrap and plugs of all pieces", TYPE,
             joints_cents),
    CENTS_IN("joints_pulled", NULL, "@cost.joints_pulled", "the same of rings", TYPE,
             joints_pulled_cents),
    CENTS_IN("load_price", NULL, "@cost.load",
             "escort and standing of a load beyond the delivered price", TYPE, load_cents),
    COUNT_IN("loads", NULL, 0, 2000, "0", "truck loads of pieces", size_range, TYPE, loads),
    COUNT_IN("ring_loads", NULL, 0, 2000, "0", "truck loads of rings", size_range, TYPE,
             ring_loads),
    CENTS_IN("cast_day", NULL, "@cost.cast_day", "crew, plant and forms of casting", TYPE,
             cast_day_cents),
    CENTS_IN("concrete_price", NULL, "@cost.concrete_cy", "a cubic yard placed", TYPE,
             concrete_cy_cents),
    NUMBER_IN("waste", NULL, CW_DIM_PERCENT, 0.0, 50.0, "@cost.waste", "of concrete", rate_range,
              TYPE, waste_percent),
    CENTS_IN("bar_price", NULL, "@cost.bar_lb", "a pound of bar placed", TYPE, bar_lb_cents),
    NUMBER_IN("bar_weight", NULL, CW_DIM_NONE, 0.0, 600.0, "@cost.bar_lb_per_cy",
              "pounds of bar in a cubic yard", rate_range, TYPE, bar_lb_per_cy),
    CENTS_IN("same_cost", NULL, "$0", "of what is alike", TYPE, same_cents),
    CENTS_IN("indirect", NULL, "@cost.indirect_day", "site overhead of a working day", TYPE,
             indirect_day_cents),
    CENTS_IN("traffic", NULL, "@cost.traffic_day", "traffic control of a calendar day of closure",
             TYPE, traffic_day_cents),
    CENTS_IN("road_users", NULL, "$0",
             "road user cost of a calendar day of closure: calc detour-cost", TYPE, user_day_cents),
    NUMBER_IN("share", NULL, CW_DIM_NONE, 0.05, 1.0, "0.3333333333",
              "of the cost of casting that is asked about", "the question", TYPE, share),
};

#define METHOD_OUT(word, m)                                                                        \
    OUT(word "_days", NULL, CW_DIM_NONE, "working days of the box", cw_methods, of[m].work_days),  \
        OUT(word "_closure", NULL, CW_DIM_NONE, "calendar days of closure", cw_methods,            \
            of[m].closure_days),                                                                   \
        OUT(word "_whole", NULL, CW_DIM_NONE, "calendar days from approval", cw_methods,           \
            of[m].whole_days),                                                                     \
        OUT(word "_direct", NULL, CW_DIM_MONEY, "direct cost", cw_methods, of[m].direct_cents),    \
        OUT(word "_contractor", NULL, CW_DIM_MONEY, "with indirect cost and traffic control",      \
            cw_methods, of[m].contractor_cents),                                                   \
        OUT(word "_owner", NULL, CW_DIM_MONEY, "with road users", cw_methods, of[m].owner_cents)

static const cw_field outputs[] = {
    METHOD_OUT("gravity", CW_METHOD_GRAVITY),
    METHOD_OUT("pulled", CW_METHOD_PULLED),
    METHOD_OUT("cast", CW_METHOD_CAST),
    OUT("gravity_over_pulled", NULL, CW_DIM_NONE, "contractor's cost", cw_methods,
        gravity_over_pulled),
    OUT("gravity_over_cast", NULL, CW_DIM_NONE, "contractor's cost", cw_methods, gravity_over_cast),
    OUT("direct_over_cast", NULL, CW_DIM_NONE, "direct cost", cw_methods, gravity_over_cast_direct),
    OUT("owner_over_cast", NULL, CW_DIM_NONE, "owner's cost", cw_methods, gravity_over_cast_owner),
    OPTION_OUT("indirect_needed", NULL, CW_DIM_MONEY,
               "a working day, from which gravity costs the share of casting", cw_methods,
               indirect_day_cents.value, indirect_day_cents.has),
    OPTION_OUT("road_users_needed", NULL, CW_DIM_MONEY,
               "a calendar day, from which it does so for the owner", cw_methods,
               user_day_cents.value, user_day_cents.has),
    OUT("piece_price_pulled", NULL, CW_DIM_MONEY,
        "a foot, up to which gravity costs no more than pulling", cw_methods,
        piece_ft_cents_pulled),
    OUT("piece_price_cast", NULL, CW_DIM_MONEY, "a foot, up to which it costs no more than casting",
        cw_methods, piece_ft_cents_cast),
    OPTION_OUT("pick_time_pulled", NULL, CW_DIM_MIN,
               "up to which gravity costs no more than pulling", cw_methods, pick_min_pulled.value,
               pick_min_pulled.has),
    OUT("lead_even", NULL, CW_DIM_NONE,
        "calendar days of lead up to which gravity is done before casting", cw_methods, lead_days),
};

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_methods *)output = cw_cost_methods(input, working);
}

const cw_calc cw_calc_method_cost = {
    .name = "method-cost",
    .title = "Gravity-set, pulled and cast in place: cost and days",
    .group = "cost",
    .about = "Direct cost, closure and whole time are different answers and are kept apart.  The "
             "shipped prices are round "
             "invented numbers, not bid averages: give your own, here or as a price file.  Three "
             "numbers decide: the "
             "delivered price, the rate factor and the crew that casts; the time of a pick moves "
             "the date, hardly the cost.",
    .source = "derived: quantities times prices; rates of Virginia DOT work activity base "
              "production rates",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(TYPE),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_methods),
    .run = run,
    .example = "length=192ft section_area=44ft2 picks=24 rate_factor=0.85",
};

/* ---- what moves it ---- */

static const char *const varied[CW_COST_SWINGS] = {"piece_price", "rate_factor",    "cast_day",
                                                   "indirect",    "concrete_price", "pick_time",
                                                   "crane_day",   "same_days"};

static double *value_of(cw_methods_input *in, const char *key)
{
    for (int i = 0; i < COUNT(inputs); i++)
        if (strcmp(inputs[i].key, key) == 0 && inputs[i].kind == CW_KIND_NUMBER)
            return (double *)(void *)((char *)in + inputs[i].offset);
    return NULL;
}

static double ratio_with(const cw_methods_input *in, const char *key, double value)
{
    cw_methods_input changed = *in;
    *value_of(&changed, key) = value;
    return ratio(cost_of(&changed, CW_METHOD_GRAVITY).contractor_cents,
                 cost_of(&changed, CW_METHOD_CAST).contractor_cents);
}

void cw_cost_swings(const cw_methods_input *in, cw_cost_swing swings[CW_COST_SWINGS])
{
    for (int i = 0; i < CW_COST_SWINGS; i++) {
        cw_methods_input copy = *in;
        const double base = *value_of(&copy, varied[i]);
        const cw_cost_swing one = {varied[i], 0.8 * base, 1.2 * base,
                                   ratio_with(in, varied[i], 0.8 * base),
                                   ratio_with(in, varied[i], 1.2 * base)};
        int at = i; // put in its place: stable, greatest first
        for (; at > 0 && fabs(swings[at - 1].high_ratio - swings[at - 1].low_ratio) <
                             fabs(one.high_ratio - one.low_ratio);
             at--)
            swings[at] = swings[at - 1];
        swings[at] = one;
    }
}

double cw_cost_elasticity(const cw_methods_input *in, const char *key)
{
    const double step = 0.01;
    cw_methods_input low = *in, high = *in;
    double *down = value_of(&low, key), *up = value_of(&high, key);
    if (!down)
        return 0.0;
    *down *= 1.0 - step;
    *up *= 1.0 + step;
    const double base = cost_of(in, CW_METHOD_GRAVITY).contractor_cents;
    return ratio(cost_of(&high, CW_METHOD_GRAVITY).contractor_cents -
                     cost_of(&low, CW_METHOD_GRAVITY).contractor_cents,
                 2.0 * step * base);
}
