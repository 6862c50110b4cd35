/* nest_pack_aim.c: which sheets to do without. An aim takes one or two sheets away and gives none, one or two cheaper
 * ones; their pieces must find a place. Aims that leave most room come first, and those tried in vain less often. */
#include "making/nest/nest_pack_parts.h"

#include <string.h>

enum { PAIRED = 6, TRIES_MOST = 12 };

static const double fullest = 0.975; /* claims' share of the room that is worth a try. Ours */
static const double worth = 0.8;     /* of the share of the price saved against that of the room taken. Ours */
static const double per_try = 0.02, per_rank = 0.004, jitter = 0.015; /* added to that share. Ours */
static const double least_s = 0.4, budget_share = 0.25; /* time of an aim, more after each vain try. Ours */

typedef struct aim {
    uint32_t gone[2], come[2];
    size_t gone_count, come_count, key;
    double score;
} aim;

typedef struct aims { /* while the best is looked for */
    nest_packer *w;
    double claim_mm2, room_mm2, price; /* of all sheets there are */
    size_t *left;                      /* [stock_count] sheets to be had, SIZE_MAX = endless */
    uint32_t *order;                   /* [sheet_count] emptiest first */
    aim best;
} aims;

static double room_of(const nest_packer *w, uint32_t stock)
{
    return w->pack->core->sheets[stock].room_mm2;
}

static double price_of(const nest_packer *w, uint32_t stock)
{
    return w->pack->core->sheets[stock].price;
}

static size_t key_of(const nest_packer *w, const aim *a)
{
    size_t base = w->pack->core->in->stock_count + 1, key = 0;
    for (size_t i = 0; i < 2; i++) key = key * base + (i < a->gone_count ? w->now.stock[a->gone[i]] + 1 : 0);
    for (size_t i = 0; i < 2; i++) key = key * base + (i < a->come_count ? a->come[i] + 1 : 0);
    return key % NEST_AIMS;
}

/* Emptiness counts by the area that would have to find a place. */
static void consider(aims *all, aim a, size_t rank)
{
    nest_packer *w = all->w;
    double price = 0, room_mm2 = all->room_mm2;
    for (size_t i = 0; i < a.gone_count; i++) {
        price += price_of(w, w->now.stock[a.gone[i]]);
        room_mm2 -= room_of(w, w->now.stock[a.gone[i]]);
    }
    for (size_t i = 0; i < a.come_count; i++) {
        price -= price_of(w, a.come[i]);
        room_mm2 += room_of(w, a.come[i]);
    }
    if (price <= 0 || room_mm2 <= 0 || all->claim_mm2 > fullest * room_mm2) return;
    a.key = key_of(w, &a);
    int tries = w->pack->tries[a.key];
    if (tries >= TRIES_MOST) return;
    a.score = all->claim_mm2 / room_mm2 - worth * price / all->price + per_try * tries + per_rank * (double)rank +
              jitter * sw_random_unit(&w->random);
    if (a.score < all->best.score) all->best = a;
}

static bool to_be_had(const aims *all, const aim *a, uint32_t stock)
{
    size_t taken = 0;
    for (size_t i = 0; i < a->come_count; i++) taken += a->come[i] == stock;
    return all->left[stock] > taken && room_of(all->w, stock) > 0;
}

/* The sheets gone, with every choice of up to two others. */
static void consider_gone(aims *all, aim a, size_t rank)
{
    const uint32_t stocks = (uint32_t)all->w->pack->core->in->stock_count;
    a.come_count = 0;
    consider(all, a, rank);
    for (uint32_t s = 0; s < stocks; s++) {
        a.come_count = 0;
        if (!to_be_had(all, &a, s)) continue;
        a.come[a.come_count++] = s;
        consider(all, a, rank);
        for (uint32_t t = s; t < stocks; t++) {
            a.come_count = 1;
            if (!to_be_had(all, &a, t)) continue;
            a.come[a.come_count++] = t;
            consider(all, a, rank);
        }
    }
}

static double emptiness(const nest_packer *w, uint32_t sheet)
{
    return w->now.claim_mm2[sheet] / room_of(w, w->now.stock[sheet]);
}

static void sort_by_emptiness(aims *all)
{
    const nest_packer *w = all->w;
    for (uint32_t i = 0; i < w->now.sheet_count; i++) {
        size_t k = i;
        for (; k > 0 && emptiness(w, all->order[k - 1]) > emptiness(w, i); k--) all->order[k] = all->order[k - 1];
        all->order[k] = i;
    }
}

static void count_left(aims *all)
{
    const nest_packer *w = all->w;
    const sw_nest_input *in = w->pack->core->in;
    for (size_t i = 0; i < in->stock_count; i++)
        all->left[i] = in->stock[i]->count == 0 && !in->stock[i]->remnant ? SIZE_MAX : in->stock[i]->count;
    for (size_t s = 0; s < w->now.sheet_count; s++) {
        all->claim_mm2 += w->now.claim_mm2[s];
        all->room_mm2 += room_of(w, w->now.stock[s]);
        all->price += price_of(w, w->now.stock[s]);
        if (all->left[w->now.stock[s]] != SIZE_MAX) all->left[w->now.stock[s]]--;
    }
}

static sw_status choose(nest_packer *w, aim *chosen)
{
    aims all = {.w = w, .best = {.score = INFINITY}};
    size_t sheets = w->now.sheet_count;
    all.left = SW_SCRATCH(&w->run, w->pack->core->in->stock_count, size_t);
    all.order = SW_SCRATCH(&w->run, sheets, uint32_t);
    if (all.left == NULL || all.order == NULL) return SW_NO_MEMORY;
    count_left(&all);
    sort_by_emptiness(&all);
    for (size_t i = 0; i < sheets; i++) consider_gone(&all, (aim){.gone = {all.order[i]}, .gone_count = 1}, i);
    for (size_t i = 0; i < sheets && i < PAIRED; i++)
        for (size_t j = 0; j < i; j++)
            consider_gone(&all, (aim){.gone = {all.order[i], all.order[j]}, .gone_count = 2}, i + j);
    *chosen = all.best;
    return SW_OK;
}

static bool choose_aim(nest_packer *w, aim *chosen)
{
    size_t mark = sw_arena_mark(w->run.scratch);
    sw_status status = choose(w, chosen);
    sw_arena_rewind(w->run.scratch, mark);
    if (status != SW_OK) w->status = status;
    return status == SW_OK && isfinite(chosen->score);
}

static bool add_sheet(nest_packer *w, uint32_t stock)
{
    nest_packing *p = &w->now;
    if (p->sheet_count == w->pack->sheet_room) return false;
    p->stock[p->sheet_count] = stock;
    p->claim_mm2[p->sheet_count] = 0;
    p->area_mm2[p->sheet_count++] = 0;
    return true;
}

/* false = not everything could be moved; what could be is worth keeping where no sheet was added. */
static bool pursue(nest_packer *w, const aim *a)
{
    for (size_t i = 0; i < a->come_count; i++)
        if (!add_sheet(w, a->come[i])) return false;
    for (size_t i = 0; i < a->gone_count; i++)
        if (!nest_pack_empty(w, a->gone[i])) return false;
    return true;
}

static int tried(nest_pack *pack, size_t key, int more)
{
    omp_set_lock(&pack->lock);
    int tries = pack->tries[key];
    pack->tries[key] += more;
    omp_unset_lock(&pack->lock);
    return tries;
}

bool nest_pack_aim(nest_packer *w, bool *won)
{
    nest_pack *pack = w->pack;
    aim a;
    *won = false;
    nest_pack_start(w, sw_random_below(&w->random, 2) == 0 ? &pack->answer : &pack->best);
    if (!choose_aim(w, &a)) return false;
    double begun_s = sw_seconds(), budget_s = pack->until_s - pack->begun_s;
    double aim_s = fmax(least_s, budget_share * budget_s) * (1 + 0.5 * tried(pack, a.key, 1));
    w->until_s = fmin(begun_s + aim_s, pack->until_s);
    bool settled = pursue(w, &a);
    *won = (settled || a.come_count == 0) && nest_pack_commit(w);
    if (*won) memset(pack->tries, 0, NEST_AIMS * sizeof *pack->tries);
    if (settled && !*won) (void)tried(pack, a.key, TRIES_MOST); /* it can be done, but costs more */
    return true;
}
