/* serve_work.c: a bounded place to compute in: a run of its own, a deadline, and a stop when the caller goes away. */
#include "app/serve.h"

#include <string.h>
#include <time.h>

static const double study_s = 60, queue_s = 60; /* ours: a study takes a tenth of a second, nests a few */

bool serve_wait(serve *s, double until_s)
{
    const struct timespec at = {.tv_sec = (time_t)until_s,
                                .tv_nsec = (long)((until_s - (double)(time_t)until_s) * 1e9)};
    return pthread_cond_timedwait(&s->changed, &s->lock, &at) == 0;
}

static serve_slot *free_slot(serve *s)
{
    for (size_t i = 0; i < SERVE_AT_ONCE; i++)
        if (!s->slots[i].busy) return &s->slots[i];
    return NULL;
}

static serve_slot *take_slot(serve_call *call)
{
    serve *s = call->s;
    double until_s = sw_seconds() + queue_s;
    (void)pthread_mutex_lock(&s->lock);
    serve_slot *slot = free_slot(s);
    while (slot == NULL && !atomic_load(&s->stopping) && sw_seconds() < until_s) {
        (void)serve_wait(s, until_s);
        slot = free_slot(s);
    }
    if (slot != NULL) {
        slot->busy = true;
        slot->socket = call->line == NULL ? -1 : call->line->socket;
        slot->due_s = sw_seconds() + study_s;
        atomic_store(&slot->cancel, atomic_load(&s->stopping) ? 1 : 0);
    }
    (void)pthread_mutex_unlock(&s->lock);
    return slot;
}

static void give_slot(serve *s, serve_slot *slot)
{
    (void)pthread_mutex_lock(&s->lock);
    slot->busy = false;
    (void)pthread_cond_broadcast(&s->changed);
    (void)pthread_mutex_unlock(&s->lock);
}

bool serve_work_open(serve_call *call, serve_work *work)
{
    const sw_request *q = call->s->request;
    memset(work, 0, sizeof *work);
    work->s = call->s;
    work->slot = take_slot(call);
    if (work->slot == NULL) {
        serve_say_error(call, MHD_HTTP_SERVICE_UNAVAILABLE, "too much is being computed",
                        "wait a little and ask again");
        return false;
    }
    if (sw_run_open(&work->run, (size_t)q->memory_mb << 20) != SW_OK) {
        give_slot(call->s, work->slot);
        serve_say_error(call, MHD_HTTP_INSUFFICIENT_STORAGE, "no memory for this", "wait a little and ask again");
        return false;
    }
    work->run.threads = (int)q->threads;
    work->run.cancel = &work->slot->cancel;
    work->request = (sw_request){.command = "serve",
                                 .batch = 1,
                                 .seed = q->seed,
                                 .threads = q->threads,
                                 .memory_mb = q->memory_mb,
                                 .stop = &work->slot->cancel};
    return true;
}

void serve_work_close(serve_work *work)
{
    sw_run_close(&work->run);
    give_slot(work->s, work->slot);
}

const char *serve_scratch_path(serve *s, sw_run *run, const char *ending)
{
    (void)pthread_mutex_lock(&s->lock);
    unsigned number = ++s->last_file;
    (void)pthread_mutex_unlock(&s->lock);
    return sw_text_format(run, run->keep, "%s/%u%s", s->scratch, number, ending);
}
