/* line_route.c: which task is done where, how long it takes there, and what waits before and after it. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

static const char *text_of(const char *text)
{
    return text == NULL ? "" : text;
}

size_t line_station_of(const sw_works *works, sw_operation operation, const char *name)
{
    size_t without = LINE_NONE;
    for (size_t k = 0; k < works->station_count; k++) {
        const sw_station *s = &works->stations[k];
        if (text_of(name)[0] != '\0') {
            if (strcmp(s->name, name) == 0) return k;
            continue;
        }
        if (s->operation != operation) continue;
        if (s->machines > 0) return k;
        if (without == LINE_NONE) without = k;
    }
    if (without == LINE_NONE && operation == SW_OP_HAND_WELD) return line_station_of(works, SW_OP_WELD, name);
    return without;
}

/* What the works pay for an hour of one machine with its people when the station does not say. */
static double own_rate_h(const sw_works *works, const sw_station *station)
{
    switch (station->operation) {
    case SW_OP_CUT:
        return works->laser.rate_h;
    case SW_OP_BEND:
        return works->press.rate_h;
    case SW_OP_ROLL:
        return works->rolls.rate_h;
    case SW_OP_TACK:
    case SW_OP_HAND_WELD:
        return works->welding.hand_rate_h;
    case SW_OP_WELD:
        return works->welding.robot ? works->welding.robot_rate_h : works->welding.hand_rate_h;
    case SW_OP_BLAST:
        return works->blasting.rate_h;
    case SW_OP_COAT:
    case SW_OP_CURE:
        return works->coating.rate_h;
    default:
        return 0;
    }
}

static line_place place_of(const sw_works *works, const sw_station *s)
{
    line_place p = {.machines = s->machines, .people = s->people, .buffer = s->buffer == 0 ? LINE_NONE : s->buffer};
    double people_h = (double)s->people * works->labour.rate_h;
    p.rate_h = s->rate_h > 0 ? s->rate_h : own_rate_h(works, s);
    if (!(p.rate_h > 0)) p.rate_h = people_h;
    p.labour_h = fmin(people_h, p.rate_h);
    return p;
}

static size_t group_of(const sw_line_input *in, size_t task, size_t station, const line_work *works)
{
    const char *name = text_of(in->tasks[task].set_up_group);
    if (name[0] == '\0') return in->tasks[task].set_up_s > 0 ? task : LINE_NONE;
    for (size_t i = 0; i < task; i++)
        if (works[i].station == station && strcmp(text_of(in->tasks[i].set_up_group), name) == 0) return works[i].group;
    return task;
}

static sw_status make_works(sw_run *run, line_job *job)
{
    const sw_line_input *in = job->in;
    job->works = SW_SCRATCH(run, in->task_count, line_work);
    if (job->works == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < in->task_count; i++) {
        const sw_line_task *t = &in->tasks[i];
        line_work *w = &job->works[i];
        w->station = line_station_of(in->works, t->operation, t->station);
        double up = w->station == LINE_NONE ? 0 : in->works->stations[w->station].up;
        if (!(up > 0)) up = 1;
        w->group = group_of(in, i, w->station, job->works);
        w->set_up_s = t->set_up_s / up;
        w->run_s = t->run_s * (double)t->count / up;
        w->attended_s = w->run_s * (1 - t->unattended);
        w->rest_s = t->rest_s;
        w->together = t->together > 1 ? t->together : 1;
    }
    return SW_OK;
}

static sw_status make_places(sw_run *run, line_job *job)
{
    const sw_works *works = job->in->works;
    job->stations = works->station_count;
    job->places = SW_SCRATCH(run, job->stations + 1, line_place);
    job->by_load = SW_SCRATCH(run, job->stations + 1, size_t);
    size_t *tasks = SW_SCRATCH(run, job->in->task_count, size_t), used = 0;
    if (job->places == NULL || job->by_load == NULL || tasks == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < job->stations; k++) {
        line_place *p = &job->places[k];
        *p = place_of(works, &works->stations[k]);
        p->tasks = tasks + used;
        for (size_t i = 0; i < job->in->task_count; i++)
            if (job->works[i].station == k) tasks[used + p->task_count++] = i;
        used += p->task_count;
    }
    return SW_OK;
}

static sw_status make_graph(sw_run *run, line_job *job)
{
    const sw_line_input *in = job->in;
    size_t pairs = 0;
    for (size_t i = 0; i < in->task_count; i++) pairs += in->tasks[i].after_count;
    sw_before *before = SW_SCRATCH(run, pairs + 1, sw_before);
    if (before == NULL) return SW_NO_MEMORY;
    pairs = 0;
    for (size_t i = 0; i < in->task_count; i++)
        for (size_t a = 0; a < in->tasks[i].after_count; a++) before[pairs++] = (sw_before){in->tasks[i].after[a], i};
    return line_graph_make(run, in->task_count, before, pairs, &job->graph);
}

/* Longest ways of one stove without waits and set-ups; the tail begins when the run ends. */
static void make_ways(line_job *job)
{
    const line_graph *g = &job->graph;
    for (size_t k = 0; k < g->count; k++) {
        line_work *w = &job->works[g->order[k]];
        for (size_t b = g->before_first[g->order[k]]; b < g->before_first[g->order[k] + 1]; b++) {
            const line_work *p = &job->works[g->before[b]];
            w->head_s = fmax(w->head_s, p->head_s + p->run_s + p->rest_s);
        }
    }
    for (size_t k = g->count; k-- > 0;) {
        line_work *w = &job->works[g->order[k]];
        w->tail_s = w->rest_s;
        for (size_t a = g->after_first[g->order[k]]; a < g->after_first[g->order[k] + 1]; a++) {
            const line_work *n = &job->works[g->after[a]];
            w->tail_s = fmax(w->tail_s, w->rest_s + n->run_s + n->tail_s);
        }
        job->result->longest_way_s = fmax(job->result->longest_way_s, w->head_s + w->run_s + w->tail_s);
    }
}

/* Buffers hold stoves; what comes from another station, and only that, waits in one. */
static sw_status make_buffers(sw_run *run, line_job *job)
{
    const line_graph *g = &job->graph;
    for (size_t i = 0; i < g->count; i++) {
        line_work *w = &job->works[i];
        size_t *targets = SW_SCRATCH(run, g->after_first[i + 1] - g->after_first[i] + 1, size_t);
        if (targets == NULL) return SW_NO_MEMORY;
        w->targets = targets;
        for (size_t a = g->after_first[i]; a < g->after_first[i + 1]; a++) {
            line_work *n = &job->works[g->after[a]];
            if (n->station == LINE_NONE || n->station == w->station) continue;
            if (job->places[n->station].buffer == LINE_NONE) continue;
            if (!n->placed) job->places[n->station].placed++;
            n->placed = true;
            bool known = false;
            for (size_t k = 0; k < w->target_count; k++) known = known || targets[k] == n->station;
            if (!known) targets[w->target_count++] = n->station;
        }
    }
    return SW_OK;
}

/* Each group once: the least that has to be set up for a batch. */
static void least_set_ups(line_job *job)
{
    for (size_t k = 0; k < job->stations; k++) {
        line_place *p = &job->places[k];
        for (size_t a = 0; a < p->task_count; a++) {
            size_t i = p->tasks[a];
            if (job->works[i].group != i) continue; /* a group is named after its first task */
            double least_s = job->works[i].set_up_s;
            for (size_t b = a; b < p->task_count; b++)
                if (job->works[p->tasks[b]].group == i) least_s = fmin(least_s, job->works[p->tasks[b]].set_up_s);
            job->works[i].group_s = least_s;
            p->least_s += least_s;
            p->groups++;
        }
    }
}

static sw_status tell_routes(sw_run *run, line_job *job)
{
    sw_line_route *routes = SW_KEEP(run, job->in->task_count, sw_line_route);
    if (routes == NULL) return SW_NO_MEMORY;
    double longest_s = job->result->longest_way_s;
    for (size_t i = 0; i < job->in->task_count; i++) {
        const line_work *w = &job->works[i];
        routes[i] = (sw_line_route){i, w->station, w->set_up_s, w->run_s, w->head_s, w->tail_s, false};
        routes[i].critical = w->head_s + w->run_s + w->tail_s >= longest_s * (1 - 1e-12);
    }
    job->result->routes = routes;
    job->result->route_count = job->in->task_count;
    return SW_OK;
}

static void count_people(line_job *job)
{
    size_t all = 0;
    job->can_run = true;
    for (size_t k = 0; k < job->stations; k++)
        if (job->places[k].task_count > 0) all += job->places[k].machines * job->places[k].people;
    job->people = job->in->people > 0 ? job->in->people : all;
    for (size_t i = 0; i < job->in->task_count; i++) {
        size_t k = job->works[i].station;
        job->can_run =
            job->can_run && k != LINE_NONE && job->places[k].machines > 0 && job->places[k].people <= job->people;
    }
    job->result->people = job->people;
}

sw_status line_route(sw_run *run, line_job *job)
{
    SW_TRY(make_works(run, job));
    SW_TRY(make_places(run, job));
    SW_TRY(make_graph(run, job));
    make_ways(job);
    SW_TRY(make_buffers(run, job));
    least_set_ups(job);
    count_people(job);
    return tell_routes(run, job);
}
