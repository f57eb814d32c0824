/* Faults of the strength section that no single value shows. */
#include "job_internal.h"

#include "cw/text.h"

static cw_pos at(const cw_builder *b, const char *path)
{
    return cw_entries_place(b->entries, path);
}

static const char *ft_words(const cw_builder *b, double length_ft)
{
    return cw_quantity_format(b->arena, length_ft, CW_DIM_FT, CW_US);
}

static void check_covers(cw_builder *b)
{
    const cw_job_strength *strength = &b->job->strength;
    if (strength->has_cover_least && strength->has_cover_most &&
        strength->cover_least_ft > strength->cover_most_ft)
        cw_diag_add(b->diags, at(b, "strength.cover_least"), CW_E_CONFLICT,
                    "least cover %s is above most cover %s; exchange them",
                    ft_words(b, strength->cover_least_ft), ft_words(b, strength->cover_most_ft));
}

static void check_sides(cw_builder *b)
{
    const cw_job_strength *strength = &b->job->strength;
    if (cw_job_sound(b, "strength.side_most") && cw_job_sound(b, "strength.side_least") &&
        strength->side_least_pcf > strength->side_most_pcf)
        cw_diag_add(b->diags, at(b, "strength.side_least"), CW_E_CONFLICT,
                    "least side pressure %s is above the greatest, %s; exchange them",
                    cw_quantity_format(b->arena, strength->side_least_pcf, CW_DIM_PCF, CW_US),
                    cw_quantity_format(b->arena, strength->side_most_pcf, CW_DIM_PCF, CW_US));
    if (strength->bed == 1) {
        const cw_wanted keys[] = {{strength->has_trench, "trench"}};
        cw_job_need(b, "strength", "bed: trench", keys, 1);
    }
}

static double thickness_in(const cw_job_box *box, int face)
{
    return face <= CW_STEEL_TOP_OUTSIDE    ? box->top_in
           : face <= CW_STEEL_WALL_OUTSIDE ? box->wall_in
                                           : box->floor_in;
}

static void check_steel(cw_builder *b, int index)
{
    static const char *const members[] = {"top", "top", "wall", "wall", "floor", "floor"};
    const cw_job_strength *strength = &b->job->strength;
    const cw_job_steel *steel = &strength->steel[index];
    const char *path = cw_arena_print(b->arena, "strength.steel[%d]", index);
    if (!cw_job_sound(b, cw_arena_print(b->arena, "%s.at", path)))
        return;
    for (int i = 0; i < index; i++)
        if (strength->steel[i].at == steel->at)
            cw_diag_add(b->diags, at(b, cw_arena_print(b->arena, "%s.at", path)), CW_E_DUPLICATE,
                        "rows %d and %d of strength.steel give the same face; keep one", i + 1,
                        index + 1);
    const double thick_in = thickness_in(&b->job->box, steel->at);
    const double deep_in = steel->cover_in + steel->size_in / 2.0;
    if (cw_job_sound(b, cw_arena_print(b->arena, "box.%s", members[steel->at])) &&
        cw_job_sound(b, cw_arena_print(b->arena, "%s.cover", path)) &&
        cw_job_sound(b, cw_arena_print(b->arena, "%s.size", path)) && !(deep_in < thick_in / 2.0))
        cw_diag_add(b->diags, at(b, path), CW_E_GEOMETRY,
                    "the middle of this steel lies %s under the face of a %s that is %s thick, "
                    "beyond its middle; check cover and size",
                    cw_quantity_format(b->arena, deep_in, CW_DIM_IN, CW_US), members[steel->at],
                    cw_quantity_format(b->arena, thick_in, CW_DIM_IN, CW_US));
}

static void check_vehicle(cw_builder *b, int index)
{
    enum { AXLES_MAX = 16 }; // as the structures discipline holds
    const cw_job_vehicle *vehicle = &b->job->strength.vehicles[index];
    const char *path = cw_arena_print(b->arena, "strength.vehicles[%d]", index);
    if (vehicle->kind == CW_VEHICLE_TRACKS) {
        const cw_wanted keys[] = {{vehicle->has_weight, "weight"},
                                  {vehicle->has_width, "width"},
                                  {vehicle->has_length, "length"}};
        cw_job_need(b, path, "kind: tracks", keys, 3);
        return;
    }
    const cw_wanted keys[] = {{vehicle->has_axles, "axles"}};
    cw_job_need(b, path, "kind: wheels", keys, 1);
    if (!vehicle->has_axles)
        return;
    const int axles = vehicle->axles_lb.count;
    const int gaps = vehicle->has_spacing ? vehicle->spacing_ft.count : 0;
    if (axles > AXLES_MAX)
        cw_diag_add(b->diags, at(b, cw_arena_print(b->arena, "%s.axles", path)), CW_E_RANGE,
                    "%d axles; at most %d are counted: leave out those that are never on the box "
                    "together with the heaviest",
                    axles, (int)AXLES_MAX);
    else if (gaps != axles - 1)
        cw_diag_add(b->diags, at(b, path), CW_E_CONFLICT,
                    "%d axles have %d spaces between them, and spacing gives %d; correct one of "
                    "the lists",
                    axles, axles - 1, gaps);
}

void cw_job_validate_strength(cw_builder *b)
{
    const cw_job_strength *strength = &b->job->strength;
    if (!strength->present)
        return;
    check_covers(b);
    check_sides(b);
    for (int i = 0; i < strength->steel_count; i++)
        check_steel(b, i);
    for (int i = 0; i < strength->vehicle_count; i++)
        check_vehicle(b, i);
}
