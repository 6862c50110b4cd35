/* serve_jobs.c: long work in the background, one after another. Answers outlive the page; the last 20 are kept. */
#include "app/serve.h"

#include <stdlib.h>
#include <string.h>

static const char *const state_names[] = {"waiting", "running", "done", "failed", "cancelled"};

static bool is_over(const serve_job *j)
{
    return j->state >= JOB_DONE;
}

static void forget(serve_job *j)
{
    sw_folder folder = {.path = j->folder, .working = j->folder};
    sw_folder_discard(&folder);
    json_decref(j->body);
    json_decref(j->files);
    json_decref(j->errors);
    free(j->result);
    free(j->folder);
    memset(j, 0, sizeof *j);
}

void serve_jobs_end(serve *s)
{
    for (size_t i = 0; i < SERVE_JOBS_KEPT; i++) forget(&s->jobs[i]);
}

/* ---- the thread that works ------------------------------------------------------------------------------------- */

typedef struct listener {
    serve *s;
    serve_job *job;
} listener;

static void on_progress(void *context, const sw_progress *p)
{
    const listener *l = context;
    (void)pthread_mutex_lock(&l->s->lock);
    l->job->done = p->done;
    l->job->total = p->total;
    bool noted = p->note != NULL && p->note[0] != '\0';
    (void)snprintf(l->job->task, sizeof l->job->task, "%s%s%s", p->task, noted ? ": " : "", noted ? p->note : "");
    (void)pthread_mutex_unlock(&l->s->lock);
}

static void close_job(serve *s, serve_job *j, const sw_run *run, sw_status status, const char *result)
{
    (void)pthread_mutex_lock(&s->lock);
    if (status == SW_OK && result != NULL) j->result = strdup(result);
    if (status == SW_OK && j->result == NULL) status = SW_NO_MEMORY;
    if (status == SW_OK)
        j->state = JOB_DONE;
    else
        j->state = status == SW_CANCELLED || atomic_load(&j->cancel) != 0 ? JOB_CANCELLED : JOB_FAILED;
    if (status != SW_OK) j->errors = serve_json_of_errors(s, run, status);
    (void)pthread_mutex_unlock(&s->lock);
}

static void run_job(serve *s, serve_job *j)
{
    static const sw_run no_run;
    const char *result = NULL;
    listener ear = {s, j};
    sw_run run;
    if (sw_run_open(&run, (size_t)s->request->memory_mb << 20) != SW_OK) {
        close_job(s, j, &no_run, SW_NO_MEMORY, NULL);
        return;
    }
    run.threads = (int)s->request->threads;
    run.cancel = &j->cancel;
    run.on_progress = on_progress;
    run.progress_context = &ear;
    sw_status status = serve_job_work(s, &run, j, &result);
    close_job(s, j, &run, status, result);
    sw_run_close(&run);
}

static serve_job *first_waiting(serve *s)
{
    serve_job *first = NULL;
    for (size_t i = 0; i < SERVE_JOBS_KEPT; i++)
        if (s->jobs[i].id != 0 && s->jobs[i].state == JOB_WAITING && (first == NULL || s->jobs[i].id < first->id))
            first = &s->jobs[i];
    return first;
}

void *serve_jobs_thread(void *server)
{
    serve *s = server;
    (void)pthread_mutex_lock(&s->lock);
    while (!atomic_load(&s->stopping)) {
        serve_job *j = first_waiting(s);
        if (j == NULL) {
            (void)pthread_cond_wait(&s->changed, &s->lock);
            continue;
        }
        j->state = JOB_RUNNING;
        (void)pthread_mutex_unlock(&s->lock);
        run_job(s, j);
        (void)pthread_mutex_lock(&s->lock);
    }
    (void)pthread_mutex_unlock(&s->lock);
    return NULL;
}

/* ---- POST /api/job ---------------------------------------------------------------------------------------------------- */

/* With the lock. The oldest that is over makes room; NULL: all are still to be done. */
static serve_job *room_for_job(serve *s)
{
    serve_job *oldest = NULL;
    for (size_t i = 0; i < SERVE_JOBS_KEPT; i++) {
        serve_job *j = &s->jobs[i];
        if (j->id == 0) return j;
        if (is_over(j) && (oldest == NULL || j->id < oldest->id)) oldest = j;
    }
    if (oldest != NULL) forget(oldest);
    return oldest;
}

/* Takes body. 0 = no room. */
static unsigned add_job(serve *s, json_t *body)
{
    unsigned id = 0;
    (void)pthread_mutex_lock(&s->lock);
    serve_job *j = room_for_job(s);
    if (j != NULL) {
        id = j->id = ++s->last_job;
        j->body = json_incref(body);
        j->kind = json_string_value(json_object_get(body, "kind"));
        serve_now(j->when);
        (void)pthread_cond_broadcast(&s->changed);
    }
    (void)pthread_mutex_unlock(&s->lock);
    json_decref(body);
    return id;
}

static void note(serve_call *call, const char *what, unsigned id)
{
    char who[64];
    serve_caller(call, who);
    serve_note(call->s, who, what, json_integer((json_int_t)id));
}

void serve_job_start(serve_call *call)
{
    json_t *body = serve_body(call);
    if (body == NULL) return;
    const char *kind = json_string_value(json_object_get(body, "kind"));
    if (kind == NULL || !serve_job_kind(kind)) {
        serve_say_error(call, MHD_HTTP_BAD_REQUEST, "kind is none we know",
                        "give dossier, nest, map, sweep, bands or through");
        json_decref(body);
        return;
    }
    unsigned id = add_job(call->s, body);
    if (id == 0)
        serve_say_error(call, MHD_HTTP_SERVICE_UNAVAILABLE, "20 jobs are waiting already", "cancel one or wait");
    else {
        note(call, "job started", id);
        serve_say_json(call, MHD_HTTP_OK, json_pack("{s:i}", "job", (int)id));
    }
}

/* ---- telling -------------------------------------------------------------------------------------------------------------- */

/* With the lock. */
static serve_job *find_job(serve *s, const char *text, const char **rest)
{
    char *end = NULL;
    unsigned long id = text[0] >= '1' && text[0] <= '9' ? strtoul(text, &end, 10) : 0;
    for (size_t i = 0; id != 0 && i < SERVE_JOBS_KEPT; i++)
        if (s->jobs[i].id == id) {
            *rest = end;
            return &s->jobs[i];
        }
    return NULL;
}

static json_t *tell(const serve_job *j)
{
    json_t *root = json_pack("{s:i, s:s, s:s, s:s, s:{s:f, s:f, s:s}, s:O*}", "job", (int)j->id, "kind", j->kind,
                             "when", j->when, "state", state_names[j->state], "progress", "done", j->done, "of",
                             j->total, "text", j->task, "files", j->files);
    if (j->files == NULL) (void)json_object_set_new(root, "files", json_array());
    if (j->errors != NULL) {
        (void)json_object_set(root, "error", json_array_get(j->errors, 0));
        (void)json_object_set(root, "errors", j->errors);
    }
    return root;
}

/* The result is text already: it goes in before the last brace. */
static void say_job(serve_call *call, json_t *root, const char *result)
{
    serve_say_json(call, MHD_HTTP_OK, root);
    serve_reply *r = &call->reply;
    if (result == NULL || r->bytes == NULL) return;
    size_t room = r->length + strlen(result) + 20;
    char *whole = malloc(room);
    if (whole == NULL) return;
    int length = snprintf(whole, room, "%.*s,\"result\":%s}", (int)r->length - 1, r->bytes, result);
    free(r->bytes);
    r->bytes = whole;
    r->length = (size_t)length;
}

static bool has_file(const serve_job *j, const char *path)
{
    for (size_t i = 0; i < json_array_size(j->files); i++) {
        const char *one = json_string_value(json_object_get(json_array_get(j->files, i), "path"));
        if (one != NULL && strcmp(one, path) == 0) return true;
    }
    return false;
}

/* With the lock: opened before the job may be forgotten. Pages of a dossier show, but run nothing. */
static void send_job_file(serve_call *call, const serve_job *j, const char *path)
{
    if (!has_file(j, path)) {
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "the job has no such file", "see the job's list of files");
        return;
    }
    serve_send_file(call, j->folder, path);
    call->reply.policy =
        "default-src 'none'; img-src 'self' data:; style-src 'self' 'unsafe-inline'; font-src 'self' data:; "
        "object-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'self'";
    const char *slash = strrchr(path, '/');
    const char *save = MHD_lookup_connection_value(call->connection, MHD_GET_ARGUMENT_KIND, "save");
    if (save != NULL) call->reply.name = strdup(slash == NULL ? path : slash + 1);
}

void serve_job_tell(serve_call *call)
{
    serve *s = call->s;
    const char *rest = NULL;
    (void)pthread_mutex_lock(&s->lock);
    const serve_job *j = find_job(s, call->rest, &rest);
    if (j != NULL && rest[0] == '\0')
        say_job(call, tell(j), j->result);
    else if (j != NULL && strncmp(rest, "/file/", 6) == 0)
        send_job_file(call, j, rest + 6);
    else
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is no such job", "see /api/jobs; the last 20 are kept");
    (void)pthread_mutex_unlock(&s->lock);
}

void serve_job_list(serve_call *call)
{
    serve *s = call->s;
    json_t *list = json_array();
    (void)pthread_mutex_lock(&s->lock);
    for (unsigned id = s->last_job; id > 0 && id + 2 * SERVE_JOBS_KEPT > s->last_job; id--)
        for (size_t i = 0; i < SERVE_JOBS_KEPT; i++)
            if (s->jobs[i].id == id) (void)json_array_append_new(list, tell(&s->jobs[i]));
    (void)pthread_mutex_unlock(&s->lock);
    serve_say_json(call, MHD_HTTP_OK, list);
}

void serve_job_cancel(serve_call *call)
{
    serve *s = call->s;
    const char *rest = "";
    unsigned id = 0; /* of the job that is stopped by this */
    (void)pthread_mutex_lock(&s->lock);
    serve_job *j = find_job(s, call->rest, &rest);
    if (j != NULL && rest[0] == '\0') {
        if (!is_over(j)) id = j->id;
        atomic_store(&j->cancel, 1);
        if (j->state == JOB_WAITING) j->state = JOB_CANCELLED;
        say_job(call, tell(j), NULL);
    } else
        serve_say_error(call, MHD_HTTP_NOT_FOUND, "there is no such job", "see /api/jobs; the last 20 are kept");
    (void)pthread_mutex_unlock(&s->lock);
    if (id != 0) note(call, "job cancelled", id);
}
