/* Calculators of one barrel: inlet-headwater, outlet-headwater, headwater and barrel-profile.
 *
 * They share one input struct and one table; each takes the fields that it names. */
#include <math.h>
#include <stddef.h>

#include "cw/units.h"
#include "hydraulics_internal.h"

typedef struct barrel_input {
    double flow_cfs, span_in, rise_in, bed_in, length_ft, slope, n, bed_n;
    double tail_ft;
    int inlet, entrance;
    bool has_k, has_m, has_c, has_y, has_loss;
    double k, m, c, y, loss;
    int form;
    double other_loss, exit_loss, blocked_pct, at_ft;
    double fall_ft;
    bool has_crest_ft;
    double crest_ft;
    /* Not typed: what the tables say, and of which inlet and entrance. */
    bool readied;
    int readied_inlet, readied_entrance;
    cw_water_inlet law;
    double entrance_loss;
} barrel_input;

static const char hds5[] = "FHWA HDS-5, 3rd ed. 2012, app. A (from memory, not verified)";
static const char *const form_choices[] = {"with-critical", "power", NULL};

#define FLOW_IN                                                                                    \
    NUMBER_IN("flow", "Q", CW_DIM_CFS, 0, 1e5, NULL, true, "flow of this barrel", NULL,            \
              barrel_input, flow_cfs)
#define OPENING_IN                                                                                 \
    NUMBER_IN("span", "B", CW_DIM_IN, 6, 600, NULL, true, "clear span", NULL, barrel_input,        \
              span_in),                                                                            \
        NUMBER_IN("rise", "D", CW_DIM_IN, 6, 600, NULL, true, "clear rise as cast", NULL,          \
                  barrel_input, rise_in),                                                          \
        NUMBER_IN("bed", NULL, CW_DIM_IN, 0, 240, "0 in", false,                                   \
                  "embedded bed above the floor; it lowers the opening and is the sill",           \
                  "common practice", barrel_input, bed_in)
#define SLOPE_IN(required, fallback)                                                               \
    NUMBER_IN("slope", "S", CW_DIM_SLOPE, -0.2, 0.4, fallback, required,                           \
              "slope of the barrel, positive when it falls with the water", "common practice",     \
              barrel_input, slope)
#define INLET_IN                                                                                   \
    CHOICE_IN("inlet", "wings-90-15", "form of the inlet; own needs form, k, m, c and y",          \
              "common practice: where the drawing is silent", cw_water_inlet_choices,              \
              barrel_input, inlet),                                                                \
        CHOICE_IN("form", "power", "own inlet: K r^M alone, or added to the critical energy head", \
                  "common practice", form_choices, barrel_input, form),                            \
        MAYBE_IN("k", "K", CW_DIM_NONE, 0, 2, "own inlet, unsubmerged", barrel_input, k),          \
        MAYBE_IN("m", "M", CW_DIM_NONE, 0.1, 3, "own inlet, unsubmerged", barrel_input, m),        \
        MAYBE_IN("c", "c", CW_DIM_NONE, 1e-4, 1, "own inlet, submerged", barrel_input, c),         \
        MAYBE_IN("y", "Y", CW_DIM_NONE, 0, 3, "own inlet, submerged", barrel_input, y)
#define BARREL_IN                                                                                  \
    NUMBER_IN("length", "L", CW_DIM_FT, 1, 10000, NULL, true, "length along the slope", NULL,      \
              barrel_input, length_ft),                                                            \
        NUMBER_IN("n", "n", CW_DIM_NONE, 0.005, 0.1, "@roughness.box", false,                      \
                  "roughness of walls and lid", NULL, barrel_input, n),                            \
        NUMBER_IN("bed_n", "n_b", CW_DIM_NONE, 0.005, 0.2, "@roughness.bed", false,                \
                  "roughness of an embedded bed", NULL, barrel_input, bed_n),                      \
        NUMBER_IN("tailwater", "TW", CW_DIM_FT, 0, 200, NULL, true,                                \
                  "depth of the tailwater above the outlet sill; 0 for a free outfall", NULL,      \
                  barrel_input, tail_ft),                                                          \
        CHOICE_IN("entrance", "headwall-square", "edge of the entrance, for its loss",             \
                  "common practice: the most usual edge", cw_water_entrance_choices, barrel_input, \
                  entrance),                                                                       \
        MAYBE_IN("loss", "k_e", CW_DIM_NONE, 0, 5, "entrance loss of an own entrance",             \
                 barrel_input, loss),                                                              \
        NUMBER_IN("other_loss", "k", CW_DIM_NONE, 0, 50, "0", false,                               \
                  "sum of the losses of bends, grates and junctions", "common practice",           \
                  barrel_input, other_loss)
#define BLOCKED_IN                                                                                 \
    NUMBER_IN("blocked", NULL, CW_DIM_PERCENT, 0, 90, "0%", false,                                 \
              "part of the span that is blocked at the face", "common practice", barrel_input,     \
              blocked_pct)

static const cw_field inlet_inputs[] = {
    FLOW_IN,
    OPENING_IN,
    SLOPE_IN(false, "0%"),
    INLET_IN,
    BLOCKED_IN,
    NUMBER_IN("fall", "F", CW_DIM_FT, 0, 50, "0 ft", false,
              "how far the sill is lowered below the stream bed", "common practice", barrel_input,
              fall_ft),
    MAYBE_IN("crest", "L_c", CW_DIM_FT, 0.5, 1000, "length of the crest at the top of the fall",
             barrel_input, crest_ft),
};

static const cw_field outlet_inputs[] = {
    FLOW_IN,
    OPENING_IN,
    SLOPE_IN(true, NULL),
    BARREL_IN,
    NUMBER_IN("exit_loss", "k_o", CW_DIM_NONE, 0, 2, "@exit.loss", false, "exit loss", NULL,
              barrel_input, exit_loss),
};

static const cw_field whole_inputs[] = {
    NUMBER_IN("at", "x", CW_DIM_FT, 0, 10000, "0 ft", false,
              "distance from the inlet along the barrel", "common practice", barrel_input, at_ft),
    FLOW_IN,
    OPENING_IN,
    SLOPE_IN(true, NULL),
    BARREL_IN,
    INLET_IN,
    BLOCKED_IN,
};

/* barrel-profile takes all of whole_inputs, headwater all but the first. */
enum { PROFILE_ONLY = 1 };

/* ---- what no single field shows ---- */

static bool own_complete(const barrel_input *in, cw_pos where, cw_diags *diags)
{
    const bool given = in->has_k || in->has_m || in->has_c || in->has_y;
    const bool all = in->has_k && in->has_m && in->has_c && in->has_y;
    if (in->inlet == CW_WATER_INLET_OWN && !all) {
        cw_diag_add(diags, where, CW_E_MISSING,
                    "inlet=own needs its law; write k=, m=, c= and y= from its tests");
        return false;
    }
    if (in->inlet != CW_WATER_INLET_OWN && given) {
        cw_diag_add(
            diags, where, CW_E_CONFLICT,
            "k, m, c or y is given for inlet %s, which has its own; write inlet=own or leave "
            "them out",
            cw_water_inlet_choices[in->inlet]);
        return false;
    }
    return true;
}

static bool opening_left(const barrel_input *in, cw_pos where, cw_diags *diags)
{
    if (in->bed_in <= 0.9 * in->rise_in)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "bed is %.2f in deep in a rise of %.2f in; leave at least a tenth of the rise open",
                in->bed_in, in->rise_in);
    return false;
}

static bool loss_complete(const barrel_input *in, cw_pos where, cw_diags *diags)
{
    if (in->has_loss == (in->entrance == CW_WATER_ENTRANCE_OWN))
        return true;
    cw_diag_add(diags, where, in->has_loss ? CW_E_CONFLICT : CW_E_MISSING,
                in->has_loss ? "loss is given for entrance %s, which has its own; write "
                               "entrance=own or leave it out"
                             : "entrance=%s needs its loss; write loss=0.5 or the like",
                cw_water_entrance_choices[in->entrance]);
    return false;
}

static cw_water_inlet own_inlet(const barrel_input *in)
{
    return (cw_water_inlet){.with_critical = in->form == 0,
                            .k = in->k,
                            .m = in->m,
                            .c = in->c,
                            .y = in->y,
                            .slope_factor = -0.5};
}

static cw_water_inlet inlet_from(const barrel_input *in)
{
    if (in->readied && in->inlet == in->readied_inlet)
        return in->law;
    cw_water_inlet inlet = own_inlet(in);
    if (in->inlet != CW_WATER_INLET_OWN)
        cw_water_inlet_rows(&cw_data, in->inlet, &inlet);
    return inlet;
}

/* Without what stands in the tables of inlets and entrances. */
static cw_water_barrel bare_barrel(const barrel_input *in)
{
    return (cw_water_barrel){
        .span_ft = in->span_in / CW_IN_PER_FT,
        .rise_ft = in->rise_in / CW_IN_PER_FT,
        .bed_ft = in->bed_in / CW_IN_PER_FT,
        .length_ft = in->length_ft,
        .inlet_floor_ft = in->slope * in->length_ft,
        .n = in->n,
        .bed_n = in->bed_n,
        .entrance_loss = in->loss,
        .other_loss = in->other_loss,
        .blocked_ratio = in->blocked_pct / CW_PERCENT,
    };
}

static cw_water_barrel barrel_from(const barrel_input *in)
{
    cw_water_barrel barrel = bare_barrel(in);
    barrel.inlet = inlet_from(in);
    if (in->entrance == CW_WATER_ENTRANCE_OWN)
        return barrel;
    if (in->readied && in->entrance == in->readied_entrance)
        barrel.entrance_loss = in->entrance_loss;
    else
        cw_water_entrance_rows(&cw_data, in->entrance, &barrel.entrance_loss);
    return barrel;
}

/* The defaults of inlet and entrance stand in the tables. */
static void ready(void *input)
{
    barrel_input *in = input;
    in->readied = cw_water_inlet_rows(&cw_data, in->inlet, &in->law) &&
                  cw_water_entrance_rows(&cw_data, in->entrance, &in->entrance_loss);
    in->readied_inlet = in->inlet;
    in->readied_entrance = in->entrance;
}

static bool inlet_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const barrel_input *in = input;
    const bool own = own_complete(in, where, diags);
    return opening_left(in, where, diags) && own;
}

static bool outlet_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const barrel_input *in = input;
    const bool loss = loss_complete(in, where, diags);
    return opening_left(in, where, diags) && loss;
}

static bool whole_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const barrel_input *in = input;
    const bool own = own_complete(in, where, diags);
    if (!outlet_valid(input, where, diags) || !own)
        return false;
    if (in->at_ft > in->length_ft) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "at is %.2f ft and the barrel only %.2f ft long; give a distance inside it",
                    in->at_ft, in->length_ft);
        return false;
    }
    /* The laws of the table are in order, and looking them up takes longer than all else here. */
    static const cw_water_inlet in_order = {.k = 0.5, .m = 0.7, .c = 0.04, .y = 0.7};
    cw_water_barrel barrel = bare_barrel(in);
    barrel.inlet = in->inlet == CW_WATER_INLET_OWN ? own_inlet(in) : in_order;
    const cw_water_status status = cw_water_barrel_check(&barrel);
    if (status != CW_WATER_OK)
        cw_diag_add(diags, where, CW_E_CONFLICT, "%s", cw_water_status_words(status));
    return status == CW_WATER_OK;
}

/* ---- inlet-headwater ---- */

static const char *const part_choices[] = {"unsubmerged", "between the two laws", "submerged",
                                           NULL};

typedef struct inlet_output {
    double r, unsubmerged_ft, submerged_ft, headwater_ft, ratio;
    int part;
    double bed_ft, crest_head_ft;
    bool has_crest;
} inlet_output;

static const cw_field inlet_outputs[] = {
    OUT("headwater", "HW", CW_DIM_COORD_FT, "energy head of the pool above the sill", inlet_output,
        headwater_ft, CW_NO_FLAG),
    OUT("ratio", "HW/D", CW_DIM_NONE, "headwater over rise; above 3 the law is outside its tests",
        inlet_output, ratio, CW_NO_FLAG),
    WORD_OUT("law", "which part of the law governs", part_choices, inlet_output, part),
    OUT("r", "r", CW_DIM_NONE, "Q/(A D^0.5)", inlet_output, r, CW_NO_FLAG),
    OUT("unsubmerged", NULL, CW_DIM_COORD_FT, "unsubmerged law at this r", inlet_output,
        unsubmerged_ft, CW_NO_FLAG),
    OUT("submerged", NULL, CW_DIM_COORD_FT, "submerged law at this r", inlet_output, submerged_ft,
        CW_NO_FLAG),
    OUT("above_bed", NULL, CW_DIM_COORD_FT,
        "headwater above the stream bed when the sill is lowered", inlet_output, bed_ft,
        CW_NO_FLAG),
    OUT("crest_head", "HW_c", CW_DIM_COORD_FT,
        "head on the crest of the fall, above the stream bed; the larger of the two counts",
        inlet_output, crest_head_ft, offsetof(inlet_output, has_crest)),
};

static void inlet_run(const void *input, void *output, cw_working *working)
{
    const barrel_input *in = input;
    inlet_output *out = output;
    const cw_water_inlet inlet = inlet_from(in);
    const double span = in->span_in / CW_IN_PER_FT * (1.0 - in->blocked_pct / CW_PERCENT);
    const double rise = (in->rise_in - in->bed_in) / CW_IN_PER_FT;
    const cw_water_inlet_head head =
        cw_water_inlet_control(&inlet, span, rise, in->slope, in->flow_cfs);
    *out = (inlet_output){.part = (int)head.part};
    cw_step_add(working, "D", "rise - bed", rise, CW_DIM_COORD_FT, "geometry");
    cw_step_add(working, "A", "B D, less what is blocked", span * rise, CW_DIM_SQFT, "geometry");
    out->r = cw_step_add(working, "r", "Q/(A D^0.5)", head.r, CW_DIM_NONE, hds5);
    out->unsubmerged_ft =
        cw_step_add(working, "HW_u", inlet.with_critical ? "D (H_c/D + K r^M + K_s S)" : "D K r^M",
                    head.unsubmerged_ft, CW_DIM_COORD_FT, hds5);
    out->submerged_ft = cw_step_add(working, "HW_s", "D (c r^2 + Y + K_s S)", head.submerged_ft,
                                    CW_DIM_COORD_FT, hds5);
    out->headwater_ft = cw_step_add(
        working, "HW", "HW_u to r = 3.5, HW_s from r = 4.0, one rising cubic between",
        head.headwater_ft, CW_DIM_COORD_FT, head.part == CW_WATER_JOIN ? "derived: join" : hds5);
    out->ratio = out->headwater_ft / rise;
    out->bed_ft = out->headwater_ft - in->fall_ft;
    out->has_crest = in->has_crest_ft && in->fall_ft > 0.0;
    if (!out->has_crest)
        return;
    const cw_row *row = cw_rows_find(&cw_data, "weir.crest_of_fall");
    const double factor = row ? row->value : 3.0;
    const double head_23 = cbrt(in->flow_cfs / (factor * in->crest_ft));
    out->crest_head_ft = cw_step_add(working, "HW_c", "(Q/(3.0 L_c))^(2/3)", head_23 * head_23,
                                     CW_DIM_COORD_FT, hds5);
}

const cw_calc cw_calc_inlet_headwater = {
    .name = "inlet-headwater",
    .title = "Headwater by inlet control",
    .group = "hydraulics",
    .about =
        "What the inlet alone asks for. The headwater is energy head above the sill: taking it as "
        "the level of a still pool is on the safe side. Outlet control may ask for more: see "
        "headwater.",
    .source = "FHWA HDS-5, 3rd ed. 2012, app. A (coefficients from memory, agree with reprints)",
    .inputs = inlet_inputs,
    .input_count = COUNT_OF(inlet_inputs),
    .input_size = sizeof(barrel_input),
    .outputs = inlet_outputs,
    .output_count = COUNT_OF(inlet_outputs),
    .output_size = sizeof(inlet_output),
    .valid = inlet_valid,
    .ready = ready,
    .run = inlet_run,
    .example = "flow=180cfs span=6ft rise=5ft slope=1% inlet=wings-30-75",
};

/* ---- outlet-headwater ---- */

typedef struct formula_output {
    double headwater_ft, loss_ft, tail_ft, critical_ft, velocity_fps, radius_ft, friction;
    bool fair;
} formula_output;

static const cw_field formula_outputs[] = {
    OUT("headwater", "HW", CW_DIM_COORD_FT, "head above the inlet sill", formula_output,
        headwater_ft, CW_NO_FLAG),
    OUT("loss", "H", CW_DIM_COORD_FT, "entrance, friction and exit losses when full",
        formula_output, loss_ft, CW_NO_FLAG),
    OUT("outlet_head", "h_o", CW_DIM_COORD_FT, "larger of tailwater and (d_c + D)/2",
        formula_output, tail_ft, CW_NO_FLAG),
    OUT("critical_depth", "d_c", CW_DIM_COORD_FT, "not above the lid", formula_output, critical_ft,
        CW_NO_FLAG),
    OUT("velocity", "V", CW_DIM_FPS, "when full", formula_output, velocity_fps, CW_NO_FLAG),
    OUT("radius", "R", CW_DIM_COORD_FT, "hydraulic radius when full", formula_output, radius_ft,
        CW_NO_FLAG),
    OUT("friction", "k_f", CW_DIM_NONE, "friction in velocity heads", formula_output, friction,
        CW_NO_FLAG),
    {"fair", NULL, CW_KIND_FLAG, CW_DIM_NONE, 0, 0, NULL, false,
     "the headwater is at least 0.75 of the rise: within the use of the formula", NULL, NULL,
     offsetof(formula_output, fair), CW_NO_FLAG},
};

static void formula_run(const void *input, void *output, cw_working *working)
{
    const barrel_input *in = input;
    formula_output *out = output;
    const cw_water_barrel barrel = barrel_from(in);
    const cw_water_formula of =
        cw_water_outlet_formula(&barrel, in->flow_cfs, in->tail_ft, in->exit_loss, working);
    *out = (formula_output){of.headwater_ft, of.loss_ft,   of.tail_ft,  of.critical_ft,
                            of.velocity_fps, of.radius_ft, of.friction, of.fair};
}

const cw_calc cw_calc_outlet_headwater = {
    .name = "outlet-headwater",
    .title = "Headwater by the full-flow formula",
    .group = "hydraulics",
    .about =
        "Outlet control by the formula with (d_c + D)/2, as a cross-check: fair when the barrel "
        "runs full or nearly so, not to be used on a steep barrel with low tailwater. The "
        "calculator headwater follows the water surface instead.",
    .source = "FHWA HDS-5, 3rd ed. 2012, ch. 3 (from memory, not verified), friction factor 29",
    .inputs = outlet_inputs,
    .input_count = COUNT_OF(outlet_inputs),
    .input_size = sizeof(barrel_input),
    .outputs = formula_outputs,
    .output_count = COUNT_OF(formula_outputs),
    .output_size = sizeof(formula_output),
    .valid = outlet_valid,
    .ready = ready,
    .run = formula_run,
    .example = "flow=200cfs span=5ft rise=5ft length=200ft slope=1.5% n=0.012 tailwater=4.75ft",
};

/* ---- headwater and barrel-profile ---- */

typedef struct whole_output {
    int control, regime;
    double headwater_ft, ratio, inlet_ft, outlet_ft;
    bool has_outlet, has_normal, has_jump;
    double critical_ft, normal_ft, full_slope;
    double out_depth_ft, out_fps, out_froude;
    double jump_ft, before_ft, after_ft;
    double depth_ft, velocity_fps, froude, energy_ft;
} whole_output;

#define COMMON_OUT                                                                                 \
    WORD_OUT("control", "what asks for the headwater", cw_water_control_choices, whole_output,     \
             control),                                                                             \
        WORD_OUT("regime", "how the barrel runs", cw_water_regime_choices, whole_output, regime),  \
        OUT("headwater", "HW", CW_DIM_COORD_FT, "energy head of the pool above the inlet sill",    \
            whole_output, headwater_ft, CW_NO_FLAG),                                               \
        OUT("ratio", "HW/D", CW_DIM_NONE, "headwater over rise", whole_output, ratio, CW_NO_FLAG), \
        OUT("inlet_headwater", NULL, CW_DIM_COORD_FT, "what the inlet asks for", whole_output,     \
            inlet_ft, CW_NO_FLAG),                                                                 \
        OUT("outlet_headwater", NULL, CW_DIM_COORD_FT,                                             \
            "what outlet and barrel ask for; none when nothing from the outlet reaches the inlet", \
            whole_output, outlet_ft, offsetof(whole_output, has_outlet)),                          \
        OUT("critical_depth", "y_c", CW_DIM_COORD_FT, "with no lid", whole_output, critical_ft,    \
            CW_NO_FLAG),                                                                           \
        OUT("normal_depth", "y_n", CW_DIM_COORD_FT,                                                \
            "with no lid; none on level or adverse slopes", whole_output, normal_ft,               \
            offsetof(whole_output, has_normal)),                                                   \
        OUT("jump_at", NULL, CW_DIM_FT, "distance of the jump from the inlet", whole_output,       \
            jump_ft, offsetof(whole_output, has_jump)),                                            \
        OUT("jump_before", NULL, CW_DIM_COORD_FT, "depth before the jump", whole_output,           \
            before_ft, offsetof(whole_output, has_jump)),                                          \
        OUT("jump_after", NULL, CW_DIM_COORD_FT, "depth or pressure head after the jump",          \
            whole_output, after_ft, offsetof(whole_output, has_jump)),                             \
        OUT("outlet_depth", NULL, CW_DIM_COORD_FT, "depth in the barrel at its outlet",            \
            whole_output, out_depth_ft, CW_NO_FLAG),                                               \
        OUT("outlet_velocity", NULL, CW_DIM_FPS, "mean velocity at the outlet", whole_output,      \
            out_fps, CW_NO_FLAG),                                                                  \
        OUT("outlet_froude", NULL, CW_DIM_NONE, "Froude number at the outlet", whole_output,       \
            out_froude, CW_NO_FLAG)

static const cw_field whole_outputs[] = {
    OUT("depth", "y", CW_DIM_COORD_FT, "depth, or pressure head above the sill, at the distance",
        whole_output, depth_ft, CW_NO_FLAG),
    OUT("velocity", "V", CW_DIM_FPS, "mean velocity there", whole_output, velocity_fps, CW_NO_FLAG),
    OUT("froude", "Fr", CW_DIM_NONE, "Froude number there", whole_output, froude, CW_NO_FLAG),
    OUT("energy", "E", CW_DIM_COORD_FT, "depth and velocity head", whole_output, energy_ft,
        CW_NO_FLAG),
    COMMON_OUT,
};

enum { PLACE_OUTPUTS = 4 };

static void at_place(const barrel_input *in, const cw_water_profile *profile, whole_output *out,
                     cw_working *working)
{
    out->depth_ft = cw_step_add(working, "y", "profile at x", cw_water_depth_at(profile, in->at_ft),
                                CW_DIM_COORD_FT, "derived: gradually varied flow");
    const double depth = fmin(out->depth_ft, profile->opening_ft);
    if (!(depth > 0.0))
        return;
    out->velocity_fps = in->flow_cfs / (profile->span_ft * depth);
    out->froude = out->velocity_fps / sqrt(CW_WATER_GRAVITY * depth);
    out->energy_ft = cw_step_add(working, "E", "y + V^2/2g",
                                 out->depth_ft + out->velocity_fps * out->velocity_fps / TWO_G,
                                 CW_DIM_COORD_FT, "energy");
}

static void solve_barrel(const barrel_input *in, cw_water_profile *profile, whole_output *out,
                         cw_working *working)
{
    static const char profile_of[] = "derived: energy and Manning friction along the barrel";
    const cw_water_barrel barrel = barrel_from(in);
    cw_water_profile_of(&barrel, in->flow_cfs, in->tail_ft, 0.0, profile);
    const cw_water_head *head = &profile->head;
    *out = (whole_output){
        .control = (int)head->control,
        .regime = (int)profile->regime,
        .has_outlet = head->has_outlet,
        .has_normal = profile->has_normal,
        .has_jump = profile->has_jump,
        .jump_ft = profile->jump_ft,
        .before_ft = profile->jump_before_ft,
        .after_ft = profile->jump_after_ft,
        .out_depth_ft = profile->outlet_depth_ft,
        .out_fps = profile->outlet_velocity_fps,
        .out_froude = profile->outlet_froude,
    };
    out->critical_ft = cw_step_add(working, "y_c", "(q^2/g)^(1/3)", profile->critical_ft,
                                   CW_DIM_COORD_FT, "least energy");
    if (profile->has_normal)
        out->normal_ft = cw_step_add(working, "y_n", "root of Q = K S^(1/2)", profile->normal.value,
                                     CW_DIM_COORD_FT, "Manning");
    out->full_slope = cw_step_add(working, "S_f", "(Q/K)^2 when full", profile->full_slope,
                                  CW_DIM_NONE, "Manning");
    out->inlet_ft =
        cw_step_add(working, "HW_i", "inlet control", head->inlet_ft, CW_DIM_COORD_FT, hds5);
    if (head->has_outlet)
        out->outlet_ft = cw_step_add(working, "HW_o", "E at the inlet + (k_e + k) V^2/2g",
                                     head->outlet_ft, CW_DIM_COORD_FT, profile_of);
    out->headwater_ft = cw_step_add(working, "HW", "max(HW_i, HW_o)", head->headwater_ft,
                                    CW_DIM_COORD_FT, "FHWA HDS-5: the larger governs");
    out->ratio = head->headwater_ft / profile->opening_ft;
}

static void headwater_run(const void *input, void *output, cw_working *working)
{
    cw_water_profile profile;
    solve_barrel(input, &profile, output, working);
}

static void profile_run(const void *input, void *output, cw_working *working)
{
    cw_water_profile profile;
    solve_barrel(input, &profile, output, working);
    at_place(input, &profile, output, working);
}

const cw_calc cw_calc_headwater = {
    .name = "headwater",
    .title = "Headwater of one barrel",
    .group = "hydraulics",
    .about =
        "Inlet control and outlet control, of which the larger governs. The water surface is "
        "followed through the barrel in both directions, full where it meets the lid, with the "
        "jump where the momenta are equal. Steady flow; the approach velocity is not taken off.",
    .source = "FHWA HDS-5, 3rd ed. 2012 (inlets), Manning and momentum (barrel)",
    .inputs = whole_inputs + PROFILE_ONLY,
    .input_count = COUNT_OF(whole_inputs) - PROFILE_ONLY,
    .input_size = sizeof(barrel_input),
    .outputs = whole_outputs + PLACE_OUTPUTS,
    .output_count = COUNT_OF(whole_outputs) - PLACE_OUTPUTS,
    .output_size = sizeof(whole_output),
    .valid = whole_valid,
    .ready = ready,
    .run = headwater_run,
    .example = "flow=300cfs span=8ft rise=6ft length=150ft slope=2% n=0.012 tailwater=6.5ft "
               "inlet=headwall-bevel-45 entrance=headwall-rounded",
};

const cw_calc cw_calc_barrel_profile = {
    .name = "barrel-profile",
    .title = "Depth of water at a place in the barrel",
    .group = "hydraulics",
    .about = "Depth, velocity and energy at a distance from the inlet, on the branch that governs "
             "there: fast before a jump, slow after it. Where the barrel is full the depth is the "
             "pressure head above the sill.",
    .source = "Manning friction and momentum, derived: gradually varied flow",
    .inputs = whole_inputs,
    .input_count = COUNT_OF(whole_inputs),
    .input_size = sizeof(barrel_input),
    .outputs = whole_outputs,
    .output_count = COUNT_OF(whole_outputs),
    .output_size = sizeof(whole_output),
    .valid = whole_valid,
    .ready = ready,
    .run = profile_run,
    .example = "at=60ft flow=300cfs span=8ft rise=6ft length=150ft slope=2% n=0.012 tailwater=2ft "
               "inlet=headwall-bevel-45 entrance=headwall-rounded",
};
