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

/* Up to nine digits in all, which is nearly every number on paper: rounded, without zeros at the end; a half goes away
 * from zero. Gives how many bytes. */
static size_t short_number(unsigned char *out, double size, bool negative, int decimals, uint32_t scale)
{
    unsigned char digits[12], *at = digits + sizeof digits;
    uint32_t whole = (uint32_t)(size * scale + 0.5);
    size_t sign = negative && whole > 0 ? 1 : 0;
    for (; decimals > 0 && whole % 10 == 0; decimals--) whole /= 10;
    for (int place = 0; whole > 0 || place <= decimals; place++, whole /= 10) {
        if (place == decimals && place > 0) *--at = '.';
        *--at = (unsigned char)('0' + whole % 10);
    }
    size_t length = (size_t)(digits + sizeof digits - at);
    if (sign > 0) out[0] = '-';
    memcpy(out + sign, at, length);
    return sign + length;
}

/* Into the room that is there; gives how many bytes. */
static size_t number_into(unsigned char *out, double value, int decimals)
{
    static const uint32_t tens[] = {1, 10, 100, 1000, 10000, 100000, 1000000};
    enum { FEW = sizeof tens / sizeof *tens, BELOW = 999999999 };
    if (!isfinite(value)) value = 0.0; /* nothing that is drawn */
    if (decimals < FEW && fabs(value) * tens[decimals] < BELOW)
        return short_number(out, fabs(value), value < 0.0, decimals, tens[decimals]);
    return sw_number_trimmed((char *)out, value, decimals);
}

void bytes_number(byte_run *b, double value, int decimals)
{
    if (bytes_reserve(b, SW_NUMBER_ROOM)) b->used += number_into(b->at + b->used, value, decimals);
}

void bytes_numbers(byte_run *b, const double *values, size_t count, int decimals)
{
    for (size_t i = 0; i < count && bytes_reserve(b, SW_NUMBER_ROOM + 1); i++) {
        b->used += number_into(b->at + b->used, values[i], decimals);
        b->at[b->used++] = ' ';
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
