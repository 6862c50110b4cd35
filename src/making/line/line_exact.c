/* line_exact.c: the shortest schedule of a small problem, proved: branch and bound in depth.
 *
 * Small: few runs in a batch, people for all machines, no limited buffer, no oven of several stoves, and no set-ups on several
 * machines of a station unless it is one stove: a set-up may let a later stove overtake there. Where nothing is
 * set up, only active schedules are looked at (Giffler and Thompson 1960): of the station on which something could end
 * first, what can begin before that end. Else every run that can be next, in the order of their beginnings: moved as early
 * as its machine's order allows, a schedule is never longer, so one of these is a shortest. Stoves are alike: a task is
 * begun for the first of them first. Bound: for each set of runs of one station that come late and have long to go, the
 * earliest beginning, the work over the machines, the least way behind (Carlier 1982); both from memory, the bound with
 * set-ups as in line_bound.c. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

enum { MOST_RUNS = 48, MOST_MACHINES = 8 }; /* ours: beyond it the search does not end in time */

typedef struct lathe { /* one machine */
    double free_s;
    size_t group;
} lathe;

typedef struct choice { /* a run that may be next */
    size_t run, machine;
    double start_s, run_from_s, end_s;
} choice;

typedef struct exact {
    sw_run *sw;
    line_job *job;
    size_t runs, made;       /* run = place of its task in the graph's order x batch + stove */
    bool plain;              /* nothing is set up */
    size_t *place;           /* [tasks] in the graph's order */
    double *end_s, *head_s;  /* [runs] ended and rested, NAN = not begun; begins no earlier */
    size_t *by_tail, *first; /* runs of station k from first[k], longest tail first */
    lathe *machines;         /* [machine_first[stations]] */
    size_t *machine_first;
    choice *done, *best; /* [runs] in the order in which they were chosen */
    choice *stack;       /* choices of all depths */
    size_t stack_count, stack_room;
    unsigned *seen; /* [tasks] of groups: the mark of the set in which it was counted */
    unsigned mark;
    double least_s, nodes, most; /* least: shortest known */
    bool cut, found;
} exact;

static const line_work *work_of(const exact *x, size_t run)
{
    return &x->job->works[x->job->graph.order[run / x->job->batch]];
}

static size_t run_of(const exact *x, size_t task, size_t stove)
{
    return x->place[task] * x->job->batch + stove;
}

/* ---- bound --------------------------------------------------------------------------------------------------------- */

static double station_free_s(const exact *x, size_t station)
{
    double free_s = INFINITY;
    for (size_t m = x->machine_first[station]; m < x->machine_first[station + 1]; m++)
        free_s = fmin(free_s, x->machines[m].free_s);
    return free_s;
}

/* Runs stand in the order of the graph, a task's stoves in theirs: what is before has its head. */
static void set_heads(exact *x)
{
    const line_graph *g = &x->job->graph;
    double last_s = x->plain || x->made == 0 ? 0 : x->done[x->made - 1].start_s;
    for (size_t r = 0; r < x->runs; r++) {
        if (!isnan(x->end_s[r])) continue;
        size_t task = g->order[r / x->job->batch], stove = r % x->job->batch;
        double head_s = fmax(last_s, station_free_s(x, work_of(x, r)->station));
        if (stove > 0 && isnan(x->end_s[r - 1])) head_s = fmax(head_s, x->head_s[r - 1]);
        for (size_t b = g->before_first[task]; b < g->before_first[task + 1]; b++) {
            size_t p = run_of(x, g->before[b], stove);
            const line_work *w = &x->job->works[g->before[b]];
            head_s = fmax(head_s, isnan(x->end_s[p]) ? x->head_s[p] + w->run_s + w->rest_s : x->end_s[p]);
        }
        x->head_s[r] = head_s;
    }
}

static bool at_hand(const exact *x, size_t station, size_t group)
{
    for (size_t m = x->machine_first[station]; m < x->machine_first[station + 1]; m++)
        if (x->machines[m].group == group) return true;
    return false;
}

/* The least set-up of a group not yet counted in this set and not at hand. */
static double fresh_set_up_s(exact *x, size_t station, size_t group)
{
    if (group == LINE_NONE || x->seen[group] == x->mark || at_hand(x, station, group)) return 0;
    x->seen[group] = x->mark;
    return x->job->works[group].group_s;
}

/* Of the runs that begin no earlier than from_s. Set-ups may begin before runs that come later do, so they count only where
 * all runs are looked at. */
static double set_bound_s(exact *x, size_t station, double from_s, bool all)
{
    double work_s = 0, bound_s = 0, machines = (double)(x->machine_first[station + 1] - x->machine_first[station]);
    x->mark++;
    for (size_t i = x->first[station]; i < x->first[station + 1]; i++) {
        size_t r = x->by_tail[i];
        if (!isnan(x->end_s[r]) || x->head_s[r] < from_s) continue;
        const line_work *w = work_of(x, r);
        work_s += w->run_s + (all ? fresh_set_up_s(x, station, w->group) : 0);
        bound_s = fmax(bound_s, from_s + work_s / machines + w->tail_s);
    }
    return bound_s;
}

static double station_bound_s(exact *x, size_t station)
{
    double bound_s = 0, earliest_s = INFINITY;
    for (size_t i = x->first[station]; i < x->first[station + 1]; i++)
        if (isnan(x->end_s[x->by_tail[i]])) earliest_s = fmin(earliest_s, x->head_s[x->by_tail[i]]);
    for (size_t i = x->first[station]; i < x->first[station + 1]; i++) {
        size_t r = x->by_tail[i];
        if (!isnan(x->end_s[r])) continue;
        bound_s = fmax(bound_s, x->head_s[r] + work_of(x, r)->run_s + work_of(x, r)->tail_s);
        bound_s = fmax(bound_s, set_bound_s(x, station, x->head_s[r], x->head_s[r] <= earliest_s));
    }
    return bound_s;
}

static bool too_long(exact *x)
{
    double least_s = x->least_s * (1 - 1e-9);
    set_heads(x);
    for (size_t r = 0; r < x->runs; r++)
        if (x->end_s[r] >= least_s) return true;
    for (size_t k = 0; k < x->job->stations; k++)
        if (station_bound_s(x, k) >= least_s) return true;
    return false;
}

/* ---- what may be next ---------------------------------------------------------------------------------------------- */

static bool can_begin(const exact *x, size_t r)
{
    const line_graph *g = &x->job->graph;
    size_t task = g->order[r / x->job->batch], stove = r % x->job->batch;
    if (!isnan(x->end_s[r]) || (stove > 0 && isnan(x->end_s[r - 1]))) return false;
    for (size_t b = g->before_first[task]; b < g->before_first[task + 1]; b++)
        if (isnan(x->end_s[run_of(x, g->before[b], stove)])) return false;
    return true;
}

static double ready_s(const exact *x, size_t r)
{
    const line_graph *g = &x->job->graph;
    size_t task = g->order[r / x->job->batch], stove = r % x->job->batch;
    double at_s = 0;
    for (size_t b = g->before_first[task]; b < g->before_first[task + 1]; b++)
        at_s = fmax(at_s, x->end_s[run_of(x, g->before[b], stove)]);
    return at_s;
}

static choice choice_on(const exact *x, size_t r, size_t m, double at_s)
{
    const line_work *w = work_of(x, r);
    choice c = {.run = r, .machine = m, .start_s = fmax(at_s, x->machines[m].free_s)};
    bool set_up = w->group != LINE_NONE && w->group != x->machines[m].group;
    c.run_from_s = c.start_s + (set_up ? w->set_up_s : 0);
    c.end_s = c.run_from_s + w->run_s;
    return c;
}

/* In the order of beginnings; of what begins at once, in the order of runs, but on one machine as chosen. */
static bool in_turn(const exact *x, const choice *c)
{
    if (x->made == 0) return true;
    const choice *last = &x->done[x->made - 1];
    return c->start_s > last->start_s ||
           (c->start_s >= last->start_s && (c->run > last->run || c->machine == last->machine));
}

/* Machines that are free at the same time and set up alike are one choice. */
static bool like_one_before(const exact *x, size_t first, size_t m)
{
    for (size_t k = first; k < m; k++)
        if (x->machines[k].group == x->machines[m].group && x->machines[k].free_s >= x->machines[m].free_s &&
            x->machines[k].free_s <= x->machines[m].free_s)
            return true;
    return false;
}

static size_t earliest_machine(const exact *x, size_t station)
{
    size_t best = x->machine_first[station];
    for (size_t m = best; m < x->machine_first[station + 1]; m++)
        if (x->machines[m].free_s < x->machines[best].free_s) best = m;
    return best;
}

/* Longest to go first. */
static void offer(exact *x, size_t base, choice c)
{
    const line_work *w = work_of(x, c.run);
    if (x->stack_count >= x->stack_room) {
        x->cut = true;
        return;
    }
    size_t at = x->stack_count++;
    for (; at > base; at--) {
        const line_work *v = work_of(x, x->stack[at - 1].run);
        if (v->run_s + v->tail_s >= w->run_s + w->tail_s) break;
        x->stack[at] = x->stack[at - 1];
    }
    x->stack[at] = c;
}

static void offer_active(exact *x, size_t base)
{
    double first_s = INFINITY;
    size_t station = 0;
    for (size_t r = 0; r < x->runs; r++) {
        if (!can_begin(x, r)) continue;
        choice c = choice_on(x, r, earliest_machine(x, work_of(x, r)->station), ready_s(x, r));
        if (c.end_s >= first_s) continue;
        first_s = c.end_s;
        station = work_of(x, r)->station;
    }
    for (size_t r = 0; r < x->runs; r++) {
        if (work_of(x, r)->station != station || !can_begin(x, r)) continue;
        choice c = choice_on(x, r, earliest_machine(x, station), ready_s(x, r));
        if (c.start_s < first_s || c.end_s <= first_s) offer(x, base, c);
    }
}

static void offer_in_turn(exact *x, size_t base)
{
    for (size_t r = 0; r < x->runs; r++) {
        if (!can_begin(x, r)) continue;
        size_t station = work_of(x, r)->station;
        double at_s = ready_s(x, r);
        for (size_t m = x->machine_first[station]; m < x->machine_first[station + 1]; m++) {
            choice c = choice_on(x, r, m, at_s);
            if (in_turn(x, &c) && !like_one_before(x, x->machine_first[station], m)) offer(x, base, c);
        }
    }
}

/* ---- the search ---------------------------------------------------------------------------------------------------- */

static void keep(exact *x)
{
    double least_s = 0;
    for (size_t r = 0; r < x->runs; r++) least_s = fmax(least_s, x->end_s[r]);
    if (least_s >= x->least_s * (1 - 1e-9)) return;
    x->least_s = least_s;
    x->found = true;
    memcpy(x->best, x->done, x->runs * sizeof *x->best);
}

static void look(exact *x)
{
    if (x->made == x->runs) {
        keep(x);
        return;
    }
    if (x->nodes++ >= x->most || sw_run_cancelled(x->sw)) x->cut = true;
    if (x->cut || too_long(x)) return;
    size_t base = x->stack_count;
    if (x->plain)
        offer_active(x, base);
    else
        offer_in_turn(x, base);
    for (size_t i = base, end = x->stack_count; i < end && !x->cut; i++) {
        choice c = x->stack[i];
        lathe before = x->machines[c.machine];
        const line_work *w = work_of(x, c.run);
        x->machines[c.machine] = (lathe){c.end_s, w->group == LINE_NONE ? before.group : w->group};
        x->end_s[c.run] = c.end_s + w->rest_s;
        x->done[x->made++] = c;
        look(x);
        x->made--;
        x->end_s[c.run] = (double)NAN;
        x->machines[c.machine] = before;
    }
    x->stack_count = base;
}

/* ---- small enough? ------------------------------------------------------------------------------------------------- */

static bool small(const line_job *job)
{
    size_t people = 0;
    if (job->in->task_count * job->batch > MOST_RUNS) return false;
    for (size_t i = 0; i < job->in->task_count; i++)
        if (job->works[i].together > 1 || job->works[i].target_count > 0) return false;
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        if (p->task_count == 0) continue;
        if (p->machines > MOST_MACHINES) return false;
        if (job->batch > 1 && p->machines > 1 && p->groups > 0) return false;
        people += p->machines * p->people;
    }
    return people <= job->people;
}

static bool nothing_set_up(const line_job *job)
{
    for (size_t i = 0; i < job->in->task_count; i++)
        if (job->works[i].group != LINE_NONE && job->works[i].set_up_s > 0) return false;
    return true;
}

static void sort_by_tail(exact *x)
{
    size_t used = 0;
    for (size_t k = 0; k < x->job->stations; k++) {
        x->first[k] = used;
        for (size_t r = 0; r < x->runs; r++) {
            if (work_of(x, r)->station != k) continue;
            size_t at = used++;
            for (; at > x->first[k] && work_of(x, x->by_tail[at - 1])->tail_s < work_of(x, r)->tail_s; at--)
                x->by_tail[at] = x->by_tail[at - 1];
            x->by_tail[at] = r;
        }
    }
    x->first[x->job->stations] = used;
}

static void set_out(exact *x)
{
    line_job *job = x->job;
    for (size_t k = 0; k < job->graph.count; k++) x->place[job->graph.order[k]] = k;
    for (size_t r = 0; r < x->runs; r++) x->end_s[r] = (double)NAN;
    x->machine_first[0] = 0;
    for (size_t k = 0; k < job->stations; k++) {
        size_t there = job->places[k].task_count > 0 ? job->places[k].machines : 0;
        x->machine_first[k + 1] = x->machine_first[k] + there;
    }
    for (size_t m = 0; m < x->machine_first[job->stations]; m++) x->machines[m] = (lathe){0, LINE_NONE};
    sort_by_tail(x);
}

static sw_status make_room(sw_run *run, line_job *job, exact *x)
{
    size_t tasks = job->in->task_count, runs = tasks * job->batch, stations = job->stations + 1;
    *x = (exact){.sw = run, .job = job, .runs = runs, .plain = nothing_set_up(job), .most = job->opt->exact_nodes};
    x->stack_room = runs * runs * MOST_MACHINES;
    x->place = SW_SCRATCH(run, tasks, size_t);
    x->end_s = SW_SCRATCH(run, 2 * runs, double);
    x->by_tail = SW_SCRATCH(run, runs, size_t);
    x->first = SW_SCRATCH(run, 2 * stations, size_t);
    x->machines = SW_SCRATCH(run, stations * MOST_MACHINES, lathe);
    x->done = SW_SCRATCH(run, 2 * runs, choice);
    x->stack = SW_SCRATCH(run, x->stack_room, choice);
    x->seen = SW_SCRATCH(run, tasks, unsigned);
    if (x->place == NULL || x->end_s == NULL || x->by_tail == NULL || x->first == NULL || x->machines == NULL ||
        x->done == NULL || x->stack == NULL || x->seen == NULL)
        return SW_NO_MEMORY;
    x->head_s = x->end_s + runs;
    x->machine_first = x->first + stations;
    x->best = x->done + runs;
    return SW_OK;
}

static sw_status tell_bars(sw_run *run, line_job *job, const exact *x)
{
    sw_line_bar *bars = SW_SCRATCH(run, x->runs, sw_line_bar);
    if (bars == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < x->runs; i++) {
        const choice *c = &x->best[i];
        size_t station = work_of(x, c->run)->station;
        bars[i] = (sw_line_bar){station,
                                c->machine - x->machine_first[station],
                                job->graph.order[c->run / job->batch],
                                c->run % job->batch,
                                1,
                                c->start_s,
                                c->run_from_s,
                                c->end_s};
    }
    job->exact = bars;
    return SW_OK;
}

sw_status line_exact(sw_run *run, line_job *job)
{
    exact x;
    if (job->opt->exact_nodes < 1 || !small(job)) return SW_OK;
    SW_TRY(make_room(run, job, &x));
    x.least_s = job->outcome.makespan_s;
    set_out(&x);
    look(&x);
    job->proved = !x.cut;
    return x.found ? tell_bars(run, job, &x) : SW_OK;
}

/* ---- the schedule found, told as any other ------------------------------------------------------------------------- */

static void tell_people(const line_job *job, const sw_line_bar *bar, line_record *record, line_outcome *o)
{
    size_t people = job->places[bar->station].people;
    double to_s = bar->run_from_s + job->works[bar->task].attended_s;
    if (people == 0) return;
    record->changes[record->change_count++] = (sw_line_level){bar->start_s, people};
    record->changes[record->change_count++] = (sw_line_level){to_s, (size_t)0 - people};
    o->people_s += (double)people * (to_s - bar->start_s);
}

line_outcome line_exact_told(const line_job *job, line_record *record)
{
    line_outcome o = {0};
    size_t runs = job->in->task_count * job->batch;
    for (size_t j = 0; j < job->batch; j++) {
        record->start_s[j] = INFINITY;
        record->end_s[j] = 0;
    }
    for (size_t i = 0; i < runs; i++) {
        const sw_line_bar *bar = &job->exact[i];
        record->bars[record->bar_count++] = *bar;
        record->start_s[bar->stove] = fmin(record->start_s[bar->stove], bar->start_s);
        record->end_s[bar->stove] = fmax(record->end_s[bar->stove], bar->end_s + job->works[bar->task].rest_s);
        o.set_up_s += bar->run_from_s - bar->start_s;
        o.busy_s += bar->end_s - bar->start_s;
        tell_people(job, bar, record, &o);
    }
    for (size_t j = 0; j < job->batch; j++) {
        o.makespan_s = fmax(o.makespan_s, record->end_s[j]);
        o.flow_s += (record->end_s[j] - record->start_s[j]) / (double)job->batch;
    }
    o.worth_s = o.makespan_s + job->opt->flow_weight * o.flow_s + job->opt->set_up_weight * o.set_up_s;
    return o;
}
