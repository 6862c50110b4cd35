/* nest_fill.c: fills one sheet: kind by kind, each piece at the allowed turn whose free position scores best.
 *
 * Score: x of the position plus `lean` times the piece's length along x; lean 1 ends furthest left. Bottom-left
 * filling: Burke, Hellier, Kendall & Whitwell, Oper. Res. 54 (2006), from memory. Because the scan sees the
 * cut-outs of pieces already placed, later (smaller) kinds go into them by themselves. */
#include "making/nest/nest_parts.h"

#include <math.h>

enum { PLACES_MOST = 20000 }; /* on one sheet; more go on the next. Ours */

bool nest_time_is_up(const nest_core *core)
{
    return sw_run_cancelled(core->run) || (isfinite(core->stop_at_s) && sw_seconds() > core->stop_at_s);
}

sw_status nest_bench_make(nest_core *core, nest_bench *bench)
{
    size_t shapes = core->in->shape_count;
    for (size_t i = 0; i < shapes; i++)
        if (core->kinds[i].count > bench->scan_count) bench->scan_count = core->kinds[i].count;
    bench->scans = SW_SCRATCH(core->run, bench->scan_count, nest_scan);
    bench->left = SW_SCRATCH(core->run, shapes, size_t);
    bench->used = SW_SCRATCH(core->run, shapes, size_t);
    bench->chosen = SW_SCRATCH(core->run, shapes, size_t);
    bench->full = SW_SCRATCH(core->run, shapes, bool);
    bench->stock_left = SW_SCRATCH(core->run, core->in->stock_count, size_t);
    bench->trial.layouts = SW_SCRATCH(core->run, 1, nest_layout);
    bench->best.layouts = SW_SCRATCH(core->run, 1, nest_layout);
    bool whole = bench->scans && bench->left && bench->used && bench->chosen && bench->full && bench->stock_left &&
                 bench->trial.layouts && bench->best.layouts;
    return whole ? SW_OK : SW_NO_MEMORY;
}

/* Positions that keep a piece of this size on the usable box. */
static sw_box fit_box(sw_box usable, const nest_turned *t)
{
    sw_box fit = {usable.x0_mm, usable.y0_mm, usable.x1_mm - t->width_mm, usable.y1_mm - t->height_mm};
    if (fit.x1_mm < fit.x0_mm && fit.x1_mm > fit.x0_mm - NEST_TOUCH_MM) fit.x1_mm = fit.x0_mm;
    if (fit.y1_mm < fit.y0_mm && fit.y1_mm > fit.y0_mm - NEST_TOUCH_MM) fit.y1_mm = fit.y0_mm;
    return fit;
}

static bool turn_wanted(const nest_way *way, size_t kind, size_t i)
{
    return (way->turns[kind] >> (i > 63 ? 63 : i) & 1) != 0;
}

/* The lower edge alone, for a turn of which no second fits above; false = it is no such turn. */
static bool narrow_to_row(const nest_turned *t, sw_box usable, sw_box *fit)
{
    bool tall = 2 * t->height_mm > usable.y1_mm - usable.y0_mm;
    fit->y1_mm = fit->y0_mm;
    return tall;
}

static sw_status open_scans(nest_core *core, nest_bench *bench, const nest_way *way, size_t kind, bool in_row)
{
    sw_box usable = core->sheets[bench->trial.layouts[0].stock].usable;
    const nest_kind *k = &core->kinds[kind];
    bench->scans_open = 0;
    for (size_t i = 0; i < k->count; i++) {
        const nest_turned *t = &core->turned[k->first + i];
        sw_box fit = fit_box(usable, t);
        if (!turn_wanted(way, kind, i) || fit.x1_mm < fit.x0_mm || fit.y1_mm < fit.y0_mm) continue;
        if (in_row && !narrow_to_row(t, usable, &fit)) continue;
        nest_scan *scan = &bench->scans[bench->scans_open++];
        scan->turned = k->first + i;
        scan->fit = fit;
        SW_TRY(nest_scan_open(core, scan, bench->trial.spots, bench->trial.spot_count));
    }
    return SW_OK;
}

/* The best free position over the open scans; turned = SIZE_MAX when there is none. */
static sw_status best_spot(nest_core *core, nest_bench *bench, double lean, nest_spot *best)
{
    double least = INFINITY;
    best->turned = SIZE_MAX;
    for (size_t i = 0; i < bench->scans_open; i++) {
        nest_scan *scan = &bench->scans[i];
        double length = lean * core->turned[scan->turned].width_mm;
        sw_point at;
        bool found = false;
        SW_TRY(nest_scan_find(core, scan, least - length, &at, &found));
        if (!found || at.x_mm + length >= least - NEST_TOUCH_MM) continue;
        least = at.x_mm + length;
        *best = (nest_spot){scan->turned, at};
    }
    return SW_OK;
}

static sw_status put_spot(nest_core *core, nest_plan *plan, nest_spot spot)
{
    NEST_MAKE_ROOM(core->run, plan->spots, plan->spot_count, plan->spot_room, 1);
    plan->spots[plan->spot_count++] = spot;
    return SW_OK;
}

static sw_status place(nest_core *core, nest_bench *bench, nest_spot spot)
{
    const nest_turned *t = &core->turned[spot.turned];
    nest_layout *layout = &bench->trial.layouts[0];
    SW_TRY(put_spot(core, &bench->trial, spot));
    layout->count++;
    layout->area_mm2 += core->kinds[t->shape].area_mm2;
    layout->reach_mm = fmax(layout->reach_mm, spot.at.x_mm + t->width_mm);
    bench->used[t->shape]++;
    for (size_t i = 0; i < bench->scans_open; i++) SW_TRY(nest_scan_add(core, &bench->scans[i], spot));
    return SW_OK;
}

/* Up to `most` of a kind on the sheet altogether; gone = no more of it finds a place. */
static sw_status place_kind(nest_core *core, nest_bench *bench, const nest_way *way, size_t kind, size_t most,
                            bool in_row, bool *gone)
{
    const nest_layout *layout = &bench->trial.layouts[0];
    *gone = false;
    SW_TRY(open_scans(core, bench, way, kind, in_row));
    while (bench->used[kind] < most && layout->count < PLACES_MOST) {
        nest_spot spot;
        SW_TRY(best_spot(core, bench, way->lean[kind], &spot));
        *gone = spot.turned == SIZE_MAX;
        if (*gone) return SW_OK;
        SW_TRY(place(core, bench, spot));
        if (layout->count % 16 == 0 && nest_time_is_up(core)) return SW_CANCELLED;
    }
    return SW_OK;
}

static sw_status fill_kind(nest_core *core, nest_bench *bench, const nest_way *way, size_t kind, size_t most)
{
    const nest_layout *layout = &bench->trial.layouts[0];
    double room = core->sheets[layout->stock].usable_area_mm2;
    if (bench->full[kind] || bench->used[kind] >= most) return SW_OK;
    if (layout->area_mm2 + core->kinds[kind].area_mm2 > room * (1 + 1e-9)) return SW_OK;
    if (nest_time_is_up(core)) return SW_CANCELLED;
    bool row_full = false;
    if (bench->rows_first) SW_TRY(place_kind(core, bench, way, kind, most, true, &row_full));
    return place_kind(core, bench, way, kind, most, false, &bench->full[kind]);
}

static size_t share_of(size_t left, double share)
{
    return share <= 0 || share >= 1 ? left : (size_t)ceil((double)left * share);
}

static void start_sheet(nest_core *core, nest_bench *bench, size_t stock, bool rows_first)
{
    nest_pair_trim(core);
    bench->rows_first = rows_first;
    bench->scans_open = 0;
    bench->trial.spot_count = 0;
    bench->trial.layouts[0] = (nest_layout){.stock = stock, .repeat = 1};
    for (size_t i = 0; i < core->in->shape_count; i++) {
        bench->used[i] = 0;
        bench->full[i] = bench->left[i] == 0 || !nest_fits_box(core, i, stock);
    }
}

static sw_status fill_up(nest_core *core, nest_bench *bench, const nest_way *way)
{
    size_t shapes = core->in->shape_count;
    for (size_t i = 0; way->share > 0 && i < shapes; i++) {
        size_t kind = way->order[i];
        SW_TRY(fill_kind(core, bench, way, kind, share_of(bench->left[kind], way->share)));
    }
    for (size_t i = 0; i < shapes; i++) SW_TRY(fill_kind(core, bench, way, way->order[i], bench->left[way->order[i]]));
    return SW_OK;
}

sw_status nest_fill(nest_core *core, nest_bench *bench, const nest_way *way, size_t stock, bool rows_first)
{
    start_sheet(core, bench, stock, rows_first);
    if (core->sheets[stock].block != SIZE_MAX)
        SW_TRY(put_spot(core, &bench->trial, (nest_spot){.turned = core->sheets[stock].block}));
    return fill_up(core, bench, way);
}

sw_status nest_fill_round(nest_core *core, nest_bench *bench, const nest_way *way, size_t stock, const nest_spot *spots,
                          size_t count)
{
    start_sheet(core, bench, stock, false);
    for (size_t i = 0; i < count; i++) {
        size_t kind = core->turned[spots[i].turned].shape;
        if (bench->used[kind] < bench->left[kind]) SW_TRY(place(core, bench, spots[i]));
    }
    return fill_up(core, bench, way);
}
