/* serve_http.c: one request from its first byte to its answer, and the table of routes. */
#include "app/serve.h"

#include <stdlib.h>
#include <string.h>

/* Ours: what an honest page needs is a hundredth of these. */
static const double head_s = 15, body_s = 30, answer_s = 300, idle_s = 45;

typedef struct route_row {
    const char *method, *path; /* a path that ends in / takes what follows as `rest` */
    void (*answer)(serve_call *call);
} route_row;

static void no_log(serve_call *call)
{
    serve_say_error(call, MHD_HTTP_NOT_IMPLEMENTED, "the workbench does not read the works' log",
                    "ask it with stovewright log FILE");
}

static const route_row routes[] = {
    {"GET", "/api/project", serve_project},
    {"POST", "/api/compute", serve_compute},
    {"POST", "/api/model", serve_model},
    {"POST", "/api/flat", serve_flat},
    {"GET", "/api/reckon", serve_reckon_list},
    {"POST", "/api/reckon", serve_reckon},
    {"GET", "/api/watch", serve_watch},
    {"GET", "/api/jobs", serve_job_list},
    {"POST", "/api/job", serve_job_start},
    {"GET", "/api/job/", serve_job_tell},
    {"DELETE", "/api/job/", serve_job_cancel},
    {"GET", "/api/variants", serve_variant_list},
    {"POST", "/api/variants", serve_variant_keep},
    {"DELETE", "/api/variants/", serve_variant_drop},
    {"GET", "/api/activity", serve_activity},
    {"POST", "/api/activity", serve_activity_add},
    {"GET", "/api/log/", serve_log},
    {"POST", "/api/log/", serve_log},
};

static bool leads_to(const route_row *r, const char *path)
{
    size_t length = strlen(r->path);
    return r->path[length - 1] == '/' ? strncmp(path, r->path, length) == 0 : strcmp(path, r->path) == 0;
}

void serve_route(serve_call *call)
{
    bool known = false;
    if (strncmp(call->path, "/api/", 5) != 0) {
        serve_static(call);
        return;
    }
    for (size_t i = 0; i < sizeof routes / sizeof *routes; i++) {
        if (!leads_to(&routes[i], call->path)) continue;
        known = true;
        if (strcmp(routes[i].method, call->method) != 0) continue;
        call->rest = call->path + strlen(routes[i].path);
        routes[i].answer(call);
        return;
    }
    if (known)
        serve_say_error(call, MHD_HTTP_METHOD_NOT_ALLOWED, "not with this method", "see docs/workbench.md");
    else
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is nothing under this address", "see docs/workbench.md");
}

/* ---- connections: each is to get on ------------------------------------------------------------------------------ */

static void due_in(serve_call *call, double seconds)
{
    if (call->line == NULL) return;
    (void)pthread_mutex_lock(&call->s->lock);
    call->line->due_s = sw_seconds() + seconds;
    (void)pthread_mutex_unlock(&call->s->lock);
}

static serve_line *free_line(serve *s)
{
    for (size_t i = 0; i < SERVE_CONNECTIONS; i++)
        if (!s->lines[i].open) return &s->lines[i];
    return NULL;
}

void serve_connected(void *server, struct MHD_Connection *connection, void **context,
                     enum MHD_ConnectionNotificationCode what)
{
    serve *s = server;
    const union MHD_ConnectionInfo *about = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    (void)pthread_mutex_lock(&s->lock);
    serve_line *line = what == MHD_CONNECTION_NOTIFY_STARTED ? free_line(s) : *context;
    if (line != NULL && what == MHD_CONNECTION_NOTIFY_STARTED && about != NULL)
        *line = (serve_line){.open = true, .socket = about->connect_fd, .due_s = sw_seconds() + head_s};
    if (line != NULL && what == MHD_CONNECTION_NOTIFY_CLOSED) line->open = false;
    *context = line;
    (void)pthread_mutex_unlock(&s->lock);
}

/* ---- the body ---------------------------------------------------------------------------------------------------------- */

static bool announces_too_much(const serve_call *call)
{
    const char *text = MHD_lookup_connection_value(call->connection, MHD_HEADER_KIND, MHD_HTTP_HEADER_CONTENT_LENGTH);
    return text != NULL && (strlen(text) > 9 || strtol(text, NULL, 10) > SERVE_BODY_MOST);
}

static void take_body(serve_call *call, const char *bytes, size_t length)
{
    if (call->too_large || length > SERVE_BODY_MOST - call->length) {
        call->too_large = true;
        return;
    }
    if (call->length + length > call->room) {
        size_t wanted = 2 * (call->length + length);
        char *larger = realloc(call->body, wanted);
        call->too_large = larger == NULL;
        if (larger == NULL) return;
        call->body = larger;
        call->room = wanted;
    }
    memcpy(call->body + call->length, bytes, length);
    call->length += length;
}

static bool known_method(const char *method)
{
    return strcmp(method, "GET") == 0 || strcmp(method, "HEAD") == 0 || strcmp(method, "POST") == 0 ||
           strcmp(method, "DELETE") == 0;
}

static void say_too_large(serve_call *call)
{
    serve_say_error(call, MHD_HTTP_CONTENT_TOO_LARGE, "the body is larger than 1 MiB", "send less");
}

/* What can be refused before the body is. False: the refusal is said. */
static bool judge(serve_call *call)
{
    call->judged = true;
    due_in(call, body_s);
    if (!known_method(call->method)) {
        serve_say_error(call, MHD_HTTP_METHOD_NOT_ALLOWED, "not with this method", "use GET, POST or DELETE");
        return false;
    }
    if (!serve_gate(call)) return false;
    if (announces_too_much(call)) say_too_large(call);
    return call->reply.status == 0;
}

/* ---- what the library calls -------------------------------------------------------------------------------------------- */

static serve_call *open_call(serve *s, struct MHD_Connection *connection)
{
    serve_call *call = calloc(1, sizeof *call);
    if (call == NULL) return NULL;
    const union MHD_ConnectionInfo *about = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    call->s = s;
    call->connection = connection;
    call->line = about == NULL ? NULL : about->socket_context;
    call->reply.file = -1;
    return call;
}

/* A NUL in an address would end it early; it stays written as it came and leads nowhere. */
size_t serve_unescape(void *server, struct MHD_Connection *connection, char *text)
{
    (void)server;
    (void)connection;
    return strstr(text, "%00") != NULL ? strlen(text) : MHD_http_unescape(text);
}

/* NOLINTNEXTLINE(readability-function-size): the library sets the arguments */
enum MHD_Result serve_handle(void *server, struct MHD_Connection *connection, const char *url, const char *method,
                             const char *version, const char *upload, size_t *upload_size, void **context)
{
    (void)version;
    serve_call *call = *context == NULL ? open_call(server, connection) : *context;
    *context = call;
    if (call == NULL) return MHD_NO;
    call->path = url;
    call->method = method;
    if (!call->judged) return judge(call) ? MHD_YES : serve_send(call);
    if (*upload_size > 0) {
        take_body(call, upload, *upload_size);
        *upload_size = 0;
        return MHD_YES;
    }
    due_in(call, answer_s);
    if (call->too_large)
        say_too_large(call);
    else
        serve_route(call);
    due_in(call, answer_s);
    return serve_send(call);
}

void serve_ended(void *server, struct MHD_Connection *connection, void **context, enum MHD_RequestTerminationCode why)
{
    (void)server;
    (void)connection;
    (void)why;
    serve_call *call = *context;
    if (call == NULL) return;
    due_in(call, idle_s);
    free(call->body);
    free(call->reply.bytes);
    free(call->reply.name);
    free(call);
    *context = NULL;
}
