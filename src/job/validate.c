/* Faults that no single value shows.  A check runs only on values that are there and sound, so that
 * one slip is reported once. */
#include "job_internal.h"

#include <math.h>
#include <string.h>

#include "cw/text.h"
#include "cw/tolerance.h"

/* ---- words ---- */

static cw_pos place(const cw_builder *b, const char *path)
{
    return cw_entries_place(b->entries, path);
}

/* "line 12", or "by default" for a value that the file does not give. */
static const char *line_words(const cw_builder *b, const char *path)
{
    const cw_slot *slot = cw_job_slot(b, path);
    if (slot && slot->entry >= 0)
        return cw_arena_print(b->arena, "line %d", b->entries->items[slot->entry].line);
    return "by default";
}

static const char *in_words(const cw_builder *b, double length_in)
{
    return cw_quantity_format(b->arena, length_in, CW_DIM_IN, CW_US);
}

static const char *ft_words(const cw_builder *b, double length_ft)
{
    return cw_quantity_format(b->arena, length_ft, CW_DIM_FT, CW_US);
}

static const char *item(const cw_builder *b, const char *list, int index, const char *key)
{
    return cw_arena_print(b->arena, "%s[%d].%s", list, index, key);
}

static bool all_sound(const cw_builder *b, const char *const *paths, int count)
{
    for (int i = 0; i < count; i++)
        if (!cw_job_sound(b, paths[i]))
            return false;
    return true;
}

#define SOUND(b, ...)                                                                              \
    all_sound(b, (const char *const[]){__VA_ARGS__},                                               \
              (int)(sizeof((const char *const[]){__VA_ARGS__}) / sizeof(const char *)))

void cw_job_need(cw_builder *b, const char *section, const char *choice, const cw_wanted *keys,
                 int count)
{
    cw_text missing = cw_text_on(b->arena);
    for (int i = 0; i < count; i++) {
        // A value that was given but is faulty has its own message.
        const cw_slot *slot =
            cw_job_slot(b, cw_arena_print(b->arena, "%s.%s", section, keys[i].key));
        if (!keys[i].there && (!slot || slot->entry < 0))
            cw_text_print(&missing, "%s%s", missing.length > 0 ? ", " : "", keys[i].key);
    }
    if (missing.length > 0)
        cw_diag_add(b->diags, place(b, section), CW_E_MISSING,
                    "%s with %s needs %s; add what is missing", section, choice,
                    cw_text_string(&missing));
}

/* ---- road and run ---- */

static void check_template(cw_builder *b, const cw_template_side *side, const char *path,
                           bool needed)
{
    if (!side->present) {
        if (needed && !cw_entries_given(b->entries, path))
            cw_diag_add(b->diags, place(b, path), CW_E_MISSING,
                        "road has no %s, from which the length would follow; add it with its "
                        "strips and side_slope, or give run.length and run.outlet_distance",
                        path + sizeof "road." - 1);
        return;
    }
    double width_ft = 0.0;
    for (int i = 0; i < side->strip_count; i++) {
        if (!cw_job_sound(b, cw_arena_print(b->arena, "%s.strips[%d].width", path, i)))
            return;
        width_ft += side->strips[i].width_ft;
    }
    if (side->strip_count > 0 && !(width_ft > 0.0))
        cw_diag_add(b->diags, place(b, cw_arena_print(b->arena, "%s.strips", path)), CW_E_GEOMETRY,
                    "the strips of %s are 0 ft wide together; give a lane or shoulder its width",
                    path);
}

static void check_given_length(cw_builder *b)
{
    const cw_job_run *run = &b->job->run;
    const cw_job_road *road = &b->job->road;
    if (road->present && !run->has_outlet_distance &&
        cw_job_slot(b, "run.outlet_distance")->entry < 0)
        cw_diag_add(b->diags, place(b, "run.length"), CW_E_MISSING,
                    "a given length does not say where the outlet lies under the road; write "
                    "run.outlet_distance, or leave length out and let the road template set both "
                    "ends");
    if (!road->present && run->has_outlet_distance)
        cw_diag_add(b->diags, place(b, "run.outlet_distance"), CW_E_CONFLICT,
                    "outlet_distance is measured from the road, and the job has none; add road, or "
                    "leave it out and give the invert at the outlet face");
    if (road->present && run->has_outlet_distance && run->outlet_distance_ft > run->length_ft)
        cw_diag_add(b->diags, place(b, "run.outlet_distance"), CW_E_CONFLICT,
                    "outlet_distance %s (%s) is more than the length %s (%s), so the road would "
                    "not lie over the culvert; correct one of them",
                    ft_words(b, run->outlet_distance_ft), line_words(b, "run.outlet_distance"),
                    ft_words(b, run->length_ft), line_words(b, "run.length"));
}

static void check_run(cw_builder *b)
{
    const cw_job_run *run = &b->job->run;
    const cw_job_road *road = &b->job->road;
    const bool length_tried = cw_job_slot(b, "run.length")->entry >= 0;
    check_template(b, &road->outlet, "road.outlet_template", road->present && !length_tried);
    check_template(b, &road->inlet, "road.inlet_template", road->present && !length_tried);
    if (run->has_length) {
        check_given_length(b);
        return;
    }
    if (length_tried || !cw_entries_given(b->entries, "run"))
        return; // reported already
    if (!cw_entries_given(b->entries, "road"))
        cw_diag_add(b->diags, place(b, "run"), CW_E_MISSING,
                    "run has no length and there is no road from which it would follow; write "
                    "run.length, or add road with its two templates");
    if (run->has_outlet_distance)
        cw_diag_add(b->diags, place(b, "run.outlet_distance"), CW_E_CONFLICT,
                    "outlet_distance goes only with a given length; write run.length too, or leave "
                    "it out and let the road template set both ends");
}

/* ---- box and joint ---- */

/* Clear height of the base wall above the floor, where the bottom haunch must fit. */
static bool base_height(const cw_builder *b, double *height_in)
{
    const cw_job_box *box = &b->job->box;
    const bool hood = box->form == CW_FORM_DOUBLE_U;
    *height_in = hood ? box->leg_in : box->rise_in;
    return hood ? box->has_leg : cw_job_sound(b, "box.rise");
}

static void check_leg(cw_builder *b)
{
    const cw_job_box *box = &b->job->box;
    if (box->form != CW_FORM_DOUBLE_U) {
        if (box->has_leg)
            cw_diag_add(b->diags, place(b, "box.leg"), CW_E_CONFLICT,
                        "leg (%s) is for form double-u only, and form (%s) is %s; remove leg or "
                        "change form",
                        line_words(b, "box.leg"), line_words(b, "box.form"),
                        box->form == CW_FORM_LID ? "lid" : "ring");
        return;
    }
    if (!box->has_leg) {
        if (cw_job_slot(b, "box.leg")->entry < 0)
            cw_diag_add(b->diags, place(b, "box.leg"), CW_E_MISSING,
                        "form double-u needs leg, the clear height of the base wall above the "
                        "floor; write leg, less than the rise");
    } else if (cw_job_sound(b, "box.rise") && box->leg_in >= box->rise_in) {
        cw_diag_add(b->diags, place(b, "box.leg"), CW_E_GEOMETRY,
                    "leg %s (%s) reaches the whole rise %s (%s) and leaves no wall for the hood; "
                    "write a leg less than the rise",
                    in_words(b, box->leg_in), line_words(b, "box.leg"), in_words(b, box->rise_in),
                    line_words(b, "box.rise"));
    }
}

static void check_haunch(cw_builder *b, const char *path, double haunch_in, double height_in)
{
    const double span_in = b->job->box.span_in;
    if (cw_job_sound(b, "box.span") && 2.0 * haunch_in > span_in)
        cw_diag_add(b->diags, place(b, path), CW_E_GEOMETRY,
                    "two haunches of %s (%s) are wider than the span %s (%s); write at most %s",
                    in_words(b, haunch_in), line_words(b, path), in_words(b, span_in),
                    line_words(b, "box.span"), in_words(b, span_in / 2.0));
    if (haunch_in > height_in)
        cw_diag_add(b->diags, place(b, path), CW_E_GEOMETRY,
                    "a haunch of %s (%s) is taller than the %s of wall it stands against; "
                    "make it smaller",
                    in_words(b, haunch_in), line_words(b, path), in_words(b, height_in));
}

static void check_haunches(cw_builder *b)
{
    const cw_job_box *box = &b->job->box;
    double height_in = 0.0;
    const bool base_known = base_height(b, &height_in);
    if (cw_job_sound(b, "box.haunch") && base_known)
        check_haunch(b, "box.haunch", box->haunch_in, height_in);
    if (!cw_job_sound(b, "box.top_haunch") || box->top_haunch_in == 0.0)
        return;
    if (box->form == CW_FORM_LID) {
        cw_diag_add(b->diags, place(b, "box.top_haunch"), CW_E_CONFLICT,
                    "top_haunch (%s) cannot stand under a flat lid, and form (%s) is lid; remove "
                    "it or change form",
                    line_words(b, "box.top_haunch"), line_words(b, "box.form"));
        return;
    }
    if (!base_known || !SOUND(b, "box.rise", "box.haunch"))
        return;
    const bool hood = box->form == CW_FORM_DOUBLE_U;
    if (hood && box->leg_in >= box->rise_in)
        return; // reported
    check_haunch(b, "box.top_haunch", box->top_haunch_in,
                 hood ? box->rise_in - box->leg_in : box->rise_in - box->haunch_in);
}

static void check_box(cw_builder *b)
{
    if (!cw_job_sound(b, "box.form"))
        return;
    check_leg(b);
    check_haunches(b);
}

static void say_gap(cw_builder *b, double gap_in, const char *other, double other_in,
                    const char *relation)
{
    const char *path = cw_arena_print(b->arena, "joint.%s", other);
    const char *blamed = cw_job_given(b, "joint.gap") ? "joint.gap" : path;
    cw_diag_add(b->diags, place(b, blamed), CW_E_CONFLICT,
                "gap %s (%s) is %s %s %s (%s); change one of them", in_words(b, gap_in),
                line_words(b, "joint.gap"), relation, other, in_words(b, other_in),
                line_words(b, path));
}

static void check_gaps(cw_builder *b)
{
    const cw_job_joint *joint = &b->job->joint;
    if (!SOUND(b, "joint.gap", "joint.gap_min", "joint.gap_max"))
        return;
    if (joint->gap_min_in > joint->gap_max_in) {
        const char *blamed = cw_job_given(b, "joint.gap_min") ? "joint.gap_min" : "joint.gap_max";
        cw_diag_add(b->diags, place(b, blamed), CW_E_CONFLICT,
                    "gap_min %s (%s) is more than gap_max %s (%s); change one of them",
                    in_words(b, joint->gap_min_in), line_words(b, "joint.gap_min"),
                    in_words(b, joint->gap_max_in), line_words(b, "joint.gap_max"));
        return;
    }
    if (joint->gap_in < joint->gap_min_in)
        say_gap(b, joint->gap_in, "gap_min", joint->gap_min_in, "less than");
    if (joint->gap_in > joint->gap_max_in)
        say_gap(b, joint->gap_in, "gap_max", joint->gap_max_in, "more than");
}

static void check_tongue(cw_builder *b)
{
    const cw_job_joint *joint = &b->job->joint;
    if (SOUND(b, "joint.tongue", "joint.groove", "joint.gap_min") &&
        joint->tongue_in > joint->groove_in + joint->gap_min_in)
        cw_diag_add(b->diags, place(b, "joint.tongue"), CW_E_GEOMETRY,
                    "tongue %s (%s) touches the bottom of the groove %s (%s) before the gap closes "
                    "to gap_min %s; write a shorter tongue or a deeper groove",
                    in_words(b, joint->tongue_in), line_words(b, "joint.tongue"),
                    in_words(b, joint->groove_in), line_words(b, "joint.groove"),
                    in_words(b, joint->gap_min_in));
    if (SOUND(b, "joint.tongue_share", "joint.groove_share") &&
        joint->tongue_share > joint->groove_share)
        cw_diag_add(b->diags, place(b, "joint.tongue_share"), CW_E_GEOMETRY,
                    "tongue_share %g (%s) is more than groove_share %g (%s), so the tongue would "
                    "not enter; change one of them",
                    joint->tongue_share, line_words(b, "joint.tongue_share"), joint->groove_share,
                    line_words(b, "joint.groove_share"));
}

/* ---- barrels and pieces ---- */

static void check_barrels(cw_builder *b)
{
    const cw_job_barrels *barrels = &b->job->barrels;
    if (!cw_job_sound(b, "barrels.count"))
        return;
    if (barrels->has_drops && cw_job_sound(b, "barrels.drops") &&
        barrels->drops_in.count != barrels->count)
        cw_diag_add(b->diags, place(b, "barrels.drops"), CW_E_CONFLICT,
                    "drops (%s) lists %d and count (%s) is %d; write one drop for each "
                    "barrel, 0 in for the highest",
                    line_words(b, "barrels.drops"), barrels->drops_in.count,
                    line_words(b, "barrels.count"), barrels->count);
    if (cw_job_sound(b, "order.first_barrel") && b->job->order.first_barrel > barrels->count)
        cw_diag_add(b->diags, place(b, "order.first_barrel"), CW_E_CONFLICT,
                    "first_barrel %d (%s) is more than the count %d (%s); lower it or raise count",
                    b->job->order.first_barrel, line_words(b, "order.first_barrel"), barrels->count,
                    line_words(b, "barrels.count"));
}

static void check_lengths(cw_builder *b, const char *path, const cw_list *lengths)
{
    if (!cw_job_given(b, path))
        return;
    if (lengths->count > CW_LENGTHS_MAX)
        cw_diag_add(
            b->diags, place(b, path), CW_E_TOO_MANY,
            "%d lengths are given and the program takes %d of one row; leave out those that "
            "the plant would not cast",
            lengths->count, (int)CW_LENGTHS_MAX);
    for (int i = 1; i < lengths->count; i++) {
        for (int j = 0; j < i; j++) {
            if (lengths->items[i] != lengths->items[j])
                continue;
            cw_diag_add(b->diags, place(b, cw_arena_print(b->arena, "%s[%d]", path, i)),
                        CW_E_DUPLICATE, "length %s is in the list twice; keep one",
                        in_words(b, lengths->items[i]));
            break;
        }
    }
}

static bool serves(const cw_job_end_piece *piece, bool top)
{
    return piece->row == CW_ROW_BOTH || (piece->row == CW_ROW_TOP) == top;
}

/* The mate of an end piece in an aligned run is cast in the standard mould of its length. */
static bool has_mould(const cw_list *lengths, double length_in)
{
    for (int i = 0; i < lengths->count; i++)
        if (fabs(lengths->items[i] - length_in) < CW_SAME_PLACE_FT)
            return true;
    return false;
}

/* A base and its top are cast in two moulds, also where the rows share one cut list. */
static int setups_of_row(const cw_job_pieces *pieces, bool top)
{
    const bool staggered = pieces->rows == 1;
    const cw_list *lengths =
        top && pieces->has_top_lengths ? &pieces->top_lengths_in : &pieces->lengths_in;
    int setups = lengths->count;
    for (int i = 0; i < pieces->end_count; i++)
        if (serves(&pieces->ends[i], top) ||
            (!staggered && !has_mould(lengths, pieces->ends[i].length_in)))
            setups++;
    return setups;
}

static void check_setups(cw_builder *b)
{
    const cw_job_pieces *pieces = &b->job->pieces;
    if (!SOUND(b, "box.form", "pieces.lengths", "pieces.rows") ||
        pieces->lengths_in.count > CW_LENGTHS_MAX)
        return;
    const bool ring = b->job->box.form == CW_FORM_RING;
    const int setups = setups_of_row(pieces, false) + (ring ? 0 : setups_of_row(pieces, true));
    if (setups > CW_SETUPS_MAX)
        cw_diag_add(b->diags, place(b, "pieces.lengths"), CW_E_TOO_MANY,
                    "lengths and ends make %d mould set-ups%s and the program takes %d; leave out "
                    "lengths that the plant would not cast",
                    setups, ring ? "" : " (bases and tops each their own)", (int)CW_SETUPS_MAX);
}

static void say_not_staggered(cw_builder *b, const char *key, bool ring)
{
    const char *path = cw_arena_print(b->arena, "pieces.%s", key);
    const char *other = ring ? "box.form" : "pieces.rows";
    cw_diag_add(b->diags, place(b, path), CW_E_CONFLICT,
                "%s (%s) is for staggered rows, and %s (%s) is %s; remove it%s", key,
                line_words(b, path), ring ? "form" : "rows", line_words(b, other),
                ring ? "ring, which has one row" : "aligned",
                ring ? "" : " or write rows: staggered");
}

static void check_rows(cw_builder *b)
{
    const cw_job_pieces *pieces = &b->job->pieces;
    if (!SOUND(b, "box.form", "pieces.rows"))
        return;
    const bool ring = b->job->box.form == CW_FORM_RING;
    if (ring && pieces->rows == 1)
        cw_diag_add(b->diags, place(b, "pieces.rows"), CW_E_CONFLICT,
                    "rows (%s) cannot be staggered, since form (%s) is ring, which has one row; "
                    "remove rows or change form",
                    line_words(b, "pieces.rows"), line_words(b, "box.form"));
    if (ring || pieces->rows != 1) {
        if (cw_job_given(b, "pieces.stagger"))
            say_not_staggered(b, "stagger", ring);
        if (pieces->has_top_lengths)
            say_not_staggered(b, "top_lengths", ring);
    }
    for (int i = 0; ring && i < pieces->end_count; i++) {
        const char *path = item(b, "pieces.ends", i, "row");
        if (cw_job_sound(b, path) && pieces->ends[i].row != CW_ROW_BASE)
            cw_diag_add(b->diags, place(b, path), CW_E_CONFLICT,
                        "row (%s) names the tops, but form (%s) is ring, which has none; write "
                        "row: base",
                        line_words(b, path), line_words(b, "box.form"));
    }
}

static void check_pieces(cw_builder *b)
{
    check_lengths(b, "pieces.lengths", &b->job->pieces.lengths_in);
    if (b->job->pieces.has_top_lengths)
        check_lengths(b, "pieces.top_lengths", &b->job->pieces.top_lengths_in);
    check_setups(b);
    check_rows(b);
}

/* ---- what stands along the run ---- */

static void check_inside(cw_builder *b, const char *path, double at_ft)
{
    const cw_job_run *run = &b->job->run;
    if (run->has_length && cw_job_sound(b, path) && at_ft > run->length_ft)
        cw_diag_add(
            b->diags, place(b, path), CW_E_CONFLICT,
            "at %s (%s) is past the inlet, the length is %s (%s); write a place from 0 ft to "
            "%s",
            ft_words(b, at_ft), line_words(b, path), ft_words(b, run->length_ft),
            line_words(b, "run.length"), ft_words(b, run->length_ft));
}

static void check_after(cw_builder *b, const char *list, int index, double before_ft, double at_ft)
{
    const char *path = item(b, list, index, "at");
    const char *before = item(b, list, index - 1, "at");
    if (SOUND(b, path, before) && !(at_ft > before_ft))
        cw_diag_add(b->diags, place(b, path), CW_E_CONFLICT,
                    "at %s (%s) does not lie upstream of the one before it, %s (%s); list %s from "
                    "the outlet up",
                    ft_words(b, at_ft), line_words(b, path), ft_words(b, before_ft),
                    line_words(b, before), list);
}

static void check_bends_and_phases(cw_builder *b)
{
    const cw_job *job = b->job;
    for (int i = 0; i < job->bend_count; i++) {
        check_inside(b, item(b, "bends", i, "at"), job->bends[i].at_ft);
        if (i > 0)
            check_after(b, "bends", i, job->bends[i - 1].at_ft, job->bends[i].at_ft);
        const char *turn = item(b, "bends", i, "turn");
        if (cw_job_sound(b, turn) && fabs(job->bends[i].turn_deg) < CW_SAME_DIRECTION_DEG)
            cw_diag_add(b->diags, place(b, turn), CW_E_GEOMETRY,
                        "turn 0 deg is no bend; write its angle or remove the bend");
    }
    for (int i = 0; i < job->phase_count; i++) {
        check_inside(b, item(b, "phases", i, "at"), job->phases[i].at_ft);
        if (i > 0)
            check_after(b, "phases", i, job->phases[i - 1].at_ft, job->phases[i].at_ft);
    }
}

static void check_ground(cw_builder *b)
{
    const cw_job_ground *ground = &b->job->ground;
    if (!ground->present)
        return;
    const bool file = cw_job_given(b, "ground.file") && ground->file[0];
    const bool profile = cw_entries_given(b->entries, "ground.profile");
    if (file && profile)
        cw_diag_add(b->diags, place(b, "ground.file"), CW_E_CONFLICT,
                    "ground has both file (%s) and profile (line %d); keep one",
                    line_words(b, "ground.file"), place(b, "ground.profile").line);
    if (!file && !profile)
        cw_diag_add(b->diags, place(b, "ground"), CW_E_MISSING,
                    "ground has neither profile nor file; add one, or remove ground");
    if (!file && profile && ground->profile_count == 1)
        cw_diag_add(b->diags, place(b, "ground.profile"), CW_E_MISSING,
                    "profile has 1 point; give two or more, so that there is a line");
    for (int i = 1; i < ground->profile_count; i++)
        check_after(b, "ground.profile", i, ground->profile[i - 1].at_ft, ground->profile[i].at_ft);
}

/* Coordinates that are declared survey feet are kept as they stand: a value that names another unit
 * would already be converted, and 2 parts in a million are 4 ft at 2,000,000 ft. */
static void check_survey_foot(cw_builder *b)
{
    static const char *const paths[] = {"survey.northing", "survey.easting"};
    if (b->job->survey.foot != CW_FOOT_US_SURVEY)
        return;
    for (int i = 0; i < 2; i++) {
        const cw_slot *slot = cw_job_slot(b, paths[i]);
        if (!slot || slot->entry < 0)
            continue;
        const char *text = b->entries->items[slot->entry].value;
        const size_t length = strlen(text);
        const bool feet = length > 2 && strcmp(text + length - 2, "ft") == 0 && !strchr(text, 'u');
        if (!feet)
            cw_diag_add(b->diags, place(b, paths[i]), CW_E_CONFLICT,
                        "with foot: us-survey (%s) the coordinates are written in plain ft, as the "
                        "survey gives them, and not as "
                        "%s; write the number with ft, or leave foot out",
                        line_words(b, "survey.foot"), cw_text_clip(b->arena, text));
    }
}

void cw_job_validate(cw_builder *b)
{
    check_survey_foot(b);
    check_run(b);
    check_box(b);
    check_gaps(b);
    check_tongue(b);
    check_barrels(b);
    check_pieces(b);
    check_bends_and_phases(b);
    cw_job_validate_openings(b);
    check_ground(b);
    cw_job_validate_water(b);
    cw_job_validate_ground(b);
    cw_job_validate_strength(b);
    cw_job_validate_ends(b);
    cw_job_validate_obstacles(b);
    cw_job_validate_schedule(b);
    cw_job_validate_cranes(b);
}
