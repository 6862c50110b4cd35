/* serve_gate.c: who may ask: Host against rebound names, Origin and our own header against other pages, the cookie
 * against everyone else. */
#include "app/serve.h"

#include <arpa/inet.h>
#include <errno.h>
#include <string.h>
#include <strings.h>
#include <sys/random.h>

sw_status serve_make_token(sw_run *run, const char **token)
{
    unsigned char bytes[16];
    char *text = SW_KEEP(run, 2 * sizeof bytes + 1, char);
    if (text == NULL) return SW_NO_MEMORY;
    if (getrandom(bytes, sizeof bytes, 0) != (ssize_t)sizeof bytes)
        return sw_fail(run, SW_IO, (sw_place){0}, "serve", "no random numbers: %s", strerror(errno));
    for (size_t i = 0; i < sizeof bytes; i++) {
        text[2 * i] = "0123456789abcdef"[bytes[i] >> 4];
        text[2 * i + 1] = "0123456789abcdef"[bytes[i] & 15];
    }
    *token = text;
    return SW_OK;
}

/* Takes the same time wherever they differ. */
static bool same_secret(const char *a, size_t a_length, const char *b)
{
    unsigned differs = a_length != strlen(b);
    for (size_t i = 0; i < a_length && b[i] != '\0'; i++) differs |= (unsigned)(a[i] ^ b[i]);
    return differs == 0;
}

bool serve_token_fits(const serve *s, const char *given)
{
    return given != NULL && same_secret(given, strlen(given), s->token);
}

static const char *header(const serve_call *call, const char *name)
{
    return MHD_lookup_connection_value(call->connection, MHD_HEADER_KIND, name);
}

/* The cookie carries the port: servers of one machine share its cookies. */
bool serve_has_cookie(const serve_call *call)
{
    char name[40];
    (void)snprintf(name, sizeof name, "stovewright_%d=", call->s->port);
    const char *at = header(call, MHD_HTTP_HEADER_COOKIE);
    while (at != NULL && *at != '\0') {
        at += strspn(at, "; ");
        size_t length = strcspn(at, ";");
        size_t head = strlen(name);
        if (strncmp(at, name, head) == 0 && length >= head && same_secret(at + head, length - head, call->s->token))
            return true;
        at += length;
    }
    return false;
}

/* A name may be made to point at this machine by anyone; a number may not. */
static bool is_number(const char *host, size_t length)
{
    char text[64];
    struct in6_addr number;
    bool six = length > 2 && host[0] == '[' && host[length - 1] == ']';
    if (six) {
        host++;
        length -= 2;
    }
    if (length >= sizeof text) return false;
    memcpy(text, host, length);
    text[length] = '\0';
    return inet_pton(six ? AF_INET6 : AF_INET, text, &number) == 1;
}

static bool good_host(const serve *s, const char *host)
{
    char port[16];
    int written = snprintf(port, sizeof port, ":%d", s->port);
    if (host == NULL) return false;
    size_t length = strlen(host), tail = (size_t)written;
    if (length <= tail || strcmp(host + length - tail, port) != 0) {
        if (s->port != 80 || length == 0) return false;
        tail = 0; /* browsers leave the usual port out */
    }
    length -= tail;
    if (length == 9 && strncasecmp(host, "localhost", 9) == 0) return s->loopback;
    return is_number(host, length);
}

static bool good_origin(const serve_call *call, const char *host)
{
    const char *origin = header(call, MHD_HTTP_HEADER_ORIGIN), *site = header(call, "Sec-Fetch-Site");
    if (site != NULL && strcmp(site, "same-origin") != 0 && strcmp(site, "none") != 0) return false;
    if (origin == NULL) return true; /* no browser, or the same page */
    return strncmp(origin, "http://", 7) == 0 && strcasecmp(origin + 7, host) == 0;
}

static bool changes(const serve_call *call)
{
    return strcmp(call->method, MHD_HTTP_METHOD_POST) == 0 || strcmp(call->method, MHD_HTTP_METHOD_DELETE) == 0;
}

bool serve_gate(serve_call *call)
{
    const char *host = header(call, MHD_HTTP_HEADER_HOST), *mark = header(call, "X-Stovewright");
    bool api = strncmp(call->path, "/api/", 5) == 0;
    if (!good_host(call->s, host)) {
        serve_say_error(call, MHD_HTTP_MISDIRECTED_REQUEST, "this Host is not served here",
                        "open the address that stovewright serve has printed");
        return false;
    }
    if (!api) return true; /* the page itself; serve_static looks at the cookie */
    if (!serve_has_cookie(call)) {
        serve_say_error(call, MHD_HTTP_UNAUTHORIZED, "no session",
                        "open the address that stovewright serve has printed; then call again");
        return false;
    }
    if (!good_origin(call, host)) {
        serve_say_error(call, MHD_HTTP_FORBIDDEN, "asked by another page", "ask from the workbench's own page");
        return false;
    }
    if (changes(call) && (mark == NULL || strcmp(mark, "1") != 0)) {
        serve_say_error(call, MHD_HTTP_FORBIDDEN, "the header X-Stovewright: 1 is missing",
                        "send it with POST and DELETE");
        return false;
    }
    return true;
}
