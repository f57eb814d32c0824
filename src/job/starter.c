/* The job that a new user starts from: one small crossing, every line with its meaning.  The values
 * are invented and plausible together; the words come from the format table. */
#include <assert.h>
#include <string.h>

#include "cw/job.h"
#include "cw/text.h"

enum {
    FOR_LID = 1 << CW_FORM_LID,
    FOR_HOOD = 1 << CW_FORM_DOUBLE_U,
    FOR_RING = 1 << CW_FORM_RING,
    FOR_ALL = FOR_LID | FOR_HOOD | FOR_RING,
    COMMENT_COLUMN = 30,
    LINE_MAX = 100
};

/** One line of the starter, in the order of the format.  NULL values are put in by value_of(). */
typedef struct starter_row {
    const char *path, *us, *si;
    unsigned forms;
    bool many_only; /**< for more than one barrel */
} starter_row;

static const starter_row rows[] = {
    {"format", "1", "1", FOR_ALL, false},
    {"job.name", "New crossing", "New crossing", FOR_ALL, false},
    {"job.units", NULL, NULL, FOR_ALL, false},
    {"road.station", "12+34.50", "376.3 m", FOR_ALL, false},
    {"road.elevation", "512.60 ft", "156.24 m", FOR_ALL, false},
    {"road.grade", "0.8%", "0.8%", FOR_ALL, false},
    {"road.inlet_side", "left", "left", FOR_ALL, false},
    {"road.outlet_template.strips[0].width", "12 ft", "3.6 m", FOR_ALL, false},
    {"road.outlet_template.strips[0].fall", "2%", "2%", FOR_ALL, false},
    {"road.outlet_template.strips[1].width", "4 ft", "1.2 m", FOR_ALL, false},
    {"road.outlet_template.strips[1].fall", "4%", "4%", FOR_ALL, false},
    {"road.outlet_template.side_slope", "2:1", "2:1", FOR_ALL, false},
    {"road.inlet_template.strips[0].width", "12 ft", "3.6 m", FOR_ALL, false},
    {"road.inlet_template.strips[0].fall", "2%", "2%", FOR_ALL, false},
    {"road.inlet_template.strips[1].width", "4 ft", "1.2 m", FOR_ALL, false},
    {"road.inlet_template.strips[1].fall", "4%", "4%", FOR_ALL, false},
    {"road.inlet_template.side_slope", "2:1", "2:1", FOR_ALL, false},
    {"run.skew", "0 deg", "0 deg", FOR_ALL, false},
    {"run.invert", "501.20 ft", "152.77 m", FOR_ALL, false},
    {"run.slope", "1%", "1%", FOR_ALL, false},
    {"box.form", NULL, NULL, FOR_ALL, false},
    {"box.span", "10 ft", "3000 mm", FOR_ALL, false},
    {"box.rise", "6 ft", "1800 mm", FOR_ALL, false},
    {"box.wall", "10 in", "250 mm", FOR_ALL, false},
    {"box.floor", "10 in", "250 mm", FOR_ALL, false},
    {"box.top", "11 in", "280 mm", FOR_ALL, false},
    {"box.leg", "3 ft", "900 mm", FOR_HOOD, false},
    {"box.haunch", "8 in", "200 mm", FOR_ALL, false},
    {"box.top_haunch", "8 in", "200 mm", FOR_HOOD | FOR_RING, false},
    {"barrels.count", NULL, NULL, FOR_ALL, false},
    {"barrels.clear_gap", "4 in", "100 mm", FOR_ALL, true},
    {"fill_between.placements", "4", "4", FOR_ALL, true},
    {"pieces.lengths", "[8 ft, 6 ft, 4 ft]", "[2400 mm, 1800 mm, 1200 mm]", FOR_ALL, false},
};

enum { ROW_COUNT = (int)(sizeof rows / sizeof rows[0]) };

typedef struct starter {
    cw_form form;
    int barrels;
    cw_unit_system units;
    cw_text text;
} starter;

static bool is_used(const starter *s, const starter_row *row)
{
    return (row->forms & 1u << s->form) != 0 && (s->barrels > 1 || !row->many_only);
}

/* ---- finding the words of a path ---- */

/** Where a path leads: its sections from the top, the item of the last one, and the field. */
typedef struct route {
    const cw_section *sections[CW_JOB_DEPTH_MAX];
    int depth;
    int item; /**< of the last section when it is a list, else -1 */
    const cw_field *field;
} route;

static bool key_is(const char *key, const char *start, size_t length)
{
    return strlen(key) == length && strncmp(key, start, length) == 0;
}

static const cw_section *child_of(const cw_section *section, const char *start, size_t length)
{
    for (int i = 0; i < section->child_count; i++)
        if (key_is(section->children[i].key, start, length))
            return &section->children[i];
    return NULL;
}

static route route_of(const char *path)
{
    route r = {.item = -1};
    const cw_section *section = &cw_job_format;
    for (size_t length = strcspn(path, "."); path[length] == '.'; length = strcspn(path, ".")) {
        const size_t key_length = strcspn(path, ".[");
        section = child_of(section, path, key_length);
        assert(section && r.depth < CW_JOB_DEPTH_MAX);
        r.sections[r.depth++] = section;
        r.item = path[key_length] == '[' ? path[key_length + 1] - '0' : -1;
        path += length + 1;
    }
    for (int i = 0; i < section->field_count; i++)
        if (cw_text_same(section->fields[i].key, path))
            r.field = &section->fields[i];
    assert(r.field);
    return r;
}

static const char *value_of(const starter *s, const starter_row *row, const cw_field *field)
{
    const char *value = s->units == CW_SI ? row->si : row->us;
    if (value)
        return value;
    if (field->kind == CW_KIND_COUNT)
        return cw_arena_print(s->text.arena, "%d", s->barrels);
    return field->choices[cw_text_same(field->key, "form") ? (int)s->form : (int)s->units];
}

/* ---- writing ---- */

enum { INDENT = 2 };

static void write_heading(starter *s, const cw_section *section, int depth)
{
    if (depth == 0)
        cw_text_add(&s->text, "\n");
    cw_text_print(&s->text, "%*s# %s\n%*s%s:\n", depth * INDENT, "", section->meaning,
                  depth * INDENT, "", section->key);
}

/* The comment stands behind the value, or above it when the line would be long. */
static void write_line(starter *s, int indent, const char *lead, const cw_field *field,
                       const char *value)
{
    cw_arena *arena = s->text.arena;
    const char *line = cw_arena_print(arena, "%*s%s%s: %s", indent, "", lead, field->key, value);
    const int length = (int)strlen(line);
    const int pad = length < COMMENT_COLUMN ? COMMENT_COLUMN - length : 1;
    cw_text choices = cw_text_on(arena);
    for (int i = 0; field->kind == CW_KIND_CHOICE && field->choices[i]; i++)
        cw_text_print(&choices, "%s%s", i == 0 ? ": " : ", ", field->choices[i]);
    const char *comment = cw_arena_print(arena, "# %s%s", field->meaning, cw_text_string(&choices));
    if (length + pad + (int)strlen(comment) <= LINE_MAX)
        cw_text_print(&s->text, "%s%*s%s\n", line, pad, "", comment);
    else
        cw_text_print(&s->text, "%*s%s\n%s\n", indent + (lead[0] == ' ' ? INDENT : 0), "", comment,
                      line);
}

/* Keys of a section that the starter does not use. */
static void write_other_keys(starter *s, const cw_section *section, const char *path, int depth)
{
    cw_text keys = cw_text_on(s->text.arena);
    for (int i = 0; i < section->field_count; i++) {
        const char *whole = cw_arena_print(s->text.arena, "%s.%s", path, section->fields[i].key);
        bool used = false;
        for (int r = 0; r < ROW_COUNT; r++)
            used = used || (is_used(s, &rows[r]) && cw_text_same(rows[r].path, whole));
        // What is missing here although needed elsewhere, such as the leg of a hood, is not
        // offered.
        if (!used)
            cw_text_print(&keys, "%s%s", keys.length > 0 ? ", " : "", section->fields[i].key);
    }
    if (keys.length > 0)
        cw_text_print(&s->text, "%*s# more keys: %s\n", depth * INDENT, "", cw_text_string(&keys));
}

static void write_other_sections(starter *s)
{
    cw_text_add(&s->text, "\n# Further sections, each with defaults or not needed at all:\n");
    for (int i = 0; i < cw_job_format.child_count; i++) {
        const cw_section *section = &cw_job_format.children[i];
        const char *lead = cw_arena_print(s->text.arena, "%s.", section->key);
        bool used = false;
        for (int r = 0; r < ROW_COUNT; r++)
            used = used || strncmp(rows[r].path, lead, strlen(lead)) == 0;
        if (!used)
            cw_text_print(&s->text, "#   %-14s %s\n", section->key, section->meaning);
    }
}

static void write_row(starter *s, const starter_row *row, const route *r, const route *before)
{
    int shared = 0;
    while (shared < r->depth && shared < before->depth &&
           r->sections[shared] == before->sections[shared])
        shared++;
    for (int i = shared; i < r->depth; i++)
        write_heading(s, r->sections[i], i);
    const bool starts_item = r->item >= 0 && (shared < r->depth || r->item != before->item);
    const int indent = r->depth * INDENT;
    if (r->item < 0)
        write_line(s, indent, "", r->field, value_of(s, row, r->field));
    else if (r->item == 0)
        write_line(s, indent, starts_item ? "- " : "  ", r->field, value_of(s, row, r->field));
    else
        cw_text_print(&s->text, "%*s%s%s: %s\n", indent, "", starts_item ? "- " : "  ",
                      r->field->key, value_of(s, row, r->field));
}

const char *cw_job_starter(cw_form form, int barrels, cw_unit_system units, cw_arena *arena)
{
    assert(barrels >= 1 && barrels <= CW_BARRELS_MAX);
    starter s = {form, barrels, units, cw_text_on(arena)};
    cw_text_add(
        &s.text,
        "# A job for culvertwright.  Every value is invented: put in those of the drawings.\n"
        "# Lengths need a unit: 12 ft, 8 ft 6 in, 5'-10 3/4\", 3.6 m, 905 mm.\n\n");
    route before = {.item = -1};
    for (int i = 0; i < ROW_COUNT; i++) {
        if (!is_used(&s, &rows[i]))
            continue;
        const route r = route_of(rows[i].path);
        const cw_section *left = before.depth > 0 ? before.sections[0] : NULL;
        if (left && left != r.sections[0])
            write_other_keys(&s, left, left->key, 1);
        write_row(&s, &rows[i], &r, &before);
        before = r;
    }
    write_other_keys(&s, before.sections[0], before.sections[0]->key, 1);
    write_other_sections(&s);
    return cw_text_string(&s.text);
}
