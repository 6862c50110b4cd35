/* nest_improve.c: anytime improvement: the order of the kinds, their turns, the lean of the score and the share of
 * each kind a sheet takes, and whether tall pieces go in rows, are changed at random; a change that makes the answer no worse is kept. Iterated local
 * search over orders for a constructive rule, as in Gomes & Oliveira, EJOR 141 (2002), from memory. */
#include "making/nest/nest_pack_parts.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double hunt_share =
    0.6; /* of the time goes to other orders, the rest to moving pieces between sheets. Ours */

static const double cuts_share = 0.15; /* of the time at most goes to plans of the large kinds as rectangles. Ours */

enum { STALL_MOST = 3000, RESCUES = 12 };

/* ---- the first way: large before small, quick turns only ---------------------------------------- */

static bool quick_turn_fits(const nest_core *core, size_t kind)
{
    const nest_kind *k = &core->kinds[kind];
    for (size_t s = 0; s < core->in->stock_count; s++) {
        sw_box u = core->sheets[s].usable;
        for (size_t i = 0; i < k->quick; i++) {
            const nest_turned *t = &core->turned[k->first + i];
            if (t->width_mm <= u.x1_mm - u.x0_mm + NEST_TOUCH_MM && t->height_mm <= u.y1_mm - u.y0_mm + NEST_TOUCH_MM)
                return true;
        }
    }
    return false;
}

static uint64_t quick_turns(const nest_core *core, size_t kind)
{
    size_t quick = core->kinds[kind].quick;
    return quick >= 64 || !quick_turn_fits(core, kind) ? UINT64_MAX : ((uint64_t)1 << quick) - 1;
}

/* Sum of the box's sides: of six orders tried on fifteen invented batches it cost least. Ours. */
static bool goes_before(const nest_core *core, size_t a, size_t b)
{
    const nest_kind *p = &core->kinds[a], *q = &core->kinds[b];
    double pa = p->least_mm + p->most_mm, qa = q->least_mm + q->most_mm;
    return pa > qa || (pa >= qa && a < b);
}

static sw_status way_make(nest_core *core, nest_way *way)
{
    size_t n = core->in->shape_count;
    way->order = SW_SCRATCH(core->run, n, size_t);
    way->lean = SW_SCRATCH(core->run, n, double);
    way->turns = SW_SCRATCH(core->run, n, uint64_t);
    return way->order && way->lean && way->turns ? SW_OK : SW_NO_MEMORY;
}

sw_status nest_way_first(nest_core *core, nest_way *way)
{
    SW_TRY(way_make(core, way));
    for (size_t i = 0; i < core->in->shape_count; i++) {
        size_t at = i;
        for (; at > 0 && goes_before(core, i, way->order[at - 1]); at--) way->order[at] = way->order[at - 1];
        way->order[at] = i;
        way->lean[i] = 1;
        way->turns[i] = quick_turns(core, i);
    }
    way->share = 0;
    way->only = SIZE_MAX;
    way->settles = true;
    way->rows = NEST_BETTER_OF_BOTH;
    return SW_OK;
}

/* ---- changes ------------------------------------------------------------------------------------ */

static void copy_way(const nest_core *core, const nest_way *from, nest_way *to)
{
    size_t n = core->in->shape_count;
    memcpy(to->order, from->order, n * sizeof *to->order);
    memcpy(to->lean, from->lean, n * sizeof *to->lean);
    memcpy(to->turns, from->turns, n * sizeof *to->turns);
    to->share = from->share;
    to->only = from->only;
    to->settles = from->settles;
    to->rows = from->rows;
}

static void move_kind(const nest_core *core, nest_way *way, sw_random *random)
{
    size_t n = core->in->shape_count, from = sw_random_below(random, n), to = sw_random_below(random, n);
    size_t kind = way->order[from];
    for (; from < to; from++) way->order[from] = way->order[from + 1];
    for (; from > to; from--) way->order[from] = way->order[from - 1];
    way->order[to] = kind;
}

static void swap_near(const nest_core *core, nest_way *way, sw_random *random)
{
    size_t n = core->in->shape_count;
    if (n < 2) return;
    size_t i = sw_random_below(random, n - 1), kind = way->order[i];
    way->order[i] = way->order[i + 1];
    way->order[i + 1] = kind;
}

static void change_turns(const nest_core *core, nest_way *way, sw_random *random)
{
    size_t kind = sw_random_below(random, core->in->shape_count), turns = core->kinds[kind].count;
    uint64_t quick = quick_turns(core, kind), any = sw_random_next(random) & sw_random_next(random);
    size_t what = sw_random_below(random, 3);
    if (what == 0) way->turns[kind] = quick;
    if (what == 1) way->turns[kind] = quick | (any & sw_random_next(random));
    if (what == 2 && turns > 0) way->turns[kind] = (uint64_t)1 << sw_random_below(random, turns > 64 ? 64 : turns);
}

static void change_share(const nest_core *core, nest_way *way, sw_random *random)
{
    double area = 0, sheet = 0;
    for (size_t i = 0; i < core->in->shape_count; i++)
        area += (double)core->in->shapes[i].count * core->kinds[i].area_mm2;
    for (size_t i = 0; i < core->in->stock_count; i++) sheet = fmax(sheet, core->sheets[i].area_mm2);
    bool limit = sw_random_below(random, 3) > 0;
    way->share = limit ? sheet / fmax(area, sheet) * sw_random_between(random, 0.4, 1.6) : 0;
}

/* One full sheet size alone, or any. */
static void change_only(const nest_core *core, nest_way *way, sw_random *random)
{
    size_t i = sw_random_below(random, core->in->stock_count);
    way->only = core->in->stock[i]->remnant || sw_random_below(random, 3) == 0 ? SIZE_MAX : i;
    way->settles = sw_random_below(random, 2) == 0;
}

static void change_lean(const nest_core *core, nest_way *way, sw_random *random)
{
    way->lean[sw_random_below(random, core->in->shape_count)] = sw_random_between(random, 0, 1.3);
}

static void change_rows(const nest_core *core, nest_way *way, sw_random *random)
{
    (void)core;
    way->rows = (nest_rows)sw_random_below(random, NEST_BETTER_OF_BOTH + 1);
}

static void change(const nest_core *core, nest_way *way, sw_random *random)
{
    static void (*const changes[])(const nest_core *, nest_way *,
                                   sw_random *) = {move_kind,    move_kind,    swap_near,   swap_near,   change_turns,
                                                   change_turns, change_share, change_only, change_lean, change_rows};
    size_t count = 1 + sw_random_below(random, 3);
    for (size_t i = 0; i < count; i++)
        changes[sw_random_below(random, sizeof changes / sizeof *changes)](core, way, random);
}

/* ---- the loop ------------------------------------------------------------------------------------ */

static double plan_density(const nest_core *core, const nest_plan *plan)
{
    double pieces = 0, sheets = 0;
    for (size_t i = 0; i < plan->layout_count; i++) {
        pieces += (double)plan->layouts[i].repeat * plan->layouts[i].area_mm2;
        sheets += (double)plan->layouts[i].repeat * core->sheets[plan->layouts[i].stock].area_mm2;
    }
    return sheets > 0 ? pieces / sheets : 0;
}

static void tell(const nest_core *core, const nest_plan *best, double begun_s)
{
    char note[96];
    double pieces = 0;
    for (size_t i = 0; i < core->in->shape_count; i++)
        pieces += (double)core->in->shapes[i].count * core->kinds[i].area_mm2;
    (void)snprintf(note, sizeof note, "%.1f %% of the sheets used, at most %.1f %% can be",
                   100 * plan_density(core, best), 100 * pieces / nest_bound_area(core));
    sw_run_progress(core->run, core->in->name, sw_seconds() - begun_s, core->opt->budget_s, note);
}

typedef struct hunt {
    nest_way kept, trial;
    nest_plan kept_plan, trial_plan;
    sw_random random;
    bool *kept_layouts; /* [room] of kept_plan */
    size_t room, stall;
} hunt;

static sw_status hunt_make(nest_core *core, const nest_way *first, const nest_plan *best, hunt *h)
{
    *h = (hunt){.random = sw_random_seeded(core->opt->seed)};
    SW_TRY(way_make(core, &h->kept));
    SW_TRY(way_make(core, &h->trial));
    copy_way(core, first, &h->kept);
    return nest_plan_copy(core->run, best, &h->kept_plan);
}

/* Marks the layouts of the kept plan that stay: none in every fourth try, else most of the dense and fewer of the
 * sparse ones, so that the rest is filled anew. */
static sw_status mark_kept(nest_core *core, hunt *h, nest_keep *keep)
{
    const nest_plan *plan = &h->kept_plan;
    *keep = (nest_keep){NULL, NULL};
    if (plan->layout_count < 3 || sw_random_below(&h->random, 4) == 0) return SW_OK;
    if (h->room < plan->layout_count) {
        h->room = 2 * plan->layout_count;
        h->kept_layouts = SW_SCRATCH(core->run, h->room, bool);
        if (h->kept_layouts == NULL) return SW_NO_MEMORY;
    }
    double share = sw_random_between(&h->random, 0.2, 0.9), densest = 0;
    for (size_t i = 0; i < plan->layout_count; i++)
        densest = fmax(densest, plan->layouts[i].area_mm2 / core->sheets[plan->layouts[i].stock].area_mm2);
    for (size_t i = 0; i < plan->layout_count; i++) {
        double density = plan->layouts[i].area_mm2 / core->sheets[plan->layouts[i].stock].area_mm2 / densest;
        h->kept_layouts[i] = sw_random_unit(&h->random) < share * density * density;
    }
    *keep = (nest_keep){plan, h->kept_layouts};
    return SW_OK;
}

/* One changed way tried; better answers go to `best`. */
static sw_status hunt_once(nest_core *core, nest_bench *bench, hunt *h, nest_plan *best, bool *improved)
{
    copy_way(core, &h->kept, &h->trial);
    change(core, &h->trial, &h->random);
    nest_keep keep;
    SW_TRY(mark_kept(core, h, &keep));
    SW_TRY(nest_plan_make(core, bench, &h->trial, keep, &h->trial_plan));
    *improved = nest_plan_better(&h->trial_plan, best);
    h->stall = *improved ? 0 : h->stall + 1;
    if (*improved) SW_TRY(nest_plan_copy(core->run, &h->trial_plan, best));
    if (nest_plan_better(&h->kept_plan, &h->trial_plan)) return SW_OK;
    nest_plan swap = h->kept_plan;
    h->kept_plan = h->trial_plan;
    h->trial_plan = swap;
    copy_way(core, &h->trial, &h->kept);
    return SW_OK;
}

/* When the first way ran out of stock, a few others are tried whatever the budget. */
static sw_status rescue(nest_core *core, nest_bench *bench, hunt *h, nest_plan *best)
{
    bool improved = false;
    for (int i = 0; i < RESCUES && best->left_over > 0; i++) SW_TRY(hunt_once(core, bench, h, best, &improved));
    return SW_OK;
}

static sw_status hunt_on(nest_core *core, nest_bench *bench, hunt *h, nest_plan *best, bool *stopped)
{
    double begun_s = core->stop_at_s - core->opt->budget_s, told_s = begun_s;
    tell(core, best, begun_s);
    while (h->stall < STALL_MOST) {
        bool improved = false;
        *stopped = nest_time_is_up(core);
        sw_status status = *stopped ? SW_CANCELLED : hunt_once(core, bench, h, best, &improved);
        if (status == SW_CANCELLED) *stopped = true;
        if (status != SW_OK) return status == SW_CANCELLED ? SW_OK : status;
        if (!improved && sw_seconds() - told_s < 0.2) continue;
        told_s = sw_seconds();
        tell(core, best, begun_s);
    }
    return SW_OK;
}

sw_status nest_hunt(nest_core *core, nest_bench *bench, const nest_way *first, nest_plan *best, bool *stopped)
{
    hunt h;
    SW_TRY(hunt_make(core, first, best, &h));
    return hunt_on(core, bench, &h, best, stopped);
}

/* Whether no choice of sheets can be cheaper: then only remnants can be gained. */
static bool sheets_are_least(const nest_core *core, const nest_plan *plan)
{
    double price = 0;
    for (size_t i = 0; i < plan->layout_count; i++)
        price += (double)plan->layouts[i].repeat * core->sheets[plan->layouts[i].stock].price;
    return plan->left_over == 0 && price <= nest_bound_price(core) * (1 + 1e-9);
}

/* Other orders; needless where the bound is met. */
static sw_status hunt_for(nest_core *core, nest_bench *bench, hunt *h, nest_plan *best, bool *stopped)
{
    if (sheets_are_least(core, best)) return SW_OK;
    return core->run->threads > 1 ? nest_hunt_on_cores(core, best, stopped) : hunt_on(core, bench, h, best, stopped);
}

/* The large kinds as rectangles first; needless where the bound is met. */
static sw_status plan_cuts(nest_core *core, nest_bench *bench, const nest_way *first, nest_plan *best, double begun_s)
{
    if (sheets_are_least(core, best)) return SW_OK;
    core->stop_at_s = begun_s + cuts_share * core->opt->budget_s;
    return nest_cuts_improve(core, bench, first, best);
}

sw_status nest_improve(nest_core *core, nest_bench *bench, nest_way *first, nest_plan *best, bool *stopped)
{
    hunt h;
    *stopped = false;
    SW_TRY(hunt_make(core, first, best, &h));
    SW_TRY(rescue(core, bench, &h, best));
    if (core->opt->budget_s <= 0) return SW_OK;
    double begun_s = sw_seconds();
    SW_TRY(plan_cuts(core, bench, first, best, begun_s));
    core->stop_at_s = begun_s + hunt_share * core->opt->budget_s;
    SW_TRY(hunt_for(core, bench, &h, best, stopped));
    core->stop_at_s = begun_s + core->opt->budget_s;
    return best->left_over > 0 || sw_run_cancelled(core->run) ? SW_OK : nest_pack_improve(core, best, stopped);
}
