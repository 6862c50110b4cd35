/* nest_pack_core.c: what the search between sheets compares: each kind at its few quick turns and those already used,
 * and what blocks an odd sheet as one more kind. Fields are made when first wanted, by one worker at a time. */
#include "making/nest/nest_pack_parts.h"

#include <string.h>

enum { CELLS = 32, ENTRIES_MOST = 1500, WARM_MOST = 24 };

static const size_t field_bytes = (size_t)384 << 20, pair_bytes = (size_t)256 << 20, store_bytes = (size_t)512 << 20;

static sw_status no_memory(const nest_core *core)
{
    return sw_fail(core->run, SW_NO_MEMORY, (sw_place){0}, "", "no memory to nest with");
}

/* ---- entries --------------------------------------------------------------------------------------- */

static bool wanted(const nest_core *core, const bool *used, size_t entry)
{
    const nest_kind *k = &core->kinds[core->turned[entry].shape];
    return entry - k->first < k->quick || used[entry];
}

static sw_status take_kind(nest_pack *pack, const bool *used, size_t kind)
{
    nest_kind *own = &pack->own.kinds[kind];
    *own = pack->core->kinds[kind];
    size_t first = own->first, count = own->count;
    own->first = pack->own.turned_count;
    own->count = 0;
    for (size_t e = first; e < first + count; e++) {
        if (!wanted(pack->core, used, e)) continue;
        pack->from_core[e] = (uint32_t)pack->own.turned_count;
        pack->to_core[pack->own.turned_count] = (uint32_t)e;
        SW_TRY(nest_turned_add(&pack->own, pack->core->turned[e]));
        own->count++;
    }
    own->quick = own->count;
    return SW_OK;
}

static sw_status moved_parts(sw_run *run, const nest_turned *t, double dx_mm, double dy_mm, const nest_poly **parts)
{
    nest_poly *made = SW_SCRATCH(run, t->part_count[NEST_OPEN], nest_poly);
    if (made == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < t->part_count[NEST_OPEN]; i++) {
        const nest_poly *from = &t->parts[NEST_OPEN][i];
        sw_point *p = SW_SCRATCH(run, from->n, sw_point);
        if (p == NULL) return SW_NO_MEMORY;
        for (uint32_t k = 0; k < from->n; k++) p[k] = (sw_point){from->p[k].x_mm + dx_mm, from->p[k].y_mm + dy_mm};
        SW_TRY(nest_poly_make(run, run->scratch, p, from->n, &made[i]));
    }
    *parts = made;
    return SW_OK;
}

/* The block's box is the whole usable box, and its kind so small that it is looked for within cut-outs, too. */
static sw_status take_block(nest_pack *pack, size_t stock)
{
    const nest_sheet *sheet = &pack->core->sheets[stock];
    nest_kind *kind = &pack->own.kinds[pack->core->in->shape_count + stock];
    *kind = (nest_kind){.first = pack->own.turned_count, .least_mm = 1, .most_mm = 1};
    if (sheet->block == SIZE_MAX) return SW_OK;
    nest_turned t = pack->core->turned[sheet->block];
    SW_TRY(moved_parts(&pack->store, &t, -sheet->usable.x0_mm, -sheet->usable.y0_mm, &t.parts[NEST_OPEN]));
    t.parts[NEST_SOLID] = t.parts[NEST_OPEN];
    t.shape = pack->core->in->shape_count + stock;
    t.width_mm = sheet->usable.x1_mm - sheet->usable.x0_mm;
    t.height_mm = sheet->usable.y1_mm - sheet->usable.y0_mm;
    kind->count = kind->quick = 1;
    return nest_turned_add(&pack->own, t);
}

static sw_status mark_used(nest_pack *pack, const nest_plan *plan, bool **used)
{
    *used = SW_SCRATCH(&pack->store, pack->core->turned_count, bool);
    if (*used == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < plan->spot_count; i++) (*used)[plan->spots[i].turned] = true;
    return SW_OK;
}

static sw_status take_entries(nest_pack *pack, const nest_plan *plan)
{
    const nest_core *core = pack->core;
    bool *used = NULL;
    pack->kind_count = core->in->shape_count + core->in->stock_count;
    pack->from_core = SW_SCRATCH(&pack->store, core->turned_count, uint32_t);
    pack->to_core = SW_SCRATCH(&pack->store, core->turned_count, uint32_t);
    pack->own.kinds = SW_SCRATCH(&pack->store, pack->kind_count, nest_kind);
    if (pack->from_core == NULL || pack->to_core == NULL || pack->own.kinds == NULL) return SW_NO_MEMORY;
    memset(pack->from_core, 0xff, core->turned_count * sizeof *pack->from_core);
    SW_TRY(mark_used(pack, plan, &used));
    for (size_t i = 0; i < core->in->shape_count; i++) SW_TRY(take_kind(pack, used, i));
    for (size_t i = 0; i < core->in->stock_count; i++) SW_TRY(take_block(pack, i));
    return SW_OK;
}

static sw_status open_table(nest_pack *pack, const nest_plan *plan)
{
    SW_TRY(take_entries(pack, plan));
    if (pack->own.turned_count > ENTRIES_MOST) return SW_OUT_OF_RANGE;
    pack->own.pairs = SW_SCRATCH(&pack->store, pack->own.turned_count, nest_slot *);
    pack->ready = SW_SCRATCH(&pack->store, pack->kind_count * pack->kind_count, atomic_uchar);
    pack->tries = SW_SCRATCH(&pack->store, NEST_AIMS, int);
    if (pack->own.pairs == NULL || pack->ready == NULL || pack->tries == NULL) return SW_NO_MEMORY;
    return nest_table_start(&pack->own, pack->fields, CELLS, &pack->work);
}

sw_status nest_pack_open(nest_pack *pack, const nest_core *core, const nest_plan *plan)
{
    *pack = (nest_pack){.core = core, .begun_s = sw_seconds(), .until_s = core->stop_at_s};
    pack->least_price = nest_bound_price(core);
    omp_init_lock(&pack->lock);
    if (sw_run_open(&pack->store, store_bytes) != SW_OK) return no_memory(core);
    pack->store.cancel = core->run->cancel;
    pack->own = (nest_core){
        .run = &pack->store, .in = core->in, .opt = core->opt, .sheets = core->sheets, .stop_at_s = core->stop_at_s};
    pack->own.pair_arena = sw_arena_open(pair_bytes);
    pack->fields = sw_arena_open(field_bytes);
    if (pack->own.pair_arena == NULL || pack->fields == NULL) return no_memory(core);
    SW_TRY(open_table(pack, plan));
    return nest_packing_from_plan(pack, plan);
}

/* Kinds that lie on some sheet now; more than so many are compared only when they meet. */
void nest_pack_warm(nest_pack *pack)
{
    uint32_t kinds[WARM_MOST];
    size_t n = 0;
    for (size_t k = 0; k < pack->core->in->shape_count; k++) {
        if (pack->own.kinds[k].count == 0) continue;
        if (n == WARM_MOST) return;
        kinds[n++] = (uint32_t)k;
    }
    (void)nest_pack_ready(pack, kinds, n);
}

void nest_pack_close(nest_pack *pack)
{
    sw_arena_close(pack->fields);
    sw_arena_close(pack->own.pair_arena);
    sw_run_close(&pack->store);
    omp_destroy_lock(&pack->lock);
}

/* ---- fields ---------------------------------------------------------------------------------------- */

static sw_status relate_kinds(nest_pack *pack, size_t a, size_t b)
{
    const nest_kind *p = &pack->own.kinds[a], *q = &pack->own.kinds[b];
    for (size_t i = p->first; i < p->first + p->count; i++)
        for (size_t j = q->first; j < q->first + q->count; j++) {
            if (nest_time_is_up(&pack->own)) return SW_CANCELLED;
            SW_TRY(nest_table_relate(pack->work, i, j));
            SW_TRY(nest_table_relate(pack->work, j, i));
        }
    return SW_OK;
}

static atomic_uchar *readiness(nest_pack *pack, size_t a, size_t b)
{
    return &pack->ready[(a < b ? a : b) * pack->kind_count + (a < b ? b : a)];
}

static void make_pair_ready(nest_pack *pack, size_t a, size_t b)
{
    atomic_uchar *is = readiness(pack, a, b);
    omp_set_lock(&pack->lock);
    if (atomic_load(is) == NEST_UNMADE) {
        sw_status status = relate_kinds(pack, a, b);
        if (status != SW_CANCELLED) atomic_store(is, status == SW_OK ? NEST_READY : NEST_NO_ROOM);
    }
    omp_unset_lock(&pack->lock);
}

static bool pair_is_ready(nest_pack *pack, size_t a, size_t b)
{
    atomic_uchar *is = readiness(pack, a, b);
    if (atomic_load(is) == NEST_UNMADE) make_pair_ready(pack, a, b);
    return atomic_load(is) == NEST_READY;
}

bool nest_pack_ready(nest_pack *pack, const uint32_t *kinds, size_t count)
{
    for (size_t i = 0; i < count; i++)
        for (size_t j = i; j < count; j++)
            if (!pair_is_ready(pack, kinds[i], kinds[j])) return false;
    return true;
}
