#include <string.h>

#include "app.h"
#include "cw/lifting.h"
#include "cw/tolerance.h"
#include "cw/units.h"

typedef struct question {
    const char *configuration;
    bool has_boom, has_radius, has_load;
    double boom_ft, radius_ft, load_lb;
} question;

static bool read_value(const char *option, const char *text, cw_dim dim, bool *has, double *value)
{
    *has = text != NULL;
    if (!text)
        return true;
    const cw_parsed parsed = cw_quantity_parse(text, dim);
    if (parsed.status == CW_PARSE_OK && parsed.value > 0.0) {
        *value = parsed.value;
        return true;
    }
    fprintf(stderr, "culvertwright: %s %s cannot be read; write %s\n", option, text,
            cw_dim_hint(dim));
    return false;
}

static bool known_configuration(const cw_chart *chart, const char *name)
{
    for (int c = 0; c < chart->count; c++)
        if (strcmp(chart->columns[c].configuration, name) == 0)
            return true;
    fprintf(stderr, "culvertwright: the chart has no configuration \"%s\"; it has", name);
    for (int c = 0; c < chart->count; c++)
        if (c == 0 ||
            strcmp(chart->columns[c].configuration, chart->columns[c - 1].configuration) != 0)
            fprintf(stderr, " %s", chart->columns[c].configuration);
    fprintf(stderr, "\n");
    return false;
}

/* One capacity at a boom and radius. */
static cw_exit say_capacity(const cw_chart *chart, const question *q)
{
    const cw_chart_look look = cw_chart_capacity(chart, q->configuration, q->boom_ft, q->radius_ft);
    if (!look.on_chart) {
        printf("off the chart: no rating at %.2f ft with %.0f ft of boom\n", q->radius_ft,
               q->boom_ft);
        return CW_EXIT_FAILS;
    }
    printf("rated %.0f lb (row %.2f ft, boom %.0f ft)\n", look.capacity_lb, look.row_radius_ft,
           look.row_boom_ft);
    if (!q->has_load)
        return CW_EXIT_HOLDS;
    const double percent = q->load_lb / look.capacity_lb * CW_PERCENT;
    const bool plain = cw_meets(percent, cw_rows_value(&cw_data, "lift.chart_plan"));
    const bool stop = !cw_meets(percent, cw_rows_value(&cw_data, "lift.chart_stop"));
    printf("%.1f %% of the chart: %s\n", percent,
           stop    ? "too much"
           : plain ? "within the planning share"
                   : "a critical lift, the lift director decides");
    return stop ? CW_EXIT_FAILS : plain ? CW_EXIT_HOLDS : CW_EXIT_UNDECIDED;
}

/* Each boom: the radii that are listed, or those that carry the load. */
static cw_exit say_booms(const cw_chart *chart, const question *q)
{
    bool any = false;
    printf("%-28s %9s %12s %12s\n", "configuration", "boom ft", "from ft",
           q->has_load ? "carries to" : "to ft");
    for (int c = 0; c < chart->count; c++) {
        const cw_chart_column *column = &chart->columns[c];
        double least_ft, most_ft;
        if (q->configuration && strcmp(q->configuration, column->configuration) != 0)
            continue;
        const bool carries =
            cw_chart_reach(column, q->has_load ? q->load_lb : 0.0, &least_ft, &most_ft);
        any = any || carries;
        if (carries)
            printf("%-28s %9.1f %12.2f %12.2f\n", column->configuration, column->boom_ft, least_ft,
                   most_ft);
        else
            printf("%-28s %9.1f %12.2f %12s\n", column->configuration, column->boom_ft, least_ft,
                   "no radius");
    }
    return any ? CW_EXIT_HOLDS : CW_EXIT_FAILS;
}

static cw_exit answer(const char *path, const question *q, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    cw_chart chart;
    size_t length = 0;
    const char *text = cw_file_read(path, CW_CHART_BYTES_MAX, &length, (cw_pos){0}, arena, &diags);
    if (!text || !cw_chart_read(text, path, &chart, arena, &diags)) {
        cw_diags_show(&diags);
        return CW_EXIT_INPUT;
    }
    if (q->configuration && !known_configuration(&chart, q->configuration))
        return CW_EXIT_INPUT;
    if (q->has_radius != q->has_boom || (q->has_radius && !q->configuration)) {
        fprintf(
            stderr,
            "culvertwright: give --configuration, --boom and --radius together for one capacity\n");
        return CW_EXIT_INPUT;
    }
    if (chart.notice[0])
        printf("%s\n", chart.notice);
    return q->has_radius ? say_capacity(&chart, q) : say_booms(&chart, q);
}

cw_exit cw_command_chart(int count, char **arguments)
{
    const char *configuration = NULL, *boom = NULL, *radius = NULL, *load = NULL;
    const cw_option options[] = {
        {"--configuration", "a word of the chart", "outriggers, counterweight and sector",
         &configuration},
        {"--boom", "a length", "boom in use", &boom},
        {"--radius", "a length", "under load", &radius},
        {"--load", "a weight", "gross: piece, tackle, block and the chart's deductions", &load},
    };
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, options, 4, words, 1);
    question q = {.configuration = configuration};
    if (word_count == 0)
        fprintf(stderr, "culvertwright chart: name the load chart (CSV)\n");
    if (word_count != 1 || !read_value("--boom", boom, CW_DIM_FT, &q.has_boom, &q.boom_ft) ||
        !read_value("--radius", radius, CW_DIM_FT, &q.has_radius, &q.radius_ft) ||
        !read_value("--load", load, CW_DIM_LB, &q.has_load, &q.load_lb))
        return CW_EXIT_INPUT;
    cw_arena arena = cw_arena_on(&cw_app_memory);
    const cw_exit code = answer(words[0], &q, &arena);
    cw_arena_release(&arena);
    return code;
}
