/* What the three files of the YAML reader share. */
#ifndef CW_APP_YAML_INTERNAL_H
#define CW_APP_YAML_INTERNAL_H

#include <stdbool.h>
#include <stddef.h>

#include <yaml.h>

#include "cw/yaml.h"

/** The file's bytes without a byte order mark. */
typedef struct cw_yaml_text {
    const char *bytes;
    size_t length;
    const char *file;
    const int *line_starts; /**< byte offsets, one past the last line too */
    int line_count;
} cw_yaml_text;

/** A line of it, without its line break. */
typedef struct cw_yaml_line {
    const char *start;
    int length; /**< bytes */
    int indent; /**< blanks and list dashes before its first other byte */
} cw_yaml_line;

/** Faults that libyaml would report badly or not at all: encoding, control characters, tabs. */
bool cw_yaml_scan(const cw_yaml_text *text, cw_diags *diags);

/** Find the lines, for cw_yaml_line_at(). */
void cw_yaml_find_lines(cw_yaml_text *text, cw_arena *arena);

/** The line with this number from 1; empty past the end. */
cw_yaml_line cw_yaml_line_at(const cw_yaml_text *text, int line);

/** Byte offset of the character @p column (from 0), counting on from the character @p from_column
 * at byte @p from. */
int cw_yaml_byte_of(cw_yaml_line line, size_t column, size_t from_column, int from);

/** Byte offset in @p line of a colon that lacks its space, as in "span:16 ft", or -1. */
int cw_yaml_tight_colon(cw_yaml_line line);

/** Report libyaml's own fault in our words, at its place. */
void cw_yaml_reword(const cw_yaml_text *text, const yaml_parser_t *parser, cw_diags *diags);

/** Report a scalar that goes on over the next line, by its likely cause. */
void cw_yaml_report_many_lines(const cw_yaml_text *text, const yaml_event_t *event, bool in_flow,
                               cw_pos opened, cw_diags *diags);

#endif
