/* serve_log_enter.c: records and corrections as a page sends them. Every fault is told; all of a call is recorded or nothing. */
#include "app/print_log.h"
#include "app/serve_log.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

enum { RECORDS_MOST = 500, DOCUMENT_MOST = 1 << 22 };

/* ---- values ---------------------------------------------------------------------------------- */

static void unknown_field(sw_run *run, sw_place place, const sw_log_kind *kind, const char *name)
{
    const char *names[SW_LOG_FIELDS];
    for (size_t i = 0; i < kind->field_count; i++) names[i] = kind->fields[i].name;
    const char *near = sw_text_nearest(name, names, kind->field_count);
    (void)sw_fail(run, SW_BAD_INPUT, place, name, "is no field of a %s%s%s%s", kind->name,
                  near == NULL ? "" : "; did you mean ", near == NULL ? "" : near, near == NULL ? "" : "?");
}

void serve_log_take_text(sw_run *run, sw_place place, sw_log_record *record, const char *name, const char *text)
{
    size_t i = sw_log_field_find(record->kind, name);
    if (!sw_text_is_utf8(name, strlen(name)) || !sw_text_is_utf8(text, strlen(text)))
        (void)sw_fail(run, SW_BAD_INPUT, place, "", "is not UTF-8 text");
    else if (i == SIZE_MAX)
        unknown_field(run, place, record->kind, name);
    else if (record->values[i].there)
        (void)sw_fail(run, SW_BAD_INPUT, place, name, "is given twice");
    else
        (void)sw_log_value_read(run, place, &record->kind->fields[i], text, &record->values[i]);
}

/* {"file": "a.stove.lua"} for a document: the project's file, word for word. */
static void take_file(const log_call *c, sw_place place, sw_log_record *record, const char *name, const char *file)
{
    static const char *const endings[] = {".stove.lua", ".works.lua", ".house.lua"};
    size_t i = sw_log_field_find(record->kind, name), length = 0;
    const char *path = NULL, *bytes = NULL;
    for (size_t k = 0; k < sizeof endings / sizeof *endings && file != NULL && path == NULL; k++)
        path = serve_find_file(c->call->s, c->run, file, endings[k]);
    if (i == SIZE_MAX)
        unknown_field(c->run, place, record->kind, name);
    else if (path == NULL || record->kind->fields[i].type != SW_LOG_DOCUMENT)
        (void)sw_fail(c->run, SW_BAD_INPUT, place, name, "%s",
                      path == NULL ? "must name a description of the project, like x.stove.lua"
                                   : "is no document: it takes no file");
    else if (sw_file_read(c->run, path, DOCUMENT_MOST, &bytes, &length) != SW_OK)
        return; /* it has told why */
    else if (strlen(bytes) == length)
        record->values[i] = (sw_log_value){.there = true, .text = bytes};
    else
        (void)sw_fail(c->run, SW_BAD_INPUT, place, name, "%s holds bytes that are no text", file);
}

static void take_value(const log_call *c, sw_place place, sw_log_record *record, const char *name, const json_t *value)
{
    const char *text = json_is_string(value) ? json_string_value(value)
                       : json_is_integer(value)
                           ? sw_text_format(c->run, c->run->keep, "%lld", (long long)json_integer_value(value))
                       : json_is_real(value) ? sw_text_format(c->run, c->run->keep, "%.17g", json_real_value(value))
                                             : NULL;
    if (json_is_null(value)) return;
    if (json_is_object(value))
        take_file(c, place, record, name, json_string_value(json_object_get(value, "file")));
    else if (text == NULL)
        (void)sw_fail(c->run, SW_BAD_INPUT, place, name, "must be a text or a number");
    else
        serve_log_take_text(c->run, place, record, name, text);
}

static void take_values(const log_call *c, sw_place place, sw_log_record *record, json_t *values)
{
    const char *name = NULL;
    json_t *value = NULL;
    if (values != NULL && !json_is_object(values))
        (void)sw_fail(c->run, SW_BAD_INPUT, place, "values", "must be an object of fields and values");
    json_object_foreach(values, name, value) take_value(c, place, record, name, value);
}

/* by, why and at of the whole call. A text in the body is lent while the call lasts. */
static void take_common(const log_call *c, sw_log_record *record)
{
    static const char *const names[] = {"by", "why", "at"};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        const json_t *value = json_object_get(c->body, names[i]);
        const char *text = json_string_value(value);
        if (value == NULL || json_is_null(value)) continue;
        if (text == NULL)
            (void)sw_fail(c->run, SW_BAD_INPUT, (sw_place){0}, names[i], "must be a text");
        else if (i == 2)
            (void)sw_log_time_read(c->run, (sw_place){0}, "at", text, &record->at_ms);
        else
            *(i == 0 ? &record->by : &record->why) = text;
    }
}

/* Only what the table above says may stand in a body. */
static void check_names(const log_call *c, const char *allowed)
{
    const char *name = NULL;
    json_t *value = NULL;
    json_object_foreach((json_t *)c->body, name, value)
    {
        const char *at = strstr(allowed, name);
        size_t n = strlen(name);
        if (n == 0 || at == NULL || at[n] != ' ' || (at != allowed && at[-1] != ' '))
            (void)sw_fail(c->run, SW_BAD_INPUT, (sw_place){0}, name, "is not asked for here; there is %s", allowed);
    }
}

/* ---- add ----------------------------------------------------------------------------------------- */

static sw_status read_records(const log_call *c, const sw_log_kind *kind, sw_log_record **records, size_t *count)
{
    const json_t *list = json_object_get(c->body, "records");
    sw_log_record common = {.kind = kind};
    *count = json_array_size(list);
    check_names(c, "by at records ");
    take_common(c, &common);
    if (*count == 0 || *count > RECORDS_MOST)
        return sw_fail(c->run, SW_BAD_INPUT, (sw_place){0}, "records", "must be a list of 1 to %d of them",
                       RECORDS_MOST);
    *records = SW_KEEP(c->run, *count, sw_log_record);
    if (*records == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < *count; i++) {
        json_t *values = json_array_get(list, i);
        sw_place place = {.file = *count < 2 ? NULL : kind->plural, .line = *count < 2 ? 0 : (int)i + 1};
        (*records)[i] = common;
        if (json_is_object(values))
            take_values(c, place, &(*records)[i], values);
        else
            (void)sw_fail(c->run, SW_BAD_INPUT, place, "records", "each must be an object of fields and values");
    }
    return c->run->error_count == 0 ? SW_OK : SW_BAD_INPUT;
}

/* Into the list of who changed what: about the stove where there is one. */
static void note(const log_call *c, const char *done, const sw_log_record *first, size_t count)
{
    char who[64], what[200];
    size_t serial = sw_log_field_find(first->kind, "serial");
    if (serial == SIZE_MAX) serial = 0;
    const char *about = first->values[serial].there ? first->values[serial].text : NULL;
    serve_caller(c->call, who);
    (void)snprintf(what, sizeof what, "%s %zu %s", done, count, count == 1 ? first->kind->name : first->kind->plural);
    json_t *by = json_string(first->by), *whom = json_string(about == NULL ? "" : about);
    serve_note(c->call->s, who, what, json_pack("{s:o, s:o}", "by", by, "about", whom));
}

static void say_added(const log_call *c, const sw_log_record *records, const int64_t *ids, size_t count,
                      size_t appended)
{
    json_t *numbers = json_array(), *verdicts = json_array();
    for (size_t i = 0; i < count; i++) {
        const char *verdict = sw_log_verdict(&records[i]);
        (void)json_array_append_new(numbers, json_integer(ids[i]));
        (void)json_array_append_new(verdicts, verdict == NULL ? json_null() : json_string(verdict));
    }
    serve_say_json(c->call, MHD_HTTP_OK,
                   json_pack("{s:s, s:o, s:I, s:o}", "kind", records[0].kind->name, "ids", numbers, "appended",
                             (json_int_t)appended, "verdicts", verdicts));
}

sw_status serve_log_add(log_call *c)
{
    const sw_log_kind *kind = NULL;
    sw_log_record *records = NULL;
    size_t count = 0, appended = 0;
    SW_TRY(sw_log_kind_named(c->run, c->what, &kind));
    SW_TRY(read_records(c, kind, &records, &count));
    int64_t *ids = SW_KEEP(c->run, count, int64_t);
    if (ids == NULL || records == NULL) return SW_NO_MEMORY;
    if (records[0].at_ms != 0)
        SW_TRY(sw_log_add_once(c->run, c->log, records, count, ids, &appended));
    else {
        SW_TRY(sw_log_add(c->run, c->log, records, count, ids));
        appended = count;
    }
    if (appended > 0) note(c, "recorded", &records[0], appended);
    say_added(c, records, ids, count, appended);
    return SW_OK;
}

/* ---- correct, withdraw ------------------------------------------------------------------------------ */

/* KIND/NUMBER */
static sw_status read_target(const log_call *c, const sw_log_kind **kind, int64_t *id)
{
    const char *slash = strchr(c->what, '/');
    char *end = NULL;
    const char *name =
        slash == NULL ? NULL : sw_text_format(c->run, c->run->keep, "%.*s", (int)(slash - c->what), c->what);
    errno = 0;
    long long number = slash == NULL ? 0 : strtoll(slash + 1, &end, 10);
    if (name == NULL || end == slash + 1 || *end != '\0' || errno != 0 || number < 1)
        return sw_fail(c->run, SW_BAD_INPUT, (sw_place){0}, "", "the address must end in KIND/NUMBER of the record");
    *id = number;
    return sw_log_kind_named(c->run, name, kind);
}

static sw_status change(log_call *c, bool withdraw)
{
    sw_log_record record = {.withdrawn = withdraw};
    int64_t id = 0, new_id = 0;
    SW_TRY(read_target(c, &record.kind, &id));
    check_names(c, withdraw ? "by why at " : "by why at values ");
    take_common(c, &record);
    take_values(c, (sw_place){0}, &record, json_object_get(c->body, "values"));
    if (c->run->error_count > 0) return SW_BAD_INPUT;
    SW_TRY(sw_log_correct(c->run, c->log, id, &record, &new_id));
    note(c, withdraw ? "withdrew" : "corrected", &record, 1);
    serve_say_json(c->call, MHD_HTTP_OK, json_pack("{s:s, s:I}", "kind", record.kind->name, "id", (json_int_t)new_id));
    return SW_OK;
}

sw_status serve_log_correct(log_call *c)
{
    return change(c, false);
}

sw_status serve_log_withdraw(log_call *c)
{
    return change(c, true);
}
