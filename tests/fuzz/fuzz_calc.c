/* Calculator arguments: the first byte picks the calculator, the rest are "key=value" lines.  What may run must give
 * finite results and a complete working, and must not crash whatever is typed. */
#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "cw/report.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must(bool held)
{
    if (!held)
        abort();
}

static void check_results(const cw_calc_answer *answer)
{
    for (int i = 0; i < answer->calc->output_count; i++) {
        const cw_field *field = &answer->calc->outputs[i];
        if (field->kind != CW_KIND_NUMBER)
            continue;
        double value;
        memcpy(&value, (const char *)answer->output + field->offset, sizeof value);
        must(isfinite(value));
    }
    for (int i = 0; i < answer->working.count; i++)
        must(answer->working.steps[i].source[0] != '\0');
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { VALUES_MAX = 40 };
    if (size < 2)
        return 0;
    cw_arena arena = cw_arena_on(NULL);
    cw_diags diags = cw_diags_on(&arena);
    const cw_calc *calc = cw_calcs_all.items[data[0] % cw_calcs_all.count];
    char *text = cw_arena_copy(&arena, (const char *)data + 1, size - 1);
    cw_calc_value values[VALUES_MAX];
    int count = 0;
    for (char *line = strtok(text, "\n"); line && count < VALUES_MAX; line = strtok(NULL, "\n")) {
        char *equals = strchr(line, '=');
        if (!equals)
            continue;
        *equals = '\0';
        values[count] = (cw_calc_value){line, equals + 1, {.file = "fuzz", .line = count + 1, .column = 1}};
        count++;
    }
    cw_calc_answer answer = {.calc = calc,
                             .input = cw_arena_take(&arena, calc->input_size, 1),
                             .output = cw_arena_take(&arena, calc->output_size, 1),
                             .given = CW_TAKE(&arena, bool, calc->input_count),
                             .working = cw_working_on(&arena, calc->title)};
    if (cw_calc_fill(calc, values, count, &cw_data, answer.input, answer.given, &arena, &diags)) {
        must(diags.count == 0);
        calc->run(answer.input, answer.output, &answer.working);
        check_results(&answer);
        cw_calc_text(&answer, CW_US, &arena);
        cw_calc_json(&answer, &arena);
    } else {
        must(diags.count > 0);
    }
    cw_arena_release(&arena);
    return 0;
}
