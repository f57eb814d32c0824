/* A bridle of two, three or four legs on one piece. */
#include "lifting_internal.h"

static const char statics[] = "derived: statics of a rigid piece on one hook";
static const char range[] = "common practice: range of cast boxes and slings";

static const char *const states[] = {"hangs", "legs-too-short", "outside-the-picks", "hook-too-low",
                                     NULL};
static const char *const carries[] = {"two", "three", "all", NULL};

#define TYPE cw_bridle_input

static const cw_field inputs[] = {
    NUMBER_IN("weight", "W", CW_DIM_LB, 1.0, 500000.0, NULL,
              "of the piece for the pick: scaled, or calculated with an allowance", range, TYPE,
              weight_lb),
    NUMBER_IN("dynamic", "f", CW_DIM_NONE, 1.0, 4.0, "1",
              "multiplies the weight in the legs where the owner or the precaster asks for it",
              "common practice: a sling's design factor covers a crane that lifts smoothly", TYPE,
              dynamic),
    NUMBER_IN("tackle", NULL, CW_DIM_LB, 0.0, 100000.0, "0 lb", "slings, shackles, beam", range,
              TYPE, tackle_lb),
    COUNT_IN("legs", "n", 2, 4, "4", "of the bridle", range, TYPE, legs),
    NUMBER_IN("across", "a", CW_DIM_FT, 0.5, 60.0, NULL, "between picks across the barrel", range,
              TYPE, across_ft),
    NUMBER_IN("along", "b", CW_DIM_FT, 0.0, 60.0, "0 ft",
              "between picks along the run; three legs: two downstream, one in the middle upstream",
              range, TYPE, along_ft),
    LIST_IN("pick_x", NULL, CW_DIM_FT, -60.0, 60.0, NULL,
            "any other picks, in place of across and along: right of the centre", range, TYPE,
            x_ft),
    LIST_IN("pick_y", NULL, CW_DIM_FT, -60.0, 60.0, NULL, "the same: upstream of the centre", range,
            TYPE, y_ft),
    NUMBER_IN("cg_x", "x", CW_DIM_FT, -30.0, 30.0, "0 ft",
              "centre of gravity right of the centre of the picks", range, TYPE, cg_x_ft),
    NUMBER_IN("cg_y", "y", CW_DIM_FT, -30.0, 30.0, "0 ft", "the same, upstream", range, TYPE,
              cg_y_ft),
    NUMBER_IN("pick_above_cg", "d", CW_DIM_FT, -20.0, 40.0, "0 ft",
              "picks above the centre of gravity; negative: below", range, TYPE, pick_above_cg_ft),
    OPTION_IN("height", "H", CW_DIM_FT, 0.5, 100.0,
              "hook above the picks, plumb over the centre of gravity, legs made to length", range,
              TYPE, height_ft, has_height),
    LIST_IN("leg_length", "l", CW_DIM_FT, 0.5, 150.0, NULL,
            "in place of height: one for all legs, or one each (left before right, downstream "
            "before upstream)",
            range, TYPE, lengths_ft),
    CHOICE_IN("carry", carries, "two",
              "of four legs: two for a rigid piece, three as sling tags rate, all with gear that "
              "equalises",
              "US Navy rigging manuals (NAVEDTRA 14081): two diagonal legs may carry all", TYPE,
              carry),
    NUMBER_IN("width", "B", CW_DIM_FT, 0.0, 80.0, "0 ft", "outside width of the piece", range, TYPE,
              width_ft),
    NUMBER_IN("length", "L", CW_DIM_FT, 0.0, 80.0, "0 ft", "of the piece along the run", range,
              TYPE, length_ft),
    NUMBER_IN("wall_arm", "h", CW_DIM_FT, 0.0, 30.0, "0 ft",
              "base: picks above the foot of the wall on which they are", range, TYPE, wall_arm_ft),
    OPTION_IN("gap", NULL, CW_DIM_IN, 0.0, 6.0, "of the joint that the piece enters", range, TYPE,
              gap_in, has_gap),
};

static const cw_field outputs[] = {
    CHOICE_OUT("result", states,
               "outside-the-picks: some leg would have to push; the rest means nothing unless it "
               "hangs",
               cw_bridle, state),
    OUT("hook_load", NULL, CW_DIM_LB, "piece and tackle, without the dynamic factor", cw_bridle,
        hook_lb),
    OUT("leg_tension", "T", CW_DIM_LB, "worst leg", cw_bridle, tension_lb),
    LIST_OUT("leg_tensions", NULL, CW_DIM_LB, "each leg at its worst", cw_bridle, tensions_lb),
    LIST_OUT("even_tensions", NULL, CW_DIM_LB, "all legs taut and alike", cw_bridle, even_lb),
    LIST_OUT("leg_lengths", NULL, CW_DIM_FT, "pick to hook", cw_bridle, lengths_ft),
    OUT("leg_angle", "t", CW_DIM_DEG, "flattest leg from the horizontal", cw_bridle, angle_deg),
    OUT("hook_height", "H", CW_DIM_FT, "above the picks, square to the piece", cw_bridle,
        height_ft),
    OUT("tilt_across", NULL, CW_DIM_DEG, "right side up", cw_bridle, across_deg),
    OUT("tilt_along", NULL, CW_DIM_DEG, "upstream end up", cw_bridle, along_deg),
    OUT("rise_across", NULL, CW_DIM_IN, "right side over left side, on the outside width",
        cw_bridle, rise_across_in),
    OUT("rise_along", NULL, CW_DIM_IN, "upstream end over downstream end", cw_bridle,
        rise_along_in),
    OUT("slack", NULL, CW_DIM_IN, "to spare in the leg that hangs loose", cw_bridle, slack_in),
    OUT("pull", NULL, CW_DIM_LB, "inward across the barrel, at one pick", cw_bridle, pull_lb),
    OUT("wall_pull", "H_w", CW_DIM_LB, "inward, all picks of the worse side", cw_bridle,
        wall_pull_lb),
    OUT("wall_moment", "M_w", CW_DIM_FT_LB, "at the foot of that wall, whole piece", cw_bridle,
        wall_ft_lb),
    CHOICE_OUT("angle_check", cw_verdict_words,
               "undecided where the maker of the sling or a qualified person decides", cw_bridle,
               verdict_angle),
    CHOICE_OUT("entry_check", cw_verdict_words, "rise within half the joint gap", cw_bridle,
               verdict_entry),
};

bool cw_bridle_input_valid(const cw_bridle_input *in, cw_pos where, cw_diags *diags)
{
    const int before = diags->count;
    if (in->has_height == (in->lengths_ft.count > 0))
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    in->has_height ? "height and leg_length are both given; keep one"
                                   : "neither height nor leg_length is given; give one");
    if (in->lengths_ft.count > 1 && in->lengths_ft.count != in->legs)
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "leg_length has %d values for %d legs; give one for all or one each",
                    in->lengths_ft.count, in->legs);
    if (in->x_ft.count != in->y_ft.count || (in->x_ft.count > 0 && in->x_ft.count != in->legs))
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "pick_x has %d values and pick_y %d for %d legs; give one of each for each leg",
                    in->x_ft.count, in->y_ft.count, in->legs);
    if (in->x_ft.count == 0 && in->legs > 2 && !(in->along_ft > 0.0))
        cw_diag_add(diags, where, CW_E_MISSING,
                    "along is 0 ft with %d legs; give the distance between picks along the run",
                    in->legs);
    return diags->count == before;
}

static void place_picks(const cw_bridle_input *in, cw_hang_input *out)
{
    const double a = in->across_ft / 2.0, b = in->along_ft / 2.0;
    const double x[] = {-a, a, in->legs == 3 ? 0.0 : -a, a};
    const double y[] = {-b, -b, b, b};
    for (int i = 0; i < in->legs; i++) {
        const bool own = in->x_ft.count > 0;
        const double y_ft = in->legs == 2 ? 0.0 : y[i];
        out->pick_ft[i][0] = (own ? in->x_ft.items[i] : x[i]) - in->cg_x_ft;
        out->pick_ft[i][1] = (own ? in->y_ft.items[i] : y_ft) - in->cg_y_ft;
        out->pick_ft[i][2] = in->pick_above_cg_ft;
    }
}

static cw_hang_input hang_input(const cw_bridle_input *in)
{
    cw_hang_input hang = {.legs = in->legs,
                          .has_lengths = !in->has_height,
                          .height_ft = in->height_ft,
                          .load_lb = in->weight_lb * in->dynamic,
                          .carry = in->carry};
    place_picks(in, &hang);
    for (int i = 0; i < in->legs && !in->has_height; i++)
        hang.length_ft[i] = in->lengths_ft.items[in->lengths_ft.count > 1 ? i : 0];
    return hang;
}

/* Inward pull across the barrel: on each side the even pulls together, which no sharing between
 * legs on one hook changes much, and at one pick the worst leg. */
static void wall_pull(const cw_hang_input *hang, const cw_hang *hung, cw_bridle *out)
{
    double side_lb[2] = {0.0, 0.0};
    for (int i = 0; i < hang->legs; i++) {
        double leg[3];
        cw_minus(hung->hook_ft, hang->pick_ft[i], leg);
        const double share = leg[0] / fmax(cw_length(leg), SAME_FT);
        side_lb[share < 0.0 ? 1 : 0] += hung->even_lb[i] * fabs(share);
        out->pull_lb = fmax(out->pull_lb, hung->tension_lb[i] * fabs(share));
    }
    out->wall_pull_lb = fmax(side_lb[0], side_lb[1]);
}

static void list_legs(const cw_hang_input *hang, const cw_hang *hung, cw_bridle *out)
{
    out->tensions_lb.count = out->even_lb.count = out->lengths_ft.count = hang->legs;
    out->angle_deg = hung->angle_deg[0];
    for (int i = 0; i < hang->legs; i++) {
        out->tensions_lb.items[i] = hung->tension_lb[i];
        out->even_lb.items[i] = hung->even_lb[i];
        out->lengths_ft.items[i] = hung->length_ft[i];
        out->tension_lb = fmax(out->tension_lb, hung->tension_lb[i]);
        out->angle_deg = fmin(out->angle_deg, hung->angle_deg[i]);
    }
}

static void tilt(const cw_bridle_input *in, const cw_hang *hung, cw_bridle *out, cw_working *w)
{
    const double width_ft = in->width_ft > 0.0 ? in->width_ft : in->across_ft;
    const double length_ft = in->length_ft > 0.0 ? in->length_ft : in->along_ft;
    out->across_deg = cw_step_add(w, "tilt across", "asin of the hook's x over its distance",
                                  hung->across_deg, CW_DIM_DEG, statics);
    out->along_deg = cw_step_add(w, "tilt along", "asin of the hook's y over its distance",
                                 hung->along_deg, CW_DIM_DEG, statics);
    out->rise_across_in = width_ft * CW_IN_PER_FT * sin(hung->across_deg * CW_RAD_PER_DEG);
    out->rise_along_in = length_ft * CW_IN_PER_FT * sin(hung->along_deg * CW_RAD_PER_DEG);
    out->slack_in = hung->slack_ft * CW_IN_PER_FT;
    if (in->has_gap)
        out->verdict_entry = cw_lifting_verdict(
            fmax(fabs(out->rise_across_in), fabs(out->rise_along_in)), in->gap_in / 2.0);
}

cw_bridle cw_lifting_bridle(const cw_bridle_input *in, const cw_rows *rows, cw_working *w)
{
    const cw_hang_input hang = hang_input(in);
    const cw_hang hung = cw_lifting_hang(&hang);
    cw_bridle out = {.state = hung.state,
                     .verdict_angle = CW_FAILS,
                     .verdict_entry = in->has_gap ? CW_FAILS : CW_UNDECIDED};
    out.hook_lb =
        cw_step_add(w, "P", "W + tackle", in->weight_lb + in->tackle_lb, CW_DIM_LB, "definition");
    if (hung.state != CW_HANG_OK)
        return out;
    list_legs(&hang, &hung, &out);
    cw_step_add(w, "f W", "on the legs", hang.load_lb, CW_DIM_LB, "definition");
    out.height_ft = cw_step_add(w, "H", "hook above the picks, square to the piece",
                                hung.hook_ft[2] - in->pick_above_cg_ft, CW_DIM_FT,
                                "derived: legs meet over the centre of gravity");
    cw_step_add(w, "t", "flattest leg", out.angle_deg, CW_DIM_DEG, statics);
    cw_step_add(w, "T", "worst of all balances in which every leg pulls", out.tension_lb, CW_DIM_LB,
                in->legs == 4 && in->carry == CW_CARRY_TWO
                    ? "US Navy rigging manuals (NAVEDTRA 14081); derived for any centre of gravity"
                    : statics);
    tilt(in, &hung, &out, w);
    wall_pull(&hang, &hung, &out);
    cw_step_add(w, "H_w", "sum of inward pulls on the worse side", out.wall_pull_lb, CW_DIM_LB,
                statics);
    out.wall_ft_lb =
        cw_step_add(w, "M_w", "H_w h", out.wall_pull_lb * in->wall_arm_ft, CW_DIM_FT_LB, statics);
    out.verdict_angle = cw_lifting_angle_verdict(out.angle_deg, rows);
    return out;
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    return cw_bridle_input_valid(input, where, diags);
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_bridle *)output = cw_lifting_bridle(input, &cw_data, working);
}

const cw_calc cw_calc_bridle = {
    .name = "bridle",
    .title = "Bridle on one hook: legs, tilt, pull on the walls",
    .group = "lifting",
    .about =
        "Two to four legs of any length, any centre of gravity.  The hook stands plumb over the "
        "centre of gravity: with legs made to length (height) the piece hangs level, with given "
        "legs it tilts until it does.  Each of four legs is sized for its worst share unless the "
        "gear equalises.  Inward pull bends the walls of a base like cantilevers: handling-moment, "
        "or a spreader.  Not considered: stretch of the legs, wind, swinging.",
    .source = "derived: statics of a rigid piece on one hook; US Navy rigging manuals",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_bridle_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_bridle),
    .valid = valid,
    .run = run,
    .example = "weight=16650lb across=12.833ft along=3.6ft height=12ft",
};
