/* cut_clear.c: how far a lead-in is from what it must not touch. */
#include "making/cut/cut_clear.h"

#include <math.h>

static bool boxes_meet(sw_box a, sw_box b, double reach_mm)
{
    return a.x0_mm <= b.x1_mm + reach_mm && b.x0_mm <= a.x1_mm + reach_mm && a.y0_mm <= b.y1_mm + reach_mm &&
           b.y0_mm <= a.y1_mm + reach_mm;
}

sw_status cut_near_make(sw_run *run, const cut_job *job, const cut_loop *loop, cut_near *near)
{
    double reach_mm = job->lead_mm + 2 * job->kerf_mm;
    size_t count = 0;
    size_t *parts = SW_SCRATCH(run, job->in->part_count, size_t);
    if (parts == NULL) return SW_NO_MEMORY;
    for (size_t p = 0; p < job->in->part_count; p++)
        if (p == loop->part || boxes_meet(loop->box, job->part_boxes[p], reach_mm)) parts[count++] = p;
    *near = (cut_near){.job = job, .own = loop->part, .parts = parts, .count = count};
    return SW_OK;
}

static double box_distance(sw_box box, sw_point p)
{
    double dx = fmax(fmax(box.x0_mm - p.x_mm, p.x_mm - box.x1_mm), 0);
    double dy = fmax(fmax(box.y0_mm - p.y_mm, p.y_mm - box.y1_mm), 0);
    return hypot(dx, dy);
}

static double region_distance(const sw_region *r, sw_point p)
{
    double best = sw_contour_distance(r->outline, p);
    for (size_t h = 0; h < r->hole_count; h++) best = fmin(best, sw_contour_distance(r->holes[h], p));
    return best;
}

double cut_clearance(const cut_near *near, sw_point p)
{
    const cut_job *job = near->job;
    double best = region_distance(&job->in->stock->shape, p) - job->kerf_mm;
    for (size_t i = 0; i < near->count; i++) {
        size_t part = near->parts[i];
        double need_mm = part == near->own ? sw_kerf_offset_mm(job->kerf_mm) : job->kerf_mm;
        if (box_distance(job->part_boxes[part], p) - need_mm >= best) continue;
        best = fmin(best, region_distance(&job->in->parts[part].region, p) - need_mm);
    }
    return best;
}

bool cut_on_scrap(const cut_near *near, sw_point p)
{
    if (sw_region_side(&near->job->in->stock->shape, p) <= 0) return false;
    for (size_t i = 0; i < near->count; i++)
        if (sw_region_side(&near->job->in->parts[near->parts[i]].region, p) >= 0) return false;
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
