#include "base/base.h"

#include <stdio.h>
#include <string.h>

sw_status sw_run_open(sw_run *run, size_t ceiling_bytes)
{
    memset(run, 0, sizeof *run);
    run->threads = 1;
    run->keep = sw_arena_open(ceiling_bytes);
    run->scratch = sw_arena_open(ceiling_bytes);
    if (run->keep != NULL && run->scratch != NULL) return SW_OK;
    sw_run_close(run);
    return SW_NO_MEMORY;
}

void sw_run_close(sw_run *run)
{
    sw_arena_close(run->keep);
    sw_arena_close(run->scratch);
    memset(run, 0, sizeof *run);
}

void sw_run_clear_errors(sw_run *run)
{
    run->error_count = 0;
}

bool sw_run_cancelled(const sw_run *run)
{
    return run->cancel != NULL && atomic_load(run->cancel) != 0;
}

void sw_run_progress(const sw_run *run, const char *task, double done, double total, const char *note)
{
    if (run->on_progress == NULL) return;
    sw_progress progress = {.task = task, .done = done, .total = total, .note = note};
    run->on_progress(run->progress_context, &progress);
}

static const char *kept_text(sw_run *run, const char *text)
{
    size_t length = strlen(text) + 1;
    char *copy = sw_arena_take(run->keep, length, 1);
    return copy == NULL ? "(no memory left for the message)" : memcpy(copy, text, length);
}

/* Without bytes that are no UTF-8: what a "%.60s" or the room parted goes. */
static void tidy(char *text)
{
    char *to = text;
    for (const char *at = text; *at != '\0';) {
        size_t length = 1, left = strnlen(at, 4);
        while (length <= left && !sw_text_is_utf8(at, length)) length++;
        if (length <= left) {
            memmove(to, at, length);
            to += length;
        } else
            length = 1;
        at += length;
    }
    *to = '\0';
}

sw_status sw_fail(sw_run *run, sw_status status, sw_place place, const char *field, const char *format, ...)
{
    size_t slot = run->error_count++;
    if (slot >= SW_ERROR_MAX) return status;
    char text[1024];
    va_list arguments;
    va_start(arguments, format);
    if (vsnprintf(text, sizeof text, format, arguments) < 0) text[0] = '\0';
    va_end(arguments);
    tidy(text);
    run->errors[slot] = (sw_error){status, place, kept_text(run, field), kept_text(run, text)};
    return status;
}

static void *taken_or_noted(sw_run *run, sw_arena *from, size_t count, size_t size)
{
    void *taken = sw_arena_take(from, count, size);
    if (taken == NULL)
        (void)sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "the memory limit is reached asking for %zu x %zu bytes",
                      count, size);
    return taken;
}

void *sw_keep(sw_run *run, size_t count, size_t size)
{
    return taken_or_noted(run, run->keep, count, size);
}
void *sw_scratch(sw_run *run, size_t count, size_t size)
{
    return taken_or_noted(run, run->scratch, count, size);
}

void *sw_grow(sw_run *run, sw_arena *from, void *items, size_t count, size_t *room, size_t size)
{
    if (count < *room) return items;
    size_t wanted = *room < 8 ? 8 : *room * 2;
    void *larger = taken_or_noted(run, from, wanted, size);
    if (larger == NULL) return NULL;
    if (count > 0) memcpy(larger, items, count * size);
    *room = wanted;
    return larger;
}
