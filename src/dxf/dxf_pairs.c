/* dxf_pairs.c: lines, pairs and values of a DXF file. */
#include "dxf/dxf_parts.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST_NUMBER = 64, LARGEST_CODE = 1071 };

sw_status dxf_fail(const dxf_pairs *in, int line, const char *format, ...)
{
    char text[512];
    va_list arguments;
    va_start(arguments, format);
    if (vsnprintf(text, sizeof text, format, arguments) < 0) text[0] = '\0';
    va_end(arguments);
    return sw_fail(in->run, SW_BAD_INPUT, (sw_place){in->file, line, 0}, "", "%s", text);
}

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

static bool next_line(dxf_pairs *in, const char **start, size_t *length)
{
    if (in->at >= in->length) return false;
    const char *from = in->bytes + in->at, *last = in->bytes + in->length, *end = from;
    while (end < last && *end != '\n') end++; /* lines are short: faster than memchr */
    in->at = (size_t)(end - in->bytes) + (end < last ? 1 : 0);
    in->line++;
    while (end > from && is_blank(end[-1])) end--;
    while (end > from && is_blank(*from)) from++;
    *start = from;
    *length = (size_t)(end - from);
    return true;
}

static sw_status cut_short(const dxf_pairs *in)
{
    return dxf_fail(in, in->line, "the file is cut short: it ends after %zu bytes without EOF; get a whole copy",
                    in->length);
}

/* A whole number of at most 9 digits. */
static bool whole(const char *text, size_t length, int *number)
{
    bool negative = length > 0 && text[0] == '-';
    size_t first = negative || (length > 0 && text[0] == '+') ? 1 : 0;
    int size = 0;
    if (length == first || length - first > 9) return false;
    for (size_t i = first; i < length; i++) {
        if (text[i] < '0' || text[i] > '9') return false;
        size = size * 10 + (text[i] - '0');
    }
    *number = negative ? -size : size;
    return true;
}

/* Most codes stand alone in their line: up to four digits and the line's end. False for all others. */
static bool plain_code(dxf_pairs *in)
{
    const char *from = in->bytes + in->at, *last = in->bytes + in->length, *at = from;
    int code = 0;
    for (; at < last && at - from < 4 && *at >= '0' && *at <= '9'; at++) code = code * 10 + (*at - '0');
    if (at == from || at == last || *at != '\n' || code > LARGEST_CODE) return false;
    in->code = code;
    in->at += (size_t)(at - from) + 1;
    in->line++;
    return true;
}

static sw_status any_code(dxf_pairs *in)
{
    const char *code;
    size_t length;
    if (!next_line(in, &code, &length)) return cut_short(in);
    if (whole(code, length, &in->code) && in->code >= 0 && in->code <= LARGEST_CODE) return SW_OK;
    return dxf_fail(in, in->line, "\"%.*s\" is no group code; a whole number from 0 to %d is needed here",
                    (int)(length < 40 ? length : 40), code, LARGEST_CODE);
}

static sw_status read_pair(dxf_pairs *in)
{
    if (!plain_code(in)) SW_TRY(any_code(in));
    in->code_line = in->line;
    if (!next_line(in, &in->value, &in->value_length)) return cut_short(in);
    in->value_line = in->line;
    return SW_OK;
}

sw_status dxf_next(dxf_pairs *in)
{
    if (in->held) {
        in->held = false;
        return SW_OK;
    }
    do SW_TRY(read_pair(in));
    while (in->code == 999); /* comment */
    return SW_OK;
}

static sw_status no_number(const dxf_pairs *in, const char *needed)
{
    return dxf_fail(in, in->value_line, "group %d: \"%.*s\" is no %s", in->code,
                    (int)(in->value_length < 40 ? in->value_length : 40), in->value, needed);
}

/* With an exponent, which few files have. */
static bool with_exponent(const char *text, size_t length, double *number)
{
    char copy[LONGEST_NUMBER];
    char *end;
    if (length >= sizeof copy) return false;
    for (size_t i = 0; i < length; i++)
        if (text[i] == '\0' || strchr("0123456789+-.eE", text[i]) == NULL) return false;
    memcpy(copy, text, length);
    copy[length] = '\0';
    *number = strtod(copy, &end);
    return end > copy && *end == '\0';
}

sw_status dxf_number(const dxf_pairs *in, double *number)
{
    bool plain = in->value_length > 0 && sw_number_read(in->value, in->value_length, number) == in->value_length;
    if (!plain && !with_exponent(in->value, in->value_length, number)) return no_number(in, "number");
    if (!(fabs(*number) <= DXF_LARGEST)) return no_number(in, "number from -1e9 to 1e9");
    return SW_OK;
}

sw_status dxf_integer(const dxf_pairs *in, int *number)
{
    if (whole(in->value, in->value_length, number)) return SW_OK;
    return no_number(in, "whole number");
}

/* ---- text --------------------------------------------------------------------------- */

static size_t put_utf8(char *out, unsigned code)
{
    if (code < 0x80) {
        out[0] = (char)code;
        return 1;
    }
    if (code < 0x800) {
        out[0] = (char)(0xC0 | (code >> 6));
        out[1] = (char)(0x80 | (code & 0x3F));
        return 2;
    }
    out[0] = (char)(0xE0 | (code >> 12));
    out[1] = (char)(0x80 | ((code >> 6) & 0x3F));
    out[2] = (char)(0x80 | (code & 0x3F));
    return 3;
}

/* The character of \U+XXXX at text, or -1; surrogates are none. */
static int escaped(const char *text, size_t length)
{
    unsigned code = 0;
    if (length < 7 || memcmp(text, "\\U+", 3) != 0) return -1;
    for (size_t i = 3; i < 7; i++) {
        const char *digits = "0123456789ABCDEFabcdef", *found = strchr(digits, text[i]);
        if (text[i] == '\0' || found == NULL) return -1;
        unsigned digit = (unsigned)(found - digits);
        code = code * 16 + (digit < 16 ? digit : digit - 6);
    }
    return code < 0x20 || (code >= 0xD800 && code <= 0xDFFF) ? -1 : (int)code;
}

sw_status dxf_text(const dxf_pairs *in, const char **text)
{
    bool utf8 = sw_text_is_utf8(in->value, in->value_length);
    char *out = SW_KEEP(in->run, 2 * in->value_length + 1, char);
    size_t n = 0;
    if (out == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < in->value_length;) {
        int code = escaped(in->value + i, in->value_length - i);
        unsigned char byte = (unsigned char)in->value[i];
        if (code >= 0) {
            n += put_utf8(out + n, (unsigned)code);
            i += 7;
            continue;
        }
        if (byte >= 0x80 && !utf8)
            n += put_utf8(out + n, byte);
        else
            out[n++] = byte < 0x20 || byte == 0x7F ? ' ' : (char)byte;
        i++;
    }
    *text = out;
    return SW_OK;
}

sw_status dxf_layer(dxf_pairs *in, const char **layer)
{
    bool again = in->layer != NULL && in->layer_length == in->value_length &&
                 memcmp(in->layer_bytes, in->value, in->value_length) == 0;
    if (!again) {
        SW_TRY(dxf_text(in, &in->layer));
        in->layer_bytes = in->value;
        in->layer_length = in->value_length;
    }
    *layer = in->layer;
    return SW_OK;
}
