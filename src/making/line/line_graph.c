/* line_graph.c: what must be done before what: sorted, or the ring that forbids it. */
#include "making/line/line_parts.h"

#include <string.h>

static size_t *listed(sw_run *run, size_t count, const sw_before *pairs, size_t pair_count, bool back, size_t **first)
{
    *first = SW_SCRATCH(run, count + 2, size_t);
    size_t *list = SW_SCRATCH(run, pair_count + 1, size_t);
    if (*first == NULL || list == NULL) return NULL;
    for (size_t i = 0; i < pair_count; i++) (*first)[(back ? pairs[i].then : pairs[i].first) + 2]++;
    for (size_t i = 2; i < count + 2; i++) (*first)[i] += (*first)[i - 1];
    for (size_t i = 0; i < pair_count; i++)
        list[(*first)[(back ? pairs[i].then : pairs[i].first) + 1]++] = back ? pairs[i].first : pairs[i].then;
    return list;
}

sw_status line_graph_make(sw_run *run, size_t count, const sw_before *pairs, size_t pair_count, line_graph *graph)
{
    size_t *before_first = NULL, *after_first = NULL;
    *graph = (line_graph){.count = count};
    graph->after = listed(run, count, pairs, pair_count, false, &after_first);
    graph->before = listed(run, count, pairs, pair_count, true, &before_first);
    graph->order = SW_SCRATCH(run, count + 1, size_t);
    size_t *open = SW_SCRATCH(run, count + 1, size_t);
    if (graph->after == NULL || graph->before == NULL || graph->order == NULL || open == NULL) return SW_NO_MEMORY;
    graph->after_first = after_first;
    graph->before_first = before_first;
    for (size_t i = 0; i < count; i++) open[i] = before_first[i + 1] - before_first[i];
    for (size_t i = 0; i < count; i++)
        if (open[i] == 0) graph->order[graph->sorted++] = i;
    for (size_t k = 0; k < graph->sorted; k++) {
        size_t i = graph->order[k];
        for (size_t a = after_first[i]; a < after_first[i + 1]; a++)
            if (--open[graph->after[a]] == 0) graph->order[graph->sorted++] = graph->after[a];
    }
    return SW_OK;
}

/* Whoever was not sorted has somebody before it that was not either: going back must close. */
static size_t walk_back(const line_graph *graph, const bool *sorted, size_t *ring, size_t *seen)
{
    size_t at = 0, count = 0;
    while (sorted[at]) at++;
    while (seen[at] == 0) {
        ring[count++] = at;
        seen[at] = count;
        for (size_t b = graph->before_first[at]; b < graph->before_first[at + 1]; b++)
            if (!sorted[graph->before[b]]) {
                at = graph->before[b];
                break;
            }
    }
    size_t from = seen[at] - 1;
    memmove(ring, ring + from, (count - from) * sizeof *ring);
    return count - from;
}

sw_status line_graph_ring(sw_run *run, const line_graph *graph, const char *(*name)(const void *of, size_t i),
                          const void *of, const char **text)
{
    bool *sorted = SW_SCRATCH(run, graph->count, bool);
    size_t *ring = SW_SCRATCH(run, graph->count, size_t), *seen = SW_SCRATCH(run, graph->count, size_t);
    if (sorted == NULL || ring == NULL || seen == NULL) return SW_NO_MEMORY;
    for (size_t k = 0; k < graph->sorted; k++) sorted[graph->order[k]] = true;
    size_t count = walk_back(graph, sorted, ring, seen);
    *text = name(of, ring[0]);
    for (size_t k = count; k-- > 0 && *text != NULL;) {
        if (count - k > 6 && k > 0) continue;
        *text = sw_text_format(run, run->scratch, count - k == 6 && k > 0 ? "%s, ... , %s" : "%s, %s", *text,
                               name(of, ring[k]));
    }
    return *text == NULL ? SW_NO_MEMORY : SW_OK;
}
