/* The workbench's server as strangers and fools meet it: who may ask, what is sent, what is cut off, how it stops. */
#include "program.h"
#include "serve_fixture.h"

#include <errno.h>

/* ---- who may ask -------------------------------------------------------------------------------------------------- */

static void the_page_of_this_machine_gets_its_cookie_by_itself(sw_test *t)
{
    server s;
    start(t, &s, project(t), NULL);
    answers(t, got(t, &s, "/api/project"), 401);
    const char *page = got(t, &s, "/");
    answers(t, page, 200);
    sw_contains(t, page, "HttpOnly; SameSite=Strict");
    sw_contains(t, page, "Content-Security-Policy: default-src 'self'");
    sw_contains(t, page, "connect-src 'self';");
    take_cookie(t, &s, page);
    answers(t, got(t, &s, "/api/project"), 200);
    s.cookie[strlen(s.cookie) - 3] ^= 1; /* its last letter */
    answers(t, got(t, &s, "/api/project"), 401);
    stop(t, &s);
}

static void a_given_token_must_be_shown(sw_test *t)
{
    static const char *const more[] = {"--token", "a-token-of-some-length", NULL};
    server s;
    start(t, &s, project(t), more);
    const char *locked = got(t, &s, "/");
    answers(t, locked, 401);
    sw_true(t, strstr(locked, "Set-Cookie") == NULL);
    answers(t, got(t, &s, "/?token=a-token-of-some-lengti"), 401);
    answers(t, got(t, &s, "/?token="), 401);
    const char *opened = got(t, &s, "/?token=a-token-of-some-length");
    answers(t, opened, 303);
    take_cookie(t, &s, opened);
    answers(t, got(t, &s, "/"), 200);
    answers(t, got(t, &s, "/api/project"), 200);
    stop(t, &s);
}

typedef struct stranger {
    const char *headers;
    int code;
} stranger;

static void other_pages_are_refused(sw_test *t)
{
    static const stranger strangers[] = {
        {"", 403},
        {"X-Stovewright: 1\r\nOrigin: http://elsewhere.example\r\n", 403},
        {"X-Stovewright: 1\r\nOrigin: null\r\n", 403},
        {"X-Stovewright: 1\r\nOrigin: http://127.0.0.1:1\r\n", 403},
        {"X-Stovewright: 1\r\nSec-Fetch-Site: cross-site\r\n", 403},
        {"X-Stovewright: 2\r\n", 403},
        {"X-Stovewright: 1\r\nSec-Fetch-Site: same-origin\r\n", 200},
    };
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < sizeof strangers / sizeof *strangers; i++)
        answers(t, asked(t, &s, "POST", "/api/activity", strangers[i].headers, "{\"what\":\"x\"}"), strangers[i].code);
    const char *own =
        sw_text_format(&t->run, t->run.keep, "X-Stovewright: 1\r\nOrigin: http://127.0.0.1:%d\r\n", s.port);
    answers(t, asked(t, &s, "POST", "/api/activity", own, "{\"what\":\"x\"}"), 200);
    const char *rebound = sw_text_format(
        &t->run, t->run.keep, "GET /api/project HTTP/1.1\r\nHost: elsewhere.example:%d\r\n%sConnection: close\r\n\r\n",
        s.port, s.cookie);
    answers(t, heard(t, &s, rebound, strlen(rebound)), 421);
    stop(t, &s);
}

/* A name can be made to point at this machine by anyone; a number cannot. */
static void only_this_address_is_served(sw_test *t)
{
    static const stranger hosts[] = {
        {"127.0.0.1:%d", 200},
        {"localhost:%d", 200},
        {"LOCALHOST:%d", 200},
        {"[::1]:%d", 200},
        {"127.0.0.1", 421},
        {"127.0.0.1:1%d", 421},
        {"elsewhere.example:%d", 421},
        {"127.0.0.1.example:%d", 421},
        {"0x7f000001:%d", 421},
        {"localhost.:%d", 421},
        {":%d", 421},
        {"[::1:%d", 421},
        {"127.0.0.1:%d@elsewhere.example", 421},
    };
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < sizeof hosts / sizeof *hosts; i++) {
        char host[100];
        const char *at = strstr(hosts[i].headers, "%d");
        int before = at == NULL ? (int)strlen(hosts[i].headers) : (int)(at - hosts[i].headers);
        (void)snprintf(host, sizeof host, "%.*s", before, hosts[i].headers);
        if (at != NULL) (void)snprintf(host, sizeof host, "%.*s%d%s", before, hosts[i].headers, s.port, at + 2);
        const char *text = sw_text_format(
            &t->run, t->run.keep, "GET /api/jobs HTTP/1.1\r\nHost: %s\r\n%sConnection: close\r\n\r\n", host, s.cookie);
        if (!answers(t, heard(t, &s, text, strlen(text)), hosts[i].code)) printf("    Host: %s\n", host);
    }
    stop(t, &s);
}

static void only_the_whole_cookie_opens(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *name = sw_text_format(&t->run, t->run.keep, "stovewright_%d=", s.port);
    const char *token = sw_text_copy(&t->run, t->run.keep, strchr(s.cookie, '=') + 1);
    int length = (int)strcspn(token, "\r");
    const char *const wrong[] = {
        sw_text_format(&t->run, t->run.keep, "Cookie: %s%.*s\r\n", name, length - 1, token),
        sw_text_format(&t->run, t->run.keep, "Cookie: %s%.*sa\r\n", name, length, token),
        sw_text_format(&t->run, t->run.keep, "Cookie: %s\r\n", name),
        sw_text_format(&t->run, t->run.keep, "Cookie: stovewright_1=%.*s\r\n", length, token),
        sw_text_format(&t->run, t->run.keep, "Cookie: x%s%.*s\r\n", name, length, token),
        "Cookie: ;;;;\r\n",
        "",
    };
    const char *right = sw_text_format(&t->run, t->run.keep, "Cookie: a=b; %s%.*s; c\r\n", name, length, token);
    s.cookie[0] = '\0';
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        if (!answers(t, asked(t, &s, "GET", "/api/jobs", wrong[i], NULL), 401)) printf("    %s\n", wrong[i]);
    answers(t, asked(t, &s, "GET", "/api/jobs", right, NULL), 200);
    stop(t, &s);
}

/* ---- files ------------------------------------------------------------------------------------------------------------ */

static void nothing_outside_the_web_folder_is_sent(sw_test *t)
{
    static const char *const outside[] = {"/../a.stove.lua",   "/%2e%2e/a.stove.lua",
                                          "/..%2fa.stove.lua", "/x/../../a.stove.lua",
                                          "//etc/passwd",      "/.hidden",
                                          "/link.txt",         "/%00",
                                          "/index.html%00.js", "/sub",
                                          "/sub/..%5c..%5cx",  "/none.js"};
    const char *folder = project(t), *web = sw_text_format(&t->run, t->run.keep, "%s/web", folder);
    const char *const more[] = {"--web", web, NULL};
    const char *link = sw_text_format(&t->run, t->run.keep, "%s/link.txt", web);
    const char *sub = sw_text_format(&t->run, t->run.keep, "%s/sub", web);
    server s;
    sw_true(t, mkdir(web, 0777) == 0 && mkdir(sub, 0777) == 0 && symlink("/etc/passwd", link) == 0);
    write_file(t, web, "index.html", "<p>the page</p>");
    write_file(t, web, ".hidden", "hidden");
    write_file(t, sub, "a-1.js", "let x;");
    start(t, &s, folder, more);
    sw_contains(t, got(t, &s, "/"), "the page");
    sw_contains(t, got(t, &s, "/sub/a-1.js"), "Content-Type: text/javascript");
    for (size_t i = 0; i < sizeof outside / sizeof *outside; i++) {
        const char *answer = got(t, &s, outside[i]);
        if (code_of(answer) != 404) printf("    %s -> %.100s\n", outside[i], answer);
        sw_true(t, code_of(answer) == 404 || code_of(answer) == 400);
    }
    stop(t, &s);
}

/* ---- fools ------------------------------------------------------------------------------------------------------------------- */

static const char *const nonsense[] = {
    "\r\n\r\n",
    "GET\r\n\r\n",
    "GET / HTTP/9.9\r\n\r\n",
    "GET / HTTP/1.1\r\n\r\n",
    "GET / HTTP/1.1\r\nHost\r\n\r\n",
    "GET / HTTP/1.1\r\nHost: \r\n\r\n",
    "GET / HTTP/1.1\r\nHost: :::::\r\n\r\n",
    "G\x01T /\x80\xff HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n",
    "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: -1\r\n\r\n",
    "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 99999999999999999999999\r\n\r\n",
    "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 5\r\nContent-Length: 6\r\n\r\nabc",
    "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\n\r\nZZZ\r\nabc",
    "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1\r\nTransfer-Encoding: chunked\r\nContent-Length: 3\r\n\r\n0\r\n\r\n",
    "TRACE / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n",
    "\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03",
    "GET http://elsewhere.example/ HTTP/1.1\r\nHost: elsewhere.example\r\n\r\n",
    "GET /api/watch?since HTTP/1.1\r\nHost: 127.0.0.1\r\nCookie: ;;;=;\r\n\r\n",
};

static void nonsense_is_refused_and_harms_nobody(sw_test *t)
{
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < sizeof nonsense / sizeof *nonsense; i++) {
        const char *answer = heard(t, &s, nonsense[i], strlen(nonsense[i]));
        if (code_of(answer) != 0 && code_of(answer) < 400) printf("    %s -> %.60s\n", nonsense[i], answer);
        sw_true(t, code_of(answer) == 0 || code_of(answer) >= 400);
    }
    answers(t, got(t, &s, "/api/project"), 200);
    stop(t, &s);
}

static void every_beginning_of_a_request_is_survived(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *whole = sw_text_format(&t->run, t->run.keep,
                                       "POST /api/reckon HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sX-Stovewright: 1\r\n"
                                       "Connection: close\r\nContent-Length: 20\r\n\r\n{\"name\":\"din6935_k\"}",
                                       s.port, s.cookie);
    for (size_t length = 0; length < strlen(whole); length += 3) {
        size_t mark = sw_arena_mark(t->run.keep);
        int code = code_of(heard(t, &s, whole, length));
        if (!sw_true(t, code == 0 || code >= 400)) break;
        sw_arena_rewind(t->run.keep, mark);
    }
    answers(t, got(t, &s, "/api/project"), 200);
    stop(t, &s);
}

static const char *filled(sw_test *t, const char *head, size_t length)
{
    char *text = sw_keep(&t->run, strlen(head) + length + 1, 1);
    memcpy(text, head, strlen(head));
    memset(text + strlen(head), 'a', length);
    return text;
}

static void what_is_too_large_is_cut_off(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *announced = sw_text_format(&t->run, t->run.keep,
                                           "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sX-Stovewright: 1\r\n"
                                           "Content-Length: 2000000\r\n\r\n",
                                           s.port, s.cookie);
    answers(t, heard(t, &s, announced, strlen(announced)), 413);
    const char *chunk = sw_text_format(&t->run, t->run.keep,
                                       "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sX-Stovewright: 1\r\n"
                                       "Transfer-Encoding: chunked\r\nConnection: close\r\n\r\n1e8480\r\n",
                                       s.port, s.cookie);
    const char *chunked = sw_text_format(&t->run, t->run.keep, "%s\r\n0\r\n\r\n", filled(t, chunk, 0x1e8480));
    answers(t, heard(t, &s, chunked, strlen(chunked)), 413);
    const char *header = filled(t, "GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-Long: ", 300000);
    int code = code_of(heard(t, &s, header, strlen(header)));
    sw_true(t, code == 0 || code >= 400);
    const char *address = filled(t, "GET /", 300000);
    code = code_of(heard(t, &s, address, strlen(address)));
    sw_true(t, code == 0 || code >= 400);
    answers(t, got(t, &s, "/api/project"), 200);
    stop(t, &s);
}

static void many_lines_at_once_leave_room_for_others_later(sw_test *t)
{
    int lines[700];
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < 700; i++) lines[i] = connected(&s);
    for (size_t i = 0; i < 700; i++)
        if (lines[i] >= 0) (void)close(lines[i]);
    const struct timespec pause = {.tv_nsec = 100000000};
    int code = 0;
    for (int i = 0; i < 100 && code != 200; i++) {
        code = code_of(got(t, &s, "/api/variants"));
        (void)nanosleep(&pause, NULL);
    }
    sw_true(t, code == 200);
    stop(t, &s);
}

/* ---- the slow ---------------------------------------------------------------------------------------------------------------- */

enum { SLOW_LINES = 3, LARGE_FILE = 24 << 20 };

static bool is_closed(int line)
{
    char bytes[4096];
    ssize_t n = 1;
    while (n > 0) n = recv(line, bytes, sizeof bytes, MSG_DONTWAIT);
    return n == 0 || (errno != EAGAIN && errno != EWOULDBLOCK);
}

/* One says nothing, one a letter of its head at a time, one a letter of its body. With a patience of one second a head may take
 * one, a body two. */
static void slow_senders_are_cut_off(sw_test *t)
{
    static const char *const more[] = {"--patience", "1", NULL};
    const struct timespec pause = {.tv_nsec = 50000000};
    server s;
    int lines[SLOW_LINES];
    bool closed[SLOW_LINES] = {false};
    start(t, &s, project(t), more);
    take_cookie(t, &s, got(t, &s, "/"));
    for (size_t i = 0; i < SLOW_LINES; i++) lines[i] = connected(&s);
    const char *head = sw_text_format(&t->run, t->run.keep,
                                      "POST /api/compute HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sX-Stovewright: 1\r\n"
                                      "Content-Length: 100000\r\n\r\n",
                                      s.port, s.cookie);
    (void)send(lines[1], "GET / HTTP/1.1\r\nX-Long: ", 24, MSG_NOSIGNAL);
    (void)send(lines[2], head, strlen(head), MSG_NOSIGNAL);
    for (int step = 0; step < 1200 && !(closed[0] && closed[1] && closed[2]); step++) {
        for (size_t i = 0; i < SLOW_LINES; i++) {
            if (!closed[i] && i > 0) (void)send(lines[i], "a", 1, MSG_NOSIGNAL);
            closed[i] = closed[i] || is_closed(lines[i]);
        }
        (void)nanosleep(&pause, NULL);
    }
    for (size_t i = 0; i < SLOW_LINES; i++) {
        sw_true(t, closed[i]);
        (void)close(lines[i]);
    }
    answers(t, got(t, &s, "/api/jobs"), 200);
    stop(t, &s);
}

/* A file larger than what lies in the buffers on the way; nothing of it is read until the server has given up. */
static void a_reader_who_does_not_read_is_cut_off(sw_test *t)
{
    const char *folder = project(t), *web = sw_text_format(&t->run, t->run.keep, "%s/web", folder);
    const char *const more[] = {"--patience", "1", "--web", web, NULL};
    const struct timespec pause = {.tv_sec = 6};
    server s;
    sw_true(t, mkdir(web, 0777) == 0);
    write_file(t, web, "index.html", "<p>the page</p>");
    char *large = sw_keep(&t->run, LARGE_FILE + 1, 1);
    memset(large, 'a', LARGE_FILE);
    write_file(t, web, "large.txt", large);
    start(t, &s, folder, more);
    int line = sent(t, &s, "GET", "/large.txt", "", NULL);
    char head[13] = ""; /* looked at, not taken out: it stays in the buffers */
    sw_true(t, recv(line, head, sizeof head - 1, MSG_PEEK | MSG_WAITALL) == sizeof head - 1);
    answers(t, head, 200);
    (void)nanosleep(&pause, NULL);
    size_t got_bytes = 0;
    for (ssize_t n = 1; n > 0; got_bytes += n > 0 ? (size_t)n : 0) n = recv(line, large, LARGE_FILE, 0);
    (void)close(line);
    sw_true(t, got_bytes < LARGE_FILE);
    answers(t, got(t, &s, "/"), 200);
    stop(t, &s);
}

static void it_stops_with_a_page_waiting_and_leaves_nothing_behind(sw_test *t)
{
    server s;
    open_bench(t, &s);
    (void)posted(t, &s, "/api/job", "{\"stove\":\"a.stove.lua\",\"kind\":\"bands\",\"bands\":5000}");
    int line = connected(&s);
    const char *waits = sw_text_format(
        &t->run, t->run.keep, "GET /api/watch?since=1 HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%s\r\n", s.port, s.cookie);
    (void)send(line, waits, strlen(waits), MSG_NOSIGNAL);
    halt(t, &s);
    (void)close(line);
    const char *left = sw_text_format(&t->run, t->run.keep, "! ls -d %s/stovewright-serve-* 2>/dev/null", s.folder);
    sw_true(t, system(left) == 0);
    remove_folder(t, s.folder);
}

/* ---- the command line ------------------------------------------------------------------------------------------------------- */

typedef struct wrong_line {
    const char *words;
    int code;
    const char *part;
} wrong_line;

static void a_wrong_start_is_explained(sw_test *t)
{
    static const wrong_line wrong[] = {
        {"--port 70000", 2, "65535"},
        {"--address nowhere", 2, "numeric address"},
        {"--token short", 2, "16 to 128"},
        {"/none/such", 3, "is no folder"},
        {"demo demo", 2, "takes one folder"},
        {"--web /none/such", 3, "is no folder"},
        {"--address 203.0.113.9", 3, "cannot listen"},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++) {
        const char *words = sw_text_format(&t->run, t->run.keep, "serve --port=0 %s", wrong[i].words);
        expect(t, words, wrong[i].code, wrong[i].part);
    }
}

SW_TESTS(SW_CASE(the_page_of_this_machine_gets_its_cookie_by_itself), SW_CASE(a_given_token_must_be_shown),
         SW_CASE(other_pages_are_refused), SW_CASE(only_this_address_is_served), SW_CASE(only_the_whole_cookie_opens),
         SW_CASE(slow_senders_are_cut_off), SW_CASE(a_reader_who_does_not_read_is_cut_off),
         SW_CASE(nothing_outside_the_web_folder_is_sent), SW_CASE(nonsense_is_refused_and_harms_nobody),
         SW_CASE(every_beginning_of_a_request_is_survived), SW_CASE(what_is_too_large_is_cut_off),
         SW_CASE(many_lines_at_once_leave_room_for_others_later),
         SW_CASE(it_stops_with_a_page_waiting_and_leaves_nothing_behind), SW_CASE(a_wrong_start_is_explained))
