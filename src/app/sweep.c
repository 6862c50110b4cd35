/* sweep.c: the designs of a sweep, one after another on every thread.
 *
 * A job is one geometry: the stove is read, unfolded and looked at by rays once, then all conditions are settled on it,
 * each from the point before. */
#include "app/sweep.h"

#include <math.h>
#include <string.h>

enum { JOB_MEMORY = 1 << 28, WHY_ROOM = 384 };

typedef struct sweep_job {
    sw_run *run; /* of the caller: cancel flag and progress */
    const sw_sweep *sweep;
    double *values;
    char (*why)[WHY_ROOM]; /* [jobs] the first reason why a design failed */
    size_t per_job;        /* conditions on one geometry */
    atomic_size_t done;
} sweep_job;

static size_t parameter_axes(const sw_sweep *s)
{
    size_t n = 0;
    while (n < s->axis_count && !s->axes[n].condition) n++;
    return n;
}

double sw_sweep_value(const sw_sweep *s, size_t axis, size_t design)
{
    for (size_t i = s->axis_count; i > axis + 1; i--) design /= s->axes[i - 1].count;
    const sw_sweep_axis *a = &s->axes[axis];
    size_t k = design % a->count;
    return a->count == 1 ? a->from : a->from + (a->to - a->from) * (double)k / (double)(a->count - 1);
}

/* "name=value unit" texts of the axes from..to for a design, behind those of the request. */
static sw_status settings_of(sw_run *run, const sw_sweep *s, size_t from, size_t to, size_t design, const char **list,
                             size_t *count)
{
    for (size_t i = from; i < to; i++) {
        const char *text = sw_text_format(run, run->keep, "%s=%.10g%s", s->axes[i].name, sw_sweep_value(s, i, design),
                                          s->axes[i].unit);
        if (text == NULL) return SW_NO_MEMORY;
        if (*count == SW_WORDS_MAX)
            return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "--vary", "too many settings in all");
        list[(*count)++] = text;
    }
    return SW_OK;
}

static sw_status request_of(sw_run *run, const sw_sweep *s, size_t design, sw_request *q)
{
    size_t parameters = parameter_axes(s);
    *q = *s->request;
    q->stop = NULL;
    q->threads = 1;
    SW_TRY(settings_of(run, s, 0, parameters, design, q->settings, &q->setting_count));
    return settings_of(run, s, parameters, s->axis_count, design, q->conditions, &q->condition_count);
}

static void report(const sweep_job *job, size_t design, const sw_dossier *d)
{
    const sw_sweep *s = job->sweep;
    for (size_t k = 0; k < s->quantity_count; k++)
        job->values[design * s->quantity_count + k] = d == NULL ? (double)NAN : s->quantities[k]->of(d);
}

/* One condition on the geometry of `d`. */
static sw_status one_condition(sweep_job *job, sw_run *run, sw_dossier *d, size_t design)
{
    sw_request q;
    SW_TRY(request_of(run, job->sweep, design, &q));
    SW_TRY(sw_dossier_burn(run, &q, d, SW_DO_BURN | SW_DO_POINT));
    if (d->burned->point != NULL) report(job, design, d);
    return SW_OK;
}

static void note(char *why, const char *text)
{
    size_t length = strlen(text);
    if (why[0] != '\0') return;
    if (length >= WHY_ROOM) length = WHY_ROOM - 1;
    memcpy(why, text, length);
    why[length] = '\0';
}

static sw_status geometry(sweep_job *job, sw_run *run, size_t index)
{
    sw_request q;
    sw_dossier d;
    size_t first = index * job->per_job;
    SW_TRY(request_of(run, job->sweep, first, &q));
    SW_TRY(sw_dossier_make(run, &q, SW_DO_HEFT | (job->sweep->work & ~(unsigned)(SW_DO_BURN | SW_DO_POINT)), "", &d));
    if ((job->sweep->work & SW_DO_BURN) == 0) {
        for (size_t k = 0; k < job->per_job; k++) report(job, first + k, &d);
        return SW_OK;
    }
    for (size_t k = 0; k < job->per_job && !sw_run_cancelled(job->run); k++) {
        sw_status status = one_condition(job, run, &d, first + k);
        if (status == SW_NO_MEMORY) return status;
        if (status != SW_OK) note(job->why[index], run->errors[0].text);
        if (d.burned != NULL) note(job->why[index], d.burned->why);
        sw_run_clear_errors(run);
    }
    return SW_OK;
}

static void work(void *context, size_t index)
{
    sweep_job *job = context;
    sw_run run;
    for (size_t k = 0; k < job->per_job; k++) report(job, index * job->per_job + k, NULL);
    if (sw_run_cancelled(job->run) || sw_run_open(&run, JOB_MEMORY) != SW_OK) return;
    run.cancel = job->run->cancel;
    if (geometry(job, &run, index) != SW_OK && run.error_count > 0) note(job->why[index], run.errors[0].text);
    sw_run_close(&run);
    size_t done = atomic_fetch_add(&job->done, 1) + 1;
    if (sw_run_cancelled(job->run)) return;
#pragma omp critical(sw_sweep_progress)
    sw_run_progress(job->run, "sweep", (double)(done * job->per_job), (double)job->sweep->designs, "");
}

sw_status sw_sweep_solve(sw_run *run, const sw_sweep *s, double *values, size_t *failed, const char **why)
{
    sweep_job job = {.run = run, .sweep = s, .values = values, .per_job = 1};
    for (size_t i = parameter_axes(s); i < s->axis_count; i++) job.per_job *= s->axes[i].count;
    size_t jobs = s->designs / job.per_job;
    job.why = sw_keep(run, jobs, sizeof *job.why);
    if (job.why == NULL) return SW_NO_MEMORY;
    sw_parallel_for((int)s->request->threads, jobs, work, &job);
    if (sw_run_cancelled(run)) return sw_fail(run, SW_CANCELLED, (sw_place){0}, "sweep", "stopped before its end");
    *failed = 0;
    *why = "";
    for (size_t i = 0; i < s->designs; i++) *failed += isnan(values[i * s->quantity_count]) ? 1 : 0;
    for (size_t i = 0; i < jobs && (*why)[0] == '\0'; i++) *why = job.why[i];
    return SW_OK;
}
