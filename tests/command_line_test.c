/* The program as a user runs it: exit codes, wrong input, and nothing partial left behind. */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <dirent.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

static char folder[64];

static char *read_all(FILE *stream)
{
    size_t capacity = 1 << 22, used = 0;
    char *text = malloc(capacity);
    assert_non_null(text);
    used = fread(text, 1, capacity - 1, stream);
    text[used] = '\0';
    return text;
}

static char *read_file(const char *path)
{
    FILE *stream = fopen(path, "rb");
    assert_non_null(stream);
    char *text = read_all(stream);
    fclose(stream);
    return text;
}

/* Run "PROGRAM arguments" in the test's folder; both streams come back together. */
static int run(const char *arguments, char **output)
{
    char command[2048];
    snprintf(command, sizeof command, "cd %s && %s %s 2>&1", folder, CW_PROGRAM, arguments);
    FILE *pipe = popen(command, "r");
    assert_non_null(pipe);
    *output = read_all(pipe);
    const int status = pclose(pipe);
    assert_true(WIFEXITED(status));
    return WEXITSTATUS(status);
}

/* A demo job with one text replaced, as NAME in the test's folder. */
static void write_job(const char *name, const char *demo, const char *from, const char *to)
{
    char path[512];
    snprintf(path, sizeof path, "%s/demo/%s", CW_ROOT, demo);
    char *text = read_file(path);
    char *at = strstr(text, from);
    assert_non_null(at);
    snprintf(path, sizeof path, "%s/%s", folder, name);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    fwrite(text, 1, (size_t)(at - text), out);
    fputs(to, out);
    fputs(at + strlen(from), out);
    fclose(out);
    free(text);
}

static int set_up(void **state)
{
    (void)state;
    snprintf(folder, sizeof folder, "culvert-test-XXXXXX");
    if (!mkdtemp(folder))
        return -1;
    write_job("holds.yaml", "farm-road.yaml", "revision: A", "revision: A");
    write_job("input.yaml", "farm-road.yaml", "span: 10 ft", "spam: 10");
    write_job("fails.yaml", "farm-road.yaml", "form: accepted", "form: refused");
    write_job("undecided.yaml", "farm-road.yaml", "form: accepted", "form: pending");
    write_job("blocked.yaml", "farm-road.yaml", "lengths: [8 ft, 6 ft, 4 ft]", "lengths: [23 ft 3 in]");
    write_job("heavy.yaml", "farm-road.yaml", "pick_limit: 32,000 lb", "pick_limit: 12,000 lb");
    write_job("norun.yaml", "farm-road.yaml", "elevation: 511.40 ft", "elevation: 505 ft");
    return 0;
}

static int tear_down(void **state)
{
    (void)state;
    char command[128];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    return system(command);
}

static void exit_codes_and_messages(void **state)
{
    (void)state;
    static const struct {
        const char *arguments;
        int code;
        const char *says;
    } rows[] = {
        {"check holds.yaml", 0, "0 fail, 0 undecided"},
        {"check input.yaml", 1, "input.yaml:56:9: error 102: box has no key spam; did you mean span?"},
        {"check fails.yaml", 2, "[acceptance.form]"},
        {"check undecided.yaml", 3, "1 undecided"},
        {"check blocked.yaml", 2, "[layout.found]"},
        {"check heavy.yaml", 2, "[layout.blocked-by-weight]"},
        {"check norun.yaml", 2, "[run.end]"},
        {"book norun.yaml -o norun.pdf", 2, "Setting book: norun.pdf"},
        {"book blocked.yaml -o blocked.pdf", 2, "Setting book: blocked.pdf"},
        {"order blocked.yaml", 2, "there is no order"},
        {"export blocked.yaml --as csv -o .", 2, "no division into pieces to export"},
        {"check absent.yaml", 1, "error 113: cannot open absent.yaml"},
        {"check .", 1, "error 113"},
        {"check", 1, "name the job file"},
        {"check a.yaml b.yaml", 1, "one word too many"},
        {"check --jason holds.yaml", 1, "option --jason is not known here"},
        {"plan --jsn holds.yaml", 1, "did you mean --json?"},
        {"chekc holds.yaml", 1, "did you mean check?"},
        {"frobnicate", 1, "culvertwright help lists them"},
        {"", 1, "Exit codes: 0 everything holds"},
        {"help", 0, "Exit codes: 0 everything holds"},
        {"help", 0, "A command followed by --help lists its options"},
        {"book --help", 0, "culvertwright book FILE -o OUT.pdf: writes the setting book"},
        {"book -h", 0, "  --paper  letter or tabloid"},
        {"book holds.yaml --help", 0, "8.5x11 or 11x17 inches"},
        {"schema --help", 0, "culvertwright schema: prints"},
        {"--version", 0, "culvertwright "},
        {"book holds.yaml", 1, "say where it goes"},
        {"book holds.yaml -o", 1, "option -o needs its value"},
        {"book holds.yaml -o no/such/folder/a.pdf", 1, "error 113: cannot write beside no/such/folder/a.pdf"},
        {"book holds.yaml --paper a4 -o a.pdf", 1, "write letter or tabloid"},
        {"book input.yaml -o a.pdf", 1, "error 102"},
        {"new holds.yaml", 1, "is there already"},
        {"new fresh.yaml --form dome", 1, "write lid or double-u or ring"},
        {"new fresh.yaml --barrels 9", 1, "not a whole number from 1 to 8"},
        {"order holds.yaml --at 100000", 1, "is not a whole number from 0 to"},
        {"order holds.yaml --why 'set 1-B99'", 1, "is no step of this job"},
        {"order holds.yaml --at 0 --why 'set 1-L01'", 0, "two-bases-first"},
        {"order holds.yaml --done absent.txt", 1, "error 113"},
        {"export holds.yaml --as dwg -o .", 1, "is not a form"},
        {"export holds.yaml", 1, "say what and where"},
        {"export holds.yaml --as csv -o nowhere", 1, "error 113"},
        {"calc", 0, "run-length"},
        {"calc bedding", 0, "Inputs"},
        {"calc beding", 1, "did you mean bedding?"},
        {"calc slope-length length=100", 1, "error 104"},
        {"calc slope-length 'length=100 ft' 'lenth=1 ft'", 1, "error 102"},
        {"calc slope-length nonsense", 1, "is not key=value"},
        {"calc slope-length --batch absent.csv", 1, "error 113"},
        {"chart", 1, "name the load chart"},
        {"chart absent.csv", 1, "error 113"},
        {"chart holds.yaml", 1, "holds.yaml:"},
        {"chart " CW_ROOT "/demo/cranes/invented-100-ton.csv --load 500kip", 2, "no radius"},
        {"chart " CW_ROOT "/demo/cranes/invented-100-ton.csv --configuration ful", 1, "it has outriggers_full_360"},
        {"chart " CW_ROOT "/demo/cranes/invented-100-ton.csv --boom 80ft", 1, "together"},
        {"chart " CW_ROOT "/demo/cranes/invented-100-ton.csv --load 5", 1, "--load 5 cannot be read"},
        {"chart " CW_ROOT "/demo/cranes/invented-100-ton.csv --configuration outriggers_full_360 --boom 80ft --radius 99ft", 2,
         "off the chart"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char *output = NULL;
        const int code = run(rows[i].arguments, &output);
        if (code != rows[i].code || !strstr(output, rows[i].says))
            fail_msg("culvertwright %s: exit %d, wanted %d with \"%s\":\n%s", rows[i].arguments, code, rows[i].code,
                     rows[i].says, output);
        free(output);
    }
}

/* Nothing named *.part-* stays, and a book that failed is not there. */
static void nothing_partial_is_left(void **state)
{
    (void)state;
    char *output = NULL;
    assert_int_equal(run("book input.yaml -o partial.pdf", &output), 1);
    free(output);
    // A folder in the way: the rename must fail, and clean up.
    assert_int_equal(run("book holds.yaml -o .", &output), 1);
    free(output);
    DIR *list = opendir(folder);
    assert_non_null(list);
    for (const struct dirent *entry = readdir(list); entry; entry = readdir(list)) {
        if (strstr(entry->d_name, ".part-") || strcmp(entry->d_name, "partial.pdf") == 0)
            fail_msg("left behind: %s", entry->d_name);
    }
    closedir(list);
}

/* An existing book is replaced whole or kept: a failed run must not touch it. */
static void old_book_survives_a_fault(void **state)
{
    (void)state;
    char path[128], *output = NULL;
    snprintf(path, sizeof path, "%s/keep.pdf", folder);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    fputs("old", out);
    fclose(out);
    assert_int_equal(run("book input.yaml -o keep.pdf", &output), 1);
    free(output);
    char *kept = read_file(path);
    assert_string_equal(kept, "old");
    free(kept);
}

static void starter_plans(void **state)
{
    (void)state;
    static const char *const forms[] = {"lid", "double-u", "ring"};
    for (int f = 0; f < 3; f++)
        for (int barrels = 1; barrels <= 3; barrels++)
            for (int si = 0; si < 2; si++) {
                char arguments[160], *output = NULL;
                snprintf(arguments, sizeof arguments, "new start.yaml --force --form %s --barrels %d --units %s", forms[f],
                         barrels, si ? "si" : "us");
                assert_int_equal(run(arguments, &output), 0);
                free(output);
                const int code = run("check start.yaml", &output);
                if (code != 3 || strstr(output, "error") || !strstr(output, " 0 fail"))
                    fail_msg("starter %s %d %s: exit %d\n%s", forms[f], barrels, si ? "si" : "us", code, output);
                free(output);
            }
}

/* The rows that ship, written out and named as a profile, give the same plan. */
static void rows_are_a_profile(void **state)
{
    (void)state;
    char *output = NULL, *same = NULL;
    assert_int_equal(run("rows --csv > own.csv", &output), 0);
    free(output);
    write_job("own.yaml", "farm-road.yaml", "acceptance:", "profile:\n  name: own.csv\n\nacceptance:");
    assert_int_equal(run("check own.yaml", &output), 0);
    assert_int_equal(run("check holds.yaml", &same), 0);
    assert_string_equal(output, same);
    free(output);
    free(same);
    assert_int_equal(run("rows own.yaml", &output), 0);
    assert_non_null(strstr(output, "joint.gap_max"));
    free(output);
}

static void batch_keeps_rows_and_marks_faults(void **state)
{
    (void)state;
    char path[128], *output = NULL;
    snprintf(path, sizeof path, "%s/rows.csv", folder);
    FILE *out = fopen(path, "wb");
    assert_non_null(out);
    fputs("name,length,slope\na,100 ft,10%\nb,100,10%\n\"c, d\",50 m,0%\n", out);
    fclose(out);
    assert_int_equal(run("calc slope-length --batch rows.csv", &output), 1);
    assert_non_null(strstr(output, "a,100 ft,10%"));
    // Hand: 100 sqrt(1.01) = 100.498756 ft.
    assert_non_null(strstr(output, "100.4987562"));
    assert_non_null(strstr(output, "rows.csv:3:2: error 104"));
    assert_non_null(strstr(output, "error 104\n"));
    assert_non_null(strstr(output, "\"c, d\",50 m,0%"));
    assert_non_null(strstr(output, "1 of 3 rows have faults"));
    free(output);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(exit_codes_and_messages),     cmocka_unit_test(nothing_partial_is_left),
        cmocka_unit_test(old_book_survives_a_fault),   cmocka_unit_test(starter_plans),
        cmocka_unit_test(batch_keeps_rows_and_marks_faults),
        cmocka_unit_test(rows_are_a_profile),
    };
    return cmocka_run_group_tests(tests, set_up, tear_down);
}
