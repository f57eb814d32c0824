/* Faults of obstacles and of traffic beside the cut that no single value shows. */
#include "job_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"

/* Things farther past an end than this cannot meet the cut: the reach of a deep cut and its wings.
 */
#define PAST_ENDS_FT 150.0

static cw_pos at(const cw_builder *b, const char *path)
{
    return cw_entries_place(b->entries, path);
}

static const char *item(const cw_builder *b, const char *list, int index, const char *key)
{
    return cw_arena_print(b->arena, "obstacles.%s[%d]%s%s", list, index, key[0] ? "." : "", key);
}

static const char *ft_words(const cw_builder *b, double length_ft)
{
    return cw_quantity_format(b->arena, length_ft, CW_DIM_FT, CW_US);
}

static bool tried(const cw_builder *b, const char *path)
{
    const cw_slot *slot = cw_job_slot(b, path);
    return slot && slot->entry >= 0;
}

/* ---- utilities ---- */

static void check_place(cw_builder *b, const cw_job_utility *utility, int index)
{
    const char *keys[] = {"from", "from_offset", "to", "to_offset"};
    cw_text missing = cw_text_on(b->arena);
    int points = 0;
    for (int k = 0; k < 4; k++) {
        if (tried(b, item(b, "utilities", index, keys[k])))
            points++;
        else
            cw_text_print(&missing, "%s%s", missing.length > 0 ? ", " : "", keys[k]);
    }
    const bool crosses = tried(b, item(b, "utilities", index, "at"));
    if (crosses && points > 0)
        cw_diag_add(b->diags, at(b, item(b, "utilities", index, "at")), CW_E_CONFLICT,
                    "%s has both a crossing (at) and points (from, to); give one of them",
                    utility->name);
    else if (!crosses && points == 0)
        cw_diag_add(b->diags, at(b, item(b, "utilities", index, "")), CW_E_MISSING,
                    "%s has no place; give at where it crosses the centre line, or from, "
                    "from_offset, to and to_offset",
                    utility->name);
    else if (!crosses && points < 4)
        cw_diag_add(b->diags, at(b, item(b, "utilities", index, "")), CW_E_MISSING,
                    "%s lies between two points and lacks %s", utility->name,
                    cw_text_string(&missing));
    if (!crosses && cw_job_given(b, item(b, "utilities", index, "angle")))
        cw_diag_add(
            b->diags, at(b, item(b, "utilities", index, "angle")), CW_E_CONFLICT,
            "angle goes with at, where the utility crosses the centre line; remove it or give at");
    if (points == 4 && utility->has_from && utility->has_to && utility->has_from_offset &&
        utility->has_to_offset &&
        hypot(utility->to_ft - utility->from_ft, utility->to_offset_ft - utility->from_offset_ft) <
            CW_SAME_PLACE_FT)
        cw_diag_add(b->diags, at(b, item(b, "utilities", index, "")), CW_E_GEOMETRY,
                    "both points of %s are the same; give two points that lie apart",
                    utility->name);
}

static void check_level(cw_builder *b, const cw_job_utility *utility, int index)
{
    const bool level = tried(b, item(b, "utilities", index, "elevation")),
               depth = tried(b, item(b, "utilities", index, "depth"));
    const cw_job *job = b->job;
    if (level && depth)
        cw_diag_add(b->diags, at(b, item(b, "utilities", index, "depth")), CW_E_CONFLICT,
                    "%s has both an elevation and a depth; keep the elevation that was measured",
                    utility->name);
    else if (!level && !depth)
        cw_diag_add(
            b->diags, at(b, item(b, "utilities", index, "")), CW_E_MISSING,
            "%s has no level; give elevation of its top, or depth of its top below the ground",
            utility->name);
    else if (depth && !job->ground.present && !cw_entries_given(b->entries, "ground") &&
             !(job->road.outlet.present && job->road.inlet.present))
        cw_diag_add(b->diags, at(b, item(b, "utilities", index, "depth")), CW_E_MISSING,
                    "the depth of %s has no ground to count from; give its elevation, or add "
                    "ground or the road templates",
                    utility->name);
}

static void check_inside(cw_builder *b, const char *name, const char *path, double from_ft,
                         double to_ft)
{
    const cw_job_run *run = &b->job->run;
    if (!run->has_length)
        return;
    const double low_ft = fmin(from_ft, to_ft), high_ft = fmax(from_ft, to_ft);
    if (high_ft >= -PAST_ENDS_FT && low_ft <= run->length_ft + PAST_ENDS_FT)
        return;
    cw_diag_add(b->diags, at(b, path), CW_E_GEOMETRY,
                "%s lies at %s, more than %s outside of the run from 0 ft to %s; correct its place "
                "or leave it out",
                name, ft_words(b, high_ft < -PAST_ENDS_FT ? high_ft : low_ft),
                ft_words(b, PAST_ENDS_FT), ft_words(b, run->length_ft));
}

static void check_support(cw_builder *b, const cw_job_utility *utility, int index)
{
    if (utility->status == CW_UTILITY_LIVE && utility->support == CW_SUPPORT_REMOVE &&
        cw_job_sound(b, item(b, "utilities", index, "support")) &&
        cw_job_sound(b, item(b, "utilities", index, "status")))
        cw_diag_add(
            b->diags, at(b, item(b, "utilities", index, "support")), CW_E_CONFLICT,
            "%s is live and cannot be removed; write relocate or shut_off, or status: abandoned",
            utility->name);
}

static void check_utility(cw_builder *b, int index)
{
    const cw_job_utility *utility = &b->job->obstacles.utilities[index];
    if (!utility->name || !utility->name[0])
        return; // reported already
    check_place(b, utility, index);
    check_level(b, utility, index);
    check_support(b, utility, index);
    if (utility->has_at)
        check_inside(b, utility->name, item(b, "utilities", index, "at"), utility->at_ft,
                     utility->at_ft);
    else if (utility->has_from && utility->has_to)
        check_inside(b, utility->name, item(b, "utilities", index, "from"), utility->from_ft,
                     utility->to_ft);
    for (int i = 0; i < index; i++)
        if (cw_text_same(b->job->obstacles.utilities[i].name, utility->name))
            cw_diag_add(b->diags, at(b, item(b, "utilities", index, "name")), CW_E_DUPLICATE,
                        "two utilities are called %s; tell them apart", utility->name);
}

/* ---- structures, lines, traffic ---- */

static void check_structure(cw_builder *b, int index)
{
    const cw_job_structure *structure = &b->job->obstacles.structures[index];
    const char *keys[] = {"name", "from", "to", "near", "far"};
    for (int k = 0; k < 5; k++)
        if (!cw_job_sound(b, item(b, "structures", index, keys[k])))
            return;
    if (!(structure->to_ft > structure->from_ft))
        cw_diag_add(b->diags, at(b, item(b, "structures", index, "to")), CW_E_GEOMETRY,
                    "%s ends at %s, not upstream of where it begins, %s; exchange from and to",
                    structure->name, ft_words(b, structure->to_ft),
                    ft_words(b, structure->from_ft));
    if (structure->near_ft * structure->far_ft <= 0.0)
        cw_diag_add(b->diags, at(b, item(b, "structures", index, "near")), CW_E_GEOMETRY,
                    "%s stands across the centre line, from %s to %s; what stands on the culvert "
                    "is taken down, not kept clear of",
                    structure->name, ft_words(b, structure->near_ft),
                    ft_words(b, structure->far_ft));
    else if (!(fabs(structure->far_ft) > fabs(structure->near_ft)))
        cw_diag_add(b->diags, at(b, item(b, "structures", index, "far")), CW_E_GEOMETRY,
                    "the far side of %s, %s, is not farther out than its near side, %s; exchange "
                    "near and far",
                    structure->name, ft_words(b, structure->far_ft),
                    ft_words(b, structure->near_ft));
    check_inside(b, structure->name, item(b, "structures", index, "from"), structure->from_ft,
                 structure->to_ft);
    for (int i = 0; i < index; i++)
        if (cw_text_same(b->job->obstacles.structures[i].name, structure->name))
            cw_diag_add(b->diags, at(b, item(b, "structures", index, "name")), CW_E_DUPLICATE,
                        "two structures are called %s; tell them apart", structure->name);
}

static void check_boundary(cw_builder *b, int index)
{
    const cw_job_boundary *line = &b->job->obstacles.boundaries[index];
    const char *keys[] = {"name", "from", "from_offset", "to", "to_offset"};
    for (int k = 0; k < 5; k++)
        if (!cw_job_sound(b, item(b, "boundaries", index, keys[k])))
            return;
    if (line->from_offset_ft * line->to_offset_ft <= 0.0)
        cw_diag_add(b->diags, at(b, item(b, "boundaries", index, "to_offset")), CW_E_GEOMETRY,
                    "%s crosses the centre line, from %s to %s; end it where it comes to the "
                    "culvert, or correct the sign",
                    line->name, ft_words(b, line->from_offset_ft), ft_words(b, line->to_offset_ft));
    if (fabs(line->to_ft - line->from_ft) < CW_SAME_PLACE_FT)
        cw_diag_add(
            b->diags, at(b, item(b, "boundaries", index, "to")), CW_E_GEOMETRY,
            "%s begins and ends at %s along the run; a line across the run needs no room beside it",
            line->name, ft_words(b, line->from_ft));
    for (int i = 0; i < index; i++)
        if (cw_text_same(b->job->obstacles.boundaries[i].name, line->name))
            cw_diag_add(b->diags, at(b, item(b, "boundaries", index, "name")), CW_E_DUPLICATE,
                        "two lines are called %s; tell them apart", line->name);
}

static void check_phase(cw_builder *b, int index)
{
    const cw_job_phase *phase = &b->job->phases[index];
    if (phase->has_barrier && !phase->has_lane && !phase->has_lane_after &&
        !tried(b, cw_arena_print(b->arena, "phases[%d].lane", index)) &&
        !tried(b, cw_arena_print(b->arena, "phases[%d].lane_after", index)))
        cw_diag_add(b->diags, at(b, cw_arena_print(b->arena, "phases[%d].barrier", index)),
                    CW_E_MISSING,
                    "a barrier is given and no traffic that it would hold off; add lane or "
                    "lane_after, or remove it");
}

void cw_job_validate_obstacles(cw_builder *b)
{
    const cw_job *job = b->job;
    for (int i = 0; i < job->obstacles.utility_count; i++)
        check_utility(b, i);
    for (int i = 0; i < job->obstacles.structure_count; i++)
        check_structure(b, i);
    for (int i = 0; i < job->obstacles.boundary_count; i++)
        check_boundary(b, i);
    for (int i = 0; i < job->phase_count; i++)
        check_phase(b, i);
}
