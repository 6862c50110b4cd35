/* nest_pack_press.c: when no sheet can be saved any more, less and less of the emptiest may be used, so that a
 * rectangle of the largest worth is left at its far end; what lay there goes to wherever there is room. What is
 * pressed is
 * the answer of least cost. */
#include "making/nest/nest_pack_parts.h"

enum { ALONE_PASSES = 60 };

static const double largest_step = 0.06, least_step = 0.001; /* share of the reach taken off at once. Ours */
static const double least_s = 0.3, budget_share = 0.05;      /* time of a try. Ours */

/* Of those from which a remnant is kept: plain sheets. */
static uint32_t emptiest(const nest_packer *w)
{
    uint32_t best = NEST_LOOSE;
    for (uint32_t s = 0; s < w->now.sheet_count; s++) {
        if (w->pack->core->sheets[w->now.stock[s]].block != SIZE_MAX) continue;
        if (best == NEST_LOOSE || w->now.area_mm2[s] < w->now.area_mm2[best]) best = s;
    }
    return best;
}

static bool push_together(nest_packer *w, uint32_t sheet, double length_mm)
{
    size_t n = nest_packing_list(&w->now, sheet, w->list);
    nest_attempt a = {sheet, NEST_LOOSE, w->list, n, length_mm, ALONE_PASSES, false};
    return nest_pack_attempt(w, &a);
}

/* Larger pieces leave for smaller ones, then what is there now is pushed together as far as its area promises. */
static bool unload(nest_packer *w, uint32_t sheet)
{
    double held_mm2 = w->now.claim_mm2[sheet], reach_mm = nest_packing_reach(w->pack, &w->now, sheet);
    nest_pack_swap(w, sheet, sw_seconds() + 0.5 * (w->until_s - sw_seconds()));
    double share = w->now.claim_mm2[sheet] / held_mm2;
    if (share >= 1) return false;
    for (int back = 0; back < 5; back++)
        if (push_together(w, sheet, reach_mm * (share + (1 - share) * 0.2 * back)) || nest_pack_over(w)) break;
    return true;
}

bool nest_pack_press(nest_packer *w)
{
    nest_pack_start(w, &w->pack->answer);
    double budget_s = w->pack->until_s - w->pack->begun_s;
    w->until_s = fmin(sw_seconds() + fmax(least_s, budget_share * budget_s), w->pack->until_s);
    uint32_t sheet = emptiest(w);
    if (sheet == NEST_LOOSE) return false;
    double share = least_step * pow(largest_step / least_step, sw_random_unit(&w->random));
    double length_mm = nest_packing_reach(w->pack, &w->now, sheet) * (1 - share);
    size_t way = w->now.sheet_count < 2 ? 0 : sw_random_below(&w->random, 4);
    if (way == 1) return unload(w, sheet) && nest_pack_commit(w);
    bool moved = way == 0 ? push_together(w, sheet, length_mm) : nest_pack_join(w, sheet, length_mm);
    return moved && nest_pack_commit(w);
}
