/* writer.c: the one way out. Invariant: once `failure` is set nothing more is written and close reports it. */
#include "base/base.h"

#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { BUFFER_BYTES = 1 << 16 };

struct sw_writer {
    int descriptor;    /* -1: memory */
    bool owned;        /* close the descriptor */
    char *path, *part; /* file writers: final and working name */
    char *bytes;       /* buffer of a file, whole text of memory */
    size_t used, room;
    int failure; /* errno of the first failure, 0 = none */
};

static sw_status made(sw_run *run, int descriptor, sw_writer **writer)
{
    sw_writer *w = calloc(1, sizeof *w);
    char *bytes = malloc(BUFFER_BYTES);
    *writer = w;
    if (w == NULL || bytes == NULL) {
        free(w);
        free(bytes);
        *writer = NULL;
        return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for a writer");
    }
    w->descriptor = descriptor;
    w->bytes = bytes;
    w->room = BUFFER_BYTES;
    return SW_OK;
}

sw_status sw_writer_to_memory(sw_run *run, sw_writer **writer)
{
    return made(run, -1, writer);
}
sw_status sw_writer_to_stream(sw_run *run, int descriptor, sw_writer **writer)
{
    return made(run, descriptor, writer);
}

static char *joined(const char *a, const char *b)
{
    size_t n = strlen(a), m = strlen(b) + 1;
    char *text = malloc(n + m);
    if (text == NULL) return NULL;
    memcpy(text, a, n);
    memcpy(text + n, b, m);
    return text;
}

sw_status sw_writer_to_file(sw_run *run, const char *path, sw_writer **writer)
{
    SW_TRY(made(run, -1, writer));
    sw_writer *w = *writer;
    SW_ASSERT(w != NULL);
    w->owned = true;
    w->path = joined(path, "");
    w->part = joined(path, ".part");
    if (w->path != NULL && w->part != NULL)
        w->descriptor = open(w->part, O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
    if (w->descriptor >= 0) return SW_OK;
    int reason = w->part == NULL ? ENOMEM : errno;
    sw_writer_abandon(w);
    *writer = NULL;
    return sw_fail(run, SW_IO, (sw_place){.file = NULL}, path, "cannot be written: %s; choose another place with --out",
                   strerror(reason));
}

static void flush(sw_writer *w)
{
    size_t done = 0;
    while (w->failure == 0 && done < w->used) {
        ssize_t n = write(w->descriptor, w->bytes + done, w->used - done);
        if (n >= 0)
            done += (size_t)n;
        else if (errno != EINTR)
            w->failure = errno;
    }
    w->used = 0;
}

static bool room_for(sw_writer *w, size_t length)
{
    if (length <= w->room - w->used) return true;
    if (w->descriptor >= 0 || w->owned) flush(w);
    if (length <= w->room - w->used) return true;
    size_t wanted = w->room;
    while (wanted - w->used < length) {
        if (wanted > SIZE_MAX / 2) return false;
        wanted *= 2;
    }
    char *larger = realloc(w->bytes, wanted);
    if (larger == NULL) return false;
    w->bytes = larger;
    w->room = wanted;
    return true;
}

char *sw_write_room(sw_writer *writer, size_t most)
{
    if (writer->failure != 0) return NULL;
    if (most <= writer->room - writer->used || room_for(writer, most)) return writer->bytes + writer->used;
    writer->failure = ENOMEM;
    return NULL;
}

void sw_wrote(sw_writer *writer, size_t length)
{
    SW_ASSERT(length <= writer->room - writer->used);
    writer->used += length;
}

void sw_write(sw_writer *writer, const void *bytes, size_t length)
{
    char *room = length == 0 ? NULL : sw_write_room(writer, length);
    if (room == NULL) return;
    memcpy(room, bytes, length);
    writer->used += length;
}

void sw_write_text(sw_writer *writer, const char *text)
{
    sw_write(writer, text, strlen(text));
}

void sw_print(sw_writer *writer, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    char text[512];
    int length = vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    if (length < 0) writer->failure = writer->failure == 0 ? EINVAL : writer->failure;
    if (length >= 0 && (size_t)length < sizeof text) sw_write(writer, text, (size_t)length);
    if (length < 0 || (size_t)length < sizeof text) return;
    char *longer = malloc((size_t)length + 1);
    if (longer == NULL) {
        writer->failure = writer->failure == 0 ? ENOMEM : writer->failure;
        return;
    }
    va_start(arguments, format);
    (void)vsnprintf(longer, (size_t)length + 1, format, arguments);
    va_end(arguments);
    sw_write(writer, longer, (size_t)length);
    free(longer);
}

void sw_print_cell(sw_writer *writer, int width, int decimals, double value)
{
    if (!isfinite(value))
        sw_print(writer, " %*s", width, "-");
    else if (decimals < 0)
        sw_print(writer, " %*.*g", width, -decimals, value);
    else
        sw_print(writer, " %*.*f", width, decimals, value);
}

void sw_writer_abandon(sw_writer *writer)
{
    if (writer == NULL) return;
    if (writer->owned && writer->descriptor >= 0) {
        (void)close(writer->descriptor);
        (void)unlink(writer->part);
    }
    free(writer->path);
    free(writer->part);
    free(writer->bytes);
    free(writer);
}

static void publish(sw_writer *w)
{
    if (close(w->descriptor) != 0 && w->failure == 0) w->failure = errno;
    w->descriptor = -1;
    if (w->failure == 0 && rename(w->part, w->path) != 0) w->failure = errno;
    if (w->failure != 0) (void)unlink(w->part);
}

sw_status sw_writer_close(sw_run *run, sw_writer *writer)
{
    if (writer->descriptor >= 0) flush(writer);
    if (writer->owned) publish(writer);
    sw_status status = SW_OK;
    if (writer->failure != 0)
        status = sw_fail(run, writer->failure == ENOMEM ? SW_NO_MEMORY : SW_IO, (sw_place){0},
                         writer->path == NULL ? "output" : writer->path,
                         "cannot be written: %s; nothing of it was kept", strerror(writer->failure));
    sw_writer_abandon(writer);
    return status;
}

sw_status sw_writer_take(sw_run *run, sw_writer *writer, const char **text, size_t *length)
{
    SW_ASSERT(writer->descriptor < 0 && !writer->owned);
    *text = NULL;
    *length = writer->used;
    char *copy = writer->failure == 0 ? sw_keep(run, writer->used + 1, 1) : NULL;
    if (copy != NULL) memcpy(copy, writer->bytes, writer->used);
    *text = copy;
    sw_status status = SW_OK;
    if (copy == NULL)
        status =
            writer->failure == 0 ? SW_NO_MEMORY : sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory for a text");
    sw_writer_abandon(writer);
    return status;
}
