/* The strength member of the plan as JSON. */
#include "plan_json_internal.h"

static const char *const grounds[] = {"straight-line", "springs"};
static const char *const states[] = {"service", "strength", "permit"};
static const char *const limits[] = {"wall", "sliding", "floating", "seat"};

static void add_from(cw_json *json, const cw_plan_strength *s, cw_plan_from from)
{
    cw_json_number(json, "cover_ft", s->cover_ft[from.cover]);
    cw_json_text(json, "ground", grounds[from.ground]);
    cw_json_text(json, "state", states[from.state]);
    cw_json_text(json, "case", cw_struct_case_words(from.load));
}

static void add_places(cw_json *json, const cw_struct_envelope *e)
{
    cw_json_open_list(json, "places");
    for (int p = 0; p < CW_STRUCT_PLACES; p++) {
        cw_json_open(json, NULL);
        cw_json_text(json, "place", cw_struct_place_words(p));
        cw_json_number(json, "most_ft_lb", e->at[p].most_ft_lb);
        cw_json_number(json, "least_ft_lb", e->at[p].least_ft_lb);
        cw_json_number(json, "shear_lb", e->at[p].shear_lb);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_covers(cw_json *json, const cw_plan_strength *s)
{
    cw_json_open_list(json, "covers");
    for (int c = 0; c < s->cover_count; c++) {
        cw_json_open(json, NULL);
        cw_json_number(json, "cover_ft", s->cover_ft[c]);
        cw_json_number(json, "earth_psf", s->earth_psf[c]);
        cw_json_number(json, "surcharge_psf", s->surcharge_psf[c]);
        cw_json_open_list(json, "envelopes");
        for (int g = 0; g < CW_PLAN_GROUNDS; g++)
            for (int state = 0; state < CW_PLAN_STATES - !s->permit; state++) {
                const cw_struct_envelope *e = &s->envelopes[c][g][state];
                cw_json_open(json, NULL);
                cw_json_text(json, "ground", grounds[g]);
                cw_json_text(json, "state", states[state]);
                cw_json_number(json, "bearing_psf", e->bearing_most_psf);
                cw_json_number(json, "strut_most_lb", e->strut_most_lb);
                cw_json_number(json, "strut_least_lb", e->strut_least_lb);
                cw_json_count(json, "positions", e->solves);
                cw_json_count(json, "open_seats", e->released);
                cw_json_number(json, "residual", e->residual);
                add_places(json, e);
                cw_json_close(json);
            }
        cw_json_close_list(json);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_section(cw_json *json, const cw_plan_strength *s, const cw_plan_section *section)
{
    cw_json_open(json, NULL);
    cw_json_text(json, "name", section->name);
    add_from(json, s, section->from);
    cw_json_number(json, "thickness_in", section->thickness_in);
    cw_json_number(json, "depth_in", section->depth_in);
    if (section->has_steel)
        cw_json_number(json, "steel_in2_per_ft", section->steel_in2_per_ft);
    cw_json_number(json, "moment_ft_lb", section->moment_ft_lb);
    cw_json_number(json, "thrust_lb", section->thrust_lb);
    cw_json_flag(json, "possible", section->flexure.possible);
    cw_json_number(json, "required_in2_per_ft", section->flexure.required_in2_per_ft);
    cw_json_number(json, "least_in2_per_ft", section->flexure.least_in2_per_ft);
    if (section->has_steel)
        cw_json_number(json, "capacity_ft_lb", section->flexure.capacity_ft_lb);
    if (section->crack.has_crack) {
        cw_json_number(json, "service_psi", section->crack.steel_psi);
        cw_json_number(json, "spacing_limit_in", section->crack.spacing_in);
    }
    cw_json_close(json);
}

static void add_sections(cw_json *json, const cw_plan_strength *s)
{
    cw_json_open_list(json, "sections");
    for (int i = 0; i < s->section_count; i++)
        add_section(json, s, &s->sections[i]);
    cw_json_close_list(json);
    cw_json_open_list(json, "shears");
    for (int i = 0; i < CW_PLAN_SHEARS; i++) {
        const cw_plan_shear *shear = &s->shears[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", shear->name);
        add_from(json, s, shear->from);
        cw_json_number(json, "shear_lb", shear->shear_lb);
        cw_json_number(json, "moment_ft_lb", shear->moment_ft_lb);
        cw_json_number(json, "steel_in2_per_ft", shear->steel_in2_per_ft);
        cw_json_flag(json, "steel_given", shear->has_steel);
        cw_json_number(json, "capacity_lb", shear->shear.capacity_lb);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_number(json, "bearing_psf", s->bearing_even_psf);
    cw_json_number(json, "bearing_on_springs_psf", s->bearing_spring_psf);
    if (s->bearing.has_settlement)
        cw_json_number(json, "settlement_in", s->bearing.settlement_in);
    if (s->seat_lb > 0.0)
        cw_json_number(json, "seat_psi", s->seat_psi);
}

static void add_fill(cw_json *json, const cw_plan_strength *s)
{
    cw_json_open(json, "fill");
    cw_json_number(json, "first_limit_ft", s->first_fill.lift_ft);
    cw_json_text(json, "governs", limits[s->first_fill.governs]);
    cw_json_count(json, "placements_needed", s->lifts_needed);
    cw_json_open_list(json, "placements");
    for (int i = 0; i < s->lift_count; i++) {
        cw_json_open(json, NULL);
        cw_json_number(json, "from_ft", s->lifts[i].from_ft);
        cw_json_number(json, "to_ft", s->lifts[i].to_ft);
        cw_json_text(json, "governs", limits[s->lifts[i].governs]);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}

static void add_crossings(cw_json *json, const cw_plan_strength *s)
{
    cw_json_open_list(json, "crossings");
    for (int i = 0; i < s->crossing_count; i++) {
        const cw_plan_crossing *crossing = &s->crossings[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", crossing->given->name);
        cw_json_number(json, "cover_ft", crossing->cover_ft);
        cw_json_flag(json, "by_steel", crossing->by_steel);
        cw_json_flag(json, "found", crossing->cross.found);
        cw_json_number(json, "needed_ft", crossing->cross.needed_ft);
        cw_json_number(json, "live_psf", crossing->cross.live_psf);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_lift(cw_json *json, const char *key, const cw_plan_handling *handling)
{
    if (!handling->type)
        return;
    cw_json_open(json, key);
    cw_json_text(json, "mark", handling->type->mark);
    cw_json_number(json, "sling_deg", handling->sling_deg);
    cw_json_number(json, "pull_lb", handling->lift.pull_lb);
    cw_json_number(json, "stress_psi", handling->lift.stress_psi);
    cw_json_number(json, "wall_stress_psi", handling->lift.wall_stress_psi);
    cw_json_number(json, "limit_psi", handling->lift.limit_psi);
    cw_json_close(json);
}

void cw_plan_json_strength(cw_json *json, const cw_plan *plan)
{
    const cw_plan_strength *s = &plan->strength;
    if (!s->present && !s->has_fill)
        return;
    cw_json_open(json, "strength");
    if (s->has_fill)
        add_fill(json, s);
    if (s->present) {
        cw_json_flag(json, "solved", s->cover_count > 0 && s->status == CW_STRUCT_OK);
        if (s->cover_count > 0 && s->status == CW_STRUCT_OK) {
            add_covers(json, s);
            add_sections(json, s);
        }
        if (s->has_open)
            cw_json_number(json, "open_base_ft", s->open.limit_ft);
        add_crossings(json, s);
        add_lift(json, "base_on_hook", &s->base_lift);
        add_lift(json, "lid_on_hook", &s->top_lift);
    }
    cw_json_close(json);
}
