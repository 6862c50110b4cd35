/* serve_tasks.c: answers that take longer than a connection's thread may: each is a task, made by one of few hands, once for
 * all who ask the same. Who went away is let go; what nobody waits for is stopped. */
#include "app/serve.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/socket.h>

static const double study_s = 60, queue_s = 60, long_s = 3; /* ours: a study takes a tenth of a second, nests a few */
static const double kept_s = 60; /* ours: a description may lend from a file we do not watch */

enum { SHARED_BODY_MOST = 128 << 10 }; /* larger ones are not kept for comparison */

/* ---- who waits -------------------------------------------------------------------------------------------------- */

bool serve_went_away(const serve_call *call)
{
    char byte = 0;
    if (call->line == NULL) return false;
    ssize_t n = recv(call->line->socket, &byte, 1, MSG_PEEK | MSG_DONTWAIT);
    return n == 0 || (n < 0 && errno != EAGAIN && errno != EWOULDBLOCK && errno != EINTR);
}

/* With the lock. */
static void rest_in(serve_call *call, serve_call **list)
{
    call->resting = true;
    call->next = *list;
    *list = call;
}

void serve_resume(serve_call *list)
{
    while (list != NULL) {
        serve_call *next = list->next; /* once it goes on, the call may be gone */
        list->next = NULL;
        MHD_resume_connection(list->connection);
        list = next;
    }
}

/* ---- the list of tasks, with the lock ----------------------------------------------------------------------------- */

static void free_task(serve *s, serve_task *t)
{
    s->body_bytes -= t->own.room;
    if (t->response != NULL) MHD_destroy_response(t->response);
    free(t->own.body);
    free(t->own.reply.bytes);
    free(t->own.reply.name);
    free(t);
}

static void drop(serve *s, serve_task *t)
{
    serve_task **at = &s->tasks;
    while (*at != t) at = &(*at)->next;
    *at = t->next;
    if (!t->made && !t->running) s->waiting_tasks--;
    free_task(s, t);
}

static bool is_the_same(const serve_task *t, const serve_call *call, void (*answer)(serve_call *), long version)
{
    return (t->how & SERVE_SHARED) != 0 && t->answer == answer && t->version == version && !t->spoilt &&
           t->own.length == call->length && strcmp(t->own.path, call->path) == 0 &&
           (call->length == 0 || memcmp(t->own.body, call->body, call->length) == 0);
}

static serve_task *find_same(serve *s, const serve_call *call, void (*answer)(serve_call *), long version)
{
    for (serve_task *t = s->tasks; t != NULL; t = t->next) {
        if (!is_the_same(t, call, answer, version)) continue;
        if (t->made && sw_seconds() > t->due_s) continue;
        return t;
    }
    return NULL;
}

static bool goes_sooner(const serve_task *a, const serve_task *b)
{
    return a->spoilt != b->spoilt ? a->spoilt : a->age < b->age;
}

/* Made answers nobody may join go, then those beyond what is kept, the oldest first; those that are being sent stay. */
static void make_room(serve *s)
{
    for (;;) {
        size_t count = 0, bytes = 0;
        serve_task *oldest = NULL;
        for (serve_task *t = s->tasks; t != NULL; t = t->next) {
            if (!t->made) continue;
            count++;
            bytes += t->length;
            if (t->holders == 0 && (oldest == NULL || goes_sooner(t, oldest))) oldest = t;
        }
        bool fits = count <= SERVE_ANSWERS_KEPT && bytes <= SERVE_ANSWER_BYTES;
        if (oldest == NULL || (fits && !oldest->spoilt && sw_seconds() <= oldest->due_s)) return;
        drop(s, oldest);
    }
}

/* Whoever has waited long goes first all the same. */
static bool goes_before(const serve_task *a, const serve_task *b, double now_s)
{
    unsigned of_a = now_s > a->due_s - queue_s + long_s ? 0 : a->weight;
    unsigned of_b = now_s > b->due_s - queue_s + long_s ? 0 : b->weight;
    return of_a < of_b || (of_a == of_b && a->age < b->age);
}

static serve_task *first_waiting(serve *s, unsigned kind)
{
    serve_task *first = NULL;
    double now_s = sw_seconds();
    for (serve_task *t = s->tasks; t != NULL; t = t->next) {
        bool mine = !t->made && !t->running && (t->how & (SERVE_HEAVY | SERVE_PICTURE)) == kind;
        if (mine && (first == NULL || goes_before(t, first, now_s))) first = t;
    }
    return first;
}

/* ---- asking -------------------------------------------------------------------------------------------------------- */

/* The body goes over into a shared task: whoever asked first may leave before the others. */
static serve_task *new_task(serve_call *call, void (*answer)(serve_call *), unsigned how, long version)
{
    serve *s = call->s;
    serve_task *t = calloc(1, sizeof *t);
    if (t == NULL) return NULL;
    *t = (serve_task){.how = how, .answer = answer, .age = ++s->asked, .version = version};
    t->due_s = sw_seconds() + queue_s;
    t->weight = (how & SERVE_HEAVY) != 0 ? serve_weight(call) : 0;
    if ((how & SERVE_SHARED) != 0) {
        t->own = (serve_call){.s = s, .method = call->method, .path = call->path, .body = call->body};
        t->own.length = call->length;
        t->own.room = call->room;
        t->own.reply.file = -1;
        call->body = NULL;
        call->length = call->room = 0;
    }
    t->next = s->tasks;
    s->tasks = t;
    s->waiting_tasks++;
    (void)pthread_cond_broadcast(&s->changed);
    return t;
}

/* With the lock: the call has the answer or rests; false when there is no room for it. */
static bool join_or_begin(serve_call *call, void (*answer)(serve_call *), unsigned how, long version)
{
    serve *s = call->s;
    if (atomic_load(&s->stopping)) return false; /* nobody would wake who rests from now on */
    serve_task *t = (how & SERVE_SHARED) == 0 ? NULL : find_same(s, call, answer, version);
    if (t == NULL && s->waiting_tasks >= SERVE_QUEUE_MOST) return false;
    if (t == NULL) t = new_task(call, answer, how, version);
    if (t == NULL) return false;
    if (t->made) {
        t->age = ++s->asked;
        t->holders++;
        call->task = t;
    } else {
        MHD_suspend_connection(call->connection);
        rest_in(call, &t->asking);
    }
    return true;
}

void serve_ask(serve_call *call, void (*answer)(serve_call *call), unsigned how)
{
    serve *s = call->s;
    if (call->length > SHARED_BODY_MOST) how &= ~(unsigned)SERVE_SHARED;
    if ((how & SERVE_SHARED) != 0) serve_scan(s); /* a file saved a moment ago counts */
    (void)pthread_mutex_lock(&s->lock);
    bool done = join_or_begin(call, answer, how, s->version);
    (void)pthread_mutex_unlock(&s->lock);
    if (!done)
        serve_say_error(call, MHD_HTTP_SERVICE_UNAVAILABLE, "too much is being computed",
                        "wait a little and ask again");
}

void serve_release(serve_call *call)
{
    serve *s = call->s;
    if (call->task == NULL) return;
    (void)pthread_mutex_lock(&s->lock);
    call->task->holders--;
    call->task = NULL;
    make_room(s);
    (void)pthread_mutex_unlock(&s->lock);
}

/* ---- hands ----------------------------------------------------------------------------------------------------------- */

/* A picture never: what the page holds is part of the question, so hardly anybody asks the same. */
static bool may_be_kept(unsigned status, unsigned how)
{
    if ((how & SERVE_PICTURE) != 0) return false;
    return status == MHD_HTTP_OK || status == MHD_HTTP_BAD_REQUEST || status == MHD_HTTP_UNPROCESSABLE_CONTENT;
}

/* Without the lock. Whether who asks the same later may have it. */
static bool make(serve_hand *h, serve_task *t)
{
    bool shared = (t->how & SERVE_SHARED) != 0;
    serve_call *call = shared ? &t->own : t->asking;
    call->hand = h;
    t->answer(call);
    call->hand = NULL;
    if (!shared) return false;
    t->length = call->reply.length;
    t->response = serve_response(call);
    return may_be_kept(call->reply.status, t->how) && atomic_load(&h->cancel) == 0;
}

/* With the lock. Gives the calls that may go on. */
static serve_call *hand_out(serve *s, serve_task *t, bool kept)
{
    serve_call *list = t->asking;
    t->asking = NULL;
    t->running = false;
    t->made = true;
    t->spoilt = t->spoilt || !kept;
    t->due_s = sw_seconds() + kept_s;
    for (serve_call *c = list; c != NULL && t->response != NULL; c = c->next) {
        c->task = t;
        t->holders++;
    }
    if ((t->how & SERVE_SHARED) == 0 || t->response == NULL)
        drop(s, t);
    else
        make_room(s);
    return list;
}

static void *work_on(void *place)
{
    serve_hand *h = place;
    serve *s = h->s;
    (void)pthread_mutex_lock(&s->lock);
    while (!atomic_load(&s->stopping)) {
        serve_task *t = first_waiting(s, h->kind);
        if (t == NULL) {
            (void)pthread_cond_wait(&s->changed, &s->lock);
            continue;
        }
        s->waiting_tasks--;
        t->running = true;
        t->due_s = sw_seconds() + study_s;
        h->task = t;
        atomic_store(&h->cancel, 0);
        (void)pthread_mutex_unlock(&s->lock);
        bool kept = make(h, t);
        (void)pthread_mutex_lock(&s->lock);
        h->task = NULL;
        serve_call *go_on = hand_out(s, t, kept);
        (void)pthread_mutex_unlock(&s->lock);
        serve_resume(go_on);
        (void)pthread_mutex_lock(&s->lock);
    }
    (void)pthread_mutex_unlock(&s->lock);
    return NULL;
}

bool serve_hands_start(serve *s)
{
    for (size_t i = 0; i < SERVE_HANDS; i++) {
        serve_hand *h = &s->hands[i];
        h->s = s;
        h->kind = i < SERVE_AT_ONCE ? SERVE_HEAVY : i == SERVE_AT_ONCE ? SERVE_PICTURE : 0;
        h->started = pthread_create(&h->thread, NULL, work_on, h) == 0;
        if (!h->started) return false;
    }
    return true;
}

/* ---- looking after them ------------------------------------------------------------------------------------------------- */

static void move(serve_call **from, serve_call **to)
{
    serve_call *c = *from;
    *from = c->next;
    c->next = *to;
    *to = c;
}

/* Who went away goes on to its end. The one call of a task that is being made must stay: the hand writes into it. */
static void let_go(serve_task *t, serve_call **go_on)
{
    for (serve_call **at = &t->asking; *at != NULL;) {
        bool fixed = t->running && (t->how & SERVE_SHARED) == 0;
        if (!fixed && serve_went_away(*at))
            move(at, go_on);
        else
            at = &(*at)->next;
    }
}

static bool is_unwanted(const serve_task *t)
{
    if (t->asking == NULL) return true;
    return (t->how & SERVE_SHARED) == 0 && serve_went_away(t->asking);
}

static serve_hand *hand_of(serve *s, const serve_task *t)
{
    for (size_t i = 0; i < SERVE_HANDS; i++)
        if (s->hands[i].task == t) return &s->hands[i];
    return NULL;
}

static void look_after(serve *s, serve_task *t, double now_s, serve_call **go_on)
{
    bool late = now_s > t->due_s;
    if (t->made) return;
    let_go(t, go_on);
    if (t->running) {
        serve_hand *h = hand_of(s, t);
        if (h == NULL || !(late || is_unwanted(t))) return;
        t->spoilt = true; /* nobody joins it any more */
        atomic_store(&h->cancel, 1);
        return;
    }
    if (!late && t->asking != NULL) return;
    while (t->asking != NULL) move(&t->asking, go_on);
    drop(s, t);
}

void serve_look_after_tasks(serve *s)
{
    serve_call *go_on = NULL;
    double now_s = sw_seconds();
    (void)pthread_mutex_lock(&s->lock);
    for (serve_task *t = s->tasks, *next = NULL; t != NULL; t = next) {
        next = t->next;
        look_after(s, t, now_s, &go_on);
    }
    make_room(s);
    (void)pthread_mutex_unlock(&s->lock);
    serve_resume(go_on);
}

void serve_hands_stop(serve *s)
{
    (void)pthread_mutex_lock(&s->lock);
    for (size_t i = 0; i < SERVE_HANDS; i++) atomic_store(&s->hands[i].cancel, 1);
    (void)pthread_cond_broadcast(&s->changed);
    (void)pthread_mutex_unlock(&s->lock);
    for (size_t i = 0; i < SERVE_HANDS; i++)
        if (s->hands[i].started) (void)pthread_join(s->hands[i].thread, NULL);
    serve_call *go_on = NULL;
    (void)pthread_mutex_lock(&s->lock);
    while (s->watching != NULL) move(&s->watching, &go_on);
    for (serve_task *t = s->tasks; t != NULL; t = t->next)
        while (t->asking != NULL) move(&t->asking, &go_on);
    (void)pthread_mutex_unlock(&s->lock);
    serve_resume(go_on);
}

void serve_tasks_end(serve *s)
{
    while (s->tasks != NULL) drop(s, s->tasks);
}
