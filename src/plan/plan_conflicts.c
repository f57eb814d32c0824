/* The outline of the cut, and how near utilities, structures, right of way and traffic come to it.
 */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

enum { SAMPLES = 240, LINES_MAX = CW_BOUNDARIES_MAX + 2 };

/* A crossing utility is followed this far from the centre line. */
#define CROSSING_REACH_FT 300.0

/* ---- the cut ---- */

/* Slope from the edge of the bottom to the mean of both edges on top. */
static double cut_slope(const cw_plan_cut *cut)
{
    const cw_trench_section *section = &cut->section;
    return ((section->left_ft + section->right_ft) / 2.0 - section->bottom_ft / 2.0) / cut->depth_ft;
}

draft_dig draft_dig_of(const draft *d)
{
    const double work_ft = d->job->trench.working_space_ft;
    const char *rests_on = draft_rest(d, "trench.working_space", "trench.working_space");
    const char *space = cw_arena_print(d->arena, "%s working space each side", draft_words(d, work_ft, CW_DIM_FT));
    if (d->plan.trench.present && d->plan.trench.classed)
        return (draft_dig){.work_ft = work_ft,
                           .how = cw_arena_print(d->arena, "%s and the faces of the trench sheets", space),
                           .rests_on = rests_on};
    return (draft_dig){
        .work_ft = work_ft,
        .how = cw_arena_print(d->arena, "%s and faces at %s, class C: nobody has classed the soil", space,
                              draft_words(d, cw_trench_class_slope(&d->job->rows, CW_SOIL_C, 0.0, false), CW_DIM_SIDE_SLOPE)),
        .rests_on = rests_on[0] ? cw_arena_print(d->arena, "trench.slope.c, %s", rests_on) : "trench.slope.c"};
}

double draft_dig_slope(const draft *d, double at_ft)
{
    const cw_plan_trench *trench = &d->plan.trench;
    double slope = -1.0;
    // Between two sections the flatter of both is taken.
    for (int i = 0; trench->present && trench->classed && i < trench->cut_count; i++) {
        const bool before = trench->cuts[i].at_ft <= at_ft;
        const bool next = i + 1 < trench->cut_count && trench->cuts[i + 1].at_ft >= at_ft;
        const bool near = (before && (next || i + 1 == trench->cut_count)) ||
                          (!before && (i == 0 || trench->cuts[i - 1].at_ft <= at_ft));
        if (near && trench->cuts[i].dug)
            slope = fmax(slope, cut_slope(&trench->cuts[i]));
    }
    return slope >= 0.0 ? slope : cw_trench_class_slope(&d->job->rows, CW_SOIL_C, 0.0, false);
}

/* Of the lowest barrel; level past the ends. */
static double dig_bottom_ft(const draft *d, double at_ft)
{
    return draft_subgrade_ft(d, fmin(fmax(at_ft, 0.0), d->plan.barrels[0].line.length_ft));
}

bool draft_dig_ground(const draft *d, double at_ft, double *ground_ft)
{
    const double chain_ft = d->plan.span.outlet_chain_ft + at_ft;
    const cw_run_ground *ground = &d->plan.ground;
    if (ground->count > 1) {
        // Past what was surveyed the ground is taken as level: the finished fill that will stand
        // there is not dug.
        const double known_ft = fmin(fmax(chain_ft, ground->points[0].chain_ft),
                                     ground->points[ground->count - 1].chain_ft);
        return cw_run_ground_at(ground, known_ft, ground_ft);
    }
    if (!d->plan.has_surface)
        return false;
    const cw_run_place place = cw_run_path_at(&d->plan.path, chain_ft);
    *ground_ft = cw_run_surface_ft(&d->plan.road, place.u_ft, place.a_ft);
    return true;
}

static cw_plan_outline_point cut_at(const draft *d, double at_ft)
{
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    cw_plan_outline_point point = {
        .at_ft = at_ft, .bottom_ft = dig_bottom_ft(d, at_ft), .half_ft = cut->half_bottom_ft};
    point.has_ground = draft_dig_ground(d, at_ft, &point.ground_ft);
    if (point.has_ground)
        point.half_ft += draft_dig_slope(d, at_ft) * fmax(0.0, point.ground_ft - point.bottom_ft);
    return point;
}

static void find_cut(draft *d)
{
    cw_plan_outline *cut = &d->plan.conflicts.cut;
    const draft_dig dig = draft_dig_of(d);
    const cw_plan_barrel *first = &d->plan.barrels[0];
    *cut = (cw_plan_outline){.half_bottom_ft =
                                 cw_trench_bottom_ft(d->plan.barrel_count, d->plan.outside_width_in,
                                                     d->job->barrels.clear_gap_in, dig.work_ft) /
                                 2.0,
                             .work_ft = dig.work_ft,
                             .how = dig.how,
                             .rests_on = dig.rests_on,
                             .start_ft = -dig.work_ft,
                             .end_ft = d->plan.plan_length_ft + dig.work_ft};
    // The ends, the joints, and the corners of the ground between them.
    const int most = first->base_count + 3 + d->plan.ground.count;
    cw_plan_outline_point *points = CW_TAKE(d->arena, cw_plan_outline_point, most);
    int g = 0;
    const double ends_ft[2] = {cut->start_ft, cut->end_ft};
    for (int i = -1; i <= first->base_count + 1; i++) {
        const double at_ft = i < 0                   ? ends_ft[0]
                             : i > first->base_count ? ends_ft[1]
                                                     : first->joints[i].at.at_ft;
        for (; g < d->plan.ground.count; g++) {
            const double corner_ft =
                d->plan.ground.points[g].chain_ft - d->plan.span.outlet_chain_ft;
            if (corner_ft >= at_ft)
                break;
            if (corner_ft > cut->start_ft)
                points[cut->count++] = cut_at(d, corner_ft);
        }
        points[cut->count++] = cut_at(d, at_ft);
    }
    cut->points = points;
}

static cw_cut_section section_at(const draft *d, double at_ft)
{
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    const cw_plan_outline_point point = cut_at(d, at_ft);
    return (cw_cut_section){cut->half_bottom_ft, point.bottom_ft, draft_dig_slope(d, at_ft),
                            point.has_ground ? point.ground_ft : point.bottom_ft};
}

/* How far a place lies past the nearer end of a stretch, negative between its ends. */
static double past_ft(double at_ft, double start_ft, double end_ft)
{
    return fmax(start_ft - at_ft, at_ft - end_ft);
}

static cw_box_section box_at(const draft *d, double at_ft)
{
    double low_ft = CW_ANY_HIGH, high_ft = -CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const cw_plan_barrel *barrel = &d->plan.barrels[b];
        const double invert_ft =
            cw_run_invert_ft(&barrel->grade, fmin(fmax(at_ft, 0.0), barrel->line.length_ft));
        low_ft = fmin(
            low_ft, invert_ft - (barrel->joints[0].at.invert_ft - barrel->joints[0].underside_ft));
        high_ft =
            fmax(high_ft, invert_ft + barrel->joints[0].top_ft - barrel->joints[0].at.invert_ft);
    }
    return (cw_box_section){d->plan.width_ft / 2.0, low_ft, high_ft};
}

/* ---- utilities ---- */

typedef struct sample_line {
    double from_ft, from_offset_ft, to_ft, to_offset_ft;
} sample_line;

static sample_line line_of(const cw_job_utility *given)
{
    if (!given->has_at)
        return (sample_line){given->from_ft, given->from_offset_ft, given->to_ft,
                             given->to_offset_ft};
    const double angle = given->angle_deg * CW_RAD_PER_DEG;
    const double along = cos(angle) * CROSSING_REACH_FT, across = sin(angle) * CROSSING_REACH_FT;
    return (sample_line){given->at_ft - along, -across, given->at_ft + along, across};
}

static bool top_at(const draft *d, const cw_job_utility *given, double at_ft, double *top_ft)
{
    *top_ft = given->elevation_ft;
    if (given->has_elevation)
        return true;
    double ground_ft;
    const double inside_ft = fmin(fmax(at_ft, 0.0), d->plan.plan_length_ft);
    if (!draft_dig_ground(d, inside_ft, &ground_ft))
        return false;
    *top_ft = ground_ft - given->depth_ft;
    return true;
}

/* Looks at one point of the line; @p step_ft is the stretch that it stands for. */
static void look(const draft *d, double at_ft, double offset_ft, double step_ft,
                 cw_plan_utility *utility)
{
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    const double radius_ft = utility->given->diameter_in / CW_IN_PER_FT / 2.0;
    double top_ft;
    if (!top_at(d, utility->given, at_ft, &top_ft))
        return;
    const cw_cut_section section = section_at(d, at_ft);
    const cw_box_section box = box_at(d, at_ft);
    const double center_ft = top_ft - radius_ft;
    const double box_gap_ft = cw_conflict_box_gap_ft(
        &box, offset_ft, past_ft(at_ft, 0.0, d->plan.plan_length_ft), center_ft, radius_ft);
    if (box_gap_ft < utility->box_gap_ft) {
        utility->box_gap_ft = box_gap_ft;
        utility->top_ft = top_ft;
    }
    utility->has_level = true;
    if (section.surface_ft > section.bottom_ft && center_ft - radius_ft >= section.surface_ft)
        return; // in the air
    utility->overhead = false;
    const double gap_ft = cw_conflict_cut_gap_ft(
        &section, offset_ft, past_ft(at_ft, cut->start_ft, cut->end_ft), center_ft, radius_ft);
    if (gap_ft < 0.0)
        utility->exposed_ft += step_ft;
    if (gap_ft < utility->cut_gap_ft) {
        utility->cut_gap_ft = gap_ft;
        if (!utility->given->has_at)
            utility->at_ft = at_ft;
    }
}

/* The section where it crosses, with its working, through the calculator. */
static void show_crossing(draft *d, cw_plan_utility *utility)
{
    const cw_job_utility *given = utility->given;
    double top_ft;
    if (!given->has_at || given->at_ft < 0.0 || given->at_ft > d->plan.plan_length_ft ||
        !top_at(d, given, given->at_ft, &top_ft))
        return;
    const cw_cut_section section = section_at(d, given->at_ft);
    const cw_box_section box = box_at(d, given->at_ft);
    const cw_utility_input input = {.top_ft = top_ft,
                                    .diameter_in = given->diameter_in,
                                    .has_angle = true,
                                    .angle_deg = given->angle_deg,
                                    .bottom_ft = section.bottom_ft,
                                    .bottom_width_ft = 2.0 * section.half_bottom_ft,
                                    .side_slope = section.side_slope,
                                    .surface_ft = section.surface_ft,
                                    .width_ft = 2.0 * box.half_width_ft,
                                    .underside_ft = box.underside_ft,
                                    .box_top_ft = box.top_ft,
                                    .clearance_in = given->clearance_in};
    cw_diags faults = cw_diags_on(d->arena);
    if (!cw_utility_input_valid(&input, (cw_pos){0}, &faults))
        return;
    utility->working = cw_arena_print(d->arena, "Utility: %s", given->name);
    const cw_utility found = cw_conflict_utility(&input, draft_working(d, utility->working));
    if (found.exposed)
        utility->exposed_ft = found.exposed_ft;
}

static cw_plan_utility find_utility(draft *d, const cw_job_utility *given)
{
    cw_plan_utility utility = {.given = given,
                               .overhead = true,
                               .cut_gap_ft = CW_ANY_HIGH,
                               .box_gap_ft = CW_ANY_HIGH,
                               .at_ft = given->from_ft};
    const sample_line line = line_of(given);
    const double along_ft = line.to_ft - line.from_ft,
                 across_ft = line.to_offset_ft - line.from_offset_ft;
    const double step_ft = hypot(along_ft, across_ft) / SAMPLES;
    const double half_ft = d->plan.width_ft / 2.0;
    if (given->has_at)
        utility.at_ft = given->at_ft;
    for (int i = 0; i <= SAMPLES; i++) {
        const double share = (double)i / SAMPLES;
        look(d, line.from_ft + share * along_ft, line.from_offset_ft + share * across_ft, step_ft,
             &utility);
    }
    // Where it crosses the walls and the axis: there it comes nearest to a box on a grade.
    const double offsets_ft[] = {0.0, -half_ft, half_ft};
    for (int k = 0; k < 3 && fabs(across_ft) > CW_SAME_PLACE_FT; k++) {
        const double share = (offsets_ft[k] - line.from_offset_ft) / across_ft;
        if (share >= 0.0 && share <= 1.0)
            look(d, line.from_ft + share * along_ft, offsets_ft[k], 0.0, &utility);
    }
    if (!utility.has_level)
        return utility;
    show_crossing(d, &utility);
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    const double low_ft = fmin(line.from_ft, line.to_ft), high_ft = fmax(line.from_ft, line.to_ft);
    double reach_ft = 0.0;
    for (int i = 0; i < cut->count; i++)
        reach_ft = fmax(reach_ft, cut->points[i].half_ft - cut->half_bottom_ft);
    if (given->has_at)
        utility.outside =
            past_ft(given->at_ft, cut->start_ft - reach_ft, cut->end_ft + reach_ft) > 0.0 &&
            utility.cut_gap_ft > 0.0;
    else
        utility.outside = high_ft < cut->start_ft - reach_ft || low_ft > cut->end_ft + reach_ft;
    return utility;
}

/* ---- structures ---- */

static cw_plan_structure find_structure(draft *d, const cw_job_structure *given)
{
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    cw_plan_structure found = {.given = given, .outside = true};
    cw_footing_input worst = {0};
    double least_ft = CW_ANY_HIGH;
    for (int i = 0; i <= SAMPLES; i++) {
        const double at_ft = given->from_ft + (given->to_ft - given->from_ft) * i / SAMPLES;
        const cw_cut_section section = section_at(d, at_ft);
        const double past = fmax(0.0, past_ft(at_ft, cut->start_ft, cut->end_ft));
        const double beside = fmax(0.0, fabs(given->near_ft) - cut->half_bottom_ft);
        // Past the end of the bottom the straight distance counts as if it lay beside it.
        const double away_ft =
            past > 0.0 ? cut->half_bottom_ft + hypot(past, beside) : fabs(given->near_ft);
        const cw_footing_input input = {.foundation_ft = given->foundation_ft,
                                        .away_ft = away_ft,
                                        .bottom_ft = section.bottom_ft,
                                        .bottom_width_ft = 2.0 * cut->half_bottom_ft,
                                        .side_slope = section.side_slope,
                                        .surface_ft = section.surface_ft,
                                        .influence = given->influence,
                                        .clear_ft = given->clear_ft};
        const cw_footing take = cw_conflict_footing(&input, NULL);
        const double spare_ft = fmin(take.had_ft - take.needed_ft, take.edge_ft - given->clear_ft);
        if (spare_ft < least_ft) {
            least_ft = spare_ft;
            worst = input;
            found.at_ft = at_ft;
            found.outside = past > input.side_slope * (section.surface_ft - section.bottom_ft) +
                                       given->clear_ft;
        }
    }
    found.bottom_ft = worst.bottom_ft;
    found.ground_ft = worst.surface_ft;
    found.working = cw_arena_print(d->arena, "Structure: %s", given->name);
    found.take = cw_conflict_footing(&worst, draft_working(d, found.working));
    return found;
}

/* ---- right of way ---- */

static cw_plan_line worst_of(const draft *d, const cw_job_boundary *line)
{
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    cw_plan_line found = {.name = line->name, .right = line->from_offset_ft > 0.0, .outside = true};
    double least_ft = CW_ANY_HIGH;
    for (int i = 0; i <= SAMPLES; i++) {
        const double share = (double)i / SAMPLES;
        const double at_ft = line->from_ft + share * (line->to_ft - line->from_ft);
        if (at_ft < cut->start_ft || at_ft > cut->end_ft)
            continue;
        const double half_ft = cut_at(d, at_ft).half_ft;
        const double away_ft =
            fabs(line->from_offset_ft + share * (line->to_offset_ft - line->from_offset_ft));
        if (away_ft - half_ft < least_ft) {
            least_ft = away_ft - half_ft;
            found.outside = false;
            found.at_ft = at_ft;
            found.half_ft = half_ft;
            found.away_ft = away_ft;
        }
    }
    // The corners of the outline count exactly.
    for (int i = 0; i < cut->count; i++) {
        const double share = (cut->points[i].at_ft - line->from_ft) / (line->to_ft - line->from_ft);
        const double away_ft =
            fabs(line->from_offset_ft + share * (line->to_offset_ft - line->from_offset_ft));
        if (share < 0.0 || share > 1.0 || away_ft - cut->points[i].half_ft >= least_ft)
            continue;
        least_ft = away_ft - cut->points[i].half_ft;
        found.outside = false;
        found.at_ft = cut->points[i].at_ft;
        found.half_ft = cut->points[i].half_ft;
        found.away_ft = away_ft;
    }
    return found;
}

static void find_lines(draft *d)
{
    const cw_job_obstacles *given = &d->job->obstacles;
    cw_plan_conflicts *conflicts = &d->plan.conflicts;
    const double from_ft = conflicts->cut.start_ft, to_ft = conflicts->cut.end_ft;
    cw_plan_line *lines = CW_TAKE(d->arena, cw_plan_line, LINES_MAX);
    const cw_job_boundary sides[2] = {
        {"Right of way, left", from_ft, -given->left_ft, to_ft, -given->left_ft},
        {"Right of way, right", from_ft, given->right_ft, to_ft, given->right_ft}};
    const bool has[2] = {given->has_left, given->has_right};
    for (int s = 0; s < 2; s++)
        if (has[s])
            lines[conflicts->line_count++] = worst_of(d, &sides[s]);
    for (int i = 0; i < given->boundary_count; i++)
        lines[conflicts->line_count++] = worst_of(d, &given->boundaries[i]);
    conflicts->lines = lines;
}

/* ---- traffic ---- */

/* Traffic runs on the road as it is: the higher of ground and finished road. */
static bool traffic_level(const draft *d, double at_ft, double *level_ft)
{
    if (!draft_dig_ground(d, at_ft, level_ft))
        return false;
    if (!d->plan.has_surface)
        return true;
    const cw_run_place place = cw_run_path_at(&d->plan.path, d->plan.span.outlet_chain_ft + at_ft);
    *level_ft = fmax(*level_ft, cw_run_surface_ft(&d->plan.road, place.u_ft, place.a_ft));
    return true;
}

static cw_plan_phase_edge find_edge(draft *d, int number, bool upstream)
{
    const cw_job_phase *phase = &d->job->phases[number];
    const cw_plan_outline *cut = &d->plan.conflicts.cut;
    cw_plan_phase_edge edge = {.phase = number,
                               .upstream = upstream,
                               .lane_ft = upstream ? phase->lane_ft : phase->lane_after_ft,
                               .barrier_ft = phase->has_barrier ? phase->barrier_ft
                                                                : cw_rows_value(&d->job->rows, "conflict.barrier"),
                               .bottom_ft = dig_bottom_ft(d, phase->at_ft)};
    edge.has_depth =
        traffic_level(d, phase->at_ft, &edge.ground_ft) && edge.ground_ft > edge.bottom_ft;
    if (!edge.has_depth)
        return edge;
    edge.depth_ft = edge.ground_ft - edge.bottom_ft;
    const cw_phase_edge_input input = {.lane_ft = edge.lane_ft,
                                       .depth_ft = edge.depth_ft,
                                       .side_slope = draft_dig_slope(d, phase->at_ft),
                                       .toe_ft = cut->work_ft,
                                       .barrier_ft = edge.barrier_ft,
                                       .setback_ft = cw_rows_value(&d->job->rows, "trench.spoil"),
                                       .shore_ft = cw_rows_value(&d->job->rows, "conflict.shore"),
                                       .face = phase->face,
                                       .reach_ratio = cw_rows_value(&d->job->rows, "conflict.surcharge_reach"),
                                       .depth_max_ft = cw_rows_value(&d->job->rows, "trench.depth_max")};
    edge.working = cw_arena_print(d->arena, "Temporary face at phase line %d, traffic %s",
                                  number + 1, upstream ? "upstream" : "downstream");
    edge.take = cw_conflict_phase_edge(&input, draft_working(d, edge.working));
    return edge;
}

static void find_edges(draft *d)
{
    cw_plan_conflicts *conflicts = &d->plan.conflicts;
    cw_plan_phase_edge *edges = CW_TAKE(d->arena, cw_plan_phase_edge, 2 * CW_PHASES_MAX);
    for (int i = 0; i < d->job->phase_count; i++) {
        if (d->job->phases[i].has_lane)
            edges[conflicts->edge_count++] = find_edge(d, i, true);
        if (d->job->phases[i].has_lane_after)
            edges[conflicts->edge_count++] = find_edge(d, i, false);
    }
    conflicts->edges = edges;
}

void draft_conflicts(draft *d)
{
    const cw_job_obstacles *given = &d->job->obstacles;
    cw_plan_conflicts *conflicts = &d->plan.conflicts;
    bool traffic = false;
    for (int i = 0; i < d->job->phase_count; i++)
        traffic = traffic || d->job->phases[i].has_lane || d->job->phases[i].has_lane_after;
    if (!given->present && !traffic)
        return;
    conflicts->present = true;
    find_cut(d);
    cw_plan_utility *utilities = CW_TAKE(d->arena, cw_plan_utility, given->utility_count + 1);
    for (int i = 0; i < given->utility_count; i++)
        utilities[i] = find_utility(d, &given->utilities[i]);
    conflicts->utilities = utilities;
    conflicts->utility_count = given->utility_count;
    cw_plan_structure *structures =
        CW_TAKE(d->arena, cw_plan_structure, given->structure_count + 1);
    for (int i = 0; i < given->structure_count; i++)
        structures[i] = find_structure(d, &given->structures[i]);
    conflicts->structures = structures;
    conflicts->structure_count = given->structure_count;
    find_lines(d);
    find_edges(d);
}
