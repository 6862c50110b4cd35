/* line_cost.c: what one stove and the batch cost, and where the money goes.
 *
 * An hour of a machine with its people costs its station's rate; the part of it that is people stops when they leave a
 * machine that runs on alone. Set-ups are those of the schedule, or each group once where there is none. Workshop handbook
 * 12.4: overhead on top of the unit cost. */
#include "making/line/line_parts.h"

#include <stdlib.h>
#include <string.h>

static double idle_money(const line_job *job, const line_outcome *o)
{
    double sum = 0, people_s = (double)job->people * o->makespan_s - o->people_s;
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        const sw_line_load *l = &job->loads[k];
        if (p->task_count == 0) continue;
        double idle_s = (double)p->machines * o->makespan_s - l->set_up_s - l->run_s;
        if (idle_s > 0) sum += sw_h_from_s(idle_s) * (p->rate_h - p->labour_h);
    }
    if (people_s > 0) sum += sw_h_from_s(people_s) * job->in->works->labour.rate_h;
    return sum / (double)job->batch;
}

/* Hours of one stove at a station: machine without people, people while they run it. */
static void station_money(const line_job *job, size_t k, double *machine, double *labour)
{
    const line_place *p = &job->places[k];
    *machine = *labour = 0;
    for (size_t a = 0; a < p->task_count; a++) {
        const line_work *w = &job->works[p->tasks[a]];
        double runs = line_runs(job, w) / (double)job->batch;
        *machine += sw_h_from_s(w->run_s * runs) * (p->rate_h - p->labour_h);
        *labour += sw_h_from_s(w->attended_s * runs) * p->labour_h;
    }
}

static double set_up_money(const line_job *job, size_t k)
{
    return sw_h_from_s(job->loads[k].set_up_s) * job->places[k].rate_h / (double)job->batch;
}

static double overhead_of(const line_job *job, double unit)
{
    return unit * job->in->works->labour.overhead;
}

line_sum line_cost_sum(const line_job *job, const line_outcome *outcome)
{
    line_sum s = {0};
    for (size_t i = 0; i < job->in->material_count; i++) {
        const sw_line_material *m = &job->in->materials[i];
        s.by_kind[m->kind] += m->cost - m->credit;
        s.credit += m->credit;
    }
    for (size_t k = 0; k < job->stations; k++) {
        const line_place *p = &job->places[k];
        double machine, labour, set_up = set_up_money(job, k);
        station_money(job, k, &machine, &labour);
        s.by_kind[SW_MONEY_MACHINE] += machine;
        s.by_kind[SW_MONEY_LABOUR] += labour;
        s.by_kind[SW_MONEY_SET_UP] += set_up;
        s.labour += labour + (p->rate_h > 0 ? set_up * p->labour_h / p->rate_h : 0);
    }
    for (int k = 0; k < SW_MONEY_OVERHEAD; k++) s.unit += s.by_kind[k];
    s.by_kind[SW_MONEY_OVERHEAD] = overhead_of(job, s.unit);
    s.idle = outcome != NULL ? idle_money(job, outcome) : 0;
    return s;
}

const char *sw_line_money_name(sw_line_money kind)
{
    static const char *const names[SW_MONEYS] = {"sheet",  "bought item", "consumable", "machine",
                                                 "labour", "set-up",      "overhead"};
    return (size_t)kind < SW_MONEYS ? names[kind] : "";
}

static int by_money(const void *a, const void *b)
{
    const sw_line_cost_line *x = a, *y = b;
    if (x->stove != y->stove) return x->stove > y->stove ? -1 : 1;
    if (x->kind != y->kind) return x->kind < y->kind ? -1 : 1;
    return strcmp(x->name, y->name);
}

static void add_line(sw_line_cost *cost, sw_line_cost_line *lines, const char *name, sw_line_money kind, double money)
{
    if (money == 0) return;
    lines[cost->line_count++] = (sw_line_cost_line){name, kind, money, money / cost->base};
}

static sw_status tell_lines(sw_run *run, const line_job *job, sw_line_cost *cost)
{
    size_t room = job->in->material_count + 3 * job->stations + 1;
    sw_line_cost_line *lines = SW_KEEP(run, room, sw_line_cost_line);
    if (lines == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->in->material_count; i++) {
        const sw_line_material *m = &job->in->materials[i];
        add_line(cost, lines, m->name, m->kind, m->cost - m->credit);
    }
    for (size_t k = 0; k < job->stations; k++) {
        const char *name = job->in->works->stations[k].name;
        double machine, labour;
        station_money(job, k, &machine, &labour);
        add_line(cost, lines, name, SW_MONEY_MACHINE, machine);
        add_line(cost, lines, name, SW_MONEY_LABOUR, labour);
        add_line(cost, lines, name, SW_MONEY_SET_UP, set_up_money(job, k));
    }
    add_line(cost, lines, "overhead", SW_MONEY_OVERHEAD, cost->by_kind[SW_MONEY_OVERHEAD]);
    qsort(lines, cost->line_count, sizeof *lines, by_money);
    cost->lines = lines;
    return SW_OK;
}

/* Ovens are counted as in the batch planned. */
static sw_status tell_batches(sw_run *run, line_job *job, double unit)
{
    static const size_t sizes[] = {1, 2, 5, 10, 20, 50};
    enum { SIZES = sizeof sizes / sizeof *sizes };
    sw_line_batch_cost *costs = SW_KEEP(run, SIZES, sw_line_batch_cost);
    if (costs == NULL) return SW_NO_MEMORY;
    double set_ups = 0, rest = unit - job->result->cost.by_kind[SW_MONEY_SET_UP];
    for (size_t k = 0; k < job->stations; k++) set_ups += sw_h_from_s(job->places[k].least_s) * job->places[k].rate_h;
    job->result->cost.set_up_least = set_ups / (double)job->batch;
    for (size_t i = 0; i < SIZES; i++) {
        sw_unit_cost c = sw_unit_cost_of(rest, set_ups, (double)sizes[i], 0, 0, job->in->works->labour.overhead);
        costs[i] = (sw_line_batch_cost){sizes[i], c.unit, c.base};
    }
    job->result->batch_costs = costs;
    job->result->batch_cost_count = SIZES;
    return SW_OK;
}

sw_status line_cost(sw_run *run, line_job *job)
{
    sw_line_cost *cost = &job->result->cost;
    line_sum sum = line_cost_sum(job, job->result->plan != NULL ? &job->outcome : NULL);
    for (int k = 0; k < SW_MONEYS; k++) cost->by_kind[k] = sum.by_kind[k];
    cost->credit = sum.credit;
    cost->unit = sum.unit;
    cost->base = sum.unit + sum.by_kind[SW_MONEY_OVERHEAD];
    cost->batch = cost->base * (double)job->batch;
    cost->idle = sum.idle;
    SW_TRY(tell_lines(run, job, cost));
    return tell_batches(run, job, sum.unit);
}
