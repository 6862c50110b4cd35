/* bytes.c: growing bytes on the heap. */
#include "papers/bytes_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool bytes_grow(byte_run *b, size_t more)
{
    if (b->no_memory) return false;
    size_t wanted = b->room < 4096 ? 4096 : b->room;
    while (wanted - b->used < more && wanted <= SIZE_MAX / 4) wanted *= 2;
    unsigned char *larger = wanted - b->used < more ? NULL : realloc(b->at, wanted);
    b->no_memory = larger == NULL;
    if (larger == NULL) return false;
    b->at = larger;
    b->room = wanted;
    return true;
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

/* ---- numbers ---- */

static const char pairs[] = "00010203040506070809101112131415161718192021222324252627282930313233343536373839"
                            "40414243444546474849505152535455565758596061626364656667686970717273747576777879"
                            "8081828384858687888990919293949596979899";

/* The last three digits of the value. */
static unsigned char *three_at(unsigned char *at, uint32_t value)
{
    at[0] = (unsigned char)('0' + value / 100 % 10);
    memcpy(at + 1, pairs + 2 * (value % 100), 2);
    return at + 3;
}

static unsigned char *whole_at(unsigned char *at, uint32_t value)
{
    if (value >= 1000) at = whole_at(at, value / 1000);
    if (value >= 100) return three_at(at, value);
    if (value >= 10)
        memcpy(at, pairs + 2 * value, 2);
    else
        *at = (unsigned char)('0' + value);
    return at + (value >= 10 ? 2 : 1);
}

enum { MILLION = 1000000, BELOW = 999999999 };

/* Up to nine digits in all, which is nearly every number on paper: rounded to 1 / scale (a power of ten up to a
 * million), without zeros at the end; a half goes away from zero. Gives how many bytes. */
static size_t short_number(unsigned char *out, double size, bool negative, uint32_t scale)
{
    unsigned char *at = out;
    uint32_t steps = (uint32_t)(size * scale + 0.5), whole = steps / scale;
    uint32_t millionths = (steps - whole * scale) * (MILLION / scale);
    if (negative && steps > 0) *at++ = '-';
    at = whole_at(at, whole);
    if (millionths == 0) return (size_t)(at - out);
    *at++ = '.';
    at = three_at(at, millionths / 1000);
    if (millionths % 1000 != 0) at = three_at(at, millionths);
    while (at[-1] == '0') at--;
    return (size_t)(at - out);
}

size_t bytes_thousandths(char out[SW_SCALED_ROOM], int64_t value)
{
    if (value <= -BELOW || value >= BELOW) return sw_number_scaled(out, value, 3);
    uint32_t size = (uint32_t)(value < 0 ? -value : value);
    unsigned char *start = (unsigned char *)out, *at = start;
    if (value < 0) *at++ = '-';
    at = whole_at(at, size / 1000);
    *at++ = '.';
    return (size_t)(three_at(at, size) - start);
}

/* Into the room that is there; gives how many bytes. */
static size_t number_into(unsigned char *out, double value, int decimals)
{
    static const uint32_t tens[] = {1, 10, 100, 1000, 10000, 100000, MILLION};
    enum { FEW = sizeof tens / sizeof *tens };
    if (!isfinite(value)) value = 0.0; /* nothing that is drawn */
    if (decimals < FEW && fabs(value) * tens[decimals] < BELOW)
        return short_number(out, fabs(value), value < 0.0, tens[decimals]);
    return sw_number_trimmed((char *)out, value, decimals);
}

void bytes_number(byte_run *b, double value, int decimals)
{
    if (bytes_reserve(b, SW_NUMBER_ROOM)) b->used += number_into(b->at + b->used, value, decimals);
}

void bytes_numbers(byte_run *b, const double *values, size_t count, int decimals)
{
    for (size_t i = 0; i < count && bytes_reserve(b, SW_NUMBER_ROOM + 1); i++) {
        if (i > 0) b->at[b->used++] = ' ';
        b->used += number_into(b->at + b->used, values[i], decimals);
    }
}

void bytes_count(byte_run *b, size_t count)
{
    if (bytes_reserve(b, SW_NUMBER_ROOM)) b->used += sw_number_scaled((char *)b->at + b->used, (int64_t)count, 0);
}

void bytes_hex(byte_run *b, uint32_t value, int digits)
{
    SW_ASSERT(digits > 0 && digits <= 8);
    if (!bytes_reserve(b, (size_t)digits)) return;
    for (int i = digits; i-- > 0; value >>= 4)
        b->at[b->used + (size_t)i] = (unsigned char)"0123456789ABCDEF"[value & 15u];
    b->used += (size_t)digits;
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
