/* Calculators of shapes: bend, barrel-offset, skew-end and headwall. */
#include <math.h>
#include <stddef.h>

#include "cw/run.h"
#include "cw/tolerance.h"
#include "cw/units.h"
#include "run_internal.h"

static const char *const geometry = "derived: plane geometry";

/* ---- bend ---- */

typedef struct bend_output {
    int joints;
    double joint_turn_deg;
    double both_long_in, both_short_in, one_long_in, one_short_in;
    double open_deg;
    bool has_radius;
    double open_radius_ft;
    bool has_chord;
    double chord_turn_deg, mid_ordinate_ft, chord_pieces;
} bend_output;

#define IN(member) offsetof(cw_run_turn, member)
#define OUT(member) offsetof(bend_output, member)

static const cw_field bend_inputs[] = {
    {"turn", "D", CW_KIND_NUMBER, CW_DIM_DEG, -90, 90, NULL, true, "whole deflection of the bend",
     NULL, NULL, IN(turn_deg), CW_NO_FLAG},
    {"turn_max", "D_max", CW_KIND_NUMBER, CW_DIM_DEG, 0.1, 90, NULL, true,
     "most that one mitred joint may turn", NULL, NULL, IN(turn_max_deg), CW_NO_FLAG},
    {"piece", "l", CW_KIND_NUMBER, CW_DIM_IN, 12, 600, NULL, true,
     "laying length on the barrel's centre line", NULL, NULL, IN(piece_in), CW_NO_FLAG},
    {"width", "B_o", CW_KIND_NUMBER, CW_DIM_IN, 12, 1200, NULL, true, "outside width of the barrel",
     NULL, NULL, IN(width_in), CW_NO_FLAG},
    {"gap_min", "g_min", CW_KIND_NUMBER, CW_DIM_IN, 0, 6, "1/4 in", false, "least joint gap",
     "common practice", NULL, IN(gap_min_in), CW_NO_FLAG},
    {"gap_max", "g_max", CW_KIND_NUMBER, CW_DIM_IN, 0, 6, "3/4 in", false, "greatest joint gap",
     "common practice", NULL, IN(gap_max_in), CW_NO_FLAG},
    {"radius", "R", CW_KIND_NUMBER, CW_DIM_FT, 1, 100000, NULL, false,
     "of a curve that the pieces follow as chords", NULL, NULL, IN(radius_ft), IN(has_radius)},
};

static const cw_field bend_outputs[] = {
    {"joints", "m", CW_KIND_COUNT, CW_DIM_COUNT, 0, 0, NULL, false, "mitred joints", NULL, NULL,
     OUT(joints), CW_NO_FLAG},
    {"joint_turn", "D_m", CW_KIND_NUMBER, CW_DIM_DEG, 0, 0, NULL, false, "turn of each", NULL, NULL,
     OUT(joint_turn_deg), CW_NO_FLAG},
    {"both_long", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false,
     "long side, both ends cut half the turn", NULL, NULL, OUT(both_long_in), CW_NO_FLAG},
    {"both_short", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false,
     "short side, both ends cut half the turn", NULL, NULL, OUT(both_short_in), CW_NO_FLAG},
    {"one_long", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false,
     "long side, one end cut the whole turn", NULL, NULL, OUT(one_long_in), CW_NO_FLAG},
    {"one_short", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false,
     "short side, one end cut the whole turn", NULL, NULL, OUT(one_short_in), CW_NO_FLAG},
    {"open_turn", "phi", CW_KIND_NUMBER, CW_DIM_DEG, 0, 0, NULL, false,
     "what a joint of square pieces can turn within its gap band", NULL, NULL, OUT(open_deg),
     CW_NO_FLAG},
    {"open_radius", "R_o", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "least radius with square pieces", NULL, NULL, OUT(open_radius_ft), OUT(has_radius)},
    {"chord_turn", "D_c", CW_KIND_NUMBER, CW_DIM_DEG, 0, 0, NULL, false,
     "turn of each joint on the curve", NULL, NULL, OUT(chord_turn_deg), OUT(has_chord)},
    {"mid_ordinate", "M", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "chord to curve at mid length", NULL, NULL, OUT(mid_ordinate_ft), OUT(has_chord)},
    {"chord_pieces", "N_c", CW_KIND_NUMBER, CW_DIM_NONE, 0, 0, NULL, false, "pieces round the bend",
     NULL, NULL, OUT(chord_pieces), OUT(has_chord)},
};

static bool bend_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const cw_run_turn *in = input;
    const int before = diags->count;
    if (in->gap_max_in < in->gap_min_in)
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "gap_max %.4g in is less than gap_min %.4g in; exchange them", in->gap_max_in,
                    in->gap_min_in);
    if (in->has_radius && in->piece_in / CW_IN_PER_FT > 2.0 * in->radius_ft)
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "a piece of %.4g in is no chord of a radius of %.4g ft; shorten the piece",
                    in->piece_in, in->radius_ft);
    const cw_run_turned turned = cw_run_turn_pieces(in, NULL);
    if (!(turned.both.short_in > 0.0) || !(turned.one.short_in > 0.0))
        cw_diag_add(diags, where, CW_E_GEOMETRY,
                    "the mitres of a joint turn of %.4g deg meet inside a piece of %.4g in; "
                    "lengthen the piece or "
                    "lower turn_max",
                    turned.joint_turn_deg, in->piece_in);
    return diags->count == before && diags->dropped == 0;
}

static void bend(const void *input, void *output, cw_working *working)
{
    const cw_run_turned turned = cw_run_turn_pieces(input, working);
    bend_output *out = output;
    *out = (bend_output){
        .joints = turned.joints,
        .joint_turn_deg = turned.joint_turn_deg,
        .both_long_in = turned.both.long_in,
        .both_short_in = turned.both.short_in,
        .one_long_in = turned.one.long_in,
        .one_short_in = turned.one.short_in,
        .open_deg = turned.open_deg,
        .has_radius = turned.open_deg > 0.0,
        .open_radius_ft = turned.open_radius_ft,
        .has_chord = turned.has_chord,
        .chord_turn_deg = turned.chord_turn_deg,
        .mid_ordinate_ft = turned.mid_ordinate_ft,
        .chord_pieces = turned.chord_pieces,
    };
}

const cw_calc cw_calc_bend = {
    .name = "bend",
    .title = "Mitred pieces of a bend",
    .group = "run",
    .about = "Divides a bend over mitred joints, gives the sides of the mitred pieces and what an "
             "uncut joint can turn "
             "within its gap. Mitred in plan only: the faces stay square to the grade, so that the "
             "tongue can "
             "still be lowered into its groove.",
    .source = "derived: plane geometry of a mitre and of a chord",
    .inputs = bend_inputs,
    .input_count = COUNT_OF(bend_inputs),
    .input_size = sizeof(cw_run_turn),
    .outputs = bend_outputs,
    .output_count = COUNT_OF(bend_outputs),
    .output_size = sizeof(bend_output),
    .valid = bend_valid,
    .run = bend,
    .example = "turn=30deg turn_max=5deg piece=96in width=168in gap_min=0.25in gap_max=0.75in "
               "radius=200ft",
};

/* ---- barrel-offset ---- */

typedef struct offset_input {
    double length_ft;
    cw_list at_ft, turn_deg;
    int barrels, barrel;
    double spacing_ft;
} offset_input;

typedef struct offset_output {
    int result;
    bool found, all_found;
    double offset_ft, length_ft, longer_ft, left_ft, right_ft;
} offset_output;

#undef IN
#undef OUT
#define IN(member) offsetof(offset_input, member)
#define OUT(member) offsetof(offset_output, member)

static const cw_field offset_inputs[] = {
    {"length", "L", CW_KIND_NUMBER, CW_DIM_FT, 1, 4000, NULL, true,
     "plan length of the structure's centre line, outlet to inlet", NULL, NULL, IN(length_ft),
     CW_NO_FLAG},
    {"bend_at", NULL, CW_KIND_LIST, CW_DIM_FT, 0, 4000, NULL, true,
     "plan distance of each bend from the outlet face", NULL, NULL, IN(at_ft), CW_NO_FLAG},
    {"bend_turn", "D", CW_KIND_LIST, CW_DIM_DEG, -90, 90, NULL, true,
     "turn of each, right positive looking upstream", NULL, NULL, IN(turn_deg), CW_NO_FLAG},
    {"barrels", "n", CW_KIND_COUNT, CW_DIM_COUNT, 1, 8, NULL, true, "barrels side by side", NULL,
     NULL, IN(barrels), CW_NO_FLAG},
    {"barrel", "k", CW_KIND_COUNT, CW_DIM_COUNT, 1, 8, NULL, true,
     "which one, from the left looking upstream", NULL, NULL, IN(barrel), CW_NO_FLAG},
    {"spacing", "c", CW_KIND_NUMBER, CW_DIM_FT, 0, 100, NULL, true, "centre to centre", NULL, NULL,
     IN(spacing_ft), CW_NO_FLAG},
};

static const cw_field offset_outputs[] = {
    {"result", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, NULL, false,
     "whether the barrel can be laid out", NULL, cw_run_status_choices, OUT(result), CW_NO_FLAG},
    {"offset", "y", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "of the barrel, right of the centre line", NULL, NULL, OUT(offset_ft), CW_NO_FLAG},
    {"barrel_length", "L_k", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan length of the barrel", NULL, NULL, OUT(length_ft), OUT(found)},
    {"longer", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "than the centre line; negative when shorter", NULL, NULL, OUT(longer_ft), OUT(found)},
    {"leftmost_length", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan length of the leftmost barrel", NULL, NULL, OUT(left_ft), OUT(all_found)},
    {"rightmost_length", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "plan length of the rightmost barrel", NULL, NULL, OUT(right_ft), OUT(all_found)},
};

static bool offset_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const offset_input *in = input;
    const int before = diags->count;
    if (in->at_ft.count != in->turn_deg.count)
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "bend_at has %d items and bend_turn %d; give one turn for each bend",
                    in->at_ft.count, in->turn_deg.count);
    if (in->at_ft.count > CW_RUN_BENDS_MAX)
        cw_diag_add(diags, where, CW_E_TOO_MANY, "bend_at has %d bends; at most %d are taken",
                    in->at_ft.count, CW_RUN_BENDS_MAX);
    if (in->barrel > in->barrels)
        cw_diag_add(diags, where, CW_E_CONFLICT, "barrel %d is not one of %d barrels; give 1 to %d",
                    in->barrel, in->barrels, in->barrels);
    return diags->count == before && diags->dropped == 0;
}

static void barrel_offset(const void *input, void *output, cw_working *working)
{
    const offset_input *in = input;
    offset_output *out = output;
    cw_run_path path = {.bend_count = in->at_ft.count};
    double tangents = 0.0;
    for (int i = 0; i < path.bend_count; i++) {
        path.bends[i] = (cw_run_bend){in->at_ft.items[i], in->turn_deg.items[i]};
        tangents += tan(in->turn_deg.items[i] / 2.0 * CW_RAD_PER_DEG);
    }
    const cw_run_span span = {0.0, in->length_ft, CW_RUN_CUT_SQUARE};
    const double right_ft = cw_run_barrel_offset_ft(in->barrels - 1, in->barrels, in->spacing_ft);
    const double y_ft = cw_run_barrel_offset_ft(in->barrel - 1, in->barrels, in->spacing_ft);
    const cw_run_line line = cw_run_line_of(&path, span, y_ft);
    const cw_run_line left = cw_run_line_of(&path, span, -right_ft);
    const cw_run_line right = cw_run_line_of(&path, span, right_ft);
    *out = (offset_output){
        .result = (int)line.status,
        .found = line.status == CW_RUN_OK,
        .all_found = left.status == CW_RUN_OK && right.status == CW_RUN_OK,
        .offset_ft = cw_step_add(working, "y", "(k - (n + 1)/2) c", y_ft, CW_DIM_FT, geometry),
        .length_ft = line.length_ft,
        .longer_ft = line.length_ft - in->length_ft,
        .left_ft = left.length_ft,
        .right_ft = right.length_ft,
    };
    cw_step_add(working, "T", "sum of tan(D/2)", tangents, CW_DIM_NONE, geometry);
    if (out->found)
        cw_step_add(working, "L_k", "L - 2 y T", line.length_ft, CW_DIM_FT, geometry);
}

const cw_calc cw_calc_barrel_offset = {
    .name = "barrel-offset",
    .title = "Length of each barrel round bends",
    .group = "run",
    .about =
        "The barrels of a structure with mitred bends are parallels of its centre line: the inner "
        "one is shorter, the "
        "outer one longer. Ends square. Refused when a straight vanishes on the inside of a bend.",
    .source = "derived: plane geometry of a mitre",
    .inputs = offset_inputs,
    .input_count = COUNT_OF(offset_inputs),
    .input_size = sizeof(offset_input),
    .outputs = offset_outputs,
    .output_count = COUNT_OF(offset_outputs),
    .output_size = sizeof(offset_output),
    .valid = offset_valid,
    .run = barrel_offset,
    .example = "length=120ft bend_at=50ft bend_turn=10deg barrels=3 barrel=3 spacing=11.9167ft",
};

/* ---- skew-end ---- */

typedef struct skew_input {
    double piece_in, width_in, skew_deg, spacing_ft;
} skew_input;

typedef struct skew_output {
    double long_in, short_in, difference_in, shift_ft;
} skew_output;

#undef IN
#undef OUT
#define IN(member) offsetof(skew_input, member)
#define OUT(member) offsetof(skew_output, member)

static const cw_field skew_inputs[] = {
    {"piece", "l", CW_KIND_NUMBER, CW_DIM_IN, 12, 600, NULL, true,
     "laying length on the barrel's centre line", NULL, NULL, IN(piece_in), CW_NO_FLAG},
    {"width", "B_o", CW_KIND_NUMBER, CW_DIM_IN, 12, 1200, NULL, true, "outside width of the barrel",
     NULL, NULL, IN(width_in), CW_NO_FLAG},
    {"skew", "theta", CW_KIND_NUMBER, CW_DIM_DEG, -75, 75, NULL, true,
     "angle of the cut from a square end", "common practice", NULL, IN(skew_deg), CW_NO_FLAG},
    {"spacing", "c", CW_KIND_NUMBER, CW_DIM_FT, 0, 100, "0 ft", false,
     "of barrels, centre to centre", "common practice", NULL, IN(spacing_ft), CW_NO_FLAG},
};

static const cw_field skew_outputs[] = {
    {"long_side", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false,
     "laying length of the long outside face", NULL, NULL, OUT(long_in), CW_NO_FLAG},
    {"short_side", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false,
     "laying length of the short outside face", NULL, NULL, OUT(short_in), CW_NO_FLAG},
    {"difference", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 0, NULL, false, "between the two", NULL,
     NULL, OUT(difference_in), CW_NO_FLAG},
    {"joint_shift", NULL, CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false,
     "of the joints from barrel to barrel when all barrels have the same pieces", NULL, NULL,
     OUT(shift_ft), CW_NO_FLAG},
};

static bool skew_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const skew_input *in = input;
    const cw_run_sides sides = cw_run_skew_piece(in->piece_in, in->width_in, in->skew_deg);
    if (sides.short_in > 0.0)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "the cut of %.4g deg over %.4g in passes through the other end of a piece of %.4g "
                "in; a piece longer "
                "than %.4g in is needed",
                in->skew_deg, in->width_in, in->piece_in, in->piece_in - sides.short_in);
    return false;
}

static void skew_end(const void *input, void *output, cw_working *working)
{
    const skew_input *in = input;
    skew_output *out = output;
    const cw_run_sides sides = cw_run_skew_piece(in->piece_in, in->width_in, in->skew_deg);
    out->long_in =
        cw_step_add(working, "l_1", "l + (B_o/2) tan theta", sides.long_in, CW_DIM_IN, geometry);
    out->short_in =
        cw_step_add(working, "l_2", "l - (B_o/2) tan theta", sides.short_in, CW_DIM_IN, geometry);
    out->difference_in = sides.long_in - sides.short_in;
    out->shift_ft =
        cw_step_add(working, "e_j", "c tan theta",
                    in->spacing_ft * fabs(tan(in->skew_deg * CW_RAD_PER_DEG)), CW_DIM_FT, geometry);
}

const cw_calc cw_calc_skew_end = {
    .name = "skew-end",
    .title = "Piece with one end cut on the skew",
    .group = "run",
    .about = "Sides of an end piece whose free end is cut along the road, and the shift of joints "
             "between barrels. The "
             "least length that the plant casts on the short side is not checked.",
    .source = "derived: plane geometry",
    .inputs = skew_inputs,
    .input_count = COUNT_OF(skew_inputs),
    .input_size = sizeof(skew_input),
    .outputs = skew_outputs,
    .output_count = COUNT_OF(skew_outputs),
    .output_size = sizeof(skew_output),
    .valid = skew_valid,
    .run = skew_end,
    .example = "piece=96in width=168in skew=20deg spacing=14.3333ft",
};

/* ---- headwall ---- */

typedef struct headwall_input {
    double width_ft, skew_deg;
    int cut;
    double overhang_in, rise_in, top_in, parapet_in, thickness_in, span_in;
    int openings;
} headwall_input;

#undef IN
#undef OUT
#define IN(member) offsetof(headwall_input, member)
#define OUT(member) offsetof(cw_run_headwall_take, member)

static const cw_field headwall_inputs[] = {
    {"width", "W", CW_KIND_NUMBER, CW_DIM_FT, 1, 400, NULL, true, "out to out of all barrels", NULL,
     NULL, IN(width_ft), CW_NO_FLAG},
    {"skew", "theta", CW_KIND_NUMBER, CW_DIM_DEG, -75, 75, "0 deg", false,
     "angle of the barrel from the road's normal", "common practice", NULL, IN(skew_deg),
     CW_NO_FLAG},
    {"cut", NULL, CW_KIND_CHOICE, CW_DIM_NONE, 0, 0, "road", false,
     "headwall square to the barrel or along the road", "common practice", cw_run_cut_choices,
     IN(cut), CW_NO_FLAG},
    {"overhang", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 240, "0 in", false,
     "past the outside wall, each side, along the headwall", "common practice", NULL,
     IN(overhang_in), CW_NO_FLAG},
    {"rise", "r", CW_KIND_NUMBER, CW_DIM_IN, 12, 240, NULL, true, "clear height of the box", NULL,
     NULL, IN(rise_in), CW_NO_FLAG},
    {"top", "t_top", CW_KIND_NUMBER, CW_DIM_IN, 3, 48, NULL, true, "thickness of the lid or crown",
     NULL, NULL, IN(top_in), CW_NO_FLAG},
    {"parapet", NULL, CW_KIND_NUMBER, CW_DIM_IN, 0, 120, "0 in", false,
     "headwall above the top of the box", "common practice", NULL, IN(parapet_in), CW_NO_FLAG},
    {"thickness", "t", CW_KIND_NUMBER, CW_DIM_IN, 4, 60, NULL, true, "of the headwall", NULL, NULL,
     IN(thickness_in), CW_NO_FLAG},
    {"span", "s", CW_KIND_NUMBER, CW_DIM_IN, 12, 480, NULL, true, "clear width of one barrel", NULL,
     NULL, IN(span_in), CW_NO_FLAG},
    {"barrels", "n", CW_KIND_COUNT, CW_DIM_COUNT, 1, 8, "1", false, "openings", "common practice",
     NULL, IN(openings), CW_NO_FLAG},
};

static const cw_field headwall_outputs[] = {
    {"length", "L_w", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "of the headwall", NULL, NULL,
     OUT(length_ft), CW_NO_FLAG},
    {"height", "H_w", CW_KIND_NUMBER, CW_DIM_FT, 0, 0, NULL, false, "above the invert", NULL, NULL,
     OUT(height_ft), CW_NO_FLAG},
    {"gross_area", "A_g", CW_KIND_NUMBER, CW_DIM_SQFT, 0, 0, NULL, false, "of the face", NULL, NULL,
     OUT(gross_sqft), CW_NO_FLAG},
    {"openings", "A_o", CW_KIND_NUMBER, CW_DIM_SQFT, 0, 0, NULL, false,
     "area of the openings in the face", NULL, NULL, OUT(openings_sqft), CW_NO_FLAG},
    {"face_area", "A", CW_KIND_NUMBER, CW_DIM_SQFT, 0, 0, NULL, false, "less the openings", NULL,
     NULL, OUT(face_sqft), CW_NO_FLAG},
    {"concrete", "V", CW_KIND_NUMBER, CW_DIM_CY, 0, 0, NULL, false, "above the invert", NULL, NULL,
     OUT(concrete_cy), CW_NO_FLAG},
};

static bool headwall_valid(const void *input, cw_pos where, cw_diags *diags)
{
    const headwall_input *in = input;
    const double clear_ft = in->openings * in->span_in / CW_IN_PER_FT;
    if (cw_meets(clear_ft, in->width_ft))
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "%d openings of %.4g in are wider than the structure of %.4g ft; width is out to "
                "out of all barrels",
                in->openings, in->span_in, in->width_ft);
    return false;
}

static void headwall(const void *input, void *output, cw_working *working)
{
    const headwall_input *in = input;
    const cw_run_headwall wall = {
        .width_ft = in->width_ft,
        .skew_deg = in->skew_deg,
        .cut = (cw_run_cut)in->cut,
        .overhang_in = in->overhang_in,
        .rise_in = in->rise_in,
        .top_in = in->top_in,
        .parapet_in = in->parapet_in,
        .thickness_in = in->thickness_in,
        .span_in = in->span_in,
        .openings = in->openings,
    };
    *(cw_run_headwall_take *)output = cw_run_headwall_size(&wall, working);
}

const cw_calc cw_calc_headwall = {
    .name = "headwall",
    .title = "Headwall: length, height and concrete above the invert",
    .group = "run",
    .about = "A plain wall across the end of all barrels. Openings are span by rise: haunches, "
             "footing, toe wall, wings and "
             "the part below the invert are not counted.",
    .source = "derived: plane geometry",
    .inputs = headwall_inputs,
    .input_count = COUNT_OF(headwall_inputs),
    .input_size = sizeof(headwall_input),
    .outputs = headwall_outputs,
    .output_count = COUNT_OF(headwall_outputs),
    .output_size = sizeof(cw_run_headwall_take),
    .valid = headwall_valid,
    .run = headwall,
    .example = "width=11.6667ft skew=20deg cut=road overhang=12in rise=72in top=10in parapet=12in "
               "thickness=12in "
               "span=120in barrels=1",
};
