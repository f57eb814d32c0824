/* The least sling or shackle for a tension. */
#include "lifting_internal.h"

#include <stdio.h>

static const char range[] = "common practice: range of gear";
static const char tag_rule[] = "29 CFR 1926.251: the rating on the tag governs";

static const char *const kinds[] = {"chain-80",   "chain-100", "wire-rope", "wire-rope-uncoated",
                                    "roundsling", "shackle",   NULL};

enum { SIZES_MAX = 32 };

#define TYPE cw_sling_input

static const cw_field inputs[] = {
    CHOICE_IN(
        "kind", kinds, NULL,
        "alloy chain of grade 80 or 100, improved wire rope (with steel core, pressed "
        "splice), uncoated wire rope of the military table, polyester roundsling, bow shackle",
        NULL, TYPE, kind),
    NUMBER_IN("tension", "T", CW_DIM_LB, 1.0, 500000.0, NULL,
              "of one leg, straight pull; see bridle", range, TYPE, tension_lb),
    OPTION_IN("tag", NULL, CW_DIM_LB, 1.0, 500000.0,
              "rated load on the tag of the gear in hand, straight pull; it governs", range, TYPE,
              tag_lb, has_tag),
};

static const cw_field outputs[] = {
    OUT("size", NULL, CW_DIM_IN,
        "chain, rope or pin size; 0: goes by its rating, a tag is given, or none is enough",
        cw_sling, size_in),
    OUT("rating", NULL, CW_DIM_LB,
        "of that size, or the tag's; the largest listed when none is enough", cw_sling, rating_lb),
    OUT("ratio", NULL, CW_DIM_NONE, "tension over rating", cw_sling, ratio),
    CHOICE_OUT("check", cw_verdict_words, "the rating carries the tension", cw_sling, verdict),
};

static const cw_row *row_of(const cw_rows *rows, int kind, int size, const char *what)
{
    char id[48];
    snprintf(id, sizeof id, "sling.%s.%02d.%s", kinds[kind], size, what);
    return cw_rows_find(rows, id);
}

cw_sling cw_lifting_sling(const cw_sling_input *in, const cw_rows *rows, cw_working *w)
{
    cw_sling out = {.rating_lb = in->tag_lb};
    const char *source = tag_rule;
    for (int i = 1; i <= SIZES_MAX && !in->has_tag; i++) {
        const cw_row *rating = row_of(rows, in->kind, i, "rating");
        if (!rating)
            break;
        const cw_row *size = row_of(rows, in->kind, i, "size");
        out.rating_lb = rating->value;
        out.size_in = size ? size->value : 0.0;
        source = rating->source;
        if (cw_meets(in->tension_lb, rating->value))
            break;
    }
    out.verdict = cw_lifting_verdict(in->tension_lb, out.rating_lb);
    if (out.verdict == CW_FAILS)
        out.size_in = 0.0;
    cw_step_add(w, "R", in->has_tag ? "tag" : "least listed rating from T on, else the largest",
                out.rating_lb, CW_DIM_LB, source);
    out.ratio =
        cw_step_add(w, "T/R", "T / R", in->tension_lb / out.rating_lb, CW_DIM_NONE, "definition");
    return out;
}

static void run(const void *input, void *output, cw_working *working)
{
    *(cw_sling *)output = cw_lifting_sling(input, &cw_data, working);
}

const cw_calc cw_calc_sling_size = {
    .name = "sling-size",
    .title = "Least sling or shackle for a leg tension",
    .group = "lifting",
    .about = "For planning only: the tag on the gear governs and a sling without one is not used.  "
             "Listed ratings are for one leg in straight pull; a choke takes about a quarter off.  "
             "Pad every arris of the concrete.",
    .source = "rows sling.* of data/lifting.csv; most are from memory and say so",
    .inputs = inputs,
    .input_count = COUNT(inputs),
    .input_size = sizeof(cw_sling_input),
    .outputs = outputs,
    .output_count = COUNT(outputs),
    .output_size = sizeof(cw_sling),
    .run = run,
    .example = "kind=chain-80 tension=9523lb",
};
