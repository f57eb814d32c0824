/* Faults of the ground sections that no single value shows. */
#include "job_internal.h"

#include "cw/text.h"
#include "cw/units.h"

enum { MATERIAL_COHESIVE = 1, BREAKS_LEAST = 4 };

static cw_pos at(const cw_builder *b, const char *path)
{
    return cw_entries_place(b->entries, path);
}

static const char *item(const cw_builder *b, const char *list, int index, const char *key)
{
    return cw_arena_print(b->arena, "%s[%d].%s", list, index, key);
}

static const char *ft_words(const cw_builder *b, double length_ft)
{
    return cw_quantity_format(b->arena, length_ft, CW_DIM_FT, CW_US);
}

/* ---- the cut ---- */

static void check_soil(cw_builder *b, int index)
{
    const cw_job_trench *trench = &b->job->trench;
    const cw_job_soil *soil = &trench->soils[index];
    if (soil->has_strength && cw_job_sound(b, item(b, "trench.soil", index, "material")) &&
        soil->material != MATERIAL_COHESIVE)
        cw_diag_add(b->diags, at(b, item(b, "trench.soil", index, "strength")), CW_E_CONFLICT,
                    "a strength says nothing about the class of layer %d, which is not cohesive; "
                    "leave it out, or write material: cohesive",
                    index + 1);
    const char *thickness = item(b, "trench.soil", index, "thickness");
    if (index + 1 < trench->soil_count && !soil->has_thickness && !cw_job_given(b, thickness))
        cw_diag_add(
            b->diags, at(b, cw_arena_print(b->arena, "trench.soil[%d]", index)), CW_E_MISSING,
            "layer %d of the ground has no thickness, and another lies under it; add thickness",
            index + 1);
}

static bool all_cohesive(const cw_job_trench *trench)
{
    for (int i = 0; i < trench->soil_count; i++)
        if (trench->soils[i].material != MATERIAL_COHESIVE)
            return false;
    return trench->soil_count > 0;
}

static void check_trench(cw_builder *b)
{
    const cw_job_trench *trench = &b->job->trench;
    for (int i = 0; i < trench->soil_count; i++)
        check_soil(b, i);
    if (!cw_job_sound(b, "trench.protection"))
        return;
    if (trench->protection == CW_JOB_SHIELD && !trench->has_shield &&
        !cw_job_given(b, "trench.shield"))
        cw_diag_add(b->diags, at(b, "trench.protection"), CW_E_MISSING,
                    "protection: shield needs the top of the shield above the bottom; add "
                    "trench.shield, 8 ft or the like");
    if (trench->protection == CW_JOB_BENCH && !all_cohesive(trench))
        cw_diag_add(
            b->diags, at(b, "trench.protection"), CW_E_CONFLICT,
            "benches stand only in cohesive ground, and %s; write protection: slope or shield",
            trench->soil_count > 0 ? "a layer of trench.soil is not cohesive"
                                   : "trench.soil does not say what the ground is");
    const char *const only_shield[] = {"trench.shield", "trench.below_shield"};
    for (int i = 0; i < 2 && trench->protection != CW_JOB_SHIELD; i++)
        if (cw_job_given(b, only_shield[i]))
            cw_diag_add(b->diags, at(b, only_shield[i]), CW_E_CONFLICT,
                        "%s goes only with protection: shield; write that, or remove it",
                        only_shield[i]);
}

/* ---- line and grade ---- */

static void check_grade(cw_builder *b)
{
    const cw_job_grade *grade = &b->job->grade;
    if (grade->has_backsight && !b->job->survey.has_benchmark &&
        !cw_job_given(b, "survey.benchmark_elevation"))
        cw_diag_add(b->diags, at(b, "grade_control.backsight"), CW_E_MISSING,
                    "a rod on the benchmark gives a height only when the benchmark has one; add "
                    "survey.benchmark_elevation");
    if (!grade->loop.present)
        return;
    if (!b->job->survey.has_benchmark && !cw_job_given(b, "survey.benchmark_elevation"))
        cw_diag_add(b->diags, at(b, "grade_control.loop"), CW_E_MISSING,
                    "a line of levels starts at the benchmark; add survey.benchmark_elevation");
    if (cw_job_sound(b, "grade_control.loop.backsights") &&
        cw_job_sound(b, "grade_control.loop.foresights") &&
        grade->loop.backsights_ft.count != grade->loop.foresights_ft.count)
        cw_diag_add(
            b->diags, at(b, "grade_control.loop.foresights"), CW_E_CONFLICT,
            "backsights: %d, foresights: %d; each set-up has one of both, so give the same number",
            grade->loop.backsights_ft.count, grade->loop.foresights_ft.count);
}

/* ---- fill between barrels, backfill ---- */

static void check_breaks(cw_builder *b)
{
    const cw_job_fill *fill = &b->job->fill;
    const char *ages = "fill_between.break_ages", *breaks = "fill_between.break_strengths";
    if (!cw_job_given(b, ages) && !cw_job_given(b, breaks))
        return;
    if (!cw_job_given(b, ages) || !cw_job_given(b, breaks)) {
        const bool has_ages = cw_job_given(b, ages);
        cw_diag_add(b->diags, at(b, has_ages ? ages : breaks), CW_E_MISSING,
                    "%s without %s; give both", has_ages ? "break_ages" : "break_strengths",
                    has_ages ? "break_strengths" : "break_ages");
        return;
    }
    if (!cw_job_sound(b, ages) || !cw_job_sound(b, breaks))
        return;
    if (fill->ages_h.count != fill->breaks_psi.count)
        cw_diag_add(b->diags, at(b, breaks), CW_E_CONFLICT,
                    "%d break_ages and %d break_strengths; give the same number of both",
                    fill->ages_h.count, fill->breaks_psi.count);
    else if (fill->ages_h.count < BREAKS_LEAST)
        cw_diag_add(b->diags, at(b, ages), CW_E_MISSING,
                    "%d breaks make no curve; give %d at least, or leave both lists out",
                    fill->ages_h.count, BREAKS_LEAST);
    for (int i = 1; i < fill->ages_h.count; i++)
        if (!(fill->ages_h.items[i] > fill->ages_h.items[i - 1])) {
            cw_diag_add(b->diags, at(b, ages), CW_E_GEOMETRY,
                        "age %d does not lie past the one before it; order the breaks by age",
                        i + 1);
            return;
        }
}

static void check_zones(cw_builder *b)
{
    const cw_job_backfill *fill = &b->job->backfill;
    double below_ft = 0.0;
    for (int i = 0; i < fill->zone_count; i++) {
        const cw_job_zone *zone = &fill->zones[i];
        const char *to = item(b, "backfill.zones", i, "to");
        if (!zone->has_to && !cw_job_given(b, to) && i + 1 < fill->zone_count)
            cw_diag_add(b->diags, at(b, cw_arena_print(b->arena, "backfill.zones[%d]", i)),
                        CW_E_MISSING, "zone %d has no top, and another lies over it; add to",
                        i + 1);
        if (!zone->has_to)
            continue;
        if (!(zone->to_ft > below_ft))
            cw_diag_add(b->diags, at(b, to), CW_E_GEOMETRY,
                        "zone %d ends at %s, not above the zone under it at %s; list the zones "
                        "from the underside up",
                        i + 1, ft_words(b, zone->to_ft), ft_words(b, below_ft));
        below_ft = zone->to_ft;
    }
}

void cw_job_validate_ground(cw_builder *b)
{
    check_trench(b);
    check_grade(b);
    check_breaks(b);
    check_zones(b);
}
