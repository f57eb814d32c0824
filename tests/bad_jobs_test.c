/* Bad jobs with the exact messages that they earn.  tests/bad/cases.txt is written for people: its
 * head says how. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "app/app.h"
#include "cw/job.h"
#include "cw/text.h"
#include "cw/yaml.h"

enum { FILE_MAX = 256 * 1024, LINES_MAX = 400, CASES_MAX = 600, CASES_LEAST = 200 };

/** Lines of a file under edit; each lives in the arena. */
typedef struct lines {
    const char *items[LINES_MAX];
    size_t lengths[LINES_MAX];
    int count;
} lines;

/** One case as read: its edits are applied while its lines are read. */
typedef struct bad_case {
    const char *name;
    lines job, ground, wanted;
    bool is_whole; /**< "|" lines replace the base */
    int at;        /**< where the next ">" line goes */
} bad_case;

typedef struct fixture {
    cw_arena arena;
    lines base;
    char *text; /**< cases.txt */
    const char *names[CASES_MAX], *jobs[CASES_MAX];
    int count, failed;
} fixture;

static char *file_text(cw_arena *arena, const char *name)
{
    FILE *file = fopen(cw_arena_print(arena, "%s/tests/bad/%s", CW_ROOT, name), "rb");
    assert_non_null(file);
    char *text = cw_arena_take(arena, FILE_MAX, 1);
    text[fread(text, 1, FILE_MAX - 1, file)] = '\0';
    fclose(file);
    return text;
}

static void insert(lines *all, int at, const char *text, size_t length)
{
    assert_true(all->count < LINES_MAX && at <= all->count);
    for (int i = all->count; i > at; i--) {
        all->items[i] = all->items[i - 1];
        all->lengths[i] = all->lengths[i - 1];
    }
    all->items[at] = text;
    all->lengths[at] = length;
    all->count++;
}

static void erase(lines *all, int at)
{
    for (int i = at; i + 1 < all->count; i++) {
        all->items[i] = all->items[i + 1];
        all->lengths[i] = all->lengths[i + 1];
    }
    all->count--;
}

/* The last line that is this one, its indentation apart. */
static int find(const lines *all, const char *wanted, const char *name)
{
    for (int i = all->count - 1; i >= 0; i--)
        if (strcmp(all->items[i] + strspn(all->items[i], " "), wanted) == 0)
            return i;
    print_error("%s: the base has no line '%s'\n", name, wanted);
    fail();
    return -1;
}

static int hex(char c)
{
    const char *digits = "0123456789ABCDEF", *found = c ? strchr(digits, c) : NULL;
    return found ? (int)(found - digits) : -1;
}

/* "\x09" becomes one byte. */
static char *decoded(cw_arena *arena, const char *text, size_t *length)
{
    char *out = cw_arena_copy(arena, text, strlen(text));
    *length = 0;
    for (size_t i = 0; text[i]; i++) {
        if (text[i] == '\\' && text[i + 1] == 'x' && hex(text[i + 2]) >= 0 &&
            hex(text[i + 3]) >= 0) {
            out[(*length)++] = (char)(hex(text[i + 2]) * 16 + hex(text[i + 3]));
            i += 3;
        } else {
            out[(*length)++] = text[i];
        }
    }
    out[*length] = '\0';
    return out;
}

static void take_line(fixture *f, bad_case *one, const char *line)
{
    const char *rest = line[1] == ' ' ? line + 2 : line + 1;
    size_t length = 0;
    const char *text = decoded(&f->arena, rest, &length);
    switch (line[0]) {
    case '<':
        one->at = find(&one->job, text, one->name);
        erase(&one->job, one->at);
        break;
    case '>':
        insert(&one->job, one->at++, text, length);
        break;
    case '|':
        if (!one->is_whole)
            one->job.count = 0;
        one->is_whole = true;
        insert(&one->job, one->job.count, text, length);
        break;
    case '%':
        insert(&one->ground, one->ground.count, text, length);
        break;
    case '!':
        insert(&one->wanted, one->wanted.count, rest, strlen(rest));
        break;
    default:
        print_error("%s: what is '%s'?\n", one->name, line);
        fail();
    }
}

static char *joined(fixture *f, const lines *all, size_t *length)
{
    cw_text text = cw_text_on(&f->arena);
    for (int i = 0; i < all->count; i++) {
        cw_text_add_bytes(&text, all->items[i], all->lengths[i]);
        cw_text_add(&text, "\n");
    }
    *length = text.length;
    return cw_arena_copy(&f->arena, cw_text_string(&text), text.length);
}

static const char *line_of(cw_arena *arena, const cw_diag *diag)
{
    const char *line = cw_diag_line(arena, diag), *file = "job.yaml:";
    return strncmp(line, file, strlen(file)) == 0 ? line + strlen(file) : line;
}

static bool errors_among(const cw_diags *diags)
{
    for (int i = 0; i < diags->count; i++)
        if (cw_text_same(cw_code_kind(diags->items[i].code), "error"))
            return true;
    return false;
}

/* Two cases with one name or one text would count twice. */
static void check_distinct(fixture *f, const char *name, const char *job, const char *ground)
{
    const char *whole = cw_arena_print(&f->arena, "%s%s", job, ground);
    for (int i = 0; i < f->count; i++)
        if (strcmp(f->names[i], name) == 0 || strcmp(f->jobs[i], whole) == 0) {
            print_error("%s: the same case as %s\n", name, f->names[i]);
            f->failed++;
        }
    assert_true(f->count < CASES_MAX);
    f->names[f->count] = name;
    f->jobs[f->count++] = whole;
}

static void check_case(fixture *f, const bad_case *one)
{
    cw_diags diags = cw_diags_on(&f->arena);
    size_t length = 0, ground_length = 0;
    const char *job = joined(f, &one->job, &length);
    const char *ground = joined(f, &one->ground, &ground_length);
    cw_job_files files = {0};
    const cw_entries *entries = cw_yaml_read(job, length, "job.yaml", &f->arena, &diags);
    const cw_job_names names = entries ? cw_job_file_names(entries) : (cw_job_names){0};
    if (one->ground.count > 0 && names.ground)
        cw_ground_files(&names, ground, ground_length, &files, &f->arena, &diags);
    if (entries)
        cw_job_build(entries, &files, &f->arena, &diags);
    cw_diags_sort(&diags);
    bool same =
        diags.count == one->wanted.count && one->wanted.count > 0 && errors_among(&diags);
    for (int i = 0; same && i < diags.count; i++)
        same = strcmp(line_of(&f->arena, &diags.items[i]), one->wanted.items[i]) == 0;
    if (!same) {
        f->failed++;
        print_error("= %s\n", one->name);
        for (int i = 0; i < diags.count; i++)
            print_error("! %s\n", line_of(&f->arena, &diags.items[i]));
        for (int i = 0; i < one->wanted.count; i++)
            print_error("wanted %s\n", one->wanted.items[i]);
    }
    check_distinct(f, one->name, job, ground);
}

static void every_bad_job_earns_its_messages(void **state)
{
    fixture *f = *state;
    bad_case *one = NULL;
    char *next = NULL;
    for (char *line = f->text; line; line = next) {
        next = strchr(line, '\n');
        if (next)
            *next++ = '\0';
        if (line[0] == '=') {
            if (one)
                check_case(f, one);
            one = CW_TAKE(&f->arena, bad_case, 1);
            *one = (bad_case){.name = line + 2, .job = f->base, .at = f->base.count};
        } else if (line[0] != '\0' && line[0] != '#') {
            assert_non_null(one);
            take_line(f, one, line);
        }
    }
    assert_non_null(one);
    check_case(f, one);
    assert_int_equal(f->failed, 0);
    assert_true(f->count >= CASES_LEAST);
}

/* The base itself is sound: each case's fault is its own. */
static void base_is_sound(void **state)
{
    fixture *f = *state;
    cw_diags diags = cw_diags_on(&f->arena);
    size_t length = 0;
    const char *text = joined(f, &f->base, &length);
    const cw_entries *entries = cw_yaml_read(text, length, "job.yaml", &f->arena, &diags);
    assert_non_null(entries);
    assert_non_null(cw_job_build(entries, NULL, &f->arena, &diags));
    assert_int_equal(diags.count, 0);
}

static int set_up(void **state)
{
    fixture *f = calloc(1, sizeof *f);
    f->arena = cw_arena_on(NULL);
    char *base = file_text(&f->arena, "base.yaml");
    for (char *line = base, *end = NULL; (end = strchr(line, '\n')) != NULL; line = end + 1) {
        *end = '\0';
        insert(&f->base, f->base.count, line, (size_t)(end - line));
    }
    f->text = file_text(&f->arena, "cases.txt");
    *state = f;
    return 0;
}

static int tear_down(void **state)
{
    fixture *f = *state;
    cw_arena_release(&f->arena);
    free(f);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(base_is_sound),
        cmocka_unit_test(every_bad_job_earns_its_messages),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
