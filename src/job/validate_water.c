/* Faults of the water sections that no single value shows. */
#include "job_internal.h"

#include "cw/text.h"

static cw_pos at(const cw_builder *b, const char *path)
{
    return cw_entries_place(b->entries, path);
}

static void check_inlet(cw_builder *b)
{
    enum { OWN = 23 }; // the last of the inlet words
    const cw_job_water *water = &b->job->water;
    if (water->inlet != OWN)
        return;
    const cw_wanted keys[] = {{water->has_own_k, "own_k"},
                           {water->has_own_m, "own_m"},
                           {water->has_own_c, "own_c"},
                           {water->has_own_y, "own_y"},
                           {water->own_source && water->own_source[0], "own_source"}};
    cw_job_need(b, "water", "inlet: own", keys, 5);
}

static void check_flow(cw_builder *b, int index)
{
    const cw_job_flow *flow = &b->job->water.flows[index];
    const char *path = cw_arena_print(b->arena, "water.flows[%d]", index);
    if (flow->by == CW_FLOW_GIVEN) {
        const cw_wanted keys[] = {{flow->has_flow, "flow"}};
        cw_job_need(b, path, "by: given", keys, 1);
        return;
    }
    if (flow->has_flow)
        cw_diag_add(
            b->diags, at(b, cw_arena_print(b->arena, "%s.flow", path)), CW_E_CONFLICT,
            "a flow is given, and by: %s would compute another; remove flow, or write by: given",
            flow->by == CW_FLOW_RATIONAL ? "rational" : "unit_peak");
    if (flow->by == CW_FLOW_RATIONAL) {
        const cw_wanted keys[] = {{flow->has_area, "area"},
                               {flow->has_runoff, "runoff"},
                               {flow->has_rain_rate, "rain_rate"}};
        cw_job_need(b, path, "by: rational", keys, 3);
    } else {
        const cw_wanted keys[] = {{flow->has_area, "area"},
                               {flow->has_rain, "rain"},
                               {flow->has_time, "time"},
                               {flow->has_curve_number, "curve_number"}};
        cw_job_need(b, path, "by: unit_peak", keys, 4);
    }
}

static bool has_use(const cw_job_water *water, cw_flow_use use)
{
    for (int i = 0; i < water->flow_count; i++)
        if (water->flows[i].use == (int)use)
            return true;
    return false;
}

static void check_table(cw_builder *b)
{
    const cw_job_tailwater *tail = &b->job->water.tailwater;
    if (tail->stage_count < 2)
        cw_diag_add(
            b->diags, at(b, "water.tailwater"), CW_E_MISSING,
            "tailwater by table needs at least 2 rows of flow and level; add them under table");
    for (int i = 1; i < tail->stage_count; i++)
        if (!(tail->stages[i].flow_cfs > tail->stages[i - 1].flow_cfs) ||
            tail->stages[i].level_ft < tail->stages[i - 1].level_ft)
            cw_diag_add(b->diags, at(b, cw_arena_print(b->arena, "water.tailwater.table[%d]", i)),
                        CW_E_GEOMETRY,
                        "row %d of the tailwater table does not rise above the one before it; "
                        "order the rows by flow, with "
                        "levels that never fall",
                        i + 1);
}

static void check_points(cw_builder *b)
{
    const cw_job_tailwater *tail = &b->job->water.tailwater;
    if (tail->point_count < 3)
        cw_diag_add(b->diags, at(b, "water.tailwater"), CW_E_MISSING,
                    "a surveyed channel needs at least 3 points across; add them under points");
    for (int i = 1; i < tail->point_count; i++)
        if (tail->points[i].at_ft < tail->points[i - 1].at_ft)
            cw_diag_add(b->diags, at(b, cw_arena_print(b->arena, "water.tailwater.points[%d]", i)),
                        CW_E_GEOMETRY,
                        "point %d of the channel lies left of the one before it; order the points "
                        "from left to right",
                        i + 1);
}

static void check_tailwater(cw_builder *b)
{
    const cw_job_tailwater *tail = &b->job->water.tailwater;
    const cw_wanted fixed[] = {{tail->has_level, "level"}};
    const cw_wanted trapezoid[] = {{tail->has_bottom, "bottom"},
                                {tail->has_side_slope, "side_slope"},
                                {tail->has_roughness, "roughness"},
                                {tail->has_slope, "slope"}};
    const cw_wanted surveyed[] = {{tail->has_slope, "slope"}};
    switch ((cw_tail_kind)tail->kind) {
    case CW_TAIL_FREE:
        break;
    case CW_TAIL_FIXED:
        cw_job_need(b, "water.tailwater", "kind: fixed", fixed, 1);
        break;
    case CW_TAIL_TABLE:
        check_table(b);
        break;
    case CW_TAIL_TRAPEZOID:
        cw_job_need(b, "water.tailwater", "kind: trapezoid", trapezoid, 4);
        if (tail->has_bottom && tail->has_side_slope && !(tail->bottom_ft > 0.0) &&
            !(tail->side_slope > 0.0))
            cw_diag_add(
                b->diags, at(b, "water.tailwater.bottom"), CW_E_GEOMETRY,
                "a channel with no bottom width and vertical sides has no room; give one of them");
        break;
    case CW_TAIL_SURVEYED:
        cw_job_need(b, "water.tailwater", "kind: surveyed", surveyed, 1);
        check_points(b);
        break;
    }
}

static void check_crest(cw_builder *b)
{
    const cw_job_water *water = &b->job->water;
    if (water->crest_count == 1)
        cw_diag_add(b->diags, at(b, "water.crest"), CW_E_MISSING,
                    "one point makes no crest; give at least 2, or leave crest out");
    for (int i = 1; i < water->crest_count; i++)
        if (!(water->crest[i].at_ft > water->crest[i - 1].at_ft))
            cw_diag_add(b->diags, at(b, cw_arena_print(b->arena, "water.crest[%d]", i)),
                        CW_E_GEOMETRY,
                        "point %d of the crest is not up-station of the one before it; order the "
                        "points by distance",
                        i + 1);
}

static void check_site(cw_builder *b)
{
    const cw_job *job = b->job;
    const cw_job_diversion *divert = &job->site_water.diversion;
    const cw_job_groundwater *ground = &job->site_water.groundwater;
    const bool streams =
        (divert->present && divert->kind != CW_DIVERT_NONE) || job->site_water.cofferdam.present;
    if (streams && !has_use(&job->water, CW_FLOW_WORK))
        cw_diag_add(b->diags, at(b, "site_water"), CW_E_MISSING,
                    "diversion and cofferdam need the flow of the season of the work; add one to "
                    "water.flows with use: work");
    if (divert->present && divert->kind == CW_DIVERT_PIPE) {
        const cw_wanted keys[] = {{divert->has_sizes, "sizes"}};
        cw_job_need(b, "site_water.diversion", "kind: pipe", keys, 1);
    }
    if (divert->present && divert->kind == CW_DIVERT_PUMPS) {
        const cw_wanted keys[] = {{divert->has_pump, "pump"}};
        cw_job_need(b, "site_water.diversion", "kind: pumps", keys, 1);
    }
    if (ground->present && cw_job_sound(b, "site_water.groundwater.base") &&
        cw_job_sound(b, "site_water.groundwater.level") && !(ground->base_ft < ground->level_ft))
        cw_diag_add(b->diags, at(b, "site_water.groundwater.base"), CW_E_GEOMETRY,
                    "the base that lets no water through lies at %s, not below the groundwater at "
                    "%s; correct one of them",
                    cw_quantity_format(b->arena, ground->base_ft, CW_DIM_ELEV_FT, CW_US),
                    cw_quantity_format(b->arena, ground->level_ft, CW_DIM_ELEV_FT, CW_US));
}

void cw_job_validate_water(cw_builder *b)
{
    const cw_job_water *water = &b->job->water;
    check_site(b);
    if (!water->present)
        return;
    check_inlet(b);
    for (int i = 0; i < water->flow_count; i++)
        check_flow(b, i);
    if (water->flow_count > 0 && !has_use(water, CW_FLOW_DESIGN))
        cw_diag_add(b->diags, at(b, "water.flows"), CW_E_MISSING,
                    "no flow is for design; give one of the flows use: design");
    check_tailwater(b);
    check_crest(b);
    if (cw_job_sound(b, "box.rise") && !(water->bed_in < b->job->box.rise_in))
        cw_diag_add(b->diags, at(b, "water.bed"), CW_E_GEOMETRY,
                    "bed material %s deep fills the box, which is %s high inside; reduce bed",
                    cw_quantity_format(b->arena, water->bed_in, CW_DIM_IN, CW_US),
                    cw_quantity_format(b->arena, b->job->box.rise_in, CW_DIM_IN, CW_US));
}
