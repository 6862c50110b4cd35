/* line_findings.c: what of the plan does not hold, and what would help. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

static const char *const practice = "common practice, no source";
static const char *const works_say = "works description";

static sw_finding blank(const line_job *job, const char *check, const char *where)
{
    sw_finding f = sw_finding_of("line", check, where, job->in->works->place);
    f.source = works_say;
    return f;
}

static sw_status add(sw_run *run, line_job *job, sw_finding f, double watch)
{
    return f.what == NULL ? SW_NO_MEMORY : sw_finding_add(run, &job->result->findings, f, watch);
}

static const sw_station *station(const line_job *job, size_t k)
{
    return &job->in->works->stations[k];
}

static sw_status missing_stations(sw_run *run, line_job *job)
{
    bool told[SW_OPERATIONS] = {false};
    for (size_t i = 0; i < job->in->task_count; i++) {
        sw_operation op = job->in->tasks[i].operation;
        if (job->works[i].station != LINE_NONE || told[op]) continue;
        told[op] = true;
        sw_finding f = blank(job, "station", sw_operation_name(op));
        f.verdict = SW_FAILS;
        f.what = sw_text_format(run, run->keep, "\"%s\" has to be done, but the works have no station for it",
                                job->in->tasks[i].name);
        f.remedy = "describe a station for this operation, or buy the work in";
        SW_TRY(add(run, job, f, 0));
    }
    return SW_OK;
}

static sw_status missing_machines(sw_run *run, line_job *job)
{
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        if (p->task_count == 0) continue;
        if (p->machines == 0) {
            sw_finding f = blank(job, "machine", station(job, k)->name);
            f.verdict = SW_FAILS;
            f.place = station(job, k)->place;
            f.what = sw_text_format(run, run->keep, "%zu tasks of each stove go there, but it has no machine",
                                    p->task_count);
            f.remedy = "give it a machine, or name another station for these tasks";
            SW_TRY(add(run, job, f, 0));
        }
        if (p->people > job->people) {
            sw_finding f = blank(job, "people", station(job, k)->name);
            f.sense = SW_AT_LEAST;
            f.value = (double)job->people;
            f.limit = (double)p->people;
            f.place = station(job, k)->place;
            f.what =
                sw_text_format(run, run->keep, "one machine needs %zu people; %zu are at hand", p->people, job->people);
            f.remedy = "more people in the shift";
            SW_TRY(add(run, job, f, 0));
        }
    }
    return SW_OK;
}

static sw_status pace_finding(sw_run *run, line_job *job, size_t k)
{
    const sw_line_load *l = &job->loads[k];
    double takt_s = job->result->takt_s;
    sw_finding f = blank(job, "takt", l->station);
    f.sense = SW_AT_MOST;
    f.value = sw_min_from_s(l->pace_s);
    f.limit = sw_min_from_s(takt_s);
    f.unit = "min";
    f.place = station(job, k)->place;
    f.source = "takt = working time a week over stoves wanted a week; works description";
    f.what = sw_text_format(run, run->keep, "%s needs %.1f min for each stove; takt is %.1f min%s", l->station, f.value,
                            f.limit, k == job->result->bottleneck ? " (bottleneck)" : "");
    if (l->pace_s > takt_s)
        f.remedy = "another machine, longer running hours, fewer set-ups or shorter runs there";
    else if (l->pace_s > 0.9 * takt_s)
        f.remedy = "any stop here costs stoves: keep it running, keep work waiting before it";
    return add(run, job, f, 0.1);
}

static sw_status busy_finding(sw_run *run, line_job *job, size_t k)
{
    const sw_line_load *l = &job->loads[k];
    sw_finding f = blank(job, "busy", l->station);
    f.verdict = SW_WATCH;
    f.value = l->busy_wanted;
    f.limit = job->opt->busy_most;
    f.source = practice;
    f.place = station(job, k)->place;
    f.what = sw_text_format(run, run->keep,
                            "works %.0f %% of the time at the wanted number a week; above %.0f %% queues "
                            "grow fast",
                            100 * l->busy_wanted, 100 * job->opt->busy_most);
    f.remedy = "leave room for stops: spread the work, or run longer hours there";
    return add(run, job, f, 0);
}

static sw_status queue_finding(sw_run *run, line_job *job, size_t k)
{
    const sw_line_load *l = &job->loads[k];
    sw_finding f = blank(job, "queue", l->station);
    f.value = sw_min_from_s(l->queue_s);
    f.unit = "min";
    f.source = "Kingman 1961, Sakasegawa 1977: plausibility";
    f.what = sw_text_format(run, run->keep,
                            "work waits about %.0f min before the bottleneck at the wanted pace "
                            "(arrivals vary by %.1f of their mean)",
                            f.value, job->opt->variation);
    if (isnan(l->queue_s)) {
        f.verdict = SW_UNKNOWN;
        f.what = "at the wanted pace the queue before the bottleneck grows without end";
        f.remedy = "see the finding on takt";
    }
    return add(run, job, f, 0);
}

static sw_status pace_findings(sw_run *run, line_job *job)
{
    const sw_line_result *r = job->result;
    if (r->bottleneck == SIZE_MAX) return SW_OK;
    if (isnan(r->takt_s)) {
        sw_finding f = blank(job, "takt", job->loads[r->bottleneck].station);
        f.verdict = SW_UNKNOWN;
        f.what = "no takt: the works do not say how long a shift is or how many stoves a week are wanted";
        f.remedy = "give shift, shifts a day, days a week and the wanted number";
        return add(run, job, f, 0);
    }
    for (size_t k = 0; k < job->stations; k++) {
        const sw_line_load *l = &job->loads[k];
        if (l->tasks == 0 || isnan(l->pace_s)) continue;
        if (k == r->bottleneck || l->pace_s > 0.9 * r->takt_s) SW_TRY(pace_finding(run, job, k));
        if (l->busy_wanted > job->opt->busy_most && l->busy_wanted <= 1) SW_TRY(busy_finding(run, job, k));
    }
    return queue_finding(run, job, r->bottleneck);
}

static sw_status people_finding(sw_run *run, line_job *job)
{
    const sw_line_result *r = job->result;
    if (isnan(r->people_needed)) return SW_OK;
    sw_finding f = blank(job, "people", "works");
    f.sense = SW_AT_MOST;
    f.value = r->people_needed;
    f.limit = (double)r->people;
    f.unit = "people";
    f.source = job->in->people > 0 ? works_say : "people that the stations' machines need together";
    f.what = sw_text_format(run, run->keep, "the wanted pace keeps %.1f people at work; %zu are at hand",
                            r->people_needed, r->people);
    if (r->people_needed > f.limit) f.remedy = "more people, longer hours, or more work that runs unattended";
    return add(run, job, f, 0.1);
}

static sw_status balance_finding(sw_run *run, line_job *job)
{
    const sw_line_result *r = job->result;
    size_t longest = LINE_NONE;
    if (r->balance_count == 0 || isnan(r->takt_s)) return SW_OK;
    for (size_t k = 0; k < r->balance_count; k++)
        if (longest == LINE_NONE || job->works[r->balance_tasks[k]].run_s > job->works[longest].run_s)
            longest = r->balance_tasks[k];
    sw_finding f = blank(job, "balance", job->in->tasks[longest].name);
    f.source = "simple line balancing, Baybars 1986";
    f.sense = SW_AT_MOST;
    f.value = sw_min_from_s(job->works[longest].run_s);
    f.limit = sw_min_from_s(r->takt_s);
    f.unit = "min";
    f.what = sw_text_format(run, run->keep, "the longest hand task takes %.1f min, takt is %.1f min", f.value, f.limit);
    if (f.value > f.limit) f.remedy = "split the task, or do it at two places side by side";
    if (r->balance != NULL && r->balance_even != NULL)
        f.what =
            sw_text_format(run, run->keep,
                           "%zu hand tasks fill %zu work places within takt, %.0f %% of their time; %s; shared out "
                           "evenly, the fullest works %.1f min",
                           r->balance_count, r->balance->stations, 100 * r->balance->efficiency,
                           r->balance->proved ? "fewer are impossible" : "fewer are not excluded",
                           sw_min_from_s(line_fullest_s(r->balance_even)));
    return add(run, job, f, 0);
}

static sw_status plan_findings(sw_run *run, line_job *job)
{
    const sw_line_plan *p = job->result->plan;
    sw_finding f = blank(job, "makespan", "batch");
    f.value = sw_h_from_s(p->makespan_s);
    f.unit = "h";
    f.source =
        job->proved
            ? "branch and bound over all schedules (derived; active ones: Giffler and Thompson 1960, from memory)"
            : "bound: work of the fullest station between the shortest ways to and from it (derived)";
    f.what = sw_text_format(run, run->keep,
                            "%zu stoves take %.1f h of working time; none can be below %.1f h (%s), "
                            "%.1f %% apart",
                            job->batch, f.value, sw_h_from_s(p->bound_s), p->bound_by, 100 * p->gap);
    SW_TRY(add(run, job, f, 0));
    for (size_t k = 0; k < job->stations; k++) {
        const sw_line_load *l = &job->loads[k];
        if (!(l->blocked_s > 0.05 * p->makespan_s)) continue; /* ours: 5 % */
        f = blank(job, "buffer", l->station);
        f.verdict = SW_WATCH;
        f.value = sw_min_from_s(l->blocked_s);
        f.unit = "min";
        f.source = practice;
        f.place = station(job, k)->place;
        f.what = sw_text_format(run, run->keep,
                                "stood %.0f min with work at hand, because the places behind it were taken", f.value);
        f.remedy = "more places before the next station, or a faster one";
        SW_TRY(add(run, job, f, 0));
    }
    return SW_OK;
}

static sw_status rate_findings(sw_run *run, line_job *job)
{
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        if (p->task_count == 0 || p->rate_h > 0) continue;
        sw_finding f = blank(job, "rate", station(job, k)->name);
        f.verdict = SW_UNKNOWN;
        f.place = station(job, k)->place;
        f.what = "the works give no cost of an hour here, so its work costs nothing in this account";
        f.remedy = "give the station or its machine a rate, or labour a rate";
        SW_TRY(add(run, job, f, 0));
    }
    return SW_OK;
}

sw_status line_findings(sw_run *run, line_job *job)
{
    SW_TRY(missing_stations(run, job));
    SW_TRY(missing_machines(run, job));
    SW_TRY(pace_findings(run, job));
    SW_TRY(people_finding(run, job));
    SW_TRY(balance_finding(run, job));
    if (job->result->plan != NULL) SW_TRY(plan_findings(run, job));
    SW_TRY(rate_findings(run, job));
    sw_findings_sort(&job->result->findings);
    return SW_OK;
}
