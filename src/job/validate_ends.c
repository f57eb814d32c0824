/* Faults of wings, aprons and cutoff walls that no single value shows. */
#include "job_internal.h"

#include "cw/text.h"
#include "cw/units.h"

static cw_pos at(const cw_builder *b, const char *path)
{
    return cw_entries_place(b->entries, path);
}

static const char *join(const cw_builder *b, const char *section, const char *key)
{
    return cw_arena_print(b->arena, "%s.%s", section, key);
}

static const char *ft_words(const cw_builder *b, double length_ft)
{
    return cw_quantity_format(b->arena, length_ft, CW_DIM_FT, CW_US);
}

static bool both_sound(const cw_builder *b, const char *section, const char *one, const char *other)
{
    return cw_job_sound(b, join(b, section, one)) && cw_job_sound(b, join(b, section, other));
}

static void check_wing(cw_builder *b, const cw_job_wing *wing, const char *path,
                       const cw_template_side *fill, const char *fill_path)
{
    static const char *const kinds[] = {"flared", "straight", "along_road"};
    if (!wing->present)
        return;
    const bool along = wing->kind == CW_JOB_WING_ALONG_ROAD;
    if (wing->kind != CW_JOB_WING_FLARED && cw_job_given(b, join(b, path, "flare")))
        cw_diag_add(b->diags, at(b, join(b, path, "flare")), CW_E_CONFLICT,
                    "flare is given, and kind: %s has none; remove flare, or write kind: flared",
                    kinds[wing->kind]);
    if (!wing->has_length && cw_job_slot(b, join(b, path, "length"))->entry < 0 && !fill->present &&
        !cw_entries_given(b->entries, fill_path))
        cw_diag_add(
            b->diags, at(b, path), CW_E_MISSING,
            "the wing has no length, and there is no %s whose side slope would give it; add length",
            fill_path);
    if (wing->has_root && wing->has_tip &&
        (along ? wing->tip_ft > wing->root_ft : wing->tip_ft >= wing->root_ft))
        cw_diag_add(
            b->diags, at(b, join(b, path, "tip_height")), CW_E_GEOMETRY,
            "the tip of the wing is %s high and its root %s; the tip must be lower, as the fill is",
            ft_words(b, wing->tip_ft), ft_words(b, wing->root_ft));
    if (both_sound(b, path, "footing", "footing_depth") &&
        wing->footing_depth_ft < wing->footing_in / CW_IN_PER_FT)
        cw_diag_add(b->diags, at(b, path), CW_E_GEOMETRY,
                    "the footing is %s thick and its underside only %s below the invert; lower it "
                    "or make it thinner",
                    cw_quantity_format(b->arena, wing->footing_in, CW_DIM_IN, CW_US),
                    ft_words(b, wing->footing_depth_ft));
}

static bool bounds(const cw_job_wing *wing)
{
    return wing->present && wing->kind != CW_JOB_WING_ALONG_ROAD;
}

static void check_end(cw_builder *b, const cw_job_end *end, const char *path,
                      const cw_template_side *fill, const char *fill_path)
{
    const char *apron = join(b, path, "apron"), *cutoff = join(b, path, "cutoff");
    check_wing(b, &end->left_wing, join(b, path, "left_wing"), fill, fill_path);
    check_wing(b, &end->right_wing, join(b, path, "right_wing"), fill, fill_path);
    if (end->apron.present && !end->apron.has_length &&
        cw_job_slot(b, join(b, apron, "length"))->entry < 0 &&
        !(bounds(&end->left_wing) && bounds(&end->right_wing)))
        cw_diag_add(b->diags, at(b, apron), CW_E_MISSING,
                    "the apron has no length and no two wings between which it would end; add "
                    "length, or two wings that "
                    "are flared or straight");
    if (end->cutoff.present && end->apron.present && both_sound(b, cutoff, "depth", "thickness") &&
        cw_job_sound(b, join(b, apron, "thickness")) &&
        end->cutoff.depth_ft <= end->apron.thickness_in / CW_IN_PER_FT)
        cw_diag_add(b->diags, at(b, cutoff), CW_E_GEOMETRY,
                    "the cutoff wall goes %s below the invert and the apron over it is %s thick; "
                    "make the wall deeper",
                    ft_words(b, end->cutoff.depth_ft),
                    cw_quantity_format(b->arena, end->apron.thickness_in, CW_DIM_IN, CW_US));
}

void cw_job_validate_ends(cw_builder *b)
{
    const cw_job *job = b->job;
    check_end(b, &job->run.outlet, "run.outlet", &job->road.outlet, "road.outlet_template");
    check_end(b, &job->run.inlet, "run.inlet", &job->road.inlet, "road.inlet_template");
}
