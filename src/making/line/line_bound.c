/* line_bound.c: no schedule of the batch is shorter than this.
 *
 * All work of a station lies between the least time before it and the least time behind it; the same for people without
 * either. Before a task lie the longest way to it and, of what must be done before it, the work that shares a station: the
 * least time before that work, the work over the machines, the least way from there. Behind it likewise. The first task of
 * a group to be done needs its set-up, which begins when the task can: so before the first of its kind every group of
 * what is before it has been set up once, and in all work of a station each group once. Derived, as the machine bound of a
 * flow shop. */
#include "making/line/line_parts.h"

#include <math.h>

typedef struct ahead { /* of what must be done before (after) one task, at one station */
    double work_s, head_s, way_s, set_up_s;
} ahead;

typedef struct times {
    double *head_s, *tail_s; /* [task_count] at least so long before it begins, after it ends */
    double *way_s;           /* [task_count] longest way between a task and the one looked at; < 0 = none */
    ahead *at;               /* [stations] */
    double *first_s;         /* [stations] least way before anything there */
    size_t *seen;            /* [task_count] of groups: the task for which it was counted, + 1 */
} times;

static void clear(const line_job *job, times *t)
{
    for (size_t i = 0; i < job->in->task_count; i++) t->way_s[i] = -1;
    for (size_t k = 0; k < job->stations; k++) t->at[k] = (ahead){0, INFINITY, INFINITY, 0};
}

static void add_work(const line_job *job, times *t, size_t p, double beyond_s)
{
    ahead *a = &t->at[job->works[p].station];
    a->work_s += job->works[p].run_s;
    a->head_s = fmin(a->head_s, beyond_s);
    a->way_s = fmin(a->way_s, t->way_s[p]);
}

/* Set-ups may begin before the least head of the work that shares them, but not before the station's first. */
static double least(const line_job *job, const times *t, double least_s)
{
    for (size_t k = 0; k < job->stations; k++) {
        const ahead *a = &t->at[k];
        double machines = (double)job->places[k].machines;
        if (isinf(a->head_s)) continue;
        least_s = fmax(least_s, a->head_s + a->work_s / machines + a->way_s);
        if (a->set_up_s > 0) least_s = fmax(least_s, t->first_s[k] + (a->set_up_s + a->work_s) / machines + a->way_s);
    }
    return least_s;
}

static void add_set_up(const line_job *job, times *t, size_t p, size_t i)
{
    size_t g = job->works[p].group;
    if (g == LINE_NONE || t->seen[g] == i + 1) return;
    t->seen[g] = i + 1;
    t->at[job->works[p].station].set_up_s += job->works[g].group_s;
}

/* Heads in the order of the graph: all before a task have theirs. */
static void head_of(const line_job *job, times *t, size_t k)
{
    const line_graph *g = &job->graph;
    size_t i = g->order[k];
    clear(job, t);
    t->way_s[i] = 0;
    for (size_t b = k + 1; b-- > 0;) {
        size_t p = g->order[b];
        if (t->way_s[p] < 0) continue;
        if (p != i) add_work(job, t, p, t->head_s[p]);
        if (p != i) add_set_up(job, t, p, i);
        double from_s = t->way_s[p] + (p == i ? 0 : job->works[p].run_s);
        for (size_t a = g->before_first[p]; a < g->before_first[p + 1]; a++) {
            size_t q = g->before[a];
            t->way_s[q] = fmax(t->way_s[q], from_s + job->works[q].rest_s);
        }
    }
    t->head_s[i] = least(job, t, job->works[i].head_s);
}

static void tail_of(const line_job *job, times *t, size_t k)
{
    const line_graph *g = &job->graph;
    size_t i = g->order[k];
    clear(job, t);
    t->way_s[i] = 0;
    for (size_t b = k; b < g->count; b++) {
        size_t p = g->order[b];
        if (t->way_s[p] < 0) continue;
        if (p != i) add_work(job, t, p, t->tail_s[p]);
        double from_s = t->way_s[p] + (p == i ? 0 : job->works[p].run_s) + job->works[p].rest_s;
        for (size_t a = g->after_first[p]; a < g->after_first[p + 1]; a++)
            t->way_s[g->after[a]] = fmax(t->way_s[g->after[a]], from_s);
    }
    t->tail_s[i] = least(job, t, job->works[i].tail_s);
}

static double station_bound(const line_job *job, const times *t, const line_place *p)
{
    double head_s = INFINITY, tail_s = INFINITY, work_s = p->least_s;
    for (size_t a = 0; a < p->task_count; a++) {
        const line_work *w = &job->works[p->tasks[a]];
        head_s = fmin(head_s, t->head_s[p->tasks[a]]);
        tail_s = fmin(tail_s, t->tail_s[p->tasks[a]]);
        work_s += w->run_s * line_runs(job, w);
    }
    return p->task_count == 0 ? 0 : head_s + work_s / (double)p->machines + tail_s;
}

static double people_bound(const line_job *job)
{
    double work_s = 0;
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        double at_s = p->least_s;
        for (size_t a = 0; a < p->task_count; a++) {
            const line_work *w = &job->works[p->tasks[a]];
            at_s += w->attended_s * line_runs(job, w);
        }
        work_s += (double)p->people * at_s;
    }
    return job->people > 0 ? work_s / (double)job->people : 0;
}

static double largest(const line_job *job, const times *t, size_t *station)
{
    double bound_s = 0, people_s = people_bound(job);
    *station = LINE_NONE;
    for (size_t i = 0; i < job->in->task_count; i++)
        bound_s = fmax(bound_s, t->head_s[i] + job->works[i].run_s + t->tail_s[i]);
    for (size_t k = 0; k < job->stations; k++) {
        double at_s = station_bound(job, t, &job->places[k]);
        if (at_s <= bound_s) continue;
        bound_s = at_s;
        *station = k;
    }
    if (people_s > bound_s) *station = LINE_NONE - 1;
    return fmax(bound_s, people_s);
}

sw_status line_bound(sw_run *run, const line_job *job, double *bound_s, size_t *station)
{
    size_t n = job->in->task_count;
    times t = {.head_s = SW_SCRATCH(run, n, double), .tail_s = SW_SCRATCH(run, n, double)};
    t.way_s = SW_SCRATCH(run, n, double);
    t.at = SW_SCRATCH(run, job->stations + 1, ahead);
    t.first_s = SW_SCRATCH(run, job->stations + 1, double);
    t.seen = SW_SCRATCH(run, n, size_t);
    if (t.head_s == NULL || t.tail_s == NULL || t.way_s == NULL || t.at == NULL || t.first_s == NULL || t.seen == NULL)
        return SW_NO_MEMORY;
    for (size_t k = 0; k < job->stations; k++) t.first_s[k] = INFINITY;
    for (size_t i = 0; i < n; i++)
        t.first_s[job->works[i].station] = fmin(t.first_s[job->works[i].station], job->works[i].head_s);
    for (size_t k = 0; k < n; k++) head_of(job, &t, k);
    for (size_t k = n; k-- > 0;) tail_of(job, &t, k);
    *bound_s = largest(job, &t, station);
    return SW_OK;
}
