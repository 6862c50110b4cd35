/* line_bound.c: no schedule of the batch is shorter than this.
 *
 * All work of a station lies between the shortest way to it and the shortest way from it; the same for people without
 * either; and one stove cannot go faster than its longest way. Each set-up group is set up at least once. Derived, as the
 * machine bound of a flow shop. */
#include "making/line/line_parts.h"

#include <math.h>

static double station_bound(const line_job *job, const line_place *p)
{
    double head_s = INFINITY, tail_s = INFINITY, work_s = p->least_s;
    for (size_t a = 0; a < p->task_count; a++) {
        const line_work *w = &job->works[p->tasks[a]];
        head_s = fmin(head_s, w->head_s);
        tail_s = fmin(tail_s, w->tail_s);
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

double line_bound(const line_job *job, size_t *station)
{
    double bound_s = job->result->longest_way_s, people_s = people_bound(job);
    *station = LINE_NONE;
    for (size_t k = 0; k < job->stations; k++) {
        double at_s = station_bound(job, &job->places[k]);
        if (at_s <= bound_s) continue;
        bound_s = at_s;
        *station = k;
    }
    if (people_s > bound_s) *station = LINE_NONE - 1;
    return fmax(bound_s, people_s);
}
