/* For the tests of the job: entries from lines "path=value", so that no file format is needed. */
#ifndef CW_JOB_TEST_LINES_H
#define CW_JOB_TEST_LINES_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

// It wants the four above before it.
#include <cmocka.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cw/job.h"
#include "cw/text.h"

/* ---- entries from lines "path=value" ---- */

enum { LINES_MAX = 400 };

typedef struct lines {
    const char *items[LINES_MAX];
    int count;
} lines;

static const char base_job[] = "format=1\n"
                               "job.name=Test crossing\n"
                               "run.invert=600 ft\n"
                               "run.slope=1%\n"
                               "run.length=96 ft\n"
                               "box.form=lid\n"
                               "box.span=12 ft\n"
                               "box.rise=4 ft\n"
                               "box.wall=10 in\n"
                               "box.floor=10 in\n"
                               "box.top=11 in\n"
                               "box.haunch=8 in\n"
                               "pieces.lengths[0]=8 ft\n"
                               "pieces.lengths[1]=6 ft\n";

static const char road_lines[] = "road.station=12+50\n"
                                 "road.elevation=612 ft\n"
                                 "road.grade=0.5%\n"
                                 "road.inlet_side=right\n"
                                 "road.outlet_template.side_slope=2:1\n"
                                 "road.outlet_template.strips[0].width=12 ft\n"
                                 "road.outlet_template.strips[0].fall=2%\n"
                                 "road.inlet_template.side_slope=2:1\n"
                                 "road.inlet_template.strips[0].width=12 ft\n"
                                 "road.inlet_template.strips[0].fall=2%\n";

static const char opening_lines[] = "openings[0].name=pipe\n"
                                    "openings[0].face=left\n"
                                    "openings[0].at=30 ft\n"
                                    "openings[0].height=2 ft\n"
                                    "openings[0].diameter=36 in\n";

static inline size_t path_length(const char *line)
{
    return strcspn(line, "=");
}

static inline bool is_under(const char *line, const char *path, size_t length)
{
    const char next = strncmp(line, path, length) == 0 ? line[length] : 'x';
    return next == '=' || next == '.' || next == '[';
}

static inline void set_line(lines *all, const char *line)
{
    const size_t length = path_length(line);
    for (int i = 0; i < all->count; i++) {
        if (strncmp(all->items[i], line, length + 1) == 0) {
            all->items[i] = line;
            return;
        }
    }
    assert_true(all->count < LINES_MAX);
    all->items[all->count++] = line;
}

/* A removed line leaves an empty one, so that the others keep their numbers. */
static inline void remove_lines(lines *all, const char *path)
{
    for (int i = 0; i < all->count; i++)
        if (is_under(all->items[i], path, strlen(path)))
            all->items[i] = "";
}

/* Lines of @p text: "path=value" sets or appends, "+path=value" appends, "-path" removes, "@road"
 * and "@opening" bring the lines above. */
static inline void edit(lines *all, const char *text, cw_arena *arena)
{
    for (const char *at = text; *at;) {
        const size_t length = strcspn(at, "\n");
        const char *line = cw_arena_copy(arena, at, length);
        at += length + (at[length] == '\n');
        if (strcmp(line, "@road") == 0)
            edit(all, road_lines, arena);
        else if (strcmp(line, "@opening") == 0)
            edit(all, opening_lines, arena);
        else if (line[0] == '-')
            remove_lines(all, line + 1);
        else if (line[0] == '+')
            all->items[all->count++] = line + 1;
        else
            set_line(all, line);
    }
}

typedef struct maker {
    cw_entry items[4 * LINES_MAX];
    int count;
} maker;

static inline bool has_path(const maker *made, const char *path)
{
    for (int i = 0; i < made->count; i++)
        if (strcmp(made->items[i].path, path) == 0)
            return true;
    return false;
}

static inline void add_entry(maker *made, cw_entry entry)
{
    assert_true(made->count < 4 * LINES_MAX);
    made->items[made->count++] = entry;
}

/* Entries with the maps and lists above them, each where it is first named; a line number is the
 * line's place. */
static inline cw_entries entries_of(const lines *all, cw_arena *arena)
{
    maker *made = CW_TAKE(arena, maker, 1);
    for (int i = 0; i < all->count; i++) {
        const char *line = all->items[i];
        const size_t length = path_length(line);
        for (size_t cut = 1; cut < length; cut++) {
            if (line[cut] != '.' && line[cut] != '[')
                continue;
            const char *above = cw_arena_copy(arena, line, cut);
            const cw_entry_kind kind = line[cut] == '.' ? CW_ENTRY_MAP : CW_ENTRY_LIST;
            if (!has_path(made, above))
                add_entry(made, (cw_entry){above, kind, NULL, i + 1, 1});
        }
        if (line[length] != '=')
            continue;
        const char *value = line + length + 1;
        const cw_entry_kind kind = strcmp(value, "[]") == 0   ? CW_ENTRY_LIST
                                   : strcmp(value, "{}") == 0 ? CW_ENTRY_MAP
                                                              : CW_ENTRY_SCALAR;
        add_entry(made, (cw_entry){cw_arena_copy(arena, line, length), kind, value, i + 1,
                                   (int)length + 2});
    }
    return (cw_entries){"job.yaml", made->items, made->count};
}

typedef struct attempt {
    cw_arena arena;
    cw_diags diags;
    cw_entries entries;
    const cw_job *job;
} attempt;

static inline void build_with(attempt *try, const char *edits, const cw_job_files *files)
{
    try->arena = cw_arena_on(NULL);
    try->diags = cw_diags_on(&try->arena);
    lines *all = CW_TAKE(&try->arena, lines, 1);
    edit(all, base_job, &try->arena);
    edit(all, edits, &try->arena);
    try->entries = entries_of(all, &try->arena);
    try->job = cw_job_build(&try->entries, files, &try->arena, &try->diags);
}

static inline void done(attempt *try)
{
    cw_arena_release(&try->arena);
}

static inline const cw_job *built(attempt *try, const char *edits)
{
    build_with(try, edits, NULL);
    for (int i = 0; i < try->diags.count; i++)
        print_message("%s\n", cw_diag_line(&try->arena, &try->diags.items[i]));
    assert_non_null(try->job);
    assert_int_equal(try->diags.count, 0);
    return try->job;
}

#endif
