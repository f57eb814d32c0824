/* libFuzzer driver of cw_chart_read and the look-ups.
 * Invariants: a chart or findings, never both and never neither; radii of a column rise and
 * capacities do not; what a column says it carries to a radius, the look-up says too. */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include "cw/chart.h"

static void require(bool holds)
{
    if (!holds)
        abort();
}

static void check_column(const cw_chart *chart, const cw_chart_column *column)
{
    require(column->count > 0);
    for (int i = 0; i < column->count; i++) {
        require(i == 0 || (column->radius_ft[i] > column->radius_ft[i - 1] &&
                           column->capacity_lb[i] <= column->capacity_lb[i - 1]));
        double least_ft, most_ft;
        require(cw_chart_reach(column, column->capacity_lb[i], &least_ft, &most_ft));
        const cw_chart_look look =
            cw_chart_capacity(chart, column->configuration, column->boom_ft, most_ft);
        require(look.on_chart && look.capacity_lb >= column->capacity_lb[i] * (1.0 - 1e-6));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    cw_chart chart;
    const bool good = cw_chart_read(cw_arena_copy(&arena, (const char *)data, size), "chart.csv",
                                    &chart, &arena, &diags);
    require(good == (diags.count == 0));
    require(!good || chart.count > 0);
    for (int c = 0; good && c < chart.count; c++)
        check_column(&chart, &chart.columns[c]);
    cw_arena_release(&arena);
    return 0;
}
