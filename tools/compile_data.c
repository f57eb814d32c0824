/* compile_data OUT.c IN.csv...: checks all rows of the data files and writes them as one C table,
 * cw_data, sorted by id.  Runs on the build machine; fails (exit 1) on any fault and then writes
 * nothing. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cw/rows.h"
#include "cw/text.h"

enum { FILE_BYTES_MAX = 1024 * 1024, ALL_ROWS_MAX = 4000 };

static const char *file_text(const char *path, cw_arena *arena)
{
    FILE *file = fopen(path, "rb");
    if (!file)
        return NULL;
    char *text = cw_arena_take(arena, FILE_BYTES_MAX + 1, 1);
    const size_t length = fread(text, 1, FILE_BYTES_MAX + 1, file);
    const int fault = ferror(file);
    fclose(file);
    return fault || length > FILE_BYTES_MAX || memchr(text, 0, length) ? NULL : text;
}

/* The part of a path after the last slash, so that messages do not depend on where the tree lies.
 */
static const char *file_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash ? slash + 1 : path;
}

typedef struct gathered {
    cw_row rows[ALL_ROWS_MAX];
    const char *files[ALL_ROWS_MAX];
    int count;
} gathered;

static void gather(gathered *all, const cw_row *row, const char *file, cw_diags *diags)
{
    int at = all->count;
    while (at > 0 && strcmp(all->rows[at - 1].id, row->id) > 0)
        at--;
    const cw_pos where = {.file = file};
    if (at > 0 && cw_text_same(all->rows[at - 1].id, row->id)) {
        cw_diag_add(diags, where, CW_E_DUPLICATE, "row %s is already in %s; keep one", row->id,
                    all->files[at - 1]);
        return;
    }
    if (all->count == ALL_ROWS_MAX) {
        cw_diag_add(diags, where, CW_E_TOO_MANY, "there are more than %d rows in all",
                    (int)ALL_ROWS_MAX);
        return;
    }
    memmove(&all->rows[at + 1], &all->rows[at], (size_t)(all->count - at) * sizeof all->rows[0]);
    memmove(&all->files[at + 1], &all->files[at], (size_t)(all->count - at) * sizeof all->files[0]);
    all->rows[at] = *row;
    all->files[at] = file;
    all->count++;
}

static void write_string(FILE *out, const char *text)
{
    fputc('"', out);
    for (const unsigned char *byte = (const unsigned char *)text; *byte; byte++) {
        if (*byte == '"' || *byte == '\\')
            fprintf(out, "\\%c", *byte);
        else if (*byte < ' ' || *byte > '~' || *byte == '?')
            fprintf(out, "\\%03o", *byte); // '?' too, lest two of them make a trigraph
        else
            fputc(*byte, out);
    }
    fputc('"', out);
}

static void write_row(FILE *out, const cw_row *row)
{
    fputs("    {", out);
    write_string(out, row->id);
    fprintf(out, ", %.17g, (cw_dim)%d, %.17g, %.17g, ", row->value, (int)row->dim, row->low,
            row->high);
    write_string(out, row->source);
    fputs(", ", out);
    write_string(out, row->edition);
    fputs(", ", out);
    write_string(out, row->clause);
    fprintf(out, ", (cw_status)%d, ", (int)row->status);
    write_string(out, row->note);
    fputs("},\n", out);
}

static int write_table(const char *path, const gathered *all)
{
    FILE *out = fopen(path, "wb");
    if (!out) {
        fprintf(stderr, "compile_data: cannot write %s\n", path);
        return 1;
    }
    fputs("/* Made by tools/compile_data.c from data/; change the data, not this file. */\n"
          "#include \"cw/rows.h\"\n\n"
          "static const cw_row rows[] = {\n",
          out);
    for (int i = 0; i < all->count; i++)
        write_row(out, &all->rows[i]);
    fprintf(out, "};\n\nconst cw_rows cw_data = {rows, %d};\n", all->count);
    const int fault = ferror(out);
    if (fclose(out) != 0 || fault) {
        fprintf(stderr, "compile_data: cannot write %s\n", path);
        remove(path);
        return 1;
    }
    return 0;
}

static int report(cw_diags *diags, cw_arena *arena)
{
    for (int i = 0; i < diags->count; i++)
        fprintf(stderr, "%s\n", cw_diag_line(arena, &diags->items[i]));
    return diags->count > 0 ? 1 : 0;
}

int main(int argc, char **argv)
{
    if (argc < 3) {
        fputs("usage: compile_data OUT.c IN.csv...\n", stderr);
        return 2;
    }
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    gathered *all = CW_TAKE(&arena, gathered, 1);
    for (int i = 2; i < argc; i++) {
        const char *name = file_name(argv[i]);
        const char *text = file_text(argv[i], &arena);
        if (!text) {
            cw_diag_add(&diags, (cw_pos){.file = name}, CW_E_FILE,
                        "cannot be read as text of at most %d bytes", (int)FILE_BYTES_MAX);
            continue;
        }
        const cw_rows rows = cw_rows_parse(text, name, &arena, &diags);
        for (int row = 0; row < rows.count; row++)
            gather(all, &rows.items[row], name, &diags);
    }
    if (all->count == 0 && diags.count == 0)
        cw_diag_add(&diags, (cw_pos){0}, CW_E_MISSING, "the files hold no rows");
    const int status = report(&diags, &arena) ? 1 : write_table(argv[1], all);
    cw_arena_release(&arena);
    return status;
}
