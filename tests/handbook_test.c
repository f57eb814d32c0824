/* The handbook is a test: every ```console block of docs/ and README.md is run.  "$ culvertwright ..." is the command (a line may
 * end in a backslash and go on); each line that follows must stand in its output, in that order, runs of spaces
 * counting as one and "key = value" standing for the key and its value.  A line "exit N" states the exit code (0 otherwise). */
#define _POSIX_C_SOURCE 200809L
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <glob.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

enum { OUTPUT_MAX = 1 << 20 };

typedef struct block {
    const char *file;
    int line;
    char output[OUTPUT_MAX];
    const char *at; /* where the search for the next line begins */
    int code;
    bool open;
} block;

static block now;
static int commands_run;

/* Runs of blanks become one; " = " becomes " ". */
static void squeeze(char *text, bool equals_too)
{
    char *write = text;
    for (const char *read = text; *read; read++) {
        if (equals_too && read[0] == '=' && read[1] == ' ' && write > text && write[-1] == ' ')
            continue;
        if (*read == ' ' && (write == text || write[-1] == ' ' || write[-1] == '\n'))
            continue;
        *write++ = *read;
    }
    *write = '\0';
}

static void run_command(const char *command)
{
    char whole[8192];
    snprintf(whole, sizeof whole, "cd %s && PATH=\"$(dirname %s):$PATH\" && %s 2>&1", CW_ROOT, CW_PROGRAM, command);
    FILE *pipe = popen(whole, "r");
    assert_non_null(pipe);
    now.output[fread(now.output, 1, sizeof now.output - 1, pipe)] = '\0';
    squeeze(now.output, false);
    const int status = pclose(pipe);
    now.code = WIFEXITED(status) ? WEXITSTATUS(status) : -1;
    now.at = now.output;
    now.open = true;
    commands_run++;
}

static void finish_command(int wanted)
{
    if (now.open && now.code != wanted)
        fail_msg("%s:%d: exit %d, wanted %d\n%s", now.file, now.line, now.code, wanted, now.output);
    now.open = false;
}

static void expect(char *line)
{
    squeeze(line, true);
    const char *found = strstr(now.at, line);
    if (!found)
        fail_msg("%s:%d: the output has no line\n  %s\nafter that before it. Output:\n%s", now.file, now.line, line,
                 now.output);
    now.at = found + strlen(line);
}

static void run_file(const char *path)
{
    FILE *stream = fopen(path, "rb");
    assert_non_null(stream);
    char line[2048];
    bool inside = false;
    now.file = path;
    now.line = 0;
    while (fgets(line, sizeof line, stream)) {
        now.line++;
        line[strcspn(line, "\r\n")] = '\0';
        size_t length = strlen(line);
        while (inside && length > 0 && line[length - 1] == '\\' &&
               fgets(line + length - 1, (int)(sizeof line - length), stream)) {
            line[strcspn(line, "\r\n")] = '\0';
            length = strlen(line);
            now.line++;
        }
        int wanted = 0;
        if (!inside) {
            inside = strcmp(line, "```console") == 0;
        } else if (strcmp(line, "```") == 0) {
            finish_command(0);
            inside = false;
        } else if (strncmp(line, "$ ", 2) == 0) {
            finish_command(0);
            run_command(line + 2);
        } else if (sscanf(line, "exit %d", &wanted) == 1) {
            finish_command(wanted);
        } else if (line[0] && strcmp(line, "...") != 0) {
            expect(line);
        }
    }
    fclose(stream);
}

static void every_block_runs_as_printed(void **state)
{
    (void)state;
    static const char *const patterns[] = {CW_ROOT "/README.md", CW_ROOT "/docs/*.md", CW_ROOT "/docs/handbook/*.md"};
    for (size_t p = 0; p < sizeof patterns / sizeof patterns[0]; p++) {
        glob_t found;
        assert_int_equal(glob(patterns[p], 0, NULL, &found), 0);
        for (size_t i = 0; i < found.gl_pathc; i++)
            run_file(found.gl_pathv[i]);
        globfree(&found);
    }
    assert_true(commands_run >= 10);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_block_runs_as_printed)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
