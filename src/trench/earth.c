#include "trench_internal.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char definition[] = "definition of swell and shrink";
static const char range[] = "common practice: range of site earthwork";

static const char *const states[] = {"bank", "loose", "compacted", NULL};
static const char *const kinds[] = {"clay", "common", "rock", "sand-gravel", "other", NULL};
static const char *const limits[] = {"volume", "weight", "not-known", NULL};

/* ---- bank, loose, compacted ---- */

#define TYPE cw_earth_input

static const cw_field inputs[] = {
    NUMBER_IN("volume", "V", CW_DIM_CY, 0.0, 1e7, NULL, "of earth", range, TYPE, volume_cy),
    CHOICE_IN("state", states, "bank", "what that volume is: in the ground, dug, or placed",
              definition, TYPE, state),
    CHOICE_IN("earth", kinds, NULL, "kind of earth; other: swell and shrink are given", NULL, TYPE,
              kind),
    OPTION_IN("swell", "s_w", CW_DIM_PERCENT, 0.0, 120.0, "bank to loose, in place of the table's",
              range, TYPE, swell_percent, has_swell),
    OPTION_IN("shrink", "s_h", CW_DIM_PERCENT, -60.0, 60.0,
              "bank to compacted, in place of the table's; rock grows, which is negative", range,
              TYPE, shrink_percent, has_shrink),
    OPTION_IN("loose_weight", "g_l", CW_DIM_PCF, 30.0, 180.0,
              "unit weight in the truck, in place of the table's", range, TYPE, loose_pcf,
              has_loose),
    NUMBER_IN("truck", "V_t", CW_DIM_CY, 1.0, 60.0, "14 cy", "loose volume of a truck's box",
              "common practice", TYPE, truck_cy),
    NUMBER_IN("payload", "Q", CW_DIM_LB, 1000.0, 200000.0, "34000 lb", "of a truck",
              "common practice", TYPE, payload_lb),
};

static const cw_field outputs[] = {
    OUT("bank", NULL, CW_DIM_CY, "in the ground", cw_earth, bank_cy),
    OUT("loose", NULL, CW_DIM_CY, "dug, in trucks and piles", cw_earth, loose_cy),
    OUT("compacted", NULL, CW_DIM_CY, "placed", cw_earth, compacted_cy),
    OUT("swell_used", "s_w", CW_DIM_PERCENT, "bank to loose", cw_earth, swell_percent),
    OUT("shrink_used", "s_h", CW_DIM_PERCENT, "bank to compacted", cw_earth, shrink_percent),
    OUT("load_factor", NULL, CW_DIM_NONE, "bank over loose", cw_earth, load_factor),
    OUT("truckload", NULL, CW_DIM_CY, "loose, on one truck", cw_earth, truck_cy),
    COUNT_OUT("loads", NULL, "truck loads", cw_earth, loads),
    CHOICE_OUT("limited_by", limits, "what fills the truck first", cw_earth, limit),
};

bool cw_earth_input_valid(const cw_earth_input *in, cw_pos where, cw_diags *diags)
{
    if (in->kind != CW_EARTH_OTHER || (in->has_swell && in->has_shrink))
        return true;
    cw_diag_add(diags, where, CW_E_MISSING,
                "earth=other has no table; give swell and shrink, or name a kind of earth");
    return false;
}

/* Weight of one cubic yard, lb. */
static double table_lb(const cw_rows *rows, int kind, const char *state)
{
    static const char *const names[] = {"clay", "common", "rock", "sand_gravel"};
    assert(kind < CW_EARTH_OTHER); // that kind has its swell and shrink given
    char id[48];
    snprintf(id, sizeof id, "earth.%s.%s", names[kind], state);
    return cw_rows_value(rows, id);
}

static void find_factors(cw_earth *out, const cw_earth_input *in, const cw_rows *rows,
                         cw_working *w)
{
    const bool table = in->kind != CW_EARTH_OTHER;
    const double bank = table ? table_lb(rows, in->kind, "bank") : 0.0;
    out->swell_percent = in->has_swell
                             ? in->swell_percent
                             : (bank / table_lb(rows, in->kind, "loose") - 1.0) * CW_PERCENT;
    out->shrink_percent = in->has_shrink
                              ? in->shrink_percent
                              : (1.0 - bank / table_lb(rows, in->kind, "compacted")) * CW_PERCENT;
    cw_step_add(w, "s_w", in->has_swell ? "as given" : "g_bank / g_loose - 1", out->swell_percent,
                CW_DIM_PERCENT, definition);
    cw_step_add(w, "s_h", in->has_shrink ? "as given" : "1 - g_bank / g_compacted",
                out->shrink_percent, CW_DIM_PERCENT, definition);
}

static void find_loads(cw_earth *out, const cw_earth_input *in, const cw_rows *rows, cw_working *w)
{
    const bool known = in->has_loose || in->kind != CW_EARTH_OTHER;
    out->truck_cy = in->truck_cy;
    out->limit = known ? CW_TRUCK_BY_VOLUME : CW_TRUCK_NOT_KNOWN;
    if (known) {
        const double of_yard_lb =
            in->has_loose ? in->loose_pcf * CW_CUFT_PER_CY : table_lb(rows, in->kind, "loose");
        const double heavy_cy = cw_step_add(w, "V_q", "Q / weight of a loose yard",
                                            in->payload_lb / of_yard_lb, CW_DIM_CY, definition);
        if (heavy_cy < in->truck_cy) {
            out->truck_cy = heavy_cy;
            out->limit = CW_TRUCK_BY_WEIGHT;
        }
    }
    out->loads =
        (int)cw_step_add(w, "m", "loose / the smaller of V_t and V_q, rounded up",
                         cw_count_up(out->loose_cy / out->truck_cy), CW_DIM_COUNT, definition);
}

cw_earth cw_trench_earth(const cw_earth_input *in, const cw_rows *rows, cw_working *w)
{
    cw_earth out = {.loads = 0};
    find_factors(&out, in, rows, w);
    const double grow = 1.0 + out.swell_percent / CW_PERCENT;
    const double keep = 1.0 - out.shrink_percent / CW_PERCENT;
    const double to_bank[] = {
        [CW_EARTH_BANK] = 1.0, [CW_EARTH_LOOSE] = 1.0 / grow, [CW_EARTH_COMPACTED] = 1.0 / keep};
    out.bank_cy = cw_step_add(w, "bank", "V, V/(1 + s_w) of loose, V/(1 - s_h) of compacted",
                              in->volume_cy * to_bank[in->state], CW_DIM_CY, definition);
    out.loose_cy =
        cw_step_add(w, "loose", "bank (1 + s_w)", out.bank_cy * grow, CW_DIM_CY, definition);
    out.compacted_cy =
        cw_step_add(w, "compacted", "bank (1 - s_h)", out.bank_cy * keep, CW_DIM_CY, definition);
    out.load_factor = 1.0 / grow;
    find_loads(&out, in, rows, w);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_earth_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_earth *)output = cw_trench_earth(input, &cw_data, working);
}

const cw_calc cw_calc_earth_volumes = {
    .name = "earth-volumes",
    .title = "Bank, loose and compacted volume",
    .group = "trench",
    .about = "One volume of earth in the ground, in the truck and in the fill, and the truck loads "
             "by volume and by weight.  Swell is never used for shrink.  Tables differ (sand: 12 "
             "and 5 percent shrink): a site test governs.",
    .source = "definition of swell and shrink; construction methods textbook (read in an excerpt)",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_earth_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_earth),
    .valid = valid,
    .run = run,
    .example = "volume=1000cy earth=common swell=25% truck=14cy payload=34000lb",
};

/* ---- balance ---- */

#undef TYPE
#define TYPE cw_earth_balance_input

static const cw_field balance_inputs[] = {
    NUMBER_IN("dug", NULL, CW_DIM_CY, 0.0, 1e7, NULL, "bank measure", range, TYPE, dug_cy),
    NUMBER_IN("suitable", NULL, CW_DIM_PERCENT, 0.0, 100.0, "100 %",
              "of it fit for backfill; wet silt is not until it is dried", "common practice", TYPE,
              suitable_percent),
    NUMBER_IN("need", NULL, CW_DIM_CY, 0.0, 1e7, NULL, "backfill, compacted", range, TYPE, need_cy),
    NUMBER_IN("swell", "s_w", CW_DIM_PERCENT, 0.0, 120.0, NULL, "bank to loose", range, TYPE,
              swell_percent),
    NUMBER_IN("shrink", "s_h", CW_DIM_PERCENT, -60.0, 60.0, NULL, "bank to compacted", range, TYPE,
              shrink_percent),
};

static const cw_field balance_outputs[] = {
    OUT("reuse", NULL, CW_DIM_CY, "bank measure", cw_earth_balance, reuse_cy),
    OUT("export", NULL, CW_DIM_CY, "bank measure", cw_earth_balance, export_cy),
    OUT("export_loose", NULL, CW_DIM_CY, "the same in trucks", cw_earth_balance, export_loose_cy),
    OUT("import", NULL, CW_DIM_CY, "backfill still missing, compacted", cw_earth_balance,
        import_cy),
};

cw_earth_balance cw_trench_balance(const cw_earth_balance_input *in, cw_working *w)
{
    const double keep = 1.0 - in->shrink_percent / CW_PERCENT;
    const double wanted =
        cw_step_add(w, "w", "need / (1 - s_h)", in->need_cy / keep, CW_DIM_CY, definition);
    const double fit =
        cw_step_add(w, "f", "dug x suitable", in->dug_cy * in->suitable_percent / CW_PERCENT,
                    CW_DIM_CY, "derived: balance of volumes");
    cw_earth_balance out = {.reuse_cy = fmin(wanted, fit)};
    cw_step_add(w, "reuse", "the smaller of w and f", out.reuse_cy, CW_DIM_CY,
                "derived: balance of volumes");
    out.export_cy = cw_step_add(w, "export", "dug - reuse", in->dug_cy - out.reuse_cy, CW_DIM_CY,
                                "derived: balance of volumes");
    out.export_loose_cy =
        cw_step_add(w, "loose", "export (1 + s_w)",
                    out.export_cy * (1.0 + in->swell_percent / CW_PERCENT), CW_DIM_CY, definition);
    out.import_cy =
        cw_step_add(w, "import", "need - reuse (1 - s_h)",
                    fmax(0.0, in->need_cy - out.reuse_cy * keep), CW_DIM_CY, definition);
    return out;
}

static void run_balance(const void *input, void *output, cw_working *working)
{
    *(cw_earth_balance *)output = cw_trench_balance(input, working);
}

const cw_calc cw_calc_earth_balance = {
    .name = "earth-balance",
    .title = "Earth to keep, haul off and bring",
    .group = "trench",
    .about = "What of the dug earth goes back, what leaves and what is missing.  Bedding stone and "
             "topsoil are counted apart.",
    .source = "derived: balance of volumes with swell and shrink",
    .inputs = balance_inputs,
    .input_count = COUNT(balance_inputs),
    .input_size = sizeof(cw_earth_balance_input),
    .outputs = balance_outputs,
    .output_count = COUNT(balance_outputs),
    .output_size = sizeof(cw_earth_balance),
    .run = run_balance,
    .example = "dug=200cy need=90cy swell=40% shrink=10%",
};

/* ---- stockpile ---- */

#undef TYPE
#define TYPE cw_pile_input

static const char *const pile_shapes[] = {"ridge", "cone", NULL};
static const char *const pile_earths[] = {"earth-dry", "earth-moist", "clay", "gravel",
                                          "sand-dry",  "sand-moist",  NULL};

static const cw_field pile_inputs[] = {
    NUMBER_IN("volume", "V", CW_DIM_CY, 0.1, 1e6, NULL, "loose", range, TYPE, volume_cy),
    CHOICE_IN("shape", pile_shapes, "ridge", "of the pile", "common practice", TYPE, shape),
    CHOICE_IN("earth", pile_earths, "earth-moist", "kind of earth, for its angle of repose",
              "common practice", TYPE, earth),
    NUMBER_IN("length", "L", CW_DIM_FT, 1.0, 20000.0, "100 ft", "of a ridge, ends apart",
              "common practice", TYPE, length_ft),
    OPTION_IN("repose", "R", CW_DIM_DEG, 10.0, 60.0, "angle of repose in place of the table's",
              range, TYPE, repose_deg, has_repose),
};

static const cw_field pile_outputs[] = {
    OUT("height", "H", CW_DIM_FT, "of the pile", cw_pile, height_ft),
    OUT("base", "B", CW_DIM_FT, "width of a ridge, diameter of a cone", cw_pile, base_ft),
    OUT("repose_used", "R", CW_DIM_DEG, "angle of repose", cw_pile, repose_deg),
};

cw_pile cw_trench_pile(const cw_pile_input *in, const cw_rows *rows, cw_working *w)
{
    static const char *const ids[] = {"repose.earth_dry", "repose.earth_moist",
                                      "repose.clay",      "repose.gravel",
                                      "repose.sand_dry",  "repose.sand_moist"};
    cw_pile out = {.repose_deg =
                       in->has_repose ? in->repose_deg : cw_rows_value(rows, ids[in->earth])};
    cw_step_add(w, "R", "as given or from the table", out.repose_deg, CW_DIM_DEG,
                "construction methods textbook (from memory, not verified)");
    const double rise = tan(out.repose_deg * CW_RAD_PER_DEG);
    const double volume_cuft = in->volume_cy * CW_CUFT_PER_CY;
    if (in->shape == CW_PILE_CONE) {
        out.base_ft =
            cw_step_add(w, "B", "(24 V / (pi tan R))^(1/3)",
                        cbrt(24.0 * volume_cuft / (CW_PI * rise)), CW_DIM_FT, "closed form: cone");
    } else {
        const double area = cw_step_add(w, "A_l", "V / L", volume_cuft / in->length_ft, CW_DIM_SQFT,
                                        "closed form: triangular ridge");
        out.base_ft = cw_step_add(w, "B", "2 (A_l / tan R)^(1/2)", 2.0 * sqrt(area / rise),
                                  CW_DIM_FT, "closed form: triangular ridge");
    }
    out.height_ft = cw_step_add(w, "H", "B/2 tan R", out.base_ft / 2.0 * rise, CW_DIM_FT,
                                "definition of the angle of repose");
    return out;
}

static void run_pile(const void *input, void *output, cw_working *working)
{
    *(cw_pile *)output = cw_trench_pile(input, &cw_data, working);
}

const cw_calc cw_calc_stockpile = {
    .name = "stockpile",
    .title = "Height and base of a pile",
    .group = "trench",
    .about =
        "Ridge beside the trench or cone of loose earth at its angle of repose.  The ends of a "
        "ridge are left out: it holds a little more.  " CAUTION,
    .source = "closed form: triangular ridge and cone",
    .inputs = pile_inputs,
    .input_count = COUNT(pile_inputs),
    .input_size = sizeof(cw_pile_input),
    .outputs = pile_outputs,
    .output_count = COUNT(pile_outputs),
    .output_size = sizeof(cw_pile),
    .run = run_pile,
    .example = "volume=300cy shape=cone earth=earth-dry",
};
