/* bytes.c: growing bytes on the heap. */
#include "papers/bytes_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool bytes_reserve(byte_run *b, size_t more)
{
    if (b->no_memory) return false;
    if (more <= b->room - b->used) return true;
    size_t wanted = b->room < 4096 ? 4096 : b->room;
    while (wanted - b->used < more && wanted <= SIZE_MAX / 4) wanted *= 2;
    unsigned char *larger = wanted - b->used < more ? NULL : realloc(b->at, wanted);
    b->no_memory = larger == NULL;
    if (larger == NULL) return false;
    b->at = larger;
    b->room = wanted;
    return true;
}

void bytes_put(byte_run *b, const void *data, size_t length)
{
    if (length == 0 || !bytes_reserve(b, length)) return;
    memcpy(b->at + b->used, data, length);
    b->used += length;
}

void bytes_text(byte_run *b, const char *text)
{
    bytes_put(b, text, strlen(text));
}

void bytes_print(byte_run *b, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(text, sizeof text, format, arguments);
    va_end(arguments);
    SW_ASSERT(length >= 0 && (size_t)length < sizeof text); /* short pieces of syntax only */
    bytes_put(b, text, (size_t)length);
}

void bytes_number(byte_run *b, double value, int decimals)
{
    char text[SW_NUMBER_ROOM];
    if (!isfinite(value)) value = 0.0; /* nothing that is drawn */
    bytes_put(b, text, sw_number_trimmed(text, value, decimals));
}

void bytes_numbers(byte_run *b, const double *values, size_t count, int decimals)
{
    for (size_t i = 0; i < count; i++) {
        bytes_number(b, values[i], decimals);
        bytes_put(b, " ", 1);
    }
}

void bytes_free(byte_run *b)
{
    free(b->at);
    *b = (byte_run){0};
}

void *heap_grow(void *items, size_t count, size_t *room, size_t size, bool *no_memory)
{
    if (count < *room) return items;
    size_t wanted = *room == 0 ? 16 : *room * 2;
    void *larger = wanted > SIZE_MAX / 2 / size ? NULL : realloc(items, wanted * size);
    if (larger == NULL) *no_memory = true;
    if (larger != NULL) *room = wanted;
    return larger;
}
