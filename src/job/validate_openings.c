/* Openings: their shape, and whether they lie inside the wall or slab that they pass through. */
#include "job_internal.h"

#include <math.h>

#include "cw/text.h"
#include "cw/tolerance.h"

/* One opening being looked at. */
typedef struct subject {
    cw_builder *b;
    const cw_job_opening *opening;
    int index;
} subject;

static const char *path_of(const subject *s, const char *key)
{
    return cw_arena_print(s->b->arena, "openings[%d].%s", s->index, key);
}

static cw_pos place_of(const subject *s, const char *key)
{
    return cw_entries_place(s->b->entries, path_of(s, key));
}

static bool tried(const subject *s, const char *key)
{
    return cw_job_slot(s->b, path_of(s, key))->entry >= 0;
}

static bool sound(const subject *s, const char *key)
{
    return cw_job_sound(s->b, path_of(s, key));
}

static const char *in_words(const subject *s, double length_in)
{
    return cw_quantity_format(s->b->arena, length_in, CW_DIM_IN, CW_US);
}

/* Exactly one shape: true when there is one whose values are sound. */
static bool check_shape(const subject *s)
{
    const cw_job_opening *opening = s->opening;
    const bool round = tried(s, "diameter"), width = tried(s, "width"), tall = tried(s, "tall");
    if (round && (width || tall)) {
        const char *other = width ? "width" : "tall";
        cw_diag_add(s->b->diags, place_of(s, "diameter"), CW_E_CONFLICT,
                    "an opening is round or rectangular: diameter (line %d) and %s (line %d) "
                    "cannot both hold; remove one",
                    place_of(s, "diameter").line, other, place_of(s, other).line);
        return false;
    }
    if (!round && width != tall) {
        cw_diag_add(s->b->diags, place_of(s, width ? "width" : "tall"), CW_E_MISSING,
                    "a rectangular opening needs width and tall, and %s is not given; write it",
                    width ? "tall" : "width");
        return false;
    }
    if (!round && !width) {
        cw_diag_add(s->b->diags, place_of(s, "diameter"), CW_E_MISSING,
                    "this opening has no size; write diameter, or width and tall");
        return false;
    }
    return round ? opening->has_diameter : opening->has_width && opening->has_tall;
}

/* What only touches stays inside, whatever the last bit of a converted value says. */
static bool passes(double value, double limit)
{
    return value > limit + CW_SAME_PLACE_FT;
}

static void check_in_wall(const subject *s, double across_in)
{
    const double low_in = s->opening->height_in - across_in / 2.0;
    const double high_in = s->opening->height_in + across_in / 2.0;
    const double rise_in = s->b->job->box.rise_in;
    if (!cw_job_sound(s->b, "box.rise") || (!passes(0.0, low_in) && !passes(high_in, rise_in)))
        return;
    cw_diag_add(s->b->diags, place_of(s, "height"), CW_E_GEOMETRY,
                "the opening reaches from %s to %s above the floor, outside the wall of %s; change "
                "its height or its size",
                in_words(s, low_in), in_words(s, high_in), in_words(s, rise_in));
}

static void check_in_slab(const subject *s, double across_in)
{
    const double reach_in = fabs(s->opening->height_in) + across_in / 2.0;
    const double half_in = s->b->job->box.span_in / 2.0;
    if (!cw_job_sound(s->b, "box.span") || !passes(reach_in, half_in))
        return;
    cw_diag_add(s->b->diags, place_of(s, "height"), CW_E_GEOMETRY,
                "the opening reaches %s from the barrel centre, past the wall face at %s; change "
                "its height (here its place right of the centre) or its size",
                in_words(s, reach_in), in_words(s, half_in));
}

static void check_place(const subject *s)
{
    const cw_job *job = s->b->job;
    const cw_job_opening *opening = s->opening;
    if (sound(s, "barrel") && cw_job_sound(s->b, "barrels.count") &&
        opening->barrel > job->barrels.count)
        cw_diag_add(
            s->b->diags, place_of(s, "barrel"), CW_E_CONFLICT,
            "barrel %d is more than the number of barrels, %d; lower it or raise barrels.count",
            opening->barrel, job->barrels.count);
    if (sound(s, "at") && job->run.has_length && passes(opening->at_ft, job->run.length_ft))
        cw_diag_add(
            s->b->diags, place_of(s, "at"), CW_E_CONFLICT,
            "at %s is past the inlet, the length is %s (line %d); write a place from 0 ft to "
            "%s",
            cw_quantity_format(s->b->arena, opening->at_ft, CW_DIM_FT, CW_US),
            cw_quantity_format(s->b->arena, job->run.length_ft, CW_DIM_FT, CW_US),
            cw_entries_place(s->b->entries, "run.length").line,
            cw_quantity_format(s->b->arena, job->run.length_ft, CW_DIM_FT, CW_US));
}

void cw_job_validate_openings(cw_builder *b)
{
    for (int i = 0; i < b->job->opening_count; i++) {
        const cw_job_opening *opening = &b->job->openings[i];
        const subject s = {b, opening, i};
        check_place(&s);
        if (!check_shape(&s) || !sound(&s, "face") || !sound(&s, "height"))
            continue;
        const double across_in = opening->has_diameter ? opening->diameter_in : opening->tall_in;
        if (opening->face == CW_FACE_LEFT || opening->face == CW_FACE_RIGHT)
            check_in_wall(&s, across_in);
        else
            check_in_slab(&s, across_in);
    }
}
