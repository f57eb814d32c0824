/* Ground under crawler tracks, and a timber mat under an outrigger. */
#include "lifting_internal.h"

static const char statics[] = "closed form: pressure over a strip, straight line";
static const char range[] = "common practice: range of cranes";

#define TYPE cw_track_input

static const cw_field track_inputs[] = {
    NUMBER_IN("total", "V", CW_DIM_LB, 1000.0, 5000000.0, NULL, "crane and load", range, TYPE,
              total_lb),
    NUMBER_IN("off_along", "e_x", CW_DIM_FT, -30.0, 30.0, "0 ft",
              "resultant from the middle, along the tracks", range, TYPE, along_ft),
    NUMBER_IN("off_across", "e_y", CW_DIM_FT, -20.0, 20.0, "0 ft", "the same, across them", range,
              TYPE, across_ft),
    NUMBER_IN("bearing_length", "L_t", CW_DIM_FT, 3.0, 60.0, NULL, "of a track on the ground",
              range, TYPE, bearing_ft),
    NUMBER_IN("track_width", "w", CW_DIM_FT, 0.5, 12.0, NULL, "of the shoes", range, TYPE,
              width_ft),
    NUMBER_IN("gauge", "g", CW_DIM_FT, 3.0, 60.0, NULL, "track middle to track middle", range, TYPE,
              gauge_ft),
    NUMBER_IN("allowed", "q_a", CW_DIM_PSF, 100.0, 20000.0, NULL,
              "bearing of the ground, by a geotechnical engineer", range, TYPE, allowed_psf),
};

static const cw_field track_outputs[] = {
    FLAG_OUT("stands", "the resultant is within the tracks", cw_track, stands),
    OUT("heavier_track", NULL, CW_DIM_LB, "its load", cw_track, heavy_lb),
    OUT("lighter_track", NULL, CW_DIM_LB, "its load", cw_track, light_lb),
    OUT("most", "q", CW_DIM_PSF, "pressure under the heavier track", cw_track, most_psf),
    OUT("least", NULL, CW_DIM_PSF, "at its other end; 0: part of it is off the ground", cw_track,
        least_psf),
    OUT("lighter_most", NULL, CW_DIM_PSF, "under the lighter track", cw_track, light_most_psf),
    OUT("contact", NULL, CW_DIM_FT, "length in contact", cw_track, contact_ft),
    CHOICE_OUT("check", cw_verdict_words, "pressure within the bearing of the ground", cw_track,
               verdict),
};

/* Pressure of one track whose load sits @p off_ft from its middle. */
static double end_psf(const cw_track_input *in, double load_lb, double side)
{
    const double off_ft = fabs(in->along_ft), area_sqft = in->bearing_ft * in->width_ft;
    if (off_ft <= in->bearing_ft / 6.0)
        return load_lb / area_sqft * (1.0 + side * 6.0 * off_ft / in->bearing_ft);
    if (side < 0.0)
        return 0.0;
    return 2.0 * load_lb / (3.0 * in->width_ft * (in->bearing_ft / 2.0 - off_ft));
}

cw_track cw_lifting_track(const cw_track_input *in, cw_working *w)
{
    cw_track out = {.verdict = CW_FAILS};
    const double half_ft = in->bearing_ft / 2.0, off_ft = fabs(in->along_ft);
    out.stands =
        off_ft < half_ft * (1.0 - CW_RATIO_SLACK) && fabs(in->across_ft) < in->gauge_ft / 2.0;
    cw_step_add(w, "V", "crane and load", in->total_lb, CW_DIM_LB, "given");
    if (!out.stands)
        return out;
    out.heavy_lb = cw_step_add(w, "V_1", "V (1/2 + e_y/g)",
                               in->total_lb * (0.5 + fabs(in->across_ft) / in->gauge_ft), CW_DIM_LB,
                               "closed form: statics");
    out.light_lb = in->total_lb - out.heavy_lb;
    out.most_psf = cw_step_add(
        w, "q", "V_1/(L_t w) (1 + 6 e_x/L_t); with e_x over L_t/6: 2 V_1/(3 w (L_t/2 - e_x))",
        end_psf(in, out.heavy_lb, 1.0), CW_DIM_PSF, statics);
    out.least_psf = end_psf(in, out.heavy_lb, -1.0);
    out.light_most_psf = end_psf(in, out.light_lb, 1.0);
    out.contact_ft = fmin(in->bearing_ft, 3.0 * (half_ft - off_ft));
    out.verdict = cw_lifting_verdict(out.most_psf, in->allowed_psf);
    return out;
}

static void run_track(const void *input, void *output, cw_working *working)
{
    *(cw_track *)output = cw_lifting_track(input, working);
}

const cw_calc cw_calc_track_pressure = {
    .name = "track-pressure",
    .title = "Pressure under crawler tracks",
    .group = "lifting",
    .about =
        "Each track as a strip with a straight line of pressure, part of it off the ground when "
        "the resultant leaves the middle third.  Take the offsets for the worst boom direction: "
        "over a corner both count.  The maker's printed pressures govern.",
    .source = "closed form: statics",
    .inputs = track_inputs,
    .input_count = COUNT(track_inputs),
    .input_size = sizeof(cw_track_input),
    .outputs = track_outputs,
    .output_count = COUNT(track_outputs),
    .output_size = sizeof(cw_track),
    .run = run_track,
    .example = "total=400kip off_along=3ft bearing_length=25ft track_width=3.5ft gauge=20ft "
               "allowed=4000psf",
};

#undef TYPE
#define TYPE cw_mat_input

static const char mat_source[] = "bearing length method for crane mats (engineering paper)";

static const cw_field mat_inputs[] = {
    NUMBER_IN("load", "P", CW_DIM_LB, 100.0, 2000000.0, NULL, "of the float or outrigger", range,
              TYPE, load_lb),
    NUMBER_IN("width", "B", CW_DIM_FT, 0.5, 20.0, "4 ft", "of the mat", "common practice", TYPE,
              width_ft),
    NUMBER_IN("length", "L", CW_DIM_FT, 1.0, 60.0, "20 ft", "of the mat", "common practice", TYPE,
              length_ft),
    NUMBER_IN("thickness", "d", CW_DIM_IN, 2.0, 36.0, "12 in", "of the mat", "common practice",
              TYPE, thickness_in),
    NUMBER_IN("unit_weight", NULL, CW_DIM_PCF, 20.0, 500.0, "@mat.oak_weight", "of the mat", NULL,
              TYPE, unit_pcf),
    NUMBER_IN("float", "C", CW_DIM_FT, 0.3, 12.0, NULL, "width of the float along the mat", range,
              TYPE, float_ft),
    NUMBER_IN("soil", "q_a", CW_DIM_PSF, 100.0, 20000.0, NULL,
              "bearing of the ground, by a geotechnical engineer", range, TYPE, soil_psf),
    NUMBER_IN("bending", "F_b", CW_DIM_PSI, 100.0, 36000.0, "@mat.oak_bending",
              "allowed in the mat", NULL, TYPE, bending_psi),
    NUMBER_IN("shear", "F_v", CW_DIM_PSI, 20.0, 20000.0, "@mat.oak_shear", "allowed in the mat",
              NULL, TYPE, shear_psi),
};

static const cw_field mat_outputs[] = {
    OUT("mat_weight", NULL, CW_DIM_LB, "of one mat", cw_mat, weight_lb),
    OUT("area", NULL, CW_DIM_SQFT, "that the ground needs", cw_mat, area_sqft),
    OUT("length_needed", NULL, CW_DIM_FT, "of the mat in bearing", cw_mat, needed_ft),
    OUT("overhang", NULL, CW_DIM_FT, "beyond the float", cw_mat, cantilever_ft),
    OUT("pressure", NULL, CW_DIM_PSF, "that bends the mat", cw_mat, pressure_psf),
    OUT("moment", NULL, CW_DIM_FT_LB, "at the float", cw_mat, moment_ft_lb),
    OUT("bending_stress", NULL, CW_DIM_PSI, "in the mat", cw_mat, bending_psi),
    OUT("shear_force", NULL, CW_DIM_LB, "a thickness from the float", cw_mat, shear_lb),
    OUT("shear_stress", NULL, CW_DIM_PSI, "in the mat", cw_mat, shear_psi),
    CHOICE_OUT("ground_check", cw_verdict_words, "the mat is long enough", cw_mat, verdict_soil),
    CHOICE_OUT("bending_check", cw_verdict_words, "of the mat", cw_mat, verdict_bending),
    CHOICE_OUT("shear_check", cw_verdict_words, "of the mat", cw_mat, verdict_shear),
};

cw_mat cw_lifting_mat(const cw_mat_input *in, cw_working *w)
{
    cw_mat out = {0};
    const double thick_ft = in->thickness_in / CW_IN_PER_FT, width_in = in->width_ft * CW_IN_PER_FT;
    out.weight_lb =
        cw_step_add(w, "W_m", "B L d g", in->width_ft * in->length_ft * thick_ft * in->unit_pcf,
                    CW_DIM_LB, "definition");
    out.area_sqft =
        cw_step_add(w, "A", "(P + W_m)/q_a", (in->load_lb + out.weight_lb) / in->soil_psf,
                    CW_DIM_SQFT, mat_source);
    out.needed_ft =
        cw_step_add(w, "L_r", "A/B", out.area_sqft / in->width_ft, CW_DIM_FT, mat_source);
    // More than the mat's length cannot bear; less than the float's width is the float itself.
    const double bearing_ft = fmin(in->length_ft, fmax(out.needed_ft, in->float_ft));
    out.cantilever_ft =
        cw_step_add(w, "L_c", "(L_r - C)/2, L at most",
                    fmax(0.0, (bearing_ft - in->float_ft) / 2.0), CW_DIM_FT, mat_source);
    out.pressure_psf = cw_step_add(w, "q", "P/(L_r B)", in->load_lb / (bearing_ft * in->width_ft),
                                   CW_DIM_PSF, mat_source);
    const double line = out.pressure_psf * in->width_ft;
    out.moment_ft_lb =
        cw_step_add(w, "M", "q B L_c^2/2", line * out.cantilever_ft * out.cantilever_ft / 2.0,
                    CW_DIM_FT_LB, mat_source);
    out.bending_psi = cw_step_add(w, "f_b", "6 M/(B d^2)",
                                  6.0 * out.moment_ft_lb * CW_IN_PER_FT /
                                      (width_in * in->thickness_in * in->thickness_in),
                                  CW_DIM_PSI, "closed form: rectangular section");
    out.shear_lb =
        cw_step_add(w, "V", "q B (L_c - d)", line * fmax(0.0, out.cantilever_ft - thick_ft),
                    CW_DIM_LB, "shear of timber at a depth from the support (NDS)");
    out.shear_psi =
        cw_step_add(w, "f_v", "1.5 V/(B d)", 1.5 * out.shear_lb / (width_in * in->thickness_in),
                    CW_DIM_PSI, "closed form: rectangular section");
    out.verdict_soil = cw_lifting_verdict(out.needed_ft, in->length_ft);
    out.verdict_bending = cw_lifting_verdict(out.bending_psi, in->bending_psi);
    out.verdict_shear = cw_lifting_verdict(out.shear_psi, in->shear_psi);
    return out;
}

static void run_mat(const void *input, void *output, cw_working *working)
{
    *(cw_mat *)output = cw_lifting_mat(input, working);
}

const cw_calc cw_calc_crane_mat = {
    .name = "crane-mat",
    .title = "Timber mat under an outrigger",
    .group = "lifting",
    .about =
        "The length of mat that the ground needs, and bending and shear of the mat at that length. "
        " Ground bearing comes from a geotechnical engineer; voids, pipes and fill under the mat "
        "are the controlling entity's to tell (29 CFR 1926.1402).  Ask the yard for the strength "
        "of its mats.",
    .source = "bearing length method for crane mats; closed forms",
    .inputs = mat_inputs,
    .input_count = COUNT(mat_inputs),
    .input_size = sizeof(cw_mat_input),
    .outputs = mat_outputs,
    .output_count = COUNT(mat_outputs),
    .output_size = sizeof(cw_mat),
    .run = run_mat,
    .example = "load=100kip float=2.5ft soil=3ksf",
};
