/* fittings_grate.c: room beside a grate and gaps between its bars. */
#include "making/fittings/fittings_parts.h"

#include <math.h>
#include <string.h>

enum { ARC_PARTS = 16 };

static size_t flatten(sw_contour c, sw_point *points)
{
    size_t count = 0;
    for (size_t i = 0; i < c.n; i++) {
        sw_point to = {c.v[(i + 1) % c.n].x_mm, c.v[(i + 1) % c.n].y_mm};
        int parts = fabs(c.v[i].bulge) < SW_FLAT_BULGE ? 1 : ARC_PARTS;
        for (int k = 0; k < parts; k++) points[count++] = sw_segment_point(c.v[i], to, (double)k / parts);
    }
    return count;
}

/* Least distance of two parallel lines that hold the points: one lies along a side of their hull. */
static double least_width_mm(const sw_point *hull, size_t count)
{
    double least_mm = INFINITY;
    for (size_t i = 0; i < count; i++) {
        sw_point a = hull[i], b = hull[(i + 1) % count];
        double l_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm), most_mm = 0;
        for (size_t k = 0; k < count; k++)
            most_mm = fmax(most_mm,
                           ((b.x_mm - a.x_mm) * (hull[k].y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (hull[k].x_mm - a.x_mm)) /
                               l_mm);
        least_mm = fmin(least_mm, most_mm);
    }
    return least_mm;
}

static sw_status bars(sw_run *run, sw_grate *grate)
{
    const sw_region *shape = &grate->item->shape;
    for (size_t h = 0; h < shape->hole_count; h++) {
        sw_point *points = SW_SCRATCH(run, ARC_PARTS * shape->holes[h].n, sw_point);
        sw_point *hull = SW_SCRATCH(run, 2 * ARC_PARTS * shape->holes[h].n, sw_point);
        if (points == NULL || hull == NULL) return SW_NO_MEMORY;
        size_t count = flatten(shape->holes[h], points);
        double width_mm = least_width_mm(hull, sw_points_hull(points, count, hull));
        grate->bar_least_mm = fmin(grate->bar_least_mm, width_mm); /* NAN at first: the other counts */
        grate->bar_most_mm = fmax(grate->bar_most_mm, width_mm);
    }
    return SW_OK;
}

static sw_status grate_of(sw_run *run, const fittings_job *job, const sw_item *item, sw_grate *grate)
{
    sw_box b = sw_contour_box(item->shape.outline);
    const double size_mm[2] = {b.x1_mm - b.x0_mm, b.y1_mm - b.y0_mm};
    bool found;
    double t_k = fittings_hot_k(job, item, false, &found), rise_k = t_k - sw_k_from_c(20);
    double per_k = rise_k > 0 ? sw_fit_elongation(SW_CAST_IRON, t_k) / rise_k : 0;
    *grate = (sw_grate){.item = item, .bar_least_mm = NAN, .bar_most_mm = NAN};
    for (int a = 0; a < 2; a++) grate->need_mm[a] = sw_grate_clearance_mm(size_mm[a], per_k, rise_k);
    return bars(run, grate);
}

sw_status fittings_grates(sw_run *run, fittings_job *job)
{
    const sw_stove *stove = job->in->stove;
    sw_grate *grates = SW_KEEP(run, stove->item_count, sw_grate);
    if (grates == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < stove->item_count; i++) {
        const sw_item *item = &stove->items[i];
        if (strcmp(item->role, "grate") != 0 || item->shape.outline.n == 0) continue;
        SW_TRY(grate_of(run, job, item, &grates[job->result->grate_count++]));
    }
    job->result->grates = grates;
    return SW_OK;
}
