/* line_check.c: refuses figures that cannot be, all of them at once. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

static const double longest_s = 1e7; /* ours: four months of one machine; far above any task of a stove */
static const double dearest = 1e9;   /* ours */

typedef struct check {
    sw_run *run;
    const sw_line_input *in;
} check;

static void bad(const check *c, sw_status status, const char *field, const char *name, const char *text, double got)
{
    (void)sw_fail(c->run, status, c->in->works->place, field, "%s: %s; got %g", name, text, got);
}

static bool within(double x, double low, double high)
{
    return x >= low && x <= high;
}

static const char *text_of(const char *text)
{
    return text == NULL ? "" : text;
}

static bool station_known(const sw_works *works, const char *name)
{
    for (size_t k = 0; k < works->station_count; k++)
        if (strcmp(works->stations[k].name, name) == 0) return true;
    return false;
}

static void check_task(const check *c, const sw_line_task *t)
{
    const char *name = t->name;
    if (!within(t->run_s, 0, longest_s)) bad(c, SW_OUT_OF_RANGE, "run_s", name, "a run takes 0 to 1e7 s", t->run_s);
    if (!within(t->set_up_s, 0, longest_s))
        bad(c, SW_OUT_OF_RANGE, "set_up_s", name, "a set-up takes 0 to 1e7 s", t->set_up_s);
    if (!within(t->rest_s, 0, longest_s)) bad(c, SW_OUT_OF_RANGE, "rest_s", name, "a rest takes 0 to 1e7 s", t->rest_s);
    if (!within(t->unattended, 0, 1))
        bad(c, SW_OUT_OF_RANGE, "unattended", name, "the unattended share is 0 to 1", t->unattended);
    if (!within((double)t->count, 1, 1e4))
        bad(c, SW_OUT_OF_RANGE, "count", name, "a stove has 1 to 10000 of it", (double)t->count);
    if ((size_t)t->operation >= SW_OPERATIONS)
        bad(c, SW_BAD_INPUT, "operation", name, "there is no such operation", (double)t->operation);
    for (size_t a = 0; a < t->after_count; a++)
        if (t->after[a] >= c->in->task_count)
            bad(c, SW_BAD_INPUT, "after", name, "a predecessor is not among the tasks", (double)t->after[a]);
    if (text_of(t->station)[0] != '\0' && !station_known(c->in->works, t->station))
        (void)sw_fail(c->run, SW_BAD_INPUT, c->in->works->place, "station",
                      "%s: the works have no station \"%s\"; name one of theirs or leave it to the operation", name,
                      t->station);
}

static void check_material(const check *c, const sw_line_material *m)
{
    if (!within(m->cost, 0, dearest)) bad(c, SW_OUT_OF_RANGE, "cost", m->name, "a material costs 0 to 1e9", m->cost);
    if (!within(m->credit, 0, dearest)) bad(c, SW_OUT_OF_RANGE, "credit", m->name, "a credit is 0 to 1e9", m->credit);
    if (m->kind != SW_MONEY_SHEET && m->kind != SW_MONEY_ITEM && m->kind != SW_MONEY_CONSUMABLE)
        bad(c, SW_BAD_INPUT, "kind", m->name, "a material is a sheet, an item or a consumable", (double)m->kind);
}

static void check_station(const check *c, const sw_station *s)
{
    size_t before = c->run->error_count;
    if (!within(s->up, 0, 1)) bad(c, SW_OUT_OF_RANGE, "up", s->name, "the share it runs is 0 to 1", s->up);
    if (!within(s->rate_h, 0, dearest)) bad(c, SW_OUT_OF_RANGE, "rate", s->name, "an hour costs 0 to 1e9", s->rate_h);
    if (s->machines > 1000) bad(c, SW_OUT_OF_RANGE, "machines", s->name, "0 to 1000 machines", (double)s->machines);
    if (s->people > 1000) bad(c, SW_OUT_OF_RANGE, "people", s->name, "0 to 1000 people", (double)s->people);
    for (size_t i = before; i < c->run->error_count && i < SW_ERROR_MAX; i++) c->run->errors[i].place = s->place;
}

static void check_labour(const check *c)
{
    const sw_labour *l = &c->in->works->labour;
    const double figures[] = {l->shift_s, l->shifts_day, l->days_week, l->rate_h, l->overhead, l->wanted_week};
    static const char *const names[] = {"shift", "shifts a day", "days a week", "rate", "overhead", "wanted a week"};
    for (size_t i = 0; i < sizeof figures / sizeof *figures; i++)
        if (!within(figures[i], 0, 1e6)) bad(c, SW_OUT_OF_RANGE, "labour", names[i], "give 0 to 1e6", figures[i]);
}

static void check_batch(const check *c)
{
    const sw_line_input *in = c->in;
    if (in->batch < 1 || in->batch > SW_LINE_BATCH)
        bad(c, SW_OUT_OF_RANGE, "batch", "batch", "1 to 200 stoves can be planned", (double)in->batch);
    if (in->task_count < 1 || in->task_count > SW_LINE_TASKS)
        bad(c, SW_OUT_OF_RANGE, "tasks", "tasks", "1 to 1000 tasks can be planned", (double)in->task_count);
    if (in->people > 1000) bad(c, SW_OUT_OF_RANGE, "people", "people", "0 to 1000 people", (double)in->people);
    if (in->works->station_count > 200)
        bad(c, SW_OUT_OF_RANGE, "stations", "stations", "0 to 200 stations", (double)in->works->station_count);
}

static const char *task_name(const void *of, size_t i)
{
    return ((const sw_line_input *)of)->tasks[i].name;
}

/* A task that waits for itself, over others or at once. */
static sw_status check_rings(sw_run *run, const sw_line_input *in)
{
    size_t pairs = 0;
    for (size_t i = 0; i < in->task_count; i++) pairs += in->tasks[i].after_count;
    sw_before *before = SW_SCRATCH(run, pairs + 1, sw_before);
    if (before == NULL) return SW_NO_MEMORY;
    pairs = 0;
    for (size_t i = 0; i < in->task_count; i++)
        for (size_t a = 0; a < in->tasks[i].after_count; a++) before[pairs++] = (sw_before){in->tasks[i].after[a], i};
    line_graph graph;
    SW_TRY(line_graph_make(run, in->task_count, before, pairs, &graph));
    if (graph.sorted == in->task_count) return SW_OK;
    const char *ring = "";
    SW_TRY(line_graph_ring(run, &graph, task_name, in, &ring));
    return sw_fail(run, SW_BAD_INPUT, in->works->place, "after", "tasks wait for each other: %s; take one of them out",
                   ring);
}

sw_status line_check(sw_run *run, const sw_line_input *in, const sw_line_options *opt)
{
    check c = {run, in};
    size_t count, before = run->error_count;
    const sw_option *table = sw_line_option_table(&count);
    SW_ASSERT(opt->made_by_defaults == SW_DEFAULTS_MARK);
    SW_ASSERT(in->works != NULL);
    (void)sw_options_check(run, table, count, opt);
    check_batch(&c);
    if (run->error_count > before) return run->errors[before < SW_ERROR_MAX ? before : 0].status;
    for (size_t i = 0; i < in->task_count; i++) check_task(&c, &in->tasks[i]);
    for (size_t i = 0; i < in->material_count; i++) check_material(&c, &in->materials[i]);
    for (size_t i = 0; i < in->works->station_count; i++) check_station(&c, &in->works->stations[i]);
    check_labour(&c);
    if (run->error_count > before) return run->errors[before < SW_ERROR_MAX ? before : 0].status;
    return check_rings(run, in);
}
