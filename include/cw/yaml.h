/** @file
 * Job text to entries: a strict subset of YAML 1.1 as read by libyaml.
 *
 * Taken: block and one-line maps and lists, plain or quoted scalars on one line, comments, one
 * document, CRLF, a byte order mark.  Refused, each with its place and a remedy: anchors, aliases,
 * tags, directives, scalars over several lines, several documents, tabs as indentation, control
 * characters, text that is not UTF-8, and more depth, entries or bytes than cw/job.h allows.
 * Scalars stay text: no word becomes a number, a date or a boolean. */
#ifndef CW_YAML_H
#define CW_YAML_H

#include <stddef.h>

#include "cw/arena.h"
#include "cw/diag.h"
#include "cw/job.h"

/** The entries of the @p length bytes at @p bytes, in the order of the file; the first is the file
 * itself (path ""). A key given twice makes two entries with one path.  Any fault of syntax goes to
 * @p diags and NULL is returned: what was read before it is not handed on.  @p file is kept, not
 * copied.  Everything lives in @p arena. */
const cw_entries *cw_yaml_read(const char *bytes, size_t length, const char *file, cw_arena *arena,
                               cw_diags *diags);

#endif
