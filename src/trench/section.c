#include "trench_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char appendix_b[] = "29 CFR 1926 Subpart P App. B";
static const char polygon[] = "closed form: area of the polygon";
static const char range[] = "common practice: range of culvert trenches";

static const char *const ways[] = {"slope", "bench", "shield", "vertical-lower", NULL};
static const char *const kinds[] = {"trench", "excavation", NULL};

#define TYPE cw_trench_section_input

static const cw_field inputs[] = {
    COUNT_IN("barrels", "N", 1.0, 8.0, "1", "barrels side by side", range, TYPE, barrels),
    NUMBER_IN("outside_width", "B", CW_DIM_IN, 24.0, 840.0, NULL, "outside width of one barrel",
              range, TYPE, width_in),
    NUMBER_IN("gap", "g", CW_DIM_IN, 0.0, 120.0, "0 in", "clear between barrels", range, TYPE,
              clear_gap_in),
    NUMBER_IN("work_space", "w_s", CW_DIM_FT, 1.0, 20.0, "@trench.working_space",
              "each side, at the bottom", NULL, TYPE, work_ft),
    NUMBER_IN("depth", "D", CW_DIM_FT, 0.5, 60.0, NULL,
              "of the bottom below the ground at the centre line", range, TYPE, depth_ft),
    NUMBER_IN("cross_fall", "s", CW_DIM_SLOPE, -0.5, 0.5, "0 %",
              "of the ground, + when it rises to the right", range, TYPE, cross_fall),
    CHOICE_IN("soil", cw_trench_classes, NULL, "class of the ground at the bottom", NULL, TYPE,
              soil),
    OPTION_IN("height_2", "h_2", CW_DIM_FT, 0.1, 60.0,
              "above the bottom, where a second layer begins", range, TYPE, height_2_ft,
              has_height_2),
    CHOICE_IN("soil_2", cw_trench_classes, "C", "its class", "29 CFR 1926.652(b)(1)", TYPE, soil_2),
    OPTION_IN("height_3", "h_3", CW_DIM_FT, 0.1, 60.0,
              "above the bottom, where a third layer begins", range, TYPE, height_3_ft,
              has_height_3),
    CHOICE_IN("soil_3", cw_trench_classes, "C", "its class", "29 CFR 1926.652(b)(1)", TYPE, soil_3),
    FLAG_IN("cohesive", "no", "all class B ground is cohesive", appendix_b, TYPE, cohesive),
    NUMBER_IN("open_time", "t", CW_DIM_HOUR, 0.5, 8760.0, "720 h", "how long the cut stays open",
              range, TYPE, open_h),
    CHOICE_IN("way", ways, "slope", "how the face is cut", "common practice", TYPE, way),
    NUMBER_IN("shield", "h_s", CW_DIM_FT, 0.0, 40.0, "0 ft",
              "top of the shield above the bottom of the cut", range, TYPE, shield_ft),
    NUMBER_IN("below_shield", NULL, CW_DIM_FT, 0.0, 20.0, "0 ft",
              "depth of the bottom below the lower edge of the shield", range, TYPE, below_ft),
    NUMBER_IN("spoil_setback", "e", CW_DIM_FT, 0.0, 100.0, "@trench.spoil",
              "from the edge to spoil or plant", NULL, TYPE, spoil_ft),
    NUMBER_IN("spoil_base", NULL, CW_DIM_FT, 0.0, 200.0, "0 ft",
              "width of the spoil on the right, 0 when it is hauled off", range, TYPE,
              spoil_base_ft),
    OPTION_IN("right_of_way_left", NULL, CW_DIM_FT, 1.0, 1000.0, "from the centre line", range,
              TYPE, row_left_ft, has_row_left),
    OPTION_IN("right_of_way_right", NULL, CW_DIM_FT, 1.0, 1000.0, "from the centre line", range,
              TYPE, row_right_ft, has_row_right),
};

#define SECTION cw_trench_section

static const cw_field outputs[] = {
    OUT("bottom", "b", CW_DIM_FT, "width of the bottom", SECTION, bottom_ft),
    OUT("area", "A", CW_DIM_SQFT, "of the cut", SECTION, area_sqft),
    OUT("top", "T", CW_DIM_FT, "width at the surface", SECTION, top_ft),
    OUT("left", "x_l", CW_DIM_FT, "left edge from the centre line", SECTION, left_ft),
    OUT("right", "x_r", CW_DIM_FT, "right edge from the centre line", SECTION, right_ft),
    OUT("deepest", NULL, CW_DIM_FT, "height of the higher edge above the bottom", SECTION,
        deepest_ft),
    OUT("slope_bottom", "z_1", CW_DIM_SIDE_SLOPE, "slope that the lowest layer gets", SECTION,
        slope_bottom),
    OUT("slope_top", "z_n", CW_DIM_SIDE_SLOPE, "slope that the highest layer gets", SECTION,
        slope_top),
    CHOICE_OUT("cut", kinds, "what the whole cut is", SECTION, kind),
    CHOICE_OUT("annulus", kinds, "what the strip between barrel and face is", SECTION,
               annulus_kind),
    CHOICE_OUT("protection", cw_trench_protections, "against cave-in", SECTION, protection),
    CHOICE_OUT("check", cw_verdict_words, "of the faces; undecided: a registered engineer designs",
               SECTION, verdict),
    OUT("reach_left", NULL, CW_DIM_FT, "ground taken on the left from the centre line", SECTION,
        reach_left_ft),
    OUT("reach_right", NULL, CW_DIM_FT, "the same on the right, with spoil", SECTION,
        reach_right_ft),
    OUT("crane", NULL, CW_DIM_FT, "from the centre line to plant on the right, at least", SECTION,
        crane_ft),
    CHOICE_OUT("right_of_way", cw_verdict_words, "the ground taken lies within it", SECTION,
               right_of_way),
};

double cw_trench_bottom_ft(int barrels, double width_in, double clear_gap_in, double work_ft)
{
    return (barrels * width_in + (barrels - 1) * clear_gap_in) / CW_IN_PER_FT + 2.0 * work_ft;
}

static int layers_of(const cw_trench_section_input *in, cw_trench_layer *layers)
{
    int count = 0;
    double from = 0.0;
    layers[count++] = (cw_trench_layer){in->depth_ft, in->soil};
    if (in->has_height_2) {
        layers[count - 1].thickness_ft = in->height_2_ft - from;
        from = in->height_2_ft;
        layers[count++] = (cw_trench_layer){in->depth_ft, in->soil_2};
    }
    if (in->has_height_3) {
        layers[count - 1].thickness_ft = in->height_3_ft - from;
        layers[count++] = (cw_trench_layer){in->depth_ft, in->soil_3};
    }
    return count;
}

/* Layers that begin above the ground do not count: the face never meets them. */
static int weakest(const cw_trench_section_input *in, bool *all_rock)
{
    cw_trench_layer layers[CW_TRENCH_LAYERS_MAX];
    const int count = layers_of(in, layers);
    int soil = CW_SOIL_ROCK;
    for (int i = 0; i < count; i++)
        soil = layers[i].soil > soil ? layers[i].soil : soil;
    *all_rock = soil == CW_SOIL_ROCK;
    return soil;
}

static bool way_allowed(const cw_trench_section_input *in, cw_pos where, cw_diags *diags)
{
    bool all_rock;
    const int soil = weakest(in, &all_rock);
    const bool bench_soil = soil <= CW_SOIL_A || (soil == CW_SOIL_B && in->cohesive);
    if (in->way == CW_WAY_BENCH && !bench_soil) {
        cw_diag_add(
            diags, where, CW_E_CONFLICT,
            "benches need class A or cohesive class B, and the weakest layer is class %s%s; "
            "write way=slope or way=shield%s",
            cw_trench_classes[soil], soil == CW_SOIL_B ? " not said to be cohesive" : "",
            soil == CW_SOIL_B ? ", or cohesive=yes" : "");
        return false;
    }
    if (in->way == CW_WAY_VERTICAL_LOWER && soil > CW_SOIL_A) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "an unsupported vertical lower part needs class A, and the weakest layer is "
                    "class %s; write way=slope or way=shield",
                    cw_trench_classes[soil]);
        return false;
    }
    if (in->way == CW_WAY_SHIELD && in->shield_ft <= 0.0) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "way=shield needs the top of the shield above the bottom; write shield=8 ft or "
                    "the like");
        return false;
    }
    return true;
}

bool cw_trench_section_input_valid(const cw_trench_section_input *in, cw_pos where, cw_diags *diags)
{
    bool good = way_allowed(in, where, diags);
    if (in->has_height_3 && !in->has_height_2) {
        cw_diag_add(diags, where, CW_E_MISSING, "height_3 is given without height_2; give both");
        good = false;
    }
    if (in->has_height_2 && in->has_height_3 && in->height_3_ft <= in->height_2_ft) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "height_3 %.6g ft does not lie above height_2 %.6g ft; check both",
                    in->height_3_ft, in->height_2_ft);
        good = false;
    }
    // On the low side the ground must still cover the bottom, or there is no cut there.
    const double half =
        cw_trench_bottom_ft(in->barrels, in->width_in, in->clear_gap_in, in->work_ft) / 2.0;
    if (fabs(in->cross_fall) * half >= in->depth_ft) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "cross_fall %.6g ft/ft over half the bottom, %.6g ft, is more than the depth "
                    "%.6g ft: the low side is in the air; check the depth",
                    in->cross_fall, half, in->depth_ft);
        good = false;
    }
    return good;
}

/* The limits of depth hold at the deepest edge, not at the centre line. */
static cw_trench_shape shape_of(const cw_trench_section_input *in, const cw_rows *rows,
                                double deepest_ft, SECTION *out)
{
    cw_trench_layer layers[CW_TRENCH_LAYERS_MAX];
    double slopes[CW_TRENCH_LAYERS_MAX];
    const int count = layers_of(in, layers);
    const bool brief = cw_meets(in->open_h, cw_rows_value(rows, "trench.brief_time"));
    cw_trench_layer_slopes(layers, count, deepest_ft, brief, rows, slopes);
    out->slope_bottom = slopes[0];
    out->slope_top = slopes[count - 1];
    bool all_rock;
    const int soil = weakest(in, &all_rock);
    const double flattest = slopes[count - 1];
    if (in->way == CW_WAY_BENCH) {
        // Under a cross fall the high edge stands above the depth at the centre line.
        const double high_ft = 2.0 * in->depth_ft + out->bottom_ft;
        return cw_trench_benched(
            out->bottom_ft, flattest, cw_rows_value(rows, "trench.bench_first"),
            cw_rows_value(rows, soil == CW_SOIL_B ? "trench.bench_next_b" : "trench.bench_next_a"),
            in->cross_fall == 0.0 ? in->depth_ft : high_ft);
    }
    if (in->way == CW_WAY_SHIELD) {
        const double above = cw_rows_value(rows, "trench.shield_above") / CW_IN_PER_FT;
        // A shield that reaches the surface needs nothing above its top.
        const bool whole = in->cross_fall == 0.0 && in->shield_ft >= in->depth_ft;
        return cw_trench_stepped(out->bottom_ft, fmax(0.0, in->shield_ft - (whole ? 0.0 : above)),
                                 flattest);
    }
    if (in->way == CW_WAY_VERTICAL_LOWER) {
        const bool steep = cw_meets(deepest_ft, cw_rows_value(rows, "trench.vertical_depth_steep"));
        out->slope_top = steep ? flattest : fmax(flattest, cw_rows_value(rows, "trench.slope.b"));
        return cw_trench_stepped(out->bottom_ft, cw_rows_value(rows, "trench.vertical_max"),
                                 out->slope_top);
    }
    return cw_trench_sloped(out->bottom_ft, layers, slopes, count);
}

static int face_verdict(const cw_trench_section_input *in, const cw_rows *rows, double deepest_ft)
{
    if (!cw_meets(deepest_ft, cw_rows_value(rows, "trench.depth_max")))
        return CW_UNDECIDED;
    if (in->way == CW_WAY_SHIELD &&
        !cw_meets(in->below_ft, cw_rows_value(rows, "trench.shield_below")))
        return CW_FAILS;
    if (in->way == CW_WAY_VERTICAL_LOWER &&
        !cw_meets(deepest_ft, cw_rows_value(rows, "trench.vertical_depth")))
        return CW_FAILS;
    return CW_HOLDS;
}

static int room_verdict(const cw_trench_section_input *in, const SECTION *out)
{
    const bool over = (in->has_row_left && !cw_meets(out->reach_left_ft, in->row_left_ft)) ||
                      (in->has_row_right && !cw_meets(out->reach_right_ft, in->row_right_ft));
    if (over)
        return CW_FAILS;
    return in->has_row_left && in->has_row_right ? CW_HOLDS : CW_UNDECIDED;
}

static void judge(SECTION *out, const cw_trench_section_input *in, const cw_rows *rows)
{
    const double widest = cw_rows_value(rows, "trench.width_max");
    bool all_rock;
    weakest(in, &all_rock);
    out->kind = cw_meets(out->bottom_ft, widest) ? CW_CUT_TRENCH : CW_CUT_EXCAVATION;
    // A structure that leaves no more than this to the face makes the strip a trench.
    out->annulus_kind = cw_meets(in->work_ft, widest) ? CW_CUT_TRENCH : CW_CUT_EXCAVATION;
    out->protection = cw_trench_protection(rows, out->deepest_ft, all_rock);
    out->verdict = face_verdict(in, rows, out->deepest_ft);
    const double spoil = in->spoil_base_ft > 0.0 ? in->spoil_ft + in->spoil_base_ft : 0.0;
    out->reach_left_ft = out->left_ft;
    out->reach_right_ft = out->right_ft + spoil;
    out->crane_ft = out->reach_right_ft + (spoil > 0.0 ? 0.0 : in->spoil_ft);
    out->right_of_way = room_verdict(in, out);
}

static double deepest_of(const cw_trench_section_input *in, const cw_trench_cut *cut)
{
    return fmax(in->depth_ft, fmax(cut->left_height_ft, cut->right_height_ft));
}

/* A flatter face ends higher up the ground: each of the two limits of depth may be passed in turn. */
static cw_trench_shape settle(const cw_trench_section_input *in, const cw_rows *rows,
                              cw_trench_cut *cut, SECTION *out)
{
    cw_trench_shape shape = shape_of(in, rows, in->depth_ft, out);
    *cut = cw_trench_cut_plane(&shape, in->depth_ft, in->cross_fall);
    for (int i = 0; i < 2 && deepest_of(in, cut) > in->depth_ft; i++) {
        shape = shape_of(in, rows, deepest_of(in, cut), out);
        *cut = cw_trench_cut_plane(&shape, in->depth_ft, in->cross_fall);
    }
    return shape;
}

cw_trench_shape cw_trench_section_shape(const cw_trench_section_input *in, const cw_rows *rows)
{
    SECTION out = {.bottom_ft =
                       cw_trench_bottom_ft(in->barrels, in->width_in, in->clear_gap_in, in->work_ft)};
    cw_trench_cut cut;
    return settle(in, rows, &cut, &out);
}

cw_trench_section cw_trench_section_of(const cw_trench_section_input *in, const cw_rows *rows,
                                       cw_working *w)
{
    SECTION out = {.area_sqft = 0.0};
    out.bottom_ft =
        cw_step_add(w, "b", "N B + (N - 1) g + 2 w_s",
                    cw_trench_bottom_ft(in->barrels, in->width_in, in->clear_gap_in, in->work_ft),
                    CW_DIM_FT, "derived: sum of the widths");
    cw_trench_cut cut;
    const cw_trench_shape shape = settle(in, rows, &cut, &out);
    cw_step_add(w, "z_1", "slope of the class at the bottom", out.slope_bottom, CW_DIM_SIDE_SLOPE,
                appendix_b);
    cw_step_add(w, "z_n", "the flattest of its own and those below", out.slope_top,
                CW_DIM_SIDE_SLOPE, appendix_b);
    const bool plain = shape.count == 1;
    const bool level = in->cross_fall == 0.0;
    out.left_ft = cw_step_add(w, "x_l", plain ? "(b/2 + z D)/(1 + z s)" : "where face meets ground",
                              cut.left_ft, CW_DIM_FT, polygon);
    out.right_ft =
        cw_step_add(w, "x_r", plain ? "(b/2 + z D)/(1 - z s)" : "where face meets ground",
                    cut.right_ft, CW_DIM_FT, polygon);
    out.top_ft = cw_step_add(w, "T", "x_l + x_r", cut.left_ft + cut.right_ft, CW_DIM_FT, polygon);
    out.area_sqft = cw_step_add(w, "A", plain && level ? "b D + z D^2" : "between face and ground",
                                cut.area_sqft, CW_DIM_SQFT, polygon);
    out.deepest_ft = deepest_of(in, &cut);
    judge(&out, in, rows);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_trench_section_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(SECTION *)output = cw_trench_section_of(input, &cw_data, working);
}

const cw_calc cw_calc_trench_section = {
    .name = "trench-section",
    .title = "Section of the cut",
    .group = "trench",
    .about =
        "Bottom width for barrels and working space, slope of each layer, edges and area under "
        "level or sloping ground, the strip beside the barrel, and the room it all takes.  A "
        "stronger layer on a weaker one takes the weaker slope.  Deeper than 20 ft the result "
        "is a quantity, not a design.  Benches: inner corners on the slope of the class (how "
        "the figures of App. B are read, from memory).  " CAUTION,
    .source = "29 CFR 1926 Subpart P App. B; closed form: area of the polygon",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_trench_section_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(SECTION),
    .valid = valid,
    .run = run,
    .example = "barrels=2 outside_width=164in gap=4in depth=13ft soil=B right_of_way_left=30ft "
               "right_of_way_right=30ft",
};
