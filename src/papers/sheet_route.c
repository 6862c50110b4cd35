/* sheet_route.c: the route and cost sheet: route of every piece and body, load of the stations, the batch over time, where the
 * money goes, what would change it. Its parts stand in the dossier, too. */
#include "papers/shop_parts.h"

#include <math.h>

static sw_status load_drawn(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_load(run, doc->d, pen, box);
}

/* From day a, b days; b 0: the whole. */
static sw_status schedule_drawn(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    double day_s = schedule_day_s(doc->d);
    time_span span = {day_s * (double)a, day_s * (double)(a + b)};
    if (b == 0) span.to_s = doc->d->shop.line->plan->makespan_s * 1.01;
    return draw_schedule(run, doc->d, span, pen, box);
}

static sw_status cost_drawn(sw_run *run, const doc_book *doc, size_t lines, size_t b, sw_pen *pen, sw_box box)
{
    (void)b;
    return draw_cost(run, doc->d, lines, pen, box);
}

static sw_status batches_drawn(sw_run *run, const doc_book *doc, size_t a, size_t b, sw_pen *pen, sw_box box)
{
    (void)a, (void)b;
    return draw_batches(run, doc->d, pen, box);
}

static sw_status figure(sw_run *run, doc_book *doc, doc_figure shape, const char *text)
{
    if (text == NULL) return SW_NO_MEMORY;
    return doc_add(run, doc, (doc_block){.kind = DOC_FIGURE, .text = text, .figure = shape});
}

/* ---- in words -------------------------------------------------------------------------------------------------------- */

static const char *slowest_words(sw_run *run, const sw_line_result *r)
{
    if (r->bottleneck >= r->load_count) return "";
    const sw_line_load *l = &r->loads[r->bottleneck];
    if (!isfinite(r->takt_s))
        return sw_text_format(run, run->scratch, "The bottleneck is %s: a stove every %.0f min at best. ", l->station,
                              sw_min_from_s(l->pace_s));
    return sw_text_format(run, run->scratch,
                          "The bottleneck is %s: a stove every %.0f min at best; the wanted number a week asks for one "
                          "every %.0f min (takt). ",
                          l->station, sw_min_from_s(l->pace_s), sw_min_from_s(r->takt_s));
}

static const char *plan_words(sw_run *run, const sw_dossier *d)
{
    const sw_line_plan *p = d->shop.line->plan;
    if (p == NULL) return "No schedule: a finding says what is missing.";
    const char *days = isfinite(p->days) ? sw_text_format(run, run->scratch, ", %.1f days", p->days) : "";
    if (days == NULL) return NULL;
    return sw_text_format(
        run, run->scratch,
        "The batch of %zu takes %.1f h of working time%s; no schedule can take less than %.1f h (%s), "
        "so this one is at most %.0f %% too long. A stove is %.1f h under way, %.1f are at once, and "
        "at most %zu people work at one time.",
        d->batch, sw_h_from_s(p->makespan_s), days, sw_h_from_s(p->bound_s), p->bound_by, 100 * p->gap,
        sw_h_from_s(p->flow_s), p->under_way_mean, p->people_most);
}

sw_status line_summary(sw_run *run, doc_book *doc)
{
    const sw_line_result *r = doc->d->shop.line;
    const sw_line_cost *c = &r->cost;
    const char *slowest = slowest_words(run, r), *plan = plan_words(run, doc->d),
               *unit = shop_money(run, doc->d, c->unit), *base = shop_money(run, doc->d, c->base),
               *batch = shop_money(run, doc->d, c->batch), *credit = shop_money(run, doc->d, c->credit);
    if (slowest == NULL || plan == NULL || unit == NULL || base == NULL || batch == NULL || credit == NULL)
        return SW_NO_MEMORY;
    SW_TRY(doc_paragraph(run, doc, sw_text_format(run, run->scratch, "%s%s", slowest, plan)));
    return doc_paragraph(run, doc,
                         sw_text_format(run, run->scratch,
                                        "One stove costs %s, with overhead %s; the batch %s. Scrap and kept remnants "
                                        "(%s a stove) are already taken off. Computed from the times of the other "
                                        "studies and the rates of the works' description: no profit, no tax, no waste "
                                        "by mistakes.",
                                        unit, base, batch, credit));
}

/* ---- figures ------------------------------------------------------------------------------------------------------------ */

sw_status line_load_figure(sw_run *run, doc_book *doc)
{
    return figure(run, doc, (doc_figure){.draw = load_drawn, .height_mm = load_high_mm(doc->d)},
                  "Load of the stations by one stove; the slowest in rust.");
}

sw_status line_schedule_figure(sw_run *run, doc_book *doc)
{
    if (!shop_has_plan(doc->d)) return SW_OK;
    return figure(
        run, doc, (doc_figure){.draw = schedule_drawn, .height_mm = schedule_high_mm(doc->d)},
        "The batch over working time. A row a machine, the numbers are stoves; the bottleneck in rust. Below: "
        "stoves begun and not finished, people at work.");
}

sw_status line_cost_figures(sw_run *run, doc_book *doc, size_t lines)
{
    const sw_dossier *d = doc->d;
    SW_TRY(figure(run, doc, (doc_figure){.draw = cost_drawn, .a = lines, .height_mm = cost_high_mm(d, lines)},
                  "Where the money of one stove goes, most first."));
    if (d->shop.line->batch_cost_count == 0) return SW_OK;
    return figure(
        run, doc, (doc_figure){.draw = batches_drawn, .height_mm = bars_high_mm(d->shop.line->batch_cost_count)},
        "Cost of one stove over the size of the batch, each set-up once a batch; a schedule may set up oftener.");
}

/* ---- the sheet ------------------------------------------------------------------------------------------------------------ */

/* The schedule in pages of so many days that at most six are needed. */
static sw_status days(sw_run *run, doc_book *doc)
{
    const double most_pages = 6;
    double total = ceil(doc->d->shop.line->plan->makespan_s / schedule_day_s(doc->d) - 1e-9),
           each = fmax(1, ceil(total / most_pages));
    if (total < 2) return SW_OK;
    for (int k = 0; k * each < total; k++) {
        double from = k * each;
        double last = fmin(from + each, total);
        const char *text = each > 1 && last > from + 1
                               ? sw_text_format(run, run->scratch, "Days %.0f to %.0f.", from + 1, last)
                               : sw_text_format(run, run->scratch, "Day %.0f.", from + 1);
        SW_TRY(figure(
            run, doc,
            (doc_figure){
                .draw = schedule_drawn, .a = (size_t)from, .b = (size_t)each, .height_mm = schedule_high_mm(doc->d)},
            text));
    }
    return SW_OK;
}

static sw_status content(sw_run *run, doc_book *doc)
{
    SW_TRY(line_summary(run, doc));
    SW_TRY(doc_heading(run, doc, 1, "Load"));
    SW_TRY(line_load_figure(run, doc));
    if (shop_has_plan(doc->d)) {
        SW_TRY(doc_heading(run, doc, 1, "Schedule"));
        SW_TRY(line_schedule_figure(run, doc));
        SW_TRY(days(run, doc));
    }
    SW_TRY(doc_heading(run, doc, 1, "Cost"));
    SW_TRY(line_cost_figures(run, doc, 28));
    SW_TRY(what_if_table(run, doc));
    SW_TRY(doc_heading(run, doc, 1, "Route"));
    return route_tables(run, doc);
}

static sw_status made(sw_run *run, const paper_desk *desk, const char *path)
{
    const sw_dossier *d = desk->d;
    doc_book doc = {.d = d,
                    .desk = desk,
                    .title = sw_text_format(run, run->scratch, "%s: route and cost", d->model.stove->title),
                    .subtitle = sw_text_format(run, run->scratch,
                                               "Sheet of %s. Works: %s. Batch of %zu. stovewright " SW_VERSION ".",
                                               d->date, d->model.works->name, d->batch)};
    if (doc.title == NULL || doc.subtitle == NULL) return SW_NO_MEMORY;
    SW_TRY(content(run, &doc));
    return doc_to_pdf(run, &doc, path);
}

sw_status paper_route(sw_run *run, const paper_desk *desk, const char *path)
{
    size_t mark = sw_arena_mark(run->scratch);
    sw_status status = made(run, desk, path);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
