/* Wings, aprons and cutoff walls at the ends, with their rows and quantities. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

static const char *const end_names[2] = {"Outlet", "Inlet"};
static const char *const side_names[2] = {"left", "right"};

static double row_value(const draft *d, const char *id)
{
    const cw_row *row = draft_row(d, id);
    return row ? row->value : cw_rows_value(&cw_data, id);
}

/* ---- places ---- */

cw_run_place cw_plan_end_place(const cw_plan_end_works *works, cw_run_inlet inlet,
                               cw_end_point point)
{
    cw_run_place place = works->place;
    const double up_ft = works->inlet ? point.out_ft : -point.out_ft;
    const double azimuth = place.azimuth_deg * CW_RAD_PER_DEG,
                 skew = place.skew_deg * CW_RAD_PER_DEG;
    place.northing_ft += up_ft * cos(azimuth) - point.right_ft * sin(azimuth);
    place.easting_ft += up_ft * sin(azimuth) + point.right_ft * cos(azimuth);
    // Looking upstream, up-station is on the left when the inlet lies on the right of the road.
    const double sign = inlet == CW_RUN_INLET_RIGHT ? 1.0 : -1.0;
    place.u_ft += up_ft * cos(skew) + sign * point.right_ft * sin(skew);
    place.a_ft += up_ft * sin(skew) - sign * point.right_ft * cos(skew);
    return place;
}

static double fill_ft(const draft *d, const cw_plan_end_works *works, double invert_ft,
                      cw_end_point point)
{
    const cw_run_place place = cw_plan_end_place(works, d->plan.path.frame.inlet, point);
    return cw_run_surface_ft(&d->plan.road, place.u_ft, place.a_ft) - invert_ft;
}

/* ---- one wing ---- */

static cw_wing_input wing_input(const draft *d, const cw_plan_wing *wing,
                                const cw_plan_end_works *works, int side, double side_slope)
{
    const cw_job_wing *given = wing->given;
    // The normal turns toward the right: there flare and skew take from each other.
    const bool adds = (works->normal_deg > 0.0) == (side == CW_END_LEFT);
    return (cw_wing_input){.kind = given->kind,
                           .flare_deg = given->flare_deg,
                           .skew_deg = fabs(works->normal_deg),
                           .side = adds ? CW_WING_LONG : CW_WING_SHORT,
                           .root_ft = wing->root_ft,
                           .tip_ft = wing->tip_ft,
                           .side_slope = side_slope,
                           .has_length = given->has_length,
                           .length_ft = given->length_ft,
                           .thickness_in = given->thickness_in,
                           .make = given->make,
                           .concrete_pcf = d->job->box.concrete_pcf,
                           .has_footing_width = given->has_footing_width,
                           .footing_width_ft = given->footing_width_ft,
                           .footing_ratio = row_value(d, "end.wing_footing_ratio"),
                           .footing_in = given->footing_in,
                           .footing_depth_ft = given->footing_depth_ft,
                           .work_ft = row_value(d, "end.work"),
                           .along_deg = row_value(d, "end.along_road")};
}

/* Way of the wing in the axes of the end, per foot of its length. */
static cw_end_point way_of(const cw_plan_end_works *works, const cw_job_wing *given, int side)
{
    const double sign = side == CW_END_RIGHT ? 1.0 : -1.0;
    const double angle_deg = given->kind == CW_JOB_WING_ALONG_ROAD ? works->normal_deg + sign * 90.0
                             : given->kind == CW_JOB_WING_FLARED   ? sign * given->flare_deg
                                                                   : 0.0;
    return (cw_end_point){cos(angle_deg * CW_RAD_PER_DEG), sin(angle_deg * CW_RAD_PER_DEG)};
}

/* Length at which the fill as it is, with the road's grade, has come down to the tip: it falls
 * evenly along the wing. */
static bool length_in_fill(const draft *d, const cw_plan_end_works *works, const cw_plan_wing *wing,
                           int side, double invert_ft, double *length_ft)
{
    const cw_end_point root = works->plan.root[side], way = way_of(works, wing->given, side);
    const cw_end_point next = {root.out_ft + way.out_ft, root.right_ft + way.right_ft};
    const double root_ft = fill_ft(d, works, invert_ft, root),
                 fall = root_ft - fill_ft(d, works, invert_ft, next);
    if (!(fall > CW_SAME_PLACE_FT))
        return false;
    *length_ft = (fmax(wing->root_ft, root_ft) - wing->tip_ft) / fall;
    return *length_ft > 0.0;
}

static void size_wing(draft *d, const cw_plan_end *end, const cw_template_side *fill, int side,
                      cw_plan_end_works *works)
{
    cw_plan_wing *wing = &works->wings[side];
    const double invert_ft = end->laid.invert_ft;
    cw_wing_input input = wing_input(d, wing, works, side, fill->present ? fill->side_slope : 0.0);
    cw_diags faults = cw_diags_on(d->arena);
    wing->working =
        cw_arena_print(d->arena, "%s %s wing", end_names[works->inlet], side_names[side]);
    if (!cw_wing_input_valid(&input, (cw_pos){0}, &faults)) {
        wing->fault = faults.items[0].message;
        return;
    }
    double length_ft = 0.0;
    const bool along = wing->given->kind == CW_JOB_WING_ALONG_ROAD;
    cw_working *working = draft_working(d, wing->working);
    if (wing->has_fill && !along && !input.has_length &&
        length_in_fill(d, works, wing, side, invert_ft, &length_ft)) {
        input.has_length = true;
        input.length_ft = cw_step_add(
            working, "L_w", "where the fill behind it, with the road's grade, is as low as the tip",
            length_ft, CW_DIM_FT, "derived: the side slope falls evenly along the wing");
    }
    wing->take = cw_ends_wing(&input, working);
    wing->has_take = wing->take.found;
}

static void place_wing(const draft *d, const cw_plan_end *end, const cw_job_wing *given, int side,
                       cw_plan_end_works *works)
{
    cw_plan_wing *wing = &works->wings[side];
    wing->present = given->present;
    wing->given = given;
    wing->root_ft = given->has_root ? given->root_ft : end->wall_top_ft;
    wing->tip_ft = given->has_tip                          ? given->tip_ft
                   : given->kind == CW_JOB_WING_ALONG_ROAD ? wing->root_ft
                                                           : row_value(d, "end.wing_tip");
    wing->has_fill = d->plan.has_surface;
}

/* ---- one end ---- */

static void plan_of_end(cw_plan_end_works *works, const cw_job_end *given)
{
    cw_end_plan_input input = {.width_ft = works->width_ft,
                               .face_deg = works->face_deg,
                               .normal_deg = works->normal_deg,
                               .has_apron = given->apron.present,
                               .has_apron_ft = given->apron.has_length,
                               .apron_ft = given->apron.length_ft};
    for (int side = 0; side < 2; side++) {
        const cw_plan_wing *wing = &works->wings[side];
        if (wing->present && wing->has_take)
            input.wings[side] = (cw_end_wing){true, wing->given->kind, wing->given->flare_deg,
                                              wing->take.length_ft};
    }
    works->plan = cw_ends_plan(&input);
}

static void take_rest(draft *d, const cw_job_end *given, cw_plan_end_works *works)
{
    const char *name = end_names[works->inlet];
    if (given->apron.present && works->plan.has_outline) {
        works->apron =
            cw_ends_apron_of(&works->plan, given->apron.thickness_in,
                             draft_working(d, cw_arena_print(d->arena, "%s apron", name)));
        works->has_apron = true;
    }
    if (!given->cutoff.present)
        return;
    const cw_cutoff_input input = {.length_ft = works->plan.edge_ft,
                                   .depth_ft = given->cutoff.depth_ft,
                                   .thickness_in = given->cutoff.thickness_in,
                                   .apron_in = works->has_apron ? given->apron.thickness_in : 0.0,
                                   .make = given->cutoff.make,
                                   .work_ft = row_value(d, "end.work")};
    works->cutoff =
        cw_ends_cutoff(&input, draft_working(d, cw_arena_print(d->arena, "%s cutoff wall", name)));
    works->has_cutoff = true;
}

static void works_of(draft *d, cw_plan_end *end, const cw_job_end *given,
                     const cw_template_side *fill, bool inlet)
{
    cw_plan_end_works *works = &end->works;
    works->present = given->left_wing.present || given->right_wing.present ||
                     given->apron.present || given->cutoff.present;
    works->inlet = inlet;
    works->place = cw_run_path_at(&d->plan.path, inlet ? d->plan.span.inlet_chain_ft
                                                       : d->plan.span.outlet_chain_ft);
    const double sign = (d->plan.path.frame.inlet == CW_RUN_INLET_RIGHT) == inlet ? 1.0 : -1.0;
    works->normal_deg = d->job->road.present ? sign * works->place.skew_deg : 0.0;
    works->face_deg = d->plan.span.cut == CW_RUN_CUT_ROAD ? works->normal_deg : 0.0;
    works->width_ft = end->has_headwall ? end->headwall.length_ft
                                        : d->plan.width_ft / cos(works->face_deg * CW_RAD_PER_DEG);
    works->wall_ft = end->has_headwall ? given->thickness_in / CW_IN_PER_FT : 0.0;
    if (!works->present)
        return;
    plan_of_end(works, given); // the roots
    const cw_job_wing *wings[2] = {&given->left_wing, &given->right_wing};
    for (int side = 0; side < 2; side++) {
        place_wing(d, end, wings[side], side, works);
        if (works->wings[side].present)
            size_wing(d, end, fill, side, works);
    }
    plan_of_end(works, given);
    for (int side = 0; side < 2; side++) {
        cw_plan_wing *wing = &works->wings[side];
        if (!wing->has_fill || !wing->has_take)
            continue;
        wing->fill_root_ft =
            fmax(0.0, fill_ft(d, works, end->laid.invert_ft, works->plan.root[side]));
        wing->fill_tip_ft =
            fmax(0.0, fill_ft(d, works, end->laid.invert_ft, works->plan.tip[side]));
    }
    take_rest(d, given, works);
}

void draft_ends(draft *d)
{
    works_of(d, &d->plan.outlet, &d->job->run.outlet, &d->job->road.outlet, false);
    works_of(d, &d->plan.inlet, &d->job->run.inlet, &d->job->road.inlet, true);
}

/* ---- the ledger ---- */

static void check_direction(draft *d, const cw_plan_wing *wing, const char *where)
{
    cw_check *row = draft_add(
        d, (cw_check){
               .id = "ends.wing-direction",
               .what = "Wing turned away from the road, so that it leaves the fill soon",
               .where = where,
               .demand = wing->take.from_normal_deg,
               .capacity = row_value(d, "end.along_road"),
               .dim = CW_DIM_DEG,
               .clause = draft_source(d, "end.along_road"),
               .rests_on = "end.along_road",
               .mend = "flare this wing less than the other one, or set it in line with the road",
               .working = wing->working});
    cw_check_judge(row);
    if (row->verdict == CW_HOLDS)
        row->mend = "";
    else if (wing->has_take)
        row->verdict = CW_UNDECIDED;
}

/* A hair of fill over the wall is no fault: the hundredth of a foot to which survey is printed. */
#define FILL_HAIR_FT 0.01

static void check_wing(draft *d, const cw_plan_wing *wing, const char *where)
{
    if (wing->fault) {
        draft_add(d, (cw_check){.id = "ends.wing-shape",
                                .what = "The wing has a shape",
                                .where = where,
                                .clause = "derived: plane geometry",
                                .verdict = CW_FAILS,
                                .mend = wing->fault});
        return;
    }
    if (wing->given->kind != CW_JOB_WING_ALONG_ROAD)
        check_direction(d, wing, where);
    if (wing->has_take && wing->given->make == CW_WALL_PRECAST)
        draft_judge(d, (cw_check){.id = "ends.wing-panel",
                                  .what = "Precast wing in one panel rides on the truck",
                                  .where = where,
                                  .demand = wing->take.panel_lb,
                                  .capacity = d->job->pieces.payload_lb,
                                  .dim = CW_DIM_LB,
                                  .clause = draft_basis(d, "pieces.payload", "haul.payload"),
                                  .rests_on = draft_rest(d, "pieces.payload", "haul.payload"),
                                  .mend = "divide the wing into panels, or cast it in place",
                                  .working = wing->working});
    if (!wing->has_fill || !wing->has_take)
        return;
    if (wing->given->has_root)
        draft_judge(
            d, (cw_check){.id = "ends.wing-root",
                          .what = "Wing at the headwall at least as high as the fill behind it",
                          .where = where,
                          .demand = wing->root_ft,
                          .capacity = fmax(0.0, wing->fill_root_ft - FILL_HAIR_FT),
                          .at_least = true,
                          .dim = CW_DIM_FT,
                          .clause = "derived: side slope at the corner; common practice",
                          .mend = "raise root_height to the fill, or leave it out",
                          .working = wing->working});
    draft_judge(d,
                (cw_check){.id = "ends.wing-tip",
                           .what = "Tip of the wing at least as high as the fill behind it",
                           .where = where,
                           .demand = wing->tip_ft,
                           .capacity = fmax(0.0, wing->fill_tip_ft - FILL_HAIR_FT),
                           .at_least = true,
                           .dim = CW_DIM_FT,
                           .clause = "derived: side slope at the tip; common practice",
                           .rests_on = wing->given->has_tip ? "" : "end.wing_tip",
                           .mend = wing->given->has_length
                                       ? "lengthen the wing, leave its length out, or raise the tip"
                                       : "raise the tip of the wing",
                           .working = wing->working});
    if (wing->given->has_length && wing->take.has_needed &&
        wing->given->kind == CW_JOB_WING_ALONG_ROAD)
        draft_judge(
            d, (cw_check){
                   .id = "ends.wing-cone",
                   .what =
                       "Wing in line with the road long enough to keep the fill out of the opening",
                   .where = where,
                   .demand = wing->take.length_ft,
                   .capacity = wing->take.needed_ft,
                   .at_least = true,
                   .dim = CW_DIM_FT,
                   .clause = "derived: cone of the side slope round the tip",
                   .mend = "lengthen the wing or leave its length out",
                   .working = wing->working});
}

void draft_check_ends(draft *d)
{
    const cw_plan_end *ends[2] = {&d->plan.outlet, &d->plan.inlet};
    for (int e = 0; e < 2; e++)
        for (int side = 0; ends[e]->works.present && side < 2; side++)
            if (ends[e]->works.wings[side].present)
                check_wing(d, &ends[e]->works.wings[side],
                           cw_arena_print(d->arena, "%s, %s wing", e ? "inlet" : "outlet",
                                          side_names[side]));
}

/* ---- quantities ---- */

typedef struct end_amounts {
    double cast_cy, precast_cy, precast_lb, footing_cy, formed_sqft, excavation_cy;
} end_amounts;

static void add_item(draft *d, const char *end, const char *item, double value, cw_dim dim,
                     const char *rule)
{
    if (value > 0.0)
        draft_quantity(d, (cw_plan_quantity){"Ends", cw_arena_print(d->arena, "%s %s", end, item),
                                             dim, value, value, CW_ROUND_NONE, rule});
}

static void take_end(draft *d, const cw_plan_end_works *works, const cw_job_end *given)
{
    const char *end = end_names[works->inlet];
    end_amounts all = {0};
    for (int side = 0; side < 2; side++) {
        const cw_plan_wing *wing = &works->wings[side];
        if (!wing->present || !wing->has_take)
            continue;
        const double wall_cy = wing->take.above_cy + wing->take.below_cy;
        *(wing->given->make == CW_WALL_CAST ? &all.cast_cy : &all.precast_cy) += wall_cy;
        all.precast_lb += wing->take.panel_lb;
        all.footing_cy += wing->take.footing_cy;
        all.formed_sqft += wing->take.formed_sqft;
        all.excavation_cy += wing->take.excavation_cy;
    }
    if (works->has_apron) {
        all.formed_sqft += works->apron.formed_sqft;
        all.excavation_cy += works->apron.excavation_cy;
    }
    if (works->has_cutoff) {
        all.formed_sqft += works->cutoff.formed_sqft;
        all.excavation_cy += works->cutoff.excavation_cy;
    }
    const char *wall =
        "length x (root + tip)/2 above the invert and down to the footing, x thickness";
    add_item(d, end, "wings, cast in place", all.cast_cy, CW_DIM_CY, wall);
    add_item(d, end, "wings, precast", all.precast_cy, CW_DIM_CY, wall);
    add_item(d, end, "wings, precast, weight", all.precast_lb, CW_DIM_LB,
             "volume x unit weight of the pieces");
    add_item(d, end, "wing footings", all.footing_cy, CW_DIM_CY, "length x width x thickness");
    if (works->has_apron)
        add_item(d, end, "apron, concrete", works->apron.concrete_cy, CW_DIM_CY,
                 "area between the wings x thickness");
    if (works->has_cutoff)
        add_item(d, end,
                 given->cutoff.make == CW_WALL_CAST ? "cutoff wall, cast in place"
                                                    : "cutoff wall, precast",
                 works->cutoff.concrete_cy, CW_DIM_CY,
                 "outer edge x depth under the apron x thickness");
    add_item(d, end, "forms of wings, footings, apron and cutoff", all.formed_sqft, CW_DIM_SQFT,
             "faces of walls cast in place, rims of footings, edge of the apron");
    add_item(d, end, "digging below the invert", all.excavation_cy, CW_DIM_CY,
             "footings, apron and cutoff with upright sides and room for forms; what lies above is "
             "in the cut");
}

void draft_take_ends(draft *d)
{
    if (d->plan.outlet.works.present)
        take_end(d, &d->plan.outlet.works, &d->job->run.outlet);
    if (d->plan.inlet.works.present)
        take_end(d, &d->plan.inlet.works, &d->job->run.inlet);
}
