/* Rows of the ledger about water. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

static const char *name_of(const draft *d, const cw_plan_flow *flow)
{
    static const char *const uses[] = {"design", "check", "work"};
    return cw_arena_print(d->arena, "%s (%s), %s", flow->given->name, uses[flow->given->use],
                          cw_quantity_format(d->arena, flow->flow_cfs, CW_DIM_CFS, d->plan.units));
}

static const char *working_of(const draft *d, const cw_plan_flow *flow)
{
    return cw_arena_print(d->arena, "Headwater at the flow %s", flow->given->name);
}

static void check_design(draft *d, const cw_plan_flow *flow, const char *where)
{
    const cw_job_water *given = &d->job->water;
    const cw_plan_water *water = &d->plan.water;
    const char *mend = "raise the road, widen or add a barrel, or improve the inlet";
    if (given->has_allowed)
        draft_judge(d, (cw_check){.id = "water.allowed-headwater",
                                  .what = "Pool not above the level that the owner allows",
                                  .where = where,
                                  .demand = flow->answer.pool_ft,
                                  .capacity = given->allowed_ft,
                                  .dim = CW_DIM_ELEV_FT,
                                  .clause = "job file: water.allowed_headwater",
                                  .mend = mend,
                                  .working = working_of(d, flow)});
    if (water->low_road_ft < CW_ANY_HIGH)
        draft_judge(d, (cw_check){.id = "water.freeboard",
                                  .what = "Pool stays below the low point of the roadway",
                                  .where = where,
                                  .demand = water->low_road_ft - flow->answer.pool_ft,
                                  .capacity = given->freeboard_ft,
                                  .at_least = true,
                                  .dim = CW_DIM_FT,
                                  .clause = draft_basis(d, "water.freeboard", "water.freeboard"),
                                  .rests_on = draft_rest(d, "water.freeboard", "water.freeboard"),
                                  .mend = mend,
                                  .working = working_of(d, flow)});
    draft_judge(d, (cw_check){.id = "water.headwater-ratio",
                              .what = "Headwater over the height of the opening",
                              .where = where,
                              .demand = flow->ratio,
                              .capacity = given->ratio_max,
                              .dim = CW_DIM_NONE,
                              .clause = draft_basis(d, "water.ratio_max", "water.ratio_max"),
                              .rests_on = draft_rest(d, "water.ratio_max", "water.ratio_max"),
                              .mend = mend,
                              .working = working_of(d, flow)});
}

/* Depth on the road kills: any flow over it is for a person to judge. */
static void check_over(draft *d, const cw_plan_flow *flow, const char *where)
{
    const cw_water_over *over = &flow->answer.over;
    if (!d->plan.water.has_crest)
        return;
    const bool wet = over->flow_cfs > 0.0;
    draft_add(d, (cw_check){.id = "water.over-road",
                            .what = wet ? cw_arena_print(d->arena, "Water goes over the road: %s deep, %s, %s of the flow",
                                                         cw_quantity_format(d->arena, over->depth_ft, CW_DIM_FT, d->plan.units),
                                                         cw_quantity_format(d->arena, over->velocity_fps, CW_DIM_FPS, d->plan.units),
                                                         cw_quantity_format(d->arena, over->flow_cfs, CW_DIM_CFS, d->plan.units))
                                        : "No water goes over the road",
                            .where = where,
                            .clause = "broad weir, FHWA HDS-5 (from memory, not verified)",
                            .verdict = wet ? CW_UNDECIDED : CW_HOLDS,
                            .mend = wet ? "close the road to traffic at this flow, or carry it under the road" : "",
                            .working = working_of(d, flow)});
    if (wet && over->past_ends)
        draft_add(d, (cw_check){.id = "water.crest-ends",
                                .what = "The crest given holds the pool at its ends",
                                .where = where,
                                .clause = "geometry of the crest",
                                .verdict = CW_UNDECIDED,
                                .mend = "carry water.crest out to ground above the pool; flow round its ends is not counted"});
}

static void check_apron(draft *d, const cw_plan_flow *flow, const char *where)
{
    const cw_apron *apron = &flow->apron;
    const char *working = cw_arena_print(d->arena, "Apron for the flow %s", flow->given->name);
    if (!flow->has_apron || flow->given->use == CW_FLOW_WORK)
        return;
    draft_add(d, (cw_check){.id = "water.apron",
                            .what = apron->rock_class > 0
                                        ? cw_arena_print(d->arena, "Stone apron: D50 %s, %s long",
                                                         cw_quantity_format(d->arena, apron->class_stone_in, CW_DIM_IN, d->plan.units),
                                                         cw_quantity_format(d->arena, apron->length_ft, CW_DIM_FT, d->plan.units))
                                        : "Stone apron: no class is large enough",
                            .where = where,
                            .clause = "FHWA HEC-14, chapter 10 and appendix D",
                            .verdict = (cw_verdict)apron->verdict,
                            .mend = apron->verdict == CW_HOLDS
                                        ? ""
                                        : "beyond the range of the formulas or the stone classes: have the outlet designed",
                            .working = working});
    if (apron->dissipator != CW_DISSIPATOR_NO)
        draft_add(d, (cw_check){.id = "water.dissipator",
                                .what = cw_arena_print(d->arena, "Outlet velocity %s, Froude number %s",
                                                       cw_quantity_format(d->arena, flow->velocity_fps, CW_DIM_FPS, d->plan.units),
                                                       cw_decimal(d->arena, flow->froude, 2)),
                                .where = where,
                                .clause = draft_source(d, "dissipator.velocity"),
                                .verdict = CW_UNDECIDED,
                                .mend = "an energy dissipator needs its own design",
                                .working = working});
}

static void check_flow(draft *d, const cw_plan_flow *flow)
{
    const char *where = name_of(d, flow);
    if (flow->method != CW_HOLDS)
        draft_add(d, (cw_check){.id = "water.flow-method",
                                .what = "The flow is found within the range of its method",
                                .where = where,
                                .clause = "limits of the method, see its working",
                                .verdict = CW_UNDECIDED,
                                .mend = "have a hydrologist give the flow, and write by: given"});
    if (flow->answer.status != CW_WATER_OK) {
        draft_add(d, (cw_check){.id = "water.solved",
                                .what = "Headwater at this flow is found",
                                .where = where,
                                .clause = "energy, Manning and the inlet law",
                                .verdict = CW_UNDECIDED,
                                .mend = cw_water_status_words(flow->answer.status)});
        return;
    }
    if (flow->given->use == CW_FLOW_DESIGN)
        check_design(d, flow, where);
    check_over(d, flow, where);
    check_apron(d, flow, where);
}

static void check_inlet_status(draft *d)
{
    const cw_job_water *given = &d->job->water;
    if (given->inlet == CW_WATER_INLET_OWN)
        return;
    const cw_water_inlet_kind *kind = cw_water_inlet_kind_at(given->inlet);
    const cw_row *row = draft_row(d, cw_arena_print(d->arena, "inlet.%s.k", kind->id));
    if (row && row->status != CW_STATUS_READ)
        draft_add(d, (cw_check){.id = "water.inlet-coefficients",
                                .what = cw_arena_print(d->arena, "Inlet coefficients: %s", kind->words),
                                .clause = cw_row_source(d->arena, row),
                                .verdict = CW_HOLDS,
                                .rests_on = row->id});
}

void draft_check_water(draft *d)
{
    const cw_plan_water *water = &d->plan.water;
    if (!water->present)
        return;
    if (water->status != CW_WATER_OK) {
        draft_add(d, (cw_check){.id = "water.site",
                                .what = "Barrels, road and tailwater can be computed",
                                .clause = "energy, Manning and the inlet law",
                                .verdict = CW_UNDECIDED,
                                .mend = cw_water_status_words(water->status)});
        return;
    }
    check_inlet_status(d);
    for (int i = 0; i < water->flow_count; i++)
        check_flow(d, &water->flows[i]);
}

/* ---- during the work ---- */

static void check_way(draft *d)
{
    const cw_plan_site_water *site = &d->plan.site_water;
    if (site->has_bypass)
        draft_judge(d, (cw_check){.id = "site.bypass",
                                  .what = cw_arena_print(d->arena, "Bypass pipe %s carries the work flow",
                                                         cw_quantity_format(d->arena, site->bypass.size_in, CW_DIM_IN, d->plan.units)),
                                  .demand = site->work_cfs,
                                  .capacity = site->bypass.capacity_cfs,
                                  .dim = CW_DIM_CFS,
                                  .clause = "full pipe, energy and Manning",
                                  .mend = "bring a larger pipe or a second line",
                                  .working = "Bypass pipe"});
    if (site->has_flume)
        draft_add(d, (cw_check){.id = "site.flume",
                                .what = cw_arena_print(d->arena, "Flume runs %s deep and is %s high",
                                                       cw_quantity_format(d->arena, site->flume.depth_ft, CW_DIM_FT, d->plan.units),
                                                       cw_quantity_format(d->arena, site->flume.height_ft, CW_DIM_FT, d->plan.units)),
                                .clause = "Manning, freeboard common practice",
                                .verdict = site->flume.status == CW_FOUND && site->flume.state != CW_FLUME_UNSTEADY ? CW_HOLDS
                                                                                                                   : CW_UNDECIDED,
                                .mend = site->flume.state == CW_FLUME_UNSTEADY
                                            ? "the depth is near critical and the surface unsteady: change slope or width"
                                            : "widen the flume",
                                .working = "Flume"});
    if (site->has_pump)
        draft_add(d, (cw_check){.id = "site.pumps",
                                .what = cw_arena_print(d->arena, "%d pumps and %d standby, head %s, %s each", site->pump.duty,
                                                       site->pump.standby,
                                                       cw_quantity_format(d->arena, site->pump.head_ft, CW_DIM_FT, d->plan.units),
                                                       cw_quantity_format(d->arena, site->pump.each_hp, CW_DIM_HP, d->plan.units)),
                                .clause = "hydraulics of pump and hose; the pump maker's curve governs",
                                .verdict = (cw_verdict)site->pump.suction,
                                .mend = site->pump.suction == CW_HOLDS ? "" : "set the pumps lower: the suction lift is too much",
                                .working = "Pumps for the stream"});
}

static void check_dam(draft *d)
{
    static const char *const first[] = {"the cofferdam is overtopped", "the empty barrel floats", "a base without its top floats",
                                        "water comes over the wall of a base"};
    const cw_plan_site_water *site = &d->plan.site_water;
    const cw_cofferdam *dam = &site->cofferdam;
    if (!site->has_cofferdam)
        return;
    if (d->job->site_water.cofferdam.has_crest)
        draft_judge(d, (cw_check){.id = "site.cofferdam",
                                  .what = "Cofferdam is high enough for the work flow",
                                  .demand = d->job->site_water.cofferdam.crest_ft,
                                  .capacity = dam->crest_ft,
                                  .at_least = true,
                                  .dim = CW_DIM_ELEV_FT,
                                  .clause = draft_source(d, "freeboard.cofferdam"),
                                  .rests_on = draft_rest(d, "site_water.cofferdam.freeboard", "freeboard.cofferdam"),
                                  .mend = "raise the cofferdam",
                                  .working = "Cofferdam and stop of work"});
    draft_add(d, (cw_check){.id = "site.stop-level",
                            .what = cw_arena_print(d->arena, "Clear the work when the stream reaches %s: at %s %s",
                                                   cw_quantity_format(d->arena, dam->warn_ft, CW_DIM_ELEV_FT, d->plan.units),
                                                   cw_quantity_format(d->arena, dam->stop_ft, CW_DIM_ELEV_FT, d->plan.units),
                                                   first[dam->first]),
                            .where = cw_arena_print(d->arena, "stream at the work flow %s",
                                                    cw_quantity_format(d->arena, site->stage_ft, CW_DIM_ELEV_FT, d->plan.units)),
                            .clause = "least of overtopping and floating, less the rise in the time to clear",
                            .verdict = (cw_verdict)dam->stage_verdict,
                            .mend = dam->stage_verdict == CW_HOLDS
                                        ? ""
                                        : "the work flow alone stands above this level: hold the barrels down or keep the stream lower",
                            .working = "Cofferdam and stop of work"});
}

static void check_float(draft *d, const cw_flotation *flotation, const char *id, const char *what, const char *working)
{
    static const char *const undecided = "hold it down: tops on, fill over it, water inside, or pump until the fill is placed";
    const cw_plan_site_water *site = &d->plan.site_water;
    cw_check check = {.id = id,
                      .what = what,
                      .where = "groundwater or stream at the level given, pumps stopped",
                      .demand = site->groundwater_ft,
                      .capacity = flotation->safe_ft,
                      .dim = CW_DIM_FT,
                      .clause = draft_basis(d, "site_water.groundwater.safety", "flotation.factor"),
                      .rests_on = draft_rest(d, "site_water.groundwater.safety", "flotation.factor"),
                      .mend = undecided,
                      .working = working};
    if (flotation->first == CW_FLOAT_NEVER) {
        check.verdict = CW_HOLDS;
        check.mend = "";
        draft_add(d, check);
        return;
    }
    cw_check *row = draft_add(d, check);
    cw_check_judge(row);
    // Above the level the piece floats once the pumps stop: the order holds the pumps until it is held down.
    if (row->verdict == CW_FAILS)
        row->verdict = CW_UNDECIDED;
    else
        row->mend = "";
}

static void check_groundwater(draft *d)
{
    const cw_plan_site_water *site = &d->plan.site_water;
    const cw_job_groundwater *given = &d->job->site_water.groundwater;
    if (!site->has_inflow)
        return;
    const char *working = "Groundwater into the trench";
    if (given->has_pump)
        draft_judge(d, (cw_check){.id = "site.pumping",
                                  .what = "Pumping rate covers the groundwater, ground three times as open as given",
                                  .demand = site->inflow.high_cfs,
                                  .capacity = given->pump_cfs,
                                  .dim = CW_DIM_CFS,
                                  .clause = "line slot, range of permeability common practice",
                                  .rests_on = "inflow.k_range",
                                  .mend = "bring more pumps, or wells ahead of the trench",
                                  .working = working});
    else
        draft_add(d, (cw_check){.id = "site.pumping",
                                .what = cw_arena_print(d->arena, "Groundwater into the trench: %s, from %s to %s",
                                                       cw_quantity_format(d->arena, site->inflow.flow_cfs, CW_DIM_CFS, d->plan.units),
                                                       cw_quantity_format(d->arena, site->inflow.low_cfs, CW_DIM_CFS, d->plan.units),
                                                       cw_quantity_format(d->arena, site->inflow.high_cfs, CW_DIM_CFS, d->plan.units)),
                                .clause = "line slot, range of permeability common practice",
                                .verdict = CW_UNDECIDED,
                                .mend = "state site_water.groundwater.pump: the pumping rate that will be on site",
                                .working = working});
    if (site->inflow.verdict != CW_HOLDS)
        draft_add(d, (cw_check){.id = "site.inflow-range",
                                .what = "Groundwater formula is within its range",
                                .clause = "line slot",
                                .verdict = CW_UNDECIDED,
                                .mend = "have the drawdown designed, or measure by a pumping test",
                                .working = working});
}

void draft_check_site_water(draft *d)
{
    if (!d->plan.site_water.present)
        return;
    check_way(d);
    check_dam(d);
    check_float(d, &d->plan.site_water.closed, "site.float-barrel", "Water stays below the level that floats an empty barrel without fill",
                "Floating of an empty barrel without fill");
    if (d->job->box.form != CW_FORM_RING)
        check_float(d, &d->plan.site_water.open, "site.float-base", "Water stays below the level that floats a base without its top",
                    "Floating of a base without its top");
    check_groundwater(d);
}
