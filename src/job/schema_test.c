/* The JSON Schema of the job file, read with a JSON library, and the starter jobs and demo jobs
 * held against it. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "cw/job.h"
#include "cw/text.h"
#include "cw/yaml.h"

/* ---- a job as JSON ---- */

/* Every scalar becomes text, as the job reader has it. */
static json_t *node_of(const cw_entry *entry)
{
    if (entry->kind == CW_ENTRY_MAP)
        return json_object();
    if (entry->kind == CW_ENTRY_LIST)
        return json_array();
    return entry->value[0] ? json_string(entry->value) : json_null();
}

/* "a.b[2]": the parent is "a.b", the key is "[2]"; "a.b": the parent is "a". */
static size_t parent_length(const char *path)
{
    const char *dot = strrchr(path, '.'), *bracket = strrchr(path, '[');
    const char *last = bracket > dot ? bracket : dot;
    return last ? (size_t)(last - path) : 0;
}

static json_t *json_of(const cw_entries *entries)
{
    json_t **nodes = calloc((size_t)entries->count, sizeof *nodes);
    nodes[0] = node_of(&entries->items[0]);
    for (int i = 1; i < entries->count; i++) {
        const char *path = entries->items[i].path;
        const size_t length = parent_length(path);
        int parent = i - 1;
        while (strncmp(entries->items[parent].path, path, length) != 0 ||
               strlen(entries->items[parent].path) != length)
            parent--;
        nodes[i] = node_of(&entries->items[i]);
        if (json_is_array(nodes[parent]))
            json_array_append_new(nodes[parent], nodes[i]);
        else
            json_object_set_new(nodes[parent], path + length + (length > 0), nodes[i]);
    }
    json_t *root = nodes[0];
    free(nodes);
    return root;
}

/* ---- a small checker for the words of JSON Schema that the schema uses ---- */

typedef struct pair {
    const json_t *schema, *value;
} pair;

typedef struct checker {
    pair waiting[8000];
    int count;
    char fault[256]; /**< first one, or "" */
} checker;

static void blame(checker *c, const char *what, const char *key)
{
    if (!c->fault[0])
        snprintf(c->fault, sizeof c->fault, "%s %s", what, key);
}

static bool type_fits(const char *type, const json_t *value)
{
    return (strcmp(type, "object") == 0 && json_is_object(value)) ||
           (strcmp(type, "array") == 0 && json_is_array(value)) ||
           (strcmp(type, "string") == 0 && json_is_string(value)) ||
           (strcmp(type, "null") == 0 && json_is_null(value)) ||
           (strcmp(type, "number") == 0 && json_is_number(value)) ||
           (strcmp(type, "integer") == 0 && json_is_integer(value)) ||
           (strcmp(type, "boolean") == 0 && json_is_boolean(value));
}

static bool some_type_fits(const json_t *type, const json_t *value)
{
    if (!type)
        return true;
    if (json_is_string(type))
        return type_fits(json_string_value(type), value);
    for (size_t i = 0; i < json_array_size(type); i++)
        if (type_fits(json_string_value(json_array_get(type, i)), value))
            return true;
    return false;
}

static bool pattern_fits(const char *pattern, const char *text)
{
    const size_t digits = strspn(text, "0123456789");
    if (strcmp(pattern, "^[0-9]+$") == 0)
        return digits > 0 && text[digits] == '\0';
    assert_int_equal(strncmp(pattern, "[0-9", 4), 0);
    return strpbrk(text, "0123456789") || strstr(text, "\xC2\xBD");
}

static void check_text(checker *c, const json_t *schema, const json_t *value)
{
    const char *text = json_string_value(value);
    const json_t *pattern = json_object_get(schema, "pattern"),
                 *words = json_object_get(schema, "enum");
    if (pattern && !pattern_fits(json_string_value(pattern), text))
        blame(c, "pattern:", text);
    if (json_integer_value(json_object_get(schema, "minLength")) > (json_int_t)strlen(text))
        blame(c, "minLength:", text);
    bool found = !words;
    for (size_t i = 0; i < json_array_size(words); i++)
        found = found || strcmp(json_string_value(json_array_get(words, i)), text) == 0;
    if (!found)
        blame(c, "enum:", text);
}

static void push(checker *c, const json_t *schema, const json_t *value)
{
    assert_true(c->count < (int)(sizeof c->waiting / sizeof c->waiting[0]));
    c->waiting[c->count++] = (pair){schema, value};
}

static void check_object(checker *c, const json_t *schema, const json_t *value)
{
    const json_t *properties = json_object_get(schema, "properties"),
                 *needed = json_object_get(schema, "required");
    for (size_t i = 0; i < json_array_size(needed); i++) {
        const char *key = json_string_value(json_array_get(needed, i));
        if (!json_object_get(value, key))
            blame(c, "required:", key);
    }
    const char *key = NULL;
    json_t *member = NULL;
    json_object_foreach((json_t *)value, key, member)
    {
        const json_t *below = json_object_get(properties, key);
        if (below)
            push(c, below, member);
        else if (json_is_false(json_object_get(schema, "additionalProperties")))
            blame(c, "additionalProperties:", key);
    }
}

static void check_array(checker *c, const json_t *schema, const json_t *value)
{
    const json_t *most = json_object_get(schema, "maxItems"),
                 *least = json_object_get(schema, "minItems");
    if (most && (json_int_t)json_array_size(value) > json_integer_value(most))
        blame(c, "maxItems", "");
    if (least && (json_int_t)json_array_size(value) < json_integer_value(least))
        blame(c, "minItems", "");
    for (size_t i = 0; i < json_array_size(value); i++)
        push(c, json_object_get(schema, "items"), json_array_get(value, i));
}

/* The alternatives of the schema differ in type, so at most one fits. */
static const json_t *alternative(const json_t *schema, const json_t *value)
{
    const json_t *all = json_object_get(schema, "anyOf");
    for (size_t i = 0; i < json_array_size(all); i++)
        if (some_type_fits(json_object_get(json_array_get(all, i), "type"), value))
            return json_array_get(all, i);
    return all ? NULL : schema;
}

/* "" when the value fits the schema. */
static const char *check(checker *c, const json_t *schema, const json_t *value)
{
    c->count = 0;
    c->fault[0] = '\0';
    push(c, schema, value);
    while (c->count > 0) {
        const pair next = c->waiting[--c->count];
        const json_t *one = alternative(next.schema, next.value);
        if (!one || !some_type_fits(json_object_get(one, "type"), next.value))
            blame(c, "type", "");
        else if (json_is_object(next.value))
            check_object(c, one, next.value);
        else if (json_is_array(next.value))
            check_array(c, one, next.value);
        else if (json_is_string(next.value))
            check_text(c, one, next.value);
    }
    return c->fault;
}

/* ---- fixtures ---- */

typedef struct fixture {
    cw_arena arena;
    json_t *schema;
    checker checker;
} fixture;

static int set_up(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    f->arena = cw_arena_on(NULL);
    json_error_t error;
    f->schema = json_loads(cw_job_schema(&f->arena), JSON_REJECT_DUPLICATES, &error);
    if (!f->schema)
        print_error("%d:%d: %s\n", error.line, error.column, error.text);
    *state = f;
    return f->schema ? 0 : -1;
}

static int tear_down(void **state)
{
    fixture *f = *state;
    json_decref(f->schema);
    cw_arena_release(&f->arena);
    free(f);
    return 0;
}

static const cw_entries *entries_of(fixture *f, const char *text, cw_diags *diags)
{
    const cw_entries *entries = cw_yaml_read(text, strlen(text), "job.yaml", &f->arena, diags);
    for (int i = 0; i < diags->count; i++)
        print_error("%s\n", cw_diag_line(&f->arena, &diags->items[i]));
    assert_non_null(entries);
    return entries;
}

static const char *verdict(fixture *f, const char *text)
{
    cw_diags diags = cw_diags_on(&f->arena);
    json_t *job = json_of(entries_of(f, text, &diags));
    const char *fault = check(&f->checker, f->schema, job);
    json_decref(job);
    return fault;
}

static char *file_text(fixture *f, const char *name)
{
    FILE *file = fopen(cw_arena_print(&f->arena, "%s/%s", CW_ROOT, name), "rb");
    if (!file)
        print_error("%s cannot be read\n", name);
    assert_non_null(file);
    char *text = cw_arena_take(&f->arena, CW_JOB_BYTES_MAX + 1, 1);
    text[fread(text, 1, CW_JOB_BYTES_MAX, file)] = '\0';
    fclose(file);
    return text;
}

/* ---- tests ---- */

/* The words of the published 2020-12 vocabulary are all that the schema may use. */
static void schema_says_what_it_is(void **state)
{
    const fixture *f = *state;
    assert_string_equal(json_string_value(json_object_get(f->schema, "$schema")),
                        "https://json-schema.org/draft/2020-12/schema");
    const json_t *box = json_object_get(json_object_get(f->schema, "properties"), "box");
    const json_t *span = json_object_get(json_object_get(box, "properties"), "span");
    // The limits are 2 ft and 40 ft, in feet and inches like every cast dimension.
    const char *words = json_string_value(json_object_get(span, "description"));
    assert_non_null(strstr(words, "clear inside width of one barrel; "));
    assert_non_null(strstr(words, "; 2'-0\" to 40'-0\""));
    assert_true(json_is_false(json_object_get(box, "additionalProperties")));
    assert_int_equal(json_array_size(json_object_get(
                         json_object_get(json_object_get(box, "properties"), "form"), "enum")),
                     3);
}

/* Every section of the format has its place, and every object in the schema closes its keys. */
static void schema_has_every_section_and_key(void **state)
{
    const fixture *f = *state;
    pair waiting[64] = {{NULL, f->schema}};
    const cw_section *sections[64] = {&cw_job_format};
    int count = 1, seen = 0;
    while (count > 0) {
        const cw_section *section = sections[--count];
        const json_t *schema = waiting[count].value;
        seen++;
        if (section->is_list)
            assert_int_equal(json_integer_value(json_object_get(schema, "maxItems")),
                             section->max_items);
        const json_t *object = section->is_list ? json_object_get(schema, "items") : schema;
        const json_t *properties = json_object_get(object, "properties");
        assert_true(json_is_false(json_object_get(object, "additionalProperties")));
        assert_int_equal(json_object_size(properties), section->field_count + section->child_count);
        for (int i = 0; i < section->field_count; i++)
            assert_non_null(json_object_get(properties, section->fields[i].key));
        for (int i = 0; i < section->child_count; i++, count++) {
            sections[count] = &section->children[i];
            waiting[count].value = json_object_get(properties, section->children[i].key);
            assert_non_null(waiting[count].value);
        }
    }
    assert_true(seen > 25);
}

static void every_starter_builds_without_fault(void **state)
{
    fixture *f = *state;
    for (int form = CW_FORM_LID; form <= CW_FORM_RING; form++)
        for (int barrels = 1; barrels <= 3; barrels++)
            for (int units = CW_US; units <= CW_SI; units++) {
                cw_diags diags = cw_diags_on(&f->arena);
                const char *text =
                    cw_job_starter((cw_form)form, barrels, (cw_unit_system)units, &f->arena);
                const cw_job *job =
                    cw_job_build(entries_of(f, text, &diags), NULL, &f->arena, &diags);
                for (int i = 0; i < diags.count; i++)
                    print_error("form %d, %d barrels, units %d: %s\n", form, barrels, units,
                                cw_diag_line(&f->arena, &diags.items[i]));
                assert_non_null(job);
                assert_int_equal(diags.count, 0);
                assert_int_equal(job->box.form, form);
                assert_int_equal(job->barrels.count, barrels);
                assert_int_equal(job->head.units, units);
                assert_string_equal(verdict(f, text), "");
            }
}

/* Metres and feet of the starter describe the same crossing: no value differs by more than 3
 * percent. */
static void starters_in_both_units_are_alike(void **state)
{
    fixture *f = *state;
    cw_diags diags = cw_diags_on(&f->arena);
    const cw_job *jobs[2];
    for (int units = CW_US; units <= CW_SI; units++) {
        const char *text = cw_job_starter(CW_FORM_DOUBLE_U, 2, (cw_unit_system)units, &f->arena);
        jobs[units] = cw_job_build(entries_of(f, text, &diags), NULL, &f->arena, &diags);
        assert_non_null(jobs[units]);
        assert_true(strstr(text, units == CW_SI ? " mm " : " in ") != NULL);
    }
    const double us[] = {jobs[0]->box.span_in,
                         jobs[0]->box.rise_in,
                         jobs[0]->box.wall_in,
                         jobs[0]->box.leg_in,
                         jobs[0]->run.invert_ft,
                         jobs[0]->road.station_ft,
                         jobs[0]->pieces.lengths_in.items[0]};
    const double si[] = {jobs[1]->box.span_in,
                         jobs[1]->box.rise_in,
                         jobs[1]->box.wall_in,
                         jobs[1]->box.leg_in,
                         jobs[1]->run.invert_ft,
                         jobs[1]->road.station_ft,
                         jobs[1]->pieces.lengths_in.items[0]};
    for (size_t i = 0; i < sizeof us / sizeof us[0]; i++)
        assert_true(us[i] > si[i] * 0.97 && us[i] < si[i] * 1.03);
}

static void demo_jobs_fit_the_schema(void **state)
{
    fixture *f = *state;
    static const char *const names[] = {"demo/farm-road.yaml", "demo/gully.yaml",
                                        "demo/phased-three.yaml", "demo/twin-hood.yaml"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const char *fault = verdict(f, file_text(f, names[i]));
        if (fault[0])
            print_error("%s: %s\n", names[i], fault);
        assert_string_equal(fault, "");
    }
}

static void schema_refuses_what_the_reader_refuses(void **state)
{
    fixture *f = *state;
    static const struct {
        const char *text, *fault;
    } cases[] = {
        {"format: 1\n", "required: job"},
        {"format: one\njob: {name: a}\nrun: {invert: 1 ft, slope: 1%}\nbox: {form: lid, span: 5 "
         "ft, rise: 4 ft, wall: 8 in, "
         "floor: 8 in, top: 8 in, haunch: 6 in}\npieces: {lengths: [4 ft]}\n",
         "pattern: one"},
        {"format: 1\njob: {name: a, nmae: b}\nrun: {invert: 1 ft, slope: 1%}\nbox: {form: lid, "
         "span: 5 ft, rise: 4 ft, wall: "
         "8 in, floor: 8 in, top: 8 in, haunch: 6 in}\npieces: {lengths: [4 ft]}\n",
         "additionalProperties: nmae"},
        {"format: 1\njob: {name: a}\nrun: {invert: 1 ft, slope: 1%}\nbox: {form: slab, span: 5 ft, "
         "rise: 4 ft, wall: 8 in, "
         "floor: 8 in, top: 8 in, haunch: 6 in}\npieces: {lengths: [4 ft]}\n",
         "enum: slab"},
        {"format: 1\njob: {name: a}\nrun: {invert: 1 ft, slope: 1%}\nbox: {form: lid, span: wide, "
         "rise: 4 ft, wall: 8 in, "
         "floor: 8 in, top: 8 in, haunch: 6 in}\npieces: {lengths: [4 ft]}\n",
         "pattern: wide"},
        {"format: 1\njob: [a]\nrun: {invert: 1 ft, slope: 1%}\nbox: {form: lid, span: 5 ft, rise: "
         "4 ft, wall: 8 in, "
         "floor: 8 in, top: 8 in, haunch: 6 in}\npieces: {lengths: [4 ft]}\n",
         "type "},
        {"format: 1\njob: {name: a}\nrun: {invert: 1 ft, slope: 1%}\nbox: {form: lid, span: 5 ft, "
         "rise: 4 ft, wall: 8 in, "
         "floor: 8 in, top: 8 in, haunch: 6 in}\npieces: {lengths: []}\n",
         "minItems "},
    };
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++)
        assert_string_equal(verdict(f, cases[i].text), cases[i].fault);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(schema_says_what_it_is),
        cmocka_unit_test(schema_has_every_section_and_key),
        cmocka_unit_test(every_starter_builds_without_fault),
        cmocka_unit_test(starters_in_both_units_are_alike),
        cmocka_unit_test(demo_jobs_fit_the_schema),
        cmocka_unit_test(schema_refuses_what_the_reader_refuses),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
