/* serve_http.c: one request from its first byte to its answer, and the table of routes. */
#include "app/serve.h"

#include <stdlib.h>
#include <string.h>

/* Ours: an honest page needs a hundredth of the patience it is given (--patience), and reads faster than this. */
static const double answer_s = 300, reading_byte_s = 16384;

typedef struct route_row {
    const char *method, *path; /* a path that ends in / takes what follows as `rest` */
    void (*answer)(serve_call *call);
    unsigned how; /* SERVE_AT_ONCE_HERE ... */
} route_row;

static const route_row routes[] = {
    {"GET", "/api/project", serve_project, SERVE_SHARED},
    {"POST", "/api/compute", serve_compute, SERVE_SHARED | SERVE_HEAVY},
    {"POST", "/api/model", serve_model, SERVE_SHARED | SERVE_HEAVY},
    {"POST", "/api/picture", serve_picture, SERVE_SHARED | SERVE_PICTURE},
    {"POST", "/api/flat", serve_flat, SERVE_SHARED | SERVE_HEAVY},
    {"GET", "/api/house/", serve_house_text, SERVE_ALONE},
    {"POST", "/api/operating", serve_operating, SERVE_SHARED | SERVE_HEAVY},
    {"GET", "/api/reckon", serve_reckon_list, SERVE_SHARED},
    {"POST", "/api/reckon", serve_reckon, SERVE_ALONE},
    {"GET", "/api/watch", serve_watch, SERVE_AT_ONCE_HERE},
    {"GET", "/api/jobs", serve_job_list, SERVE_AT_ONCE_HERE},
    {"POST", "/api/job", serve_job_start, SERVE_ALONE},
    {"GET", "/api/job/", serve_job_tell, SERVE_AT_ONCE_HERE},
    {"DELETE", "/api/job/", serve_job_cancel, SERVE_ALONE},
    {"GET", "/api/variants", serve_variant_list, SERVE_ALONE},
    {"POST", "/api/variants", serve_variant_keep, SERVE_ALONE},
    {"DELETE", "/api/variants/", serve_variant_drop, SERVE_ALONE},
    {"GET", "/api/activity", serve_activity, SERVE_ALONE},
    {"POST", "/api/activity", serve_activity_add, SERVE_ALONE},
    {"GET", "/api/log/", serve_log, SERVE_ALONE},
    {"POST", "/api/log/", serve_log, SERVE_ALONE},
};

static bool leads_to(const route_row *r, const char *path)
{
    size_t length = strlen(r->path);
    return r->path[length - 1] == '/' ? strncmp(path, r->path, length) == 0 : strcmp(path, r->path) == 0;
}

static void take_route(serve_call *call, const route_row *r)
{
    call->rest = call->path + strlen(r->path);
    if ((r->how & SERVE_SHARED) != 0) { /* outlives the connection */
        call->path = r->path;
        call->method = r->method;
    }
    if ((r->how & SERVE_AT_ONCE_HERE) != 0)
        r->answer(call);
    else
        serve_ask(call, r->answer, r->how);
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
        take_route(call, &routes[i]);
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
        *line = (serve_line){.open = true, .socket = about->connect_fd, .due_s = sw_seconds() + s->patience_s};
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

/* Whether all bodies together leave room for this many bytes more. */
static bool books_bytes(serve *s, size_t more)
{
    (void)pthread_mutex_lock(&s->lock);
    bool fits = more <= SERVE_BODIES_MOST && s->body_bytes <= SERVE_BODIES_MOST - more;
    if (fits) s->body_bytes += more;
    (void)pthread_mutex_unlock(&s->lock);
    return fits;
}

static bool grow_body(serve_call *call, size_t wanted)
{
    if (!books_bytes(call->s, wanted - call->room)) return false;
    char *larger = realloc(call->body, wanted);
    size_t held = larger == NULL ? call->room : wanted;
    if (larger != NULL) call->body = larger;
    (void)pthread_mutex_lock(&call->s->lock);
    call->s->body_bytes -= wanted - held;
    (void)pthread_mutex_unlock(&call->s->lock);
    call->room = held;
    return larger != NULL;
}

static void take_body(serve_call *call, const char *bytes, size_t length)
{
    if (call->too_large || call->no_room) return;
    if (length > SERVE_BODY_MOST - call->length) {
        call->too_large = true;
        return;
    }
    if (call->length + length > call->room && !grow_body(call, 2 * (call->length + length))) {
        call->no_room = true;
        return;
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
    due_in(call, 2 * call->s->patience_s);
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

/* Says the answer, or lets the call rest until there is one. */
static void answer(serve_call *call)
{
    call->routed = true;
    due_in(call, answer_s);
    if (call->too_large)
        say_too_large(call);
    else if (call->no_room)
        serve_say_error(call, MHD_HTTP_SERVICE_UNAVAILABLE, "too much is being sent", "wait a little and ask again");
    else
        serve_route(call);
}

/* NOLINTNEXTLINE(readability-function-size): the library sets the arguments */
enum MHD_Result serve_handle(void *server, struct MHD_Connection *connection, const char *url, const char *method,
                             const char *version, const char *upload, size_t *upload_size, void **context)
{
    (void)version;
    serve_call *call = *context == NULL ? open_call(server, connection) : *context;
    *context = call;
    if (call == NULL) return MHD_NO;
    if (!call->routed) {
        call->path = url;
        call->method = method;
    }
    if (!call->judged) return judge(call) ? MHD_YES : serve_send(call);
    if (*upload_size > 0) {
        take_body(call, upload, *upload_size);
        *upload_size = 0;
        return MHD_YES;
    }
    if (!call->routed) answer(call);
    if (call->resting) { /* not called again before it is resumed */
        call->resting = false;
        return MHD_YES;
    }
    if (call->task == NULL && call->reply.status == 0)
        serve_say_error(call, MHD_HTTP_SERVICE_UNAVAILABLE, "stopped, or too much at once",
                        "wait a little and ask again");
    size_t length = call->task == NULL ? call->reply.length : call->task->length;
    due_in(call, 2 * call->s->patience_s + (double)length / reading_byte_s);
    return serve_send(call);
}

void serve_ended(void *server, struct MHD_Connection *connection, void **context, enum MHD_RequestTerminationCode why)
{
    (void)server;
    (void)connection;
    (void)why;
    serve_call *call = *context;
    if (call == NULL) return;
    due_in(call, 3 * call->s->patience_s);
    serve_release(call);
    (void)pthread_mutex_lock(&call->s->lock);
    call->s->body_bytes -= call->room;
    (void)pthread_mutex_unlock(&call->s->lock);
    free(call->body);
    free(call->reply.bytes);
    free(call->reply.name);
    free(call);
    *context = NULL;
}
