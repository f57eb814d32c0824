#include "weight_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"

bool cw_weight_face_exists(int part, int face)
{
    switch ((cw_hole_face)face) {
    case CW_HOLE_LEFT:
    case CW_HOLE_RIGHT:
        return part != CW_PART_LID;
    case CW_HOLE_FLOOR:
        return part == CW_PART_BASE || part == CW_PART_RING;
    case CW_HOLE_TOP:
        return part != CW_PART_BASE;
    }
    return false;
}

static void add_haunch(cw_hole_host *host, cw_hole_haunch haunch)
{
    if (haunch.leg_ft > 0.0)
        host->haunches[host->haunch_count++] = haunch;
}

/* The walls of a hood stand on its feet, those of a base or ring on the floor. */
static double wall_foot_ft(const cw_piece_shape *shape)
{
    return shape->part == CW_PART_HOOD ? 0.0 : shape->slab_in / CW_IN_PER_FT;
}

static double high_haunch_ft(const cw_piece_shape *shape)
{
    if (shape->part == CW_PART_RING)
        return shape->top_haunch_in / CW_IN_PER_FT;
    return shape->part == CW_PART_HOOD ? shape->haunch_in / CW_IN_PER_FT : 0.0;
}

static double low_haunch_ft(const cw_piece_shape *shape)
{
    const bool has_floor = shape->part == CW_PART_BASE || shape->part == CW_PART_RING;
    return has_floor ? shape->haunch_in / CW_IN_PER_FT : 0.0;
}

static cw_hole_host wall_host(const cw_piece_shape *shape, bool left)
{
    const double side = left ? -1.0 : 1.0;
    const double wall = shape->wall_in / CW_IN_PER_FT;
    const double inner = 0.5 * shape->span_in / CW_IN_PER_FT;
    const double low = wall_foot_ft(shape);
    const double high = low + shape->leg_in / CW_IN_PER_FT;
    cw_hole_host host = {.low_ft = low,
                         .high_ft = high,
                         .middle_ft = side * (inner + 0.5 * wall),
                         .thickness_ft = wall};
    add_haunch(&host, (cw_hole_haunch){left ? CW_HAUNCH_LEFT_LOW : CW_HAUNCH_RIGHT_LOW, low, 1.0,
                                       side * inner, -side, low_haunch_ft(shape)});
    add_haunch(&host, (cw_hole_haunch){left ? CW_HAUNCH_LEFT_HIGH : CW_HAUNCH_RIGHT_HIGH, high,
                                       -1.0, side * inner, -side, high_haunch_ft(shape)});
    return host;
}

static cw_hole_host slab_host(const cw_piece_shape *shape, bool floor)
{
    const double inner = 0.5 * shape->span_in / CW_IN_PER_FT;
    const double soffit = wall_foot_ft(shape) + shape->leg_in / CW_IN_PER_FT;
    const bool is_lid = shape->part == CW_PART_LID;
    const double slab =
        (shape->part == CW_PART_RING && !floor ? shape->top_slab_in : shape->slab_in) /
        CW_IN_PER_FT;
    const double bottom = floor || is_lid ? 0.0 : soffit;
    cw_hole_host host = {
        .low_ft = -inner, .high_ft = inner, .middle_ft = bottom + 0.5 * slab, .thickness_ft = slab};
    const double surface = floor ? slab : bottom;
    const double inward = floor ? 1.0 : -1.0;
    const double leg = floor ? low_haunch_ft(shape) : high_haunch_ft(shape);
    add_haunch(&host, (cw_hole_haunch){floor ? CW_HAUNCH_LEFT_LOW : CW_HAUNCH_LEFT_HIGH, -inner,
                                       1.0, surface, inward, leg});
    add_haunch(&host, (cw_hole_haunch){floor ? CW_HAUNCH_RIGHT_LOW : CW_HAUNCH_RIGHT_HIGH, inner,
                                       -1.0, surface, inward, leg});
    return host;
}

cw_hole_host cw_weight_host(const cw_piece_shape *shape, int face)
{
    if (face == CW_HOLE_LEFT || face == CW_HOLE_RIGHT)
        return wall_host(shape, face == CW_HOLE_LEFT);
    return slab_host(shape, face == CW_HOLE_FLOOR);
}

double cw_weight_hole_along_in(const cw_piece_opening *opening)
{
    const bool wall = opening->face == CW_HOLE_LEFT || opening->face == CW_HOLE_RIGHT;
    return wall ? opening->z_in : opening->x_in;
}

double cw_weight_hole_tall_in(const cw_piece_opening *opening)
{
    return opening->is_round ? opening->diameter_in : opening->tall_in;
}

double cw_weight_hole_width_in(const cw_piece_opening *opening)
{
    return opening->is_round ? opening->diameter_in : opening->width_in;
}

/* The part of the outline between two lines parallel to the run: integrals of c, u c and u^2 c du,
 * where c(u) is the chord along the run at distance u from the centre. */
typedef struct chord_moments {
    double m0, m1, m2;
} chord_moments;

/* Antiderivatives for the circle's chord 2 sqrt(r^2 - u^2); tables of integrals. */
static chord_moments circle_up_to(double radius, double u)
{
    const double rr = radius * radius;
    const double ratio = fmin(1.0, fmax(-1.0, u / radius));
    const double half = sqrt(fmax(0.0, rr - u * u));
    const double angle = asin(ratio);
    return (chord_moments){u * half + rr * angle, -2.0 / 3.0 * half * half * half,
                           0.25 * (u * (2.0 * u * u - rr) * half + rr * rr * angle)};
}

static chord_moments rectangle_up_to(double width, double u)
{
    return (chord_moments){width * u, width * u * u / 2.0, width * u * u * u / 3.0};
}

static chord_moments outline_between(const cw_piece_opening *opening, double low_ft, double high_ft)
{
    const double half = 0.5 * cw_weight_hole_tall_in(opening) / CW_IN_PER_FT;
    const double centre = cw_weight_hole_along_in(opening) / CW_IN_PER_FT;
    const double from = fmax(low_ft - centre, -half);
    const double to = fmin(high_ft - centre, half);
    if (!(to > from))
        return (chord_moments){0.0, 0.0, 0.0};
    const bool is_round = opening->is_round;
    const double width = cw_weight_hole_width_in(opening) / CW_IN_PER_FT;
    const chord_moments a = is_round ? circle_up_to(half, from) : rectangle_up_to(width, from);
    const chord_moments b = is_round ? circle_up_to(half, to) : rectangle_up_to(width, to);
    return (chord_moments){b.m0 - a.m0, b.m1 - a.m1, b.m2 - a.m2};
}

static void haunch_ends(const cw_hole_haunch *haunch, double *low_ft, double *high_ft)
{
    const double toe = haunch->corner_ft + haunch->toward * haunch->leg_ft;
    *low_ft = fmin(haunch->corner_ft, toe);
    *high_ft = fmax(haunch->corner_ft, toe);
}

int cw_weight_hole_haunches(const cw_hole_host *host, const cw_piece_opening *opening)
{
    int bits = 0;
    for (int i = 0; i < host->haunch_count; i++) {
        double low, high;
        haunch_ends(&host->haunches[i], &low, &high);
        if (outline_between(opening, low, high).m0 > 0.0)
            bits |= host->haunches[i].bit;
    }
    return bits;
}

static void cut(cw_piece_solids *solids, const cw_piece_shape *shape,
                const cw_piece_opening *opening, cw_piece_solid part)
{
    part.unit_pcf = shape->unit_pcf;
    part.y_ft = opening->y_in / CW_IN_PER_FT;
    cw_weight_add_solid(solids, part);
}

/* A point at @p along_ft in the face and @p through_ft through it, as x and z. */
static void place(cw_piece_solid *part, int face, double along_ft, double through_ft)
{
    const bool wall = face == CW_HOLE_LEFT || face == CW_HOLE_RIGHT;
    part->x_ft = wall ? through_ft : along_ft;
    part->z_ft = wall ? along_ft : through_ft;
}

static void cut_haunch(cw_piece_solids *solids, const cw_piece_shape *shape,
                       const cw_piece_opening *opening, const cw_hole_haunch *haunch)
{
    double low, high;
    haunch_ends(haunch, &low, &high);
    const chord_moments m = outline_between(opening, low, high);
    const double centre = cw_weight_hole_along_in(opening) / CW_IN_PER_FT;
    // Depth of the haunch at u from the centre of the opening: d = d0 + d1 u; then V is the
    // integral of c d, and the moments about the inside surface and the centre are those of c d^2/2
    // and u c d.
    const double d1 = -haunch->toward;
    const double d0 = haunch->leg_ft - haunch->toward * (centre - haunch->corner_ft);
    const double volume = d0 * m.m0 + d1 * m.m1;
    if (!(volume > 0.0))
        return;
    const double deep = 0.5 * (d0 * d0 * m.m0 + 2.0 * d0 * d1 * m.m1 + d1 * d1 * m.m2) / volume;
    const double along = centre + (d0 * m.m1 + d1 * m.m2) / volume;
    cw_piece_solid part = {.name = "opening, in the haunch",
                           .formula = "-(integral of chord x depth of the haunch)",
                           .volume_cuft = -volume,
                           .source = "derived: chord of the outline times linear depth"};
    place(&part, opening->face, along, haunch->surface_ft + haunch->inward * deep);
    cut(solids, shape, opening, part);
}

void cw_weight_cut_opening(const cw_piece_shape *shape, const cw_piece_opening *opening,
                           cw_piece_solids *solids)
{
    const cw_hole_host host = cw_weight_host(shape, opening->face);
    const chord_moments m = outline_between(opening, host.low_ft, host.high_ft);
    if (!(m.m0 > 0.0))
        return;
    const double centre = cw_weight_hole_along_in(opening) / CW_IN_PER_FT;
    cw_piece_solid part = {.name = opening->is_round ? "round opening" : "rectangular opening",
                           .formula = "-(area of the outline within the face) x thickness",
                           .volume_cuft = -m.m0 * host.thickness_ft,
                           .source = "closed form: area of the outline"};
    place(&part, opening->face, centre + m.m1 / m.m0, host.middle_ft);
    cut(solids, shape, opening, part);
    for (int i = 0; i < host.haunch_count; i++)
        cut_haunch(solids, shape, opening, &host.haunches[i]);
}
