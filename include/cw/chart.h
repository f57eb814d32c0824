/** @file
 * Load charts of cranes that the user brings: reading and looking up.  ft, lb. */
#ifndef CW_CHART_H
#define CW_CHART_H

#include <stdbool.h>

#include "cw/arena.h"
#include "cw/diag.h"

enum { CW_CHART_POINTS_MAX = 4000, CW_CHART_COLUMNS_MAX = 64, CW_CHART_BYTES_MAX = 1 << 20 };

/** One boom length in one configuration, radius rising. */
typedef struct cw_chart_column {
    const char *configuration;
    double boom_ft;
    const double *radius_ft, *capacity_lb;
    int count;
} cw_chart_column;

typedef struct cw_chart {
    const char *file, *notice;      /**< first comment line, or "" */
    const cw_chart_column *columns; /**< configurations as they appear, booms rising */
    int count;
} cw_chart;

/** Read a load chart: CSV with the heading `boom_ft,radius_ft,capacity_lb,configuration`
 * (docs/handbook/lifting.md); lines that begin with # are notices.  Radii of a column must rise
 * line by line and capacities must not; a radius that stands in a shorter and a longer boom's
 * column and between the ends of this one must stand here too.  All faults are reported at their
 * line; false when there are any.  @p text is zero-terminated, @p file for the messages. */
bool cw_chart_read(const char *text, const char *file, cw_chart *chart, cw_arena *arena,
                   cw_diags *diags);

/** What a chart says of one pick. */
typedef struct cw_chart_look {
    bool on_chart;
    double capacity_lb; /**< of that row; 0 when off the chart */
    double row_radius_ft, row_boom_ft;
} cw_chart_look;

/** Capacity at the next larger radius of the boom, or of the next longer boom that is listed:
 * nothing is interpolated. */
cw_chart_look cw_chart_capacity(const cw_chart *chart, const char *configuration, double boom_ft,
                                double radius_ft);

/** Radii at which a column carries a load: from its first row to the last row that does; false when
 * none does. */
bool cw_chart_reach(const cw_chart_column *column, double load_lb, double *least_ft,
                    double *most_ft);

#endif
