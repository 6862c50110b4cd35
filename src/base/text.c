#include "base/base.h"

#include <stdio.h>
#include <string.h>

const char *sw_text_copy(sw_run *run, sw_arena *into, const char *text)
{
    return sw_text_format(run, into, "%s", text);
}

const char *sw_text_format(sw_run *run, sw_arena *into, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    int length = vsnprintf(NULL, 0, format, arguments);
    va_end(arguments);
    if (length < 0) length = 0;
    char *text = sw_arena_take(into, (size_t)length + 1, 1);
    if (text == NULL) {
        (void)sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "the memory limit is reached writing a text of %d bytes",
                      length);
        return NULL;
    }
    va_start(arguments, format);
    int written = vsnprintf(text, (size_t)length + 1, format, arguments);
    va_end(arguments);
    return written < 0 ? "" : text;
}

enum { LONGEST_NAME = 64, FAR = 99 };

static int least_of(int a, int b, int c)
{
    int ab = a < b ? a : b;
    return ab < c ? ab : c;
}

/* Levenshtein distance by rows. */
int sw_text_distance(const char *a, const char *b)
{
    size_t n = strlen(a), m = strlen(b);
    if (n > LONGEST_NAME || m > LONGEST_NAME) return strcmp(a, b) == 0 ? 0 : FAR;
    int row[LONGEST_NAME + 1];
    for (size_t j = 0; j <= m; j++) row[j] = (int)j;
    for (size_t i = 1; i <= n; i++) {
        int diagonal = row[0];
        row[0] = (int)i;
        for (size_t j = 1; j <= m; j++) {
            int above = row[j];
            row[j] = least_of(above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1));
            diagonal = above;
        }
    }
    return row[m];
}

bool sw_text_ends_with(const char *text, const char *ending)
{
    size_t length = strlen(text), tail = strlen(ending);
    return length > tail && strcmp(text + length - tail, ending) == 0;
}

const char *sw_text_nearest(const char *wrong, const char *const *names, size_t count)
{
    int best = (int)(strlen(wrong) / 2) + 1; /* ours: more than half the letters wrong is another word */
    const char *nearest = NULL;
    for (size_t i = 0; i < count; i++) {
        int distance = sw_text_distance(wrong, names[i]);
        if (distance >= best) continue;
        best = distance;
        nearest = names[i];
    }
    return nearest;
}

const char *sw_plural(size_t count)
{
    return count == 1 ? "" : "s";
}

/* Bytes that follow a lead byte and the least code point such a sequence may carry (RFC 3629); -1 = no lead byte. */
static int following(unsigned char lead, uint32_t *least)
{
    if (lead < 0x80) return (*least = 0), 0;
    if (lead >= 0xC2 && lead < 0xE0) return (*least = 0x80), 1;
    if (lead >= 0xE0 && lead < 0xF0) return (*least = 0x800), 2;
    if (lead >= 0xF0 && lead < 0xF5) return (*least = 0x10000), 3;
    return -1;
}

bool sw_text_is_utf8(const char *bytes, size_t length)
{
    const unsigned char *p = (const unsigned char *)bytes;
    for (size_t i = 0; i < length;) {
        uint32_t least = 0;
        int more = following(p[i], &least);
        if (more < 0 || (size_t)more >= length - i) return false;
        uint32_t code = more == 0 ? p[i] : p[i] & (0x3Fu >> more);
        for (int k = 1; k <= more; k++) {
            if ((p[i + (size_t)k] & 0xC0u) != 0x80u) return false;
            code = code << 6 | (p[i + (size_t)k] & 0x3Fu);
        }
        if (code < least || code > 0x10FFFF || (code >= 0xD800 && code < 0xE000)) return false;
        i += (size_t)more + 1;
    }
    return true;
}

size_t sw_text_cut(const char *bytes, size_t length, size_t most)
{
    size_t cut = length < most ? length : most, back = 0;
    if (cut == length) return cut;
    while (back < cut && back < 4 && ((unsigned char)bytes[cut - back] & 0xC0u) == 0x80u) back++;
    return ((unsigned char)bytes[cut - back] & 0xC0u) == 0x80u ? cut : cut - back; /* no UTF-8: as it comes */
}
