/* json_line.c: route, load, schedule and cost in the answer for machines. Counts of machines and stoves begin at 1. */
#include "papers/json_shop_parts.h"

#include <math.h>

static void routes(json_out *j, const sw_dossier *d)
{
    const sw_line_result *r = d->shop.line;
    json_begin(j, "route", '[');
    for (size_t i = 0; i < r->route_count; i++) {
        const sw_line_route *k = &r->routes[i];
        const sw_line_task *t = &d->shop.line_in->tasks[k->task];
        json_begin(j, NULL, '{');
        json_text(j, "task", t->name);
        json_text(j, "part", t->part);
        json_text(j, "operation", sw_operation_name(t->operation));
        json_text(j, "station", k->station < r->load_count ? r->loads[k->station].station : NULL);
        json_count(j, "count", t->count);
        json_number(j, "set_up_s", k->set_up_s);
        json_text(j, "set_up_group", t->set_up_group);
        json_number(j, "run_s", k->run_s);
        json_truth(j, "critical", k->critical);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void loads(json_out *j, const sw_line_result *r)
{
    json_begin(j, "stations", '[');
    for (size_t i = 0; i < r->load_count; i++) {
        const sw_line_load *l = &r->loads[i];
        json_begin(j, NULL, '{');
        json_text(j, "name", l->station);
        json_count(j, "machines", l->machines);
        json_count(j, "people", l->people);
        json_count(j, "tasks", l->tasks);
        json_count(j, "set_ups", l->set_ups);
        json_number(j, "set_up_s", l->set_up_s);
        json_number(j, "run_s", l->run_s);
        json_number(j, "stove_s", l->stove_s);
        json_number(j, "pace_s", l->pace_s);
        json_number(j, "busy", l->busy);
        json_number(j, "busy_wanted", l->busy_wanted);
        json_number(j, "blocked_s", l->blocked_s);
        json_number(j, "starved_s", l->starved_s);
        json_number(j, "queue_s", l->queue_s);
        json_number(j, "rate_h", l->rate_h);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void levels(json_out *j, const char *key, const sw_line_level *l, size_t count)
{
    json_begin(j, key, '[');
    for (size_t i = 0; i < count; i++) {
        json_begin(j, NULL, '{');
        json_number(j, "at_s", l[i].at_s);
        json_count(j, "count", l[i].count);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void bars(json_out *j, const sw_dossier *d, const sw_line_plan *p)
{
    json_begin(j, "bars", '[');
    for (size_t i = 0; i < p->bar_count; i++) {
        const sw_line_bar *b = &p->bars[i];
        json_begin(j, NULL, '{');
        json_text(j, "station", d->shop.line->loads[b->station].station);
        json_count(j, "machine", b->machine + 1);
        json_count(j, "task", b->task);
        json_count(j, "stove", b->stove + 1);
        json_count(j, "stoves", b->stoves);
        json_number(j, "start_s", b->start_s);
        json_number(j, "run_from_s", b->run_from_s);
        json_number(j, "end_s", b->end_s);
        json_end(j, '}');
    }
    json_end(j, ']');
}

static void plan(json_out *j, const sw_dossier *d)
{
    const sw_line_plan *p = d->shop.line->plan;
    if (p == NULL) {
        json_nothing(j, "schedule");
        return;
    }
    json_begin(j, "schedule", '{');
    json_number(j, "makespan_s", p->makespan_s);
    json_number(j, "bound_s", p->bound_s);
    json_number(j, "gap", p->gap);
    json_text(j, "bound_by", p->bound_by);
    json_truth(j, "proved", p->proved);
    json_number(j, "shifts", p->shifts);
    json_number(j, "days", p->days);
    json_number(j, "weeks", p->weeks);
    json_number(j, "flow_s", p->flow_s);
    json_number(j, "under_way_mean", p->under_way_mean);
    json_count(j, "people_most", p->people_most);
    json_number(j, "people_busy", p->people_busy);
    json_count(j, "lot", p->lot);
    levels(j, "under_way", p->under_way, p->under_way_count);
    levels(j, "people", p->people, p->people_count);
    bars(j, d, p);
    json_end(j, '}');
}

static void cost(json_out *j, const sw_line_result *r)
{
    const sw_line_cost *c = &r->cost;
    json_begin(j, "cost", '{');
    json_number(j, "unit", c->unit);
    json_number(j, "base", c->base);
    json_number(j, "batch", c->batch);
    json_number(j, "credit", c->credit);
    json_number(j, "idle", c->idle);
    json_number(j, "set_up_least", c->set_up_least);
    json_begin(j, "by_kind", '{');
    for (int k = 0; k < SW_MONEYS; k++) json_number(j, sw_line_money_name((sw_line_money)k), c->by_kind[k]);
    json_end(j, '}');
    json_begin(j, "lines", '[');
    for (size_t i = 0; i < c->line_count; i++) {
        json_begin(j, NULL, '{');
        json_text(j, "name", c->lines[i].name);
        json_text(j, "kind", sw_line_money_name(c->lines[i].kind));
        json_number(j, "stove", c->lines[i].stove);
        json_number(j, "share", c->lines[i].share);
        json_end(j, '}');
    }
    json_end(j, ']');
    json_begin(j, "batches", '[');
    for (size_t i = 0; i < r->batch_cost_count; i++) {
        json_begin(j, NULL, '{');
        json_count(j, "batch", r->batch_costs[i].batch);
        json_number(j, "unit", r->batch_costs[i].unit);
        json_number(j, "base", r->batch_costs[i].base);
        json_end(j, '}');
    }
    json_end(j, ']');
    json_end(j, '}');
}

static void what_ifs(json_out *j, const sw_line_result *r)
{
    json_begin(j, "what_if", '[');
    for (size_t i = 0; i < r->what_if_count; i++) {
        const sw_line_what_if *w = &r->what_ifs[i];
        json_begin(j, NULL, '{');
        json_text(j, "what", w->what);
        json_text(j, "station", w->station < r->load_count ? r->loads[w->station].station : NULL);
        json_number(j, "makespan_s", w->makespan_s);
        json_number(j, "days", w->days);
        json_number(j, "pace_s", w->pace_s);
        json_number(j, "unit", w->unit);
        json_number(j, "idle", w->idle);
        json_number(j, "makespan_change_s", w->makespan_change_s);
        json_number(j, "days_change", w->days_change);
        json_number(j, "unit_change", w->unit_change);
        json_number(j, "idle_change", w->idle_change);
        json_end(j, '}');
    }
    json_end(j, ']');
}

void json_line(json_out *j, const sw_dossier *d)
{
    const sw_line_result *r = d->shop.line;
    if (r == NULL || d->shop.line_in == NULL) {
        json_nothing(j, "line");
        return;
    }
    json_begin(j, "line", '{');
    json_text(j, "bottleneck", r->bottleneck < r->load_count ? r->loads[r->bottleneck].station : NULL);
    json_number(j, "takt_s", r->takt_s);
    json_number(j, "stoves_week", r->week);
    json_number(j, "stoves_week_planned", r->week_planned);
    json_number(j, "longest_way_s", r->longest_way_s);
    json_count(j, "people", r->people);
    json_number(j, "people_needed", r->people_needed);
    routes(j, d);
    loads(j, r);
    plan(j, d);
    cost(j, r);
    what_ifs(j, r);
    json_end(j, '}');
}
