/* line_what_if.c: one more machine at each station, one more person, a second shift.
 *
 * A machine or a person more is scheduled anew from the choice that was best. The old schedule stays possible, so where the
 * search finds nothing shorter the old one stands. A second shift lays the same schedule into fewer days; its labour
 * costs the premium. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

static void change_from(const line_job *job, sw_line_what_if *w)
{
    const sw_line_result *r = job->result;
    w->makespan_change_s = w->makespan_s - r->plan->makespan_s;
    w->days_change = w->days - r->plan->days;
    w->unit_change = w->unit - r->cost.unit;
    w->idle_change = w->idle - r->cost.idle;
}

static double days_of(const line_job *job, double makespan_s, double more_shifts)
{
    const sw_labour *l = &job->in->works->labour;
    double day_s = l->shift_s * (l->shifts_day + more_shifts);
    return day_s > 0 ? makespan_s / day_s : (double)NAN;
}

/* A copy of the job that may be changed: places, loads, rank and result of its own. */
static sw_status shadow_make(sw_run *run, const line_job *job, line_job *shadow)
{
    size_t tasks = job->in->task_count, stations = job->stations + 1;
    *shadow = *job;
    shadow->places = SW_SCRATCH(run, stations, line_place);
    shadow->loads = SW_SCRATCH(run, stations, sw_line_load);
    shadow->best.rank = SW_SCRATCH(run, tasks, size_t);
    shadow->result = SW_SCRATCH(run, 1, sw_line_result);
    if (shadow->places == NULL || shadow->loads == NULL || shadow->best.rank == NULL || shadow->result == NULL)
        return SW_NO_MEMORY;
    memcpy(shadow->places, job->places, stations * sizeof *shadow->places);
    memcpy(shadow->loads, job->loads, stations * sizeof *shadow->loads);
    memcpy(shadow->best.rank, job->best.rank, tasks * sizeof *shadow->best.rank);
    *shadow->result = *job->result;
    return SW_OK;
}

static sw_status schedule_anew(sw_run *run, const line_job *job, line_job *shadow)
{
    line_record record;
    SW_TRY(line_state_make(run, shadow));
    SW_TRY(line_record_make(run, shadow, false, &record));
    size_t before = run->error_count;
    line_outcome o = line_schedule(shadow, &shadow->best, NULL);
    o = line_improve(run, shadow, &shadow->best, o, job->opt->what_if_rounds, (uint64_t)job->opt->seed);
    if (run->error_count > before) return SW_NO_MEMORY;
    if (o.makespan_s <= job->outcome.makespan_s) {
        shadow->outcome = line_schedule(shadow, &shadow->best, &record);
        line_tell_loads(shadow, &record, o.makespan_s);
    } else {
        line_paces(shadow);
    }
    return SW_OK;
}

static sw_status judge(sw_run *run, const line_job *job, sw_line_what_if *w)
{
    line_job shadow;
    SW_TRY(shadow_make(run, job, &shadow));
    if (w->station != SIZE_MAX) {
        shadow.places[w->station].machines++;
        shadow.loads[w->station].machines++;
        if (job->in->people == 0) shadow.people += shadow.places[w->station].people;
    } else {
        shadow.people++;
    }
    SW_TRY(schedule_anew(run, job, &shadow));
    line_sum sum = line_cost_sum(&shadow, &shadow.outcome);
    const sw_line_result *r = shadow.result;
    w->makespan_s = shadow.outcome.makespan_s;
    w->days = days_of(job, w->makespan_s, 0);
    w->pace_s = r->bottleneck == SIZE_MAX ? (double)NAN : shadow.loads[r->bottleneck].pace_s;
    w->unit = sum.unit;
    w->idle = sum.idle;
    change_from(job, w);
    return SW_OK;
}

static sw_status judge_apart(sw_run *run, const line_job *job, sw_line_what_if *w)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = judge(run, job, w);
    sw_arena_rewind(run->scratch, mark);
    return status;
}

static sw_line_what_if second_shift(const line_job *job)
{
    const sw_line_result *r = job->result;
    sw_line_what_if w = {.what = "a second shift", .station = SIZE_MAX, .makespan_s = r->plan->makespan_s};
    double shifts = job->in->works->labour.shifts_day;
    line_sum sum = line_cost_sum(job, &job->outcome);
    w.days = days_of(job, w.makespan_s, 1);
    w.pace_s = r->loads[r->bottleneck].pace_s;
    w.unit = r->cost.unit + sum.labour * job->opt->shift_premium / (shifts + 1);
    w.idle = r->cost.idle;
    change_from(job, &w);
    return w;
}

static sw_status more_machines(sw_run *run, line_job *job, sw_line_what_if *list)
{
    for (size_t k = 0; k < job->stations; k++) {
        if (job->places[k].task_count == 0) continue;
        sw_line_what_if *w = &list[job->result->what_if_count];
        *w = (sw_line_what_if){.station = k};
        w->what = sw_text_format(run, run->keep, "one more machine: %s", job->in->works->stations[k].name);
        if (w->what == NULL) return SW_NO_MEMORY;
        if (sw_run_cancelled(run)) return SW_OK;
        SW_TRY(judge_apart(run, job, w));
        job->result->what_if_count++;
    }
    return SW_OK;
}

sw_status line_what_if(sw_run *run, line_job *job)
{
    sw_line_what_if *list = SW_KEEP(run, job->stations + 2, sw_line_what_if);
    if (list == NULL) return SW_NO_MEMORY;
    job->result->what_ifs = list;
    SW_TRY(more_machines(run, job, list));
    if (job->in->works->labour.shifts_day == 1) list[job->result->what_if_count++] = second_shift(job);
    if (job->in->people == 0) return SW_OK;
    sw_line_what_if *w = &list[job->result->what_if_count];
    *w = (sw_line_what_if){.what = "one more person", .station = SIZE_MAX};
    SW_TRY(judge_apart(run, job, w));
    job->result->what_if_count++;
    return SW_OK;
}
