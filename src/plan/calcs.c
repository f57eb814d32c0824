/* All calculators, in the order of the manual. */
#include "cw/plan.h"

#include <string.h>

static const cw_calc *const all[] = {
    &cw_calc_run_length, &cw_calc_slope_length, &cw_calc_round_up, &cw_calc_joint_grade, &cw_calc_joint_place,
    &cw_calc_cover, &cw_calc_bend, &cw_calc_barrel_offset, &cw_calc_skew_end, &cw_calc_headwall,
    &cw_calc_wingwall, &cw_calc_end_apron, &cw_calc_cutoff_wall,
    &cw_calc_section_area, &cw_calc_box_weight_per_foot, &cw_calc_piece_weight, &cw_calc_piece_cg,
    &cw_calc_skew_end_weight, &cw_calc_sealant_length, &cw_calc_wrap_length, &cw_calc_bedding, &cw_calc_barrel_fill,
    &cw_calc_truck_loads, &cw_calc_rational_flow, &cw_calc_time_of_concentration, &cw_calc_unit_peak_flow,
    &cw_calc_winter_flow, &cw_calc_risk, &cw_calc_critical_depth, &cw_calc_normal_depth, &cw_calc_trapezoid_depth,
    &cw_calc_composite_roughness, &cw_calc_tailwater, &cw_calc_inlet_headwater, &cw_calc_outlet_headwater,
    &cw_calc_headwater, &cw_calc_barrel_profile, &cw_calc_hydraulic_jump, &cw_calc_road_weir, &cw_calc_apron,
    &cw_calc_bypass_pipe, &cw_calc_flume, &cw_calc_pump_set, &cw_calc_cofferdam, &cw_calc_trench_inflow,
    &cw_calc_well_inflow, &cw_calc_draw_down, &cw_calc_flotation, &cw_calc_earth_load, &cw_calc_lateral_pressure,
    &cw_calc_wheel_pressure, &cw_calc_frame_moments, &cw_calc_wall_fill_height, &cw_calc_unlidded_fill,
    &cw_calc_machine_cover, &cw_calc_handling_moment, &cw_calc_bearing, &cw_calc_section_flexure,
    &cw_calc_section_shear, &cw_calc_soil_class, &cw_calc_trench_section, &cw_calc_trench_volume, &cw_calc_pit_volume,
    &cw_calc_surface_volume, &cw_calc_surface_backfill,
    &cw_calc_earth_volumes, &cw_calc_earth_balance, &cw_calc_stockpile, &cw_calc_egress, &cw_calc_utility_clearance,
    &cw_calc_influence_line, &cw_calc_phase_edge, &cw_calc_rod_reading,
    &cw_calc_offset_stake, &cw_calc_level_loop, &cw_calc_camber, &cw_calc_run_growth, &cw_calc_gap_needed,
    &cw_calc_heading_drift, &cw_calc_sealant_size, &cw_calc_form_pressure,
    &cw_calc_maturity, &cw_calc_strength_time, &cw_calc_backfill_lifts, &cw_calc_relative_compaction,
    &cw_calc_sand_cone, &cw_calc_concrete_temperature, &cw_calc_evaporation,
    &cw_calc_network, &cw_calc_work_days, &cw_calc_duration, &cw_calc_chain, &cw_calc_weather_days, &cw_calc_truck_cycle,
    &cw_calc_crane_queue, &cw_calc_learning, &cw_calc_cast_line, &cw_calc_progress, &cw_calc_setting_rate,
    &cw_calc_method_cost, &cw_calc_detour_cost, &cw_calc_queue_delay, &cw_calc_bid_days,
    &cw_calc_bridle, &cw_calc_chain_links, &cw_calc_spreader, &cw_calc_sling_size, &cw_calc_lift_insert,
    &cw_calc_concrete_breakout, &cw_calc_boom_clearance, &cw_calc_crane_swing, &cw_calc_power_line, &cw_calc_load_wind,
    &cw_calc_chart_pick, &cw_calc_outriggers, &cw_calc_track_pressure, &cw_calc_crane_mat, &cw_calc_crane_setback,
    &cw_calc_crane_setups,
};

const cw_calcs cw_calcs_all = {all, (int)(sizeof all / sizeof all[0])};

const cw_calc *cw_calc_find(const char *name)
{
    for (int i = 0; i < cw_calcs_all.count; i++)
        if (strcmp(cw_calcs_all.items[i]->name, name) == 0)
            return cw_calcs_all.items[i];
    return NULL;
}
