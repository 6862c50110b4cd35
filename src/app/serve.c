/* serve.c: `serve`: opens the door, waits for Ctrl-C, closes it. */
#include "app/serve.h"

#include <arpa/inet.h>
#include <errno.h>
#include <netdb.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

static const double look_s = 0.1; /* ours: how often files and deadlines are looked at */
static const double patience_s = 15;
enum { THREADS_MOST = 8 };

static bool is_folder(const char *path)
{
    struct stat about;
    return path != NULL && stat(path, &about) == 0 && S_ISDIR(about.st_mode);
}

/* ---- where to listen ------------------------------------------------------------------------------------- */

static bool is_loopback(const struct sockaddr *a)
{
    if (a->sa_family == AF_INET)
        return ntohl(((const struct sockaddr_in *)(const void *)a)->sin_addr.s_addr) >> 24 == 127;
    return a->sa_family == AF_INET6 && IN6_IS_ADDR_LOOPBACK(&((const struct sockaddr_in6 *)(const void *)a)->sin6_addr);
}

static int bound_port(int listening)
{
    struct sockaddr_storage bound = {0};
    socklen_t size = sizeof bound;
    if (getsockname(listening, (struct sockaddr *)&bound, &size) != 0) return 0;
    return ntohs(bound.ss_family == AF_INET6 ? ((const struct sockaddr_in6 *)(const void *)&bound)->sin6_port
                                             : ((const struct sockaddr_in *)(const void *)&bound)->sin_port);
}

static sw_status listen_at(sw_run *run, serve *s, const struct addrinfo *at)
{
    const int yes = 1;
    s->loopback = is_loopback(at->ai_addr);
    s->listening = socket(at->ai_family, SOCK_STREAM, 0);
    if (s->listening >= 0) (void)setsockopt(s->listening, SOL_SOCKET, SO_REUSEADDR, &yes, sizeof yes);
    if (s->listening < 0 || bind(s->listening, at->ai_addr, at->ai_addrlen) != 0 || listen(s->listening, 64) != 0)
        return sw_fail(run, SW_IO, (sw_place){0}, "--port",
                       "cannot listen on %s port %d: %s; choose another with --port", s->address, s->port,
                       strerror(errno));
    s->port = bound_port(s->listening);
    return SW_OK;
}

static sw_status open_socket(sw_run *run, serve *s)
{
    const char *port = sw_text_format(run, run->keep, "%d", s->port);
    if (strcmp(s->address, "localhost") == 0) s->address = "127.0.0.1";
    const struct addrinfo wish = {.ai_flags = AI_NUMERICHOST | AI_NUMERICSERV | AI_PASSIVE, .ai_socktype = SOCK_STREAM};
    struct addrinfo *found = NULL;
    if (port == NULL) return SW_NO_MEMORY;
    if (getaddrinfo(s->address, port, &wish, &found) != 0 || found == NULL)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--address",
                       "\"%s\" is no numeric address; give one of this machine, e.g. 127.0.0.1", s->address);
    sw_status status = listen_at(run, s, found);
    freeaddrinfo(found);
    return status;
}

/* ---- making ready ------------------------------------------------------------------------------------------ */

enum { TOKEN_LEAST = 16 };

static sw_status choose_token(sw_run *run, serve *s)
{
    const char *given = s->request->token;
    s->token_asked = given != NULL || !s->loopback;
    if (given == NULL) return serve_make_token(run, &s->token);
    size_t plain = strspn(given, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_");
    s->token = given;
    if (given[plain] == '\0' && plain >= TOKEN_LEAST && plain <= 128) return SW_OK;
    return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--token",
                   "must have %d to 128 letters, digits, - or _; leave it out for a random one", TOKEN_LEAST);
}

static sw_status choose_folders(sw_run *run, serve *s)
{
    const sw_request *q = s->request;
    if (q->word_count > 1)
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "serve", "takes one folder, %zu given", q->word_count);
    s->folder = q->word_count == 1 ? q->words[0] : is_folder("demo") ? "demo" : ".";
    if (!is_folder(s->folder))
        return sw_fail(run, SW_IO, (sw_place){0}, s->folder, "is no folder; give the one with the *.stove.lua files");
    s->log = q->log != NULL ? q->log : sw_text_format(run, run->keep, "%s/works.log", s->folder);
    s->web = q->web != NULL ? q->web : is_folder(SW_WEB_FOLDER) ? SW_WEB_FOLDER : NULL;
    if (s->web != NULL && !is_folder(s->web))
        return sw_fail(run, SW_IO, (sw_place){0}, "--web", "%s is no folder; give the one with index.html", s->web);
    const char *place = getenv("TMPDIR");
    char *scratch = (char *)sw_text_format(run, run->keep, "%s/stovewright-serve-XXXXXX",
                                           place != NULL && place[0] == '/' ? place : "/tmp");
    if (scratch == NULL || s->log == NULL) return SW_NO_MEMORY;
    if (mkdtemp(scratch) == NULL)
        return sw_fail(run, SW_IO, (sw_place){0}, scratch,
                       "cannot be made: %s; set TMPDIR to a folder that can be written", strerror(errno));
    s->scratch = scratch;
    return SW_OK;
}

static sw_status start_daemon(sw_run *run, serve *s)
{
    const struct MHD_OptionItem options[] = {
        {MHD_OPTION_LISTEN_SOCKET, s->listening, NULL},
        {MHD_OPTION_CONNECTION_LIMIT, SERVE_CONNECTIONS, NULL},
        {MHD_OPTION_PER_IP_CONNECTION_LIMIT, s->loopback ? SERVE_CONNECTIONS : SERVE_PER_ADDRESS, NULL},
        {MHD_OPTION_CONNECTION_TIMEOUT, (intptr_t)(2 * s->patience_s), NULL},
        {MHD_OPTION_CONNECTION_MEMORY_LIMIT, 64 << 10, NULL},
        {MHD_OPTION_STRICT_FOR_CLIENT, 1, NULL},
        {MHD_OPTION_END, 0, NULL},
    };
    unsigned flags = MHD_USE_INTERNAL_POLLING_THREAD | MHD_USE_POLL | MHD_ALLOW_SUSPEND_RESUME;
    if (strchr(s->address, ':') != NULL) flags |= MHD_USE_IPv6;
    s->daemon = MHD_start_daemon(flags, 0, NULL, NULL, serve_handle, s, MHD_OPTION_NOTIFY_COMPLETED, serve_ended, s,
                                 MHD_OPTION_NOTIFY_CONNECTION, serve_connected, s, MHD_OPTION_UNESCAPE_CALLBACK,
                                 serve_unescape, s, MHD_OPTION_ARRAY, options, MHD_OPTION_END);
    if (s->daemon != NULL) return SW_OK;
    return sw_fail(run, SW_IO, (sw_place){0}, "serve", "the server could not start: %s", strerror(errno));
}

/* What a browser of this machine can open. */
static const char *shown_address(const serve *s)
{
    if (strcmp(s->address, "0.0.0.0") == 0) return "127.0.0.1";
    return strcmp(s->address, "::") == 0 ? "::1" : s->address;
}

/* At once, not when the program ends. */
static void announce(const serve *s)
{
    sw_run probe = {0};
    sw_writer *w = NULL;
    if (sw_writer_to_stream(&probe, STDOUT_FILENO, &w) != SW_OK) return;
    const char *address = shown_address(s);
    bool six = strchr(address, ':') != NULL;
    sw_print(w, "Workbench of %s: http://%s%s%s:%d/", s->folder, six ? "[" : "", address, six ? "]" : "", s->port);
    if (s->token_asked) sw_print(w, "?token=%s", s->token);
    sw_print(w, "\nCtrl-C stops it.\n");
    if (!s->loopback)
        sw_print(
            w,
            "Other machines can reach it, by this machine's own address, and nothing on the way is encrypted: use it in a "
            "network you trust.\n");
    (void)sw_writer_close(&probe, w);
}

/* ---- keeping house ------------------------------------------------------------------------------------------- */

static void look_after_lines(serve *s, double now_s)
{
    for (size_t i = 0; i < SERVE_CONNECTIONS; i++) {
        serve_line *l = &s->lines[i];
        if (!l->open || l->due_s == 0 || now_s < l->due_s) continue;
        (void)shutdown(l->socket, SHUT_RDWR);
        l->due_s = 0;
    }
}

static void keep_house(serve *s)
{
    const struct timespec pause = {.tv_nsec = (long)(look_s * 1e9)};
    while (atomic_load(s->request->stop) == 0) {
        serve_scan(s);
        (void)pthread_mutex_lock(&s->lock);
        look_after_lines(s, sw_seconds());
        (void)pthread_mutex_unlock(&s->lock);
        serve_look_after_tasks(s);
        serve_tell_watchers(s);
        (void)nanosleep(&pause, NULL);
    }
}

static void stop_all(serve *s)
{
    (void)pthread_mutex_lock(&s->lock);
    atomic_store(&s->stopping, true);
    for (size_t i = 0; i < SERVE_JOBS_KEPT; i++) atomic_store(&s->jobs[i].cancel, 1);
    (void)pthread_cond_broadcast(&s->changed);
    (void)pthread_mutex_unlock(&s->lock);
}

static sw_status work(sw_run *run, serve *s)
{
    pthread_t jobs;
    serve_read_activity(s, run);
    serve_scan(s);
    SW_TRY(start_daemon(run, s));
    bool has_jobs = pthread_create(&jobs, NULL, serve_jobs_thread, s) == 0;
    bool has_hands = serve_hands_start(s) && has_jobs;
    if (has_hands) {
        announce(s);
        keep_house(s);
    }
    stop_all(s);
    serve_hands_stop(s);
    if (has_jobs) (void)pthread_join(jobs, NULL);
    MHD_stop_daemon(s->daemon);
    serve_tasks_end(s);
    s->listening = -1; /* closed with the daemon */
    return has_hands ? SW_OK : sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "serve", "no thread to work with");
}

static void open_locks(serve *s)
{
    pthread_condattr_t how;
    (void)pthread_condattr_init(&how);
    (void)pthread_condattr_setclock(&how, CLOCK_MONOTONIC);
    (void)pthread_mutex_init(&s->lock, NULL);
    (void)pthread_mutex_init(&s->log_lock, NULL);
    (void)pthread_mutex_init(&s->own_lock, NULL);
    (void)pthread_cond_init(&s->changed, &how);
    (void)pthread_condattr_destroy(&how);
}

static void tidy_up(serve *s)
{
    sw_folder scratch = {.path = s->scratch, .working = s->scratch};
    serve_jobs_end(s);
    sw_folder_discard(&scratch);
    if (s->listening >= 0) (void)close(s->listening);
    json_decref(s->activity);
    (void)pthread_cond_destroy(&s->changed);
    (void)pthread_mutex_destroy(&s->lock);
    (void)pthread_mutex_destroy(&s->log_lock);
    (void)pthread_mutex_destroy(&s->own_lock);
}

static sw_status make_ready(sw_run *run, serve *s)
{
    SW_TRY(open_socket(run, s));
    SW_TRY(choose_token(run, s));
    return choose_folders(run, s);
}

/* All cores unless --threads says a number above 1. */
static int threads_of(const sw_request *request)
{
    long cores = sysconf(_SC_NPROCESSORS_ONLN);
    if (request->threads > 1) return (int)request->threads;
    return cores < 1 ? 1 : cores > THREADS_MOST ? THREADS_MOST : (int)cores;
}

int sw_command_serve(sw_run *run, const sw_request *request, sw_writer *out)
{
    (void)out;
    serve *s = SW_KEEP(run, 1, serve);
    if (s == NULL) return SW_EXIT_TROUBLE;
    s->request = request;
    s->listening = -1;
    s->port = (int)request->port;
    s->patience_s = request->patience_s > 0 ? request->patience_s : patience_s;
    s->threads = threads_of(request);
    s->address = request->address == NULL ? "127.0.0.1" : request->address;
    open_locks(s);
    sw_status status = make_ready(run, s);
    if (status == SW_OK) status = work(run, s);
    tidy_up(s);
    return sw_exit_of_status(status);
}
