/* line_plan.c: the best schedule told in full: bars, stoves under way, people, and what each station did. */
#include "making/line/line_parts.h"

#include <math.h>
#include <stdlib.h>

static const char *const all_looked_at = "all schedules looked at";
static const char *const some_looked_at = "branch and bound, cut short";

static int by_time(const void *a, const void *b)
{
    const sw_line_level *x = a, *y = b;
    if (x->at_s != y->at_s) return x->at_s < y->at_s ? -1 : 1;
    return (x->count < y->count) - (x->count > y->count); /* who goes (a wrapped count) before who comes */
}

/* Changes become levels, one a moment; levels may be the same array. A going is a count below 0, wrapped. */
static size_t levels_of(sw_line_level *changes, size_t count, size_t *most)
{
    size_t now = 0, made = 0;
    *most = 0;
    qsort(changes, count, sizeof *changes, by_time);
    for (size_t i = 0; i < count; i++) {
        now += changes[i].count;
        if (i + 1 < count && changes[i + 1].at_s == changes[i].at_s) continue;
        changes[made++] = (sw_line_level){changes[i].at_s, now};
        if (now > *most) *most = now;
    }
    return made;
}

static sw_status tell_under_way(sw_run *run, const line_job *job, sw_line_plan *plan)
{
    sw_line_level *changes = SW_KEEP(run, 2 * job->batch, sw_line_level);
    size_t most;
    double sum_s = 0;
    if (changes == NULL) return SW_NO_MEMORY;
    for (size_t j = 0; j < job->batch; j++) {
        changes[2 * j] = (sw_line_level){plan->stove_start_s[j], 1};
        changes[2 * j + 1] = (sw_line_level){plan->stove_end_s[j], (size_t)0 - 1};
        sum_s += plan->stove_end_s[j] - plan->stove_start_s[j];
    }
    plan->under_way_count = levels_of(changes, 2 * job->batch, &most);
    plan->under_way = changes;
    plan->under_way_mean = plan->makespan_s > 0 ? sum_s / plan->makespan_s : 0;
    return SW_OK;
}

static int by_start(const void *a, const void *b)
{
    const sw_line_bar *x = a, *y = b;
    if (x->start_s != y->start_s) return x->start_s < y->start_s ? -1 : 1;
    if (x->station != y->station) return x->station < y->station ? -1 : 1;
    return (x->machine > y->machine) - (x->machine < y->machine);
}

void line_tell_loads(line_job *job, const line_record *record, double makespan_s)
{
    for (size_t k = 0; k < job->stations; k++) {
        sw_line_load *l = &job->loads[k];
        l->set_ups = 0;
        l->set_up_s = l->run_s = 0;
        l->blocked_s = record->blocked_s[k];
        l->starved_s = record->starved_s[k];
    }
    for (size_t b = 0; b < record->bar_count; b++) {
        const sw_line_bar *bar = &record->bars[b];
        sw_line_load *l = &job->loads[bar->station];
        l->set_ups += bar->run_from_s > bar->start_s;
        l->set_up_s += bar->run_from_s - bar->start_s;
        l->run_s += bar->end_s - bar->run_from_s;
    }
    for (size_t k = 0; k < job->stations; k++) {
        sw_line_load *l = &job->loads[k];
        double there_s = (double)l->machines * makespan_s;
        l->busy = there_s > 0 ? (l->set_up_s + l->run_s) / there_s : (double)NAN;
    }
    line_paces(job);
}

static void tell_spans(const line_job *job, sw_line_plan *plan)
{
    const sw_labour *l = &job->in->works->labour;
    double day_s = l->shift_s * l->shifts_day;
    plan->shifts = l->shift_s > 0 ? plan->makespan_s / l->shift_s : (double)NAN;
    plan->days = day_s > 0 ? plan->makespan_s / day_s : (double)NAN;
    plan->weeks = l->days_week > 0 ? plan->days / l->days_week : (double)NAN;
    job->result->week_planned = (double)job->batch / plan->weeks;
}

static sw_status tell_bound(sw_run *run, const line_job *job, sw_line_plan *plan)
{
    size_t station;
    SW_TRY(line_bound(run, job, &plan->bound_s, &station));
    plan->proved = job->proved || plan->makespan_s <= plan->bound_s * (1 + 1e-9);
    if (job->proved && plan->bound_s < plan->makespan_s) {
        plan->bound_s = plan->makespan_s;
        plan->bound_by = all_looked_at;
        return SW_OK;
    }
    plan->gap = plan->bound_s > 0 ? plan->makespan_s / plan->bound_s - 1 : 0;
    plan->bound_by = "longest way of one stove";
    if (station == LINE_NONE - 1) plan->bound_by = "people";
    if (station < job->stations)
        plan->bound_by = sw_text_format(run, run->keep, "station %s", job->in->works->stations[station].name);
    return plan->bound_by == NULL ? SW_NO_MEMORY : SW_OK;
}

sw_status line_record_make(sw_run *run, const line_job *job, bool keep, line_record *r)
{
    size_t bars = job->in->task_count * job->batch;
    void *(*room)(sw_run *, size_t, size_t) = keep ? sw_keep : sw_scratch;
    *r = (line_record){.bars = room(run, bars, sizeof *r->bars), .start_s = room(run, job->batch, sizeof *r->start_s)};
    r->end_s = room(run, job->batch, sizeof *r->end_s);
    r->changes = room(run, 2 * bars, sizeof *r->changes);
    r->blocked_s = SW_SCRATCH(run, job->stations + 1, double);
    r->starved_s = SW_SCRATCH(run, job->stations + 1, double);
    bool there = r->bars != NULL && r->start_s != NULL && r->end_s != NULL && r->changes != NULL;
    return there && r->blocked_s != NULL && r->starved_s != NULL ? SW_OK : SW_NO_MEMORY;
}

sw_status line_plan(sw_run *run, line_job *job)
{
    line_record record = {0};
    sw_line_plan *plan = SW_KEEP(run, 1, sw_line_plan);
    if (plan == NULL) return SW_NO_MEMORY;
    SW_TRY(line_record_make(run, job, true, &record));
    plan->tried = job->tried;
    job->outcome = job->exact != NULL ? line_exact_told(job, &record) : line_schedule(job, &job->best, &record);
    plan->makespan_s = job->outcome.makespan_s;
    plan->flow_s = job->outcome.flow_s;
    plan->rule = job->exact == NULL ? job->best.rule : job->proved ? all_looked_at : some_looked_at;
    plan->lot = job->exact != NULL ? 1 : job->best.lot;
    plan->stove_start_s = record.start_s;
    plan->stove_end_s = record.end_s;
    qsort(record.bars, record.bar_count, sizeof *record.bars, by_start);
    plan->bars = record.bars;
    plan->bar_count = record.bar_count;
    plan->people_count = levels_of(record.changes, record.change_count, &plan->people_most);
    plan->people = record.changes;
    double there_s = (double)job->people * plan->makespan_s;
    plan->people_busy = there_s > 0 ? job->outcome.people_s / there_s : 0;
    tell_spans(job, plan);
    SW_TRY(tell_bound(run, job, plan));
    SW_TRY(tell_under_way(run, job, plan));
    line_tell_loads(job, &record, plan->makespan_s);
    job->result->plan = plan;
    return SW_OK;
}
