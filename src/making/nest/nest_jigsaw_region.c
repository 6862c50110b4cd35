/* nest_jigsaw_region.c: takes a piece out of the free region. Corners and edges that lie within a tolerance of each
 * other are made to meet, so that shared edges are the same edges run twice in opposite directions: these go, and what is
 * left is the new region's boundary. Derived. */
#include "making/nest/nest_jigsaw_parts.h"

#include <math.h>
#include <stdlib.h>

typedef struct edge {
    uint32_t a, b; /* the free side to the left */
    bool gone;
} edge;

typedef struct split { /* a point that lies on an edge */
    uint32_t edge, point;
    double t;
} split;

struct jigsaw_cutter {
    size_t room;    /* of every list */
    sw_point *p;    /* those of the region, then those of the shape that meet none */
    uint32_t *of;   /* [shape's points] which point it is */
    uint32_t *next; /* point after point of the region */
    edge *region, *shape;
    split *splits;
    uint32_t *first, *link; /* edges that leave a point: first of all, next of the same; UINT32_MAX = none */
    uint8_t *met;           /* whether a point of the region is one of the shape */
    size_t points, region_count, shape_count, split_count, all_count;
    edge *all;
    double off_mm;
    sw_box box; /* of the shape where it lies, grown by off_mm */
};

sw_status jigsaw_cutter_make(sw_run *run, size_t points_most, jigsaw_cutter **cutter)
{
    jigsaw_cutter *c = SW_SCRATCH(run, 1, jigsaw_cutter);
    size_t room = 4 * points_most + 64;
    if (c == NULL) return SW_NO_MEMORY;
    *c = (jigsaw_cutter){.room = room};
    c->p = SW_SCRATCH(run, room, sw_point);
    c->of = SW_SCRATCH(run, room, uint32_t);
    c->next = SW_SCRATCH(run, room, uint32_t);
    c->region = SW_SCRATCH(run, room, edge);
    c->shape = SW_SCRATCH(run, room, edge);
    c->all = SW_SCRATCH(run, 2 * room, edge);
    c->splits = SW_SCRATCH(run, room, split);
    c->first = SW_SCRATCH(run, room, uint32_t);
    c->link = SW_SCRATCH(run, 2 * room, uint32_t);
    c->met = SW_SCRATCH(run, room, uint8_t);
    if (c->p == NULL || c->of == NULL || c->next == NULL || c->region == NULL || c->shape == NULL || c->all == NULL ||
        c->splits == NULL || c->first == NULL || c->link == NULL || c->met == NULL)
        return SW_NO_MEMORY;
    *cutter = c;
    return SW_OK;
}

double jigsaw_ring_area(const sw_point *p, size_t n)
{
    double twice = 0;
    for (size_t i = 0; i < n; i++) {
        sw_point a = p[i], b = p[i + 1 == n ? 0 : i + 1];
        twice += a.x_mm * b.y_mm - a.y_mm * b.x_mm;
    }
    return twice / 2;
}

/* ---- points that meet ------------------------------------------------------------------------------------- */

static double distance2(sw_point a, sw_point b)
{
    double dx = a.x_mm - b.x_mm, dy = a.y_mm - b.y_mm;
    return dx * dx + dy * dy;
}

/* Squared distance of q from the edge, and where along it: 0 at a, 1 at b. */
static double edge_distance2(sw_point a, sw_point b, sw_point q, double *t)
{
    double dx = b.x_mm - a.x_mm, dy = b.y_mm - a.y_mm, px = q.x_mm - a.x_mm, py = q.y_mm - a.y_mm;
    double length2 = dx * dx + dy * dy;
    *t = length2 > 0 ? (px * dx + py * dy) / length2 : 0;
    *t = *t < 0 ? 0 : *t > 1 ? 1 : *t;
    px -= *t * dx, py -= *t * dy;
    return px * px + py * py;
}

static void take_region(jigsaw_cutter *c, const jigsaw_region *r)
{
    c->points = r->points;
    for (size_t ring = 0, from = 0; ring < r->rings; from = r->ends[ring++])
        for (size_t i = from; i < r->ends[ring]; i++) {
            c->p[i] = r->p[i];
            c->next[i] = (uint32_t)(i + 1 == r->ends[ring] ? from : i + 1);
            c->met[i] = 0;
        }
}

static bool boxes_meet(sw_point a, sw_point b, sw_box box)
{
    return fmin(a.x_mm, b.x_mm) <= box.x1_mm && fmax(a.x_mm, b.x_mm) >= box.x0_mm &&
           fmin(a.y_mm, b.y_mm) <= box.y1_mm && fmax(a.y_mm, b.y_mm) >= box.y0_mm;
}

/* The region's point that q meets, or the edge it lies on. */
static void place_point(jigsaw_cutter *c, size_t region_points, size_t k, sw_point q, jigsaw_contact *contact)
{
    double best = c->off_mm * c->off_mm, t = 0, at = 0;
    uint32_t met = UINT32_MAX;
    for (size_t i = 0; i < region_points; i++) {
        double d = distance2(c->p[i], q);
        if (d <= best) best = d, met = (uint32_t)i;
    }
    if (met != UINT32_MAX) {
        c->of[k] = met;
        c->met[met] = 1;
        contact->corners++;
        contact->drift.x_mm += c->p[met].x_mm - q.x_mm, contact->drift.y_mm += c->p[met].y_mm - q.y_mm;
        return;
    }
    for (size_t i = 0; i < region_points; i++) {
        double d = edge_distance2(c->p[i], c->p[c->next[i]], q, &t);
        if (d <= best) best = d, met = (uint32_t)i, at = t;
    }
    c->of[k] = (uint32_t)c->points;
    if (met != UINT32_MAX) c->splits[c->split_count++] = (split){met, (uint32_t)c->points, at};
    c->p[c->points++] = q;
}

static bool place_points(jigsaw_cutter *c, const jigsaw_cut *cut, jigsaw_contact *contact)
{
    const jigsaw_shape *s = cut->shape;
    size_t region_points = c->points;
    if (region_points + 2 * s->points + 8 > c->room) return false;
    c->split_count = 0;
    for (size_t k = 0; k < s->points; k++)
        place_point(c, region_points, k, (sw_point){s->p[k].x_mm + cut->at.x_mm, s->p[k].y_mm + cut->at.y_mm}, contact);
    return true;
}

/* ---- edges ------------------------------------------------------------------------------------------------ */

static int by_edge(const void *a, const void *b)
{
    const split *x = a, *y = b;
    if (x->edge != y->edge) return x->edge < y->edge ? -1 : 1;
    if (x->t != y->t) return x->t < y->t ? -1 : 1;
    return x->point < y->point ? -1 : x->point > y->point;
}

/* One edge in as many pieces as points lie on it; splits sorted, *s the first of its own. */
static void add_split(const jigsaw_cutter *c, edge whole, uint32_t index, size_t *s, edge *out, size_t *count)
{
    uint32_t from = whole.a;
    for (; *s < c->split_count && c->splits[*s].edge == index; (*s)++) {
        uint32_t to = c->splits[*s].point;
        if (to != from) out[(*count)++] = (edge){from, to, false};
        from = to;
    }
    if (from != whole.b) out[(*count)++] = (edge){from, whole.b, false};
}

static bool split_region(jigsaw_cutter *c, const jigsaw_region *r)
{
    size_t s = 0;
    c->region_count = 0;
    if (r->points + c->split_count > c->room) return false;
    qsort(c->splits, c->split_count, sizeof *c->splits, by_edge);
    for (size_t i = 0; i < r->points; i++)
        add_split(c, (edge){(uint32_t)i, c->next[i], false}, (uint32_t)i, &s, c->region, &c->region_count);
    return true;
}

/* The region's points on one edge of the shape. */
static bool list_on(jigsaw_cutter *c, size_t region_points, edge whole, size_t index)
{
    sw_point a = c->p[whole.a], b = c->p[whole.b];
    double off2 = c->off_mm * c->off_mm, t = 0;
    const sw_box box = {fmin(a.x_mm, b.x_mm) - c->off_mm, fmin(a.y_mm, b.y_mm) - c->off_mm,
                        fmax(a.x_mm, b.x_mm) + c->off_mm, fmax(a.y_mm, b.y_mm) + c->off_mm};
    for (size_t i = 0; i < region_points; i++) {
        sw_point q = c->p[i];
        if (q.x_mm < box.x0_mm || q.x_mm > box.x1_mm || q.y_mm < box.y0_mm || q.y_mm > box.y1_mm) continue;
        if (c->met[i] != 0 || edge_distance2(a, b, q, &t) > off2) continue;
        if (c->split_count >= c->room) return false;
        c->splits[c->split_count++] = (split){(uint32_t)index, (uint32_t)i, t};
    }
    return true;
}

static bool split_shape(jigsaw_cutter *c, const jigsaw_region *r, const jigsaw_shape *shape)
{
    c->split_count = c->shape_count = 0;
    for (size_t ring = 0, from = 0; ring < shape->rings; from = shape->ends[ring++])
        for (size_t i = from; i < shape->ends[ring]; i++) {
            edge whole = {c->of[i], c->of[i + 1 == shape->ends[ring] ? from : i + 1], false};
            if (whole.a != whole.b && !list_on(c, r->points, whole, i)) return false;
        }
    qsort(c->splits, c->split_count, sizeof *c->splits, by_edge);
    if (shape->points + c->split_count > c->room) return false;
    size_t s = 0;
    for (size_t ring = 0, from = 0; ring < shape->rings; from = shape->ends[ring++])
        for (size_t i = from; i < shape->ends[ring]; i++) {
            edge whole = {c->of[i], c->of[i + 1 == shape->ends[ring] ? from : i + 1], false};
            size_t before = c->shape_count;
            add_split(c, whole, (uint32_t)i, &s, c->shape, &c->shape_count);
            for (size_t k = before; ring > 0 && k < c->shape_count; k++) /* about a hole the piece lies outside */
                c->shape[k] = (edge){c->shape[k].b, c->shape[k].a, false};
        }
    return true;
}

/* ---- does it stay inside? ----------------------------------------------------------------------------------- */

static double side_of(sw_point a, sw_point b, sw_point q)
{
    return (b.x_mm - a.x_mm) * (q.y_mm - a.y_mm) - (b.y_mm - a.y_mm) * (q.x_mm - a.x_mm);
}

static bool cross_deeply(const jigsaw_cutter *c, edge e, edge f)
{
    if (e.a == f.a || e.a == f.b || e.b == f.a || e.b == f.b) return false;
    sw_point a = c->p[e.a], b = c->p[e.b], p = c->p[f.a], q = c->p[f.b];
    double sp = side_of(a, b, p), sq = side_of(a, b, q), sa = side_of(p, q, a), sb = side_of(p, q, b);
    if ((sp > 0) == (sq > 0) || (sa > 0) == (sb > 0)) return false;
    double le = sqrt(distance2(a, b)), lf = sqrt(distance2(p, q));
    double depth = fmin(fmin(fabs(sp), fabs(sq)) / le, fmin(fabs(sa), fabs(sb)) / lf);
    return depth > 2 * c->off_mm;
}

/* By the crossings of a ray to the right. */
static bool inside(const jigsaw_cutter *c, const edge *edges, size_t count, sw_point q)
{
    bool in = false;
    for (size_t i = 0; i < count; i++) {
        sw_point a = c->p[edges[i].a], b = c->p[edges[i].b];
        if ((a.y_mm > q.y_mm) == (b.y_mm > q.y_mm)) continue;
        if (a.x_mm + (q.y_mm - a.y_mm) * (b.x_mm - a.x_mm) / (b.y_mm - a.y_mm) > q.x_mm) in = !in;
    }
    return in;
}

static bool is_near(const jigsaw_cutter *c, const edge *edges, size_t count, sw_point q)
{
    double reach2 = 4 * c->off_mm * c->off_mm, t = 0;
    for (size_t i = 0; i < count; i++)
        if (edge_distance2(c->p[edges[i].a], c->p[edges[i].b], q, &t) <= reach2) return true;
    return false;
}

static sw_point middle(const jigsaw_cutter *c, edge e)
{
    sw_point a = c->p[e.a], b = c->p[e.b];
    return (sw_point){(a.x_mm + b.x_mm) / 2, (a.y_mm + b.y_mm) / 2};
}

/* Edges of both that are the same cancel; false = they run in opposite ways: the shape lies behind the region's edge. */
static bool cancel_shared(jigsaw_cutter *c, jigsaw_contact *contact)
{
    for (size_t i = 0; i < c->points; i++) c->first[i] = UINT32_MAX;
    for (size_t i = 0; i < c->region_count; i++) {
        c->link[i] = c->first[c->region[i].a];
        c->first[c->region[i].a] = (uint32_t)i;
    }
    for (size_t k = 0; k < c->shape_count; k++) {
        edge *e = &c->shape[k];
        for (uint32_t i = c->first[e->a]; i != UINT32_MAX && !e->gone; i = c->link[i])
            if (c->region[i].b == e->b && !c->region[i].gone) {
                e->gone = c->region[i].gone = true;
                contact->length_mm += sqrt(distance2(c->p[e->a], c->p[e->b]));
            }
        for (uint32_t i = c->first[e->b]; i != UINT32_MAX && !e->gone; i = c->link[i])
            if (c->region[i].b == e->a && !c->region[i].gone) return false;
    }
    return true;
}

static bool stays_inside(const jigsaw_cutter *c)
{
    for (size_t k = 0; k < c->shape_count; k++) {
        if (c->shape[k].gone) continue;
        sw_point a = c->p[c->shape[k].a], b = c->p[c->shape[k].b];
        const sw_box box = {fmin(a.x_mm, b.x_mm), fmin(a.y_mm, b.y_mm), fmax(a.x_mm, b.x_mm), fmax(a.y_mm, b.y_mm)};
        for (size_t i = 0; i < c->region_count; i++) {
            edge f = c->region[i];
            if (boxes_meet(c->p[f.a], c->p[f.b], box) && cross_deeply(c, c->shape[k], f)) return false;
        }
        sw_point m = middle(c, c->shape[k]);
        if (!inside(c, c->region, c->region_count, m) && !is_near(c, c->region, c->region_count, m)) return false;
    }
    for (size_t i = 0; i < c->region_count; i++) {
        sw_point m = middle(c, c->region[i]);
        bool far = m.x_mm < c->box.x0_mm || m.x_mm > c->box.x1_mm || m.y_mm < c->box.y0_mm || m.y_mm > c->box.y1_mm;
        if (c->region[i].gone || far) continue;
        if (inside(c, c->shape, c->shape_count, m) && !is_near(c, c->shape, c->shape_count, m)) return false;
    }
    return true;
}

/* ---- the new rings -------------------------------------------------------------------------------------------- */

/* What is left of both, the shape's turned about; a corridor without width is two edges that cancel. */
static void gather(jigsaw_cutter *c)
{
    c->all_count = 0;
    for (size_t i = 0; i < c->region_count; i++)
        if (!c->region[i].gone) c->all[c->all_count++] = c->region[i];
    for (size_t i = 0; i < c->shape_count; i++)
        if (!c->shape[i].gone) c->all[c->all_count++] = (edge){c->shape[i].b, c->shape[i].a, false};
    for (size_t i = 0; i < c->points; i++) c->first[i] = UINT32_MAX;
    for (size_t i = 0; i < c->all_count; i++) {
        edge *e = &c->all[i];
        for (uint32_t j = c->first[e->b]; j != UINT32_MAX && !e->gone; j = c->link[j])
            if (c->all[j].b == e->a && !c->all[j].gone) e->gone = c->all[j].gone = true;
        c->link[i] = c->first[e->a];
        c->first[e->a] = (uint32_t)i;
    }
}

static double turn_from(sw_point back, sw_point at, sw_point to)
{
    double a = atan2(back.y_mm - at.y_mm, back.x_mm - at.x_mm), b = atan2(to.y_mm - at.y_mm, to.x_mm - at.x_mm);
    double turn = fmod(a - b, 2 * SW_PI); /* clockwise from the way back */
    return turn <= 1e-12 ? turn + 2 * SW_PI : turn;
}

/* The edge that goes on from the end of e: of several the first clockwise from the way back, so that rings that touch in
 * a point stay two. */
static uint32_t edge_after(const jigsaw_cutter *c, edge e)
{
    uint32_t best = UINT32_MAX, only = UINT32_MAX, count = 0;
    double least_rad = INFINITY;
    for (uint32_t i = c->first[e.b]; i != UINT32_MAX; i = c->link[i])
        if (!c->all[i].gone) only = i, count++;
    if (count < 2) return only;
    for (uint32_t i = c->first[e.b]; i != UINT32_MAX; i = c->link[i]) {
        if (c->all[i].gone) continue;
        double turn = turn_from(c->p[e.a], c->p[e.b], c->p[c->all[i].b]);
        if (turn < least_rad) least_rad = turn, best = i;
    }
    return best;
}

static double ring_length(const sw_point *p, size_t n)
{
    double sum = 0;
    for (size_t i = 0; i < n; i++) sum += sqrt(distance2(p[i], p[i + 1 == n ? 0 : i + 1]));
    return sum;
}

/* Slivers within the tolerance are no room; false = a ring about nothing free that is more than that. */
static bool keep_ring(const jigsaw_cutter *c, jigsaw_region *to, size_t from)
{
    size_t n = to->points - from;
    double area = jigsaw_ring_area(to->p + from, n), sliver = 2 * c->off_mm * ring_length(to->p + from, n);
    if (n < 3 || fabs(area) <= sliver) {
        to->points = from;
        return true;
    }
    to->ends[to->rings++] = (uint32_t)to->points;
    return area > 0;
}

/* The ring that starts with one edge; that edge counts as not run until the ring comes back to it. */
static bool trace_ring(jigsaw_cutter *c, uint32_t first, jigsaw_region *to)
{
    size_t from = to->points;
    for (uint32_t at = first;;) {
        if (to->points + 1 >= to->room) return false;
        to->p[to->points++] = c->p[c->all[at].a];
        if (at != first) c->all[at].gone = true;
        at = edge_after(c, c->all[at]);
        if (at == UINT32_MAX) return false;
        if (at == first) break;
    }
    c->all[first].gone = true;
    return keep_ring(c, to, from);
}

static bool trace(jigsaw_cutter *c, jigsaw_region *to)
{
    to->points = to->rings = 0;
    for (size_t i = 0; i < c->all_count; i++)
        if (!c->all[i].gone && !trace_ring(c, (uint32_t)i, to)) return false;
    return true;
}

bool jigsaw_region_cut(jigsaw_cutter *c, const jigsaw_cut *cut, jigsaw_region *to, jigsaw_contact *contact,
                       uint64_t *work)
{
    const jigsaw_shape *s = cut->shape;
    *contact = (jigsaw_contact){0};
    *work += (s->points + 4) * (cut->from->points + 8);
    c->off_mm = cut->off_mm;
    c->box = (sw_box){s->box.x0_mm + cut->at.x_mm - c->off_mm, s->box.y0_mm + cut->at.y_mm - c->off_mm,
                      s->box.x1_mm + cut->at.x_mm + c->off_mm, s->box.y1_mm + cut->at.y_mm + c->off_mm};
    take_region(c, cut->from);
    if (!place_points(c, cut, contact) || !split_region(c, cut->from) || !split_shape(c, cut->from, s)) return false;
    if (!cancel_shared(c, contact) || !stays_inside(c)) return false;
    if (contact->corners > 0) {
        contact->drift.x_mm /= (double)contact->corners;
        contact->drift.y_mm /= (double)contact->corners;
    }
    gather(c);
    return trace(c, to);
}
