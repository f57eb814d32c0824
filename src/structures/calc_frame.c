#include "structures_internal.h"

#include <math.h>

#include "cw/units.h"

static const char frame[] = "plane frame by the force method, contacts checked at each position";
static const char range[] = "common practice: range of cast boxes";
static const char practice[] = "common practice";

enum { TRAFFIC_DESIGN, TRAFFIC_MACHINE, TRAFFIC_NONE };

static const char *const traffics[] = {"design", "machine", "none", NULL};
static const char *const states[] = {"service", "strength", "permit", "building", NULL};
static const char *const endings[] = {"solved",  "moves-freely", "no-bearing", "not-settled",
                                      "bad-box", "too-large",    NULL};

typedef struct frame_input {
    cw_struct_box box;
    cw_struct_site site;
    bool compacted;
    double earth_pcf, k;
    int traffic, state, rule;
    cw_struct_machine_input machine;
} frame_input;

typedef struct frame_output {
    int ending;
    double top_mid_ft_lb, top_end_ft_lb, top_shear_lb;
    double wall_inside_ft_lb, wall_top_ft_lb, foot_ft_lb, foot_thrust_lb, wall_shear_lb;
    double floor_mid_ft_lb, floor_face_ft_lb, floor_shear_lb;
    double strut_most_lb, strut_least_lb, bearing_psf;
    int solves, open;
    double residual;
} frame_output;

#define IN(key, symbol, dim, low, high, fallback, meaning, source, member)                         \
    NUMBER_IN(key, symbol, dim, low, high, fallback, meaning, source, frame_input, member)

static const cw_field inputs[] = {
    CHOICE_IN("form", cw_struct_forms, "lid", "base and flat lid, base and hood, or ring", NULL,
              frame_input, box.form),
    IN("span", "S", CW_DIM_IN, 24.0, 600.0, NULL, "clear width", range, box.span_in),
    IN("rise", "R", CW_DIM_IN, 18.0, 300.0, NULL, "clear height", range, box.rise_in),
    IN("wall", "t_w", CW_DIM_IN, 3.0, 60.0, NULL, "wall thickness", range, box.wall_in),
    IN("floor", "t_f", CW_DIM_IN, 3.0, 60.0, NULL, "floor thickness", range, box.floor_in),
    IN("top", "t_t", CW_DIM_IN, 3.0, 60.0, NULL, "thickness of lid, crown or top slab", range,
       box.top_in),
    IN("haunch", "a", CW_DIM_IN, 0.0, 24.0, "0 in", "leg of the haunch at the floor", range,
       box.haunch_in),
    IN("crown_haunch", NULL, CW_DIM_IN, 0.0, 24.0, "0 in",
       "leg of the haunch at the top of a hood or ring", range, box.crown_haunch_in),
    IN("seat", NULL, CW_DIM_IN, 0.0, 300.0, "0 in",
       "double-u: seat above the floor; 0 takes mid height", range, box.joint_in),
    IN("modulus", "E", CW_DIM_PSI, 1e6, 1e7, "@structure.concrete.modulus", "of the concrete", NULL,
       box.concrete_psi),
    IN("unit_weight", "g_c", CW_DIM_PCF, 90.0, 200.0, "@concrete.unit_weight", "of the concrete",
       NULL, box.concrete_pcf),
    CHOICE_IN("ground", cw_struct_grounds, "uniform",
              "straight-line reaction under the floor, or springs; both without tension", NULL,
              frame_input, box.ground),
    IN("ground_stiffness", "k_s", CW_DIM_PCF, 1e3, 5e6, "@structure.ground",
       "pressure over settlement, for springs", NULL, box.ground_pcf),
    IN("cover", "H", CW_DIM_FT, 0.0, 60.0, NULL, "earth over the top", practice, site.cover_ft),
    FLAG_IN("compacted", "yes", "side fill is compacted", NULL, frame_input, compacted),
    IN("earth_weight", "g_s", CW_DIM_PCF, 60.0, 160.0, "@structure.earth.unit",
       "unit weight of the fill", NULL, earth_pcf),
    IN("most", "e_1", CW_DIM_PCF, 0.0, 160.0, "@structure.lateral.most",
       "equivalent fluid weight at the side, greatest", NULL, site.most_pcf),
    IN("least", "e_2", CW_DIM_PCF, 0.0, 160.0, "@structure.lateral.least",
       "equivalent fluid weight at the side, least", NULL, site.least_pcf),
    IN("k", "k", CW_DIM_NONE, 0.0, 3.0, "@structure.lateral.k",
       "side pressure ratio for traffic beside the wall; 0 without", NULL, k),
    IN("ground_water", NULL, CW_DIM_FT, 0.0, 30.0, "0 ft",
       "flood outside above the middle of the floor, box empty; 0 leaves that case out", practice,
       site.ground_water_ft),
    IN("water_weight", "g_w", CW_DIM_PCF, 60.0, 75.0, "@material.water", "of water", NULL,
       site.water_pcf),
    CHOICE_IN("traffic", traffics, "design", "design truck and tandem, the machine given, or none",
              NULL, frame_input, traffic),
    CHOICE_IN("state", states, "strength", "set of load factors", NULL, frame_input, state),
    CHOICE_IN("rule", cw_struct_rules, "box", "how patches grow through the fill", NULL,
              frame_input, rule),
    CW_STRUCT_MACHINE_FIELDS(frame_input, machine),
};

static const cw_field outputs[] = {
    CHOICE_OUT("ending", endings, "how the solving ended", frame_output, ending),
    OUT("top_middle", "M_1", CW_DIM_FT_LB, "middle of the top, tension inside", frame_output,
        top_mid_ft_lb),
    OUT("top_end", "M_2", CW_DIM_FT_LB, "end of the top, least: minus is tension outside",
        frame_output, top_end_ft_lb),
    OUT("top_shear", "V_1", CW_DIM_LB_PER_FT, "top, 0.9 thickness from wall or haunch",
        frame_output, top_shear_lb),
    OUT("wall_inside", "M_3", CW_DIM_FT_LB, "greatest within the wall, tension inside",
        frame_output, wall_inside_ft_lb),
    OUT("wall_top", "M_4", CW_DIM_FT_LB, "top of the wall, least", frame_output, wall_top_ft_lb),
    OUT("wall_foot", "M_5", CW_DIM_FT_LB, "foot of the wall, least: minus is tension outside",
        frame_output, foot_ft_lb),
    OUT("foot_thrust", "N_5", CW_DIM_LB_PER_FT, "thrust in the wall with that", frame_output,
        foot_thrust_lb),
    OUT("wall_shear", "V_5", CW_DIM_LB_PER_FT, "wall, 0.9 thickness above the haunch", frame_output,
        wall_shear_lb),
    OUT("floor_middle", "M_6", CW_DIM_FT_LB, "middle of the floor, tension inside", frame_output,
        floor_mid_ft_lb),
    OUT("floor_face", "M_7", CW_DIM_FT_LB, "floor at the wall or haunch, least", frame_output,
        floor_face_ft_lb),
    OUT("floor_shear", "V_6", CW_DIM_LB_PER_FT, "floor, 0.9 thickness beyond that", frame_output,
        floor_shear_lb),
    OUT("strut_most", "N_1", CW_DIM_LB_PER_FT, "thrust in the top, greatest", frame_output,
        strut_most_lb),
    OUT("strut_least", NULL, CW_DIM_LB_PER_FT, "thrust in the top, least; 0 where the seat opens",
        frame_output, strut_least_lb),
    OUT("bearing", "p", CW_DIM_PSF, "greatest under the floor, factored as the loads", frame_output,
        bearing_psf),
    COUNT_OUT("solves", NULL, "load positions solved", frame_output, solves),
    COUNT_OUT("open_seats", NULL, "of them with the seat of the lid let go", frame_output, open),
    OUT("residual", NULL, CW_DIM_NONE, "worst unbalanced force over load", frame_output, residual),
};

static bool dimensions_fit(const cw_struct_box *box, cw_pos where, cw_diags *diags)
{
    bool good = true;
    const double wider_in = fmax(box->haunch_in, box->crown_haunch_in);
    if (2.0 * wider_in >= box->span_in) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "two haunches of %.6g in do not fit in a span of %.6g in; check both", wider_in,
                    box->span_in);
        good = false;
    }
    if (box->haunch_in + box->crown_haunch_in >= box->rise_in) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "haunches of %.6g and %.6g in do not fit in a rise of %.6g in; check them",
                    box->haunch_in, box->crown_haunch_in, box->rise_in);
        good = false;
    }
    if (box->form == CW_STRUCT_LID && box->crown_haunch_in > 0.0) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "a flat lid has no haunch: crown_haunch is %.6g in; leave it out or choose "
                    "double-u",
                    box->crown_haunch_in);
        good = false;
    }
    const bool seat = box->form == CW_STRUCT_DOUBLE_U && box->joint_in > 0.0;
    if (seat &&
        (box->joint_in <= box->haunch_in || box->joint_in >= box->rise_in - box->crown_haunch_in)) {
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "seat %.6g in above the floor does not lie between the haunches; give its "
                    "height or 0 for mid height",
                    box->joint_in);
        good = false;
    }
    return good;
}

/* Fields of the box stand first among the inputs. */
enum { BOX_FIELDS = 13 };

bool cw_struct_box_valid(const cw_struct_box *box, cw_pos where, cw_diags *diags)
{
    const frame_input in = {.box = *box};
    return cw_fields_in_range(inputs, BOX_FIELDS, &in, where, diags) &&
           dimensions_fit(box, where, diags);
}

static bool valid(const void *input, cw_pos where, cw_diags *diags)
{
    const frame_input *in = input;
    if (!cw_fields_in_range(inputs, COUNT(inputs), in, where, diags))
        return false;
    bool good = dimensions_fit(&in->box, where, diags);
    if (in->traffic == TRAFFIC_MACHINE)
        good = cw_struct_machine_valid(&in->machine, where, diags) && good;
    if (in->site.least_pcf > in->site.most_pcf) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "least %.6g lb/ft3 is above most %.6g lb/ft3; exchange them",
                    in->site.least_pcf, in->site.most_pcf);
        good = false;
    }
    const double height_ft =
        (in->box.rise_in + (in->box.floor_in + in->box.top_in) / 2.0) / CW_IN_PER_FT;
    if (in->site.ground_water_ft > height_ft) {
        cw_diag_add(diags, where, CW_E_RANGE,
                    "ground_water %.6g ft stands above the top at %.6g ft; give that much at most "
                    "and check floating",
                    in->site.ground_water_ft, height_ft);
        good = false;
    }
    return good;
}

static int gather_wheels(const frame_input *in, cw_struct_wheel wheels[2], cw_working *working)
{
    const cw_struct_spread spread = {
        .rule = in->rule, .cover_ft = in->site.cover_ft, .span_ft = in->box.span_in / CW_IN_PER_FT};
    if (in->traffic == TRAFFIC_NONE)
        return 0;
    if (in->traffic == TRAFFIC_MACHINE) {
        const cw_struct_vehicle vehicle = cw_struct_machine_vehicle(&in->machine, &cw_data);
        wheels[0] = cw_struct_wheel_pressure(&vehicle, &spread, &cw_data, working);
        return 1;
    }
    for (int i = 0; i < 2; i++) {
        const cw_struct_vehicle vehicle =
            cw_struct_design_vehicle(i == 0 ? CW_STRUCT_TRUCK : CW_STRUCT_TANDEM, &cw_data);
        wheels[i] = cw_struct_wheel_pressure(&vehicle, &spread, &cw_data, working);
    }
    return 2;
}

static frame_output output_of(const cw_struct_envelope *e)
{
    if (e->status != CW_STRUCT_OK)
        return (frame_output){.ending = (int)e->status, .solves = e->solves};
    const cw_struct_span *at = e->at;
    return (frame_output){.ending = (int)e->status,
                          .top_mid_ft_lb = at[CW_STRUCT_TOP_MID].most_ft_lb,
                          .top_end_ft_lb = at[CW_STRUCT_TOP_END].least_ft_lb,
                          .top_shear_lb = at[CW_STRUCT_TOP_SHEAR].shear_lb,
                          .wall_inside_ft_lb = e->wall.most_ft_lb,
                          .wall_top_ft_lb = at[CW_STRUCT_WALL_TOP].least_ft_lb,
                          .foot_ft_lb = at[CW_STRUCT_WALL_FOOT].least_ft_lb,
                          .foot_thrust_lb = at[CW_STRUCT_WALL_FOOT].least_thrust_lb,
                          .wall_shear_lb = at[CW_STRUCT_WALL_SHEAR].shear_lb,
                          .floor_mid_ft_lb = at[CW_STRUCT_FLOOR_MID].most_ft_lb,
                          .floor_face_ft_lb = at[CW_STRUCT_FLOOR_FACE].least_ft_lb,
                          .floor_shear_lb = at[CW_STRUCT_FLOOR_SHEAR].shear_lb,
                          .strut_most_lb = e->strut_most_lb,
                          .strut_least_lb = e->strut_least_lb,
                          .bearing_psf = e->bearing_most_psf,
                          .solves = e->solves,
                          .open = e->released,
                          .residual = e->residual};
}

static void run(const void *input, void *output, cw_working *working)
{
    const frame_input *in = input;
    const double outside_ft = (in->box.span_in + 2.0 * in->box.wall_in) / CW_IN_PER_FT;
    const double height_ft =
        (in->box.rise_in + in->box.floor_in + in->box.top_in) / CW_IN_PER_FT + in->site.cover_ft;
    const cw_struct_earth_input earth = {.bed = CW_STRUCT_EMBANKMENT,
                                         .compacted = in->compacted,
                                         .cover_ft = in->site.cover_ft,
                                         .outside_ft = outside_ft,
                                         .earth_pcf = in->earth_pcf};
    cw_struct_site site = in->site;
    cw_struct_wheel wheels[2];
    site.earth_psf = cw_struct_earth_load(&earth, &cw_data, working).pressure_psf;
    if (in->traffic != TRAFFIC_NONE)
        site.surcharge_psf = in->k * in->earth_pcf * cw_struct_surcharge_ft(height_ft, &cw_data);
    cw_step_add(working, "p_s", "k g_s h_eq, traffic beside the wall", site.surcharge_psf,
                CW_DIM_PSF, "AASHTO LRFD Table 3.11.6.4-1 (from memory, not verified)");
    const int count = gather_wheels(in, wheels, working);
    const cw_struct_envelope e =
        cw_struct_envelop(&in->box, &site, wheels, count, in->state, &cw_data);
    const frame_output out = output_of(&e);
    cw_step_add(working, "M_1", "greatest of all cases and positions", out.top_mid_ft_lb,
                CW_DIM_FT_LB, frame);
    cw_step_add(working, "M_5", "least of all cases and positions", out.foot_ft_lb, CW_DIM_FT_LB,
                frame);
    cw_step_add(working, "M_6", "greatest of all cases and positions", out.floor_mid_ft_lb,
                CW_DIM_FT_LB, frame);
    *(frame_output *)output = out;
}

const cw_calc cw_calc_frame_moments = {
    .name = "frame-moments",
    .title = "Moments and shears in the box",
    .group = "structures",
    .about = "Envelope over the load cases and all positions of the vehicles.  A lid struts the "
             "walls but never ties them; the ground never pulls: each position is solved with its "
             "own contacts.  Per ft of run; ends are on the centre lines.  Traffic across the "
             "span, skew ends and openings are not covered." CW_STRUCT_REVIEW,
    .source = "derived: plane frame by the force method; loads and factors of AASHTO LRFD, "
              "from memory, not verified",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(frame_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(frame_output),
    .valid = valid,
    .run = run,
    .example = "form=lid span=14ft rise=8ft wall=10in floor=12in top=12in cover=4ft",
};
