/* json_write.c: values, keys and brackets of JSON. */
#include "papers/json_parts.h"

#include <math.h>
#include <string.h>

enum { DIGITS = 12, SHORT_ESCAPE = 2 };

static bool is_plain(char c)
{
    return c != '"' && c != '\\' && ((unsigned char)c >= ' ');
}

static void put_escape(sw_writer *out, char c)
{
    static const char named[] = "\"\\\b\f\n\r\t", letters[] = "\"\\bfnrt";
    const char *at = strchr(named, c);
    const char escape[SHORT_ESCAPE] = {'\\', at == NULL ? 'u' : letters[at - named]};
    sw_write(out, escape, sizeof escape);
    if (at == NULL) sw_print(out, "%04x", (unsigned)(unsigned char)c);
}

void json_quoted(sw_writer *out, const char *text)
{
    sw_write(out, "\"", 1);
    while (*text != '\0') {
        size_t plain = 0;
        while (text[plain] != '\0' && is_plain(text[plain])) plain++;
        sw_write(out, text, plain);
        text += plain;
        if (*text != '\0') put_escape(out, *text++);
    }
    sw_write(out, "\"", 1);
}

static void new_line(json_out *j)
{
    static const char blanks[] = "\n                ";
    size_t most = sizeof blanks - 1, length = 1 + (size_t)j->depth;
    sw_write(j->out, blanks, length < most ? length : most);
}

static void put_key(json_out *j, const char *key)
{
    if (j->begun) sw_write(j->out, ",", 1);
    if (j->depth > 0) new_line(j);
    j->begun = true;
    if (key == NULL) return;
    sw_write(j->out, "\"", 1);
    sw_write_text(j->out, key);
    sw_write(j->out, "\": ", 3);
}

void json_begin(json_out *j, const char *key, char bracket)
{
    put_key(j, key);
    sw_write(j->out, &bracket, 1);
    j->depth++;
    j->begun = false;
}

void json_end(json_out *j, char bracket)
{
    j->depth--;
    if (j->begun) new_line(j);
    sw_write(j->out, &bracket, 1);
    j->begun = true;
}

void json_text(json_out *j, const char *key, const char *text)
{
    if (text == NULL) {
        json_nothing(j, key);
        return;
    }
    put_key(j, key);
    j->broken = j->broken || !sw_text_is_utf8(text, strlen(text));
    json_quoted(j->out, text);
}

/* So many that all digits of the value are 12, where 15 decimals hold them. */
static int decimals_of(double value)
{
    double size = fabs(value), limit = 10;
    int decimals = DIGITS - 1;
    while (size >= limit && decimals > 1) decimals--, limit *= 10;
    limit = 1;
    while (size < limit && decimals < SW_MOST_DECIMALS) decimals++, limit /= 10;
    return decimals;
}

/* A real always has a point, so that readers that tell whole numbers from reals see what it is. */
void json_number(json_out *j, const char *key, double value)
{
    if (!isfinite(value)) {
        json_nothing(j, key);
        return;
    }
    put_key(j, key);
    char text[SW_NUMBER_ROOM];
    size_t length = sw_number_trimmed(text, value, decimals_of(value));
    sw_write(j->out, text, length);
    if (memchr(text, '.', length) == NULL) sw_write(j->out, ".0", 2);
}

void json_count(json_out *j, const char *key, size_t value)
{
    json_whole(j, key, (int64_t)value);
}

void json_whole(json_out *j, const char *key, int64_t value)
{
    put_key(j, key);
    sw_write_scaled(j->out, value, 0);
}

void json_truth(json_out *j, const char *key, bool value)
{
    put_key(j, key);
    sw_write_text(j->out, value ? "true" : "false");
}

void json_nothing(json_out *j, const char *key)
{
    put_key(j, key);
    sw_write_text(j->out, "null");
}
