/** @file
 * What the commands share: files, findings on stderr, loading a job.  Only src/app touches files. */
#ifndef CW_APP_H
#define CW_APP_H

#include <stdbool.h>
#include <stdio.h>

#include "cw/arena.h"
#include "cw/calc.h"
#include "cw/diag.h"
#include "cw/plan.h"

/** Exit codes of every command. */
typedef enum cw_exit { CW_EXIT_HOLDS = 0, CW_EXIT_INPUT = 1, CW_EXIT_FAILS = 2, CW_EXIT_UNDECIDED = 3 } cw_exit;

/** Memory that ends the program with a message when there is none left. */
extern const cw_memory cw_app_memory;

/** The whole file, zero-terminated, at most @p limit bytes ("-" is standard input).  NULL with a finding when it
 * cannot be read; @p at is the place in the job that names it (its line 0 when it is the command line). */
char *cw_file_read(const char *path, size_t limit, size_t *length, cw_pos at, cw_arena *arena,
                   cw_diags *diags);

/** A file that appears whole or not at all: written beside its place and renamed at the end. */
typedef struct cw_output {
    const char *path, *temporary;
    FILE *stream;
} cw_output;

/** Open @p path for output; "-" is standard output. false with a finding. */
bool cw_output_open(cw_output *output, const char *path, cw_arena *arena, cw_diags *diags);
/** Close; keep the file only when @p good and everything was written.  false with a finding. */
bool cw_output_close(cw_output *output, bool good, cw_arena *arena, cw_diags *diags);

/** Print all findings to stderr, sorted. */
void cw_diags_show(cw_diags *diags);
/** Whether any finding is an error (not a warning). */
bool cw_diags_stop(const cw_diags *diags);

/** Read, build and plan @p path. NULL after the findings were printed. */
const cw_plan *cw_load_plan(const char *path, cw_arena *arena, cw_diags *diags);
/** What the text of a job's ground file becomes: a grid stays text, survey points and LandXML become triangles. */
void cw_ground_files(const cw_job_names *names, const char *text, size_t length, cw_job_files *files, cw_arena *arena,
                     cw_diags *diags);
/** Read and build only. */
const cw_job *cw_load_job(const char *path, cw_arena *arena, cw_diags *diags);

/** What every command on a job file begins with. */
typedef struct cw_session {
    cw_arena arena;
    cw_diags diags;
    const cw_plan *plan;
} cw_session;

/** Read and plan @p path; false when there is no plan: close it all the same. */
bool cw_session_open(cw_session *session, const char *path);
/** Show the findings, give the memory back, return @p code. */
cw_exit cw_session_close(cw_session *session, cw_exit code);
/** The exit code that the ledger asks for. */
cw_exit cw_plan_exit(const cw_plan *plan);

/** Write @p text to @p path whole or not at all. */
bool cw_write_text(const char *path, const char *text, cw_arena *arena, cw_diags *diags);
/** The one plain word of a command; NULL after a message when it is missing. */
const char *cw_one_file(const char **words, int count, const char *command);

/** Runs of a simulation on all cores. */
typedef struct cw_runs_wanted {
    uint64_t seed;
    int runs;
    int steps;   /**< of the setting */
    int workers; /**< threads; 0: one a core */
} cw_runs_wanted;

/** Runs 0 .. runs - 1 into @p outcomes; @p critical (by step, zeroed) counts the runs that each step held up.  The same for any
 * number of workers. */
void cw_setting_runs(const cw_setting *setting, const cw_runs_wanted *wanted, cw_setting_outcome *outcomes, int *critical);

/** One option of a command. */
typedef struct cw_option {
    const char *name;    /**< "--json" */
    const char *value;   /**< what the value is, or NULL for a switch */
    const char *meaning;
    const char **text;   /**< where the value goes (a switch sets it to its own name) */
} cw_option;

/** Split arguments into options and at most @p most plain words.  Prints what is wrong; returns the count of words or -1.
 * --help prints the options and ends the program. */
int cw_options_read(int count, char **arguments, const cw_option *options, int option_count,
                    const char **words, int most);

typedef struct cw_command {
    const char *name, *arguments, *does;
    cw_exit (*run)(int count, char **arguments);
} cw_command;

/** All commands, NULL past the end. */
const cw_command *cw_command_at(int index);
/** "check FILE", in static storage until the next call. */
const char *cw_command_usage(const cw_command *command);
const char *cw_version(void);

cw_exit cw_command_new(int count, char **arguments);
cw_exit cw_command_check(int count, char **arguments);
cw_exit cw_command_book(int count, char **arguments);
cw_exit cw_command_plan(int count, char **arguments);
cw_exit cw_command_order(int count, char **arguments);
cw_exit cw_command_export(int count, char **arguments);
cw_exit cw_command_calc(int count, char **arguments);
cw_exit cw_command_schema(int count, char **arguments);
cw_exit cw_command_chart(int count, char **arguments);
cw_exit cw_command_rows(int count, char **arguments);

/** Stream the rows of a CSV (@p path, "-" is standard input) through @p calc to standard output.  Columns named as an input take cells
 * with units, columns named input_unit take bare numbers in the stored unit, others are carried through; results and a
 * column `fault` are added.  Works in blocks on all cores; rows come out in order. */
cw_exit cw_calc_batch(const cw_calc *calc, const char *path, cw_arena *arena);

#endif
