/* serve_static.c: the page's own files, and nothing outside their folder. */
#define _XOPEN_SOURCE 700 /* realpath; NOLINT(bugprone-reserved-identifier,cert-dcl37-c,cert-dcl51-cpp) */
#include "app/serve.h"

#include <fcntl.h>
#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct type_row {
    const char *ending, *type;
} type_row;

static const type_row types[] = {
    {".html", "text/html; charset=utf-8"},
    {".js", "text/javascript; charset=utf-8"},
    {".mjs", "text/javascript; charset=utf-8"},
    {".css", "text/css; charset=utf-8"},
    {".json", "application/json"},
    {".map", "application/json"},
    {".webmanifest", "application/manifest+json"},
    {".svg", "image/svg+xml"},
    {".png", "image/png"},
    {".jpg", "image/jpeg"},
    {".ico", "image/vnd.microsoft.icon"},
    {".woff2", "font/woff2"},
    {".wasm", "application/wasm"},
    {".glb", "model/gltf-binary"},
    {".pdf", "application/pdf"},
    {".csv", "text/csv; charset=utf-8"},
    {".dxf", "image/vnd.dxf"},
    {".txt", "text/plain; charset=utf-8"},
    {".lua", "text/plain; charset=utf-8"},
};

static const char built_in_page[] =
    "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Stovewright</title>"
    "<h1>Stovewright</h1><p>The server runs, but the workbench's page has not been built. Build it once:</p>"
    "<pre>cd web\nnpm ci\nnpm run build</pre>"
    "<p>and start <code>stovewright serve</code> again, or name its folder with <code>--web FOLDER</code>.</p>"
    "<p>The interface answers already: <a href=\"/api/project\">the project</a>.</p></html>\n";

static const char locked_page[] = "<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><title>Stovewright</title>"
                                  "<h1>Stovewright</h1><p>Open the address that <code>stovewright serve</code> has "
                                  "printed; it ends in <code>?token=...</code>.</p></html>\n";

const char *serve_type_of(const char *path)
{
    size_t length = strlen(path);
    for (size_t i = 0; i < sizeof types / sizeof *types; i++) {
        size_t tail = strlen(types[i].ending);
        if (length > tail && strcmp(path + length - tail, types[i].ending) == 0) return types[i].type;
    }
    return "application/octet-stream";
}

/* Letters, digits and - _ . between slashes; no part starts with a point. */
static bool plain_path(const char *path)
{
    char before = '/';
    for (const char *c = path; *c != '\0'; before = *c++) {
        bool letter = (*c >= 'a' && *c <= 'z') || (*c >= 'A' && *c <= 'Z') || (*c >= '0' && *c <= '9');
        if (!letter && strchr("-_./", *c) == NULL) return false;
        if (before == '/' && (*c == '.' || (*c == '/' && c != path))) return false;
    }
    return strlen(path) < 1000;
}

void serve_send_file(serve_call *call, const char *folder, const char *path)
{
    char wanted[PATH_MAX], real[PATH_MAX], home[PATH_MAX];
    struct stat about;
    int written = snprintf(wanted, sizeof wanted, "%s/%s", folder, path);
    bool found = written > 0 && (size_t)written < sizeof wanted && realpath(wanted, real) != NULL &&
                 realpath(folder, home) != NULL;
    size_t length = found ? strlen(home) : 0;
    if (found) found = strncmp(real, home, length) == 0 && real[length] == '/'; /* no link leads out */
    int file = found ? open(real, O_RDONLY | O_CLOEXEC | O_NONBLOCK) : -1;
    if (file >= 0 && (fstat(file, &about) != 0 || !S_ISREG(about.st_mode))) {
        (void)close(file);
        file = -1;
    }
    if (file < 0) {
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is no such file", "see the page's own links");
        return;
    }
    call->reply = (serve_reply){
        .status = MHD_HTTP_OK, .type = serve_type_of(path), .file = file, .length = (size_t)about.st_size};
}

/* With the token in the address: the cookie, and the address without it. */
static void let_in(serve_call *call)
{
    serve_say_bytes(call, MHD_HTTP_SEE_OTHER, "text/plain; charset=utf-8", "", 0);
    call->reply.location = "/";
    call->reply.gives_cookie = true;
}

static void send_index(serve_call *call)
{
    if (call->s->web == NULL)
        serve_say_bytes(call, MHD_HTTP_OK, "text/html; charset=utf-8", built_in_page, sizeof built_in_page - 1);
    else
        serve_send_file(call, call->s->web, "index.html");
    call->reply.gives_cookie = !call->s->token_asked && call->reply.status == MHD_HTTP_OK;
}

void serve_static(serve_call *call)
{
    const char *token = MHD_lookup_connection_value(call->connection, MHD_GET_ARGUMENT_KIND, "token");
    bool reads = strcmp(call->method, "GET") == 0 || strcmp(call->method, "HEAD") == 0;
    bool index = strcmp(call->path, "/") == 0 || strcmp(call->path, "/index.html") == 0;
    if (!reads)
        serve_say_error(call, MHD_HTTP_METHOD_NOT_ALLOWED, "not with this method", "use GET");
    else if (index && serve_token_fits(call->s, token))
        let_in(call);
    else if (call->s->token_asked && !serve_has_cookie(call))
        serve_say_bytes(call, MHD_HTTP_UNAUTHORIZED, "text/html; charset=utf-8", locked_page, sizeof locked_page - 1);
    else if (index)
        send_index(call);
    else if (call->s->web == NULL || !plain_path(call->path))
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is no such file", "see the page's own links");
    else
        serve_send_file(call, call->s->web, call->path + 1);
}
