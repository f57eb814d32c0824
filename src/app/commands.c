#include <string.h>

#include "app.h"
#include "cw/ground.h"
#include "cw/render.h"
#include "cw/report.h"
#include "cw/text.h"
#include "cw/yaml.h"

static const cw_command commands[] = {
    {"new", "FILE", "writes a commented starting job", cw_command_new},
    {"check", "FILE", "reads, plans, prints the ledger", cw_command_check},
    {"book", "FILE -o OUT.pdf", "writes the setting book, which is also the installation plan", cw_command_book},
    {"plan", "FILE [--json]", "prints the plan, or all of it as JSON", cw_command_plan},
    {"order", "FILE [--at N] [--why STEP]", "lists the setting order, what may be done next, and why not", cw_command_order},
    {"export", "FILE --as dxf,svg,csv -o DIR", "writes drawings, piece list and staking points", cw_command_export},
    {"calc", "[NAME key=value ...]", "one calculator with its working; --batch streams CSV", cw_command_calc},
    {"chart", "CHART.csv [--load W]", "checks a crane's load chart; radii that carry a load, or one rating", cw_command_chart},
    {"rows", "[FILE] [--csv]", "lists every limit and constant in force with its source", cw_command_rows},
    {"schema", "", "prints the JSON Schema of the job file", cw_command_schema},
};

const cw_command *cw_command_at(int index)
{
    return index >= 0 && index < (int)(sizeof commands / sizeof commands[0]) ? &commands[index] : NULL;
}

const char *cw_command_usage(const cw_command *command)
{
    static char text[96];
    snprintf(text, sizeof text, "%s%s%s", command->name, command->arguments[0] ? " " : "", command->arguments);
    return text;
}

const char *cw_version(void)
{
    return CW_VERSION;
}

/* ---- new, schema ---- */

static bool pick(const char *text, const char *const *words, int *value, const char *option)
{
    if (!text)
        return true;
    for (int i = 0; words[i]; i++)
        if (strcmp(words[i], text) == 0) {
            *value = i;
            return true;
        }
    fprintf(stderr, "culvertwright: %s %s is not known; write", option, text);
    for (int i = 0; words[i]; i++)
        fprintf(stderr, "%s %s", i ? " or" : "", words[i]);
    fprintf(stderr, "\n");
    return false;
}

cw_exit cw_command_new(int count, char **arguments)
{
    static const char *const forms[] = {"lid", "double-u", "ring", NULL};
    static const char *const systems[] = {"us", "si", NULL};
    const char *form_text = NULL, *barrels_text = NULL, *units_text = NULL, *force = NULL;
    const cw_option options[] = {
        {"--form", "lid, double-u or ring", "form of box", &form_text},
        {"--barrels", "1 to 8", "barrels side by side", &barrels_text},
        {"--units", "us or si", "units of the values", &units_text},
        {"--force", NULL, "write over an existing file", &force},
    };
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, options, 4, words, 1);
    const char *path = word_count < 0 ? NULL : cw_one_file(words, word_count, "new");
    int form = 0, units = 0, barrels = 1;
    if (!path || !pick(form_text, forms, &form, "--form") || !pick(units_text, systems, &units, "--units"))
        return CW_EXIT_INPUT;
    if (barrels_text) {
        const cw_parsed parsed = cw_quantity_parse(barrels_text, CW_DIM_COUNT);
        if (parsed.status != CW_PARSE_OK || parsed.value < 1 || parsed.value > CW_BARRELS_MAX) {
            fprintf(stderr, "culvertwright: --barrels %s is not a whole number from 1 to %d\n", barrels_text,
                    CW_BARRELS_MAX);
            return CW_EXIT_INPUT;
        }
        barrels = (int)parsed.value;
    }
    FILE *there = force || strcmp(path, "-") == 0 ? NULL : fopen(path, "rb");
    if (there) {
        fclose(there);
        fprintf(stderr, "culvertwright: %s is there already; choose another name or add --force\n", path);
        return CW_EXIT_INPUT;
    }
    cw_arena arena = cw_arena_on(&cw_app_memory);
    cw_diags diags = cw_diags_on(&arena);
    const bool good =
        cw_write_text(path, cw_job_starter((cw_form)form, barrels, (cw_unit_system)units, &arena), &arena, &diags);
    cw_diags_show(&diags);
    cw_arena_release(&arena);
    return good ? CW_EXIT_HOLDS : CW_EXIT_INPUT;
}

cw_exit cw_command_schema(int count, char **arguments)
{
    const char *words[1];
    if (cw_options_read(count, arguments, NULL, 0, words, 0) < 0)
        return CW_EXIT_INPUT;
    cw_arena arena = cw_arena_on(&cw_app_memory);
    fputs(cw_job_schema(&arena), stdout);
    cw_arena_release(&arena);
    return CW_EXIT_HOLDS;
}

/* ---- rows ---- */

cw_exit cw_command_rows(int count, char **arguments)
{
    const char *csv = NULL, *sources = NULL;
    const cw_option options[] = {
        {"--csv", NULL, "as the CSV that a specification profile is", &csv},
        {"--sources", NULL, "the sources, with the number of their rows", &sources},
    };
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, options, 2, words, 1);
    if (word_count < 0)
        return CW_EXIT_INPUT;
    cw_arena arena = cw_arena_on(&cw_app_memory);
    cw_diags diags = cw_diags_on(&arena);
    const cw_job *job = word_count > 0 ? cw_load_job(words[0], &arena, &diags) : NULL;
    const bool good = word_count == 0 || job;
    const cw_rows *rows = job ? &job->rows : &cw_data;
    if (good)
        fputs(csv       ? cw_rows_csv(rows, &arena)
              : sources ? cw_rows_sources(rows, &arena)
                        : cw_rows_text(rows, job ? (cw_unit_system)job->head.units : CW_US, &arena),
              stdout);
    cw_diags_show(&diags);
    cw_arena_release(&arena);
    return good ? CW_EXIT_HOLDS : CW_EXIT_INPUT;
}

/* ---- check, plan ---- */

cw_exit cw_command_check(int count, char **arguments)
{
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, NULL, 0, words, 1);
    const char *path = word_count < 0 ? NULL : cw_one_file(words, word_count, "check");
    cw_session s;
    if (!path)
        return CW_EXIT_INPUT;
    if (!cw_session_open(&s, path))
        return cw_session_close(&s, CW_EXIT_INPUT);
    fputs(cw_ledger_text(s.plan, &s.arena), stdout);
    return cw_session_close(&s, cw_plan_exit(s.plan));
}

cw_exit cw_command_plan(int count, char **arguments)
{
    const char *json = NULL;
    const cw_option options[] = {{"--json", NULL, "the whole plan as JSON", &json}};
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, options, 1, words, 1);
    const char *path = word_count < 0 ? NULL : cw_one_file(words, word_count, "plan");
    cw_session s;
    if (!path)
        return CW_EXIT_INPUT;
    if (!cw_session_open(&s, path))
        return cw_session_close(&s, CW_EXIT_INPUT);
    if (json)
        fputs(cw_plan_json(s.plan, &s.arena), stdout);
    else
        fputs(cw_page_text(cw_book(s.plan, CW_PAPER_LETTER, &s.arena), 110, &s.arena), stdout);
    return cw_session_close(&s, cw_plan_exit(s.plan));
}

/* ---- book ---- */

static bool write_bytes(void *closure, const unsigned char *bytes, size_t length)
{
    return fwrite(bytes, 1, length, closure) == length;
}

cw_exit cw_command_book(int count, char **arguments)
{
    static const char *const papers[] = {"letter", "tabloid", NULL};
    const char *out = NULL, *paper_text = NULL, *date = NULL;
    const cw_option options[] = {
        {"-o", "name of the PDF", "where the book goes", &out},
        {"--paper", "letter or tabloid", "8.5x11 or 11x17 inches", &paper_text},
        {"--date", "2026-05-01T00:00:00Z", "creation date in the PDF's metadata", &date},
    };
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, options, 3, words, 1);
    const char *path = word_count < 0 ? NULL : cw_one_file(words, word_count, "book");
    int paper = 0;
    cw_session s;
    if (!path || !pick(paper_text, papers, &paper, "--paper"))
        return CW_EXIT_INPUT;
    if (!out) {
        fprintf(stderr, "culvertwright book: say where it goes: -o OUT.pdf\n");
        return CW_EXIT_INPUT;
    }
    if (!cw_session_open(&s, path))
        return cw_session_close(&s, CW_EXIT_INPUT);
    cw_output output;
    if (!cw_output_open(&output, out, &s.arena, &s.diags))
        return cw_session_close(&s, CW_EXIT_INPUT);
    const cw_pdf_options pdf = {.date_iso = date, .program = "culvertwright"};
    const bool good = cw_pdf_write(cw_book(s.plan, (cw_paper)paper, &s.arena), &pdf, write_bytes, output.stream,
                                   &s.arena, &s.diags);
    if (!cw_output_close(&output, good, &s.arena, &s.diags))
        return cw_session_close(&s, CW_EXIT_INPUT);
    fputs(cw_ledger_text(s.plan, &s.arena), stdout);
    printf("\nSetting book: %s\n", out);
    return cw_session_close(&s, cw_plan_exit(s.plan));
}

/* ---- order ---- */

static void show_step(const cw_plan *plan, int place)
{
    const cw_plan_step *step = &plan->steps[place];
    const cw_step *kind = &plan->order->steps[step->step];
    printf("%4d  %-28s %-8s %s\n", place + 1, step->id, kind->stop == CW_STOP_NONE ? "" : cw_stop_word(kind->stop),
           step->text);
}

static void explain(const cw_plan *plan, const bool *done, int place)
{
    enum { SHOWN = 8 };
    cw_need missing[SHOWN];
    const cw_plan_step *step = &plan->steps[place];
    const int found = cw_order_missing(plan->order, done, step->step, missing, SHOWN);
    if (done[step->step]) {
        printf("%s is done.\n", step->id);
        return;
    }
    printf(found == 0 ? "%s may be done now.\n" : "%s may not be done yet:\n", step->id);
    for (int i = 0; i < found && i < SHOWN; i++) {
        const cw_rule_row *rule = cw_rule_at(missing[i].rule);
        printf("  first: %s\n    %s: %s [%s]\n", plan->steps[plan->order->rank[missing[i].step]].text, rule->id,
               rule->sentence, rule->source);
    }
}

/* Steps done: the first N of the default order, or the ids listed in a file, one a line. */
static bool read_done(const cw_session *s, const char *at, const char *file, bool *done)
{
    const cw_plan *plan = s->plan;
    if (at) {
        const cw_parsed parsed = cw_quantity_parse(at, CW_DIM_COUNT);
        if (parsed.status != CW_PARSE_OK || parsed.value < 0 || parsed.value > plan->step_count) {
            fprintf(stderr, "culvertwright: --at %s is not a whole number from 0 to %d\n", at, plan->step_count);
            return false;
        }
        for (int i = 0; i < (int)parsed.value; i++)
            done[plan->steps[i].step] = true;
    }
    if (!file)
        return true;
    cw_arena arena = cw_arena_on(&cw_app_memory);
    cw_diags diags = cw_diags_on(&arena);
    size_t length = 0;
    char *text = cw_file_read(file, CW_JOB_BYTES_MAX, &length, (cw_pos){0}, &arena, &diags);
    bool good = text != NULL;
    int number = 0;
    for (char *line = text; line && *line; number++) {
        char *end = strpbrk(line, "\r\n");
        char *next = end ? end + strspn(end, "\r\n") : NULL;
        if (end)
            *end = '\0';
        const int place = line[0] ? cw_plan_step_find(plan, line) : -1;
        if (place >= 0) {
            done[plan->steps[place].step] = true;
        } else if (line[0]) {
            cw_diag_add(&diags, (cw_pos){.file = file, .line = number + 1, .column = 1}, CW_E_CHOICE,
                        "\"%s\" is no step of this job; culvertwright order lists them", line);
            good = false;
        }
        line = next;
    }
    cw_diags_show(&diags);
    cw_arena_release(&arena);
    return good;
}

static int show_breaches(const cw_plan *plan, const bool *done)
{
    enum { SHOWN = 20 };
    cw_order_breach breaches[SHOWN];
    const int found = cw_order_check(plan->order, done, breaches, SHOWN);
    for (int i = 0; i < found && i < SHOWN; i++)
        printf("not legal: %s is done, but %s is not (%s)\n", plan->steps[plan->order->rank[breaches[i].step]].id,
               plan->steps[plan->order->rank[breaches[i].need]].id, cw_rule_at(breaches[i].rule)->id);
    return found;
}

cw_exit cw_command_order(int count, char **arguments)
{
    const char *at = NULL, *why = NULL, *file = NULL;
    const cw_option options[] = {
        {"--at", "a number of steps", "the state after so many steps of the listed order", &at},
        {"--done", "a file of step ids", "the state in which these steps are done", &file},
        {"--why", "a step id", "whether this step may be done, and if not why", &why},
    };
    const char *words[1];
    const int word_count = cw_options_read(count, arguments, options, 3, words, 1);
    const char *path = word_count < 0 ? NULL : cw_one_file(words, word_count, "order");
    cw_session s;
    if (!path)
        return CW_EXIT_INPUT;
    if (!cw_session_open(&s, path))
        return cw_session_close(&s, CW_EXIT_INPUT);
    const cw_plan *plan = s.plan;
    if (!plan->order) {
        fprintf(stderr, "culvertwright: there is no order; culvertwright check says why\n");
        return cw_session_close(&s, CW_EXIT_FAILS);
    }
    bool *done = CW_TAKE(&s.arena, bool, plan->order->step_count);
    if (!read_done(&s, at, file, done))
        return cw_session_close(&s, CW_EXIT_INPUT);
    cw_exit code = show_breaches(plan, done) > 0 ? CW_EXIT_FAILS : CW_EXIT_HOLDS;
    if (why) {
        const int place = cw_plan_step_find(plan, why);
        if (place < 0) {
            fprintf(stderr, "culvertwright: \"%s\" is no step of this job; culvertwright order lists them\n", why);
            return cw_session_close(&s, CW_EXIT_INPUT);
        }
        explain(plan, done, place);
    } else if (at || file) {
        int *steps = CW_TAKE(&s.arena, int, plan->order->step_count);
        const int next = cw_order_next(plan->order, done, steps);
        printf("May be done next:\n");
        for (int i = 0; i < next; i++)
            show_step(plan, plan->order->rank[steps[i]]);
    } else {
        for (int i = 0; i < plan->step_count; i++)
            show_step(plan, i);
    }
    return cw_session_close(&s, code);
}
