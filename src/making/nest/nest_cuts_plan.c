/* nest_cuts_plan.c: the large kinds planned as rectangles for all sheets at once, so that their mix on each sheet is one that the
 * whole batch can afford; then every sheet is filled up with what is left.
 *
 * Patterns: the one worth most at the kinds' worths, sheet after sheet, while what it covers loses worth (covering by
 * multiplicative weights: Plotkin, Shmoys & Tardos, Math. Oper. Res. 20, 1995, from memory). Choice: as many of them as
 * cover the large kinds for the least price, by local search; what they hold too much is left out, what they lack comes
 * last. */
#include "making/nest/nest_cuts_parts.h"

#include <math.h>
#include <string.h>

enum { ROUNDS = 250, VAIN_MOST = 400, CHOSEN_MOST = 512, KICKS = 60 };

static const double fade = 0.4;       /* of the worth of a kind that one sheet covers wholly. Ours */
static const double pool_share = 0.5; /* of the time goes to patterns at most. Ours */
static const double stir = 0.1;       /* worths vary by as much from pattern to pattern. Ours */
static const double steps_most = 4e6; /* of a choice: some 20 ms. Ours */

typedef struct chooser {
    nest_cuts *cuts;
    sw_random *random;
    double lacking[NEST_CUT_KINDS]; /* of each kind: not covered by the chosen; below 0 = too much */
    double claim_mm2[NEST_CUT_KINDS];
    double rest_mm2;              /* claims of all other kinds that need room of their own */
    double spare_mm2;             /* room of the chosen not claimed */
    double per_mm2;               /* price of what is lacking */
    double usable;                /* share of the spare room that others can use */
    size_t *taken;                /* [stock_count] */
    uint32_t chosen[CHOSEN_MOST]; /* patterns; NONE = an empty seat */
    size_t seats;
    double price, steps;
} chooser;

#define NONE UINT32_MAX

/* ---- the pool -------------------------------------------------------------------------------------- */

static bool is_known(const nest_cuts *cuts, const nest_pattern *p)
{
    for (size_t i = 0; i < cuts->pool_count; i++)
        if (cuts->pool[i].stock == p->stock && memcmp(cuts->pool[i].count, p->count, sizeof p->count) == 0) return true;
    return false;
}

static sw_status add_pattern(nest_cuts *cuts, nest_board *board, const double *worth, nest_pattern *made)
{
    size_t mark = sw_arena_mark(cuts->core->run->scratch);
    sw_status status = nest_cuts_best(cuts, board, worth, made);
    if (status != SW_OK || made->spot_count == 0 || is_known(cuts, made) || cuts->pool_count == NEST_CUT_POOL)
        sw_arena_rewind(cuts->core->run->scratch, mark);
    else
        cuts->pool[cuts->pool_count++] = *made;
    return status;
}

static double worth_of(const nest_cuts *cuts, const nest_pattern *p, const double *worth)
{
    double sum = 0;
    for (size_t k = 0; k < cuts->kind_count; k++) sum += (double)p->count[k] * worth[k];
    return sum / cuts->core->sheets[p->stock].price;
}

/* One pattern of every board; what the best of them covers loses worth. */
static sw_status add_round(nest_cuts *cuts, sw_random *random, double *worth)
{
    double stirred[NEST_CUT_KINDS], most = 0;
    nest_pattern best = {.spot_count = 0};
    for (size_t k = 0; k < cuts->kind_count; k++) stirred[k] = worth[k] * sw_random_between(random, 1 - stir, 1 + stir);
    for (size_t b = 0; b < cuts->board_count; b++) {
        nest_pattern made;
        SW_TRY(add_pattern(cuts, &cuts->boards[b], stirred, &made));
        double value = worth_of(cuts, &made, stirred);
        if (value <= most) continue;
        most = value;
        best = made;
    }
    for (size_t k = 0; k < cuts->kind_count; k++) {
        double share = (double)best.count[k] / (double)cuts->core->in->shapes[cuts->kinds[k]].count;
        worth[k] *= exp(-fade * fmin(share, 1));
    }
    return SW_OK;
}

static sw_status make_pool(nest_cuts *cuts, sw_random *random)
{
    double worth[NEST_CUT_KINDS];
    for (size_t k = 0; k < cuts->kind_count; k++) worth[k] = cuts->box_mm2[k];
    double begun_s = sw_seconds(), until_s = begun_s + pool_share * (cuts->core->stop_at_s - begun_s);
    for (int r = 0; r < ROUNDS && cuts->pool_count < NEST_CUT_POOL && sw_seconds() < until_s; r++)
        SW_TRY(add_round(cuts, random, worth));
    return SW_OK;
}

/* ---- the choice ------------------------------------------------------------------------------------ */

static void count_pattern(chooser *c, uint32_t pattern, int sign)
{
    if (pattern == NONE) return;
    const nest_pattern *p = &c->cuts->pool[pattern];
    const nest_sheet *sheet = &c->cuts->core->sheets[p->stock];
    for (size_t k = 0; k < c->cuts->kind_count; k++) c->lacking[k] -= sign * (double)p->count[k];
    c->spare_mm2 += sign * (sheet->room_mm2 - p->box_mm2);
    c->price += sign * sheet->price;
    if (sign > 0)
        c->taken[p->stock]++;
    else
        c->taken[p->stock]--;
}

/* What the chosen cost, and what is lacking would. */
static double cost_of(const chooser *c)
{
    double lacking_mm2 = 0, spare_mm2 = c->spare_mm2;
    for (size_t k = 0; k < c->cuts->kind_count; k++) {
        if (c->lacking[k] > 0) lacking_mm2 += c->lacking[k] * c->cuts->box_mm2[k];
        if (c->lacking[k] < 0) spare_mm2 -= c->lacking[k] * c->cuts->box_mm2[k];
    }
    lacking_mm2 += fmax(c->rest_mm2 - c->usable * spare_mm2, 0);
    return c->price + c->per_mm2 * lacking_mm2;
}

static bool is_to_be_had(const chooser *c, uint32_t pattern)
{
    if (pattern == NONE) return true;
    size_t stock = c->cuts->pool[pattern].stock, most = c->cuts->core->in->stock[stock]->count;
    return most == 0 || c->taken[stock] < most;
}

/* The best pattern, or none, for one seat. */
static bool reseat(chooser *c, size_t seat)
{
    uint32_t was = c->chosen[seat], best = was;
    double least = cost_of(c) * (1 - 1e-9);
    count_pattern(c, was, -1);
    for (uint32_t p = 0; p <= c->cuts->pool_count; p++) {
        uint32_t tried = p < c->cuts->pool_count ? p : NONE;
        if (tried == was || !is_to_be_had(c, tried)) continue;
        count_pattern(c, tried, 1);
        double cost = cost_of(c);
        count_pattern(c, tried, -1);
        if (cost >= least) continue;
        least = cost;
        best = tried;
    }
    count_pattern(c, best, 1);
    c->chosen[seat] = best;
    c->steps += (double)(c->cuts->pool_count * c->cuts->kind_count);
    return best != was;
}

static void descend(chooser *c)
{
    size_t same = 0;
    for (size_t seat = 0; same < c->seats && c->steps < steps_most; seat = (seat + 1) % c->seats)
        same = reseat(c, seat) ? 0 : same + 1;
}

static void copy_choice(const chooser *from, chooser *to, size_t *taken, size_t stocks)
{
    memcpy(taken, from->taken, stocks * sizeof *taken);
    *to = *from;
    to->taken = taken;
}

/* From empty seats downhill, then with two seats emptied at random again and again. */
static sw_status choose(chooser *c)
{
    size_t stocks = c->cuts->core->in->stock_count;
    chooser *kept = SW_SCRATCH(c->cuts->core->run, 1, chooser);
    size_t *taken = SW_SCRATCH(c->cuts->core->run, stocks, size_t), *own = c->taken;
    if (kept == NULL || taken == NULL) return SW_NO_MEMORY;
    descend(c);
    copy_choice(c, kept, taken, stocks);
    for (int kick = 0; kick < KICKS && c->steps < steps_most; kick++) {
        for (int i = 0; i < 2; i++) {
            size_t seat = sw_random_below(c->random, c->seats);
            count_pattern(c, c->chosen[seat], -1);
            c->chosen[seat] = NONE;
        }
        descend(c);
        double steps = c->steps;
        if (cost_of(c) <= cost_of(kept))
            copy_choice(c, kept, taken, stocks);
        else
            copy_choice(kept, c, own, stocks);
        c->steps = steps;
    }
    copy_choice(kept, c, own, stocks);
    return SW_OK;
}

/* ---- one try --------------------------------------------------------------------------------------- */

static void start_choice(chooser *c)
{
    const nest_core *core = c->cuts->core;
    double price = INFINITY, boxes_mm2 = 0, room_mm2 = INFINITY;
    for (size_t b = 0; b < c->cuts->board_count; b++) {
        const nest_sheet *sheet = &core->sheets[c->cuts->boards[b].stock];
        price = fmin(price, sheet->price / sheet->room_mm2);
        room_mm2 = fmin(room_mm2, sheet->room_mm2);
    }
    for (size_t k = 0; k < c->cuts->kind_count; k++) {
        c->lacking[k] = (double)core->in->shapes[c->cuts->kinds[k]].count;
        boxes_mm2 += c->lacking[k] * c->cuts->box_mm2[k];
    }
    c->rest_mm2 = c->cuts->rest_mm2;
    c->per_mm2 = price * sw_random_between(c->random, 0.9, 1.6);
    c->usable = sw_random_between(c->random, 0.3, 1);
    c->seats = (size_t)fmin((boxes_mm2 + c->rest_mm2) / room_mm2 * 1.3 + 2, CHOSEN_MOST);
    for (size_t i = 0; i < c->seats; i++) c->chosen[i] = NONE;
}

/* The chosen patterns, each with how often, the fullest first; the caller's array has a place for every seat. */
static size_t list_begun(const chooser *c, nest_begun *begun, double *share)
{
    size_t n = 0;
    for (uint32_t p = 0; p < c->cuts->pool_count; p++) {
        const nest_pattern *pattern = &c->cuts->pool[p];
        size_t times = 0, at = n;
        for (size_t i = 0; i < c->seats; i++) times += c->chosen[i] == p;
        if (times == 0) continue;
        double full = pattern->box_mm2 / c->cuts->core->sheets[pattern->stock].room_mm2;
        for (; at > 0 && share[at - 1] < full; at--) begun[at] = begun[at - 1], share[at] = share[at - 1];
        begun[at] = (nest_begun){pattern->stock, pattern->spots, pattern->spot_count, times};
        share[at] = full;
        n++;
    }
    return n;
}

static sw_status try_choice(nest_cuts *cuts, nest_bench *bench, const nest_way *way, sw_random *random, nest_plan *plan)
{
    sw_run *run = cuts->core->run;
    chooser *c = SW_SCRATCH(run, 1, chooser);
    if (c == NULL) return SW_NO_MEMORY;
    *c = (chooser){.cuts = cuts, .random = random};
    c->taken = SW_SCRATCH(run, cuts->core->in->stock_count, size_t);
    if (c->taken == NULL) return SW_NO_MEMORY;
    start_choice(c);
    SW_TRY(choose(c));
    nest_begun *begun = SW_SCRATCH(run, c->seats, nest_begun);
    double *full = SW_SCRATCH(run, c->seats, double);
    if (begun == NULL || full == NULL) return SW_NO_MEMORY;
    size_t count = list_begun(c, begun, full);
    return nest_plan_round(cuts->core, bench, way, begun, count, plan);
}

/* Plans grow in the same scratch, so what a try took is not given back; a chooser is small. */
static sw_status hunt(nest_cuts *cuts, nest_bench *bench, const nest_way *way, sw_random *random, nest_plan *best)
{
    nest_plan plan = {.spot_count = 0};
    SW_TRY(make_pool(cuts, random));
    for (int vain = 0; vain < VAIN_MOST && cuts->pool_count > 0; vain++) {
        if (nest_time_is_up(cuts->core)) return SW_CANCELLED;
        SW_TRY(try_choice(cuts, bench, way, random, &plan));
        if (!nest_plan_better(&plan, best)) continue;
        SW_TRY(nest_plan_copy(cuts->core->run, &plan, best));
        vain = 0;
    }
    return SW_OK;
}

sw_status nest_cuts_improve(nest_core *core, nest_bench *bench, const nest_way *first, nest_plan *best)
{
    nest_cuts *cuts = SW_SCRATCH(core->run, 1, nest_cuts);
    sw_random random = sw_random_seeded(core->opt->seed);
    if (cuts == NULL) return SW_NO_MEMORY;
    SW_TRY(nest_cuts_make(core, cuts));
    if (cuts->kind_count == 0) return SW_OK;
    sw_status status = hunt(cuts, bench, first, &random, best);
    return status == SW_CANCELLED ? SW_OK : status;
}
