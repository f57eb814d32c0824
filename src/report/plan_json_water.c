/* The water members of the plan as JSON. */
#include "plan_json_internal.h"

static void add_profile(cw_json *json, const cw_water_profile *profile)
{
    cw_json_text(json, "regime", cw_water_regime_words(profile->regime));
    cw_json_number(json, "critical_ft", profile->critical_ft);
    if (profile->has_normal)
        cw_json_number(json, "normal_ft", profile->normal.value);
    cw_json_number(json, "outlet_depth_ft", profile->outlet_depth_ft);
    cw_json_number(json, "outlet_velocity_fps", profile->outlet_velocity_fps);
    cw_json_number(json, "outlet_froude", profile->outlet_froude);
    if (profile->has_jump)
        cw_json_number(json, "jump_from_inlet_ft", profile->jump_ft);
}

static void add_flow_barrels(cw_json *json, const cw_plan_water *water, const cw_plan_flow *flow)
{
    cw_json_open_list(json, "barrels");
    for (int b = 0; b < water->site.barrel_count; b++) {
        const cw_water_head *head = &flow->answer.heads[b];
        cw_json_open(json, NULL);
        cw_json_number(json, "flow_cfs", flow->answer.barrel_cfs[b]);
        cw_json_number(json, "headwater_ft", head->headwater_ft);
        cw_json_number(json, "inlet_control_ft", head->inlet_ft);
        if (head->has_outlet)
            cw_json_number(json, "outlet_control_ft", head->outlet_ft);
        cw_json_text(json, "control", cw_water_control_words(head->control));
        add_profile(json, &flow->profiles[b]);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_apron(cw_json *json, const cw_apron *apron)
{
    cw_json_open(json, "apron");
    cw_json_number(json, "pipe_formula_in", apron->pipe_in);
    cw_json_number(json, "box_formula_in", apron->box_in);
    cw_json_number(json, "stone_in", apron->stone_in);
    cw_json_count(json, "rock_class", apron->rock_class);
    cw_json_number(json, "class_stone_in", apron->class_stone_in);
    cw_json_number(json, "length_ft", apron->length_ft);
    cw_json_number(json, "width_ft", apron->width_ft);
    cw_json_number(json, "end_width_ft", apron->end_width_ft);
    cw_json_number(json, "depth_ft", apron->depth_ft);
    cw_json_text(json, "verdict", cw_verdict_word((cw_verdict)apron->verdict));
    cw_json_close(json);
}

static void add_flow(cw_json *json, const cw_plan_water *water, const cw_plan_flow *flow)
{
    static const char *const uses[] = {"design", "check", "work"};
    cw_json_open(json, NULL);
    cw_json_text(json, "name", flow->given->name);
    cw_json_text(json, "use", uses[flow->given->use]);
    cw_json_number(json, "flow_cfs", flow->flow_cfs);
    cw_json_flag(json, "solved", flow->answer.status == CW_WATER_OK);
    if (flow->answer.status == CW_WATER_OK) {
        cw_json_number(json, "pool_ft", flow->answer.pool_ft);
        cw_json_number(json, "headwater_ratio", flow->ratio);
        if (flow->answer.tail.has_level)
            cw_json_number(json, "tailwater_ft", flow->answer.tail.level_ft);
        cw_json_number(json, "road_cfs", flow->answer.over.flow_cfs);
        cw_json_number(json, "road_depth_ft", flow->answer.over.flow_cfs > 0.0 ? flow->answer.over.depth_ft : 0.0);
        add_flow_barrels(json, water, flow);
        if (flow->has_apron)
            add_apron(json, &flow->apron);
    } else {
        cw_json_text(json, "reason", cw_water_status_words(flow->answer.status));
    }
    cw_json_close(json);
}

void cw_plan_json_water(cw_json *json, const cw_plan *plan)
{
    const cw_plan_water *water = &plan->water;
    if (!water->present)
        return;
    cw_json_open(json, "water");
    cw_json_flag(json, "solved", water->status == CW_WATER_OK);
    if (water->status != CW_WATER_OK) {
        cw_json_text(json, "reason", cw_water_status_words(water->status));
        cw_json_close(json);
        return;
    }
    cw_json_number(json, "opening_ft", water->opening_ft);
    if (water->has_overtopping)
        cw_json_number(json, "overtopping_cfs", water->overtopping_cfs);
    cw_json_open_list(json, "flows");
    for (int i = 0; i < water->flow_count; i++)
        add_flow(json, water, &water->flows[i]);
    cw_json_close_list(json);
    cw_json_open_list(json, "curve");
    for (int i = 0; i < water->curve_count; i++) {
        const cw_water_answer *point = &water->curve[i];
        cw_json_open(json, NULL);
        cw_json_number(json, "flow_cfs", point->flow_cfs);
        cw_json_number(json, "pool_ft", point->pool_ft);
        cw_json_number(json, "road_cfs", point->over.flow_cfs);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}

static void add_floating(cw_json *json, const char *key, const cw_flotation *flotation, double underside_ft)
{
    static const char *const words[] = {"floats", "fills over its wall", "never"};
    cw_json_open(json, key);
    cw_json_text(json, "what", words[flotation->first]);
    cw_json_number(json, "level_ft", underside_ft + flotation->level_ft);
    cw_json_number(json, "safe_level_ft", underside_ft + flotation->safe_ft);
    cw_json_close(json);
}

void cw_plan_json_site_water(cw_json *json, const cw_plan *plan)
{
    const cw_plan_site_water *site = &plan->site_water;
    if (!site->present)
        return;
    cw_json_open(json, "site_water");
    cw_json_number(json, "work_cfs", site->work_cfs);
    if (site->has_stage)
        cw_json_number(json, "stage_ft", site->stage_ft);
    if (site->has_bypass)
        cw_json_number(json, "bypass_in", site->bypass.size_in);
    if (site->has_flume)
        cw_json_number(json, "flume_height_ft", site->flume.height_ft);
    if (site->has_pump) {
        cw_json_count(json, "duty_pumps", site->pump.duty);
        cw_json_count(json, "standby_pumps", site->pump.standby);
        cw_json_number(json, "pump_head_ft", site->pump.head_ft);
        cw_json_number(json, "pump_hp", site->pump.each_hp);
    }
    if (site->has_cofferdam) {
        cw_json_number(json, "cofferdam_crest_ft", site->cofferdam.crest_ft);
        cw_json_number(json, "clear_at_ft", site->cofferdam.warn_ft);
        cw_json_number(json, "lost_at_ft", site->cofferdam.stop_ft);
    }
    if (site->has_barrel_path)
        cw_json_number(json, "first_barrel_cfs", site->barrel_path.value);
    cw_json_number(json, "underside_ft", site->underside_ft);
    add_floating(json, "closed_barrel", &site->closed, site->underside_ft);
    if (plan->job->box.form != CW_FORM_RING)
        add_floating(json, "open_base", &site->open, site->underside_ft);
    if (site->has_inflow) {
        cw_json_open(json, "inflow");
        cw_json_number(json, "low_cfs", site->inflow.low_cfs);
        cw_json_number(json, "flow_cfs", site->inflow.flow_cfs);
        cw_json_number(json, "high_cfs", site->inflow.high_cfs);
        cw_json_number(json, "reach_ft", site->inflow.reach_ft);
        cw_json_close(json);
    }
    if (site->has_draw_down)
        cw_json_number(json, "draw_down_h", site->draw_down.hours);
    cw_json_close(json);
}
