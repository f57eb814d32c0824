/* Rows of the ledger on strength: the finished box, then the stages of building it. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/units.h"

static const char review[] = "for review by a licensed engineer";

/* Tops of pieces under thin cover: greatest span over thickness and least length without a shear connection. */
#define JOINT_SLENDER_MOST 18.0
#define JOINT_LENGTH_LEAST_IN (4.0 * CW_IN_PER_FT)

/* "middle of the top, inside; strength, cover 4.25 ft, springs under the floor, top greatest, sides least". */
static const char *from_words(const draft *d, const char *name, cw_plan_from from)
{
    static const char *const grounds[] = {"straight-line reaction", "springs under the floor"};
    static const char *const states[] = {"service", "strength", "permit vehicle"};
    return cw_arena_print(d->arena, "%s; %s, cover %s, %s, %s", name, states[from.state],
                          draft_words(d, d->plan.strength.cover_ft[from.cover], CW_DIM_FT), grounds[from.ground],
                          cw_struct_case_words(from.load));
}

static void check_edition(draft *d)
{
    const bool same = d->job->strength.edition == 0;
    draft_add(d, (cw_check){.id = "strength.edition",
                            .what = "Load and resistance factors are those of the edition in force",
                            .where = same ? "AASHTO LRFD 8th edition, 2017" : "another edition",
                            .clause = "job file: strength.edition",
                            .verdict = same ? CW_HOLDS : CW_UNDECIDED,
                            .rests_on = "structure.factor.strength.live",
                            .mend = same ? "" : "override the structure rows that differ, each with its clause"});
}

static void check_range(draft *d)
{
    const cw_job_strength *given = &d->job->strength;
    double least_ft = CW_ANY_HIGH, most_ft = -CW_ANY_HIGH;
    for (int b = 0; b < d->plan.barrel_count; b++) {
        if (!d->plan.barrels[b].has_cover)
            continue;
        least_ft = fmin(least_ft, d->plan.barrels[b].least_cover.cover_ft);
        most_ft = fmax(most_ft, d->plan.barrels[b].most_cover.cover_ft);
    }
    if (most_ft < least_ft)
        return;
    if (given->has_cover_least)
        draft_judge(d, (cw_check){.id = "strength.cover-least",
                                  .what = "Cover is at least what the box is designed for",
                                  .demand = least_ft,
                                  .capacity = given->cover_least_ft,
                                  .at_least = true,
                                  .dim = CW_DIM_FT,
                                  .clause = "job file: strength.cover_least",
                                  .mend = "have the box designed for the cover it gets"});
    if (given->has_cover_most)
        draft_judge(d, (cw_check){.id = "strength.cover-most",
                                  .what = "Cover is at most what the box is designed for",
                                  .demand = most_ft,
                                  .capacity = given->cover_most_ft,
                                  .dim = CW_DIM_FT,
                                  .clause = "job file: strength.cover_most",
                                  .mend = "have the box designed for the cover it gets"});
}

/* ---- sections ---- */

static void check_bending(draft *d, const cw_plan_section *section)
{
    const cw_struct_flexure *flexure = &section->flexure;
    const char *working = cw_arena_print(d->arena, "Bending: %s", section->name);
    cw_check check = {.id = "strength.bending",
                      .what = "Bending with thrust",
                      .where = from_words(d, section->name, section->from),
                      .clause = "AASHTO LRFD 5.6 and 12.11 (from memory, not verified)",
                      .rests_on = "structure.factor.strength.live",
                      .working = working};
    if (!flexure->possible) {
        check.verdict = CW_FAILS;
        check.mend = "no steel carries this moment in this thickness: a thicker member";
    } else if (!section->has_steel) {
        check.verdict = CW_UNDECIDED;
        check.mend = cw_arena_print(d->arena, "state the steel of this face under strength.steel; it needs %s",
                                    draft_words(d, fmax(flexure->required_in2_per_ft, flexure->least_in2_per_ft),
                                          CW_DIM_SQIN_PER_FT));
    } else {
        check.has_numbers = true;
        check.demand = section->moment_ft_lb;
        check.capacity = flexure->capacity_ft_lb;
        check.dim = CW_DIM_FT_LB;
        check.mend = cw_arena_print(d->arena, "give this face %s of steel",
                                    draft_words(d, flexure->required_in2_per_ft, CW_DIM_SQIN_PER_FT));
        cw_check *row = draft_add(d, check);
        cw_check_judge(row);
        if (row->verdict == CW_HOLDS && (flexure->flexure == CW_UNDECIDED || section->pulled)) {
            row->verdict = CW_UNDECIDED;
            row->mend = section->pulled ? "the member is pulled at the same time: have it designed"
                                        : "the steel hardly yields before the concrete crushes: a thicker member";
        }
        if (row->verdict == CW_HOLDS)
            row->mend = "";
        return;
    }
    draft_add(d, check);
}

/* Concrete over the steel; more on top of a top that has little earth over it. */
static void check_cover(draft *d, const cw_plan_section *section)
{
    const cw_plan_strength *s = &d->plan.strength;
    const bool thin = section->face == CW_STEEL_TOP_OUTSIDE &&
                      s->cover_ft[0] < cw_rows_value(&d->job->rows, "structure.thin_cover");
    const char *id = thin ? "structure.cover.top_thin" : "structure.cover.steel";
    for (int i = 0; i < d->job->strength.steel_count; i++)
        if (d->job->strength.steel[i].at == section->face)
            draft_judge(d, (cw_check){.id = "strength.steel-cover",
                                      .what = "Concrete over the steel of a face",
                                      .where = section->name,
                                      .demand = d->job->strength.steel[i].cover_in,
                                      .capacity = cw_rows_value(&d->job->rows, id),
                                      .at_least = true,
                                      .dim = CW_DIM_IN,
                                      .clause = draft_source(d, id),
                                      .rests_on = id,
                                      .mend = "more cover, with the depth that is left counted again"});
}

static void check_steel(draft *d, const cw_plan_section *section)
{
    if (!section->has_steel)
        return;
    draft_judge(d, (cw_check){.id = "strength.least-steel",
                              .what = "Least steel of a face",
                              .where = section->name,
                              .demand = section->steel_in2_per_ft,
                              .capacity = section->flexure.least_in2_per_ft,
                              .at_least = true,
                              .dim = CW_DIM_SQIN_PER_FT,
                              .clause = draft_source(d, "structure.steel.least"),
                              .rests_on = "structure.steel.least",
                              .mend = "give this face more steel",
                              .working = cw_arena_print(d->arena, "Bending: %s", section->name)});
    check_cover(d, section);
    if (section->crack.has_crack)
        draft_judge(d, (cw_check){.id = "strength.cracks",
                                  .what = section->spacing_in > 0.0
                                              ? "Stress of the steel at service, for cracks"
                                              : cw_arena_print(d->arena, "Stress of the steel at service, for cracks; spacing at most %s",
                                                               draft_words(d, section->crack.spacing_in, CW_DIM_IN)),
                                  .where = from_words(d, section->name, section->crack_from),
                                  .demand = section->crack.steel_psi,
                                  .capacity = section->crack.steel_limit_psi,
                                  .dim = CW_DIM_PSI,
                                  .clause = "AASHTO LRFD 5.6.7 (from memory, not verified)",
                                  .rests_on = "structure.steel.service",
                                  .mend = "give this face more steel",
                                  .working = cw_arena_print(d->arena, "Bending: %s", section->name)});
    if (section->crack.has_crack && section->spacing_in > 0.0)
        draft_judge(d, (cw_check){.id = "strength.spacing",
                                  .what = "Spacing of the steel, for cracks",
                                  .where = from_words(d, section->name, section->crack_from),
                                  .demand = section->spacing_in,
                                  .capacity = section->crack.spacing_in,
                                  .dim = CW_DIM_IN,
                                  .clause = "AASHTO LRFD 5.6.7 (from memory, not verified)",
                                  .rests_on = "structure.steel.ratio",
                                  .mend = "the same steel in thinner bars, closer",
                                  .working = cw_arena_print(d->arena, "Bending: %s", section->name)});
}

static void check_shear(draft *d, const cw_plan_shear *shear)
{
    cw_check *row = draft_add(d, (cw_check){.id = "strength.shear",
                                            .what = shear->has_steel ? "Shear without stirrups"
                                                                     : "Shear without stirrups, with the steel that bending needs",
                                            .where = from_words(d, shear->name, shear->from),
                                            .has_numbers = true,
                                            .demand = shear->shear_lb,
                                            .capacity = shear->shear.capacity_lb,
                                            .dim = CW_DIM_LB_PER_FT,
                                            .clause = "AASHTO LRFD 5.12.7.3 and 5.7.3.3 (from memory, not verified)",
                                            .rests_on = "structure.factor.strength.live",
                                            .mend = "a thicker member, stronger concrete, or stirrups designed for it",
                                            .working = cw_arena_print(d->arena, "Shear: %s", shear->name)});
    cw_check_judge(row);
    if (row->verdict == CW_HOLDS && shear->shear.verdict == CW_UNDECIDED) {
        row->verdict = CW_UNDECIDED;
        row->mend = "16 in and thicker without stirrups: the general rule needs the size effect, have it designed";
    }
    if (row->verdict == CW_HOLDS)
        row->mend = "";
}

/* ---- seat, joints between pieces, ground ---- */

static void check_contact(draft *d, cw_check check, bool given, double psi, const char *missing)
{
    check.clause = "AASHTO LRFD 5.6.5 (from memory, not verified)";
    check.rests_on = "structure.factor.strength.live";
    check.working = "Lid on its seat and key";
    if (!given) {
        check.verdict = CW_UNDECIDED;
        check.mend = missing;
        draft_add(d, check);
        return;
    }
    check.demand = psi;
    check.capacity = d->plan.strength.seat_limit_psi;
    check.dim = CW_DIM_PSI;
    draft_judge(d, check);
}

static void check_seat(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    const cw_job_strength *given = &d->job->strength;
    if (d->job->box.form != CW_FORM_LID)
        return;
    check_contact(d, (cw_check){.id = "strength.seat", .what = "Lid on its seat: bearing stress", .mend = "a wider seat"},
                  given->has_seat, s->seat_psi, "state strength.seat: the width on which the lid bears after tolerances");
    if (s->key_lb > 0.0)
        check_contact(d,
                      (cw_check){.id = "strength.key",
                                 .what = "Key of the lid against the wall tops: bearing stress of the thrust that props them",
                                 .mend = "a higher face of the key, or a key filled with mortar"},
                      given->has_key, s->key_psi,
                      cw_arena_print(d->arena, "state strength.key: the face must pass on %s", draft_words(d, s->key_lb, CW_DIM_LB_PER_FT)));
}

/* Under thin cover a wheel beside a joint stands on one slab alone. */
static void check_joint_slab(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    const cw_job_box *box = &d->job->box;
    if (!d->job->strength.design_traffic || s->cover_ft[0] >= cw_rows_value(&d->job->rows, "structure.thin_cover"))
        return;
    double shortest_in = CW_ANY_HIGH;
    const cw_order_row row = box->form == CW_FORM_RING ? CW_ORDER_BASE : CW_ORDER_TOP;
    for (int i = 0; i < d->plan.type_count; i++)
        if (d->plan.types[i].row == row)
            shortest_in = fmin(shortest_in, d->plan.types[i].shape.length_in);
    const double slender = box->span_in / box->top_in;
    const bool holds = slender <= JOINT_SLENDER_MOST && shortest_in >= JOINT_LENGTH_LEAST_IN;
    draft_add(d, (cw_check){.id = "strength.joint-slab",
                            .what = cw_arena_print(d->arena, "Joints under thin cover need no shear connection: span over thickness %s, shortest piece %s",
                                                   cw_decimal(d->arena, slender, 1), draft_words(d, shortest_in, CW_DIM_IN)),
                            .where = cw_arena_print(d->arena, "cover %s", draft_words(d, s->cover_ft[0], CW_DIM_FT)),
                            .clause = "AASHTO LRFD 4.6.2.10.4: at most 18, and 4 ft (from memory, not verified)",
                            .verdict = holds ? CW_HOLDS : CW_UNDECIDED,
                            .mend = holds ? "" : "edge beams, joint shear connection or a thicker top: ask the precaster's engineer"});
}

static void check_bearing(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    const char *springs = cw_arena_print(d->arena, "on springs the floor presses %s under the walls",
                                         draft_words(d, s->bearing_spring_psf, CW_DIM_PSF));
    cw_check check = {.id = "strength.bearing",
                      .what = "Pressure under the floor, straight-line reaction, all loads at service",
                      .where = springs,
                      .clause = "job file: strength.bearing",
                      .working = "Bearing, settlement and sliding",
                      .mend = cw_arena_print(d->arena, "state strength.bearing: the foundation must bear %s",
                                             draft_words(d, s->bearing_even_psf, CW_DIM_PSF))};
    if (d->job->strength.has_bearing) {
        check.demand = s->bearing_even_psf;
        check.capacity = d->job->strength.bearing_psf;
        check.dim = CW_DIM_PSF;
        check.mend = "undercut and replace, or a wider floor";
        draft_judge(d, check);
    } else {
        check.verdict = CW_UNDECIDED;
        draft_add(d, check);
    }
    if (s->bearing.has_slide)
        draft_judge(d, (cw_check){.id = "strength.slide",
                                  .what = "A piece stays where it is set on the slope",
                                  .where = cw_arena_print(d->arena, "grade %s", draft_words(d, fabs(d->job->run.slope), CW_DIM_SLOPE)),
                                  .demand = s->bearing.slide,
                                  .capacity = cw_rows_value(&d->job->rows, "structure.safety.slide"),
                                  .at_least = true,
                                  .dim = CW_DIM_NONE,
                                  .clause = draft_source(d, "structure.safety.slide"),
                                  .rests_on = draft_rest(d, "strength.friction", "structure.friction"),
                                  .mend = "hold the first pieces by a cutoff wall or blocks",
                                  .working = "Bearing, settlement and sliding"});
}

static void check_finished(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    if (s->cover_count == 0 || s->status != CW_STRUCT_OK) {
        draft_add(d, (cw_check){.id = "strength.frame",
                                .what = "The box carries its loads",
                                .clause = review,
                                .verdict = CW_UNDECIDED,
                                .mend = s->cover_count == 0
                                            ? "no cover is known: give a road, or strength.cover_least and cover_most, not below 0"
                                            : cw_struct_status_words(s->status)});
        return;
    }
    for (int i = 0; i < s->section_count; i++) {
        check_bending(d, &s->sections[i]);
        check_steel(d, &s->sections[i]);
    }
    for (int i = 0; i < CW_PLAN_SHEARS; i++)
        check_shear(d, &s->shears[i]);
    check_seat(d);
    check_joint_slab(d);
    check_bearing(d);
}

/* ---- stages ---- */

static void check_open(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    if (d->job->box.form == CW_FORM_RING)
        return;
    draft_add(d, (cw_check){.id = "stage.open-base",
                            .what = s->has_open
                                        ? cw_arena_print(d->arena, "Earth against a base without its top: %s above the floor at most",
                                                         draft_words(d, s->open.limit_ft, CW_DIM_FT))
                                        : "No earth against a base without its top",
                            .where = "the setting order puts every top on before backfill",
                            .clause = s->has_open ? "job file: strength.wall_moment" : "common practice",
                            .verdict = CW_HOLDS,
                            .mend = "",
                            .working = s->has_open ? "Earth against a base without its top" : NULL});
}

static const char *fill_limit_words(int governs)
{
    static const char *const limits[] = {"the wall", "sliding", "floating", "the top of the wall"};
    return limits[governs];
}

static void check_fill(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    if (!s->has_fill)
        return;
    const char *working = "First placement of fill between barrels";
    const char *first = cw_arena_print(d->arena, "first placement at most %s above the floor: %s governs",
                                       draft_words(d, s->first_fill.lift_ft, CW_DIM_FT), fill_limit_words(s->first_fill.governs));
    cw_check check = {.id = "fill.placement-height",
                      .what = "Placements of the fill between barrels are as many as its limits ask",
                      .where = first,
                      .demand = d->job->fill.placements,
                      .capacity = s->lifts_needed,
                      .at_least = true,
                      .dim = CW_DIM_COUNT,
                      .clause = "least of wall, sliding and floating; the precaster's engineer gives the wall figure",
                      .rests_on = draft_rest(d, "fill_between.unit_weight", "fill.unit_weight"),
                      .mend = "more placements in fill_between.placements, or the fill raised on both sides of a barrel",
                      .working = working};
    if (s->lifts_needed == 0) {
        check.verdict = CW_FAILS;
        check.capacity = check.demand = 0.0;
        check.what = "The fill between barrels can be placed";
        check.mend = "no placement of useful height is safe: brace the walls or use granular fill";
        draft_add(d, check);
        return;
    }
    cw_check *row = draft_add(d, check);
    row->has_numbers = true;
    cw_check_judge(row);
    if (row->verdict == CW_HOLDS && s->first_fill.verdict == CW_UNDECIDED) {
        row->verdict = CW_UNDECIDED;
        row->mend = "get the engineer's figure for strength.wall_moment: only sliding and floating are counted";
    } else if (row->verdict == CW_HOLDS && d->job->box.form == CW_FORM_DOUBLE_U) {
        row->verdict = CW_UNDECIDED;
        row->mend = "above the joint the fill presses on the hood: ask the precaster's engineer for that part";
    }
    if (row->verdict == CW_HOLDS)
        row->mend = "";
}

static void check_crossing(draft *d, const cw_plan_crossing *crossing)
{
    const char *working = cw_arena_print(d->arena, "Crossing: %s", crossing->given->name);
    cw_check check = {.id = "stage.crossing",
                      .what = "Compacted cover when a machine crosses the box",
                      .where = crossing->by_steel
                                   ? cw_arena_print(d->arena, "%s, against the steel of the top", crossing->given->name)
                                   : cw_arena_print(d->arena, "%s, against the design traffic at cover %s", crossing->given->name,
                                                    draft_words(d, crossing->design_cover_ft, CW_DIM_FT)),
                      .demand = crossing->cover_ft,
                      .capacity = crossing->cross.needed_ft,
                      .at_least = true,
                      .dim = CW_DIM_FT,
                      .clause = "simple span; AASHTO LRFD 3.6.1.2.6 and 3.4.2 (from memory, not verified)",
                      .rests_on = "structure.factor.building.live",
                      .mend = "more compacted fill before it crosses, mats, or a lighter machine",
                      .working = working};
    if (!crossing->cross.found) {
        check.verdict = CW_FAILS;
        check.mend = "no cover within 20 ft is enough: another way, or a bridge over the box";
        draft_add(d, check);
        return;
    }
    draft_judge(d, check);
}

static void check_crossings(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    for (int v = 0; v < d->job->strength.vehicle_count; v++) {
        const cw_job_vehicle *vehicle = &d->job->strength.vehicles[v];
        const cw_plan_crossing *found = NULL;
        for (int i = 0; i < s->crossing_count; i++)
            if (s->crossings[i].given == vehicle)
                found = &s->crossings[i];
        if (found)
            check_crossing(d, found);
        else if (vehicle->use == CW_VEHICLE_CROSSING)
            draft_add(d, (cw_check){.id = "stage.crossing",
                                    .what = "Compacted cover when a machine crosses the box",
                                    .where = vehicle->name,
                                    .clause = review,
                                    .verdict = CW_UNDECIDED,
                                    .mend = "state the steel of the top, or a cover and design traffic to hold it against"});
    }
}

static void check_handling(draft *d, const cw_plan_handling *handling, const char *word)
{
    if (!handling->type) {
        if (d->job->box.form == CW_FORM_RING)
            return;
        draft_add(d, (cw_check){.id = "stage.hook",
                                .what = "Bending of a piece on the hook",
                                .where = word,
                                .clause = "the precaster's lift drawing",
                                .verdict = CW_UNDECIDED,
                                .mend = "not computed for this piece or these slings: the precaster's lift drawing rules"});
        return;
    }
    const cw_struct_lift *lift = &handling->lift;
    cw_check *row = draft_add(d, (cw_check){.id = "stage.hook",
                                            .what = "Tension in the concrete of a piece on the hook",
                                            .where = handling->sling_deg < 90.0
                                                         ? cw_arena_print(d->arena, "%s %s, slings at %s, pull %s on each side", word,
                                                                          handling->type->mark,
                                                                          draft_words(d, handling->sling_deg, CW_DIM_DEG),
                                                                          draft_words(d, lift->pull_lb, CW_DIM_LB_PER_FT))
                                                         : cw_arena_print(d->arena, "%s %s, spreader, slings plumb", word, handling->type->mark),
                                            .has_numbers = true,
                                            .demand = fmax(lift->stress_psi, lift->wall_stress_psi),
                                            .capacity = lift->limit_psi,
                                            .dim = CW_DIM_PSI,
                                            .clause = draft_source(d, "structure.handling.tension"),
                                            .rests_on = "structure.handling.dynamic",
                                            .mend = "a spreader (lifting.spreader), a higher hook or stronger concrete; else the precaster shows that the steel carries it",
                                            .working = cw_arena_print(d->arena, "Bending of mark %s on the hook", handling->type->mark)});
    cw_check_judge(row);
    // Past the limit the concrete cracks and its steel, which the precaster knows, must carry it.
    if (row->verdict == CW_FAILS)
        row->verdict = CW_UNDECIDED;
    else
        row->mend = "";
}

void draft_check_strength(draft *d)
{
    const cw_plan_strength *s = &d->plan.strength;
    check_fill(d);
    if (!s->present)
        return;
    check_edition(d);
    check_range(d);
    check_finished(d);
    check_open(d);
    check_crossings(d);
    check_handling(d, &s->base_lift, draft_word(d->job, CW_ORDER_BASE));
    check_handling(d, &s->top_lift, draft_word(d->job, CW_ORDER_TOP));
}
