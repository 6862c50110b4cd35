/* record.c: records from words, words from records, and what can be wrong with one by itself. */
#include "log/log_parts.h"

#include <ctype.h>
#include <errno.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { DOCUMENT_MOST = 1 << 22, TEXT_MOST = 2000, NAME_MOST = 80 };

bool log_has_word(const char *words, const char *word)
{
    size_t n = strlen(word);
    for (const char *at = words; n > 0 && at != NULL;) {
        if (strncmp(at, word, n) == 0 && (at[n] == '|' || at[n] == '\0')) return true;
        at = strchr(at, '|');
        if (at != NULL) at++;
    }
    return false;
}

/* Days from 1970-01-01 in the Gregorian calendar; leap years by its rule. */
static int64_t days_of(int year, int month, int day)
{
    static const int before[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
    int64_t y = year - 1, days = y * 365 + y / 4 - y / 100 + y / 400 - 719162;
    bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return days + before[month - 1] + (leap && month > 2 ? 1 : 0) + day - 1;
}

/* Exactly so many digits, then the sign `after` (NUL: none asked); moves on past both. */
static bool take_digits(const char **at, int digits, char after, int *value)
{
    *value = 0;
    for (int i = 0; i < digits; i++, (*at)++) {
        if (**at < '0' || **at > '9') return false;
        *value = *value * 10 + (**at - '0');
    }
    if (after == '\0') return true;
    if (**at != after) return false;
    (*at)++;
    return true;
}

sw_status sw_log_time_read(sw_run *run, sw_place place, const char *field, const char *text, int64_t *ms)
{
    int year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0, milli = 0;
    const char *rest = text;
    bool good =
        take_digits(&rest, 4, '-', &year) && take_digits(&rest, 2, '-', &month) && take_digits(&rest, 2, 0, &day);
    if (good && (*rest == 'T' || *rest == ' ')) {
        rest++;
        good = take_digits(&rest, 2, ':', &hour) && take_digits(&rest, 2, 0, &minute);
        if (good && *rest == ':') good = take_digits((rest++, &rest), 2, 0, &second);
        if (good && *rest == '.') good = take_digits((rest++, &rest), 3, 0, &milli);
        if (good && *rest == 'Z') rest++;
    }
    static const int most[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    good = good && *rest == '\0' && year >= 1970 && month >= 1 && month <= 12 && day >= 1 && day <= most[month - 1] &&
           hour < 24 && minute < 60 && second < 60;
    if (good && month == 2 && day == 29) good = days_of(year, 3, 1) - days_of(year, 2, 28) == 2;
    if (!good)
        return sw_fail(run, SW_BAD_INPUT, place, field,
                       "\"%s\" is no time; write 2026-03-05 or 2026-03-05T14:20:00Z (UTC)", text);
    int64_t seconds = ((days_of(year, month, day) * 24 + hour) * 60 + minute) * 60 + second;
    *ms = seconds * 1000 + milli;
    return SW_OK;
}

void sw_log_time_text(int64_t ms, char out[SW_LOG_TIME_ROOM])
{
    time_t seconds = (time_t)(ms / 1000);
    int milli = (int)(ms % 1000);
    struct tm when;
    out[0] = '\0';
    if (ms < 0 || gmtime_r(&seconds, &when) == NULL) return;
    size_t n = strftime(out, SW_LOG_TIME_ROOM, "%Y-%m-%dT%H:%M:%S", &when);
    if (n == 0) return;
    if (milli != 0)
        (void)snprintf(out + n, SW_LOG_TIME_ROOM - n, ".%03dZ", milli);
    else
        (void)snprintf(out + n, SW_LOG_TIME_ROOM - n, "Z");
}

void sw_log_write_value(sw_writer *out, const sw_log_field *field, const sw_log_value *value)
{
    char text[SW_LOG_TIME_ROOM];
    if (!value->there) return;
    switch (field->type) {
    case SW_LOG_NUMBER:
        (void)snprintf(text, sizeof text, "%.15g", value->number);
        if (strtod(text, NULL) != value->number) (void)snprintf(text, sizeof text, "%.17g", value->number);
        sw_write_text(out, text);
        return;
    case SW_LOG_WHOLE:
        sw_print(out, "%lld", (long long)value->whole);
        return;
    case SW_LOG_TIME:
        sw_log_time_text(value->whole, text);
        sw_write_text(out, text);
        return;
    default:
        sw_write_text(out, value->text);
    }
}

static sw_status read_number(sw_run *run, sw_place place, const sw_log_field *f, const char *text, sw_log_value *value)
{
    char *end = NULL;
    errno = 0;
    double number = strtod(text, &end);
    if (end == text || *end != '\0' || !isfinite(number) || strpbrk(text, "xX") != NULL)
        return sw_fail(run, SW_BAD_INPUT, place, f->name, "\"%s\" is no number%s%s", text,
                       f->unit == NULL ? "" : "; it is counted in ", f->unit == NULL ? "" : f->unit);
    if (f->type == SW_LOG_WHOLE && (number != floor(number) || fabs(number) > 9e15))
        return sw_fail(run, SW_BAD_INPUT, place, f->name, "\"%s\" is no whole number", text);
    value->number = number;
    value->whole = f->type == SW_LOG_WHOLE ? (int64_t)number : 0;
    value->there = true;
    return SW_OK;
}

sw_status sw_log_value_read(sw_run *run, sw_place place, const sw_log_field *field, const char *text,
                            sw_log_value *value)
{
    *value = (sw_log_value){0};
    if (field->type == SW_LOG_NUMBER || field->type == SW_LOG_WHOLE) return read_number(run, place, field, text, value);
    if (field->type == SW_LOG_TIME) {
        SW_TRY(sw_log_time_read(run, place, field->name, text, &value->whole));
    } else {
        value->text = sw_text_copy(run, run->keep, text);
        if (value->text == NULL) return SW_NO_MEMORY;
    }
    value->there = true;
    return SW_OK;
}

static sw_status unknown_field(sw_run *run, const sw_log_kind *kind, const char *name)
{
    const char *names[SW_LOG_FIELDS + 3] = {"at", "by", "why"};
    for (size_t i = 0; i < kind->field_count; i++) names[i + 3] = kind->fields[i].name;
    const char *near = sw_text_nearest(name, names, kind->field_count + 3);
    if (near != NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "is no field of a %s; did you mean %s?", kind->name,
                       near);
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "is no field of a %s; `log add %s --help` lists them",
                   kind->name, kind->name);
}

static sw_status take_field(sw_run *run, const char *name, const char *text, sw_log_record *record)
{
    const sw_log_kind *kind = record->kind;
    size_t i = sw_log_field_find(kind, name), length = 0;
    if (strcmp(name, "at") == 0) return sw_log_time_read(run, (sw_place){0}, name, text, &record->at_ms);
    if (strcmp(name, "by") == 0 || strcmp(name, "why") == 0) {
        const char *copy = sw_text_copy(run, run->keep, text);
        if (copy == NULL) return SW_NO_MEMORY;
        *(name[0] == 'b' ? &record->by : &record->why) = copy;
        return SW_OK;
    }
    if (i == SIZE_MAX) return unknown_field(run, kind, name);
    if (record->values[i].there) return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "is given twice");
    if (kind->fields[i].type == SW_LOG_DOCUMENT && text[0] == '@') {
        SW_TRY(sw_file_read(run, text + 1, DOCUMENT_MOST, &record->values[i].text, &length));
        if (strlen(record->values[i].text) != length)
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, name, "%s holds bytes that are no text", text + 1);
        record->values[i].there = true;
        return SW_OK;
    }
    return sw_log_value_read(run, (sw_place){0}, &kind->fields[i], text, &record->values[i]);
}

sw_status sw_log_record_read(sw_run *run, const sw_log_kind *kind, const char *const *settings, size_t count,
                             sw_log_record *record)
{
    sw_status worst = SW_OK;
    *record = (sw_log_record){.kind = kind};
    for (size_t i = 0; i < count; i++) {
        const char *equals = strchr(settings[i], '=');
        sw_status status = SW_OK;
        if (equals == NULL || equals == settings[i] || equals[1] == '\0')
            status = sw_fail(run, SW_BAD_INPUT, (sw_place){0}, settings[i], "is not of the form field=value");
        else {
            const char *name = sw_text_format(run, run->keep, "%.*s", (int)(equals - settings[i]), settings[i]);
            status = name == NULL ? SW_NO_MEMORY : take_field(run, name, equals + 1, record);
        }
        if (status != SW_OK) worst = status;
    }
    return worst;
}

static sw_status check_text(sw_run *run, sw_place place, const char *name, const char *text, size_t most, bool one_line)
{
    size_t length = strlen(text);
    if (length == 0) return sw_fail(run, SW_BAD_INPUT, place, name, "is empty");
    if (length > most)
        return sw_fail(run, SW_BAD_INPUT, place, name, "is %zu bytes long; at most %zu are kept", length, most);
    if (!sw_text_is_utf8(text, length)) return sw_fail(run, SW_BAD_INPUT, place, name, "is not UTF-8 text");
    for (const char *p = text; one_line && *p != '\0'; p++)
        if (iscntrl((unsigned char)*p))
            return sw_fail(run, SW_BAD_INPUT, place, name, "has a control sign in it; write it on one line");
    return SW_OK;
}

static sw_status check_number(sw_run *run, sw_place place, const sw_log_field *f, double number)
{
    if (!isfinite(number)) return sw_fail(run, SW_BAD_INPUT, place, f->name, "is no finite number");
    if ((f->low != 0 || f->high != 0) && (number < f->low || number > f->high))
        return sw_fail(run, SW_BAD_INPUT, place, f->name, "%g is outside %g to %g %s", number, f->low, f->high,
                       f->unit == NULL ? "" : f->unit);
    return SW_OK;
}

static sw_status check_value(sw_run *run, sw_place place, const sw_log_field *f, const sw_log_value *v)
{
    switch (f->type) {
    case SW_LOG_NUMBER:
        return check_number(run, place, f, v->number);
    case SW_LOG_WHOLE:
        return check_number(run, place, f, (double)v->whole);
    case SW_LOG_TIME:
    case SW_LOG_HASH:
        return SW_OK;
    case SW_LOG_DOCUMENT:
        return check_text(run, place, f->name, v->text, DOCUMENT_MOST, false);
    case SW_LOG_TEXT:
        return check_text(run, place, f->name, v->text, TEXT_MOST, false);
    case SW_LOG_CHOICE:
        if (log_has_word(f->of, v->text)) return SW_OK;
        return sw_fail(run, SW_BAD_INPUT, place, f->name, "\"%s\" is none of %s", v->text, f->of);
    case SW_LOG_NAME:
    case SW_LOG_LINK:
        return check_text(run, place, f->name, v->text, NAME_MOST, true);
    }
    return SW_INTERNAL;
}

sw_status log_check_record(sw_run *run, sw_place place, const sw_log_record *record)
{
    size_t before = run->error_count;
    if (record->by == NULL || record->by[0] == '\0')
        (void)sw_fail(run, SW_BAD_INPUT, place, "by", "is missing: who enters this, e.g. by=ab");
    else
        (void)check_text(run, place, "by", record->by, NAME_MOST, true);
    if (record->corrects != 0 && (record->why == NULL || record->why[0] == '\0'))
        (void)sw_fail(run, SW_BAD_INPUT, place, "why", "is missing: a correction says why, e.g. why=misread");
    if (record->why != NULL && record->why[0] != '\0')
        (void)check_text(run, place, "why", record->why, TEXT_MOST, false);
    for (size_t i = 0; i < record->kind->field_count; i++) {
        const sw_log_field *f = &record->kind->fields[i];
        if (record->values[i].there)
            (void)check_value(run, place, f, &record->values[i]);
        else if (f->needed)
            (void)sw_fail(run, SW_BAD_INPUT, place, f->name, "is missing in this %s%s%s", record->kind->name,
                          f->meaning[0] == '\0' ? "" : ": ", f->meaning);
    }
    return run->error_count == before ? SW_OK : SW_BAD_INPUT;
}
