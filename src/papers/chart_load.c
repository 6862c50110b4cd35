/* chart_load.c: load of the stations against takt, where the money goes, unit cost over the batch. */
#include "papers/chart_parts.h"
#include "papers/shop_parts.h"

#include <math.h>

/* ---- load ------------------------------------------------------------------------------------------------------------ */

static size_t used_stations(const sw_line_result *r)
{
    size_t count = 0;
    for (size_t i = 0; i < r->load_count; i++) count += r->loads[i].tasks > 0;
    return count;
}

double load_high_mm(const sw_dossier *d)
{
    return bars_high_mm(used_stations(d->shop.line));
}

static sw_status load_row(sw_run *run, const sw_dossier *d, size_t i, bar_row *row)
{
    const sw_line_result *r = d->shop.line;
    const sw_line_load *l = &r->loads[i];
    double work = l->set_up_s + l->run_s, pace = isfinite(l->pace_s) ? l->pace_s : 0,
           share = work > 0 ? l->set_up_s / work : 0;
    *row = (bar_row){.name = l->station,
                     .hatched = sw_min_from_s(pace * share),
                     .filled = sw_min_from_s(pace * (1 - share)),
                     .fill = i == r->bottleneck ? look_rust(0) : look_group(0),
                     .accent = i == r->bottleneck,
                     .values = {shop_minutes(run, l->pace_s),
                                isfinite(l->busy) ? sw_text_format(run, run->scratch, "%.0f %%", 100 * l->busy) : "",
                                sw_text_format(run, run->scratch, "%zu \xc3\x97 %zu", l->machines, l->people)}};
    return row->values[0] == NULL || row->values[1] == NULL || row->values[2] == NULL ? SW_NO_MEMORY : SW_OK;
}

sw_status draw_load(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    const sw_line_result *r = d->shop.line;
    size_t count = 0;
    bar_row *rows = SW_SCRATCH(run, r->load_count + 1, bar_row);
    if (rows == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < r->load_count; i++)
        if (r->loads[i].tasks > 0) SW_TRY(load_row(run, d, i, &rows[count++]));
    const bar_chart c = {.rows = rows,
                         .count = count,
                         .x_name = "least time from stove to stove, min: set-ups hatched, run filled",
                         .titles = {"min", "in batch", "machines \xc3\x97 people"},
                         .title_mm = {11, 13, 31},
                         .name_mm = 32,
                         .mark = sw_min_from_s(r->takt_s),
                         .mark_name = isfinite(r->takt_s)
                                          ? sw_text_format(run, run->scratch, "takt %.0f min", sw_min_from_s(r->takt_s))
                                          : ""};
    return c.mark_name == NULL ? SW_NO_MEMORY : draw_bars(run, pen, box, &c);
}

/* ---- where the money goes ---------------------------------------------------------------------------------------------- */

/* One tone a kind: material warm, machines and set-ups cold, people rust. */
static sw_ink kind_ink(sw_line_money kind)
{
    static const size_t tones[SW_MONEYS] = {
        [SW_MONEY_SHEET] = 3,  [SW_MONEY_ITEM] = 6,   [SW_MONEY_CONSUMABLE] = 2, [SW_MONEY_MACHINE] = 4,
        [SW_MONEY_LABOUR] = 1, [SW_MONEY_SET_UP] = 7, [SW_MONEY_OVERHEAD] = 0};
    return look_group(tones[kind]);
}

typedef struct cost_rows {
    bar_row *rows;
    size_t count;
} cost_rows;

static sw_status cost_row(sw_run *run, cost_rows *all, const sw_line_cost_line *l, const char *kind)
{
    bar_row *row = &all->rows[all->count++];
    *row = (bar_row){.name = l->name,
                     .filled = fmax(0, l->stove),
                     .fill = kind_ink(l->kind),
                     .values = {kind, shop_fixed(run, l->stove, 2), shop_share(run, l->share, 1)}};
    return row->values[1] == NULL || row->values[2] == NULL ? SW_NO_MEMORY : SW_OK;
}

static size_t kinds_of(const sw_line_cost *c)
{
    size_t count = 0;
    for (int k = 0; k < SW_MONEYS; k++) count += c->by_kind[k] > 0;
    return count;
}

static size_t lines_paid(const sw_line_cost *c)
{
    size_t paid = 0;
    while (paid < c->line_count && c->lines[paid].stove > 0) paid++;
    return paid;
}

static size_t lines_shown(const sw_line_cost *c, size_t lines)
{
    size_t paid = lines_paid(c);
    return paid <= lines + 1 ? paid : lines; /* one more is not worth a row for the rest */
}

double cost_high_mm(const sw_dossier *d, size_t lines)
{
    const sw_line_cost *c = &d->shop.line->cost;
    size_t shown = lines_shown(c, lines);
    return bars_high_mm(kinds_of(c)) + bars_high_mm(shown + (lines_paid(c) > shown));
}

static sw_status bars_of(sw_run *run, const sw_dossier *d, const cost_rows *all, const char *what, sw_pen *pen,
                         sw_box box)
{
    const char *currency = d->model.works->currency;
    const bar_chart c = {
        .rows = all->rows,
        .count = all->count,
        .x_name = sw_text_format(run, run->scratch, "%s, %s for one stove of a batch of %zu", what, currency, d->batch),
        .titles = {"", currency, "share"},
        .title_mm = {24, 15, 13},
        .name_mm = 46,
        .mark = NAN,
        .mark_name = ""};
    return c.x_name == NULL ? SW_NO_MEMORY : draw_bars(run, pen, box, &c);
}

/* The kinds by money, most first. */
static sw_status kind_rows(sw_run *run, const sw_dossier *d, cost_rows *all)
{
    const sw_line_cost *c = &d->shop.line->cost;
    bool told[SW_MONEYS] = {false};
    for (int i = 0; i < SW_MONEYS; i++) {
        int most = -1;
        for (int k = 0; k < SW_MONEYS; k++)
            if (!told[k] && c->by_kind[k] > 0 && (most < 0 || c->by_kind[k] > c->by_kind[most])) most = k;
        if (most < 0) return SW_OK;
        told[most] = true;
        sw_line_cost_line l = {sw_line_money_name((sw_line_money)most), (sw_line_money)most, c->by_kind[most],
                               c->by_kind[most] / fmax(c->base, 1e-9)};
        SW_TRY(cost_row(run, all, &l, ""));
    }
    return SW_OK;
}

static sw_status line_rows(sw_run *run, const sw_dossier *d, size_t lines, cost_rows *all)
{
    const sw_line_cost *c = &d->shop.line->cost;
    size_t shown = lines_shown(c, lines), rest = 0;
    double money = 0, share = 0;
    for (size_t i = 0; i < c->line_count; i++) {
        const sw_line_cost_line *l = &c->lines[i];
        if (i < shown) SW_TRY(cost_row(run, all, l, sw_line_money_name(l->kind)));
        if (i >= shown && l->stove > 0) rest++, money += l->stove, share += l->share;
    }
    if (rest == 0) return SW_OK;
    sw_line_cost_line l = {sw_text_format(run, run->scratch, "%zu lines more", rest), SW_MONEY_OVERHEAD, money, share};
    return l.name == NULL ? SW_NO_MEMORY : cost_row(run, all, &l, "");
}

sw_status draw_cost(sw_run *run, const sw_dossier *d, size_t lines, sw_pen *pen, sw_box box)
{
    const sw_line_cost *c = &d->shop.line->cost;
    cost_rows kinds = {SW_SCRATCH(run, SW_MONEYS + 1, bar_row), 0},
              all = {SW_SCRATCH(run, c->line_count + 2, bar_row), 0};
    if (kinds.rows == NULL || all.rows == NULL) return SW_NO_MEMORY;
    SW_TRY(kind_rows(run, d, &kinds));
    SW_TRY(line_rows(run, d, lines, &all));
    sw_box top = box;
    top.y1_mm = top.y0_mm + bars_high_mm(kinds.count);
    SW_TRY(bars_of(run, d, &kinds, "by kind", pen, top));
    return bars_of(run, d, &all, "largest lines", pen, (sw_box){box.x0_mm, top.y1_mm, box.x1_mm, box.y1_mm});
}

/* ---- unit cost over the batch ------------------------------------------------------------------------------------------- */

sw_status draw_batches(sw_run *run, const sw_dossier *d, sw_pen *pen, sw_box box)
{
    const sw_line_result *r = d->shop.line;
    const sw_line_cost *c = &r->cost;
    cost_rows all = {SW_SCRATCH(run, r->batch_cost_count + 1, bar_row), 0};
    if (all.rows == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < r->batch_cost_count; i++) {
        const sw_line_batch_cost *b = &r->batch_costs[i];
        double overhead = b->unit > 0 ? b->base / b->unit : 1,
               set_ups = c->set_up_least * (double)d->batch / (double)b->batch * overhead;
        bar_row *row = &all.rows[all.count++];
        *row = (bar_row){
            .name = sw_text_format(run, run->scratch, "batch of %zu", b->batch),
            .hatched = fmin(set_ups, b->base),
            .filled = fmax(0, b->base - set_ups),
            .fill = look_group(b->batch == d->batch ? 1 : 0),
            .values = {shop_fixed(run, set_ups, 2), shop_fixed(run, b->unit, 2), shop_fixed(run, b->base, 2)}};
        if (row->name == NULL || row->values[0] == NULL || row->values[1] == NULL || row->values[2] == NULL)
            return SW_NO_MEMORY;
    }
    const bar_chart drawn = {
        .rows = all.rows,
        .count = all.count,
        .x_name = sw_text_format(run, run->scratch, "one stove, %s: its set-ups hatched", d->model.works->currency),
        .titles = {"set-ups", "no overhead", "with"},
        .title_mm = {15, 19, 17},
        .name_mm = 24,
        .mark = NAN,
        .mark_name = ""};
    return drawn.x_name == NULL ? SW_NO_MEMORY : draw_bars(run, pen, box, &drawn);
}
