/* line_hand.c: the hand work shared out over people within takt: tacking, welding by hand, leak test, lining, assembly, test, packing. */
#include "making/line/line_parts.h"

#include <math.h>
#include <string.h>

static const double even_share = 0.1; /* ours: of the nodes, since it is several searches */

bool line_by_hand(const sw_line_task *task)
{
    switch (task->operation) {
    case SW_OP_TACK:
    case SW_OP_HAND_WELD:
    case SW_OP_LEAK:
    case SW_OP_LINE:
    case SW_OP_ASSEMBLE:
    case SW_OP_TEST:
    case SW_OP_PACK:
        return task->run_s > 0;
    default:
        return false;
    }
}

typedef struct hand { /* hand tasks: their indices, and back */
    size_t *tasks, *index, count;
    double *times_s, most_s;
    sw_before *before;
    size_t before_count, room;
} hand;

static sw_status list_hand(sw_run *run, const line_job *job, hand *h)
{
    size_t n = job->in->task_count;
    h->tasks = SW_KEEP(run, n, size_t);
    h->index = SW_SCRATCH(run, n, size_t);
    h->times_s = SW_SCRATCH(run, n, double);
    if (h->tasks == NULL || h->index == NULL || h->times_s == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < n; i++) {
        h->index[i] = LINE_NONE;
        if (!line_by_hand(&job->in->tasks[i])) continue;
        h->index[i] = h->count;
        h->tasks[h->count] = i;
        h->times_s[h->count++] = job->works[i].run_s;
        h->most_s = fmax(h->most_s, job->works[i].run_s);
    }
    return SW_OK;
}

/* From hand task to hand task over whatever else lies between. */
static sw_status link_from(sw_run *run, const line_job *job, hand *h, size_t from, bool *seen, size_t *stack)
{
    const line_graph *g = &job->graph;
    size_t high = 0;
    memset(seen, 0, g->count * sizeof *seen);
    stack[high++] = h->tasks[from];
    while (high > 0) {
        size_t i = stack[--high];
        for (size_t a = g->after_first[i]; a < g->after_first[i + 1]; a++) {
            size_t next = g->after[a];
            if (seen[next]) continue;
            seen[next] = true;
            if (h->index[next] == LINE_NONE) {
                stack[high++] = next;
                continue;
            }
            sw_before *list = sw_grow(run, run->scratch, h->before, h->before_count, &h->room, sizeof *list);
            if (list == NULL) return SW_NO_MEMORY;
            h->before = list;
            h->before[h->before_count++] = (sw_before){from, h->index[next]};
        }
    }
    return SW_OK;
}

double line_fullest_s(const sw_balance *b)
{
    double most_s = 0;
    for (size_t k = 0; k < b->stations; k++) most_s = fmax(most_s, b->loads_s[k]);
    return most_s;
}

/* Fewest places may leave one of them nearly idle: the same number with the shortest cycle. */
static sw_status even_out(sw_run *run, sw_line_result *r, sw_balance_input in)
{
    in.nodes = fmax(1, in.nodes * even_share);
    SW_TRY(sw_balance_cycle(run, &in, r->balance->stations, &r->balance_even));
    if (line_fullest_s(r->balance_even) > line_fullest_s(r->balance)) r->balance_even = r->balance; /* too few nodes */
    return SW_OK;
}

sw_status line_hand(sw_run *run, line_job *job)
{
    hand h = {0};
    size_t n = job->in->task_count;
    double takt_s = job->result->takt_s;
    bool *seen = SW_SCRATCH(run, n, bool);
    size_t *stack = SW_SCRATCH(run, n + 1, size_t);
    if (seen == NULL || stack == NULL) return SW_NO_MEMORY;
    SW_TRY(list_hand(run, job, &h));
    job->result->balance_tasks = h.tasks;
    job->result->balance_count = h.count;
    if (h.count == 0 || h.count > SW_BALANCE_TASKS || !(takt_s >= h.most_s)) return SW_OK;
    for (size_t k = 0; k < h.count; k++) SW_TRY(link_from(run, job, &h, k, seen, stack));
    sw_balance_input in = {h.times_s, h.count, h.before, h.before_count, job->opt->balance_nodes};
    sw_status status = sw_balance_stations(run, &in, takt_s, &job->result->balance);
    if (status == SW_OK) status = even_out(run, job->result, in);
    return status == SW_CANCELLED ? SW_OK : status;
}
