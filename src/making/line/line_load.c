/* line_load.c: how full each station is, against takt and on its own. */
#include "making/line/line_parts.h"

#include <math.h>

double line_runs(const line_job *job, const line_work *work)
{
    return ceil((double)job->batch / (double)work->together);
}

static double day_s(const sw_labour *labour)
{
    return labour->shift_s * labour->shifts_day;
}

/* Mean and coefficient of variation of the tasks that come to the station from one stove. */
static double variation(const line_job *job, const line_place *p, double *mean_s)
{
    double sum = 0, squares = 0, n = (double)p->task_count;
    for (size_t a = 0; a < p->task_count; a++) {
        double run_s = job->works[p->tasks[a]].run_s;
        sum += run_s;
        squares += run_s * run_s;
    }
    *mean_s = n > 0 ? sum / n : 0;
    return *mean_s > 0 ? sqrt(fmax(0, squares / n - *mean_s * *mean_s)) / *mean_s : 0;
}

void line_paces(line_job *job)
{
    sw_line_result *r = job->result;
    double slowest_s = -1;
    r->bottleneck = LINE_NONE;
    for (size_t k = 0; k < job->stations; k++) {
        sw_line_load *l = &job->loads[k];
        const line_place *p = &job->places[k];
        double mean_s, ce = variation(job, p, &mean_s);
        l->stove_s = (l->set_up_s + l->run_s) / (double)job->batch;
        l->pace_s = p->machines > 0 ? l->stove_s / (double)p->machines : (double)NAN;
        l->busy_wanted = l->pace_s / r->takt_s;
        l->queue_s = sw_queue_s(job->opt->variation, ce, l->busy_wanted, mean_s, (double)p->machines);
        if (p->task_count == 0 || !(l->pace_s > slowest_s)) continue;
        slowest_s = l->pace_s;
        r->bottleneck = k;
    }
    double week_s = day_s(&job->in->works->labour) * job->in->works->labour.days_week;
    r->week = week_s > 0 && slowest_s > 0 ? week_s / slowest_s : (double)NAN;
}

static double people_needed(const line_job *job)
{
    double sum_s = 0;
    for (size_t i = 0; i < job->in->task_count; i++) {
        const line_work *w = &job->works[i];
        if (w->station == LINE_NONE) continue;
        double people = (double)job->places[w->station].people;
        sum_s += people * w->attended_s * line_runs(job, w) / (double)job->batch;
    }
    for (size_t k = 0; k < job->stations; k++)
        sum_s += (double)job->places[k].people * job->places[k].least_s / (double)job->batch;
    return sum_s / job->result->takt_s;
}

/* Fullest first. */
static void sort_by_load(line_job *job)
{
    for (size_t k = 0; k < job->stations; k++) {
        size_t at = k;
        for (; at > 0 && job->loads[job->by_load[at - 1]].pace_s < job->loads[k].pace_s; at--)
            job->by_load[at] = job->by_load[at - 1];
        job->by_load[at] = k;
    }
}

sw_status line_loads(sw_run *run, line_job *job)
{
    const sw_labour *labour = &job->in->works->labour;
    sw_line_result *r = job->result;
    job->loads = SW_KEEP(run, job->stations + 1, sw_line_load);
    if (job->loads == NULL) return SW_NO_MEMORY;
    r->loads = job->loads;
    r->load_count = job->stations;
    r->takt_s = sw_takt_s(day_s(labour) * labour->days_week, labour->wanted_week);
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        sw_line_load *l = &job->loads[k];
        *l = (sw_line_load){.station = job->in->works->stations[k].name, .machines = p->machines, .people = p->people};
        l->tasks = p->task_count;
        l->rate_h = p->rate_h;
        l->set_ups = p->groups;
        l->set_up_s = p->least_s;
        l->busy = (double)NAN;
        for (size_t a = 0; a < p->task_count; a++) {
            const line_work *w = &job->works[p->tasks[a]];
            l->run_s += w->run_s * line_runs(job, w);
        }
    }
    line_paces(job);
    sort_by_load(job);
    r->people_needed = people_needed(job);
    return SW_OK;
}
