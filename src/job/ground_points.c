/* Survey points as text: point, northing, easting, elevation, description. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "ground_internal.h"

enum { LINE_FAULTS_MAX = 20, NUMBER_MAX = 40, LEADING_FIELDS = 4 };

typedef struct slice {
    const char *text;
    size_t length;
} slice;

typedef struct fields {
    slice items[LEADING_FIELDS];
    int count;
    slice rest;
} fields;

typedef struct point_reader {
    bool easting_first;
    cw_pos at;
    cw_survey_point *items;
    int count, capacity, faults;
    bool has_heading;
    cw_arena *arena;
    cw_diags *diags;
} point_reader;

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static slice trim(slice s)
{
    while (s.length > 0 && is_blank(s.text[0])) {
        s.text++;
        s.length--;
    }
    while (s.length > 0 && is_blank(s.text[s.length - 1]))
        s.length--;
    return s;
}

static slice unquote(slice s)
{
    if (s.length >= 2 && s.text[0] == '"' && s.text[s.length - 1] == '"')
        return (slice){s.text + 1, s.length - 2};
    return s;
}

/* A plain decimal of at most 15 digits: both the digits and the power of ten are exact, so their quotient
 * is the nearest double, as strtod gives it (W. D. Clinger, "How to read floating point numbers
 * accurately", 1990), in a third of its time.  False for any other text. */
static bool plain_decimal(const char *text, size_t length, double *value)
{
    enum { DIGITS_MAX = 15, BASE = 10 };
    const bool negative = text[0] == '-';
    int64_t digits = 0, power = 1;
    int count = 0;
    bool fraction = false;
    for (size_t i = negative ? 1 : 0; i < length; i++) {
        if (text[i] == '.' && !fraction) {
            fraction = true;
            continue;
        }
        if (text[i] < '0' || text[i] > '9' || count == DIGITS_MAX)
            return false;
        digits = digits * BASE + (text[i] - '0');
        power *= fraction ? BASE : 1;
        count++;
    }
    *value = (double)digits / (double)power;
    *value = negative ? -*value : *value;
    return count > 0;
}

bool cw_ground_number(const char *text, size_t length, double *value)
{
    if (length > 0 && plain_decimal(text, length, value))
        return true;
    char digits[NUMBER_MAX + 1];
    if (length == 0 || length > NUMBER_MAX)
        return false;
    for (size_t i = 0; i < length; i++) {
        if (!strchr("+-.0123456789eE", text[i]) || text[i] == '\0')
            return false;
        digits[i] = text[i];
    }
    digits[length] = '\0';
    char *end = NULL;
    *value = strtod(digits, &end);
    return *end == '\0' && isfinite(*value);
}

/* Commas separate when one follows the first field, else blanks do: a description may hold commas.
 */
static bool uses_commas(slice line)
{
    size_t i = 0;
    while (i < line.length && !is_blank(line.text[i]) && line.text[i] != ',')
        i++;
    while (i < line.length && is_blank(line.text[i]))
        i++;
    return i < line.length && line.text[i] == ',';
}

static fields split(slice line)
{
    fields found = {0};
    const bool commas = uses_commas(line);
    size_t i = 0;
    while (found.count < LEADING_FIELDS && i < line.length) {
        const size_t start = i;
        while (i < line.length && (commas ? line.text[i] != ',' : !is_blank(line.text[i])))
            i++;
        found.items[found.count++] = unquote(trim((slice){line.text + start, i - start}));
        if (i < line.length && commas)
            i++;
        while (!commas && i < line.length && is_blank(line.text[i]))
            i++;
    }
    found.rest = trim((slice){line.text + i, line.length - i});
    return found;
}

/* The description without its outer quotes, doubled quotes made single. */
static const char *description(slice s, cw_arena *arena)
{
    const slice inside = unquote(s);
    char *text = cw_arena_copy(arena, inside.text, inside.length);
    if (inside.length == s.length)
        return text;
    size_t kept = 0;
    for (size_t i = 0; i < inside.length; i++) {
        text[kept++] = inside.text[i];
        if (inside.text[i] == '"' && i + 1 < inside.length && inside.text[i + 1] == '"')
            i++;
    }
    text[kept] = '\0';
    return text;
}

static bool values_are_sound(point_reader *r, const double values[3], cw_pos where)
{
    for (int i = 0; i < 2; i++)
        if (fabs(values[i]) > CW_GROUND_COORD_MAX_FT) {
            cw_diag_add(
                r->diags, where, CW_E_RANGE,
                "coordinate %.3f is outside -%.0f to %.0f ft; check the column and its unit",
                values[i], CW_GROUND_COORD_MAX_FT, CW_GROUND_COORD_MAX_FT);
            return false;
        }
    if (values[2] < CW_GROUND_ELEV_LOW_FT || values[2] > CW_GROUND_ELEV_HIGH_FT) {
        cw_diag_add(r->diags, where, CW_E_RANGE,
                    "elevation %.2f is outside %.0f to %.0f ft; check the order of the columns",
                    values[2], CW_GROUND_ELEV_LOW_FT, CW_GROUND_ELEV_HIGH_FT);
        return false;
    }
    return true;
}

/* A first line with no number in its coordinates names the columns. */
static bool is_heading(const point_reader *r, const fields *f)
{
    double ignored = 0.0;
    if (r->count > 0 || r->has_heading || r->faults > 0 || f->count < 3)
        return false;
    for (int i = 1; i < f->count; i++)
        if (cw_ground_number(f->items[i].text, f->items[i].length, &ignored))
            return false;
    return true;
}

static bool read_values(point_reader *r, const fields *f, cw_pos where, double values[3])
{
    static const char *const names[2][3] = {{"northing", "easting", "elevation"},
                                            {"easting", "northing", "elevation"}};
    const char *const *name = names[r->easting_first];
    if (f->count < LEADING_FIELDS) {
        cw_diag_add(r->diags, where, CW_E_VALUE,
                    "this line has %d fields, 4 are needed: point, %s, %s, elevation", f->count,
                    name[0], name[1]);
        return false;
    }
    for (int i = 0; i < 3; i++) {
        const slice s = f->items[i + 1];
        if (!cw_ground_number(s.text, s.length, &values[i])) {
            cw_diag_add(r->diags, where, CW_E_VALUE,
                        "%s '%.*s' is not a number; write it as 1234.567, with a point and no "
                        "thousands mark",
                        name[i], (int)(s.length < NUMBER_MAX ? s.length : NUMBER_MAX), s.text);
            return false;
        }
    }
    return values_are_sound(r, values, where);
}

static void keep(point_reader *r, cw_survey_point point)
{
    if (r->count == r->capacity) {
        r->capacity = r->capacity ? r->capacity * 2 : 256;
        r->items = cw_arena_grow(r->arena, r->items, (size_t)r->count, (size_t)r->capacity,
                                 sizeof *r->items);
    }
    r->items[r->count++] = point;
}

static void take_line(point_reader *r, slice line, int number)
{
    const cw_pos where = {r->at.file, r->at.path, number, 1};
    const fields f = split(line);
    double values[3] = {0};
    if (is_heading(r, &f)) {
        r->has_heading = true;
        cw_diag_add(r->diags, where, CW_W_ASSUMED,
                    "line %d holds no coordinates and is taken for a heading", number);
    } else if (read_values(r, &f, where, values)) {
        const int north = r->easting_first ? 1 : 0;
        keep(r, (cw_survey_point){
                    .northing_ft = values[north],
                    .easting_ft = values[1 - north],
                    .elevation_ft = values[2],
                    .name = cw_arena_copy(r->arena, f.items[0].text, f.items[0].length),
                    .note = description(f.rest, r->arena),
                    .line = number,
                });
    } else {
        r->faults++;
    }
}

cw_survey_points cw_ground_points(const char *text, int order, cw_pos at, cw_arena *arena,
                                  cw_diags *diags)
{
    point_reader r = {.easting_first = order == 1, .at = at, .arena = arena, .diags = diags};
    if (strncmp(text, "\xEF\xBB\xBF", 3) == 0)
        text += 3;
    int number = 1;
    for (const char *p = text; *p && r.faults < LINE_FAULTS_MAX; number++) {
        const size_t length = strcspn(p, "\r\n");
        const slice line = trim((slice){p, length});
        if (line.length > 0)
            take_line(&r, line, number);
        if (r.count > CW_SURVEY_MAX) {
            cw_diag_add(diags, (cw_pos){at.file, at.path, number, 1}, CW_E_TOO_MANY,
                        "more than %d points; cut the file down to the crossing", CW_SURVEY_MAX);
            r.faults++;
            break;
        }
        p += length;
        p += p[0] == '\r' && p[1] == '\n' ? 2 : p[0] != '\0';
    }
    if (r.faults == 0 && r.count == 0)
        cw_diag_add(diags, at, CW_E_MISSING,
                    "the survey file holds no point, 3 make a surface; is it the right file?");
    return (cw_survey_points){r.items, r.faults > 0 ? 0 : r.count};
}
