/* nest_strip.c: the shortest strip of a given width. Starts from the constructive fill, then shortens the strip a little
 * and pulls the pieces apart in it, again and again; every worker tries from a start of its own. */
#include "making/nest/nest_separate_parts.h"

#include <math.h>

static const sw_option table_rows[] = {
    SW_OPTION(sw_strip_options, budget_s, "s", 10.0, 0.0, 86400.0, "wall time", "ours"),
    SW_OPTION(sw_strip_options, rounds, "", 0.0, 0.0, 1e9, "rounds of the search instead of a time; 0 = by time",
              "ours"),
};
enum { TABLE_ROWS = sizeof table_rows / sizeof *table_rows, POOL = 48, GRID_CELLS = 40 };

static const double shorten_most = 0.02, shorten_least = 0.0005, press_first = 8e-4,
                    press_last = 2e-5;   /* shares of the length. Ours */
static const double explore_share = 0.8; /* of the time; the rest presses the best layout. Ours */

typedef struct worker {
    sw_run run;
    nest_crowd *crowd;
    nest_state best;
    double overlap_mm;
    bool legal;
} worker;

typedef struct pooled {
    nest_state state;
    double overlap_mm;
} pooled; /* not legal, but near it */

typedef struct strip {
    sw_run *run;
    const sw_strip_input *in;
    const sw_strip_options *opt;
    nest_core core;
    sw_nest_input nest_in; /* the same shapes as a nest on one long sheet */
    sw_nest_options nest_opt;
    sw_stock stock;
    const sw_stock *stocks[1];
    const nest_table *table;
    uint32_t *kind; /* [count] */
    size_t count;
    worker *workers;
    size_t worker_count;
    nest_state best;
    double best_mm, target_mm, area_mm2;
    pooled pool[POOL];
    size_t pooled;
    uint64_t round;
    int failures; /* rounds since the last success */
    double begun_s, until_s;
    atomic_int won;
    bool fresh;    /* the attempts of this round start from the best layout */
    double cut_mm; /* a pressed round shifts what lies beyond it */
} strip;

const sw_option *sw_strip_option_table(size_t *count)
{
    *count = TABLE_ROWS;
    return table_rows;
}

sw_strip_options sw_strip_options_defaults(void)
{
    sw_strip_options options = {.seed = 1, .threads = 1, .made_by_defaults = SW_DEFAULTS_MARK};
    sw_options_fill(table_rows, TABLE_ROWS, &options);
    return options;
}

/* ---- set-up ------------------------------------------------------------------------------------------- */

static sw_status long_sheet(strip *s)
{
    double length_mm = 0;
    for (size_t i = 0; i < s->in->shape_count; i++) {
        const sw_nest_shape *shape = &s->in->shapes[i];
        sw_box box = sw_contour_box(shape->region.outline);
        length_mm += (double)shape->count * hypot(box.x1_mm - box.x0_mm, box.y1_mm - box.y0_mm);
        s->area_mm2 += (double)shape->count * sw_region_area(&shape->region);
        s->count += shape->count;
    }
    sw_region *region = &s->stock.shape;
    SW_TRY(sw_contour_rectangle(s->run, (sw_box){0, 0, length_mm, s->in->width_mm}, 0, &region->outline));
    s->stock.name = "strip";
    s->stock.length_mm = length_mm;
    s->stock.width_mm = s->in->width_mm;
    s->stock.count = 1;
    s->stocks[0] = &s->stock;
    s->nest_in = (sw_nest_input){.name = s->in->name,
                                 .shapes = s->in->shapes,
                                 .shape_count = s->in->shape_count,
                                 .stock = s->stocks,
                                 .stock_count = 1};
    s->nest_opt = sw_nest_options_defaults();
    s->nest_opt.budget_s = 0;
    s->nest_opt.exactness_mm = 0.01;
    return SW_OK;
}

static uint32_t turned_of(const nest_core *core, const sw_nest_place *place)
{
    const nest_kind *kind = &core->kinds[place->shape];
    size_t best = kind->first;
    double least = INFINITY;
    for (size_t i = kind->first; i < kind->first + kind->count; i++) {
        double d = fabs(remainder(core->turned[i].turn_rad - place->motion.turn_rad, 2 * SW_PI));
        if (core->turned[i].mirror != place->motion.mirror || d >= least) continue;
        least = d;
        best = i;
    }
    return (uint32_t)best;
}

static sw_status first_answer(strip *s)
{
    const sw_nest_result *first = NULL;
    SW_TRY(sw_nest_solve(s->run, &s->nest_in, &s->nest_opt, &first));
    SW_TRY(nest_state_make(s->run, s->count, &s->best));
    s->kind = SW_SCRATCH(s->run, s->count, uint32_t);
    if (s->kind == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->count; i++) {
        const sw_nest_place *place = &first->sheets[0].places[i];
        s->kind[i] = (uint32_t)place->shape;
        s->best.turned[i] = turned_of(&s->core, place);
        s->best.x_mm[i] = place->motion.dx_mm;
        s->best.y_mm[i] = place->motion.dy_mm;
    }
    return SW_OK;
}

static sw_status make_core(strip *s)
{
    s->core.run = s->run;
    s->core.in = &s->nest_in;
    s->core.opt = &s->nest_opt;
    s->core.stop_at_s = INFINITY;
    SW_TRY(nest_check(s->run, &s->nest_in, &s->nest_opt));
    SW_TRY(nest_turned_make(&s->core));
    s->core.pairs = SW_SCRATCH(s->run, s->core.turned_count, nest_slot *);
    return s->core.pairs == NULL ? SW_NO_MEMORY : SW_OK;
}

static sw_status make_workers(strip *s)
{
    s->worker_count = s->opt->threads < 1 ? 1 : (size_t)s->opt->threads;
    s->workers = SW_SCRATCH(s->run, s->worker_count, worker);
    if (s->workers == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->worker_count; i++) {
        worker *w = &s->workers[i];
        SW_TRY(nest_crowd_make(s->run, s->table, s->kind, s->count, s->in->width_mm, &w->crowd));
        SW_TRY(nest_state_make(s->run, s->count, &w->best));
    }
    for (size_t i = 0; i < POOL; i++) SW_TRY(nest_state_make(s->run, s->count, &s->pool[i].state));
    s->best_mm = nest_crowd_reach(s->workers[0].crowd, &s->best);
    return SW_OK;
}

/* ---- one round ------------------------------------------------------------------------------------------ */

/* A start from the pool, the better ones more often, disturbed. */
static void start_from_pool(const strip *s, worker *w)
{
    sw_random *r = &w->crowd->random;
    double u = sw_random_unit(r);
    size_t k = (size_t)(u * u * (double)s->pooled);
    nest_crowd_set(w->crowd, &s->pool[k].state, s->target_mm);
    nest_disturb(w->crowd);
    nest_state_copy(s->count, &w->crowd->now, &w->best);
    nest_crowd_set(w->crowd, &w->best, s->target_mm);
}

/* The best layout, with what lies beyond a random line moved in by what the strip has lost. */
static void start_from_best(const strip *s, worker *w)
{
    nest_crowd *c = w->crowd;
    double line_mm = sw_random_unit(&c->random) * s->best_mm, lost_mm = s->best_mm - s->target_mm;
    nest_state_copy(s->count, &s->best, &w->best);
    for (size_t i = 0; i < s->count; i++)
        if (w->best.x_mm[i] > line_mm) w->best.x_mm[i] -= lost_mm;
    nest_crowd_set(c, &w->best, s->target_mm);
}

typedef struct round_job {
    strip *s;
    nest_patience patience;
} round_job;

static void attempt(void *context, size_t i)
{
    const round_job *job = context;
    strip *s = job->s;
    worker *w = &s->workers[i];
    w->crowd->random = sw_random_seeded(s->opt->seed * 1000003 + s->round * 257 + i);
    if (s->fresh || s->pooled == 0)
        start_from_best(s, w);
    else
        start_from_pool(s, w);
    w->legal = nest_separate(w->crowd, &job->patience, &w->best, &w->overlap_mm);
    if (w->legal && s->opt->rounds == 0) atomic_store(&s->won, 1);
}

static void keep_in_pool(strip *s, const worker *w)
{
    size_t k = s->pooled < POOL ? s->pooled++ : POOL - 1;
    if (k == POOL - 1 && s->pool[k].overlap_mm > 0 && s->pool[k].overlap_mm < w->overlap_mm) return;
    pooled last = s->pool[k];
    for (; k > 0 && s->pool[k - 1].overlap_mm > w->overlap_mm; k--) s->pool[k] = s->pool[k - 1];
    s->pool[k] = last;
    s->pool[k].overlap_mm = w->overlap_mm;
    nest_state_copy(s->count, &w->best, &s->pool[k].state);
}

static bool round_done(strip *s, double shorten, int passes, int starts)
{
    s->target_mm = s->best_mm * (1 - shorten);
    atomic_store(&s->won, 0);
    s->round++;
    round_job job = {s, {passes, starts, s->until_s, s->run, &s->won}};
    sw_parallel_for((int)s->worker_count, s->worker_count, attempt, &job);
    for (size_t i = 0; i < s->worker_count; i++) {
        const worker *w = &s->workers[i];
        if (!w->legal) continue;
        nest_state_copy(s->count, &w->best, &s->best);
        s->best_mm = fmin(s->target_mm, nest_crowd_reach(w->crowd, &s->best));
        return true;
    }
    return false;
}

/* ---- the search ------------------------------------------------------------------------------------------ */

static bool over(const strip *s, uint64_t rounds_share, double until_s)
{
    if (sw_run_cancelled(s->run)) return true;
    return s->opt->rounds > 0 ? s->round >= rounds_share : sw_seconds() >= until_s;
}

static void tell(const strip *s)
{
    const char *text = sw_text_format(s->run, s->run->scratch, "%.2f %% of the strip, length %.1f",
                                      100 * s->area_mm2 / (s->in->width_mm * s->best_mm), s->best_mm);
    sw_run_progress(s->run, s->in->name, sw_seconds() - s->begun_s, s->opt->budget_s, text == NULL ? "" : text);
}

/* Shortens by steps that grow with success and shrink with failure. */
static void explore(strip *s, uint64_t rounds, double until_s)
{
    double shorten = shorten_most;
    while (!over(s, rounds, until_s)) {
        s->fresh = s->failures == 0;
        if (round_done(s, shorten, 100, 3)) {
            shorten = fmin(shorten_most, s->failures == 0 ? shorten * 1.5 : shorten);
            s->failures = 0;
            s->pooled = 0;
        } else {
            for (size_t i = 0; i < s->worker_count; i++) keep_in_pool(s, &s->workers[i]);
            s->failures++;
            if (shorten > shorten_least) {
                shorten = fmax(shorten_least, shorten * 0.4);
                s->failures = 0;
                s->pooled = 0;
            }
        }
        tell(s);
    }
}

/* Presses the best layout together by ever smaller steps. */
static void press(strip *s, uint64_t rounds)
{
    double from_s = sw_seconds();
    uint64_t from_round = s->round;
    s->fresh = true;
    while (!over(s, rounds, s->until_s)) {
        double done = s->opt->rounds > 0 ? (double)(s->round - from_round) / (double)(rounds - from_round)
                                         : (sw_seconds() - from_s) / (s->until_s - from_s);
        (void)round_done(s, press_first * pow(press_last / press_first, done), 100, 2);
        tell(s);
    }
}

static sw_status keep_result(strip *s, const sw_strip_result **result)
{
    sw_strip_result *made = SW_KEEP(s->run, 1, sw_strip_result);
    sw_nest_place *places = SW_KEEP(s->run, s->count, sw_nest_place);
    if (made == NULL || places == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < s->count; i++) {
        const nest_turned *t = &s->core.turned[s->best.turned[i]];
        places[i] = (sw_nest_place){s->kind[i], {t->turn_rad, s->best.x_mm[i], s->best.y_mm[i], t->mirror}};
    }
    for (size_t i = 0; i < s->worker_count; i++) made->looks += s->workers[i].crowd->looks;
    made->places = places;
    made->place_count = s->count;
    made->length_mm = s->best_mm;
    made->density = s->area_mm2 / (s->in->width_mm * s->best_mm);
    made->rounds = s->round;
    made->seconds = sw_seconds() - s->begun_s;
    *result = made;
    return sw_strip_verify(s->run, s->in, made);
}

static sw_status steps(strip *s, const sw_strip_result **result)
{
    SW_TRY(long_sheet(s));
    SW_TRY(make_core(s));
    SW_TRY(first_answer(s));
    SW_TRY(nest_table_make(&s->core, GRID_CELLS, &s->table));
    SW_TRY(make_workers(s));
    uint64_t rounds = (uint64_t)s->opt->rounds;
    explore(s, rounds * 4 / 5, s->begun_s + explore_share * s->opt->budget_s);
    press(s, rounds);
    return keep_result(s, result);
}

sw_status sw_strip_solve(sw_run *run, const sw_strip_input *in, const sw_strip_options *opt,
                         const sw_strip_result **result)
{
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    *result = NULL;
    SW_TRY(sw_options_check(run, table_rows, TABLE_ROWS, opt));
    if (!(in->width_mm > 0))
        return sw_fail(run, SW_OUT_OF_RANGE, (sw_place){0}, "width_mm", "%g is no strip width; more than 0 is wanted",
                       in->width_mm);
    strip s = {.run = run, .in = in, .opt = opt, .begun_s = sw_seconds()};
    s.until_s = opt->rounds > 0 ? (double)INFINITY : s.begun_s + opt->budget_s;
    s.core.pair_arena = sw_arena_open((size_t)1 << 30);
    if (s.core.pair_arena == NULL) return sw_fail(run, SW_NO_MEMORY, (sw_place){0}, "", "no memory to nest with");
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = steps(&s, result);
    sw_arena_rewind(run->scratch, mark);
    sw_arena_close(s.core.pair_arena);
    return status;
}

sw_status sw_strip_verify(sw_run *run, const sw_strip_input *in, const sw_strip_result *result)
{
    sw_stock stock = {.name = "strip", .length_mm = result->length_mm, .width_mm = in->width_mm, .count = 1};
    SW_TRY(sw_contour_rectangle(run, (sw_box){0, 0, result->length_mm, in->width_mm}, 0, &stock.shape.outline));
    const sw_stock *stocks[] = {&stock};
    const sw_nest_input nest_in = {
        .name = in->name, .shapes = in->shapes, .shape_count = in->shape_count, .stock = stocks, .stock_count = 1};
    const sw_nest_sheet sheet = {
        .stock = &stock, .places = result->places, .place_count = result->place_count, .repeat = 1};
    const sw_nest_result nest = {.sheets = &sheet, .sheet_count = 1, .sheets_total = 1};
    return sw_nest_verify(run, &nest_in, &nest);
}
