/* line_schedule.c: one schedule of the batch, event by event.
 *
 * Whenever something ends, every station that has a free machine takes the task that goes first: least lot, then (where
 * the choice says so) what needs no new set-up, then least rank, then least stove. It starts when people are free and
 * there is a place behind it. A place of a buffer belongs to a stove: it is promised before the first of its parts is begun
 * at the station before (so nothing finished ever blocks a machine), is left when the last of them is begun, and
 * places are given in the order of the stoves. The first unfinished stove therefore always has its places, and what
 * it needs is never held by one that waits for it: the batch cannot lock itself up. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

typedef enum event_kind { MACHINE_FREE, PEOPLE_FREE, RESTED } event_kind;

typedef struct event {
    double at_s;
    size_t number; /* breaks ties: as they were made */
    event_kind kind;
    size_t station, machine, task, stove, count; /* count: people, or stoves of an oven */
} event;

typedef struct machine {
    bool busy;
    size_t group;
} machine;

struct line_state {                      /* room for one schedule at a time; all in run->scratch */
    size_t words;                        /* of 64 stoves */
    size_t *open;                        /* [task * batch + stove] predecessors not yet done */
    uint64_t *ready;                     /* [task * words] stoves whose task may begin */
    size_t *ready_count, *unbegun;       /* [tasks] */
    size_t *first_word;                  /* [tasks] no ready stove stands in a word before this */
    size_t *by_rank;                     /* [tasks] those of station k from rank_first[k], least rank first */
    size_t *rank_first;                  /* [stations] */
    size_t *unbegun_at;                  /* [station * batch + stove] tasks of the stove yet to begin there */
    size_t *least_stove;                 /* [stations] no stove before this has any */
    machine *machines;                   /* [machine_first[stations]] */
    size_t *machine_first, *idle;        /* [stations] */
    size_t *waiting;                     /* [stations] tasks that are ready */
    size_t *granted, *left;              /* [stations] places given to stoves 0 .. granted - 1; left again */
    size_t *placed_open;                 /* [station * batch + stove] tasks yet to begin that wait in the buffer */
    double *stove_start_s, *stove_end_s; /* [batch] */
    event *events;
    size_t event_count, event_number;
    size_t people_free, unfinished;
    double now_s;
    bool *blocked, *starved; /* [stations] at the last look */
    line_outcome outcome;
};

sw_status line_state_make(sw_run *run, line_job *job)
{
    size_t tasks = job->in->task_count, stations = job->stations + 1, batch = job->batch, machines = 0;
    line_state *s = job->state = SW_SCRATCH(run, 1, line_state);
    if (s == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < job->stations; k++) machines += job->places[k].machines + 1;
    s->words = (batch + 63) / 64;
    s->open = SW_SCRATCH(run, tasks * batch, size_t);
    s->ready = SW_SCRATCH(run, tasks * s->words, uint64_t);
    s->ready_count = SW_SCRATCH(run, 4 * tasks, size_t);
    s->machines = SW_SCRATCH(run, machines + 1, machine);
    s->machine_first = SW_SCRATCH(run, 7 * stations, size_t);
    s->placed_open = SW_SCRATCH(run, 2 * stations * batch, size_t);
    s->stove_start_s = SW_SCRATCH(run, 2 * batch, double);
    s->events = SW_SCRATCH(run, 3 * tasks * batch + 1, event);
    s->blocked = SW_SCRATCH(run, 2 * stations, bool);
    if (s->open == NULL || s->ready == NULL || s->ready_count == NULL || s->machines == NULL ||
        s->machine_first == NULL || s->placed_open == NULL || s->stove_start_s == NULL || s->events == NULL ||
        s->blocked == NULL)
        return SW_NO_MEMORY;
    s->unbegun = s->ready_count + tasks;
    s->first_word = s->ready_count + 2 * tasks;
    s->by_rank = s->ready_count + 3 * tasks;
    s->rank_first = s->machine_first + 5 * stations;
    s->least_stove = s->machine_first + 6 * stations;
    s->unbegun_at = s->placed_open + stations * batch;
    s->idle = s->machine_first + stations;
    s->waiting = s->machine_first + 2 * stations;
    s->granted = s->machine_first + 3 * stations;
    s->left = s->machine_first + 4 * stations;
    s->stove_end_s = s->stove_start_s + batch;
    s->starved = s->blocked + stations;
    return SW_OK;
}

/* ---- events: a heap, earliest first -------------------------------------------------------------------------------------- */

static bool earlier(const event *a, const event *b)
{
    return a->at_s < b->at_s || (a->at_s == b->at_s && a->number < b->number);
}

static void put_event(line_state *s, event e)
{
    e.number = s->event_number++;
    size_t at = s->event_count++;
    for (; at > 0 && earlier(&e, &s->events[(at - 1) / 2]); at = (at - 1) / 2) s->events[at] = s->events[(at - 1) / 2];
    s->events[at] = e;
}

static event take_event(line_state *s)
{
    event top = s->events[0], last = s->events[--s->event_count];
    size_t at = 0;
    for (size_t child = 1; child < s->event_count; child = 2 * at + 1) {
        if (child + 1 < s->event_count && earlier(&s->events[child + 1], &s->events[child])) child++;
        if (!earlier(&s->events[child], &last)) break;
        s->events[at] = s->events[child];
        at = child;
    }
    s->events[at] = last;
    return top;
}

/* ---- what is ready --------------------------------------------------------------------------------------------------------- */

static void make_ready(line_job *job, size_t task, size_t stove)
{
    line_state *s = job->state;
    size_t word = stove / 64;
    s->ready[task * s->words + word] |= (uint64_t)1 << (stove % 64);
    if (s->ready_count[task]++ == 0 || word < s->first_word[task]) s->first_word[task] = word;
    s->waiting[job->works[task].station]++;
}

static size_t first_ready(line_state *s, size_t task)
{
    const uint64_t *ready = s->ready + task * s->words;
    size_t word = s->first_word[task];
    while (ready[word] == 0) word++;
    s->first_word[task] = word;
    return 64 * word + (size_t)__builtin_ctzll(ready[word]);
}

static void take_ready(line_job *job, size_t task, size_t stove)
{
    line_state *s = job->state;
    s->ready[task * s->words + stove / 64] &= ~((uint64_t)1 << (stove % 64));
    s->ready_count[task]--;
    s->unbegun[task]--;
    size_t k = job->works[task].station;
    s->waiting[k]--;
    s->unbegun_at[k * job->batch + stove]--;
    while (s->least_stove[k] < job->batch && s->unbegun_at[k * job->batch + s->least_stove[k]] == 0)
        s->least_stove[k]++;
}

/* ---- places in buffers ------------------------------------------------------------------------------------------------------ */

static bool place_there(const line_job *job, size_t task, size_t stove)
{
    const line_state *s = job->state;
    const line_work *w = &job->works[task];
    for (size_t i = 0; i < w->target_count; i++) {
        size_t k = w->targets[i];
        if (stove < s->granted[k]) continue;
        if (stove > s->granted[k] || s->granted[k] - s->left[k] >= job->places[k].buffer) return false;
    }
    return true;
}

static void use_places(line_job *job, size_t task, size_t stove)
{
    line_state *s = job->state;
    const line_work *w = &job->works[task];
    for (size_t i = 0; i < w->target_count; i++)
        if (stove == s->granted[w->targets[i]]) s->granted[w->targets[i]]++;
    if (w->placed && --s->placed_open[w->station * job->batch + stove] == 0) s->left[w->station]++;
}

/* ---- starting ---------------------------------------------------------------------------------------------------------------- */

/* A free machine that is set up for the group; else one that is free. */
static size_t free_machine(const line_state *s, size_t station, size_t group, bool *set_up)
{
    size_t any = LINE_NONE;
    for (size_t m = s->machine_first[station]; m < s->machine_first[station + 1]; m++) {
        if (s->machines[m].busy) continue;
        if (group == LINE_NONE || s->machines[m].group == group) {
            *set_up = false;
            return m;
        }
        if (any == LINE_NONE || s->machines[m].group == LINE_NONE) any = m;
    }
    *set_up = true;
    return any;
}

static bool group_at_hand(const line_state *s, size_t station, size_t group)
{
    bool set_up;
    (void)free_machine(s, station, group, &set_up);
    return !set_up;
}

static void record_bar(line_job *job, line_record *r, const sw_line_bar *bar, size_t people, double people_to_s)
{
    const line_state *s = job->state;
    r->bars[r->bar_count] = *bar;
    r->bars[r->bar_count++].machine -= s->machine_first[bar->station];
    if (people == 0) return;
    r->changes[r->change_count++] = (sw_line_level){bar->start_s, people};
    r->changes[r->change_count++] = (sw_line_level){people_to_s, (size_t)0 - people};
}

static void start(line_job *job, size_t task, size_t stove, line_record *record)
{
    line_state *s = job->state;
    const line_work *w = &job->works[task];
    const line_place *p = &job->places[w->station];
    bool set_up;
    size_t m = free_machine(s, w->station, w->group, &set_up);
    sw_line_bar bar = {w->station, m, task, stove, 0, s->now_s, s->now_s, 0};
    if (set_up) {
        bar.run_from_s += w->set_up_s;
        s->outcome.set_up_s += w->set_up_s;
    }
    if (w->group != LINE_NONE) s->machines[m].group = w->group;
    bar.end_s = bar.run_from_s + w->run_s;
    while (bar.stoves < w->together && s->ready_count[task] > 0) {
        size_t next = first_ready(s, task);
        if (!place_there(job, task, next)) break;
        take_ready(job, task, next);
        use_places(job, task, next);
        s->stove_start_s[next] = fmin(s->stove_start_s[next], s->now_s);
        put_event(s, (event){bar.end_s + w->rest_s, 0, RESTED, w->station, m, task, next, 1});
        bar.stoves++;
    }
    double people_to_s = bar.run_from_s + w->attended_s;
    s->machines[m].busy = true;
    s->idle[w->station]--;
    put_event(s, (event){bar.end_s, 0, MACHINE_FREE, w->station, m, task, stove, bar.stoves});
    if (p->people > 0) {
        s->people_free -= p->people;
        put_event(s, (event){people_to_s, 0, PEOPLE_FREE, w->station, m, task, stove, p->people});
        s->outcome.people_s += (double)p->people * (people_to_s - bar.start_s);
    }
    s->outcome.busy_s += bar.end_s - bar.start_s;
    if (record != NULL) record_bar(job, record, &bar, p->people, people_to_s);
}

/* ---- choosing ---------------------------------------------------------------------------------------------------------------- */

typedef struct key { /* least goes first */
    size_t lot, strange, rank, stove;
} key;

static bool goes_before(const key *a, const key *b, line_stay stay)
{
    if (stay == LINE_STAY_LONG && a->strange != b->strange) return a->strange < b->strange;
    if (a->lot != b->lot) return a->lot < b->lot;
    if (stay == LINE_STAY_LOT && a->strange != b->strange) return a->strange < b->strange;
    if (a->rank != b->rank) return a->rank < b->rank;
    return a->stove < b->stove;
}

static bool oven_full(const line_state *s, size_t task, size_t together)
{
    return s->ready_count[task] >= (s->unbegun[task] < together ? s->unbegun[task] : together);
}

/* The task that goes first; LINE_NONE when none can. Looked at by rank: the first one of the least lot that needs no new
 * set-up cannot be beaten. */
static size_t choose(line_job *job, size_t station, const line_choice *c, bool wait, size_t *stove)
{
    line_state *s = job->state;
    const size_t *tasks = s->by_rank + s->rank_first[station];
    size_t chosen = LINE_NONE, least_lot = s->least_stove[station] / c->lot;
    key best = {0, 0, 0, 0};
    for (size_t a = 0; a < job->places[station].task_count; a++) {
        size_t i = tasks[a];
        const line_work *w = &job->works[i];
        if (s->ready_count[i] == 0) continue;
        if (wait && w->together > 1 && !oven_full(s, i, w->together)) continue;
        size_t first = first_ready(s, i);
        key k = {first / c->lot, 0, a, first};
        if (chosen != LINE_NONE && c->stay != LINE_STAY_LONG && k.lot > best.lot) continue;
        if (c->stay != LINE_STAY_NOT) k.strange = !group_at_hand(s, station, w->group);
        if (chosen != LINE_NONE && !goes_before(&k, &best, c->stay)) continue;
        if (w->target_count > 0 && !place_there(job, i, first)) {
            s->blocked[station] = true;
            continue;
        }
        chosen = i;
        best = k;
        if (k.lot == least_lot && k.strange == 0) break;
    }
    *stove = best.stove;
    return chosen;
}

static bool start_one(line_job *job, size_t station, const line_choice *c, bool wait, line_record *record)
{
    size_t stove, task = choose(job, station, c, wait, &stove);
    if (task == LINE_NONE) return false;
    job->state->blocked[station] = false;
    start(job, task, stove, record);
    return true;
}

static bool start_all(line_job *job, const line_choice *c, bool wait, line_record *record)
{
    line_state *s = job->state;
    bool any = false;
    for (size_t i = 0; i < job->stations; i++) {
        size_t k = c->downstream ? job->stations - 1 - i : job->by_load[i];
        s->blocked[k] = s->starved[k] = false;
        while (s->idle[k] > 0 && s->waiting[k] > 0) {
            s->starved[k] = s->people_free < job->places[k].people;
            if (s->starved[k] || !start_one(job, k, c, wait, record)) break;
            any = true;
        }
    }
    return any;
}

/* ---- the clock ----------------------------------------------------------------------------------------------------------------- */

static void done(line_job *job, size_t task, size_t stove)
{
    line_state *s = job->state;
    const line_graph *g = &job->graph;
    s->unfinished--;
    s->stove_end_s[stove] = s->now_s;
    for (size_t a = g->after_first[task]; a < g->after_first[task + 1]; a++)
        if (--s->open[g->after[a] * job->batch + stove] == 0) make_ready(job, g->after[a], stove);
}

static void happen(line_job *job, const event *e)
{
    line_state *s = job->state;
    s->now_s = e->at_s;
    if (e->kind == RESTED) {
        done(job, e->task, e->stove);
    } else if (e->kind == PEOPLE_FREE) {
        s->people_free += e->count;
    } else {
        s->machines[e->machine].busy = false;
        s->idle[e->station]++;
    }
}

static void sort_by_rank(line_job *job, const line_choice *c)
{
    line_state *s = job->state;
    size_t used = 0;
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        size_t *sorted = s->by_rank + used;
        s->rank_first[k] = used;
        used += p->task_count;
        for (size_t a = 0; a < p->task_count; a++) {
            size_t at = a;
            for (; at > 0 && c->rank[sorted[at - 1]] > c->rank[p->tasks[a]]; at--) sorted[at] = sorted[at - 1];
            sorted[at] = p->tasks[a];
        }
    }
}

static void begin(line_job *job, const line_choice *c)
{
    line_state *s = job->state;
    sort_by_rank(job, c);
    size_t tasks = job->in->task_count, batch = job->batch;
    s->event_count = s->event_number = 0;
    s->people_free = job->people;
    s->unfinished = tasks * batch;
    s->now_s = 0;
    s->outcome = (line_outcome){0};
    memset(s->ready, 0, tasks * s->words * sizeof *s->ready);
    s->machine_first[0] = 0;
    for (size_t k = 0; k < job->stations; k++) {
        s->idle[k] = job->places[k].machines;
        s->waiting[k] = s->granted[k] = s->left[k] = s->least_stove[k] = 0;
        s->machine_first[k + 1] = s->machine_first[k] + s->idle[k];
        for (size_t m = s->machine_first[k]; m < s->machine_first[k + 1]; m++)
            s->machines[m] = (machine){false, LINE_NONE};
        for (size_t j = 0; j < batch; j++) {
            s->placed_open[k * batch + j] = job->places[k].placed;
            s->unbegun_at[k * batch + j] = job->places[k].task_count;
        }
    }
    for (size_t j = 0; j < batch; j++) {
        s->stove_start_s[j] = INFINITY;
        s->stove_end_s[j] = 0;
    }
    for (size_t i = 0; i < tasks; i++) {
        size_t before = job->graph.before_first[i + 1] - job->graph.before_first[i];
        s->ready_count[i] = s->first_word[i] = 0;
        s->unbegun[i] = batch;
        for (size_t j = 0; j < batch; j++) {
            s->open[i * batch + j] = before;
            if (before == 0) make_ready(job, i, j);
        }
    }
}

static void record_waits(const line_job *job, line_record *r, double span_s)
{
    const line_state *s = job->state;
    for (size_t k = 0; k < job->stations; k++) {
        if (s->starved[k])
            r->starved_s[k] += span_s;
        else if (s->blocked[k])
            r->blocked_s[k] += span_s;
    }
}

static line_outcome finish(const line_job *job, line_record *record)
{
    const line_state *s = job->state;
    line_outcome o = s->outcome;
    for (size_t j = 0; j < job->batch; j++) {
        o.makespan_s = fmax(o.makespan_s, s->stove_end_s[j]);
        o.flow_s += (s->stove_end_s[j] - s->stove_start_s[j]) / (double)job->batch;
        if (record == NULL) continue;
        record->start_s[j] = s->stove_start_s[j];
        record->end_s[j] = s->stove_end_s[j];
    }
    o.worth_s = o.makespan_s + job->opt->flow_weight * o.flow_s + job->opt->set_up_weight * o.set_up_s;
    return o;
}

line_outcome line_schedule(line_job *job, const line_choice *choice, line_record *record)
{
    line_state *s = job->state;
    begin(job, choice);
    job->tried++;
    while (s->unfinished > 0) {
        bool started = start_all(job, choice, choice->wait, record);
        if (!started && s->event_count == 0) {
            started = start_all(job, choice, false, record); /* ovens that wait for what cannot come */
            SW_ASSERT(started);
        }
        double from_s = s->now_s;
        if (record != NULL) record_waits(job, record, s->events[0].at_s - from_s);
        double at_s = s->events[0].at_s;
        while (s->event_count > 0 && s->events[0].at_s <= at_s) {
            event e = take_event(s);
            happen(job, &e);
        }
    }
    return finish(job, record);
}
