/* line_build.c: the tasks of one stove from simple figures of its pieces and bodies. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

typedef struct list { /* indices of tasks */
    size_t *items, count, room;
} list;

typedef struct builder {
    sw_run *run;
    const sw_line_figures *in;
    sw_line_task *tasks;
    size_t count, room;
    list *parts;   /* [body_count] last tasks of its pieces, then of itself */
    list *ends;    /* [body_count] what must be done before it is built in */
    list stove;    /* ends of what is the stove's own */
    size_t *steps; /* [step_count] task of each */
} builder;

static const char *text_of(const char *text)
{
    return text == NULL ? "" : text;
}

static sw_status put(builder *b, list *l, size_t task)
{
    size_t *items = sw_grow(b->run, b->run->scratch, l->items, l->count, &l->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    l->items = items;
    l->items[l->count++] = task;
    return SW_OK;
}

static sw_status put_all(builder *b, list *l, const list *more)
{
    for (size_t i = 0; i < more->count; i++) SW_TRY(put(b, l, more->items[i]));
    return SW_OK;
}

/* Handling of one piece or body at the station where the task will be done. */
static double handling_s(const builder *b, const sw_line_task *t, double mass_kg)
{
    size_t k = line_station_of(b->in->works, t->operation, t->station);
    if (k == LINE_NONE) return 0;
    return b->in->works->stations[k].each_s + b->in->works->stations[k].per_kg_s * mass_kg;
}

/* Appends a task behind those of `before`, which becomes this task alone. */
static sw_status add(builder *b, sw_line_task task, double mass_kg, list *before)
{
    sw_line_task *tasks = sw_grow(b->run, b->run->scratch, b->tasks, b->count, &b->room, sizeof *tasks);
    size_t *after = SW_KEEP(b->run, before->count + 1, size_t);
    if (tasks == NULL || after == NULL) return SW_NO_MEMORY;
    b->tasks = tasks;
    for (size_t i = 0; i < before->count; i++) after[i] = before->items[i];
    task.after = after;
    task.after_count = before->count;
    task.count = task.count > 0 ? task.count : 1;
    task.station = text_of(task.station);
    task.set_up_group = text_of(task.set_up_group);
    if (task.name == NULL)
        task.name = sw_text_format(b->run, b->run->keep, "%s %s", sw_operation_name(task.operation), task.part);
    if (task.name == NULL) return SW_NO_MEMORY;
    task.run_s += handling_s(b, &task, mass_kg);
    b->tasks[b->count] = task;
    before->count = 0;
    return put(b, before, b->count++);
}

static sw_status deburr_s(builder *b, const sw_line_piece *p, double *run_s)
{
    size_t k = line_station_of(b->in->works, SW_OP_DEBURR, "");
    *run_s = 0;
    if (k == LINE_NONE) return SW_OK; /* the study says that the station is missing */
    const sw_station *s = &b->in->works->stations[k];
    if (!(s->deburr_mm_s > 0))
        return sw_fail(b->run, SW_BAD_INPUT, s->place, "deburr",
                       "station %s has no deburring speed, and %s has an edge of "
                       "%g mm to deburr; give the speed",
                       s->name, p->name, p->edge_mm);
    *run_s = p->edge_mm / s->deburr_mm_s;
    return SW_OK;
}

static sw_status add_piece(builder *b, const sw_line_piece *p, list *into)
{
    list last = {0};
    double edge_s = 0;
    if (p->edge_mm > 0) SW_TRY(deburr_s(b, p, &edge_s));
    const sw_line_task steps[] = {
        {.operation = SW_OP_CUT, .run_s = p->cut_s, .set_up_s = p->cut_set_up_s, .set_up_group = p->cut_group},
        {.operation = SW_OP_DEBURR, .run_s = edge_s},
        {.operation = SW_OP_BEND, .run_s = p->bend_s, .set_up_s = p->bend_set_up_s, .set_up_group = p->bend_group},
        {.operation = SW_OP_ROLL, .run_s = p->roll_s, .set_up_s = p->roll_set_up_s, .set_up_group = p->roll_group}};
    const bool wanted[] = {p->cut_s != 0, p->edge_mm > 0, p->bend_s != 0, p->roll_s != 0};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
        sw_line_task t = steps[i];
        if (!wanted[i]) continue;
        t.part = p->name;
        t.count = p->count;
        SW_TRY(add(b, t, p->mass_kg, &last));
    }
    return put_all(b, into, &last);
}

static sw_status add_body(builder *b, const sw_line_body *p, list *last)
{
    const sw_line_task steps[] = {
        {.operation = SW_OP_TACK, .run_s = p->tack_s},
        {.operation = SW_OP_WELD,
         .run_s = p->weld_s,
         .set_up_s = p->weld_set_up_s,
         .set_up_group = p->name,
         .station = p->weld_station,
         .unattended = p->weld_unattended},
        {.operation = SW_OP_HAND_WELD, .run_s = p->hand_weld_s, .station = p->hand_station},
        {.operation = SW_OP_LEAK, .run_s = p->leak_s},
        {.operation = SW_OP_BLAST,
         .run_s = p->blast_s,
         .set_up_s = p->blast_set_up_s,
         .set_up_group = "blasting",
         .unattended = p->blast_unattended},
        {.operation = SW_OP_COAT,
         .run_s = p->coat_s,
         .set_up_s = p->coat_set_up_s,
         .set_up_group = p->coat_group,
         .rest_s = p->dry_s},
        {.operation = SW_OP_CURE, .run_s = p->cure_s, .unattended = 1, .together = p->cure_together}};
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++) {
        sw_line_task t = steps[i];
        if (t.run_s == 0) continue;
        t.part = p->name;
        if (t.operation == SW_OP_HAND_WELD) {
            t.name = sw_text_format(b->run, b->run->keep, "weld %s by hand", p->name);
            if (t.name == NULL) return SW_NO_MEMORY;
        }
        SW_TRY(add(b, t, p->mass_kg, last));
    }
    return SW_OK;
}

static size_t body_index(const sw_line_figures *in, const char *name)
{
    for (size_t i = 0; i < in->body_count; i++)
        if (strcmp(in->bodies[i].name, text_of(name)) == 0) return i;
    return LINE_NONE;
}

static size_t step_index(const sw_line_figures *in, const char *name, size_t length)
{
    for (size_t i = 0; i < in->step_count; i++)
        if (strlen(in->steps[i].name) == length && strncmp(in->steps[i].name, name, length) == 0) return i;
    return LINE_NONE;
}

/* Next name of "a, b, c": its length; *rest goes behind it. 0 = none left. */
static size_t next_name(const char **name, const char **rest)
{
    *name = *rest + strspn(*rest, ", ");
    size_t length = strcspn(*name, ",");
    *rest = *name + length;
    return length;
}

static sw_status check_names(builder *b)
{
    const sw_line_figures *in = b->in;
    size_t before = b->run->error_count;
    const sw_place place = in->works->place;
    for (size_t i = 0; i < in->piece_count; i++)
        if (text_of(in->pieces[i].body)[0] != '\0' && body_index(in, in->pieces[i].body) == LINE_NONE)
            (void)sw_fail(b->run, SW_BAD_INPUT, place, "body", "piece %s belongs to \"%s\", which is no body",
                          in->pieces[i].name, in->pieces[i].body);
    for (size_t i = 0; i < in->body_count; i++)
        if (text_of(in->bodies[i].into)[0] != '\0' && body_index(in, in->bodies[i].into) == LINE_NONE)
            (void)sw_fail(b->run, SW_BAD_INPUT, place, "into", "body %s is built into \"%s\", which is no body",
                          in->bodies[i].name, in->bodies[i].into);
    for (size_t i = 0; i < in->step_count; i++) {
        const sw_line_step *s = &in->steps[i];
        if (text_of(s->body)[0] != '\0' && body_index(in, s->body) == LINE_NONE)
            (void)sw_fail(b->run, SW_BAD_INPUT, place, "body", "step %s belongs to \"%s\", which is no body", s->name,
                          s->body);
        const char *name, *rest = text_of(s->after);
        for (size_t n = next_name(&name, &rest); n > 0; n = next_name(&name, &rest))
            if (step_index(in, name, n) == LINE_NONE)
                (void)sw_fail(b->run, SW_BAD_INPUT, place, "after", "step %s comes after \"%.*s\", which is no step",
                              s->name, (int)n, name);
    }
    return b->run->error_count > before ? SW_BAD_INPUT : SW_OK;
}

typedef struct names { /* bodies first, then steps */
    const sw_line_figures *in;
} names;

static const char *name_of(const void *of, size_t i)
{
    const sw_line_figures *in = ((const names *)of)->in;
    return i < in->body_count ? in->bodies[i].name : in->steps[i - in->body_count].name;
}

/* Which body of `i` waits: children before the steps of their parent, all that is not built in before those of the stove. */
static bool body_before(const sw_line_figures *in, size_t i, size_t own)
{
    return body_index(in, in->bodies[i].into) == own;
}

/* Bodies and steps in an order in which they can be finished; a body is finished with all its steps and all that is built
 * into it. */
static sw_status order_all(builder *b, line_graph *graph)
{
    const sw_line_figures *in = b->in;
    size_t n = in->body_count + in->step_count, most = in->body_count + 1, count = 0;
    for (size_t k = 0; k < in->step_count; k++) most += strlen(text_of(in->steps[k].after)) + 2 + in->body_count;
    sw_before *before = SW_SCRATCH(b->run, most, sw_before);
    if (before == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < in->body_count; i++) {
        size_t into = body_index(in, in->bodies[i].into);
        if (into != LINE_NONE) before[count++] = (sw_before){i, into};
    }
    for (size_t k = 0; k < in->step_count; k++) {
        size_t own = body_index(in, in->steps[k].body);
        if (own != LINE_NONE) before[count++] = (sw_before){in->body_count + k, own};
        for (size_t i = 0; i < in->body_count; i++)
            if (body_before(in, i, own)) before[count++] = (sw_before){i, in->body_count + k};
        const char *name, *rest = text_of(in->steps[k].after);
        for (size_t l = next_name(&name, &rest); l > 0; l = next_name(&name, &rest))
            before[count++] = (sw_before){in->body_count + step_index(in, name, l), in->body_count + k};
    }
    SW_TRY(line_graph_make(b->run, n, before, count, graph));
    if (graph->sorted == n) return SW_OK;
    const char *ring = "";
    SW_TRY(line_graph_ring(b->run, graph, name_of, &(names){in}, &ring));
    return sw_fail(b->run, SW_BAD_INPUT, in->works->place, "into", "bodies and steps wait for each other: %s", ring);
}

/* All that must be there before the first step of a body (LINE_NONE: of the stove): its own parts, as far as they are
 * made, and what is built into it. */
static sw_status gather(builder *b, size_t body, list *all)
{
    SW_TRY(put_all(b, all, body == LINE_NONE ? &b->stove : &b->parts[body]));
    for (size_t i = 0; i < b->in->body_count; i++)
        if (body_before(b->in, i, body)) SW_TRY(put_all(b, all, &b->ends[i]));
    return SW_OK;
}

static double mass_of(const sw_line_figures *in, size_t body)
{
    if (body != LINE_NONE) return in->bodies[body].mass_kg;
    double sum_kg = 0;
    for (size_t i = 0; i < in->body_count; i++)
        if (body_before(in, i, LINE_NONE)) sum_kg += in->bodies[i].mass_kg;
    return sum_kg;
}

static sw_status add_step(builder *b, size_t k)
{
    const sw_line_step *s = &b->in->steps[k];
    size_t body = body_index(b->in, s->body);
    list before = {0};
    bool follows = false; /* another step of its own body */
    const char *name, *rest = text_of(s->after);
    for (size_t n = next_name(&name, &rest); n > 0; n = next_name(&name, &rest)) {
        size_t other = step_index(b->in, name, n);
        follows = follows || body_index(b->in, b->in->steps[other].body) == body;
        SW_TRY(put(b, &before, b->steps[other]));
    }
    if (!follows) SW_TRY(gather(b, body, &before));
    sw_line_task t = {.name = s->name, .operation = s->operation, .run_s = s->run_s};
    t.part = body == LINE_NONE ? "stove" : s->body;
    SW_TRY(add(b, t, mass_of(b->in, body), &before));
    b->steps[k] = b->count - 1;
    return body == LINE_NONE ? SW_OK : put_all(b, &b->ends[body], &before);
}

/* A body is worked on when its pieces and what is built into it are there. */
static sw_status add_whole(builder *b, size_t body)
{
    for (size_t i = 0; i < b->in->body_count; i++)
        if (body_before(b->in, i, body)) SW_TRY(put_all(b, &b->parts[body], &b->parts[i]));
    return add_body(b, &b->in->bodies[body], &b->parts[body]);
}

static sw_status build(builder *b, const line_graph *graph)
{
    const sw_line_figures *in = b->in;
    for (size_t i = 0; i < in->piece_count; i++) {
        size_t body = body_index(in, in->pieces[i].body);
        SW_TRY(add_piece(b, &in->pieces[i], body == LINE_NONE ? &b->stove : &b->parts[body]));
    }
    for (size_t k = 0; k < graph->sorted; k++)
        if (graph->order[k] < in->body_count) SW_TRY(add_whole(b, graph->order[k]));
    for (size_t k = 0; k < graph->sorted; k++) {
        size_t i = graph->order[k];
        if (i >= in->body_count) {
            SW_TRY(add_step(b, i - in->body_count));
        } else if (b->ends[i].count == 0) { /* no steps of its own */
            SW_TRY(gather(b, i, &b->ends[i]));
        }
    }
    return SW_OK;
}

static sw_status make(sw_run *run, const sw_line_figures *in, const sw_line_task **tasks, size_t *count)
{
    builder b = {.run = run, .in = in};
    line_graph graph;
    SW_TRY(check_names(&b));
    b.parts = SW_SCRATCH(run, in->body_count + 1, list);
    b.ends = SW_SCRATCH(run, in->body_count + 1, list);
    b.steps = SW_SCRATCH(run, in->step_count + 1, size_t);
    if (b.parts == NULL || b.ends == NULL || b.steps == NULL) return SW_NO_MEMORY;
    SW_TRY(order_all(&b, &graph));
    SW_TRY(build(&b, &graph));
    sw_line_task *kept = SW_KEEP(run, b.count + 1, sw_line_task);
    if (kept == NULL) return SW_NO_MEMORY;
    if (b.count > 0) memcpy(kept, b.tasks, b.count * sizeof *kept);
    *tasks = kept;
    *count = b.count;
    return SW_OK;
}

sw_status sw_line_tasks_make(sw_run *run, const sw_line_figures *figures, const sw_line_task **tasks, size_t *count)
{
    size_t mark = sw_arena_mark(run->scratch);
    *tasks = NULL;
    *count = 0;
    sw_status status = make(run, figures, tasks, count);
    sw_arena_rewind(run->scratch, mark);
    return status;
}
