/* nest_pack_settle.c: empties a sheet: ever less of its length may be used, and all sheets are pulled apart together
 * each time, so that its pieces find their way to the others. Also how workers take over and hand in. */
#include "making/nest/nest_pack_parts.h"

#include <string.h>

enum { MISSES = 6 };

static const double swap_share = 0.7; /* of the time an aim has left. Ours */

static const double first_step = 0.12, least_step = 0.01, step_growth = 1.3, step_cut = 0.5; /* of its length. Ours */
static const double last_share = 0.12; /* what is shorter is given up at once. Ours */

void nest_pack_start(nest_packer *w, const nest_packing *from)
{
    nest_pack *pack = w->pack;
    omp_set_lock(&pack->lock);
    nest_packing_copy(from, &w->now);
    omp_unset_lock(&pack->lock);
    w->loose_count = 0;
    memset(w->closed, 0, pack->sheet_room * sizeof *w->closed);
    memset(w->swaps, 0, NEST_SWAPS * sizeof *w->swaps);
    memset(w->failed, 0, pack->sheet_room * pack->core->in->shape_count * sizeof *w->failed);
}

void nest_pack_lift(nest_packer *w, uint32_t sheet)
{
    for (size_t i = 0; i < w->now.count; i++) {
        if (w->now.sheet[i] != sheet) continue;
        w->now.sheet[i] = NEST_LOOSE;
        w->loose[w->loose_count++] = (uint32_t)i;
    }
    w->now.area_mm2[sheet] = w->now.claim_mm2[sheet] = 0;
}

/* ---- emptying a sheet --------------------------------------------------------------------------------- */

static void sort_by_claim(const nest_packer *w, uint32_t *pieces, size_t count)
{
    const nest_kind *kinds = w->pack->own.kinds;
    for (size_t i = 1; i < count; i++) {
        uint32_t piece = pieces[i];
        size_t k = i;
        for (; k > 0 && kinds[w->now.kind[pieces[k - 1]]].claim_mm2 < kinds[w->now.kind[piece]].claim_mm2; k--)
            pieces[k] = pieces[k - 1];
        pieces[k] = piece;
    }
}

/* Its pieces go to other sheets each for itself, the largest first, until too many find no place; these stay where they
 * lie. */
static void thin_out(nest_packer *w, uint32_t sheet)
{
    size_t count = nest_packing_list(&w->now, sheet, w->loose);
    sort_by_claim(w, w->loose, count);
    w->closed[sheet] = true;
    for (size_t i = 0, misses = 0; i < count && misses < MISSES && !nest_pack_over(w); i++) {
        if (nest_pack_insert(w, w->loose[i]))
            nest_packing_count(w->pack, &w->now, w->loose[i], sheet, -1);
        else
            misses++;
    }
    w->closed[sheet] = false;
}

/* All that is left goes at once, and all sheets are pulled apart together. */
static bool close_sheet(nest_packer *w, uint32_t sheet)
{
    nest_packing_copy(&w->now, &w->kept);
    nest_pack_lift(w, sheet);
    w->closed[sheet] = true;
    if (w->loose_count == 0 || nest_pack_join(w, NEST_LOOSE, 0)) return true;
    nest_packing_copy(&w->kept, &w->now);
    w->loose_count = 0;
    w->closed[sheet] = false;
    return false;
}

static bool is_blocked(const nest_packer *w, uint32_t sheet)
{
    return w->pack->core->sheets[w->now.stock[sheet]].block != SIZE_MAX;
}

bool nest_pack_empty(nest_packer *w, uint32_t sheet)
{
    double length_mm = nest_pack_length(w, sheet), step_mm = first_step * length_mm;
    thin_out(w, sheet);
    nest_pack_swap(w, sheet, sw_seconds() + swap_share * (w->until_s - sw_seconds()));
    if (nest_packing_list(&w->now, sheet, w->list) == 0) return w->closed[sheet] = true;
    if (is_blocked(w, sheet)) return close_sheet(w, sheet);
    while (!nest_pack_over(w)) {
        double reach_mm = nest_packing_reach(w->pack, &w->now, sheet), to_mm = reach_mm - step_mm;
        bool last = to_mm < last_share * length_mm;
        if (last && close_sheet(w, sheet)) return true;
        bool done = !last && nest_pack_join(w, sheet, to_mm);
        step_mm *= done ? step_growth : step_cut;
        if (step_mm < least_step * length_mm) return false;
    }
    return false;
}

/* Sheets without pieces are taken out and the others numbered anew. */
static void close_ranks(nest_packing *p, uint32_t *number)
{
    size_t kept = 0;
    for (size_t s = 0; s < p->sheet_count; s++) {
        number[s] = (uint32_t)kept;
        if (p->area_mm2[s] <= 0) continue;
        p->stock[kept] = p->stock[s];
        p->claim_mm2[kept] = p->claim_mm2[s];
        p->area_mm2[kept++] = p->area_mm2[s];
    }
    for (size_t i = 0; i < p->count; i++) p->sheet[i] = number[p->sheet[i]];
    p->sheet_count = kept;
}

bool nest_pack_commit(nest_packer *w)
{
    nest_pack *pack = w->pack;
    nest_packing_reckon(pack, &w->now);
    omp_set_lock(&pack->lock);
    bool better = nest_packing_better(&w->now, &pack->best);
    bool cheaper = pack->core->opt->sheets_first >= 0.5 ? better : nest_packing_cheaper(&w->now, &pack->answer);
    if (better || cheaper) close_ranks(&w->now, w->sheets);
    if (better) nest_packing_copy(&w->now, &pack->best);
    if (cheaper) {
        nest_packing_copy(&w->now, &pack->answer);
        pack->wins++;
    }
    omp_unset_lock(&pack->lock);
    return better || cheaper;
}
