/* The ground members of the plan as JSON: trench, grade, closing. */
#include "plan_json_internal.h"

#include "cw/units.h"

static const char *class_word(int soil)
{
    static const char *const words[] = {"rock", "A", "B", "C"};
    return words[soil];
}

/* ---- trench ---- */

static void add_cut(cw_json *json, const cw_plan_cut *cut)
{
    static const char *const protections[] = {"none", "watch", "needed"};
    cw_json_open(json, NULL);
    cw_json_number(json, "at_ft", cut->at_ft);
    cw_json_text(json, "why", cut->why);
    cw_json_flag(json, "dug", cut->dug);
    cw_json_flag(json, "drawn", cut->drawn);
    cw_json_number(json, "ground_ft", cut->ground_ft);
    cw_json_number(json, "subgrade_ft", cut->subgrade_ft);
    cw_json_number(json, "depth_ft", cut->depth_ft);
    if (cut->dug) {
        const cw_trench_section *section = &cut->section;
        cw_json_number(json, "deepest_ft", section->deepest_ft);
        cw_json_number(json, "bottom_ft", section->bottom_ft);
        cw_json_number(json, "top_ft", section->top_ft);
        cw_json_number(json, "left_ft", section->left_ft);
        cw_json_number(json, "right_ft", section->right_ft);
        cw_json_number(json, "area_sqft", section->area_sqft);
        cw_json_number(json, "slope_bottom", section->slope_bottom);
        cw_json_number(json, "slope_top", section->slope_top);
        cw_json_text(json, "protection", protections[section->protection]);
        cw_json_text(json, "verdict", cw_verdict_word((cw_verdict)section->verdict));
        cw_json_open_list(json, "layers");
        for (int i = 0; i < cut->layer_count; i++) {
            cw_json_open(json, NULL);
            cw_json_text(json, "name", cut->layers[i].name);
            cw_json_number(json, "bottom_ft", cut->layers[i].bottom_ft);
            cw_json_text(json, "class", class_word(cut->layers[i].soil.soil));
            cw_json_close(json);
        }
        cw_json_close_list(json);
    }
    cw_json_close(json);
}

static void add_surface(cw_json *json, const cw_plan_surface *surface)
{
    cw_json_open(json, "surface");
    cw_json_flag(json, "known", surface->known);
    cw_json_text(json, "why", surface->why);
    if (surface->known) {
        const cw_earthwork_dug *dug = &surface->dug;
        cw_json_number(json, "exact_cy", dug->cut_cuft / CW_CUFT_PER_CY);
        cw_json_number(json, "run_cy", dug->run_cuft / CW_CUFT_PER_CY);
        if (surface->has_average)
            cw_json_number(json, "average_cy", surface->average_cuft / CW_CUFT_PER_CY);
        cw_json_number(json, "low_cy", dug->low_cuft / CW_CUFT_PER_CY);
        cw_json_number(json, "footprint_sqft", dug->footprint_sqft);
        cw_json_number(json, "deepest_ft", dug->deepest_ft);
        cw_json_open_list(json, "edge");
        for (int i = 0; i < dug->edge_count; i++) {
            cw_json_open(json, NULL);
            cw_json_number(json, "northing_ft", surface->origin_northing_ft + dug->edge[i].north_ft);
            cw_json_number(json, "easting_ft", surface->origin_easting_ft + dug->edge[i].east_ft);
            cw_json_number(json, "elevation_ft", dug->edge[i].elevation_ft);
            cw_json_close(json);
        }
        cw_json_close_list(json);
    }
    cw_json_close(json);
}

void cw_plan_json_trench(cw_json *json, const cw_plan *plan)
{
    const cw_plan_trench *trench = &plan->trench;
    if (!trench->present)
        return;
    cw_json_open(json, "trench");
    cw_json_flag(json, "classed", trench->classed);
    cw_json_open_list(json, "cuts");
    for (int i = 0; i < trench->cut_count; i++)
        add_cut(json, &trench->cuts[i]);
    cw_json_close_list(json);
    if (trench->deepest >= 0) {
        cw_json_number(json, "length_ft", trench->length_ft);
        cw_json_number(json, "exact_cy", trench->exact_cy);
        cw_json_number(json, "average_cy", trench->average_cy);
        cw_json_number(json, "ends_cy", trench->ends_cy);
        cw_json_number(json, "overbreak_cy", trench->overbreak_cy);
        if (trench->has_pay)
            cw_json_number(json, "pay_cy", trench->pay_cy);
        cw_json_number(json, "loose_cy", trench->earth.loose_cy);
        cw_json_number(json, "reuse_cy", trench->balance.reuse_cy);
        cw_json_number(json, "export_loose_cy", trench->balance.export_loose_cy);
        cw_json_number(json, "import_cy", trench->balance.import_cy);
        cw_json_count(json, "ladders", trench->egress.total);
    }
    if (plan->surface.present)
        add_surface(json, &plan->surface);
    cw_json_close(json);
}

/* ---- grade ---- */

static void add_growth(cw_json *json, const cw_plan *plan, int number)
{
    const cw_plan_growth *growth = &plan->grade.growth[number];
    cw_json_open(json, NULL);
    cw_json_number(json, "growth_in", growth->growth.growth_in);
    cw_json_number(json, "low_in", growth->growth.low_in);
    cw_json_number(json, "high_in", growth->growth.high_in);
    cw_json_number(json, "closed_in", growth->closed_in);
    cw_json_number(json, "opened_in", growth->opened_in);
    cw_json_count(json, "late_joints", growth->late_joints);
    cw_json_count(json, "order_by", growth->order_by);
    cw_json_count(json, "straight", growth->straight);
    cw_json_number(json, "end_sd_in", growth->heading.end_sd_in);
    cw_json_open_list(json, "tape");
    for (int i = 0; i + 1 < plan->barrels[number].base_count; i++) {
        const cw_plan_tape *tape = &plan->grade.tape[number][i];
        cw_json_open(json, NULL);
        cw_json_text(json, "slot", plan->pieces[plan->barrels[number].bases[i]].slot);
        cw_json_number(json, "drawn_ft", tape->drawn_ft);
        cw_json_number(json, "least_ft", tape->least_ft);
        cw_json_number(json, "most_ft", tape->most_ft);
        cw_json_number(json, "rest_ft", tape->rest_ft);
        cw_json_count(json, "gaps", tape->gaps);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}

void cw_plan_json_grade(cw_json *json, const cw_plan *plan)
{
    const cw_plan_grade *grade = &plan->grade;
    cw_json_open(json, "grade");
    if (grade->has_instrument) {
        cw_json_number(json, "instrument_ft", grade->instrument_ft);
        cw_json_number(json, "least_rod_ft", grade->least_rod_ft);
        cw_json_number(json, "most_rod_ft", grade->most_rod_ft);
    }
    cw_json_number(json, "laser_percent", grade->laser_percent);
    if (grade->has_loop)
        cw_json_number(json, "misclosure_ft", grade->loop.misclosure_ft);
    cw_json_open_list(json, "barrels");
    for (int b = 0; b < plan->barrel_count; b++)
        add_growth(json, plan, b);
    cw_json_close_list(json);
    cw_json_open_list(json, "stakes");
    for (int i = 0; i < grade->stake_count; i++) {
        const cw_plan_stake *stake = &grade->stakes[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", stake->name);
        cw_json_number(json, "at_ft", stake->at_ft);
        cw_json_number(json, "offset_ft", stake->offset_ft);
        cw_json_number(json, "northing_ft", stake->northing_ft);
        cw_json_number(json, "easting_ft", stake->easting_ft);
        cw_json_number(json, "invert_ft", stake->invert_ft);
        cw_json_number(json, "subgrade_ft", stake->subgrade_ft);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}

/* ---- closing ---- */

void cw_plan_json_closing(cw_json *json, const cw_plan *plan)
{
    static const char *const states[] = {"fits", "none high enough", "none without overfilling"};
    const cw_plan_closing *closing = &plan->closing;
    cw_json_open(json, "closing");
    cw_json_number(json, "room_min_in", closing->annulus_min_in);
    cw_json_number(json, "room_max_in", closing->annulus_max_in);
    if (closing->has_rope) {
        cw_json_text(json, "sealant", states[closing->rope.state]);
        cw_json_number(json, "sealant_in", closing->rope.size_in);
    }
    if (closing->has_strength) {
        cw_json_number(json, "release_h", closing->release_h);
        cw_json_number(json, "equivalent_h", closing->strength.needed);
        cw_json_flag(json, "within_forecast", closing->reached);
    }
    cw_json_number(json, "lift_in", closing->compacted_in);
    cw_json_count(json, "lifts", closing->lifts);
    cw_json_count(json, "lifts_apart", closing->lifts_apart);
    cw_json_count(json, "hand_lifts", closing->hand_lifts);
    if (closing->has_volumes) {
        cw_json_number(json, "beside_cy", closing->beside_cy);
        cw_json_number(json, "over_cy", closing->over_cy);
        cw_json_number(json, "loose_cy", closing->loose_cy);
        cw_json_count(json, "tests", closing->tests);
        cw_json_open_list(json, "lift_cy");
        for (int i = 0; i < closing->lifts; i++)
            cw_json_number(json, NULL, closing->lift_cy[i]);
        cw_json_close_list(json);
    }
    cw_json_number(json, "machine_ft", closing->machine_ft);
    cw_json_open_list(json, "zones");
    for (int i = 0; i < closing->zone_count; i++) {
        const cw_plan_zone *zone = &closing->zones[i];
        cw_json_open(json, NULL);
        cw_json_text(json, "name", zone->name);
        cw_json_text(json, "material", zone->material);
        cw_json_number(json, "from_ft", zone->from_ft);
        if (zone->has_to)
            cw_json_number(json, "to_ft", zone->to_ft);
        cw_json_number(json, "compaction_percent", zone->compaction_percent);
        if (closing->has_volumes)
            cw_json_number(json, "volume_cy", zone->volume_cy);
        cw_json_close(json);
    }
    cw_json_close_list(json);
    cw_json_close(json);
}
