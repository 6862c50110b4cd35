/* serve_log.c: the works' log over HTTP: the verbs of `stovewright log`, by the same table of kinds. One call at a time has the
 * file open (log.h says why). What is entered is read in serve_log_enter.c. */
#include "app/serve_log.h"
#include "app/print_log.h"

#include <errno.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

/* Ours: a page waits less patiently than a script, and shows no more than a person reads. */
static const double wait_s = 3;
enum { LOG_MEMORY_MB = 128, LIST_MOST = 1000, LIST_PRESET = 100, SERIALS_PRESET = 50, TURN_S = 15 };

static const char *base_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash == NULL ? path : slash + 1;
}

/* ---- the file ------------------------------------------------------------------------------------ */

/* Where the log lies on this machine is no business of the page: its name is. */
static void hide_path(log_call *c)
{
    sw_run *run = c->run;
    const char *path = c->call->s->log, *name = base_name(path);
    for (size_t i = 0; i < run->error_count && i < SW_ERROR_MAX; i++) {
        sw_error *e = &run->errors[i];
        const char *at = strstr(e->text, path);
        if (strstr(e->field, path) != NULL) e->field = name;
        if (at == NULL) continue;
        const char *text =
            sw_text_format(run, run->keep, "%.*s%s%s", (int)(at - e->text), e->text, name, at + strlen(path));
        e->text = text == NULL ? "see the command line's message" : text;
    }
}

static bool may_write(const char *path)
{
    char folder[PATH_MAX];
    const char *slash = strrchr(path, '/');
    (void)snprintf(folder, sizeof folder, "%.*s", slash == NULL ? 1 : (int)(slash - path + 1),
                   slash == NULL ? "." : path);
    return access(folder, W_OK) == 0 && (access(path, W_OK) == 0 || errno == ENOENT);
}

/* Looked through for damage when the page opens; later what a call meets is told. */
static sw_status open_log(log_call *c, sw_log_mode mode, bool look)
{
    sw_log_options options = sw_log_defaults(mode);
    options.wait_s = wait_s;
    if (!look) options.look_most_bytes = 0;
    return sw_log_open(c->run, c->call->s->log, &options, &c->log);
}

/* A log that cannot be used is an answer here, not a fault. */
static sw_status tell_about(log_call *c)
{
    struct stat about;
    const char *path = c->call->s->log, *state = "open";
    sw_status status = SW_OK;
    if (stat(path, &about) != 0 && errno == ENOENT)
        state = "missing";
    else if ((status = open_log(c, SW_LOG_READ, true)) != SW_OK)
        state = "unusable";
    hide_path(c);
    json_t *errors = status == SW_OK ? json_array() : serve_json_of_errors(c->call->s, c->run, status);
    serve_say_json(c->call, MHD_HTTP_OK,
                   json_pack("{s:s, s:s, s:i, s:i, s:b, s:o}", "file", base_name(path), "state", state, "version",
                             c->log == NULL ? 0 : sw_log_version(c->log), "newest", SW_LOG_VERSION, "writable",
                             may_write(path), "errors", errors));
    return SW_OK;
}

static sw_status make_log(log_call *c)
{
    const char *name = base_name(c->call->s->log);
    char who[64];
    serve_caller(c->call, who);
    serve_note(c->call->s, who, "log made", json_string(name));
    serve_say_json(c->call, MHD_HTTP_OK, json_pack("{s:s}", "file", name));
    return SW_OK;
}

static sw_status tell_kinds(log_call *c)
{
    serve_say_json(c->call, MHD_HTTP_OK, sw_log_json_kinds());
    return SW_OK;
}

/* ---- lists ----------------------------------------------------------------------------------------- */

static sw_status read_most(log_call *c, size_t preset, size_t *most)
{
    const char *text = MHD_lookup_connection_value(c->call->connection, MHD_GET_ARGUMENT_KIND, "most");
    char *end = NULL;
    *most = preset;
    if (text == NULL || text[0] == '\0') return SW_OK;
    long value = strtol(text, &end, 10);
    if (*end != '\0' || value < 1 || value > LIST_MOST)
        return sw_fail(c->run, SW_BAD_INPUT, (sw_place){0}, "most", "must be a whole number from 1 to %d", LIST_MOST);
    *most = (size_t)value;
    return SW_OK;
}

/* Descriptions are long, and no list shows them. */
static sw_status list_record(void *context, const sw_log_record *record)
{
    log_call *c = context;
    sw_log_record shown = *record;
    for (size_t i = 0; i < shown.kind->field_count; i++)
        if (shown.kind->fields[i].type == SW_LOG_DOCUMENT) shown.values[i].there = false;
    return json_array_append_new(c->list, sw_log_json_record(&shown)) == 0 ? SW_OK : SW_NO_MEMORY;
}

typedef struct filter {
    sw_run *run;
    sw_log_query *query;
} filter;

static enum MHD_Result take_filter(void *context, enum MHD_ValueKind from, const char *name, const char *text)
{
    const filter *f = context;
    sw_log_query *q = f->query;
    (void)from;
    if (text == NULL) text = "";
    if (strcmp(name, "all") == 0)
        q->all = strcmp(text, "1") == 0;
    else if (strcmp(name, "from") == 0)
        (void)sw_log_time_read(f->run, (sw_place){0}, name, text, &q->from_ms);
    else if (strcmp(name, "until") == 0)
        (void)sw_log_time_read(f->run, (sw_place){0}, name, text, &q->to_ms);
    else if (strcmp(name, "most") != 0)
        serve_log_take_text(f->run, (sw_place){0}, &q->like, name, text);
    return MHD_YES;
}

static sw_status list_kind(log_call *c)
{
    sw_log_query query = {.newest = true};
    const sw_log_kind *kind = NULL;
    size_t most = 0;
    SW_TRY(sw_log_kind_named(c->run, c->what, &kind));
    SW_TRY(read_most(c, LIST_PRESET, &most));
    query.like.kind = kind;
    query.most = most + 1;
    filter f = {c->run, &query};
    (void)MHD_get_connection_values(c->call->connection, MHD_GET_ARGUMENT_KIND, take_filter, &f);
    if (c->run->error_count > 0) return SW_BAD_INPUT;
    SW_TRY(sw_log_visit(c->run, c->log, &query, list_record, c));
    bool more = json_array_size(c->list) > most;
    if (more) (void)json_array_remove(c->list, most);
    serve_say_json(c->call, MHD_HTTP_OK,
                   json_pack("{s:s, s:O, s:b}", "kind", kind->name, "records", c->list, "more", more));
    return SW_OK;
}

static sw_status list_history(log_call *c)
{
    sw_log_records history;
    SW_TRY(sw_log_history(c->run, c->log, c->what, &history));
    for (size_t i = 0; i < history.count; i++) SW_TRY(list_record(c, &history.items[i]));
    serve_say_json(c->call, MHD_HTTP_OK, json_pack("{s:s, s:O}", "serial", c->what, "records", c->list));
    return SW_OK;
}

static sw_status list_stock(log_call *c)
{
    const sw_log_remnant *stock = NULL;
    size_t count = 0;
    SW_TRY(sw_log_stock(c->run, c->log, &stock, &count));
    serve_say_json(c->call, MHD_HTTP_OK, sw_log_json_stock(stock, count));
    return SW_OK;
}

static sw_status list_statistics(log_call *c)
{
    sw_log_statistics statistics;
    SW_TRY(sw_log_reckon(c->run, c->log, &statistics));
    serve_say_json(c->call, MHD_HTTP_OK, sw_log_json_statistics(&statistics));
    return SW_OK;
}

/* ---- stoves, each with how it stands ----------------------------------------------------------------- */

typedef struct search {
    log_call *c;
    const char *find; /* a part of number, batch or note; "" = any */
    size_t most;
} search;

static bool holds_part(const char *text, const char *part)
{
    size_t n = strlen(part);
    for (; n > 0 && *text != '\0'; text++)
        if (strncasecmp(text, part, n) == 0) return true;
    return n == 0;
}

static sw_status list_serial(void *context, const sw_log_record *r)
{
    const search *s = context;
    const char *number = sw_log_text(r, "number"), *batch = sw_log_text(r, "batch"), *note = sw_log_text(r, "note");
    char at[SW_LOG_TIME_ROOM];
    if (!holds_part(number, s->find) && !holds_part(batch, s->find) && !holds_part(note, s->find)) return SW_OK;
    sw_log_time_text(r->at_ms, at);
    (void)json_array_append_new(s->c->list,
                                json_pack("{s:s, s:s, s:s, s:s, s:s, s:{}, s:i, s:i}", "number", number, "batch", batch,
                                          "note", note, "at", at, "by", r->by, "counts", "outside", 0, "open", 0));
    return json_array_size(s->c->list) > s->most ? SW_CANCELLED : SW_OK;
}

static void count_up(json_t *counts, const char *name)
{
    (void)json_object_set_new(counts, name, json_integer(json_integer_value(json_object_get(counts, name)) + 1));
}

static sw_status tally(void *context, const sw_log_record *r)
{
    json_t *stove = context;
    const char *verdict = sw_log_verdict(r);
    count_up(json_object_get(stove, "counts"), r->kind->name);
    if ((verdict != NULL && strcmp(verdict, "outside") == 0) || strcmp(sw_log_text(r, "result"), "fail") == 0)
        count_up(stove, "outside");
    if (strcmp(sw_log_text(r, "decision"), "open") == 0 || strcmp(sw_log_text(r, "state"), "stop") == 0)
        count_up(stove, "open");
    return SW_OK;
}

/* What holds of it: how many of each kind, how many outside their limits, what is still to be decided. */
static sw_status tally_stove(log_call *c, json_t *stove)
{
    const char *number = json_string_value(json_object_get(stove, "number"));
    for (size_t i = 0; i < sw_log_kind_count(); i++) {
        sw_log_query query = {.like = {.kind = sw_log_kind_at(i)}};
        size_t serial = sw_log_field_find(query.like.kind, "serial");
        if (serial == SIZE_MAX) continue;
        query.like.values[serial] = (sw_log_value){.there = true, .text = number};
        SW_TRY(sw_log_visit(c->run, c->log, &query, tally, stove));
    }
    return SW_OK;
}

static sw_status list_serials(log_call *c)
{
    const char *find = MHD_lookup_connection_value(c->call->connection, MHD_GET_ARGUMENT_KIND, "find");
    const sw_log_query query = {.like = {.kind = sw_log_kind_find("serial")}, .newest = true};
    search s = {.c = c, .find = find == NULL ? "" : find};
    SW_TRY(read_most(c, SERIALS_PRESET, &s.most));
    sw_status status = sw_log_visit(c->run, c->log, &query, list_serial, &s);
    if (status != SW_OK && status != SW_CANCELLED) return status;
    bool more = json_array_size(c->list) > s.most;
    if (more) (void)json_array_remove(c->list, s.most);
    for (size_t i = 0; i < json_array_size(c->list); i++) SW_TRY(tally_stove(c, json_array_get(c->list, i)));
    serve_say_json(c->call, MHD_HTTP_OK, json_pack("{s:O, s:b}", "serials", c->list, "more", more));
    return SW_OK;
}

/* ---- which call ---------------------------------------------------------------------------------------- */

typedef struct log_row {
    const char *method, *verb; /* a verb that ends in / takes what follows */
    int mode;                  /* sw_log_mode; -1 = opens nothing, or itself */
    sw_status (*work)(log_call *c);
} log_row;

static const log_row rows[] = {
    {"GET", "about", -1, tell_about},
    {"GET", "kinds", -1, tell_kinds},
    {"GET", "serials", SW_LOG_READ, list_serials},
    {"GET", "history/", SW_LOG_READ, list_history},
    {"GET", "list/", SW_LOG_READ, list_kind},
    {"GET", "stock", SW_LOG_READ, list_stock},
    {"GET", "stats", SW_LOG_READ, list_statistics},
    {"POST", "new", SW_LOG_CREATE, make_log},
    {"POST", "add/", SW_LOG_WRITE, serve_log_add},
    {"POST", "correct/", SW_LOG_WRITE, serve_log_correct},
    {"POST", "withdraw/", SW_LOG_WRITE, serve_log_withdraw},
};

static const log_row *find_row(const serve_call *call, bool *known)
{
    *known = false;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        size_t n = strlen(rows[i].verb);
        bool open = rows[i].verb[n - 1] == '/';
        if (open ? strncmp(call->rest, rows[i].verb, n) != 0 || call->rest[n] == '\0'
                 : strcmp(call->rest, rows[i].verb) != 0)
            continue;
        *known = true;
        if (strcmp(rows[i].method, call->method) == 0) return &rows[i];
    }
    return NULL;
}

/* False: others had the file all the time. */
static bool take_turn(serve *s)
{
    struct timespec until = {0};
    (void)clock_gettime(CLOCK_REALTIME, &until);
    until.tv_sec += TURN_S;
    return pthread_mutex_timedlock(&s->log_lock, &until) == 0;
}

static void answer(log_call *c, const log_row *row)
{
    serve_call *call = c->call;
    if (!take_turn(call->s)) {
        serve_say_error(call, MHD_HTTP_SERVICE_UNAVAILABLE, "others are writing into the log; nothing was recorded",
                        "wait a little and do it again");
        return;
    }
    sw_status status = row->mode < 0 ? SW_OK : open_log(c, (sw_log_mode)row->mode, false);
    if (status == SW_OK) status = row->work(c);
    sw_log_close(c->log);
    (void)pthread_mutex_unlock(&call->s->log_lock);
    if (status == SW_OK) return;
    hide_path(c);
    serve_say_errors(call, c->run, status);
    if (row->work == list_history && status == SW_BAD_INPUT) call->reply.status = MHD_HTTP_NOT_FOUND;
}

static void work_on(serve_call *call, const log_row *row, const json_t *body)
{
    sw_run run;
    log_call c = {.call = call, .run = &run, .what = call->rest + strlen(row->verb), .body = body};
    c.list = json_array();
    if (c.list == NULL || sw_run_open(&run, (size_t)LOG_MEMORY_MB << 20) != SW_OK)
        serve_say_error(call, MHD_HTTP_INSUFFICIENT_STORAGE, "no memory for this", "wait a little and ask again");
    else {
        answer(&c, row);
        sw_run_close(&run);
    }
    json_decref(c.list);
}

void serve_log(serve_call *call)
{
    bool known = false;
    const log_row *row = find_row(call, &known);
    if (row == NULL || !sw_text_is_utf8(call->rest, strlen(call->rest))) {
        if (known && row == NULL)
            serve_say_error(call, MHD_HTTP_METHOD_NOT_ALLOWED, "not with this method", "see docs/workbench.md");
        else
            serve_say_error(call, MHD_HTTP_NOT_FOUND, "the log has nothing under this address",
                            "see docs/workbench.md");
        return;
    }
    if (strcmp(row->method, "GET") == 0) {
        work_on(call, row, NULL);
        return;
    }
    json_t *body = serve_body(call);
    if (body == NULL) return;
    work_on(call, row, body);
    json_decref(body);
}
