#include "weight_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"

static cw_section_part rectangle(const char *name, const char *formula, const double x_ft[2],
                                 const double z_ft[2])
{
    const double half = 0.5 * (x_ft[1] - x_ft[0]);
    const double area = (x_ft[1] - x_ft[0]) * (z_ft[1] - z_ft[0]);
    const double x = 0.5 * (x_ft[0] + x_ft[1]);
    const double z = 0.5 * (z_ft[0] + z_ft[1]);
    // Parallel-axis theorem; the product of inertia about a rectangle's own axes is zero.
    return (cw_section_part){name,        formula, area, x, z, area * (x * x + half * half / 3.0),
                             area * x * z};
}

/* Right isosceles triangle with its right angle in the corner; @p right and @p up are +-1 toward
 * its toes. */
static cw_section_part haunch(const char *name, double leg_ft, const double corner_ft[2],
                              double right, double up)
{
    // Integrals over the triangle in axes u, v from the corner: area a^2/2, first moments A a/3,
    // u^2 gives A a^2/6, u v gives A a^2/12 (closed form).
    const double a = leg_ft;
    const double x0 = corner_ft[0], z0 = corner_ft[1];
    const double area = 0.5 * a * a;
    const double first = area * a / 3.0;
    const double square = area * a * a / 6.0;
    return (cw_section_part){.name = name,
                             .formula = "a^2/2 x L_c",
                             .area_sqft = area,
                             .x_ft = x0 + right * a / 3.0,
                             .z_ft = z0 + up * a / 3.0,
                             .xx_ft4 = x0 * x0 * area + 2.0 * x0 * right * first + square,
                             .xz_ft4 = x0 * z0 * area + (x0 * up + z0 * right) * first +
                                       right * up * 0.5 * square};
}

static void add(cw_section *section, cw_section_part part)
{
    if (part.area_sqft > 0.0) {
        assert(section->count < CW_SECTION_PARTS_MAX);
        section->parts[section->count++] = part;
    }
}

static void add_slab(cw_section *section, const cw_piece_shape *shape, double from_ft, double to_ft,
                     const char *name)
{
    const double half = (0.5 * shape->span_in + shape->wall_in) / CW_IN_PER_FT;
    add(section, rectangle(name, "(S + 2 t) t_s x L_c", (double[]){-half, half},
                           (double[]){from_ft, to_ft}));
}

static void add_walls(cw_section *section, const cw_piece_shape *shape, double from_ft,
                      double to_ft)
{
    const double inner = 0.5 * shape->span_in / CW_IN_PER_FT;
    const double outer = inner + shape->wall_in / CW_IN_PER_FT;
    add(section, rectangle("left wall", "t h x L_c", (double[]){-outer, -inner},
                           (double[]){from_ft, to_ft}));
    add(section,
        rectangle("right wall", "t h x L_c", (double[]){inner, outer}, (double[]){from_ft, to_ft}));
}

static void add_haunches(cw_section *section, const cw_piece_shape *shape, double leg_in,
                         double at_ft, double up)
{
    const double inner = 0.5 * shape->span_in / CW_IN_PER_FT;
    const double leg = leg_in / CW_IN_PER_FT;
    add(section, haunch("left haunch", leg, (double[]){-inner, at_ft}, 1.0, up));
    add(section, haunch("right haunch", leg, (double[]){inner, at_ft}, -1.0, up));
}

static void sum(cw_section *section)
{
    double area = 0.0, first = 0.0;
    for (int i = 0; i < section->count; i++) {
        area += section->parts[i].area_sqft;
        first += section->parts[i].area_sqft * section->parts[i].z_ft;
    }
    section->area_sqft = area;
    section->z_ft = area > 0.0 ? first / area : 0.0;
}

cw_section cw_weight_section(const cw_piece_shape *shape)
{
    const double slab = shape->slab_in / CW_IN_PER_FT;
    const double leg = shape->leg_in / CW_IN_PER_FT;
    const double top = shape->top_slab_in / CW_IN_PER_FT;
    cw_section section = {.width_in = shape->span_in + 2.0 * shape->wall_in,
                          .height_in = shape->slab_in + shape->leg_in};
    switch ((cw_piece_part)shape->part) {
    case CW_PART_LID:
        add_slab(&section, shape, 0.0, slab, "lid");
        break;
    case CW_PART_HOOD:
        add_slab(&section, shape, leg, leg + slab, "crown slab");
        add_walls(&section, shape, 0.0, leg);
        add_haunches(&section, shape, shape->haunch_in, leg, -1.0);
        break;
    case CW_PART_RING:
        section.height_in += shape->top_slab_in;
        add_slab(&section, shape, slab + leg, slab + leg + top, "top slab");
        add_haunches(&section, shape, shape->top_haunch_in, slab + leg, -1.0);
        // A ring is a base with a top cast on.
        // fall through
    case CW_PART_BASE:
        add_slab(&section, shape, 0.0, slab, "floor slab");
        add_walls(&section, shape, slab, slab + leg);
        add_haunches(&section, shape, shape->haunch_in, slab, 1.0);
        break;
    }
    sum(&section);
    return section;
}

cw_end_plane cw_weight_downstream_plane(const cw_piece_shape *shape)
{
    const cw_piece_end *end = &shape->downstream;
    return (cw_end_plane){0.0, tan((end->skew_deg + end->mitre_deg) * CW_RAD_PER_DEG)};
}

cw_end_plane cw_weight_upstream_plane(const cw_piece_shape *shape)
{
    const cw_piece_end *end = &shape->upstream;
    return (cw_end_plane){shape->length_in / CW_IN_PER_FT,
                          tan((end->skew_deg - end->mitre_deg) * CW_RAD_PER_DEG)};
}

double cw_weight_plane_at(cw_end_plane plane, double x_ft)
{
    return plane.at_ft + plane.rise * x_ft;
}
