/* Concrete cone of one cast-in insert, the coefficients of ACI 318-19 from memory. */
#include "lifting_internal.h"

static const char range[] = "common practice: range of inserts";
static const char aci[] = "ACI 318-19, 17.6.2 (from memory, not verified)";
static const char pullout_clause[] = "ACI 318-19, 17.6.3 (from memory, not verified)";
static const char blowout_clause[] = "ACI 318-19, 17.6.4 (from memory, not verified)";

/* Embedments between which the deep formula may be used. */
#define DEEP_FROM_IN 11.0
#define DEEP_TO_IN 25.0

#define TYPE cw_breakout_input
#define EDGE(key, meaning, member)                                                                 \
    NUMBER_IN(key, NULL, CW_DIM_IN, 0.5, 1000.0, "1000 in", meaning, range, TYPE, member)

static const cw_field inputs[] = {
    NUMBER_IN("depth", "h_ef", CW_DIM_IN, 1.0, 25.0, NULL, "effective embedment", range, TYPE,
              depth_in),
    NUMBER_IN("strength", "f_c", CW_DIM_PSI, 500.0, 15000.0, NULL, "of the concrete at lift", range,
              TYPE, psi),
    NUMBER_IN("light", "lam", CW_DIM_NONE, 0.5, 1.0, "1", "1 for normal weight concrete",
              "common practice", TYPE, light),
    EDGE("edge_left", "to the edge of the concrete; 1000: none near", left_in),
    EDGE("edge_right", "opposite edge", right_in),
    EDGE("edge_down", "to the edge square to those", down_in),
    EDGE("edge_up", "opposite edge", up_in),
    NUMBER_IN("eccentricity", "e", CW_DIM_IN, 0.0, 24.0, "0 in", "of the pull from the insert",
              "common practice", TYPE, eccentricity_in),
    NUMBER_IN("head", "A_b", CW_DIM_SQFT, 0.0, 1.0, "0 ft2",
              "bearing area of the head, such as 1.2 in2; 0: pullout and blowout not asked",
              "common practice", TYPE, head_sqft),
    FLAG_IN("uncracked", "no", "the concrete stays free of cracks at the insert",
            "common practice: assume cracks", TYPE, uncracked),
    NUMBER_IN("factor", NULL, CW_DIM_NONE, 1.0, 10.0, "@lift.insert_factor", "strength over load",
              NULL, TYPE, factor),
    NUMBER_IN("tension", "T", CW_DIM_LB, 0.0, 500000.0, "0 lb", "of the leg, to compare", range,
              TYPE, tension_lb),
};

static const cw_field outputs[] = {
    OUT("basic", "N_b", CW_DIM_LB, "cone without edges", cw_breakout, basic_lb),
    OUT("area_ratio", NULL, CW_DIM_NONE, "of the cone's foot that is inside the edges", cw_breakout,
        area_ratio),
    OUT("edge_factor", NULL, CW_DIM_NONE, "nearest edge", cw_breakout, edge_factor),
    OUT("breakout", "N_cb", CW_DIM_LB, "cone with edges", cw_breakout, breakout_lb),
    OUT("pullout", NULL, CW_DIM_LB, "bearing under the head; 0: not asked", cw_breakout,
        pullout_lb),
    OUT("blowout", NULL, CW_DIM_LB, "sideways beside the head; 0: not asked, or no edge is near",
        cw_breakout, blowout_lb),
    OUT("strength", NULL, CW_DIM_LB, "least of them", cw_breakout, strength_lb),
    OUT("safe_load", NULL, CW_DIM_LB, "strength over the factor", cw_breakout, safe_lb),
    OUT("ratio", NULL, CW_DIM_NONE, "tension over safe load", cw_breakout, ratio),
    CHOICE_OUT("check", cw_verdict_words, "holds means: without steel across the cone", cw_breakout,
               verdict),
};

static double basic_lb(const cw_breakout_input *in, const cw_rows *rows)
{
    const double h = in->depth_in, root = in->light * sqrt(in->psi);
    const double plain = cw_rows_value(rows, "breakout.k") * root * pow(h, 1.5);
    if (h < DEEP_FROM_IN || h > DEEP_TO_IN)
        return plain;
    return fmax(plain, cw_rows_value(rows, "breakout.k_deep") * root * pow(h, 5.0 / 3.0));
}

/* Sideways failure by the nearest edge, less when a corner is near. */
static double blowout_lb(const cw_breakout_input *in, const cw_rows *rows)
{
    const double across = fmin(in->left_in, in->right_in), along = fmin(in->down_in, in->up_in);
    const double near_in = fmin(across, along), far_in = fmax(across, along);
    if (!(in->depth_in > 2.5 * near_in))
        return 0.0;
    const double corner = fmin(fmax(far_in / near_in, 1.0), 3.0);
    return cw_rows_value(rows, "breakout.blowout") * near_in *
           sqrt(in->head_sqft * CW_SQIN_PER_SQFT) * in->light * sqrt(in->psi) * (1.0 + corner) /
           4.0;
}

cw_breakout cw_lifting_breakout(const cw_breakout_input *in, const cw_rows *rows, cw_working *w)
{
    cw_breakout out = {0};
    const double reach_in = 1.5 * in->depth_in;
    const double across = fmin(in->left_in, reach_in) + fmin(in->right_in, reach_in);
    const double along = fmin(in->down_in, reach_in) + fmin(in->up_in, reach_in);
    const double nearest = fmin(fmin(in->left_in, in->right_in), fmin(in->down_in, in->up_in));
    const double edge_base = cw_rows_value(rows, "breakout.edge_base");
    const double crack = in->uncracked ? cw_rows_value(rows, "breakout.uncracked") : 1.0;
    out.basic_lb = cw_step_add(
        w, "N_b", "24 lam sqrt(f_c) h_ef^1.5; 11 to 25 in deep 16 lam sqrt(f_c) h_ef^(5/3)",
        basic_lb(in, rows), CW_DIM_LB, aci);
    out.area_ratio = cw_step_add(w, "A/A_o", "foot of the cone within the edges / (9 h_ef^2)",
                                 across * along / (4.0 * reach_in * reach_in), CW_DIM_NONE, aci);
    out.edge_factor = cw_step_add(w, "psi_e", "0.7 + 0.3 c/(1.5 h_ef), 1 at most",
                                  edge_base + (1.0 - edge_base) * fmin(1.0, nearest / reach_in),
                                  CW_DIM_NONE, aci);
    const double off = cw_step_add(w, "psi_o", "1/(1 + e/(1.5 h_ef))",
                                   1.0 / (1.0 + in->eccentricity_in / reach_in), CW_DIM_NONE, aci);
    out.breakout_lb =
        cw_step_add(w, "N_cb", "A/A_o psi_e psi_o psi_c N_b",
                    out.area_ratio * out.edge_factor * off * crack * out.basic_lb, CW_DIM_LB, aci);
    out.strength_lb = out.breakout_lb;
    if (in->head_sqft > 0.0) {
        const double sound =
            in->uncracked ? cw_rows_value(rows, "breakout.pullout_uncracked") : 1.0;
        out.pullout_lb = cw_step_add(w, "N_p", "8 A_b f_c",
                                     sound * cw_rows_value(rows, "breakout.pullout") *
                                         in->head_sqft * CW_SQIN_PER_SQFT * in->psi,
                                     CW_DIM_LB, pullout_clause);
        out.blowout_lb = cw_step_add(w, "N_sb", "160 c sqrt(A_b) lam sqrt(f_c) (1 + c_2/c)/4",
                                     blowout_lb(in, rows), CW_DIM_LB, blowout_clause);
        out.strength_lb = fmin(out.strength_lb, out.pullout_lb);
        if (out.blowout_lb > 0.0)
            out.strength_lb = fmin(out.strength_lb, out.blowout_lb);
    }
    out.safe_lb = cw_step_add(w, "N_s", "least / factor", out.strength_lb / in->factor, CW_DIM_LB,
                              "29 CFR 1926.704(c)");
    out.ratio = in->tension_lb / out.safe_lb;
    out.verdict = cw_lifting_verdict(in->tension_lb, out.safe_lb);
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_breakout *)output = cw_lifting_breakout(input, &cw_data, working);
}

const cw_calc cw_calc_concrete_breakout = {
    .name = "concrete-breakout",
    .title = "Concrete cone of a lifting insert near edges",
    .group = "lifting",
    .about =
        "A wall top has an edge on both sides of the insert: the cone is cut to a strip and rarely "
        "holds four times the leg.  Then bars across the cone must take the load; they are not "
        "counted here.  The shorter embedment that the code allows with three near edges is not "
        "taken, which is on the safe side.  Steel of the insert is the maker's.",
    .source = "ACI 318-19, chapter 17, from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_breakout_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_breakout),
    .run = run,
    .example = "depth=10in strength=3500psi edge_left=5in edge_right=5in tension=4761lb",
};
