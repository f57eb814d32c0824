#include <math.h>

#include "hydraulics_internal.h"

static cw_water_status stages_check(const cw_water_tailwater *tail)
{
    if (!tail->stages || tail->stage_count < 2)
        return CW_WATER_BAD_TABLE;
    for (int i = 0; i < tail->stage_count; i++) {
        const cw_water_stage *at = &tail->stages[i];
        if (!isfinite(at->flow_cfs) || !isfinite(at->level_ft) || at->flow_cfs < 0.0)
            return CW_WATER_BAD_TABLE;
        if (i > 0 && (at->flow_cfs <= at[-1].flow_cfs || at->level_ft < at[-1].level_ft))
            return CW_WATER_BAD_TABLE;
    }
    return CW_WATER_OK;
}

cw_water_status cw_water_tailwater_check(const cw_water_tailwater *tail)
{
    switch (tail->kind) {
    case CW_WATER_TAIL_FREE:
        return CW_WATER_OK;
    case CW_WATER_TAIL_FIXED:
        return isfinite(tail->level_ft) ? CW_WATER_OK : CW_WATER_BAD_TABLE;
    case CW_WATER_TAIL_TABLE:
        return stages_check(tail);
    case CW_WATER_TAIL_CHANNEL:
        break;
    }
    const cw_water_status status = cw_water_section_check(&tail->channel);
    if (status != CW_WATER_OK)
        return status;
    if (!isfinite(tail->channel_bed_ft))
        return CW_WATER_BAD_SECTION;
    return tail->channel_slope > 0.0 ? CW_WATER_OK : CW_WATER_NO_NORMAL;
}

static cw_water_tail_level from_table(const cw_water_tailwater *tail, double flow_cfs)
{
    const cw_water_stage *stages = tail->stages;
    const int last = tail->stage_count - 1;
    if (flow_cfs < stages[0].flow_cfs || flow_cfs > stages[last].flow_cfs)
        return (cw_water_tail_level){.status = CW_WATER_BEYOND_TABLE};
    int low = 0, high = last;
    while (high - low > 1) {
        const int middle = low + (high - low) / 2;
        if (stages[middle].flow_cfs <= flow_cfs)
            low = middle;
        else
            high = middle;
    }
    const double share =
        (flow_cfs - stages[low].flow_cfs) / (stages[high].flow_cfs - stages[low].flow_cfs);
    return (cw_water_tail_level){
        .has_level = true,
        .level_ft = stages[low].level_ft + share * (stages[high].level_ft - stages[low].level_ft),
    };
}

static cw_water_tail_level from_channel(const cw_water_tailwater *tail, double flow_cfs)
{
    cw_water_tail_level level = {
        .root = cw_water_normal_depth(&tail->channel, flow_cfs, tail->channel_slope)};
    level.status = level.root.status;
    if (level.status != CW_WATER_OK)
        return level;
    level.has_level = true;
    level.depth_ft = level.root.value;
    level.level_ft =
        tail->channel_bed_ft + cw_water_section_low_ft(&tail->channel) + level.depth_ft;
    const double area = cw_water_section_at(&tail->channel, level.depth_ft).area_sqft;
    level.velocity_fps = area > 0.0 ? flow_cfs / area : 0.0;
    return level;
}

cw_water_tail_level cw_water_tailwater_at(const cw_water_tailwater *tail, double flow_cfs)
{
    switch (tail->kind) {
    case CW_WATER_TAIL_FIXED:
        return (cw_water_tail_level){.has_level = true, .level_ft = tail->level_ft};
    case CW_WATER_TAIL_TABLE:
        return from_table(tail, flow_cfs);
    case CW_WATER_TAIL_CHANNEL:
        return from_channel(tail, flow_cfs);
    case CW_WATER_TAIL_FREE:
        break;
    }
    return (cw_water_tail_level){.has_level = false};
}
