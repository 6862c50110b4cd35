/* words.c: numbers and names as they stand on paper. Texts live in run->scratch. */
#include "papers/papers_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *words_number(sw_run *run, double value, int decimals)
{
    if (!isfinite(value)) return "\xe2\x80\x93"; /* en dash: no number */
    char text[64];
    int n = snprintf(text, sizeof text, "%.*f", decimals, value);
    if (n < 0 || (size_t)n >= sizeof text) return sw_text_format(run, run->scratch, "%.6g", value);
    if (decimals > 0)
        while (n > 1 && text[n - 1] == '0') text[--n] = '\0';
    if (n > 1 && text[n - 1] == '.') text[--n] = '\0';
    if (strcmp(text, "-0") == 0) return "0";
    return sw_text_copy(run, run->scratch, text);
}

const char *words_mm(sw_run *run, double mm)
{
    return words_number(run, mm, 1);
}

const char *words_bend(sw_run *run, const sw_flat_bend *bend)
{
    const char *angle = words_number(run, sw_deg_from_rad(fabs(bend->bend->angle_rad)), 1);
    const char *radius = words_number(run, bend->bend->radius_mm, 2);
    if (angle == NULL || radius == NULL) return NULL;
    const char *kind = bend->bend->kind == SW_ROLLED ? "rolled " : bend->bend->kind == SW_HEMMED ? "hem " : "";
    return sw_text_format(run, run->scratch, "%s%s\xc2\xb0 %s R%s", kind, angle, bend->up ? "up" : "down", radius);
}

/* Three or so telling digits of a figure in any unit. */
static const char *figure(sw_run *run, double value)
{
    double size = fabs(value);
    int decimals = size >= 100.0 ? 0 : size >= 10.0 ? 1 : size >= 1.0 ? 2 : 3;
    return words_number(run, value, decimals);
}

const char *words_margin(sw_run *run, const sw_finding *f)
{
    if (!isfinite(f->margin) || f->sense == SW_STATED) return "\xe2\x80\x93";
    if (f->limit == 0.0) {
        const char *amount = figure(run, f->margin);
        return amount == NULL
                   ? NULL
                   : sw_text_format(run, run->scratch, "%s%s %s", f->margin >= 0.0 ? "+" : "", amount, f->unit);
    }
    return sw_text_format(run, run->scratch, "%+.0f %%", 100.0 * f->margin);
}

const char *words_limit(sw_run *run, const sw_finding *f)
{
    if (!isfinite(f->limit) || f->sense == SW_STATED) return "\xe2\x80\x93";
    const char *amount = figure(run, f->limit);
    if (amount == NULL) return NULL;
    return sw_text_format(run, run->scratch, "%s %s %s", f->sense == SW_AT_LEAST ? "at least" : "at most", amount,
                          f->unit);
}

const char *words_time(sw_run *run, double s)
{
    if (!isfinite(s)) return "\xe2\x80\x93";
    double minutes = sw_min_from_s(s);
    if (minutes < 2.0) return sw_text_format(run, run->scratch, "%.0f s", s);
    if (minutes < 120.0) return sw_text_format(run, run->scratch, "%.1f min", minutes);
    double hours = floor(sw_h_from_s(s));
    return sw_text_format(run, run->scratch, "%.0f h %02.0f min", hours, minutes - 60.0 * hours);
}

static bool plain(unsigned char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_' ||
           c >= 128;
}

const char *words_file(sw_run *run, const char *folder, const char *number, const char *name, const char *ending)
{
    char *text =
        (char *)(uintptr_t)sw_text_format(run, run->scratch, "%s%s%s", number, name[0] == '\0' ? "" : " ", name);
    if (text == NULL) return NULL;
    size_t n = strlen(text);
    for (size_t i = 0; i < n; i++)
        if (!plain((unsigned char)text[i]) && text[i] != ' ' && !(text[i] == '.' && i > 0)) text[i] = '_';
    text[sw_text_cut(text, n, 120)] = '\0';
    return sw_text_format(run, run->keep, "%s/%s%s", folder, text, ending);
}

const char *words_within(sw_run *run, sw_pen *pen, double height_mm, bool bold, double most_mm, const char *text)
{
    double wide_mm = pen_width(pen, height_mm, bold, text);
    size_t n = strlen(text);
    if (wide_mm <= most_mm || n == 0) return text;
    size_t fits = (size_t)fmax(0.0, (double)n * most_mm / wide_mm);
    for (;; fits--) {
        while (fits > 0 && ((unsigned char)text[fits] & 0xc0u) == 0x80u) fits--;
        const char *cut = sw_text_format(run, run->scratch, "%.*s\xe2\x80\xa6", (int)fits, text);
        if (cut == NULL || fits == 0 || pen_width(pen, height_mm, bold, cut) <= most_mm) return cut;
    }
}
