/** @file
 * Writing JSON: one growing text, commas and escapes taken care of. */
#ifndef CW_JSON_H
#define CW_JSON_H

#include <stdbool.h>

#include "cw/text.h"

enum { CW_JSON_DEPTH_MAX = 32 };

typedef struct cw_json {
    cw_text text;
    int depth;
    bool has_items[CW_JSON_DEPTH_MAX]; /**< whether the open object or list holds something already */
} cw_json;

cw_json cw_json_on(cw_arena *arena);

/** Open and close; @p key is NULL inside a list and at the top. */
void cw_json_open(cw_json *json, const char *key);
void cw_json_close(cw_json *json);
void cw_json_open_list(cw_json *json, const char *key);
void cw_json_close_list(cw_json *json);

/** NULL text becomes null. */
void cw_json_text(cw_json *json, const char *key, const char *text);
/** 15 significant digits, enough to tell values apart that differ by more than rounding; not finite becomes null. */
void cw_json_number(cw_json *json, const char *key, double value);
void cw_json_count(cw_json *json, const char *key, long value);
void cw_json_flag(cw_json *json, const char *key, bool value);

/** The finished text. @pre everything is closed. */
const char *cw_json_string(cw_json *json);

#endif
