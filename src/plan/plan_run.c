/* From the road and the inverts to the wanted length, the centre line and the barrels' lines. */
#include "plan_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static cw_run_side side_of(const cw_template_side *given)
{
    cw_run_side side = {.side_slope = given->side_slope};
    for (int i = 0; i < given->strip_count && i < CW_RUN_STRIPS_MAX; i++)
        side.strips[side.strip_count++] = (cw_run_strip){given->strips[i].width_ft, given->strips[i].fall};
    return side;
}

static void place_box(draft *d)
{
    const cw_job *job = d->job;
    cw_plan *plan = &d->plan;
    plan->outside_width_in = job->box.span_in + 2.0 * job->box.wall_in;
    plan->spacing_ft = (plan->outside_width_in + job->barrels.clear_gap_in) / CW_IN_PER_FT;
    plan->width_ft = (job->barrels.count - 1) * plan->spacing_ft + plan->outside_width_in / CW_IN_PER_FT;
    plan->box = (cw_run_box){job->box.rise_in, job->box.top_in};
    plan->slope_factor = cw_run_slope_factor(job->run.slope);
    plan->barrel_count = job->barrels.count;
}

static void place_road(draft *d)
{
    const cw_job *job = d->job;
    cw_plan *plan = &d->plan;
    const cw_run_inlet inlet = job->road.inlet_side == CW_LEFT ? CW_RUN_INLET_LEFT : CW_RUN_INLET_RIGHT;
    plan->has_surface = job->road.present && job->road.outlet.present && job->road.inlet.present;
    if (job->road.present) {
        plan->road = (cw_run_road){.elevation_ft = job->road.elevation_ft,
                                   .grade = job->road.grade,
                                   .outlet = side_of(&job->road.outlet),
                                   .inlet = side_of(&job->road.inlet)};
        plan->azimuth_deg = cw_run_azimuth_deg(job->survey.azimuth_deg, job->run.skew_deg, inlet);
    } else {
        // Without a road the survey's azimuth is that of the structure, and the crossing is its outlet.
        plan->azimuth_deg = job->survey.azimuth_deg;
    }
    plan->path.frame = (cw_run_frame){.northing_ft = job->survey.northing_ft,
                                      .easting_ft = job->survey.easting_ft,
                                      .azimuth_deg = plan->azimuth_deg,
                                      .skew_deg = job->road.present ? job->run.skew_deg : 0.0,
                                      .inlet = inlet};
}

/* Joints that a bend of this turn needs; at least one is left for each bend that follows. */
static int bend_joints(const draft *d, int bend)
{
    const cw_row *most = draft_row(d, "bend.per_joint");
    const int room = CW_RUN_BENDS_MAX - d->plan.path.bend_count - (d->job->bend_count - bend - 1);
    if (!most || !(most->value > CW_SAME_DIRECTION_DEG))
        return 1;
    const double joints = ceil(fabs(d->job->bends[bend].turn_deg) / most->value - CW_RATIO_SLACK);
    return joints < room ? (int)fmax(joints, 1.0) : room;
}

/* A turn of more than one joint may take becomes several, one long piece apart, about the bend point. */
static void place_bends(draft *d, double outlet_chain_ft)
{
    const cw_job *job = d->job;
    cw_run_path *path = &d->plan.path;
    double longest_in = 0.0;
    for (int i = 0; i < job->pieces.lengths_in.count; i++)
        longest_in = fmax(longest_in, job->pieces.lengths_in.items[i]);
    const double apart_ft = (longest_in + job->joint.gap_in) / CW_IN_PER_FT / d->plan.slope_factor;
    path->bend_count = 0;
    for (int b = 0; b < job->bend_count; b++) {
        const cw_job_bend *bend = &job->bends[b];
        const int joints = bend_joints(d, b);
        for (int j = 0; j < joints; j++) {
            d->bend_of[path->bend_count] = b;
            path->bends[path->bend_count++] =
                (cw_run_bend){outlet_chain_ft + bend->at_ft + (j - (joints - 1) / 2.0) * apart_ft,
                              bend->turn_deg / joints};
        }
    }
}

static void place_ground(draft *d, double outlet_chain_ft)
{
    const cw_job_ground *ground = &d->job->ground;
    if (!ground->present || ground->profile_count == 0)
        return;
    const double shift_ft = ground->from_crossing ? 0.0 : outlet_chain_ft;
    cw_run_ground_point *points = CW_TAKE(d->arena, cw_run_ground_point, ground->profile_count);
    for (int i = 0; i < ground->profile_count; i++)
        points[i] = (cw_run_ground_point){ground->profile[i].at_ft + shift_ft, ground->profile[i].elevation_ft};
    d->plan.ground = (cw_run_ground){points, ground->profile_count};
}

static double wanted_fill_ft(const draft *d)
{
    if (d->job->run.has_fill_at_end)
        return d->job->run.fill_at_end_ft;
    const cw_row *over = draft_row(d, "end.fill_over_top");
    const double plumb_ft = (d->plan.box.rise_in + d->plan.box.top_in) * d->plan.slope_factor / CW_IN_PER_FT;
    return plumb_ft + (over ? over->value : 0.0);
}

/* Without a road there is nothing to cut along. */
static cw_run_cut cut_of(const cw_job *job)
{
    return job->road.present && job->run.cut == CW_CUT_ROAD ? CW_RUN_CUT_ROAD : CW_RUN_CUT_SQUARE;
}

static cw_run_under under_of(const draft *d)
{
    return (cw_run_under){.road = &d->plan.road,
                          .ground = d->plan.ground.count > 1 ? &d->plan.ground : NULL,
                          .path = &d->plan.path,
                          .invert_ft = d->job->run.invert_ft,
                          .slope = d->job->run.slope,
                          .width_ft = d->plan.width_ft,
                          .cut = cut_of(d->job),
                          .fill_ft = wanted_fill_ft(d)};
}

static void report_no_end(draft *d, const char *where, const char *why)
{
    cw_check_add(d->checks,
                 (cw_check){.id = "run.end",
                            .what = "The side slope comes down to the end of the box",
                            .where = where,
                            .clause = "derived: geometry of road and run",
                            .verdict = CW_FAILS,
                            .rests_on = "",
                            .mend = why});
}

/* The bends are measured from the outlet face, whose place may depend on the bends: repeat until it stands. */
static bool find_ends(draft *d)
{
    enum { ROUNDS_MAX = 30 };
    cw_plan *plan = &d->plan;
    const cw_job_run *run = &d->job->run;
    double outlet_chain_ft = run->has_outlet_distance ? -run->outlet_distance_ft : 0.0;
    const bool given = run->has_length;
    if (!given)
        outlet_chain_ft = -cw_run_hinge_ft(&plan->road.outlet);
    bool stands = false;
    for (int round = 0; round < ROUNDS_MAX && !stands; round++) {
        place_bends(d, outlet_chain_ft);
        place_ground(d, outlet_chain_ft);
        if (given)
            break;
        const cw_run_under under = under_of(d);
        plan->outlet.wanted = cw_run_end_find(&under, CW_RUN_OUTLET, NULL);
        if (plan->outlet.wanted.status != CW_RUN_OK) {
            report_no_end(d, "outlet", cw_run_status_words(plan->outlet.wanted.status));
            return false;
        }
        const double moved_ft = fabs(-plan->outlet.wanted.distance_ft - outlet_chain_ft);
        outlet_chain_ft = -plan->outlet.wanted.distance_ft;
        stands = moved_ft < CW_SAME_PLACE_FT;
    }
    if (!given && !stands) {
        report_no_end(d, "outlet",
                      "the outlet moves with the bends that are measured from it and does not come to rest: give "
                      "run.length and run.outlet_distance");
        return false;
    }
    const cw_run_under under = under_of(d);
    if (given) {
        plan->wanted_span = (cw_run_span){outlet_chain_ft, outlet_chain_ft + run->length_ft, under.cut};
        return true;
    }
    plan->outlet.from_template = plan->inlet.from_template = true;
    plan->outlet.wanted =
        cw_run_end_find(&under, CW_RUN_OUTLET, draft_working(d, "Outlet end under the side slope"));
    plan->inlet.wanted =
        cw_run_end_find(&under, CW_RUN_INLET, draft_working(d, "Inlet end under the side slope"));
    if (plan->inlet.wanted.status != CW_RUN_OK) {
        report_no_end(d, "inlet", cw_run_status_words(plan->inlet.wanted.status));
        return false;
    }
    plan->wanted_span = (cw_run_span){-plan->outlet.wanted.distance_ft, plan->inlet.wanted.distance_ft, under.cut};
    return true;
}

static cw_plan_barrel barrel_of(draft *d, int index)
{
    const cw_job *job = d->job;
    cw_plan_barrel barrel = {.offset_ft = cw_run_barrel_offset_ft(index, job->barrels.count, d->plan.spacing_ft)};
    barrel.line = cw_run_line_of(&d->plan.path, d->plan.wanted_span, barrel.offset_ft);
    const double drop_in = job->barrels.has_drops ? job->barrels.drops_in.items[index] : 0.0;
    barrel.grade = (cw_run_grade){job->run.invert_ft + job->run.slope * d->plan.wanted_span.outlet_chain_ft,
                                  job->run.slope, drop_in};
    barrel.wanted_in = barrel.line.length_ft * d->plan.slope_factor * CW_IN_PER_FT;
    return barrel;
}

static void show_lengths(draft *d, const cw_plan_barrel *barrels)
{
    cw_working *w = draft_working(d, "Length of the barrels before the division into pieces");
    const cw_plan *plan = &d->plan;
    cw_step_add(w, "L_plan", "outlet distance + inlet distance from the road centre line, along the structure",
                plan->wanted_span.inlet_chain_ft - plan->wanted_span.outlet_chain_ft, CW_DIM_FT,
                "derived: plan geometry");
    cw_step_add(w, "S", "grade of the invert", d->job->run.slope, CW_DIM_SLOPE, "job file");
    cw_step_add(w, "f", "sqrt(1 + S^2), slope length for one foot of plan length", plan->slope_factor, CW_DIM_NONE,
                "derived: right triangle");
    for (int i = 0; i < plan->barrel_count; i++)
        cw_step_add(w, cw_arena_print(d->arena, "L_%d", i + 1),
                    "plan length of the barrel's own line (bends lengthen the outer and shorten the inner one) x f",
                    barrels[i].wanted_in / CW_IN_PER_FT, CW_DIM_FT, "derived: mitred parallel line");
}

bool draft_run(draft *d)
{
    cw_plan *plan = &d->plan;
    place_box(d);
    place_road(d);
    if (!find_ends(d))
        return false;
    cw_plan_barrel *barrels = CW_TAKE(d->arena, cw_plan_barrel, plan->barrel_count);
    for (int i = 0; i < plan->barrel_count; i++) {
        barrels[i] = barrel_of(d, i);
        if (barrels[i].line.status == CW_RUN_OK)
            continue;
        cw_check_add(d->checks, (cw_check){.id = "run.line",
                                           .what = "The barrel's line can be drawn",
                                           .where = cw_arena_print(d->arena, "barrel %d", i + 1),
                                           .clause = "derived: mitred parallel line",
                                           .verdict = CW_FAILS,
                                           .rests_on = "",
                                           .mend = cw_run_status_words(barrels[i].line.status)});
        return false;
    }
    show_lengths(d, barrels);
    plan->barrels = barrels;
    return true;
}
