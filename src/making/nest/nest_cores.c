/* nest_cores.c: multi-start on cores: every thread improves the first answer by itself, with its own seed, arenas and
 * pairs. Turned pieces are made in the same order everywhere, so a plan of one thread holds in all. The best answer is
 * chosen in the order of the threads. */
#include "making/nest/nest_parts.h"

static const size_t ceiling_bytes = (size_t)1 << 30; /* of each arena of a thread */

typedef struct hunter {
    sw_run run;
    nest_core core;
    sw_nest_options opt;
    nest_plan best;
    sw_status status;
    bool stopped;
} hunter;

typedef struct hunters {
    const nest_core *core;
    const nest_plan *first;
    hunter *all; /* [threads] */
} hunters;

static sw_status hunt_alone(hunter *h, const nest_plan *first)
{
    nest_bench *bench = SW_SCRATCH(&h->run, 1, nest_bench);
    nest_way *way = SW_SCRATCH(&h->run, 1, nest_way);
    if (bench == NULL || way == NULL) return SW_NO_MEMORY;
    SW_TRY(nest_core_make(&h->core));
    SW_TRY(nest_bench_make(&h->core, bench));
    SW_TRY(nest_way_first(&h->core, way));
    SW_TRY(nest_plan_copy(&h->run, first, &h->best));
    return nest_hunt(&h->core, bench, way, &h->best, &h->stopped);
}

static void hunt_one(void *context, size_t i)
{
    const hunters *all = context;
    const nest_core *core = all->core;
    hunter *h = &all->all[i];
    h->status = sw_run_open(&h->run, ceiling_bytes);
    if (h->status != SW_OK) return;
    h->run.cancel = core->run->cancel;
    if (i == 0) {
        h->run.on_progress = core->run->on_progress;
        h->run.progress_context = core->run->progress_context;
    }
    h->opt = *core->opt;
    h->opt.seed = core->opt->seed + i * 0x9E3779B97F4A7C15u; /* far apart; the first keeps the caller's */
    h->core = (nest_core){.run = &h->run, .in = core->in, .opt = &h->opt, .stop_at_s = core->stop_at_s};
    h->status = hunt_alone(h, all->first);
}

/* A thread that ran out of memory has nothing to say; the others do. */
static sw_status choose(nest_core *core, const hunters *all, size_t count, nest_plan *best, bool *stopped)
{
    for (size_t i = 0; i < count; i++) {
        const hunter *h = &all->all[i];
        if (h->status != SW_OK) continue;
        core->tests += h->core.tests;
        *stopped = *stopped || h->stopped;
        if (nest_plan_better(&h->best, best)) SW_TRY(nest_plan_copy(core->run, &h->best, best));
    }
    return SW_OK;
}

sw_status nest_hunt_on_cores(nest_core *core, nest_plan *best, bool *stopped)
{
    size_t count = (size_t)core->run->threads;
    hunter *all = SW_SCRATCH(core->run, count, hunter);
    if (all == NULL) return SW_NO_MEMORY;
    hunters context = {.core = core, .first = best, .all = all};
    sw_parallel_for(core->run->threads, count, hunt_one, &context);
    sw_status status = choose(core, &context, count, best, stopped);
    for (size_t i = 0; i < count; i++) {
        nest_core_close(&all[i].core);
        sw_run_close(&all[i].run);
    }
    return status;
}
