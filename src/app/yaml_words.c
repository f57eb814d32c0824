/* The parser's faults in the words of this program: what stands there, and what to write instead.
 */
#include "yaml_internal.h"

#include <string.h>

static bool says(const char *text, const char *part)
{
    return text && strstr(text, part) != NULL;
}

static cw_pos place(const cw_yaml_text *text, yaml_mark_t mark)
{
    return (cw_pos){text->file, NULL, (int)mark.line + 1, (int)mark.column + 1};
}

static int byte_offset(cw_yaml_line line, yaml_mark_t mark)
{
    return cw_yaml_byte_of(line, mark.column, 0, 0);
}

/* The byte at the mark, or a blank at the end of the line. */
static char byte_at(const cw_yaml_text *text, yaml_mark_t mark)
{
    const cw_yaml_line line = cw_yaml_line_at(text, (int)mark.line + 1);
    const int offset = byte_offset(line, mark);
    return offset < line.length ? line.start[offset] : ' ';
}

/* At most so much of a line is quoted in a message. */
enum { QUOTED_MAX = 40 };

static int quoted_length(cw_yaml_line line)
{
    int length = line.length - line.indent;
    if (length <= QUOTED_MAX)
        return length;
    length = QUOTED_MAX;
    while (length > 0 && (line.start[line.indent + length] & 0xC0) == 0x80)
        length--;
    return length;
}

static void report_tight_colon(const cw_yaml_text *text, int number, int colon, cw_diags *diags)
{
    const cw_yaml_line line = cw_yaml_line_at(text, number);
    // Everything before the colon is ASCII, so its byte offset is its column.
    cw_diag_add(diags, (cw_pos){text->file, NULL, number, colon + 1}, CW_E_SYNTAX,
                "no space after the colon of '%.*s:'; write '%.*s: value'", colon - line.indent,
                line.start + line.indent, colon - line.indent, line.start + line.indent);
}

static void report_no_colon(const cw_yaml_text *text, int number, cw_diags *diags)
{
    const cw_yaml_line line = cw_yaml_line_at(text, number);
    cw_diag_add(diags, (cw_pos){text->file, NULL, number, line.indent + 1}, CW_E_SYNTAX,
                "no colon in '%.*s'; write 'key: value' with a colon and a space",
                quoted_length(line), line.start + line.indent);
}

static void reword_colon(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags)
{
    const int number = (int)parser->context_mark.line + 1;
    const int colon = cw_yaml_tight_colon(cw_yaml_line_at(text, number));
    if (colon >= 0)
        report_tight_colon(text, number, colon, diags);
    else
        report_no_colon(text, number, diags);
}

static void reword_key(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags)
{
    const yaml_mark_t mark = parser->problem_mark;
    const cw_yaml_line line = cw_yaml_line_at(text, (int)mark.line + 1);
    const int offset = byte_offset(line, mark);
    const cw_pos where = place(text, mark);
    const char here = byte_at(text, mark);
    int quote = offset - 1;
    while (quote > 0 && line.start[quote] == ' ')
        quote--;
    if (here == ':')
        cw_diag_add(diags, where, CW_E_SYNTAX,
                    "a key is missing before this colon; write 'key: value'");
    else if (offset > line.indent && line.start[quote] == '\'')
        cw_diag_add(
            diags, where, CW_E_SYNTAX,
            "text after the closing quote; put a value that holds an apostrophe between double "
            "quotes (feet and inches need none: 5'-10 3/4\")");
    else if (offset > line.indent)
        cw_diag_add(diags, where, CW_E_SYNTAX,
                    "text after the closing quote; put one pair of quotes around the whole value "
                    "(feet and inches need none: 5'-10 3/4\")");
    else if (here == ']' || here == '}' || here == ',')
        cw_diag_add(diags, where, CW_E_SYNTAX, "'%c' closes nothing here; delete it", here);
    else if (here == '-')
        cw_diag_add(diags, where, CW_E_SYNTAX,
                    "a list item stands among keys; indent it under the key of its list");
    else
        cw_diag_add(diags, where, CW_E_SYNTAX,
                    "this line is indented by %d, which fits no key above it; line it up with its "
                    "neighbours",
                    offset);
}

static void reword_flow(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags)
{
    const bool list = says(parser->problem, "']'");
    const char closing = list ? ']' : '}';
    const char *what = list ? "list" : "map";
    if (parser->problem_mark.line == parser->context_mark.line)
        cw_diag_add(diags, place(text, parser->problem_mark), CW_E_SYNTAX,
                    "',' or '%c' is missing here in the %s that opens in column %d", closing, what,
                    (int)parser->context_mark.column + 1);
    else
        cw_diag_add(diags, place(text, parser->context_mark), CW_E_SYNTAX,
                    "the %s that opens here is not closed; add '%c'", what, closing);
}

static void reword_start(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags)
{
    const char here = byte_at(text, parser->problem_mark);
    if (here == '\t')
        cw_diag_add(diags, place(text, parser->problem_mark), CW_E_SYNTAX,
                    "a tab stands where a value starts; use a space");
    else
        cw_diag_add(diags, place(text, parser->problem_mark), CW_E_SYNTAX,
                    "'%c' cannot start a value; put the value in quotes", here);
}

static void reword_second_colon(const cw_yaml_text *text, const yaml_parser_t *parser,
                                cw_diags *diags)
{
    const cw_yaml_line line = cw_yaml_line_at(text, (int)parser->problem_mark.line + 1);
    const int offset = byte_offset(line, parser->problem_mark);
    bool second = false;
    for (int i = line.indent; i < offset; i++)
        second = second || line.start[i] == ':';
    if (second)
        cw_diag_add(
            diags, place(text, parser->problem_mark), CW_E_SYNTAX,
            "a second colon in this line; one line holds one 'key: value', and a value that "
            "itself holds a colon and a space needs quotes");
    else
        cw_diag_add(diags, place(text, parser->problem_mark), CW_E_SYNTAX,
                    "no key can stand here; finish the line above or line this one up with its "
                    "neighbours");
}

static void reword_missing_value(const cw_yaml_text *text, const yaml_parser_t *parser,
                                 cw_diags *diags)
{
    const char here = byte_at(text, parser->problem_mark);
    if (here == ' ')
        cw_diag_add(
            diags, place(text, parser->problem_mark), CW_E_SYNTAX,
            "a value is missing here; write it, or close the ']' or '}' that is open above");
    else
        cw_diag_add(diags, place(text, parser->problem_mark), CW_E_SYNTAX,
                    "'%c' stands where a value belongs; write the value, or quote it when it "
                    "starts so",
                    here);
}

static void reword_escape(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags)
{
    cw_diag_add(diags, place(text, parser->problem_mark), CW_E_SYNTAX,
                "a backslash between double quotes starts a code, and this is none; write two "
                "backslashes or use single quotes");
}

static void reword_quote(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags)
{
    cw_diag_add(diags, place(text, parser->context_mark), CW_E_SYNTAX,
                "the quote that opens here is not closed; add the closing quote at the end of the "
                "value (feet and inches need none: 5'-10 3/4\")");
}

/* One row for each fault of libyaml 0.2.5 that this subset can meet: a part of its problem or
 * context text, and either our sentence or the function that makes one.  The first row that fits
 * counts. */
typedef struct rewording {
    const char *problem, *context;
    bool at_context;
    const char *sentence;
    void (*make)(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags);
} rewording;

static const rewording rewordings[] = {
    {"could not find expected ':'", NULL, false, NULL, reword_colon},
    {"did not find expected key", NULL, false, NULL, reword_key},
    {"did not find expected ',' or", NULL, false, NULL, reword_flow},
    {"mapping values are not allowed", NULL, false, NULL, reword_second_colon},
    {"cannot start any token", NULL, false, NULL, reword_start},
    {"expected node content", NULL, false, NULL, reword_missing_value},
    {"escape character", NULL, false, NULL, reword_escape},
    {"hexdecimal", NULL, false, NULL, reword_escape},
    {"escape code", NULL, false, NULL, reword_escape},
    {NULL, "quoted scalar", false, NULL, reword_quote},
    {NULL, "anchor", true,
     "'&' starts the name of an anchor, which job files do not have; put the value in quotes",
     NULL},
    {NULL, "alias", true,
     "'*' refers to an anchor, which job files do not have; put the value in quotes", NULL},
    {NULL, "tag", true, "'!' starts a tag, which job files do not have; put the value in quotes",
     NULL},
    {NULL, "directive", true,
     "'%' at the start of a line is a directive, which job files do not have; "
     "delete the line",
     NULL},
    {NULL, "block scalar", true,
     "text over several lines is not taken; write the value on one line, in quotes", NULL},
    {"block sequence entries", NULL, false,
     "'- ' starts a list item, which cannot stand behind a key; start the list on the next line, "
     "or "
     "quote the text",
     NULL},
    {"expected '-' indicator", NULL, false,
     "a key stands among list items; start it with '- ' or line it up with the keys of an item",
     NULL},
    {"mapping keys are not allowed", NULL, false,
     "'? ' cannot start a value; put the value in quotes", NULL},
    {"<document start>", NULL, false, "text after the end of the job; one file holds one job",
     NULL},
};

void cw_yaml_reword(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags)
{
    for (size_t i = 0; i < sizeof rewordings / sizeof rewordings[0]; i++) {
        const rewording *row = &rewordings[i];
        if ((row->problem && !says(parser->problem, row->problem)) ||
            (row->context && !says(parser->context, row->context)))
            continue;
        if (row->make)
            row->make(text, parser, diags);
        else
            cw_diag_add(diags,
                        place(text, row->at_context ? parser->context_mark : parser->problem_mark),
                        CW_E_SYNTAX, "%s", row->sentence);
        return;
    }
    cw_diag_add(diags, place(text, parser->problem_mark), CW_E_SYNTAX,
                "not well formed here (%s); compare it with a fresh file of 'culvertwright new'",
                parser->problem ? parser->problem : "no reason given");
}

void cw_yaml_report_many_lines(const cw_yaml_text *text, const yaml_event_t *event, bool in_flow,
                               cw_pos opened, cw_diags *diags)
{
    const int first = (int)event->start_mark.line + 1, last = (int)event->end_mark.line + 1;
    const cw_yaml_line line = cw_yaml_line_at(text, first), next = cw_yaml_line_at(text, last);
    const bool plain = event->data.scalar.style == YAML_PLAIN_SCALAR_STYLE;
    const bool starts_line = byte_offset(line, event->start_mark) == line.indent;
    const int colon = cw_yaml_tight_colon(line);
    bool next_has_key = false;
    for (int i = next.indent; i < next.length; i++)
        next_has_key = next_has_key || next.start[i] == ':';
    if (in_flow)
        cw_diag_add(
            diags, opened, CW_E_SYNTAX,
            "what opens here is not closed on its line; add ']' or '}', or quote the value");
    else if (!plain && next_has_key)
        cw_diag_add(
            diags, place(text, event->start_mark), CW_E_SYNTAX,
            "the quote that opens here is not closed on its line; add the closing quote at the "
            "end of the value");
    else if (plain && starts_line && colon >= 0)
        report_tight_colon(text, first, colon, diags);
    else if (plain && starts_line)
        report_no_colon(text, first, diags);
    else if (plain && next_has_key)
        cw_diag_add(diags, (cw_pos){text->file, NULL, last, next.indent + 1}, CW_E_SYNTAX,
                    "this line is indented deeper than the value above allows; line it up with its "
                    "neighbours");
    else
        cw_diag_add(diags, place(text, event->start_mark), CW_E_SYNTAX,
                    "this value goes on over %d lines; write it on one line", last - first + 1);
}
