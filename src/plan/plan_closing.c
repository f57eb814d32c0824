/* Closing up: sealant for the joint, strength of the fill between barrels, backfill in lifts and
 * zones. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* ---- sealant ---- */

/* Room between the mating faces of the laps: thickness times what the groove has over the tongue.
 */
static void find_room(draft *d)
{
    const cw_job *job = d->job;
    cw_plan_closing *out = &d->plan.closing;
    const double share = job->joint.groove_share - job->joint.tongue_share;
    const double least_in = fmin(job->box.wall_in, fmin(job->box.floor_in, job->box.top_in));
    const double most_in = fmax(job->box.wall_in, fmax(job->box.floor_in, job->box.top_in));
    cw_working *w = draft_working(d, "Room for the sealant");
    const char *drawing = "job file: joint; the precaster's drawing governs";
    cw_step_add(w, "s", "groove share less tongue share", share, CW_DIM_NONE, drawing);
    out->annulus_min_in =
        cw_step_add(w, "a_1", "s x thinnest of wall, floor and top, less the tolerance",
                    share * least_in - job->sealant.annulus_tolerance_in, CW_DIM_IN, drawing);
    out->annulus_max_in =
        cw_step_add(w, "a_2", "s x thickest of them, and the tolerance",
                    share * most_in + job->sealant.annulus_tolerance_in, CW_DIM_IN, drawing);
    out->face_in = cw_step_add(w, "j", "the shorter of tongue and groove, less the gap",
                               fmin(job->joint.tongue_in, job->joint.groove_in) - job->joint.gap_in,
                               CW_DIM_IN, drawing);
}

static void find_rope(draft *d)
{
    const cw_job_sealant *given = &d->job->sealant;
    cw_plan_closing *out = &d->plan.closing;
    find_room(d);
    if (!given->has_sizes || !(out->annulus_min_in > 0.0) || !(out->face_in > 0.0))
        return;
    const cw_rope_input input = {.annulus_min_in = out->annulus_min_in,
                                 .annulus_max_in = out->annulus_max_in,
                                 .face_in = out->face_in,
                                 .compression_percent = given->compression_percent,
                                 .rows = given->rows,
                                 .has_width = given->has_width,
                                 .width_in = given->width_in,
                                 .sizes_in = given->sizes_in,
                                 .has_temperature = given->has_temperature,
                                 .temperature_f = given->temperature_f,
                                 .temperature_min_f = given->temperature_min_f};
    out->rope = cw_closing_rope(&input, draft_working(d, "Size of the sealant"));
    out->has_rope = true;
}

/* ---- fill between barrels ---- */

/* Hours on the clock until the equivalent age is reached, by the forecast and then by its last
 * value. */
static double clock_h(const cw_job_fill *given, const cw_maturity_law *law, double needed_h)
{
    double age_h = 0.0;
    for (int i = 0; i < given->forecast_f.count; i++) {
        const double factor = cw_closing_age_factor(given->forecast_f.items[i], law);
        if (factor > 0.0 && age_h + factor * given->step_h >= needed_h)
            return i * given->step_h + fmax(0.0, needed_h - age_h) / factor;
        age_h += factor * given->step_h;
    }
    return -1.0;
}

static void find_strength(draft *d)
{
    const cw_job_fill *given = &d->job->fill;
    cw_plan_closing *out = &d->plan.closing;
    if (d->job->barrels.count < 2 || given->kind == 2 || !given->has_ages || !given->has_forecast ||
        given->forecast_f.count == 0)
        return;
    const cw_maturity_law law = {draft_row_value(d, "maturity.datum", 32.0),
                                 draft_row_value(d, "maturity.activation", 5000.0),
                                 draft_row_value(d, "maturity.reference", 73.4)};
    cw_maturity_input log = {
        .temperatures_f = given->forecast_f, .longest_h = given->step_h, .law = law};
    for (int i = 0; i < given->forecast_f.count; i++)
        log.times_h.items[log.times_h.count++] = (i + 1) * given->step_h;
    out->maturity = cw_closing_maturity_of(
        &log, draft_working(d, "Equivalent age of the fill at the end of the forecast"));
    const double last_f = given->forecast_f.items[given->forecast_f.count - 1];
    const cw_strength_input input = {.curve = CW_CURVE_BREAKS,
                                     .measure = CW_MEASURE_AGE,
                                     .now = out->maturity.equivalent_h,
                                     .target_psi = given->strength_psi,
                                     .temperature_f = last_f,
                                     .law = law,
                                     .break_ages = given->ages_h,
                                     .break_psi = given->breaks_psi};
    out->strength = cw_closing_strength(
        &input, draft_working(d, "Strength of the fill at the end of the forecast"));
    out->has_strength = out->strength.state != CW_STRENGTH_NO_CURVE &&
                        out->strength.state != CW_STRENGTH_NEVER && out->strength.has_needed;
    if (!out->has_strength)
        return;
    const double clock = clock_h(given, &law, out->strength.needed);
    out->reached = clock >= 0.0;
    out->release_h = out->reached ? clock : out->maturity.hours + out->strength.wait_h;
    cw_working *w = draft_working(d, "Time until the fill takes backfill beside it");
    cw_step_add(w, "t_t", "equivalent age at the strength needed, on the curve of the breaks",
                out->strength.needed, CW_DIM_HOUR, "ASTM C1074");
    cw_step_add(w, "t", "hours by the clock in which the forecast gives that age", out->release_h,
                CW_DIM_HOUR, "ASTM C1074");
}

/* ---- backfill ---- */

static void find_lifts(draft *d)
{
    const cw_job *job = d->job;
    cw_plan_closing *out = &d->plan.closing;
    const double ratio = job->backfill.loose_ratio;
    out->height_in = job->box.floor_in + job->box.rise_in + job->box.top_in;
    out->compacted_in = job->order.backfill_lift_in / ratio;
    const cw_backfill_input input = {.barrels = d->plan.barrel_count,
                                     .width_in = d->plan.outside_width_in,
                                     .height_in = out->height_in,
                                     .clear_gap_in = job->barrels.clear_gap_in,
                                     .work_ft = job->trench.working_space_ft,
                                     .depth_ft = out->height_in / CW_IN_PER_FT,
                                     .length_ft = d->plan.slope_length_ft,
                                     .lift_in = out->compacted_in,
                                     .loose_ratio = ratio,
                                     .lids_on = true,
                                     .floor_in = job->box.floor_in,
                                     .difference_in = job->order.side_difference_in,
                                     .open_height_ft =
                                         draft_row_value(d, "backfill.unlidded_height", 1.0),
                                     .test_cy = job->backfill.test_cy,
                                     .tests_least = job->backfill.tests_least};
    const cw_backfill lifts = cw_closing_backfill(
        &input, draft_working(d, "Backfill beside the boxes: lifts, working space upright"));
    out->lifts = lifts.lifts < 1                    ? 1
                 : lifts.lifts > CW_ORDER_PARTS_MAX ? CW_ORDER_PARTS_MAX
                                                    : lifts.lifts;
    out->lifts_apart = lifts.lifts_apart;
    out->hand_lifts =
        (int)ceil(job->order.backfill_lift_in / job->backfill.hand_lift_in - CW_RATIO_SLACK);
    out->hand_lifts = out->hand_lifts < 1 ? 1 : out->hand_lifts;
    double highest_ft = -CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++)
        for (int i = 0; i <= d->plan.barrels[b].base_count; i++)
            highest_ft = fmax(highest_ft, d->plan.barrels[b].joints[i].top_ft);
    out->machine_ft = highest_ft + job->order.cover_before_equipment_ft;
}

/* Height of the finished surface over the underside; the height of the box without a road. */
static double surface_over_ft(const draft *d, double at_ft, double box_ft)
{
    if (!d->plan.has_surface)
        return box_ft;
    const cw_plan_barrel *barrel = &d->plan.barrels[0];
    const cw_run_over over = {&d->plan.road, d->plan.ground.count > 1 ? &d->plan.ground : NULL,
                              &barrel->line, barrel->grade, d->plan.box};
    const double inside_ft = fmin(fmax(at_ft, 0.0), barrel->line.length_ft);
    const cw_run_cover cover = cw_run_cover_at(&over, inside_ft);
    return fmax(0.0, box_ft + cover.cover_ft);
}

/* A place of the run as the backfill sees it: at the sections and half-way between them. */
typedef struct station {
    draft_hole hole;
    double surface_ft; /* over the underside */
} station;

typedef struct stations {
    station *items;
    int count; /* odd: ends and middles in turn */
} stations;

static stations find_stations(const draft *d)
{
    const cw_plan_trench *trench = &d->plan.trench;
    const double box_ft = d->plan.closing.height_in / CW_IN_PER_FT;
    stations all = {CW_TAKE(d->arena, station, 2 * trench->cut_count), 2 * trench->cut_count - 1};
    for (int i = 0; i < all.count; i++) {
        const double at_ft = (trench->cuts[i / 2].at_ft + trench->cuts[(i + 1) / 2].at_ft) / 2.0;
        all.items[i] = (station){draft_hole_at(d, at_ft), surface_over_ft(d, at_ft, box_ft)};
    }
    return all;
}

/* Fill between two heights over the underside, boxes and the gaps between them taken out. */
static double fill_sqft(const draft *d, const station *at, double low_ft, double high_ft)
{
    const cw_job *job = d->job;
    const double box_ft = d->plan.closing.height_in / CW_IN_PER_FT;
    const double under_ft = (job->bedding.leveling_in + job->bedding.thickness_in) / CW_IN_PER_FT;
    const double top_ft = fmin(high_ft, at->surface_ft);
    if (!(top_ft > low_ft))
        return 0.0;
    const double hole = draft_hole_sqft(&at->hole, under_ft + top_ft) -
                        draft_hole_sqft(&at->hole, under_ft + low_ft);
    const double boxes = d->plan.width_ft * fmax(0.0, fmin(top_ft, box_ft) - low_ft);
    return fmax(0.0, hole - boxes);
}

static double fill_cy(const draft *d, const stations *all, double low_ft, double high_ft)
{
    double sum_cuft = 0.0;
    for (int i = 0; i + 2 < all->count; i += 2) {
        const station *at = &all->items[i];
        sum_cuft += cw_trench_prismoid_cuft(
            at[2].hole.at_ft - at[0].hole.at_ft, fill_sqft(d, &at[0], low_ft, high_ft),
            fill_sqft(d, &at[1], low_ft, high_ft), fill_sqft(d, &at[2], low_ft, high_ft));
    }
    return sum_cuft / CW_CUFT_PER_CY;
}

static void find_lift_volumes(draft *d, const stations *all)
{
    cw_plan_closing *out = &d->plan.closing;
    const double lift_ft = out->compacted_in / CW_IN_PER_FT, box_ft = out->height_in / CW_IN_PER_FT;
    double *lift_cy = CW_TAKE(d->arena, double, out->lifts);
    for (int i = 0; i < out->lifts; i++)
        lift_cy[i] = fill_cy(d, all, i * lift_ft, i + 1 < out->lifts ? (i + 1) * lift_ft : box_ft);
    out->lift_cy = lift_cy;
}

static void find_zones(draft *d, const stations *all)
{
    const cw_job_backfill *given = &d->job->backfill;
    cw_plan_closing *out = &d->plan.closing;
    cw_plan_zone *zones = CW_TAKE(d->arena, cw_plan_zone, CW_ZONES_MAX);
    double from_ft = 0.0;
    for (int i = 0; i < given->zone_count; i++) {
        const cw_job_zone *zone = &given->zones[i];
        const double to_ft = zone->has_to ? zone->to_ft : CW_ANY_HIGH;
        zones[i] = (cw_plan_zone){zone->name,
                                  zone->material,
                                  from_ft,
                                  zone->has_to,
                                  zone->has_to ? zone->to_ft : 0.0,
                                  zone->compaction_percent,
                                  out->has_volumes ? fill_cy(d, all, from_ft, to_ft) : 0.0};
        from_ft = to_ft;
    }
    out->zones = zones;
    out->zone_count = given->zone_count;
}

static void find_fill(draft *d)
{
    const cw_job *job = d->job;
    cw_plan_closing *out = &d->plan.closing;
    out->has_volumes = d->plan.trench.present;
    const stations all = out->has_volumes ? find_stations(d) : (stations){0};
    find_zones(d, &all);
    if (!out->has_volumes)
        return;
    find_lift_volumes(d, &all);
    const double box_ft = out->height_in / CW_IN_PER_FT;
    out->beside_cy = fill_cy(d, &all, 0.0, box_ft);
    out->over_cy = d->plan.has_surface ? fill_cy(d, &all, box_ft, CW_ANY_HIGH) : 0.0;
    cw_working *w = draft_working(d, "Backfill by sections");
    const char *rule =
        "closed form: prismoid between sections; above the ground upright at the edges of the cut";
    cw_step_add(w, "V_1", "from the underside to the top of the boxes, boxes and gaps out",
                out->beside_cy, CW_DIM_CY, rule);
    cw_step_add(w, "V_2", "from the top of the boxes to the finished surface", out->over_cy,
                CW_DIM_CY, rule);
    const double whole_cy =
        cw_step_add(w, "V", "V_1 + V_2, compacted", out->beside_cy + out->over_cy, CW_DIM_CY, rule);
    out->loose_cy = cw_step_add(w, "V_l", "V x loose over compacted",
                                whole_cy * job->backfill.loose_ratio, CW_DIM_CY, "definition");
    const double by_volume = ceil(out->beside_cy / job->backfill.test_cy - CW_RATIO_SLACK);
    const double by_lift = 2.0 * out->lifts * job->backfill.tests_least;
    out->tests =
        (int)cw_step_add(w, "tests", "the larger of V_1 / volume of a test and 2 lifts x least",
                         fmax(by_volume, by_lift), CW_DIM_COUNT, "common practice");
    if (d->plan.trench.deepest < 0)
        return;
    const cw_earth *earth = &d->plan.trench.earth;
    const cw_earth_balance_input balance = {earth->bank_cy, job->trench.suitable_percent, whole_cy,
                                            earth->swell_percent, earth->shrink_percent};
    d->plan.trench.balance = cw_trench_balance(&balance, draft_working(d, "Earth balance"));
}

void draft_closing(draft *d)
{
    find_rope(d);
    find_strength(d);
    find_lifts(d);
    find_fill(d);
}

/* ---- quantities ---- */

static void add(draft *d, const char *item, double value, cw_dim dim, const char *rule)
{
    draft_quantity(d, (cw_plan_quantity){"Earth", item, dim, value, value, CW_ROUND_NONE, rule});
}

void draft_ground_quantities(draft *d)
{
    const cw_plan_trench *trench = &d->plan.trench;
    const cw_plan_closing *closing = &d->plan.closing;
    const cw_plan_surface *surface = &d->plan.surface;
    if (surface->known)
        add(d, "Excavation from the surface, bank", surface->dug.cut_cuft / CW_CUFT_PER_CY, CW_DIM_CY,
            "exact between the triangles of the ground and the planes of the cut, sloped ends included");
    if (trench->deepest >= 0) {
        add(d, "Excavation, bank", trench->exact_cy + trench->ends_cy, CW_DIM_CY,
            "prismoids between the sections, ends sloped");
        add(d, "Overbreak, bank, not in it", trench->overbreak_cy, CW_DIM_CY,
            "share of the excavation stated in the job file");
        if (trench->has_pay)
            add(d, "Excavation by pay lines", trench->pay_cy, CW_DIM_CY,
                "upright planes at trench.pay_line outside the outer walls");
        add(d, "Excavation, loose", trench->earth.loose_cy, CW_DIM_CY, "bank volume and swell");
        add(d, "Earth used again, bank", trench->balance.reuse_cy, CW_DIM_CY,
            "suitable part, as far as backfill needs it");
        add(d, "Earth hauled off, loose", trench->balance.export_loose_cy, CW_DIM_CY,
            "what is not used again, and swell");
        add(d, "Ladders", trench->egress.total, CW_DIM_COUNT,
            "both strips beside the boxes, none shared");
    }
    if (!closing->has_volumes)
        return;
    add(d, "Backfill beside the boxes, compacted", closing->beside_cy, CW_DIM_CY,
        "cut less boxes and gaps, underside to top; above the ground upright at the edges of the "
        "cut");
    if (closing->over_cy > 0.0)
        add(d, "Backfill over the boxes, compacted", closing->over_cy, CW_DIM_CY,
            "the same, top of the boxes to the finished surface");
    if (trench->deepest >= 0)
        add(d, "Backfill brought in, compacted", trench->balance.import_cy, CW_DIM_CY,
            "need less what is used again");
    add(d, "Density tests", closing->tests, CW_DIM_COUNT,
        "by volume, or by lift and side, the larger");
}
