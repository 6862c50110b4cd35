/* nest_bound.c: the least area of whole sheets that could hold the pieces: their claims (areas grown by half the web)
 * must add up to no more than the sheets' room. Exact over the sheet sizes where these are few, else the fraction of
 * the best size. Source: area bound, handbook 6.1; that web and margin count is derived. */
#include "making/nest/nest_parts.h"

#include <math.h>

enum { STEPS_MOST = 20000 };

typedef struct cover {
    const nest_core *core;
    bool priced; /* sheets weigh their price, else their area */
    double best; /* least weight found */
    size_t steps;
} cover;

static double most_of(const nest_core *core, size_t stock)
{
    const sw_stock *s = core->in->stock[stock];
    return s->count == 0 && !s->remnant ? (double)INFINITY : (double)s->count;
}

static double weight_of(const cover *c, size_t stock)
{
    const nest_sheet *s = &c->core->sheets[stock];
    return c->priced ? s->price : s->area_mm2;
}

/* Weight per room of the best size from `stock` on. */
static double best_ratio(const cover *c, size_t stock)
{
    const nest_core *core = c->core;
    double ratio = INFINITY;
    for (size_t i = stock; i < core->in->stock_count; i++)
        if (core->sheets[i].room_mm2 > 0 && most_of(core, i) > 0)
            ratio = fmin(ratio, weight_of(c, i) / core->sheets[i].room_mm2);
    return ratio;
}

static void search(cover *c, size_t stock, double need, double spent)
{
    if (need <= 0) {
        c->best = fmin(c->best, spent);
        return;
    }
    if (++c->steps > STEPS_MOST || stock == c->core->in->stock_count) return;
    if (spent + need * best_ratio(c, stock) >= c->best) return;
    const nest_sheet *s = &c->core->sheets[stock];
    double most = s->room_mm2 > 0 ? fmin(ceil(need / s->room_mm2), most_of(c->core, stock)) : 0;
    bool last = stock + 1 == c->core->in->stock_count; /* fewer of the last size cannot be enough */
    for (size_t i = 0; (double)i <= (last ? 0 : most) && c->steps <= STEPS_MOST; i++) {
        double n = most - (double)i;
        search(c, stock + 1, need - n * s->room_mm2, spent + n * weight_of(c, stock));
    }
}

static double all_claims(const nest_core *core)
{
    double claims = 0;
    for (size_t i = 0; i < core->in->shape_count; i++)
        claims += (double)core->in->shapes[i].count * core->kinds[i].claim_mm2;
    return claims;
}

static double pieces_area(const nest_core *core)
{
    double area = 0;
    for (size_t i = 0; i < core->in->shape_count; i++)
        area += (double)core->in->shapes[i].count * core->kinds[i].area_mm2;
    return area;
}

static double least_weight(const nest_core *core, bool priced)
{
    double need = all_claims(core) * (1 - 1e-9); /* rounding must not ask for one sheet more */
    cover c = {.core = core, .priced = priced, .best = INFINITY};
    double fraction = need * best_ratio(&c, 0);
    search(&c, 0, need, 0);
    return c.steps > STEPS_MOST || !isfinite(c.best) ? fraction : fmax(c.best, fraction);
}

double nest_bound_area(const nest_core *core)
{
    return fmax(least_weight(core, false), pieces_area(core));
}

double nest_bound_price(const nest_core *core)
{
    return least_weight(core, true);
}
