/* line_flow_search.c: a good order for a permutation flow shop, exact for few jobs.
 *
 * Iterated greedy (Ruiz, Stuetzle, EJOR 177 (2007) 2033-2049): take d jobs out, put each back where it lengthens least,
 * then move single jobs while that helps; worse orders are accepted with probability exp(-delta/T), T = temperature
 * (mean time)/10, constant. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

enum { EXACT_JOBS = 8 };

static const sw_option table[] = {
    SW_OPTION(sw_flow_options, iterations, "", 5000, 0, 1e7, "iterations of the search", "ours"),
    SW_OPTION(sw_flow_options, taken_out, "", 4, 1, 50, "jobs taken out in each", "Ruiz, Stuetzle 2007"),
    SW_OPTION(sw_flow_options, temperature, "", 0.4, 0, 10, "share of a tenth of the mean time", "Ruiz, Stuetzle 2007"),
    SW_OPTION(sw_flow_options, seed, "", 1, 0, 1e9, "seed", "ours"),
};
enum { OPTIONS = sizeof table / sizeof *table };

const sw_option *sw_flow_option_table(size_t *count)
{
    *count = OPTIONS;
    return table;
}

sw_flow_options sw_flow_options_defaults(void)
{
    sw_flow_options o = {0};
    sw_options_fill(table, OPTIONS, &o);
    o.made_by_defaults = SW_DEFAULTS_MARK;
    return o;
}

sw_status line_flow_check(sw_run *run, const sw_flow_shop *shop)
{
    size_t before = run->error_count;
    if (shop->jobs == 0 || shop->jobs > 1000 || shop->machines == 0 || shop->machines > LINE_FLOW_MACHINES)
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "flow shop",
                       "%zu jobs on %zu machines; 1 to 1000 jobs and 1 to %d machines can be ordered", shop->jobs,
                       shop->machines, LINE_FLOW_MACHINES);
    for (size_t i = 0; i < shop->jobs * shop->machines; i++)
        if (!(shop->times_s[i] >= 0 && isfinite(shop->times_s[i])))
            (void)sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "times",
                          "job %zu takes %g s on machine %zu; give 0 or more", i % shop->jobs + 1, shop->times_s[i],
                          i / shop->jobs + 1);
    return run->error_count > before ? SW_OUT_OF_RANGE : SW_OK;
}

typedef struct flow_job {
    const sw_flow_shop *shop;
    const sw_flow_options *opt;
    size_t *now, *best, *tried, *out;
    double *work_s;
    double now_s, best_s, bound_s;
} flow_job;

static void keep_best(flow_job *job)
{
    if (job->now_s >= job->best_s) return;
    job->best_s = job->now_s;
    memcpy(job->best, job->now, job->shop->jobs * sizeof *job->best);
}

/* Every order behind the first k, while it can be shorter than the best. */
static void every_order(flow_job *job, size_t k)
{
    size_t n = job->shop->jobs;
    job->now_s = sw_flow_makespan_s(job->shop, job->now, k);
    if (job->now_s >= job->best_s) return;
    if (k == n) {
        keep_best(job);
        return;
    }
    for (size_t i = k; i < n; i++) {
        size_t held = job->now[k];
        job->now[k] = job->now[i];
        job->now[i] = held;
        every_order(job, k + 1);
        job->now[i] = job->now[k];
        job->now[k] = held;
    }
}

static void take_out(size_t *order, size_t count, size_t at)
{
    memmove(order + at, order + at + 1, (count - at - 1) * sizeof *order);
}

/* Moves single jobs to their best places until a whole round brings nothing. */
static void settle(flow_job *job, size_t *order, double *makespan_s, sw_random *random)
{
    size_t n = job->shop->jobs, without = 0, at = sw_random_below(random, n);
    while (without < n) {
        size_t moved = order[at];
        double then_s;
        take_out(order, n, at);
        size_t place = line_flow_best_place(job->shop, order, n - 1, moved, job->work_s, &then_s);
        bool better = then_s < *makespan_s;
        line_flow_insert(order, n - 1, better ? place : at, moved);
        if (better) *makespan_s = then_s;
        without = better ? 0 : without + 1;
        at = (at + 1) % n;
    }
}

static double rebuilt(flow_job *job, sw_random *random)
{
    size_t n = job->shop->jobs, out = (size_t)job->opt->taken_out, left = n;
    double makespan_s = job->now_s;
    memcpy(job->tried, job->now, n * sizeof *job->tried);
    if (out > n - 1) out = n - 1;
    for (size_t i = 0; i < out; i++) {
        size_t at = sw_random_below(random, left);
        job->out[i] = job->tried[at];
        take_out(job->tried, left--, at);
    }
    for (size_t i = 0; i < out; i++) {
        size_t at = line_flow_best_place(job->shop, job->tried, left, job->out[i], job->work_s, &makespan_s);
        line_flow_insert(job->tried, left++, at, job->out[i]);
    }
    settle(job, job->tried, &makespan_s, random);
    return makespan_s;
}

static double mean_time_s(const sw_flow_shop *shop)
{
    double sum_s = 0;
    for (size_t i = 0; i < shop->jobs * shop->machines; i++) sum_s += shop->times_s[i];
    return sum_s / (double)(shop->jobs * shop->machines);
}

static void greedy_rounds(flow_job *job, const sw_run *run)
{
    sw_random random = sw_random_seeded((uint64_t)job->opt->seed);
    double heat_s = job->opt->temperature * mean_time_s(job->shop) / 10;
    settle(job, job->now, &job->now_s, &random);
    keep_best(job);
    size_t iterations = (size_t)job->opt->iterations;
    for (size_t i = 0; i < iterations && job->best_s > job->bound_s; i++) {
        if (sw_run_cancelled(run)) return;
        double then_s = rebuilt(job, &random), luck = sw_random_unit(&random);
        if (then_s > job->now_s && !(heat_s > 0 && luck <= exp(-(then_s - job->now_s) / heat_s))) continue;
        size_t *held = job->now;
        job->now = job->tried;
        job->tried = held;
        job->now_s = then_s;
        keep_best(job);
    }
}

static sw_status solve(sw_run *run, const sw_flow_shop *shop, const sw_flow_options *opt, const sw_flow **result)
{
    size_t n = shop->jobs;
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    SW_TRY(sw_options_check(run, table, OPTIONS, opt));
    SW_TRY(line_flow_check(run, shop));
    sw_flow *flow = SW_KEEP(run, 1, sw_flow);
    size_t *room = SW_SCRATCH(run, 3 * n, size_t);
    flow_job job = {.shop = shop, .opt = opt, .best_s = INFINITY};
    job.best = SW_KEEP(run, n, size_t);
    job.work_s = SW_SCRATCH(run, (n + 1) * (shop->machines + 1), double);
    if (flow == NULL || room == NULL || job.best == NULL || job.work_s == NULL) return SW_NO_MEMORY;
    job.now = room;
    job.tried = room + n;
    job.out = room + 2 * n;
    job.bound_s = line_flow_bound(shop, job.work_s, job.now);
    bool whole = true; /* nothing better was left out */
    if (sw_flow_johnson(shop, job.now)) {
        job.now_s = sw_flow_makespan_s(shop, job.now, n);
        keep_best(&job);
    } else {
        line_flow_neh(shop, job.now, job.tried, job.work_s);
        job.now_s = flow->neh_s = sw_flow_makespan_s(shop, job.now, n);
        keep_best(&job);
        whole = n <= EXACT_JOBS;
        if (whole)
            every_order(&job, 0);
        else
            greedy_rounds(&job, run);
    }
    flow->order = job.best;
    flow->makespan_s = job.best_s;
    flow->bound_s = whole ? job.best_s : job.bound_s;
    flow->proved = job.best_s <= flow->bound_s;
    *result = flow;
    return SW_OK;
}

sw_status sw_flow_solve(sw_run *run, const sw_flow_shop *shop, const sw_flow_options *opt, const sw_flow **result)
{
    size_t mark = sw_arena_mark(run->scratch);
    *result = NULL;
    sw_status status = solve(run, shop, opt, result);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
