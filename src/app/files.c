#define _POSIX_C_SOURCE 200809L
#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "app.h"

static void *app_obtain(void *self, size_t bytes)
{
    (void)self;
    return malloc(bytes);
}

static void app_give_back(void *self, void *block)
{
    (void)self;
    free(block);
}

static void app_exhausted(void *self, size_t bytes)
{
    (void)self;
    fprintf(stderr, "culvertwright: out of memory (%zu bytes asked); nothing was written\n", bytes);
    exit(CW_EXIT_INPUT);
}

const cw_memory cw_app_memory = {app_obtain, app_give_back, app_exhausted, NULL};

static char *read_stream(FILE *stream, size_t limit, size_t *length, cw_arena *arena)
{
    size_t capacity = 64 * 1024, used = 0;
    char *data = cw_arena_take(arena, capacity + 1, 1);
    for (;;) {
        const size_t got = fread(data + used, 1, capacity - used, stream);
        used += got;
        if (used < capacity || used > limit)
            break;
        capacity *= 2;
        data = cw_arena_grow(arena, data, used, capacity + 1, 1);
    }
    data[used] = '\0';
    *length = used;
    return data;
}

char *cw_file_read(const char *path, size_t limit, size_t *length, cw_pos at, cw_arena *arena,
                   cw_diags *diags)
{
    const bool standard = strcmp(path, "-") == 0;
    FILE *stream = standard ? stdin : fopen(path, "rb");
    if (!stream) {
        cw_diag_add(diags, at, CW_E_FILE, "cannot open %s: %s; check the name and where it lies", path,
                    strerror(errno));
        return NULL;
    }
    errno = 0;
    char *data = read_stream(stream, limit, length, arena);
    const bool broken = ferror(stream) != 0;
    const int reason = errno;
    if (!standard)
        fclose(stream);
    if (broken) {
        cw_diag_add(diags, at, CW_E_FILE, "cannot read %s: %s; check that it is a plain file", path,
                    strerror(reason));
        return NULL;
    }
    if (*length > limit) {
        cw_diag_add(diags, at, CW_E_TOO_MANY, "%s has more than the %zu bytes that are read; split it", path,
                    limit);
        return NULL;
    }
    return data;
}

bool cw_output_open(cw_output *output, const char *path, cw_arena *arena, cw_diags *diags)
{
    *output = (cw_output){.path = path, .stream = stdout};
    if (strcmp(path, "-") == 0)
        return true;
    char *temporary = cw_arena_print(arena, "%s.part-XXXXXX", path);
    const int descriptor = mkstemp(temporary);
    output->stream = descriptor >= 0 ? fdopen(descriptor, "wb") : NULL;
    if (!output->stream) {
        cw_diag_add(diags, (cw_pos){0}, CW_E_FILE, "cannot write beside %s: %s; choose another folder", path,
                    strerror(errno));
        if (descriptor >= 0) {
            close(descriptor);
            unlink(temporary);
        }
        return false;
    }
    output->temporary = temporary;
    return true;
}

bool cw_output_close(cw_output *output, bool good, cw_arena *arena, cw_diags *diags)
{
    (void)arena;
    bool written = ferror(output->stream) == 0 && fflush(output->stream) == 0;
    if (!output->temporary) {
        if (!written)
            cw_diag_add(diags, (cw_pos){0}, CW_E_FILE, "cannot write to standard output: %s", strerror(errno));
        return written && good;
    }
    // mkstemp makes files private; a book is as readable as any other new file.
    const mode_t mask = umask(0);
    umask(mask);
    if (written && good)
        written = fsync(fileno(output->stream)) == 0 && fchmod(fileno(output->stream), 0666 & ~mask) == 0;
    if (fclose(output->stream) != 0)
        written = false;
    if (written && good && rename(output->temporary, output->path) == 0)
        return true;
    if (good)
        cw_diag_add(diags, (cw_pos){0}, CW_E_FILE, "cannot write %s: %s; nothing was left behind",
                    output->path, strerror(errno));
    unlink(output->temporary);
    return false;
}

void cw_diags_show(cw_diags *diags)
{
    cw_diags_sort(diags);
    for (int i = 0; i < diags->count; i++)
        fprintf(stderr, "%s\n", cw_diag_line(diags->arena, &diags->items[i]));
    if (diags->dropped > 0)
        fprintf(stderr, "and %d more; mend these first\n", diags->dropped);
}

bool cw_diags_stop(const cw_diags *diags)
{
    for (int i = 0; i < diags->count; i++)
        if (diags->items[i].code < CW_W_MEMORY)
            return true;
    return false;
}
