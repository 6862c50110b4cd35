/* serve_answer.c: what goes back: bytes, JSON, errors, always with the headers that keep a browser strict. */
#include "app/serve.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static const char page_policy[] =
    "default-src 'self'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data: blob:; "
    "connect-src 'self'; worker-src 'self' blob:; font-src 'self' data:; object-src 'none'; "
    "base-uri 'none'; form-action 'self'; frame-ancestors 'self'";

void serve_say_bytes(serve_call *call, unsigned status, const char *type, const void *bytes, size_t length)
{
    char *copy = malloc(length + 1);
    serve_reply *r = &call->reply;
    free(r->bytes);
    *r = (serve_reply){.status = copy == NULL ? MHD_HTTP_INSUFFICIENT_STORAGE : status, .type = type, .file = -1};
    if (copy == NULL) return;
    if (length > 0) memcpy(copy, bytes, length);
    copy[length] = '\0';
    r->bytes = copy;
    r->length = length;
}

sw_status serve_say_written(serve_call *call, sw_run *run, sw_writer *written, sw_status status, const char *type)
{
    const char *bytes = NULL;
    size_t length = 0;
    if (status != SW_OK) sw_writer_abandon(written);
    SW_TRY(status);
    SW_TRY(sw_writer_take(run, written, &bytes, &length));
    serve_say_bytes(call, MHD_HTTP_OK, type, bytes, length);
    return SW_OK;
}

void serve_say_json(serve_call *call, unsigned status, json_t *root)
{
    char *text = root == NULL ? NULL : json_dumps(root, JSON_COMPACT | JSON_REAL_PRECISION(12));
    json_decref(root);
    serve_reply *r = &call->reply;
    free(r->bytes);
    *r = (serve_reply){.status = text == NULL ? MHD_HTTP_INSUFFICIENT_STORAGE : status,
                       .type = "application/json",
                       .bytes = text,
                       .length = text == NULL ? 0 : strlen(text),
                       .file = -1};
}

/* Takes what. */
static json_t *one_error(json_t *what, const char *field, const char *file, int line, const char *remedy)
{
    return json_pack("{s:o, s:s, s:{s:s, s:i}, s:s}", "what", what, "field", field, "where", "file", file, "line", line,
                     "remedy", remedy);
}

void serve_say_error(serve_call *call, unsigned status, const char *what, const char *remedy)
{
    json_t *error = one_error(json_string(what), "", "", 0, remedy), *list = json_array();
    (void)json_array_append(list, error);
    serve_say_json(call, status, json_pack("{s:o, s:o}", "error", error, "errors", list));
}

/* The text without the project's folder, which is no business of the page. */
static json_t *page_text(const serve *s, const char *text)
{
    char out[1024];
    size_t used = 0, length = strlen(s->folder);
    while (*text != '\0' && used + 1 < sizeof out) {
        bool folder = strncmp(text, s->folder, length) == 0 && text[length] == '/';
        if (folder) text += length + 1;
        if (!folder) out[used++] = *text++;
    }
    out[used] = '\0';
    json_t *cut = json_string(out); /* NULL: the end fell into a letter */
    return cut != NULL ? cut : json_string("see the command line's message");
}

/* As the page knows the file: without the project's folder. */
static const char *page_name(const serve *s, const char *file)
{
    size_t length = strlen(s->folder);
    if (file == NULL) return "";
    return strncmp(file, s->folder, length) == 0 && file[length] == '/' ? file + length + 1 : file;
}

json_t *serve_json_of_errors(const serve *s, const sw_run *run, sw_status status)
{
    json_t *list = json_array();
    for (size_t i = 0; i < run->error_count && i < SW_ERROR_MAX; i++) {
        const sw_error *e = &run->errors[i];
        (void)json_array_append_new(list, one_error(page_text(s, e->text), e->field, page_name(s, e->place.file),
                                                    e->place.line, sw_status_remedy(e->status)));
    }
    if (json_array_size(list) == 0)
        (void)json_array_append_new(
            list, one_error(json_string(sw_status_text(status)), "", "", 0, sw_status_remedy(status)));
    return list;
}

static unsigned http_of(sw_status status)
{
    switch (status) {
    case SW_BAD_INPUT:
    case SW_OUT_OF_RANGE:
    case SW_NO_SOLUTION:
        return MHD_HTTP_UNPROCESSABLE_CONTENT;
    case SW_NO_MEMORY:
        return MHD_HTTP_INSUFFICIENT_STORAGE;
    case SW_CANCELLED:
        return MHD_HTTP_SERVICE_UNAVAILABLE;
    default:
        return MHD_HTTP_INTERNAL_SERVER_ERROR;
    }
}

void serve_say_errors(serve_call *call, const sw_run *run, sw_status status)
{
    json_t *list = serve_json_of_errors(call->s, run, status);
    serve_say_json(call, http_of(status), json_pack("{s:O, s:o}", "error", json_array_get(list, 0), "errors", list));
}

json_t *serve_body(serve_call *call)
{
    json_error_t fault;
    json_t *root = json_loadb(call->body == NULL ? "" : call->body, call->length, JSON_REJECT_DUPLICATES, &fault);
    if (json_is_object(root)) return root;
    char what[300];
    if (root == NULL)
        (void)snprintf(what, sizeof what, "the body is no JSON: %s, line %d column %d", fault.text, fault.line,
                       fault.column);
    else
        (void)snprintf(what, sizeof what, "the body must be a JSON object");
    json_decref(root);
    serve_say_error(call, MHD_HTTP_BAD_REQUEST, what, "send what docs/workbench.md asks for");
    return NULL;
}

/* ---- sending ------------------------------------------------------------------------------------------------- */

static struct MHD_Response *bare_response(serve_reply *r)
{
    if (r->file >= 0) return MHD_create_response_from_fd64(r->length, r->file);
    struct MHD_Response *made = MHD_create_response_from_buffer(
        r->length, r->bytes == NULL ? "" : r->bytes, r->bytes == NULL ? MHD_RESPMEM_PERSISTENT : MHD_RESPMEM_MUST_FREE);
    if (made == NULL) free(r->bytes);
    r->bytes = NULL;
    return made;
}

static void add(struct MHD_Response *response, const char *name, const char *value)
{
    if (value != NULL) (void)MHD_add_response_header(response, name, value);
}

static void add_cookie(struct MHD_Response *response, const serve *s)
{
    char text[256];
    (void)snprintf(text, sizeof text, "stovewright_%d=%s; Path=/; HttpOnly; SameSite=Strict", s->port, s->token);
    add(response, MHD_HTTP_HEADER_SET_COOKIE, text);
}

/* Names of pieces stand in names of files: what a header does not take becomes a line. */
static void add_name(struct MHD_Response *response, const char *name)
{
    char plain[201], text[300];
    size_t used = 0;
    for (; name[used] != '\0' && used + 1 < sizeof plain; used++) {
        bool fits = name[used] >= ' ' && name[used] < 127 && strchr("\"\\;%", name[used]) == NULL;
        plain[used] = (char)(fits ? name[used] : '_');
    }
    plain[used] = '\0';
    (void)snprintf(text, sizeof text, "attachment; filename=\"%s\"", plain);
    add(response, MHD_HTTP_HEADER_CONTENT_DISPOSITION, text);
}

struct MHD_Response *serve_response(serve_call *call)
{
    serve_reply *r = &call->reply;
    struct MHD_Response *response = bare_response(r);
    if (response == NULL) {
        if (r->file >= 0) (void)close(r->file);
        r->file = -1;
        return NULL;
    }
    add(response, MHD_HTTP_HEADER_CONTENT_TYPE, r->type);
    add(response, "Content-Security-Policy", r->policy == NULL ? page_policy : r->policy);
    add(response, "X-Content-Type-Options", "nosniff");
    add(response, "X-Frame-Options", "SAMEORIGIN");
    add(response, "Referrer-Policy", "no-referrer");
    add(response, "Cross-Origin-Resource-Policy", "same-origin");
    add(response, "Cross-Origin-Opener-Policy", "same-origin");
    add(response, MHD_HTTP_HEADER_CACHE_CONTROL, strncmp(call->path, "/api/", 5) == 0 ? "no-store" : "no-cache");
    add(response, MHD_HTTP_HEADER_LOCATION, r->location);
    if (r->gives_cookie) add_cookie(response, call->s);
    if (r->name != NULL) add_name(response, r->name);
    return response;
}

enum MHD_Result serve_send(serve_call *call)
{
    if (call->task != NULL) {
        enum MHD_Result sent = MHD_queue_response(call->connection, call->task->own.reply.status, call->task->response);
        serve_release(call);
        return sent;
    }
    unsigned status = call->reply.status;
    struct MHD_Response *response = serve_response(call);
    if (response == NULL) return MHD_NO;
    enum MHD_Result result = MHD_queue_response(call->connection, status, response);
    MHD_destroy_response(response);
    return result;
}
