/* Fluid fill between barrels against one wall.  The wall is held at its foot, the top of the floor,
 * and, where the top is on, propped at its seat. */
#include "structures_internal.h"

#include <math.h>

#include "cw/units.h"

static const char cantilever[] = "closed form: cantilever under fluid pressure";
static const char propped[] = "closed form: propped cantilever under fluid pressure";
static const char archimedes[] = "closed form: Archimedes";
static const char practice[] = "common practice";
static const char range[] = "common practice: range of cast boxes";

enum { HALVINGS = 80 };

static const char *const limits[] = {"wall", "sliding", "floating", "none", NULL};

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, cw_struct_fill_input, member)

static const cw_field inputs[] = {
    FLAG_IN("top_on", "no", "lid or hood set, its seat tight so that it props the wall", NULL,
            cw_struct_fill_input, top_on),
    IN("wall", "h_w", CW_DIM_FT, 0.5, 30.0, NULL, "clear height of the wall, to the seat", range,
       wall_ft),
    IN("floor", "t_f", CW_DIM_FT, 0.0, 5.0, NULL, "floor thickness; the fill stands beside it",
       range, floor_ft),
    OPTION_IN("allowed", "M_a", CW_DIM_FT_LB, 1.0, 1e6,
              "moment the wall may take, per ft of run, either face: the engineer's", range,
              cw_struct_fill_input, allowed_ft_lb, has_allowed),
    IN("load_factor", NULL, CW_DIM_NONE, 1.0, 3.0, "1",
       "on the pressure; 1.35 with a factored resistance", practice, load_factor),
    IN("fill_weight", "g", CW_DIM_PCF, 30.0, 170.0, "@fill.unit_weight",
       "unit weight of the wet fill", NULL, fill_pcf),
    IN("set", "z", CW_DIM_FT, 0.0, 30.0, "0 ft",
       "earlier lifts that have set, above the floor; they seal what is beneath", practice, set_ft),
    IN("weight", "W", CW_DIM_LB_PER_FT, 1.0, 200000.0, NULL,
       "of the empty barrel as it stands, per ft of run", range, weight_lb_per_ft),
    IN("outside_width", "B", CW_DIM_FT, 1.0, 70.0, NULL, "of the barrel", range, outside_ft),
    IN("friction", "mu", CW_DIM_NONE, 0.05, 1.0, "@structure.friction", "under the floor", NULL,
       friction),
    IN("safety_slide", "F_s", CW_DIM_NONE, 1.0, 3.0, "@structure.safety.slide", "against sliding",
       NULL, safety_slide),
    IN("safety_float", "F_u", CW_DIM_NONE, 1.0, 3.0, "@flotation.factor", "against floating", NULL,
       safety_float),
    FLAG_IN("both_sides", "no", "the fill stands equally high on both sides: no push", NULL,
            cw_struct_fill_input, both_sides),
    FLAG_IN("beneath", "yes", "the fill may run under the floor", NULL, cw_struct_fill_input,
            beneath),
};

static const cw_field outputs[] = {
    OUT("lift", "h", CW_DIM_FT, "allowed height of this lift, above the floor or the set fill",
        cw_struct_fill, lift_ft),
    CHOICE_OUT("governs", limits, "what limits it; none when the wall's top comes first",
               cw_struct_fill, governs),
    CHOICE_OUT("check", cw_verdict_words, "undecided while the wall's moment is not known",
               cw_struct_fill, verdict),
    OPTION_OUT("by_wall", "h_1", CW_DIM_FT, "height that the wall's moment allows", cw_struct_fill,
               by_wall_ft, has_wall),
    OPTION_OUT("by_sliding", "h_2", CW_DIM_FT,
               "height that friction holds, no fill on the other side", cw_struct_fill,
               by_sliding_ft, has_sliding),
    OPTION_OUT("by_floating", "h_3", CW_DIM_FT, "height that weight holds", cw_struct_fill,
               by_floating_ft, has_floating),
    OUT("foot", "M_f", CW_DIM_FT_LB, "at the foot, at that lift, not factored: tension outside",
        cw_struct_fill, foot_ft_lb),
    OUT("inside", "M_s", CW_DIM_FT_LB, "within the wall, tension inside; 0 without a top",
        cw_struct_fill, span_ft_lb),
    OUT("strut", "R", CW_DIM_LB_PER_FT, "push on the top's seat; 0 without a top", cw_struct_fill,
        strut_lb),
    OUT("push", "F", CW_DIM_LB_PER_FT, "on the whole barrel, 0 with the fill on both sides",
        cw_struct_fill, push_lb),
};

bool cw_struct_fill_valid(const cw_struct_fill_input *in, cw_pos where, cw_diags *diags)
{
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    if (in->set_ft < in->wall_ft)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "set fill %.6g ft reaches the top of a wall of %.6g ft: no lift is left; check set",
                in->set_ft, in->wall_ft);
    return false;
}

/* Moments and prop of a wall under one lift. */
typedef struct wall_force {
    double foot, span, strut;
} wall_force;

static wall_force force_of(const cw_struct_fill_input *in, double lift_ft)
{
    // Gauss-Legendre, three points: exact for the quartic under the integral.
    static const double at[3] = {0.1127016653792583, 0.5, 0.8872983346207417};
    static const double weight[3] = {5.0 / 18.0, 8.0 / 18.0, 5.0 / 18.0};
    const double g = in->fill_pcf, height = in->wall_ft;
    wall_force out = {.foot = g * lift_ft * lift_ft / 2.0 * (in->set_ft + lift_ft / 3.0)};
    if (!in->top_on || !(lift_ft > 0.0))
        return out;
    for (int i = 0; i < 3; i++) {
        const double s = at[i] * lift_ft, z = in->set_ft + s;
        // Prop of a force P at z above the foot: P z^2 (3 H - z) / (2 H^3).
        out.strut += weight[i] * lift_ft * g * (lift_ft - s) * z * z * (3.0 * height - z) /
                     (2.0 * height * height * height);
    }
    out.foot -= out.strut * height;
    // No shear at a depth d below the level where g d^2/2 equals the prop.
    const double depth = sqrt(2.0 * out.strut / g);
    out.span =
        out.strut * (height - in->set_ft - lift_ft + depth) - g * depth * depth * depth / 6.0;
    return out;
}

static double by_wall_ft(const cw_struct_fill_input *in)
{
    const double most_ft = in->wall_ft - in->set_ft;
    double low = 0.0, high = most_ft;
    if (!in->top_on && in->set_ft == 0.0)
        return cbrt(6.0 * in->allowed_ft_lb / (in->load_factor * in->fill_pcf));
    for (int i = 0; i < HALVINGS; i++) {
        const double lift = i == 0 ? most_ft : (low + high) / 2.0;
        const wall_force f = force_of(in, lift);
        if (in->load_factor * fmax(f.foot, f.span) <= in->allowed_ft_lb) {
            if (i == 0)
                return most_ft;
            low = lift;
        } else {
            high = lift;
        }
    }
    return low;
}

/* Friction against the push; fill beneath the floor takes weight off it. */
static double by_sliding_ft(const cw_struct_fill_input *in)
{
    const double hold_lb = in->friction * in->weight_lb_per_ft;
    const double half = in->safety_slide * in->fill_pcf / 2.0;
    if (in->set_ft > 0.0)
        return sqrt(hold_lb / half);
    const double lost = in->beneath ? in->friction * in->fill_pcf * in->outside_ft : 0.0;
    const double depth = (-lost + sqrt(lost * lost + 4.0 * half * hold_lb)) / (2.0 * half);
    return fmax(0.0, depth - in->floor_ft);
}

static double by_floating_ft(const cw_struct_fill_input *in)
{
    const double depth = in->weight_lb_per_ft / (in->safety_float * in->fill_pcf * in->outside_ft);
    return fmax(0.0, depth - in->floor_ft);
}

static double push_lb(const cw_struct_fill_input *in, double lift_ft)
{
    if (in->both_sides)
        return 0.0;
    const double depth_ft = lift_ft + (in->set_ft > 0.0 ? 0.0 : in->floor_ft);
    return in->fill_pcf * depth_ft * depth_ft / 2.0;
}

static void take_limit(cw_struct_fill *out, double lift_ft, int limit)
{
    if (lift_ft >= out->lift_ft)
        return;
    out->lift_ft = lift_ft;
    out->governs = limit;
}

cw_struct_fill cw_struct_wall_fill(const cw_struct_fill_input *in, cw_working *working)
{
    cw_struct_fill out = {.governs = CW_STRUCT_BY_SEAT,
                          .lift_ft = in->wall_ft - in->set_ft,
                          .verdict = in->has_allowed ? CW_HOLDS : CW_UNDECIDED,
                          .has_wall = in->has_allowed,
                          .has_sliding = !in->both_sides,
                          .has_floating = in->beneath && in->set_ft == 0.0};
    const char *source = in->top_on ? propped : cantilever;
    if (out.has_wall) {
        out.by_wall_ft = cw_step_add(working, "h_1",
                                     in->top_on ? "propped wall: greatest moment = M_a / factor"
                                                : "g h^2/2 (z + h/3) = M_a / factor",
                                     by_wall_ft(in), CW_DIM_FT, source);
        take_limit(&out, out.by_wall_ft, CW_STRUCT_BY_WALL);
    }
    if (out.has_sliding) {
        out.by_sliding_ft =
            cw_step_add(working, "h_2", "F_s g d^2/2 = mu (W - uplift), d = h + t_f",
                        by_sliding_ft(in), CW_DIM_FT, practice);
        take_limit(&out, out.by_sliding_ft, CW_STRUCT_BY_SLIDING);
    }
    if (out.has_floating) {
        out.by_floating_ft = cw_step_add(working, "h_3", "W / (F_u g B) - t_f", by_floating_ft(in),
                                         CW_DIM_FT, archimedes);
        take_limit(&out, out.by_floating_ft, CW_STRUCT_BY_FLOATING);
    }
    const wall_force f = force_of(in, out.lift_ft);
    out.foot_ft_lb = cw_step_add(working, "M_f", "moment at the foot at that lift", f.foot,
                                 CW_DIM_FT_LB, source);
    out.span_ft_lb = f.span;
    out.strut_lb = f.strut;
    out.push_lb =
        cw_step_add(working, "F", in->both_sides ? "equal on both sides" : "g d^2/2",
                    push_lb(in, out.lift_ft), CW_DIM_LB_PER_FT, "closed form: hydrostatics");
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_struct_fill_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_struct_fill *)output = cw_struct_wall_fill(input, working);
}

const cw_calc cw_calc_wall_fill_height = {
    .name = "wall-fill-height",
    .title = "Height of fluid fill between barrels",
    .group = "structures",
    .about = "Least of what the wall, sliding and floating allow for one lift.  Fill is a fluid "
             "at full head until it sets.  Without the wall's moment the height is undecided.  The "
             "last lift has the longest arm: run each.  The "
             "outer sides need earth or bracing raised with the fill." CW_STRUCT_REVIEW,
    .source = "closed form: fluid pressure on a wall held at its foot; Archimedes",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_struct_fill_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_struct_fill),
    .valid = valid,
    .run = run,
    .example = "wall=8ft floor=10in allowed=6000ft-lb weight=3708lb/ft outside_width=13.667ft "
               "fill_weight=130pcf",
};
