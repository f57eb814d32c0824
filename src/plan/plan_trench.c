/* The cut: its section wherever it changes, its volume, the earth that comes out, the ladders. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* Less than this is stripped, not dug. */
#define LEAST_CUT_FT 0.5
/* Range of the section: far past the depth at which an engineer designs the cut. */
#define MOST_CUT_FT 60.0

/* ---- levels along the run ---- */

double draft_invert_ft(const draft *d, double at_ft)
{
    const cw_plan_barrel *barrel = &d->plan.barrels[0];
    return cw_run_invert_ft(&barrel->grade, at_ft) +
           draft_camber_ft(d, barrel->line.length_ft, at_ft);
}

double draft_subgrade_ft(const draft *d, double at_ft)
{
    const cw_job *job = d->job;
    const double below_in =
        job->box.floor_in + job->bedding.leveling_in + job->bedding.thickness_in;
    double low_ft = CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++)
        low_ft = fmin(low_ft, cw_run_invert_ft(&d->plan.barrels[b].grade, at_ft));
    const double camber_ft = draft_camber_ft(d, d->plan.barrels[0].line.length_ft, at_ft);
    return cw_run_under_invert_ft(low_ft + camber_ft, job->run.slope, below_in);
}

static bool ground_at(const draft *d, double at_ft, double *ground_ft)
{
    const cw_run_line *line = &d->plan.barrels[0].line;
    const double inside_ft = fmin(fmax(at_ft, 0.0), line->length_ft);
    return cw_run_ground_at(&d->plan.ground, cw_run_line_at(line, inside_ft).chain_ft, ground_ft);
}

/* Depth on the centre line; far below 0 where the ground is not known. */
static double depth_at(const draft *d, double at_ft)
{
    double ground_ft;
    return ground_at(d, at_ft, &ground_ft)
               ? fmin(ground_ft - draft_subgrade_ft(d, at_ft), MOST_CUT_FT)
               : -CW_ANY_HIGH;
}

/* ---- ground in layers ---- */

static double layer_top_ft(const cw_job_trench *trench, int layer)
{
    double depth_ft = 0.0;
    for (int i = 0; i < layer; i++)
        depth_ft += trench->soils[i].thickness_ft;
    return depth_ft;
}

static cw_soil class_of(const draft *d, const cw_job_soil *given, double depth_ft, bool under_water,
                        cw_working *w)
{
    const cw_job_trench *trench = &d->job->trench;
    const cw_soil_input input = {.disturbed = given && given->disturbed,
                                 .submerged = under_water || (given && given->wet),
                                 .material = given ? given->material : CW_MATERIAL_UNKNOWN,
                                 .has_strength = given && given->has_strength,
                                 .strength_psf = given ? given->strength_psf : 0.0,
                                 .vibration = trench->vibration,
                                 .fissured = given && given->fissured,
                                 .dip = given ? given->dip : CW_DIP_NONE,
                                 .depth_ft = depth_ft,
                                 .open_h = trench->open_h,
                                 .surcharge = trench->surcharge};
    return cw_trench_soil(&input, &d->job->rows, w);
}

/* Layers of a cut @p depth_ft deep, bottom up.  @p count_depth_ft decides which layers it meets, so
 * that both ends of a stretch can be given the layers of its middle. */
static int find_layers(const draft *d, double subgrade_ft, double depth_ft, double count_depth_ft,
                       cw_plan_layer *layers)
{
    const cw_job_trench *trench = &d->job->trench;
    const cw_job_groundwater *water = &d->job->site_water.groundwater;
    int lowest = trench->soil_count - 1;
    while (lowest > 0 && !(layer_top_ft(trench, lowest) < count_depth_ft - CW_SAME_PLACE_FT))
        lowest--;
    if (lowest < 0) {
        const bool wet = water->present && water->level_ft > subgrade_ft;
        layers[0] = (cw_plan_layer){"not classed", 0.0, class_of(d, NULL, depth_ft, wet, NULL)};
        return 1;
    }
    int count = 0;
    for (int i = lowest; i >= 0; i--) {
        const double bottom_ft =
            i == lowest ? 0.0 : fmax(0.0, depth_ft - layer_top_ft(trench, i + 1));
        const bool wet = water->present && water->level_ft > subgrade_ft + bottom_ft;
        layers[count++] = (cw_plan_layer){trench->soils[i].name, bottom_ft,
                                          class_of(d, &trench->soils[i], depth_ft, wet, NULL)};
    }
    return count;
}

static cw_trench_section_input section_input(const draft *d, double depth_ft,
                                             const cw_plan_layer *layers, int count)
{
    static const int ways[] = {CW_WAY_SLOPE, CW_WAY_BENCH, CW_WAY_SHIELD};
    const cw_job *job = d->job;
    cw_trench_section_input input = {.barrels = d->plan.barrel_count,
                                     .width_in = d->plan.outside_width_in,
                                     .clear_gap_in = job->barrels.clear_gap_in,
                                     .work_ft = job->trench.working_space_ft,
                                     .depth_ft = depth_ft,
                                     .cross_fall = job->trench.cross_fall,
                                     .soil = layers[0].soil.soil,
                                     .cohesive =
                                         true, // the job takes benches only in cohesive ground
                                     .open_h = job->trench.open_h,
                                     .way = ways[job->trench.protection],
                                     .shield_ft = job->trench.shield_ft,
                                     .below_ft = job->trench.below_shield_ft,
                                     .spoil_ft = job->trench.spoil_setback_ft};
    // A layer that thins out to nothing at this end of its stretch has no height here.
    if (count > 1 && layers[1].bottom_ft > 0.0) {
        input.has_height_2 = true;
        input.height_2_ft = layers[1].bottom_ft;
        input.soil_2 = layers[1].soil.soil;
    } else if (count > 1) {
        input.soil = layers[1].soil.soil > input.soil ? layers[1].soil.soil : input.soil;
    }
    if (count > 2 && input.has_height_2 && layers[2].bottom_ft > layers[1].bottom_ft) {
        input.has_height_3 = true;
        input.height_3_ft = layers[2].bottom_ft;
        input.soil_3 = layers[2].soil.soil;
    }
    // Where the low side would be in the air, the ground is taken level.
    const double half_ft =
        cw_trench_bottom_ft(input.barrels, input.width_in, input.clear_gap_in, input.work_ft) / 2.0;
    if (fabs(input.cross_fall) * half_ft >= depth_ft)
        input.cross_fall = 0.0;
    return input;
}

/* Sloped instead where the ground does not take the protection named; false then. */
static bool allow(const draft *d, cw_trench_section_input *input)
{
    cw_diags faults = cw_diags_on(d->arena);
    if (cw_trench_section_input_valid(input, (cw_pos){0}, &faults))
        return true;
    input->way = CW_WAY_SLOPE;
    return false;
}

/* Input of the section at a place, with the layers that the cut meets at @p layers_at_ft; false
 * where nothing is dug. */
static bool input_at(const draft *d, double at_ft, double layers_at_ft,
                     cw_trench_section_input *input)
{
    const double depth_ft = depth_at(d, at_ft);
    if (!(depth_ft > CW_SAME_PLACE_FT))
        return false;
    cw_plan_layer layers[CW_SOILS_MAX];
    const int count =
        find_layers(d, draft_subgrade_ft(d, at_ft), depth_ft, depth_at(d, layers_at_ft), layers);
    *input = section_input(d, depth_ft, layers, count);
    allow(d, input);
    return true;
}

static double bottom_width_ft(const draft *d)
{
    return cw_trench_bottom_ft(d->plan.barrel_count, d->plan.outside_width_in,
                               d->job->barrels.clear_gap_in, d->job->trench.working_space_ft);
}

draft_hole draft_hole_at(const draft *d, double at_ft)
{
    draft_hole hole = {.at_ft = at_ft, .bottom_ft = bottom_width_ft(d)};
    cw_trench_section_input input;
    hole.dug = input_at(d, at_ft, at_ft, &input);
    if (!hole.dug)
        return hole;
    input.cross_fall = 0.0;
    hole.depth_ft = input.depth_ft;
    hole.shape = cw_trench_section_shape(&input, &d->job->rows);
    return hole;
}

double draft_hole_sqft(const draft_hole *hole, double height_ft)
{
    if (!(height_ft > 0.0))
        return 0.0;
    if (!hole->dug)
        return hole->bottom_ft * height_ft;
    const double inside_ft = fmin(height_ft, hole->depth_ft);
    return cw_trench_level_sqft(&hole->shape, inside_ft) +
           (height_ft - inside_ft) * 2.0 * cw_trench_level_half_ft(&hole->shape, hole->depth_ft);
}

/* ---- places of the sections ---- */

typedef struct place {
    double at_ft;
    const char *why;
    bool fixed; /* drawn whenever something is dug there */
} place;

static void add_place(place *places, int *count, place one, double length_ft)
{
    if (*count == CW_PLAN_CUTS_MAX || one.at_ft < -CW_SAME_PLACE_FT ||
        one.at_ft > length_ft + CW_SAME_PLACE_FT)
        return;
    one.at_ft = fmin(fmax(one.at_ft, 0.0), length_ft);
    int i = *count;
    for (; i > 0 && places[i - 1].at_ft > one.at_ft; i--)
        places[i] = places[i - 1];
    places[i] = one;
    ++*count;
}

/* Of places that fall together the first that was added stays, with the better reason. */
static void drop_doubles(place *places, int *count)
{
    int kept = 0;
    for (int i = 0; i < *count; i++) {
        if (kept > 0 && places[i].at_ft - places[kept - 1].at_ft < CW_SAME_PLACE_FT) {
            if (places[i].fixed && !places[kept - 1].fixed)
                places[kept - 1] = places[i];
            continue;
        }
        places[kept++] = places[i];
    }
    *count = kept;
}

/* Between two places depth runs straight: it passes each layer's top, and the subgrade, at most
 * once. */
static void add_crossings(const draft *d, place *places, int *count, double length_ft)
{
    const cw_job_trench *trench = &d->job->trench;
    place found[CW_PLAN_CUTS_MAX];
    int found_count = 0;
    for (int i = 0; i + 1 < *count; i++) {
        const double from = depth_at(d, places[i].at_ft), to = depth_at(d, places[i + 1].at_ft);
        if (from < -CW_ANY_HIGH / 2.0 || to < -CW_ANY_HIGH / 2.0)
            continue;
        for (int k = 0; k < (trench->soil_count > 1 ? trench->soil_count : 1); k++) {
            const double level = layer_top_ft(trench, k);
            if ((from < level) == (to < level) || found_count == CW_PLAN_CUTS_MAX)
                continue;
            const double share = (level - from) / (to - from);
            found[found_count++] =
                (place){places[i].at_ft + share * (places[i + 1].at_ft - places[i].at_ft),
                        k == 0 ? "cut begins or ends" : "layer of ground begins or ends", k > 0};
        }
    }
    for (int i = 0; i < found_count; i++)
        add_place(places, count, found[i], length_ft);
}

static int find_places(const draft *d, place *places)
{
    const cw_job *job = d->job;
    const double length_ft = d->plan.barrels[0].line.length_ft;
    int count = 0;
    add_place(places, &count, (place){0.0, "outlet", true}, length_ft);
    add_place(places, &count, (place){length_ft, "inlet", true}, length_ft);
    for (int i = 0; i < job->phase_count; i++)
        add_place(
            places, &count,
            (place){job->phases[i].at_ft, cw_arena_print(d->arena, "phase line %d", i + 1), true},
            length_ft);
    for (int i = 0; i < d->plan.ground.count; i++)
        add_place(places, &count,
                  (place){d->plan.ground.points[i].chain_ft - d->plan.span.outlet_chain_ft,
                          "ground breaks", false},
                  length_ft);
    drop_doubles(places, &count);
    add_crossings(d, places, &count, length_ft);
    drop_doubles(places, &count);
    return count;
}

/* ---- the sections ---- */

static void find_pile(const draft *d, cw_plan_cut *cut)
{
    static const int piles[] = {CW_PILE_CLAY, CW_PILE_EARTH_DRY, CW_PILE_GRAVEL, CW_PILE_SAND_DRY};
    const cw_job_trench *trench = &d->job->trench;
    if (trench->spoil == CW_SPOIL_HAULED || !(trench->suitable_percent > 0.0))
        return;
    // What is not fit for backfill is hauled off at once.
    const double share =
        trench->suitable_percent / CW_PERCENT * (trench->spoil == CW_SPOIL_BOTH ? 0.5 : 1.0);
    const cw_earth_input earth = {.volume_cy = cut->section.area_sqft / CW_CUFT_PER_CY,
                                  .state = CW_EARTH_BANK,
                                  .kind = trench->earth,
                                  .truck_cy = trench->truck_cy,
                                  .payload_lb = trench->truck_payload_lb};
    const cw_earth loose = cw_trench_earth(&earth, &d->job->rows, NULL);
    const cw_pile_input input = {.volume_cy = loose.loose_cy * share,
                                 .shape = CW_PILE_RIDGE,
                                 .earth = piles[trench->earth],
                                 .length_ft = 1.0};
    const cw_pile pile = cw_trench_pile(&input, &d->job->rows, NULL);
    cut->pile_base_ft = pile.base_ft;
    cut->pile_height_ft = pile.height_ft;
}

static cw_plan_cut cut_at(const draft *d, place where)
{
    cw_plan_cut cut = {.at_ft = where.at_ft, .why = where.why, .drawn = where.fixed};
    cut.subgrade_ft = draft_subgrade_ft(d, where.at_ft);
    cut.ground_ft = cut.subgrade_ft;
    ground_at(d, where.at_ft, &cut.ground_ft);
    cut.depth_ft = fmin(fmax(0.0, cut.ground_ft - cut.subgrade_ft), MOST_CUT_FT);
    const cw_job_groundwater *water = &d->job->site_water.groundwater;
    cut.water_ft = water->present ? fmax(0.0, water->level_ft - cut.subgrade_ft) : 0.0;
    cut.dug = cut.depth_ft >= LEAST_CUT_FT;
    if (!cut.dug)
        return cut;
    cut.layer_count = find_layers(d, cut.subgrade_ft, cut.depth_ft, cut.depth_ft, cut.layers);
    cw_trench_section_input input = section_input(d, cut.depth_ft, cut.layers, cut.layer_count);
    cut.refused = !allow(d, &input);
    cut.section = cw_trench_section_of(&input, &d->job->rows, NULL);
    find_pile(d, &cut);
    return cut;
}

static bool alike(const cw_plan_cut *a, const cw_plan_cut *b)
{
    if (a->dug != b->dug || a->layer_count != b->layer_count ||
        a->section.protection != b->section.protection ||
        a->section.verdict != b->section.verdict || a->refused != b->refused)
        return false;
    for (int i = 0; i < a->layer_count; i++)
        if (a->layers[i].soil.soil != b->layers[i].soil.soil)
            return false;
    return true;
}

/* Drawn: the deepest, the ends and phase lines, and where ground, protection or verdict change; so
 * many at most. */
static void choose_drawn(draft *d, cw_plan_cut *cuts, int count)
{
    const int deepest = d->plan.trench.deepest;
    for (int i = 1; i < count; i++)
        cuts[i].drawn = cuts[i].drawn || !alike(&cuts[i], &cuts[i - 1]);
    int drawn = 0;
    for (int i = 0; i < count; i++) {
        const bool room = drawn < CW_PLAN_DRAWN_MAX - (i < deepest ? 1 : 0);
        cuts[i].drawn = cuts[i].dug && (i == deepest || (cuts[i].drawn && room));
        drawn += cuts[i].drawn ? 1 : 0;
        cw_trench_section_input input;
        if (!cuts[i].drawn || !input_at(d, cuts[i].at_ft, cuts[i].at_ft, &input))
            continue;
        cw_trench_shape *shape = CW_TAKE(d->arena, cw_trench_shape, 1);
        *shape = cw_trench_section_shape(&input, &d->job->rows);
        cuts[i].shape = shape;
    }
}

/* ---- volume ---- */

static double area_at(const draft *d, double at_ft, double layers_at_ft)
{
    cw_trench_section_input input;
    if (!input_at(d, at_ft, layers_at_ft, &input))
        return 0.0;
    return cw_trench_section_of(&input, &d->job->rows, NULL).area_sqft;
}

static void find_ends(draft *d, const cw_plan_cut *cuts, int count)
{
    double ends_cuft = 0.0;
    for (int i = 0; i < 2; i++) {
        const cw_plan_cut *end = &cuts[i == 0 ? 0 : count - 1];
        if (end->dug)
            ends_cuft += cw_trench_end_cuft(end->section.bottom_ft, end->section.slope_top,
                                            end->section.slope_top, end->depth_ft);
    }
    d->plan.trench.ends_cy = ends_cuft / CW_CUFT_PER_CY;
}

static void find_volume(draft *d, const cw_plan_cut *cuts, int count)
{
    cw_plan_trench *trench = &d->plan.trench;
    const cw_job_trench *given = &d->job->trench;
    const double pay_ft = d->plan.width_ft + 2.0 * given->pay_ft;
    double exact_cuft = 0.0, average_cuft = 0.0, pay_cuft = 0.0;
    for (int i = 0; i + 1 < count; i++) {
        const double from = cuts[i].at_ft, to = cuts[i + 1].at_ft, middle = (from + to) / 2.0;
        // Layers stay the same between places, so areas are those of the stretch on both of its
        // ends.
        const double a = area_at(d, from, middle), m = area_at(d, middle, middle),
                     b = area_at(d, to, middle);
        if (!(m > 0.0))
            continue;
        trench->length_ft += to - from;
        exact_cuft += cw_trench_prismoid_cuft(to - from, a, m, b);
        average_cuft += cw_trench_average_cuft(to - from, a, b);
        pay_cuft +=
            pay_ft * cw_trench_average_cuft(to - from, cuts[i].depth_ft, cuts[i + 1].depth_ft);
    }
    trench->exact_cy = exact_cuft / CW_CUFT_PER_CY;
    trench->average_cy = average_cuft / CW_CUFT_PER_CY;
    trench->has_pay = given->has_pay;
    trench->pay_cy = pay_cuft / CW_CUFT_PER_CY;
    find_ends(d, cuts, count);
    const double whole_cy = trench->exact_cy + trench->ends_cy;
    trench->overbreak_cy = whole_cy * given->overbreak_percent / CW_PERCENT;
    cw_working *w = draft_working(d, "Volume of the cut");
    const char *chain = "closed form: prismoid between sections";
    cw_step_add(w, "V_p", "sum of L (A_1 + 4 A_m + A_2)/6 between the sections, A_m half-way",
                trench->exact_cy, CW_DIM_CY, chain);
    cw_step_add(w, "V_a", "sum of L (A_1 + A_2)/2, average end area", trench->average_cy, CW_DIM_CY,
                "average end area");
    cw_step_add(w, "V_e", "ends sloped like the sides, hips at the corners", trench->ends_cy,
                CW_DIM_CY, "closed form: pit");
    cw_step_add(w, "V", "V_p + V_e, bank", whole_cy, CW_DIM_CY, chain);
    cw_step_add(w, "V_o", "overbreak, apart from V", trench->overbreak_cy, CW_DIM_CY,
                "job file: trench.overbreak");
}

static void show_deepest(draft *d)
{
    const cw_plan_cut *cut = &d->plan.trench.cuts[d->plan.trench.deepest];
    cw_trench_section_input input;
    if (!input_at(d, cut->at_ft, cut->at_ft, &input))
        return;
    cw_trench_section_of(&input, &d->job->rows,
                         draft_working(d, "Section of the cut at its deepest"));
    for (int i = 0; i < d->job->trench.soil_count; i++)
        for (int k = 0; k < cut->layer_count; k++)
            if (cw_text_same(cut->layers[k].name, d->job->trench.soils[i].name)) {
                const cw_job_groundwater *water = &d->job->site_water.groundwater;
                const bool wet =
                    water->present && water->level_ft > cut->subgrade_ft + cut->layers[k].bottom_ft;
                class_of(d, &d->job->trench.soils[i], cut->depth_ft, wet,
                         draft_working(d, cw_arena_print(d->arena, "Class of the ground: %s",
                                                         cut->layers[k].name)));
            }
}

/* The rows in force with the job's own way to a ladder. */
static cw_rows rows_with_travel(const draft *d)
{
    cw_row *rows = CW_TAKE(d->arena, cw_row, d->job->rows.count);
    for (int i = 0; i < d->job->rows.count; i++) {
        rows[i] = d->job->rows.items[i];
        if (cw_text_same(rows[i].id, "trench.egress_travel"))
            rows[i].value = d->job->trench.egress_ft;
    }
    return (cw_rows){.items = rows, .count = d->job->rows.count};
}

static void find_earth(draft *d)
{
    cw_plan_trench *trench = &d->plan.trench;
    const cw_earth_input input = {.volume_cy = trench->exact_cy + trench->ends_cy,
                                  .state = CW_EARTH_BANK,
                                  .kind = d->job->trench.earth,
                                  .truck_cy = d->job->trench.truck_cy,
                                  .payload_lb = d->job->trench.truck_payload_lb};
    trench->earth =
        cw_trench_earth(&input, &d->job->rows, draft_working(d, "Earth out of the cut"));
}

void draft_trench(draft *d)
{
    cw_plan_trench *trench = &d->plan.trench;
    trench->classed = d->job->trench.soil_count > 0;
    trench->deepest = -1;
    double ground_ft;
    if (d->plan.ground.count < 2 ||
        !ground_at(d, d->plan.barrels[0].line.length_ft / 2.0, &ground_ft))
        return;
    trench->present = true;
    place *places = CW_TAKE(d->arena, place, CW_PLAN_CUTS_MAX);
    const int count = find_places(d, places);
    cw_plan_cut *cuts = CW_TAKE(d->arena, cw_plan_cut, count);
    for (int i = 0; i < count; i++) {
        cuts[i] = cut_at(d, places[i]);
        if (cuts[i].dug && (trench->deepest < 0 ||
                            cuts[i].section.deepest_ft > cuts[trench->deepest].section.deepest_ft))
            trench->deepest = i;
    }
    trench->cuts = cuts;
    trench->cut_count = count;
    if (trench->deepest < 0)
        return;
    choose_drawn(d, cuts, count);
    show_deepest(d);
    find_volume(d, cuts, count);
    find_earth(d);
    const cw_rows rows = rows_with_travel(d);
    const cw_egress_input egress = {cuts[trench->deepest].section.deepest_ft, trench->length_ft, 2};
    trench->egress = cw_trench_egress(&egress, &rows, draft_working(d, "Ladders"));
}
