#include <string.h>

#include "app.h"
#include "cw/calc.h"
#include "cw/cost.h"
#include "cw/report.h"
#include "cw/text.h"

enum { WORDS_MAX = 80 };

static cw_exit list_calculators(void)
{
    const char *group = "";
    for (int i = 0; i < cw_calcs_all.count; i++) {
        const cw_calc *calc = cw_calcs_all.items[i];
        if (strcmp(group, calc->group) != 0)
            printf("%s%s\n", i ? "\n" : "", calc->group);
        group = calc->group;
        printf("  %-20s %s\n", calc->name, calc->title);
    }
    printf("\nculvertwright calc NAME shows the inputs; calc NAME key=value ... computes.\n");
    return CW_EXIT_HOLDS;
}

static const cw_calc *find_or_say(const char *name)
{
    const cw_calc *calc = cw_calc_find(name);
    if (calc)
        return calc;
    const char *names[128];
    int count = 0;
    for (; count < cw_calcs_all.count && count < 128; count++)
        names[count] = cw_calcs_all.items[count]->name;
    const char *nearest = cw_text_nearest(name, names, count);
    fprintf(stderr, "culvertwright: there is no calculator \"%s\"; ", name);
    if (nearest)
        fprintf(stderr, "did you mean %s?\n", nearest);
    else
        fprintf(stderr, "culvertwright calc lists them\n");
    return NULL;
}

/* ---- one answer ---- */

/* The rows that ship, with the prices of a file in the place of theirs; NULL when it has faults. */
static const cw_rows *read_prices(const char *path, cw_arena *arena, cw_diags *diags)
{
    size_t length = 0;
    if (!path)
        return &cw_data;
    const char *text = cw_file_read(path, CW_JOB_BYTES_MAX, &length, (cw_pos){0}, arena, diags);
    if (!text)
        return NULL;
    cw_rows *rows = CW_TAKE(arena, cw_rows, 1);
    *rows = cw_cost_prices_read(text, path, &cw_data, arena, diags);
    return diags->count == 0 ? rows : NULL;
}

typedef struct answer_options {
    cw_unit_system units;
    bool json;
    const char *prices; /* a file, or NULL */
} answer_options;

static cw_exit answer_one(const cw_calc *calc, const char **words, int count, const answer_options *options,
                          cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    const cw_rows *rows = read_prices(options->prices, arena, &diags);
    cw_calc_value values[WORDS_MAX];
    for (int i = 0; i < count; i++) {
        const char *equals = strchr(words[i], '=');
        if (!equals) {
            fprintf(stderr, "culvertwright: \"%s\" is not key=value; quote values with spaces: 'span=12 ft'\n",
                    words[i]);
            return CW_EXIT_INPUT;
        }
        values[i] = (cw_calc_value){cw_arena_copy(arena, words[i], (size_t)(equals - words[i])), equals + 1,
                                    {.file = calc->name}};
    }
    cw_calc_answer answer = {.calc = calc,
                             .input = cw_arena_take(arena, calc->input_size, 1),
                             .output = cw_arena_take(arena, calc->output_size, 1),
                             .given = CW_TAKE(arena, bool, calc->input_count),
                             .working = cw_working_on(arena, calc->title)};
    if (!rows || !cw_calc_fill(calc, values, count, rows, answer.input, answer.given, arena, &diags)) {
        cw_diags_show(&diags);
        return CW_EXIT_INPUT;
    }
    calc->run(answer.input, answer.output, &answer.working);
    fputs(options->json ? cw_calc_json(&answer, arena) : cw_calc_text(&answer, options->units, arena), stdout);
    return CW_EXIT_HOLDS;
}

cw_exit cw_command_calc(int count, char **arguments)
{
    const char *json = NULL, *si = NULL, *path = NULL, *prices = NULL;
    const cw_option options[] = {
        {"--json", NULL, "answer as JSON", &json},
        {"--si", NULL, "print SI units", &si},
        {"--batch", "a CSV file, - for standard input", "one row in, one row out", &path},
        {"--prices", "a CSV file id,price", "your prices in the place of those that ship", &prices},
    };
    const char *words[WORDS_MAX];
    const int word_count = cw_options_read(count, arguments, options, 4, words, WORDS_MAX);
    if (word_count < 0)
        return CW_EXIT_INPUT;
    if (word_count == 0)
        return list_calculators();
    const cw_calc *calc = find_or_say(words[0]);
    if (!calc)
        return CW_EXIT_INPUT;
    cw_arena arena = cw_arena_on(&cw_app_memory);
    cw_exit code = CW_EXIT_HOLDS;
    if (path)
        code = cw_calc_batch(calc, path, &arena);
    else if (word_count == 1)
        fputs(cw_calc_manual(calc, &arena), stdout);
    else
        code = answer_one(calc, words + 1, word_count - 1,
                          &(answer_options){si ? CW_SI : CW_US, json != NULL, prices}, &arena);
    cw_arena_release(&arena);
    return code;
}
