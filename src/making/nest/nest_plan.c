/* nest_plan.c: sheet after sheet until every piece has a place.
 *
 * Each round fills one sheet of every size still there from the pieces left, with tall pieces in a row or anywhere, and keeps
 * the one with the lowest cost per area placed; among full sheets, one that takes all the rest beats those that do not. A remnant goes
 * first when it costs no more per area than the best full sheet. The same layout is then cut as often as the
 * pieces left and the stock allow. A way that settles takes the full size that won first until the pieces left may
 * fit one sheet, and only then looks at every size again. */
#include "making/nest/nest_parts.h"

#include <math.h>
#include <string.h>

typedef struct choice {
    size_t stock;
    bool rows_first;
    double ratio, cost;
    bool finishes;
} choice; /* stock SIZE_MAX = none */

static bool anything_left(const nest_core *core, const nest_bench *bench)
{
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (bench->left[i] > 0) return true;
    return false;
}

static bool finishes(const nest_core *core, const nest_bench *bench)
{
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (bench->left[i] > bench->used[i]) return false;
    return true;
}

static bool better(choice a, choice b)
{
    if (b.stock == SIZE_MAX) return true;
    if (a.finishes != b.finishes) return a.finishes;
    return a.finishes ? a.cost < b.cost - 1e-12 : a.ratio < b.ratio - 1e-12;
}

static void keep_trial(nest_core *core, nest_bench *bench)
{
    nest_plan swap = bench->best;
    bench->best = bench->trial;
    bench->trial = swap;
    memcpy(bench->chosen, bench->used, core->in->shape_count * sizeof *bench->chosen);
}

static sw_status try_fill(nest_core *core, nest_bench *bench, const nest_way *way, choice tried, choice *best)
{
    size_t stock = tried.stock;
    SW_TRY(nest_fill(core, bench, way, stock, tried.rows_first));
    const nest_layout *layout = &bench->trial.layouts[0];
    if (layout->count == 0) return SW_OK;
    double cost = nest_layout_cost(core, layout, core->sheets[stock].price);
    tried.ratio = cost / layout->area_mm2;
    tried.cost = cost;
    tried.finishes = finishes(core, bench);
    if (!better(tried, *best)) return SW_OK;
    *best = tried;
    keep_trial(core, bench);
    return SW_OK;
}

/* Whether a piece left is so long that no second may fit above it. */
static bool any_is_tall(const nest_core *core, const nest_bench *bench, size_t stock)
{
    sw_box usable = core->sheets[stock].usable;
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (bench->left[i] > 0 && 2 * core->kinds[i].most_mm > usable.y1_mm - usable.y0_mm) return true;
    return false;
}

static sw_status try_stock(nest_core *core, nest_bench *bench, const nest_way *way, size_t stock, choice *best)
{
    nest_rows rows = any_is_tall(core, bench, stock) ? way->rows : NEST_ANYWHERE;
    if (rows != NEST_ROWS_FIRST)
        SW_TRY(try_fill(core, bench, way, (choice){.stock = stock, .rows_first = false}, best));
    if (rows != NEST_ANYWHERE) SW_TRY(try_fill(core, bench, way, (choice){.stock = stock, .rows_first = true}, best));
    return SW_OK;
}

static double area_left(const nest_core *core, const nest_bench *bench)
{
    double area = 0;
    for (size_t i = 0; i < core->in->shape_count; i++) area += (double)bench->left[i] * core->kinds[i].area_mm2;
    return area;
}

/* The one full size to fill now, SIZE_MAX = every one. */
static size_t only_size(const nest_core *core, const nest_bench *bench, const nest_way *way)
{
    if (way->only != SIZE_MAX || !way->settles || bench->settled == SIZE_MAX) return way->only;
    bool used_up = bench->stock_left[bench->settled] == 0;
    return used_up || area_left(core, bench) < core->largest_mm2 ? SIZE_MAX : bench->settled;
}

static sw_status try_all(nest_core *core, nest_bench *bench, const nest_way *way, bool remnants, choice *best)
{
    size_t only = remnants ? SIZE_MAX : only_size(core, bench, way);
    for (size_t i = 0; i < core->in->stock_count; i++)
        if (bench->stock_left[i] > 0 && core->in->stock[i]->remnant == remnants && (only == SIZE_MAX || only == i))
            SW_TRY(try_stock(core, bench, way, i, best));
    return SW_OK;
}

/* No layout of the sheet costs less per area of its pieces: what is not of them is sold, or kept, at once. */
static double least_ratio(const nest_core *core, size_t stock)
{
    const nest_sheet *sheet = &core->sheets[stock];
    const sw_nest_input *in = core->in;
    double whole = fmax(in->remnant_factor * sheet->price, in->scrap_price * in->density_kg_mm2 * sheet->area_mm2);
    double full_mm2 = sheet->usable_area_mm2, rest = 1 - full_mm2 / sheet->area_mm2;
    return whole >= sheet->price || full_mm2 <= 0 ? -(double)INFINITY : (sheet->price - whole * rest) / full_mm2;
}

/* No full sheet can cost less per area. */
static bool full_sheets_lose(const nest_core *core, const nest_bench *bench, double ratio)
{
    for (size_t i = 0; i < core->in->stock_count; i++)
        if (bench->stock_left[i] > 0 && !core->in->stock[i]->remnant && least_ratio(core, i) < ratio) return false;
    return true;
}

/* bench->best, chosen: the sheet to cut next. */
static sw_status choose(nest_core *core, nest_bench *bench, const nest_way *way, choice *best)
{
    choice full = {.stock = SIZE_MAX};
    *best = full;
    SW_TRY(try_all(core, bench, way, true, best));
    if (best->stock != SIZE_MAX && core->sheets[best->stock].price <= 0) return SW_OK;
    if (best->stock != SIZE_MAX && full_sheets_lose(core, bench, best->ratio)) return SW_OK;
    double remnant_ratio = best->stock == SIZE_MAX ? (double)INFINITY : best->ratio;
    choice remnant = *best;
    SW_TRY(try_all(core, bench, way, false, &full));
    bench->settled = full.stock;
    *best = full;
    if (remnant.stock == SIZE_MAX || (full.stock != SIZE_MAX && full.ratio < remnant_ratio)) return SW_OK;
    *best = remnant; /* its layout was overwritten: fill it again */
    SW_TRY(nest_fill(core, bench, way, remnant.stock, remnant.rows_first));
    keep_trial(core, bench);
    return SW_OK;
}

static size_t repeats(const nest_core *core, const nest_bench *bench, size_t stock)
{
    size_t most = bench->stock_left[stock];
    for (size_t i = 0; i < core->in->shape_count; i++)
        if (bench->chosen[i] > 0 && bench->left[i] / bench->chosen[i] < most) most = bench->left[i] / bench->chosen[i];
    return most;
}

/* Adds a layout whose spots are given; the counts of pieces and sheets left are the caller's. */
static sw_status append(nest_core *core, nest_plan *plan, nest_layout layout, const nest_spot *spots)
{
    NEST_MAKE_ROOM(core->run, plan->layouts, plan->layout_count, plan->layout_room, 1);
    NEST_MAKE_ROOM(core->run, plan->spots, plan->spot_count, plan->spot_room, layout.count);
    layout.first = plan->spot_count;
    memcpy(plan->spots + plan->spot_count, spots, layout.count * sizeof *plan->spots);
    plan->spot_count += layout.count;
    plan->layouts[plan->layout_count++] = layout;
    double n = (double)layout.repeat, density = layout.area_mm2 / core->sheets[layout.stock].area_mm2;
    plan->cost += n * layout.cost;
    plan->reach_mm += n * layout.reach_mm;
    plan->unevenness += n * density * density;
    return SW_OK;
}

/* Copies the chosen sheet into the plan, without the block of the sheet; cut at most so often. */
static sw_status commit(nest_core *core, nest_bench *bench, nest_plan *plan, choice best, size_t most)
{
    nest_layout layout = bench->best.layouts[0];
    layout.repeat = repeats(core, bench, best.stock);
    if (layout.repeat > most) layout.repeat = most;
    layout.cost = best.cost;
    if (bench->stock_left[best.stock] != SIZE_MAX) bench->stock_left[best.stock] -= layout.repeat;
    for (size_t i = 0; i < core->in->shape_count; i++) bench->left[i] -= layout.repeat * bench->chosen[i];
    return append(core, plan, layout, bench->best.spots + (bench->best.spot_count - layout.count));
}

static sw_status keep_layout(nest_core *core, nest_bench *bench, nest_plan *plan, const nest_plan *base, size_t at)
{
    nest_layout layout = base->layouts[at];
    const nest_spot *spots = base->spots + layout.first;
    for (size_t i = 0; i < layout.count; i++) bench->left[core->turned[spots[i].turned].shape] -= layout.repeat;
    if (bench->stock_left[layout.stock] != SIZE_MAX) bench->stock_left[layout.stock] -= layout.repeat;
    return append(core, plan, layout, spots);
}

static void start_over(const nest_core *core, nest_bench *bench, nest_plan *plan)
{
    plan->spot_count = plan->layout_count = plan->left_over = 0;
    plan->cost = plan->reach_mm = plan->unevenness = 0;
    bench->settled = SIZE_MAX;
    for (size_t i = 0; i < core->in->shape_count; i++) bench->left[i] = core->in->shapes[i].count;
    for (size_t i = 0; i < core->in->stock_count; i++) {
        const sw_stock *stock = core->in->stock[i];
        bench->stock_left[i] = stock->count == 0 && !stock->remnant ? SIZE_MAX : stock->count;
    }
}

/* Sheet after sheet for what is left. */
static sw_status go_on(nest_core *core, nest_bench *bench, const nest_way *way, nest_plan *plan)
{
    while (anything_left(core, bench)) {
        choice best;
        SW_TRY(choose(core, bench, way, &best));
        if (best.stock == SIZE_MAX) break;
        SW_TRY(commit(core, bench, plan, best, SIZE_MAX));
    }
    for (size_t i = 0; i < core->in->shape_count; i++) plan->left_over += bench->left[i];
    return SW_OK;
}

sw_status nest_plan_make(nest_core *core, nest_bench *bench, const nest_way *way, nest_keep keep, nest_plan *plan)
{
    start_over(core, bench, plan);
    for (size_t i = 0; keep.base != NULL && i < keep.base->layout_count; i++)
        if (keep.kept[i]) SW_TRY(keep_layout(core, bench, plan, keep.base, i));
    return go_on(core, bench, way, plan);
}

static sw_status fill_begun(nest_core *core, nest_bench *bench, const nest_way *way, nest_begun begun, nest_plan *plan)
{
    while (begun.times > 0 && bench->stock_left[begun.stock] > 0) {
        SW_TRY(nest_fill_round(core, bench, way, begun.stock, begun.spots, begun.count));
        const nest_layout *layout = &bench->trial.layouts[0];
        if (layout->count == 0) return SW_OK;
        double cost = nest_layout_cost(core, layout, core->sheets[begun.stock].price);
        keep_trial(core, bench);
        SW_TRY(commit(core, bench, plan, (choice){.stock = begun.stock, .cost = cost}, begun.times));
        begun.times -= plan->layouts[plan->layout_count - 1].repeat;
    }
    return SW_OK;
}

sw_status nest_plan_round(nest_core *core, nest_bench *bench, const nest_way *way, const nest_begun *begun,
                          size_t count, nest_plan *plan)
{
    start_over(core, bench, plan);
    for (size_t i = 0; i < count; i++) SW_TRY(fill_begun(core, bench, way, begun[i], plan));
    return go_on(core, bench, way, plan);
}

bool nest_plan_better(const nest_plan *a, const nest_plan *b)
{
    if (a->left_over != b->left_over) return a->left_over < b->left_over;
    double same = 1e-9 * (fabs(a->cost) + fabs(b->cost));
    if (fabs(a->cost - b->cost) > same) return a->cost < b->cost;
    if (fabs(a->unevenness - b->unevenness) > 1e-9) return a->unevenness > b->unevenness;
    return a->reach_mm < b->reach_mm - NEST_TOUCH_MM;
}

sw_status nest_plan_copy(sw_run *run, const nest_plan *from, nest_plan *to)
{
    NEST_MAKE_ROOM(run, to->layouts, 0, to->layout_room, from->layout_count);
    NEST_MAKE_ROOM(run, to->spots, 0, to->spot_room, from->spot_count);
    if (from->layout_count > 0) memcpy(to->layouts, from->layouts, from->layout_count * sizeof *to->layouts);
    if (from->spot_count > 0) memcpy(to->spots, from->spots, from->spot_count * sizeof *to->spots);
    to->spot_count = from->spot_count;
    to->layout_count = from->layout_count;
    to->left_over = from->left_over;
    to->cost = from->cost;
    to->reach_mm = from->reach_mm;
    to->unevenness = from->unevenness;
    return SW_OK;
}
