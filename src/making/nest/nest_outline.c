/* nest_outline.c: a region as straight rings that contain its material.
 *
 * Material lies to the left of every ring. An arc that bulges out of the material becomes tangents, one that
 * bulges into it becomes chords; both stay within error_mm and on the empty side. A reflex vertex whose pocket
 * is too small to be worth keeping is dropped, which only ever adds material. Derived. */
#include "making/nest/nest_parts.h"

#include <math.h>

enum { CHORDS_MOST = 512 };

static sw_status put_point(sw_run *run, nest_rings *rings, sw_point p)
{
    sw_point *points =
        sw_grow(run, run->scratch, rings->points, rings->point_count, &rings->point_room, sizeof *points);
    if (points == NULL) return SW_NO_MEMORY;
    rings->points = points;
    points[rings->point_count++] = p;
    return SW_OK;
}

static sw_status end_ring(sw_run *run, nest_rings *rings)
{
    size_t *ends = sw_grow(run, run->scratch, rings->ends, rings->ring_count, &rings->ring_room, sizeof *ends);
    if (ends == NULL) return SW_NO_MEMORY;
    rings->ends = ends;
    ends[rings->ring_count++] = rings->point_count;
    return SW_OK;
}

static size_t ring_first(const nest_rings *rings, size_t ring)
{
    return ring == 0 ? 0 : rings->ends[ring - 1];
}

static sw_point on_circle(sw_arc arc, double radius_mm, double angle_rad)
{
    return (sw_point){arc.centre.x_mm + radius_mm * cos(angle_rad), arc.centre.y_mm + radius_mm * sin(angle_rad)};
}

/* Steps of an arc so that each stays within error_mm: chord sagitta r (1 - cos(phi/2)), tangent excess
 * r (1/cos(phi/2) - 1). Small rounded corners are made sharp in one step: 2 error_mm. */
static size_t arc_steps(sw_arc arc, bool outward, double error_mm)
{
    double sweep = fabs(arc.sweep_rad);
    if (outward && sweep < 0.55 * SW_PI && arc.radius_mm * (1 / cos(sweep / 2) - 1) <= 2 * error_mm) return 1;
    double ratio = outward ? 1 / (1 + error_mm / arc.radius_mm) : 1 - error_mm / arc.radius_mm;
    double step = 2 * acos(fmax(ratio, cos(SW_PI / 6)));
    double steps = ceil(sweep / step);
    return steps < 1 ? 1 : steps > CHORDS_MOST ? CHORDS_MOST : (size_t)steps;
}

/* Points of the arc after its start and before its end. */
static sw_status arc_points(sw_run *run, sw_vertex from, sw_point to, double error_mm, nest_rings *rings)
{
    sw_arc arc = sw_segment_arc(from, to);
    if (!isfinite(arc.radius_mm)) return SW_OK;
    bool outward = from.bulge > 0;
    size_t steps = arc_steps(arc, outward, error_mm);
    double step = arc.sweep_rad / (double)steps;
    if (outward) {
        double radius_mm = arc.radius_mm / cos(step / 2);
        for (size_t i = 0; i < steps; i++)
            SW_TRY(put_point(run, rings, on_circle(arc, radius_mm, arc.from_rad + ((double)i + 0.5) * step)));
        return SW_OK;
    }
    for (size_t i = 1; i < steps; i++)
        SW_TRY(put_point(run, rings, on_circle(arc, arc.radius_mm, arc.from_rad + (double)i * step)));
    return SW_OK;
}

static double turn_area(sw_point a, sw_point b, sw_point c)
{
    return ((b.x_mm - a.x_mm) * (c.y_mm - b.y_mm) - (b.y_mm - a.y_mm) * (c.x_mm - b.x_mm)) / 2;
}

/* Drops vertices that do not turn (within 1e-9 mm2 of triangle) and doubled ones. */
static void drop_straight(nest_rings *rings, size_t first)
{
    sw_point *p = rings->points + first;
    size_t n = rings->point_count - first;
    bool dropped = true;
    while (dropped && n > 3) {
        dropped = false;
        for (size_t i = 0; i < n && n > 3; i++) {
            if (fabs(turn_area(p[(i + n - 1) % n], p[i], p[(i + 1) % n])) > 1e-9) continue;
            for (size_t j = i; j + 1 < n; j++) p[j] = p[j + 1];
            n--;
            dropped = true;
        }
    }
    rings->point_count = first + n;
}

sw_status nest_outline_ring(sw_run *run, sw_contour c, bool reversed, double error_mm, nest_rings *rings)
{
    size_t first = rings->point_count;
    for (size_t i = 0; i < c.n; i++) {
        size_t at = reversed ? c.n - 1 - i : i;
        size_t next = reversed ? (at + c.n - 1) % c.n : (at + 1) % c.n;
        sw_vertex from = {c.v[at].x_mm, c.v[at].y_mm, reversed ? -c.v[next].bulge : c.v[at].bulge};
        sw_point to = {c.v[next].x_mm, c.v[next].y_mm};
        SW_TRY(put_point(run, rings, (sw_point){from.x_mm, from.y_mm}));
        SW_TRY(arc_points(run, from, to, error_mm, rings));
    }
    drop_straight(rings, first);
    return end_ring(run, rings);
}

static bool in_triangle(sw_point a, sw_point b, sw_point c, sw_point p)
{
    return turn_area(a, b, p) >= -1e-9 && turn_area(b, c, p) >= -1e-9 && turn_area(c, a, p) >= -1e-9;
}

/* Whether the triangle a, c, b (counter-clockwise) is free of the vertices of all rings but its own corners. */
static bool pocket_is_empty(const nest_rings *rings, sw_point a, sw_point b, sw_point c)
{
    for (size_t i = 0; i < rings->point_count; i++) {
        sw_point p = rings->points[i];
        bool corner = (p.x_mm == a.x_mm && p.y_mm == a.y_mm) || (p.x_mm == b.x_mm && p.y_mm == b.y_mm) ||
                      (p.x_mm == c.x_mm && p.y_mm == c.y_mm);
        if (!corner && in_triangle(a, c, b, p)) return false;
    }
    return true;
}

static void drop_point(nest_rings *rings, size_t at)
{
    for (size_t j = at; j + 1 < rings->point_count; j++) rings->points[j] = rings->points[j + 1];
    rings->point_count--;
    rings->ends[rings->ring_count - 1]--;
}

/* Fills the smallest pocket of the last ring that is within the limit; false when there is none. */
static bool fill_smallest(nest_rings *rings, double *limit_mm2)
{
    size_t first = ring_first(rings, rings->ring_count - 1), n = rings->point_count - first;
    const sw_point *p = rings->points + first;
    size_t best = SIZE_MAX;
    double least = *limit_mm2;
    for (size_t i = 0; i < n && n > 3; i++) {
        sw_point a = p[(i + n - 1) % n], b = p[i], c = p[(i + 1) % n];
        double area = -turn_area(a, b, c);
        if (area <= 0 || area > least || !pocket_is_empty(rings, a, b, c)) continue;
        best = i;
        least = area;
    }
    if (best == SIZE_MAX) return false;
    *limit_mm2 -= least;
    drop_point(rings, first + best);
    return true;
}

void nest_outline_fill(nest_rings *rings, double fill_mm2)
{
    while (fill_smallest(rings, &fill_mm2)) {}
    drop_straight(rings, ring_first(rings, rings->ring_count - 1));
    rings->ends[rings->ring_count - 1] = rings->point_count;
}

sw_status nest_outline(sw_run *run, const sw_region *r, double error_mm, double fill_mm2, nest_rings *rings)
{
    rings->point_count = rings->ring_count = 0;
    SW_TRY(nest_outline_ring(run, r->outline, false, error_mm, rings));
    nest_outline_fill(rings, fill_mm2);
    for (size_t i = 0; i < r->hole_count; i++) {
        SW_TRY(nest_outline_ring(run, r->holes[i], false, error_mm, rings));
        nest_outline_fill(rings, fill_mm2);
    }
    return SW_OK;
}
