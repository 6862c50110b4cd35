/* nest_packing.c: a plan taken apart into pieces on sheets, and put together again. */
#include "making/nest/nest_pack_parts.h"

#include <string.h>

enum { SPARE_SHEETS = 8 }; /* room for other sizes to be tried */

sw_status nest_packing_make(sw_run *run, size_t count, size_t sheet_room, const uint32_t *kind, nest_packing *p)
{
    *p = (nest_packing){.count = count, .kind = kind};
    p->sheet = SW_SCRATCH(run, count, uint32_t);
    p->stock = SW_SCRATCH(run, sheet_room, uint32_t);
    p->area_mm2 = SW_SCRATCH(run, sheet_room, double);
    p->claim_mm2 = SW_SCRATCH(run, sheet_room, double);
    if (p->sheet == NULL || p->stock == NULL || p->area_mm2 == NULL || p->claim_mm2 == NULL) return SW_NO_MEMORY;
    return nest_state_make(run, count, &p->state);
}

void nest_packing_copy(const nest_packing *from, nest_packing *to)
{
    memcpy(to->sheet, from->sheet, from->count * sizeof *to->sheet);
    memcpy(to->stock, from->stock, from->sheet_count * sizeof *to->stock);
    memcpy(to->area_mm2, from->area_mm2, from->sheet_count * sizeof *to->area_mm2);
    memcpy(to->claim_mm2, from->claim_mm2, from->sheet_count * sizeof *to->claim_mm2);
    nest_state_copy(from->count, &from->state, &to->state);
    to->sheet_count = from->sheet_count;
    to->gross = from->gross;
    to->cost = from->cost;
    to->rest_mm2 = from->rest_mm2;
}

size_t nest_packing_list(const nest_packing *p, uint32_t sheet, uint32_t *list)
{
    size_t n = 0;
    for (size_t i = 0; i < p->count; i++)
        if (p->sheet[i] == sheet) list[n++] = (uint32_t)i;
    return n;
}

double nest_packing_reach(const nest_pack *pack, const nest_packing *p, uint32_t sheet)
{
    double reach_mm = 0;
    for (size_t i = 0; i < p->count; i++) {
        if (p->sheet[i] != sheet) continue;
        const nest_turned *t = &pack->own.turned[p->state.turned[i]];
        reach_mm = fmax(reach_mm, p->state.x_mm[i] + t->base.x_mm + t->width_mm);
    }
    return reach_mm;
}

/* ---- what it costs ---------------------------------------------------------------------------------- */

static nest_layout layout_of(const nest_pack *pack, const nest_packing *p, uint32_t sheet)
{
    const nest_core *core = pack->core;
    nest_layout layout = {.stock = p->stock[sheet], .repeat = 1, .area_mm2 = p->area_mm2[sheet]};
    layout.reach_mm = core->sheets[layout.stock].usable.x0_mm + nest_packing_reach(pack, p, sheet);
    layout.cost = nest_layout_cost(core, &layout, core->sheets[layout.stock].price);
    return layout;
}

void nest_packing_count(const nest_pack *pack, nest_packing *p, uint32_t piece, uint32_t sheet, int sign)
{
    const nest_kind *kind = &pack->own.kinds[p->kind[piece]];
    p->area_mm2[sheet] += sign * kind->area_mm2;
    p->claim_mm2[sheet] += sign * kind->claim_mm2;
}

static void add_areas(const nest_pack *pack, nest_packing *p)
{
    memset(p->area_mm2, 0, p->sheet_count * sizeof *p->area_mm2);
    memset(p->claim_mm2, 0, p->sheet_count * sizeof *p->claim_mm2);
    for (size_t i = 0; i < p->count; i++)
        if (p->sheet[i] != NEST_LOOSE) nest_packing_count(pack, p, (uint32_t)i, p->sheet[i], 1);
}

static double gross_of(const nest_core *core, const nest_layout *layout)
{
    double kg = core->in->density_kg_mm2;
    return sw_steel_cost(core->sheets[layout->stock].price, core->sheets[layout->stock].area_mm2 * kg,
                         layout->area_mm2 * kg, 0, 0, core->in->scrap_price);
}

void nest_packing_reckon(const nest_pack *pack, nest_packing *p)
{
    add_areas(pack, p);
    p->gross = p->cost = 0;
    p->rest_mm2 = INFINITY;
    for (uint32_t s = 0; s < p->sheet_count; s++) {
        if (p->area_mm2[s] <= 0) continue;
        nest_layout layout = layout_of(pack, p, s);
        p->cost += layout.cost;
        p->gross += gross_of(pack->core, &layout);
        double held_mm2 = layout.area_mm2 + 0.01 * layout.reach_mm; /* emptier first, then shorter */
        p->rest_mm2 = fmin(p->rest_mm2, held_mm2);
    }
}

bool nest_packing_better(const nest_packing *a, const nest_packing *b)
{
    double same = 1e-9 * (fabs(a->gross) + fabs(b->gross));
    if (fabs(a->gross - b->gross) > same) return a->gross < b->gross;
    same = 1e-9 * (fabs(a->cost) + fabs(b->cost));
    if (fabs(a->cost - b->cost) > same) return a->cost < b->cost;
    return a->rest_mm2 < b->rest_mm2 - 1e-6;
}

bool nest_packing_cheaper(const nest_packing *a, const nest_packing *b)
{
    double same = 1e-9 * (fabs(a->cost) + fabs(b->cost));
    if (fabs(a->cost - b->cost) > same) return a->cost < b->cost;
    return a->rest_mm2 < b->rest_mm2 - 1e-6;
}

/* ---- from a plan ------------------------------------------------------------------------------------ */

static void put_spot(const nest_pack *pack, nest_packing *p, uint32_t *kind, size_t i, size_t stock, nest_spot spot)
{
    const nest_turned *t = &pack->core->turned[spot.turned];
    sw_box usable = pack->core->sheets[stock].usable;
    kind[i] = (uint32_t)t->shape;
    p->sheet[i] = (uint32_t)p->sheet_count;
    p->state.turned[i] = pack->from_core[spot.turned];
    p->state.x_mm[i] = spot.at.x_mm - t->base.x_mm - usable.x0_mm;
    p->state.y_mm[i] = spot.at.y_mm - t->base.y_mm - usable.y0_mm;
}

static void fill_from(const nest_pack *pack, const nest_plan *plan, nest_packing *p, uint32_t *kind)
{
    size_t i = 0;
    for (size_t l = 0; l < plan->layout_count; l++) {
        const nest_layout *layout = &plan->layouts[l];
        for (size_t r = 0; r < layout->repeat; r++) {
            p->stock[p->sheet_count] = (uint32_t)layout->stock;
            for (size_t k = 0; k < layout->count; k++)
                put_spot(pack, p, kind, i++, layout->stock, plan->spots[layout->first + k]);
            p->sheet_count++;
        }
    }
}

sw_status nest_packing_from_plan(nest_pack *pack, const nest_plan *plan)
{
    size_t count = 0, sheets = 0;
    for (size_t l = 0; l < plan->layout_count; l++) {
        count += plan->layouts[l].repeat * plan->layouts[l].count;
        sheets += plan->layouts[l].repeat;
    }
    uint32_t *kind = SW_SCRATCH(&pack->store, count, uint32_t);
    pack->sheet_room = sheets + SPARE_SHEETS;
    if (kind == NULL) return SW_NO_MEMORY;
    SW_TRY(nest_packing_make(&pack->store, count, pack->sheet_room, kind, &pack->best));
    SW_TRY(nest_packing_make(&pack->store, count, pack->sheet_room, kind, &pack->answer));
    fill_from(pack, plan, &pack->best, kind);
    nest_packing_reckon(pack, &pack->best);
    nest_packing_copy(&pack->best, &pack->answer);
    return SW_OK;
}

/* ---- to a plan --------------------------------------------------------------------------------------- */

static bool same_layout(const nest_plan *plan, const nest_layout *a, const nest_layout *b)
{
    if (a->stock != b->stock || a->count != b->count) return false;
    for (size_t i = 0; i < a->count; i++) {
        const nest_spot *p = &plan->spots[a->first + i], *q = &plan->spots[b->first + i];
        if (p->turned != q->turned || p->at.x_mm != q->at.x_mm || p->at.y_mm != q->at.y_mm) return false;
    }
    return true;
}

static void add_spots(const nest_pack *pack, const nest_packing *p, uint32_t sheet, nest_layout *layout,
                      nest_plan *plan)
{
    sw_box usable = pack->core->sheets[layout->stock].usable;
    layout->first = plan->spot_count;
    for (size_t i = 0; i < p->count; i++) {
        if (p->sheet[i] != sheet) continue;
        const nest_turned *t = &pack->own.turned[p->state.turned[i]];
        plan->spots[plan->spot_count++] = (nest_spot){
            pack->to_core[p->state.turned[i]],
            {p->state.x_mm[i] + t->base.x_mm + usable.x0_mm, p->state.y_mm[i] + t->base.y_mm + usable.y0_mm}};
    }
    layout->count = plan->spot_count - layout->first;
}

static void count_in(const nest_core *core, const nest_layout *layout, nest_plan *plan)
{
    double density = layout->area_mm2 / core->sheets[layout->stock].area_mm2;
    plan->cost += layout->cost;
    plan->reach_mm += layout->reach_mm;
    plan->unevenness += density * density;
}

/* A layout that is there already is cut once more instead. */
static void add_layout(const nest_pack *pack, const nest_packing *p, uint32_t sheet, nest_plan *plan)
{
    nest_layout layout = layout_of(pack, p, sheet);
    add_spots(pack, p, sheet, &layout, plan);
    count_in(pack->core, &layout, plan);
    for (size_t l = 0; l < plan->layout_count; l++) {
        if (!same_layout(plan, &plan->layouts[l], &layout)) continue;
        plan->layouts[l].repeat++;
        plan->spot_count = layout.first;
        return;
    }
    plan->layouts[plan->layout_count++] = layout;
}

sw_status nest_packing_to_plan(const nest_pack *pack, const nest_packing *p, nest_plan *plan)
{
    sw_run *run = pack->core->run;
    *plan = (nest_plan){.spot_room = p->count, .layout_room = p->sheet_count};
    plan->spots = SW_SCRATCH(run, p->count, nest_spot);
    plan->layouts = SW_SCRATCH(run, p->sheet_count, nest_layout);
    if (plan->spots == NULL || plan->layouts == NULL) return SW_NO_MEMORY;
    for (uint32_t s = 0; s < p->sheet_count; s++)
        if (p->area_mm2[s] > 0) add_layout(pack, p, s, plan);
    return SW_OK;
}
