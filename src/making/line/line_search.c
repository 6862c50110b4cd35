/* line_search.c: the best schedule found: every rule with every lot, then exchanges and moves in the order of tasks. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

static const double begun_most = 4e6; /* ours: tasks begun in all rounds together; keeps large batches within seconds */

typedef struct rule {
    const char *name;
    double (*before)(const line_job *job, size_t task); /* least goes first */
} rule;

static double longest_tail(const line_job *job, size_t i)
{
    return -(job->works[i].run_s + job->works[i].tail_s);
}
static double longest_run(const line_job *job, size_t i)
{
    return -job->works[i].run_s;
}
static double shortest_run(const line_job *job, size_t i)
{
    return job->works[i].run_s;
}
static double shortest_head(const line_job *job, size_t i)
{
    return job->works[i].head_s;
}
static double as_given(const line_job *job, size_t i)
{
    (void)job;
    return (double)i;
}

static const rule rules[] = {{"longest way to go", longest_tail},
                             {"as given", as_given},
                             {"longest first", longest_run},
                             {"shortest first", shortest_run},
                             {"earliest that can come", shortest_head}};
enum { RULES = sizeof rules / sizeof *rules };

static void rank_by(const line_job *job, const rule *r, size_t *rank, size_t *order)
{
    size_t n = job->in->task_count;
    for (size_t i = 0; i < n; i++) {
        size_t at = i;
        double mine = r->before(job, i);
        for (; at > 0 && r->before(job, order[at - 1]) > mine; at--) order[at] = order[at - 1];
        order[at] = i;
    }
    for (size_t k = 0; k < n; k++) rank[order[k]] = k;
}

static void copy_choice(line_choice *to, const line_choice *from, size_t tasks)
{
    size_t *rank = to->rank;
    memcpy(rank, from->rank, tasks * sizeof *rank);
    *to = *from;
    to->rank = rank;
}

typedef struct search {
    line_job *job;
    sw_run *run;
    line_choice tried; /* rank of its own */
    bool any;
} search;

static bool stopped(const search *s)
{
    return s->any && sw_run_cancelled(s->run);
}

static void try_choice(search *s)
{
    line_job *job = s->job;
    if (stopped(s)) return;
    line_outcome o = line_schedule(job, &s->tried, NULL);
    if (s->any && o.worth_s >= job->outcome.worth_s) return;
    s->any = true;
    job->outcome = o;
    copy_choice(&job->best, &s->tried, job->in->task_count);
}

static bool has_oven(const line_job *job)
{
    for (size_t i = 0; i < job->in->task_count; i++)
        if (job->works[i].together > 1) return true;
    return false;
}

static void try_lots(search *s)
{
    static const size_t lots[] = {1, 2, 5, 10, 20, 50, SW_LINE_BATCH};
    size_t batch = s->job->batch;
    for (size_t l = 0; l < sizeof lots / sizeof *lots; l++) {
        s->tried.lot = lots[l] < batch ? lots[l] : batch;
        for (int stay = LINE_STAY_LOT; stay <= LINE_STAY_NOT; stay++) {
            s->tried.stay = (line_stay)stay;
            try_choice(s);
        }
        if (lots[l] >= batch) break;
    }
}

static void try_rules(search *s, size_t *order)
{
    for (size_t r = 0; r < RULES; r++) {
        rank_by(s->job, &rules[r], s->tried.rank, order);
        s->tried.rule = rules[r].name;
        if (r == 0)
            try_lots(s);
        else
            for (int stay = LINE_STAY_LOT; stay <= LINE_STAY_NOT; stay++) {
                s->tried.lot = s->job->best.lot;
                s->tried.stay = (line_stay)stay;
                try_choice(s);
            }
    }
}

/* Best choice so far with ovens that wait, people the other way round, and all lots again. */
static void try_switches(search *s)
{
    bool oven = has_oven(s->job);
    for (int k = 1; k < 4; k++) {
        if ((k & 1) != 0 && !oven) continue;
        copy_choice(&s->tried, &s->job->best, s->job->in->task_count);
        s->tried.wait = (k & 1) != 0;
        s->tried.downstream = (k & 2) == 0;
        try_choice(s);
    }
    copy_choice(&s->tried, &s->job->best, s->job->in->task_count);
    try_lots(s);
}

/* One move: two tasks of a station exchanged, one put elsewhere, or seldom another lot. */
static void change(search *s, sw_random *random)
{
    const line_job *job = s->job;
    size_t n = job->in->task_count, *rank = s->tried.rank;
    size_t i = sw_random_below(random, n), what = sw_random_below(random, 16);
    if (what == 0) {
        s->tried.lot = 1 + sw_random_below(random, job->batch);
        s->tried.stay = (line_stay)sw_random_below(random, 3);
        return;
    }
    const line_place *p = &job->places[job->works[i].station];
    size_t j = p->tasks[sw_random_below(random, p->task_count)], from = rank[i], to = rank[j];
    if (what >= 8) {
        rank[i] = to;
        rank[j] = from;
        return;
    }
    for (size_t k = 0; k < n; k++) {
        if (from < to && rank[k] > from && rank[k] <= to) rank[k]--;
        if (from > to && rank[k] < from && rank[k] >= to) rank[k]++;
    }
    rank[i] = to;
}

line_outcome line_improve(sw_run *run, line_job *job, line_choice *choice, line_outcome from, double rounds,
                          uint64_t seed)
{
    sw_random random = sw_random_seeded(seed);
    search s = {.job = job, .run = run, .any = true};
    s.tried.rank = SW_SCRATCH(run, job->in->task_count, size_t);
    if (s.tried.rank == NULL) return from; /* recorded in the run; the caller sees its error */
    size_t whole = (size_t)rounds;
    for (size_t k = 0; k < whole && !stopped(&s); k++) {
        copy_choice(&s.tried, choice, job->in->task_count);
        change(&s, &random);
        line_outcome o = line_schedule(job, &s.tried, NULL);
        if (o.worth_s > from.worth_s) continue; /* equal ones are taken: they lead on */
        from = o;
        copy_choice(choice, &s.tried, job->in->task_count);
    }
    return from;
}

sw_status line_search(sw_run *run, line_job *job)
{
    size_t tasks = job->in->task_count;
    search s = {.job = job, .run = run, .tried = {.lot = 1, .downstream = true, .rule = ""}};
    size_t *order = SW_SCRATCH(run, tasks, size_t);
    s.tried.rank = SW_SCRATCH(run, tasks, size_t);
    job->best.rank = SW_SCRATCH(run, tasks, size_t);
    if (order == NULL || s.tried.rank == NULL || job->best.rank == NULL) return SW_NO_MEMORY;
    SW_TRY(line_state_make(run, job));
    if (sw_run_cancelled(run)) return SW_CANCELLED;
    try_rules(&s, order);
    try_switches(&s);
    size_t before = run->error_count;
    double rounds = fmin(job->opt->rounds, begun_most / (double)(tasks * job->batch));
    job->outcome = line_improve(run, job, &job->best, job->outcome, rounds, (uint64_t)job->opt->seed);
    return run->error_count > before ? SW_NO_MEMORY : SW_OK;
}
