/* The bytes of a job file before libyaml sees them. */
#include "yaml_internal.h"

#include <string.h>

enum { SCAN_FAULTS_MAX = 20 };

/** Where the scan stands. */
typedef struct scan {
    const unsigned char *at, *end;
    int line, column;
} scan;

/* Length of the well-formed UTF-8 character at p, 0 when there is none (Unicode 15, table 3-7). */
static int character_length(const unsigned char *p, const unsigned char *end)
{
    static const struct {
        unsigned char first, last, second_low, second_high;
        int length;
    } forms[] = {
        {0x00, 0x7F, 0x00, 0x00, 1}, {0xC2, 0xDF, 0x80, 0xBF, 2}, {0xE0, 0xE0, 0xA0, 0xBF, 3},
        {0xE1, 0xEC, 0x80, 0xBF, 3}, {0xED, 0xED, 0x80, 0x9F, 3}, {0xEE, 0xEF, 0x80, 0xBF, 3},
        {0xF0, 0xF0, 0x90, 0xBF, 4}, {0xF1, 0xF3, 0x80, 0xBF, 4}, {0xF4, 0xF4, 0x80, 0x8F, 4},
    };
    for (size_t i = 0; i < sizeof forms / sizeof forms[0]; i++) {
        if (*p < forms[i].first || *p > forms[i].last)
            continue;
        if (end - p < forms[i].length)
            return 0;
        if (forms[i].length > 1 && (p[1] < forms[i].second_low || p[1] > forms[i].second_high))
            return 0;
        for (int k = 2; k < forms[i].length; k++)
            if (p[k] < 0x80 || p[k] > 0xBF)
                return 0;
        return forms[i].length;
    }
    return 0;
}

static unsigned code_point(const unsigned char *p, int length)
{
    static const unsigned char first_mask[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    unsigned code = p[0] & first_mask[length];
    for (int k = 1; k < length; k++)
        code = code << 6 | (p[k] & 0x3Fu);
    return code;
}

/* Characters that show nothing or that libyaml counts as a line break where editors do not. */
static bool is_unseen(unsigned code)
{
    return (code < 0x20 && code != '\t' && code != '\n' && code != '\r') ||
           (code >= 0x7F && code < 0xA0) || code == 0x2028 || code == 0x2029 || code == 0xFEFF ||
           code == 0xFFFE || code == 0xFFFF;
}

/* A tab among the blanks and dashes at the start of a line, even of an empty one: libyaml takes it
 * for indentation. */
static bool tab_indents(const unsigned char *p, const unsigned char *end)
{
    for (; p < end; p++) {
        const bool dash = *p == '-' && p + 1 < end && (p[1] == ' ' || p[1] == '\t');
        if (*p == '\t')
            return true;
        if (*p != ' ' && !dash)
            return false;
    }
    return false;
}

static void skip_line(scan *s)
{
    while (s->at < s->end && *s->at != '\n' && *s->at != '\r')
        s->at++;
}

/* True when the character was sound and the scan moved past it. */
static bool step(scan *s, cw_pos where, cw_diags *diags)
{
    const int length = character_length(s->at, s->end);
    if (length == 0) {
        cw_diag_add(diags, where, CW_E_SYNTAX,
                    "byte 0x%02X is not UTF-8 text; save the file with the encoding UTF-8",
                    (unsigned)*s->at);
        return false;
    }
    const unsigned code = code_point(s->at, length);
    if (is_unseen(code)) {
        cw_diag_add(diags, where, CW_E_SYNTAX,
                    "character U+%04X does not show and does not belong in a job file; delete it",
                    code);
        return false;
    }
    s->at += length;
    s->column++;
    if (code == '\n' || (code == '\r' && (s->at == s->end || *s->at != '\n'))) {
        s->line++;
        s->column = 1;
    }
    return true;
}

bool cw_yaml_scan(const cw_yaml_text *text, cw_diags *diags)
{
    const unsigned char *bytes = (const unsigned char *)text->bytes;
    scan s = {bytes, bytes + text->length, 1, 1};
    int faults = 0;
    while (s.at < s.end && faults < SCAN_FAULTS_MAX) {
        const cw_pos where = {text->file, NULL, s.line, s.column};
        if (s.column == 1 && tab_indents(s.at, s.end)) {
            cw_diag_add(
                diags, where, CW_E_SYNTAX,
                "a tab stands at the start of this line; indent with spaces, two for each level");
            faults++;
            skip_line(&s);
            s.column = 2; // So that the line is not looked at again when it is the last one.
        } else if (!step(&s, where, diags)) {
            faults++;
            skip_line(&s);
        }
    }
    return faults == 0;
}

static bool breaks_line(const cw_yaml_text *text, size_t i)
{
    return text->bytes[i] == '\n' ||
           (text->bytes[i] == '\r' && (i + 1 == text->length || text->bytes[i + 1] != '\n'));
}

void cw_yaml_find_lines(cw_yaml_text *text, cw_arena *arena)
{
    int count = 1;
    for (size_t i = 0; i < text->length; i++)
        count += breaks_line(text, i);
    int *starts = CW_TAKE(arena, int, count + 1);
    int found = 1;
    for (size_t i = 0; i < text->length; i++)
        if (breaks_line(text, i))
            starts[found++] = (int)i + 1;
    starts[count] = (int)text->length;
    text->line_starts = starts;
    text->line_count = count;
}

cw_yaml_line cw_yaml_line_at(const cw_yaml_text *text, int line)
{
    if (line < 1 || line > text->line_count)
        return (cw_yaml_line){"", 0, 0};
    const char *p = text->bytes + text->line_starts[line - 1];
    cw_yaml_line found = {p, text->line_starts[line] - text->line_starts[line - 1], 0};
    while (found.length > 0 && (p[found.length - 1] == '\n' || p[found.length - 1] == '\r'))
        found.length--;
    while (found.indent < found.length &&
           (p[found.indent] == ' ' || (p[found.indent] == '-' && found.indent + 1 < found.length &&
                                       p[found.indent + 1] == ' ')))
        found.indent++;
    return found;
}

int cw_yaml_byte_of(cw_yaml_line line, size_t column, size_t from_column, int from)
{
    int offset = from;
    for (size_t at = from_column; offset < line.length && at < column; at++)
        for (offset++; offset < line.length && (line.start[offset] & 0xC0) == 0x80;)
            offset++;
    return offset;
}

int cw_yaml_tight_colon(cw_yaml_line line)
{
    int i = line.indent;
    while (i < line.length &&
           ((line.start[i] >= 'a' && line.start[i] <= 'z') ||
            (line.start[i] >= 'A' && line.start[i] <= 'Z') || line.start[i] == '_'))
        i++;
    const bool tight = i > line.indent && i + 1 < line.length && line.start[i] == ':' &&
                       line.start[i + 1] != ' ' && line.start[i + 1] != '\t' &&
                       line.start[i + 1] != '/';
    return tight ? i : -1;
}
