/* Heights on a square grid: reading the ASCII form, and the height and section of it. */
#include <ctype.h>
#include <math.h>
#include <string.h>

#include "cw/tolerance.h"
#include "cw/units.h"
#include "ground_internal.h"

enum {
    SIDE_MAX = 100000, /* columns or rows */
    /* Between two grid lines the bilinear surface is curved along the line; four chords leave at
     * most a 64th of the cell's twist (a parabola's chord is a fourth of the twist off at most,
     * /4^2). */
    CHORDS = 4,
    KEYS = 6
};

#define CELL_LOW_FT 0.01
#define CELL_HIGH_FT 1000.0

typedef enum key { NCOLS, NROWS, XLL, YLL, CELLSIZE, NODATA } key;

typedef struct grid_reader {
    const char *next;
    int line;
    const char *word;
    size_t length;
    bool given[KEYS];
    double values[KEYS];
    bool x_is_centre, y_is_centre;
    double ft_per_unit;
    cw_pos at;
    cw_diags *diags;
} grid_reader;

static bool next_word(grid_reader *r)
{
    while (*r->next && strchr(" \t\r\n", *r->next)) {
        if (*r->next == '\n')
            r->line++;
        r->next++;
    }
    r->word = r->next;
    r->length = strcspn(r->next, " \t\r\n");
    r->next += r->length;
    return r->length > 0;
}

static cw_pos here(const grid_reader *r)
{
    return (cw_pos){r->at.file, r->at.path, r->line, 1};
}

static bool word_is(const grid_reader *r, const char *word)
{
    if (strlen(word) != r->length)
        return false;
    for (size_t i = 0; i < r->length; i++)
        if (tolower((unsigned char)r->word[i]) != word[i])
            return false;
    return true;
}

/* The index of a heading word, or KEYS. */
static int key_of(grid_reader *r)
{
    static const struct {
        const char *word;
        key key;
        bool centre;
    } words[] = {{"ncols", NCOLS, false},       {"nrows", NROWS, false},
                 {"xllcorner", XLL, false},     {"xllcenter", XLL, true},
                 {"yllcorner", YLL, false},     {"yllcenter", YLL, true},
                 {"cellsize", CELLSIZE, false}, {"nodata_value", NODATA, false}};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (!word_is(r, words[i].word))
            continue;
        if (words[i].key == XLL)
            r->x_is_centre = words[i].centre;
        if (words[i].key == YLL)
            r->y_is_centre = words[i].centre;
        return (int)words[i].key;
    }
    return KEYS;
}

static bool report_word(grid_reader *r, const char *what)
{
    cw_diag_add(r->diags, here(r), CW_E_VALUE, "%s '%.*s' is not a number; write it as 1234.5",
                what, (int)(r->length < 40 ? r->length : 40), r->word);
    return false;
}

/* Leaves the reader at the first height. */
static bool read_heading(grid_reader *r)
{
    for (int i = 0; i < KEYS; i++) {
        const grid_reader before = *r;
        const int found = next_word(r) ? key_of(r) : KEYS;
        if (found == KEYS) {
            r->next = before.next;
            r->line = before.line;
            break;
        }
        if (!next_word(r) || !cw_ground_number(r->word, r->length, &r->values[found]))
            return report_word(r, "heading value");
        r->given[found] = true;
    }
    static const char *const names[] = {"ncols", "nrows", "xllcorner", "yllcorner", "cellsize"};
    for (int i = 0; i < NODATA; i++)
        if (!r->given[i]) {
            cw_diag_add(
                r->diags, here(r), CW_E_MISSING,
                "the grid's heading lacks %s; an .asc grid starts with ncols, nrows, xllcorner, "
                "yllcorner, cellsize",
                names[i]);
            return false;
        }
    return true;
}

static bool whole_in(double value, double high)
{
    return value >= 2.0 && value <= high && floor(value) == value;
}

static bool heading_is_sound(grid_reader *r)
{
    const double columns = r->values[NCOLS], rows = r->values[NROWS];
    const double cell_ft = r->values[CELLSIZE] * r->ft_per_unit;
    if (!whole_in(columns, SIDE_MAX) || !whole_in(rows, SIDE_MAX) ||
        columns * rows > CW_GRID_CELLS_MAX) {
        cw_diag_add(
            r->diags, here(r), CW_E_RANGE,
            "a grid of %g columns and %g rows is outside 2 by 2 to %d cells; cut it down to the "
            "crossing",
            columns, rows, CW_GRID_CELLS_MAX);
        return false;
    }
    if (!(cell_ft >= CELL_LOW_FT && cell_ft <= CELL_HIGH_FT)) {
        cw_diag_add(r->diags, here(r), CW_E_RANGE,
                    "a cell of %g ft is outside %g to %g ft; check cellsize and ground.grid_unit",
                    cell_ft, CELL_LOW_FT, CELL_HIGH_FT);
        return false;
    }
    return true;
}

static bool read_heights(grid_reader *r, double *heights_ft, bool *known, int count)
{
    for (int i = 0; i < count; i++) {
        double value = 0.0;
        if (!next_word(r)) {
            cw_diag_add(r->diags, here(r), CW_E_MISSING,
                        "the grid ends after %d of %d heights; copy the whole file again", i,
                        count);
            return false;
        }
        if (!cw_ground_number(r->word, r->length, &value))
            return report_word(r, "height");
        known[i] = !r->given[NODATA] || value != r->values[NODATA];
        heights_ft[i] = value * r->ft_per_unit;
        if (known[i] &&
            !(heights_ft[i] >= CW_GROUND_ELEV_LOW_FT && heights_ft[i] <= CW_GROUND_ELEV_HIGH_FT)) {
            cw_diag_add(
                r->diags, here(r), CW_E_RANGE,
                "height %.2f ft is outside %.0f to %.0f ft; name its NODATA_value in the heading, "
                "or check ground.grid_unit",
                heights_ft[i], CW_GROUND_ELEV_LOW_FT, CW_GROUND_ELEV_HIGH_FT);
            return false;
        }
    }
    if (next_word(r)) {
        cw_diag_add(r->diags, here(r), CW_E_TOO_MANY,
                    "the grid goes on after its %d heights; check ncols and nrows", count);
        return false;
    }
    return true;
}

const cw_ground_grid *cw_ground_grid_parse(const char *text, bool metres, cw_pos at,
                                           cw_arena *arena, cw_diags *diags)
{
    grid_reader r = {.next = text,
                     .line = 1,
                     .ft_per_unit = metres ? 1.0 / CW_M_PER_FT : 1.0,
                     .at = at,
                     .diags = diags};
    if (!read_heading(&r) || !heading_is_sound(&r))
        return NULL;
    const int columns = (int)r.values[NCOLS], rows = (int)r.values[NROWS];
    double *heights_ft = CW_TAKE(arena, double, columns *rows);
    bool *known = CW_TAKE(arena, bool, columns *rows);
    if (!read_heights(&r, heights_ft, known, columns * rows))
        return NULL;
    const double cell_ft = r.values[CELLSIZE] * r.ft_per_unit;
    cw_ground_grid *grid = CW_TAKE(arena, cw_ground_grid, 1);
    *grid = (cw_ground_grid){
        .columns = columns,
        .rows = rows,
        .west_ft = r.values[XLL] * r.ft_per_unit + (r.x_is_centre ? 0.0 : cell_ft / 2.0),
        .south_ft = r.values[YLL] * r.ft_per_unit + (r.y_is_centre ? 0.0 : cell_ft / 2.0),
        .cell_ft = cell_ft,
        .elevation_ft = heights_ft,
        .known = known,
    };
    return grid;
}

/* ---- height and section ---- */

/* The square between four nodes, counted from the south-west. */
typedef struct cell {
    int column, row;
} cell;

/* False outside, or where a corner is not known. */
static bool cell_of(const cw_ground_grid *grid, double northing_ft, double easting_ft, cell *found)
{
    // A place on the outermost grid line belongs to the cell inside it.
    const double slack = CW_SAME_PLACE_FT / grid->cell_ft;
    const double x = (easting_ft - grid->west_ft) / grid->cell_ft;
    const double y = (northing_ft - grid->south_ft) / grid->cell_ft;
    if (!(x >= -slack && x <= grid->columns - 1 + slack && y >= -slack &&
          y <= grid->rows - 1 + slack))
        return false;
    found->column = (int)fmin(fmax(floor(x), 0.0), grid->columns - 2);
    found->row = (int)fmin(fmax(floor(y), 0.0), grid->rows - 2);
    const bool *known = grid->known + (grid->rows - 1 - found->row) * grid->columns + found->column;
    return known[0] && known[1] && known[-grid->columns] && known[1 - grid->columns];
}

static double height_in(const cw_ground_grid *grid, cell c, double northing_ft, double easting_ft)
{
    const double x = fmin(fmax((easting_ft - grid->west_ft) / grid->cell_ft - c.column, 0.0), 1.0);
    const double y = fmin(fmax((northing_ft - grid->south_ft) / grid->cell_ft - c.row, 0.0), 1.0);
    // Rows are stored from the north, y counts from the south.
    const double *south = grid->elevation_ft + (grid->rows - 1 - c.row) * grid->columns + c.column;
    const double *north = south - grid->columns;
    return south[0] * (1.0 - x) * (1.0 - y) + south[1] * x * (1.0 - y) + north[0] * (1.0 - x) * y +
           north[1] * x * y;
}

bool cw_ground_grid_height(const cw_ground_grid *grid, double northing_ft, double easting_ft,
                           double *elevation_ft)
{
    cell c = {0};
    if (!cell_of(grid, northing_ft, easting_ft, &c))
        return false;
    *elevation_ft = height_in(grid, c, northing_ft, easting_ft);
    return true;
}

/* The next place past @p along where the leg meets a grid line of one direction: @p value runs by
 * @p rate per ft. */
static double next_line(double start, double rate, double along)
{
    if (fabs(rate) < 1e-12)
        return HUGE_VAL;
    const double now = start + rate * along;
    double line = rate > 0.0 ? floor(now) + 1.0 : ceil(now) - 1.0;
    double reached = (line - start) / rate;
    // Rounding may find the line it stands on once more.
    if (reached <= along + CW_SAME_PLACE_FT)
        reached = (line + (rate > 0.0 ? 1.0 : -1.0) - start) / rate;
    return reached;
}

/* The cell is that of the middle, so that a stretch does not ask the cell beyond its end. */
static void add_cell(const cw_ground_grid *grid, const cw_ground_leg *leg, double from_ft,
                     double to_ft, cw_ground_stretches *list)
{
    const double azimuth = leg->azimuth_deg * CW_RAD_PER_DEG;
    const double north = cos(azimuth), east = sin(azimuth), middle_ft = (from_ft + to_ft) / 2.0;
    cell c = {0};
    if (!cell_of(grid, leg->northing_ft + middle_ft * north, leg->easting_ft + middle_ft * east,
                 &c))
        return;
    double before_ft = 0.0, before_z_ft = 0.0;
    for (int i = 0; i <= CHORDS; i++) {
        const double at_ft = from_ft + (to_ft - from_ft) * i / CHORDS;
        const double z_ft =
            height_in(grid, c, leg->northing_ft + at_ft * north, leg->easting_ft + at_ft * east);
        if (i > 0)
            cw_ground_add_stretch(list,
                                  (cw_ground_stretch){leg->from_ft + before_ft,
                                                      leg->from_ft + at_ft, before_z_ft, z_ft});
        before_ft = at_ft;
        before_z_ft = z_ft;
    }
}

cw_ground_profile cw_ground_cut_grid(const cw_ground_grid *grid, const cw_ground_line *line,
                                     cw_pos at, cw_arena *arena, cw_diags *diags)
{
    cw_ground_stretches list = {.arena = arena};
    for (int i = 0; i < line->leg_count; i++) {
        const cw_ground_leg *leg = &line->legs[i];
        const double azimuth = leg->azimuth_deg * CW_RAD_PER_DEG;
        const double x = (leg->easting_ft - grid->west_ft) / grid->cell_ft;
        const double y = (leg->northing_ft - grid->south_ft) / grid->cell_ft;
        const double x_rate = sin(azimuth) / grid->cell_ft, y_rate = cos(azimuth) / grid->cell_ft;
        const double length_ft = leg->to_ft - leg->from_ft;
        // Each step crosses at least one grid line of either direction.
        for (double along_ft = 0.0; along_ft < length_ft - CW_SAME_PLACE_FT;) {
            const double next_ft = fmin(
                length_ft, fmin(next_line(x, x_rate, along_ft), next_line(y, y_rate, along_ft)));
            add_cell(grid, leg, along_ft, next_ft, &list);
            along_ft = next_ft;
        }
    }
    return cw_ground_join(&list, line, at, diags);
}

/* ---- triangles ---- */

/* Columns or rows of nodes between two places, at least one square wide; false when none is there. */
static bool window(double from_ft, double to_ft, double start_ft, double cell_ft, int count, int *first,
                   int *last)
{
    const double low = floor((from_ft - start_ft) / cell_ft), high = ceil((to_ft - start_ft) / cell_ft);
    if (high < 0.0 || low > count - 1)
        return false;
    *first = (int)fmax(low, 0.0);
    *last = (int)fmin(high, count - 1);
    return *last > *first;
}

typedef struct gridder {
    const cw_ground_grid *grid;
    int west, south, columns, rows; /* of nodes */
    cw_survey_point *points;
    int (*faces)[3];
    int point_count, face_count;
} gridder;

/* Node by column and row of the window, rows from the south. */
static int node_of(const gridder *g, int column, int row)
{
    return (g->grid->rows - 1 - (g->south + row)) * g->grid->columns + g->west + column;
}

static void add_square(gridder *g, int column, int row)
{
    enum { AROUND = 4 };
    static const int step[AROUND][2] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
    int corner[AROUND];
    cw_survey_point middle = {.name = "", .note = ""};
    for (int k = 0; k < AROUND; k++) {
        if (!g->grid->known[node_of(g, column + step[k][0], row + step[k][1])])
            return;
        corner[k] = (row + step[k][1]) * g->columns + column + step[k][0];
        middle.northing_ft += g->points[corner[k]].northing_ft / AROUND;
        middle.easting_ft += g->points[corner[k]].easting_ft / AROUND;
        middle.elevation_ft += g->points[corner[k]].elevation_ft / AROUND;
    }
    for (int k = 0; k < AROUND; k++) {
        int *face = g->faces[g->face_count++];
        face[0] = corner[k];
        face[1] = corner[(k + 1) % AROUND];
        face[2] = g->point_count;
    }
    g->points[g->point_count++] = middle;
}

static bool look_near(const cw_ground_grid *grid, const cw_ground_line *line, gridder *g)
{
    double south = HUGE_VAL, north = -HUGE_VAL, west = HUGE_VAL, east = -HUGE_VAL;
    for (int i = 0; i < line->leg_count; i++) {
        const cw_ground_leg *leg = &line->legs[i];
        const double azimuth = leg->azimuth_deg * CW_RAD_PER_DEG, length_ft = leg->to_ft - leg->from_ft;
        for (int end = 0; end < 2; end++) {
            const double n = leg->northing_ft + end * length_ft * cos(azimuth);
            const double e = leg->easting_ft + end * length_ft * sin(azimuth);
            south = fmin(south, n);
            north = fmax(north, n);
            west = fmin(west, e);
            east = fmax(east, e);
        }
    }
    int last_column = 0, last_row = 0;
    if (!window(west - CW_GROUND_NEAR_FT, east + CW_GROUND_NEAR_FT, grid->west_ft, grid->cell_ft,
                grid->columns, &g->west, &last_column) ||
        !window(south - CW_GROUND_NEAR_FT, north + CW_GROUND_NEAR_FT, grid->south_ft, grid->cell_ft,
                grid->rows, &g->south, &last_row))
        return false;
    g->columns = last_column - g->west + 1;
    g->rows = last_row - g->south + 1;
    return true;
}

const cw_ground_mesh *cw_ground_grid_mesh(const cw_ground_grid *grid, const cw_ground_line *line,
                                          cw_arena *arena)
{
    gridder g = {.grid = grid};
    if (!look_near(grid, line, &g))
        return NULL;
    const int squares = (g.columns - 1) * (g.rows - 1);
    g.points = CW_TAKE(arena, cw_survey_point, g.columns * g.rows + squares);
    g.faces = cw_arena_take(arena, (size_t)squares * 4, sizeof *g.faces);
    for (int row = 0; row < g.rows; row++)
        for (int column = 0; column < g.columns; column++)
            g.points[g.point_count++] =
                (cw_survey_point){grid->south_ft + (g.south + row) * grid->cell_ft,
                                  grid->west_ft + (g.west + column) * grid->cell_ft,
                                  grid->elevation_ft[node_of(&g, column, row)],
                                  "",
                                  "",
                                  0};
    for (int row = 0; row + 1 < g.rows; row++)
        for (int column = 0; column + 1 < g.columns; column++)
            add_square(&g, column, row);
    cw_ground_mesh *mesh = CW_TAKE(arena, cw_ground_mesh, 1);
    *mesh = (cw_ground_mesh){g.points, g.point_count, (const int(*)[3])g.faces, g.face_count};
    return g.face_count > 0 ? mesh : NULL;
}
