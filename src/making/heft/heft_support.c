/* heft_support.c: what the stove stands on and when it tips.
 *
 * Support is the convex hull, seen from above, of all points of folded pieces and of items with a shape that lie less
 * than 5 mm above the floor (ours: feet of one stove are level to less than that, and a sheet's mid-surface lies half
 * a thickness above its lower face). */
#include "making/heft/heft_parts.h"

#include <math.h>
#include <stdlib.h>

static const double standing_mm = 5.0;

typedef struct floor_points {
    sw_point *points;
    size_t count, room;
} floor_points;

static sw_status add_if_low(sw_run *run, floor_points *low, sw_vec3 p)
{
    if (p.z_mm >= standing_mm) return SW_OK;
    sw_point *points = sw_grow(run, run->scratch, low->points, low->count, &low->room, sizeof *points);
    if (points == NULL) return SW_NO_MEMORY;
    low->points = points;
    low->points[low->count++] = (sw_point){p.x_mm, p.y_mm};
    return SW_OK;
}

static sw_status add_mesh(sw_run *run, floor_points *low, const sw_mesh *mesh, sw_frame frame)
{
    for (size_t i = 0; i < mesh->point_count; i++) SW_TRY(add_if_low(run, low, sw_frame_point(frame, mesh->points[i])));
    return SW_OK;
}

/* Points of the outline, arcs in 16 parts, at one height of the frame. */
static sw_status add_outline(sw_run *run, floor_points *low, sw_contour c, double z_mm, sw_frame frame)
{
    for (size_t i = 0; i < c.n; i++) {
        const sw_vertex *next = &c.v[(i + 1) % c.n];
        int parts = fabs(c.v[i].bulge) < SW_FLAT_BULGE ? 1 : 16;
        for (int k = 0; k < parts; k++) {
            sw_point p = sw_segment_point(c.v[i], (sw_point){next->x_mm, next->y_mm}, (double)k / parts);
            SW_TRY(add_if_low(run, low, sw_frame_point(frame, (sw_vec3){p.x_mm, p.y_mm, z_mm})));
        }
    }
    return SW_OK;
}

static sw_status add_piece(sw_run *run, const heft_job *job, floor_points *low, size_t i)
{
    const sw_piece *piece = &job->in->stove->pieces[i];
    for (size_t k = 0; k < piece->count; k++) {
        if (job->in->meshes != NULL)
            SW_TRY(add_mesh(run, low, job->in->meshes[i], piece->placements[k]));
        else
            SW_TRY(add_outline(run, low, piece->faces[0].region.outline, 0, piece->placements[k]));
    }
    return SW_OK;
}

static sw_status add_item(sw_run *run, floor_points *low, const sw_item *item)
{
    for (size_t k = 0; k < item->count; k++) {
        SW_TRY(add_outline(run, low, item->shape.outline, 0, item->placements[k]));
        SW_TRY(add_outline(run, low, item->shape.outline, item->thickness_mm, item->placements[k]));
    }
    return SW_OK;
}

static double turn(sw_point a, sw_point b, sw_point c)
{
    return (b.x_mm - a.x_mm) * (c.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - a.x_mm);
}

double sw_tip_angle_over_rad(const sw_point *support, size_t count, sw_vec3 centre, size_t *edge)
{
    double least_rad = NAN;
    if (count < 3) return least_rad;
    for (size_t i = 0; i < count; i++) {
        sw_point a = support[i], b = support[(i + 1) % count];
        double inside_mm = turn(a, b, (sw_point){centre.x_mm, centre.y_mm}) / hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
        double angle_rad = sw_tip_angle_rad(inside_mm, centre.z_mm);
        if (i > 0 && angle_rad >= least_rad) continue;
        least_rad = angle_rad;
        *edge = i;
    }
    return least_rad;
}

sw_status heft_support(sw_run *run, heft_job *job)
{
    const sw_stove *stove = job->in->stove;
    floor_points low = {0};
    job->result->tip_rad = NAN;
    for (size_t i = 0; i < stove->piece_count; i++) SW_TRY(add_piece(run, job, &low, i));
    for (size_t i = 0; i < stove->item_count; i++) SW_TRY(add_item(run, &low, &stove->items[i]));
    if (low.count < 3 || !(job->result->stove.mass_kg > 0)) return SW_OK;
    sw_point *hull = SW_KEEP(run, 2 * low.count, sw_point);
    if (hull == NULL) return SW_NO_MEMORY;
    size_t edge;
    job->result->support = hull;
    job->result->support_count = sw_points_hull(low.points, low.count, hull);
    job->result->tip_rad = sw_tip_angle_over_rad(hull, job->result->support_count, job->result->stove.centre, &edge);
    return SW_OK;
}
