/** @file
 * Plans for the tests of the drawings, and what every drawing must keep. */
#ifndef CW_DRAW_TEST_HELP_H
#define CW_DRAW_TEST_HELP_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>
#include <string.h>

#include "app/app.h"
#include "cw/report.h"
#include "cw/yaml.h"

static inline const cw_plan *plan_of_demo(const char *name, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    const cw_plan *plan =
        cw_load_plan(cw_arena_print(arena, "%s/demo/%s.yaml", CW_ROOT, name), arena, &diags);
    assert_non_null(plan);
    assert_true(plan->laid);
    return plan;
}

static inline const cw_plan *plan_of_text(const char *text, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    const cw_entries *entries = cw_yaml_read(text, strlen(text), "text", arena, &diags);
    const cw_job_files files = {0};
    const cw_job *job = entries ? cw_job_build(entries, &files, arena, &diags) : NULL;
    if (!job)
        cw_diags_show(&diags);
    assert_non_null(job);
    const cw_plan *plan = cw_plan_compute(job, arena);
    assert_true(plan->laid);
    return plan;
}

/** Texts stand apart and inside, nothing leaves the frame, no label was dropped. */
static inline void assert_clean(const cw_drawing *d, const char *what, cw_arena *arena)
{
    const cw_overlap *list;
    const int overlaps = cw_drawing_overlaps(d, arena, &list);
    if (overlaps > 0)
        fail_msg("%s at %.0f x %.0f: \"%s\" meets \"%s\"", what, d->view.width_pt,
                 d->view.height_pt, list[0].a, list[0].b ? list[0].b : "the frame");
    if (d->dropped_count > 0)
        fail_msg("%s at %.0f x %.0f: no place for \"%s\"", what, d->view.width_pt,
                 d->view.height_pt, d->dropped[0]);
    assert_true(d->finished && d->count > 0);
    for (int i = 0; i < d->count; i++) {
        cw_xy min, max;
        cw_item_bounds(&d->items[i], &min, &max);
        const bool inside = min.x >= -0.1 && min.y >= -0.1 && max.x <= d->view.width_pt + 0.1 &&
                            max.y <= d->view.height_pt + 0.1;
        if (!inside)
            fail_msg("%s at %.0f x %.0f: item %d (%s) leaves the frame: %.1f,%.1f to %.1f,%.1f",
                     what, d->view.width_pt, d->view.height_pt, i, cw_layer_name(d->items[i].layer),
                     min.x, min.y, max.x, max.y);
        if (d->items[i].kind == CW_ITEM_TEXT && !cw_font_knows(d->items[i].text))
            fail_msg("%s: \"%s\" has signs that the font lacks", what, d->items[i].text);
    }
}

#endif
