/* Faults of the cranes section that no single value shows, and its load charts. */
#include "job_internal.h"

#include "cw/chart.h"
#include "cw/text.h"

static cw_pos at(const cw_builder *b, const char *path)
{
    return cw_entries_place(b->entries, path);
}

static void check_rule(cw_builder *b)
{
    enum { FIXED = 2 };
    const cw_job_cranes *cranes = &b->job->cranes;
    if (cranes->rule == FIXED) {
        const cw_wanted keys[] = {{cranes->has_fixed, "fixed"}};
        cw_job_need(b, "cranes", "rule: fixed", keys, 1);
    } else if (cranes->has_fixed && cw_job_sound(b, "cranes.rule")) {
        cw_diag_add(b->diags, at(b, "cranes.fixed"), CW_E_CONFLICT,
                    "fixed is given but the rule is another; keep one");
    }
}

static void check_stretches(cw_builder *b)
{
    for (int i = 0; i < b->job->cranes.no_stand_count; i++) {
        const cw_job_no_stand *one = &b->job->cranes.no_stands[i];
        const char *path = cw_arena_print(b->arena, "cranes.no_stand[%d].to", i);
        if (cw_job_sound(b, path) && !(one->to_ft > one->from_ft))
            cw_diag_add(b->diags, at(b, path), CW_E_CONFLICT,
                        "the stretch goes from %.6g ft to %.6g ft; exchange them", one->from_ft,
                        one->to_ft);
    }
}

static void check_lines(cw_builder *b)
{
    for (int i = 0; i < b->job->cranes.line_count; i++) {
        const char *path = cw_arena_print(b->arena, "cranes.power_lines[%d].side", i);
        if (cw_job_sound(b, path) && b->job->cranes.lines[i].side == CW_BANK_BOTH)
            cw_diag_add(b->diags, at(b, path), CW_E_CONFLICT,
                        "a power line lies left or right; write it twice for both");
    }
}

void cw_job_validate_cranes(cw_builder *b)
{
    if (!b->job->cranes.present)
        return;
    check_rule(b);
    check_stretches(b);
    check_lines(b);
}

static bool has_configuration(const cw_chart *chart, const char *word)
{
    for (int c = 0; c < chart->count; c++)
        if (cw_text_same(chart->columns[c].configuration, word))
            return true;
    return false;
}

static const char *configurations(cw_builder *b, const cw_chart *chart)
{
    cw_text text = cw_text_on(b->arena);
    for (int c = 0; c < chart->count; c++)
        if (c == 0 ||
            !cw_text_same(chart->columns[c].configuration, chart->columns[c - 1].configuration))
            cw_text_print(&text, "%s%s", c ? ", " : "", chart->columns[c].configuration);
    return cw_text_string(&text);
}

void cw_job_read_charts(cw_builder *b)
{
    cw_job_cranes *cranes = &b->job->cranes;
    for (int i = 0; cranes->present && i < cranes->choice_count; i++) {
        cw_job_crane *crane = &cranes->choices[i];
        cw_chart *chart = CW_TAKE(b->arena, cw_chart, 1);
        const char *path = cw_arena_print(b->arena, "cranes.choices[%d].chart", i);
        crane->loads = chart;
        if (!b->files->chart_texts[i]) {
            cw_diag_add(b->diags, at(b, path), CW_E_FILE,
                        "the load chart %s was not read; give the file",
                        cw_text_clip(b->arena, crane->chart));
            continue;
        }
        if (!cw_chart_read(b->files->chart_texts[i], crane->chart, chart, b->arena, b->diags))
            continue;
        if (!has_configuration(chart, crane->configuration))
            cw_diag_add(b->diags,
                        at(b, cw_arena_print(b->arena, "cranes.choices[%d].configuration", i)),
                        CW_E_CHOICE, "the chart has no configuration \"%s\"; write one of %s",
                        cw_text_clip(b->arena, crane->configuration), configurations(b, chart));
    }
}
