#include "trench_internal.h"

#include <math.h>

#include "cw/units.h"

static const char average[] = "average end area (NCEES reference formulas)";
static const char prismoid[] = "closed form: prismoid with depth linear between sections";
static const char range[] = "common practice: range of culvert trenches";

#define TYPE cw_trench_volume_input

static const cw_field inputs[] = {
    NUMBER_IN("bottom", "b", CW_DIM_FT, 1.0, 500.0, NULL, "width of the bottom", range, TYPE,
              bottom_ft),
    NUMBER_IN("slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 4.0, NULL, "of both sides", range, TYPE,
              side_slope),
    NUMBER_IN("cross_fall", "s", CW_DIM_SLOPE, -0.5, 0.5, "0 %",
              "of the ground, the same in all sections", range, TYPE, cross_fall),
    {"stations", "x_i", CW_KIND_LIST, CW_DIM_FT, -10000.0, 100000.0, NULL, true,
     "distance of each section from the outlet, rising", range, NULL, offsetof(TYPE, stations_ft),
     CW_NO_FLAG},
    {"depths", "D_i", CW_KIND_LIST, CW_DIM_FT, 0.0, 60.0, NULL, true,
     "depth at the centre line of each section", range, NULL, offsetof(TYPE, depths_ft),
     CW_NO_FLAG},
    NUMBER_IN("start_slope", NULL, CW_DIM_SIDE_SLOPE, 0.0, 30.0, "0:1",
              "sloped end before the first section, hips at its corners", range, TYPE, start_slope),
    NUMBER_IN("end_slope", "z_e", CW_DIM_SIDE_SLOPE, 0.0, 30.0, "0:1",
              "the same past the last section", range, TYPE, end_slope),
    NUMBER_IN("overbreak", NULL, CW_DIM_PERCENT, 0.0, 50.0, "0 %",
              "dug beyond the lines, 5 to 10 percent is usual", "common practice", TYPE,
              overbreak_percent),
};

#define VOLUME cw_trench_volume

static const cw_field outputs[] = {
    OUT("exact", "V_p", CW_DIM_CY, "between the sections, prismoidal", VOLUME, exact_cy),
    OUT("average", "V_a", CW_DIM_CY, "the same by average end area", VOLUME, average_cy),
    OUT("excess", NULL, CW_DIM_CY, "of average end area over exact", VOLUME, excess_cy),
    OUT("ends", "V_e", CW_DIM_CY, "sloped ends", VOLUME, ends_cy),
    OUT("total", "V", CW_DIM_CY, "exact with ends, bank measure", VOLUME, total_cy),
    OUT("overbreak_volume", NULL, CW_DIM_CY, "apart from the total", VOLUME, overbreak_cy),
    OUT("length", "L", CW_DIM_FT, "first to last section", VOLUME, length_ft),
};

static bool lists_match(const cw_trench_volume_input *in, cw_pos where, cw_diags *diags)
{
    if (in->stations_ft.count == in->depths_ft.count && in->stations_ft.count >= 2)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "%d stations and %d depths; give the same number of both, 2 at least",
                in->stations_ft.count, in->depths_ft.count);
    return false;
}

bool cw_trench_volume_input_valid(const cw_trench_volume_input *in, cw_pos where, cw_diags *diags)
{
    bool good = lists_match(in, where, diags);
    for (int i = 1; good && i < in->stations_ft.count; i++)
        if (!(in->stations_ft.items[i] > in->stations_ft.items[i - 1])) {
            cw_diag_add(diags, where, CW_E_GEOMETRY,
                        "station %d, %.6g ft, does not lie past station %d, %.6g ft; order them",
                        i + 1, in->stations_ft.items[i], i, in->stations_ft.items[i - 1]);
            good = false;
        }
    if (fabs(in->cross_fall) * in->side_slope >= 1.0) {
        cw_diag_add(
            diags, where, CW_E_GEOMETRY,
            "cross_fall %.6g ft/ft is as flat as slope %.6g:1, so that the face never meets "
            "the ground; check both",
            in->cross_fall, in->side_slope);
        good = false;
    }
    return good;
}

cw_trench_volume cw_trench_volume_of(const cw_trench_volume_input *in, cw_working *w)
{
    const cw_trench_shape shape = cw_trench_stepped(in->bottom_ft, 0.0, in->side_slope);
    const double *x = in->stations_ft.items, *d = in->depths_ft.items;
    const int last = in->stations_ft.count - 1;
    double average_cuft = 0.0, exact_cuft = 0.0;
    double before = cw_trench_cut_plane(&shape, d[0], in->cross_fall).area_sqft;
    for (int i = 1; i <= last; i++) {
        const double length = x[i] - x[i - 1];
        const double area = cw_trench_cut_plane(&shape, d[i], in->cross_fall).area_sqft;
        average_cuft += cw_trench_average_cuft(length, before, area);
        exact_cuft += cw_trench_prism_cuft(&shape, in->cross_fall, d[i - 1], d[i], length);
        before = area;
    }
    const double ends_cuft =
        cw_trench_end_cuft(in->bottom_ft, in->side_slope, in->start_slope, d[0]) +
        cw_trench_end_cuft(in->bottom_ft, in->side_slope, in->end_slope, d[last]);
    VOLUME out = {.length_ft = x[last] - x[0]};
    out.average_cy = cw_step_add(w, "V_a", "sum of L (A_1 + A_2)/2", average_cuft / CW_CUFT_PER_CY,
                                 CW_DIM_CY, average);
    out.exact_cy =
        cw_step_add(w, "V_p", "sum of L (A_1 + 4 A_m + A_2)/6, A_m at the middle of the depths",
                    exact_cuft / CW_CUFT_PER_CY, CW_DIM_CY, prismoid);
    out.excess_cy = cw_step_add(w, "e", "V_a - V_p: z L (D_1 - D_2)^2/6 each under level ground",
                                out.average_cy - out.exact_cy, CW_DIM_CY, prismoid);
    out.ends_cy =
        cw_step_add(w, "V_e", "z_e (b D^2/2 + 2/3 z D^3) at each end", ends_cuft / CW_CUFT_PER_CY,
                    CW_DIM_CY, "closed form: wedge and two corner pyramids, level ground");
    out.total_cy =
        cw_step_add(w, "V", "V_p + V_e", out.exact_cy + out.ends_cy, CW_DIM_CY, prismoid);
    out.overbreak_cy = out.total_cy * in->overbreak_percent / CW_PERCENT;
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_trench_volume_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(VOLUME *)output = cw_trench_volume_of(input, working);
}

const cw_calc cw_calc_trench_volume = {
    .name = "trench-volume",
    .title = "Volume of the cut",
    .group = "trench",
    .about = "Volume from depths at sections, by average end area and exactly for depths that run "
             "straight between them.  One slope on both sides; sloped ends as under level ground.  "
             "This is what is dug, not what is paid: pay lines are the contract's.  " CAUTION,
    .source = "closed form: prismoid with depth linear between sections",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_trench_volume_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(VOLUME),
    .valid = valid,
    .run = run,
    .example = "bottom=16ft slope=1:1 stations=0ft,50ft depths=8ft,14ft",
};

/* ---- pit ---- */

static const char pit_form[] = "closed form: prism, wedges and corner pyramids";

#undef TYPE
#define TYPE cw_pit_input

static const cw_field pit_inputs[] = {
    NUMBER_IN("length", "L", CW_DIM_FT, 1.0, 20000.0, NULL, "of the bottom", range, TYPE,
              length_ft),
    NUMBER_IN("bottom", "b", CW_DIM_FT, 1.0, 500.0, NULL, "width of the bottom", range, TYPE,
              width_ft),
    NUMBER_IN("depth", "D", CW_DIM_FT, 0.5, 60.0, NULL, "below level ground", range, TYPE,
              depth_ft),
    NUMBER_IN("slope", "z", CW_DIM_SIDE_SLOPE, 0.0, 4.0, NULL, "of both sides", range, TYPE,
              side_slope),
    NUMBER_IN("end_slope", "z_e", CW_DIM_SIDE_SLOPE, 0.0, 30.0, NULL, "of both ends", range, TYPE,
              end_slope),
    NUMBER_IN("ramp_slope", "r", CW_DIM_SIDE_SLOPE, 1.0, 30.0, "10:1", "of a ramp for plant",
              "common practice", TYPE, ramp_slope),
    NUMBER_IN("ramp_width", "b_r", CW_DIM_FT, 0.0, 60.0, "0 ft", "of the ramp, 0: none", range,
              TYPE, ramp_width_ft),
};

static const cw_field pit_outputs[] = {
    OUT("volume", "V", CW_DIM_CY, "without a ramp, bank measure", cw_pit, volume_cy),
    OUT("one_end", "V_e", CW_DIM_CY, "part of one sloped end", cw_pit, one_end_cy),
    OUT("ramp", "V_r", CW_DIM_CY, "of a ramp that starts at a vertical end", cw_pit, ramp_cy),
    OUT("ramp_length", NULL, CW_DIM_FT, "in plan", cw_pit, ramp_length_ft),
    OUT("top_length", NULL, CW_DIM_FT, "at the surface", cw_pit, top_length_ft),
    OUT("top_width", "T", CW_DIM_FT, "at the surface", cw_pit, top_width_ft),
};

cw_pit cw_trench_pit(const cw_pit_input *in, cw_working *w)
{
    const double b = in->width_ft, z = in->side_slope, d = in->depth_ft;
    cw_pit out = {.top_length_ft = in->length_ft + 2.0 * in->end_slope * d,
                  .top_width_ft = b + 2.0 * z * d};
    const double middle =
        cw_step_add(w, "V_m", "L (b D + z D^2)",
                    in->length_ft * (b * d + z * d * d) / CW_CUFT_PER_CY, CW_DIM_CY, pit_form);
    out.one_end_cy = cw_step_add(w, "V_e", "z_e (b D^2/2 + 2/3 z D^3)",
                                 cw_trench_end_cuft(b, z, in->end_slope, d) / CW_CUFT_PER_CY,
                                 CW_DIM_CY, pit_form);
    out.volume_cy =
        cw_step_add(w, "V", "V_m + 2 V_e", middle + 2.0 * out.one_end_cy, CW_DIM_CY, pit_form);
    if (in->ramp_width_ft <= 0.0)
        return out;
    out.ramp_length_ft = in->ramp_slope * d;
    out.ramp_cy =
        cw_step_add(w, "V_r", "r (b_r D^2/2 + z D^3/3)",
                    cw_trench_ramp_cuft(in->ramp_width_ft, z, in->ramp_slope, d) / CW_CUFT_PER_CY,
                    CW_DIM_CY, "closed form: width constant, side slopes from its edges");
    return out;
}

static void run_pit(const void *input, void *output, cw_working *working)
{
    *(cw_pit *)output = cw_trench_pit(input, working);
}

static bool pit_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const cw_pit_input *in = input;
    if (in->ramp_width_ft <= in->width_ft)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "ramp_width %.6g ft is more than the bottom, %.6g ft; widen the pit or narrow the "
                "ramp",
                in->ramp_width_ft, in->width_ft);
    return false;
}

const cw_calc cw_calc_pit_volume = {
    .name = "pit-volume",
    .title = "Volume of a pit with sloped ends",
    .group = "trench",
    .about = "A pit under level ground with four sloped sides, and a ramp of constant width that "
             "leaves it at a vertical end; a ramp through a sloped end digs less.  " CAUTION,
    .source = "closed form: prism, wedges and corner pyramids",
    .inputs = pit_inputs,
    .input_count = COUNT(pit_inputs),
    .input_size = sizeof(cw_pit_input),
    .outputs = pit_outputs,
    .output_count = COUNT(pit_outputs),
    .output_size = sizeof(cw_pit),
    .valid = pit_valid,
    .run = run_pit,
    .example = "length=80ft bottom=16ft depth=12ft slope=1:1 end_slope=1.5:1 ramp_slope=10:1 "
               "ramp_width=14ft",
};
