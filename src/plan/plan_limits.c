/* What must hold at a step of the order before it is signed, with the numbers of this job. */
#include "plan_internal.h"

#include "cw/text.h"
#include "cw/units.h"

static const char *in_of_row(const draft *d, const char *id, double otherwise)
{
    return draft_words(d, draft_row_value(d, id, otherwise), CW_DIM_IN);
}

static const char *subgrade_limit(const draft *d)
{
    return cw_arena_print(d->arena,
                          "cut released by the competent person for the shift; levels of the grade "
                          "sheet within %s; soft ground dug out, "
                          "measured and filled with bedding stone",
                          in_of_row(d, "joint.grade_tolerance", 0.5));
}

static const char *bedding_limit(const draft *d)
{
    return cw_arena_print(
        d->arena, "levels of the grade sheet within %s, screeded, not frozen, no standing water",
        in_of_row(d, "joint.grade_tolerance", 0.5));
}

static const char *joint_limit(const draft *d)
{
    const cw_job_joint *joint = &d->job->joint;
    return cw_arena_print(
        d->arena,
        "gap %s to %s, left and right within %s, lip %s; over: lift out, clean, new sealant, set "
        "again; still over: "
        "stop and ask the engineer; ",
        draft_words(d, joint->gap_min_in, CW_DIM_IN), draft_words(d, joint->gap_max_in, CW_DIM_IN),
        in_of_row(d, "joint.gap_side_difference", 0.25), in_of_row(d, "joint.lip", 0.5));
}

static const char *line_limit(const draft *d)
{
    return cw_arena_print(d->arena, "line within %s, grade within %s",
                          in_of_row(d, "joint.line_tolerance", 1.0),
                          in_of_row(d, "joint.grade_tolerance", 0.5));
}

/* The first piece of a row has no joint yet; bases carry the limits of the tape. */
static const char *release_limit(const draft *d, int piece, const char *line)
{
    const cw_plan_piece *set = &d->plan.pieces[piece];
    const cw_plan_barrel *barrel = &d->plan.barrels[set->barrel];
    const char *joint = set->index > 0 ? d->joint_limit : "";
    if (set->row != CW_ORDER_BASE || set->index + 1 >= barrel->base_count)
        return cw_arena_print(d->arena, "%s%s", joint, line);
    const cw_plan_tape *tape = &d->plan.grade.tape[set->barrel][set->index];
    return cw_arena_print(d->arena, "%s%s; tape from the outlet %s to %s, else order a closure",
                          joint, line, draft_words(d, tape->least_ft, CW_DIM_FT),
                          draft_words(d, tape->most_ft, CW_DIM_FT));
}

static const char *sealant_limit(const draft *d)
{
    const cw_plan_closing *closing = &d->plan.closing;
    const cw_job_sealant *given = &d->job->sealant;
    const char *size = !closing->has_rope ? "section as accepted"
                       : closing->rope.state == CW_ROPE_FITS
                           ? cw_arena_print(d->arena, "section %s high",
                                            draft_words(d, closing->rope.size_in, CW_DIM_IN))
                           : "NO SECTION FITS: see the ledger";
    return cw_arena_print(d->arena,
                          "%s, %d row%s, all round; faces clean and dry, %s or warmer; new sealant "
                          "whenever a piece was lifted again",
                          size, given->rows, given->rows == 1 ? "" : "s",
                          draft_words(d, given->temperature_min_f, CW_DIM_DEGF));
}

static const char *wall_limit(const draft *d, int piece)
{
    const cw_plan_piece *top = &d->plan.pieces[piece];
    const double over_ft = draft_base_leg_in(d->job) * d->plan.slope_factor / CW_IN_PER_FT;
    const double down_ft = top->invert_start_ft, up_ft = top->invert_end_ft;
    return cw_arena_print(d->arena,
                          "wall tops at %s downstream and %s upstream, left and right, within %s; "
                          "read and logged like the invert",
                          draft_words(d, down_ft + over_ft, CW_DIM_ELEV_FT),
                          draft_words(d, up_ft + over_ft, CW_DIM_ELEV_FT),
                          in_of_row(d, "joint.grade_tolerance", 0.5));
}

static const char *cure_limit(const draft *d)
{
    const cw_plan_closing *closing = &d->plan.closing;
    const char *strength = draft_words(d, d->job->fill.strength_psi, CW_DIM_PSI);
    if (!closing->has_strength)
        return cw_arena_print(
            d->arena, "%s, shown by cylinders: no curve, so no strength is estimated", strength);
    return cw_arena_print(d->arena,
                          "%s: by the forecast %s after the last placement, equivalent age %s; the "
                          "sensor or cylinders rule",
                          strength, draft_words(d, closing->release_h, CW_DIM_HOUR),
                          draft_words(d, closing->strength.needed, CW_DIM_HOUR));
}

static const char *lift_limit(const draft *d, int lift)
{
    const cw_plan_closing *closing = &d->plan.closing;
    const int apart = closing->lifts_apart > 0 ? closing->lifts_apart : 1;
    const double top_in =
        lift + 1 < closing->lifts ? (lift + 1) * closing->compacted_in : closing->height_in;
    return cw_arena_print(d->arena,
                          "top %s over the underside, at most %d lift%s over the other side",
                          draft_words(d, top_in, CW_DIM_IN), apart, apart == 1 ? "" : "s");
}

static const char *site_limit(const draft *d)
{
    const char *near = draft_locate_names(d);
    return near[0] ? cw_arena_print(d->arena, "%s located and supported before a machine digs within the tolerance zone", near) : "";
}

static const char *fill_limit(const draft *d, int placement)
{
    static const char always[] = "tops on and wrapped on both sides";
    const cw_plan_strength *strength = &d->plan.strength;
    if (placement >= strength->lift_count)
        return cw_arena_print(d->arena, "%s; no higher than the ledger's row fill.placement-height allows", always);
    return cw_arena_print(d->arena, "%s; to %s above the floor at most", always,
                          draft_words(d, strength->lifts[placement].to_ft, CW_DIM_FT));
}

/* Of the job, and of each machine that is named. */
static const char *cover_limit(const draft *d)
{
    const cw_plan_strength *strength = &d->plan.strength;
    cw_text text = cw_text_on(d->arena);
    cw_text_print(&text, "%s compacted over the top, measured",
                  draft_words(d, d->job->order.cover_before_equipment_ft, CW_DIM_FT));
    for (int i = 0; i < strength->crossing_count; i++) {
        const cw_plan_crossing *crossing = &strength->crossings[i];
        if (crossing->cross.found)
            cw_text_print(&text, "; %s wants %s", crossing->given->name, draft_words(d, crossing->cross.needed_ft, CW_DIM_FT));
        else
            cw_text_print(&text, "; %s never crosses", crossing->given->name);
    }
    return cw_text_string(&text);
}

/* Words of a kind of step that are the same for all of them. */
static const char *shared_limit(const draft *d, cw_step_kind kind)
{
    switch (kind) {
    case CW_STEP_SUBGRADE:
        return subgrade_limit(d);
    case CW_STEP_BEDDING:
        return bedding_limit(d);
    case CW_STEP_RELEASED:
        return line_limit(d);
    case CW_STEP_JOINT_SEALANT:
    case CW_STEP_SEAT_SEALANT:
        return sealant_limit(d);
    case CW_STEP_SITE_CLEARED:
        return site_limit(d);
    case CW_STEP_FILL_CURED:
        return cure_limit(d);
    case CW_STEP_COVER:
        return cover_limit(d);
    default:
        return "";
    }
}

const char *draft_step_limit(draft *d, const cw_step *step, int piece)
{
    if (!d->joint_limit)
        d->joint_limit = joint_limit(d);
    if (!d->limits[step->kind])
        d->limits[step->kind] = shared_limit(d, step->kind);
    switch (step->kind) {
    case CW_STEP_RELEASED:
        return release_limit(d, piece, d->limits[step->kind]);
    case CW_STEP_WALLS_LEVELLED:
        return wall_limit(d, piece);
    case CW_STEP_FILL:
        return fill_limit(d, step->part);
    case CW_STEP_BACKFILL:
        return lift_limit(d, step->part);
    default:
        return d->limits[step->kind];
    }
}
