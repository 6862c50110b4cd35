/* serve_fixture.h: a workbench's server of its own for a test, and talk with it over sockets, byte by byte. */
#ifndef TESTS_WHOLE_SERVE_FIXTURE_H
#define TESTS_WHOLE_SERVE_FIXTURE_H

#include "serve_process.h"
#include "sw_test.h"

#include <jansson.h>
#include <sys/stat.h>
#include <time.h>

enum { ANSWER_MOST = 4 << 20 };

static const char state[] = "{\"stove\":\"a.stove.lua\",\"works\":\"demo.works.lua\",\"house\":null,\"set\":{},"
                            "\"with\":{\"draught_pa\":12},\"batch\":1,\"studies\":[\"sheet\",\"heft\"]}";

/* ---- talking ------------------------------------------------------------------------------------------------ */

static inline int connected(const server *s)
{
    return server_connect(s->port);
}

/* Everything until the other side closes; closes this side, too. */
static inline const char *rest_of(sw_test *t, int line)
{
    char *text = sw_keep(&t->run, ANSWER_MOST, 1);
    size_t used = 0;
    for (ssize_t n = 1; n > 0 && used + 1 < ANSWER_MOST; used += n > 0 ? (size_t)n : 0)
        n = recv(line, text + used, ANSWER_MOST - 1 - used, 0);
    (void)close(line);
    return text;
}

/* Sends these bytes, reads what comes until the other side closes. "" when nothing comes. */
static inline const char *heard(sw_test *t, const server *s, const char *bytes, size_t length)
{
    int line = connected(s);
    if (line < 0) return "no connection";
    for (size_t sent = 0; sent < length;) {
        ssize_t n = send(line, bytes + sent, length - sent, MSG_NOSIGNAL);
        if (n <= 0) break; /* cut off: what it says may still be read */
        sent += (size_t)n;
    }
    (void)shutdown(line, SHUT_WR);
    return rest_of(t, line);
}

/* A whole request as the page sends it; body NULL = none. The server must not close before it has answered. */
static inline int sent(sw_test *t, const server *s, const char *method, const char *path, const char *headers,
                       const char *body)
{
    const char *text = sw_text_format(&t->run, t->run.keep,
                                      "%s %s HTTP/1.1\r\nHost: 127.0.0.1:%d\r\nConnection: close\r\n%s%s"
                                      "Content-Length: %zu\r\n\r\n%s",
                                      method, path, s->port, s->cookie, headers, body == NULL ? 0 : strlen(body),
                                      body == NULL ? "" : body);
    int line = connected(s);
    if (line >= 0) (void)send(line, text, strlen(text), MSG_NOSIGNAL);
    return line;
}

static inline const char *asked(sw_test *t, const server *s, const char *method, const char *path, const char *headers,
                                const char *body)
{
    int line = sent(t, s, method, path, headers, body);
    return line < 0 ? "no connection" : rest_of(t, line);
}

static inline const char *got(sw_test *t, const server *s, const char *path)
{
    return asked(t, s, "GET", path, "", NULL);
}
static inline const char *posted(sw_test *t, const server *s, const char *path, const char *body)
{
    return asked(t, s, "POST", path, "X-Stovewright: 1\r\nContent-Type: application/json\r\n", body);
}

static inline int code_of(const char *answer)
{
    return strncmp(answer, "HTTP/1.1 ", 9) == 0 ? (int)strtol(answer + 9, NULL, 10) : 0;
}

static inline bool answers(sw_test *t, const char *answer, int code)
{
    if (code_of(answer) != code) printf("    want %d, got: %.300s\n", code, answer);
    return sw_true(t, code_of(answer) == code);
}

static inline const char *body_of(const char *answer)
{
    const char *at = strstr(answer, "\r\n\r\n");
    return at == NULL ? "" : at + 4;
}

/* ---- starting and stopping ------------------------------------------------------------------------------------- */

static inline void copy_file(sw_test *t, const char *name, const char *to)
{
    const char *bytes = NULL;
    size_t length = 0;
    sw_writer *w = NULL;
    const char *from = sw_text_format(&t->run, t->run.keep, SW_SOURCE_DIR "/demo/%s", name);
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/%s", to, name);
    if (!sw_ok(t, sw_file_read(&t->run, from, 1 << 20, &bytes, &length))) return;
    if (!sw_ok(t, sw_writer_to_file(&t->run, path, &w))) return;
    sw_write(w, bytes, length);
    (void)sw_ok(t, sw_writer_close(&t->run, w));
}

static inline void write_file(sw_test *t, const char *folder, const char *name, const char *text)
{
    sw_writer *w = NULL;
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/%s", folder, name);
    if (!sw_ok(t, sw_writer_to_file(&t->run, path, &w))) return;
    sw_write_text(w, text);
    (void)sw_ok(t, sw_writer_close(&t->run, w));
}

/* A project of its own: the server writes into it. */
static inline const char *project(sw_test *t)
{
    static const char *const names[] = {"a.stove.lua", "demo.works.lua", "demo.house.lua", "bends.csv", "rolls.csv"};
    char *folder = (char *)sw_text_copy(&t->run, t->run.keep, "/tmp/sw-serve-XXXXXX");
    sw_true(t, mkdtemp(folder) != NULL);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) copy_file(t, names[i], folder);
    return folder;
}

static inline void start(sw_test *t, server *s, const char *folder, const char *const *more)
{
    sw_true(t, server_begin(s, folder, more));
}

static inline void take_cookie(sw_test *t, server *s, const char *answer)
{
    sw_true(t, server_admits(s, answer));
}

static inline void open_bench(sw_test *t, server *s)
{
    start(t, s, project(t), NULL);
    take_cookie(t, s, got(t, s, "/"));
}

static inline void remove_folder(sw_test *t, const char *folder)
{
    const char *command = sw_text_format(&t->run, t->run.keep, "rm -rf '%s'", folder);
    sw_true(t, strncmp(folder, "/tmp/sw-serve-", 14) == 0 && system(command) == 0);
}

/* Alive to the end, and gone cleanly at Ctrl-C; its folder stays. */
static inline void halt(sw_test *t, const server *s)
{
    sw_true(t, server_end(s));
}

static inline void stop(sw_test *t, const server *s)
{
    halt(t, s);
    remove_folder(t, s->folder);
}

/* Until the job is over; the last answer. */
static inline const char *job_end(sw_test *t, const server *s, const char *path)
{
    const struct timespec pause = {.tv_nsec = 100000000};
    for (int i = 0; i < 1200; i++) {
        size_t mark = sw_arena_mark(t->run.keep);
        const char *answer = got(t, s, path);
        if (strstr(answer, "\"running\"") == NULL && strstr(answer, "\"waiting\"") == NULL) return answer;
        sw_arena_rewind(t->run.keep, mark);
        (void)nanosleep(&pause, NULL);
    }
    return "the job did not end";
}

#endif
