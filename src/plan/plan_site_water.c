/* Water during the work: the stream's way round it, the dam, the groundwater, and what floats. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

static const cw_plan_flow *work_flow(const draft *d)
{
    const cw_plan_flow *most = NULL;
    for (int i = 0; i < d->plan.water.flow_count; i++) {
        const cw_plan_flow *flow = &d->plan.water.flows[i];
        if (flow->given->use == CW_FLOW_WORK && (!most || flow->flow_cfs > most->flow_cfs))
            most = flow;
    }
    return most;
}

/* Level of the stream where it comes to the work when nothing holds it back: its depth below the outlet, carried up to the
 * inlet invert. */
static double natural_ft(const draft *d, const cw_plan_flow *flow)
{
    const cw_plan_barrel *barrel = &d->plan.barrels[0];
    const double inlet_ft = cw_run_invert_ft(&barrel->grade, barrel->line.length_ft);
    const double outlet_ft = cw_run_invert_ft(&barrel->grade, 0.0);
    const bool known = flow->answer.status == CW_WATER_OK && flow->answer.tail.has_level;
    return inlet_ft + (known ? fmax(0.0, flow->answer.tail.level_ft - outlet_ft) : 0.0);
}

static void by_pipe(draft *d, double natural)
{
    const cw_job_diversion *given = &d->job->site_water.diversion;
    cw_plan_site_water *site = &d->plan.site_water;
    const cw_bypass_input input = {site->work_cfs,   given->head_ft, given->length_ft, given->roughness,
                                   given->entrance, given->pipes,   given->sizes_in};
    cw_diags faults = cw_diags_on(d->arena);
    if (!cw_bypass_input_valid(&input, (cw_pos){0}, &faults))
        return;
    site->bypass = cw_sitewater_bypass(&input, draft_working(d, "Bypass pipe"));
    site->has_bypass = true;
    site->stage_ft = natural + site->bypass.head_used_ft;
    site->stage_how = "natural level and the head that the bypass pipe uses";
}

static void by_flume(draft *d, double natural)
{
    const cw_job_diversion *given = &d->job->site_water.diversion;
    cw_plan_site_water *site = &d->plan.site_water;
    const cw_row *freeboard = draft_row(d, "freeboard.flume");
    const cw_flume_input input = {site->work_cfs, given->width_ft,  given->side_slope,
                                  given->slope,   given->roughness, freeboard ? freeboard->value : 0.0};
    cw_diags faults = cw_diags_on(d->arena);
    if (!cw_flume_input_valid(&input, (cw_pos){0}, &faults))
        return;
    site->flume = cw_sitewater_flume(&input, draft_working(d, "Flume"));
    site->has_flume = true;
    const double head_ft = site->flume.velocity_fps * site->flume.velocity_fps / (2.0 * CW_WATER_GRAVITY);
    const double inlet_ft = cw_run_invert_ft(&d->plan.barrels[0].grade, d->plan.barrels[0].line.length_ft);
    site->stage_ft = fmax(natural, inlet_ft + site->flume.depth_ft + head_ft);
    site->stage_how = "depth and velocity head in the flume above the inlet invert, or the natural level";
}

static void by_pumps(draft *d, double natural)
{
    const cw_job_diversion *given = &d->job->site_water.diversion;
    cw_plan_site_water *site = &d->plan.site_water;
    const cw_pump_input input = {.flow_cfs = site->work_cfs,
                                 .pump_cfs = given->pump_cfs,
                                 .lift_ft = given->lift_ft,
                                 .hose_ft = given->hose_ft,
                                 .hose_in = given->hose_in,
                                 .hose_c = given->hose_c,
                                 .efficiency_percent = given->efficiency_percent,
                                 .standby = given->standby,
                                 .suction_ft = given->suction_ft};
    cw_diags faults = cw_diags_on(d->arena);
    if (!cw_pump_input_valid(&input, (cw_pos){0}, &faults))
        return;
    site->pump = cw_sitewater_pump(&input, &d->job->rows, draft_working(d, "Pumps for the stream"));
    site->has_pump = true;
    site->stage_ft = natural;
    site->stage_how = "natural level; the pumps take the flow as it comes";
}

/* One barrel of the culvert alone, without the road. */
static cw_water_site first_barrel(const draft *d)
{
    cw_water_site site = d->plan.water.site;
    const int first = d->job->order.first_barrel - 1;
    site.barrels = &site.barrels[first < site.barrel_count ? first : 0];
    site.barrel_count = 1;
    site.road = NULL;
    return site;
}

static void by_barrel(draft *d)
{
    cw_plan_site_water *site = &d->plan.site_water;
    const cw_water_site path = first_barrel(d);
    const cw_water_answer answer = cw_water_pool(&path, site->work_cfs);
    site->has_stage = answer.status == CW_WATER_OK;
    site->stage_ft = answer.pool_ft;
    site->stage_how = "pool above the first barrel, which carries the stream";
}

static void find_stage(draft *d, const cw_plan_flow *flow)
{
    cw_plan_site_water *site = &d->plan.site_water;
    const cw_job_diversion *divert = &d->job->site_water.diversion;
    const double natural = natural_ft(d, flow);
    site->work_cfs = flow->flow_cfs;
    site->has_stage = true;
    site->stage_ft = natural;
    site->stage_how = "natural level of the stream at the inlet";
    if (!divert->present)
        return;
    switch ((cw_divert)divert->kind) {
    case CW_DIVERT_NONE:
        break;
    case CW_DIVERT_PIPE:
        by_pipe(d, natural);
        break;
    case CW_DIVERT_FLUME:
        by_flume(d, natural);
        break;
    case CW_DIVERT_PUMPS:
        by_pumps(d, natural);
        break;
    case CW_DIVERT_BARREL:
        by_barrel(d);
        break;
    }
}

/* ---- floating ---- */

static cw_flotation float_of(draft *d, bool open, double water_ft, const char *title)
{
    const cw_job *job = d->job;
    const cw_row *soil = draft_row(d, "flotation.soil"), *water = draft_row(d, "material.water");
    const cw_row *factor = draft_row(d, "flotation.factor");
    const bool given = job->site_water.groundwater.present;
    const double height_in = open ? job->box.floor_in + draft_base_leg_in(job)
                                  : job->box.floor_in + job->box.rise_in + job->box.top_in;
    const cw_flotation_input input = {.state = open ? CW_FLOAT_OPEN : CW_FLOAT_CLOSED,
                                      .weight_lb_per_ft = draft_box_lb_per_ft(job, !open),
                                      .width_in = d->plan.outside_width_in,
                                      .height_in = height_in,
                                      .span_in = job->box.span_in,
                                      .rise_in = open ? draft_base_leg_in(job) : job->box.rise_in,
                                      .soil_pcf = soil ? soil->value : 110.0,
                                      .water_pcf = water ? water->value : 62.4,
                                      .safety = given ? job->site_water.groundwater.safety : factor ? factor->value : 1.1,
                                      .water_ft = water_ft};
    return cw_sitewater_flotation(&input, draft_working(d, title));
}

static double lowest_underside_ft(const draft *d)
{
    double low_ft = CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++)
        low_ft = fmin(low_ft, d->plan.barrels[b].joints[0].underside_ft);
    return low_ft;
}

static void find_floating(draft *d)
{
    cw_plan_site_water *site = &d->plan.site_water;
    site->underside_ft = lowest_underside_ft(d);
    const double level_ft = d->job->site_water.groundwater.present ? d->job->site_water.groundwater.level_ft
                            : site->has_stage                     ? site->stage_ft
                                                                  : site->underside_ft;
    site->groundwater_ft = fmax(0.0, level_ft - site->underside_ft);
    site->closed = float_of(d, false, site->groundwater_ft, "Floating of an empty barrel without fill");
    if (d->job->box.form != CW_FORM_RING)
        site->open = float_of(d, true, site->groundwater_ft, "Floating of a base without its top");
}

/* ---- dam and groundwater ---- */

static void fill_rating(const draft *d, cw_cofferdam_input *input)
{
    const cw_plan_water *water = &d->plan.water;
    const int step = water->curve_count / 20 > 0 ? water->curve_count / 20 : 1;
    double last_ft = -CW_ANY_HIGH;
    for (int i = step; i < water->curve_count && input->rating_stage_ft.count < CW_LIST_MAX; i += step) {
        if (water->curve[i].pool_ft <= last_ft)
            continue;
        last_ft = water->curve[i].pool_ft;
        input->rating_stage_ft.items[input->rating_stage_ft.count++] = last_ft;
        input->rating_flow_cfs.items[input->rating_flow_cfs.count++] = water->curve[i].flow_cfs;
    }
}

static void find_cofferdam(draft *d)
{
    const cw_job_cofferdam *given = &d->job->site_water.cofferdam;
    cw_plan_site_water *site = &d->plan.site_water;
    if (!given->present || !site->has_stage)
        return;
    cw_cofferdam_input input = {.stage_ft = site->stage_ft,
                                .ground_ft = given->ground_ft,
                                .freeboard_ft = given->freeboard_ft,
                                .wave_ft = given->wave_ft,
                                .has_crest = given->has_crest,
                                .crest_ft = given->crest_ft,
                                .rise_ft_per_h = given->rise_ft_per_h,
                                .clear_h = given->clear_h};
    if (site->closed.first == CW_FLOAT_FLOATS) {
        input.has_barrel = true;
        input.barrel_ft = site->underside_ft + site->closed.safe_ft;
    }
    if (d->job->box.form != CW_FORM_RING) {
        input.has_base = site->open.first == CW_FLOAT_FLOATS;
        input.base_ft = site->underside_ft + site->open.safe_ft;
        input.has_wall = true;
        input.wall_ft = d->plan.barrels[0].joints[0].seat_ft;
    }
    fill_rating(d, &input);
    cw_diags faults = cw_diags_on(d->arena);
    if (!cw_cofferdam_input_valid(&input, (cw_pos){0}, &faults))
        return;
    site->cofferdam = cw_sitewater_cofferdam(&input, draft_working(d, "Cofferdam and stop of work"));
    site->has_cofferdam = true;
    if (d->plan.water.status == CW_WATER_OK) {
        const cw_water_site path = first_barrel(d);
        site->barrel_path = cw_water_at_pool(&path, site->cofferdam.crest_ft);
        site->has_barrel_path = site->barrel_path.status == CW_WATER_OK;
    }
}

static void find_groundwater(draft *d)
{
    const cw_job_groundwater *given = &d->job->site_water.groundwater;
    cw_plan_site_water *site = &d->plan.site_water;
    if (!given->present)
        return;
    double subgrade_ft = CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++)
        subgrade_ft = fmin(subgrade_ft, d->plan.barrels[b].joints[0].subgrade_ft);
    const cw_row *influence = draft_row(d, "inflow.influence_slot");
    site->has_groundwater = true;
    site->drawdown_ft = fmax(0.0, given->level_ft - (subgrade_ft - given->below_ft));
    if (!(site->drawdown_ft > 0.0))
        return;
    const cw_trench_inflow_input input = {.k_ft_per_day = given->k_ft_per_day,
                                          .head_ft = given->level_ft - given->base_ft,
                                          .drawdown_ft = fmin(site->drawdown_ft, given->level_ft - given->base_ft),
                                          .length_ft = d->plan.plan_length_ft,
                                          .width_ft = d->plan.width_ft + 2.0 * d->job->trench.working_space_ft,
                                          .sides = given->sides == 0 ? CW_SLOT_BOTH : CW_SLOT_ONE,
                                          .ends = given->ends,
                                          .influence = influence ? influence->value : 1750.0};
    cw_diags faults = cw_diags_on(d->arena);
    if (!cw_trench_inflow_input_valid(&input, (cw_pos){0}, &faults))
        return;
    site->inflow = cw_sitewater_trench_inflow(&input, &d->job->rows, draft_working(d, "Groundwater into the trench"));
    site->has_inflow = true;
    if (!given->has_pump)
        return;
    const cw_draw_down_input draw = {.length_ft = input.length_ft,
                                     .width_ft = input.width_ft,
                                     .drawdown_ft = input.drawdown_ft,
                                     .reach_ft = site->inflow.reach_ft,
                                     .yield_percent = given->yield_percent,
                                     .pump_cfs = given->pump_cfs,
                                     .inflow_cfs = site->inflow.flow_cfs};
    if (!cw_draw_down_input_valid(&draw, (cw_pos){0}, &faults))
        return;
    site->draw_down = cw_sitewater_draw_down(&draw, draft_working(d, "Time to draw the groundwater down"));
    site->has_draw_down = true;
}

void draft_site_water(draft *d)
{
    if (!d->job->site_water.present)
        return;
    d->plan.site_water.present = true;
    const cw_plan_flow *flow = work_flow(d);
    if (flow)
        find_stage(d, flow);
    find_floating(d);
    find_cofferdam(d);
    find_groundwater(d);
}
