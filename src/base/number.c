/* number.c: decimals to text and back by integer arithmetic. Where that would not be exact, the C library does it. */
#include "base/base.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_NUMBER = 64 };
static const double exact_whole = 9007199254740992.0; /* 2^53: whole numbers up to here are exact in a double */
/* Powers of ten that a double holds exactly. */
static const double tens[] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,  1e8,  1e9,  1e10, 1e11,
                              1e12, 1e13, 1e14, 1e15, 1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
enum { MOST_TENS = sizeof tens / sizeof *tens - 1 };
enum { MOST_DIGITS = 20 }; /* of a 64-bit whole number */

/* ---- out ---- */

static const char pairs[] = "00010203040506070809101112131415161718192021222324252627282930313233343536373839"
                            "40414243444546474849505152535455565758596061626364656667686970717273747576777879"
                            "8081828384858687888990919293949596979899";

/* So many digits of the value, the last ones, into at[digits]. */
static void put_digits(char *at, uint64_t value, int digits)
{
    for (; digits >= 2; digits -= 2, value /= 100) memcpy(at + digits - 2, pairs + 2 * (value % 100), 2);
    if (digits == 1) *at = (char)('0' + value % 10);
}

static int digits_of(uint64_t value)
{
    int digits = 1;
    for (uint64_t limit = 10; digits < MOST_DIGITS && value >= limit; limit *= 10) digits++;
    return digits;
}

/* Whole and part are put apart: two short chains of divisions run side by side. */
size_t sw_number_scaled(char out[SW_SCALED_ROOM], int64_t value, int decimals)
{
    SW_ASSERT(decimals >= 0 && decimals <= SW_MOST_DECIMALS);
    uint64_t size = value < 0 ? 0 - (uint64_t)value : (uint64_t)value, scale = (uint64_t)tens[decimals];
    uint64_t whole = size / scale;
    int digits = digits_of(whole);
    char *at = out;
    if (value < 0) *at++ = '-';
    put_digits(at, whole, digits);
    at += digits;
    if (decimals == 0) return (size_t)(at - out);
    *at++ = '.';
    put_digits(at, size - whole * scale, decimals);
    return (size_t)(at - out) + (size_t)decimals;
}

/* The whole number nearest to the exact product size x scale (half to even); false beyond 2^53. The product is
 * taken as near + rest, which holds exactly (fused multiply-add). */
static bool scaled_exactly(double size, double scale, uint64_t *whole)
{
    double near = size * scale, rest = fma(size, scale, -near);
    if (!(near < exact_whole)) return false;
    double below = floor(near), over_half = near - below - 0.5;
    bool up = over_half > -rest || (over_half == -rest && fmod(below, 2) != 0);
    *whole = (uint64_t)below + (up ? 1 : 0);
    return true;
}

static int64_t with_sign_of(double value, uint64_t size)
{
    return value < 0 ? -(int64_t)size : (int64_t)size;
}

static size_t printed(char out[SW_NUMBER_ROOM], double value, int decimals)
{
    int length = snprintf(out, SW_NUMBER_ROOM, "%.*f", decimals, value);
    return length < 0 ? 0 : (size_t)length;
}

size_t sw_number_fixed(char out[SW_NUMBER_ROOM], double value, int decimals)
{
    uint64_t whole = 0;
    SW_ASSERT(decimals >= 0 && decimals <= SW_MOST_DECIMALS);
    if (!scaled_exactly(fabs(value), tens[decimals], &whole)) return printed(out, value, decimals);
    return sw_number_scaled(out, with_sign_of(value, whole), decimals);
}

static size_t without_zeros(const char *out, size_t length)
{
    if (memchr(out, '.', length) == NULL) return length;
    while (out[length - 1] == '0') length--;
    return out[length - 1] == '.' ? length - 1 : length;
}

size_t sw_number_trimmed(char out[SW_NUMBER_ROOM], double value, int decimals)
{
    uint64_t whole = 0;
    SW_ASSERT(decimals >= 0 && decimals <= SW_MOST_DECIMALS);
    if (!scaled_exactly(fabs(value), tens[decimals], &whole)) return without_zeros(out, printed(out, value, decimals));
    if (whole == 0) decimals = 0;
    for (; decimals > 0 && whole % 10 == 0; decimals--) whole /= 10;
    return sw_number_scaled(out, with_sign_of(value, whole), decimals);
}

void sw_write_scaled(sw_writer *writer, int64_t value, int decimals)
{
    char *room = sw_write_room(writer, SW_SCALED_ROOM);
    if (room != NULL) sw_wrote(writer, sw_number_scaled(room, value, decimals));
}

void sw_write_fixed(sw_writer *writer, double value, int decimals)
{
    char *room = sw_write_room(writer, SW_NUMBER_ROOM);
    if (room != NULL) sw_wrote(writer, sw_number_fixed(room, value, decimals));
}

void sw_write_trimmed(sw_writer *writer, double value, int decimals)
{
    char *room = sw_write_room(writer, SW_NUMBER_ROOM);
    if (room != NULL) sw_wrote(writer, sw_number_trimmed(room, value, decimals));
}

/* ---- in ---- */

typedef struct decimal {
    uint64_t digits; /* all of them as one whole number */
    size_t taken;    /* bytes, sign and point included */
    int count, after_point;
    bool negative;
} decimal;

/* Adds the digits from text on to d; gives where they end. */
static const char *add_digits(decimal *d, const char *text, const char *end)
{
    for (; text < end; text++) {
        unsigned digit = (unsigned)(unsigned char)*text - '0';
        if (digit > 9) break;
        d->digits = d->digits * 10 + digit; /* meaningless beyond 19 digits: not used then */
    }
    return text;
}

static decimal scan(const char *text, size_t length)
{
    decimal d = {0};
    const char *at = text, *end = text + length;
    if (length > 0 && (*at == '-' || *at == '+')) d.negative = *at++ == '-';
    const char *point = add_digits(&d, at, end), *last = point;
    if (point < end && *point == '.') {
        last = add_digits(&d, point + 1, end);
        d.after_point = (int)(last - point - 1);
    }
    d.count = (int)(point - at) + d.after_point;
    d.taken = (size_t)(last - text);
    return d;
}

size_t sw_number_read(const char *text, size_t length, double *value)
{
    decimal d = scan(text, length);
    if (d.count == 0 || d.taken >= LONGEST_NUMBER) return 0;
    if (d.count <= 19 && d.digits <= (uint64_t)exact_whole && d.after_point <= MOST_TENS) {
        double size = d.after_point == 0 ? (double)d.digits : (double)d.digits / tens[d.after_point]; /* rounded once */
        *value = d.negative ? -size : size;
        return d.taken;
    }
    char copy[LONGEST_NUMBER];
    memcpy(copy, text, d.taken);
    copy[d.taken] = '\0';
    *value = strtod(copy, NULL);
    return d.taken;
}
