/* Load charts that the user brings: reading and looking up.  Nothing is interpolated and nothing is
 * guessed: a fault in the file is refused at its line. */
#include "cw/chart.h"

#include <math.h>
#include <string.h>

#include "cw/quantity.h"
#include "cw/text.h"
#include "cw/tolerance.h"
#include "cw/units.h"

enum { CELLS = 4, CELL_BYTES = 64 };

/* What may be in a column, with the units that its name may end in. */
typedef enum cell { BOOM, RADIUS, CAPACITY, CONFIGURATION } cell;

static const struct {
    const char *name;
    cell cell;
    double factor; /* to ft or lb */
} headings[] = {
    {"boom_ft", BOOM, 1.0},
    {"boom_m", BOOM, 1.0 / CW_M_PER_FT},
    {"radius_ft", RADIUS, 1.0},
    {"radius_m", RADIUS, 1.0 / CW_M_PER_FT},
    {"capacity_lb", CAPACITY, 1.0},
    {"capacity_kip", CAPACITY, CW_LB_PER_KIP},
    {"capacity_kg", CAPACITY, 1.0 / CW_KG_PER_LB},
    {"capacity_t", CAPACITY, 1000.0 / CW_KG_PER_LB},
    {"configuration", CONFIGURATION, 1.0},
};

enum { HEADINGS = sizeof headings / sizeof headings[0] };

static const struct {
    const char *name, *unit;
    double low, high;
    const char *remedy;
} limits[] = {
    {"boom", "ft", 10.0, 800.0, "is the unit in the heading right?"},
    {"radius", "ft", 3.0, 800.0, "is the unit in the heading right?"},
    {"capacity", "lb", 500.0, 6000000.0,
     "is the unit in the heading right (capacity_kip, capacity_t)?  Leave a row out where the "
     "chart prints nothing"},
};

typedef struct point {
    double boom_ft, radius_ft, capacity_lb;
    const char *configuration;
    int line;
} point;

typedef struct reader {
    const char *at, *file;
    int line;
    cell order[CELLS]; /* what stands in each column */
    double factor[CELLS];
    point *points;
    int count;
    cw_arena *arena;
    cw_diags *diags;
} reader;

static cw_pos here(const reader *r, int line)
{
    return (cw_pos){.file = r->file, .line = line, .column = line > 0 ? 1 : 0};
}

/* The next line without its end; NULL past the last. */
static const char *next_line(reader *r, size_t *length)
{
    if (*r->at == '\0')
        return NULL;
    const char *from = r->at;
    const size_t whole = strcspn(from, "\n");
    r->at = from + whole + (from[whole] == '\n' ? 1 : 0);
    r->line++;
    *length = whole > 0 && from[whole - 1] == '\r' ? whole - 1 : whole;
    return from;
}

/* Cells of a line, blanks around them taken off; returns how many there are. */
static int split(const char *text, size_t length, char cells[CELLS][CELL_BYTES])
{
    int count = 0;
    for (size_t from = 0; from <= length; count++) {
        size_t to = from;
        while (to < length && text[to] != ',')
            to++;
        size_t first = from, last = to;
        while (first < last && (text[first] == ' ' || text[first] == '\t'))
            first++;
        while (last > first && (text[last - 1] == ' ' || text[last - 1] == '\t'))
            last--;
        if (count < CELLS) {
            const size_t bytes = last - first < CELL_BYTES ? last - first : CELL_BYTES - 1;
            memcpy(cells[count], text + first, bytes);
            cells[count][bytes] = '\0';
        }
        from = to + 1;
    }
    return count;
}

static bool read_heading(reader *r, const char *text, size_t length)
{
    char cells[CELLS][CELL_BYTES] = {{0}};
    bool seen[CELLS] = {false};
    const int count = split(text, length, cells);
    bool good = count == CELLS;
    for (int i = 0; good && i < CELLS; i++) {
        bool known = false;
        for (int h = 0; h < HEADINGS && !known; h++)
            if (cw_text_same(headings[h].name, cells[i])) {
                r->order[i] = headings[h].cell;
                r->factor[i] = headings[h].factor;
                known = !seen[headings[h].cell];
                seen[headings[h].cell] = true;
            }
        if (!known)
            cw_diag_add(
                r->diags, here(r, r->line), CW_E_UNIT,
                "heading \"%s\" is not one of this file; name each of boom_ft (or boom_m), "
                "radius_ft (radius_m), "
                "capacity_lb (capacity_kip, capacity_kg, capacity_t) and configuration once",
                cw_text_clip(r->arena, cells[i]));
        good = known;
    }
    if (count != CELLS)
        cw_diag_add(r->diags, here(r, r->line), CW_E_SYNTAX,
                    "the heading has %d columns; write boom_ft,radius_ft,capacity_lb,configuration",
                    count);
    return good;
}

static bool read_number(reader *r, cell what, const char *text, double factor, double *value)
{
    const cw_parsed parsed = cw_quantity_parse(text, CW_DIM_NONE);
    if (parsed.status != CW_PARSE_OK) {
        cw_diag_add(r->diags, here(r, r->line), text[0] ? CW_E_VALUE : CW_E_MISSING,
                    text[0]
                        ? "%s \"%s\" is not a plain number; the unit stands in the heading"
                        : "%s is blank%s; leave the whole row out where the chart prints nothing",
                    limits[what].name, cw_text_clip(r->arena, text));
        return false;
    }
    *value = parsed.value * factor;
    if (*value >= limits[what].low && *value <= limits[what].high)
        return true;
    cw_diag_add(r->diags, here(r, r->line), CW_E_RANGE, "%s %.6g %s is outside %.6g to %.6g %s; %s",
                limits[what].name, *value, limits[what].unit, limits[what].low, limits[what].high,
                limits[what].unit, limits[what].remedy);
    return false;
}

static bool read_word(reader *r, const char *text, const char **word)
{
    size_t plain = 0;
    while ((text[plain] >= 'a' && text[plain] <= 'z') ||
           (text[plain] >= 'A' && text[plain] <= 'Z') ||
           (text[plain] >= '0' && text[plain] <= '9') || text[plain] == '_' || text[plain] == '-')
        plain++;
    if (plain == 0 || text[plain]) {
        cw_diag_add(r->diags, here(r, r->line), CW_E_VALUE,
                    "configuration \"%s\" is not a plain word; write letters, digits, - and _ only",
                    cw_text_clip(r->arena, text));
        return false;
    }
    // One copy of each word, so that equal configurations share it.
    if (r->count > 0 && cw_text_same(r->points[r->count - 1].configuration, text))
        *word = r->points[r->count - 1].configuration;
    else
        *word = cw_arena_copy(r->arena, text, plain);
    return true;
}

static void read_row(reader *r, const char *text, size_t length)
{
    char cells[CELLS][CELL_BYTES] = {{0}};
    point p = {.line = r->line};
    const int count = split(text, length, cells);
    if (count != CELLS) {
        cw_diag_add(r->diags, here(r, r->line), CW_E_SYNTAX,
                    "this row has %d values and 4 are wanted", count);
        return;
    }
    bool good = true;
    for (int i = 0; i < CELLS; i++) {
        double *const into[] = {&p.boom_ft, &p.radius_ft, &p.capacity_lb};
        if (r->order[i] == CONFIGURATION)
            good = read_word(r, cells[i], &p.configuration) && good;
        else
            good = read_number(r, r->order[i], cells[i], r->factor[i], into[r->order[i]]) && good;
    }
    if (good && r->count == CW_CHART_POINTS_MAX)
        cw_diag_add(r->diags, here(r, r->line), CW_E_TOO_MANY,
                    "the chart has more than %d rows; keep the configurations that are used",
                    CW_CHART_POINTS_MAX);
    if (good && r->count < CW_CHART_POINTS_MAX)
        r->points[r->count++] = p;
}

static bool same_column(const point *a, const point *b)
{
    return a->boom_ft == b->boom_ft && cw_text_same(a->configuration, b->configuration);
}

/* Within a column the radius rises and the capacity does not; booms of a configuration rise and no
 * column comes twice. */
static void check_order(reader *r)
{
    for (int i = 1; i < r->count; i++) {
        const point *a = &r->points[i - 1], *b = &r->points[i];
        if (same_column(a, b)) {
            if (b->radius_ft <= a->radius_ft)
                cw_diag_add(r->diags, here(r, b->line), CW_E_CONFLICT,
                            "radius %.6g ft follows %.6g ft on the same boom; write radii from "
                            "small to large",
                            b->radius_ft, a->radius_ft);
            else if (b->capacity_lb > a->capacity_lb)
                cw_diag_add(r->diags, here(r, b->line), CW_E_CONFLICT,
                            "capacity %.6g lb at %.6g ft is more than %.6g lb at %.6g ft on the "
                            "same boom; check "
                            "both against the chart",
                            b->capacity_lb, b->radius_ft, a->capacity_lb, a->radius_ft);
            continue;
        }
        for (int j = 0; j < i; j++) {
            const point *c = &r->points[j];
            if (!cw_text_same(c->configuration, b->configuration) || c->boom_ft < b->boom_ft)
                continue;
            cw_diag_add(r->diags, here(r, b->line), CW_E_CONFLICT,
                        "boom %.6g ft comes after boom %.6g ft of the same configuration (line "
                        "%d); write booms "
                        "from short to long, each in one block",
                        b->boom_ft, c->boom_ft, c->line);
            break;
        }
    }
}

static cw_chart_column *gather(reader *r, int *count)
{
    cw_chart_column *columns = CW_TAKE(r->arena, cw_chart_column, CW_CHART_COLUMNS_MAX);
    double *radius_ft = CW_TAKE(r->arena, double, r->count);
    double *capacity_lb = CW_TAKE(r->arena, double, r->count);
    *count = 0;
    for (int i = 0; i < r->count; i++) {
        const point *p = &r->points[i];
        radius_ft[i] = p->radius_ft;
        capacity_lb[i] = p->capacity_lb;
        if (i == 0 || !same_column(p, &r->points[i - 1])) {
            if (*count == CW_CHART_COLUMNS_MAX) {
                cw_diag_add(r->diags, here(r, p->line), CW_E_TOO_MANY,
                            "the chart has more than %d columns (booms times configurations); keep "
                            "those that "
                            "are used",
                            CW_CHART_COLUMNS_MAX);
                return columns;
            }
            columns[(*count)++] =
                (cw_chart_column){p->configuration, p->boom_ft, radius_ft + i, capacity_lb + i, 0};
        }
        columns[*count - 1].count++;
    }
    return columns;
}

static bool has_radius(const cw_chart_column *column, double radius_ft)
{
    for (int i = 0; i < column->count; i++)
        if (fabs(column->radius_ft[i] - radius_ft) < CW_SAME_PLACE_FT)
            return true;
    return false;
}

/* A radius that a shorter and a longer boom list, inside the ends of this one, was left out by
 * accident: without it the look-up would go to the row after it, which is safe but not the chart.
 */
static void check_gaps(reader *r, const cw_chart_column *columns, int count)
{
    int line_of = 0;
    for (int c = 0; c < count; line_of += columns[c++].count) {
        const cw_chart_column *own = &columns[c];
        if (c == 0 || c + 1 == count ||
            !cw_text_same(columns[c - 1].configuration, own->configuration) ||
            !cw_text_same(columns[c + 1].configuration, own->configuration))
            continue;
        for (int i = 0; i < columns[c - 1].count; i++) {
            const double at_ft = columns[c - 1].radius_ft[i];
            if (at_ft > own->radius_ft[0] && at_ft < own->radius_ft[own->count - 1] &&
                has_radius(&columns[c + 1], at_ft) && !has_radius(own, at_ft))
                cw_diag_add(r->diags, here(r, r->points[line_of].line), CW_E_MISSING,
                            "boom %.6g ft has no row at radius %.6g ft, and booms %.6g and %.6g ft "
                            "have; add the row",
                            own->boom_ft, at_ft, columns[c - 1].boom_ft, columns[c + 1].boom_ft);
        }
    }
}

static void read_all(reader *r, cw_chart *chart)
{
    bool headed = false;
    size_t length = 0;
    if (strncmp(r->at, "\xEF\xBB\xBF", 3) == 0)
        r->at += 3;
    for (const char *text; (text = next_line(r, &length)) != NULL;) {
        if (length == 0)
            continue;
        if (text[0] == '#') {
            const size_t skip = length > 1 && text[1] == ' ' ? 2 : 1;
            if (!chart->notice[0])
                chart->notice = cw_arena_copy(r->arena, text + skip, length - skip);
        } else if (!headed) {
            headed = true;
            if (!read_heading(r, text, length))
                return;
        } else {
            read_row(r, text, length);
        }
    }
    if (r->count == 0 && r->diags->count == 0)
        cw_diag_add(r->diags, here(r, r->line), CW_E_MISSING,
                    "the chart has no rows; write boom_ft,radius_ft,capacity_lb,configuration and "
                    "one row for each "
                    "radius");
}

bool cw_chart_read(const char *text, const char *file, cw_chart *chart, cw_arena *arena,
                   cw_diags *diags)
{
    const int before = diags->count + diags->dropped;
    *chart = (cw_chart){.file = file, .notice = ""};
    reader r = {.at = text, .file = file, .arena = arena, .diags = diags};
    if (strlen(text) > CW_CHART_BYTES_MAX) {
        cw_diag_add(diags, here(&r, 0), CW_E_TOO_MANY, "the chart is longer than %d bytes",
                    CW_CHART_BYTES_MAX);
        return false;
    }
    r.points = CW_TAKE(arena, point, CW_CHART_POINTS_MAX);
    read_all(&r, chart);
    if (diags->count + diags->dropped == before)
        check_order(&r);
    if (diags->count + diags->dropped != before)
        return false;
    cw_chart_column *columns = gather(&r, &chart->count);
    chart->columns = columns;
    check_gaps(&r, columns, chart->count);
    return diags->count + diags->dropped == before;
}

cw_chart_look cw_chart_capacity(const cw_chart *chart, const char *configuration, double boom_ft,
                                double radius_ft)
{
    for (int c = 0; c < chart->count; c++) {
        const cw_chart_column *column = &chart->columns[c];
        if (!cw_text_same(column->configuration, configuration) ||
            !cw_meets(boom_ft, column->boom_ft))
            continue;
        // Below the first row the boom cannot come that near: no rating either.
        for (int i = 0; i < column->count && cw_meets(column->radius_ft[0], radius_ft); i++)
            if (cw_meets(radius_ft, column->radius_ft[i]))
                return (cw_chart_look){true, column->capacity_lb[i], column->radius_ft[i],
                                       column->boom_ft};
        break;
    }
    return (cw_chart_look){0};
}

bool cw_chart_reach(const cw_chart_column *column, double load_lb, double *least_ft,
                    double *most_ft)
{
    *least_ft = column->radius_ft[0];
    int last = -1;
    for (int i = 0; i < column->count && cw_meets(load_lb, column->capacity_lb[i]); i++)
        last = i;
    *most_ft = last < 0 ? 0.0 : column->radius_ft[last];
    return last >= 0;
}
