/* nest_pack.c: workers that try to do with less steel, each on a packing of its own taken from the best so far. */
#include "making/nest/nest_pack_parts.h"

#include <stdio.h>

static const size_t worker_bytes = (size_t)256 << 20;
/* Vain presses one after the other: then there is nothing left to gain; fewer where the bound is met. Ours. */
enum { IDLE_MOST = 1000, IDLE_AT_BOUND = 20 };

static const double press_share = 0.2; /* of the time, at the end. Ours */
static const double tell_every_s = 0.2;
static const double least_gain = 5e-4; /* of the cost. Ours */

typedef struct pack_job {
    nest_pack *pack;
    nest_packer *workers;
} pack_job;

static sw_status worker_make(nest_packer *w)
{
    const nest_pack *pack = w->pack;
    size_t count = pack->best.count, shapes = pack->core->in->shape_count;
    SW_TRY(nest_packing_make(&w->run, count, pack->sheet_room, pack->best.kind, &w->now));
    SW_TRY(nest_packing_make(&w->run, count, pack->sheet_room, pack->best.kind, &w->kept));
    w->list = SW_SCRATCH(&w->run, count, uint32_t);
    w->loose = SW_SCRATCH(&w->run, count, uint32_t);
    w->version = SW_SCRATCH(&w->run, pack->sheet_room, uint32_t);
    w->failed = SW_SCRATCH(&w->run, pack->sheet_room * shapes, uint32_t);
    w->swaps = SW_SCRATCH(&w->run, NEST_SWAPS, uint8_t);
    w->closed = SW_SCRATCH(&w->run, pack->sheet_room, bool);
    w->sheets = SW_SCRATCH(&w->run, pack->sheet_room, uint32_t);
    bool whole = w->list && w->loose && w->version && w->failed && w->closed && w->sheets && w->swaps;
    return whole ? SW_OK : SW_NO_MEMORY;
}

static void tell(const nest_packer *w)
{
    nest_pack *pack = w->pack;
    char note[96];
    double pieces = 0, sheets = 0;
    omp_set_lock(&pack->lock);
    for (size_t s = 0; s < pack->best.sheet_count; s++) {
        pieces += pack->best.area_mm2[s];
        sheets += pack->core->sheets[pack->best.stock[s]].area_mm2;
    }
    omp_unset_lock(&pack->lock);
    (void)snprintf(note, sizeof note, "%.1f %% of the sheets used, at most %.1f %% can be", 100 * pieces / sheets,
                   100 * pieces / nest_bound_area(pack->core));
    sw_run_progress(pack->core->run, pack->core->in->name, sw_seconds() - pack->begun_s, pack->until_s - pack->begun_s,
                    note);
}

/* No choice of sheets can be cheaper than that of the packing the workers go on from. */
static bool bound_is_met(nest_pack *pack)
{
    double price = 0;
    omp_set_lock(&pack->lock);
    for (size_t s = 0; s < pack->best.sheet_count; s++)
        if (pack->best.area_mm2[s] > 0) price += pack->core->sheets[pack->best.stock[s]].price;
    omp_unset_lock(&pack->lock);
    return price <= pack->least_price * (1 + 1e-9);
}

typedef struct mood {
    int idle;       /* tries without a gain, one after the other */
    bool more;      /* aims are left */
    bool met;       /* the bound is */
    double counted; /* cost at the last gain */
} mood;

static bool goes_on(const nest_packer *w, const mood *m)
{
    return m->idle < (m->met ? IDLE_AT_BOUND : IDLE_MOST) && w->status == SW_OK && !nest_time_is_up(&w->pack->own);
}

/* Where the bound is met, what is worth less than least_gain counts as nothing. */
static bool is_gain(const nest_packer *w, const mood *m)
{
    return !m->met || !isfinite(m->counted) || w->now.cost < m->counted - least_gain * fabs(m->counted);
}

/* One try: an aim, or a press late or when no aim is left. */
static bool try_once(nest_packer *w, mood *m)
{
    const nest_pack *pack = w->pack;
    bool won = false, late = sw_seconds() > pack->until_s - press_share * (pack->until_s - pack->begun_s);
    m->met = m->met || bound_is_met(w->pack);
    m->more = m->more && !m->met;
    if (m->more && !late) m->more = nest_pack_aim(w, &won);
    bool aiming = m->more && !late;
    if (!aiming) won = nest_pack_press(w);
    bool gained = won && is_gain(w, m);
    if (gained) m->counted = w->now.cost;
    m->idle = aiming || gained ? 0 : m->idle + 1;
    m->more = m->more || (won && !m->met);
    return won;
}

static void work_on(nest_packer *w, bool tells)
{
    mood m = {.more = true, .counted = INFINITY};
    double told_s = 0;
    while (goes_on(w, &m)) {
        bool won = try_once(w, &m);
        if (!tells || (!won && sw_seconds() - told_s < tell_every_s)) continue;
        told_s = sw_seconds();
        tell(w);
    }
}

static void work(void *context, size_t i)
{
    const pack_job *job = context;
    nest_packer *w = &job->workers[i];
    w->pack = job->pack;
    w->random = sw_random_seeded(job->pack->core->opt->seed * 1000003 + i);
    w->status = sw_run_open(&w->run, worker_bytes);
    if (w->status != SW_OK) return;
    w->run.cancel = job->pack->core->run->cancel;
    w->status = worker_make(w);
    work_on(w, i == 0);
    sw_run_close(&w->run);
}

static sw_status judge(nest_core *core, const nest_plan *plan)
{
    sw_nest_result *made = NULL;
    SW_TRY(nest_result_make(core, plan, &made));
    return sw_nest_verify(core->run, core->in, made);
}

/* Takes the plan over when the verifier lets it pass; a refusal is a fault of the program and never passed over. */
static sw_status take_over(nest_core *core, const nest_plan *plan, nest_plan *best)
{
    size_t mark = sw_arena_mark(core->run->keep);
    sw_status status = judge(core, plan);
    sw_arena_rewind(core->run->keep, mark);
    if (status == SW_OK) *best = *plan;
    return status;
}

static sw_status improve(nest_core *core, nest_pack *pack, nest_plan *best)
{
    size_t count = (size_t)pack->core->run->threads;
    nest_packer *workers = SW_SCRATCH(pack->core->run, count, nest_packer);
    if (workers == NULL) return SW_NO_MEMORY;
    nest_pack_warm(pack);
    pack_job job = {pack, workers};
    sw_parallel_for(pack->core->run->threads, count, work, &job);
    for (size_t i = 0; i < count; i++) core->tests += workers[i].looks;
    if (pack->wins == 0) return SW_OK;
    nest_plan plan;
    SW_TRY(nest_packing_to_plan(pack, &pack->answer, &plan));
    return take_over(core, &plan, best);
}

sw_status nest_pack_improve(nest_core *core, nest_plan *best, bool *stopped)
{
    nest_pack *pack = SW_SCRATCH(core->run, 1, nest_pack);
    if (pack == NULL) return SW_NO_MEMORY;
    sw_status status = nest_pack_open(pack, core, best);
    if (status == SW_OK) status = improve(core, pack, best);
    nest_pack_close(pack);
    *stopped = nest_time_is_up(core);
    return status == SW_OUT_OF_RANGE ? SW_OK : status;
}
