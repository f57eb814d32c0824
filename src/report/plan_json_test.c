// The JSON of the plan against docs/plan-schema.json, by a small validator over jansson.
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>
#include <jansson.h>

#include "app/app.h"
#include "cw/report.h"
#include "cw/yaml.h"

/* ---- the validator: what of JSON Schema 2020-12 the schema uses, and nothing passed over ---- */

enum { PENDING_MAX = 200000 };

/** A value still to be compared with its schema: the work list stands for recursion. */
typedef struct pending {
    json_t *schema, *value;
    const char *key; /**< last key on the way, for the message */
} pending;

typedef struct validator {
    json_t *root;
    pending *list;
    int count;
    char fault[400]; /**< of the first fault, "" for none */
} validator;

static void refuse(validator *v, const char *key, const char *why)
{
    if (v->fault[0] == '\0')
        snprintf(v->fault, sizeof v->fault, "%s: %s", key, why);
}

static void push(validator *v, json_t *schema, json_t *value, const char *key)
{
    assert_true(v->count < PENDING_MAX);
    v->list[v->count++] = (pending){schema, value, key};
}

static bool type_is(json_t *value, const char *type)
{
    const struct {
        const char *name;
        bool is;
    } types[] = {{"object", json_is_object(value)},   {"array", json_is_array(value)},
                 {"string", json_is_string(value)},   {"number", json_is_number(value)},
                 {"integer", json_is_integer(value)}, {"boolean", json_is_boolean(value)},
                 {"null", json_is_null(value)}};
    for (size_t i = 0; i < sizeof types / sizeof types[0]; i++)
        if (strcmp(types[i].name, type) == 0)
            return types[i].is;
    fail_msg("the schema has an unknown type '%s'", type);
    return false;
}

static void check_type(validator *v, json_t *type, const pending *at)
{
    bool good = json_is_string(type) && type_is(at->value, json_string_value(type));
    for (size_t i = 0; i < json_array_size(type); i++)
        good = good || type_is(at->value, json_string_value(json_array_get(type, i)));
    if (!good)
        refuse(v, at->key, "is of another type");
}

static void check_enum(validator *v, json_t *choices, const pending *at)
{
    for (size_t i = 0; i < json_array_size(choices); i++)
        if (json_equal(json_array_get(choices, i), at->value))
            return;
    refuse(v, at->key, "is none of the choices");
}

static void check_required(validator *v, json_t *required, const pending *at)
{
    for (size_t i = 0; json_is_object(at->value) && i < json_array_size(required); i++) {
        const char *key = json_string_value(json_array_get(required, i));
        if (!json_object_get(at->value, key))
            refuse(v, key, "is missing");
    }
}

static void check_members(validator *v, json_t *properties, const pending *at)
{
    const char *key = NULL;
    json_t *member = NULL;
    json_object_foreach(at->value, key, member)
    {
        json_t *schema = json_object_get(properties, key);
        if (schema)
            push(v, schema, member, key);
        else if (json_is_false(json_object_get(at->schema, "additionalProperties")))
            refuse(v, key, "is not in the schema");
    }
}

static void check_keyword(validator *v, const char *word, json_t *rule, const pending *at)
{
    static const char *const notes[] = {"description", "title", "$schema", "$defs",
                                        "additionalProperties"};
    for (size_t i = 0; i < sizeof notes / sizeof notes[0]; i++)
        if (strcmp(word, notes[i]) == 0)
            return;
    if (strcmp(word, "type") == 0) {
        check_type(v, rule, at);
    } else if (strcmp(word, "const") == 0) {
        if (!json_equal(rule, at->value))
            refuse(v, at->key, "is not the constant");
    } else if (strcmp(word, "enum") == 0) {
        check_enum(v, rule, at);
    } else if (strcmp(word, "minimum") == 0) {
        if (json_number_value(at->value) < json_number_value(rule))
            refuse(v, at->key, "is under the minimum");
    } else if (strcmp(word, "required") == 0) {
        check_required(v, rule, at);
    } else if (strcmp(word, "properties") == 0) {
        check_members(v, rule, at);
    } else if (strcmp(word, "items") == 0) {
        for (size_t i = 0; i < json_array_size(at->value); i++)
            push(v, rule, json_array_get(at->value, i), at->key);
    } else if (strcmp(word, "$ref") == 0) {
        const char *name = json_string_value(rule);
        assert_int_equal(strncmp(name, "#/$defs/", 8), 0);
        json_t *target = json_object_get(json_object_get(v->root, "$defs"), name + 8);
        assert_non_null(target);
        push(v, target, at->value, at->key);
    } else {
        fail_msg("the schema has an unknown keyword '%s'", word);
    }
}

/** NULL when @p value is as the schema says, else the first fault. */
static const char *fault_of(json_t *schema, json_t *value)
{
    static pending list[PENDING_MAX];
    static validator v;
    v = (validator){.root = schema, .list = list};
    push(&v, schema, value, "(plan)");
    while (v.count > 0) {
        const pending at = v.list[--v.count];
        const char *word = NULL;
        json_t *rule = NULL;
        json_object_foreach(at.schema, word, rule) check_keyword(&v, word, rule, &at);
    }
    return v.fault[0] ? v.fault : NULL;
}

static json_t *schema_read(void)
{
    json_error_t error;
    json_t *schema =
        json_load_file(CW_ROOT "/docs/plan-schema.json", JSON_REJECT_DUPLICATES, &error);
    if (!schema)
        fail_msg("line %d: %s", error.line, error.text);
    return schema;
}

static json_t *parsed(const char *text)
{
    json_error_t error;
    json_t *value = json_loads(text, JSON_REJECT_DUPLICATES, &error);
    if (!value)
        fail_msg("line %d: %s", error.line, error.text);
    return value;
}

/* ---- tests ---- */

static void agrees(json_t *schema, const cw_plan *plan, cw_arena *arena)
{
    json_t *value = parsed(cw_plan_json(plan, arena));
    const char *fault = fault_of(schema, value);
    if (fault)
        fail_msg("%s", fault);
    json_decref(value);
}

static void demos_follow_the_schema(void **state)
{
    (void)state;
    static const char *const demos[] = {"farm-road", "twin-hood", "phased-three", "gully"};
    json_t *schema = schema_read();
    for (size_t i = 0; i < sizeof demos / sizeof demos[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        cw_diags diags = cw_diags_on(&arena);
        const cw_plan *plan = cw_load_plan(
            cw_arena_print(&arena, "%s/demo/%s.yaml", CW_ROOT, demos[i]), &arena, &diags);
        assert_non_null(plan);
        assert_true(plan->laid);
        agrees(schema, plan, &arena);
        cw_arena_release(&arena);
    }
    json_decref(schema);
}

#define HEAD                                                                                       \
    "format: 1\njob: {name: T, number: N}\n"                                                       \
    "box: {form: lid, span: 10 ft, rise: 6 ft, wall: 10 in, floor: 10 in, top: 11 in, haunch: 8 "  \
    "in}\n"

static const cw_plan *plan_of(const char *text, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    const cw_entries *entries = cw_yaml_read(text, strlen(text), "job.yaml", arena, &diags);
    const cw_job *job = entries ? cw_job_build(entries, NULL, arena, &diags) : NULL;
    assert_non_null(job);
    return cw_plan_compute(job, arena);
}

/* No road; no division; no end; no legal order: each leaves members out, and none is null. */
static void plans_that_lack_parts(void **state)
{
    (void)state;
    const struct {
        const char *text;
        bool laid, ordered;
    } cases[] = {
        {HEAD "run: {invert: 500 ft, slope: 1%, length: 100 ft}\npieces: {lengths: [8 ft, 4 ft]}\n",
         true, true},
        {HEAD "run: {invert: 500 ft, slope: 1%, length: 100 ft, overrun: 0 in}\n"
              "pieces: {lengths: [8 ft]}\n",
         false, false},
        {HEAD "run: {invert: 500 ft, slope: 1%, length: 100 ft}\npieces: {lengths: [8 ft, 4 ft]}\n"
              "bends: [{at: 0 ft, turn: 3 deg}]\n",
         false, false},
        {HEAD "run: {invert: 500 ft, slope: 1%, length: 100 ft}\npieces: {lengths: [8 ft, 4 ft]}\n"
              "barrels: {count: 3}\norder: {first_barrel: 2}\n",
         true, false},
        {"format: 1\njob: {name: T, number: N}\n"
         "box: {form: ring, span: 6 ft, rise: 4 ft, wall: 7 in, floor: 8 in, top: 9 in, haunch: 0 "
         "in}\nrun: {invert: 500 ft, slope: 1%, length: 100 ft}\npieces: {lengths: [8 ft, 4 ft]}\n"
         "joint: {gap_mode: continuous}\n",
         true, true},
    };
    json_t *schema = schema_read();
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cw_arena arena = cw_arena_on(NULL);
        const cw_plan *plan = plan_of(cases[i].text, &arena);
        assert_int_equal(plan->laid, cases[i].laid);
        assert_int_equal(plan->step_count > 0, cases[i].ordered);
        agrees(schema, plan, &arena);
        cw_arena_release(&arena);
    }
    json_decref(schema);
}

static void version_is_that_of_the_header(void **state)
{
    (void)state;
    json_t *schema = schema_read();
    json_t *version = json_object_get(json_object_get(schema, "properties"), "plan_format");
    assert_int_equal(json_integer_value(json_object_get(version, "const")), CW_PLAN_FORMAT);
    json_decref(schema);
}

/* Every object is closed and demands what it always has; every number says its unit. */
static void schema_is_strict(void **state)
{
    (void)state;
    json_t *schema = schema_read();
    const char *name = NULL;
    json_t *def = NULL;
    json_object_foreach(json_object_get(schema, "$defs"), name, def)
    {
        json_t *properties = json_object_get(def, "properties");
        if (!properties)
            continue;
        if (!json_is_false(json_object_get(def, "additionalProperties")))
            fail_msg("%s is open", name);
        assert_true(json_array_size(json_object_get(def, "required")) > 0);
        const char *key = NULL;
        json_t *member = NULL;
        json_object_foreach(properties, key, member)
        {
            if (!json_object_get(member, "$ref") && !json_object_get(member, "description"))
                fail_msg("%s.%s has no description", name, key);
        }
    }
    json_decref(schema);
}

/* The validator itself: one change at a time to a good plan must be refused. */
static void validator_refuses(void **state)
{
    (void)state;
    json_t *schema = schema_read();
    cw_arena arena = cw_arena_on(NULL);
    const cw_plan *plan = plan_of(HEAD "run: {invert: 500 ft, slope: 1%, length: 100 ft}\n"
                                       "pieces: {lengths: [8 ft, 4 ft]}\n",
                                  &arena);
    json_t *good = parsed(cw_plan_json(plan, &arena));
    assert_null(fault_of(schema, good));
    for (int change = 0; change < 6; change++) {
        json_t *bad = json_deep_copy(good);
        json_t *piece = json_array_get(json_object_get(bad, "pieces"), 0);
        switch (change) {
        case 0:
            json_object_del(piece, "slot");
            break;
        case 1:
            json_object_set_new(piece, "colour", json_string("grey"));
            break;
        case 2:
            json_object_set_new(piece, "start_in", json_null());
            break;
        case 3:
            json_object_set_new(piece, "row", json_string("side"));
            break;
        case 4:
            json_object_set_new(piece, "index", json_integer(0));
            break;
        default:
            json_object_set_new(bad, "plan_format", json_integer(CW_PLAN_FORMAT + 1));
        }
        if (!fault_of(schema, bad))
            fail_msg("change %d is not refused", change);
        json_decref(bad);
    }
    json_decref(good);
    json_decref(schema);
    cw_arena_release(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(demos_follow_the_schema),
        cmocka_unit_test(plans_that_lack_parts),
        cmocka_unit_test(version_is_that_of_the_header),
        cmocka_unit_test(schema_is_strict),
        cmocka_unit_test(validator_refuses),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
