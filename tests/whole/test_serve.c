/* The workbench's server as a browser, a stranger and a fool meet it: over sockets, byte by byte. */
#include "sw_test.h"

#include <arpa/inet.h>
#include <fcntl.h>
#include <jansson.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/time.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { ANSWER_MOST = 4 << 20 };

typedef struct server {
    pid_t pid;
    int port;
    char said[600];   /* its first lines */
    char cookie[200]; /* header line, "" = none yet */
    const char *folder;
} server;

/* ---- talking ------------------------------------------------------------------------------------------------ */

static int connected(const server *s)
{
    const struct sockaddr_in at = {
        .sin_family = AF_INET, .sin_port = htons((uint16_t)s->port), .sin_addr.s_addr = htonl(INADDR_LOOPBACK)};
    const struct timeval patience = {.tv_sec = 100};
    int line = socket(AF_INET, SOCK_STREAM, 0);
    (void)setsockopt(line, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
    (void)setsockopt(line, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
    if (connect(line, (const struct sockaddr *)&at, sizeof at) == 0) return line;
    (void)close(line);
    return -1;
}

/* Everything until the other side closes; closes this side, too. */
static const char *rest_of(sw_test *t, int line)
{
    char *text = sw_keep(&t->run, ANSWER_MOST, 1);
    size_t used = 0;
    for (ssize_t n = 1; n > 0 && used + 1 < ANSWER_MOST; used += n > 0 ? (size_t)n : 0)
        n = recv(line, text + used, ANSWER_MOST - 1 - used, 0);
    (void)close(line);
    return text;
}

/* Sends these bytes, reads what comes until the other side closes. "" when nothing comes. */
static const char *heard(sw_test *t, const server *s, const char *bytes, size_t length)
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
static int sent(sw_test *t, const server *s, const char *method, const char *path, const char *headers,
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

static const char *asked(sw_test *t, const server *s, const char *method, const char *path, const char *headers,
                         const char *body)
{
    int line = sent(t, s, method, path, headers, body);
    return line < 0 ? "no connection" : rest_of(t, line);
}

static const char *got(sw_test *t, const server *s, const char *path)
{
    return asked(t, s, "GET", path, "", NULL);
}
static const char *posted(sw_test *t, const server *s, const char *path, const char *body)
{
    return asked(t, s, "POST", path, "X-Stovewright: 1\r\nContent-Type: application/json\r\n", body);
}

static int code_of(const char *answer)
{
    return strncmp(answer, "HTTP/1.1 ", 9) == 0 ? (int)strtol(answer + 9, NULL, 10) : 0;
}

static bool answers(sw_test *t, const char *answer, int code)
{
    if (code_of(answer) != code) printf("    want %d, got: %.300s\n", code, answer);
    return sw_true(t, code_of(answer) == code);
}

static const char *body_of(const char *answer)
{
    const char *at = strstr(answer, "\r\n\r\n");
    return at == NULL ? "" : at + 4;
}

/* ---- starting and stopping ------------------------------------------------------------------------------------- */

static void copy_file(sw_test *t, const char *name, const char *to)
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

static void write_file(sw_test *t, const char *folder, const char *name, const char *text)
{
    sw_writer *w = NULL;
    const char *path = sw_text_format(&t->run, t->run.keep, "%s/%s", folder, name);
    if (!sw_ok(t, sw_writer_to_file(&t->run, path, &w))) return;
    sw_write_text(w, text);
    (void)sw_ok(t, sw_writer_close(&t->run, w));
}

/* A project of its own: the server writes into it. */
static const char *project(sw_test *t)
{
    static const char *const names[] = {"a.stove.lua", "demo.works.lua", "demo.house.lua", "bends.csv", "rolls.csv"};
    char *folder = (char *)sw_text_copy(&t->run, t->run.keep, "/tmp/sw-serve-XXXXXX");
    sw_true(t, mkdtemp(folder) != NULL);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) copy_file(t, names[i], folder);
    return folder;
}

static void start(sw_test *t, server *s, const char *folder, const char *const *more)
{
    int said[2] = {-1, -1};
    const char *words[16] = {SW_PROGRAM, "serve", "--port", "0", folder};
    for (size_t i = 0; more != NULL && more[i] != NULL; i++) words[5 + i] = more[i];
    *s = (server){.folder = folder};
    sw_true(t, pipe(said) == 0);
    s->pid = fork();
    if (s->pid == 0) {
        (void)setenv("TMPDIR", folder, 1);
        (void)dup2(said[1], STDOUT_FILENO);
        (void)close(said[0]);
        (void)execv(SW_PROGRAM, (char *const *)words);
        _exit(127);
    }
    (void)close(said[1]);
    for (size_t used = 0; used + 1 < sizeof s->said && strstr(s->said, "stops it") == NULL;) {
        ssize_t n = read(said[0], s->said + used, sizeof s->said - 1 - used);
        if (n <= 0) break;
        used += (size_t)n;
    }
    (void)close(said[0]);
    const char *at = strstr(s->said, "http://127.0.0.1:");
    if (sw_true(t, at != NULL)) s->port = (int)strtol(at + 17, NULL, 10);
}

static void take_cookie(sw_test *t, server *s, const char *answer)
{
    const char *at = strstr(answer, "Set-Cookie: ");
    if (!sw_true(t, at != NULL)) return;
    (void)snprintf(s->cookie, sizeof s->cookie, "Cookie: %.*s\r\n", (int)strcspn(at + 12, ";"), at + 12);
}

static void open_bench(sw_test *t, server *s)
{
    start(t, s, project(t), NULL);
    take_cookie(t, s, got(t, s, "/"));
}

static void remove_folder(sw_test *t, const char *folder)
{
    const char *command = sw_text_format(&t->run, t->run.keep, "rm -rf '%s'", folder);
    sw_true(t, strncmp(folder, "/tmp/sw-serve-", 14) == 0 && system(command) == 0);
}

/* Alive to the end, and gone cleanly at Ctrl-C. */
static void stop(sw_test *t, const server *s)
{
    int status = 0;
    sw_true(t, kill(s->pid, SIGINT) == 0);
    sw_true(t, waitpid(s->pid, &status, 0) == s->pid);
    sw_true(t, WIFEXITED(status) && WEXITSTATUS(status) == 0);
    remove_folder(t, s->folder);
}

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

/* ---- asking ------------------------------------------------------------------------------------------------------------- */

static const char state[] = "{\"stove\":\"a.stove.lua\",\"works\":\"demo.works.lua\",\"house\":null,\"set\":{},"
                            "\"with\":{\"draught_pa\":12},\"batch\":1,\"studies\":[\"sheet\",\"heft\"]}";

static void findings_are_those_of_the_command_line(sw_test *t)
{
    server s;
    open_bench(t, &s);
    const char *answer = posted(t, &s, "/api/compute", state);
    answers(t, answer, 200);
    json_t *root = json_loads(body_of(answer), 0, NULL);
    sw_true(t, json_is_number(json_object_get(root, "took_ms")) && json_is_integer(json_object_get(root, "revision")));
    sw_true(t, json_array_size(json_object_get(root, "findings")) > 0);
    json_decref(root);
    const char *model = posted(t, &s, "/api/model", state);
    answers(t, model, 200);
    sw_true(t, strncmp(body_of(model), "glTF", 4) == 0);
    sw_contains(t, posted(t, &s, "/api/flat", "{\"stove\":\"a.stove.lua\",\"piece\":\"A-03\"}"), "<svg");
    stop(t, &s);
}

static void many_who_ask_the_same_at_once_get_the_same(sw_test *t)
{
    static const char full[] = "{\"stove\":\"a.stove.lua\",\"works\":\"demo.works.lua\",\"house\":\"demo.house.lua\"}";
    int lines[6];
    const char *first = NULL;
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < 6; i++) lines[i] = sent(t, &s, "POST", "/api/compute", "X-Stovewright: 1\r\n", full);
    for (size_t i = 0; i < 6; i++) {
        const char *answer = rest_of(t, lines[i]);
        answers(t, answer, 200);
        const char *figures = strstr(answer, "\"revision\""); /* behind the time it took */
        if (first == NULL) first = figures;
        if (sw_true(t, figures != NULL && first != NULL)) sw_true(t, strcmp(first, figures) == 0);
    }
    stop(t, &s);
}

static void all_faults_of_a_file_come_at_once_with_their_lines(sw_test *t)
{
    server s;
    open_bench(t, &s);
    write_file(t, s.folder, "bad.stove.lua", "stove {\n  name = 5,\n  nonsense = 1,\n}\n");
    const char *answer = posted(t, &s, "/api/compute", "{\"stove\":\"bad.stove.lua\"}");
    answers(t, answer, 422);
    json_t *root = json_loads(body_of(answer), 0, NULL);
    const json_t *error = json_object_get(root, "error"), *where = json_object_get(error, "where");
    sw_true(t, json_array_size(json_object_get(root, "errors")) > 1);
    sw_true(t, json_integer_value(json_object_get(where, "line")) > 0);
    sw_same_text(t, json_string_value(json_object_get(where, "file")), "bad.stove.lua");
    json_decref(root);
    sw_contains(t, got(t, &s, "/api/project"), "\"name\":\"bad.stove.lua\"");
    stop(t, &s);
}

typedef struct question {
    const char *path, *body;
    int code;
    const char *part;
} question;

static const question wrong_questions[] = {
    {"/api/compute", "", 400, "no JSON"},
    {"/api/compute", "{\"stove\":", 400, "line 1"},
    {"/api/compute", "[1,2]", 400, "object"},
    {"/api/compute", "{}", 422, "is missing"},
    {"/api/compute", "{\"stove\":\"../a.stove.lua\"}", 422, "file of the project"},
    {"/api/compute", "{\"stove\":\"/etc/passwd\"}", 422, "file of the project"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"works\":7}", 422, "file of the project"},
    {"/api/compute", "{\"stove\":\"none.stove.lua\"}", 500, "No such file"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"batch\":0}", 422, "from 1 to"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"set\":{\"wall\":[]}}", 422, "text or a number"},
    {"/api/compute", "{\"stove\":\"a.stove.lua\",\"studies\":[\"hefd\"]}", 422, "did you mean heft"},
    {"/api/flat", "{\"stove\":\"a.stove.lua\",\"piece\":\"Z-99\"}", 422, "no sheet piece"},
    {"/api/reckon", "{\"name\":\"nothing\"}", 422, "no formula"},
    {"/api/reckon", "{\"name\":\"din6935_k\",\"values\":{\"r\":4}}", 422, "missing"},
    {"/api/job", "{\"kind\":\"holiday\"}", 400, "none we know"},
    {"/api/variants", "{\"name\":\"\"}", 400, "1 to 80"},
    {"/api/nothing", "{}", 404, "nothing under"},
    {"/api/project", "{}", 405, "method"},
};

static void every_wrong_question_is_explained(sw_test *t)
{
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < sizeof wrong_questions / sizeof *wrong_questions; i++) {
        const question *q = &wrong_questions[i];
        const char *answer = posted(t, &s, q->path, q->body);
        if (!answers(t, answer, q->code)) printf("    %s %s\n", q->path, q->body);
        sw_contains(t, answer, q->part);
        sw_contains(t, answer, "\"remedy\"");
    }
    stop(t, &s);
}

static void a_formula_answers(sw_test *t)
{
    server s;
    open_bench(t, &s);
    sw_contains(t, got(t, &s, "/api/reckon"), "\"din6935_length\"");
    const char *answer =
        posted(t, &s, "/api/reckon",
               "{\"name\":\"din6935_length\",\"values\":{\"r\":4,\"s\":3,\"beta\":90,\"a\":60,\"b\":40}}");
    answers(t, answer, 200);
    sw_contains(t, answer, "\"source\":\"DIN 6935");
    stop(t, &s);
}

/* ---- watching, jobs, variants ---------------------------------------------------------------------------------------------- */

static void a_saved_file_is_told(sw_test *t)
{
    server s;
    open_bench(t, &s);
    json_t *root = json_loads(body_of(got(t, &s, "/api/watch?since=0")), 0, NULL);
    long version = (long)json_integer_value(json_object_get(root, "version"));
    sw_true(t, version > 0 && json_array_size(json_object_get(root, "changed")) >= 5);
    json_decref(root);
    write_file(t, s.folder, "new.stove.lua", "");
    const char *path = sw_text_format(&t->run, t->run.keep, "/api/watch?since=%ld", version);
    sw_contains(t, got(t, &s, path), "\"changed\":[\"new.stove.lua\"]");
    answers(t, got(t, &s, "/api/watch?since=x"), 400);
    stop(t, &s);
}

/* Until the job is over; the last answer. */
static const char *job_end(sw_test *t, const server *s, const char *path)
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

static void a_job_keeps_its_answer_and_files(sw_test *t)
{
    server s;
    open_bench(t, &s);
    sw_contains(t,
                posted(t, &s, "/api/job",
                       "{\"stove\":\"a.stove.lua\",\"kind\":\"sweep\",\"vary\":[\"draught_pa=8:16:2\"],"
                       "\"report\":[\"output_kw\"]}"),
                "\"job\":1");
    sw_contains(t, posted(t, &s, "/api/job", "{\"stove\":\"none.stove.lua\",\"kind\":\"map\"}"), "\"job\":2");
    const char *done = job_end(t, &s, "/api/job/1");
    sw_contains(t, done, "\"state\":\"done\"");
    sw_contains(t, done, "\"result\":{");
    sw_contains(t, got(t, &s, "/api/job/1/file/sweep.csv"), "draught_pa,output_kw");
    answers(t, got(t, &s, "/api/job/1/file/../../a.stove.lua"), 404);
    answers(t, got(t, &s, "/api/job/1/file/other.csv"), 404);
    answers(t, got(t, &s, "/api/job/99"), 404);
    answers(t, got(t, &s, "/api/job/x"), 404);
    const char *failed = job_end(t, &s, "/api/job/2");
    sw_contains(t, failed, "\"state\":\"failed\"");
    sw_contains(t, failed, "No such file");
    sw_contains(t, got(t, &s, "/api/jobs"), "\"job\":2");
    stop(t, &s);
}

static void a_job_is_cancelled(sw_test *t)
{
    server s;
    open_bench(t, &s);
    (void)posted(t, &s, "/api/job", "{\"stove\":\"a.stove.lua\",\"kind\":\"bands\",\"bands\":5000}");
    (void)posted(t, &s, "/api/job", "{\"stove\":\"a.stove.lua\",\"kind\":\"bands\",\"bands\":5000}");
    sw_contains(t, asked(t, &s, "DELETE", "/api/job/2", "X-Stovewright: 1\r\n", NULL), "\"state\":\"cancelled\"");
    answers(t, asked(t, &s, "DELETE", "/api/job/1", "X-Stovewright: 1\r\n", NULL), 200);
    sw_contains(t, job_end(t, &s, "/api/job/1"), "\"state\":\"cancelled\"");
    stop(t, &s);
}

static void variants_are_kept_and_who_changed_them(sw_test *t)
{
    server s;
    open_bench(t, &s);
    answers(t, posted(t, &s, "/api/variants", "{\"name\":\"wide / tall\",\"state\":{\"stove\":\"a.stove.lua\"}}"), 200);
    sw_contains(t, got(t, &s, "/api/variants"), "\"state\":{\"stove\":\"a.stove.lua\"}");
    answers(t, asked(t, &s, "DELETE", "/api/variants/wide%20%2F%20tall", "X-Stovewright: 1\r\n", NULL), 200);
    sw_same_text(t, body_of(got(t, &s, "/api/variants")), "[]");
    answers(t, asked(t, &s, "DELETE", "/api/variants/none", "X-Stovewright: 1\r\n", NULL), 404);
    sw_contains(t, got(t, &s, "/api/activity"), "\"who\":\"127.0.0.1\",\"what\":\"variant dropped\"");
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
    int lines[80];
    server s;
    open_bench(t, &s);
    for (size_t i = 0; i < 80; i++) lines[i] = connected(&s);
    for (size_t i = 0; i < 80; i++)
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

static void it_stops_with_a_page_waiting_and_leaves_nothing_behind(sw_test *t)
{
    server s;
    open_bench(t, &s);
    (void)posted(t, &s, "/api/job", "{\"stove\":\"a.stove.lua\",\"kind\":\"bands\",\"bands\":5000}");
    int line = connected(&s);
    const char *waits = sw_text_format(
        &t->run, t->run.keep, "GET /api/watch?since=1 HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%s\r\n", s.port, s.cookie);
    (void)send(line, waits, strlen(waits), MSG_NOSIGNAL);
    int status = 0;
    sw_true(t, kill(s.pid, SIGINT) == 0 && waitpid(s.pid, &status, 0) == s.pid);
    sw_true(t, WIFEXITED(status) && WEXITSTATUS(status) == 0);
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
        char text[4096] = {0};
        const char *command = sw_text_format(&t->run, t->run.keep, "cd '%s' && '%s' serve --port=0 %s 2>&1",
                                             SW_SOURCE_DIR, SW_PROGRAM, wrong[i].words);
        FILE *pipe = popen(command, "r");
        text[fread(text, 1, sizeof text - 1, pipe)] = '\0';
        int status = pclose(pipe);
        if (!WIFEXITED(status) || WEXITSTATUS(status) != wrong[i].code) printf("    %s: %s\n", wrong[i].words, text);
        sw_true(t, WIFEXITED(status) && WEXITSTATUS(status) == wrong[i].code);
        sw_contains(t, text, wrong[i].part);
    }
}

SW_TESTS(SW_CASE(the_page_of_this_machine_gets_its_cookie_by_itself), SW_CASE(a_given_token_must_be_shown),
         SW_CASE(other_pages_are_refused), SW_CASE(nothing_outside_the_web_folder_is_sent),
         SW_CASE(many_who_ask_the_same_at_once_get_the_same), SW_CASE(findings_are_those_of_the_command_line),
         SW_CASE(all_faults_of_a_file_come_at_once_with_their_lines), SW_CASE(every_wrong_question_is_explained),
         SW_CASE(a_formula_answers), SW_CASE(a_saved_file_is_told), SW_CASE(a_job_keeps_its_answer_and_files),
         SW_CASE(a_job_is_cancelled), SW_CASE(variants_are_kept_and_who_changed_them),
         SW_CASE(nonsense_is_refused_and_harms_nobody), SW_CASE(every_beginning_of_a_request_is_survived),
         SW_CASE(what_is_too_large_is_cut_off), SW_CASE(many_lines_at_once_leave_room_for_others_later),
         SW_CASE(it_stops_with_a_page_waiting_and_leaves_nothing_behind), SW_CASE(a_wrong_start_is_explained))
