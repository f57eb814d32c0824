/* The cranes member of the plan as JSON. */
#include "plan_json_internal.h"

static void add_rigging(cw_json *json, const cw_plan *plan)
{
    cw_json_open_list(json, "rigging");
    for (int t = 0; t < plan->type_count; t++) {
        const cw_plan_rigging *rig = &plan->cranes.rigging[t];
        cw_json_open(json, NULL);
        cw_json_text(json, "mark", plan->types[t].mark);
        cw_json_flag(json, "hangs", rig->can);
        if (rig->can) {
            cw_json_number(json, "leg_lb", rig->made.tension_lb);
            cw_json_number(json, "slope_deg", rig->made.angle_deg);
            cw_json_number(json, "wall_pull_lb", rig->made.wall_pull_lb);
            cw_json_number(json, "equal_across_in", rig->equal.rise_across_in);
            cw_json_number(json, "equal_along_in", rig->equal.rise_along_in);
            cw_json_open_list(json, "shorten_in");
            for (int i = 0; i < CW_SLING_LEGS_MAX; i++)
                cw_json_number(json, NULL, rig->shorten_in[i]);
            cw_json_close_list(json);
        }
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_setup(cw_json *json, const cw_plan *plan, int number)
{
    const cw_plan_setup *s = &plan->cranes.setups[number];
    cw_json_open(json, NULL);
    cw_json_text(json, "crane", s->crane->name);
    cw_json_number(json, "boom_ft", s->boom_ft);
    cw_json_number(json, "at_ft", s->at->at_ft);
    cw_json_number(json, "offset_ft", s->offset_ft);
    cw_json_number(json, "boom_gap_ft", s->boom.gap_ft);
    cw_json_number(json, "head_spare_ft", s->boom.spare_ft);
    cw_json_number(json, "setback_ft", s->setback.edge_ft);
    cw_json_open_list(json, "picks");
    for (int i = s->at->first; i < s->at->first + s->at->count; i++) {
        const int index = plan->setting[plan->cranes.answer.order[i]];
        const cw_plan_pick *pick = &plan->cranes.picks[index];
        cw_json_open(json, NULL);
        cw_json_text(json, "piece", plan->pieces[index].slot);
        cw_json_number(json, "gross_lb", pick->gross_lb);
        cw_json_number(json, "radius_ft", pick->radius_ft);
        cw_json_number(json, "rated_lb", pick->rated_lb);
        cw_json_number(json, "percent", pick->percent);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}

void cw_plan_json_cranes(cw_json *json, const cw_plan *plan)
{
    const cw_plan_cranes *c = &plan->cranes;
    if (!c->present)
        return;
    cw_json_open(json, "cranes");
    add_rigging(json, plan);
    if (!c->fault) {
        cw_json_number(json, "cost_cents", c->answer.cents);
        cw_json_open_list(json, "setups");
        for (int n = 0; n < c->setup_count; n++)
            add_setup(json, plan, n);
        cw_json_close_list(json);
        cw_json_open_list(json, "off_chart");
        for (int i = 0; i < c->answer.off_count; i++)
            cw_json_text(json, NULL, plan->pieces[plan->setting[c->answer.off_chart[i]]].slot);
        cw_json_close_list(json);
    }
    cw_json_close(json);
}
