/* From the division to pieces, marks, weights, joints and cover. */
#include "plan_internal.h"

#include <math.h>
#include <string.h>

#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

enum { TYPES_MAX = 400 };

/* ---- the span as laid ---- */

bool draft_outlet_held(const cw_job *job)
{
    return job->bend_count > 0 || job->phase_count > 0 || job->opening_count > 0;
}

static double share_to_outlet(const cw_job *job)
{
    if (draft_outlet_held(job))
        return 0.0;
    switch (job->run.excess) {
    case CW_EXCESS_OUTLET:
        return 1.0;
    case CW_EXCESS_SHARED:
        return 0.5;
    default:
        return 0.0;
    }
}

static cw_run_end end_laid(const draft *d, cw_run_which which, double distance_ft)
{
    const cw_run_under under = {.road = &d->plan.road,
                                .ground = d->plan.ground.count > 1 ? &d->plan.ground : NULL,
                                .path = &d->plan.path,
                                .invert_ft = d->job->run.invert_ft,
                                .slope = d->job->run.slope,
                                .width_ft = d->plan.width_ft,
                                .cut = d->plan.span.cut,
                                .fill_ft = 0.0};
    if (!d->plan.has_surface) {
        const double chain_ft = which == CW_RUN_OUTLET ? -distance_ft : distance_ft;
        return (cw_run_end){.distance_ft = distance_ft, .invert_ft = under.invert_ft + under.slope * chain_ft};
    }
    return cw_run_end_at(&under, which, distance_ft);
}

static void finish_end(draft *d, cw_plan_end *end, const cw_job_end *given, cw_run_which which)
{
    const cw_job *job = d->job;
    const double chain_ft = which == CW_RUN_OUTLET ? d->plan.span.outlet_chain_ft : d->plan.span.inlet_chain_ft;
    end->laid = end_laid(d, which, which == CW_RUN_OUTLET ? -chain_ft : chain_ft);
    end->has_fill = d->plan.has_surface;
    end->box_top_ft = (job->box.rise_in + job->box.top_in) * d->plan.slope_factor / CW_IN_PER_FT;
    end->wall_top_ft = end->box_top_ft;
    if (given->treatment != CW_END_HEADWALL)
        return;
    end->has_headwall = true;
    end->wall_top_ft += given->parapet_in / CW_IN_PER_FT;
    const cw_run_headwall wall = {.width_ft = d->plan.width_ft,
                                  .skew_deg = cw_run_path_at(&d->plan.path, chain_ft).skew_deg,
                                  .cut = d->plan.span.cut,
                                  .overhang_in = given->overhang_in,
                                  .rise_in = job->box.rise_in,
                                  .top_in = job->box.top_in,
                                  .parapet_in = given->parapet_in,
                                  .thickness_in = given->thickness_in,
                                  .span_in = job->box.span_in,
                                  .openings = job->barrels.count};
    end->headwall = cw_run_headwall_size(
        &wall, draft_working(d, which == CW_RUN_OUTLET ? "Outlet headwall" : "Inlet headwall"));
}

static void lay_span(draft *d, cw_plan_barrel *barrels)
{
    cw_plan *plan = &d->plan;
    double excess_ft = -CW_ANY_HIGH;
    for (int b = 0; b < plan->barrel_count; b++) {
        barrels[b].laid_in = plan->layout.best[0].barrels[b].end_16 / CW_SIXTEENTHS_PER_IN;
        barrels[b].gap_in = plan->layout.best[0].barrels[b].gap_16 / CW_SIXTEENTHS_PER_IN;
        excess_ft = fmax(excess_ft, (barrels[b].laid_in - barrels[b].wanted_in) / CW_IN_PER_FT / plan->slope_factor);
    }
    const double outlet_share = share_to_outlet(d->job);
    plan->span = plan->wanted_span;
    plan->span.outlet_chain_ft -= outlet_share * excess_ft;
    plan->span.inlet_chain_ft += (1.0 - outlet_share) * excess_ft;
    for (int b = 0; b < plan->barrel_count; b++) {
        barrels[b].line = cw_run_line_of(&plan->path, plan->span, barrels[b].offset_ft);
        barrels[b].grade.outlet_invert_ft = d->job->run.invert_ft + d->job->run.slope * plan->span.outlet_chain_ft;
        plan->pay_length_ft += floor(barrels[b].laid_in / CW_IN_PER_FT / plan->slope_factor + 0.5);
    }
    plan->plan_length_ft = plan->span.inlet_chain_ft - plan->span.outlet_chain_ft;
    plan->slope_length_ft = plan->plan_length_ft * plan->slope_factor;
    finish_end(d, &plan->outlet, &d->job->run.outlet, CW_RUN_OUTLET);
    finish_end(d, &plan->inlet, &d->job->run.inlet, CW_RUN_INLET);
}

/* ---- pieces ---- */

typedef struct piece_place {
    int barrel, index, count, item;
    cw_order_row row;
    double start_in;
} piece_place;

int draft_bend_joint(const draft *d, int barrel, cw_order_row row, int vertex)
{
    const cw_layout_barrel_answer *answer = &d->plan.layout.best[0].barrels[barrel];
    const cw_layout_cut *cut = row == CW_ORDER_BASE ? &answer->base : &answer->top;
    const int at_16 = d->must_bend_phase[barrel][vertex - 1].at_16;
    int nearest = -1;
    double least_16 = CW_ANY_HIGH;
    for (int i = 0; i + 1 < cut->count; i++) {
        const double away_16 = fabs(cut->start_16[i + 1] - answer->gap_16 / 2.0 - at_16);
        if (away_16 < least_16) {
            least_16 = away_16;
            nearest = i;
        }
    }
    return nearest;
}

/* Half the turn taken at the joint past piece @p joint of the row, 0 when it is square.  The window of a bend may be wide
 * enough for several joints: the nearest one turns. */
static double mitre_at(const draft *d, int barrel, cw_order_row row, int joint)
{
    const cw_run_line *line = &d->plan.barrels[barrel].line;
    double turn_deg = 0.0;
    for (int v = 1; v + 1 < line->count; v++)
        if (draft_bend_joint(d, barrel, row, v) == joint)
            turn_deg += line->points[v].turned_deg - line->points[v - 1].turned_deg;
    return turn_deg / 2.0;
}

/* Skew of an end face in the axes of a piece: right side farther upstream is positive. */
static double face_skew_deg(const draft *d, double chain_ft)
{
    if (d->plan.span.cut == CW_RUN_CUT_SQUARE || !d->job->road.present)
        return 0.0;
    const double skew_deg = cw_run_path_at(&d->plan.path, chain_ft).skew_deg;
    return d->plan.path.frame.inlet == CW_RUN_INLET_RIGHT ? -skew_deg : skew_deg;
}

/* NULL, or what is wrong with the shape. */
static const char *shape_fault(const draft *d, const cw_piece_shape *shape)
{
    cw_diags diags = cw_diags_on(d->arena);
    if (cw_piece_shape_valid(shape, (cw_pos){0}, &diags))
        return NULL;
    cw_text text = cw_text_on(d->arena);
    for (int i = 0; i < diags.count; i++)
        cw_text_print(&text, "%s%s", i > 0 ? "; " : "", diags.items[i].message);
    return cw_text_string(&text);
}

static void report_shape(draft *d, const char *where, const char *fault)
{
    cw_check_add(d->checks, (cw_check){.id = "weight.shape",
                                       .what = "The piece can be cast as asked",
                                       .where = where,
                                       .clause = "derived: geometry of the piece",
                                       .verdict = CW_FAILS,
                                       .rests_on = "",
                                       .mend = fault});
}

bool draft_shape_good(draft *d, const cw_piece_shape *shape, const char *where)
{
    const char *fault = shape_fault(d, shape);
    if (fault)
        report_shape(d, where, fault);
    return !fault;
}

static cw_piece_opening opening_of(const cw_job *job, const cw_job_opening *given, double y_in, cw_order_row row)
{
    cw_piece_opening opening = {.face = given->face, .y_in = y_in, .is_round = given->has_diameter};
    if (given->has_diameter)
        opening.diameter_in = given->diameter_in;
    else
        opening.width_in = given->width_in, opening.tall_in = given->tall_in;
    if (given->face == CW_FACE_FLOOR || given->face == CW_FACE_TOP)
        opening.x_in = given->height_in;
    else
        opening.z_in = row == CW_ORDER_BASE ? job->box.floor_in + given->height_in : given->height_in - job->box.leg_in;
    return opening;
}

/* Order along the piece, then by face and place in it, so that alike pieces list their openings alike. */
static bool opening_before(const cw_piece_opening *a, const cw_piece_opening *b)
{
    const double keys[][2] = {{a->y_in, b->y_in},         {a->face, b->face},         {a->z_in, b->z_in},
                              {a->x_in, b->x_in},         {a->is_round, b->is_round}, {a->diameter_in, b->diameter_in},
                              {a->width_in, b->width_in}, {a->tall_in, b->tall_in}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++)
        if (keys[i][0] < keys[i][1] || keys[i][0] > keys[i][1])
            return keys[i][0] < keys[i][1];
    return false;
}

/* The opening joins the piece when the piece can then still be cast; else a row of the ledger says why not. */
static void add_opening(draft *d, cw_piece_shape *shape, cw_piece_opening opening, const char *where)
{
    if (shape->opening_count == CW_PIECE_OPENINGS_MAX) {
        report_shape(d, where,
                     cw_arena_print(d->arena, "a piece takes at most %d openings: allow a shorter length or cast this "
                                              "one in place",
                                    (int)CW_PIECE_OPENINGS_MAX));
        return;
    }
    cw_piece_shape with = *shape;
    int at = with.opening_count++;
    for (; at > 0 && opening_before(&opening, &with.openings[at - 1]); at--)
        with.openings[at] = with.openings[at - 1];
    with.openings[at] = opening;
    if (draft_shape_good(d, &with, where))
        *shape = with;
}

static void cut_openings(draft *d, cw_piece_shape *shape, piece_place place, const char *slot)
{
    for (int i = 0; i < d->job->opening_count; i++) {
        const cw_job_opening *given = &d->job->openings[i];
        if (given->barrel - 1 != place.barrel || !draft_opening_binds(d->job, given, place.row))
            continue;
        // To the sixteenth, so that alike pieces of different barrels get one mark.
        const double y_in = round((given->at_ft * d->plan.slope_factor * CW_IN_PER_FT - place.start_in) *
                                  CW_SIXTEENTHS_PER_IN) / CW_SIXTEENTHS_PER_IN;
        if (y_in > 0.0 && y_in < shape->length_in)
            add_opening(d, shape, opening_of(d->job, given, y_in, place.row),
                        cw_arena_print(d->arena, "%s, %s", slot, draft_opening_name(d, i)));
    }
}

static cw_piece_shape shape_of(draft *d, piece_place place, const char *slot)
{
    const cw_layout_item *items = place.row == CW_ORDER_BASE ? d->base_items : d->top_items;
    const double length_in = (double)items[place.item].length_16 / CW_SIXTEENTHS_PER_IN;
    cw_piece_shape shape = draft_plain_shape(d->job, place.row, length_in);
    const bool first = place.index == 0, last = place.index + 1 == place.count;
    const bool base = place.row == CW_ORDER_BASE;
    shape.downstream.joint = first ? CW_JOINT_PLAIN : base ? CW_JOINT_TONGUE : CW_JOINT_GROOVE;
    shape.upstream.joint = last ? CW_JOINT_PLAIN : base ? CW_JOINT_GROOVE : CW_JOINT_TONGUE;
    if (first)
        shape.downstream.skew_deg = face_skew_deg(d, d->plan.span.outlet_chain_ft);
    else
        shape.downstream.mitre_deg = mitre_at(d, place.barrel, place.row, place.index - 1);
    if (last)
        shape.upstream.skew_deg = face_skew_deg(d, d->plan.span.inlet_chain_ft);
    else
        shape.upstream.mitre_deg = mitre_at(d, place.barrel, place.row, place.index);
    const double extra_lb = d->item_extra_lb[place.row][place.item];
    if (d->item_end[place.row][place.item] == 0)
        shape.extra_downstream_lb = extra_lb;
    else if (d->item_end[place.row][place.item] == 1)
        shape.extra_upstream_lb = extra_lb;
    // A cut too slanted for the piece is shown square, so that the rest of the plan stands.
    if (!draft_shape_good(d, &shape, slot)) {
        shape.downstream.skew_deg = shape.downstream.mitre_deg = 0.0;
        shape.upstream.skew_deg = shape.upstream.mitre_deg = 0.0;
    }
    cut_openings(d, &shape, place, slot);
    return shape;
}

/* ---- marks ---- */

static bool same_number(double a, double b)
{
    return fabs(a - b) < CW_SAME_PLACE_FT;
}

static bool same_end(const cw_piece_end *a, const cw_piece_end *b)
{
    return a->joint == b->joint && same_number(a->skew_deg, b->skew_deg) && same_number(a->mitre_deg, b->mitre_deg);
}

static bool same_opening(const cw_piece_opening *a, const cw_piece_opening *b)
{
    return a->face == b->face && a->is_round == b->is_round && same_number(a->y_in, b->y_in) &&
           same_number(a->z_in, b->z_in) && same_number(a->x_in, b->x_in) &&
           same_number(a->diameter_in, b->diameter_in) && same_number(a->width_in, b->width_in) &&
           same_number(a->tall_in, b->tall_in);
}

/* All shapes of a job share section and joint detail; only these can differ. */
static bool same_shape(const cw_piece_shape *a, const cw_piece_shape *b)
{
    if (a->part != b->part || !same_number(a->length_in, b->length_in) || !same_end(&a->downstream, &b->downstream) ||
        !same_end(&a->upstream, &b->upstream) || a->opening_count != b->opening_count ||
        !same_number(a->extra_downstream_lb, b->extra_downstream_lb) ||
        !same_number(a->extra_upstream_lb, b->extra_upstream_lb))
        return false;
    for (int i = 0; i < a->opening_count; i++)
        if (!same_opening(&a->openings[i], &b->openings[i]))
            return false;
    return true;
}

static const char *length_word(cw_arena *arena, double length_in)
{
    const int feet = (int)floor(length_in / CW_IN_PER_FT);
    const double inches = length_in - feet * CW_IN_PER_FT;
    return inches < CW_SAME_PLACE_FT ? cw_arena_print(arena, "%d", feet)
                                     : cw_arena_print(arena, "%d-%s", feet, cw_decimal(arena, inches, fmod(inches, 1.0) < CW_SAME_PLACE_FT ? 0 : 2));
}

static const char *name_of(const draft *d, const cw_piece_shape *shape, cw_order_row row, const char *end_name)
{
    cw_text text = cw_text_on(d->arena);
    cw_text_print(&text, "%s %s", draft_word(d->job, row), cw_feet_inches(d->arena, shape->length_in, 16));
    if (end_name)
        cw_text_print(&text, ", %s", end_name);
    if (shape->downstream.joint == CW_JOINT_PLAIN)
        cw_text_add(&text, ", plain outlet end");
    if (shape->upstream.joint == CW_JOINT_PLAIN)
        cw_text_add(&text, ", plain inlet end");
    if (!same_number(shape->downstream.skew_deg, 0.0) || !same_number(shape->upstream.skew_deg, 0.0))
        cw_text_add(&text, ", skew cut");
    if (!same_number(shape->downstream.mitre_deg, 0.0))
        cw_text_add(&text, ", mitred downstream");
    if (!same_number(shape->upstream.mitre_deg, 0.0))
        cw_text_add(&text, ", mitred upstream");
    if (shape->opening_count > 0)
        cw_text_print(&text, ", %d opening%s", shape->opening_count, shape->opening_count > 1 ? "s" : "");
    return cw_text_string(&text);
}

/* "B8", and for what differs from the plain inner piece "B8-A", "B8-B" in order of appearance. */
static const char *mark_of(const draft *d, const cw_plan_type *types, int count, const cw_plan_type *type)
{
    const cw_piece_shape *shape = &type->shape;
    const char *stem = cw_arena_print(d->arena, "%c%s", draft_letter(d->job, type->row),
                                      length_word(d->arena, shape->length_in));
    const bool inner = shape->downstream.joint != CW_JOINT_PLAIN && shape->upstream.joint != CW_JOINT_PLAIN &&
                       same_number(shape->downstream.mitre_deg, 0.0) && same_number(shape->upstream.mitre_deg, 0.0) &&
                       shape->opening_count == 0;
    if (inner)
        return stem;
    int variants = 0;
    const size_t length = strlen(stem);
    for (int i = 0; i < count; i++)
        variants += strncmp(types[i].mark, stem, length) == 0 && types[i].mark[length] == '-' &&
                    types[i].row == type->row && same_number(types[i].shape.length_in, shape->length_in);
    if (variants < 26)
        return cw_arena_print(d->arena, "%s-%c", stem, 'A' + variants);
    return cw_arena_print(d->arena, "%s-%c%c", stem, 'A' + variants / 26 - 1, 'A' + variants % 26);
}

static int type_of(draft *d, cw_plan_type *types, int *count, piece_place place, const char *slot)
{
    const char *end_name = d->item_names[place.row][place.item];
    cw_plan_type type = {.row = place.row, .barrel = place.barrel, .shape = shape_of(d, place, slot)};
    type.name = name_of(d, &type.shape, place.row, end_name);
    for (int i = 0; i < *count; i++)
        if (types[i].row == place.row && same_shape(&types[i].shape, &type.shape) &&
            cw_text_same(types[i].name, type.name))
            return i;
    if (*count == TYPES_MAX)
        return TYPES_MAX - 1;
    type.mark = mark_of(d, types, *count, &type);
    cw_working *working = draft_working(d, cw_arena_print(d->arena, "Weight and centre of gravity of %s", type.mark));
    type.working = working ? d->working_count - 1 : -1;
    type.weight = cw_weight_compute(&type.shape, working);
    type.picks = cw_weight_picks(&type.shape, d->job->lifting.end_ratio);
    type.pick_lb = type.weight.weight_lb * d->job->lifting.factor;
    cw_step_add(working, "W_pick", "W x pick factor", type.pick_lb, CW_DIM_LB, draft_source(d, "lifting.pick_factor"));
    types[*count] = type;
    return (*count)++;
}

static void lay_row(draft *d, cw_plan_type *types, cw_plan_piece *pieces, int barrel, cw_order_row row)
{
    cw_plan *plan = &d->plan;
    const cw_layout_barrel_answer *answer = &plan->layout.best[0].barrels[barrel];
    const cw_layout_cut *cut = row == CW_ORDER_BASE ? &answer->base : &answer->top;
    const cw_layout_item *items = row == CW_ORDER_BASE ? d->base_items : d->top_items;
    const cw_plan_barrel *lane = &plan->barrels[barrel];
    for (int i = 0; i < cut->count; i++) {
        const double start_in = cut->start_16[i] / CW_SIXTEENTHS_PER_IN;
        const double length_in = (double)items[cut->items[i]].length_16 / CW_SIXTEENTHS_PER_IN;
        cw_plan_piece *piece = &pieces[plan->piece_count++];
        *piece = (cw_plan_piece){.barrel = barrel, .index = i, .row = row, .start_in = start_in, .length_in = length_in};
        piece->slot = cw_arena_print(d->arena, "%d-%c%02d", barrel + 1, draft_letter(d->job, row), i + 1);
        piece->type = type_of(d, types, &plan->type_count,
                              (piece_place){barrel, i, cut->count, cut->items[i], row, start_in}, piece->slot);
        types[piece->type].count++;
        piece->start_ft = start_in / CW_IN_PER_FT / plan->slope_factor;
        piece->end_ft = (start_in + length_in) / CW_IN_PER_FT / plan->slope_factor;
        const double line_ft = lane->line.length_ft;
        piece->invert_start_ft =
            cw_run_invert_ft(&lane->grade, piece->start_ft) + draft_camber_ft(d, line_ft, piece->start_ft);
        piece->invert_end_ft =
            cw_run_invert_ft(&lane->grade, piece->end_ft) + draft_camber_ft(d, line_ft, piece->end_ft);
    }
}

/* ---- joints and cover ---- */

static cw_run_over over_of(const draft *d, const cw_plan_barrel *barrel)
{
    return (cw_run_over){&d->plan.road, d->plan.ground.count > 1 ? &d->plan.ground : NULL, &barrel->line,
                         barrel->grade, d->plan.box};
}

int draft_phase_of(const draft *d, const cw_plan_piece *piece)
{
    int phase = 0;
    for (int p = 0; p < d->job->phase_count; p++)
        if ((piece->start_ft + piece->end_ft) / 2.0 > d->job->phases[p].at_ft)
            phase = p + 1;
    return phase;
}

static void place_levels(const draft *d, cw_plan_joint *joint)
{
    const cw_job *job = d->job;
    const double slope = job->run.slope;
    double below_in = job->box.floor_in;
    joint->seat_ft = job->box.form == CW_FORM_RING
                         ? joint->top_ft
                         : joint->at.invert_ft + draft_base_leg_in(job) * d->plan.slope_factor / CW_IN_PER_FT;
    joint->underside_ft = cw_run_under_invert_ft(joint->at.invert_ft, slope, below_in);
    below_in += job->bedding.leveling_in;
    joint->bedding_ft = cw_run_under_invert_ft(joint->at.invert_ft, slope, below_in);
    below_in += job->bedding.thickness_in;
    joint->subgrade_ft = cw_run_under_invert_ft(joint->at.invert_ft, slope, below_in);
}

static cw_plan_joint joint_of(draft *d, const cw_plan_barrel *barrel, int number, int index)
{
    const cw_plan_piece *pieces = d->plan.pieces;
    const bool outlet = index < 0, inlet = index + 1 == barrel->base_count;
    cw_plan_joint joint = {.barrel = number, .index = index, .row = CW_ORDER_BASE, .is_end = outlet || inlet};
    double slope_in = 0.0;
    if (!outlet) {
        const cw_plan_piece *before = &pieces[barrel->bases[index]];
        slope_in = before->start_in + before->length_in;
    }
    if (joint.is_end) {
        joint.name = cw_arena_print(d->arena, "%d %s", number + 1, outlet ? "outlet" : "inlet");
    } else {
        joint.mitred = !same_number(mitre_at(d, number, CW_ORDER_BASE, index), 0.0);
        joint.gap_in = barrel->gap_in;
        slope_in += barrel->gap_in / 2.0;
        joint.phase_line = draft_phase_of(d, &pieces[barrel->bases[index]]) !=
                           draft_phase_of(d, &pieces[barrel->bases[index + 1]]);
        joint.name = cw_arena_print(d->arena, "%s/%02d", pieces[barrel->bases[index]].slot, index + 2);
    }
    joint.at = cw_run_joint_at(&barrel->line, &barrel->grade, slope_in);
    joint.camber_ft = draft_camber_ft(d, barrel->line.length_ft, joint.at.at_ft);
    joint.at.invert_ft += joint.camber_ft;
    joint.top_ft = joint.at.invert_ft + (d->plan.box.rise_in + d->plan.box.top_in) * d->plan.slope_factor / CW_IN_PER_FT;
    place_levels(d, &joint);
    if (d->plan.has_surface) {
        const cw_run_over over = over_of(d, barrel);
        const cw_run_cover cover = cw_run_cover_at(&over, joint.at.at_ft);
        joint.has_surface = true;
        joint.surface_ft = cover.surface_ft;
        joint.cover_ft = cover.cover_ft;
    }
    joint.has_ground = cw_run_ground_at(&d->plan.ground, joint.at.place.chain_ft, &joint.ground_ft);
    return joint;
}

/* Plan distances at which the barrel's axis is at distance u_ft from the road centre line; at most most. */
static int places_at(const cw_run_line *line, double u_ft, double *at_ft, int most)
{
    int count = 0;
    for (int v = 0; v + 1 < line->count && count < most; v++) {
        const double from_ft = line->points[v].at_ft, to_ft = line->points[v + 1].at_ft;
        const double a = cw_run_line_at(line, from_ft).u_ft - u_ft;
        // The place at a vertex belongs to the straight upstream of it; u itself is continuous.
        const double b = cw_run_line_at(line, to_ft).u_ft - u_ft;
        if ((a <= 0.0) != (b <= 0.0))
            at_ft[count++] = from_ft + (to_ft - from_ft) * (a / (a - b));
    }
    return count;
}

static void find_cover(draft *d, cw_plan_barrel *barrel)
{
    if (!d->plan.has_surface)
        return;
    const cw_run_over over = over_of(d, barrel);
    const double length_ft = barrel->line.length_ft;
    barrel->end_cover = cw_run_least_cover(&over, 0.0, length_ft);
    barrel->has_end_cover = true;
    double from_ft = 0.0, to_ft = length_ft, place_ft[CW_RUN_POINTS_MAX];
    if (places_at(&barrel->line, -cw_run_hinge_ft(&d->plan.road.outlet), place_ft, CW_RUN_POINTS_MAX) > 0)
        from_ft = place_ft[0];
    const int crossings = places_at(&barrel->line, cw_run_hinge_ft(&d->plan.road.inlet), place_ft, CW_RUN_POINTS_MAX);
    if (crossings > 0)
        to_ft = place_ft[crossings - 1];
    if (from_ft > to_ft)
        from_ft = 0.0;
    barrel->least_cover = cw_run_least_cover(&over, from_ft, to_ft);
    barrel->most_cover = cw_run_most_cover(&over, from_ft, to_ft);
    barrel->has_cover = true;
}

static void show_cover(draft *d, int number)
{
    const cw_plan_barrel *barrel = &d->plan.barrels[number];
    if (!barrel->has_cover)
        return;
    cw_working *w = draft_working(d, cw_arena_print(d->arena, "Least cover under the roadway, barrel %d", number + 1));
    const cw_run_cover *least = &barrel->least_cover;
    cw_step_add(w, "x", "plan distance from the outlet face, least of all template breaks between the hinges",
                least->at_ft, CW_DIM_FT, "derived: cover is linear between breaks");
    cw_step_add(w, "z_s", "finished surface there, from grade, cross falls and side slope", least->surface_ft,
                CW_DIM_ELEV_FT, "job file: road");
    cw_step_add(w, "z_t", "invert + (rise + top) sqrt(1 + S^2)", least->top_ft, CW_DIM_ELEV_FT,
                "derived: thickness measured square to the grade");
    cw_step_add(w, "c", "z_s - z_t", least->cover_ft, CW_DIM_FT, "definition of cover");
}

/* ---- the profile over the first barrel ---- */

static void add_place(double *places, int *count, int most, double at_ft, double length_ft)
{
    if (*count < most && at_ft > -CW_SAME_PLACE_FT && at_ft < length_ft + CW_SAME_PLACE_FT)
        places[(*count)++] = fmin(fmax(at_ft, 0.0), length_ft);
}

static void add_breaks(const draft *d, const cw_run_line *line, double *places, int *count, int most)
{
    const cw_run_side *sides[2] = {&d->plan.road.outlet, &d->plan.road.inlet};
    for (int s = 0; s < 2; s++) {
        double u_ft = 0.0;
        for (int i = 0; i <= sides[s]->strip_count; i++) {
            double found[CW_RUN_POINTS_MAX];
            const int crossings = places_at(line, s ? u_ft : -u_ft, found, CW_RUN_POINTS_MAX);
            for (int k = 0; k < crossings; k++)
                add_place(places, count, most, found[k], line->length_ft);
            if (i < sides[s]->strip_count)
                u_ft += sides[s]->strips[i].width_ft;
        }
    }
}

static void sort_places(double *places, int *count)
{
    for (int i = 1; i < *count; i++) {
        const double moving = places[i];
        int j = i;
        for (; j > 0 && places[j - 1] > moving; j--)
            places[j] = places[j - 1];
        places[j] = moving;
    }
    int kept = 0;
    for (int i = 0; i < *count; i++)
        if (kept == 0 || places[i] - places[kept - 1] > CW_SAME_PLACE_FT)
            places[kept++] = places[i];
    *count = kept;
}

static void draw_profile(draft *d)
{
    cw_plan *plan = &d->plan;
    const cw_plan_barrel *barrel = &plan->barrels[0];
    const int most = barrel->base_count + plan->ground.count + 64;
    double *places = CW_TAKE(d->arena, double, most);
    int count = 0;
    for (int i = 0; i <= barrel->base_count; i++)
        add_place(places, &count, most, barrel->joints[i].at.at_ft, barrel->line.length_ft);
    for (int v = 0; v < barrel->line.count; v++)
        add_place(places, &count, most, barrel->line.points[v].at_ft, barrel->line.length_ft);
    for (int i = 0; i < plan->ground.count; i++)
        add_place(places, &count, most, plan->ground.points[i].chain_ft - plan->span.outlet_chain_ft,
                  barrel->line.length_ft);
    if (plan->has_surface)
        add_breaks(d, &barrel->line, places, &count, most);
    sort_places(places, &count);
    cw_plan_profile_point *profile = CW_TAKE(d->arena, cw_plan_profile_point, count);
    const cw_run_over over = over_of(d, barrel);
    for (int i = 0; i < count; i++) {
        profile[i].at_ft = places[i];
        if (plan->has_surface)
            profile[i].surface_ft = cw_run_cover_at(&over, places[i]).surface_ft;
        const double chain_ft = cw_run_line_at(&barrel->line, places[i]).chain_ft;
        profile[i].has_ground = cw_run_ground_at(&plan->ground, chain_ft, &profile[i].ground_ft);
    }
    plan->profile = profile;
    plan->profile_count = count;
}

void draft_pieces(draft *d)
{
    cw_plan *plan = &d->plan;
    cw_plan_barrel *barrels = CW_TAKE(d->arena, cw_plan_barrel, plan->barrel_count);
    memcpy(barrels, plan->barrels, (size_t)plan->barrel_count * sizeof *barrels);
    plan->barrels = barrels;
    lay_span(d, barrels);
    int total = 0;
    for (int b = 0; b < plan->barrel_count; b++)
        total += plan->layout.best[0].barrels[b].base.count + plan->layout.best[0].barrels[b].top.count;
    cw_plan_piece *pieces = CW_TAKE(d->arena, cw_plan_piece, total);
    cw_plan_type *types = CW_TAKE(d->arena, cw_plan_type, TYPES_MAX);
    plan->pieces = pieces;
    plan->types = types;
    for (int b = 0; b < plan->barrel_count; b++) {
        int *index = CW_TAKE(d->arena, int, CW_LAYOUT_PIECES_MAX * 2);
        const int first_base = plan->piece_count;
        lay_row(d, types, pieces, b, CW_ORDER_BASE);
        const int first_top = plan->piece_count;
        lay_row(d, types, pieces, b, CW_ORDER_TOP);
        barrels[b].base_count = first_top - first_base;
        barrels[b].top_count = plan->piece_count - first_top;
        for (int i = 0; i < barrels[b].base_count + barrels[b].top_count; i++)
            index[i] = first_base + i;
        barrels[b].bases = index;
        barrels[b].tops = index + barrels[b].base_count;
        cw_plan_joint *joints = CW_TAKE(d->arena, cw_plan_joint, barrels[b].base_count + 1);
        for (int i = 0; i <= barrels[b].base_count; i++)
            joints[i] = joint_of(d, &barrels[b], b, i - 1);
        barrels[b].joints = joints;
        find_cover(d, &barrels[b]);
        show_cover(d, b);
    }
    draw_profile(d);
}
