#include "making/nest/nest_search_parts.h"

#include <math.h>

enum {
    POOL = 48,
    MEETINGS = 25,
    EXPLORE_MEETINGS = 20,
    FIRST_STARTS = 3,
    FIRST_PASSES = 60,
    EXPLORE_PASSES = 40,
    SCATTER_MOST = 60
};

static const double first_density = 0.65, first_growth = 1.05; /* of a worker's random start. Ours */
static const double largest_step = 0.02, least_step = 0.001, step_growth = 1.3,
                    step_cut = 0.4;                        /* share of the length a round takes off. Ours */
static const double press_first = 8e-4, press_last = 2e-5; /* the same while pressing. Ours */
static const double far_behind = 0.004;                    /* then the best layout is taken over. Ours */

typedef struct pooled {
    nest_state state;
    double overlap_mm;
} pooled; /* not legal, but near it */

typedef struct worker {
    nest_crowd *crowd;
    nest_state best, trial;
    double best_mm;
    pooled pool[POOL];
    size_t pool_count;
    double step; /* share of the length the next round takes off */
    bool failed; /* the last round, with the least step */
    uint64_t round;
} worker;

typedef struct stretch { /* what the workers do between two meetings */
    const nest_search *search;
    worker *workers;
    bool press;
    double from_share, to_share; /* of the pressing */
    double from_s, to_s;
    uint64_t from_round, to_round;
} stretch;

static sw_status make_worker(const nest_search *s, size_t index, worker *w)
{
    SW_TRY(nest_crowd_make(s->run, s->table, s->kind, s->count, s->width_mm, &w->crowd));
    SW_TRY(nest_state_make(s->run, s->count, &w->best));
    SW_TRY(nest_state_make(s->run, s->count, &w->trial));
    for (size_t i = 0; i < POOL; i++) SW_TRY(nest_state_make(s->run, s->count, &w->pool[i].state));
    w->crowd->random = sw_random_seeded(s->seed * 1000003 + index);
    nest_state_copy(s->count, &s->best, &w->best);
    w->best_mm = s->best_mm;
    w->step = largest_step;
    return SW_OK;
}

static void take(const nest_search *s, worker *w, const nest_state *state, double length_mm)
{
    nest_state_copy(s->count, state, &w->best);
    w->best_mm = length_mm;
    w->pool_count = 0;
    w->failed = false;
}

static bool separated(const stretch *st, worker *w, int passes, int starts, double *overlap_mm)
{
    const nest_patience patience = {passes, starts, st->search->rounds > 0 ? (double)INFINITY : st->to_s,
                                    st->search->run};
    w->round++;
    return nest_separate(w->crowd, &patience, &w->trial, overlap_mm);
}

static void win(const nest_search *s, worker *w)
{
    take(s, w, &w->trial, fmin(w->crowd->length_mm, nest_crowd_reach(w->crowd, &w->trial)));
}

/* ---- exploring ----------------------------------------------------------------------------------- */

static void scatter(const nest_search *s, worker *w, double length_mm)
{
    nest_crowd *c = w->crowd;
    for (size_t i = 0; i < s->count; i++) {
        const nest_kind *kind = &s->table->core->kinds[s->kind[i]];
        w->trial.turned[i] = (uint32_t)(kind->first + sw_random_below(&c->random, kind->count));
        w->trial.x_mm[i] = sw_random_unit(&c->random) * length_mm;
        w->trial.y_mm[i] = sw_random_unit(&c->random) * s->width_mm;
    }
    nest_crowd_set(c, &w->trial, length_mm);
}

/* A start of the worker's own: pieces thrown in at random and pulled apart. Many pieces start from the first answer. */
static void start_anew(const stretch *st, worker *w)
{
    const nest_search *s = st->search;
    double length_mm = s->area_mm2 / s->width_mm / first_density, overlap_mm = 0;
    for (int i = 0; i < 20; i++) {
        scatter(s, w, length_mm);
        if (s->best_counts && length_mm >= s->best_mm) return;
        if (separated(st, w, FIRST_PASSES, FIRST_STARTS, &overlap_mm)) {
            win(s, w);
            return;
        }
        length_mm *= first_growth;
    }
}

static void keep_in_pool(const nest_search *s, worker *w, double overlap_mm)
{
    size_t k = w->pool_count < POOL ? w->pool_count++ : POOL - 1;
    if (k == POOL - 1 && w->pool[k].overlap_mm > 0 && w->pool[k].overlap_mm < overlap_mm) return;
    pooled last = w->pool[k];
    for (; k > 0 && w->pool[k - 1].overlap_mm > overlap_mm; k--) w->pool[k] = w->pool[k - 1];
    w->pool[k] = last;
    w->pool[k].overlap_mm = overlap_mm;
    nest_state_copy(s->count, &w->trial, &w->pool[k].state);
}

/* From the pool, the better ones more often, with two pieces swapped. */
static void start_from_pool(worker *w, double target_mm)
{
    double u = sw_random_unit(&w->crowd->random);
    nest_crowd_set(w->crowd, &w->pool[(size_t)(u * u * (double)w->pool_count)].state, target_mm);
    nest_disturb(w->crowd);
    nest_state_copy(w->crowd->count, &w->crowd->now, &w->trial);
    nest_crowd_set(w->crowd, &w->trial, target_mm);
}

/* Steps grow with success and shrink with failure; at the least one, what fails goes to the pool. */
static void explore(const stretch *st, worker *w)
{
    double target_mm = w->best_mm * (1 - w->step), overlap_mm = 0;
    bool least = w->step <= least_step;
    if (w->failed && w->pool_count > 0)
        start_from_pool(w, target_mm);
    else
        nest_crowd_set(w->crowd, &w->best, target_mm);
    if (separated(st, w, EXPLORE_PASSES, 1, &overlap_mm)) {
        w->step = w->failed ? least_step : fmin(w->step * step_growth, largest_step);
        win(st->search, w);
    } else if (!least) {
        w->step = fmax(least_step, w->step * step_cut);
    } else {
        keep_in_pool(st->search, w, overlap_mm);
        w->failed = true;
    }
}

/* ---- pressing ---------------------------------------------------------------------------------- */

/* What lies beyond a random line moves in by what the strip loses. */
static void press(const stretch *st, worker *w, double share)
{
    nest_crowd *c = w->crowd;
    double target_mm = w->best_mm * (1 - press_first * pow(press_last / press_first, share)), overlap_mm = 0;
    double line_mm = sw_random_unit(&c->random) * w->best_mm;
    nest_state_copy(c->count, &w->best, &w->trial);
    for (size_t i = 0; i < c->count; i++)
        if (w->trial.x_mm[i] > line_mm) w->trial.x_mm[i] -= w->best_mm - target_mm;
    nest_crowd_set(c, &w->trial, target_mm);
    if (separated(st, w, 100, 2, &overlap_mm)) win(st->search, w);
}

/* ---- stretches and meetings ---------------------------------------------------------------------- */

static double done_share(const stretch *st, const worker *w)
{
    if (st->search->rounds > 0)
        return st->to_round == st->from_round
                   ? 1
                   : (double)(w->round - st->from_round) / (double)(st->to_round - st->from_round);
    return (sw_seconds() - st->from_s) / fmax(st->to_s - st->from_s, 1e-9);
}

static void work(void *context, size_t i)
{
    const stretch *st = context;
    worker *w = &st->workers[i];
    if (w->round == 0 && st->search->count <= SCATTER_MOST) start_anew(st, w);
    double share = done_share(st, w);
    while (share < 1 && !sw_run_cancelled(st->search->run)) {
        if (st->press)
            press(st, w, st->from_share + share * (st->to_share - st->from_share));
        else
            explore(st, w);
        share = done_share(st, w);
    }
}

static size_t leader(const nest_search *s, const worker *workers)
{
    size_t best = 0;
    for (size_t i = 1; i < s->workers; i++)
        if (workers[i].best_mm < workers[best].best_mm) best = i;
    return best;
}

static void meet(nest_search *s, worker *workers, bool press)
{
    const worker *first = &workers[leader(s, workers)];
    for (size_t i = 0; i < s->workers; i++) {
        worker *w = &workers[i];
        bool behind = press ? w->best_mm > first->best_mm : w->best_mm > first->best_mm * (1 + far_behind);
        if (behind) take(s, w, &first->best, first->best_mm);
    }
    if (first->best_mm < s->best_mm) {
        nest_state_copy(s->count, &first->best, &s->best);
        s->best_mm = first->best_mm;
    }
}

static void tell(const nest_search *s)
{
    const char *text = sw_text_format(s->run, s->run->scratch, "%.2f %% of the strip, length %.1f",
                                      100 * s->area_mm2 / (s->width_mm * s->best_mm), s->best_mm);
    sw_run_progress(s->run, s->name, sw_seconds() - s->begun_s, s->until_s - s->begun_s, text == NULL ? "" : text);
}

static stretch stretch_of(const nest_search *s, worker *workers, int k, double start_s)
{
    const double n = MEETINGS, e = EXPLORE_MEETINGS;
    return (stretch){.search = s,
                     .workers = workers,
                     .press = k >= EXPLORE_MEETINGS,
                     .from_share = (k - e) / (n - e),
                     .to_share = (k + 1 - e) / (n - e),
                     .from_s = start_s + (s->until_s - start_s) * k / n,
                     .to_s = start_s + (s->until_s - start_s) * (k + 1) / n,
                     .from_round = s->rounds * (uint64_t)k / MEETINGS,
                     .to_round = s->rounds * (uint64_t)(k + 1) / MEETINGS};
}

sw_status nest_search_run(nest_search *s)
{
    worker *workers = SW_SCRATCH(s->run, s->workers, worker);
    if (workers == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->workers; i++) SW_TRY(make_worker(s, i, &workers[i]));
    double start_s = sw_seconds();
    for (int k = 0; k < MEETINGS && !sw_run_cancelled(s->run); k++) {
        stretch st = stretch_of(s, workers, k, start_s);
        if (k == EXPLORE_MEETINGS) meet(s, workers, true);
        sw_parallel_for((int)s->workers, s->workers, work, &st);
        meet(s, workers, st.press);
        tell(s);
    }
    for (size_t i = 0; i < s->workers; i++) {
        s->looks += workers[i].crowd->looks;
        s->round += workers[i].round;
    }
    return SW_OK;
}
