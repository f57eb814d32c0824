#include <ctype.h>
#include <string.h>

#include "app.h"
#include "cw/calc.h"
#include "cw/report.h"
#include "cw/text.h"

enum { LINE_BYTES_MAX = 64 * 1024, COLUMNS_MAX = 64, WORDS_MAX = 80 };

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

static cw_exit answer_one(const cw_calc *calc, const char **words, int count, cw_unit_system units,
                          bool json, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
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
    if (!cw_calc_fill(calc, values, count, &cw_data, answer.input, answer.given, arena, &diags)) {
        cw_diags_show(&diags);
        return CW_EXIT_INPUT;
    }
    calc->run(answer.input, answer.output, &answer.working);
    fputs(json ? cw_calc_json(&answer, arena) : cw_calc_text(&answer, units, arena), stdout);
    return CW_EXIT_HOLDS;
}

/* ---- batch ---- */

typedef struct batch {
    const cw_calc *calc;
    const char *path;
    const cw_field *fields[COLUMNS_MAX]; /* NULL: carried through */
    bool bare[COLUMNS_MAX];
    int columns;
    void *input, *output, *fresh; /* fresh: input with all defaults in place */
    long rows, faults;
} batch;

/* Cut one CSV record in place (RFC 4180, one line a record); returns the count of cells, -1 for a broken quote. */
static int cut_cells(char *line, char **cells, int most)
{
    int count = 0;
    char *read = line;
    for (;;) {
        if (count == most)
            return most + 1;
        char *write = read;
        cells[count++] = write;
        if (*read == '"') {
            read++;
            for (; *read != '\0' && !(read[0] == '"' && read[1] != '"'); read++) {
                if (*read == '"')
                    read++;
                *write++ = *read;
            }
            if (*read != '"')
                return -1;
            read++;
        } else {
            for (; *read != '\0' && *read != ','; read++)
                *write++ = *read;
        }
        const char end = *read;
        *write = '\0';
        if (end == '\0')
            return count;
        if (end != ',')
            return -1;
        read++;
    }
}

static void trim_line(char *line)
{
    size_t length = strlen(line);
    while (length > 0 && (line[length - 1] == '\n' || line[length - 1] == '\r'))
        line[--length] = '\0';
}

static bool read_heading(batch *work, char *line, cw_arena *arena, cw_diags *diags)
{
    char *cells[COLUMNS_MAX + 1] = {0};
    work->columns = cut_cells(line, cells, COLUMNS_MAX);
    const cw_pos at = {.file = work->path, .line = 1, .column = 1};
    if (work->columns < 1 || work->columns > COLUMNS_MAX) {
        cw_diag_add(diags, at, CW_E_SYNTAX, "the heading cannot be read; give 1 to %d column names", COLUMNS_MAX);
        return false;
    }
    bool good = true;
    for (int c = 0; c < work->columns; c++) {
        work->fields[c] = cw_calc_column(work->calc, cells[c], &work->bare[c]);
        for (int earlier = 0; work->fields[c] && earlier < c; earlier++) {
            if (work->fields[earlier] != work->fields[c])
                continue;
            cw_diag_add(diags, at, CW_E_DUPLICATE, "column %d repeats input %s; keep one", c + 1,
                        work->fields[c]->key);
            good = false;
        }
        printf("%s%s", c ? "," : "", cells[c]);
    }
    for (int i = 0; i < work->calc->input_count; i++) {
        const cw_field *field = &work->calc->inputs[i];
        bool there = !field->required;
        for (int c = 0; c < work->columns; c++)
            there = there || work->fields[c] == field;
        if (there) {
            if (field->fallback)
                cw_field_default(field, &cw_data, work->fresh, arena, diags);
            continue;
        }
        cw_diag_add(diags, at, CW_E_MISSING, "no column for %s: %s; name it %s (cells with units) or %s_%s",
                    field->key, field->meaning, field->key, field->key, cw_dim_suffix(field->dim));
        good = false;
    }
    for (int i = 0; i < work->calc->output_count; i++) {
        const cw_field *field = &work->calc->outputs[i];
        const char *suffix = field->kind == CW_KIND_NUMBER ? cw_dim_suffix(field->dim) : "";
        printf(",%s%s%s", field->key, suffix[0] ? "_" : "", suffix);
    }
    printf(",fault\n");
    return good;
}

static bool read_row(batch *work, char **cells, long line, cw_arena *arena, cw_diags *diags)
{
    memcpy(work->input, work->fresh, work->calc->input_size);
    bool good = true;
    for (int c = 0; c < work->columns; c++) {
        const cw_field *field = work->fields[c];
        if (!field)
            continue;
        const cw_pos at = {.file = work->path, .line = (int)line, .column = c + 1};
        if (!work->bare[c]) {
            good = cw_field_read(field, cells[c], work->input, at, arena, diags) && good;
            continue;
        }
        const cw_parsed number = cw_quantity_parse(cells[c], CW_DIM_NONE);
        if (number.status != CW_PARSE_OK) {
            cw_diag_add(diags, at, CW_E_VALUE, "%s is not a number; column %s wants bare numbers", cells[c],
                        field->key);
            good = false;
        } else if (!(number.value >= field->low && number.value <= field->high)) {
            cw_diag_add(diags, at, CW_E_RANGE, "%s %s is outside %g to %g", field->key, cells[c], field->low,
                        field->high);
            good = false;
        } else {
            memcpy((char *)work->input + field->offset, &number.value, sizeof number.value);
            if (field->has_offset != CW_NO_FLAG)
                *(bool *)((char *)work->input + field->has_offset) = true;
        }
    }
    const cw_pos row = {.file = work->path, .line = (int)line, .column = 1};
    return good && (!work->calc->valid || work->calc->valid(work->input, row, diags));
}

static void print_outputs(const batch *work, cw_arena *arena)
{
    for (int i = 0; i < work->calc->output_count; i++) {
        const cw_field *field = &work->calc->outputs[i];
        if (field->kind == CW_KIND_NUMBER) {
            double value;
            memcpy(&value, (const char *)work->output + field->offset, sizeof value);
            printf(",%.12g", value);
        } else {
            printf(",\"%s\"", cw_field_print(field, work->output, CW_US, arena));
        }
    }
    printf(",\n");
}

static void do_row(batch *work, char *line, long number, cw_arena *scratch)
{
    cw_diags diags = cw_diags_on(scratch);
    char *cells[COLUMNS_MAX + 1] = {0};
    fputs(line, stdout);
    const int count = cut_cells(line, cells, COLUMNS_MAX);
    work->rows++;
    bool good = count == work->columns;
    if (!good)
        cw_diag_add(&diags, (cw_pos){.file = work->path, .line = (int)number, .column = 1}, CW_E_SYNTAX,
                    "the row has %d cells, the heading %d; quote cells that hold a comma", count, work->columns);
    if (good && read_row(work, cells, number, scratch, &diags)) {
        work->calc->run(work->input, work->output, NULL);
        print_outputs(work, scratch);
        return;
    }
    work->faults++;
    for (int i = 0; i < work->calc->output_count; i++)
        putchar(',');
    printf(",error %d\n", diags.count ? (int)diags.items[0].code : 0);
    cw_diags_show(&diags);
}

static cw_exit answer_batch(const cw_calc *calc, const char *path, cw_arena *arena)
{
    static char line[LINE_BYTES_MAX];
    cw_diags diags = cw_diags_on(arena);
    FILE *stream = strcmp(path, "-") == 0 ? stdin : fopen(path, "rb");
    if (!stream) {
        fprintf(stderr, "%s: error 113: cannot be opened; check the name\n", path);
        return CW_EXIT_INPUT;
    }
    batch work = {.calc = calc,
                  .path = path,
                  .input = cw_arena_take(arena, calc->input_size, 1),
                  .fresh = cw_arena_take(arena, calc->input_size, 1),
                  .output = cw_arena_take(arena, calc->output_size, 1)};
    cw_arena scratch = cw_arena_on(&cw_app_memory);
    bool good = fgets(line, sizeof line, stream) != NULL;
    if (good) {
        trim_line(line);
        good = read_heading(&work, line, arena, &diags);
    } else {
        fprintf(stderr, "%s: error 106: the file is empty; begin with a heading of input names\n", path);
    }
    for (long number = 2; good && fgets(line, sizeof line, stream); number++) {
        if (strlen(line) == sizeof line - 1) {
            fprintf(stderr, "%s:%ld: error 110: a line has more than %d bytes\n", path, number, LINE_BYTES_MAX - 2);
            good = false;
            break;
        }
        trim_line(line);
        if (line[0] != '\0')
            do_row(&work, line, number, &scratch);
        if (scratch.bytes_held > 256 * 1024)
            cw_arena_release(&scratch);
    }
    cw_arena_release(&scratch);
    if (stream != stdin)
        fclose(stream);
    cw_diags_show(&diags);
    if (good && work.faults > 0)
        fprintf(stderr, "%s: %ld of %ld rows have faults\n", path, work.faults, work.rows);
    return good && work.faults == 0 ? CW_EXIT_HOLDS : CW_EXIT_INPUT;
}

cw_exit cw_command_calc(int count, char **arguments)
{
    const char *json = NULL, *si = NULL, *path = NULL;
    const cw_option options[] = {
        {"--json", NULL, "answer as JSON", &json},
        {"--si", NULL, "print SI units", &si},
        {"--batch", "a CSV file, - for standard input", "one row in, one row out", &path},
    };
    const char *words[WORDS_MAX];
    const int word_count = cw_options_read(count, arguments, options, 3, words, WORDS_MAX);
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
        code = answer_batch(calc, path, &arena);
    else if (word_count == 1)
        fputs(cw_calc_manual(calc, &arena), stdout);
    else
        code = answer_one(calc, words + 1, word_count - 1, si ? CW_SI : CW_US, json != NULL, &arena);
    cw_arena_release(&arena);
    return code;
}
