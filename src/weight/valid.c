#include "weight_internal.h"

#include <math.h>

#include "cw/tolerance.h"
#include "cw/units.h"

static double number_at(const cw_piece_shape *shape, const cw_field *field)
{
    return *(const double *)(const void *)((const char *)shape + field->offset);
}

static int choice_at(const cw_piece_shape *shape, const cw_field *field)
{
    return *(const int *)(const void *)((const char *)shape + field->offset);
}

/* Choices and limits of a slice of the fields.  NaN is refused too. */
static bool in_range(const cw_piece_shape *shape, int from, int to, cw_pos where, cw_diags *diags)
{
    bool good = true;
    for (int i = from; i < to; i++) {
        const cw_field *field = &cw_piece_fields[i];
        if (field->kind == CW_KIND_CHOICE) {
            const int chosen = choice_at(shape, field);
            int words = 0;
            while (field->choices[words])
                words++;
            if (chosen < 0 || chosen >= words) {
                cw_diag_add(diags, where, CW_E_CHOICE,
                            "%s is number %d of %d choices; choose %s to %s", field->key,
                            chosen + 1, words, field->choices[0], field->choices[words - 1]);
                good = false;
            }
            continue;
        }
        const double value = number_at(shape, field);
        if (!(value >= field->low && value <= field->high)) {
            cw_diag_add(diags, where, CW_E_RANGE,
                        "%s %.6g %s is outside %.6g to %.6g; check the value and its unit",
                        field->key, value, cw_dim_unit(field->dim), field->low, field->high);
            good = false;
        }
    }
    return good;
}

static bool refuse(cw_pos where, cw_diags *diags, const char *message)
{
    cw_diag_add(diags, where, CW_E_GEOMETRY, "%s", message);
    return false;
}

static bool dimensions_suit_part(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    const bool lid = shape->part == CW_PART_LID;
    const bool ring = shape->part == CW_PART_RING;
    bool good = true;
    if (lid && (shape->leg_in > 0.0 || shape->haunch_in > 0.0))
        good = refuse(where, diags, "a lid has no walls or haunches; set leg and haunch to 0");
    if (!lid && !(shape->leg_in > 0.0))
        good = refuse(where, diags,
                      "a base, hood or ring needs walls; give a leg above 0 or choose lid");
    if (ring && !(shape->top_slab_in > 0.0))
        good = refuse(where, diags, "a ring needs a top slab; give top_slab or choose base");
    if (!ring && (shape->top_slab_in > 0.0 || shape->top_haunch_in > 0.0))
        good = refuse(where, diags,
                      "only a ring has top_slab and top_haunch; set them to 0 or choose ring");
    return good;
}

static bool haunches_fit(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    const double high_in = shape->haunch_in + shape->top_haunch_in;
    const double wide_in = 2.0 * fmax(shape->haunch_in, shape->top_haunch_in);
    if (shape->part == CW_PART_LID || (high_in <= shape->leg_in && wide_in <= shape->span_in))
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "haunches %.6g in high and %.6g in wide do not fit leg %.6g in and span %.6g in; "
                "make them smaller",
                high_in, wide_in, shape->leg_in, shape->span_in);
    return false;
}

bool cw_weight_section_valid(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    if (!in_range(shape, CW_PIECE_FIELDS_SECTION, CW_PIECE_FIELDS_LENGTH, where, diags))
        return false;
    if (!dimensions_suit_part(shape, where, diags))
        return false;
    return haunches_fit(shape, where, diags);
}

static double groove_of(const cw_piece_shape *shape, const cw_piece_end *end)
{
    return end->joint == CW_JOINT_GROOVE ? shape->groove_in : 0.0;
}

/* The end planes, with any groove, must leave concrete at both outside edges. */
static bool ends_stay_apart(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    const double turned[2] = {shape->downstream.skew_deg + shape->downstream.mitre_deg,
                              shape->upstream.skew_deg - shape->upstream.mitre_deg};
    if (!(cw_meets(fabs(turned[0]), 60.0) && cw_meets(fabs(turned[1]), 60.0))) {
        cw_diag_add(
            diags, where, CW_E_RANGE,
            "end faces turned %.4g and %.4g deg (skew and mitre together) pass the limit of "
            "60 deg; divide the turn over more joints",
            turned[0], turned[1]);
        return false;
    }
    const double change =
        cw_weight_upstream_plane(shape).rise - cw_weight_downstream_plane(shape).rise;
    const double half_in = 0.5 * shape->span_in + shape->wall_in;
    const double shortest_in = shape->length_in - fabs(change) * half_in;
    const double grooves_in =
        groove_of(shape, &shape->downstream) + groove_of(shape, &shape->upstream);
    if (shortest_in > grooves_in)
        return true;
    cw_diag_add(
        diags, where, CW_E_GEOMETRY,
        "the shorter side is %.4g in long, not more than the grooves (%.4g in); make the piece "
        "longer or the cut flatter",
        shortest_in, grooves_in);
    return false;
}

/* Extent across the run of all concrete that the opening passes through. */
static void hole_x_range(const cw_piece_shape *shape, const cw_piece_opening *opening,
                         double x_ft[2])
{
    const cw_hole_host host = cw_weight_host(shape, opening->face);
    if (opening->face == CW_HOLE_LEFT || opening->face == CW_HOLE_RIGHT) {
        const double side = opening->face == CW_HOLE_LEFT ? -1.0 : 1.0;
        const int cut = cw_weight_hole_haunches(&host, opening);
        double deep = 0.0;
        for (int i = 0; i < host.haunch_count; i++)
            if (cut & host.haunches[i].bit)
                deep = fmax(deep, host.haunches[i].leg_ft);
        x_ft[0] = host.middle_ft + side * 0.5 * host.thickness_ft;
        x_ft[1] = host.middle_ft - side * (0.5 * host.thickness_ft + deep);
        return;
    }
    const double half = 0.5 * cw_weight_hole_tall_in(opening);
    x_ft[0] = (opening->x_in - half) / CW_IN_PER_FT;
    x_ft[1] = (opening->x_in + half) / CW_IN_PER_FT;
}

static bool hole_clears_ends(const cw_piece_shape *shape, const cw_piece_opening *opening,
                             int number, cw_pos where, cw_diags *diags)
{
    double x_ft[2];
    hole_x_range(shape, opening, x_ft);
    const cw_end_plane from = cw_weight_downstream_plane(shape);
    const cw_end_plane to = cw_weight_upstream_plane(shape);
    const double first =
        CW_IN_PER_FT * fmax(cw_weight_plane_at(from, x_ft[0]), cw_weight_plane_at(from, x_ft[1])) +
        groove_of(shape, &shape->downstream);
    const double last =
        CW_IN_PER_FT * fmin(cw_weight_plane_at(to, x_ft[0]), cw_weight_plane_at(to, x_ft[1])) -
        groove_of(shape, &shape->upstream);
    const double half = 0.5 * cw_weight_hole_width_in(opening);
    if (cw_meets(first, opening->y_in - half) && cw_meets(opening->y_in + half, last))
        return true;
    cw_diag_add(
        diags, where, CW_E_GEOMETRY,
        "opening %d spans %.4g to %.4g in along the piece, outside the sound concrete from %.4g "
        "to %.4g in; move the opening or the joint",
        number, opening->y_in - half, opening->y_in + half, first, last);
    return false;
}

/* A hole may run past the open edge of a wall (the seat), where the neighbouring piece takes the
 * rest. */
static bool hole_on_face(const cw_piece_shape *shape, const cw_piece_opening *opening, int number,
                         cw_pos where, cw_diags *diags)
{
    const cw_hole_host host = cw_weight_host(shape, opening->face);
    const bool wall = opening->face == CW_HOLE_LEFT || opening->face == CW_HOLE_RIGHT;
    const bool open_above = wall && shape->part == CW_PART_BASE;
    const bool open_below = wall && shape->part == CW_PART_HOOD;
    const double low = CW_IN_PER_FT * host.low_ft, high = CW_IN_PER_FT * host.high_ft;
    const double half = 0.5 * cw_weight_hole_tall_in(opening);
    const double at = cw_weight_hole_along_in(opening);
    const bool low_good = open_below ? at + half > low : cw_meets(low, at - half);
    const bool high_good = open_above ? at - half < high : cw_meets(at + half, high);
    if (low_good && high_good)
        return true;
    cw_diag_add(
        diags, where, CW_E_GEOMETRY,
        "opening %d spans %.4g to %.4g in %s, outside its face from %.4g to %.4g in; move it or "
        "make it smaller",
        number, at - half, at + half, wall ? "above the underside" : "across", low, high);
    return false;
}

static bool hole_valid(const cw_piece_shape *shape, int index, cw_pos where, cw_diags *diags)
{
    const cw_piece_opening *opening = &shape->openings[index];
    const int number = index + 1;
    if (!cw_weight_face_exists(shape->part, opening->face)) {
        cw_diag_add(diags, where, CW_E_CONFLICT,
                    "opening %d is in a face that this piece does not have; choose another face or "
                    "piece",
                    number);
        return false;
    }
    const double wide = cw_weight_hole_width_in(opening), tall = cw_weight_hole_tall_in(opening);
    if (!(wide > 0.0 && tall > 0.0)) {
        cw_diag_add(diags, where, CW_E_RANGE,
                    "opening %d is %.4g by %.4g in; give a diameter, or width and tall, above 0",
                    number, wide, tall);
        return false;
    }
    const bool on_face = hole_on_face(shape, opening, number, where, diags);
    const bool clear = hole_clears_ends(shape, opening, number, where, diags);
    return on_face && clear;
}

/* Concrete can be removed only once.  Holes in one face are compared by their enclosing rectangles.
 */
static bool holes_overlap(const cw_piece_shape *shape, const cw_piece_opening *a,
                          const cw_piece_opening *b)
{
    const double reach_y = 0.5 * (cw_weight_hole_width_in(a) + cw_weight_hole_width_in(b));
    if (fabs(a->y_in - b->y_in) >= reach_y)
        return false;
    if (a->face == b->face) {
        const double reach = 0.5 * (cw_weight_hole_tall_in(a) + cw_weight_hole_tall_in(b));
        return fabs(cw_weight_hole_along_in(a) - cw_weight_hole_along_in(b)) < reach;
    }
    const cw_hole_host host_a = cw_weight_host(shape, a->face);
    const cw_hole_host host_b = cw_weight_host(shape, b->face);
    return (cw_weight_hole_haunches(&host_a, a) & cw_weight_hole_haunches(&host_b, b)) != 0;
}

static bool openings_valid(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    if (shape->opening_count < 0 || shape->opening_count > CW_PIECE_OPENINGS_MAX) {
        cw_diag_add(diags, where, CW_E_TOO_MANY,
                    "%d openings in one piece; the limit is %d: divide the piece",
                    shape->opening_count, CW_PIECE_OPENINGS_MAX);
        return false;
    }
    bool good = true;
    for (int i = 0; i < shape->opening_count; i++)
        good = hole_valid(shape, i, where, diags) && good;
    for (int i = 0; good && i < shape->opening_count; i++)
        for (int j = 0; j < i; j++)
            if (holes_overlap(shape, &shape->openings[i], &shape->openings[j])) {
                cw_diag_add(diags, where, CW_E_CONFLICT,
                            "openings %d and %d overlap; give them as one or move them apart",
                            j + 1, i + 1);
                good = false;
            }
    return good;
}

static bool extras_valid(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    if (shape->extra_count < 0 || shape->extra_count > CW_PIECE_EXTRAS_MAX) {
        cw_diag_add(diags, where, CW_E_TOO_MANY, "%d extra solids; the limit is %d: add them up",
                    shape->extra_count, CW_PIECE_EXTRAS_MAX);
        return false;
    }
    for (int i = 0; i < shape->extra_count; i++) {
        const cw_piece_solid *solid = &shape->extras[i];
        const double sum = solid->volume_cuft + solid->x_ft + solid->y_ft + solid->z_ft;
        if (!(isfinite(sum) && solid->unit_pcf >= 0.0 && solid->unit_pcf <= 1000.0)) {
            cw_diag_add(diags, where, CW_E_RANGE,
                        "extra solid %d has unit weight %.4g lb/ft3 or a size that is no number; "
                        "give 0 to 1000 lb/ft3",
                        i + 1, solid->unit_pcf);
            return false;
        }
    }
    return true;
}

static bool weight_left(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    const cw_piece_solids solids = cw_weight_solids(shape);
    double weight = 0.0;
    for (int i = 0; i < solids.count; i++)
        weight += solids.items[i].volume_cuft * solids.items[i].unit_pcf;
    if (weight > 0.0)
        return true;
    cw_diag_add(diags, where, CW_E_GEOMETRY,
                "the piece weighs %.4g lb after its openings and extras; it must weigh something",
                weight);
    return false;
}

bool cw_piece_shape_valid(const cw_piece_shape *shape, cw_pos where, cw_diags *diags)
{
    const bool section = cw_weight_section_valid(shape, where, diags);
    const bool ends = in_range(shape, CW_PIECE_FIELDS_ENDS, CW_PIECE_FIELDS_SECTION, where, diags);
    const bool rest =
        in_range(shape, CW_PIECE_FIELDS_LENGTH, CW_PIECE_FIELDS_OPENING, where, diags);
    if (!section || !ends || !rest || !ends_stay_apart(shape, where, diags))
        return false;
    const bool openings = openings_valid(shape, where, diags);
    const bool extras = extras_valid(shape, where, diags);
    return openings && extras && weight_left(shape, where, diags);
}
