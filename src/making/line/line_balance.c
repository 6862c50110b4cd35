/* line_balance.c: the simple line, with few stations or a short cycle.
 *
 * Can the tasks go into m stations of cycle c? A search in depth fills station by station: only loads to which no
 * further task fits (Jackson 1956), and only while the idle time so far is at most m c - sum t (Hoffmann 1963). Sets of
 * tasks that were done and led nowhere are remembered. Tasks are numbered by falling ranked positional weight (Helgeson,
 * Birnie 1961), which keeps the precedence, so that every load comes up once. Half of the nodes goes into the line walked
 * from its end. Sources from memory; Scholl, Balancing and Sequencing of Assembly Lines, 1999. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

enum { WORDS = SW_BALANCE_TASKS / 64, MEMO = 1 << 14 };

typedef enum answer { NONE, FOUND, LIMIT } answer;

typedef struct memo {
    uint64_t set[WORDS];
    size_t left; /* stations that were not enough for the rest; 0 = empty */
} memo;

typedef struct search {
    const line_graph *graph;
    bool back; /* from the line's end */
    size_t n;
    size_t task[SW_BALANCE_TASKS];    /* by number */
    size_t number[SW_BALANCE_TASKS];  /* by task */
    double time_s[SW_BALANCE_TASKS];  /* by number */
    size_t open[SW_BALANCE_TASKS];    /* by number: tasks before it not yet done */
    size_t station[SW_BALANCE_TASKS]; /* by number */
    uint64_t done[WORDS];
    size_t done_count, stations;
    double cycle_s, close_s; /* close: times that differ by less are one */
    double nodes, limit;
    const sw_run *run;
    memo *memos;
} search;

static const size_t *next_of(const search *s, size_t task, size_t *count)
{
    const size_t *first = s->back ? s->graph->before_first : s->graph->after_first;
    *count = first[task + 1] - first[task];
    return (s->back ? s->graph->before : s->graph->after) + first[task];
}

static void mark(search *s, size_t j, size_t station)
{
    size_t count;
    const size_t *next = next_of(s, s->task[j], &count);
    s->done[j / 64] |= (uint64_t)1 << (j % 64);
    s->done_count++;
    s->station[j] = station;
    for (size_t i = 0; i < count; i++) s->open[s->number[next[i]]]--;
}

static void unmark(search *s, size_t j)
{
    size_t count;
    const size_t *next = next_of(s, s->task[j], &count);
    s->done[j / 64] &= ~((uint64_t)1 << (j % 64));
    s->done_count--;
    for (size_t i = 0; i < count; i++) s->open[s->number[next[i]]]++;
}

static bool can(const search *s, size_t j, double room_s)
{
    return s->open[j] == 0 && (s->done[j / 64] >> (j % 64) & 1) == 0 && s->time_s[j] <= room_s + s->close_s;
}

static memo *memo_of(const search *s)
{
    uint64_t h = 0;
    for (size_t w = 0; w < WORDS; w++) h = (h ^ s->done[w]) * 0x9E3779B97F4A7C15u;
    return &s->memos[(h >> 40) % MEMO];
}

/* Tasks longer than half a cycle need a station each. Source: Johnson 1988, bound 2. */
static bool big_ones_fit(const search *s, size_t left)
{
    double halves = 0;
    for (size_t j = 0; j < s->n; j++) {
        if ((s->done[j / 64] >> (j % 64) & 1) != 0) continue;
        double twice_s = 2 * s->time_s[j] - s->cycle_s;
        if (twice_s > s->close_s)
            halves += 2;
        else if (twice_s >= -s->close_s)
            halves += 1;
    }
    return halves <= 2 * (double)left;
}

static answer fill(search *s, size_t station, size_t from, double room_s, double idle_s);

/* The load of `station` is closed: on to the next, unless what is done is known to lead nowhere. */
static answer close_station(search *s, size_t station, double idle_s)
{
    if (s->done_count == s->n) return FOUND;
    size_t left = s->stations - station - 1;
    if (left == 0 || !big_ones_fit(s, left)) return NONE;
    memo *m = memo_of(s);
    if (m->left >= left && memcmp(m->set, s->done, sizeof m->set) == 0) return NONE;
    answer a = fill(s, station + 1, 0, s->cycle_s, idle_s);
    if (a != NONE) return a;
    memcpy(m->set, s->done, sizeof m->set);
    m->left = left;
    return NONE;
}

static answer fill(search *s, size_t station, size_t from, double room_s, double idle_s)
{
    s->nodes++;
    if (s->nodes > s->limit || (fmod(s->nodes, 4096) < 0.5 && sw_run_cancelled(s->run))) return LIMIT;
    bool full = true;
    for (size_t j = 0; j < s->n; j++) {
        if (!can(s, j, room_s)) continue;
        full = false;
        if (j < from) continue;
        mark(s, j, station);
        answer a = fill(s, station, j + 1, room_s - s->time_s[j], idle_s);
        if (a == FOUND) return FOUND;
        unmark(s, j);
        if (a == LIMIT) return LIMIT;
    }
    if (!full || room_s > idle_s + s->close_s) return NONE;
    return close_station(s, station, idle_s - room_s);
}

static void start(search *s, size_t stations, double cycle_s)
{
    memset(s->done, 0, sizeof s->done);
    memset(s->memos, 0, MEMO * sizeof *s->memos);
    s->done_count = 0;
    s->stations = stations;
    s->cycle_s = cycle_s;
    s->close_s = 1e-9 * cycle_s;
    const size_t *first = s->back ? s->graph->after_first : s->graph->before_first;
    for (size_t j = 0; j < s->n; j++) s->open[j] = first[s->task[j] + 1] - first[s->task[j]];
}

/* Ranked positional weights: a task and all that must follow it. They fall along the precedence. */
static void weigh(const search *s, const double *times_s, double *weights)
{
    for (size_t i = 0; i < s->n; i++) {
        size_t count;
        const size_t *next = next_of(s, i, &count);
        bool after[SW_BALANCE_TASKS] = {false};
        size_t stack[SW_BALANCE_TASKS], high = 0;
        weights[i] = times_s[i];
        for (size_t a = 0; a < count; a++)
            if (!after[next[a]]) after[stack[high++] = next[a]] = true;
        while (high > 0) {
            size_t j = stack[--high];
            weights[i] += times_s[j];
            next = next_of(s, j, &count);
            for (size_t a = 0; a < count; a++)
                if (!after[next[a]]) after[stack[high++] = next[a]] = true;
        }
    }
}

/* Numbers: of those that wait for nobody any more, the one of most weight comes next. */
static void number_tasks(search *s, const double *times_s, double *weights)
{
    weigh(s, times_s, weights);
    start(s, s->n, 1);
    for (size_t k = 0; k < s->n; k++) {
        size_t most = s->n, count;
        for (size_t i = 0; i < s->n; i++)
            if (s->open[i] == 0 && (most == s->n || weights[i] > weights[most])) most = i;
        const size_t *next = next_of(s, most, &count);
        for (size_t a = 0; a < count; a++) s->open[next[a]]--;
        s->open[most] = SIZE_MAX;
        s->task[k] = most;
    }
    for (size_t k = 0; k < s->n; k++) {
        s->number[s->task[k]] = k;
        s->time_s[k] = times_s[s->task[k]];
    }
}

typedef struct balance_job {
    const sw_balance_input *in;
    line_graph graph;
    search *ways[2]; /* from the start, from the end */
    double sum_s, most_s, limit;
    size_t *station; /* [count] by task: the best so far */
    size_t stations;
} balance_job;

static void take(balance_job *job, const search *s, size_t stations)
{
    job->stations = 0;
    for (size_t j = 0; j < s->n; j++) {
        job->station[s->task[j]] = s->back ? stations - 1 - s->station[j] : s->station[j];
        if (s->station[j] + 1 > job->stations) job->stations = s->station[j] + 1;
    }
    size_t least = stations;
    for (size_t i = 0; i < s->n; i++) least = job->station[i] < least ? job->station[i] : least;
    for (size_t i = 0; i < s->n; i++) job->station[i] -= least; /* walked from the end, the first may be empty */
}

/* Fills stations with the first task that fits: never fails with as many stations as tasks. */
static size_t greedy(balance_job *job, search *s, double cycle_s)
{
    start(s, s->n, cycle_s);
    size_t station = 0;
    double room_s = cycle_s;
    while (s->done_count < s->n) {
        size_t j = 0;
        while (j < s->n && !can(s, j, room_s)) j++;
        if (j < s->n) {
            mark(s, j, station);
            room_s -= s->time_s[j];
        } else {
            station++;
            room_s = cycle_s;
        }
    }
    take(job, s, station + 1);
    return station + 1;
}

static answer possible(balance_job *job, size_t stations, double cycle_s)
{
    double idle_s = (double)stations * cycle_s - job->sum_s;
    if (idle_s < -1e-9 * cycle_s) return NONE;
    for (int way = 0; way < 2; way++) {
        search *s = job->ways[way];
        start(s, stations, cycle_s);
        s->limit = s->nodes + job->limit / 2;
        answer a = fill(s, 0, 0, cycle_s, idle_s);
        if (a == FOUND) take(job, s, stations);
        if (a != LIMIT) return a;
    }
    return LIMIT;
}

static const char *numbered(const void *of, size_t i)
{
    return sw_text_format((sw_run *)(uintptr_t)of, ((const sw_run *)of)->scratch, "task %zu", i + 1);
}

static sw_status check(sw_run *run, const sw_balance_input *in)
{
    size_t before = run->error_count;
    const sw_place nowhere = {0};
    if (in->count == 0 || in->count > SW_BALANCE_TASKS)
        return sw_fail(run, SW_OUT_OF_RANGE, nowhere, "tasks", "%zu tasks; 1 to %d can be balanced", in->count,
                       SW_BALANCE_TASKS);
    for (size_t i = 0; i < in->count; i++)
        if (!(in->times_s[i] > 0 && isfinite(in->times_s[i])))
            (void)sw_fail(run, SW_OUT_OF_RANGE, nowhere, "times", "task %zu takes %g s; give a time above 0", i + 1,
                          in->times_s[i]);
    size_t times = run->error_count;
    for (size_t i = 0; i < in->before_count; i++)
        if (in->before[i].first >= in->count || in->before[i].then >= in->count)
            (void)sw_fail(run, SW_BAD_INPUT, nowhere, "before", "task %zu before task %zu: there are %zu tasks",
                          in->before[i].first + 1, in->before[i].then + 1, in->count);
    if (run->error_count > times) return SW_BAD_INPUT;
    return times > before ? SW_OUT_OF_RANGE : SW_OK;
}

static sw_status prepare(sw_run *run, const sw_balance_input *in, balance_job *job)
{
    SW_TRY(check(run, in));
    *job = (balance_job){.in = in, .limit = in->nodes > 0 ? in->nodes : 2e6};
    SW_TRY(line_graph_make(run, in->count, in->before, in->before_count, &job->graph));
    if (job->graph.sorted < in->count) {
        const char *ring = "";
        SW_TRY(line_graph_ring(run, &job->graph, numbered, run, &ring));
        return sw_fail(run, SW_BAD_INPUT, (sw_place){0}, "before", "tasks wait for each other: %s", ring);
    }
    for (size_t i = 0; i < in->count; i++) {
        job->sum_s += in->times_s[i];
        job->most_s = fmax(job->most_s, in->times_s[i]);
    }
    double *weights = SW_SCRATCH(run, in->count, double);
    memo *memos = SW_SCRATCH(run, MEMO, memo);
    job->station = SW_KEEP(run, in->count, size_t);
    if (weights == NULL || memos == NULL || job->station == NULL) return SW_NO_MEMORY;
    for (int way = 0; way < 2; way++) {
        search *s = job->ways[way] = SW_SCRATCH(run, 1, search);
        if (s == NULL) return SW_NO_MEMORY;
        s->graph = &job->graph;
        s->back = way == 1;
        s->n = in->count;
        s->run = run;
        s->memos = memos;
        for (size_t i = 0; i < s->n; i++) s->task[i] = i;
        number_tasks(s, in->times_s, weights);
    }
    return SW_OK;
}

static sw_status report(sw_run *run, const balance_job *job, double bound, double cycle_s, bool proved,
                        const sw_balance **result)
{
    sw_balance *b = SW_KEEP(run, 1, sw_balance);
    double *loads_s = SW_KEEP(run, job->stations, double);
    if (b == NULL || loads_s == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->in->count; i++) loads_s[job->station[i]] += job->in->times_s[i];
    *b = (sw_balance){.station = job->station, .stations = job->stations, .bound = bound, .loads_s = loads_s};
    b->cycle_s = cycle_s;
    b->nodes = job->ways[0]->nodes + job->ways[1]->nodes;
    b->efficiency = sw_balance_efficiency(job->sum_s, (double)job->stations, b->cycle_s);
    b->proved = proved;
    *result = b;
    return SW_OK;
}

static sw_status stations_steps(sw_run *run, const sw_balance_input *in, double cycle_s, const sw_balance **result)
{
    balance_job job;
    if (!(cycle_s > 0 && isfinite(cycle_s)))
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "cycle", "%g s is no cycle; give one above 0", cycle_s);
    SW_TRY(prepare(run, in, &job));
    if (job.most_s > cycle_s * (1 + 1e-12))
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "cycle",
                       "a task takes %g s, longer than the cycle of %g s; split it or slow the line", job.most_s,
                       cycle_s);
    size_t least = (size_t)sw_balance_stations_least(job.sum_s, job.most_s, cycle_s);
    size_t most = greedy(&job, job.ways[1], cycle_s), other = greedy(&job, job.ways[0], cycle_s);
    if (most < other) (void)greedy(&job, job.ways[1], cycle_s);
    most = most < other ? most : other;
    double bound = (double)least;
    bool known = true; /* that fewer than m are not enough */
    for (size_t m = least; m < most; m++) {
        answer a = possible(&job, m, cycle_s);
        if (a == FOUND) break;
        if (a == LIMIT) known = false;
        if (known) bound = (double)m + 1;
        if (sw_run_cancelled(run)) return SW_CANCELLED;
    }
    return report(run, &job, bound, cycle_s, (double)job.stations <= bound, result);
}

static double largest_load(const balance_job *job, double *loads_s)
{
    double most_s = 0;
    memset(loads_s, 0, job->in->count * sizeof *loads_s);
    for (size_t i = 0; i < job->in->count; i++) {
        loads_s[job->station[i]] += job->in->times_s[i];
        most_s = fmax(most_s, loads_s[job->station[i]]);
    }
    return most_s;
}

/* Halves the span while it is wide, then asks for just a little less than what is there, until that cannot be. */
static sw_status cycle_steps(sw_run *run, const sw_balance_input *in, size_t stations, const sw_balance **result)
{
    balance_job job;
    if (stations == 0 || stations > SW_BALANCE_TASKS)
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "stations", "%zu stations; give 1 to %d", stations,
                       SW_BALANCE_TASKS);
    SW_TRY(prepare(run, in, &job));
    double *loads_s = SW_SCRATCH(run, in->count, double);
    size_t *best = SW_SCRATCH(run, in->count, size_t);
    if (loads_s == NULL || best == NULL) return SW_NO_MEMORY;
    double low_s = sw_balance_cycle_least_s(job.sum_s, job.most_s, (double)stations), high_s = job.sum_s;
    double reach_s = low_s; /* from where on it has not been tried in vain */
    (void)greedy(&job, job.ways[0], high_s);
    size_t used = job.stations;
    memcpy(best, job.station, in->count * sizeof *best);
    for (double c_s = low_s * (1 + 1e-9); high_s > low_s * (1 + 1e-9);) {
        answer a = greedy(&job, job.ways[0], c_s) <= stations ? FOUND : possible(&job, stations, c_s);
        if (sw_run_cancelled(run)) return SW_CANCELLED;
        if (a == FOUND) {
            high_s = largest_load(&job, loads_s);
            used = job.stations;
            memcpy(best, job.station, in->count * sizeof *best);
        } else {
            reach_s = c_s;
        }
        if (a == NONE && c_s > low_s) low_s = c_s;
        double just_s = high_s * (1 - 2e-9);
        if (reach_s >= just_s) break;
        c_s = high_s - reach_s > 0.01 * high_s ? (reach_s + high_s) / 2 : just_s;
    }
    bool proved = low_s >= high_s * (1 - 4e-9);
    memcpy(job.station, best, in->count * sizeof *best);
    job.stations = used;
    return report(run, &job, proved ? high_s : low_s, high_s, proved, result);
}

sw_status sw_balance_stations(sw_run *run, const sw_balance_input *in, double cycle_s, const sw_balance **result)
{
    size_t mark_at = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = stations_steps(run, in, cycle_s, result);
    sw_arena_rewind(run->scratch, mark_at);
    return status;
}

sw_status sw_balance_cycle(sw_run *run, const sw_balance_input *in, size_t stations, const sw_balance **result)
{
    size_t mark_at = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = cycle_steps(run, in, stations, result);
    sw_arena_rewind(run->scratch, mark_at);
    return status;
}
