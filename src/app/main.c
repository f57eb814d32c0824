#include <string.h>

#include "app.h"
#include "cw/text.h"

static void say_usage(FILE *stream)
{
    fprintf(stream, "culvertwright: from a job file to an accepted two-piece box culvert\n\n");
    for (int i = 0; cw_command_at(i); i++) {
        const cw_command *command = cw_command_at(i);
        fprintf(stream, "  culvertwright %-34s %s\n", cw_command_usage(command), command->does);
    }
    fprintf(stream, "\nA command followed by --help lists its options.\n"
                    "Exit codes: 0 everything holds, 1 fault in the input, 2 something fails, 3 something is undecided.\n");
}

/* The command's own reader of options prints them after this line. */
static bool asks_help(int count, char **arguments)
{
    for (int i = 2; i < count; i++)
        if (strcmp(arguments[i], "--help") == 0 || strcmp(arguments[i], "-h") == 0)
            return true;
    return false;
}

int main(int count, char **arguments)
{
    if (count < 2) {
        say_usage(stderr);
        return CW_EXIT_INPUT;
    }
    const char *word = arguments[1];
    if (strcmp(word, "help") == 0 || strcmp(word, "--help") == 0 || strcmp(word, "-h") == 0) {
        say_usage(stdout);
        return CW_EXIT_HOLDS;
    }
    if (strcmp(word, "--version") == 0) {
        printf("culvertwright %s\n", cw_version());
        return CW_EXIT_HOLDS;
    }
    const char *names[32];
    int known = 0;
    for (; cw_command_at(known); known++) {
        const cw_command *command = cw_command_at(known);
        if (strcmp(command->name, word) == 0) {
            if (asks_help(count, arguments))
                printf("culvertwright %s: %s\n", cw_command_usage(command), command->does);
            return (int)command->run(count - 2, arguments + 2);
        }
        names[known] = command->name;
    }
    const char *nearest = cw_text_nearest(word, names, known);
    fprintf(stderr, "culvertwright: \"%s\" is no command; ", word);
    if (nearest)
        fprintf(stderr, "did you mean %s?\n", nearest);
    else
        fprintf(stderr, "culvertwright help lists them\n");
    return CW_EXIT_INPUT;
}
