/* trial_cell.c: one cell of a real-life file: numbers with point or comma, signs for a missing value, time stamps. */
#include "proving/trial/trial_parts.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { LONGEST = 64 };

static bool is_blank(char c)
{
    return c == ' ' || c == '\t' || c == '\r';
}

trial_text trial_trimmed(trial_text t)
{
    while (t.length > 0 && is_blank(*t.at)) t.at++, t.length--;
    while (t.length > 0 && is_blank(t.at[t.length - 1])) t.length--;
    if (t.length < 2 || *t.at != '"' || t.at[t.length - 1] != '"') return t;
    return trial_trimmed((trial_text){t.at + 1, t.length - 2});
}

static char lower(char c)
{
    return c >= 'A' && c <= 'Z' ? (char)(c - 'A' + 'a') : c;
}

bool trial_same(trial_text text, const char *word)
{
    size_t i = 0;
    for (; i < text.length && word[i] != '\0'; i++)
        if (lower(text.at[i]) != lower(word[i])) return false;
    return i == text.length && word[i] == '\0';
}

/* With an exponent or a decimal comma: rare, so by a copy. */
static bool slow_number(trial_text cell, double *value)
{
    char copy[LONGEST], *end = NULL;
    size_t commas = 0;
    if (cell.length == 0 || cell.length >= LONGEST) return false;
    for (size_t i = 0; i < cell.length; i++) {
        char c = cell.at[i];
        if (memchr("0123456789+-.,eE", c, 16) == NULL) return false;
        commas += c == ',' ? 1 : 0;
        copy[i] = c == ',' ? '.' : c;
    }
    copy[cell.length] = '\0';
    if (commas > 1) return false;
    *value = strtod(copy, &end);
    return end == copy + cell.length && isfinite(*value);
}

static bool comma_number(trial_text cell, double *value)
{
    char copy[LONGEST];
    if (cell.length >= LONGEST) return false;
    memcpy(copy, cell.at, cell.length);
    char *comma = memchr(copy, ',', cell.length);
    if (comma != NULL) *comma = '.';
    return sw_number_read(copy, cell.length, value) == cell.length;
}

bool trial_number(trial_text cell, double *value)
{
    if (cell.length == 0) return false;
    size_t taken = sw_number_read(cell.at, cell.length, value);
    if (taken == cell.length) return true;
    if (cell.at[taken] == ',' && comma_number(cell, value)) return true;
    return slow_number(cell, value);
}

bool trial_is_gap(trial_text cell)
{
    static const char *const signs[] = {"-",    "--",   "---",   "nan", "n/a", "na",   "#n/a", "null",
                                        "none", "void", "error", "err", "ol",  "over", "inf",  "-inf"};
    if (cell.length == 0) return true;
    for (size_t i = 0; i < sizeof signs / sizeof *signs; i++)
        if (trial_same(cell, signs[i])) return true;
    return false;
}

/* ---- time stamps ---- */

typedef struct stamp {
    trial_text rest;
    bool good;
} stamp;

static double whole(stamp *s, size_t most_digits)
{
    double value = 0;
    size_t n = 0;
    for (; n < most_digits && n < s->rest.length && s->rest.at[n] >= '0' && s->rest.at[n] <= '9'; n++)
        value = 10 * value + (s->rest.at[n] - '0');
    if (n == 0) s->good = false;
    s->rest.at += n;
    s->rest.length -= n;
    return value;
}

static bool take(stamp *s, const char *any)
{
    if (s->rest.length == 0 || *s->rest.at == '\0' || strchr(any, *s->rest.at) == NULL) return false;
    s->rest.at++;
    s->rest.length--;
    return true;
}

/* Days from 1 March 0000 of the proleptic Gregorian calendar: derived, 365.2425 days a year counted from March. */
static double days_of(double year, double month, double day)
{
    if (month < 3) year -= 1, month += 12;
    return 365 * year + floor(year / 4) - floor(year / 100) + floor(year / 400) + floor((153 * (month - 3) + 2) / 5) +
           day - 1;
}

/* 2026-03-01, 2026/03/01, 01.03.2026 or 01/03/2026 (day first), then a blank or T. */
static double date(stamp *s)
{
    double a = whole(s, 4);
    if (!take(s, "-./")) s->good = false;
    double b = whole(s, 2);
    if (!take(s, "-./")) s->good = false;
    double c = whole(s, 4);
    if (!take(s, " T")) s->good = false;
    bool year_first = a > 31;
    double year = year_first ? a : c, day = year_first ? c : a;
    if (!(b >= 1 && b <= 12 && day >= 1 && day <= 31 && year >= 1)) s->good = false;
    return days_of(year, b, day);
}

static double clock_s(stamp *s)
{
    double hours = whole(s, 2), minutes = 0, seconds = 0;
    if (!take(s, ":")) s->good = false;
    minutes = whole(s, 2);
    if (take(s, ":")) seconds = whole(s, 2);
    if (take(s, ".,")) {
        double scale = 0.1;
        while (s->rest.length > 0 && *s->rest.at >= '0' && *s->rest.at <= '9') {
            seconds += scale * (*s->rest.at - '0');
            scale /= 10;
            (void)take(s, "0123456789");
        }
    }
    (void)take(s, "Z");
    if (!(hours < 24 && minutes < 60 && seconds < 61)) s->good = false;
    return sw_s_from_h(hours) + sw_s_from_min(minutes) + seconds;
}

bool trial_stamp(trial_text cell, double *seconds, bool *dated)
{
    stamp s = {cell, true};
    size_t colon = 0;
    while (colon < cell.length && cell.at[colon] != ':') colon++;
    *dated = colon > 2;
    *seconds = *dated ? date(&s) * sw_s_from_h(24) : 0;
    *seconds += clock_s(&s);
    return s.good && s.rest.length == 0;
}
