#include "weight_internal.h"

#include <assert.h>
#include <math.h>

#include "cw/units.h"

static const char cut_prism[] = "derived: prism between two plumb end planes, integrated over the "
                                "width; L_c is the length at its centroid";
static const char statics[] = "statics: composite bodies";

void cw_weight_add_solid(cw_piece_solids *solids, cw_piece_solid solid)
{
    assert(solids->count < CW_PIECE_SOLIDS_MAX);
    solids->items[solids->count++] = solid;
}

/* One figure of the section run from end plane to end plane.
 * With length L + k x (k the difference of the two rises), V = A (L + k x_c); the moments follow
 * from the integrals of x^2 and x z, and that of y from half the difference of the squared end
 * ordinates. */
static cw_piece_solid prism(const cw_section_part *part, cw_end_plane from, cw_end_plane to,
                            double unit_pcf)
{
    const double area = part->area_sqft;
    const double length = to.at_ft - from.at_ft;
    const double rise = to.rise - from.rise;
    const double volume = area * (length + rise * part->x_ft);
    const double x_moment = length * area * part->x_ft + rise * part->xx_ft4;
    const double z_moment = length * area * part->z_ft + rise * part->xz_ft4;
    const double y_moment =
        0.5 * (area * (to.at_ft * to.at_ft - from.at_ft * from.at_ft) +
               2.0 * area * part->x_ft * (to.at_ft * to.rise - from.at_ft * from.rise) +
               part->xx_ft4 * (to.rise * to.rise - from.rise * from.rise));
    return (cw_piece_solid){part->name,        part->formula,     volume,
                            unit_pcf,          x_moment / volume, y_moment / volume,
                            z_moment / volume, cut_prism};
}

/* @p outward is -1 at the downstream end and +1 at the upstream end.  The section is symmetric, so
 * a slanted face leaves the centroid of a slice that follows it on the centre line. */
static void add_joint(cw_piece_solids *solids, const cw_piece_shape *shape,
                      const cw_section *section, const cw_piece_end *end, double outward)
{
    const double face = outward > 0.0 ? shape->length_in / CW_IN_PER_FT : 0.0;
    const bool tongue = end->joint == CW_JOINT_TONGUE;
    const double run = (tongue ? shape->tongue_in : shape->groove_in) / CW_IN_PER_FT;
    const double share = tongue ? shape->tongue_share : shape->groove_share;
    const double volume = share * section->area_sqft * run;
    if (end->joint == CW_JOINT_PLAIN || !(volume > 0.0))
        return;
    cw_weight_add_solid(
        solids,
        (cw_piece_solid){.name = tongue ? "tongue" : "groove",
                         .formula = tongue ? "share x A x projection" : "-share x A x depth",
                         .volume_cuft = tongue ? volume : -volume,
                         .unit_pcf = shape->unit_pcf,
                         .x_ft = 0.0,
                         .y_ft = face + (tongue ? outward : -outward) * 0.5 * run,
                         .z_ft = section->z_ft,
                         .source = "derived: slice of the section that follows the end face"});
}

static void add_end_weight(cw_piece_solids *solids, const cw_piece_shape *shape,
                           const cw_section *section, double weight_lb, double y_ft)
{
    if (weight_lb > 0.0)
        cw_weight_add_solid(solids,
                            (cw_piece_solid){.name = "end thickening",
                                             .formula = "given weight / unit weight",
                                             .volume_cuft = weight_lb / shape->unit_pcf,
                                             .unit_pcf = shape->unit_pcf,
                                             .x_ft = 0.0,
                                             .y_ft = y_ft,
                                             .source = "common practice: taken at the end face",
                                             .z_ft = section->z_ft});
}

static cw_piece_solids solids_of(const cw_piece_shape *shape, const cw_section *section)
{
    const cw_end_plane from = cw_weight_downstream_plane(shape);
    const cw_end_plane to = cw_weight_upstream_plane(shape);
    cw_piece_solids solids = {.count = 0};
    for (int i = 0; i < section->count; i++)
        cw_weight_add_solid(&solids, prism(&section->parts[i], from, to, shape->unit_pcf));
    add_joint(&solids, shape, section, &shape->downstream, -1.0);
    add_joint(&solids, shape, section, &shape->upstream, 1.0);
    assert(shape->opening_count <= CW_PIECE_OPENINGS_MAX);
    for (int i = 0; i < shape->opening_count; i++)
        cw_weight_cut_opening(shape, &shape->openings[i], &solids);
    add_end_weight(&solids, shape, section, shape->extra_downstream_lb, from.at_ft);
    add_end_weight(&solids, shape, section, shape->extra_upstream_lb, to.at_ft);
    assert(shape->extra_count <= CW_PIECE_EXTRAS_MAX);
    for (int i = 0; i < shape->extra_count; i++)
        cw_weight_add_solid(&solids, shape->extras[i]);
    return solids;
}

cw_piece_solids cw_weight_solids(const cw_piece_shape *shape)
{
    const cw_section section = cw_weight_section(shape);
    return solids_of(shape, &section);
}

static void sum(const cw_piece_solids *solids, cw_piece_weight *out)
{
    double weight = 0.0, volume = 0.0, x = 0.0, y = 0.0, z = 0.0;
    for (int i = 0; i < solids->count; i++) {
        const cw_piece_solid *solid = &solids->items[i];
        const double part = solid->volume_cuft * solid->unit_pcf;
        volume += solid->volume_cuft;
        weight += part;
        x += part * solid->x_ft;
        y += part * solid->y_ft;
        z += part * solid->z_ft;
    }
    assert(weight > 0.0);
    out->volume_cuft = volume;
    out->weight_lb = weight;
    out->x_ft = x / weight;
    out->y_ft = y / weight;
    out->z_ft = z / weight;
}

static double tongue_of(const cw_piece_shape *shape, const cw_piece_end *end)
{
    return end->joint == CW_JOINT_TONGUE ? shape->tongue_in : 0.0;
}

static void measure(const cw_piece_shape *shape, const cw_section *section, cw_piece_weight *out)
{
    const double half_in = 0.5 * section->width_in;
    const double from = cw_weight_downstream_plane(shape).rise;
    const double to = cw_weight_upstream_plane(shape).rise;
    const double change_in = fabs(to - from) * half_in;
    out->section_area_sqft = section->area_sqft;
    out->section_z_ft = section->z_ft;
    out->weight_lb_per_ft = section->area_sqft * shape->unit_pcf;
    out->width_in = section->width_in;
    out->height_in = section->height_in;
    out->overall_length_in = shape->length_in + (fabs(from) + fabs(to)) * half_in +
                             tongue_of(shape, &shape->downstream) +
                             tongue_of(shape, &shape->upstream);
    out->longest_in = shape->length_in + change_in;
    out->shortest_in = shape->length_in - change_in;
}

/* Less than half of the last printed place is nothing: never "-0.0000". */
static double tidy(double value_ft)
{
    return fabs(value_ft) < 0.5e-4 ? 0.0 : value_ft;
}

static void show_solid(cw_working *working, int number, const cw_piece_solid *solid)
{
    // Rounding in the text is for reading; the sums use the full values.
    const char *symbol = cw_arena_print(working->arena, "V_%d", number);
    const char *text =
        cw_arena_print(working->arena, "%s: %s; %.1f lb/ft3 at x %.4f, y %.4f, z %.4f ft",
                       solid->name, solid->formula ? solid->formula : "given", solid->unit_pcf,
                       tidy(solid->x_ft), tidy(solid->y_ft), tidy(solid->z_ft));
    cw_step_add(working, symbol, text, solid->volume_cuft, CW_DIM_CUFT,
                solid->source ? solid->source : "given");
}

static void show(cw_working *working, const cw_piece_solids *solids, const cw_piece_weight *out)
{
    cw_step_add(working, "A", "sum of slabs, walls and haunches of the section",
                out->section_area_sqft, CW_DIM_SQFT, "closed form: areas");
    for (int i = 0; i < solids->count; i++)
        show_solid(working, i + 1, &solids->items[i]);
    cw_step_add(working, "V", "sum V_i", out->volume_cuft, CW_DIM_CUFT, statics);
    cw_step_add(working, "W", "sum g_i V_i", out->weight_lb, CW_DIM_LB, statics);
    cw_step_add(working, "x", "sum g_i V_i x_i / W", out->x_ft, CW_DIM_FT, statics);
    cw_step_add(working, "y", "sum g_i V_i y_i / W", out->y_ft, CW_DIM_FT, statics);
    cw_step_add(working, "z", "sum g_i V_i z_i / W", out->z_ft, CW_DIM_FT, statics);
}

cw_piece_weight cw_weight_compute(const cw_piece_shape *shape, cw_working *working)
{
    const cw_section section = cw_weight_section(shape);
    const cw_piece_solids solids = solids_of(shape, &section);
    cw_piece_weight out = {.volume_cuft = 0.0};
    sum(&solids, &out);
    measure(shape, &section, &out);
    if (working)
        show(working, &solids, &out);
    return out;
}

cw_pick_points cw_weight_picks(const cw_piece_shape *shape, double end_ratio)
{
    assert(end_ratio >= 0.0 && end_ratio <= 0.5);
    const cw_end_plane from = cw_weight_downstream_plane(shape);
    const cw_end_plane to = cw_weight_upstream_plane(shape);
    const double x = 0.5 * (shape->span_in + shape->wall_in) / CW_IN_PER_FT;
    const cw_section section = cw_weight_section(shape);
    cw_pick_points picks = {.z_ft = section.height_in / CW_IN_PER_FT};
    for (int i = 0; i < 4; i++) {
        const double at = i % 2 == 0 ? -x : x;
        const double start = cw_weight_plane_at(from, at);
        const double end = cw_weight_plane_at(to, at);
        const double share = i < 2 ? end_ratio : 1.0 - end_ratio;
        picks.x_ft[i] = at;
        picks.y_ft[i] = start + share * (end - start);
    }
    return picks;
}
