/* serve_work.c: a bounded place to compute in: a run of its own that stops when nobody waits for it any more. */
#include "app/serve.h"

#include <string.h>

bool serve_work_open(serve_call *call, serve_work *work)
{
    const sw_request *q = call->s->request;
    atomic_int *cancel = &call->hand->cancel;
    memset(work, 0, sizeof *work);
    work->s = call->s;
    if (sw_run_open(&work->run, (size_t)q->memory_mb << 20) != SW_OK) {
        serve_say_error(call, MHD_HTTP_INSUFFICIENT_STORAGE, "no memory for this", "wait a little and ask again");
        return false;
    }
    work->run.threads = call->s->threads;
    work->run.cancel = cancel;
    work->request = (sw_request){
        .command = "serve", .batch = 1, .seed = q->seed, .threads = call->s->threads, .memory_mb = q->memory_mb};
    return true;
}

void serve_work_close(serve_work *work)
{
    sw_run_close(&work->run);
}

const char *serve_scratch_path(serve *s, sw_run *run, const char *ending)
{
    (void)pthread_mutex_lock(&s->lock);
    unsigned number = ++s->last_file;
    (void)pthread_mutex_unlock(&s->lock);
    return sw_text_format(run, run->keep, "%s/%u%s", s->scratch, number, ending);
}
