#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <pthread.h>
#include <stdatomic.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "app.h"
#include "cw/text.h"

enum {
    BLOCK_BYTES = 4 * 1024 * 1024, /* read at a time */
    LINE_BYTES_MAX = 64 * 1024,
    COLUMNS_MAX = 64,
    WORKERS_MAX = 16,
    STRETCHES = 32, /* of a block */
    GROWTH = 6, /* of a row by its answers, guessed: room is found when it is more */
    FINDINGS_SHOWN = 50 /* rows whose findings are printed, of each stretch */
};

/* What the heading says. */
typedef struct layout {
    const cw_calc *calc;
    const char *path;
    const cw_field *fields[COLUMNS_MAX]; /* NULL: carried through */
    bool bare[COLUMNS_MAX];
    int columns;
    bool all_bare;       /* no column is carried through or holds cells with units */
    size_t answer_bytes; /* of one row, at most, but for lists and text */
    void *fresh;         /* input with all defaults in place */
} layout;

/* A stretch of whole lines, and what became of it. */
typedef struct stretch {
    const layout *layout;
    char *text; /* zero-terminated */
    long first_line;
    long rows, faults;
    char *out;
    size_t length, capacity;
    cw_arena kept;  /* out, from block to block */
    cw_arena arena; /* scratch, and the findings */
    cw_text findings;
} stretch;

/* ---- numbers ---- */

static const double tens[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                              1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};

/* Plain decimal of at most 15 digits: mantissa and power of ten are exact, so one division rounds correctly.  What comes after
 * it, or NULL for anything else, which is left to the quantity parser. */
static inline const char *scan_plain(const char *text, double *value)
{
    const char *at = text;
    const bool negative = *at == '-';
    at += negative || *at == '+';
    uint64_t mantissa = 0;
    const char *first = at;
    for (unsigned digit; (digit = (unsigned)*at - '0') <= 9; at++)
        mantissa = mantissa * 10 + digit;
    ptrdiff_t digits = at - first, decimals = 0;
    if (*at == '.') {
        first = ++at;
        for (unsigned digit; (digit = (unsigned)*at - '0') <= 9; at++)
            mantissa = mantissa * 10 + digit;
        decimals = at - first;
        digits += decimals;
    }
    if (digits == 0 || digits > 15)
        return NULL;
    const double magnitude = (double)(int64_t)mantissa / tens[decimals];
    *value = negative ? -magnitude : magnitude;
    return at;
}

static bool read_plain(const char *text, double *value)
{
    const char *end = scan_plain(text, value);
    return end && *end == '\0';
}

enum { SIGNIFICANT = 10, NUMBER_BYTES = 40 };

/* Ten digits of a number below 10^10, leading zeros too: two at a time, and in two halves that do not wait for each other. */
static void ten_digits(uint64_t number, char out[SIGNIFICANT])
{
    static const char pairs[] = "0001020304050607080910111213141516171819202122232425262728293031323334353637383940414243444546474849"
                                "5051525354555657585960616263646566676869707172737475767778798081828384858687888990919293949596979899";
    const uint32_t top = (uint32_t)(number / 100000000), rest = (uint32_t)(number % 100000000);
    const uint32_t high = rest / 10000, low = rest % 10000;
    memcpy(out, pairs + 2 * top, 2);
    memcpy(out + 2, pairs + 2 * (high / 100), 2);
    memcpy(out + 4, pairs + 2 * (high % 100), 2);
    memcpy(out + 6, pairs + 2 * (low / 100), 2);
    memcpy(out + 8, pairs + 2 * (low % 100), 2);
}

/* Ten significant digits without trailing zeros, like %.10g where that prints no exponent.  There must be NUMBER_BYTES of room:
 * copies of one size, a little too long, are faster than those that fit. */
static int write_number(char *out, double value)
{
    const double size = fabs(value);
    if (!(size >= 1e-4 && size < 1e9))
        return size == 0.0 ? (out[0] = '0', 1) : snprintf(out, NUMBER_BYTES, "%.10g", value);
    int whole = 1; // digits before the point; 0 and below for values under 1
    while (whole < SIGNIFICANT && size >= tens[whole])
        whole++;
    if (size < 1.0)
        for (whole = 0; size * tens[SIGNIFICANT - whole] < 1e9; whole--)
            continue;
    int64_t scaled = (int64_t)(size * tens[SIGNIFICANT - whole] + 0.5);
    if (scaled == 10000000000) { // rounded up to one digit more
        scaled /= 10;
        whole++;
    }
    char digits[2 * SIGNIFICANT] = {0};
    ten_digits((uint64_t)scaled, digits);
    int kept = SIGNIFICANT;
    while (kept > 1 && digits[kept - 1] == '0')
        kept--;
    int length = 0;
    if (value < 0.0)
        out[length++] = '-';
    if (whole <= 0) {
        memcpy(out + length, "0.0000", 6);
        memcpy(out + length + 2 - whole, digits, SIGNIFICANT);
        return length + 2 - whole + kept;
    }
    memcpy(out + length, digits, SIGNIFICANT);
    if (kept <= whole)
        return length + whole;
    out[length + whole] = '.';
    memcpy(out + length + whole + 1, digits + whole, SIGNIFICANT);
    return length + kept + 1;
}

/* ---- cells ---- */

/* Cut one CSV record in place (RFC 4180, one line a record); the count of cells, -1 for a broken quote. */
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
            while (*read != '\0' && *read != ',')
                read++;
            write = read;
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

/* Room for this many bytes behind what is written: as much as is asked for first, then doubled. */
static char *room(stretch *s, size_t length)
{
    if (s->length + length > s->capacity) {
        s->capacity = s->length + length > 2 * s->capacity ? s->length + length : 2 * s->capacity;
        s->out = cw_arena_grow(&s->kept, s->out, s->length, s->capacity, 1);
    }
    return s->out + s->length;
}

static void put(stretch *s, const char *bytes, size_t length)
{
    memcpy(room(s, length), bytes, length);
    s->length += length;
}

/* Behind what is written, where there is room. */
static char *quote(char *at, const char *text)
{
    const size_t length = strlen(text);
    *at = '"';
    memcpy(at + 1, text, length);
    at[length + 1] = '"';
    return at + length + 2;
}

static void store(const cw_field *field, double value, void *input)
{
    memcpy((char *)input + field->offset, &value, sizeof value);
    if (field->has_offset != CW_NO_FLAG)
        *(bool *)((char *)input + field->has_offset) = true;
}

static bool read_bare(const layout *work, int column, const char *cell, void *input, cw_pos at, cw_diags *diags)
{
    const cw_field *field = work->fields[column];
    double value = 0.0;
    if (!read_plain(cell, &value)) {
        const cw_parsed number = cw_quantity_parse(cell, CW_DIM_NONE);
        if (number.status != CW_PARSE_OK) {
            cw_diag_add(diags, at, CW_E_VALUE, "%s is not a number; column %s wants bare numbers",
                        cw_text_clip(diags->arena, cell), field->key);
            return false;
        }
        value = number.value;
    }
    if (!(value >= field->low && value <= field->high)) {
        cw_diag_add(diags, at, CW_E_RANGE, "%s %s is outside %g to %g %s; correct it", field->key,
                    cw_text_clip(diags->arena, cell), field->low, field->high, cw_dim_suffix(field->dim));
        return false;
    }
    store(field, value, input);
    return true;
}

/* A row of plain numbers within their limits, straight from the line.  False for any other, which is then cut into cells. */
static bool read_line(const layout *work, const char *line, void *input)
{
    const char *at = line;
    memcpy(input, work->fresh, work->calc->input_size);
    for (int c = 0; c < work->columns; c++) {
        const cw_field *field = work->fields[c];
        double value;
        at = scan_plain(at, &value);
        if (!at || *at != (c + 1 < work->columns ? ',' : '\0') || !(value >= field->low && value <= field->high))
            return false;
        at++;
        store(field, value, input);
    }
    return true;
}

static bool read_cells(const layout *work, char **cells, void *input, long line, cw_arena *arena, cw_diags *diags)
{
    memcpy(input, work->fresh, work->calc->input_size);
    bool good = true;
    for (int c = 0; c < work->columns; c++) {
        const cw_field *field = work->fields[c];
        if (!field)
            continue;
        const cw_pos at = {.file = work->path, .line = (int)line, .column = c + 1};
        good = (work->bare[c] ? read_bare(work, c, cells[c], input, at, diags)
                              : cw_field_read(field, cells[c], input, at, arena, diags)) &&
               good;
    }
    return good;
}

static bool read_row(stretch *s, char *line, long number, void *input, cw_diags *diags)
{
    const layout *work = s->layout;
    const cw_pos row = {.file = work->path, .line = (int)number, .column = 1};
    if (!work->all_bare || !read_line(work, line, input)) {
        char *cells[COLUMNS_MAX + 1];
        const int count = cut_cells(line, cells, COLUMNS_MAX);
        if (count != work->columns) {
            cw_diag_add(diags, row, CW_E_SYNTAX, "the row has %d cells, the heading %d; quote cells that hold a comma",
                        count, work->columns);
            return false;
        }
        if (!read_cells(work, cells, input, number, &s->arena, diags))
            return false;
    }
    return !work->calc->valid || work->calc->valid(input, row, diags);
}

static void put_outputs(stretch *s, const void *output)
{
    const cw_calc *calc = s->layout->calc;
    char *at = room(s, s->layout->answer_bytes);
    for (int i = 0; i < calc->output_count; i++) {
        const cw_field *field = &calc->outputs[i];
        const void *member = (const char *)output + field->offset;
        *at++ = ',';
        if (field->has_offset != CW_NO_FLAG && !*(const bool *)((const char *)output + field->has_offset))
            continue;
        if (field->kind == CW_KIND_NUMBER) {
            double value;
            memcpy(&value, member, sizeof value);
            at += write_number(at, value);
        } else if (field->kind == CW_KIND_CHOICE) {
            int choice;
            memcpy(&choice, member, sizeof choice);
            at = quote(at, field->choices[choice]);
        } else {
            const char *text = cw_field_print(field, output, CW_US, &s->arena);
            s->length = (size_t)(at - s->out);
            at = quote(room(s, strlen(text) + s->layout->answer_bytes), text);
        }
    }
    memcpy(at, ",\n", 2);
    s->length = (size_t)(at + 2 - s->out);
}

static void put_fault(stretch *s, cw_diags *diags)
{
    s->faults++;
    for (int i = 0; i < s->layout->calc->output_count; i++)
        put(s, ",", 1);
    const char *tail = cw_arena_print(&s->arena, ",error %d\n", diags->count ? (int)diags->items[0].code : 0);
    put(s, tail, strlen(tail));
    for (int i = 0; i < diags->count && s->faults <= FINDINGS_SHOWN; i++)
        cw_text_print(&s->findings, "%s\n", cw_diag_line(&s->arena, &diags->items[i]));
}

static void do_row(stretch *s, char *line, size_t length, long number, void *input, void *output)
{
    cw_diags diags = cw_diags_on(&s->arena);
    put(s, line, length);
    s->rows++;
    if (read_row(s, line, number, input, &diags)) {
        s->layout->calc->run(input, output, NULL);
        put_outputs(s, output);
    } else {
        put_fault(s, &diags);
    }
}

static void *do_stretch(void *closure)
{
    stretch *s = closure;
    s->length = 0;
    s->rows = s->faults = 0;
    room(s, strlen(s->text) * GROWTH);
    s->findings = cw_text_on(&s->arena);
    void *input = cw_arena_take(&s->arena, s->layout->calc->input_size, 1);
    void *output = cw_arena_take(&s->arena, s->layout->calc->output_size, 1);
    long number = s->first_line;
    for (char *line = s->text; *line; number++) {
        char *end = strchr(line, '\n');
        if (!end)
            end = line + strlen(line);
        char *next = *end ? end + 1 : end;
        if (end > line && end[-1] == '\r')
            end--;
        *end = '\0';
        if (end > line)
            do_row(s, line, (size_t)(end - line), number, input, output);
        line = next;
    }
    return NULL;
}

/* ---- heading ---- */

static void find_columns(layout *work, char **cells, cw_pos at, cw_diags *diags)
{
    for (int c = 0; c < work->columns; c++) {
        work->fields[c] = cw_calc_column(work->calc, cells[c], &work->bare[c]);
        for (int earlier = 0; work->fields[c] && earlier < c; earlier++)
            if (work->fields[earlier] == work->fields[c])
                cw_diag_add(diags, at, CW_E_DUPLICATE, "column %d repeats input %s; keep one", c + 1, work->fields[c]->key);
        work->all_bare = work->all_bare && work->fields[c] && work->bare[c];
        printf("%s%s", c ? "," : "", cells[c]);
    }
}

/* A comma and a number, or the longest word in quotes, of each output; and the line's end. */
static size_t answer_bytes_of(const cw_calc *calc)
{
    size_t bytes = 2;
    for (int i = 0; i < calc->output_count; i++) {
        size_t most = NUMBER_BYTES;
        for (const char *const *word = calc->outputs[i].choices; word && *word; word++)
            most = strlen(*word) + 2 > most ? strlen(*word) + 2 : most;
        bytes += 1 + most;
    }
    return bytes;
}

static void find_missing(layout *work, cw_pos at, cw_arena *arena, cw_diags *diags)
{
    for (int i = 0; i < work->calc->input_count; i++) {
        const cw_field *field = &work->calc->inputs[i];
        bool there = !field->required;
        for (int c = 0; c < work->columns; c++)
            there = there || work->fields[c] == field;
        if (there && field->fallback)
            cw_field_default(field, &cw_data, work->fresh, arena, diags);
        if (there)
            continue;
        const char *suffix = cw_dim_suffix(field->dim);
        cw_diag_add(diags, at, CW_E_MISSING, "no column for %s: %s; name it %s (cells with units)%s%s%s%s", field->key,
                    field->meaning, field->key, suffix[0] ? " or " : "", suffix[0] ? field->key : "", suffix[0] ? "_" : "",
                    suffix);
    }
}

static bool read_heading(layout *work, char *line, cw_arena *arena, cw_diags *diags)
{
    char *cells[COLUMNS_MAX + 1] = {0};
    work->columns = cut_cells(line, cells, COLUMNS_MAX);
    const cw_pos at = {.file = work->path, .line = 1, .column = 1};
    if (work->columns < 1 || work->columns > COLUMNS_MAX) {
        cw_diag_add(diags, at, CW_E_SYNTAX, "the heading cannot be read; give 1 to %d column names", COLUMNS_MAX);
        return false;
    }
    work->all_bare = true;
    work->answer_bytes = answer_bytes_of(work->calc);
    find_columns(work, cells, at, diags);
    find_missing(work, at, arena, diags);
    for (int i = 0; i < work->calc->output_count; i++) {
        const cw_field *field = &work->calc->outputs[i];
        const char *suffix = field->kind == CW_KIND_NUMBER ? cw_dim_suffix(field->dim) : "";
        printf(",%s%s%s", field->key, suffix[0] ? "_" : "", suffix);
    }
    printf(",fault\n");
    if (diags->count > 0)
        return false;
    if (work->calc->ready)
        work->calc->ready(work->fresh);
    return true;
}

/* ---- blocks ---- */

static int worker_count(void)
{
    const long cores = sysconf(_SC_NPROCESSORS_ONLN);
    return cores < 1 ? 1 : cores > WORKERS_MAX ? WORKERS_MAX : (int)cores;
}

/* The fault column marks every row; a terminal is spared all but the first. */
static void show_findings(const stretch *s, long faults_before)
{
    if (faults_before < FINDINGS_SHOWN)
        fputs(cw_text_string(&s->findings), stderr);
}

static int count_lines(const char *from, const char *to)
{
    int count = 0;
    for (const char *at = from; at < to && (at = memchr(at, '\n', (size_t)(to - at))); at++)
        count++;
    return count;
}

/* The stretches of a block, which the workers take one by one. */
typedef struct crew {
    stretch stretches[STRETCHES];
    int count;
    atomic_int next;
} crew;

static void *work_on(void *closure)
{
    crew *all = closure;
    for (int i = atomic_fetch_add(&all->next, 1); i < all->count; i = atomic_fetch_add(&all->next, 1))
        do_stretch(&all->stretches[i]);
    return NULL;
}

/* Cut block into stretches of whole lines.  Where is the same on every machine, and so is what is printed. */
static void cut_block(crew *all, char *block, long *line)
{
    const size_t share = BLOCK_BYTES / STRETCHES;
    char *const last = block + strlen(block);
    all->count = 0;
    for (char *at = block; at < last; all->count++) {
        const bool rest = all->count + 1 == STRETCHES || (size_t)(last - at) <= share;
        char *end = rest ? NULL : strchr(at + share, '\n');
        char *next = end ? end + 1 : last;
        stretch *s = &all->stretches[all->count];
        s->text = at;
        s->first_line = *line;
        *line += count_lines(at, next);
        if (end)
            *end = '\0';
        at = next;
    }
}

/* Print what the workers make of the lines of block, in order. */
static void do_block(crew *all, char *block, long *line, long *rows, long *faults)
{
    pthread_t threads[WORKERS_MAX];
    const int workers = worker_count();
    cut_block(all, block, line);
    atomic_store(&all->next, 0);
    // One works here; without the threads that cannot be had it takes longer, no more.
    int running = 0;
    while (running + 1 < workers && running + 1 < all->count &&
           pthread_create(&threads[running], NULL, work_on, all) == 0)
        running++;
    work_on(all);
    for (int i = 0; i < running; i++)
        pthread_join(threads[i], NULL);
    for (int i = 0; i < all->count; i++) {
        stretch *s = &all->stretches[i];
        fwrite(s->out, 1, s->length, stdout);
        show_findings(s, *faults);
        *rows += s->rows;
        *faults += s->faults;
        cw_arena_release(&s->arena);
    }
}

typedef struct feed {
    FILE *stream;
    char *bytes; /* BLOCK_BYTES + LINE_BYTES_MAX + 1 */
    size_t kept; /* start of a line that is not whole yet */
} feed;

/* The next whole lines, zero-terminated; what is left of the last line goes to the front of the next block.  NULL at the end, or
 * at a line that cannot be taken (then *fault says why). */
static char *next_block(feed *f, const char **fault)
{
    static char held[LINE_BYTES_MAX];
    memmove(f->bytes, held, f->kept);
    const size_t got = fread(f->bytes + f->kept, 1, BLOCK_BYTES, f->stream);
    size_t length = f->kept + got;
    f->kept = 0;
    if (length == 0)
        return NULL;
    f->bytes[length] = '\0';
    if (strlen(f->bytes) != length) {
        *fault = "a line holds a zero byte; write the file as plain text";
        return NULL;
    }
    if (got < BLOCK_BYTES)
        return f->bytes; // the end of the file: its last line may lack the newline
    size_t whole = length;
    while (whole > 0 && f->bytes[whole - 1] != '\n')
        whole--;
    f->kept = length - whole;
    if (f->kept >= LINE_BYTES_MAX) {
        *fault = "a line has more than 65535 bytes; split it";
        return NULL;
    }
    memcpy(held, f->bytes + whole, f->kept);
    f->bytes[whole] = '\0';
    return f->bytes;
}

static bool stream_rows(layout *work, feed *f, cw_arena *arena, cw_diags *diags)
{
    const char *fault = NULL;
    long line = 1, rows = 0, faults = 0;
    char *block = next_block(f, &fault);
    if (!block) {
        cw_diag_add(diags, (cw_pos){.file = work->path}, CW_E_MISSING, "%s",
                    fault ? fault : "the file is empty; begin with a heading of input names");
        return false;
    }
    char *end = strchr(block, '\n');
    char *rest = end ? end + 1 : block + strlen(block);
    if (end)
        *end = '\0';
    block[strcspn(block, "\r")] = '\0';
    if (!read_heading(work, block, arena, diags))
        return false;
    crew all = {.count = 0};
    for (int i = 0; i < STRETCHES; i++)
        all.stretches[i] =
            (stretch){.layout = work, .kept = cw_arena_on(&cw_app_memory), .arena = cw_arena_on(&cw_app_memory)};
    for (line = 2; rest; rest = next_block(f, &fault))
        do_block(&all, rest, &line, &rows, &faults);
    for (int i = 0; i < STRETCHES; i++)
        cw_arena_release(&all.stretches[i].kept);
    if (fault)
        cw_diag_add(diags, (cw_pos){.file = work->path, .line = (int)line, .column = 1}, CW_E_SYNTAX, "%s", fault);
    if (faults > 0)
        fprintf(stderr, "%s: %ld of %ld rows have faults\n", work->path, faults, rows);
    return !fault && faults == 0;
}

cw_exit cw_calc_batch(const cw_calc *calc, const char *path, cw_arena *arena)
{
    cw_diags diags = cw_diags_on(arena);
    layout work = {.calc = calc, .path = path, .fresh = cw_arena_take(arena, calc->input_size, 1)};
    feed f = {.stream = strcmp(path, "-") == 0 ? stdin : fopen(path, "rb"),
              .bytes = cw_arena_take(arena, BLOCK_BYTES + LINE_BYTES_MAX + 1, 1)};
    if (!f.stream) {
        cw_diag_add(&diags, (cw_pos){.file = path}, CW_E_FILE, "cannot be opened; check the name");
        cw_diags_show(&diags);
        return CW_EXIT_INPUT;
    }
    const bool good = stream_rows(&work, &f, arena, &diags);
    if (f.stream != stdin)
        fclose(f.stream);
    cw_diags_show(&diags);
    const bool written = fflush(stdout) == 0 && ferror(stdout) == 0;
    return good && written ? CW_EXIT_HOLDS : CW_EXIT_INPUT;
}
