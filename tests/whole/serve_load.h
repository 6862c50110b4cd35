/* serve_load.h: many at once with a workbench's server on this machine: some wait for files to change and look at jobs, some drag a
 * slider, a few of whom leave in the middle. For a test of some seconds and for bench/. Each client is a thread with one
 * connection. */
#ifndef TESTS_WHOLE_SERVE_LOAD_H
#define TESTS_WHOLE_SERVE_LOAD_H

#include "base/base.h"
#include "serve_process.h"

#include <pthread.h>
#include <stdatomic.h>
#include <time.h>

enum { LOAD_CLIENTS_MOST = 400, LOAD_TIMES_MOST = 20000, LOAD_HEAD_MOST = 4096, LOAD_STACK = 256 << 10 };

typedef struct load_times { /* of one client, s */
    double *s;
    size_t count;
} load_times;

typedef struct load {
    const server *server;
    const char *touched; /* a file of the project, written anew every two seconds */
    size_t pollers, askers;
    double seconds;
    atomic_bool over;
    atomic_int errors, left; /* answers that were none; calls given up on purpose */
    atomic_long version;
    load_times polls, answers; /* found */
    long memory_kb, threads;   /* the most the server had */
    char fault[200];           /* the first */
} load;

typedef struct load_client {
    load *l;
    size_t number;
    int line;
    load_times polls, answers;
    pthread_t thread;
} load_client;

static inline void load_pause(double seconds)
{
    const struct timespec t = {.tv_sec = (time_t)seconds, .tv_nsec = (long)((seconds - (double)(time_t)seconds) * 1e9)};
    (void)nanosleep(&t, NULL);
}

static inline void load_note(load *l, const char *what, const char *text)
{
    if (atomic_fetch_add(&l->errors, 1) == 0) (void)snprintf(l->fault, sizeof l->fault, "%s: %.120s", what, text);
}

static inline void load_add(load_times *t, double begun_s)
{
    if (t->count < LOAD_TIMES_MOST) t->s[t->count++] = sw_seconds() - begun_s;
}

/* ---- one question ---------------------------------------------------------------------------------------- */

static inline bool load_send(load_client *c, const char *method, const char *path, const char *body)
{
    char text[2048];
    int length = snprintf(text, sizeof text,
                          "%s %s HTTP/1.1\r\nHost: 127.0.0.1:%d\r\n%sX-Stovewright: 1\r\nContent-Length: %zu\r\n\r\n%s",
                          method, path, c->l->server->port, c->l->server->cookie, strlen(body), body);
    return send(c->line, text, (size_t)length, MSG_NOSIGNAL) == length;
}

/* The head and the first bytes behind it; then the rest is read and dropped. 0 = the line broke. */
static inline int load_receive(load_client *c, char head[LOAD_HEAD_MOST], size_t *body_at)
{
    size_t used = 0;
    char *end = NULL, rest[16384];
    head[0] = '\0';
    while (end == NULL && used + 1 < LOAD_HEAD_MOST) {
        ssize_t n = recv(c->line, head + used, LOAD_HEAD_MOST - 1 - used, 0);
        if (n <= 0) return 0;
        used += (size_t)n;
        head[used] = '\0';
        end = strstr(head, "\r\n\r\n");
    }
    const char *length = strstr(head, "Content-Length: ");
    if (end == NULL || length == NULL) return 0;
    *body_at = (size_t)(end + 4 - head);
    size_t whole = (size_t)strtoul(length + 16, NULL, 10), got = used - *body_at;
    while (got < whole) {
        ssize_t n = recv(c->line, rest, whole - got < sizeof rest ? whole - got : sizeof rest, 0);
        if (n <= 0) return 0;
        got += (size_t)n;
    }
    return (int)strtol(head + 9, NULL, 10);
}

static inline void load_ask(load_client *c, const char *method, const char *path, const char *body, load_times *times)
{
    char head[LOAD_HEAD_MOST];
    size_t at = 0;
    double begun_s = sw_seconds();
    bool sent = load_send(c, method, path, body);
    int code = sent ? load_receive(c, head, &at) : 0;
    if (code != 200) {
        load_note(c->l, path, sent ? head : "not sent");
        (void)close(c->line);
        c->line = server_connect(c->l->server->port);
        return;
    }
    if (times != NULL) load_add(times, begun_s);
    const char *version = strstr(head + at, "\"version\":");
    if (version != NULL && strncmp(path, "/api/watch", 10) == 0)
        atomic_store(&c->l->version, strtol(version + 10, NULL, 10));
}

/* ---- clients ------------------------------------------------------------------------------------------------ */

/* Waits for news, then looks at the project and the jobs as the page does; every other one only looks. */
static inline void load_poll(load_client *c)
{
    char path[80];
    (void)snprintf(path, sizeof path, "/api/watch?since=%ld", atomic_load(&c->l->version));
    if (c->number % 2 == 0)
        load_ask(c, "GET", path, "", NULL);
    else
        load_pause(0.25 + (double)(c->number % 50) / 100);
    load_ask(c, "GET", "/api/project", "", &c->polls);
    load_ask(c, "GET", "/api/jobs", "", &c->polls);
}

static inline void load_leave(load_client *c)
{
    const struct linger at_once = {.l_onoff = 1}; /* with a reset, as a browser that is killed */
    load_pause(0.01);
    (void)setsockopt(c->line, SOL_SOCKET, SO_LINGER, &at_once, sizeof at_once);
    (void)close(c->line);
    c->line = server_connect(c->l->server->port);
    atomic_fetch_add(&c->l->left, 1);
}

/* A tenth of a millimetre a step, each client a thousandth beside the one before: no two ask for the same width, but that at every
 * other step two neighbours do. */
static inline void load_drag(load_client *c, size_t step)
{
    char body[512];
    size_t who = step % 2 == 0 ? c->number : c->number / 2;
    (void)snprintf(body, sizeof body,
                   "{\"stove\":\"a.stove.lua\",\"works\":\"demo.works.lua\",\"house\":\"demo.house.lua\",\"batch\":1,"
                   "\"set\":{\"firebox_width\":\"%.3fmm\"},\"with\":{},\"studies\":[\"heft\",\"burn\"],\"held\":[]}",
                   330 + 0.1 * (double)(step % 600) + 0.001 * (double)(who % 100));
    if (step % 16 == 15) {
        (void)load_send(c, "POST", "/api/compute", body);
        load_leave(c);
    } else
        load_ask(c, "POST", step % 4 == 3 ? "/api/picture" : "/api/compute", body, &c->answers);
}

static inline void *load_live(void *place)
{
    load_client *c = place;
    c->line = server_connect(c->l->server->port);
    if (c->line < 0) load_note(c->l, "connect", "refused");
    for (size_t step = 0; !atomic_load(&c->l->over) && c->line >= 0; step++) {
        if (c->number < c->l->pollers)
            load_poll(c);
        else
            load_drag(c, step);
    }
    if (c->line >= 0) (void)close(c->line);
    return NULL;
}

/* ---- the whole ------------------------------------------------------------------------------------------------- */

static inline void load_look(load *l)
{
    char path[64], line[200];
    (void)snprintf(path, sizeof path, "/proc/%d/status", (int)l->server->pid);
    FILE *file = fopen(path, "r");
    while (file != NULL && fgets(line, sizeof line, file) != NULL) {
        if (strncmp(line, "VmHWM:", 6) == 0) l->memory_kb = strtol(line + 6, NULL, 10);
        long threads = strncmp(line, "Threads:", 8) == 0 ? strtol(line + 8, NULL, 10) : 0;
        if (threads > l->threads) l->threads = threads;
    }
    if (file != NULL) (void)fclose(file);
}

static inline void load_touch(const load *l, size_t round)
{
    FILE *file = fopen(l->touched, "w");
    if (file == NULL) return;
    (void)fprintf(file, "a,b\n%zu,1\n", round);
    (void)fclose(file);
}

static inline int load_by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* share 0.5 = the median; 0 without any. Sorts. */
static inline double load_quantile(load_times *t, double share)
{
    if (t->count == 0) return 0;
    qsort(t->s, t->count, sizeof *t->s, load_by_size);
    size_t at = (size_t)(share * (double)t->count);
    return t->s[at < t->count ? at : t->count - 1];
}

static inline bool load_gather(load_times *into, const load_times *from)
{
    double *larger = realloc(into->s, (into->count + from->count + 1) * sizeof *larger);
    if (larger == NULL) return false;
    into->s = larger;
    if (from->count > 0) memcpy(into->s + into->count, from->s, from->count * sizeof *from->s);
    into->count += from->count;
    return true;
}

static inline void load_watch_over(load *l)
{
    double end_s = sw_seconds() + l->seconds;
    for (size_t round = 0; sw_seconds() < end_s; round++) {
        if (round % 20 == 0) load_touch(l, round);
        load_look(l);
        load_pause(0.1);
    }
    atomic_store(&l->over, true);
    load_touch(l, SIZE_MAX); /* who waits for news ends, too */
}

static inline void load_open(load_client *c, load *l, size_t number)
{
    pthread_attr_t how;
    *c = (load_client){.l = l, .number = number, .line = -1};
    c->polls.s = calloc(LOAD_TIMES_MOST, sizeof(double));
    c->answers.s = calloc(LOAD_TIMES_MOST, sizeof(double));
    if (c->polls.s == NULL || c->answers.s == NULL) abort();
    (void)pthread_attr_init(&how);
    (void)pthread_attr_setstacksize(&how, LOAD_STACK);
    if (pthread_create(&c->thread, &how, load_live, c) != 0) abort();
    (void)pthread_attr_destroy(&how);
}

static inline void load_close(load_client *c)
{
    (void)pthread_join(c->thread, NULL);
    (void)load_gather(&c->l->polls, &c->polls);
    (void)load_gather(&c->l->answers, &c->answers);
    free(c->polls.s);
    free(c->answers.s);
}

/* Fills what is found; l->polls.s and l->answers.s are to be freed. */
static inline void load_run(load *l)
{
    static load_client clients[LOAD_CLIENTS_MOST];
    size_t count = l->pollers + l->askers;
    load_touch(l, 0);
    for (size_t i = 0; i < count && i < LOAD_CLIENTS_MOST; i++) load_open(&clients[i], l, i);
    load_watch_over(l);
    for (size_t i = 0; i < count && i < LOAD_CLIENTS_MOST; i++) load_close(&clients[i]);
}

#endif
