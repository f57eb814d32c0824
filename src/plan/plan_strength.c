/* The finished box under earth and traffic: loads, envelopes, sections. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

/* Covers nearer than this are one. */
#define SAME_COVER_FT 0.05
/* Less tension than this in a member is rounding. */
#define PULL_LB 1.0
/* Bearing of concrete on concrete: resistance factor and part of the strength. */
#define SEAT_PHI 0.70
#define SEAT_BLOCK 0.85

/* ---- loads ---- */

static void find_covers(draft *d)
{
    const cw_job_strength *given = &d->job->strength;
    cw_plan_strength *s = &d->plan.strength;
    bool known = given->has_cover_least && given->has_cover_most;
    double least_ft = CW_ANY_HIGH, most_ft = -CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const cw_plan_barrel *barrel = &d->plan.barrels[b];
        if (!barrel->has_cover)
            continue;
        known = true;
        least_ft = fmin(least_ft, barrel->least_cover.cover_ft);
        most_ft = fmax(most_ft, barrel->most_cover.cover_ft);
    }
    if (given->has_cover_least)
        least_ft = given->cover_least_ft;
    if (given->has_cover_most)
        most_ft = given->cover_most_ft;
    // A top that stands above the road has its own row: nothing is computed for it here.
    if (!known || least_ft < 0.0 || most_ft < least_ft)
        return;
    s->cover_ft[s->cover_count++] = least_ft;
    if (most_ft - least_ft > SAME_COVER_FT)
        s->cover_ft[s->cover_count++] = most_ft;
}

cw_struct_vehicle draft_vehicle(const draft *d, const cw_job_vehicle *given)
{
    cw_struct_vehicle vehicle = cw_struct_design_vehicle(CW_STRUCT_TRUCK, &d->job->rows);
    vehicle.presence = given->presence;
    vehicle.gauge_ft = given->gauge_ft;
    if (given->has_width)
        vehicle.patch_width_in = given->width_in;
    if (given->has_length)
        vehicle.patch_length_in = given->length_in;
    if (given->kind == CW_VEHICLE_TRACKS) {
        vehicle.axles = 1;
        vehicle.axle_lb[0] = given->weight_lb;
        vehicle.impact = false; // crawlers creep: common practice
        return vehicle;
    }
    cw_struct_vehicle_axles(&vehicle, &given->axles_lb, &given->spacing_ft);
    return vehicle;
}

static cw_struct_spread spread_of(const draft *d, double cover_ft)
{
    return (cw_struct_spread){.rule = d->job->strength.spread,
                              .cover_ft = cover_ft,
                              .span_ft = d->job->box.span_in / CW_IN_PER_FT,
                              .barrels_ft = d->plan.barrel_count > 1 ? d->plan.width_ft : 0.0};
}

static void find_box(draft *d)
{
    const cw_job_box *box = &d->job->box;
    const cw_job_strength *given = &d->job->strength;
    for (int g = 0; g < CW_PLAN_GROUNDS; g++)
        d->plan.strength.box[g] =
            (cw_struct_box){.form = box->form,
                            .span_in = box->span_in,
                            .rise_in = box->rise_in,
                            .wall_in = box->wall_in,
                            .floor_in = box->floor_in,
                            .top_in = box->top_in,
                            .haunch_in = box->haunch_in,
                            .crown_haunch_in = box->form == CW_FORM_LID ? 0.0 : box->top_haunch_in,
                            .joint_in = box->form == CW_FORM_DOUBLE_U ? box->leg_in : 0.0,
                            .concrete_psi = given->modulus_psi,
                            .concrete_pcf = box->concrete_pcf,
                            .ground = g,
                            .ground_pcf = given->ground_pcf};
}

/* Water outside above the middle of the lowest floor; what stands over the top presses there as well. */
static double flood_ft(const draft *d)
{
    const cw_job_box *box = &d->job->box;
    if (!d->job->strength.has_flood)
        return 0.0;
    double low_ft = CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++)
        low_ft = fmin(low_ft, d->plan.barrels[b].joints[0].underside_ft);
    const double above_ft = d->job->strength.flood_ft - low_ft - box->floor_in / 2.0 / CW_IN_PER_FT;
    const double height_ft = (box->rise_in + (box->floor_in + box->top_in) / 2.0) / CW_IN_PER_FT;
    return fmax(0.0, fmin(above_ft, height_ft));
}

static const char *cover_words(const draft *d, int cover)
{
    return cw_quantity_format(d->arena, d->plan.strength.cover_ft[cover], CW_DIM_FT, d->plan.units);
}

static void load_cover(draft *d, int cover)
{
    const cw_job_strength *given = &d->job->strength;
    const cw_rows *rows = &d->job->rows;
    cw_plan_strength *s = &d->plan.strength;
    const double cover_ft = s->cover_ft[cover];
    const double height_ft =
        (d->job->box.floor_in + d->job->box.rise_in + d->job->box.top_in) / CW_IN_PER_FT;
    const cw_struct_earth_input earth = {.bed = given->bed,
                                         .compacted = given->compacted,
                                         .cover_ft = cover_ft,
                                         .outside_ft = d->plan.width_ft,
                                         .earth_pcf = given->earth_pcf,
                                         .trench_ft = given->trench_ft,
                                         .k_mu = cw_rows_value(rows, "structure.earth.k_mu")};
    cw_working *w =
        draft_working(d, cw_arena_print(d->arena, "Loads on the box at cover %s", cover_words(d, cover)));
    s->earth_psf[cover] = cw_struct_earth_load(&earth, rows, w).pressure_psf;
    const cw_struct_lateral_input side = {.cover_ft = cover_ft,
                                          .height_ft = height_ft,
                                          .most_pcf = given->side_most_pcf,
                                          .least_pcf = given->side_least_pcf,
                                          .earth_pcf = given->earth_pcf,
                                          .k = given->design_traffic ? given->side_ratio : 0.0,
                                          .water_ft = flood_ft(d)};
    s->side[cover] = cw_struct_lateral_pressure(&side, rows, w);
    s->surcharge_psf[cover] = s->side[cover].surcharge_psf;
    const cw_struct_spread spread = spread_of(d, cover_ft);
    for (int v = 0; v < 2 && given->design_traffic; v++) {
        const cw_struct_vehicle vehicle =
            cw_struct_design_vehicle(v == 0 ? CW_STRUCT_TRUCK : CW_STRUCT_TANDEM, rows);
        s->design[cover][v] = cw_struct_wheel_pressure(&vehicle, &spread, rows, w);
    }
}

/* Permit vehicles take the place of the design traffic. */
static int wheels_of(const draft *d, int cover, int state, cw_struct_wheel *wheels)
{
    const cw_plan_strength *s = &d->plan.strength;
    const cw_job_strength *given = &d->job->strength;
    int count = 0;
    if (state != CW_STRUCT_PERMIT) {
        for (int v = 0; v < 2 && given->design_traffic; v++)
            wheels[count++] = s->design[cover][v];
        return count;
    }
    const cw_struct_spread spread = spread_of(d, s->cover_ft[cover]);
    for (int v = 0; v < given->vehicle_count; v++) {
        if (given->vehicles[v].use != CW_VEHICLE_PERMIT)
            continue;
        const cw_struct_vehicle vehicle = draft_vehicle(d, &given->vehicles[v]);
        wheels[count++] = cw_struct_wheel_pressure(&vehicle, &spread, &d->job->rows, NULL);
    }
    return count;
}

static void envelop(draft *d, int cover)
{
    const cw_job_strength *given = &d->job->strength;
    cw_plan_strength *s = &d->plan.strength;
    const cw_row *water = draft_row(d, "material.water");
    const cw_struct_site site = {.earth_psf = s->earth_psf[cover],
                                 .cover_ft = s->cover_ft[cover],
                                 .most_pcf = given->side_most_pcf,
                                 .least_pcf = given->side_least_pcf,
                                 .surcharge_psf = s->surcharge_psf[cover],
                                 .ground_water_ft = flood_ft(d),
                                 .water_pcf = water ? water->value : 62.4};
    const int states = s->permit ? CW_PLAN_STATES : CW_PLAN_STATES - 1;
    cw_struct_wheel wheels[CW_PLAN_STATES][CW_VEHICLES_MAX > 2 ? CW_VEHICLES_MAX : 2];
    cw_struct_ask asks[CW_PLAN_STATES];
    for (int state = 0; state < states; state++)
        asks[state] = (cw_struct_ask){.site = &site,
                                      .wheels = wheels[state],
                                      .wheel_count = wheels_of(d, cover, state, wheels[state]),
                                      .state = state};
    for (int g = 0; g < CW_PLAN_GROUNDS; g++) {
        cw_struct_envelope *e = s->envelopes[cover][g];
        s->diagrams[cover][g] = CW_TAKE(d->arena, cw_struct_diagram, 1);
        asks[CW_STRUCT_STRENGTH].diagram = s->diagrams[cover][g];
        cw_struct_envelop_each(&s->box[g], asks, states, &d->job->rows, e);
        for (int state = 0; state < states; state++)
            if (e[state].status != CW_STRUCT_OK && s->status == CW_STRUCT_OK)
                s->status = e[state].status;
    }
}

/* ---- sections ---- */

/* Where a section is read and which way it bends; the wall's place is its greatest moment. */
typedef struct section_row {
    const char *name;
    int place, face;
    bool inside;
} section_row;

enum { IN_WALL = -1 };

static const section_row rows_lid[] = {
    {"middle of the top, inside", CW_STRUCT_TOP_MID, CW_STEEL_TOP_INSIDE, true},
    {"within the wall, inside", IN_WALL, CW_STEEL_WALL_INSIDE, true},
    {"wall above the haunch, outside", CW_STRUCT_WALL_FACE, CW_STEEL_WALL_OUTSIDE, false},
    {"middle of the floor, inside", CW_STRUCT_FLOOR_MID, CW_STEEL_FLOOR_INSIDE, true},
    {"floor at the haunch, outside", CW_STRUCT_FLOOR_FACE, CW_STEEL_FLOOR_OUTSIDE, false},
};
static const section_row rows_frame[CW_PLAN_SECTIONS] = {
    {"middle of the top, inside", CW_STRUCT_TOP_MID, CW_STEEL_TOP_INSIDE, true},
    {"top at the haunch, outside", CW_STRUCT_TOP_FACE, CW_STEEL_TOP_OUTSIDE, false},
    {"within the wall, inside", IN_WALL, CW_STEEL_WALL_INSIDE, true},
    {"wall at the top, outside", CW_STRUCT_WALL_TOP, CW_STEEL_WALL_OUTSIDE, false},
    {"wall above the haunch, outside", CW_STRUCT_WALL_FACE, CW_STEEL_WALL_OUTSIDE, false},
    {"middle of the floor, inside", CW_STRUCT_FLOOR_MID, CW_STEEL_FLOOR_INSIDE, true},
    {"floor at the haunch, outside", CW_STRUCT_FLOOR_FACE, CW_STEEL_FLOOR_OUTSIDE, false},
};

static double thickness_in(const cw_job_box *box, int face)
{
    return face <= CW_STEEL_TOP_OUTSIDE    ? box->top_in
           : face <= CW_STEEL_WALL_OUTSIDE ? box->wall_in
                                           : box->floor_in;
}

static const cw_job_steel *steel_at(const draft *d, int face)
{
    for (int i = 0; i < d->job->strength.steel_count; i++)
        if (d->job->strength.steel[i].at == face)
            return &d->job->strength.steel[i];
    return NULL;
}

static double depth_in(const draft *d, int face)
{
    const cw_job_strength *given = &d->job->strength;
    const cw_job_steel *steel = steel_at(d, face);
    const double cover_in = steel ? steel->cover_in : given->steel_cover_in;
    const double size_in = steel ? steel->size_in : given->steel_size_in;
    return thickness_in(&d->job->box, face) - cover_in - size_in / 2.0;
}

/* Moment that pulls the section's face, and the thrust with it. */
typedef struct bend {
    double moment_ft_lb, thrust_lb;
    int load;
} bend;

static bend bend_of(const cw_struct_envelope *e, const section_row *row)
{
    const cw_struct_span *at = row->place == IN_WALL ? &e->wall : &e->at[row->place];
    if (row->inside)
        return (bend){fmax(0.0, at->most_ft_lb), at->most_thrust_lb, at->most_case};
    return (bend){fmax(0.0, -at->least_ft_lb), at->least_thrust_lb, at->least_case};
}

static cw_struct_flexure_input flexure_input(const draft *d, const cw_plan_section *section, bend strength,
                                             bend service)
{
    const cw_job_strength *given = &d->job->strength;
    return (cw_struct_flexure_input){.thickness_in = section->thickness_in,
                                     .depth_in = section->depth_in,
                                     .steel_in2_per_ft = section->steel_in2_per_ft,
                                     .concrete_psi = d->job->box.strength_psi,
                                     .yield_psi = given->yield_psi,
                                     .moment_ft_lb = strength.moment_ft_lb,
                                     .thrust_lb = fmax(0.0, strength.thrust_lb),
                                     .service_ft_lb = service.moment_ft_lb,
                                     .service_thrust_lb = fmax(0.0, service.thrust_lb),
                                     .phi = given->resistance,
                                     .exposure = given->exposure,
                                     .spacing_in = section->spacing_in};
}

static void take_bend(const draft *d, cw_plan_section *section, const section_row *row, cw_plan_from from)
{
    const cw_plan_strength *s = &d->plan.strength;
    const bend now = bend_of(&s->envelopes[from.cover][from.ground][from.state], row);
    const bend none = {0};
    from.load = now.load;
    if (from.state == CW_STRUCT_SERVICE) {
        const cw_struct_flexure_input in = flexure_input(d, section, none, now);
        const cw_struct_flexure crack = cw_struct_section_flexure(&in, &d->job->rows, NULL);
        if (!section->crack.has_crack || crack.steel_psi > section->crack.steel_psi) {
            section->crack = crack;
            section->crack_from = from;
        }
        return;
    }
    const cw_struct_flexure_input in = flexure_input(d, section, now, none);
    const cw_struct_flexure flexure = cw_struct_section_flexure(&in, &d->job->rows, NULL);
    const bool first = section->flexure.phi == 0.0;
    const bool more = !flexure.possible || (section->flexure.possible &&
                                            flexure.required_in2_per_ft > section->flexure.required_in2_per_ft);
    if (!first && !more)
        return;
    section->flexure = flexure;
    section->moment_ft_lb = now.moment_ft_lb;
    section->thrust_lb = fmax(0.0, now.thrust_lb);
    section->pulled = now.thrust_lb < -PULL_LB;
    section->from = from;
}

static void find_section(draft *d, cw_plan_section *section, const section_row *row)
{
    const cw_plan_strength *s = &d->plan.strength;
    const cw_job_steel *steel = steel_at(d, row->face);
    *section = (cw_plan_section){.name = row->name,
                                 .face = row->face,
                                 .thickness_in = thickness_in(&d->job->box, row->face),
                                 .depth_in = depth_in(d, row->face),
                                 .has_steel = steel != NULL,
                                 .steel_in2_per_ft = steel ? steel->area_in2_per_ft : 0.0,
                                 .spacing_in = steel && steel->has_spacing ? steel->spacing_in : 0.0};
    for (int cover = 0; cover < s->cover_count; cover++)
        for (int ground = 0; ground < CW_PLAN_GROUNDS; ground++)
            for (int state = 0; state < (s->permit ? CW_PLAN_STATES : CW_PLAN_STATES - 1); state++)
                take_bend(d, section, row, (cw_plan_from){cover, ground, state, 0});
    const bend strength = {section->moment_ft_lb, section->thrust_lb, 0};
    const bend service =
        bend_of(&s->envelopes[section->crack_from.cover][section->crack_from.ground][CW_STRUCT_SERVICE], row);
    cw_working *w = draft_working(d, cw_arena_print(d->arena, "Bending: %s", row->name));
    cw_step_add(w, "M_u", "greatest of all cases and positions", strength.moment_ft_lb, CW_DIM_FT_LB,
                "plane frame, contacts solved");
    cw_step_add(w, "N_u", "thrust with it, not below 0", strength.thrust_lb, CW_DIM_LB_PER_FT,
                "plane frame, contacts solved");
    const cw_struct_flexure_input in = flexure_input(d, section, strength, service);
    cw_struct_section_flexure(&in, &d->job->rows, w);
}

/* From no thrust to twice that of the section, or a tenth of what the concrete alone bears. */
static void find_pairs(const draft *d, cw_plan_section *section)
{
    const bend none = {0};
    const double squash_lb = d->job->box.strength_psi * section->thickness_in * CW_IN_PER_FT;
    const double most_lb = fmax(2.0 * section->thrust_lb, 0.1 * squash_lb);
    for (int i = 0; i < CW_PLAN_PAIRS; i++) {
        cw_struct_flexure_input in = flexure_input(d, section, none, none);
        in.thrust_lb = section->pair_thrust_lb[i] = most_lb * i / (CW_PLAN_PAIRS - 1);
        section->pair_moment_ft_lb[i] = cw_struct_section_flexure(&in, &d->job->rows, NULL).capacity_ft_lb;
    }
}

static void find_sections(draft *d)
{
    cw_plan_strength *s = &d->plan.strength;
    const bool lid = d->job->box.form == CW_FORM_LID;
    s->section_count = lid ? (int)(sizeof rows_lid / sizeof rows_lid[0]) : CW_PLAN_SECTIONS;
    for (int i = 0; i < s->section_count; i++) {
        find_section(d, &s->sections[i], lid ? &rows_lid[i] : &rows_frame[i]);
        if (s->sections[i].has_steel)
            find_pairs(d, &s->sections[i]);
    }
}

/* ---- shear ---- */

static double steel_for(const draft *d, int face, bool *given)
{
    const cw_plan_strength *s = &d->plan.strength;
    const cw_job_steel *steel = steel_at(d, face);
    double need = 0.0;
    *given = steel != NULL;
    if (steel)
        return steel->area_in2_per_ft;
    for (int i = 0; i < s->section_count; i++)
        if (s->sections[i].face == face)
            need = fmax(need, fmax(s->sections[i].flexure.required_in2_per_ft,
                                   s->sections[i].flexure.least_in2_per_ft));
    return need;
}

static cw_struct_shear_input shear_input(const draft *d, const cw_plan_shear *shear, double cover_ft)
{
    return (cw_struct_shear_input){.member = shear->member,
                                   .cover_ft = cover_ft,
                                   .thickness_in = shear->thickness_in,
                                   .depth_in = shear->depth_in,
                                   .steel_in2_per_ft = shear->steel_in2_per_ft,
                                   .concrete_psi = d->job->box.strength_psi,
                                   .shear_lb = shear->shear_lb,
                                   .moment_ft_lb = shear->moment_ft_lb,
                                   .phi = d->job->strength.resistance};
}

static cw_plan_shear shear_at(const draft *d, int place, int inside_face, int member, cw_plan_from from)
{
    const cw_plan_strength *s = &d->plan.strength;
    const cw_struct_span *at = &s->envelopes[from.cover][from.ground][from.state].at[place];
    const int face = at->shear_moment_ft_lb >= 0.0 ? inside_face : inside_face + 1;
    cw_plan_shear shear = {.name = cw_struct_place_words(place),
                           .member = member,
                           .thickness_in = thickness_in(&d->job->box, face),
                           .depth_in = depth_in(d, face),
                           .shear_lb = at->shear_lb,
                           .moment_ft_lb = fabs(at->shear_moment_ft_lb),
                           .from = from};
    shear.from.load = at->shear_case;
    shear.steel_in2_per_ft = steel_for(d, face, &shear.has_steel);
    const cw_struct_shear_input in = shear_input(d, &shear, s->cover_ft[from.cover]);
    shear.shear = cw_struct_section_shear(&in, &d->job->rows, NULL);
    return shear;
}

static void find_shears(draft *d)
{
    static const struct {
        int place, inside_face;
    } places[CW_PLAN_SHEARS] = {{CW_STRUCT_TOP_SHEAR, CW_STEEL_TOP_INSIDE},
                                {CW_STRUCT_WALL_SHEAR, CW_STEEL_WALL_INSIDE},
                                {CW_STRUCT_FLOOR_SHEAR, CW_STEEL_FLOOR_INSIDE}};
    cw_plan_strength *s = &d->plan.strength;
    for (int i = 0; i < CW_PLAN_SHEARS; i++) {
        const int member = i == 1                               ? CW_STRUCT_WALL_MEMBER
                           : i == 0 && d->job->box.form == CW_FORM_LID ? CW_STRUCT_SIMPLE_SLAB
                                                                       : CW_STRUCT_FIXED_SLAB;
        bool first = true;
        for (int cover = 0; cover < s->cover_count; cover++)
            for (int ground = 0; ground < CW_PLAN_GROUNDS; ground++)
                for (int state = CW_STRUCT_STRENGTH; state < (s->permit ? CW_PLAN_STATES : CW_PLAN_STATES - 1); state++) {
                    const cw_plan_shear shear = shear_at(d, places[i].place, places[i].inside_face, member,
                                                         (cw_plan_from){cover, ground, state, 0});
                    if (first || shear.shear.use > s->shears[i].shear.use)
                        s->shears[i] = shear;
                    first = false;
                }
        const cw_struct_shear_input in = shear_input(d, &s->shears[i], s->cover_ft[s->shears[i].from.cover]);
        cw_struct_section_shear(&in, &d->job->rows,
                                draft_working(d, cw_arena_print(d->arena, "Shear: %s", s->shears[i].name)));
    }
}

/* ---- ground and seat ---- */

double draft_box_lb_per_ft(const cw_job *job, bool with_top)
{
    const cw_box_weight_input input = {.form = job->box.form,
                                       .span_in = job->box.span_in,
                                       .rise_in = job->box.rise_in,
                                       .wall_in = job->box.wall_in,
                                       .floor_in = job->box.floor_in,
                                       .top_in = job->box.top_in,
                                       .leg_in = draft_base_leg_in(job),
                                       .haunch_in = job->box.haunch_in,
                                       .top_haunch_in = job->box.top_haunch_in,
                                       .unit_pcf = job->box.concrete_pcf};
    const cw_box_weight box = cw_weight_box(&input, NULL);
    return with_top ? box.box_lb_per_ft : box.base_lb_per_ft;
}

static void find_bearing(draft *d)
{
    const cw_job_strength *given = &d->job->strength;
    cw_plan_strength *s = &d->plan.strength;
    double earth_psf = 0.0;
    for (int cover = 0; cover < s->cover_count; cover++) {
        const cw_struct_envelope *even = &s->envelopes[cover][CW_STRUCT_UNIFORM][CW_STRUCT_SERVICE];
        const cw_struct_envelope *springs = &s->envelopes[cover][CW_STRUCT_SPRINGS][CW_STRUCT_SERVICE];
        s->bearing_even_psf = fmax(s->bearing_even_psf, even->bearing_most_psf);
        s->bearing_spring_psf = fmax(s->bearing_spring_psf, springs->bearing_most_psf);
        earth_psf = fmax(earth_psf, s->earth_psf[cover]);
    }
    const cw_struct_bearing_input in = {.outside_ft = d->plan.outside_width_in / CW_IN_PER_FT,
                                        .dead_lb_per_ft = draft_box_lb_per_ft(d->job, true),
                                        .earth_psf = earth_psf,
                                        .allowed_psf = given->has_bearing ? given->bearing_psf : 0.0,
                                        .ground_pcf = given->ground_pcf,
                                        .slope = fabs(d->job->run.slope),
                                        .friction = given->friction};
    s->bearing = cw_struct_bear(&in, &d->job->rows, draft_working(d, "Bearing, settlement and sliding"));
}

/* The lid on its seat, and its key against the walls: bearing of concrete on concrete. */
static void find_seat(draft *d)
{
    cw_plan_strength *s = &d->plan.strength;
    const cw_job_strength *given = &d->job->strength;
    if (d->job->box.form != CW_FORM_LID)
        return;
    for (int cover = 0; cover < s->cover_count; cover++)
        for (int ground = 0; ground < CW_PLAN_GROUNDS; ground++)
            for (int state = CW_STRUCT_STRENGTH; state < (s->permit ? CW_PLAN_STATES : CW_PLAN_STATES - 1); state++) {
                const cw_struct_envelope *e = &s->envelopes[cover][ground][state];
                s->seat_lb = fmax(s->seat_lb, e->at[CW_STRUCT_TOP_END].shear_lb);
                s->key_lb = fmax(s->key_lb, e->strut_most_lb);
            }
    cw_working *w = draft_working(d, "Lid on its seat and key");
    const char *memory = "AASHTO LRFD 5.6.5 and 5.5.4.2 (from memory, not verified)";
    const char *frame = "plane frame, contacts solved";
    cw_step_add(w, "R_u", "greatest shear at the end of the lid, factored", s->seat_lb, CW_DIM_LB_PER_FT, frame);
    if (given->has_seat)
        s->seat_psi = cw_step_add(w, "p_u", "R_u / seat", s->seat_lb / (given->seat_in * CW_IN_PER_FT), CW_DIM_PSI, "statics");
    cw_step_add(w, "N_u", "greatest thrust in the lid, factored", s->key_lb, CW_DIM_LB_PER_FT, frame);
    if (given->has_key)
        s->key_psi = cw_step_add(w, "p_k", "N_u / key", s->key_lb / (given->key_in * CW_IN_PER_FT), CW_DIM_PSI, "statics");
    s->seat_limit_psi = cw_step_add(w, "p_r", "0.70 x 0.85 f_c", SEAT_PHI * SEAT_BLOCK * d->job->box.strength_psi,
                                    CW_DIM_PSI, memory);
}

void draft_strength(draft *d)
{
    cw_plan_strength *s = &d->plan.strength;
    const cw_job_strength *given = &d->job->strength;
    s->present = given->present;
    if (!given->present) {
        draft_stages(d);
        return;
    }
    for (int v = 0; v < given->vehicle_count; v++)
        s->permit = s->permit || given->vehicles[v].use == CW_VEHICLE_PERMIT;
    find_covers(d);
    find_box(d);
    for (int cover = 0; cover < s->cover_count; cover++) {
        load_cover(d, cover);
        envelop(d, cover);
    }
    if (s->cover_count > 0 && s->status == CW_STRUCT_OK) {
        find_sections(d);
        find_shears(d);
        find_bearing(d);
        find_seat(d);
    }
    draft_stages(d);
}
