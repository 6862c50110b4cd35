/* edges.c: the segments of contours, taken apart once, and the boxes over them. */
#include "geometry/edges_parts.h"

static void *room_in(sw_run *run, sw_arena *into, size_t count, size_t size)
{
    return into == run->keep ? sw_keep(run, count, size) : sw_scratch(run, count, size);
}

static void fill_segments(const sw_contour *contours, size_t count, segment *segments, sw_box *boxes)
{
    size_t n = 0;
    for (size_t k = 0; k < count; k++)
        for (size_t i = 0; i < contours[k].n; i++, n++) {
            segments[n] = segment_of(contours[k], i);
            boxes[n] = segments[n].box;
        }
}

static size_t runs_over(size_t count)
{
    return (count + RUN - 1) / RUN;
}

/* How many boxes all levels take together. */
static size_t boxes_over(size_t count)
{
    size_t total = count;
    while (count > 1) total += count = runs_over(count);
    return total;
}

static void fill_runs(sw_edges *e, sw_box *boxes)
{
    size_t count = e->count;
    e->boxes[0] = boxes;
    while (count > 1) {
        sw_box *above = boxes + count;
        for (size_t i = 0; i < count; i++)
            above[i / RUN] = i % RUN == 0 ? boxes[i] : box_union(above[i / RUN], boxes[i]);
        count = runs_over(count);
        e->boxes[++e->top] = boxes = above;
    }
}

sw_status sw_edges_make(sw_run *run, sw_arena *into, const sw_contour *contours, size_t count, const sw_edges **edges)
{
    size_t n = 0;
    *edges = NULL;
    for (size_t k = 0; k < count; k++) n += contours[k].n;
    sw_edges *e = room_in(run, into, 1, sizeof *e);
    segment *segments = room_in(run, into, n, sizeof *segments);
    sw_box *boxes = room_in(run, into, boxes_over(n), sizeof *boxes);
    if (e == NULL || segments == NULL || boxes == NULL) return SW_NO_MEMORY;
    fill_segments(contours, count, segments, boxes);
    e->segments = segments;
    e->count = n;
    fill_runs(e, boxes);
    *edges = e;
    return SW_OK;
}

sw_status sw_edges_of_region(sw_run *run, sw_arena *into, const sw_region *r, const sw_edges **edges)
{
    sw_contour *all = room_in(run, into, r->hole_count + 1, sizeof *all);
    if (all == NULL) return SW_NO_MEMORY;
    all[0] = r->outline;
    for (size_t h = 0; h < r->hole_count; h++) all[h + 1] = r->holes[h];
    return sw_edges_make(run, into, all, r->hole_count + 1, edges);
}

sw_box sw_edges_box(const sw_edges *e)
{
    return e->count == 0 ? box_empty() : e->boxes[e->top][0];
}
