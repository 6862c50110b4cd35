/* route_tables.c: where each piece and body goes and how long it is there: a line each, a column a kind of work. */
#include "papers/shop_parts.h"

#include <math.h>
#include <string.h>

/* Pieces are cut to rolled, bodies tacked to cured, the rest is the stove's. */
typedef struct route_class {
    const char *title, *name;
    sw_operation first, last;
} route_class;
static const route_class classes[] = {{"Route of the pieces", "piece", SW_OP_CUT, SW_OP_ROLL},
                                      {"Route of the bodies", "body", SW_OP_TACK, SW_OP_CURE},
                                      {"Route of the stove", "part", SW_OP_LINE, SW_OP_PACK}};
enum { CLASSES = sizeof classes / sizeof *classes };

typedef struct route_job {
    sw_run *run;
    const sw_dossier *d;
    const route_class *class;
    const sw_line_task *tasks;
    const sw_line_route *routes;
    size_t count;
    bool used[SW_OPERATIONS]; /* has a column */
    double set_up_s[SW_OPERATIONS], run_s[SW_OPERATIONS];
} route_job;

static bool belongs(const route_job *job, size_t task)
{
    sw_operation o = job->tasks[task].operation;
    return o >= job->class->first && o <= job->class->last;
}

static bool told_before(const route_job *job, size_t task)
{
    for (size_t i = 0; i < task; i++)
        if (belongs(job, i) && strcmp(job->tasks[i].part, job->tasks[task].part) == 0) return true;
    return false;
}

/* The station's name where all work of the kind is done at one. */
static const char *column_title(const route_job *job, sw_operation operation)
{
    size_t station = SIZE_MAX;
    for (size_t i = 0; i < job->count; i++) {
        if (job->tasks[i].operation != operation) continue;
        if (station != SIZE_MAX && station != job->routes[i].station) return sw_operation_name(operation);
        station = job->routes[i].station;
    }
    if (station >= job->d->shop.line->load_count) return sw_operation_name(operation);
    return job->d->shop.line->loads[station].station;
}

/* "12.3", "8.0 + 12.3" with a set-up, a star on the longest way. */
static const char *one_cell(route_job *job, size_t i)
{
    const sw_line_route *r = &job->routes[i];
    const char *star = r->critical ? " *" : "", *work = shop_minutes(job->run, r->run_s);
    if (work == NULL) return NULL;
    if (!(r->set_up_s > 0)) return sw_text_format(job->run, job->run->scratch, "%s%s", work, star);
    return sw_text_format(job->run, job->run->scratch, "%.0f + %s%s", sw_min_from_s(r->set_up_s), work, star);
}

static const char *cell(route_job *job, const char *part, sw_operation operation)
{
    const char *text = "";
    for (size_t i = 0; i < job->count && text != NULL; i++) {
        if (job->tasks[i].operation != operation || strcmp(job->tasks[i].part, part) != 0) continue;
        const char *one = one_cell(job, i);
        if (one == NULL) return NULL;
        text = text[0] == '\0' ? one : sw_text_format(job->run, job->run->scratch, "%s, %s", text, one);
        job->run_s[operation] += job->routes[i].run_s;
    }
    return text;
}

static sw_status part_row(route_job *job, doc_table *table, size_t task)
{
    const sw_line_task *t = &job->tasks[task];
    const char *cells[SW_OPERATIONS + 2] = {t->part, sw_text_format(job->run, job->run->scratch, "%zu", t->count)};
    size_t n = 2;
    for (int o = (int)job->class->first; o <= (int)job->class->last; o++)
        if (job->used[o]) cells[n++] = cell(job, t->part, (sw_operation)o);
    return doc_row(job->run, table, cells);
}

static sw_status sum_row(route_job *job, doc_table *table)
{
    const char *cells[SW_OPERATIONS + 2] = {"run of one stove, min", ""};
    size_t n = 2;
    for (int o = (int)job->class->first; o <= (int)job->class->last; o++)
        if (job->used[o]) cells[n++] = shop_minutes(job->run, job->run_s[o]);
    return doc_row(job->run, table, cells);
}

static sw_status class_table(route_job *job, doc_book *doc)
{
    doc_column *columns = SW_SCRATCH(job->run, SW_OPERATIONS + 2, doc_column);
    doc_table table = {.columns = columns, .dense = true};
    if (columns == NULL) return SW_NO_MEMORY;
    memset(job->used, 0, sizeof job->used);
    for (size_t i = 0; i < job->count; i++)
        if (belongs(job, i)) job->used[job->tasks[i].operation] = true;
    columns[table.column_count++] = (doc_column){job->class->name, 3.0, SW_LEFT};
    columns[table.column_count++] = (doc_column){"in a stove", 0.6, SW_RIGHT};
    for (int o = (int)job->class->first; o <= (int)job->class->last; o++)
        if (job->used[o])
            columns[table.column_count++] = (doc_column){column_title(job, (sw_operation)o), 1.1, SW_RIGHT};
    for (size_t i = 0; i < job->count; i++)
        if (belongs(job, i) && !told_before(job, i)) SW_TRY(part_row(job, &table, i));
    if (table.rows == 0) return SW_OK;
    SW_TRY(sum_row(job, &table));
    SW_TRY(doc_heading(job->run, doc, 2, job->class->title));
    return doc_put_table(job->run, doc, &table);
}

sw_status route_tables(sw_run *run, doc_book *doc)
{
    const sw_dossier *d = doc->d;
    route_job job = {.run = run,
                     .d = d,
                     .tasks = d->shop.line_in->tasks,
                     .routes = d->shop.line->routes,
                     .count = d->shop.line->route_count};
    SW_TRY(doc_paragraph(run, doc,
                         "Minutes for all of one stove: set-up + run, where a set-up is shared by all that needs the "
                         "same tools. A star: on the longest way through the works."));
    for (size_t i = 0; i < CLASSES; i++) {
        job.class = &classes[i];
        SW_TRY(class_table(&job, doc));
    }
    return SW_OK;
}

/* ---- what if ------------------------------------------------------------------------------------------------------------ */

static const char *change(sw_run *run, double value, int decimals)
{
    double least = 0.5 * pow(10, -decimals);
    if (!isfinite(value)) return "\xe2\x80\x93";
    if (fabs(value) < least) return "0";
    return sw_text_format(run, run->scratch, "%+.*f", decimals, value);
}

sw_status what_if_table(sw_run *run, doc_book *doc)
{
    const sw_line_result *r = doc->d->shop.line;
    const char *currency = doc->d->model.works->currency,
               *cost = sw_text_format(run, run->scratch, "one stove, %s", currency),
               *idle = sw_text_format(run, run->scratch, "idle, %s", currency);
    const doc_column told[] = {{"what if", 3.4, SW_LEFT}, {"hours of the batch", 1.1, SW_RIGHT},
                               {"change", 0.8, SW_RIGHT}, {"days", 0.7, SW_RIGHT},
                               {"change", 0.8, SW_RIGHT}, {"slowest, min", 1.0, SW_RIGHT},
                               {cost, 1.1, SW_RIGHT},     {"change", 0.8, SW_RIGHT},
                               {idle, 0.9, SW_RIGHT},     {"change", 0.8, SW_RIGHT}};
    doc_column *columns = SW_SCRATCH(run, 10, doc_column); /* read when the pages are drawn */
    doc_table table = {.columns = columns, .column_count = 10, .dense = true};
    if (r->what_if_count == 0) return SW_OK;
    if (cost == NULL || idle == NULL || columns == NULL) return SW_NO_MEMORY;
    memcpy(columns, told, sizeof told);
    for (size_t i = 0; i < r->what_if_count; i++) {
        const sw_line_what_if *w = &r->what_ifs[i];
        const char *const cells[] = {w->what,
                                     shop_fixed(run, sw_h_from_s(w->makespan_s), 1),
                                     change(run, sw_h_from_s(w->makespan_change_s), 1),
                                     shop_fixed(run, w->days, 1),
                                     change(run, w->days_change, 1),
                                     shop_minutes(run, w->pace_s),
                                     shop_fixed(run, w->unit, 2),
                                     change(run, w->unit_change, 2),
                                     shop_fixed(run, w->idle, 2),
                                     change(run, w->idle_change, 2)};
        SW_TRY(doc_row(run, &table, cells));
    }
    SW_TRY(doc_heading(run, doc, 2, "What if"));
    SW_TRY(doc_paragraph(run, doc,
                         "Each alone, against the works as they are; the cost of a machine counts at its hourly rate "
                         "while it works, so that one more costs only what it stands idle."));
    return doc_put_table(run, doc, &table);
}
