/* cut_clear.c: how far a lead-in is from what it must not touch. */
#include "making/cut/cut_clear.h"

#include <math.h>

static double distance(sw_point a, sw_point b)
{
    double dx = a.x_mm - b.x_mm, dy = a.y_mm - b.y_mm;
    return sqrt(dx * dx + dy * dy); /* hypot's care for overflow costs a quarter of the time */
}

/* ---- edges of the whole sheet ---- */

static sw_status add_contour(sw_run *run, sw_contour c, size_t part, cut_edges *edges)
{
    for (size_t i = 0; i < c.n; i++) {
        const sw_vertex pair[2] = {c.v[i], c.v[(i + 1) % c.n]};
        cut_edge *items = sw_grow(run, run->scratch, edges->items, edges->count, &edges->room, sizeof *items);
        if (items == NULL) return SW_NO_MEMORY;
        edges->items = items;
        cut_edge *e = &items[edges->count++];
        *e = (cut_edge){.a = {pair[0].x_mm, pair[0].y_mm}, .b = {pair[1].x_mm, pair[1].y_mm}, .part = part};
        e->arc = sw_segment_arc(pair[0], e->b);
        const sw_vertex bow[2] = {pair[0], {e->b.x_mm, e->b.y_mm, 0}};
        e->box = sw_contour_box((sw_contour){bow, 2});
    }
    return SW_OK;
}

static sw_status add_region(sw_run *run, const sw_region *r, size_t part, cut_edges *edges)
{
    SW_TRY(add_contour(run, r->outline, part, edges));
    for (size_t h = 0; h < r->hole_count; h++) SW_TRY(add_contour(run, r->holes[h], part, edges));
    return SW_OK;
}

sw_status cut_edges_make(sw_run *run, const cut_job *job, cut_edges *edges)
{
    *edges = (cut_edges){0};
    SW_TRY(add_region(run, &job->in->stock->shape, CUT_SHEET, edges));
    for (size_t p = 0; p < job->in->part_count; p++) SW_TRY(add_region(run, &job->in->parts[p].region, p, edges));
    return SW_OK;
}

/* ---- those within reach ---- */

static bool boxes_meet(sw_box a, sw_box b, double reach_mm)
{
    return a.x0_mm <= b.x1_mm + reach_mm && b.x0_mm <= a.x1_mm + reach_mm && a.y0_mm <= b.y1_mm + reach_mm &&
           b.y0_mm <= a.y1_mm + reach_mm;
}

sw_status cut_near_make(sw_run *run, const cut_job *job, const cut_edges *edges, const cut_loop *loop, cut_near *near)
{
    /* a small hole is entered from its centre, farther than a lead-in's length from its edge */
    double small_mm = loop->small ? hypot(loop->box.x1_mm - loop->box.x0_mm, loop->box.y1_mm - loop->box.y0_mm) : 0;
    *near = (cut_near){.job = job, .own = loop->part};
    near->reach_mm = fmax(1.2 * job->lead_mm, small_mm) + 2 * job->kerf_mm;
    near->edges = SW_SCRATCH(run, edges->count, const cut_edge *);
    near->local = SW_SCRATCH(run, edges->count, const cut_edge *);
    if (near->edges == NULL || near->local == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < edges->count; i++)
        if (boxes_meet(edges->items[i].box, loop->box, near->reach_mm)) near->edges[near->count++] = &edges->items[i];
    return SW_OK;
}

/* ---- distances ---- */

static double line_distance(const cut_edge *e, sw_point p)
{
    double dx = e->b.x_mm - e->a.x_mm, dy = e->b.y_mm - e->a.y_mm;
    double t = ((p.x_mm - e->a.x_mm) * dx + (p.y_mm - e->a.y_mm) * dy) / (dx * dx + dy * dy);
    if (!(t > 0)) return distance(e->a, p);
    if (t >= 1) return distance(e->b, p);
    return fabs((p.x_mm - e->a.x_mm) * dy - (p.y_mm - e->a.y_mm) * dx) / sqrt(dx * dx + dy * dy);
}

static double edge_distance(const cut_edge *e, sw_point p)
{
    if (!isfinite(e->arc.radius_mm)) return line_distance(e, p);
    double turned_rad = atan2(p.y_mm - e->arc.centre.y_mm, p.x_mm - e->arc.centre.x_mm) - e->arc.from_rad;
    if (e->arc.sweep_rad < 0) turned_rad = -turned_rad;
    turned_rad -= floor(turned_rad / (2 * SW_PI)) * 2 * SW_PI;
    if (turned_rad > fabs(e->arc.sweep_rad)) return fmin(distance(e->a, p), distance(e->b, p));
    return fabs(distance(e->arc.centre, p) - e->arc.radius_mm);
}

/* Twice the reach: a point may lie that far from p, and what is near it as far again. */
void cut_near_focus(cut_near *near, sw_point p)
{
    sw_box at = {p.x_mm, p.y_mm, p.x_mm, p.y_mm};
    near->local_count = 0;
    for (size_t i = 0; i < near->count; i++)
        if (boxes_meet(near->edges[i]->box, at, 2 * near->reach_mm)) near->local[near->local_count++] = near->edges[i];
}

double cut_clearance(const cut_near *near, sw_point p)
{
    double best = near->reach_mm, kerf_mm = near->job->kerf_mm;
    for (size_t i = 0; i < near->local_count; i++) {
        const cut_edge *e = near->local[i];
        double need_mm = e->part == near->own ? sw_kerf_offset_mm(kerf_mm) : kerf_mm;
        best = fmin(best, edge_distance(e, p) - need_mm);
    }
    return best;
}

static bool in_box(sw_box box, sw_point p)
{
    return p.x_mm >= box.x0_mm && p.x_mm <= box.x1_mm && p.y_mm >= box.y0_mm && p.y_mm <= box.y1_mm;
}

bool cut_on_scrap(const cut_near *near, sw_point p)
{
    const cut_job *job = near->job;
    if (sw_region_side(&job->in->stock->shape, p) <= 0) return false;
    for (size_t i = 0; i < job->in->part_count; i++)
        if (in_box(job->part_boxes[i], p) && sw_region_side(&job->in->parts[i].region, p) >= 0) return false;
    return true;
}

static bool stretch_clear(const cut_near *near, sw_vertex from, sw_point to, double t0, double t1, double length_mm)
{
    const double hair_mm = 0.01;
    double half_mm = (t1 - t0) / 2 * length_mm, middle = (t0 + t1) / 2;
    double clear_mm = cut_clearance(near, sw_segment_point(from, to, middle));
    if (clear_mm < -hair_mm) return false;
    if (clear_mm >= half_mm || half_mm < hair_mm) return true;
    return stretch_clear(near, from, to, t0, middle, length_mm) && stretch_clear(near, from, to, middle, t1, length_mm);
}

bool cut_segment_clear(const cut_near *near, sw_vertex from, sw_point to)
{
    double length_mm = sw_segment_length(from, to);
    return stretch_clear(near, from, to, 0, 1, length_mm);
}
