#include "grade_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static const char parabola[] = "closed form: parabola";
static const char two_grades[] = "closed form: two straight grades";
static const char range[] = "common practice: range of culvert runs";

static const char *const shapes[] = {"parabola", "break", NULL};

#define TYPE cw_camber_input

static const cw_field inputs[] = {
    CHOICE_IN("shape", shapes, "parabola",
              "of the cambered grade; break: flat upstream half, steep downstream half",
              "FHWA Culvert Inspection Manual 1986", TYPE, shape),
    NUMBER_IN("length", "L", CW_DIM_FT, 10.0, 5000.0, NULL, "of the run", range, TYPE, length_ft),
    NUMBER_IN("slope", "S", CW_DIM_SLOPE, 0.0, 0.3, NULL, "mean grade, rising upstream", range,
              TYPE, slope),
    NUMBER_IN("rise", "m", CW_DIM_FT, 0.0, 10.0, NULL,
              "of the middle above the mean grade, as laid", range, TYPE, rise_ft),
    NUMBER_IN("settlement", "s_m", CW_DIM_FT, 0.0, 10.0, "0 ft",
              "expected at the middle, a parabola that is 0 at both ends", range, TYPE, settle_ft),
    NUMBER_IN("piece", "L_p", CW_DIM_FT, 1.0, 40.0, NULL, "laying length", range, TYPE, piece_ft),
    NUMBER_IN("outside_height", "H_o", CW_DIM_IN, 24.0, 480.0, NULL, "of the box", range, TYPE,
              height_in),
    NUMBER_IN("gap_min", "g_min", CW_DIM_IN, 0.0, 3.0, "@joint.gap_min", "of a joint", NULL, TYPE,
              gap_min_in),
    NUMBER_IN("gap_max", "g_max", CW_DIM_IN, 0.0, 3.0, "@joint.gap_max", "of a joint", NULL, TYPE,
              gap_max_in),
    NUMBER_IN("distance", "x", CW_DIM_FT, 0.0, 5000.0, "0 ft",
              "from the outlet, where the rise is wanted", range, TYPE, distance_ft),
    NUMBER_IN("pond", NULL, CW_DIM_IN, 0.0, 24.0, "0.5 in", "water that may stand in the barrel",
              "common practice: the step allowed between inverts", TYPE, pond_in),
};

static const cw_field outputs[] = {
    OUT("rise_here", "c", CW_DIM_FT, "above the mean grade at the distance", cw_camber,
        rise_here_ft),
    OUT("rise_max_grade", NULL, CW_DIM_FT, "largest rise without adverse grade", cw_camber,
        rise_max_grade_ft),
    OUT("rise_max_gap", NULL, CW_DIM_FT, "largest rise that the gaps can turn", cw_camber,
        rise_max_gap_ft),
    OUT("gap_change", NULL, CW_DIM_IN, "gap at the top less gap at the floor, one joint", cw_camber,
        gap_change_in),
    OUT("rotation", "p", CW_DIM_NONE, "of one joint, rise over run", cw_camber, rotation),
    OUT("longer", NULL, CW_DIM_IN, "the floor than its straight chord", cw_camber, longer_in),
    OUT("pond_laid", NULL, CW_DIM_IN, "deepest standing water before settlement", cw_camber,
        pond_laid_in),
    OUT("pond_settled", NULL, CW_DIM_IN, "deepest standing water after it", cw_camber,
        pond_settled_in),
    CHOICE_OUT("gaps", cw_verdict_words, "the turn of a joint against the band of gaps", cw_camber,
               verdict_gap),
    CHOICE_OUT("laid", cw_verdict_words, "standing water before settlement", cw_camber,
               verdict_laid),
    CHOICE_OUT("settled", cw_verdict_words, "standing water after it", cw_camber, verdict_settled),
};

/* Height above the mean grade of a parabola with @p middle_ft at mid-length, x as a share of L. */
static double parabola_ft(double middle_ft, double share)
{
    return 4.0 * middle_ft * share * (1.0 - share);
}

static double rise_ft(const cw_camber_input *in, double share)
{
    if (in->shape == CW_CAMBER_PARABOLA)
        return parabola_ft(in->rise_ft, share);
    return in->rise_ft * (share < 0.5 ? 2.0 * share : 2.0 * (1.0 - share));
}

/* Deepest standing water, with @p settled of the settlement come.  Floors are straight between
 * joints, so that the joints decide. */
static double pond_ft(const cw_camber_input *in, double settled)
{
    const int pieces = (int)ceil(in->length_ft / in->piece_ft - CW_RATIO_SLACK);
    double highest = 0.0, deepest = 0.0; // at the outlet the floor is on grade
    for (int i = 1; i <= pieces; i++) {
        const double x = fmin(i * in->piece_ft, in->length_ft), share = x / in->length_ft;
        const double floor_ft =
            in->slope * x + rise_ft(in, share) - settled * parabola_ft(in->settle_ft, share);
        highest = fmax(highest, floor_ft);
        deepest = fmax(deepest, highest - floor_ft);
    }
    return deepest;
}

bool cw_camber_input_valid(const cw_camber_input *in, cw_pos where, cw_diags *diags)
{
    bool good = true;
    if (in->distance_ft > in->length_ft) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "distance %.6g ft lies past the run of %.6g ft; check both", in->distance_ft,
                    in->length_ft);
        good = false;
    }
    if (in->piece_ft > in->length_ft) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "a piece of %.6g ft is longer than the run of %.6g ft; check both",
                    in->piece_ft, in->length_ft);
        good = false;
    }
    if (in->gap_max_in < in->gap_min_in) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "gap_max %.6g in is below gap_min %.6g in; exchange them", in->gap_max_in,
                    in->gap_min_in);
        good = false;
    }
    return good;
}

/* Turn of one joint for one foot of rise: all joints share it, or the middle one takes it all. */
static double turn_per_rise(const cw_camber_input *in)
{
    const double l = in->length_ft;
    return in->shape == CW_CAMBER_PARABOLA ? 8.0 * in->piece_ft / (l * l) : 4.0 / l;
}

cw_camber cw_grade_camber(const cw_camber_input *in, cw_working *w)
{
    const bool round = in->shape == CW_CAMBER_PARABOLA;
    const char *source = round ? parabola : two_grades;
    const double m = in->rise_ft, l = in->length_ft;
    cw_camber out = {.rotation = 0.0};
    out.rise_here_ft = cw_step_add(
        w, "c", round ? "4 m (x/L)(1 - x/L)" : "2 m times the nearer of x/L and 1 - x/L",
        rise_ft(in, in->distance_ft / l), CW_DIM_FT, source);
    out.rise_max_grade_ft = cw_step_add(w, "m_1", round ? "S L/4" : "S L/2",
                                        in->slope * l / (round ? 4.0 : 2.0), CW_DIM_FT, source);
    out.rotation = cw_step_add(w, "p", round ? "8 m L_p/L^2" : "4 m/L, at the middle joint",
                               turn_per_rise(in) * m, CW_DIM_NONE, source);
    out.gap_change_in =
        cw_step_add(w, "d", "H_o p", in->height_in * out.rotation, CW_DIM_IN, source);
    const double band = in->gap_max_in - in->gap_min_in;
    out.rise_max_gap_ft =
        cw_step_add(w, "m_2", "rise at which d = g_max - g_min",
                    band / (in->height_in * turn_per_rise(in)), CW_DIM_FT, source);
    out.longer_in = cw_step_add(w, "e", round ? "8 m^2/(3 L)" : "2 m^2/L",
                                (round ? 8.0 / 3.0 : 2.0) * m * m / l * CW_IN_PER_FT, CW_DIM_IN,
                                "series to second order");
    out.pond_laid_in = cw_step_add(w, "w_0", "highest point downstream - floor, joint by joint",
                                   pond_ft(in, 0.0) * CW_IN_PER_FT, CW_DIM_IN, source);
    out.pond_settled_in = cw_step_add(w, "w_1", "the same with the settlement",
                                      pond_ft(in, 1.0) * CW_IN_PER_FT, CW_DIM_IN, source);
    out.verdict_gap = cw_grade_verdict(out.gap_change_in, band);
    out.verdict_laid = cw_grade_verdict(out.pond_laid_in, in->pond_in);
    out.verdict_settled = cw_grade_verdict(out.pond_settled_in, in->pond_in);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_camber_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_camber *)output = cw_grade_camber(input, working);
}

const cw_calc cw_calc_camber = {
    .name = "camber",
    .title = "Camber for settlement",
    .group = "grade",
    .about =
        "Rise to lay for an expected settlement, what it does to the joints, and whether water "
        "stands before and after.  The settlement itself is the engineer's.  Under high fill "
        "the run also lengthens toward its ends by spreading, which is not counted.",
    .source = "FHWA Culvert Inspection Manual 1986; closed form: parabola, two straight grades",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_camber_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_camber),
    .valid = valid,
    .run = run,
    .example = "length=120ft slope=1% rise=0.25ft settlement=0.25ft piece=6ft outside_height=10ft "
               "distance=30ft",
};
