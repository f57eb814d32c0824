/* libFuzzer driver of cw_quantity_parse and the printers: every dimension on each input.
 * Invariants: OK implies a finite value at offset 0; a refusal points into the text; what
 * cw_quantity_write makes of a value that was read is read again, to 1e-12 of it; what
 * cw_quantity_format makes is read. */
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "cw/quantity.h"

enum { TEXT_MAX = 4096 };

static const double write_tolerance = 1e-12;
/* Printed rounding may carry a value over the bound of what is read, so that only smaller ones are
 * tried. */
static const double printed_max = 1e11;

static void require(bool holds)
{
    if (!holds)
        abort();
}

static void check_value(cw_arena *arena, double value, cw_dim dim)
{
    const char *written = cw_quantity_write(arena, value, dim);
    const cw_parsed back = cw_quantity_parse(written, dim);
    require(back.status == CW_PARSE_OK);
    require(fabs(back.value - value) <= write_tolerance * fabs(value));
    for (int system = CW_US; system <= CW_SI; system++) {
        const char *printed = cw_quantity_format(arena, value, dim, (cw_unit_system)system);
        require(strncmp(printed, "-0 ", 3) != 0);
        if (fabs(value) < printed_max)
            require(cw_quantity_parse(printed, dim).status == CW_PARSE_OK);
    }
}

/* Printers must hold for any bits a double can have. */
static void print_any(cw_arena *arena, const uint8_t *data)
{
    double value;
    memcpy(&value, data, sizeof value);
    for (int dim = 0; dim < (int)CW_DIM_LIMIT; dim++) {
        require(strlen(cw_quantity_format(arena, value, (cw_dim)dim, CW_US)) > 0);
        require(strlen(cw_quantity_format(arena, value, (cw_dim)dim, CW_SI)) > 0);
        require(strlen(cw_quantity_write(arena, value, (cw_dim)dim)) > 0);
    }
    for (int decimals = 0; decimals <= 6; decimals++)
        require(strlen(cw_decimal(arena, value, decimals)) > 0);
    for (int denominator = 1; denominator <= 64; denominator *= 2)
        require(strlen(cw_feet_inches(arena, value, denominator)) > 0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size >= TEXT_MAX)
        return 0;
    cw_arena arena = cw_arena_on(NULL);
    const char *text = cw_arena_copy(&arena, (const char *)data, size);
    for (int dim = 0; dim < (int)CW_DIM_LIMIT; dim++) {
        const cw_parsed got = cw_quantity_parse(text, (cw_dim)dim);
        require(got.at <= strlen(text));
        if (got.status != CW_PARSE_OK)
            continue;
        require(got.at == 0 && isfinite(got.value));
        check_value(&arena, got.value, (cw_dim)dim);
    }
    if (size >= sizeof(double))
        print_any(&arena, data);
    cw_arena_release(&arena);
    return 0;
}
