/* edges_ask.c: distance, side, clearance and crossings of prepared edges. */
#include "geometry/edges_parts.h"

static sw_box box_of_point(sw_point p)
{
    return (sw_box){p.x_mm, p.y_mm, p.x_mm, p.y_mm};
}

double sw_edges_distance(const sw_edges *e, sw_point p, double most_mm)
{
    edge_walk walk = edge_walk_all(e, box_grown(box_of_point(p), most_mm));
    double least_mm = most_mm;
    for (const segment *s; (s = edge_next(&walk)) != NULL;) {
        double d = segment_point_distance(s, p);
        if (d >= least_mm) continue;
        least_mm = d;
        walk.box = box_grown(box_of_point(p), d);
    }
    return least_mm;
}

/* Only a segment that a ray from p to +x may meet has chord or bow turning round p. */
int edges_turns(const sw_edges *e, sw_point p, size_t first, size_t end)
{
    edge_walk walk = edge_walk_of(e, (sw_box){p.x_mm, p.y_mm, INFINITY, p.y_mm}, first, end);
    int turns = 0;
    for (const segment *s; (s = edge_next(&walk)) != NULL;) turns += segment_turns(s->from, s->to, p);
    return turns;
}

static sw_vertex mirrored(sw_vertex v)
{
    return (sw_vertex){-v.x_mm, v.y_mm, -v.bulge};
}

/* Turns of the segment as a ray from p to +x, or to -x, counts them. */
static int turns_by_ray(const segment *s, sw_point p, bool to_left)
{
    if (!to_left) return segment_turns(s->from, s->to, p);
    return segment_turns(mirrored(s->from), (sw_point){-s->to.x_mm, s->to.y_mm}, (sw_point){-p.x_mm, p.y_mm});
}

/* An odd number of turns: within an outline and no hole, whichever way round they run. Looks along a ray to the nearer
 * side of the box, and a hair about it for edges that p lies on. */
int sw_edges_side(const sw_edges *e, sw_point p)
{
    sw_box all = sw_edges_box(e);
    if (!boxes_meet(box_grown(all, SW_SAME_POINT_MM), box_of_point(p))) return -1;
    bool to_left = p.x_mm - all.x0_mm < all.x1_mm - p.x_mm;
    sw_box ray = box_of_point(p);
    if (to_left)
        ray.x0_mm = -INFINITY;
    else
        ray.x1_mm = INFINITY;
    edge_walk walk = edge_walk_all(e, box_grown(ray, SW_SAME_POINT_MM));
    int turns = 0;
    for (const segment *s; (s = edge_next(&walk)) != NULL;) {
        if (box_point_gap(s->box, p) <= SW_SAME_POINT_MM && segment_point_distance(s, p) <= SW_SAME_POINT_MM) return 0;
        turns += turns_by_ray(s, p, to_left);
    }
    return turns % 2 != 0 ? 1 : -1;
}

double sw_edges_reach(const sw_edges *e, sw_point u)
{
    double most_mm = -INFINITY;
    for (size_t i = 0; i < e->count; i++) {
        const segment *s = &e->segments[i];
        most_mm = larger(most_mm, dot(point_of(s->from), u));
        if (!is_arc(s)) continue;
        sw_point farthest = plus(s->centre, times(u, s->radius_mm));
        if (arc_spans(s, farthest)) most_mm = larger(most_mm, dot(farthest, u));
    }
    return most_mm;
}

bool sw_edges_clear(const sw_edges *e, sw_vertex from, sw_point to, double gap_mm)
{
    segment s = segment_make(from, to);
    edge_walk walk = edge_walk_all(e, box_grown(s.box, gap_mm));
    for (const segment *t; (t = edge_next(&walk)) != NULL;)
        if (box_gap(s.box, t->box) < gap_mm && segments_distance(&s, t) < gap_mm) return false;
    return true;
}

/* ---- ways over what the edges enclose ------------------------------------------------ */

typedef struct straight {
    segment s;
    sw_point start, along; /* unit */
    double length_mm;
} straight;

static straight straight_of(sw_point a, sw_point b)
{
    straight way = {.start = a, .length_mm = gap_mm(a, b)};
    way.along = times(minus(b, a), 1.0 / larger(way.length_mm, SW_SAME_POINT_MM));
    way.s = segment_make((sw_vertex){a.x_mm, a.y_mm, 0.0}, b);
    return way;
}

static edge_walk walk_along(const sw_edges *e, const straight *way)
{
    edge_walk walk = edge_walk_all(e, way->s.box);
    walk.on = way->start;
    walk.aside = left_of(way->along);
    return walk;
}

/* Not wholly to one side of the way's line either. */
static bool box_meets_way(const edge_walk *w, sw_box box)
{
    if (!boxes_meet(w->box, box)) return false;
    double x = 0.5 * (box.x0_mm + box.x1_mm), y = 0.5 * (box.y0_mm + box.y1_mm);
    double off_mm = dot(w->aside, minus((sw_point){x, y}, w->on));
    double reach_mm = fabs(w->aside.x_mm) * (box.x1_mm - x) + fabs(w->aside.y_mm) * (box.y1_mm - y);
    return fabs(off_mm) <= reach_mm + SW_SAME_POINT_MM;
}

static bool inside_at(const sw_edges *e, const straight *way, double at_mm)
{
    if (at_mm < 0.0 || at_mm > way->length_mm) return false;
    return sw_edges_side(e, plus(way->start, times(way->along, at_mm))) > 0;
}

static bool inside_beside(const sw_edges *e, const straight *way, sw_point crossing, double hair_mm)
{
    double at_mm = gap_mm(crossing, way->start);
    if (at_mm <= SW_SAME_POINT_MM || at_mm >= way->length_mm - SW_SAME_POINT_MM) return false; /* the ends are known */
    return inside_at(e, way, at_mm - hair_mm) || inside_at(e, way, at_mm + hair_mm);
}

/* A stretch inside begins and ends at the way's ends or at crossings: looking a hair to both sides of each finds it. */
bool sw_edges_entered(const sw_edges *e, sw_point a, sw_point b, double hair_mm)
{
    straight way = straight_of(a, b);
    edge_walk walk = walk_along(e, &way);
    if (way.length_mm < 2.0 * hair_mm || !box_meets_way(&walk, sw_edges_box(e))) return false;
    if (inside_at(e, &way, hair_mm) || inside_at(e, &way, way.length_mm - hair_mm)) return true;
    for (const segment *s; (s = edge_next_if(&walk, box_meets_way)) != NULL;) {
        sw_point at[CROSSINGS_MAX];
        size_t count = segments_cross(&way.s, s, at);
        for (size_t k = 0; k < count; k++)
            if (inside_beside(e, &way, at[k], hair_mm)) return true;
    }
    return false;
}

/* ---- between two --------------------------------------------------------------------- */

static sw_box box_moved(sw_box b, sw_point by)
{
    return (sw_box){b.x0_mm + by.x_mm, b.y0_mm + by.y_mm, b.x1_mm + by.x_mm, b.y1_mm + by.y_mm};
}

static segment segment_moved(const segment *s, sw_point by)
{
    segment m = *s;
    m.from.x_mm += by.x_mm;
    m.from.y_mm += by.y_mm;
    m.to = plus(m.to, by);
    m.centre = plus(m.centre, by);
    m.box = box_moved(m.box, by);
    return m;
}

static double nearest_to(const sw_edges *e, const segment *s, double least_mm)
{
    edge_walk walk = edge_walk_all(e, box_grown(s->box, least_mm));
    for (const segment *t; least_mm > 0.0 && (t = edge_next(&walk)) != NULL;) {
        if (box_gap(s->box, t->box) >= least_mm) continue;
        least_mm = smaller(least_mm, segments_distance(s, t));
        walk.box = box_grown(s->box, least_mm);
    }
    return least_mm;
}

double sw_edges_gap(const sw_edges *a, const sw_edges *b, sw_point by, double most_mm)
{
    sw_box to_a = box_moved(sw_edges_box(a), times(by, -1.0));
    edge_walk walk = edge_walk_all(b, box_grown(to_a, most_mm));
    double least_mm = most_mm;
    for (const segment *s; least_mm > 0.0 && (s = edge_next(&walk)) != NULL;) {
        segment moved = segment_moved(s, by);
        least_mm = nearest_to(a, &moved, least_mm);
        walk.box = box_grown(to_a, least_mm);
    }
    return least_mm;
}
