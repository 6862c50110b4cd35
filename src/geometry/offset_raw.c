/* offset_raw.c: the parallel of each segment and the joins between them.
 *
 * The parallel of an arc keeps centre and sweep, so its bulge; where the distance exceeds the radius on the
 * hollow side it comes out turned over, and is removed later because it lies too near the contour. */
#include "geometry/offset_parts.h"

/* At corners with less turn than this (or a gap below GAP_MM) both parallels end at the mitre point: for two
 * lines that is exact; for arcs the end moves along the tangent, off by less than SW_SAME_POINT_MM. Without
 * it the folded-over tails there would be too near the distance to be told from good ones. ours */
#define TURN_RAD 1e-4
#define GAP_MM   1e-4
#define MITRE    2.0 /* longest mitre, in distances */

sw_status stretches_add(sw_run *run, stretches *list, sw_vertex from, sw_point to)
{
    if (same_point(point_of(from), to)) return SW_OK;
    stretch *items = sw_grow(run, run->scratch, list->items, list->n, &list->room, sizeof *items);
    if (items == NULL) return SW_NO_MEMORY;
    list->items = items;
    items[list->n++] = (stretch){from, to};
    return SW_OK;
}

static sw_vertex vertex_at(sw_point p, double bulge)
{
    return (sw_vertex){p.x_mm, p.y_mm, bulge};
}

static sw_point aside(sw_point at, sw_point direction, double distance_mm)
{
    return minus(at, times(left_of(direction), distance_mm));
}

typedef struct corner {
    sw_point at, in, out; /* vertex, unit directions into and out of it */
    double turn_rad;      /* left positive */
    sw_point end, start;  /* where the parallel of the segment before ends, and the next one starts */
} corner;

/* Directions tell no side at a cusp (turn of half round): look at chords a little before and after. */
static double cusp_turn(const offset_job *job, size_t before, size_t after)
{
    const segment *a = &job->segments[before], *b = &job->segments[after];
    double a_mm = sw_segment_length(a->from, a->to), b_mm = sw_segment_length(b->from, b->to);
    double step_mm = 0.1 * fmin(a_mm, b_mm);
    sw_point in = minus(a->to, sw_segment_point(a->from, a->to, 1.0 - step_mm / a_mm));
    sw_point out = minus(sw_segment_point(b->from, b->to, step_mm / b_mm), a->to);
    return atan2(cross(in, out), dot(in, out));
}

static corner corner_at(const offset_job *job, size_t i)
{
    size_t before = (i + job->c.n - 1) % job->c.n;
    const segment *a = &job->segments[before], *b = &job->segments[i];
    corner k = {.at = point_of(job->c.v[i])};
    k.in = sw_segment_direction(a->from, a->to, 1.0);
    k.out = sw_segment_direction(b->from, b->to, 0.0);
    k.turn_rad = atan2(cross(k.in, k.out), dot(k.in, k.out));
    if (fabs(k.turn_rad) > SW_PI - 1e-6) k.turn_rad = copysign(SW_PI, cusp_turn(job, before, i));
    k.end = aside(k.at, k.in, job->distance_mm);
    k.start = aside(k.at, k.out, job->distance_mm);
    return k;
}

static bool nearly_straight(const corner *k)
{
    return fabs(k->turn_rad) < TURN_RAD || (fabs(k->turn_rad) < 0.1 && gap_mm(k->end, k->start) < GAP_MM);
}

static sw_point mitre_point(const corner *k, double distance_mm)
{
    double reach_mm = distance_mm * tan(0.5 * k->turn_rad);
    return plus(k->end, times(k->in, reach_mm));
}

static sw_status add_join(const offset_job *job, stretches *raw, const corner *k)
{
    bool open = k->turn_rad * job->distance_mm > 0.0;
    if (!open) return stretches_add(job->run, raw, vertex_at(k->end, 0.0), k->start);
    if (!job->round && 1.0 <= MITRE * cos(0.5 * k->turn_rad)) {
        sw_point tip = mitre_point(k, job->distance_mm);
        SW_TRY(stretches_add(job->run, raw, vertex_at(k->end, 0.0), tip));
        return stretches_add(job->run, raw, vertex_at(tip, 0.0), k->start);
    }
    return stretches_add(job->run, raw, vertex_at(k->end, tan(0.25 * k->turn_rad)), k->start);
}

sw_status offset_raw(const offset_job *job, stretches *raw)
{
    corner *corners = SW_SCRATCH(job->run, job->c.n, corner);
    if (corners == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->c.n; i++) {
        corners[i] = corner_at(job, i);
        if (nearly_straight(&corners[i]))
            corners[i].end = corners[i].start = mitre_point(&corners[i], job->distance_mm);
    }
    for (size_t i = 0; i < job->c.n; i++) {
        const corner *next = &corners[(i + 1) % job->c.n];
        SW_TRY(stretches_add(job->run, raw, vertex_at(corners[i].start, job->c.v[i].bulge), next->end));
        SW_TRY(add_join(job, raw, next));
    }
    return SW_OK;
}
