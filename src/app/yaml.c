#include "yaml_internal.h"

#include <string.h>

enum {
    KEY_MAX =
        64, /* longest key in bytes: no key of the format is half as long, and paths repeat it */
    FAULTS_MAX = 20 /* then reading stops */
};

/** A map or list that is open. */
typedef struct frame {
    bool is_list, is_flow;
    const char *path;
    const char *key; /**< maps: the key that waits for its value, or NULL */
    cw_pos key_at, opened;
    int next; /**< lists: index of the next item */
} frame;

typedef struct reader {
    cw_yaml_text text;
    cw_arena *arena;
    cw_diags *diags;
    cw_entry *items;
    int count, capacity, faults, documents;
    frame frames[CW_JOB_DEPTH_MAX];
    int depth;
    bool stopped;
    yaml_mark_t walked; /**< the last place that was found in a line, and its byte there */
    int walked_bytes;
} reader;

static cw_pos place(const reader *r, yaml_mark_t mark)
{
    return (cw_pos){r->text.file, NULL, (int)mark.line + 1, (int)mark.column + 1};
}

static void fault(reader *r, cw_pos where, cw_code code, const char *sentence)
{
    cw_diag_add(r->diags, where, code, "%s", sentence);
    if (++r->faults >= FAULTS_MAX)
        r->stopped = true;
}

/* Where the next node stands in the job tree; consumes the key or the index. */
static const char *take_path(reader *r, cw_pos *key_at)
{
    if (r->depth == 0)
        return "";
    frame *top = &r->frames[r->depth - 1];
    if (top->is_list)
        return cw_arena_print(r->arena, "%s[%d]", top->path, top->next++);
    const char *key = top->key;
    *key_at = top->key_at;
    top->key = NULL;
    return top->path[0] ? cw_arena_print(r->arena, "%s.%s", top->path, key) : key;
}

static void add_entry(reader *r, cw_entry entry)
{
    if (r->count >= CW_JOB_ENTRIES_MAX) {
        cw_diag_add(r->diags, (cw_pos){r->text.file, NULL, entry.line, entry.column}, CW_E_TOO_MANY,
                    "more than %d entries; a job has a few hundred: is this the right file?",
                    CW_JOB_ENTRIES_MAX);
        r->faults++;
        r->stopped = true;
        return;
    }
    if (r->count == r->capacity) {
        r->capacity = r->capacity ? r->capacity * 2 : 256;
        r->items = cw_arena_grow(r->arena, r->items, (size_t)r->count, (size_t)r->capacity,
                                 sizeof *r->items);
    }
    r->items[r->count++] = entry;
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static const char *trimmed(reader *r, const char *text, size_t length)
{
    while (length > 0 && is_blank(text[0])) {
        text++;
        length--;
    }
    while (length > 0 && is_blank(text[length - 1]))
        length--;
    return cw_arena_copy(r->arena, text, length);
}

/* Escapes between double quotes can still bring in what the scan of the bytes refused. */
static bool text_is_clean(const char *text, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        const unsigned char c = (unsigned char)text[i];
        const unsigned char next = i + 1 < length ? (unsigned char)text[i + 1] : 0;
        if ((c < 0x20 && c != '\t') || c == 0x7F || (c == 0xC2 && next < 0xA0))
            return false;
    }
    return true;
}

/* Byte of the mark in its line.  Marks come in order, so a long line is walked once and not once
 * for each value in it. */
static int byte_of_mark(reader *r, yaml_mark_t mark)
{
    const cw_yaml_line line = cw_yaml_line_at(&r->text, (int)mark.line + 1);
    const bool goes_on = r->walked.line == mark.line && r->walked.column <= mark.column;
    r->walked_bytes = cw_yaml_byte_of(line, mark.column, goes_on ? r->walked.column : 0,
                                      goes_on ? r->walked_bytes : 0);
    r->walked = mark;
    return r->walked_bytes;
}

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

/* "24,000 lb" between brackets would be read as two values. */
static bool thousands_comma_precedes(reader *r, const yaml_event_t *event)
{
    const frame *top = r->depth > 0 ? &r->frames[r->depth - 1] : NULL;
    if (!top || !top->is_flow)
        return false;
    const cw_yaml_line line = cw_yaml_line_at(&r->text, (int)event->start_mark.line + 1);
    const int start = byte_of_mark(r, event->start_mark);
    return start >= 2 && start + 2 < line.length && line.start[start - 1] == ',' &&
           is_digit(line.start[start - 2]) && is_digit(line.start[start]) &&
           is_digit(line.start[start + 1]) && is_digit(line.start[start + 2]);
}

/* "#4" behind a value would be lost as a comment without a word. */
static bool number_sign_follows(reader *r, yaml_mark_t end)
{
    const cw_yaml_line line = cw_yaml_line_at(&r->text, (int)end.line + 1);
    const int value_end = byte_of_mark(r, end);
    int offset = value_end;
    while (offset < line.length && is_blank(line.start[offset]))
        offset++;
    return offset > value_end && offset + 1 < line.length && line.start[offset] == '#' &&
           is_digit(line.start[offset + 1]);
}

static const char *refused_text(const yaml_event_t *event)
{
    const char *text = (const char *)event->data.scalar.value;
    const size_t length = event->data.scalar.length;
    if (!text_is_clean(text, length))
        return "a code between the quotes makes a character that does not show; write plain text";
    if (strstr(text, "\xC2\xA0"))
        return "a no-break space stands in this text; type a plain space over it";
    return NULL;
}

static const char *refused_style(const yaml_event_t *event)
{
    if (event->data.scalar.anchor)
        return "'&' starts the name of an anchor, which job files do not have; put the value in "
               "quotes";
    if (event->data.scalar.tag)
        return "'!' starts a tag, which job files do not have; put the value in quotes";
    if (event->data.scalar.style == YAML_LITERAL_SCALAR_STYLE ||
        event->data.scalar.style == YAML_FOLDED_SCALAR_STYLE)
        return "text over several lines is not taken; write the value on one line, in quotes";
    return NULL;
}

static bool scalar_is_sound(reader *r, const yaml_event_t *event)
{
    const cw_pos where = place(r, event->start_mark);
    const char *refusal = refused_style(event);
    if (refusal) {
        fault(r, where, CW_E_SYNTAX, refusal);
        return false;
    }
    if (event->start_mark.line != event->end_mark.line && event->data.scalar.length > 0) {
        const frame *top = r->depth > 0 ? &r->frames[r->depth - 1] : NULL;
        cw_yaml_report_many_lines(&r->text, event, top && top->is_flow, top ? top->opened : where,
                                  r->diags);
        if (++r->faults >= FAULTS_MAX)
            r->stopped = true;
        return false;
    }
    refusal =
        thousands_comma_precedes(r, event)
            ? "a comma inside { } or [ ] parts two values; put a number with a thousands comma in "
              "quotes, and a space behind a comma that parts"
            : refused_text(event);
    if (refusal)
        fault(r, where, CW_E_SYNTAX, refusal);
    return refusal == NULL;
}

static void take_key(reader *r, const yaml_event_t *event)
{
    frame *top = &r->frames[r->depth - 1];
    const char *text = (const char *)event->data.scalar.value;
    const size_t length = event->data.scalar.length;
    const cw_pos where = place(r, event->start_mark);
    top->key = "?";
    top->key_at = where;
    if (!scalar_is_sound(r, event))
        return;
    if (length == 0) {
        fault(r, where, CW_E_SYNTAX, "a key is missing before the colon; write 'key: value'");
    } else if (length > KEY_MAX) {
        cw_diag_add(
            r->diags, where, CW_E_SYNTAX,
            "a key of %d bytes, the limit is %d; is a colon missing or misplaced in this line?",
            (int)length, KEY_MAX);
        r->faults++;
    } else if (strpbrk(text, ".[]")) {
        cw_diag_add(
            r->diags, where, CW_E_SYNTAX,
            "key '%s' holds a dot or a bracket; write the outer key, and the inner one indented "
            "on the next line",
            text);
        r->faults++;
    } else {
        top->key = trimmed(r, text, length);
    }
    if (r->faults >= FAULTS_MAX)
        r->stopped = true;
}

/* A lone "span:16 ft" under a key is read as text; nobody means that. */
static bool is_tight_entry(const reader *r, const yaml_event_t *event)
{
    const cw_yaml_line line = cw_yaml_line_at(&r->text, (int)event->start_mark.line + 1);
    return event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE &&
           (int)event->start_mark.column == line.indent && cw_yaml_tight_colon(line) >= 0;
}

static void take_value(reader *r, const yaml_event_t *event)
{
    cw_pos key_at = {0};
    const cw_pos where = place(r, event->start_mark);
    const char *path = take_path(r, &key_at);
    if (!scalar_is_sound(r, event))
        return;
    if (is_tight_entry(r, event)) {
        fault(r, where, CW_E_SYNTAX, "no space after the colon; write 'key: value'");
        return;
    }
    if (number_sign_follows(r, event->end_mark)) {
        fault(r, place(r, event->end_mark), CW_E_SYNTAX,
              "'#' and a number behind a value read as a comment; put the whole value in quotes, "
              "or a "
              "space behind '#' if it is a comment");
        return;
    }
    add_entry(
        r, (cw_entry){path, CW_ENTRY_SCALAR,
                      trimmed(r, (const char *)event->data.scalar.value, event->data.scalar.length),
                      where.line, where.column});
}

static bool awaits_key(const reader *r)
{
    const frame *top = r->depth > 0 ? &r->frames[r->depth - 1] : NULL;
    return top && !top->is_list && !top->key;
}

static void take_scalar(reader *r, const yaml_event_t *event)
{
    if (awaits_key(r))
        take_key(r, event);
    else
        take_value(r, event);
}

static void open_node(reader *r, const yaml_event_t *event, bool is_list)
{
    const bool marked = is_list
                            ? event->data.sequence_start.anchor || event->data.sequence_start.tag
                            : event->data.mapping_start.anchor || event->data.mapping_start.tag;
    const bool is_flow = is_list ? event->data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE
                                 : event->data.mapping_start.style == YAML_FLOW_MAPPING_STYLE;
    const cw_pos where = place(r, event->start_mark);
    if (marked)
        fault(r, where, CW_E_SYNTAX,
              "'&' or '!' marks an anchor or a tag, which job files do not have; delete it");
    if (awaits_key(r)) {
        fault(r, where, CW_E_SYNTAX,
              "a list or map stands where a key belongs; write 'key: value'");
        r->stopped = true;
        return;
    }
    if (r->depth >= CW_JOB_DEPTH_MAX) {
        cw_diag_add(r->diags, where, CW_E_TOO_MANY,
                    "maps and lists stand more than %d deep; a job needs 5: check the brackets and "
                    "the indentation",
                    CW_JOB_DEPTH_MAX);
        r->faults++;
        r->stopped = true;
        return;
    }
    cw_pos key_at = where;
    const char *path = take_path(r, &key_at);
    add_entry(r, (cw_entry){path, is_list ? CW_ENTRY_LIST : CW_ENTRY_MAP, "", key_at.line,
                            key_at.column});
    r->frames[r->depth++] =
        (frame){.is_list = is_list, .is_flow = is_flow, .path = path, .opened = where};
}

static void open_document(reader *r, const yaml_event_t *event)
{
    const cw_pos where = place(r, event->start_mark);
    if (event->data.document_start.version_directive ||
        event->data.document_start.tag_directives.start !=
            event->data.document_start.tag_directives.end)
        fault(r, where, CW_E_SYNTAX,
              "'%' at the start of a line is a directive, which job files do not have; delete the "
              "line");
    if (++r->documents > 1) {
        fault(r, where, CW_E_SYNTAX,
              "a second document starts at this '---'; one file holds one job: delete the line or "
              "split "
              "the file");
        r->stopped = true;
    }
}

static void take_event(reader *r, const yaml_event_t *event)
{
    switch (event->type) {
    case YAML_DOCUMENT_START_EVENT:
        open_document(r, event);
        break;
    case YAML_SCALAR_EVENT:
        take_scalar(r, event);
        break;
    case YAML_MAPPING_START_EVENT:
        open_node(r, event, false);
        break;
    case YAML_SEQUENCE_START_EVENT:
        open_node(r, event, true);
        break;
    case YAML_MAPPING_END_EVENT:
    case YAML_SEQUENCE_END_EVENT:
        r->depth--;
        break;
    case YAML_ALIAS_EVENT:
        fault(r, place(r, event->start_mark), CW_E_SYNTAX,
              "'*' refers to an anchor, which job files do not have; put the value in quotes");
        r->stopped = true; // What it would stand for, key or value, is not known.
        break;
    default:
        break;
    }
}

/* libyaml ends every stream with one event, and the file's size bounds their number. */
static void read_events(reader *r, yaml_parser_t *parser)
{
    for (bool ended = false; !ended && !r->stopped;) {
        yaml_event_t event;
        if (!yaml_parser_parse(parser, &event)) {
            // A fault of ours that stands before it is its likely cause.
            if (r->faults == 0)
                cw_yaml_reword(&r->text, parser, r->diags);
            r->faults++;
            return;
        }
        take_event(r, &event);
        ended = event.type == YAML_STREAM_END_EVENT;
        yaml_event_delete(&event);
    }
}

static bool size_is_sound(reader *r)
{
    const size_t length = r->text.length;
    const cw_pos start = {r->text.file, NULL, 1, 1};
    const unsigned char *bytes = (const unsigned char *)r->text.bytes;
    if (length > CW_JOB_BYTES_MAX)
        cw_diag_add(
            r->diags, start, CW_E_TOO_MANY,
            "the file has %zu bytes, the limit is %d; a job has a few thousand: is this the "
            "right file?",
            length, CW_JOB_BYTES_MAX);
    else if (length >= 2 &&
             ((bytes[0] == 0xFF && bytes[1] == 0xFE) || (bytes[0] == 0xFE && bytes[1] == 0xFF)))
        cw_diag_add(r->diags, start, CW_E_SYNTAX,
                    "this is UTF-16 text; save the file with the encoding UTF-8");
    else
        return true;
    return false;
}

const cw_entries *cw_yaml_read(const char *bytes, size_t length, const char *file, cw_arena *arena,
                               cw_diags *diags)
{
    static const char mark[] = "\xEF\xBB\xBF";
    const bool has_mark = length >= sizeof mark - 1 && memcmp(bytes, mark, sizeof mark - 1) == 0;
    const size_t skipped = has_mark ? sizeof mark - 1 : 0;
    reader r = {.text = {.bytes = bytes + skipped, .length = length - skipped, .file = file},
                .arena = arena,
                .diags = diags};
    if (!size_is_sound(&r) || !cw_yaml_scan(&r.text, diags))
        return NULL;
    cw_yaml_find_lines(&r.text, arena);
    yaml_parser_t parser;
    if (!yaml_parser_initialize(&parser)) {
        cw_diag_add(diags, (cw_pos){file, NULL, 0, 0}, CW_E_FILE,
                    "no memory left to read the file; close other programs and try again");
        return NULL;
    }
    yaml_parser_set_encoding(&parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&parser, (const unsigned char *)r.text.bytes, r.text.length);
    read_events(&r, &parser);
    yaml_parser_delete(&parser);
    const bool is_empty = r.count == 0 || (r.count == 1 && r.items[0].kind == CW_ENTRY_SCALAR &&
                                           r.items[0].value[0] == '\0');
    if (r.faults == 0 && is_empty) {
        cw_diag_add(diags, (cw_pos){file, NULL, 1, 1}, CW_E_SYNTAX,
                    "the file is empty; 'culvertwright new FILE' writes a job to start from");
        return NULL;
    }
    if (r.faults > 0)
        return NULL;
    cw_entries *entries = CW_TAKE(arena, cw_entries, 1);
    *entries = (cw_entries){file, r.items, r.count};
    return entries;
}
