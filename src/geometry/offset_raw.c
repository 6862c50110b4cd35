/* offset_raw.c: the parallel of each segment and the joins between them.
 *
 * The parallel of an arc keeps centre and sweep, so its bulge; where the distance exceeds the radius on the
 * hollow side it comes out turned over, and is removed later because it lies too near the contour. */
#include "geometry/offset_parts.h"

/* At corners with less turn than TURN_RAD, or with a gap shorter than an edge may be, both parallels end at the
 * mitre point (where they cross): a join there would be a fault of its own, and a folded-over tail too near the
 * distance to be told from a good one. Off the true round by at most gap * turn / 8. ours */
#define TURN_RAD   1e-4
#define SLIGHT_RAD 0.1
#define GAP_MM     SW_SHORTEST_MM
#define MITRE      2.0 /* longest mitre, in distances */

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
    sw_point at, in, out;        /* vertex, unit directions into and out of it */
    double turn_rad;             /* left positive */
    sw_point raw_end, raw_start; /* where the parallel of the segment before ends, and the next one starts */
    sw_point end, start;         /* the same, or both where these parallels meet */
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

static bool nearly_straight(const corner *k)
{
    double turn_rad = fabs(k->turn_rad);
    return turn_rad < TURN_RAD || (turn_rad < SLIGHT_RAD && gap_mm(k->end, k->start) < GAP_MM);
}

static sw_point mitre_point(const corner *k, double distance_mm)
{
    return plus(k->end, times(k->in, distance_mm * tan(0.5 * k->turn_rad)));
}

/* How far p is off the parallel of s (through `on`, where its direction is known), and the way there. */
static double off_parallel(const segment *s, sw_point on, sw_point direction, sw_point p, sw_point *way)
{
    *way = left_of(direction);
    if (!is_arc(s)) return dot(minus(p, on), *way);
    sw_point out = minus(p, s->centre);
    double away_mm = norm(out);
    if (away_mm <= 0.0) return 0.0;
    *way = times(out, 1.0 / away_mm);
    return away_mm - gap_mm(on, s->centre);
}

/* Where the two parallels cross near their mitre point, by Newton; the mitre point itself where both are lines,
 * where it is as good as that, or where they do not cross nearby. */
static sw_point meeting_point(const corner *k, const segment *a, const segment *b, double distance_mm)
{
    sw_point mitre = mitre_point(k, distance_mm), p = mitre, u, v;
    double reach_mm = gap_mm(mitre, k->end);
    if (reach_mm <= SW_SAME_POINT_MM || (!is_arc(a) && !is_arc(b))) return mitre;
    for (int round = 0; round < 4; round++) {
        double off_a = off_parallel(a, k->end, k->in, p, &u), off_b = off_parallel(b, k->start, k->out, p, &v);
        double turn = cross(u, v);
        if (fabs(turn) < 0.1 * fabs(sin(k->turn_rad))) return mitre;
        p = minus(p, times((sw_point){off_a * v.y_mm - off_b * u.y_mm, off_b * u.x_mm - off_a * v.x_mm}, 1.0 / turn));
    }
    return gap_mm(p, mitre) < 0.5 * reach_mm ? p : mitre;
}

/* Bulge of the parallel of s when its ends are moved along it from raw to where they meet their neighbours. */
static double parallel_bulge(const segment *s, const corner *from, const corner *to)
{
    if (!is_arc(s)) return 0.0;
    sw_point a = minus(from->raw_start, s->centre), a1 = minus(from->start, s->centre);
    sw_point b = minus(to->raw_end, s->centre), b1 = minus(to->end, s->centre);
    double less_rad = atan2(cross(a, a1), dot(a, a1)), more_rad = atan2(cross(b, b1), dot(b, b1));
    return tan(atan(s->from.bulge) + 0.25 * (more_rad - less_rad));
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
    k.raw_end = k.end;
    k.raw_start = k.start;
    if (nearly_straight(&k)) k.end = k.start = meeting_point(&k, a, b, job->distance_mm);
    return k;
}

static sw_status add_join(offset_job *job, stretches *raw, const corner *k)
{
    bool open = k->turn_rad * job->distance_mm > 0.0;
    if (!open) return stretches_add(job->run, raw, vertex_at(k->end, 0.0), k->start);
    if (!job->round && 1.0 <= MITRE * cos(0.5 * k->turn_rad)) {
        sw_point tip = mitre_point(k, job->distance_mm);
        job->wedges[job->wedge_count++] = (wedge){k->end, tip, k->start};
        SW_TRY(stretches_add(job->run, raw, vertex_at(k->end, 0.0), tip));
        return stretches_add(job->run, raw, vertex_at(tip, 0.0), k->start);
    }
    return stretches_add(job->run, raw, vertex_at(k->end, tan(0.25 * k->turn_rad)), k->start);
}

sw_status offset_raw(offset_job *job, stretches *raw)
{
    corner *corners = SW_SCRATCH(job->run, job->c.n, corner);
    job->wedges = SW_SCRATCH(job->run, job->c.n, wedge);
    if (corners == NULL || job->wedges == NULL) return SW_NO_MEMORY;
    for (size_t i = 0; i < job->c.n; i++) corners[i] = corner_at(job, i);
    for (size_t i = 0; i < job->c.n; i++) {
        const corner *next = &corners[(i + 1) % job->c.n];
        double bulge = parallel_bulge(&job->segments[i], &corners[i], next);
        SW_TRY(stretches_add(job->run, raw, vertex_at(corners[i].start, bulge), next->end));
        SW_TRY(add_join(job, raw, next));
    }
    return SW_OK;
}
