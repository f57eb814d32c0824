/* Ends and obstacles of the plan as JSON. */
#include "plan_json_internal.h"

/* ---- ends ---- */

static void add_point(cw_json *json, const char *key, const cw_plan *plan,
                      const cw_plan_end_works *works, cw_end_point point)
{
    const cw_run_place place = cw_plan_end_place(works, plan->path.frame.inlet, point);
    cw_json_open(json, key);
    cw_json_number(json, "northing_ft", place.northing_ft);
    cw_json_number(json, "easting_ft", place.easting_ft);
    cw_json_close(json);
}

static void add_wing(cw_json *json, const cw_plan *plan, const cw_plan_end_works *works, int side)
{
    static const char *const kinds[] = {"flared", "straight", "along_road"};
    const cw_plan_wing *wing = &works->wings[side];
    cw_json_open(json, NULL);
    cw_json_text(json, "side", side == CW_END_LEFT ? "left" : "right");
    cw_json_text(json, "kind", kinds[wing->given->kind]);
    cw_json_text(json, "make", wing->given->make == CW_WALL_CAST ? "cast" : "precast");
    cw_json_number(json, "root_height_ft", wing->root_ft);
    cw_json_number(json, "tip_height_ft", wing->tip_ft);
    cw_json_flag(json, "found", wing->has_take);
    if (wing->has_take) {
        const cw_wing *take = &wing->take;
        cw_json_number(json, "from_normal_deg", take->from_normal_deg);
        cw_json_number(json, "length_ft", take->length_ft);
        cw_json_number(json, "face_sqft", take->face_sqft);
        cw_json_number(json, "wall_cy", take->above_cy + take->below_cy);
        cw_json_number(json, "footing_width_ft", take->footing_width_ft);
        cw_json_number(json, "footing_cy", take->footing_cy);
        cw_json_number(json, "formed_sqft", take->formed_sqft);
        cw_json_number(json, "excavation_cy", take->excavation_cy);
        cw_json_number(json, "panel_lb", take->panel_lb);
        if (wing->has_fill) {
            cw_json_number(json, "fill_at_root_ft", wing->fill_root_ft);
            cw_json_number(json, "fill_at_tip_ft", wing->fill_tip_ft);
        }
        add_point(json, "root", plan, works, works->plan.root[side]);
        add_point(json, "tip", plan, works, works->plan.tip[side]);
    }
    cw_json_close(json);
}

void cw_plan_json_end_works(cw_json *json, const cw_plan *plan, const cw_plan_end_works *works)
{
    if (!works->present)
        return;
    cw_json_open_list(json, "wings");
    for (int side = 0; side < 2; side++)
        if (works->wings[side].present)
            add_wing(json, plan, works, side);
    cw_json_close_list(json);
    if (works->has_apron) {
        cw_json_open(json, "concrete_apron");
        cw_json_number(json, "area_sqft", works->apron.area_sqft);
        cw_json_number(json, "edge_ft", works->apron.edge_ft);
        cw_json_number(json, "concrete_cy", works->apron.concrete_cy);
        cw_json_close(json);
    }
    if (works->has_cutoff) {
        cw_json_open(json, "cutoff_wall");
        cw_json_number(json, "length_ft", works->plan.edge_ft);
        cw_json_number(json, "height_ft", works->cutoff.height_ft);
        cw_json_number(json, "concrete_cy", works->cutoff.concrete_cy);
        cw_json_number(json, "formed_sqft", works->cutoff.formed_sqft);
        cw_json_number(json, "excavation_cy", works->cutoff.excavation_cy);
        cw_json_close(json);
    }
}

/* ---- obstacles ---- */

static void add_cut(cw_json *json, const cw_plan_outline *cut)
{
    cw_json_open(json, "cut");
    cw_json_number(json, "half_bottom_ft", cut->half_bottom_ft);
    cw_json_number(json, "working_space_ft", cut->work_ft);
    cw_json_text(json, "rests_on", cut->how);
    cw_json_open_list(json, "outline");
    for (int i = 0; i < cut->count; i++) {
        const cw_plan_outline_point *point = &cut->points[i];
        cw_json_open(json, NULL);
        cw_json_number(json, "plan_ft", point->at_ft);
        cw_json_number(json, "bottom_ft", point->bottom_ft);
        if (point->has_ground)
            cw_json_number(json, "ground_ft", point->ground_ft);
        cw_json_number(json, "half_width_ft", point->half_ft);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}

static void add_utilities(cw_json *json, const cw_plan_conflicts *conflicts)
{
    cw_json_open_list(json, "utilities");
    for (int i = 0; i < conflicts->utility_count; i++) {
        const cw_plan_utility *utility = &conflicts->utilities[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", utility->given->name);
        cw_json_text(json, "status",
                     utility->given->status == CW_UTILITY_LIVE ? "live" : "abandoned");
        cw_json_flag(json, "level_known", utility->has_level);
        cw_json_flag(json, "outside", utility->outside);
        cw_json_flag(json, "overhead", utility->has_level && utility->overhead);
        if (utility->has_level && !utility->outside && !utility->overhead) {
            cw_json_number(json, "plan_ft", utility->at_ft);
            cw_json_number(json, "top_ft", utility->top_ft);
            cw_json_number(json, "from_cut_ft", utility->cut_gap_ft);
            cw_json_number(json, "from_box_ft", utility->box_gap_ft);
            cw_json_number(json, "exposed_ft", utility->exposed_ft);
        }
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_structures(cw_json *json, const cw_plan_conflicts *conflicts)
{
    cw_json_open_list(json, "structures");
    for (int i = 0; i < conflicts->structure_count; i++) {
        const cw_plan_structure *structure = &conflicts->structures[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", structure->given->name);
        cw_json_flag(json, "outside", structure->outside);
        cw_json_number(json, "plan_ft", structure->at_ft);
        cw_json_number(json, "below_footing_ft", structure->take.below_ft);
        cw_json_number(json, "needed_ft", structure->take.needed_ft);
        cw_json_number(json, "had_ft", structure->take.had_ft);
        cw_json_number(json, "edge_ft", structure->take.edge_ft);
        cw_json_number(json, "deepest_ft", structure->take.deepest_ft);
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_lines(cw_json *json, const cw_plan_conflicts *conflicts)
{
    cw_json_open_list(json, "lines");
    for (int i = 0; i < conflicts->line_count; i++) {
        const cw_plan_line *line = &conflicts->lines[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", line->name);
        cw_json_flag(json, "outside", line->outside);
        if (!line->outside) {
            cw_json_number(json, "plan_ft", line->at_ft);
            cw_json_number(json, "half_width_ft", line->half_ft);
            cw_json_number(json, "away_ft", line->away_ft);
        }
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

static void add_edges(cw_json *json, const cw_plan_conflicts *conflicts)
{
    static const char *const ways[] = {"slope", "shore", "none"};
    cw_json_open_list(json, "phase_edges");
    for (int i = 0; i < conflicts->edge_count; i++) {
        const cw_plan_phase_edge *edge = &conflicts->edges[i];
        cw_json_open(json, NULL);
        cw_json_count(json, "phase_line", edge->phase + 1);
        cw_json_text(json, "traffic", edge->upstream ? "upstream" : "downstream");
        cw_json_number(json, "lane_ft", edge->lane_ft);
        cw_json_flag(json, "depth_known", edge->has_depth);
        if (edge->has_depth) {
            cw_json_number(json, "depth_ft", edge->depth_ft);
            cw_json_number(json, "sloped_room_ft", edge->take.slope_ft);
            cw_json_number(json, "shored_room_ft", edge->take.shore_ft);
            cw_json_text(json, "fits", ways[edge->take.way]);
            cw_json_number(json, "steepest", edge->take.steepest);
            cw_json_number(json, "edge_to_lane_ft", edge->take.to_lane_ft);
            cw_json_flag(json, "surcharge", edge->take.surcharge);
        }
        cw_json_close(json);
    }
    cw_json_close_list(json);
}

void cw_plan_json_conflicts(cw_json *json, const cw_plan *plan)
{
    const cw_plan_conflicts *conflicts = &plan->conflicts;
    if (!conflicts->present)
        return;
    cw_json_open(json, "obstacles");
    add_cut(json, &conflicts->cut);
    add_utilities(json, conflicts);
    add_structures(json, conflicts);
    add_lines(json, conflicts);
    add_edges(json, conflicts);
    cw_json_close(json);
}
