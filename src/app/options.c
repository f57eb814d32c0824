#include <stdlib.h>
#include <string.h>

#include "app.h"
#include "cw/text.h"

static const cw_option *option_named(const char *name, size_t length, const cw_option *options, int count)
{
    for (int i = 0; i < count; i++)
        if (strlen(options[i].name) == length && strncmp(options[i].name, name, length) == 0)
            return &options[i];
    return NULL;
}

static void say_unknown(const char *argument, const cw_option *options, int count)
{
    const char *names[16];
    int known = 0;
    for (; known < count && known < 16; known++)
        names[known] = options[known].name;
    const char *nearest = cw_text_nearest(argument, names, known);
    fprintf(stderr, "culvertwright: option %s is not known here", argument);
    if (nearest)
        fprintf(stderr, "; did you mean %s?", nearest);
    fprintf(stderr, "\n");
}

/* The options of a command, with what they take; the program ends here, well. */
static void show_help(const cw_option *options, int count)
{
    for (int i = 0; i < count; i++)
        printf("  %s%s%s\n        %s\n", options[i].name, options[i].value ? "  " : "",
               options[i].value ? options[i].value : "", options[i].meaning);
    exit(CW_EXIT_HOLDS);
}

int cw_options_read(int count, char **arguments, const cw_option *options, int option_count,
                    const char **words, int most)
{
    int word_count = 0;
    for (int i = 0; i < count; i++) {
        const char *argument = arguments[i];
        if (argument[0] != '-' || argument[1] == '\0') {
            if (word_count == most) {
                fprintf(stderr, "culvertwright: \"%s\" is one word too many\n", argument);
                return -1;
            }
            words[word_count++] = argument;
            continue;
        }
        if (strcmp(argument, "--help") == 0 || strcmp(argument, "-h") == 0)
            show_help(options, option_count);
        const char *equals = strchr(argument, '=');
        const size_t length = equals ? (size_t)(equals - argument) : strlen(argument);
        const cw_option *option = option_named(argument, length, options, option_count);
        if (!option) {
            say_unknown(argument, options, option_count);
            return -1;
        }
        if (!option->value) {
            if (equals) {
                fprintf(stderr, "culvertwright: option %s takes no value\n", option->name);
                return -1;
            }
            *option->text = option->name;
        } else if (equals) {
            *option->text = equals + 1;
        } else if (i + 1 < count) {
            *option->text = arguments[++i];
        } else {
            fprintf(stderr, "culvertwright: option %s needs its value: %s\n", option->name, option->value);
            return -1;
        }
    }
    return word_count;
}
