#include "closing_internal.h"

#include <math.h>

#include "cw/units.h"

static const char incompressible[] = "derived: the sealant keeps its volume";
static const char range[] = "common practice: range of joints and ropes";

static const char *const states[] = {"fits", "too-low", "too-full", NULL};

#define TYPE cw_rope_input

static const cw_field inputs[] = {
    NUMBER_IN("annulus_min", "a_1", CW_DIM_IN, 0.05, 3.0, NULL,
              "least distance of the mating faces, by tolerance", range, TYPE, annulus_min_in),
    NUMBER_IN("annulus_max", "a_2", CW_DIM_IN, 0.05, 3.0, NULL, "largest distance", range, TYPE,
              annulus_max_in),
    NUMBER_IN("face", "j", CW_DIM_IN, 0.5, 12.0, NULL,
              "length of the joint face along the mating depth", range, TYPE, face_in),
    NUMBER_IN("compression", "c", CW_DIM_PERCENT, 5.0, 80.0, "@sealant.compression",
              "wanted at the largest distance", NULL, TYPE, compression_percent),
    COUNT_IN("rows", "n", 1.0, 4.0, "1", "ropes side by side", "common practice", TYPE, rows),
    OPTION_IN("width", "w", CW_DIM_IN, 0.25, 4.0, "of one rope; as high as wide when not given",
              range, TYPE, width_in, has_width),
    LIST_IN("sizes", "h", CW_DIM_IN, 0.1, 4.0,
            "0.5 in,0.625 in,0.75 in,0.875 in,1 in,1.25 in,1.5 in", "heights to be had",
            "common practice: nominal sizes", TYPE, sizes_in),
    OPTION_IN("temperature", NULL, CW_DIM_DEGF, -40.0, 160.0, "of concrete and sealant", range,
              TYPE, temperature_f, has_temperature),
    NUMBER_IN("temperature_min", NULL, CW_DIM_DEGF, -40.0, 120.0, "@sealant.temperature",
              "without warming or primer", NULL, TYPE, temperature_min_f),
};

static const cw_field outputs[] = {
    CHOICE_OUT("result", states,
               "too-low: no size is high enough; too-full: a size that is high enough holds the "
               "joint open when it is tight",
               cw_rope, state),
    OUT("size", "h", CW_DIM_IN, "height of the rope; with no fit, the one the figures are for",
        cw_rope, size_in),
    OUT("height_needed", NULL, CW_DIM_IN, "for the compression at the largest distance", cw_rope,
        height_needed_in),
    OUT("squeeze", NULL, CW_DIM_PERCENT, "at the largest distance", cw_rope, squeeze_percent),
    OUT("squeeze_tight", NULL, CW_DIM_PERCENT, "at the least distance", cw_rope,
        squeeze_tight_percent),
    OUT("fill", "f", CW_DIM_NONE, "of the joint face at the least distance, 1 at most", cw_rope,
        fill),
    OUT("squeezed_width", NULL, CW_DIM_IN, "of all rows at the least distance", cw_rope,
        squeezed_in),
    OUT("annulus_max_fit", NULL, CW_DIM_IN,
        "largest distance that a listed size would seal without overfilling; 0: none", cw_rope,
        annulus_max_in),
    CHOICE_OUT("check", cw_verdict_words, "a size fits", cw_rope, verdict),
    CHOICE_OUT("temperature_check", cw_verdict_words, "undecided without a temperature", cw_rope,
               verdict_temperature),
};

bool cw_rope_input_valid(const cw_rope_input *in, cw_pos where, cw_diags *diags)
{
    if (in->annulus_min_in <= in->annulus_max_in)
        return true;
    cw_diag_add(diags, where, CW_E_CONFLICT,
                "annulus_max %.6g in is below annulus_min %.6g in; exchange them",
                in->annulus_max_in, in->annulus_min_in);
    return false;
}

static double section_sqin(const cw_rope_input *in, double height_in)
{
    return height_in * (in->has_width ? in->width_in : height_in);
}

static double fill_of(const cw_rope_input *in, double height_in)
{
    return in->rows * section_sqin(in, height_in) / (in->annulus_min_in * in->face_in);
}

/* The least listed size of at least @p height_in, or the largest when none is. */
static double choose(const cw_list *sizes, double height_in, bool *found)
{
    double best = 0.0, largest = 0.0;
    *found = false;
    for (int i = 0; i < sizes->count; i++) {
        const double size = sizes->items[i];
        largest = fmax(largest, size);
        if (cw_meets(height_in, size) && (!*found || size < best)) {
            best = size;
            *found = true;
        }
    }
    return *found ? best : largest;
}

static double widest_sealed_in(const cw_rope_input *in)
{
    double widest = 0.0;
    for (int i = 0; i < in->sizes_in.count; i++) {
        const double size = in->sizes_in.items[i];
        if (cw_meets(fill_of(in, size), 1.0))
            widest = fmax(widest, size * (1.0 - in->compression_percent / CW_PERCENT));
    }
    return widest >= in->annulus_min_in ? widest : 0.0;
}

cw_rope cw_closing_rope(const cw_rope_input *in, cw_working *w)
{
    cw_rope out = {.verdict = CW_FAILS, .verdict_temperature = CW_UNDECIDED};
    out.height_needed_in =
        cw_step_add(w, "h_0", "a_2 / (1 - c)",
                    in->annulus_max_in / (1.0 - in->compression_percent / CW_PERCENT), CW_DIM_IN,
                    "definition of compression");
    bool high_enough;
    out.size_in = cw_step_add(w, "h", "least listed size from h_0 on, else the largest",
                              choose(&in->sizes_in, out.height_needed_in, &high_enough), CW_DIM_IN,
                              "common practice: nominal sizes");
    out.squeeze_percent =
        cw_step_add(w, "c_2", "1 - a_2/h", (1.0 - in->annulus_max_in / out.size_in) * CW_PERCENT,
                    CW_DIM_PERCENT, "definition of compression");
    out.squeeze_tight_percent =
        cw_step_add(w, "c_1", "1 - a_1/h", (1.0 - in->annulus_min_in / out.size_in) * CW_PERCENT,
                    CW_DIM_PERCENT, "definition of compression");
    out.fill = cw_step_add(w, "f", "n h w / (a_1 j)", fill_of(in, out.size_in), CW_DIM_NONE,
                           incompressible);
    out.squeezed_in = cw_step_add(w, "w_1", "n h w / a_1",
                                  in->rows * section_sqin(in, out.size_in) / in->annulus_min_in,
                                  CW_DIM_IN, incompressible);
    out.annulus_max_in = cw_step_add(w, "a_f", "largest h (1 - c) with f of 1 at most",
                                     widest_sealed_in(in), CW_DIM_IN, incompressible);
    out.state = !high_enough               ? CW_ROPE_TOO_LOW
                : !cw_meets(out.fill, 1.0) ? CW_ROPE_TOO_FULL
                                           : CW_ROPE_FITS;
    if (out.state == CW_ROPE_FITS)
        out.verdict = CW_HOLDS;
    if (in->has_temperature)
        out.verdict_temperature = cw_closing_verdict(in->temperature_min_f, in->temperature_f);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_rope_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_rope *)output = cw_closing_rope(input, working);
}

const cw_calc cw_calc_sealant_size = {
    .name = "sealant-size",
    .title = "Sealant size that fits the joint",
    .group = "closing",
    .about =
        "The least rope that is squeezed enough when the joint is wide and still has room when "
        "it is tight.  When none fits: closer tolerance, two thinner rows, or rely on the "
        "wrap.  A gravity-set piece squeezes the rope only on faces that its weight presses "
        "together; whether the weight is enough is the supplier's curve.",
    .source = "derived: the sealant keeps its volume; compression by common practice",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_rope_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_rope),
    .valid = valid,
    .run = run,
    .example = "annulus_min=0.375in annulus_max=0.5in face=3.5in",
};
