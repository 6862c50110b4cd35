/* nest_outline.c: a region as straight rings that contain its material.
 *
 * Material lies to the left of every ring. An arc that bulges out of the material becomes tangents, one that
 * bulges into it becomes chords; both stay within error_mm and on the empty side. A pocket
 * between two convex corners that is too small to be worth keeping is filled, which only ever adds material. Derived. */
#include "making/nest/nest_parts.h"

#include <math.h>

enum { CHORDS_MOST = 512 };

static sw_status put_point(sw_run *run, nest_rings *rings, sw_point p)
{
    NEST_MAKE_ROOM(run, rings->points, rings->point_count, rings->point_room, 1);
    rings->points[rings->point_count++] = p;
    return SW_OK;
}

static sw_status end_ring(sw_run *run, nest_rings *rings)
{
    NEST_MAKE_ROOM(run, rings->ends, rings->ring_count, rings->ring_room, 1);
    rings->ends[rings->ring_count++] = rings->point_count;
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

static double off_line(sw_point a, sw_point b, sw_point p)
{
    double length_mm = hypot(b.x_mm - a.x_mm, b.y_mm - a.y_mm);
    return length_mm > 0 ? 2 * turn_area(a, b, p) / length_mm : (double)INFINITY;
}

/* Whether the corners from + 1 .. to - 1 are all reflex and lie within error_mm to the left of the line from - to. */
static bool is_shallow(const sw_point *p, size_t from, size_t to, double error_mm)
{
    for (size_t i = from + 1; i < to; i++) {
        double off_mm = off_line(p[from], p[to], p[i]);
        if (turn_area(p[i - 1], p[i], p[i + 1]) > 0 || off_mm < 0 || off_mm > error_mm) return false;
    }
    return true;
}

/* Replaces runs of reflex corners, such as a hollow arc drawn as many short edges, by chords within error_mm. */
static void drop_shallow(nest_rings *rings, size_t first, double error_mm)
{
    sw_point *p = rings->points + first;
    size_t n = rings->point_count - first, kept = 0, i = 0;
    while (i < n) {
        size_t to = i + 1;
        while (to + 1 < n && is_shallow(p, i, to + 1, error_mm)) to++;
        p[kept++] = p[i];
        i = to;
    }
    if (kept >= 3) rings->point_count = first + kept;
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
    drop_shallow(rings, first, error_mm);
    return end_ring(run, rings);
}

/* ---- pockets ---------------------------------------------------------------------------------- */

typedef struct ring {
    sw_point *p;
    size_t n;
} ring;

static bool is_convex_at(ring r, size_t i)
{
    return turn_area(r.p[(i + r.n - 1) % r.n], r.p[i], r.p[(i + 1) % r.n]) > 0;
}

/* Whether the segments meet, ends included. */
static bool segments_meet(sw_point a, sw_point b, sw_point c, sw_point d)
{
    double p = turn_area(a, b, c), q = turn_area(a, b, d), s = turn_area(c, d, a), t = turn_area(c, d, b);
    return p * q <= 0 && s * t <= 0;
}

/* Whether the mouth from corner i to corner i + span is clear of the ring's other edges. */
static bool mouth_is_clear(ring r, size_t i, size_t span)
{
    sw_point a = r.p[i], b = r.p[(i + span) % r.n];
    for (size_t k = 1; k + 1 < r.n; k++) { /* edges that touch neither end */
        if (k == span || k + 1 == span) continue;
        if (segments_meet(a, b, r.p[(i + k) % r.n], r.p[(i + k + 1) % r.n])) return false;
    }
    return true;
}

/* Area between the mouth and the corners behind it; INFINITY unless all of these lie to the left of the mouth. */
static double pocket_area(ring r, size_t i, size_t span)
{
    sw_point a = r.p[i], b = r.p[(i + span) % r.n];
    double area = 0;
    for (size_t k = 1; k < span; k++) {
        sw_point p = r.p[(i + k) % r.n], q = r.p[(i + k + 1) % r.n];
        if (turn_area(a, b, p) <= 0) return INFINITY;
        area -= turn_area(a, p, q);
    }
    return area;
}

static void drop_corners(nest_rings *rings, size_t first, size_t i, size_t span)
{
    size_t n = rings->point_count - first, kept = 0;
    sw_point *p = rings->points + first;
    for (size_t k = 0; k < n; k++) {
        size_t after = (k + n - i) % n; /* steps from i */
        if (after > 0 && after < span) continue;
        p[kept++] = p[k];
    }
    rings->point_count = first + kept;
    rings->ends[rings->ring_count - 1] = rings->point_count;
}

enum { POCKET_CORNERS = 20 };

/* Fills one pocket between two convex corners of the last ring that is within the limit; false = there is none. */
static bool fill_one(nest_rings *rings, double *limit_mm2)
{
    size_t first = ring_first(rings, rings->ring_count - 1);
    ring r = {rings->points + first, rings->point_count - first};
    for (size_t i = 0; i < r.n; i++) {
        if (!is_convex_at(r, i)) continue;
        for (size_t span = 2; span <= POCKET_CORNERS && span + 2 <= r.n; span++) {
            if (!is_convex_at(r, (i + span) % r.n)) continue;
            double area = pocket_area(r, i, span);
            if (area <= 0 || area > *limit_mm2 || !mouth_is_clear(r, i, span)) continue;
            *limit_mm2 -= area;
            drop_corners(rings, first, i, span);
            return true;
        }
    }
    return false;
}

void nest_outline_fill(nest_rings *rings, double fill_mm2)
{
    while (fill_one(rings, &fill_mm2)) {}
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
