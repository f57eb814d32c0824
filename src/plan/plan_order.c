/* The setting order, with its words, and the trucks that bring the pieces in that order. */
#include "plan_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

/* Only bases are given their phase: a top belongs to the phase in which the bases that it needs are there. */
static cw_order_line line_of(draft *d, cw_order_row row, const int *indices, int count)
{
    double *start_ft = CW_TAKE(d->arena, double, count);
    double *end_ft = CW_TAKE(d->arena, double, count);
    int *phase = CW_TAKE(d->arena, int, count);
    for (int i = 0; i < count; i++) {
        const cw_plan_piece *piece = &d->plan.pieces[indices[i]];
        start_ft[i] = piece->start_in / CW_IN_PER_FT;
        end_ft[i] = (piece->start_in + piece->length_in) / CW_IN_PER_FT;
        phase[i] = draft_phase_of(d, piece);
    }
    return (cw_order_line){start_ft, end_ft, row == CW_ORDER_BASE ? phase : NULL, count};
}

/* Backfill beside the box holds it only by what lies on its top: an empty closed box that floats at the water that may come
 * needs its cover; one that does not may lose the pumps after the first lift. */
static int hold_down_lifts(const draft *d)
{
    const cw_plan_site_water *site = &d->plan.site_water;
    if (!site->present || site->closed.first == CW_FLOAT_NEVER || site->groundwater_ft <= site->closed.safe_ft)
        return 1;
    return d->plan.closing.lifts + 1;
}

static cw_order_run order_run_of(draft *d)
{
    const cw_job *job = d->job;
    cw_order_run run = cw_order_usual();
    cw_order_barrel *barrels = CW_TAKE(d->arena, cw_order_barrel, d->plan.barrel_count);
    for (int b = 0; b < d->plan.barrel_count; b++) {
        const cw_plan_barrel *barrel = &d->plan.barrels[b];
        barrels[b].base = line_of(d, CW_ORDER_BASE, barrel->bases, barrel->base_count);
        barrels[b].top = line_of(d, CW_ORDER_TOP, barrel->tops, barrel->top_count);
    }
    run.barrels = barrels;
    run.barrel_count = d->plan.barrel_count;
    run.rows = job->box.form == CW_FORM_RING ? 1 : 2;
    run.lead_limit = job->order.ahead;
    run.mode = job->order.barrels == 0 ? CW_BARRELS_TOGETHER : CW_BARRELS_IN_TURN;
    run.first_barrel = job->order.first_barrel - 1;
    run.barrel_lead = run.barrel_lag = job->order.spread;
    run.fill_between = job->barrels.count > 1 && job->fill.kind != 2 && job->barrels.clear_gap_in > 0.0;
    run.fill_segments = 1;
    run.fill_placements = job->fill.placements;
    run.cure_before_backfill = true;
    run.backfill_reaches = 1;
    run.backfill_lifts = d->plan.closing.lifts;
    run.water = job->site_water.present;
    run.hold_down_lifts = hold_down_lifts(d);
    run.lift_difference_max = d->plan.closing.lifts_apart > 0 ? d->plan.closing.lifts_apart : 1;
    return run;
}

/* ---- words ---- */

static const char *verb_of(cw_step_kind kind)
{
    static const char *const verbs[CW_STEP_KINDS] = {
        [CW_STEP_PLAN_ACCEPTED] = "accept",   [CW_STEP_MEETING] = "meet",
        [CW_STEP_SITE_CLEARED] = "clear",     [CW_STEP_DIVERTED] = "divert",
        [CW_STEP_PUMPS_OFF] = "pumps-off",    [CW_STEP_SUBGRADE] = "subgrade",
        [CW_STEP_BEDDING] = "bed",            [CW_STEP_RECEIVED] = "receive",
        [CW_STEP_JOINT_SEALANT] = "seal",     [CW_STEP_WALLS_LEVELLED] = "level",
        [CW_STEP_SEAT_SEALANT] = "seat",      [CW_STEP_SET] = "set",
        [CW_STEP_RELEASED] = "release",       [CW_STEP_WRAPPED] = "wrap",
        [CW_STEP_GAP_READY] = "bulkhead",     [CW_STEP_FILL] = "fill",
        [CW_STEP_FILL_SET] = "fill-set",      [CW_STEP_FILL_CURED] = "cure",
        [CW_STEP_BACKFILL] = "backfill",      [CW_STEP_COVER] = "cover",
        [CW_STEP_WALK_THROUGH] = "walk",      [CW_STEP_PHASE_OPEN] = "open",
        [CW_STEP_CLOSEOUT] = "close",
    };
    return verbs[kind];
}

static int piece_of(const draft *d, const cw_step *step)
{
    switch (step->kind) {
    case CW_STEP_BEDDING:
    case CW_STEP_RECEIVED:
    case CW_STEP_JOINT_SEALANT:
    case CW_STEP_WALLS_LEVELLED:
    case CW_STEP_SEAT_SEALANT:
    case CW_STEP_SET:
    case CW_STEP_RELEASED:
    case CW_STEP_WRAPPED:
        break;
    default:
        return -1;
    }
    const cw_plan_barrel *barrel = &d->plan.barrels[step->barrel];
    return step->row == CW_ORDER_BASE ? barrel->bases[step->index] : barrel->tops[step->index];
}

/* What the step is about: "1-B03", "gap 1, placement 2", "left, lift 3". */
static const char *object_of(const draft *d, const cw_step *step, int piece)
{
    cw_text text = cw_text_on(d->arena);
    if (piece >= 0)
        return d->plan.pieces[piece].slot;
    if (step->kind == CW_STEP_GAP_READY || step->kind == CW_STEP_FILL || step->kind == CW_STEP_FILL_SET ||
        step->kind == CW_STEP_FILL_CURED)
        cw_text_print(&text, "gap %d-%d", step->barrel + 1, step->barrel + 2);
    else if (step->barrel >= 0)
        cw_text_print(&text, "barrel %d", step->barrel + 1);
    if (step->side != CW_SIDE_NONE)
        cw_text_print(&text, "%s%s", text.length ? " " : "", step->side == CW_SIDE_LEFT ? "left" : "right");
    if (step->part >= 0)
        cw_text_print(&text, "%s%s %d", text.length ? " " : "", step->kind == CW_STEP_BACKFILL ? "lift" : "placement",
                      step->part + 1);
    if (d->job->phase_count > 0 && step->kind != CW_STEP_PLAN_ACCEPTED && step->kind != CW_STEP_MEETING &&
        step->kind != CW_STEP_SITE_CLEARED && step->kind != CW_STEP_CLOSEOUT)
        cw_text_print(&text, "%sphase %d", text.length ? " " : "", step->phase + 1);
    return cw_text_string(&text);
}

static cw_plan_step step_of(draft *d, int number)
{
    const cw_step *step = &d->plan.order->steps[number];
    cw_plan_step words = {.step = number, .piece = piece_of(d, step)};
    const char *object = object_of(d, step, words.piece);
    const char *space = object[0] ? " " : "";
    // Bases and tops both come in and are released: the slot tells them apart.
    words.id = cw_arena_print(d->arena, "%s%s%s", verb_of(step->kind), space, object);
    words.text = cw_arena_print(d->arena, "%s%s%s", cw_step_words(step, d->plan.order->rows), object[0] ? ": " : "",
                                object);
    words.limit = draft_step_limit(d, step, words.piece);
    if (step->kind == CW_STEP_SET)
        words.text = cw_arena_print(d->arena, "%s, mark %s", words.text,
                                    d->plan.types[d->plan.pieces[words.piece].type].mark);
    return words;
}

static void number_pieces(draft *d)
{
    cw_plan *plan = &d->plan;
    int *setting = CW_TAKE(d->arena, int, plan->piece_count);
    double *weights_lb = CW_TAKE(d->arena, double, plan->piece_count);
    int *loads = CW_TAKE(d->arena, int, plan->piece_count);
    cw_plan_piece *pieces = cw_arena_grow(d->arena, plan->pieces, (size_t)plan->piece_count,
                                          (size_t)plan->piece_count, sizeof *pieces);
    int turn = 0;
    for (int i = 0; i < plan->step_count; i++) {
        if (plan->order->steps[plan->steps[i].step].kind != CW_STEP_SET)
            continue;
        const int piece = plan->steps[i].piece;
        weights_lb[turn] = plan->types[pieces[piece].type].weight.weight_lb;
        setting[turn] = piece;
        pieces[piece].turn = ++turn;
    }
    const cw_row *slots = draft_row(d, "haul.slots");
    plan->trucks = cw_takeoff_trucks(weights_lb, turn, d->job->pieces.payload_lb, slots ? (int)slots->value : 3, loads);
    for (int i = 0; i < turn; i++)
        pieces[setting[i]].load = loads[i] + 1;
    plan->setting = setting;
    plan->pieces = pieces;
}

void draft_order(draft *d)
{
    cw_plan *plan = &d->plan;
    plan->order_run = order_run_of(d);
    const char *fault = cw_order_fault(&plan->order_run, d->arena);
    cw_check *check = cw_check_add(d->checks, (cw_check){.id = "order.found",
                                                         .what = "A legal setting order exists",
                                                         .where = "",
                                                         .clause = "rules of the setting order, common practice",
                                                         .rests_on = "order.ahead",
                                                         .mend = ""});
    if (fault) {
        check->verdict = CW_FAILS;
        check->mend = fault;
        return;
    }
    plan->order = cw_order_build(&plan->order_run, d->arena);
    cw_plan_step *steps = CW_TAKE(d->arena, cw_plan_step, plan->order->step_count);
    for (int i = 0; i < plan->order->step_count; i++)
        steps[i] = step_of(d, plan->order->sequence[i]);
    plan->steps = steps;
    plan->step_count = plan->order->step_count;
    number_pieces(d);
}
