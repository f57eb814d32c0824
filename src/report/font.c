#include "cw/font.h"

#include <stddef.h>
#include <string.h>

typedef struct glyph {
    unsigned code;
    short width[2]; /* regular, bold; thousandths of the size */
} glyph;

static const glyph glyphs[] = {
#include "font_widths.inc"
};

enum { GLYPHS = sizeof glyphs / sizeof glyphs[0], UNKNOWN_WIDTH = 600, REPLACEMENT = 0xFFFD };

unsigned cw_utf8_next(const char **at)
{
    const unsigned char *p = (const unsigned char *)*at;
    if (*p == 0)
        return 0;
    if (*p < 0x80) {
        *at += 1;
        return *p;
    }
    const int more = *p >= 0xF0 && *p < 0xF8   ? 3
                     : *p >= 0xE0 && *p < 0xF0 ? 2
                     : *p >= 0xC2 && *p < 0xE0 ? 1
                                               : 0;
    unsigned code = *p & (more == 3 ? 0x07u : more == 2 ? 0x0Fu : 0x1Fu);
    for (int i = 1; i <= more; i++) {
        if ((p[i] & 0xC0u) != 0x80u) {
            *at += 1;
            return REPLACEMENT;
        }
        code = (code << 6) | (p[i] & 0x3Fu);
    }
    *at += more + 1;
    return more ? code : REPLACEMENT;
}

static const glyph *glyph_of(unsigned code)
{
    int low = 0, high = GLYPHS - 1;
    while (low <= high) {
        const int middle = (low + high) / 2;
        if (glyphs[middle].code == code)
            return &glyphs[middle];
        if (glyphs[middle].code < code)
            low = middle + 1;
        else
            high = middle - 1;
    }
    return NULL;
}

static int width_of(unsigned code, cw_font_weight weight)
{
    const glyph *found = glyph_of(code);
    return found ? found->width[weight == CW_FONT_BOLD] : UNKNOWN_WIDTH;
}

static double width_of_bytes(const char *text, const char *end, double size_pt,
                             cw_font_weight weight)
{
    long thousandths = 0;
    while (text < end)
        thousandths += width_of(cw_utf8_next(&text), weight);
    return size_pt * (double)thousandths / 1000.0;
}

double cw_font_width_pt(const char *text, double size_pt, cw_font_weight weight)
{
    return width_of_bytes(text, text + strlen(text), size_pt, weight);
}

bool cw_font_knows(const char *text)
{
    for (unsigned code = cw_utf8_next(&text); code; code = cw_utf8_next(&text)) {
        if (code != '\n' && !glyph_of(code))
            return false;
    }
    return true;
}

/* True for signs that stay with the number before them. */
static bool clings(const char *text)
{
    return *text == '%' || strncmp(text, "°", strlen("°")) == 0;
}

/* End of the first line of @p text: the last break that fits, or as many characters as fit. */
static const char *line_end(const char *text, double size_pt, cw_font_weight weight,
                            double width_pt)
{
    const double limit = width_pt * 1000.0 / size_pt;
    const char *last_space = NULL, *at = text;
    double used = 0;
    while (*at && *at != '\n') {
        const char *here = at;
        const unsigned code = cw_utf8_next(&at);
        if (code == ' ' && !clings(at))
            last_space = here;
        used += width_of(code, weight);
        // A space may hang over the edge; anything else breaks the line.
        if (used > limit + 0.5 && code != ' ')
            return last_space && last_space > text ? last_space : here > text ? here : at;
    }
    return at;
}

const char *const *cw_font_wrap(cw_arena *arena, const char *text, double size_pt,
                                cw_font_weight weight, double width_pt, int *count)
{
    /* Most cells and titles are one line that fits: no copy then. */
    const size_t length = strlen(text);
    if (!strchr(text, '\n') && (length == 0 || text[length - 1] != ' ') &&
        cw_font_width_pt(text, size_pt, weight) <= width_pt) {
        const char **only = CW_TAKE(arena, const char *, 1);
        *only = text;
        *count = 1;
        return only;
    }
    int capacity = 4;
    const char **lines = CW_TAKE(arena, const char *, capacity);
    *count = 0;
    bool more = true;
    while (more) {
        const char *end = line_end(text, size_pt, weight, width_pt);
        const char *last = end;
        while (last > text && last[-1] == ' ')
            last--;
        if (*count == capacity) {
            lines =
                cw_arena_grow(arena, lines, (size_t)*count, (size_t)capacity * 2, sizeof *lines);
            capacity *= 2;
        }
        lines[(*count)++] = cw_arena_copy(arena, text, (size_t)(last - text));
        more = *end != '\0';
        if (*end == '\n') {
            text = end + 1;
        } else {
            while (*end == ' ')
                end++;
            more = *end != '\0';
            text = end;
            if (*end == '\n')
                text = end + 1;
        }
    }
    return lines;
}

const char *cw_font_shorten(cw_arena *arena, const char *text, double size_pt,
                            cw_font_weight weight, double width_pt)
{
    if (cw_font_width_pt(text, size_pt, weight) <= width_pt)
        return text;
    const double room = width_pt - cw_font_width_pt("…", size_pt, weight);
    const char *at = text, *fits = text;
    double used = 0;
    while (*at) {
        used += size_pt * width_of(cw_utf8_next(&at), weight) / 1000.0;
        if (used > room)
            break;
        fits = at;
    }
    return cw_arena_print(arena, "%.*s…", (int)(fits - text), text);
}
