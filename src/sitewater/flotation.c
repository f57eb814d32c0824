/* Levels are above the underside of the floor, for one foot of run. Up to the top of the box the
 * uplift is the water displaced and the fill over the top is above the water; from there on the
 * uplift stays and the fill loses its buoyancy until it is all under water (Archimedes). */
#include "sitewater_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char archimedes[] = "closed form: Archimedes, no friction on the sides";
static const char range[] = "common practice: range of cast boxes";

static const char *const states[] = {"closed", "open", NULL};
static const char *const firsts[] = {"floats", "fills", "never", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_flotation_input, member)

static const cw_field inputs[] = {
    CHOICE_IN("state", states, NULL, "closed: base with its top, empty; open: base without its top",
              NULL, cw_flotation_input, state),
    IN("weight", "w", CW_DIM_LB_PER_FT, 100.0, 200000.0, NULL, "of what stands there", range,
       weight_lb_per_ft),
    IN("outside_width", "B", CW_DIM_IN, 18.0, 840.0, NULL, "of the box", range, width_in),
    IN("outside_height", "H_t", CW_DIM_IN, 12.0, 480.0, NULL,
       "of the box; to the top of the wall when open", range, height_in),
    IN("span", "S", CW_DIM_IN, 12.0, 720.0, NULL, "clear width inside, for ballast", range,
       span_in),
    IN("rise", "R", CW_DIM_IN, 6.0, 440.0, NULL, "clear height inside; of the wall when open",
       range, rise_in),
    IN("cover", "H", CW_DIM_FT, 0.0, 100.0, "0 ft", "fill over the top", range, cover_ft),
    IN("soil", "g_s", CW_DIM_PCF, 80.0, 150.0, "@flotation.soil", "unit weight of that fill", NULL,
       soil_pcf),
    IN("water_weight", "g_w", CW_DIM_PCF, 60.0, 75.0, "@material.water",
       "unit weight of the water, more with mud in it", NULL, water_pcf),
    IN("safety", "F", CW_DIM_NONE, 1.0, 3.0, "@flotation.factor", "held weight over uplift", NULL,
       safety),
    IN("water", "h_w", CW_DIM_FT, 0.0, 200.0, NULL,
       "flood or groundwater above the underside of the floor", range, water_ft),
};

static const cw_field outputs[] = {
    CHOICE_OUT("first", firsts,
               "floats, or fills over its wall before, or floats at no level (factor 1)",
               cw_flotation, first),
    OUT("level", "h_1", CW_DIM_FT, "water above the underside at which that happens", cw_flotation,
        level_ft),
    OUT("safe_level", "h_F", CW_DIM_FT, "water above the underside that holds with the factor",
        cw_flotation, safe_ft),
    OUT("uplift", "U", CW_DIM_LB_PER_FT, "at the water given", cw_flotation, uplift_lb_per_ft),
    OUT("held", "G", CW_DIM_LB_PER_FT, "weight of box and fill there", cw_flotation,
        held_lb_per_ft),
    OUT("factor", "G/U", CW_DIM_NONE, "held over uplift, 0 without uplift", cw_flotation, factor),
    CHOICE_OUT("check", cw_verdict_words, "that against the factor wanted", cw_flotation, verdict),
    OUT("ballast", "G_b", CW_DIM_LB_PER_FT, "missing weight", cw_flotation, ballast_lb_per_ft),
    OUT("water_inside", "h_b", CW_DIM_FT, "water inside that gives it", cw_flotation,
        water_inside_ft),
    FLAG_OUT("water_holds", "it fits inside", cw_flotation, water_holds),
    OUT("fill", "H_b", CW_DIM_FT,
        "or: fill over the top in all (closed), on the floor inside, dry (open)", cw_flotation,
        fill_ft),
};

static bool fits_inside(const char *inner, double inner_in, const char *outer, double outer_in,
                        cw_pos where, cw_diags *diags)
{
    if (inner_in < outer_in)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "%s %.6g in does not lie inside %s %.6g in; check both", inner, inner_in, outer,
                outer_in);
    return false;
}

bool cw_flotation_input_valid(const cw_flotation_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    bool good = fits_inside("span", in->span_in, "outside_width", in->width_in, where, diags);
    good = fits_inside("rise", in->rise_in, "outside_height", in->height_in, where, diags) && good;
    if (in->state == CW_FLOAT_OPEN && in->cover_ft > 0.0) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "an open base cannot carry %.6g ft of fill over its top; leave cover out",
                    in->cover_ft);
        good = false;
    }
    return good;
}

/* What one level does. */
typedef struct box {
    double width_ft, height_ft;
} box;

static box box_of(const cw_flotation_input *in)
{
    return (box){in->width_in / CW_IN_PER_FT, in->height_in / CW_IN_PER_FT};
}

static double uplift_lb_per_ft(const cw_flotation_input *in, double water_ft)
{
    const box b = box_of(in);
    return in->water_pcf * b.width_ft * fmin(water_ft, b.height_ft);
}

static double held_lb_per_ft(const cw_flotation_input *in, double water_ft)
{
    const box b = box_of(in);
    const double wet_ft = fmin(fmax(0.0, water_ft - b.height_ft), in->cover_ft);
    const double fill_psf = in->soil_pcf * in->cover_ft - in->water_pcf * wet_ft;
    return in->weight_lb_per_ft + b.width_ft * fill_psf;
}

/* Level at which held = factor x uplift; false when there is none. */
static bool float_level_ft(const cw_flotation_input *in, double factor, double *level_ft)
{
    const box b = box_of(in);
    const double dry = held_lb_per_ft(in, 0.0);
    const double full = factor * uplift_lb_per_ft(in, b.height_ft);
    *level_ft = dry / (factor * in->water_pcf * b.width_ft);
    if (dry <= full)
        return true;
    const double over_ft = (dry - full) / (in->water_pcf * b.width_ft);
    *level_ft = b.height_ft + over_ft;
    return over_ft <= in->cover_ft && in->cover_ft > 0.0;
}

static void find_levels(cw_flotation *out, const cw_flotation_input *in, cw_working *w)
{
    const double height_ft = box_of(in).height_ft;
    const double whole_ft = height_ft + in->cover_ft;
    const bool open = in->state == CW_FLOAT_OPEN;
    const bool floats = float_level_ft(in, 1.0, &out->level_ft);
    out->first = floats ? CW_FLOAT_FLOATS : open ? CW_FLOAT_FILLS : CW_FLOAT_NEVER;
    if (!floats)
        out->level_ft = whole_ft;
    const bool limited = float_level_ft(in, in->safety, &out->safe_ft);
    if (!limited)
        out->safe_ft = whole_ft;
    cw_step_add(w, "h_1", floats ? "level at which G = U" : "top of the wall, or of the fill",
                out->level_ft, CW_DIM_FT, archimedes);
    cw_step_add(w, "h_F", limited ? "level at which G = F U" : "top of the wall, or of the fill",
                out->safe_ft, CW_DIM_FT, archimedes);
}

/* Fill over the top, all of it, that makes G = F U: dry above the water, buoyant below it. */
static double cover_needed_ft(const cw_flotation_input *in)
{
    const box b = box_of(in);
    const double needed_psf =
        (in->safety * uplift_lb_per_ft(in, in->water_ft) - in->weight_lb_per_ft) / b.width_ft;
    const double wet_ft = fmax(0.0, in->water_ft - b.height_ft);
    const double buoyant_pcf = in->soil_pcf - in->water_pcf;
    if (needed_psf <= 0.0)
        return 0.0;
    if (needed_psf <= buoyant_pcf * wet_ft)
        return needed_psf / buoyant_pcf;
    return wet_ft + (needed_psf - buoyant_pcf * wet_ft) / in->soil_pcf;
}

static void find_ballast(cw_flotation *out, const cw_flotation_input *in, cw_working *w)
{
    const double span_ft = in->span_in / CW_IN_PER_FT, rise_ft = in->rise_in / CW_IN_PER_FT;
    out->ballast_lb_per_ft =
        cw_step_add(w, "G_b", "F U - G, 0 at least",
                    fmax(0.0, in->safety * out->uplift_lb_per_ft - out->held_lb_per_ft),
                    CW_DIM_LB_PER_FT, archimedes);
    out->water_inside_ft =
        cw_step_add(w, "h_b", "G_b / (g_w S)", out->ballast_lb_per_ft / (in->water_pcf * span_ft),
                    CW_DIM_FT, "closed form: prism, haunches left out");
    out->water_holds = cw_meets(out->water_inside_ft, rise_ft);
    if (in->state == CW_FLOAT_OPEN)
        out->fill_ft = cw_step_add(w, "H_b", "G_b / (g_s S)",
                                   out->ballast_lb_per_ft / (in->soil_pcf * span_ft), CW_DIM_FT,
                                   "closed form: prism, haunches left out");
    else
        out->fill_ft = cw_step_add(w, "H_b", "fill in all at which G = F U, buoyant under water",
                                   cover_needed_ft(in), CW_DIM_FT, archimedes);
}

cw_flotation cw_sitewater_flotation(const cw_flotation_input *in, cw_working *working)
{
    cw_flotation out = {.factor = 0.0};
    find_levels(&out, in, working);
    out.uplift_lb_per_ft =
        cw_step_add(working, "U", "g_w B (h_w, H_t at most)", uplift_lb_per_ft(in, in->water_ft),
                    CW_DIM_LB_PER_FT, archimedes);
    out.held_lb_per_ft =
        cw_step_add(working, "G", "w + B (g_s H - g_w (h_w - H_t, within 0 to H))",
                    held_lb_per_ft(in, in->water_ft), CW_DIM_LB_PER_FT, archimedes);
    if (out.uplift_lb_per_ft > 0.0)
        out.factor = cw_step_add(working, "G/U", "G / U", out.held_lb_per_ft / out.uplift_lb_per_ft,
                                 CW_DIM_NONE, archimedes);
    const bool holds = cw_meets(in->safety * out.uplift_lb_per_ft, out.held_lb_per_ft);
    out.verdict = holds ? CW_HOLDS : CW_FAILS;
    find_ballast(&out, in, working);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_flotation_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_flotation *)output = cw_sitewater_flotation(input, working);
}

const cw_calc cw_calc_flotation = {
    .name = "flotation",
    .title = "Level at which a box floats",
    .group = "sitewater",
    .about = "Flood or groundwater at which an empty barrel, or a base before its top is on, "
             "floats, and the ballast that holds it.  One foot of run, alone: no friction on the "
             "sides, no help from the neighbours, no haunches in the ballast.  Leave a way for "
             "water to enter rather than trust ballast that has to be placed in a flood.",
    .source = "closed form: Archimedes, no friction on the sides",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_flotation_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_flotation),
    .valid = valid,
    .run = run,
    .example =
        "state=open weight=2400lb/ft outside_width=10ft outside_height=4ft span=8ft rise=3ft "
        "water=3ft",
};
