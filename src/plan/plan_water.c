/* Does the opening carry the flow: site, flows, performance curve, profiles, apron. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

/* ---- the site ---- */

static bool inlet_of(const draft *d, cw_water_inlet *inlet)
{
    const cw_job_water *water = &d->job->water;
    if (water->inlet != CW_WATER_INLET_OWN)
        return cw_water_inlet_rows(&d->job->rows, water->inlet, inlet);
    *inlet = (cw_water_inlet){water->own_critical, water->own_k, water->own_m,
                              water->own_c,        water->own_y, water->own_slope_factor};
    return true;
}

static void place_barrels(draft *d, cw_water_barrel *barrels, cw_water_inlet inlet)
{
    const cw_job *job = d->job;
    const cw_job_water *water = &job->water;
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const cw_plan_barrel *barrel = &d->plan.barrels[b];
        barrels[b] = (cw_water_barrel){
            .span_ft = job->box.span_in / CW_IN_PER_FT,
            .rise_ft = job->box.rise_in / CW_IN_PER_FT,
            .bed_ft = water->bed_in / CW_IN_PER_FT,
            .length_ft = barrel->laid_in / CW_IN_PER_FT,
            .inlet_floor_ft = cw_run_invert_ft(&barrel->grade, barrel->laid_in / CW_IN_PER_FT / d->plan.slope_factor),
            .outlet_floor_ft = cw_run_invert_ft(&barrel->grade, 0.0),
            .n = water->roughness,
            .bed_n = water->bed_roughness,
            .inlet = inlet,
            .entrance_loss = water->entrance_loss,
            .other_loss = water->other_loss,
            .blocked_ratio = water->blocked_percent / CW_PERCENT,
            .channel_velocity = water->channel_velocity};
    }
}

static cw_water_section channel_of(draft *d, const cw_job_tailwater *tail)
{
    if (tail->kind == CW_TAIL_TRAPEZOID)
        return (cw_water_section){.shape = CW_WATER_TRAPEZOID,
                                  .bottom_ft = tail->bottom_ft,
                                  .side_slope = tail->side_slope,
                                  .n = tail->roughness};
    cw_water_point *points = CW_TAKE(d->arena, cw_water_point, tail->point_count);
    for (int i = 0; i < tail->point_count; i++)
        points[i] = (cw_water_point){tail->points[i].at_ft, tail->points[i].elevation_ft, tail->points[i].roughness};
    return (cw_water_section){.shape = CW_WATER_SURVEYED, .points = points, .point_count = tail->point_count};
}

static cw_water_tailwater tailwater_of(draft *d, double outlet_ft)
{
    const cw_job_tailwater *given = &d->job->water.tailwater;
    cw_water_tailwater tail = {.kind = CW_WATER_TAIL_FREE};
    switch ((cw_tail_kind)given->kind) {
    case CW_TAIL_FREE:
        break;
    case CW_TAIL_FIXED:
        tail.kind = CW_WATER_TAIL_FIXED;
        tail.level_ft = given->level_ft;
        break;
    case CW_TAIL_TABLE: {
        cw_water_stage *stages = CW_TAKE(d->arena, cw_water_stage, given->stage_count);
        for (int i = 0; i < given->stage_count; i++)
            stages[i] = (cw_water_stage){given->stages[i].flow_cfs, given->stages[i].level_ft};
        tail.kind = CW_WATER_TAIL_TABLE;
        tail.stages = stages;
        tail.stage_count = given->stage_count;
        break;
    }
    case CW_TAIL_TRAPEZOID:
    case CW_TAIL_SURVEYED:
        tail.kind = CW_WATER_TAIL_CHANNEL;
        tail.channel = channel_of(d, given);
        tail.channel_slope = given->slope;
        if (given->kind == CW_TAIL_TRAPEZOID)
            tail.channel_bed_ft = given->has_bed_level ? given->bed_level_ft : outlet_ft;
        break;
    }
    return tail;
}

static const cw_water_road *road_of(draft *d)
{
    const cw_job_water *water = &d->job->water;
    if (water->crest_count < 2)
        return NULL;
    cw_water_road *road = CW_TAKE(d->arena, cw_water_road, 1);
    cw_water_crest *points = CW_TAKE(d->arena, cw_water_crest, water->crest_count);
    for (int i = 0; i < water->crest_count; i++)
        points[i] = (cw_water_crest){water->crest[i].at_ft, water->crest[i].elevation_ft};
    road->points = points;
    road->count = water->crest_count;
    const cw_water_surface surface = water->surface == 1 ? CW_WATER_GRAVEL : CW_WATER_PAVED;
    return cw_water_weir_rows(&d->job->rows, surface, &road->weir) ? road : NULL;
}

/* The lower of crest and hinges: where the roadway goes under first. */
static double low_road_ft(const draft *d, const cw_water_road *road)
{
    double low_ft = CW_ANY_HIGH;
    if (road)
        low_ft = cw_water_road_low_ft(road);
    else if (d->job->road.present) {
        const cw_run_side *sides[2] = {&d->plan.road.outlet, &d->plan.road.inlet};
        for (int i = 0; i < 2; i++)
            low_ft = fmin(low_ft, d->plan.road.elevation_ft - cw_run_hinge_drop_ft(sides[i]));
    }
    return low_ft;
}

/* ---- flows ---- */

static void find_flow(draft *d, cw_plan_flow *flow)
{
    const cw_job_flow *given = flow->given;
    cw_working *w = NULL;
    switch ((cw_flow_by)given->by) {
    case CW_FLOW_GIVEN:
        flow->flow_cfs = given->flow_cfs;
        break;
    case CW_FLOW_RATIONAL: {
        const cw_rational_input input = {given->runoff,       given->rain_in_per_h,  given->area_acre,
                                         given->storm_factor, given->season_percent, false};
        w = draft_working(d, cw_arena_print(d->arena, "Flow %s by the rational method", given->name));
        const cw_rational answer = cw_sitewater_rational(&input, &d->job->rows, w);
        flow->flow_cfs = answer.flow_cfs;
        flow->method = (cw_verdict)answer.verdict;
        break;
    }
    case CW_FLOW_UNIT_PEAK: {
        const cw_unit_peak_input input = {.area_acre = given->area_acre,
                                          .time_min = given->time_h * CW_MIN_PER_HOUR,
                                          .rain_in = given->rain_in,
                                          .curve_number = given->curve_number,
                                          .rain_type = given->rain_type,
                                          .pond_percent = given->pond_percent,
                                          .season_percent = given->season_percent};
        w = draft_working(d, cw_arena_print(d->arena, "Flow %s by the unit peak method", given->name));
        const cw_unit_peak answer = cw_sitewater_unit_peak(&input, &d->job->rows, w);
        flow->flow_cfs = answer.flow_cfs;
        flow->method = (cw_verdict)answer.verdict;
        break;
    }
    }
}

static void find_profiles(draft *d, cw_plan_flow *flow)
{
    const cw_plan_water *water = &d->plan.water;
    const int count = water->site.barrel_count;
    cw_water_profile *profiles = CW_TAKE(d->arena, cw_water_profile, count);
    for (int b = 0; b < count; b++) {
        cw_water_site_profile(&water->site, &flow->answer, b, &profiles[b]);
        const cw_water_barrel *barrel = &water->site.barrels[b];
        flow->ratio = fmax(flow->ratio, (flow->answer.pool_ft - cw_water_sill_ft(barrel)) / water->opening_ft);
        if (profiles[b].outlet_velocity_fps > flow->velocity_fps) {
            flow->velocity_fps = profiles[b].outlet_velocity_fps;
            flow->froude = profiles[b].outlet_froude;
        }
    }
    flow->profiles = profiles;
}

static void find_apron(draft *d, cw_plan_flow *flow)
{
    const cw_plan_water *water = &d->plan.water;
    int worst = 0;
    for (int b = 1; b < water->site.barrel_count; b++)
        if (flow->answer.barrel_cfs[b] > flow->answer.barrel_cfs[worst])
            worst = b;
    const cw_water_profile *profile = &flow->profiles[worst];
    const cw_water_barrel *barrel = &water->site.barrels[worst];
    const double tail_ft = flow->answer.tail.level_ft - cw_water_outlet_sill_ft(barrel);
    const cw_apron_input input = {.flow_cfs = flow->answer.barrel_cfs[worst],
                                  .span_in = barrel->span_ft * CW_IN_PER_FT,
                                  .rise_in = water->opening_ft * CW_IN_PER_FT,
                                  .barrels = water->site.barrel_count,
                                  .has_tailwater = flow->answer.tail.has_level && tail_ft > 0.0,
                                  .tailwater_ft = tail_ft,
                                  .has_normal = profile->outlet_froude > 1.0 && profile->has_normal &&
                                                profile->normal.value < water->opening_ft,
                                  .normal_ft = profile->normal.value,
                                  .has_velocity = true,
                                  .velocity_fps = profile->outlet_velocity_fps,
                                  .has_depth = true,
                                  .depth_ft = profile->outlet_depth_ft,
                                  .has_channel = flow->answer.tail.velocity_fps > 0.0,
                                  .channel_fps = flow->answer.tail.velocity_fps};
    cw_diags faults = cw_diags_on(d->arena);
    if (!cw_apron_input_valid(&input, (cw_pos){0}, &faults))
        return;
    flow->apron = cw_sitewater_apron(
        &input, &d->job->rows, draft_working(d, cw_arena_print(d->arena, "Apron for the flow %s", flow->given->name)));
    flow->has_apron = true;
}

static void show_flow(draft *d, const cw_plan_flow *flow)
{
    cw_working *w = draft_working(d, cw_arena_print(d->arena, "Headwater at the flow %s", flow->given->name));
    const cw_plan_water *water = &d->plan.water;
    const cw_water_answer *answer = &flow->answer;
    const char *here = "job file: water";
    cw_step_add(w, "Q", "flow", flow->flow_cfs, CW_DIM_CFS, here);
    if (answer->tail.has_level)
        cw_step_add(w, "TW", "tailwater level at this flow", answer->tail.level_ft, CW_DIM_ELEV_FT,
                    "tailwater of the job; normal depth by Manning where it is a channel");
    for (int b = 0; b < water->site.barrel_count; b++) {
        const cw_water_head *head = &answer->heads[b];
        const char *number = cw_arena_print(d->arena, "%d", b + 1);
        cw_step_add(w, cw_arena_print(d->arena, "Q_%s", number), "flow of this barrel at the common pool", answer->barrel_cfs[b],
                    CW_DIM_CFS, "flows of all barrels and the road add up to Q");
        cw_step_add(w, cw_arena_print(d->arena, "HW_i%s", number), "headwater by inlet control above the inlet sill", head->inlet_ft,
                    CW_DIM_FT, "FHWA HDS-5, appendix A (from memory, not verified)");
        if (head->has_outlet)
            cw_step_add(w, cw_arena_print(d->arena, "HW_o%s", number),
                        "headwater by outlet control: profile from the outlet and entrance loss", head->outlet_ft, CW_DIM_FT,
                        "energy and Manning, direct step");
    }
    if (answer->over.flow_cfs > 0.0)
        cw_step_add(w, "Q_r", "flow over the road", answer->over.flow_cfs, CW_DIM_CFS, "broad weir, FHWA HDS-5 (from memory, not verified)");
    cw_step_add(w, "z_p", "level of the pool: the larger of both controls, the same for all barrels", answer->pool_ft,
                CW_DIM_ELEV_FT, "solved by bracketing");
    cw_step_add(w, "HW/D", "greatest headwater over opening", flow->ratio, CW_DIM_NONE, "definition");
}

static void solve_flows(draft *d)
{
    cw_plan_water *water = &d->plan.water;
    const int count = d->job->water.flow_count;
    cw_plan_flow *flows = CW_TAKE(d->arena, cw_plan_flow, count);
    for (int i = 0; i < count; i++) {
        flows[i].given = &d->job->water.flows[i];
        find_flow(d, &flows[i]);
        flows[i].answer = cw_water_pool(&water->site, flows[i].flow_cfs);
        if (flows[i].answer.status != CW_WATER_OK)
            continue;
        find_profiles(d, &flows[i]);
        find_apron(d, &flows[i]);
        show_flow(d, &flows[i]);
    }
    water->flows = flows;
    water->flow_count = count;
}

static void draw_curve(draft *d)
{
    cw_plan_water *water = &d->plan.water;
    double top_cfs = 0.0;
    for (int i = 0; i < water->flow_count; i++)
        top_cfs = fmax(top_cfs, water->flows[i].flow_cfs);
    top_cfs *= 1.15;
    if (water->has_crest) {
        const cw_water_root over = cw_water_overtopping(&water->site, 0.0);
        water->has_overtopping = over.status == CW_WATER_OK;
        water->overtopping_cfs = over.value;
        const cw_water_root foot = cw_water_overtopping(&water->site, 1.0);
        if (foot.status == CW_WATER_OK)
            top_cfs = fmax(top_cfs, foot.value);
    }
    if (water->site.tailwater.kind == CW_WATER_TAIL_TABLE)
        top_cfs = fmin(top_cfs, water->site.tailwater.stages[water->site.tailwater.stage_count - 1].flow_cfs);
    cw_water_answer *points = CW_TAKE(d->arena, cw_water_answer, CW_PLAN_CURVE_POINTS);
    if (cw_water_curve(&water->site, top_cfs, points, CW_PLAN_CURVE_POINTS) == CW_WATER_OK) {
        water->curve = points;
        water->curve_count = CW_PLAN_CURVE_POINTS;
    }
}

void draft_water(draft *d)
{
    cw_plan_water *water = &d->plan.water;
    cw_water_inlet inlet;
    if (!d->job->water.present)
        return;
    water->present = true;
    water->status = CW_WATER_BAD_INLET;
    if (!inlet_of(d, &inlet))
        return;
    cw_water_barrel *barrels = CW_TAKE(d->arena, cw_water_barrel, d->plan.barrel_count);
    place_barrels(d, barrels, inlet);
    const cw_water_road *road = road_of(d);
    double outlet_ft = CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++)
        outlet_ft = fmin(outlet_ft, cw_water_outlet_sill_ft(&barrels[b]));
    water->site = (cw_water_site){barrels, d->plan.barrel_count, road, tailwater_of(d, outlet_ft)};
    water->opening_ft = cw_water_opening_ft(&barrels[0]);
    water->has_crest = road != NULL;
    water->low_road_ft = low_road_ft(d, road);
    water->status = cw_water_site_check(&water->site);
    if (water->status != CW_WATER_OK)
        return;
    solve_flows(d);
    draw_curve(d);
}
